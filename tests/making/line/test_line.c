/* The line study: laws of every schedule, cost, and what is refused or found wanting. */
#include "line_scenes.h"

#include <stdio.h>

/* ---- laws of a schedule ----------------------------------------------------------------------------------------------------- */

typedef struct seen {
    const scene *s;
    const sw_line_result *r;
    const sw_line_bar **of; /* [task * batch + stove] */
} seen;

static bool each_once(sw_test *t, seen *v)
{
    size_t batch = v->s->in.batch, count = v->s->in.task_count * batch, found = 0;
    v->of = SW_KEEP(&t->run, count, const sw_line_bar *);
    for (size_t i = 0; i < v->r->plan->bar_count; i++) found += v->r->plan->bars[i].stoves;
    return sw_true(t, found == count);
}

/* Stoves of an oven's load need not stand side by side: bars name the first alone, so loads are checked by number. */
static bool tasks_in_order(sw_test *t, seen *v)
{
    size_t batch = v->s->in.batch;
    const sw_line_input *in = &v->s->in;
    for (size_t i = 0; i < v->r->plan->bar_count; i++) {
        const sw_line_bar *b = &v->r->plan->bars[i];
        if (!sw_true(t, b->start_s <= b->run_from_s && b->run_from_s <= b->end_s)) return false;
        if (in->tasks[b->task].together <= 1) v->of[b->task * batch + b->stove] = b;
    }
    for (size_t i = 0; i < in->task_count; i++)
        for (size_t j = 0; j < batch; j++)
            for (size_t a = 0; a < in->tasks[i].after_count; a++) {
                const sw_line_bar *then = v->of[i * batch + j], *first = v->of[in->tasks[i].after[a] * batch + j];
                if (then == NULL || first == NULL) continue;
                double from_s = first->end_s + in->tasks[first->task].rest_s;
                if (!sw_true(t, then->start_s >= from_s - 1e-6)) return false;
            }
    return true;
}

static bool machines_one_at_a_time(sw_test *t, const seen *v)
{
    const sw_line_plan *p = v->r->plan;
    double free_s[SCENE_STATIONS][8] = {{0}};
    for (size_t i = 0; i < p->bar_count; i++) {
        const sw_line_bar *b = &p->bars[i];
        if (!sw_true(t, b->machine < v->r->loads[b->station].machines)) return false;
        if (!sw_true(t, b->start_s >= free_s[b->station][b->machine] - 1e-6)) return false;
        free_s[b->station][b->machine] = b->end_s;
    }
    return true;
}

static bool people_enough(sw_test *t, const seen *v)
{
    const sw_line_plan *p = v->r->plan;
    for (size_t i = 0; i < p->people_count; i++)
        if (!sw_true(t, p->people[i].count <= v->r->people)) return false;
    return sw_true(t, p->people_count == 0 || p->people[p->people_count - 1].count == 0);
}

static bool sums_agree(sw_test *t, const seen *v)
{
    const sw_line_plan *p = v->r->plan;
    double last_s = 0, sum_s = 0, area_s = 0;
    for (size_t j = 0; j < v->s->in.batch; j++) {
        last_s = fmax(last_s, p->stove_end_s[j]);
        sum_s += p->stove_end_s[j] - p->stove_start_s[j];
    }
    for (size_t i = 0; i + 1 < p->under_way_count; i++)
        area_s += (double)p->under_way[i].count * (p->under_way[i + 1].at_s - p->under_way[i].at_s);
    double n = (double)v->s->in.batch;
    return sw_near(t, p->makespan_s, last_s, 1e-9 * last_s, "derived: the last stove ends the batch") &&
           sw_near(t, p->flow_s, sum_s / n, 1e-9 * last_s, "derived: mean flow time") &&
           sw_near(t, area_s, sum_s, 1e-9 * last_s * n, "law: Little, area under the stoves under way") &&
           sw_near(t, p->under_way_mean, n / p->makespan_s * p->flow_s, 1e-9 * n, "law: Little 1961") &&
           sw_true(t, p->makespan_s >= p->bound_s * (1 - 1e-9));
}

static void lawful(sw_test *t, const scene *s)
{
    seen v = {.s = s, .r = scene_solved(t, s)};
    if (v.r == NULL || !sw_true(t, v.r->plan != NULL)) return;
    bool good = each_once(t, &v) && tasks_in_order(t, &v) && machines_one_at_a_time(t, &v) && people_enough(t, &v);
    if (good) (void)sums_agree(t, &v);
}

static void schedules_keep_order_machines_people_and_sums(sw_test *t)
{
    lawful(t, scene_make(t, 46, 20));
}

static void random_works_are_scheduled_lawfully(sw_test *t)
{
    for (uint64_t seed = 1; seed <= 40; seed++) {
        t->seed = seed;
        sw_random r = sw_random_seeded(seed);
        scene *s = scene_make(t, 5 + sw_random_below(&r, 20), 1 + sw_random_below(&r, 9));
        for (size_t k = 0; k < SCENE_STATIONS; k++) {
            s->stations[k].machines = 1 + sw_random_below(&r, 3);
            s->stations[k].buffer = sw_random_below(&r, 3);
            s->stations[k].people = sw_random_below(&r, 3);
        }
        s->in.people = sw_random_below(&r, 2) * (2 + sw_random_below(&r, 5));
        s->opt.rounds = 20;
        s->opt.what_if_rounds = 1;
        s->opt.seed = (double)seed;
        lawful(t, s);
        if (t->failures > 0) return;
    }
    t->seed = 0;
}

/* Stoves begun at what leads to a station with places, and not yet with their last part on one of its machines. */
static void buffers_never_hold_more_stoves_than_places(sw_test *t)
{
    scene *s = scene_make(t, 20, 8);
    s->stations[5].buffer = 1; /* robot; fed by tacking alone */
    const sw_line_result *r = scene_solved(t, s);
    size_t batch = s->in.batch;
    for (size_t i = 0; i < r->plan->bar_count; i++) {
        double at_s = r->plan->bars[i].end_s, from_s[8], to_s[8];
        for (size_t j = 0; j < batch; j++) from_s[j] = INFINITY, to_s[j] = 0;
        for (size_t b = 0; b < r->plan->bar_count; b++) {
            const sw_line_bar *bar = &r->plan->bars[b];
            if (bar->station == 4) from_s[bar->stove] = fmin(from_s[bar->stove], bar->start_s);
            if (bar->station == 5) to_s[bar->stove] = fmax(to_s[bar->stove], bar->start_s);
        }
        size_t held = 0;
        for (size_t j = 0; j < batch; j++) held += from_s[j] < at_s - 1e-6 && to_s[j] > at_s + 1e-6;
        if (!sw_true(t, held <= 1)) return;
    }
}

static void same_seed_gives_the_same_schedule(sw_test *t)
{
    const scene *s = scene_make(t, 30, 6);
    const sw_line_result *a = scene_solved(t, s), *b = scene_solved(t, s);
    sw_true(t, a->plan->bar_count == b->plan->bar_count);
    for (size_t i = 0; i < a->plan->bar_count; i++)
        if (!sw_true(t, memcmp(&a->plan->bars[i], &b->plan->bars[i], sizeof *a->plan->bars) == 0)) return;
}

static void one_stove_alone_takes_its_longest_way_when_everything_is_at_hand(sw_test *t)
{
    scene *s = scene_make(t, 10, 1);
    for (size_t k = 0; k < SCENE_STATIONS; k++) s->stations[k].machines = 10;
    for (size_t i = 0; i < 10; i++)
        s->pieces[i].cut_set_up_s = s->pieces[i].bend_set_up_s = s->pieces[i].roll_set_up_s = 0;
    for (size_t i = 0; i < 2; i++) s->bodies[i].weld_set_up_s = s->bodies[i].coat_set_up_s = 0;
    sw_ok(t, sw_line_tasks_make(&t->run, &s->figures, &s->in.tasks, &s->in.task_count));
    const sw_line_result *r = scene_solved(t, s);
    sw_near(t, r->plan->makespan_s, r->longest_way_s, 1e-6, "law: critical path");
    sw_near(t, r->plan->bound_s, r->longest_way_s, 1e-6, "law: critical path");
}

/* A flow shop of three machines as a line: the batch of equal jobs takes the sum and (n - 1) times the slowest. */
static void equal_stoves_through_a_plain_flow_take_the_textbook_time(sw_test *t)
{
    const size_t first[] = {0}, second[] = {1};
    const sw_line_task tasks[] = {
        {.name = "a", .part = "x", .operation = SW_OP_CUT, .run_s = 100, .count = 1},
        {.name = "b", .part = "x", .operation = SW_OP_TACK, .run_s = 250, .count = 1, .after = first, .after_count = 1},
        {.name = "c",
         .part = "x",
         .operation = SW_OP_PACK,
         .run_s = 60,
         .count = 1,
         .after = second,
         .after_count = 1}};
    scene *s = scene_make(t, 1, 7);
    s->in.tasks = tasks;
    s->in.task_count = 3;
    s->stations[4].machines = 1;
    const sw_line_result *r = scene_solved(t, s);
    const char *source = "flow shop of equal jobs: sum + (n - 1) longest, any text on scheduling";
    sw_near(t, r->plan->makespan_s, 410 + 6 * 250, 1e-9, source);
    sw_near(t, r->plan->bound_s, 410 + 6 * 250, 1e-9, source);
    sw_near(t, r->loads[r->bottleneck].pace_s, 250, 1e-9, source);
    s->stations[4].machines = 2;
    r = scene_solved(t, s);
    sw_near(t, r->plan->makespan_s, 1160, 1e-9, "derived: two tacking places, followed by hand");
}

static void an_oven_takes_several_stoves_in_one_run(sw_test *t)
{
    const sw_line_task cure = {.name = "cure",
                               .part = "x",
                               .operation = SW_OP_CURE,
                               .run_s = 3000,
                               .count = 1,
                               .together = 4,
                               .unattended = 1};
    scene *s = scene_make(t, 1, 10);
    s->in.tasks = &cure;
    s->in.task_count = 1;
    const sw_line_result *r = scene_solved(t, s);
    sw_near(t, r->plan->makespan_s, 9000, 1e-9, "derived: 4 + 4 + 2 stoves, three runs");
    sw_near(t, r->loads[9].run_s, 9000, 1e-9, "derived: three runs");
    sw_true(t, r->plan->bar_count == 3 && r->plan->bars[0].stoves == 4 && r->plan->bars[2].stoves == 2);
}

static void tasks_of_one_group_share_a_set_up(sw_test *t)
{
    sw_line_task tasks[4];
    for (int i = 0; i < 4; i++)
        tasks[i] = (sw_line_task){.name = "bend",
                                  .part = "x",
                                  .operation = SW_OP_BEND,
                                  .set_up_s = 600,
                                  .run_s = 10,
                                  .count = 1,
                                  .set_up_group = i % 2 == 0 ? "V 16" : "V 24"};
    scene *s = scene_make(t, 1, 5);
    s->in.tasks = tasks;
    s->in.task_count = 4;
    const sw_line_result *r = scene_solved(t, s);
    sw_near(t, r->plan->makespan_s, 2 * 600 + 20 * 10, 1e-9, "derived: each group once, then all runs");
    sw_true(t, r->loads[2].set_ups == 2 && r->plan->gap < 1e-9);
}

static void resting_needs_no_machine_and_delays_what_follows(sw_test *t)
{
    const size_t first[] = {0};
    const sw_line_task tasks[] = {
        {.name = "coat", .part = "x", .operation = SW_OP_COAT, .run_s = 100, .count = 1, .rest_s = 5000},
        {.name = "pack",
         .part = "x",
         .operation = SW_OP_PACK,
         .run_s = 10,
         .count = 1,
         .after = first,
         .after_count = 1}};
    scene *s = scene_make(t, 1, 3);
    s->in.tasks = tasks;
    s->in.task_count = 2;
    const sw_line_result *r = scene_solved(t, s);
    sw_near(t, r->plan->makespan_s, 3 * 100 + 5000 + 10, 1e-9, "derived: three coats, one rest, one packing");
}

static void fewer_people_take_longer_and_the_bound_knows(sw_test *t)
{
    scene *s = scene_make(t, 20, 6);
    const sw_line_result *many = scene_solved(t, s);
    s->in.people = 1;
    const sw_line_result *one = scene_solved(t, s);
    sw_true(t, one->plan->makespan_s > many->plan->makespan_s);
    sw_same_text(t, one->plan->bound_by, "people");
    sw_true(t, one->plan->people_most == 1 && one->plan->gap < 0.35);
}

/* ---- what-if ---------------------------------------------------------------------------------------------------------------- */

static void one_more_never_makes_the_batch_longer(sw_test *t)
{
    scene *s = scene_make(t, 30, 8);
    s->in.people = 4;
    const sw_line_result *r = scene_solved(t, s);
    double best_s = 0;
    sw_true(t, r->what_if_count == s->works.station_count + 2);
    for (size_t i = 0; i < r->what_if_count; i++) {
        const sw_line_what_if *w = &r->what_ifs[i];
        sw_true(t, w->makespan_change_s <= 0);
        sw_near(t, w->makespan_s - w->makespan_change_s, r->plan->makespan_s, 1e-6,
                "derived: against the works as they are");
        best_s = fmin(best_s, w->makespan_change_s);
    }
    sw_true(t, best_s < 0);
}

static void a_second_shift_halves_the_days_and_costs_the_premium(sw_test *t)
{
    const scene *s = scene_make(t, 20, 5);
    const sw_line_result *r = scene_solved(t, s);
    const sw_line_what_if *w = &r->what_ifs[r->what_if_count - 1];
    sw_same_text(t, w->what, "a second shift");
    sw_near(t, w->days, r->plan->days / 2, 1e-9, "derived: twice the hours a day");
    sw_true(t, w->unit_change > 0 && w->unit_change < 0.25 * r->cost.unit);
}

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

static void memory_that_runs_out_is_told(sw_test *t)
{
    const scene *s = scene_make(t, 8, 3);
    for (size_t n = 1; n <= 120; n += 7) {
        const sw_line_result *r = NULL;
        sw_arena_fail_at(t->run.scratch, n);
        sw_status status = sw_line_solve(&t->run, &s->in, &s->opt, &r);
        sw_arena_fail_at(t->run.scratch, 0);
        if (!sw_true(t, status == SW_OK || (status == SW_NO_MEMORY && r == NULL))) return;
    }
    sw_run_clear_errors(&t->run);
}

SW_TESTS(SW_CASE(schedules_keep_order_machines_people_and_sums), SW_CASE(random_works_are_scheduled_lawfully),
         SW_CASE(buffers_never_hold_more_stoves_than_places), SW_CASE(same_seed_gives_the_same_schedule),
         SW_CASE(one_stove_alone_takes_its_longest_way_when_everything_is_at_hand),
         SW_CASE(equal_stoves_through_a_plain_flow_take_the_textbook_time),
         SW_CASE(an_oven_takes_several_stoves_in_one_run), SW_CASE(tasks_of_one_group_share_a_set_up),
         SW_CASE(resting_needs_no_machine_and_delays_what_follows),
         SW_CASE(fewer_people_take_longer_and_the_bound_knows), SW_CASE(one_more_never_makes_the_batch_longer),
         SW_CASE(a_second_shift_halves_the_days_and_costs_the_premium), SW_CASE(the_lines_of_the_cost_add_up),
         SW_CASE(the_worked_example_costs_what_the_handbook_says), SW_CASE(larger_batches_cost_less_each),
         SW_CASE(a_bottleneck_above_takt_fails_and_near_it_is_watched),
         SW_CASE(a_station_without_a_machine_is_named_and_costs_are_still_given),
         SW_CASE(an_operation_without_a_station_is_named),
         SW_CASE(a_machine_that_needs_more_people_than_there_are_is_named),
         SW_CASE(negative_times_are_refused_and_name_the_task), SW_CASE(a_ring_of_predecessors_is_refused_and_named),
         SW_CASE(all_wrong_figures_are_told_at_once), SW_CASE(works_that_say_nothing_of_hours_have_no_takt_but_a_plan),
         SW_CASE(hand_work_is_balanced_within_takt), SW_CASE(the_builder_chains_pieces_bodies_and_steps),
         SW_CASE(what_is_welded_by_hand_goes_to_the_hand_station_or_to_the_robots),
         SW_CASE(the_builder_refuses_names_that_are_not_there_and_rings), SW_CASE(memory_that_runs_out_is_told))
