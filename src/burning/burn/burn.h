/* burn.h: fire, air and heat as one balance: a steady point, and a whole burn from cold with refuels.
 *
 * The only folder that knows fire, air and heat together. SI, K. Method: docs/studies/burn.md. */
#ifndef SW_BURNING_BURN_BURN_H
#define SW_BURNING_BURN_BURN_H

#include "burning/air/air.h"
#include "burning/fire/fire.h"
#include "burning/heat/heat.h"

typedef struct sw_burn_input {
    const sw_stove *stove;
    const sw_sheet_result *sheet;
    const sw_scene *scene;
} sw_burn_input;

typedef struct sw_burn_options {
    double fuel_kg_h; /* 0 = what the duty needs at its wanted efficiency */
    double moisture, draught_pa, room_c, co_ppm13;
    double primary_share, wash_share, rear_share; /* slides */
    double lambda;                                /* 0 = from the air network; else the slides are taken to give it */
    uint32_t made_by_defaults;
} sw_burn_options;
sw_burn_options sw_burn_options_defaults(void);
const sw_option *sw_burn_option_table(size_t *count);

typedef struct sw_burn_point {
    sw_fire_gas gas;
    sw_heat_fire fire;
    sw_heat_room room;
    sw_air_solution air;
    sw_heat_state heat;
    double fuel_kg_s, fuel_w, lambda, output_w, efficiency, flue_k, gas_kg_s;
    double balance; /* |fuel - output - losses| / fuel */
    int rounds;
} sw_burn_point;

typedef struct sw_burn sw_burn; /* networks kept between points of one stove */
sw_status sw_burn_open(sw_run *run, const sw_burn_input *in, const sw_burn_options *opt, const sw_heat_model *model,
                       sw_burn **burn);
/* Other conditions for the same stove; a changed heat model makes its network anew. */
sw_status sw_burn_change(sw_run *run, sw_burn *burn, const sw_burn_options *opt, const sw_heat_model *model);
/* Warm-started from the last point. SW_NO_SOLUTION: which loop, its residual. */
sw_status sw_burn_steady(sw_run *run, sw_burn *burn, sw_burn_point *point);

/* The openings at a point: flows, shares, findings; in run->keep. */
sw_status sw_burn_air(sw_run *run, sw_burn *burn, const sw_burn_point *point, const sw_air_result **air);
/* Draught at the collar, Pa, at which the openings let in the point's own air, the gases as warm as there: for points whose
 * excess air was given. SW_NO_SOLUTION beyond 200 Pa. */
sw_status sw_burn_draught(sw_run *run, sw_burn *burn, const sw_burn_point *point, double *draught_pa);
/* Temperature of a part at a point; hot_side matters for layered parts. */
double sw_burn_part_k(const sw_burn *burn, const sw_burn_point *point, size_t part, bool hot_side);
/* Temperature at a point of the gas over the fire, the gas above the baffle, the gap's air or the embers. */
double sw_burn_gas_k(const sw_burn *burn, const sw_burn_point *point, int gas_node); /* SW_GAS_FIREBOX ... */
typedef struct sw_burn_event {
    double time_s;
    double wood_kg;                               /* refuel, 0 = none */
    double primary_share, wash_share, rear_share; /* NAN = unchanged */
} sw_burn_event;
typedef struct sw_burn_sample {
    double time_s, fuel_w, output_w, transmitted_w, flue_k, lambda, gas_kg_s, co2_dry, wood_kg, firebox_k, pane_k,
        shell_k, lining_k;
} sw_burn_sample;
typedef struct sw_burn_run {
    const sw_burn_sample *samples;
    size_t sample_count;
    const double *parts_k;                                         /* [sample_count * parts] hot side */
    const double *most_k;                                          /* [parts] highest over the burn, hot side */
    double fuel_j, output_j, flue_j, stored_j, unburnt_j, balance; /* closure: share of fuel_j */
    double efficiency, mean_lambda, mean_flue_k;
    size_t steps;
} sw_burn_run;
/* From cold through the events up to end_s; events in order of time. */
sw_status sw_burn_through(sw_run *run, sw_burn *burn, const sw_burn_event *events, size_t count, double end_s,
                          const sw_burn_run **result);

/* ---- a hot test: measured temperatures correct the model's constants ------------------------------------------------ */

/* Columns time_min, place, value. place "wood": a charge, kg; "primary slide", "wash slide", "rear slide": share open;
 * "flue gas", "firebox gas" or a part's name: degC. */
typedef struct sw_hot_reading {
    double time_s, t_k;
    size_t place; /* part, or SW_PLACE_FLUE, SW_PLACE_FIREBOX */
} sw_hot_reading;
#define SW_PLACE_FLUE    (SIZE_MAX - 1)
#define SW_PLACE_FIREBOX (SIZE_MAX - 2)
typedef struct sw_hot_test {
    const sw_burn_event *events;
    size_t event_count;
    const sw_hot_reading *readings;
    size_t reading_count;
    double end_s;
} sw_hot_test;
/* SW_BAD_INPUT: every wrong line, with the nearest known place. In run->keep. */
sw_status sw_hot_test_read(sw_run *run, const char *file, const char *bytes, size_t length, const sw_scene *scene,
                           sw_hot_test *test);

typedef struct sw_fitted { /* one constant of sw_heat_model */
    const sw_option *option;
    double before, after, sigma; /* sigma: standard deviation from the test's scatter and what was known before */
} sw_fitted;
typedef struct sw_burn_fit {
    const sw_fitted *constants;
    size_t constant_count;
    sw_heat_model model;
    const double *before_k, *after_k; /* [reading_count] computed at each reading */
    double rms_before_k, rms_after_k; /* computed less measured */
    int rounds;
} sw_burn_fit;
/* Its range ends there: the test wants something else of the model. */
bool sw_fitted_at_bound(const sw_fitted *constant);
/* Least squares over whole burns, Levenberg-Marquardt; each constant is held to its table value by its own stated spread, so
 * that what the test does not tell stays as it was. sigma_k: of one reading. SW_NO_SOLUTION when a burn cannot be followed. */
sw_status sw_burn_fit_solve(sw_run *run, const sw_burn_input *in, const sw_burn_options *opt,
                            const sw_heat_model *start, const sw_hot_test *test, double sigma_k,
                            const sw_burn_fit **result);
/* What stays between model and test, and each constant at its bound: such a fit explains nothing. Never fails. */
sw_status sw_burn_fit_findings(sw_run *run, const sw_burn_fit *fit, const sw_stove *stove, sw_findings *findings);

/* ---- bands: what the inputs' uncertainty makes of the outputs ----------------------------------------------------------- */

typedef enum sw_band_of {
    SW_BAND_OUTPUT_W,
    SW_BAND_EFFICIENCY,
    SW_BAND_LAMBDA,
    SW_BAND_FLUE_K,
    SW_BAND_PANE_K,
    SW_BAND_WALL_K,
    SW_BAND_SHELL_K,
    SW_BANDS
} sw_band_of;
typedef struct sw_band {
    double mean, sigma, low, high; /* low, high: 5 and 95 of 100 */
} sw_band;
typedef struct sw_spread {
    const char *name; /* option of the burn or the heat model */
    double sigma;     /* one standard deviation; relative: share of the value */
    bool relative;
    const char *source;
} sw_spread;
const sw_spread *sw_burn_spreads(size_t *count); /* what is taken as uncertain, by how much */
/* bands [SW_BANDS] over `samples` steady points around the options and the model, same seed same answer. *failed: samples
 * without an answer. Wood is burnt at the rate of the point itself, not by output. */
sw_status sw_burn_bands(sw_run *run, const sw_burn_input *in, const sw_burn_options *opt, const sw_heat_model *model,
                        size_t samples, uint64_t seed, sw_band *bands, size_t *failed);

#endif
