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

static bool meets(join_look *r, const join_cylinder *c, int tube)
{
    if (r->last[tube].face != NULL && join_cylinder_meets(c, r->last[tube].face)) return true;
    for (size_t i = 0; i < r->near_count; i++) {
        const join_instance *one = &r->job->instances[r->near[i]];
        if (!join_boxes_near(c->box, one->box, 0)) continue;
        const join_face *face = join_met(one, c);
        if (face == NULL) continue;
        r->last[tube].face = face;
        r->last[tube].instance = r->near[i];
        return true;
    }
    return false;
}

static bool tube_free(join_look *r, const join_cylinder *c, int tube)
{
    if (!meets(r, c, tube)) return true;
    r->here[r->last[tube].instance]++;
    return false;
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

static bool clear(join_look *r, const sw_join_point *p, join_attitude at)
{
    if (r->nozzle[at.tilt] < 0) return false;
    sw_vec3 axis = join_axis(p, join_tilt_of(r->job, at));
    if (!nozzle_free(r, p, at.tilt, axis)) return false;
    if (!join_has_tube(r->torch, JOIN_NECK)) return true;
    join_carrier c = join_carrier_at(r->torch, p, axis, join_turn_rad(at.turn), r->job->opt->stickout_mm);
    for (int tube = JOIN_NECK; tube < JOIN_ARM; tube++) {
        if (!join_has_tube(r->torch, tube)) continue;
        join_cylinder one = join_tube(r->torch, &c, tube);
        if (!tube_free(r, &one, tube)) return false;
    }
    return arm_free(r, &c);
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
        r->changes++;
        return true;
    }
    return false;
}

void join_try_place(join_look *r, sw_join_point *p)
{
    size_t count = r->job->instance_count;
    gather(r, p);
    memset(r->here, 0, count * sizeof *r->here);
    memset(r->nozzle, 0, sizeof r->nozzle);
    p->reached = try_all(r, p);
    for (size_t i = 0; i < count && !p->reached; i++) r->hits[i] += r->here[i];
    join_tilt used = p->reached ? join_tilt_of(r->job, r->at) : (join_tilt){0, 0};
    p->work_rad = used.work_rad;
    p->travel_rad = used.travel_rad;
    p->turn_rad = p->reached ? join_turn_rad(r->at.turn) : 0;
}
