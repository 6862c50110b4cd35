/* map_facets.c: both sides of every triangle, and the rims of linings. */
#include "burning/heat/map_parts.h"

#include <math.h>

static sw_point mean3(sw_point a, sw_point b, sw_point c, double u, double v)
{
    return (sw_point){a.x_mm + u * (b.x_mm - a.x_mm) + v * (c.x_mm - a.x_mm),
                      a.y_mm + u * (b.y_mm - a.y_mm) + v * (c.y_mm - a.y_mm)};
}

static sw_vec3 on_side(const map_sheet *s, const map_facet *f, double u, double v, sw_vec3 *normal)
{
    const sw_triangle *t = &s->plane.triangles[f->triangle];
    const sw_point *p = s->plane.points;
    sw_vec3 middle;
    if (u + v > 1.0) u = 1.0 - u, v = 1.0 - v;
    map_place(s, mean3(p[t->a], p[t->b], p[t->c], u, v), &middle, normal);
    *normal = sw_vec3_scaled(*normal, (double)f->side);
    return sw_vec3_add(middle, sw_vec3_scaled(*normal, sw_mm_from_m(s->body->thickness_m) / 2.0));
}

static sw_vec3 on_rim(const map_sheet *s, const map_facet *f, double u, double v, sw_vec3 *normal)
{
    sw_vec3 from, to, up;
    map_place(s, f->rim_from, &from, &up);
    map_place(s, f->rim_to, &to, &up);
    *normal = sw_vec3_unit(sw_vec3_cross(sw_vec3_sub(to, from), up)); /* the sheet lies to the left */
    sw_vec3 at = sw_vec3_add(from, sw_vec3_scaled(sw_vec3_sub(to, from), u));
    return sw_vec3_add(at, sw_vec3_scaled(up, (v - 0.5) * sw_mm_from_m(s->body->thickness_m)));
}

sw_vec3 map_facet_point(const map_job *job, const map_facet *f, double u, double v, sw_vec3 *normal)
{
    const map_sheet *s = &job->sheets[f->sheet];
    return f->side == 0 ? on_rim(s, f, u, v, normal) : on_side(s, f, u, v, normal);
}

static void settle_middle(const map_job *job, map_facet *f)
{
    sw_vec3 n, p = map_facet_point(job, f, f->side == 0 ? 0.5 : 1.0 / 3.0, f->side == 0 ? 0.5 : 1.0 / 3.0, &n);
    f->at = (scene_spot){(float)p.x_mm, (float)p.y_mm, (float)p.z_mm, {(float)n.x_mm, (float)n.y_mm, (float)n.z_mm}};
    f->patch = MAP_NONE;
}

static void add_sides(map_job *job, uint32_t sheet, uint32_t t)
{
    const map_sheet *s = &job->sheets[sheet];
    const sw_triangle *v = &s->plane.triangles[t];
    const sw_point *p = s->plane.points;
    double area_mm2 = 0.5 * ((p[v->b].x_mm - p[v->a].x_mm) * (p[v->c].y_mm - p[v->a].y_mm) -
                             (p[v->b].y_mm - p[v->a].y_mm) * (p[v->c].x_mm - p[v->a].x_mm));
    for (int side = -1; side <= 1; side += 2) {
        uint32_t up = s->body->layered && side > 0 ? (uint32_t)s->plane.point_count : 0;
        map_facet *f = &job->facets[job->facet_count++];
        *f = (map_facet){.sheet = sheet,
                         .triangle = t,
                         .node = {s->first + up + v->a, s->first + up + v->b, s->first + up + v->c},
                         .corners = 3,
                         .side = (int8_t)side,
                         .area_m2 = sw_m2_from_mm2(area_mm2)};
        settle_middle(job, f);
    }
}

static void add_rim(map_job *job, uint32_t sheet, uint32_t from, uint32_t to)
{
    const map_sheet *s = &job->sheets[sheet];
    uint32_t up = (uint32_t)s->plane.point_count;
    sw_point a = s->plane.points[from], b = s->plane.points[to];
    map_facet *f = &job->facets[job->facet_count++];
    *f = (map_facet){.sheet = sheet,
                     .node = {s->first + from, s->first + to, s->first + up + from, s->first + up + to},
                     .corners = 4,
                     .rim_from = a,
                     .rim_to = b,
                     .area_m2 = sw_m_from_mm(hypot(b.x_mm - a.x_mm, b.y_mm - a.y_mm)) * s->body->thickness_m};
    settle_middle(job, f);
}

/* An edge that one triangle alone has: its way round is met once. next[from] lists the triangles' edges from a point. */
static bool has_twin(const map_plane *m, const uint32_t *first, const uint32_t *next, uint32_t from, uint32_t to)
{
    for (uint32_t i = first[to]; i != MAP_NONE; i = next[i]) {
        const sw_triangle *t = &m->triangles[i / 3];
        uint32_t end = i % 3 == 0 ? t->b : i % 3 == 1 ? t->c : t->a;
        if (end == from) return true;
    }
    return false;
}

static sw_status add_rims(sw_run *run, map_job *job, uint32_t sheet)
{
    const map_plane *m = &job->sheets[sheet].plane;
    uint32_t *first = SW_SCRATCH(run, m->point_count + 1, uint32_t);
    uint32_t *next = SW_SCRATCH(run, 3 * m->triangle_count + 1, uint32_t);
    if (first == NULL || next == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < m->point_count; i++) first[i] = MAP_NONE;
    for (uint32_t i = 0; i < 3 * m->triangle_count; i++) {
        const sw_triangle *t = &m->triangles[i / 3];
        uint32_t from = i % 3 == 0 ? t->a : i % 3 == 1 ? t->b : t->c;
        next[i] = first[from];
        first[from] = i;
    }
    for (uint32_t i = 0; i < 3 * m->triangle_count; i++) {
        const sw_triangle *t = &m->triangles[i / 3];
        uint32_t from = i % 3 == 0 ? t->a : i % 3 == 1 ? t->b : t->c, to = i % 3 == 0 ? t->b : i % 3 == 1 ? t->c : t->a;
        if (!has_twin(m, first, next, from, to)) add_rim(job, sheet, from, to);
    }
    return SW_OK;
}

sw_status map_facets(sw_run *run, map_job *job)
{
    size_t most = 0;
    for (size_t i = 0; i < job->scene->part_count; i++)
        most += (job->sheets[i].body->layered ? 5 : 2) * job->sheets[i].plane.triangle_count;
    job->facets = SW_SCRATCH(run, most + 1, map_facet);
    if (job->facets == NULL) return SW_NO_MEMORY;
    for (uint32_t i = 0; i < job->scene->part_count; i++) {
        map_sheet *s = &job->sheets[i];
        s->facet = (uint32_t)job->facet_count;
        for (uint32_t t = 0; t < s->plane.triangle_count; t++) add_sides(job, i, t);
        if (s->body->layered) SW_TRY(add_rims(run, job, i));
        s->facets = (uint32_t)job->facet_count - s->facet;
    }
    return SW_OK;
}

/* A facet that faces another way counts as a kilometre off, so that it is taken only where nothing else is. */
uint32_t map_nearest(const map_job *job, uint32_t sheet, sw_vec3 at, sw_vec3 normal, bool open)
{
    const float away = 1e12F, x = (float)at.x_mm, y = (float)at.y_mm, z = (float)at.z_mm;
    const float n[3] = {(float)normal.x_mm, (float)normal.y_mm, (float)normal.z_mm};
    const map_sheet *s = &job->sheets[sheet];
    float least = INFINITY;
    uint32_t best = MAP_NONE;
    for (uint32_t i = s->facet; i < s->facet + s->facets; i++) {
        const map_facet *f = &job->facets[i];
        float dx = f->at.x_mm - x, dy = f->at.y_mm - y, dz = f->at.z_mm - z, far = dx * dx + dy * dy + dz * dz;
        if (far >= least || (open && f->patch == MAP_NONE)) continue;
        float facing = f->at.normal[0] * n[0] + f->at.normal[1] * n[1] + f->at.normal[2] * n[2];
        far += facing < 0.5F ? away : 0.0F;
        if (far < least) least = far, best = i;
    }
    return best;
}
