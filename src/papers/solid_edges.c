/* solid_edges.c: finds the edges worth drawing (sharp ones, and where front turns to back) and keeps their visible
 * stretches by sampling the depth buffer about once a pixel. */
#include "papers/solid_parts.h"

#include <math.h>
#include <string.h>

#define SHARP_COSINE 0.92 /* edges flatter than about 23 degrees are not drawn: facets of a roll stay unseen */

/* ---- corners at one place become one ---- */

typedef struct place_table {
    uint32_t *slots; /* point index + 1, 0 = free */
    size_t mask;
} place_table;

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
    const double fineness = 512.0; /* steps a page mm: finer than any line, coarser than rounding */
    uint64_t x = (uint64_t)(int64_t)llround(p.x_mm * fineness), y = (uint64_t)(int64_t)llround(p.y_mm * fineness);
    uint64_t z = (uint64_t)(int64_t)llround(p.z_mm * fineness);
    return mixed(x + 0x9e3779b97f4a7c15u * mixed(y + 0x9e3779b97f4a7c15u * mixed(z)));
}

static sw_status welded(sw_run *run, const solid_seen *s, const uint32_t **out)
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

typedef struct edge {
    uint32_t a, b;
    uint32_t first, second;
} edge; /* triangles + 1; 0 = none */
typedef struct edge_table {
    edge *slots;
    size_t mask;
} edge_table;

static void note_edge(edge_table *table, uint32_t a, uint32_t b, size_t triangle)
{
    uint32_t low = a < b ? a : b, high = a < b ? b : a;
    if (low == high) return;
    size_t slot = (size_t)mixed((uint64_t)low << 32 | high) & table->mask;
    edge *e = &table->slots[slot];
    while (e->first != 0 && (e->a != low || e->b != high)) {
        slot = (slot + 1) & table->mask;
        e = &table->slots[slot];
    }
    if (e->first == 0)
        *e = (edge){low, high, (uint32_t)triangle + 1, 0};
    else if (e->second == 0)
        e->second = (uint32_t)triangle + 1;
}

static sw_status edges_of(sw_run *run, const solid_seen *s, const uint32_t *same, edge_table *table)
{
    size_t n = slots_for(2 * s->triangle_count);
    table->mask = n - 1;
    table->slots = SW_SCRATCH(run, n, edge);
    if (table->slots == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < s->triangle_count; i++) {
        const sw_triangle *t = &s->triangles[i];
        note_edge(table, same[t->a], same[t->b], i);
        note_edge(table, same[t->b], same[t->c], i);
        note_edge(table, same[t->c], same[t->a], i);
    }
    return SW_OK;
}

static bool worth_drawing(const solid_seen *s, const edge *e)
{
    sw_vec3 n1 = solid_normal(s, e->first - 1);
    bool front1 = n1.z_mm > 0.0;
    if (e->second == 0) return true;
    sw_vec3 n2 = solid_normal(s, e->second - 1);
    bool front2 = n2.z_mm > 0.0;
    if (!front1 && !front2) return false;
    if (front1 != front2) return true;
    double l1 = sw_vec3_length(n1), l2 = sw_vec3_length(n2);
    return l1 > 0.0 && l2 > 0.0 && sw_vec3_dot(n1, n2) < SHARP_COSINE * l1 * l2;
}

/* ---- what of an edge is seen ---- */

/* Farthest depth in the 3 x 3 pixels about a point: an edge beside its own face counts as seen. */
static double farthest(const solid_canvas *c, double x_mm, double y_mm)
{
    int column = (int)floor(x_mm * c->pixels_per_mm), row = (int)floor(y_mm * c->pixels_per_mm);
    double far = INFINITY;
    for (int j = row - 1; j <= row + 1; j++) {
        for (int i = column - 1; i <= column + 1; i++) {
            if (i < 0 || j < 0 || i >= c->columns || j >= c->rows) return -INFINITY;
            far = fmin(far, (double)c->depths[(size_t)j * (size_t)c->columns + (size_t)i]);
        }
    }
    return far;
}

static sw_vec3 between(sw_vec3 p, sw_vec3 q, double t)
{
    return sw_vec3_add(p, sw_vec3_scaled(sw_vec3_sub(q, p), t));
}

static bool shows(const solid_canvas *c, sw_vec3 p)
{
    double allowance_mm = 0.35 / c->pixels_per_mm;
    return p.z_mm + allowance_mm >= farthest(c, p.x_mm, p.y_mm);
}

static sw_status add_line(sw_run *run, solid_lines *lines, sw_vec3 p, sw_vec3 q)
{
    sw_point(*items)[2] = sw_grow(run, run->scratch, lines->items, lines->count, &lines->room, sizeof *items);
    if (items == NULL) return SW_NO_MEMORY;
    lines->items = items;
    items[lines->count][0] = (sw_point){p.x_mm, p.y_mm};
    items[lines->count][1] = (sw_point){q.x_mm, q.y_mm};
    lines->count++;
    return SW_OK;
}

static sw_status visible_stretches(sw_run *run, const solid_canvas *c, sw_vec3 p, sw_vec3 q, solid_lines *lines)
{
    double length_mm = hypot(q.x_mm - p.x_mm, q.y_mm - p.y_mm);
    if (length_mm < 0.01) return SW_OK;
    int steps = (int)ceil(length_mm * c->pixels_per_mm);
    int begun = -1, hidden = 0; /* a single hidden sample is rounding and is passed over */
    for (int i = 0; i < steps; i++) {
        bool seen = shows(c, between(p, q, (i + 0.5) / steps));
        hidden = seen ? 0 : hidden + 1;
        if (seen && begun < 0) begun = i;
        if (begun < 0 || hidden < 2) continue;
        SW_TRY(add_line(run, lines, between(p, q, (double)begun / steps), between(p, q, (double)(i - 1) / steps)));
        begun = -1;
    }
    if (begun < 0) return SW_OK;
    return add_line(run, lines, between(p, q, (double)begun / steps), between(p, q, (double)(steps - hidden) / steps));
}

sw_status solid_edges(sw_run *run, const solid_canvas *canvas, const solid_seen *s, solid_lines *lines)
{
    const uint32_t *same = NULL;
    edge_table table;
    SW_TRY(welded(run, s, &same));
    SW_TRY(edges_of(run, s, same, &table));
    for (size_t i = 0; i <= table.mask; i++) {
        const edge *e = &table.slots[i];
        if (e->first == 0 || !worth_drawing(s, e)) continue;
        SW_TRY(visible_stretches(run, canvas, s->points[e->a], s->points[e->b], lines));
    }
    return SW_OK;
}
