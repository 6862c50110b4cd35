/* form.h: can every piece be bent on the works' press and rolls, in which order, with what settings.
 *
 * For each sheet piece: die, force, radius made, over-bend, punch depth and back gauge of every stroke, in the order with
 * fewest changes of tools and turns over that keeps the piece clear of punch, die, beam, table and itself; for each rolled
 * zone: flat ends, passes, downfeed, force, template. Also the fit of the works' trial bends and trial rolls.
 * Lengths mm, angles radians, forces N, strengths MPa (N/mm2), curvatures 1/mm, times s, rates per hour.
 *
 * Section frame of pictures and checks: the plane across the bend line, seen along it. (0,0) lies between the shoulders of
 * the die on its top; +x to the back gauge, -x to the operator, y up. The sheet lies with the inside of the bend up.
 * Method, ranges and worked examples: docs/studies/form.md. */
#ifndef SW_MAKING_FORM_FORM_H
#define SW_MAKING_FORM_FORM_H

#include "making/sheet/sheet.h"

/* ---- press brake: single formulas; NAN outside their range --------------------------------------------------------- */

double sw_press_factor(double s_mm, double die_mm); /* C = 1 + 4 s/V; V/s from 6 to 15 */
/* F = C Rm s2 l/V of an air bend. C: 1.33 common and low, 1.5 for capacity. V/s from 6 to 15. */
double sw_press_force_n(double factor, double rm_mpa, double s_mm, double length_mm, double die_mm);
double sw_die_wanted_mm(double s_mm);                            /* V from the thickness: 6, 8, 10, 12 s */
double sw_natural_radius_mm(double die_mm, sw_matter_kind kind); /* inside, of an air bend */
double sw_least_flange_mm(double die_mm);                        /* outside, at 90 degrees */
double sw_punch_depth_mm(double die_mm, double s_mm, double r_mm, double angle_rad); /* from touching the flat sheet */
double sw_punch_slope_mm(double die_mm, double s_mm, double r_mm, double angle_rad); /* dy/dA, mm per rad */
double sw_springback_ratio(double r_loaded_mm, double re_mpa, double young_mpa, double s_mm); /* R_i/R_f */
double sw_springback_loaded_mm(double r_mm, double re_mpa, double young_mpa, double s_mm);    /* R_i for a wanted R_f */
double sw_overbend_rad(double r_loaded_mm, double r_mm, double s_mm, double angle_rad);       /* angle under load */
double sw_springback_factor(const char *grade, double r_mm, double s_mm);  /* k_R: DC01, DC04, 1.4301; r/s from 1 */
double sw_springback_tool_radius_mm(double k_r, double r_mm, double s_mm); /* r1 = k_R (r2 + s/2) - s/2 */
double sw_channel_flange_mm(double base_mm, double punch_body_mm);         /* longest first flange of a channel */

/* ---- plate rolling: single formulas -------------------------------------------------------------------------------- */

typedef struct sw_strip_steel {
    double re_mpa, young_mpa, poisson;
    bool plane_strain; /* wide sheet; false: a narrow strip */
} sw_strip_steel;
double sw_yield_curvature(const sw_strip_steel *m, double s_mm);                /* kappa_e, of the mid-surface */
double sw_bending_moment_n(const sw_strip_steel *m, double s_mm, double kappa); /* N mm a mm of width */
double sw_sprung_curvature(double kappa, double kappa_e);                       /* what stays of a loaded kappa */
double sw_loaded_curvature(double kappa_f, double kappa_e);                     /* the inverse */
/* Three rolls, lower ones 2 a apart (half_centres_mm = a); r_loaded: inside radius under load. */
double sw_roll_feed_mm(double r_loaded_mm, double s_mm, double lower_radius_mm, double half_centres_mm);
double sw_roll_radius_mm(double feed_mm, double s_mm, double lower_radius_mm, double half_centres_mm);
double sw_roll_contact_rad(double r_loaded_mm, double s_mm, double lower_radius_mm, double half_centres_mm);
double sw_roll_flat_mm(double r_loaded_mm, double s_mm, double contact_rad); /* end that stays flat */
/* Chord of the template of a rolled zone, laid inside: of half its angle, at most a quarter turn and 500 mm. ours */
double sw_roll_template_mm(double radius_mm, double angle_rad);
double sw_roll_force_n_mm(double moment_n, double r_loaded_mm, double s_mm, double contact_rad);
typedef struct
    sw_four_rolls { /* top roll's centre at (0,0), plate pinched under it; a side roll moves on start + lambda way */
    double top_radius_mm, side_radius_mm;
    sw_point start, way;
} sw_four_rolls;
double sw_four_roll_setting_mm(const sw_four_rolls *r, double s_mm, double r_loaded_mm); /* lambda for the radius */
double sw_four_roll_flat_mm(const sw_four_rolls *r, double s_mm);                        /* lambda at flat plate */

/* ---- statistics of trials ------------------------------------------------------------------------------------------- */

double sw_grubbs_limit(size_t count, double significance); /* two-sided; NAN below 3 */

/* ---- trials of the works ---------------------------------------------------------------------------------------------- */

typedef struct sw_form_bend_fit { /* strips of one grade, thickness and die */
    const sw_grade *grade;
    double thickness_mm, die_mm;
    size_t strips, used, left_out; /* given, fitted, outliers */
    double radius_mm;              /* mean inside radius of those fitted */
    double k, k_plus_minus;        /* 95 %, Student t; NAN: fewer than two strips or they contradict each other */
    size_t sprung;                 /* strips with the angle under load among those fitted */
    double over, over_plus_minus;  /* angle under load / angle after; NAN: fewer than two */
    bool good;                     /* k may be used */
} sw_form_bend_fit;

typedef struct sw_form_roll_fit { /* trial rolls of one grade and thickness */
    const sw_grade *grade;
    double thickness_mm;
    size_t rolls, used, left_out;
    double re_mpa, re_plus_minus_mpa; /* effective yield stress: downfeed -> radius agrees; plane strain */
    bool good;
} sw_form_roll_fit;

typedef struct sw_form_fit_result {
    const sw_form_bend_fit *bends; /* [bend_count] in the order of their first strips */
    size_t bend_count;
    const sw_form_roll_fit *rolls;
    size_t roll_count;
    const sw_bend_trial
        *trials; /* [trial_count] fitted rows, then the works' own that no fitted one replaces: put these
                                    into works.press.trials before `sheet` runs; its rule then reads "works trial: ..." */
    size_t trial_count;
    sw_findings findings; /* too few, outliers left out, contradictions; study "form" */
} sw_form_fit_result;

/* Fits press.strips and rolls.trials. works may be NULL. fit in run->keep, the trials lend the works' notes. SW_BAD_INPUT
 * names every strip or roll that cannot be (lengths, angles). */
sw_status sw_form_fit(sw_run *run, const sw_works *works, const sw_form_fit_result **fit);

/* ---- the study --------------------------------------------------------------------------------------------------------- */

typedef struct sw_form_options {
    double force_factor;    /* C for capacity */
    double re_factor;       /* real yield stress over the grade's least, where no trial gives it */
    double contact_mm;      /* deeper than this is a collision */
    double step_deg;        /* the stroke is looked at every so many degrees */
    double segmented;       /* 1: tools are made up of lengths; 0: they run along the machine */
    double tool_short_mm;   /* a tool may end so far inside the bend's ends */
    double punch_angle_deg; /* wedge of the usual punch; sharper bends get the acute one */
    double acute_deg;       /* wedge of the acute punch and die */
    double punch_body_mm, punch_high_mm, die_block_mm, die_high_mm, beam_mm; /* where the works gives none */
    double finger_mm;        /* least length of edge at the back gauge */
    double leg_off_mm;       /* allowed shift of a leg because the radius made is not the one drawn */
    double pass_strain;      /* bending strain of one pass of the rolls */
    double least_shell;      /* least inside radius over the top roll's */
    double radius_tolerance; /* of a rolled radius, share of it, where the works gives no capability */
    uint32_t made_by_defaults;
} sw_form_options;
sw_form_options sw_form_options_defaults(void);
const sw_option *sw_form_option_table(size_t *count);

typedef struct sw_form_input {
    const sw_model *model;         /* model->works may be NULL: then the result has no machine and a finding says so */
    const sw_sheet_result *sheet;  /* of this model */
    const sw_form_fit_result *fit; /* NULL = none used */
} sw_form_input;

typedef enum sw_form_thing {
    SW_FORM_SHEET,
    SW_FORM_PUNCH,
    SW_FORM_DIE,
    SW_FORM_BEAM,
    SW_FORM_TABLE,
    SW_FORM_GAUGE
} sw_form_thing;

typedef struct sw_form_shape { /* convex, counter-clockwise, section frame */
    sw_form_thing thing;
    const char *name; /* face or bend, "punch" ... */
    const sw_point *points;
    size_t count;
    bool beside; /* sheet that lies wholly beside the tool's length: drawn thin, cannot collide */
} sw_form_shape;

typedef struct sw_form_picture {
    const sw_form_shape *shapes;
    size_t count;
    sw_box box; /* of the sheet and the tools without beam and table */
} sw_form_picture;

typedef enum sw_form_stroke { SW_FORM_BEND, SW_FORM_PREBEND, SW_FORM_FLATTEN, SW_FORM_JOGGLE } sw_form_stroke;
const char *sw_form_stroke_name(sw_form_stroke stroke); /* "bend" "bend before flattening" "flatten" "joggle" */
typedef enum sw_form_punch { SW_FORM_STRAIGHT, SW_FORM_NECK_FRONT, SW_FORM_NECK_REAR, SW_FORM_FLAT } sw_form_punch;
const char *sw_form_punch_name(sw_form_punch punch); /* "straight" "goose-neck, relief to the operator" ... */
typedef enum sw_form_rest { SW_FORM_CUT_EDGE, SW_FORM_BENT_EDGE, SW_FORM_BY_LINE } sw_form_rest;
const char *sw_form_rest_name(sw_form_rest rest); /* "cut edge" "bent edge" "marked line" */

typedef struct sw_form_step { /* one stroke */
    sw_form_stroke stroke;
    const sw_bend *const *bends; /* [bend_count] on one line, bent together; a joggle: both its bends */
    size_t bend_count;
    double die_mm, punch_wedge_rad; /* 0 for flattening */
    sw_form_punch punch;
    double length_mm;                    /* of the tool */
    double bent_mm, force_n;             /* sum of the bends' widths; at the upper Rm */
    double angle_rad, over_rad, set_rad; /* wanted, added, under load */
    double depth_mm, slope_mm;           /* punch depth from touching the flat sheet; mm per rad */
    double radius_drawn_mm, radius_made_mm;
    double leg_shift_mm;                      /* each leg longer by this than drawn: the radius made is another */
    double flange_mm, least_flange_mm;        /* shortest leg outside; what the die needs */
    const char *over_source, *allowance_rule; /* where the over-bend and the flat's allowance come from */
    sw_form_rest rest;
    double gauge_mm;                    /* bend line to stop; NAN by a marked line */
    const char *gauge_edge;             /* "left", "left flange outside"; "" */
    bool front_up;                      /* the sheet's front is up */
    double heading_rad;                 /* direction in the flat that points to the gauge */
    bool new_die, turn_over, new_gauge; /* before this stroke; new_die: any tool; the first: new_die and new_gauge */
    double turn_round_rad;              /* 0, pi/2, pi: about the vertical, before this stroke */
    double seconds;                     /* without setting up */
    sw_form_picture before, after;      /* sheet flat on the die with the gauge; at the end of the stroke */
} sw_form_step;

typedef struct sw_form_pass {
    double feed_mm, loaded_mm, radius_mm, force_n; /* downfeed from flat; inside radii under load and after */
} sw_form_pass;

typedef struct sw_form_roll { /* one rolled zone */
    const sw_bend *bend;
    double width_mm, radius_mm, loaded_mm;
    double kappa_e, moment_n, contact_rad, feed_mm, force_n; /* last pass; moment a mm of width */
    double re_mpa;
    const char *re_source;
    double flat_drawn_mm[2], flat_needed_mm; /* ends beside the zone, at the parent and the child; what stays flat */
    double flat_rolls_mm;                    /* what these rolls leave flat of an end that was not bent before */
    bool pre_bent;                           /* flat_needed_mm counts on ends bent before, on the press or by a pinch */
    double extra_mm[2];                      /* to add and trim, or to bend before on the press */
    const sw_form_pass *passes;
    size_t pass_count;
    double chord_mm, sagitta_mm, sagitta_low_mm, sagitta_high_mm, tolerance_mm; /* template; tolerance of the radius */
    double seconds;
} sw_form_roll;

typedef struct sw_form_piece {
    const sw_piece *piece;
    const sw_form_step *steps;
    size_t step_count; /* 0 when nothing is pressed or no order was found */
    const sw_form_roll *rolls;
    size_t roll_count;
    bool bendable;                                         /* an order was found, or nothing is to be bent */
    bool rolls_first;                                      /* rolled zones before the strokes; else after them */
    size_t line_count;                                     /* bend lines */
    size_t dies, turns_over, turns_round, looked;          /* dies: set-ups of tools; looked: strokes simulated */
    double force_n, length_mm;                             /* greatest of the steps */
    double press_s, press_setup_s, rolls_s, rolls_setup_s; /* one piece; setting up once for a batch */
} sw_form_piece;

typedef struct sw_form_result {
    const sw_form_piece *pieces; /* [piece_count] as in the stove */
    size_t piece_count;
    double press_s, rolls_s; /* one stove: pieces times how many, without setting up */
    double cost;             /* of these times at the machines' rates, works currency */
    sw_findings findings;
} sw_form_result;

/* result   in run->keep; lends from the model, the sheet result and the fit
 * returns  SW_BAD_INPUT (a machine figure that cannot be, each named), SW_OUT_OF_RANGE (option named), SW_CANCELLED,
 *          SW_NO_MEMORY. A piece no order bends is a finding.
 * cost     a few hundred strokes a piece typical, at worst 3 n 2^n for n bend lines (n at most 14) */
sw_status sw_form_solve(sw_run *run, const sw_form_input *in, const sw_form_options *opt,
                        const sw_form_result **result);

#endif
