/* cut.c: the steps of planning the sheets of a nest. */
#include "making/cut/cut.h"

#include "making/cut/cut_parts.h"

static sw_status planned(sw_run *run, cut_job *job)
{
    SW_TRY(cut_loops(run, job));
    SW_TRY(cut_find_leads(run, job));
    SW_TRY(cut_etches(run, job));
    SW_TRY(cut_order(run, job));
    SW_TRY(cut_passes(run, job));
    SW_TRY(cut_rapids(run, job));
    cut_times(job->in, job->plan);
    return SW_OK;
}

static sw_status plan_sheet(sw_run *run, cut_job *job)
{
    if (job->in->row != NULL) SW_TRY(planned(run, job));
    return cut_findings(run, job);
}

/* What is worked out for one sheet alone goes when it is planned. */
static sw_status one_sheet(sw_run *run, cut_job *job)
{
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = plan_sheet(run, job);
    sw_arena_rewind(run->scratch, mark);
    return status;
}

static sw_status describe(sw_run *run, const sw_cut_input *in, cut_shapes *shapes, cut_job *job)
{
    *job = (cut_job){.in = in, .plan = SW_KEEP(run, 1, sw_cut_plan), .name = sw_text_copy(run, run->keep, in->name)};
    if (job->plan == NULL || job->name == NULL) return SW_NO_MEMORY;
    SW_TRY(cut_check(run, in));
    if (in->row == NULL) return SW_OK;
    job->kerf_mm = in->row->kerf_mm;
    job->lead_mm = in->row->lead_mm;
    job->thickness_mm = in->row->thickness_mm;
    return cut_places(run, shapes, job);
}

static sw_status steps(sw_run *run, const sw_cut_input *const *in, size_t count, const sw_cut_plan **plans)
{
    size_t parts = 0;
    for (size_t i = 0; i < count; i++) parts += in[i]->part_count;
    cut_job *jobs = SW_SCRATCH(run, count, cut_job);
    cut_shapes shapes = {.items = SW_SCRATCH(run, parts, cut_shape)};
    if (jobs == NULL || shapes.items == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < count; i++) SW_TRY(describe(run, in[i], &shapes, &jobs[i]));
    for (size_t i = 0; i < count; i++) {
        SW_TRY(one_sheet(run, &jobs[i]));
        plans[i] = jobs[i].plan;
        sw_run_progress(run, "cutting paths", (double)(i + 1), (double)count, jobs[i].name);
    }
    return SW_OK;
}

sw_status sw_cut_solve_all(sw_run *run, const sw_cut_input *const *in, size_t count, const sw_cut_plan **plans)
{
    size_t mark = sw_arena_mark(run->scratch);
    for (size_t i = 0; i < count; i++) {
        SW_ASSERT(in[i]->row == in[0]->row && in[i]->laser == in[0]->laser);
        plans[i] = NULL;
    }
    sw_status status = steps(run, in, count, plans);
    sw_arena_rewind(run->scratch, mark);
    for (size_t i = 0; i < count && status != SW_OK; i++) plans[i] = NULL;
    return status;
}

sw_status sw_cut_solve(sw_run *run, const sw_cut_input *in, const sw_cut_plan **plan)
{
    return sw_cut_solve_all(run, &in, 1, plan);
}
