/* scene_flue.c: where the flue gas leaves, closed with a cap so that rays do not; and the levels of baffle and bed. */
#include "burning/heat/scene_parts.h"
#include "transfer/transfer.h"

#include <math.h>

enum { CAP_SIDES = 24 };

static double part_of(sw_vec3 v, int axis)
{
    return axis == 0 ? v.x_mm : axis == 1 ? v.y_mm : v.z_mm;
}

static sw_vec3 unit_along(int axis, double sign)
{
    return (sw_vec3){axis == 0 ? sign : 0.0, axis == 1 ? sign : 0.0, axis == 2 ? sign : 0.0};
}

/* The normals of a tube stand upright on its axis, all round alike. -1: no tube. */
static int axis_of(const sw_mesh *m)
{
    double sum[3] = {0};
    for (size_t i = 0; i < m->triangle_count; i++) {
        const sw_triangle *t = &m->triangles[i];
        sw_vec3 a = m->points[t->a];
        sw_vec3 n = sw_vec3_cross(sw_vec3_sub(m->points[t->b], a), sw_vec3_sub(m->points[t->c], a));
        for (int k = 0; k < 3; k++) sum[k] += fabs(part_of(n, k));
    }
    int axis = sum[2] <= sum[1] && sum[2] <= sum[0] ? 2 : sum[1] <= sum[0] ? 1 : 0;
    double one = sum[(axis + 1) % 3], other = sum[(axis + 2) % 3];
    return fmin(one, other) > 0.5 * fmax(one, other) ? axis : -1;
}

/* Least distance of the mesh's sides from the axis: inside radius of a tube, of its corners less than 0.1 mm off. */
static double inner_radius(const sw_mesh *m, sw_vec3 middle, int axis)
{
    double least = (double)INFINITY;
    for (size_t i = 0; i < m->point_count; i++) {
        sw_vec3 d = sw_vec3_sub(m->points[i], middle);
        sw_vec3 along = sw_vec3_scaled(unit_along(axis, 1.0), part_of(d, axis));
        least = fmin(least, sw_vec3_length(sw_vec3_sub(d, along)));
    }
    return least;
}

static void look_at(scene_job *job, uint32_t body, double *longest_mm)
{
    const sw_mesh *m = &job->bodies[body].mesh;
    sw_vec3 low, high;
    sw_mesh_box(m, &low, &high);
    int axis = axis_of(m);
    if (axis < 0) return;
    double length_mm = part_of(sw_vec3_sub(high, low), axis);
    if (!(length_mm > *longest_mm)) return;
    *longest_mm = length_mm;
    sw_vec3 middle = sw_vec3_scaled(sw_vec3_add(low, high), 0.5);
    sw_vec3 stove = sw_vec3_scaled(sw_vec3_add(job->low, job->high), 0.5);
    double sign = part_of(middle, axis) < part_of(stove, axis) && axis != 2 ? -1.0 : 1.0;
    job->flue = (scene_flue){.axis = unit_along(axis, sign),
                             .radius_mm = inner_radius(m, middle, axis),
                             .length_mm = length_mm,
                             .body = body};
    job->flue.middle = sw_vec3_add(middle, sw_vec3_scaled(job->flue.axis, length_mm / 2.0));
}

/* A disc half a millimetre beyond the outlet's end, its front to the outside. */
static sw_status lay_cap(sw_run *run, scene_job *job)
{
    sw_vec3 *points = SW_SCRATCH(run, CAP_SIDES, sw_vec3);
    sw_triangle *triangles = SW_SCRATCH(run, CAP_SIDES - 2, sw_triangle);
    if (points == NULL || triangles == NULL) return SW_NO_MEMORY;
    sw_vec3 z = job->flue.axis, x = fabs(z.x_mm) > 0.5 ? (sw_vec3){0, 1, 0} : (sw_vec3){1, 0, 0};
    sw_frame f = {x, sw_vec3_cross(z, x), z, sw_vec3_add(job->flue.middle, sw_vec3_scaled(z, 0.5))};
    double r_mm = job->flue.radius_mm + 2.0;
    for (uint32_t i = 0; i < CAP_SIDES; i++) {
        double angle = 2.0 * SW_PI * i / CAP_SIDES;
        points[i] = sw_frame_point(f, (sw_vec3){r_mm * cos(angle), r_mm * sin(angle), 0.0});
    }
    for (uint32_t i = 0; i + 2 < CAP_SIDES; i++) triangles[i] = (sw_triangle){0, i + 1, i + 2};
    job->cap = (sw_mesh){points, CAP_SIDES, triangles, CAP_SIDES - 2};
    return SW_OK;
}

sw_status scene_find_flue(sw_run *run, scene_job *job)
{
    double longest_mm = 0.0;
    job->flue.radius_mm = job->scene->collar_m2 = job->scene->collar_height_m = (double)NAN;
    const scene_role *collar = scene_role_find("flue collar");
    for (size_t i = 0; i < job->body_count; i++)
        if (job->bodies[i].role == collar && job->bodies[i].mesh.triangle_count > 0)
            look_at(job, (uint32_t)i, &longest_mm);
    if (!(longest_mm > 0.0)) return SW_OK;
    sw_scene *s = job->scene;
    s->collar_m2 = SW_PI * pow(sw_m_from_mm(job->flue.radius_mm), 2.0);
    s->collar_height_m = sw_m_from_mm(job->flue.middle.z_mm);
    return lay_cap(run, job);
}

/* An even point of the outlet. */
static sw_vec3 outlet_point(const scene_flue *f, sw_random *random)
{
    sw_vec3 n = f->axis,
            x = sw_vec3_unit(sw_vec3_cross(fabs(n.x_mm) > 0.7 ? (sw_vec3){0, 1, 0} : (sw_vec3){1, 0, 0}, n));
    sw_vec3 y = sw_vec3_cross(n, x);
    double r_mm = f->radius_mm * sqrt(sw_random_unit(random)), angle = 2.0 * SW_PI * sw_random_unit(random);
    sw_vec3 off = sw_vec3_add(sw_vec3_scaled(x, r_mm * cos(angle)), sw_vec3_scaled(y, r_mm * sin(angle)));
    return sw_vec3_add(f->middle, off);
}

/* A tube that nothing closes lets as many rays past its inner end as its ends see of each other. Where that is too few to
 * tell, or one gets through, it counts as open. */
void scene_look_into_flue(scene_job *job)
{
    enum { RAYS = 1024, TELLING = 10 };
    const double seat_mm = 3.0, far_mm = 1e4; /* a plate this close to the inner end closes it. Ours */
    scene_flue *f = &job->flue;
    if (isnan(f->radius_mm)) return;
    double deep_mm = f->length_mm + seat_mm;
    if (!(sw_view_discs(f->radius_mm, f->radius_mm, deep_mm) * RAYS >= TELLING)) return;
    sw_random random = sw_random_seeded(job->opt->seed);
    sw_vec3 in = sw_vec3_scaled(f->axis, -1.0);
    f->blocked = true;
    for (int i = 0; i < RAYS && f->blocked; i++) {
        sw_vec3 from = outlet_point(f, &random);
        double u = sw_random_unit(&random), v = sw_random_unit(&random);
        sw_vec3 d = scene_cosine_direction(in, u, v);
        ray_hit h = rays_first(job->rays, from, d, far_mm);
        if (isinf(h.length_mm) || h.length_mm * sw_vec3_dot(d, in) > deep_mm) f->blocked = false;
    }
    if (f->blocked) job->scene->collar_m2 = 0.0;
}

/* ---- levels ---- */

/* Area of the mesh that lies flatter than 45 degrees as a share of all, and its mean height. */
static double lying_share(const sw_mesh *m, double *height_mm)
{
    double all = 0.0, lying = 0.0, moment = 0.0;
    for (size_t i = 0; i < m->triangle_count; i++) {
        const sw_triangle *t = &m->triangles[i];
        sw_vec3 a = m->points[t->a], b = m->points[t->b], c = m->points[t->c];
        sw_vec3 n = sw_vec3_cross(sw_vec3_sub(b, a), sw_vec3_sub(c, a));
        double size = sw_vec3_length(n);
        all += size;
        if (fabs(n.z_mm) < size * sqrt(0.5)) continue;
        lying += size;
        moment += size * (a.z_mm + b.z_mm + c.z_mm) / 3.0;
    }
    *height_mm = moment / lying;
    return all > 0.0 ? lying / all : 0.0;
}

void scene_find_level(scene_job *job)
{
    const double least_lying = 0.4; /* guides and log guards stand */
    job->level_mm = (double)INFINITY;
    job->bed_mm = (double)INFINITY;
    for (size_t i = 0; i < job->body_count; i++) {
        const scene_body *b = &job->bodies[i];
        double height_mm = 0.0;
        if (b->mesh.triangle_count == 0 || (b->kind != SW_PART_BAFFLE && b->kind != SW_PART_GRATE)) continue;
        bool lies = lying_share(&b->mesh, &height_mm) > least_lying;
        if (b->kind == SW_PART_BAFFLE && lies) job->level_mm = fmin(job->level_mm, height_mm);
        if (b->kind == SW_PART_GRATE) job->bed_mm = fmin(job->bed_mm, height_mm);
    }
    if (isinf(job->bed_mm)) job->bed_mm = -(double)INFINITY;
}
