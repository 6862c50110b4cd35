/* Single formulas of the type test: losses, emissions, season and class, repeats, budgets. */
#include "proving/trial/trial.h"
#include "sw_test.h"

#include <math.h>
#include <string.h>

static const sw_trial_wood reference = {0.42, 0.0504, 0.16, 15065e3};

static void heat_capacities_are_those_of_the_table(sw_test *t)
{
    static const double c[] = {100, 200, 250, 300}, co2[] = {0.05, 0.08, 0.10, 0.12};
    static const double dry[4][4] = {{1.32218, 1.33328, 1.34068, 1.34808},
                                     {1.33137, 1.34402, 1.35245, 1.36087},
                                     {1.33668, 1.34997, 1.35882, 1.36765},
                                     {1.34247, 1.35632, 1.36552, 1.37469}};
    static const double water[] = {1.50530, 1.52266, 1.53225, 1.54246};
    for (int i = 0; i < 4; i++) {
        for (int k = 0; k < 4; k++)
            sw_near(t, sw_trial_cp_dry(sw_k_from_c(c[i]), co2[k]) / 1000, dry[i][k], 6e-6, "handbook TT-1, computed");
        sw_near(t, sw_trial_cp_water(sw_k_from_c(c[i])) / 1000, water[i], 6e-6, "handbook TT-1, computed");
    }
}

static void heat_capacities_are_right_to_one_percent(sw_test *t)
{
    static const double c[] = {150, 250, 400}, dry[] = {1.35191, 1.36639, 1.39108},
                        water[] = {1.51521, 1.53439, 1.56808};
    for (int i = 0; i < 3; i++) {
        sw_near(t, sw_trial_cp_dry(sw_k_from_c(c[i]), 0.10) / 1000, dry[i], 0.01 * dry[i],
                "handbook TT-1: NIST Shomate functions, integrated");
        sw_near(t, sw_trial_cp_water(sw_k_from_c(c[i])) / 1000, water[i], 0.01 * water[i],
                "handbook TT-1: NIST Shomate functions, integrated");
    }
}

static void losses_of_the_second_example_leave_its_efficiency(sw_test *t)
{
    const char *book = "handbook TT-2, computed";
    sw_trial_gas gas = {sw_k_from_c(280), sw_k_from_c(20), 0.11, 0.0008, 0.005 * 15065e3, 0};
    sw_trial_losses l = sw_trial_losses_of(&reference, &gas);
    double kg_s = sw_h_from_s(2.12);
    sw_near(t, l.cp_dry / 1000, 1.367324, 6e-7, book);
    sw_near(t, l.cp_water / 1000, 1.538300, 6e-7, book);
    sw_near(t, l.dry_m3n, 7.07204, 6e-6, book);
    sw_near(t, l.sensible_j / 1000, 2819.435, 2e-3, book);
    sw_near(t, 100 * l.sensible, 18.7151, 1e-4, book);
    sw_near(t, l.co_j / 1000, 71.535, 1e-3, book);
    sw_near(t, 100 * l.co, 0.47484, 1e-5, book);
    sw_near(t, 100 * l.efficiency, 80.3100, 1e-4, book);
    sw_near(t, l.efficiency * kg_s * reference.lhv / 1000, 7.12479, 1e-5, book);
    sw_near(t, 1000 * kg_s * l.gas_kg, 5.77538, 1e-5, book);
    sw_near(t, 100 * sw_trial_siegert(gas.flue_k, gas.room_k, gas.co2_dry), 15.36, 6e-3,
            "handbook TT-2: Siegert, A1 0.650");
}

static void losses_of_the_third_example_leave_its_efficiency(sw_test *t)
{
    const char *book = "handbook TT-3, computed";
    sw_trial_gas gas = {sw_k_from_c(200), sw_k_from_c(20), 0.12, 0.0005, 0.005 * 15065e3, 0};
    sw_trial_losses l = sw_trial_losses_of(&reference, &gas);
    double kg_s = sw_h_from_s(1.20);
    sw_near(t, l.sensible_j / 1000, 1802.101, 2e-3, book);
    sw_near(t, 100 * l.sensible, 11.9622, 1e-4, book);
    sw_near(t, 100 * l.co, 0.27289, 1e-5, book);
    sw_near(t, 100 * l.efficiency, 87.2649, 1e-4, book);
    sw_near(t, l.efficiency * kg_s * reference.lhv / 1000, 4.38215, 1e-5, book);
    sw_near(t, 1000 * kg_s * l.gas_kg, 3.02239, 1e-5, book);
}

static void losses_agree_with_the_balance_of_moles(sw_test *t)
{
    double daf = 0.84 - 0.0042;
    sw_fuel f = {.name = "",
                 .c = 0.42 / daf,
                 .h = 0.0504 / daf,
                 .o = 0.3654 / daf,
                 .ash = 0.0042 / 0.84,
                 .moisture = 0.16,
                 .lhv_dry = NAN,
                 .source = ""};
    sw_fire_gas g = sw_fire_gas_of(&f, sw_fire_lambda_from_co2(&f, 0.1108), 0);
    sw_near(t, 1000 * sw_h_from_s(2.12) * g.gas_kg, 5.986, 0.006,
            "handbook TT-2: stoichiometry, 3.7 % more than the standard's");
    sw_near(t, sw_mixture_heat_j(&g.wet, sw_k_from_c(20), sw_k_from_c(280)) / 1000, 2836.06, 4,
            "handbook TT-2: stoichiometry and Shomate functions");
}

static void heating_value_falls_with_water(sw_test *t)
{
    static const double w[] = {0, 0.10, 0.12, 0.16, 0.20, 0.25};
    static const double kj[] = {18400, 16315.7, 15898.8, 15065.1, 14231.4, 13189.3};
    for (int i = 0; i < 6; i++) sw_near(t, sw_trial_lhv(18400e3, w[i]) / 1000, kj[i], 0.06, "handbook T1.2, computed");
    sw_true(t, isnan(sw_trial_lhv(18400e3, 1)) && isnan(sw_trial_lhv(-1, 0.1)));
}

static void what_cannot_be_gives_no_number(sw_test *t)
{
    sw_trial_gas none = {500, 293, 0, 0, 0, 0}, coal = {500, 293, 0.1, 0, 0, 0.5};
    sw_trial_wood cold = reference;
    cold.lhv = 0;
    sw_true(t, isnan(sw_trial_losses_of(&reference, &none).efficiency));
    sw_true(t, isnan(sw_trial_losses_of(&reference, &coal).efficiency));
    sw_trial_gas gas = {500, 293, 0.1, 0, 0, 0};
    sw_true(t, isnan(sw_trial_losses_of(&cold, &gas).efficiency));
    sw_true(t, isnan(sw_emission_at_13(100, 0.2095)) && isnan(sw_emission_mg_m3n(SW_EMISSION_CO, -0.1)));
    sw_true(t, isnan(sw_trial_co2_of_o2(0.21, 0.204)) && isnan(sw_trial_siegert(500, 293, 0)));
}

static void losses_and_use_are_the_whole(sw_test *t)
{
    sw_random r = sw_random_seeded(3);
    for (int i = 0; i < 200; i++) {
        sw_trial_gas gas = {sw_random_between(&r, 320, 770),   293,
                            sw_random_between(&r, 0.03, 0.18), sw_random_between(&r, 0, 0.02),
                            sw_random_between(&r, 0, 3e5),     0};
        sw_trial_losses l = sw_trial_losses_of(&reference, &gas), more;
        if (!sw_near(t, l.sensible + l.co + l.residue + l.efficiency, 1, 1e-12, "law: losses and use are the whole"))
            return;
        gas.flue_k += 1;
        more = sw_trial_losses_of(&reference, &gas);
        if (!sw_true(t, more.efficiency < l.efficiency)) return;
    }
}

static void concentrations_become_milligrams_at_13_percent(sw_test *t)
{
    const char *book = "handbook TT-4, computed";
    sw_near(t, sw_emission_mg_m3n(SW_EMISSION_CO, 800e-6), 999.73, 6e-3, book);
    sw_near(t, sw_emission_at_13(sw_emission_mg_m3n(SW_EMISSION_CO, 800e-6), 0.097), 707.78, 6e-3, book);
    sw_near(t, sw_emission_at_13(sw_emission_mg_m3n(SW_EMISSION_OGC, 45e-6), 0.097), 51.216, 6e-4, book);
    sw_near(t, sw_emission_at_13(sw_emission_mg_m3n(SW_EMISSION_NOX, 62e-6), 0.097), 90.094, 1e-3, book);
    sw_near(t, sw_emission_at_13(24.6 / 0.750, 0.097), 23.221, 6e-4, book);
    sw_near(t, sw_emission_at_13(0.1, 0.10), 0.072727, 6e-7, book);
    sw_near(t, sw_emission_at_13(sw_emission_mg_m3n(SW_EMISSION_CO, 0.001), 0.10), 908.85, 6e-3, book);
    double v13 = sw_trial_dry_m3n_at_13(0.42);
    sw_near(t, v13, 10.0996, 2e-3, "handbook T2.1, computed: reference wood");
    sw_near(t, 1500 * v13 / 1000, 15.149, 3e-3, book);
    sw_near(t, 1500 * v13 / 15.065, 1005.6, 0.2, book);
    sw_near(t, 40 * v13 / 1000 * 2.12, 0.8564, 2e-4, book);
    sw_near(t, 40 * v13 / 1000 / 0.84, 0.4809, 1e-4, book);
    sw_near(t, v13 / 15.065, 0.667, 0.005, "EN 15544 scope: pairs of mg/m3 and mg/MJ (seen)");
}

static void means_come_before_the_conversion(sw_test *t)
{
    const char *book = "handbook TT-5, computed";
    double a = sw_emission_mg_m3n(SW_EMISSION_CO, 500e-6), b = sw_emission_mg_m3n(SW_EMISSION_CO, 3000e-6);
    sw_near(t, sw_emission_at_13((a + b) / 2, 0.115), 1841.6, 0.06, book);
    sw_near(t, sw_emission_at_13(a, 0.08), 384.5, 0.06, book);
    sw_near(t, sw_emission_at_13(b, 0.15), 4998.7, 0.06, book);
    sw_near(t, (sw_emission_at_13(a, 0.08) + sw_emission_at_13(b, 0.15)) / 2, 2691.6, 0.06, book);
}

static sw_trial_season season(double percent, sw_trial_features f)
{
    return sw_trial_season_of(percent / 100, 8000, &f);
}

static void season_and_class_of_wood(sw_test *t)
{
    static const struct {
        double eta, season, index;
        const char *class_;
    } rows[] = {{75, 65, 98.75, "A"},
                {78, 68, 103.10, "A"},
                {80, 70, 106.00, "A"},
                {81, 71, 107.45, "A+"},
                {84.5, 74.5, 112.525, "A+"}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        sw_trial_season s = season(rows[i].eta, (sw_trial_features){0});
        sw_near(t, 100 * s.efficiency, rows[i].season, 1e-9, "handbook TT-6, computed");
        sw_near(t, s.index, rows[i].index, 1e-9, "handbook TT-6, computed");
        sw_same_text(t, s.class_, rows[i].class_);
    }
}

static void an_edge_of_a_class_belongs_to_the_better(sw_test *t)
{
    sw_trial_season s = season(80, (sw_trial_features){.control = SW_CONTROL_STAGES, .low_tested = true});
    sw_near(t, 100 * s.efficiency, 71, 1e-9, "handbook TT-6, computed: two manual stages");
    sw_near(t, s.index, 107, 1e-9, "handbook TT-6, computed: two manual stages");
    sw_same_text(t, s.class_, "A+");
    s = season(80, (sw_trial_features){.control = SW_CONTROL_STAGES});
    sw_near(t, s.index, 106, 1e-9, "handbook T2.2: no bonus without emissions at the least output");
    static const double edges[] = {130, 107, 88, 82, 77, 72, 62},
                        eta[] = {96.55, 80.69, 67.59, 63.45, 60.00, 56.55, 49.66};
    for (int i = 0; i < 7; i++)
        sw_near(t, season(eta[i], (sw_trial_features){0}).index, edges[i], 0.01, "handbook T2.3, computed");
    sw_same_text(t, sw_trial_class(41.9), "G");
    sw_same_text(t, sw_trial_class(NAN), "?");
}

static void electricity_counts_against_a_pellet_stove(sw_test *t)
{
    sw_trial_features f = {.control = SW_CONTROL_WEEK,
                           .distance = true,
                           .low_tested = true,
                           .el_most_w = 100,
                           .el_least_w = 50,
                           .el_standby_w = 3};
    sw_trial_season s = season(90, f);
    sw_near(t, 100 * s.f4, 1.996875, 1e-9, "handbook TT-6, computed");
    sw_near(t, 100 * s.efficiency, 86.003, 6e-4, "handbook TT-6, computed");
    sw_near(t, s.index, 126.503, 6e-4, "handbook TT-6, computed");
    sw_same_text(t, s.class_, "A+");
}

static void smoke_limit_grows_with_the_output(sw_test *t)
{
    sw_near(t, sw_trial_smoke_limit_g_h(7000, 5), 7.3333, 6e-5, "handbook TT-7, computed");
    sw_near(t, sw_trial_smoke_limit_g_h(7000, 3), 5.3333, 6e-5, "handbook TT-7, computed");
    sw_near(t, sw_trial_smoke_limit_g_h(4900, 5), 6.6333, 6e-5, "handbook TT-7, computed");
}

static void handles_and_walls_have_their_limits(sw_test *t)
{
    const char *book = "handbook TT-8";
    sw_true(t, 58 - 24 <= sw_trial_rise_limit_of(SW_SPOT_METAL)->limit_k);
    sw_true(t, 71 - 25 > sw_trial_rise_limit_of(SW_SPOT_ENAMEL)->limit_k);
    sw_true(t, 82 - 23 <= sw_trial_rise_limit_of(SW_SPOT_PLASTIC)->limit_k);
    sw_true(t, 89 - 22 > sw_trial_rise_limit_of(SW_SPOT_CORNER)->limit_k);
    sw_near(t, sw_trial_rise_limit_of(SW_SPOT_METAL)->limit_k, 35, 0, book);
    sw_near(t, sw_trial_rise_limit_of(SW_SPOT_ENAMEL)->limit_k, 45, 0, book);
    sw_near(t, sw_trial_rise_limit_of(SW_SPOT_STORE)->limit_k, 65, 0, "handbook T3.1");
    sw_near(t, sw_trial_rise_limit_of(SW_SPOT_HEARTH)->limit_k, 100, 0, "handbook T3.1");
}

static void repeats_tell_how_sure_a_mean_is(sw_test *t)
{
    const char *book = "handbook TT-10, computed";
    sw_trial_mean a = sw_trial_mean_of((const double[]){79.8, 81.1, 80.3}, 3),
                  b = sw_trial_mean_of((const double[]){1180, 990, NAN, 1420}, 4),
                  c = sw_trial_mean_of((const double[]){28, 35, 31, 40}, 4);
    sw_near(t, a.mean, 80.400, 1e-9, book);
    sw_near(t, a.s, 0.65574, 6e-6, book);
    sw_near(t, a.u, 0.37859, 6e-6, book);
    sw_near(t, a.half95, 1.62896, 6e-6, book);
    sw_near(t, b.mean, 1196.67, 6e-3, book);
    sw_near(t, b.s, 215.484, 6e-4, book);
    sw_near(t, b.u, 124.410, 6e-4, book);
    sw_near(t, b.half95, 535.3, 0.06, book);
    sw_near(t, c.s, 5.1962, 6e-5, book);
    sw_near(t, c.u, 2.5981, 6e-5, book);
    sw_near(t, sw_trial_weighted((const double[]){79, 82}, (const double[]){1.8, 2.2}, 2), 80.65, 1e-9, book);
    sw_true(t, isnan(sw_trial_mean_of((const double[]){1}, 1).s) && isnan(sw_trial_mean_of(NULL, 0).mean));
    sw_near(t, sw_trial_t95(30), 2.042, 6e-4, "tables of Student's t (from memory)");
    sw_near(t, sw_trial_t95(11), 2.201, 1e-3, "tables of Student's t (from memory)");
}

static size_t budget(sw_trial_source *s)
{
    const sw_trial_source all[] = {{"t_a", "degC", 280, 2.5, false, 0, 0},
                                   {"t_r", "degC", 20, 0.5, false, 0, 0},
                                   {"CO2", "%", 11, 0.15, false, 0, 0},
                                   {"CO", "%", 0.08, 0.005, false, 0, 0},
                                   {"C", "%", 42, 0.5, false, 0, 0},
                                   {"H", "%", 5.04, 0.15, false, 0, 0},
                                   {"W", "%", 16, 0.5, false, 0, 0},
                                   {"Hu", "kJ/kg", 15065, 150, false, 0, 0},
                                   {"q_r", "%", 0.5, 0.2 / sqrt(3.0), true, 0, 0},
                                   {"B", "kg/h", 2.12, 0.02, false, 0, 0}};
    memcpy(s, all, sizeof all);
    return sizeof all / sizeof *all;
}

static void budget_of_the_efficiency_adds_up(sw_test *t)
{
    const char *book = "handbook TT-11, computed";
    static const double slopes[] = {-0.0739357, 0.0719813,  1.49385,    -4.38649, -0.408654,
                                    -0.297241,  -0.0330267, 0.00127381, -1};
    sw_trial_source s[SW_TRIAL_SOURCES];
    size_t n = budget(s) - 1;
    double u = sw_trial_propagate(sw_trial_efficiency_of, NULL, s, n);
    for (size_t i = 0; i < n; i++) sw_near(t, s[i].slope, slopes[i], 2e-5 * fabs(slopes[i]), book);
    sw_near(t, u, 0.42427, 1e-5, book);
    sw_near(t, 2 * u, 0.84854, 2e-5, book);
    double mean = 0, sampled = sw_trial_sampled(sw_trial_efficiency_of, NULL, s, n, 200000, 7, &mean);
    sw_near(t, sampled, 0.42443, 0.003, "handbook TT-11: 200 000 draws");
    sw_near(t, mean, 80.304, 0.004, "handbook TT-11: 200 000 draws");
}

static void budget_of_the_output_adds_up(sw_test *t)
{
    const char *book = "handbook TT-11, computed";
    sw_trial_source s[SW_TRIAL_SOURCES];
    size_t n = budget(s);
    sw_near(t, sw_trial_propagate(sw_trial_output_of, NULL, s, n), 0.11564, 2e-5, book);
    sw_near(t, fabs(s[7].part), 0.0879, 6e-5, book);
    sw_near(t, fabs(s[9].part), 0.0672, 6e-5, book);
    sw_trial_source co[] = {{"CO", "ppm", 800, 20, false, 0, 0}, {"O2", "%", 9.7, 0.2, false, 0, 0}};
    double x[] = {800, 9.7};
    sw_near(t, sw_trial_co_of(NULL, x), 707.78, 6e-3, book);
    sw_near(t, sw_trial_propagate(sw_trial_co_of, NULL, co, 2), 21.68, 6e-3, book);
}

static void a_budget_at_the_end_of_a_range_takes_the_side_that_can_be(sw_test *t)
{
    const char *law = "law: the slope changes little within a thousandth";
    sw_trial_source dry[SW_TRIAL_SOURCES], damp[SW_TRIAL_SOURCES];
    size_t n = budget(dry) - 1;
    (void)budget(damp);
    dry[6].value = 0, damp[6].value = 0.1;
    dry[3].value = 0, damp[3].value = 0.001;
    double u = sw_trial_propagate(sw_trial_efficiency_of, NULL, dry, n),
           near = sw_trial_propagate(sw_trial_efficiency_of, NULL, damp, n);
    sw_near(t, dry[6].slope, damp[6].slope, 1e-3 * fabs(damp[6].slope), law);
    sw_near(t, dry[3].slope, damp[3].slope, 1e-3 * fabs(damp[3].slope), law);
    sw_near(t, u, near, 1e-3 * near, law);
    double drawn = sw_trial_sampled(sw_trial_efficiency_of, NULL, dry, n, 20000, 7, NULL);
    sw_true(t, drawn > 0.9 * u && drawn <= 1.02 * u); /* half of the draws of water are passed over */
    dry[6].value = -1;
    sw_true(t, isnan(sw_trial_propagate(sw_trial_efficiency_of, NULL, dry, n)));
}

SW_TESTS(SW_CASE(a_budget_at_the_end_of_a_range_takes_the_side_that_can_be),
         SW_CASE(heat_capacities_are_those_of_the_table), SW_CASE(heat_capacities_are_right_to_one_percent),
         SW_CASE(losses_of_the_second_example_leave_its_efficiency),
         SW_CASE(losses_of_the_third_example_leave_its_efficiency), SW_CASE(losses_agree_with_the_balance_of_moles),
         SW_CASE(heating_value_falls_with_water), SW_CASE(what_cannot_be_gives_no_number),
         SW_CASE(losses_and_use_are_the_whole), SW_CASE(concentrations_become_milligrams_at_13_percent),
         SW_CASE(means_come_before_the_conversion), SW_CASE(season_and_class_of_wood),
         SW_CASE(an_edge_of_a_class_belongs_to_the_better), SW_CASE(electricity_counts_against_a_pellet_stove),
         SW_CASE(smoke_limit_grows_with_the_output), SW_CASE(handles_and_walls_have_their_limits),
         SW_CASE(repeats_tell_how_sure_a_mean_is), SW_CASE(budget_of_the_efficiency_adds_up),
         SW_CASE(budget_of_the_output_adds_up))
