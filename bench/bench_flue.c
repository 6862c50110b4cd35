/* bench_flue.c: the pull of a flue for coupling, one condition after another, and the whole study of a house. */
#include "siting/flue/flue.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

enum { PULLS = 200000, STUDIES = 2000 };

static const sw_flue_layer liner[] = {
    {"stainless steel", 0.5, (double)NAN}, {"mineral wool", 25, 0.07}, {"brick", 112, (double)NAN}};
#define PART(label, is_pipe, length_up, height, loss, near)                                                            \
    {                                                                                                                  \
        .name = label, .pipe = is_pipe, .round = true, .width_mm = 150, .depth_mm = 150, .length_m = length_up,        \
        .rise_m = height, .roughness_mm = 1, .zeta = loss, .layers = liner, .layer_count = (is_pipe) ? 1 : 3,          \
        .resistance = (double)NAN, .outer_mm = (double)NAN, .around = near, .designation = "T450 N1 D V3 L50060 G50",  \
        .combustible_mm = (double)NAN, .liner = !(is_pipe)                                                             \
    }
static const sw_flue_part parts[] = {
    PART("pipe", true, 1, 0.7, 0.75, SW_HEATED), PART("rooms", false, 3, 3, 1.25, SW_HEATED),
    PART("loft", false, 1, 1, 0, SW_UNHEATED), PART("outside", false, 1, 1, 0, SW_OUTDOORS)};
static const sw_house house = {.name = "bench",
                               .note = "",
                               .code = "",
                               .altitude_m = 200,
                               .least_k = 263.15,
                               .parts = parts,
                               .part_count = 4,
                               .terminal_zeta = 0.5};

static sw_flue_input input(void)
{
    return (sw_flue_input){
        .house = &house, .nominal = {0.006, 553.15, 12, (double)NAN, 0.11, true}, .wood = sw_flue_wood_reference()};
}

static void pulls(const sw_flue_input *in, const sw_flue_options *opt, int times)
{
    sw_flue_gas gas = sw_flue_gas_of(&in->wood, 0.11);
    double sum_pa = 0, start_s = sw_seconds();
    for (int i = 0; i < times; i++) {
        sw_flue_now now = {263.15 + i % 40, 0, 0.004 + 1e-6 * (i % 4000), 450 + i % 200, 0.11};
        sum_pa += sw_flue_pull_of(in, &gas, opt, now).draught_pa;
    }
    printf("%-28s %8.3f us, mean %.2f Pa\n", "pull, 4 parts, 12 layers", (sw_seconds() - start_s) / times * 1e6,
           sum_pa / times);
}

static sw_status studies(const sw_flue_input *in, const sw_flue_options *opt)
{
    double start_s = sw_seconds();
    for (int i = 0; i < STUDIES; i++) {
        sw_run run;
        const sw_flue_result *r = NULL;
        SW_TRY(sw_run_open(&run, (size_t)1 << 24));
        sw_status status = sw_flue_solve(&run, in, opt, &r);
        sw_run_close(&run);
        if (status != SW_OK) return status;
    }
    printf("%-28s %8.3f us\n", "whole study with findings", (sw_seconds() - start_s) / STUDIES * 1e6);
    return SW_OK;
}

int main(int argc, char **argv)
{
    sw_flue_input in = input();
    sw_flue_options opt = sw_flue_options_defaults();
    int times = argc > 1 ? (int)strtol(argv[1], NULL, 10) : PULLS;
    pulls(&in, &opt, times);
    if (times < PULLS) return 0; /* to count instructions of the pulls alone */
    return studies(&in, &opt) == SW_OK ? 0 : 3;
}
