/* heft.c: the steps of weighing a stove. */
#include "making/heft/heft.h"

#include "making/heft/heft_parts.h"

#include <math.h>

static sw_status check_mass(sw_run *run, const char *name, double mass_kg, sw_place place)
{
    if (mass_kg >= 0 && isfinite(mass_kg)) return SW_OK;
    return sw_fail(run, SW_OUT_OF_RANGE, place, name, "a mass of %g kg cannot be; give 0 kg or more", mass_kg);
}

static sw_status check(sw_run *run, const sw_heft_input *in)
{
    const sw_stove *stove = in->stove;
    for (size_t i = 0; i < stove->piece_count; i++)
        SW_TRY(check_mass(run, stove->pieces[i].name, in->pieces[i].mass_kg, stove->pieces[i].place));
    for (size_t i = 0; i < stove->item_count; i++)
        SW_TRY(check_mass(run, stove->items[i].name, stove->items[i].mass_kg, stove->items[i].place));
    return SW_OK;
}

static sw_status steps(sw_run *run, const sw_heft_input *in, const sw_heft_result **result)
{
    SW_TRY(check(run, in));
    heft_job job = {.in = in, .result = SW_KEEP(run, 1, sw_heft_result)};
    if (job.result == NULL) return SW_NO_MEMORY;
    SW_TRY(heft_lines(run, &job));
    SW_TRY(heft_support(run, &job));
    SW_TRY(heft_open(run, &job));
    SW_TRY(heft_findings(run, &job));
    *result = job.result;
    return SW_OK;
}

sw_status sw_heft_solve(sw_run *run, const sw_heft_input *in, const sw_heft_result **result)
{
    size_t mark = sw_arena_mark(run->scratch);
    *result = NULL;
    sw_status status = steps(run, in, result);
    sw_arena_rewind(run->scratch, mark);
    return status;
}
