/* Losses by enthalpies and by the standard's short formulas; flames. */
#include "sw_test.h"
#include "wood.h"

static const double room_c = 20;

static sw_fire_losses losses(double moisture, double lambda, double flue_c, double co_dry, double residue)
{
    sw_fuel f = beech(moisture);
    sw_fire_gas g = sw_fire_gas_of(&f, lambda, 0);
    return sw_fire_losses_at(&f, &g, sw_k_from_c(flue_c), sw_k_from_c(room_c), co_dry, residue);
}

static void flue_losses_are_those_of_the_handbooks_table(sw_test *t)
{
    static const double lambdas[] = {1.5, 2.2, 3.0}, flues_c[] = {150, 200, 250, 300, 350};
    static const double percent[3][5] = {
        {7.69, 10.71, 13.77, 16.87, 20.01}, {10.69, 14.88, 19.12, 23.40, 27.74}, {14.11, 19.64, 25.22, 30.87, 36.58}};
    static const double gas[3][3] = {{13.51, 7.02, 1.113}, {9.20, 11.47, 1.091}, {6.74, 14.00, 1.078}};
    sw_fuel f = beech(0.16);
    for (int i = 0; i < 3; i++) {
        for (int k = 0; k < 5; k++)
            sw_near(t, 100 * losses(0.16, lambdas[i], flues_c[k], 0, 0).sensible, percent[i][k], 6e-3,
                    "handbook F2.5, computed from NASA enthalpies");
        sw_fire_gas g = sw_fire_gas_of(&f, lambdas[i], 0);
        sw_near(t, 100 * g.co2_dry, gas[i][0], 6e-3, "handbook F2.5, computed");
        sw_near(t, 100 * g.o2_dry, gas[i][1], 6e-3, "handbook F2.5, computed");
        sw_near(t, sw_mixture_cp_j_k(&g.wet, sw_k_from_c(250)) / g.gas_kg / 1000, gas[i][2], 6e-4,
                "handbook F2.5, computed");
    }
}

static void standards_short_formulas_give_the_handbooks_numbers(sw_test *t)
{
    sw_fuel f = beech(0.16);
    sw_fire_gas g = sw_fire_gas_of(&f, 2.2, 0);
    sw_fire_short s = sw_fire_short_losses(&f, g.co2_dry, 0, sw_k_from_c(250), sw_k_from_c(room_c));
    const char *book = "handbook F2.5, computed from EN 13240 annex A (from memory)";
    sw_near(t, s.cp_dry, 1355.4, 0.06, book);
    sw_near(t, s.cp_water, 1532, 0.6, book);
    sw_near(t, s.sensible_j, 2890e3, 600, book);
    sw_near(t, 100 * s.sensible_j / g.lhv, 19.01, 6e-3, book);
    double co2_13 = g.co2_max_dry * (1 - 0.13 / 0.2095);
    s = sw_fire_short_losses(&f, co2_13, 0.001, sw_k_from_c(250), sw_k_from_c(room_c));
    sw_near(t, 100 * s.co_j / g.lhv, 0.82, 6e-3, "handbook F2.5, computed: CO 0.10 % at 13 % O2");
    sw_near(t, sw_fire_residue_j(0.3, 0.01), 100.5e3, 1e-6, "EN 13240 annex A (from memory): 335 b R/100 kJ/kg");
}

static void short_formulas_stay_near_the_enthalpies(sw_test *t)
{
    sw_random r = sw_random_seeded(21);
    for (int i = 0; i < 300; i++) {
        double lambda = sw_random_between(&r, 1.2, 4), flue_c = sw_random_between(&r, 120, 400);
        sw_fire_losses l =
            losses(sw_random_between(&r, 0.08, 0.3), lambda, flue_c, sw_random_between(&r, 0, 0.003), 0.005);
        if (!sw_near(t, l.standard_sensible, l.sensible, 0.015 * l.sensible,
                     "handbook F2.5: 0.6 % apart at the check point"))
            return;
        if (!sw_near(t, l.standard_co, l.co, 0.005 * l.co, "same carbon balance, 12 644 against 12 625 kJ/m3n")) return;
    }
}

static void losses_of_the_first_example_leave_its_efficiency(sw_test *t)
{
    sw_fuel f = beech(0.16);
    sw_fire_gas g = sw_fire_gas_of(&f, 2.2, 0);
    double co = sw_fire_at_reference_o2(0.001, 0.13, g.o2_dry);
    sw_fire_losses l = losses(0.16, 2.2, 250, co, 0.005);
    sw_near(t, 100 * l.sensible, 19.1, 0.06, "handbook E1, computed");
    sw_near(t, 100 * l.co, 0.82, 0.016, "handbook E1, computed with the short formula (0.83 by carbon balance)");
    sw_near(t, 100 * l.efficiency, 79.6, 0.06, "handbook E1, computed");
    sw_near(t, 8.974 * l.efficiency, 7.140, 2e-3, "handbook F10, ledger of E1, computed");
    sw_near(t, 8.974 * l.sensible, 1.715, 2e-3, "handbook F10, ledger of E1, computed");
    sw_near(t, 8.974 * l.co, 0.074, 1e-3, "handbook F10, ledger of E1, computed");
}

static void flue_temperature_that_leaves_the_assumed_efficiency_is_met(sw_test *t)
{
    sw_fuel f = beech(0.16);
    sw_fire_gas g = sw_fire_gas_of(&f, 2.2, 0);
    double co = sw_fire_at_reference_o2(0.001, 0.13, g.o2_dry);
    sw_near(t, 100 * losses(0.16, 2.2, 268, co, 0.005).efficiency, 78, 0.1, "handbook F10: 268 degC leaves 78 %");
}

static void thin_gas_of_the_second_example_loses_a_quarter(sw_test *t)
{
    sw_fuel f = beech(0.16);
    sw_fire_losses l = losses(0.16, 2.6, 280, 0, 0);
    sw_near(t, l.sensible * sw_fuel_lhv(&f), 3.8225e6, 400, "handbook E24, computed");
    sw_near(t, 100 * l.sensible, 25.14, 6e-3, "handbook E24, computed");
}

static void carbon_monoxide_costs_the_same_at_any_excess_air(sw_test *t)
{
    sw_fuel f = beech(0.16);
    for (double lambda = 1.2; lambda < 4; lambda += 0.2) {
        sw_fire_gas g = sw_fire_gas_of(&f, lambda, 0);
        double co = sw_fire_at_reference_o2(0.001, 0.13, g.o2_dry);
        sw_near(t, 100 * losses(0.16, lambda, 250, co, 0).co, 0.831, 2e-3, "handbook F2.5: independent of lambda");
    }
}

static void shares_add_up_to_the_whole(sw_test *t)
{
    sw_random r = sw_random_seeded(9);
    for (int i = 0; i < 200; i++) {
        sw_fire_losses l =
            losses(sw_random_between(&r, 0, 0.5), sw_random_between(&r, 1, 6), sw_random_between(&r, 20, 700),
                   sw_random_between(&r, 0, 0.01), sw_random_between(&r, 0, 0.02));
        if (!sw_near(t, l.sensible + l.co + l.residue + l.efficiency, 1, 1e-12, "law: losses and use are the whole"))
            return;
        if (!sw_near(t, l.standard_sensible + l.standard_co + l.standard_residue + l.standard_efficiency, 1, 1e-12,
                     "law: losses and use are the whole"))
            return;
    }
    sw_near(t, losses(0.16, 2, 20, 0, 0).efficiency, 1, 1e-12, "law: gas as cold as the room takes nothing away");
    sw_true(t, isnan(losses(0.61, 2, 200, 0, 0).efficiency) && isnan(losses(0.2, 2, NAN, 0, 0).efficiency));
    sw_true(t, isnan(losses(0.2, 2, 200, -0.1, 0).efficiency) && isnan(losses(0.2, 0.5, 200, 0, 0).efficiency));
}

static double flame_c(double moisture, double lambda, double air_c)
{
    sw_fuel f = beech(moisture);
    return sw_c_from_k(sw_fire_flame_k(&f, lambda, sw_k_from_c(air_c)));
}

static void flames_of_beech_are_as_hot_as_the_handbooks(sw_test *t)
{
    static const double w[] = {0, 0.12, 0.16, 0.20, 0.25}, lambda[] = {1.0, 1.5, 1.8, 2.2, 2.5, 3.0};
    static const double c[5][6] = {{2084, 1562, 1362, 1166, 1053, 909},
                                   {1986, 1503, 1315, 1129, 1022, 884},
                                   {1948, 1480, 1296, 1114, 1009, 874},
                                   {1909, 1455, 1276, 1099, 996, 863},
                                   {1855, 1421, 1249, 1077, 978, 848}};
    for (int i = 0; i < 5; i++)
        for (int k = 0; k < 6; k++) sw_near(t, flame_c(w[i], lambda[k], 25), c[i][k], 0.6, "handbook F2.6, computed");
    sw_near(t, flame_c(0.16, 1.8, 200), 1415, 0.6, "handbook F2.6, computed: air preheated to 200 degC");
}

/* Burned with textbook air of 21 % oxygen: what that is less in nitrogen than ours is taken off the fuel's. */
static double textbook_flame_k(double carbon, double hydrogen, double lhv_mj_kmol)
{
    double o2 = carbon + hydrogen / 4, kg = 12.011 * carbon + 1.008 * hydrogen;
    sw_fuel f = {.name = "", .c = 12.011 * carbon / kg, .h = 1.008 * hydrogen / kg, .lhv_dry = lhv_mj_kmol * 1e6 / kg};
    f.n = -2 * 14.007 * o2 * (0.7905 / 0.2095 - 3.76) / kg;
    f.source = "";
    return sw_fire_flame_k(&f, 1, 298.15);
}

static void flames_of_textbook_fuels_are_met(sw_test *t)
{
    double octane_k = textbook_flame_k(8, 18, 5074.5), methane_k = textbook_flame_k(1, 4, 802.3);
    sw_near(t, octane_k, 2395, 4, "Cengel & Boles, adiabatic flame of liquid octane (from memory)");
    sw_near(t, octane_k, 2392, 1.5, "handbook F2.6, computed");
    sw_near(t, methane_k, 2328, 4, "textbooks, methane in air, complete combustion (from memory)");
    sw_near(t, methane_k, 2325, 1.5, "handbook F2.6, computed");
}

static void flames_fall_with_air_and_water_and_rise_with_preheat(sw_test *t)
{
    for (double lambda = 1; lambda < 10; lambda += 0.25) {
        double k = flame_c(0.2, lambda, 25);
        if (!sw_true(t, flame_c(0.2, lambda + 0.25, 25) < k && flame_c(0.25, lambda, 25) < k)) return;
        if (!sw_true(t, flame_c(0.2, lambda, 100) > k)) return;
    }
    sw_true(t, isnan(flame_c(0.2, 0.9, 25)) && isnan(flame_c(0.7, 2, 25)) && isnan(flame_c(0.2, 2, NAN)));
}

static void a_charge_holds_the_heat_of_its_time(sw_test *t)
{
    const char *book = "handbook F1.3, computed: B = 360 000 P t/(LHV eta)";
    static const double rows[][2] = {{7000, 1.594}, {5000, 1.138}, {8000, 1.821}};
    for (size_t i = 0; i < 3; i++)
        sw_near(t, sw_fire_batch_kg(rows[i][0], sw_s_from_min(45), 15.204e6, 0.78), rows[i][1], 6e-4, book);
    sw_true(t, isnan(sw_fire_batch_kg(7000, 2700, 15e6, 0)) && isnan(sw_fire_batch_kg(NAN, 2700, 15e6, 0.8)));
}

SW_TESTS(SW_CASE(flue_losses_are_those_of_the_handbooks_table),
         SW_CASE(standards_short_formulas_give_the_handbooks_numbers), SW_CASE(short_formulas_stay_near_the_enthalpies),
         SW_CASE(losses_of_the_first_example_leave_its_efficiency),
         SW_CASE(flue_temperature_that_leaves_the_assumed_efficiency_is_met),
         SW_CASE(thin_gas_of_the_second_example_loses_a_quarter),
         SW_CASE(carbon_monoxide_costs_the_same_at_any_excess_air), SW_CASE(shares_add_up_to_the_whole),
         SW_CASE(flames_of_beech_are_as_hot_as_the_handbooks), SW_CASE(flames_of_textbook_fuels_are_met),
         SW_CASE(flames_fall_with_air_and_water_and_rise_with_preheat), SW_CASE(a_charge_holds_the_heat_of_its_time))
