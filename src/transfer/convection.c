/* convection.c: Nusselt numbers of natural convection. Properties at the film temperature unless it says otherwise. */
#include "transfer/transfer.h"

#include <math.h>

static bool within(double x, double low, double high)
{
    return x >= low && x <= high;
}

static double held(double x, double low, double high)
{
    return x < low ? low : x > high ? high : x;
}

/* Any text on heat transfer; beta of an ideal gas. */
static double rayleigh_of(double unit, double over_k, double length_m)
{
    return unit * over_k * length_m * length_m * length_m;
}

static double unit_rayleigh(const sw_air *air, double film_k)
{
    double diffusivity = air->kinematic / air->pr;
    return SW_GRAVITY / film_k / (air->kinematic * diffusivity);
}

double sw_rayleigh(double surface_k, double fluid_k, double length_m)
{
    double film_k = 0.5 * (surface_k + fluid_k);
    sw_air air = sw_air_at(film_k);
    return rayleigh_of(unit_rayleigh(&air, film_k), fabs(surface_k - fluid_k), length_m);
}

/* Churchill & Chu, Int. J. Heat Mass Transfer 18 (1975) 1323:
 *   Nu = {0.825 + 0.387 Ra^(1/6)/[1 + (0.492/Pr)^(9/16)]^(8/27)}^2 */
static double plate_factor(double pr)
{
    return 0.387 / pow(1 + pow(0.492 / pr, 9.0 / 16), 8.0 / 27);
}

static double nu_plate_by(double ra, double factor)
{
    double root = 0.825 + factor * sqrt(cbrt(ra));
    return root * root;
}

double sw_nu_plate(double ra, double pr)
{
    if (!within(ra, 0.0, 1e12) || !(pr > 0)) return NAN;
    return nu_plate_by(ra, plate_factor(pr));
}

/* The same paper, from memory: Nu = 0.68 + 0.670 Ra^(1/4)/[1 + (0.492/Pr)^(9/16)]^(4/9) */
double sw_nu_plate_laminar(double ra, double pr)
{
    if (!within(ra, 0.0, 1e9) || !(pr > 0)) return NAN;
    return 0.68 + 0.670 * pow(ra, 0.25) / pow(1 + pow(0.492 / pr, 9.0 / 16), 4.0 / 9);
}

/* Churchill & Chu, Int. J. Heat Mass Transfer 18 (1975) 1049, from memory:
 *   Nu = {0.60 + 0.387 Ra^(1/6)/[1 + (0.559/Pr)^(9/16)]^(8/27)}^2 */
double sw_nu_cylinder(double ra, double pr)
{
    if (!within(ra, 0.0, 1e12) || !(pr > 0)) return NAN;
    double root = 0.60 + 0.387 * pow(ra, 1.0 / 6) / pow(1 + pow(0.559 / pr, 9.0 / 16), 8.0 / 27);
    return root * root;
}

/* McAdams, as in Incropera ch. 9, from memory: 0.54 Ra^(1/4) for 1e4..1e7, 0.15 Ra^(1/3) for 1e7..1e11. Ours: the greater of
 * the two, which has no step at 1e7 (6 %) and changes over at 4.7e6; Nu 1 where it would be less. */
double sw_nu_hot_up(double ra)
{
    if (!within(ra, 0.0, 1e11)) return NAN;
    double nu = fmax(0.54 * sqrt(sqrt(ra)), ra >= 1e4 ? 0.15 * cbrt(ra) : 0.0);
    return fmax(nu, 1.0);
}

/* McAdams, as in Incropera ch. 9, from memory. */
double sw_nu_hot_down(double ra)
{
    return within(ra, 1e5, 1e10) ? 0.27 * sqrt(sqrt(ra)) : (double)NAN;
}

/* VDI Heat Atlas, F2 (f2 from memory): Nu = 0.766 (Ra f2)^(1/5) below Ra f2 = 7e4, then 0.15 (Ra f2)^(1/3),
 *   f2 = [1 + (0.322/Pr)^(11/20)]^(-20/11), L = a b/(2 (a + b)) */
double sw_nu_hot_up_vdi(double ra, double pr)
{
    if (!(ra >= 0) || !(pr > 0)) return NAN;
    double x = ra * pow(1 + pow(0.322 / pr, 11.0 / 20), -20.0 / 11);
    return x < 7e4 ? 0.766 * pow(x, 0.2) : 0.15 * cbrt(x);
}

/* VDI Heat Atlas, F2: Nu = 0.6 (Ra f1)^(1/5), f1 = [1 + (0.492/Pr)^(9/16)]^(-16/9), Ra f1 from 1e3 to 1e10 */
double sw_nu_hot_down_vdi(double ra, double pr)
{
    if (!(pr > 0)) return NAN;
    double x = ra * pow(1 + pow(0.492 / pr, 9.0 / 16), -16.0 / 9);
    return within(x, 1e3, 1e10) ? 0.6 * pow(x, 0.2) : (double)NAN;
}

sw_film_air sw_film_air_at(double film_k)
{
    sw_air air = sw_air_at(film_k);
    return (sw_film_air){unit_rayleigh(&air, film_k), plate_factor(air.pr), air.conductivity};
}

double sw_free_h_in(const sw_film_air *air, sw_facing facing, double over_k, double length_m)
{
    double ra = rayleigh_of(air->rayleigh, fabs(over_k), length_m), nu;
    if (isnan(ra) || !(length_m > 0)) return NAN;
    if (over_k == 0) return 0;
    bool up = (facing == SW_FACING_UP) == (over_k > 0); /* a cold ceiling stirs the air as a hot floor does */
    if (facing == SW_FACING_SIDE)
        nu = nu_plate_by(held(ra, 0.0, 1e12), air->plate);
    else if (up)
        nu = sw_nu_hot_up(held(ra, 0.0, 1e11));
    else
        nu = fmax(0.27 * sqrt(sqrt(fmin(ra, 1e10))),
                  1.0); /* below 1e5 carried on (ours): no step where a plate is as warm as its gas */
    return nu * air->conductivity / length_m;
}

double sw_free_h(sw_facing facing, double surface_k, double air_k, double length_m)
{
    if (surface_k == air_k) return 0;
    sw_film_air air = sw_film_air_at(0.5 * (surface_k + air_k));
    return sw_free_h_in(&air, facing, surface_k - air_k, length_m);
}

/* ---- closed gaps ------------------------------------------------------------------------------------------------ */

/* ElSherbiny, Raithby & Hollands, J. Heat Transfer 104 (1982) 96, from memory; Ra on the gap, to 2e7, H/s 5 to 110:
 *   Nu = max(0.0605 Ra^(1/3), {1 + [0.104 Ra^0.293/(1 + (6310/Ra)^1.36)]^3}^(1/3), 0.242 (Ra s/H)^0.272) */
double sw_nu_gap_vertical(double ra, double height_by_gap)
{
    if (!within(ra, 0.0, 2e7) || !within(height_by_gap, 5.0, 110.0)) return NAN;
    if (ra < 1.0) return 1.0; /* conduction: the second term is below 1e-15 */
    double t = 0.104 * pow(ra, 0.293) / (1 + pow(6310.0 / ra, 1.36));
    double nu = fmax(0.0605 * cbrt(ra), cbrt(1 + t * t * t));
    return fmax(nu, 0.242 * pow(ra / height_by_gap, 0.272));
}

/* Hollands, Raithby & Konicek, Int. J. Heat Mass Transfer 18 (1975) 879, air, to 1e8, from memory; heated above (Ra below 0)
 * it conducts: Nu = 1 + 1.44 [1 - 1708/Ra]+ + [(Ra/5830)^(1/3) - 1]+ */
double sw_nu_gap_horizontal(double ra)
{
    if (!(ra <= 1e8)) return NAN;
    if (ra <= 1708.0) return 1.0;
    return 1 + 1.44 * (1 - 1708.0 / ra) + fmax(cbrt(ra / 5830.0) - 1, 0.0);
}

/* MacGregor & Emery 1969 as in Cengel, from memory: 0.42 Ra^(1/4) Pr^0.012 (H/s)^-0.3, H/s 10 to 40, Ra 1e4 to 1e7 */
double sw_nu_gap_macgregor(double ra, double pr, double height_by_gap)
{
    if (!within(ra, 1e4, 1e7) || !within(height_by_gap, 10.0, 40.0)) return NAN;
    return 0.42 * pow(ra, 0.25) * pow(pr, 0.012) * pow(height_by_gap, -0.3);
}

/* ---- open vertical channels ------------------------------------------------------------------------------------- */

/* Elenbaas, Physica 9 (1942) 1, X 0.1 to 1e5: Nu = X/24 [1 - exp(-35/X)]^(3/4) */
double sw_nu_channel_elenbaas(double x)
{
    return within(x, 0.1, 1e5) ? x / 24 * pow(-expm1(-35.0 / x), 0.75) : (double)NAN;
}

/* Bar-Cohen & Rohsenow, J. Heat Transfer 106 (1984) 116, from memory: walls of one temperature
 *   Nu = [C1/X^2 + 2.873/X^(1/2)]^(-1/2); walls of one flux, at the top: Nu = [C1/X* + 2.51/X*^(2/5)]^(-1/2) */
static double channel(double x, double c1)
{
    return x > 0 ? 1 / sqrt(c1 / (x * x) + 2.873 / sqrt(x)) : (double)NAN;
}

double sw_nu_channel_both(double x)
{
    return channel(x, 576.0);
}

double sw_nu_channel_one(double x)
{
    return channel(x, 144.0);
}

double sw_nu_channel_flux(double x_flux, bool both)
{
    return x_flux > 0 ? 1 / sqrt((both ? 48.0 : 24.0) / x_flux + 2.51 / pow(x_flux, 0.4)) : (double)NAN;
}

double sw_channel_best_gap_m(double ra_l, double length_m)
{
    return ra_l > 0 && length_m > 0 ? 2.714 * length_m / pow(ra_l, 0.25) : (double)NAN;
}
