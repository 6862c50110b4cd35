/* What makes contours and regions unusable is found and said. */
#include "gen.h"
#include "sw_test.h"

#include <math.h>

static const char *fault_of(sw_test *t, const sw_vertex *v, size_t n)
{
    const char *fault = NULL;
    sw_ok(t, sw_contour_fault(&t->run, (sw_contour){v, n}, &fault));
    return fault;
}

static void sound_contours_have_no_fault(sw_test *t)
{
    for (uint64_t seed = 1; seed <= 200; seed++) {
        t->seed = seed;
        const char *fault = NULL;
        sw_ok(t, sw_contour_fault(&t->run, gen_contour(&t->run, seed), &fault));
        if (!sw_true(t, fault == NULL)) return;
    }
}

static void a_bow_tie_is_found_with_its_crossing(sw_test *t)
{
    const sw_vertex v[4] = {{0, 0, 0}, {10, 10, 0}, {10, 0, 0}, {0, 10, 0}};
    sw_same_text(t, fault_of(t, v, 4), "edges 1 and 3 cross or touch at (5, 5)");
}

static void two_arcs_that_cross_are_found(sw_test *t)
{
    const sw_vertex v[4] = {{0, 0, -0.8}, {10, 0, 0}, {10, 3, -0.8}, {0, 3, 0}};
    sw_contains(t, fault_of(t, v, 4), "edges 1 and 3 cross");
}

static void a_doubled_vertex_is_an_edge_too_short(sw_test *t)
{
    const sw_vertex v[5] = {{0, 0, 0}, {10, 0, 0}, {10, 0, 0}, {10, 10, 0}, {0, 10, 0}};
    sw_contains(t, fault_of(t, v, 5), "edge 2 at (10, 0) is 0 mm long; at least 0.001 mm is needed");
    const sw_vertex near[4] = {{0, 0, 0}, {10, 0, 0}, {10, 5e-4, 0}, {0, 10, 0}};
    sw_contains(t, fault_of(t, near, 4), "edge 2");
}

static void numbers_that_are_none_are_found(sw_test *t)
{
    const sw_vertex nan[3] = {{0, 0, 0}, {10, (double)NAN, 0}, {0, 10, 0}},
                    inf[3] = {{0, 0, 0}, {10, 0, (double)INFINITY}, {0, 10, 0}};
    sw_contains(t, fault_of(t, nan, 3), "vertex 2 is not finite");
    sw_contains(t, fault_of(t, inf, 3), "vertex 2 is not finite");
}

static void too_few_vertices_are_found(sw_test *t)
{
    const sw_vertex v[2] = {{0, 0, 0}, {10, 0, 0}}, arc[2] = {{0, 0, 1}, {10, 0, 0}};
    sw_contains(t, fault_of(t, v, 0), "0 vertices enclose nothing");
    sw_contains(t, fault_of(t, v, 1), "1 vertices enclose nothing");
    sw_contains(t, fault_of(t, v, 2), "2 straight edges enclose nothing");
    sw_true(t, fault_of(t, arc, 2) == NULL);
}

static void edges_that_fold_back_touch(sw_test *t)
{
    const sw_vertex spike[5] = {{0, 0, 0}, {20, 0, 0}, {10, 0, 0}, {10, 20, 0}, {0, 20, 0}};
    sw_contains(t, fault_of(t, spike, 5), "edges 1 and 2 cross or touch at (10, 0)");
    const sw_vertex lens[2] = {{0, 0, 0.5}, {10, 0, -0.5}};
    sw_contains(t, fault_of(t, lens, 2), "no area");
}

static void a_vertex_on_another_edge_touches(sw_test *t)
{
    const sw_vertex v[5] = {{0, 0, 0}, {20, 0, 0}, {20, 10, 0}, {10, 0, 0}, {0, 10, 0}};
    sw_contains(t, fault_of(t, v, 5), "cross or touch at (10, 0)");
    const sw_vertex clear[5] = {{0, 0, 0}, {20, 0, 0}, {20, 10, 0}, {10, 1e-4, 0}, {0, 10, 0}};
    sw_true(t, fault_of(t, clear, 5) == NULL);
}

static void an_arc_that_bows_into_another_edge_touches(sw_test *t)
{
    const sw_vertex v[4] = {{0, 0, 0}, {40, 0, 0}, {40, 10, 0.9}, {0, 10, 0}};
    sw_true(t, fault_of(t, v, 4) == NULL);
    const sw_vertex in[4] = {{0, 0, 0}, {40, 0, 0}, {40, 10, -0.5}, {0, 10, 0}}; /* sagitta 10: just touches */
    sw_contains(t, fault_of(t, in, 4), "edges 1 and 3 cross or touch at (20, 0)");
}

/* Moving one vertex of a star across to the far side makes edges cross; the fault must be there exactly when
 * testing all pairs says so. */
static bool any_pair_crosses(sw_contour c)
{
    for (size_t i = 0; i < c.n; i++) {
        for (size_t k = i + 1; k < c.n; k++) {
            sw_vertex a = c.v[(i + 1) % c.n], b = c.v[(k + 1) % c.n];
            sw_point at[2];
            size_t n = sw_segment_crossings(c.v[i], (sw_point){a.x_mm, a.y_mm}, c.v[k], (sw_point){b.x_mm, b.y_mm}, at);
            bool neighbours = k == i + 1 || (i == 0 && k + 1 == c.n);
            if (n > (neighbours ? 1u : 0u)) return true;
        }
    }
    return false;
}

static void the_sweep_finds_what_testing_all_pairs_finds(sw_test *t)
{
    size_t crossing = 0;
    for (uint64_t seed = 1; seed <= 200; seed++) {
        t->seed = seed;
        sw_contour c = gen_bowed_star(&t->run, seed, 12, (sw_point){0.0, 0.0}, 100.0);
        sw_vertex v[12];
        for (size_t i = 0; i < 12; i++) v[i] = c.v[i];
        sw_random random = sw_random_seeded(seed);
        v[3].x_mm = sw_random_between(&random, -100.0, 100.0);
        v[3].y_mm = sw_random_between(&random, -100.0, 100.0);
        bool crosses = any_pair_crosses((sw_contour){v, 12});
        crossing += crosses ? 1 : 0;
        if (!sw_true(t, (fault_of(t, v, 12) != NULL) == crosses)) return;
    }
    t->seed = 0;
    sw_true(t, crossing > 50 && crossing < 195);
}

static sw_contour hole_at(sw_test *t, double x_mm, double y_mm, double radius_mm)
{
    sw_contour circle, hole;
    sw_ok(t, sw_contour_circle(&t->run, (sw_point){x_mm, y_mm}, radius_mm, &circle));
    sw_ok(t, sw_contour_reversed(&t->run, circle, &hole));
    return hole;
}

static const char *region_fault_with(sw_test *t, sw_contour first, sw_contour second)
{
    const char *fault = NULL;
    sw_contour outline;
    const sw_contour holes[2] = {first, second};
    sw_ok(t, sw_contour_rectangle(&t->run, (sw_box){0.0, 0.0, 100.0, 60.0}, 5.0, &outline));
    sw_region r = {outline, holes, 2};
    sw_ok(t, sw_region_fault(&t->run, &r, &fault));
    return fault;
}

static void holes_must_lie_inside_and_apart(sw_test *t)
{
    sw_contour good = hole_at(t, 30.0, 30.0, 8.0);
    sw_true(t, region_fault_with(t, good, hole_at(t, 60.0, 30.0, 8.0)) == NULL);
    sw_contains(t, region_fault_with(t, good, hole_at(t, 150.0, 30.0, 8.0)), "hole 2 at (158, 30) lies outside");
    sw_contains(t, region_fault_with(t, good, hole_at(t, 95.0, 30.0, 8.0)), "hole 2 crosses or touches the outline");
    sw_contains(t, region_fault_with(t, good, hole_at(t, 92.0, 30.0, 8.0)), "hole 2 crosses or touches the outline");
    sw_contains(t, region_fault_with(t, good, hole_at(t, 40.0, 30.0, 8.0)), "holes 1 and 2 cross or touch");
    sw_contains(t, region_fault_with(t, good, hole_at(t, 46.0, 30.0, 8.0)), "holes 1 and 2 cross or touch");
    sw_contains(t, region_fault_with(t, good, hole_at(t, 30.0, 30.0, 3.0)), "holes 1 and 2 lie in each other");
}

/* Whether every hole lies in the outline and in or on no other, one pair after the other. */
static bool all_apart(const sw_region *r)
{
    for (size_t h = 0; h < r->hole_count; h++) {
        sw_point p = {r->holes[h].v[0].x_mm, r->holes[h].v[0].y_mm};
        if (sw_contours_distance(r->outline, r->holes[h]) <= SW_SAME_POINT_MM) return false;
        if (sw_contour_side(r->outline, p) < 0) return false;
        for (size_t g = 0; g < r->hole_count; g++) {
            if (g == h) continue;
            if (sw_contours_distance(r->holes[g], r->holes[h]) <= SW_SAME_POINT_MM) return false;
            if (sw_contour_side(r->holes[g], p) > 0) return false;
        }
    }
    return true;
}

static void regions_are_sound_just_when_all_pairs_of_contours_are_apart(sw_test *t)
{
    size_t sound = 0;
    for (uint64_t seed = 1; seed <= 300; seed++) {
        t->seed = seed;
        sw_random random = sw_random_seeded(seed);
        sw_contour outline, holes[6];
        sw_ok(t, sw_contour_rectangle(&t->run, (sw_box){0.0, 0.0, 100.0, 60.0}, 5.0, &outline));
        sw_region r = {outline, holes, 1 + sw_random_below(&random, 6)};
        for (size_t h = 0; h < r.hole_count; h++)
            holes[h] = hole_at(t, sw_random_between(&random, 4.0, 98.0), sw_random_between(&random, 4.0, 58.0),
                               sw_random_between(&random, 0.5, 9.0));
        const char *fault = NULL;
        sw_ok(t, sw_region_fault(&t->run, &r, &fault));
        bool apart = all_apart(&r);
        sound += apart ? 1 : 0;
        if (!sw_true(t, (fault == NULL) == apart)) return;
    }
    t->seed = 0;
    sw_true(t, sound > 50 && sound < 250);
}

static void wrong_senses_are_found(sw_test *t)
{
    const char *fault = NULL;
    sw_contour outline, wrong, hole;
    sw_ok(t, sw_contour_rectangle(&t->run, (sw_box){0.0, 0.0, 100.0, 60.0}, 0.0, &outline));
    sw_ok(t, sw_contour_reversed(&t->run, outline, &wrong));
    sw_region backward = {.outline = wrong};
    sw_ok(t, sw_region_fault(&t->run, &backward, &fault));
    sw_contains(t, fault, "the outline runs clockwise");
    sw_ok(t, sw_contour_circle(&t->run, (sw_point){30.0, 30.0}, 5.0, &hole));
    sw_region r = {outline, &hole, 1};
    sw_ok(t, sw_region_fault(&t->run, &r, &fault));
    sw_contains(t, fault, "hole 1 runs counter-clockwise");
}

static void faults_of_parts_name_the_part(sw_test *t)
{
    const char *fault = NULL;
    const sw_vertex bow[4] = {{10, 10, 0}, {20, 20, 0}, {20, 10, 0}, {10, 20, 0}};
    sw_contour outline, hole = {bow, 4};
    sw_ok(t, sw_contour_rectangle(&t->run, (sw_box){0.0, 0.0, 100.0, 60.0}, 0.0, &outline));
    sw_region r = {outline, &hole, 1}, tie = {.outline = hole};
    sw_ok(t, sw_region_fault(&t->run, &r, &fault));
    sw_contains(t, fault, "hole 1: edges 1 and 3 cross");
    sw_ok(t, sw_region_fault(&t->run, &tie, &fault));
    sw_contains(t, fault, "outline: edges 1 and 3 cross");
}

SW_TESTS(SW_CASE(sound_contours_have_no_fault), SW_CASE(a_bow_tie_is_found_with_its_crossing),
         SW_CASE(two_arcs_that_cross_are_found), SW_CASE(a_doubled_vertex_is_an_edge_too_short),
         SW_CASE(numbers_that_are_none_are_found), SW_CASE(too_few_vertices_are_found),
         SW_CASE(edges_that_fold_back_touch), SW_CASE(a_vertex_on_another_edge_touches),
         SW_CASE(an_arc_that_bows_into_another_edge_touches), SW_CASE(the_sweep_finds_what_testing_all_pairs_finds),
         SW_CASE(holes_must_lie_inside_and_apart), SW_CASE(regions_are_sound_just_when_all_pairs_of_contours_are_apart),
         SW_CASE(wrong_senses_are_found), SW_CASE(faults_of_parts_name_the_part))
