#include "sw_test.h"
#include "transfer/transfer.h"

#include <math.h>

static const char *const catalogue = "handbook F5.1: catalogue of configuration factors, checked by ray tracing";

static void parallel_rectangles_give_the_catalogue(sw_test *t)
{
    sw_near(t, sw_view_parallel(1, 1, 1), 0.199825, 5e-7, catalogue);
    sw_near(t, sw_view_parallel(2, 1, 1), 0.285875, 5e-7, catalogue);
    sw_near(t, sw_view_parallel(1, 0.5, 1), 0.116654, 5e-7, catalogue);
    sw_near(t, sw_view_parallel(0.5, 0.5, 1), 0.068590, 5e-7, catalogue);
    sw_near(t, sw_view_parallel(2, 2, 1), 0.415253, 5e-7, catalogue);
    sw_near(t, sw_view_parallel(10, 10, 1), 0.826995, 5e-7, catalogue);
}

static void rectangles_with_a_common_edge_give_the_catalogue(sw_test *t)
{
    sw_near(t, sw_view_corner(1, 1, 1), 0.200044, 5e-7, catalogue);
    sw_near(t, sw_view_corner(1, 1, 2), 0.232853, 5e-7, catalogue);
    sw_near(t, sw_view_corner(1, 2, 1), 0.116426, 5e-7, catalogue);
    sw_near(t, sw_view_corner(1, 0.5, 0.5), 0.240636, 5e-7, catalogue);
    sw_near(t, sw_view_corner(1, 1, 0.5), 0.146187, 5e-7, catalogue);
    sw_near(t, sw_view_corner(1, 0.5, 1), 0.292373, 5e-7, catalogue);
}

static void discs_strips_and_elements_give_the_catalogue(sw_test *t)
{
    sw_near(t, sw_view_discs(1, 1, 1), 0.381966, 5e-7, catalogue);
    sw_near(t, sw_view_discs(0.5, 1, 1), 0.468871, 5e-7, catalogue);
    sw_near(t, sw_view_discs(1, 0.5, 1), 0.117218, 5e-7, catalogue);
    sw_near(t, sw_view_strips(1, 1), 0.414214, 5e-7, catalogue);
    sw_near(t, sw_view_point_parallel(1, 1, 1), 0.138532, 5e-7, catalogue);
    sw_near(t, sw_view_point_parallel(0.2, 0.2, 1), 0.012089, 5e-7, catalogue);
    sw_near(t, sw_view_point_upright(1, 1, 1), 0.055734, 5e-7, catalogue);
}

static void a_firebox_is_seen_whole_by_each_wall(sw_test *t)
{
    double back = sw_view_parallel(0.40, 0.40, 0.30);
    double floor = sw_view_corner(0.40, 0.40, 0.30), side = sw_view_corner(0.40, 0.40, 0.30);
    const char *box = "handbook F5.1: box 0.40 x 0.30 x 0.40 m, computed";
    sw_near(t, back, 0.282733, 5e-7, box);
    sw_near(t, floor, 0.179317, 5e-7, box);
    sw_near(t, back + 2 * floor + 2 * side, 1.0, 1e-12, "law: a closed box");
    back = sw_view_parallel(0.45, 0.50, 0.35);
    floor = sw_view_corner(0.45, 0.50, 0.35), side = sw_view_corner(0.50, 0.45, 0.35);
    sw_near(t, back, 0.287455, 5e-7, "handbook E25, computed");
    sw_near(t, floor, 0.168299, 5e-7, "handbook E25, computed");
    sw_near(t, side, 0.187974, 5e-7, "handbook E25, computed");
    sw_near(t, back + 2 * floor + 2 * side, 1.0, 1e-12, "law: a closed box");
}

static void a_pane_seen_from_in_front_gives_the_flux_ahead_of_glass(sw_test *t)
{
    double f = 4 * sw_view_point_parallel(0.2, 0.2, 1.0);
    sw_near(t, f, 0.04836, 5e-6, "handbook E8, computed");
    sw_near(t, f * 15000, 725, 0.5, "handbook E8, computed");
    f = 4 * sw_view_point_parallel(0.2, 0.2, 0.8);
    sw_near(t, f, 0.07348, 5e-6, "handbook E27, computed");
    sw_near(t, f * 15000, 1102, 0.5, "handbook E27, computed");
}

static void every_box_closes_and_is_reciprocal(sw_test *t)
{
    for (uint64_t seed = 1; seed <= 500; seed++) {
        t->seed = seed;
        sw_random r = sw_random_seeded(seed);
        double w = exp(sw_random_between(&r, -3, 3)), d = exp(sw_random_between(&r, -3, 3));
        double h = exp(sw_random_between(&r, -3, 3));
        double sum = sw_view_parallel(w, h, d) + 2 * sw_view_corner(w, h, d) + 2 * sw_view_corner(h, w, d);
        if (!sw_near(t, sum, 1.0, 1e-10, "law: rows sum to one")) return;
        double there = w * h * sw_view_corner(w, h, d), back = w * d * sw_view_corner(w, d, h);
        if (!sw_near(t, there, back, 1e-11 * w * (h + d), "law: A1 F12 = A2 F21")) return;
        double discs = w * w * sw_view_discs(w, h, d);
        if (!sw_near(t, discs, h * h * sw_view_discs(h, w, d), 1e-13 * discs, "law: A1 F12 = A2 F21")) return;
    }
}

static void wide_rectangles_become_strips_and_far_ones_points(sw_test *t)
{
    sw_near(t, sw_view_parallel(1e5, 0.7, 1), sw_view_strips(0.7, 1), 2e-5, "law: long rectangles are strips");
    sw_near(t, sw_view_parallel(0.3, 0.2, 1e4) * 1e8, 0.06 / SW_PI, 1e-9, "law: A/(pi d2) far off");
    double near = sw_view_parallel(0.02 * (1 + 1e-9), 0.013, 1), far = sw_view_parallel(0.02 * (1 - 1e-9), 0.013, 1);
    sw_near(t, near / far, 1.0, 1e-8, "law: both forms of the formula meet");
    sw_near(t, sw_view_parallel(1, 1, 0), 1.0, 0, "law: touching faces see only each other");
    sw_near(t, sw_view_discs(1, 2, 0), 1.0, 1e-15, "law: a disc on a larger one sees only that");
    sw_near(t, sw_view_point_parallel(1e6, 1e6, 1), 0.25, 1e-6, "law: a quarter of the half space");
}

static void an_upright_wall_seen_from_an_element_is_the_integral_over_it(sw_test *t)
{
    double sum = 0;
    const int n = 400;
    for (int i = 0; i < n; i++)
        for (int k = 0; k < n; k++) {
            double x = (i + 0.5) / n, z = (k + 0.5) / n, c = 1.0, r2 = x * x + z * z + c * c;
            sum += z * c / (SW_PI * r2 * r2) / ((double)n * n);
        }
    sw_near(t, sw_view_point_upright(1, 1, 1), sum, 1e-6, "derived: integral of cos cos/(pi r2) by midpoints");
}

static void impossible_lengths_give_no_number(sw_test *t)
{
    sw_true(t, isnan(sw_view_parallel(-1, 1, 1)));
    sw_true(t, isnan(sw_view_parallel(1, NAN, 1)));
    sw_true(t, isnan(sw_view_corner(1, 0, 1)));
    sw_true(t, isnan(sw_view_discs(0, 1, 1)));
    sw_true(t, isnan(sw_view_strips(1, -1)));
    sw_true(t, isnan(sw_view_point_parallel(1, 1, 0)));
    sw_true(t, isnan(sw_view_point_upright(1, 0, 1)));
}

SW_TESTS(SW_CASE(parallel_rectangles_give_the_catalogue), SW_CASE(rectangles_with_a_common_edge_give_the_catalogue),
         SW_CASE(discs_strips_and_elements_give_the_catalogue), SW_CASE(a_firebox_is_seen_whole_by_each_wall),
         SW_CASE(a_pane_seen_from_in_front_gives_the_flux_ahead_of_glass), SW_CASE(every_box_closes_and_is_reciprocal),
         SW_CASE(wide_rectangles_become_strips_and_far_ones_points),
         SW_CASE(an_upright_wall_seen_from_an_element_is_the_integral_over_it),
         SW_CASE(impossible_lengths_give_no_number))
