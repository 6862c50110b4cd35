/* limits_parts.h: what the checks of temperatures share. For this folder only. */
#ifndef SW_BURNING_HEAT_LIMITS_PARTS_H
#define SW_BURNING_HEAT_LIMITS_PARTS_H

#include "burning/heat/heat.h"

typedef struct limits_check { /* one kind of finding: "BEFOREpart: 40 UNIT BETWEEN 35 UNIT" */
    const char *check, *before, *between, *source, *remedy, *unit;
    double watch; /* margin below which it is watched */
} limits_check;

/* Value and limit in the check's unit, judged as "at most". NAN limit: unknown. */
sw_status limits_add(sw_run *run, sw_findings *findings, const limits_check *check, const sw_scene_part *part,
                     double value, double limit);

sw_status limits_parts(sw_run *run, const sw_heat_limits_input *in, sw_findings *findings); /* limits.c */
sw_status limits_flue(sw_run *run, const sw_heat_limits_input *in, sw_findings *findings);
sw_status limits_wood(sw_run *run, const sw_heat_limits_input *in, sw_findings *findings); /* limits_wood.c */

typedef struct limits_panel { /* a warm rectangle and wood before it */
    double t_k, emissivity, width_m, height_m, distance_m, room_k;
    bool floor; /* below it instead of beside it */
} limits_panel;
/* Temperature of wood that takes up no heat, at the place opposite the panel's middle, K. */
double limits_wood_k(limits_panel p);

#endif
