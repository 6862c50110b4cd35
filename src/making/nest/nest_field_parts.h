/* nest_field_parts.h: how deep one piece lies in another, answered in some ten nanoseconds. For making/nest alone.
 *
 * The forbidden positions of B beside A are a union of convex polygons (nest_pair.c). A field is that union's
 * boundary on a grid of square cells: cells far from the boundary know the depth at their corners (0 outside), cells
 * on it list the few edges that can be nearest to any point in them, so that depth and the question "free or not" are
 * exact where it matters: mostly one plane or the least of a few. Depth = distance to the nearest free position, mm: the penetration depth of Imamichi,
 * Yagiura & Nagamochi 2009. */
#ifndef SW_MAKING_NEST_NEST_FIELD_PARTS_H
#define SW_MAKING_NEST_NEST_FIELD_PARTS_H

#include "making/nest/nest_parts.h"

#include <math.h>

typedef struct nest_line {
    double ax, ay, bx, by;
} nest_line; /* an edge of the union, mm */

typedef struct nest_plane {
    double a, b, c;
} nest_plane; /* depth behind an edge's line: a x + b y + c, mm; positive inside */

typedef struct nest_slope {
    double x, y;
} nest_slope; /* growth of a depth or cost by a place, per mm */

typedef struct nest_grid_cell {
    uint32_t first; /* of its planes or of its edges in `near` */
    uint16_t count;
    uint8_t kind; /* nest_cell */
} nest_grid_cell;

typedef struct nest_field {
    double x0_mm, y0_mm, cell_mm, per_mm; /* lower left; side of a cell; its inverse */
    uint32_t nx, ny;                      /* cells */
    const float *corner;                  /* [(nx+1)*(ny+1)] depth, mm; 0 outside */
    const nest_grid_cell *cells;          /* [nx*ny] */
    const nest_plane *planes;
    const uint32_t *near; /* edges that may be nearest */
    const nest_line *lines;
    size_t line_count;
} nest_field;

/* The point of a cell whose side is known. Off the middle by an odd share, since edges often run through middles. */
#define NEST_CELL_X 0.5136841
#define NEST_CELL_Y 0.4871559

enum nest_cell {
    NEST_CELL_FREE,
    NEST_CELL_DEEP,
    NEST_CELL_PLANES, /* the listed edges are in convex position: the least of their planes is the depth */
    NEST_CELL_EDGE_FREE,
    NEST_CELL_EDGE_DEEP
}; /* any edges: what its known point is */

static inline sw_point nest_line_nearest(const nest_line *l, double x, double y)
{
    double dx = l->bx - l->ax, dy = l->by - l->ay, length2 = dx * dx + dy * dy;
    double t = length2 > 0 ? ((x - l->ax) * dx + (y - l->ay) * dy) / length2 : 0;
    t = t < 0 ? 0 : t > 1 ? 1 : t;
    return (sw_point){l->ax + t * dx, l->ay + t * dy};
}

static inline double nest_line_distance2(const nest_line *l, double x, double y) /* squared, mm2 */
{
    sw_point at = nest_line_nearest(l, x, y);
    return (x - at.x_mm) * (x - at.x_mm) + (y - at.y_mm) * (y - at.y_mm);
}

/* Whether the way from (x, y) to (mx, my) crosses the line; a line's end belongs to one of its two neighbours only. */
static inline bool nest_line_crosses(const nest_line *l, double x, double y, double mx, double my)
{
    double a = (mx - x) * (l->ay - y) - (my - y) * (l->ax - x), b = (mx - x) * (l->by - y) - (my - y) * (l->bx - x);
    if ((a > 0) == (b > 0)) return false;
    double dx = l->bx - l->ax, dy = l->by - l->ay;
    double p = dx * (y - l->ay) - dy * (x - l->ax), m = dx * (my - l->ay) - dy * (mx - l->ax);
    return (p > 0) != (m > 0);
}

/* Of the union of pair->parts; everything in the arena `into`, which is not the run's scratch. cells: along the longer side. SW_NO_MEMORY, SW_INTERNAL (GEOS). */
sw_status nest_field_make(const nest_core *core, sw_arena *into, const nest_pair *pair, uint32_t cells,
                          const nest_field **field); /* SW_CANCELLED when nest_time_is_up */

/* nest_field_grid.c: of the region to the left of the lines, cells along its longer side. */
sw_status nest_field_grid(sw_run *run, sw_arena *into, const nest_line *lines, size_t count, uint32_t cells,
                          nest_field *field);

double nest_field_by_edges(const nest_field *f, const nest_grid_cell *cell, sw_point known, double x, double y);

static inline double nest_field_by_planes(const nest_field *f, const nest_grid_cell *cell, double x, double y)
{
    const nest_plane *p = f->planes + cell->first, *end = p + cell->count;
    double least = (double)INFINITY;
    for (; p < end; p++) {
        double d = p->a * x + p->b * y + p->c;
        least = d < least ? d : least;
    }
    return least;
}

static inline double nest_field_between(const float *low, const float *high, double a, double b)
{
    return ((double)low[0] * (1 - a) + (double)low[1] * a) * (1 - b) +
           ((double)high[0] * (1 - a) + (double)high[1] * a) * b;
}

/* nest_field.c: the same depth and its slope; where two edges are equally near, that of one of them. */
double nest_field_slope(const nest_field *f, double x_mm, double y_mm, nest_slope *slope);

/* Depth of the position (x, y), mm; 0 = free (depths below NEST_TOUCH_MM count as touching: free). */
static inline double nest_field_depth(const nest_field *f, double x_mm, double y_mm)
{
    double gx = (x_mm - f->x0_mm) * f->per_mm, gy = (y_mm - f->y0_mm) * f->per_mm, depth_mm = 0;
    if (!(gx > 0 && gy > 0 && gx < f->nx && gy < f->ny)) return 0;
    uint32_t i = (uint32_t)gx, j = (uint32_t)gy;
    const nest_grid_cell *cell = &f->cells[(size_t)j * f->nx + i];
    if (cell->kind == NEST_CELL_FREE) return 0;
    if (cell->kind == NEST_CELL_PLANES) {
        depth_mm = nest_field_by_planes(f, cell, x_mm, y_mm);
    } else if (cell->kind == NEST_CELL_DEEP) {
        const float *low = f->corner + (size_t)j * (f->nx + 1) + i;
        depth_mm = nest_field_between(low, low + f->nx + 1, gx - i, gy - j);
    } else {
        sw_point known = {f->x0_mm + (i + NEST_CELL_X) * f->cell_mm, f->y0_mm + (j + NEST_CELL_Y) * f->cell_mm};
        depth_mm = nest_field_by_edges(f, cell, known, x_mm, y_mm);
    }
    return depth_mm > NEST_TOUCH_MM ? depth_mm : 0;
}

#endif
