/* burn_fire.c: from fuel and air to the gas and the heat that the network of parts is given. */
#include "burning/burn/burn_parts.h"

#include <math.h>

static const double residue_share = 0.005; /* of LHV: EN 16510-1 for logs where it is not measured (from memory) */
static const double reference_o2 = 0.13, air_o2 = 0.2095;
static const double lambda_most = 20; /* beyond, the gas is taken as that thin: air with a little flue gas */

static double part_per_million(double ppm)
{
    return ppm * 1e-6;
}

/* CO is measured at 13 % oxygen; in the gas itself there is as much more as it is less diluted. */
static double co_share(const sw_burn_options *opt, double o2_dry)
{
    double share = part_per_million(opt->co_ppm13) * (air_o2 - o2_dry) / (air_o2 - reference_o2);
    return share > 0 ? share : 0;
}

static sw_mixture per_kg(const sw_mixture *of, double kg)
{
    sw_mixture m = *of;
    for (size_t i = 0; i < SW_GASES; i++) m.kmol[i] /= kg;
    return m;
}

void burn_fire_of(const sw_burn *b, double fuel_kg_s, double air_kg_s, double flue_k, double room_k,
                  sw_burn_point *point)
{
    double least_kg = sw_fire_gas_of(&b->fuel, 1, b->humidity).air_kg;
    double lambda = fuel_kg_s > 0 ? air_kg_s / (fuel_kg_s * least_kg) : lambda_most;
    point->fuel_kg_s = fuel_kg_s;
    point->lambda = lambda;
    point->gas = sw_fire_gas_of(&b->fuel, fmin(fmax(lambda, 1), lambda_most), b->humidity);
    const sw_fire_gas *gas = &point->gas;
    double lhv = gas->lhv, burnt = fmin(lambda, 1); /* starved: the rest leaves unburnt */
    sw_fire_losses losses =
        sw_fire_losses_at(&b->fuel, gas, flue_k, room_k, co_share(&b->opt, gas->o2_dry), residue_share);
    point->fuel_w = fuel_kg_s * lhv;
    double wet_kmol = sw_mixture_kmol(&gas->wet), one_bar = 1.01325;
    point->fire = (sw_heat_fire){.heat_w = point->fuel_w * burnt * (1 - losses.co - losses.residue),
                                 .air_kg_s = air_kg_s,
                                 .gas_kg_s = air_kg_s + fuel_kg_s * (gas->gas_kg - gas->air_kg),
                                 .air_k = room_k,
                                 .gas = per_kg(&gas->wet, gas->gas_kg),
                                 .p_h2o_bar = one_bar * gas->wet.kmol[SW_GAS_H2O] / wet_kmol,
                                 .p_co2_bar = one_bar * gas->wet.kmol[SW_GAS_CO2] / wet_kmol};
}
