/* join_cylinder.c: a cylinder of the torch against a triangle: what of the triangle lies between the cylinder's ends is seen
 * along the axis and compared with a circle. Exact. */
#include "making/join/join_parts.h"

typedef struct seen { /* height along the axis, place across it */
    double h, x, y;
} seen;

static seen seen_from(sw_vec3 p, const join_cylinder *t)
{
    double x = p.x_mm - t->from.x_mm, y = p.y_mm - t->from.y_mm, z = p.z_mm - t->from.z_mm;
    const sw_vec3 *h = &t->axes[0], *u = &t->axes[1], *v = &t->axes[2];
    return (seen){x * h->x_mm + y * h->y_mm + z * h->z_mm, x * u->x_mm + y * u->y_mm + z * u->z_mm,
                  x * v->x_mm + y * v->y_mm + z * v->z_mm};
}

/* Keeps what of the polygon lies above h0 (sign 1) or below (sign -1). Source: Sutherland & Hodgman 1974. */
static size_t clipped(const seen *in, size_t n, double h0, double sign, seen *out)
{
    size_t count = 0;
    for (size_t i = 0; i < n; i++) {
        seen p = in[i], q = in[(i + 1) % n];
        double dp = sign * (p.h - h0), dq = sign * (q.h - h0);
        if (dp >= 0) out[count++] = p;
        if ((dp >= 0) == (dq >= 0)) continue;
        double t = dp / (dp - dq);
        out[count++] = (seen){h0, p.x + t * (q.x - p.x), p.y + t * (q.y - p.y)};
    }
    return count;
}

static double edge_distance(seen p, seen q)
{
    double ex = q.x - p.x, ey = q.y - p.y, square = ex * ex + ey * ey;
    double t = square > 0 ? fmax(0, fmin(1, -(p.x * ex + p.y * ey) / square)) : 0;
    double x = p.x + t * ex, y = p.y + t * ey;
    return sqrt(x * x + y * y);
}

/* Least distance of the origin from a convex polygon seen along the axis; 0 inside. */
static double polygon_distance(const seen *p, size_t n)
{
    double least = INFINITY;
    bool left = true, right = true;
    for (size_t i = 0; i < n; i++) {
        seen a = p[i], b = p[(i + 1) % n];
        double side = a.x * b.y - a.y * b.x;
        left = left && side >= 0;
        right = right && side <= 0;
        least = fmin(least, edge_distance(a, b));
    }
    bool flat = left && right; /* seen edge on */
    return (left || right) && !flat ? 0 : least;
}

static double least(double a, double b, double c)
{
    double ab = a < b ? a : b;
    return ab < c ? ab : c;
}

static bool apart(const seen *p, double radius_mm, double long_mm)
{
    if (least(p[0].h, p[1].h, p[2].h) >= long_mm || least(-p[0].h, -p[1].h, -p[2].h) >= 0) return true;
    if (least(p[0].x, p[1].x, p[2].x) >= radius_mm || least(-p[0].x, -p[1].x, -p[2].x) >= radius_mm) return true;
    return least(p[0].y, p[1].y, p[2].y) >= radius_mm || least(-p[0].y, -p[1].y, -p[2].y) >= radius_mm;
}

static double half_wide(const join_cylinder *c, double axis)
{
    return c->long_mm / 2 * fabs(axis) + c->radius_mm * sqrt(fmax(0, 1 - axis * axis));
}

join_cylinder join_cylinder_at(sw_vec3 from, sw_vec3 axis, double radius_mm, double long_mm)
{
    sw_vec3 other = fabs(axis.x_mm) < 0.6 ? (sw_vec3){1, 0, 0} : (sw_vec3){0, 1, 0};
    sw_vec3 across = sw_vec3_unit(sw_vec3_cross(axis, other));
    join_cylinder c = {from, {axis, across, sw_vec3_cross(axis, across)}, radius_mm, long_mm, {{0, 0, 0}, {0, 0, 0}}};
    sw_vec3 middle = sw_vec3_add(from, sw_vec3_scaled(axis, long_mm / 2));
    sw_vec3 half = {half_wide(&c, axis.x_mm), half_wide(&c, axis.y_mm), half_wide(&c, axis.z_mm)};
    c.box = (join_box){sw_vec3_sub(middle, half), sw_vec3_add(middle, half)};
    return c;
}

bool join_cylinder_meets(const join_cylinder *c, const join_face *f)
{
    seen p[3] = {seen_from(f->a, c), seen_from(f->b, c), seen_from(f->c, c)};
    if (apart(p, c->radius_mm, c->long_mm)) return false;
    seen low[4], both[5];
    size_t n = clipped(p, 3, 0, 1, low);
    n = clipped(low, n, c->long_mm, -1, both);
    return n > 0 && polygon_distance(both, n) < c->radius_mm - SW_SAME_POINT_MM;
}
