/* The strip: legal, repeatable, never longer than the first answer; fields against GEOS. */
#include "making/nest/nest.h"
#include "sw_test.h"

static sw_nest_shape polygon(sw_test *t, const char *name, const double *xy, size_t n, size_t count, sw_turns turns)
{
    sw_vertex *v = SW_KEEP(&t->run, n, sw_vertex);
    for (size_t i = 0; i < n; i++) v[i] = (sw_vertex){xy[2 * i], xy[2 * i + 1], 0};
    return (sw_nest_shape){.name = name, .region = {.outline = {v, n}}, .count = count, .turns = turns};
}

static const double ell[] = {0, 0, 30, 0, 30, 10, 10, 10, 10, 30, 0, 30};
static const double wedge[] = {0, 0, 40, 0, 0, 20};
static const double block[] = {0, 0, 15, 0, 15, 15, 0, 15};

static sw_strip_input mixed(sw_test *t)
{
    sw_nest_shape *shapes = SW_KEEP(&t->run, 3, sw_nest_shape);
    shapes[0] = polygon(t, "ell", ell, 6, 6, SW_TURN_QUARTER);
    shapes[1] = polygon(t, "wedge", wedge, 3, 8, SW_TURN_HALF);
    shapes[2] = polygon(t, "block", block, 4, 5, SW_TURN_FIXED);
    return (sw_strip_input){.name = "mixed", .shapes = shapes, .shape_count = 3, .width_mm = 100};
}

static const sw_strip_result *solved(sw_test *t, const sw_strip_input *in, double rounds, int threads)
{
    sw_strip_options opt = sw_strip_options_defaults();
    opt.rounds = rounds;
    opt.threads = threads;
    const sw_strip_result *result = NULL;
    sw_ok(t, sw_strip_solve(&t->run, in, &opt, &result));
    return result;
}

static void a_strip_is_legal_and_gets_no_longer_with_more_rounds(sw_test *t)
{
    sw_strip_input in = mixed(t);
    const sw_strip_result *few = solved(t, &in, 1, 1), *more = solved(t, &in, 25, 1);
    if (few == NULL || more == NULL) return;
    sw_ok(t, sw_strip_verify(&t->run, &in, more));
    sw_true(t, more->length_mm <= few->length_mm && more->place_count == 19);
    sw_true(t, more->density > 0.75 && more->density <= 1);
    sw_near(t, more->density * more->length_mm * 100, 6 * 500 + 8 * 400 + 5 * 225, 1e-6, "derived: area of the pieces");
}

static void same_seed_threads_and_rounds_give_the_same_strip(sw_test *t)
{
    sw_strip_input in = mixed(t);
    const sw_strip_result *a = solved(t, &in, 8, 2), *b = solved(t, &in, 8, 2);
    if (a == NULL || b == NULL) return;
    sw_true(t, a->length_mm == b->length_mm && a->looks == b->looks);
    for (size_t i = 0; i < a->place_count; i++)
        sw_true(t, a->places[i].motion.dx_mm == b->places[i].motion.dx_mm &&
                       a->places[i].motion.dy_mm == b->places[i].motion.dy_mm);
}

static void the_verifier_refuses_a_strip_made_too_short(sw_test *t)
{
    sw_strip_input in = mixed(t);
    const sw_strip_result *good = solved(t, &in, 2, 1);
    if (good == NULL) return;
    sw_strip_result cut = *good;
    cut.length_mm -= 1;
    sw_true(t, sw_strip_verify(&t->run, &in, &cut) == SW_INTERNAL);
}

static void a_strip_without_width_or_too_narrow_is_refused(sw_test *t)
{
    sw_strip_input in = mixed(t);
    sw_strip_options opt = sw_strip_options_defaults();
    const sw_strip_result *result = NULL;
    in.width_mm = 0;
    sw_true(t, sw_strip_solve(&t->run, &in, &opt, &result) == SW_OUT_OF_RANGE);
    in.width_mm = 12;
    sw_true(t, sw_strip_solve(&t->run, &in, &opt, &result) == SW_NO_SOLUTION);
}

SW_TESTS(SW_CASE(a_strip_is_legal_and_gets_no_longer_with_more_rounds),
         SW_CASE(same_seed_threads_and_rounds_give_the_same_strip),
         SW_CASE(the_verifier_refuses_a_strip_made_too_short), SW_CASE(a_strip_without_width_or_too_narrow_is_refused))
