/* net_gas.c: heat balances of the gas below and above the baffle.
 *
 * Below it is well stirred: heat set free (net_bed.c shares it out) and air in, gas out at its own temperature (Hottel &
 * Sarofim 1967, one gas zone). Emissivity: Leckner 1972 over the mean beam 3.6 V/A, with the flame's soot below the baffle.
 *
 * Above it the gas passes along: with N = (film and radiation, W/K)/(m c_p) and walls at one temperature it leaves at
 * T_w + (T_in - T_w) e^-N while its mean is T_w + (T_in - T_w)(1 - e^-N)/N. The node is that mean; so
 *   T_out = T_u - r (T_in - T_u),  r = (M - e^-N)/(1 - M),  M = (1 - e^-N)/N
 * r goes from 1 (little is given off: the mean of both ends) to 0. Heat counts from the room's air. */
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

/* r of the opening comment. */
static double exit_share(double n)
{
    if (n < 1e-3) return 1 - n / 3;
    double left = exp(-n), mean = -expm1(-n) / n;
    return (mean - left) / (1 - mean);
}

static void no_gas(sw_heat_net *net)
{
    size_t above = sw_heat_net_gas(net, SW_GAS_UPPER);
    net->R[above] += (1 - net->flame_share) * net->now.heat_w;
    net->flows.flue = 0;
    net->flows.flue_k = net->x[above];
}

/* Where a stream of m kg/s that enters at in_k and has the mean t_k leaves, if it cools along its way; *r of the comment. */
static double exit_k(const sw_heat_net *net, double w_k, double in_k, double t_k, double *r)
{
    *r = exit_share(w_k / (net->now.gas_kg_s * gas_cp(net, t_k)));
    return t_k - *r * (in_k - t_k);
}

static double heated_k(const sw_heat_net *net, double from_k, double heat_w)
{
    double m = net->now.gas_kg_s, rough_k = from_k + heat_w / (m * gas_cp(net, from_k));
    return from_k + heat_w / (m * gas_cp(net, 0.5 * (from_k + rough_k)));
}

void net_gas_balance(sw_heat_net *net, bool with_jacobian)
{
    size_t below = sw_heat_net_gas(net, SW_GAS_FIREBOX), above = sw_heat_net_gas(net, SW_GAS_UPPER);
    size_t stride = net->nodes + 1;
    double m = net->now.gas_kg_s, late_w = (1 - net->flame_share) * net->now.heat_w;
    if (!(m > 1e-9)) {
        no_gas(net);
        return;
    }
    double r, passed_k = net->x[below];
    double out_k = exit_k(net, net->above_w_k, heated_k(net, passed_k, late_w), net->x[above], &r);
    double passed_w = m * gas_heat(net, passed_k), flue_w = m * gas_heat(net, out_k), air_w = air_heat_w(net);
    net->R[below] += air_w - passed_w;
    net->R[above] += late_w + passed_w - flue_w;
    net->flows.flue = flue_w - air_w;
    net->flows.flue_k = out_k;
    if (!with_jacobian) return;
    double passed = m * gas_cp(net, passed_k), cp_out = gas_cp(net, out_k);
    net->J[below * stride + below] -= passed;
    net->J[above * stride + below] += passed + m * cp_out * r;
    net->J[above * stride + above] -= m * cp_out * (1 + r);
}
