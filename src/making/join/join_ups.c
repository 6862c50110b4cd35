/* join_ups.c: how a seam lies when the body is turned: which way must point up for it to be flat or horizontal. */
#include "making/join/join_parts.h"

sw_vec3 sw_join_up(size_t i)
{
    static const double h = 0.70710678118654752440;
    static const sw_vec3 ups[SW_JOIN_UPS] = {{0, 0, 1},   {0, 0, -1}, {0, -1, 0},  {0, 1, 0},  {-1, 0, 0},  {1, 0, 0},
                                             {0, -h, h},  {0, h, h},  {-h, 0, h},  {h, 0, h},  {0, -h, -h}, {0, h, -h},
                                             {-h, 0, -h}, {h, 0, -h}, {-h, -h, 0}, {h, -h, 0}, {-h, h, 0},  {h, h, 0}};
    return i < SW_JOIN_UPS ? ups[i] : (sw_vec3){0, 0, 0};
}

/* Flat to horizontal (PA, PB of ISO 6947): the torch within 50 degrees of upright, the seam within 15 of level (ours, a
 * little wider than the positions' own tolerances). */
static bool lies_well(const sw_join_point *p, sw_vec3 up)
{
    sw_vec3 bisector = sw_vec3_unit(sw_vec3_add(p->sheet_a, p->sheet_b));
    return fabs(sw_vec3_dot(p->along, up)) <= sin(sw_rad_from_deg(15)) &&
           sw_vec3_dot(bisector, up) >= cos(sw_rad_from_deg(50));
}

unsigned join_ups(const sw_join_seam *seam)
{
    unsigned ups = 0;
    for (size_t i = 0; i < SW_JOIN_UPS && seam->count > 0; i++) {
        bool well = true;
        for (size_t k = 0; k < seam->count && well; k++) well = lies_well(&seam->points[k], sw_join_up(i));
        if (well) ups |= 1u << i;
    }
    return ups;
}
