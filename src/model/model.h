/* model.h: one stove, one works, one house as plain structs, and what a check of them says.
 *
 * The model is made once by design/ and never changed. Lengths mm, angles radians, other quantities SI unless
 * the name says otherwise. Stove frame: x to the right seen from the front, y to the back, z up, origin on the
 * floor under the middle of the front. Pointers lend from the arena of whoever made the model; every text is
 * never NULL ("" when absent).
 *
 * Geometry of a sheet piece. A piece is a tree: faces[0] is the root; each bend joins a child face to a parent
 * that stands earlier in the array. A face is the truly flat part: it ends at the tangent lines of its bends.
 * Its frame lies in the mid-surface of the sheet, outline counter-clockwise seen from +z.
 *   The bend starts on the parent's outline at `from` and ends at `to` (a stretch of one straight edge, walked
 *   in the outline's direction, so the bend lies to the right of it), width w = |to - from|.
 *   The child's frame has its bend edge from (0,0) to (w,0) as vertices of its own outline, the face at y >= 0
 *   beside it. Child (0,0) lies opposite `to`, child (w,0) opposite `from`; child y points away from the parent
 *   in the flat.
 *   angle_rad > 0 folds the child towards the parent's +z, < 0 towards -z; radius_mm is the inside one.
 *   A rolled zone is a bend of kind SW_ROLLED. A face of zero depth (two vertices (0,0), (w,0)) is allowed
 *   where a roll starts or ends, or one bend follows another at once.
 * Cut-outs of a zone have their shape in the flat, in axes (child x, child y), about an anchor at along_mm on
 * child x and at angle_rad (0 .. |angle|) round the zone from the parent's tangent line. */
#ifndef SW_MODEL_MODEL_H
#define SW_MODEL_MODEL_H

#include "geometry/geometry.h"
#include "matter/matter.h"

/* ---- findings ----------------------------------------------------------------------- */

typedef enum sw_verdict { SW_FAILS, SW_WATCH, SW_UNKNOWN, SW_HOLDS } sw_verdict; /* worst first */
enum { SW_VERDICTS = SW_HOLDS + 1 };
typedef enum sw_sense { SW_AT_LEAST, SW_AT_MOST, SW_STATED } sw_sense; /* stated: no number to compare */

typedef struct sw_finding {
    const char *study, *check; /* stable names: "sheet", "least_flange" */
    const char *what;          /* a sentence with the numbers in it */
    const char *where;         /* "left side, bend 2" */
    sw_sense sense;
    double value, limit; /* in `unit`; NAN when stated */
    const char *unit;
    double margin; /* (value - limit)/|limit| for at least, (limit - value)/|limit| for at most;
                                  absolute when the limit is 0; positive is good; NAN when stated or unknown */
    sw_verdict verdict;
    const char *source; /* of the limit */
    const char *remedy; /* what to do; "" when it holds */
    sw_place place;     /* in the description */
} sw_finding;

typedef struct sw_findings {
    sw_finding *items;
    size_t count, room;
} sw_findings;

/* One that holds and judges no number, with empty texts: the rest is the caller's. */
sw_finding sw_finding_of(const char *study, const char *check, const char *where, sw_place place);
/* Judges value against limit and appends: fails beyond the limit, `watch` when the margin is below
 * watch_margin (0 = never), unknown when either is NAN. what/where/... of `finding` are filled by the caller;
 * margin and verdict are set here (SW_STATED keeps the caller's verdict). Texts must live in run->keep. */
sw_status sw_finding_add(sw_run *run, sw_findings *findings, sw_finding finding, double watch_margin);
void sw_findings_count(const sw_findings *findings, size_t counts[SW_VERDICTS]); /* by verdict */
void sw_findings_sort(sw_findings *findings);    /* worst first, then least margin, then study, check, where; stable */
const char *sw_verdict_name(sw_verdict verdict); /* "holds" "watch" "fails" "unknown" */

/* ---- the stove ------------------------------------------------------------------------ */

typedef struct sw_mark { /* etched, not cut: a text or an open path */
    const char *text;    /* "" = a path */
    sw_point at;         /* lower left of the text */
    double height_mm, turn_rad;
    sw_path path;
} sw_mark;

typedef struct sw_face {
    const char *name; /* "main", "left flange": unique in its piece */
    sw_region region;
    const sw_mark *marks;
    size_t mark_count;
} sw_face;

typedef struct sw_zone_hole {
    double along_mm, angle_rad;
    sw_contour contour;
} sw_zone_hole; /* clockwise, about its anchor */

typedef enum sw_bend_kind { SW_PRESSED, SW_ROLLED, SW_HEMMED } sw_bend_kind;

typedef struct sw_bend {
    const char *name; /* "bend 1" */
    sw_bend_kind kind;
    int parent, child; /* face indices, parent < child */
    sw_point from, to; /* on the parent's outline, parent frame */
    double radius_mm;  /* inside */
    double angle_rad;  /* signed, 0 < |angle| <= 2 pi for rolled, <= pi else */
    double k;          /* neutral-axis factor t_n/s given by the designer; NAN = by rule */
    const sw_zone_hole *holes;
    size_t hole_count;
    sw_place place;
} sw_bend;

typedef struct sw_edge { /* a named run of segments first .. first+count-1 of a closed line of a face or a zone */
    const char *name;    /* "left", "left flange.tip", "flue hole" */
    int face;            /* of an edge of a zone: the bend's child */
    size_t first, count;
    size_t hole; /* 0 = the outline; h = holes[h - 1] of the face or zone */
    size_t zone; /* 0 = of the face; b = of the zone of bends[b - 1], whose outline is (0,0) (w,0) (w,l) (0,l), l the
                    developed length: segment 1 is its rim at the end `from`, 3 that at `to` */
} sw_edge;

typedef enum sw_turns {
    SW_TURN_FREE,
    SW_TURN_QUARTER,
    SW_TURN_HALF,
    SW_TURN_FIXED
} sw_turns; /* on the sheet, from x along rolling */

typedef struct sw_piece {
    const char *number; /* "A-01": unique */
    const char *name;   /* "left side": unique */
    const char *group;  /* name of a sw_group */
    const char *role;   /* what it is for heat and air: "firebox wall", "shell", "baffle", "door", "other", ... */
    const sw_grade *grade;
    double thickness_mm;
    const sw_face *faces; /* [face_count] root first */
    size_t face_count;
    const sw_bend *bends;
    size_t bend_count;
    const sw_edge *edges;
    size_t edge_count;
    const sw_frame *placements; /* [count] root face's frame in the stove */
    size_t count;               /* how many in one stove, at least 1 */
    sw_turns turns;
    bool may_flip; /* may be cut other face up */
    int mirror_of; /* index of the piece this one mirrors, or -1 */
    sw_place place;
} sw_piece;

typedef enum sw_item_kind { SW_ITEM_CAST, SW_ITEM_BOUGHT, SW_ITEM_BOARD, SW_ITEM_GLASS, SW_ITEM_ROPE } sw_item_kind;

typedef struct sw_item { /* what is not our sheet */
    const char *number, *name, *group, *role, *material;
    sw_item_kind kind;
    double mass_kg;                          /* of one; from shape and density when the description gives these */
    double price;                            /* of one, works currency; NAN unknown */
    sw_region shape;                         /* outline.n == 0: no shape, just a mass at the placement's origin */
    double thickness_mm;                     /* extruded from z = 0 to z = thickness of each placement */
    double length_mm;                        /* rope; else 0 */
    double rope_mm;                          /* rope: its diameter; 0 = not told */
    double groove_depth_mm, groove_width_mm; /* of what it lies in; width 0 = not told, depth 0: on a flat bed */
    double joint_mm;                         /* closed: from the groove's rim to what presses the rope */
    const sw_frame *placements;
    size_t count;
    sw_place place;
} sw_item;

typedef struct sw_group { /* subassembly: furnace, shell, door, base, lining */
    const char *name, *title;
    sw_vec3 explode; /* where it goes in the exploded view, from its place, mm */
} sw_group;

typedef enum sw_joint_kind {
    SW_JOINT_BUTT,
    SW_JOINT_CORNER,
    SW_JOINT_LAP,
    SW_JOINT_TEE,
    SW_JOINT_SLOT_TAB,
    SW_JOINT_INTERLOCK,
    SW_JOINT_KINDS
} sw_joint_kind;
typedef enum sw_seam_kind {
    SW_SEAM_NONE,
    SW_SEAM_FILLET,
    SW_SEAM_SQUARE,
    SW_SEAM_OUTSIDE,
    SW_SEAM_PLUG,
    SW_SEAM_KINDS
} sw_seam_kind;
const char *sw_joint_kind_name(sw_joint_kind kind); /* "butt" "corner" "lap" "tee" "slot and tab" "interlock" */
const char *sw_seam_kind_name(sw_seam_kind kind);   /* "none" "fillet" "square butt" "outside corner" "plug" */

typedef struct sw_joint_end {
    int piece, placement; /* indices */
    int edge;             /* index into the piece's edges, or -1: anywhere on `face` */
    int face;             /* index, or -1: anywhere on the piece */
} sw_joint_end;

typedef struct sw_joint {
    const char *name; /* unique */
    sw_joint_kind kind;
    sw_seam_kind seam;
    sw_joint_end a, b;          /* a has an edge; b an edge or a face */
    double throat_mm;           /* 0 without a seam */
    double gap_max_mm;          /* largest gap allowed along edge a */
    double stitch_mm, pitch_mm; /* seam pieces and their pitch; 0 = continuous */
    bool tight;                 /* must hold gas */
    sw_place place;
} sw_joint;

typedef struct sw_parameter {
    const char *name, *meaning, *unit; /* unit "" for a plain number */
    double value, low, high, preset;   /* in `unit`; preset: before any override */
    sw_place place;
} sw_parameter;

typedef struct sw_hinge { /* a door that swings */
    const char *name;
    sw_point at;                /* its upright axis, from above */
    double open_rad;            /* how far it opens, counter-clockwise from above */
    const char *const *carries; /* [carried] names of pieces and items; what seams hold to them goes along */
    size_t carried;
    sw_place place;
} sw_hinge;

typedef struct sw_opening {
    const char *name, *kind;
    double area_mm2, height_mm;
    double hole_mm; /* diameter of each of its holes; 0 = not told */
    sw_place place;
} sw_opening; /* air: primary, secondary, wash, rear jet */

typedef struct sw_duty {
    double output_w;   /* nominal heat output */
    double refuel_s;   /* time between refuellings */
    double efficiency; /* wanted, 0..1 */
    const char *fuel;
} sw_duty;

typedef struct sw_stove {
    const char *name, *title, *note; /* note: "Invented for demonstration" and such */
    const sw_parameter *parameters;
    size_t parameter_count;
    const sw_group *groups;
    size_t group_count;
    const sw_piece *pieces;
    size_t piece_count;
    const sw_item *items;
    size_t item_count;
    const sw_joint *joints;
    size_t joint_count;
    const sw_opening *openings;
    size_t opening_count;
    const sw_hinge *hinges;
    size_t hinge_count;
    sw_duty duty;
    sw_place place;
} sw_stove;

/* ---- the works ------------------------------------------------------------------------ */

typedef struct sw_stock_zone { /* where nothing may be cut: a clamp, a dent, rust */
    sw_box box;                /* in the sheet's frame */
    const char *reason;
} sw_stock_zone;

typedef struct sw_stock {
    const char *name;
    const sw_grade *grade;
    double thickness_mm;
    sw_region shape; /* rectangle (x along rolling) or a remnant's outline with its own cut-outs, from (0,0) */
    double length_mm, width_mm; /* its box */
    bool remnant;
    size_t count; /* how many there are; 0 = as many as wanted (full sheets only) */
    double price; /* of one, works currency */
    sw_place place;
    const sw_stock_zone *zones; /* [zone_count] kept clear by the web */
    size_t zone_count;
} sw_stock;

typedef struct sw_laser_row { /* what one material and thickness needs */
    const sw_grade *grade;
    double thickness_mm;
    double feed_mm_s, pierce_s, kerf_mm, lead_mm;
    const char *gas;          /* "O2", "N2" */
    double gas_m3_s;          /* at 0 C, 1.013 bar, beam on */
    double gas_price;         /* per m3 */
    double web_mm, margin_mm; /* least gap between pieces, least distance to the sheet's edge */
    sw_place place;
} sw_laser_row;

typedef struct sw_laser {
    const sw_laser_row *rows;
    size_t row_count;
    double rapid_mm_s, accel_mm_s2; /* positioning */
    double etch_mm_s;
    double rate_h;                                       /* cost of an hour */
    double micro_joint_mm;                               /* width of the bridge that holds small pieces */
    double micro_below_mm;                               /* pieces whose lesser box side is below this get bridges */
    const char *program_start, *program_end;             /* lines of ISO 6983 words, as the machine wants them */
    const char *beam_on, *beam_off, *etch_on, *etch_off; /* one line each */
    sw_place place;
} sw_laser;

typedef struct sw_bend_trial { /* fitted by the works from trial bends: beats the rule for its material and thickness */
    const sw_grade *grade;
    double thickness_mm, radius_mm, k;
    const char *note;
    sw_place place;
} sw_bend_trial;

typedef enum sw_allowance_rule { SW_ALLOW_DIN6935, SW_ALLOW_K } sw_allowance_rule;

/* Figures of a machine that the works did not give are 0: a study that needs one says so, by name. */

typedef struct sw_strip { /* one trial bend as measured: a strip bent once by a straight punch */
    const sw_grade *grade;
    double thickness_mm, die_mm, radius_mm; /* inside radius measured; 0 = natural */
    double flat_mm, leg_a_mm, leg_b_mm; /* legs to the outer intersection; to the outer tangent above 90 deg of bend */
    double set_rad, got_rad; /* bend angle under load (what the machine was told) and after; set 0 = unknown */
    sw_place place;
} sw_strip;

typedef struct sw_press {
    sw_allowance_rule rule;
    double k; /* for SW_ALLOW_K */
    const sw_bend_trial *trials;
    size_t trial_count;
    const sw_strip *strips; /* raw trial bends, from a CSV; form fits them */
    size_t strip_count;
    const double *dies_mm;
    size_t die_count;                                     /* V openings at hand, rising */
    double length_mm, force_n;                            /* of the machine */
    double joggle_least_mm;                               /* least offset of a joggle the tools make; 0 = unknown */
    double punch_radius_mm, punch_body_mm, punch_high_mm; /* straight punch: tip, thickness, height up to the beam */
    double neck_mm;                            /* depth of a goose-neck punch's relief; 0 = straight punches alone */
    double die_block_mm, die_high_mm, beam_mm; /* die: width beyond the V on each side, height; beam: thickness */
    double gauge_least_mm, gauge_most_mm;      /* back gauge, from the bend line */
    double bend_s, turn_s, gauge_s, setup_s, rate_h; /* one stroke with handling; turning over; new gauge; new die */
    double angle_sigma_rad, line_sigma_mm;           /* capability: of bend angles, of bend lines from their edge */
} sw_press;

typedef struct sw_roll_trial { /* one trial roll as measured */
    const sw_grade *grade;
    double thickness_mm, feed_mm, radius_mm; /* downfeed from flat; inside radius got */
    sw_place place;
} sw_roll_trial;

typedef struct sw_rolls {
    double length_mm, top_radius_mm, lower_radius_mm, centres_mm;
    double flat_end_s; /* unbent end, x thickness, once it is bent before; 0 = by the geometry of the rolls */
    const sw_roll_trial *trials;
    size_t trial_count;
    double force_n;                    /* that the top roll can press with */
    double pass_mm_s, setup_s, rate_h; /* speed of the sheet through the rolls */
    double radius_sigma;               /* capability: of the radius, share of it */
} sw_rolls;

typedef struct sw_weld_row {                         /* settings for one throat */
    double throat_mm, thick_least_mm, thick_most_mm; /* sheets from .. to */
    double wire_mm, feed_m_s, volts, amps, gas_m3_s;
    double hand_mm_s, robot_mm_s; /* travel */
    sw_place place;
} sw_weld_row;

typedef struct sw_torch {                          /* the nozzle and what carries it, cylinders; radius 0 = not there */
    double nozzle_radius_mm, nozzle_long_mm;       /* straight, from the mouth to where the neck bends */
    double neck_rad, neck_radius_mm, neck_long_mm; /* the neck bends off the wire's axis; from there to the body */
    double body_radius_mm, body_long_mm;           /* handle, or holder at the robot */
    double wrist_radius_mm, wrist_long_mm;         /* in line with the body: the hand, the robot's wrist */
    double arm_rad, arm_radius_mm, arm_long_mm;    /* forearm: bends off the wrist up to arm_rad, any way */
} sw_torch;

typedef struct sw_welding {
    const sw_weld_row *rows;
    size_t row_count;
    const char *process;                               /* ISO 4063 number: "135" */
    double wire_price_kg, gas_price_m3, power_price_j; /* power: per J */
    double hand_share;                                 /* arc-on share by hand, 0..1 */
    double tack_s, tack_mm;                            /* of one tack, with moving on; its length */
    bool robot;
    double robot_air_mm_s, robot_start_s,
        turn_s;                       /* between seams; each seam's start and end; a turn of the positioner */
    sw_torch hand_torch, robot_torch; /* to judge access */
    double robot_load_kg, reach_mm;   /* of the positioner; span it reaches */
    double fixture_s, hand_rate_h, robot_rate_h; /* load and clamp one body */
    double gap_bridged;                          /* largest gap the robot bridges, share of the thinner sheet */
    double place_sigma_mm;                       /* capability: of a piece tacked in its place */
} sw_welding;

typedef struct sw_blasting {
    double media_kg_m2, m2_s, media_price_kg, least_mm, setup_s, rate_h; /* least: sheet that stays straight */
    const char *grade;                                                   /* "Sa 2 1/2" */
    sw_place place;
} sw_blasting;

typedef struct sw_coating {
    const char *name; /* "silicone, black" */
    double class_k;   /* highest lasting temperature */
    double solids;    /* share of volume */
    double film_um;   /* dry, of one coat */
    size_t coats;
    double transfer, price_l, voc_kg_m3, m2_s, setup_s, rate_h;
    double dry_s, cure_k, cure_s, oven_load; /* stoves in the oven at once */
    sw_place place;
} sw_coating;

typedef struct sw_hoist {
    const char *name;
    double swl_kg, rigging_kg;
    double legs, leg_angle_rad; /* of the sling, from vertical */
    const char *station;        /* where it stands */
    sw_place place;
} sw_hoist;

typedef struct sw_trolley {
    double length_mm, width_mm, high_mm; /* wheel base, of the deck */
    double stop_m_s2;                    /* sudden stop it must stand */
} sw_trolley;

typedef enum sw_operation {
    SW_OP_CUT,
    SW_OP_DEBURR,
    SW_OP_BEND,
    SW_OP_ROLL,
    SW_OP_TACK,
    SW_OP_WELD, /* by robot, or all of it where there is no station for the hand */
    SW_OP_HAND_WELD,
    SW_OP_LEAK,
    SW_OP_BLAST,
    SW_OP_COAT,
    SW_OP_CURE,
    SW_OP_LINE,
    SW_OP_ASSEMBLE,
    SW_OP_TEST,
    SW_OP_PACK,
    SW_OPERATIONS
} sw_operation;
const char *
sw_operation_name(sw_operation operation); /* "cut" "deburr" "bend" "roll" "tack" "weld" "weld by hand" ... */

typedef struct sw_station {
    const char *name;
    sw_operation operation;
    size_t machines, people; /* people: at one machine */
    double rate_h;           /* of one machine with its people, works currency; 0 = of the machine's own table */
    double each_s, per_kg_s; /* handling of one piece or body there; by mass */
    double deburr_mm_s;      /* deburring: edge a second */
    double up;               /* share of the shift it runs, 0..1 */
    size_t buffer;           /* places before it; 0 = as many as wanted */
    sw_place place;
} sw_station;

typedef struct sw_labour {
    double shift_s, shifts_day, days_week;
    double rate_h;      /* of a person without a machine */
    double overhead;    /* share on top of the unit cost */
    double wanted_week; /* stoves a week */
    bool mixed;         /* the stock of people is men and women: 25 kg; false: the general public, 15 kg */
} sw_labour;

typedef struct sw_works {
    const char *name, *note, *currency;
    const sw_stock *stock;
    size_t stock_count;
    double scrap_price;                         /* per kg */
    double remnant_factor;                      /* share of the sheet price a kept remnant is worth, 0..1 */
    double remnant_length_mm, remnant_width_mm; /* least remnant kept */
    sw_laser laser;
    sw_press press;
    sw_rolls rolls;
    sw_welding welding;
    sw_blasting blasting;
    sw_coating coating;
    const sw_hoist *hoists;
    size_t hoist_count;
    sw_trolley trolley;
    const sw_station *stations; /* in the order of the route */
    size_t station_count;
    sw_labour labour;
    double cut_sigma_mm; /* capability: of a cut edge's place */
    sw_place place;
} sw_works;

/* ---- the house -------------------------------------------------------------------------- */

typedef enum sw_around { SW_HEATED, SW_BOILER_ROOM, SW_UNHEATED, SW_OUTDOORS, SW_AROUNDS } sw_around;
const char *sw_around_name(sw_around around); /* "heated" "boiler room" "unheated" "outdoors" */

typedef struct sw_flue_layer {
    const char *material;
    double thickness_mm, conductivity; /* W/(m K); NAN = of the material (siting's own table) */
} sw_flue_layer;

typedef struct sw_flue_part { /* one stretch of pipe or chimney, from the stove upwards */
    const char *name;
    bool pipe; /* of the connecting pipe; else of the chimney */
    bool round;
    double width_mm, depth_mm; /* clear inside; round: both the diameter */
    double length_m, rise_m;   /* flow length, height gained */
    double roughness_mm;
    double zeta; /* sum of single losses: bends, tee, cowl */
    size_t bends;
    double sharpest_rad; /* bend */
    bool soot_door;      /* an opening for the brush */
    const sw_flue_layer *layers;
    size_t layer_count; /* inside to outside */
    double resistance;  /* declared thermal resistance, m2 K/W at the inner surface; NAN = from the layers */
    double outer_mm;    /* outer hydraulic diameter; NAN = from the layers */
    sw_around around;
    bool clad;               /* outdoors behind a cladding with a ventilated gap: outside film as inside a house */
    const char *designation; /* "T450 N1 D V3 L50060 G50"; "" = none */
    double combustible_mm;   /* distance on site to the nearest combustible; NAN = none near */
    bool liner;              /* put into an old shaft */
    sw_place place;
} sw_flue_part;

typedef enum sw_wind_site {
    SW_WIND_FREE,
    SW_WIND_INLAND,
    SW_WIND_COAST
} sw_wind_site; /* adverse zone inland, at the coast */

typedef struct sw_roof { /* where the flue leaves */
    double pitch_rad, ridge_m,
        above_m; /* plan distance to the ridge, height of the outlet above where it leaves the roof */
    double window_m,
        window_top_m; /* plan distance to a window or vent and height of its top over where the flue leaves; NAN = none */
    double neighbour_m, neighbour_top_m; /* another building */
    bool thatched;
} sw_roof;

typedef struct sw_survey { /* of a shaft that was there; NAN = not looked at */
    bool old_shaft;
    double leak_m3_s_m2; /* at the test pressure of its class */
    double open_share;   /* of the section free, by coring ball or camera */
    bool swept, tar, damp, cracked, shared, timber_inside;
} sw_survey;

typedef struct sw_near {     /* wall, ceiling, furniture, fuel stack beside the stove */
    const char *name, *side; /* "back" "left" "right" "front" "above" */
    double distance_mm;      /* from the stove's outside */
    bool combustible;
    double resistance;        /* of what lies behind the surface, m2 K/W; NAN = insulated: the worst */
    double thickness_mm;      /* solid and not burning; NAN = not told */
    double shield_mm;         /* distance of a ventilated shield from the wall; 0 = none */
    double shield_emissivity; /* of its back */
    sw_place place;
} sw_near;

typedef struct sw_alarm { /* carbon monoxide */
    bool there, on_ceiling;
    double from_stove_mm, from_wall_mm, below_ceiling_mm;
    sw_place place;
} sw_alarm;

typedef struct sw_recess {                /* an old fireplace the stove stands in; seen from the front */
    double width_mm, height_mm, depth_mm; /* of the opening over the hearth; width 0 = none */
    double left_mm, back_mm;              /* from its left jamb and its back to the stove; left NAN = in the middle */
    double thickness_mm;                  /* of its walls; NAN = not told */
    bool combustible;                     /* its walls */
    bool lintel_combustible;              /* beam over the opening, where it is timber */
    double lintel_shield_mm;              /* a ventilated shield so far under it; 0 = none */
    double lintel_resistance;             /* behind its surface; NAN = insulated */
    sw_place place;
} sw_recess;

typedef struct sw_house {
    const char *name, *note;
    const char *code;           /* rules that apply: "England" ...; "" = physics alone */
    double altitude_m, least_k; /* site; lowest outside temperature */
    sw_wind_site wind;
    const sw_flue_part *parts;
    size_t part_count;    /* pipe first, then chimney */
    double terminal_zeta; /* cowl and outlet */
    sw_roof roof;
    sw_survey survey;
    double room_m3, joined_m3; /* of the stove's room; of rooms joined to it by openings */
    double permeability_m_s;   /* air permeability at 50 Pa, m3/(s m2) */
    double envelope_m2;
    double extract_m3_s;         /* all fans at full */
    double vent_m2;              /* permanent opening to the outside */
    bool stabiliser, direct_air; /* draught stabiliser; combustion air piped to the stove */
    double stabiliser_pa;        /* draught it is set to hold where it stands, over the room; 0 = not told */
    double stabiliser_mm;        /* its disc; 0 = not told */
    const sw_near *near;
    size_t near_count;
    bool floor_combustible;
    double hearth_width_mm, hearth_depth_mm, hearth_mm; /* plate; 0 = none */
    double hearth_front_mm, hearth_side_mm;             /* it stands out so far before and beside the stove */
    double hearth_density, hearth_conductivity;         /* NAN = not told */
    double floor_resistance;                            /* of the floor below the plate, m2 K/W; NAN = insulated */
    sw_recess recess;
    double floor_pa; /* imposed load the floor takes */
    sw_alarm alarm;
    double declared_kg_s, declared_k, declared_pa, declared_most_pa,
        declared_co2; /* from a type test; NAN = computed */
    sw_place place;
} sw_house;

typedef struct sw_model {
    const sw_stove *stove;
    const sw_works *works;                            /* NULL = none given */
    const sw_house *house;                            /* NULL = none given */
    const char *stove_file, *works_file, *house_file; /* as the user named them; "" = none */
} sw_model;

/* Index of a piece by name or number, -1 = none. */
int sw_stove_piece_index(const sw_stove *stove, const char *name_or_number);
const sw_laser_row *sw_works_laser_row(const sw_works *works, const sw_grade *grade,
                                       double thickness_mm); /* NULL = none */

#endif
