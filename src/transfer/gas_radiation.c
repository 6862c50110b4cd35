/* gas_radiation.c: emissivity of H2O, CO2 and soot, mean beam length, exchange of a well-stirred firebox.
 *
 * Leckner, Combust. Flame 19 (1972) 33-48, constants as in Modest, Radiative Heat Transfer, 3rd ed., table 11.4 (seen in a
 * public routine, agreeing with memory). Smith, Shen & Friedman, J. Heat Transfer 104 (1982) 602-608 (table seen). */
#include "transfer/transfer.h"

#include <math.h>

/* ---- Leckner ------------------------------------------------------------------------------------------------- */

static const double least_k = 400.0, most_k = 3000.0, least_bar_cm = 0.1, most_bar_cm = 1000.0;
static const double cm_of_m = 100.0, usual_bar = 1.01325;

/* c[i][j]: power i of log10(p L), power j of t = T/1000. */
static const double h2o_c[3][4] = {
    {-2.2118, -1.1987, 0.035596, 0.0}, {0.85667, 0.93048, -0.14391, 0.0}, {-0.10838, -0.17156, 0.045915, 0.0}};
static const double co2_c[3][4] = {
    {-3.9893, 2.7669, -2.1081, 0.39163}, {1.2710, -1.1090, 1.0195, -0.21897}, {-0.23678, 0.19731, -0.19544, 0.044644}};

typedef struct pressure_terms {
    double a, b, c, effective_bar, middle_bar_cm;
} pressure_terms;

static double standard_emissivity(const double c[3][4], double t, double bar_cm)
{
    double x = log10(bar_cm), sum = 0.0;
    for (size_t i = 3; i-- > 0;) sum = sum * x + c[i][0] + t * (c[i][1] + t * (c[i][2] + t * c[i][3]));
    return exp(sum);
}

/* e/e0 = 1 - (a - 1)(1 - PE)/(a + b - 1 + PE) exp(-c [log10((pL)m/(pL))]2) */
static double pressure_factor(pressure_terms p, double bar_cm)
{
    double x = log10(p.middle_bar_cm / bar_cm);
    return 1.0 - (p.a - 1.0) * (1.0 - p.effective_bar) / (p.a + p.b - 1.0 + p.effective_bar) * exp(-p.c * x * x);
}

static double total_bar(sw_gas_path path)
{
    return path.p_bar > 0.0 ? path.p_bar : usual_bar;
}

static bool holds(sw_gas_path path, double gas_k)
{
    return gas_k >= least_k && gas_k <= most_k && path.p_h2o_bar >= 0.0 && path.p_co2_bar >= 0.0 && path.p_bar >= 0.0 &&
           path.p_h2o_bar + path.p_co2_bar <= total_bar(path) && path.length_m >= 0.0;
}

double sw_leckner_h2o(sw_gas_path path, double gas_k)
{
    double bar_cm = path.p_h2o_bar * path.length_m * cm_of_m, t = gas_k / 1000.0;
    if (!holds(path, gas_k) || !(bar_cm <= most_bar_cm)) return NAN;
    if (bar_cm < least_bar_cm) return 0.0;
    pressure_terms p = {t < 0.75 ? 2.144 : 1.888 - 2.053 * log10(t), 1.10 * pow(t, -1.4), 0.5,
                        total_bar(path) + 2.56 * path.p_h2o_bar / sqrt(t), 13.2 * t * t};
    return standard_emissivity(h2o_c, t, bar_cm) * pressure_factor(p, bar_cm);
}

double sw_leckner_co2(sw_gas_path path, double gas_k)
{
    double bar_cm = path.p_co2_bar * path.length_m * cm_of_m, t = gas_k / 1000.0;
    if (!holds(path, gas_k) || !(bar_cm <= most_bar_cm)) return NAN;
    if (bar_cm < least_bar_cm) return 0.0;
    pressure_terms p = {1.0 + 0.1 * pow(t, -1.45), 0.23, 1.47, total_bar(path) + 0.28 * path.p_co2_bar,
                        t < 0.7 ? 0.054 / (t * t) : 0.225 * t * t};
    return standard_emissivity(co2_c, t, bar_cm) * pressure_factor(p, bar_cm);
}

/* [z/(10.7 + 101 z) - 0.0089 z^10.4] [log10((pw + pc) L)]^2.76, z = pw/(pw + pc); 0 below 1 bar cm. */
double sw_leckner_overlap(sw_gas_path path)
{
    double sum_bar = path.p_h2o_bar + path.p_co2_bar, bar_cm = sum_bar * path.length_m * cm_of_m;
    if (!(path.p_h2o_bar >= 0.0) || !(path.p_co2_bar >= 0.0) || !(bar_cm <= 2.0 * most_bar_cm)) return NAN;
    if (bar_cm < 1.0 || path.p_h2o_bar == 0.0 || path.p_co2_bar == 0.0) return 0.0;
    double z = path.p_h2o_bar / sum_bar;
    return fmax((z / (10.7 + 101.0 * z) - 0.0089 * pow(z, 10.4)) * pow(log10(bar_cm), 2.76), 0.0);
}

double sw_leckner(sw_gas_path path, double gas_k)
{
    return sw_leckner_h2o(path, gas_k) + sw_leckner_co2(path, gas_k) - sw_leckner_overlap(path);
}

/* alpha = sqrt(Tg/Ts) e(p L Ts/Tg, Ts): the path is shortened, the partial pressures stay (Modest, from memory). */
double sw_leckner_absorptivity(sw_gas_path path, double gas_k, double wall_k)
{
    if (!holds(path, gas_k) || !holds(path, wall_k)) return NAN;
    path.length_m *= wall_k / gas_k;
    double both = sw_leckner_h2o(path, wall_k) + sw_leckner_co2(path, wall_k);
    return sqrt(gas_k / wall_k) * both - sw_leckner_overlap(path);
}

/* ---- weighted sum of grey gases -------------------------------------------------------------------------------- */

typedef struct grey_gas {
    double k_1_atm_m, b[4]; /* a = b0 + b1 T + b2 T2 + b3 T3 */
} grey_gas;

/* clang-format off */
static const grey_gas wsgg[SW_WSGG_SETS][3] = {
    [SW_WSGG_CO2] = {{0.3966, {0.4334e-1, 2.620e-4, -1.560e-7, 2.565e-11}},
                     {15.64, {-0.4814e-1, 2.822e-4, -1.794e-7, 3.274e-11}},
                     {394.3, {0.5492e-1, 0.1087e-4, -0.3500e-7, 0.9123e-11}}},
    [SW_WSGG_EQUAL] = {{0.4303, {5.150e-1, -2.303e-4, 0.9779e-7, -1.494e-11}},
                       {7.055, {0.7749e-1, 3.399e-4, -2.297e-7, 3.770e-11}},
                       {178.1, {1.907e-1, -1.824e-4, 0.5608e-7, -0.5122e-11}}},
    [SW_WSGG_DOUBLE] = {{0.4201, {6.508e-1, -5.551e-4, 3.029e-7, -5.353e-11}},
                        {6.516, {-0.2504e-1, 6.112e-4, -3.882e-7, 6.528e-11}},
                        {131.9, {2.718e-1, -3.118e-4, 1.221e-7, -1.612e-11}}},
    [SW_WSGG_H2O] = {{0.4098, {5.977e-1, -5.119e-4, 3.042e-7, -5.564e-11}},
                     {6.325, {0.5677e-1, 3.333e-4, -1.967e-7, 2.718e-11}},
                     {120.5, {1.800e-1, -2.334e-4, 1.008e-7, -1.454e-11}}},
    [SW_WSGG_STEAM] = {{0.4496, {6.324e-1, -8.358e-4, 6.135e-7, -13.03e-11}},
                       {7.113, {-0.2016e-1, 7.145e-4, -5.212e-7, 9.868e-11}},
                       {119.7, {3.500e-1, -5.040e-4, 2.425e-7, -3.888e-11}}},
};
/* clang-format on */

/* e = sum a_i(T) [1 - exp(-k_i P L)]; fitted for 0.001 to 10 atm m, goes on to 0 below. */
double sw_wsgg(sw_wsgg_set set, double pressure_path_atm_m, double gas_k)
{
    if ((size_t)set >= SW_WSGG_SETS || !(gas_k >= 600.0 && gas_k <= 2400.0)) return NAN;
    if (!(pressure_path_atm_m >= 0.0 && pressure_path_atm_m <= 10.0)) return NAN;
    double sum = 0.0;
    for (size_t i = 0; i < 3; i++) {
        const double *b = wsgg[set][i].b;
        double weight = b[0] + gas_k * (b[1] + gas_k * (b[2] + gas_k * b[3]));
        sum -= weight * expm1(-wsgg[set][i].k_1_atm_m * pressure_path_atm_m);
    }
    return sum;
}

/* ---- soot, beam, firebox ----------------------------------------------------------------------------------------- */

/* 3.83 C0 fv T/c2 (Modest, from memory), c2 in m K. C0 = 36 pi n k/[(n2 - k2 + 2)2 + 4 n2 k2] of soot with the index
 * 1.57 - 0.56 i (Dalzell & Sarofim 1969, from memory); other soots 4.6 to 7. */
double sw_soot_k_1_m(double volume_share, double gas_k)
{
    const double n = 1.57, k = 0.56, c2_m_k = 0.0143877;
    double a = n * n - k * k + 2.0, C0 = 36.0 * SW_PI * n * k / (a * a + 4.0 * n * n * k * k);
    if (!(volume_share >= 0.0 && volume_share <= 1.0) || !(gas_k > 0.0)) return NAN;
    return 3.83 * C0 * volume_share * gas_k / c2_m_k;
}

double sw_soot_emissivity(double k_1_m, double length_m)
{
    if (!(k_1_m >= 0.0) || !(length_m >= 0.0)) return NAN;
    return -expm1(-k_1_m * length_m);
}

double sw_emissivity_both(double gas, double soot)
{
    return gas + soot - gas * soot;
}

/* Hottel: 0.9 x 4 V/A (Hottel & Sarofim, Radiative Transfer, 1967; from memory). */
double sw_mean_beam_m(double volume_m3, double area_m2)
{
    if (!(volume_m3 >= 0.0) || !(area_m2 > 0.0)) return NAN;
    return 3.6 * volume_m3 / area_m2;
}

/* 1/GS = 1/(A1 e1) + (1/eg - 1)/AT: one gas zone, sink and re-radiating wall finely mixed (Hottel & Sarofim 1967;
 * derived again). A gas that does not radiate exchanges nothing. */
double sw_furnace_exchange_m2(double sink_m2, double sink_e, double total_m2, double gas_e)
{
    if (!(sink_m2 > 0.0) || !(total_m2 >= sink_m2) || !(sink_e > 0.0 && sink_e <= 1.0)) return NAN;
    if (!(gas_e >= 0.0 && gas_e <= 1.0)) return NAN;
    if (gas_e == 0.0) return 0.0;
    return 1.0 / (1.0 / (sink_m2 * sink_e) + (1.0 / gas_e - 1.0) / total_m2);
}
