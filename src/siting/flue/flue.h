/* flue.h: will this chimney draw with this stove, and stay dry.
 *
 * The steady calculation for one appliance under natural draught by EN 13384-1, every intermediate kept; what goes beyond it
 * (cold start, heating up, sizing, over-draught with a stabiliser) beside it. SI, K; pressures Pa, positive draught. Method:
 * docs/studies/flue.md. */
#ifndef SW_SITING_FLUE_FLUE_H
#define SW_SITING_FLUE_FLUE_H

#include "model/model.h"
#include "transfer/transfer.h"

#define SW_FLUE_MOST_M 100.0 /* longest chimney taken */

/* ---- appliance and gas: flue_gas.c ---------------------------------------------------------------------------- */

typedef struct sw_flue_wood {   /* mass shares as fired */
    double c, h, o, water, lhv; /* lhv J/kg */
} sw_flue_wood;
sw_flue_wood sw_flue_wood_reference(void); /* of the worked examples: C 0.42, H 0.0504, O 0.3654, W 0.16 */

typedef struct sw_flue_appliance {      /* what the stove asks and gives at one output */
    double kg_s, t_k, need_pa, most_pa; /* most: largest draught allowed; NAN = not stated */
    double co2_dry;                     /* share */
    bool declared;                      /* from a type test; else computed from the stove's own model */
} sw_flue_appliance;
/* Lowest output where none is declared: a third of the mass flow, two thirds of the temperature in degC (cl. 5.5). Its need
 * goes with the flow squared, as through the same openings (ours). */
sw_flue_appliance sw_flue_lowest(const sw_flue_appliance *nominal);
/* The house's declared values; false when flow, temperature, draught or CO2 is not given. */
bool sw_flue_declared(const sw_house *house, sw_flue_appliance *nominal);

typedef struct sw_flue_gas {
    double co2_dry, h2o_wet; /* shares; water with the 1.1 % of the combustion air's humidity */
    double gas_constant;     /* J/(kg K) */
    double kg_per_kg, air_kg_per_kg, lambda, co2_max;
    sw_mixture wet; /* kmol per kg of fuel */
    double wet_kg;  /* its mass, with the argon of the air in N2 */
} sw_flue_gas;
sw_flue_gas sw_flue_gas_of(const sw_flue_wood *wood, double co2_dry);
/* The same gas with `air` kg of room air to each kg of it: more excess air, no more. */
sw_flue_gas sw_flue_gas_thinned(const sw_flue_wood *wood, const sw_flue_gas *gas, double air);
/* Its temperature: what the gas gives the air takes. */
double sw_flue_mixed_k(const sw_flue_gas *gas, const sw_flue_gas *thinned, double air, double gas_k, double air_k);
double sw_flue_cp(const sw_flue_gas *gas, double t_k); /* J/(kg K) */
double sw_flue_conductivity(double t_k);               /* 0.0223 + 0.000065 t */
double sw_flue_viscosity(double t_k);
double sw_flue_air_pressure_pa(double altitude_m, double t_k); /* 97 000 exp(-g z/(R T)) */
double sw_flue_air_density(double pressure_pa, double t_k);    /* R = 288 */
double sw_flue_dew_point_k(double h2o_wet, double pressure_pa);
/* ---- walls: flue_wall.c --------------------------------------------------------------------------------------- */

typedef struct sw_flue_material {
    const char *name;                       /* as layers are written: "mineral wool", "brick" */
    double conductivity, density, capacity; /* W/(m K), kg/m3, J/(kg K) */
    bool masonry;                           /* stands square round a round flue */
    const char *source;
} sw_flue_material;
const sw_flue_material *sw_flue_material_find(const char *name); /* NULL = unknown */
const sw_flue_material *sw_flue_material_at(size_t i);
size_t sw_flue_material_count(void);
double sw_flue_layer_conductivity(const sw_flue_layer *layer); /* told or of its material; 0 an air gap, NAN unknown */
double sw_flue_layer_resistance(double y, double inner_d_m, double conductivity, double from_d_m, double to_d_m);
double sw_flue_resistance(const sw_flue_part *part); /* of its layers or declared, m2 K/W; NAN unknown material */
double sw_flue_outer_m(const sw_flue_part *part);    /* outer hydraulic diameter */
double sw_flue_hydraulic_m(const sw_flue_part *part);
double sw_flue_area_m2(const sw_flue_part *part);
/* Hottest gas at which wood that touches a masonry stack stays at 85 degC: FS-7. NAN outside the range. */
double sw_flue_wood_limit_k(double inner_d_m, double outer_d_m, double resistance);

/* ---- laws: flue_laws.c ------------------------------------------------------------------------------------------ */

double sw_flue_colebrook(double re, double roughness_by_d); /* Darcy; Re below 2300 counts as 2300 */
double sw_flue_nusselt(double re, double pr, double psi, double psi_smooth, double d_by_length);
double sw_flue_draught_pa(double height_m, double outside, double inside); /* densities */
double sw_flue_zeta_widening(double area_1_m2, double area_2_m2);          /* on the small pipe's velocity */
/* Of a shaft that stands at one temperature, as air: H g p/R (1/T_out - 1/T_shaft). */
double sw_flue_standing_pa(double height_m, double outside_k, double shaft_k, double pressure_pa);
double sw_flue_wall_k(double gas_k, double around_k, double inner_h,
                      double k); /* inner surface: T - k/alpha_i (T - T_u) */

/* ---- one condition: flue_cool.c, flue_case.c ------------------------------------------------------------------- */

typedef struct sw_flue_duct { /* a stretch of one section and wall with one temperature round it */
    double hydraulic_m, area_m2, perimeter_m, outer_m, length_m, whole_m; /* whole: of the duct it is a part of */
    double roughness_m, resistance, outer_h, around_k, s_h;
} sw_flue_duct;

typedef struct sw_flue_line { /* one part under one condition: every intermediate of the sheet */
    const sw_flue_part *part;
    double entry_k, mean_k, exit_k, around_k;
    double cp, conductivity, viscosity, density, velocity_m_s, re, pr, psi, psi_smooth, nu, inner_h, outer_h,
        resistance, k, K;
    double draught_pa, friction_pa,
        wall_k;          /* own H g (rho_L - rho_m); (psi L/D + zeta) rho w2/2; inner wall at its end at equilibrium */
    double wall_entry_k; /* the same at its beginning */
    /* How far the gas lies below the air outside, Pa, with the safety factors of the case: before the change of speed at its
     * beginning; by how much that change deepens it, S_EG of P_G; at its end, which is where the next one begins. */
    double entry_pa, step_pa, exit_pa;
} sw_flue_line;

/* Gas of the mass flow kg_s > 0 that enters at entry_k; part, draught_pa, friction_pa stay 0. mean_k and exit_k NAN when the
 * rounds do not settle. No flow: the gas is as warm as what is round it. */
sw_flue_line sw_flue_cool(const sw_flue_duct *duct, const sw_flue_gas *gas, double kg_s, double entry_k,
                          double pressure_pa);

/* Parts one behind the other that are alike in section, wall and surroundings are reckoned as one, so that cutting a part in
 * two changes nothing. Draught and resistance: of the mean temperature of each stretch of one section. */
typedef struct sw_flue_case {
    const char *name; /* "pressure" "temperature" "over-draught" */
    double outside_k, outside_pa, outside_density, s_h, s_e, wind_pa;
    sw_flue_line *lines; /* [part_count of the house] */
    size_t line_count;
    double P_H, P_E, P_G, P_R, P_Z, P_HV, P_EV, P_GV, P_RV, P_FV, P_B, P_W, P_Ze;
    double outlet_k, outlet_wall_k, dew_point_k; /* T_ob; T_iob; T_p */
    double vapour_pa;                            /* p_D, of the water in what goes up the chimney */
    double gas_kg_s, gas_k;                      /* from the stove */
    double air_kg_s, mixed_k, co2_dry;           /* through a stabiliser, and what goes up the chimney */
    double velocity_m_s;                         /* least in the chimney */
} sw_flue_case;

/* ---- the study: flue.c ------------------------------------------------------------------------------------------- */

typedef struct sw_flue_options {
    double supply_pa; /* P_B where no opening is calculated: 4 */
    double room_c;
    double s_e, s_h_pressure;
    uint32_t made_by_defaults;
} sw_flue_options;
sw_flue_options sw_flue_options_defaults(void);
const sw_option *sw_flue_option_table(size_t *count);

typedef struct sw_flue_course { /* gas at the stove's outlet from lighting on; [count], times rising from 0 */
    const double *time_s, *kg_s, *t_k;
    size_t count;
} sw_flue_course;

typedef struct sw_flue_input {
    const sw_house *house;
    sw_flue_appliance nominal, lowest; /* lowest.kg_s 0 = by sw_flue_lowest */
    sw_flue_wood wood;
    double collar_mm;     /* the stove's outlet; 0 = as wide as the first part */
    bool supply_computed; /* P_B is supply_pa, from the room's leaks, openings and fans; else of the options */
    double supply_pa;     /* and 0 when not computed */
    double door_width_mm, door_height_mm; /* of the fire door's opening; 0 = not known */
    double room_pa;                       /* the room below outside as the stove burns on: for pulls */
    double throat_m2;                     /* narrowest way inside the stove; 0, NAN = as wide as the outlet */
    double
        hold_pa; /* what the stabiliser holds, where sw_flue_solve has found it: stabiliser_pa; 0 = find it each time */
    const sw_flue_course *lighting; /* for sw_flue_start_up; NULL = nominal from the start */
} sw_flue_input;

/* The fire door wide open on embers (lowest output) on a mild day: room air goes in until what the cooled gas lifts is used up by
 * door, stove and flue: flue_door.c. */
typedef struct sw_flue_open_door {
    double air_kg_s, velocity_m_s; /* of the air through the whole opening; NAN = door not known, or it does not draw */
    double mixed_k;                /* in the stove's outlet */
    double wanted_m_s;             /* that keeps smoke in */
    double lift_pa, loss_pa;       /* with that velocity: what the flue gives, and what door and stove take */
} sw_flue_open_door;
double sw_flue_door_loss_pa(double kg_s, double area_m2, double density); /* sharp opening, C_d 0.6 */

typedef struct sw_flue_result {
    sw_flue_gas gas, low_gas;                                                /* at nominal, at lowest output */
    sw_flue_case pressure, temperature, over, pressure_low, temperature_low; /* _low: at the lowest output */
    bool solved;                   /* every condition settled; else the findings say why and the rest is NAN */
    bool draws, dry, over_draught; /* at nominal and, where it is declared, lowest output; over: true = too strong */
    double reserve_pa;             /* P_Z - P_Ze, the lesser */
    double least_height_m;         /* of the chimney with everything else equal; NAN none up to 100 m */
    double wind_pa;                /* P_L that counts */
    double stabiliser_pa;          /* what a stabiliser holds where it stands, over the room; NAN = none */
    sw_flue_open_door door;        /* refuelling */
    double first_wet_m;            /* along the chimney, where its wall first is below the dew point; NAN nowhere */
    const char *needed, *offered;  /* designations, EN 1443 form */
    sw_findings findings;
} sw_flue_result;

/* result in run->keep. SW_BAD_INPUT: no chimney, a part's data missing or impossible (each named with its place);
 * SW_OUT_OF_RANGE. A chimney that cannot be solved is a finding that fails, with its reason. */
sw_status sw_flue_solve(sw_run *run, const sw_flue_input *in, const sw_flue_options *opt,
                        const sw_flue_result **result);
/* Lines of the calculation sheet, in its order; in run->keep. */
typedef struct sw_flue_step {
    const char *symbol, *formula, *unit, *source;
    const char *where; /* "gas", "pressure condition, connecting pipe", ... */
    double value;
} sw_flue_step;
sw_status sw_flue_explain(sw_run *run, const sw_flue_result *r, const sw_flue_step **steps,
                          size_t *count); /* flue_sheet.c */

/* Wind pressure at the outlet, Pa: 0 in the free stream, 25 inland, 40 at the coast in an adverse zone. */
double sw_flue_wind_pa(sw_wind_site site);
/* The same of a wind of that speed: its stagnation pressure in an adverse zone, none in the free stream, whose suction is not
 * counted on. */
double sw_flue_gust_pa(sw_wind_site site, double wind_m_s, double density);
/* What a stabiliser's disc lets through when it is wide open, kg/s. */
double sw_flue_stabiliser_kg_s(double diameter_m, double pa, double density);
bool sw_flue_adverse(const sw_roof *roof); /* by the roof's geometry */

/* P_Z - P_Ze at nominal for coupling: the steady pressure and temperatures of the real chimney (S_E = S_H = 1) at any outside
 * temperature, wind and gas flow; no memory. kg_s 0: the standing draught at the temperatures round the parts; below 0 the same
 * with the resistance the other way (ours). The
 * house must have passed sw_flue_check. gas: NULL = of in->wood and now.co2_dry. */
typedef struct sw_flue_now {
    double outside_k, wind_pa, kg_s, t_k, co2_dry;
} sw_flue_now;
typedef struct sw_flue_pull {
    double draught_pa; /* at the stove's collar: what the chimney gives, less the pipe and its own resistance */
    double outlet_k, wall_k, velocity_m_s;
    double air_kg_s, dew_point_k; /* through a stabiliser; of what goes up the chimney */
} sw_flue_pull;
sw_status sw_flue_check(sw_run *run, const sw_flue_input *in,
                        const sw_flue_options *opt);               /* every fault, with its place */
sw_status sw_flue_check_house(sw_run *run, const sw_house *house); /* those of the house alone */
sw_flue_pull sw_flue_pull_of(const sw_flue_input *in, const sw_flue_gas *gas, const sw_flue_options *opt,
                             sw_flue_now now);
/* The same, every part told: *along in run->keep, its lines upwards. now.kg_s > 0. SW_NO_SOLUTION: a part does not settle. */
sw_status sw_flue_along(sw_run *run, const sw_flue_input *in, const sw_flue_options *opt, sw_flue_now now,
                        const sw_flue_case **along);

/* Sizing: every diameter and liner tried, smallest that holds first. */
typedef struct sw_flue_try {
    double diameter_mm, height_m;
    double least_m;   /* height at which it just draws enough, everything else equal; NAN none up to 100 m */
    const char *what; /* "bare shaft", "liner 150 in 25 mm wrap", ... */
    double reserve_pa, wall_over_dew_k, over_pa; /* over: largest draught less what is allowed; NAN not stated */
    bool holds;
} sw_flue_try;
sw_status sw_flue_size(sw_run *run, const sw_flue_input *in, const sw_flue_options *opt, const sw_flue_try **tries,
                       size_t *count);

/* Heating up after lighting: the flue's wall as one capacity a part, gas as in->lighting. */
typedef struct sw_flue_start {
    double standing_pa;   /* cold, before lighting */
    double draws_after_s; /* until the draught reaches the stove's need; INFINITY = never in two hours */
    const double *time_s, *draught_pa;
    size_t count;
} sw_flue_start;
sw_status sw_flue_start_up(sw_run *run, const sw_flue_input *in, const sw_flue_options *opt, double outside_k,
                           double shaft_k, sw_flue_start *start);

/* Chimney designation: reads "EN 1856-1 T450 N1 D V3 L50060 G50" or the part of it from T on. */
typedef struct sw_chimney_class {
    int temperature_c; /* 80 .. 600 */
    char pressure;     /* 'N' 'P' 'M' 'H' */
    int tightness;     /* 1 2 */
    bool wet, soot_fire;
    int corrosion; /* 1..3; 0 = Vm declared */
    double distance_mm;
} sw_chimney_class;
bool sw_chimney_class_read(const char *text, sw_chimney_class *out);
/* Temperature, pressure, condensate, corrosion, soot fire and distance each at least as good. NAN distance of the needed or on
 * site: nothing near. */
bool sw_chimney_class_suits(const sw_chimney_class *offered, const sw_chimney_class *needed, double on_site_mm);

#endif
