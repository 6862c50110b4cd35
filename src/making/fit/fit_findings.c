/* fit_findings.c: which joints fail too often, and what would help. */
#include "making/fit/fit_parts.h"

#include <math.h>

static double percent(double share)
{
    return 100 * share;
}

static sw_finding start(const fit_job *job, const char *check, const sw_fit_joint *j)
{
    sw_finding f = {.study = "fit", .check = check, .sense = SW_AT_MOST, .limit = percent(job->opt->allowed)};
    f.unit = "%";
    f.value = NAN;
    f.where = j->joint->name;
    f.what = f.source = f.remedy = "";
    f.place = j->joint->place;
    return f;
}

static sw_status report(sw_run *run, fit_job *job, sw_finding f)
{
    if (f.what == NULL || f.where == NULL || f.source == NULL || f.remedy == NULL) return SW_NO_MEMORY;
    SW_TRY(sw_finding_add(run, &job->result->findings, f, 0));
    sw_finding *added = &job->result->findings.items[job->result->findings.count - 1];
    if (added->verdict == SW_HOLDS) added->remedy = "";
    return SW_OK;
}

/* ---- what would help ---- */

static const char *advice(sw_fit_operation operation)
{
    switch (operation) {
    case SW_FIT_THICKNESS:
        return "order sheet of closer tolerance, or let the joint lap";
    case SW_FIT_CUT:
        return "cut the edge closer, or leave clearance in the drawing";
    case SW_FIT_ANGLE:
        return "correct the angle with a trial bend and check every piece";
    case SW_FIT_LINE:
        return "gauge from the nearer edge, or let the joint lap over the flange";
    case SW_FIT_ROLL:
        return "correct the rolls by the template, or fit this edge when tacking";
    default:
        return "place the piece in a fixture";
    }
}

static const char *remedy_for(sw_run *run, const fit_job *job, const sw_fit_joint *j)
{
    const sw_fit_share *top = &j->shares[0];
    if (!(top->share > 0)) return "draw the joint closer, or allow a wider gap";
    if (!(j->points[j->judged].gap_mm < j->limit_mm))
        return "the gap is as wide as its limit in the drawing: draw the joint closer, or allow a wider gap";
    const sw_fit_contributor *c = &job->contributors[top->contributor];
    bool angle = c->unit[0] == 'r';
    const char *need = "";
    if (!isnan(j->tolerance_needed))
        need = sw_text_format(run, run->keep, "; +-%.2g %s instead of +-%.2g there would do",
                              angle ? sw_deg_from_rad(j->tolerance_needed) : j->tolerance_needed, angle ? "deg" : "mm",
                              angle ? sw_deg_from_rad(c->tolerance) : c->tolerance);
    if (need == NULL) return NULL;
    return sw_text_format(run, run->keep, "%s: %.0f %% of the variance is %s (%s)%s", advice(c->operation),
                          percent(top->share), c->name, sw_fit_operation_name(c->operation), need);
}

/* The limit's source, and where the largest sigma comes from. */
static const char *source_for(sw_run *run, const fit_job *job, const sw_fit_joint *j, const char *limit)
{
    if (!(j->shares[0].share > 0)) return limit;
    return sw_text_format(run, run->keep, "%s; largest deviation: %s", limit,
                          job->contributors[j->shares[0].contributor].source);
}

/* ---- joints ---- */

static sw_status report_unjudged(sw_run *run, fit_job *job, const sw_fit_joint *j)
{
    sw_finding f = start(job, "joint_fit", j);
    f.what = sw_text_format(run, run->keep, "no surface of b within %g mm of edge a: nothing to judge",
                            j->joint->gap_max_mm + 3);
    f.source = "derived: folded geometry";
    f.remedy = "let the joint name the edges that meet";
    return report(run, job, f);
}

static sw_status report_outside(sw_run *run, fit_job *job, const sw_fit_joint *j)
{
    sw_finding f = start(job, "joint_fit", j);
    const sw_fit_contributor *c = j->outside;
    f.what =
        sw_text_format(run, run->keep, "%s: no tolerance is known for a size of %.0f mm, so the joint is not judged",
                       c->name, c->size_mm);
    f.source = c->source;
    f.remedy = "give the works its own capability (cut, press, welding), or make the piece of two";
    return report(run, job, f);
}

static sw_status report_gap(sw_run *run, fit_job *job, const sw_fit_joint *j)
{
    const sw_fit_point *p = &j->points[j->judged];
    sw_finding f = start(job, "joint_fit", j);
    f.value = percent(j->over);
    f.what =
        sw_text_format(run, run->keep,
                       "in %.1f %% (+-%.1f) of the stoves the gap exceeds %.2f mm; half have %.2f, 95 of 100 at most "
                       "%.2f; drawn %.2f, RSS +%.2f, worst case +%.2f mm",
                       percent(j->over), percent(2 * j->over_error), j->limit_mm, j->p50_mm, j->p95_mm, p->gap_mm,
                       p->rss_mm, p->worst_mm);
    f.source = source_for(run, job, j, j->limit_source);
    f.remedy = remedy_for(run, job, j);
    return report(run, job, f);
}

static sw_status report_clash(sw_run *run, fit_job *job, const sw_fit_joint *j)
{
    sw_finding f = start(job, "joint_clash", j);
    f.value = percent(j->clash);
    f.what = sw_text_format(run, run->keep, "in %.1f %% (+-%.1f) of the stoves the parts overlap by more than %.2f mm",
                            percent(j->clash), percent(2 * j->clash_error), job->opt->press_mm);
    f.source = source_for(run, job, j, "option press_mm: common practice, no source");
    f.remedy = remedy_for(run, job, j);
    return report(run, job, f);
}

static sw_status report_entry(sw_run *run, fit_job *job, const sw_fit_joint *j)
{
    sw_finding f = start(job, "slot_entry", j);
    f.value = percent(j->no_entry);
    f.what = sw_text_format(run, run->keep, "in %.1f %% (+-%.1f) of the stoves the tab does not enter its slot",
                            percent(j->no_entry), percent(2 * j->no_entry_error));
    f.source = source_for(run, job, j, "derived: clearance below 0");
    f.remedy = remedy_for(run, job, j);
    return report(run, job, f);
}

static sw_status report_mismatch(sw_run *run, fit_job *job, const sw_fit_joint *j)
{
    sw_finding f = start(job, "mismatch", j);
    f.value = percent(j->mismatch_over);
    f.what =
        sw_text_format(run, run->keep, "in %.1f %% of the stoves the surfaces are more than %.2f mm apart (sigma %.2f)",
                       f.value, j->mismatch_limit_mm, j->across_mm);
    f.source = "ISO 5817 level C, linear misalignment (from memory)";
    f.remedy = "bring the edges flush with a clamp before tacking";
    return report(run, job, f);
}

static bool above(const fit_job *job, double share)
{
    return share > job->opt->allowed;
}

static sw_status report_joint(sw_run *run, fit_job *job, const sw_fit_joint *j, bool *fits)
{
    *fits = false;
    if (j->point_count == 0) return report_unjudged(run, job, j);
    if (j->outside != NULL) return report_outside(run, job, j);
    *fits = !above(job, j->over) && !above(job, j->clash) && !above(job, j->no_entry) && !above(job, j->mismatch_over);
    if (above(job, j->over)) SW_TRY(report_gap(run, job, j));
    if (above(job, j->clash)) SW_TRY(report_clash(run, job, j));
    if (above(job, j->no_entry)) SW_TRY(report_entry(run, job, j));
    return above(job, j->mismatch_over) ? report_mismatch(run, job, j) : SW_OK;
}

static double worst_share(const sw_fit_joint *j)
{
    return fmax(fmax(j->over, j->clash), fmax(j->no_entry, j->mismatch_over)); /* fmax passes NAN over */
}

static sw_status report_good(sw_run *run, fit_job *job, size_t count, const sw_fit_joint *tightest)
{
    sw_finding f = start(job, "joint_fit", tightest);
    f.where = "joints that fit";
    f.value = percent(worst_share(tightest));
    f.what = sw_text_format(run, run->keep, "%zu joints fit; the least sure is %s with %.2f %% that do not", count,
                            tightest->joint->name, f.value);
    f.source = source_for(run, job, tightest, tightest->limit_source);
    return report(run, job, f);
}

static sw_status report_stove(sw_run *run, fit_job *job)
{
    const sw_fit_result *r = job->result;
    if (r->stoves == 0) return SW_OK;
    sw_finding f = {.study = "fit", .check = "stove_fit", .sense = SW_STATED, .where = "the stove", .unit = "%"};
    f.value = percent(r->all_fit);
    f.limit = NAN;
    f.verdict = SW_HOLDS;
    bool sure = true;
    for (size_t i = 0; i < r->joint_count; i++) sure = sure && r->joints[i].outside == NULL;
    if (!sure) f.verdict = SW_UNKNOWN;
    f.what =
        sw_text_format(run, run->keep, "%.1f %% (+-%.1f) of %zu stoves drawn go together without rework at any joint%s",
                       f.value, percent(2 * r->all_fit_error), r->stoves,
                       sure ? "" : "; some tolerances are those of the last size of a standard's table");
    f.source = "derived: first order, normal deviations, rigid pieces";
    f.remedy = "";
    f.place = job->in->model->stove->place;
    return report(run, job, f);
}

sw_status fit_findings(sw_run *run, fit_job *job)
{
    const sw_fit_joint *tightest = NULL;
    size_t good = 0;
    for (size_t i = 0; i < job->result->joint_count; i++) {
        const sw_fit_joint *j = &job->joints[i];
        bool fits = false;
        SW_TRY(report_joint(run, job, j, &fits));
        if (!fits || isnan(j->over)) continue;
        good++;
        if (tightest == NULL || worst_share(j) > worst_share(tightest)) tightest = j;
    }
    if (tightest != NULL) SW_TRY(report_good(run, job, good, tightest));
    return report_stove(run, job);
}
