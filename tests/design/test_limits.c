/* What a description may hold: nothing is cut without a word, nothing grows without end, long chains are no fault. */
#include "reading.h"

#include <stdio.h>

#define WORKS_HEAD                                                                                                     \
    "works { name = 'w' }\nsheet { 'S235', 4*mm, size = { 3000*mm, 1500*mm } }\n"                                      \
    "press { dies = { 16*mm }, length = 3000*mm, force = 1000*kN }\n"
#define LASER                                                                                                          \
    "laser { rapid = 60*m/min, acceleration = 10*m/s/s, etch = 10*m/min, rows = { { 'S235', 4*mm, feed = 3.4*m/min, "  \
    "pierce = 0.5*s, kerf = 0.25*mm, lead = 4*mm, web = 8*mm, margin = 10*mm } }, program = { start = %s } }\n"
#define AT_HOME "place = { at = {0*mm, 0*mm, 0*mm}, x = 'right', y = 'back' }"
#define UMLAUT  "\xC3\xA4"

/* The works whose program starts with what `start` gives, after `before`. */
static const sw_works *program_of(sw_test *t, const char *before, const char *start)
{
    const sw_model *model = NULL;
    const char *text = sw_text_format(&t->run, t->run.keep, "%s" WORKS_HEAD LASER, before, start);
    return read_status(t, NULL, text, &model) == SW_OK ? model->works : NULL;
}

static void a_program_keeps_every_line_of_its_start(sw_test *t)
{
    const sw_works *w = program_of(t, "local l = {} for i = 1, 100 do l[i] = string.rep('G', 200) end\n", "l");
    if (sw_true(t, w != NULL)) sw_true(t, strlen(w->laser.program_start) == 100 * 201 - 1);
    w = program_of(t, "", "'G21\\nG90\\n\\nM8'");
    if (sw_true(t, w != NULL)) sw_same_text(t, w->laser.program_start, "G21\nG90\n\nM8");
    w = program_of(t, "", "{}");
    if (sw_true(t, w != NULL)) sw_same_text(t, w->laser.program_start, "");
}

static void a_program_with_too_much_in_it_is_refused(sw_test *t)
{
    sw_true(t, program_of(t, "local l = {} for i = 1, 101 do l[i] = 'G21' end\n", "l") == NULL);
    sw_contains(t, t->run.errors[0].text, "has 101 lines, allowed is 100");
    sw_true(t, program_of(t, "", "string.rep('G21\\n', 100)") == NULL);
    sw_contains(t, t->run.errors[0].text, "has 101 lines");
    sw_true(t, program_of(t, "", "{ 'G21', string.rep('G', 201) }") == NULL);
    sw_contains(t, t->run.errors[0].text, "longer than 200 bytes");
    sw_contains(t, t->run.errors[0].field, "program.start[2]");
    static const char *const controls[] = {"{ 'G21\\nM30' }", "{ 'G21\\r' }", "'G21\\0M30'", "{ 'G21\\27' }",
                                           "{ '\\xff' }"};
    for (size_t i = 0; i < sizeof controls / sizeof *controls; i++) {
        sw_true(t, program_of(t, "", controls[i]) == NULL);
        sw_contains(t, t->run.errors[0].text, "control characters");
    }
    sw_true(t, program_of(t, "", "{ 21 }") == NULL);
    sw_contains(t, t->run.errors[0].text, "but a text is needed");
}

static void holes_and_marks_beyond_the_limit_are_refused(sw_test *t)
{
    sw_contains(
        t,
        first_error(
            t,
            "local g = grid { hole { d = 1*mm }, step_x = 2*mm, step_y = 2*mm, count_x = 100, count_y = 100 }\n" PIECE(
                "1", "p", "{ outline = rectangle {900*mm, 900*mm}, holes = { g, hole { d = 1*mm } } }"),
            NULL),
        "more than 10000 holes");
    sw_contains(t,
                first_error(t,
                            "local m = {} for i = 1, 1001 do m[i] = etch { 'A', at = {1*mm, 1*mm} } end\n" PIECE(
                                "1", "p", "{ outline = rectangle {900*mm, 900*mm}, marks = m }"),
                            NULL),
                "has 1001 marks, allowed is 1000");
}

static void pieces_beyond_the_limit_are_refused(sw_test *t)
{
    int line = 0;
    const char *text =
        first_error(t,
                    "local f = { outline = rectangle {9*mm, 9*mm} }\nfor i = 1, 5001 do\n"
                    "piece { number = 'N' .. i, name = 'p' .. i, group = 'g', material = 'S235', thickness = 3*mm,\n"
                    "face = f, " AT_HOME " } end",
                    &line);
    sw_contains(t, text, "more than 5000 pieces");
    sw_true(t, line == 5);
    sw_contains(t, first_error(t, "for i = 1, 5001 do group('x' .. i, {}) end", NULL), "more than 5000 groups");
    sw_contains(
        t,
        first_error(t,
                    "for i = 1, 5001 do item { number = 'N' .. i, name = 'i' .. i, group = 'g', kind = 'bought', "
                    "mass = 1*kg, " AT_HOME " } end",
                    NULL),
        "more than 5000 items");
}

/* Piece i stands 1 mm to the right of piece i + 1, or is its mirror; the last stands at home. */
static void a_chain_of_thousands_of_pieces_is_read(sw_test *t)
{
    static const char *const links[] = {
        "piece { number = 'N' .. i, name = 'p' .. i, group = 'g', material = 'S235', thickness = 3*mm, face = f,\n"
        "place = { at = {1*mm, 0*mm, 0*mm}, x = 'right', y = 'back', relative_to = 'p' .. (i + 1) } }",
        "mirror('p' .. (i + 1), { number = 'N' .. i, name = 'p' .. i, plane = 'x', at = 0*mm })"};
    for (int i = 0; i < 2; i++) {
        const sw_stove *s = read_stove(
            t,
            sw_text_format(&t->run, t->run.keep,
                           "local f = { outline = rectangle {9*mm, 9*mm} }\nfor i = 1, 4999 do %s end\n"
                           "piece { number = 'N0', name = 'p5000', group = 'g', material = 'S235', thickness = 3*mm, "
                           "face = f, " AT_HOME " }",
                           links[i]));
        if (s == NULL || !sw_true(t, s->piece_count == 5000)) continue;
        if (i == 0) sw_true(t, fabs(s->pieces[0].placements[0].origin.x_mm - 4999.0) < 1e-6);
        if (i == 1) sw_true(t, s->pieces[0].mirror_of == 1 && s->pieces[4998].mirror_of == 4999);
    }
}

static void a_chain_that_goes_round_is_refused_at_its_place(sw_test *t)
{
    int line = 0;
    const char *text =
        first_error(t,
                    "local f = { outline = rectangle {9*mm, 9*mm} }\nfor i = 1, 3000 do\n"
                    "piece { number = 'N' .. i, name = 'p' .. i, group = 'g', material = 'S235', thickness = 3*mm,\n"
                    "face = f, place = { at = {1*mm, 0*mm, 0*mm}, relative_to = 'p' .. (i % 3000 + 1) } } end",
                    &line);
    sw_contains(t, text, "goes round in a circle");
    sw_true(t, line == 5);
}

static void each_name_taken_twice_is_told_once(sw_test *t)
{
    sw_contains(t,
                first_error(t,
                            PIECE("1", "p", "{ outline = rectangle {9*mm, 9*mm} }")
                                PIECE("2", "q", "{ outline = rectangle {9*mm, 9*mm} }")
                                    PIECE("2", "p", "{ outline = rectangle {9*mm, 9*mm} }"),
                            NULL),
                "\"2\" is already taken by \"q\" in line");
    sw_true(t, t->run.error_count == 2);
    sw_contains(t, t->run.errors[1].text, "\"p\" is already taken in line");
}

static sw_status within(sw_test *t, const char *text, double steps)
{
    sw_design_options few = sw_design_options_defaults();
    few.steps = steps;
    const char *whole = sw_text_format(&t->run, t->run.keep, "%s%s", STOVE_HEAD, text);
    sw_design_texts in = {.stove = {"limits.lua", whole, strlen(whole)}, .options = &few};
    const sw_model *model = NULL;
    sw_run_clear_errors(&t->run);
    return sw_design_read_texts(&t->run, &in, &model);
}

/* The text alone takes about 4e5 steps; the copies of 3000 holes each are made when it has run. */
static void what_is_done_after_the_text_has_run_is_counted_too(sw_test *t)
{
    static const char text[] =
        "local g = grid { hole { d = 1*mm }, step_x = 2*mm, step_y = 2*mm, count_x = 60, count_y = 50 }\n" PIECE(
            "1", "p0",
            "{ outline = rectangle {900*mm, 900*mm, at = {-9*mm, -9*mm}}, holes = { g } }") "for i = 1, 200 do mirror('p' .. (i - 1), { number = 'M' .. i, name = 'p' .. i, plane = 'x' }) end";
    sw_ok(t, within(t, text, 1e8));
    sw_true(t, within(t, text, 2e6) == SW_BAD_INPUT);
    sw_true(t, t->run.error_count == 1);
    sw_contains(t, t->run.errors[0].text, "more than 2000000 steps");
}

static void an_outline_of_the_most_corners_is_read_and_named_apart(sw_test *t)
{
#define RING(edge)                                                                                                     \
    "local c = {} for i = 1, 20000 do local a = 2 * math.pi * (i - 1) / 20000\n"                                       \
    "c[i] = { 900*mm * math.cos(a), 900*mm * math.sin(a), edge = " edge " } end\n"
    const sw_stove *s = read_stove(t, RING("'e' .. i") PIECE("1", "p", "{ outline = polygon(c), number_at = false }"));
    if (s != NULL) sw_true(t, s->pieces[0].edge_count == 20000);
    sw_contains(t, first_error(t, RING("'e' .. i % 19998") " polygon(c)", NULL),
                "the edge name \"e1\" stands at two places");
}

static void names_too_long_are_refused_not_cut(sw_test *t)
{
    sw_contains(t, first_error(t, "group(string.rep('" UMLAUT "', 41), {})", NULL), "longer than 80 bytes");
    sw_contains(t, first_error(t, "parameter(string.rep('" UMLAUT "', 41), 4*mm)", NULL), "longer than 80 bytes");
    sw_contains(t, first_error(t, "parameter('w', 4*mm, {}, string.rep('" UMLAUT "', 201))", NULL),
                "longer than 400 bytes");
    sw_contains(
        t, first_error(t, "mirror(string.rep('" UMLAUT "', 201), { number = '1', name = 'p', plane = 'x' })", NULL),
        "longer than 400 bytes");
    const sw_stove *s = read_stove(t, "group(string.rep('" UMLAUT
                                      "', 40), {})\nparameter('w', 4*mm, {}, string.rep('" UMLAUT "', 200))");
    if (s == NULL) return;
    sw_true(t, strlen(s->groups[1].name) == 80 && strlen(s->parameters[0].meaning) == 400);
}

static void messages_never_part_a_letter(sw_test *t)
{
    static const char *const texts[] = {"item { name = 'x' .. string.rep('" UMLAUT "', 60), titel = 1 }",
                                        "piece { name = 'x' .. string.rep('" UMLAUT "', 60) }",
                                        "hole { d = 'x' .. string.rep('" UMLAUT "', 60) }",
                                        "parameter('x', 1*mm, 'x' .. string.rep('" UMLAUT "', 60))"};
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        (void)first_error(t, texts[i], NULL);
        for (size_t k = 0; k < t->run.error_count && k < SW_ERROR_MAX; k++) {
            const sw_error *e = &t->run.errors[k];
            sw_true(t, sw_text_is_utf8(e->text, strlen(e->text)) && sw_text_is_utf8(e->field, strlen(e->field)));
        }
    }
}

SW_TESTS(SW_CASE(a_program_keeps_every_line_of_its_start), SW_CASE(a_program_with_too_much_in_it_is_refused),
         SW_CASE(holes_and_marks_beyond_the_limit_are_refused), SW_CASE(pieces_beyond_the_limit_are_refused),
         SW_CASE(a_chain_of_thousands_of_pieces_is_read), SW_CASE(a_chain_that_goes_round_is_refused_at_its_place),
         SW_CASE(each_name_taken_twice_is_told_once), SW_CASE(what_is_done_after_the_text_has_run_is_counted_too),
         SW_CASE(an_outline_of_the_most_corners_is_read_and_named_apart), SW_CASE(names_too_long_are_refused_not_cut),
         SW_CASE(messages_never_part_a_letter))
