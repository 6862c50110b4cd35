/* reckon_flue.c: the formulas of a chimney one by one. Sources stand in each row. */
#include "reckon/reckon_parts.h"
#include "siting/flue/flue.h"

#include <math.h>

static const double percent = 0.01, g_kg = 1e3;

static sw_flue_gas reference_gas(double co2)
{
    const sw_flue_wood wood = sw_flue_wood_reference();
    return sw_flue_gas_of(&wood, percent * co2);
}

/* ---- gas and air ---- */

static void gas(const double *in, double *out)
{
    const sw_flue_wood wood = {percent * in[0], percent * in[1], percent * in[2], percent * in[3], g_kg * in[4]};
    sw_flue_gas of = sw_flue_gas_of(&wood, percent * in[5]);
    bool possible = of.co2_dry <= of.co2_max;
    out[0] = possible ? of.lambda : (double)NAN;
    out[1] = possible ? of.kg_per_kg : (double)NAN;
    out[2] = possible ? g_kg * of.kg_per_kg / in[4] : (double)NAN;
    out[3] = possible ? of.h2o_wet / percent : (double)NAN;
    out[4] = possible ? of.gas_constant : (double)NAN;
    out[5] = possible ? sw_flue_cp(&of, sw_k_from_c(in[6])) : (double)NAN;
}

static void flow(const double *in, double *out)
{
    sw_flue_gas of = reference_gas(in[2]);
    out[0] = g_kg * g_kg * in[0] / in[1] * of.kg_per_kg / sw_flue_wood_reference().lhv;
    out[1] = g_kg * g_kg * in[0] / in[1] * of.air_kg_per_kg / sw_flue_wood_reference().lhv;
}

static void lowest(const double *in, double *out)
{
    const sw_flue_appliance nominal = {in[0] / g_kg, sw_k_from_c(in[1]), in[2], NAN, 0.1, true};
    sw_flue_appliance low = sw_flue_lowest(&nominal);
    out[0] = g_kg * low.kg_s;
    out[1] = sw_c_from_k(low.t_k);
    out[2] = low.need_pa;
}

static void air(const double *in, double *out)
{
    out[0] = sw_flue_air_pressure_pa(in[0], sw_k_from_c(in[1]));
    out[1] = sw_flue_air_density(out[0], sw_k_from_c(in[1]));
}

static void dew(const double *in, double *out)
{
    out[0] = sw_c_from_k(sw_flue_dew_point_k(percent * in[0], in[1]));
    out[1] = percent * in[0] * in[1];
}

static void properties(const double *in, double *out)
{
    sw_flue_gas of = reference_gas(in[1]);
    double t_k = sw_k_from_c(in[0]);
    out[0] = sw_flue_conductivity(t_k);
    out[1] = sw_flue_viscosity(t_k);
    out[2] = sw_flue_cp(&of, t_k);
    out[3] = out[1] * out[2] / out[0];
    out[4] = in[2] / (of.gas_constant * t_k);
}

/* ---- flow and heat ---- */

static void friction(const double *in, double *out)
{
    out[0] = sw_flue_colebrook(in[0], in[1] / in[2]);
    out[1] = sw_flue_colebrook(in[0], 0);
    out[2] = sw_flue_nusselt(in[0], in[3], out[0], out[1], sw_m_from_mm(in[2]) / in[4]);
}

/* Round, 97 000 Pa, 11 % CO2, roughness 1 mm, outer film 8: what a table of chimneys would take. */
static void cooling(const double *in, double *out)
{
    double d_m = sw_m_from_mm(in[2]);
    sw_flue_duct d = {.hydraulic_m = d_m, .area_m2 = SW_PI / 4 * d_m * d_m, .perimeter_m = SW_PI * d_m};
    d.outer_m = sw_m_from_mm(in[5]);
    d.length_m = d.whole_m = in[3];
    d.roughness_m = sw_m_from_mm(1);
    d.resistance = in[4];
    d.outer_h = 8;
    d.around_k = sw_k_from_c(in[6]);
    d.s_h = in[7];
    sw_flue_gas of = reference_gas(11);
    sw_flue_line l = sw_flue_cool(&d, &of, in[0] / g_kg, sw_k_from_c(in[1]), 97000);
    out[0] = d.outer_m >= d_m ? sw_c_from_k(l.mean_k) : (double)NAN;
    out[1] = d.outer_m >= d_m ? sw_c_from_k(l.exit_k) : (double)NAN;
    out[2] = l.K;
    out[3] = l.k;
    out[4] = l.inner_h;
    out[5] = l.velocity_m_s;
}

static void inner_wall(const double *in, double *out)
{
    double k = 1 / (1 / in[2] + in[3] + in[4] / (in[5] * in[6]));
    out[0] = sw_c_from_k(sw_flue_wall_k(sw_k_from_c(in[0]), sw_k_from_c(in[1]), in[2], k));
    out[1] = k;
}

static void layer(const double *in, double *out)
{
    out[0] = in[4] > in[3] ? sw_flue_layer_resistance(in[0], sw_m_from_mm(in[1]), in[2], in[3], in[4]) : (double)NAN;
}

static void air_gap(const double *in, double *out)
{
    double hot_k = sw_k_from_c(in[0]), cold_k = sw_k_from_c(in[2]), over_k = hot_k - cold_k;
    out[0] = over_k > 0 ? sw_plates_exchange(hot_k, in[1], cold_k, in[3]) / over_k : (double)NAN;
    out[1] = 1 / (out[0] + in[4]);
}

/* ---- pressures ---- */

static void draught(const double *in, double *out)
{
    double outside_k = sw_k_from_c(in[1]), p_pa = sw_flue_air_pressure_pa(in[3], outside_k);
    out[1] = sw_flue_air_density(p_pa, outside_k);
    out[2] = p_pa / (reference_gas(11).gas_constant * sw_k_from_c(in[2]));
    out[0] = sw_flue_draught_pa(in[0], out[1], out[2]);
}

/* At 97 000 Pa, gas of 11 % CO2. */
static void resistance(const double *in, double *out)
{
    double d_m = sw_m_from_mm(in[1]), density = 97000 / (reference_gas(11).gas_constant * sw_k_from_c(in[2]));
    double velocity = in[0] / g_kg / (SW_PI / 4 * d_m * d_m * density), re = velocity * d_m * density;
    re /= sw_flue_viscosity(sw_k_from_c(in[2]));
    out[1] = density * velocity * velocity / 2;
    out[2] = sw_flue_colebrook(re, in[5] / in[1]);
    out[0] = (out[2] * in[3] / d_m + in[4]) * out[1];
    out[3] = in[6] * out[0];
    out[4] = velocity;
    out[5] = re;
}

static void steps(const double *in, double *out)
{
    double ratio = in[1] / in[0];
    out[0] = ratio >= 1 ? sw_flue_zeta_widening(in[0] * in[0], in[1] * in[1]) : (double)NAN;
    out[1] = ratio <= 1 ? 1 - ratio * ratio * ratio * ratio : (double)NAN;
    out[2] = ratio <= 1 ? 1 / (ratio * ratio * ratio * ratio) - 1 : (double)NAN;
}

static void supply(const double *in, double *out)
{
    double area_m2 = sw_m2_from_mm2(in[1]);
    out[1] = sw_h_from_s(in[0]) / (area_m2 * in[4]);
    out[0] = in[3] * in[2] * in[4] * out[1] * out[1] / 2;
}

static void wind(const double *in, double *out)
{
    const sw_roof roof = {.pitch_rad = sw_rad_from_deg(in[0]), .ridge_m = in[1], .above_m = in[2]};
    bool adverse = sw_flue_adverse(&roof);
    out[0] = adverse ? 1 : 0;
    out[1] = adverse ? sw_flue_wind_pa(SW_WIND_INLAND) : 0;
    out[2] = adverse ? sw_flue_wind_pa(SW_WIND_COAST) : 0;
    out[3] = in[2] - in[1] * tan(roof.pitch_rad);
}

static void gust(const double *in, double *out)
{
    out[0] = sw_flue_gust_pa(SW_WIND_INLAND, in[0], in[1]);
}

/* ---- stabiliser, fire door ---- */

static void mix(const double *in, double *out)
{
    const sw_flue_wood wood = sw_flue_wood_reference();
    sw_flue_gas of = reference_gas(in[2]), thin = sw_flue_gas_thinned(&wood, &of, in[3] / in[0]);
    out[0] = sw_c_from_k(sw_flue_mixed_k(&of, &thin, in[3] / in[0], sw_k_from_c(in[1]), sw_k_from_c(in[4])));
    out[1] = thin.co2_dry / percent;
    out[2] = thin.h2o_wet / percent;
    out[3] = sw_c_from_k(sw_flue_dew_point_k(thin.h2o_wet, in[5]));
}

static void disc(const double *in, double *out)
{
    out[0] = g_kg * sw_flue_stabiliser_kg_s(sw_m_from_mm(in[0]), in[1], in[2]);
}

static void door(const double *in, double *out)
{
    double area_m2 = sw_m2_from_mm2(in[0] * in[1]);
    out[0] = in[2] * area_m2 * in[3];
    out[1] = sw_flue_door_loss_pa(out[0], area_m2, in[3]);
    out[0] *= g_kg;
}

static void plate(const double *in, double *out)
{
    double d_m = sw_m_from_mm(in[2]), density = 97000 / (reference_gas(11).gas_constant * sw_k_from_c(in[3]));
    double velocity = in[1] / g_kg / (SW_PI / 4 * d_m * d_m * density);
    out[1] = density * velocity * velocity / 2;
    out[0] = in[0] / out[1];
}

/* ---- cold ---- */

static void standing(const double *in, double *out)
{
    out[0] = sw_flue_standing_pa(in[0], sw_k_from_c(in[1]), sw_k_from_c(in[2]), in[3]);
}

static void soak(const double *in, double *out)
{
    double depth_m = sqrt(in[0] / (in[1] * in[2]) * sw_s_from_min(in[3])),
           used_m = in[4] > 0 ? fmin(depth_m, sw_m_from_mm(in[4])) : depth_m;
    out[0] = sw_mm_from_m(depth_m);
    out[1] = in[1] * in[2] * used_m / g_kg;
    out[2] = sw_min_from_s(in[1] * in[2] * used_m / in[5]);
}

/* clang-format off */
#define EN(clause) "EN 13384-1 cl. " clause " (from memory)"
#define WOODS      "wood of C 42, H 5.04, O 36.54, water 16 %, 15 065 kJ/kg"
#define IN_CO2     {"CO2", "%", "carbon dioxide, dry", 11, 2, 20.4}
#define IN_FLOW    {"m", "g/s", "flue gas", NAN, 1e-3, 1000}
#define IN_TL      {"TL", "degC", "outside", 15, -60, 45}
#define IN_ALT     {"z", "m", "altitude", 0, -430, 5000}
#define IN_P       {"p", "Pa", "air pressure", 97000, 2e4, 1.1e5}
#define IN_D       {"D", "mm", "inside", 150, 40, 2000}
#define IN_H       {"H", "m", "height", NAN, 0, 200}
#define IN_ROUGH   {"r", "mm", "roughness: welded steel 1, clay 1.5, seamed 2, concrete 3, brick 5", 1, 0, 20}

static const sw_reckon rows[] = {
    {"chimney_gas", "flue gas of wood by its CO2", "n_s = (n_C/x - n_C + n_O2)/4.77327; sigma(H2O) = n_H2O/n + 1.1 %; R = 8314.46/M; cp by Shomate", "complete combustion, CO2 to its largest", "combustion calculation (from memory); humidity " EN("5.7.6") "; cp: NIST Chemistry WebBook (seen)",
     {{"C", "%", "carbon as fired", 42, 5, 95}, {"H", "%", "hydrogen as fired", 5.04, 0, 25}, {"O", "%", "oxygen as fired", 36.54, 0, 60}, {"W", "%", "water as fired", 16, 0, 80}, {"Hu", "kJ/kg", "net heating value as fired", 15065, 1e3, 1e5}, IN_CO2, {"t", "degC", "for cp", 200, 25, 1200}},
     {{"lambda", "", "excess air ratio"}, {"mg", "kg/kg", "wet gas"}, {"m_kw", "g/s", "gas per kW of fuel"}, {"H2O", "%", "water in the wet gas with the air's humidity"}, {"R", "J/(kg K)", "gas constant"}, {"cp", "J/(kg K)", "heat capacity"}}, gas},
    {"chimney_flow", "flue gas and air of a stove by its output", "m = Q/eta m_g/H_u", WOODS, "combustion calculation (from memory)",
     {{"Q", "kW", "heat output", NAN, 0.1, 1000}, {"eta", "", "efficiency", 0.79, 0.1, 1}, IN_CO2}, {{"m", "g/s", "flue gas"}, {"ma", "g/s", "air"}}, flow},
    {"chimney_lowest", "lowest output where none is declared", "m/3, 2/3 t, P_W/9 (ours)", "room heaters", EN("5.5") "; need: ours, the same openings",
     {IN_FLOW, {"t", "degC", "gas at nominal output", NAN, 50, 1000}, {"PW", "Pa", "draught needed", 12, 0, 200}}, {{"m", "g/s", "flue gas"}, {"t", "degC", "gas"}, {"PW", "Pa", "draught needed"}}, lowest},
    {"chimney_air", "outside air of the chimney calculation", "p = 97000 exp(-9.81 z/(288 T)); rho = p/(288 T)", "-430 to 5000 m", EN("5.7.2, 5.7.4"), {IN_ALT, IN_TL}, {{"p", "Pa", "pressure"}, {"rho", "kg/m3", "density"}}, air},
    {"chimney_dew_point", "water dew point of flue gas", "t = 4077.9/(23.6448 - ln pD) - 236.67", "5 to 80 degC; no acid rise for wood", EN("5.7.6"), {{"H2O", "%", "water in the wet gas", NAN, 0.1, 100}, IN_P}, {{"tp", "degC", "dew point"}, {"pD", "Pa", "partial pressure of water"}}, dew},
    {"chimney_gas_properties", "gas in a chimney", "lambda = 0.0223 + 0.000065 t; eta = 15e-6 + 47e-9 t - 20e-12 t2; Pr = eta cp/lambda; rho = p/(R T)", WOODS, "EN 13384-1 annex (from memory); cp: NIST Chemistry WebBook (seen)",
     {{"t", "degC", "mean gas", NAN, -50, 1000}, IN_CO2, IN_P}, {{"lambda", "W/(m K)", "conductivity"}, {"eta", "Pa s", "viscosity"}, {"cp", "J/(kg K)", "heat capacity"}, {"Pr", "", "Prandtl number"}, {"rho", "kg/m3", "density"}}, properties},
    {"chimney_friction", "friction and heat transfer in a chimney", "1/sqrt psi = -2 log10(2.51/(Re sqrt psi) + r/(3.71 D)); Nu = (psi/psi_s)^0.67 0.0214 (Re^0.8 - 100) Pr^0.4 (1 + (D/L)^0.67)", "Re from 2300 (slower counts as 2300) to 1e7, psi/psi_s to 3, Pr 0.6 to 1.5", EN("5.8.3.2") "; Colebrook 1939 (from memory)",
     {{"Re", "", "Reynolds number", NAN, 0, 1e7}, IN_ROUGH, IN_D, {"Pr", "", "Prandtl number", 0.73, 0.6, 1.5}, {"L", "m", "whole length of the duct", 5, 0.1, 200}}, {{"psi", "", "friction factor"}, {"psi_s", "", "of a smooth wall"}, {"Nu", "", "Nusselt number"}}, friction},
    {"chimney_cooling", "gas on its way up a round chimney", "To = Tu + (Te - Tu) exp(-K); Tm = Tu + (Te - Tu)(1 - exp(-K))/K; K = U k L/(m cp); k = 1/(1/ai + SH (R + D/(Da 8)))", "97 000 Pa, 11 % CO2, roughness 1 mm, inside the house; " WOODS, EN("5.8") "; quantities of k: EN 13084-1 annex A.4 (seen)",
     {IN_FLOW, {"Te", "degC", "gas that enters", NAN, 20, 1000}, IN_D, {"L", "m", "length", NAN, 1e-3, 200}, {"R", "m2K/W", "resistance of the wall at its inner face", 0.4, 0, 100}, {"Da", "mm", "outside", 200, 40, 5000}, {"Tu", "degC", "air round it", 15, -60, 45}, {"SH", "", "0.5 for draught, 1 at equilibrium", 1, 0, 1}},
     {{"Tm", "degC", "mean gas"}, {"To", "degC", "gas that leaves"}, {"K", "", "cooling number"}, {"k", "W/(m2K)", "heat transmission"}, {"ai", "W/(m2K)", "inner film"}, {"w", "m/s", "velocity"}}, cooling},
    {"chimney_inner_wall", "inner wall at the outlet", "T = To - k/ai (To - Tu); k = 1/(1/ai + R + D/(Da aa))", "equilibrium", "GOST R 59978.2-2022 table 2 (seen)",
     {{"To", "degC", "gas", NAN, -50, 1000}, {"Tu", "degC", "air round the outlet", -15, -60, 45}, {"ai", "W/(m2K)", "inner film", 2, 0.01, 1e3}, {"R", "m2K/W", "resistance of the wall", NAN, 0, 100}, {"D", "mm", "inside", 150, 10, 5000}, {"Da", "mm", "outside", NAN, 10, 5000}, {"aa", "W/(m2K)", "outer film: 23 outdoors, 8 inside or clad", 23, 0.1, 1e3}}, {{"T", "degC", "inner wall"}, {"k", "W/(m2K)", "heat transmission"}}, inner_wall},
    {"chimney_layer", "thermal resistance of one layer round a flue", "R = y D/(2 lambda) ln(Dout/Din)", "y 1 round, 1.1 square to 1 : 1.5; at the flue's inner face", "EN 13384-1 annex A (from memory)",
     {{"y", "", "form", 1, 1, 1.1}, {"D", "mm", "flue inside", 150, 10, 5000}, {"lambda", "W/(m K)", "conductivity: wool 0.065, brick 0.75, clay 1.1", NAN, 1e-3, 500}, {"Din", "mm", "layer inside", NAN, 10, 5000}, {"Dout", "mm", "layer outside", NAN, 10, 5000}}, {{"R", "m2K/W", "resistance"}}, layer},
    {"chimney_air_gap", "closed air gap round a liner", "hr = sigma (T1^4 - T2^4)/((1/e1 + 1/e2 - 1)(T1 - T2)); R = 1/(hr + hc)", "grey surfaces facing each other", "grey plates; hc 1.3: handbook S1.9 (computed)",
     {{"T1", "degC", "liner", 150, -50, 1000}, {"e1", "", "its emissivity", 0.5, 0.01, 1}, {"T2", "degC", "shaft", 60, -50, 1000}, {"e2", "", "its emissivity", 0.9, 0.01, 1}, {"hc", "W/(m2K)", "convection and conduction", 1.3, 0, 100}}, {{"hr", "W/(m2K)", "radiation"}, {"R", "m2K/W", "resistance"}}, air_gap},
    {"chimney_draught", "theoretical draught", "P = H g (rho_L - rho_m), g 9.81", "gas of 11 % CO2, " WOODS, EN("5.10.2"),
     {IN_H, IN_TL, {"Tm", "degC", "mean gas", NAN, -50, 1000}, IN_ALT}, {{"PH", "Pa", "draught"}, {"rho_L", "kg/m3", "outside air"}, {"rho_m", "kg/m3", "gas"}}, draught},
    {"chimney_resistance", "resistance of a round flue", "PE = (psi L/D + zeta) rho w2/2; PR = SE PE", "97 000 Pa, 11 % CO2", EN("5.10.3") "; zeta: ASHRAE (from memory): elbow 0.75, 45 degrees 0.3, tee 1.25, cap 0.5 (seen)",
     {IN_FLOW, IN_D, {"Tm", "degC", "mean gas", NAN, -50, 1000}, {"L", "m", "length", NAN, 0, 200}, {"zeta", "", "sum of single losses", 0, 0, 1e3}, IN_ROUGH, {"SE", "", "flow safety", 1.5, 1, 2}}, {{"PE", "Pa", "loss"}, {"q", "Pa", "dynamic pressure"}, {"psi", "", "friction factor"}, {"PR", "Pa", "loss with safety"}, {"w", "m/s", "velocity"}, {"Re", "", "Reynolds number"}}, resistance},
    {"chimney_steps", "losses where the section changes", "sudden widening (1 - A1/A2)2; reducer 1 - (d2/d1)4, exit cone (d1/d2)4 - 1", "on the velocity of the pipe before", "Borda and Carnot; ASHRAE (both from memory)",
     {{"d1", "mm", "before", NAN, 1, 5000}, {"d2", "mm", "after", NAN, 1, 5000}}, {{"widening", "", "zeta"}, {"reducer", "", "zeta"}, {"cone", "", "zeta at the outlet"}}, steps},
    {"chimney_supply", "what combustion air costs on its way in", "PB = SEB zeta rho w2/2", "one opening or duct", "EN 13384-1 (from memory); SEB 1.2 doubtful",
     {{"m", "kg/h", "air", NAN, 0, 1e4}, {"A", "mm2", "free area", NAN, 1, 1e7}, {"zeta", "", "psi L/D and single losses; a plain opening 2.7", 2.7, 0, 1e4}, {"SEB", "", "safety", 1.2, 1, 2}, {"rho", "kg/m3", "air", 1.2, 0.5, 2}}, {{"PB", "Pa", "pressure"}, {"w", "m/s", "velocity"}}, supply},
    {"chimney_wind", "wind at the outlet by the roof's geometry", "adverse: under 0.4 m over the ridge, roof within 2.3 m at its level, and pitch over 40 degrees, or over 25 and more than 1 m from the ridge", "the geometry is doubtful", EN("5.10.4 and annex C"),
     {{"pitch", "deg", "roof", NAN, 0, 80}, {"ridge", "m", "plan distance to the ridge", NAN, 0, 100}, {"above", "m", "outlet above where it leaves the roof", NAN, 0, 50}}, {{"adverse", "", "1 = adverse zone"}, {"inland", "Pa", "wind pressure inland"}, {"coast", "Pa", "at the coast"}, {"over", "m", "outlet over the ridge"}}, wind},
    {"chimney_gust", "what a wind presses on an outlet in an adverse zone", "P = rho v2/2", "pressure coefficient 1, the highest; in the free stream none is counted", "stagnation pressure, textbooks",
     {{"v", "m/s", "wind at the outlet", NAN, 0, 60}, {"rho", "kg/m3", "air", 1.2, 0.5, 2}}, {{"P", "Pa", "pressure"}}, gust},
    {"stabiliser_mix", "gas and the room air of a draught stabiliser", "m cp (T - Tr) before and after; oxygen supplied in proportion to all the air", WOODS, "balances of heat and mass (physics)",
     {IN_FLOW, {"T", "degC", "gas", NAN, 20, 1000}, IN_CO2, {"air", "g/s", "room air", NAN, 0, 1000}, {"Tr", "degC", "room", 20, -20, 45}, {"p", "Pa", "air pressure", 97000, 2e4, 1.1e5}}, {{"T", "degC", "both together"}, {"CO2", "%", "of both, dry"}, {"H2O", "%", "of both"}, {"tp", "degC", "dew point"}}, mix},
    {"stabiliser_open", "room air through a stabiliser's disc that is wide open", "m = 0.6 pi/4 D2 sqrt(2 rho P)", "sharp opening", "Bernoulli; Cd textbook (from memory)",
     {{"D", "mm", "disc", 150, 10, 1000}, {"P", "Pa", "draught where it stands, over the room", NAN, 0, 500}, {"rho", "kg/m3", "room air", 1.15, 0.5, 2}}, {{"m", "g/s", "air"}}, disc},
    {"door_open", "room air that keeps smoke in an open fire door", "m = rho w W H; P = (m/(0.6 W H))2/(2 rho)", "mean velocity of open fireplaces; for a stove's door common practice", "0.8 ft/s: ASHRAE Handbook, chimney chapter (from memory); sharp opening, textbook",
     {{"W", "mm", "opening, wide", NAN, 10, 3000}, {"H", "mm", "opening, high", NAN, 10, 3000}, {"w", "m/s", "mean velocity", 0.24, 0, 10}, {"rho", "kg/m3", "room air", 1.15, 0.5, 2}}, {{"m", "g/s", "air"}, {"P", "Pa", "what the opening takes"}}, door},
    {"chimney_plate", "a fixed plate that would take too much draught", "zeta = excess/(rho w2/2)", "97 000 Pa, 11 % CO2", "definition of a loss coefficient",
     {{"excess", "Pa", "draught to take away", NAN, 0, 500}, IN_FLOW, IN_D, {"t", "degC", "gas in the pipe", NAN, -50, 1000}}, {{"zeta", "", "loss coefficient"}, {"q", "Pa", "dynamic pressure"}}, plate},
    {"standing_draught", "draught of a shaft before lighting", "P = H g p/287.05 (1/Tout - 1/Tshaft)", "still air; negative: it falls", "hydrostatics, ideal gas",
     {IN_H, {"Tout", "degC", "outside", NAN, -60, 60}, {"Tshaft", "degC", "shaft", NAN, -60, 400}, {"p", "Pa", "air pressure", 101325, 2e4, 1.1e5}}, {{"P", "Pa", "draught"}}, standing},
    {"chimney_soak", "heat a cold flue takes up", "depth = sqrt(a t); tau = rho c s/ai", "order of magnitude", "conduction into a thick wall, textbooks",
     {{"lambda", "W/(m K)", "conductivity", 0.75, 1e-3, 500}, {"rho", "kg/m3", "density", 1800, 1, 2e4}, {"c", "J/(kg K)", "heat capacity", 840, 10, 1e4}, {"time", "min", "after lighting", 30, 0, 1e4}, {"s", "mm", "thickness; 0 = thick", 0, 0, 5000}, {"ai", "W/(m2K)", "inner film", 2, 0.01, 1e3}}, {{"depth", "mm", "heat has gone so far"}, {"heat", "kJ/(m2K)", "taken up"}, {"tau", "min", "time constant"}}, soak},
};
/* clang-format on */

const sw_reckon *sw_reckon_flue(size_t *count)
{
    *count = sizeof rows / sizeof *rows;
    return rows;
}
