/* coat_formulas.c: the single formulas of blasting and coating. */
#include "making/coat/coat.h"

#include <math.h>

/* A litre over an area: 1 L/m2 is 1000 um. Source: any handbook of painting, SSPC (from memory); by its units. */
static const double um_m2_per_l = 1000;

static bool is_share(double x)
{
    return x > 0 && x <= 1;
}

double sw_coat_cover_m2_l(double solids, double film_um)
{
    return is_share(solids) && film_um > 0 ? um_m2_per_l * solids / film_um : (double)NAN;
}

double sw_coat_wet_um(double solids, double film_um)
{
    return is_share(solids) && film_um >= 0 ? film_um / solids : (double)NAN;
}

double sw_coat_litres(double area_m2, double film_um, double solids, double transfer)
{
    if (!(area_m2 >= 0) || !(film_um >= 0) || !is_share(solids) || !is_share(transfer)) return NAN;
    return area_m2 * film_um / (um_m2_per_l * solids * transfer);
}

/* Dead volume of a blasted profile: common practice, no source. */
double sw_coat_valley_litres(double area_m2, double rz_um)
{
    return area_m2 >= 0 && rz_um >= 0 ? 0.02 * area_m2 * rz_um / 40 : (double)NAN;
}

double sw_coat_film_kg(double area_m2, double film_um, double density)
{
    if (!(area_m2 >= 0) || !(film_um >= 0) || !(density > 0)) return NAN;
    return area_m2 * sw_m_from_mm(sw_m_from_mm(film_um)) * density;
}

/* m = x p M/(R T) at 101325 Pa. Source: ideal gas. */
double sw_coat_lel_kg_m3(double share, double kg_kmol, double t_k)
{
    const double air_pa = 101325.0;
    if (!is_share(share) || !(kg_kmol > 0) || !(t_k > 0)) return NAN;
    return share * air_pa * sw_m_from_mm(kg_kmol) / (SW_GAS_CONSTANT * t_k);
}

/* Source: derived, steady mass balance of the booth's air. */
double sw_coat_air_m3_s(double solvent_kg_s, double lel_kg_m3, double share)
{
    if (!(solvent_kg_s >= 0) || !(lel_kg_m3 > 0) || !is_share(share)) return NAN;
    return solvent_kg_s / (share * lel_kg_m3);
}

double sw_blast_media_kg(double area_m2, double kg_m2)
{
    return area_m2 >= 0 && kg_m2 >= 0 ? area_m2 * kg_m2 : (double)NAN;
}

double sw_blast_time_s(double area_m2, double m2_s)
{
    return area_m2 >= 0 && m2_s > 0 ? area_m2 / m2_s : (double)NAN;
}

/* Rz of the comparator's segments, ISO 8503-1 (from memory). */
void sw_profile_rz_um(sw_profile profile, bool shot, double *low_um, double *high_um)
{
    static const double bands[2][3][2] = {{{25, 60}, {60, 100}, {100, 150}}, {{25, 40}, {40, 70}, {70, 100}}};
    bool known = (size_t)profile < 3;
    *low_um = known ? bands[shot][profile][0] : (double)NAN;
    *high_um = known ? bands[shot][profile][1] : (double)NAN;
}
