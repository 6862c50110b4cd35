/* site_room.c: air of the room between its openings, leaks and fans; the load on the floor. handbook S4.2, S5.5 */
#include "siting/site/site.h"

#include <math.h>

enum { HALVINGS = 200 };

static const double sharp_cd = 0.6;           /* sharp opening, textbook (from memory). handbook S4.2 */
static const double leak_power = 0.65;        /* of leaks of a house (from memory). handbook S4.2 */
static const double tested_pa = 50;           /* pressure of the tightness test */
static const double room_density = 1.2;       /* kg/m3, air at 20 degC. handbook FS-17 */
static const double depression_most_pa = 1e6; /* above this there is no way in */

double sw_opening_m3_s(double area_m2, double pressure_pa, double density)
{
    if (!(area_m2 >= 0) || !(density > 0)) return NAN;
    return sw_orifice_kg_s(sharp_cd, area_m2, density, pressure_pa) / density;
}

/* V = C dp^n with C from the flow at 50 Pa; sign follows the pressure. */
double sw_leakage_m3_s(double at_50_pa_m3_s, double pressure_pa)
{
    if (!(at_50_pa_m3_s >= 0)) return NAN;
    return copysign(at_50_pa_m3_s * pow(fabs(pressure_pa) / tested_pa, leak_power), pressure_pa);
}

double sw_room_depression_pa(double extract_m3_s, double at_50_pa_m3_s, double vent_m2)
{
    if (!(extract_m3_s >= 0) || !(at_50_pa_m3_s >= 0) || !(vent_m2 >= 0)) return NAN;
    if (extract_m3_s == 0) return 0;
    double low = 0, high = 1;
    while (sw_leakage_m3_s(at_50_pa_m3_s, high) + sw_opening_m3_s(vent_m2, high, room_density) < extract_m3_s) {
        if (high > depression_most_pa) return INFINITY;
        low = high;
        high *= 2;
    }
    for (int i = 0; i < HALVINGS; i++) {
        double middle = low + (high - low) / 2;
        if (!(middle > low && middle < high)) break;
        double flow = sw_leakage_m3_s(at_50_pa_m3_s, middle) + sw_opening_m3_s(vent_m2, middle, room_density);
        if (flow < extract_m3_s)
            low = middle;
        else
            high = middle;
    }
    return low + (high - low) / 2;
}

double sw_room_vent_m2(double extract_m3_s, double at_50_pa_m3_s, double pressure_pa)
{
    if (!(extract_m3_s >= 0) || !(pressure_pa > 0)) return NAN;
    double lacking = extract_m3_s - sw_leakage_m3_s(at_50_pa_m3_s, pressure_pa);
    return isnan(lacking) ? (double)NAN : fmax(lacking, 0) / sw_opening_m3_s(1, pressure_pa, room_density);
}

double sw_floor_pa(double mass_kg, double area_m2)
{
    return mass_kg >= 0 && area_m2 > 0 ? mass_kg * SW_GRAVITY / area_m2 : (double)NAN;
}
