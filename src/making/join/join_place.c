/* join_place.c: one point of a seam: the torch is tilted and turned, least of both first, beginning with what worked last,
 * until nothing is in the way of its nozzle and of what carries it. */
#include "making/join/join_access_parts.h"

#include <string.h>

/* ---- what is near ------------------------------------------------------------------------------------ */

static double whole_mm(const join_look *r)
{
    const sw_torch *t = r->torch;
    double radius_mm = fmax(fmax(t->nozzle_radius_mm, t->neck_radius_mm), fmax(t->body_radius_mm, t->wrist_radius_mm));
    return r->job->opt->stickout_mm + t->nozzle_long_mm + t->neck_long_mm + t->body_long_mm + t->wrist_long_mm +
           t->arm_long_mm + fmax(radius_mm, 2 * t->arm_radius_mm);
}

static void gather_one(join_look *r, join_box point, size_t instance, double far_mm)
{
    if (r->present[instance] && join_boxes_near(r->job->instances[instance].box, point, far_mm))
        r->near[r->near_count++] = instance;
}

/* The seam's own pieces last: where others are in the way as well, these are named. */
static void gather(join_look *r, const sw_join_point *p)
{
    join_box point = {p->at, p->at};
    double far_mm = whole_mm(r);
    r->near_count = 0;
    for (size_t i = 0; i < r->job->instance_count; i++)
        if (i != r->seam->a && i != r->seam->b) gather_one(r, point, i, far_mm);
    gather_one(r, point, r->seam->a, far_mm);
    if (r->seam->a != r->seam->b) gather_one(r, point, r->seam->b, far_mm);
}

/* ---- one tube ------------------------------------------------------------------------------------------ */

/* Whether the tube meets one of the triangles that it met last. */
static bool met_again(join_look *r, const join_cylinder *c, int tube)
{
    for (size_t i = 0; i < JOIN_LAST; i++) {
        const join_face *face = r->last[tube].faces[i];
        if (face == NULL || !join_boxes_near(c->box, face->box, 0) || !join_cylinder_meets(c, face)) continue;
        r->here[r->last[tube].instances[i]]++;
        return true;
    }
    return false;
}

static bool meets(join_look *r, const join_cylinder *c, int tube)
{
    for (size_t i = 0; i < r->near_count; i++) {
        const join_instance *one = &r->job->instances[r->near[i]];
        if (!join_boxes_near(c->box, one->box, 0)) continue;
        const join_face *face = join_met(one, c);
        if (face == NULL) continue;
        size_t slot = r->last[tube].next++ % JOIN_LAST;
        r->last[tube].faces[slot] = face;
        r->last[tube].instances[slot] = r->near[i];
        r->here[r->near[i]]++;
        return true;
    }
    return false;
}

static bool tube_free(join_look *r, const join_cylinder *c, int tube)
{
    return !met_again(r, c, tube) && !meets(r, c, tube);
}

/* ---- one attitude --------------------------------------------------------------------------------------- */

static bool nozzle_free(join_look *r, const sw_join_point *p, unsigned tilt, sw_vec3 axis)
{
    if (r->nozzle[tilt] == 0) {
        join_cylinder c = join_nozzle(r->torch, p->at, axis, r->job->opt->stickout_mm);
        r->nozzle[tilt] = tube_free(r, &c, JOIN_NOZZLE) ? 1 : -1;
    }
    return r->nozzle[tilt] > 0;
}

static bool arm_free(join_look *r, const join_carrier *c)
{
    int ways = r->torch->arm_rad > 0 ? JOIN_ARM_WAYS : 1;
    if (!join_has_tube(r->torch, JOIN_ARM)) return true;
    for (int k = 0; k < ways; k++) {
        join_cylinder tube = join_tube(r->torch, c, JOIN_ARM + k);
        if (tube_free(r, &tube, JOIN_ARM + k)) return true;
    }
    return false;
}

/* What was met before by any tube is looked at before anything else. */
static bool carrier_free(join_look *r, const join_carrier *c)
{
    join_cylinder tubes[JOIN_ARM];
    for (int k = JOIN_NECK; k < JOIN_ARM; k++) {
        if (!join_has_tube(r->torch, k)) continue;
        tubes[k] = join_tube(r->torch, c, k);
        if (met_again(r, &tubes[k], k)) return false;
    }
    for (int k = JOIN_NECK; k < JOIN_ARM; k++)
        if (join_has_tube(r->torch, k) && meets(r, &tubes[k], k)) return false;
    return true;
}

static bool clear(join_look *r, const sw_join_point *p, join_attitude at)
{
    if (r->nozzle[at.tilt] < 0) return false;
    sw_vec3 axis = join_axis(p, join_tilt_of(r->job, at));
    if (!nozzle_free(r, p, at.tilt, axis)) return false;
    if (!join_has_tube(r->torch, JOIN_NECK)) return true;
    join_carrier c = join_carrier_at(r->torch, p, axis, join_turn_rad(at.turn), r->job->opt->stickout_mm);
    return carrier_free(r, &c) && arm_free(r, &c);
}

/* ---- one point -------------------------------------------------------------------------------------------- */

static bool try_all(join_look *r, const sw_join_point *p)
{
    const join_job *job = r->job;
    unsigned before = r->at.turn;
    bool straight = !join_has_tube(r->torch, JOIN_NECK) || r->torch->neck_rad <= 0; /* turned it is the same */
    if (clear(r, p, r->at)) return true;
    for (size_t k = 0; k < job->turned_count; k++) {
        join_attitude at = {job->turned[k].tilt, (before + job->turned[k].turn) % JOIN_TURNS};
        if ((straight && job->turned[k].turn != 0) || !clear(r, p, at)) continue;
        r->at = at;
        return true;
    }
    return false;
}

static void look_from(join_look *r, const sw_join_point *p)
{
    gather(r, p);
    memset(r->here, 0, r->job->instance_count * sizeof *r->here);
    memset(r->nozzle, 0, sizeof r->nozzle);
}

void join_stand(const join_look *r, size_t point, join_attitude at)
{
    join_tilt tilt = join_tilt_of(r->job, at);
    r->points[point].work_rad = tilt.work_rad;
    r->points[point].travel_rad = tilt.travel_rad;
    r->points[point].turn_rad = join_turn_rad(at.turn);
}

bool join_stands(join_look *r, size_t point, join_attitude at)
{
    look_from(r, &r->points[point]);
    return clear(r, &r->points[point], at);
}

void join_try_place(join_look *r, size_t point)
{
    sw_join_point *p = &r->points[point];
    look_from(r, p);
    p->reached = try_all(r, p);
    for (size_t i = 0; i < r->job->instance_count && !p->reached; i++) r->hits[i] += r->here[i];
    join_stand(r, point, p->reached ? r->at : (join_attitude){0, 0});
    r->places[r->place_count].point = point;
    r->places[r->place_count++].at = r->at;
}
