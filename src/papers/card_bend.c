/* card_bend.c: bend cards: for each piece the strokes in their order, each before and after in section, with what to set.
 * Cautions: common practice, no source. */
#include "papers/cards_parts.h"

#include <math.h>
#include <string.h>

#define BAND_MM    48.2 /* a stroke */
#define PICTURE_MM 40.8
#define WIDE_MM    59.0
#define FIRST_MM   21.0 /* left edge of the pictures */
#define VALUES_MM  (FIRST_MM + 2.0 * WIDE_MM + 5.0)
#define RIGHT_MM   (A4_SHORT_MM - CARD_EDGE_MM)

static const char *const cautions[] = {
    "Press brake: pinch points at punch, die, stop and under the swinging sheet. Light curtain and two-hand control in force; hands off the die; sheet held at its rim.",
    "Cut edges are sharp: gloves when handling, none near the closing tool. Wait for the first piece of a batch: measure angle and legs before the second."};

/* ---- words of a stroke ------------------------------------------------------------------------------------------- */

static const char *bends_of(sw_run *run, const card_sheet *c, const sw_form_step *s)
{
    const char *text = "";
    for (size_t i = 0; i < s->bend_count && text != NULL; i++) {
        const char *name = card_bend_name(run, c->piece, s->bends[i]);
        text = name == NULL
                   ? NULL
                   : sw_text_format(run, run->scratch, "%s%s%s %s", text, i == 0 ? "" : " + ", name, s->bends[i]->name);
    }
    return text;
}

/* What the hands do before the stroke. */
static const char *handling(sw_run *run, const sw_form_step *s, bool first)
{
    double round_deg = sw_deg_from_rad(s->turn_round_rad);
    const char *face = first ? (s->front_up ? "front side up" : "back side up") : "",
               *over = s->turn_over ? (s->front_up ? "turn over, front side up" : "turn over, back side up") : "";
    const char *round =
        round_deg > 1.0 ? sw_text_format(run, run->scratch, "turn round by %.0f\xc2\xb0", round_deg) : "";
    const char *die = s->new_die && !first ? "change the tool" : "",
               *gauge = s->new_gauge && !first ? "set the stop" : "";
    const char *parts[] = {face, over, round, die, gauge};
    const char *text = "";
    for (size_t i = 0; i < sizeof parts / sizeof *parts && text != NULL; i++) {
        if (parts[i] == NULL) return NULL;
        if (parts[i][0] == '\0') continue;
        text = sw_text_format(run, run->scratch, "%s%s%s", text, text[0] == '\0' ? "" : "; ", parts[i]);
    }
    return text == NULL || text[0] != '\0' ? text : "as it lies";
}

static const char *stop_words(sw_run *run, const sw_form_step *s)
{
    if (!isfinite(s->gauge_mm)) return "by eye on the etched line";
    const char *mm = words_mm(run, s->gauge_mm);
    return mm == NULL ? NULL : sw_text_format(run, run->scratch, "%s mm to %s", mm, s->gauge_edge);
}

static const char *angle_words(sw_run *run, const sw_form_step *s)
{
    const char *wanted = words_number(run, sw_deg_from_rad(s->angle_rad), 1),
               *set = words_number(run, sw_deg_from_rad(s->set_rad), 1);
    if (wanted == NULL || set == NULL) return NULL;
    return sw_text_format(run, run->scratch, "%s\xc2\xb0; %s\xc2\xb0 under load", wanted, set);
}

static const char *depth_words(sw_run *run, const sw_form_step *s)
{
    if (!isfinite(s->depth_mm)) return "to the die's bottom";
    return sw_text_format(run, run->scratch, "%.2f mm, %.2f mm/\xc2\xb0", s->depth_mm,
                          s->slope_mm * sw_rad_from_deg(1));
}

static const char *radius_words(sw_run *run, const sw_form_step *s)
{
    const char *drawn = words_number(run, s->radius_drawn_mm, 1), *made = words_number(run, s->radius_made_mm, 1);
    if (drawn == NULL || made == NULL) return NULL;
    return sw_text_format(run, run->scratch, "R%s drawn, R%s made", drawn, made);
}

static const char *leg_words(sw_run *run, const sw_form_step *s)
{
    const char *shift = words_number(run, s->leg_shift_mm, 2);
    if (shift == NULL) return NULL;
    return sw_text_format(run, run->scratch, "%s%s mm each", s->leg_shift_mm > 0 ? "+" : "", shift);
}

static const char *flange_words(sw_run *run, const sw_form_step *s)
{
    const char *there = words_mm(run, s->flange_mm), *least = words_mm(run, s->least_flange_mm);
    if (there == NULL || least == NULL) return NULL;
    return sw_text_format(run, run->scratch, "%s mm; die needs %s", there, least);
}

static const char *die_words(sw_run *run, const sw_form_step *s)
{
    if (s->die_mm <= 0.0) return "flat tools";
    const char *v = words_number(run, s->die_mm, 1), *wedge = words_number(run, sw_deg_from_rad(s->punch_wedge_rad), 0);
    if (v == NULL || wedge == NULL) return NULL;
    return s->punch_wedge_rad > 0.0 ? sw_text_format(run, run->scratch, "V %s, punch %s\xc2\xb0", v, wedge)
                                    : sw_text_format(run, run->scratch, "V %s", v);
}

/* As short as the column: where the neck's relief points. */
static const char *punch_words(const sw_form_step *s)
{
    return s->punch == SW_FORM_NECK_FRONT  ? "goose-neck, relief in front"
           : s->punch == SW_FORM_NECK_REAR ? "goose-neck, relief behind"
                                           : sw_form_punch_name(s->punch);
}

static sw_status values(sw_run *run, sw_pen *pen, sw_box box, const sw_form_step *s)
{
    const char *length = words_mm(run, s->length_mm), *bent = words_mm(run, s->bent_mm);
    if (length == NULL || bent == NULL) return SW_NO_MEMORY;
    const card_value list[] = {
        {"die", die_words(run, s)},
        {"punch", punch_words(s)},
        {"tool", sw_text_format(run, run->scratch, "%s mm, bends %s", length, bent)},
        {"force", isnan(s->force_n) ? "no formula" : sw_text_format(run, run->scratch, "%.1f kN", s->force_n * 1e-3)},
        {"angle", angle_words(run, s)},
        {"depth", depth_words(run, s)},
        {"stop", stop_words(run, s)},
        {"rests on", sw_form_rest_name(s->rest)},
        {"radius", radius_words(run, s)},
        {"legs", leg_words(run, s)},
        {"least flange", flange_words(run, s)},
    };
    return card_values(run, pen, box, list, sizeof list / sizeof *list);
}

/* ---- a stroke -------------------------------------------------------------------------------------------------------- */

static sw_status band(sw_run *run, card_sheet *c, size_t index, double scale)
{
    const sw_form_step *s = &c->form->steps[index];
    if (card_room_mm(c) < BAND_MM) SW_TRY(card_turn(run, c));
    double y_mm = c->y_mm;
    const char *number = sw_text_format(run, run->scratch, "%zu", index + 1), *names = bends_of(run, c, s),
               *hands = handling(run, s, index == 0);
    if (number == NULL || names == NULL || hands == NULL) return SW_NO_MEMORY;
    const char *title = sw_text_format(run, run->scratch, "%s: %s", sw_form_stroke_name(s->stroke), names);
    if (title == NULL) return SW_NO_MEMORY;
    title = words_within(run, c->pen, 2.2, true, 92.0, title);
    if (title == NULL) return SW_NO_MEMORY;
    hands = words_within(run, c->pen, 2.0, false, 82.0, hands);
    if (hands == NULL) return SW_NO_MEMORY;
    card_circle(c->pen, (sw_point){CARD_EDGE_MM + 4.5, y_mm + 10.5}, 4.2, number);
    pen_write(c->pen, (sw_point){FIRST_MM, y_mm + 3.8}, look_type_bold(2.2, SW_LEFT), title);
    pen_type rust = look_type(2.0, SW_RIGHT);
    rust.ink = look_rust(0.0);
    pen_write(c->pen, (sw_point){RIGHT_MM, y_mm + 3.8}, rust, hands);
    double top_mm = y_mm + 5.6;
    sw_box box = {FIRST_MM, top_mm, FIRST_MM + WIDE_MM, top_mm + PICTURE_MM};
    SW_TRY(card_section(run, c->pen, box, scale, s, false));
    box.x0_mm += WIDE_MM + 2.0;
    box.x1_mm += WIDE_MM + 2.0;
    SW_TRY(card_section(run, c->pen, box, scale, s, true));
    SW_TRY(values(run, c->pen, (sw_box){VALUES_MM, top_mm + 0.4, RIGHT_MM, top_mm + PICTURE_MM}, s));
    c->y_mm += BAND_MM;
    return SW_OK;
}

static bool told_before(const sw_form_piece *f, size_t index, bool over)
{
    for (size_t i = 0; i < index; i++)
        if (strcmp(over ? f->steps[i].over_source : f->steps[i].allowance_rule,
                   over ? f->steps[index].over_source : f->steps[index].allowance_rule) == 0)
            return true;
    return false;
}

/* Where the numbers come from, each source once. */
static sw_status sources(sw_run *run, card_sheet *c)
{
    for (int over = 0; over < 2; over++)
        for (size_t i = 0; i < c->form->step_count; i++) {
            const sw_form_step *s = &c->form->steps[i];
            if (told_before(c->form, i, over == 1)) continue;
            SW_TRY(card_note(run, c, over == 1 ? "over-bend from" : "flat from",
                             over == 1 ? s->over_source : s->allowance_rule));
        }
    return SW_OK;
}

static sw_status card(sw_run *run, card_sheet *c)
{
    SW_TRY(card_begin(run, c));
    double scale = card_section_scale(c->form, WIDE_MM, PICTURE_MM);
    for (size_t i = 0; i < c->form->step_count; i++) SW_TRY(band(run, c, i, scale));
    c->y_mm += 1.0;
    SW_TRY(sources(run, c));
    c->y_mm += 1.5;
    SW_TRY(card_findings(run, c));
    return SW_OK;
}

/* ---- the document ---------------------------------------------------------------------------------------------------- */

static bool is_pressed(const sw_form_piece *f)
{
    return f->line_count > 0;
}

static const card_kind bends = {"bend card", "bend cards", cautions, is_pressed, card};

bool cards_bent(const sw_dossier *d)
{
    return cards_any(d, &bends);
}

sw_status paper_bends(sw_run *run, const paper_desk *desk, const char *path)
{
    return cards_write(run, desk, path, &bends);
}
