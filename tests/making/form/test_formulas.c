/* Handbook values of the press brake and of plate rolling, and laws of the formulas. */
#include "making/form/form.h"
#include "sw_test.h"

#include <math.h>

static const double inch_mm = 25.4, psi_mpa = 0.006894757;

static double kn(double n)
{
    return n / 1e3;
}

static void bending_force_of_the_worked_examples(sw_test *t)
{
    sw_near(t, kn(sw_press_force_n(1.33, 400, 4, 1200, 32)), 319.2, 0.05, "handbook W2.1, C 1.33");
    sw_near(t, kn(sw_press_force_n(sw_press_factor(4, 32), 400, 4, 1200, 32)), 360.0, 0.05, "handbook W2.1, 1 + 4 s/V");
    sw_near(t, kn(sw_press_force_n(1.33, 360, 3, 900, 24)), 161.6, 0.05, "handbook W2.2, Rm 360");
    sw_near(t, kn(sw_press_force_n(1.33, 510, 3, 900, 24)), 228.9, 0.05, "handbook W2.2, Rm 510");
}

static void bending_force_reproduces_the_makers_chart(sw_test *t)
{
    static const double rows[][5] = {{2, 16, 170, 150, 169}, {3, 25, 240, 215, 243}, {4, 32, 340, 299, 338},
                                     {5, 40, 420, 374, 422}, {6, 50, 480, 431, 486}, {8, 63, 680, 608, 686},
                                     {10, 80, 850, 748, 844}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const double *r = rows[i];
        sw_near(t, kn(sw_press_force_n(1.33, 450, r[0], 1000, r[1])), r[3], 0.5, "handbook 2.1, check table, C 1.33");
        sw_near(t, kn(sw_press_force_n(1.5, 450, r[0], 1000, r[1])), r[4], 0.5, "handbook 2.1, check table, C 1.5");
        sw_near(t, kn(sw_press_force_n(1.5, 450, r[0], 1000, r[1])), r[2], 0.02 * r[2],
                "a toolmaker's air bending chart");
    }
}

static void force_outside_its_range_is_no_number(sw_test *t)
{
    sw_true(t, isnan(sw_press_force_n(1.33, 400, 4, 1000, 20)) && isnan(sw_press_force_n(1.33, 400, 2, 1000, 32)));
    sw_true(t, isnan(sw_press_factor(0, 20)) && isnan(sw_press_force_n(1.33, 0, 4, 1000, 32)));
}

static void die_by_thickness_and_what_it_makes(sw_test *t)
{
    sw_near(t, sw_die_wanted_mm(2), 12, 1e-12, "handbook 2.2: 6 s");
    sw_near(t, sw_die_wanted_mm(3), 24, 1e-12, "handbook 2.2: 8 s");
    sw_near(t, sw_die_wanted_mm(10), 100, 1e-12, "handbook 2.2: 10 s");
    sw_near(t, sw_die_wanted_mm(12), 144, 1e-12, "handbook 2.2: 12 s");
    sw_near(t, sw_natural_radius_mm(32, SW_STEEL), 5.0, 1e-12, "handbook 2.2: chart");
    sw_near(t, sw_natural_radius_mm(100, SW_STEEL), 16.0, 1e-12, "handbook 2.2: 0.16 V");
    sw_near(t, sw_natural_radius_mm(100, SW_STAINLESS), 20.0, 1e-9, "handbook 2.2: 0.20 V");
    sw_near(t, sw_least_flange_mm(25), 17.5, 1e-12, "handbook 2.2: chart");
    sw_near(t, sw_least_flange_mm(36), 25.0, 1e-12, "handbook 2.2: halfway between 22 and 28");
}

static void punch_depth_and_its_slope(sw_test *t)
{
    double degree = sw_rad_from_deg(1);
    sw_near(t, sw_punch_depth_mm(24, 3, 3.84, SW_PI / 2), 9.167, 5e-4, "handbook 2.3, A 90");
    sw_near(t, sw_punch_slope_mm(24, 3, 3.84, SW_PI / 2) * degree, 0.1250, 5e-5, "handbook 2.3, A 90");
    sw_near(t, sw_punch_depth_mm(24, 3, 3.84, SW_PI / 3), 5.870, 5e-4, "handbook 2.3, A 60");
    sw_near(t, sw_punch_slope_mm(24, 3, 3.84, SW_PI / 3) * degree, 0.0998, 5e-5, "handbook 2.3, A 60");
    sw_near(t, sw_punch_depth_mm(24, 3, 3.84, 0), 0, 0, "derived: flat sheet");
    sw_true(t, isnan(sw_punch_depth_mm(8, 3, 10, SW_PI / 2)));
}

static void slope_is_the_derivative_of_the_depth(sw_test *t)
{
    for (double A = 0.1; A < 2.2; A += 0.1) {
        double h = 1e-5, up = sw_punch_depth_mm(32, 4, 5, A + h), down = sw_punch_depth_mm(32, 4, 5, A - h);
        sw_near(t, sw_punch_slope_mm(32, 4, 5, A), (up - down) / (2 * h), 1e-6, "derived: central difference");
    }
}

static void springback_of_a_published_example(sw_test *t)
{
    double r = 0.5 * inch_mm, s = 0.0359 * inch_mm, re = 40000 * psi_mpa, young = 29e6 * psi_mpa;
    double ratio = sw_springback_ratio(r, re, young, s);
    sw_near(t, ratio, 0.942, 5e-4, "handbook W2.3: Kalpakjian and Schmid, 20-gauge sheet");
    sw_near(t, r / ratio / inch_mm, 0.5306, 5e-5, "handbook W2.3");
    sw_near(t, sw_deg_from_rad(sw_overbend_rad(r, r / ratio, s, SW_PI / 2)), 95.3, 5e-2, "handbook W2.3");
}

static void springback_of_a_steel_row(sw_test *t)
{
    double ratio = sw_springback_ratio(4, 200, 210000, 2);
    sw_near(t, ratio, 0.99429, 5e-6, "handbook 2.4, DC01 s 2, r 4");
    sw_near(t, 4 / ratio, 4.023, 5e-4, "handbook 2.4");
    sw_near(t, sw_deg_from_rad(sw_overbend_rad(4, 4 / ratio, 2, SW_PI / 2)), 90.41, 5e-3, "handbook 2.4");
}

static void springback_factor_of_the_table_book(sw_test *t)
{
    double k = sw_springback_factor("DC01", 80, 2);
    sw_near(t, k, 0.85, 1e-12, "handbook W2.4: r2/s 40");
    sw_near(t, sw_springback_tool_radius_mm(k, 80, 2), 67.85, 5e-3, "handbook W2.4");
    sw_near(t, 90 / k, 105.9, 5e-2, "handbook W2.4");
    sw_true(t, isnan(sw_springback_factor("S235", 80, 2)) && isnan(sw_springback_factor("1.4301", 63, 1)));
    sw_true(t, isnan(sw_springback_factor("DC01", 1, 2)));
}

static void loaded_radius_undoes_the_springback(sw_test *t)
{
    for (double r = 2; r < 200; r *= 1.5) {
        double loaded = sw_springback_loaded_mm(r, 280, 210000, 3);
        sw_near(t, loaded / sw_springback_ratio(loaded, 280, 210000, 3), r, 1e-9 * r, "round trip");
    }
}

static void first_flange_of_a_channel(sw_test *t)
{
    sw_near(t, sw_channel_flange_mm(60, 20), 45.858, 5e-4, "handbook 2.7: w - p/sqrt(2)");
    sw_true(t, isnan(sw_channel_flange_mm(60, -1)));
}

static void rolling_a_wide_radius(sw_test *t)
{
    sw_strip_steel narrow = {280, 210000, 0.3, false}, plane = {280, 210000, 0.3, true};
    double kappa_e = sw_yield_curvature(&narrow, 4), kappa = sw_loaded_curvature(1 / 252.0, kappa_e);
    double loaded = 1 / kappa - 2;
    sw_near(t, kappa_e, 6.6667e-4, 5e-9, "handbook W3.1");
    sw_near(t, kappa, 4.96224e-3, 5e-9, "handbook W3.1");
    sw_near(t, loaded, 199.522, 5e-4, "handbook W3.1");
    sw_near(t, sw_roll_feed_mm(loaded, 4, 75, 110), 22.642, 5e-4, "handbook W3.1");
    double contact = sw_roll_contact_rad(loaded, 4, 75, 110), moment = sw_bending_moment_n(&narrow, 4, kappa);
    sw_near(t, sw_deg_from_rad(contact), 23.26, 5e-3, "handbook W3.1");
    sw_near(t, sw_roll_flat_mm(loaded, 4, contact), 81.8, 5e-2, "handbook W3.1");
    sw_near(t, moment, 1113.3, 5e-2, "handbook W3.1");
    sw_near(t, sw_roll_force_n_mm(moment, loaded, 4, contact), 25.70, 5e-3, "handbook W3.1");
    double plane_kappa = sw_loaded_curvature(1 / 252.0, sw_yield_curvature(&plane, 4)), wide = 1 / plane_kappa - 2;
    sw_near(t, wide, 197.514, 5e-4, "handbook W3.1, plane strain");
    moment = sw_bending_moment_n(&plane, 4, plane_kappa);
    sw_near(t, moment, 1284.8, 5e-2, "handbook W3.1, plane strain");
    contact = sw_roll_contact_rad(wide, 4, 75, 110);
    sw_near(t, sw_roll_force_n_mm(moment, wide, 4, contact), 29.70, 5e-3, "handbook W3.1, plane strain");
}

static void springing_back_from_the_rolls(sw_test *t)
{
    sw_strip_steel narrow = {280, 210000, 0.3, false}, plane = {280, 210000, 0.3, true};
    double kappa = 1 / 302.0;
    sw_near(t, 1 / sw_sprung_curvature(kappa, sw_yield_curvature(&narrow, 4)) - 2, 428.15, 5e-3, "handbook W3.2");
    sw_near(t, 1 / sw_sprung_curvature(kappa, sw_yield_curvature(&plane, 4)) - 2, 437.34, 5e-3,
            "handbook W3.2, plane strain");
    narrow.re_mpa = 235;
    double loaded = 1 / sw_loaded_curvature(1 / 401.5, sw_yield_curvature(&narrow, 3)) - 1.5;
    sw_near(t, loaded, 276.770, 5e-4, "handbook W3.3");
    sw_near(t, sw_roll_feed_mm(loaded, 3, 75, 110), 17.484, 5e-4, "handbook W3.3");
}

static void loaded_and_sprung_curvature_undo_each_other(sw_test *t)
{
    for (double kappa_e = 1e-5; kappa_e < 1e-2; kappa_e *= 3)
        for (double kappa_f = 1e-5; kappa_f < 0.3; kappa_f *= 3) {
            double kappa = sw_loaded_curvature(kappa_f, kappa_e);
            sw_near(t, sw_sprung_curvature(kappa, kappa_e), kappa_f, 1e-9 * kappa, "round trip");
        }
    sw_near(t, sw_sprung_curvature(1e-3, 1e-3), 0, 0, "derived: no permanent set up to the yield curvature");
    sw_near(t, sw_loaded_curvature(0.01, 0), 0.01, 1e-15, "derived: without yield stress nothing springs back");
}

static void feed_and_radius_undo_each_other(sw_test *t)
{
    for (double r = 60; r < 1000; r *= 1.7)
        sw_near(t, sw_roll_radius_mm(sw_roll_feed_mm(r, 4, 75, 110), 4, 75, 110), r, 1e-8 * r, "round trip");
    sw_true(t, isnan(sw_roll_feed_mm(10, 4, 75, 110)) && isnan(sw_roll_radius_mm(0, 4, 75, 110)));
}

static void settings_of_four_rolls(sw_test *t)
{
    sw_four_rolls rolls = {90, 70, {190, -190}, {-0.5, cos(SW_PI / 6)}};
    double lambda = sw_four_roll_setting_mm(&rolls, 4, 200), flat = sw_four_roll_flat_mm(&rolls, 4);
    sw_near(t, lambda, 81.194, 5e-4, "handbook W3.5");
    sw_near(t, flat, 30.022, 5e-4, "handbook W3.5");
    sw_near(t, lambda - flat, 51.172, 1e-3, "handbook W3.5");
    sw_near(t, 190 - 0.5 * lambda, 149.403, 5e-4, "handbook W3.5");
}

static void quantiles_of_published_tables(sw_test *t)
{
    const char *student = "Student's distribution, table (from memory)";
    sw_near(t, sw_student_t(0.975, 1), 12.706, 5e-4, student);
    sw_near(t, sw_student_t(0.975, 2), 4.303, 5e-4, student);
    sw_near(t, sw_student_t(0.975, 5), 2.571, 5e-4, student);
    sw_near(t, sw_student_t(0.975, 10), 2.228, 5e-4, student);
    sw_near(t, sw_student_t(0.995, 30), 2.750, 5e-4, student);
    sw_near(t, sw_chi_square_quantile(0.99, 5), 15.086, 5e-4, "chi-square, table (from memory)");
    sw_near(t, sw_grubbs_limit(3, 0.01), 1.155, 1e-3, "ISO 5725-2, Grubbs, 1 %, n 3 (from memory)");
    sw_near(t, sw_grubbs_limit(6, 0.01), 1.973, 1e-3, "ISO 5725-2, Grubbs, 1 %, n 6 (from memory)");
    sw_near(t, sw_grubbs_limit(10, 0.01), 2.482, 1e-3, "ISO 5725-2, Grubbs, 1 %, n 10 (from memory)");
    sw_true(t, isnan(sw_grubbs_limit(2, 0.01)) && isnan(sw_student_t(0.4, 3)) && isnan(sw_student_t(0.9, 0)));
}

SW_TESTS(SW_CASE(bending_force_of_the_worked_examples), SW_CASE(bending_force_reproduces_the_makers_chart),
         SW_CASE(force_outside_its_range_is_no_number), SW_CASE(die_by_thickness_and_what_it_makes),
         SW_CASE(punch_depth_and_its_slope), SW_CASE(slope_is_the_derivative_of_the_depth),
         SW_CASE(springback_of_a_published_example), SW_CASE(springback_of_a_steel_row),
         SW_CASE(springback_factor_of_the_table_book), SW_CASE(loaded_radius_undoes_the_springback),
         SW_CASE(first_flange_of_a_channel), SW_CASE(rolling_a_wide_radius), SW_CASE(springing_back_from_the_rolls),
         SW_CASE(loaded_and_sprung_curvature_undo_each_other), SW_CASE(feed_and_radius_undo_each_other),
         SW_CASE(settings_of_four_rolls), SW_CASE(quantiles_of_published_tables))
