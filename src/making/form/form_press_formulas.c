/* form_press_formulas.c: the press brake by hand: force, die, radius, least flange, punch depth, springback. */
#include "making/form/form.h"

#include <math.h>

static const double least_v_s = 6.0, most_v_s = 15.0; /* range of the force formula, handbook 2.1 */
static const double hair = 1e-9;

static bool die_in_range(double s_mm, double die_mm)
{
    return s_mm > 0.0 && die_mm >= (least_v_s - hair) * s_mm && die_mm <= (most_v_s + hair) * s_mm;
}

/* C = 1 + 4 s/V.   source: Oehler/Kaiser, Schnitt-, Stanz- und Ziehwerkzeuge (from memory) */
double sw_press_factor(double s_mm, double die_mm)
{
    return die_in_range(s_mm, die_mm) ? 1.0 + 4.0 * s_mm / die_mm : (double)NAN;
}

/* F = C Rm s2 l/V.   source: common practice; Lange, Umformtechnik vol. 3 (from memory) */
double sw_press_force_n(double factor, double rm_mpa, double s_mm, double length_mm, double die_mm)
{
    if (!die_in_range(s_mm, die_mm) || !(factor > 0.0) || !(rm_mpa > 0.0) || !(length_mm >= 0.0)) return NAN;
    return factor * rm_mpa * s_mm * s_mm * length_mm / die_mm;
}

/* V = 6 s to 2.5 mm, 8 s to 8 mm, 10 s to 10 mm, 12 s above.   source: a press-brake maker's page, handbook 2.2 */
double sw_die_wanted_mm(double s_mm)
{
    if (!(s_mm > 0.0)) return NAN;
    double factor = s_mm <= 2.5 ? 6.0 : s_mm <= 8.0 ? 8.0 : s_mm <= 10.0 ? 10.0 : 12.0;
    return factor * s_mm;
}

/* V opening, least outside flange at 90 degrees, natural inside radius, mm. source: a toolmaker's air bending chart for
 * mild steel of 450 N/mm2, handbook 2.2 */
static const double chart[][3] = {{6, 4, 1.0},   {8, 5.5, 1.3}, {10, 7, 1.6},    {12, 8.5, 2.0},
                                  {16, 11, 2.6}, {20, 14, 3.3}, {25, 17.5, 4.0}, {32, 22, 5.0},
                                  {40, 28, 6.5}, {50, 35, 8.0}, {63, 45, 10},    {80, 55, 13}};
enum { CHART_ROWS = sizeof chart / sizeof *chart };

/* Between rows by straight line, beyond them in proportion to V. */
static double charted(double die_mm, int column, double share)
{
    if (!(die_mm > 0.0)) return NAN;
    for (int i = 0; i + 1 < CHART_ROWS; i++) {
        if (die_mm < chart[i][0] || die_mm > chart[i + 1][0]) continue;
        double t = (die_mm - chart[i][0]) / (chart[i + 1][0] - chart[i][0]);
        return chart[i][column] + t * (chart[i + 1][column] - chart[i][column]);
    }
    return share * die_mm;
}

double sw_least_flange_mm(double die_mm)
{
    return charted(die_mm, 1, 0.7);
}

/* Chart for mild steel, about 0.16 V; stainless about 0.20 V (common practice, no source). */
double sw_natural_radius_mm(double die_mm, sw_matter_kind kind)
{
    double steel_mm = charted(die_mm, 2, 0.16);
    return kind == SW_STAINLESS ? steel_mm * (0.20 / 0.16) : steel_mm;
}

/* y = (V/2) tan(A/2) - (r + s)(1/cos(A/2) - 1).   source: derived, handbook 2.3: sharp shoulders, straight legs */
double sw_punch_depth_mm(double die_mm, double s_mm, double r_mm, double angle_rad)
{
    double half = fabs(angle_rad) / 2.0, outer_mm = r_mm + s_mm;
    if (!(die_mm > 0.0) || !(s_mm > 0.0) || !(r_mm >= 0.0) || !(half < SW_PI / 2.0)) return NAN;
    if (outer_mm * sin(half) > die_mm / 2.0) return NAN; /* the legs no longer reach the shoulders */
    return die_mm / 2.0 * tan(half) - outer_mm * (1.0 / cos(half) - 1.0);
}

/* dy/dA = (V/4)/cos2(A/2) - ((r + s)/2) tan(A/2)/cos(A/2), mm per rad.   source: as sw_punch_depth_mm */
double sw_punch_slope_mm(double die_mm, double s_mm, double r_mm, double angle_rad)
{
    double half = fabs(angle_rad) / 2.0, c = cos(half);
    if (isnan(sw_punch_depth_mm(die_mm, s_mm, r_mm, angle_rad))) return NAN;
    return die_mm / (4.0 * c * c) - (r_mm + s_mm) / 2.0 * tan(half) / c;
}

/* R_i/R_f = 4 q3 - 3 q + 1, q = R_i Re/(E s).   source: Gardiner, Trans. ASME 79 (1957); Kalpakjian and Schmid, ch. 16
 * (from memory) */
double sw_springback_ratio(double r_loaded_mm, double re_mpa, double young_mpa, double s_mm)
{
    double q = r_loaded_mm * re_mpa / (young_mpa * s_mm);
    return q >= 0.0 && q <= 0.5 ? 4.0 * q * q * q - 3.0 * q + 1.0 : (double)NAN;
}

/* Inside radius under load that springs back to r_mm: the same law solved for R_i (handbook 3.3 with kappa = 1/R). */
double sw_springback_loaded_mm(double r_mm, double re_mpa, double young_mpa, double s_mm)
{
    if (!(r_mm > 0.0) || !(re_mpa >= 0.0) || !(young_mpa > 0.0) || !(s_mm > 0.0)) return NAN;
    return 1.0 / sw_loaded_curvature(1.0 / r_mm, 2.0 * re_mpa / (young_mpa * s_mm));
}

/* alpha_i/alpha_f = (2 R_f/s + 1)/(2 R_i/s + 1).   source: as sw_springback_ratio; the neutral length stays */
double sw_overbend_rad(double r_loaded_mm, double r_mm, double s_mm, double angle_rad)
{
    if (!(r_loaded_mm >= 0.0) || !(r_mm >= r_loaded_mm) || !(s_mm > 0.0)) return NAN;
    return angle_rad * (2.0 * r_mm / s_mm + 1.0) / (2.0 * r_loaded_mm / s_mm + 1.0);
}

/* Longest first flange of a channel of base w that clears a straight punch of body p in a right-angled second bend:
 * h = w - p/sqrt(2), to the mid-lines.   source: derived, handbook 2.7 */
double sw_channel_flange_mm(double base_mm, double punch_body_mm)
{
    if (!(punch_body_mm >= 0.0)) return NAN;
    return base_mm - punch_body_mm / sqrt(2.0);
}
