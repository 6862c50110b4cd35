/* triangulate.c: triangles of a flat region: holes joined to the outline by bridges, ears clipped, edges flipped until
 * Delaunay. Method: D. Eberly, "Triangulation by Ear Clipping" (2002); C. Lawson, "Software for C1 surface
 * interpolation" (1977) for the flips. The result is proved by its area; where it fails, GEOS does the work. */
#include "making/sheet/sheet_parts.h"

#include <math.h>
#include <stdlib.h>

static const uint32_t none = UINT32_MAX;

typedef struct link { /* a corner of the polygon with bridges; a point may have several */
    uint32_t point, before, after;
    bool blunt; /* reflex or straight: may lie in another's ear */
} link;

typedef struct clipper {
    sw_run *run;
    const sw_point *points;
    link *links;
    uint32_t count; /* links */
    sw_triangle *triangles;
    size_t triangle_count;
} clipper;

static double cross(sw_point a, sw_point b, sw_point c)
{
    return (b.x_mm - a.x_mm) * (c.y_mm - a.y_mm) - (b.y_mm - a.y_mm) * (c.x_mm - a.x_mm);
}

static sw_point at(const clipper *k, uint32_t i)
{
    return k->points[k->links[i].point];
}

/* ---- one polygon ------------------------------------------------------------------------------- */

/* A ring of links over points first .. first+n-1; its first link. */
static uint32_t add_ring(clipper *k, uint32_t first, uint32_t n)
{
    uint32_t start = k->count;
    for (uint32_t i = 0; i < n; i++)
        k->links[k->count++] = (link){first + i, start + (i + n - 1) % n, start + (i + 1) % n, false};
    return start;
}

static uint32_t leftmost(const clipper *k, uint32_t start)
{
    uint32_t best = start;
    for (uint32_t i = k->links[start].after; i != start; i = k->links[i].after) {
        sw_point p = at(k, i), q = at(k, best);
        if (p.x_mm < q.x_mm || (p.x_mm == q.x_mm && p.y_mm < q.y_mm)) best = i;
    }
    return best;
}

/* Whether the way from corner i to p starts inside the polygon. */
static bool opens_to(const clipper *k, uint32_t i, sw_point p)
{
    sw_point before = at(k, k->links[i].before), here = at(k, i), after = at(k, k->links[i].after);
    bool right_of_in = cross(before, here, p) < 0.0, right_of_out = cross(here, after, p) < 0.0;
    return cross(before, here, after) >= 0.0 ? !right_of_in && !right_of_out : !right_of_in || !right_of_out;
}

static bool in_triangle(sw_point a, sw_point b, sw_point c, sw_point p)
{
    return cross(a, b, p) >= 0.0 && cross(b, c, p) >= 0.0 && cross(c, a, p) >= 0.0;
}

/* The edge first met from m to the left: its corner farther left; *met = where. */
static uint32_t edge_to_the_left(const clipper *k, uint32_t start, sw_point m, sw_point *met)
{
    uint32_t found = none, i = start;
    double best = -INFINITY;
    do {
        sw_point a = at(k, i), b = at(k, k->links[i].after);
        if (a.y_mm >= m.y_mm && b.y_mm <= m.y_mm && a.y_mm != b.y_mm) {
            double x = a.x_mm + (m.y_mm - a.y_mm) * (b.x_mm - a.x_mm) / (b.y_mm - a.y_mm);
            if (x <= m.x_mm && x > best) {
                best = x;
                found = a.x_mm < b.x_mm ? i : k->links[i].after;
            }
        }
        i = k->links[i].after;
    } while (i != start);
    *met = (sw_point){best, m.y_mm};
    return found;
}

/* A corner of the outline ring that sees m: the one met, or the blunt corner in the way nearest to the ray. */
static uint32_t find_bridge(const clipper *k, uint32_t start, sw_point m)
{
    sw_point met;
    uint32_t best = edge_to_the_left(k, start, m, &met);
    if (best == none) return none;
    sw_point p = at(k, best);
    bool above = p.y_mm > m.y_mm;
    double least = INFINITY;
    uint32_t chosen = opens_to(k, best, m) ? best : none, i = start;
    if (chosen != none) least = fabs(p.y_mm - m.y_mm) / fmax(m.x_mm - p.x_mm, 1e-300);
    do {
        sw_point q = at(k, i);
        bool inside = above ? in_triangle(m, p, met, q) : in_triangle(m, met, p, q);
        if (inside && q.x_mm < m.x_mm && opens_to(k, i, m)) {
            double slope = fabs(q.y_mm - m.y_mm) / (m.x_mm - q.x_mm);
            if (slope < least || (slope == least && (chosen == none || q.x_mm > at(k, chosen).x_mm))) {
                least = slope;
                chosen = i;
            }
        }
        i = k->links[i].after;
    } while (i != start);
    return chosen;
}

/* Two new links make the way there and back. */
static void bridge(clipper *k, uint32_t outer, uint32_t inner)
{
    uint32_t inner_again = k->count++, outer_again = k->count++;
    link *l = k->links;
    l[outer_again] = (link){l[outer].point, inner_again, l[outer].after, false};
    l[inner_again] = (link){l[inner].point, l[inner].before, outer_again, false};
    l[l[outer].after].before = outer_again;
    l[l[inner].before].after = inner_again;
    l[outer].after = inner;
    l[inner].before = outer;
}

typedef struct hole_start {
    sw_point at;
    uint32_t link;
} hole_start;

static int compare_starts(const void *left, const void *right)
{
    const hole_start *a = left, *b = right;
    if (a->at.x_mm != b->at.x_mm) return a->at.x_mm < b->at.x_mm ? -1 : 1;
    return (a->at.y_mm > b->at.y_mm) - (a->at.y_mm < b->at.y_mm);
}

/* Rings to one polygon, holes from left to right. False when a hole sees nothing. */
static bool join_rings(clipper *k, uint32_t start, hole_start *holes, size_t count)
{
    qsort(holes, count, sizeof *holes, compare_starts);
    for (size_t h = 0; h < count; h++) {
        uint32_t outer = find_bridge(k, start, holes[h].at);
        if (outer == none) return false;
        bridge(k, outer, holes[h].link);
    }
    return true;
}

/* ---- ears ---------------------------------------------------------------------------------------- */

static double turn_at(const clipper *k, uint32_t i)
{
    return cross(at(k, k->links[i].before), at(k, i), at(k, k->links[i].after));
}

static bool same(sw_point a, sw_point b)
{
    return a.x_mm == b.x_mm && a.y_mm == b.y_mm;
}

static bool is_ear(const clipper *k, uint32_t i)
{
    sw_point a = at(k, k->links[i].before), b = at(k, i), c = at(k, k->links[i].after);
    if (!(cross(a, b, c) > 0.0)) return false;
    double x0 = fmin(a.x_mm, fmin(b.x_mm, c.x_mm)), x1 = fmax(a.x_mm, fmax(b.x_mm, c.x_mm));
    double y0 = fmin(a.y_mm, fmin(b.y_mm, c.y_mm)), y1 = fmax(a.y_mm, fmax(b.y_mm, c.y_mm));
    for (uint32_t j = k->links[k->links[i].after].after; j != k->links[i].before; j = k->links[j].after) {
        if (!k->links[j].blunt) continue;
        sw_point p = at(k, j);
        if (p.x_mm < x0 || p.x_mm > x1 || p.y_mm < y0 || p.y_mm > y1) continue;
        if (in_triangle(a, b, c, p) && !same(p, a) && !same(p, b) && !same(p, c)) return false;
    }
    return true;
}

static uint32_t clip(clipper *k, uint32_t i)
{
    link *l = k->links;
    uint32_t before = l[i].before, after = l[i].after;
    k->triangles[k->triangle_count++] = (sw_triangle){l[before].point, l[i].point, l[after].point};
    l[before].after = after;
    l[after].before = before;
    l[before].blunt = !(turn_at(k, before) > 0.0);
    l[after].blunt = !(turn_at(k, after) > 0.0);
    return after;
}

/* False when no ear is left before the end. */
static bool clip_all(clipper *k, uint32_t start)
{
    uint32_t left = k->count, i = start, idle = 0;
    for (uint32_t j = 0; j < k->count; j++) k->links[j].blunt = !(turn_at(k, j) > 0.0);
    while (left > 3) {
        if (is_ear(k, i)) {
            i = k->links[clip(k, i)].after; /* skipping one makes fewer slivers */
            left--;
            idle = 0;
            continue;
        }
        i = k->links[i].after;
        if (++idle > left) return false;
    }
    if (!(turn_at(k, i) > 0.0)) return false; /* three corners on one line */
    clip(k, i);
    return true;
}

/* ---- flips --------------------------------------------------------------------------------------- */

typedef struct flipper { /* half edge 3 t + c runs from corner c of triangle t to the next */
    const sw_point *points;
    uint32_t *from, *twin;
    size_t count;
} flipper;

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

/* Turns the edge between two triangles where the fourth corner lies in the circle of the other three. */
static bool flip(flipper *f, uint32_t h)
{
    uint32_t g = f->twin[h];
    if (g == none || g == h) return false;
    uint32_t h1 = next_of(h), h2 = next_of(h1), g1 = next_of(g), g2 = next_of(g1);
    uint32_t a = f->from[h], b = f->from[g], c = f->from[h2], d = f->from[g2];
    const sw_point *p = f->points;
    if (!in_circle(p[a], p[b], p[c], p[d])) return false;
    if (!(cross(p[c], p[d], p[b]) > 0.0 && cross(p[d], p[c], p[a]) > 0.0)) return false;
    uint32_t past_h2 = f->twin[h2], past_g2 = f->twin[g2];
    f->from[h] = d; /* triangle of h becomes d b c, that of g becomes c a d */
    f->from[g] = c;
    tie(f, h, past_g2);
    tie(f, g, past_h2);
    tie(f, h2, g2);
    return true;
}

/* A few rounds over all edges; each flip makes the least angle larger, so it ends, and early ending does no harm. */
static void flip_all(flipper *f)
{
    bool changed = true;
    for (int round = 0; round < 30 && changed; round++) {
        changed = false;
        for (uint32_t h = 0; h < f->count; h++)
            if (flip(f, h)) changed = true;
    }
}

static sw_status improve(clipper *k, size_t point_count)
{
    flipper f = {.points = k->points, .count = 3 * k->triangle_count};
    f.from = SW_SCRATCH(k->run, f.count, uint32_t);
    f.twin = SW_SCRATCH(k->run, f.count, uint32_t);
    if (f.from == NULL || f.twin == NULL) return SW_NO_MEMORY;
    for (size_t t = 0; t < k->triangle_count; t++) {
        f.from[3 * t] = k->triangles[t].a;
        f.from[3 * t + 1] = k->triangles[t].b;
        f.from[3 * t + 2] = k->triangles[t].c;
    }
    SW_TRY(pair_edges(k->run, &f, point_count));
    flip_all(&f);
    for (size_t t = 0; t < k->triangle_count; t++)
        k->triangles[t] = (sw_triangle){f.from[3 * t], f.from[3 * t + 1], f.from[3 * t + 2]};
    return SW_OK;
}

/* ---- the whole ------------------------------------------------------------------------------------ */

static double ring_area(const sw_point *p, size_t from, size_t to)
{
    double twice = 0.0;
    for (size_t i = from; i < to; i++) {
        sw_point a = p[i], b = p[i + 1 < to ? i + 1 : from];
        twice += a.x_mm * b.y_mm - b.x_mm * a.y_mm;
    }
    return twice / 2.0;
}

double sw_sheet_rings_area(const sw_rings *rings)
{
    double area_mm2 = 0.0;
    for (size_t r = 0; r < rings->count; r++)
        area_mm2 += ring_area(rings->points, r == 0 ? 0 : rings->ends[r - 1], rings->ends[r]);
    return area_mm2;
}

/* The triangles must cover the rings and nothing else. */
static bool covers(const clipper *k, const sw_rings *rings)
{
    double sum = 0.0, area_mm2 = sw_sheet_rings_area(rings);
    for (size_t t = 0; t < k->triangle_count; t++) {
        double twice = cross(k->points[k->triangles[t].a], k->points[k->triangles[t].b], k->points[k->triangles[t].c]);
        if (!(twice >= 0.0)) return false;
        sum += twice / 2.0;
    }
    return fabs(sum - area_mm2) <= 1e-9 * (1.0 + area_mm2);
}

/* Each ring's points follow each other, outline first. */
static sw_status clip_rings(clipper *k, const size_t *ring_ends, size_t rings, bool *done)
{
    size_t total = ring_ends[rings - 1];
    k->links = SW_SCRATCH(k->run, total + 2 * rings, link);
    k->triangles = SW_SCRATCH(k->run, total + 2 * rings, sw_triangle);
    hole_start *holes = SW_SCRATCH(k->run, rings, hole_start);
    if (k->links == NULL || k->triangles == NULL || holes == NULL) return SW_NO_MEMORY;
    uint32_t start = add_ring(k, 0, (uint32_t)ring_ends[0]);
    for (size_t r = 1; r < rings; r++) {
        uint32_t first = (uint32_t)ring_ends[r - 1];
        uint32_t left = leftmost(k, add_ring(k, first, (uint32_t)ring_ends[r] - first));
        holes[r - 1] = (hole_start){at(k, left), left};
    }
    *done = join_rings(k, start, holes, rings - 1) && clip_all(k, start);
    return SW_OK;
}

sw_status sw_sheet_triangulate(sw_run *run, const sw_rings *rings, sw_triangle **triangles, size_t *count)
{
    clipper k = {.run = run, .points = rings->points};
    bool done = false;
    *triangles = NULL;
    *count = 0;
    SW_TRY(clip_rings(&k, rings->ends, rings->count, &done));
    if (!done) return SW_OK;
    SW_TRY(improve(&k, rings->ends[rings->count - 1]));
    if (!covers(&k, rings)) return SW_OK;
    *triangles = k.triangles;
    *count = k.triangle_count;
    return SW_OK;
}
