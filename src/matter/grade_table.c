/* grade_table.c: the grades a description may name.
 *
 * S235, S355, DC01: Re and Rm of S235JR and S355J2 (EN 10025-2, 3 to 16 mm) and DC01 (EN 10130), Young's modulus
 * and Poisson's ratio from EN 1993-1-1, density 7850 kg/m3 from EN 10025-2 and EN 10130: all from memory.
 * 1.4301: EN 10088-2 hot rolled strip, EN 10088-1 for density and modulus; from memory.
 * EN-GJL-200: EN 1561, lowest values of separately cast samples; from memory.
 * Board, glass and rope: common practice, no source. Re 0 = no yield point applies. */
#include "matter/matter.h"

#include <string.h>

#define STEEL_SOURCE "EN 10025-2, EN 1993-1-1; from memory"
#define COLD_SOURCE  "EN 10130, EN 1993-1-1; from memory"
#define PRACTICE     "common practice, no source"

static const sw_grade grades[] = {
    {"S235", "EN 10025-2", SW_STEEL, 7850.0, 235.0, 360.0, 510.0, 210000.0, 0.3, STEEL_SOURCE},
    {"S355", "EN 10025-2", SW_STEEL, 7850.0, 355.0, 470.0, 630.0, 210000.0, 0.3, STEEL_SOURCE},
    {"DC01", "EN 10130", SW_STEEL, 7850.0, 140.0, 270.0, 410.0, 210000.0, 0.3, COLD_SOURCE},
    {"1.4301", "EN 10088-2", SW_STAINLESS, 7900.0, 210.0, 520.0, 720.0, 200000.0, 0.3,
     "EN 10088-1 and -2; from memory"},
    {"EN-GJL-200", "EN 1561", SW_CAST_IRON, 7150.0, 0.0, 200.0, 300.0, 88000.0, 0.26, "EN 1561; from memory"},
    {"vermiculite board", "", SW_BOARD, 650.0, 0.0, 0.0, 0.0, 0.0, 0.0, PRACTICE},
    {"glass-ceramic", "", SW_GLASS, 2600.0, 0.0, 0.0, 0.0, 93000.0, 0.25, PRACTICE ", values from memory"},
    /* the density of a rope is mostly air: descriptions give its mass by the metre */
    {"glass rope", "", SW_ROPE, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, PRACTICE},
};

size_t sw_grade_count(void)
{
    return sizeof grades / sizeof *grades;
}

const sw_grade *sw_grade_at(size_t i)
{
    return i < sw_grade_count() ? &grades[i] : NULL;
}

const sw_grade *sw_grade_find(const char *name)
{
    for (size_t i = 0; i < sw_grade_count(); i++)
        if (strcmp(grades[i].name, name) == 0) return &grades[i];
    return NULL;
}
