/* flat_holes.c: sorts the cut-outs of a flat into groups of one shape and size, each with a letter. */
#include "papers/flat_parts.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

typedef enum hole_kind { ROUND, SLOT, RECTANGLE, WINDOW } hole_kind;
typedef struct hole_note {
    hole_kind kind;
    double a_mm, b_mm, area_mm2;
    hole_place place;
} hole_note;

static bool same(double a, double b)
{
    return fabs(a - b) < 5e-3;
} /* the drawing shows hundredths */

/* Diameter when every segment is an arc of one circle, else 0. */
static double diameter_of(sw_contour c, sw_box box)
{
    double wide_mm = box.x1_mm - box.x0_mm;
    if (!same(wide_mm, box.y1_mm - box.y0_mm)) return 0.0;
    for (size_t i = 0; i < c.n; i++)
        if (fabs(c.v[i].bulge) <= SW_FLAT_BULGE) return 0.0;
    return same(fabs(sw_contour_area(c)), SW_PI * wide_mm * wide_mm / 4.0) ? wide_mm : 0.0;
}

/* Obround: two straights and half circles (in one or two arcs each); told from its area and perimeter. */
static bool slot_of(sw_contour c, double *length_mm, double *width_mm)
{
    double area = fabs(sw_contour_area(c)), round = sw_contour_length(c);
    size_t straights = 0, arcs = 0;
    for (size_t i = 0; i < c.n; i++) {
        if (fabs(c.v[i].bulge) <= SW_FLAT_BULGE)
            straights++;
        else
            arcs++;
    }
    if (straights != 2 || arcs < 2) return false;
    /* area = pi w2/4 + w s, round = pi w + 2 s */
    double disc = round * round - 4.0 * SW_PI * area;
    if (disc < 0.0) return false;
    double w = (round - sqrt(disc)) / SW_PI, s = (round - SW_PI * w) / 2.0;
    *length_mm = s + w;
    *width_mm = w;
    return w > 0.0 && s > 0.0;
}

static hole_note note_of(sw_contour c, size_t index)
{
    sw_box box = sw_contour_box(c);
    hole_note note = {.kind = WINDOW,
                      .a_mm = box.x1_mm - box.x0_mm,
                      .b_mm = box.y1_mm - box.y0_mm,
                      .area_mm2 = fabs(sw_contour_area(c))};
    note.place = (hole_place){(box.x0_mm + box.x1_mm) / 2.0, (box.y0_mm + box.y1_mm) / 2.0, note.a_mm / 2.0,
                              note.b_mm / 2.0, index};
    double d_mm = diameter_of(c, box);
    if (d_mm > 0.0) {
        note.kind = ROUND;
        note.a_mm = note.b_mm = d_mm;
    } else if (slot_of(c, &note.a_mm, &note.b_mm)) {
        note.kind = SLOT;
    } else if (same(note.a_mm * note.b_mm, note.area_mm2)) {
        note.kind = RECTANGLE;
    }
    return note;
}

static int by_size(const void *left, const void *right)
{
    const hole_note *a = left, *b = right;
    if (a->kind != b->kind) return a->kind < b->kind ? -1 : 1;
    if (!same(a->a_mm, b->a_mm)) return a->a_mm < b->a_mm ? -1 : 1;
    if (!same(a->b_mm, b->b_mm)) return a->b_mm < b->b_mm ? -1 : 1;
    if (fabs(a->area_mm2 - b->area_mm2) > 0.5) return a->area_mm2 < b->area_mm2 ? -1 : 1;
    if (!same(a->place.y_mm, b->place.y_mm)) return a->place.y_mm < b->place.y_mm ? -1 : 1;
    if (!same(a->place.x_mm, b->place.x_mm)) return a->place.x_mm < b->place.x_mm ? -1 : 1;
    return a->place.hole < b->place.hole ? -1 : a->place.hole > b->place.hole;
}

static bool one_group(const hole_note *a, const hole_note *b)
{
    return a->kind == b->kind && same(a->a_mm, b->a_mm) && same(a->b_mm, b->b_mm) &&
           fabs(a->area_mm2 - b->area_mm2) <= 0.5;
}

static const char *what_of(sw_run *run, const hole_note *note)
{
    static const char *const kinds[] = {[SLOT] = "slot", [RECTANGLE] = "opening", [WINDOW] = "shape"};
    const char *a = words_number(run, note->a_mm, 2), *b = words_number(run, note->b_mm, 2);
    if (a == NULL || b == NULL) return NULL;
    if (note->kind == ROUND) return sw_text_format(run, run->scratch, "\xc3\xb8%s", a);
    return sw_text_format(run, run->scratch, "%s %s \xc3\x97 %s", kinds[note->kind], a, b);
}

static void tag_of(size_t index, char tag[8])
{
    if (index < 26)
        (void)snprintf(tag, 8, "%c", (char)('a' + index));
    else
        (void)snprintf(tag, 8, "%c%zu", (char)('a' + index % 26), (index / 26) % 100);
}

static sw_status fill_group(sw_run *run, hole_group *group, size_t index, const hole_note *notes, size_t count)
{
    hole_place *places = SW_SCRATCH(run, count, hole_place);
    if (places == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < count; i++) places[i] = notes[i].place;
    *group = (hole_group){.places = places,
                          .count = count,
                          .what = what_of(run, notes),
                          .round = notes->kind == ROUND,
                          .size_mm = fmax(notes->a_mm, notes->b_mm)};
    tag_of(index, group->tag);
    return group->what == NULL ? SW_NO_MEMORY : SW_OK;
}

sw_status flat_holes(sw_run *run, flat_sheet *f)
{
    const sw_region *region = &f->piece->flat.region;
    size_t n = region->hole_count;
    hole_note *notes = SW_SCRATCH(run, n + 1, hole_note);
    hole_group *groups = SW_SCRATCH(run, n + 1, hole_group);
    if (notes == NULL || groups == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < n; i++) notes[i] = note_of(region->holes[i], i);
    qsort(notes, n, sizeof *notes, by_size);
    for (size_t i = 0, j = 0; i < n; i = j) {
        for (j = i + 1; j < n && one_group(&notes[i], &notes[j]);) j++;
        SW_TRY(fill_group(run, &groups[f->group_count], f->group_count, notes + i, j - i));
        f->group_count++;
    }
    f->groups = groups;
    return SW_OK;
}
