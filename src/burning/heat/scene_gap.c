/* scene_gap.c: the convection gap between furnace and shell: clear width along the normals of the shell, height, and
 * its openings to the room by the rays that find them. */
#include "burning/heat/scene_parts.h"

#include <math.h>

enum { LEAST_RAYS = 20 };

typedef struct channel {
    double area_m2, clear_m3, low_mm, high_mm;
} channel;

static bool upright(const scene_spot *at)
{
    return fabs((double)at->normal[2]) < 0.5;
}

static bool in_gap(const scene_job *job, const scene_sample *s)
{
    return s->cell != SCENE_NONE && scene_medium(job, s->cell, (double)s->at.z_mm) == SW_MEDIUM_GAP;
}

/* Share with which a shell's skin counts: 1 towards the furnace, 1/2 towards another shell, since both count. */
static double counts(const scene_job *job, const scene_sample *s)
{
    if (s->faces == SCENE_NONE || s->faces == s->body || !upright(&s->at) || !in_gap(job, s)) return 0.0;
    if (job->bodies[s->body].kind != SW_PART_SHELL) return 0.0;
    sw_part_class other = job->bodies[s->faces].kind;
    if (other == SW_PART_SHELL) return 0.5;
    return other == SW_PART_BASE ? 0.0 : 1.0;
}

static channel measure(const scene_job *job)
{
    channel c = {.low_mm = (double)INFINITY, .high_mm = -(double)INFINITY};
    for (size_t i = 0; i < job->sample_count; i++) {
        const scene_sample *s = &job->samples[i];
        double share = counts(job, s);
        if (share < 1.0) continue;
        c.low_mm = fmin(c.low_mm, (double)s->at.z_mm);
        c.high_mm = fmax(c.high_mm, (double)s->at.z_mm);
    }
    for (size_t i = 0; i < job->sample_count; i++) {
        const scene_sample *s = &job->samples[i];
        double w = counts(job, s) * (double)s->weight_m2, z = (double)s->at.z_mm;
        if (!(w > 0.0) || z < c.low_mm || z > c.high_mm) continue;
        c.area_m2 += w;
        c.clear_m3 += w * sw_m_from_mm((double)s->clear_mm);
    }
    return c;
}

/* All rays through an opening end on the gap's skins, so its area is the area that the rays stand for which leave
 * through it; below the middle of the gap it lets air in, above out. */
static void find_openings(const scene_job *job, const channel *c)
{
    double in = 0.0, out = 0.0, middle = (c->low_mm + c->high_mm) / 2.0;
    size_t rays_in = 0, rays_out = 0;
    for (size_t i = 0; i < job->sample_count; i++) {
        const scene_sample *s = &job->samples[i];
        if (!in_gap(job, s) || s->hit != SCENE_NONE || s->leaves_flue) continue;
        bool low = (double)s->out_z_mm < middle;
        *(low ? &in : &out) += (double)s->weight_m2;
        *(low ? &rays_in : &rays_out) += 1;
    }
    if (rays_in >= LEAST_RAYS) job->scene->gap_in_m2 = in;
    if (rays_out >= LEAST_RAYS) job->scene->gap_out_m2 = out;
}

void scene_gap(const scene_job *job)
{
    sw_scene *s = job->scene;
    channel c = measure(job);
    s->gap_in_m2 = s->gap_out_m2 = (double)NAN;
    s->gap_height_m = s->gap_width_m = s->gap_m2 = 0.0;
    if (!(c.area_m2 > 0.0) || !(c.high_mm > c.low_mm)) return;
    s->gap_height_m = sw_m_from_mm(c.high_mm - c.low_mm);
    s->gap_width_m = c.clear_m3 / c.area_m2;
    s->gap_m2 = c.clear_m3 / s->gap_height_m;
    find_openings(job, &c);
}
