#include "making/nest/nest_field_parts.h"

#include <math.h>

/* Parity from the cell's known point, distance from the listed edges. */
double nest_field_by_edges(const nest_field *f, const nest_grid_cell *cell, sw_point known, double x, double y)
{
    double best = (double)INFINITY;
    bool deep = cell->kind == NEST_CELL_EDGE_DEEP;
    const uint32_t *near = f->near + cell->first, *end = near + cell->count;
    for (; near < end; near++) {
        const nest_line *l = &f->lines[*near];
        double d2 = nest_line_distance2(l, x, y);
        if (d2 < best) best = d2;
        if (nest_line_crosses(l, x, y, known.x_mm, known.y_mm)) deep = !deep;
    }
    return deep ? sqrt(best) : 0;
}

/* ---- slope ------------------------------------------------------------------------------------------------ */

static double slope_of_planes(const nest_field *f, const nest_grid_cell *cell, double x, double y, nest_slope *slope)
{
    const nest_plane *p = f->planes + cell->first, *end = p + cell->count;
    double least = (double)INFINITY;
    for (; p < end; p++) {
        double d = p->a * x + p->b * y + p->c;
        if (d >= least) continue;
        least = d;
        *slope = (nest_slope){p->a, p->b};
    }
    return least;
}

static double slope_between(const nest_field *f, const float *low, double a, double b, nest_slope *slope)
{
    const float *high = low + f->nx + 1;
    slope->x = ((double)(low[1] - low[0]) * (1 - b) + (double)(high[1] - high[0]) * b) * f->per_mm;
    slope->y = ((double)(high[0] - low[0]) * (1 - a) + (double)(high[1] - low[1]) * a) * f->per_mm;
    return nest_field_between(low, high, a, b);
}

/* Away from the nearest edge. */
static double slope_of_edges(const nest_field *f, const nest_grid_cell *cell, double x, double y, double depth_mm,
                             nest_slope *slope)
{
    const uint32_t *near = f->near + cell->first, *end = near + cell->count;
    const nest_line *nearest = &f->lines[*near];
    double best = (double)INFINITY;
    if (!(depth_mm > 0)) return 0;
    for (; near < end; near++) {
        double d2 = nest_line_distance2(&f->lines[*near], x, y);
        if (d2 < best) best = d2, nearest = &f->lines[*near];
    }
    sw_point at = nest_line_nearest(nearest, x, y);
    *slope = (nest_slope){(x - at.x_mm) / depth_mm, (y - at.y_mm) / depth_mm};
    return depth_mm;
}

double nest_field_slope(const nest_field *f, double x_mm, double y_mm, nest_slope *slope)
{
    double gx = (x_mm - f->x0_mm) * f->per_mm, gy = (y_mm - f->y0_mm) * f->per_mm, depth_mm = 0;
    *slope = (nest_slope){0};
    if (!(gx > 0 && gy > 0 && gx < f->nx && gy < f->ny)) return 0;
    uint32_t i = (uint32_t)gx, j = (uint32_t)gy;
    const nest_grid_cell *cell = &f->cells[(size_t)j * f->nx + i];
    switch (cell->kind) {
    case NEST_CELL_FREE:
        return 0;
    case NEST_CELL_PLANES:
        depth_mm = slope_of_planes(f, cell, x_mm, y_mm, slope);
        break;
    case NEST_CELL_DEEP:
        depth_mm = slope_between(f, f->corner + (size_t)j * (f->nx + 1) + i, gx - i, gy - j, slope);
        break;
    default:
        depth_mm = slope_of_edges(f, cell, x_mm, y_mm, nest_field_depth(f, x_mm, y_mm), slope);
        break;
    }
    return depth_mm > NEST_TOUCH_MM ? depth_mm : 0;
}
