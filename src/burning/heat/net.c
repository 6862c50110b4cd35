/* net.c: the heat network of a scene: made once, then solved for a steady fire or asked for the heat into every node. */
#include "burning/heat/net_parts.h"

#include <math.h>

/* ---- making -------------------------------------------------------------------------------------------------- */

static sw_status number_nodes(sw_run *run, sw_heat_net *net)
{
    const sw_scene *scene = net->scene;
    net->parts = scene->part_count;
    net->cold = SW_KEEP(run, net->parts, size_t);
    net->hot = SW_KEEP(run, net->parts, size_t);
    net->part_of = SW_KEEP(run, 2 * net->parts, size_t);
    net->glass = SW_KEEP(run, 2 * net->parts + SW_GAS_NODES + 1, bool);
    if (!net->cold || !net->hot || !net->part_of || !net->glass) return SW_NO_MEMORY;
    for (size_t i = 0; i < net->parts; i++) {
        const sw_scene_part *p = &scene->parts[i];
        size_t many = p->layered ? 2 : 1;
        net->cold[i] = net->solids;
        net->hot[i] = net->solids + many - 1;
        for (size_t k = 0; k < many; k++) {
            net->part_of[net->solids] = i;
            net->glass[net->solids++] = p->kind == SW_PART_PANE;
        }
    }
    net->nodes = net->solids + SW_GAS_NODES;
    return SW_OK;
}

static sw_status take_room(sw_run *run, sw_heat_net *net)
{
    size_t n = net->nodes + 1;
    double **arrays[] = {&net->x,  &net->E,   &net->dE, &net->Ea,   &net->dEa,
                         &net->Et, &net->dEt, &net->R,  &net->step, &net->try_x};
    for (size_t i = 0; i < sizeof arrays / sizeof *arrays; i++)
        if ((*arrays[i] = SW_KEEP(run, n, double)) == NULL) return SW_NO_MEMORY;
    net->J = SW_KEEP(run, n * n, double);
    net->lu = SW_KEEP(run, n * n, double);
    net->pivot = SW_KEEP(run, n, size_t);
    return net->J && net->lu && net->pivot ? SW_OK : SW_NO_MEMORY;
}

static bool has_upper_space(const sw_scene *scene)
{
    return scene->upper_m3 > 0 && scene->upper_m2 > 0;
}

static sw_status fill(sw_run *run, sw_heat_net *net)
{
    SW_TRY(number_nodes(run, net));
    SW_TRY(take_room(run, net));
    SW_TRY(net_film_air_make(run, net));
    SW_TRY(net_bed_make(run, net));
    SW_TRY(net_films_make(run, net));
    SW_TRY(net_panes_make(run, net));
    return net_links_make(run, net);
}

sw_status sw_heat_net_make(sw_run *run, const sw_scene *scene, const sw_heat_model *model, sw_heat_net **net)
{
    size_t rows;
    const sw_option *table = sw_heat_model_table(&rows);
    *net = NULL;
    SW_TRY(sw_options_check(run, table, rows, model));
    SW_TRY(net_check_scene(run, scene));
    sw_heat_net *made = SW_KEEP(run, 1, sw_heat_net);
    if (made == NULL) return SW_NO_MEMORY;
    made->scene = scene;
    made->model = *model;
    made->flame_share = has_upper_space(scene) ? model->flame_share : 1;
    SW_TRY(fill(run, made));
    *net = made;
    return SW_OK;
}

size_t sw_heat_net_nodes(const sw_heat_net *net)
{
    return net->nodes;
}

size_t sw_heat_net_node(const sw_heat_net *net, size_t part, bool hot_side)
{
    SW_ASSERT(part < net->parts);
    return hot_side ? net->hot[part] : net->cold[part];
}

size_t sw_heat_net_gas(const sw_heat_net *net, int gas)
{
    SW_ASSERT(gas >= 0 && gas < SW_GAS_NODES);
    return net->solids + (size_t)gas;
}

void sw_heat_net_capacity(const sw_heat_net *net, const double *t_k, double *capacity)
{
    for (size_t i = 0; i < net->solids; i++) {
        const sw_scene_part *p = &net->scene->parts[net->part_of[i]];
        capacity[i] = (p->layered ? 0.5 : 1) * p->mass_kg * sw_material_capacity(p->material, t_k[i]);
    }
    for (size_t i = net->solids; i < net->nodes; i++) capacity[i] = 0;
}

/* ---- one moment ----------------------------------------------------------------------------------------------- */

static sw_status begin(sw_run *run, sw_heat_net *net, const sw_heat_fire *fire, const sw_heat_room *room,
                       sw_heat_state *state)
{
    SW_TRY(net_check_moment(run, fire, room));
    bool fresh = state->t_k == NULL;
    if (fresh) state->t_k = SW_KEEP(run, net->nodes, double);
    if (state->t_k == NULL) return SW_NO_MEMORY;
    net->now = *fire;
    net->room = *room;
    double warm_k = fire->heat_w > 0 ? 500 : room->air_k, hot_k = fire->heat_w > 0 ? 900 : fire->air_k;
    for (size_t i = 0; i < net->nodes; i++) {
        bool usable = !fresh && state->t_k[i] > 0 && isfinite(state->t_k[i]);
        net->x[i] = usable ? state->t_k[i] : i < net->solids ? warm_k : hot_k;
    }
    net->gap_kg_s = fresh ? 0 : state->gap_kg_s;
    return SW_OK;
}

static void tell(const sw_heat_net *net, double stored_w, net_settled settled, sw_heat_state *state)
{
    const net_flows *f = &net->flows;
    for (size_t i = 0; i < net->nodes; i++) state->t_k[i] = net->x[i];
    state->flue_k = f->flue_k;
    state->leaving_k = f->leaving_k;
    state->entering_k = f->entering_k;
    state->preheat_w = f->preheat_w;
    for (int d = 0; d < SW_DUCTS; d++) state->duct_k[d] = f->duct_k[d];
    state->gap_kg_s = f->gap_flow.kg_s;
    state->gap_out_k = f->gap_flow.out_k;
    state->transmitted_w = f->transmitted;
    state->glass_w = f->glass;
    state->shell_w = f->shell;
    state->gap_w = f->gap;
    state->below_w = f->below;
    state->useful_w = f->transmitted + f->glass + f->shell + f->gap + f->below;
    state->flue_w = f->flue;
    state->stored_w = stored_w;
    state->residual_w = net->now.heat_w - state->useful_w - state->flue_w - stored_w;
    state->residual_worst_w = settled.worst_w;
    state->rounds = settled.rounds;
}

static const char *node_name(const sw_heat_net *net, size_t node)
{
    static const char *const gases[SW_GAS_NODES] = {"gas below the baffle", "gas above the baffle", "air in the gap",
                                                    "bed of embers"};
    return node < net->solids ? net->scene->parts[net->part_of[node]].name : gases[node - net->solids];
}

static const char *node_side(const sw_heat_net *net, size_t node)
{
    if (node >= net->solids || !net->scene->parts[net->part_of[node]].layered) return "";
    return node == net->hot[net->part_of[node]] ? ", hot side" : ", cold side";
}

static sw_status judge(sw_run *run, const sw_heat_net *net, const sw_heat_state *state, net_settled settled)
{
    static const double node_w = 0.1, whole_share = 1e-3;
    double whole_w = fmax(whole_share * net->now.heat_w, node_w);
    if (fabs(settled.worst_w) <= node_w && fabs(state->residual_w) <= whole_w && isfinite(state->flue_k)) return SW_OK;
    return sw_fail(run, SW_NO_SOLUTION, (sw_place){0}, "heat",
                   "temperatures not settled after %d rounds: %.3g W left at %s%s (want %g), %.3g W over the whole of "
                   "%.4g W; nothing of it is a result",
                   settled.rounds, settled.worst_w, node_name(net, settled.worst), node_side(net, settled.worst),
                   node_w, state->residual_w, net->now.heat_w);
}

static const double fine_w = 1e-4; /* aimed at in every node, so that a solver around sees a smooth answer */

sw_status sw_heat_net_steady(sw_run *run, sw_heat_net *net, const sw_heat_fire *fire, const sw_heat_room *room,
                             sw_heat_state *state)
{
    net_settled settled;
    SW_TRY(begin(run, net, fire, room, state));
    net_newton(net, 0, net->nodes, fine_w, &settled);
    tell(net, 0, settled, state);
    return judge(run, net, state, settled);
}

sw_status sw_heat_net_flux(sw_run *run, sw_heat_net *net, const sw_heat_fire *fire, const sw_heat_room *room,
                           sw_heat_state *state, double *flux_w)
{
    net_settled settled;
    double stored_w = 0;
    SW_TRY(begin(run, net, fire, room, state));
    net_newton(net, net->solids, SW_GAS_NODES, fine_w, &settled);
    net_outside(net, false);
    for (size_t i = 0; i < net->nodes; i++) flux_w[i] = i < net->solids ? net->R[i] : 0;
    for (size_t i = 0; i < net->solids; i++) stored_w += flux_w[i];
    tell(net, stored_w, settled, state);
    return judge(run, net, state, settled);
}

void sw_heat_net_flux_slope(sw_heat_net *net, double *slope)
{
    enum { G = SW_GAS_NODES };
    size_t n = net->solids, pivot[G];
    double gas[G * G], follow[G];
    net_inside(net, true);
    net_outside(net, true);
    for (size_t i = 0; i < G; i++)
        for (size_t j = 0; j < G; j++) gas[i * G + j] = *net_jacobian(net, n + i, n + j);
    bool settles = sw_lu(gas, G, G, pivot);
    for (size_t j = 0; j < n; j++) {
        for (size_t g = 0; g < G; g++) follow[g] = *net_jacobian(net, n + g, j);
        if (settles) sw_lu_solve(gas, G, G, pivot, follow);
        for (size_t i = 0; i < n; i++) {
            double sum = *net_jacobian(net, i, j);
            for (size_t g = 0; settles && g < G; g++) sum -= *net_jacobian(net, i, n + g) * follow[g];
            slope[i * n + j] = sum;
        }
    }
}
