/* bend_angle_table.c: how far a bend angle may be off, by the shorter leg.
 *
 * DIN 6935, limit deviations of angles; from memory, with moderate confidence. Upper ends belong to their band. */
#include "matter/matter.h"

#include <math.h>

enum { BANDS = 5 };

static const double leg_to_mm[BANDS] = {30.0, 50.0, 80.0, 120.0, INFINITY};
static const double plus_minus_deg[BANDS] = {2.0, 1.75, 1.5, 1.25, 1.0};

double sw_bend_angle_deviation_rad(double shorter_leg_mm)
{
    if (!(shorter_leg_mm > 0.0)) return NAN;
    int band = 0;
    while (!(shorter_leg_mm <= leg_to_mm[band])) band++;
    return sw_rad_from_deg(plus_minus_deg[band]);
}
