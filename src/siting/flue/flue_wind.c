/* flue_wind.c: what wind does at the outlet: EN 13384-1 cl. 5.10.4 and annex C (from memory, the geometry doubtful). */
#include "siting/flue/flue_parts.h"

#include <math.h>

double sw_flue_wind_pa(sw_wind_site site)
{
    static const double inland_pa = 25, coast_pa = 40;
    if (site == SW_WIND_COAST) return coast_pa;
    return site == SW_WIND_INLAND ? inland_pa : 0;
}

/* rho v2/2 with a pressure coefficient of 1, the highest there is (physics; ours to take the worst). 25 Pa inland are 6.5 m/s. */
double sw_flue_gust_pa(sw_wind_site site, double wind_m_s, double density)
{
    return site == SW_WIND_FREE ? 0 : density * wind_m_s * wind_m_s / 2;
}

/* Adverse: less than 0.4 m above the ridge, and a horizontal line meets the roof within 2.3 m, and the roof is steeper than 40
 * degrees, or than 25 with the outlet more than 1 m from the ridge and the air inlet on its other side (taken as the worst). */
bool sw_flue_adverse(const sw_roof *roof)
{
    static const double over_ridge_m = 0.4, near_m = 2.3, steep_deg = 40, slope_deg = 25, from_ridge_m = 1;
    double slope = tan(roof->pitch_rad), below_m = roof->ridge_m * slope - roof->above_m; /* under the ridge's level */
    if (!(roof->pitch_rad > 0 && roof->above_m >= 0 && roof->ridge_m >= 0)) return false;
    bool low = below_m > -over_ridge_m, meets = below_m >= 0 && roof->above_m / slope <= near_m;
    bool steep = roof->pitch_rad > sw_rad_from_deg(steep_deg);
    bool sloped = roof->pitch_rad > sw_rad_from_deg(slope_deg) && roof->ridge_m > from_ridge_m;
    return low && meets && (steep || sloped);
}
