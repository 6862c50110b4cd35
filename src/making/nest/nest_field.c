#include "making/nest/nest_field_parts.h"

#include <math.h>

/* Parity from the cell's known point, distance from the listed edges. */
static double depth_by_edges(const nest_field *f, const nest_grid_cell *cell, sw_point known, double x, double y)
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

static double depth_by_planes(const nest_field *f, const nest_grid_cell *cell, double x, double y)
{
    const nest_plane *p = f->planes + cell->first, *end = p + cell->count;
    double least = (double)INFINITY;
    for (; p < end; p++) {
        double d = p->a * x + p->b * y + p->c;
        least = d < least ? d : least;
    }
    return least;
}

static double depth_between(const float *low, const float *high, double a, double b)
{
    return ((double)low[0] * (1 - a) + (double)low[1] * a) * (1 - b) +
           ((double)high[0] * (1 - a) + (double)high[1] * a) * b;
}

double nest_field_depth(const nest_field *f, double x_mm, double y_mm)
{
    double gx = (x_mm - f->x0_mm) * f->per_mm, gy = (y_mm - f->y0_mm) * f->per_mm, depth_mm = 0;
    if (!(gx > 0 && gy > 0 && gx < f->nx && gy < f->ny)) return 0;
    uint32_t i = (uint32_t)gx, j = (uint32_t)gy;
    const nest_grid_cell *cell = &f->cells[(size_t)j * f->nx + i];
    if (cell->kind == NEST_CELL_FREE) return 0;
    if (cell->kind == NEST_CELL_PLANES) {
        depth_mm = depth_by_planes(f, cell, x_mm, y_mm);
    } else if (cell->kind == NEST_CELL_DEEP) {
        const float *low = f->corner + (size_t)j * (f->nx + 1) + i;
        depth_mm = depth_between(low, low + f->nx + 1, gx - i, gy - j);
    } else {
        sw_point known = {f->x0_mm + (i + NEST_CELL_X) * f->cell_mm, f->y0_mm + (j + NEST_CELL_Y) * f->cell_mm};
        depth_mm = depth_by_edges(f, cell, known, x_mm, y_mm);
    }
    return depth_mm > NEST_TOUCH_MM ? depth_mm : 0;
}
