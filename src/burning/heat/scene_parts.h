/* scene_parts.h: between the files that make the scene. Shapes are in the stove's frame, mm; areas m2.
 *
 *   bodies   every placed piece and item, the small ones too; scene_bodies.c, scene_shape.c, scene_pane.c
 *   samples  points of their surfaces with what each sees; scene_spots.c, scene_samples.c over rays.h
 *   cells    small patches that samples and hits fall into, and whether fire gas is before them; scene_cells.c
 *   then surfaces (scene_surfaces.c), views (scene_views.c), contacts (scene_contacts.c, scene_ways.c), spaces (scene_spaces.c,
 *   scene_throat.c, scene_gap.c) and findings (scene_findings.c). */
#ifndef SW_HEAT_SCENE_PARTS_H
#define SW_HEAT_SCENE_PARTS_H

#include "burning/heat/heat.h"
#include "burning/heat/joint_parts.h"
#include "burning/heat/rays_parts.h"

/* ---- roles ---- */

typedef enum scene_hint {
    SCENE_FREE,  /* found out by rays */
    SCENE_FIRE,  /* stands in the fire gas: what sees it, does too */
    SCENE_HOLDS, /* part of the box round the fire: what lies between two of these is more likely inside */
    SCENE_OUT    /* never touched by fire gas */
} scene_hint;

typedef struct scene_role {
    const char *word;
    sw_part_class kind;
    scene_hint hint;
} scene_role;

const scene_role *scene_role_find(const char *word); /* NULL = unknown */
const scene_role *scene_role_table(size_t *count);

/* ---- bodies ---- */

#define SCENE_NONE UINT32_MAX

typedef struct scene_body {
    const char *name, *group;
    const scene_role *role; /* of an unknown word that of "other" */
    int piece, item;        /* or -1 */
    size_t placement;
    sw_part_class kind; /* SW_PART_SMALL also for what has no shape */
    const sw_material *material;
    double thickness_m, mass_kg, area_m2;
    bool layered, cold_above; /* cold_above: the side at higher local z is the cold one */
    sw_frame frame;
    double middle_mm;    /* local z half through it */
    sw_mesh mesh;        /* triangle_count 0 = no shape */
    double skin_m2;      /* whole surface of the mesh */
    sw_vec3 low, high;   /* its box */
    size_t cubes[3];     /* that the box is cut into, see scene_cells.c */
    uint32_t part;       /* index in the scene, SCENE_NONE = small */
    size_t first, count; /* its samples */
    double weight_m2;    /* area that one of them stands for in the mean */
    sw_place place;
} scene_body;

/* ---- samples ---- */

typedef struct scene_spot {
    float x_mm, y_mm, z_mm, normal[3];
} scene_spot;

typedef struct scene_spread { /* four numbers of [0, 1), evenly spread; first a random start */
    double at[4];
} scene_spread;

typedef struct scene_sample {
    scene_spot at, to; /* to: where the cosine ray ends */
    float weight_m2;   /* skin that it stands for */
    float turn[2];     /* [0, 1): of its cosine ray */
    uint32_t body;
    uint32_t pressed; /* body within contact_below along the normal; SCENE_NONE = none */
    uint32_t faces;   /* body first met along the normal within SCENE_REACH_MM, not within its own solid */
    float clear_mm;   /* up to pressed or faces */
    bool lost;        /* against itself: a hem */
    bool leaves_flue; /* the ray goes out through the collar */
    uint32_t hit;     /* body the ray meets; SCENE_NONE = leaves */
    float length_mm;  /* of the ray */
    float out_z_mm;   /* of a leaving ray: height where it leaves the stove's box */
    uint32_t cell, hit_cell;
} scene_sample;

#define SCENE_DRAWN_IN_MM                                                                                              \
    0.02 /* solids are this much smaller for the rays; ours: more than rounding, less than LIFT_MM */
#define SCENE_REACH_MM 150.0 /* along the normal: wider than convection gaps and than any board is thick */

typedef struct scene_cell {
    uint64_t key;
    uint32_t body;
    float inside;  /* 0..1: likelihood of fire gas before it */
    float room;    /* share of its rays that leave */
    uint32_t rays; /* that start here */
} scene_cell;

typedef struct scene_cells {
    scene_cell *items;
    size_t count, room;
    uint32_t *slots; /* [mask + 1] cell + 1; 0 = free */
    size_t mask;
} scene_cells;

typedef struct scene_flue { /* outlet of the collar */
    sw_vec3 middle, axis;   /* axis out of the stove */
    double radius_mm;       /* NAN = none found */
    double length_mm;       /* of the tube */
    uint32_t body;
    bool blocked; /* no ray from the outlet gets past the tube's inner end */
} scene_flue;

typedef struct scene_job {
    const sw_stove *stove;
    const sw_sheet_result *sheet;
    const sw_scene_options *opt;
    sw_scene *scene;
    scene_body *bodies;
    size_t body_count;
    size_t *piece_first; /* [piece_count] body of its first placement */
    scene_flue flue;
    sw_mesh cap;       /* over the outlet, seen from outside; empty without one */
    uint32_t *body_of; /* [triangles of the rays] body; body_count = the cap */
    rays *rays;
    sw_vec3 low, high; /* box of all */
    scene_sample *samples;
    size_t sample_count, sample_room;
    scene_cells cells;
    double level_mm;      /* of the lowest baffle; INFINITY = none */
    double bed_mm;        /* underside of the grate; below it is the ash space; -INFINITY = none */
    uint32_t *surface_of; /* [part_count][2 sides][SW_MEDIA] */
    sw_scene_part *parts;
    sw_scene_surface *surfaces;
    sw_scene_contact *contacts;
    uint32_t *contact_by; /* [contact_count] body of the small part between, SCENE_NONE = none */
    size_t contact_room, contact_by_room;
    bool *held; /* [part_count] touched or joined by something, be it small */
} scene_job;

sw_status scene_bodies(sw_run *run, scene_job *job);
sw_status scene_body_shapes(sw_run *run, scene_job *job);
sw_status scene_mesh_placed(sw_run *run, const sw_mesh *mesh, const sw_frame *frame, sw_mesh *out);
/* Solid between z0 and z1 over the triangles of a flat mesh whose border runs along `region`'s chords. */
sw_status scene_extruded(sw_run *run, const sw_region *region, double thickness_mm, sw_mesh *out);
/* Shape of a pane that the description only weighs, in the stove's frame. */
sw_status scene_pane_shape(sw_run *run, scene_job *job, scene_body *pane);
sw_status scene_pane_findings(sw_run *run, scene_job *job); /* windows of doors without a pane */
/* Direction about n with the density of its cosine; u and v even in 0..1. */
sw_vec3 scene_cosine_direction(sw_vec3 n, double u, double v);
sw_status scene_find_flue(sw_run *run, scene_job *job);
void scene_look_into_flue(scene_job *job); /* by rays */
void scene_find_level(scene_job *job);
scene_spread scene_spread_open(sw_random *random);
scene_spread scene_spread_after(const scene_spread *start, size_t steps);
sw_status scene_spots(sw_run *run, scene_job *job);   /* samples with place, weight and turn */
sw_status scene_samples(sw_run *run, scene_job *job); /* of those places */
sw_status scene_cells_make(sw_run *run, scene_job *job);
uint32_t scene_cell_find(const scene_job *job, uint32_t body, const scene_spot *at); /* SCENE_NONE = not met */
bool scene_inside(const scene_job *job, uint32_t cell);
sw_medium scene_medium(const scene_job *job, uint32_t cell, double z_mm);
sw_status scene_surfaces(sw_run *run, scene_job *job);
uint32_t scene_surface_of(const scene_job *job, uint32_t body, uint32_t cell, const scene_spot *at);
sw_status scene_views(sw_run *run, scene_job *job);
/* Scales the symmetric S [n*n] so that rows sum to area[n], the last column being free; gives the largest share of a
 * row that could not be placed; this is left on the diagonal. */
double scene_balance(double *S, size_t n, const double *area, double *work);
sw_status scene_contacts(sw_run *run, scene_job *job);
sw_status scene_ways(sw_run *run, scene_job *job);
/* One mesh a body that is not small, then the cap; sets body_of. */
sw_status scene_open_rays(sw_run *run, scene_job *job);
void scene_spaces(const scene_job *job);
sw_status scene_throat(sw_run *run, const scene_job *job);
void scene_find_ducts(scene_job *job); /* scene_ducts.c: what air each part leads to the fire; after the level */
void scene_gap(const scene_job *job);
typedef struct scene_remark { /* a finding without numbers; what = NULL: no memory for it */
    const char *check, *where;
    sw_place place;
    sw_verdict verdict;
    const char *what, *remedy;
} scene_remark;
sw_status scene_note(sw_run *run, scene_job *job, scene_remark r);
sw_status scene_findings(sw_run *run, scene_job *job);

/* What a sample stands for, where it is before gas or air: not pressed, not lost. */
static inline bool scene_open(const scene_sample *s)
{
    return s->pressed == SCENE_NONE && !s->lost;
}
/* A gap drawn as wide as the limit is a contact, not a toss-up. */
static inline bool scene_is_near(const scene_job *job, double clear_mm)
{
    const double round_mm = 0.01;
    return clear_mm < sw_mm_from_m(job->opt->contact_below_m) + round_mm;
}
static inline sw_vec3 scene_place(const scene_spot *s)
{
    return (sw_vec3){(double)s->x_mm, (double)s->y_mm, (double)s->z_mm};
}
static inline sw_vec3 scene_normal(const scene_spot *s)
{
    return (sw_vec3){(double)s->normal[0], (double)s->normal[1], (double)s->normal[2]};
}

#endif
