/* ducts.c: friction and heat transfer of forced flow, flow through openings. Friction factors are Darcy's. */
#include "transfer/transfer.h"

#include <math.h>

static bool within(double x, double low, double high)
{
    return x >= low && x <= high;
}

/* Hagen-Poiseuille, round duct. */
double sw_friction_laminar(double re)
{
    return re > 0 ? 64 / re : (double)NAN;
}

static double power_16(double x)
{
    double x4 = x * x * x * x;
    return x4 * x4 * x4 * x4;
}

/* Churchill, Chem. Eng. 84 (1977) 91, all regimes: f = 8 [(8/Re)^12 + (A + B)^-1.5]^(1/12),
 *   A = {-2.457 ln[(7/Re)^0.9 + 0.27 eps/D]}^16, B = (37530/Re)^16 */
double sw_friction_churchill(double re, double roughness)
{
    if (!(re > 0) || !(roughness >= 0)) return NAN;
    double AB = power_16(2.457 * log(pow(7 / re, 0.9) + 0.27 * roughness)) + power_16(37530 / re);
    double slow_3 = 8 / re * (8 / re) * (8 / re), slow_12 = slow_3 * slow_3 * slow_3 * slow_3;
    return 8 * pow(slow_12 + 1 / (AB * sqrt(AB)), 1.0 / 12);
}

/* Colebrook 1939: 1/sqrt f = -2 log10(eps/(3.7 D) + 2.51/(Re sqrt f)); Newton on x = 1/sqrt f, whose function is nearly a
 * straight line. */
double sw_friction_colebrook(double re, double roughness)
{
    if (!(re >= 4000) || !within(roughness, 0.0, 0.1)) return NAN;
    double x = 6;
    for (int round = 0; round < 50; round++) {
        double inner = roughness / 3.7 + 2.51 * x / re;
        double step = (x + 2 * log10(inner)) / (1 + 2 / log(10.0) * (2.51 / re) / inner);
        x -= step;
        if (fabs(step) <= 1e-13 * x) return 1 / (x * x);
        if (!(x > 0)) x = 0.1;
    }
    return NAN;
}

/* Petukhov 1970, from memory: f = (0.790 ln Re - 1.64)^-2 */
double sw_friction_petukhov(double re)
{
    if (!within(re, 3e3, 5e6)) return NAN;
    double x = 0.790 * log(re) - 1.64;
    return 1 / (x * x);
}

/* Gnielinski 1976, as in Incropera ch. 8:
 *   Nu = (f/8) (Re - 1000) Pr/[1 + 12.7 sqrt(f/8) (Pr^(2/3) - 1)], Re 3000 to 5e6, Pr 0.5 to 2000 */
double sw_nu_gnielinski(double re, double pr, double friction)
{
    if (!within(re, 3000.0, 5e6) || !within(pr, 0.5, 2000.0)) return NAN;
    double f8 = friction / 8;
    return f8 * (re - 1000) * pr / (1 + 12.7 * sqrt(f8) * (cbrt(pr * pr) - 1));
}

static double turbulent(double re, double pr, double roughness, double d_by_l)
{
    return sw_nu_gnielinski(re, pr, sw_friction_churchill(re, roughness)) * (1 + cbrt(d_by_l * d_by_l));
}

/* Laminar: Incropera table 8.1, from memory; between: Gnielinski, Int. J. Heat Mass Transfer 63 (2013) 134, from memory. */
double sw_nu_duct(double re, double pr, double roughness, double d_by_l)
{
    static const double laminar = 3.66, first = 2300, full = 4000;
    if (!within(re, 0.0, 5e6) || !within(pr, 0.5, 2000.0) || !(d_by_l >= 0)) return NAN;
    if (re <= first) return laminar;
    if (re >= full) return turbulent(re, pr, roughness, d_by_l);
    double part = (re - first) / (full - first);
    return (1 - part) * laminar + part * turbulent(full, pr, roughness, d_by_l);
}

/* Edwards, Denny & Mills 1979, from memory: Nu = 7.54 + 0.03 Gz/(1 + 0.016 Gz^(2/3)), Gz = Re Pr D_h/L */
double sw_nu_plates_entrance(double gz)
{
    return gz >= 0 ? 7.54 + 0.03 * gz / (1 + 0.016 * cbrt(gz * gz)) : (double)NAN;
}

/* Dittus & Boelter as in Incropera, heating: 0.023 Re^0.8 Pr^0.4, Re from 1e4, Pr 0.6 to 160 */
double sw_nu_dittus_boelter(double re, double pr)
{
    return re >= 1e4 && within(pr, 0.6, 160.0) ? 0.023 * pow(re, 0.8) * pow(pr, 0.4) : (double)NAN;
}

/* Bernoulli with a discharge coefficient, incompressible: m = Cd A sqrt(2 rho dp) */
double sw_orifice_kg_s(double cd, double area_m2, double density, double pressure_pa)
{
    return copysign(cd * area_m2 * sqrt(2 * density * fabs(pressure_pa)), pressure_pa);
}

double sw_orifice_zeta(double cd)
{
    return cd > 0 ? 1 / (cd * cd) : (double)NAN;
}

double sw_stream_mean(double n)
{
    return n > 1e-9 ? -expm1(-n) / n : 1 - n / 2;
}

double sw_passing_share(double n, double passing)
{
    if (n < 1e-3) return passing * (0.5 - n / 12);
    return passing * (sw_stream_mean(n) - exp(-n)) / -expm1(-n);
}
