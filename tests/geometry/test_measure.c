/* Areas, lengths, centroids, moments, boxes and sides of contours. */
#include "gen.h"
#include "sw_test.h"

#include <math.h>

static sw_contour of(const sw_vertex *v, size_t n)
{
    return (sw_contour){v, n};
}

static void a_quarter_arc_has_the_handbook_values(sw_test *t)
{
    sw_vertex from = {0.0, 0.0, tan(SW_PI / 8.0)};
    sw_point to = {10.0, 0.0};
    sw_arc arc = sw_segment_arc(from, to);
    const sw_vertex bow[2] = {{0.0, 0.0, tan(SW_PI / 8.0)}, {10.0, 0.0, 0.0}};
    const char *source = "handbook W4.4 (derived from the DXF reference, group 42)";
    sw_near(t, arc.radius_mm, 7.0711, 5e-5, source);
    sw_near(t, arc.centre.x_mm, 5.0, 1e-12, source);
    sw_near(t, arc.centre.y_mm, 5.0, 1e-12, source);
    sw_near(t, sw_segment_length(from, to), 11.1072, 5e-5, source);
    sw_near(t, -sw_segment_point(from, to, 0.5).y_mm, 2.0711, 5e-5, source);
    sw_near(t, sw_contour_area(of(bow, 2)), 14.2699, 5e-5, source);
}

static void a_half_circle_has_the_handbook_values(sw_test *t)
{
    const sw_vertex bow[2] = {{0.0, 0.0, 1.0}, {10.0, 0.0, 0.0}};
    const char *source = "handbook W4.4 (derived from the DXF reference, group 42)";
    sw_near(t, sw_segment_arc(bow[0], (sw_point){10.0, 0.0}).radius_mm, 5.0, 1e-12, source);
    sw_near(t, sw_segment_length(bow[0], (sw_point){10.0, 0.0}), 15.7080, 5e-5, source);
    sw_near(t, sw_contour_area(of(bow, 2)), 39.2699, 5e-5, source);
}

static void an_obround_has_the_handbook_area_and_length(sw_test *t)
{
    sw_contour slot;
    sw_ok(t, sw_contour_slot(&t->run, (sw_point){5.0, 5.0}, (sw_point){35.0, 5.0}, 10.0, &slot));
    sw_near(t, sw_contour_area(slot), 378.540, 5e-4, "handbook W4.4, obround 40 x 10");
    sw_near(t, sw_contour_length(slot), 91.416, 5e-4, "handbook W4.4, obround 40 x 10");
}

static void a_circle_has_its_closed_forms(sw_test *t)
{
    double r = 7.0, xx, yy, xy;
    sw_contour c;
    sw_ok(t, sw_contour_circle(&t->run, (sw_point){1000.0, -500.0}, r, &c));
    sw_region region = {.outline = c};
    sw_region_moments(&region, &xx, &yy, &xy);
    sw_near(t, sw_contour_area(c), SW_PI * r * r, 1e-10, "derived: pi r^2");
    sw_near(t, sw_contour_length(c), 2.0 * SW_PI * r, 1e-10, "derived: 2 pi r");
    sw_near(t, sw_contour_centroid(c).x_mm, 1000.0, 1e-9, "derived: centre");
    sw_near(t, sw_contour_centroid(c).y_mm, -500.0, 1e-9, "derived: centre");
    sw_near(t, xx, SW_PI * pow(r, 4.0) / 4.0, 1e-7, "derived: pi r^4 / 4");
    sw_near(t, yy, SW_PI * pow(r, 4.0) / 4.0, 1e-7, "derived: pi r^4 / 4");
    sw_near(t, xy, 0.0, 1e-7, "derived: symmetry");
}

static void a_rectangle_less_a_round_hole_has_its_closed_forms(sw_test *t)
{
    sw_contour outline, circle, hole;
    double xx, yy, xy, area = 60.0 * 40.0 - SW_PI * 25.0;
    sw_ok(t, sw_contour_rectangle(&t->run, (sw_box){-30.0, -20.0, 30.0, 20.0}, 0.0, &outline));
    sw_ok(t, sw_contour_circle(&t->run, (sw_point){10.0, 5.0}, 5.0, &circle));
    sw_ok(t, sw_contour_reversed(&t->run, circle, &hole));
    sw_region r = {outline, &hole, 1};
    sw_near(t, sw_region_area(&r), area, 1e-9, "derived: 60 x 40 - pi 5^2");
    sw_near(t, sw_region_length(&r), 200.0 + 10.0 * SW_PI, 1e-9, "derived: 2 (60 + 40) + 10 pi");
    sw_near(t, sw_region_centroid(&r).x_mm, -10.0 * SW_PI * 25.0 / area, 1e-9, "derived: first moments");
    sw_region_moments(&r, &xx, &yy, &xy);
    double hole_xx = SW_PI * 625.0 / 4.0 + SW_PI * 25.0 * 100.0, mean = -10.0 * SW_PI * 25.0 / area;
    sw_near(t, xx, 40.0 * pow(60.0, 3.0) / 12.0 - hole_xx - area * mean * mean, 1e-6, "derived: b h^3 / 12, Steiner");
    sw_near(t, xy, -SW_PI * 25.0 * 50.0 - area * mean * mean * 0.5, 1e-6, "derived: Steiner, centroid on y = x / 2");
}

/* Sheet uses such faces: there and back along one edge. */
static void two_straight_edges_enclose_nothing_and_are_twice_their_length(sw_test *t)
{
    const sw_vertex v[2] = {{3.0, 4.0, 0.0}, {6.0, 8.0, 0.0}};
    sw_near(t, sw_contour_area(of(v, 2)), 0.0, 0.0, "derived");
    sw_near(t, sw_contour_length(of(v, 2)), 10.0, 1e-12, "derived: 2 x 5 mm");
    sw_near(t, sw_contour_length(of(v, 1)), 0.0, 0.0, "header: n = 1 gives 0");
    sw_near(t, sw_contour_area(of(v, 0)), 0.0, 0.0, "header: n = 0 gives 0");
}

static void a_nearly_straight_arc_measures_as_its_chord(sw_test *t)
{
    const sw_vertex v[3] = {{0.0, 0.0, 1e-9}, {1000.0, 0.0, 0.0}, {500.0, 100.0, 0.0}};
    sw_near(t, sw_contour_area(of(v, 3)), 50000.0 + 1e-9 * 1e6 / 3.0, 1e-9,
            "derived: two thirds of sagitta b c / 2 times c");
    sw_near(t, sw_segment_length(v[0], (sw_point){1000.0, 0.0}), 1000.0, 1e-9, "derived");
}

static void measures_survive_any_motion(sw_test *t)
{
    for (uint64_t seed = 1; seed <= 150; seed++) {
        t->seed = seed;
        sw_contour c = gen_contour(&t->run, seed), moved;
        sw_random random = sw_random_seeded(seed);
        sw_motion m = {sw_random_between(&random, -7.0, 7.0), sw_random_between(&random, -1e4, 1e4), 77.0,
                       seed % 2 == 0};
        sw_ok(t, sw_contour_moved(&t->run, c, m, &moved));
        double area = sw_contour_area(c), length = sw_contour_length(c);
        sw_point centroid = sw_motion_point(m, sw_contour_centroid(c)), got = sw_contour_centroid(moved);
        bool held = sw_near(t, sw_contour_area(moved), area, 1e-9 * area, "invariance, sense kept under a mirror");
        held = sw_near(t, sw_contour_length(moved), length, 1e-9 * length, "invariance") && held;
        held = sw_near(t, hypot(centroid.x_mm - got.x_mm, centroid.y_mm - got.y_mm), 0.0, 1e-7, "invariance") && held;
        if (!held) return;
    }
}

static void a_moved_path_goes_through_the_moved_points(sw_test *t)
{
    const sw_vertex v[3] = {{1.0, 2.0, 0.5}, {4.0, -3.0, 0.0}, {9.0, 9.0, 0.0}};
    for (int k = 0; k < 8; k++) {
        sw_motion m = {0.9 * k, 20.0, -5.0, k % 2 == 1};
        sw_path moved;
        sw_ok(t, sw_path_moved(&t->run, (sw_path){v, 3}, m, &moved));
        for (size_t i = 0; i + 1 < 3; i++) {
            sw_point to = {v[i + 1].x_mm, v[i + 1].y_mm}, moved_to = {moved.v[i + 1].x_mm, moved.v[i + 1].y_mm};
            sw_point want = sw_motion_point(m, sw_segment_point(v[i], to, 0.3));
            sw_point got = sw_segment_point(moved.v[i], moved_to, 0.3);
            sw_near(t, hypot(want.x_mm - got.x_mm, want.y_mm - got.y_mm), 0.0, 1e-12, "invariance");
        }
    }
}

static void two_motions_are_one(sw_test *t)
{
    for (int k = 0; k < 16; k++) {
        sw_motion a = {0.3 + k, 5.0, -2.0, (k & 1) != 0}, b = {1.1 * k, -7.0, 11.0, (k & 2) != 0};
        sw_point p = {3.0, 8.0}, one = sw_motion_point(sw_motion_then(a, b), p);
        sw_point two = sw_motion_point(b, sw_motion_point(a, p));
        sw_near(t, hypot(one.x_mm - two.x_mm, one.y_mm - two.y_mm), 0.0, 1e-12, "derived: composition");
    }
}

static void exact_measures_are_the_limit_of_chords(sw_test *t)
{
    for (uint64_t seed = 1; seed <= 60; seed++) {
        t->seed = seed;
        sw_contour c = gen_contour(&t->run, seed), chords;
        sw_ok(t, sw_contour_flattened(&t->run, c, 1e-4, &chords));
        sw_region exact = {.outline = c}, flat = {.outline = chords};
        double length = sw_contour_length(c), size2 = length * length, a[3], b[3];
        sw_region_moments(&exact, &a[0], &a[1], &a[2]);
        sw_region_moments(&flat, &b[0], &b[1], &b[2]);
        bool held = sw_near(t, sw_contour_area(c), sw_contour_area(chords), 1e-4 * length, "chord error 1e-4 mm");
        held = sw_near(t, length, sw_contour_length(chords), 1e-5 * length, "chord error 1e-4 mm") && held;
        for (int k = 0; k < 3; k++) held = sw_near(t, a[k], b[k], 1e-4 * length * size2, "chord error 1e-4 mm") && held;
        if (!held) return;
    }
}

static void chords_stay_within_their_error_and_on_the_arc(sw_test *t)
{
    const double errors_mm[3] = {0.5, 0.01, 1e-4};
    sw_contour c, chords;
    sw_ok(t, sw_contour_circle(&t->run, (sw_point){0.0, 0.0}, 50.0, &c));
    for (int k = 0; k < 3; k++) {
        sw_ok(t, sw_contour_flattened(&t->run, c, errors_mm[k], &chords));
        sw_vertex a = chords.v[0], b = chords.v[1];
        double sagitta_mm = 50.0 - hypot(0.5 * (a.x_mm + b.x_mm), 0.5 * (a.y_mm + b.y_mm));
        sw_true(t, sagitta_mm <= errors_mm[k] * (1.0 + 1e-9) && sagitta_mm > 0.6 * errors_mm[k]);
        for (size_t i = 0; i < chords.n; i++)
            sw_near(t, hypot(chords.v[i].x_mm, chords.v[i].y_mm), 50.0, 1e-10, "derived: vertices on the arc");
    }
}

static void a_box_holds_the_bows_of_arcs(sw_test *t)
{
    const sw_vertex v[2] = {{0.0, 0.0, 1.0}, {10.0, 0.0, 0.2}};
    sw_box box = sw_contour_box(of(v, 2));
    sw_near(t, box.y0_mm, -5.0, 1e-12, "derived: radius 5");
    sw_near(t, box.y1_mm, 1.0, 1e-12, "derived: sagitta b c / 2");
    sw_near(t, box.x1_mm, 10.0, 1e-12, "derived");
    sw_box none = sw_contour_box(of(v, 0));
    sw_true(t, none.x0_mm > none.x1_mm);
}

/* Side by turning angles of fine chords: a second way. */
static int side_by_angles(sw_contour chords, sw_point p)
{
    double turn_rad = 0.0;
    for (size_t i = 0; i < chords.n; i++) {
        sw_vertex a = chords.v[i], b = chords.v[(i + 1) % chords.n];
        double ax = a.x_mm - p.x_mm, ay = a.y_mm - p.y_mm, bx = b.x_mm - p.x_mm, by = b.y_mm - p.y_mm;
        turn_rad += atan2(ax * by - ay * bx, ax * bx + ay * by);
    }
    return fabs(turn_rad) > SW_PI ? 1 : -1;
}

static void sides_agree_with_turning_angles(sw_test *t)
{
    for (uint64_t seed = 1; seed <= 60; seed++) {
        t->seed = seed;
        sw_contour c = gen_contour(&t->run, seed), chords;
        sw_random random = sw_random_seeded(seed);
        sw_box box = sw_contour_box(c);
        sw_ok(t, sw_contour_flattened(&t->run, c, 1e-3, &chords));
        for (int k = 0; k < 40; k++) {
            sw_point p = {sw_random_between(&random, box.x0_mm, box.x1_mm),
                          sw_random_between(&random, box.y0_mm, box.y1_mm)};
            if (k < 6) p.y_mm = c.v[(size_t)k % c.n].y_mm; /* level with a vertex */
            if (sw_contour_distance(c, p) < 2e-3) continue;
            if (!sw_true(t, sw_contour_side(c, p) == side_by_angles(chords, p))) return;
        }
    }
}

static void points_of_the_curve_have_side_zero_and_no_distance(sw_test *t)
{
    for (uint64_t seed = 1; seed <= 40; seed++) {
        t->seed = seed;
        sw_contour c = gen_contour(&t->run, seed);
        for (size_t i = 0; i < c.n; i++) {
            sw_vertex next = c.v[(i + 1) % c.n];
            sw_point p = sw_segment_point(c.v[i], (sw_point){next.x_mm, next.y_mm}, 0.37);
            if (!sw_near(t, sw_contour_distance(c, p), 0.0, 1e-9, "derived: on the curve")) return;
            if (!sw_true(t, sw_contour_side(c, p) == 0)) return;
        }
    }
}

static void a_point_in_a_hole_is_outside_the_region(sw_test *t)
{
    sw_contour outline, circle, hole;
    sw_ok(t, sw_contour_rectangle(&t->run, (sw_box){0.0, 0.0, 40.0, 40.0}, 3.0, &outline));
    sw_ok(t, sw_contour_circle(&t->run, (sw_point){20.0, 20.0}, 5.0, &circle));
    sw_ok(t, sw_contour_reversed(&t->run, circle, &hole));
    sw_region r = {outline, &hole, 1};
    sw_true(t, sw_region_side(&r, (sw_point){20.0, 20.0}) == -1);
    sw_true(t, sw_region_side(&r, (sw_point){25.0, 20.0}) == 0);
    sw_true(t, sw_region_side(&r, (sw_point){30.0, 20.0}) == 1);
    sw_true(t, sw_region_side(&r, (sw_point){0.5, 0.5}) == -1);
    sw_true(t, sw_region_side(&r, (sw_point){41.0, 20.0}) == -1);
}

static void tangents_point_along_the_way(sw_test *t)
{
    sw_vertex from = {3.0, 1.0, -0.7};
    sw_point to = {-4.0, 9.0};
    for (double s = 0.0; s < 0.95; s += 0.1) {
        sw_point a = sw_segment_point(from, to, s), b = sw_segment_point(from, to, s + 1e-6);
        sw_point d = sw_segment_direction(from, to, s + 5e-7);
        double length = 1e-6 * sw_segment_length(from, to);
        sw_near(t, (b.x_mm - a.x_mm) / length, d.x_mm, 1e-7, "derived: difference quotient");
        sw_near(t, (b.y_mm - a.y_mm) / length, d.y_mm, 1e-7, "derived: difference quotient");
    }
}

SW_TESTS(SW_CASE(a_quarter_arc_has_the_handbook_values), SW_CASE(a_half_circle_has_the_handbook_values),
         SW_CASE(an_obround_has_the_handbook_area_and_length), SW_CASE(a_circle_has_its_closed_forms),
         SW_CASE(a_rectangle_less_a_round_hole_has_its_closed_forms),
         SW_CASE(two_straight_edges_enclose_nothing_and_are_twice_their_length),
         SW_CASE(a_nearly_straight_arc_measures_as_its_chord), SW_CASE(measures_survive_any_motion),
         SW_CASE(a_moved_path_goes_through_the_moved_points), SW_CASE(two_motions_are_one),
         SW_CASE(exact_measures_are_the_limit_of_chords), SW_CASE(chords_stay_within_their_error_and_on_the_arc),
         SW_CASE(a_box_holds_the_bows_of_arcs), SW_CASE(sides_agree_with_turning_angles),
         SW_CASE(points_of_the_curve_have_side_zero_and_no_distance), SW_CASE(a_point_in_a_hole_is_outside_the_region),
         SW_CASE(tangents_point_along_the_way))
