/* bench_map.c: time, memory and balance of the surface map beside the network.
 *   bench_map STOVE.lua WORKS.lua [TRIANGLES] [RAYS] [THREADS] [list]
 * list: every part's temperatures by both. */
#include "../tests/burning/heat/wood_fire.h"
#include "design/design.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>

typedef struct bench {
    const sw_model *model;
    const sw_sheet_result *sheet;
    const sw_scene *scene;
    sw_heat_net *net;
    sw_heat_state state;
    sw_heat_fire fire;
    sw_heat_room room;
    sw_heat_model constants;
    sw_heat_map_options opt;
    const sw_heat_map *map;
} bench;

static sw_status prepare(sw_run *run, const char *stove, const char *works, bench *b)
{
    sw_sheet_options sheet_opt = sw_sheet_options_defaults();
    sw_scene_options scene_opt = sw_scene_options_defaults();
    SW_TRY(sw_design_read(run, &(sw_design_input){.stove_path = stove, .works_path = works}, &b->model));
    SW_TRY(sw_sheet_solve(run, b->model, &sheet_opt, &b->sheet));
    SW_TRY(sw_scene_make(run, b->model->stove, b->sheet, &scene_opt, &b->scene));
    b->constants = sw_heat_model_defaults();
    b->fire = wood_fire(9000.0);
    b->room = (sw_heat_room){sw_k_from_c(20.0), sw_k_from_c(20.0)};
    SW_TRY(sw_heat_net_make(run, b->scene, &b->constants, &b->net));
    return sw_heat_net_steady(run, b->net, &b->fire, &b->room, &b->state);
}

static void list(const bench *b)
{
    printf("%-26s %8s %8s %8s %8s %8s\n", "part, degC", "net cold", "net hot", "mean", "least", "most");
    for (size_t i = 0; i < b->map->part_count; i++) {
        const sw_heat_map_part *p = &b->map->parts[i];
        double least_k = p->mean_k;
        for (size_t k = 0; k < p->mesh.point_count; k++) least_k = fmin(least_k, p->t_k[k]);
        printf("%-26s %8.1f %8.1f %8.1f %8.1f %8.1f   %zu at %.0f %.0f %.0f\n", b->scene->parts[i].name,
               sw_c_from_k(b->state.t_k[sw_heat_net_node(b->net, i, false)]),
               sw_c_from_k(b->state.t_k[sw_heat_net_node(b->net, i, true)]), sw_c_from_k(p->mean_k),
               sw_c_from_k(least_k), sw_c_from_k(p->most_k), p->mesh.triangle_count, p->hottest.x_mm, p->hottest.y_mm,
               p->hottest.z_mm);
    }
}

static sw_status solve(sw_run *run, bench *b)
{
    double start_s = sw_seconds();
    SW_TRY(sw_heat_map_solve(run, b->model->stove, b->sheet, b->scene, &b->constants, &b->fire, &b->room, &b->opt,
                             &b->map));
    struct rusage used;
    getrusage(RUSAGE_SELF, &used);
    printf("%zu triangles, %d rounds, %.3f s on %d threads, process at most %.0f MB\n", b->map->triangles,
           b->map->rounds, sw_seconds() - start_s, b->opt.threads, (double)used.ru_maxrss / 1024.0);
    return SW_OK;
}

static void compare(const bench *b)
{
    const sw_heat_map *m = b->map;
    size_t gas = sw_heat_net_gas(b->net, SW_GAS_FIREBOX);
    printf("        useful W   flue W  residual W  flue C  firebox C  upper C  gap out C\n");
    printf("network %8.1f %8.1f %11.3f %7.1f %10.1f %8.1f %10.1f\n", b->state.useful_w, b->state.flue_w,
           b->state.residual_w, sw_c_from_k(b->state.flue_k), sw_c_from_k(b->state.t_k[gas]),
           sw_c_from_k(b->state.t_k[gas + 1]), sw_c_from_k(b->state.gap_out_k));
    printf("map     %8.1f %8.1f %11.3f %7.1f %10.1f %8.1f %10.1f\n", m->useful_w, m->flue_w, m->residual_w,
           sw_c_from_k(m->flue_k), sw_c_from_k(m->firebox_k), sw_c_from_k(m->upper_k), sw_c_from_k(m->gap_out_k));
}

int main(int argc, char **argv)
{
    const char *stove = argc > 1 ? argv[1] : SW_SOURCE_DIR "/demo/a.stove.lua";
    const char *works = argc > 2 ? argv[2] : SW_SOURCE_DIR "/demo/demo.works.lua";
    sw_run run;
    bench b = {.opt = sw_heat_map_options_defaults()};
    if (sw_run_open(&run, (size_t)4 << 30) != SW_OK) return 2;
    if (argc > 3) b.opt.triangles = strtod(argv[3], NULL);
    if (argc > 4) b.opt.rays_per_triangle = strtod(argv[4], NULL);
    b.opt.threads = argc > 5 ? (int)strtol(argv[5], NULL, 10) : 2;
    sw_status status = prepare(&run, stove, works, &b);
    if (status == SW_OK) status = solve(&run, &b);
    if (status == SW_OK) compare(&b);
    if (status == SW_OK && argc > 6) list(&b);
    for (size_t i = 0; i < run.error_count && i < SW_ERROR_MAX; i++)
        printf("%s: %s\n", run.errors[i].field, run.errors[i].text);
    sw_run_close(&run);
    return status == SW_OK ? 0 : 1;
}
