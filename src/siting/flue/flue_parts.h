/* flue_parts.h: what the steps of the flue study share. For this folder only. */
#ifndef SW_SITING_FLUE_FLUE_PARTS_H
#define SW_SITING_FLUE_FLUE_PARTS_H

#include "siting/flue/flue.h"

#define FLUE_GRAVITY 9.81 /* m/s2 as EN 13384-1 takes it (from memory) */
#define FLUE_OURS    "ours"
#define FLUE_HABIT   "common practice, no source"

typedef struct flue_condition {
    const char *name;
    double outside_k, outside_pa, outside_density;
    double s_h, s_e, wind_pa, supply_pa;
    double around_k[SW_AROUNDS];
    bool mild;       /* pressure condition: outdoors counts as indoors where it is at most a quarter of the chimney */
    double scale;    /* of the chimney's lengths; 1 */
    double hold_pa;  /* a stabiliser's, over the room; 0 = none, or shut */
    double air_kg_s; /* room air into the chimney at its foot; set by flue_settle */
} flue_condition;

flue_condition flue_pressure(const sw_house *house, const sw_flue_options *opt);
flue_condition flue_temperature(const sw_house *house, const sw_flue_options *opt);
flue_condition flue_over(const sw_house *house, const sw_flue_options *opt);
flue_condition flue_weather(const sw_house *house, const sw_flue_options *opt, double outside_k, double wind_pa);

/* Fills *c; c->lines [part_count] or NULL on entry. False when a part does not settle or the gas is no warmer than what is
 * round it on entry. No memory. */
bool flue_walk(const sw_flue_input *in, const sw_flue_gas *gas, const sw_flue_appliance *appliance,
               const flue_condition *condition, sw_flue_case *c);
/* As flue_walk, with so much air through a stabiliser that it holds what it is set to: flue_stabiliser.c. */
bool flue_settle(const sw_flue_input *in, const sw_flue_gas *gas, const sw_flue_appliance *appliance,
                 const flue_condition *condition, sw_flue_case *c);
/* What a stabiliser is set to: told, or what gives the stove its need on a mild day; 0 = none. */
double flue_hold_pa(const sw_flue_input *in, const sw_flue_options *opt);
double flue_supply_pa(const sw_flue_input *in, const sw_flue_options *opt);
/* From the gas to an inner wall that stands at wall_k: flue_start.c. */
sw_flue_duct flue_bare_duct(const sw_house *house, const sw_flue_part *part, double wall_k);
/* low: the mild day at lowest output, which leaves the walls as warm as they are; flue_door.c */
sw_flue_open_door flue_door(const sw_flue_input *in, const sw_flue_options *opt, const sw_flue_case *low);
double flue_collar_m2(const sw_flue_input *in);
double flue_narrowest_m2(const sw_house *house);
bool flue_is_narrowed(const sw_flue_input *in); /* somewhere narrower than the stove's outlet */
double flue_chimney_rise_m(const sw_house *house);
double flue_capacity_j_m2_k(const sw_flue_part *part); /* of the inner 30 mm of the wall, by inner surface */
double flue_film(const sw_flue_part *part);            /* outer, W/(m2 K): 8, outdoors 23 */

/* NAN none up to 100 m. */
double flue_least_height_m(const sw_flue_input *in, const sw_flue_gas *gas, const sw_flue_options *opt);
/* Every condition; lines as they are in r (NULL = none). False: one cannot be solved. */
bool flue_solve_cases(const sw_flue_input *in, const sw_flue_options *opt, sw_flue_result *r);
void flue_sum_up(const sw_flue_input *in, sw_flue_result *r);             /* draws, dry, over_draught, reserve */
double flue_over_dew_k(const sw_flue_input *in, const sw_flue_result *r); /* wall at the outlet, the coldest */
sw_flue_appliance flue_lowest_of(const sw_flue_input *in);
bool flue_lowest_declared(const sw_flue_input *in);

sw_status flue_judge(sw_run *run, const sw_flue_input *in, const sw_flue_options *opt, sw_flue_result *r);
sw_status flue_judge_draught(sw_run *run, const sw_flue_input *in, const sw_flue_options *opt, sw_flue_result *r);
sw_status flue_judge_guards(sw_run *run, const sw_flue_input *in, sw_flue_result *r); /* warnings of handbook S1.12 */
sw_status flue_judge_wet(sw_run *run, const sw_flue_input *in, sw_flue_result *r);
sw_status flue_judge_class(sw_run *run, const sw_flue_input *in, sw_flue_result *r); /* with needed and offered */
sw_status flue_judge_survey(sw_run *run, const sw_flue_input *in, sw_flue_result *r);
bool flue_is_wet(const sw_house *house); /* every chimney part's designation says W */
sw_finding flue_finding(const sw_flue_input *in, const char *check, const char *where);

#endif
