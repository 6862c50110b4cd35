/* Frames, triangles over regions, meshes, collisions, nearest points. */
#include "gen.h"
#include "sw_test.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* ---- helpers: a region pushed out to a plate ------------------------------------------ */

static sw_vec3 vec(double x, double y, double z)
{
    return (sw_vec3){x, y, z};
}

/* Number of times the directed edge from a to b occurs. */
static size_t edge_count(const sw_mesh *m, uint32_t a, uint32_t b)
{
    size_t n = 0;
    for (size_t i = 0; i < m->triangle_count; i++) {
        sw_triangle t = m->triangles[i];
        if ((t.a == a && t.b == b) || (t.b == a && t.c == b) || (t.c == a && t.a == b)) n++;
    }
    return n;
}

/* The flat mesh as closed plate of a thickness, moved by a frame. */
static sw_mesh plate_of(sw_test *t, const sw_mesh *flat, double thickness_mm, sw_frame frame)
{
    size_t n = flat->point_count, m = flat->triangle_count, count = 0;
    sw_vec3 *p = SW_KEEP(&t->run, 2 * n, sw_vec3);
    sw_triangle *f = SW_KEEP(&t->run, 8 * m, sw_triangle);
    for (size_t i = 0; i < n; i++) {
        p[i] = sw_frame_point(frame, flat->points[i]);
        p[n + i] = sw_frame_point(frame, sw_vec3_add(flat->points[i], vec(0.0, 0.0, thickness_mm)));
    }
    uint32_t up = (uint32_t)n;
    for (size_t i = 0; i < m; i++) {
        sw_triangle q = flat->triangles[i];
        const uint32_t corners[4] = {q.a, q.b, q.c, q.a};
        f[count++] = (sw_triangle){q.a, q.c, q.b};
        f[count++] = (sw_triangle){q.a + up, q.b + up, q.c + up};
        for (int k = 0; k < 3; k++) {
            uint32_t a = corners[k], b = corners[k + 1];
            if (edge_count(flat, b, a) > 0) continue;
            f[count++] = (sw_triangle){a, b, b + up};
            f[count++] = (sw_triangle){a, b + up, a + up};
        }
    }
    return (sw_mesh){p, 2 * n, f, count};
}

static sw_mesh plate(sw_test *t, sw_contour outline, double thickness_mm, sw_frame frame)
{
    sw_region r = {.outline = outline};
    sw_mesh flat;
    sw_ok(t, sw_region_triangles(&t->run, &r, 0.05, 0.0, &flat));
    return plate_of(t, &flat, thickness_mm, frame);
}

static sw_mesh block(sw_test *t, sw_vec3 low, sw_vec3 high)
{
    sw_contour c;
    sw_frame frame = sw_frame_world();
    frame.origin.z_mm = low.z_mm;
    sw_ok(t, sw_contour_rectangle(&t->run, (sw_box){low.x_mm, low.y_mm, high.x_mm, high.y_mm}, 0.0, &c));
    return plate(t, c, high.z_mm - low.z_mm, frame);
}

static bool hit(sw_test *t, const sw_mesh *a, const sw_mesh *b)
{
    bool one = false, other = false;
    sw_vec3 where;
    sw_ok(t, sw_meshes_collide(&t->run, a, b, &one, &where));
    sw_ok(t, sw_meshes_collide(&t->run, b, a, &other, &where));
    sw_true(t, one == other);
    return one;
}

/* ---- frames --------------------------------------------------------------------------- */

static void frames_keep_lengths_and_undo_themselves(sw_test *t)
{
    sw_frame f = sw_frame_turned(sw_frame_world(), vec(1.0, 2.0, -0.5), 0.7);
    f.origin = vec(100.0, -20.0, 3.0);
    sw_vec3 p = vec(3.0, -4.0, 12.0), world = sw_frame_point(f, p), back = sw_frame_local(f, world);
    sw_near(t, sw_vec3_length(sw_vec3_sub(back, p)), 0.0, 1e-12, "derived: inverse");
    sw_near(t, sw_vec3_length(sw_frame_direction(f, p)), 13.0, 1e-12, "derived: 3-4-12-13");
    sw_near(t, sw_vec3_dot(sw_vec3_cross(f.x, f.y), f.z), 1.0, 1e-12, "derived: right-handed");
    sw_frame g = sw_frame_turned(sw_frame_world(), vec(0.0, 0.0, 1.0), SW_PI / 2.0);
    sw_near(t,
            sw_vec3_length(sw_vec3_sub(sw_frame_point(sw_frame_in(f, g), p), sw_frame_point(f, sw_frame_point(g, p)))),
            0.0, 1e-12, "derived: composition");
    sw_near(t, g.x.y_mm, 1.0, 1e-15, "derived: x turns to y");
    sw_near(t, sw_vec3_length(sw_vec3_unit(vec(0.0, 0.0, 0.0))), 0.0, 0.0, "the zero vector stays zero");
}

/* ---- triangles ------------------------------------------------------------------------ */

/* Each inner edge is met once from either side, each outer edge once: no overlap, no T-joint. */
static bool edges_match(const sw_mesh *m, size_t *outer)
{
    *outer = 0;
    for (size_t i = 0; i < m->triangle_count; i++) {
        sw_triangle t = m->triangles[i];
        const uint32_t c[4] = {t.a, t.b, t.c, t.a};
        for (int k = 0; k < 3; k++) {
            if (edge_count(m, c[k], c[k + 1]) != 1) return false;
            size_t back = edge_count(m, c[k + 1], c[k]);
            if (back > 1) return false;
            *outer += back == 0 ? 1 : 0;
        }
    }
    return true;
}

static double span_y(const sw_mesh *m)
{
    double most = 0.0;
    for (size_t i = 0; i < m->triangle_count; i++) {
        sw_triangle t = m->triangles[i];
        double a = m->points[t.a].y_mm, b = m->points[t.b].y_mm, c = m->points[t.c].y_mm;
        most = fmax(most, fmax(a, fmax(b, c)) - fmin(a, fmin(b, c)));
    }
    return most;
}

static void triangles_cover_random_contours(sw_test *t)
{
    for (uint64_t seed = 1; seed <= 24; seed++) {
        t->seed = seed;
        sw_mesh m, cut;
        sw_contour chords, c = gen_contour(&t->run, seed);
        sw_region r = {.outline = c};
        size_t outer;
        sw_ok(t, sw_contour_flattened(&t->run, c, 0.5, &chords));
        if (!sw_ok(t, sw_region_triangles(&t->run, &r, 0.5, 0.0, &m))) return;
        bool held = sw_near(t, sw_mesh_area(&m), sw_contour_area(chords), 1e-8 * sw_contour_area(c),
                            "derived: no gap, no overlap");
        held = sw_true(t, edges_match(&m, &outer) && outer == chords.n) && held;
        sw_ok(t, sw_region_triangles(&t->run, &r, 0.5, 7.0, &cut));
        held = sw_near(t, sw_mesh_area(&cut), sw_mesh_area(&m), 1e-8 * sw_contour_area(c),
                       "derived: cutting loses nothing") &&
               held;
        held = sw_true(t, edges_match(&cut, &outer)) && held;
        held = sw_true(t, span_y(&cut) <= 7.0 + 1e-5) && held;
        held = sw_true(t, cut.point_count >= m.point_count &&
                              memcmp(cut.points, m.points, m.point_count * sizeof *m.points) == 0) &&
               held;
        if (!held) return;
    }
}

static sw_contour clockwise_circle(sw_test *t, double x_mm, double y_mm, double radius_mm)
{
    sw_contour circle, hole;
    sw_ok(t, sw_contour_circle(&t->run, (sw_point){x_mm, y_mm}, radius_mm, &circle));
    sw_ok(t, sw_contour_reversed(&t->run, circle, &hole));
    return hole;
}

/* Chords cut the corner of arcs by at most their error. */
static bool inside_or_at_edge(const sw_region *r, sw_point p, double error_mm)
{
    if (sw_region_side(r, p) >= 0 || sw_contour_distance(r->outline, p) < error_mm) return true;
    for (size_t h = 0; h < r->hole_count; h++)
        if (sw_contour_distance(r->holes[h], p) < error_mm) return true;
    return false;
}

static void triangles_leave_many_holes_open(sw_test *t)
{
    sw_contour outline, holes[35];
    for (int i = 0; i < 35; i++)
        holes[i] = clockwise_circle(t, 20.0 + 22.0 * (i % 7), 20.0 + 22.0 * (i / 7), 6.0 + 0.1 * i);
    sw_ok(t, sw_contour_rectangle(&t->run, (sw_box){0.0, 0.0, 172.0, 130.0}, 6.0, &outline));
    sw_region r = {outline, holes, 35};
    for (int k = 0; k < 2; k++) {
        sw_mesh m;
        size_t outer;
        if (!sw_ok(t, sw_region_triangles(&t->run, &r, 0.05, k == 0 ? 0.0 : 9.0, &m))) return;
        sw_near(t, sw_mesh_area(&m), sw_region_area(&r), 0.05 * sw_region_length(&r), "derived: chords of 0.05 mm");
        for (size_t i = 0; i < m.triangle_count; i++) {
            sw_triangle q = m.triangles[i];
            sw_vec3 a = m.points[q.a], b = m.points[q.b], c = m.points[q.c];
            sw_point middle = {(a.x_mm + b.x_mm + c.x_mm) / 3.0, (a.y_mm + b.y_mm + c.y_mm) / 3.0};
            if (!sw_true(t, inside_or_at_edge(&r, middle, 0.05))) return;
        }
        sw_true(t, k == 1 || edges_match(&m, &outer));
    }
}

/* Equal holes on a lattice, many with the same x: GEOS alone fails on some of these. */
static void triangles_take_rows_of_equal_holes(sw_test *t)
{
    for (uint64_t seed = 1; seed <= 12; seed++) {
        t->seed = seed;
        sw_random random = sw_random_seeded(seed);
        sw_contour outline = gen_star(&t->run, seed, 9, (sw_point){0.0, 0.0}, 100.0), holes[30];
        sw_region r = {outline, holes, 0};
        for (int k = 0; k < 300 && r.hole_count < 30; k++) {
            const char *fault = NULL;
            double x_mm = 2.0 * (double)sw_random_below(&random, 90) - 90.0;
            holes[r.hole_count++] = clockwise_circle(t, x_mm, 2.0 * (double)sw_random_below(&random, 90) - 90.0, 3.0);
            sw_ok(t, sw_region_fault(&t->run, &r, &fault));
            if (fault != NULL) r.hole_count--;
        }
        sw_mesh m;
        if (!sw_ok(t, sw_region_triangles(&t->run, &r, 0.2, 0.0, &m))) return;
        if (!sw_true(t, r.hole_count > 10 && t->run.error_count == 0)) return;
        if (!sw_near(t, sw_mesh_area(&m), sw_region_area(&r), 0.2 * sw_region_length(&r), "derived: chords of 0.2 mm"))
            return;
    }
}

static void a_plate_has_the_volume_and_surface_of_its_contour(sw_test *t)
{
    sw_contour c;
    sw_frame f = sw_frame_turned(sw_frame_world(), vec(1.0, 1.0, 0.0), 1.1);
    f.origin = vec(5000.0, 200.0, -900.0);
    sw_ok(t, sw_contour_rectangle(&t->run, (sw_box){0.0, 0.0, 100.0, 60.0}, 0.0, &c));
    sw_mesh m = plate(t, c, 4.0, f);
    sw_near(t, sw_mesh_volume(&m), 24000.0, 1e-6, "derived: 100 x 60 x 4");
    sw_near(t, sw_mesh_area(&m), 2.0 * 6000.0 + 320.0 * 4.0, 1e-6, "derived");
    sw_vec3 low, high;
    sw_mesh straight = plate(t, c, 4.0, sw_frame_world());
    sw_mesh_box(&straight, &low, &high);
    sw_near(t, sw_vec3_length(sw_vec3_sub(high, vec(100.0, 60.0, 4.0))) + sw_vec3_length(low), 0.0, 1e-12, "derived");
}

/* ---- collisions ----------------------------------------------------------------------- */

static void blocks_collide_when_deeper_than_contact(sw_test *t)
{
    sw_mesh base = block(t, vec(0, 0, 0), vec(100, 100, 4));
    const struct {
        sw_vec3 low, high;
        bool collide;
    } cases[] = {
        {{20, 20, 4}, {50, 50, 8}, false},        /* lies on it */
        {{20, 20, 3.97}, {50, 50, 8}, false},     /* 0.03 deep: contact */
        {{20, 20, 3.9}, {50, 50, 8}, true},       /* 0.1 deep */
        {{100, 0, 0}, {140, 100, 4}, false},      /* edge to edge */
        {{99.9, 0, 0}, {140, 100, 4}, true},      /* edge in edge, faces flush */
        {{99.9, 99.9, 3.9}, {140, 140, 9}, true}, /* corner in corner */
        {{99.97, 99.97, 3.97}, {140, 140, 9}, false},
        {{40, 40, -20}, {44, 60, 20}, true},     /* pierces */
        {{10, 10, 1}, {20, 20, 3}, true},        /* wholly inside */
        {{-10, -10, -10}, {110, 110, 14}, true}, /* encloses */
        {{10, 10, 0}, {20, 20, 4}, true},        /* inside, flush on two faces */
        {{0, 0, 0}, {100, 100, 4}, true},        /* the same */
        {{0, 0, 5}, {100, 100, 9}, false},       /* apart */
        {{300, 0, 0}, {400, 100, 4}, false},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        t->seed = i + 1;
        sw_mesh other = block(t, cases[i].low, cases[i].high);
        sw_true(t, hit(t, &base, &other) == cases[i].collide);
    }
}

/* The same pairs turned in space: flush faces are then flush only up to rounding. */
static void collisions_do_not_depend_on_the_frame(sw_test *t)
{
    sw_contour wide, small;
    sw_ok(t, sw_contour_rectangle(&t->run, (sw_box){0.0, 0.0, 100.0, 60.0}, 10.0, &wide));
    sw_ok(t, sw_contour_rectangle(&t->run, (sw_box){20.0, 20.0, 60.0, 40.0}, 4.0, &small));
    for (uint64_t seed = 1; seed <= 30; seed++) {
        t->seed = seed;
        sw_random random = sw_random_seeded(seed);
        sw_vec3 axis = vec(sw_random_between(&random, -1.0, 1.0), sw_random_between(&random, -1.0, 1.0), 0.3);
        sw_frame f = sw_frame_turned(sw_frame_world(), axis, sw_random_between(&random, 0.0, 6.0)),
                 lifted = sw_frame_world();
        f.origin = vec(1234.5, -987.6, 333.3);
        const double lifts_mm[4] = {4.0, 3.96, 3.9, 1.0};
        sw_mesh a = plate(t, wide, 4.0, f);
        for (int k = 0; k < 4; k++) {
            lifted.origin.z_mm = lifts_mm[k];
            sw_mesh b = plate(t, small, 4.0, sw_frame_in(f, lifted));
            if (!sw_true(t, hit(t, &a, &b) == (k >= 2))) return;
        }
    }
}

static void the_reported_point_lies_in_both(sw_test *t)
{
    sw_mesh a = block(t, vec(0, 0, 0), vec(100, 100, 4)), b = block(t, vec(90, 90, 2), vec(120, 120, 9));
    bool collide;
    sw_vec3 p;
    sw_ok(t, sw_meshes_collide(&t->run, &a, &b, &collide, &p));
    sw_true(t, collide);
    sw_true(t, p.x_mm > 90.0 && p.x_mm < 100.0 && p.y_mm > 90.0 && p.y_mm < 100.0 && p.z_mm > 2.0 && p.z_mm < 4.0);
}

static void a_tab_fits_its_slot_and_jams_when_too_wide(sw_test *t)
{
    const sw_vertex notch[8] = {{0, 0, 0},   {100, 0, 0}, {100, 60, 0}, {54, 60, 0},
                                {54, 30, 0}, {50, 30, 0}, {50, 60, 0},  {0, 60, 0}};
    sw_mesh slotted = plate(t, (sw_contour){notch, 8}, 4.0, sw_frame_world());
    sw_mesh fits = block(t, vec(50, 30, -20), vec(54, 90, 20)), jams = block(t, vec(49.9, 30, -20), vec(54, 90, 20));
    sw_mesh deep = block(t, vec(50, 29.8, -20), vec(54, 90, 20));
    sw_true(t, !hit(t, &slotted, &fits));
    sw_true(t, hit(t, &slotted, &jams));
    sw_true(t, hit(t, &slotted, &deep));
}

/* ---- nearest and inside --------------------------------------------------------------- */

static double block_distance(sw_vec3 p, sw_vec3 low, sw_vec3 high, bool *inside)
{
    double ox = fmax(0.0, fmax(low.x_mm - p.x_mm, p.x_mm - high.x_mm)),
           oy = fmax(0.0, fmax(low.y_mm - p.y_mm, p.y_mm - high.y_mm));
    double oz = fmax(0.0, fmax(low.z_mm - p.z_mm, p.z_mm - high.z_mm));
    double in = fmin(fmin(fmin(p.x_mm - low.x_mm, high.x_mm - p.x_mm), fmin(p.y_mm - low.y_mm, high.y_mm - p.y_mm)),
                     fmin(p.z_mm - low.z_mm, high.z_mm - p.z_mm));
    *inside = in > 0.0;
    return *inside ? in : sqrt(ox * ox + oy * oy + oz * oz);
}

static void nearest_and_side_of_a_block_have_their_closed_forms(sw_test *t)
{
    sw_vec3 low = vec(-10, 5, 0), high = vec(40, 25, 8);
    sw_mesh m = block(t, low, high);
    const sw_mesh_tree *tree;
    sw_random random = sw_random_seeded(3);
    sw_ok(t, sw_mesh_tree_make(&t->run, &m, &tree));
    for (int k = 0; k < 2000; k++) {
        sw_vec3 p = vec(sw_random_between(&random, -30, 60), sw_random_between(&random, -10, 40),
                        sw_random_between(&random, -8, 16));
        if (k % 4 == 0) p.x_mm = 15.0; /* rays through edges and corners */
        if (k % 8 == 0) p.y_mm = 15.0;
        sw_vec3 nearest;
        bool inside;
        double want = block_distance(p, low, high, &inside), got = sw_mesh_tree_distance(tree, p, &nearest);
        bool held = sw_near(t, got, want, 1e-10, "derived: distance to a block");
        held =
            sw_near(t, sw_vec3_length(sw_vec3_sub(nearest, p)), want, 1e-10, "derived: the point given is that far") &&
            held;
        if (want > 1e-9) held = sw_true(t, sw_mesh_tree_side(tree, p) == (inside ? 1 : -1)) && held;
        if (!held) return;
    }
}

static void the_tree_finds_what_looking_at_all_triangles_finds(sw_test *t)
{
    for (uint64_t seed = 1; seed <= 10; seed++) {
        t->seed = seed;
        sw_mesh m = plate(t, gen_contour(&t->run, seed), 6.0, sw_frame_world());
        const sw_mesh_tree *tree, *one;
        sw_random random = sw_random_seeded(seed);
        sw_ok(t, sw_mesh_tree_make(&t->run, &m, &tree));
        for (int k = 0; k < 20; k++) {
            sw_vec3 p = vec(sw_random_between(&random, -120, 120), sw_random_between(&random, -120, 120),
                            sw_random_between(&random, -20, 20));
            double least = (double)INFINITY;
            for (size_t i = 0; i < m.triangle_count; i++) {
                sw_mesh single = {m.points, m.point_count, m.triangles + i, 1};
                sw_ok(t, sw_mesh_tree_make(&t->run, &single, &one));
                least = fmin(least, sw_mesh_tree_distance(one, p, NULL));
            }
            if (!sw_near(t, sw_mesh_tree_distance(tree, p, NULL), least, 0.0, "all triangles one by one")) return;
        }
    }
}

typedef struct level { /* asks for a triangle that lies wholly above it */
    const sw_mesh *mesh;
    double z_mm;
} level;

static bool lies_below(const void *context, const sw_vec3 *low, const sw_vec3 *high)
{
    (void)low;
    return high->z_mm <= ((const level *)context)->z_mm;
}

static bool lies_above(const void *context, size_t triangle)
{
    const level *l = context;
    sw_triangle f = l->mesh->triangles[triangle];
    const sw_vec3 *p = l->mesh->points;
    return fmin(fmin(p[f.a].z_mm, p[f.b].z_mm), p[f.c].z_mm) > l->z_mm;
}

static void the_tree_finds_a_triangle_that_is_met_where_there_is_one(sw_test *t)
{
    for (uint64_t seed = 1; seed <= 10; seed++) {
        t->seed = seed;
        sw_mesh m = plate(t, gen_contour(&t->run, seed), 6.0, sw_frame_world());
        sw_vec3 low, high;
        const sw_mesh_tree *tree;
        sw_mesh_box(&m, &low, &high);
        if (!sw_ok(t, sw_mesh_tree_scratch(&t->run, &m, &tree))) return;
        for (int k = 0; k <= 10; k++) {
            const level l = {&m, low.z_mm - 1 + 0.8 * k};
            const sw_mesh_query query = {&l, lies_below, lies_above};
            size_t found = sw_mesh_tree_find(tree, &query);
            bool any = false;
            for (size_t i = 0; i < m.triangle_count && !any; i++) any = lies_above(&l, i);
            if (!sw_true(t, any == (found != SIZE_MAX) && (!any || lies_above(&l, found)))) return;
        }
        sw_true(t, 0.8 * 10 - 1 > high.z_mm - low.z_mm); /* the last level is above all */
    }
    t->seed = 0;
}

static void an_empty_mesh_has_nothing_inside_and_hits_nothing(sw_test *t)
{
    sw_mesh none = {0}, some = block(t, vec(0, 0, 0), vec(1, 1, 1));
    const sw_mesh_tree *tree;
    sw_ok(t, sw_mesh_tree_make(&t->run, &none, &tree));
    sw_true(t, sw_mesh_tree_find(tree, &(sw_mesh_query){NULL, lies_below, lies_above}) == SIZE_MAX); /* asks nothing */
    sw_true(t, isinf(sw_mesh_tree_distance(tree, vec(0, 0, 0), NULL)));
    sw_true(t, sw_mesh_tree_side(tree, vec(0, 0, 0)) == -1);
    sw_true(t, !hit(t, &none, &some));
    sw_near(t, sw_mesh_volume(&none), 0.0, 0.0, "derived");
}

SW_TESTS(SW_CASE(frames_keep_lengths_and_undo_themselves), SW_CASE(triangles_cover_random_contours),
         SW_CASE(triangles_leave_many_holes_open), SW_CASE(triangles_take_rows_of_equal_holes),
         SW_CASE(a_plate_has_the_volume_and_surface_of_its_contour), SW_CASE(blocks_collide_when_deeper_than_contact),
         SW_CASE(collisions_do_not_depend_on_the_frame), SW_CASE(the_reported_point_lies_in_both),
         SW_CASE(a_tab_fits_its_slot_and_jams_when_too_wide),
         SW_CASE(nearest_and_side_of_a_block_have_their_closed_forms),
         SW_CASE(the_tree_finds_what_looking_at_all_triangles_finds),
         SW_CASE(the_tree_finds_a_triangle_that_is_met_where_there_is_one),
         SW_CASE(an_empty_mesh_has_nothing_inside_and_hits_nothing))
