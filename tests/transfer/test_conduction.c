#include "sw_test.h"
#include "transfer/transfer.h"

#include <math.h>

static void fins_give_the_textbook_heat(sw_test *t)
{
    const char *book = "handbook E19: Incropera, Example 3.9, from memory";
    static const double k[3] = {398, 180, 14}, printed_w[3] = {8.3, 5.6, 1.6}, computed_w[3] = {8.31, 5.59, 1.56};
    double d = 0.005, around = SW_PI * d, area = SW_PI / 4 * d * d;
    for (int i = 0; i < 3; i++) {
        sw_near(t, sw_fin_infinite_w(100, around, k[i], area, 75), printed_w[i], 0.051, book);
        sw_near(t, sw_fin_infinite_w(100, around, k[i], area, 75), computed_w[i], 6e-3, "handbook E19, computed");
    }
    double m = sw_fin_m(15, 2, 45, sw_m_from_mm(3)); /* a metre of a 3 mm fin, both sides */
    sw_near(t, m * 0.060, 0.894, 6e-4, "handbook E19, computed");
    sw_near(t, sw_fin_efficiency(m * 0.060), 0.798, 6e-4, "handbook E19, computed");
    sw_near(t, sw_fin_efficiency(m * 0.0615), 0.790, 6e-4, "handbook E19, computed");
}

static void a_short_fin_is_whole_and_a_long_one_is_the_endless_rod(sw_test *t)
{
    sw_near(t, sw_fin_efficiency(0), 1, 0, "limit");
    sw_near(t, sw_fin_efficiency(1e-6), 1, 1e-12, "limit");
    double h = 20, p = 2, k = 45, a = 0.003, L = 5, m = sw_fin_m(h, p, k, a);
    double endless = sw_fin_infinite_w(h, p, k, a, 10);
    sw_near(t, sw_fin_efficiency(m * L) * h * p * L * 10, endless, 1e-9 * endless, "limit: tanh 1");
    sw_true(t, isnan(sw_fin_efficiency(-1)) && isnan(sw_fin_efficiency(NAN)));
}

static void lumped_bodies_have_the_handbook_times(sw_test *t)
{
    sw_near(t, sw_lumped_s(7850 * 0.004, 480, 25, 1), 603, 0.6, "handbook F7.3, computed (steel at 480 J/(kg K))");
    sw_near(t, sw_lumped_s(2600 * 0.004, 830, 40, 1), 216, 0.6, "handbook F7.3, computed");
}

static double slope_constant(double z)
{
    return 4 * sin(z) / (2 * z + sin(2 * z));
}

static void slab_roots_are_those_of_the_table(sw_test *t)
{
    const char *book = "handbook F7.4: Incropera table 5.1";
    static const double bi[5] = {0.01, 0.1, 1, 10, 100}, z[5] = {0.0998, 0.3111, 0.8603, 1.4289, 1.5552},
                        A[5] = {1.0017, 1.0161, 1.1191, 1.2620, 1.2731};
    for (int i = 0; i < 5; i++) {
        sw_near(t, sw_slab_root(bi[i]), z[i], 6e-5, book);
        sw_near(t, slope_constant(sw_slab_root(bi[i])), A[i], 6e-5, book);
    }
    sw_near(t, sw_slab_root(INFINITY), SW_PI / 2, 1e-15, "limit: held face");
    sw_near(t, sw_slab_root(0), 0, 0, "limit: no loss");
    for (double b = 1e-9; b < 1e9; b *= 2) {
        double root = sw_slab_root(b);
        if (!sw_near(t, root * sin(root), b * cos(root), 4e-15 * (b + 1), "its equation")) return;
    }
}

static void the_brass_plate_heats_as_the_textbook_says(sw_test *t)
{
    double half_m = 0.02, a = 110.0 / (8530 * 380), time_s = 420, bi = 120 * half_m / 110;
    double fo = a * time_s / (half_m * half_m);
    double face_c = 500 - 480 * sw_slab_theta(bi, fo, 1), middle_c = 500 - 480 * sw_slab_theta(bi, fo, 0);
    double lumped_c = 500 - 480 * exp(-time_s / sw_lumped_s(8530 * half_m, 380, 120, 1));
    sw_near(t, face_c, 282, 2.5, "handbook E20: Cengel, brass plate, by chart, from memory");
    sw_near(t, face_c, 279.8, 0.06, "handbook E20, computed");
    sw_near(t, middle_c, 277.4, 0.06, "handbook E20, computed");
    sw_near(t, lumped_c, 279.4, 0.06, "handbook E20, computed");
}

static void a_lining_slab_heats_as_the_handbook_says(sw_test *t)
{
    double L = 0.025, a = 0.18 / (700.0 * 900), bi = 30 * L / 0.18;
    sw_near(t, bi, 4.167, 6e-4, "handbook E21, computed");
    sw_near(t, sw_slab_root(bi), 1.27405, 6e-6, "handbook E21, computed");
    sw_near(t, slope_constant(sw_slab_root(bi)), 1.23100, 6e-6, "handbook E21, computed");
    static const double s[2] = {300, 1800}, back_c[2] = {55.8, 479.9}, face_c[2] = {486.1, 635.6};
    for (int i = 0; i < 2; i++) {
        double fo = a * s[i] / (L * L);
        sw_near(t, 700 - 680 * sw_slab_theta(bi, fo, 0), back_c[i], 0.06, "handbook E21, computed");
        sw_near(t, 700 - 680 * sw_slab_theta(bi, fo, 1), face_c[i], 0.06, "handbook E21, computed");
    }
}

static void early_and_late_answers_of_a_slab_meet(sw_test *t)
{
    static const double bi[] = {1e-3, 0.1, 1, 4, 30, 1e3, 1e6, INFINITY};
    for (int i = 0; i < 8; i++)
        for (double x = 0; x <= 1; x += 0.125) {
            double early = sw_slab_theta(bi[i], 0.01 - 1e-13, x), late = sw_slab_theta(bi[i], 0.01, x);
            if (!sw_near(t, early, late, 2e-11, "continuity at Fo 0.01")) return;
        }
}

static void a_slab_cools_from_the_face_and_never_below_the_air(sw_test *t)
{
    for (double bi = 1e-3; bi < 1e5; bi *= 7)
        for (double fo = 1e-6; fo < 20; fo *= 1.7) {
            double face = sw_slab_theta(bi, fo, 1), middle = sw_slab_theta(bi, fo, 0);
            if (!sw_true(t, face >= -1e-12 && face <= middle + 1e-12 && middle <= 1 + 1e-12)) return;
            if (!sw_true(t, sw_slab_theta(bi, fo * 1.1, 0) <= middle + 1e-12)) return;
        }
}

static void a_thin_slab_is_a_lumped_body(sw_test *t)
{
    double bi = 1e-5;
    for (double fo = 1e3; fo < 3e5; fo *= 2)
        if (!sw_near(t, sw_slab_theta(bi, fo, 0.5), exp(-bi * fo), 1e-5, "limit: Bi 0")) return;
}

static void a_thick_slab_is_a_deep_body(sw_test *t)
{
    double fo = 1e-3;
    for (double d = 0; d < 0.3; d += 0.05) {
        double deep = 1 - sw_semi_infinite_step(d, 1, fo);
        if (!sw_near(t, sw_slab_theta(INFINITY, fo, 1 - d), deep, 1e-12, "limit: held face")) return;
        if (!sw_near(t, sw_slab_theta(1e9, fo, 1 - d), deep, 1e-7, "limit: Bi large")) return;
    }
}

static void soil_and_fireclay_warm_as_the_handbook_says(sw_test *t)
{
    double days_s = 90 * 24 * sw_s_from_h(1);
    sw_near(t, 15 - 25 * sw_semi_infinite_step(0.801, 0.15e-6, days_s), 0, 0.01,
            "handbook E22: Cengel, burial depth 0.80 m, from memory; computed 0.801");
    double a = 5.35e-7, k = 1.05;
    sw_near(t, sw_semi_infinite_flux_k(1e4, k, a, 0, 600) * k / 1.10, 183.8, 0.3, "handbook E22, computed (k 1.10)");
    sw_near(t, sw_semi_infinite_flux_k(1e4, 1.10, a, 0.020, 600), 56.5, 0.3, "handbook E22, computed (k 1.10)");
}

static void heat_put_into_a_deep_body_stays_in_it(sw_test *t)
{
    double q = 5000, k = 1.1, a = 5e-7, time_s = 900, stored = 0, step = 1e-4;
    for (double x = step / 2; x < 0.6; x += step) stored += sw_semi_infinite_flux_k(q, k, a, x, time_s) * step * k / a;
    sw_near(t, stored, q * time_s, 1e-5 * q * time_s, "conservation: stored = put in");
}

static void touching_bodies_meet_between_and_swap(sw_test *t)
{
    const char *book = "handbook F9.1: contact formula, computed";
    static const double e_steel = 12733, e_skin = 1300; /* sqrt(k rho c): 45 x 7850 x 459 */
    double steel_c = sw_c_from_k(sw_contact_k(e_skin, sw_k_from_c(33), e_steel, sw_k_from_c(70)));
    sw_near(t, steel_c, 66.8, 0.3, book);
    double one = sw_contact_k(1300, 306, 500, 343), other = sw_contact_k(500, 343, 1300, 306);
    sw_near(t, one, other, 1e-12 * one, "symmetry");
    sw_true(t, one > 306 && one < 343);
    sw_near(t, sw_contact_k(7, 300, 7, 340), 320, 1e-10, "equal bodies meet half way");
}

static void the_plate_with_a_hot_edge_has_the_series_values(sw_test *t)
{
    const char *book = "handbook F7.6: Incropera eq. 4.19, computed";
    static const double x[6] = {0.5, 0.25, 0.5, 0.25, 0.5, 0.25}, y[6] = {0.5, 0.25, 0.25, 0.5, 0.75, 0.75},
                        theta[6] = {0.25, 0.067972, 0.095414, 0.182028, 0.540529, 0.432028};
    for (int i = 0; i < 6; i++) sw_near(t, sw_plate_edge_series(x[i], y[i]), theta[i], 6e-7, book);
    sw_near(t, sw_plate_edge_series(0.3, 1), 1, 1e-12, "the hot edge");
    sw_near(t, sw_plate_edge_series(0.3, 0), 0, 1e-12, "a cold edge");
    sw_near(t, sw_plate_edge_series(1, 0.7), 0, 1e-12, "a cold edge");
    sw_true(t, isnan(sw_plate_edge_series(1.1, 0.5)) && isnan(sw_plate_edge_series(NAN, 0.5)));
}

static void four_hot_edges_make_a_hot_plate(sw_test *t)
{
    for (double x = 0.05; x < 1; x += 0.09)
        for (double y = 0.05; y < 1; y += 0.09) {
            double all = sw_plate_edge_series(x, y) + sw_plate_edge_series(x, 1 - y) + sw_plate_edge_series(y, x) +
                         sw_plate_edge_series(y, 1 - x);
            if (!sw_near(t, all, 1, 1e-12, "superposition")) return;
        }
}

static void the_heated_plate_has_the_series_values(sw_test *t)
{
    const char *book = "handbook F7.6, computed";
    sw_near(t, sw_plate_flux_series(0.5, 0.5, 0), 0.0736714, 6e-8, book);
    sw_near(t, sw_plate_flux_series(0.25, 0.25, 0), 0.0452862, 6e-8, book);
    sw_near(t, sw_plate_flux_series(0.5, 0.25, 0), 0.0573349, 6e-8, book);
    sw_near(t, sw_plate_flux_series(0.5, 0.5, 10), 0.046942, 6e-7, book);
    sw_near(t, sw_plate_flux_series(0.25, 0.25, 10), 0.031010, 6e-7, book);
    sw_near(t, sw_plate_flux_series(0.5, 0.5, 50), 0.017964, 6e-7, book);
    sw_near(t, sw_plate_flux_series(0.25, 0.25, 50), 0.014166, 6e-7, book);
    double scale = 5000 * 0.16 / (45 * 0.003), m2 = 15 * 0.16 / (45 * 0.003);
    sw_near(t, m2, 17.78, 6e-3, "handbook E23, computed");
    sw_near(t, scale * sw_plate_flux_series(0.5, 0.5, 0), 436.6, 0.06, "handbook E23, computed");
    sw_near(t, scale * sw_plate_flux_series(0.5, 0.5, m2), 214.6, 0.06, "handbook E23, computed");
}

static void the_heated_plate_keeps_its_symmetries_and_limits(sw_test *t)
{
    for (double m2 = 0; m2 < 3e3; m2 = 3 * m2 + 1)
        for (double x = 0.02; x < 1; x += 0.16)
            for (double y = 0.02; y < 1; y += 0.16) {
                double u = sw_plate_flux_series(x, y, m2);
                if (!sw_near(t, sw_plate_flux_series(y, x, m2), u, 1e-11, "symmetry")) return;
                if (!sw_near(t, sw_plate_flux_series(1 - x, y, m2), u, 1e-12, "symmetry")) return;
            }
    double cold = sw_plate_flux_series(0.4, 0.3, 0);
    sw_near(t, sw_plate_flux_series(0.4, 0.3, 1e-9), cold, 1e-10, "limit: no loss");
    sw_near(t, 1e6 * sw_plate_flux_series(0.5, 0.5, 1e6), 1, 1e-9, "limit: q/h far from the edges");
    sw_near(t, sw_plate_flux_series(0, 0.5, 3), 0, 0, "a held edge");
    sw_true(t, isnan(sw_plate_flux_series(0.5, 0.5, -1)) && isnan(sw_plate_flux_series(0.5, 1.5, 0)));
}

SW_TESTS(SW_CASE(fins_give_the_textbook_heat), SW_CASE(a_short_fin_is_whole_and_a_long_one_is_the_endless_rod),
         SW_CASE(lumped_bodies_have_the_handbook_times), SW_CASE(slab_roots_are_those_of_the_table),
         SW_CASE(the_brass_plate_heats_as_the_textbook_says), SW_CASE(a_lining_slab_heats_as_the_handbook_says),
         SW_CASE(early_and_late_answers_of_a_slab_meet), SW_CASE(a_slab_cools_from_the_face_and_never_below_the_air),
         SW_CASE(a_thin_slab_is_a_lumped_body), SW_CASE(a_thick_slab_is_a_deep_body),
         SW_CASE(soil_and_fireclay_warm_as_the_handbook_says), SW_CASE(heat_put_into_a_deep_body_stays_in_it),
         SW_CASE(touching_bodies_meet_between_and_swap), SW_CASE(the_plate_with_a_hot_edge_has_the_series_values),
         SW_CASE(four_hot_edges_make_a_hot_plate), SW_CASE(the_heated_plate_has_the_series_values),
         SW_CASE(the_heated_plate_keeps_its_symmetries_and_limits))
