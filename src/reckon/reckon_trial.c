/* reckon_trial.c: the type test by hand. Sources stand in each row; the functions are those of proving/trial. */
#include "proving/trial/trial.h"
#include "reckon/reckon_parts.h"

#include <math.h>
#include <string.h>

#define ANNEX_A "EN 13240:2001 annex A.6.2 (from memory)"
#define ECO     "Regulation (EU) 2015/1185 annexes I and III (seen)"
#define MASSES  "derived: molar masses and volume; units " ECO "; 21 in the O2 factor (from memory)"
#define GUM     "JCGM 100 (from memory)"

static const double kilo = 1e3, mega = 1e6, percent = 100;

static sw_trial_gas gas_of(double flue_c, double room_c, double co2, double co)
{
    return (sw_trial_gas){sw_k_from_c(flue_c), sw_k_from_c(room_c), co2 / percent, co / percent, 0, 0};
}

static void heat_capacities(const double *in, double *out)
{
    out[0] = sw_trial_cp_dry(sw_k_from_c(in[0]), in[1] / percent) / kilo;
    out[1] = sw_trial_cp_water(sw_k_from_c(in[0])) / kilo;
}

static void efficiency(const double *in, double *out) /* ta tr CO2 CO C H W Hu; 0.5 % of the heat in the residue */
{
    sw_trial_wood wood = {in[4] / percent, in[5] / percent, in[6] / percent, in[7] * kilo};
    sw_trial_gas gas = gas_of(in[0], in[1], in[2], in[3]);
    gas.residue_j = 0.005 * wood.lhv;
    sw_trial_losses l = sw_trial_losses_of(&wood, &gas);
    out[0] = percent * l.efficiency;
    out[1] = percent * l.sensible;
    out[2] = percent * l.co;
    out[3] = l.sensible_j / kilo;
    out[4] = l.co_j / kilo;
    out[5] = l.dry_m3n;
}

static void output(const double *in, double *out)
{
    out[0] = in[0] / percent * sw_h_from_s(in[1]) * in[2];
}

static void gas_flow(const double *in, double *out)
{
    sw_trial_wood wood = {in[1] / percent, in[2] / percent, in[3] / percent, 1};
    sw_trial_gas gas = gas_of(200, 20, in[4], in[5]);
    out[0] = kilo * sw_h_from_s(in[0]) * sw_trial_losses_of(&wood, &gas).gas_kg;
}

static void siegert(const double *in, double *out)
{
    out[0] = percent * sw_trial_siegert(sw_k_from_c(in[0]), sw_k_from_c(in[1]), in[2] / percent);
}

static void carbon_dioxide(const double *in, double *out)
{
    out[0] = percent * sw_trial_co2_of_o2(in[0] / percent, in[1] / percent);
}

static void heating_value(const double *in, double *out)
{
    out[0] = sw_trial_lhv(in[0] * kilo, in[1] / percent) / kilo;
}

static void at_13(sw_emission which, const double *in, double *out)
{
    out[0] = sw_emission_mg_m3n(which, in[0] / mega);
    out[1] = sw_emission_at_13(out[0], in[1] / percent);
}

static void co_13(const double *in, double *out)
{
    at_13(SW_EMISSION_CO, in, out);
}

static void ogc_13(const double *in, double *out)
{
    at_13(SW_EMISSION_OGC, in, out);
}

static void nox_13(const double *in, double *out)
{
    at_13(SW_EMISSION_NOX, in, out);
}

static void dust_13(const double *in, double *out)
{
    out[0] = in[0] / in[1];
    out[1] = sw_emission_at_13(out[0], in[2] / percent);
}

static void per_fuel(const double *in, double *out) /* mg C W Hu B */
{
    double v13 = sw_trial_dry_m3n_at_13(in[1] / percent), g_kg = in[0] * v13 / kilo;
    out[0] = v13;
    out[1] = g_kg;
    out[2] = g_kg / (1 - in[2] / percent);
    out[3] = g_kg * kilo / (in[3] / kilo);
    out[4] = g_kg * in[4];
}

static void season(const double *in, double *out) /* eta P control extras el_max el_min el_sb pilot */
{
    static const char *const classes[] = {"A++", "A+", "A", "B", "C", "D", "E", "F", "G"};
    double extras = floor(in[3] + 0.5);
    sw_trial_features f = {.control = (sw_trial_control)(int)floor(in[2] + 0.5),
                           .presence = extras >= 1,
                           .window = extras >= 2,
                           .distance = extras >= 3,
                           .low_tested = true,
                           .el_most_w = in[4],
                           .el_least_w = in[5],
                           .el_standby_w = in[6],
                           .pilot_w = in[7]};
    sw_trial_season s = sw_trial_season_of(in[0] / percent, in[1] * kilo, &f);
    out[0] = percent * s.efficiency;
    out[1] = s.index;
    for (size_t i = 0; i < sizeof classes / sizeof *classes; i++)
        if (strcmp(s.class_, classes[i]) == 0) out[2] = (double)(i + 1);
    out[3] = percent * (s.f2 + s.f3);
    out[4] = percent * s.f4;
    out[5] = percent * s.f5;
}

static void smoke(const double *in, double *out)
{
    out[0] = sw_trial_smoke_limit_g_h(in[0] * kilo, in[1]);
}

static void repeats(const double *in, double *out)
{
    double n = floor(in[1] + 0.5);
    out[0] = in[0] / sqrt(n);
    out[1] = sw_trial_t95((size_t)n - 1);
    out[2] = out[0] * out[1];
}

static void co_budget(const double *in, double *out)
{
    sw_trial_source s[] = {{"CO", "ppm", in[0], in[1], false, 0, 0}, {"O2", "%", in[2], in[3], false, 0, 0}};
    double x[] = {in[0], in[2]};
    out[0] = sw_trial_co_of(NULL, x);
    out[1] = sw_trial_propagate(sw_trial_co_of, NULL, s, 2);
    out[2] = 2 * out[1];
}

/* clang-format off */
#define IN_TA {"ta", "degC", "flue gas", NAN, 20, 600}
#define IN_TEST_TA {"ta", "degC", "flue gas", NAN, 50, 500}
#define IN_TEST_CO2 {"CO2", "%", "carbon dioxide, dry", NAN, 3, 18}
#define IN_TEST_CO {"CO", "%", "carbon monoxide, dry", 0, 0, 2}
#define IN_TR {"tr", "degC", "room", 20, -30, 60}
#define IN_CO2 {"CO2", "%", "carbon dioxide, dry", NAN, 0.1, 20.5}
#define IN_CO {"CO", "%", "carbon monoxide, dry", 0, 0, 5}
#define IN_C {"C", "%", "carbon of the wood as fired", 42, 20, 95}
#define IN_H {"H", "%", "hydrogen as fired", 5.04, 0, 15}
#define IN_W {"W", "%", "water as fired", 16, 0, 60}
#define IN_HU {"Hu", "kJ/kg", "net heating value as fired", 15065, 1000, 50000}
#define IN_B {"B", "kg/h", "wood", NAN, 0.01, 50}
#define IN_O2 {"O2", "%", "oxygen, dry", NAN, 0, 20.9}
#define IN_PPM {"ppm", "ppm", "reading, dry", NAN, 0, 1e5}
#define OUT_13 {{"mg", "mg/m3n", "at that oxygen"}, {"mg_13", "mg/m3n", "at 13 % O2"}}

static const sw_reckon rows[] = {
    {"test_heat_capacity", "mean heat capacities of the test standard", "Cd = 3.6 {0.361 + 0.008 x + 0.034 x2 + (0.085 + 0.19 x - 0.14 x2) CO2/100 + (0.03 x - 0.2 x2)(CO2/100)2}; Cw = 3.6 {0.414 + 0.038 x + 0.034 x2}; x = t/1000", "50 to 500 degC, CO2 3 to 18 %", ANNEX_A,
     {IN_TEST_TA, IN_TEST_CO2}, {{"Cd", "kJ/m3n/K", "dry gas, from 0 degC"}, {"Cw", "kJ/m3n/K", "water vapour"}}, heat_capacities},
    {"test_efficiency", "efficiency by the indirect method", "eta = 100 - qa - qb - 0.5; Qa = (ta - tr){Cd C/[0.536 (CO2 + CO)] + Cw 1.244 (9 H + W)/100}; Qb = 12644 CO C/[0.536 (CO2 + CO) 100]", "50 to 500 degC, CO2 3 to 18 %, CO to 2 %; wood, 0.5 % in the residue", ANNEX_A,
     {IN_TEST_TA, IN_TR, IN_TEST_CO2, IN_TEST_CO, IN_C, IN_H, IN_W, IN_HU}, {{"eta", "%", "efficiency"}, {"qa", "%", "flue loss"}, {"qb", "%", "CO loss"}, {"Qa", "kJ/kg", "flue loss"}, {"Qb", "kJ/kg", "CO loss"}, {"V", "m3n/kg", "dry gas"}}, efficiency},
    {"test_output", "heat output of a test", "P = eta B Hu/360000", "any", ANNEX_A,
     {{"eta", "%", "efficiency", NAN, 0, 100}, IN_B, IN_HU}, {{"P", "kW", "heat output"}}, output},
    {"test_gas_flow", "flue gas mass flow of a test", "m = B {1.3 C/[0.536 (CO2 + CO)] + (9 H + W)/100}/3.6", "some 4 % below the balance of moles; take that for chimneys", ANNEX_A,
     {IN_B, IN_C, IN_H, IN_W, IN_CO2, IN_CO}, {{"m", "g/s", "flue gas"}}, gas_flow},
    {"siegert_loss", "flue loss by Siegert's short form", "q = 0.650 (ta - tr)/CO2", "rough, dry wood: within 6 points", "a page of formulas (seen)",
     {IN_TA, IN_TR, IN_CO2}, {{"q", "%", "flue loss"}}, siegert},
    {"co2_from_o2", "CO2 that goes with an oxygen", "CO2 = CO2max (1 - O2/20.95)", "O2 below 20.95 %", "stoichiometry",
     {IN_O2, {"CO2max", "%", "of the wood", 20.4, 10, 25}}, {{"CO2", "%", "dry"}}, carbon_dioxide},
    {"test_lhv", "net heating value of wet wood, as a test evaluates it", "Hu = Hu_dry (1 - W/100) - 24.43 W", "W below 100 %", "heat of vaporisation at 25 degC (from memory)",
     {{"Hu_dry", "kJ/kg", "net, dry", 18400, 5000, 50000}, IN_W}, {{"Hu", "kJ/kg", "net, as fired"}}, heating_value},
    {"co_13", "CO at 13 % O2", "ppm 28.010/22.414 (21 - 13)/(21 - O2)", "means of a test, converted once", MASSES, {IN_PPM, IN_O2}, OUT_13, co_13},
    {"ogc_13", "organic carbon at 13 % O2 from a reading as propane", "ppm 3 12.011/22.414 (21 - 13)/(21 - O2)", "means of a test, converted once", MASSES, {IN_PPM, IN_O2}, OUT_13, ogc_13},
    {"nox_13", "NOx as NO2 at 13 % O2", "ppm 46.0055/22.414 (21 - 13)/(21 - O2)", "means of a test, converted once", MASSES, {IN_PPM, IN_O2}, OUT_13, nox_13},
    {"dust_13", "dust of a filter at 13 % O2", "m/V (21 - 13)/(21 - O2)", "V dry at 0 degC, 101 325 Pa", MASSES,
     {{"m", "mg", "on the filter", NAN, 0, 1e5}, {"V", "m3n", "gas drawn", NAN, 1e-3, 1e3}, IN_O2}, OUT_13, dust_13},
    {"emission_per_fuel", "what an emission at 13 % O2 is per wood, heat and hour", "g/kg = c V13/1000; V13 = C/(0.53587 0.07760)", "wood", "derived: 10.0996 m3n/kg of reference wood at 13 % O2",
     {{"c", "mg/m3n", "at 13 % O2", NAN, 0, 1e6}, IN_C, IN_W, IN_HU, IN_B}, {{"V13", "m3n/kg", "dry gas at 13 % O2"}, {"g_kg", "g/kg", "of wood as fired"}, {"g_kg_dry", "g/kg", "of dry wood"}, {"mg_MJ", "mg/MJ", "of its heat"}, {"g_h", "g/h", "an hour"}}, per_fuel},
    {"seasonal_efficiency", "seasonal efficiency, index and class of a wood stove", "etaS = eta - 10 + F2 + F3 - F4 - F5; EEI = 1.45 eta - 10 + F2 + F3 - F4 - F5; F4 = 2.5 (0.2 max + 0.8 min + 1.3 sb)/P", "F2, F3 only with the limits also kept at half output or less", ECO ", index by 2015/1186: 1.45 and classes seen, forms from memory",
     {{"eta", "%", "at nominal output", NAN, 0, 110}, {"P", "kW", "nominal output", 7, 0.1, 100}, {"control", "", "0 none, 1 stages, 2 mechanic, 3 electronic, 4 day, 5 week timer", 0, 0, 5}, {"extras", "", "of presence, window, distance", 0, 0, 3}, {"el_max", "W", "at nominal output", 0, 0, 5000}, {"el_min", "W", "at least output", 0, 0, 5000}, {"el_sb", "W", "standby", 0, 0, 500}, {"pilot", "W", "pilot flame", 0, 0, 5000}},
     {{"etaS", "%", "seasonal"}, {"EEI", "", "index"}, {"class", "", "1 A++, 2 A+, 3 A, 4 B, 5 C, 6 D, 7 E, 8 F, 9 G"}, {"F23", "%", "controls"}, {"F4", "%", "electricity"}, {"F5", "%", "pilot"}}, season},
    {"smoke_limit", "smoke limit of UK smoke control areas", "base + 0.1 P/0.3", "any", "BS PD 6434: 5 g/h (seen), 0.1 g/h per 0.3 kW (from memory)",
     {{"P", "kW", "output", NAN, 0, 100}, {"base", "g/h", "5; 3 is proposed", 5, 0, 20}}, {{"limit", "g/h", "smoke"}}, smoke},
    {"repeat_spread", "how sure the mean of repeats is", "u = s/sqrt(n); half = t u", "normal scatter, two-sided 95 %", GUM "; Student's t (from memory)",
     {{"s", "", "standard deviation of the repeats, any unit", NAN, 0, 1e9}, {"n", "", "repeats", NAN, 2, 1000}}, {{"u", "", "of the mean"}, {"t", "", "Student"}, {"half", "", "95 % half width"}}, repeats},
    {"co_13_uncertainty", "uncertainty of CO at 13 % O2", "u2 = sum (df/dx u)2", "uncorrelated, small", GUM,
     {IN_PPM, {"u_ppm", "ppm", "standard uncertainty", 20, 0, 1e4}, IN_O2, {"u_O2", "%", "standard uncertainty", 0.2, 0, 5}}, {{"mg_13", "mg/m3n", "CO at 13 %"}, {"u", "mg/m3n", "standard"}, {"U", "mg/m3n", "twice that"}}, co_budget},
};
/* clang-format on */

const sw_reckon *sw_reckon_trial(size_t *count)
{
    *count = sizeof rows / sizeof *rows;
    return rows;
}
