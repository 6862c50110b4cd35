/* machine_apart.c: how far two lines or arcs that should be one can lie apart. */
#include "papers/machine_parts.h"

#include <math.h>

/* The likeness that takes chord a to chord b moves the point a.from + (t + ih) chord by (1 - t) d + t e + ih (e - d), d and
 * e being how far start and end move (as complex numbers); on an arc of at most half a circle 0 <= t <= 1 and
 * |h| <= |bulge| / 2. Then only the bulge differs: between arcs over one chord no point has farther to go than
 * chord / 2 times the difference, which the middle has. Derived. */
double machine_apart_mm(sw_vertex a, sw_point a_to, sw_vertex b, sw_point b_to)
{
    if (!(fabs(a.bulge) <= 1 + SW_SAME_POINT_MM && fabs(b.bulge) <= 1 + SW_SAME_POINT_MM)) return INFINITY;
    double dx = b.x_mm - a.x_mm, dy = b.y_mm - a.y_mm, ex = b_to.x_mm - a_to.x_mm, ey = b_to.y_mm - a_to.y_mm;
    double ends2 = fmax(dx * dx + dy * dy, ex * ex + ey * ey);
    if (a.bulge == 0 && b.bulge == 0) return sqrt(ends2);
    double chord_mm = hypot(b_to.x_mm - b.x_mm, b_to.y_mm - b.y_mm), turned_mm = hypot(ex - dx, ey - dy);
    return sqrt(ends2) + fabs(a.bulge) / 2 * turned_mm + fabs(b.bulge - a.bulge) / 2 * chord_mm;
}
