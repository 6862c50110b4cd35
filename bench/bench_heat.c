/* bench_heat.c: time of the heat network of a described stove: made, from cold, warm, and one flux of a transient.
 *   bench_heat STOVE.lua WORKS.lua [list]
 * list: the parts' temperatures of a steady fire as well. Fire: beech at excess air 2.2 (handbook E1), 9 kW set free for
 * each 7 kW of the duty. Warm: the heat goes up and down by 1 %. */
#include "../tests/burning/heat/wood_fire.h"
#include "design/design.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { ROUNDS = 2000 };

static void list(const sw_scene *scene, const sw_heat_net *net, const sw_heat_state *s)
{
    for (size_t i = 0; i < scene->part_count; i++) {
        const sw_scene_part *p = &scene->parts[i];
        printf("%-26s %6.1f", p->name, sw_c_from_k(s->t_k[sw_heat_net_node(net, i, false)]));
        if (p->layered) printf("  hot side %6.1f", sw_c_from_k(s->t_k[sw_heat_net_node(net, i, true)]));
        printf("\n");
    }
    printf("firebox %.1f bed %.1f upper %.1f flue %.1f gap %.1f degC %.2f g/s\n",
           sw_c_from_k(s->t_k[sw_heat_net_gas(net, SW_GAS_FIREBOX)]),
           sw_c_from_k(s->t_k[sw_heat_net_gas(net, SW_GAS_BED)]),
           sw_c_from_k(s->t_k[sw_heat_net_gas(net, SW_GAS_UPPER)]), sw_c_from_k(s->flue_k), sw_c_from_k(s->gap_out_k),
           1e3 * s->gap_kg_s);
    printf(
        "useful %.0f = through pane %.0f + glass %.0f + shell %.0f + gap %.0f + below %.0f; flue %.0f; left %.1e W\n",
        s->useful_w, s->transmitted_w, s->glass_w, s->shell_w, s->gap_w, s->below_w, s->flue_w, s->residual_w);
}

static sw_status time_net(sw_run *run, const sw_scene *scene, double heat_w, bool listed)
{
    sw_heat_model model = sw_heat_model_defaults();
    sw_heat_fire fire = wood_fire(heat_w), more = wood_fire(1.01 * heat_w);
    sw_heat_room room = {sw_k_from_c(20), sw_k_from_c(20)};
    sw_heat_state state = {0};
    sw_heat_net *net = NULL;
    double start_s = sw_seconds();
    SW_TRY(sw_heat_net_make(run, scene, &model, &net));
    double made_s = sw_seconds() - start_s;
    start_s = sw_seconds();
    SW_TRY(sw_heat_net_steady(run, net, &fire, &room, &state));
    double cold_s = sw_seconds() - start_s;
    int cold_rounds = state.rounds;
    if (listed) list(scene, net, &state);
    start_s = sw_seconds();
    for (int i = 0; i < ROUNDS; i++) SW_TRY(sw_heat_net_steady(run, net, i % 2 ? &fire : &more, &room, &state));
    double warm_s = (sw_seconds() - start_s) / ROUNDS;
    double *flux = SW_SCRATCH(run, sw_heat_net_nodes(net), double);
    if (flux == NULL) return SW_NO_MEMORY;
    start_s = sw_seconds();
    for (int i = 0; i < ROUNDS; i++) SW_TRY(sw_heat_net_flux(run, net, i % 2 ? &fire : &more, &room, &state, flux));
    double flux_s = (sw_seconds() - start_s) / ROUNDS;
    printf("what,nodes,rounds,ms\nnet made,%zu,,%.3f\nfrom cold,%zu,%d,%.3f\n", sw_heat_net_nodes(net), made_s * 1e3,
           sw_heat_net_nodes(net), cold_rounds, cold_s * 1e3);
    printf("warm,%zu,%d,%.3f\nflux,%zu,,%.3f\n", sw_heat_net_nodes(net), state.rounds, warm_s * 1e3,
           sw_heat_net_nodes(net), flux_s * 1e3);
    return SW_OK;
}

static sw_status bench(sw_run *run, const char *stove, const char *works, bool listed)
{
    const sw_model *model = NULL;
    const sw_sheet_result *sheet = NULL;
    const sw_scene *scene = NULL;
    sw_sheet_options sheet_opt = sw_sheet_options_defaults();
    sw_scene_options opt = sw_scene_options_defaults();
    SW_TRY(sw_design_read(run, &(sw_design_input){.stove_path = stove, .works_path = works}, &model));
    SW_TRY(sw_sheet_solve(run, model, &sheet_opt, &sheet));
    SW_TRY(sw_scene_make(run, model->stove, sheet, &opt, &scene));
    return time_net(run, scene, 9.0 / 7.0 * model->stove->duty.output_w, listed);
}

int main(int argc, char **argv)
{
    const char *stove = argc > 1 ? argv[1] : SW_SOURCE_DIR "/demo/a.stove.lua";
    const char *works = argc > 2 ? argv[2] : SW_SOURCE_DIR "/demo/demo.works.lua";
    sw_run run;
    if (sw_run_open(&run, (size_t)1 << 30) != SW_OK) return 3;
    sw_status status = bench(&run, stove, works, argc > 3 && strcmp(argv[3], "list") == 0);
    for (size_t i = 0; i < run.error_count && i < 5; i++) fprintf(stderr, "%s\n", run.errors[i].text);
    sw_run_close(&run);
    return status == SW_OK ? 0 : 3;
}
