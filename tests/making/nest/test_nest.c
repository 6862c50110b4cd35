#include "scenes.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

/* ---- tiling, cut-outs ------------------------------------------------------------------------ */

static void squares_tile_a_sheet_without_waste(sw_test *t)
{
    scene s;
    scene_begin(&s, &t->run, 0, 0);
    scene_shape(&s, "square", scene_box(&s, 250, 250), 32, SW_TURN_QUARTER);
    scene_stock(&s, "2000 x 1000", scene_box(&s, 2000, 1000), 0, 60);
    if (!sw_ok(t, scene_solve(&s))) return;
    sw_near(t, s.result->density, 1, 1e-9, "derived: 8 x 4 squares of 250 fill 2000 x 1000");
    sw_near(t, (double)s.result->sheets_total, 1, 0, "derived");
    sw_near(t, s.result->bound_density, 1, 1e-6, "derived: area bound");
}

static void thirds_of_a_width_fit_exactly_with_web_and_margin(sw_test *t)
{
    scene s;
    scene_begin(&s, &t->run, 5, 10);
    double side_mm = (1000 - 20 - 2 * 5) / 3.0;
    scene_shape(&s, "third", scene_box(&s, side_mm, side_mm), 9, SW_TURN_FIXED);
    scene_stock(&s, "1000 x 1000", scene_box(&s, 1000, 1000), 1, 30);
    if (!sw_ok(t, scene_solve(&s))) return;
    sw_near(t, (double)scene_placed(&s), 9, 0, "derived: 3 sides + 2 webs + 2 margins = 1000 mm");
    sw_near(t, s.result->sheets[0].used_length_mm, 1000, 1e-6, "derived");
}

static void a_piece_goes_into_the_cut_out_of_another(sw_test *t)
{
    scene s;
    scene_begin(&s, &t->run, 5, 0);
    sw_region frame = scene_box(&s, 500, 500);
    scene_hole(&s, &frame, 100, 100, 300, 300);
    scene_shape(&s, "frame", frame, 1, SW_TURN_QUARTER);
    scene_shape(&s, "lid", scene_box(&s, 290, 290), 1, SW_TURN_QUARTER);
    scene_stock(&s, "500 x 500", scene_box(&s, 500, 500), 1, 10);
    if (!sw_ok(t, scene_solve(&s))) return;
    sw_near(t, (double)scene_placed(&s), 2, 0, "derived: 290 + 2 webs of 5 fill a cut-out of 300");
    sw_near(t, s.result->density, (250000 - 90000 + 84100) / 250000.0, 1e-12, "derived: sum of areas");
}

static void cut_outs_are_filled_several_levels_deep(sw_test *t)
{
    scene s;
    scene_begin(&s, &t->run, 4, 0);
    for (int level = 0; level < 4; level++) {
        double side_mm = 600 - 140 * level;
        sw_region frame = scene_box(&s, side_mm, side_mm);
        if (level < 3) scene_hole(&s, &frame, 60, 60, side_mm - 120, side_mm - 120);
        scene_shape(&s, "frame", frame, 1, SW_TURN_QUARTER);
    }
    scene_stock(&s, "600 x 600", scene_box(&s, 600, 600), 1, 10);
    if (!sw_ok(t, scene_solve(&s))) return;
    sw_near(t, (double)scene_placed(&s), 4, 0, "derived: each frame leaves 20 mm beside the next, two webs are 8");
}

static void a_disc_goes_into_a_round_hole(sw_test *t)
{
    scene s;
    scene_begin(&s, &t->run, 5, 10);
    sw_region ring = scene_disc(&s, 190);
    sw_vertex *v = SW_KEEP(&t->run, 2, sw_vertex);
    sw_contour *hole = SW_KEEP(&t->run, 1, sw_contour);
    v[0] = (sw_vertex){-100, 0, -1};
    v[1] = (sw_vertex){100, 0, -1};
    hole[0] = (sw_contour){v, 2};
    ring.holes = hole;
    ring.hole_count = 1;
    scene_shape(&s, "ring", ring, 1, SW_TURN_FREE);
    scene_shape(&s, "disc", scene_disc(&s, 94), 1, SW_TURN_FREE);
    scene_stock(&s, "400 x 400", scene_box(&s, 400, 400), 1, 10);
    if (!sw_ok(t, scene_solve(&s))) return;
    sw_near(t, (double)scene_placed(&s), 2, 0, "derived: 94 + 5 is less than 100 by 1 mm");
}

static void an_outline_of_very_many_corners_is_nested_all_the_same(sw_test *t)
{
    scene s;
    scene_begin(&s, &t->run, 5, 10);
    static double wave[600][2], comb[600][2];
    for (size_t i = 0; i < 600; i++) {
        double angle = 2 * SW_PI * (double)i / 600;
        double waved = 180 + 15 * sin(20 * angle), toothed = i % 2 == 0 ? 150 : 110;
        wave[i][0] = waved * cos(angle), wave[i][1] = waved * sin(angle);
        comb[i][0] = toothed * cos(angle), comb[i][1] = toothed * sin(angle);
    }
    scene_shape(&s, "wave", scene_polygon(&s, (const double(*)[2])wave, 600), 6, SW_TURN_QUARTER);
    scene_shape(&s, "comb", scene_polygon(&s, (const double(*)[2])comb, 600), 6, SW_TURN_FREE);
    scene_stock(&s, "2000 x 1000", scene_box(&s, 2000, 1000), 0, 40);
    double begun_s = sw_seconds();
    if (!sw_ok(t, scene_solve(&s))) return;
    sw_near(t, (double)scene_placed(&s), 12, 0, "derived");
    sw_true(t, sw_seconds() - begun_s < 5);
}

/* ---- turns ------------------------------------------------------------------------------------- */

static void turn_rules_are_obeyed(sw_test *t)
{
    static const sw_turns rules[] = {SW_TURN_FIXED, SW_TURN_HALF, SW_TURN_QUARTER};
    static const double steps[] = {2 * SW_PI, SW_PI, SW_PI / 2};
    for (size_t k = 0; k < 3; k++) {
        scene s;
        scene_begin(&s, &t->run, 5, 10);
        const double xy[][2] = {{0, 0}, {300, 0}, {300, 80}, {90, 200}, {0, 200}};
        scene_shape(&s, "gusset", scene_polygon(&s, xy, 5), 24, rules[k]);
        scene_stock(&s, "1000 x 2000", scene_box(&s, 2000, 1000), 0, 40);
        if (!sw_ok(t, scene_solve(&s))) return;
        for (size_t i = 0; i < s.result->sheets[0].place_count; i++) {
            sw_motion m = s.result->sheets[0].places[i].motion;
            if (!sw_true(t, fabs(remainder(m.turn_rad, steps[k])) < 1e-9 && !m.mirror)) return;
        }
    }
}

static void a_long_piece_is_turned_to_fit_only_where_it_may(sw_test *t)
{
    for (int may = 0; may < 2; may++) {
        scene s;
        scene_begin(&s, &t->run, 5, 10);
        scene_shape(&s, "strip", scene_box(&s, 900, 100), 2, may ? SW_TURN_QUARTER : SW_TURN_HALF);
        scene_stock(&s, "500 x 1000", scene_box(&s, 500, 1000), 1, 10);
        sw_status status = scene_solve(&s);
        sw_true(t, status == (may ? SW_OK : SW_NO_SOLUTION));
        if (!may) sw_contains(t, scene_message(&s), "fits no sheet of 3 mm S235 at any turn");
        sw_run_clear_errors(&t->run);
    }
}

static void flips_are_used_only_where_allowed(sw_test *t)
{
    const double xy[][2] = {{0, 0}, {400, 0}, {400, 100}, {0, 300}};
    for (int may = 0; may < 2; may++) {
        scene s;
        scene_begin(&s, &t->run, 0, 0);
        scene_shape(&s, "wedge", scene_polygon(&s, xy, 4), 8, SW_TURN_HALF)->may_flip = may == 1;
        scene_stock(&s, "1600 x 400", scene_box(&s, 1600, 400), 0, 10);
        s.opt.budget_s = 0.05;
        if (!sw_ok(t, scene_solve(&s))) return;
        bool flipped = false;
        for (size_t k = 0; k < s.result->sheet_count; k++)
            for (size_t i = 0; i < s.result->sheets[k].place_count; i++)
                flipped = flipped || s.result->sheets[k].places[i].motion.mirror;
        if (!may) sw_true(t, !flipped);
        sw_near(t, (double)scene_placed(&s), 8, 0, "derived");
    }
}

static void a_free_piece_is_laid_along_its_edge(sw_test *t)
{
    scene s;
    scene_begin(&s, &t->run, 5, 10);
    double c = cos(sw_rad_from_deg(33)), d = sin(sw_rad_from_deg(33));
    const double xy[][2] = {{0, 0}, {900 * c, 900 * d}, {900 * c - 90 * d, 900 * d + 90 * c}, {-90 * d, 90 * c}};
    scene_shape(&s, "leaning strip", scene_polygon(&s, xy, 4), 5, SW_TURN_FREE);
    scene_stock(&s, "1000 x 500", scene_box(&s, 1000, 500), 1, 10);
    if (!sw_ok(t, scene_solve(&s))) return;
    sw_near(t, (double)scene_placed(&s), 5, 0, "derived: 5 x 90 + 4 x 5 = 470 of 480 mm");
}

/* ---- stock --------------------------------------------------------------------------------------- */

/* Walls of which no second stands above; their corners are notched, so that one hung from the upper edge would come a little
 * nearer than its neighbour in the row. Eight side by side leave a strip for three lying on each other twice. */
static void tall_pieces_stand_in_a_row_and_leave_a_strip_above(sw_test *t)
{
    static const double wall[][2] = {{20, 0},    {340, 0},  {340, 15}, {360, 15}, {360, 727}, {340, 727},
                                     {340, 742}, {20, 742}, {20, 727}, {0, 727},  {0, 15},    {20, 15}};
    scene s;
    scene_begin(&s, &t->run, 8, 10);
    scene_shape(&s, "wall", scene_polygon(&s, wall, 12), 14, SW_TURN_QUARTER);
    scene_stock(&s, "sheet", scene_box(&s, 3000, 1500), 0, 100);
    if (!sw_ok(t, scene_solve(&s))) return;
    sw_near(t, (double)s.result->sheets_total, 1, 0,
            "derived: 8 x 360 + 7 x 8 and 3 x 742 + 2 x 8 <= 2980, 742 + 2 x (8 + 360) <= 1480");
}

static void remnants_are_used_first(sw_test *t)
{
    scene s;
    scene_begin(&s, &t->run, 5, 10);
    scene_shape(&s, "plate", scene_box(&s, 200, 200), 12, SW_TURN_QUARTER);
    scene_stock(&s, "2000 x 1000", scene_box(&s, 2000, 1000), 0, 60);
    scene_stock(&s, "remnant", scene_box(&s, 640, 440), 1, 0)->remnant = true;
    if (!sw_ok(t, scene_solve(&s))) return;
    sw_near(t, (double)s.result->sheet_count, 2, 0, "derived: six go on the remnant");
    sw_same_text(t, s.result->sheets[0].stock->name, "remnant");
    sw_near(t, (double)s.result->sheets[0].place_count, 6, 0, "derived: 3 x 2 of 205 mm pitch in 620 x 420");
}

static void a_remnant_with_a_slanting_edge_and_a_cut_out_is_used(sw_test *t)
{
    scene s;
    scene_begin(&s, &t->run, 5, 8);
    const double xy[][2] = {{0, 0}, {900, 0}, {900, 300}, {500, 700}, {0, 700}};
    sw_region remnant = scene_polygon(&s, xy, 5);
    scene_hole(&s, &remnant, 300, 250, 150, 150);
    scene_shape(&s, "plate", scene_box(&s, 120, 90), 14, SW_TURN_QUARTER);
    scene_stock(&s, "remnant", remnant, 1, 0)->remnant = true;
    if (!sw_ok(t, scene_solve(&s))) return;
    sw_near(t, (double)scene_placed(&s), 14, 0, "derived: 14 x 95 x 125 is a third of the remnant");
}

static void a_round_remnant_is_used(sw_test *t)
{
    scene s;
    scene_begin(&s, &t->run, 4, 10);
    sw_region round = scene_disc(&s, 300);
    sw_vertex v[2] = {{0, 300, 1}, {600, 300, 1}};
    round.outline.v = v;
    scene_shape(&s, "plate", scene_box(&s, 100, 100), 16, SW_TURN_QUARTER);
    scene_stock(&s, "lid", round, 1, 0)->remnant = true;
    if (!sw_ok(t, scene_solve(&s))) return;
    sw_near(t, (double)scene_placed(&s), 16, 0, "derived: 4 x 4 of 104 mm pitch lie in a circle of radius 292");
}

static void the_cheapest_sheet_that_does_is_taken(sw_test *t)
{
    scene s;
    scene_begin(&s, &t->run, 5, 10);
    scene_shape(&s, "plate", scene_box(&s, 400, 300), 4, SW_TURN_QUARTER);
    scene_stock(&s, "3000 x 1500", scene_box(&s, 3000, 1500), 0, 110);
    scene_stock(&s, "2000 x 1000", scene_box(&s, 2000, 1000), 0, 50);
    if (!sw_ok(t, scene_solve(&s))) return;
    sw_near(t, (double)s.result->sheets_total, 1, 0, "derived");
    sw_same_text(t, s.result->sheets[0].stock->name, "2000 x 1000");
}

static void equal_sheets_of_a_batch_are_one_layout_with_repeats(sw_test *t)
{
    scene s;
    scene_begin(&s, &t->run, 5, 10);
    scene_shape(&s, "side", scene_box(&s, 480, 480), 40, SW_TURN_QUARTER);
    scene_stock(&s, "1000 x 1000", scene_box(&s, 1000, 1000), 0, 30);
    if (!sw_ok(t, scene_solve(&s))) return;
    sw_near(t, (double)s.result->sheet_count, 1, 0, "derived: four on each sheet");
    sw_near(t, (double)s.result->sheets[0].repeat, 10, 0, "derived");
    sw_near(t, s.result->sheet_area_mm2, 1e7, 1e-3, "derived");
}

static void huge_counts_end_soon(sw_test *t)
{
    scene s;
    scene_begin(&s, &t->run, 5, 10);
    scene_shape(&s, "side", scene_box(&s, 480, 300), 1000000007, SW_TURN_QUARTER);
    scene_shape(&s, "clip", scene_box(&s, 190, 140), 999999937, SW_TURN_QUARTER);
    scene_stock(&s, "1000 x 1000", scene_box(&s, 1000, 1000), 0, 30);
    if (!sw_ok(t, scene_solve(&s))) return;
    sw_near(t, (double)scene_placed(&s), 1999999944.0, 0, "derived");
    sw_true(t, s.result->sheet_count < 60);
}

static void the_bound_is_the_least_area_of_whole_sheets(sw_test *t)
{
    scene s;
    scene_begin(&s, &t->run, 0, 0);
    scene_shape(&s, "plate", scene_box(&s, 100, 100), 290, SW_TURN_FIXED);
    scene_stock(&s, "2000 x 1000", scene_box(&s, 2000, 1000), 0, 60);
    scene_stock(&s, "1250 x 1000", scene_box(&s, 1250, 1000), 0, 45);
    if (!sw_ok(t, scene_solve(&s))) return;
    sw_near(t, s.result->bound_density, 2.9 / 3.25, 1e-9, "derived: 2.9 m2 need 2 + 1.25 m2 of whole sheets");
}

static void huge_counts_on_two_sizes_have_a_bound(sw_test *t)
{
    scene s;
    scene_begin(&s, &t->run, 5, 10);
    scene_shape(&s, "side", scene_box(&s, 480, 300), 1000000007, SW_TURN_QUARTER);
    scene_stock(&s, "1000 x 1000", scene_box(&s, 1000, 1000), 0, 30);
    scene_stock(&s, "2000 x 1000", scene_box(&s, 2000, 1000), 0, 59);
    double begun_s = sw_seconds();
    if (!sw_ok(t, scene_solve(&s))) return;
    sw_true(t, sw_seconds() - begun_s < 5);
    sw_true(t, s.result->density <= s.result->bound_density && s.result->bound_density <= 1);
}

static void stock_that_runs_out_says_how_many_are_left(sw_test *t)
{
    scene s;
    scene_begin(&s, &t->run, 5, 10);
    scene_shape(&s, "side", scene_box(&s, 480, 480), 11, SW_TURN_QUARTER);
    scene_stock(&s, "1000 x 1000", scene_box(&s, 1000, 1000), 2, 30);
    sw_true(t, scene_solve(&s) == SW_NO_SOLUTION && s.result == NULL);
    sw_contains(t, scene_message(&s), "the stock of 3 mm S235 runs out: 3 of 11 pieces are left over");
}

static void too_large_a_piece_is_named_with_the_sheet_that_would_do(sw_test *t)
{
    scene s;
    scene_begin(&s, &t->run, 5, 10);
    scene_shape(&s, "left side", scene_box(&s, 640, 612), 1, SW_TURN_QUARTER);
    scene_stock(&s, "600 x 1500", scene_box(&s, 600, 1500), 0, 30);
    sw_true(t, scene_solve(&s) == SW_NO_SOLUTION);
    sw_same_text(t, scene_message(&s),
                 "piece \"left side\" 640.0 x 612.0 mm fits no sheet of 3 mm S235 at any turn; largest usable 580.0 x "
                 "1480.0 mm (sheet less margins); a sheet of 660.0 x 632.0 mm would do");
}

static void no_stock_at_all_says_what_to_add(sw_test *t)
{
    scene s;
    scene_begin(&s, &t->run, 5, 10);
    scene_shape(&s, "left side", scene_box(&s, 640, 612), 1, SW_TURN_QUARTER);
    sw_true(t, scene_solve(&s) == SW_NO_SOLUTION);
    sw_contains(t, scene_message(&s), "there is no stock of 3 mm S235");
    sw_contains(t, scene_message(&s), "add a sheet of at least 660.0 x 632.0 mm");
}

/* ---- costs ------------------------------------------------------------------------------------------ */

static void cost_is_price_less_skeleton_as_in_the_handbook(sw_test *t)
{
    scene s;
    scene_begin(&s, &t->run, 0, 0);
    scene_shape(&s, "part", scene_box(&s, 2250, 1000), 1, SW_TURN_FIXED);
    scene_stock(&s, "2500 x 1250", scene_box(&s, 2500, 1250), 0, 69.914);
    if (!sw_ok(t, scene_solve(&s))) return;
    sw_near(t, s.result->density, 0.72, 1e-9, "handbook W5.1: utilisation 72 %");
    sw_near(t, s.result->cost / (s.result->piece_area_mm2 * s.in.density_kg_mm2), 1.2339, 1e-4, "handbook W5.1");
    sw_near(t, s.result->scrap_kg, 73.594 - 52.988, 2e-3, "handbook W5.1");
}

static void a_kept_remnant_is_credited(sw_test *t)
{
    scene s;
    scene_begin(&s, &t->run, 0, 0);
    s.in.remnant_factor = 0.5;
    s.in.scrap_price = 0;
    scene_shape(&s, "part", scene_box(&s, 1000, 1000), 1, SW_TURN_FIXED);
    scene_stock(&s, "2000 x 1000", scene_box(&s, 2000, 1000), 0, 60);
    if (!sw_ok(t, scene_solve(&s))) return;
    sw_near(t, s.result->sheets[0].remnant_length_mm, 1000, 1e-6, "derived");
    sw_near(t, s.result->cost, 45, 1e-9, "derived: half the sheet at half its price");
    sw_near(t, s.result->scrap_kg, 0, 1e-9, "derived");
}

/* ---- edges of the input ------------------------------------------------------------------------------ */

static void nothing_to_place_is_an_empty_answer(sw_test *t)
{
    scene s;
    scene_begin(&s, &t->run, 5, 10);
    scene_stock(&s, "1000 x 1000", scene_box(&s, 1000, 1000), 0, 30);
    if (!sw_ok(t, scene_solve(&s))) return;
    sw_true(t, s.result->sheet_count == 0 && s.result->sheets_total == 0);
    scene_shape(&s, "none", scene_box(&s, 10, 10), 0, SW_TURN_FREE);
    if (!sw_ok(t, scene_solve(&s))) return;
    sw_true(t, s.result->sheet_count == 0);
}

static void faulty_shapes_and_options_are_refused(sw_test *t)
{
    scene s;
    scene_begin(&s, &t->run, 5, 10);
    scene_shape(&s, "line", scene_box(&s, 100, 0), 1, SW_TURN_FREE);
    scene_shape(&s, "void", (sw_region){.hole_count = 0}, 1, SW_TURN_FREE);
    scene_stock(&s, "1000 x 1000", scene_box(&s, 1000, 1000), 0, 30);
    sw_true(t, scene_solve(&s) == SW_BAD_INPUT && t->run.error_count == 2);
    sw_contains(t, t->run.errors[0].text, "piece \"line\" has an area of 0 mm2");
    sw_contains(t, t->run.errors[1].text, "piece \"void\" has no outline of finite points");
    sw_run_clear_errors(&t->run);
    s.in.shape_count = 0;
    s.in.web_mm = -1;
    sw_true(t, scene_solve(&s) == SW_OUT_OF_RANGE);
    sw_contains(t, scene_message(&s), "web_mm: -1 mm is outside 0 to 200 mm");
    sw_run_clear_errors(&t->run);
    s.in.web_mm = 5;
    s.opt.budget_s = (double)NAN;
    sw_true(t, scene_solve(&s) == SW_OUT_OF_RANGE);
    sw_same_text(t, t->run.errors[0].field, "budget_s");
}

static void a_sheet_without_area_and_too_many_pieces_are_refused(sw_test *t)
{
    scene s;
    scene_begin(&s, &t->run, 5, 10);
    scene_shape(&s, "side", scene_box(&s, 480, 480), SIZE_MAX / 2, SW_TURN_FREE);
    scene_stock(&s, "nothing", scene_box(&s, 0, 1000), 0, 30);
    sw_true(t, scene_solve(&s) == SW_OUT_OF_RANGE);
    sw_contains(t, scene_message(&s), "nest a smaller batch");
    sw_run_clear_errors(&t->run);
    s.shapes[0].count = 1;
    sw_true(t, scene_solve(&s) == SW_BAD_INPUT);
    sw_contains(t, scene_message(&s), "sheet \"nothing\" has no outline with an area above 0");
}

/* ---- stopping, memory, sameness ----------------------------------------------------------------------- */

static void mixed_batch(scene *s, sw_run *run)
{
    scene_begin(s, run, 5, 10);
    const double gusset[][2] = {{0, 0}, {220, 0}, {220, 30}, {30, 180}, {0, 180}};
    const double angle[][2] = {{0, 0}, {300, 0}, {300, 60}, {60, 60}, {60, 240}, {0, 240}};
    sw_region wall = scene_box(s, 520, 430);
    scene_hole(s, &wall, 100, 100, 260, 210);
    scene_shape(s, "wall", wall, 8, SW_TURN_QUARTER);
    scene_shape(s, "gusset", scene_polygon(s, gusset, 5), 20, SW_TURN_FREE)->may_flip = true;
    scene_shape(s, "angle", scene_polygon(s, angle, 6), 12, SW_TURN_HALF);
    scene_shape(s, "disc", scene_disc(s, 70), 16, SW_TURN_FREE);
    scene_stock(s, "2000 x 1000", scene_box(s, 2000, 1000), 0, 47);
}

typedef struct listener {
    atomic_int stop;
    int heard;
    char note[120];
} listener;

static void stop_at_first(void *context, const sw_progress *progress)
{
    listener *l = context;
    (void)strncpy(l->note, progress->note, sizeof l->note - 1);
    if (++l->heard == 1) atomic_store(&l->stop, 1);
}

static void a_cancel_gives_the_best_so_far(sw_test *t)
{
    scene s;
    listener l = {.heard = 0};
    mixed_batch(&s, &t->run);
    s.opt.budget_s = 30;
    t->run.cancel = &l.stop;
    t->run.on_progress = stop_at_first;
    t->run.progress_context = &l;
    if (!sw_ok(t, scene_solve(&s))) return;
    sw_true(t, s.result->stopped && s.result->seconds < 10);
    sw_near(t, (double)scene_placed(&s), 56, 0, "derived");
    sw_contains(t, l.note, "% of the sheets used, at most");
}

static void a_cancel_before_the_first_answer_is_told(sw_test *t)
{
    scene s;
    atomic_int stop = 1;
    mixed_batch(&s, &t->run);
    t->run.cancel = &stop;
    sw_true(t, scene_solve(&s) == SW_CANCELLED && s.result == NULL);
}

static void improvement_never_makes_it_dearer(sw_test *t)
{
    scene first, later;
    mixed_batch(&first, &t->run);
    if (!sw_ok(t, scene_solve(&first))) return;
    mixed_batch(&later, &t->run);
    later.opt.budget_s = 0.3;
    if (!sw_ok(t, scene_solve(&later))) return;
    sw_true(t, later.result->cost <= first.result->cost + 1e-9);
    sw_true(t, later.result->density <= later.result->bound_density + 1e-12);
}

static void the_same_input_gives_the_same_nest(sw_test *t)
{
    scene a, b;
    mixed_batch(&a, &t->run);
    mixed_batch(&b, &t->run);
    if (!sw_ok(t, scene_solve(&a)) || !sw_ok(t, scene_solve(&b))) return;
    sw_true(t, a.result->sheet_count == b.result->sheet_count);
    for (size_t k = 0; k < a.result->sheet_count; k++) {
        const sw_nest_sheet *p = &a.result->sheets[k], *q = &b.result->sheets[k];
        if (!sw_true(t, p->place_count == q->place_count)) return;
        for (size_t i = 0; i < p->place_count; i++) {
            sw_motion m = p->places[i].motion, n = q->places[i].motion;
            bool same = p->places[i].shape == q->places[i].shape && m.dx_mm == n.dx_mm && m.dy_mm == n.dy_mm &&
                        m.turn_rad == n.turn_rad && m.mirror == n.mirror;
            if (!sw_true(t, same)) return;
        }
    }
}

/* Refuses every request of an arena in turn, more sparsely as the number grows. */
static void refuse_each(sw_test *t, bool keep)
{
    for (size_t nth = 1; nth < 100000; nth += 1 + nth / 5) {
        sw_run run;
        scene s;
        if (!sw_ok(t, sw_run_open(&run, (size_t)1 << 28))) return;
        mixed_batch(&s, &run);
        sw_arena_fail_at(keep ? run.keep : run.scratch, nth);
        sw_status status = scene_solve(&s);
        sw_run_close(&run);
        if (status == SW_OK) return; /* beyond the last request */
        if (!sw_true(t, status == SW_NO_MEMORY)) return;
    }
    sw_true(t, false && "more requests than tried");
}

static void every_refused_allocation_is_reported(sw_test *t)
{
    refuse_each(t, true);
    refuse_each(t, false);
}

SW_TESTS(SW_CASE(squares_tile_a_sheet_without_waste), SW_CASE(thirds_of_a_width_fit_exactly_with_web_and_margin),
         SW_CASE(a_piece_goes_into_the_cut_out_of_another), SW_CASE(cut_outs_are_filled_several_levels_deep),
         SW_CASE(a_disc_goes_into_a_round_hole), SW_CASE(an_outline_of_very_many_corners_is_nested_all_the_same),
         SW_CASE(turn_rules_are_obeyed), SW_CASE(a_long_piece_is_turned_to_fit_only_where_it_may),
         SW_CASE(flips_are_used_only_where_allowed), SW_CASE(a_free_piece_is_laid_along_its_edge),
         SW_CASE(tall_pieces_stand_in_a_row_and_leave_a_strip_above), SW_CASE(remnants_are_used_first),
         SW_CASE(a_remnant_with_a_slanting_edge_and_a_cut_out_is_used), SW_CASE(a_round_remnant_is_used),
         SW_CASE(the_cheapest_sheet_that_does_is_taken), SW_CASE(equal_sheets_of_a_batch_are_one_layout_with_repeats),
         SW_CASE(huge_counts_end_soon), SW_CASE(the_bound_is_the_least_area_of_whole_sheets),
         SW_CASE(huge_counts_on_two_sizes_have_a_bound), SW_CASE(stock_that_runs_out_says_how_many_are_left),
         SW_CASE(too_large_a_piece_is_named_with_the_sheet_that_would_do), SW_CASE(no_stock_at_all_says_what_to_add),
         SW_CASE(cost_is_price_less_skeleton_as_in_the_handbook), SW_CASE(a_kept_remnant_is_credited),
         SW_CASE(nothing_to_place_is_an_empty_answer), SW_CASE(faulty_shapes_and_options_are_refused),
         SW_CASE(a_sheet_without_area_and_too_many_pieces_are_refused), SW_CASE(a_cancel_gives_the_best_so_far),
         SW_CASE(a_cancel_before_the_first_answer_is_told), SW_CASE(improvement_never_makes_it_dearer),
         SW_CASE(the_same_input_gives_the_same_nest), SW_CASE(every_refused_allocation_is_reported))
