/* card_flat.c: the flat of a piece small on its card: outline, bend lines, and on each line the number of its stroke. */
#include "papers/cards_parts.h"

#include <math.h>

static const sw_motion still = {0};

const char *card_bend_name(sw_run *run, const sw_sheet_piece *piece, const sw_bend *bend)
{
    for (size_t i = 0; i < piece->flat.bend_count; i++)
        if (piece->flat.bends[i].bend == bend) return sw_text_format(run, run->scratch, "B%zu", i + 1);
    return "";
}

static bool bends(const sw_form_step *step, const sw_bend *bend)
{
    for (size_t i = 0; i < step->bend_count; i++)
        if (step->bends[i] == bend) return true;
    return false;
}

/* "1", "2, 5" where a line is struck twice; the bend's name when no stroke bends it. */
static const char *number_of(sw_run *run, const card_sheet *c, const sw_bend *bend)
{
    const char *text = "";
    for (size_t i = 0; i < c->form->step_count && text != NULL; i++)
        if (bends(&c->form->steps[i], bend))
            text = sw_text_format(run, run->scratch, "%s%s%zu", text, text[0] == '\0' ? "" : ",", i + 1);
    if (text == NULL || text[0] != '\0') return text;
    return card_bend_name(run, c->piece, bend);
}

typedef struct flat_place {
    sw_point at;
    double scale;
} flat_place;

static flat_place placed(const sw_flat *flat, sw_box box)
{
    const double rim_mm = 3.0;
    double wide_mm = box.x1_mm - box.x0_mm - 2.0 * rim_mm, high_mm = box.y1_mm - box.y0_mm - 2.0 * rim_mm;
    double scale = fmin(wide_mm / fmax(flat->box.x1_mm, 1.0), high_mm / fmax(flat->box.y1_mm, 1.0));
    return (flat_place){{box.x0_mm + rim_mm + (wide_mm - scale * flat->box.x1_mm) / 2.0,
                         box.y1_mm - rim_mm - (high_mm - scale * flat->box.y1_mm) / 2.0},
                        scale};
}

/* A ring on the line, where it stands clear of those before it. */
static sw_status mark(sw_run *run, const card_sheet *c, taken *t, sw_point a, sw_point b, const char *text)
{
    static const double stations[] = {0.5, 0.35, 0.65, 0.2, 0.8, 0.08, 0.92, -0.08, 1.08, -0.2, 1.2};
    const double radius_mm = 2.0;
    sw_box box = {0};
    sw_point at = a;
    for (size_t i = 0; i < sizeof stations / sizeof *stations; i++) {
        at = (sw_point){a.x_mm + stations[i] * (b.x_mm - a.x_mm), a.y_mm + stations[i] * (b.y_mm - a.y_mm)};
        box = (sw_box){at.x_mm - radius_mm, at.y_mm - radius_mm, at.x_mm + radius_mm, at.y_mm + radius_mm};
        if (taken_free(t, box)) break;
    }
    card_circle(c->pen, at, radius_mm, text);
    return taken_box(run, t, box);
}

sw_status card_flat(sw_run *run, const card_sheet *c, sw_box box)
{
    const sw_flat *flat = &c->piece->flat;
    flat_place p = placed(flat, box);
    taken t = {0};
    int dashes = 0;
    const double *chain = look_chain(&dashes);
    sw_pen_region(c->pen, look_pale(), look_dark(0.25), still, p.scale, p.at, &flat->region);
    for (size_t i = 0; i < flat->bend_count; i++) {
        const sw_flat_bend *b = &flat->bends[i];
        if (b->bend->kind == SW_ROLLED) {
            sw_point q[4];
            for (int k = 0; k < 4; k++) q[k] = pen_on_page(still, p.scale, p.at, b->zone[k]);
            sw_pen_polygon(c->pen, look_light(0.13), q, 4, true);
        }
        sw_pen_line(c->pen, look_dashed(look_rust(0.2), chain, dashes), pen_on_page(still, p.scale, p.at, b->from),
                    pen_on_page(still, p.scale, p.at, b->to));
    }
    for (size_t i = 0; i < flat->bend_count; i++) {
        const sw_flat_bend *b = &flat->bends[i];
        const char *text = number_of(run, c, b->bend);
        if (text == NULL) return SW_NO_MEMORY;
        SW_TRY(mark(run, c, &t, pen_on_page(still, p.scale, p.at, b->from), pen_on_page(still, p.scale, p.at, b->to),
                    text));
    }
    return SW_OK;
}
