/* fittings_gaps.c: how far it is from the edges of a board, pane or grate to what lies beside it.
 *
 * Rays start 1 mm inside the middle plane's edge, at places where the outline lies on the side of its box, at a quarter and
 * three quarters of the thickness, and run in the part's own plane. Targets are the folded pieces' meshes and the boxes of
 * the other items, in the stove's frame; only triangles near the part are asked.
 * Source of the crossing of ray and triangle: Moeller & Trumbore 1997 (from memory). */
#include "making/fittings/fittings_parts.h"

#include <math.h>

static const double reach_mm = 30, inside_mm = 1, on_side_mm = 0.05;
enum { PLACES = 5, DEPTHS = 2 };

typedef struct gap_body { /* a placed piece or the box of a placed item */
    sw_mesh mesh;         /* in its own frame */
    sw_vec3 low, high;
    sw_frame frame;
    const char *name;
    const sw_item *item; /* NULL: a piece */
    size_t placement;
} gap_body;

struct fittings_gaps {
    bool known;
    gap_body *bodies;
    size_t count;
};

typedef struct gap_triangle {
    sw_vec3 a, b, c;
    const char *name;
} gap_triangle;

typedef struct gap_near { /* triangles near one place of an item, in its frame */
    gap_triangle *triangles;
    size_t count, room;
} gap_near;

static sw_status box_mesh(sw_run *run, const sw_item *item, sw_mesh *mesh)
{
    static const sw_triangle faces[12] = {{0, 2, 1}, {1, 2, 3}, {4, 5, 6}, {5, 7, 6}, {0, 1, 4}, {1, 5, 4},
                                          {2, 6, 3}, {3, 6, 7}, {0, 4, 2}, {2, 4, 6}, {1, 3, 5}, {3, 7, 5}};
    sw_box b = sw_contour_box(item->shape.outline);
    sw_vec3 *corners = SW_SCRATCH(run, 8, sw_vec3);
    if (corners == NULL) return SW_NO_MEMORY;
    for (int k = 0; k < 8; k++)
        corners[k] = (sw_vec3){k & 1 ? b.x1_mm : b.x0_mm, k & 2 ? b.y1_mm : b.y0_mm, k & 4 ? item->thickness_mm : 0};
    *mesh = (sw_mesh){corners, 8, faces, 12};
    return SW_OK;
}

static void add_bodies(fittings_gaps *g, gap_body one, const sw_frame *frames, size_t count)
{
    sw_mesh_box(&one.mesh, &one.low, &one.high);
    for (size_t k = 0; k < count; k++) {
        one.frame = frames[k];
        one.placement = k;
        g->bodies[g->count++] = one;
    }
}

sw_status fittings_gaps_make(sw_run *run, const fittings_job *job, fittings_gaps **gaps)
{
    const sw_stove *stove = job->in->stove;
    size_t most = 0;
    for (size_t i = 0; i < stove->piece_count; i++) most += stove->pieces[i].count;
    for (size_t i = 0; i < stove->item_count; i++) most += stove->items[i].count;
    fittings_gaps *g = *gaps = SW_SCRATCH(run, 1, fittings_gaps);
    if (g == NULL) return SW_NO_MEMORY;
    g->known = job->in->meshes != NULL;
    if (!g->known) return SW_OK;
    g->bodies = SW_SCRATCH(run, most, gap_body);
    if (g->bodies == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < stove->piece_count; i++) {
        const sw_piece *p = &stove->pieces[i];
        add_bodies(g, (gap_body){.mesh = *job->in->meshes[i], .name = p->name}, p->placements, p->count);
    }
    for (size_t i = 0; i < stove->item_count; i++) {
        const sw_item *item = &stove->items[i];
        gap_body one = {.name = item->name, .item = item};
        if (item->shape.outline.n == 0) continue;
        SW_TRY(box_mesh(run, item, &one.mesh));
        add_bodies(g, one, item->placements, item->count);
    }
    return SW_OK;
}

/* ---- one place ---- */

typedef struct gap_room {
    sw_vec3 low, high;
} gap_room;

static gap_room room_round(const sw_item *item)
{
    sw_box b = sw_contour_box(item->shape.outline);
    return (gap_room){{b.x0_mm - reach_mm, b.y0_mm - reach_mm, 0},
                      {b.x1_mm + reach_mm, b.y1_mm + reach_mm, item->thickness_mm}};
}

/* Whether the box round some points misses the room. */
static bool misses(const gap_room *room, const sw_vec3 *points, size_t count)
{
    sw_vec3 low = points[0], high = points[0];
    for (size_t i = 1; i < count; i++) {
        low = (sw_vec3){fmin(low.x_mm, points[i].x_mm), fmin(low.y_mm, points[i].y_mm), fmin(low.z_mm, points[i].z_mm)};
        high = (sw_vec3){fmax(high.x_mm, points[i].x_mm), fmax(high.y_mm, points[i].y_mm),
                         fmax(high.z_mm, points[i].z_mm)};
    }
    return low.x_mm > room->high.x_mm || high.x_mm < room->low.x_mm || low.y_mm > room->high.y_mm ||
           high.y_mm < room->low.y_mm || low.z_mm > room->high.z_mm || high.z_mm < room->low.z_mm;
}

static bool body_misses(const gap_room *room, const gap_body *body, sw_frame at)
{
    sw_vec3 corners[8];
    for (int k = 0; k < 8; k++) {
        sw_vec3 p = {k & 1 ? body->high.x_mm : body->low.x_mm, k & 2 ? body->high.y_mm : body->low.y_mm,
                     k & 4 ? body->high.z_mm : body->low.z_mm};
        corners[k] = sw_frame_local(at, sw_frame_point(body->frame, p));
    }
    return misses(room, corners, 8);
}

static sw_status add_near(sw_run *run, gap_near *near, const gap_room *room, const gap_body *body, sw_frame at)
{
    sw_vec3 *points = SW_SCRATCH(run, body->mesh.point_count, sw_vec3);
    if (points == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < body->mesh.point_count; i++)
        points[i] = sw_frame_local(at, sw_frame_point(body->frame, body->mesh.points[i]));
    for (size_t i = 0; i < body->mesh.triangle_count; i++) {
        sw_triangle t = body->mesh.triangles[i];
        const sw_vec3 corners[3] = {points[t.a], points[t.b], points[t.c]};
        if (misses(room, corners, 3)) continue;
        gap_triangle *triangles =
            sw_grow(run, run->scratch, near->triangles, near->count, &near->room, sizeof *triangles);
        if (triangles == NULL) return SW_NO_MEMORY;
        near->triangles = triangles;
        near->triangles[near->count++] = (gap_triangle){corners[0], corners[1], corners[2], body->name};
    }
    return SW_OK;
}

static sw_status pick_near(sw_run *run, const fittings_gaps *g, const sw_item *item, size_t placement, gap_near *near)
{
    gap_room room = room_round(item);
    sw_frame at = item->placements[placement];
    for (size_t i = 0; i < g->count; i++) {
        const gap_body *body = &g->bodies[i];
        if (body->item == item && body->placement == placement) continue;
        if (body_misses(&room, body, at)) continue;
        SW_TRY(add_near(run, near, &room, body, at));
    }
    return SW_OK;
}

/* Way along unit d from p to the triangle; INFINITY when it is missed. */
static double way_to(sw_vec3 p, sw_vec3 d, const gap_triangle *t)
{
    const double flat = 1e-12;
    sw_vec3 e1 = sw_vec3_sub(t->b, t->a), e2 = sw_vec3_sub(t->c, t->a), h = sw_vec3_cross(d, e2);
    double det = sw_vec3_dot(e1, h);
    if (fabs(det) < flat) return INFINITY;
    sw_vec3 s = sw_vec3_sub(p, t->a);
    double u = sw_vec3_dot(s, h) / det;
    sw_vec3 q = sw_vec3_cross(s, e1);
    double v = sw_vec3_dot(d, q) / det, way = sw_vec3_dot(e2, q) / det;
    return u < 0 || v < 0 || u + v > 1 || way < 0 ? (double)INFINITY : way;
}

static void cast(const gap_near *near, sw_vec3 p, sw_vec3 d, double *gap_mm, const char **beside)
{
    for (size_t i = 0; i < near->count; i++) {
        double way_mm = way_to(p, d, &near->triangles[i]) - inside_mm;
        if (way_mm > reach_mm || way_mm >= *gap_mm) continue;
        *gap_mm = way_mm;
        *beside = near->triangles[i].name;
    }
}

/* Where on a side of the box a ray begins, and its direction. */
static sw_point on_side(sw_box b, sw_side side, double t, sw_vec3 *d)
{
    bool x_way = side == SW_SIDE_LEFT || side == SW_SIDE_RIGHT;
    double sign = side == SW_SIDE_LEFT || side == SW_SIDE_BELOW ? -1 : 1;
    *d = (sw_vec3){x_way ? sign : 0, x_way ? 0 : sign, 0};
    double x_mm = x_way ? (sign < 0 ? b.x0_mm : b.x1_mm) : b.x0_mm + t * (b.x1_mm - b.x0_mm);
    double y_mm = x_way ? b.y0_mm + t * (b.y1_mm - b.y0_mm) : (sign < 0 ? b.y0_mm : b.y1_mm);
    return (sw_point){x_mm, y_mm};
}

static void side_gap(const sw_item *item, const gap_near *near, sw_side side, double *gap_mm, const char **beside)
{
    sw_box b = sw_contour_box(item->shape.outline);
    for (int k = 0; k < PLACES; k++) {
        sw_vec3 d;
        sw_point p = on_side(b, side, 0.1 + 0.8 * k / (PLACES - 1), &d);
        if (sw_contour_distance(item->shape.outline, p) > on_side_mm) continue;
        if (isnan(*gap_mm)) *gap_mm = INFINITY;
        for (int z = 0; z < DEPTHS; z++) {
            sw_vec3 from = {p.x_mm - inside_mm * d.x_mm, p.y_mm - inside_mm * d.y_mm,
                            item->thickness_mm * (0.25 + 0.5 * z)};
            cast(near, from, d, gap_mm, beside);
        }
    }
}

static sw_status measured(sw_run *run, const fittings_gaps *g, const sw_item *item, size_t placement,
                          double gap_mm[SW_SIDES], const char *beside[SW_SIDES])
{
    gap_near near = {0};
    SW_TRY(pick_near(run, g, item, placement, &near));
    for (int k = 0; k < SW_SIDES; k++) side_gap(item, &near, (sw_side)k, &gap_mm[k], &beside[k]);
    return SW_OK;
}

sw_status fittings_gaps_of(sw_run *run, const fittings_gaps *gaps, const sw_item *item, size_t placement,
                           double gap_mm[SW_SIDES], const char *beside[SW_SIDES])
{
    for (int s = 0; s < SW_SIDES; s++) {
        gap_mm[s] = NAN;
        beside[s] = "";
    }
    if (!gaps->known) return SW_OK;
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = measured(run, gaps, item, placement, gap_mm, beside);
    sw_arena_rewind(run->scratch, mark);
    return status;
}
