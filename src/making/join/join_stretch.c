/* join_stretch.c: a seam as arcs from start to end: stitches, or back-step strides from the middle outward. */
#include "making/join/join_access_parts.h"

typedef struct layer { /* lays the stretches of one seam */
    sw_run *run;
    const join_job *job;
    join_seam *seam;
    const sw_join_point *points;
    sw_join_stretch *items;
    size_t count, room;
} layer;

typedef struct span { /* of the path: points first .. end - 1; from .. to along it */
    size_t first, end;
    double from_mm, to_mm;
} span;

static sw_join_point point_at(const layer *l, const span *s, double at_mm)
{
    size_t i = s->first;
    while (i + 2 < s->end && l->points[i + 1].from_mm < at_mm) i++;
    sw_join_point p = l->points[i], q = l->points[i + 1 < s->end ? i + 1 : i];
    double way_mm = q.from_mm - p.from_mm, t = way_mm > 0 ? fmax(0, fmin(1, (at_mm - p.from_mm) / way_mm)) : 0;
    sw_join_point out = t < 0.5 ? p : q;
    out.at = join_mix(p.at, q.at, t);
    out.from_mm = at_mm;
    return out;
}

static sw_join_point turned(sw_join_point p)
{
    p.along = sw_vec3_scaled(p.along, -1);
    p.travel_rad = -p.travel_rad;
    p.turn_rad += p.turn_rad > 0 ? -SW_PI : SW_PI;
    return p;
}

static sw_status lay(layer *l, const span *s, double from_mm, double to_mm, double overlap_mm)
{
    bool back = to_mm < from_mm;
    double end_mm = fmax(s->from_mm, fmin(s->to_mm, to_mm + (back ? -overlap_mm : overlap_mm)));
    double low_mm = fmin(from_mm, end_mm), high_mm = fmax(from_mm, end_mm);
    sw_join_point *points = SW_KEEP(l->run, s->end - s->first + 2, sw_join_point);
    sw_join_stretch *items = sw_grow(l->run, l->run->keep, l->items, l->count, &l->room, sizeof *items);
    if (points == NULL || items == NULL) return SW_NO_MEMORY;
    l->items = items;
    size_t n = 0;
    points[n++] = point_at(l, s, from_mm);
    for (size_t k = s->first; k < s->end; k++) {
        const sw_join_point *p = &l->points[back ? s->end - 1 - (k - s->first) : k];
        if (p->from_mm > low_mm + SW_SAME_POINT_MM && p->from_mm < high_mm - SW_SAME_POINT_MM) points[n++] = *p;
    }
    points[n++] = point_at(l, s, end_mm);
    for (size_t k = 0; k < n && back; k++) points[k] = turned(points[k]);
    items[l->count++] = (sw_join_stretch){points, n, fabs(to_mm - from_mm) + overlap_mm};
    l->seam->out->weld_mm += fabs(to_mm - from_mm);
    l->seam->out->arc_mm += fabs(to_mm - from_mm) + overlap_mm;
    return SW_OK;
}

static sw_status stitches(layer *l, const span *s)
{
    const sw_joint *joint = l->seam->out->joint;
    double length_mm = s->to_mm - s->from_mm, stitch_mm = fmin(joint->stitch_mm, length_mm);
    double pitch_mm = fmax(joint->pitch_mm, stitch_mm);
    if (pitch_mm <= 0) return SW_OK;
    size_t n = (size_t)floor((length_mm - stitch_mm) / pitch_mm + 1e-9) + 1;
    double start_mm = s->from_mm + (length_mm - stitch_mm - (double)(n - 1) * pitch_mm) / 2;
    for (size_t i = 0; i < n; i++) {
        double from_mm = start_mm + (double)i * pitch_mm;
        SW_TRY(lay(l, s, from_mm, from_mm + stitch_mm, 0));
    }
    return SW_OK;
}

static bool closed(const layer *l, const span *s)
{
    return join_apart(l->points[s->first].at, l->points[s->end - 1].at) < l->job->opt->step_mm / 2;
}

/* From the middle outward, left and right in turn, each stride back towards what is laid already. */
static sw_status strides(layer *l, const span *s)
{
    double length_mm = s->to_mm - s->from_mm, stride_mm = l->job->opt->stride_mm;
    double overlap_mm = l->seam->out->joint->tight ? l->job->opt->overlap_mm : 0;
    double closing_mm = closed(l, s) ? overlap_mm : 0;
    if (length_mm <= 2 * stride_mm) return lay(l, s, s->from_mm, s->to_mm, closing_mm);
    size_t n = (size_t)ceil(length_mm / stride_mm - 1e-9);
    double each_mm = length_mm / (double)n;
    for (size_t i = 0; i < n; i++) {
        size_t out = (i + 1) / 2, middle = (n - 1) / 2, k = i % 2 == 1 ? middle + out : middle - out;
        double low_mm = s->from_mm + (double)k * each_mm, high_mm = low_mm + each_mm;
        bool right = k > middle;
        double over_mm = i == 0 ? closing_mm : overlap_mm;
        SW_TRY(lay(l, s, right ? high_mm : low_mm, right ? low_mm : high_mm, over_mm));
    }
    return SW_OK;
}

/* The torch as it stands once tilted. */
static void tilt(sw_join_point *p)
{
    p->torch = join_axis(p, (join_tilt){p->work_rad, p->travel_rad});
}

sw_status join_stretches(sw_run *run, const join_job *job, join_seam *seam)
{
    sw_join_point *points = seam->sides[seam->side];
    layer l = {.run = run, .job = job, .seam = seam, .points = points};
    for (size_t i = 0; i < seam->count; i++) tilt(&points[i]);
    for (size_t first = 0; first < seam->count;) {
        span s = {first, first + 1, points[first].from_mm, 0};
        while (s.end < seam->count && !seam->starts[s.end]) s.end++;
        s.to_mm = points[s.end - 1].from_mm;
        if (s.to_mm - s.from_mm >= SW_SHORTEST_MM)
            SW_TRY(seam->out->joint->stitch_mm > 0 ? stitches(&l, &s) : strides(&l, &s));
        first = s.end;
    }
    seam->out->stretches = l.items;
    seam->out->stretch_count = l.count;
    return SW_OK;
}
