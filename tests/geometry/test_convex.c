/* What is told by shape alone agrees with what crossing tests would find. */
#include "geometry/geometry.h"
#include "sw_test.h"

#include <math.h>
#include <string.h>

static const char *contour_fault(sw_test *t, sw_contour c)
{
    const char *fault = NULL;
    sw_ok(t, sw_contour_fault(&t->run, c, &fault));
    return fault;
}

static const char *region_fault(sw_test *t, sw_contour outline, const sw_contour *holes, size_t count)
{
    const char *fault = NULL;
    const sw_region r = {outline, holes, count};
    sw_ok(t, sw_region_fault(&t->run, &r, &fault));
    return fault;
}

static void a_square_run_round_twice_touches_itself(sw_test *t)
{
    const sw_vertex v[8] = {{0, 0, 0}, {9, 0, 0}, {9, 9, 0}, {0, 9, 0}, {0, 0, 0}, {9, 0, 0}, {9, 9, 0}, {0, 9, 0}};
    sw_contains(t, contour_fault(t, (sw_contour){v, 8}), "cross or touch");
}

static void an_eight_pointed_star_crosses_itself(sw_test *t)
{
    sw_vertex v[8];
    for (int i = 0; i < 8; i++) v[i] = (sw_vertex){9 * cos(i * 0.75 * SW_PI), 9 * sin(i * 0.75 * SW_PI), 0};
    sw_contains(t, contour_fault(t, (sw_contour){v, 8}), "cross or touch");
}

static void arcs_that_meet_their_opposites_are_found(sw_test *t)
{
    const sw_vertex v[4] = {{0, 0, 0}, {20, 0, -1}, {20, 8, 0}, {0, 8, -1}}; /* ends drawn in, no fault */
    sw_true(t, contour_fault(t, (sw_contour){v, 4}) == NULL);
    const sw_vertex w[4] = {{0, 0, 0}, {8, 0, -1}, {8, 8, 0}, {0, 8, -1}}; /* the half circles touch in the middle */
    sw_contains(t, contour_fault(t, (sw_contour){w, 4}), "cross or touch");
}

static void an_arc_back_over_its_own_line_is_found(sw_test *t)
{
    const sw_vertex v[4] = {{0, 0, 0}, {20, 0, 0.9}, {10, 0.001, 0}, {0, 10, 0}};
    sw_true(t, contour_fault(t, (sw_contour){v, 4}) == NULL);
    const sw_vertex w[4] = {{0, 0, 0}, {20, 0, 0.9}, {10, 0, 0}, {0, 10, 0}};
    sw_contains(t, contour_fault(t, (sw_contour){w, 4}), "cross or touch");
}

static void slots_and_rectangles_are_sound_at_any_turn(sw_test *t)
{
    sw_random random = sw_random_seeded(7);
    for (t->seed = 1; t->seed <= 300; t->seed++) {
        double a = sw_random_between(&random, 0.0, 2.0 * SW_PI), half_mm = sw_random_between(&random, 0.01, 900.0);
        sw_point to = {half_mm * cos(a), half_mm * sin(a)};
        sw_contour slot, rectangle;
        double width_mm = sw_random_between(&random, 0.01, 90.0);
        sw_ok(t, sw_contour_slot(&t->run, (sw_point){-to.x_mm, -to.y_mm}, to, width_mm, &slot));
        sw_box box = {0, 0, half_mm + 1.0, width_mm + 1.0};
        sw_ok(t, sw_contour_rectangle(&t->run, box, sw_random_between(&random, 0.01, 0.4), &rectangle));
        sw_ok(t, sw_contour_moved(&t->run, rectangle, (sw_motion){.turn_rad = a, .dx_mm = 50}, &rectangle));
        if (!sw_true(t, contour_fault(t, slot) == NULL && contour_fault(t, rectangle) == NULL)) return;
        if (!sw_true(t, region_fault(t, slot, NULL, 0) == NULL)) return;
        sw_ok(t, sw_contour_reversed(&t->run, slot, &slot));
        if (!sw_contains(t, region_fault(t, slot, NULL, 0), "the outline runs clockwise")) return;
    }
    t->seed = 0;
}

/* Round holes in a rectangle: by their centres and radii alone. */
static void round_holes_are_judged_as_by_centres_and_radii(sw_test *t)
{
    enum { HOLES = 5 };
    const sw_vertex v[4] = {{0, 0, 0}, {100, 0, 0}, {100, 60, 0}, {0, 60, 0}};
    sw_random random = sw_random_seeded(3);
    size_t sound = 0;
    for (t->seed = 1; t->seed <= 1000; t->seed++) {
        sw_contour holes[HOLES];
        sw_point at[HOLES];
        double radius_mm[HOLES];
        bool good = true;
        for (size_t i = 0; i < HOLES; i++) {
            at[i] = (sw_point){sw_random_between(&random, 0.0, 100.0), sw_random_between(&random, 2.0, 58.0)};
            double r = radius_mm[i] = sw_random_between(&random, 0.5, 5.0), x = at[i].x_mm, y = at[i].y_mm;
            good = good && x > r && x < 100.0 - r && y > r && y < 60.0 - r;
            for (size_t j = 0; j < i; j++) good = good && hypot(x - at[j].x_mm, y - at[j].y_mm) > r + radius_mm[j];
            sw_ok(t, sw_contour_circle(&t->run, at[i], r, &holes[i]));
            sw_ok(t, sw_contour_reversed(&t->run, holes[i], &holes[i]));
        }
        sound += good;
        if (!sw_true(t, (region_fault(t, (sw_contour){v, 4}, holes, HOLES) == NULL) == good)) return;
    }
    t->seed = 0;
    sw_true(t, sound > 100 && sound < 900);
}

static void a_hole_in_a_hole_and_one_outside_are_found(sw_test *t)
{
    const sw_vertex v[4] = {{0, 0, 0}, {100, 0, 0}, {100, 60, 0}, {0, 60, 0}};
    const sw_vertex large[4] = {{10, 10, 0}, {10, 50, 0}, {50, 50, 0}, {50, 10, 0}};
    const sw_vertex small[4] = {{20, 20, 0}, {20, 30, 0}, {30, 30, 0}, {30, 20, 0}};
    const sw_vertex away[4] = {{120, 20, 0}, {120, 30, 0}, {130, 30, 0}, {130, 20, 0}};
    const sw_contour nested[2] = {{large, 4}, {small, 4}}, outside[2] = {{large, 4}, {away, 4}};
    sw_same_text(t, region_fault(t, (sw_contour){v, 4}, nested, 2), "holes 1 and 2 lie in each other");
    sw_same_text(t, region_fault(t, (sw_contour){v, 4}, outside, 2), "hole 2 at (120, 20) lies outside the outline");
}

static void a_refused_allocation_ends_in_no_memory(sw_test *t)
{
    const sw_vertex v[6] = {{0, 0, 0}, {100, 0, 0}, {100, 60, 0}, {60, 60, 0}, {60, 30, 0}, {0, 30, 0}};
    const sw_vertex w[2] = {{20, 10, -1}, {30, 10, -1}};
    const sw_contour hole = {w, 2};
    const sw_region r = {{v, 6}, &hole, 1};
    for (size_t nth = 1; nth < 20; nth++) {
        const char *fault = NULL;
        sw_arena_fail_at(t->run.scratch, nth);
        sw_status status = sw_region_fault(&t->run, &r, &fault);
        sw_arena_fail_at(t->run.scratch, 0);
        if (status == SW_OK) {
            sw_true(t, nth > 4 && fault == NULL);
            return;
        }
        sw_true(t, status == SW_NO_MEMORY);
    }
    sw_true(t, !"never came to an end");
}

SW_TESTS(SW_CASE(a_square_run_round_twice_touches_itself), SW_CASE(an_eight_pointed_star_crosses_itself),
         SW_CASE(arcs_that_meet_their_opposites_are_found), SW_CASE(an_arc_back_over_its_own_line_is_found),
         SW_CASE(slots_and_rectangles_are_sound_at_any_turn), SW_CASE(round_holes_are_judged_as_by_centres_and_radii),
         SW_CASE(a_hole_in_a_hole_and_one_outside_are_found), SW_CASE(a_refused_allocation_ends_in_no_memory))
