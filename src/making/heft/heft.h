/* heft.h: mass, centre of gravity and moments of each piece, subassembly and the whole stove; and how each is lifted.
 *
 * kg, mm in the stove's frame, moments of inertia kg mm2 about the centre of gravity of what they belong to: entries of
 * the inertia tensor, Ixx = int (y2 + z2) dm, Ixy = -int x y dm. Forces N. Method: docs/studies/heft.md. */
#ifndef SW_MAKING_HEFT_HEFT_H
#define SW_MAKING_HEFT_HEFT_H

#include "model/model.h"

typedef struct sw_body {
    double mass_kg;
    sw_vec3 centre;
    double inertia_kg_mm2[6];
} sw_body; /* xx yy zz xy yz zx */

/* Parallel-axis sum of bodies given in one frame; count 0 gives a zero body. */
sw_body sw_body_sum(const sw_body *bodies, size_t count);
sw_body sw_body_moved(sw_body body, sw_frame frame); /* from its own frame into the outer one */
/* A region of even thickness from z = 0 up; a region without area gives a point mass at the origin. */
sw_body sw_body_plate(double mass_kg, const sw_region *region, double thickness_mm);
/* Angle at which a body tips over an edge at horizontal distance e from the centre of gravity at height h: atan(e/h). */
double sw_tip_angle_rad(double e_mm, double h_mm);

typedef struct sw_heft_line {
    const char *name;
    sw_body body;
    size_t count;
} sw_heft_line; /* body: all `count` together, stove frame */

typedef struct sw_heft_input {
    const sw_stove *stove;
    const sw_body *pieces; /* [stove->piece_count] one of each, in its own frame (from the sheet study) */
    const sw_mesh *const
        *meshes; /* [stove->piece_count] one of each folded, in its own frame, to find what stands on the
                                     floor; NULL = root faces alone are looked at */
} sw_heft_input;

typedef struct sw_heft_result {
    const sw_heft_line *pieces;
    size_t piece_count;
    const sw_heft_line *items;
    size_t item_count;
    const sw_heft_line *groups;
    size_t group_count; /* pieces and items of each group */
    sw_body stove;
    const sw_point *support;
    size_t support_count; /* convex hull of what stands on the floor, counter-clockwise */
    double tip_rad;       /* least angle at which the stove tips over an edge of its support; NAN without support */
    double open_rad;      /* the same with doors swung open, whichever way is worst; NAN without hinges or support, or
                           * where seams hold more than half of the stove to a hinge */
    const char *open;     /* names of the hinges that are open then, "" = none */
    sw_findings findings; /* tipping, with doors shut and open */
} sw_heft_result;

/* Least tip angle of a centre of gravity over the edges of a convex support [count >= 3, counter-clockwise]; negative when
 * it lies beside the support. *edge: the edge it tips over. NAN for fewer points. */
double sw_tip_angle_over_rad(const sw_point *support, size_t count, sw_vec3 centre, size_t *edge);
/* What n people may lift together, kg: the share of the sum of their single limits that a team can use; NAN above 3. */
double sw_team_mass_kg(size_t people, double single_kg);

/* result in run->keep. SW_OUT_OF_RANGE names a piece or item whose mass is no number or negative; SW_NO_MEMORY. */
sw_status sw_heft_solve(sw_run *run, const sw_heft_input *in, const sw_heft_result **result);

/* ---- lifting: single formulas, NAN outside their range -------------------------------------------------------------- */

typedef enum sw_coupling { SW_COUPLING_GOOD, SW_COUPLING_FAIR, SW_COUPLING_POOR } sw_coupling;
typedef enum sw_lift_spell {
    SW_SPELL_1_H,
    SW_SPELL_2_H,
    SW_SPELL_8_H
} sw_lift_spell; /* lifting goes on for up to .. */
/* The equation's formulas in cm or inches, or its printed tables in cm or inches, two decimals, between rows the worse. */
typedef enum sw_niosh_form { SW_NIOSH_CM, SW_NIOSH_INCH, SW_NIOSH_CM_TABLE, SW_NIOSH_INCH_TABLE } sw_niosh_form;

typedef struct sw_niosh_task {
    double h_mm, v_mm, d_mm; /* hands from the ankles, level; hands over the floor; how far up or down they go */
    double turn_rad;         /* of the trunk, away from straight ahead */
    double per_min;          /* lifts */
    sw_lift_spell spell;
    sw_coupling coupling;
} sw_niosh_task;

typedef struct sw_niosh {
    double hm, vm, dm, am, fm, cm; /* multipliers, 0..1 */
    double rwl_kg;                 /* recommended weight limit; 0 = nothing may be lifted so */
} sw_niosh;

/* Where the hands begin and where they end are two tasks; the less counts when the load is set down with care. */
sw_niosh sw_niosh_limit(const sw_niosh_task *task, sw_niosh_form form);
double sw_niosh_index(double mass_kg, double rwl_kg); /* load over limit; INFINITY when nothing may be lifted */

typedef enum sw_people { SW_PEOPLE_MIXED, SW_PEOPLE_GENERAL, SW_PEOPLE_FRAIL } sw_people;
double sw_reference_mass_kg(sw_people people); /* men and women at work; general public; children and the elderly */

typedef enum sw_hitch { SW_HITCH_STRAIGHT, SW_HITCH_CHOKE, SW_HITCH_BASKET } sw_hitch;
/* n legs at beta from upright, 0 to 60 deg, all pulling alike. */
double sw_sling_leg_n(double mass_kg, double n, double beta_rad);  /* pull in each leg */
double sw_sling_pull_n(double mass_kg, double n, double beta_rad); /* level pull on each point, inwards */
double sw_sling_mode_factor(sw_hitch hitch, size_t legs,
                            double beta_rad); /* times the limit of one leg hanging straight */
double sw_sling_legs_counted(size_t legs);    /* of a rigid load: two of three or four */
/* Load on point A of two at distance l, centre of gravity e from A: m g (l - e)/l; NAN unless 0 <= e <= l. */
double sw_pick_load_n(double mass_kg, double l_mm, double e_mm);
double sw_hoist_need_kg(double load_kg, double rigging_kg, double dynamic); /* (load + rigging) x allowance */
double sw_hoist_size_kg(double need_kg); /* the usual size at or above it: 125, 250, 500, 1000, 2000; NAN above */
double sw_tip_stop_m_s2(double e_mm, double h_mm); /* sudden stop at which a load tips over an edge: g e/h */
double sw_tip_push_n(double mass_kg, double e_mm, double y_mm); /* level push at height y: m g e/y */

/* ---- lifting: the study ---------------------------------------------------------------------------------------------- */

typedef struct sw_lift_options {
    double grip_mm;             /* from the ankles to the near side of the load */
    double from_mm, to_mm;      /* hands at the start and at the end of a lift */
    double turn_deg;            /* of the trunk */
    double per_min, spell_h;    /* lifts; how long they go on */
    double long_mm;             /* longer loads want two people */
    double dynamic;             /* allowance on the hoist's load */
    double inset_mm;            /* of lifting points from the end of the box */
    double legs, leg_angle_deg; /* of slings, where the works' hoist does not say */
    double push_mm, push_n;     /* level push that must not tip the stove on its trolley */
    uint32_t made_by_defaults;
} sw_lift_options;
sw_lift_options sw_lift_options_defaults(void);
const sw_option *sw_lift_option_table(size_t *count);

typedef struct sw_lift_box {
    sw_vec3 low, high;
} sw_lift_box;

typedef struct sw_lift_input {
    const sw_stove *stove;
    const sw_works *works; /* hoists, trolley, stock, people, stations; NULL = none: the reference mass of a works */
    const sw_heft_result *heft;
    const sw_body *pieces;         /* [stove->piece_count] one of each, in its own frame, as given to sw_heft_solve */
    const sw_lift_box *boxes;      /* [stove->piece_count] of one folded, in its own frame (sheet study: low, high) */
    const sw_region *const *flats; /* [stove->piece_count] its flat */
} sw_lift_input;

typedef enum sw_lift_kind {
    SW_LIFT_SHEET,      /* a full sheet of each kind used, onto the laser */
    SW_LIFT_FLAT,       /* the heaviest flat, off the laser */
    SW_LIFT_PRESS,      /* the heaviest piece that is bent */
    SW_LIFT_ROLLS,      /* the heaviest piece that is rolled */
    SW_LIFT_GROUP,      /* a subassembly alone */
    SW_LIFT_GROWN,      /* the subassemblies so far, in the order of the description */
    SW_LIFT_POSITIONER, /* the heaviest body that seams hold together */
    SW_LIFT_BLAST,      /* the same, into the blast cabinet */
    SW_LIFT_PACK,       /* the whole stove */
    SW_LIFT_HOUSE,      /* without loose linings and grate, into the house: no hoist there */
    SW_LIFT_KINDS
} sw_lift_kind;
const char *sw_lift_kind_name(sw_lift_kind kind); /* "sheet" "flat" "press" "rolls" "group" "grown" ... */

typedef enum sw_lift_way { SW_LIFT_ONE, SW_LIFT_TWO, SW_LIFT_GEAR, SW_LIFT_WAYS } sw_lift_way;
const char *sw_lift_way_name(sw_lift_way way); /* "one person" "two people" "lifting gear" */

typedef struct sw_lift_step {
    sw_lift_kind kind;
    const char *load, *action; /* "left side", "off the laser" */
    const char *station;       /* of the works where it happens; "" = none named */
    const char *held;          /* how */
    double mass_kg;
    sw_vec3 centre;  /* of gravity; stove's frame; of a sheet, flat or piece: its own */
    sw_lift_box box; /* same frame */
    sw_niosh_task task;
    sw_niosh from, to; /* one person's limits where the lift begins and ends; the formulas in cm */
    double single_kg;  /* least of both and the reference mass: what one person may lift so */
    double team_kg;    /* two people, one at each end */
    double index;      /* mass over the lesser limit, for one person */
    sw_lift_way way;
    /* by gear; point_count 0 where people lift or no point can be found */
    const sw_hoist *hoist; /* of the works; NULL: none there, none strong enough, or people lift */
    double need_kg;        /* safe working load asked for */
    double size_kg;        /* usual size at or above it */
    size_t legs;
    double leg_angle_rad, leg_n,
        pull_n;             /* of the sling; pull in a leg, level pull, two legs counted of three or four */
    double leg_mm, hook_mm; /* length of a leg; hook over the points */
    sw_vec3 points[4]; /* symmetric about the centre of gravity, on the top of the box; same frame. Of sheets and flats:
                               pads of a vacuum beam, legs 1 */
    size_t point_count;
    double end_share; /* of the load on the worse of two points at the ends of the box instead; NAN without gear */
} sw_lift_step;

typedef struct sw_lift_trolley {             /* stove on the works' trolley, its box over the middle of the deck */
    double stop_feet_m_s2, stop_wheels_m_s2; /* sudden stop at which it tips over its own feet; trolley with it */
    double push_feet_n, push_wheels_n;       /* push at options.push_mm that tips it, on the floor; with the trolley */
    double tip_rad;                          /* of the trolley with the stove */
    double centre_mm;                        /* of gravity over the floor, on the trolley */
} sw_lift_trolley;                           /* all NAN where nothing is known of feet or trolley */

typedef struct sw_lift_result {
    const sw_lift_step *steps; /* in the order of the route */
    size_t step_count;
    sw_lift_trolley trolley;
    double single_kg;            /* reference mass of the works' people */
    const char *const *cautions; /* for every card */
    size_t caution_count;
    /* "mass" of subassemblies and stove, "lift" each step, "hoist" "sling" "points" where gear lifts, "stop" "push" */
    sw_findings findings;
} sw_lift_result;

/* result in run->keep; hoists lend from the works. SW_OUT_OF_RANGE: an option, or a hoist or trolley figure that cannot be,
 * named, all of them; SW_NO_MEMORY. */
sw_status sw_lift_solve(sw_run *run, const sw_lift_input *in, const sw_lift_options *opt,
                        const sw_lift_result **result);

#endif
