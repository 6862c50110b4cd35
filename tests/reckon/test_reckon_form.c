/* Press brake and rolls by name: the handbook's examples. */
#include "reckon_solved.h"

static const double inch_mm = 25.4, psi_mpa = 6.894757293e-3; /* law: international yard and pound */

/* Settings with figures that are computed. */
static const char *set(sw_test *t, const char *name, double value)
{
    const char *text = sw_text_format(&t->run, t->run.keep, "%s=%.12g", name, value);
    return text == NULL ? "" : text;
}

static void forces_and_dies_give_the_handbook_examples(sw_test *t)
{
    const double *out = SOLVED(t, "press_force", "s=4", "Rm=400", "l=1200", "V=32");
    sw_near(t, out[0], 319.2, 0.05, "handbook W2.1, C 1.33");
    sw_near(t, out[2], 360.0, 0.05, "handbook W2.1, 1 + 4 s/V");
    sw_near(t, SOLVED(t, "press_force", "s=3", "Rm=360", "l=900", "V=24")[0], 161.6, 0.05, "handbook W2.2, Rm 360");
    sw_near(t, SOLVED(t, "press_force", "s=3", "Rm=510", "l=900", "V=24")[0], 228.9, 0.05, "handbook W2.2, Rm 510");
    sw_near(t, SOLVED(t, "press_force", "s=4", "Rm=450", "l=1000", "V=32")[1], 338, 0.5, "handbook 2.1, C 1.5");
    out = SOLVED(t, "press_die", "s=4");
    sw_near(t, out[0], 32, 1e-12, "handbook 2.2: 8 s");
    sw_near(t, out[1], 5.0, 1e-12, "handbook 2.2: chart");
    sw_near(t, out[3], 22, 1e-12, "handbook 2.2: chart");
    sw_near(t, SOLVED(t, "press_die", "s=12", "V=100")[2], 20, 1e-9, "handbook 2.2: 0.20 V");
}

static void depths_and_channels_give_the_handbook_examples(sw_test *t)
{
    const double *out = SOLVED(t, "punch_depth", "V=24", "s=3", "r=3.84");
    sw_near(t, out[0], 9.167, 5e-4, "handbook 2.3, A 90");
    sw_near(t, out[1], 0.1250, 5e-5, "handbook 2.3, A 90");
    out = SOLVED(t, "punch_depth", "V=24", "s=3", "r=3.84", "A=60");
    sw_near(t, out[0], 5.870, 5e-4, "handbook 2.3, A 60");
    sw_near(t, out[1], 0.0998, 5e-5, "handbook 2.3, A 60");
    sw_near(t, SOLVED(t, "channel_flange", "w=60", "p=20")[0], 45.858, 5e-4, "handbook 2.7: w - p/sqrt(2)");
}

static void springback_gives_the_handbook_examples(sw_test *t)
{
    const double *out = SOLVED(t, "springback", set(t, "s", 0.0359 * inch_mm), set(t, "R_i", 0.5 * inch_mm),
                               set(t, "Re", 40000 * psi_mpa), set(t, "E", 29e6 * psi_mpa));
    sw_near(t, out[0], 0.942, 5e-4, "handbook W2.3");
    sw_near(t, out[1] / inch_mm, 0.5306, 5e-5, "handbook W2.3");
    sw_near(t, out[2], 95.3, 0.05, "handbook W2.3");
    out = SOLVED(t, "overbend", "s=2", "R_f=4.023", "Re=200");
    sw_near(t, out[0], 4, 5e-4, "handbook 2.4, DC01 s 2");
    sw_near(t, out[1], 0.99429, 5e-6, "handbook 2.4, DC01 s 2");
    sw_near(t, out[2], 90.41, 5e-3, "handbook 2.4, DC01 s 2");
    out = SOLVED(t, "springback_factor", "grade=1", "s=2", "r2=80");
    sw_near(t, out[0], 0.85, 1e-12, "handbook W2.4");
    sw_near(t, out[1], 67.85, 5e-3, "handbook W2.4");
    sw_near(t, out[2], 105.9, 0.05, "handbook W2.4");
}

static void rolls_give_the_handbook_examples(sw_test *t)
{
    const double *out = SOLVED(t, "three_rolls", "s=4", "R_f=250", "Re=280", "r_l=75", "centres=220");
    sw_near(t, out[0], 199.522, 5e-4, "handbook W3.1, narrow strip");
    sw_near(t, out[1], 22.642, 5e-4, "handbook W3.1");
    sw_near(t, out[2], 23.26, 5e-3, "handbook W3.1");
    sw_near(t, out[3], 81.8, 0.05, "handbook W3.1");
    sw_near(t, out[4], 1113.3, 0.05, "handbook W3.1");
    sw_near(t, out[5], 25.70, 5e-3, "handbook W3.1");
    out = SOLVED(t, "three_rolls", "s=4", "R_f=250", "Re=280", "r_l=75", "centres=220", "plane=1");
    sw_near(t, out[0], 197.514, 5e-4, "handbook W3.1, plane strain");
    sw_near(t, out[4], 1284.8, 0.05, "handbook W3.1, plane strain");
    sw_near(t, out[5], 29.70, 5e-3, "handbook W3.1, plane strain");
    out = SOLVED(t, "three_rolls", "s=3", "R_f=400", "Re=235", "r_l=75", "centres=220");
    sw_near(t, out[0], 276.770, 5e-4, "handbook W3.3");
    sw_near(t, out[1], 17.484, 5e-4, "handbook W3.3");
    sw_near(t, SOLVED(t, "roll_springback", "s=4", "R_i=300", "Re=280")[1], 428.15, 5e-3, "handbook W3.2, narrow");
    sw_near(t, SOLVED(t, "roll_springback", "s=4", "R_i=300", "Re=280", "plane=1")[1], 437.34, 5e-3,
            "handbook W3.2, plane strain");
}

static void side_roll_and_template_give_the_handbook_examples(sw_test *t)
{
    const double *out = SOLVED(t, "four_rolls", "s=4", "R_i=200", "r_u=90", "r_s=70", "x0=190", "y0=-190", "tilt=30");
    sw_near(t, out[0], 81.194, 5e-4, "handbook W3.5");
    sw_near(t, out[1], 30.022, 5e-4, "handbook W3.5");
    sw_near(t, out[2], 51.172, 5e-4, "handbook W3.5");
    sw_near(t, SOLVED(t, "sagitta", "R=250", "c=150")[0], 11.5152, 5e-5, "handbook W3.4");
    sw_near(t, SOLVED(t, "sagitta", "R=400", "c=200")[0], 12.7017, 5e-5, "handbook W3.4");
    sw_near(t, SOLVED(t, "radius_from_sagitta", "h=11", "c=150")[0], 261.18, 5e-3, "handbook W3.4");
}

SW_TESTS(SW_CASE(forces_and_dies_give_the_handbook_examples), SW_CASE(depths_and_channels_give_the_handbook_examples),
         SW_CASE(springback_gives_the_handbook_examples), SW_CASE(rolls_give_the_handbook_examples),
         SW_CASE(side_roll_and_template_give_the_handbook_examples))
