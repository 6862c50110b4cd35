/* Laws over random batches: whatever is given out has passed the verifier again, keeps the bound, adds up, and what
 * cannot be placed is refused with a reason. */
#include "scenes.h"

#include <math.h>
#include <string.h>

static double between(sw_random *r, double low, double high)
{
    return sw_random_between(r, low, high);
}

/* A star-shaped polygon about the middle of a w x h box; some edges are arcs, straight again should they cross. */
static sw_region random_blob(scene *s, sw_random *r, double w_mm, double h_mm)
{
    size_t n = 3 + sw_random_below(r, 9);
    sw_vertex *v = SW_KEEP(s->run, n, sw_vertex);
    for (size_t i = 0; i < n; i++) {
        double angle = 2 * SW_PI * ((double)i + between(r, 0, 0.6)) / (double)n, k = between(r, 0.35, 0.5);
        v[i] = (sw_vertex){w_mm * k * cos(angle), h_mm * k * sin(angle), 0};
        if (sw_random_below(r, 5) == 0) v[i].bulge = between(r, -0.15, 0.15);
    }
    const char *fault = NULL;
    if (sw_contour_fault(s->run, (sw_contour){v, n}, &fault) == SW_OK && fault != NULL)
        for (size_t i = 0; i < n; i++) v[i].bulge = 0;
    return (sw_region){.outline = {v, n}};
}

static sw_region random_frame(scene *s, sw_random *r, double w_mm, double h_mm)
{
    sw_region frame = scene_box(s, w_mm, h_mm);
    double x = between(r, 0.1, 0.25) * w_mm, y = between(r, 0.1, 0.25) * h_mm;
    scene_hole(s, &frame, x, y, 0.4 * w_mm, 0.5 * h_mm);
    if (sw_random_below(r, 2) == 0) scene_hole(s, &frame, 0.75 * w_mm, y, 0.15 * w_mm, 0.6 * h_mm);
    return frame;
}

static sw_region random_notched(scene *s, sw_random *r, double w, double h)
{
    double a = between(r, 0.1, 0.4) * w, b = between(r, 0.1, 0.6) * h, c = between(r, 0.5, 0.9) * w;
    const double xy[][2] = {{0, 0}, {w, 0}, {w, h}, {c, h}, {c, b}, {a, b}, {a, h}, {0, h}};
    return scene_polygon(s, xy, 8);
}

static sw_region random_shape(scene *s, sw_random *r, double most_mm)
{
    double w_mm = between(r, 20, most_mm), h_mm = between(r, 20, most_mm);
    switch (sw_random_below(r, 5)) {
    case 0:
        return scene_box(s, w_mm, h_mm);
    case 1:
        return random_blob(s, r, w_mm, h_mm);
    case 2:
        return random_frame(s, r, w_mm + 60, h_mm + 60);
    case 3:
        return random_notched(s, r, w_mm, h_mm);
    default:
        return scene_disc(s, w_mm / 2);
    }
}

static void random_stock(scene *s, sw_random *r)
{
    const double slant[][2] = {{0, 0}, {1100, 0}, {1100, 350}, {700, 800}, {0, 800}};
    scene_stock(s, "full", scene_box(s, 1500, 1000), 0, 40);
    if (sw_random_below(r, 2) == 0) scene_stock(s, "small", scene_box(s, 1200, 700), 3, 20);
    if (sw_random_below(r, 2) == 0) return;
    sw_region remnant = scene_polygon(s, slant, 5);
    if (sw_random_below(r, 2) == 0) scene_hole(s, &remnant, 200, 200, 160, 120);
    scene_stock(s, "remnant", remnant, 1, sw_random_below(r, 2) == 0 ? 0 : 5)->remnant = true;
}

static void random_scene(scene *s, sw_run *run, uint64_t seed)
{
    sw_random r = sw_random_seeded(seed);
    scene_begin(s, run, seed % 7 == 0 ? 0 : between(&r, 1, 8), seed % 5 == 0 ? 0 : between(&r, 0, 15));
    size_t kinds = 1 + sw_random_below(&r, 7);
    for (size_t i = 0; i < kinds; i++) {
        sw_turns turns = (sw_turns)sw_random_below(&r, 4);
        size_t count = 1 + sw_random_below(&r, 6);
        sw_nest_shape *shape = scene_shape(s, "piece", random_shape(s, &r, 420), count, turns);
        shape->may_flip = sw_random_below(&r, 3) == 0;
    }
    random_stock(s, &r);
    s->opt.seed = seed;
}

static double sum_of_areas(const scene *s)
{
    double area = 0;
    for (size_t i = 0; i < s->in.shape_count; i++)
        area += (double)s->shapes[i].count * sw_region_area(&s->shapes[i].region);
    return area;
}

static bool holds_its_laws(sw_test *t, scene *s)
{
    double area = sum_of_areas(s);
    const sw_nest_result *n = s->result;
    return sw_ok(t, sw_nest_verify(s->run, &s->in, n)) && sw_true(t, fabs(n->piece_area_mm2 - area) <= 1e-9 * area) &&
           sw_true(t, n->density <= n->bound_density * (1 + 1e-9)) && sw_true(t, n->bound_density <= 1 + 1e-9) &&
           sw_true(t, n->sheets_total >= n->sheet_count) && sw_true(t, n->scrap_kg >= 0);
}

static void check_shapes_are_sound(sw_test *t, scene *s)
{
    for (size_t i = 0; i < s->in.shape_count; i++) {
        const char *fault = NULL;
        sw_ok(t, sw_region_fault(s->run, &s->shapes[i].region, &fault));
        sw_true(t, fault == NULL);
    }
}

/* One random batch a seed, each in a run of its own, until the first that breaks the law. */
static void for_seeds(sw_test *t, uint64_t first, uint64_t last, bool (*law)(sw_test *t, scene *s))
{
    for (uint64_t seed = first; seed <= last; seed++) {
        sw_run run;
        scene s;
        t->seed = seed;
        if (!sw_ok(t, sw_run_open(&run, (size_t)1 << 28))) return;
        random_scene(&s, &run, seed);
        bool good = law(t, &s);
        if (!good && run.error_count > 0) sw_same_text(t, run.errors[0].text, "no message");
        sw_run_close(&run);
        if (!good) return;
    }
}

static bool is_verified(sw_test *t, scene *s)
{
    check_shapes_are_sound(t, s);
    return sw_true(t, scene_solve(s) == SW_OK) && holds_its_laws(t, s);
}

static void sixty_random_batches_are_verified(sw_test *t)
{
    for_seeds(t, 1, 60, is_verified);
}

static bool improves(sw_test *t, scene *s)
{
    if (!sw_ok(t, scene_solve(s))) return false;
    double first_cost = s->result->cost;
    s->opt.budget_s = 0.04;
    /* remnants without a price are free to the search, so only priced stock compares */
    return sw_true(t, scene_solve(s) == SW_OK) && holds_its_laws(t, s) &&
           sw_true(t, s->result->cost <= first_cost + 1e-9);
}

static void improved_batches_are_verified_and_no_dearer(sw_test *t)
{
    for_seeds(t, 101, 106, improves);
}

/* Moving the origin of every shape must not change the layout. */
static bool is_the_same_from_elsewhere(sw_test *t, scene *s)
{
    if (!sw_ok(t, scene_solve(s))) return false;
    size_t sheets = s->result->sheets_total;
    for (size_t i = 0; i < s->in.shape_count; i++) {
        sw_region moved;
        sw_motion far = {.dx_mm = 512, .dy_mm = -256}; /* powers of two: nearly no rounding */
        if (!sw_ok(t, sw_region_moved(s->run, &s->shapes[i].region, far, &moved))) return false;
        s->shapes[i].region = moved;
    }
    return sw_true(t, scene_solve(s) == SW_OK) && sw_true(t, s->result->sheets_total == sheets);
}

static void the_nest_does_not_depend_on_where_the_shapes_were_drawn(sw_test *t)
{
    for_seeds(t, 201, 206, is_the_same_from_elsewhere);
}

SW_TESTS(SW_CASE(sixty_random_batches_are_verified), SW_CASE(improved_batches_are_verified_and_no_dearer),
         SW_CASE(the_nest_does_not_depend_on_where_the_shapes_were_drawn))
