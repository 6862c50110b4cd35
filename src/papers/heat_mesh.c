/* heat_mesh.c: lines of equal temperature over a mesh of the map, joined to loops. */
#include "papers/chart_parts.h"

#include <math.h>

static uint32_t corner(const sw_triangle *t, size_t i)
{
    return i % 3 == 0 ? t->a : i % 3 == 1 ? t->b : t->c;
}

const uint32_t *heat_twins(sw_run *run, const sw_mesh *mesh)
{
    size_t edges = 3 * mesh->triangle_count;
    uint32_t *twins = SW_SCRATCH(run, edges + 1, uint32_t), *next = SW_SCRATCH(run, edges + 1, uint32_t),
             *first = SW_SCRATCH(run, mesh->point_count + 1, uint32_t); /* edges from a point: a list, 0 = its end */
    if (twins == NULL || next == NULL || first == NULL) return NULL;
    for (size_t e = 0; e < edges; e++) {
        uint32_t from = corner(&mesh->triangles[e / 3], e % 3);
        next[e] = first[from];
        first[from] = (uint32_t)e + 1;
    }
    for (size_t e = 0; e < edges; e++) {
        uint32_t from = corner(&mesh->triangles[e / 3], e % 3), to = corner(&mesh->triangles[e / 3], e % 3 + 1);
        uint32_t k = first[to];
        while (k != 0 && corner(&mesh->triangles[(k - 1) / 3], (k - 1) % 3 + 1) != from) k = next[k - 1];
        twins[e] = k == 0 ? HEAT_OPEN : k - 1;
    }
    return twins;
}

/* ---- pieces of the loops: each from a key to a key. Keys: points, then edges, the lesser of two twins ---- */

typedef struct bit {
    uint32_t to, next; /* next: another from the same key, + 1 */
    bool inside;       /* through a triangle */
} bit;

typedef struct tracer {
    const heat_field *f;
    double level_c;
    bit *bits;
    size_t count, room;
    uint32_t *from;   /* [points + edges] a bit from this key, + 1; 0 = none (left) */
    uint32_t *starts; /* [count] its key of every bit */
    size_t start_room;
} tracer;

static bool is_hot(const tracer *t, uint32_t point)
{
    return t->f->c[point] >= t->level_c;
}

static uint32_t edge_key(const tracer *t, size_t edge)
{
    uint32_t twin = t->f->twins[edge];
    size_t lesser = twin != HEAT_OPEN && twin < edge ? twin : edge;
    return (uint32_t)(t->f->mesh->point_count + lesser);
}

static sw_status add_bit(sw_run *run, tracer *t, uint32_t from, uint32_t to, bool inside)
{
    bit *bits = sw_grow(run, run->scratch, t->bits, t->count, &t->room, sizeof *bits);
    if (bits == NULL) return SW_NO_MEMORY;
    t->bits = bits;
    uint32_t *starts = sw_grow(run, run->scratch, t->starts, t->count, &t->start_room, sizeof *starts);
    if (starts == NULL) return SW_NO_MEMORY;
    t->starts = starts;
    starts[t->count] = from;
    bits[t->count] = (bit){to, t->from[from], inside};
    t->from[from] = (uint32_t)++t->count;
    return SW_OK;
}

static sw_status add_triangle(sw_run *run, tracer *t, size_t index)
{
    const sw_triangle *tri = &t->f->mesh->triangles[index];
    uint32_t leaves = HEAT_OPEN, enters = HEAT_OPEN;
    for (size_t i = 0; i < 3; i++) {
        size_t edge = 3 * index + i;
        uint32_t a = corner(tri, i), b = corner(tri, i + 1);
        bool hot_a = is_hot(t, a), hot_b = is_hot(t, b);
        uint32_t key = edge_key(t, edge);
        if (hot_a && !hot_b) leaves = key;
        if (!hot_a && hot_b) enters = key;
        if (t->f->twins[edge] != HEAT_OPEN || !(hot_a || hot_b)) continue;
        SW_TRY(add_bit(run, t, hot_a ? a : key, hot_b ? b : key, false));
    }
    return leaves == HEAT_OPEN ? SW_OK : add_bit(run, t, leaves, enters, true);
}

static sw_point place_of(const tracer *t, uint32_t key)
{
    const sw_mesh *mesh = t->f->mesh;
    if (key < mesh->point_count) return t->f->at[key];
    size_t edge = key - mesh->point_count;
    uint32_t a = corner(&mesh->triangles[edge / 3], edge % 3), b = corner(&mesh->triangles[edge / 3], edge % 3 + 1);
    sw_point p = t->f->at[a], q = t->f->at[b];
    double share = (t->level_c - t->f->c[a]) / (t->f->c[b] - t->f->c[a]);
    return (sw_point){p.x_mm + share * (q.x_mm - p.x_mm), p.y_mm + share * (q.y_mm - p.y_mm)};
}

/* The bits from a key on until they come back to it, taken off; in points[] and inside[], which have room for all. */
static size_t follow(tracer *t, uint32_t start, sw_point *points, bool *inside)
{
    size_t n = 0;
    uint32_t key = start;
    while (t->from[key] != 0) {
        const bit *b = &t->bits[t->from[key] - 1];
        t->from[key] = b->next;
        points[n] = place_of(t, key);
        inside[n++] = b->inside;
        key = b->to;
        if (key == start) break;
    }
    return n;
}

static sw_status join(sw_run *run, tracer *t, const heat_loop **loops, size_t *count)
{
    sw_point *points = SW_SCRATCH(run, t->count + 1, sw_point);
    bool *inside = SW_SCRATCH(run, t->count + 1, bool);
    heat_loop *out = NULL;
    size_t used = 0, room = 0;
    if (points == NULL || inside == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < t->count; i++) {
        if (t->from[t->starts[i]] == 0) continue;
        size_t n = follow(t, t->starts[i], points + used, inside + used);
        heat_loop *grown = sw_grow(run, run->scratch, out, *count, &room, sizeof *grown);
        if (grown == NULL) return SW_NO_MEMORY;
        out = grown;
        out[(*count)++] = (heat_loop){points + used, inside + used, n};
        used += n;
    }
    *loops = out;
    return SW_OK;
}

sw_status heat_loops(sw_run *run, const heat_field *field, double level_c, const heat_loop **loops, size_t *count)
{
    const sw_mesh *mesh = field->mesh;
    tracer t = {.f = field, .level_c = level_c};
    *loops = NULL;
    *count = 0;
    t.from = SW_SCRATCH(run, mesh->point_count + 3 * mesh->triangle_count + 1, uint32_t);
    if (t.from == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < mesh->triangle_count; i++) SW_TRY(add_triangle(run, &t, i));
    return join(run, &t, loops, count);
}
