/* Depth fields: how deep a piece lies in another, and which way is out. */
#include "making/nest/nest_crowd_parts.h"
#include "scenes.h"

/* ---- one region --------------------------------------------------------------------------------------------- */

enum { LINES = 6, TRIES = 20000 };

/* An L of 200 x 120 with arms 60 and 50 wide; the region lies to the left of its lines. */
static const nest_line ell[LINES] = {{0, 0, 200, 0},    {200, 0, 200, 50}, {200, 50, 60, 50},
                                     {60, 50, 60, 120}, {60, 120, 0, 120}, {0, 120, 0, 0}};

static double true_depth(double x, double y)
{
    double nearest2 = INFINITY;
    if (!(x > 0 && y > 0 && x < 200 && y < 120 && (y < 50 || x < 60))) return 0;
    for (size_t i = 0; i < LINES; i++) nearest2 = fmin(nearest2, nest_line_distance2(&ell[i], x, y));
    return sqrt(nearest2);
}

static bool ell_field(sw_test *t, nest_field *field)
{
    return sw_ok(t, nest_field_grid(&t->run, t->run.keep, ell, LINES, 40, field));
}

static void depth_is_the_distance_to_the_edge(sw_test *t)
{
    nest_field f;
    sw_random random = sw_random_seeded(1);
    double worst_near_mm = 0, worst_mm = 0;
    if (!ell_field(t, &f)) return;
    for (int k = 0; k < TRIES; k++) {
        double x = sw_random_between(&random, -10, 210), y = sw_random_between(&random, -10, 130);
        double want = true_depth(x, y), off = fabs(nest_field_depth(&f, x, y) - want);
        if (want < f.cell_mm / 2) worst_near_mm = fmax(worst_near_mm, off);
        worst_mm = fmax(worst_mm, off);
    }
    sw_near(t, worst_near_mm, 0, 1e-9, "derived: distance to the nearest edge, within half a cell of the edge");
    sw_near(t, worst_mm, 0, f.cell_mm / 2, "derived: the same anywhere, between corners of cells of 5 mm");
}

static void the_slope_is_how_the_depth_grows(sw_test *t)
{
    const double h = 1e-5;
    nest_field f;
    sw_random random = sw_random_seeded(2);
    double worst = 0;
    int seen = 0;
    if (!ell_field(t, &f)) return;
    for (int k = 0; k < TRIES; k++) {
        double x = sw_random_between(&random, 0, 200), y = sw_random_between(&random, 0, 120);
        nest_slope slope;
        double here = nest_field_slope(&f, x, y, &slope), d = nest_field_depth(&f, x, y);
        worst = fmax(worst, fabs(here - d));
        double e = nest_field_depth(&f, x + h, y), w = nest_field_depth(&f, x - h, y);
        double n = nest_field_depth(&f, x, y + h), s = nest_field_depth(&f, x, y - h);
        bool kink = fabs(e + w - 2 * d) > 1e-8 || fabs(n + s - 2 * d) > 1e-8;
        if (kink || fmin(fmin(e, w), fmin(n, s)) <= 0) continue;
        worst = fmax(worst, fmax(fabs(slope.x - (e - w) / (2 * h)), fabs(slope.y - (n - s) / (2 * h))));
        seen++;
    }
    sw_true(t, seen > TRIES / 4);
    sw_near(t, worst, 0, 1e-5, "law: a slope is the difference quotient where there is no kink");
}

/* ---- turned pieces ------------------------------------------------------------------------------------------- */

static const nest_table *table_of(sw_test *t, scene *s, nest_core *core)
{
    const nest_table *table = NULL;
    *core = (nest_core){.run = &t->run, .in = &s->in, .opt = &s->opt, .stop_at_s = (double)INFINITY};
    core->pair_arena = sw_arena_open((size_t)1 << 28);
    if (!sw_true(t, core->pair_arena != NULL) || !sw_ok(t, nest_turned_make(core))) return NULL;
    core->pairs = SW_SCRATCH(&t->run, core->turned_count, nest_slot *);
    return core->pairs != NULL && sw_ok(t, nest_table_make(core, 40, &table)) ? table : NULL;
}

static void compare_slopes(sw_test *t, const nest_table *table, uint32_t a, uint32_t b, sw_random *random, int *seen)
{
    const double h = 1e-5;
    for (int k = 0; k < 40; k++) {
        double x = sw_random_between(random, -150, 150), y = sw_random_between(random, -150, 150);
        nest_slope slope;
        double d = nest_table_slope(table, a, b, x, y, &slope);
        double ahead = nest_table_depth(table, a, b, x - h, y), back = nest_table_depth(table, a, b, x + h, y);
        if (d <= 0 || ahead <= 0 || back <= 0 || fabs(ahead + back - 2 * d) > 1e-8) continue;
        ++*seen;
        if (!sw_near(t, slope.x, (ahead - back) / (2 * h), 1e-4, "law: difference quotient by the first one's place"))
            return;
    }
}

static void the_slope_follows_the_piece_that_is_moved(sw_test *t)
{
    static const double wedge[][2] = {{0, 0}, {120, 0}, {120, 20}, {30, 90}, {0, 90}};
    static const double blade[][2] = {{0, 0}, {80, 10}, {60, 40}, {10, 30}};
    scene s;
    nest_core core;
    sw_random random = sw_random_seeded(3);
    int seen = 0;
    scene_begin(&s, &t->run, 0, 0);
    s.shapes[0] = (sw_nest_shape){.name = "wedge", .count = 1, .turns = SW_TURN_QUARTER};
    s.shapes[1] = (sw_nest_shape){.name = "blade", .count = 1, .turns = SW_TURN_QUARTER};
    s.shapes[0].region = scene_polygon(&s, wedge, 5);
    s.shapes[1].region = scene_polygon(&s, blade, 4);
    s.in.shape_count = 2;
    const nest_table *table = table_of(t, &s, &core);
    for (uint32_t a = 0; table != NULL && a < core.turned_count; a++)
        for (uint32_t b = 0; b < core.turned_count; b++) compare_slopes(t, table, a, b, &random, &seen);
    sw_true(t, seen > 300);
    sw_arena_close(core.pair_arena);
}

/* ---- pieces that are moved ------------------------------------------------------------------------------------ */

/* Twelve bars and plates on three sheets side by side: one that is wide enough for all, one too narrow and one too low for
 * most. */
static bool crowd_of_bars(sw_test *t, scene *s, nest_core *core, nest_crowd **crowd)
{
    static const nest_bin bins[] = {{0, 320, 300}, {350, 400, 300}, {430, 700, 60}};
    static const uint32_t kind[] = {0, 0, 0, 0, 0, 0, 1, 1, 1, 1, 1, 1};
    scene_begin(s, &t->run, 0, 0);
    (void)scene_shape(s, "bar", scene_box(s, 280, 45), 6, SW_TURN_QUARTER);
    (void)scene_shape(s, "plate", scene_box(s, 110, 90), 6, SW_TURN_QUARTER);
    const nest_table *table = table_of(t, s, core);
    if (table == NULL || !sw_ok(t, nest_crowd_make(&t->run, table, kind, 12, 300, crowd))) return false;
    (*crowd)->bins = bins;
    (*crowd)->bin_count = 3;
    (*crowd)->random = sw_random_seeded(5);
    return true;
}

static bool lies_in_its_bin(const nest_crowd *c, size_t i)
{
    const nest_turned *e = nest_crowd_entry(c, c->now.turned[i]);
    double x = c->now.x_mm[i] + e->base.x_mm, y = c->now.y_mm[i] + e->base.y_mm;
    const nest_bin *b = nest_crowd_bin(c, x + e->width_mm / 2);
    return x > b->x0_mm - 1e-6 && x + e->width_mm < b->x1_mm + 1e-6 && y > -1e-6 &&
           y + e->height_mm < b->height_mm + 1e-6;
}

static void a_piece_that_is_moved_stays_on_a_sheet_that_holds_it(sw_test *t)
{
    scene s;
    nest_core core;
    nest_crowd *c = NULL;
    if (!crowd_of_bars(t, &s, &core, &c)) return;
    nest_state start;
    if (!sw_ok(t, nest_state_make(&t->run, 12, &start))) return;
    for (size_t i = 0; i < 12; i++) start.turned[i] = (uint32_t)core.kinds[c->kind[i]].first;
    for (size_t i = 0; i < 12; i++) start.x_mm[i] = 5.0 * (double)(i % 4), start.y_mm[i] = 20.0 * (double)i;
    nest_crowd_set(c, &start, 700);
    nest_crowd_forget(c);
    for (int pass = 0; pass < 60; pass++) {
        double deepest_mm = 0;
        (void)nest_crowd_measure(c, &deepest_mm);
        nest_crowd_reweigh(c, fmax(deepest_mm, 1e-9));
        for (size_t i = 0; i < 12; i++) nest_crowd_move(c, i);
        for (size_t i = 0; i < 12; i++)
            if (!sw_true(t, lies_in_its_bin(c, i))) return;
    }
    sw_arena_close(core.pair_arena);
}

SW_TESTS(SW_CASE(a_piece_that_is_moved_stays_on_a_sheet_that_holds_it), SW_CASE(depth_is_the_distance_to_the_edge),
         SW_CASE(the_slope_is_how_the_depth_grows), SW_CASE(the_slope_follows_the_piece_that_is_moved))
