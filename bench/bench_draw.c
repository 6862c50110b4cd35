/* The stove on its real chimney: one operating point, and a map of 100 x 100 on two threads. One machine's figures. */
#include "app/app.h"

#include <math.h>
#include <stdio.h>

enum { POINTS = 100 };

static const sw_request request = {.command = "flue",
                                   .words = {SW_SOURCE_DIR "/demo/a.stove.lua"},
                                   .word_count = 1,
                                   .house = SW_SOURCE_DIR "/demo/demo.house.lua",
                                   .batch = 1,
                                   .seed = 1,
                                   .threads = 2,
                                   .memory_mb = 2048};

int main(void)
{
    sw_run run;
    sw_dossier d;
    sw_keep_memory();
    if (sw_run_open(&run, (size_t)4 << 30) != SW_OK) return 1;
    if (sw_dossier_make(&run, &request, SW_DO_HEFT | SW_DO_BURN | SW_DO_HOUSE, "", &d) != SW_OK) return 1;
    sw_flue_options flue = sw_flue_options_defaults();
    sw_draw_input in = {d.housed->flue_in, &flue, sw_draw_limits_defaults(), *d.burned->options,
                        sw_heat_model_defaults()};
    in.burn.fuel_kg_h = d.burned->point->fuel_kg_s * sw_s_from_h(1);
    const sw_burn_input stove = {d.model.stove, d.sheet, d.burned->scene};
    sw_draw_point point = {0};
    double begun_s = sw_seconds();
    for (int i = 0; i < POINTS; i++) {
        sw_draw_weather w = {260 + 0.3 * i, 0, (double)NAN, (double)NAN, (double)NAN};
        if (sw_draw_solve(&run, &in, d.burned->burn, w, &point) != SW_OK) return 1;
    }
    printf("operating point,%.2f ms\n", (sw_seconds() - begun_s) / POINTS * 1e3);
    sw_draw_map map = {
        .columns = 100, .rows = 100, .outside_low_k = 258, .outside_high_k = 298, .share_low = 0.1, .share_high = 1};
    run.threads = 2;
    begun_s = sw_seconds();
    if (sw_draw_map_solve(&run, &in, &stove, 0, &map) != SW_OK) return 1;
    printf("map of 100 x 100 two threads,%.1f s\n", sw_seconds() - begun_s);
    sw_run_close(&run);
    return 0;
}
