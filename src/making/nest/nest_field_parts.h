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

typedef struct nest_line {
    double ax, ay, bx, by;
} nest_line; /* an edge of the union, mm */

typedef struct nest_plane {
    double a, b, c;
} nest_plane; /* depth behind an edge's line: a x + b y + c, mm; positive inside */

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

static inline double nest_line_distance2(const nest_line *l, double x, double y) /* squared, mm2 */
{
    double dx = l->bx - l->ax, dy = l->by - l->ay, px = x - l->ax, py = y - l->ay;
    double length2 = dx * dx + dy * dy, t = length2 > 0 ? (px * dx + py * dy) / length2 : 0;
    t = t < 0 ? 0 : t > 1 ? 1 : t;
    px -= t * dx, py -= t * dy;
    return px * px + py * py;
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
sw_status nest_field_make(sw_run *run, sw_arena *into, const nest_pair *pair, uint32_t cells, const nest_field **field);

/* nest_field_grid.c: of the region to the left of the lines, cells along its longer side. */
sw_status nest_field_grid(sw_run *run, sw_arena *into, const nest_line *lines, size_t count, uint32_t cells,
                          nest_field *field);

/* Depth of the position (x, y), mm; 0 = free (depths below NEST_TOUCH_MM count as touching: free). */
double nest_field_depth(const nest_field *f, double x_mm, double y_mm);

#endif
