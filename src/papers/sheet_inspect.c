/* sheet_inspect.c: what to measure, in order, with room for the readings; whether the joints will fit; measured pieces. */
#include "papers/sheets_parts.h"
#include "papers/shop_parts.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { WORST_JOINTS = 6 };
static const double first_page_mm = 176, page_mm = 232;

static const char *percent(sw_run *run, double share)
{
    if (!isfinite(share)) return "\xe2\x80\x93";
    if (share > 0 && share < 5e-4) return "< 0.1";
    return sheet_fixed(run, 100 * share, 1);
}

/* ---- the plan ------------------------------------------------------------------------------------------------------------ */

static const char plan_words[] =
    "In this order: the first rows tell most about whether the stove will fit. The limits are narrowed by the gauge's "
    "uncertainty (ISO 14253-1, k = 2): a reading inside them is good, one at their edge is not. Samples: ISO 2859-1, "
    "general level II, normal, single. With the accept number of bad ones or fewer the lot goes on, with the reject number "
    "or more the whole lot is measured. One box a reading.";

static sw_status plan(sw_run *run, doc_book *doc)
{
    const sw_fit_result *r = doc->d->shop.fit;
    SW_TRY(doc_heading(run, doc, 1, "What to measure"));
    if (r->plan_count == 0)
        return doc_paragraph(run, doc, "No joint has a partner near it, so nothing tells what to measure.");
    SW_TRY(doc_paragraph(run, doc, plan_words));
    double most_mm = first_page_mm;
    for (size_t first = 0, count = 0; first < r->plan_count; first += count) {
        double high_mm = 0;
        SW_TRY(inspect_rows(run, doc, first, most_mm, &count, &high_mm));
        if (first > 0) SW_TRY(doc_add(run, doc, (doc_block){.kind = DOC_PAGE}));
        SW_TRY(sheet_put(run, doc,
                         (sheet_figure){draw_plan_rows, first, count, high_mm,
                                        "U: expanded uncertainty of the gauge. acc, rej: bad ones in the sample."}));
        most_mm = page_mm;
    }
    return SW_OK;
}

/* ---- joints -------------------------------------------------------------------------------------------------------------- */

static double badness(const sw_fit_joint *j)
{
    double sum = 0;
    if (isfinite(j->over)) sum += j->over;
    if (isfinite(j->clash)) sum += j->clash;
    if (isfinite(j->no_entry)) sum += j->no_entry;
    return sum;
}

typedef struct ranked {
    size_t index;
    double bad, near; /* probability that it fails; gap of 95 % of the stoves over what is allowed */
} ranked;

static int worst_first(const void *left, const void *right)
{
    const ranked *a = left, *b = right;
    if (a->bad != b->bad) return a->bad > b->bad ? -1 : 1;
    if (a->near != b->near) return a->near > b->near ? -1 : 1;
    return a->index < b->index ? -1 : a->index > b->index;
}

/* Joints that were judged. In scratch. */
static sw_status rank(sw_run *run, const sw_fit_result *r, ranked **out, size_t *count)
{
    *count = 0;
    *out = SW_SCRATCH(run, r->joint_count + 1, ranked);
    if (*out == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < r->joint_count; i++) {
        const sw_fit_joint *j = &r->joints[i];
        double near = isfinite(j->p95_mm) && j->limit_mm > 0 ? j->p95_mm / j->limit_mm : 0;
        if (j->point_count > 0) (*out)[(*count)++] = (ranked){i, badness(j), near};
    }
    qsort(*out, *count, sizeof **out, worst_first);
    return SW_OK;
}

static sw_status joint_row(sw_run *run, doc_table *table, const sw_fit_joint *j)
{
    const sw_fit_point *p = &j->points[j->judged];
    const char *const cells[] = {j->joint->name,
                                 sheet_fixed(run, p->gap_mm, 2),
                                 sheet_fixed(run, p->gap_mm + p->worst_mm, 2),
                                 sheet_fixed(run, p->gap_mm + p->rss_mm, 2),
                                 sheet_fixed(run, j->p95_mm, 2),
                                 sheet_fixed(run, j->limit_mm, 2),
                                 percent(run, j->over),
                                 percent(run, j->clash),
                                 percent(run, j->no_entry)};
    return doc_row(run, table, cells);
}

static const char *unjudged(sw_run *run, const sw_fit_result *r)
{
    const char *text = "";
    size_t count = 0;
    for (size_t i = 0; i < r->joint_count && text != NULL; i++) {
        if (r->joints[i].point_count > 0) continue;
        text = sw_text_format(run, run->scratch, "%s%s%s", text, count++ == 0 ? "" : ", ", r->joints[i].joint->name);
    }
    if (count == 0 || text == NULL) return text;
    return sw_text_format(run, run->scratch, "Not judged, for want of a partner near the edge: %s.", text);
}

static const char *shares_words(sw_run *run, const sw_fit_result *r)
{
    const char *sure = shop_sure(run, r);
    if (sure == NULL) return NULL;
    return sw_text_format(
        run, run->scratch,
        "%zu stoves were drawn at random: in %.1f %% no joint fails (%s). Gaps in mm, widest "
        "along the edge. Worst case and root of squares (RSS) at the place that is likeliest too wide; 95 "
        "%% of the stoves are below the next column. Too wide, clash and tab does not enter: %% of the "
        "stoves.",
        r->stoves, 100 * r->all_fit, sure);
}

static const char *joint_caption(sw_run *run, const sw_fit_result *r, const sw_fit_joint *j)
{
    const sw_fit_contributor *c = &r->contributors[j->shares[0].contributor];
    const char *bridged = j->limit_bridged ? "; what the robot bridges" : "";
    if (!isfinite(j->tolerance_needed) || j->shares[0].share <= 0)
        return sw_text_format(run, run->scratch, "Limit: %s%s.", j->limit_source, bridged);
    bool angle = strcmp(c->unit, "rad") == 0;
    double scale = angle ? sw_deg_from_rad(1) : 1;
    return sw_text_format(run, run->scratch,
                          "Limit: %s%s. It would fit with %s within \xc2\xb1 %.2f %s instead of %.2f.", j->limit_source,
                          bridged, c->name, scale * j->tolerance_needed, angle ? "\xc2\xb0" : "mm",
                          scale * c->tolerance);
}

static sw_status joints(sw_run *run, doc_book *doc)
{
    static const doc_column columns[] = {
        {"joint", 4.6, SW_LEFT},     {"drawn", 1.1, SW_RIGHT}, {"worst", 1.1, SW_RIGHT},
        {"RSS", 1.1, SW_RIGHT},      {"95 %", 1.1, SW_RIGHT},  {"limit", 1.1, SW_RIGHT},
        {"too wide", 1.3, SW_RIGHT}, {"clash", 1.2, SW_RIGHT}, {"no entry", 1.3, SW_RIGHT}};
    const sw_fit_result *r = doc->d->shop.fit;
    doc_table table = {.columns = columns, .column_count = 9, .dense = true};
    ranked *all = NULL;
    size_t count = 0;
    SW_TRY(rank(run, r, &all, &count));
    if (count == 0) return SW_OK;
    for (size_t i = 0; i < count; i++) SW_TRY(joint_row(run, &table, &r->joints[all[i].index]));
    SW_TRY(doc_add(run, doc, (doc_block){.kind = DOC_PAGE}));
    SW_TRY(doc_heading(run, doc, 1, "Will the joints fit"));
    SW_TRY(doc_paragraph(run, doc, shares_words(run, r)));
    SW_TRY(doc_put_table(run, doc, &table));
    SW_TRY(doc_paragraph(run, doc, unjudged(run, r)));
    SW_TRY(doc_heading(run, doc, 2, "The worst joints"));
    for (size_t i = 0; i < count && i < WORST_JOINTS; i++)
        SW_TRY(sheet_put(run, doc,
                         (sheet_figure){draw_joint, all[i].index, 0, JOINT_HIGH_MM,
                                        joint_caption(run, r, &r->joints[all[i].index])}));
    return SW_OK;
}

/* ---- measured ------------------------------------------------------------------------------------------------------------ */

static const char *with_interval(sw_run *run, double value, sw_interval i)
{
    const char *text = sheet_fixed(run, value, 2);
    if (text == NULL || !isfinite(value) || !isfinite(i.low)) return text;
    const char *high = sheet_fixed(run, i.high, 2);
    return high == NULL ? NULL : sw_text_format(run, run->scratch, "%s (%.2f to %s)", text, i.low, high);
}

static sw_status measured_row(sw_run *run, doc_table *table, const sw_fit_feature *f)
{
    const char *const cells[] = {sw_text_format(run, run->scratch, "%s, %s", f->piece, f->feature),
                                 sw_text_format(run, run->scratch, "%zu", f->count),
                                 sw_text_format(run, run->scratch, "%.2f %s", f->mean, f->unit),
                                 f->charted ? sheet_fixed(run, f->chart.sigma, 3) : f->why,
                                 sheet_fixed(run, f->low, 2),
                                 sheet_fixed(run, f->high, 2),
                                 with_interval(run, f->cp, f->cp_interval),
                                 with_interval(run, f->cpk, f->cpk_interval),
                                 sheet_fixed(run, f->ppm, 0)};
    return doc_row(run, table, cells);
}

static const char *breaks_words(sw_run *run, const sw_chart *c)
{
    const char *text = "";
    size_t told = 0;
    for (int rule = 0; rule < SW_RUN_RULES && text != NULL; rule++) {
        size_t times = 0;
        for (size_t i = 0; i < c->break_count; i++) times += c->breaks[i].rule == (sw_run_rule)rule;
        if (times == 0) continue;
        text = sw_text_format(run, run->scratch, "%s%s%d: %s (%zu)", text, told++ == 0 ? "" : "; ", rule + 1,
                              sw_run_rule_text((sw_run_rule)rule), times);
    }
    if (text == NULL || told > 0) return text == NULL ? NULL : sw_text_format(run, run->scratch, "Broken: %s.", text);
    return "No rule is broken.";
}

static sw_status measured(sw_run *run, doc_book *doc)
{
    static const doc_column columns[] = {
        {"piece, feature", 4.0, SW_LEFT}, {"n", 0.7, SW_RIGHT},          {"mean", 1.5, SW_RIGHT},
        {"sigma", 1.2, SW_RIGHT},         {"at least", 1.3, SW_RIGHT},   {"at most", 1.3, SW_RIGHT},
        {"Cp (95 %)", 2.2, SW_RIGHT},     {"Cpk (95 %)", 2.2, SW_RIGHT}, {"ppm out", 1.3, SW_RIGHT}};
    const sw_fit_measured *m = &doc->d->shop.fit->measured;
    doc_table table = {.columns = columns, .column_count = 9, .dense = true};
    if (m->feature_count == 0) return SW_OK;
    for (size_t i = 0; i < m->feature_count; i++) SW_TRY(measured_row(run, &table, &m->features[i]));
    SW_TRY(doc_add(run, doc, (doc_block){.kind = DOC_PAGE}));
    SW_TRY(doc_heading(run, doc, 1, "What was measured"));
    SW_TRY(doc_paragraph(
        run, doc,
        "Control limits come from the readings, at three standard deviations within samples; capability from "
        "the limits of the plan. Points that break a rule are ringed, with its number. A process that is "
        "out of control has no capability yet: find the cause first."));
    SW_TRY(doc_put_table(run, doc, &table));
    for (size_t i = 0; i < m->feature_count; i++)
        if (m->features[i].charted)
            SW_TRY(sheet_put(
                run, doc,
                (sheet_figure){draw_control, i, 0, CONTROL_HIGH_MM, breaks_words(run, &m->features[i].chart)}));
    return SW_OK;
}

static sw_status content(sw_run *run, doc_book *doc)
{
    SW_TRY(plan(run, doc));
    SW_TRY(joints(run, doc));
    return measured(run, doc);
}

sw_status paper_inspection(sw_run *run, const paper_desk *desk, const char *path)
{
    return sheet_write(run, desk, "Inspection", content, path);
}
