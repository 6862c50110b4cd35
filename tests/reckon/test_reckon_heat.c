#include "reckon_solved.h"

#include <math.h>
#include <stdio.h>

static void gases_give_the_handbook_table(sw_test *t)
{
    const char *book = "handbook F2.4: GRI-Mech 3.0 coefficients, computed";
    const double *g = SOLVED(t, "gas_heat", "gas=3", "T=226.85");
    sw_near(t, g[0], 44.620, 6e-4, book);
    sw_near(t, g[2], 8300, 0.6, book);
    sw_near(t, g[3], -393510, 12, "heat of formation of CO2, CODATA, from memory");
    sw_near(t, g[4], 44.620, 4e-3 * 44.62, "handbook F2.4: both sets within 0.4 %");
    sw_near(t, SOLVED(t, "gas_heat", "gas=1", "T=926.85")[0], 33.707, 6e-4, book);
}

static void flue_gas_gives_the_handbook_table(sw_test *t)
{
    /* default beech, w 0.16, lambda 2.2: CO2 9.20 and O2 11.47 % dry */
    const double *f = SOLVED(t, "flue_gas", "CO2=0.0841", "H2O=0.0856", "O2=0.1049", "T=250");
    sw_near(t, f[2], 1091, 6, "handbook F2.5: heat capacity at 250 degC, computed; argon counts as nitrogen here");
    double q[2] = {f[3], 0};
    char heat[64] = "q=";
    sw_near(t, q[0], 244.75e3, 1.5e3, "handbook F2.5: 19.12 % of 15.204 MJ by 11.877 kg, computed");
    (void)snprintf(heat + 2, sizeof heat - 2, "%.12g", q[0]);
    sw_near(t, SOLVED(t, "flue_temperature", "CO2=0.0841", "H2O=0.0856", "O2=0.1049", heat)[0], 250, 1e-6,
            "invariance: there and back");
    sw_true(t, isnan(SOLVED(t, "flue_gas", "CO2=0.5", "H2O=0.4", "O2=0.2", "T=250")[2]));
    sw_true(t, isnan(SOLVED(t, "flue_temperature", "CO2=0.5", "H2O=0.4", "O2=0.2", "q=1e5")[0]));
}

static void air_and_water_give_the_handbook_table(sw_test *t)
{
    const double *a = SOLVED(t, "air", "T=200");
    sw_near(t, a[0], 0.7460, 6e-5, "handbook F6.1, computed");
    sw_near(t, a[1], 1024.1, 0.06, "handbook F6.1, computed");
    sw_near(t, a[3] * 1e6, 34.47, 6e-3, "handbook F6.1, computed");
    sw_near(t, a[5], 0.681, 6e-4, "handbook F6.1, computed");
    sw_near(t, SOLVED(t, "water_pressure", "T=20")[0], 2332.6, 0.06, "handbook F2.3, computed");
    sw_near(t, SOLVED(t, "water_pressure", "T=50")[1], 12306, 0.6, "handbook F2.3, computed");
    sw_near(t, SOLVED(t, "dew_point", "y=0.12183545")[1], 50, 1e-3, "handbook F2.3: 12 345 Pa at 50 degC, computed");
}

static void materials_give_the_handbook_tables(sw_test *t)
{
    const char *steel = "EN 1993-1-2:2005, 3.4.1 and table 3.1 (found)";
    const double *s = SOLVED(t, "hot_steel", "T=500");
    sw_near(t, s[0], 666.5, 0.06, steel);
    sw_near(t, s[1], 37.35, 6e-3, steel);
    sw_near(t, s[2], 6.758e-3, 6e-7, steel);
    sw_near(t, s[3], 0.78, 1e-12, steel);
    sw_near(t, s[5], 0.60, 1e-12, steel);
    sw_near(t, SOLVED(t, "hot_stainless", "T=400")[0], 524.0, 0.06, "handbook F8.2: EN 1993-1-2 annex C, computed");
    sw_near(t, SOLVED(t, "growth", "L=1000", "T=600")[0], 8.398, 6e-4, steel);
    sw_near(t, SOLVED(t, "growth", "L=1000", "T=600")[1], 10.69, 6e-3, "handbook F8.2, computed");
    sw_near(t, SOLVED(t, "linings", "T=500")[1], 0.175, 1e-9, "handbook F8.3: k = 0.12 + 1.1e-4 t");
    sw_near(t, SOLVED(t, "linings", "T=800")[4], 1.15, 1e-9, "VDI Heat Atlas, D6 (found)");
    const double *b = SOLVED(t, "burn_threshold", "time=60");
    sw_near(t, b[0], 51, 0, "ISO 13732-1:2006 as reproduced (found twice)");
    sw_near(t, b[1], 56, 0, "ISO 13732-1:2006 (from memory)");
    sw_near(t, b[3], 60, 0, "ISO 13732-1:2006 as reproduced (found twice)");
}

static void surfaces_give_the_handbook_examples(sw_test *t)
{
    sw_near(t, SOLVED(t, "nu_upright", "Ra=1e9")[0], 122.615, 6e-4, "handbook F6.2, computed");
    sw_near(t, SOLVED(t, "nu_upright", "Ra=1e6")[2], 14.510, 6e-4, "handbook F6.2, computed");
    const double *l = SOLVED(t, "nu_level", "Ra=1e6");
    sw_near(t, l[0], 17.08, 6e-3, "handbook F6.2, computed");
    sw_near(t, l[3], 7.69, 6e-3, "handbook F6.2, computed");
    const double *w = SOLVED(t, "hot_wall", "T=300", "H=600");
    sw_near(t, w[1], 7.47, 6e-3, "handbook F6.2, computed");
    sw_near(t, w[2], 18.32, 6e-3, "handbook F6.2, computed");
    sw_near(t, w[3], 7221, 2, "handbook F6.2, computed");
    sw_near(t, w[4], 0.29, 6e-3, "handbook F6.2, computed");
    const double *p = SOLVED(t, "hot_top", "T=90", "T0=30", "a=600", "b=600");
    sw_near(t, p[0], 150, 1e-9, "handbook E11: Cengel ch. 9");
    sw_near(t, p[3], 2.97, 0.07, "handbook E11: Cengel ch. 9, from memory");
    const double *o = SOLVED(t, "level_pipe", "T=165", "T0=23", "D=100");
    sw_near(t, o[0], 5.073e6, 0.04 * 5.073e6, "Incropera, Example 9.4, from memory");
    sw_near(t, o[1], 7.29, 0.1, "Incropera, Example 9.4, from memory (Nu 23.3)");
}

static void gaps_and_channels_give_the_handbook_examples(sw_test *t)
{
    const double *g = SOLVED(t, "closed_gap", "T1=400", "T2=250", "s=10", "H=400");
    sw_near(t, g[0], 643, 1, "handbook E15, computed");
    sw_near(t, g[4], 698, 1, "handbook E15, computed");
    sw_near(t, g[5], 5466, 2, "handbook E15, computed");
    sw_near(t, SOLVED(t, "nu_gap", "Ra=1e5", "HS=20")[0], 3.0024, 6e-5, "handbook F6.3, computed");
    sw_near(t, SOLVED(t, "nu_gap", "Ra=1e5")[2], 3.9944, 6e-5, "handbook F6.3, computed");
    const double *n = SOLVED(t, "nu_channel", "X=100");
    sw_near(t, n[0], 1.6692, 6e-5, "handbook F6.4, computed");
    sw_near(t, n[3], 1.0673, 6e-5, "handbook F6.4, computed");
    const double *c = SOLVED(t, "open_channel", "T=80", "T0=30", "S=7.45", "L=180");
    sw_near(t, c[3], 7.45, 0.08, "handbook E16: Cengel, finned sink, from memory");
    sw_near(t, c[1], 4.86, 0.08, "handbook E16: Cengel, finned sink, computed");
}

static void the_gap_behind_the_shell_gives_the_handbook_example(sw_test *t)
{
    const char *book = "handbook E17, computed";
    const double *g = SOLVED(t, "shell_gap", "T=250");
    sw_near(t, g[0], 138.8, 0.06, book);
    sw_near(t, g[1] * 1e3, 11.16, 6e-3, book);
    sw_near(t, g[2], 72.6, 0.06, book);
    sw_near(t, g[3], 591, 0.6, book);
    sw_near(t, g[4], 866, 0.6, book);
    sw_near(t, g[5], 1273.6, 0.6, book);
    g = SOLVED(t, "shell_gap", "T=200");
    sw_near(t, g[0], 104.6, 0.06, book);
    sw_near(t, g[1] * 1e3, 10.16, 6e-3, book);
    static const char *const gaps[4] = {"s=15", "s=20", "s=40", "s=60"};
    static const double m[4] = {6.80, 8.59, 13.21, 16.56}, out[4] = {132.8, 101.4, 60.3, 46.0},
                        shell[4] = {138.5, 137.6, 139.7, 141.7};
    for (int i = 0; i < 4; i++) {
        g = SOLVED(t, "shell_gap", "T=250", gaps[i]);
        sw_near(t, g[0], shell[i], 0.06, book);
        sw_near(t, g[1] * 1e3, m[i], 6e-3, book);
        sw_near(t, g[2], out[i], 0.06, book);
    }
}

static void ducts_and_holes_give_the_handbook_examples(sw_test *t)
{
    const double *f = SOLVED(t, "friction", "Re=1e4", "eps=0.1");
    sw_near(t, f[0], 0.03269, 6e-6, "handbook F6.6, computed");
    sw_near(t, f[1], 0.03238, 6e-6, "handbook F6.6, computed");
    const double *d = SOLVED(t, "duct_heat", "Re=1e4");
    sw_near(t, d[1], 29.82, 6e-3, "handbook F6.6, computed");
    sw_near(t, d[2], 31.61, 6e-3, "handbook F6.6, computed");
    sw_near(t, SOLVED(t, "duct_heat", "Re=1000", "Pr=0.7", "DL=0.0714285714")[3], 8.7724, 6e-5,
            "handbook F6.5: Gz 50, computed");
    const double *h = SOLVED(t, "orifice_flow", "Cd=0.8", "A=706.858", "dp=6");
    sw_near(t, h[0] * 1e3, 2.150, 6e-4, "handbook E30, computed");
}

static void walls_fins_and_slabs_give_the_handbook_examples(sw_test *t)
{
    const double *w = SOLVED(t, "wall", "T1=800");
    static const double t_c[4] = {718.6, 266.3, 201.2, 200.9};
    sw_near(t, w[0], 3256, 0.6, "handbook E18, computed");
    sw_near(t, w[5], 0.239533, 6e-7, "handbook E18, computed");
    for (int i = 0; i < 4; i++) sw_near(t, w[i + 1], t_c[i], 0.06, "handbook E18, computed");
    w = SOLVED(t, "wall", "T1=850", "h1=55", "d=30", "k=0.16", "R=0.015", "s=5.357142857", "h2=16", "T2=22");
    static const double u_c[4] = {796.9, 248.9, 205.0, 204.7};
    sw_near(t, w[0], 2922.7, 0.06, "handbook E29, computed");
    for (int i = 0; i < 4; i++) sw_near(t, w[i + 1], u_c[i], 0.06, "handbook E29, computed");
    sw_near(t, SOLVED(t, "wall_linear_k", "k0=0.14", "k1=1e-4", "T1=700", "T2=200")[1], 3083, 0.6,
            "handbook F7.1, computed");
    const double *f = SOLVED(t, "fin", "t=3", "L=60", "h=15");
    sw_near(t, f[0], 0.894, 6e-4, "handbook E19, computed");
    sw_near(t, f[1], 0.798, 6e-4, "handbook E19, computed");
    sw_near(t, f[2], 0.790, 6e-4, "handbook E19, computed");
    sw_near(t, SOLVED(t, "rod", "D=5", "k=398", "h=100", "dT=75")[0], 8.3, 0.05,
            "handbook E19: Incropera, Example 3.9, from memory");
    sw_near(t, SOLVED(t, "lumped", "d=4", "h=25")[0], 603, 0.6, "handbook F7.3, computed");
    sw_near(t, SOLVED(t, "lumped", "d=4", "rho=2600", "c=830", "k=1.6", "h=40")[0], 216, 0.6,
            "handbook F7.3, computed");
    const double *s = SOLVED(t, "slab", "L=25", "k=0.18", "rho=700", "c=900", "h=30", "time=1800", "T1=700");
    sw_near(t, s[2], 1.27405, 6e-6, "handbook E21, computed");
    sw_near(t, s[3], 479.9, 0.06, "handbook E21, computed");
    sw_near(t, s[4], 635.6, 0.06, "handbook E21, computed");
}

static void the_first_term_of_a_slab_gives_the_handbook_table(sw_test *t)
{
    static const double bi[5] = {0.01, 0.1, 1, 10, 100}, z[5] = {0.0998, 0.3111, 0.8603, 1.4289, 1.5552},
                        a[5] = {1.0017, 1.0161, 1.1191, 1.2620, 1.2731};
    for (int i = 0; i < 5; i++) {
        char h[32];
        (void)snprintf(h, sizeof h, "h=%g", bi[i]); /* L/k is 1 m2 K/W */
        const double *s = SOLVED(t, "slab", "L=1000", "k=1", "rho=1000", "c=1000", h, "time=1e5", "T1=700");
        sw_near(t, s[2], z[i], 6e-5, "handbook F7.4: Incropera table 5.1, from memory");
        sw_near(t, s[5], a[i], 6e-5, "handbook F7.4: Incropera table 5.1, from memory");
    }
}

static void steel_takes_up_the_heat_of_the_handbook(sw_test *t)
{
    sw_near(t, SOLVED(t, "steel_heat", "T2=500")[0], 264.7, 0.06, "handbook F8.1, computed");
    sw_near(t, SOLVED(t, "steel_heat", "T2=700")[0], 419.1, 0.06, "handbook F8.1, computed");
    sw_near(t, SOLVED(t, "steel_heat", "T1=500", "T2=20")[0], -264.7, 0.06, "derived: what went in comes out");
    sw_near(t, SOLVED(t, "steel_heat", "T1=300", "T2=300")[1], 0, 0, "derived: no difference, no heat");
}

static void leaning_walls_and_upright_pipes_end_in_the_upright_wall(sw_test *t)
{
    double h = SOLVED(t, "hot_wall", "T=275", "T0=22", "H=800", "e=0.85")[1];
    sw_near(t, h, 7.204, 6e-4, "handbook E28, computed");
    sw_near(t, SOLVED(t, "tilted_wall", "T=275", "T0=22", "L=800", "tilt=0")[1], h, 1e-12, "derived: no tilt");
    const double *leaning = SOLVED(t, "tilted_wall", "T=275", "T0=22", "L=800", "tilt=60");
    sw_near(t, leaning[0], 0.5 * 2.571e9, 1e6, "handbook F6.2: g cos 60, Ra of E28");
    sw_true(t, leaning[1] < h);
    sw_near(t, SOLVED(t, "upright_pipe", "T=275", "T0=22", "H=800", "D=500")[2], h, 1e-12, "derived: a wide pipe");
    const double *p = SOLVED(t, "upright_pipe", "T=275", "T0=22", "H=800", "D=50");
    sw_near(t, p[1], 800 * 35 / pow(2.571e9 / 0.683, 0.25), 1, "handbook F6.2: D/L at least 35/Gr^(1/4), E28");
    sw_true(t, isnan(p[2]) && isnan(p[3]));
}

static void a_duct_loses_what_its_parts_lose(sw_test *t)
{
    const double *d = SOLVED(t, "duct_loss", "m=0.00701", "T=250", "A=17671.46", "D=150", "zeta=1");
    sw_near(t, d[0], 0.586, 3e-3, "handbook E1: 7.01 g/s of 250 degC in 150 mm; flue gas, here air");
    sw_near(t, d[1], 2160, 30, "handbook E1: Re about 2160");
    sw_near(t, d[3], 0.5 * 0.6747 * d[0] * d[0], 1e-4, "derived: velocity head, density of handbook F6.1");
    double rough[4] = {d[0], d[1], d[2], d[3]};
    d = SOLVED(t, "duct_loss", "m=0.00701", "T=250", "A=17671.46", "D=150", "zeta=1", "L=1500");
    sw_near(t, d[3] / rough[3], 1 + 10 * d[2], 1e-9, "derived: f L/D beside zeta");
}

static void deep_bodies_and_plates_give_the_handbook_examples(sw_test *t)
{
    sw_near(t, SOLVED(t, "deep_step", "x=800", "a=0.15", "Ts=-10", "T0=15", "time=7776000")[0], 0, 0.05,
            "handbook E22: Cengel, 0 degC at 0.80 m, from memory");
    const double *d = SOLVED(t, "deep_flux", "x=20", "q=1e4", "k=1.1", "a=0.535", "time=600");
    sw_near(t, d[0], 183.8, 0.1, "handbook E22, computed");
    sw_near(t, d[1], 56.5, 0.1, "handbook E22, computed");
    const char *touch = "handbook F9.1: contact of skin with a surface of 70 degC, computed";
    sw_near(t, SOLVED(t, "contact", "k=45", "rho=7850", "c=460", "T=70")[1], 66.8, 0.3, touch);
    sw_near(t, SOLVED(t, "contact", "k=1.6", "rho=2600", "c=830", "T=70")[1], 54.6, 0.6, touch);
    sw_near(t, SOLVED(t, "plate_edge", "x=0.5", "y=0.75")[0], 0.540529, 6e-7, "handbook F7.6, computed");
    const double *p = SOLVED(t, "plate_flux", "L=400", "t=3", "q=5000", "h=15");
    sw_near(t, p[0], 436.6, 0.06, "handbook E23, computed");
    sw_near(t, p[1], 17.78, 6e-3, "handbook E23, computed");
    sw_near(t, p[2], 214.6, 0.06, "handbook E23, computed");
    sw_near(t, p[4], 333, 0.5, "handbook E23, computed");
}

static void outside_its_range_a_formula_gives_nan(sw_test *t)
{
    sw_true(t, isnan(SOLVED(t, "air", "T=2000")[0]) && isnan(SOLVED(t, "gas_heat", "gas=4", "T=100")[4]));
    sw_true(t, isnan(SOLVED(t, "dew_point", "y=0.9")[1]) && isnan(SOLVED(t, "burn_threshold", "time=0.1")[0]));
    sw_true(t, isnan(SOLVED(t, "friction", "Re=1000")[1]) && isnan(SOLVED(t, "nu_gap", "Ra=1e5", "HS=2")[0]));
}

static void streams_past_walls_give_the_textbooks_shares(sw_test *t)
{
    sw_near(t, SOLVED(t, "passing_gas", "N=1", "c=1")[0], 0.418023, 1e-6, "(1 - 2/e)/(1 - 1/e), computed");
    sw_near(t, SOLVED(t, "passing_gas", "N=3", "c=0.75")[0], 0.210704, 1e-6, "computed apart");
    sw_near(t, SOLVED(t, "passing_gas", "N=0", "c=1")[0], 0.5, 1e-12, "no walls: the mean of both ends");
    sw_near(t, SOLVED(t, "passing_gas", "N=2", "c=0")[0], 0, 1e-15, "stirred");
    const double *air = SOLVED(t, "stream", "m=1e-3", "Tw=300", "A=0.15", "h=5");
    double log_mean_k = (air[1] - 20) / log((300 - 20) / (300 - air[1]));
    sw_near(t, 300 - air[2], log_mean_k, 1e-6, "logarithmic mean difference, Incropera ch. 11 (from memory)");
    sw_near(t, air[3], 5 * 0.15 * log_mean_k, 1e-6, "Q = h A times it");
}

SW_TESTS(SW_CASE(streams_past_walls_give_the_textbooks_shares), SW_CASE(gases_give_the_handbook_table),
         SW_CASE(flue_gas_gives_the_handbook_table), SW_CASE(air_and_water_give_the_handbook_table),
         SW_CASE(materials_give_the_handbook_tables), SW_CASE(surfaces_give_the_handbook_examples),
         SW_CASE(gaps_and_channels_give_the_handbook_examples),
         SW_CASE(the_gap_behind_the_shell_gives_the_handbook_example),
         SW_CASE(ducts_and_holes_give_the_handbook_examples), SW_CASE(walls_fins_and_slabs_give_the_handbook_examples),
         SW_CASE(the_first_term_of_a_slab_gives_the_handbook_table), SW_CASE(steel_takes_up_the_heat_of_the_handbook),
         SW_CASE(leaning_walls_and_upright_pipes_end_in_the_upright_wall), SW_CASE(a_duct_loses_what_its_parts_lose),
         SW_CASE(deep_bodies_and_plates_give_the_handbook_examples), SW_CASE(outside_its_range_a_formula_gives_nan))
