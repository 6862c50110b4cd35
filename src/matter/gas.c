/* gas.c: heat capacity and enthalpy of gases and mixtures, properties of dry air, saturation of water. */
#include "matter/gas_parts.h"

#include <math.h>

static const double nasa_low_k = 200.0, nasa_join_k = 1000.0, nasa_high_k = 3500.0;
static const double mol_kmol = 1e3, j_kj = 1e3, k_kk = 1e3;
static const double air_kg_mol = 0.028965; /* ISO 2533 */

/* ---- pure gases ------------------------------------------------------------------------------------------------- */

static bool known(sw_gas gas)
{
    return (int)gas >= 0 && gas < SW_GASES;
}

static bool within_nasa(double t_k)
{
    return t_k >= nasa_low_k && t_k <= nasa_high_k;
}

/* cp/R */
static double nasa_cp(const double *a, double t_k)
{
    return a[0] + t_k * (a[1] + t_k * (a[2] + t_k * (a[3] + t_k * a[4])));
}

/* h/R in K */
static double nasa_enthalpy(const double *a, double t_k)
{
    return a[5] + t_k * (a[0] + t_k * (a[1] / 2 + t_k * (a[2] / 3 + t_k * (a[3] / 4 + t_k * a[4] / 5))));
}

static const double *nasa_range(const gas_nasa_row *row, double t_k)
{
    return t_k <= nasa_join_k ? row->low : row->high;
}

double sw_gas_kg_kmol(sw_gas gas)
{
    return known(gas) ? gas_kg_kmol[gas] : (double)NAN;
}

double sw_gas_cp_j_mol_k(sw_gas gas, double t_k)
{
    if (!known(gas) || !within_nasa(t_k)) return NAN;
    return SW_GAS_CONSTANT * nasa_cp(nasa_range(&gas_nasa[gas], t_k), t_k);
}

double sw_gas_enthalpy_j_mol(sw_gas gas, double t_k)
{
    if (!known(gas) || !within_nasa(t_k)) return NAN;
    return SW_GAS_CONSTANT * nasa_enthalpy(nasa_range(&gas_nasa[gas], t_k), t_k);
}

static const gas_shomate_row *shomate_row(sw_gas gas, double t_k)
{
    if (!known(gas)) return NULL;
    for (int i = 0; i < 2; i++)
        if (t_k >= gas_shomate[gas][i].from_k && t_k <= gas_shomate[gas][i].to_k) return &gas_shomate[gas][i];
    return NULL;
}

double sw_gas_cp_shomate_j_mol_k(sw_gas gas, double t_k)
{
    const gas_shomate_row *s = shomate_row(gas, t_k);
    if (s == NULL) return NAN;
    double t = t_k / k_kk;
    return s->A + t * (s->B + t * (s->C + t * s->D)) + s->E / (t * t);
}

double sw_gas_enthalpy_shomate_j_mol(sw_gas gas, double t_k)
{
    const gas_shomate_row *s = shomate_row(gas, t_k);
    if (s == NULL) return NAN;
    double t = t_k / k_kk;
    return j_kj * (t * (s->A + t * (s->B / 2 + t * (s->C / 3 + t * s->D / 4))) - s->E / t + s->F - s->H);
}

/* ---- mixtures --------------------------------------------------------------------------------------------------- */

double sw_mixture_kmol(const sw_mixture *m)
{
    double sum = 0;
    for (int i = 0; i < SW_GASES; i++) sum += m->kmol[i];
    return sum;
}

double sw_mixture_kg(const sw_mixture *m)
{
    double sum = 0;
    for (int i = 0; i < SW_GASES; i++) sum += m->kmol[i] * gas_kg_kmol[i];
    return sum;
}

double sw_mixture_enthalpy_j(const sw_mixture *m, double t_k)
{
    if (!within_nasa(t_k)) return NAN;
    double sum = 0;
    for (int i = 0; i < SW_GASES; i++) sum += m->kmol[i] * nasa_enthalpy(nasa_range(&gas_nasa[i], t_k), t_k);
    return mol_kmol * SW_GAS_CONSTANT * sum;
}

double sw_mixture_heat_j(const sw_mixture *m, double from_k, double to_k)
{
    return sw_mixture_enthalpy_j(m, to_k) - sw_mixture_enthalpy_j(m, from_k);
}

double sw_mixture_cp_j_k(const sw_mixture *m, double t_k)
{
    if (!within_nasa(t_k)) return NAN;
    double sum = 0;
    for (int i = 0; i < SW_GASES; i++) sum += m->kmol[i] * nasa_cp(nasa_range(&gas_nasa[i], t_k), t_k);
    return mol_kmol * SW_GAS_CONSTANT * sum;
}

/* Ideal gas: rho = p M/(R T). */
double sw_mixture_density(const sw_mixture *m, double t_k, double p_pa)
{
    double kmol = sw_mixture_kmol(m);
    if (!(kmol > 0) || !(t_k > 0) || !(p_pa >= 0)) return NAN;
    return p_pa * sw_mixture_kg(m) / (kmol * mol_kmol * SW_GAS_CONSTANT * t_k);
}

/* The mixture's own polynomials: amounts times coefficients, so that a search need not go through every gas again. */
static gas_nasa_row blend(const sw_mixture *m)
{
    gas_nasa_row sum = {{0}, {0}};
    for (int i = 0; i < SW_GASES; i++)
        for (int k = 0; k < GAS_NASA; k++) {
            sum.low[k] += m->kmol[i] * gas_nasa[i].low[k];
            sum.high[k] += m->kmol[i] * gas_nasa[i].high[k];
        }
    return sum;
}

/* Newton between two temperatures that hold the root; where a step leaves them, the middle. The two ranges meet at 1000 K
 * with a step of some 1e-3 J/mol: an enthalpy within it ends at 1000 K. */
static double search_k(const gas_nasa_row *row, double wanted, double low_k, double high_k)
{
    double t_k = 0.5 * (low_k + high_k);
    for (int round = 0; round < 100; round++) {
        const double *a = nasa_range(row, t_k);
        double over = nasa_enthalpy(a, t_k) - wanted;
        if (over > 0)
            high_k = t_k;
        else
            low_k = t_k;
        double next_k = t_k - over / nasa_cp(a, t_k);
        if (!(next_k >= low_k && next_k <= high_k)) next_k = 0.5 * (low_k + high_k);
        if (fabs(next_k - t_k) <= 1e-10 * t_k) return next_k;
        t_k = next_k;
    }
    return NAN;
}

double sw_mixture_temperature_k(const sw_mixture *m, double enthalpy_j)
{
    gas_nasa_row row = blend(m);
    double wanted = enthalpy_j / (mol_kmol * SW_GAS_CONSTANT);
    if (!(sw_mixture_kmol(m) > 0)) return NAN;
    if (!(wanted >= nasa_enthalpy(row.low, nasa_low_k) && wanted <= nasa_enthalpy(row.high, nasa_high_k))) return NAN;
    return wanted <= nasa_enthalpy(row.low, nasa_join_k) ? search_k(&row, wanted, nasa_low_k, nasa_join_k)
                                                         : search_k(&row, wanted, nasa_join_k, nasa_high_k);
}

/* ---- dry air ---------------------------------------------------------------------------------------------------- */

/* cp of N2 and O2 by Shomate, 5/2 R for the rest; shares by volume of ISO 2533:1975, argon with all traces. */
static double air_cp(double t_k)
{
    static const double n2 = 0.78084, o2 = 0.20946, argon = 0.0097;
    double molar = n2 * sw_gas_cp_shomate_j_mol_k(SW_GAS_N2, t_k) + o2 * sw_gas_cp_shomate_j_mol_k(SW_GAS_O2, t_k) +
                   argon * 2.5 * SW_GAS_CONSTANT;
    return molar / air_kg_mol;
}

/* Viscosity (Sutherland) and conductivity of ISO 2533:1975 and the US Standard Atmosphere 1976, from memory:
 *   mu = 1.458e-6 T^1.5/(T + 110.4)      k = 2.64638e-3 T^1.5/(T + 245.4 10^(-12/T)) */
sw_air sw_air_at(double t_k)
{
    if (!(t_k >= 200.0 && t_k <= 1500.0)) return (sw_air){NAN, NAN, NAN, NAN, NAN, NAN};
    static const double atmosphere_pa = 101325.0;
    double t15 = t_k * sqrt(t_k);
    sw_air a = {
        .density = atmosphere_pa * air_kg_mol / (SW_GAS_CONSTANT * t_k),
        .cp = air_cp(t_k),
        .viscosity = 1.458e-6 * t15 / (t_k + 110.4),
        .conductivity = 2.64638e-3 * t15 / (t_k + 245.4 * pow(10.0, -12.0 / t_k)),
    };
    a.kinematic = a.viscosity / a.density;
    a.pr = a.cp * a.viscosity / a.conductivity;
    return a;
}

/* ---- water vapour ----------------------------------------------------------------------------------------------- */

/* Magnus form over water with the coefficients of Sonntag 1990 (WMO), -45 to 60 degC, from memory:
 *   p = 611.2 exp(17.62 t/(243.12 + t)) */
static const double magnus_pa = 611.2, magnus_a = 17.62, magnus_b_c = 243.12;
static const double magnus_low_c = -45.0, magnus_high_c = 60.0;

double sw_water_pressure_pa(double t_k)
{
    double t_c = sw_c_from_k(t_k);
    if (!(t_c >= magnus_low_c && t_c <= magnus_high_c)) return NAN;
    return magnus_pa * exp(magnus_a * t_c / (magnus_b_c + t_c));
}

double sw_dew_point_k(double p_pa)
{
    double L = log(p_pa / magnus_pa);
    double t_c = magnus_b_c * L / (magnus_a - L);
    if (!(t_c >= magnus_low_c && t_c <= magnus_high_c)) return NAN;
    return sw_k_from_c(t_c);
}

/* Antoine equation of water, Dortmund data bank, 1 to 100 degC, from memory: log10(p/mmHg) = A - B/(C + t) */
double sw_water_pressure_antoine_pa(double t_k)
{
    static const double pa_mmhg = 133.322;
    double t_c = sw_c_from_k(t_k);
    if (!(t_c >= 1.0 && t_c <= 100.0)) return NAN;
    return pa_mmhg * pow(10.0, 8.07131 - 1730.63 / (233.426 + t_c));
}
