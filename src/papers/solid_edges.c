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

/* ---- the farthest depth near each pixel: an edge beside its own face counts as seen ---- */

/* Least of each pixel and its neighbours left and right; beyond the rim there is nothing. */
static void least_across(const float *restrict row, float *restrict out, int columns)
{
    out[0] = out[columns - 1] = 0.0f;
    for (int i = 1; i < columns - 1; i++) {
        float low = row[i - 1] < row[i] ? row[i - 1] : row[i];
        out[i] = row[i + 1] < low ? row[i + 1] : low;
    }
}

static void least_of_three(const float *restrict a, const float *restrict b, const float *restrict c,
                           float *restrict out, int columns)
{
    for (int i = 0; i < columns; i++) {
        float low = a[i] < b[i] ? a[i] : b[i];
        out[i] = c[i] < low ? c[i] : low;
    }
}

sw_status solid_farthest(sw_run *run, solid_canvas *c)
{
    size_t n = (size_t)c->columns;
    float *across[3];
    for (int i = 0; i < 3; i++) {
        across[i] = SW_SCRATCH(run, n, float);
        if (across[i] == NULL) return SW_NO_MEMORY;
    }
    for (int row = 0; row < c->rows; row++) { /* across: the rows row - 1, row, row + 1 */
        float *depths = c->depths + (size_t)row * n, *first = across[0];
        if (row == 0) least_across(depths, across[1], c->columns);
        if (row + 1 < c->rows) least_across(depths + n, across[2], c->columns);
        for (int i = 0; row + 1 == c->rows && i < c->columns; i++) across[2][i] = 0.0f;
        least_of_three(across[0], across[1], across[2], depths, c->columns);
        across[0] = across[1];
        across[1] = across[2];
        across[2] = first;
    }
    return SW_OK;
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

static bool shows(const solid_canvas *c, double x, double y, double z) /* pixels */
{
    if (!(x >= 0.0 && y >= 0.0 && x < c->columns && y < c->rows)) return true;
    return z >= (double)c->depths[(size_t)y * (size_t)c->columns + (size_t)x];
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
