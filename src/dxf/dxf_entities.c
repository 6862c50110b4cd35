/* dxf_entities.c: LINE, ARC, CIRCLE, POLYLINE, LWPOLYLINE and TEXT of the ENTITIES section.
 * Group codes: DXF reference, ENTITIES (handbook 4.7). */
#include "dxf/dxf_parts.h"

#include <string.h>

/* The groups of one entity that count here. */
enum { X = 1, Y = 2, X1 = 4, Y1 = 8, RADIUS = 16, START = 32, END = 64, WORDS = 128 };

/* The commonest first. */
typedef enum known { VERTEX, POLYLINE, LINE, ARC, CIRCLE, LWPOLYLINE, TEXT, KNOWN_COUNT, UNKNOWN = KNOWN_COUNT } known;
static const char *const known_names[] = {"VERTEX", "POLYLINE", "LINE", "ARC", "CIRCLE", "LWPOLYLINE", "TEXT"};

typedef struct entity {
    known known;
    char kind[DXF_KIND_NAME]; /* its name, for messages */
    int line;
    const char *layer, *text;
    unsigned seen; /* of the bits above */
    double x, y, z, x1, y1, z1, radius, start_deg, end_deg, bulge;
    double nx, ny, nz; /* extrusion direction: drawn in the plane across it */
    int flags, space;  /* group 70, group 67 */
    int promised;      /* group 90: vertices of an LWPOLYLINE; -1 = not said */
    sw_vertex *v;      /* LWPOLYLINE and POLYLINE, in scratch */
    size_t n, room;
} entity;

static sw_status add_vertex(const dxf_pairs *in, entity *e, sw_vertex v)
{
    sw_vertex *grown = sw_grow(in->run, in->run->scratch, e->v, e->n, &e->room, sizeof *grown);
    if (grown == NULL) return SW_NO_MEMORY;
    e->v = grown;
    grown[e->n++] = v;
    return SW_OK;
}

typedef struct slot {
    int code;
    unsigned bit;
    size_t offset; /* of a double in entity */
} slot;

static const slot slots[] = {
    /* the commonest first */
    {10, X, offsetof(entity, x)},
    {20, Y, offsetof(entity, y)},
    {30, 0, offsetof(entity, z)},
    {42, 0, offsetof(entity, bulge)},
    {11, X1, offsetof(entity, x1)},
    {21, Y1, offsetof(entity, y1)},
    {31, 0, offsetof(entity, z1)},
    {40, RADIUS, offsetof(entity, radius)},
    {50, START, offsetof(entity, start_deg)},
    {51, END, offsetof(entity, end_deg)},
    {210, 0, offsetof(entity, nx)},
    {220, 0, offsetof(entity, ny)},
    {230, 0, offsetof(entity, nz)},
};

static sw_status take_number(const dxf_pairs *in, entity *e)
{
    double number;
    size_t k = 0;
    while (k < sizeof slots / sizeof *slots && slots[k].code != in->code) k++;
    if (k == sizeof slots / sizeof *slots) return SW_OK;
    SW_TRY(dxf_number(in, &number));
    memcpy((char *)e + slots[k].offset, &number, sizeof number);
    e->seen |= slots[k].bit;
    return SW_OK;
}

/* Group 10 of an LWPOLYLINE starts its next vertex; 20 and 42 fill it. */
static sw_status take_light_vertex(const dxf_pairs *in, entity *e)
{
    double number;
    if (in->code != 10 && in->code != 20 && in->code != 42) return SW_OK;
    SW_TRY(dxf_number(in, &number));
    if (in->code == 10) return add_vertex(in, e, (sw_vertex){number, NAN, 0.0});
    if (e->n == 0) return dxf_fail(in, in->code_line, "group %d of an LWPOLYLINE before its first group 10", in->code);
    if (in->code == 20) e->v[e->n - 1].y_mm = number;
    if (in->code == 42) e->v[e->n - 1].bulge = number;
    return SW_OK;
}

static sw_status take_group(dxf_pairs *in, entity *e)
{
    if (e->known == UNKNOWN) return SW_OK;
    if (in->code == 8) return dxf_layer(in, &e->layer);
    if (in->code == 70) return dxf_integer(in, &e->flags);
    if (in->code == 67) return dxf_integer(in, &e->space);
    if (in->code == 90 && e->known == LWPOLYLINE) return dxf_integer(in, &e->promised);
    if (in->code == 1 && e->known == TEXT) {
        e->seen |= WORDS;
        return dxf_text(in, &e->text);
    }
    bool light = e->known == LWPOLYLINE && (in->code == 10 || in->code == 20 || in->code == 42);
    return light ? take_light_vertex(in, e) : take_number(in, e);
}

static void take_kind(const dxf_pairs *in, entity *e)
{
    size_t length = in->value_length < DXF_KIND_NAME - 1 ? in->value_length : DXF_KIND_NAME - 1;
    while (e->known < KNOWN_COUNT && !dxf_is(in, known_names[e->known])) e->known++;
    for (size_t i = 0; i < length; i++) {
        unsigned char c = (unsigned char)in->value[i];
        e->kind[i] = c > 0x20 && c < 0x7F ? (char)c : '?';
    }
}

/* The groups of the entity whose group 0 was just read, up to the next group 0, which is held. */
static sw_status read_groups(dxf_pairs *in, entity *e)
{
    *e = (entity){.line = in->value_line, .layer = "0", .nz = 1.0, .promised = -1};
    take_kind(in, e);
    for (;;) {
        SW_TRY(dxf_next(in));
        if (in->code == 0) break;
        SW_TRY(take_group(in, e));
    }
    in->held = true;
    return SW_OK;
}

static sw_status need(const dxf_pairs *in, const entity *e, unsigned bits, const char *groups)
{
    if ((e->seen & bits) == bits) return SW_OK;
    return dxf_fail(in, e->line, "%s lacks a group it needs (%s)", e->kind, groups);
}

/* -1 when drawn from below (extrusion 0, 0, -1: x runs the other way), 1 when from above. */
static sw_status sense(const dxf_pairs *in, const entity *e, double *sign)
{
    *sign = e->nz < 0.0 ? -1.0 : 1.0;
    if (fabs(e->nx) < 1e-6 && fabs(e->ny) < 1e-6 && fabs(fabs(e->nz) - 1.0) < 1e-6) return SW_OK;
    return dxf_fail(in, e->line, "%s is drawn on a plane tilted to (%g, %g, %g); draw it flat in x and y", e->kind,
                    e->nx, e->ny, e->nz);
}

/* ---- what becomes of each ------------------------------------------------------------ */

static sw_status add_loose(dxf_found *found, const char *layer, sw_vertex from, sw_point to)
{
    dxf_loose *grown =
        sw_grow(found->run, found->run->scratch, found->loose, found->loose_count, &found->loose_room, sizeof *grown);
    if (grown == NULL) return SW_NO_MEMORY;
    found->loose = grown;
    grown[found->loose_count++] = (dxf_loose){layer, from, to};
    return SW_OK;
}

static sw_status take_line(const dxf_pairs *in, dxf_found *found, entity *e)
{
    SW_TRY(need(in, e, X | Y | X1 | Y1, "10, 20, 11, 21"));
    if (fabs(e->z - e->z1) > SW_SAME_POINT_MM)
        return dxf_fail(in, e->line, "LINE rises from z %g to %g; only flat drawings are read", e->z, e->z1);
    return add_loose(found, e->layer, (sw_vertex){e->x, e->y, 0.0}, (sw_point){e->x1, e->y1});
}

static sw_status check_radius(const dxf_pairs *in, const entity *e)
{
    if (e->radius > 0.0) return SW_OK;
    return dxf_fail(in, e->line, "%s has radius %g; a positive one is needed", e->kind, e->radius);
}

static sw_status take_circle(const dxf_pairs *in, dxf_found *found, entity *e)
{
    double sign;
    SW_TRY(need(in, e, X | Y | RADIUS, "10, 20, 40"));
    SW_TRY(check_radius(in, e));
    SW_TRY(sense(in, e, &sign));
    const sw_vertex v[2] = {{sign * e->x + e->radius, e->y, 1.0}, {sign * e->x - e->radius, e->y, 1.0}};
    return dxf_add_path(found, e->layer, true, v, 2);
}

static sw_point on_circle(const entity *e, double sign, double angle_rad)
{
    return (sw_point){sign * (e->x + e->radius * cos(angle_rad)), e->y + e->radius * sin(angle_rad)};
}

/* Counter-clockwise from 50 to 51 (degrees), in as many pieces of at most half a turn as it takes. */
static sw_status take_arc(const dxf_pairs *in, dxf_found *found, entity *e)
{
    double sign;
    SW_TRY(need(in, e, X | Y | RADIUS | START | END, "10, 20, 40, 50, 51"));
    SW_TRY(check_radius(in, e));
    SW_TRY(sense(in, e, &sign));
    double sweep_deg = fmod(e->end_deg - e->start_deg, 360.0);
    if (sweep_deg <= 0.0) sweep_deg += 360.0;
    if (sweep_deg >= 360.0 - 1e-9) return take_circle(in, found, e);
    int pieces = sweep_deg > 180.0 ? 2 : 1;
    double from_rad = sw_rad_from_deg(e->start_deg), step_rad = sw_rad_from_deg(sweep_deg) / pieces;
    for (int k = 0; k < pieces; k++) {
        sw_point a = on_circle(e, sign, from_rad + k * step_rad), b = on_circle(e, sign, from_rad + (k + 1) * step_rad);
        SW_TRY(add_loose(found, e->layer, (sw_vertex){a.x_mm, a.y_mm, sign * tan(0.25 * step_rad)}, b));
    }
    return SW_OK;
}

/* A polyline that ends where it starts is closed, whatever its flag says. */
static sw_status take_vertices(const dxf_pairs *in, dxf_found *found, entity *e)
{
    double sign;
    bool closed = (e->flags & 1) != 0;
    SW_TRY(sense(in, e, &sign));
    for (size_t i = 0; i < e->n; i++) {
        if (isnan(e->v[i].y_mm)) return dxf_fail(in, e->line, "vertex %zu of the %s lacks group 20", i, e->kind);
        e->v[i].x_mm *= sign;
        e->v[i].bulge *= sign;
    }
    if (e->n >= 3) {
        sw_vertex a = e->v[0], b = e->v[e->n - 1];
        if (hypot(a.x_mm - b.x_mm, a.y_mm - b.y_mm) <= fmax(found->join_mm, SW_SAME_POINT_MM)) {
            closed = true;
            e->n--;
        }
    }
    if (e->n < 2) return dxf_fail(in, e->line, "%s has %zu vertices; at least 2 are needed", e->kind, e->n);
    return dxf_add_path(found, e->layer, closed, e->v, e->n);
}

static sw_status take_light(const dxf_pairs *in, dxf_found *found, entity *e)
{
    if (e->promised >= 0 && (size_t)e->promised != e->n)
        return dxf_fail(in, e->line, "LWPOLYLINE promises %d vertices (group 90) and has %zu", e->promised, e->n);
    return take_vertices(in, found, e);
}

static sw_status note_skipped(dxf_found *found, const char *kind)
{
    size_t k = 0;
    while (k < found->kind_count && strcmp(found->kinds[k].name, kind) != 0) k++;
    if (k == found->kind_count && k < DXF_KINDS_MAX) {
        const char *name = k + 1 < DXF_KINDS_MAX ? kind : "other";
        memcpy(found->kinds[k].name, name, strlen(name) + 1);
        found->kind_count++;
    }
    found->kinds[k < DXF_KINDS_MAX ? k : DXF_KINDS_MAX - 1].count++;
    return SW_OK;
}

/* Vertices of an old-style polyline, up to its SEQEND, which is read with its groups. */
static sw_status read_vertices(dxf_pairs *in, entity *e)
{
    entity vertex;
    sw_vertex plain;
    for (;;) {
        SW_TRY(dxf_next(in)); /* a group 0, which was held */
        bool end = dxf_is(in, "SEQEND");
        if (!end && !dxf_is(in, "VERTEX"))
            return dxf_fail(in, in->value_line,
                            "\"%.*s\" among the vertices of a POLYLINE; SEQEND is missing before it",
                            (int)(in->value_length < 40 ? in->value_length : 40), in->value);
        if (!end && dxf_plain_vertex(in, &plain)) {
            SW_TRY(add_vertex(in, e, plain));
            continue;
        }
        SW_TRY(read_groups(in, &vertex));
        if (end) return SW_OK;
        SW_TRY(need(in, &vertex, X | Y, "10, 20"));
        SW_TRY(add_vertex(in, e, (sw_vertex){vertex.x, vertex.y, vertex.bulge}));
    }
}

/* Flags: 1 closed; 2 and 4 fitted curves, 8 in space, 16 and 64 meshes: those are not read. */
static sw_status take_polyline(dxf_pairs *in, dxf_found *found, entity *e)
{
    SW_TRY(read_vertices(in, e));
    if ((e->flags & (2 | 4)) != 0) return note_skipped(found, "POLYLINE (fitted)");
    if ((e->flags & (8 | 16 | 64)) != 0) return note_skipped(found, "POLYLINE (in space)");
    if (e->space != 0) return note_skipped(found, "POLYLINE (paper)");
    return take_vertices(in, found, e);
}

static sw_status take_text(const dxf_pairs *in, dxf_found *found, entity *e)
{
    SW_TRY(need(in, e, X | Y | RADIUS | WORDS, "10, 20, 40, 1"));
    sw_dxf_text *grown =
        sw_grow(found->run, found->run->scratch, found->texts, found->text_count, &found->text_room, sizeof *grown);
    if (grown == NULL) return SW_NO_MEMORY;
    found->texts = grown;
    grown[found->text_count++] =
        (sw_dxf_text){e->layer, e->text, {e->x, e->y}, e->radius, sw_rad_from_deg(e->start_deg)};
    return SW_OK;
}

static sw_status take_entity(dxf_pairs *in, dxf_found *found, entity *e)
{
    if (e->known == POLYLINE) return take_polyline(in, found, e);
    if (e->space != 0) return note_skipped(found, "in paper space");
    switch (e->known) {
    case LINE:
        return take_line(in, found, e);
    case ARC:
        return take_arc(in, found, e);
    case CIRCLE:
        return take_circle(in, found, e);
    case LWPOLYLINE:
        return take_light(in, found, e);
    case TEXT:
        return take_text(in, found, e);
    default:
        return note_skipped(found, e->kind);
    }
}

static sw_status check_start(const dxf_pairs *in, dxf_found *found)
{
    if (in->code != 0)
        return dxf_fail(in, in->code_line, "group %d at the start of ENTITIES; group 0 with an entity is needed",
                        in->code);
    if (dxf_is(in, "EOF") || dxf_is(in, "SECTION"))
        return dxf_fail(in, in->value_line, "%.*s inside ENTITIES; ENDSEC is missing before it", (int)in->value_length,
                        in->value);
    if (in->value_length == 0) return dxf_fail(in, in->value_line, "an entity without a name");
    if (++found->entity_count > DXF_ENTITIES_MAX)
        return dxf_fail(in, in->value_line, "more than %d entities; a sheet's drawing has fewer: split the file",
                        DXF_ENTITIES_MAX);
    return SW_OK;
}

sw_status dxf_read_entities(dxf_pairs *in, dxf_found *found)
{
    entity e;
    for (;;) {
        SW_TRY(dxf_next(in));
        if (in->code == 0 && dxf_is(in, "ENDSEC")) return SW_OK;
        SW_TRY(check_start(in, found));
        SW_TRY(read_groups(in, &e));
        SW_TRY(take_entity(in, found, &e));
    }
}
