/* fuel.c: heating values and what a kg of wood as fired consists of. */
#include "burning/fire/fire_parts.h"

#include <math.h>

double sw_moisture_dry_basis(double moisture)
{
    return moisture >= 0 && moisture < 1 ? moisture / (1 - moisture) : (double)NAN;
}

fire_elements fire_elements_of(const sw_fuel *fuel)
{
    double w = fuel->moisture;
    if (!(w >= 0 && w <= FIRE_MOISTURE_MOST)) w = NAN;
    double dry = 1 - w, daf = (1 - fuel->ash) * dry;
    return (fire_elements){.c = fuel->c * daf,
                           .h = fuel->h * daf,
                           .o = fuel->o * daf,
                           .n = fuel->n * daf,
                           .s = fuel->s * daf,
                           .water = w,
                           .ash = fuel->ash * dry};
}

/* Gross heating value, MJ/kg dry, shares in % of dry mass:
 *   HHV_d = 0.3491 C + 1.1783 H + 0.1005 S - 0.1034 O - 0.0151 N - 0.0211 A
 * Source: Channiwala & Parikh, Fuel 81 (2002) 1051-1063 (from memory); C 0..92 %, H 0.43..25 %, O 0..50 %, A 0..71 %,
 * mean error 1.5 %. */
double sw_fuel_hhv_dry(const sw_fuel *fuel)
{
    double daf = 1 - fuel->ash, C = 100 * fuel->c * daf, H = 100 * fuel->h * daf, O = 100 * fuel->o * daf;
    double N = 100 * fuel->n * daf, S = 100 * fuel->s * daf, A = 100 * fuel->ash;
    if (!(C >= 0 && C <= 92 && H >= 0.43 && H <= 25 && O >= 0 && O <= 50 && A >= 0 && A <= 71)) return NAN;
    return FIRE_MEGA * (0.3491 * C + 1.1783 * H + 0.1005 * S - 0.1034 * O - 0.0151 * N - 0.0211 * A);
}

/* LHV_d = HHV_d - 2.443 8.936 H_d, MJ/kg, H_d share of dry mass: ISO 18125, constant pressure (from memory). */
double sw_fuel_lhv_dry(const sw_fuel *fuel)
{
    if (!isnan(fuel->lhv_dry)) return fuel->lhv_dry;
    return sw_fuel_hhv_dry(fuel) - FIRE_EVAPORATION * FIRE_WATER_PER_H * fuel->h * (1 - fuel->ash);
}

/* LHV_ar = LHV_d (1 - w) - 2.443 w, MJ/kg: ISO 18125 (from memory). */
double sw_fuel_lhv(const sw_fuel *fuel)
{
    double w = fuel->moisture;
    if (!(w >= 0 && w <= FIRE_MOISTURE_MOST)) return NAN;
    return sw_fuel_lhv_dry(fuel) * (1 - w) - FIRE_EVAPORATION * w;
}
