/* gas.c: air and flue gas of complete combustion by balance of moles, and what a gas sample tells.
 *
 * Source: first principles. kmol per kg of fuel as fired:
 *   n_O2,min = C/12.011 + H/4.032 + S/32.06 - O/31.998      n_air,min = n_O2,min/0.2095 */
#include "burning/fire/fire_parts.h"

#include <math.h>

static const double lambda_most = 20, humidity_most = 0.2;

double fire_o2_min_kmol(const fire_elements *e)
{
    return e->c / FIRE_C + e->h / (4 * FIRE_H) + e->s / FIRE_S - e->o / (2 * FIRE_O);
}

sw_mixture fire_products(const fire_elements *e, double air_kmol, double humidity)
{
    sw_mixture m = {{0}};
    m.kmol[SW_GAS_CO2] = e->c / FIRE_C + e->s / FIRE_S;
    m.kmol[SW_GAS_O2] = FIRE_AIR_O2 * air_kmol - fire_o2_min_kmol(e);
    m.kmol[SW_GAS_N2] = FIRE_AIR_N2 * air_kmol + e->n / (2 * FIRE_N);
    m.kmol[SW_GAS_H2O] = e->h / (2 * FIRE_H) + e->water / FIRE_W + humidity * air_kmol;
    return m;
}

/* Magnus where it holds, to 60 degC; above, Antoine (1..100 degC), which is 0.1 K higher where they meet:
 *   log10(p/mmHg) = 8.07131 - 1730.63/(233.426 + t)     source: Dortmund data bank set (from memory) */
static double dew_point_k(double p_pa)
{
    double k = sw_dew_point_k(p_pa);
    if (!isnan(k) || !(p_pa > 15e3 && p_pa <= FIRE_ATM)) return k;
    return sw_k_from_c(1730.63 / (8.07131 - log10(p_pa / 133.322)) - 233.426);
}

static double dry_kmol(const sw_mixture *wet)
{
    return sw_mixture_kmol(wet) - wet->kmol[SW_GAS_H2O];
}

static sw_fire_gas no_gas(double lambda)
{
    sw_fire_gas g = {.lambda = lambda};
    for (size_t i = 0; i < SW_GASES; i++) g.wet.kmol[i] = NAN;
    g.air_min_kg = g.air_kg = g.gas_kg = g.dry_m3n = g.wet_m3n = NAN;
    g.co2_dry = g.o2_dry = g.co2_max_dry = g.h2o_wet = g.dew_point_k = g.lhv = NAN;
    return g;
}

sw_fire_gas sw_fire_gas_of(const sw_fuel *fuel, double lambda, double humidity)
{
    fire_elements e = fire_elements_of(fuel);
    double least_kmol = fire_o2_min_kmol(&e) / FIRE_AIR_O2;
    if (!(lambda >= 1 && lambda <= lambda_most && humidity >= 0 && humidity <= humidity_most && least_kmol > 0))
        return no_gas(lambda);
    double air_kmol = lambda * least_kmol;
    sw_fire_gas g = {.lambda = lambda, .wet = fire_products(&e, air_kmol, humidity), .lhv = sw_fuel_lhv(fuel)};
    if (lambda == 1) g.wet.kmol[SW_GAS_O2] = 0; /* else a rounding away from it */
    sw_mixture least = fire_products(&e, least_kmol, 0);
    double wet = sw_mixture_kmol(&g.wet), dry = dry_kmol(&g.wet);
    g.air_min_kg = least_kmol * FIRE_AIR;
    g.air_kg = air_kmol * FIRE_AIR;
    g.gas_kg = g.air_kg * (1 + humidity * FIRE_W / FIRE_AIR) + 1 - e.ash;
    g.dry_m3n = dry * FIRE_M3N;
    g.wet_m3n = wet * FIRE_M3N;
    g.co2_dry = g.wet.kmol[SW_GAS_CO2] / dry;
    g.o2_dry = g.wet.kmol[SW_GAS_O2] / dry;
    g.co2_max_dry = least.kmol[SW_GAS_CO2] / dry_kmol(&least);
    g.h2o_wet = g.wet.kmol[SW_GAS_H2O] / wet;
    g.dew_point_k = dew_point_k(g.h2o_wet * FIRE_ATM);
    return g;
}

/* Dry gas per air at lambda 1; the moisture does not matter. */
static double gas_by_air(const sw_fuel *fuel, double *co2_max)
{
    sw_fuel dry = *fuel;
    dry.moisture = 0;
    sw_fire_gas g = sw_fire_gas_of(&dry, 1, 0);
    *co2_max = g.co2_max_dry;
    return g.dry_m3n / (g.air_kg / FIRE_AIR * FIRE_M3N);
}

/* lambda = 1 + k O2/(0.2095 - O2), k = V_dry,min/V_air,min */
double sw_fire_lambda_from_o2(const sw_fuel *fuel, double o2_dry)
{
    double co2_max, k = gas_by_air(fuel, &co2_max);
    return o2_dry >= 0 && o2_dry < FIRE_AIR_O2 ? 1 + k * o2_dry / (FIRE_AIR_O2 - o2_dry) : (double)NAN;
}

/* lambda = 1 + k (CO2max/CO2 - 1) */
double sw_fire_lambda_from_co2(const sw_fuel *fuel, double co2_dry)
{
    double co2_max, k = gas_by_air(fuel, &co2_max);
    return co2_dry > 0 && co2_dry <= co2_max * (1 + 1e-12) ? 1 + k * (co2_max / co2_dry - 1) : (double)NAN;
}

double sw_fire_at_reference_o2(double value, double o2_dry, double reference_o2)
{
    if (!(o2_dry >= 0 && o2_dry < FIRE_AIR_O2 && reference_o2 >= 0 && reference_o2 < FIRE_AIR_O2)) return NAN;
    return value * (FIRE_AIR_O2 - reference_o2) / (FIRE_AIR_O2 - o2_dry);
}

double sw_fire_co_mg_m3n(double co_share)
{
    return fire_per_million(co_share * FIRE_CO / FIRE_M3N);
}

double sw_fire_dry_m3n(const sw_fuel *fuel, double o2_dry)
{
    double least_m3n = sw_fire_gas_of(fuel, 1, 0).dry_m3n; /* each further m3n of air adds itself */
    return o2_dry >= 0 && o2_dry < FIRE_AIR_O2 ? least_m3n * FIRE_AIR_O2 / (FIRE_AIR_O2 - o2_dry) : (double)NAN;
}

double sw_fire_mg_mj(const sw_fuel *fuel, double mg_m3n, double reference_o2)
{
    return mg_m3n * sw_fire_dry_m3n(fuel, reference_o2) / (sw_fuel_lhv(fuel) / FIRE_MEGA);
}

double sw_air_humidity(double room_k, double relative)
{
    if (!(relative >= 0 && relative <= 1)) return NAN;
    double p_pa = relative * sw_water_pressure_pa(room_k);
    return p_pa < FIRE_ATM ? p_pa / (FIRE_ATM - p_pa) : (double)NAN;
}
