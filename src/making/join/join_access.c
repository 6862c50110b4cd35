/* join_access.c: does a torch get to a seam past the pieces that are in place? Along the seam it is tried place by place, on
 * either side, the robot's before the one held by hand. */
#include "making/join/join_access_parts.h"

#include <string.h>

bool join_torch_known(const join_job *job, sw_join_station station)
{
    return job->torches[station].nozzle_radius_mm > 0 && job->torches[station].nozzle_long_mm > 0;
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
        points[i].turn_rad = near->turn_rad;
        points[i].reached = near->reached;
    }
}

/* The next point after i to be tried within the run that ends before `end`; `end` when there is none. */
static size_t next_place(const join_look *r, size_t i, size_t end)
{
    double from_mm = r->points[i].from_mm, last_mm = r->points[end - 1].from_mm - r->job->opt->end_mm;
    size_t best = end;
    for (size_t k = i + 1; k < end && r->points[k].from_mm <= last_mm; k++) {
        best = k;
        if (r->points[k].from_mm - from_mm >= r->job->opt->access_mm) break;
    }
    return best;
}

static size_t first_place(const join_look *r, size_t begin, size_t end)
{
    double a_mm = r->points[begin].from_mm, b_mm = r->points[end - 1].from_mm;
    double at_mm = fmin(a_mm + r->job->opt->end_mm, (a_mm + b_mm) / 2);
    size_t i = begin;
    while (i + 1 < end && r->points[i].from_mm < at_mm - SW_SAME_POINT_MM) i++;
    return i;
}

static void sum_up(join_look *r, size_t begin, size_t end)
{
    for (size_t i = begin; i < end; i++) {
        double span_mm = i > begin ? r->points[i].from_mm - r->points[i - 1].from_mm : 0;
        if (!r->points[i].reached) r->blocked_mm += span_mm;
        r->tilted += span_mm * hypot(r->points[i].work_rad, r->points[i].travel_rad);
    }
}

static void fill_between(join_look *r, size_t begin, size_t end)
{
    size_t at = r->places[0].point;
    fill(r->points, begin, at, at, at);
    for (size_t i = 1; i < r->place_count; i++) {
        fill(r->points, at + 1, r->places[i].point, at, r->places[i].point);
        at = r->places[i].point;
    }
    fill(r->points, at + 1, end, at, at);
}

static void reach_run(join_look *r, size_t begin, size_t end)
{
    bool all = true;
    r->place_count = 0;
    for (size_t at = first_place(r, begin, end); at < end; at = next_place(r, at, end)) {
        join_try_place(r, at);
        all = all && r->points[at].reached;
        if (r->quick && !all) break;
    }
    if (all) join_smooth(r);
    fill_between(r, begin, end);
    sum_up(r, begin, end);
}

static void reach_side(join_look *r)
{
    const join_seam *seam = r->seam;
    memset(r->hits, 0, r->job->instance_count * sizeof *r->hits);
    r->blocked_mm = r->tilted = 0;
    r->at = (join_attitude){0, 0};
    for (size_t begin = 0; begin < seam->count && !(r->quick && r->blocked_mm > 0);) {
        size_t end = begin + 1;
        while (end < seam->count && !seam->starts[end]) end++;
        reach_run(r, begin, end);
        begin = end;
    }
}

/* ---- what is in the way ------------------------------------------------------------------------------------- */

static bool own(const join_look *r, size_t instance)
{
    return instance == r->seam->a || instance == r->seam->b;
}

/* The other pieces are named before the seam's own two. */
static size_t worst_hit(const join_look *r)
{
    size_t best = SIZE_MAX;
    for (size_t i = 0; i < r->job->instance_count; i++) {
        if (r->hits[i] == 0) continue;
        bool more = best == SIZE_MAX || (own(r, best) == own(r, i) ? r->hits[i] > r->hits[best] : own(r, best));
        if (more) best = i;
    }
    return best;
}

static size_t worst_of_closed(const join_look *r, const bool *in_place)
{
    size_t best = SIZE_MAX;
    for (size_t i = 0; i < r->job->instance_count; i++)
        if (!in_place[i] && r->hits[i] > 0 && (best == SIZE_MAX || r->hits[i] > r->hits[best])) best = i;
    return best;
}

static bool better(const join_look *r, double blocked_mm, double tilt)
{
    if ((r->blocked_mm <= 0) != (blocked_mm <= 0)) return r->blocked_mm <= 0;
    if (fabs(r->blocked_mm - blocked_mm) > SW_SAME_POINT_MM) return r->blocked_mm < blocked_mm;
    return r->tilted < tilt - 1e-9;
}

/* ---- whose torch ------------------------------------------------------------------------------------------ */

static sw_status look_make(sw_run *run, const join_job *job, const join_seam *seam, sw_join_station station,
                           join_look *r)
{
    *r = (join_look){.job = job,
                     .seam = seam,
                     .torch = &job->torches[station],
                     .near = SW_SCRATCH(run, job->instance_count, size_t),
                     .hits = SW_SCRATCH(run, job->instance_count, size_t),
                     .here = SW_SCRATCH(run, job->instance_count, size_t)};
    r->places = sw_scratch(run, seam->count, sizeof *r->places);
    return r->near == NULL || r->hits == NULL || r->here == NULL || r->places == NULL ? SW_NO_MEMORY : SW_OK;
}

static void reach_sides(join_look *r, join_seam *seam)
{
    double blocked_mm = INFINITY, tilt = INFINITY;
    for (int k = 0; k < 2 && seam->sides[k] != NULL; k++) {
        r->points = seam->sides[k];
        reach_side(r);
        if (!better(r, blocked_mm, tilt)) continue;
        blocked_mm = r->blocked_mm;
        tilt = r->tilted;
        seam->side = k;
        seam->blocker = blocked_mm <= 0 ? SIZE_MAX : worst_hit(r);
        if (blocked_mm <= 0 && tilt <= 0) break;
    }
    seam->out->blocked_mm = blocked_mm;
    seam->out->reached = blocked_mm <= 0;
}

static sw_status reach_with(sw_run *run, const join_job *job, join_seam *seam, const bool *present,
                            sw_join_station station, bool quick)
{
    join_look r;
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = look_make(run, job, seam, station, &r);
    r.present = present;
    r.quick = quick;
    if (status == SW_OK) reach_sides(&r, seam);
    sw_arena_rewind(run->scratch, mark);
    seam->by = station;
    return status;
}

sw_status join_reach_by(sw_run *run, const join_job *job, join_seam *seam, const bool *present, sw_join_station station)
{
    return reach_with(run, job, seam, present, station, false);
}

/* What the pieces in place weigh and how long they are together: the positioner and the robot must take them. */
static bool robot_takes(const join_job *job, const bool *present)
{
    const sw_welding *w = &job->in->works->welding;
    double mass_kg = 0;
    join_box box = join_box_empty();
    for (size_t i = 0; i < job->instance_count; i++) {
        if (!present[i]) continue;
        mass_kg += job->instances[i].piece->mass_kg;
        box = join_box_with(join_box_with(box, job->instances[i].box.low), job->instances[i].box.high);
    }
    sw_vec3 span = sw_vec3_sub(box.high, box.low);
    double span_mm = fmax(span.x_mm, fmax(span.y_mm, span.z_mm));
    return !(w->robot_load_kg > 0 && mass_kg > w->robot_load_kg) && !(w->reach_mm > 0 && span_mm > w->reach_mm);
}

sw_status join_reach(sw_run *run, const join_job *job, join_seam *seam, const bool *present, bool quick)
{
    bool by_hand = join_torch_known(job, SW_JOIN_HAND), by_robot = join_torch_known(job, SW_JOIN_ROBOT);
    seam->out->reached = true;
    seam->out->blocked_mm = 0;
    seam->blocker = seam->bars_robot = SIZE_MAX;
    seam->with = present;
    if ((!by_hand && !by_robot) || seam->count == 0) return SW_OK;
    if (by_robot && seam->for_robot && robot_takes(job, present)) {
        SW_TRY(reach_with(run, job, seam, present, SW_JOIN_ROBOT, quick || by_hand));
        if (seam->out->reached || !by_hand) return SW_OK;
        seam->bars_robot = seam->blocker;
    }
    return by_hand ? reach_with(run, job, seam, present, SW_JOIN_HAND, quick) : SW_OK;
}

static sw_status shut_by(sw_run *run, const join_job *job, join_seam *seam, const bool *in_place, const bool *closed,
                         size_t *by)
{
    join_look r;
    SW_TRY(look_make(run, job, seam, seam->by, &r));
    r.present = closed;
    r.points = seam->sides[seam->side];
    reach_side(&r);
    *by = worst_of_closed(&r, in_place);
    return SW_OK;
}

sw_status join_shut_by(sw_run *run, const join_job *job, join_seam *seam, const bool *in_place, const bool *closed,
                       size_t *by)
{
    *by = SIZE_MAX;
    if (closed == NULL || !join_torch_known(job, seam->by) || seam->count == 0) return SW_OK;
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = shut_by(run, job, seam, in_place, closed, by);
    sw_arena_rewind(run->scratch, mark);
    return status;
}
