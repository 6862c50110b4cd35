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
/* Warm-started from the last point. SW_NO_SOLUTION: which loop, its residual. */
sw_status sw_burn_steady(sw_run *run, sw_burn *burn, sw_burn_point *point);

const sw_air_network *sw_burn_network(const sw_burn *burn); /* the stove's spaces and ways, as last solved */
/* Temperature of a part at a point; hot_side matters for layered parts. */
double sw_burn_part_k(const sw_burn *burn, const sw_burn_point *point, size_t part, bool hot_side);
/* Shares, velocities and excess air of a point, judged. */
sw_status sw_burn_air_findings(sw_run *run, const sw_burn *burn, const sw_burn_point *point, sw_findings *findings);

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
    const double *most_k;                                          /* [parts] highest over the burn, hot side */
    double fuel_j, output_j, flue_j, stored_j, unburnt_j, balance; /* closure: share of fuel_j */
    double efficiency, mean_lambda, mean_flue_k;
    size_t steps;
} sw_burn_run;
/* From cold through the events up to end_s; events in order of time. */
sw_status sw_burn_through(sw_run *run, sw_burn *burn, const sw_burn_event *events, size_t count, double end_s,
                          const sw_burn_run **result);

#endif
