/* fittings_levels_table.c: published levels of impact to compare a ball drop with, by energy.
 *
 * IK codes: EN 62262 (IEC 62262) as listed in an encyclopaedia, seen; IK11 added 2021. EN 356: heights, mass and counts of a
 * glass maker's table, seen; energies computed, one drop each. EN 12600: heights seen, energies of its 50 kg pendulum computed.
 * EN 14072, glass in furniture, is left out: its figures were not at hand. Equal energy is not equal damage: a hard small body
 * breaks a pane at lower energy than a soft one. */
#include "making/fittings/fittings.h"

#define IK       "EN 62262 (found in an encyclopaedia)"
#define EN356    "EN 356 (heights found, energy computed)"
#define EN12600  "EN 12600 (heights found, energy computed)"
#define HAMMER   "hammer or falling body"
#define BALL     "steel ball 4.11 kg"
#define PENDULUM "twin tyre pendulum 50 kg, soft"

/* clang-format off */
static const sw_impact_level levels[] = {
    {"IK01", HAMMER, 0.14, IK},   {"IK02", HAMMER, 0.20, IK},  {"IK03", HAMMER, 0.35, IK}, {"IK04", HAMMER, 0.50, IK},
    {"IK05", HAMMER, 0.70, IK},   {"IK06", HAMMER, 1.0, IK},   {"IK07", HAMMER, 2.0, IK},  {"IK08", HAMMER, 5.0, IK},
    {"IK09", HAMMER, 10.0, IK},   {"IK10", HAMMER, 20.0, IK},  {"IK11", HAMMER, 50.0, IK},
    {"EN 356 P1A, 1.5 m", BALL, 4.11 * SW_GRAVITY * 1.5, EN356},
    {"EN 12600 class 3, 190 mm", PENDULUM, 50 * SW_GRAVITY * 0.19, EN12600},
    {"EN 356 P2A, 3 m", BALL, 4.11 * SW_GRAVITY * 3, EN356},
    {"EN 12600 class 2, 450 mm", PENDULUM, 50 * SW_GRAVITY * 0.45, EN12600},
    {"EN 356 P3A, 6 m", BALL, 4.11 * SW_GRAVITY * 6, EN356},
    {"EN 356 P4A, 9 m", BALL, 4.11 * SW_GRAVITY * 9, EN356},
    {"EN 12600 class 1, 1200 mm", PENDULUM, 50 * SW_GRAVITY * 1.2, EN12600},
};
/* clang-format on */

const sw_impact_level *sw_impact_levels(size_t *count)
{
    *count = sizeof levels / sizeof *levels;
    return levels;
}
