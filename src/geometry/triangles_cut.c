/* triangles_cut.c: cuts the triangles of a flat mesh at level lines y = k step. */
#include "geometry/triangles_parts.h"

#include <stdlib.h>

/* One edge of the mesh, low < high; its cut points are points first .. first+count-1, from low's y upward
 * in the order of y. */
typedef struct edge {
    uint32_t low, high;
    uint32_t first, count;
} edge;

typedef struct cutter {
    sw_run *run;
    double step_mm;
    sw_vec3 *points;
    size_t point_count, point_room;
    edge *edges; /* sorted by low, then high */
    size_t edge_count;
    sw_triangle *triangles;
    size_t triangle_count, triangle_room;
} cutter;

static int by_ends(const void *a, const void *b)
{
    const edge *e = a, *f = b;
    if (e->low != f->low) return e->low < f->low ? -1 : 1;
    if (e->high != f->high) return e->high < f->high ? -1 : 1;
    return 0;
}

static edge edge_between(uint32_t a, uint32_t b)
{
    return a < b ? (edge){.low = a, .high = b} : (edge){.low = b, .high = a};
}

static sw_status list_edges(cutter *k, const sw_mesh *mesh)
{
    size_t n = 3 * mesh->triangle_count, kept = 0;
    edge *edges = SW_SCRATCH(k->run, n, edge);
    if (edges == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < mesh->triangle_count; i++) {
        sw_triangle t = mesh->triangles[i];
        edges[3 * i] = edge_between(t.a, t.b);
        edges[3 * i + 1] = edge_between(t.b, t.c);
        edges[3 * i + 2] = edge_between(t.c, t.a);
    }
    qsort(edges, n, sizeof *edges, by_ends);
    for (size_t i = 0; i < n; i++)
        if (kept == 0 || by_ends(&edges[kept - 1], &edges[i]) != 0) edges[kept++] = edges[i];
    k->edges = edges;
    k->edge_count = kept;
    return SW_OK;
}

/* Levels strictly between two heights, leaving out those within the same-point tolerance of either. */
static double first_level(double y_mm, double step_mm)
{
    return floor((y_mm + SW_SAME_POINT_MM) / step_mm) + 1.0;
}
static double last_level(double y_mm, double step_mm)
{
    return ceil((y_mm - SW_SAME_POINT_MM) / step_mm) - 1.0;
}

static sw_status too_many(const cutter *k)
{
    return sw_fail(k->run, SW_OUT_OF_RANGE, (sw_place){0}, "", "levels %g mm apart give too many points for one mesh",
                   k->step_mm);
}

static sw_status cut_edge(cutter *k, edge *e)
{
    sw_vec3 a = k->points[e->low], b = k->points[e->high];
    if (a.y_mm > b.y_mm) {
        sw_vec3 swap = a;
        a = b;
        b = swap;
    }
    double first = first_level(a.y_mm, k->step_mm), levels = last_level(b.y_mm, k->step_mm) - first + 1.0;
    if (levels >= (double)(UINT32_MAX / 4 - k->point_count)) return too_many(k);
    e->first = (uint32_t)k->point_count;
    e->count = levels > 0.0 ? (uint32_t)levels : 0;
    for (uint32_t i = 0; i < e->count; i++) {
        sw_vec3 *points = sw_grow(k->run, k->run->scratch, k->points, k->point_count, &k->point_room, sizeof *points);
        if (points == NULL) return SW_NO_MEMORY;
        k->points = points;
        double y_mm = (first + i) * k->step_mm, t = (y_mm - a.y_mm) / (b.y_mm - a.y_mm);
        points[k->point_count++] = (sw_vec3){a.x_mm + t * (b.x_mm - a.x_mm), y_mm, 0.0};
    }
    return SW_OK;
}

static sw_status put_triangle(cutter *k, uint32_t a, uint32_t b, uint32_t c)
{
    if (a == b || b == c || c == a) return SW_OK;
    sw_triangle *grown =
        sw_grow(k->run, k->run->scratch, k->triangles, k->triangle_count, &k->triangle_room, sizeof *grown);
    if (grown == NULL) return SW_NO_MEMORY;
    k->triangles = grown;
    grown[k->triangle_count++] = (sw_triangle){a, b, c};
    return SW_OK;
}

/* A chain of points upward: a corner, the cuts of one or two edges, a corner. */
typedef struct chain {
    uint32_t *at;
    size_t n;
} chain;

static void climb(const cutter *k, chain *c, uint32_t from, uint32_t to)
{
    edge key = edge_between(from, to);
    const edge *e = bsearch(&key, k->edges, k->edge_count, sizeof *e, by_ends);
    SW_ASSERT(e != NULL);
    for (uint32_t i = 0; i < e->count; i++) c->at[c->n++] = e->first + i;
    c->at[c->n++] = to;
}

/* Zips the right and the left chain of a triangle, both from the lowest to the highest corner: the next
 * point is the lower of the two next ones, so no triangle spans more than one level. */
static sw_status zip(cutter *k, const chain *right, const chain *left)
{
    size_t r = 0, l = 0;
    while (r + 1 < right->n || l + 1 < left->n) {
        bool step_right = l + 1 >= left->n;
        if (r + 1 < right->n && l + 1 < left->n)
            step_right = k->points[right->at[r + 1]].y_mm <= k->points[left->at[l + 1]].y_mm;
        if (step_right) {
            SW_TRY(put_triangle(k, left->at[l], right->at[r], right->at[r + 1]));
            r++;
        } else {
            SW_TRY(put_triangle(k, left->at[l], right->at[r], left->at[l + 1]));
            l++;
        }
    }
    return SW_OK;
}

static uint32_t cuts_of(const cutter *k, uint32_t a, uint32_t b)
{
    edge key = edge_between(a, b);
    const edge *e = bsearch(&key, k->edges, k->edge_count, sizeof *e, by_ends);
    return e == NULL ? 0 : e->count;
}

static bool lower(const sw_vec3 *p, uint32_t a, uint32_t b)
{
    return p[a].y_mm < p[b].y_mm || (p[a].y_mm == p[b].y_mm && p[a].x_mm < p[b].x_mm);
}

/* Turns t so that a is its lowest corner; the middle corner is b or c. */
static sw_triangle lowest_first(const sw_vec3 *p, sw_triangle t)
{
    if (lower(p, t.b, t.a) && lower(p, t.b, t.c)) return (sw_triangle){t.b, t.c, t.a};
    if (lower(p, t.c, t.a) && lower(p, t.c, t.b)) return (sw_triangle){t.c, t.a, t.b};
    return t;
}

static sw_status cut_triangle(cutter *k, sw_triangle t)
{
    t = lowest_first(k->points, t);
    size_t most = 4 + cuts_of(k, t.a, t.b) + cuts_of(k, t.b, t.c) + cuts_of(k, t.c, t.a);
    uint32_t *room = SW_SCRATCH(k->run, 2 * most, uint32_t);
    if (room == NULL) return SW_NO_MEMORY;
    chain right = {room, 0}, left = {room + most, 0};
    right.at[right.n++] = t.a;
    left.at[left.n++] = t.a;
    bool b_on_top = lower(k->points, t.c, t.b);
    climb(k, &right, t.a, t.b);
    if (!b_on_top) climb(k, &right, t.b, t.c);
    climb(k, &left, t.a, t.c);
    if (b_on_top) climb(k, &left, t.c, t.b);
    return zip(k, &right, &left);
}

sw_status mesh_cut_level(sw_run *run, sw_mesh *mesh, double step_mm)
{
    cutter k = {.run = run, .step_mm = step_mm, .point_count = mesh->point_count, .point_room = mesh->point_count};
    sw_vec3 *points = SW_SCRATCH(run, mesh->point_count, sw_vec3);
    if (points == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < mesh->point_count; i++) points[i] = mesh->points[i];
    k.points = points;
    SW_TRY(list_edges(&k, mesh));
    for (size_t i = 0; i < k.edge_count; i++) SW_TRY(cut_edge(&k, &k.edges[i]));
    for (size_t i = 0; i < mesh->triangle_count; i++) SW_TRY(cut_triangle(&k, mesh->triangles[i]));
    *mesh = (sw_mesh){k.points, k.point_count, k.triangles, k.triangle_count};
    return SW_OK;
}
