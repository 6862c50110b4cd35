/* nest_field_grid.c: the grid of a field from the edges of its region. Blocks of cells first sort out which edges can
 * matter to any point in them, so that a cell looks at a few. */
#include "making/nest/nest_field_parts.h"

#include <math.h>
#include <string.h>

enum { BLOCK = 8 }; /* cells a side */

static const double half_diagonal = 0.70711; /* of a square of side 1, rounded up */

typedef struct grid {
    sw_run *run;
    sw_arena *into;
    const nest_line *lines;
    const nest_plane *line_planes; /* of the same edges */
    size_t line_count;
    nest_field *field;
    float *corner;
    nest_grid_cell *cells;
    uint32_t *block, *some; /* edges that matter to the block, to the cell: [line_count] */
    size_t block_count, some_count;
    sw_point known; /* a point of the block */
    bool known_deep;
    uint32_t *near; /* both grow in scratch and are copied at the end */
    nest_plane *planes;
    size_t near_count, near_room, plane_count, plane_room;
} grid;

static sw_status no_room(sw_run *run)
{
    return sw_fail(run, SW_NO_MEMORY, (sw_place){0}, "", "the memory limit is reached comparing two pieces");
}

static nest_plane plane_of(const nest_line *l)
{
    double dx = l->bx - l->ax, dy = l->by - l->ay, length = hypot(dx, dy);
    double a = -dy / length, b = dx / length;
    return (nest_plane){a, b, -(a * l->ax + b * l->ay)};
}

static double behind(const nest_plane *p, double x, double y)
{
    return p->a * x + p->b * y + p->c;
}

/* ---- size ------------------------------------------------------------------------------------------ */

static void lay_out(nest_field *f, const nest_line *lines, size_t count, uint32_t cells)
{
    double x1 = -INFINITY, y1 = -INFINITY;
    f->x0_mm = f->y0_mm = INFINITY;
    for (size_t i = 0; i < count; i++) {
        f->x0_mm = fmin(f->x0_mm, lines[i].ax), x1 = fmax(x1, lines[i].ax);
        f->y0_mm = fmin(f->y0_mm, lines[i].ay), y1 = fmax(y1, lines[i].ay);
    }
    if (count == 0) f->x0_mm = f->y0_mm = 0, x1 = y1 = 0;
    f->cell_mm = fmax(fmax(x1 - f->x0_mm, y1 - f->y0_mm) / cells, SW_SAME_POINT_MM);
    f->per_mm = 1 / f->cell_mm;
    f->nx = (uint32_t)ceil((x1 - f->x0_mm) * f->per_mm) + 1;
    f->ny = (uint32_t)ceil((y1 - f->y0_mm) * f->per_mm) + 1;
}

static sw_status take_room(grid *g)
{
    const nest_field *f = g->field;
    nest_plane *planes = SW_SCRATCH(g->run, g->line_count + 1, nest_plane);
    g->corner = sw_arena_take(g->into, (size_t)(f->nx + 1) * (f->ny + 1), sizeof *g->corner);
    g->cells = sw_arena_take(g->into, (size_t)f->nx * f->ny, sizeof *g->cells);
    g->block = SW_SCRATCH(g->run, g->line_count + 1, uint32_t);
    g->some = SW_SCRATCH(g->run, g->line_count + 1, uint32_t);
    if (planes == NULL || g->corner == NULL || g->cells == NULL || g->block == NULL || g->some == NULL)
        return no_room(g->run);
    for (size_t i = 0; i < g->line_count; i++) planes[i] = plane_of(&g->lines[i]);
    g->line_planes = planes;
    return SW_OK;
}

/* ---- blocks ------------------------------------------------------------------------------------------ */

static double nearest_of(const grid *g, const uint32_t *list, size_t count, double x, double y)
{
    double best = INFINITY;
    for (size_t i = 0; i < count; i++) best = fmin(best, nest_line_distance2(&g->lines[list[i]], x, y));
    return sqrt(best);
}

/* Those of a list that can be nearest to some point within `half_mm` of (x, y); all that cross that disc are among them. */
static size_t pick(const grid *g, const uint32_t *list, size_t count, sw_point at, double half_mm, uint32_t *out,
                   double *nearest_mm)
{
    size_t n = 0;
    *nearest_mm = nearest_of(g, list, count, at.x_mm, at.y_mm);
    double reach = *nearest_mm + 2 * half_mm;
    for (size_t i = 0; i < count; i++)
        if (nest_line_distance2(&g->lines[list[i]], at.x_mm, at.y_mm) <= reach * reach) out[n++] = list[i];
    return n;
}

/* By the crossings of a ray to the right. */
static bool inside(const grid *g, double x, double y)
{
    bool in = false;
    for (size_t i = 0; i < g->line_count; i++) {
        const nest_line *l = &g->lines[i];
        if ((l->ay > y) == (l->by > y)) continue;
        if (l->ax + (y - l->ay) * (l->bx - l->ax) / (l->by - l->ay) > x) in = !in;
    }
    return in;
}

static bool inside_block(const grid *g, double x, double y)
{
    bool in = g->known_deep;
    for (size_t i = 0; i < g->block_count; i++)
        if (nest_line_crosses(&g->lines[g->block[i]], x, y, g->known.x_mm, g->known.y_mm)) in = !in;
    return in;
}

static void enter_block(grid *g, uint32_t i, uint32_t j)
{
    const nest_field *f = g->field;
    double side_mm = BLOCK * f->cell_mm, nearest_mm = 0;
    sw_point low = {f->x0_mm + i * f->cell_mm, f->y0_mm + j * f->cell_mm};
    for (size_t k = 0; k < g->line_count; k++) g->some[k] = (uint32_t)k;
    g->block_count = pick(g, g->some, g->line_count, (sw_point){low.x_mm + side_mm / 2, low.y_mm + side_mm / 2},
                          side_mm * half_diagonal, g->block, &nearest_mm);
    g->known = (sw_point){low.x_mm + NEST_CELL_X * side_mm, low.y_mm + NEST_CELL_Y * side_mm};
    g->known_deep = inside(g, g->known.x_mm, g->known.y_mm);
}

/* ---- cells --------------------------------------------------------------------------------------------- */

static void fill_corner(const grid *g, uint32_t i, uint32_t j)
{
    const nest_field *f = g->field;
    double x = f->x0_mm + i * f->cell_mm, y = f->y0_mm + j * f->cell_mm;
    bool deep = inside_block(g, x, y);
    g->corner[(size_t)j * (f->nx + 1) + i] = deep ? (float)nearest_of(g, g->block, g->block_count, x, y) : 0;
}

/* Whether every edge of the cell lies behind every other: then the region is, near the cell, what lies behind them all.
 * Why: a point of the region before an edge's line reaches that edge only by leaving the region through another one of
 * the list, and the edge would lie before that one. */
static bool in_convex_position(const grid *g)
{
    for (size_t i = 0; i < g->some_count; i++) {
        const nest_plane *p = &g->line_planes[g->some[i]];
        for (size_t k = 0; k < g->some_count; k++) {
            const nest_line *l = &g->lines[g->some[k]];
            if (behind(p, l->ax, l->ay) < -SW_SAME_POINT_MM * 1e-3 ||
                behind(p, l->bx, l->by) < -SW_SAME_POINT_MM * 1e-3)
                return false;
        }
    }
    return true;
}

/* Whether b is nowhere in the cell less than a. */
static bool never_less(const nest_plane *a, const nest_plane *b, sw_box cell)
{
    return behind(b, cell.x0_mm, cell.y0_mm) >= behind(a, cell.x0_mm, cell.y0_mm) &&
           behind(b, cell.x1_mm, cell.y0_mm) >= behind(a, cell.x1_mm, cell.y0_mm) &&
           behind(b, cell.x0_mm, cell.y1_mm) >= behind(a, cell.x0_mm, cell.y1_mm) &&
           behind(b, cell.x1_mm, cell.y1_mm) >= behind(a, cell.x1_mm, cell.y1_mm);
}

/* Drops the edges whose planes are nowhere the least. */
static void drop_idle(grid *g, sw_box cell)
{
    for (size_t i = g->some_count; i-- > 0;) {
        bool idle = false;
        for (size_t k = 0; k < g->some_count && !idle; k++)
            idle = k != i && never_less(&g->line_planes[g->some[k]], &g->line_planes[g->some[i]], cell);
        if (idle) g->some[i] = g->some[--g->some_count];
    }
}

static sw_status list_planes(grid *g, nest_grid_cell *cell)
{
    *cell = (nest_grid_cell){(uint32_t)g->plane_count, (uint16_t)g->some_count, NEST_CELL_PLANES};
    for (size_t i = 0; i < g->some_count; i++) {
        g->planes = sw_grow(g->run, g->run->scratch, g->planes, g->plane_count, &g->plane_room, sizeof *g->planes);
        if (g->planes == NULL) return SW_NO_MEMORY;
        g->planes[g->plane_count++] = g->line_planes[g->some[i]];
    }
    return SW_OK;
}

static sw_status list_edges(grid *g, nest_grid_cell *cell, bool deep)
{
    *cell = (nest_grid_cell){(uint32_t)g->near_count, (uint16_t)g->some_count,
                             deep ? NEST_CELL_EDGE_DEEP : NEST_CELL_EDGE_FREE};
    for (size_t i = 0; i < g->some_count; i++) {
        g->near = sw_grow(g->run, g->run->scratch, g->near, g->near_count, &g->near_room, sizeof *g->near);
        if (g->near == NULL) return SW_NO_MEMORY;
        g->near[g->near_count++] = g->some[i];
    }
    return SW_OK;
}

static sw_status fill_cell(grid *g, uint32_t i, uint32_t j)
{
    const nest_field *f = g->field;
    nest_grid_cell *cell = &g->cells[(size_t)j * f->nx + i];
    double x = f->x0_mm + i * f->cell_mm, y = f->y0_mm + j * f->cell_mm, half_mm = f->cell_mm * half_diagonal,
           nearest_mm = 0;
    bool deep = inside_block(g, x + NEST_CELL_X * f->cell_mm, y + NEST_CELL_Y * f->cell_mm);
    g->some_count = pick(g, g->block, g->block_count, (sw_point){x + f->cell_mm / 2, y + f->cell_mm / 2}, half_mm,
                         g->some, &nearest_mm);
    if (!(nearest_mm <= half_mm)) {
        *cell = (nest_grid_cell){.kind = deep ? NEST_CELL_DEEP : NEST_CELL_FREE};
        return SW_OK;
    }
    if (g->some_count > UINT16_MAX)
        return sw_fail(g->run, SW_OUT_OF_RANGE, (sw_place){0}, "",
                       "a piece has more than %u edges in one place; use a coarser outline", UINT16_MAX);
    if (!in_convex_position(g)) return list_edges(g, cell, deep);
    drop_idle(g, (sw_box){x, y, x + f->cell_mm, y + f->cell_mm});
    return list_planes(g, cell);
}

static uint32_t least(uint32_t a, uint32_t b)
{
    return a < b ? a : b;
}

static sw_status fill_block(grid *g, uint32_t i0, uint32_t j0)
{
    const nest_field *f = g->field;
    enter_block(g, i0, j0);
    for (uint32_t j = j0; j <= least(j0 + BLOCK - 1, f->ny); j++)
        for (uint32_t i = i0; i <= least(i0 + BLOCK - 1, f->nx); i++) {
            fill_corner(g, i, j);
            if (i < f->nx && j < f->ny) SW_TRY(fill_cell(g, i, j));
        }
    return SW_OK;
}

static sw_status keep(grid *g)
{
    nest_field *f = g->field;
    uint32_t *near = sw_arena_take(g->into, g->near_count, sizeof *near);
    nest_plane *planes = sw_arena_take(g->into, g->plane_count, sizeof *planes);
    nest_line *lines = sw_arena_take(g->into, g->line_count, sizeof *lines);
    if (near == NULL || planes == NULL || lines == NULL) return no_room(g->run);
    if (g->near_count > 0) memcpy(near, g->near, g->near_count * sizeof *near);
    if (g->plane_count > 0) memcpy(planes, g->planes, g->plane_count * sizeof *planes);
    if (g->line_count > 0) memcpy(lines, g->lines, g->line_count * sizeof *lines);
    f->near = near;
    f->planes = planes;
    f->lines = lines;
    f->line_count = g->line_count;
    f->corner = g->corner;
    f->cells = g->cells;
    return SW_OK;
}

sw_status nest_field_grid(sw_run *run, sw_arena *into, const nest_line *lines, size_t count, uint32_t cells,
                          nest_field *field)
{
    grid g = {.run = run, .into = into, .lines = lines, .line_count = count, .field = field};
    *field = (nest_field){0};
    lay_out(field, lines, count, cells);
    SW_TRY(take_room(&g));
    for (uint32_t j = 0; j <= field->ny; j += BLOCK)
        for (uint32_t i = 0; i <= field->nx; i += BLOCK) SW_TRY(fill_block(&g, i, j));
    return keep(&g);
}
