/* scene_surfaces.c: samples become surfaces: what one part (one side of a layered part) shows to one medium. Shows
 * too small to matter go to the largest of the same side, so that areas stay whole. */
#include "burning/heat/scene_parts.h"

#include <math.h>

#define LEAST_SHARE 0.02 /* of the part's open skin; ours */
enum { SIDES = 2 };

typedef struct show { /* sums over samples */
    double area_m2, z, zz, side, up, down;
    uint32_t into; /* slot it was given to, or itself */
} show;

static bool above(const scene_body *b, const scene_spot *at)
{
    sw_vec3 local = sw_frame_local(b->frame, scene_place(at));
    return local.z_mm > b->middle_mm;
}

static bool lies_flat(const scene_body *b, const scene_spot *at)
{
    return fabs(sw_vec3_dot(b->frame.z, scene_normal(at))) > 0.5;
}

/* Its rim belongs to the hot side where it stands in the fire gas. */
static size_t side_of(const scene_body *b, const scene_spot *at, sw_medium medium)
{
    if (!b->layered) return 0;
    if (!lies_flat(b, at) && medium <= SW_MEDIUM_UPPER) return 1;
    return above(b, at) != b->cold_above;
}

static size_t slot_of(const scene_body *b, const scene_spot *at, sw_medium medium)
{
    return ((size_t)b->part * SIDES + side_of(b, at, medium)) * SW_MEDIA + (size_t)medium;
}

/* The side with more skin in the fire gas is the hot one. */
static void find_hot_sides(scene_job *job)
{
    for (size_t i = 0; i < job->body_count; i++) {
        scene_body *b = &job->bodies[i];
        long more_above = 0;
        for (size_t k = b->first; b->layered && k < b->first + b->count; k++) {
            const scene_sample *s = &job->samples[k];
            if (s->cell == SCENE_NONE || !lies_flat(b, &s->at) || !scene_inside(job, s->cell)) continue;
            more_above += above(b, &s->at) ? 1 : -1;
        }
        b->cold_above = more_above < 0;
    }
}

static void add(show *w, double weight_m2, const scene_spot *at)
{
    double z = sw_m_from_mm((double)at->z_mm), nz = (double)at->normal[2], half = sqrt(0.5);
    w->area_m2 += weight_m2;
    w->z += weight_m2 * z;
    w->zz += weight_m2 * z * z;
    w->up += nz > half ? weight_m2 : 0.0;
    w->down += nz < -half ? weight_m2 : 0.0;
    w->side += fabs(nz) <= half ? weight_m2 : 0.0;
}

static void add_samples(const scene_job *job, show *shows)
{
    for (size_t i = 0; i < job->sample_count; i++) {
        const scene_sample *s = &job->samples[i];
        if (s->cell == SCENE_NONE) continue;
        const scene_body *b = &job->bodies[s->body];
        add(&shows[slot_of(b, &s->at, scene_medium(job, s->cell, (double)s->at.z_mm))], (double)s->weight_m2, &s->at);
    }
}

static uint32_t largest(const show *shows, size_t first, size_t count)
{
    uint32_t best = SCENE_NONE;
    for (size_t i = first; i < first + count; i++)
        if (shows[i].area_m2 > 0.0 && (best == SCENE_NONE || shows[i].area_m2 > shows[best].area_m2))
            best = (uint32_t)i;
    return best;
}

static void give(show *shows, uint32_t from, uint32_t to)
{
    show *a = &shows[to], *b = &shows[from];
    b->into = to;
    if (from == to) return;
    a->area_m2 += b->area_m2;
    a->z += b->z;
    a->zz += b->zz;
    a->side += b->side;
    a->up += b->up;
    a->down += b->down;
    *b = (show){.into = to};
}

static void merge_part(show *shows, size_t part)
{
    size_t first = part * SIDES * SW_MEDIA;
    double all = 0.0;
    for (size_t i = first; i < first + SIDES * SW_MEDIA; i++) all += shows[i].area_m2;
    uint32_t best = largest(shows, first, SIDES * SW_MEDIA);
    for (size_t side = 0; side < SIDES; side++) {
        size_t from = first + side * SW_MEDIA;
        uint32_t own = largest(shows, from, SW_MEDIA);
        double on_side = 0.0;
        for (size_t i = from; i < from + SW_MEDIA; i++) on_side += shows[i].area_m2;
        for (size_t i = from; i < from + SW_MEDIA; i++) {
            uint32_t to = own == SCENE_NONE || !(on_side > LEAST_SHARE * all) ? best : own;
            bool stays = shows[i].area_m2 > LEAST_SHARE * all;
            shows[i].into = (uint32_t)i;
            if (!stays && to != SCENE_NONE) give(shows, (uint32_t)i, to);
        }
    }
}

/* Height of an even spread with the same scatter: sqrt(12) times the standard deviation. */
static sw_scene_surface surface(const scene_job *job, const show *w, size_t slot)
{
    size_t part = slot / (SIDES * SW_MEDIA);
    const sw_scene_part *p = &job->parts[part];
    double middle = w->z / w->area_m2, spread = fmax(0.0, w->zz / w->area_m2 - middle * middle);
    double emissivity = p->material->emissivity;
    return (sw_scene_surface){.part = part,
                              .medium = (sw_medium)(slot % SW_MEDIA),
                              .hot_side = p->layered && slot / SW_MEDIA % SIDES == 1,
                              .area_m2 = w->area_m2,
                              .emissivity = emissivity > 0.0 ? emissivity : 0.9,
                              .height_m = sqrt(12.0 * spread),
                              .side = w->side / w->area_m2,
                              .up = w->up / w->area_m2,
                              .down = w->down / w->area_m2,
                              .middle_z_m = middle};
}

/* A handle without shape stands in the room, upright. */
static void add_bars(scene_job *job)
{
    sw_scene *s = job->scene;
    for (size_t i = 0; i < job->body_count; i++) {
        const scene_body *b = &job->bodies[i];
        if (b->part == SCENE_NONE || b->mesh.triangle_count > 0) continue;
        double emissivity = b->material->emissivity;
        job->surfaces[s->surface_count++] = (sw_scene_surface){.part = b->part,
                                                               .medium = SW_MEDIUM_ROOM,
                                                               .area_m2 = b->area_m2,
                                                               .emissivity = emissivity > 0.0 ? emissivity : 0.9,
                                                               .height_m = b->area_m2 / (SW_PI * b->thickness_m),
                                                               .side = 1.0,
                                                               .middle_z_m = sw_m_from_mm(b->frame.origin.z_mm)};
    }
}

sw_status scene_surfaces(sw_run *run, scene_job *job)
{
    sw_scene *s = job->scene;
    size_t slots = s->part_count * SIDES * SW_MEDIA;
    show *shows = SW_SCRATCH(run, slots + 1, show);
    job->surface_of = SW_SCRATCH(run, slots + 1, uint32_t);
    job->surfaces = SW_KEEP(run, slots + 1, sw_scene_surface);
    if (shows == NULL || job->surface_of == NULL || job->surfaces == NULL) return SW_NO_MEMORY;
    s->surfaces = job->surfaces;
    find_hot_sides(job);
    add_samples(job, shows);
    for (size_t i = 0; i < s->part_count; i++) merge_part(shows, i);
    for (size_t i = 0; i < slots; i++) {
        job->surface_of[i] = SCENE_NONE;
        if (shows[i].into != i || !(shows[i].area_m2 > 0.0)) continue;
        job->surface_of[i] = (uint32_t)s->surface_count;
        job->surfaces[s->surface_count++] = surface(job, &shows[i], i);
    }
    for (size_t i = 0; i < slots; i++) job->surface_of[i] = job->surface_of[shows[i].into];
    add_bars(job);
    return SW_OK;
}

uint32_t scene_surface_of(const scene_job *job, uint32_t body, uint32_t cell, const scene_spot *at)
{
    const scene_body *b = &job->bodies[body];
    return job->surface_of[slot_of(b, at, scene_medium(job, cell, (double)at->z_mm))];
}
