#include "matter/matter.h"
#include "sw_test.h"

#include <math.h>

#define NASA "handbook F2.4: GRI-Mech 3.0 coefficients, computed"
#define AIR  "handbook F6.1: ISO 2533 and US Standard Atmosphere 1976, computed"

typedef struct gas_check {
    sw_gas gas;
    double cp[5], h500_kj, h1200_kj, formation_kj;
} gas_check;

static const double check_k[5] = {298.15, 500, 800, 1200, 1500};
static const gas_check checks[SW_GASES] = {
    {SW_GAS_CO2, {37.135, 44.620, 51.430, 56.306, 58.396}, 8.300, 44.469, -393.51},
    {SW_GAS_H2O, {33.588, 35.214, 38.733, 43.877, 47.291}, 6.925, 34.524, -241.83},
    {SW_GAS_N2, {29.071, 29.636, 31.394, 33.707, 34.805}, 5.920, 28.119, 0},
    {SW_GAS_O2, {29.378, 31.084, 33.750, 35.651, 36.575}, 6.086, 29.763, 0},
    {SW_GAS_CO, {29.141, 29.811, 31.894, 34.149, 35.211}, 5.936, 28.425, -110.53},
};

static double kj(double j)
{
    return j / 1e3;
}

static void heat_capacities_and_enthalpies_are_those_of_the_published_polynomials(sw_test *t)
{
    for (size_t i = 0; i < SW_GASES; i++) {
        const gas_check *c = &checks[i];
        for (size_t k = 0; k < 5; k++) sw_near(t, sw_gas_cp_j_mol_k(c->gas, check_k[k]), c->cp[k], 6e-4, NASA);
        double h298 = sw_gas_enthalpy_j_mol(c->gas, 298.15);
        sw_near(t, kj(sw_gas_enthalpy_j_mol(c->gas, 500) - h298), c->h500_kj, 6e-4, NASA);
        sw_near(t, kj(sw_gas_enthalpy_j_mol(c->gas, 1200) - h298), c->h1200_kj, 6e-4, NASA);
        sw_near(t, kj(h298), c->formation_kj, 0.012, "heats of formation, CODATA key values, from memory");
    }
}

static void enthalpy_is_the_integral_of_heat_capacity(sw_test *t)
{
    for (int g = 0; g < SW_GASES; g++)
        for (double at_k = 250; at_k < 3400; at_k += 50) {
            if (fabs(at_k - 1000) < 1) continue;
            double slope =
                (sw_gas_enthalpy_j_mol((sw_gas)g, at_k + 0.1) - sw_gas_enthalpy_j_mol((sw_gas)g, at_k - 0.1)) / 0.2;
            double cp = sw_gas_cp_j_mol_k((sw_gas)g, at_k);
            if (!sw_near(t, slope, cp, 1e-5 * cp, "law: dh = cp dT")) return;
        }
}

static void the_two_ranges_meet_at_1000_k(sw_test *t)
{
    for (int g = 0; g < SW_GASES; g++) {
        double step = sw_gas_enthalpy_j_mol((sw_gas)g, 1000 + 1e-7) - sw_gas_enthalpy_j_mol((sw_gas)g, 1000);
        sw_near(t, step, 0, 0.5, "law: enthalpy has no step");
    }
}

static void the_two_published_sets_agree(sw_test *t)
{
    const char *both = "handbook F2.4: NIST WebBook SRD 69 against GRI-Mech 3.0, within 0.4 %";
    static const double from_k[SW_GASES] = {298.15, 298.15, 298.15, 500, 298.15};
    for (int g = 0; g < SW_GASES; g++)
        for (double at_k = from_k[g]; at_k <= 1300; at_k += 100) {
            double nasa = sw_gas_cp_j_mol_k((sw_gas)g, at_k);
            if (!sw_near(t, sw_gas_cp_shomate_j_mol_k((sw_gas)g, at_k), nasa, 4e-3 * nasa, both)) return;
        }
    for (int g = 0; g < SW_GASES; g++) {
        if (g == SW_GAS_H2O) continue; /* its published range starts at 500 K */
        double nasa = sw_gas_enthalpy_j_mol((sw_gas)g, 500) - sw_gas_enthalpy_j_mol((sw_gas)g, 298.15);
        double shomate = sw_gas_enthalpy_shomate_j_mol((sw_gas)g, 500);
        sw_near(t, shomate, nasa, 1.7e-3 * nasa, "handbook F2.4: h(500) - h(298) within 0.16 %");
    }
    double steam = sw_gas_enthalpy_shomate_j_mol(SW_GAS_H2O, 1200);
    sw_near(t, kj(steam), 34.524, 0.06, NASA);
}

static void outside_the_published_range_a_gas_has_no_answer(sw_test *t)
{
    sw_true(t, isnan(sw_gas_cp_j_mol_k(SW_GAS_N2, 199)) && isnan(sw_gas_cp_j_mol_k(SW_GAS_N2, 3501)));
    sw_true(t, isnan(sw_gas_enthalpy_j_mol(SW_GAS_CO2, NAN)) && isnan(sw_gas_cp_j_mol_k(SW_GASES, 300)));
    sw_true(t, isnan(sw_gas_cp_shomate_j_mol_k(SW_GAS_H2O, 400)) && isnan(sw_gas_cp_shomate_j_mol_k(SW_GAS_CO, 1400)));
    sw_true(t, isnan(sw_gas_enthalpy_shomate_j_mol(SW_GAS_H2O, 400)) && isnan(sw_gas_kg_kmol((sw_gas)-1)));
}

static sw_mixture any_mixture(sw_random *random)
{
    sw_mixture m = {{0}};
    for (int g = 0; g < SW_GASES; g++) m.kmol[g] = sw_random_unit(random);
    return m;
}

static void the_temperature_of_an_enthalpy_gives_the_enthalpy_back(sw_test *t)
{
    sw_random random = sw_random_seeded(7);
    for (int i = 0; i < 300; i++) {
        sw_mixture m = any_mixture(&random);
        double at_k = 200 + 3300 * sw_random_unit(&random);
        double found_k = sw_mixture_temperature_k(&m, sw_mixture_enthalpy_j(&m, at_k));
        if (!sw_near(t, found_k, at_k, 2e-3, "invariance: T(h(T)) = T")) return;
    }
}

static void an_enthalpy_in_the_step_between_the_ranges_ends_at_1000_k(sw_test *t)
{
    sw_mixture steam = {.kmol[SW_GAS_H2O] = 1};
    double below = sw_mixture_enthalpy_j(&steam, 1000), above = sw_mixture_enthalpy_j(&steam, 1000 + 1e-9);
    sw_near(t, sw_mixture_temperature_k(&steam, 0.5 * (below + above)), 1000, 2e-3, "law: h rises with T");
    sw_near(t, sw_mixture_temperature_k(&steam, below), 1000, 2e-3, "law: h rises with T");
}

static void an_enthalpy_beyond_the_range_has_no_temperature(sw_test *t)
{
    sw_mixture air = {.kmol[SW_GAS_N2] = 0.79, .kmol[SW_GAS_O2] = 0.21}, nothing = {{0}};
    sw_true(t, isnan(sw_mixture_temperature_k(&air, 1e9)) && isnan(sw_mixture_temperature_k(&air, -1e9)));
    sw_true(t, isnan(sw_mixture_temperature_k(&air, NAN)) && isnan(sw_mixture_temperature_k(&nothing, 0)));
    sw_true(t, isnan(sw_mixture_density(&nothing, 300, 1e5)));
}

static void a_mixture_is_the_sum_of_its_gases(sw_test *t)
{
    sw_random random = sw_random_seeded(3);
    sw_mixture m = any_mixture(&random);
    double kg = 0, h = 0, cp = 0;
    for (int g = 0; g < SW_GASES; g++) {
        kg += m.kmol[g] * sw_gas_kg_kmol((sw_gas)g);
        h += 1e3 * m.kmol[g] * sw_gas_enthalpy_j_mol((sw_gas)g, 700);
        cp += 1e3 * m.kmol[g] * sw_gas_cp_j_mol_k((sw_gas)g, 700);
    }
    sw_near(t, sw_mixture_kg(&m), kg, 1e-12 * kg, "law: sum");
    sw_near(t, sw_mixture_enthalpy_j(&m, 700), h, 1e-12 * fabs(h), "law: sum");
    sw_near(t, sw_mixture_cp_j_k(&m, 700), cp, 1e-12 * cp, "law: sum");
    double there = sw_mixture_heat_j(&m, 300, 900), back = sw_mixture_heat_j(&m, 900, 300);
    sw_near(t, there, -back, 1e-12 * there, "law: there and back");
}

static void burning_methane_reaches_the_textbook_flame(sw_test *t)
{
    /* CH4 + 2 (O2 + 3.76 N2) from 298.15 K; heat of formation of methane -74.87 kJ/mol */
    sw_mixture burnt = {.kmol[SW_GAS_CO2] = 1, .kmol[SW_GAS_H2O] = 2, .kmol[SW_GAS_N2] = 2 * 3.76};
    double flame_k = sw_mixture_temperature_k(&burnt, -74.87e6);
    sw_near(t, flame_k, 2325, 3, "handbook F2.6: methane and air without dissociation, computed; textbooks about 2328");
}

typedef struct air_check {
    double t_c, density, cp, mu_6, nu_6, k, pr;
} air_check;

static const air_check airs[] = {
    {0, 1.2923, 1003.5, 17.16, 13.28, 0.02414, 0.713},    {20, 1.2041, 1004.3, 18.13, 15.06, 0.02572, 0.708},
    {50, 1.0923, 1006.0, 19.54, 17.88, 0.02803, 0.701},   {100, 0.9459, 1010.2, 21.73, 22.98, 0.03174, 0.692},
    {150, 0.8342, 1016.2, 23.79, 28.51, 0.03527, 0.685},  {200, 0.7460, 1024.1, 25.71, 34.47, 0.03865, 0.681},
    {250, 0.6747, 1033.6, 27.54, 40.81, 0.04189, 0.679},  {300, 0.6159, 1044.4, 29.27, 47.52, 0.04500, 0.679},
    {400, 0.5244, 1068.3, 32.50, 61.98, 0.05086, 0.683},  {500, 0.4565, 1092.3, 35.47, 77.70, 0.05633, 0.688},
    {600, 0.4043, 1114.8, 38.25, 94.61, 0.06146, 0.694},  {800, 0.3289, 1153.6, 43.31, 131.7, 0.07089, 0.705},
    {1000, 0.2773, 1184.3, 47.87, 172.7, 0.07944, 0.714},
};

static void dry_air_follows_the_standard_atmosphere(sw_test *t)
{
    for (size_t i = 0; i < sizeof airs / sizeof *airs; i++) {
        const air_check *c = &airs[i];
        sw_air a = sw_air_at(sw_k_from_c(c->t_c));
        sw_near(t, a.density, c->density, 6e-5, AIR);
        sw_near(t, a.cp, c->cp, 0.06, AIR);
        sw_near(t, a.viscosity * 1e6, c->mu_6, 6e-3, AIR);
        sw_near(t, a.kinematic * 1e6, c->nu_6, c->nu_6 > 100 ? 0.06 : 6e-3, AIR);
        sw_near(t, a.conductivity, c->k, 6e-6, AIR);
        sw_near(t, a.pr, c->pr, 6e-4, AIR);
    }
    sw_near(t, sw_air_at(288.15).density, 1.225, 5e-5, "ISO 2533:1975, H = 0 m");
}

static void textbook_air_differs_by_two_per_cent_at_most(sw_test *t)
{
    const char *book = "Incropera table A.4, from memory, within 2 %";
    sw_air a = sw_air_at(300), b = sw_air_at(400);
    sw_near(t, a.kinematic * 1e6, 15.89, 0.02 * 15.89, book);
    sw_near(t, a.conductivity, 0.0263, 0.02 * 0.0263, book);
    sw_near(t, b.kinematic * 1e6, 26.41, 0.02 * 26.41, book);
    sw_near(t, b.conductivity, 0.0338, 0.02 * 0.0338, book);
    sw_near(t, b.pr, 0.690, 0.02 * 0.690, book);
}

static void air_has_no_answer_where_nothing_is_published(sw_test *t)
{
    sw_true(t, isnan(sw_air_at(199).cp) && isnan(sw_air_at(1501).density) && isnan(sw_air_at(NAN).pr));
    sw_true(t, isfinite(sw_air_at(200).cp) && isfinite(sw_air_at(1500).pr));
}

static void properties_of_air_have_no_steps(sw_test *t)
{
    for (double at_k = 200; at_k < 1499; at_k += 1) {
        sw_air a = sw_air_at(at_k), b = sw_air_at(at_k + 1);
        if (!sw_near(t, b.cp, a.cp, 5e-4 * a.cp, "continuity")) return;
        if (!sw_near(t, b.pr, a.pr, 2e-3 * a.pr, "continuity")) return;
    }
}

static void water_saturates_as_the_steam_tables_say(sw_test *t)
{
    const char *magnus = "handbook F2.3: Magnus form, computed", *antoine = "handbook F2.3: Antoine, computed";
    const char *steam = "IAPWS-IF97, from memory, within 0.5 %";
    static const double t_c[3] = {20, 50, 60}, m[3] = {2332.6, 12345, 19993}, a[3] = {2329.6, 12306, 19870},
                        table[3] = {2339, 12352, 19946};
    for (int i = 0; i < 3; i++) {
        double at_k = sw_k_from_c(t_c[i]), tolerance = i == 0 ? 0.06 : 0.6;
        sw_near(t, sw_water_pressure_pa(at_k), m[i], tolerance, magnus);
        sw_near(t, sw_water_pressure_antoine_pa(at_k), a[i], tolerance, antoine);
        sw_near(t, sw_water_pressure_pa(at_k), table[i], 5e-3 * table[i], steam);
        sw_near(t, sw_water_pressure_antoine_pa(at_k), table[i], 5e-3 * table[i], steam);
    }
    double boiling = sw_water_pressure_antoine_pa(sw_k_from_c(100));
    sw_near(t, boiling, 101325, 150, "boiling at one atmosphere");
}

static void the_dew_point_of_a_saturation_pressure_is_its_temperature(sw_test *t)
{
    for (double t_c = -45; t_c <= 60; t_c += 1.5) {
        double at_k = sw_k_from_c(t_c);
        if (fabs(t_c + 45) < 0.1 || fabs(t_c - 60) < 0.1) continue;
        if (!sw_near(t, sw_dew_point_k(sw_water_pressure_pa(at_k)), at_k, 1e-9, "invariance")) return;
    }
    sw_true(t, isnan(sw_dew_point_k(0)) && isnan(sw_dew_point_k(-5)) && isnan(sw_dew_point_k(3e4)));
    sw_true(t, isnan(sw_dew_point_k(1)) && isnan(sw_water_pressure_pa(sw_k_from_c(61))));
    sw_true(t, isnan(sw_water_pressure_antoine_pa(sw_k_from_c(0))));
}

SW_TESTS(SW_CASE(heat_capacities_and_enthalpies_are_those_of_the_published_polynomials),
         SW_CASE(enthalpy_is_the_integral_of_heat_capacity), SW_CASE(the_two_ranges_meet_at_1000_k),
         SW_CASE(the_two_published_sets_agree), SW_CASE(outside_the_published_range_a_gas_has_no_answer),
         SW_CASE(the_temperature_of_an_enthalpy_gives_the_enthalpy_back),
         SW_CASE(an_enthalpy_in_the_step_between_the_ranges_ends_at_1000_k),
         SW_CASE(an_enthalpy_beyond_the_range_has_no_temperature), SW_CASE(a_mixture_is_the_sum_of_its_gases),
         SW_CASE(burning_methane_reaches_the_textbook_flame), SW_CASE(dry_air_follows_the_standard_atmosphere),
         SW_CASE(textbook_air_differs_by_two_per_cent_at_most), SW_CASE(air_has_no_answer_where_nothing_is_published),
         SW_CASE(properties_of_air_have_no_steps), SW_CASE(water_saturates_as_the_steam_tables_say),
         SW_CASE(the_dew_point_of_a_saturation_pressure_is_its_temperature))
