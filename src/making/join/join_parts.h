/* join_parts.h: what the steps of the welding study share. For this folder only.
 *
 * An instance is one placed piece with its triangles in the stove's frame. All arrays here live in run->scratch unless
 * said. A seam's points lie in runs: a point that starts a run has no seam between it and the one before. */
#ifndef SW_MAKING_JOIN_JOIN_PARTS_H
#define SW_MAKING_JOIN_JOIN_PARTS_H

#include "making/join/join.h"

#include <math.h>

typedef struct join_box {
    sw_vec3 low, high;
} join_box;

typedef struct join_face {
    sw_vec3 a, b, c, normal; /* unit, outward */
    join_box box;
} join_face;

typedef struct join_instance {
    const sw_sheet_piece *piece;
    sw_frame frame;
    sw_mesh mesh; /* in the stove's frame */
    const join_face *faces;
    const sw_mesh_tree *tree; /* of the faces, by their numbers */
    size_t piece_index, placement, face_count;
    join_box box;
    const char *label; /* "A-03 left side", run->keep */
} join_instance;

typedef struct join_seam {
    sw_join_seam *out;
    size_t a, b;             /* instances */
    sw_join_point *sides[2]; /* [count] each, run->keep; [1] NULL when there is one side */
    int side;                /* chosen: 0 or 1 */
    bool *starts;            /* [count] whether the point begins a run */
    size_t count;
    bool butt;          /* the torch stands upright on it */
    size_t blocker;     /* instance; SIZE_MAX = none */
    sw_join_station by; /* whose torch the points are for */
    size_t bars_robot;  /* instance in the way of the robot's torch; SIZE_MAX = none, or it was not asked */
    bool for_robot;     /* it has a row and gapes no more than the robot bridges */
    const bool *with;   /* [instances] pieces in place when the points were made, NULL = make them anew;
                       * compared only, never read: it may be gone */
    const bool *shut;   /* [instances] the fewest pieces tried that block it; NULL = none */
    bool given_up;      /* out of reach in every order: it is as it was found then */
    const char *ring;   /* the seams of which one is out of reach in every order; NULL = none, run->keep */
} join_seam;

typedef struct join_body {
    const size_t *members; /* instances, rising */
    size_t member_count;
    const size_t *seams; /* rising */
    size_t seam_count;
    const char *group;
    bool ahead;
} join_body;

typedef struct join_tilt {
    double work_rad, travel_rad;
} join_tilt;

enum { JOIN_TILT_STEPS = 5, JOIN_TILTS = (2 * JOIN_TILT_STEPS + 1) * (2 * JOIN_TILT_STEPS + 1) };
enum { JOIN_TURNS = 12 }; /* ours: of the neck about the wire's axis */

typedef struct join_attitude { /* of a torch at a point */
    unsigned tilt, turn;       /* of job->tilts; of JOIN_TURNS */
} join_attitude;

typedef struct join_job {
    const sw_join_input *in;
    const sw_join_options *opt;
    const sw_welding *welding;          /* NULL = none */
    sw_torch torches[SW_JOIN_STATIONS]; /* nozzle_long_mm 0 = not given: that station's access is not judged */
    join_tilt tilts[JOIN_TILTS];
    size_t tilt_count;
    join_attitude
        turned[JOIN_TILTS * JOIN_TURNS]; /* by how far off the bisector and off the turn before, least first */
    size_t turned_count;
    join_instance *instances;
    size_t instance_count;
    size_t *first; /* [pieces] instance of its first placement */
    join_seam *seams;
    size_t seam_count;
    join_body *bodies;
    size_t body_count, body_room;
    sw_join_body *told;       /* [body_count] run->keep */
    sw_join_seam *told_seams; /* [seam_count] run->keep */
    sw_join_result *result;   /* run->keep */
} join_job;

static inline sw_vec3 join_mix(sw_vec3 a, sw_vec3 b, double t)
{
    return sw_vec3_add(sw_vec3_scaled(a, 1 - t), sw_vec3_scaled(b, t));
}
static inline double join_apart(sw_vec3 a, sw_vec3 b)
{
    return sw_vec3_length(sw_vec3_sub(a, b));
}
static inline join_box join_box_empty(void)
{
    return (join_box){{INFINITY, INFINITY, INFINITY}, {-INFINITY, -INFINITY, -INFINITY}};
}
static inline join_box join_box_with(join_box box, sw_vec3 p)
{
    box.low = (sw_vec3){fmin(box.low.x_mm, p.x_mm), fmin(box.low.y_mm, p.y_mm), fmin(box.low.z_mm, p.z_mm)};
    box.high = (sw_vec3){fmax(box.high.x_mm, p.x_mm), fmax(box.high.y_mm, p.y_mm), fmax(box.high.z_mm, p.z_mm)};
    return box;
}
static inline bool join_boxes_near(join_box a, join_box b, double reach_mm)
{
    return a.low.x_mm <= b.high.x_mm + reach_mm && b.low.x_mm <= a.high.x_mm + reach_mm &&
           a.low.y_mm <= b.high.y_mm + reach_mm && b.low.y_mm <= a.high.y_mm + reach_mm &&
           a.low.z_mm <= b.high.z_mm + reach_mm && b.low.z_mm <= a.high.z_mm + reach_mm;
}

sw_status join_check(sw_run *run, const sw_join_input *in, const sw_join_options *opt); /* join_check.c */
sw_status join_instances(sw_run *run, join_job *job);                                   /* join_instances.c */
sw_status join_find_seams(sw_run *run, join_job *job); /* join_seams.c: path, normals, both sides */

/* join_edge.c: the named edge with the rims of rolled zones it runs on into; new arrays in run->scratch. */
sw_status join_whole_edge(sw_run *run, const sw_sheet_piece *piece, size_t edge, sw_folded_edge *out);

/* join_touch.c: the face of `on` that the point p of a cut edge stands before: o points out of the edge. NULL when none
 * is within reach_mm; *at is the nearest point of it. */
const join_face *join_touched(const join_instance *on, sw_vec3 p, sw_vec3 o, double reach_mm, sw_vec3 *at);

/* join_names.c: "a, b, c and 4 more" of the seams chosen[], run->keep; NULL on no memory. */
const char *join_names(sw_run *run, const join_job *job, const bool *chosen, size_t named_most);
sw_status join_grow_trees(sw_run *run, join_job *job); /* join_tree.c */
typedef struct join_cylinder {                         /* along the first axis from `from` */
    sw_vec3 from, axes[3];
    double radius_mm, long_mm;
    join_box box;
} join_cylinder;
join_cylinder join_cylinder_at(sw_vec3 from, sw_vec3 axis, double radius_mm, double long_mm); /* axis: unit */
bool join_cylinder_meets(const join_cylinder *c, const join_face *f);                         /* join_cylinder.c */
/* join_tree.c: a triangle of the instance that the cylinder meets; NULL = none. */
const join_face *join_met(const join_instance *one, const join_cylinder *c);

void join_attitudes(join_job *job); /* join_attitude.c: fills tilts and turned */
/* join_access.c: the seam past the instances present[]: whose torch gets there, the robot's before the hand's; chooses its
 * side and how the torch stands; fills reached, blocked_mm, blocker, by. quick: what is out of reach is not told further. */
sw_status join_reach(sw_run *run, const join_job *job, join_seam *seam, const bool *present, bool quick);
sw_status join_reach_by(sw_run *run, const join_job *job, join_seam *seam, const bool *present,
                        sw_join_station station); /* with this torch alone */
/* join_access.c: the piece of closed[] that is not yet in place[] and is in the way most on the side chosen; SIZE_MAX
 * without closed. Spoils the points: join_reach makes them anew. */
sw_status join_shut_by(sw_run *run, const join_job *job, join_seam *seam, const bool *in_place, const bool *closed,
                       size_t *by);
double join_gap_mm(const join_job *job, const sw_join_seam *s); /* join_split.c: the joint's widest */
double join_gap_bridged_mm(const join_job *job,
                           const sw_join_seam *s); /* that the robot bridges; INFINITY = not given */
bool join_torch_known(const join_job *job, sw_join_station station);

sw_status join_bodies(sw_run *run, join_job *job); /* join_bodies.c: fills bodies, job order; access of every seam */
sw_status join_tell_bodies(sw_run *run, join_job *job); /* join_told.c: names, order of setting up, masses */

const sw_weld_row *join_row_of(const join_job *job,
                               const sw_join_seam *s);                 /* join_figures.c; NULL = the works have none */
void join_figures(const join_job *job, join_seam *seam);               /* join_figures.c: row, heat, wire, shrinkage */
sw_status join_lay(sw_run *run, const join_job *job, join_seam *seam); /* join.c: its ups, stretches, figures */
sw_status join_stretches(sw_run *run, const join_job *job, join_seam *seam); /* join_stretch.c */
unsigned join_ups(const sw_join_seam *seam);                                 /* join_ups.c */
sw_status join_tacks(sw_run *run, join_job *job, size_t body);               /* join_tacks.c */
sw_status join_split(sw_run *run, join_job *job,
                     size_t body); /* join_split.c: hand or robot; lays anew what changes hands */
sw_status join_order(sw_run *run, join_job *job, size_t body); /* join_order.c: the robot's steps */
void join_times(join_job *job);                                /* join_times.c */
sw_status join_leaks(sw_run *run, join_job *job);              /* join_leaks.c */
sw_status join_findings(sw_run *run, join_job *job);           /* join_findings.c */

/* join_report.c: judges and appends a finding of this study; drops the remedy of one that holds. */
sw_status join_report(sw_run *run, join_job *job, sw_finding finding, double watch_margin);

/* What a seam pulls with, from the body's centre of mass: length x area x lever. Sources: docs/studies/join.md. */
sw_vec3 join_pull(const sw_join_seam *seam, sw_vec3 centre);
sw_vec3 join_middle(const sw_join_seam *seam);

#endif
