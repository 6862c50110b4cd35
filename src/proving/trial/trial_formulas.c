/* trial_formulas.c: losses, efficiency and gas flow by the indirect method. */
#include "proving/trial/trial_parts.h"

#include <math.h>

/* EN 13240:2001 annex A (from memory; within 1 % of NIST's Shomate functions: test), kJ/(m3n K), x = t_a/1000, CO2 in %:
 *   C_pmd = 3.6 {0.361 + 0.008 x + 0.034 x2 + (0.085 + 0.19 x - 0.14 x2) CO2/100 + (0.03 x - 0.2 x2) (CO2/100)2}
 * The short form of burning/fire leaves the last term out: less than 0.02 %. */
double sw_trial_cp_dry(double flue_k, double co2_dry)
{
    double x = sw_c_from_k(flue_k) / TRIAL_KILO, y = co2_dry;
    double c_pmd = 3.6 * (0.361 + 0.008 * x + 0.034 * x * x + (0.085 + 0.19 * x - 0.14 * x * x) * y +
                          (0.03 * x - 0.2 * x * x) * y * y);
    return TRIAL_KILO * c_pmd;
}

/* C_pmH2O = 3.6 {0.414 + 0.038 x + 0.034 x2}, same source. */
double sw_trial_cp_water(double flue_k)
{
    double x = sw_c_from_k(flue_k) / TRIAL_KILO;
    return TRIAL_KILO * 3.6 * (0.414 + 0.038 * x + 0.034 * x * x);
}

static bool can_be(const sw_trial_wood *w, const sw_trial_gas *g)
{
    return w->c > 0 && w->c <= 1 && w->h >= 0 && w->h <= 1 && w->moisture >= 0 && w->moisture < 1 && w->lhv > 0 &&
           g->co2_dry >= 0 && g->co_dry >= 0 && g->co2_dry + g->co_dry > 0 && g->residue_c >= 0 && g->residue_c <= w->c;
}

/* EN 13240:2001 annex A.6.2 (from memory); shares instead of %, J and kg:
 *   V = (C - C_r)/[0.536 (CO2 + CO)]      Q_a = (t_a - t_r) {C_pmd V + C_pmH2O 1.244 (9 H + W)}      Q_b = 12 644 kJ CO V
 *   m = 1.3 V + 9 H + W */
sw_trial_losses sw_trial_losses_of(const sw_trial_wood *wood, const sw_trial_gas *gas)
{
    sw_trial_losses l = {0};
    double water = 9 * wood->h + wood->moisture;
    double V = can_be(wood, gas) ? (wood->c - gas->residue_c) / (0.536 * (gas->co2_dry + gas->co_dry)) : (double)NAN;
    l.cp_dry = sw_trial_cp_dry(gas->flue_k, gas->co2_dry);
    l.cp_water = sw_trial_cp_water(gas->flue_k);
    l.dry_m3n = V;
    l.sensible_j = (gas->flue_k - gas->room_k) * (l.cp_dry * V + l.cp_water * 1.244 * water);
    l.co_j = TRIAL_KILO * 12644 * gas->co_dry * V;
    l.sensible = l.sensible_j / wood->lhv;
    l.co = l.co_j / wood->lhv;
    l.residue = gas->residue_j / wood->lhv;
    l.efficiency = 1 - l.sensible - l.co - l.residue;
    l.gas_kg = 1.3 * V + water;
    return l;
}

/* A1 (t_a - t_r)/CO2, A1 = 0.650 % per K and % of CO2 for dry wood: a page of formulas (seen). */
double sw_trial_siegert(double flue_k, double room_k, double co2_dry)
{
    return co2_dry > 0 ? 0.650 * (flue_k - room_k) / (100 * co2_dry) / 100 : (double)NAN;
}

/* CO2 = CO2max (1 - O2/20.95): stoichiometry. */
double sw_trial_co2_of_o2(double o2_dry, double co2_max)
{
    return o2_dry >= 0 && o2_dry < TRIAL_AIR_O2 ? co2_max * (1 - o2_dry / TRIAL_AIR_O2) : (double)NAN;
}

/* H_u = H_dry (1 - W) - 2443 kJ/kg W: heat of vaporisation at 25 degC (from memory). */
double sw_trial_lhv(double lhv_dry, double moisture)
{
    if (!(lhv_dry > 0 && moisture >= 0 && moisture < 1)) return NAN;
    return lhv_dry * (1 - moisture) - 2443 * TRIAL_KILO * moisture;
}

/* ---- emissions ---- */

const char *sw_emission_name(sw_emission which)
{
    static const char *const names[] = {"CO", "OGC", "NOx", "PM"};
    return (size_t)which < SW_EMISSIONS ? names[which] : "?";
}

/* c = ppm M/22.414: molar masses of CO 28.010, NO2 46.0055, carbon 12.011 (CIAAW); OGC read as propane, three atoms of
 * carbon. Units: Regulation (EU) 2015/1185 annex I (seen). */
double sw_emission_mg_m3n(sw_emission which, double share)
{
    static const double kg_kmol[] = {28.010, 3 * 12.011, 46.0055, (double)NAN};
    if ((size_t)which >= SW_EMISSIONS || !(share >= 0 && share <= 1)) return NAN;
    return TRIAL_MEGA * share * kg_kmol[which] / TRIAL_M3N;
}

/* 21 is the usual constant of the standards (from memory); with 20.95 it is 0.2 % less. */
double sw_emission_at_13(double mg_m3n, double o2_dry)
{
    return o2_dry >= 0 && o2_dry < 0.2095 ? mg_m3n * (0.21 - 0.13) / (0.21 - o2_dry) : (double)NAN;
}

/* CO2 at 13 % O2 is 7.760 % in gas of the reference wood, all its carbon as CO2: 10.0996 m3n/kg for C 42 %. In proportion to
 * the carbon for other woods, whose CO2max is within 0.1 point (docs/studies/trial.md). */
double sw_trial_dry_m3n_at_13(double c)
{
    return c > 0 && c <= 1 ? c / (12.011 / TRIAL_M3N * 0.07760) : (double)NAN;
}

/* BS PD 6434: 5 g/h (seen) and 0.1 g/h for every 0.3 kW (from memory). */
double sw_trial_smoke_limit_g_h(double output_w, double base_g_h)
{
    return base_g_h + 0.1 * output_w / (0.3 * TRIAL_KILO);
}
