/* The line study: laws of every schedule, and what one more machine, person or shift would do. */
#include "line_scenes.h"

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
         SW_CASE(a_second_shift_halves_the_days_and_costs_the_premium), SW_CASE(memory_that_runs_out_is_told))
