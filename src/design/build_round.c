/* build_round.c: rounds the corners of a ring of straight segments, keeping what each segment is called. */
#include "design/design_parts.h"

#include <math.h>
#include <string.h>

static sw_point unit_along(sw_vertex from, sw_vertex to)
{
    double dx = to.x_mm - from.x_mm, dy = to.y_mm - from.y_mm, length = hypot(dx, dy);
    return (sw_point){dx / length, dy / length};
}

static size_t before(const design_ring *r, size_t i)
{
    return (i + r->n - 1) % r->n;
}
static size_t after(const design_ring *r, size_t i)
{
    return (i + 1) % r->n;
}

/* Signed turn of the direction at corner i, -pi .. pi; counter-clockwise positive. */
static double turn_at(const design_ring *r, size_t i)
{
    sw_point in = unit_along(r->v[before(r, i)], r->v[i]), out = unit_along(r->v[i], r->v[after(r, i)]);
    return atan2(in.x_mm * out.y_mm - in.y_mm * out.x_mm, in.x_mm * out.x_mm + in.y_mm * out.y_mm);
}

/* What the rounding takes from each of the two edges at every corner: R tan(turn/2). */
static double *tangents(design *d, const design_ring *r)
{
    double *cut_mm = DESIGN_TAKE(d, r->n, double);
    for (size_t i = 0; i < r->n; i++)
        if (r->round_mm[i] > 0.0) cut_mm[i] = r->round_mm[i] * tan(fabs(turn_at(r, i)) / 2.0);
    return cut_mm;
}

static bool straight_corner(const design_ring *r, size_t i)
{
    return fabs(r->v[i].bulge) < SW_FLAT_BULGE && fabs(r->v[before(r, i)].bulge) < SW_FLAT_BULGE;
}

static bool fits(const design_ring *r, const double *cut_mm, size_t i)
{
    size_t j = after(r, i);
    double length = hypot(r->v[j].x_mm - r->v[i].x_mm, r->v[j].y_mm - r->v[i].y_mm);
    return cut_mm[i] + cut_mm[j] <= length + SW_SAME_POINT_MM;
}

static int wrong_corner(const design_ring *r, const double *cut_mm)
{
    for (size_t i = 0; i < r->n; i++) {
        if (r->round_mm[i] <= 0.0) continue;
        if (!straight_corner(r, i) || !fits(r, cut_mm, i) || !fits(r, cut_mm, before(r, i))) return (int)i;
    }
    return -1;
}

static const char *edge_of(const design_ring *r, size_t i)
{
    return r->edge == NULL ? NULL : r->edge[i];
}

static void put(design_ring *out, sw_vertex v, const char *edge, int bend)
{
    size_t n = out->n;
    bool same = n > 0 && hypot(out->v[n - 1].x_mm - v.x_mm, out->v[n - 1].y_mm - v.y_mm) < SW_SAME_POINT_MM;
    if (same) n--; /* two roundings meet: the straight between them is gone */
    out->v[n] = v;
    out->edge[n] = edge;
    out->bend[n] = bend;
    out->n = n + 1;
}

static void put_corner(design_ring *out, const design_ring *r, size_t i, double cut_mm)
{
    int bend = r->bend == NULL ? -1 : r->bend[i];
    if (cut_mm < SW_SAME_POINT_MM) {
        put(out, r->v[i], edge_of(r, i), bend);
        return;
    }
    sw_point in = unit_along(r->v[before(r, i)], r->v[i]), along = unit_along(r->v[i], r->v[after(r, i)]);
    sw_vertex start = {r->v[i].x_mm - in.x_mm * cut_mm, r->v[i].y_mm - in.y_mm * cut_mm, tan(turn_at(r, i) / 4.0)};
    sw_vertex end = {r->v[i].x_mm + along.x_mm * cut_mm, r->v[i].y_mm + along.y_mm * cut_mm, 0.0};
    const char *a = edge_of(r, before(r, i)), *b = edge_of(r, i);
    put(out, start, a != NULL && b != NULL && strcmp(a, b) == 0 ? b : NULL, -1);
    put(out, end, b, bend);
}

int design_ring_round(design *d, const design_ring *ring, design_ring *out)
{
    const double *cut_mm = tangents(d, ring);
    int wrong = wrong_corner(ring, cut_mm);
    *out = (design_ring){.n = 0};
    if (wrong >= 0) return wrong;
    out->v = DESIGN_TAKE(d, 2 * ring->n, sw_vertex);
    out->edge = DESIGN_TAKE(d, 2 * ring->n, const char *);
    out->bend = DESIGN_TAKE(d, 2 * ring->n, int);
    for (size_t i = 0; i < ring->n; i++) put_corner(out, ring, i, cut_mm[i]);
    if (out->n > 1 &&
        hypot(out->v[0].x_mm - out->v[out->n - 1].x_mm, out->v[0].y_mm - out->v[out->n - 1].y_mm) < SW_SAME_POINT_MM)
        out->n--; /* the last straight is gone */
    return -1;
}
