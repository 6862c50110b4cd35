/* net_flux.c: heat into every node at given temperatures, and how it changes with them.
 *
 * Radiation and conduction have their exact derivatives; of films the change of h with its temperature difference is taken by
 * its usual power, of the gas's emissivity and the linings' conductivity none: they steer Newton, never the balance. */
#include "burning/heat/net_parts.h"

#include <math.h>
#include <string.h>

static const double free_power = 0.29; /* d ln h/d ln dT, between 1/4 and 1/3 */

double *net_jacobian(sw_heat_net *net, size_t row, size_t column)
{
    return &net->J[row * (net->nodes + 1) + column];
}

/* ---- radiation ---------------------------------------------------------------------------------------------- */

static void emit(sw_heat_net *net)
{
    for (size_t i = 0; i <= net->nodes; i++) {
        double t = i == net->nodes ? net->room.walls_k : net->x[i];
        net->E[i] = SW_STEFAN_BOLTZMANN * t * t * t * t;
        net->dE[i] = 4 * net->E[i] / t;
    }
    net_panes_emit(net);
}

/* A pane has its own terms with everybody. */
static void exchange_one(sw_heat_net *net, const net_enclosure *e, size_t a, bool with_jacobian)
{
    size_t i = e->source[a];
    const double *G = &e->G[a * e->bodies];
    double into = 0;
    for (size_t b = 0; b < a; b++) {
        size_t j = e->source[b];
        bool pane = net->glass[i] || net->glass[j];
        const double *E = pane ? net->Ea : net->E, *dE = pane ? net->dEa : net->dE;
        double q = G[b] * (E[j] - E[i]);
        into += q;
        net->R[j] -= q;
        if (!with_jacobian) continue;
        *net_jacobian(net, i, j) += G[b] * dE[j];
        *net_jacobian(net, i, i) -= G[b] * dE[i];
        *net_jacobian(net, j, i) += G[b] * dE[i];
        *net_jacobian(net, j, j) -= G[b] * dE[j];
    }
    net->R[i] += into;
}

static void exchange(sw_heat_net *net, const net_enclosure *e, bool with_jacobian)
{
    for (size_t a = 1; a < e->bodies; a++) exchange_one(net, e, a, with_jacobian);
}

/* What bodies of an enclosure radiate to the room around. */
static void count_room(sw_heat_net *net, const net_enclosure *e)
{
    if (e->room >= e->bodies) return;
    const double *G = &e->G[e->room * e->bodies];
    for (size_t b = 0; b < e->bodies; b++) {
        size_t i = e->source[b];
        const double *E = net->glass[i] ? net->Ea : net->E;
        double q = G[b] * (E[i] - E[net->nodes]);
        if (i >= net->solids) {
            net->flows.shell += q;
            continue;
        }
        net->flows.below += net->floor_share[i] * q;
        *(net->glass[i] ? &net->flows.glass : &net->flows.shell) += (1 - net->floor_share[i]) * q;
    }
}

/* ---- films --------------------------------------------------------------------------------------------------- */

static double inside_h(const sw_heat_net *net, const net_film *f, double driven, double gas_k, double *steer)
{
    double free = net_film_free(net, f, net->x[f->node], gas_k);
    double f3 = free * free * free, h3 = f3 + driven * driven * driven;
    *steer = h3 > 0 ? 1 + free_power * f3 / h3 : 1;
    return net->model.inside_h_factor * cbrt(h3);
}

/* gives the space's film conductance, W/K */
static double wash_inside(sw_heat_net *net, sw_medium medium, size_t gas, bool with_jacobian)
{
    double gas_k = net->x[gas], driven = net_film_driven(net, medium, gas_k), sum_w_k = 0;
    const net_films *films = &net->films[medium];
    for (size_t i = 0; i < films->count; i++) {
        const net_film *f = &films->items[i];
        double steer, w_k = f->area_m2 * inside_h(net, f, driven, gas_k, &steer);
        double q = w_k * (gas_k - net->x[f->node]);
        sum_w_k += w_k;
        net->R[f->node] += q;
        net->R[gas] -= q;
        if (!with_jacobian) continue;
        *net_jacobian(net, f->node, f->node) -= w_k * steer;
        *net_jacobian(net, f->node, gas) += w_k * steer;
        *net_jacobian(net, gas, f->node) += w_k * steer;
        *net_jacobian(net, gas, gas) -= w_k * steer;
    }
    return sum_w_k;
}

static void wash_room(sw_heat_net *net, bool with_jacobian)
{
    const net_films *films = &net->films[SW_MEDIUM_ROOM];
    for (size_t i = 0; i < films->count; i++) {
        const net_film *f = &films->items[i];
        bool floor = f->floor_m > 0;
        double h = net_film_free(net, f, net->x[f->node], net->room.air_k) * (floor ? 1 : net->model.outside_h_factor);
        double q = h * f->area_m2 * (net->x[f->node] - net->room.air_k);
        net->R[f->node] -= q;
        *(floor ? &net->flows.below : net->glass[f->node] ? &net->flows.glass : &net->flows.shell) += q;
        if (with_jacobian) *net_jacobian(net, f->node, f->node) -= h * f->area_m2 * (floor ? 1 : 1 + free_power);
    }
}

/* ---- gap ------------------------------------------------------------------------------------------------------- */

typedef struct gap_air {                                                 /* by steps of height */
    double mean_k[NET_GAP_STEPS], by_wall[NET_GAP_STEPS][NET_GAP_STEPS]; /* by_wall[c][b]: of step b by the wall of c */
} gap_air;

static void gap_walls(const sw_heat_net *net, double wall_k[NET_GAP_STEPS])
{
    const net_films *films = &net->films[SW_MEDIUM_GAP];
    for (int k = 0; k < NET_GAP_STEPS; k++) wall_k[k] = 0;
    for (size_t i = 0; i < films->count; i++)
        for (int k = 0; k < NET_GAP_STEPS; k++)
            if (net->gap_step_m2[k] > 0)
                wall_k[k] += net->gap_share[i * NET_GAP_STEPS + (size_t)k] * films->items[i].area_m2 /
                             net->gap_step_m2[k] * net->x[films->items[i].node];
}

/* Of one flow: air that warms on its way up; still air is as warm everywhere. Sets the flow's outlet. */
static void fill_air(const sw_heat_net *net, net_gap_flow *gap, bool with_jacobian, gap_air *air)
{
    double w_k[NET_GAP_STEPS], wall_k[NET_GAP_STEPS], unit[NET_GAP_STEPS] = {0}, out_k;
    double flow_w_k = gap->kg_s * sw_air_at(net_held(gap->mean_k, 200, 1500)).cp;
    bool flows = flow_w_k > 0;
    gap_walls(net, wall_k);
    for (int k = 0; k < NET_GAP_STEPS; k++) w_k[k] = gap->h * net->gap_step_m2[k], air->mean_k[k] = gap->mean_k;
    if (flows) net_gap_march(NET_GAP_STEPS, flow_w_k, w_k, wall_k, net->room.air_k, air->mean_k, &gap->out_k);
    for (int c = 0; with_jacobian && c < NET_GAP_STEPS; c++) {
        for (int k = 0; k < NET_GAP_STEPS; k++)
            air->by_wall[c][k] = gap->mean_by_wall * net->gap_step_m2[c] / net->gap_area_m2;
        unit[c] = 1;
        if (flows) net_gap_march(NET_GAP_STEPS, flow_w_k, w_k, unit, 0, air->by_wall[c], &out_k);
        unit[c] = 0;
    }
}

/* Change of the air at film i for all films' nodes. */
static void steer_gap(sw_heat_net *net, const gap_air *air, size_t i, double w_k)
{
    const net_films *films = &net->films[SW_MEDIUM_GAP];
    const double *own = &net->gap_share[i * NET_GAP_STEPS];
    double by_step[NET_GAP_STEPS] = {0};
    for (int c = 0; c < NET_GAP_STEPS; c++)
        for (int k = 0; k < NET_GAP_STEPS && net->gap_step_m2[c] > 0; k++)
            by_step[c] += own[k] * air->by_wall[c][k] / net->gap_step_m2[c];
    for (size_t j = 0; j < films->count; j++) {
        double by = -free_power / net->gap_area_m2;
        for (int c = 0; c < NET_GAP_STEPS; c++)
            by += (1 + free_power) * by_step[c] * net->gap_share[j * NET_GAP_STEPS + (size_t)c];
        *net_jacobian(net, films->items[i].node, films->items[j].node) += w_k * by * films->items[j].area_m2;
    }
}

static void wash_gap(sw_heat_net *net, bool with_jacobian)
{
    const net_films *films = &net->films[SW_MEDIUM_GAP];
    gap_air air;
    double wall_k = 0;
    for (size_t i = 0; i < films->count; i++) wall_k += films->items[i].area_m2 * net->x[films->items[i].node];
    bool open = net->gap_area_m2 > 0; /* ducts may have all of it */
    wall_k = open ? wall_k / net->gap_area_m2 : net->room.air_k;
    net_gap_flow gap = net_gap_at(net, wall_k, net->room.air_k, net->gap_kg_s);
    if (open) fill_air(net, &gap, with_jacobian, &air);
    net->gap_kg_s = gap.kg_s;
    net->flows.gap_flow = gap;
    net->x[sw_heat_net_gas(net, SW_GAS_GAP)] = gap.out_k;
    for (size_t i = 0; open && i < films->count; i++) {
        const net_film *f = &films->items[i];
        double w_k = gap.h * f->area_m2, air_k = 0;
        for (int k = 0; k < NET_GAP_STEPS; k++) air_k += net->gap_share[i * NET_GAP_STEPS + (size_t)k] * air.mean_k[k];
        double q = w_k * (net->x[f->node] - air_k);
        net->R[f->node] -= q;
        net->flows.gap += q;
        if (!with_jacobian) continue;
        *net_jacobian(net, f->node, f->node) -= w_k;
        steer_gap(net, &air, i, w_k);
    }
}

/* ---- conduction -------------------------------------------------------------------------------------------------- */

static void conduct(sw_heat_net *net, bool with_jacobian)
{
    for (size_t i = 0; i < net->link_count; i++) {
        const net_link *l = &net->links[i];
        double g = net_link_w_k(net, l, net->x[l->a], net->x[l->b]);
        double q = g * (net->x[l->a] - net->x[l->b]);
        net->R[l->a] -= q;
        net->R[l->b] += q;
        if (!with_jacobian) continue;
        *net_jacobian(net, l->a, l->a) -= g;
        *net_jacobian(net, l->a, l->b) += g;
        *net_jacobian(net, l->b, l->a) += g;
        *net_jacobian(net, l->b, l->b) -= g;
    }
}

/* Over ways in the sheets. */
static void conduct_spread(sw_heat_net *net, bool with_jacobian)
{
    size_t n = net->spread != NULL ? net->solids : 0;
    for (size_t i = 0; i < n; i++) {
        const double *row = &net->spread[i * (n + 2)];
        for (size_t j = 0; j < n + 2; j++) net->R[i] -= row[j] * (net->x[j] - net->room.air_k);
        for (size_t j = 0; with_jacobian && j < n + 2; j++) *net_jacobian(net, i, j) -= row[j];
    }
}

/* A part that nothing touches and nothing sees has the room's temperature: a millionth of a watt over 1000 K. */
static void leak(sw_heat_net *net, bool with_jacobian)
{
    static const double w_k = 1e-9;
    for (size_t i = 0; i < net->solids; i++) {
        net->R[i] += w_k * (net->room.air_k - net->x[i]);
        if (with_jacobian) *net_jacobian(net, i, i) -= w_k;
    }
}

/* ---- both halves ------------------------------------------------------------------------------------------------- */

static double gas_radiation_w_k(const sw_heat_net *net, const net_enclosure *e, size_t gas)
{
    double sum = 0;
    for (size_t b = 0; e->gas < e->bodies && b < e->bodies; b++)
        if (b != e->gas) sum += e->G[e->gas * e->bodies + b];
    return sum * net->dE[gas];
}

void net_inside(sw_heat_net *net, bool with_jacobian)
{
    size_t below = sw_heat_net_gas(net, SW_GAS_FIREBOX), above = sw_heat_net_gas(net, SW_GAS_UPPER), n = net->nodes + 1;
    memset(net->R, 0, n * sizeof *net->R);
    if (with_jacobian) memset(net->J, 0, n * n * sizeof *net->J);
    net->flows = (net_flows){0};
    double fire_e, upper_e;
    net_gas_emissivities(net, net->x, &fire_e, &upper_e);
    net_exchange_at(&net->fire, fire_e);
    net_exchange_at(&net->upper, upper_e);
    emit(net);
    exchange(net, &net->fire, with_jacobian);
    exchange(net, &net->upper, with_jacobian);
    net_panes_pass(net, with_jacobian);
    net->below_w_k = wash_inside(net, SW_MEDIUM_FIRE, below, with_jacobian);
    net->below_w_k += gas_radiation_w_k(net, &net->fire, below);
    net->above_w_k = wash_inside(net, SW_MEDIUM_UPPER, above, with_jacobian);
    net->above_w_k += gas_radiation_w_k(net, &net->upper, above);
    net_bed_balance(net, with_jacobian);
    net_ducts_balance(net, with_jacobian);
    net_gas_balance(net, with_jacobian);
    static const double gas_leak_w_k = 1e-9; /* a space without gas and walls keeps its last temperature */
    for (int g = 0; with_jacobian && g < SW_GAS_NODES; g++) {
        size_t i = sw_heat_net_gas(net, g);
        *net_jacobian(net, i, i) -= g == SW_GAS_GAP ? 1 : gas_leak_w_k;
    }
}

void net_outside(sw_heat_net *net, bool with_jacobian)
{
    exchange(net, &net->outer, with_jacobian);
    count_room(net, &net->fire);
    count_room(net, &net->upper);
    count_room(net, &net->outer);
    wash_room(net, with_jacobian);
    wash_gap(net, with_jacobian);
    conduct(net, with_jacobian);
    conduct_spread(net, with_jacobian);
    leak(net, with_jacobian);
}
