/* heft_lift_gear.c: slings, hoists and trolleys: single formulas. */
#include "making/heft/heft.h"

#include <math.h>

static const double most_rad = 60 * SW_PI / 180, steep_rad = 45 * SW_PI / 180;
static const double same_rad = 1e-9;

static bool may_pull(double mass_kg, double n, double beta_rad)
{
    return mass_kg >= 0 && n >= 1 && beta_rad >= 0 && beta_rad <= most_rad + same_rad;
}

/* T = m g/(n cos beta). Source: derived; no lift beyond 60 degrees from upright: EN 818-4 (from memory). */
double sw_sling_leg_n(double mass_kg, double n, double beta_rad)
{
    return may_pull(mass_kg, n, beta_rad) ? mass_kg * SW_GRAVITY / (n * cos(beta_rad)) : (double)NAN;
}

double sw_sling_pull_n(double mass_kg, double n, double beta_rad)
{
    return may_pull(mass_kg, n, beta_rad) ? mass_kg * SW_GRAVITY / n * tan(beta_rad) : (double)NAN;
}

/* Two legs 1.4 up to 45 and 1.0 up to 60 degrees: a crane operators' table, seen; three and four legs 2.1 and 1.5: EN 818-4
 * (from memory); choked 0.8, basket 2.0: the same table. A basket's legs hang straight down here, one leg hangs straight. */
double sw_sling_mode_factor(sw_hitch hitch, size_t legs, double beta_rad)
{
    if (!(beta_rad >= 0) || beta_rad > most_rad + same_rad || legs < 1 || legs > 4) return NAN;
    bool steep = beta_rad <= steep_rad + same_rad;
    if (hitch != SW_HITCH_STRAIGHT && (legs > 1 || beta_rad > same_rad)) return NAN;
    if (hitch == SW_HITCH_CHOKE) return 0.8;
    if (hitch == SW_HITCH_BASKET) return 2.0;
    if (legs == 1) return beta_rad > same_rad ? (double)NAN : 1.0;
    if (legs == 2) return steep ? 1.4 : 1.0;
    return steep ? 2.1 : 1.5;
}

/* A stiff load hangs on two of three or four legs unless they are equalised: common practice, no source. */
double sw_sling_legs_counted(size_t legs)
{
    return legs == 0 ? (double)NAN : (double)(legs > 2 ? 2 : legs);
}

double sw_pick_load_n(double mass_kg, double l_mm, double e_mm)
{
    if (!(mass_kg >= 0) || !(l_mm > 0) || !(e_mm >= 0) || e_mm > l_mm) return NAN;
    return mass_kg * SW_GRAVITY * (l_mm - e_mm) / l_mm;
}

/* Allowance 1.1 to 1.25: idea of the hoisting classes of EN 13001; the values are common practice, no source. */
double sw_hoist_need_kg(double load_kg, double rigging_kg, double dynamic)
{
    if (!(load_kg >= 0) || !(rigging_kg >= 0) || !(dynamic >= 1)) return NAN;
    return (load_kg + rigging_kg) * dynamic;
}

/* Usual sizes of workshop hoists: common practice, no source. */
double sw_hoist_size_kg(double need_kg)
{
    static const double sizes_kg[] = {125, 250, 500, 1000, 2000};
    for (size_t i = 0; need_kg >= 0 && i < sizeof sizes_kg / sizeof *sizes_kg; i++)
        if (need_kg <= sizes_kg[i]) return sizes_kg[i];
    return NAN;
}

/* Source: derived; moments about the edge. A centre beside its support tips without a stop: 0. */
double sw_tip_stop_m_s2(double e_mm, double h_mm)
{
    if (!(h_mm > 0) || isnan(e_mm)) return NAN;
    return SW_GRAVITY * fmax(e_mm, 0) / h_mm;
}

double sw_tip_push_n(double mass_kg, double e_mm, double y_mm)
{
    if (!(mass_kg >= 0) || !(y_mm > 0) || isnan(e_mm)) return NAN;
    return mass_kg * SW_GRAVITY * fmax(e_mm, 0) / y_mm;
}
