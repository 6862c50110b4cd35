/* reckon_air.c: openings, legs of hot gas and jets by hand. Sources stand in each row. */
#include "burning/air/air.h"
#include "reckon/reckon_parts.h"

#include <math.h>

static const double sharp_cd = 0.62;

static double as_kg_h(double kg_s)
{
    return sw_s_from_h(kg_s);
}

static void opening_area(const double *in, double *out)
{
    double density = sw_air_density(sw_k_from_c(in[3])),
           area_m2 = sw_air_area_m2(sw_h_from_s(in[0]), in[2], density, in[1]);
    out[0] = sw_mm2_from_m2(area_m2);
    out[1] = 2 * sqrt(out[0] / SW_PI);
    out[2] = sqrt(2 * in[1] / density);
}

static void leg(const double *in, double *out)
{
    out[0] = sw_air_leg_pa(sw_m_from_mm(in[0]), sw_k_from_c(in[1]), sw_k_from_c(in[2]));
    out[1] = sw_air_density(sw_k_from_c(in[1]));
    out[2] = sw_air_density(sw_k_from_c(in[2]));
}

/* An area of gas as hot as t_c as if air of the openings' temperature passed it: dp = m2/(2 rho cd2 A2). */
static double as_air_m2(double area_mm2, double air_c, double t_c)
{
    return sw_m2_from_mm2(area_mm2) * sqrt(sw_air_density(sw_k_from_c(t_c)) / sw_air_density(sw_k_from_c(air_c)));
}

static void in_series(const double *in, double *out)
{
    double first_m2 = sw_m2_from_mm2(in[1]), then_m2 = as_air_m2(in[2], in[3], in[4]);
    double both_m2 = sw_air_series_m2(first_m2, then_m2), ratio = both_m2 / first_m2;
    out[0] = as_kg_h(sw_orifice_kg_s(sharp_cd, both_m2, sw_air_density(sw_k_from_c(in[3])), in[0]));
    out[1] = sw_mm2_from_m2(both_m2);
    out[2] = in[0] * ratio * ratio;
    out[3] = in[0] - out[2];
}

static void stove_air(const double *in, double *out)
{
    const double collar_cd = 0.82;
    double leg_pa = sw_air_leg_pa(sw_m_from_mm(in[4]), sw_k_from_c(in[5]), sw_k_from_c(in[6]));
    double density = sw_air_density(sw_k_from_c(in[5])), opening_m2 = sw_m2_from_mm2(in[1]);
    double throat_m2 = as_air_m2(in[2], in[5], in[6]),
           collar_m2 = collar_cd / sharp_cd * as_air_m2(in[3], in[5], in[7]);
    double all_m2 = sw_air_series_m2(sw_air_series_m2(opening_m2, throat_m2), collar_m2), pa = in[0] + leg_pa;
    const double areas[] = {opening_m2, throat_m2, collar_m2};
    out[0] = as_kg_h(sw_orifice_kg_s(sharp_cd, all_m2, density, pa));
    out[1] = leg_pa;
    for (int i = 0; i < 3; i++) out[2 + i] = pa * all_m2 * all_m2 / (areas[i] * areas[i]);
}

/* The same mass in below and out above: rho_o A1^2 dp1 = rho_i A2^2 dp2, dp1 + dp2 = leg. */
static void hot_box(const double *in, double *out)
{
    double cold = sw_air_density(sw_k_from_c(in[3])), hot = sw_air_density(sw_k_from_c(in[4]));
    double leg_pa = sw_air_leg_pa(sw_m_from_mm(in[2]), sw_k_from_c(in[3]), sw_k_from_c(in[4]));
    double below = 1 / (cold * in[0] * in[0]), above = 1 / (hot * in[1] * in[1]),
           in_pa = leg_pa * below / (below + above);
    out[0] = as_kg_h(sw_orifice_kg_s(sharp_cd, sw_m2_from_mm2(in[0]), cold, in_pa));
    out[1] = leg_pa;
    out[2] = in[2] * below / (below + above);
}

static void jet_reach(const double *in, double *out)
{
    out[0] = sw_mm_from_m(sw_jet_reach_m(sw_m_from_mm(in[0]), sw_k_from_c(in[1]), sw_k_from_c(in[2]), in[3]));
    out[1] = sw_mm_from_m(sw_jet_reach_m(sw_m_from_mm(in[0]), sw_k_from_c(in[1]), sw_k_from_c(in[2]), 1));
}

static void jet_velocity(const double *in, double *out)
{
    double jet_k = sw_k_from_c(in[1]);
    double share = sw_jet_share(sw_m_from_mm(in[4]), sw_m_from_mm(in[0]), jet_k, sw_k_from_c(in[2]));
    double start_m_s = sqrt(2 * in[3] / sw_air_density(jet_k));
    out[0] = start_m_s;
    out[1] = share * start_m_s;
    out[2] = share;
}

/* clang-format off */
#define ORIFICE "Bernoulli; Cd: Idelchik, Handbook of Hydraulic Resistance (from memory)"
#define COLUMNS "hydrostatics, ideal gas; gas as air at 101325 Pa"
#define JETS    "Beer & Chigier 1972; Thring & Newby 1953 (from memory)"
#define JET_RANGE "round turbulent jet into still gas, Re from about 10000; at Re 1400 it decays four times faster (Abdel-Rahman and others 1996, abstract seen)"
#define IN_DP   {"dp", "Pa", "pressure over it", NAN, 1e-6, 5000}
#define IN_TO   {"To", "degC", "air outside", 20, -60, 1500}
#define IN_HOLE {"d", "mm", "hole", NAN, 0.1, 1000}
#define IN_TJ   {"Tj", "degC", "air in the jet", 20, -60, 1500}
#define IN_TG   {"Tg", "degC", "gas it enters", NAN, -60, 2000}
#define OUT_M   {"m", "kg/h", "air"}

static const sw_reckon rows[] = {
    {"opening_area", "free area for so much air", "A = m/(Cd sqrt(2 rho dp))", "small pressures; air of the temperature in the hole", ORIFICE,
     {{"m", "kg/h", "air", NAN, 0, 1e5}, IN_DP, {"Cd", "", "discharge coefficient: sharp 0.60 to 0.62, short tube 0.80, rounded 0.95 to 0.98", 0.62, 0.1, 1}, {"T", "degC", "air in the hole", 20, -60, 1500}},
     {{"A", "mm2", "free area"}, {"d", "mm", "diameter of one round hole as large"}, {"v", "m/s", "velocity of the jet"}}, opening_area},
    {"leg_buoyancy", "draught of a leg of hot gas", "dp = g h (rho_o - rho_i)", "-73 to 2200 degC", COLUMNS,
     {{"h", "mm", "height", NAN, -1e5, 1e5}, IN_TO, {"Ti", "degC", "mean gas inside", NAN, -60, 2200}}, {{"dp", "Pa", "buoyancy, positive upwards"}, {"rho_o", "kg/m3", "outside"}, {"rho_i", "kg/m3", "inside"}}, leg},
    {"openings_in_series", "air through two openings one behind the other", "dp = m2/(2 Cd2) [1/(rho1 A1^2) + 1/(rho2 A2^2)], Cd 0.62", "sharp-edged, small pressures", ORIFICE,
     {{"dp", "Pa", "pressure over both", NAN, 1e-6, 5000}, {"A1", "mm2", "first", NAN, 1e-3, 1e7}, {"A2", "mm2", "second", NAN, 1e-3, 1e7}, {"T1", "degC", "in the first", 20, -60, 1500}, {"T2", "degC", "in the second", 20, -60, 2000}},
     {OUT_M, {"A", "mm2", "one opening that does the same, of the first's gas"}, {"dp1", "Pa", "over the first"}, {"dp2", "Pa", "over the second"}}, in_series},
    {"stove_air", "air that a stove draws: openings, throat and collar in series", "draught + g h (rho_o - rho_i) = m2/2 [1/(rho Cd2 A2) of openings + throat + collar]", "Cd 0.62, collar 0.82; the fuel's own mass left out", "first principles; Cd: Idelchik, Handbook of Hydraulic Resistance (from memory)",
     {{"draught", "Pa", "at the collar", 12, 0, 500}, {"A", "mm2", "free area of all openings and leaks", NAN, 1, 1e6}, {"throat", "mm2", "free area past the baffle", NAN, 1, 1e7}, {"collar", "mm2", "free area of the collar", 17671, 1, 1e7}, {"h", "mm", "collar over the openings", 500, -1e4, 1e4}, IN_TO, {"Ti", "degC", "mean gas in the stove", 700, -60, 1500}, {"Tf", "degC", "gas in the collar", 270, -60, 1000}},
     {OUT_M, {"leg", "Pa", "buoyancy inside"}, {"dp1", "Pa", "over the openings"}, {"dp2", "Pa", "over the throat"}, {"dp3", "Pa", "over the collar"}}, stove_air},
    {"hot_box", "air through a hot box with an opening below and one above", "rho_o A1^2 dp1 = rho_i A2^2 dp2; dp1 + dp2 = g h (rho_o - rho_i), Cd 0.62", "no draught but its own", "first principles; Cd: Idelchik, Handbook of Hydraulic Resistance (from memory)",
     {{"A1", "mm2", "lower opening", NAN, 1e-3, 1e7}, {"A2", "mm2", "upper opening", NAN, 1e-3, 1e7}, {"h", "mm", "between their middles", NAN, 0, 1e5}, IN_TO, {"Ti", "degC", "inside", NAN, -60, 2000}},
     {OUT_M, {"dp", "Pa", "buoyancy"}, {"z", "mm", "neutral plane above the lower opening"}}, hot_box},
    {"jet_reach", "how far an air jet reaches", "x = de (6.3/s - 0.6), de = d sqrt(rho_jet/rho_gas)", JET_RANGE, JETS,
     {IN_HOLE, IN_TJ, IN_TG, {"s", "", "share of its velocity left on the axis", 0.1, 0.001, 1}}, {{"x", "mm", "reach"}, {"core", "mm", "core of full velocity"}}, jet_reach},
    {"jet_velocity", "velocity on the axis of an air jet", "u = u0 6.3 de/(x + 0.6 de), u0 = sqrt(2 dp/rho), de = d sqrt(rho_jet/rho_gas)", JET_RANGE, JETS,
     {IN_HOLE, IN_TJ, IN_TG, IN_DP, {"x", "mm", "distance from the hole", NAN, 0, 1e5}}, {{"u0", "m/s", "at the hole"}, {"u", "m/s", "on the axis"}, {"share", "", "share left"}}, jet_velocity},
};
/* clang-format on */

const sw_reckon *sw_reckon_air(size_t *count)
{
    *count = sizeof rows / sizeof *rows;
    return rows;
}
