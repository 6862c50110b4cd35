/* Pieces that move between sheets: improved answers are legal, no dearer, in time; the bound counts the web. */
#include "scenes.h"

#include <math.h>

static sw_region angle_plate(scene *s, double w_mm, double h_mm, double t_mm)
{
    const double xy[][2] = {{0, 0}, {w_mm, 0}, {w_mm, t_mm}, {t_mm, t_mm}, {t_mm, h_mm}, {0, h_mm}};
    return scene_polygon(s, xy, 6);
}

static sw_region frame(scene *s, double side_mm, double rim_mm)
{
    sw_region r = scene_box(s, side_mm, side_mm);
    scene_hole(s, &r, rim_mm, rim_mm, side_mm - 2 * rim_mm, side_mm - 2 * rim_mm);
    return r;
}

static void small_batch(scene *s, sw_run *run)
{
    scene_begin(s, run, 6, 8);
    scene_shape(s, "angle", angle_plate(s, 300, 220, 60), 14, SW_TURN_QUARTER);
    scene_shape(s, "frame", frame(s, 310, 40), 5, SW_TURN_HALF);
    scene_shape(s, "plate", scene_box(s, 180, 140), 16, SW_TURN_FREE);
    scene_shape(s, "disc", scene_disc(s, 55), 12, SW_TURN_FIXED);
    scene_stock(s, "large", scene_box(s, 1200, 800), 0, 100);
    scene_stock(s, "small", scene_box(s, 800, 600), 0, 53);
    s->in.remnant_factor = 0.5;
}

static void moving_pieces_between_sheets_is_legal_and_no_dearer(sw_test *t)
{
    scene s;
    small_batch(&s, &t->run);
    if (!sw_ok(t, scene_solve(&s))) return;
    const sw_nest_result *first = s.result;
    s.opt.budget_s = 0.3;
    if (!sw_ok(t, scene_solve(&s))) return;
    sw_true(t, s.result->cost <= first->cost * (1 + 1e-9));
    sw_true(t, scene_placed(&s) == 47);
    sw_ok(t, sw_nest_verify(&t->run, &s.in, s.result));
}

static void the_time_given_is_kept(sw_test *t)
{
    scene s;
    small_batch(&s, &t->run);
    s.opt.budget_s = 0.25;
    if (!sw_ok(t, scene_solve(&s))) return;
    sw_true(t, s.result->seconds < 2);
}

/* One sheet is the least there can be: only pressing is left, and ends by itself. */
static void improvement_ends_when_the_bound_is_met(sw_test *t)
{
    scene s;
    scene_begin(&s, &t->run, 5, 8);
    scene_shape(&s, "plate", scene_box(&s, 180, 140), 4, SW_TURN_FIXED);
    scene_shape(&s, "disc", scene_disc(&s, 55), 2, SW_TURN_FIXED);
    scene_stock(&s, "sheet", scene_box(&s, 1200, 800), 0, 100);
    s.in.remnant_factor = 0.5;
    s.opt.budget_s = 30;
    if (!sw_ok(t, scene_solve(&s))) return;
    sw_near(t, s.result->density, s.result->bound_density, 1e-12, "derived: one sheet is the least");
    sw_true(t, s.result->seconds < 10 && !s.result->stopped);
}

static void a_stop_gives_the_best_so_far(sw_test *t)
{
    scene s;
    atomic_int stop = 1;
    small_batch(&s, &t->run);
    s.opt.budget_s = 60;
    t->run.cancel = &stop;
    sw_status status = scene_solve(&s);
    sw_true(t, status == SW_OK || status == SW_CANCELLED);
    if (status == SW_OK) sw_true(t, s.result->stopped);
}

/* By area alone ten squares would do with one sheet; with half the web round each they need two. */
static void the_bound_counts_the_web(sw_test *t)
{
    scene s;
    scene_begin(&s, &t->run, 10, 5);
    scene_shape(&s, "square", scene_box(&s, 90, 90), 10, SW_TURN_FIXED);
    scene_stock(&s, "sheet", scene_box(&s, 300, 300), 0, 10);
    if (!sw_ok(t, scene_solve(&s))) return;
    sw_near(t, s.result->bound_density, 10 * 90.0 * 90.0 / (2 * 300.0 * 300.0), 1e-9,
            "derived: claims 10 x (90 x 90 + 4 x 90 x 5 + pi 25) = 99785 mm2 are more than one room of 300 x 300 mm");
    sw_true(t, s.result->density <= s.result->bound_density + 1e-12);
}

static void nothing_is_denser_than_the_bound(sw_test *t)
{
    for (uint64_t seed = 1; seed <= 12; seed++) {
        scene s;
        sw_random random = sw_random_seeded(seed);
        t->seed = seed;
        scene_begin(&s, &t->run, sw_random_between(&random, 0, 12), sw_random_between(&random, 0, 10));
        for (int i = 0; i < 4; i++) {
            double w_mm = sw_random_between(&random, 40, 250), h_mm = sw_random_between(&random, 40, 250);
            sw_region r = i % 2 == 0 ? scene_box(&s, w_mm, h_mm) : frame(&s, 100 + w_mm, 30);
            scene_shape(&s, "piece", r, 1 + sw_random_below(&random, 9), SW_TURN_QUARTER);
        }
        scene_stock(&s, "sheet", scene_box(&s, 900, 700), 0, 50);
        if (!sw_ok(t, scene_solve(&s))) return;
        if (!sw_true(t, s.result->density <= s.result->bound_density * (1 + 1e-9))) return;
    }
}

static void a_remnant_with_a_hole_is_respected_while_pieces_move(sw_test *t)
{
    scene s;
    scene_begin(&s, &t->run, 5, 9);
    sw_region odd = scene_box(&s, 700, 500);
    scene_hole(&s, &odd, 260, 200, 150, 120);
    scene_shape(&s, "plate", scene_box(&s, 150, 90), 30, SW_TURN_QUARTER);
    scene_shape(&s, "angle", angle_plate(&s, 160, 120, 40), 16, SW_TURN_QUARTER);
    scene_stock(&s, "odd", odd, 1, 3)->remnant = true;
    scene_stock(&s, "sheet", scene_box(&s, 800, 600), 0, 40);
    s.opt.budget_s = 0.25;
    t->run.threads = 2;
    if (!sw_ok(t, scene_solve(&s))) return;
    sw_true(t, scene_placed(&s) == 46);
    sw_ok(t, sw_nest_verify(&t->run, &s.in, s.result));
}

/* Largest first the plates take three sheets of 310 mm: 150 + 110, 100 + 90 + 80, 70. Two do: 150 + 80 + 70, 110 + 100 + 90. */
static void exchanged_plates_save_a_sheet(sw_test *t)
{
    const double long_mm[] = {150, 110, 100, 90, 80, 70};
    scene s;
    scene_begin(&s, &t->run, 0, 0);
    for (size_t i = 0; i < 6; i++) scene_shape(&s, "plate", scene_box(&s, long_mm[i], 100), 1, SW_TURN_FIXED);
    scene_stock(&s, "sheet", scene_box(&s, 310, 100), 0, 10);
    if (!sw_ok(t, scene_solve(&s))) return;
    sw_true(t, s.result->sheets_total == 3);
    s.opt.budget_s = 1;
    if (!sw_ok(t, scene_solve(&s))) return;
    sw_true(t, s.result->sheets_total == 2);
}

/* Frames that hold others, one thread and two: whatever changes places, the verifier passes it. */
static void pieces_that_change_places_stay_legal(sw_test *t)
{
    for (uint64_t seed = 1; seed <= 4; seed++) {
        scene s;
        small_batch(&s, &t->run);
        scene_shape(&s, "ring", frame(&s, 260, 25), 6, SW_TURN_FIXED);
        scene_shape(&s, "slip", scene_box(&s, 90, 30), 20, SW_TURN_QUARTER);
        s.opt.seed = t->seed = seed;
        s.opt.budget_s = 0.15;
        t->run.threads = 1 + (int)(seed % 2);
        if (!sw_ok(t, scene_solve(&s))) return;
        if (!sw_true(t, scene_placed(&s) == 73)) return;
        if (!sw_ok(t, sw_nest_verify(&t->run, &s.in, s.result))) return;
    }
}

static void every_refused_allocation_is_reported_while_improving(sw_test *t)
{
    for (size_t nth = 1; nth < 4000; nth += nth / 5 + 1) {
        scene s;
        small_batch(&s, &t->run);
        s.opt.budget_s = 0.02;
        sw_arena_fail_at(t->run.scratch, nth);
        sw_status status = scene_solve(&s);
        sw_arena_fail_at(t->run.scratch, 0);
        if (!sw_true(t, status == SW_NO_MEMORY || status == SW_OK)) return;
        sw_run_clear_errors(&t->run);
        if (status == SW_OK) return;
    }
}

SW_TESTS(SW_CASE(moving_pieces_between_sheets_is_legal_and_no_dearer), SW_CASE(the_time_given_is_kept),
         SW_CASE(improvement_ends_when_the_bound_is_met), SW_CASE(a_stop_gives_the_best_so_far),
         SW_CASE(the_bound_counts_the_web), SW_CASE(nothing_is_denser_than_the_bound),
         SW_CASE(a_remnant_with_a_hole_is_respected_while_pieces_move), SW_CASE(exchanged_plates_save_a_sheet),
         SW_CASE(pieces_that_change_places_stay_legal), SW_CASE(every_refused_allocation_is_reported_while_improving))
