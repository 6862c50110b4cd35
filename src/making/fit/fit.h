/* fit.h: will the pieces of a stove fit each other, made as well as this works makes them?
 *
 * Every piece of sheet is a little off: as thick as the mill delivers, cut, bent and rolled as the machines repeat, put
 * in its place by hand. These deviations are carried through the folded pieces, to the first order and exactly, to
 * points along edge a of every joint; each piece is then moved as a rigid body to close its joints as well as it can,
 * as a welder does before he tacks (rigid least squares, free moves weighed against a stated limit). What remains is the
 * gap: worst case, root of squares, and the distribution over many stoves drawn at random.
 *
 * Lengths mm, angles radians, probabilities 0..1, all directions in the stove's frame. Deviations are taken as normal
 * and independent; a tolerance T is +-, sigma its standard deviation. Where the works gives no sigma, T is the
 * standard's and sigma T/3: the contributor's source says so. Same input, options and seed give the same result on any
 * number of threads. Method, what is left out, worked examples: docs/studies/fit.md. */
#ifndef SW_MAKING_FIT_FIT_H
#define SW_MAKING_FIT_FIT_H

#include "making/sheet/sheet.h"

/* ---- single formulas: NAN outside their range ------------------------------------------------ */

/* Chains (fit_chain.c): sensitivities may be NULL (all 1). */
double sw_chain_worst(const double *tolerances, const double *sensitivities, size_t count); /* sum |c| T */
double sw_chain_rss(const double *tolerances, const double *sensitivities, size_t count);   /* sqrt(sum c2 T2) */
double sw_chain_inflated(const double *tolerances, const double *sensitivities,
                         size_t count);                        /* 1.5 rss, Bender 1962 */
double sw_tail_share(double limit, double mean, double sigma); /* of a normal quantity beyond the limit, above it */
double sw_tail_error(double share, double trials);             /* standard error of a share counted in trials */

/* Capability (fit_capability.c): Montgomery, Introduction to Statistical Quality Control, ch. 8 (from memory). */
typedef struct sw_interval {
    double low, high;
} sw_interval;
double sw_cp(double lower, double upper, double sigma);
double sw_cpk(double lower, double upper, double mean, double sigma); /* a limit may be infinite */
sw_interval sw_cp_interval(double cp, size_t n, double confidence);   /* by chi square */
sw_interval sw_cpk_interval(double cpk, size_t n, double confidence); /* Bissell 1990 */
double sw_ppm(double cpk); /* beyond the nearer limit, parts per million: one side of a normal quantity */

/* General tolerances, plus or minus (fit_tables.c). class_: 'f' 'm' 'c' 'v'; of ISO 13920 'A'..'D'. */
double sw_iso2768_length_mm(char class_, double nominal_mm);     /* 0.5 to 4000 */
double sw_iso2768_radius_mm(char class_, double nominal_mm);     /* from 0.5 */
double sw_iso2768_angle_rad(char class_, double shorter_leg_mm); /* any leg */
double sw_iso13920_length_mm(char class_, double nominal_mm);    /* 2 to 4000 */
double sw_iso13920_angle_rad(char class_, double shorter_leg_mm);
double sw_iso286_unit_um(double nominal_mm);          /* i = 0.45 D^(1/3) + 0.001 D, D of the step; to 500 mm */
double sw_iso286_it_um(int grade, double nominal_mm); /* IT6 to IT13, not rounded; the whole zone */
double sw_iso5817_misalignment_mm(char level, double thickness_mm); /* linear, of plates: 'B' 'C' 'D' */
/* Acceptance limits inside lower..upper, ISO 14253-1: guard u k each side. Empty (low > high) when U eats them up. */
sw_interval sw_guarded(double lower, double upper, double u, double k);
double sw_profile_deviation_mm(const double *normal_mm, size_t count); /* ISO 1101: 2 x largest normal distance */

/* Sampling by attributes (fit_sampling.c): ISO 2859-1, level II, normal, single. */
typedef struct sw_sampling {
    char letter;           /* of the lot; 0 = outside the table (2 to 35000) */
    size_t sample;         /* after the arrows; never more than the lot */
    size_t accept, reject; /* at most / at least so many bad ones in the sample */
    bool all;              /* the sample is the whole lot */
} sw_sampling;
char sw_sampling_letter(size_t lot);
sw_sampling sw_sampling_plan(size_t lot, double aql); /* aql in percent: 0.65 1 1.5 2.5 4 6.5; letter 0 = none */
double sw_accept_probability(size_t sample, size_t accept, double bad); /* binomial: operating characteristic */

/* Control charts (fit_shewhart.c): constants of samples of n, 2 to 25, by numerical integration. */
typedef struct sw_shewhart {
    double d2, d3, c4;             /* mean and spread of the range, mean of s, in sigma */
    double a2, a3, D3, D4, B3, B4; /* Montgomery's symbols */
} sw_shewhart;
sw_shewhart sw_shewhart_of(size_t n);

typedef enum sw_chart_kind { SW_CHART_XBAR_R, SW_CHART_XBAR_S, SW_CHART_SINGLE } sw_chart_kind;
typedef enum sw_run_rule {                       /* Western Electric 1956, trend: Nelson 1984 */
                           SW_RULE_BEYOND,       /* 1 point beyond 3 sigma */
                           SW_RULE_TWO_OF_THREE, /* beyond 2 sigma on one side */
                           SW_RULE_FOUR_OF_FIVE, /* beyond 1 sigma on one side */
                           SW_RULE_EIGHT,        /* on one side of the middle */
                           SW_RULE_TREND,        /* 6 rising or falling */
                           SW_RULE_SPREAD,       /* range or s beyond its limit */
                           SW_RUN_RULES
} sw_run_rule;
const char *sw_run_rule_text(sw_run_rule rule);

typedef struct sw_chart_break {
    sw_run_rule rule;
    size_t point; /* the last of the points that break it */
} sw_chart_break;

typedef struct sw_chart {
    sw_chart_kind kind;
    size_t size;          /* of a sample; 1: single values with moving ranges of two */
    const double *middle; /* [count] means of the samples, or the single values */
    const double *spread; /* [count] ranges or s; of single values the moving range, NAN at the first */
    size_t count;
    double mean, low, high;                      /* of the middles: centre line and limits */
    double spread_mean, spread_low, spread_high; /* of the spreads */
    double sigma;                                /* within samples: R/d2 or s/c4 */
    double overall;                              /* standard deviation of all values */
    const sw_chart_break *breaks;
    size_t break_count;
} sw_chart;
/* values[samples * size], sample by sample. size 1, 2 to 10 (ranges), to 25 (s, or when by_s). In run->keep.
 * SW_OUT_OF_RANGE: a size outside, or fewer than 2 samples (of single values 3). */
sw_status sw_chart_make(sw_run *run, const double *values, size_t samples, size_t size, bool by_s, sw_chart *chart);

/* ---- how a bent piece moves when it is off ------------------------------------------------------ */

typedef struct sw_fit_bend_change { /* of one bend against the drawing */
    double angle_rad;               /* more bent, whatever the side */
    double radius_mm;               /* of the mid-surface */
    double parent_mm;               /* its tangent line moved outward on the parent */
    double child_mm;                /* the child's material moved outward from its own tangent line */
} sw_fit_bend_change;
/* First order: what moves at point p (piece frame) of the face or of the zone of a bend when bend `bend` of the piece
 * changes. face: of the point; zone: 0, or b for the zone of bends[b - 1] (face is not looked at then). Zero when the
 * point does not hang on the bend. Exact kinematics of the face tree; source: derived in docs/studies/fit.md. */
sw_vec3 sw_fit_moved(const sw_sheet_piece *piece, size_t bend, sw_fit_bend_change change, int face, size_t zone,
                     sw_vec3 p);
/* What one deviation does to the bend, the flat being cut to its drawn length and the bend line's middle kept. */
sw_fit_bend_change sw_fit_angle_off(const sw_sheet_piece *piece, size_t bend, double off_rad);
sw_fit_bend_change sw_fit_line_off(double off_mm); /* outward on the parent */
sw_fit_bend_change sw_fit_thickness_off(const sw_sheet_piece *piece, size_t bend, double off_mm);
sw_fit_bend_change sw_fit_roll_off(const sw_sheet_piece *piece, size_t bend, double off_mm); /* inside radius */

/* ---- the study ------------------------------------------------------------------------------------ */

typedef struct sw_fit_options {
    double stoves; /* drawn at random; 0 = none: `over` by the normal law at the point judged, no clashes */
    double seed;
    double allowed;   /* probability that a joint may fail */
    double adjust_mm; /* free rigid moves of a piece when tacked, as a standard deviation; 0 = tacked as placed */
    double flex_mm;   /* how far the free edge of a flange or a rolled end is sprung then; 0 = stiff */
    double see_mm;    /* what the welder leaves open, as a standard deviation */
    double press_mm;  /* overlap that a clamp takes up; more is a clash */
    double cover;     /* share of the variance that the inspection plan covers */
    double aql;       /* percent, for the sample sizes */
    uint32_t made_by_defaults;
} sw_fit_options;
sw_fit_options sw_fit_options_defaults(void);
const sw_option *sw_fit_option_table(size_t *count);

typedef enum sw_fit_operation {
    SW_FIT_THICKNESS, /* the mill */
    SW_FIT_CUT,
    SW_FIT_ANGLE,
    SW_FIT_LINE,
    SW_FIT_ROLL,
    SW_FIT_PLACE,
    SW_FIT_OPERATIONS
} sw_fit_operation;
const char *
sw_fit_operation_name(sw_fit_operation operation); /* "thickness" "cut" "bend angle" "bend line" "roll" "placing" */

typedef struct sw_fit_contributor { /* one thing that can be off, on one of the pieces */
    sw_fit_operation operation;
    int piece, placement; /* -1, -1: thickness, of all pieces of that grade and thickness (one sheet) */
    int bend;             /* of the piece; -1 = none */
    int axis;             /* placing: 0..2 shift along x y z, 3..5 turn about x y z through the middle; else -1 */
    const char *name;     /* "A-03 left side, front flange: bend angle" */
    const char *feature;  /* "front flange: bend angle": as in the inspection plan and the measured CSV */
    double size_mm;       /* that the standard's table is read at; 0: by another table */
    double nominal;       /* what to measure, in `unit`: thickness, size across the edge, bend angle, outside height */
    double tolerance, sigma; /* in `unit` */
    const char *unit;        /* "mm" or "rad" */
    const char *source;      /* of tolerance and sigma */
    bool of_works;           /* sigma given by the works; else a third of the tolerance */
    /* Larger than the standard's table: tolerance NAN, sigma of its last row; joints that lean on it are unknown. */
    bool outside;
} sw_fit_contributor;

typedef struct sw_fit_point {                       /* a place along edge a where the gap is looked at */
    sw_vec3 at;                                     /* on edge a, stove frame */
    sw_vec3 normal;                                 /* unit, from b to a: the gap is measured along it */
    bool slot;                                      /* clearance of a tab in its slot */
    double gap_mm;                                  /* as drawn; below 0: overlap */
    double worst_mm, rss_mm, inflated_mm, sigma_mm; /* deviation of the gap after moving the pieces: T by each rule, NAN
                                                       where a contributor has none */
} sw_fit_point;

typedef struct sw_fit_share {
    size_t contributor;
    double sensitivity; /* mm of gap per unit of the contributor, after moving the pieces */
    double share;       /* of the variance */
} sw_fit_share;

enum { SW_FIT_SHARES = 8, SW_FIT_BINS = 24 };

typedef struct sw_fit_joint {
    const sw_joint *joint;
    const sw_fit_point *points; /* [point_count]; none: no partner near edge a, nothing is judged */
    size_t point_count;
    size_t judged;   /* the point whose gap is likeliest to be too wide: worst case, RSS and shares are its */
    double limit_mm; /* widest gap allowed, and where it comes from */
    const char *limit_source;
    bool limit_bridged; /* it is what the robot bridges, below the joint's own */
    /* over the stoves drawn, the pieces pushed home: widest gap along the edge */
    double mean_mm, spread_mm, p50_mm, p95_mm, p99_mm;
    double bin_mm;                   /* histogram of the widest gap from 0; the last bin takes what is beyond */
    double bins[SW_FIT_BINS];        /* shares of the stoves */
    double over, over_error;         /* probability that it exceeds the limit, and its standard error */
    double clash, clash_error;       /* that the parts overlap by more than press_mm */
    double no_entry, no_entry_error; /* that a tab does not enter its slot; NAN: no slot */
    double across_mm, along_mm;      /* sigma of the offset of a on b: across the edge in b's surface, along the edge */
    double mismatch_limit_mm;        /* of surfaces that butt, ISO 5817 level C; NAN where none applies */
    double mismatch_over;            /* probability of more */
    double by_operation[SW_FIT_OPERATIONS]; /* shares of the variance */
    sw_fit_share shares[SW_FIT_SHARES];     /* of its two pieces and their sheet, largest first; share 0 = no more */
    const sw_fit_contributor *outside;      /* of the first gap that leans on one without a tolerance; NULL = none */
    double tolerance_needed; /* +-, of shares[0]'s contributor, for `allowed` at the judged point with all else as it
                                      is; NAN: that alone does not do, or it is enough already */
} sw_fit_joint;

typedef enum sw_fit_risk {
    SW_FIT_LOOSE,   /* 95 of 100 gaps within half the limit */
    SW_FIT_CLOSE,   /* within the limit */
    SW_FIT_AT_RISK, /* beyond it in some stoves, no oftener than allowed */
    SW_FIT_FAILS,
    SW_FIT_RISKS
} sw_fit_risk;
sw_fit_risk sw_fit_risk_of(const sw_fit_joint *joint, double allowed); /* of a joint with a limit */
const char *sw_fit_risk_name(sw_fit_risk risk);                        /* "loose" "close" "at risk" "fails" */

typedef struct sw_fit_inspection { /* a row of the plan, most telling first */
    sw_fit_operation operation;
    int piece;                 /* -1: the sheets of that thickness, before cutting */
    const char *piece_label;   /* "A-03 left side" or "S235 4 mm" */
    const char *feature;       /* as sw_fit_contributor's: the measured CSV names it so */
    double nominal, low, high; /* in `unit`; the limits leave room for gauge_u (ISO 14253-1, k = 2) */
    const char *unit;          /* "mm" or "deg" */
    const char *gauge; /* "vernier caliper"; "no hand gauge proves ..." where U is above a third of the tolerance */
    double gauge_u;    /* its expanded uncertainty, in `unit` */
    size_t lot;
    sw_sampling sampling;
    double weight, covered; /* share of the variance that matters; sum so far */
} sw_fit_inspection;

typedef struct sw_fit_feature { /* one feature of the measured CSV */
    const char *piece, *feature, *unit;
    size_t count;
    double mean, low, high;                /* limits: of the CSV, else of the plan; NAN none */
    double cp, cpk;                        /* within samples; NAN without limits or chart */
    sw_interval cp_interval, cpk_interval; /* 95 % */
    double ppm;                            /* beyond the nearer limit at this Cpk */
    bool charted;                          /* false: fewer than 2 samples or of unequal size, `why` says which */
    const char *why;
    sw_chart chart;
} sw_fit_feature;

typedef struct sw_fit_measured {
    const sw_fit_feature *features;
    size_t feature_count;
} sw_fit_measured;

typedef struct sw_fit_input {
    const sw_model *model;           /* works may be NULL: standards alone */
    const sw_sheet_result *sheet;    /* of this stove */
    size_t batch;                    /* stoves made together, for the lots; at least 1 */
    const sw_fit_measured *measured; /* NULL = none: findings and limits of what was measured */
} sw_fit_input;

typedef struct sw_fit_result {
    const sw_fit_contributor *contributors;
    size_t contributor_count;
    const sw_fit_joint *joints; /* as in the stove */
    size_t joint_count;
    size_t stoves;                 /* drawn */
    double allowed;                /* of the options: probability that a joint may fail */
    double all_fit, all_fit_error; /* share of the stoves in which no joint fails */
    const sw_fit_inspection *plan;
    size_t plan_count;
    sw_fit_measured measured; /* as given, limits filled in from the plan's features, charts and capability made */
    sw_findings findings;
} sw_fit_result;

/* result in run->keep. SW_OUT_OF_RANGE (an option or a sigma of the works, named), SW_BAD_INPUT (sheet is not of this
 * stove), SW_CANCELLED, SW_NO_MEMORY. cost: samples^3 of the joined pieces once, then stoves x points x contributors */
sw_status sw_fit_solve(sw_run *run, const sw_fit_input *in, const sw_fit_options *opt, const sw_fit_result **result);

/* Measured values from a CSV with the columns piece (name or number), feature, sample, value and perhaps lower, upper;
 * stove may be NULL (any piece is taken then). Rows of one sample stand together or apart. Angles in degrees, lengths mm.
 * SW_BAD_INPUT: every wrong line with its place. Result in run->keep, charts made. */
sw_status sw_fit_read_measured(sw_run *run, const sw_stove *stove, const char *file, const char *bytes, size_t length,
                               sw_fit_measured *out);

#endif
