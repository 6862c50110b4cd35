/* join_access.c: does the torch get to a seam past the pieces that are in place? At places along the seam its cylinder is
 * tilted off the bisector, least tilts first, until it meets nothing. */
#include "making/join/join_parts.h"

#include <string.h>

static double tilt_size(join_tilt t)
{
    return hypot(t.work_rad, t.travel_rad);
}

void join_tilts(join_job *job)
{
    double step_rad = job->opt->tilt_rad / JOIN_TILT_STEPS;
    job->tilt_count = 0;
    for (int w = -JOIN_TILT_STEPS; w <= JOIN_TILT_STEPS; w++)
        for (int t = -JOIN_TILT_STEPS; t <= JOIN_TILT_STEPS; t++) {
            join_tilt one = {w * step_rad, t * step_rad};
            if (w * w + t * t > JOIN_TILT_STEPS * JOIN_TILT_STEPS) continue;
            size_t at = job->tilt_count++;
            for (; at > 0 && tilt_size(job->tilts[at - 1]) > tilt_size(one) + 1e-9; at--)
                job->tilts[at] = job->tilts[at - 1];
            job->tilts[at] = one;
        }
}

typedef struct near_face {
    const join_face *face;
    size_t instance;
} near_face;

typedef struct reach { /* of one side of one seam */
    const join_job *job;
    const join_seam *seam;
    const bool *present;
    sw_join_point *points;
    near_face *near; /* [count] faces that the torch could meet from the point looked at */
    size_t count, room;
    size_t last;                           /* the one met last: looked at first */
    size_t *hits;                          /* [instances] how often each was in the way where no tilt helps */
    size_t met[JOIN_TILTS + 1], met_count; /* at the point looked at */
    join_tilt tilt;                        /* that worked last */
    double blocked_mm, tilted;
} reach;

/* ---- what is near ------------------------------------------------------------------------------------ */

static bool ahead_of(const join_face *f, sw_vec3 at, sw_vec3 way, double least_mm)
{
    return sw_vec3_dot(sw_vec3_sub(f->a, at), way) > least_mm || sw_vec3_dot(sw_vec3_sub(f->b, at), way) > least_mm ||
           sw_vec3_dot(sw_vec3_sub(f->c, at), way) > least_mm;
}

typedef struct view { /* what the torch can sweep from one point */
    join_box box;
    double spread_mm, least_mm;
} view;

static view view_of(const join_job *job, const sw_join_point *p)
{
    double stand_mm = job->opt->stickout_mm, far_mm = stand_mm + job->torch_long_mm;
    sw_vec3 end = sw_vec3_add(p->at, sw_vec3_scaled(p->torch, far_mm));
    view v = {join_box_with(join_box_with(join_box_empty(), p->at), end), 0, 0};
    v.spread_mm = far_mm * sin(job->opt->tilt_rad) + job->torch_radius_mm;
    v.least_mm = stand_mm * cos(job->opt->tilt_rad) - job->torch_radius_mm;
    return v;
}

static sw_status gather_from(sw_run *run, reach *r, const sw_join_point *p, const view *v, size_t instance)
{
    const join_instance *one = &r->job->instances[instance];
    if (!r->present[instance] || !join_boxes_near(one->box, v->box, v->spread_mm)) return SW_OK;
    for (size_t k = 0; k < one->face_count; k++) {
        const join_face *f = &one->faces[k];
        if (!join_boxes_near(f->box, v->box, v->spread_mm) || !ahead_of(f, p->at, p->torch, v->least_mm)) continue;
        near_face *grown = sw_grow(run, run->scratch, r->near, r->count, &r->room, sizeof *grown);
        if (grown == NULL) return SW_NO_MEMORY;
        r->near = grown;
        r->near[r->count++] = (near_face){f, instance};
    }
    return SW_OK;
}

/* The seam's own pieces last: where others are in the way as well, these are named. */
static sw_status gather(sw_run *run, reach *r, const sw_join_point *p)
{
    view v = view_of(r->job, p);
    r->count = 0;
    r->last = SIZE_MAX;
    for (size_t i = 0; i < r->job->instance_count; i++)
        if (i != r->seam->a && i != r->seam->b) SW_TRY(gather_from(run, r, p, &v, i));
    SW_TRY(gather_from(run, r, p, &v, r->seam->a));
    return r->seam->a == r->seam->b ? SW_OK : gather_from(run, r, p, &v, r->seam->b);
}

/* ---- one place ------------------------------------------------------------------------------------------ */

/* Off the bisector across the seam, towards the side of sheet a, then along it. */
static sw_vec3 tilted(const sw_join_point *p, sw_vec3 bisector, join_tilt tilt)
{
    sw_vec3 across = sw_vec3_cross(p->along, bisector);
    if (sw_vec3_dot(across, p->sheet_a) < 0) across = sw_vec3_scaled(across, -1);
    sw_vec3 d = sw_vec3_add(sw_vec3_scaled(bisector, cos(tilt.work_rad)), sw_vec3_scaled(across, sin(tilt.work_rad)));
    d = sw_vec3_add(sw_vec3_scaled(d, cos(tilt.travel_rad)), sw_vec3_scaled(p->along, sin(tilt.travel_rad)));
    return sw_vec3_unit(d);
}

static bool clear(reach *r, const sw_join_point *p, join_tilt tilt)
{
    sw_vec3 axis = tilted(p, p->torch, tilt);
    sw_vec3 from = sw_vec3_add(p->at, sw_vec3_scaled(axis, r->job->opt->stickout_mm));
    join_torch torch = join_torch_at(from, axis, r->job->torch_radius_mm, r->job->torch_long_mm);
    bool met = r->last < r->count && join_torch_meets(&torch, r->near[r->last].face);
    for (size_t i = 0; i < r->count && !met; i++) {
        met = join_torch_meets(&torch, r->near[i].face);
        if (met) r->last = i;
    }
    if (met) r->met[r->met_count++] = r->near[r->last].instance;
    return !met;
}

static sw_status try_point(sw_run *run, reach *r, sw_join_point *p)
{
    SW_TRY(gather(run, r, p));
    r->met_count = 0;
    p->reached = clear(r, p, r->tilt);
    for (size_t k = 0; k < r->job->tilt_count && !p->reached; k++) {
        p->reached = clear(r, p, r->job->tilts[k]);
        if (p->reached) r->tilt = r->job->tilts[k];
    }
    for (size_t k = 0; k < r->met_count && !p->reached; k++) r->hits[r->met[k]]++;
    join_tilt used = p->reached ? r->tilt : (join_tilt){0, 0};
    p->work_rad = used.work_rad;
    p->travel_rad = used.travel_rad;
    return SW_OK;
}

/* ---- along the seam --------------------------------------------------------------------------------------- */

/* Points between two places tried take the torch of the nearer one. */
static void fill(sw_join_point *points, size_t from, size_t to, size_t before, size_t after)
{
    for (size_t i = from; i < to; i++) {
        bool first = points[i].from_mm - points[before].from_mm <= points[after].from_mm - points[i].from_mm;
        const sw_join_point *near = &points[first ? before : after];
        points[i].work_rad = near->work_rad;
        points[i].travel_rad = near->travel_rad;
        points[i].reached = near->reached;
    }
}

/* The next point after i to be tried within the run that ends before `end`; `end` when there is none. */
static size_t next_place(const reach *r, size_t i, size_t end)
{
    double from_mm = r->points[i].from_mm, last_mm = r->points[end - 1].from_mm - r->job->opt->end_mm;
    size_t best = end;
    for (size_t k = i + 1; k < end && r->points[k].from_mm <= last_mm; k++) {
        best = k;
        if (r->points[k].from_mm - from_mm >= r->job->opt->access_mm) break;
    }
    return best;
}

static size_t first_place(const reach *r, size_t begin, size_t end)
{
    double a_mm = r->points[begin].from_mm, b_mm = r->points[end - 1].from_mm;
    double at_mm = fmin(a_mm + r->job->opt->end_mm, (a_mm + b_mm) / 2);
    size_t i = begin;
    while (i + 1 < end && r->points[i].from_mm < at_mm - SW_SAME_POINT_MM) i++;
    return i;
}

static sw_status reach_run(sw_run *run, reach *r, size_t begin, size_t end)
{
    size_t at = first_place(r, begin, end);
    SW_TRY(try_point(run, r, &r->points[at]));
    fill(r->points, begin, at, at, at);
    for (;;) {
        size_t next = next_place(r, at, end);
        if (next >= end) break;
        SW_TRY(try_point(run, r, &r->points[next]));
        fill(r->points, at + 1, next, at, next);
        at = next;
    }
    fill(r->points, at + 1, end, at, at);
    for (size_t i = begin; i < end; i++) {
        double span_mm = i > begin ? r->points[i].from_mm - r->points[i - 1].from_mm : 0;
        if (!r->points[i].reached) r->blocked_mm += span_mm;
        r->tilted += span_mm * hypot(r->points[i].work_rad, r->points[i].travel_rad);
    }
    return SW_OK;
}

static sw_status reach_side(sw_run *run, reach *r)
{
    const join_seam *seam = r->seam;
    memset(r->hits, 0, r->job->instance_count * sizeof *r->hits);
    r->blocked_mm = r->tilted = 0;
    r->tilt = (join_tilt){0, 0};
    for (size_t begin = 0; begin < seam->count;) {
        size_t end = begin + 1;
        while (end < seam->count && !seam->starts[end]) end++;
        SW_TRY(reach_run(run, r, begin, end));
        begin = end;
    }
    return SW_OK;
}

static bool own(const reach *r, size_t instance)
{
    return instance == r->seam->a || instance == r->seam->b;
}

/* The other pieces are named before the seam's own two. */
static size_t worst_hit(const reach *r)
{
    size_t best = SIZE_MAX;
    for (size_t i = 0; i < r->job->instance_count; i++) {
        if (r->hits[i] == 0) continue;
        bool more = best == SIZE_MAX || (own(r, best) == own(r, i) ? r->hits[i] > r->hits[best] : own(r, best));
        if (more) best = i;
    }
    return best;
}

static size_t worst_of_closed(const reach *r, const bool *in_place)
{
    size_t best = SIZE_MAX;
    for (size_t i = 0; i < r->job->instance_count; i++)
        if (!in_place[i] && r->hits[i] > 0 && (best == SIZE_MAX || r->hits[i] > r->hits[best])) best = i;
    return best;
}

static bool better(const reach *r, double blocked_mm, double tilt)
{
    if ((r->blocked_mm <= 0) != (blocked_mm <= 0)) return r->blocked_mm <= 0;
    if (fabs(r->blocked_mm - blocked_mm) > SW_SAME_POINT_MM) return r->blocked_mm < blocked_mm;
    return r->tilted < tilt - 1e-9;
}

static sw_status reach_sides(sw_run *run, const join_job *job, join_seam *seam, const bool *present)
{
    reach r = {.job = job, .seam = seam, .present = present, .hits = SW_SCRATCH(run, job->instance_count, size_t)};
    double blocked_mm = INFINITY, tilt = INFINITY;
    if (r.hits == NULL) return SW_NO_MEMORY;
    for (int k = 0; k < 2 && seam->sides[k] != NULL; k++) {
        r.points = seam->sides[k];
        SW_TRY(reach_side(run, &r));
        if (!better(&r, blocked_mm, tilt)) continue;
        blocked_mm = r.blocked_mm;
        tilt = r.tilted;
        seam->side = k;
        seam->blocker = blocked_mm <= 0 ? SIZE_MAX : worst_hit(&r);
    }
    seam->out->blocked_mm = blocked_mm;
    seam->out->reached = blocked_mm <= 0;
    return SW_OK;
}

sw_status join_reach(sw_run *run, const join_job *job, join_seam *seam, const bool *present)
{
    seam->out->reached = true;
    seam->out->blocked_mm = 0;
    seam->blocker = SIZE_MAX;
    seam->with = present;
    if (job->torch_radius_mm <= 0 || seam->count == 0) return SW_OK;
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = reach_sides(run, job, seam, present);
    sw_arena_rewind(run->scratch, mark);
    return status;
}

static sw_status shut_by(sw_run *run, const join_job *job, join_seam *seam, const bool *in_place, const bool *closed,
                         size_t *by)
{
    reach r = {.job = job, .seam = seam, .present = closed, .points = seam->sides[seam->side]};
    r.hits = SW_SCRATCH(run, job->instance_count, size_t);
    if (r.hits == NULL) return SW_NO_MEMORY;
    SW_TRY(reach_side(run, &r));
    *by = worst_of_closed(&r, in_place);
    return SW_OK;
}

sw_status join_shut_by(sw_run *run, const join_job *job, join_seam *seam, const bool *in_place, const bool *closed,
                       size_t *by)
{
    *by = SIZE_MAX;
    if (closed == NULL || job->torch_radius_mm <= 0 || seam->count == 0) return SW_OK;
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = shut_by(run, job, seam, in_place, closed, by);
    sw_arena_rewind(run->scratch, mark);
    return status;
}
