/* Handbook formulas of wood, its gas, losses and fires, by name. */
#include "reckon_solved.h"

#include <math.h>

static void fuel_gives_the_handbook_figures(sw_test *t)
{
    sw_near(t, SOLVED(t, "wood_moisture", "w=0.16")[0], 19.05, 5e-3, "handbook F1.1, computed");
    const double *e = SOLVED(t, "wood_as_fired", "w=0.16");
    const char *shares = "handbook F1.1: default beech as fired, computed";
    sw_near(t, e[0], 0.41372, 6e-6, shares);
    sw_near(t, e[1], 0.05182, 6e-6, shares);
    sw_near(t, e[2], 0.36859, 6e-6, shares);
    sw_near(t, e[3], 0.00167, 6e-6, shares);
    sw_near(t, e[4], 0.00420, 6e-6, shares);
    const double *h = SOLVED(t, "wood_heating_value", "w=0.16");
    sw_near(t, h[0], 19.912, 6e-4, "handbook F1.2: Channiwala & Parikh 2002, computed");
    sw_near(t, h[1], 18.566, 6e-4, "handbook F1.2, computed");
    sw_near(t, h[2], 15.204, 6e-4, "handbook F1.2, computed");
    sw_near(t, SOLVED(t, "wood_heating_value", "w=0.10")[3], 4.574, 6e-4, "handbook F1.2, computed");
    sw_near(t, SOLVED(t, "wood_lhv", "w=0.25")[0], 13.313, 1e-3, "handbook F1.2, computed");
    sw_near(t, SOLVED(t, "wood_lhv", "w=0.50")[1], 2.239, 6e-4, "handbook F1.2, computed");
    sw_near(t, SOLVED(t, "batch_mass", "P=7", "t=45")[0], 1.594, 6e-4, "handbook F1.3, computed");
    sw_near(t, SOLVED(t, "batch_mass", "P=7", "t=45")[1], 2.125, 6e-4, "handbook E1, computed");
}

static void air_and_gas_give_the_handbook_figures(sw_test *t)
{
    const double *a = SOLVED(t, "wood_air", "w=0.16");
    const char *book = "handbook F2.1, balance of moles, computed";
    sw_near(t, a[0], 4.946, 6e-4, book);
    sw_near(t, a[1], 3.828, 6e-4, book);
    sw_near(t, a[2], 3.799, 6e-4, book);
    sw_near(t, a[3], 4.574, 6e-4, book);
    sw_near(t, a[4], 20.32, 6e-3, book);
    sw_near(t, a[5], 16.95, 6e-3, book);
    const double *g = SOLVED(t, "wood_gas", "lambda=2.2");
    sw_near(t, g[0], 10.882, 6e-4, "handbook E1, computed");
    sw_near(t, g[1], 11.878, 6e-4, "handbook E1, computed");
    sw_near(t, g[2], 8.393, 6e-4, "handbook E1, computed");
    sw_near(t, g[3], 9.168, 6e-4, "handbook E1, computed");
    sw_near(t, g[4], 1.2956, 6e-5, "handbook E1, computed");
    sw_near(t, g[5], 29.04, 6e-3, "handbook E1, computed");
    const double *s = SOLVED(t, "wood_gas_shares", "lambda=2.2", "xw=0.01164");
    sw_near(t, s[4], 9.42, 6e-3, "handbook E1, computed");
    sw_near(t, s[5], 44.9, 0.06, "handbook E1, computed");
    s = SOLVED(t, "wood_gas_shares", "lambda=2.6");
    sw_near(t, s[0], 7.78, 6e-3, "handbook E24, computed");
    sw_near(t, s[1], 12.93, 6e-3, "handbook E24, computed");
    sw_near(t, s[5], 39.9, 0.06, "handbook E24, computed");
    s = SOLVED(t, "wood_gas_shares", "lambda=2.2");
    sw_near(t, s[2], 8.42, 6e-3, "handbook E1, computed");
    sw_near(t, s[3], 10.50, 6e-3, "handbook E1, computed");
    sw_near(t, SOLVED(t, "air_humidity", "t=20", "phi=50")[0], 0.01164, 6e-6, "handbook E1, computed");
}

static void samples_of_gas_give_the_excess_air(sw_test *t)
{
    const double *e = SOLVED(t, "excess_air_o2", "O2=11.47");
    sw_near(t, e[0], 2.2, 2e-3, "handbook E1 and F2.2, computed");
    sw_near(t, e[1], 2.209, 2e-3, "handbook F2.2: short form 0.4 % high");
    sw_near(t, e[2], 9.20, 6e-3, "handbook F2.2: O2 = 0.2095 (1 - CO2/CO2max)");
    e = SOLVED(t, "excess_air_co2", "CO2=9.20");
    sw_near(t, e[0], 2.2, 2e-3, "handbook E1 and F2.2, computed");
    sw_near(t, e[2], 11.47, 1e-2, "handbook F2.2: O2 = 0.2095 (1 - CO2/CO2max)");
    sw_near(t, SOLVED(t, "excess_air_co2", "CO2=9.10", "CO=0.10")[0], e[0], 1e-9, "handbook F2.2: CO2 + CO counts");
    sw_near(t, SOLVED(t, "excess_air_o2", "O2=11.52", "CO=0.10")[0], SOLVED(t, "excess_air_o2", "O2=11.47")[0], 1e-9,
            "handbook F2.2: O2 - CO/2 counts");
    sw_near(t, SOLVED(t, "reference_o2", "c=1000", "O2=11.47")[0], 1000 * 7.95 / 9.48, 1e-9, "handbook F2.2");
    sw_near(t, SOLVED(t, "co_concentration", "ppm=1000")[0], 1250, 0.5, "handbook F2.2, computed");
    const double *m = SOLVED(t, "per_megajoule", "mg=1500");
    sw_near(t, m[0], 988, 0.6, "handbook F2.2, computed; 1000 as paired by CEN/TC 295 (found)");
    sw_near(t, m[1], 10.012, 6e-4, "handbook F2.2, computed");
    sw_near(t, m[2], 0.6585, 6e-5, "handbook F2.2, computed");
    sw_true(t, isnan(SOLVED(t, "excess_air_co2", "CO2=21")[0]));
}

static void losses_give_the_handbook_figures(sw_test *t)
{
    const double *l = SOLVED(t, "flue_loss", "ta=250");
    sw_near(t, l[0], 19.12, 6e-3, "handbook F2.5, computed");
    sw_near(t, l[2], 19.01, 6e-3, "handbook F2.5, computed by the short formula");
    sw_near(t, l[3], 1.091, 6e-4, "handbook F2.5, computed");
    l = SOLVED(t, "flue_loss", "ta=280", "lambda=2.6");
    sw_near(t, l[0], 25.14, 6e-3, "handbook E24, computed");
    sw_near(t, l[1], 3.8225, 4e-4, "handbook E24, computed");
    const double *s = SOLVED(t, "flue_loss_short", "CO2=9.20", "ta=250");
    sw_near(t, s[0], 1.3554, 6e-5, "handbook F2.5, computed");
    sw_near(t, s[1], 1.532, 6e-4, "handbook F2.5, computed");
    sw_near(t, s[2], 2890, 2, "handbook F2.5, computed; CO2 rounded to 9.20 %");
    sw_near(t, SOLVED(t, "flue_loss_short", "CO2=7.71", "CO=0.1", "ta=250")[5], 0.82, 6e-3, "handbook F2.5, computed");
    sw_near(t, SOLVED(t, "residue_loss", "b=30", "R=1")[0], 100.5, 1e-9, "EN 13240 annex A (from memory)");
    const double *e = SOLVED(t, "stove_efficiency", "ta=250");
    sw_near(t, e[0], 79.6, 0.06, "handbook E1, computed");
    sw_near(t, e[1], 19.1, 0.06, "handbook E1, computed");
    sw_near(t, e[3], 0.5, 1e-12, "handbook E1");
    sw_near(t, SOLVED(t, "stove_efficiency", "ta=268")[0], 78, 0.1, "handbook F10, computed");
    sw_near(t, SOLVED(t, "flame_temperature", "lambda=2.2")[0], 1114, 0.6, "handbook F2.6, computed");
    sw_near(t, SOLVED(t, "flame_temperature", "lambda=1.8", "tair=200")[0], 1415, 0.6, "handbook F2.6, computed");
}

static void batches_and_fireboxes_give_the_handbook_figures(sw_test *t)
{
    const double *b = SOLVED(t, "batch_release", "t=45");
    sw_near(t, b[0], 97.61, 6e-3, "handbook F3.1, computed");
    sw_near(t, b[2], 10.5, 0.06, "handbook F3.1, computed");
    sw_near(t, SOLVED(t, "batch_release", "t=8")[1], 4.60, 6e-3, "handbook F3.1, computed: peak at tau");
    const double *c = SOLVED(t, "char_heat", "yc=0.18");
    sw_near(t, c[0], 31.6, 0.06, "handbook F3.1, computed");
    sw_near(t, c[1], 15.56, 6e-3, "handbook F3.1, computed");
    sw_near(t, SOLVED(t, "char_burning", "air=1", "lambda_c=1", "M=1")[0], 1 / 11.5, 2e-4,
            "handbook F3.1: 11.5 kg air per kg carbon");
    sw_near(t, SOLVED(t, "log_time", "d=70")[0], 54, 0.5, "handbook F3.1, computed from EN 1995-1-2");
    sw_near(t, SOLVED(t, "log_time", "d=90")[0], 69, 0.5, "handbook F3.1, computed from EN 1995-1-2");
    const double *l = SOLVED(t, "firebox_loading", "P=8.974", "B=1.594", "V=0.048", "A=0.12");
    sw_near(t, l[0], 187, 0.5, "handbook F3.2, computed");
    sw_near(t, l[1], 74.8, 0.05, "handbook F3.2, computed");
    sw_near(t, l[2], 33, 0.5, "handbook F3.2, computed");
    const double *m = SOLVED(t, "masonry_firebox", "mB=15");
    sw_near(t, m[0], 13500, 0, "EN 15544 (from memory)");
    sw_near(t, m[1], 1500, 0, "EN 15544 (from memory)");
    sw_near(t, m[2], 40, 0, "EN 15544 (from memory)");
    const double *f = SOLVED(t, "firebox_gas", "P=8.974", "V=0.048", "AT=0.8", "A1=0.16");
    sw_near(t, f[0], 801.6, 0.2, "handbook E4, computed");
    sw_near(t, f[3], 3756, 2, "handbook E4, computed");
    sw_near(t, f[4], 5218, 2, "handbook E4, computed");
    sw_near(t, SOLVED(t, "firebox_gas", "P=8.974", "V=0.048", "AT=0.8", "A1=0.16", "K=0.8")[0], 743.2, 0.2,
            "handbook E4, computed, soot 0.8 1/m");
    sw_true(t, isnan(SOLVED(t, "firebox_gas", "P=8.974", "V=0.048", "AT=0.8", "A1=0.9")[0]));
}

static void wet_wood_and_thin_air_are_refused(sw_test *t)
{
    double in[SW_RECKON_INPUTS], out[SW_RECKON_OUTPUTS];
    const char *wrong[] = {"w=0.65", "lambda=0.9"};
    sw_true(t, sw_reckon_solve(&t->run, sw_reckon_find("wood_gas"), wrong, 2, in, out) == SW_OUT_OF_RANGE);
    if (!sw_true(t, t->run.error_count == 2)) return;
    sw_same_text(t, t->run.errors[0].field, "w");
    sw_same_text(t, t->run.errors[1].field, "lambda");
}

SW_TESTS(SW_CASE(fuel_gives_the_handbook_figures), SW_CASE(air_and_gas_give_the_handbook_figures),
         SW_CASE(samples_of_gas_give_the_excess_air), SW_CASE(losses_give_the_handbook_figures),
         SW_CASE(batches_and_fireboxes_give_the_handbook_figures), SW_CASE(wet_wood_and_thin_air_are_refused))
