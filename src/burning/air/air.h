/* air.h: how the draught shares itself over openings, baffles and collar of a stove.
 *
 * A network of spaces joined by ways. A space holds gas of one temperature: its pressure at height_m is told against the
 * air of the first space (the room) at the same height, and changes with height by the difference of the two densities. A
 * way is an opening or a duct with a loss coefficient. Flows kg/s, positive from `from` to `to`; pressures Pa; heights m
 * above the floor. Gas is air at 101 325 Pa, ideal: wood's flue gas has a gas constant 0.1 % off. Method:
 * docs/studies/air.md. */
#ifndef SW_BURNING_AIR_AIR_H
#define SW_BURNING_AIR_AIR_H

#include "model/model.h"
#include "transfer/transfer.h"

/* ---- formulas: air_laws.c, jet.c ---------------------------------------------------------------------------------- */

double sw_air_density(double t_k);                                          /* kg/m3; NAN at or below 0 K */
double sw_air_leg_pa(double height_m, double reference_k, double inside_k); /* buoyancy of a leg: g h (rho_ref - rho) */
/* Free area that passes kg_s at pressure_pa; NAN without pressure or density. */
double sw_air_area_m2(double kg_s, double cd, double density, double pressure_pa);
/* One opening with the loss of two in series, referred to the same cd and density: 1/A2 = 1/A1_2 + 1/A2_2; 0 when one is
 * shut. In parallel areas add. */
double sw_air_series_m2(double first_m2, double second_m2);

/* Round free jet from a hole into still gas: velocity on the axis at x_m over that at the start, 1 in the core. NAN for
 * lengths or temperatures that are not above 0 (x_m: below). Turbulent jets, Re from about 10 000; below that they decay
 * several times faster, so that this is the most a small jet reaches. */
double sw_jet_share(double x_m, double hole_m, double jet_k, double gas_k);
/* How far it reaches, m: velocity on the axis falls to `to_share` (0..1] of the start. */
double sw_jet_reach_m(double hole_m, double jet_k, double gas_k, double to_share);
/* Pressure lost in a bed of pieces over the velocity head of the gas ahead of it: the inertial term of Ergun's equation. */
double sw_bed_loss(double depth_m, double piece_m, double voids);

/* ---- the network: network.c, network_check.c, network_flow.c ------------------------------------------------------- */

typedef struct sw_air_space {
    const char *name;
    double t_k;         /* 200..2500 */
    double pressure_pa; /* known when fixed */
    bool fixed;
    double height_m;    /* where its pressure is told; 0 = floor */
    double source_kg_s; /* gas that comes into being in it (burnt wood); 0 = none */
} sw_air_space;

typedef struct sw_air_way {
    const char *name, *kind;      /* kind: "primary" "wash" "rear jet" "secondary" "leak" "throat" "collar" */
    size_t from, to;              /* spaces */
    double area_m2, height_m;     /* of its middle; area 0 = shut */
    double cd;                    /* 1/sqrt(loss coefficient), friction apart */
    double length_m, hydraulic_m; /* > 0: friction of a duct as well */
    double hole_m;                /* diameter of each of its holes; 0 = not known */
    double gas_k;                 /* temperature in the hole of what comes from `from`: NAN = that of the space */
} sw_air_way;

typedef struct sw_air_flow {
    double kg_s, velocity_m_s, pressure_pa; /* velocity: mean over the free area; pressure: over the way */
    double share; /* of all that enters from fixed spaces at or above 0; NAN when nothing does */
} sw_air_flow;

typedef struct sw_air_network {
    const sw_air_space *spaces; /* the first is the reference for pressures */
    size_t space_count;
    const sw_air_way *ways;
    size_t way_count;
} sw_air_network;

typedef struct sw_air_solution { /* {0} before the first solve */
    double *pressure_pa;         /* [space_count] at the space's height */
    sw_air_flow *flows;          /* [way_count] */
    double residual_kg_s;        /* of the worst free space */
    int rounds;
    struct sw_air_work *work; /* the solver's own */
} sw_air_solution;

/* Newton on the free pressures, damped; flow laws smoothed about zero (1e-4 Pa). Warm-started from `solution` when its
 * pressure_pa is not NULL. Memory in run->keep on first use of a solution only, or when the network has grown. SW_BAD_INPUT:
 * a space no open way reaches, no opening at all, no known pressure; SW_NO_SOLUTION with the residual and the worst space,
 * flows and pressures NAN; SW_OUT_OF_RANGE: temperature, negative area. cost ways + free spaces cubed, a round */
sw_status sw_air_network_solve(sw_run *run, const sw_air_network *network, sw_air_solution *solution);

/* ---- the study: a stove's own network --------------------------------------------------------------------------------- */

typedef struct sw_air_options {
    double draught_pa;                                    /* at the collar: 12 */
    double room_c, firebox_c, upper_c, flue_c, preheat_c; /* gas temperatures where heat does not give them */
    double primary_share;                                 /* how far the primary slide is open, 0..1 */
    double wash_share, rear_share;                        /* rear: of the secondary openings as well */
    double leak_mm2;                                      /* free area of door seals and joints */
    double opening_cd, throat_cd, collar_cd;
    double bed_mm, bed_piece_mm, bed_void; /* embers over the grate: depth, size of a piece, share of voids */
    uint32_t made_by_defaults;
} sw_air_options;
sw_air_options sw_air_options_defaults(void);
const sw_option *sw_air_option_table(size_t *count);

typedef struct sw_air_geometry { /* from heat's scene */
    double throat_m2, throat_height_m, collar_m2, collar_height_m, bed_height_m;
    double base_m2; /* of the firebox: the bed lies on it, jets cross it; 0 = not known */
} sw_air_geometry;

typedef struct sw_air_input {
    const sw_stove *stove;
    sw_air_geometry geometry;
    double fuel_kg_s, air_min_kg; /* for lambda; NAN unknown */
    double made_kg_s;             /* gas that comes into being in the firebox; 0 = as much as fuel */
} sw_air_input;

typedef struct sw_air_result {
    sw_air_network network;
    sw_air_solution solution;
    double air_kg_s, lambda;                                  /* lambda: NAN when the fuel is not known */
    double primary_share, wash_share, rear_share, leak_share; /* of the air that enters */
    double secondary_share;
    sw_findings findings; /* shares, velocities, lambda, reversed flow */
} sw_air_result;

/* The network alone (to be solved again and again with other temperatures and slides): spaces room, firebox, upper, collar;
 * ways: one an opening in the stove's order, then leak, throat, collar. Errors as sw_air_solve. */
enum { SW_AIR_ROOM, SW_AIR_FIREBOX, SW_AIR_UPPER, SW_AIR_COLLAR, SW_AIR_SPACES };
enum { SW_AIR_LEAK, SW_AIR_THROAT, SW_AIR_OUTLET, SW_AIR_OTHER_WAYS }; /* after the openings */
sw_status sw_air_network_make(sw_run *run, const sw_air_input *in, const sw_air_options *opt, sw_air_network *network);

/* Air that enters from the room, kg/s, and the share of one kind of way in it (0 without such a way, NAN without air). */
double sw_air_entering_kg_s(const sw_air_network *network, const sw_air_solution *solution);
double sw_air_share_of(const sw_air_network *network, const sw_air_solution *solution, const char *kind);
/* Judges a solved network of a stove: what sw_air_solve's findings hold. */
sw_status sw_air_judge(sw_run *run, const sw_air_input *in, const sw_air_network *network,
                       const sw_air_solution *solution, sw_findings *findings);

/* From result's network and solution the rest of it: shares and findings. */
sw_status sw_air_tell(sw_run *run, const sw_air_input *in, sw_air_result *result);

/* result in run->keep. SW_OUT_OF_RANGE (option, area or height named); SW_BAD_INPUT: no opening, all shut, kind unknown, no
 * throat, collar blocked: all faults at once. SW_NO_SOLUTION as the network. */
sw_status sw_air_solve(sw_run *run, const sw_air_input *in, const sw_air_options *opt, const sw_air_result **result);

#endif
