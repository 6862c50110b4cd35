/* burn_parts.h: what the files of burning/burn share. Nobody else includes it. */
#ifndef SW_BURNING_BURN_BURN_PARTS_H
#define SW_BURNING_BURN_BURN_PARTS_H

#include "burning/burn/burn.h"

struct sw_burn {
    sw_burn_input in;
    sw_burn_options opt;
    sw_heat_model model;
    sw_fuel fuel;
    double humidity; /* kmol water per kmol dry air */
    sw_heat_net *net;
    sw_air_space *spaces; /* [network.space_count] the network's own, to be warmed */
    sw_air_way *ways;
    double *slide_m2; /* [way_count] area with the slide fully open */
    double *own_k;    /* [way_count] of its air where no duct warms it, as the study of air takes it */
    sw_air_network network;
    sw_burn_point last; /* warm start; last.heat.t_k NULL = none */
};

/* burn_air.c */
sw_status burn_air_make(sw_run *run, sw_burn *b);
void burn_air_draught(sw_burn *b, double draught_pa);
void burn_air_slides(sw_burn *b, double primary, double wash, double rear); /* shares open, NAN = unchanged */
/* Air in, kg/s, with the gases at the temperatures of `heat`. */
sw_status burn_air_solve(sw_run *run, sw_burn *b, const sw_heat_state *heat, double room_k, sw_air_solution *air,
                         double *air_kg_s);
/* Of the air that enters, into fire: what the ducts of wash and jets lead, by the shares of the last solution. Gives by how
 * much that is more or less than before, as a share of all the air. */
double burn_air_ducts(const sw_burn *b, const sw_air_solution *air, sw_heat_fire *fire);
double burn_air_through(const sw_burn *b, const sw_air_solution *air, const char *kind); /* kg/s into the firebox */

/* Of that kind; a shell counts where the room sees it, not a shield inside. */
static inline bool burn_is(const sw_scene *scene, size_t part, sw_part_class kind)
{
    return scene->parts[part].kind == kind && (kind != SW_PART_SHELL || sw_scene_shows(scene, part, SW_MEDIUM_ROOM));
}

/* burn_fire.c: what burns with how much air, as heat's network wants it. */
void burn_fire_of(const sw_burn *b, double fuel_kg_s, double air_kg_s, double flue_k, double room_k,
                  sw_burn_point *point);

#endif
