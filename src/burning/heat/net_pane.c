/* net_pane.c: panes, which let part of the fire's radiation through.
 *
 * With K = G/e_p, G the exchange area of the pane's face with a body as if the pane took e_p = 1 - reflected of all (its bands
 * reflect nearly alike), body b and pane exchange twice:
 *   with the pane itself      K (a(T_b) sigma T_b^4 - a(T_p) sigma T_p^4)
 *   with the room through it  K (t(T_b) sigma T_b^4 - t(T_r) sigma T_r^4)
 * a and t: absorbed and let through of a black source, by bands (transfer's pane.c). So each source keeps its own spectrum,
 * also after reflections at grey walls, and nothing flows where all are equally warm. What passes meets what the outer face
 * sees: the room, and perhaps a second pane, which takes its share. Shares are tabled every 10 K, straight between: below
 * 1e-4 off. */
#include "burning/heat/net_parts.h"

#include <math.h>

static const double first_k = 200, row_k = 10, reference_k = 1000;

static size_t body_at(const net_enclosure *e, size_t node)
{
    size_t b = 0;
    while (b < e->bodies && e->source[b] != node) b++;
    return b;
}

static void fill_tables(sw_heat_net *net)
{
    const sw_pane *pane = sw_pane_clear();
    net->pane_e = sw_pane_transmitted(pane, reference_k) + sw_pane_absorbed(pane, reference_k);
    for (size_t i = 0; i < NET_PANE_ROWS; i++) {
        double t_k = first_k + row_k * (double)i;
        net->pane_absorbs[i] = sw_pane_absorbed(pane, t_k) / net->pane_e;
        net->pane_passes[i] = sw_pane_transmitted(pane, t_k) / net->pane_e;
    }
}

sw_status net_panes_make(sw_run *run, sw_heat_net *net)
{
    fill_tables(net);
    SW_TRY(net_exchange_make(run, net));
    net->panes = SW_KEEP(run, net->solids + 1, net_pane);
    if (net->panes == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < net->solids; i++) {
        if (!net->glass[i]) continue;
        net_pane p = {i, body_at(&net->fire, i), body_at(&net->outer, i)};
        net->panes[net->pane_count++] = p;
    }
    return SW_OK;
}

/* Share of E from a table, and its derivative. */
static double share_of(const double *table, double t_k, double E, double dE, double *derivative)
{
    double s = net_held((t_k - first_k) / row_k, 0, NET_PANE_ROWS - 1);
    size_t i = s >= NET_PANE_ROWS - 1 ? NET_PANE_ROWS - 2 : (size_t)s;
    double slope = table[i + 1] - table[i], share = table[i] + slope * (s - (double)i);
    *derivative = share * dE + slope / row_k * E;
    return share * E;
}

void net_panes_emit(sw_heat_net *net)
{
    if (net->pane_count == 0) return;
    for (size_t i = 0; i <= net->nodes; i++) {
        double t_k = i == net->nodes ? net->room.walls_k : net->x[i];
        net->Ea[i] = share_of(net->pane_absorbs, t_k, net->E[i], net->dE[i], &net->dEa[i]);
        net->Et[i] = share_of(net->pane_passes, t_k, net->E[i], net->dE[i], &net->dEt[i]);
    }
}

static void shift(sw_heat_net *net, size_t row, size_t column, double by)
{
    net->J[row * (net->nodes + 1) + column] += by;
}

/* From every body before the pane to one target behind it. */
static void pass_to(sw_heat_net *net, const net_pane *p, size_t target, double share, bool with_jacobian)
{
    const net_enclosure *e = &net->fire;
    const double *G = &e->G[p->inside * e->bodies];
    for (size_t b = 0; b < e->bodies; b++) {
        size_t j = e->source[b];
        if (b == p->inside || j == net->nodes) continue;
        double g = share * G[b], q = g * (net->Et[j] - net->Et[net->nodes]);
        net->R[j] -= q;
        net->R[target] += q;
        if (target == net->nodes) net->flows.transmitted += q;
        if (!with_jacobian) continue;
        shift(net, j, j, -g * net->dEt[j]);
        shift(net, target, j, g * net->dEt[j]);
    }
}

/* Of what meets another pane behind, as much goes on as a source as hot as the fire's gas would send through. */
static double passed_on(const sw_heat_net *net)
{
    size_t gas = sw_heat_net_gas(net, SW_GAS_FIREBOX);
    return net->Et[gas] / (net->Ea[gas] + net->Et[gas]);
}

static void pass_one(sw_heat_net *net, const net_pane *p, bool with_jacobian)
{
    const net_enclosure *out = &net->outer;
    double sum = 0, to_room = 1;
    if (p->inside >= net->fire.bodies) return;
    for (size_t b = 0; p->outside < out->bodies && b < out->bodies; b++)
        if (b != p->outside) sum += out->G[p->outside * out->bodies + b];
    for (size_t b = 0; sum > 0 && b < out->bodies; b++) {
        size_t j = out->source[b];
        if (b == p->outside || j == net->nodes) continue;
        double share = out->G[p->outside * out->bodies + b] / sum;
        if (net->glass[j]) share *= 1 - passed_on(net);
        if (share > 0) pass_to(net, p, j, share, with_jacobian);
        to_room -= share;
    }
    pass_to(net, p, net->nodes, to_room, with_jacobian);
}

void net_panes_pass(sw_heat_net *net, bool with_jacobian)
{
    for (size_t i = 0; i < net->pane_count; i++) pass_one(net, &net->panes[i], with_jacobian);
}
