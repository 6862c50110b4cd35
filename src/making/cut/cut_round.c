/* cut_round.c: in what order the holes of a piece are cut.
 *
 * A short round through them is found once a shape. For each piece it is opened where the ways of the head to the
 * first and from the last hole are shortest, and made shorter still; the orders found so are kept for the other pieces
 * of the shape, which take them, either way round, where they are shorter than the round opened anew. */
#include "making/cut/cut_parts.h"

#include <string.h>

enum { ORDERS_MAX = 24 };

typedef struct cut_orders {
    size_t count;                /* of the holes */
    size_t *round;               /* [count] closed */
    size_t *kept[ORDERS_MAX];    /* [count] each */
    double inner_mm[ORDERS_MAX]; /* from the first to the last */
    size_t kept_count;
    bool round_known;
} cut_orders;

typedef struct entry { /* of the head into a piece */
    const cut_loop *holes;
    const cut_orders *orders;
    sw_point from, to; /* to: where the outline is begun */
} entry;

static sw_point touch(const cut_loop *loop)
{
    return cut_touch(loop, loop->chosen);
}

static sw_point round_touch(const entry *e, size_t i)
{
    return touch(&e->holes[e->orders->round[i % e->orders->count]]);
}

sw_status cut_orders_make(sw_run *run, cut_shape *shape)
{
    size_t count = shape->track_count - 1;
    cut_orders *orders = SW_SCRATCH(run, 1, cut_orders);
    size_t *places = SW_SCRATCH(run, (ORDERS_MAX + 1) * count, size_t);
    if (orders == NULL || places == NULL) return SW_NO_MEMORY;
    *orders = (cut_orders){.count = count, .round = places};
    for (size_t i = 0; i < ORDERS_MAX; i++) orders->kept[i] = places + (i + 1) * count;
    shape->orders = orders;
    return SW_OK;
}

static sw_status make_round(sw_run *run, const cut_loop *holes, cut_orders *orders)
{
    size_t count = orders->count, *round = orders->round;
    sw_point *stops = SW_SCRATCH(run, count + 1, sw_point);
    if (stops == NULL) return SW_NO_MEMORY;
    for (size_t h = 0; h < count; h++) stops[h] = touch(&holes[h]);
    SW_TRY(cut_tour(run, stops, count - 1, round + 1));
    stops[count] = stops[0];
    SW_TRY(cut_tour_between(run, stops, count - 1, round + 1));
    for (size_t h = 1; h < count; h++) round[h]++;
    orders->round_known = true;
    return SW_OK;
}

/* ---- the best for one piece ---- */

typedef struct choice {
    size_t index;   /* of a kept order, or the place before which the round is opened */
    bool backwards; /* from the last on; for the round: from the place before that one */
    double mm;      /* with the head's ways to and from it */
} choice;

static void take_shorter(choice *best, choice other)
{
    if (other.mm < best->mm) *best = other;
}

static choice best_opening(const entry *e)
{
    choice best = {.mm = INFINITY};
    double round_mm = 0;
    for (size_t i = 0; i < e->orders->count; i++) {
        sw_point last = round_touch(e, i + e->orders->count - 1), first = round_touch(e, i);
        double saved_mm = cut_distance(last, first);
        round_mm += saved_mm;
        take_shorter(&best, (choice){i, false, cut_distance(e->from, first) + cut_distance(last, e->to) - saved_mm});
        take_shorter(&best, (choice){i, true, cut_distance(e->from, last) + cut_distance(first, e->to) - saved_mm});
    }
    best.mm += round_mm;
    return best;
}

static choice best_kept(const entry *e)
{
    choice best = {.mm = INFINITY};
    for (size_t i = 0; i < e->orders->kept_count; i++) {
        const size_t *order = e->orders->kept[i];
        double inner_mm = e->orders->inner_mm[i];
        if (inner_mm >= best.mm) continue;
        sw_point first = touch(&e->holes[order[0]]), last = touch(&e->holes[order[e->orders->count - 1]]);
        take_shorter(&best, (choice){i, false, inner_mm + cut_distance(e->from, first) + cut_distance(last, e->to)});
        take_shorter(&best, (choice){i, true, inner_mm + cut_distance(e->from, last) + cut_distance(first, e->to)});
    }
    return best;
}

static void reverse(size_t *order, size_t count)
{
    for (size_t i = 0; i < count / 2; i++) {
        size_t swapped = order[i];
        order[i] = order[count - 1 - i];
        order[count - 1 - i] = swapped;
    }
}

/* The round opened so, then made shorter for this piece. */
static sw_status shorten_opening(sw_run *run, const entry *e, choice opening, size_t *order, double *inner_mm)
{
    size_t count = e->orders->count;
    sw_point *stops = SW_SCRATCH(run, count + 2, sw_point);
    if (stops == NULL) return SW_NO_MEMORY;
    for (size_t k = 0; k < count; k++) order[k] = e->orders->round[(opening.index + k) % count];
    if (opening.backwards) reverse(order, count);
    stops[0] = e->from;
    for (size_t k = 0; k < count; k++) stops[k + 1] = touch(&e->holes[order[k]]);
    stops[count + 1] = e->to;
    SW_TRY(cut_tour_between(run, stops, count, order));
    *inner_mm = 0;
    for (size_t k = 1; k < count; k++) *inner_mm += cut_distance(stops[k], stops[k + 1]);
    return SW_OK;
}

static void keep_order(cut_orders *orders, const size_t *order, double inner_mm)
{
    if (orders->kept_count == ORDERS_MAX) return;
    memcpy(orders->kept[orders->kept_count], order, orders->count * sizeof *order);
    orders->inner_mm[orders->kept_count++] = inner_mm;
}

sw_status cut_hole_order(sw_run *run, const cut_job *job, size_t outline, sw_point from, const size_t **order)
{
    const cut_loop *loop = &job->loops[outline];
    cut_orders *orders = job->places[loop->part].shape->orders;
    if (!orders->round_known) SW_TRY(make_round(run, loop + 1, orders));
    entry e = {loop + 1, orders, from, touch(loop)};
    choice opening = best_opening(&e), kept = best_kept(&e);
    size_t *made = SW_SCRATCH(run, orders->count, size_t);
    if (made == NULL) return SW_NO_MEMORY;
    *order = made;
    if (kept.mm > opening.mm) {
        double inner_mm;
        SW_TRY(shorten_opening(run, &e, opening, made, &inner_mm));
        keep_order(orders, made, inner_mm);
        return SW_OK;
    }
    SW_ASSERT(kept.index < orders->kept_count);
    memcpy(made, orders->kept[kept.index], orders->count * sizeof *made);
    if (kept.backwards) reverse(made, orders->count);
    return SW_OK;
}
