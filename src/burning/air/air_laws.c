/* air_laws.c: density, buoyancy of legs, openings in series. */
#include "burning/air/air.h"

#include <math.h>

static const double standard_pa = 101325.0;
static const double air_kg_mol = 0.028965; /* ISO 2533; the gas of wood at lambda 2 weighs 0.1 % less */

/* rho = p M/(R T), ideal gas. */
double sw_air_density(double t_k)
{
    return t_k > 0 ? standard_pa * air_kg_mol / (SW_GAS_CONSTANT * t_k) : (double)NAN;
}

/* dp = g h (rho_ref - rho): hydrostatics, first principles. Positive for hot gas above the lower end. */
double sw_air_leg_pa(double height_m, double reference_k, double inside_k)
{
    return SW_GRAVITY * height_m * (sw_air_density(reference_k) - sw_air_density(inside_k));
}

/* m = cd A sqrt(2 rho dp), incompressible orifice (Bernoulli), turned round. */
double sw_air_area_m2(double kg_s, double cd, double density, double pressure_pa)
{
    double flux = cd * sqrt(2 * density * pressure_pa);
    return flux > 0 ? kg_s / flux : (double)NAN;
}

/* dp1 + dp2 = m2/(2 rho cd2) (1/A1_2 + 1/A2_2). */
double sw_air_series_m2(double first_m2, double second_m2)
{
    if (first_m2 == 0 || second_m2 == 0) return 0;
    return first_m2 / hypot(1, first_m2 / second_m2);
}

/* dp = 1.75 (1 - e)/e^3 L/d rho v^2, v ahead of the bed: Ergun, Chem. Eng. Prog. 48 (1952) 89, from memory. The viscous term
 * is below a tenth of it for embers. */
double sw_bed_loss(double depth_m, double piece_m, double voids)
{
    if (!(depth_m >= 0) || !(piece_m > 0) || !(voids > 0 && voids < 1)) return NAN;
    return 2 * 1.75 * (1 - voids) / (voids * voids * voids) * depth_m / piece_m;
}
