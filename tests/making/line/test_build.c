/* The line study: tasks made of pieces, bodies and steps. */
#include "line_scenes.h"

/* ---- the builder -------------------------------------------------------------------------------------------------------------- */

static size_t task_named(const scene *s, const char *name)
{
    for (size_t i = 0; i < s->in.task_count; i++)
        if (strcmp(s->in.tasks[i].name, name) == 0) return i;
    return SIZE_MAX;
}

static bool follows(const scene *s, const char *then, const char *first)
{
    size_t i = task_named(s, then), j = task_named(s, first);
    if (i == SIZE_MAX || j == SIZE_MAX) return false;
    for (size_t a = 0; a < s->in.tasks[i].after_count; a++)
        if (s->in.tasks[i].after[a] == j) return true;
    return false;
}

static void the_builder_chains_pieces_bodies_and_steps(sw_test *t)
{
    const scene *s = scene_make(t, 6, 1);
    sw_true(t, follows(s, "deburr side 2", "cut side 2") && follows(s, "bend side 2", "deburr side 2"));
    sw_true(t, follows(s, "tack casing", "bend side 2") && follows(s, "tack furnace", "deburr plate 1"));
    sw_true(t, follows(s, "weld furnace", "tack furnace") && follows(s, "cure casing", "coat casing"));
    sw_true(t, follows(s, "line furnace", "cure furnace") && follows(s, "line furnace", "cure casing"));
    sw_true(t, follows(s, "glaze door", "line furnace") && follows(s, "fit door", "glaze door"));
    sw_true(t, follows(s, "look over", "fit grate") && !follows(s, "fit door", "fit grate"));
    const sw_line_task *cut = &s->in.tasks[task_named(s, "cut side 2")];
    sw_near(t, cut->run_s, 27 + 2, 1e-9, "derived: 20 + 7 and the station's handling");
    sw_near(t, s->in.tasks[task_named(s, "pack")].run_s, 420 + 55, 1e-9, "derived: handling by mass, the furnace's");
    sw_near(t, s->in.tasks[task_named(s, "deburr side 2")].run_s, 800.0 / 80 + 6, 1e-9, "derived: edge over speed");
}

static const char *done_at(const scene *s, const sw_line_result *r, const char *task)
{
    size_t i = task_named(s, task);
    size_t k = r == NULL || i == SIZE_MAX ? SIZE_MAX : r->routes[i].station;
    return k == SIZE_MAX ? "" : s->works.stations[k].name;
}

static void what_is_welded_by_hand_goes_to_the_hand_station_or_to_the_robots(sw_test *t)
{
    scene *s = scene_make(t, 6, 1);
    s->bodies[0].hand_weld_s = 240;
    sw_ok(t, sw_line_tasks_make(&t->run, &s->figures, &s->in.tasks, &s->in.task_count));
    sw_true(t, follows(s, "weld furnace by hand", "weld furnace"));
    sw_same_text(t, done_at(s, scene_solved(t, s), "weld furnace by hand"), "robot");
    size_t last = s->works.station_count++;
    s->stations[last] = (sw_station){
        .name = "booth", .operation = SW_OP_HAND_WELD, .machines = 1, .people = 1, .rate_h = 50, .each_s = 30, .up = 1};
    sw_ok(t, sw_line_tasks_make(&t->run, &s->figures, &s->in.tasks, &s->in.task_count));
    const sw_line_result *r = scene_solved(t, s);
    sw_same_text(t, done_at(s, r, "weld furnace by hand"), "booth");
    sw_same_text(t, done_at(s, r, "weld furnace"), "robot");
    if (r == NULL) return;
    sw_near(t, r->loads[last].stove_s, 240 + 30, 1e-6, "derived: its own time and handling");
    s->stations[last].rate_h = 100;
    const sw_line_result *dear = scene_solved(t, s);
    double more = dear == NULL ? (double)NAN : dear->cost.unit - r->cost.unit;
    sw_near(t, more, 50 * sw_h_from_s(270), 1e-6, "derived: the rate of its own station");
}

static void the_builder_refuses_names_that_are_not_there_and_rings(sw_test *t)
{
    scene *s = scene_make(t, 3, 1);
    s->pieces[0].body = "attic";
    s->bodies[1].into = "roof";
    s->steps[2].after = "glaze door, sing";
    sw_true(t, sw_line_tasks_make(&t->run, &s->figures, &s->in.tasks, &s->in.task_count) == SW_BAD_INPUT);
    sw_true(t, t->run.error_count == 3);
    sw_run_clear_errors(&t->run);
    s = scene_make(t, 3, 1);
    s->bodies[0].into = "casing";
    sw_true(t, sw_line_tasks_make(&t->run, &s->figures, &s->in.tasks, &s->in.task_count) == SW_BAD_INPUT);
    sw_contains(t, t->run.errors[0].text, "furnace, casing");
    sw_run_clear_errors(&t->run);
    s = scene_make(t, 3, 1);
    s->stations[1].deburr_mm_s = 0;
    sw_true(t, sw_line_tasks_make(&t->run, &s->figures, &s->in.tasks, &s->in.task_count) == SW_BAD_INPUT);
    sw_contains(t, t->run.errors[0].text, "deburring");
    sw_run_clear_errors(&t->run);
}

SW_TESTS(SW_CASE(the_builder_chains_pieces_bodies_and_steps),
         SW_CASE(what_is_welded_by_hand_goes_to_the_hand_station_or_to_the_robots),
         SW_CASE(the_builder_refuses_names_that_are_not_there_and_rings))
