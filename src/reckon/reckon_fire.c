/* reckon_fire.c: wood, its air and gas, losses, flames, batches, by hand. Sources stand in each row; the functions are those of
 * burning/fire. */
#include "burning/fire/fire.h"
#include "reckon/reckon_parts.h"

#include <math.h>

#define MOLES      "derived: balance of moles, dry air of 20.95 % O2"
#define CHANNIWALA "Channiwala & Parikh, Fuel 81 (2002) 1051 (from memory)"
#define ISO18125   "ISO 18125 form, 2.443 MJ/kg at 25 degC (from memory)"
#define EN13240    "EN 13240:2001 annex A (from memory)"
#define NASA7      "NASA polynomials, GRI-Mech 3.0 (found)"
#define SHAPE      "engineering model of this program (docs/studies/fire.md)"
#define PRACTICE   "common practice, no source"

static const double kilo = 1e3, mega = 1e6, percent = 100, m3n_kmol = 22.414, air_kg_kmol = 28.964;
static const double nothing = 1e-9; /* where 0/0 stands for no number */

/* Composition as the rows below list it: C H O N a w. */
static sw_fuel wood(const double *in)
{
    return (sw_fuel){.name = "",
                     .c = in[0],
                     .h = in[1],
                     .o = in[2],
                     .n = in[3],
                     .ash = in[4],
                     .moisture = in[5],
                     .lhv_dry = NAN,
                     .source = ""};
}

static sw_fuel dry_wood(const double *in) /* C H O N alone */
{
    const double all[] = {in[0], in[1], in[2], in[3], 0, 0};
    return wood(all);
}

static sw_fuel beech(double moisture)
{
    sw_fuel f = *sw_fuel_find("beech logs");
    f.moisture = moisture;
    return f;
}

/* ---- fuel ---- */

static void moisture(const double *in, double *out)
{
    out[0] = percent * sw_moisture_dry_basis(in[0]);
}

static void as_fired(const double *in, double *out)
{
    double daf = (1 - in[4]) * (1 - in[5]);
    for (int i = 0; i < 4; i++) out[i] = in[i] * daf;
    out[4] = in[4] * (1 - in[5]);
    out[5] = in[5];
}

static void heating_value(const double *in, double *out)
{
    sw_fuel f = wood(in);
    out[0] = sw_fuel_hhv_dry(&f) / mega;
    out[1] = sw_fuel_lhv_dry(&f) / mega;
    out[2] = sw_fuel_lhv(&f) / mega;
    out[3] = sw_h_from_s(sw_fuel_lhv(&f)) / kilo;
}

static void lhv_of_moisture(const double *in, double *out)
{
    sw_fuel f = beech(in[1]);
    f.lhv_dry = in[0] * mega;
    out[0] = sw_fuel_lhv(&f) / mega;
    out[1] = sw_h_from_s(sw_fuel_lhv(&f)) / kilo;
}

static void batch_mass(const double *in, double *out)
{
    out[0] = sw_fire_batch_kg(in[0] * kilo, sw_s_from_min(in[1]), in[2] * mega, in[3] / percent);
    out[1] = out[0] / sw_h_from_s(sw_s_from_min(in[1]));
}

/* ---- air and gas ---- */

static void wood_air(const double *in, double *out)
{
    sw_fuel f = wood(in);
    sw_fire_gas g = sw_fire_gas_of(&f, 1, 0);
    out[0] = g.air_min_kg;
    out[1] = g.air_min_kg / air_kg_kmol * m3n_kmol;
    out[2] = g.dry_m3n;
    out[3] = g.wet_m3n;
    out[4] = percent * g.co2_max_dry;
    out[5] = percent * g.h2o_wet;
}

static sw_fire_gas gas_of(const double *in) /* C H O N a w lambda xw */
{
    sw_fuel f = wood(in);
    return sw_fire_gas_of(&f, in[6], in[7]);
}

static void wood_gas(const double *in, double *out)
{
    sw_fire_gas g = gas_of(in);
    out[0] = g.air_kg;
    out[1] = g.gas_kg;
    out[2] = g.dry_m3n;
    out[3] = g.wet_m3n;
    out[4] = g.gas_kg / g.wet_m3n;
    out[5] = g.gas_kg / (g.wet_m3n / m3n_kmol);
}

static void wood_gas_shares(const double *in, double *out)
{
    sw_fire_gas g = gas_of(in);
    double wet_kmol = sw_mixture_kmol(&g.wet);
    out[0] = percent * g.co2_dry;
    out[1] = percent * g.o2_dry;
    out[2] = percent * g.wet.kmol[SW_GAS_CO2] / wet_kmol;
    out[3] = percent * g.wet.kmol[SW_GAS_O2] / wet_kmol;
    out[4] = percent * g.h2o_wet;
    out[5] = sw_c_from_k(g.dew_point_k);
}

static void excess_air_o2(const double *in, double *out)
{
    sw_fuel f = dry_wood(in + 2);
    double o2 = (in[0] - in[1] / 2) / percent, co2_max = sw_fire_gas_of(&f, 1, 0).co2_max_dry;
    out[0] = sw_fire_lambda_from_o2(&f, o2);
    out[1] = o2 < 0.2095 - nothing ? 0.2095 / (0.2095 - o2) : (double)NAN;
    out[2] = percent * co2_max * (1 - o2 / 0.2095);
}

static void excess_air_co2(const double *in, double *out)
{
    sw_fuel f = dry_wood(in + 2);
    double co2 = (in[0] + in[1]) / percent, co2_max = sw_fire_gas_of(&f, 1, 0).co2_max_dry;
    out[0] = sw_fire_lambda_from_co2(&f, co2);
    out[1] = co2 > nothing ? co2_max / co2 : (double)NAN;
    out[2] = percent * 0.2095 * (1 - co2 / co2_max);
}

static void reference_oxygen(const double *in, double *out)
{
    out[0] = sw_fire_at_reference_o2(in[0], in[1] / percent, in[2] / percent);
}

static void co_units(const double *in, double *out)
{
    out[0] = sw_fire_co_mg_m3n(in[0] / mega);
    out[1] = sw_fire_at_reference_o2(out[0], in[1] / percent, in[2] / percent);
}

static void per_megajoule(const double *in, double *out)
{
    sw_fuel f = wood(in + 2);
    out[0] = sw_fire_mg_mj(&f, in[0], in[1] / percent);
    out[1] = sw_fire_dry_m3n(&f, in[1] / percent);
    out[2] = out[1] / (sw_fuel_lhv(&f) / mega);
}

/* ---- water ---- */

static void humidity(const double *in, double *out)
{
    out[0] = sw_air_humidity(sw_k_from_c(in[0]), in[1] / percent);
    out[1] = out[0] * 18.015 / air_kg_kmol;
}

/* ---- losses ---- */

static void flue_loss(const double *in, double *out)
{
    sw_fuel f = dry_wood(in);
    f.ash = 0.005;
    f.moisture = in[4];
    sw_fire_gas g = sw_fire_gas_of(&f, in[5], 0);
    sw_fire_losses l = sw_fire_losses_at(&f, &g, sw_k_from_c(in[6]), sw_k_from_c(in[7]), 0, 0);
    out[0] = percent * l.sensible;
    out[1] = l.sensible * g.lhv / mega;
    out[2] = percent * l.standard_sensible;
    out[3] = sw_mixture_cp_j_k(&g.wet, sw_k_from_c(in[6])) / g.gas_kg / kilo;
    out[4] = percent * g.co2_dry;
    out[5] = percent * g.o2_dry;
}

static void flue_loss_short(const double *in, double *out)
{
    sw_fuel f = {.name = "", .source = ""}; /* as fired: what is neither ash nor water carries C and H */
    f.moisture = in[2] / percent;
    f.c = in[0] / percent / (1 - f.moisture);
    f.h = in[1] / percent / (1 - f.moisture);
    sw_fire_short s =
        sw_fire_short_losses(&f, in[3] / percent, in[4] / percent, sw_k_from_c(in[5]), sw_k_from_c(in[6]));
    out[0] = s.cp_dry / kilo;
    out[1] = s.cp_water / kilo;
    out[2] = s.sensible_j / kilo;
    out[3] = s.co_j / kilo;
    out[4] = percent * s.sensible_j / (in[7] * mega);
    out[5] = percent * s.co_j / (in[7] * mega);
}

static void residue(const double *in, double *out)
{
    out[0] = sw_fire_residue_j(in[0] / percent, in[1] / percent) / kilo;
    out[1] = percent * out[0] * kilo / (in[2] * mega);
}

static void stove_efficiency(const double *in, double *out)
{
    sw_fuel f = beech(in[0]);
    sw_fire_gas g = sw_fire_gas_of(&f, in[1], 0);
    double co = sw_fire_at_reference_o2(in[4] / mega, 0.13, g.o2_dry);
    sw_fire_losses l = sw_fire_losses_at(&f, &g, sw_k_from_c(in[2]), sw_k_from_c(in[3]), co, in[5] / percent);
    out[0] = percent * l.efficiency;
    out[1] = percent * l.sensible;
    out[2] = percent * l.co;
    out[3] = percent * l.residue;
    out[4] = percent * l.standard_efficiency;
}

static void flame(const double *in, double *out)
{
    sw_fuel f = wood(in);
    out[0] = sw_c_from_k(sw_fire_flame_k(&f, in[6], sw_k_from_c(in[7])));
}

/* ---- batches, loading ---- */

static void volatiles(const double *in, double *out)
{
    double time_s = sw_s_from_min(in[0]), tau_s = sw_s_from_min(in[1]);
    out[0] = percent * sw_batch_released(time_s, tau_s);
    out[1] = percent * sw_s_from_min(sw_batch_rate_1_s(time_s, tau_s));
    out[2] = percent * exp(-in[0] / in[2]);
}

static void char_heat(const double *in, double *out)
{
    sw_fuel f = beech(0);
    f.lhv_dry = in[2] * mega;
    f.ash = in[3];
    sw_batch_model m = sw_batch_model_defaults();
    m.char_share = in[0];
    m.char_lhv = in[1] * mega;
    double daf = f.lhv_dry / (1 - f.ash);
    out[0] = percent * m.char_share * m.char_lhv / daf;
    out[1] = sw_batch_volatile_lhv(&f, &m) / mega;
}

static void char_air(const double *in, double *out)
{
    sw_fuel f = beech(0);
    sw_batch_model m = sw_batch_model_defaults();
    m.char_lambda = in[1];
    m.char_s = sw_s_from_min(in[3]);
    sw_batch_state bed = {.char_kg = in[2]}, d;
    out[0] = kilo * sw_batch_rates_at(&bed, &f, &m, in[0] / kilo, 900, &d).char_kg_s;
    out[1] = kilo * in[2] / m.char_s;
}

static void log_through(const double *in, double *out)
{
    out[0] = in[0] / 2 / in[1];
}

static void loading(const double *in, double *out)
{
    out[0] = in[0] / in[2];
    out[1] = in[0] / in[3];
    out[2] = in[1] / in[2];
}

static void masonry(const double *in, double *out)
{
    out[0] = 900 * in[0];
    out[1] = 100 * in[0];
    out[2] = 25 + in[0];
}

/* ---- firebox ---- */

static void firebox(const double *in, double *out)
{
    sw_fuel f = beech(0.16);
    sw_furnace z = {.fuel_kg_s = in[0] * kilo / sw_fuel_lhv(&f),
                    .burned_share = 1,
                    .lambda = in[1],
                    .air_k = sw_k_from_c(25),
                    .volume_m3 = in[2],
                    .area_m2 = in[3],
                    .sink_m2 = in[4],
                    .sink_e = in[6],
                    .sink_k = sw_k_from_c(in[5]),
                    .soot_k_1_m = in[7]};
    sw_furnace_result r;
    bool settled = z.sink_m2 <= z.area_m2 && sw_furnace_balance(&f, &z, &r) == SW_OK;
    for (int i = 0; i < 5; i++) out[i] = NAN;
    if (!settled) return;
    out[0] = sw_c_from_k(r.gas_k);
    out[1] = r.emissivity;
    out[2] = r.exchange_m2;
    out[3] = r.radiant_w;
    out[4] = r.leaving_w;
}

/* clang-format off */
#define IN_C {"C", "", "carbon of dry, ash-free wood", 0.495, 0, 0.95}
#define IN_H {"H", "", "hydrogen", 0.062, 0.004, 0.25}
#define IN_O {"O", "", "oxygen", 0.441, 0, 0.5}
#define IN_N {"N", "", "nitrogen", 0.002, 0, 0.05}
#define IN_A {"a", "", "ash of dry mass", 0.005, 0, 0.7}
#define IN_W {"w", "", "moisture, share of the whole", 0.16, 0, 0.6}
#define IN_WOOD IN_C, IN_H, IN_O, IN_N, IN_A, IN_W
#define IN_DRY IN_C, IN_H, IN_O, IN_N
#define IN_LAMBDA {"lambda", "", "excess air", 2.2, 1, 20}
#define IN_XW {"xw", "", "kmol water per kmol dry air", 0, 0, 0.2}
#define IN_LHV {"LHV", "MJ/kg", "net heating value as fired", 15.204, 1, 50}
#define IN_TA {"ta", "degC", "flue gas", NAN, 0, 1000}
#define IN_TR {"tr", "degC", "room", 20, -30, 60}
#define IN_O2 {"O2", "%", "oxygen, dry", NAN, 0, 20.9}
#define IN_REF {"ref", "%", "reference oxygen", 13, 0, 20.9}

static const sw_reckon rows[] = {
    {"wood_moisture", "moisture on dry wood from that on the whole", "u = w/(1 - w)", "w below 1", "definition",
     {{"w", "", "water, share of the whole", NAN, 0, 0.95}}, {{"u", "%", "water of dry wood"}}, moisture},
    {"wood_as_fired", "composition as fired from dry, ash-free", "x = x_daf (1 - a)(1 - w); ash a (1 - w)", "any", "definition",
     {IN_WOOD}, {{"C", "", "carbon"}, {"H", "", "hydrogen"}, {"O", "", "oxygen"}, {"N", "", "nitrogen"}, {"ash", "", "ash"}, {"w", "", "water"}}, as_fired},
    {"wood_heating_value", "heating values of wood from its composition", "HHV = 0.3491 C + 1.1783 H - 0.1034 O - 0.0151 N - 0.0211 A; LHV = (HHV - 2.443 8.936 H)(1 - w) - 2.443 w", "C to 92 %, H to 25 %, O to 50 % of dry mass; 1.5 %", CHANNIWALA "; " ISO18125,
     {IN_WOOD}, {{"HHV_d", "MJ/kg", "gross, dry"}, {"LHV_d", "MJ/kg", "net, dry"}, {"LHV", "MJ/kg", "net, as fired"}, {"kWh", "kWh/kg", "net, as fired"}}, heating_value},
    {"wood_lhv", "net heating value of wet wood", "LHV = LHV_d (1 - w) - 2.443 w", "w to 0.6", ISO18125,
     {{"LHV_d", "MJ/kg", "net, dry (17.5 to 20 for wood)", 18.566, 1, 50}, IN_W}, {{"LHV", "MJ/kg", "net, as fired"}, {"kWh", "kWh/kg", "net, as fired"}}, lhv_of_moisture},
    {"batch_mass", "wood of one refuel", "B = P t/(LHV eta)", "any", EN13240 ", form of; derived: an energy balance",
     {{"P", "kW", "heat output", NAN, 0, 100}, {"t", "min", "time between refuellings", 45, 1, 1440}, IN_LHV, {"eta", "%", "efficiency", 78, 1, 100}}, {{"B", "kg", "wood"}, {"B_h", "kg/h", "wood an hour"}}, batch_mass},
    {"wood_air", "air wood needs and gas it makes, lambda 1", "nO2 = C/12.011 + H/4.032 - O/31.998 kmol/kg; L = nO2/0.2095 28.964", "complete combustion, dry air", MOLES,
     {IN_WOOD}, {{"L", "kg/kg", "air"}, {"V_air", "m3n/kg", "air"}, {"V_dry", "m3n/kg", "dry gas"}, {"V_wet", "m3n/kg", "wet gas"}, {"CO2max", "%", "CO2 of dry gas"}, {"H2O", "%", "water of wet gas"}}, wood_air},
    {"wood_gas", "air and flue gas of a kg of wood", "m = lambda L (1 + xw 18.015/28.964) + 1 - ash", "lambda 1 to 20", MOLES,
     {IN_WOOD, IN_LAMBDA, IN_XW}, {{"air", "kg/kg", "dry air"}, {"gas", "kg/kg", "wet gas"}, {"V_dry", "m3n/kg", "dry gas"}, {"V_wet", "m3n/kg", "wet gas"}, {"rho", "kg/m3n", "density of the wet gas"}, {"M", "kg/kmol", "its molar mass"}}, wood_gas},
    {"wood_gas_shares", "what the flue gas consists of, and its dew point", "shares of moles; pS(td) = yH2O p", "lambda 1 to 20; 101 325 Pa", MOLES "; Magnus, WMO coefficients, above 60 degC Antoine (from memory)",
     {IN_WOOD, IN_LAMBDA, IN_XW}, {{"CO2", "%", "dry"}, {"O2", "%", "dry"}, {"CO2_wet", "%", "wet"}, {"O2_wet", "%", "wet"}, {"H2O", "%", "wet"}, {"td", "degC", "dew point"}}, wood_gas_shares},
    {"excess_air_o2", "excess air from oxygen of the dry gas", "lambda = 1 + k O2/(0.2095 - O2), k = V_dry/V_air at lambda 1; O2 less CO/2", "O2 below 20.95 %", MOLES,
     {IN_O2, {"CO", "%", "carbon monoxide, dry", 0, 0, 5}, IN_DRY}, {{"lambda", "", "excess air"}, {"short", "", "0.2095/(0.2095 - O2)"}, {"CO2", "%", "CO2 that goes with it"}}, excess_air_o2},
    {"excess_air_co2", "excess air from carbon dioxide of the dry gas", "lambda = 1 + k (CO2max/CO2 - 1); CO2 with CO", "CO2 up to the fuel's largest", MOLES,
     {{"CO2", "%", "carbon dioxide, dry", NAN, 0.1, 25}, {"CO", "%", "carbon monoxide, dry", 0, 0, 5}, IN_DRY}, {{"lambda", "", "excess air"}, {"short", "", "CO2max/CO2"}, {"O2", "%", "O2 that goes with it"}}, excess_air_co2},
    {"reference_o2", "a figure at another oxygen", "c_ref = c (20.95 - ref)/(20.95 - O2)", "O2 below 20.95 %", "EN 16510, EU 2015/1185 (from memory)",
     {{"c", "", "figure in any unit", NAN, 0, 1e6}, IN_O2, IN_REF}, {{"c_ref", "", "at the reference"}}, reference_oxygen},
    {"co_concentration", "CO from ppm to mg", "mg/m3n = ppm 28.010/22.414", "any", "derived: molar mass and volume; EN 16510 for the reference (from memory)",
     {{"ppm", "ppm", "CO, dry", NAN, 0, 1e6}, {"O2", "%", "oxygen, dry", 13, 0, 20.9}, IN_REF}, {{"mg", "mg/m3n", "CO"}, {"mg_ref", "mg/m3n", "at the reference"}}, co_units},
    {"per_megajoule", "emission per heat of the fuel from that per volume", "mg/MJ = mg/m3n V_dry(O2)/LHV", "O2 below 20.95 %", MOLES,
     {{"mg", "mg/m3n", "emission at that oxygen", NAN, 0, 1e6}, {"O2", "%", "oxygen, dry", 13, 0, 20.9}, IN_WOOD}, {{"mg_MJ", "mg/MJ", "emission"}, {"V", "m3n/kg", "dry gas of a kg"}, {"V_MJ", "m3n/MJ", "dry gas of a MJ"}}, per_megajoule},
    {"air_humidity", "water in the air", "xw = phi pS/(p - phi pS)", "101 325 Pa; -45 to 60 degC", "derived; Magnus, WMO coefficients (from memory)",
     {{"t", "degC", "air", 20, -45, 60}, {"phi", "%", "relative humidity", 50, 0, 100}}, {{"xw", "", "kmol per kmol dry air"}, {"x", "kg/kg", "per dry air"}}, humidity},
    {"flue_loss", "heat that the flue gas takes away", "qA = sum n [h(ta) - h(tr)]/LHV", "dry air, ash 0.5 %", "derived; " NASA7 "; short form: " EN13240,
     {IN_DRY, IN_W, IN_LAMBDA, IN_TA, IN_TR}, {{"qA", "%", "of LHV"}, {"QA", "MJ/kg", "of a kg of wood"}, {"qA_short", "%", "by the standard's short formula"}, {"cp", "kJ/kg/K", "of the wet gas at ta"}, {"CO2", "%", "dry"}, {"O2", "%", "dry"}}, flue_loss},
    {"flue_loss_short", "flue losses from a gas sample by the standard's short formulas", "Qa = (ta - tr){cpd C/[0.536 (CO2 + CO)] + cpw 1.244 (9 H + W)/100}; Qb = 12644 CO C/[0.536 (CO2 + CO) 100]", "no carbon in the residue", EN13240,
     {{"C", "%", "carbon of the wood as fired", 41.372, 1, 95}, {"H", "%", "hydrogen as fired", 5.182, 0, 25}, {"W", "%", "water as fired", 16, 0, 60}, {"CO2", "%", "carbon dioxide, dry", NAN, 0.1, 25}, {"CO", "%", "carbon monoxide, dry", 0, 0, 5}, IN_TA, IN_TR, IN_LHV},
     {{"cpd", "kJ/m3n/K", "dry gas"}, {"cpw", "kJ/m3n/K", "water"}, {"Qa", "kJ/kg", "sensible"}, {"Qb", "kJ/kg", "CO"}, {"qa", "%", "sensible, of LHV"}, {"qb", "%", "CO, of LHV"}}, flue_loss_short},
    {"residue_loss", "heat left in the ash", "Qr = 335 b R/100", "logs, not measured: 0.5 % of LHV", EN13240,
     {{"b", "%", "combustible share of the residue", NAN, 0, 100}, {"R", "%", "residue of the fuel", NAN, 0, 100}, IN_LHV}, {{"Qr", "kJ/kg", "loss"}, {"qr", "%", "of LHV"}}, residue},
    {"stove_efficiency", "what the losses leave, beech logs", "eta = 100 - qA - qCO - qr", "complete combustion but the CO; dry air", "derived; " NASA7 "; short form: " EN13240,
     {IN_W, IN_LAMBDA, IN_TA, IN_TR, {"CO", "ppm", "CO, dry at 13 % O2", 1000, 0, 2e4}, {"qr", "%", "residue, of LHV", 0.5, 0, 10}}, {{"eta", "%", "efficiency"}, {"qA", "%", "flue gas"}, {"qCO", "%", "carbon monoxide"}, {"qR", "%", "residue"}, {"eta_short", "%", "by the standard's short formulas"}}, stove_efficiency},
    {"flame_temperature", "adiabatic flame", "H(products, T) = H(products, 25) + LHV + lambda n [h(tair) - h(25)]", "complete combustion, no dissociation: too high above some 1700 degC", "derived; " NASA7,
     {IN_WOOD, IN_LAMBDA, {"tair", "degC", "air", 25, -50, 800}}, {{"t", "degC", "flame"}}, flame},
    {"batch_release", "volatiles and char of a charge over time", "1 - (1 + t/tau) exp(-t/tau); rate t/tau2 exp(-t/tau); char exp(-t/tc)", "a charge on a hot bed, after drying", SHAPE,
     {{"t", "min", "time since it dried", NAN, 0, 1440}, {"tau", "min", "time of the peak", 8, 0.1, 120}, {"tc", "min", "time of the char", 20, 0.1, 240}}, {{"released", "%", "volatiles released"}, {"rate", "%/min", "release"}, {"left", "%", "left of a char laid at 0"}}, volatiles},
    {"char_heat", "how much of the heat is the char's", "LHV_vol = (LHV_daf - yc LHV_c)/(1 - yc)", "yc 0.1 to 0.3", "derived; char 15 to 22 %, 32 to 33 MJ/kg (from memory)",
     {{"yc", "", "char of dry, ash-free wood", 0.18, 0.05, 0.4}, {"LHV_c", "MJ/kg", "of char", 32.8, 25, 35}, {"LHV_d", "MJ/kg", "of dry wood", 18.566, 10, 30}, {"a", "", "ash of dry mass", 0.005, 0, 0.3}}, {{"share", "%", "of the heat"}, {"LHV_vol", "MJ/kg", "of volatiles"}}, char_heat},
    {"char_burning", "how fast char burns", "min(M/tc, m_air/(lambda_c 11.5))", "primary air through the bed", SHAPE,
     {{"air", "g/s", "primary air", NAN, 0, 1e3}, {"lambda_c", "", "air for each it needs", 1.5, 1, 10}, {"M", "kg", "char", NAN, 0, 100}, {"tc", "min", "its own time", 20, 0.1, 240}}, {{"m", "g/s", "char burnt"}, {"most", "g/s", "with air enough"}}, char_air},
    {"log_time", "how long a log lasts that chars all round", "t = d/2/beta", "standard fire; 0.65 softwood and beech, 0.50 hardwood above 450 kg/m3", "EN 1995-1-2 table 3.1 (from memory)",
     {{"d", "mm", "thickness", 80, 1, 1000}, {"beta", "mm/min", "charring rate", 0.65, 0.1, 2}}, {{"t", "min", "time"}}, log_through},
    {"firebox_loading", "fuel power and charge by the size of the firebox", "P/V, P/A, B/V", "usual 150 to 350 kW/m3, 60 to 120 kW/m2, 25 to 45 kg/m3", PRACTICE,
     {{"P", "kW", "fuel power", NAN, 0, 200}, {"B", "kg", "wood of a charge", NAN, 0, 100}, {"V", "m3", "volume", NAN, 1e-4, 10}, {"A", "m2", "base", NAN, 1e-4, 10}}, {{"by_volume", "kW/m3", "fuel power"}, {"by_base", "kW/m2", "fuel power"}, {"charge", "kg/m3", "wood"}}, loading},
    {"masonry_firebox", "combustion chamber of a masonry heater, to compare with", "O = 900 mB; base 100 mB; height 25 + mB", "mB 10 to 40 kg; not for steel stoves", "EN 15544 (from memory)",
     {{"mB", "kg", "wood of a charge", NAN, 10, 40}}, {{"O", "cm2", "inner surface"}, {"base", "cm2", "least base"}, {"height", "cm", "least height"}}, masonry},
    {"firebox_gas", "temperature of a well-stirred firebox, beech of 16 % water", "Q = m h(Tg) + GS sigma (Tg4 - T1^4); 1/GS = 1/(A1 e1) + (1/eg - 1)/AT; eg Leckner with soot", "gas 400 to 3000 K; air 25 degC", "Hottel & Sarofim, Radiative Transfer, 1967; Leckner 1972 (from memory)",
     {{"P", "kW", "fuel power", NAN, 0.1, 200}, {"lambda", "", "excess air", 1.8, 1, 20}, {"V", "m3", "volume", NAN, 1e-4, 10}, {"AT", "m2", "all walls", NAN, 1e-3, 100}, {"A1", "m2", "glass and cooled walls", NAN, 1e-4, 100}, {"t1", "degC", "their temperature", 450, -50, 1500}, {"e1", "", "their emissivity", 0.85, 0.01, 1}, {"K", "1/m", "soot of the flame", 0, 0, 100}},
     {{"tg", "degC", "gas"}, {"e", "", "emissivity of gas and soot"}, {"GS", "m2", "exchange area"}, {"Qr", "W", "radiated"}, {"Qg", "W", "leaves with the gas, above 25 degC"}}, firebox},
};
/* clang-format on */

const sw_reckon *sw_reckon_fire(size_t *count)
{
    *count = sizeof rows / sizeof *rows;
    return rows;
}
