/* net_gas.c: heat balances of the gas below and above the baffle.
 *
 * Below, the node is the mean that radiates and washes. Between two limits (Hottel & Sarofim, Radiative Transfer, 1967, chapter on
 * furnaces, from memory): stirred, the gas leaves at its mean; passing along, each part of it cools by itself. With
 * N = (film and radiation, W/K)/(m c_p) and walls at one temperature the second leaves at T_w + (T_in - T_w) e^-N while its
 * mean is T_w + (T_in - T_w)(1 - e^-N)/N, so that
 *   T_out = T - r (T_in - T),  r = (M - e^-N)/(1 - M),  M = (1 - e^-N)/N
 * r goes from 1 (little is given off: the mean of both ends) to 0. Between the limits, with c the constant `passing_share`,
 *   (T - T_out)/(T_in - T_out) = c r/(1 + r),  T_out = T - c r/(1 + (1 - c) r) (T_in - T)
 * in heats instead of temperatures; so never colder than the walls, but for what c_p changes on the way. Above the baffle
 * c = 1. What burns on the embers leaves them as warm as they are: 11.5 kg of air for each kg of char (handbook F3.1), a thin
 * bed has no other way to hand on its heat than this, radiation and film.
 *
 * Emissivity: Leckner 1972 over the mean beam 3.6 V/A, with the flame's soot below the baffle. Heat counts from the room's air. */
#include "burning/heat/net_parts.h"

#include <math.h>

static const double coldest_k = 200, hottest_k = 3500; /* of the gas polynomials; beyond, straight on */

static double gas_heat(const sw_heat_net *net, double t_k) /* J/kg over the room's air */
{
    double t = net_held(t_k, coldest_k, hottest_k);
    double heat = sw_mixture_heat_j(&net->now.gas, net->room.air_k, t);
    return t == t_k ? heat : heat + sw_mixture_cp_j_k(&net->now.gas, t) * (t_k - t);
}

static double gas_cp(const sw_heat_net *net, double t_k)
{
    return sw_mixture_cp_j_k(&net->now.gas, net_held(t_k, coldest_k, hottest_k));
}

static double air_heat_w(const sw_heat_net *net)
{
    double mean_k = 0.5 * (net->now.air_k + net->room.air_k);
    return net->now.air_kg_s * sw_air_at(mean_k).cp * (net->now.air_k - net->room.air_k);
}

static double space_emissivity(const sw_heat_net *net, double gas_k, double volume_m3, double area_m2, double soot_1_m)
{
    static const double least_k = 400, most_k = 3000;
    if (!(volume_m3 > 0) || !(area_m2 > 0)) return 0;
    double beam_m = sw_mean_beam_m(volume_m3, area_m2);
    sw_gas_path path = {net->now.p_h2o_bar, net->now.p_co2_bar, 1.01325, beam_m};
    double gas = sw_leckner(path, net_held(gas_k, least_k, most_k));
    return sw_emissivity_both(isfinite(gas) ? gas : 0, sw_soot_emissivity(soot_1_m, beam_m));
}

void net_gas_emissivities(const sw_heat_net *net, const double *x, double *fire, double *upper)
{
    const sw_scene *s = net->scene;
    *fire = space_emissivity(net, x[sw_heat_net_gas(net, SW_GAS_FIREBOX)], s->firebox_m3, s->firebox_m2,
                             net->model.soot_k_1_m);
    *upper = space_emissivity(net, x[sw_heat_net_gas(net, SW_GAS_UPPER)], s->upper_m3, s->upper_m2, 0);
}

/* r of the opening comment, c of the way passing. */
static double exit_share(double n, double passing)
{
    double share = sw_passing_share(n, passing);
    return share / (1 - share);
}

static void no_gas(sw_heat_net *net)
{
    size_t above = sw_heat_net_gas(net, SW_GAS_UPPER);
    net->R[above] += (1 - net->flame_share) * net->now.heat_w;
    net->flows.flue = 0;
    net->flows.flue_k = net->x[above];
    net->flows.leaving_k = net->x[sw_heat_net_gas(net, SW_GAS_FIREBOX)];
}

/* Where a stream of m kg/s that enters at in_k and has the mean t_k leaves, if it cools along its way; *r of the comment. */
static double exit_k(const sw_heat_net *net, double w_k, double in_k, double t_k, double *r)
{
    *r = exit_share(w_k / (net->now.gas_kg_s * gas_cp(net, t_k)), 1);
    return t_k - *r * (in_k - t_k);
}

static double heated_k(const sw_heat_net *net, double from_k, double heat_w)
{
    double m = net->now.gas_kg_s, rough_k = from_k + heat_w / (m * gas_cp(net, from_k));
    return from_k + heat_w / (m * gas_cp(net, 0.5 * (from_k + rough_k)));
}

/* What the gas below the baffle has before it gives any off, and with which it leaves; W over the room's air. */
typedef struct passing {
    double in_w, out_w, r;       /* r: out = mean - r (in - mean) */
    double embers_w, embers_w_k; /* of in_w: from the embers; how it changes with them */
} passing;

static passing pass_below(const sw_heat_net *net)
{
    static const double gas_kg = 12.5, char_j_kg = 32.8e6; /* of gas for a kg of char; handbook F3.1 */
    double m = net->now.gas_kg_s, mean_k = net->x[sw_heat_net_gas(net, SW_GAS_FIREBOX)];
    double bed_k = net->x[sw_heat_net_gas(net, SW_GAS_BED)], heat_w = net->flame_share * net->now.heat_w;
    double bed_w = net->bed.cover > 0 ? net->model.bed_share * heat_w : 0;
    double ember_kg_s = fmin(net->model.ember_gas_share * gas_kg * bed_w / char_j_kg, m);
    double n = net->below_w_k / (m * gas_cp(net, mean_k));
    passing p = {.embers_w = ember_kg_s * gas_heat(net, bed_k), .embers_w_k = ember_kg_s * gas_cp(net, bed_k)};
    p.in_w = air_heat_w(net) + net->flows.preheat_w + heat_w - bed_w + p.embers_w;
    p.r = exit_share(n, net->model.passing_share);
    double mean_w = m * gas_heat(net, mean_k);
    p.out_w = mean_w - p.r * (p.in_w - mean_w);
    return p;
}

/* Where the gas has so much heat: Newton, to rounding. */
static double gas_k_of(const sw_heat_net *net, double heat_j_kg, double guess_k)
{
    double t_k = guess_k;
    for (int round = 0; round < 8; round++) {
        double step_k = (heat_j_kg - gas_heat(net, t_k)) / gas_cp(net, t_k);
        t_k += step_k;
        if (fabs(step_k) < 1e-9) break;
    }
    return t_k;
}

static void steer(sw_heat_net *net, const passing *p, double out_k, double r)
{
    size_t below = sw_heat_net_gas(net, SW_GAS_FIREBOX), above = sw_heat_net_gas(net, SW_GAS_UPPER);
    size_t bed = sw_heat_net_gas(net, SW_GAS_BED);
    double m = net->now.gas_kg_s, cp_out = gas_cp(net, out_k), cp_passed = gas_cp(net, net->flows.leaving_k);
    double by_mean = (1 + p->r) * m * gas_cp(net, net->x[below]), by_bed = -p->r * p->embers_w_k; /* of out_w */
    double on = 1 + cp_out * r / cp_passed;
    *net_jacobian(net, below, below) -= by_mean;
    *net_jacobian(net, below, bed) += p->embers_w_k - by_bed;
    *net_jacobian(net, bed, bed) -= p->embers_w_k;
    *net_jacobian(net, above, below) += by_mean * on;
    *net_jacobian(net, above, bed) += by_bed * on;
    *net_jacobian(net, above, above) -= m * cp_out * (1 + r);
    for (size_t i = 0; i < net->solids;
         i++) { /* more heat at its start: the mean the same, it leaves that much colder */
        if (!(net->by_duct[i] > 0)) continue;
        *net_jacobian(net, below, i) += p->r * net->by_duct[i];
        *net_jacobian(net, above, i) -= p->r * net->by_duct[i] * on;
    }
}

void net_gas_balance(sw_heat_net *net, bool with_jacobian)
{
    size_t below = sw_heat_net_gas(net, SW_GAS_FIREBOX), above = sw_heat_net_gas(net, SW_GAS_UPPER);
    double m = net->now.gas_kg_s, late_w = (1 - net->flame_share) * net->now.heat_w, air_w = air_heat_w(net), r;
    if (!(m > 1e-9)) {
        no_gas(net);
        return;
    }
    passing p = pass_below(net);
    double passed_k = gas_k_of(net, p.out_w / m, net->x[below]);
    double out_k = exit_k(net, net->above_w_k, heated_k(net, passed_k, late_w), net->x[above], &r);
    double flue_w = m * gas_heat(net, out_k);
    net->R[sw_heat_net_gas(net, SW_GAS_BED)] -= p.embers_w;
    net->R[below] += air_w + p.embers_w - p.out_w;
    net->R[above] += late_w + p.out_w - flue_w;
    net->flows.flue = flue_w - air_w;
    net->flows.flue_k = out_k;
    net->flows.leaving_k = passed_k;
    net->flows.entering_k = gas_k_of(net, p.in_w / m, net->x[below]);
    if (with_jacobian) steer(net, &p, out_k, r);
}
