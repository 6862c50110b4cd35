/* line.c: the steps of the line study. */
#include "making/line/line.h"

#include "making/line/line_parts.h"

#include <math.h>

static const sw_option table[] = {
    SW_OPTION(sw_line_options, rounds, "", 200, 0, 1e6, "schedules tried by exchanging and moving tasks", "ours"),
    SW_OPTION(sw_line_options, what_if_rounds, "", 10, 0, 1e6, "the same for each what-if", "ours"),
    SW_OPTION(sw_line_options, seed, "", 1, 0, 1e9, "seed of the search", "ours"),
    SW_OPTION(sw_line_options, flow_weight, "", 0.05, 0, 10, "worth of 1 s of mean flow time in s of makespan", "ours"),
    SW_OPTION(sw_line_options, set_up_weight, "", 0.3, 0, 10, "worth of 1 s of set-up in s of makespan", "ours"),
    SW_OPTION(sw_line_options, variation, "", 1.0, 0, 5, "coefficient of variation of arrivals, for the queue",
              "common practice, no source"),
    SW_OPTION(sw_line_options, busy_most, "", 0.9, 0.1, 1, "utilisation above which a station is watched",
              "common practice, no source"),
    SW_OPTION(sw_line_options, shift_premium, "", 0.25, 0, 2, "share of labour that a second shift costs more",
              "common practice, no source"),
    SW_OPTION(sw_line_options, balance_nodes, "", 2e5, 1, 1e9, "limit of the line balance's search", "ours"),
    SW_OPTION(sw_line_options, exact_nodes, "", 2e4, 0, 1e9,
              "limit of the search for a small batch's shortest schedule", "ours"),
};
enum { OPTIONS = sizeof table / sizeof *table };

const sw_option *sw_line_option_table(size_t *count)
{
    *count = OPTIONS;
    return table;
}

sw_line_options sw_line_options_defaults(void)
{
    sw_line_options o = {0};
    sw_options_fill(table, OPTIONS, &o);
    o.made_by_defaults = SW_DEFAULTS_MARK;
    return o;
}

static sw_status steps(sw_run *run, const sw_line_input *in, const sw_line_options *opt, const sw_line_result **result)
{
    SW_TRY(line_check(run, in, opt));
    line_job job = {.in = in, .opt = opt, .batch = in->batch, .result = SW_KEEP(run, 1, sw_line_result)};
    if (job.result == NULL) return SW_NO_MEMORY;
    job.result->week_planned = (double)NAN;
    SW_TRY(line_route(run, &job));
    SW_TRY(line_loads(run, &job));
    SW_TRY(line_hand(run, &job));
    if (job.can_run) {
        SW_TRY(line_search(run, &job));
        SW_TRY(line_exact(run, &job));
        SW_TRY(line_plan(run, &job));
    }
    SW_TRY(line_cost(run, &job));
    if (job.can_run) SW_TRY(line_what_if(run, &job));
    SW_TRY(line_findings(run, &job));
    *result = job.result;
    return SW_OK;
}

sw_status sw_line_solve(sw_run *run, const sw_line_input *in, const sw_line_options *opt, const sw_line_result **result)
{
    size_t mark = sw_arena_mark(run->scratch);
    *result = NULL;
    sw_status status = steps(run, in, opt, result);
    sw_arena_rewind(run->scratch, mark);
    return status;
}
