/* cut_tour.c: a short way through points: nearest neighbour, then 2-opt and or-opt until nothing gains.
 *
 * Croes 1958 (2-opt); Or 1976 (moving up to three neighbours elsewhere); both from memory. Rounds are limited, so the
 * cost stays near count^2. */
#include "making/cut/cut_legs.h"

enum { ROUNDS = 30 };

typedef struct tour {
    sw_point *stops;    /* where it begins, then [count] points in the order of the tour, then perhaps where it ends */
    size_t *order;      /* [count] which point stops[i + 1] is */
    size_t count, legs; /* legs: one more than count when it has an end */
    size_t idle;        /* starts of moves tried since the last that gained: once all are, nothing more can */
    cut_legs *blocks;   /* block b is of the legs from stop i to the next, i from b CUT_LEGS on; NULL = few legs */
} tour;

/* Squared length of the leg that ends at place i; none after the last. */
static double leg2(const tour *t, size_t i)
{
    return i >= t->legs ? 0 : cut_square(t->stops[i], t->stops[i + 1]);
}

static void swap_stops(tour *t, size_t i, size_t k)
{
    size_t index = t->order[i];
    sw_point stop = t->stops[i + 1];
    t->order[i] = t->order[k];
    t->stops[i + 1] = t->stops[k + 1];
    t->order[k] = index;
    t->stops[k + 1] = stop;
}

static void measure_block(tour *t, size_t b)
{
    cut_legs made = cut_legs_none();
    for (size_t i = b * CUT_LEGS; i < (b + 1) * CUT_LEGS && i < t->legs; i++)
        cut_legs_add(&made, t->stops[i], t->stops[i + 1], leg2(t, i));
    t->blocks[b] = made;
}

/* Of the legs from stop `first` to stop `last`. */
static void measure_legs(tour *t, size_t first, size_t last)
{
    for (size_t b = first / CUT_LEGS; t->blocks != NULL && b <= last / CUT_LEGS; b++) measure_block(t, b);
}

static void reverse(tour *t, size_t first, size_t last)
{
    for (size_t i = first, k = last; i < k; i++, k--) swap_stops(t, i, k);
    measure_legs(t, first, last + 1);
}

/* Whether no leg of the whole block that leg k is in can be exchanged together with a way of squared length p2 for ways from its begin to p and from its end to q so that one of the two becomes shorter. */
static bool out_of_reach(const tour *t, size_t k, sw_point p, double p2, sw_point q)
{
    bool whole = t->blocks != NULL && (k / CUT_LEGS + 1) * CUT_LEGS <= t->legs;
    return whole && cut_legs_out_of_reach(&t->blocks[k / CUT_LEGS], p, p2, q);
}

static void nearest_neighbour(tour *t)
{
    for (size_t i = 0; i < t->count; i++) {
        size_t best = i;
        double best2 = leg2(t, i);
        for (size_t k = i + 1; k < t->count; k++) {
            double k2 = cut_square(t->stops[i], t->stops[k + 1]);
            if (k2 >= best2) continue;
            best = k;
            best2 = k2;
        }
        swap_stops(t, i, best);
    }
}

/* Whether all moves have been tried in vain: count - 1 starts of a 2-opt, 3 count - 3 of an or-opt. */
static bool settled(const tour *t)
{
    return t->idle >= 4 * t->count;
}

static void two_opt_from(tour *t, size_t i)
{
    t->idle++;
    for (size_t k = i + 1; k < t->count; k++) {
        bool asks = k == i + 1 || (k + 1) % CUT_LEGS == 0;
        if (asks && out_of_reach(t, k + 1, t->stops[i], leg2(t, i), t->stops[i + 1])) {
            k = (k + 1) / CUT_LEGS * CUT_LEGS + CUT_LEGS - 2; /* before its last leg */
            continue;
        }
        const sw_point *a = &t->stops[i], *c = &t->stops[k + 1];
        double b_to_d2 = k + 1 < t->legs ? cut_square(a[1], c[1]) : 0;
        if (!cut_shorter(cut_square(*a, *c), b_to_d2, cut_square(a[0], a[1]), leg2(t, k + 1))) continue;
        reverse(t, i, k);
        t->idle = 0;
    }
}

static void two_opt_round(tour *t)
{
    for (size_t i = 0; i + 1 < t->count && !settled(t); i++) two_opt_from(t, i);
}

/* Moves the stops of order[first .. first+size) so that they come before place `to` (to outside of the run): three
 * reversals turn the run and what it passes over, and put both the right way round. */
static void move_run(tour *t, size_t first, size_t size, size_t to)
{
    size_t low = to < first ? to : first, high = to < first ? first + size : to;
    size_t middle = to < first ? low + size : high - size;
    reverse(t, low, high - 1);
    reverse(t, low, middle - 1);
    reverse(t, middle, high - 1);
}

static void improve_run(tour *t, size_t first, size_t size)
{
    t->idle++;
    sw_point head = t->stops[first + 1], tail = t->stops[first + size];
    double freed = sqrt(leg2(t, first)) + sqrt(leg2(t, first + size));
    if (first + size < t->legs) freed -= cut_distance(t->stops[first], t->stops[first + size + 1]);
    double freed2 = freed > 0 ? freed * freed : 0;
    for (size_t to = 0; to <= t->count; to++) {
        if (to >= first && to <= first + size) continue;
        if (to % CUT_LEGS == 0 && out_of_reach(t, to, head, freed2, tail)) {
            to += CUT_LEGS - 1;
            continue;
        }
        double tail2 = to < t->legs ? cut_square(tail, t->stops[to + 1]) : 0;
        if (!cut_shorter(cut_square(t->stops[to], head), tail2, freed2, leg2(t, to))) continue;
        move_run(t, first, size, to);
        t->idle = 0;
        return;
    }
}

static void or_opt_round(tour *t)
{
    for (size_t size = 1; size <= 3; size++)
        for (size_t first = 0; first + size <= t->count && !settled(t); first++) improve_run(t, first, size);
}

static sw_status improve(sw_run *run, tour *t)
{
    if (t->count < 2) return SW_OK;
    if (t->legs >= CUT_LEGS) {
        t->blocks = SW_SCRATCH(run, t->legs / CUT_LEGS + 1, cut_legs);
        if (t->blocks == NULL) return SW_NO_MEMORY;
        measure_legs(t, 0, t->legs - 1);
    }
    for (int round = 0; round < ROUNDS && !settled(t); round++) {
        two_opt_round(t);
        or_opt_round(t);
    }
    return SW_OK;
}

sw_status cut_tour(sw_run *run, sw_point *stops, size_t count, size_t *order)
{
    tour t = {.stops = stops, .order = order, .count = count, .legs = count};
    for (size_t i = 0; i < count; i++) order[i] = i;
    nearest_neighbour(&t);
    return improve(run, &t);
}

sw_status cut_tour_between(sw_run *run, sw_point *stops, size_t count, size_t *order)
{
    tour t = {.stops = stops, .order = order, .count = count, .legs = count + 1};
    return improve(run, &t);
}
