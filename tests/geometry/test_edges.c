/* Prepared edges answer as the contours they were made from, looked at one segment after the other. */
#include "gen.h"
#include "sw_test.h"

#include <math.h>

enum { SEEDS = 60, POINTS = 40 };

/* A plate of random shape with up to 3 holes that lie within its kernel, apart from each other. */
static sw_region plate(sw_test *t, uint64_t seed)
{
    sw_region r = {.outline = gen_contour(&t->run, seed), .hole_count = seed % 3 == 2 ? 0 : (size_t)(seed % 4)};
    sw_contour *holes = SW_KEEP(&t->run, 3, sw_contour);
    for (size_t h = 0; h < r.hole_count; h++) {
        sw_contour star =
            gen_bowed_star(&t->run, seed + 1000 * (h + 1), 5, (sw_point){9.0 * (double)h - 9.0, 0.0}, 3.5);
        sw_ok(t, sw_contour_reversed(&t->run, star, &holes[h]));
    }
    r.holes = holes;
    return r;
}

static const sw_edges *prepared(sw_test *t, const sw_region *r)
{
    const sw_edges *e = NULL;
    sw_ok(t, sw_edges_of_region(&t->run, t->run.keep, r, &e));
    return e;
}

static sw_point random_point(sw_random *random)
{
    return (sw_point){sw_random_between(random, -110.0, 130.0), sw_random_between(random, -110.0, 130.0)};
}

static double distance_one_by_one(const sw_region *r, sw_point p)
{
    double least_mm = sw_contour_distance(r->outline, p);
    for (size_t h = 0; h < r->hole_count; h++) least_mm = fmin(least_mm, sw_contour_distance(r->holes[h], p));
    return least_mm;
}

static void distance_and_side_are_those_of_the_region(sw_test *t)
{
    for (uint64_t seed = 1; seed <= SEEDS; seed++) {
        t->seed = seed;
        sw_region r = plate(t, seed);
        const sw_edges *e = prepared(t, &r);
        sw_random random = sw_random_seeded(seed);
        for (int i = 0; i < POINTS; i++) {
            sw_point p = random_point(&random);
            double want_mm = distance_one_by_one(&r, p), most_mm = sw_random_between(&random, 0.0, 60.0);
            if (!sw_near(t, sw_edges_distance(e, p, INFINITY), want_mm, 1e-12, "one segment after the other")) return;
            if (!sw_near(t, sw_edges_distance(e, p, most_mm), fmin(want_mm, most_mm), 1e-12, "capped")) return;
            if (!sw_true(t, sw_edges_side(e, p) == sw_region_side(&r, p))) return;
        }
    }
}

static void vertices_and_points_on_arcs_lie_on_the_edge(sw_test *t)
{
    for (uint64_t seed = 1; seed <= SEEDS; seed++) {
        t->seed = seed;
        sw_region r = plate(t, seed);
        const sw_edges *e = prepared(t, &r);
        for (size_t i = 0; i < r.outline.n; i++) {
            sw_vertex next = r.outline.v[(i + 1) % r.outline.n];
            sw_point middle = sw_segment_point(r.outline.v[i], (sw_point){next.x_mm, next.y_mm}, 0.5);
            if (!sw_true(t, sw_edges_side(e, (sw_point){next.x_mm, next.y_mm}) == 0)) return;
            if (!sw_true(t, sw_edges_side(e, middle) == 0)) return;
        }
    }
}

static void holes_may_run_either_way_round(sw_test *t)
{
    sw_contour outline, hole;
    sw_ok(t, sw_contour_rectangle(&t->run, (sw_box){0, 0, 100, 60}, 5, &outline));
    sw_ok(t, sw_contour_circle(&t->run, (sw_point){50, 30}, 10, &hole));
    sw_region r = {outline, &hole, 1};
    const sw_edges *e = prepared(t, &r);
    sw_true(t, sw_edges_side(e, (sw_point){50, 30}) == -1 && sw_edges_side(e, (sw_point){20, 30}) == 1);
    sw_true(t, sw_edges_side(e, (sw_point){60, 30}) == 0 && sw_edges_side(e, (sw_point){101, 30}) == -1);
}

/* A random line or arc between two points. */
static sw_vertex bowed(sw_random *random, sw_point from)
{
    double bulge = sw_random_below(random, 2) == 0 ? 0.0 : sw_random_between(random, -1.0, 1.0);
    return (sw_vertex){from.x_mm, from.y_mm, bulge};
}

static double least_by_sampling(const sw_region *r, sw_vertex from, sw_point to, int steps)
{
    double least_mm = INFINITY;
    for (int i = 0; i <= steps; i++)
        least_mm = fmin(least_mm, distance_one_by_one(r, sw_segment_point(from, to, (double)i / steps)));
    return least_mm;
}

/* Sampled at steps of d the least distance is at most d / 2 too large. */
static void clearance_agrees_with_sampling_along_the_segment(sw_test *t)
{
    size_t clear = 0, met = 0;
    for (uint64_t seed = 1; seed <= SEEDS; seed++) {
        t->seed = seed;
        sw_region r = plate(t, seed);
        const sw_edges *e = prepared(t, &r);
        sw_random random = sw_random_seeded(seed);
        for (int i = 0; i < 6; i++) {
            sw_point a = random_point(&random);
            sw_point b = {a.x_mm + sw_random_between(&random, -20, 20), a.y_mm + sw_random_between(&random, -20, 20)};
            sw_vertex from = bowed(&random, a);
            double sampled_mm = least_by_sampling(&r, from, b, 100), step_mm = sw_segment_length(from, b) / 100;
            if (!sw_true(t, !sw_edges_clear(e, from, b, sampled_mm + 1e-9))) return;
            if (sampled_mm > step_mm && !sw_true(t, sw_edges_clear(e, from, b, sampled_mm - step_mm))) return;
            clear += sampled_mm > 4.0;
            met += sampled_mm <= step_mm;
        }
    }
    t->seed = 0;
    sw_true(t, clear > 50 && met > 20);
}

static bool enters_by_sampling(const sw_region *r, sw_point a, sw_point b, double depth_mm)
{
    for (int i = 1; i < 400; i++) {
        sw_point p = {a.x_mm + (b.x_mm - a.x_mm) * i / 400, a.y_mm + (b.y_mm - a.y_mm) * i / 400};
        if (sw_region_side(r, p) > 0 && distance_one_by_one(r, p) > depth_mm) return true;
    }
    return false;
}

/* A point deeper inside than a hair lies in a stretch of two hairs at least; one that enters has an inner point. */
static void ways_that_run_inside_are_found(sw_test *t)
{
    const double hair_mm = 0.2;
    size_t entered = 0, passed = 0;
    for (uint64_t seed = 1; seed <= SEEDS; seed++) {
        t->seed = seed;
        sw_region r = plate(t, seed);
        const sw_edges *e = prepared(t, &r);
        sw_random random = sw_random_seeded(seed);
        for (int i = 0; i < 8; i++) {
            sw_point a = random_point(&random), b = random_point(&random);
            bool got = sw_edges_entered(e, a, b, hair_mm);
            if (!sw_true(t, got || !enters_by_sampling(&r, a, b, hair_mm))) return;
            if (!sw_true(t, !got || enters_by_sampling(&r, a, b, 0.0) || enters_by_sampling(&r, b, a, 0.0))) return;
            entered += got;
            passed += !got;
        }
    }
    t->seed = 0;
    sw_true(t, entered > 100 && passed > 50);
}

static void a_way_along_the_edge_or_through_a_corner_does_not_enter(sw_test *t)
{
    sw_contour square;
    sw_ok(t, sw_contour_rectangle(&t->run, (sw_box){0, 0, 100, 100}, 0, &square));
    sw_region r = {.outline = square};
    const sw_edges *e = prepared(t, &r);
    sw_true(t, !sw_edges_entered(e, (sw_point){-10, 0}, (sw_point){110, 0}, 0.2));
    sw_true(t, !sw_edges_entered(e, (sw_point){-50, 50}, (sw_point){50, -50}, 0.2));
    sw_true(t, !sw_edges_entered(e, (sw_point){-50, 50.1}, (sw_point){50.1, -50}, 0.2));
    sw_true(t, sw_edges_entered(e, (sw_point){-50, 51}, (sw_point){51, -50}, 0.2));
    sw_true(t, sw_edges_entered(e, (sw_point){-10, 100}, (sw_point){110, 99.5}, 0.2));
}

static void the_gap_of_two_is_the_least_of_all_their_contours(sw_test *t)
{
    for (uint64_t seed = 1; seed <= SEEDS; seed++) {
        t->seed = seed;
        sw_region a = plate(t, seed), b = plate(t, seed + 500), moved;
        sw_random random = sw_random_seeded(seed);
        sw_point by = {sw_random_between(&random, -300, 300), sw_random_between(&random, -300, 300)};
        sw_ok(t, sw_region_moved(&t->run, &b, (sw_motion){.dx_mm = by.x_mm, .dy_mm = by.y_mm}, &moved));
        double want_mm = sw_contours_distance(a.outline, moved.outline);
        for (size_t h = 0; h < a.hole_count; h++)
            want_mm = fmin(want_mm, sw_contours_distance(a.holes[h], moved.outline));
        for (size_t h = 0; h < moved.hole_count; h++) {
            want_mm = fmin(want_mm, sw_contours_distance(a.outline, moved.holes[h]));
            for (size_t g = 0; g < a.hole_count; g++)
                want_mm = fmin(want_mm, sw_contours_distance(a.holes[g], moved.holes[h]));
        }
        const sw_edges *ea = prepared(t, &a), *eb = prepared(t, &b);
        if (!sw_near(t, sw_edges_gap(ea, eb, by, INFINITY), want_mm, 1e-9, "one contour after the other")) return;
        if (!sw_near(t, sw_edges_gap(ea, eb, by, 20.0), fmin(want_mm, 20.0), 1e-9, "capped")) return;
    }
}

static void reach_is_that_of_the_farthest_point(sw_test *t)
{
    for (uint64_t seed = 1; seed <= SEEDS; seed++) {
        t->seed = seed;
        sw_region r = plate(t, seed);
        const sw_edges *e = prepared(t, &r);
        sw_point u = {cos((double)seed), sin((double)seed)};
        double sampled_mm = -INFINITY;
        for (size_t i = 0; i < r.outline.n; i++) {
            sw_vertex next = r.outline.v[(i + 1) % r.outline.n];
            for (int k = 0; k <= 200; k++) {
                sw_point p = sw_segment_point(r.outline.v[i], (sw_point){next.x_mm, next.y_mm}, k / 200.0);
                sampled_mm = fmax(sampled_mm, p.x_mm * u.x_mm + p.y_mm * u.y_mm);
            }
        }
        double got_mm = sw_edges_reach(e, u);
        if (!sw_true(t, got_mm >= sampled_mm - 1e-9 && got_mm <= sampled_mm + 0.02)) return;
    }
}

static void no_edges_are_far_from_everything(sw_test *t)
{
    const sw_edges *none = NULL;
    sw_ok(t, sw_edges_make(&t->run, t->run.scratch, NULL, 0, &none));
    sw_point p = {0, 0};
    sw_true(t, sw_edges_side(none, p) == -1 && sw_edges_distance(none, p, 7.0) == 7.0);
    sw_true(t, sw_edges_clear(none, (sw_vertex){0, 0, 1}, (sw_point){9, 9}, 100.0));
    sw_true(t, !sw_edges_entered(none, p, (sw_point){9, 9}, 0.1));
    sw_true(t, sw_edges_gap(none, none, p, 5.0) == 5.0);
}

SW_TESTS(SW_CASE(distance_and_side_are_those_of_the_region), SW_CASE(vertices_and_points_on_arcs_lie_on_the_edge),
         SW_CASE(holes_may_run_either_way_round), SW_CASE(clearance_agrees_with_sampling_along_the_segment),
         SW_CASE(ways_that_run_inside_are_found), SW_CASE(a_way_along_the_edge_or_through_a_corner_does_not_enter),
         SW_CASE(the_gap_of_two_is_the_least_of_all_their_contours), SW_CASE(reach_is_that_of_the_farthest_point),
         SW_CASE(no_edges_are_far_from_everything))
