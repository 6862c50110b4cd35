/* allowance.c: developed length of a bend. Formulas of DIN 6935 and the neutral-axis relations behind them. */
#include "making/sheet/sheet.h"

#include <math.h>

static const double least_ratio =
    0.3; /* below it k runs to 0 and turns negative (r/s = 0.05): ours, from the formula */
static const double quarter_rad = SW_PI / 2.0;

/* k = 0.65 + 0.5 log10(r/s) for r/s <= 5, 1 above.   source: DIN 6935:2011-10, correction factor */
double sw_din6935_k(double r_mm, double s_mm)
{
    double ratio = r_mm / s_mm;
    if (!(s_mm > 0.0) || !(ratio >= least_ratio)) return NAN;
    return ratio > 5.0 ? 1.0 : 0.65 + 0.5 * log10(ratio);
}

/* v = A (r + k s/2) - 2 (r + s)             0 <= beta <= 90 deg
 * v = A (r + k s/2) - 2 (r + s) tan(A/2)   90 < beta <= 165 deg
 * v = 0                                   165 < beta <= 180 deg     source: DIN 6935:2011-10, compensation v */
double sw_din6935_v(double r_mm, double s_mm, double beta_rad, bool step_above_165)
{
    double k = sw_din6935_k(r_mm, s_mm);
    if (isnan(k) || !(beta_rad >= 0.0 && beta_rad <= SW_PI)) return NAN;
    if (step_above_165 && beta_rad > sw_rad_from_deg(165.0)) return 0.0;
    double A = SW_PI - beta_rad;
    double arc_mm = A * (r_mm + k * s_mm / 2.0);
    if (beta_rad <= quarter_rad) return arc_mm - 2.0 * (r_mm + s_mm);
    return arc_mm - 2.0 * (r_mm + s_mm) * tan(A / 2.0);
}

/* BA = A (r + K s), the length of the neutral fibre.   source: derived, K = k/2 in DIN 6935 */
double sw_bend_allowance_mm(double r_mm, double s_mm, double k, double angle_rad)
{
    return fabs(angle_rad) * (r_mm + k * s_mm);
}

/* From the tangent line to the outside intersection (up to 90 deg) or to the outermost point (above).
 * source: derived, the two leg conventions of DIN 6935 */
double sw_bend_setback_mm(double r_mm, double s_mm, double angle_rad)
{
    double A = fabs(angle_rad);
    return A > quarter_rad ? r_mm + s_mm : (r_mm + s_mm) * tan(A / 2.0);
}

/* BD = 2 OSSB - BA, OSSB to the outside intersection.   source: derived */
double sw_bend_deduction_mm(double r_mm, double s_mm, double k, double angle_rad)
{
    double outside_mm = 2.0 * (r_mm + s_mm) * tan(fabs(angle_rad) / 2.0);
    return outside_mm - sw_bend_allowance_mm(r_mm, s_mm, k, angle_rad);
}

/* BA = L - (a - OSSB) - (b - OSSB), K = (BA/A - r)/s.   source: derived; legs a, b to the outside intersection */
double sw_k_from_strip(double a_mm, double b_mm, double s_mm, double r_mm, double angle_rad, double flat_mm)
{
    double A = fabs(angle_rad);
    double setback_mm = (r_mm + s_mm) * tan(A / 2.0);
    double allowance_mm = flat_mm - (a_mm - setback_mm) - (b_mm - setback_mm);
    return (allowance_mm / A - r_mm) / s_mm;
}
