#include "reckon_solved.h"

#include <math.h>

static void gas_gives_the_handbook_table(sw_test *t)
{
    const char *book = "handbook F4.1: Leckner 1972, computed";
    const double *e = SOLVED(t, "gas_emissivity", "pw=0.085", "pc=0.084", "p=1", "L=300", "T=826.85");
    sw_near(t, e[0], 0.0612, 6e-5, book);
    sw_near(t, e[1], 0.0737, 6e-5, book);
    sw_near(t, e[2], 0.0031, 6e-5, book);
    sw_near(t, e[3], 0.1318, 6e-5, book);
    e = SOLVED(t, "gas_absorptivity", "pw=0.085", "pc=0.084", "p=1", "L=300", "T=826.85", "Ts=450");
    sw_near(t, e[0], 0.1615, 6e-5, book);
    e = SOLVED(t, "grey_gases", "PL=0.05", "T=826.85");
    sw_near(t, e[0], 0.12523, 6e-6, "handbook F4.2: Smith, Shen & Friedman 1982, computed");
    e = SOLVED(t, "grey_gases", "set=5", "PL=1", "T=1226.85");
    sw_near(t, e[0], 0.33580, 6e-6, "handbook F4.2: Smith, Shen & Friedman 1982, computed");
}

static void flames_and_firebox_give_the_handbook(sw_test *t)
{
    const char *book = "handbook F4.3, computed";
    sw_near(t, SOLVED(t, "mean_beam", "V=0.048", "A=0.80")[0], 216, 0.5, book);
    const double *e = SOLVED(t, "flame_emissivity", "L=216", "eg=0.126");
    sw_near(t, e[0], 0.1587, 6e-5, book);
    sw_near(t, e[1], 0.265, 5e-4, book);
    e = SOLVED(t, "soot_emissivity", "fv=1e-7", "T=926.85", "L=216");
    sw_true(t, e[0] > 0.147 && e[0] < 0.224);
    sw_near(t, e[1], 1 - exp(-e[0] * 0.216), 1e-12, "law: 1 - exp(-K L)");
    e = SOLVED(t, "firebox_exchange", "A1=0.16", "e1=0.85", "AT=0.8", "eg=0.1261", "Tg=801.6", "T1=450");
    sw_near(t, e[0], 0.06243, 2e-5, "handbook E4, computed");
    sw_near(t, e[1], 3756, 3, "handbook E4, computed");
}

static void view_factors_give_the_handbook_table(sw_test *t)
{
    const char *book = "handbook F5.1: catalogue of configuration factors";
    sw_near(t, SOLVED(t, "view_parallel", "a=2000", "b=1000", "c=1000")[0], 0.285875, 5e-7, book);
    sw_near(t, SOLVED(t, "view_corner", "x=1000", "y=1000", "z=2000")[0], 0.232853, 5e-7, book);
    sw_near(t, SOLVED(t, "view_corner", "x=1000", "y=1000", "z=2000")[1], 0.116426, 5e-7, book);
    sw_near(t, SOLVED(t, "view_discs", "r1=500", "r2=1000", "L=1000")[0], 0.468871, 5e-7, book);
    sw_near(t, SOLVED(t, "view_strips", "w=30", "h=30")[0], 0.414214, 5e-7, book);
    sw_near(t, SOLVED(t, "view_point_parallel", "a=1000", "b=1000", "c=1000")[0], 0.138532, 5e-7, book);
    sw_near(t, SOLVED(t, "view_point_upright", "a=1000", "b=1000", "c=1000")[0], 0.055734, 5e-7, book);
    const double *f = SOLVED(t, "crossed_strings", "w=30", "c1=42.426406871", "c2=42.426406871", "u1=30", "u2=30");
    sw_near(t, f[0], 0.414214, 5e-7, "law: strips by their strings");
    f = SOLVED(t, "firebox_views", "w=450", "d=350", "h=500");
    sw_near(t, f[0], 0.287455, 5e-7, "handbook E25, computed");
    sw_near(t, f[1], 0.168299, 5e-7, "handbook E25, computed");
    sw_near(t, f[2], 0.187974, 5e-7, "handbook E25, computed");
    sw_near(t, f[3], 1, 1e-12, "law: a closed box");
    sw_near(t, f[4], 254.26, 5e-3, "handbook E25, computed");
    f = SOLVED(t, "flux_ahead", "a=400", "b=400", "c=800", "J=15000");
    sw_near(t, f[0], 0.07348, 6e-6, "handbook E27, computed");
    sw_near(t, f[1], 1102, 0.5, "handbook E27, computed");
    sw_near(t, SOLVED(t, "flux_ahead", "a=400", "b=400", "c=1000", "J=15000")[1], 725, 0.5, "handbook E8, computed");
}

static void plates_and_shields_give_the_textbook_answers(sw_test *t)
{
    const double *q = SOLVED(t, "plates_radiation", "T1=526.85", "e1=0.2", "T2=226.85", "e2=0.7", "n=1", "es=0.1");
    sw_near(t, q[0], 3625, 1, "handbook E5: Cengel, Heat Transfer (from memory)");
    sw_near(t, q[1], 806, 1, "handbook E5: Cengel, Heat Transfer (from memory)");
    q = SOLVED(t, "plates_radiation", "T1=300", "e1=0.9", "T2=60", "e2=0.9", "n=1", "es=0.25");
    sw_near(t, q[0], 4435, 0.5, "handbook E7, computed");
    sw_near(t, q[1], 659, 0.5, "handbook E7, computed");
    q = SOLVED(t, "plates_radiation", "T1=350", "e1=0.85", "T2=40", "e2=0.9", "n=2", "es=0.2");
    sw_near(t, q[1], 415.0, 0.05, "handbook E26, computed");
    q = SOLVED(t, "two_surfaces", "A1=1", "e1=0.2", "T1=526.85", "A2=1", "e2=0.7", "T2=226.85", "F12=1");
    sw_near(t, q[0], 3625.6, 0.05, "handbook E5, computed");
}

static void embers_pane_and_lining_give_the_worked_firebox(sw_test *t)
{
    const double *q =
        SOLVED(t, "with_lining", "A1=0.12", "e1=0.9", "T1=900", "A2=0.16", "e2=0.9", "T2=450", "F12=0.239089");
    const char *book = "handbook E6, computed";
    sw_near(t, q[0], 6691, 0.6, book);
    sw_near(t, q[1], 712.0, 0.06, book);
    sw_near(t, q[2], 101210, 6, book);
    sw_near(t, q[3], 20154, 2, book);
    sw_near(t, q[4], 53400, 3, book);
}

static void panes_give_the_handbook(sw_test *t)
{
    const double *o = SOLVED(t, "glass_slab", "t=0.95");
    const char *book = "handbook F5.3, computed";
    sw_near(t, o[0], 0.045198, 6e-7, book);
    sw_near(t, o[1], 0.86766, 6e-6, book);
    sw_near(t, o[2], 0.08245, 6e-6, book);
    sw_near(t, o[3], 0.04988, 6e-6, book);
    sw_near(t, SOLVED(t, "black_fraction", "lambda=4", "T=726.85")[0], 0.480865, 6e-7, book);
    o = SOLVED(t, "pane_bands", "T=800");
    sw_near(t, o[0], 0.250, 6e-4, book);
    sw_near(t, o[1], 0.142, 6e-4, book);
    sw_near(t, o[2], 0.174, 6e-4, book);
    sw_near(t, o[3], 0.435, 6e-4, book);
    sw_near(t, o[4], 0.277, 6e-4, book);
    o = SOLVED(t, "pane_temperature", "Tf=700", "Tgas=500");
    sw_near(t, o[0], 430.5, 0.05, "handbook E9, computed");
    sw_near(t, o[1], 8126, 1, "handbook E9, computed");
    sw_near(t, o[2], 10882, 1, "handbook E9, computed");
    sw_near(t, o[3], 2874, 1, "handbook E9, computed");
    sw_near(t, o[4], 21900, 50, "handbook E9, computed");
    sw_true(t, SOLVED(t, "pane_temperature", "Tf=700", "Tgas=500", "soot=1")[0] > 440);
}

static void what_cannot_be_gives_no_number(sw_test *t)
{
    sw_true(t, isnan(SOLVED(t, "gas_emissivity", "pw=1", "pc=1", "L=300", "T=800")[3]));
    sw_true(t, isnan(SOLVED(t, "crossed_strings", "w=1", "c1=9", "c2=9", "u1=1", "u2=1")[0]));
    sw_true(t, isnan(SOLVED(t, "firebox_exchange", "A1=2", "e1=1", "AT=1", "eg=0.5", "Tg=800", "T1=400")[0]));
    sw_true(t, isnan(SOLVED(t, "two_surfaces", "A1=2", "e1=1", "T1=500", "A2=1", "e2=1", "T2=20", "F12=1")[0]));
    sw_true(t, isnan(SOLVED(t, "with_lining", "A1=2", "e1=1", "T1=500", "A2=1", "e2=1", "T2=20", "F12=0.5")[0]));
}

SW_TESTS(SW_CASE(gas_gives_the_handbook_table), SW_CASE(flames_and_firebox_give_the_handbook),
         SW_CASE(view_factors_give_the_handbook_table), SW_CASE(plates_and_shields_give_the_textbook_answers),
         SW_CASE(embers_pane_and_lining_give_the_worked_firebox), SW_CASE(panes_give_the_handbook),
         SW_CASE(what_cannot_be_gives_no_number))
