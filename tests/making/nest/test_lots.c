/* Lots leave one after the other; remnants are what the works can use again. */
#include "scenes.h"

#include <math.h>

static void three_lots(scene *s, sw_run *run)
{
    scene_begin(s, run, 6, 8);
    sw_region frame = scene_box(s, 310, 310);
    scene_hole(s, &frame, 40, 40, 230, 230);
    scene_shape(s, "frame", frame, 7 * 2, SW_TURN_HALF);
    scene_shape(s, "plate", scene_box(s, 180, 140), 7 * 3, SW_TURN_FREE);
    scene_shape(s, "disc", scene_disc(s, 55), 7, SW_TURN_FIXED);
    scene_stock(s, "large", scene_box(s, 1200, 800), 0, 100);
    scene_stock(s, "small", scene_box(s, 800, 600), 2, 53);
    s->in.stoves = 7;
    s->in.lot = 3;
}

/* Pieces of a kind on all sheets up to the one that completes the lot. */
static size_t cut_by_then(const scene *s, size_t shape, size_t lot)
{
    size_t n = 0;
    for (size_t i = 0; i < s->result->sheet_count; i++) {
        const sw_nest_sheet *sheet = &s->result->sheets[i];
        for (size_t k = 0; k < sheet->place_count; k++) n += sheet->places[k].shape == shape ? sheet->repeat : 0;
        if (sheet->completes >= lot) return n;
    }
    return 0;
}

static void check_lots(sw_test *t, const scene *s)
{
    const size_t stoves[] = {3, 6, 7};
    for (size_t lot = 1; lot <= 3; lot++)
        for (size_t shape = 0; shape < 3; shape++)
            sw_true(t, cut_by_then(s, shape, lot) >= s->shapes[shape].count / 7 * stoves[lot - 1]);
    sw_true(t, s->result->sheets[s->result->sheet_count - 1].completes == 3);
    sw_true(t, scene_placed(s) == 7 * 6);
}

static void a_lot_is_complete_with_its_sheets(sw_test *t)
{
    scene s;
    three_lots(&s, &t->run);
    if (!sw_ok(t, scene_solve(&s))) return;
    check_lots(t, &s);
    sw_true(t, s.result->density <= s.result->bound_density * (1 + 1e-9));
}

static void improved_lots_are_complete_too_and_no_dearer(sw_test *t)
{
    scene s;
    three_lots(&s, &t->run);
    if (!sw_ok(t, scene_solve(&s))) return;
    double first = s.result->cost;
    s.opt.budget_s = 0.2;
    if (!sw_ok(t, scene_solve(&s))) return;
    check_lots(t, &s);
    sw_true(t, s.result->cost <= first * (1 + 1e-12));
}

/* Each lot needs half a sheet: two go on one. */
static void the_next_lot_fills_the_begun_sheet(sw_test *t)
{
    scene s;
    scene_begin(&s, &t->run, 10, 10);
    scene_shape(&s, "square", scene_box(&s, 90, 90), 20, SW_TURN_FIXED);
    scene_stock(&s, "sheet", scene_box(&s, 510, 210), 0, 10); /* 5 x 2 squares */
    s.in.stoves = 20;
    s.in.lot = 5;
    if (!sw_ok(t, scene_solve(&s))) return;
    sw_true(t, s.result->sheets_total == 2);
    sw_true(t, s.result->sheets[0].completes == 2 && s.result->sheets[1].completes == 4);
    sw_near(t, s.result->cost, 20 - 0.22 * 23.55e-6 * 2 * (510 * 210 - 10 * 90 * 90), 1e-9,
            "derived: two sheets at 10 less the scrap of what is not pieces, at 0.22/kg");
}

static void a_count_that_is_no_multiple_of_the_stoves_is_refused(sw_test *t)
{
    scene s;
    three_lots(&s, &t->run);
    s.shapes[1].count = 20;
    sw_true(t, scene_solve(&s) == SW_BAD_INPUT);
    sw_contains(t, scene_message(&s), "wanted 20 times for 7 stoves");
    sw_run_clear_errors(&t->run);
}

static void lots_respect_how_many_sheets_there_are(sw_test *t)
{
    scene s;
    three_lots(&s, &t->run);
    s.stock[0].count = 1;
    s.stock[1].count = 1;
    sw_true(t, scene_solve(&s) == SW_NO_SOLUTION);
    sw_run_clear_errors(&t->run);
}

static void one_square(scene *s, sw_run *run, double w_mm, double h_mm)
{
    scene_begin(s, run, 5, 10);
    scene_shape(s, "plate", scene_box(s, w_mm, h_mm), 1, SW_TURN_FIXED);
    scene_stock(s, "sheet", scene_box(s, 2000, 1000), 1, 100);
    s->in.remnant_least_length_mm = 500;
    s->in.remnant_least_width_mm = 300;
    s->in.remnant_factor = 0.6;
}

static void a_remnant_lies_beyond_the_last_piece(sw_test *t)
{
    scene s;
    one_square(&s, &t->run, 700, 900);
    if (!sw_ok(t, scene_solve(&s)) || !sw_true(t, s.result->remnant_count == 1)) return;
    const sw_nest_remnant *r = &s.result->remnants[0];
    sw_near(t, r->x_mm, 720, 1e-6, "derived: margin, piece and margin");
    sw_near(t, r->length_mm, 1280, 1e-6, "derived: what is left of 2000 mm");
    sw_near(t, r->width_mm, 1000, 1e-6, "derived: the whole width");
    sw_near(t, r->worth, 0.6 * 100 * 1280 / 2000, 1e-9, "handbook workshop.md 5.4: f p_sheet A_remnant / A_sheet");
}

static void a_remnant_lies_along_the_upper_edge(sw_test *t)
{
    scene s;
    one_square(&s, &t->run, 1900, 400);
    if (!sw_ok(t, scene_solve(&s)) || !sw_true(t, s.result->remnant_count == 1)) return;
    const sw_nest_remnant *r = &s.result->remnants[0];
    sw_near(t, r->y_mm, 420, 1e-6, "derived: margin, piece and margin");
    sw_near(t, r->width_mm, 580, 1e-6, "derived: what is left of 1000 mm");
    sw_near(t, r->length_mm, 2000, 1e-6, "derived: the whole length");
    s.in.remnant_least_width_mm = 600;
    s.in.remnant_least_length_mm = 600;
    if (sw_ok(t, scene_solve(&s))) sw_true(t, s.result->remnant_count == 0);
}

static void a_zone_is_no_part_of_a_remnant(sw_test *t)
{
    static const sw_stock_zone zone = {{1000, 0, 1100, 80}, "clamp"};
    scene s;
    one_square(&s, &t->run, 700, 900);
    s.stock[0].zones = &zone;
    s.stock[0].zone_count = 1;
    if (!sw_ok(t, scene_solve(&s)) || !sw_true(t, s.result->remnant_count == 1)) return;
    sw_near(t, s.result->remnants[0].x_mm, 1100, 1e-9, "derived: end of the zone");
}

static void refuse_each(sw_test *t, bool keep)
{
    for (size_t nth = 1; nth < 100000; nth += nth / 6 + 1) {
        scene s;
        three_lots(&s, &t->run);
        sw_arena *arena = keep ? t->run.keep : t->run.scratch;
        sw_arena_fail_at(arena, nth);
        sw_status status = scene_solve(&s);
        sw_arena_fail_at(arena, 0);
        sw_true(t, status == SW_NO_MEMORY || status == SW_OK);
        sw_run_clear_errors(&t->run);
        if (status == SW_OK) return;
    }
}

static void every_refused_allocation_is_reported(sw_test *t)
{
    refuse_each(t, true);
    refuse_each(t, false);
}

SW_TESTS(SW_CASE(a_lot_is_complete_with_its_sheets), SW_CASE(improved_lots_are_complete_too_and_no_dearer),
         SW_CASE(the_next_lot_fills_the_begun_sheet), SW_CASE(a_count_that_is_no_multiple_of_the_stoves_is_refused),
         SW_CASE(lots_respect_how_many_sheets_there_are), SW_CASE(a_remnant_lies_beyond_the_last_piece),
         SW_CASE(a_remnant_lies_along_the_upper_edge), SW_CASE(a_zone_is_no_part_of_a_remnant),
         SW_CASE(every_refused_allocation_is_reported))
