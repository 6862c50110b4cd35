#include "sw_test.h"
#include "transfer/transfer.h"

#include <math.h>

static const char *const leckner = "handbook F4.1: Leckner 1972, computed";

static void leckner_gives_the_table_of_mixtures(sw_test *t)
{
    static const struct {
        sw_gas_path path;
        double t_k, h2o, co2, overlap, both;
    } rows[] = {
        {{0.085, 0.084, 1, 0.30}, 1100, 0.0612, 0.0737, 0.0031, 0.1318},
        {{0.085, 0.084, 1, 0.30}, 900, 0.0738, 0.0763, 0.0031, 0.1470},
        {{0.12, 0.12, 1, 0.30}, 1200, 0.0714, 0.0806, 0.0053, 0.1467},
        {{0.10, 0.10, 1, 1.0}, 1200, 0.1320, 0.1106, 0.0169, 0.2257},
        {{0.20, 0.10, 1, 1.0}, 1500, 0.1680, 0.0975, 0.0247, 0.2408},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        sw_near(t, sw_leckner_h2o(rows[i].path, rows[i].t_k), rows[i].h2o, 6e-5, leckner);
        sw_near(t, sw_leckner_co2(rows[i].path, rows[i].t_k), rows[i].co2, 6e-5, leckner);
        sw_near(t, sw_leckner_overlap(rows[i].path), rows[i].overlap, 6e-5, leckner);
        sw_near(t, sw_leckner(rows[i].path, rows[i].t_k), rows[i].both, 6e-5, leckner);
    }
}

static void single_gases_and_their_pressure_correction_give_the_handbook(sw_test *t)
{
    sw_near(t, sw_leckner_h2o((sw_gas_path){0.2, 0, 1, 1}, 1000), 0.2203, 6e-5, leckner);
    sw_near(t, sw_leckner_co2((sw_gas_path){0, 0.1, 1, 1}, 1000), 0.1146, 6e-5, leckner);
    sw_near(t, sw_leckner((sw_gas_path){0.2, 0, 1, 1}, 1000), 0.2203, 6e-5, "law: one gas has no overlap");
}

static void wall_absorptivity_gives_the_handbook(sw_test *t)
{
    sw_gas_path path = {0.085, 0.084, 1, 0.30}, h2o = path, co2 = path;
    h2o.p_co2_bar = 0, co2.p_h2o_bar = 0;
    sw_near(t, sw_leckner_absorptivity(path, 1100, 723.15), 0.1615, 6e-5, leckner);
    sw_near(t, sw_leckner_absorptivity(h2o, 1100, 723.15), 0.0840, 6e-5, leckner);
    sw_near(t, sw_leckner_absorptivity(co2, 1100, 723.15), 0.0789, 6e-5, leckner);
    sw_near(t, sw_leckner_absorptivity(path, 900, 900), sw_leckner(path, 900), 1e-15,
            "law: absorptivity is emissivity at equal temperature (Kirchhoff)");
}

static void leckner_lies_near_the_chart_of_hottel(sw_test *t)
{
    double bar = 2 * 1.01325;
    sw_gas_path path = {0.08 * bar, 0.05 * bar, bar, 3.0};
    const char *chart =
        "Cengel, effective emissivity of combustion gases, chart answer (from memory); Leckner 6 % lower";
    sw_near(t, sw_leckner(path, 1200), 0.45, 0.07 * 0.45, chart);
    sw_near(t, sw_leckner_overlap(path), 0.048, 0.002, chart);
    sw_near(t, sw_leckner(path, 1200), 0.421, 5e-4, leckner);
    sw_near(t, sw_leckner_overlap(path), 0.0492, 6e-5, leckner);
}

static void emissivity_grows_with_the_path_and_stays_below_one(sw_test *t)
{
    for (uint64_t seed = 1; seed <= 200; seed++) {
        t->seed = seed;
        sw_random r = sw_random_seeded(seed);
        double t_k = sw_random_between(&r, 600, 2000), before = 0;
        sw_gas_path path = {sw_random_between(&r, 0.02, 0.3), sw_random_between(&r, 0.02, 0.3), 1, 0};
        for (path.length_m = 0.05; path.length_m < 3; path.length_m *= 1.1) {
            double e = sw_leckner(path, t_k);
            if (!sw_true(t, e > before && e < 1)) return;
            before = e;
        }
    }
}

static void leckner_out_of_range_gives_nothing_or_no_number(sw_test *t)
{
    sw_gas_path path = {0.1, 0.1, 0, 0.3};
    sw_true(t, isnan(sw_leckner(path, 399)) && isnan(sw_leckner(path, 3001)) && isnan(sw_leckner(path, NAN)));
    sw_gas_path same = path;
    same.p_bar = 1.01325;
    sw_near(t, sw_leckner(path, 1000), sw_leckner(same, 1000), 0, "law: no total pressure means one atmosphere");
    path.length_m = 0;
    sw_near(t, sw_leckner(path, 1000), 0, 0, "law: no path, no emissivity");
    path.length_m = 101;
    sw_true(t, isnan(sw_leckner(path, 1000)));
    path = (sw_gas_path){0.6, 0.6, 0, 0.3};
    sw_true(t, isnan(sw_leckner(path, 1000)));
    path = (sw_gas_path){-0.1, 0.1, 0, 0.3};
    sw_true(t, isnan(sw_leckner(path, 1000)) && isnan(sw_leckner_overlap(path)));
}

static void grey_gases_give_the_handbook_table(sw_test *t)
{
    static const double rows[SW_WSGG_SETS][3] = {{0.08831, 0.13171, 0.16156},
                                                 {0.12523, 0.23904, 0.34217},
                                                 {0.13553, 0.26304, 0.37212},
                                                 {0.09255, 0.20378, 0.32292},
                                                 {0.12320, 0.24717, 0.33580}};
    const char *smith = "handbook F4.2: Smith, Shen & Friedman 1982, computed";
    for (size_t i = 0; i < SW_WSGG_SETS; i++) {
        sw_near(t, sw_wsgg((sw_wsgg_set)i, 0.05, 1100), rows[i][0], 6e-6, smith);
        sw_near(t, sw_wsgg((sw_wsgg_set)i, 0.2, 1200), rows[i][1], 6e-6, smith);
        sw_near(t, sw_wsgg((sw_wsgg_set)i, 1.0, 1500), rows[i][2], 6e-6, smith);
    }
    double weights = 0.36011 * (1 - exp(-0.4303 * 3)) + 0.22362 + 0.05110; /* the two strong gases are opaque there */
    sw_near(t, sw_wsgg(SW_WSGG_EQUAL, 3, 1100), weights, 2e-5, smith);
}

static void grey_gases_agree_with_leckner_and_know_their_range(sw_test *t)
{
    double exact = sw_leckner((sw_gas_path){0.085, 0.084, 1, 0.30}, 1100);
    sw_near(t, sw_wsgg(SW_WSGG_EQUAL, 0.05, 1100), exact, 0.055 * exact, "handbook F4.2: within 5 % of Leckner");
    sw_near(t, sw_wsgg(SW_WSGG_EQUAL, 0, 1100), 0, 0, "law: no path, no emissivity");
    sw_true(t, isnan(sw_wsgg(SW_WSGG_EQUAL, 0.1, 599)) && isnan(sw_wsgg(SW_WSGG_EQUAL, 0.1, 2401)));
    sw_true(t, isnan(sw_wsgg(SW_WSGG_EQUAL, 11, 1100)) && isnan(sw_wsgg(SW_WSGG_SETS, 0.1, 1100)));
}

static void soot_beam_and_mixture_give_the_handbook(sw_test *t)
{
    const char *book = "handbook F4.3, computed";
    sw_near(t, sw_mean_beam_m(0.40 * 0.30 * 0.40, 2 * (0.12 + 0.16 + 0.12)), 0.216, 5e-4, book);
    sw_near(t, sw_mean_beam_m(0.45 * 0.35 * 0.50, 2 * (0.45 * 0.35 + 0.35 * 0.5 + 0.45 * 0.5)), 0.25426, 6e-6,
            "handbook E25, computed");
    sw_near(t, sw_soot_emissivity(0.8, 0.216), 0.1587, 6e-5, book);
    sw_near(t, sw_emissivity_both(0.126, 0.159), 0.265, 5e-4, book);
    sw_true(t, sw_soot_k_1_m(1e-7, 1200) > 0.147 && sw_soot_k_1_m(1e-7, 1200) < 0.224);
    sw_near(t, sw_soot_k_1_m(1e-7, 1200), 0.1562, 1e-3, "derived: C0 4.89 of the index 1.57 - 0.56 i");
    sw_near(t, sw_emissivity_both(0.3, 1), 1, 1e-15, "law: black with anything is black");
}

static void a_firebox_of_cold_walls_is_the_closed_form(sw_test *t)
{
    sw_near(t, sw_furnace_exchange_m2(1, 0.8, 1, 0.2), 0.19048, 6e-6, "handbook F4.4, computed");
    sw_near(t, sw_furnace_exchange_m2(0.16, 0.85, 0.80, 0.2), 0.080952, 6e-7, "handbook F4.4, computed");
    for (double e = 0.05; e < 1; e += 0.05)
        sw_near(t, sw_furnace_exchange_m2(2, 0.7, 2, e), 2 / (1 / 0.7 + 1 / e - 1), 1e-12, "law: all walls cold");
    sw_near(t, sw_furnace_exchange_m2(0.2, 0.7, 1, 1), 0.14, 1e-15, "law: a black gas gives all the sink takes");
    sw_near(t, sw_furnace_exchange_m2(0.2, 0.7, 1, 0), 0, 0, "law: a clear gas gives nothing");
    sw_true(t, isnan(sw_furnace_exchange_m2(2, 0.7, 1, 0.5)));
}

/* E4 without the enthalpy of the gas: its temperature and composition given, the exchange checked. */
static void the_worked_firebox_radiates_as_published(sw_test *t)
{
    double length_m = sw_mean_beam_m(0.048, 0.80), gas_k = sw_k_from_c(801.6);
    sw_gas_path path = {0.1015 * 1.01325, 0.1011 * 1.01325, 1.01325, length_m};
    double e = sw_leckner(path, gas_k), GS = sw_furnace_exchange_m2(0.16, 0.85, 0.80, e);
    sw_near(t, e, 0.1261, 6e-5, "handbook E4, computed");
    sw_near(t, GS, 0.06243, 2e-5, "handbook E4, computed");
    double w = GS * SW_STEFAN_BOLTZMANN * (pow(gas_k, 4) - pow(sw_k_from_c(450), 4));
    sw_near(t, w, 3756, 3, "handbook E4, computed");
    gas_k = sw_k_from_c(743.2);
    e = sw_emissivity_both(sw_leckner(path, gas_k), sw_soot_emissivity(0.8, length_m));
    sw_near(t, e, 0.2686, 1e-4, "handbook E4, computed");
    GS = sw_furnace_exchange_m2(0.16, 0.85, 0.80, e);
    w = GS * SW_STEFAN_BOLTZMANN * (pow(gas_k, 4) - pow(sw_k_from_c(450), 4));
    sw_near(t, w, 4183, 4, "handbook E4, computed");
}

SW_TESTS(SW_CASE(leckner_gives_the_table_of_mixtures),
         SW_CASE(single_gases_and_their_pressure_correction_give_the_handbook),
         SW_CASE(wall_absorptivity_gives_the_handbook), SW_CASE(leckner_lies_near_the_chart_of_hottel),
         SW_CASE(emissivity_grows_with_the_path_and_stays_below_one),
         SW_CASE(leckner_out_of_range_gives_nothing_or_no_number), SW_CASE(grey_gases_give_the_handbook_table),
         SW_CASE(grey_gases_agree_with_leckner_and_know_their_range), SW_CASE(soot_beam_and_mixture_give_the_handbook),
         SW_CASE(a_firebox_of_cold_walls_is_the_closed_form), SW_CASE(the_worked_firebox_radiates_as_published))
