/* solid_runs.c: what the canvas shows, read in runs of one face: the middle of what is seen of each part; and the
 * pixels' colours. */
#include "papers/solid_parts.h"

#include <math.h>

typedef struct stretch {
    int row, from, end; /* columns from .. end - 1 */
    uint32_t face;
} stretch;

typedef struct stretches {
    stretch *items;
    size_t count, room;
} stretches;

typedef struct middle {
    double column, row, count;
} middle; /* sums over the pixels of a part */

static sw_status read_row(sw_run *run, const solid_canvas *c, int row, stretches *all)
{
    const uint32_t *seen = c->seen + (size_t)row * (size_t)c->columns;
    for (int from = 0, end = 0; from < c->columns; from = end) {
        for (end = from + 1; end < c->columns && seen[end] == seen[from];) end++;
        if (seen[from] == 0) continue;
        stretch *items = sw_grow(run, run->scratch, all->items, all->count, &all->room, sizeof *items);
        if (items == NULL) return SW_NO_MEMORY;
        all->items = items;
        items[all->count++] = (stretch){row, from, end, seen[from]};
    }
    return SW_OK;
}

static void add_up(const solid_canvas *c, const stretch *s, middle *middles)
{
    middle *m = &middles[c->faces[s->face].part];
    double n = s->end - s->from;
    m->column += n * (s->from + s->end - 1) / 2.0;
    m->row += n * s->row;
    m->count += n;
}

/* The pixel of the stretch nearest to the middle of its part. */
static void take_nearest(const solid_canvas *c, const stretch *s, const middle *middles, solid_anchor *anchors)
{
    const middle *m = &middles[c->faces[s->face].part];
    solid_anchor *a = &anchors[c->faces[s->face].part];
    double middle_column = m->column / m->count, dy = s->row - m->row / m->count;
    if (a->seen && dy * dy >= a->off) return;
    double column = floor(fmin(fmax(middle_column, s->from), s->end - 1) + 0.5), dx = column - middle_column;
    double off = dx * dx + dy * dy;
    if (a->seen && off >= a->off) return;
    *a = (solid_anchor){true, {(column + 0.5) / c->pixels_per_mm, (s->row + 0.5) / c->pixels_per_mm}, off};
}

void solid_colour(const solid_canvas *c)
{
    size_t count = (size_t)c->columns * (size_t)c->rows;
    c->faces[0].colour = 0x00ffffffu;
    for (size_t i = 0; i < count; i++) c->seen[i] = c->faces[c->seen[i]].colour;
}

sw_status solid_anchors(sw_run *run, const solid_canvas *c, size_t count, const solid_anchor **anchors)
{
    stretches all = {0};
    middle *middles = SW_SCRATCH(run, count + 1, middle);
    solid_anchor *out = SW_SCRATCH(run, count + 1, solid_anchor);
    if (middles == NULL || out == NULL) return SW_NO_MEMORY;
    for (int row = 0; row < c->rows; row++) SW_TRY(read_row(run, c, row, &all));
    for (size_t i = 0; i < all.count; i++) add_up(c, &all.items[i], middles);
    for (size_t i = 0; i < all.count; i++) take_nearest(c, &all.items[i], middles, out);
    *anchors = out;
    return SW_OK;
}
