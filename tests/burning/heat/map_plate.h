/* map_plate.h: single plates as systems of the surface map, put together by hand. */
#ifndef SW_TESTS_MAP_PLATE_H
#define SW_TESTS_MAP_PLATE_H

#include "burning/heat/map_parts.h"
#include "sw_test.h"

#include <math.h>
#include <string.h>

typedef struct map_plate {
    sw_test *t;
    map_plane mesh;
    map_system sys;
    double *x, *load_w;
    bool *held;
    sw_heat_net *laws; /* constants only */
    map_matter matter;
    map_patch patch;
    map_film film;
    double width_m, depth_m;
} map_plate;

/* n x m squares, each cut into two triangles. */
static inline map_plane mp_grid(sw_test *t, double width_m, double depth_m, uint32_t n, uint32_t m)
{
    map_plane p = {SW_KEEP(&t->run, (n + 1) * (m + 1), sw_point), (n + 1) * (m + 1),
                   SW_KEEP(&t->run, 2 * n * m, sw_triangle), 0};
    for (uint32_t i = 0; i <= n; i++)
        for (uint32_t j = 0; j <= m; j++)
            p.points[i * (m + 1) + j] = (sw_point){sw_mm_from_m(width_m) * i / n, sw_mm_from_m(depth_m) * j / m};
    for (uint32_t i = 0; i < n; i++)
        for (uint32_t j = 0; j < m; j++) {
            uint32_t a = i * (m + 1) + j, b = a + m + 1;
            p.triangles[p.triangle_count++] = (sw_triangle){a, b, b + 1};
            p.triangles[p.triangle_count++] = (sw_triangle){a, b + 1, a + 1};
        }
    return p;
}

static inline double mp_area_m2(const map_plane *p, size_t i)
{
    const sw_triangle *t = &p->triangles[i];
    sw_point a = p->points[t->a], b = p->points[t->b], c = p->points[t->c];
    return sw_m2_from_mm2(0.5 * ((b.x_mm - a.x_mm) * (c.y_mm - a.y_mm) - (b.y_mm - a.y_mm) * (c.x_mm - a.x_mm)));
}

static inline map_plate *mp_new(sw_test *t, map_plane mesh, double k, double thickness_m)
{
    map_plate *p = SW_KEEP(&t->run, 1, map_plate);
    size_t n = mesh.point_count;
    p->t = t;
    p->mesh = mesh;
    p->x = SW_KEEP(&t->run, n, double);
    p->load_w = SW_KEEP(&t->run, n, double);
    p->held = SW_KEEP(&t->run, n, bool);
    p->laws = SW_KEEP(&t->run, 1, sw_heat_net);
    p->laws->model = sw_heat_model_defaults();
    p->matter = (map_matter){NULL, k, 1};
    p->sys = (map_system){.nodes = n, .unknowns = n, .bed = MAP_NONE, .x = p->x, .load_w = p->load_w};
    p->sys.held = p->held;
    p->sys.matters = &p->matter;
    p->sys.laws = p->laws;
    p->sys.triangles = SW_KEEP(&t->run, mesh.triangle_count, map_triangle);
    for (size_t i = 0; i < mesh.triangle_count; i++) {
        const sw_triangle *v = &mesh.triangles[i];
        map_triangle *e = &p->sys.triangles[p->sys.triangle_count++];
        *e = (map_triangle){{v->a, v->b, v->c}, 0, thickness_m, {0}};
        sw_point corner[3] = {mesh.points[v->a], mesh.points[v->b], mesh.points[v->c]};
        map_half_cots(corner, e->half_cot);
    }
    return p;
}

/* Even heat where x_mm < up_to. */
static inline void mp_heat(map_plate *p, double w_m2, double up_to_mm)
{
    for (size_t i = 0; i < p->mesh.triangle_count; i++) {
        const sw_triangle *v = &p->mesh.triangles[i];
        double middle_mm = (p->mesh.points[v->a].x_mm + p->mesh.points[v->b].x_mm + p->mesh.points[v->c].x_mm) / 3;
        double each = middle_mm < up_to_mm ? w_m2 * mp_area_m2(&p->mesh, i) / 3 : 0;
        p->load_w[v->a] += each, p->load_w[v->b] += each, p->load_w[v->c] += each;
    }
}

/* One side loses to air by h and to walls around by emissivity e, both at sink_k. */
static inline void mp_lose(map_plate *p, double h, double e, double sink_k)
{
    map_system *s = &p->sys;
    sw_run *run = &p->t->run;
    double area_m2 = 0;
    s->shares = SW_KEEP(run, s->nodes, map_share);
    s->share_count = s->nodes;
    for (uint32_t i = 0; i < s->nodes; i++) s->shares[i] = (map_share){i, 0, 0};
    for (size_t i = 0; i < p->mesh.triangle_count; i++) {
        const sw_triangle *v = &p->mesh.triangles[i];
        double a = mp_area_m2(&p->mesh, i);
        area_m2 += a;
        s->shares[v->a].area_m2 += a / 3, s->shares[v->b].area_m2 += a / 3, s->shares[v->c].area_m2 += a / 3;
    }
    p->patch = (map_patch){.area_m2 = area_m2, .e = e};
    p->film = (map_film){.medium = SW_MEDIUM_ROOM, .h = h, .air_k = sink_k};
    s->patches = &p->patch, s->patch_count = 1, s->films = &p->film, s->film_count = 1, s->walls_k = sink_k;
    map_space *o = &s->spaces[MAP_OUTER];
    static const size_t start[4] = {0, 1, 1, 2};
    static const uint32_t column[2] = {2, 0};
    *o = (map_space){.patches = 1, .rows = 3};
    o->start = SW_KEEP(run, 4, size_t), o->column = SW_KEEP(run, 2, uint32_t), o->view = SW_KEEP(run, 2, double);
    memcpy(o->start, start, sizeof start);
    memcpy(o->column, column, sizeof column);
    o->view[0] = o->view[1] = area_m2;
    double **rows[] = {&o->area, &o->e, &o->E, &o->H, &o->dH};
    for (size_t i = 0; i < 5; i++) *rows[i] = SW_KEEP(run, 3, double);
    o->area[0] = o->area[2] = area_m2;
    o->e[0] = e, o->e[1] = o->e[2] = 1;
}

static inline bool mp_solve(map_plate *p, double start_k)
{
    map_settled settled;
    for (size_t i = 0; i < p->sys.nodes; i++)
        if (!p->held[i]) p->x[i] = start_k;
    return sw_ok(p->t, map_system_room(&p->t->run, &p->sys)) &&
           sw_ok(p->t, map_newton(&p->t->run, &p->sys, 1e-9, &settled)) && sw_true(p->t, settled.left_w <= 1e-9);
}

static inline double mp_at(const map_plate *p, double x_m, double y_m)
{
    double x_mm = sw_mm_from_m(x_m), y_mm = sw_mm_from_m(y_m);
    for (size_t i = 0; i < p->mesh.triangle_count; i++) {
        const sw_triangle *v = &p->mesh.triangles[i];
        sw_point q[3] = {p->mesh.points[v->a], p->mesh.points[v->b], p->mesh.points[v->c]};
        double w[3], all = 2 * sw_mm2_from_m2(mp_area_m2(&p->mesh, i)), least = 1;
        for (int k = 0; k < 3; k++) {
            sw_point b = q[(k + 1) % 3], c = q[(k + 2) % 3];
            w[k] = ((b.x_mm - x_mm) * (c.y_mm - y_mm) - (b.y_mm - y_mm) * (c.x_mm - x_mm)) / all;
            least = fmin(least, w[k]);
        }
        if (least >= -1e-9) return w[0] * p->x[v->a] + w[1] * p->x[v->b] + w[2] * p->x[v->c];
    }
    return (double)NAN;
}

#endif
