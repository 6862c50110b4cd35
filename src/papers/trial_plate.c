/* trial_plate.c: rating plate, technical documentation and fiche of a test, as drafts. */
#include "papers/trial_parts.h"

#include <math.h>

/* ---- the plate ------------------------------------------------------------------------------------------------------ */

#define ROW_MM  5.0
#define HEAD_MM 13.0
#define FOOT_MM 9.0
#define WIDE_MM 140.0

double plate_height_mm(const doc_book *doc)
{
    return HEAD_MM + FOOT_MM + ROW_MM * (double)doc->tested->result->sheets[SW_SHEET_PLATE].line_count + 4.0;
}

static sw_status plate_row(sw_run *run, sw_pen *pen, double x_mm, double y_mm, const sw_trial_line *l)
{
    const double value_mm = 78, text_mm = 2.0;
    const char *label = words_within(run, pen, text_mm, false, value_mm - 6, l->label);
    const char *value = words_within(run, pen, text_mm, true, WIDE_MM - value_mm - 4, l->value);
    if (label == NULL || value == NULL) return SW_NO_MEMORY;
    pen_write(pen, (sw_point){x_mm + 4, y_mm + 3.4}, look_type_grey(text_mm, SW_LEFT), label);
    pen_write(pen, (sw_point){x_mm + value_mm, y_mm + 3.4}, look_type_bold(text_mm, SW_LEFT), value);
    sw_pen_line(pen, look_light(0.13), (sw_point){x_mm + 3, y_mm + ROW_MM},
                (sw_point){x_mm + WIDE_MM - 3, y_mm + ROW_MM});
    return SW_OK;
}

sw_status draw_plate(sw_run *run, const doc_book *doc, size_t a, size_t b, sw_pen *pen, sw_box box)
{
    (void)a;
    (void)b;
    const sw_trial_sheet *s = &doc->tested->result->sheets[SW_SHEET_PLATE];
    double x_mm = (box.x0_mm + box.x1_mm - WIDE_MM) / 2, y_mm = box.y0_mm + 2;
    const sw_box frame = {x_mm, y_mm, x_mm + WIDE_MM, box.y1_mm - 2};
    const pen_paint rim = {.stroke = true, .stroke_ink = look_dark(0.5)};
    pen_box(pen, &rim, frame);
    pen_write(pen, (sw_point){x_mm + 4, y_mm + 7.5}, look_type_bold(3.4, SW_LEFT), "Room heater fired by wood");
    pen_type draft = look_type_bold(2.4, SW_RIGHT);
    draft.ink = look_rust(0);
    pen_write(pen, (sw_point){x_mm + WIDE_MM - 4, y_mm + 7.5}, draft, "DRAFT, not certified");
    y_mm += HEAD_MM - 2;
    for (size_t i = 0; i < s->line_count; i++) {
        SW_TRY(plate_row(run, pen, x_mm, y_mm, &s->lines[i]));
        y_mm += ROW_MM;
    }
    pen_write(pen, (sw_point){x_mm + 4, frame.y1_mm - 3}, look_type_grey(1.9, SW_LEFT),
              "Stamped only with the figures of an accredited laboratory.");
    return SW_OK;
}

/* ---- the document ----------------------------------------------------------------------------------------------------- */

static sw_status sheet_table(sw_run *run, doc_book *doc, const sw_trial_sheet *s)
{
    static const doc_column columns[] = {
        {"field", 4, SW_LEFT}, {"value", 2.6, SW_LEFT}, {"how sure, or what is missing", 3.4, SW_LEFT}};
    doc_table table = {.columns = columns, .column_count = sizeof columns / sizeof *columns};
    for (size_t i = 0; i < s->line_count; i++) {
        const char *const cells[] = {s->lines[i].label, s->lines[i].value, s->lines[i].note};
        SW_TRY(doc_row(run, &table, cells));
    }
    SW_TRY(doc_heading(run, doc, 1, s->title));
    return doc_put_table(run, doc, &table);
}

static const char *const rules[] = {
    "Declare nothing better than the measured mean and its half width to the bad side (common practice, no source).",
    "The tolerances of market surveillance (2015/1185 annex IV, 2015/1186 annex VIII) are not the maker's: they do not widen a "
    "declaration.",
    "Distances on the plate are those of the temperature-safety test; gas flow, temperature and draught on it are those the chimney is "
    "computed with.",
    "Class and index follow from the declared efficiency, never the other way round.",
};

sw_status tested_plate(sw_run *run, doc_book *doc)
{
    const sw_trial_result *r = doc->tested->result;
    for (size_t i = 0; i < sizeof rules / sizeof *rules; i++)
        SW_TRY(doc_add(run, doc, (doc_block){.kind = DOC_ITEM, .text = rules[i]}));
    SW_TRY(doc_heading(run, doc, 1, "The plate"));
    SW_TRY(doc_add(
        run, doc,
        (doc_block){
            .kind = DOC_FIGURE,
            .text =
                "Fields: EN 13240 (a summary seen) and EN 16510-1 (from memory). An open line waits for the type test.",
            .figure = {.draw = draw_plate, .height_mm = plate_height_mm(doc)}}));
    SW_TRY(doc_add(run, doc, (doc_block){.kind = DOC_PAGE}));
    for (int k = 0; k < SW_SHEETS; k++) SW_TRY(sheet_table(run, doc, &r->sheets[k]));
    return doc_paragraph(
        run, doc,
        "Technical documentation: Regulation (EU) 2015/1185 annex II point 3, table 1. Fiche: Delegated Regulation (EU) "
        "2015/1186 annex IV. Both go on with the test reports, the test body's name and address and a signature.");
}
