/* contour_round.c: corners between two lines rounded by a tangent arc. */
#include "geometry/geometry_parts.h"

#include <stdio.h>

/* Turn at vertex i between its two edges, radians, left positive, within +-pi. */
static double corner_turn(sw_contour c, size_t i)
{
    sw_point at = point_of(c.v[i]), in = minus(at, point_of(c.v[(i + c.n - 1) % c.n])),
             out = minus(contour_next(c, i), at);
    return atan2(cross(in, out), dot(in, out));
}

static sw_status refuse(sw_run *run, sw_contour c, size_t i, const char *why, double radius_mm)
{
    return sw_fail(run, SW_OUT_OF_RANGE, (sw_place){0}, "", "corner %zu at (%.6g, %.6g) cannot have radius %.6g mm: %s",
                   i + 1, c.v[i].x_mm, c.v[i].y_mm, radius_mm, why);
}

/* Length of edge that the rounding takes on either side of corner i; 0 when it stays as it is. */
static sw_status corner_reach(sw_run *run, sw_contour c, size_t i, double radius_mm, double *reach_mm)
{
    *reach_mm = 0.0;
    if (!(radius_mm >= 0.0) || !isfinite(radius_mm))
        return refuse(run, c, i, "a radius is 0 or a positive length; give one", radius_mm);
    if (radius_mm == 0.0) return SW_OK;
    if (bends(c.v[i].bulge) || bends(c.v[(i + c.n - 1) % c.n].bulge))
        return refuse(run, c, i, "only corners between two straight edges are rounded; use 0", radius_mm);
    double turn_rad = corner_turn(c, i);
    if (fabs(turn_rad) > SW_PI - 1e-9) return refuse(run, c, i, "the edges fold back on themselves; use 0", radius_mm);
    *reach_mm = radius_mm * tan(0.5 * fabs(turn_rad));
    return SW_OK;
}

static sw_status check_edges(sw_run *run, sw_contour c, const double *radii_mm, const double *reach_mm)
{
    for (size_t i = 0; i < c.n; i++) {
        size_t next = (i + 1) % c.n;
        double edge_mm = gap_mm(point_of(c.v[i]), point_of(c.v[next])), wanted_mm = reach_mm[i] + reach_mm[next];
        if (wanted_mm <= edge_mm + SW_SAME_POINT_MM) continue;
        size_t worst = reach_mm[next] > reach_mm[i] ? next : i;
        char why[160];
        (void)snprintf(why, sizeof why,
                       "edge %zu is %.6g mm long and its two roundings need %.6g mm; use a smaller radius", i + 1,
                       edge_mm, wanted_mm);
        return refuse(run, c, worst, why, radii_mm[worst]);
    }
    return SW_OK;
}

static size_t put_corner(sw_vertex *v, sw_contour c, size_t i, double reach_mm)
{
    if (reach_mm <= 0.0) {
        v[0] = c.v[i];
        return 1;
    }
    sw_point at = point_of(c.v[i]), before = point_of(c.v[(i + c.n - 1) % c.n]), after = contour_next(c, i);
    sw_point start = plus(at, times(minus(before, at), reach_mm / gap_mm(before, at)));
    sw_point end = plus(at, times(minus(after, at), reach_mm / gap_mm(after, at)));
    v[0] = (sw_vertex){start.x_mm, start.y_mm, tan(0.25 * corner_turn(c, i))};
    v[1] = (sw_vertex){end.x_mm, end.y_mm, c.v[i].bulge};
    return 2;
}

/* Two roundings that meet leave no edge between them: the doubled vertex goes. */
static size_t without_doubles(sw_vertex *v, size_t n)
{
    size_t kept = 0;
    for (size_t i = 0; i < n; i++) {
        bool doubled = same_point(point_of(v[i]), point_of(v[(i + 1) % n])) && !bends(v[i].bulge);
        if (!doubled) v[kept++] = v[i];
    }
    return kept;
}

static sw_status rounded(sw_run *run, sw_contour c, const double *radii_mm, sw_contour *out)
{
    size_t n = 0;
    double *reach_mm = SW_SCRATCH(run, c.n, double);
    sw_vertex *v = SW_KEEP(run, 2 * c.n, sw_vertex);
    if (reach_mm == NULL || v == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < c.n; i++) SW_TRY(corner_reach(run, c, i, radii_mm[i], &reach_mm[i]));
    SW_TRY(check_edges(run, c, radii_mm, reach_mm));
    for (size_t i = 0; i < c.n; i++) n += put_corner(v + n, c, i, reach_mm[i]);
    *out = (sw_contour){v, without_doubles(v, n)};
    return SW_OK;
}

sw_status sw_contour_rounded(sw_run *run, sw_contour c, const double *radii_mm, sw_contour *out)
{
    size_t mark = sw_arena_mark(run->scratch);
    *out = (sw_contour){0};
    sw_status status = rounded(run, c, radii_mm, out);
    sw_arena_rewind(run->scratch, mark);
    return status;
}
