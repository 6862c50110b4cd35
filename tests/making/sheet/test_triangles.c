#include "watertight.h"

#include "making/sheet/sheet_parts.h"

/* A star-shaped outline with a grid of round and square holes, some rows at one height. */
static sw_region random_region(maker *m, size_t *vertices)
{
    size_t n = 5 + sw_random_below(&m->random, 12), rows = 1 + sw_random_below(&m->random, 4);
    sw_vertex v[17];
    for (size_t i = 0; i < n; i++) {
        double a = 2.0 * SW_PI * (double)i / (double)n, r = maker_between(m, 150.0, 250.0);
        v[i] = (sw_vertex){300.0 + r * cos(a), 300.0 + r * sin(a), 0.0};
    }
    sw_region region = {.outline = maker_contour(m, v, n)};
    sw_contour *holes = SW_KEEP(m->run, rows * rows, sw_contour);
    for (size_t i = 0; i < rows * rows; i++) {
        double x = 240.0 + 35.0 * (double)(i % rows), y = 240.0 + 35.0 * (double)(i / rows),
               d = maker_between(m, 5.0, 15.0);
        sw_vertex round[2] = {{x - d, y, -1}, {x + d, y, -1}};
        sw_vertex square[4] = {{x, y, 0}, {x, y + d, 0}, {x + d, y + d, 0}, {x + d, y, 0}};
        bool is_round = sw_random_below(&m->random, 2) == 0;
        holes[i] = maker_contour(m, is_round ? round : square, is_round ? 2 : 4);
    }
    region.holes = holes;
    region.hole_count = rows * rows;
    *vertices = n;
    return region;
}

static double area_of(const sw_point *p, const sw_triangle *t, size_t count)
{
    double sum = 0.0;
    for (size_t i = 0; i < count; i++) {
        sw_point a = p[t[i].a], b = p[t[i].b], c = p[t[i].c];
        sum += ((b.x_mm - a.x_mm) * (c.y_mm - a.y_mm) - (b.y_mm - a.y_mm) * (c.x_mm - a.x_mm)) / 2.0;
    }
    return sum;
}

/* Euler: a plane region of v corners and h holes has v + 2 h - 2 triangles over just its corners. */
static void sweeps_cover_regions_with_holes(sw_test *t)
{
    for (uint64_t seed = 1; seed <= 300; seed++) {
        t->seed = seed;
        size_t keep = sw_arena_mark(t->run.keep), scratch = sw_arena_mark(t->run.scratch), n = 0, count = 0;
        maker *m = maker_new(&t->run, seed, 3.0);
        sw_region r = random_region(m, &n);
        sw_rings rings;
        sw_triangle *triangles = NULL;
        if (!sw_ok(t, sw_sheet_rings(&t->run, &r, 0.2, &rings))) return;
        if (!sw_ok(t, sw_rings_triangulate(&t->run, &rings, &triangles, &count))) return;
        size_t want = rings.ends[rings.count - 1] + 2 * r.hole_count - 2;
        if (!sw_true(t, triangles != NULL && count == want)) return;
        double area = sw_rings_area(&rings);
        if (!sw_near(t, area_of(rings.points, triangles, count), area, 1e-9 * area, "conservation of area")) return;
        sw_arena_rewind(t->run.keep, keep);
        sw_arena_rewind(t->run.scratch, scratch);
    }
    t->seed = 0;
}

static double height_of(const sw_mesh *m, sw_triangle t)
{
    double y[3] = {m->points[t.a].y_mm, m->points[t.b].y_mm, m->points[t.c].y_mm};
    return fmax(y[0], fmax(y[1], y[2])) - fmin(y[0], fmin(y[1], y[2]));
}

static void slices_stay_within_their_bands(sw_test *t)
{
    for (uint64_t seed = 1; seed <= 200; seed++) {
        t->seed = seed;
        size_t keep = sw_arena_mark(t->run.keep), scratch = sw_arena_mark(t->run.scratch), n = 0;
        maker *m = maker_new(&t->run, seed, 3.0);
        sw_region r = random_region(m, &n);
        sw_vertex box[4] = {{0, 0, 0}, {600, 0, 0}, {600, 600, 0}, {0, 600, 0}};
        r.outline = maker_contour(m, box, 4);
        sw_rings rings;
        sw_mesh mesh;
        if (!sw_ok(t, sw_sheet_rings(&t->run, &r, 0.2, &rings))) return;
        if (!sw_ok(t, sw_sheet_slice(&t->run, &rings, 600.0, 40, &mesh))) return;
        if (!sw_true(t, mesh.points != NULL)) return;
        sw_near(t, sw_mesh_area(&mesh), sw_rings_area(&rings), 1e-6, "conservation of area");
        for (size_t i = 0; i < mesh.triangle_count; i++)
            if (!sw_true(t, height_of(&mesh, mesh.triangles[i]) <= 15.0 + 1e-5)) return;
        sw_arena_rewind(t->run.keep, keep);
        sw_arena_rewind(t->run.scratch, scratch);
    }
    t->seed = 0;
}

static void rings_that_cross_are_not_sliced(sw_test *t)
{
    static const sw_point points[8] = {{0, 0}, {100, 0}, {100, 50}, {0, 50}, {80, 20}, {80, 40}, {120, 40}, {120, 20}};
    static const size_t ends[2] = {4, 8};
    sw_rings rings = {points, ends, 2};
    sw_mesh mesh;
    sw_triangle *triangles = NULL;
    size_t count = 0;
    sw_ok(t, sw_sheet_slice(&t->run, &rings, 50.0, 5, &mesh));
    sw_true(t, mesh.points == NULL);
    sw_ok(t, sw_rings_triangulate(&t->run, &rings, &triangles, &count));
    sw_true(t, triangles == NULL);
}

/* A half shell with rows of holes, on flat strips that carry holes as well. */
static void a_shell_with_rows_of_holes_is_watertight(sw_test *t)
{
    maker *m = maker_new(&t->run, 1, 2.0);
    maker_rectangle(m, "start", 500, 60);
    sw_bend *b = maker_bend(m, 0, 0, 0, 500);
    b->kind = SW_ROLLED;
    b->radius_mm = 200;
    b->angle_rad = SW_PI;
    maker_rectangle(m, "end", 500, 60);
    sw_zone_hole *holes = SW_KEEP(&t->run, 40, sw_zone_hole);
    sw_vertex v[2] = {{-8, 0, -1}, {8, 0, -1}};
    for (size_t i = 0; i < 40; i++)
        holes[i] = (sw_zone_hole){50.0 + 40.0 * (double)(i % 10), 0.5 + 0.7 * (double)(i / 10), maker_contour(m, v, 2)};
    b->holes = holes;
    b->hole_count = 40;
    for (int i = 0; i < 10; i++) maker_hole(m, i % 2, 50.0 + 40.0 * i, 30, 12);
    sw_sheet_options opt = sw_sheet_options_defaults();
    sw_solid solid;
    if (!sw_ok(t, sw_sheet_fold(&t->run, &m->piece, &opt, &solid))) return;
    sw_true(t, watertight(t, &solid.mesh));
    double want = 500 * 120 + 500 * SW_PI * 201 - (10 * 36 + 40 * 64) * SW_PI * 201 / 201;
    sw_near(t, solid.mid_area_mm2, want, 1e-6 * want, "derived: strips and half cylinder less 50 holes (K = 0.5)");
    sw_near(t, sw_mesh_volume(&solid.mesh), 2 * want, 1e-3 * want, "derived: within the chord error");
}

SW_TESTS(SW_CASE(sweeps_cover_regions_with_holes), SW_CASE(slices_stay_within_their_bands),
         SW_CASE(rings_that_cross_are_not_sliced), SW_CASE(a_shell_with_rows_of_holes_is_watertight))
