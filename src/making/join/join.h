/* join.h: how the pieces of a stove are welded together: seams, tacks, who welds what in which order, how long it takes.
 *
 * A declared joint with a seam becomes a path in space along the edge it names, where that edge touches its partner,
 * with the direction in which the torch stands at each point and whether a torch gets there past the pieces that are
 * already in place. Seams are gathered in bodies: what is welded together at one time, in the order of the bodies.
 * Each body has its tacks, what is welded by hand, and the robot's order with its turns of the positioner.
 * Lengths mm in the stove's frame, angles radians, times s, masses kg, energy J; heat input alone in kJ/mm, as its
 * standard has it. Method, ranges and worked examples: docs/studies/join.md. */
#ifndef SW_MAKING_JOIN_JOIN_H
#define SW_MAKING_JOIN_JOIN_H

#include "making/sheet/sheet.h"

/* ---- single formulas (join_formulas.c names their sources); NAN where one does not hold ------------------------- */

double sw_fillet_leg_mm(double throat_mm);                  /* equal legs: a sqrt 2 */
double sw_fillet_area_mm2(double throat_mm, double excess); /* a2 (1 + e); e: convexity and gap, 0.1 to 0.3 */
double sw_weld_kg_m(double area_mm2);                       /* steel laid down a metre of seam */
double sw_wire_m_kg(double wire_mm);                        /* length of a kilogram of wire */
double sw_wire_kg_s(double wire_mm, double feed_m_s);       /* melted a second */
double sw_weld_travel_mm_s(double wire_mm, double feed_m_s, double area_mm2, double share); /* share: of the wire that
                                                                                               stays in the seam */
double sw_weld_efficiency(const char *process); /* k of EN 1011-1 by ISO 4063 number: "135" 0.8 */
double sw_heat_input_kj_mm(double k, double volts, double amps, double travel_mm_s);
typedef struct sw_composition { /* mass % */
    double c, mn, cr, mo, v, ni, cu;
} sw_composition;
double sw_carbon_equivalent(sw_composition steel);     /* CE (IIW) */
double sw_carbon_equivalent_cet(sw_composition steel); /* CET */
/* Preheat by EN 1011-2 method B, K. hydrogen ml/100 g. NAN outside CET 0.2..0.5, d 10..90 mm, HD 1..20, Q 0.5..4. */
double sw_preheat_k(double cet, double d_mm, double hydrogen, double q_kj_mm);
/* Shrinkage estimates, all +- 50 %. */
double sw_shrink_fillet_mm(double leg_mm, double thickness_mm); /* across one fillet: 0.8; NAN for legs above 3/4 t */
double sw_shrink_butt_mm(double area_mm2, double thickness_mm); /* across a butt seam, Blodgett */
double sw_shrink_butt_gap_mm(double area_mm2, double thickness_mm, double gap_mm); /* Spraragen & Ettinger */
/* Across a seam of thin sheet from its heat, for the sheet on_mm that runs on under a foot of foot_mm (0: a butt of two
 * sheets alike), Okerblom; NAN where the sheet is not heated through. */
double sw_shrink_across_mm(double heat_kj_mm, double on_mm, double foot_mm);
double sw_shrink_along_mm(double length_mm, bool butt); /* along the seam: fillet 0.8, butt 3 mm in 3 m */
double sw_bow_mm(double area_mm2, double off_mm, double length_mm, double inertia_mm4); /* of a member, Blodgett */
double sw_flange_rise_mm(double width_mm, double leg_mm,
                         double thickness_mm); /* angular, Blodgett, doubtful; to 0.03 W */
/* Flow through small openings: cd A sqrt(2 dp / rho), m3/s; rho 1.2 kg/m3. */
double sw_leak_m3_s(double area_mm2, double pressure_pa, double cd);
double sw_leak_area_mm2(double flow_m3_s, double pressure_pa, double cd);
double sw_leak_rescaled_m3_s(double flow_m3_s, double from_pa, double to_pa, double exponent); /* n 0.5..1 */
/* Tacks by the thinner sheet: length and pitch, mm; NAN above 6 mm. */
double sw_tack_length_mm(double thickness_mm);
double sw_tack_pitch_mm(double thickness_mm);

/* ---- the study --------------------------------------------------------------------------------------------------- */

typedef struct sw_join_options {
    double step_mm;               /* spacing of points along a seam */
    double access_mm;             /* spacing of the points where the torch is tried */
    double end_mm;                /* a seam's ends this long are welded from the last place the torch reaches */
    double stickout_mm;           /* from the root to the torch's nozzle */
    double tilt_rad;              /* largest tilt of the torch off the bisector */
    double stride_mm;             /* back-step stride; longer seams are laid in strides */
    double overlap_mm;            /* every restart on a tight seam overlaps */
    double excess;                /* convexity and gap: share on top of the fillet's area */
    double wire_share;            /* of the wire that stays in the seam */
    double throat_share;          /* largest throat, share of the thinner sheet */
    double tight_share;           /* least throat of a tight seam, share of the thinner sheet */
    double heat_least, heat_most; /* heat input, kJ/mm a mm of the thicker, of the thinner sheet */
    double robot_seam_mm;         /* shorter seams are welded by hand */
    double balance_s; /* a seam that pulls to the side the body is already pulled to costs this in comparisons */
    double back_mm;   /* the robot draws the torch back this far between seams */
    double carbon, manganese, hydrogen; /* of the sheet, mass %; of the weld metal, ml/100 g */
    double source_share;                /* power at the arc over power from the mains */
    double width_mm;                    /* over which the angular distortion is told */
    double leak_m3_s, leak_pa;          /* largest leak and its pressure; doubtful, see the option's source */
    uint32_t made_by_defaults;
} sw_join_options;
sw_join_options sw_join_options_defaults(void);
const sw_option *sw_join_option_table(size_t *count);

typedef struct sw_join_input {
    const sw_stove *stove;
    const sw_works *works; /* NULL, or without weld rows: seams and tacks but no times */
    const sw_sheet_result *sheet;
} sw_join_input;

typedef enum sw_join_station { SW_JOIN_TACK, SW_JOIN_HAND, SW_JOIN_ROBOT, SW_JOIN_STATIONS } sw_join_station;
const char *sw_join_station_name(sw_join_station station); /* "tack" "hand" "robot" */

typedef struct sw_join_point {
    sw_vec3 at;                  /* root of the seam */
    sw_vec3 along;               /* unit, the way edge a runs (in a stretch: the way it is welded) */
    sw_vec3 torch;               /* unit, from the root to the torch */
    sw_vec3 sheet_a, sheet_b;    /* unit normals of the two faces the torch stands between */
    double from_mm;              /* along the edge, from its first point */
    double work_rad, travel_rad; /* tilt off the bisector: across (positive towards sheet_a's side), along the edge */
    double
        turn_rad; /* of the torch about its wire: 0 = its neck leans the way `along` points, right-handed about `torch` */
    bool reached;
} sw_join_point;

typedef struct sw_join_stretch { /* one arc from start to end */
    const sw_join_point *points; /* [count] in the order of welding */
    size_t count;
    double length_mm; /* with the overlap */
} sw_join_stretch;

typedef struct sw_join_tack {
    size_t seam;
    sw_vec3 at;
    double from_mm, length_mm;
    int side; /* +1, -1: on which side of the edge's sheet; 0 = it has one side */
} sw_join_tack;

typedef struct sw_join_seam {
    const sw_joint *joint;
    size_t number;     /* from 1, in the order of the joints */
    const char *a, *b; /* "A-03 left side" */
    sw_seam_kind kind;
    double throat_mm, thick_a_mm, thick_b_mm;
    const sw_join_point *points; /* [count] where edge a touches; stretches of it may be apart */
    size_t count;
    double touch_mm;                  /* length along which the edge touches */
    double weld_mm;                   /* of seam, without overlaps; sum of stitches when interrupted */
    double arc_mm;                    /* with overlaps */
    const sw_join_stretch *stretches; /* [stretch_count] in the order of welding */
    size_t stretch_count;
    bool reached;           /* a torch gets everywhere but to the ends, in the order of the bodies */
    double blocked_mm;      /* where none does */
    const char *in_the_way; /* "A-06 front frame"; "" when reached */
    const char *ahead_of;   /* what must not be in place yet when it is welded; "" = it is reached in the whole body */
    size_t body;
    sw_join_station station;
    const char *why;                                     /* by hand: why not the robot; "" */
    const sw_weld_row *row;                              /* NULL = the works have none */
    double area_mm2, travel_mm_s;                        /* filler; NAN without a row */
    double heat_kj_mm, wire_kg, gas_m3, energy_j, arc_s; /* NAN without a row; energy from the mains */
    double transverse_mm, along_mm, rise_mm; /* shrinkage across and along, rise over width_mm: +- 50 %; NAN unknown */
    unsigned ups;                            /* bit i: flat or horizontal while sw_join_up(i) points up; 0 = never */
    size_t tack_count;
} sw_join_seam;

enum { SW_JOIN_UPS = 18 };
sw_vec3 sw_join_up(size_t i); /* unit, stove frame: 6 along the axes, then 12 between two of them */

typedef struct sw_join_step { /* of the robot, in order */
    size_t seam;
    bool backwards;       /* stretches in reverse, each the other way round */
    size_t up;            /* sw_join_up that points up */
    bool turned;          /* the positioner turned before */
    double air_mm, air_s; /* way to its start */
    double weld_s;        /* arc and starts */
    double pull;          /* 0..1: how far the body is pulled to one side afterwards, share of all pulls */
} sw_join_step;

typedef struct sw_join_body {          /* welded together at one time */
    const char *name;                  /* "Inner furnace", "left side + side rest" */
    const char *group;                 /* of the stove, "" when it joins several */
    bool ahead;                        /* before the body it belongs to closes */
    const size_t *pieces, *placements; /* [piece_count] in the order in which they are set up and tacked */
    size_t piece_count;
    double mass_kg, span_mm; /* sheet pieces alone; longest side of its box */
    sw_vec3 centre;          /* of mass */
    const size_t *seams;     /* [seam_count] all */
    size_t seam_count;
    const sw_join_tack *tacks; /* in order */
    size_t tack_count;
    const size_t *hand; /* [hand_count] seams by hand, in order */
    size_t hand_count;
    const sw_join_step *robot; /* [robot_count] */
    size_t robot_count;
    double hand_mm, robot_mm;                                         /* seam */
    double tack_s, hand_s;                                            /* at those stations */
    double fixture_s, robot_arc_s, starts_s, air_s, turns_s, robot_s; /* robot_s: the four before it and the fixture */
    size_t turns, starts, same_side; /* same_side: steps that pull to the side already pulled to */
    bool proved;                     /* the robot's order is the best there is (few seams: all were tried) */
} sw_join_body;

typedef struct sw_join_leak_point {
    size_t seam;
    sw_vec3 at;
    const char *what; /* "start", "end", "restart", "middle" */
} sw_join_leak_point;

typedef struct sw_join_result {
    const sw_join_seam *seams;
    size_t seam_count;
    const sw_join_body *bodies; /* in the order in which they are welded */
    size_t body_count;
    const sw_join_leak_point *leaks;
    size_t leak_count;
    double tight_mm;                   /* of all tight seams */
    double leak_area_mm2, leak_gap_mm; /* openings that together leak as much as allowed; as one gap along all of it */
    double weld_mm, wire_kg, gas_m3, energy_j, arc_s;              /* of one stove; seams with a row */
    double cost_wire, cost_gas, cost_energy, cost_time;            /* works currency; hand and robot rates */
    size_t unknown;                                                /* seams without a row: not in the sums */
    double station_s[SW_JOIN_STATIONS], setup_s[SW_JOIN_STATIONS]; /* run times of one stove, fixtures within; set-up */
    sw_findings findings;
} sw_join_result;

/* result     in run->keep; points to texts and joints of the stove and rows of the works
 * returns    SW_OUT_OF_RANGE: an option, or a figure of the works that cannot be (negative, not finite), each named;
 *            SW_BAD_INPUT: a joint that names what is not there; SW_CANCELLED, SW_NO_MEMORY
 * cost       seams x points x triangles near them */
sw_status sw_join_solve(sw_run *run, const sw_join_input *in, const sw_join_options *opt,
                        const sw_join_result **result);

/* The seam table for whoever teaches the robot, as CSV: a line a point of each stretch, in the order of welding. Columns
 * body, step, seam, joint, station, stretch, point, x_mm, y_mm, z_mm, along_x, along_y, along_z, torch_x, torch_y,
 * torch_z, work_deg, travel_deg, turn_deg, throat_mm, speed_mm_s (empty when unknown), arc (1 = burns from here to the next point),
 * up_x, up_y, up_z (0 0 0 by hand). Hand seams follow the robot's. */
void sw_join_write_csv(const sw_join_result *result, sw_writer *writer);

#endif
