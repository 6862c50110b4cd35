/* dossier_workshop.c: the workshop in the dossier: forming, welding, fit, lifting, coating, route and cost; and the headline
 * figures of the front page. */
#include "papers/shop_parts.h"

#include <math.h>
#include <stdlib.h>

/* ---- the front page ---------------------------------------------------------------------------------------------------- */

sw_status dossier_headlines(sw_run *run, doc_book *doc)
{
    static const doc_column columns[] = {{"one stove, with overhead", 1.4, SW_LEFT}, {"the batch", 1.2, SW_LEFT},
                                         {"days for the batch", 1.1, SW_LEFT},       {"bottleneck", 1.3, SW_LEFT},
                                         {"stoves a week at most", 1.2, SW_LEFT},    {"mass of a stove", 1.0, SW_LEFT}};
    const sw_dossier *d = doc->d;
    if (!shop_has_line(d)) return SW_OK;
    const sw_line_result *r = d->shop.line;
    doc_table table = {.columns = columns, .column_count = 6};
    const char *const cells[] = {
        shop_money(run, d, r->cost.base),
        shop_money(run, d, r->cost.batch),
        r->plan == NULL ? "\xe2\x80\x93" : shop_fixed(run, r->plan->days, 1),
        r->bottleneck < r->load_count ? r->loads[r->bottleneck].station : "\xe2\x80\x93",
        shop_fixed(run, r->week, 1),
        d->heft == NULL ? "\xe2\x80\x93" : sw_text_format(run, run->scratch, "%.1f kg", d->heft->stove.mass_kg)};
    SW_TRY(doc_row(run, &table, cells));
    return doc_put_table(run, doc, &table);
}

/* ---- forming ------------------------------------------------------------------------------------------------------------ */

static const char *die_words(sw_run *run, const sw_form_piece *p)
{
    const char *text = "";
    for (size_t i = 0; i < p->step_count && text != NULL; i++) {
        double die = p->steps[i].die_mm;
        bool told = !(die > 0);
        for (size_t k = 0; k < i && !told; k++) told = p->steps[k].die_mm == die;
        if (!told) text = sw_text_format(run, run->scratch, "%s%sV %g", text, text[0] == '\0' ? "" : ", ", die);
    }
    return text;
}

static const char *roll_words(sw_run *run, const sw_form_piece *p)
{
    size_t passes = 0;
    if (p->roll_count == 0) return "";
    for (size_t i = 0; i < p->roll_count; i++) passes += p->rolls[i].pass_count;
    return sw_text_format(run, run->scratch, "R%.0f, %zu pass%s", p->rolls[0].radius_mm, passes,
                          passes == 1 ? "" : "es");
}

static sw_status form_row(sw_run *run, doc_table *table, const sw_form_piece *p)
{
    const char *strokes = !p->bendable         ? "no order found"
                          : p->step_count == 0 ? ""
                                               : sw_text_format(run, run->scratch, "%zu", p->step_count);
    bool pressed = p->step_count > 0;
    const char *const cells[] = {p->piece->number,
                                 p->piece->name,
                                 strokes,
                                 pressed ? die_words(run, p) : "",
                                 pressed ? sw_text_format(run, run->scratch, "%zu", p->turns_over) : "",
                                 pressed ? shop_fixed(run, p->force_n / 1e3, 0) : "",
                                 pressed ? shop_fixed(run, p->length_mm, 0) : "",
                                 roll_words(run, p),
                                 shop_fixed(run, sw_min_from_s(p->press_s + p->rolls_s), 1),
                                 shop_fixed(run, sw_min_from_s(p->press_setup_s + p->rolls_setup_s), 0)};
    return doc_row(run, table, cells);
}

static const char *trial_words(sw_run *run, const sw_form_fit_result *t)
{
    size_t good = 0, rolls = 0;
    if (t == NULL) return "";
    for (size_t i = 0; i < t->bend_count; i++) good += t->bends[i].good;
    for (size_t i = 0; i < t->roll_count; i++) rolls += t->rolls[i].good;
    return sw_text_format(run, run->scratch,
                          "The works' own trials are used: %zu of %zu sets of bent strips, %zu of %zu of rolled ones.",
                          good, t->bend_count, rolls, t->roll_count);
}

sw_status workshop_forming(sw_run *run, doc_book *doc)
{
    static const doc_column columns[] = {{"number", 0.8, SW_LEFT},          {"piece", 2.4, SW_LEFT},
                                         {"strokes", 0.8, SW_RIGHT},        {"dies", 1.3, SW_LEFT},
                                         {"turns over", 0.7, SW_RIGHT},     {"greatest force, kN", 0.9, SW_RIGHT},
                                         {"tool, mm", 0.8, SW_RIGHT},       {"rolls", 1.3, SW_LEFT},
                                         {"one piece, min", 0.8, SW_RIGHT}, {"set-up, min", 0.8, SW_RIGHT}};
    const sw_form_result *f = doc->d->shop.form;
    doc_table table = {.columns = columns, .column_count = 10, .dense = true};
    if (f == NULL) return SW_OK;
    for (size_t i = 0; i < f->piece_count; i++)
        if (f->pieces[i].step_count + f->pieces[i].roll_count > 0 || !f->pieces[i].bendable)
            SW_TRY(form_row(run, &table, &f->pieces[i]));
    if (table.rows == 0) return SW_OK;
    const char *trials = trial_words(run, doc->d->shop.trials);
    if (trials == NULL) return SW_NO_MEMORY;
    SW_TRY(doc_heading(run, doc, 2, "Forming"));
    SW_TRY(doc_paragraph(
        run, doc,
        sw_text_format(run, run->scratch,
                       "One stove: %.0f min at the press brake and %.0f min at the rolls, without setting "
                       "up. Order, stops and angles under load were found by bending every piece in "
                       "the model. %s",
                       sw_min_from_s(f->press_s), sw_min_from_s(f->rolls_s), trials)));
    return doc_put_table(run, doc, &table);
}

/* ---- welding ------------------------------------------------------------------------------------------------------------ */

static sw_status join_row(sw_run *run, doc_table *table, const sw_join_body *b)
{
    const char *const cells[] = {b->name,
                                 sw_text_format(run, run->scratch, "%zu", b->piece_count),
                                 shop_fixed(run, b->mass_kg, 1),
                                 sw_text_format(run, run->scratch, "%zu", b->seam_count),
                                 shop_fixed(run, sw_m_from_mm(b->robot_mm), 2),
                                 shop_fixed(run, sw_m_from_mm(b->hand_mm), 2),
                                 sw_text_format(run, run->scratch, "%zu", b->tack_count),
                                 shop_minutes(run, b->tack_s),
                                 shop_minutes(run, b->robot_s),
                                 shop_minutes(run, b->hand_s),
                                 sw_text_format(run, run->scratch, "%zu", b->turns)};
    return doc_row(run, table, cells);
}

static const char *join_words(sw_run *run, const sw_dossier *d, const sw_join_result *j)
{
    const char *cost = shop_money(run, d, j->cost_wire + j->cost_gas + j->cost_energy + j->cost_time);
    if (cost == NULL) return NULL;
    return sw_text_format(run, run->scratch,
                          "%zu seams of together %.2f m, %.2f m of them tight, with %zu points for the leak test. One "
                          "stove takes %.1f min of arc, %.2f kg of wire, %.2f m\xc2\xb3 of gas and %.2f kWh; %s with "
                          "people and machines.%s",
                          j->seam_count, sw_m_from_mm(j->weld_mm), sw_m_from_mm(j->tight_mm), j->leak_count,
                          sw_min_from_s(j->arc_s), j->wire_kg, j->gas_m3, sw_kwh_from_j(j->energy_j), cost,
                          j->unknown > 0 ? " Seams without a row in the works' table are not in these sums." : "");
}

sw_status workshop_welding(sw_run *run, doc_book *doc)
{
    static const doc_column columns[] = {
        {"welded together", 3.0, SW_LEFT}, {"pieces", 0.7, SW_RIGHT},       {"mass, kg", 0.8, SW_RIGHT},
        {"seams", 0.7, SW_RIGHT},          {"robot, m", 0.8, SW_RIGHT},     {"by hand, m", 0.8, SW_RIGHT},
        {"tacks", 0.7, SW_RIGHT},          {"tacking, min", 0.9, SW_RIGHT}, {"robot, min", 0.8, SW_RIGHT},
        {"by hand, min", 0.8, SW_RIGHT},   {"turns", 0.7, SW_RIGHT}};
    const sw_join_result *j = doc->d->shop.join;
    doc_table table = {.columns = columns, .column_count = 11, .dense = true};
    if (j == NULL || j->body_count == 0) return SW_OK;
    for (size_t i = 0; i < j->body_count; i++) SW_TRY(join_row(run, &table, &j->bodies[i]));
    SW_TRY(doc_heading(run, doc, 2, "Welding"));
    SW_TRY(doc_paragraph(run, doc, join_words(run, doc->d, j)));
    return doc_put_table(run, doc, &table);
}

/* ---- fit ------------------------------------------------------------------------------------------------------------------ */

enum { JOINTS_TOLD = 12 };
static const double risk_told = 1e-3; /* of the stoves */

static double known(double share)
{
    return isfinite(share) ? share : 0;
}

static double risk_of(const sw_fit_joint *j)
{
    double gap = fmax(known(j->over), known(j->clash));
    return fmax(gap, fmax(known(j->no_entry), known(j->mismatch_over)));
}

static int by_risk(const void *a, const void *b)
{
    const sw_fit_joint *p = *(const sw_fit_joint *const *)a, *q = *(const sw_fit_joint *const *)b;
    double x = risk_of(p), y = risk_of(q);
    if (x != y) return x > y ? -1 : 1;
    return p < q ? -1 : p > q; /* as in the stove */
}

static const char *needed_words(sw_run *run, const sw_fit_joint *j, const sw_fit_contributor *c)
{
    if (c == NULL || !isfinite(j->tolerance_needed)) return "";
    if (c->unit[0] == 'r')
        return sw_text_format(run, run->scratch, "\xc2\xb1%.2f\xc2\xb0", sw_deg_from_rad(j->tolerance_needed));
    return sw_text_format(run, run->scratch, "\xc2\xb1%.2f %s", j->tolerance_needed, c->unit);
}

static sw_status fit_row(sw_run *run, doc_table *table, const sw_fit_result *f, const sw_fit_joint *j)
{
    const sw_fit_point *p = &j->points[j->judged];
    const sw_fit_contributor *c = j->shares[0].share > 0 ? &f->contributors[j->shares[0].contributor] : NULL;
    const char *const cells[] = {j->joint->name,
                                 shop_fixed(run, j->limit_mm, 2),
                                 shop_fixed(run, p->gap_mm, 2),
                                 shop_fixed(run, p->gap_mm + p->worst_mm, 2),
                                 shop_fixed(run, j->p95_mm, 2),
                                 shop_share(run, j->over, 1),
                                 shop_share(run, j->clash, 1),
                                 c == NULL ? "" : c->name,
                                 needed_words(run, j, c)};
    return doc_row(run, table, cells);
}

static sw_status risk_table(sw_run *run, doc_book *doc, const sw_fit_result *f, const sw_fit_joint **joints, size_t n)
{
    static const doc_column columns[] = {{"joint", 2.6, SW_LEFT},
                                         {"gap at most, mm", 0.8, SW_RIGHT},
                                         {"as drawn", 0.8, SW_RIGHT},
                                         {"worst case in all", 0.8, SW_RIGHT},
                                         {"95 of 100 below", 0.8, SW_RIGHT},
                                         {"too wide", 0.8, SW_RIGHT},
                                         {"clash", 0.8, SW_RIGHT},
                                         {"what matters most", 2.6, SW_LEFT},
                                         {"would do", 0.9, SW_RIGHT}};
    doc_table table = {.columns = columns, .column_count = 9, .dense = true};
    for (size_t i = 0; i < n && i < JOINTS_TOLD; i++) SW_TRY(fit_row(run, &table, f, joints[i]));
    return table.rows == 0 ? SW_OK : doc_put_table(run, doc, &table);
}

sw_status workshop_fit(sw_run *run, doc_book *doc)
{
    const sw_fit_result *f = doc->d->shop.fit;
    size_t n = 0;
    if (f == NULL || f->joint_count == 0) return SW_OK;
    const sw_fit_joint **joints = SW_SCRATCH(run, f->joint_count, const sw_fit_joint *);
    if (joints == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < f->joint_count; i++)
        if (f->joints[i].point_count > 0 && risk_of(&f->joints[i]) >= risk_told) joints[n++] = &f->joints[i];
    qsort(joints, n, sizeof(const sw_fit_joint *), by_risk);
    SW_TRY(doc_heading(run, doc, 2, "Will it fit"));
    const char *most =
        n > JOINTS_TOLD ? sw_text_format(run, run->scratch, "; the %d likeliest are below", JOINTS_TOLD) : "";
    const char *sure = shop_sure(run, f);
    if (most == NULL || sure == NULL) return SW_NO_MEMORY;
    SW_TRY(doc_paragraph(
        run, doc,
        sw_text_format(run, run->scratch,
                       "Of %zu stoves drawn at random, made as this works makes them, every joint fits in "
                       "%.1f %% (%s). %zu of %zu joints fail in more than one of a thousand%s. "
                       "What to measure, most telling first: stovewright fit.",
                       f->stoves, 100 * f->all_fit, sure, n, f->joint_count, most)));
    return risk_table(run, doc, f, joints, n);
}

/* ---- the chapter ------------------------------------------------------------------------------------------------------------ */

static sw_status route_and_cost(sw_run *run, doc_book *doc)
{
    if (!shop_has_line(doc->d)) return SW_OK;
    SW_TRY(doc_heading(run, doc, 2, "Route and cost"));
    SW_TRY(line_summary(run, doc));
    SW_TRY(doc_paragraph(run, doc,
                         "The route of every piece, the schedule day by day and what would change it stand in "
                         "line/route.pdf, the schedule as a table in line/schedule.csv."));
    SW_TRY(line_load_figure(run, doc));
    SW_TRY(line_schedule_figure(run, doc));
    return line_cost_figures(run, doc, 14);
}

/* Common practice, no source. */
static const char *const cautions[] = {
    "Times and costs follow from the works' description and are no better than it: time the first stove, then correct the description.",
    "A schedule is a plan, no reason to hurry: nobody works at a machine that he was not shown, nor alone at press, rolls, robot or blast cabinet.",
    "Robot cell: fence and door switch whole, teach at reduced speed with the enabling switch in hand; the positioner turns without warning.",
    "Over-bend, downfeed and shrinkage are computed: first pieces are bent and welded for trial, measured, and the settings corrected.",
};

static sw_status caution_items(sw_run *run, doc_book *doc)
{
    const sw_shopped *s = &doc->d->shop;
    SW_TRY(doc_heading(run, doc, 2, "Cautions of the workshop"));
    for (size_t i = 0; i < sizeof cautions / sizeof *cautions; i++)
        SW_TRY(doc_add(run, doc, (doc_block){.kind = DOC_ITEM, .text = cautions[i]}));
    for (size_t i = 0; s->lift != NULL && i < s->lift->caution_count; i++)
        SW_TRY(doc_add(run, doc, (doc_block){.kind = DOC_ITEM, .text = s->lift->cautions[i]}));
    for (size_t i = 0; s->coat != NULL && i < s->coat->caution_count; i++)
        SW_TRY(doc_add(run, doc, (doc_block){.kind = DOC_ITEM, .text = s->coat->cautions[i]}));
    return SW_OK;
}

sw_status dossier_workshop(sw_run *run, doc_book *doc)
{
    if (!shop_is_known(doc->d)) return SW_OK;
    SW_TRY(doc_heading(run, doc, 1, "Workshop"));
    SW_TRY(workshop_forming(run, doc));
    SW_TRY(workshop_welding(run, doc));
    SW_TRY(workshop_fit(run, doc));
    SW_TRY(workshop_lifting(run, doc));
    SW_TRY(workshop_coating(run, doc));
    SW_TRY(route_and_cost(run, doc));
    return caution_items(run, doc);
}
