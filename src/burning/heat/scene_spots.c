/* scene_spots.c: points spread evenly over every body's skin, the same ones as long as its shape is about the same.
 *
 * Along each axis of the stove a body is looked through by lines, at the points of an even sequence over that face of its box.
 * Where a line meets skin that faces this axis more than the others there is a point; points of an axis stand for all the skin
 * that faces so, each by 1/|n_axis|; skin that no line of its axis meets (edges of narrow parts) is shared out over the body's
 * other points, so that they stand for all of it. A line keeps its place in the box and its two numbers for a ray however the
 * skin is cut into triangles, and one line more changes no other: designs that differ little are asked by the same rays (common
 * random numbers; Glasserman & Yao 1992, from memory), so that their answers differ by the design and not by the draw. */
#include "burning/heat/scene_parts.h"

#include <math.h>

enum {
    SMALL_SAMPLES = 48,
    LEAST_SAMPLES = 60,
    AXES = 3,
    MOST_TIMES = 8,
    LINES_MOST = 65536 /* of the spread, then it repeats */
};

static const double lines_a_square = 2.0;

typedef struct meet { /* of a line with the skin */
    uint32_t line, triangle;
    float along_mm;
} meet;

typedef struct lines { /* in shares of one face of a body's box; sorted into squares of a grid */
    size_t count, side;
    scene_spread start;
    double *u, *v;          /* [count] */
    uint32_t *first, *line; /* [side^2 + 1] of a square, [count] */
} lines;

typedef struct facet { /* of a body's mesh */
    sw_vec3 twice;     /* normal as long as twice its area */
    int axis;          /* that it faces most */
} facet;

typedef struct look { /* through one body along one axis */
    const scene_body *body;
    const facet *facets; /* [triangle_count] */
    int p, q, axis;      /* p, q: of the face */
    lines lines;
    double area_mm2; /* of skin that faces the axis */
    meet *meets;
    size_t count, room;
} look;

static double part_of(sw_vec3 v, int axis)
{
    return axis == 0 ? v.x_mm : axis == 1 ? v.y_mm : v.z_mm;
}

/* ---- how many ---- */

/* Shares go with the square root of the area: half way between the same for all and the same for every square metre. */
static void share_out(scene_job *job)
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
        b->weight_m2 = b->skin_m2 / (b->kind == SW_PART_SMALL ? SMALL_SAMPLES : fmax(share, LEAST_SAMPLES));
    }
}

/* ---- lines ---- */

static size_t square_of(const lines *l, double u, double v)
{
    double side = (double)l->side;
    return (size_t)fmin(v * side, side - 1.0) * l->side + (size_t)fmin(u * side, side - 1.0);
}

static sw_status lay_lines(sw_run *run, lines *l, size_t count, uint64_t seed)
{
    sw_random random = sw_random_seeded(seed);
    l->count = count;
    l->side = (size_t)fmax(1.0, sqrt((double)count / lines_a_square));
    size_t squares = l->side * l->side;
    l->u = SW_SCRATCH(run, count, double);
    l->v = SW_SCRATCH(run, count, double);
    l->line = SW_SCRATCH(run, count, uint32_t);
    l->first = SW_SCRATCH(run, squares + 2, uint32_t);
    if (l->u == NULL || l->v == NULL || l->line == NULL || l->first == NULL) return SW_NO_MEMORY;
    l->start = scene_spread_open(&random);
    for (size_t i = 0; i < count; i++) {
        scene_spread at = scene_spread_after(&l->start, i);
        l->u[i] = at.at[0];
        l->v[i] = at.at[1];
        l->first[square_of(l, l->u[i], l->v[i]) + 2]++;
    }
    for (size_t i = 0; i < squares; i++) l->first[i + 2] += l->first[i + 1];
    for (uint32_t i = 0; i < count; i++) l->line[l->first[square_of(l, l->u[i], l->v[i]) + 1]++] = i;
    return SW_OK;
}

/* ---- one triangle ---- */

typedef struct leaf { /* a triangle over the face: where it lies, in shares; along = along0 + by_u u + by_v v */
    double u[3], v[3], along_mm, by_u, by_v;
} leaf;

static int axis_of(sw_vec3 n)
{
    double x = fabs(n.x_mm), y = fabs(n.y_mm), z = fabs(n.z_mm);
    return z >= x && z >= y ? 2 : y >= x ? 1 : 0;
}

static void fill_facets(const sw_mesh *m, facet *facets)
{
    for (size_t i = 0; i < m->triangle_count; i++) {
        const sw_triangle *t = &m->triangles[i];
        sw_vec3 a = m->points[t->a];
        facets[i].twice = sw_vec3_cross(sw_vec3_sub(m->points[t->b], a), sw_vec3_sub(m->points[t->c], a));
        facets[i].axis = axis_of(facets[i].twice);
    }
}

static leaf leaf_of(const look *k, size_t triangle, sw_vec3 n)
{
    const scene_body *b = k->body;
    const sw_triangle *t = &b->mesh.triangles[triangle];
    const sw_vec3 corner[3] = {b->mesh.points[t->a], b->mesh.points[t->b], b->mesh.points[t->c]};
    double low_p = part_of(b->low, k->p), low_q = part_of(b->low, k->q);
    double size_p = part_of(b->high, k->p) - low_p, size_q = part_of(b->high, k->q) - low_q;
    leaf f;
    for (int i = 0; i < 3; i++) {
        f.u[i] = (part_of(corner[i], k->p) - low_p) / size_p;
        f.v[i] = (part_of(corner[i], k->q) - low_q) / size_q;
    }
    f.by_u = -part_of(n, k->p) / part_of(n, k->axis) * size_p;
    f.by_v = -part_of(n, k->q) / part_of(n, k->axis) * size_q;
    f.along_mm = part_of(corner[0], k->axis) - f.by_u * f.u[0] - f.by_v * f.v[0];
    return f;
}

static double turn(const leaf *f, int a, int b, double u, double v)
{
    return (f->u[b] - f->u[a]) * (v - f->v[a]) - (f->v[b] - f->v[a]) * (u - f->u[a]);
}

static bool covers(const leaf *f, double u, double v)
{
    double a = turn(f, 0, 1, u, v), b = turn(f, 1, 2, u, v), c = turn(f, 2, 0, u, v);
    return (a >= 0.0 && b >= 0.0 && c >= 0.0) || (a <= 0.0 && b <= 0.0 && c <= 0.0);
}

static size_t step_of(double share, size_t side)
{
    return (size_t)fmin(fmax(share, 0.0) * (double)side, (double)side - 1.0);
}

static sw_status meet_triangle(sw_run *run, look *k, uint32_t triangle, sw_vec3 n)
{
    const leaf f = leaf_of(k, triangle, n);
    const lines *l = &k->lines;
    size_t u0 = step_of(fmin(f.u[0], fmin(f.u[1], f.u[2])), l->side);
    size_t u1 = step_of(fmax(f.u[0], fmax(f.u[1], f.u[2])), l->side);
    size_t v0 = step_of(fmin(f.v[0], fmin(f.v[1], f.v[2])), l->side);
    size_t v1 = step_of(fmax(f.v[0], fmax(f.v[1], f.v[2])), l->side);
    for (size_t row = v0; row <= v1; row++)
        for (uint32_t i = l->first[row * l->side + u0]; i < l->first[row * l->side + u1 + 1]; i++) {
            uint32_t line = l->line[i];
            double u = l->u[line], v = l->v[line];
            if (!covers(&f, u, v)) continue;
            meet *grown = sw_grow(run, run->scratch, k->meets, k->count, &k->room, sizeof *grown);
            if (grown == NULL) return SW_NO_MEMORY;
            k->meets = grown;
            grown[k->count++] = (meet){line, triangle, (float)(f.along_mm + f.by_u * u + f.by_v * v)};
        }
    return SW_OK;
}

/* ---- in an order that the triangles have no part in ---- */

static sw_status put_in_order(sw_run *run, look *k)
{
    meet *sorted = SW_SCRATCH(run, k->count + 1, meet);
    uint32_t *first = SW_SCRATCH(run, k->lines.count + 2, uint32_t);
    if (sorted == NULL || first == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < k->count; i++) first[k->meets[i].line + 2]++;
    for (size_t i = 2; i < k->lines.count + 2; i++) first[i] += first[i - 1];
    for (size_t i = 0; i < k->count; i++) sorted[first[k->meets[i].line + 1]++] = k->meets[i];
    for (size_t i = 1; i < k->count; i++) { /* few on a line */
        meet one = sorted[i];
        size_t at = i;
        for (; at > 0 && sorted[at - 1].line == one.line && sorted[at - 1].along_mm > one.along_mm; at--)
            sorted[at] = sorted[at - 1];
        sorted[at] = one;
    }
    k->meets = sorted;
    return SW_OK;
}

static sw_vec3 place_of(const look *k, const meet *m)
{
    const scene_body *b = k->body;
    double at[AXES];
    at[k->p] = part_of(b->low, k->p) + k->lines.u[m->line] * (part_of(b->high, k->p) - part_of(b->low, k->p));
    at[k->q] = part_of(b->low, k->q) + k->lines.v[m->line] * (part_of(b->high, k->q) - part_of(b->low, k->q));
    at[k->axis] = (double)m->along_mm;
    return (sw_vec3){at[0], at[1], at[2]};
}

/* Skins on either side of a sheet get rays of their own. */
static void number_ray(const look *k, uint32_t line, bool turned, scene_sample *s)
{
    scene_spread at = scene_spread_after(&k->lines.start, line);
    for (int i = 0; i < 2; i++) {
        double share = at.at[2 + i] + (turned ? 0.5 : 0.0);
        s->turn[i] = (float)(share < 1.0 ? share : share - 1.0);
    }
}

static sw_status add_samples(sw_run *run, scene_job *job, look *k)
{
    double each = 0.0;
    for (size_t i = 0; i < k->count; i++) {
        sw_vec3 n = sw_vec3_unit(k->facets[k->meets[i].triangle].twice);
        scene_sample *grown =
            sw_grow(run, run->scratch, job->samples, job->sample_count, &job->sample_room, sizeof *grown);
        if (grown == NULL) return SW_NO_MEMORY;
        job->samples = grown;
        scene_sample *s = &grown[job->sample_count++];
        sw_vec3 p = place_of(k, &k->meets[i]);
        *s = (scene_sample){
            .at = {(float)p.x_mm, (float)p.y_mm, (float)p.z_mm, {(float)n.x_mm, (float)n.y_mm, (float)n.z_mm}},
            .body = (uint32_t)(k->body - job->bodies),
            .weight_m2 = (float)(1.0 / fabs(part_of(n, k->axis)))};
        number_ray(k, k->meets[i].line, part_of(n, k->axis) < 0.0, s);
        each += (double)s->weight_m2;
    }
    for (size_t i = job->sample_count - k->count; i < job->sample_count; i++)
        job->samples[i].weight_m2 *= (float)(sw_m2_from_mm2(k->area_mm2) / each);
    return SW_OK;
}

/* ---- one body ---- */

/* What no line met, over what lines met. */
static void share_missed(scene_job *job, const scene_body *b, double met_mm2)
{
    double all_mm2 = sw_mm2_from_m2(b->skin_m2);
    if (!(met_mm2 > 0.0) || met_mm2 > (1.0 - 1e-9) * all_mm2) return;
    for (size_t i = b->first; i < job->sample_count; i++) job->samples[i].weight_m2 *= (float)(all_mm2 / met_mm2);
}

static double facing_mm2(const look *k)
{
    double sum = 0.0;
    for (size_t i = 0; i < k->body->mesh.triangle_count; i++)
        if (k->facets[i].axis == k->axis) sum += 0.5 * sw_vec3_length(k->facets[i].twice);
    return sum;
}

/* Adds the area of the skin that it meets to *met_mm2. */
static sw_status look_along(sw_run *run, scene_job *job, const scene_body *b, const facet *facets, int axis,
                            double *met_mm2)
{
    look k = {.body = b, .facets = facets, .axis = axis, .p = (axis + 1) % AXES, .q = (axis + 2) % AXES};
    sw_vec3 size = sw_vec3_sub(b->high, b->low);
    double face_mm2 = part_of(size, k.p) * part_of(size, k.q), least_mm2 = sw_mm2_from_m2(b->weight_m2);
    k.area_mm2 = facing_mm2(&k);
    if (!(k.area_mm2 > 0.0) || !(face_mm2 > 0.0)) return SW_OK;
    double most = MOST_TIMES * b->skin_m2 / b->weight_m2;
    size_t index = (size_t)(b - job->bodies);
    uint64_t seed = job->opt->seed * (uint64_t)0x9E3779B97F4A7C15 + AXES * index + (uint64_t)axis;
    SW_TRY(lay_lines(run, &k.lines, (size_t)fmin(fmin(ceil(face_mm2 / least_mm2), most), LINES_MOST), seed));
    for (size_t i = 0; i < b->mesh.triangle_count; i++)
        if (facets[i].axis == axis && fabs(part_of(facets[i].twice, axis)) > 0.0)
            SW_TRY(meet_triangle(run, &k, (uint32_t)i, facets[i].twice));
    if (k.count > 0) *met_mm2 += k.area_mm2;
    SW_TRY(put_in_order(run, &k));
    return add_samples(run, job, &k);
}

sw_status scene_spots(sw_run *run, scene_job *job)
{
    share_out(job);
    for (size_t i = 0; i < job->body_count; i++) {
        scene_body *b = &job->bodies[i];
        b->first = job->sample_count;
        if (b->mesh.triangle_count == 0) continue;
        facet *facets = SW_SCRATCH(run, b->mesh.triangle_count, facet);
        if (facets == NULL) return SW_NO_MEMORY;
        fill_facets(&b->mesh, facets);
        double met_mm2 = 0.0;
        for (int axis = 0; axis < AXES; axis++) SW_TRY(look_along(run, job, b, facets, axis, &met_mm2));
        share_missed(job, b, met_mm2);
        b->count = job->sample_count - b->first;
        if (b->count > 0) b->weight_m2 = b->skin_m2 / (double)b->count;
    }
    return SW_OK;
}
