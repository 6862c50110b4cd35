/* fittings_findings.c: what jams, rattles, leaks or breaks. */
#include "making/fittings/fittings_parts.h"

#include <math.h>
#include <string.h>

#define PRACTICE "common practice, no source"
#define GROWTH                                                                                                         \
    "derived: growth of the inner part less the outer's, tolerance, 0.5 mm; EN 1993-1-2, makers' sheets (from memory)"

static sw_finding blank(const char *check, const char *where, sw_place place)
{
    return sw_finding_of("fittings", check, where, place);
}

static sw_status add(sw_run *run, fittings_job *job, sw_finding f, double watch)
{
    return f.what == NULL ? SW_NO_MEMORY : sw_finding_add(run, &job->result->findings, f, watch);
}

/* ---- gaps ---- */

/* The direction that has least over what it needs; open ones never are. */
static int worst_axis(const sw_fit *fit)
{
    double x_mm = fit->cold_mm[0] - fit->need_mm[0], y_mm = fit->cold_mm[1] - fit->need_mm[1];
    return isnan(x_mm) || (!isnan(y_mm) && y_mm < x_mm) ? 1 : 0;
}

static const char *whose(bool found)
{
    return found ? "heat study" : "option";
}

static const char *gap_text(sw_run *run, const sw_fit *fit, int a)
{
    const char *dir = a == 0 ? "wide" : "high";
    if (isnan(fit->cold_mm[a])) return "what lies beside it was not looked for, or it has no straight side there";
    if (isinf(fit->cold_mm[a]))
        return sw_text_format(run, run->keep, "%.1f mm %s, free on a side: it can grow", fit->size_mm[a], dir);
    if (isnan(fit->need_mm[a]))
        return sw_text_format(run, run->keep, "%.0f degC (%s), round it %.0f (%s): beyond what its growth is known for",
                              sw_c_from_k(fit->inner_k), whose(fit->inner_found), sw_c_from_k(fit->outer_k),
                              whose(fit->outer_found));
    return sw_text_format(
        run, run->keep,
        "%.1f mm %s between %s and %s: %.2f mm of gaps cold, %.2f asked for, %.2f left hot; %.0f degC "
        "(%s), round it %.0f (%s)",
        fit->size_mm[a] - fit->cut_mm[a], dir, fit->beside[2 * a], fit->beside[2 * a + 1], fit->cold_mm[a],
        fit->need_mm[a], fit->hot_mm[a], sw_c_from_k(fit->inner_k), whose(fit->inner_found), sw_c_from_k(fit->outer_k),
        whose(fit->outer_found));
}

static sw_status gap_finding(sw_run *run, fittings_job *job, const sw_fit *fit)
{
    int a = worst_axis(fit);
    sw_finding f = blank("hot_gap", fit->item->name, fit->item->place);
    f.what = gap_text(run, fit, a);
    f.unit = "mm";
    f.source = fit->inner_found || fit->outer_found ? GROWTH : GROWTH "; temperatures: " PRACTICE;
    if (isinf(fit->cold_mm[a])) return add(run, job, f, 0);
    f.sense = SW_AT_LEAST;
    f.value = fit->cold_mm[a];
    f.limit = fit->need_mm[a];
    if (isnan(f.value)) f.remedy = "hand in the folded pieces";
    if (isnan(f.limit) && !isnan(f.value)) f.remedy = "a cooler lining or pane, or give its temperature by --with";
    if (f.value < f.limit) f.remedy = "draw or cut it smaller";
    return add(run, job, f, 0);
}

static const char *pane_text(sw_run *run, const sw_fit_pane *pane)
{
    const char *stands = pane->stands_on[0] == '\0'
                             ? ""
                             : sw_text_format(run, run->keep, "; stands %.1f mm over %s: soft gasket between",
                                              pane->under_mm, pane->stands_on);
    if (stands == NULL) return NULL;
    if (isnan(pane->least_mm)) return "what lies beside the pane is not known, or it has no shape";
    if (isinf(pane->least_mm))
        return sw_text_format(run, run->keep, "nothing stands within 30 mm beside and above it%s", stands);
    return sw_text_format(run, run->keep, "%.2f mm beside the pane at the closest%s", pane->least_mm, stands);
}

static sw_status pane_finding(sw_run *run, fittings_job *job, const sw_fit_pane *pane)
{
    sw_finding f = blank("pane_edge", pane->item->name, pane->item->place);
    f.unit = "mm";
    f.source = "2 to 3 mm an edge, never metal on glass: " PRACTICE ", found in part in a fitting note";
    f.what = pane_text(run, pane);
    if (isinf(pane->least_mm)) return add(run, job, f, 0);
    f.sense = SW_AT_LEAST;
    f.value = pane->least_mm;
    f.limit = job->opt->pane_clear_mm;
    if (isnan(f.value)) f.remedy = "measure it at the first door";
    if (f.value < f.limit) f.remedy = "a smaller pane or a wider frame";
    return add(run, job, f, 0);
}

/* ---- boards ---- */

static sw_status board_finding(sw_run *run, fittings_job *job, const sw_board_nest *nest)
{
    const char *where = sw_text_format(run, run->keep, "%s, %g mm", nest->material, nest->thickness_mm);
    if (where == NULL) return SW_NO_MEMORY;
    sw_finding f = blank("board_size", where, job->in->stove->place);
    f.source = "derived: least sheets by area, and by boards of which no two fit one sheet";
    f.verdict = nest->left_out > 0 ? SW_FAILS : SW_HOLDS;
    f.remedy = nest->left_out > 0 ? "larger sheets of board, or draw it in two boards" : "";
    f.what = sw_text_format(run, run->keep,
                            "%zu sheets for %g stoves, no fewer than %zu could do; %zu boards are larger than a sheet",
                            nest->sheets, job->opt->stoves, nest->bound, nest->left_out);
    return add(run, job, f, 0);
}

/* ---- rope ---- */

static const double press_least = 0.2, press_most = 0.4, hot_least = 0.15, fill_most = 1.05;

static sw_finding rope_finding(const sw_rope *rope, const char *check, double share, sw_sense sense, double limit)
{
    sw_finding f = blank(check, rope->item->name, rope->item->place);
    f.sense = sense;
    f.value = 100 * share;
    f.limit = 100 * limit;
    f.unit = "%";
    return f;
}

static sw_status add_rope(sw_run *run, fittings_job *job, const sw_rope *rope, sw_finding f, const char *what)
{
    const sw_item *i = rope->item;
    f.what = sw_text_format(run, run->keep,
                            "rope of %g mm in a groove of %g by %g mm, closed to a joint of %g mm: %s %.1f %%",
                            i->rope_mm, i->groove_width_mm, i->groove_depth_mm, i->joint_mm, what, fabs(f.value));
    bool good = f.sense == SW_AT_LEAST ? f.value >= f.limit : f.value <= f.limit;
    if (good) f.remedy = "";
    return add(run, job, f, 0);
}

/* One finding for both ends of the range: against the nearer. */
static sw_status pressed(sw_run *run, fittings_job *job, const sw_rope *rope)
{
    double c = rope->seat.compression;
    bool loose = c < (press_least + press_most) / 2;
    sw_finding f = rope_finding(rope, "rope", c, loose ? SW_AT_LEAST : SW_AT_MOST, loose ? press_least : press_most);
    f.source = "20 to 40 % when new: " PRACTICE;
    f.remedy = loose ? "thicker rope, a shallower groove or a closer joint"
                     : "thinner rope or a deeper groove: the latch will not close";
    return add_rope(run, job, rope, f, c < 0 ? "not reached, short by" : "pressed by");
}

static sw_status pressed_hot(sw_run *run, fittings_job *job, const sw_rope *rope)
{
    sw_finding f = rope_finding(rope, "rope_hot", rope->seat.hot, SW_AT_LEAST, hot_least);
    f.source = "15 % at least while the joint is open hot: " PRACTICE "; opens_mm: ours";
    f.remedy = "thicker rope or a stiffer door";
    return add_rope(run, job, rope, f, rope->seat.hot < 0 ? "not reached when hot, short by" : "pressed hot by");
}

static sw_status filled(sw_run *run, fittings_job *job, const sw_rope *rope)
{
    sw_finding f = rope_finding(rope, "rope_fill", rope->seat.fill, SW_AT_MOST, fill_most);
    f.source = "rope cannot flow far: 1.05 at most, ours";
    f.remedy = "a wider groove";
    return add_rope(run, job, rope, f, "fills its closed groove to");
}

static sw_status untold(sw_run *run, fittings_job *job, const sw_rope *rope)
{
    sw_finding f = blank("rope", rope->item->name, rope->item->place);
    f.verdict = SW_UNKNOWN;
    f.what =
        "how far the rope is pressed is not known: the description does not tell all of its diameter, groove and joint";
    f.source = "20 to 40 % when new: " PRACTICE;
    f.remedy = "give the item d, groove = { depth, width } and joint";
    return add(run, job, f, 0);
}

static sw_status rope_findings(sw_run *run, fittings_job *job, const sw_rope *rope)
{
    if (isnan(rope->seat.compression)) return untold(run, job, rope);
    SW_TRY(pressed(run, job, rope));
    SW_TRY(pressed_hot(run, job, rope));
    return isnan(rope->seat.fill) ? SW_OK : filled(run, job, rope);
}

/* ---- grate, ball ---- */

static sw_status grate_finding(sw_run *run, fittings_job *job, const sw_grate *g)
{
    sw_finding f = blank("bar_gap", g->item->name, g->item->place);
    bool holes = !isnan(g->bar_least_mm);
    bool good = holes && g->bar_least_mm >= 8 - SW_SAME_POINT_MM && g->bar_most_mm <= 12 + SW_SAME_POINT_MM;
    f.source = "8 to 12 mm between bars: " PRACTICE;
    f.verdict = !holes ? SW_UNKNOWN : good ? SW_HOLDS : SW_WATCH;
    f.remedy = good ? "" : holes ? "8 to 12 mm keep embers up and let ash through" : "draw the grate's slots";
    f.what = sw_text_format(run, run->keep,
                            "gaps between bars %.1f to %.1f mm; beside it %.1f mm and %.1f mm a side are asked for",
                            g->bar_least_mm, g->bar_most_mm, g->need_mm[0], g->need_mm[1]);
    if (!holes) f.what = "the grate has no slots, so its bars are not known";
    return add(run, job, f, 0);
}

static sw_status drop_finding(sw_run *run, fittings_job *job)
{
    const sw_drop *d = &job->result->drop;
    const char *reached = "none of the levels listed";
    for (size_t i = 0; i < d->level_count; i++)
        if (d->levels[i].reached) reached = d->levels[i].level->name;
    sw_finding f = blank("drop", "pane", job->in->stove->place);
    f.source = "m g h; EN 62262, EN 356, EN 12600 for comparison: the stove standards know no impact test";
    f.what =
        sw_text_format(run, run->keep, "ball of %.2f kg from %g mm: %.2f J at %.2f m/s; by energy alone it reaches %s",
                       d->mass_kg, job->opt->drop_mm, d->energy, d->speed_m_s, reached);
    return add(run, job, f, 0);
}

sw_status fittings_findings(sw_run *run, fittings_job *job)
{
    const sw_fittings_result *r = job->result;
    for (size_t i = 0; i < r->fit_count; i++) SW_TRY(gap_finding(run, job, &r->fits[i]));
    for (size_t i = 0; i < r->pane_count; i++) SW_TRY(pane_finding(run, job, &r->panes[i]));
    for (size_t i = 0; i < r->nest_count; i++) SW_TRY(board_finding(run, job, &r->nests[i]));
    for (size_t i = 0; i < r->rope_count; i++) SW_TRY(rope_findings(run, job, &r->ropes[i]));
    for (size_t i = 0; i < r->grate_count; i++) SW_TRY(grate_finding(run, job, &r->grates[i]));
    return r->pane_count > 0 ? drop_finding(run, job) : SW_OK;
}
