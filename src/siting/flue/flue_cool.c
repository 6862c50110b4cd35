/* flue_cool.c: how the gas cools in one stretch of pipe or chimney: EN 13384-1 cl. 5.8 (from memory), handbook S1.6. */
#include "siting/flue/flue_parts.h"

#include <math.h>

static const double settled_k = 1e-8, least_re = 2300;
static const double joint_k = 1e-3; /* where two published sets of c_p meet, the mean may jump so far for ever */
enum { ROUNDS = 60, PATIENCE = 20 };

/* What depends on Re alone, kept while Re stays below the clamp: psi, psi_smooth and Nu at Pr 1. */
static void set_friction(const sw_flue_duct *d, sw_flue_line *l, double re, double *nu_pr_1)
{
    double used = re > least_re ? re : least_re, before = l->re > least_re ? l->re : least_re;
    l->re = re;
    if (l->psi > 0 && used == before) return;
    l->psi = sw_flue_colebrook(used, d->roughness_m / d->hydraulic_m);
    l->psi_smooth = sw_flue_colebrook(used, 0);
    *nu_pr_1 = sw_flue_nusselt(used, 1, l->psi, l->psi_smooth, d->hydraulic_m / d->whole_m);
}

/* Every property at the mean temperature t_k.
 *   k = 1/(1/alpha_i + S_H [(1/Lambda) + D_h/(D_ha alpha_a)]),  K = U k L/(m c_p) */
static void set_at(const sw_flue_duct *d, const sw_flue_gas *gas, double kg_s, double pressure_pa, double t_k,
                   sw_flue_line *l, double *nu_pr_1)
{
    l->cp = sw_flue_cp(gas, t_k);
    l->conductivity = sw_flue_conductivity(t_k);
    l->viscosity = sw_flue_viscosity(t_k);
    l->density = pressure_pa / (gas->gas_constant * t_k);
    l->velocity_m_s = kg_s / (d->area_m2 * l->density);
    l->pr = l->viscosity * l->cp / l->conductivity;
    set_friction(d, l, l->velocity_m_s * d->hydraulic_m * l->density / l->viscosity, nu_pr_1);
    l->nu = *nu_pr_1 * pow(l->pr, 0.4);
    l->inner_h = l->conductivity * l->nu / d->hydraulic_m;
    l->k = 1 / (1 / l->inner_h + d->s_h * (l->resistance + d->hydraulic_m / (d->outer_m * l->outer_h)));
    l->K = kg_s > 0 ? d->perimeter_m * l->k * d->length_m / (kg_s * l->cp) : (double)INFINITY;
}

/* T_m = T_u + (T_e - T_u) (1 - exp(-K))/K */
static double mean_of(const sw_flue_line *l)
{
    double share = l->K > 0 ? -expm1(-l->K) / l->K : 1;
    return l->around_k + (l->entry_k - l->around_k) * share;
}

/* The wall at equilibrium (S_H 1). */
static void set_wall(const sw_flue_duct *d, sw_flue_line *l)
{
    double k = 1 / (1 / l->inner_h + l->resistance + d->hydraulic_m / (d->outer_m * l->outer_h));
    l->wall_k = sw_flue_wall_k(l->exit_k, l->around_k, l->inner_h, k);
    l->wall_entry_k = sw_flue_wall_k(l->entry_k, l->around_k, l->inner_h, k);
}

sw_flue_line sw_flue_cool(const sw_flue_duct *d, const sw_flue_gas *gas, double kg_s, double entry_k,
                          double pressure_pa)
{
    sw_flue_line l = {.entry_k = entry_k, .around_k = d->around_k, .outer_h = d->outer_h, .resistance = d->resistance};
    double t_k = kg_s > 0 ? entry_k : d->around_k, nu_pr_1 = 0;
    for (int round = 0; round < ROUNDS; round++) {
        set_at(d, gas, kg_s > 0 ? kg_s : 0, pressure_pa, t_k, &l, &nu_pr_1);
        l.mean_k = mean_of(&l);
        l.exit_k = l.around_k + (entry_k - l.around_k) * exp(-l.K);
        set_wall(d, &l);
        if (fabs(l.mean_k - t_k) <= (round < PATIENCE ? settled_k : joint_k)) return l;
        t_k = l.mean_k;
    }
    l.mean_k = l.exit_k = l.wall_k = NAN;
    return l;
}
