/* The type test by name. */
#include "reckon_solved.h"

static void losses_give_the_handbook_figures(sw_test *t)
{
    const char *book = "handbook TT-2, computed";
    sw_near(t, SOLVED(t, "test_heat_capacity", "ta=200", "CO2=8")[0], 1.34402, 6e-6, "handbook TT-1, computed");
    sw_near(t, SOLVED(t, "test_heat_capacity", "ta=250", "CO2=8")[1], 1.53225, 6e-6, "handbook TT-1, computed");
    const double *e = SOLVED(t, "test_efficiency", "ta=280", "CO2=11", "CO=0.08");
    sw_near(t, e[0], 80.3100, 1e-4, book);
    sw_near(t, e[1], 18.7151, 1e-4, book);
    sw_near(t, e[2], 0.47484, 1e-5, book);
    sw_near(t, e[3], 2819.435, 2e-3, book);
    sw_near(t, e[4], 71.535, 1e-3, book);
    sw_near(t, e[5], 7.07204, 6e-6, book);
    sw_near(t, SOLVED(t, "test_output", "eta=80.31", "B=2.12")[0], 7.12479, 1e-4, book);
    sw_near(t, SOLVED(t, "test_gas_flow", "B=2.12", "CO2=11", "CO=0.08")[0], 5.77538, 1e-5, book);
    sw_near(t, SOLVED(t, "siegert_loss", "ta=280", "CO2=11")[0], 15.36, 6e-3, book);
    sw_near(t, SOLVED(t, "test_efficiency", "ta=200", "CO2=12", "CO=0.05")[0], 87.2649, 1e-4,
            "handbook TT-3, computed");
    sw_near(t, SOLVED(t, "test_lhv", "W=20")[0], 14231.4, 0.06, "handbook T1.2, computed");
    sw_near(t, SOLVED(t, "co2_from_o2", "O2=13")[0], 20.4 * (1 - 13 / 20.95), 1e-9, "derived");
}

static void emissions_give_the_handbook_figures(sw_test *t)
{
    const char *book = "handbook TT-4, computed";
    sw_near(t, SOLVED(t, "co_13", "ppm=800", "O2=9.7")[1], 707.78, 6e-3, book);
    sw_near(t, SOLVED(t, "ogc_13", "ppm=45", "O2=9.7")[1], 51.216, 6e-4, book);
    sw_near(t, SOLVED(t, "nox_13", "ppm=62", "O2=9.7")[1], 90.094, 1e-3, book);
    sw_near(t, SOLVED(t, "dust_13", "m=24.6", "V=0.75", "O2=9.7")[1], 23.221, 6e-4, book);
    const double *f = SOLVED(t, "emission_per_fuel", "c=40", "B=2.12");
    sw_near(t, f[0], 10.0996, 2e-3, "handbook T2.1, computed");
    sw_near(t, f[2], 0.4809, 1e-4, book);
    sw_near(t, f[4], 0.8564, 2e-4, book);
    sw_near(t, SOLVED(t, "emission_per_fuel", "c=1500", "B=1")[3], 1005.6, 0.2, book);
}

static void season_smoke_and_repeats_give_the_handbook_figures(sw_test *t)
{
    const double *s = SOLVED(t, "seasonal_efficiency", "eta=80", "control=1");
    sw_near(t, s[0], 71, 1e-9, "handbook TT-6, computed");
    sw_near(t, s[1], 107, 1e-9, "handbook TT-6, computed");
    sw_near(t, s[2], 2, 0, "handbook TT-6: A+");
    s = SOLVED(t, "seasonal_efficiency", "eta=90", "P=8", "control=5", "extras=1", "el_max=100", "el_min=50",
               "el_sb=3");
    sw_near(t, s[1], 126.503, 6e-4, "handbook TT-6, computed");
    sw_near(t, s[4], 1.996875, 1e-9, "handbook TT-6, computed");
    sw_near(t, SOLVED(t, "smoke_limit", "P=7")[0], 7.3333, 6e-5, "handbook TT-7, computed");
    sw_near(t, SOLVED(t, "smoke_limit", "P=7", "base=3")[0], 5.3333, 6e-5, "handbook TT-7, computed");
    const double *r = SOLVED(t, "repeat_spread", "s=0.65574", "n=3");
    sw_near(t, r[0], 0.37859, 1e-5, "handbook TT-10, computed");
    sw_near(t, r[2], 1.62896, 2e-5, "handbook TT-10, computed");
    sw_near(t, SOLVED(t, "co_13_uncertainty", "ppm=800", "O2=9.7")[1], 21.68, 6e-3, "handbook TT-11, computed");
}

SW_TESTS(SW_CASE(losses_give_the_handbook_figures), SW_CASE(emissions_give_the_handbook_figures),
         SW_CASE(season_smoke_and_repeats_give_the_handbook_figures))
