/* reckon_gas.c: gases, flue gas, air and water vapour. Sources stand in each row. */
#include "matter/matter.h"
#include "reckon/reckon_parts.h"

#include <math.h>

#define GRI     "NASA polynomials of GRI-Mech 3.0 (found)"
#define WEBBOOK "Shomate equations of the NIST WebBook, SRD 69 (from memory)"

static const double standard_k = 298.15, atmosphere_pa = 101325;

static void gas_heat(const double *in, double *out)
{
    sw_gas gas = (sw_gas)((int)in[0] - 1);
    double t_k = sw_k_from_c(in[1]);
    out[0] = sw_gas_cp_j_mol_k(gas, t_k);
    out[1] = out[0] / sw_gas_kg_kmol(gas);
    out[2] = sw_gas_enthalpy_j_mol(gas, t_k) - sw_gas_enthalpy_j_mol(gas, standard_k);
    out[3] = sw_gas_enthalpy_j_mol(gas, standard_k);
    out[4] = sw_gas_cp_shomate_j_mol_k(gas, t_k);
    out[5] = sw_gas_enthalpy_shomate_j_mol(gas, t_k);
}

/* CO2, H2O, O2 and CO by volume, the rest nitrogen: a kmol of wet gas; NAN when they sum to more than 1. */
static sw_mixture gas_of(const double *in)
{
    double rest = 1 - in[0] - in[1] - in[2] - in[3];
    return (sw_mixture){.kmol = {[SW_GAS_CO2] = in[0],
                                 [SW_GAS_H2O] = in[1],
                                 [SW_GAS_O2] = in[2],
                                 [SW_GAS_CO] = in[3],
                                 [SW_GAS_N2] = rest >= 0 ? rest : (double)NAN}};
}

static void flue_gas(const double *in, double *out)
{
    sw_mixture m = gas_of(in);
    double kg = sw_mixture_kg(&m), from_k = sw_k_from_c(in[4]), to_k = sw_k_from_c(in[5]);
    out[0] = kg;
    out[1] = sw_mixture_density(&m, to_k, atmosphere_pa);
    out[2] = sw_mixture_cp_j_k(&m, to_k) / kg;
    out[3] = sw_mixture_heat_j(&m, from_k, to_k) / kg;
}

static void flue_temperature(const double *in, double *out)
{
    sw_mixture m = gas_of(in);
    double start = sw_mixture_enthalpy_j(&m, sw_k_from_c(in[4]));
    out[0] = sw_c_from_k(sw_mixture_temperature_k(&m, start + in[5] * sw_mixture_kg(&m)));
}

static void air(const double *in, double *out)
{
    sw_air a = sw_air_at(sw_k_from_c(in[0]));
    out[0] = a.density;
    out[1] = a.cp;
    out[2] = a.viscosity;
    out[3] = a.kinematic;
    out[4] = a.conductivity;
    out[5] = a.pr;
}

static void water_pressure(const double *in, double *out)
{
    out[0] = sw_water_pressure_pa(sw_k_from_c(in[0]));
    out[1] = sw_water_pressure_antoine_pa(sw_k_from_c(in[0]));
}

static void dew_point(const double *in, double *out)
{
    out[0] = in[0] * in[1];
    out[1] = sw_c_from_k(sw_dew_point_k(out[0]));
}

/* clang-format off */
#define SHARES {"CO2", "", "share by volume", 0.09, 0, 1}, {"H2O", "", "share by volume", 0.12, 0, 1}, \
               {"O2", "", "share by volume", 0.10, 0, 1}, {"CO", "", "share by volume", 0, 0, 1}

static const sw_reckon rows[] = {
    {"gas_heat", "heat capacity and enthalpy of a gas", "cp/R = a1 + a2 T + a3 T2 + a4 T3 + a5 T4, h its integral; beside it cp = A + B t + C t2 + D t3 + E/t2, t = T/1000",
     "-73.15 to 3226.85 degC (200 to 3500 K); Shomate as tabled, water from 500 K", GRI "; " WEBBOOK,
     {{"gas", "", "1 N2, 2 O2, 3 CO2, 4 H2O, 5 CO", NAN, 1, 5}, {"T", "degC", "temperature", NAN, -273, 5000}},
     {{"cp", "J/(mol K)", "heat capacity"}, {"c", "kJ/(kg K)", "the same by mass"}, {"h", "J/mol", "enthalpy above 25 degC"}, {"hf", "J/mol", "heat of formation at 25 degC"},
      {"cps", "J/(mol K)", "heat capacity, Shomate"}, {"hs", "J/mol", "enthalpy above 25 degC, Shomate"}}, gas_heat},
    {"flue_gas", "density and heat of wet flue gas", "sums over the gases by amount; rho = p M/(R T), p 101325 Pa", "-73.15 to 3226.85 degC; rest of the volume is nitrogen", GRI,
     {SHARES, {"T0", "degC", "counted from", 20, -273, 5000}, {"T", "degC", "temperature", NAN, -273, 5000}},
     {{"M", "kg/kmol", "molar mass"}, {"rho", "kg/m3", "density"}, {"cp", "J/(kg K)", "heat capacity at T"}, {"h", "J/kg", "heat from T0 to T"}}, flue_gas},
    {"flue_temperature", "temperature of flue gas that takes up heat", "h(T) = h(T0) + q, by Newton", "-73.15 to 3226.85 degC; no dissociation, which matters above 1700 degC", GRI,
     {SHARES, {"T0", "degC", "temperature before", 20, -273, 5000}, {"q", "J/kg", "heat put in", NAN, -1e7, 1e7}},
     {{"T", "degC", "temperature after"}}, flue_temperature},
    {"air", "properties of dry air at one atmosphere", "mu = 1.458e-6 T^1.5/(T + 110.4), k = 2.64638e-3 T^1.5/(T + 245.4 10^(-12/T)), rho = p M/(R T)", "-73.15 to 1226.85 degC (200 to 1500 K)",
     "ISO 2533:1975 and US Standard Atmosphere 1976 (from memory); cp: " WEBBOOK, {{"T", "degC", "temperature", NAN, -273, 5000}},
     {{"rho", "kg/m3", "density"}, {"cp", "J/(kg K)", "heat capacity"}, {"mu", "Pa s", "viscosity"}, {"nu", "m2/s", "kinematic viscosity"}, {"k", "W/(m K)", "conductivity"}, {"Pr", "", "Prandtl number"}}, air},
    {"water_pressure", "saturation pressure over water", "611.2 exp(17.62 t/(243.12 + t)); log10(p/mmHg) = 8.07131 - 1730.63/(233.426 + t)", "Magnus -45 to 60 degC, Antoine 1 to 100 degC",
     "Magnus form, Sonntag 1990 and WMO; Antoine, Dortmund data bank (both from memory)", {{"T", "degC", "temperature", NAN, -273, 400}},
     {{"p", "Pa", "Magnus"}, {"pa", "Pa", "Antoine"}}, water_pressure},
    {"dew_point", "dew point of flue gas", "T = 243.12 L/(17.62 - L), L = ln(y p/611.2)", "-45 to 60 degC", "Magnus form, Sonntag 1990 and WMO (from memory)",
     {{"y", "", "share of water vapour by volume, wet", NAN, 0, 1}, {"p", "Pa", "pressure", 101325, 1e3, 1e6}},
     {{"pv", "Pa", "vapour pressure"}, {"T", "degC", "dew point"}}, dew_point},
};
/* clang-format on */

const sw_reckon *sw_reckon_gas(size_t *count)
{
    *count = sizeof rows / sizeof *rows;
    return rows;
}
