#include "geometry/geometry.h"

#include <stdlib.h>

static int by_x_then_y(const void *a, const void *b)
{
    const sw_point *p = a, *q = b;
    if (p->x_mm != q->x_mm) return p->x_mm < q->x_mm ? -1 : 1;
    if (p->y_mm != q->y_mm) return p->y_mm < q->y_mm ? -1 : 1;
    return 0;
}

static double turn(sw_point a, sw_point b, sw_point c)
{
    return (b.x_mm - a.x_mm) * (c.y_mm - a.y_mm) - (b.y_mm - a.y_mm) * (c.x_mm - a.x_mm);
}

size_t sw_points_hull(sw_point *points, size_t count, sw_point *hull)
{
    if (count == 0) return 0;
    size_t n = 0;
    qsort(points, count, sizeof *points, by_x_then_y);
    for (size_t i = 0; i < count; i++) {
        while (n >= 2 && turn(hull[n - 2], hull[n - 1], points[i]) <= 0) n--;
        hull[n++] = points[i];
    }
    size_t lower = n + 1;
    for (size_t i = count - 1; i-- > 0;) {
        while (n >= lower && turn(hull[n - 2], hull[n - 1], points[i]) <= 0) n--;
        hull[n++] = points[i];
    }
    return n > 1 ? n - 1 : n;
}
