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

/* ---- what the fire's air costs ---- */

static const double supply_safety = 1.2; /* S_EB of EN 13384-1 (from memory, doubtful) */

/* Share of the house's leaks that a room has alone: half its walls and one of floor and ceiling lie to the outside (ours). */
static double leak_share(double room_m3, double envelope_m2)
{
    static const double height_m = 2.4;
    double floor_m2 = room_m3 / height_m, walls_m2 = 4 * sqrt(floor_m2) * height_m;
    double share = (0.5 * walls_m2 + floor_m2) / envelope_m2;
    return share > 1 ? 1 : share;
}

sw_site_supply sw_site_supply_of(const sw_house *h, double air_kg_s)
{
    double stove_m3_s = air_kg_s / room_density, at_50_pa = h->permeability_m_s * h->envelope_m2;
    sw_site_supply s = {NAN, NAN, NAN, NAN,
                        leak_share(h->room_m3 + (h->joined_m3 > 0 ? h->joined_m3 : 0), h->envelope_m2)};
    if (h->direct_air || !(at_50_pa >= 0) || !(stove_m3_s >= 0)) return s;
    s.open_pa = sw_room_depression_pa(h->extract_m3_s + stove_m3_s, at_50_pa, h->vent_m2);
    s.quiet_pa = sw_room_depression_pa(stove_m3_s, at_50_pa, h->vent_m2);
    if (h->room_m3 > 0) {
        s.shut_pa = sw_room_depression_pa(stove_m3_s, s.leak_share * at_50_pa, h->vent_m2);
        s.quiet_pa = fmax(s.quiet_pa, s.shut_pa);
    }
    double worst_pa = fmax(s.open_pa, s.shut_pa); /* fmax passes NAN over */
    if (!isnan(s.open_pa) && isfinite(worst_pa)) s.pa = supply_safety * worst_pa;
    return s;
}

double sw_floor_pa(double mass_kg, double area_m2)
{
    return mass_kg >= 0 && area_m2 > 0 ? mass_kg * SW_GRAVITY / area_m2 : (double)NAN;
}
