/* join.c: the steps of planning how the pieces are welded together. */
#include "making/join/join.h"

#include "making/join/join_parts.h"

const char *sw_join_station_name(sw_join_station station)
{
    static const char *const names[SW_JOIN_STATIONS] = {"tack", "hand", "robot"};
    return station < SW_JOIN_STATIONS ? names[station] : "";
}

static void describe(join_job *job)
{
    const sw_works *works = job->in->works;
    if (works != NULL && works->welding.row_count > 0) job->welding = &works->welding;
    if (works == NULL) return;
    job->torches[SW_JOIN_HAND] = works->welding.hand_torch;
    if (works->welding.robot) job->torches[SW_JOIN_ROBOT] = works->welding.robot_torch;
}

sw_status join_lay(sw_run *run, const join_job *job, join_seam *seam)
{
    seam->out->points = seam->sides[seam->side];
    seam->out->ups = join_ups(seam->out);
    SW_TRY(join_stretches(run, job, seam));
    join_figures(job, seam);
    return SW_OK;
}

static sw_status lay_seams(sw_run *run, join_job *job)
{
    for (size_t i = 0; i < job->seam_count; i++) SW_TRY(join_lay(run, job, &job->seams[i]));
    return SW_OK;
}

static sw_status plan_body(sw_run *run, join_job *job, size_t body)
{
    SW_TRY(join_split(run, job, body));
    SW_TRY(join_tacks(run, job, body));
    return join_order(run, job, body);
}

static sw_status plan_bodies(sw_run *run, join_job *job)
{
    for (size_t i = 0; i < job->body_count; i++) {
        size_t mark = sw_arena_mark(run->scratch);
        sw_status status = plan_body(run, job, i);
        sw_arena_rewind(run->scratch, mark);
        if (status != SW_OK) return status;
        if (sw_run_cancelled(run)) return SW_CANCELLED;
        sw_run_progress(run, "welding", (double)(i + 1), (double)job->body_count, job->told[i].name);
    }
    return SW_OK;
}

static sw_status steps(sw_run *run, join_job *job)
{
    sw_join_result *r = job->result;
    describe(job);
    join_attitudes(job);
    SW_TRY(join_check(run, job->in, job->opt));
    SW_TRY(join_instances(run, job));
    SW_TRY(join_grow_trees(run, job));
    SW_TRY(join_find_seams(run, job));
    SW_TRY(join_bodies(run, job));
    SW_TRY(join_tell_bodies(run, job));
    SW_TRY(lay_seams(run, job));
    SW_TRY(plan_bodies(run, job));
    r->seams = job->told_seams;
    r->seam_count = job->seam_count;
    r->bodies = job->told;
    r->body_count = job->body_count;
    join_times(job);
    SW_TRY(join_leaks(run, job));
    SW_TRY(join_findings(run, job));
    sw_findings_sort(&r->findings);
    return SW_OK;
}

sw_status sw_join_solve(sw_run *run, const sw_join_input *in, const sw_join_options *opt, const sw_join_result **result)
{
    SW_ASSERT(opt->made_by_defaults == SW_DEFAULTS_MARK);
    *result = NULL;
    join_job *job = SW_KEEP(run, 1, join_job);
    sw_join_result *r = SW_KEEP(run, 1, sw_join_result);
    if (job == NULL || r == NULL) return SW_NO_MEMORY;
    size_t mark = sw_arena_mark(run->scratch);
    *job = (join_job){.in = in, .opt = opt, .result = r};
    sw_status status = steps(run, job);
    sw_arena_rewind(run->scratch, mark);
    if (status == SW_OK) *result = r;
    return status;
}
