/* bench_trial.c: a day of readings, one row a second, read and evaluated. */
#include "proving/trial/trial.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

enum { DAY_S = 86400, CHARGE_S = 3000, TIMES = 5 };

static void row(sw_writer *w, int s)
{
    double x = s % CHARGE_S / (double)CHARGE_S, wave = sin(0.01 * s);
    sw_print(w, "%d,%.2f,%.2f,%.0f,%.1f,%.1f,%.1f,%.3f,%.1f,%.1f,%.1f,%.1f\n", s, 11 - 4 * x + 0.1 * wave,
             9.6 + 4 * x - 0.1 * wave, 600 + 900 * x, 300 - 90 * x + wave, 21 + 0.3 * wave, 12 + 0.2 * wave,
             42.0 - 1.6 * x, 60 + 5 * wave, 40 + 10 * x, 48 + wave, 220 - 30 * x);
}

static sw_status day(sw_run *run, const char **text, size_t *length)
{
    sw_writer *w = NULL;
    SW_TRY(sw_writer_to_memory(run, &w));
    sw_print(w, "# fuel = beech logs\n# moisture = 16 %%\n");
    for (int s = 0; s < DAY_S; s += CHARGE_S) sw_print(w, "# charge = %d s, 1.6 kg\n", s);
    sw_print(w, "time_s,CO2 [%%],O2 [%%],CO [ppm],flue [degC],room [degC],draught [Pa],mass [kg],NOx [ppm],OGC [ppm],"
                "door handle [degC],left side [degC]\n");
    for (int s = 0; s < DAY_S; s++) row(w, s);
    return sw_writer_take(run, w, text, length);
}

static sw_status evaluate(const char *text, size_t length, double *read_s, double *solve_s)
{
    sw_run run;
    sw_trial_record record;
    const sw_trial_result *r = NULL;
    sw_trial_input in = {.record = &record};
    sw_trial_options opt = sw_trial_options_defaults();
    SW_TRY(sw_run_open(&run, (size_t)1 << 28));
    double start_s = sw_seconds();
    sw_status status = sw_trial_read(&run, "day.csv", text, length, &record);
    *read_s = sw_seconds() - start_s;
    if (status == SW_OK) status = sw_trial_solve(&run, &in, &opt, &r);
    *solve_s = sw_seconds() - start_s - *read_s;
    if (status == SW_OK)
        printf("read %6.1f ms, evaluate %6.1f ms: %zu rows, %zu charges, efficiency %.2f +- %.2f %%\n", 1e3 * *read_s,
               1e3 * *solve_s, record.row_count, r->valid_count, r->answers[SW_ANSWER_EFFICIENCY].value,
               r->answers[SW_ANSWER_EFFICIENCY].half95);
    sw_run_close(&run);
    return status;
}

int main(int argc, char **argv)
{
    int times = argc > 1 ? (int)strtol(argv[1], NULL, 10) : TIMES;
    sw_run run;
    const char *text = NULL;
    size_t length = 0;
    if (sw_run_open(&run, (size_t)1 << 28) != SW_OK) return 3;
    sw_status status = day(&run, &text, &length);
    double least_s = INFINITY, read_s = 0, solve_s = 0;
    for (int i = 0; i < times && status == SW_OK; i++) {
        status = evaluate(text, length, &read_s, &solve_s);
        least_s = fmin(least_s, read_s + solve_s);
    }
    if (status == SW_OK)
        printf("%-28s %8.1f ms, %.1f MB\n", "a day of one row a second", 1e3 * least_s, (double)length / 1e6);
    sw_run_close(&run);
    return status == SW_OK ? 0 : 3;
}
