/* flue_laws.c: transport properties, friction, heat transfer and draught as EN 13384-1 has them. */
#include "siting/flue/flue_parts.h"

#include <math.h>

static const double least_re = 2300; /* cl. 5.8.3.2 (from memory): slower gas counts as this fast */
static const double most_ratio = 3;  /* of psi to psi_smooth */

/* EN 13384-1 annex (from memory), t in degC: 0.0223 + 0.000065 t; 6 to 9 % below dry air from 0 to 400 degC */
double sw_flue_conductivity(double t_k)
{
    return 0.0223 + 0.000065 * sw_c_from_k(t_k);
}

/* the same: 15e-6 + 47e-9 t - 20e-12 t2 */
double sw_flue_viscosity(double t_k)
{
    double t_c = sw_c_from_k(t_k);
    return 15e-6 + t_c * (47e-9 - 20e-12 * t_c);
}

/* Colebrook and White with 3.71, as EN 13384-1 prints it (from memory). Newton on x = 1/sqrt(psi), nearly a straight line. */
double sw_flue_colebrook(double re, double roughness_by_d)
{
    double x = 5, used = re > least_re ? re : least_re;
    for (int round = 0; round < 50; round++) {
        double inner = 2.51 * x / used + roughness_by_d / 3.71;
        double step = (x + 2 * log10(inner)) / (1 + 2 / log(10.0) * (2.51 / used) / inner);
        x -= step;
        if (fabs(step) <= 1e-12 * x) return 1 / (x * x);
        if (!(x > 0)) x = 0.1;
    }
    return NAN;
}

/* Nu = (psi/psi_s)^0.67 0.0214 (Re^0.8 - 100) Pr^0.4 (1 + (D/L)^0.67): EN 13384-1 cl. 5.8.3.2 (from memory); 2300 < Re < 1e7,
 * psi/psi_s < 3, 0.6 < Pr < 1.5 */
double sw_flue_nusselt(double re, double pr, double psi, double psi_smooth, double d_by_length)
{
    double used = re > least_re ? re : least_re, ratio = psi / psi_smooth < most_ratio ? psi / psi_smooth : most_ratio;
    return pow(ratio, 0.67) * 0.0214 * (pow(used, 0.8) - 100) * pow(pr, 0.4) * (1 + pow(d_by_length, 0.67));
}

/* P_H = H g (rho_L - rho_m): EN 13384-1 cl. 5.10.2 (from memory) */
double sw_flue_draught_pa(double height_m, double outside, double inside)
{
    return height_m * FLUE_GRAVITY * (outside - inside);
}

/* Borda and Carnot (from memory): (1 - A1/A2)^2 */
double sw_flue_zeta_widening(double area_1_m2, double area_2_m2)
{
    double left = 1 - area_1_m2 / area_2_m2;
    return left * left;
}

/* Physics, with dry air of 287.05 J/(kg K): handbook S3.1 */
double sw_flue_standing_pa(double height_m, double outside_k, double shaft_k, double pressure_pa)
{
    return height_m * FLUE_GRAVITY * pressure_pa / 287.05 * (1 / outside_k - 1 / shaft_k);
}

/* T_iob = T_ob - k_ob/alpha_i (T_ob - T_uo): GOST R 59978.2-2022 table 2 (seen) */
double sw_flue_wall_k(double gas_k, double around_k, double inner_h, double k)
{
    return gas_k - k / inner_h * (gas_k - around_k);
}
