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

typedef struct rounding { /* of one corner; all 0 where it stays sharp */
    double turn_rad, cut_mm;
} rounding;

/* What the rounding takes from each of the two edges at every corner: R tan(turn/2). */
static const rounding *roundings(design *d, const design_ring *r)
{
    rounding *all = DESIGN_TAKE(d, r->n, rounding);
    for (size_t i = 0; i < r->n; i++) {
        if (r->round_mm[i] <= 0.0) continue;
        all[i].turn_rad = turn_at(r, i);
        all[i].cut_mm = r->round_mm[i] * tan(fabs(all[i].turn_rad) / 2.0);
    }
    return all;
}

static bool nearer(sw_vertex a, sw_vertex b, double than_mm)
{
    double dx = a.x_mm - b.x_mm, dy = a.y_mm - b.y_mm;
    return dx * dx + dy * dy < than_mm * than_mm;
}

static bool straight_corner(const design_ring *r, size_t i)
{
    return fabs(r->v[i].bulge) < SW_FLAT_BULGE && fabs(r->v[before(r, i)].bulge) < SW_FLAT_BULGE;
}

static bool fits(const design_ring *r, const rounding *all, size_t i)
{
    size_t j = after(r, i);
    double length = hypot(r->v[j].x_mm - r->v[i].x_mm, r->v[j].y_mm - r->v[i].y_mm);
    return all[i].cut_mm + all[j].cut_mm <= length + SW_SAME_POINT_MM;
}

static int wrong_corner(const design_ring *r, const rounding *all)
{
    for (size_t i = 0; i < r->n; i++) {
        if (r->round_mm[i] <= 0.0) continue;
        if (!straight_corner(r, i) || !fits(r, all, i) || !fits(r, all, before(r, i))) return (int)i;
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
    if (n > 0 && nearer(out->v[n - 1], v, SW_SAME_POINT_MM))
        n--; /* two roundings meet: the straight between them is gone */
    out->v[n] = v;
    out->edge[n] = edge;
    out->bend[n] = bend;
    out->n = n + 1;
}

static void put_corner(design_ring *out, const design_ring *r, size_t i, rounding by)
{
    int bend = r->bend == NULL ? -1 : r->bend[i];
    double cut_mm = by.cut_mm;
    if (cut_mm < SW_SAME_POINT_MM) {
        put(out, r->v[i], edge_of(r, i), bend);
        return;
    }
    sw_point in = unit_along(r->v[before(r, i)], r->v[i]), along = unit_along(r->v[i], r->v[after(r, i)]);
    sw_vertex start = {r->v[i].x_mm - in.x_mm * cut_mm, r->v[i].y_mm - in.y_mm * cut_mm, tan(by.turn_rad / 4.0)};
    sw_vertex end = {r->v[i].x_mm + along.x_mm * cut_mm, r->v[i].y_mm + along.y_mm * cut_mm, 0.0};
    const char *a = edge_of(r, before(r, i)), *b = edge_of(r, i);
    put(out, start, a != NULL && b != NULL && strcmp(a, b) == 0 ? b : NULL, -1);
    put(out, end, b, bend);
}

int design_ring_round(design *d, const design_ring *ring, design_ring *out)
{
    const rounding *all = roundings(d, ring);
    int wrong = wrong_corner(ring, all);
    *out = (design_ring){.n = 0};
    if (wrong >= 0) return wrong;
    out->v = DESIGN_TAKE(d, 2 * ring->n, sw_vertex);
    out->edge = DESIGN_TAKE(d, 2 * ring->n, const char *);
    out->bend = DESIGN_TAKE(d, 2 * ring->n, int);
    for (size_t i = 0; i < ring->n; i++) put_corner(out, ring, i, all[i]);
    if (out->n > 1 && nearer(out->v[0], out->v[out->n - 1], SW_SAME_POINT_MM)) out->n--; /* the last straight is gone */
    return -1;
}
