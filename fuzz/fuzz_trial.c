/* fuzz_trial.c: the reader of a test's readings takes any bytes; what it accepts rises in time, counts what is lost and is
 * evaluated to shares that add up. */
#include "proving/trial/trial.h"

#include <math.h>
#include <stdlib.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void check_record(const sw_trial_record *r)
{
    for (size_t i = 1; i < r->row_count; i++)
        if (!(r->time_s[i] > r->time_s[i - 1])) abort();
    for (size_t i = 0; i < r->column_count; i++) {
        size_t lost = 0;
        for (size_t k = 0; k < r->row_count; k++) lost += isnan(r->columns[i].values[k]) ? 1 : 0;
        if (lost != r->columns[i].lost || r->columns[i].odd > lost) abort();
    }
}

static void check_result(const sw_trial_result *r)
{
    for (size_t i = 0; i < r->cycle_count; i++) {
        const sw_trial_cycle *c = &r->cycles[i];
        if (!c->valid) continue;
        double whole = c->losses.sensible + c->losses.co + c->losses.residue + c->losses.efficiency;
        if (!(fabs(whole - 1) < 1e-6) || !(c->coverage <= 1 + 1e-9)) abort();
    }
    for (size_t i = 0; i < r->limit_count; i++)
        if (r->limits[i].source[0] == '\0') abort();
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    sw_run run;
    sw_trial_record record;
    const sw_trial_result *result = NULL;
    sw_trial_input in = {.record = &record};
    sw_trial_options opt = sw_trial_options_defaults();
    opt.draws = 100;
    if (sw_run_open(&run, (size_t)1 << 26) != SW_OK) return 0;
    sw_status status = sw_trial_read(&run, "fuzz.csv", (const char *)data, size, &record);
    if (status == SW_OK) {
        check_record(&record);
        if (sw_trial_solve(&run, &in, &opt, &result) == SW_OK) check_result(result);
    } else if (status == SW_BAD_INPUT && run.error_count == 0) {
        abort();
    }
    sw_run_close(&run);
    return 0;
}
