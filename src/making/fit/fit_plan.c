/* fit_plan.c: what to measure. The variance of every joint counts as much as the joint is likely to fail; what one measurement
 * covers is summed over its specimens and joints. The weights add, so the largest ones first is the smallest list. */
#include "making/fit/fit_parts.h"

#include <math.h>
#include <stdlib.h>

typedef struct weighed {
    size_t group, first; /* first: the contributor that stands for it */
    size_t specimens;
    double weight;
} weighed;

static double risk_of(const sw_fit_joint *j)
{
    const double least = 1e-6; /* ours: so that there is an order where nothing fails */
    double risk = least;
    if (j->over > 0) risk += j->over;
    if (j->clash > 0) risk += j->clash;
    if (j->no_entry > 0) risk += j->no_entry;
    if (j->mismatch_over > 0) risk += j->mismatch_over;
    return risk;
}

static void weigh(const fit_job *job, weighed *groups)
{
    for (size_t i = 0; i < job->contributor_count; i++) {
        weighed *g = &groups[job->groups[i]];
        if (g->specimens++ == 0) {
            g->group = job->groups[i];
            g->first = i;
        }
    }
    for (size_t k = 0; k < job->result->joint_count; k++) {
        const sw_fit_joint *j = &job->joints[k];
        if (j->point_count == 0) continue;
        size_t row = job->joint_first[k] + j->judged;
        double sigma = fit_row_sigma(job, row);
        for (size_t i = 0; i < job->contributor_count && sigma > 0; i++) {
            if (job->contributors[i].outside) continue; /* no limits to measure against */
            double part = fit_line(job, row)[i] * job->contributors[i].sigma / sigma;
            groups[job->groups[i]].weight += risk_of(j) * part * part;
        }
    }
}

static int heavier_first(const void *left, const void *right)
{
    const weighed *a = left, *b = right;
    if (a->weight != b->weight) return a->weight > b->weight ? -1 : 1;
    return a->group < b->group ? -1 : a->group > b->group ? 1 : 0;
}

/* ---- one row ---- */

typedef struct gauge {
    const char *name;
    double u; /* expanded uncertainty, k = 2, mm or degrees; common practice, no source */
} gauge;

static gauge gauge_for(const sw_fit_contributor *c)
{
    switch (c->operation) {
    case SW_FIT_THICKNESS:
        return (gauge){"micrometer", 0.01};
    case SW_FIT_ANGLE:
        return (gauge){"bevel protractor", 0.1};
    case SW_FIT_ROLL:
        return (gauge){"radius template and feeler gauge", 0.2};
    case SW_FIT_PLACE:
        return (gauge){"tape and square, when tacked", 0.5};
    default:
        return c->nominal > 500 ? (gauge){"steel tape", 0.3} : (gauge){"vernier caliper", 0.05};
    }
}

/* Limits keep room for the gauge's uncertainty, never more than a quarter of the tolerance each side. */
static void find_limits(const sw_fit_contributor *c, sw_fit_inspection *out)
{
    bool angle = c->operation == SW_FIT_ANGLE;
    double nominal = angle ? sw_deg_from_rad(c->nominal) : c->nominal;
    double tolerance = angle ? sw_deg_from_rad(c->tolerance) : c->tolerance;
    if (c->operation == SW_FIT_CUT) tolerance *= sqrt(2.0); /* a size between two edges */
    sw_interval limits = sw_guarded(nominal - tolerance, nominal + tolerance, fmin(out->gauge_u, tolerance / 4) / 2, 2);
    out->nominal = nominal;
    out->low = limits.low;
    out->high = limits.high;
    out->unit = angle ? "deg" : "mm";
}

static sw_status plan_row(sw_run *run, const fit_job *job, const weighed *g, sw_fit_inspection *out)
{
    const sw_fit_contributor *c = &job->contributors[g->first];
    const sw_piece *p = job->in->sheet->pieces[c->piece].piece;
    gauge tool = gauge_for(c);
    bool sheet = c->operation == SW_FIT_THICKNESS, placing = c->operation == SW_FIT_PLACE;
    *out = (sw_fit_inspection){.operation = c->operation, .piece = sheet ? -1 : c->piece, .feature = c->feature};
    out->gauge = tool.name;
    out->gauge_u = tool.u;
    find_limits(c, out);
    if (placing) out->feature = "placing";
    out->piece_label =
        sheet ? sw_text_format(run, run->keep, "%s %g mm", p->grade == NULL ? "sheet" : p->grade->name, p->thickness_mm)
              : sw_text_format(run, run->keep, "%s %s", p->number, p->name);
    out->lot = sheet ? job->in->batch : p->count * job->in->batch;
    out->sampling = sw_sampling_plan(out->lot, job->opt->aql);
    if (out->sampling.letter == '\0') out->sampling = (sw_sampling){'\0', out->lot, 0, 1, true};
    out->weight = g->weight;
    return out->piece_label == NULL ? SW_NO_MEMORY : SW_OK;
}

sw_status fit_plan(sw_run *run, fit_job *job)
{
    weighed *groups = SW_SCRATCH(run, job->group_count + 1, weighed);
    if (groups == NULL) return SW_NO_MEMORY;
    weigh(job, groups);
    qsort(groups, job->group_count, sizeof *groups, heavier_first);
    double total = 0, covered = 0;
    size_t count = 0;
    for (size_t i = 0; i < job->group_count; i++) total += groups[i].weight;
    while (count < job->group_count && covered < job->opt->cover * total) covered += groups[count++].weight;
    sw_fit_inspection *plan = SW_KEEP(run, count, sw_fit_inspection);
    if (plan == NULL) return SW_NO_MEMORY;
    covered = 0;
    for (size_t i = 0; i < count; i++) {
        SW_TRY(plan_row(run, job, &groups[i], &plan[i]));
        plan[i].weight /= total;
        plan[i].covered = covered += plan[i].weight;
    }
    job->result->plan = plan;
    job->result->plan_count = count;
    return SW_OK;
}
