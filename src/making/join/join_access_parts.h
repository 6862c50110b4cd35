/* join_access_parts.h: how a torch stands at a point of a seam and what is in its way there; for join_access.c,
 * join_attitude.c, join_place.c, join_smooth.c and join_stretch.c alone. */
#ifndef SW_MAKING_JOIN_JOIN_ACCESS_PARTS_H
#define SW_MAKING_JOIN_JOIN_ACCESS_PARTS_H

#include "making/join/join_parts.h"

enum { JOIN_ARM_ROUND = 6, JOIN_ARM_WAYS = 1 + 2 * JOIN_ARM_ROUND }; /* straight; half and whole bend, all round */
enum { JOIN_LAST = 4 };
enum { JOIN_NOZZLE, JOIN_NECK, JOIN_BODY, JOIN_WRIST, JOIN_ARM, JOIN_TUBES = JOIN_ARM + JOIN_ARM_WAYS };

/* join_attitude.c */
join_tilt join_tilt_of(const join_job *job, join_attitude at);
double
join_turn_rad(unsigned turn); /* -pi .. pi; 0 = the neck leans the way the seam runs, right-handed about the axis */
sw_vec3 join_axis(const sw_join_point *p, join_tilt tilt); /* of the wire, from the root to the torch */
join_cylinder join_nozzle(const sw_torch *t, sw_vec3 root, sw_vec3 axis, double stickout_mm);
typedef struct join_carrier {    /* what carries the nozzle: in line with the neck, the arm from its end */
    sw_vec3 knee, way, side, up; /* unit vectors at right angles but for the knee, where the neck bends */
} join_carrier;
join_carrier join_carrier_at(const sw_torch *t, const sw_join_point *p, sw_vec3 axis, double turn_rad,
                             double stickout_mm);
bool join_has_tube(const sw_torch *t, int tube);
join_cylinder join_tube(const sw_torch *t, const join_carrier *c, int tube); /* JOIN_NECK and behind */

typedef struct join_look { /* of one side of one seam with one torch */
    const join_job *job;
    const join_seam *seam;
    const sw_torch *torch;
    const bool *present;
    bool quick; /* it ends at the first place out of reach */
    sw_join_point *points;
    size_t *near, near_count; /* [instances] in place, near enough for all of the torch; the seam's own last */
    struct {
        const join_face *faces[JOIN_LAST]; /* NULL = none yet */
        size_t instances[JOIN_LAST], next;
    } last[JOIN_TUBES];  /* what each tube met last: looked at first */
    size_t *hits, *here; /* [instances] how often each was in the way where nothing helps; at the point looked at */
    signed char nozzle[JOIN_TILTS]; /* at the point looked at: 1 free, -1 not, 0 not known */
    join_attitude at;               /* that worked last */
    double blocked_mm, tilted;
    struct {
        size_t point;
        join_attitude at;
    } * places; /* [place_count] tried in the run looked at */
    size_t place_count;
} join_look;

void join_try_place(join_look *r,
                    size_t point); /* join_place.c: a further place; fills how the torch stands, reached */
bool join_stands(join_look *r, size_t point, join_attitude at);      /* whether it does so there */
void join_stand(const join_look *r, size_t point, join_attitude at); /* so it does */
void join_smooth(join_look *r); /* join_smooth.c: the places of a run reached, with as few changes as is easily had */

#endif
