/* nest_convex.c: rings cut into convex polygons, each grown by half the web.
 *
 * Delaunay triangles are joined across their longest common edges while the union stays
 * convex: Hertel & Mehlhorn, Fast triangulation of the plane with respect to simple polygons, 1983 (from
 * memory): at most four times the least number of parts. Growing a convex polygon moves each edge out;
 * corners are mitred, and where sharper than a right angle cut by a third tangent, so that the circle about
 * every corner is contained. Grown parts that lie within another are dropped. Rings that touch or cross are replaced by
 * their convex hull, which contains them. */
#include "making/nest/nest_parts.h"

#include <math.h>
#include <stdlib.h>

typedef struct part {
    uint32_t *at;
    size_t n;
    bool gone;
} part; /* indices into the ring points, counter-clockwise */
typedef struct join {
    double length_mm;
    uint32_t a, b;
} join;

static int by_length(const void *a, const void *b)
{
    const join *p = a, *q = b;
    if (p->length_mm != q->length_mm) return p->length_mm < q->length_mm ? 1 : -1;
    if (p->a != q->a) return p->a < q->a ? -1 : 1;
    return p->b < q->b ? -1 : p->b > q->b;
}

static double cross(sw_point a, sw_point b, sw_point c)
{
    return (b.x_mm - a.x_mm) * (c.y_mm - b.y_mm) - (b.y_mm - a.y_mm) * (c.x_mm - b.x_mm);
}

static bool turns_left(sw_point a, sw_point b, sw_point c)
{
    double scale = (fabs(b.x_mm - a.x_mm) + fabs(b.y_mm - a.y_mm)) * (fabs(c.x_mm - b.x_mm) + fabs(c.y_mm - b.y_mm));
    return cross(a, b, c) >= -1e-12 * scale;
}

/* count 0: the rings touch or cross. */
static sw_status triangles(sw_run *run, const nest_rings *rings, part **parts, size_t *count)
{
    const sw_rings plain = {rings->points, rings->ends, rings->ring_count};
    sw_triangle *found = NULL;
    SW_TRY(sw_rings_triangulate(run, &plain, &found, count));
    part *out = SW_SCRATCH(run, *count, part);
    uint32_t *at = SW_SCRATCH(run, *count * 3, uint32_t);
    if (out == NULL || at == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < *count; i++) {
        out[i] = (part){.at = at + 3 * i, .n = 3};
        out[i].at[0] = found[i].a;
        out[i].at[1] = found[i].b;
        out[i].at[2] = found[i].c;
    }
    *parts = out;
    return SW_OK;
}

/* ---- joining ----------------------------------------------------------------------------- */

static size_t edge_at(const part *p, uint32_t a, uint32_t b)
{
    for (size_t i = 0; i < p->n; i++)
        if (p->at[i] == a && p->at[(i + 1) % p->n] == b) return i;
    return SIZE_MAX;
}

static bool find_edge(const part *parts, size_t count, uint32_t a, uint32_t b, size_t where[2])
{
    for (size_t i = 0; i < count; i++) {
        size_t edge = parts[i].gone ? SIZE_MAX : edge_at(&parts[i], a, b);
        if (edge == SIZE_MAX) continue;
        where[0] = i;
        where[1] = edge;
        return true;
    }
    return false;
}

/* Joins q to p across p's edge i = q's edge j reversed, when the outcome is convex. */
static sw_status join_two(sw_run *run, const sw_point *points, part *p, part *q, const size_t edges[2])
{
    size_t i = edges[0], j = edges[1], n = p->n + q->n - 2;
    uint32_t a = p->at[i], b = p->at[(i + 1) % p->n];
    uint32_t before_a = p->at[(i + p->n - 1) % p->n], after_b = p->at[(i + 2) % p->n];
    uint32_t after_a = q->at[(j + 2) % q->n], before_b = q->at[(j + q->n - 1) % q->n];
    if (!turns_left(points[before_a], points[a], points[after_a])) return SW_OK;
    if (!turns_left(points[before_b], points[b], points[after_b])) return SW_OK;
    uint32_t *at = SW_SCRATCH(run, n, uint32_t);
    if (at == NULL) return SW_NO_MEMORY;
    size_t k = 0;
    for (size_t s = 1; s <= p->n; s++) at[k++] = p->at[(i + s) % p->n]; /* b .. a */
    for (size_t s = 2; s < q->n; s++) at[k++] = q->at[(j + s) % q->n];  /* after a .. before b */
    p->at = at;
    p->n = n;
    q->gone = true;
    return SW_OK;
}

static sw_status list_joins(sw_run *run, const sw_point *points, const part *parts, size_t count, join **out,
                            size_t *join_count)
{
    join *joins = SW_SCRATCH(run, count * 3, join);
    if (joins == NULL) return SW_NO_MEMORY;
    size_t n = 0, ignored[2];
    for (size_t i = 0; i < count; i++) {
        for (size_t k = 0; k < 3; k++) {
            uint32_t a = parts[i].at[k], b = parts[i].at[(k + 1) % 3];
            if (a > b || !find_edge(parts, count, b, a, ignored)) continue;
            joins[n++] = (join){hypot(points[a].x_mm - points[b].x_mm, points[a].y_mm - points[b].y_mm), a, b};
        }
    }
    qsort(joins, n, sizeof *joins, by_length);
    *out = joins;
    *join_count = n;
    return SW_OK;
}

static sw_status join_all(sw_run *run, const sw_point *points, part *parts, size_t count)
{
    join *joins = NULL;
    size_t n = 0, p[2], q[2];
    SW_TRY(list_joins(run, points, parts, count, &joins, &n));
    for (size_t i = 0; i < n; i++) {
        bool both =
            find_edge(parts, count, joins[i].a, joins[i].b, p) && find_edge(parts, count, joins[i].b, joins[i].a, q);
        if (!both || p[0] == q[0]) continue;
        SW_TRY(join_two(run, points, &parts[p[0]], &parts[q[0]], (size_t[2]){p[1], q[1]}));
    }
    return SW_OK;
}

/* ---- growing ------------------------------------------------------------------------------ */

static sw_point unit_edge(sw_point a, sw_point b)
{
    double length = hypot(b.x_mm - a.x_mm, b.y_mm - a.y_mm);
    return (sw_point){(b.x_mm - a.x_mm) / length, (b.y_mm - a.y_mm) / length};
}

/* Where the lines at distance d outside two edges with outer normals m and n meet, corner at v. */
static sw_point mitre(sw_point v, sw_point m, sw_point n, double d)
{
    double k = d / (1 + m.x_mm * n.x_mm + m.y_mm * n.y_mm);
    return (sw_point){v.x_mm + k * (m.x_mm + n.x_mm), v.y_mm + k * (m.y_mm + n.y_mm)};
}

/* out[2 n]; gives the number of corners. */
static size_t grow(const sw_point *p, size_t n, double d, sw_point *out)
{
    size_t k = 0;
    for (size_t i = 0; i < n; i++) {
        sw_point e = unit_edge(p[(i + n - 1) % n], p[i]), f = unit_edge(p[i], p[(i + 1) % n]);
        sw_point m = {e.y_mm, -e.x_mm}, q = {f.y_mm, -f.x_mm};
        if (m.x_mm * q.x_mm + m.y_mm * q.y_mm >= -1e-6) {
            out[k++] = mitre(p[i], m, q, d);
            continue;
        }
        sw_point tip = unit_edge((sw_point){f.x_mm, f.y_mm}, (sw_point){e.x_mm, e.y_mm});
        out[k++] = mitre(p[i], m, tip, d);
        out[k++] = mitre(p[i], tip, q, d);
    }
    return k;
}

static sw_status grown_poly(sw_run *run, sw_point *corners, size_t n, double grow_mm, nest_poly *out)
{
    if (grow_mm <= 0) return nest_poly_make(run, run->scratch, corners, n, out);
    sw_point *grown = SW_SCRATCH(run, 2 * n, sw_point);
    if (grown == NULL) return SW_NO_MEMORY;
    return nest_poly_make(run, run->scratch, grown, grow(corners, n, grow_mm, grown), out);
}

static sw_status hull_part(sw_run *run, const nest_rings *rings, double grow_mm, nest_poly *out)
{
    sw_point *copy = SW_SCRATCH(run, rings->ends[0], sw_point);
    sw_point *corners = SW_SCRATCH(run, 2 * rings->ends[0], sw_point);
    if (copy == NULL || corners == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < rings->ends[0]; i++) copy[i] = rings->points[i];
    size_t n = sw_points_hull(copy, rings->ends[0], corners);
    return grown_poly(run, corners, n, grow_mm, out);
}

sw_status nest_convex_hull(sw_run *run, const nest_rings *rings, double grow_mm, const nest_poly **out)
{
    nest_poly *made = SW_SCRATCH(run, 1, nest_poly);
    *out = made;
    return made == NULL ? SW_NO_MEMORY : hull_part(run, rings, grow_mm, made);
}

static sw_status part_poly(sw_run *run, const sw_point *points, const part *p, double grow_mm, nest_poly *out)
{
    sw_point *corners = SW_SCRATCH(run, p->n, sw_point);
    if (corners == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < p->n; i++) corners[i] = points[p->at[i]];
    return grown_poly(run, corners, p->n, grow_mm, out);
}

sw_status nest_convex(sw_run *run, const nest_rings *rings, double grow_mm, const nest_poly **parts, size_t *count)
{
    part *found = NULL;
    size_t n = 0;
    SW_TRY(triangles(run, rings, &found, &n));
    nest_poly *out = SW_SCRATCH(run, n == 0 ? 1 : n, nest_poly);
    if (out == NULL) return SW_NO_MEMORY;
    *parts = out;
    *count = 1;
    if (n == 0) return hull_part(run, rings, grow_mm, out);
    SW_TRY(join_all(run, rings->points, found, n));
    *count = 0;
    for (size_t i = 0; i < n; i++) {
        if (found[i].gone) continue;
        SW_TRY(part_poly(run, rings->points, &found[i], grow_mm, &out[*count]));
        ++*count;
    }
    *count = nest_poly_drop_inner(out, *count);
    return SW_OK;
}
