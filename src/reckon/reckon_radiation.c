/* reckon_radiation.c: radiation of gas, flames, walls and panes. Sources stand in each row. */
#include "reckon/reckon_parts.h"
#include "transfer/transfer.h"

#include <math.h>

static double black_w_m2(double t_k)
{
    return SW_STEFAN_BOLTZMANN * t_k * t_k * t_k * t_k;
}

/* ---- gas and flame ----------------------------------------------------------------------------------------------- */

static sw_gas_path path_of(const double *in)
{
    return (sw_gas_path){in[0], in[1], in[2], sw_m_from_mm(in[3])};
}

static void leckner(const double *in, double *out)
{
    double gas_k = sw_k_from_c(in[4]);
    out[0] = sw_leckner_h2o(path_of(in), gas_k);
    out[1] = sw_leckner_co2(path_of(in), gas_k);
    out[2] = sw_leckner_overlap(path_of(in));
    out[3] = sw_leckner(path_of(in), gas_k);
}

static void absorptivity(const double *in, double *out)
{
    out[0] = sw_leckner_absorptivity(path_of(in), sw_k_from_c(in[4]), sw_k_from_c(in[5]));
}

static void grey_gases(const double *in, double *out)
{
    out[0] = sw_wsgg((sw_wsgg_set)((int)in[0] - 1), in[1], sw_k_from_c(in[2]));
}

static void soot(const double *in, double *out)
{
    out[0] = sw_soot_k_1_m(in[0], sw_k_from_c(in[1]));
    out[1] = sw_soot_emissivity(out[0], sw_m_from_mm(in[2]));
}

static void flame(const double *in, double *out)
{
    out[0] = sw_soot_emissivity(in[0], sw_m_from_mm(in[1]));
    out[1] = sw_emissivity_both(in[2], out[0]);
}

static void mean_beam(const double *in, double *out)
{
    out[0] = sw_mm_from_m(sw_mean_beam_m(in[0], in[1]));
}

static void furnace_exchange(const double *in, double *out)
{
    out[0] = sw_furnace_exchange_m2(in[0], in[1], in[2], in[3]);
    out[1] = out[0] * (black_w_m2(sw_k_from_c(in[4])) - black_w_m2(sw_k_from_c(in[5])));
}

/* ---- view factors -------------------------------------------------------------------------------------------------- */

static void view_parallel(const double *in, double *out)
{
    out[0] = sw_view_parallel(in[0], in[1], in[2]);
}

static void view_corner(const double *in, double *out)
{
    out[0] = sw_view_corner(in[0], in[1], in[2]);
    out[1] = sw_view_corner(in[0], in[2], in[1]);
}

static void view_discs(const double *in, double *out)
{
    out[0] = sw_view_discs(in[0], in[1], in[2]);
    out[1] = sw_view_discs(in[1], in[0], in[2]);
}

static void view_strips(const double *in, double *out)
{
    out[0] = sw_view_strips(in[0], in[1]);
}

static void view_point_parallel(const double *in, double *out)
{
    out[0] = sw_view_point_parallel(in[0], in[1], in[2]);
}

static void view_point_upright(const double *in, double *out)
{
    out[0] = sw_view_point_upright(in[0], in[1], in[2]);
}

static void crossed_strings(const double *in, double *out)
{
    double f = (in[1] + in[2] - in[3] - in[4]) / (2 * in[0]);
    out[0] = f >= 0 && f <= 1 ? f : (double)NAN;
}

static void firebox_views(const double *in, double *out)
{
    double w = in[0], d = in[1], h = in[2];
    out[0] = sw_view_parallel(w, h, d);
    out[1] = sw_view_corner(w, h, d);
    out[2] = sw_view_corner(h, w, d);
    out[3] = out[0] + 2 * (out[1] + out[2]);
    out[4] = sw_mean_beam_m(w * d * h, 2 * (w * d + d * h + h * w));
}

static void ahead_of_pane(const double *in, double *out)
{
    out[0] = 4 * sw_view_point_parallel(in[0] / 2, in[1] / 2, in[2]);
    out[1] = out[0] * in[3];
}

/* ---- exchange between surfaces ---------------------------------------------------------------------------------------- */

static void shields(const double *in, double *out)
{
    double t1_k = sw_k_from_c(in[0]), t2_k = sw_k_from_c(in[2]);
    out[0] = sw_plates_exchange(t1_k, in[1], t2_k, in[3]);
    out[1] = sw_shielded_exchange(t1_k, in[1], t2_k, in[3], (size_t)in[4], in[5]);
}

/* Inputs A1 e1 t1 A2 e2 t2 F12; `between` is the resistance from J1 to J2, 1/m2. */
static double exchange_w(const double *in, double between)
{
    double ends = (1 - in[1]) / (in[1] * in[0]) + (1 - in[4]) / (in[4] * in[3]);
    return (black_w_m2(sw_k_from_c(in[2])) - black_w_m2(sw_k_from_c(in[5]))) / (ends + between);
}

static void two_surfaces(const double *in, double *out)
{
    out[0] = in[0] * in[6] <= in[3] ? exchange_w(in, 1 / (in[0] * in[6])) : (double)NAN;
}

/* A re-radiating third surface takes up all that the two, which do not see themselves, do not see of each other. */
static void with_lining(const double *in, double *out)
{
    double seen_m2 = in[0] * in[6], lost1_m2 = in[0] - seen_m2, lost2_m2 = in[3] - seen_m2;
    for (size_t i = 0; i < 5; i++) out[i] = NAN;
    if (!(lost1_m2 > 0) || !(lost2_m2 > 0)) return;
    double q = exchange_w(in, 1 / (seen_m2 + 1 / (1 / lost1_m2 + 1 / lost2_m2)));
    double J1 = black_w_m2(sw_k_from_c(in[2])) - q * (1 - in[1]) / (in[1] * in[0]);
    double J2 = black_w_m2(sw_k_from_c(in[5])) + q * (1 - in[4]) / (in[4] * in[3]);
    double JR = (lost1_m2 * J1 + lost2_m2 * J2) / (lost1_m2 + lost2_m2);
    out[0] = q;
    out[1] = sw_c_from_k(sqrt(sqrt(JR / SW_STEFAN_BOLTZMANN)));
    out[2] = J1;
    out[3] = J2;
    out[4] = JR;
}

/* ---- panes ------------------------------------------------------------------------------------------------------------- */

static void slab(const double *in, double *out)
{
    double r = sw_fresnel_normal(in[0]);
    sw_slab_optics o = sw_pane_optics(in[1], r);
    out[0] = r;
    out[1] = o.transmitted;
    out[2] = o.reflected;
    out[3] = o.absorbed;
}

static void black_share(const double *in, double *out)
{
    out[0] = sw_black_fraction(in[0] * sw_k_from_c(in[1]));
}

static void pane_bands(const double *in, double *out)
{
    double source_k = sw_k_from_c(in[0]);
    for (size_t band = 0; band < SW_PANE_BANDS; band++) out[band] = sw_pane_band_share(sw_pane_clear(), band, source_k);
    out[4] = sw_pane_transmitted(sw_pane_clear(), source_k);
    out[5] = sw_pane_absorbed(sw_pane_clear(), source_k);
}

static void pane_temperature(const double *in, double *out)
{
    const sw_pane *pane = in[6] >= 0.5 ? sw_pane_sooted() : sw_pane_clear();
    sw_pane_state s = {sw_k_from_c(in[0]), in[1], sw_k_from_c(in[2]), in[3], in[4], sw_k_from_c(in[5])};
    double pane_k = sw_pane_k(pane, s);
    out[0] = sw_c_from_k(pane_k);
    out[1] = sw_pane_transmitted(pane, s.fire_k) * s.fire_e * black_w_m2(s.fire_k);
    out[2] =
        sw_pane_absorbed(pane, pane_k) * black_w_m2(pane_k) - sw_pane_absorbed(pane, s.room_k) * black_w_m2(s.room_k);
    out[3] = s.h_out * (pane_k - s.room_k);
    out[4] = out[1] + out[2] + out[3];
}

/* clang-format off */
#define LECKNER    "Leckner, Combust. Flame 19 (1972) 33-48; constants as in Modest, Radiative Heat Transfer, table 11.4"
#define CATALOGUE  "catalogue of configuration factors, Howell, Menguc & Siegel (from memory; checked by ray tracing)"
#define EXCHANGE   "net-radiation method, Incropera & DeWitt ch. 13 (from memory)"
#define GLASS      "bands rounded from makers' transmission curves of 4 mm clear glass-ceramic (from memory)"
#define IN_PATH    {"pw", "bar", "partial pressure of H2O", NAN, 0, 3}, {"pc", "bar", "partial pressure of CO2", NAN, 0, 3}, {"p", "bar", "total pressure", 1.01325, 0.5, 10}, {"L", "mm", "mean path", NAN, 0, 1e5}
#define IN_GAS     {"T", "degC", "gas", NAN, 127, 2726}
#define IN_A       {"a", "mm", "side of the rectangle", NAN, 1e-3, 1e6}
#define IN_B       {"b", "mm", "other side", NAN, 1e-3, 1e6}
#define IN_E1      {"e1", "", "its emissivity", NAN, 0.001, 1}
#define IN_E2      {"e2", "", "its emissivity", NAN, 0.001, 1}
#define IN_T1      {"T1", "degC", "its temperature", NAN, -200, 3000}
#define IN_T2      {"T2", "degC", "its temperature", NAN, -200, 3000}
#define IN_PAIR    {"A1", "m2", "first surface", NAN, 1e-6, 1e4}, IN_E1, IN_T1, {"A2", "m2", "second surface", NAN, 1e-6, 1e4}, IN_E2, IN_T2, {"F12", "", "view factor from first to second", NAN, 1e-6, 1}
#define OUT_VIEW   {{"F", "", "view factor"}}

static const sw_reckon rows[] = {
    {"gas_emissivity", "total emissivity of water vapour and carbon dioxide", "e = ew + ec - overlap; each exp(sum c_ji t^j log10(pL)^i) with its pressure correction", "127 to 2727 degC, pressure x path 0.1 to 1000 bar cm; about 5 %, CO2 10 %", LECKNER,
     {IN_PATH, IN_GAS}, {{"ew", "", "water vapour"}, {"ec", "", "carbon dioxide"}, {"overlap", "", "overlap"}, {"e", "", "both"}}, leckner},
    {"gas_absorptivity", "absorptivity of the gas for radiation from a wall", "a = sqrt(Tg/Ts) e(pL Ts/Tg, Ts), less the overlap", "as gas_emissivity, wall from 127 degC", LECKNER,
     {IN_PATH, IN_GAS, {"Ts", "degC", "wall", NAN, 127, 2726}}, {{"a", "", "absorptivity"}}, absorptivity},
    {"grey_gases", "total emissivity by a weighted sum of three grey gases", "e = sum a_i(T) [1 - exp(-k_i P L)]", "327 to 2127 degC, P L 0.001 to 10 atm m, 1 atm in all", "Smith, Shen & Friedman, J. Heat Transfer 104 (1982) 602-608",
     {{"set", "", "1 = CO2, 2 = H2O as much as CO2, 3 = twice, 4 = H2O, 5 = H2O at 1 atm", 2, 1, 5}, {"PL", "atm m", "pressure of both x path", NAN, 0, 10}, {"T", "degC", "gas", NAN, 326.85, 2126.85}}, {{"e", "", "emissivity"}}, grey_gases},
    {"soot_emissivity", "emissivity of soot by its share of the volume", "K = 3.83 C0 fv T/c2; e = 1 - exp(-K L)", "small particles; C0 4.89, of other soots 4.6 to 7", "Modest, Radiative Heat Transfer; index of soot Dalzell & Sarofim 1969 (from memory)",
     {{"fv", "", "share of the volume, usually near 1e-7", NAN, 0, 1e-3}, {"T", "degC", "gas", NAN, 0, 3000}, {"L", "mm", "mean path", NAN, 0, 1e5}}, {{"K", "1/m", "absorption coefficient"}, {"e", "", "emissivity"}}, soot},
    {"flame_emissivity", "emissivity of a luminous flame with its gas", "es = 1 - exp(-K L); e = eg + es - eg es", "grey soot", "K 0.8 of wood cribs: Hagglund & Persson 1976, in Drysdale, Fire Dynamics (from memory)",
     {{"K", "1/m", "absorption coefficient", 0.8, 0, 100}, {"L", "mm", "mean path", NAN, 0, 1e5}, {"eg", "", "emissivity of the gas alone", 0, 0, 1}}, {{"es", "", "soot alone"}, {"e", "", "gas and soot"}}, flame},
    {"mean_beam", "mean path of radiation through a whole enclosure", "L = 3.6 V/A", "any shape, to about 5 %", "Hottel & Sarofim, Radiative Transfer, 1967 (from memory)",
     {{"V", "m3", "volume", NAN, 0, 1e6}, {"A", "m2", "whole surface", NAN, 1e-6, 1e6}}, {{"L", "mm", "mean path"}}, mean_beam},
    {"firebox_exchange", "exchange of a well-stirred firebox with its cooled walls", "1/GS = 1/(A1 e1) + (1/eg - 1)/AT; Q = GS sigma (Tg4 - T1^4)", "one gas zone, cooled and re-radiating walls finely mixed", "Hottel & Sarofim, Radiative Transfer, 1967 (derived again)",
     {{"A1", "m2", "glass and cooled walls", NAN, 1e-6, 1e4}, IN_E1, {"AT", "m2", "all walls", NAN, 1e-6, 1e4}, {"eg", "", "emissivity of the gas", NAN, 0, 1}, {"Tg", "degC", "gas", NAN, 0, 3000}, {"T1", "degC", "cooled walls", NAN, 0, 3000}}, {{"GS", "m2", "exchange area"}, {"Q", "W", "from gas to cooled walls"}}, furnace_exchange},
    {"view_parallel", "view factor of equal rectangles opposite each other", "2/(pi X Y) {ln sqrt[(1 + X2)(1 + Y2)/(1 + X2 + Y2)] + ...}, X = a/c, Y = b/c", "any", CATALOGUE,
     {IN_A, IN_B, {"c", "mm", "apart", NAN, 0, 1e6}}, OUT_VIEW, view_parallel},
    {"view_corner", "view factor of rectangles at a right angle with a common edge", "1/(pi W) {W atan(1/W) + H atan(1/H) - ...}, W = y/x, H = z/x", "any", CATALOGUE,
     {{"x", "mm", "common edge", NAN, 1e-3, 1e6}, {"y", "mm", "depth of the first", NAN, 1e-3, 1e6}, {"z", "mm", "height of the second", NAN, 1e-3, 1e6}}, {{"F12", "", "from first to second"}, {"F21", "", "back"}}, view_corner},
    {"view_discs", "view factor of discs on one axis", "(S - sqrt(S2 - 4 (r2/r1)2))/2, S = 1 + (1 + R2^2)/R1^2", "any", CATALOGUE,
     {{"r1", "mm", "first", NAN, 1e-3, 1e6}, {"r2", "mm", "second", NAN, 1e-3, 1e6}, {"L", "mm", "apart", NAN, 0, 1e6}}, {{"F12", "", "from first to second"}, {"F21", "", "back"}}, view_discs},
    {"view_strips", "view factor of long equal strips", "sqrt(1 + (h/w)2) - h/w", "long against width and distance", "Hottel's crossed strings (derived)",
     {{"w", "mm", "width", NAN, 1e-3, 1e6}, {"h", "mm", "apart", NAN, 0, 1e6}}, OUT_VIEW, view_strips},
    {"crossed_strings", "view factor of two long surfaces of any section", "F = (crossed - uncrossed)/(2 w)", "long surfaces; strings round what stands between", "Hottel's crossed strings (derived)",
     {{"w", "mm", "developed width of the first", NAN, 1e-3, 1e6}, {"c1", "mm", "crossed string", NAN, 0, 1e6}, {"c2", "mm", "other crossed string", NAN, 0, 1e6}, {"u1", "mm", "uncrossed string", NAN, 0, 1e6}, {"u2", "mm", "other uncrossed string", NAN, 0, 1e6}}, OUT_VIEW, crossed_strings},
    {"view_point_parallel", "view factor from a point, parallel to a rectangle and opposite its corner", "1/(2 pi) {X/u atan(Y/u) + Y/v atan(X/v)}, u = sqrt(1 + X2), v = sqrt(1 + Y2), X = a/c, Y = b/c", "any; four of them make the middle", CATALOGUE,
     {IN_A, IN_B, {"c", "mm", "distance", NAN, 1e-3, 1e6}}, OUT_VIEW, view_point_parallel},
    {"view_point_upright", "view factor from a point of a floor to a wall that stands on it", "1/(2 pi) {atan(b/c) - c/s atan(b/s)}, s = sqrt(a2 + c2)", "one bottom corner of the wall opposite the point", CATALOGUE,
     {{"a", "mm", "height of the wall", NAN, 1e-3, 1e6}, {"b", "mm", "width of the wall", NAN, 1e-3, 1e6}, {"c", "mm", "distance", NAN, 1e-3, 1e6}}, OUT_VIEW, view_point_upright},
    {"firebox_views", "what the front wall of a box sees, and the mean path inside", "view_parallel and view_corner of its walls; L = 3.6 V/A", "any", CATALOGUE,
     {{"w", "mm", "width", NAN, 1, 1e5}, {"d", "mm", "depth", NAN, 1, 1e5}, {"h", "mm", "height", NAN, 1, 1e5}}, {{"back", "", "front to back"}, {"floor", "", "front to floor"}, {"side", "", "front to one side"}, {"sum", "", "all five"}, {"L", "mm", "mean path"}}, firebox_views},
    {"flux_ahead", "radiant flux ahead of the middle of a pane", "F of four quarters; q = F J", "pane of even radiosity, target parallel to it on its axis", CATALOGUE,
     {IN_A, IN_B, {"c", "mm", "distance", NAN, 1, 1e6}, {"J", "W/m2", "what leaves the pane", NAN, 0, 1e6}}, {{"F", "", "view factor"}, {"q", "W/m2", "flux on the target"}}, ahead_of_pane},
    {"plates_radiation", "radiation between wide parallel plates, without and with shields", "q = sigma (T1^4 - T2^4)/(1/e1 + 1/e2 - 1 + n (2/es - 1))", "gap small against the plates; shields alike on both sides", EXCHANGE,
     {IN_T1, IN_E1, IN_T2, IN_E2, {"n", "", "shields", 0, 0, 100}, {"es", "", "emissivity of the shields", 1, 0.001, 1}}, {{"bare", "W/m2", "without shields"}, {"q", "W/m2", "with shields"}}, shields},
    {"two_surfaces", "radiation between two grey surfaces", "Q = sigma (T1^4 - T2^4)/[(1 - e1)/(e1 A1) + 1/(A1 F12) + (1 - e2)/(e2 A2)]", "an enclosure of these two; A1 F12 at most A2", EXCHANGE,
     {IN_PAIR}, {{"Q", "W", "from first to second"}}, two_surfaces},
    {"with_lining", "radiation between two surfaces with re-radiating walls round them", "as two_surfaces, 1/[A1 F12 + 1/(1/(A1 F1R) + 1/(A2 F2R))] for 1/(A1 F12)", "both flat or bulging; the other walls as one", EXCHANGE,
     {IN_PAIR}, {{"Q", "W", "from first to second"}, {"TR", "degC", "re-radiating walls"}, {"J1", "W/m2", "leaves the first"}, {"J2", "W/m2", "leaves the second"}, {"JR", "W/m2", "leaves the other walls"}}, with_lining},
    {"glass_slab", "what one slab of glass passes, reflects and absorbs", "T = t(1 - r)2/(1 - r2 t2), R = r(1 + t T), A = (1 - r)(1 - t)/(1 - r t), r = ((n - 1)/(n + 1))2", "straight through, one wavelength", "Siegel & Howell, Thermal Radiation Heat Transfer; Fresnel (from memory)",
     {{"n", "", "index of refraction", 1.54, 1, 4}, {"t", "", "share left after one passage", 1, 0, 1}}, {{"r", "", "one face reflects"}, {"T", "", "passed"}, {"R", "", "reflected"}, {"A", "", "absorbed"}}, slab},
    {"black_fraction", "share of black radiation below a wavelength", "15/pi4 sum e^(-nz)/n (z3 + 3 z2/n + 6 z/n2 + 6/n3), z = c2/(lambda T)", "any", "Planck's law; Chang & Rhee 1984 for the series (from memory)",
     {{"lambda", "um", "wavelength", NAN, 0, 1e6}, {"T", "degC", "source", NAN, -272, 1e4}}, {{"f", "", "share below"}}, black_share},
    {"pane_bands", "a clear stove pane before a black source", "share of each band x what the band passes", "4 mm clear glass-ceramic; bands end at 2.7, 3.3 and 4.2 um", GLASS,
     {{"T", "degC", "source", NAN, -200, 3000}}, {{"f1", "", "share to 2.7 um"}, {"f2", "", "2.7 to 3.3 um"}, {"f3", "", "3.3 to 4.2 um"}, {"f4", "", "above 4.2 um"}, {"passed", "", "share passed"}, {"absorbed", "", "share absorbed"}}, pane_bands},
    {"pane_temperature", "temperature of a stove pane and what it gives the room", "sum e_b [Gf fb(Tf) + sigma Tr4 fb(Tr) - 2 sigma Tg4 fb(Tg)] + hi (Tgas - Tg) - ho (Tg - Tr) = 0", "thin pane of one temperature; drop across 4 mm about 30 K at 12 kW/m2", GLASS,
     {{"Tf", "degC", "fire", NAN, 0, 2000}, {"ef", "", "emissivity of the fire", 0.7, 0, 1}, {"Tgas", "degC", "gas along the pane", NAN, 0, 2000}, {"hi", "W/m2/K", "convection inside", 8, 0, 200}, {"ho", "W/m2/K", "convection outside", 7, 0, 200}, {"Tr", "degC", "room", 20, -30, 60}, {"soot", "", "1 = sooted inside", 0, 0, 1}},
     {{"Tg", "degC", "pane"}, {"passed", "W/m2", "passed to the room"}, {"emitted", "W/m2", "emitted to the room, net"}, {"convected", "W/m2", "given to the room's air"}, {"q", "W/m2", "all three"}}, pane_temperature},
};
/* clang-format on */

const sw_reckon *sw_reckon_radiation(size_t *count)
{
    *count = sizeof rows / sizeof *rows;
    return rows;
}
