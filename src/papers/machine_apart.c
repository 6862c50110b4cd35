/* machine_apart.c: how far two lines or arcs that should be one can lie apart. */
#include "papers/machine_parts.h"

#include <math.h>

static double length_of(double x_mm, double y_mm)
{
    return sqrt(x_mm * x_mm + y_mm * y_mm);
}

/* The likeness that takes chord a to chord b moves the points of the chord by at most what its ends move, and a point off
 * the chord by its distance from it, at most |bulge| / 2 chords, times the difference of those moves besides. Then only
 * the bulge differs: between arcs over one chord no point has farther to go than the middle, chord / 2 times the
 * difference. Derived. */
double machine_apart_mm(sw_vertex a, sw_point a_to, sw_vertex b, sw_point b_to)
{
    double dx = b.x_mm - a.x_mm, dy = b.y_mm - a.y_mm, ex = b_to.x_mm - a_to.x_mm, ey = b_to.y_mm - a_to.y_mm;
    double start_mm = length_of(dx, dy), end_mm = length_of(ex, ey), ends_mm = start_mm > end_mm ? start_mm : end_mm;
    if (a.bulge == 0 && b.bulge == 0) return ends_mm;
    double chord_mm = length_of(b_to.x_mm - b.x_mm, b_to.y_mm - b.y_mm), turned_mm = length_of(ex - dx, ey - dy);
    return ends_mm + fabs(a.bulge) / 2 * turned_mm + fabs(b.bulge - a.bulge) / 2 * chord_mm;
}
