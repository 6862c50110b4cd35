/* cut_order.c: which loop after which.
 *
 * Each loop comes after all it holds, and a piece is finished before the next one is begun: holes, what lies in them,
 * then the outline. Holes of a piece are cut in a short round (cut_round.c), pieces in one hole in a short way by
 * cut_tour. The pieces on the bare sheet are tried in a short way, in the reverse of that way and in strips across the
 * sheet; each order is judged by the time of the head's ways and by how many of them pass over what has been cut out,
 * and the best is taken. */
#include "making/cut/cut_parts.h"

#include <stdlib.h>
#include <string.h>

typedef enum way { SHORT_WAY, REVERSED_WAY, STRIPS_ACROSS, WAYS } way;

typedef struct family {   /* children of loop i: list[first[i]] .. list[first[i+1]-1]; i = loop_count: on the sheet */
    size_t *first, *list; /* [loop_count + 2], [loop_count] */
} family;

typedef struct trial {
    cut_job *job;
    const family *family;
    size_t *order, count;
    const size_t *on_sheet; /* order of the pieces on the bare sheet */
    cut_danger danger;      /* room for it */
} trial;

static sw_point touch(const cut_loop *loop)
{
    return cut_touch(loop, loop->chosen);
}
static sw_point start(const cut_loop *loop)
{
    return cut_start(loop, loop->chosen);
}

static size_t parent_of(const cut_job *job, size_t loop)
{
    int parent = job->loops[loop].parent;
    return parent < 0 ? job->loop_count : (size_t)parent;
}

static sw_status family_make(sw_run *run, const cut_job *job, family *f)
{
    size_t n = job->loop_count;
    f->first = SW_SCRATCH(run, n + 2, size_t);
    f->list = SW_SCRATCH(run, n, size_t);
    size_t *filled = SW_SCRATCH(run, n + 1, size_t);
    if (f->first == NULL || f->list == NULL || filled == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < n; i++) f->first[parent_of(job, i) + 1]++;
    for (size_t i = 0; i <= n; i++) f->first[i + 1] += f->first[i];
    for (size_t i = 0; i < n; i++) {
        size_t parent = parent_of(job, i);
        f->list[f->first[parent] + filled[parent]++] = i;
    }
    return SW_OK;
}

static size_t child_count(const family *f, size_t parent)
{
    return f->first[parent + 1] - f->first[parent];
}

/* ---- the pieces on the sheet ---- */

typedef struct brothers { /* and where the beam meets each */
    const cut_job *job;
    const size_t *list; /* [count] loops */
    sw_point *stops;    /* [count + 1] where the head comes from, then each */
    size_t count;
} brothers;

static sw_status brothers_make(sw_run *run, const cut_job *job, const family *f, size_t parent, sw_point from,
                               brothers *made)
{
    *made = (brothers){job, f->list + f->first[parent], NULL, child_count(f, parent)};
    made->stops = SW_SCRATCH(run, made->count + 1, sw_point);
    if (made->stops == NULL) return SW_NO_MEMORY;
    made->stops[0] = from;
    for (size_t i = 0; i < made->count; i++) made->stops[i + 1] = touch(&job->loops[made->list[i]]);
    return SW_OK;
}

typedef struct strip_item {
    size_t index;
    long strip;
    double along_mm;
} strip_item;

static int by_strip(const void *a, const void *b)
{
    const strip_item *x = a, *y = b;
    if (x->strip != y->strip) return x->strip < y->strip ? -1 : 1;
    if (x->along_mm == y->along_mm) return x->index < y->index ? -1 : 1;
    bool before = x->along_mm < y->along_mm;
    if (x->strip % 2 != 0) before = !before;
    return before ? -1 : 1;
}

/* Strips across the sheet, as wide as a mean piece, walked to and fro. */
static sw_status strips(sw_run *run, const brothers *b, size_t *order)
{
    strip_item *items = SW_SCRATCH(run, b->count, strip_item);
    if (items == NULL) return SW_NO_MEMORY;
    double width_mm = 0;
    for (size_t i = 0; i < b->count; i++) {
        sw_box box = b->job->loops[b->list[i]].box;
        width_mm += (box.x1_mm - box.x0_mm) / (double)b->count;
    }
    width_mm = fmax(width_mm, 1);
    for (size_t i = 0; i < b->count; i++) {
        sw_point at = b->stops[i + 1];
        items[i] = (strip_item){i, lround(floor(at.x_mm / width_mm)), at.y_mm};
    }
    if (b->count > 1) qsort(items, b->count, sizeof *items, by_strip);
    for (size_t i = 0; i < b->count; i++) order[i] = items[i].index;
    return SW_OK;
}

/* ways[w][i]: which brother on the sheet comes i-th in way w. */
static sw_status sheet_ways(sw_run *run, const cut_job *job, const family *f, size_t *ways[WAYS])
{
    brothers b;
    SW_TRY(brothers_make(run, job, f, job->loop_count, (sw_point){0, 0}, &b));
    for (int w = 0; w < WAYS; w++) {
        ways[w] = SW_SCRATCH(run, b.count, size_t);
        if (ways[w] == NULL) return SW_NO_MEMORY;
    }
    SW_TRY(strips(run, &b, ways[STRIPS_ACROSS]));
    SW_TRY(cut_tour(run, b.stops, b.count, ways[SHORT_WAY]));
    for (size_t i = 0; i < b.count; i++) ways[REVERSED_WAY][i] = ways[SHORT_WAY][b.count - 1 - i];
    return SW_OK;
}

/* ---- all in order ---- */

/* Pieces that lie in one hole. */
static sw_status guest_order(sw_run *run, const trial *t, size_t hole, sw_point from, const size_t **order)
{
    brothers b;
    SW_TRY(brothers_make(run, t->job, t->family, hole, from, &b));
    size_t *short_way = SW_SCRATCH(run, b.count, size_t);
    if (short_way == NULL) return SW_NO_MEMORY;
    SW_TRY(cut_tour(run, b.stops, b.count, short_way));
    *order = short_way;
    return SW_OK;
}

static sw_status children_order(sw_run *run, const trial *t, size_t parent, sw_point from, const size_t **order)
{
    *order = t->on_sheet;
    if (parent == t->job->loop_count) return SW_OK;
    if (t->job->loops[parent].track->contour >= 0) return guest_order(run, t, parent, from, order);
    return cut_hole_order(run, t->job, parent, from, order);
}

/* All descendants of `parent` in order, each after what it holds; *at is where the head is. */
static sw_status emit_children(sw_run *run, trial *t, size_t parent, sw_point *at)
{
    const size_t *list = t->family->list + t->family->first[parent], *order;
    size_t count = child_count(t->family, parent);
    if (count == 0) return SW_OK;
    SW_TRY(children_order(run, t, parent, *at, &order));
    for (size_t i = 0; i < count; i++) {
        size_t child = list[order[i]];
        SW_TRY(emit_children(run, t, child, at));
        t->order[t->count++] = child;
        *at = touch(&t->job->loops[child]);
    }
    return SW_OK;
}

/* ---- which of a loop's lead-ins, and what the order costs ---- */

typedef struct asked { /* a way of the head after some loop was cut, and whether it crosses what may stand up */
    sw_point from, to;
    bool crossed;
} asked;

typedef struct stretch { /* where the head comes from and goes to */
    sw_point before, after;
    bool last;                /* it goes nowhere */
    const cut_danger *danger; /* what it may not cross on its way beside the loop itself; NULL = not asked yet */
    asked ahead;              /* the last one asked about: mostly the next loop's way before */
} stretch;

static double way_mm(const cut_loop *loop, size_t lead, const stretch *s)
{
    double mm = cut_distance(cut_start(loop, lead), s->before);
    return s->last ? mm : mm + cut_distance(s->after, cut_touch(loop, lead));
}

/* The lead-in with the shortest way. */
static size_t nearest_lead(const cut_loop *loop, const stretch *s)
{
    sw_point before = cut_minus(s->before, loop->by), after = cut_minus(s->after, loop->by);
    size_t best = 0;
    double best_mm = INFINITY;
    for (size_t k = 0; k < loop->leads.count; k++) {
        const cut_lead *lead = &loop->leads.items[k];
        sw_point d = cut_minus(lead->start, before);
        double square = d.x_mm * d.x_mm + d.y_mm * d.y_mm;
        if (square >= best_mm * best_mm) continue;
        double mm = sqrt(square) + (s->last ? 0 : cut_distance(after, lead->touch));
        if (mm >= best_mm) continue;
        best_mm = mm;
        best = k;
    }
    return best;
}

static bool same(sw_point a, sw_point b)
{
    return a.x_mm == b.x_mm && a.y_mm == b.y_mm;
}

static bool crossed_before(const cut_loop *loop, size_t lead, const stretch *s)
{
    if (s->danger == NULL) return false;
    sw_point to = cut_start(loop, lead);
    if (same(s->ahead.from, s->before) && same(s->ahead.to, to)) return s->ahead.crossed;
    return cut_any_crossed(s->danger, s->before, to);
}

static bool crossed_after(const cut_loop *loop, size_t lead, stretch *s)
{
    if (s->last || s->danger == NULL) return false;
    sw_point from = cut_touch(loop, lead);
    bool over_itself = loop->track->tips && cut_leaves_over(loop, from, s->after);
    s->ahead = (asked){from, s->after, over_itself || cut_any_crossed(s->danger, from, s->after)};
    return s->ahead.crossed;
}

/* Shortest first, so that few are asked whether they cross. Gives whether the way to the one chosen does. */
static bool choose_least_crossing(cut_loop *loop, stretch *s)
{
    const double crossing_mm = 150; /* about what a way round is longer (ours) */
    double ways_mm[CUT_LEADS_MAX], best_mm = INFINITY;
    size_t count = loop->leads.count, best = loop->chosen;
    bool crossed = false;
    SW_ASSERT(count > 0); /* the search for lead-ins ends with the roomiest, clear or not */
    for (size_t k = 0; k < count; k++) ways_mm[k] = way_mm(loop, k, s);
    for (;;) {
        size_t next = 0;
        for (size_t k = 1; k < count; k++)
            if (ways_mm[k] < ways_mm[next]) next = k;
        if (ways_mm[next] >= best_mm) break;
        bool before = crossed_before(loop, next, s);
        double mm = ways_mm[next] + (before ? crossing_mm : 0);
        ways_mm[next] = INFINITY;
        if (mm < best_mm && crossed_after(loop, next, s)) mm += crossing_mm;
        if (mm >= best_mm) continue;
        best = next;
        best_mm = mm;
        crossed = before;
    }
    loop->chosen = best;
    return crossed;
}

/* Gives whether the way to the one chosen crosses what may stand up. */
static bool choose_nearest(cut_loop *loop, stretch *s)
{
    size_t nearest = nearest_lead(loop, s);
    if (crossed_before(loop, nearest, s) || crossed_after(loop, nearest, s)) return choose_least_crossing(loop, s);
    loop->chosen = nearest;
    return false;
}

/* The lead-ins nearest to each other in this order, and the time of the head's ways between them; with `danger` lifted
 * over what has been cut out. Gives up when that is no less than `most_s`. */
static double choose_leads(trial *t, cut_danger *danger, double most_s)
{
    const sw_laser *laser = t->job->in->laser;
    stretch s = {.before = {0, 0}, .danger = danger, .ahead = {.from = {NAN, NAN}}};
    double time_s = 0;
    for (size_t i = 0; i < t->count && time_s < most_s; i++) {
        cut_loop *loop = &t->job->loops[t->order[i]];
        s.last = i + 1 == t->count;
        if (!s.last) s.after = start(&t->job->loops[t->order[i + 1]]);
        if (choose_nearest(loop, &s)) time_s += CUT_LIFT_S;
        time_s += sw_move_time_s(cut_distance(s.before, start(loop)), laser->rapid_mm_s, laser->accel_mm_s2);
        if (danger != NULL) cut_danger_add(danger, loop);
        s.before = touch(loop);
    }
    return time_s;
}

static sw_status run_trial(sw_run *run, trial *t, double best, double *cost)
{
    sw_point at = {0, 0};
    for (size_t i = 0; i < t->job->loop_count; i++) t->job->loops[i].chosen = 0;
    SW_TRY(emit_children(run, t, t->job->loop_count, &at));
    t->danger.count = 0;
    *cost = choose_leads(t, NULL, best);
    if (*cost < best) *cost = choose_leads(t, &t->danger, best); /* else too long even if nothing is in the way */
    return SW_OK;
}

static void take_trial(const trial *t, size_t *chosen)
{
    memcpy(t->job->order, t->order, t->count * sizeof *t->order);
    for (size_t i = 0; i < t->job->loop_count; i++) chosen[i] = t->job->loops[i].chosen;
}

/* The lead-ins of the best order chosen once more, now that those after each are known. */
static void refine(cut_job *job, const family *f, const cut_danger *danger, double best, size_t *chosen)
{
    trial t = {.job = job, .family = f, .order = job->order, .count = job->loop_count, .danger = *danger};
    for (size_t i = 0; i < job->loop_count; i++) job->loops[i].chosen = chosen[i];
    if (choose_leads(&t, &t.danger, best) >= best) return;
    for (size_t i = 0; i < job->loop_count; i++) chosen[i] = job->loops[i].chosen;
}

sw_status cut_order(sw_run *run, cut_job *job)
{
    family f;
    SW_TRY(family_make(run, job, &f));
    size_t *chosen = SW_SCRATCH(run, job->loop_count, size_t);
    size_t *order = SW_SCRATCH(run, job->loop_count, size_t);
    job->order = SW_SCRATCH(run, job->loop_count, size_t);
    if (chosen == NULL || order == NULL || job->order == NULL) return SW_NO_MEMORY;
    double best = INFINITY;
    cut_danger danger;
    SW_TRY(cut_danger_make(run, job, &danger));
    size_t *ways[WAYS];
    SW_TRY(sheet_ways(run, job, &f, ways));
    for (int w = 0; w < WAYS; w++) {
        trial t = {.job = job, .family = &f, .order = order, .on_sheet = ways[w], .danger = danger};
        double cost;
        SW_TRY(run_trial(run, &t, best, &cost));
        SW_ASSERT(t.count == job->loop_count);
        if (cost >= best) continue;
        best = cost;
        take_trial(&t, chosen);
    }
    refine(job, &f, &danger, best, chosen);
    for (size_t i = 0; i < job->loop_count; i++) cut_choose_lead(&job->loops[i], chosen[i]);
    return SW_OK;
}
