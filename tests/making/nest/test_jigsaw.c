/* Strips laid edge to edge: the free region, its corners, whole puzzles of every kind. */
#include "making/nest/nest_jigsaw_parts.h"
#include "puzzle.h"
#include "sw_test.h"

enum { ROOM = 256 };

typedef struct scene {
    sw_test *t;
    jigsaw_cutter *cutter;
    sw_point p[2][ROOM];
    uint32_t ends[2][ROOM];
    jigsaw_region free, rest;
    jigsaw_contact contact;
    uint64_t work;
} scene;

static void begin(scene *s, sw_test *t)
{
    *s = (scene){.t = t};
    s->free = (jigsaw_region){s->p[0], s->ends[0], 4, 1, ROOM};
    s->rest = (jigsaw_region){s->p[1], s->ends[1], 0, 0, ROOM};
    s->p[0][1] = (sw_point){100, 0}, s->p[0][2] = (sw_point){100, 60}, s->p[0][3] = (sw_point){0, 60};
    s->ends[0][0] = 4;
    sw_ok(t, jigsaw_cutter_make(&t->run, ROOM, &s->cutter));
}

/* One ring, or two of which the second is a hole. */
static jigsaw_shape shape(const sw_point *p, const uint32_t *ends, size_t rings)
{
    jigsaw_shape made = {.p = p, .ends = ends, .points = ends[rings - 1], .rings = rings};
    made.box = (sw_box){p[0].x_mm, p[0].y_mm, p[0].x_mm, p[0].y_mm};
    for (size_t i = 0; i < made.points; i++) {
        made.box.x0_mm = fmin(made.box.x0_mm, p[i].x_mm), made.box.x1_mm = fmax(made.box.x1_mm, p[i].x_mm);
        made.box.y0_mm = fmin(made.box.y0_mm, p[i].y_mm), made.box.y1_mm = fmax(made.box.y1_mm, p[i].y_mm);
    }
    return made;
}

static bool cut(scene *s, const jigsaw_shape *piece, double x_mm, double y_mm, double off_mm)
{
    const jigsaw_cut c = {&s->free, piece, {x_mm, y_mm}, off_mm};
    return jigsaw_region_cut(s->cutter, &c, &s->rest, &s->contact, &s->work);
}

static double area(const jigsaw_region *r)
{
    double sum = 0;
    for (size_t i = 0, from = 0; i < r->rings; from = r->ends[i++])
        sum += jigsaw_ring_area(r->p + from, r->ends[i] - from);
    return sum;
}

static const sw_point tile[] = {{0, 0}, {40, 0}, {40, 30}, {0, 30}};
static const uint32_t tile_ends[] = {4};
static const sw_point bar[] = {{0, 0}, {20, 0}, {20, 60}, {0, 60}};
static const sw_point frame[] = {{0, 0}, {40, 0}, {40, 30}, {0, 30}, {10, 10}, {20, 10}, {20, 20}};
static const uint32_t frame_ends[] = {4, 7};

static void a_piece_in_a_corner_leaves_the_rest_in_one_ring(sw_test *t)
{
    scene s;
    begin(&s, t);
    const jigsaw_shape piece = shape(tile, tile_ends, 1);
    if (!sw_true(t, cut(&s, &piece, 0, 0, 0.01) && s.rest.rings == 1 && s.rest.points == 6)) return;
    sw_near(t, area(&s.rest), 6000 - 1200, 1e-9, "derived: areas");
    sw_near(t, s.contact.length_mm, 70, 1e-9, "derived: two sides lie on the edge");
    sw_true(t, s.contact.corners == 1);
}

static void a_piece_across_leaves_two_rings_and_one_that_fills_leaves_none(sw_test *t)
{
    scene s;
    begin(&s, t);
    const jigsaw_shape piece = shape(bar, tile_ends, 1);
    sw_true(t, cut(&s, &piece, 30, 0, 0.01) && s.rest.rings == 2);
    sw_near(t, area(&s.rest), 6000 - 1200, 1e-9, "derived: areas");
    const sw_point all[] = {{0, 0}, {100, 0}, {100, 60}, {0, 60}};
    const jigsaw_shape whole = shape(all, tile_ends, 1);
    sw_true(t, cut(&s, &whole, 0, 0, 0.01) && s.rest.rings == 0);
}

static void a_hole_of_a_piece_is_room(sw_test *t)
{
    scene s;
    begin(&s, t);
    const jigsaw_shape piece = shape(frame, frame_ends, 2);
    if (sw_true(t, cut(&s, &piece, 0, 0, 0.01) && s.rest.rings == 2))
        sw_near(t, area(&s.rest), 6000 - 1200 + 50, 1e-9, "derived: areas");
}

static void a_piece_that_sticks_out_is_refused_and_one_rounded_within_the_tolerance_meets(sw_test *t)
{
    scene s;
    begin(&s, t);
    const jigsaw_shape piece = shape(tile, tile_ends, 1);
    sw_true(t, !cut(&s, &piece, 61, 0, 0.01) && !cut(&s, &piece, -1, 20, 0.01) && !cut(&s, &piece, 200, 0, 0.01));
    if (!sw_true(t, cut(&s, &piece, 0.3, -0.4, 0.6) && s.rest.rings == 1 && s.rest.points == 6)) return;
    sw_near(t, s.contact.drift.x_mm, -0.3, 1e-9, "derived: corner to corner");
    sw_near(t, s.contact.drift.y_mm, 0.4, 1e-9, "derived: corner to corner");
}

static void rings_that_touch_in_a_point_stay_two(sw_test *t)
{
    scene s;
    begin(&s, t);
    const sw_point wedge[] = {{0, 0}, {50, 60}, {0, 60}};
    const uint32_t ends[] = {3};
    const jigsaw_shape piece = shape(wedge, ends, 1);
    sw_true(t, cut(&s, &piece, 50, 0, 0.01) && s.rest.rings == 2);
    sw_near(t, area(&s.rest), 6000 - 1500, 1e-9, "derived: areas");
}

/* What is left after any piece is the region's area less the piece's. */
static void areas_balance_wherever_a_piece_is_laid(sw_test *t)
{
    scene s;
    begin(&s, t);
    sw_random random = sw_random_seeded(5);
    const jigsaw_shape pieces[] = {shape(tile, tile_ends, 1), shape(bar, tile_ends, 1), shape(frame, frame_ends, 2)};
    const double areas[] = {1200, 1200, 1150};
    for (int i = 0; i < 300; i++) {
        size_t k = sw_random_below(&random, 3);
        const jigsaw_shape *piece = &pieces[k];
        double x_mm = sw_random_between(&random, 0, 100 - piece->box.x1_mm), y_mm = 0;
        if (!sw_true(t, cut(&s, piece, x_mm, y_mm, 1e-6))) return;
        sw_near(t, area(&s.rest), 6000 - areas[k], 1e-6, "derived: areas");
    }
}

static void corners_come_tightest_first_and_straight_edges_count_once(sw_test *t)
{
    sw_point p[] = {{0, 0}, {50, 0.001}, {100, 0}, {100, 40}, {30, 60}};
    uint32_t ends[] = {5};
    const jigsaw_region region = {p, ends, 5, 1, 5};
    jigsaw_corner c[8];
    if (!sw_true(t, jigsaw_corners(&region, 0.01, c, 8) == 4)) return;
    sw_near(t, c[0].angle_rad, atan2(60, 30), 1e-6, "derived: arc tangent of the sides");
    sw_near(t, c[0].length_mm[JIGSAW_OUT], 100, 1e-6, "derived: past the point between");
    for (size_t i = 1; i < 4; i++) sw_true(t, c[i].angle_rad >= c[i - 1].angle_rad);
}

/* ---- whole puzzles ----------------------------------------------------------------------------------------------- */

static const sw_strip_result *solved(sw_test *t, const sw_strip_input *in, double rounds)
{
    sw_strip_options opt = sw_strip_options_defaults();
    opt.rounds = rounds;
    opt.threads = 2;
    const sw_strip_result *result = NULL;
    sw_ok(t, sw_strip_solve(&t->run, in, &opt, &result));
    return result;
}

static const double full = 1 - 1e-6, rounded = 0.95;

static void all_are_filled(sw_test *t, puzzle_plan plan, double least)
{
    const uint64_t seeds = least == rounded ? 3 : 6; /* those have to be pulled apart */
    const sw_turns turns[] = {SW_TURN_FIXED, SW_TURN_HALF, SW_TURN_QUARTER};
    plan.length_mm = 3000, plan.width_mm = 2048;
    for (uint64_t seed = 1; seed <= seeds; seed++) {
        t->seed = seed;
        plan.turns = turns[seed % 3];
        sw_strip_input in = puzzle_make(&t->run, seed, &plan);
        const sw_strip_result *r = solved(t, &in, 2);
        if (r == NULL) return;
        sw_true(t, r->density >= least && r->density <= 1 + 1e-9 && r->place_count == plan.pieces);
        sw_ok(t, sw_strip_verify(&t->run, &in, r));
    }
    t->seed = 0;
}

static void puzzles_cut_by_lines_are_filled(sw_test *t)
{
    all_are_filled(t, (puzzle_plan){.pieces = 10}, full);
    all_are_filled(t, (puzzle_plan){.pieces = 20, .teeth = 6}, full);
    all_are_filled(t, (puzzle_plan){.pieces = 40}, full);
}

static void puzzles_of_voronoi_cells_are_filled(sw_test *t)
{
    all_are_filled(t, (puzzle_plan){.cuts = PUZZLE_VORONOI, .pieces = 20}, full);
    all_are_filled(t, (puzzle_plan){.cuts = PUZZLE_VORONOI, .pieces = 40}, full);
}

static void puzzles_with_curved_cuts_are_filled(sw_test *t)
{
    all_are_filled(t, (puzzle_plan){.cuts = PUZZLE_VORONOI, .pieces = 20, .teeth = 30, .curved = true}, full);
}

static void puzzles_of_rectangles_are_filled(sw_test *t)
{
    all_are_filled(t, (puzzle_plan){.cuts = PUZZLE_RECTANGLES, .pieces = 14}, full);
}

static void puzzles_with_holes_filled_by_one_or_two_pieces_are_filled(sw_test *t)
{
    all_are_filled(t, (puzzle_plan){.pieces = 20, .holes = 3}, full);
    all_are_filled(t, (puzzle_plan){.pieces = 20, .holes = 3, .halved = true}, full);
}

static void puzzles_whose_cells_are_rounded_are_filled(sw_test *t)
{
    all_are_filled(t, (puzzle_plan){.cuts = PUZZLE_VORONOI, .pieces = 20, .grid_mm = 2}, full);
}

static void puzzles_whose_pieces_are_rounded_each_by_itself_are_nearly_filled(sw_test *t)
{
    all_are_filled(t, (puzzle_plan){.cuts = PUZZLE_VORONOI, .pieces = 12, .own_grid_mm = 2}, rounded);
    all_are_filled(t, (puzzle_plan){.pieces = 12, .own_grid_mm = 2}, rounded);
}

static void puzzles_with_a_ragged_end_are_nearly_filled(sw_test *t)
{
    all_are_filled(t, (puzzle_plan){.pieces = 12, .ragged_mm = 60}, rounded);
}

static void the_same_asked_gives_the_same(sw_test *t)
{
    const puzzle_plan plan = {
        .cuts = PUZZLE_RECTANGLES, .pieces = 30, .turns = SW_TURN_QUARTER, .length_mm = 3000, .width_mm = 2048};
    sw_strip_input in = puzzle_make(&t->run, 3, &plan);
    const sw_strip_result *a = solved(t, &in, 2), *b = solved(t, &in, 2);
    if (a == NULL || b == NULL) return;
    sw_true(t, a->length_mm == b->length_mm && a->looks == b->looks);
    for (size_t i = 0; i < a->place_count; i++)
        sw_true(t, a->places[i].motion.dx_mm == b->places[i].motion.dx_mm &&
                       a->places[i].motion.dy_mm == b->places[i].motion.dy_mm);
}

/* ---- asked directly ------------------------------------------------------------------------------------------------ */

typedef struct asking {
    sw_nest_input in;
    sw_nest_options opt;
    nest_core core;
    uint32_t kind[PUZZLE_CELLS];
    nest_jigsaw asked;
} asking;

static void ask(sw_test *t, asking *a, const sw_strip_input *in, uint64_t work_most)
{
    *a = (asking){.in = {.name = in->name, .shapes = in->shapes, .shape_count = in->shape_count}};
    a->opt = sw_nest_options_defaults();
    a->core = (nest_core){.run = &t->run, .in = &a->in, .opt = &a->opt, .stop_at_s = INFINITY};
    sw_ok(t, nest_turned_make(&a->core));
    for (uint32_t i = 0; i < in->shape_count; i++) a->kind[i] = i;
    a->asked = (nest_jigsaw){.run = &t->run,
                             .core = &a->core,
                             .kind = a->kind,
                             .count = in->shape_count,
                             .width_mm = in->width_mm,
                             .seed = 1,
                             .work_most = work_most};
}

static void no_more_work_is_done_than_allowed(sw_test *t)
{
    const puzzle_plan plan = {
        .cuts = PUZZLE_RECTANGLES, .pieces = 60, .turns = SW_TURN_QUARTER, .length_mm = 3000, .width_mm = 2048};
    const sw_strip_input in = puzzle_make(&t->run, 2, &plan);
    for (uint64_t most = 10000; most <= 1000000; most *= 10) {
        asking a;
        nest_cover cover;
        ask(t, &a, &in, most);
        if (!sw_ok(t, nest_jigsaw_cover(&a.asked, &cover))) return;
        sw_true(t, cover.laid_count < 60 && cover.work > most / 4 && cover.work < most + most / 4 + 10000);
    }
}

/* Fails request number nth; true once all got through. */
static bool gets_through(sw_test *t, const nest_jigsaw *asked, size_t nth)
{
    nest_cover cover;
    size_t mark = sw_arena_mark(t->run.scratch);
    sw_arena_fail_at(t->run.scratch, nth);
    sw_status status = nest_jigsaw_cover(asked, &cover);
    sw_arena_fail_at(t->run.scratch, 0);
    sw_true(t, status == SW_NO_MEMORY || (status == SW_OK && cover.laid_count == asked->count));
    sw_arena_rewind(t->run.scratch, mark);
    return status == SW_OK;
}

static void a_refused_allocation_ends_in_no_memory(sw_test *t)
{
    const sw_strip_input in = gen_puzzle(&t->run, 1, 6, 0, 0, 3000, 2048);
    asking a;
    size_t nth = 1;
    ask(t, &a, &in, 1000000);
    while (nth < 1000 && !gets_through(t, &a.asked, nth)) nth++;
    sw_true(t, nth > 2 && nth < 1000);
}

/* Equal pieces: kinds are counted, not told apart. */
static void equal_pieces_fill_a_strip(sw_test *t)
{
    static const sw_vertex kite[] = {{0, 0, 0}, {120, 0, 0}, {80, 64, 0}, {0, 64, 0}};
    const sw_nest_shape shapes[] = {
        {.name = "kite", .region = {.outline = {kite, 4}}, .count = 24, .turns = SW_TURN_HALF}};
    const sw_strip_input in = {.name = "kites", .shapes = shapes, .shape_count = 1, .width_mm = 256};
    const sw_strip_result *r = solved(t, &in, 2);
    if (r != NULL) sw_near(t, r->length_mm, 600, 1e-3, "derived: two kites make 200 x 64; 3 x 4 of them");
}

SW_TESTS(SW_CASE(a_piece_in_a_corner_leaves_the_rest_in_one_ring),
         SW_CASE(a_piece_across_leaves_two_rings_and_one_that_fills_leaves_none), SW_CASE(a_hole_of_a_piece_is_room),
         SW_CASE(a_piece_that_sticks_out_is_refused_and_one_rounded_within_the_tolerance_meets),
         SW_CASE(rings_that_touch_in_a_point_stay_two), SW_CASE(areas_balance_wherever_a_piece_is_laid),
         SW_CASE(corners_come_tightest_first_and_straight_edges_count_once), SW_CASE(puzzles_cut_by_lines_are_filled),
         SW_CASE(puzzles_of_voronoi_cells_are_filled), SW_CASE(puzzles_with_curved_cuts_are_filled),
         SW_CASE(puzzles_of_rectangles_are_filled), SW_CASE(puzzles_with_holes_filled_by_one_or_two_pieces_are_filled),
         SW_CASE(puzzles_whose_cells_are_rounded_are_filled),
         SW_CASE(puzzles_whose_pieces_are_rounded_each_by_itself_are_nearly_filled),
         SW_CASE(puzzles_with_a_ragged_end_are_nearly_filled), SW_CASE(the_same_asked_gives_the_same),
         SW_CASE(no_more_work_is_done_than_allowed), SW_CASE(a_refused_allocation_ends_in_no_memory),
         SW_CASE(equal_pieces_fill_a_strip))
