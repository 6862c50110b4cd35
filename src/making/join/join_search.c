/* join_search.c: an order of few seams by trying all; of many by the nearest next, then 2-opt and or-opt (Croes 1958, Or
 * 1976) until neither helps. */
#include "making/join/join_order_parts.h"

#include <string.h>

static const double early_s = 1e4; /* of a seam that comes before one it must follow: never worth it (ours) */
static const double hair_s = 1e-9;

static double way_s(const robot_tour *t, sw_vec3 from, sw_vec3 to)
{
    return (join_apart(from, to) + 2 * t->back_mm) / t->air_mm_s;
}

/* Least air over both directions of every seam. */
static double air_cost(const robot_tour *t, const size_t *order, size_t count)
{
    double best[2] = {0, t->stops[order[0]].one_way ? INFINITY : 0};
    for (size_t i = 1; i < count; i++) {
        const robot_stop *p = &t->stops[order[i - 1]], *q = &t->stops[order[i]];
        double next[2];
        for (int d = 0; d < 2; d++) {
            next[d] = fmin(best[0] + way_s(t, p->ends[1], q->ends[d]), best[1] + way_s(t, p->ends[0], q->ends[d]));
            if (d == 1 && q->one_way) next[d] = INFINITY;
        }
        memcpy(best, next, sizeof best);
    }
    return fmin(best[0], best[1]);
}

/* As few turns as the order allows: one only when no way up suits all seams since the last. */
static double turn_cost(const robot_tour *t, const size_t *order, size_t count)
{
    unsigned ups = t->stops[order[0]].ups;
    double sum_s = 0;
    for (size_t i = 1; i < count; i++) {
        unsigned both = ups & t->stops[order[i]].ups;
        if (both == 0) sum_s += t->turn_s;
        ups = both != 0 ? both : t->stops[order[i]].ups;
    }
    return sum_s;
}

/* What pulls already the same way is more than half of what the seam adds (ours). */
bool robot_same_side(sw_vec3 pulled, sw_vec3 pull)
{
    return sw_vec3_dot(pulled, pull) > 0.5 * sw_vec3_dot(pull, pull);
}

static double pull_cost(const robot_tour *t, const size_t *order, size_t count)
{
    sw_vec3 pulled = {0, 0, 0};
    double sum_s = 0;
    for (size_t i = 0; i < count; i++) {
        sw_vec3 pull = t->stops[order[i]].pull;
        if (robot_same_side(pulled, pull)) sum_s += t->balance_s;
        pulled = sw_vec3_add(pulled, pull);
    }
    return sum_s;
}

static double early_cost(const robot_tour *t, const size_t *order, size_t count)
{
    double sum_s = 0;
    if (!t->any_after) return 0;
    for (size_t i = 0; i < count; i++)
        for (size_t k = i + 1; k < count; k++)
            if (t->after[order[i] * t->count + order[k]]) sum_s += early_s;
    return sum_s;
}

double robot_cost(const robot_tour *t, const size_t *order, size_t count)
{
    if (count == 0) return 0;
    return air_cost(t, order, count) + turn_cost(t, order, count) + pull_cost(t, order, count) +
           early_cost(t, order, count);
}

/* ---- all orders -------------------------------------------------------------------------------------- */

typedef struct trial {
    const robot_tour *tour;
    size_t order[ROBOT_ALL], best[ROBOT_ALL];
    double least_s;
} trial;

static void swap(size_t *order, size_t i, size_t k)
{
    size_t held = order[i];
    order[i] = order[k];
    order[k] = held;
}

/* No cost falls when a seam is added, so a start that costs as much as the best is given up. */
static void try_all(trial *t, size_t placed)
{
    size_t count = t->tour->count;
    double cost_s = robot_cost(t->tour, t->order, placed);
    if (cost_s >= t->least_s - hair_s) return;
    if (placed == count) {
        t->least_s = cost_s;
        memcpy(t->best, t->order, count * sizeof *t->best);
        return;
    }
    for (size_t i = placed; i < count; i++) {
        swap(t->order, placed, i);
        try_all(t, placed + 1);
        swap(t->order, placed, i);
    }
}

/* ---- many -------------------------------------------------------------------------------------------------- */

static void nearest_next(const robot_tour *t, size_t first, size_t *order)
{
    for (size_t i = 0; i < t->count; i++) order[i] = i;
    swap(order, 0, first);
    for (size_t at = 1; at + 1 < t->count; at++) {
        size_t best = at;
        double least_s = INFINITY;
        for (size_t i = at; i < t->count; i++) {
            swap(order, at, i);
            double cost_s = robot_cost(t, order, at + 1);
            swap(order, at, i);
            if (cost_s >= least_s - hair_s) continue;
            least_s = cost_s;
            best = i;
        }
        swap(order, at, best);
    }
}

static void reverse(size_t *order, size_t from, size_t to)
{
    for (; from < to; from++, to--) swap(order, from, to);
}

static bool two_opt(const robot_tour *t, size_t *order, double *cost_s)
{
    bool better = false;
    for (size_t i = 0; i + 1 < t->count; i++)
        for (size_t k = i + 1; k < t->count; k++) {
            reverse(order, i, k);
            double now_s = robot_cost(t, order, t->count);
            if (now_s < *cost_s - hair_s) {
                *cost_s = now_s;
                better = true;
            } else
                reverse(order, i, k);
        }
    return better;
}

/* Takes `length` seams from place `from` and puts them at place `to`. */
static void moved(const size_t *order, size_t count, size_t from, size_t length, size_t to, size_t *out)
{
    size_t n = 0;
    for (size_t i = 0; i < count; i++)
        if (i < from || i >= from + length) out[n++] = order[i];
    memmove(&out[to + length], &out[to], (count - length - to) * sizeof *out);
    memcpy(&out[to], &order[from], length * sizeof *out);
}

static bool or_opt(const robot_tour *t, size_t *order, size_t *room, double *cost_s)
{
    bool better = false;
    for (size_t length = 1; length <= 3 && length < t->count; length++)
        for (size_t from = 0; from + length <= t->count; from++)
            for (size_t to = 0; to + length <= t->count; to++) {
                if (to == from) continue;
                moved(order, t->count, from, length, to, room);
                double now_s = robot_cost(t, room, t->count);
                if (now_s >= *cost_s - hair_s) continue;
                memcpy(order, room, t->count * sizeof *order);
                *cost_s = now_s;
                better = true;
            }
    return better;
}

static sw_status improve(sw_run *run, const robot_tour *t, size_t *order)
{
    enum { ROUNDS_MAX = 30, STARTS_MAX = 12 };
    size_t *room = SW_SCRATCH(run, t->count, size_t), *best = SW_SCRATCH(run, t->count, size_t);
    double least_s = INFINITY;
    if (room == NULL || best == NULL) return SW_NO_MEMORY;
    size_t starts = t->count < STARTS_MAX ? t->count : STARTS_MAX;
    for (size_t s = 0; s < starts; s++) {
        nearest_next(t, s * t->count / starts, room);
        double cost_s = robot_cost(t, room, t->count);
        if (cost_s >= least_s - hair_s) continue;
        least_s = cost_s;
        memcpy(best, room, t->count * sizeof *best);
    }
    memcpy(order, best, t->count * sizeof *order);
    for (int round = 0; round < ROUNDS_MAX; round++) {
        bool two = two_opt(t, order, &least_s), moves = or_opt(t, order, room, &least_s);
        if (!two && !moves) break;
        if (sw_run_cancelled(run)) break;
    }
    return SW_OK;
}

sw_status robot_search(sw_run *run, const robot_tour *tour, size_t *order, bool *proved)
{
    *proved = tour->count <= ROBOT_ALL;
    if (!*proved) return improve(run, tour, order);
    trial t = {.tour = tour, .least_s = INFINITY};
    for (size_t i = 0; i < tour->count; i++) t.order[i] = i;
    if (tour->count > 0) try_all(&t, 0);
    memcpy(order, t.best, tour->count * sizeof *order);
    return SW_OK;
}
