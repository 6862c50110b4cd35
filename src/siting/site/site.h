/* site.h: what may stand how near, what goes under the stove, air for the room, alarm, first fire.
 *
 * Rules of a country or code are rows of data with edition and clause, chosen by the house and never mixed; without a code
 * physics alone, which says so. SI, K, lengths mm where the trade writes mm. Method: docs/studies/site.md. */
#ifndef SW_SITING_SITE_SITE_H
#define SW_SITING_SITE_SITE_H

#include "model/model.h"
#include "transfer/transfer.h"

/* ---- physics: site_wall.c, site_room.c; NAN outside the range ------------------------------------------------------- */

typedef struct sw_hot_panel { /* a face of the stove that a wall sees; at least as warm as the room */
    const char *name;
    double width_m, height_m, t_k, emissivity;
} sw_hot_panel;
/* Share of what a point of a wall opposite the panel's middle sees that is panel; 1 where they touch. */
double sw_wall_view(const sw_hot_panel *panel, double distance_m);
/* Hottest point of a wall facing the panel's middle at a distance; resistance of what lies behind (INFINITY = insulated). */
double sw_wall_k(const sw_hot_panel *panel, double distance_m, double room_k, double wall_emissivity,
                 double resistance);
/* distance_m from panel to shield; *shield_k, unless NULL, is the shield. */
double sw_wall_behind_shield_k(const sw_hot_panel *panel, double distance_m, double room_k,
                               double shield_back_emissivity, double *shield_k);
double sw_wall_beside_pipe_k(double pipe_diameter_m, double pipe_k, double emissivity, double axis_m, double room_k);
/* Outside of a connecting pipe with gas inside, its own resistance at the inner surface (0 = bare sheet). */
double sw_pipe_surface_k(double inner_m, double outer_m, double resistance, double gas_k, double room_k);
/* Least distance at which the wall keeps below room + rise_k; 0 when it does everywhere, INFINITY when nowhere within 1 km. */
double sw_wall_distance_m(const sw_hot_panel *panel, double room_k, double wall_emissivity, double resistance,
                          double rise_k);
double sw_shield_distance_m(const sw_hot_panel *panel, double room_k, double shield_back_emissivity,
                            double rise_k); /* panel to shield */
/* Rise over the room on the axis of warm air at a height over its source: plume of Heskestad; width of the source. */
double sw_plume_rise_k(double warm_w, double width_m, double height_m, double room_k);
/* What lies over the stove: the panel faces up, and the air that its `warm_w` warms meets the ceiling as well. */
double sw_ceiling_k(const sw_hot_panel *panel, double distance_m, double room_k, double ceiling_emissivity,
                    double resistance, double warm_w);
double sw_ceiling_distance_m(const sw_hot_panel *panel, double room_k, double ceiling_emissivity, double resistance,
                             double warm_w, double rise_k);
double sw_pipe_distance_m(double pipe_diameter_m, double pipe_k, double emissivity, double room_k,
                          double rise_k); /* from its surface */
double sw_opening_m3_s(double area_m2, double pressure_pa, double density);
double sw_leakage_m3_s(double at_50_pa_m3_s, double pressure_pa);
/* extract: all that fans and stove draw from the room. INFINITY when there is no way in. */
double sw_room_depression_pa(double extract_m3_s, double at_50_pa_m3_s, double vent_m2);
/* Opening to the outside that keeps the room within `pressure_pa` of it; 0 when leaks are enough. */
double sw_room_vent_m2(double extract_m3_s, double at_50_pa_m3_s, double pressure_pa);
double sw_floor_pa(double mass_kg, double area_m2);
/* What the fire's air costs on its way into the room, by its leaks, permanent opening and fans. */
typedef struct sw_site_supply {
    double pa; /* P_B: S_EB times the worse of both below; NAN = not all described, or the air is piped, or no way in */
    double open_pa;  /* inner doors open: the whole house leaks, all fans at full */
    double shut_pa;  /* shut: the stove's room alone leaks, its own share; NAN = its volume is not known */
    double quiet_pa; /* the worse of both without fans, no safety: as the stove burns on */
    double leak_share;
} sw_site_supply;
sw_site_supply sw_site_supply_of(const sw_house *house, double air_kg_s);
/* The floor under the middle of the stove's underside, `gap_m` over the plate: plate and floor conduct to a space as warm as the
 * room. Resistances m2 K/W, INFINITY = insulated. *plate_k, unless NULL: the plate's top. */
double sw_floor_under_k(const sw_hot_panel *underside, double gap_m, double room_k, double plate_resistance,
                        double floor_resistance, double *plate_k);

/* ---- rules: rule_tables.c -------------------------------------------------------------------------------------------- */

typedef struct sw_site_rule {
    const char *code, *edition, *clause, *what; /* what: stable name: "hearth_front_mm", "outlet_above_ridge_mm", ... */
    double value;
    const char *source; /* and how it was obtained */
} sw_site_rule;
size_t sw_site_code_count(void);
const char *sw_site_code_at(size_t i);
const sw_site_rule *sw_site_rule_find(const char *code, const char *what); /* NULL = the code says nothing on it */
size_t sw_site_rule_count(void);
const sw_site_rule *sw_site_rule_at(size_t i);

/* ---- rules that take numbers: rule_sizes.c ---------------------------------------------------------------------------- */

typedef struct sw_site_asked {
    double value;             /* NAN when the code says nothing, or when the house does not tell enough */
    const sw_site_rule *rule; /* the row that decides; NULL = the code says nothing */
    const char *by;           /* "ridge" "roof surface" "window" ...: what it is measured from */
} sw_site_asked;
sw_site_asked sw_site_outlet_m(const char *code, const sw_roof *roof); /* least above_m */
/* Diameter of a round flue or least side of another, mm. exempt: proved clean enough for smoke control areas. */
sw_site_asked sw_site_flue_mm(const char *code, double output_w, bool exempt, bool round);
sw_site_asked sw_site_vent_m2(const char *code, double output_w, double permeability_m_s, bool stabiliser);
/* Least plate under a box width x depth away from walls: mm[0] wide, mm[1] deep; false when the code says nothing. */
bool sw_site_hearth_mm(const char *code, bool usable_open, double width_mm, double depth_mm, double mm[2]);

/* ---- the study ----------------------------------------------------------------------------------------------------------- */

typedef struct sw_site_input {
    const sw_house *house; /* what is NAN in it counts as not known */
    const sw_stove *stove;
    double output_w, mass_kg, leg_count;
    double width_mm, depth_mm, height_mm;                         /* of the stove's box */
    double collar_mm;                                             /* its outlet; 0 = as wide as the first part */
    const sw_hot_panel *back, *left, *right, *front, *pane, *top; /* hottest face of each side; NULL = not computed */
    double warm_air_w;                            /* heat that rises with the room's air over the stove, at most; NAN */
    double pipe_k, pipe_diameter_m;               /* connecting pipe's outside; NAN */
    double floor_k;                               /* underside facing the floor; NAN */
    const sw_hot_panel *underside;                /* the same as a panel; NULL = not computed */
    double under_m;                               /* from it to the hearth plate */
    double stabiliser_kg_s;                       /* room air that goes up the chimney on the coldest day; 0 = none */
    double air_kg_s, draught_pa, flue_k, co2_dry; /* expected at nominal, for the record; NAN */
    double chimney_pa;                            /* what this chimney gives the stove; 0 = not computed */
    double standing_pa;                           /* what it gives cold, before lighting, on a mild day; NAN */
    double room_k;
} sw_site_input;

typedef struct sw_site_need { /* what must be kept, with what there is */
    const char *what, *where;
    double needed_mm, there_mm;
    const char *source;
} sw_site_need;

typedef struct sw_expected { /* one line of the first-fire record */
    const char *name, *unit, *when;
    double expected, low, high;  /* pass band; NAN = free */
    double stop_low, stop_high;  /* beyond these it fails, between here and the band it is watched; NAN = the band's */
    bool yes_no;                 /* expected 1 = yes, 0 = no */
    const char *source, *remedy; /* what to do when it is not so */
} sw_expected;

typedef struct sw_site_result {
    const sw_site_need *needs;
    size_t need_count;
    const sw_expected *expected;
    size_t expected_count;
    double fans_pa, depression_pa; /* room below outside: all fans at full; with the stove's own air as well */
    double vent_needed_m2;         /* the larger of the code's and what keeps the depression within its limit */
    double floor_load_pa, leg_n;
    sw_findings findings;
} sw_site_result;
/* The house with the walls and the lintel of its recess among what is near a stove of that box, mm; in run->keep. The house
 * itself where it has no recess. */
sw_status sw_site_placed(sw_run *run, const sw_house *house, double width_mm, double depth_mm, double height_mm,
                         const sw_house **placed);

/* result in run->keep. SW_BAD_INPUT, SW_OUT_OF_RANGE: every impossible figure named with its place. */
sw_status sw_site_solve(sw_run *run, const sw_site_input *in, const sw_site_result **result);

/* Judges readings (CSV: name, value; further columns are passed over) against what was expected: appends a finding for each
 * expected line, unknown where nothing was read. SW_BAD_INPUT: every wrong line, nearest name; then no finding. */
sw_status sw_site_record(sw_run *run, const sw_site_result *site, const char *file, const char *bytes, size_t length,
                         sw_findings *findings);

#endif
