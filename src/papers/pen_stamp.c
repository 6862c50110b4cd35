/* pen_stamp.c: what a document tells once and shows often: stamps (regions in one size) and packed pictures. */
#include "papers/pen_parts.h"

#include <stdlib.h>

void pen_stamps_free(pen_stamps *stamps)
{
    free(stamps->items);
    *stamps = (pen_stamps){0};
}

static bool same_ink(const sw_ink *a, const sw_ink *b)
{
    return a->r == b->r && a->g == b->g && a->b == b->b && a->width_mm == b->width_mm && a->dash_mm == b->dash_mm;
}

static const pen_stamp *known_stamp(const pen_stamps *all, const pen_stamp *s)
{
    for (size_t i = 0; i < all->count; i++) {
        const pen_stamp *have = &all->items[i];
        if (have->region == s->region && have->scale == s->scale && have->paint.fill == s->paint.fill &&
            have->paint.stroke == s->paint.stroke && same_ink(&have->paint.fill_ink, &s->paint.fill_ink) &&
            same_ink(&have->paint.stroke_ink, &s->paint.stroke_ink))
            return have;
    }
    return NULL;
}

void pen_told(sw_pen *pen, const pen_stamp *s)
{
    pen_region(pen, &s->paint, (sw_motion){0}, s->scale, (sw_point){0}, s->region);
}

void pen_region_stamp(sw_pen *pen, const pen_paint *paint, sw_motion motion, double scale, sw_point at,
                      const sw_region *r)
{
    if (pen->kind == &pen_pair) { /* each document numbers its own */
        for (int i = 0; i < 2; i++)
            if (pen->pair[i] != NULL) pen_region_stamp(pen->pair[i], paint, motion, scale, at, r);
        return;
    }
    if (pen->kind->tell == NULL) {
        pen_region(pen, paint, motion, scale, at, r);
        return;
    }
    pen_stamps *all = pen->stamps;
    const pen_stamp wish = {r, scale, *paint, all->count + 1}, *stamp = known_stamp(all, &wish);
    if (stamp == NULL) {
        pen_stamp *items = heap_grow(all->items, all->count, &all->room, sizeof *items, &all->no_memory);
        if (items == NULL) return;
        all->items = items;
        stamp = &items[all->count++];
        items[all->count - 1] = wish;
        pen->kind->tell(pen, stamp);
    }
    pen->kind->stamp(pen, stamp, motion, at);
}

void pen_turned_axes(sw_motion motion, double matrix[4])
{
    const sw_motion turn = {.turn_rad = motion.turn_rad, .mirror = motion.mirror};
    sw_point x = pen_on_page(turn, 1.0, (sw_point){0}, (sw_point){1.0, 0.0});
    sw_point y = pen_on_page(turn, 1.0, (sw_point){0}, (sw_point){0.0, -1.0}); /* down the page */
    matrix[0] = x.x_mm;
    matrix[1] = x.y_mm;
    matrix[2] = y.x_mm;
    matrix[3] = y.y_mm;
}

const png_packed *pen_packed(const pen_picture *picture, byte_run *rows, png_packed *made)
{
    const png_picture plain = {picture->pixels, picture->columns, picture->rows,
                               sizeof *picture->pixels * (size_t)picture->columns};
    if (picture->packed != NULL) return picture->packed;
    return png_pack(&plain, rows, made) ? made : NULL;
}
