/* solid_edges.c: keeps the visible stretches of the edges worth drawing (sharp ones, and where front turns to back) by
 * sampling the depth buffer about once a pixel. */
#include "papers/solid_parts.h"

#include <math.h>

static bool worth_drawing(const solid_seen *s, const solid_edge *e)
{
    if (e->second == 0) return true;
    bool front1 = solid_faces(s, e->first - 1), front2 = solid_faces(s, e->second - 1);
    return front1 != front2 || (front1 && e->sharp);
}

/* ---- what of an edge is seen ---- */

static sw_status add_line(sw_run *run, solid_lines *lines, sw_vec3 p, sw_vec3 step, double from, double to)
{
    sw_point(*items)[2] = sw_grow(run, run->scratch, lines->items, lines->count, &lines->room, sizeof *items);
    if (items == NULL) return SW_NO_MEMORY;
    lines->items = items;
    items[lines->count][0] = (sw_point){p.x_mm + from * step.x_mm, p.y_mm + from * step.y_mm};
    items[lines->count][1] = (sw_point){p.x_mm + to * step.x_mm, p.y_mm + to * step.y_mm};
    lines->count++;
    return SW_OK;
}

/* Before the farthest of the pixels about it: an edge beside its own face counts as seen. Beyond the rim is nothing. */
static bool shows(const solid_canvas *c, double x, double y, double z) /* pixels */
{
    if (!(x >= 1.0 && y >= 1.0 && x < c->columns - 1 && y < c->rows - 1)) return true;
    const float *middle = c->depths + (size_t)y * (size_t)c->columns + (size_t)x;
    if (z >= (double)*middle) return true;
    for (const float *row = middle - c->columns; row <= middle + c->columns; row += c->columns)
        if (z >= (double)row[-1] || z >= (double)row[0] || z >= (double)row[1]) return true;
    return false;
}

static sw_status visible_stretches(sw_run *run, const solid_canvas *c, sw_vec3 p, sw_vec3 q, solid_lines *lines)
{
    sw_vec3 whole = sw_vec3_sub(q, p);
    double length_mm = sqrt(whole.x_mm * whole.x_mm + whole.y_mm * whole.y_mm), k = c->pixels_per_mm;
    if (length_mm < 0.01) return SW_OK;
    int steps = (int)ceil(length_mm * k);
    sw_vec3 step = sw_vec3_scaled(whole, 1.0 / steps);
    double x = p.x_mm * k, y = p.y_mm * k, z = p.z_mm + 0.35 / k, dx = step.x_mm * k,
           dy = step.y_mm * k;  /* allowance */
    int begun = -1, hidden = 0; /* a single hidden sample is rounding and is passed over */
    for (int i = 0; i < steps; i++) {
        double t = i + 0.5;
        bool seen = shows(c, x + t * dx, y + t * dy, z + t * step.z_mm);
        hidden = seen ? 0 : hidden + 1;
        if (seen && begun < 0) begun = i;
        if (begun < 0 || hidden < 2) continue;
        SW_TRY(add_line(run, lines, p, step, begun, i - 1));
        begun = -1;
    }
    return begun < 0 ? SW_OK : add_line(run, lines, p, step, begun, steps - hidden);
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
