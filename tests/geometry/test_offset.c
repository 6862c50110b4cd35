/* Parallels: closed forms, round trips, agreement with GEOS and with counting points. */
#include "gen.h"
#include "sw_test.h"

#include <math.h>

static double total_area(const sw_contour *c, size_t n)
{
    double area = 0.0;
    for (size_t i = 0; i < n; i++) area += sw_contour_area(c[i]);
    return area;
}

static double offset_area(sw_test *t, sw_contour c, double distance_mm, size_t *count)
{
    const sw_contour *out;
    sw_ok(t, sw_contour_offset(&t->run, c, distance_mm, true, &out, count));
    return total_area(out, *count);
}

static void a_grown_convex_contour_follows_steiner(sw_test *t)
{
    for (uint64_t seed = 1; seed <= 100; seed++) {
        t->seed = seed;
        size_t n;
        double d = 0.1 + (double)(seed % 40);
        sw_contour c = gen_convex(&t->run, seed, 3 + seed % 9, 100.0);
        double want = sw_contour_area(c) + sw_contour_length(c) * d + SW_PI * d * d;
        if (!sw_near(t, offset_area(t, c, d, &n), want, 1e-8 * want, "Steiner's formula A + L d + pi d^2")) return;
        if (!sw_true(t, n == 1)) return;
    }
}

static void a_rounded_convex_contour_comes_back(sw_test *t)
{
    for (uint64_t seed = 1; seed <= 100; seed++) {
        t->seed = seed;
        const sw_contour *grown, *back;
        size_t n, m;
        double d = 0.5 + (double)(seed % 17);
        sw_contour c = gen_convex(&t->run, seed, 4 + seed % 9, 80.0);
        sw_ok(t, sw_contour_offset(&t->run, c, d, true, &grown, &n));
        sw_ok(t, sw_contour_offset(&t->run, grown[0], -d, true, &back, &m));
        if (!sw_true(t, n == 1 && m == 1 && back[0].n == c.n)) return;
        if (!sw_near(t, sw_contour_area(back[0]), sw_contour_area(c), 1e-6, "derived: out and back")) return;
        if (!sw_near(t, sw_contour_length(back[0]), sw_contour_length(c), 1e-6, "derived: out and back")) return;
    }
}

static void circles_and_slots_grow_and_vanish(sw_test *t)
{
    sw_contour circle, slot, hole;
    size_t n;
    sw_ok(t, sw_contour_circle(&t->run, (sw_point){3.0, 4.0}, 10.0, &circle));
    sw_ok(t, sw_contour_slot(&t->run, (sw_point){0.0, 0.0}, (sw_point){30.0, 0.0}, 10.0, &slot));
    sw_ok(t, sw_contour_reversed(&t->run, circle, &hole));
    sw_near(t, offset_area(t, circle, 2.0, &n), SW_PI * 144.0, 1e-9, "derived: pi (r + d)^2");
    sw_near(t, offset_area(t, circle, -4.0, &n), SW_PI * 36.0, 1e-9, "derived: pi (r - d)^2");
    sw_near(t, offset_area(t, circle, -10.0, &n), 0.0, 0.0, "derived: nothing is left");
    sw_near(t, offset_area(t, circle, -17.0, &n), 0.0, 0.0, "derived: nothing is left");
    sw_near(t, offset_area(t, slot, 1.0, &n), 30.0 * 12.0 + SW_PI * 36.0, 1e-9, "derived: obround");
    sw_near(t, offset_area(t, slot, -5.0, &n), 0.0, 0.0, "derived: nothing is left");
    sw_near(t, offset_area(t, hole, 0.15, &n), -SW_PI * 9.85 * 9.85, 1e-9,
            "derived: a hole's kerf path lies inside it");
    sw_near(t, offset_area(t, hole, -3.0, &n), -SW_PI * 169.0, 1e-9, "derived: pi (r + d)^2");
}

static void corners_stay_sharp_up_to_the_mitre_limit(sw_test *t)
{
    const sw_vertex square[4] = {{0, 0, 0}, {20, 0, 0}, {20, 20, 0}, {0, 20, 0}};
    const sw_vertex needle[3] = {{0, 0, 0}, {100, 0, 0}, {100, 10, 0}};
    const sw_contour *out;
    size_t n;
    sw_ok(t, sw_contour_offset(&t->run, (sw_contour){square, 4}, 3.0, false, &out, &n));
    sw_true(t, n == 1 && out[0].n == 4);
    sw_near(t, sw_contour_area(out[0]), 26.0 * 26.0, 1e-9, "derived: (a + 2 d)^2");
    sw_ok(t, sw_contour_offset(&t->run, (sw_contour){needle, 3}, 3.0, false, &out, &n));
    sw_near(t, sw_contour_box(out[0]).x0_mm, -3.0, 1e-9, "derived: the needle's tip is rounded, not 60 mm long");
}

static void a_dumbbell_falls_into_two_parts(sw_test *t)
{
    const sw_vertex v[12] = {{0, 0, 0},    {30, 0, 0},  {30, 12, 0}, {60, 12, 0}, {60, 0, 0},  {100, 0, 0},
                             {100, 30, 0}, {60, 30, 0}, {60, 18, 0}, {30, 18, 0}, {30, 30, 0}, {0, 30, 0}};
    sw_contour c = {v, 12};
    const sw_contour *out;
    size_t n;
    sw_ok(t, sw_contour_offset(&t->run, c, -4.0, true, &out, &n));
    sw_true(t, n == 2);
    double mouth =
        2.0 * (12.0 - 0.5 * (3.0 * sqrt(7.0) + 16.0 * asin(0.75))); /* into the neck, at 4 from its corners */
    sw_near(t, sw_contour_area(out[0]), 32.0 * 22.0 + mouth, 1e-9, "derived: larger first");
    sw_near(t, sw_contour_area(out[1]), 22.0 * 22.0 + mouth, 1e-9, "derived");
    double corner = (1.0 - 0.25 * SW_PI) * 9.0;
    sw_near(t, offset_area(t, c, -3.0, &n), 34.0 * 24.0 + 24.0 * 24.0 + 4.0 * corner, 1e-9,
            "derived: a neck of no width is dropped");
    sw_true(t, n == 2);
    corner = (1.0 - 0.25 * SW_PI) * 4.0;
    sw_near(t, offset_area(t, c, -2.0, &n), 36.0 * 26.0 + 26.0 * 26.0 + 34.0 * 2.0 + 4.0 * corner, 1e-9,
            "derived: the neck holds");
    sw_true(t, n == 1);
}

/* A half round notch of radius 8 in the top edge, walls grown by d: the notch keeps a half circle of 8 - d with
 * the corners of its mouth rounded by d; from d = 8 on it is closed to a straight dip between two rounds. */
static void a_notch_closes_when_the_distance_passes_its_radius(sw_test *t)
{
    const sw_vertex v[6] = {{0, 0, 0}, {60, 0, 0}, {60, 30, 0}, {38, 30, -1}, {22, 30, 0}, {0, 30, 0}};
    sw_contour c = {v, 6};
    const sw_contour *out;
    size_t n;
    sw_near(t, sw_contour_area(c), 1800.0 - SW_PI * 32.0, 1e-9, "derived");
    double walls = 180.0 * 2.0 - 16.0 * 2.0 + SW_PI * 4.0, mouth = SW_PI * 4.0 * 0.5;
    double notch = SW_PI * (64.0 - 36.0) * 0.5;
    sw_near(t, offset_area(t, c, 2.0, &n), sw_contour_area(c) + walls + mouth + notch, 1e-9, "derived: ring by ring");
    sw_ok(t, sw_contour_offset(&t->run, c, 10.0, true, &out, &n));
    sw_near(t, sw_contour_distance(out[0], (sw_point){30.0, 30.0}), 6.0, 1e-9,
            "derived: rounds of 10 about (22, 30), (38, 30)");
    sw_true(t, n == 1);
}

static void every_point_of_a_parallel_is_at_the_distance(sw_test *t)
{
    for (uint64_t seed = 1; seed <= 100; seed++) {
        t->seed = seed;
        sw_random random = sw_random_seeded(seed);
        sw_contour c = gen_contour(&t->run, seed);
        double d = sw_random_between(&random, -25.0, 25.0);
        const sw_contour *out;
        size_t n;
        sw_ok(t, sw_contour_offset(&t->run, c, d, true, &out, &n));
        for (size_t i = 0; i < n; i++) {
            for (size_t k = 0; k < out[i].n; k++) {
                sw_vertex next = out[i].v[(k + 1) % out[i].n];
                sw_point p = sw_segment_point(out[i].v[k], (sw_point){next.x_mm, next.y_mm}, 0.3);
                if (!sw_near(t, sw_contour_distance(c, p), fabs(d), 2e-6, "definition of a parallel")) return;
                if (!sw_true(t, sw_contour_side(c, p) == (d > 0.0 ? -1 : 1))) return;
            }
        }
    }
}

static void parallels_have_no_faults(sw_test *t)
{
    for (uint64_t seed = 1; seed <= 100; seed++) {
        t->seed = seed;
        sw_random random = sw_random_seeded(seed + 77);
        const sw_contour *out;
        const char *fault;
        size_t n;
        sw_contour c = gen_contour(&t->run, seed);
        sw_ok(t, sw_contour_offset(&t->run, c, sw_random_between(&random, -25.0, 25.0), true, &out, &n));
        for (size_t i = 0; i < n; i++) {
            sw_ok(t, sw_contour_fault(&t->run, out[i], &fault));
            if (!sw_true(t, fault == NULL)) return;
            if (!sw_true(t, sw_contour_area(out[i]) > 0.0)) return;
        }
    }
}

/* GEOS drops hollows shallower than 1 % of the distance before it grows a polygon, hence the tolerance. */
static void parallels_agree_with_geos(sw_test *t)
{
    for (uint64_t seed = 1; seed <= 100; seed++) {
        t->seed = seed;
        sw_random random = sw_random_seeded(seed + 5);
        sw_contour c = gen_contour(&t->run, seed);
        double d = sw_random_between(&random, -20.0, 20.0), want = 0.0, length = sw_contour_length(c) + 7.0 * fabs(d);
        sw_region r = {.outline = c};
        const sw_region *parts;
        size_t n, m;
        sw_ok(t, sw_geos_buffer(&t->run, &r, d, 1e-3, &parts, &m));
        for (size_t i = 0; i < m; i++) want += sw_contour_area(parts[i].outline);
        bool held =
            sw_near(t, offset_area(t, c, d, &n), want, (2e-3 + 0.01 * fabs(d)) * length, "GEOS buffer on chords");
        if (!held) return;
    }
}

/* Straight contours have no shallow hollows: there the agreement is as good as the chords. */
static void parallels_of_straight_contours_agree_closely_with_geos(sw_test *t)
{
    for (uint64_t seed = 1; seed <= 100; seed++) {
        t->seed = seed;
        sw_contour c = gen_convex(&t->run, seed, 3 + seed % 10, 100.0);
        double d = -30.0 + (double)(seed % 61), length = sw_contour_length(c) + 7.0 * fabs(d), want = 0.0;
        sw_region r = {.outline = c};
        const sw_region *parts;
        size_t n, m;
        sw_ok(t, sw_geos_buffer(&t->run, &r, d, 1e-4, &parts, &m));
        for (size_t i = 0; i < m; i++) want += sw_contour_area(parts[i].outline);
        if (!sw_near(t, offset_area(t, c, d, &n), want, 1e-4 * length + 1e-9, "GEOS buffer on chords")) return;
    }
}

static void parallels_agree_with_counting_points(sw_test *t)
{
    for (uint64_t seed = 1; seed <= 9; seed++) {
        t->seed = seed;
        sw_contour c = gen_contour(&t->run, seed);
        double d = (double)(seed % 5) * -4.0 - 2.0, h = 0.75;
        sw_box box = sw_contour_box(c);
        size_t inside = 0, n;
        for (double x = box.x0_mm; x < box.x1_mm; x += h)
            for (double y = box.y0_mm; y < box.y1_mm; y += h)
                if (sw_contour_distance(c, (sw_point){x, y}) >= -d && sw_contour_side(c, (sw_point){x, y}) > 0)
                    inside++;
        double got = offset_area(t, c, d, &n);
        if (!sw_near(t, got, (double)inside * h * h, 0.12 * h * sw_contour_length(c), "points of a grid deep inside"))
            return;
    }
}

static void no_distance_gives_the_same_and_none_is_refused(sw_test *t)
{
    const sw_contour *out;
    size_t n;
    sw_contour c = gen_contour(&t->run, 5);
    sw_near(t, offset_area(t, c, 0.0, &n), sw_contour_area(c), 1e-9, "derived");
    sw_true(t, sw_contour_offset(&t->run, c, (double)NAN, true, &out, &n) == SW_OUT_OF_RANGE);
    sw_true(t, out == NULL && n == 0);
    sw_contains(t, t->run.errors[0].text, "give a finite distance");
}

/* A skyline on a lattice of 2 mm: parallels at whole and half millimetres make walls meet exactly, necks of no
 * width, arcs of no radius, and touch at single points. */
static sw_contour lattice_skyline(sw_run *run, uint64_t seed)
{
    sw_random random = sw_random_seeded(seed);
    size_t columns = 1 + sw_random_below(&random, 6), n = 2 * columns + 2, height = 2 + sw_random_below(&random, 8);
    sw_vertex *v = SW_KEEP(run, n, sw_vertex);
    double *radii_mm = SW_KEEP(run, n, double), x_mm = 0.0;
    if (v == NULL || radii_mm == NULL) return (sw_contour){0};
    for (size_t i = 0; i < columns; i++) {
        double next_mm = x_mm + 2.0 * (double)(1 + sw_random_below(&random, 5));
        v[n - 1 - 2 * i] = (sw_vertex){x_mm, 2.0 * (double)height, 0.0};
        v[n - 2 - 2 * i] = (sw_vertex){next_mm, 2.0 * (double)height, 0.0};
        x_mm = next_mm;
        height = 2 + (height - 1 + sw_random_below(&random, 7)) % 8;
    }
    v[0] = (sw_vertex){0.0, 0.0, 0.0};
    v[1] = (sw_vertex){x_mm, 0.0, 0.0};
    for (size_t i = 0; i < n; i++) radii_mm[i] = 0.5 * (double)sw_random_below(&random, 3);
    sw_contour c = {v, n}, rounded;
    return sw_contour_rounded(run, c, radii_mm, &rounded) == SW_OK ? rounded : (sw_contour){0};
}

static bool parts_are_sound(sw_test *t, sw_contour c, double d, bool round)
{
    const sw_contour *out;
    const char *fault;
    size_t n;
    if (!sw_ok(t, sw_contour_offset(&t->run, c, d, round, &out, &n))) return false;
    for (size_t i = 0; i < n; i++) {
        sw_ok(t, sw_contour_fault(&t->run, out[i], &fault));
        if (fault != NULL && !sw_same_text(t, fault, "(none)")) return false;
    }
    return true;
}

static void walls_that_meet_exactly_do_no_harm(sw_test *t)
{
    for (uint64_t seed = 1; seed <= 60; seed++) {
        t->seed = seed;
        sw_contour c = lattice_skyline(&t->run, seed);
        if (c.n == 0) continue;
        for (int k = -8; k <= 8; k++) {
            if (!parts_are_sound(t, c, 0.5 * k, true) || !parts_are_sound(t, c, 0.5 * k, false)) return;
        }
    }
}

/* Contours that cross themselves have no parallel worth the name; asking for one must end in an answer or an error. */
static void unsound_contours_end_in_an_answer_or_an_error(sw_test *t)
{
    for (uint64_t seed = 1; seed <= 60; seed++) {
        t->seed = seed;
        sw_random random = sw_random_seeded(seed);
        sw_vertex v[9];
        const sw_contour *out;
        size_t n;
        for (size_t i = 0; i < 9; i++) {
            v[i].x_mm = 5.0 * (double)sw_random_below(&random, 8);
            v[i].y_mm = 5.0 * (double)sw_random_below(&random, 8);
            v[i].bulge = sw_random_below(&random, 2) == 0 ? 0.0 : sw_random_between(&random, -2.0, 2.0);
        }
        sw_status status = sw_contour_offset(&t->run, (sw_contour){v, 9}, sw_random_between(&random, -9.0, 9.0),
                                             seed % 2 == 0, &out, &n);
        if (!sw_true(t, status == SW_OK || status == SW_INTERNAL)) return;
        sw_run_clear_errors(&t->run);
    }
}

static void far_coordinates_cost_no_accuracy(sw_test *t)
{
    for (uint64_t seed = 1; seed <= 40; seed++) {
        t->seed = seed;
        sw_contour c = gen_contour(&t->run, seed), far;
        size_t n, m;
        sw_ok(t, sw_contour_moved(&t->run, c, (sw_motion){.dx_mm = 16384.0, .dy_mm = -16384.0}, &far));
        double here = offset_area(t, c, -3.0, &n), there = offset_area(t, far, -3.0, &m);
        if (!sw_true(t, n == m) ||
            !sw_near(t, there, here, 10.0 * SW_SAME_POINT_MM, "invariance, ends off by the same-point tolerance"))
            return;
    }
}

SW_TESTS(SW_CASE(a_grown_convex_contour_follows_steiner), SW_CASE(a_rounded_convex_contour_comes_back),
         SW_CASE(circles_and_slots_grow_and_vanish), SW_CASE(corners_stay_sharp_up_to_the_mitre_limit),
         SW_CASE(a_dumbbell_falls_into_two_parts), SW_CASE(a_notch_closes_when_the_distance_passes_its_radius),
         SW_CASE(every_point_of_a_parallel_is_at_the_distance), SW_CASE(parallels_have_no_faults),
         SW_CASE(parallels_agree_with_geos), SW_CASE(parallels_of_straight_contours_agree_closely_with_geos),
         SW_CASE(parallels_agree_with_counting_points), SW_CASE(no_distance_gives_the_same_and_none_is_refused),
         SW_CASE(walls_that_meet_exactly_do_no_harm), SW_CASE(unsound_contours_end_in_an_answer_or_an_error),
         SW_CASE(far_coordinates_cost_no_accuracy))
