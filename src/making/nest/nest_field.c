#include "making/nest/nest_field_parts.h"

#include <math.h>

/* Whether the way from (x, y) to (mx, my) crosses the line; a line's end belongs to one of its two neighbours only. */
static bool crosses(const nest_line *l, double x, double y, double mx, double my)
{
    double a = (mx - x) * (l->ay - y) - (my - y) * (l->ax - x), b = (mx - x) * (l->by - y) - (my - y) * (l->bx - x);
    if ((a > 0) == (b > 0)) return false;
    double dx = l->bx - l->ax, dy = l->by - l->ay;
    double p = dx * (y - l->ay) - dy * (x - l->ax), m = dx * (my - l->ay) - dy * (mx - l->ax);
    return (p > 0) != (m > 0);
}

/* Exact depth in a cell on the boundary: parity from the cell's known point, distance from the listed edges. */
static double depth_on_edge(const nest_field *f, uint32_t i, uint32_t j, double x, double y)
{
    uint32_t cell = j * f->nx + i;
    double mx = f->x0_mm + (i + NEST_CELL_X) * f->cell_mm, my = f->y0_mm + (j + NEST_CELL_Y) * f->cell_mm,
           best = (double)INFINITY;
    bool deep = f->kind[cell] == NEST_CELL_EDGE_DEEP;
    for (uint32_t k = f->first[cell]; k < f->first[cell + 1]; k++) {
        const nest_line *l = &f->lines[f->near[k]];
        double d2 = nest_line_distance2(l, x, y);
        if (d2 < best) best = d2;
        if (crosses(l, x, y, mx, my)) deep = !deep;
    }
    return deep ? sqrt(best) : 0;
}

double nest_field_depth(const nest_field *f, double x_mm, double y_mm)
{
    double gx = (x_mm - f->x0_mm) * f->per_mm, gy = (y_mm - f->y0_mm) * f->per_mm;
    if (!(gx > 0 && gy > 0 && gx < f->nx && gy < f->ny)) return 0;
    uint32_t i = (uint32_t)gx, j = (uint32_t)gy;
    uint8_t kind = f->kind[j * f->nx + i];
    if (kind == NEST_CELL_FREE) return 0;
    if (kind != NEST_CELL_DEEP) return depth_on_edge(f, i, j, x_mm, y_mm);
    const float *low = f->corner + (size_t)j * (f->nx + 1) + i, *high = low + f->nx + 1;
    double a = gx - i, b = gy - j;
    return ((double)low[0] * (1 - a) + (double)low[1] * a) * (1 - b) +
           ((double)high[0] * (1 - a) + (double)high[1] * a) * b;
}
