/* card_roll.c: rolling cards: for each rolled zone the passes, feed and force, what stays flat at the ends and what to do
 * about it, and the values its template is checked by. Cautions: common practice, no source. */
#include "papers/cards_parts.h"

#include <math.h>

#define ZONE_MM    84.0 /* a zone: its picture */
#define PICTURE_MM 92.0 /* wide */
#define RIGHT_MM   (A4_SHORT_MM - CARD_EDGE_MM)

static const char *const cautions[] = {
    "Rolls draw in gloves, sleeves and hands: no gloves at the nip, hands well away; trip wire or pedal tried before work; the shell supported as it rises.",
    "Template 1:1: folder templates. Try the radius on a strip of the same sheet first; the last pass is set after its template, not after the table."};

static const char *number(sw_run *run, double value, int decimals, const char *unit)
{
    const char *text = words_number(run, value, decimals);
    return text == NULL ? NULL : sw_text_format(run, run->scratch, "%s %s", text, unit);
}

static const char *ends_words(sw_run *run, const sw_form_roll *r)
{
    const char *a = words_mm(run, r->flat_drawn_mm[0]), *b = words_mm(run, r->flat_drawn_mm[1]);
    if (a == NULL || b == NULL) return NULL;
    return sw_text_format(run, run->scratch, "%s and %s mm", a, b);
}

/* Two thicknesses stay flat of an end that was bent before; by the rolls alone it is half their centres and less. */
static const char *flat_words(sw_run *run, const sw_form_roll *r)
{
    const char *needed = words_number(run, r->flat_needed_mm, 1), *alone = words_number(run, r->flat_rolls_mm, 1);
    if (needed == NULL || alone == NULL) return NULL;
    if (!r->pre_bent) return sw_text_format(run, run->scratch, "%s mm at each end", needed);
    return sw_text_format(run, run->scratch, "%s mm once pre-bent; %s mm by the rolls alone", needed, alone);
}

static const char *extra_words(sw_run *run, const sw_form_roll *r)
{
    const char *a = words_mm(run, r->extra_mm[0]), *b = words_mm(run, r->extra_mm[1]);
    if (a == NULL || b == NULL) return NULL;
    bool drawn = r->extra_mm[0] <= 0.0 && r->extra_mm[1] <= 0.0;
    if (drawn && r->pre_bent) return "bend both before, on the press or by the pinch; then roll";
    if (drawn) return "nothing: what stays flat is drawn flat";
    return sw_text_format(run, run->scratch, "add %s and %s mm and trim, or pre-bend on the press", a, b);
}

static sw_status values(sw_run *run, const card_sheet *c, const sw_form_roll *r, sw_box box)
{
    const char *angle = words_number(run, sw_deg_from_rad(fabs(r->bend->angle_rad)), 1);
    const char *low = words_number(run, r->sagitta_low_mm, 2), *high = words_number(run, r->sagitta_high_mm, 2),
               *tolerance = words_number(run, r->tolerance_mm, 2), *radius = words_mm(run, r->radius_mm);
    if (angle == NULL || low == NULL || high == NULL || tolerance == NULL || radius == NULL) return SW_NO_MEMORY;
    const card_value list[] = {
        {"radius",
         sw_text_format(run, run->scratch, "R%s \xc2\xb1 %s mm inside, over %s\xc2\xb0", radius, tolerance, angle)},
        {"under load", number(run, r->loaded_mm, 1, "mm inside")},
        {"width", number(run, r->width_mm, 1, "mm")},
        {"downfeed", number(run, r->feed_mm, 2, "mm from flat, last pass")},
        {"force", number(run, r->force_n * 1e-3, 1, "kN on the top roll")},
        {"yield stress", number(run, r->re_mpa, 0, "N/mm\xc2\xb2")},
        {"moment", number(run, r->moment_n, 0, "N mm a mm of width")},
        {"stays flat", flat_words(run, r)},
        {"drawn flat", ends_words(run, r)},
        {"at the ends", extra_words(run, r)},
        {"template", number(run, r->chord_mm, 1, "mm chord")},
        {"sagitta", sw_text_format(run, run->scratch, "%.2f mm; good from %s to %s", r->sagitta_mm, low, high)},
        {"time", words_time(run, r->seconds)},
    };
    return card_values(run, c->pen, box, list, sizeof list / sizeof *list);
}

static sw_status pass_row(sw_run *run, card_sheet *c, const char *const *cells, bool head)
{
    static const double right_mm[] = {12, 52, 92, 132, 172};
    if (card_room_mm(c) < CARD_ROW_MM) SW_TRY(card_turn(run, c));
    for (int i = 0; i < 5; i++) {
        if (cells[i] == NULL) return SW_NO_MEMORY;
        pen_write(c->pen, (sw_point){CARD_EDGE_MM + right_mm[i], c->y_mm + 2.8},
                  head ? look_type_grey(1.7, SW_RIGHT) : look_type(CARD_TEXT_MM, SW_RIGHT), cells[i]);
    }
    c->y_mm += CARD_ROW_MM;
    sw_pen_line(c->pen, head ? look_grey(0.2) : look_light(0.13), (sw_point){CARD_EDGE_MM, c->y_mm},
                (sw_point){CARD_EDGE_MM + 174.0, c->y_mm});
    return SW_OK;
}

static sw_status passes(sw_run *run, card_sheet *c, const sw_form_roll *r)
{
    static const char *const head[] = {"pass", "downfeed from flat, mm", "inside radius under load, mm",
                                       "inside radius after, mm", "force, kN"};
    SW_TRY(pass_row(run, c, head, true));
    for (size_t i = 0; i < r->pass_count; i++) {
        const sw_form_pass *p = &r->passes[i];
        const char *const cells[] = {sw_text_format(run, run->scratch, "%zu", i + 1), words_number(run, p->feed_mm, 2),
                                     words_number(run, p->loaded_mm, 1), words_number(run, p->radius_mm, 1),
                                     words_number(run, p->force_n * 1e-3, 1)};
        SW_TRY(pass_row(run, c, cells, false));
    }
    c->y_mm += 2.0;
    return SW_OK;
}

static const char *rounds_words(sw_run *run, const sw_form_roll *r)
{
    const char *free = words_mm(run, r->radius_mm), *loaded = words_mm(run, r->loaded_mm);
    if (free == NULL || loaded == NULL) return NULL;
    return sw_text_format(run, run->scratch, "R%s under load, R%s sprung back", loaded, free);
}

static sw_status zone(sw_run *run, card_sheet *c, const sw_form_roll *r)
{
    double high_mm = ZONE_MM + (double)(r->pass_count + 1) * CARD_ROW_MM + 16.0;
    if (card_room_mm(c) < high_mm) SW_TRY(card_turn(run, c));
    const char *name = card_bend_name(run, c->piece, r->bend);
    if (name == NULL) return SW_NO_MEMORY;
    pen_write(c->pen, (sw_point){CARD_EDGE_MM, c->y_mm + 3.8}, look_type_bold(2.2, SW_LEFT),
              sw_text_format(run, run->scratch, "%s %s", name, r->bend->name));
    sw_box box = {CARD_EDGE_MM, c->y_mm + 5.6, CARD_EDGE_MM + PICTURE_MM, c->y_mm + ZONE_MM - 3.0};
    const char *rounds = rounds_words(run, r);
    if (rounds == NULL) return SW_NO_MEMORY;
    pen_write(c->pen, (sw_point){box.x1_mm, c->y_mm + 3.8}, look_type_grey(1.9, SW_RIGHT), rounds);
    card_rolls(c, r, box);
    SW_TRY(values(run, c, r, (sw_box){box.x1_mm + 5.0, box.y0_mm + 0.5, RIGHT_MM, box.y1_mm}));
    c->y_mm += ZONE_MM;
    SW_TRY(passes(run, c, r));
    SW_TRY(card_note(run, c, "yield stress from", r->re_source));
    c->y_mm += 5.0;
    return SW_OK;
}

static sw_status card(sw_run *run, card_sheet *c)
{
    SW_TRY(card_begin(run, c));
    for (size_t i = 0; i < c->form->roll_count; i++) SW_TRY(zone(run, c, &c->form->rolls[i]));
    return card_findings(run, c);
}

static bool is_rolled(const sw_form_piece *f)
{
    return f->roll_count > 0;
}

static const card_kind rolls = {"rolling card", "rolling cards", cautions, is_rolled, card};

bool cards_rolled(const sw_dossier *d)
{
    return cards_any(d, &rolls);
}

sw_status paper_rolls(sw_run *run, const paper_desk *desk, const char *path)
{
    return cards_write(run, desk, path, &rolls);
}
