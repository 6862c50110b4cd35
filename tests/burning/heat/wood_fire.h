/* wood_fire.h: a steady wood fire as the heat network takes it, for tests and benchmarks. */
#ifndef SW_TESTS_WOOD_FIRE_H
#define SW_TESTS_WOOD_FIRE_H

#include "burning/heat/heat.h"

/* Gas of beech logs at excess air 2.2 (handbook E1): 7.0 g/s for 9 kW. */
static inline sw_heat_fire wood_fire(double heat_w)
{
    static const double share[SW_GASES] = {
        [SW_GAS_N2] = 0.7262, [SW_GAS_O2] = 0.1050, [SW_GAS_CO2] = 0.0842, [SW_GAS_H2O] = 0.0846};
    sw_heat_fire f = {.heat_w = heat_w, .air_kg_s = 6.4e-3 * heat_w / 9000, .gas_kg_s = 7.0e-3 * heat_w / 9000};
    f.air_k = sw_k_from_c(20);
    f.p_h2o_bar = 1.01325 * share[SW_GAS_H2O];
    f.p_co2_bar = 1.01325 * share[SW_GAS_CO2];
    for (int g = 0; g < SW_GASES; g++) f.gas.kmol[g] = share[g] / 29.04;
    return f;
}

#endif
