/* trial.c: the steps from a record of readings to what it says of the stove. */
#include "proving/trial/trial.h"

#include "proving/trial/trial_parts.h"

#include <math.h>

#define REGULATION "Regulation (EU) 2015/1185 annex III (seen)"
#define BUDGET     "ours, after a usual budget of instruments; EN 13240 allows the instrument more (from memory)"
#define O(field, unit, fallback, low, high, meaning, source)                                                           \
    SW_OPTION(sw_trial_options, field, unit, fallback, low, high, meaning, source)
static const sw_option table[] = {
    O(eu, "", 1, 0, 1, "limits of Regulation (EU) 2015/1185: 1 or 0", "ours"),
    O(germany, "", 0, 0, 1, "limits of the German 1. BImSchV, stage 2", "ours"),
    O(uk, "", 0, 0, 1, "smoke limit of UK smoke control areas", "ours"),
    O(us, "", 0, 0, 1, "dust limit of US 40 CFR 60.532, cord wood", "ours"),
    O(pellets, "", 0, 0, 1, "the stove burns pellets", "ours"),
    O(open, "", 0, 0, 1, "the stove is open fronted", "ours"),
    O(control, "", 0, 0, 5, "0 none, 1 stages, 2 mechanic, 3 electronic, 4 with day timer, 5 with week timer",
      REGULATION),
    O(presence, "", 0, 0, 1, "presence detection", REGULATION),
    O(window, "", 0, 0, 1, "open-window detection", REGULATION),
    O(distance, "", 0, 0, 1, "distance control", REGULATION),
    O(low_tested, "", 0, 0, 1, "emission limits also kept at half the output or less", REGULATION),
    O(el_most_w, "W", 0, 0, 5000, "electricity at nominal output", REGULATION),
    O(el_least_w, "W", 0, 0, 5000, "electricity at least output", REGULATION),
    O(el_standby_w, "W", 0, 0, 500, "electricity in standby", REGULATION),
    O(pilot_w, "W", 0, 0, 5000, "permanent pilot flame", REGULATION),
    O(warm_up, "", 1, 0, 20, "charges at the start that only light and warm the stove", TRIAL_PRACTICE),
    O(gap_s, "s", 0, 0, 1800, "longer steps of time are gaps; 0 = three of the usual", "ours"),
    O(coverage_least, "", 0.9, 0.5, 1, "share of a charge that must be measured", "ours"),
    O(charge_least_kg, "kg", 0.4, 0.05, 20, "rise of the scale that counts as a charge", "ours"),
    O(reading_every_s, "s", 300, 1, 7200, "between readings handed to the model's calibration", "ours"),
    O(u_flue_k, "K", 2.5, 0, 50, "standard uncertainty of the flue gas", BUDGET),
    O(u_room_k, "K", 0.5, 0, 20, "of the room", BUDGET),
    O(u_co2, "", 0.0015, 0, 0.05, "of CO2, share", BUDGET),
    O(u_o2, "", 0.002, 0, 0.05, "of O2, share", BUDGET),
    O(u_co, "", 0.00005, 0, 0.01, "of CO, share", BUDGET),
    O(u_gas, "", 0.05, 0, 1, "of OGC and NOx, relative", BUDGET),
    O(u_pm, "", 0.1, 0, 1, "of dust, relative", BUDGET),
    O(u_c, "", 0.005, 0, 0.1, "of the wood's carbon as fired, share", BUDGET),
    O(u_h, "", 0.0015, 0, 0.05, "of its hydrogen", BUDGET),
    O(u_moisture, "", 0.005, 0, 0.1, "of its water", BUDGET),
    O(u_lhv, "", 0.01, 0, 0.2, "of its net heating value, relative", BUDGET),
    O(u_residue, "", 0.002, 0, 0.02, "half width of the loss in the residue, share of the heat", BUDGET),
    O(u_wood_kg, "kg", 0.02, 0, 1, "of the wood of a charge", "EN 13240 (from memory)"),
    O(draws, "", 20000, 100, 1e6, "draws of the sampling", "ours"),
    O(seed, "", 1, 0, 1e9, "of the sampling", "ours"),
};
enum { TABLE_ROWS = sizeof table / sizeof *table };

const sw_option *sw_trial_option_table(size_t *count)
{
    *count = TABLE_ROWS;
    return table;
}

sw_trial_options sw_trial_options_defaults(void)
{
    sw_trial_options o = {.made_by_defaults = SW_DEFAULTS_MARK};
    sw_options_fill(table, TABLE_ROWS, &o);
    return o;
}

static sw_status steps(sw_run *run, const sw_trial_input *in, const sw_trial_options *opt,
                       const sw_trial_result **result)
{
    trial_job job = {.in = in, .record = in->record, .opt = opt, .result = SW_KEEP(run, 1, sw_trial_result)};
    if (job.result == NULL) return SW_NO_MEMORY;
    job.result->statement = SW_TRIAL_STATEMENT;
    SW_TRY(trial_check(run, &job));
    SW_TRY(trial_charges(run, &job));
    trial_gaps(&job);
    SW_TRY(trial_cycles(run, &job));
    SW_TRY(trial_answers(run, &job));
    SW_TRY(trial_rises(run, &job));
    SW_TRY(trial_charts(run, &job));
    SW_TRY(trial_compare(run, &job));
    SW_TRY(trial_declare(run, &job));
    SW_TRY(trial_readings_findings(run, &job));
    SW_TRY(trial_findings(run, &job));
    SW_TRY(trial_limits(run, &job));
    SW_TRY(trial_sheets(run, &job));
    if (in->stove != NULL) SW_TRY(sw_trial_plan_of(run, in->stove, &job.result->plan));
    *result = job.result;
    return SW_OK;
}

sw_status sw_trial_solve(sw_run *run, const sw_trial_input *in, const sw_trial_options *opt,
                         const sw_trial_result **result)
{
    SW_ASSERT(opt->made_by_defaults == SW_DEFAULTS_MARK);
    size_t mark = sw_arena_mark(run->scratch);
    *result = NULL;
    sw_status status = steps(run, in, opt, result);
    sw_arena_rewind(run->scratch, mark);
    return status;
}
