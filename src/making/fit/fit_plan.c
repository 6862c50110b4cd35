/* fit_plan.c: what to measure. The variance of every joint counts as much as the joint is likely to fail, by the normal law, so
 * that the plan does not hang on how many stoves were drawn; where none is likely to, by how much of its room it takes. What one
 * measurement covers is summed over its specimens and joints. The weights add, so the largest first is the smallest list. */
#include "making/fit/fit_parts.h"

#include <math.h>
#include <stdlib.h>

typedef struct weighed {
    size_t group, first; /* first: the contributor that stands for it */
    size_t specimens;
    double weight;
} weighed;

static bool in_bounds(double share)
{
    return share > 0; /* not NAN */
}

/* That a joint fails: too wide where it is judged, too narrow wherever that is likeliest, surfaces apart. */
static double failing(const fit_job *job, const sw_fit_joint *j)
{
    const sw_fit_point *p = &j->points[j->judged];
    double over = sw_tail_share(j->limit_mm, p->gap_mm, p->sigma_mm), tight = 0;
    for (size_t i = 0; i < j->point_count; i++) {
        const sw_fit_point *q = &j->points[i];
        double room_mm = q->gap_mm + (q->slot ? 0 : job->opt->press_mm), share = sw_tail_share(room_mm, 0, q->sigma_mm);
        if (share > tight) tight = share;
    }
    return (in_bounds(over) ? over : 0) + tight + (in_bounds(j->mismatch_over) ? j->mismatch_over : 0);
}

/* ours: a joint whose sigma is all its room counts like one that fails once in a thousand stoves. */
static double risk_of(const fit_job *job, const sw_fit_joint *j)
{
    const double of_room = 1e-3;
    const sw_fit_point *p = &j->points[j->judged];
    double room_mm = j->limit_mm - p->gap_mm, share = room_mm > p->sigma_mm ? p->sigma_mm / room_mm : 1;
    return failing(job, j) + of_room * share * share;
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
        double sigma = fit_row_sigma(job, row), risk = risk_of(job, j);
        for (size_t i = 0; i < job->contributor_count && sigma > 0; i++) {
            const sw_fit_contributor *c = &job->contributors[i];
            if (c->outside || !fit_of_chain(job, row, c)) continue; /* no limits to measure against; no part in it */
            double part = fit_line(job, row)[i] * c->sigma / sigma;
            groups[job->groups[i]].weight += risk * part * part;
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
    double u;       /* expanded uncertainty, k = 2, mm or degrees; common practice, no source */
    double most_mm; /* it measures up to */
} gauge;

static const double worth = 1.0 / 3; /* of the tolerance, that U may take: common practice, no source */

static const gauge gauges[SW_FIT_OPERATIONS][4] = {
    [SW_FIT_THICKNESS] = {{"micrometer", 0.01, INFINITY}},
    [SW_FIT_CUT] = {{"vernier caliper", 0.05, 500}, {"steel tape", 0.3, INFINITY}, {"long vernier caliper", 0.1, 1000}},
    [SW_FIT_ANGLE] = {{"bevel protractor", 0.1, INFINITY}},
    [SW_FIT_LINE] = {{"vernier caliper", 0.05, 500},
                     {"steel tape", 0.3, INFINITY},
                     {"long vernier caliper", 0.1, 1000}},
    [SW_FIT_ROLL] = {{"radius template and feeler gauge", 0.2, INFINITY}},
    [SW_FIT_PLACE] = {{"tape and square, when tacked", 0.5, INFINITY},
                      {"square and feeler gauge, when tacked", 0.1, 500}},
};

/* The plainest that is worth it; else the surest, of which its name says that it does not prove the tolerance. */
static gauge gauge_for(const sw_fit_contributor *c, double size, double tolerance, bool *proves)
{
    const gauge *choice = gauges[c->operation], *best = &choice[0];
    for (size_t i = 0; i < 4 && choice[i].name != NULL; i++) {
        bool reaches = c->operation == SW_FIT_ANGLE || size <= choice[i].most_mm;
        *proves = reaches && choice[i].u <= worth * tolerance * (1 + 1e-9);
        if (*proves) return choice[i];
        if (reaches && choice[i].u < best->u) best = &choice[i];
    }
    return *best;
}

/* Limits keep room for the gauge's uncertainty, never more than a third of the tolerance each side. */
static sw_status find_limits(sw_run *run, const sw_fit_contributor *c, double length_mm, sw_fit_inspection *out)
{
    bool angle = c->operation == SW_FIT_ANGLE, proves = false;
    double nominal = angle ? sw_deg_from_rad(c->nominal) : c->nominal;
    double tolerance = angle ? sw_deg_from_rad(c->tolerance) : c->tolerance;
    if (c->operation == SW_FIT_CUT) tolerance *= sqrt(2.0); /* a size between two edges */
    gauge tool = gauge_for(c, length_mm, tolerance, &proves);
    out->gauge = proves ? tool.name
                        : sw_text_format(run, run->keep, "no hand gauge proves +-%.2g %s; try it in its place, or %s",
                                         tolerance, angle ? "deg" : "mm", tool.name);
    out->gauge_u = tool.u;
    sw_interval limits = sw_guarded(nominal - tolerance, nominal + tolerance, fmin(tool.u, tolerance * worth) / 2, 2);
    out->nominal = nominal;
    out->low = limits.low;
    out->high = limits.high;
    out->unit = angle ? "deg" : "mm";
    return out->gauge == NULL ? SW_NO_MEMORY : SW_OK;
}

static sw_status plan_row(sw_run *run, const fit_job *job, const weighed *g, sw_fit_inspection *out)
{
    const sw_fit_contributor *c = &job->contributors[g->first];
    const sw_piece *p = job->in->sheet->pieces[c->piece].piece;
    bool sheet = c->operation == SW_FIT_THICKNESS, placing = c->operation == SW_FIT_PLACE;
    *out = (sw_fit_inspection){.operation = c->operation, .piece = sheet ? -1 : c->piece, .feature = c->feature};
    SW_TRY(find_limits(run, c, placing ? c->size_mm : c->nominal, out));
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
