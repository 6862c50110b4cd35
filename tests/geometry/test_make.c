/* Contours from shapes, rounded, reversed, tidied. */
#include "gen.h"
#include "sw_test.h"

#include <math.h>

static void a_rounded_rectangle_loses_its_corners(sw_test *t)
{
    sw_contour c;
    sw_ok(t, sw_contour_rectangle(&t->run, (sw_box){0.0, 0.0, 100.0, 60.0}, 8.0, &c));
    sw_near(t, sw_contour_area(c), 6000.0 - (4.0 - SW_PI) * 64.0, 1e-9, "derived: a b - (4 - pi) r^2");
    sw_near(t, sw_contour_length(c), 320.0 - (8.0 - 2.0 * SW_PI) * 8.0, 1e-9, "derived: 2 (a + b) - (8 - 2 pi) r");
    sw_true(t, c.n == 8);
}

static void a_rectangle_with_half_its_height_as_radius_is_an_obround(sw_test *t)
{
    sw_contour c;
    const char *fault;
    sw_ok(t, sw_contour_rectangle(&t->run, (sw_box){0.0, 0.0, 40.0, 10.0}, 5.0, &c));
    sw_near(t, sw_contour_area(c), 378.540, 5e-4, "handbook W4.4, obround 40 x 10");
    sw_ok(t, sw_contour_fault(&t->run, c, &fault));
    sw_true(t, fault == NULL);
    sw_ok(t, sw_contour_rectangle(&t->run, (sw_box){0.0, 0.0, 10.0, 10.0}, 7.0, &c));
    sw_near(t, sw_contour_area(c), SW_PI * 25.0, 1e-9, "derived: a circle");
}

static void a_slot_of_no_length_is_a_circle(sw_test *t)
{
    sw_contour c;
    sw_ok(t, sw_contour_slot(&t->run, (sw_point){2.0, 3.0}, (sw_point){2.0, 3.0}, 6.0, &c));
    sw_near(t, sw_contour_area(c), SW_PI * 9.0, 1e-10, "derived: pi r^2");
}

static void a_rounded_triangle_has_its_closed_area(sw_test *t)
{
    const sw_vertex v[3] = {{0.0, 0.0, 0.0}, {100.0, 0.0, 0.0}, {0.0, 100.0, 0.0}};
    const double radii_mm[3] = {0.0, 10.0, 0.0};
    sw_contour c;
    sw_ok(t, sw_contour_rounded(&t->run, (sw_contour){v, 3}, radii_mm, &c));
    double turn_rad = 0.75 * SW_PI, cut = 100.0 * (tan(0.5 * turn_rad) - 0.5 * turn_rad);
    sw_near(t, sw_contour_area(c), 5000.0 - cut, 1e-9, "derived: r^2 (tan(a/2) - a/2) a corner");
    sw_true(t, c.n == 4);
}

static void a_reentrant_corner_is_rounded_to_the_inside(sw_test *t)
{
    const sw_vertex v[6] = {{0, 0, 0}, {40, 0, 0}, {40, 20, 0}, {20, 20, 0}, {20, 40, 0}, {0, 40, 0}};
    const double radii_mm[6] = {0.0, 0.0, 0.0, 5.0, 0.0, 0.0};
    sw_contour c;
    sw_ok(t, sw_contour_rounded(&t->run, (sw_contour){v, 6}, radii_mm, &c));
    sw_near(t, sw_contour_area(c), 1200.0 + (1.0 - SW_PI / 4.0) * 25.0, 1e-9, "derived: (1 - pi/4) r^2 filled in");
}

static void a_radius_that_does_not_fit_names_its_corner(sw_test *t)
{
    const sw_vertex v[4] = {{0, 0, 0}, {40, 0, 0}, {40, 10, 0}, {0, 10, 0}};
    const double too_large[4] = {0.0, 6.0, 5.0, 0.0}, negative[4] = {0.0, 0.0, -1.0, 0.0},
                 nan[4] = {(double)NAN, 0.0, 0.0, 0.0};
    sw_contour c;
    sw_true(t, sw_contour_rounded(&t->run, (sw_contour){v, 4}, too_large, &c) == SW_OUT_OF_RANGE);
    sw_contains(t, t->run.errors[0].text, "corner 2 at (40, 0) cannot have radius 6 mm");
    sw_contains(t, t->run.errors[0].text, "edge 2 is 10 mm long and its two roundings need 11 mm");
    sw_true(t, sw_contour_rounded(&t->run, (sw_contour){v, 4}, negative, &c) == SW_OUT_OF_RANGE);
    sw_contains(t, t->run.errors[1].text, "corner 3");
    sw_true(t, sw_contour_rounded(&t->run, (sw_contour){v, 4}, nan, &c) == SW_OUT_OF_RANGE);
    sw_contains(t, t->run.errors[2].text, "corner 1");
}

static void corners_at_arcs_or_folds_are_not_rounded(sw_test *t)
{
    const sw_vertex bow[3] = {{0, 0, 0.3}, {40, 0, 0}, {20, 30, 0}}, fold[3] = {{0, 0, 0}, {40, 0, 0}, {20, 0, 0}};
    const double first[3] = {1.0, 0.0, 0.0}, second[3] = {0.0, 1.0, 0.0};
    sw_contour c;
    sw_true(t, sw_contour_rounded(&t->run, (sw_contour){bow, 3}, first, &c) == SW_OUT_OF_RANGE);
    sw_contains(t, t->run.errors[0].text, "only corners between two straight edges");
    sw_true(t, sw_contour_rounded(&t->run, (sw_contour){fold, 3}, second, &c) == SW_OUT_OF_RANGE);
    sw_contains(t, t->run.errors[1].text, "fold back");
}

static void roundings_that_meet_leave_a_circle(sw_test *t)
{
    const sw_vertex v[4] = {{0, 0, 0}, {20, 0, 0}, {20, 20, 0}, {0, 20, 0}};
    const double radii_mm[4] = {10.0, 10.0, 10.0, 10.0};
    sw_contour c;
    const char *fault;
    sw_ok(t, sw_contour_rounded(&t->run, (sw_contour){v, 4}, radii_mm, &c));
    sw_ok(t, sw_contour_fault(&t->run, c, &fault));
    sw_true(t, fault == NULL);
    sw_near(t, sw_contour_area(c), SW_PI * 100.0, 1e-9, "derived: a circle");
}

static void reversing_twice_gives_the_contour_back(sw_test *t)
{
    for (uint64_t seed = 1; seed <= 30; seed++) {
        t->seed = seed;
        sw_contour c = gen_contour(&t->run, seed), once, twice;
        sw_ok(t, sw_contour_reversed(&t->run, c, &once));
        sw_ok(t, sw_contour_reversed(&t->run, once, &twice));
        if (!sw_near(t, sw_contour_area(once), -sw_contour_area(c), 1e-9 * sw_contour_area(c), "derived")) return;
        for (size_t i = 0; i < c.n; i++)
            if (!sw_true(t, c.v[i].x_mm == twice.v[i].x_mm && c.v[i].y_mm == twice.v[i].y_mm &&
                                c.v[i].bulge == twice.v[i].bulge))
                return;
    }
}

static size_t split_everywhere(sw_contour c, sw_vertex *v)
{
    size_t n = 0;
    for (size_t i = 0; i < c.n; i++) {
        sw_vertex a = c.v[i], b = c.v[(i + 1) % c.n];
        sw_point middle = sw_segment_point(a, (sw_point){b.x_mm, b.y_mm}, 0.4);
        v[n++] = (sw_vertex){a.x_mm, a.y_mm, tan(0.4 * atan(a.bulge))};
        v[n++] = (sw_vertex){middle.x_mm, middle.y_mm, tan(0.6 * atan(a.bulge))};
        v[n++] = (sw_vertex){b.x_mm, b.y_mm, 0.0}; /* doubled */
    }
    return n;
}

static void tidying_undoes_splits_and_doubles(sw_test *t)
{
    for (uint64_t seed = 1; seed <= 60; seed++) {
        t->seed = seed;
        sw_contour c = gen_contour(&t->run, seed), tidy, back;
        sw_vertex *v = SW_KEEP(&t->run, 3 * c.n, sw_vertex);
        sw_contour split = {v, split_everywhere(c, v)};
        sw_ok(t, sw_contour_tidied(&t->run, c, &tidy));
        sw_ok(t, sw_contour_tidied(&t->run, split, &back));
        if (!sw_true(t, back.n == tidy.n)) return;
        if (!sw_near(t, sw_contour_area(back), sw_contour_area(c), 1e-6, "derived: geometry unchanged")) return;
        if (!sw_near(t, sw_contour_length(back), sw_contour_length(c), 1e-7, "derived: geometry unchanged")) return;
    }
}

static void tidying_joins_over_the_first_vertex_and_keeps_spikes(sw_test *t)
{
    const sw_vertex square[5] = {{10, 0, 0}, {20, 0, 0}, {20, 20, 0}, {0, 20, 0}, {0, 0, 0}};
    const sw_vertex spike[5] = {{0, 0, 0}, {20, 0, 0}, {10, 0, 0}, {10, 20, 0}, {0, 20, 0}};
    sw_contour c;
    sw_ok(t, sw_contour_tidied(&t->run, (sw_contour){square, 5}, &c));
    sw_true(t, c.n == 4);
    sw_near(t, sw_contour_area(c), 400.0, 1e-12, "derived");
    sw_ok(t, sw_contour_tidied(&t->run, (sw_contour){spike, 5}, &c));
    sw_true(t, c.n == 5);
}

static void a_circle_of_four_quarters_tidies_to_two_halves(sw_test *t)
{
    double q = tan(SW_PI / 8.0);
    const sw_vertex v[4] = {{5, 0, q}, {0, 5, q}, {-5, 0, q}, {0, -5, q}};
    sw_contour c;
    sw_ok(t, sw_contour_tidied(&t->run, (sw_contour){v, 4}, &c));
    sw_true(t, c.n == 2);
    sw_near(t, c.v[0].bulge, 1.0, 1e-12, "header: a full circle is two vertices of bulge 1");
}

SW_TESTS(SW_CASE(a_rounded_rectangle_loses_its_corners),
         SW_CASE(a_rectangle_with_half_its_height_as_radius_is_an_obround), SW_CASE(a_slot_of_no_length_is_a_circle),
         SW_CASE(a_rounded_triangle_has_its_closed_area), SW_CASE(a_reentrant_corner_is_rounded_to_the_inside),
         SW_CASE(a_radius_that_does_not_fit_names_its_corner), SW_CASE(corners_at_arcs_or_folds_are_not_rounded),
         SW_CASE(roundings_that_meet_leave_a_circle), SW_CASE(reversing_twice_gives_the_contour_back),
         SW_CASE(tidying_undoes_splits_and_doubles), SW_CASE(tidying_joins_over_the_first_vertex_and_keeps_spikes),
         SW_CASE(a_circle_of_four_quarters_tidies_to_two_halves))
