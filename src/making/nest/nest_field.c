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
