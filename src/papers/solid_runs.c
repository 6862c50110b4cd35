/* solid_runs.c: what the canvas shows, read in runs of one face: the middle of what is seen of each part, and the
 * pixels' colours. */
#include "papers/solid_parts.h"

#include <math.h>

typedef struct middle {
    double column, row, count;
} middle; /* sums, then means */

/* End of the run that begins at `from`. */
static int run_end(const uint32_t *row, int from, int columns)
{
    int end = from + 1;
    while (end < columns && row[end] == row[from]) end++;
    return end;
}

static void sum_row(const solid_canvas *c, int row, middle *middles)
{
    const uint32_t *seen = c->seen + (size_t)row * (size_t)c->columns;
    for (int from = 0, end = 0; from < c->columns; from = end) {
        end = run_end(seen, from, c->columns);
        if (seen[from] == 0) continue;
        middle *m = &middles[c->faces[seen[from]].part];
        double n = end - from;
        m->column += n * (from + end - 1) / 2.0;
        m->row += n * row;
        m->count += n;
    }
}

/* The pixel of each run nearest to the middle of its part. */
static void take_nearest(const solid_canvas *c, int row, const middle *middles, solid_anchor *anchors)
{
    const uint32_t *seen = c->seen + (size_t)row * (size_t)c->columns;
    for (int from = 0, end = 0; from < c->columns; from = end) {
        end = run_end(seen, from, c->columns);
        if (seen[from] == 0) continue;
        const middle *m = &middles[c->faces[seen[from]].part];
        solid_anchor *a = &anchors[c->faces[seen[from]].part];
        double column = floor(fmin(fmax(m->column / m->count, from), end - 1) + 0.5);
        double dx = column - m->column / m->count, dy = row - m->row / m->count, off = dx * dx + dy * dy;
        if (a->seen && off >= a->off) continue;
        *a = (solid_anchor){true, {(column + 0.5) / c->pixels_per_mm, (row + 0.5) / c->pixels_per_mm}, off};
    }
}

sw_status solid_anchors(sw_run *run, const solid_canvas *c, size_t count, const solid_anchor **anchors)
{
    middle *middles = SW_SCRATCH(run, count + 1, middle);
    solid_anchor *all = SW_SCRATCH(run, count + 1, solid_anchor);
    if (middles == NULL || all == NULL) return SW_NO_MEMORY;
    for (int row = 0; row < c->rows; row++) sum_row(c, row, middles);
    for (int row = 0; row < c->rows; row++) take_nearest(c, row, middles, all);
    *anchors = all;
    return SW_OK;
}

/* In place: each face's number becomes its colour. */
void solid_colour(solid_canvas *c)
{
    size_t count = (size_t)c->columns * (size_t)c->rows;
    c->faces[0].colour = 0x00ffffffu;
    for (size_t i = 0; i < count; i++) c->seen[i] = c->faces[c->seen[i]].colour;
}
