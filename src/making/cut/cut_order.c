/* cut_order.c: which loop after which.
 *
 * Each loop comes after all it holds, and a piece is finished before the next one is begun: holes, what lies in them,
 * then the outline. Brothers are brought into a short way by cut_tour. The pieces on the bare sheet are also tried
 * in the reverse of that way and in strips along and across the sheet; each order is judged by the time of the head's
 * ways and by how many of them pass over what has been cut out, and the best is taken. */
#include "making/cut/cut_parts.h"

#include <stdlib.h>
#include <string.h>

typedef enum way { SHORT_WAY, REVERSED_WAY, STRIPS_ALONG, STRIPS_ACROSS, WAYS } way;

static const double crossing_s = 1.0; /* what lifting the head over a piece costs in the comparison (ours) */

typedef struct family {   /* children of loop i: list[first[i]] .. list[first[i+1]-1]; i = loop_count: on the sheet */
    size_t *first, *list; /* [loop_count + 2], [loop_count] */
} family;

typedef struct trial {
    cut_job *job;
    const family *family;
    size_t *order, count;
    way way;
    cut_danger danger; /* room for it */
} trial;

static sw_point touch(const cut_loop *loop)
{
    return cut_touch(loop, loop->chosen);
}
static sw_point start(const cut_loop *loop)
{
    return cut_start(loop, loop->chosen);
}

static sw_status family_make(sw_run *run, const cut_job *job, family *f)
{
    size_t n = job->loop_count;
    f->first = SW_SCRATCH(run, n + 2, size_t);
    f->list = SW_SCRATCH(run, n, size_t);
    if (f->first == NULL || f->list == NULL) return SW_NO_MEMORY;
    size_t filled = 0;
    for (size_t parent = 0; parent <= n; parent++) {
        f->first[parent] = filled;
        int wanted = parent == n ? -1 : (int)parent;
        for (size_t i = 0; i < n; i++)
            if (job->loops[i].parent == wanted) f->list[filled++] = i;
    }
    f->first[n + 1] = filled;
    return SW_OK;
}

/* ---- strips ---- */

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

/* Strips as wide as a mean piece, walked to and fro. */
static sw_status strips(sw_run *run, const cut_job *job, const size_t *list, const sw_point *points, size_t count,
                        bool along, size_t *order)
{
    strip_item *items = SW_SCRATCH(run, count, strip_item);
    if (items == NULL) return SW_NO_MEMORY;
    double width_mm = 0;
    for (size_t i = 0; i < count; i++) {
        sw_box box = job->loops[list[i]].box;
        width_mm += (along ? box.y1_mm - box.y0_mm : box.x1_mm - box.x0_mm) / (double)count;
    }
    width_mm = fmax(width_mm, 1);
    for (size_t i = 0; i < count; i++) {
        double across_mm = along ? points[i].y_mm : points[i].x_mm;
        items[i] = (strip_item){i, lround(floor(across_mm / width_mm)), along ? points[i].x_mm : points[i].y_mm};
    }
    if (count > 1) qsort(items, count, sizeof *items, by_strip);
    for (size_t i = 0; i < count; i++) order[i] = items[i].index;
    return SW_OK;
}

static sw_status brothers_order(sw_run *run, const trial *t, bool on_sheet, const size_t *list, size_t count,
                                sw_point from, size_t *order)
{
    sw_point *points = SW_SCRATCH(run, count, sw_point);
    if (points == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < count; i++) points[i] = touch(&t->job->loops[list[i]]);
    if (on_sheet && (t->way == STRIPS_ALONG || t->way == STRIPS_ACROSS))
        return strips(run, t->job, list, points, count, t->way == STRIPS_ALONG, order);
    cut_tour(points, count, from, order);
    if (!on_sheet || t->way != REVERSED_WAY) return SW_OK;
    for (size_t i = 0; i < count / 2; i++) {
        size_t swapped = order[i];
        order[i] = order[count - 1 - i];
        order[count - 1 - i] = swapped;
    }
    return SW_OK;
}

/* All descendants of `parent` in order, each after what it holds; *at is where the head is. */
static sw_status emit_children(sw_run *run, trial *t, size_t parent, sw_point *at)
{
    const size_t *list = t->family->list + t->family->first[parent];
    size_t count = t->family->first[parent + 1] - t->family->first[parent];
    if (count == 0) return SW_OK;
    size_t *order = SW_SCRATCH(run, count, size_t);
    if (order == NULL) return SW_NO_MEMORY;
    SW_TRY(brothers_order(run, t, parent == t->job->loop_count, list, count, *at, order));
    for (size_t i = 0; i < count; i++) {
        size_t child = list[order[i]];
        SW_TRY(emit_children(run, t, child, at));
        t->order[t->count++] = child;
        *at = touch(&t->job->loops[child]);
    }
    return SW_OK;
}

/* ---- which of a loop's lead-ins ---- */

typedef struct stretch { /* where the head comes from and goes to */
    sw_point before, after;
    bool last; /* it goes nowhere */
} stretch;

static double way_mm(const cut_loop *loop, size_t lead, const stretch *s)
{
    double mm = cut_distance(cut_start(loop, lead), s->before);
    return s->last ? mm : mm + cut_distance(s->after, cut_touch(loop, lead));
}

/* Of a lead-in whose way is as long; only looked for when that is still the least. */
static double with_own_crossing_mm(const cut_loop *loop, size_t lead, const stretch *s, double mm)
{
    const double own_crossing_mm = 100; /* prefers not to leave across the loop just cut (ours) */
    if (s->last || !loop->track->tips || !cut_crosses(loop, cut_touch(loop, lead), s->after)) return mm;
    return mm + own_crossing_mm;
}

static size_t nearest_lead(const cut_loop *loop, const stretch *s)
{
    size_t best = loop->chosen;
    double best_mm = with_own_crossing_mm(loop, best, s, way_mm(loop, best, s));
    for (size_t k = 0; k < loop->leads.count; k++) {
        double mm = way_mm(loop, k, s);
        if (mm >= best_mm - SW_SAME_POINT_MM) continue;
        mm = with_own_crossing_mm(loop, k, s, mm);
        if (mm >= best_mm - SW_SAME_POINT_MM) continue;
        best = k;
        best_mm = mm;
    }
    return best;
}

static void nearest_leads(const trial *t)
{
    stretch s = {.before = {0, 0}};
    for (size_t i = 0; i < t->count; i++) {
        cut_loop *loop = &t->job->loops[t->order[i]];
        s.last = i + 1 == t->count;
        if (!s.last) s.after = start(&t->job->loops[t->order[i + 1]]);
        cut_choose_lead(loop, nearest_lead(loop, &s));
        s.before = touch(loop);
    }
}

/* ---- judging an order ---- */

static double ways_cost(trial *t)
{
    const sw_laser *laser = t->job->in->laser;
    double cost = 0;
    sw_point at = {0, 0};
    t->danger.count = 0;
    for (size_t i = 0; i < t->count; i++) {
        const cut_loop *loop = &t->job->loops[t->order[i]];
        sw_point to = start(loop);
        cost += sw_move_time_s(cut_distance(to, at), laser->rapid_mm_s, laser->accel_mm_s2);
        if (cut_any_crossed(&t->danger, at, to)) cost += crossing_s;
        cut_danger_add(&t->danger, loop);
        at = touch(loop);
    }
    return cost;
}

static sw_status run_trial(sw_run *run, trial *t, double *cost)
{
    sw_point at = {0, 0};
    for (size_t i = 0; i < t->job->loop_count; i++) cut_choose_lead(&t->job->loops[i], 0);
    SW_TRY(emit_children(run, t, t->job->loop_count, &at));
    nearest_leads(t);
    nearest_leads(t);
    *cost = ways_cost(t);
    return SW_OK;
}

static void take_trial(const trial *t, size_t *chosen)
{
    memcpy(t->job->order, t->order, t->count * sizeof *t->order);
    for (size_t i = 0; i < t->job->loop_count; i++) chosen[i] = t->job->loops[i].chosen;
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
    for (int w = 0; w < WAYS; w++) {
        trial t = {.job = job, .family = &f, .order = order, .way = (way)w, .danger = danger};
        double cost;
        SW_TRY(run_trial(run, &t, &cost));
        SW_ASSERT(t.count == job->loop_count);
        if (cost >= best) continue;
        best = cost;
        take_trial(&t, chosen);
    }
    for (size_t i = 0; i < job->loop_count; i++) cut_choose_lead(&job->loops[i], chosen[i]);
    return SW_OK;
}
