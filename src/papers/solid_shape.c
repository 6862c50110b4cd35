/* solid_shape.c: prepares a body for pictures once, from wherever it is seen later: the normals of its triangles, and
 * the edges that can ever be drawn. An edge between two triangles of one plane can not. */
#include "papers/papers_parts.h"

#include <math.h>

#define SHARP_COSINE 0.92 /* edges flatter than about 23 degrees are not drawn: facets of a roll stay unseen */
#define PLANE_COSINE (1.0 - 1e-9)

/* ---- corners at one place become one ---- */

static size_t slots_for(size_t count)
{
    size_t n = 64;
    while (n < 2 * count) n *= 2;
    return n;
}

static uint64_t mixed(uint64_t x)
{
    x ^= x >> 30;
    x *= 0xbf58476d1ce4e5b9u;
    x ^= x >> 27;
    x *= 0x94d049bb133111ebu;
    return x ^ (x >> 31);
}

static uint64_t place_key(sw_vec3 p)
{
    const double fineness = 64.0; /* steps a mm: finer than any line on paper, coarser than rounding */
    uint64_t x = (uint64_t)(int64_t)llround(p.x_mm * fineness), y = (uint64_t)(int64_t)llround(p.y_mm * fineness);
    uint64_t z = (uint64_t)(int64_t)llround(p.z_mm * fineness);
    return mixed(x + 0x9e3779b97f4a7c15u * mixed(y + 0x9e3779b97f4a7c15u * mixed(z)));
}

static sw_status welded(sw_run *run, const sw_mesh *s, const uint32_t **out)
{
    size_t n = slots_for(s->point_count);
    uint32_t *same = SW_SCRATCH(run, s->point_count + 1, uint32_t), *slots = SW_SCRATCH(run, n, uint32_t);
    uint64_t *keys = SW_SCRATCH(run, s->point_count + 1, uint64_t);
    if (same == NULL || slots == NULL || keys == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < s->point_count; i++) {
        keys[i] = place_key(s->points[i]);
        size_t slot = (size_t)keys[i] & (n - 1);
        while (slots[slot] != 0 && keys[slots[slot] - 1] != keys[i]) slot = (slot + 1) & (n - 1);
        if (slots[slot] == 0) slots[slot] = (uint32_t)i + 1;
        same[i] = slots[slot] - 1;
    }
    *out = same;
    return SW_OK;
}

/* ---- edges with their one or two triangles ---- */

typedef struct edge_table {
    solid_edge *slots;
    size_t mask;
} edge_table;

static void note_edge(edge_table *table, uint32_t a, uint32_t b, size_t triangle)
{
    uint32_t low = a < b ? a : b, high = a < b ? b : a;
    if (low == high) return;
    size_t slot = (size_t)mixed((uint64_t)low << 32 | high) & table->mask;
    solid_edge *e = &table->slots[slot];
    while (e->first != 0 && (e->a != low || e->b != high)) {
        slot = (slot + 1) & table->mask;
        e = &table->slots[slot];
    }
    if (e->first == 0)
        *e = (solid_edge){low, high, (uint32_t)triangle + 1, 0, false};
    else if (e->second == 0)
        e->second = (uint32_t)triangle + 1;
}

static sw_status edges_of(sw_run *run, const sw_mesh *s, const uint32_t *same, edge_table *table)
{
    size_t n = slots_for(2 * s->triangle_count);
    table->mask = n - 1;
    table->slots = SW_SCRATCH(run, n, solid_edge);
    if (table->slots == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < s->triangle_count; i++) {
        const sw_triangle *t = &s->triangles[i];
        note_edge(table, same[t->a], same[t->b], i);
        note_edge(table, same[t->b], same[t->c], i);
        note_edge(table, same[t->c], same[t->a], i);
    }
    return SW_OK;
}

/* ---- the shape ---- */

static sw_status normals_of(sw_run *run, const sw_mesh *m, const sw_vec3 **out)
{
    sw_vec3 *normals = SW_SCRATCH(run, m->triangle_count + 1, sw_vec3);
    if (normals == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < m->triangle_count; i++) {
        const sw_triangle *t = &m->triangles[i];
        sw_vec3 a = m->points[t->a];
        sw_vec3 n = sw_vec3_cross(sw_vec3_sub(m->points[t->b], a), sw_vec3_sub(m->points[t->c], a));
        double length = sw_vec3_length(n);
        normals[i] = length > 0.0 ? sw_vec3_scaled(n, 1.0 / length) : (sw_vec3){0};
    }
    *out = normals;
    return SW_OK;
}

/* Takes the edges that may be drawn out of the table into a dense list. */
static sw_status list_edges(sw_run *run, const edge_table *table, solid_shape *shape)
{
    size_t count = 0;
    solid_edge *list = SW_SCRATCH(run, table->mask + 1, solid_edge);
    if (list == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i <= table->mask; i++) {
        solid_edge e = table->slots[i];
        if (e.first == 0) continue;
        if (e.second != 0) {
            double cosine = sw_vec3_dot(shape->normals[e.first - 1], shape->normals[e.second - 1]);
            if (cosine > PLANE_COSINE) continue;
            e.sharp = cosine < SHARP_COSINE;
        }
        list[count++] = e;
    }
    shape->edges = list;
    shape->edge_count = count;
    return SW_OK;
}

sw_status solid_shape_make(sw_run *run, sw_mesh mesh, const solid_shape **out)
{
    solid_shape *shape = SW_SCRATCH(run, 1, solid_shape);
    const uint32_t *same = NULL;
    edge_table table;
    if (shape == NULL) return SW_NO_MEMORY;
    shape->mesh = mesh;
    SW_TRY(normals_of(run, &mesh, &shape->normals));
    SW_TRY(welded(run, &mesh, &same));
    SW_TRY(edges_of(run, &mesh, same, &table));
    SW_TRY(list_edges(run, &table, shape));
    *out = shape;
    return SW_OK;
}
