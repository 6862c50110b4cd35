/* read_outline.c: rectangle, polygon, disc and from_dxf: outlines with named edges. */
#include "design/design_parts.h"

#include "dxf/dxf.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { MOST_POINTS = 20000, DXF_BYTES = 8 << 20 };
static const double largest_mm = 2e4; /* geometry.h: coordinates up to this work */

static design_outline *new_outline(const design_scope *s, size_t n)
{
    design_outline *o = DESIGN_TAKE(s->d, 1, design_outline);
    o->v = DESIGN_TAKE(s->d, n, sw_vertex);
    o->round_mm = DESIGN_TAKE(s->d, n, double);
    o->edge = DESIGN_TAKE(s->d, n, const char *);
    o->n = n;
    o->place = s->place;
    return o;
}

static int push_outline(lua_State *L, design_outline *o)
{
    design_push_box(L, DESIGN_OUTLINE_BOX, o);
    return 1;
}

static int push_bad(const design_scope *s)
{
    design_outline *o = new_outline(s, 0);
    o->bad = true;
    return push_outline(s->d->L, o);
}

static int push_rounded(const design_scope *s, design_outline *o)
{
    sw_contour rounded;
    design_outline_contour(s->d, o, &rounded); /* notes corners that cannot be rounded */
    o->bad = rounded.n == 0;
    return push_outline(s->d->L, o);
}

/* ---- rectangle and disc ---- */

typedef struct rectangle {
    double width_mm, height_mm, corner_mm;
    sw_point at;
} rectangle;

static int make_rectangle(lua_State *L)
{
    static const design_field fields[] = {
        {.name = "width",
         .kind = DESIGN_LENGTH,
         .offset = offsetof(rectangle, width_mm),
         .needed = true,
         .low = 0.1,
         .high = 2e4,
         .position = 1},
        {.name = "height",
         .kind = DESIGN_LENGTH,
         .offset = offsetof(rectangle, height_mm),
         .needed = true,
         .low = 0.1,
         .high = 2e4,
         .position = 2},
        {.name = "corner", .kind = DESIGN_LENGTH, .offset = offsetof(rectangle, corner_mm), .low = 0.0, .high = 1e4},
        {.name = "at", .kind = DESIGN_POINT, .offset = offsetof(rectangle, at)},
    };
    static const char *const names[] = {"bottom", "right", "top", "left"};
    design_scope s;
    rectangle r = {0};
    if (!design_open(L, "", "rectangle", &s)) return push_bad(&s);
    if (!design_read_fields(&s, fields, DESIGN_COUNT_OF(fields), false, &r)) return push_bad(&s);
    design_outline *o = new_outline(&s, 4);
    for (size_t i = 0; i < 4; i++) {
        bool right = i == 1 || i == 2, top = i >= 2;
        o->v[i] = (sw_vertex){r.at.x_mm + (right ? r.width_mm : 0.0), r.at.y_mm + (top ? r.height_mm : 0.0), 0.0};
        o->round_mm[i] = r.corner_mm;
        o->edge[i] = names[i];
    }
    return push_rounded(&s, o);
}

typedef struct disc {
    double d_mm;
    sw_point at;
} disc;

static int make_disc(lua_State *L)
{
    static const design_field fields[] = {
        {.name = "d", .kind = DESIGN_LENGTH, .offset = offsetof(disc, d_mm), .needed = true, .low = 0.1, .high = 2e4},
        {.name = "at", .kind = DESIGN_POINT, .offset = offsetof(disc, at)},
    };
    design_scope s;
    disc c = {0};
    if (!design_open(L, "", "disc", &s)) return push_bad(&s);
    if (!design_read_fields(&s, fields, DESIGN_COUNT_OF(fields), false, &c)) return push_bad(&s);
    design_outline *o = new_outline(&s, 2);
    o->v[0] = (sw_vertex){c.at.x_mm + c.d_mm / 2.0, c.at.y_mm, 1.0};
    o->v[1] = (sw_vertex){c.at.x_mm - c.d_mm / 2.0, c.at.y_mm, 1.0};
    o->edge[0] = o->edge[1] = "rim";
    return push_outline(L, o);
}

/* ---- polygon ---- */

typedef struct corner {
    double x_mm, y_mm, round_mm, sweep_rad;
    const char *edge;
} corner;

static bool read_corner(const design_scope *s, size_t i, corner *c)
{
    static const design_field fields[] = {
        {.name = "x",
         .kind = DESIGN_LENGTH,
         .offset = offsetof(corner, x_mm),
         .needed = true,
         .low = -2e4,
         .high = 2e4,
         .position = 1},
        {.name = "y",
         .kind = DESIGN_LENGTH,
         .offset = offsetof(corner, y_mm),
         .needed = true,
         .low = -2e4,
         .high = 2e4,
         .position = 2},
        {.name = "round", .kind = DESIGN_LENGTH, .offset = offsetof(corner, round_mm), .low = 0.0, .high = 1e4},
        {.name = "sweep",
         .kind = DESIGN_ANGLE,
         .offset = offsetof(corner, sweep_rad),
         .low = -1.95 * SW_PI,
         .high = 1.95 * SW_PI},
        {.name = "edge", .kind = DESIGN_TEXT, .offset = offsetof(corner, edge)},
    };
    lua_State *L = s->d->L;
    *c = (corner){.edge = NULL};
    (void)lua_geti(L, s->table, (lua_Integer)i + 1);
    design_scope inner = design_within(s, "", i + 1);
    bool good = lua_istable(L, -1);
    if (!good)
        design_fault(&inner, "", "is %s, but a corner is needed, e.g. {20*mm, 30*mm}", design_describe(s, inner.table));
    else
        good = design_read_fields(&inner, fields, DESIGN_COUNT_OF(fields), false, c);
    lua_pop(L, 1);
    if (good && c->round_mm > 0.0 && fabs(c->sweep_rad) > 0.0) {
        design_fault(&inner, "round", "cannot round a corner where an arc (sweep) starts; round straight corners only");
        good = false;
    }
    return good;
}

static void set_corner(design *d, design_outline *o, size_t i, const corner *c)
{
    o->v[i] = (sw_vertex){c->x_mm, c->y_mm, tan(c->sweep_rad / 4.0)};
    o->round_mm[i] = c->round_mm;
    o->edge[i] = c->edge != NULL ? c->edge : design_text(d, "edge %zu", i + 1);
}

static int by_text(const void *a, const void *b)
{
    return strcmp(*(const char *const *)a, *(const char *const *)b);
}

/* A name may stand on neighbouring segments (one run), not at two places of the outline. */
static bool names_apart(const design_scope *s, const design_outline *o)
{
    const char **starts = DESIGN_TAKE(s->d, o->n, const char *); /* names of runs */
    size_t count = 0;
    for (size_t i = 0; i < o->n; i++)
        if (strncmp(o->edge[i], "edge ", 5) != 0 && strcmp(o->edge[(i + o->n - 1) % o->n], o->edge[i]) != 0)
            starts[count++] = o->edge[i];
    qsort(starts, count, sizeof *starts, by_text);
    for (size_t i = 1; i < count; i++) {
        if (strcmp(starts[i - 1], starts[i]) != 0) continue;
        design_fault(s, "", "the edge name \"%s\" stands at two places; give each its own name", starts[i]);
        return false;
    }
    return true;
}

static bool sound(const design_scope *s, const design_outline *o)
{
    const char *fault = NULL;
    sw_contour c = {o->v, o->n};
    design_charge_contours(s->d, &c, 1);
    design_must(s->d, sw_contour_fault(s->d->run, c, &fault));
    if (fault != NULL) {
        design_fault(s, "", "cannot be cut: %s", fault);
        return false;
    }
    if (sw_contour_area(c) > 0.0) return true;
    design_fault(s, "", "runs clockwise; list the corners counter-clockwise, seen from the front");
    return false;
}

static int make_polygon(lua_State *L)
{
    design_scope s;
    if (!design_open(L, "", "polygon", &s)) return push_bad(&s);
    size_t n = lua_rawlen(L, 1);
    bool good = design_read_fields(&s, NULL, 0, true, NULL);
    if (n < 2 || n > MOST_POINTS) {
        design_fault(&s, "", "has %zu corners, allowed is 2 (with arcs) or 3 to %d", n, MOST_POINTS);
        return push_bad(&s);
    }
    design_outline *o = new_outline(&s, n);
    for (size_t i = 0; i < n; i++) {
        corner c;
        if (read_corner(&s, i, &c))
            set_corner(s.d, o, i, &c);
        else
            good = false;
    }
    if (!good || !sound(&s, o) || !names_apart(&s, o)) return push_bad(&s);
    return push_rounded(&s, o);
}

void design_outline_contour(design *d, const design_outline *o, sw_contour *out)
{
    design_ring ring = {o->v, o->round_mm, NULL, NULL, o->n}, done;
    *out = (sw_contour){NULL, 0};
    if (o->bad) return;
    design_charge_contours(d, &(sw_contour){o->v, o->n}, 1);
    int wrong = design_ring_round(d, &ring, &done);
    if (wrong >= 0)
        design_note(
            d, SW_BAD_INPUT, o->place, "outline",
            "the radius %g mm does not fit corner %d at (%g, %g): the edges beside it are too short or not straight",
            o->round_mm[wrong], wrong + 1, o->v[wrong].x_mm, o->v[wrong].y_mm);
    else
        *out = (sw_contour){done.v, done.n};
}

/* ---- from_dxf ---- */

typedef struct drawing {
    const char *layer;
    sw_point at;
    double turn_rad;
} drawing;

static bool read_drawing_options(lua_State *L, const design_scope *s, drawing *out)
{
    static const design_field fields[] = {
        {.name = "layer", .kind = DESIGN_TEXT, .offset = offsetof(drawing, layer)},
        {.name = "at", .kind = DESIGN_POINT, .offset = offsetof(drawing, at)},
        {.name = "turn",
         .kind = DESIGN_ANGLE,
         .offset = offsetof(drawing, turn_rad),
         .low = -2 * SW_PI,
         .high = 2 * SW_PI},
    };
    *out = (drawing){.layer = NULL};
    if (lua_isnoneornil(L, 2)) return true;
    if (lua_istable(L, 2)) return design_read_fields(s, fields, DESIGN_COUNT_OF(fields), false, out);
    design_fault(s, "", "the second argument is %s, but a table is needed, e.g. { layer = \"CUT\" }",
                 design_describe(s, 2));
    return false;
}

/* The region of a drawing beside the description; false when it cannot be had (noted). */
static bool read_region(const design_scope *s, const char *path, const drawing *options, sw_region *region)
{
    design *d = s->d;
    sw_dxf_drawing dxf;
    const char *bytes, *skipped;
    size_t length, before = d->run->error_count;
    sw_status status = sw_file_read(d->run, path, DXF_BYTES, &bytes, &length);
    if (status == SW_OK) status = sw_dxf_read(d->run, path, bytes, length, SW_SHORTEST_MM, &dxf, &skipped);
    if (status == SW_OK) status = sw_dxf_region(d->run, path, &dxf, options->layer, region);
    if (status == SW_NO_MEMORY || status == SW_CANCELLED) design_must(d, status);
    if (status == SW_OK) return true;
    SW_ASSERT(d->run->error_count > before);
    design_fault(s, "", "the drawing \"%s\" cannot be used, see the message before", lua_tostring(d->L, 1));
    return false;
}

static int outline_of_region(const design_scope *s, const sw_region *region, const drawing *options)
{
    sw_motion motion = {.turn_rad = options->turn_rad, .dx_mm = options->at.x_mm, .dy_mm = options->at.y_mm};
    sw_contour moved;
    design_must(s->d, sw_contour_moved(s->d->run, region->outline, motion, &moved));
    if (sw_contour_area(moved) < 0.0) design_must(s->d, sw_contour_reversed(s->d->run, moved, &moved));
    design_outline *o = new_outline(s, moved.n);
    memcpy(o->v, moved.v, moved.n * sizeof *o->v);
    for (size_t i = 0; i < o->n; i++) {
        o->edge[i] = design_text(s->d, "edge %zu", i + 1);
        if (fabs(o->v[i].x_mm) <= largest_mm && fabs(o->v[i].y_mm) <= largest_mm) continue;
        design_fault(s, "", "point %zu of the drawing lies beyond %g mm", i + 1, largest_mm);
        return push_bad(s);
    }
    if (!sound(s, o)) return push_bad(s);
    return push_outline(s->d->L, o);
}

static int from_dxf(lua_State *L)
{
    lua_settop(L, 2);
    design_scope s = {.d = design_of(L), .table = 2, .place = design_line(L), .subject = "", .path = "from_dxf"};
    drawing options;
    sw_region region;
    const char *path = design_beside(&s, "", 1);
    if (path == NULL || !read_drawing_options(L, &s, &options) || !read_region(&s, path, &options, &region))
        return push_bad(&s);
    if (region.hole_count > 0) {
        design_fault(&s, "",
                     "the drawing \"%s\" has %zu cut-outs; from_dxf takes one outline only, name the layer it "
                     "stands on or declare the cut-outs as window { outline = from_dxf(...) }",
                     lua_tostring(L, 1), region.hole_count);
        return push_bad(&s);
    }
    return outline_of_region(&s, &region, &options);
}

int design_setup_shapes(lua_State *L)
{
    lua_register(L, "rectangle", make_rectangle);
    lua_register(L, "polygon", make_polygon);
    lua_register(L, "disc", make_disc);
    lua_register(L, "from_dxf", from_dxf);
    return design_setup_cuts(L);
}
