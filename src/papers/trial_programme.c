/* trial_programme.c: the plan of the next test: what to place where, in which order, how long, with how much wood. */
#include "papers/trial_parts.h"

#include <math.h>

static const char *const cautions[] = {
    "Carbon monoxide has no smell and kills: an alarm in the room, air changed, nobody alone, and nobody asleep in the building.",
    "Glass, handles, flue and shell are hot for hours. Gloves for charging, cables away from hot parts, a fire extinguisher in reach.",
    "The flue is a tested one, swept, and free of other appliances.",
    "This programme finds out how the stove does before a type test. It is none: only an accredited laboratory can certify.",
};

/* ---- the programme over time -------------------------------------------------------------------------------------------- */

sw_status draw_timeline(sw_run *run, const doc_book *doc, size_t a, size_t b, sw_pen *pen, sw_box box)
{
    (void)a;
    (void)b;
    const sw_trial_plan *p = doc->tested->result->plan;
    const double row_mm = 5.2, names_mm = 34, lasts_s = fmax(p->lasts_s, 1);
    double from = box.x0_mm + names_mm, wide = box.x1_mm - from - 14,
           foot = box.y0_mm + row_mm * (double)p->step_count + 1;
    for (int h = 0; h <= (int)ceil(sw_h_from_s(lasts_s)); h++) {
        double x = from + wide * sw_s_from_h(h) / lasts_s;
        const char *text = sw_text_format(run, run->scratch, "%d h", h);
        if (text == NULL) return SW_NO_MEMORY;
        if (x > from + wide + 0.1) break;
        sw_pen_line(pen, look_light(0.13), (sw_point){x, box.y0_mm}, (sw_point){x, foot});
        pen_write(pen, (sw_point){x, foot + 3}, look_type_grey(TESTED_SMALL_MM, SW_CENTRE), text);
    }
    for (size_t i = 0; i < p->step_count; i++) {
        const sw_trial_step *s = &p->steps[i];
        double y = box.y0_mm + row_mm * (double)i, x0 = from + wide * s->start_s / lasts_s,
               x1 = from + wide * (s->start_s + s->lasts_s) / lasts_s;
        const pen_paint bar = {.fill = true, .fill_ink = isnan(s->wood_kg) ? look_light(0) : look_rust(0)};
        const char *text = isnan(s->wood_kg) ? "" : sw_text_format(run, run->scratch, "%.2f kg", s->wood_kg);
        if (text == NULL) return SW_NO_MEMORY;
        pen_write(pen, (sw_point){box.x0_mm, y + 3.4}, look_type(TESTED_SMALL_MM, SW_LEFT), s->phase);
        pen_box(pen, &bar, (sw_box){x0, y + 0.8, x1, y + row_mm - 0.8});
        pen_write(pen, (sw_point){x1 + 1, y + 3.4}, look_type_grey(TESTED_SMALL_MM, SW_LEFT), text);
    }
    return SW_OK;
}

static sw_status steps(sw_run *run, doc_book *doc)
{
    static const doc_column columns[] = {
        {"phase", 2, SW_LEFT},       {"begins, min", 1.2, SW_RIGHT}, {"lasts, min", 1.2, SW_RIGHT},
        {"wood, kg", 1.1, SW_RIGHT}, {"draught, Pa", 1.2, SW_RIGHT}, {"what", 5.5, SW_LEFT},
        {"done", 1, SW_LEFT}};
    doc_table table = {.columns = columns, .column_count = sizeof columns / sizeof *columns};
    const sw_trial_plan *p = doc->tested->result->plan;
    for (size_t i = 0; i < p->step_count; i++) {
        const sw_trial_step *s = &p->steps[i];
        const char *const cells[] = {s->phase,
                                     sheet_fixed(run, sw_min_from_s(s->start_s), 0),
                                     sheet_fixed(run, sw_min_from_s(s->lasts_s), 0),
                                     sheet_fixed(run, s->wood_kg, 2),
                                     sheet_fixed(run, s->draught_pa, 0),
                                     s->what,
                                     "______"};
        SW_TRY(doc_row(run, &table, cells));
    }
    return doc_put_table(run, doc, &table);
}

static sw_status programme(sw_run *run, doc_book *doc)
{
    const sw_trial_plan *p = doc->tested->result->plan;
    const sw_duty *duty = &doc->d->model.stove->duty;
    SW_TRY(doc_heading(run, doc, 1, "Programme"));
    SW_TRY(doc_paragraph(
        run, doc,
        sw_text_format(
            run, run->scratch,
            "Charges of %.2f kg %s: what an output of %.1f kW burns in %.0f min at an efficiency of %.0f %%. In the "
            "safety test %.2f kg. %.1f h in all.",
            p->charge_kg, duty->fuel, duty->output_w * 1e-3, sw_min_from_s(duty->refuel_s), 100 * duty->efficiency,
            p->safety_kg, sw_h_from_s(p->lasts_s))));
    SW_TRY(doc_add(run, doc,
                   (doc_block){.kind = DOC_FIGURE,
                               .text = "Phases over time; rust: with a charge of wood.",
                               .figure = {.draw = draw_timeline, .height_mm = 5.2 * (double)p->step_count + 6}}));
    return steps(run, doc);
}

/* ---- where the sensors go ------------------------------------------------------------------------------------------------- */

static sw_status pictures(sw_run *run, doc_book *doc)
{
    SW_TRY(doc_heading(run, doc, 1, "What to place where"));
    if (doc->desk->section != NULL)
        SW_TRY(doc_add(
            run, doc,
            (doc_block){
                .kind = DOC_FIGURE,
                .text =
                    "The stand from the right, front to the left: stove cut in the middle, on the scale, before the test "
                    "corner; flue and distances not to scale. Numbers as in the table.",
                .figure = {.draw = draw_stand, .height_mm = 170, .least_mm = 130}}));
    if (doc->desk->assembled.part_count > 0)
        SW_TRY(doc_add(
            run, doc,
            (doc_block){.kind = DOC_FIGURE,
                        .text =
                            "Surfaces seen from outside. What is in neither picture lies inside; the table names it.",
                        .figure = {.draw = draw_sensors, .height_mm = 120, .least_mm = 90}}));
    return SW_OK;
}

static sw_status sensors(sw_run *run, doc_book *doc)
{
    static const doc_column columns[] = {
        {"", 0.6, SW_RIGHT}, {"quantity", 1.8, SW_LEFT}, {"where", 3.8, SW_LEFT}, {"with what", 5.4, SW_LEFT}};
    doc_table table = {.columns = columns, .column_count = sizeof columns / sizeof *columns, .dense = true};
    const sw_trial_plan *p = doc->tested->result->plan;
    for (size_t i = 0; i < p->sensor_count; i++) {
        const sw_trial_sensor *s = &p->sensors[i];
        const char *const cells[] = {sw_text_format(run, run->scratch, "%zu", i + 1), s->quantity, s->place,
                                     s->instrument};
        SW_TRY(doc_row(run, &table, cells));
    }
    return doc_put_table(run, doc, &table);
}

sw_status tested_plan(sw_run *run, doc_book *doc)
{
    for (size_t i = 0; i < sizeof cautions / sizeof *cautions; i++)
        SW_TRY(doc_add(run, doc, (doc_block){.kind = DOC_ITEM, .text = cautions[i]}));
    SW_TRY(programme(run, doc));
    SW_TRY(pictures(run, doc));
    SW_TRY(sensors(run, doc));
    SW_TRY(doc_heading(run, doc, 1, "The file"));
    return doc_paragraph(
        run, doc,
        "measured.csv holds its first lines: moisture as measured, one `charge` a charge, one `surface` for each handle, store "
        "and corner; a column for each part above, named as the part. A reading every 10 s or more often.");
}
