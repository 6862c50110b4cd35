/* trial_report.c: the report of a test: results with what is not sure about them, charts, charges, limits, rises, measured
 * beside predicted, what the file held. */
#include "papers/chart_parts.h"
#include "papers/trial_parts.h"

#include <math.h>
#include <string.h>

#define PM "\xc2\xb1"

static sw_status rows_of(sw_run *run, doc_book *doc, const char *title, const char *note, const doc_table *table)
{
    if (table->rows == 0) return SW_OK;
    SW_TRY(doc_heading(run, doc, 2, title));
    SW_TRY(doc_paragraph(run, doc, note));
    return doc_put_table(run, doc, table);
}

/* ---- results -------------------------------------------------------------------------------------------------------- */

static sw_status headline(sw_run *run, doc_book *doc)
{
    const sw_trial_result *r = doc->tested->result;
    if (isnan(r->season.index))
        return doc_paragraph(run, doc, "No charge was measured well enough to count: there is no result.");
    return doc_paragraph(
        run, doc,
        sw_text_format(run, run->scratch,
                       "Mean of %zu of %zu charges: efficiency %s %%, output %s kW. Seasonal space heating "
                       "efficiency %.1f %%, energy efficiency index %.1f, class %s.",
                       r->valid_count, r->cycle_count, tested_with_half(run, r->answers[0].value, r->answers[0].half95),
                       tested_with_half(run, r->answers[1].value, r->answers[1].half95), 100 * r->season.efficiency,
                       r->season.index, r->season.class_));
}

static sw_status answers(sw_run *run, doc_book *doc)
{
    static const doc_column columns[] = {{"result", 3.2, SW_LEFT},         {"value", 2.6, SW_RIGHT},
                                         {"unit", 1.5, SW_LEFT},           {"u, linear", 1.4, SW_RIGHT},
                                         {"u, sampled", 1.5, SW_RIGHT},    {"s of charges", 1.6, SW_RIGHT},
                                         {"t u of charges", 1.8, SW_RIGHT}};
    doc_table table = {.columns = columns, .column_count = sizeof columns / sizeof *columns};
    const sw_trial_result *r = doc->tested->result;
    for (size_t i = 0; i < SW_ANSWERS; i++) {
        const sw_trial_answer *a = &r->answers[i];
        const char *const cells[] = {a->name,
                                     tested_with_half(run, a->value, a->half95),
                                     a->unit,
                                     sheet_fixed(run, a->u, 2),
                                     sheet_fixed(run, a->u_sampled, 2),
                                     sheet_fixed(run, a->cycles.s, 2),
                                     sheet_fixed(run, a->cycles.half95, 2)};
        SW_TRY(doc_row(run, &table, cells));
    }
    return rows_of(
        run, doc, "Results of the whole test",
        "Value " PM
        " half width at 95 %: the larger of twice u and the half width of the charges' mean (Student). u: standard "
        "uncertainty of instruments and fuel by linear propagation, and the same by sampling. Gases at 13 % O2, dry, 0 " CELSIUS
        ", 101 325 Pa.",
        &table);
}

static sw_status budget(sw_run *run, doc_book *doc, const sw_trial_answer *a)
{
    static const doc_column columns[] = {{"input", 2.4, SW_LEFT},
                                         {"value", 1.6, SW_RIGHT},
                                         {"unit", 1.4, SW_LEFT},
                                         {"u", 1.4, SW_RIGHT},
                                         {"law", 1.6, SW_LEFT},
                                         {"slope", 1.8, SW_RIGHT},
                                         {"slope \xc3\x97 u", 1.6, SW_RIGHT}};
    doc_table table = {.columns = columns, .column_count = sizeof columns / sizeof *columns, .dense = true};
    if (isnan(a->value)) return SW_OK;
    for (size_t i = 0; i < a->source_count; i++) {
        const sw_trial_source *s = &a->sources[i];
        const char *const cells[] = {s->name,
                                     sw_text_format(run, run->scratch, "%.5g", s->value),
                                     s->unit,
                                     sw_text_format(run, run->scratch, "%.3g", s->u),
                                     s->rectangular ? "rectangular" : "normal",
                                     sw_text_format(run, run->scratch, "%.4g", s->slope),
                                     sheet_fixed(run, s->part, 3)};
        SW_TRY(doc_row(run, &table, cells));
    }
    return rows_of(run, doc, sw_text_format(run, run->scratch, "What makes %s unsure, %s", a->name, a->unit), "",
                   &table);
}

static sw_status budgets(sw_run *run, doc_book *doc)
{
    const sw_trial_result *r = doc->tested->result;
    SW_TRY(doc_heading(run, doc, 1, "Uncertainty"));
    SW_TRY(doc_paragraph(
        run, doc,
        "GUM (JCGM 100): the square of u is the sum of the squares of slope \xc3\x97 u; inputs taken as uncorrelated, an upper "
        "side, since carbon, hydrogen, water and heating value of the wood go together."));
    for (size_t i = 0; i < SW_ANSWERS; i++) SW_TRY(budget(run, doc, &r->answers[i]));
    return SW_OK;
}

/* ---- charges -------------------------------------------------------------------------------------------------------- */

static sw_status charges(sw_run *run, doc_book *doc)
{
    static const doc_column columns[] = {
        {"charge", 1.0, SW_LEFT},          {"from, min", 1.1, SW_RIGHT},        {"to, min", 1.0, SW_RIGHT},
        {"wood, kg", 1.1, SW_RIGHT},       {"CO2, %", 1.0, SW_RIGHT},           {"CO, ppm", 1.1, SW_RIGHT},
        {"flue, " CELSIUS, 1.1, SW_RIGHT}, {"draught, Pa", 1.2, SW_RIGHT},      {"output, kW", 1.2, SW_RIGHT},
        {"efficiency, %", 1.3, SW_RIGHT},  {"CO, mg/m\xc2\xb3", 1.2, SW_RIGHT}, {"", 2.4, SW_LEFT}};
    doc_table table = {.columns = columns, .column_count = sizeof columns / sizeof *columns, .dense = true};
    const sw_trial_result *r = doc->tested->result;
    for (size_t i = 0; i < r->cycle_count; i++) {
        const sw_trial_cycle *c = &r->cycles[i];
        const char *const cells[] = {sw_text_format(run, run->scratch, "%zu", i + 1),
                                     sheet_fixed(run, sw_min_from_s(c->start_s), 1),
                                     sheet_fixed(run, sw_min_from_s(c->end_s), 1),
                                     sheet_fixed(run, c->wood_kg, 2),
                                     sheet_fixed(run, 100 * c->co2_dry, 1),
                                     sheet_fixed(run, 1e6 * c->co_dry, 0),
                                     sheet_fixed(run, sw_c_from_k(c->flue_k), 0),
                                     sheet_fixed(run, c->draught_pa, 1),
                                     sheet_fixed(run, c->output_w * 1e-3, 2),
                                     sheet_fixed(run, c->fuel_w > 0 ? 100 * c->output_w / c->fuel_w : (double)NAN, 1),
                                     sheet_fixed(run, c->at_13[SW_EMISSION_CO], 0),
                                     c->valid ? "" : sw_text_format(run, run->scratch, "not counted: %s", c->why)};
        SW_TRY(doc_row(run, &table, cells));
    }
    return rows_of(run, doc, "Charge by charge", "Means over time between neighbouring readings; gaps are left out.",
                   &table);
}

/* ---- limits, surfaces ------------------------------------------------------------------------------------------------ */

static sw_status limits(sw_run *run, doc_book *doc)
{
    static const doc_column columns[] = {{"rules", 2.6, SW_LEFT},
                                         {"what", 2.4, SW_LEFT},
                                         {"limit", 1.6, SW_RIGHT},
                                         {"value", 1.2, SW_RIGHT},
                                         {"with half width", 1.4, SW_RIGHT},
                                         {"unit", 1.3, SW_LEFT},
                                         {"", 1.2, SW_LEFT},
                                         {"source", 3.4, SW_LEFT}};
    doc_table table = {.columns = columns, .column_count = sizeof columns / sizeof *columns, .dense = true};
    const sw_trial_result *r = doc->tested->result;
    for (size_t i = 0; i < r->limit_count; i++) {
        const sw_trial_limit *l = &r->limits[i];
        const char *const cells[] = {l->rules,
                                     l->name,
                                     sw_text_format(run, run->scratch, "%s %.*f",
                                                    l->sense == SW_AT_LEAST ? "at least" : "at most",
                                                    l->limit < 100 && fmod(l->limit, 1) != 0 ? 1 : 0, l->limit),
                                     sheet_fixed(run, l->value, 1),
                                     sheet_fixed(run, l->high, 1),
                                     l->unit,
                                     sw_verdict_name(l->verdict),
                                     l->source};
        SW_TRY(doc_row(run, &table, cells));
    }
    return rows_of(run, doc, "Limits of the rules chosen",
                   "A limit that holds without the half width but not with it is watched.", &table);
}

static sw_status rises(sw_run *run, doc_book *doc)
{
    static const doc_column columns[] = {{"place", 2.4, SW_LEFT},
                                         {"what it is", 2, SW_LEFT},
                                         {"hottest, " CELSIUS, 1.4, SW_RIGHT},
                                         {"room then, " CELSIUS, 1.5, SW_RIGHT},
                                         {"rise, K", 1.2, SW_RIGHT},
                                         {"limit", 1.6, SW_RIGHT},
                                         {"at, min", 1.1, SW_RIGHT},
                                         {"source", 3, SW_LEFT}};
    doc_table table = {.columns = columns, .column_count = sizeof columns / sizeof *columns, .dense = true};
    const sw_trial_result *r = doc->tested->result;
    for (size_t i = 0; i < r->rise_count; i++) {
        const sw_trial_rise *s = &r->rises[i];
        const sw_trial_rise_limit *l = sw_trial_rise_limit_of(s->spot);
        bool limited = s->spot != SW_SPOT_PART;
        const char *const cells[] = {
            s->place,
            l->name,
            sheet_fixed(run, sw_c_from_k(s->most_k), 0),
            sheet_fixed(run, sw_c_from_k(s->room_k), 1),
            sheet_fixed(run, s->rise_k, 0),
            !limited ? "" : sw_text_format(run, run->scratch, "%.0f %s", l->limit_k, l->absolute ? CELSIUS : "K"),
            sheet_fixed(run, sw_min_from_s(s->time_s), 0),
            limited ? l->source : "a reading for the model"};
        SW_TRY(doc_row(run, &table, cells));
    }
    return rows_of(run, doc, "Surfaces, hottest over the whole file", "", &table);
}

/* ---- measured beside predicted ------------------------------------------------------------------------------------------ */

static sw_status comparisons(sw_run *run, doc_book *doc)
{
    static const doc_column columns[] = {{"", 3, SW_LEFT},
                                         {"measured", 1.4, SW_RIGHT},
                                         {"by the model", 1.4, SW_RIGHT},
                                         {"difference", 1.4, SW_RIGHT},
                                         {"u of the measured", 1.6, SW_RIGHT},
                                         {"unit", 1, SW_LEFT}};
    doc_table table = {.columns = columns, .column_count = sizeof columns / sizeof *columns};
    const sw_trial_result *r = doc->tested->result;
    for (size_t i = 0; i < r->comparison_count; i++) {
        const sw_trial_comparison *c = &r->comparisons[i];
        const char *const cells[] = {c->name,
                                     sheet_fixed(run, c->measured, 2),
                                     sheet_fixed(run, c->predicted, 2),
                                     sw_text_format(run, run->scratch, "%+.2f", c->difference),
                                     sheet_fixed(run, c->u, 2),
                                     c->unit};
        SW_TRY(doc_row(run, &table, cells));
    }
    if (table.rows == 0) return SW_OK;
    SW_TRY(doc_heading(run, doc, 1, "Measured beside the model"));
    SW_TRY(doc_put_table(run, doc, &table));
    SW_TRY(doc_paragraph(
        run, doc,
        "The model is the stove at its duty, uncorrected. hot_test.csv holds these readings for `heat --test`, which "
        "corrects the model's constants."));
    if (r->unmodelled[0] == '\0') return SW_OK;
    return doc_paragraph(
        run, doc, sw_text_format(run, run->scratch, "No part of the model, so left out there: %s.", r->unmodelled));
}

static sw_status declared(sw_run *run, doc_book *doc)
{
    const sw_trial_declared *d = &doc->tested->result->declared;
    if (d->lua[0] == '\0') return SW_OK;
    SW_TRY(doc_heading(run, doc, 2, "For the chimney"));
    SW_TRY(doc_paragraph(run, doc, d->lua));
    SW_TRY(doc_paragraph(run, doc,
                         d->draught_assumed
                             ? "Draught was not measured: the 12 Pa of a type test are assumed (EN 13240, from memory)."
                             : ""));
    return doc_paragraph(
        run, doc,
        "Gas flow by the balance of moles, which is 3 to 4 % above the standard's own formula. `flue --declared "
        "declared.lua` computes a house's chimney with it.");
}

/* ---- the readings --------------------------------------------------------------------------------------------------------- */

static bool is_surface(const sw_trial_series *s)
{
    return s->of == SW_TRIAL_SURFACE;
}

static sw_status surfaces_figures(sw_run *run, doc_book *doc)
{
    const sw_trial_result *r = doc->tested->result;
    for (size_t i = 0; i < r->series_count;) {
        if (!is_surface(&r->series[i])) {
            i++;
            continue;
        }
        size_t n = 0, k = i; /* surfaces stand anywhere among the columns */
        for (; k < r->series_count && n < SW_CHART_LINES; k++) n += is_surface(&r->series[k]) ? 1 : 0;
        const doc_figure f = {.draw = draw_readings, .a = i, .b = k - i, .height_mm = 62};
        SW_TRY(doc_add(run, doc, (doc_block){.kind = DOC_FIGURE, .text = "Surfaces over time.", .figure = f}));
        i = k;
    }
    return SW_OK;
}

static sw_status charts(sw_run *run, doc_book *doc)
{
    const doc_figure f = {.draw = draw_readings, .height_mm = readings_height_mm(doc)};
    SW_TRY(doc_heading(run, doc, 1, "Readings over time"));
    SW_TRY(doc_add(
        run, doc,
        (doc_block){.kind = DOC_FIGURE,
                    .text =
                        "Means of short stretches of time; a gap is a lost reading. Upright lines: charges; the last: "
                        "end of the last charge.",
                    .figure = f}));
    return surfaces_figures(run, doc);
}

static sw_status columns_table(sw_run *run, doc_book *doc)
{
    static const doc_column columns[] = {{"column", 3, SW_LEFT},
                                         {"is", 2.4, SW_LEFT},
                                         {"lost readings", 1.4, SW_RIGHT},
                                         {"first in line", 1.4, SW_RIGHT},
                                         {"first odd cell", 2, SW_LEFT}};
    doc_table table = {.columns = columns, .column_count = sizeof columns / sizeof *columns, .dense = true};
    const sw_trial_record *r = doc->tested->record;
    for (size_t i = 0; i < r->column_count; i++) {
        const sw_trial_column *c = &r->columns[i];
        const char *const cells[] = {
            c->name, sw_trial_quantity_name(c->of), sw_text_format(run, run->scratch, "%zu", c->lost),
            c->first_lost_line == 0 ? "" : sw_text_format(run, run->scratch, "%d", c->first_lost_line),
            c->first_odd == NULL ? "" : c->first_odd};
        SW_TRY(doc_row(run, &table, cells));
    }
    const sw_trial_result *out = doc->tested->result;
    const char *note = sw_text_format(
        run, run->scratch,
        "%zu rows, usually %.3g s apart; %zu gaps, %.0f s together, the longest %.0f s. Lost readings and gaps "
        "are told, never filled in.%s%s",
        r->row_count, r->step_s, out->gap_count, out->gaps_s, out->longest_gap_s,
        r->ignored[0] == '\0' ? "" : " Not used: ", r->ignored);
    return note == NULL ? SW_NO_MEMORY : rows_of(run, doc, "What the file held", note, &table);
}

/* ---- findings ---------------------------------------------------------------------------------------------------------------- */

static sw_status open_points(sw_run *run, doc_book *doc)
{
    const sw_findings *all = &doc->d->findings;
    size_t count = 0;
    SW_TRY(doc_heading(run, doc, 1, "To be mended, watched or found out"));
    for (size_t i = 0; i < all->count; i++) {
        if (all->items[i].verdict == SW_HOLDS) continue;
        SW_TRY(doc_add(run, doc, (doc_block){.kind = DOC_FINDING, .finding = &all->items[i]}));
        count++;
    }
    return count > 0 ? SW_OK : doc_paragraph(run, doc, "Nothing: every check holds.");
}

static sw_status holding(sw_run *run, doc_book *doc)
{
    static const doc_column columns[] = {
        {"check", 2, SW_LEFT}, {"where", 2, SW_LEFT}, {"what", 5, SW_LEFT}, {"source", 4, SW_LEFT}};
    doc_table table = {.columns = columns, .column_count = sizeof columns / sizeof *columns, .dense = true};
    const sw_findings *all = &doc->d->findings;
    for (size_t i = 0; i < all->count; i++) {
        const sw_finding *f = &all->items[i];
        const char *const cells[] = {f->check, f->where, f->what, f->source};
        if (f->verdict == SW_HOLDS) SW_TRY(doc_row(run, &table, cells));
    }
    return rows_of(run, doc, "What holds, and what is stated", "", &table);
}

sw_status tested_report(sw_run *run, doc_book *doc)
{
    SW_TRY(headline(run, doc));
    size_t counts[SW_VERDICTS];
    SW_TRY(doc_summary(run, doc, counts));
    SW_TRY(answers(run, doc));
    SW_TRY(open_points(run, doc));
    SW_TRY(charts(run, doc));
    SW_TRY(charges(run, doc));
    SW_TRY(limits(run, doc));
    SW_TRY(rises(run, doc));
    SW_TRY(comparisons(run, doc));
    SW_TRY(declared(run, doc));
    SW_TRY(budgets(run, doc));
    SW_TRY(columns_table(run, doc));
    return holding(run, doc);
}
