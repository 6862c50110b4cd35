/* cut_rapid.c: the head's way from pass to pass, round what has been cut out where that is cheap. */
#include "making/cut/cut_parts.h"

#include <math.h>

typedef struct finished {
    bool *done;             /* [loop_count] */
    const cut_loop **loops; /* [loop_count] room for the danger list */
} finished;

/* A loop within a finished one that may stand up need not be looked at. */
static bool covered(const cut_job *job, const finished *f, const cut_loop *loop)
{
    for (int up = loop->parent; up >= 0; up = job->loops[up].parent)
        if (f->done[up] && job->loops[up].tips) return true;
    return false;
}

static cut_danger danger_now(const cut_job *job, const finished *f)
{
    cut_danger danger = {.loops = f->loops, .sheet = sw_contour_box(job->in->stock->shape.outline)};
    danger.clear_mm = fmax(2, job->in->row->web_mm / 2); /* ours: middle of the web, at least 2 mm */
    for (size_t i = 0; i < job->loop_count; i++)
        if (f->done[i] && job->loops[i].tips && !covered(job, f, &job->loops[i]))
            f->loops[danger.count++] = &job->loops[i];
    return danger;
}

static sw_status keep_via(sw_run *run, sw_cut_pass *pass, const sw_point *points, size_t count)
{
    sw_point *via = SW_KEEP(run, count, sw_point);
    if (via == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < count; i++) via[i] = points[i];
    pass->via = via;
    pass->via_count = count;
    return SW_OK;
}

static sw_status one_way(sw_run *run, cut_job *job, const finished *f, sw_point from, sw_cut_pass *pass)
{
    cut_danger danger = danger_now(job, f);
    if (!cut_any_crossed(&danger, from, pass->start)) return SW_OK;
    const sw_point *points;
    size_t count;
    SW_TRY(cut_detour(run, &danger, from, pass->start, &points, &count));
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
    finished f = {SW_SCRATCH(run, job->loop_count, bool), SW_SCRATCH(run, job->loop_count, const cut_loop *)};
    if (f.done == NULL || f.loops == NULL) return SW_NO_MEMORY;
    sw_point at = {0, 0};
    for (size_t i = 0; i < job->pass_count; i++) {
        sw_cut_pass *pass = &job->passes[i];
        size_t loop = job->pass_loops[i];
        if (loop != CUT_NO_LOOP) SW_TRY(one_way(run, job, &f, at, pass));
        if (loop != CUT_NO_LOOP && last_of_its_loop(job, i)) f.done[loop] = true;
        at = pass->moves[pass->move_count - 1].to;
    }
    job->plan->passes = job->passes;
    job->plan->pass_count = job->pass_count;
    return SW_OK;
}
