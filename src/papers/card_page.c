/* card_page.c: pages of cards for press and rolls: head, foot, notes and labelled values. */
#include "papers/cards_parts.h"

#include <math.h>
#include <string.h>

enum { STRIP_MM = 13, FOOT_MM = 8, HEAD_MM = 50, NEXT_HEAD_MM = 14 };

#define RIGHT_MM (A4_SHORT_MM - CARD_EDGE_MM)

static double foot_top_mm(void)
{
    return A4_LONG_MM - CARD_EDGE_MM - FOOT_MM - STRIP_MM;
}

double card_room_mm(const card_sheet *c)
{
    return foot_top_mm() - 2.0 - c->y_mm;
}

static sw_status strip(sw_run *run, card_sheet *c)
{
    const sw_piece *piece = c->piece->piece;
    const char *thick = words_number(run, piece->thickness_mm, 2), *mass = words_number(run, c->piece->mass_kg, 3);
    if (thick == NULL || mass == NULL) return SW_NO_MEMORY;
    const strip_cell cells[] = {{"material", piece->grade->name, 1.0},
                                {"thickness", sw_text_format(run, run->scratch, "%s mm", thick), 0.8},
                                {"quantity",
                                 sw_text_format(run, run->scratch, "%zu \xc3\x97 %zu = %zu", piece->count, c->d->batch,
                                                piece->count * c->d->batch),
                                 1.2},
                                {"mass of one", sw_text_format(run, run->scratch, "%s kg", mass), 1.1},
                                {"page", sw_text_format(run, run->scratch, "%d", c->page), 0.5},
                                {"stove", c->d->model.stove->title, 2.4},
                                {"date", c->d->date, 1.1}};
    enum { CELLS = sizeof cells / sizeof *cells };
    for (size_t i = 0; i < CELLS; i++)
        if (cells[i].value == NULL) return SW_NO_MEMORY;
    const sw_box box = {CARD_EDGE_MM, foot_top_mm(), RIGHT_MM, foot_top_mm() + STRIP_MM};
    SW_TRY(draw_strip(run, c->pen, box, cells, CELLS));
    SW_TRY(draw_caution(run, c->pen, (sw_point){CARD_EDGE_MM, box.y1_mm + 3.6}, c->cautions[0]));
    return draw_caution(run, c->pen, (sw_point){CARD_EDGE_MM, box.y1_mm + 7.0}, c->cautions[1]);
}

static void open_page(card_sheet *c)
{
    sw_pen_page(c->pen, A4_SHORT_MM, A4_LONG_MM);
    c->page++;
    c->printed = true;
}

sw_status card_turn(sw_run *run, card_sheet *c)
{
    const sw_piece *piece = c->piece->piece;
    open_page(c);
    double wide_mm = pen_width(c->pen, 4.5, true, piece->number);
    const char *name = words_within(run, c->pen, 2.6, false, 110.0, piece->name);
    if (name == NULL) return SW_NO_MEMORY;
    pen_write(c->pen, (sw_point){CARD_EDGE_MM, 17.0}, look_type_bold(4.5, SW_LEFT), piece->number);
    pen_write(c->pen, (sw_point){CARD_EDGE_MM + wide_mm + 4.0, 17.0}, look_type(2.6, SW_LEFT), name);
    pen_write(c->pen, (sw_point){RIGHT_MM, 17.0}, look_type_grey(2.4, SW_RIGHT),
              sw_text_format(run, run->scratch, "%s, continued", c->what));
    sw_pen_line(c->pen, look_rust(0.5), (sw_point){CARD_EDGE_MM, 20.0}, (sw_point){RIGHT_MM, 20.0});
    c->y_mm = CARD_EDGE_MM + NEXT_HEAD_MM;
    return strip(run, c);
}

/* ---- head ---------------------------------------------------------------------------------------------------------- */

static const char *press_fact(sw_run *run, const card_sheet *c)
{
    const sw_form_piece *f = c->form;
    if (f->step_count == 0) return f->bendable ? "nothing on the press" : "no order of strokes was found";
    return sw_text_format(run, run->scratch, "%zu stroke%s, %zu tool set-up%s, %zu turn%s over, %zu round",
                          f->step_count, sw_plural(f->step_count), f->dies, sw_plural(f->dies), f->turns_over,
                          sw_plural(f->turns_over), f->turns_round);
}

static const char *fact(sw_run *run, const card_sheet *c, int line)
{
    const sw_form_piece *f = c->form;
    const sw_flat *flat = &c->piece->flat;
    const char *wide = words_mm(run, flat->box.x1_mm), *high = words_mm(run, flat->box.y1_mm);
    const char *one = words_time(run, f->press_s + f->rolls_s),
               *setup = words_time(run, f->press_setup_s + f->rolls_setup_s);
    if (wide == NULL || high == NULL || one == NULL || setup == NULL) return NULL;
    switch (line) {
    case 0:
        return sw_text_format(run, run->scratch, "flat %s \xc3\x97 %s mm, %zu bend line%s, %zu rolled", wide, high,
                              f->line_count, sw_plural(f->line_count), f->roll_count);
    case 1:
        return press_fact(run, c);
    case 2:
        return f->step_count == 0
                   ? ""
                   : sw_text_format(run, run->scratch, "at most %.0f kN over %.0f mm", f->force_n * 1e-3, f->length_mm);
    case 3:
        return sw_text_format(run, run->scratch, "%s one piece, %s setting up", one, setup);
    default:
        return f->roll_count == 0 || f->line_count == 0 ? ""
               : f->rolls_first                         ? "rolled first, then bent on the press"
                                                        : "bent on the press first, then rolled";
    }
}

static sw_status folded(sw_run *run, card_sheet *c, sw_box box)
{
    const solid_part part = {
        .mesh = c->piece->solid.mesh, .shape = c->shape, .frame = sw_frame_world(), .colour = look_group(0)};
    const solid_wish wish = {box.x1_mm - box.x0_mm, box.y1_mm - box.y0_mm, 5.0, false};
    solid_picture picture;
    if (part.mesh.triangle_count == 0) return SW_OK;
    SW_TRY(solid_draw(run, &part, 1, solid_view_piece(), wish, &picture));
    solid_show(c->pen,
               (sw_point){box.x0_mm + (wish.width_mm - picture.width_mm) / 2.0,
                          box.y0_mm + (wish.height_mm - picture.height_mm) / 2.0},
               1.0, &picture, 0.18);
    return SW_OK;
}

sw_status card_begin(sw_run *run, card_sheet *c)
{
    const sw_piece *piece = c->piece->piece;
    const char *title = sw_text_format(run, run->scratch, "%s %s", piece->number, piece->name);
    c->page = 0;
    open_page(c);
    const char *number = words_within(run, c->pen, 6.5, true, 66.0, piece->number),
               *name = words_within(run, c->pen, 3.2, false, 66.0, piece->name);
    if (title == NULL || number == NULL || name == NULL) return SW_NO_MEMORY;
    pen_entry(c->pen, title, piece->number);
    pen_write(c->pen, (sw_point){CARD_EDGE_MM, 18.0}, look_type_bold(6.5, SW_LEFT), number);
    pen_write(c->pen, (sw_point){CARD_EDGE_MM, 25.0}, look_type(3.2, SW_LEFT), name);
    pen_write(c->pen, (sw_point){CARD_EDGE_MM, 30.5}, look_type_grey(2.0, SW_LEFT), c->what);
    for (int i = 0; i < 5; i++) {
        const char *text = fact(run, c, i);
        if (text == NULL) return SW_NO_MEMORY;
        text = words_within(run, c->pen, CARD_TEXT_MM, false, 66.0, text);
        if (text == NULL) return SW_NO_MEMORY;
        pen_write(c->pen, (sw_point){CARD_EDGE_MM, 37.0 + 4.1 * i}, look_type(CARD_TEXT_MM, SW_LEFT), text);
    }
    SW_TRY(folded(run, c, (sw_box){78.0, CARD_EDGE_MM + 2.0, 124.0, CARD_EDGE_MM + HEAD_MM - 4.0}));
    SW_TRY(card_flat(run, c, (sw_box){128.0, CARD_EDGE_MM, RIGHT_MM, CARD_EDGE_MM + HEAD_MM - 2.0}));
    c->y_mm = CARD_EDGE_MM + HEAD_MM + 2.0;
    sw_pen_line(c->pen, look_rust(0.5), (sw_point){CARD_EDGE_MM, c->y_mm - 2.0}, (sw_point){RIGHT_MM, c->y_mm - 2.0});
    return strip(run, c);
}

/* ---- notes and values ------------------------------------------------------------------------------------------- */

#define LEAD_MM 30.0
#define LINE_MM 3.9

sw_status card_note(sw_run *run, card_sheet *c, const char *lead, const char *text)
{
    doc_lines lines = {0};
    double indent_mm = lead[0] == '\0' ? 0.0 : LEAD_MM;
    if (text == NULL) return SW_NO_MEMORY;
    const doc_measure measure = {CARD_TEXT_MM, RIGHT_MM - CARD_EDGE_MM - indent_mm, false};
    SW_TRY(doc_wrap(run, c->pen->letters, measure, text, &lines));
    for (size_t i = 0; i < lines.count; i++) {
        if (card_room_mm(c) < LINE_MM) SW_TRY(card_turn(run, c));
        double y_mm = c->y_mm + CARD_TEXT_MM + 1.0;
        if (i == 0) pen_write(c->pen, (sw_point){CARD_EDGE_MM, y_mm}, look_type_grey(CARD_TEXT_MM, SW_LEFT), lead);
        pen_write(c->pen, (sw_point){CARD_EDGE_MM + indent_mm, y_mm}, look_type(CARD_TEXT_MM, SW_LEFT), lines.lines[i]);
        c->y_mm += LINE_MM;
    }
    return SW_OK;
}

static bool names(const sw_finding *f, const char *number)
{
    size_t n = strlen(number);
    return f->verdict != SW_HOLDS && strncmp(f->where, number, n) == 0 && (f->where[n] == ' ' || f->where[n] == '\0');
}

static sw_status finding(sw_run *run, card_sheet *c, const sw_finding *f)
{
    if (card_room_mm(c) < 3.0 * LINE_MM) SW_TRY(card_turn(run, c));
    pen_type verdict = look_type_bold(CARD_TEXT_MM, SW_LEFT);
    verdict.ink = look_verdict(f->verdict);
    pen_write(c->pen, (sw_point){CARD_EDGE_MM + 15.0, c->y_mm + CARD_TEXT_MM + 1.0}, verdict,
              sw_verdict_name(f->verdict));
    SW_TRY(card_note(run, c, "found", f->what));
    if (f->remedy[0] != '\0') SW_TRY(card_note(run, c, "what to do", f->remedy));
    SW_TRY(card_note(run, c, "source", f->source));
    c->y_mm += 1.5;
    return SW_OK;
}

sw_status card_findings(sw_run *run, card_sheet *c)
{
    const sw_findings *all = &c->d->shop.form->findings;
    for (size_t i = 0; i < all->count; i++)
        if (names(&all->items[i], c->piece->piece->number)) SW_TRY(finding(run, c, &all->items[i]));
    return SW_OK;
}

sw_status card_values(sw_run *run, sw_pen *pen, sw_box box, const card_value *values, size_t count)
{
    const double label_mm = 15.5;
    double y_mm = box.y0_mm + CARD_TEXT_MM;
    for (size_t i = 0; i < count; i++) {
        if (values[i].value == NULL) return SW_NO_MEMORY;
        const char *value =
            words_within(run, pen, CARD_TEXT_MM, false, box.x1_mm - box.x0_mm - label_mm, values[i].value);
        if (value == NULL) return SW_NO_MEMORY;
        pen_write(pen, (sw_point){box.x0_mm, y_mm}, look_type_grey(1.6, SW_LEFT), values[i].label);
        pen_write(pen, (sw_point){box.x0_mm + label_mm, y_mm}, look_type(CARD_TEXT_MM, SW_LEFT), value);
        y_mm += CARD_ROW_MM;
    }
    return SW_OK;
}

void card_circle(sw_pen *pen, sw_point at, double radius_mm, const char *text)
{
    const pen_paint ring = {.fill = true, .fill_ink = look_white(), .stroke = true, .stroke_ink = look_rust(0.25)};
    double size_mm = fmin(0.95 * radius_mm, 1.45 * radius_mm / fmax(pen_width(pen, 1.0, true, text), 0.1));
    pen_type type = look_type_bold(size_mm, SW_CENTRE);
    type.ink = look_rust(0.0);
    pen_circle(pen, &ring, at, radius_mm);
    pen_write(pen, (sw_point){at.x_mm, at.y_mm + size_mm / 2.0}, type, text);
}

/* ---- the document ------------------------------------------------------------------------------------------------ */

bool cards_any(const sw_dossier *d, const card_kind *kind)
{
    for (size_t i = 0; d->shop.form != NULL && i < d->shop.form->piece_count; i++)
        if (kind->wanted(&d->shop.form->pieces[i])) return true;
    return false;
}

static sw_status one_card(sw_run *run, const paper_desk *desk, const card_kind *kind, size_t index, sw_pen *pen)
{
    size_t mark = sw_arena_mark(run->scratch);
    card_sheet c = {.desk = desk,
                    .d = desk->d,
                    .form = &desk->d->shop.form->pieces[index],
                    .piece = &desk->d->sheet->pieces[index],
                    .shape = desk->shapes[index],
                    .what = kind->what,
                    .cautions = kind->cautions,
                    .pen = pen};
    sw_status status = kind->draw(run, &c);
    sw_arena_rewind(run->scratch, mark);
    return status;
}

static sw_status all_cards(sw_run *run, const paper_desk *desk, const card_kind *kind, sw_pen *pen)
{
    const sw_form_result *form = desk->d->shop.form;
    for (size_t i = 0; i < form->piece_count; i++)
        if (kind->wanted(&form->pieces[i])) SW_TRY(one_card(run, desk, kind, i, pen));
    return SW_OK;
}

static sw_status written(sw_run *run, const paper_desk *desk, const char *path, const card_kind *kind)
{
    sw_pen *pen = NULL;
    const char *title = sw_text_format(run, run->scratch, "%s: %s", desk->d->model.stove->title, kind->title);
    if (title == NULL) return SW_NO_MEMORY;
    SW_TRY(pen_open_lettered(run, path, desk->letters, 0.0, 0.0, &pen));
    pen_about(pen, title, desk->d->date);
    sw_status status = all_cards(run, desk, kind, pen);
    if (status == SW_OK) return sw_pen_close(run, pen);
    sw_pen_abandon(pen);
    return status;
}

sw_status cards_write(sw_run *run, const paper_desk *desk, const char *path, const card_kind *kind)
{
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = written(run, desk, path, kind);
    sw_arena_rewind(run->scratch, mark);
    return status;
}
