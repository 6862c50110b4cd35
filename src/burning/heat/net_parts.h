/* net_parts.h: what the steps of the heat network share. For this folder only.
 *
 * Unknowns are temperatures: the parts' nodes, then the three gases and the bed. The room is one source more, so that every array over
 * nodes has one entry beyond the unknowns. R is the heat into each node, W; J its derivative, row by row. */
#ifndef SW_BURNING_HEAT_NET_PARTS_H
#define SW_BURNING_HEAT_NET_PARTS_H

#include "burning/heat/heat.h"
#include "burning/heat/joint_parts.h"

enum { NET_KNOTS = 13, NET_PANE_ROWS = 281, NET_GAP_STEPS = 12, NET_AIR_ROWS = 651 };

typedef struct net_enclosure { /* grey diffuse bodies that see each other, with or without a grey gas between them */
    size_t bodies;
    size_t *source; /* [bodies] index of its temperature: a node, or the room */
    size_t gas;     /* the gas's body; == bodies when there is none */
    size_t room;    /* the room's body; == bodies when it is not seen */
    size_t knots;
    double *table; /* [knots][bodies * bodies] total exchange areas, m2, symmetric, over the gas's emissivity */
    double *G;     /* [bodies * bodies] at the gas's present emissivity */
} net_enclosure;

typedef struct net_film { /* what a surface shows to the gas or air that washes it */
    size_t node;
    double area_m2, height_m, across_m; /* across: area / circumference, for faces up and down */
    double side, up, down;
    double floor_m;    /* > 0: still air over the floor, so thick */
    double duct_share; /* of the whole surface: in a duct, and not in area_m2 */
    size_t duct_wall;  /* then: its place among net->duct_walls */
} net_film;

typedef struct net_duct_wall { /* a face that the air of a duct touches */
    sw_duct duct;
    const net_film *film; /* of the gap */
    double area_m2;
} net_duct_wall;
typedef struct net_duct_faces {
    double *t_k, *area_m2, *h; /* [duct_wall_count] each; h is what comes out */
} net_duct_faces;
typedef struct net_duct_air {
    double wall_k, mean_k, out_k, w_k, heat_w, mean_share; /* mean_share: (1 - e^-N)/N */
} net_duct_air;

typedef struct net_films {
    net_film *items;
    size_t count;
} net_films;

typedef enum net_link_kind { NET_LINK_FIXED, NET_LINK_AIR, NET_LINK_LAYER } net_link_kind;
typedef struct net_link {
    net_link_kind kind;
    size_t a, b;       /* nodes */
    double g;          /* W/K when fixed; area/thickness, m, of a layer or an air gap */
    double radiant_m2; /* of an air gap: area / (1/e1 + 1/e2 - 1) */
    double less_w_k;   /* of an air gap: already in net->spread */
    const sw_material *material;
    size_t contact; /* that it comes from, or NET_NO_CONTACT */
    double share;   /* of that contact */
} net_link;
#define NET_NO_CONTACT SIZE_MAX

typedef struct net_pane {
    size_t node;
    size_t inside, outside; /* its body among the fire's and the outer enclosure; == bodies when it has none there */
} net_pane;

typedef struct net_bed {   /* of embers: lies on the grate and the floor below the baffle */
    double area_m2, cover; /* cover: of each surface it lies on; 0 = no bed */
    const bool *lies_on;   /* [surface_count] */
    net_link *links;       /* to what it lies on */
    size_t link_count;
    net_film film;
} net_bed;

typedef struct net_gap_flow {                    /* of the convection gap at one mean wall temperature */
    double kg_s, h, out_k, mean_k, mean_by_wall; /* mean_by_wall: d mean_k / d wall_k at that flow */
} net_gap_flow;

typedef struct net_flows { /* into the room and the flue, W */
    double glass, shell, gap, below, transmitted, flue, flue_k, leaving_k, entering_k;
    double preheat_w, duct_k[SW_DUCTS];
    net_gap_flow gap_flow;
} net_flows;

struct sw_heat_net {
    const sw_scene *scene;
    sw_heat_model model;
    size_t parts, solids, nodes; /* solids: the parts' nodes; nodes: with the gases; the room's index */
    size_t *cold, *hot;          /* [parts] the same where the part is not layered */
    size_t *part_of;             /* [solids] */
    bool *glass;                 /* [nodes + 1] of a pane */
    double *floor_share;         /* [solids] of what it shows to the room: close over the floor and facing it */
    net_enclosure fire, upper, outer;
    net_films films[SW_MEDIA];
    sw_film_air *film_air; /* [NET_AIR_ROWS] from 200 K by 2 K */
    net_bed bed;
    double gap_area_m2;
    double *gap_share,
        gap_step_m2[NET_GAP_STEPS]; /* [films of the gap][steps] of each film, by height; areas of steps */
    net_duct_wall *duct_walls;
    size_t duct_wall_count;
    net_duct_faces duct_faces; /* at work */
    double *by_duct;           /* [nodes + 1] W/K: what the fire gets from ducts for a change of each node */
    net_link *links;
    size_t link_count;
    double *
        spread; /* [solids][solids + 2] W/K: heat out of node i is sum of spread_ij (T_j - room), the last two the gases
                       below and above; columns sum to 0; NULL = none */
    net_pane *panes;
    size_t pane_count;
    double pane_e; /* in the enclosures: what a pane takes from the radiation that meets it */
    double pane_absorbs[NET_PANE_ROWS], pane_passes[NET_PANE_ROWS]; /* of a black source, over pane_e */
    /* at work: one moment */
    sw_heat_fire now;
    sw_heat_room room;
    double flame_share, below_w_k, above_w_k; /* conductances of the gases to their walls, last seen */
    double *x, *E, *dE, *Ea, *dEa, *Et, *dEt; /* [nodes + 1]; Ea, Et: to be absorbed by a pane, to pass it */
    double *R, *J, *lu, *step, *try_x;        /* [nodes + 1], J and lu squared */
    size_t *pivot;
    double gap_kg_s; /* last, to start from */
    net_flows flows;
};

/* net_check.c: everything that cannot be, each told. */
sw_status net_check_scene(sw_run *run, const sw_scene *scene);
sw_status net_check_moment(sw_run *run, const sw_heat_fire *fire, const sw_heat_room *room);

/* net_bed.c */
sw_status net_bed_make(sw_run *run, sw_heat_net *net);
void net_bed_balance(sw_heat_net *net, bool with_jacobian);

/* net_exchange.c */
sw_status net_exchange_make(sw_run *run, sw_heat_net *net);
void net_exchange_at(net_enclosure *e, double gas_emissivity); /* sets G */

/* net_links.c */
sw_status net_links_make(sw_run *run, sw_heat_net *net);
double net_link_w_k(const sw_heat_net *net, const net_link *link, double a_k, double b_k);
net_link net_touch(const sw_heat_net *net, const sw_scene_contact *c); /* of faces; a and b unset */
double net_bead_w_m_k(const sw_scene_part *a, const sw_scene_part *b); /* of a seam: W/K for each metre */

/* net_ways.c: takes the links out of net->links whose ways in the sheets matter, and makes net->spread of them */
sw_status net_ways_make(sw_run *run, sw_heat_net *net);
double net_side_h(sw_medium medium); /* W/(m2 K): what a sheet there takes up or loses, about */

/* net_film.c: W/(m2 K) of still or driven gas; *steer: 1 + d ln h / d ln dT, good enough for Newton's step */
sw_status net_films_make(sw_run *run, sw_heat_net *net);
sw_status net_film_air_make(sw_run *run, sw_heat_net *net);
double net_film_free(const sw_heat_net *net, const net_film *film, double surface_k, double gas_k);
double net_film_driven(const sw_heat_net *net, sw_medium medium, double gas_k);

/* net_ducts.c */
sw_status net_ducts_make(sw_run *run, sw_heat_net *net);
net_duct_air net_duct_at(const sw_heat_net *net, sw_duct duct, const net_duct_faces *faces);
void net_ducts_balance(sw_heat_net *net, bool with_jacobian);

/* net_gap.c */
net_gap_flow net_gap_at(const sw_heat_net *net, double wall_k, double air_k, double guess_kg_s);

/* Air on its way up past walls by steps: each gives all it can to the air from below, T_out = T_w - (T_w - T_in) e^-N,
 * N = w_k/flow_w_k. mean_k: of the air in each step. Linear in wall_k and in_k. */
void net_gap_march(size_t steps, double flow_w_k, const double *w_k, const double *wall_k, double in_k, double *mean_k,
                   double *out_k);

/* net_pane.c */
sw_status net_panes_make(sw_run *run, sw_heat_net *net);
void net_panes_emit(sw_heat_net *net); /* from x and E: what each source gives a pane to absorb and to let through */
void net_panes_pass(sw_heat_net *net, bool with_jacobian);

/* net_gas.c: balances of the gases below and above the baffle, and their emissivities */
void net_gas_emissivities(const sw_heat_net *net, const double *x, double *fire, double *upper);
void net_gas_balance(sw_heat_net *net, bool with_jacobian);

/* net_flux.c: R, with_jacobian also J, at x; sets flows and the gap's outlet in x */
double *net_jacobian(sw_heat_net *net, size_t row, size_t column);
void net_inside(sw_heat_net *net, bool with_jacobian);  /* what the gases take part in; clears R and J first */
void net_outside(sw_heat_net *net, bool with_jacobian); /* the rest */

/* net_newton.c */
typedef struct net_settled {
    int rounds;
    double worst_w; /* of the unknowns first .. first + count - 1 */
    size_t worst;
} net_settled;
void net_newton(sw_heat_net *net, size_t first, size_t count, double enough_w, net_settled *settled);

static inline double net_held(double x, double low, double high)
{
    return x < low ? low : x > high ? high : x;
}

#endif
