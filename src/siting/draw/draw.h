/* draw.h: the stove on its real chimney: one operating point, and a map of them.
 *
 * The stove's network says how much gas at what temperature a draught makes; the chimney says what draught that gas makes. Both
 * hold at the operating point. The wood burnt is given (kg/h), as it lies in the fire; the chimney is the real one, without the
 * standard's safety factors. SI, K, Pa. Method: docs/studies/draw.md. */
#ifndef SW_SITING_DRAW_DRAW_H
#define SW_SITING_DRAW_DRAW_H

#include "burning/burn/burn.h"
#include "siting/flue/flue.h"

typedef struct sw_draw_weather {
    double outside_k, wind_pa;
    double primary_share, wash_share, rear_share; /* slides; NAN = as the burn's options */
} sw_draw_weather;

typedef enum sw_draw_state {
    SW_DRAW_SAFE,
    SW_DRAW_WEAK,     /* less than least_pa at the collar: smoke may come into the room */
    SW_DRAW_STARVED,  /* excess air below least_lambda: smoke and carbon monoxide */
    SW_DRAW_WASTE,    /* excess air above most_lambda or gas hotter than most_k: wood wasted */
    SW_DRAW_WET,      /* the flue's wall below the dew point at its outlet */
    SW_DRAW_NONE,     /* no operating point: the chimney does not draw */
    SW_DRAW_STRONG,   /* no operating point: it draws more than SW_DRAW_MOST_LAMBDA times the air */
    SW_DRAW_UNSOLVED, /* not known: the balances did not settle */
    SW_DRAW_STATES
} sw_draw_state;
#define SW_DRAW_MOST_LAMBDA 19.5
const char *sw_draw_state_name(sw_draw_state state);
bool sw_draw_is_point(sw_draw_state state); /* there is an operating point: the figures are its */

typedef struct sw_draw_point {
    sw_draw_state state;
    double draught_pa, output_w, efficiency, lambda, flue_k, gas_kg_s, co2_dry, outlet_k, wall_k, dew_point_k;
    double residual_pa;
    int rounds;
} sw_draw_point;

typedef struct sw_draw_limits {
    double least_pa, least_lambda, most_lambda, most_k;
} sw_draw_limits;
sw_draw_limits sw_draw_limits_defaults(void);

typedef struct sw_draw_input {
    const sw_flue_input *flue;
    const sw_flue_options *flue_options;
    sw_draw_limits limits;
    sw_burn_options burn; /* fuel_kg_h > 0 */
    sw_heat_model heat;
} sw_draw_input;

/* Secant with a bracket on the air: its gas makes the chimney draw, the openings need a draught for it. point->lambda: to start
 * from, 0 = none. burn: opened for the same stove; its conditions are changed. A chimney that does not draw or draws too much
 * gives SW_DRAW_NONE or SW_DRAW_STRONG, not an error; the figures are those of the least or most air. SW_NO_SOLUTION: the
 * balances do not settle; the state is SW_DRAW_UNSOLVED, the figures NAN. */
sw_status sw_draw_solve(sw_run *run, const sw_draw_input *in, sw_burn *burn, sw_draw_weather weather,
                        sw_draw_point *point);

typedef struct sw_draw_map { /* outside temperature over wash slide */
    size_t columns, rows;
    double wind_pa; /* as it was solved for */
    double outside_low_k, outside_high_k, share_low, share_high;
    sw_draw_point *points; /* [rows * columns], row: a share */
} sw_draw_map;
/* points of the map, as large as it says; on run->threads cores, the same on any number. A point that does not settle is
 * SW_DRAW_UNSOLVED; any other fault of a row (memory) is given back. */
sw_status sw_draw_map_solve(sw_run *run, const sw_draw_input *in, const sw_burn_input *stove, double wind_pa,
                            sw_draw_map *map);

#endif
