/* fittings_formulas.c: the single formulas of linings, panes, ropes, grates and the ball drop. */
#include "making/fittings/fittings.h"

#include <math.h>

/* Board 8 to 10e-6/K up to 800 degC, glass-ceramic 0 +- 0.5e-6/K: makers' sheets (from memory); the upper end of the pane. */
static const double board_per_k = 9e-6, pane_per_k = 0.5e-6;

double sw_fit_elongation(sw_matter_kind kind, double t_k)
{
    static const char *const names[] = {[SW_STEEL] = "S235", [SW_STAINLESS] = "1.4301", [SW_CAST_IRON] = "EN-GJL-200"};
    double rise_k = t_k - sw_k_from_c(20);
    if (!(rise_k >= 0) || t_k > sw_k_from_c(kind == SW_BOARD || kind == SW_GLASS ? 800 : 1200)) return NAN;
    if (kind == SW_BOARD) return board_per_k * rise_k;
    if (kind == SW_GLASS) return pane_per_k * rise_k;
    if (kind > SW_CAST_IRON) return NAN;
    return sw_material_expansion(sw_material_find(names[kind]), t_k);
}

double sw_fit_growth_mm(double length_mm, double per_k, double rise_k)
{
    return length_mm >= 0 ? length_mm * per_k * rise_k : (double)NAN;
}

/* Source: derived. Half a millimetre is ours: what a hand can still slide in. */
double sw_fit_clearance_mm(double inner_mm, double outer_mm, double tolerance_mm)
{
    if (isnan(inner_mm) || isnan(outer_mm) || !(tolerance_mm >= 0)) return NAN;
    return fmax(0, inner_mm - outer_mm + tolerance_mm + 0.5);
}

/* Source: derived; below 0 the rope does not touch. */
double sw_rope_compression(double rope_mm, double groove_mm, double joint_mm)
{
    if (!(rope_mm > 0) || !(groove_mm >= 0) || !(joint_mm >= 0)) return NAN;
    return (rope_mm - groove_mm - joint_mm) / rope_mm;
}

double sw_rope_fill(double rope_mm, double width_mm, double depth_mm)
{
    if (!(rope_mm > 0) || !(width_mm > 0) || !(depth_mm > 0)) return NAN;
    return SW_PI / 4 * rope_mm * rope_mm / (width_mm * depth_mm);
}

double sw_rope_length_mm(double centre_line_mm, double share)
{
    return centre_line_mm >= 0 && share >= 1 && share <= 1.02 ? centre_line_mm * share : (double)NAN;
}

/* Half the growth and 1 mm: common practice, no source. */
double sw_grate_clearance_mm(double length_mm, double per_k, double rise_k)
{
    return sw_fit_growth_mm(length_mm, per_k, rise_k) / 2 + 1;
}

/* EN 1993-1-2:2005, table D.1, bolts (0.55 at 500 degC and the rest from memory), linear between. */
double sw_bolt_factor(double t_k)
{
    static const double at_c[] = {20, 100, 150, 200, 300, 400, 500, 600, 700, 800, 900, 1000};
    static const double kb[] = {1, 0.968, 0.952, 0.935, 0.903, 0.775, 0.550, 0.220, 0.100, 0.067, 0.033, 0};
    double t_c = sw_c_from_k(t_k);
    size_t count = sizeof at_c / sizeof *at_c;
    if (!(t_c >= -50) || t_c > at_c[count - 1] + 1e-9) return NAN;
    if (t_c <= at_c[0]) return 1;
    size_t k = 1;
    while (k + 1 < count && t_c > at_c[k]) k++;
    return kb[k - 1] + (kb[k] - kb[k - 1]) * (t_c - at_c[k - 1]) / (at_c[k] - at_c[k - 1]);
}

static const double ball_kg_m3 = 7850;

double sw_ball_kg(double diameter_mm)
{
    if (!(diameter_mm > 0)) return NAN;
    return ball_kg_m3 * SW_PI / 6 * sw_m3_from_mm3(diameter_mm * diameter_mm * diameter_mm);
}

double sw_ball_mm(double mass_kg)
{
    return mass_kg > 0 ? sw_mm_from_m(cbrt(6 * mass_kg / (SW_PI * ball_kg_m3))) : (double)NAN;
}

/* E = m g h, v = sqrt(2 g h). Source: physics. */
double sw_drop_j(double mass_kg, double height_mm)
{
    return mass_kg >= 0 && height_mm >= 0 ? mass_kg * SW_GRAVITY * sw_m_from_mm(height_mm) : (double)NAN;
}

double sw_drop_m_s(double height_mm)
{
    return height_mm >= 0 ? sqrt(2 * SW_GRAVITY * sw_m_from_mm(height_mm)) : (double)NAN;
}

double sw_drop_height_mm(double energy, double mass_kg)
{
    return energy >= 0 && mass_kg > 0 ? sw_mm_from_m(energy / (mass_kg * SW_GRAVITY)) : (double)NAN;
}
