#include "reading.h"

#include <stdio.h>

static const char *text_error(sw_test *t, const char *text)
{
    const sw_model *model = NULL;
    sw_status status = read_status(t, text, NULL, &model);
    sw_true(t, status != SW_OK && model == NULL);
    return t->run.error_count > 0 ? t->run.errors[0].text : "";
}

static void nothing_dangerous_is_within_reach(sw_test *t)
{
    static const char *const names[] = {
        "io",     "os",     "debug",      "package",        "require",      "load",         "loadfile", "dofile",
        "pcall",  "xpcall", "coroutine",  "collectgarbage", "getmetatable", "setmetatable", "print",    "next",
        "rawset", "rawget", "loadstring", "warn",           "_G",           "utf8"};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++)
        sw_contains(t, text_error(t, sw_text_format(&t->run, t->run.keep, "local x = %s", names[i])), "unknown name");
}

static void library_tables_hold_only_bounded_functions(sw_test *t)
{
    static const char *const names[] = {"string.find", "string.match",    "string.gsub", "string.gmatch", "string.dump",
                                        "math.random", "math.randomseed", "table.move",  "('').find",     "('').gsub"};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++)
        sw_contains(t, text_error(t, sw_text_format(&t->run, t->run.keep, "%s('a')", names[i])),
                    "attempt to call a nil value");
}

static void a_loop_without_end_stops_at_the_step_limit(sw_test *t)
{
    sw_design_options few = sw_design_options_defaults();
    few.steps = 1e5;
    const char *text = "\nwhile true do end";
    sw_design_texts in = {.stove = {"loop.lua", text, strlen(text)}, .options = &few};
    const sw_model *model = NULL;
    sw_true(t, sw_design_read_texts(&t->run, &in, &model) == SW_BAD_INPUT);
    sw_contains(t, t->run.errors[0].text, "more than 100000 steps");
    sw_true(t, t->run.errors[0].place.line == 2);
}

static sw_status bounded(sw_test *t, const char *text)
{
    sw_design_options small = sw_design_options_defaults();
    small.steps = 1e6;
    small.memory_mb = 4.0;
    sw_design_texts in = {.stove = {"grow.lua", text, strlen(text)}, .options = &small};
    const sw_model *model = NULL;
    sw_run_clear_errors(&t->run);
    return sw_design_read_texts(&t->run, &in, &model);
}

static void a_text_that_doubles_ends_in_no_memory(sw_test *t)
{
    sw_true(t, bounded(t, "local s = 'x' while true do s = s .. s end") == SW_NO_MEMORY);
    sw_contains(t, t->run.errors[0].text, "4 MB");
    sw_true(t, bounded(t, "local s = string.rep('x', 100000) while true do local u = s .. 'y' end") == SW_NO_MEMORY);
    sw_true(t, bounded(t, "local t = {} for i = 1, 1e9 do t[i] = i end") == SW_NO_MEMORY);
    sw_true(t, bounded(t, "string.rep('x', 1e10)") == SW_BAD_INPUT);
}

static const char *last_text(const sw_test *t)
{
    return t->run.error_count == 0 ? "" : t->run.errors[t->run.error_count - 1].text;
}

/* The loop ends by itself after some ten thousand instructions: only what is charged inside the calls exceeds the
 * million. */
static void work_inside_one_call_counts_as_steps(sw_test *t)
{
    static const char *const calls[] = {"table.sort(t)", "table.concat(t)", "for k in pairs(t) do break end",
                                        "local s = string.rep('x', 10000)"};
    for (size_t i = 0; i < sizeof calls / sizeof *calls; i++)
        for (int times = 1; times <= 250; times += 249) {
            const char *text = sw_text_format(&t->run, t->run.keep,
                                              "local t = {} for i = 1, 10000 do t[i] = 1 end for i = 1, %d do %s end",
                                              times, calls[i]);
            sw_true(t, bounded(t, text) == SW_BAD_INPUT); /* once: there is no stove */
            sw_contains(t, last_text(t), times == 1 ? "is missing" : "steps");
        }
}

static void constructors_count_as_steps(sw_test *t)
{
    static const char *const calls[] = {
        "hole { at = {0*mm, 0*mm}, d = 3*mm }", "local x = row { h, step = {9*mm, 0*mm}, count = 100 }",
        "local x = window { o }", "local x = polygon { {0*mm, 0*mm}, {9*mm, 0*mm}, {9*mm, 9*mm}, {0*mm, 9*mm} }"};
    for (size_t i = 0; i < sizeof calls / sizeof *calls; i++)
        for (int times = 1; times <= 12000; times += 11999) {
            const char *text = sw_text_format(
                &t->run, t->run.keep, "local h, o = hole { d = 3*mm }, disc { d = 90*mm } for i = 1, %d do %s end",
                times, calls[i]);
            sw_true(t, bounded(t, text) == SW_BAD_INPUT);
            sw_contains(t, last_text(t), times == 1 ? "is missing" : "steps");
        }
}

static void deep_recursion_is_a_clear_error(sw_test *t)
{
    sw_contains(t, text_error(t, "local function f(n) return 1 + f(n + 1) end f(1)"), "too deeply");
    char nested[2048] = "local x = ";
    for (int i = 0; i < 300; i++) strcat(nested, "{");
    sw_contains(t, text_error(t, nested), "too deeply");
}

static void a_face_that_contains_itself_is_refused(sw_test *t)
{
    static const char *const bends[] = {"{ b }", "{ b, b, b }"};
    for (int i = 0; i < 2; i++) {
        const char *text = sw_text_format(
            &t->run, t->run.keep,
            "local f = { outline = rectangle {9*mm, 9*mm} }\nlocal b = { on = 'left', face = f }\nf.bends = %s\n"
            "piece { number = '1', name = 'p', group = 'g', material = 'S235', thickness = 3*mm, face = f, "
            "place = { at = {0*mm, 0*mm, 0*mm} } }",
            bends[i]);
        sw_contains(t, first_error(t, text, NULL), "contain");
    }
}

static void bytecode_is_refused(sw_test *t)
{
    static const char code[] = "\033Lua\x54\x00\x19\x93\r\n\x1a\n";
    sw_design_texts in = {.stove = {"code.lua", code, sizeof code - 1}};
    const sw_model *model = NULL;
    sw_true(t, sw_design_read_texts(&t->run, &in, &model) == SW_BAD_INPUT);
    sw_contains(t, t->run.errors[0].text, "binary");
}

static void syntax_errors_name_their_line(sw_test *t)
{
    sw_contains(t, text_error(t, "local a = 1\nlocal b = = 2"), "unexpected symbol");
    sw_true(t, t->run.errors[0].place.line == 2);
    sw_same_text(t, t->run.errors[0].place.file, "test.stove.lua");
}

static void an_error_without_a_text_is_still_reported(sw_test *t)
{
    sw_contains(t, text_error(t, "error({})"), "without a text");
    sw_contains(t, text_error(t, "error()"), "without a text");
    sw_contains(t, text_error(t, "error('the door is wider than the front')"), "the door is wider");
    sw_contains(t, text_error(t, "assert(1 > 2, 'no')"), "no");
}

static void pairs_walks_in_sorted_order(sw_test *t)
{
    const sw_stove *stove = read_stove(
        t, "local s = '' for k, v in pairs({ zeta = 1, beta = 2, [3] = 'c', alpha = 3, [1] = 'a', [2] = 'b' }) do "
           "s = s .. k .. ' ' end group(s, {})");
    if (stove != NULL) sw_same_text(t, stove->groups[1].name, "1 2 3 alpha beta zeta ");
}

static void no_address_can_be_seen(sw_test *t)
{
    const sw_stove *stove = read_stove(t, "group(tostring({}) .. tostring(tostring) .. string.format('%s', {}), {})");
    if (stove != NULL) sw_same_text(t, stove->groups[1].name, "tablefunctiontable");
    sw_contains(t, text_error(t, "string.format('%p', 'a')"), "%p");
    sw_contains(t, text_error(t, "string.format('%-20p', 'a')"), "%p");
    sw_contains(t, text_error(t, "string.format('\\0%p', 'a')"), "%p");
    sw_contains(t, text_error(t, "string.format('%%%d\\0\\0 %5p', 1, 'a')"), "%p");
}

static void faults_before_a_run_error_are_all_reported(sw_test *t)
{
    (void)text_error(
        t, "group('g', { titel = 'x' })\nopening { name = 'o' }\nlocal x = nil + 1\ngroup('h', { titel = 1 })");
    sw_true(t, t->run.error_count == 5);
    sw_true(t, t->run.errors[4].place.line == 3);
    sw_contains(t, t->run.errors[4].text, "arithmetic on a nil value");
}

static void a_cancelled_run_stops(sw_test *t)
{
    atomic_int stop = 1;
    t->run.cancel = &stop;
    const sw_model *model = NULL;
    sw_true(t, read_status(t, "for i = 1, 1e9 do end", NULL, &model) == SW_CANCELLED);
    t->run.cancel = NULL;
}

static void the_same_text_gives_the_same_model_twice(sw_test *t)
{
    const char *text = "local n = 0 for k in pairs({ a = 1, b = 2, c = 3 }) do n = n + 1 group(k .. n, {}) end";
    const sw_stove *one = read_stove(t, text), *other = read_stove(t, text);
    if (one == NULL || other == NULL) return;
    sw_true(t, one->group_count == 4 && other->group_count == 4);
    for (size_t i = 0; i < one->group_count; i++) sw_same_text(t, one->groups[i].name, other->groups[i].name);
}

SW_TESTS(SW_CASE(nothing_dangerous_is_within_reach), SW_CASE(library_tables_hold_only_bounded_functions),
         SW_CASE(a_loop_without_end_stops_at_the_step_limit), SW_CASE(a_text_that_doubles_ends_in_no_memory),
         SW_CASE(work_inside_one_call_counts_as_steps), SW_CASE(constructors_count_as_steps),
         SW_CASE(deep_recursion_is_a_clear_error), SW_CASE(a_face_that_contains_itself_is_refused),
         SW_CASE(bytecode_is_refused), SW_CASE(syntax_errors_name_their_line),
         SW_CASE(an_error_without_a_text_is_still_reported), SW_CASE(pairs_walks_in_sorted_order),
         SW_CASE(no_address_can_be_seen), SW_CASE(faults_before_a_run_error_are_all_reported),
         SW_CASE(a_cancelled_run_stops), SW_CASE(the_same_text_gives_the_same_model_twice))
