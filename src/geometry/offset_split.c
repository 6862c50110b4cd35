/* offset_split.c: the raw parallel split where it meets itself, and the good stretches picked out.
 *
 * A point of the raw curve lies at the distance from its own segment; it belongs to the answer when no other
 * part of the contour is nearer. Between two meeting points of the raw curve that does not change. */
#include "geometry/offset_parts.h"

#include <stdlib.h>
#include <string.h>

/* How much nearer a point may be: far above rounding at 2e4 mm, below what the folded tails at the least
 * turning corners of offset_raw.c fall short. ours */
#define SHORT_MM 3e-10

typedef struct cut {
    size_t index; /* of the raw stretch */
    double t;     /* share of its length, 0 to 1 */
} cut;

typedef struct cuts {
    cut *items;
    size_t n, room;
} cuts;

typedef struct edge {
    segment s;
    size_t index;
} edge;

static int by_left_end(const void *a, const void *b)
{
    const edge *e = a, *f = b;
    if (e->s.box.x0_mm != f->s.box.x0_mm) return e->s.box.x0_mm < f->s.box.x0_mm ? -1 : 1;
    return e->index < f->index ? -1 : e->index > f->index ? 1 : 0;
}

static int by_share(const void *a, const void *b)
{
    const cut *p = a, *q = b;
    if (p->index != q->index) return p->index < q->index ? -1 : 1;
    return p->t < q->t ? -1 : p->t > q->t ? 1 : 0;
}

/* Share of the segment's length at which a point on it lies. */
static double share_at(const segment *s, sw_point p)
{
    sw_point start = point_of(s->from), along = minus(s->to, start), out = minus(p, start);
    if (same_point(p, start)) return 0.0;
    if (same_point(p, s->to)) return 1.0;
    if (!is_arc(s)) return dot(out, along) / dot(along, along);
    /* The chord from the start turns away from the tangent by half the angle swept. */
    sw_point tangent = sw_segment_direction(s->from, s->to, 0.0);
    double half_rad = atan2(cross(tangent, out), dot(tangent, out));
    return half_rad / (2.0 * atan(s->from.bulge));
}

static sw_status add_cut(sw_run *run, cuts *list, const edge *e, sw_point p)
{
    double t = share_at(&e->s, p);
    if (!(t > 0.0 && t < 1.0)) return SW_OK;
    cut *items = sw_grow(run, run->scratch, list->items, list->n, &list->room, sizeof *items);
    if (items == NULL) return SW_NO_MEMORY;
    list->items = items;
    items[list->n++] = (cut){e->index, t};
    return SW_OK;
}

static sw_status cut_pair(sw_run *run, cuts *list, const edge *a, const edge *b)
{
    sw_point at[CROSSINGS_MAX];
    size_t count = segments_cross(&a->s, &b->s, at);
    for (size_t k = 0; k < count; k++) {
        SW_TRY(add_cut(run, list, a, at[k]));
        SW_TRY(add_cut(run, list, b, at[k]));
    }
    return SW_OK;
}

static sw_status find_cuts(sw_run *run, const stretches *raw, cuts *list)
{
    edge *edges = SW_SCRATCH(run, raw->n, edge);
    if (edges == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < raw->n; i++) edges[i] = (edge){segment_make(raw->items[i].from, raw->items[i].to), i};
    qsort(edges, raw->n, sizeof *edges, by_left_end);
    for (size_t i = 0; i < raw->n; i++) {
        double right_mm = edges[i].s.box.x1_mm + SW_SAME_POINT_MM;
        for (size_t k = i + 1; k < raw->n && edges[k].s.box.x0_mm <= right_mm; k++)
            SW_TRY(cut_pair(run, list, &edges[i], &edges[k]));
    }
    if (list->n > 0) qsort(list->items, list->n, sizeof *list->items, by_share);
    return SW_OK;
}

static bool near_enough(const offset_job *job, sw_point p, double least_mm)
{
    for (size_t i = 0; i < job->c.n; i++) {
        const segment *s = &job->segments[i];
        if (box_point_gap(s->box, p) < least_mm && segment_point_distance(s, p) < least_mm) return true;
    }
    return false;
}

/* Whether p lies inside a sharp corner, off its edges. */
static bool in_wedge(const offset_job *job, sw_point p)
{
    for (size_t i = 0; i < job->wedge_count; i++) {
        wedge w = job->wedges[i];
        double turn = cross(minus(w.tip, w.a), minus(w.b, w.a)) > 0.0 ? 1.0 : -1.0;
        const sw_point corners[4] = {w.a, w.tip, w.b, w.a};
        bool inside = true;
        for (int k = 0; k < 3 && inside; k++) {
            sw_point along = minus(corners[k + 1], corners[k]);
            inside = turn * cross(along, minus(p, corners[k])) > SW_COLLINEAR_MM * norm(along);
        }
        if (inside) return true;
    }
    return false;
}

/* Flat arcs have far centres; their rounding is a share of the radius. */
static double allowed_mm(const offset_job *job)
{
    double largest_mm = 0.0;
    for (size_t i = 0; i < job->c.n; i++)
        if (is_arc(&job->segments[i])) largest_mm = fmax(largest_mm, job->segments[i].radius_mm);
    return SHORT_MM + 1e-15 * largest_mm;
}

static bool good(const offset_job *job, const stretch *s, double least_mm)
{
    for (int quarter = 1; quarter < 4; quarter++) {
        sw_point p = sw_segment_point(s->from, s->to, 0.25 * quarter);
        if (near_enough(job, p, least_mm) || in_wedge(job, p)) return false;
    }
    return true;
}

static sw_status keep_if_good(const offset_job *job, const stretch *s, double t0, double t1, stretches *kept)
{
    sw_point a = sw_segment_point(s->from, s->to, t0), b = sw_segment_point(s->from, s->to, t1);
    double bulge = bends(s->from.bulge) ? tan((t1 - t0) * atan(s->from.bulge)) : 0.0;
    stretch part = {{a.x_mm, a.y_mm, bulge}, b};
    double least_mm = fabs(job->distance_mm) - allowed_mm(job);
    if (same_point(a, b) || !good(job, &part, least_mm)) return SW_OK;
    return stretches_add(job->run, kept, part.from, part.to);
}

static bool same_middle(const stretch *a, const stretch *b)
{
    sw_point p = sw_segment_point(a->from, a->to, 0.5), q = sw_segment_point(b->from, b->to, 0.5);
    return gap_mm(p, q) <= 4.0 * SW_SAME_POINT_MM;
}

/* Two walls just twice the distance apart leave the same stretch there and back: no width, so both go. One
 * of two that run the same way is enough. */
static void drop_coincident(stretches *kept)
{
    double near_mm = 4.0 * SW_SAME_POINT_MM;
    bool back, again;
    for (size_t i = 0; i < kept->n; i++) {
        for (size_t k = i + 1; k < kept->n; k++) {
            stretch *a = &kept->items[i], *b = &kept->items[k];
            sw_point pa = point_of(a->from), pb = point_of(b->from);
            back = gap_mm(pa, b->to) <= near_mm && gap_mm(pb, a->to) <= near_mm && same_middle(a, b);
            again = !back && gap_mm(pa, pb) <= near_mm && gap_mm(a->to, b->to) <= near_mm && same_middle(a, b);
            if (!back && !again) continue;
            kept->items[k] = kept->items[--kept->n];
            if (back) kept->items[i] = kept->items[--kept->n];
            if (back) i--;
            break;
        }
    }
}

sw_status offset_split(const offset_job *job, const stretches *raw, stretches *kept)
{
    cuts list = {0};
    size_t c = 0;
    SW_TRY(find_cuts(job->run, raw, &list));
    for (size_t i = 0; i < raw->n; i++) {
        double t0 = 0.0;
        for (; c < list.n && list.items[c].index == i; c++) {
            SW_TRY(keep_if_good(job, &raw->items[i], t0, list.items[c].t, kept));
            t0 = list.items[c].t;
        }
        SW_TRY(keep_if_good(job, &raw->items[i], t0, 1.0, kept));
    }
    drop_coincident(kept);
    return SW_OK;
}
