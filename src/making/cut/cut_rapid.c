/* cut_rapid.c: the head's way from pass to pass, round what has been cut out where that is cheap. */
#include "making/cut/cut_parts.h"

static sw_status keep_via(sw_run *run, sw_cut_pass *pass, const sw_point *points, size_t count)
{
    sw_point *via = SW_KEEP(run, count, sw_point);
    if (via == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < count; i++) via[i] = points[i];
    pass->via = via;
    pass->via_count = count;
    return SW_OK;
}

static sw_status one_way(sw_run *run, cut_job *job, const cut_danger *danger, sw_point from, sw_cut_pass *pass)
{
    if (!cut_any_crossed(danger, from, pass->start)) return SW_OK;
    const sw_point *points;
    size_t count;
    SW_TRY(cut_detour(run, danger, from, pass->start, &points, &count));
    if (count > 0) return keep_via(run, pass, points, count);
    job->plan->rapids_over++;
    return SW_OK;
}

static bool last_of_its_loop(const cut_job *job, size_t i)
{
    return i + 1 == job->pass_count || job->pass_loops[i + 1] != job->pass_loops[i];
}

sw_status cut_rapids(sw_run *run, cut_job *job)
{
    cut_danger danger;
    SW_TRY(cut_danger_make(run, job, &danger));
    sw_point at = {0, 0};
    for (size_t i = 0; i < job->pass_count; i++) {
        sw_cut_pass *pass = &job->passes[i];
        size_t loop = job->pass_loops[i];
        if (loop != CUT_NO_LOOP) SW_TRY(one_way(run, job, &danger, at, pass));
        if (loop != CUT_NO_LOOP && last_of_its_loop(job, i)) cut_danger_add(&danger, &job->loops[loop]);
        at = pass->moves[pass->move_count - 1].to;
    }
    job->plan->passes = job->passes;
    job->plan->pass_count = job->pass_count;
    return SW_OK;
}
