/* form_roll_formulas.c: plate rolling by hand: geometry of three and four rolls, elastic-plastic moment, springback.
 * Source of moment and curvature: Marciniak, Duncan, Hu, Mechanics of Sheet Metal Forming, eqs 6.18 to 6.21; the
 * springback form and the geometry are derived, handbook 3.1 to 3.3. */
#include "making/form/form.h"

#include <math.h>

/* Young's modulus and yield stress that count: plane strain E/(1 - nu2), 2 Re/sqrt(3); a narrow strip E, Re. */
static double modulus_of(const sw_strip_steel *m)
{
    return m->plane_strain ? m->young_mpa / (1.0 - m->poisson * m->poisson) : m->young_mpa;
}

static double yield_of(const sw_strip_steel *m)
{
    return m->plane_strain ? 2.0 * m->re_mpa / sqrt(3.0) : m->re_mpa;
}

/* kappa_e = 2 S/(E' s) */
double sw_yield_curvature(const sw_strip_steel *m, double s_mm)
{
    return s_mm > 0.0 ? 2.0 * yield_of(m) / (modulus_of(m) * s_mm) : (double)NAN;
}

/* M = M_p [1 - (kappa_e/kappa)2/3], M_p = S s2/4; elastic below kappa_e */
double sw_bending_moment_n(const sw_strip_steel *m, double s_mm, double kappa)
{
    double kappa_e = sw_yield_curvature(m, s_mm), ratio = kappa_e / kappa;
    if (!(kappa >= 0.0)) return NAN;
    if (kappa <= kappa_e) return modulus_of(m) * s_mm * s_mm * s_mm / 12.0 * kappa;
    return yield_of(m) * s_mm * s_mm / 4.0 * (1.0 - ratio * ratio / 3.0);
}

/* kappa_f = kappa - 1.5 kappa_e + kappa_e3/(2 kappa2); nothing stays below kappa_e */
double sw_sprung_curvature(double kappa, double kappa_e)
{
    if (!(kappa >= 0.0) || !(kappa_e >= 0.0)) return NAN;
    if (kappa <= kappa_e) return 0.0;
    return kappa - 1.5 * kappa_e + kappa_e * kappa_e * kappa_e / (2.0 * kappa * kappa);
}

/* kappa = (B/3)[1 + 2 cos(theta/3)], B = kappa_f + 1.5 kappa_e, theta = acos(1 - 27 kappa_e3/(4 B3)) */
double sw_loaded_curvature(double kappa_f, double kappa_e)
{
    if (!(kappa_f >= 0.0) || !(kappa_e >= 0.0)) return NAN;
    double b = kappa_f + 1.5 * kappa_e, ratio = b > 0.0 ? kappa_e / b : 0.0;
    double theta = acos(fmax(-1.0, 1.0 - 27.0 * ratio * ratio * ratio / 4.0));
    return b / 3.0 * (1.0 + 2.0 * cos(theta / 3.0));
}

/* x = D - sqrt(D2 - a2), D = R_i + s + r_l */
double sw_roll_feed_mm(double r_loaded_mm, double s_mm, double lower_radius_mm, double half_centres_mm)
{
    double d_mm = r_loaded_mm + s_mm + lower_radius_mm;
    if (!(half_centres_mm > 0.0) || !(d_mm >= half_centres_mm)) return NAN;
    return d_mm - sqrt(d_mm * d_mm - half_centres_mm * half_centres_mm);
}

/* R_i = (x2 + a2)/(2 x) - s - r_l */
double sw_roll_radius_mm(double feed_mm, double s_mm, double lower_radius_mm, double half_centres_mm)
{
    if (!(feed_mm > 0.0) || !(half_centres_mm > 0.0)) return NAN;
    double d_mm = (feed_mm * feed_mm + half_centres_mm * half_centres_mm) / (2.0 * feed_mm);
    return d_mm - s_mm - lower_radius_mm;
}

/* phi = asin(a/D) */
double sw_roll_contact_rad(double r_loaded_mm, double s_mm, double lower_radius_mm, double half_centres_mm)
{
    double d_mm = r_loaded_mm + s_mm + lower_radius_mm;
    return d_mm >= half_centres_mm && half_centres_mm > 0.0 ? asin(half_centres_mm / d_mm) : (double)NAN;
}

double sw_roll_flat_mm(double r_loaded_mm, double s_mm, double contact_rad)
{
    return contact_rad * (r_loaded_mm + s_mm / 2.0);
}

/* P = 2 M/(R_m tan phi) */
double sw_roll_force_n_mm(double moment_n, double r_loaded_mm, double s_mm, double contact_rad)
{
    return 2.0 * moment_n / ((r_loaded_mm + s_mm / 2.0) * tan(contact_rad));
}

/* Smaller root of |P0 + lambda u - O| = R_i + s + r_s, O = (0, R_i - r_u). */
double sw_four_roll_setting_mm(const sw_four_rolls *r, double s_mm, double r_loaded_mm)
{
    double n = hypot(r->way.x_mm, r->way.y_mm), reach_mm = r_loaded_mm + s_mm + r->side_radius_mm;
    double ux = r->way.x_mm / n, uy = r->way.y_mm / n;
    double px = r->start.x_mm, py = r->start.y_mm - (r_loaded_mm - r->top_radius_mm);
    double b = px * ux + py * uy, c = px * px + py * py - reach_mm * reach_mm;
    return b * b >= c ? -b - sqrt(b * b - c) : (double)NAN;
}

double sw_four_roll_flat_mm(const sw_four_rolls *r, double s_mm)
{
    double n = hypot(r->way.x_mm, r->way.y_mm);
    return (-r->top_radius_mm - s_mm - r->side_radius_mm - r->start.y_mm) / (r->way.y_mm / n);
}
