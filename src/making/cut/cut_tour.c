/* cut_tour.c: a short open way through points: nearest neighbour, then 2-opt and or-opt until nothing gains.
 *
 * Croes 1958 (2-opt); Or 1976 (moving up to three neighbours elsewhere); both from memory. Rounds are limited, so the
 * cost stays near count^2. */
#include "making/cut/cut_parts.h"

#include <string.h>

enum { ROUNDS = 30 };

typedef struct tour {
    const sw_point *points;
    sw_point from;
    size_t *order;
    size_t count;
} tour;

/* Place i of the tour; -1 is where it begins. */
static sw_point stop(const tour *t, size_t i_plus_1)
{
    return i_plus_1 == 0 ? t->from : t->points[t->order[i_plus_1 - 1]];
}

/* Length of the leg that ends at place i; none after the last. */
static double leg(const tour *t, size_t i)
{
    return i >= t->count ? 0 : cut_distance(stop(t, i), stop(t, i + 1));
}

static void nearest_neighbour(tour *t)
{
    sw_point at = t->from;
    for (size_t i = 0; i < t->count; i++) {
        size_t best = i;
        for (size_t k = i + 1; k < t->count; k++)
            if (cut_distance(at, t->points[t->order[k]]) < cut_distance(at, t->points[t->order[best]])) best = k;
        size_t chosen = t->order[best];
        t->order[best] = t->order[i];
        t->order[i] = chosen;
        at = t->points[chosen];
    }
}

static void reverse(size_t *items, size_t first, size_t last)
{
    while (first < last) {
        size_t swapped = items[first];
        items[first++] = items[last];
        items[last--] = swapped;
    }
}

static bool two_opt_round(tour *t)
{
    bool better = false;
    for (size_t i = 0; i + 1 < t->count; i++)
        for (size_t k = i + 1; k < t->count; k++) {
            double now = leg(t, i) + leg(t, k + 1);
            double then = cut_distance(stop(t, i), stop(t, k + 1));
            if (k + 1 < t->count) then += cut_distance(stop(t, i + 1), stop(t, k + 2));
            if (then >= now - SW_SAME_POINT_MM) continue;
            reverse(t->order, i, k);
            better = true;
        }
    return better;
}

/* Moves order[first .. first+size) so that it comes before place `to` (to outside of the run). */
static void move_run(size_t *order, size_t first, size_t size, size_t to)
{
    size_t moved[3];
    memcpy(moved, order + first, size * sizeof *moved);
    if (to > first) {
        memmove(order + first, order + first + size, (to - first - size) * sizeof *order);
        memcpy(order + to - size, moved, size * sizeof *moved);
        return;
    }
    memmove(order + to + size, order + to, (first - to) * sizeof *order);
    memcpy(order + to, moved, size * sizeof *moved);
}

static bool improve_run(tour *t, size_t first, size_t size)
{
    sw_point head = stop(t, first + 1), tail = stop(t, first + size);
    bool last = first + size == t->count;
    double freed = leg(t, first) + leg(t, first + size);
    if (!last) freed -= cut_distance(stop(t, first), stop(t, first + size + 1));
    for (size_t to = 0; to <= t->count; to++) {
        if (to >= first && to <= first + size) continue;
        double added = cut_distance(stop(t, to), head);
        if (to < t->count) added += cut_distance(tail, stop(t, to + 1)) - leg(t, to);
        if (added >= freed - SW_SAME_POINT_MM) continue;
        move_run(t->order, first, size, to);
        return true;
    }
    return false;
}

static bool or_opt_round(tour *t)
{
    bool better = false;
    for (size_t size = 1; size <= 3; size++)
        for (size_t first = 0; first + size <= t->count; first++) better = improve_run(t, first, size) || better;
    return better;
}

void cut_tour(const sw_point *points, size_t count, sw_point from, size_t *order)
{
    tour t = {points, from, order, count};
    for (size_t i = 0; i < count; i++) order[i] = i;
    nearest_neighbour(&t);
    bool better = count > 2;
    for (int round = 0; round < ROUNDS && better; round++) {
        better = two_opt_round(&t);
        better = or_opt_round(&t) || better;
    }
}
