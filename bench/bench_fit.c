/* bench_fit.c: the study of fits: 100,000 stoves drawn over all joints, and the study without drawing.
 * bench_fit STOVE.lua WORKS.lua [THREADS]. Target: 100,000 stoves over all joints below 5 s on two cores. */
#include "bench_target.h"
#include "design/design.h"
#include "making/fit/fit.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

enum { ROUNDS = 3, DRAWN = 100000 };

static const double target_ms = 5000;

/* Best of some rounds, s. */
static sw_status time_fit(sw_run *run, const sw_fit_input *in, const sw_fit_options *opt, double *best_s,
                          const sw_fit_result **last)
{
    *best_s = INFINITY;
    for (int i = 0; i < ROUNDS; i++) {
        double start_s = sw_seconds();
        SW_TRY(sw_fit_solve(run, in, opt, last));
        *best_s = fmin(*best_s, sw_seconds() - start_s);
    }
    return SW_OK;
}

static sw_status bench(sw_run *run, const char *stove, const char *works)
{
    const sw_model *model = NULL;
    const sw_sheet_result *sheet = NULL;
    const sw_fit_result *r = NULL;
    sw_sheet_options folding = sw_sheet_options_defaults();
    sw_fit_options opt = sw_fit_options_defaults();
    double drawn_s = 0, alone_s = 0;
    SW_TRY(sw_design_read(run, &(sw_design_input){.stove_path = stove, .works_path = works}, &model));
    SW_TRY(sw_sheet_solve(run, model, &folding, &sheet));
    sw_fit_input in = {.model = model, .sheet = sheet, .batch = 20};
    opt.stoves = 0;
    SW_TRY(time_fit(run, &in, &opt, &alone_s, &r));
    opt.stoves = DRAWN;
    SW_TRY(time_fit(run, &in, &opt, &drawn_s, &r));
    printf("stove,joints,contributors,threads,study_ms,with_%d_stoves_ms,target_ms,target\n", DRAWN);
    printf("%s,%zu,%zu,%d,%.1f,%.1f,%.0f,%s\n", model->stove->name, r->joint_count, r->contributor_count, run->threads,
           alone_s * 1e3, drawn_s * 1e3, target_ms, target_met(drawn_s * 1e3, target_ms));
    return SW_OK;
}

int main(int argc, char **argv)
{
    const char *stove = argc > 1 ? argv[1] : SW_SOURCE_DIR "/demo/a.stove.lua";
    const char *works = argc > 2 ? argv[2] : SW_SOURCE_DIR "/demo/demo.works.lua";
    sw_run run;
    if (sw_run_open(&run, (size_t)1 << 30) != SW_OK) return 3;
    run.threads = argc > 3 ? atoi(argv[3]) : 2;
    bool good = bench(&run, stove, works) == SW_OK;
    for (size_t i = 0; i < run.error_count && i < 5; i++) fprintf(stderr, "%s\n", run.errors[i].text);
    sw_run_close(&run);
    return good ? 0 : 3;
}
