/* cut.c: the steps of planning a sheet. */
#include "making/cut/cut.h"

#include "making/cut/cut_parts.h"

static sw_status planned(sw_run *run, cut_job *job)
{
    SW_TRY(cut_shapes(run, job));
    SW_TRY(cut_loops(run, job));
    SW_TRY(cut_find_leads(run, job));
    SW_TRY(cut_etches(run, job));
    SW_TRY(cut_order(run, job));
    SW_TRY(cut_passes(run, job));
    SW_TRY(cut_rapids(run, job));
    cut_times(job->in, job->plan);
    return SW_OK;
}

static sw_status steps(sw_run *run, const sw_cut_input *in, const sw_cut_plan **plan)
{
    cut_job job = {.in = in};
    job.plan = SW_KEEP(run, 1, sw_cut_plan);
    job.name = sw_text_copy(run, run->keep, in->name);
    if (job.plan == NULL || job.name == NULL) return SW_NO_MEMORY;
    SW_TRY(cut_check(run, in));
    if (in->row != NULL) {
        job.kerf_mm = in->row->kerf_mm;
        job.lead_mm = in->row->lead_mm;
        job.thickness_mm = in->row->thickness_mm;
        SW_TRY(planned(run, &job));
    }
    SW_TRY(cut_findings(run, &job));
    *plan = job.plan;
    return SW_OK;
}

sw_status sw_cut_solve(sw_run *run, const sw_cut_input *in, const sw_cut_plan **plan)
{
    size_t mark = sw_arena_mark(run->scratch);
    *plan = NULL;
    sw_status status = steps(run, in, plan);
    sw_arena_rewind(run->scratch, mark);
    return status;
}
