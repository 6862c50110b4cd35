/* join_order.c: the robot's steps: its seams in an order with little air and few turns that pulls the body evenly. */
#include "making/join/join_order_parts.h"

#include <string.h>

/* ---- the stops ------------------------------------------------------------------------------------------ */

static void describe_stop(const join_job *job, const sw_join_body *body, size_t seam, robot_stop *stop)
{
    const sw_join_seam *s = job->seams[seam].out;
    const sw_join_stretch *first = &s->stretches[0], *last = &s->stretches[s->stretch_count - 1];
    *stop = (robot_stop){.seam = seam, .ends = {first->points[0].at, last->points[last->count - 1].at}};
    stop->one_way = s->joint->stitch_mm <= 0 && s->stretch_count > 1;
    stop->ups = s->ups != 0 ? s->ups : ~0u;
    stop->pull = join_pull(s, body->centre);
}

/* The seam runs along the body's longest side. */
static bool lengthwise(const sw_join_seam *s, const join_box *box)
{
    double x = box->high.x_mm - box->low.x_mm, y = box->high.y_mm - box->low.y_mm, z = box->high.z_mm - box->low.z_mm;
    sw_vec3 axis = x >= y && x >= z ? (sw_vec3){1, 0, 0} : y >= z ? (sw_vec3){0, 1, 0} : (sw_vec3){0, 0, 1};
    for (size_t i = 0; i < s->count; i++)
        if (fabs(sw_vec3_dot(s->points[i].along, axis)) < 0.9) return false;
    return s->count > 0;
}

/* Edge a lies on a flange: a face that a bend carries. */
static bool on_flange(const join_job *job, const join_seam *seam)
{
    const sw_piece *p = job->instances[seam->a].piece->piece;
    return p->edges[seam->out->joint->a.edge].face != 0;
}

static bool share_piece(const join_seam *s, const join_seam *t)
{
    return s->a == t->a || s->a == t->b || s->b == t->a || s->b == t->b;
}

/* Longitudinal seams before those of flanges that stiffen the same piece across them. Common practice, no source. */
static void what_follows(const join_job *job, size_t body, const robot_tour *t, bool *after)
{
    join_box box = join_box_empty();
    for (size_t i = 0; i < job->bodies[body].member_count; i++) {
        const join_instance *one = &job->instances[job->bodies[body].members[i]];
        box = join_box_with(join_box_with(box, one->box.low), one->box.high);
    }
    for (size_t i = 0; i < t->count; i++)
        for (size_t k = 0; k < t->count; k++) {
            const join_seam *stiff = &job->seams[t->stops[i].seam], *first = &job->seams[t->stops[k].seam];
            after[i * t->count + k] = i != k && share_piece(stiff, first) && on_flange(job, stiff) &&
                                      !lengthwise(stiff->out, &box) && lengthwise(first->out, &box);
        }
}

static sw_status collect(sw_run *run, const join_job *job, size_t body, robot_tour *t)
{
    const sw_join_body *told = &job->told[body];
    t->stops = SW_SCRATCH(run, told->seam_count, robot_stop);
    if (t->stops == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < told->seam_count; i++) {
        const sw_join_seam *s = job->seams[told->seams[i]].out;
        if (s->station == SW_JOIN_ROBOT && s->stretch_count > 0)
            describe_stop(job, told, told->seams[i], &t->stops[t->count++]);
    }
    bool *after = SW_SCRATCH(run, t->count * t->count, bool);
    if (after == NULL) return SW_NO_MEMORY;
    what_follows(job, body, t, after);
    for (size_t i = 0; i < t->count * t->count; i++) t->any_after = t->any_after || after[i];
    t->after = after;
    return SW_OK;
}

/* ---- the steps ------------------------------------------------------------------------------------------ */

/* Way within a seam, from the end of each stretch to the start of the next. */
static double inner_mm(const robot_tour *t, const sw_join_seam *s, bool backwards)
{
    double sum_mm = 0;
    for (size_t i = 0; i + 1 < s->stretch_count; i++) {
        const sw_join_stretch *p = &s->stretches[i], *q = &s->stretches[i + 1];
        sw_vec3 from = p->points[p->count - 1].at, to = q->points[0].at;
        if (backwards) {
            from = q->points[0].at;
            to = p->points[p->count - 1].at;
        }
        sum_mm += join_apart(from, to) + 2 * t->back_mm;
    }
    return sum_mm;
}

/* The cheapest directions of an order, worked out from its end: dir[i] of order[i]. */
static void directions(const robot_tour *t, const size_t *order, double (*left)[2], bool *dir)
{
    for (size_t i = t->count; i-- > 0;)
        for (int d = 0; d < 2; d++) {
            const robot_stop *p = &t->stops[order[i]];
            double best = i + 1 == t->count ? 0 : (double)INFINITY;
            for (int e = 0; e < 2 && i + 1 < t->count; e++) {
                double way_mm = join_apart(p->ends[1 - d], t->stops[order[i + 1]].ends[e]);
                best = fmin(best, way_mm + left[i + 1][e]);
            }
            left[i][d] = d == 1 && p->one_way ? (double)INFINITY : best;
        }
    for (size_t i = 0; i < t->count; i++) {
        double cost[2] = {left[i][0], left[i][1]};
        for (int d = 0; d < 2 && i > 0; d++)
            cost[d] += join_apart(t->stops[order[i - 1]].ends[dir[i - 1] ? 0 : 1], t->stops[order[i]].ends[d]);
        dir[i] = cost[1] < cost[0];
    }
}

/* Ways up with as few turns as the order needs; the first that suits all seams until the next turn. */
static void choose_ups(const robot_tour *t, const size_t *order, sw_join_step *steps)
{
    for (size_t begin = 0; begin < t->count;) {
        unsigned ups = t->stops[order[begin]].ups;
        size_t end = begin + 1, up = 0;
        while (end < t->count && (ups & t->stops[order[end]].ups) != 0) ups &= t->stops[order[end++]].ups;
        while (up + 1 < SW_JOIN_UPS && (ups >> up & 1u) == 0) up++;
        for (size_t i = begin; i < end; i++) steps[i].up = up;
        steps[begin].turned = begin > 0;
        begin = end;
    }
}

static void add_up(const join_job *job, const robot_tour *t, const size_t *order, const bool *dir, sw_join_body *body,
                   sw_join_step *steps)
{
    sw_vec3 pulled = {0, 0, 0};
    double all = 0;
    for (size_t i = 0; i < t->count; i++) all += sw_vec3_length(t->stops[i].pull);
    for (size_t i = 0; i < t->count; i++) {
        const robot_stop *stop = &t->stops[order[i]], *before = i > 0 ? &t->stops[order[i - 1]] : NULL;
        const sw_join_seam *s = job->seams[stop->seam].out;
        sw_join_step *step = &steps[i];
        step->seam = stop->seam;
        step->backwards = dir[i];
        double way_mm = before == NULL
                            ? 0
                            : join_apart(before->ends[dir[i - 1] ? 0 : 1], stop->ends[dir[i] ? 1 : 0]) + 2 * t->back_mm;
        step->air_mm = way_mm + inner_mm(t, s, dir[i]);
        step->air_s = isfinite(t->air_mm_s) ? step->air_mm / t->air_mm_s : 0;
        step->weld_s = s->arc_s + (double)s->stretch_count * job->welding->robot_start_s;
        if (robot_same_side(pulled, stop->pull)) body->same_side++;
        pulled = sw_vec3_add(pulled, stop->pull);
        step->pull = all > 0 ? sw_vec3_length(pulled) / all : 0;
        body->robot_arc_s += s->arc_s;
        body->starts += s->stretch_count;
        body->air_s += step->air_s;
        body->turns += step->turned;
    }
}

static sw_status tell(sw_run *run, const join_job *job, const robot_tour *t, const size_t *order, sw_join_body *body)
{
    sw_join_step *steps = SW_KEEP(run, t->count, sw_join_step);
    bool *dir = SW_SCRATCH(run, t->count, bool);
    double(*left)[2] = sw_scratch(run, t->count, sizeof *left);
    if (steps == NULL || dir == NULL || left == NULL) return SW_NO_MEMORY;
    directions(t, order, left, dir);
    choose_ups(t, order, steps);
    add_up(job, t, order, dir, body, steps);
    body->robot = steps;
    body->robot_count = t->count;
    return SW_OK;
}

sw_status join_order(sw_run *run, join_job *job, size_t body)
{
    if (job->welding == NULL) return SW_OK;
    const sw_welding *w = job->welding;
    robot_tour t = {.air_mm_s = w->robot_air_mm_s > 0 ? w->robot_air_mm_s : (double)INFINITY,
                    .back_mm = job->opt->back_mm,
                    .turn_s = w->turn_s,
                    .balance_s = job->opt->balance_s};
    SW_TRY(collect(run, job, body, &t));
    if (t.count == 0) return SW_OK;
    size_t *order = SW_SCRATCH(run, t.count, size_t);
    if (order == NULL) return SW_NO_MEMORY;
    SW_TRY(robot_search(run, &t, order, &job->told[body].proved));
    return tell(run, job, &t, order, &job->told[body]);
}
