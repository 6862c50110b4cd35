/* shapes.c: short closed forms of the sheet trade: joggle, hem, slot, sagitta. All derived from plane geometry. */
#include "making/sheet/sheet.h"

#include <math.h>

/* h = 2 R (1 - cos A) + t sin A, R = r + s/2;  x = 2 R sin A + t cos A;  h_min = (2 r + s)(1 - cos A).
 * source: derived (two equal opposite arcs of the mid-surface and the straight t between them) */
sw_joggle sw_joggle_of(double offset_mm, double s_mm, double r_mm, double k, double angle_rad)
{
    double A = fabs(angle_rad), R_mm = r_mm + s_mm / 2.0;
    sw_joggle j = {.straight_mm = NAN, .run_mm = NAN, .developed_mm = NAN};
    j.least_offset_mm = 2.0 * R_mm * (1.0 - cos(A));
    if (!(fabs(offset_mm) >= j.least_offset_mm) || !(sin(A) > 0.0)) return j;
    j.straight_mm = (fabs(offset_mm) - j.least_offset_mm) / sin(A);
    j.run_mm = 2.0 * R_mm * sin(A) + j.straight_mm * cos(A);
    j.developed_mm = 2.0 * sw_bend_allowance_mm(r_mm, s_mm, k, A) + j.straight_mm;
    return j;
}

/* L = a + h - 2 s + pi K s, a and h to the outside of the fold.   source: derived, tangent convention with r = 0 */
double sw_hem_length_mm(double a_mm, double h_mm, double s_mm, double k)
{
    return a_mm + h_mm - 2.0 * s_mm + SW_PI * k * s_mm;
}

/* w = s1/sin phi + s2/|tan phi| + c.   source: derived (a plate s1 through a plate s2 at the crossing angle phi) */
double sw_slot_width_mm(double s1_mm, double s2_mm, double crossing_rad, double clearance_mm)
{
    double sine = sin(crossing_rad);
    if (!(sine > 0.0)) return NAN;
    return s1_mm / sine + s2_mm * fabs(cos(crossing_rad)) / sine + clearance_mm;
}

/* h = R - sqrt(R2 - c2/4); NAN when the chord is longer than the diameter.   source: derived */
double sw_sagitta_mm(double radius_mm, double chord_mm)
{
    return radius_mm - sqrt(radius_mm * radius_mm - chord_mm * chord_mm / 4.0);
}

/* R = c2/(8 h) + h/2.   source: derived */
double sw_radius_from_sagitta_mm(double sagitta_mm, double chord_mm)
{
    return chord_mm * chord_mm / (8.0 * sagitta_mm) + sagitta_mm / 2.0;
}
