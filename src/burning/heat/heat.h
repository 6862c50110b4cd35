/* heat.h: how hot everything gets: a network of the stove's parts, and a surface map of the same parts.
 *
 * The scene is made from the placed pieces and items by their roles and by rays: which surface of which part faces the
 * fire, the gas above the baffle, the convection gap or the room, and how much of its radiation meets which other
 * surface. Network and map stand on the same scene. SI; temperatures K; lengths of the scene m, stove frame. Heat
 * flows W, positive into what is named. Method: docs/studies/heat.md. */
#ifndef SW_BURNING_HEAT_HEAT_H
#define SW_BURNING_HEAT_HEAT_H

#include "making/sheet/sheet.h"
#include "transfer/transfer.h"

/* ---- scene.c: parts and surfaces ------------------------------------------------------------------------------- */

typedef enum sw_medium { SW_MEDIUM_FIRE, SW_MEDIUM_UPPER, SW_MEDIUM_GAP, SW_MEDIUM_ROOM, SW_MEDIA } sw_medium;

typedef enum sw_part_class {               /* of roles: scene_roles.c lists which word is which */
                             SW_PART_WALL, /* firebox wall, floor, roof, front, collar: sheet that holds the fire gas */
                             SW_PART_LINING, /* boards and bricks */
                             SW_PART_BAFFLE,
                             SW_PART_GRATE,
                             SW_PART_PANE,
                             SW_PART_DOOR,
                             SW_PART_SHELL, /* shell, top, shields, plinth */
                             SW_PART_BASE,
                             SW_PART_HANDLE,
                             SW_PART_AIRWAY, /* air boxes, ducts, ash box */
                             SW_PART_SMALL /* brackets, guides, fasteners, rope: mass only, given to the part it touches or its group's heaviest */
} sw_part_class;

typedef enum sw_duct {
    SW_DUCT_NONE,
    SW_DUCT_WASH,
    SW_DUCT_JETS,
    SW_DUCT_PRIMARY, /* past the ash box and pan, up through the grate */
    SW_DUCTS
} sw_duct;                            /* what air a duct leads to the fire */
sw_duct sw_duct_of(const char *kind); /* of an opening */

typedef struct sw_scene_part {
    const char *name; /* "left side", "side board 2" */
    int piece, item;  /* index in the stove or -1 */
    size_t placement;
    sw_part_class kind;
    const sw_material *material;
    double thickness_m, mass_kg; /* mass: with the small parts given to it */
    double area_m2;              /* one face of it */
    bool layered;                /* thick and insulating: a temperature on each side */
    sw_place place;
    sw_duct duct; /* of an air way: leads to that opening; scene_ducts.c */
} sw_scene_part;

typedef struct sw_scene_surface { /* what one part shows to one medium */
    size_t part;
    sw_medium medium;
    bool hot_side; /* of a layered part: the side towards the fire */
    double area_m2, emissivity;
    double height_m;       /* vertical extent, for convection */
    double side, up, down; /* shares of its area that face sideways, up, down */
    double middle_z_m;
} sw_scene_surface;

typedef struct sw_scene_contact { /* solid to solid, or over a thin still gap */
    size_t a, b;                  /* parts */
    double area_m2, gap_m;        /* gap 0: pressed or welded */
    double edge_m;                /* > 0: along a joint of that length instead of an area */
    bool between;                 /* over a small part that touches both: */
    double between_k_w;           /* what the way through it resists besides, K/W */
} sw_scene_contact;

typedef struct sw_scene {
    const sw_scene_part *parts;
    size_t part_count;
    const sw_scene_surface *surfaces;
    size_t surface_count;
    const double *view_m2; /* [(surface_count+1)^2] A_i F_ij, symmetric; the last is the room around */
    const sw_scene_contact *contacts;
    size_t contact_count;
    /* [contact_count^2] K/W, symmetric: by how much the sheet at one contact falls below its own mean for each watt that
     * leaves it at the other, sign turned where one contact has the sheet as `a` and the other as `b`; summed over the
     * sheets that both lie on. NULL: not known */
    const double *way_k_w;
    /* [contact_count][2][SW_MEDIA] K/W: by how much the sheet of a, of b, at the contact rises over its own mean for each watt
     * that enters it through what it shows to a medium */
    const double *rise_k_w;
    double firebox_m3, firebox_m2, base_m2; /* space below the baffle: volume, enclosing area, bed area */
    double upper_m3, upper_m2;
    double throat_m2, throat_height_m, collar_m2, collar_height_m, bed_height_m; /* heights over the floor */
    double gap_height_m, gap_width_m, gap_m2; /* convection gap: height, mean clear width, free section */
    double gap_in_m2, gap_out_m2;             /* its openings to the room; NAN = as wide as the section */
    uint64_t rays;
    double closure;       /* largest |sum of a row of view_m2 / area - 1| after balancing */
    sw_findings findings; /* parts without role, without emissivity, a piece nothing holds, a pane that faces nothing */
} sw_scene;

typedef struct sw_scene_options {
    double rays_per_part, layered_above_m, contact_below_m;
    uint64_t seed;
    uint32_t made_by_defaults;
} sw_scene_options;
sw_scene_options sw_scene_options_defaults(void);
const sw_option *sw_scene_option_table(size_t *count);
/* scene in run->keep. SW_BAD_INPUT when the stove has no firebox (says which roles make one). */
sw_status sw_scene_make(sw_run *run, const sw_stove *stove, const sw_sheet_result *sheet, const sw_scene_options *opt,
                        const sw_scene **scene);

bool sw_scene_shows(const sw_scene *scene, size_t part, sw_medium medium);      /* whether it has a surface there */
double sw_scene_shown_m2(const sw_scene *scene, size_t part, sw_medium medium); /* of all its surfaces there, m2 */

/* ---- network ---------------------------------------------------------------------------------------------------------- */

typedef struct sw_heat_model { /* named, bounded constants that a hot test may correct: sw_heat_model_defaults() */
    double contact_r;          /* m2 K/W between a board and its sheet */
    double inside_h_factor;    /* on convection inside firebox and upper space */
    double outside_h_factor;   /* on free convection of shell and glass */
    double gap_loss;           /* sum of loss coefficients of the convection gap */
    double soot_k_1_m;         /* of the flame */
    double lining_k_factor;    /* on the lining's conductivity */
    double flame_share;        /* of the heat set free below the baffle */
    double
        passing_share; /* gas below the baffle: 0 stirred, leaves at its mean; 1 passes along, each part cools by itself */
    double bed_share;       /* of that: set free in the bed of embers, which radiates and covers grate and floor */
    double duct_h_factor;   /* on the films in the ducts of wash and jets; 0: they warm no air and stand in the gap's */
    double ember_gas_share; /* of the least gas that burning char makes: leaves the embers as warm as they are */
} sw_heat_model;
sw_heat_model sw_heat_model_defaults(void);
const sw_option *sw_heat_model_table(size_t *count);

typedef struct sw_heat_fire {  /* what the fire gives at one moment */
    double heat_w;             /* set free, LHV basis, losses by CO and residue already off */
    double air_kg_s, gas_kg_s; /* in through the openings, out through the collar */
    double air_k;              /* of the room's air where it enters */
    double water_kg_s;         /* evaporating besides (moisture): gas composition comes with `gas` */
    double duct_kg_s
        [SW_DUCTS]; /* of that air: through the ducts of the wash, of the jets, of primary air; 0 = not known, warms nothing */
    sw_mixture gas; /* wet flue gas, kmol per kg of gas: gas_kg_s times it is what flows */
    double p_h2o_bar, p_co2_bar;
} sw_heat_fire;

typedef struct sw_heat_room {
    double air_k, walls_k; /* of the room; walls seen by radiation */
} sw_heat_room;

/* Nodes: the parts' temperatures (two for a layered part), then gas below the baffle, gas above it, gap air at its outlet, and
 * the bed of embers, all four without capacity. The nodes of both gases are the means that radiate and wash; each leaves colder. */
typedef struct sw_heat_net sw_heat_net;
sw_status sw_heat_net_make(sw_run *run, const sw_scene *scene, const sw_heat_model *model, sw_heat_net **net);
size_t sw_heat_net_nodes(const sw_heat_net *net);
size_t sw_heat_net_node(const sw_heat_net *net, size_t part, bool hot_side); /* index of a part's node */
enum { SW_GAS_FIREBOX, SW_GAS_UPPER, SW_GAS_GAP, SW_GAS_BED, SW_GAS_NODES }; /* after the parts' nodes */
size_t sw_heat_net_gas(const sw_heat_net *net, int gas);

typedef struct sw_heat_state {
    double *t_k;   /* [nodes] */
    double flue_k; /* at the collar */
    double entering_k,
        leaving_k; /* gas below the baffle: before it gives any heat off, and where it leaves; its mean is the node's */
    double gap_kg_s, gap_out_k;
    double preheat_w,
        duct_k[SW_DUCTS]; /* air: from the walls of its ducts back to the fire; where it leaves them, 0 = no duct */
    double transmitted_w; /* through the pane straight into the room */
    double glass_w, shell_w, gap_w, below_w; /* to the room by pane surfaces, other surfaces, gap air; into the floor */
    double useful_w, flue_w, stored_w;       /* flue: above room air; stored: rate of heat going into the parts */
    double residual_w;                       /* of the whole balance: heat_w - useful - flue - stored */
    double residual_worst_w;                 /* of the worst node */
    int rounds;
} sw_heat_state;
/* Steady: Newton from state->t_k when not NULL (memory taken once in run->keep). SW_NO_SOLUTION tells the residual. */
sw_status sw_heat_net_steady(sw_run *run, sw_heat_net *net, const sw_heat_fire *fire, const sw_heat_room *room,
                             sw_heat_state *state);
/* Heat into each node, W, at the given temperatures (gas nodes settled first); sets the state's flows. For transients:
 * dT/dt = flux / (m c). capacity [nodes] J/K at t_k; 0 for gas nodes. */
sw_status sw_heat_net_flux(sw_run *run, sw_heat_net *net, const sw_heat_fire *fire, const sw_heat_room *room,
                           sw_heat_state *state, double *flux_w);
void sw_heat_net_capacity(const sw_heat_net *net, const double *t_k, double *capacity);
/* How the last sw_heat_net_flux's answer changes with the parts' temperatures, the gases settled again: slope W/K, row i of
 * `solids` is node i's flux, solids = nodes - SW_GAS_NODES. As exact as Newton's own derivatives: to steer an implicit step. */
void sw_heat_net_flux_slope(sw_heat_net *net, double *slope);

/* ---- surface map -------------------------------------------------------------------------------------------------------- */

typedef struct sw_heat_map_options {
    double triangles, rays_per_triangle;
    uint64_t seed;
    int threads;
    uint32_t made_by_defaults;
} sw_heat_map_options;
sw_heat_map_options sw_heat_map_options_defaults(void);
const sw_option *sw_heat_map_option_table(size_t *count);

typedef struct sw_heat_map_part {
    size_t part;
    sw_mesh mesh;         /* mid-surface triangles, stove frame, mm */
    const sw_point *flat; /* [mesh.point_count] the same points in the piece's flat, or in the item's plane, mm */
    bool hot_above;       /* of a layered part: the hot side is the one that the triangles' normals point out of */
    const double *t_k;    /* [mesh.point_count] of the sheet, or the cold side of a board */
    const double *hot_k;  /* [mesh.point_count] hot side of a layered part; NULL else */
    double mean_k, most_k;
    sw_vec3 hottest; /* mm */
} sw_heat_map_part;

typedef struct sw_heat_map {
    const sw_heat_map_part *parts; /* [scene->part_count]; small parts have no mesh */
    size_t part_count, triangles;
    double useful_w, flue_w, preheat_w, residual_w, flue_k, firebox_k, leaving_k, upper_k, gap_out_k;
    double hot_balance; /* |residual| / heat */
    int rounds;
} sw_heat_map;
/* Shells with through-thickness layers, ray-cast exchange, sparse Newton. start: the network's steady state for the same
 * fire and room. SW_NO_SOLUTION tells the residual. */
sw_status sw_heat_map_solve(sw_run *run, const sw_stove *stove, const sw_sheet_result *sheet, const sw_scene *scene,
                            const sw_heat_model *model, const sw_heat_fire *fire, const sw_heat_room *room,
                            const sw_heat_map_options *opt, const sw_heat_map **map);

/* ---- findings over any set of temperatures ---------------------------------------------------------------------------------- */

typedef struct sw_heat_limits_input {
    const sw_stove *stove;
    const sw_scene *scene;
    const double *hot_k, *cold_k; /* [part_count] hottest and coolest side */
    const double *most_k; /* [part_count] highest of a whole burn; NULL = none was followed, peaks are not judged */
    double flue_k, dew_point_k, room_k;
    double flame_k;                          /* gas below the baffle before it gives any heat off; 0 = not asked */
    double back_distance_m, side_distance_m; /* combustible wall behind, beside; NAN = not asked */
} sw_heat_limits_input;
/* Handles, coating, scaling of steel, lining, pane, rope, these five also at the peaks of a burn, flue too cold or too hot, flame too cold, wall and floor of wood. */
sw_status sw_heat_limits(sw_run *run, const sw_heat_limits_input *in, sw_findings *findings);

#endif
