/* cut_findings.c: what of the sheet cannot be cut well. Each distinct piece is judged once. */
#include "making/cut/cut_findings.h"

#include <math.h>
#include <string.h>

sw_finding cut_finding(const cut_job *job, const char *check, const char *where)
{
    return sw_finding_of("cut", check, where, job->in->row == NULL ? job->in->laser->place : job->in->row->place);
}

static sw_status no_row(sw_run *run, cut_job *job)
{
    const sw_stock *stock = job->in->stock;
    const char *grade = stock->grade == NULL ? "unknown material" : stock->grade->name;
    sw_finding f = cut_finding(job, "laser_row", job->name);
    f.what = sw_text_format(run, run->keep, "the laser has no row for %s, %g mm: no feed, no kerf, no program", grade,
                            stock->thickness_mm);
    if (f.what == NULL) return SW_NO_MEMORY;
    f.verdict = SW_UNKNOWN;
    f.source = "works description";
    f.remedy = "add a row for this material and thickness to the laser's rows";
    return sw_finding_add(run, &job->plan->findings, f, 0);
}

/* ---- lead-ins ---- */

typedef struct lead_tally {
    size_t blocked, short_, first_blocked, first_short;
    double least_mm;
} lead_tally;

static lead_tally count_leads(const cut_job *job)
{
    lead_tally tally = {.least_mm = INFINITY};
    for (size_t i = 0; i < job->loop_count; i++) {
        const cut_loop *loop = &job->loops[i];
        if (!loop->leads.clear && tally.blocked++ == 0) tally.first_blocked = i;
        if (!loop->leads.clear || loop->track->small || loop->leads.room_mm >= job->lead_mm - SW_SAME_POINT_MM)
            continue;
        if (tally.short_++ == 0 || loop->leads.room_mm < tally.least_mm) tally.first_short = i;
        tally.least_mm = fmin(tally.least_mm, loop->leads.room_mm);
    }
    return tally;
}

const char *cut_loop_name(sw_run *run, const cut_job *job, size_t part, int contour)
{
    const char *label = job->in->parts[part].label;
    if (contour < 0) return sw_text_format(run, run->keep, "%s, outline", label);
    return sw_text_format(run, run->keep, "%s, hole %d", label, contour + 1);
}

static sw_status lead_findings(sw_run *run, cut_job *job)
{
    lead_tally tally = count_leads(job);
    if (job->loop_count == 0) return SW_OK;
    size_t shown = tally.blocked > 0 ? tally.first_blocked : tally.first_short;
    const cut_loop *loop = &job->loops[shown];
    sw_finding f = cut_finding(job, "lead_in", job->name);
    f.source = "common practice, no source";
    f.what = sw_text_format(run, run->keep, "all %zu lead-ins have room", job->loop_count);
    if (tally.blocked + tally.short_ > 0) {
        f.where = cut_loop_name(run, job, loop->part, loop->track->contour);
        f.verdict = SW_WATCH;
        f.what = sw_text_format(run, run->keep, "%zu of %zu lead-ins are shortened, the shortest to %.2g of %.3g mm",
                                tally.short_, job->loop_count, tally.least_mm, job->lead_mm);
        f.remedy = "check the pierce mark there, or widen the web";
    }
    if (tally.blocked > 0) {
        f.verdict = SW_FAILS;
        f.what =
            sw_text_format(run, run->keep, "%zu of %zu contours have no room for a lead-in clear of pieces and edge",
                           tally.blocked, job->loop_count);
        f.remedy = "widen the web or the hole, or shorten the laser row's lead";
    }
    if (f.what == NULL || f.where == NULL) return SW_NO_MEMORY;
    return sw_finding_add(run, &job->plan->findings, f, 0);
}

/* ---- the head's way, bridges ---- */

static sw_status rapid_finding(sw_run *run, cut_job *job)
{
    sw_finding f = cut_finding(job, "rapid_over_cut", job->name);
    size_t over = job->plan->rapids_over;
    f.source = "common practice, no source";
    f.verdict = over == 0 ? SW_HOLDS : SW_WATCH;
    f.remedy = over == 0 ? "" : "let the machine lift the head between cuts";
    f.what =
        sw_text_format(run, run->keep, "%zu of %zu ways of the head pass over a finished piece or opening that may tip",
                       over, job->pass_count);
    return f.what == NULL ? SW_NO_MEMORY : sw_finding_add(run, &job->plan->findings, f, 0);
}

static bool wants_bridges(const cut_job *job, const cut_loop *loop)
{
    const sw_laser *laser = job->in->laser;
    return loop->track->contour < 0 && laser->micro_joint_mm > 0 && loop->track->least_side_mm < laser->micro_below_mm;
}

static sw_status bridge_finding(sw_run *run, cut_job *job)
{
    size_t wanted = 0, loose = 0, first = 0;
    for (size_t i = 0; i < job->loop_count; i++) {
        const cut_loop *loop = &job->loops[i];
        if (!wants_bridges(job, loop)) continue;
        wanted++;
        if (loop->track->held && loop->second != loop->chosen) continue;
        if (loose++ == 0) first = i;
    }
    if (wanted == 0) return SW_OK;
    sw_finding f = cut_finding(job, "micro_joints", job->name);
    f.source = "common practice, no source";
    f.what = sw_text_format(run, run->keep, "all %zu pieces below %g mm are held by two bridges", wanted,
                            job->in->laser->micro_below_mm);
    if (loose > 0) {
        f.verdict = SW_WATCH;
        f.where = cut_loop_name(run, job, job->loops[first].part, -1);
        f.remedy = "watch that it does not stand up, or give it room for a second lead-in";
        f.what = sw_text_format(run, run->keep, "%zu of %zu small pieces have no room for two bridges", loose, wanted);
    }
    if (f.what == NULL || f.where == NULL) return SW_NO_MEMORY;
    return sw_finding_add(run, &job->plan->findings, f, 0);
}

/* ---- each distinct piece ---- */

static bool seen_before(const cut_job *job, size_t part)
{
    for (size_t i = 0; i < part; i++)
        if (strcmp(job->in->parts[i].label, job->in->parts[part].label) == 0) return true;
    return false;
}

static sw_status piece_findings(sw_run *run, cut_job *job)
{
    for (size_t p = 0; p < job->in->part_count; p++) {
        if (seen_before(job, p)) continue;
        SW_TRY(cut_piece_findings(run, job, p));
    }
    return cut_gap_finding(run, job);
}

sw_status cut_findings(sw_run *run, cut_job *job)
{
    if (job->in->row == NULL) return no_row(run, job);
    SW_TRY(lead_findings(run, job));
    SW_TRY(rapid_finding(run, job));
    SW_TRY(bridge_finding(run, job));
    return piece_findings(run, job);
}
