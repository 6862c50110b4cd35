/* map_cast.c: rays from every facet: along its normal, what it touches; with the density of the cosine, what it sees. A facet
 * has its own stream of numbers, so threads do not change the answer. The first ray of each also tells which gas it faces, by
 * the scene's own steps over these samples. */
#include "burning/heat/map_parts.h"

#include <math.h>

#define LIFT_MM 0.3
#define FAR_MM  1e5
enum { BUNCH = 64, TRIES = 3 };

typedef struct spread { /* Roberts' sequence in four dimensions from a random start */
    double at[4];
} spread;

static void spread_step(spread *s)
{
    static const double by[4] = {0.85667488385450287, 0.73389185662707240, 0.62870672103812766, 0.53859725722361189};
    for (int i = 0; i < 4; i++) {
        s->at[i] += by[i];
        s->at[i] -= floor(s->at[i]);
    }
}

static void look_along(const map_job *job, scene_sample *s, uint32_t part)
{
    const scene_job *seen = &job->seen;
    sw_vec3 n = scene_normal(&s->at), p = sw_vec3_add(scene_place(&s->at), sw_vec3_scaled(n, LIFT_MM));
    ray_hit h = rays_first(seen->rays, p, n, SCENE_REACH_MM);
    s->pressed = s->faces = SCENE_NONE;
    s->clear_mm = INFINITY;
    if (isinf(h.length_mm)) return;
    uint32_t body = seen->body_of[h.triangle];
    if (body == seen->body_count) return; /* the cap */
    double clear_mm = h.back ? 0.0 : h.length_mm + LIFT_MM - SCENE_DRAWN_IN_MM;
    bool near = scene_is_near(seen, clear_mm), own = seen->bodies[body].part == part;
    s->clear_mm = (float)clear_mm;
    s->faces = h.back ? SCENE_NONE : body;
    if (near && own) s->lost = true;
    if (near && !own) s->pressed = body;
}

static map_ray cast(const map_job *job, sw_vec3 p, sw_vec3 d, double *length_mm)
{
    const scene_job *seen = &job->seen;
    ray_hit h = rays_first(seen->rays, p, d, FAR_MM);
    map_ray r = {.body = MAP_NONE, .end = MAP_ROOM};
    *length_mm = h.length_mm;
    if (isinf(h.length_mm)) return r;
    r.body = seen->body_of[h.triangle];
    if (r.body == seen->body_count) {
        r.body = MAP_NONE;
        r.end = h.back ? MAP_FLUE : MAP_ROOM;
        return r;
    }
    r.end = h.back ? MAP_LOST : MAP_HIT;
    sw_vec3 at = sw_vec3_add(p, sw_vec3_scaled(d, h.length_mm));
    r.at[0] = (float)at.x_mm, r.at[1] = (float)at.y_mm, r.at[2] = (float)at.z_mm;
    r.normal[0] = (float)h.normal.x_mm, r.normal[1] = (float)h.normal.y_mm, r.normal[2] = (float)h.normal.z_mm;
    return r;
}

/* The scene's sample of a facet is its first ray. */
static void note_sample(const map_ray *r, double length_mm, scene_sample *s)
{
    s->lost = r->end == MAP_LOST;
    s->leaves_flue = r->end == MAP_FLUE;
    s->length_mm = r->end == MAP_FLUE || r->end == MAP_HIT ? (float)length_mm : INFINITY;
    if (r->end != MAP_HIT) return;
    s->hit = r->body;
    s->to = (scene_spot){r->at[0], r->at[1], r->at[2], {r->normal[0], r->normal[1], r->normal[2]}};
}

/* From anywhere on the facet; one that starts within a solid is thrown again. Gives its length. */
static double throw_one(const map_job *job, const map_facet *f, spread *at, map_ray *r)
{
    double length_mm = 0.0;
    for (int tries = 0; tries < TRIES; tries++) {
        sw_vec3 n, p;
        spread_step(at);
        p = map_facet_point(job, f, at->at[0], at->at[1], &n);
        *r = cast(job, sw_vec3_add(p, sw_vec3_scaled(n, LIFT_MM)), scene_cosine_direction(n, at->at[2], at->at[3]),
                  &length_mm);
        if (r->end != MAP_LOST) break;
    }
    return length_mm;
}

static void cast_facet(const map_job *job, size_t i)
{
    const map_facet *f = &job->facets[i];
    scene_sample *s = &job->seen.samples[i];
    spread at;
    *s = (scene_sample){
        .at = f->at, .body = (uint32_t)(job->sheets[f->sheet].body - job->seen.bodies), .weight_m2 = (float)f->area_m2};
    s->hit = s->cell = s->hit_cell = SCENE_NONE;
    look_along(job, s, f->sheet);
    if (!scene_open(s)) return;
    sw_random random = sw_random_seeded(job->opt->seed * (uint64_t)0x9E3779B97F4A7C15 + i);
    for (int k = 0; k < 4; k++) at.at[k] = sw_random_unit(&random);
    map_ray *mine = &job->rays[i * job->rays_each];
    double length_mm = throw_one(job, f, &at, mine);
    note_sample(mine, length_mm, s);
    for (size_t k = 1; k < job->rays_each && !s->lost; k++) throw_one(job, f, &at, &mine[k]);
}

static void cast_bunch(void *context, size_t bunch)
{
    const map_job *job = context;
    for (size_t i = bunch * BUNCH; i < (bunch + 1) * BUNCH && i < job->facet_count; i++) cast_facet(job, i);
}

/* Samples of the scene are the facets: those of a body stand together. */
static sw_status open_samples(sw_run *run, map_job *job)
{
    job->rays_each = (size_t)job->opt->rays_per_triangle;
    job->rays = SW_SCRATCH(run, job->facet_count * job->rays_each + 1, map_ray);
    job->seen.samples = SW_SCRATCH(run, job->facet_count + 1, scene_sample);
    job->seen.sample_count = job->facet_count;
    if (job->rays == NULL || job->seen.samples == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < job->scene->part_count; i++) {
        const map_sheet *s = &job->sheets[i];
        scene_body *b = &job->seen.bodies[s->body - job->seen.bodies];
        double area_m2 = 0.0;
        for (uint32_t k = s->facet; k < s->facet + s->facets; k++) area_m2 += job->facets[k].area_m2;
        b->first = s->facet;
        b->count = s->facets;
        b->weight_m2 = s->facets > 0 ? area_m2 / s->facets : 0.0;
    }
    return SW_OK;
}

sw_status map_cast(sw_run *run, map_job *job)
{
    SW_TRY(open_samples(run, job));
    sw_parallel_for(job->opt->threads, (job->facet_count + BUNCH - 1) / BUNCH, cast_bunch, job);
    if (sw_run_cancelled(run)) return SW_CANCELLED;
    SW_TRY(scene_cells_make(run, &job->seen));
    return scene_surfaces(run, &job->seen);
}
