/* Overlap and buffer through GEOS, and areas compared with GEOS. */
#include "gen.h"
#include "sw_test.h"

#include <math.h>
#include <string.h>

static void overlaps_of_rectangles_have_their_closed_form(sw_test *t)
{
    sw_contour a, b;
    double area;
    sw_ok(t, sw_contour_rectangle(&t->run, (sw_box){0.0, 0.0, 100.0, 60.0}, 0.0, &a));
    sw_ok(t, sw_contour_rectangle(&t->run, (sw_box){80.0, 50.0, 200.0, 90.0}, 0.0, &b));
    sw_region p = {.outline = a}, q = {.outline = b};
    sw_ok(t, sw_geos_overlap_area(&t->run, &p, &q, 0.01, &area));
    sw_near(t, area, 200.0, 1e-9, "derived: 20 x 10");
}

static void a_piece_in_the_hole_of_another_does_not_overlap(sw_test *t)
{
    sw_contour outline, circle, hole, small;
    double area;
    sw_ok(t, sw_contour_rectangle(&t->run, (sw_box){0.0, 0.0, 100.0, 60.0}, 0.0, &outline));
    sw_ok(t, sw_contour_circle(&t->run, (sw_point){50.0, 30.0}, 20.0, &circle));
    sw_ok(t, sw_contour_reversed(&t->run, circle, &hole));
    sw_ok(t, sw_contour_circle(&t->run, (sw_point){50.0, 30.0}, 19.0, &small));
    sw_region r = {outline, &hole, 1}, q = {.outline = small};
    sw_ok(t, sw_geos_overlap_area(&t->run, &r, &q, 0.01, &area));
    sw_near(t, area, 0.0, 0.0, "derived: apart");
}

/* A contour with itself: what GEOS measures is our area, up to the chords. */
static void areas_agree_with_geos(sw_test *t)
{
    for (uint64_t seed = 1; seed <= 100; seed++) {
        t->seed = seed;
        sw_contour c = gen_contour(&t->run, seed);
        sw_region r = {.outline = c};
        double area, error_mm = 1e-3;
        sw_ok(t, sw_geos_overlap_area(&t->run, &r, &r, error_mm, &area));
        if (!sw_near(t, area, sw_contour_area(c), error_mm * sw_contour_length(c), "GEOS on chords of 1e-3 mm")) return;
    }
}

static void overlaps_vanish_exactly_when_contours_are_apart(sw_test *t)
{
    size_t apart = 0;
    for (uint64_t seed = 1; seed <= 100; seed++) {
        t->seed = seed;
        sw_random random = sw_random_seeded(seed);
        sw_contour a = gen_contour(&t->run, seed), raw = gen_contour(&t->run, seed + 500), b;
        sw_motion m = {.turn_rad = sw_random_between(&random, 0.0, 6.0),
                       .dx_mm = sw_random_between(&random, 0.0, 260.0)};
        sw_ok(t, sw_contour_moved(&t->run, raw, m, &b));
        sw_region p = {.outline = a}, q = {.outline = b};
        double area, gap = sw_contours_distance(a, b);
        sw_ok(t, sw_geos_overlap_area(&t->run, &p, &q, 1e-3, &area));
        bool outside = gap > 0.0 && sw_contour_side(a, (sw_point){b.v[0].x_mm, b.v[0].y_mm}) < 0 &&
                       sw_contour_side(b, (sw_point){a.v[0].x_mm, a.v[0].y_mm}) < 0;
        apart += outside ? 1 : 0;
        if (outside && gap > 2e-3 && !sw_near(t, area, 0.0, 0.0, "our distance says apart")) return;
        if (!outside && !sw_true(t, area > 0.0)) return;
    }
    t->seed = 0;
    sw_true(t, apart > 10 && apart < 90);
}

static void a_buffer_keeps_holes_and_splits(sw_test *t)
{
    sw_contour outline, circle, hole;
    const sw_region *parts;
    size_t n;
    sw_ok(t, sw_contour_rectangle(&t->run, (sw_box){0.0, 0.0, 100.0, 60.0}, 0.0, &outline));
    sw_ok(t, sw_contour_circle(&t->run, (sw_point){30.0, 30.0}, 20.0, &circle));
    sw_ok(t, sw_contour_reversed(&t->run, circle, &hole));
    sw_region r = {outline, &hole, 1};
    sw_ok(t, sw_geos_buffer(&t->run, &r, 2.0, 1e-3, &parts, &n));
    sw_true(t, n == 1 && parts[0].hole_count == 1);
    sw_near(t, sw_region_area(&parts[0]), 6000.0 + 640.0 + SW_PI * 4.0 - SW_PI * 324.0, 1.0,
            "derived, chords of 1e-3 mm");
    sw_true(t, sw_contour_area(parts[0].outline) > 0.0 && sw_contour_area(parts[0].holes[0]) < 0.0);
    sw_ok(t, sw_geos_buffer(&t->run, &r, -40.0, 1e-3, &parts, &n));
    sw_true(t, n == 0);
}

static void an_unsound_region_is_refused_with_the_reason(sw_test *t)
{
    const sw_vertex bow[4] = {{0, 0, 0}, {10, 10, 0}, {10, 0, 0}, {0, 10, 0}}, line[2] = {{0, 0, 0}, {5, 5, 0}};
    sw_region r = {.outline = {bow, 4}}, thin = {.outline = {line, 2}};
    double area;
    sw_true(t, sw_geos_overlap_area(&t->run, &r, &r, 0.01, &area) == SW_INTERNAL);
    sw_contains(t, t->run.errors[0].text, "Self-intersection");
    sw_true(t, sw_geos_overlap_area(&t->run, &thin, &thin, 0.01, &area) == SW_BAD_INPUT);
    sw_contains(t, t->run.errors[1].text, "at least 3 are needed");
}

SW_TESTS(SW_CASE(overlaps_of_rectangles_have_their_closed_form),
         SW_CASE(a_piece_in_the_hole_of_another_does_not_overlap), SW_CASE(areas_agree_with_geos),
         SW_CASE(overlaps_vanish_exactly_when_contours_are_apart), SW_CASE(a_buffer_keeps_holes_and_splits),
         SW_CASE(an_unsound_region_is_refused_with_the_reason))
