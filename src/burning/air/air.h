/* air.h: how the draught shares itself over openings, baffles and collar of a stove.
 *
 * A network of spaces joined by ways. A space has a mean gas temperature and a pressure at floor level relative to the
 * room's; pressures at height follow its density. A way is an opening or a duct with a loss coefficient. Flows kg/s,
 * positive from `from` to `to`; pressures Pa; heights m above the floor. Method: docs/studies/air.md. */
#ifndef SW_BURNING_AIR_AIR_H
#define SW_BURNING_AIR_AIR_H

#include "model/model.h"
#include "transfer/transfer.h"

typedef struct sw_air_space {
    const char *name;
    double t_k;
    double pressure_pa; /* known when fixed: at floor level, against the room's air column */
    bool fixed;
} sw_air_space;

typedef struct sw_air_way {
    const char *name, *kind;      /* kind: "primary" "wash" "rear jet" "secondary" "leak" "throat" "collar" */
    size_t from, to;              /* spaces */
    double area_m2, height_m;     /* of its middle */
    double cd;                    /* 1/sqrt(loss coefficient) */
    double length_m, hydraulic_m; /* > 0: friction of a duct as well */
    double gas_k;                 /* temperature in the way: NAN = that of the space it comes from */
} sw_air_way;

typedef struct sw_air_flow {
    double kg_s, velocity_m_s, pressure_pa; /* pressure: over the way */
    double share;                           /* of all air that enters from fixed spaces at or above 0 */
} sw_air_flow;

typedef struct sw_air_network {
    const sw_air_space *spaces;
    size_t space_count;
    const sw_air_way *ways;
    size_t way_count;
} sw_air_network;

typedef struct sw_air_solution {
    double *pressure_pa; /* [space_count] at floor level */
    sw_air_flow *flows;  /* [way_count] */
    double residual_kg_s;
    int rounds;
} sw_air_solution;

/* Newton on the free pressures, damped; flow laws smoothed about zero. Warm-started from `solution` when its pressure_pa is
 * not NULL. Memory in run->keep on first use only. SW_BAD_INPUT: a space no way reaches, no opening at all; SW_NO_SOLUTION with
 * the residual and the worst space; SW_OUT_OF_RANGE: temperature, negative area. */
sw_status sw_air_network_solve(sw_run *run, const sw_air_network *network, sw_air_solution *solution);

/* How far a jet reaches into hot cross-flowing or still gas, m: velocity on the axis falls to `to_share` of the start. */
double sw_jet_reach_m(double hole_m, double jet_k, double gas_k, double to_share);

/* ---- the study: a stove's own network --------------------------------------------------------------------------------- */

typedef struct sw_air_options {
    double draught_pa;                                    /* at the collar: 12 */
    double room_c, firebox_c, upper_c, flue_c, preheat_c; /* gas temperatures where heat does not give them */
    double primary_share;                                 /* how far the primary slide is open, 0..1 */
    double wash_share, rear_share;
    double leak_mm2; /* free area of door seals and joints */
    uint32_t made_by_defaults;
} sw_air_options;
sw_air_options sw_air_options_defaults(void);
const sw_option *sw_air_option_table(size_t *count);

typedef struct sw_air_geometry { /* from heat's scene */
    double throat_m2, throat_height_m, collar_m2, collar_height_m, bed_height_m;
} sw_air_geometry;

typedef struct sw_air_input {
    const sw_stove *stove;
    sw_air_geometry geometry;
    double fuel_kg_s, air_min_kg; /* for lambda; NAN unknown */
} sw_air_input;

typedef struct sw_air_result {
    sw_air_network network;
    sw_air_solution solution;
    double air_kg_s, lambda;
    double primary_share, wash_share, rear_share, leak_share;
    sw_findings findings; /* shares, velocities, lambda, reversed flow */
} sw_air_result;
/* The network alone (to be solved again and again with other temperatures): spaces room, firebox, upper, collar. */
enum { SW_AIR_ROOM, SW_AIR_FIREBOX, SW_AIR_UPPER, SW_AIR_COLLAR, SW_AIR_SPACES };
sw_status sw_air_network_make(sw_run *run, const sw_air_input *in, const sw_air_options *opt, sw_air_network *network);
sw_status sw_air_solve(sw_run *run, const sw_air_input *in, const sw_air_options *opt, const sw_air_result **result);

#endif
