/* contour_tidy.c: the same curve with as few vertices as it needs. */
#include "geometry/offset_parts.h"

#include <string.h>

/* Without vertices doubled by a segment of no length; at most one vertex is left of a point. */
static size_t drop_doubles(sw_vertex *v, size_t n)
{
    size_t kept = 0;
    for (size_t i = 0; i < n; i++) {
        sw_point next = point_of(i + 1 < n ? v[i + 1] : v[0]);
        if (!same_point(point_of(v[i]), next)) v[kept++] = v[i];
    }
    return kept;
}

static bool lines_join(sw_point a, sw_point b, sw_point c)
{
    sw_point whole = minus(c, a), first = minus(b, a), rest = minus(c, b);
    double length_mm = norm(whole);
    if (length_mm <= SW_SAME_POINT_MM || dot(first, rest) <= 0.0) return false;
    return fabs(cross(whole, first)) <= SW_COLLINEAR_MM * length_mm;
}

static bool on_arc(const segment *arc, sw_point p)
{
    return segment_point_distance(arc, p) <= SW_COLLINEAR_MM;
}

/* Two arcs of one circle and sense that together turn at most half round (bulge 1). */
static bool arcs_join(sw_vertex a, sw_vertex b, sw_point c)
{
    if ((a.bulge > 0.0) != (b.bulge > 0.0)) return false;
    double sweep_rad = 4.0 * (atan(a.bulge) + atan(b.bulge));
    if (fabs(sweep_rad) > SW_PI * (1.0 + 1e-12)) return false;
    segment joined = segment_make((sw_vertex){a.x_mm, a.y_mm, tan(0.25 * sweep_rad)}, c);
    return on_arc(&joined, sw_segment_point(a, point_of(b), 0.5)) && on_arc(&joined, point_of(b)) &&
           on_arc(&joined, sw_segment_point(b, c, 0.5));
}

/* Whether a-b-c is one segment; then *bulge is its bulge. */
static bool joins(sw_vertex a, sw_vertex b, sw_point c, double *bulge)
{
    *bulge = 0.0;
    if (!bends(a.bulge) && !bends(b.bulge)) return lines_join(point_of(a), point_of(b), c);
    if (!bends(a.bulge) || !bends(b.bulge) || !arcs_join(a, b, c)) return false;
    *bulge = tan(atan(a.bulge) + atan(b.bulge));
    return true;
}

/* Joins at each vertex but the first; keeps at least two. */
static size_t join_inner(sw_vertex *v, size_t n)
{
    size_t kept = 0;
    for (size_t i = 0; i < n; i++) {
        double bulge;
        sw_point next = point_of(i + 1 < n ? v[i + 1] : v[0]);
        if (kept > 0 && kept + (n - i) > 2 && joins(v[kept - 1], v[i], next, &bulge))
            v[kept - 1].bulge = bulge;
        else
            v[kept++] = v[i];
    }
    return kept;
}

/* Joins at the first vertex: then the contour starts at its second. */
static size_t join_first(sw_vertex *v, size_t n)
{
    double bulge;
    if (n < 3 || !joins(v[n - 1], v[0], point_of(v[1]), &bulge)) return n;
    v[n - 1].bulge = bulge;
    memmove(v, v + 1, (n - 1) * sizeof *v);
    return n - 1;
}

size_t vertices_tidied(sw_vertex *v, size_t n)
{
    n = drop_doubles(v, n);
    n = join_inner(v, n);
    return join_first(v, n);
}

sw_status sw_contour_tidied(sw_run *run, sw_contour c, sw_contour *out)
{
    *out = (sw_contour){0};
    sw_vertex *v = SW_KEEP(run, c.n, sw_vertex);
    if (v == NULL) return SW_NO_MEMORY;
    if (c.n > 0) memcpy(v, c.v, c.n * sizeof *v);
    *out = (sw_contour){v, vertices_tidied(v, c.n)};
    return SW_OK;
}
