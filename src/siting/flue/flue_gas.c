/* flue_gas.c: the gas of a wood stove and the air outside, by EN 13384-1 and stoichiometry. */
#include "siting/flue/flue_parts.h"

#include <math.h>

/* EN 13384-1 (from memory) takes 9.81 where the standard value is 9.80665: 0.03 % */
static const double air_constant = 288, pressure_at_sea_pa = 97000, molar_j_kmol_k = 8314.46;
static const double carbon_kg_kmol = 12.011, hydrogen_kg_kmol = 2.016, oxygen_kg_kmol = 31.998, water_kg_kmol = 18.015;
static const double nitrogen_by_oxygen = 79.05 / 20.95; /* air: 20.95 % O2, the rest "atmospheric nitrogen" */
static const double nitrogen_kg_kmol = 28.150;
static const double humidity = 0.011; /* of the combustion air, added to the share of water: cl. 5.7.6 (from memory) */

sw_flue_wood sw_flue_wood_reference(void)
{
    return (sw_flue_wood){.c = 0.42, .h = 0.0504, .o = 0.3654, .water = 0.16, .lhv = 15065e3};
}

/* EN 13384-1 cl. 5.5 (from memory) for flow and temperature; the need: ours. */
sw_flue_appliance sw_flue_lowest(const sw_flue_appliance *nominal)
{
    sw_flue_appliance low = *nominal;
    low.kg_s = nominal->kg_s / 3;
    low.t_k = sw_k_from_c(2.0 / 3 * sw_c_from_k(nominal->t_k));
    low.need_pa = nominal->need_pa / 9;
    low.declared = false;
    return low;
}

bool sw_flue_declared(const sw_house *h, sw_flue_appliance *nominal)
{
    *nominal = (sw_flue_appliance){h->declared_kg_s,    h->declared_k,   h->declared_pa,
                                   h->declared_most_pa, h->declared_co2, .declared = true};
    return !isnan(h->declared_kg_s + h->declared_k + h->declared_pa + h->declared_co2);
}

/* Textbook combustion, handbook S1.2:
 *   n_s = (n_C/x - n_C + n_O2)/4.77327 of oxygen; products CO2 n_C, H2O n_H2O, O2 n_s - n_O2, N2 3.77327 n_s */
sw_flue_gas sw_flue_gas_of(const sw_flue_wood *wood, double co2_dry)
{
    double n_c = wood->c / carbon_kg_kmol, n_h2o = wood->h / hydrogen_kg_kmol + wood->water / water_kg_kmol;
    double n_o2 = n_c + wood->h / (2 * hydrogen_kg_kmol) - wood->o / oxygen_kg_kmol;
    double n_s = (n_c / co2_dry - n_c + n_o2) / (1 + nitrogen_by_oxygen), n_n2 = nitrogen_by_oxygen * n_s;
    double dry = n_c + n_s - n_o2 + n_n2;
    sw_flue_gas gas = {.co2_dry = co2_dry, .lambda = n_s / n_o2, .co2_max = n_c / (n_c + nitrogen_by_oxygen * n_o2)};
    gas.air_kg_per_kg = n_s * oxygen_kg_kmol + n_n2 * nitrogen_kg_kmol;
    gas.kg_per_kg = n_c * (carbon_kg_kmol + oxygen_kg_kmol) + n_h2o * water_kg_kmol + (n_s - n_o2) * oxygen_kg_kmol +
                    n_n2 * nitrogen_kg_kmol;
    gas.h2o_wet = n_h2o / (dry + n_h2o) + humidity;
    double water = dry * gas.h2o_wet / (1 - gas.h2o_wet);
    gas.wet.kmol[SW_GAS_CO2] = n_c;
    gas.wet.kmol[SW_GAS_O2] = n_s - n_o2;
    gas.wet.kmol[SW_GAS_N2] = n_n2;
    gas.wet.kmol[SW_GAS_H2O] = water;
    gas.wet_kg = gas.kg_per_kg + (water - n_h2o) * water_kg_kmol;
    gas.gas_constant = molar_j_kmol_k * (dry + water) / gas.wet_kg;
    return gas;
}

/* Air to `air` kg a kg of gas raises the oxygen supplied in proportion to the air there was; its own humidity counts as the
 * combustion air's. Physics. */
sw_flue_gas sw_flue_gas_thinned(const sw_flue_wood *wood, const sw_flue_gas *gas, double air)
{
    double more = 1 + air * gas->kg_per_kg / gas->air_kg_per_kg, n_c = wood->c / carbon_kg_kmol;
    double n_o2 = n_c + wood->h / (2 * hydrogen_kg_kmol) - wood->o / oxygen_kg_kmol;
    double by_carbon = (1 + nitrogen_by_oxygen) * gas->lambda * n_o2 * more + n_c - n_o2;
    return sw_flue_gas_of(wood, n_c / by_carbon);
}

/* m c_p (T - T_air) before and after, each c_p at the middle of its range. Physics; a first guess and ten rounds. */
double sw_flue_mixed_k(const sw_flue_gas *gas, const sw_flue_gas *thinned, double air, double gas_k, double air_k)
{
    enum { ROUNDS = 10 };
    double given = sw_flue_cp(gas, 0.5 * (gas_k + air_k)) * (gas_k - air_k), t_k = air_k + (gas_k - air_k) / (1 + air);
    for (int i = 0; air > 0 && i < ROUNDS; i++) {
        double next_k = air_k + given / ((1 + air) * sw_flue_cp(thinned, 0.5 * (t_k + air_k)));
        bool settled = fabs(next_k - t_k) < 1e-9;
        t_k = next_k;
        if (settled) break;
    }
    return air > 0 ? t_k : gas_k;
}

/* Steam, NIST Chemistry WebBook, 500 to 1700 K, as the handbook S1.2 uses it down to 298 K (at 373 K 0.1 % off steam tables). */
static double steam_cp_j_mol_k(double t_k)
{
    double t = t_k / 1e3;
    return 30.09200 + t * (6.832514 + t * (6.793435 - t * 2.534480)) + 0.082139 / (t * t);
}

/* Shomate sets of matter; below 298 K, where that of CO2 ends, held. */
double sw_flue_cp(const sw_flue_gas *gas, double t_k)
{
    static const double least_k = 298;
    static const sw_gas dry[] = {SW_GAS_N2, SW_GAS_O2, SW_GAS_CO2};
    double used_k = t_k > least_k ? t_k : least_k, sum = gas->wet.kmol[SW_GAS_H2O] * steam_cp_j_mol_k(used_k);
    for (int i = 0; i < 3; i++) sum += gas->wet.kmol[dry[i]] * sw_gas_cp_shomate_j_mol_k(dry[i], used_k);
    return 1e3 * sum / gas->wet_kg;
}

/* EN 13384-1 cl. 5.7.2, p = 97 000 exp(-g z/(R T)) (from memory) */
double sw_flue_air_pressure_pa(double altitude_m, double t_k)
{
    return pressure_at_sea_pa * exp(-FLUE_GRAVITY * altitude_m / (air_constant * t_k));
}

double sw_flue_air_density(double pressure_pa, double t_k)
{
    return pressure_pa / (air_constant * t_k);
}

/* EN 13384-1 cl. 5.7.6 (from memory); for wood no rise for acid (Hungarian notice 2020). 0 degC, where the formula for water
 * ends, is the least. */
double sw_flue_dew_point_k(double h2o_wet, double pressure_pa)
{
    double p_d = h2o_wet * pressure_pa;
    if (!(p_d > 0)) return NAN;
    return sw_k_from_c(4077.9 / (23.6448 - log(p_d)) - 236.67);
}
