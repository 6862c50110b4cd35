/* rings_flip.c: edges between triangles flipped until no fourth corner lies in the circle of the other three (Delaunay).
 * Method: C. Lawson, "Software for C1 surface interpolation" (1977), with the edges to be looked at on a stack. */
#include "geometry/rings_parts.h"

#include <math.h>

static const uint32_t none = UINT32_MAX;

typedef struct flipper { /* half edge 3 t + c runs from corner c of triangle t to the next */
    const sw_point *points;
    uint32_t *from, *twin;
    size_t count;
    uint32_t *stack; /* [count] half edges to be looked at, each once */
    bool *waiting;   /* [count] on the stack */
    size_t depth;
} flipper;

static double cross(sw_point a, sw_point b, sw_point c)
{
    return (b.x_mm - a.x_mm) * (c.y_mm - a.y_mm) - (b.y_mm - a.y_mm) * (c.x_mm - a.x_mm);
}

static uint32_t next_of(uint32_t h)
{
    return h % 3 == 2 ? h - 2 : h + 1;
}

static sw_status pair_edges(sw_run *run, flipper *f, size_t point_count)
{
    size_t *first = SW_SCRATCH(run, point_count + 2, size_t);
    uint32_t *out = SW_SCRATCH(run, f->count, uint32_t);
    if (first == NULL || out == NULL) return SW_NO_MEMORY;
    for (uint32_t h = 0; h < f->count; h++) first[f->from[h] + 2]++;
    for (size_t p = 0; p < point_count; p++) first[p + 2] += first[p + 1];
    for (uint32_t h = 0; h < f->count; h++) out[first[f->from[h] + 1]++] = h;
    for (uint32_t h = 0; h < f->count; h++) {
        uint32_t to = f->from[next_of(h)];
        f->twin[h] = none;
        for (size_t i = first[to]; i < first[to + 1]; i++)
            if (f->from[next_of(out[i])] == f->from[h]) f->twin[h] = out[i];
    }
    return SW_OK;
}

/* d inside the circle through a, b, c (counter-clockwise), by more than rounding. */
static bool in_circle(sw_point a, sw_point b, sw_point c, sw_point d)
{
    double ax = a.x_mm - d.x_mm, ay = a.y_mm - d.y_mm, bx = b.x_mm - d.x_mm, by = b.y_mm - d.y_mm;
    double cx = c.x_mm - d.x_mm, cy = c.y_mm - d.y_mm;
    double aa = ax * ax + ay * ay, bb = bx * bx + by * by, cc = cx * cx + cy * cy;
    double terms[3] = {aa * (bx * cy - by * cx), bb * (cx * ay - cy * ax), cc * (ax * by - ay * bx)};
    double size = fabs(terms[0]) + fabs(terms[1]) + fabs(terms[2]);
    return terms[0] + terms[1] + terms[2] > 1e-10 * size;
}

static void tie(flipper *f, uint32_t a, uint32_t b)
{
    f->twin[a] = b;
    if (b != none) f->twin[b] = a;
}

static void put_on_stack(flipper *f, uint32_t h)
{
    if (f->waiting[h]) return;
    f->waiting[h] = true;
    f->stack[f->depth++] = h;
}

/* Whether the edge between a b c and b a d shall go: d lies in the circle of the first, or a triangle is flat. */
static bool is_bad(sw_point a, sw_point b, sw_point c, sw_point d)
{
    bool flat = !(cross(a, b, c) > 0.0) || !(cross(b, a, d) > 0.0);
    return (flat || in_circle(a, b, c, d)) && cross(c, d, b) > 0.0 && cross(d, c, a) > 0.0;
}

/* Turns the edge if it is bad; the edges round it then wait for a look. */
static void flip(flipper *f, uint32_t h)
{
    uint32_t g = f->twin[h];
    if (g == none || g == h) return;
    uint32_t h1 = next_of(h), h2 = next_of(h1), g1 = next_of(g), g2 = next_of(g1);
    uint32_t a = f->from[h], b = f->from[g], c = f->from[h2], d = f->from[g2];
    const sw_point *p = f->points;
    if (!is_bad(p[a], p[b], p[c], p[d])) return;
    uint32_t past_h2 = f->twin[h2], past_g2 = f->twin[g2];
    f->from[h] = d; /* triangle of h becomes d b c, that of g becomes c a d */
    f->from[g] = c;
    tie(f, h, past_g2);
    tie(f, g, past_h2);
    tie(f, h2, g2);
    put_on_stack(f, h);
    put_on_stack(f, h1);
    put_on_stack(f, g);
    put_on_stack(f, g1);
}

/* Each flip makes the least angle larger, so it ends; the bound is for rounding, and ending early does no harm. */
static void flip_all(flipper *f)
{
    for (uint32_t h = 0; h < f->count; h++)
        if (f->twin[h] != none && h < f->twin[h]) put_on_stack(f, h);
    for (size_t looks = 60 * f->count; f->depth > 0 && looks > 0; looks--) {
        uint32_t h = f->stack[--f->depth];
        f->waiting[h] = false;
        flip(f, h);
    }
}

sw_status sw_rings_flip(sw_run *run, const sw_point *points, size_t point_count, sw_triangle *triangles, size_t count)
{
    flipper f = {.points = points, .count = 3 * count};
    f.from = SW_SCRATCH(run, f.count, uint32_t);
    f.twin = SW_SCRATCH(run, f.count, uint32_t);
    f.stack = SW_SCRATCH(run, f.count, uint32_t);
    f.waiting = SW_SCRATCH(run, f.count, bool);
    if (f.from == NULL || f.twin == NULL || f.stack == NULL || f.waiting == NULL) return SW_NO_MEMORY;
    for (size_t t = 0; t < count; t++) {
        f.from[3 * t] = triangles[t].a;
        f.from[3 * t + 1] = triangles[t].b;
        f.from[3 * t + 2] = triangles[t].c;
    }
    SW_TRY(pair_edges(run, &f, point_count));
    flip_all(&f);
    for (size_t t = 0; t < count; t++)
        triangles[t] = (sw_triangle){f.from[3 * t], f.from[3 * t + 1], f.from[3 * t + 2]};
    return SW_OK;
}
