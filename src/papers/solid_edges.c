/* solid_edges.c: finds the edges worth drawing (sharp ones, and where front turns to back) and keeps their visible
 * stretches by sampling the depth buffer about once a pixel. */
#include "papers/solid_parts.h"

#include <math.h>
#include <string.h>

static bool worth_drawing(const solid_seen *s, const solid_edge *e)
{
    if (e->second == 0) return true;
    bool front1 = solid_faces(s, e->first - 1), front2 = solid_faces(s, e->second - 1);
    return front1 != front2 || (front1 && e->sharp);
}

/* ---- what of an edge is seen ---- */

/* Farthest depth in the 3 x 3 pixels about a point: an edge beside its own face counts as seen. */
static double farthest(const solid_canvas *c, double x_mm, double y_mm)
{
    int column = (int)floor(x_mm * c->pixels_per_mm), row = (int)floor(y_mm * c->pixels_per_mm);
    double far = INFINITY;
    for (int j = row - 1; j <= row + 1; j++) {
        for (int i = column - 1; i <= column + 1; i++) {
            if (i < 0 || j < 0 || i >= c->columns || j >= c->rows) return -INFINITY;
            far = fmin(far, (double)c->depths[(size_t)j * (size_t)c->columns + (size_t)i]);
        }
    }
    return far;
}

static sw_vec3 between(sw_vec3 p, sw_vec3 q, double t)
{
    return sw_vec3_add(p, sw_vec3_scaled(sw_vec3_sub(q, p), t));
}

static bool shows(const solid_canvas *c, sw_vec3 p)
{
    double allowance_mm = 0.35 / c->pixels_per_mm;
    return p.z_mm + allowance_mm >= farthest(c, p.x_mm, p.y_mm);
}

static sw_status add_line(sw_run *run, solid_lines *lines, sw_vec3 p, sw_vec3 q)
{
    sw_point(*items)[2] = sw_grow(run, run->scratch, lines->items, lines->count, &lines->room, sizeof *items);
    if (items == NULL) return SW_NO_MEMORY;
    lines->items = items;
    items[lines->count][0] = (sw_point){p.x_mm, p.y_mm};
    items[lines->count][1] = (sw_point){q.x_mm, q.y_mm};
    lines->count++;
    return SW_OK;
}

static sw_status visible_stretches(sw_run *run, const solid_canvas *c, sw_vec3 p, sw_vec3 q, solid_lines *lines)
{
    double length_mm = hypot(q.x_mm - p.x_mm, q.y_mm - p.y_mm);
    if (length_mm < 0.01) return SW_OK;
    int steps = (int)ceil(length_mm * c->pixels_per_mm);
    int begun = -1, hidden = 0; /* a single hidden sample is rounding and is passed over */
    for (int i = 0; i < steps; i++) {
        bool seen = shows(c, between(p, q, (i + 0.5) / steps));
        hidden = seen ? 0 : hidden + 1;
        if (seen && begun < 0) begun = i;
        if (begun < 0 || hidden < 2) continue;
        SW_TRY(add_line(run, lines, between(p, q, (double)begun / steps), between(p, q, (double)(i - 1) / steps)));
        begun = -1;
    }
    if (begun < 0) return SW_OK;
    return add_line(run, lines, between(p, q, (double)begun / steps), between(p, q, (double)(steps - hidden) / steps));
}

sw_status solid_edges(sw_run *run, const solid_canvas *canvas, const solid_seen *s, solid_lines *lines)
{
    for (size_t i = 0; i < s->shape->edge_count; i++) {
        const solid_edge *e = &s->shape->edges[i];
        if (!worth_drawing(s, e)) continue;
        SW_TRY(visible_stretches(run, canvas, s->points[e->a], s->points[e->b], lines));
    }
    return SW_OK;
}
