/* reckon_conduction.c: walls, fins, bodies that warm up, plates. Sources stand in each row. */
#include "reckon/reckon_parts.h"
#include "transfer/transfer.h"

#include <math.h>

#define FOURIER "Incropera ch. 3; derived"
#define SERIES  "Carslaw & Jaeger; Incropera ch. 5 (from memory)"

/* Lining, gap or contact, sheet of steel with 45 W/(m K). */
static void wall(const double *in, double *out)
{
    static const double steel_w_m_k = 45;
    double r[5] = {1 / in[1], sw_m_from_mm(in[2]) / in[3], in[4], sw_m_from_mm(in[5]) / steel_w_m_k, 1 / in[6]},
           sum = 0;
    for (int i = 0; i < 5; i++) sum += r[i];
    out[0] = (in[0] - in[7]) / sum;
    double t_c = in[0];
    for (int i = 0; i < 4; i++) out[i + 1] = t_c -= out[0] * r[i];
    out[5] = sum;
}

static void wall_of_changing_k(const double *in, double *out)
{
    out[0] = in[0] + in[1] * 0.5 * (in[3] + in[4]);
    out[1] = out[0] * (in[3] - in[4]) / sw_m_from_mm(in[2]);
}

static void fin(const double *in, double *out)
{
    double t_m = sw_m_from_mm(in[0]), L_m = sw_m_from_mm(in[1]);
    double m = sw_fin_m(in[3], 2, in[2], t_m); /* a metre of width, both sides */
    out[0] = m * L_m;
    out[1] = sw_fin_efficiency(m * L_m);
    out[2] = sw_fin_efficiency(m * (L_m + 0.5 * t_m));
    out[3] = out[2] * in[3] * 2 * (L_m + 0.5 * t_m) * in[4];
}

static void rod(const double *in, double *out)
{
    double d_m = sw_m_from_mm(in[0]);
    out[0] = sw_fin_infinite_w(in[2], SW_PI * d_m, in[1], 0.25 * SW_PI * d_m * d_m, in[3]);
}

static void lumped(const double *in, double *out)
{
    double d_m = sw_m_from_mm(in[0]), side_m = d_m / in[5];
    out[0] = sw_lumped_s(in[1] * d_m, in[2], in[4] * in[5], 1);
    out[1] = in[4] * side_m / in[3];
    out[2] = exp(-in[6] / out[0]);
}

static void slab(const double *in, double *out)
{
    double L_m = sw_m_from_mm(in[0]), a = in[1] / (in[2] * in[3]);
    double bi = in[4] * L_m / in[1], fo = a * in[5] / (L_m * L_m);
    out[0] = bi;
    out[1] = fo;
    out[2] = sw_slab_root(bi);
    out[3] = in[7] + (in[6] - in[7]) * sw_slab_theta(bi, fo, 0);
    out[4] = in[7] + (in[6] - in[7]) * sw_slab_theta(bi, fo, 1);
    out[5] = 4 * sin(out[2]) / (2 * out[2] + sin(2 * out[2]));
}

static void deep_step(const double *in, double *out)
{
    out[0] = in[3] + (in[2] - in[3]) * sw_semi_infinite_step(sw_m_from_mm(in[0]), sw_m2_from_mm2(in[1]), in[4]);
}

static void deep_flux(const double *in, double *out)
{
    out[0] = sw_semi_infinite_flux_k(in[1], in[2], sw_m2_from_mm2(in[3]), 0, in[4]);
    out[1] = sw_semi_infinite_flux_k(in[1], in[2], sw_m2_from_mm2(in[3]), sw_m_from_mm(in[0]), in[4]);
}

static void contact(const double *in, double *out)
{
    out[0] = sqrt(in[0] * in[1] * in[2]);
    out[1] = sw_c_from_k(sw_contact_k(out[0], sw_k_from_c(in[3]), in[4], sw_k_from_c(in[5])));
}

static void plate_edge(const double *in, double *out)
{
    out[0] = in[3] + (in[2] - in[3]) * sw_plate_edge_series(in[0], in[1]);
}

static void plate_flux(const double *in, double *out)
{
    double side_m = sw_m_from_mm(in[0]), sheet_w_k = in[2] * sw_m_from_mm(in[1]);
    double m2 = in[4] * side_m * side_m / sheet_w_k, scale_k = in[3] * side_m * side_m / sheet_w_k;
    out[0] = scale_k * sw_plate_flux_series(0.5, 0.5, 0);
    out[1] = m2;
    out[2] = scale_k * sw_plate_flux_series(0.5, 0.5, m2);
    out[3] = scale_k * sw_plate_flux_series(0.25, 0.25, m2);
    out[4] = in[4] > 0 ? in[3] / in[4] : (double)NAN;
}

/* clang-format off */
static const sw_reckon rows[] = {
    {"wall", "heat through lining, gap and steel", "q = (T1 - T2)/(1/h1 + d/k + R + s/45 + 1/h2)", "steady, flat; steel at 45 W/(m K)", FOURIER,
     {{"T1", "degC", "gas inside", NAN, -50, 2000}, {"h1", "W/(m2 K)", "to the lining, convection and radiation", 40, 0.1, 1e4}, {"d", "mm", "lining", 25, 0.1, 1e3}, {"k", "W/(m K)", "of the lining", 0.18, 0.01, 100},
      {"R", "m2 K/W", "gap or contact", 0.02, 0, 10}, {"s", "mm", "steel", 4, 0, 100}, {"h2", "W/(m2 K)", "to the room", 18, 0.1, 1e4}, {"T2", "degC", "room", 20, -50, 2000}},
     {{"q", "W/m2", "heat flux"}, {"Ta", "degC", "hot face of the lining"}, {"Tb", "degC", "cold face of the lining"}, {"Tc", "degC", "steel, inside"}, {"Td", "degC", "steel, outside"}, {"sum", "m2 K/W", "resistance"}}, wall},
    {"wall_linear_k", "heat through a board whose conductivity rises with temperature", "q = k((T1 + T2)/2) (T1 - T2)/d, exact for k = k0 + k1 t", "steady, flat", FOURIER,
     {{"k0", "W/(m K)", "conductivity at 0 degC", 0.12, 0.001, 100}, {"k1", "W/(m K2)", "rise for each degree", 1.1e-4, -0.1, 0.1}, {"d", "mm", "thickness", 30, 0.1, 1e3}, {"T1", "degC", "hot face", NAN, -50, 2000}, {"T2", "degC", "cold face", NAN, -50, 2000}},
     {{"k", "W/(m K)", "at the mean temperature"}, {"q", "W/m2", "heat flux"}}, wall_of_changing_k},
    {"fin", "straight fin of sheet", "m = sqrt(2 h/(k t)), eta = tanh(m L)/(m L), L + t/2 for the tip", "thin fin, still tip", "Incropera ch. 3 (from memory)",
     {{"t", "mm", "thickness", NAN, 0.1, 100}, {"L", "mm", "how far it stands out", NAN, 0.1, 1e4}, {"k", "W/(m K)", "conductivity", 45, 0.01, 1e3}, {"h", "W/(m2 K)", "on each side", NAN, 0.01, 1e4}, {"dT", "K", "root above the air", 1, 0, 2000}},
     {{"mL", "", "slenderness"}, {"eta", "", "efficiency"}, {"etac", "", "efficiency with the corrected length"}, {"q", "W/m", "heat a metre of width, corrected length"}}, fin},
    {"rod", "very long rod", "q = sqrt(h P k A) dT", "long: m L above 2.65 for 1 %", "Incropera, Example 3.9 (from memory)",
     {{"D", "mm", "diameter", NAN, 0.1, 1e3}, {"k", "W/(m K)", "conductivity", 45, 0.01, 1e3}, {"h", "W/(m2 K)", "to the air", NAN, 0.01, 1e4}, {"dT", "K", "root above the air", NAN, 0, 2000}}, {{"q", "W", "heat"}}, rod},
    {"lumped", "sheet or pane that warms as one", "tau = rho c d/(n h); theta = exp(-time/tau); Bi = h d/(n k)", "Bi below 0.1", "Incropera ch. 5 (from memory)",
     {{"d", "mm", "thickness", NAN, 0.01, 1e3}, {"rho", "kg/m3", "density", 7850, 1, 2e4}, {"c", "J/(kg K)", "heat capacity", 480, 100, 5e3}, {"k", "W/(m K)", "conductivity", 45, 0.01, 1e3}, {"h", "W/(m2 K)", "on each side that counts", NAN, 0.01, 1e4},
      {"n", "", "sides that count", 1, 1, 2}, {"time", "s", "time", 0, 0, 1e7}},
     {{"tau", "s", "time constant"}, {"Bi", "", "Biot number"}, {"theta", "", "share of the difference that is left"}}, lumped},
    {"slab", "lining that warms from one face, its back insulated", "theta = sum A exp(-z2 Fo) cos(z x/L), z tan z = Bi, the whole series", "one conductivity; a board between two equal sides: half its thickness", SERIES,
     {{"L", "mm", "thickness (half, if both sides count)", NAN, 0.1, 1e4}, {"k", "W/(m K)", "conductivity", NAN, 0.001, 1e3}, {"rho", "kg/m3", "density", NAN, 1, 2e4}, {"c", "J/(kg K)", "heat capacity", NAN, 100, 5e3},
      {"h", "W/(m2 K)", "to the face", NAN, 0, 1e6}, {"time", "s", "time", NAN, 0, 1e8}, {"T0", "degC", "at the start", 20, -50, 2000}, {"T1", "degC", "gas", NAN, -50, 2000}},
     {{"Bi", "", "Biot number"}, {"Fo", "", "Fourier number"}, {"z", "", "first root"}, {"back", "degC", "back (or middle)"}, {"face", "degC", "face"}, {"A", "", "factor of the first term"}}, slab},
    {"deep_step", "deep body whose surface is held at a temperature", "T = T0 + (Ts - T0) erfc(x/(2 sqrt(a time)))", "as long as the far side stays cold", SERIES,
     {{"x", "mm", "depth", NAN, 0, 1e5}, {"a", "mm2/s", "diffusivity k/(rho c)", NAN, 0.001, 1e3}, {"Ts", "degC", "surface", NAN, -100, 2000}, {"T0", "degC", "at the start", 20, -100, 2000}, {"time", "s", "time", NAN, 0, 1e9}},
     {{"T", "degC", "temperature at the depth"}}, deep_step},
    {"deep_flux", "deep body that is heated evenly", "dT = 2 q/k sqrt(a time/pi) exp(-x2/(4 a time)) - q x/k erfc(x/(2 sqrt(a time)))", "as long as the far side stays cold", SERIES,
     {{"x", "mm", "depth", 0, 0, 1e5}, {"q", "W/m2", "heat flux", NAN, 0, 1e7}, {"k", "W/(m K)", "conductivity", NAN, 0.001, 1e3}, {"a", "mm2/s", "diffusivity k/(rho c)", NAN, 0.001, 1e3}, {"time", "s", "time", NAN, 0, 1e8}},
     {{"surface", "K", "rise of the surface"}, {"rise", "K", "rise at the depth"}}, deep_flux},
    {"contact", "temperature where a hand meets a surface", "Tc = (e1 T1 + e2 T2)/(e1 + e2), e = sqrt(k rho c)", "first moments; thick bodies", SERIES,
     {{"k", "W/(m K)", "conductivity of the surface", NAN, 0.001, 1e3}, {"rho", "kg/m3", "its density", NAN, 1, 2e4}, {"c", "J/(kg K)", "its heat capacity", NAN, 100, 5e3}, {"T", "degC", "its temperature", NAN, -50, 2000},
      {"es", "W s0.5/(m2 K)", "effusivity of skin", 1300, 1, 1e5}, {"Ts", "degC", "skin", 33, 0, 45}},
     {{"e", "W s0.5/(m2 K)", "effusivity of the surface"}, {"Tc", "degC", "where they meet"}}, contact},
    {"plate_edge", "square plate with one hot edge", "theta = 4/pi sum over odd n of 1/n sin(n pi x) sinh(n pi y)/sinh(n pi)", "steady, no loss from the faces", "Incropera eq. 4.19 (from memory)",
     {{"x", "", "along the hot edge, share of the side", NAN, 0, 1}, {"y", "", "towards the hot edge, share of the side", NAN, 0, 1}, {"Th", "degC", "hot edge", 1, -100, 2000}, {"Tc", "degC", "other edges", 0, -100, 2000}},
     {{"T", "degC", "temperature"}}, plate_edge},
    {"plate_flux", "square sheet heated evenly, its edges held", "-u'' + m2 u = 1 as a double sine series, m2 = h L2/(k t); rise = u q L2/(k t)", "steady, one conductivity", "Carslaw & Jaeger; derived",
     {{"L", "mm", "side", NAN, 1, 1e4}, {"t", "mm", "thickness", NAN, 0.1, 100}, {"k", "W/(m K)", "conductivity", 45, 0.01, 1e3}, {"q", "W/m2", "heat flux", NAN, 0, 1e6}, {"h", "W/(m2 K)", "loss from the face", 0, 0, 1e4}},
     {{"bare", "K", "rise of the middle without loss"}, {"m2", "", "loss against conduction"}, {"middle", "K", "rise of the middle"}, {"quarter", "K", "rise at a quarter of both sides"}, {"free", "K", "q/h: far from any edge"}}, plate_flux},
};
/* clang-format on */

const sw_reckon *sw_reckon_conduction(size_t *count)
{
    *count = sizeof rows / sizeof *rows;
    return rows;
}
