/* map_patches.c: facets of one surface that lie in one cube become a patch: it radiates as one. Rays are given the patch
 * they end on. */
#include "burning/heat/map_parts.h"

#include <math.h>
#include <stdlib.h>

#define DEEP_MM 0.37 /* below the skin, so that skins on a cube's side do not waver */

typedef struct spot_key { /* sorts facets into patches */
    uint64_t cube;
    uint32_t surface, facet;
} spot_key;

static uint64_t step_of(const map_job *job, double mm)
{
    return (uint64_t)(net_held(floor(mm / job->cube_mm) + 512.0, 0.0, 1023.0));
}

static uint64_t facing(sw_vec3 n)
{
    double x = fabs(n.x_mm), y = fabs(n.y_mm), z = fabs(n.z_mm);
    uint64_t axis = z >= x && z >= y ? 2 : y >= x ? 1 : 0;
    double along = axis == 2 ? n.z_mm : axis == 1 ? n.y_mm : n.x_mm;
    return 2 * axis + (along < 0.0 ? 1 : 0);
}

static uint64_t cube_of(const map_job *job, uint32_t sheet, sw_vec3 at, sw_vec3 normal)
{
    sw_vec3 p = sw_vec3_sub(at, sw_vec3_scaled(normal, DEEP_MM));
    uint64_t key = ((uint64_t)sheet * 6 + facing(normal)) << 30;
    return key | step_of(job, p.x_mm) << 20 | step_of(job, p.y_mm) << 10 | step_of(job, p.z_mm);
}

/* ---- surfaces ---- */

/* The scene's surface of that part, side and medium; where it has none, the side's largest; then the part's. */
static uint32_t scene_match(const sw_scene *scene, const sw_scene_surface *like)
{
    uint32_t best = MAP_NONE, any = MAP_NONE;
    for (uint32_t i = 0; i < scene->surface_count; i++) {
        const sw_scene_surface *s = &scene->surfaces[i];
        if (s->part != like->part) continue;
        if (any == MAP_NONE || s->area_m2 > scene->surfaces[any].area_m2) any = i;
        if (s->hot_side != like->hot_side) continue;
        if (s->medium == like->medium) return i;
        if (best == MAP_NONE || s->area_m2 > scene->surfaces[best].area_m2) best = i;
    }
    return best != MAP_NONE ? best : any;
}

static sw_status match_surfaces(sw_run *run, const map_job *job, uint32_t **out)
{
    *out = SW_SCRATCH(run, job->own.surface_count + 1, uint32_t);
    if (*out == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < job->own.surface_count; i++) (*out)[i] = scene_match(job->scene, &job->own.surfaces[i]);
    return SW_OK;
}

/* ---- patches ---- */

static int by_cube(const void *a, const void *b)
{
    const spot_key *p = a, *q = b;
    if (p->cube != q->cube) return p->cube < q->cube ? -1 : 1;
    if (p->surface != q->surface) return p->surface < q->surface ? -1 : 1;
    return p->facet < q->facet ? -1 : p->facet > q->facet;
}

static size_t list_open(const map_job *job, const uint32_t *match, spot_key *keys)
{
    size_t count = 0;
    for (uint32_t i = 0; i < job->facet_count; i++) {
        const map_facet *f = &job->facets[i];
        const scene_sample *s = &job->seen.samples[i];
        if (s->cell == SCENE_NONE || !scene_open(s)) continue;
        uint32_t own = scene_surface_of(&job->seen, s->body, s->cell, &s->at);
        uint32_t surface = own == SCENE_NONE ? MAP_NONE : match[own];
        if (surface == MAP_NONE) continue;
        keys[count++] = (spot_key){cube_of(job, f->sheet, scene_place(&f->at), scene_normal(&f->at)), surface, i};
    }
    return count;
}

static map_space_name space_of(sw_medium m)
{
    return m == SW_MEDIUM_FIRE ? MAP_BELOW : m == SW_MEDIUM_UPPER ? MAP_ABOVE : MAP_OUTER;
}

/* Patches are numbered space by space: rank[] of a patch in order of its cube. */
static void number(map_job *job, const uint32_t *surface, size_t count, uint32_t *rank)
{
    uint32_t next = 0;
    for (int space = 0; space < MAP_SPACES; space++) {
        job->sys.spaces[space].first = next;
        for (size_t i = 0; i < count; i++)
            if ((int)space_of(job->scene->surfaces[surface[i]].medium) == space) rank[i] = next++;
        job->sys.spaces[space].patches = next - job->sys.spaces[space].first;
    }
}

static double emissivity(const map_job *job, uint32_t surface)
{
    static const double ember_e = 0.9; /* handbook E6 */
    const sw_scene_surface *s = &job->scene->surfaces[surface];
    double cover = job->sys.bed != MAP_NONE && job->net->bed.lies_on[surface] ? job->net->bed.cover : 0.0;
    if (cover > 0.0) return cover * ember_e + (1.0 - cover) * s->emissivity;
    return job->scene->parts[s->part].kind == SW_PART_PANE ? job->net->pane_e : s->emissivity;
}

static void set_patch(map_job *job, uint32_t patch, uint32_t surface)
{
    const sw_scene_surface *s = &job->scene->surfaces[surface];
    job->surface_of[patch] = surface;
    job->sys.patches[patch].e = emissivity(job, surface);
    job->sys.patches[patch].film = surface;
    job->sys.patches[patch].glass = job->scene->parts[s->part].kind == SW_PART_PANE;
}

/* A handle without shape: one patch, its surface. */
static size_t count_bars(const map_job *job)
{
    size_t count = 0;
    for (size_t i = 0; i < job->scene->part_count; i++) count += job->sheets[i].plane.point_count == 0;
    return count;
}

static sw_status take_patches(sw_run *run, map_job *job, size_t count)
{
    job->sys.patch_count = count;
    job->sys.patches = SW_SCRATCH(run, count + 1, map_patch);
    job->surface_of = SW_SCRATCH(run, count + 1, uint32_t);
    return job->sys.patches == NULL || job->surface_of == NULL ? SW_NO_MEMORY : SW_OK;
}

/* patch_surface, patch_of: in order of cubes; bars come last. */
static size_t group(map_job *job, const spot_key *keys, size_t count, uint32_t *patch_surface)
{
    size_t patches = 0;
    for (size_t i = 0; i < count; i++) {
        bool same = i > 0 && keys[i].cube == keys[i - 1].cube && keys[i].surface == keys[i - 1].surface;
        if (!same) patch_surface[patches++] = keys[i].surface;
        job->facets[keys[i].facet].patch = (uint32_t)patches - 1;
    }
    for (uint32_t i = 0; i < job->scene->part_count; i++) {
        if (job->sheets[i].plane.point_count > 0) continue;
        sw_scene_surface like = {.part = i, .medium = SW_MEDIUM_ROOM};
        uint32_t surface = scene_match(job->scene, &like);
        if (surface != MAP_NONE) patch_surface[patches++] = surface;
    }
    return patches;
}

/* ---- where rays end ---- */

/* Binary search for the cube among the keys. */
static size_t first_of(const spot_key *keys, size_t count, uint64_t cube)
{
    size_t low = 0, high = count;
    while (low < high) {
        size_t middle = (low + high) / 2;
        if (keys[middle].cube < cube)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

typedef struct finder {
    map_job *job;
    const spot_key *keys;
    size_t count;
} finder;

static uint32_t patch_at(const finder *in, uint32_t sheet, sw_vec3 at, sw_vec3 normal)
{
    const map_job *job = in->job;
    uint64_t cube = cube_of(job, sheet, at, normal);
    size_t first = first_of(in->keys, in->count, cube), end = first;
    double least = (double)INFINITY;
    uint32_t best = MAP_NONE;
    while (end < in->count && in->keys[end].cube == cube) end++;
    if (end > first && in->keys[first].surface == in->keys[end - 1].surface)
        return job->facets[in->keys[first].facet].patch;
    for (size_t i = first; i < end; i++) {
        sw_vec3 d = sw_vec3_sub(scene_place(&job->facets[in->keys[i].facet].at), at);
        double far = sw_vec3_dot(d, d);
        if (far < least) least = far, best = job->facets[in->keys[i].facet].patch;
    }
    if (best != MAP_NONE) return best;
    uint32_t near = map_nearest(job, sheet, at, normal, true);
    return near == MAP_NONE ? MAP_NONE : job->facets[near].patch;
}

/* The ray's body becomes its patch. */
static void settle_ray(const finder *in, map_ray *r)
{
    if (r->end != MAP_HIT) return;
    uint32_t part = in->job->seen.bodies[r->body].part;
    sw_vec3 at = {(double)r->at[0], (double)r->at[1], (double)r->at[2]};
    sw_vec3 n = {(double)r->normal[0], (double)r->normal[1], (double)r->normal[2]};
    r->body = part == SCENE_NONE ? MAP_NONE : patch_at(in, part, at, n);
    if (r->body == MAP_NONE) r->end = MAP_LOST;
}

enum { BUNCH = 256 };

static void settle_bunch(void *context, size_t bunch)
{
    const finder *in = context;
    for (size_t i = bunch * BUNCH; i < (bunch + 1) * BUNCH && i < in->job->facet_count; i++) {
        if (in->job->facets[i].patch == MAP_NONE) continue;
        for (size_t k = 0; k < in->job->rays_each; k++) settle_ray(in, &in->job->rays[i * in->job->rays_each + k]);
    }
}

/* ---- all ---- */

/* Two sides of all parts over the wished number. */
static void choose_cube(map_job *job)
{
    static const double patches = 2000.0; /* ours: with the cubes' cuts some three thousand */
    double area_m2 = 0.0;
    for (size_t i = 0; i < job->facet_count; i++) area_m2 += job->facets[i].area_m2;
    double finest = 10.0 * area_m2 / fmax(1.0, (double)job->facet_count); /* ten facets a patch at least */
    job->cube_mm = sw_mm_from_m(sqrt(fmax(area_m2 / patches, finest)));
}

static void sum_areas(map_job *job)
{
    for (size_t i = 0; i < job->facet_count; i++)
        if (job->facets[i].patch != MAP_NONE) job->sys.patches[job->facets[i].patch].area_m2 += job->facets[i].area_m2;
    for (size_t p = 0; p < job->sys.patch_count; p++)
        if (!(job->sys.patches[p].area_m2 > 0.0)) /* a bar */
            job->sys.patches[p].area_m2 = job->scene->surfaces[job->surface_of[p]].area_m2;
}

sw_status map_patches(sw_run *run, map_job *job)
{
    uint32_t *match = NULL;
    choose_cube(job);
    SW_TRY(match_surfaces(run, job, &match));
    size_t most = job->facet_count + count_bars(job);
    spot_key *keys = SW_SCRATCH(run, most + 1, spot_key);
    uint32_t *surface = SW_SCRATCH(run, most + 1, uint32_t), *rank = SW_SCRATCH(run, most + 1, uint32_t);
    if (keys == NULL || surface == NULL || rank == NULL) return SW_NO_MEMORY;
    size_t open = list_open(job, match, keys);
    qsort(keys, open, sizeof *keys, by_cube);
    size_t count = group(job, keys, open, surface);
    SW_TRY(take_patches(run, job, count));
    number(job, surface, count, rank);
    for (size_t i = 0; i < count; i++) set_patch(job, rank[i], surface[i]);
    for (size_t i = 0; i < job->facet_count; i++)
        if (job->facets[i].patch != MAP_NONE) job->facets[i].patch = rank[job->facets[i].patch];
    sum_areas(job);
    finder in = {job, keys, open};
    sw_parallel_for(job->opt->threads, (job->facet_count + BUNCH - 1) / BUNCH, settle_bunch, &in);
    return SW_OK;
}
