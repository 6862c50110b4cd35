/* Crossings and distances of lines and arcs. */
#include "gen.h"
#include "sw_test.h"

#include <math.h>

static void a_line_through_a_circle_crosses_it_twice(sw_test *t)
{
    sw_point at[2];
    size_t n =
        sw_segment_crossings((sw_vertex){-10, 3, 0}, (sw_point){10, 3}, (sw_vertex){5, 0, 1}, (sw_point){-5, 0}, at);
    sw_true(t, n == 2);
    sw_near(t, fabs(at[0].x_mm), 4.0, 1e-12, "derived: 3-4-5 triangle");
    sw_near(t, at[0].x_mm + at[1].x_mm, 0.0, 1e-12, "derived: symmetry");
    n = sw_segment_crossings((sw_vertex){-10, -3, 0}, (sw_point){10, -3}, (sw_vertex){5, 0, 1}, (sw_point){-5, 0}, at);
    sw_true(t, n == 0);
}

static void two_circles_cross_where_both_radii_say(sw_test *t)
{
    sw_point at[2];
    size_t n =
        sw_segment_crossings((sw_vertex){5, 0, 1}, (sw_point){-5, 0}, (sw_vertex){11, 0, 1}, (sw_point){1, 0}, at);
    sw_true(t, n == 1);
    sw_near(t, at[0].x_mm, 3.0, 1e-12, "derived: radii 5, centres 6 apart");
    sw_near(t, at[0].y_mm, 4.0, 1e-12, "derived: radii 5, centres 6 apart");
}

static void overlapping_segments_report_their_shared_ends(sw_test *t)
{
    sw_point at[2];
    sw_true(t, sw_segment_crossings((sw_vertex){0, 0, 0}, (sw_point){10, 0}, (sw_vertex){15, 0, 0}, (sw_point){4, 0},
                                    at) == 2);
    sw_near(t, fmin(at[0].x_mm, at[1].x_mm), 4.0, 0.0, "derived");
    sw_near(t, fmax(at[0].x_mm, at[1].x_mm), 10.0, 0.0, "derived");
    sw_vertex quarter = {0, 5, tan(SW_PI / 8.0)};
    sw_true(t, sw_segment_crossings((sw_vertex){5, 0, 1}, (sw_point){-5, 0}, quarter, (sw_point){-5, 0}, at) == 2);
}

static void tangents_touch_once(sw_test *t)
{
    sw_point at[2];
    sw_true(t, sw_segment_crossings((sw_vertex){-9, 5, 0}, (sw_point){9, 5}, (sw_vertex){5, 0, 1}, (sw_point){-5, 0},
                                    at) == 1);
    sw_near(t, at[0].x_mm, 0.0, 1e-5, "derived: tangent point, ill-conditioned along the line");
    sw_true(t, sw_segment_crossings((sw_vertex){-9, 5.001, 0}, (sw_point){9, 5.001}, (sw_vertex){5, 0, 1},
                                    (sw_point){-5, 0}, at) == 0);
}

/* Each reported crossing lies on both curves, and swapping the curves or their direction changes nothing. */
static void crossings_lie_on_both_and_do_not_depend_on_order(sw_test *t)
{
    sw_random random = sw_random_seeded(7);
    size_t found = 0;
    for (int k = 0; k < 2000; k++) {
        double q[10];
        for (int i = 0; i < 10; i++) q[i] = sw_random_between(&random, -50.0, 50.0);
        sw_vertex a = {q[0], q[1], k % 3 == 0 ? 0.0 : q[8] / 25.0}, b = {q[4], q[5], k % 5 == 0 ? 0.0 : q[9] / 25.0};
        sw_point a_to = {q[2], q[3]}, b_to = {q[6], q[7]}, at[2], other[2];
        size_t n = sw_segment_crossings(a, a_to, b, b_to, at);
        sw_vertex back = {b_to.x_mm, b_to.y_mm, -b.bulge};
        size_t m = sw_segment_crossings(back, (sw_point){b.x_mm, b.y_mm}, a, a_to, other);
        found += n;
        if (!sw_true(t, n == m)) return;
        for (size_t i = 0; i < n; i++) {
            const sw_vertex one[2] = {a, {a_to.x_mm, a_to.y_mm, -a.bulge}},
                            two[2] = {b, {b_to.x_mm, b_to.y_mm, -b.bulge}};
            bool held =
                sw_near(t, sw_contour_distance((sw_contour){one, 2}, at[i]), 0.0, 1e-8, "derived: on the first");
            if (!sw_near(t, sw_contour_distance((sw_contour){two, 2}, at[i]), 0.0, 1e-8, "derived: on the second") ||
                !held)
                return;
        }
    }
    sw_true(t, found > 500);
}

static void distances_have_their_closed_forms(sw_test *t)
{
    sw_contour a, b, box;
    sw_ok(t, sw_contour_circle(&t->run, (sw_point){0.0, 0.0}, 10.0, &a));
    sw_ok(t, sw_contour_circle(&t->run, (sw_point){30.0, 40.0}, 15.0, &b));
    sw_ok(t, sw_contour_rectangle(&t->run, (sw_box){20.0, -30.0, 40.0, 30.0}, 0.0, &box));
    sw_near(t, sw_contours_distance(a, b), 25.0, 1e-12, "derived: 50 - 10 - 15");
    sw_near(t, sw_contours_distance(a, box), 10.0, 1e-12, "derived");
    sw_near(t, sw_contours_distance(b, box), 0.0, 0.0, "derived: they cross");
    sw_ok(t, sw_contour_circle(&t->run, (sw_point){2.0, 0.0}, 3.0, &b));
    sw_near(t, sw_contours_distance(a, b), 5.0, 1e-12, "derived: one in the other, 10 - 3 - 2");
    sw_near(t, sw_contour_distance(a, (sw_point){0.0, 0.0}), 10.0, 0.0, "derived: centre");
}

/* Against the least distance of many points of one to the other. */
static void distances_agree_with_sampling(sw_test *t)
{
    for (uint64_t seed = 1; seed <= 60; seed++) {
        t->seed = seed;
        sw_contour a = gen_contour(&t->run, seed), raw = gen_contour(&t->run, seed + 1000), b;
        sw_motion away = {.turn_rad = (double)seed, .dx_mm = 150.0 + (double)(seed % 7) * 40.0, .dy_mm = 60.0};
        sw_ok(t, sw_contour_moved(&t->run, raw, away, &b));
        double got = sw_contours_distance(a, b), least = (double)INFINITY;
        for (size_t i = 0; i < b.n; i++) {
            sw_vertex next = b.v[(i + 1) % b.n];
            for (int k = 0; k < 40; k++)
                least =
                    fmin(least,
                         sw_contour_distance(a, sw_segment_point(b.v[i], (sw_point){next.x_mm, next.y_mm}, k / 40.0)));
        }
        bool held = sw_true(t, got <= least + 1e-9);
        if (!sw_true(t, least <= got + 2.0) || !held) return; /* points are at most 4 mm apart */
        if (!sw_near(t, sw_contours_distance(b, a), got, 1e-9, "derived: symmetry")) return;
    }
}

SW_TESTS(SW_CASE(a_line_through_a_circle_crosses_it_twice), SW_CASE(two_circles_cross_where_both_radii_say),
         SW_CASE(overlapping_segments_report_their_shared_ends), SW_CASE(tangents_touch_once),
         SW_CASE(crossings_lie_on_both_and_do_not_depend_on_order), SW_CASE(distances_have_their_closed_forms),
         SW_CASE(distances_agree_with_sampling))
