/* loss.c: where the heat of the fuel goes when it does not go into the room, and how hot a flame could get. */
#include "burning/fire/fire_parts.h"

#include <math.h>

/* The short formulas, form of EN 13240:2001 annex A (from memory; against enthalpies: test). C, H, W shares of the fuel as
 * fired in %, CO2, CO vol-% dry, x = t_a/1000 with t_a in degC, kJ per kg of fuel, no carbon in the residue:
 *   c_pd = 3.6 [0.361 + 0.008 x + 0.034 x2 + (0.085 + 0.19 x - 0.14 x2) CO2/100]      kJ/(m3n K)
 *   c_pw = 3.6 [0.414 + 0.038 x + 0.034 x2]
 *   Q_a  = (t_a - t_r) {c_pd C/[0.536 (CO2 + CO)] + c_pw 1.244 (9 H + W)/100}
 *   Q_b  = 12 644 CO C/[0.536 (CO2 + CO) 100] */
sw_fire_short sw_fire_short_losses(const sw_fuel *fuel, double co2_dry, double co_dry, double flue_k, double room_k)
{
    fire_elements e = fire_elements_of(fuel);
    double C = 100 * e.c, H = 100 * e.h, W = 100 * e.water, CO2 = 100 * co2_dry, CO = 100 * co_dry;
    double x = sw_c_from_k(flue_k) / FIRE_KILO;
    double c_pd = 3.6 * (0.361 + 0.008 * x + 0.034 * x * x + (0.085 + 0.19 * x - 0.14 * x * x) * CO2 / 100);
    double c_pw = 3.6 * (0.414 + 0.038 * x + 0.034 * x * x);
    double dry_m3n = CO2 + CO > 0 ? C / (0.536 * (CO2 + CO)) : (double)NAN;
    double Q_a = (flue_k - room_k) * (c_pd * dry_m3n + c_pw * 1.244 * (9 * H + W) / 100);
    double Q_b = 12644 * CO * dry_m3n / 100;
    return (sw_fire_short){.cp_dry = FIRE_KILO * c_pd,
                           .cp_water = FIRE_KILO * c_pw,
                           .sensible_j = FIRE_KILO * Q_a,
                           .co_j = FIRE_KILO * Q_b};
}

/* Q_r = 335 b R/100 kJ/kg, b and R in %: combustible share of the residue, residue of the fuel. Same source. */
double sw_fire_residue_j(double combustible, double residue)
{
    return FIRE_KILO * 335 * (100 * combustible) * (100 * residue) / 100;
}

/* CO of the dry gas, J per kg fuel: n of it makes half a mole more dry gas. */
static double co_loss_j(const sw_fire_gas *gas, double co_dry)
{
    double n_kmol = co_dry * (gas->dry_m3n / FIRE_M3N) / (1 - co_dry / 2);
    return FIRE_KILO * FIRE_CO_J_MOL * n_kmol;
}

sw_fire_losses sw_fire_losses_at(const sw_fuel *fuel, const sw_fire_gas *gas, double flue_k, double room_k,
                                 double co_dry, double residue_share)
{
    if (!(co_dry >= 0 && co_dry <= gas->co2_dry)) co_dry = NAN;
    sw_fire_losses l = {.residue = residue_share, .standard_residue = residue_share};
    l.sensible = sw_mixture_heat_j(&gas->wet, room_k, flue_k) / gas->lhv;
    l.co = co_loss_j(gas, co_dry) / gas->lhv;
    l.efficiency = 1 - l.sensible - l.co - l.residue;
    sw_fire_short s = sw_fire_short_losses(fuel, gas->co2_dry - co_dry, co_dry, flue_k, room_k);
    l.standard_sensible = s.sensible_j / gas->lhv;
    l.standard_co = s.co_j / gas->lhv;
    l.standard_efficiency = 1 - l.standard_sensible - l.standard_co - l.standard_residue;
    return l;
}

double sw_fire_flame_k(const sw_fuel *fuel, double lambda, double air_k)
{
    sw_fire_gas g = sw_fire_gas_of(fuel, lambda, 0);
    double air_kmol = g.air_kg / FIRE_AIR, reference_k = fire_reference_k();
    sw_mixture air = {{[SW_GAS_O2] = FIRE_AIR_O2 * air_kmol, [SW_GAS_N2] = FIRE_AIR_N2 * air_kmol}};
    double brought_j = sw_mixture_heat_j(&air, reference_k, air_k);
    return sw_mixture_temperature_k(&g.wet, sw_mixture_enthalpy_j(&g.wet, reference_k) + g.lhv + brought_j);
}

/* B = P t_b/(LHV eta): an energy balance, in the form of EN 13240 annex A (from memory). */
double sw_fire_batch_kg(double output_w, double refuel_s, double lhv, double efficiency)
{
    if (!(output_w >= 0 && refuel_s >= 0 && lhv > 0 && efficiency > 0 && efficiency <= 1)) return NAN;
    return output_w * refuel_s / (lhv * efficiency);
}
