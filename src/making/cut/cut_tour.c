/* cut_tour.c: a short way through points: nearest neighbour, then 2-opt and or-opt until nothing gains.
 *
 * Croes 1958 (2-opt); Or 1976 (moving up to three neighbours elsewhere); both from memory. Rounds are limited, so the
 * cost stays near count^2. */
#include "making/cut/cut_parts.h"

enum { ROUNDS = 30 };

typedef struct tour {
    sw_point *stops;    /* where it begins, then [count] points in the order of the tour, then perhaps where it ends */
    size_t *order;      /* [count] which point stops[i + 1] is */
    size_t count, legs; /* legs: one more than count when it has an end */
    size_t idle;        /* starts of moves tried since the last that gained: once all are, nothing more can */
} tour;

static double square(sw_point a, sw_point b)
{
    sw_point d = cut_minus(a, b);
    return d.x_mm * d.x_mm + d.y_mm * d.y_mm;
}

/* Squared length of the leg that ends at place i; none after the last. */
static double leg2(const tour *t, size_t i)
{
    return i >= t->legs ? 0 : square(t->stops[i], t->stops[i + 1]);
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

static void reverse(tour *t, size_t first, size_t last)
{
    while (first < last) swap_stops(t, first++, last--);
}

static void nearest_neighbour(tour *t)
{
    for (size_t i = 0; i < t->count; i++) {
        size_t best = i;
        double best2 = leg2(t, i);
        for (size_t k = i + 1; k < t->count; k++) {
            double k2 = square(t->stops[i], t->stops[k + 1]);
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
        const sw_point *a = &t->stops[i], *c = &t->stops[k + 1];
        double b_to_d2 = k + 1 < t->legs ? square(a[1], c[1]) : 0;
        if (!cut_shorter(square(*a, *c), b_to_d2, square(a[0], a[1]), leg2(t, k + 1))) continue;
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
        double tail2 = to < t->legs ? square(tail, t->stops[to + 1]) : 0;
        if (!cut_shorter(square(t->stops[to], head), tail2, freed2, leg2(t, to))) continue;
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

static void improve(tour *t)
{
    if (t->count < 2) return;
    for (int round = 0; round < ROUNDS && !settled(t); round++) {
        two_opt_round(t);
        or_opt_round(t);
    }
}

void cut_tour(sw_point *stops, size_t count, size_t *order)
{
    tour t = {stops, order, count, count, 0};
    for (size_t i = 0; i < count; i++) order[i] = i;
    nearest_neighbour(&t);
    improve(&t);
}

void cut_tour_between(sw_point *stops, size_t count, size_t *order)
{
    tour t = {stops, order, count, count + 1, 0};
    improve(&t);
}
