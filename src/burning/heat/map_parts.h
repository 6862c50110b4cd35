/* map_parts.h: between the files of the surface map.
 *
 *   meshes   every part's middle surface in even triangles: map_mesh.c (plane), map_place.c (into space), map_sheets.c
 *   facets   the sides of its triangles, each with rays: map_facets.c, map_cast.c
 *   patches  small groups of facets that radiate as one, and their views: map_patches.c, map_views.c
 *   links    through linings, over touching faces, along seams: map_links.c, map_seams.c
 *   system   what the solver sees: nodes, triangles, links, films, patches: map_flux.c (heat into nodes), map_matrix.c
 *            (sparse, CHOLMOD), map_krylov.c, map_newton.c
 *
 * The system stands alone: tests make theirs by hand, without a stove. Film coefficients, gases, gap and pane are the
 * network's. SI in the system; shapes mm. */
#ifndef SW_HEAT_MAP_PARTS_H
#define SW_HEAT_MAP_PARTS_H

#include "burning/heat/net_parts.h"
#include "burning/heat/scene_parts.h"

#define MAP_NONE UINT32_MAX

/* ---- meshes ---- */

typedef struct map_plane {
    sw_point *points;
    size_t point_count;
    sw_triangle *triangles; /* counter-clockwise */
    size_t triangle_count;
} map_plane;
/* Even triangles of about side_mm over the region, in run->scratch; holes smaller than half of that are left out. */
sw_status map_mesh(sw_run *run, const sw_region *region, double side_mm, map_plane *out);

typedef struct map_sheet { /* one part */
    const scene_body *body;
    const sw_piece *piece; /* folded: plane = its flat; NULL = flat, or a bent pane */
    const sw_sheet_piece *folded;
    const sw_mesh *band; /* of a bent pane: four corners a strip, as scene_pane.c lays them; NULL else */
    sw_region region;    /* in its plane */
    map_plane plane;     /* no points: a handle without shape, one node */
    double side_mm;
    sw_vec3 *points; /* [plane.point_count] of the middle, stove frame */
    uint32_t first;  /* its first node; of a lining: the lower side (of local z), then as many of the upper one */
    uint32_t facet, facets;
} map_sheet;

/* From the plane to the middle of the sheet in the stove's frame, and the normal there. */
void map_place(const map_sheet *s, sw_point at, sw_vec3 *middle, sw_vec3 *normal);

/* ---- facets ---- */

typedef struct map_facet { /* one side of a triangle, or a piece of a lining's rim */
    uint32_t sheet, triangle;
    uint32_t node[4], corners;
    sw_point rim_from, rim_to; /* of a rim, plane; else unset */
    int8_t side;               /* +1 upper, -1 lower, 0 rim */
    double area_m2;
    scene_spot at;
    uint32_t patch; /* MAP_NONE: touches something */
} map_facet;

typedef struct map_ray { /* where one ended */
    uint32_t body;       /* MAP_NONE: see `end` */
    uint8_t end;         /* a map_end */
    float at[3], normal[3];
} map_ray;
typedef enum map_end { MAP_HIT, MAP_ROOM, MAP_FLUE, MAP_LOST } map_end;

/* ---- system ---- */

typedef struct map_matter {
    const sw_material *material; /* NULL: `fixed` */
    double fixed, factor;        /* W/(m K); on the material's */
} map_matter;
double map_conductivity(const map_matter *m, double t_k);

typedef struct map_triangle {
    uint32_t node[3], matter;
    double thickness_m;
    double half_cot[3]; /* opposite side [i, i+1]: heat along it is k t half_cot (T_i - T_i+1) */
} map_triangle;

typedef struct map_film {
    sw_medium medium;
    const net_film *law; /* NULL: `h` and `air_k` stay as given */
    double area_m2, mean_k, h, air_k;
} map_film;
/* Of a film of the gap, the share that is not in a duct. */
static inline double map_open(const map_film *f)
{
    return f->law != NULL ? 1.0 - f->law->duct_share : 1.0;
}

enum { MAP_GAP_STEPS = 32 };

typedef struct map_patch {
    double area_m2, e;
    uint32_t film; /* MAP_NONE = none */
    uint32_t step; /* of the gap's height */
    bool glass;
} map_patch;

typedef struct map_share { /* what a node stands for of a patch */
    uint32_t node, patch;
    double area_m2;
} map_share;

typedef enum map_space_name { MAP_BELOW, MAP_ABOVE, MAP_OUTER, MAP_SPACES } map_space_name;

typedef struct map_space { /* enclosure: its patches, then the throat, then the room */
    size_t first, patches, rows;
    size_t *start; /* [rows + 1] */
    uint32_t *column;
    double *view;        /* A_i F_ij, m2, symmetric, rows close to their areas */
    double *area, *e;    /* [rows] */
    double *E, *H, *dH;  /* [rows] W/m2: sent as a black body, met, change of met */
    double gas_e, gas_E; /* grey gas in it */
    double gas_w;        /* into the gas */
} map_space;

typedef struct map_system {
    size_t nodes, unknowns; /* unknowns: with the two gases when there is a network */
    uint32_t bed;           /* node of the embers; MAP_NONE = none */
    double *x, *R;          /* [unknowns] K; heat into each, W */
    double *load_w;         /* [nodes] or NULL */
    const bool *held;       /* [nodes] or NULL: temperature given */
    const bool *glass;      /* [nodes] or NULL */
    map_matter *matters;
    map_triangle *triangles;
    size_t triangle_count;
    net_link *links; /* node to node */
    size_t link_count;
    map_film *films;
    size_t film_count;
    map_patch *patches;
    size_t patch_count;
    map_share *shares; /* by patch */
    size_t share_count;
    map_space spaces[MAP_SPACES];
    double walls_k;          /* radiation from the room */
    sw_heat_net *net;        /* gases, gap, pane; NULL = none */
    const sw_heat_net *laws; /* constants of the links */
    double gap_air_k[MAP_GAP_STEPS], gap_w_k[MAP_GAP_STEPS], gap_kg_s, gap_cp, gap_out_k; /* film conductance by step */
    net_duct_air ducts[SW_DUCTS];
    double *through, *outer_m2, *spare, *spare_rows, *thru; /* [nodes], [nodes], the rest by rows */
    double useful_w, flue_w, transmitted_w;
} map_system;

/* map_system.c */
sw_status map_system_room(sw_run *run, map_system *sys); /* arrays of the solver, once counts are known */
/* Half cotangents of a plane triangle's corners, in the order of map_triangle. */
void map_half_cots(const sw_point corner[3], double out[3]);
/* SW_BAD_INPUT: nodes without any way for heat to leave; name_of: of the part of a node. */
sw_status map_check_ways(sw_run *run, const map_system *sys, const char *(*name_of)(void *context, uint32_t node),
                         void *context);

/* map_radiosity.c */
void map_space_settle(map_space *s, const double *E, double gas_E, double *H, int sweeps);

/* map_flux.c: R at x, all flows */
void map_flux(map_system *sys);
/* Change of what meets the nodes and gases for a change v of x, less what map_matrix has. */
void map_incoming(map_system *sys, const double *v, double *into);

/* map_pane.c: of what a pane takes from a source, the share that goes through; what a pane sends, and the room through it */
double map_pane_share(const map_system *sys, double t_k);
double map_pane_sends(const map_system *sys, double t_k);
double map_pane_steer(const map_system *sys, double t_k); /* its derivative */
double map_pane_room(const map_system *sys);
void map_panes_pass(map_system *sys);
void map_gather(map_system *sys, bool to_pass,
                double *E); /* patches' means of what is sent; to_pass: to go through a pane */
void map_sources(const map_system *sys, int space, const double *E, bool to_pass, double *gas_E);

/* map_gas.c: films, gap, gases */
void map_films_settle(map_system *sys);
double map_duct_h(const map_system *sys, const map_film *f,
                  const net_duct_air **air); /* of what is in a duct; 0 = none */
void map_gap_march(const map_system *sys, const double *wall_k, double in_k, double mean_k[MAP_GAP_STEPS],
                   double *out_k);

void map_diagonal(const map_system *sys, double *d); /* what nodes and gases send and give to films, W/K */

/* map_matrix.c */
typedef struct map_matrix map_matrix;
sw_status map_matrix_open(sw_run *run, const map_system *sys, map_matrix **out);
void map_matrix_close(map_matrix *m);
/* Conduction, what nodes send and films take away, at sys->x; factored. SW_NO_SOLUTION: not positive. */
sw_status map_matrix_renew(sw_run *run, map_matrix *m, const map_system *sys);
void map_matrix_times(map_matrix *m, const double *v, double *out);
void map_matrix_solve(map_matrix *m, const double *b, double *out);

/* map_krylov.c: (matrix - incoming) step = R to `share` of its length */
typedef struct map_krylov {
    double *basis, *image, *h, *work;
    int rounds;
} map_krylov;
sw_status map_krylov_room(sw_run *run, const map_system *sys, map_krylov *k);
void map_krylov_solve(map_krylov *k, map_matrix *m, map_system *sys, double share, double *step);

/* map_newton.c */
typedef struct map_settled {
    int rounds, inner;
    double left_w; /* sum of |R| */
    double worst_w;
    size_t worst;
} map_settled;
sw_status map_newton(sw_run *run, map_system *sys, double enough_w, map_settled *settled);

/* ---- job ---- */

typedef struct map_job {
    const sw_stove *stove;
    const sw_sheet_result *result;
    const sw_scene *scene;
    const sw_heat_map_options *opt;
    scene_job seen; /* the scene's steps over the map's own samples */
    sw_scene own;
    map_sheet *sheets; /* [scene->part_count] */
    map_facet *facets;
    size_t facet_count;
    map_ray *rays; /* [facet_count * rays_each] */
    size_t rays_each;
    double cube_mm;
    uint32_t *surface_of; /* [patch_count] in scene->surfaces */
    sw_heat_net *net;
    map_system sys;
    size_t link_room;  /* in sys.links */
    uint32_t *part_of; /* [nodes] */
} map_job;

/* All steps up to a system to be solved. */
sw_status map_make(sw_run *run, map_job *job);
sw_status map_sheets(sw_run *run, map_job *job);
/* One part meshed by itself, in run->scratch; of the job only stove and result are used. No points: it has no shape. */
sw_status map_sheet_alone(sw_run *run, const map_job *job, const scene_body *body, double triangles, map_sheet *s);
uint32_t map_nearest_point(const map_sheet *s, sw_vec3 at); /* of s->points, which must not be empty */
sw_status map_facets(sw_run *run, map_job *job);
sw_vec3 map_facet_point(const map_job *job, const map_facet *f, double u, double v, sw_vec3 *normal);
sw_status map_cast(sw_run *run, map_job *job);
sw_status map_patches(sw_run *run, map_job *job);
sw_status map_views(sw_run *run, map_job *job);
sw_status map_links(sw_run *run, map_job *job);
sw_status map_seams(sw_run *run, map_job *job);
sw_status map_fill(sw_run *run, map_job *job);
sw_status map_join(sw_run *run, map_job *job, net_link law, uint32_t a, uint32_t b);
/* Facet of a sheet nearest to a place, facing `normal`; open: only those with a patch. MAP_NONE = none. */
uint32_t map_nearest(const map_job *job, uint32_t sheet, sw_vec3 at, sw_vec3 normal, bool open);

#endif
