/* scene_samples.c: what the points of every body's skin see: along the normal of each what touches it or lies before it, and one
 * cosine ray. Each has its own numbers, so threads do not change the answer. */
#include "burning/heat/scene_parts.h"

#include <math.h>

#define LIFT_MM 0.1 /* rays start this far before the skin: less than the gap of a close fit, more than rounding */
#define FAR_MM  1e5
enum { TRIES = 3 };

/* ---- Sobol's sequence in four dimensions, first numbers chosen so that pairs fill squares evenly with 16 to
 * 1024 points (ours; Sobol 1967, from memory), shifted by a random start (Cranley & Patterson 1976) ---- */

static const uint32_t bits_of[4][16] = {{0x8000, 0x4000, 0x2000, 0x1000, 0x0800, 0x0400, 0x0200, 0x0100, 0x0080, 0x0040,
                                         0x0020, 0x0010, 0x0008, 0x0004, 0x0002, 0x0001},
                                        {0x8000, 0xc000, 0xa000, 0xf000, 0x8800, 0xcc00, 0xaa00, 0xff00, 0x8080, 0xc0c0,
                                         0xa0a0, 0xf0f0, 0x8888, 0xcccc, 0xaaaa, 0xffff},
                                        {0x8000, 0x4000, 0xe000, 0xb000, 0x6800, 0xf400, 0x8600, 0x4f00, 0xe880, 0xb440,
                                         0x66e0, 0xffb0, 0x80e8, 0x40b4, 0xe066, 0xb0ff},
                                        {0x8000, 0x4000, 0x6000, 0xd000, 0x2800, 0xbc00, 0xe200, 0x9100, 0x4980, 0x6f40,
                                         0xcaa0, 0x2ff0, 0xa808, 0xfc04, 0x8206, 0x410d}};

scene_spread scene_spread_open(sw_random *random)
{
    scene_spread s;
    for (int i = 0; i < 4; i++) s.at[i] = sw_random_unit(random);
    return s;
}

scene_spread scene_spread_after(const scene_spread *start, size_t steps)
{
    scene_spread s;
    for (int i = 0; i < 4; i++) {
        uint32_t bits = 0;
        for (int b = 0; b < 16 && steps >> b != 0; b++) bits ^= (steps >> b & 1) != 0 ? bits_of[i][b] : 0;
        s.at[i] = start->at[i] + (double)bits / 65536.0;
        s.at[i] -= floor(s.at[i]);
    }
    return s;
}

static scene_spot spot_of(sw_vec3 p, sw_vec3 n)
{
    return (scene_spot){(float)p.x_mm, (float)p.y_mm, (float)p.z_mm, {(float)n.x_mm, (float)n.y_mm, (float)n.z_mm}};
}

/* Direction about n with the density of its cosine (Malley's method: an even point of the disc, lifted). */
sw_vec3 scene_cosine_direction(sw_vec3 n, double u, double v)
{
    double r = sqrt(u), angle = 2.0 * SW_PI * v, up = sqrt(fmax(0.0, 1.0 - u));
    sw_vec3 x = sw_vec3_unit(sw_vec3_cross(fabs(n.x_mm) > 0.7 ? (sw_vec3){0, 1, 0} : (sw_vec3){1, 0, 0}, n));
    sw_vec3 y = sw_vec3_cross(n, x);
    return sw_vec3_add(sw_vec3_scaled(n, up),
                       sw_vec3_add(sw_vec3_scaled(x, r * cos(angle)), sw_vec3_scaled(y, r * sin(angle))));
}

/* From within another solid the normal ends on its far side: then it lies on us. */
static void look_along(const scene_job *job, scene_sample *s, sw_vec3 p, sw_vec3 n)
{
    ray_hit h = rays_first(job->rays, p, n, SCENE_REACH_MM);
    if (isinf(h.length_mm)) return;
    uint32_t body = job->body_of[h.triangle];
    if (body == job->body_count) return; /* the cap */
    double clear_mm = h.back ? 0.0 : h.length_mm + LIFT_MM - SCENE_DRAWN_IN_MM;
    bool near = scene_is_near(job, clear_mm);
    s->clear_mm = (float)clear_mm;
    s->faces = h.back ? SCENE_NONE : body;
    if (near && body == s->body) s->lost = true;
    if (near && body != s->body) s->pressed = body;
}

/* Height where the straight way from p leaves the stove's box. */
static double way_out_z(const scene_job *job, sw_vec3 p, sw_vec3 d)
{
    double tx = ((d.x_mm > 0.0 ? job->high.x_mm : job->low.x_mm) - p.x_mm) / d.x_mm;
    double ty = ((d.y_mm > 0.0 ? job->high.y_mm : job->low.y_mm) - p.y_mm) / d.y_mm;
    double tz = ((d.z_mm > 0.0 ? job->high.z_mm : job->low.z_mm) - p.z_mm) / d.z_mm;
    return p.z_mm + d.z_mm * fmin(tx, fmin(ty, tz));
}

/* false: the ray starts within a solid. */
static bool cast(const scene_job *job, scene_sample *s, sw_vec3 p, sw_vec3 d)
{
    ray_hit h = rays_first(job->rays, p, d, FAR_MM);
    s->hit = SCENE_NONE;
    s->length_mm = (float)h.length_mm;
    if (isinf(h.length_mm)) {
        s->out_z_mm = (float)way_out_z(job, p, d);
        return true;
    }
    uint32_t body = job->body_of[h.triangle];
    if (body == job->body_count) {
        s->leaves_flue = h.back;
        s->out_z_mm = (float)job->high.z_mm;
        s->length_mm = h.back ? s->length_mm : INFINITY;
        return true;
    }
    if (h.back) return false;
    s->hit = body;
    s->to = spot_of(sw_vec3_add(p, sw_vec3_scaled(d, h.length_mm)), h.normal);
    return true;
}

static void look_about(const scene_job *job, scene_sample *s, sw_vec3 p, sw_vec3 n)
{
    const scene_spread first = {{(double)s->turn[0], (double)s->turn[1]}};
    for (size_t i = 0; i < TRIES; i++) {
        scene_spread turn = scene_spread_after(&first, i);
        if (cast(job, s, p, scene_cosine_direction(n, turn.at[0], turn.at[1]))) return;
    }
    s->lost = true;
}

static void look(void *context, size_t i)
{
    const scene_job *job = context;
    const scene_body *b = &job->bodies[i];
    for (size_t k = b->first; k < b->first + b->count; k++) {
        scene_sample *s = &job->samples[k];
        sw_vec3 n = scene_normal(&s->at), lifted = sw_vec3_add(scene_place(&s->at), sw_vec3_scaled(n, LIFT_MM));
        s->pressed = s->faces = s->hit = s->cell = s->hit_cell = SCENE_NONE;
        s->clear_mm = INFINITY;
        look_along(job, s, lifted, n);
        if (scene_open(s) && b->kind != SW_PART_SMALL) look_about(job, s, lifted, n);
    }
}

sw_status scene_samples(sw_run *run, scene_job *job)
{
    sw_parallel_for(run->threads, job->body_count, look, job);
    for (size_t i = 0; i < job->sample_count; i++) {
        const scene_sample *one = &job->samples[i];
        bool both = job->bodies[one->body].kind != SW_PART_SMALL && scene_open(one);
        job->scene->rays += both ? 2 : 1;
    }
    return sw_run_cancelled(run) ? SW_CANCELLED : SW_OK;
}
