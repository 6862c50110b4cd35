/* flat_labels.c: names of bends beside their lines and letters beside cut-outs, each in a free place; a letter that
 * finds none near its hole stands further off with a leader. */
#include "papers/flat_parts.h"

#include <math.h>

#define BEND_TEXT_MM 2.1
#define TAG_TEXT_MM  2.1

static sw_box box_about(sw_point c, double half_x_mm, double half_y_mm)
{
    return (sw_box){c.x_mm - half_x_mm, c.y_mm - half_y_mm, c.x_mm + half_x_mm, c.y_mm + half_y_mm};
}

/* Tries the text along the line at many stations and on both sides. */
static sw_status beside_line(sw_run *run, flat_sheet *f, sw_point a, sw_point b, const char *text, bool *placed)
{
    static const double stations[] = {0.5,  0.4,  0.6,  0.3,  0.7,  0.2,  0.8, 0.12,
                                      0.88, 0.45, 0.55, 0.35, 0.65, 0.25, 0.75};
    double length_mm = hypot(b.x_mm - a.x_mm, b.y_mm - a.y_mm), wide_mm = pen_width(f->pen, BEND_TEXT_MM, false, text);
    *placed = false;
    if (length_mm < wide_mm + 2.0) return SW_OK;
    double ux = (b.x_mm - a.x_mm) / length_mm, uy = (b.y_mm - a.y_mm) / length_mm;
    if (ux < -1e-9 || (fabs(ux) <= 1e-9 && uy > 0.0)) ux = -ux, uy = -uy; /* reads from below or from the right */
    double half_x_mm = (fabs(ux) * wide_mm + fabs(uy) * BEND_TEXT_MM) / 2.0 + 0.4,
           half_y_mm = (fabs(uy) * wide_mm + fabs(ux) * BEND_TEXT_MM) / 2.0 + 0.4;
    size_t tries = sizeof stations / sizeof *stations;
    for (size_t i = 0; i < 4 * tries; i++) { /* close to the line on both sides, then further off */
        double t = stations[i / 2 % tries], side = i % 2 == 0 ? 1.0 : -1.0,
               off_mm = side * (BEND_TEXT_MM / 2.0 + (i < 2 * tries ? 1.2 : 4.2));
        sw_point c = {a.x_mm + t * (b.x_mm - a.x_mm) + off_mm * uy, a.y_mm + t * (b.y_mm - a.y_mm) - off_mm * ux};
        sw_box box = box_about(c, half_x_mm, half_y_mm);
        if (!taken_free(&f->taken, box)) continue;
        pen_type type = {
            .height_mm = BEND_TEXT_MM, .align = SW_CENTRE, .turn_rad = atan2(-uy, ux), .ink = look_rust(0.0)};
        sw_point at = {c.x_mm - uy * BEND_TEXT_MM / 2.0, c.y_mm + ux * BEND_TEXT_MM / 2.0};
        pen_write(f->pen, at, type, text);
        *placed = true;
        return taken_box(run, &f->taken, box);
    }
    return SW_OK;
}

static sw_status label_bend(sw_run *run, flat_sheet *f, size_t index)
{
    const sw_flat_bend *bend = &f->piece->flat.bends[index];
    sw_point a = flat_page(f, bend->from), b = flat_page(f, bend->to);
    const char *words = words_bend(run, bend);
    if (words == NULL) return SW_NO_MEMORY;
    const char *full = sw_text_format(run, run->scratch, "B%zu  %s", index + 1, words);
    const char *brief = sw_text_format(run, run->scratch, "B%zu", index + 1);
    if (full == NULL || brief == NULL) return SW_NO_MEMORY;
    bool placed = false;
    SW_TRY(beside_line(run, f, a, b, full, &placed));
    if (placed) return SW_OK;
    return beside_line(run, f, a, b, brief, &placed); /* else the figure at the edge names it */
}

typedef struct hole_spot {
    sw_point c;
    double half_x_mm, half_y_mm;
    bool round;
} hole_spot; /* of a cut-out, page mm */

static sw_status put_tag(sw_run *run, flat_sheet *f, const hole_spot *h, sw_box box, const char *text, bool leader)
{
    sw_point tag = {(box.x0_mm + box.x1_mm) / 2.0, (box.y0_mm + box.y1_mm) / 2.0};
    if (leader) {
        sw_point rim = {fmin(fmax(tag.x_mm, h->c.x_mm - h->half_x_mm), h->c.x_mm + h->half_x_mm),
                        fmin(fmax(tag.y_mm, h->c.y_mm - h->half_y_mm), h->c.y_mm + h->half_y_mm)};
        sw_point end = {fmin(fmax(rim.x_mm, box.x0_mm), box.x1_mm), fmin(fmax(rim.y_mm, box.y0_mm), box.y1_mm)};
        sw_pen_line(f->pen, look_grey(0.1), rim, end);
    }
    pen_write(f->pen, (sw_point){tag.x_mm, tag.y_mm + TAG_TEXT_MM / 2.0}, look_type(TAG_TEXT_MM, SW_CENTRE), text);
    return taken_box(run, &f->taken, box);
}

/* In a roomy cut-out the letter stands inside, beside the centre cross of a round one. */
static bool inside(const flat_sheet *f, const hole_spot *h, double half_x_mm, double half_y_mm, sw_box *box)
{
    double off_mm = h->round ? half_y_mm + 1.0 : 0.0;
    *box = box_about((sw_point){h->c.x_mm + off_mm, h->c.y_mm - off_mm}, half_x_mm, half_y_mm);
    double room_mm = fmin(h->half_x_mm, h->half_y_mm) - (h->round ? 2.2 * off_mm : 0.8);
    return room_mm > fmax(half_x_mm, half_y_mm) && taken_free(&f->taken, *box);
}

static sw_status tag_hole(sw_run *run, flat_sheet *f, const hole_spot *h, const char *text, bool must)
{
    static const double rings_mm[] = {0.5, 2.5, 5.0, 8.0, 12.0, 17.0, 24.0};
    static const double ways[][2] = {{1, -1}, {-1, -1}, {1, 1},    {-1, 1},    {0, -1},  {0, 1},
                                     {1, 0},  {-1, 0},  {0.5, -1}, {-0.5, -1}, {0.5, 1}, {-0.5, 1}};
    double half_x_mm = pen_width(f->pen, TAG_TEXT_MM, false, text) / 2.0 + 0.3, half_y_mm = TAG_TEXT_MM / 2.0 + 0.4;
    double tight = h->round ? 0.75 : 1.0; /* a round hole leaves room at the corners of its box */
    sw_box box;
    if (inside(f, h, half_x_mm, half_y_mm, &box)) return put_tag(run, f, h, box, text, false);
    size_t rings = must ? sizeof rings_mm / sizeof *rings_mm : 1;
    for (size_t ring = 0; ring < rings; ring++) {
        double away_x_mm = h->half_x_mm * tight + half_x_mm + rings_mm[ring],
               away_y_mm = h->half_y_mm * tight + half_y_mm + rings_mm[ring];
        for (size_t i = 0; i < sizeof ways / sizeof *ways; i++) {
            bool beside = fabs(ways[i][0]) + fabs(ways[i][1]) < 1.9;
            double stretch = h->round && beside ? 1.0 / tight : 1.0;
            sw_point at = {h->c.x_mm + ways[i][0] * away_x_mm * stretch, h->c.y_mm + ways[i][1] * away_y_mm * stretch};
            box = box_about(at, half_x_mm, half_y_mm);
            if (taken_free(&f->taken, box)) return put_tag(run, f, h, box, text, ring > 0);
        }
    }
    return SW_OK;
}

static hole_spot spot_of(const flat_sheet *f, const hole_group *group, size_t index)
{
    const hole_place *place = &group->places[index];
    return (hole_spot){flat_page(f, (sw_point){place->x_mm, place->y_mm}), place->half_x_mm * f->scale,
                       place->half_y_mm * f->scale, group->round};
}

static sw_status tag_group(sw_run *run, flat_sheet *f, const hole_group *group)
{
    enum { EACH = 14 }; /* above this only the first carries the letter, with the count */
    hole_spot first = spot_of(f, group, 0);
    if (group->count > EACH) {
        const char *text = sw_text_format(run, run->scratch, "%s (%zu\xc3\x97)", group->tag, group->count);
        return text == NULL ? SW_NO_MEMORY : tag_hole(run, f, &first, text, true);
    }
    SW_TRY(tag_hole(run, f, &first, group->tag, true));
    for (size_t i = 1; i < group->count; i++) {
        hole_spot spot = spot_of(f, group, i);
        SW_TRY(tag_hole(run, f, &spot, group->tag, false));
    }
    return SW_OK;
}

/* The dimensions' bands round the flat are taken: labels stay inside its box. */
static sw_status take_bands(sw_run *run, flat_sheet *f)
{
    const double far_mm = 40.0;
    const sw_box *size = &f->piece->flat.box;
    sw_point low = flat_page(f, (sw_point){0.0, 0.0}), top = flat_page(f, (sw_point){size->x1_mm, size->y1_mm});
    SW_TRY(taken_box(run, &f->taken, (sw_box){low.x_mm - far_mm, low.y_mm, top.x_mm + far_mm, low.y_mm + far_mm}));
    SW_TRY(taken_box(run, &f->taken, (sw_box){low.x_mm - far_mm, top.y_mm - far_mm, top.x_mm + far_mm, top.y_mm}));
    SW_TRY(taken_box(run, &f->taken, (sw_box){low.x_mm - far_mm, top.y_mm, low.x_mm, low.y_mm}));
    return taken_box(run, &f->taken, (sw_box){top.x_mm, top.y_mm, top.x_mm + far_mm, low.y_mm});
}

sw_status flat_labels(sw_run *run, flat_sheet *f)
{
    SW_TRY(take_bands(run, f));
    for (size_t i = 0; i < f->piece->flat.bend_count; i++) SW_TRY(label_bend(run, f, i));
    for (size_t i = f->group_count; i-- > 0;) SW_TRY(tag_group(run, f, &f->groups[i]));
    return SW_OK;
}
