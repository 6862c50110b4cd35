/* Tight fillings: found where they fit exactly, joined level by level and by counts, and unfolded again. */
#include "making/nest/nest_fillings_parts.h"
#include "puzzle.h"
#include "sw_test.h"

enum { SHAPES_MOST = 6 };

typedef struct scene {
    sw_test *t;
    sw_arena *pairs;
    sw_nest_shape shapes[SHAPES_MOST];
    sw_strip_input in;
    nest_fillings made;
} scene;

static void begin(scene *s, sw_test *t)
{
    *s = (scene){.t = t, .pairs = sw_arena_open((size_t)1 << 28)};
    s->in = (sw_strip_input){.name = "rings", .shapes = s->shapes, .width_mm = 400};
}

static sw_contour rectangle(scene *s, double x_mm, double y_mm, double w_mm, double h_mm, bool hole)
{
    sw_vertex *v = SW_KEEP(&s->t->run, 4, sw_vertex);
    const sw_vertex corners[4] = {
        {x_mm, y_mm, 0}, {x_mm + w_mm, y_mm, 0}, {x_mm + w_mm, y_mm + h_mm, 0}, {x_mm, y_mm + h_mm, 0}};
    for (size_t i = 0; v != NULL && i < 4; i++) v[i] = corners[hole ? 3 - i : i];
    return (sw_contour){v, v == NULL ? 0 : 4};
}

static sw_nest_shape *add(scene *s, sw_contour outline, size_t count, sw_turns turns)
{
    sw_nest_shape *shape = &s->shapes[s->in.shape_count++];
    *shape = (sw_nest_shape){.name = "piece", .region = {.outline = outline}, .count = count, .turns = turns};
    return shape;
}

static void bore(scene *s, sw_nest_shape *shape, sw_contour hole)
{
    sw_contour *holes = SW_KEEP(&s->t->run, shape->region.hole_count + 1, sw_contour);
    for (size_t i = 0; i < shape->region.hole_count; i++) holes[i] = shape->region.holes[i];
    holes[shape->region.hole_count++] = hole;
    shape->region.holes = holes;
}

/* A square ring with a hole of the given size, so many of them. */
static sw_nest_shape *ring(scene *s, double side_mm, double hole_w_mm, double hole_h_mm, size_t count, sw_turns turns)
{
    sw_nest_shape *shape = add(s, rectangle(s, 0, 0, side_mm, side_mm, false), count, turns);
    bore(s, shape, rectangle(s, side_mm / 7, side_mm / 9, hole_w_mm, hole_h_mm, true));
    return shape;
}

static sw_nest_shape *plate(scene *s, double w_mm, double h_mm, size_t count, sw_turns turns)
{
    return add(s, rectangle(s, -3, 5, w_mm, h_mm, false), count, turns);
}

static bool make(scene *s)
{
    bool made = sw_ok(s->t, nest_fillings_make(&s->t->run, s->pairs, &s->in, &s->made));
    sw_arena_close(s->pairs);
    return made;
}

/* How many pieces of the reduced strip are made of so many. */
static size_t made_of(const scene *s, size_t members)
{
    size_t count = 0;
    for (size_t i = 0; i < s->made.in.shape_count; i++)
        if (s->made.members[i].count == members) count += s->made.in.shapes[i].count;
    return count;
}

static void a_piece_of_exactly_the_holes_size_is_put_there(sw_test *t)
{
    scene s;
    begin(&s, t);
    ring(&s, 90, 40.1, 33.3, 1, SW_TURN_HALF);
    plate(&s, 40.1, 33.3, 1, SW_TURN_HALF);
    if (!make(&s) || !sw_true(t, s.made.in.shape_count == 1 && s.made.members[0].count == 2)) return;
    sw_nest_place filler = s.made.members[0].places[1];
    sw_true(t, filler.shape == 1 && s.made.in.shapes[0].region.hole_count == 0);
    sw_near(t, filler.motion.dx_mm, 90.0 / 7 + 3, 1e-9, "derived: lower left corner on lower left corner");
    sw_near(t, filler.motion.dy_mm, 90.0 / 9 - 5, 1e-9, "derived: lower left corner on lower left corner");
}

static void a_filled_filler_fills_another(sw_test *t)
{
    scene s;
    begin(&s, t);
    plate(&s, 20, 20, 1, SW_TURN_QUARTER);
    ring(&s, 60, 20, 20, 1, SW_TURN_QUARTER);
    ring(&s, 200, 60, 60, 1, SW_TURN_QUARTER);
    if (!make(&s)) return;
    sw_true(t, s.made.in.shape_count == 1 && s.made.members[0].count == 3 && s.made.in.shapes[0].count == 1);
}

static void uneven_counts_leave_hosts_open_or_fillers_loose(sw_test *t)
{
    scene s;
    begin(&s, t);
    bore(&s, ring(&s, 120, 20, 30, 3, SW_TURN_FIXED), rectangle(&s, 70, 70, 20, 30, true));
    plate(&s, 20, 30, 4, SW_TURN_FIXED);
    if (make(&s)) sw_true(t, made_of(&s, 3) == 1 && made_of(&s, 2) == 2 && made_of(&s, 1) == 0);
    begin(&s, t);
    ring(&s, 120, 20, 30, 3, SW_TURN_FIXED);
    plate(&s, 20, 30, 5, SW_TURN_FIXED);
    if (make(&s)) sw_true(t, made_of(&s, 2) == 3 && made_of(&s, 1) == 2);
}

static void a_filler_that_leaves_too_much_stays_loose(sw_test *t)
{
    scene s;
    begin(&s, t);
    ring(&s, 90, 40, 40, 1, SW_TURN_FIXED);
    plate(&s, 40, 35.9, 1, SW_TURN_FIXED);
    if (make(&s)) sw_true(t, made_of(&s, 1) == 2);
    begin(&s, t);
    ring(&s, 90, 40, 40, 1, SW_TURN_FIXED);
    plate(&s, 40, 36.1, 1, SW_TURN_FIXED);
    if (make(&s)) sw_true(t, made_of(&s, 2) == 1);
}

static void the_tighter_of_two_fillers_goes_in(sw_test *t)
{
    scene s;
    begin(&s, t);
    ring(&s, 90, 40, 40, 1, SW_TURN_FIXED);
    plate(&s, 40, 37, 1, SW_TURN_FIXED);
    plate(&s, 40, 39, 1, SW_TURN_FIXED);
    plate(&s, 40, 38, 1, SW_TURN_FIXED);
    if (make(&s) && sw_true(t, s.made.in.shape_count == 3)) sw_true(t, s.made.members[2].places[1].shape == 2);
}

/* Whether a plate that must lie across goes into a ring. */
static bool across(sw_test *t, sw_turns host, sw_turns filler)
{
    scene s;
    begin(&s, t);
    ring(&s, 90, 40, 20, 1, host);
    plate(&s, 20, 40, 1, filler);
    return make(&s) && made_of(&s, 2) == 1;
}

static void a_filler_turns_only_as_it_may_at_every_turn_of_its_host(sw_test *t)
{
    sw_true(t, across(t, SW_TURN_FIXED, SW_TURN_QUARTER) && across(t, SW_TURN_QUARTER, SW_TURN_QUARTER));
    sw_true(t, !across(t, SW_TURN_FIXED, SW_TURN_FIXED) && !across(t, SW_TURN_FIXED, SW_TURN_HALF));
    scene s;
    begin(&s, t);
    ring(&s, 90, 40, 20, 1, SW_TURN_HALF);
    plate(&s, 40, 20, 1, SW_TURN_FIXED);
    if (make(&s)) sw_true(t, made_of(&s, 1) == 2);
}

/* A plate with a crooked hole, and what fills it seen from behind. */
static void crooked(scene *s, bool host_flips, bool filler_flips)
{
    static const sw_vertex hole[] = {{10, 40, 0}, {20, 60, 0}, {50, 30, 0}, {10, 10, 0}};
    static const sw_vertex behind[] = {{-10, 40, 0}, {-20, 60, 0}, {-50, 30, 0}, {-10, 10, 0}};
    sw_nest_shape *host = add(s, rectangle(s, 0, 0, 80, 80, false), 1, SW_TURN_HALF);
    bore(s, host, (sw_contour){hole, 4});
    host->may_flip = host_flips;
    add(s, (sw_contour){behind, 4}, 1, SW_TURN_HALF)->may_flip = filler_flips;
}

static void a_filler_is_flipped_only_where_it_may_be(sw_test *t)
{
    const bool cases[3][3] = {
        {false, true, true}, {true, true, true}, {false, false, false}}; /* host, filler, joined */
    for (size_t i = 0; i < 3; i++) {
        scene s;
        begin(&s, t);
        crooked(&s, cases[i][0], cases[i][1]);
        if (make(&s)) sw_true(t, (made_of(&s, 2) == 1) == cases[i][2]);
    }
    scene s;
    begin(&s, t);
    ring(&s, 90, 40, 20, 1, SW_TURN_HALF)->may_flip = true;
    plate(&s, 40, 20, 1, SW_TURN_HALF);
    if (make(&s)) sw_true(t, made_of(&s, 1) == 2);
}

static void pieces_without_tight_fillings_stay_as_they_are(sw_test *t)
{
    scene s;
    begin(&s, t);
    ring(&s, 90, 40, 40, 2, SW_TURN_FIXED);
    plate(&s, 20, 20, 0, SW_TURN_FIXED);
    plate(&s, 15, 15, 7, SW_TURN_FIXED);
    if (!make(&s) || !sw_true(t, s.made.in.shape_count == 3)) return;
    for (size_t i = 0; i < 3; i++) sw_true(t, s.made.in.shapes[i].count == s.shapes[i].count);
}

/* ---- whole strips ---------------------------------------------------------------------------------------- */

static const sw_strip_result *solved(sw_test *t, const sw_strip_input *in, double rounds, int threads)
{
    sw_strip_options opt = sw_strip_options_defaults();
    opt.rounds = rounds;
    opt.threads = threads;
    const sw_strip_result *result = NULL;
    sw_ok(t, sw_strip_solve(&t->run, in, &opt, &result));
    return result;
}

static void a_puzzle_with_filled_holes_is_filled(sw_test *t)
{
    sw_strip_input in = gen_puzzle(&t->run, 3, 8, 3, 0, 3000, 2048);
    const sw_strip_result *r = solved(t, &in, 50, 2);
    if (r == NULL) return;
    sw_true(t, r->density >= 0.95 && r->density <= 1 + 1e-9 && r->place_count == 8);
    sw_near(t, r->density * r->length_mm, 3000, 1e-6, "derived: area of the pieces over the width");
    sw_ok(t, sw_strip_verify(&t->run, &in, r));
}

static void joined_pieces_come_apart_again_at_any_turn_and_flip(sw_test *t)
{
    scene s;
    begin(&s, t);
    crooked(&s, true, true);
    ring(&s, 300, 80, 80, 2, SW_TURN_HALF);
    sw_arena_close(s.pairs);
    s.shapes[0].count = s.shapes[1].count = 3;
    const sw_strip_result *a = solved(t, &s.in, 6, 2), *b = solved(t, &s.in, 6, 2);
    if (a == NULL || b == NULL || !sw_true(t, a->place_count == 8 && a->length_mm == b->length_mm)) return;
    sw_ok(t, sw_strip_verify(&t->run, &s.in, a));
    const size_t shapes[] = {0, 0, 0, 1, 1, 1, 2, 2};
    for (size_t i = 0; i < 8; i++)
        sw_true(t, a->places[i].shape == shapes[i] && a->places[i].motion.dx_mm == b->places[i].motion.dx_mm);
}

/* Fails request number nth of one of the arenas; true once all got through. */
static bool gets_through(scene *s, sw_arena *arena, size_t nth)
{
    size_t mark = sw_arena_mark(s->t->run.scratch);
    sw_arena_fail_at(arena, nth);
    sw_status status = nest_fillings_make(&s->t->run, s->pairs, &s->in, &s->made);
    sw_arena_fail_at(arena, 0);
    sw_arena_rewind(s->t->run.scratch, mark);
    sw_true(s->t, (status == SW_OK || status == SW_NO_MEMORY) && sw_arena_bytes(s->pairs) == 0);
    return status == SW_OK;
}

static void a_refused_allocation_ends_in_no_memory(sw_test *t)
{
    scene s;
    begin(&s, t);
    crooked(&s, true, true);
    ring(&s, 300, 80, 80, 2, SW_TURN_HALF);
    sw_arena *const arenas[] = {t->run.scratch, t->run.keep, s.pairs};
    for (size_t a = 0; a < 3; a++) {
        size_t nth = 1;
        while (nth < 5000 && !gets_through(&s, arenas[a], nth)) nth++;
        sw_true(t, nth > 2 && nth < 5000);
    }
    sw_arena_close(s.pairs);
}

SW_TESTS(SW_CASE(a_piece_of_exactly_the_holes_size_is_put_there), SW_CASE(a_filled_filler_fills_another),
         SW_CASE(uneven_counts_leave_hosts_open_or_fillers_loose), SW_CASE(a_filler_that_leaves_too_much_stays_loose),
         SW_CASE(the_tighter_of_two_fillers_goes_in), SW_CASE(a_filler_turns_only_as_it_may_at_every_turn_of_its_host),
         SW_CASE(a_filler_is_flipped_only_where_it_may_be), SW_CASE(pieces_without_tight_fillings_stay_as_they_are),
         SW_CASE(a_puzzle_with_filled_holes_is_filled), SW_CASE(joined_pieces_come_apart_again_at_any_turn_and_flip),
         SW_CASE(a_refused_allocation_ends_in_no_memory))
