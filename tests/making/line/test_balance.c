/* Line balancing: published sets with their optima, and laws on random lines. */
#include "making/line/line.h"
#include "sw_test.h"

#include <math.h>
#include <string.h>

static const char *const files = "data: Scholl 1993, data files (found); optimum: workshop handbook 12.2";

typedef struct set {
    double times_s[64];
    sw_before before[96];
    sw_balance_input in;
} set;

/* "1-2 1-3": numbered from 1. */
static set set_of(const double *times_s, size_t count, const char *pairs)
{
    set s = {.in = {.count = count, .nodes = 2e6}};
    memcpy(s.times_s, times_s, count * sizeof *times_s);
    for (const char *p = pairs; *p != '\0';) {
        size_t ends[2] = {0, 0};
        for (int e = 0; e < 2; e++) {
            while (*p >= '0' && *p <= '9') ends[e] = 10 * ends[e] + (size_t)(*p++ - '0');
            if (*p != '\0') p++;
        }
        s.before[s.in.before_count++] = (sw_before){ends[0] - 1, ends[1] - 1};
    }
    return s;
}

static const sw_balance_input *input(set *s)
{
    s->in.times_s = s->times_s;
    s->in.before = s->before;
    return &s->in;
}

/* Every task in a station, none before what it waits for, no load above the cycle. */
static bool holds(sw_test *t, const sw_balance_input *in, const sw_balance *b)
{
    double loads_s[SW_BALANCE_TASKS] = {0};
    bool good = true;
    for (size_t i = 0; i < in->count; i++) {
        good = good && sw_true(t, b->station[i] < b->stations);
        loads_s[b->station[i]] += in->times_s[i];
    }
    for (size_t i = 0; i < in->before_count; i++)
        good = good && sw_true(t, b->station[in->before[i].first] <= b->station[in->before[i].then]);
    for (size_t k = 0; k < b->stations; k++) good = good && sw_true(t, loads_s[k] <= b->cycle_s * (1 + 1e-8));
    return good;
}

static void fewest(sw_test *t, set *s, double cycle_s, double stations, const char *source)
{
    const sw_balance *b = NULL;
    if (!sw_ok(t, sw_balance_stations(&t->run, input(s), cycle_s, &b))) return;
    sw_near(t, (double)b->stations, stations, 0, source);
    sw_true(t, b->proved && b->bound == stations);
    holds(t, &s->in, b);
}

static void shortest(sw_test *t, set *s, size_t stations, double cycle_s, const char *source)
{
    const sw_balance *b = NULL;
    if (!sw_ok(t, sw_balance_cycle(&t->run, input(s), stations, &b))) return;
    sw_near(t, b->cycle_s, cycle_s, 1e-9, source);
    sw_true(t, b->proved && b->stations <= stations);
    holds(t, &s->in, b);
}

static set bowman(void)
{
    return set_of((const double[]){11, 17, 9, 5, 8, 12, 10, 3}, 8, "1-2 2-3 2-4 3-5 3-6 4-6 5-7 6-8");
}

static set jackson(void)
{
    return set_of((const double[]){6, 2, 5, 7, 1, 2, 3, 6, 5, 5, 4}, 11,
                  "1-2 1-3 1-4 1-5 2-6 3-7 4-7 5-7 6-8 7-9 8-10 9-11 10-11");
}

static void bowman_needs_five_stations_at_20(sw_test *t)
{
    set s = bowman();
    fewest(t, &s, 20, 5, files);
}

static void jackson_has_the_published_stations(sw_test *t)
{
    set s = jackson();
    const double cycles_s[] = {7, 9, 10, 13, 14, 21}, stations[] = {8, 6, 5, 4, 4, 3};
    for (int i = 0; i < 6; i++) fewest(t, &s, cycles_s[i], stations[i], files);
    const sw_balance *b = NULL;
    sw_ok(t, sw_balance_stations(&t->run, input(&s), 10, &b));
    sw_near(t, b->efficiency, 0.92, 1e-12, "workshop handbook W12.4, computed");
}

static void jackson_has_the_computed_cycles(sw_test *t)
{
    set s = jackson();
    const double cycles_s[] = {23, 16, 12, 10, 9, 8, 7};
    for (size_t m = 2; m <= 8; m++)
        shortest(t, &s, m, cycles_s[m - 2], "workshop handbook 12.2: Jackson SALBP-2, computed");
}

/* Dynamic programming over all sets closed under precedence: fewest stations for each cycle. Shares nothing with the
 * search. */
static double by_sets(const sw_balance_input *in, double cycle_s)
{
    static double used[1 << 12]; /* stations + share of the last one that is full */
    size_t all = (size_t)1 << in->count;
    for (size_t set_ = 0; set_ < all; set_++) used[set_] = set_ == 0 ? 0 : (double)INFINITY;
    for (size_t set_ = 0; set_ < all; set_++) {
        if (isinf(used[set_])) continue;
        for (size_t i = 0; i < in->count; i++) {
            if ((set_ >> i & 1) != 0) continue;
            bool open = true;
            for (size_t k = 0; k < in->before_count; k++)
                open = open && (in->before[k].then != i || (set_ >> in->before[k].first & 1) != 0);
            if (!open) continue;
            double full = ceil(used[set_] - 1e-9), room = full - used[set_], share = in->times_s[i] / cycle_s;
            double then = share <= room + 1e-9 ? used[set_] + share : full + share;
            size_t next = set_ | (size_t)1 << i;
            if (then < used[next]) used[next] = then;
        }
    }
    return ceil(used[all - 1] - 1e-9);
}

static void mansoor_and_jaeschke_agree_with_dynamic_programming(sw_test *t)
{
    set m = set_of((const double[]){4, 38, 45, 12, 10, 8, 12, 10, 2, 10, 34}, 11,
                   "1-4 2-4 2-5 3-11 4-6 5-7 6-8 7-9 8-10 9-10 10-11");
    set j = set_of((const double[]){5, 3, 4, 5, 4, 5, 1, 4, 6}, 9, "1-2 1-3 2-4 3-4 4-5 4-6 4-7 5-8 6-9 7-9 8-9");
    const char *source = "data: Scholl 1993 (found); optimum: dynamic programming over all closed sets";
    for (double c_s = 45; c_s <= 100; c_s += 3) fewest(t, &m, c_s, by_sets(input(&m), c_s), source);
    for (double c_s = 6; c_s <= 20; c_s += 1) fewest(t, &j, c_s, by_sets(input(&j), c_s), source);
}

static set kilbridge(void)
{
    const double times_s[] = {9,  9,  10, 10, 17, 17, 13, 13, 20, 20, 10, 11, 6, 22, 11, 19, 12, 3,  7,  4, 55, 14, 27,
                              29, 26, 6,  5,  24, 4,  5,  7,  4,  15, 3,  7,  9, 4,  7,  5,  4,  21, 12, 6, 5,  5};
    return set_of(times_s, 45,
                  "1-3 1-7 2-4 2-8 3-5 4-6 5-9 6-10 7-9 7-14 8-10 8-14 9-41 10-41 11-13 12-13 12-37 13-14 13-15 14-17 "
                  "14-25 14-29 14-30 14-31 14-32 15-16 15-18 15-23 15-24 16-19 17-26 17-27 18-19 19-20 19-33 20-21 "
                  "21-22 22-28 23-33 24-33 25-26 26-38 27-28 27-33 28-38 29-41 30-41 31-41 32-41 33-34 33-35 33-36 "
                  "34-38 35-40 36-38 37-43 38-40 39-41 40-41 41-42 42-44 42-45");
}

static void kilbridge_and_wester_have_the_published_stations(sw_test *t)
{
    set s = kilbridge();
    const double cycles_s[] = {57, 79, 92, 110, 138, 184}, stations[] = {10, 7, 6, 6, 4, 3};
    for (int i = 0; i < 6; i++) fewest(t, &s, cycles_s[i], stations[i], files);
}

static set random_line(uint64_t seed, size_t most)
{
    sw_random r = sw_random_seeded(seed);
    set s = {.in = {.count = 3 + sw_random_below(&r, most - 2), .nodes = 2e6}};
    for (size_t i = 0; i < s.in.count; i++) s.times_s[i] = (double)(1 + sw_random_below(&r, 20));
    for (size_t i = 0; i < s.in.count; i++)
        for (size_t j = i + 1; j < s.in.count && s.in.before_count < 96; j++)
            if (sw_random_below(&r, 4) == 0) s.before[s.in.before_count++] = (sw_before){i, j};
    return s;
}

static void random_lines_agree_with_dynamic_programming(sw_test *t)
{
    for (uint64_t seed = 1; seed <= 150; seed++) {
        t->seed = seed;
        set s = random_line(seed, 11);
        double c_s = 20 + (double)(seed % 15);
        fewest(t, &s, c_s, by_sets(input(&s), c_s), "invariance: dynamic programming over all closed sets");
        if (t->failures > 0) return;
    }
    t->seed = 0;
}

/* Duality: with the shortest cycle of m stations no fewer than m fit a shorter one. */
static void shortest_cycles_are_where_the_stations_step(sw_test *t)
{
    for (uint64_t seed = 1; seed <= 60; seed++) {
        t->seed = seed;
        set s = random_line(seed, 11);
        const sw_balance *b = NULL;
        size_t m = 2 + seed % 3;
        if (!sw_ok(t, sw_balance_cycle(&t->run, input(&s), m, &b)) || !sw_true(t, b->proved)) return;
        if (!sw_true(t, by_sets(&s.in, b->cycle_s) <= (double)m)) return;
        double most_s = 0;
        for (size_t i = 0; i < s.in.count; i++) most_s = fmax(most_s, s.times_s[i]);
        if (b->cycle_s > most_s && !sw_true(t, by_sets(&s.in, b->cycle_s - 1) > (double)m)) return;
    }
    t->seed = 0;
}

static void too_few_nodes_are_told_and_give_a_line_all_the_same(sw_test *t)
{
    set s = kilbridge();
    const sw_balance *b = NULL;
    s.in.nodes = 50;
    sw_ok(t, sw_balance_stations(&t->run, input(&s), 92, &b));
    sw_true(t, !b->proved && b->bound == 6 && b->stations > 6);
    holds(t, &s.in, b);
    sw_ok(t, sw_balance_cycle(&t->run, input(&s), 6, &b));
    sw_true(t, !b->proved && b->bound <= b->cycle_s);
    holds(t, &s.in, b);
}

static void tasks_longer_than_the_cycle_and_rings_are_refused(sw_test *t)
{
    set s = bowman();
    const sw_balance *b = NULL;
    sw_true(t, sw_balance_stations(&t->run, input(&s), 16, &b) == SW_OUT_OF_RANGE && b == NULL);
    sw_contains(t, t->run.errors[0].text, "longer than the cycle");
    s.before[s.in.before_count++] = (sw_before){7, 1};
    sw_run_clear_errors(&t->run);
    sw_true(t, sw_balance_stations(&t->run, input(&s), 20, &b) == SW_BAD_INPUT);
    sw_contains(t, t->run.errors[0].text, "task 8");
    s.in.before_count--;
    s.times_s[3] = -5;
    sw_run_clear_errors(&t->run);
    sw_true(t, sw_balance_cycle(&t->run, input(&s), 3, &b) == SW_OUT_OF_RANGE);
    sw_contains(t, t->run.errors[0].text, "task 4");
    sw_run_clear_errors(&t->run);
}

SW_TESTS(SW_CASE(bowman_needs_five_stations_at_20), SW_CASE(jackson_has_the_published_stations),
         SW_CASE(jackson_has_the_computed_cycles), SW_CASE(mansoor_and_jaeschke_agree_with_dynamic_programming),
         SW_CASE(kilbridge_and_wester_have_the_published_stations),
         SW_CASE(random_lines_agree_with_dynamic_programming), SW_CASE(shortest_cycles_are_where_the_stations_step),
         SW_CASE(too_few_nodes_are_told_and_give_a_line_all_the_same),
         SW_CASE(tasks_longer_than_the_cycle_and_rings_are_refused))
