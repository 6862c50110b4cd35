/* The line study: what a stove costs, and what is refused or found wanting. */
#include "line_scenes.h"

/* ---- cost ---------------------------------------------------------------------------------------------------------------------- */

static void the_lines_of_the_cost_add_up(sw_test *t)
{
    const scene *s = scene_make(t, 46, 10);
    const sw_line_result *r = scene_solved(t, s);
    double lines = 0, kinds = 0, shares = 0;
    for (size_t i = 0; i < r->cost.line_count; i++) {
        lines += r->cost.lines[i].stove;
        shares += r->cost.lines[i].share;
        sw_true(t, i == 0 || r->cost.lines[i].stove <= r->cost.lines[i - 1].stove);
    }
    for (int k = 0; k < SW_MONEYS; k++) kinds += r->cost.by_kind[k];
    sw_near(t, lines, r->cost.base, 1e-9 * r->cost.base, "law: sum of the lines");
    sw_near(t, kinds, r->cost.base, 1e-9 * r->cost.base, "law: sum of the kinds");
    sw_near(t, shares, 1, 1e-9, "law: shares");
    sw_near(t, r->cost.base, 1.18 * r->cost.unit, 1e-9 * r->cost.base, "workshop handbook 12.4: overhead");
    sw_near(t, r->cost.by_kind[SW_MONEY_SHEET], 75 + 25 - 5, 1e-9, "derived: sheets less credit");
    sw_near(t, r->cost.batch, 10 * r->cost.base, 1e-9 * r->cost.batch, "derived");
    sw_true(t, r->cost.by_kind[SW_MONEY_SET_UP] >= r->cost.set_up_least * (1 - 1e-9));
}

/* The worked example with its own stations: one task each, set up once. */
static void the_worked_example_costs_what_the_handbook_says(sw_test *t)
{
    const double run_min[] = {6.5, 14, 9, 38, 12, 25, 40}, rate_h[] = {95, 52, 48, 50, 46, 44, 42};
    const double up_min[] = {12, 25, 15, 10, 0, 20, 0};
    const sw_operation ops[] = {SW_OP_CUT, SW_OP_BEND, SW_OP_ROLL, SW_OP_WELD, SW_OP_BLAST, SW_OP_COAT, SW_OP_ASSEMBLE};
    sw_line_task tasks[7];
    sw_station stations[7];
    for (int i = 0; i < 7; i++) {
        tasks[i] = (sw_line_task){.name = "task", .part = "x", .operation = ops[i], .run_s = sw_s_from_min(run_min[i])};
        tasks[i].set_up_s = sw_s_from_min(up_min[i]);
        tasks[i].count = 1;
        stations[i] =
            (sw_station){.name = "station", .operation = ops[i], .machines = 1, .people = 1, .rate_h = rate_h[i]};
    }
    const sw_line_material material = {"all", SW_MONEY_ITEM, 1, "", 112.40, 0};
    scene *s = scene_make(t, 1, 8);
    s->works.stations = stations;
    s->works.station_count = 7;
    s->in.tasks = tasks;
    s->in.task_count = 7;
    s->in.materials = &material;
    s->in.material_count = 1;
    const sw_line_result *r = scene_solved(t, s);
    const char *source = "workshop handbook W12.7, computed";
    sw_near(t, r->cost.by_kind[SW_MONEY_MACHINE] + r->cost.by_kind[SW_MONEY_LABOUR], 116.825, 5e-4, source);
    sw_near(t, r->cost.by_kind[SW_MONEY_SET_UP], 9.458, 5e-4, source);
    sw_near(t, r->cost.unit, 238.683, 5e-4, source);
    sw_near(t, r->cost.base, 281.646, 5e-4, source);
    sw_near(t, r->batch_costs[0].unit, 112.40 + 116.825 + 75.667, 5e-4, source);
}

static void larger_batches_cost_less_each(sw_test *t)
{
    const sw_line_result *r = scene_solved(t, scene_make(t, 20, 5));
    for (size_t i = 1; i < r->batch_cost_count; i++) sw_true(t, r->batch_costs[i].unit < r->batch_costs[i - 1].unit);
    sw_true(t, r->batch_costs[2].batch == 5 && r->batch_costs[2].unit <= r->cost.unit * (1 + 1e-9));
}

/* ---- findings and refusals --------------------------------------------------------------------------------------------------- */

static void a_bottleneck_above_takt_fails_and_near_it_is_watched(sw_test *t)
{
    scene *s = scene_make(t, 46, 10);
    const sw_line_result *r = scene_solved(t, s);
    const sw_line_load *slow = &r->loads[r->bottleneck];
    sw_near(t, r->takt_s, 5 * 8 * sw_s_from_h(1) / 10, 1e-9, "workshop handbook 12.1: takt");
    s->works.labour.wanted_week = 5 * 8 * sw_s_from_h(1) / (0.8 * slow->pace_s);
    const sw_line_result *too_much = scene_solved(t, s);
    const sw_finding *f = scene_finding(too_much, "takt", slow->station);
    if (sw_true(t, f != NULL)) sw_true(t, f->verdict == SW_FAILS && f->remedy[0] != '\0');
    s->works.labour.wanted_week = 5 * 8 * sw_s_from_h(1) / (1.05 * slow->pace_s);
    f = scene_finding(scene_solved(t, s), "takt", slow->station);
    if (sw_true(t, f != NULL)) sw_true(t, f->verdict == SW_WATCH);
    s->works.labour.wanted_week = 5 * 8 * sw_s_from_h(1) / (3 * slow->pace_s);
    f = scene_finding(scene_solved(t, s), "takt", slow->station);
    if (sw_true(t, f != NULL)) sw_true(t, f->verdict == SW_HOLDS);
}

static void a_station_without_a_machine_is_named_and_costs_are_still_given(sw_test *t)
{
    scene *s = scene_make(t, 10, 4);
    s->stations[2].machines = 0;
    const sw_line_result *r = scene_solved(t, s);
    const sw_finding *f = scene_finding(r, "machine", "press brake");
    if (sw_true(t, f != NULL)) sw_true(t, f->verdict == SW_FAILS);
    sw_true(t, r->plan == NULL && r->what_if_count == 0 && r->cost.unit > 0);
}

static void an_operation_without_a_station_is_named(sw_test *t)
{
    scene *s = scene_make(t, 10, 4);
    s->stations[8].operation = SW_OP_BLAST; /* the coating booth is gone */
    const sw_line_result *r = scene_solved(t, s);
    const sw_finding *f = scene_finding(r, "station", "coat");
    if (sw_true(t, f != NULL)) sw_true(t, f->verdict == SW_FAILS);
    sw_true(t, r->plan == NULL);
}

static void a_machine_that_needs_more_people_than_there_are_is_named(sw_test *t)
{
    scene *s = scene_make(t, 10, 4);
    s->stations[4].people = 3;
    s->in.people = 2;
    const sw_finding *f = scene_finding(scene_solved(t, s), "people", "tacking");
    if (sw_true(t, f != NULL)) sw_true(t, f->verdict == SW_FAILS);
}

static void negative_times_are_refused_and_name_the_task(sw_test *t)
{
    scene *s = scene_make(t, 10, 4);
    s->pieces[2].bend_s = -30;
    s->pieces[3].cut_set_up_s = NAN;
    const sw_line_result *r = NULL;
    sw_ok(t, sw_line_tasks_make(&t->run, &s->figures, &s->in.tasks, &s->in.task_count));
    sw_true(t, sw_line_solve(&t->run, &s->in, &s->opt, &r) == SW_OUT_OF_RANGE && r == NULL);
    sw_true(t, t->run.error_count == 2);
    sw_contains(t, t->run.errors[0].text, "bend channel 3");
    sw_contains(t, t->run.errors[1].text, "cut shell 4");
    sw_run_clear_errors(&t->run);
}

static void a_ring_of_predecessors_is_refused_and_named(sw_test *t)
{
    const size_t two[] = {2}, none[] = {0}, one[] = {1};
    const sw_line_task tasks[] = {
        {.name = "weld", .part = "x", .operation = SW_OP_WELD, .run_s = 1, .count = 1, .after = two, .after_count = 1},
        {.name = "blast",
         .part = "x",
         .operation = SW_OP_BLAST,
         .run_s = 1,
         .count = 1,
         .after = none,
         .after_count = 1},
        {.name = "coat", .part = "x", .operation = SW_OP_COAT, .run_s = 1, .count = 1, .after = one, .after_count = 1}};
    scene *s = scene_make(t, 1, 2);
    const sw_line_result *r = NULL;
    s->in.tasks = tasks;
    s->in.task_count = 3;
    sw_true(t, sw_line_solve(&t->run, &s->in, &s->opt, &r) == SW_BAD_INPUT && r == NULL);
    sw_contains(t, t->run.errors[0].text, "weld, blast, coat, weld");
    sw_run_clear_errors(&t->run);
}

static void all_wrong_figures_are_told_at_once(sw_test *t)
{
    const size_t far[] = {77};
    const sw_line_task tasks[] = {
        {.name = "a", .part = "x", .operation = SW_OP_CUT, .run_s = 1, .count = 0, .unattended = 2},
        {.name = "b",
         .part = "x",
         .operation = SW_OP_CUT,
         .run_s = 1,
         .count = 1,
         .station = "nowhere",
         .after = far,
         .after_count = 1}};
    scene *s = scene_make(t, 1, 2);
    const sw_line_result *r = NULL;
    s->in.tasks = tasks;
    s->in.task_count = 2;
    s->materials[0].cost = -1;
    s->stations[1].up = 1.5;
    s->works.labour.overhead = NAN;
    sw_true(t, sw_line_solve(&t->run, &s->in, &s->opt, &r) != SW_OK);
    sw_true(t, t->run.error_count == 7);
    sw_run_clear_errors(&t->run);
    s->in.batch = 0;
    sw_true(t, sw_line_solve(&t->run, &s->in, &s->opt, &r) == SW_OUT_OF_RANGE);
    s->in.batch = 2;
    s->opt.rounds = -1;
    sw_true(t, sw_line_solve(&t->run, &s->in, &s->opt, &r) == SW_OUT_OF_RANGE);
    sw_run_clear_errors(&t->run);
}

static void works_that_say_nothing_of_hours_have_no_takt_but_a_plan(sw_test *t)
{
    scene *s = scene_make(t, 10, 3);
    s->works.labour = (sw_labour){0};
    const sw_line_result *r = scene_solved(t, s);
    sw_true(t, isnan(r->takt_s) && isnan(r->plan->days) && r->plan->makespan_s > 0 && r->balance == NULL);
    const sw_finding *f = scene_finding(r, "takt", r->loads[r->bottleneck].station);
    if (sw_true(t, f != NULL)) sw_true(t, f->verdict == SW_UNKNOWN);
}

static void hand_work_is_balanced_within_takt(sw_test *t)
{
    const scene *s = scene_make(t, 10, 3);
    const sw_line_result *r = scene_solved(t, s);
    if (!sw_true(t, r->balance != NULL)) return;
    sw_true(t, r->balance->proved && r->balance_count == 9);
    for (size_t k = 0; k < r->balance->stations; k++) sw_true(t, r->balance->loads_s[k] <= r->takt_s);
    double sum_s = 0, had_s = 0;
    for (size_t k = 0; k < r->balance->stations; k++) {
        sum_s += r->balance->loads_s[k];
        had_s = fmax(had_s, r->balance->loads_s[k]);
    }
    if (!sw_true(t, r->balance_even != NULL && r->balance_even->stations <= r->balance->stations)) return;
    double fullest_s = 0;
    for (size_t k = 0; k < r->balance_even->stations; k++) fullest_s = fmax(fullest_s, r->balance_even->loads_s[k]);
    sw_true(t, fullest_s <= had_s);
    sw_true(t, fullest_s >= sum_s / (double)r->balance->stations * (1 - 1e-9));
}

SW_TESTS(SW_CASE(the_lines_of_the_cost_add_up), SW_CASE(the_worked_example_costs_what_the_handbook_says),
         SW_CASE(larger_batches_cost_less_each), SW_CASE(a_bottleneck_above_takt_fails_and_near_it_is_watched),
         SW_CASE(a_station_without_a_machine_is_named_and_costs_are_still_given),
         SW_CASE(an_operation_without_a_station_is_named),
         SW_CASE(a_machine_that_needs_more_people_than_there_are_is_named),
         SW_CASE(negative_times_are_refused_and_name_the_task), SW_CASE(a_ring_of_predecessors_is_refused_and_named),
         SW_CASE(all_wrong_figures_are_told_at_once), SW_CASE(works_that_say_nothing_of_hours_have_no_takt_but_a_plan),
         SW_CASE(hand_work_is_balanced_within_takt))
