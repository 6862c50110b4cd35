/* trial.h: what a measured burn on the test stand says of a stove.
 *
 * Reads the table of a test (time, CO2 or O2, CO, flue gas and room, draught, scale, surfaces, optional OGC, NOx, dust) and
 * evaluates it by the indirect method of the room heater standards: losses, efficiency, output, gas flow and emissions at
 * 13 % O2, for every charge and for the whole; seasonal efficiency, index and class; limits of the rules chosen; rises of
 * temperature; uncertainty by linear propagation and by sampling. It compares with what the model of the stove said,
 * hands on declared values for the chimney and readings for the model's calibration, and plans the next test.
 *
 * SI; temperatures K; gases are shares of the dry volume, emissions mg per m3n of dry gas (0 degC, 101 325 Pa). A reading
 * that is not there is NAN: it is counted and told, never filled in. Means go over time, concentrations are averaged first and
 * converted once. Nothing here certifies anything: SW_TRIAL_STATEMENT. Method, form of the file: docs/studies/trial.md. */
#ifndef SW_PROVING_TRIAL_TRIAL_H
#define SW_PROVING_TRIAL_TRIAL_H

#include "burning/fire/fire.h"
#include "model/model.h"

#define SW_TRIAL_STATEMENT                                                                                             \
    "An evaluation of the maker's own measurements. Only an accredited laboratory can certify a stove; these figures " \
    "are no type test and must not be declared as one."

/* ---- single formulas, also for reckon: NAN outside their range -------------------------------------------------- */

typedef struct sw_trial_wood {
    double c, h, moisture; /* shares of the fuel as fired */
    double lhv;            /* J/kg as fired */
} sw_trial_wood;
typedef struct sw_trial_gas { /* means of a test period */
    double flue_k, room_k, co2_dry, co_dry;
    double residue_j; /* heat left in the residue, J per kg of fuel */
    double residue_c; /* carbon in the residue, kg per kg of fuel */
} sw_trial_gas;
typedef struct sw_trial_losses {
    double cp_dry, cp_water; /* J/(m3n K) */
    double dry_m3n;          /* per kg of fuel */
    double sensible_j, co_j; /* per kg of fuel */
    double sensible, co, residue, efficiency;
    double gas_kg; /* per kg of fuel, by the standard's density of 1.3 */
} sw_trial_losses;
sw_trial_losses sw_trial_losses_of(const sw_trial_wood *wood, const sw_trial_gas *gas);
double sw_trial_cp_dry(double flue_k, double co2_dry); /* mean from 0 degC */
double sw_trial_cp_water(double flue_k);
double sw_trial_siegert(double flue_k, double room_k, double co2_dry); /* loss as a share; rough, dry wood */
double sw_trial_co2_of_o2(double o2_dry, double co2_max);
double sw_trial_lhv(double lhv_dry, double moisture); /* J/kg */

typedef enum sw_emission { SW_EMISSION_CO, SW_EMISSION_OGC, SW_EMISSION_NOX, SW_EMISSION_PM, SW_EMISSIONS } sw_emission;
const char *sw_emission_name(sw_emission which);            /* "CO" "OGC" "NOx" "PM" */
double sw_emission_mg_m3n(sw_emission which, double share); /* OGC: share as propane gives mg of carbon; NOx as NO2 */
double sw_emission_at_13(double mg_m3n, double o2_dry);     /* x (21 - 13)/(21 - O2) */
double sw_trial_dry_m3n_at_13(double c);                    /* per kg of fuel with carbon c */

typedef enum sw_trial_control {
    SW_CONTROL_NONE,
    SW_CONTROL_STAGES,
    SW_CONTROL_MECHANIC,
    SW_CONTROL_ELECTRONIC,
    SW_CONTROL_DAY,
    SW_CONTROL_WEEK,
    SW_CONTROLS
} sw_trial_control;
const char *sw_trial_control_name(sw_trial_control control);
typedef struct sw_trial_season {
    double f2, f3, f4, f5; /* shares */
    double efficiency;     /* seasonal space heating, share */
    double index;          /* energy efficiency index: 106.0 */
    const char *class_;    /* "A+" */
} sw_trial_season;
typedef struct sw_trial_features {
    sw_trial_control control;
    bool presence, window, distance;
    bool low_tested; /* emission limits also kept at the least output, at most half the nominal */
    double el_most_w, el_least_w, el_standby_w, pilot_w;
} sw_trial_features;
sw_trial_season sw_trial_season_of(double efficiency, double output_w, const sw_trial_features *features);
const char *sw_trial_class(double index); /* "?" for NAN */

double sw_trial_smoke_limit_g_h(double output_w, double base_g_h); /* BS PD 6434; base 5, proposed 3 */

/* ---- statistics ---------------------------------------------------------------------------------------------------- */

typedef struct sw_trial_mean {
    double mean, s, u, half95; /* s, u, half95 NAN below two */
    size_t count;
} sw_trial_mean;
sw_trial_mean sw_trial_mean_of(const double *x, size_t count); /* NAN values are passed over */
double sw_trial_t95(size_t freedom);                           /* two-sided Student quantile */
double sw_trial_weighted(const double *x, const double *weight, size_t count);

typedef struct sw_trial_source { /* of uncertainty: one input */
    const char *name, *unit;
    double value, u;
    bool rectangular;   /* else normal */
    double slope, part; /* filled: df/dx, slope x u */
} sw_trial_source;
typedef double sw_trial_function(const void *context, const double *x);
enum { SW_TRIAL_SOURCES = 12 };
/* sqrt of the sum of (slope u)2; slopes by central difference with a step of 0.01 u, to one side at a bound; NAN = neither. */
double sw_trial_propagate(sw_trial_function *f, const void *context, sw_trial_source *sources, size_t count);
/* The same by drawing; *mean may be NULL. Draws that give NAN are passed over. Same seed, same answer. */
double sw_trial_sampled(sw_trial_function *f, const void *context, const sw_trial_source *sources, size_t count,
                        size_t draws, uint64_t seed, double *mean);

/* Functions for a budget; x in the units of a report. context: not used. */
double sw_trial_efficiency_of(const void *context,
                              const double *x);                  /* %; t_a t_r degC, CO2 CO C H W %, Hu kJ/kg, q_r % */
double sw_trial_output_of(const void *context, const double *x); /* kW; the same nine, then kg/h */
double sw_trial_co_of(const void *context, const double *x);     /* mg/m3n at 13 %; ppm, O2 % */
double sw_trial_at_13_of(const void *context, const double *x);  /* mg/m3n at 13 %; mg/m3n, O2 % */

/* ---- options --------------------------------------------------------------------------------------------------------- */

typedef struct sw_trial_options {
    double eu, germany, uk, us;                             /* rules chosen: 1 or 0 */
    double pellets, open;                                   /* kind of stove: 1 or 0; else closed, not pellets */
    double control, presence, window, distance, low_tested; /* sw_trial_control; 1 or 0 */
    double el_most_w, el_least_w, el_standby_w, pilot_w;
    double warm_up;         /* so many charges at the start light and warm the stove: not evaluated */
    double gap_s;           /* longer steps of time count as gaps; 0 = three of the usual */
    double coverage_least;  /* share of a charge that must have been measured */
    double charge_least_kg; /* rise of the scale that is a charge */
    double reading_every_s; /* of the readings handed to the calibration */
    double u_flue_k, u_room_k, u_co2, u_o2, u_co, u_gas, u_pm; /* of gases: shares; gas, pm: relative */
    double u_c, u_h, u_moisture, u_lhv, u_residue, u_wood_kg;
    double draws, seed;
    uint32_t made_by_defaults;
} sw_trial_options;
sw_trial_options sw_trial_options_defaults(void);
const sw_option *sw_trial_option_table(size_t *count);

/* ---- reading --------------------------------------------------------------------------------------------------------- */

typedef enum sw_trial_quantity {
    SW_TRIAL_CO2,
    SW_TRIAL_O2,
    SW_TRIAL_CO,
    SW_TRIAL_FLUE,
    SW_TRIAL_ROOM,
    SW_TRIAL_DRAUGHT,
    SW_TRIAL_SCALE,
    SW_TRIAL_OGC,
    SW_TRIAL_NOX,
    SW_TRIAL_PM,
    SW_TRIAL_SURFACE, /* a thermocouple on a part */
    SW_TRIAL_QUANTITIES
} sw_trial_quantity;
const char *sw_trial_quantity_name(sw_trial_quantity of);

typedef struct sw_trial_column {
    sw_trial_quantity of;
    const char *name;      /* of a surface: its place; else as the file names it */
    double *values;        /* [row_count] shares (OGC, NOx, PM in mg/m3: mg/m3n), K, Pa, kg; NAN = lost */
    bool by_mass;          /* OGC, NOx, CO: mg/m3n instead of a share */
    size_t lost;           /* empty, text or beyond what can be */
    size_t odd;            /* of these: text that is no usual sign for a missing value, or beyond what can be */
    int first_lost_line;   /* 0 = none */
    const char *first_odd; /* what stood in the first odd cell */
} sw_trial_column;

typedef enum sw_trial_spot {               /* what a surface is: its limit */
                             SW_SPOT_PART, /* none: a reading for the model */
                             SW_SPOT_METAL,
                             SW_SPOT_ENAMEL,
                             SW_SPOT_PLASTIC,
                             SW_SPOT_STORE,
                             SW_SPOT_CORNER,
                             SW_SPOT_HEARTH,
                             SW_SPOTS
} sw_trial_spot;
typedef struct sw_trial_rise_limit {
    const char *name; /* "metal handle": as the header writes it */
    double limit_k;   /* over the room; of the hearth: degC */
    bool absolute;
    const char *source;
} sw_trial_rise_limit;
const sw_trial_rise_limit *sw_trial_rise_limit_of(sw_trial_spot spot);

typedef struct sw_trial_charge {
    double time_s, wood_kg;
} sw_trial_charge;
typedef struct sw_trial_filter { /* dust on a filter, in the order of the charges */
    double mg, m3n;
} sw_trial_filter;
typedef struct sw_trial_surface_kind {
    const char *name;
    sw_trial_spot spot;
} sw_trial_surface_kind;

enum { SW_TRIAL_CHARGES = 64, SW_TRIAL_COLUMNS = 64 };
typedef struct sw_trial_record {
    const char *file, *note, *model, *maker, *fuel; /* "" = not told */
    double moisture, c, h, lhv, lhv_dry;            /* shares as fired, J/kg; NAN = from the fuel table */
    double residue, residue_c;                      /* R, b: shares; NAN = 0.5 % of the heat */
    double end_s;                                   /* the last charge is burnt; NAN = end of the file */
    sw_trial_charge charges[SW_TRIAL_CHARGES];
    size_t charge_count;
    sw_trial_filter filters[SW_TRIAL_CHARGES];
    size_t filter_count;
    sw_trial_surface_kind surfaces[SW_TRIAL_COLUMNS];
    size_t surface_count;
    char separator;
    const double *time_s; /* [row_count] from the first row, rising */
    size_t row_count, repeated_rows;
    sw_trial_column columns[SW_TRIAL_COLUMNS];
    size_t column_count;
    size_t ignored_count;
    const char *ignored; /* names of columns not used, "a, b"; "" = none */
    double step_s;       /* the usual one: the median; NAN below two rows */
} sw_trial_record;

/* One pass over the bytes; record in run->keep. SW_BAD_INPUT, all faults told: no UTF-8 text, no time, time that goes back,
 * no flue gas, room, or neither CO2 nor O2, an unknown key of the header, a line with more cells than columns. Lost readings
 * are no faults. */
sw_status sw_trial_read(sw_run *run, const char *file, const char *bytes, size_t length, sw_trial_record *record);
const sw_trial_column *sw_trial_column_of(const sw_trial_record *record, sw_trial_quantity of); /* NULL = none */

/* ---- the study --------------------------------------------------------------------------------------------------------- */

typedef struct sw_trial_cycle { /* from one charge to the next */
    double start_s, end_s, wood_kg;
    double flue_k, room_k, draught_pa, co2_dry, o2_dry, co_dry; /* means; co2 or o2 by the other where not measured */
    double coverage;                                            /* of what the efficiency needs: the worst */
    bool valid;
    const char *why; /* not valid */
    sw_trial_losses losses;
    double fuel_w, output_w, gas_kg_s, flow_kg_s; /* flow: the standard's; gas: by the balance of moles, for chimneys */
    double raw[SW_EMISSIONS], at_13[SW_EMISSIONS]; /* mg/m3n; NAN = not measured */
} sw_trial_cycle;

typedef struct sw_trial_answer { /* one result of the whole test */
    const char *name, *unit, *key;
    double value;         /* in `unit` */
    sw_trial_mean cycles; /* of the cycles' own */
    double u, u_sampled;  /* of instruments and fuel: linear, by sampling; one standard deviation */
    double half95;        /* the larger of 2 u and the cycles' half width */
    const sw_trial_source *sources;
    size_t source_count; /* the budget */
} sw_trial_answer;
enum {
    SW_ANSWER_EFFICIENCY, /* % */
    SW_ANSWER_OUTPUT,     /* kW */
    SW_ANSWER_CO,         /* mg/m3n at 13 %, and so on in the order of sw_emission */
    SW_ANSWER_OGC,
    SW_ANSWER_NOX,
    SW_ANSWER_PM,
    SW_ANSWERS
};

typedef struct sw_trial_rise {
    const char *place;
    sw_trial_spot spot;
    double most_k, room_k, time_s; /* hottest over the room, and the room then */
    double rise_k;
} sw_trial_rise;

typedef struct sw_trial_limit { /* of one rule */
    const char *rules, *name, *key, *unit;
    sw_sense sense;
    double limit, value, high; /* high: value with its half width to the bad side; NAN = not measured */
    double margin;
    sw_verdict verdict;
    const char *source;
} sw_trial_limit;

typedef struct sw_trial_series { /* for charts: thinned, a gap is NAN */
    const char *name, *unit;
    sw_trial_quantity of;
    const double *time_s, *values; /* [count] values in `unit` */
    size_t count;
} sw_trial_series;

typedef struct sw_trial_predicted { /* by the stove's model; NAN = not known */
    double efficiency, output_w, flue_k, gas_kg_s, co2_dry;
    const char *const *places;
    const double *places_k;
    size_t place_count;
} sw_trial_predicted;
typedef struct sw_trial_comparison {
    const char *name, *unit;
    double measured, predicted, difference, u; /* u: NAN = unknown */
} sw_trial_comparison;

typedef struct sw_trial_reading { /* for the calibration of the model: as a row of a hot test */
    double time_s, t_k;
    const char *place; /* "flue gas" or a part's name */
} sw_trial_reading;

typedef struct sw_trial_declared {                           /* what a house may use for its chimney */
    double flow_kg_s, flue_k, draught_pa, co2_dry, output_w; /* NAN = not measured */
    bool draught_assumed; /* the line says the 12 Pa of the test: draught was not measured */
    const char *lua;      /* the line for a house's description; "" = nothing to declare */
} sw_trial_declared;

typedef struct sw_trial_line {
    const char *label, *value, *note; /* note: where it comes from, what is missing; may be "" */
} sw_trial_line;
typedef struct sw_trial_sheet {
    const char *title;
    const sw_trial_line *lines;
    size_t line_count;
} sw_trial_sheet;
enum { SW_SHEET_PLATE, SW_SHEET_TECHNICAL, SW_SHEET_FICHE, SW_SHEETS };

typedef struct sw_trial_step { /* of the test plan */
    const char *phase;
    double start_s, lasts_s, wood_kg, draught_pa; /* NAN = does not apply */
    const char *what;
} sw_trial_step;
typedef enum sw_trial_spot_at {
    SW_AT_PART,    /* of the stove */
    SW_AT_SECTION, /* the measuring section behind the collar */
    SW_AT_ROOM,
    SW_AT_SCALE,
    SW_AT_HANDLE,
    SW_AT_STORE,
    SW_AT_CORNER
} sw_trial_spot_at;
typedef struct sw_trial_sensor {
    const char *quantity, *place, *instrument; /* what, where, how good */
    sw_trial_spot_at at;
    int piece, item; /* of the stove; -1 = none */
} sw_trial_sensor;
typedef struct sw_trial_plan {
    const sw_trial_step *steps;
    size_t step_count;
    const sw_trial_sensor *sensors;
    size_t sensor_count;
    double charge_kg, safety_kg, lasts_s;
    const char *header; /* lines to begin the measured file with */
} sw_trial_plan;

typedef struct sw_trial_input {
    const sw_trial_record *record;
    const sw_stove *stove;               /* NULL = none: no plan, nominal output as measured */
    const sw_house *house;               /* NULL = none: its declared values are compared with the measured */
    const sw_trial_predicted *predicted; /* NULL = none */
} sw_trial_input;

typedef struct sw_trial_result {
    const char *statement; /* SW_TRIAL_STATEMENT */
    sw_trial_wood wood;
    double co2_max; /* of this wood, dry */
    const sw_trial_cycle *cycles;
    size_t cycle_count, valid_count;
    sw_trial_cycle whole; /* all valid cycles: means over time, efficiency by heat */
    sw_trial_answer answers[SW_ANSWERS];
    sw_trial_season season;
    sw_trial_features features;
    const sw_trial_limit *limits;
    size_t limit_count;
    const sw_trial_rise *rises;
    size_t rise_count;
    const sw_trial_series *series;
    size_t series_count;
    const sw_trial_comparison *comparisons;
    size_t comparison_count;
    const sw_trial_reading *readings;
    size_t reading_count;
    const char *unmodelled; /* surfaces that are no part of the model and give it no readings: "a, b"; "" = none */
    const sw_trial_charge *charges; /* as told, or seen on the scale */
    size_t charge_count;
    sw_trial_declared declared;
    sw_trial_sheet sheets[SW_SHEETS];
    const sw_trial_plan *plan; /* NULL without a stove */
    size_t gap_count;
    double gaps_s, longest_gap_s;
    sw_findings findings;
} sw_trial_result;

/* result in run->keep. SW_BAD_INPUT: the fuel is unknown, no charge told or seen. SW_OUT_OF_RANGE: an option, the wood. No
 * valid charge is a finding, with figures NAN. */
sw_status sw_trial_solve(sw_run *run, const sw_trial_input *in, const sw_trial_options *opt,
                         const sw_trial_result **result);

/* What to measure where, how long and with how much wood. SW_OUT_OF_RANGE: the duty; SW_BAD_INPUT: its fuel. */
sw_status sw_trial_plan_of(sw_run *run, const sw_stove *stove, const sw_trial_plan **plan);

/* The readings as a hot test of burn (columns time_min, place, value), from the first charge on. */
void sw_trial_write_hot_test(sw_writer *writer, const sw_trial_result *result);

#endif
