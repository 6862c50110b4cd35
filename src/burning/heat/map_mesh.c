/* map_mesh.c: even triangles over a plane region.
 *
 * The border is cut into steps of about the wanted side and triangulated; then the points of a hexagonal grid are put in one
 * by one, each splitting its triangle, and edges flipped until the circle through every triangle is empty (Lawson 1977,
 * incremental Delaunay triangulation, from memory). Border edges stay. */
#include "burning/heat/map_parts.h"

#include <math.h>
#include <stdlib.h>

#define HOLE_SHARE  0.5  /* of the side: smaller holes carry no heat worth their triangles; ours */
#define FROM_BORDER 0.45 /* of the side: no grid point nearer; ours */
#define FROM_POINT  0.55
#define CHORD_RAD   1.05 /* an arc is cut at least so often */

typedef struct net3 { /* triangles with their neighbours: beside[i] lies over the edge i, i+1 */
    sw_point *p;
    size_t points, room;
    uint32_t (*v)[3], (*beside)[3];
    size_t count, most;
} net3;

/* ---- border ---- */

static size_t steps_of(const sw_vertex *from, sw_point to, double side_mm)
{
    double n = fmax(1.0, round(sw_segment_length(*from, to) / side_mm));
    if (from->bulge != 0.0) n = fmax(n, ceil(4.0 * fabs(atan(from->bulge)) / CHORD_RAD));
    return (size_t)n;
}

static sw_point point_of(const sw_vertex *v)
{
    return (sw_point){v->x_mm, v->y_mm};
}

static size_t ring_steps(const sw_contour *c, double side_mm)
{
    size_t count = 0;
    for (size_t i = 0; i < c->n; i++) count += steps_of(&c->v[i], point_of(&c->v[(i + 1) % c->n]), side_mm);
    return count;
}

static size_t lay_ring(const sw_contour *c, double side_mm, sw_point *out)
{
    size_t count = 0;
    for (size_t i = 0; i < c->n; i++) {
        sw_point to = point_of(&c->v[(i + 1) % c->n]);
        size_t n = steps_of(&c->v[i], to, side_mm);
        for (size_t k = 0; k < n; k++)
            out[count++] = k == 0 ? point_of(&c->v[i]) : sw_segment_point(c->v[i], to, (double)k / (double)n);
    }
    return count;
}

static bool is_worth(const sw_contour *hole, double side_mm)
{
    sw_box b = sw_contour_box(*hole);
    return fmax(b.x1_mm - b.x0_mm, b.y1_mm - b.y0_mm) > HOLE_SHARE * side_mm;
}

static sw_status lay_rings(sw_run *run, const sw_region *r, double side_mm, sw_rings *rings)
{
    size_t most = ring_steps(&r->outline, side_mm);
    for (size_t i = 0; i < r->hole_count; i++) most += ring_steps(&r->holes[i], side_mm);
    sw_point *points = SW_SCRATCH(run, most + 1, sw_point);
    size_t *ends = SW_SCRATCH(run, r->hole_count + 1, size_t);
    if (points == NULL || ends == NULL) return SW_NO_MEMORY;
    *rings = (sw_rings){points, ends, 1};
    ends[0] = lay_ring(&r->outline, side_mm, points);
    for (size_t i = 0; i < r->hole_count; i++) {
        if (!is_worth(&r->holes[i], side_mm)) continue;
        size_t last = ends[rings->count - 1];
        ends[rings->count++] = last + lay_ring(&r->holes[i], side_mm, &points[last]);
    }
    return SW_OK;
}

/* ---- neighbours ---- */

typedef struct half {
    uint32_t low, high, triangle, edge;
} half;

static int by_ends(const void *a, const void *b)
{
    const half *p = a, *q = b;
    if (p->low != q->low) return p->low < q->low ? -1 : 1;
    if (p->high != q->high) return p->high < q->high ? -1 : 1;
    return p->triangle < q->triangle ? -1 : p->triangle > q->triangle;
}

static sw_status join(sw_run *run, net3 *m)
{
    half *halves = SW_SCRATCH(run, 3 * m->count + 1, half);
    if (halves == NULL) return SW_NO_MEMORY;
    for (uint32_t t = 0; t < m->count; t++)
        for (uint32_t e = 0; e < 3; e++) {
            uint32_t a = m->v[t][e], b = m->v[t][(e + 1) % 3];
            halves[3 * t + e] = (half){a < b ? a : b, a < b ? b : a, t, e};
            m->beside[t][e] = MAP_NONE;
        }
    qsort(halves, 3 * m->count, sizeof *halves, by_ends);
    for (size_t i = 0; i + 1 < 3 * m->count; i++) {
        half *p = &halves[i], *q = &halves[i + 1];
        if (p->low != q->low || p->high != q->high) continue;
        m->beside[p->triangle][p->edge] = q->triangle;
        m->beside[q->triangle][q->edge] = p->triangle;
    }
    return SW_OK;
}

static double twice_area(sw_point a, sw_point b, sw_point c)
{
    return (b.x_mm - a.x_mm) * (c.y_mm - a.y_mm) - (b.y_mm - a.y_mm) * (c.x_mm - a.x_mm);
}

/* Positive when d lies within the circle of the counter-clockwise a, b, c; mm4. */
static double in_circle(sw_point a, sw_point b, sw_point c, sw_point d)
{
    double ax = a.x_mm - d.x_mm, ay = a.y_mm - d.y_mm, bx = b.x_mm - d.x_mm, by = b.y_mm - d.y_mm;
    double cx = c.x_mm - d.x_mm, cy = c.y_mm - d.y_mm;
    double aa = ax * ax + ay * ay, bb = bx * bx + by * by, cc = cx * cx + cy * cy;
    return ax * (by * cc - bb * cy) - ay * (bx * cc - bb * cx) + aa * (bx * cy - by * cx);
}

static uint32_t edge_to(const net3 *m, uint32_t t, uint32_t other)
{
    return m->beside[t][0] == other ? 0 : m->beside[t][1] == other ? 1 : 2;
}

static void rejoin(net3 *m, uint32_t t, uint32_t old, uint32_t now)
{
    if (t != MAP_NONE) m->beside[t][edge_to(m, t, old)] = now;
}

/* Turns the edge between t (edge e) and its neighbour when the circle is not empty and the four corners stand convex. */
static bool flip(net3 *m, uint32_t t, uint32_t e)
{
    uint32_t u = m->beside[t][e];
    if (u == MAP_NONE) return false;
    uint32_t f = edge_to(m, u, t);
    uint32_t a = m->v[t][e], b = m->v[t][(e + 1) % 3], c = m->v[t][(e + 2) % 3], d = m->v[u][(f + 2) % 3];
    const sw_point *p = m->p;
    double size = fabs(twice_area(p[a], p[b], p[c])) + fabs(twice_area(p[b], p[a], p[d]));
    if (in_circle(p[a], p[b], p[c], p[d]) <= 1e-9 * size * size) return false;
    if (twice_area(p[a], p[d], p[c]) <= 1e-9 * size || twice_area(p[d], p[b], p[c]) <= 1e-9 * size) return false;
    uint32_t bc = m->beside[t][(e + 1) % 3], ca = m->beside[t][(e + 2) % 3];
    uint32_t ad = m->beside[u][(f + 1) % 3], db = m->beside[u][(f + 2) % 3];
    uint32_t one[3] = {a, d, c}, two[3] = {d, b, c};
    uint32_t beside_one[3] = {ad, u, ca}, beside_two[3] = {db, bc, t};
    for (int i = 0; i < 3; i++) {
        m->v[t][i] = one[i], m->v[u][i] = two[i];
        m->beside[t][i] = beside_one[i], m->beside[u][i] = beside_two[i];
    }
    rejoin(m, ad, u, t);
    rejoin(m, bc, t, u);
    return true;
}

/* ---- points of the grid ---- */

/* Triangle that holds p, by a walk from *at; MAP_NONE when the way leaves the region. */
static uint32_t find(const net3 *m, sw_point p, uint32_t at)
{
    for (size_t i = 0; i < m->count + 8; i++) {
        uint32_t next = at;
        for (uint32_t e = 0; e < 3 && next == at; e++)
            if (twice_area(m->p[m->v[at][e]], m->p[m->v[at][(e + 1) % 3]], p) < 0.0) next = m->beside[at][e];
        if (next == at || next == MAP_NONE) return next;
        at = next;
    }
    return MAP_NONE;
}

static bool holds(const net3 *m, uint32_t t, sw_point p)
{
    for (uint32_t e = 0; e < 3; e++)
        if (twice_area(m->p[m->v[t][e]], m->p[m->v[t][(e + 1) % 3]], p) < 0.0) return false;
    return true;
}

/* The walk fails where the region is not convex; then every triangle is asked. */
static uint32_t find_anyhow(const net3 *m, sw_point p, uint32_t at)
{
    uint32_t found = find(m, p, at);
    for (uint32_t t = 0; found == MAP_NONE && t < m->count; t++)
        if (holds(m, t, p)) found = t;
    return found;
}

static double to_segment(sw_point a, sw_point b, sw_point p)
{
    double x = b.x_mm - a.x_mm, y = b.y_mm - a.y_mm, l2 = x * x + y * y;
    double s = l2 > 0.0 ? ((p.x_mm - a.x_mm) * x + (p.y_mm - a.y_mm) * y) / l2 : 0.0;
    s = net_held(s, 0.0, 1.0);
    return hypot(p.x_mm - a.x_mm - s * x, p.y_mm - a.y_mm - s * y);
}

static bool crowds(const net3 *m, uint32_t t, sw_point p, double side_mm)
{
    for (uint32_t e = 0; e < 3; e++) {
        sw_point a = m->p[m->v[t][e]], b = m->p[m->v[t][(e + 1) % 3]];
        if (hypot(a.x_mm - p.x_mm, a.y_mm - p.y_mm) < FROM_POINT * side_mm) return true;
        if (m->beside[t][e] == MAP_NONE && to_segment(a, b, p) < FROM_BORDER * side_mm) return true;
    }
    return false;
}

static bool is_too_near(const net3 *m, uint32_t t, sw_point p, double side_mm)
{
    if (crowds(m, t, p, side_mm)) return true;
    for (uint32_t e = 0; e < 3; e++)
        if (m->beside[t][e] != MAP_NONE && crowds(m, m->beside[t][e], p, side_mm)) return true;
    return false;
}

/* t -> a b n, b c n, c a n, then flips outwards from n. */
static void put(net3 *m, uint32_t t, sw_point p)
{
    uint32_t n = (uint32_t)m->points, u = (uint32_t)m->count, w = u + 1;
    m->p[m->points++] = p;
    m->count += 2;
    uint32_t a = m->v[t][0], b = m->v[t][1], c = m->v[t][2];
    uint32_t ab = m->beside[t][0], bc = m->beside[t][1], ca = m->beside[t][2];
    uint32_t v[3][3] = {{a, b, n}, {b, c, n}, {c, a, n}}, beside[3][3] = {{ab, u, w}, {bc, w, t}, {ca, t, u}};
    uint32_t which[3] = {t, u, w};
    for (int k = 0; k < 3; k++)
        for (int i = 0; i < 3; i++) m->v[which[k]][i] = v[k][i], m->beside[which[k]][i] = beside[k][i];
    rejoin(m, bc, t, u);
    rejoin(m, ca, t, w);
}

/* Flips the edges opposite to point n round it until all hold. */
static void mend(net3 *m, uint32_t t, uint32_t n)
{
    uint32_t todo[64];
    size_t count = 0;
    uint32_t first[3] = {t, (uint32_t)m->count - 2, (uint32_t)m->count - 1};
    for (int i = 0; i < 3; i++) todo[count++] = first[i];
    for (size_t done = 0; count > 0 && done < 200; done++) {
        uint32_t at = todo[--count], e = 0;
        while (e < 3 && (m->v[at][e] == n || m->v[at][(e + 1) % 3] == n)) e++;
        if (e == 3) continue;
        uint32_t other = m->beside[at][e];
        if (!flip(m, at, e) || count + 2 > 64) continue;
        todo[count++] = at;
        todo[count++] = other;
    }
}

static void put_grid(net3 *m, sw_box box, double side_mm)
{
    double row_mm = side_mm * sqrt(0.75);
    uint32_t at = 0;
    size_t rows = (size_t)((box.y1_mm - box.y0_mm) / row_mm) + 1,
           columns = (size_t)((box.x1_mm - box.x0_mm) / side_mm) + 1;
    for (size_t r = 0; r < rows; r++)
        for (size_t c = 0; c < columns; c++) {
            double x = box.x0_mm + side_mm * ((double)c + (r % 2 == 1 ? 0.75 : 0.25));
            sw_point p = {x, box.y0_mm + row_mm * ((double)r + 0.5)};
            uint32_t t = find_anyhow(m, p, at);
            if (t == MAP_NONE) continue;
            at = t;
            if (m->points == m->room || m->count + 2 > m->most || is_too_near(m, t, p, side_mm)) continue;
            put(m, t, p);
            mend(m, t, (uint32_t)m->points - 1);
        }
}

/* ---- all ---- */

static sw_status open_net(sw_run *run, const sw_rings *rings, const sw_triangle *triangles, size_t count, double extra,
                          net3 *m)
{
    size_t points = rings->ends[rings->count - 1];
    m->room = points + (size_t)extra;
    m->most = count + 2 * (size_t)extra;
    m->p = SW_SCRATCH(run, m->room + 1, sw_point);
    m->v = sw_scratch(run, m->most + 1, sizeof *m->v);
    m->beside = sw_scratch(run, m->most + 1, sizeof *m->beside);
    if (m->p == NULL || m->v == NULL || m->beside == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < points; i++) m->p[i] = rings->points[i];
    for (size_t i = 0; i < count; i++) {
        m->v[i][0] = triangles[i].a, m->v[i][1] = triangles[i].b, m->v[i][2] = triangles[i].c;
    }
    m->points = points;
    m->count = count;
    return join(run, m);
}

/* Rings that resist are cut by the slower way; its own points then. */
static sw_status cut(sw_run *run, const sw_region *r, double side_mm, sw_rings *rings, sw_triangle **triangles,
                     size_t *count)
{
    SW_TRY(lay_rings(run, r, side_mm, rings));
    SW_TRY(sw_rings_triangulate(run, rings, triangles, count));
    if (*triangles != NULL) return SW_OK;
    sw_mesh mesh;
    SW_TRY(sw_region_triangles(run, r, 0.1 * side_mm, 0.0, &mesh));
    sw_point *points = SW_SCRATCH(run, mesh.point_count + 1, sw_point);
    size_t *end = SW_SCRATCH(run, 1, size_t);
    *triangles = SW_SCRATCH(run, mesh.triangle_count + 1, sw_triangle);
    if (points == NULL || end == NULL || *triangles == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < mesh.point_count; i++) points[i] = (sw_point){mesh.points[i].x_mm, mesh.points[i].y_mm};
    for (size_t i = 0; i < mesh.triangle_count; i++) (*triangles)[i] = mesh.triangles[i];
    *end = mesh.point_count;
    *rings = (sw_rings){points, end, 1};
    *count = mesh.triangle_count;
    return SW_OK;
}

sw_status map_mesh(sw_run *run, const sw_region *region, double side_mm, map_plane *out)
{
    sw_rings rings;
    sw_triangle *triangles = NULL;
    size_t count = 0;
    net3 m = {0};
    SW_TRY(cut(run, region, side_mm, &rings, &triangles, &count));
    sw_box box = sw_contour_box(region->outline);
    double extra = ((box.x1_mm - box.x0_mm) / side_mm + 2.0) * ((box.y1_mm - box.y0_mm) / (side_mm * sqrt(0.75)) + 2.0);
    SW_TRY(open_net(run, &rings, triangles, count, extra, &m));
    put_grid(&m, box, side_mm);
    out->triangles = SW_SCRATCH(run, m.count + 1, sw_triangle);
    if (out->triangles == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < m.count; i++) out->triangles[i] = (sw_triangle){m.v[i][0], m.v[i][1], m.v[i][2]};
    out->points = m.p;
    out->point_count = m.points;
    out->triangle_count = m.count;
    return SW_OK;
}
