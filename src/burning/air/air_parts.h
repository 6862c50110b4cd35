/* air_parts.h: what the steps of the air study share. For this folder only. */
#ifndef SW_BURNING_AIR_AIR_PARTS_H
#define SW_BURNING_AIR_AIR_PARTS_H

#include "burning/air/air.h"

/* ---- the network's solver ---- */

enum { AIR_FIXED = -1 };

typedef struct air_link { /* a way made ready: its flow depends on the pressures of its two spaces alone */
    size_t from, to;
    int from_row, to_row; /* of the free spaces, or AIR_FIXED */
    double lift_pa;       /* added to the difference of the spaces' pressures */
    double forth, back;   /* cd A sqrt(2 rho), kg/(s sqrt(Pa)), of the gas of either side */
    double duct_by_d;     /* length over hydraulic diameter; 0 = no friction */
    double area_m2, hydraulic_m, cd;
    double density_forth, density_back, viscosity_forth, viscosity_back; /* viscosities of ducts only */
    double pressure_pa, kg_s, slope; /* at the pressures last tried; slope: kg/(s Pa), above 0 when open */
} air_link;

struct sw_air_work {
    size_t space_room, way_room, free_count;
    int *row;        /* [space_room] of each space among the free, or AIR_FIXED */
    bool *reached;   /* [space_room] an open way leads to a known pressure */
    double *density; /* [space_room] */
    air_link *links; /* [way_room] */
    size_t link_count;
    double *pressure, *trial;                    /* [space_room] */
    double *inflow, *step, *source, *matrix;     /* [space_room], matrix [space_room^2]: of the free */
    double largest_kg_s, worst_kg_s, noise_kg_s; /* flow, residual, what rounding alone makes of it */
    size_t worst;                                /* row of the worst */
};

void air_flow_at(air_link *link, double pressure_pa);                    /* network_flow.c: sets kg_s and slope */
sw_status air_network_check(sw_run *run, const sw_air_network *network); /* network_check.c: numbers in range */
sw_status air_network_reach(sw_run *run, const sw_air_network *network, struct sw_air_work *work);

/* ---- the study ---- */

sw_status air_check(sw_run *run, const sw_air_input *in, const sw_air_options *opt); /* air_check.c */
sw_status air_make(sw_run *run, const sw_air_input *in, const sw_air_options *opt, sw_air_network *network);
double air_lambda(const sw_air_input *in, double air_kg_s); /* NAN when the fuel is not known */

#endif
