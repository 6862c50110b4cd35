/* Fire, air and heat of demo stove (a): steady network, steady point with air and fuel, a burn from cold with four refuels, and a
 * sweep. One machine's figures; the sweep on two threads. */
#include "app/sweep.h"

#include <math.h>
#include <stdio.h>

enum { ROUNDS = 5, POINTS = 200 };

typedef struct bench {
    sw_run run;
    const sw_model *model;
    const sw_sheet_result *sheet;
    const sw_scene *scene;
    sw_burn *burn;
    sw_burn_point point;
} bench;

static sw_status open_stove(bench *b)
{
    const sw_design_input in = {.stove_path = SW_SOURCE_DIR "/demo/a.stove.lua"};
    sw_sheet_options sheet = sw_sheet_options_defaults();
    sw_scene_options scene = sw_scene_options_defaults();
    sw_burn_options opt = sw_burn_options_defaults();
    sw_heat_model heat = sw_heat_model_defaults();
    SW_TRY(sw_design_read(&b->run, &in, &b->model));
    SW_TRY(sw_sheet_solve(&b->run, b->model, &sheet, &b->sheet));
    SW_TRY(sw_scene_make(&b->run, b->model->stove, b->sheet, &scene, &b->scene));
    const sw_burn_input burn = {b->model->stove, b->sheet, b->scene};
    SW_TRY(sw_burn_open(&b->run, &burn, &opt, &heat, &b->burn));
    return sw_burn_steady(&b->run, b->burn, &b->point);
}

static double scene_s(bench *b)
{
    sw_scene_options scene = sw_scene_options_defaults();
    const sw_scene *made = NULL;
    double begun_s = sw_seconds();
    return sw_scene_make(&b->run, b->model->stove, b->sheet, &scene, &made) == SW_OK ? sw_seconds() - begun_s
                                                                                     : (double)NAN;
}

/* Draught up and down, each point from the one before. */
static double points_s(bench *b)
{
    sw_burn_options opt = sw_burn_options_defaults();
    sw_heat_model heat = sw_heat_model_defaults();
    double begun_s = sw_seconds();
    for (int i = 0; i < POINTS; i++) {
        opt.draught_pa = 12 + 4 * sin(0.1 * i);
        if (sw_burn_change(&b->run, b->burn, &opt, &heat) != SW_OK) return NAN;
        if (sw_burn_steady(&b->run, b->burn, &b->point) != SW_OK) return NAN;
    }
    return (sw_seconds() - begun_s) / POINTS;
}

static double through_s(bench *b)
{
    sw_burn_event events[5];
    const sw_burn_run *r = NULL;
    for (int i = 0; i < 5; i++)
        events[i] = (sw_burn_event){i * 2700.0, 1.6, i == 0 ? 1 : 0.1, (double)NAN, (double)NAN};
    double begun_s = sw_seconds();
    return sw_burn_through(&b->run, b->burn, events, 5, 4 * sw_s_from_h(1), &r) == SW_OK ? sw_seconds() - begun_s
                                                                                         : (double)NAN;
}

static double least(bench *b, double (*of)(bench *b))
{
    double best = INFINITY;
    for (int i = 0; i < ROUNDS; i++) best = fmin(best, of(b));
    return best;
}

static void sweep(sw_run *run, const char *what, const char *first, const char *second)
{
    const sw_request request = {.command = "sweep",
                                .words = {SW_SOURCE_DIR "/demo/a.stove.lua"},
                                .word_count = 1,
                                .axes = {first, second},
                                .axis_count = 2,
                                .batch = 1,
                                .seed = 1,
                                .threads = 2,
                                .memory_mb = 2048};
    sw_sweep s;
    size_t failed = 0;
    const char *why = "";
    if (sw_sweep_read(run, &request, &s) != SW_OK) return;
    double *values = SW_KEEP(run, s.designs * s.quantity_count, double), begun_s = sw_seconds();
    if (values == NULL || sw_sweep_solve(run, &s, values, &failed, &why) != SW_OK) return;
    double took_s = sw_seconds() - begun_s;
    printf("%s,%zu designs,%.1f s,%.2f ms each,%zu failed\n", what, s.designs, took_s, took_s / (double)s.designs * 1e3,
           failed);
}

int main(void)
{
    bench b;
    sw_keep_memory();
    if (sw_run_open(&b.run, (size_t)4 << 30) != SW_OK || open_stove(&b) != SW_OK) return 1;
    printf("scene by rays,%.1f ms\n", least(&b, scene_s) * 1e3);
    printf("steady point with air and fuel settled,%.2f ms\n", least(&b, points_s) * 1e3);
    printf("burn of 4 h with 4 refuels,%.1f ms\n", least(&b, through_s) * 1e3);
    sweep(&b.run, "sweep of 10 geometries x 1000 conditions", "lining=24mm:30mm:10", "draught_pa=8:16:1000");
    sweep(&b.run, "sweep of 400 geometries", "lining=24mm:30mm:20", "throat_gap=50mm:80mm:20");
    sw_run_close(&b.run);
    return 0;
}
