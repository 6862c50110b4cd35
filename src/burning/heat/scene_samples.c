/* scene_samples.c: points on every body's skin, spread evenly over its area; along the normal of each what touches it
 * or lies before it, and one cosine ray. A body has its own stream of numbers, so threads do not change the answer.
 * */
#include "burning/heat/scene_parts.h"

#include <math.h>

#define LIFT_MM 0.1 /* rays start this far before the skin: less than the gap of a close fit, more than rounding */
#define FAR_MM  1e5
enum { SMALL_SAMPLES = 48, LEAST_SAMPLES = 60, TRIES = 3 };

/* ---- how many ---- */

/* Shares go with the square root of the area: half way between the same for all and the same for every square metre. */
static sw_status share_out(sw_run *run, scene_job *job)
{
    double roots = 0.0, parts = 0.0;
    for (size_t i = 0; i < job->body_count; i++) {
        if (job->bodies[i].kind == SW_PART_SMALL || job->bodies[i].mesh.triangle_count == 0) continue;
        roots += sqrt(job->bodies[i].skin_m2);
        parts += 1.0;
    }
    for (size_t i = 0; i < job->body_count; i++) {
        scene_body *b = &job->bodies[i];
        if (b->mesh.triangle_count == 0) continue;
        double share = job->opt->rays_per_part * parts * sqrt(b->skin_m2) / roots;
        b->count = b->kind == SW_PART_SMALL ? SMALL_SAMPLES : (size_t)fmax(share, LEAST_SAMPLES);
        b->first = job->sample_count;
        b->weight_m2 = b->skin_m2 / (double)b->count;
        job->sample_count += b->count;
    }
    job->samples = SW_SCRATCH(run, job->sample_count + 1, scene_sample);
    return job->samples == NULL ? SW_NO_MEMORY : SW_OK;
}

/* ---- where ---- */

typedef struct
    spread { /* four numbers of [0, 1) a step, evenly spread: Roberts' sequence, powers of the root of x^5 = x + 1
                           (from memory); shifted by a random start (Cranley & Patterson 1976) */
    double at[4];
} spread;

static spread spread_open(sw_random *random)
{
    spread s;
    for (int i = 0; i < 4; i++) s.at[i] = sw_random_unit(random);
    return s;
}

static void spread_step(spread *s)
{
    static const double by[4] = {0.85667488385450287, 0.73389185662707240, 0.62870672103812766, 0.53859725722361189};
    for (int i = 0; i < 4; i++) {
        s->at[i] += by[i];
        s->at[i] -= floor(s->at[i]);
    }
}

typedef struct walker { /* along the triangles by area */
    const sw_mesh *mesh;
    size_t triangle;
    double passed_mm2, size_mm2; /* area before the triangle, and of it */
    sw_vec3 a, ab, ac, normal;
} walker;

static void enter(walker *w)
{
    const sw_triangle *t = &w->mesh->triangles[w->triangle];
    w->a = w->mesh->points[t->a];
    w->ab = sw_vec3_sub(w->mesh->points[t->b], w->a);
    w->ac = sw_vec3_sub(w->mesh->points[t->c], w->a);
    sw_vec3 n = sw_vec3_cross(w->ab, w->ac);
    double twice = sw_vec3_length(n);
    w->size_mm2 = twice / 2.0;
    if (twice > 0.0) w->normal = sw_vec3_scaled(n, 1.0 / twice);
}

static void walk_to(walker *w, double area_mm2)
{
    while (w->passed_mm2 + w->size_mm2 < area_mm2 && w->triangle + 1 < w->mesh->triangle_count) {
        w->passed_mm2 += w->size_mm2;
        w->triangle++;
        enter(w);
    }
}

static scene_spot spot_of(sw_vec3 p, sw_vec3 n)
{
    return (scene_spot){(float)p.x_mm, (float)p.y_mm, (float)p.z_mm, {(float)n.x_mm, (float)n.y_mm, (float)n.z_mm}};
}

/* Evenly over the triangle: u, v of the unit square folded along its diagonal. */
static sw_vec3 within(const walker *w, double u, double v)
{
    if (u + v > 1.0) u = 1.0 - u, v = 1.0 - v;
    return sw_vec3_add(w->a, sw_vec3_add(sw_vec3_scaled(w->ab, u), sw_vec3_scaled(w->ac, v)));
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

/* ---- what it sees ---- */

/* From within another solid the normal ends on its far side: then it lies on us. */
static void look_along(const scene_job *job, scene_sample *s, sw_vec3 p, sw_vec3 n)
{
    ray_hit h = rays_first(job->rays, p, n, SCENE_REACH_MM);
    if (isinf(h.length_mm)) return;
    uint32_t body = job->body_of[h.triangle];
    if (body == job->body_count) return; /* the cap */
    double clear_mm = h.back ? 0.0 : h.length_mm + LIFT_MM;
    bool near = clear_mm < sw_mm_from_m(job->opt->contact_below_m);
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

static void look_about(const scene_job *job, scene_sample *s, sw_vec3 p, sw_vec3 n, spread *random)
{
    for (int i = 0; i < TRIES; i++) {
        if (cast(job, s, p, scene_cosine_direction(n, random->at[2], random->at[3]))) return;
        spread_step(random);
    }
    s->lost = true;
}

static void sample_body(void *context, size_t i)
{
    const scene_job *job = context;
    const scene_body *b = &job->bodies[i];
    if (b->count == 0) return;
    sw_random random = sw_random_seeded(job->opt->seed * (uint64_t)0x9E3779B97F4A7C15 + i);
    spread at = spread_open(&random);
    walker w = {.mesh = &b->mesh};
    enter(&w);
    double step_mm2 = sw_mm2_from_m2(b->weight_m2);
    for (size_t k = 0; k < b->count; k++) {
        scene_sample *s = &job->samples[b->first + k];
        walk_to(&w, ((double)k + sw_random_unit(&random)) * step_mm2);
        spread_step(&at);
        sw_vec3 p = within(&w, at.at[0], at.at[1]), lifted = sw_vec3_add(p, sw_vec3_scaled(w.normal, LIFT_MM));
        *s =
            (scene_sample){.at = spot_of(p, w.normal), .body = (uint32_t)i, .pressed = SCENE_NONE, .faces = SCENE_NONE};
        s->clear_mm = INFINITY;
        s->hit = s->cell = s->hit_cell = SCENE_NONE;
        look_along(job, s, lifted, w.normal);
        if (scene_open(s) && b->kind != SW_PART_SMALL) look_about(job, s, lifted, w.normal, &at);
    }
}

sw_status scene_samples(sw_run *run, scene_job *job)
{
    SW_TRY(share_out(run, job));
    sw_parallel_for(run->threads, job->body_count, sample_body, job);
    for (size_t i = 0; i < job->sample_count; i++) {
        const scene_sample *one = &job->samples[i];
        bool both = job->bodies[one->body].kind != SW_PART_SMALL && scene_open(one);
        job->scene->rays += both ? 2 : 1;
    }
    return sw_run_cancelled(run) ? SW_CANCELLED : SW_OK;
}
