/* cut_etch.c: etched paths, before anything is cut: the sheet still lies flat and nothing has moved. Always the
 * nearest end of a path not yet etched comes next, then 2-opt (Croes 1958, from memory) until nothing gains; a path may
 * be run backwards. */
#include "making/cut/cut_legs.h"

enum { ROUNDS = 3 };

typedef struct etch {
    sw_path path;
    size_t part;
    bool backwards;
    sw_point head, tail; /* where it is begun and ended */
    double way2;         /* of the head's way to it, squared, mm2 */
} etch;

typedef struct etches {
    etch *items; /* [count] in order */
    size_t count;
    cut_legs *blocks; /* [count / CUT_LEGS + 1] block b is of the ways from etch i to the next, i from b CUT_LEGS on */
} etches;

static sw_point path_end(sw_path path, bool last)
{
    const sw_vertex *v = &path.v[last ? path.n - 1 : 0];
    return (sw_point){v->x_mm, v->y_mm};
}

static etch turned(etch e)
{
    return (etch){e.path, e.part, !e.backwards, e.tail, e.head, e.way2};
}

/* Turns etches i to k round, and each of them. */
static void reverse(etches *list, size_t i, size_t k)
{
    for (; i < k; i++, k--) {
        etch first = turned(list->items[i]);
        list->items[i] = turned(list->items[k]);
        list->items[k] = first;
    }
    if (i == k) list->items[i] = turned(list->items[i]);
}

/* The one of i .. count-1 with the end nearest to where the head is comes to place i. */
static void bring_nearest(etches *list, size_t i, sw_point at)
{
    size_t best = i;
    double best2 = INFINITY;
    bool by_tail = false;
    for (size_t k = i; k < list->count; k++) {
        double head2 = cut_square(at, list->items[k].head), tail2 = cut_square(at, list->items[k].tail);
        if (head2 >= best2 && tail2 >= best2) continue;
        best = k;
        by_tail = tail2 < head2;
        best2 = by_tail ? tail2 : head2;
    }
    etch nearest = by_tail ? turned(list->items[best]) : list->items[best];
    list->items[best] = list->items[i];
    list->items[i] = nearest;
}

static sw_point tail_before(const etches *list, size_t i)
{
    return i == 0 ? (sw_point){0, 0} : list->items[i - 1].tail;
}

static void measure_block(etches *list, size_t b)
{
    cut_legs made = cut_legs_none();
    for (size_t i = b * CUT_LEGS; i < (b + 1) * CUT_LEGS && i + 1 < list->count; i++)
        cut_legs_add(&made, list->items[i].tail, list->items[i + 1].head, list->items[i + 1].way2);
    list->blocks[b] = made;
}

/* Of the ways to etches first .. last. */
static void measure_ways(etches *list, size_t first, size_t last)
{
    for (size_t i = first; i <= last; i++) list->items[i].way2 = cut_square(tail_before(list, i), list->items[i].head);
    for (size_t b = (first == 0 ? 0 : first - 1) / CUT_LEGS; b <= last / CUT_LEGS; b++) measure_block(list, b);
}

/* Turns round each stretch that begins with etch i where that is shorter. */
static bool improve_from(etches *list, size_t i)
{
    bool better = false;
    etch *first = &list->items[i];
    sw_point at = tail_before(list, i);
    for (size_t k = i; k + 1 < list->count; k++) {
        const etch *last = &list->items[k], *next = last + 1;
        if ((k == i || k % CUT_LEGS == 0) &&
            cut_legs_out_of_reach(&list->blocks[k / CUT_LEGS], at, first->way2, first->head)) {
            k |= CUT_LEGS - 1; /* its last */
            continue;
        }
        double to_last2 = cut_square(at, last->tail), to_next2 = cut_square(first->head, next->head);
        if (!cut_shorter(to_last2, to_next2, first->way2, next->way2)) continue;
        reverse(list, i, k);
        measure_ways(list, i, k + 1);
        better = true;
    }
    return better;
}

/* A round ends early where the one before found nothing more and this one found nothing at all. */
static void shorten(etches *list)
{
    size_t last_found = list->count;
    for (int round = 0; round < ROUNDS; round++) {
        size_t found = 0;
        bool better = false;
        for (size_t i = 0; i < list->count && (better || i <= last_found); i++) {
            if (!improve_from(list, i)) continue;
            better = true;
            found = i;
        }
        if (!better) return;
        last_found = found;
    }
}

static sw_move etch_move(sw_path path, size_t i, bool backwards)
{
    if (!backwards) return (sw_move){SW_MOVE_ETCH, path.v[i], {path.v[i + 1].x_mm, path.v[i + 1].y_mm}};
    size_t k = path.n - 2 - i;
    sw_vertex from = {path.v[k + 1].x_mm, path.v[k + 1].y_mm, -path.v[k].bulge};
    return (sw_move){SW_MOVE_ETCH, from, {path.v[k].x_mm, path.v[k].y_mm}};
}

static sw_status add_etch(sw_run *run, cut_job *job, const etch *e)
{
    sw_move *moves = SW_KEEP(run, e->path.n - 1, sw_move);
    if (moves == NULL) return SW_NO_MEMORY;
    sw_cut_pass pass = {.moves = moves, .start = e->head, .part = e->part, .contour = -1};
    for (size_t i = 0; i + 1 < e->path.n; i++) moves[pass.move_count++] = etch_move(e->path, i, e->backwards);
    return cut_add_pass(run, job, pass, CUT_NO_LOOP);
}

static sw_status gather(sw_run *run, const cut_job *job, etches *list)
{
    size_t count = 0;
    for (size_t p = 0; p < job->in->part_count; p++) count += job->in->parts[p].etch_count;
    *list = (etches){.items = SW_SCRATCH(run, count, etch), .blocks = SW_SCRATCH(run, count / CUT_LEGS + 1, cut_legs)};
    if (list->items == NULL || list->blocks == NULL) return SW_NO_MEMORY;
    for (size_t p = 0; p < job->in->part_count; p++)
        for (size_t i = 0; i < job->in->parts[p].etch_count; i++) {
            sw_path path = job->in->parts[p].etches[i];
            list->items[list->count++] = (etch){path, p, false, path_end(path, false), path_end(path, true), 0};
        }
    return SW_OK;
}

sw_status cut_etches(sw_run *run, cut_job *job)
{
    etches list;
    SW_TRY(gather(run, job, &list));
    for (size_t i = 0; i < list.count; i++) bring_nearest(&list, i, tail_before(&list, i));
    if (list.count > 0) measure_ways(&list, 0, list.count - 1);
    shorten(&list);
    for (size_t i = 0; i < list.count; i++) SW_TRY(add_etch(run, job, &list.items[i]));
    return SW_OK;
}
