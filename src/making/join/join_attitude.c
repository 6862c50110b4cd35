/* join_attitude.c: how a torch may stand at a point: tilted off the bisector and turned about the wire, and where its
 * tubes are then. A knee is a mitre of its two tubes: what bends inside it is covered. */
#include "making/join/join_access_parts.h"

static double tilt_size(join_tilt t)
{
    return hypot(t.work_rad, t.travel_rad);
}

static void list_tilts(join_job *job)
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

/* Half a turn of the neck, which the weld does not feel, for half of the largest tilt, which it does (ours). */
static double effort(const join_job *job, join_attitude at)
{
    double most = job->opt->tilt_rad > 0 ? job->opt->tilt_rad : 1, half = 0.5;
    return tilt_size(job->tilts[at.tilt]) / most + half * fabs(join_turn_rad(at.turn)) / SW_PI;
}

void join_attitudes(join_job *job)
{
    double efforts[JOIN_TILTS * JOIN_TURNS];
    list_tilts(job);
    job->turned_count = 0;
    for (unsigned turn = 0; turn < JOIN_TURNS; turn++)
        for (unsigned tilt = 0; tilt < job->tilt_count; tilt++) {
            join_attitude one = {tilt, turn};
            double size = effort(job, one);
            size_t at = job->turned_count++;
            for (; at > 0 && efforts[at - 1] > size + 1e-9; at--) {
                job->turned[at] = job->turned[at - 1];
                efforts[at] = efforts[at - 1];
            }
            job->turned[at] = one;
            efforts[at] = size;
        }
}

join_tilt join_tilt_of(const join_job *job, join_attitude at)
{
    return job->tilts[at.tilt];
}

double join_turn_rad(unsigned turn)
{
    const int whole = JOIN_TURNS;
    int n = (int)(turn % JOIN_TURNS);
    return 2 * SW_PI * (2 * n > whole ? n - whole : n) / whole;
}

/* Off the bisector across the seam, towards the side of sheet a, then along it. */
sw_vec3 join_axis(const sw_join_point *p, join_tilt tilt)
{
    sw_vec3 bisector = p->torch, across = sw_vec3_cross(p->along, bisector);
    if (sw_vec3_dot(across, p->sheet_a) < 0) across = sw_vec3_scaled(across, -1);
    sw_vec3 d = sw_vec3_add(sw_vec3_scaled(bisector, cos(tilt.work_rad)), sw_vec3_scaled(across, sin(tilt.work_rad)));
    d = sw_vec3_add(sw_vec3_scaled(d, cos(tilt.travel_rad)), sw_vec3_scaled(p->along, sin(tilt.travel_rad)));
    return sw_vec3_unit(d);
}

/* ---- tubes ------------------------------------------------------------------------------------------------- */

static double radius_of(const sw_torch *t, int tube)
{
    const double radii_mm[] = {t->nozzle_radius_mm, t->neck_radius_mm, t->body_radius_mm, t->wrist_radius_mm,
                               t->arm_radius_mm};
    return radii_mm[tube < JOIN_ARM ? tube : JOIN_ARM];
}

static double length_of(const sw_torch *t, int tube)
{
    const double long_mm[] = {t->nozzle_long_mm, t->neck_long_mm, t->body_long_mm, t->wrist_long_mm, t->arm_long_mm};
    return long_mm[tube < JOIN_ARM ? tube : JOIN_ARM];
}

bool join_has_tube(const sw_torch *t, int tube)
{
    return radius_of(t, tube) > 0 && length_of(t, tube) > 0;
}

/* How far a tube goes beyond the knee for a mitre. Source: derived. */
static double mitre_mm(double radius_mm, double bend_rad)
{
    return radius_mm * tan(bend_rad / 2);
}

join_cylinder join_nozzle(const sw_torch *t, sw_vec3 root, sw_vec3 axis, double stickout_mm)
{
    double beyond_mm = join_has_tube(t, JOIN_NECK) ? mitre_mm(t->nozzle_radius_mm, t->neck_rad) : 0;
    return join_cylinder_at(sw_vec3_add(root, sw_vec3_scaled(axis, stickout_mm)), axis, t->nozzle_radius_mm,
                            t->nozzle_long_mm + beyond_mm);
}

static sw_vec3 mixed(double a, sw_vec3 p, double b, sw_vec3 q)
{
    return sw_vec3_add(sw_vec3_scaled(p, a), sw_vec3_scaled(q, b));
}

join_carrier join_carrier_at(const sw_torch *t, const sw_join_point *p, sw_vec3 axis, double turn_rad,
                             double stickout_mm)
{
    sw_vec3 ahead = sw_vec3_unit(mixed(1, p->along, -sw_vec3_dot(p->along, axis), axis));
    sw_vec3 lean = mixed(cos(turn_rad), ahead, sin(turn_rad), sw_vec3_cross(axis, ahead));
    join_carrier c = {.knee = mixed(1, p->at, stickout_mm + t->nozzle_long_mm, axis),
                      .way = mixed(cos(t->neck_rad), axis, sin(t->neck_rad), lean),
                      .side = mixed(-sin(t->neck_rad), axis, cos(t->neck_rad), lean)};
    c.up = sw_vec3_cross(c.way, c.side);
    return c;
}

static double behind_knee_mm(const sw_torch *t, int tube)
{
    double sum_mm = 0;
    for (int k = JOIN_NECK; k < tube && k < JOIN_ARM; k++) sum_mm += length_of(t, k);
    return sum_mm;
}

/* The arm's ways: straight on, then half and all of its bend, each all round. */
static join_cylinder arm(const sw_torch *t, const join_carrier *c, int way)
{
    sw_vec3 from = mixed(1, c->knee, behind_knee_mm(t, JOIN_ARM), c->way);
    if (way == 0) return join_cylinder_at(from, c->way, t->arm_radius_mm, t->arm_long_mm);
    int half = way <= JOIN_ARM_ROUND;
    double bend_rad = half ? t->arm_rad / 2 : t->arm_rad, round_rad = 2 * SW_PI * (way - 1) / JOIN_ARM_ROUND;
    sw_vec3 lean = mixed(cos(round_rad), c->side, sin(round_rad), c->up);
    sw_vec3 axis = sw_vec3_unit(mixed(cos(bend_rad), c->way, sin(bend_rad), lean));
    double back_mm = fmin(t->arm_radius_mm, mitre_mm(t->arm_radius_mm, bend_rad));
    return join_cylinder_at(mixed(1, from, -back_mm, axis), axis, t->arm_radius_mm, t->arm_long_mm + back_mm);
}

join_cylinder join_tube(const sw_torch *t, const join_carrier *c, int tube)
{
    if (tube >= JOIN_ARM) return arm(t, c, tube - JOIN_ARM);
    double back_mm = tube == JOIN_NECK ? mitre_mm(t->neck_radius_mm, t->neck_rad) : 0;
    sw_vec3 from = mixed(1, c->knee, behind_knee_mm(t, tube) - back_mm, c->way);
    return join_cylinder_at(from, c->way, radius_of(t, tube), length_of(t, tube) + back_mm);
}
