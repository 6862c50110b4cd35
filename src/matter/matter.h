/* matter.h: what the stove is made of: grades and their published figures.
 *
 * SI, MPa for strengths as the standards print them, mm for sheet. Each table stands in a *_table.c with
 * its source on top. A grade not in the table is NULL, never a guess. */
#ifndef SW_MATTER_MATTER_H
#define SW_MATTER_MATTER_H

#include "base/base.h"

typedef enum sw_matter_kind {
    SW_STEEL,
    SW_STAINLESS,
    SW_CAST_IRON,
    SW_BOARD,
    SW_GLASS,
    SW_ROPE,
    SW_MATTER_OTHER
} sw_matter_kind;

typedef struct sw_grade {
    const char *name;     /* "S235" as written in descriptions */
    const char *standard; /* "EN 10025-2" */
    sw_matter_kind kind;
    double density;                            /* kg/m3 */
    double re_min_mpa, rm_min_mpa, rm_max_mpa; /* 0 = does not apply */
    double young_mpa, poisson;
    const char *source; /* of these figures, with how it was obtained */
} sw_grade;

size_t sw_grade_count(void);
const sw_grade *sw_grade_at(size_t i);
const sw_grade *sw_grade_find(const char *name); /* NULL = unknown */

/* Mass of a flat piece of sheet. density kg/m3 */
static inline double sw_sheet_mass_kg(double density, double area_mm2, double thickness_mm)
{
    return density * sw_m3_from_mm3(area_mm2 * thickness_mm);
}

/* Least inside radius for bending, mm, by DIN 6935 (1975-10), bend across the rolling direction and angle up
 * to 120 degrees; along the rolling direction, or above 120, the next thicker column. NAN outside the table
 * (thickness over 12 mm, Rm over 640 MPa, not steel). rm_mpa is the grade's minimum tensile strength. */
double sw_min_bend_radius_mm(double rm_mpa, double thickness_mm, bool along_rolling, double angle_rad);
#define SW_MIN_BEND_RADIUS_SOURCE "DIN 6935:1975-10, least bending radii"

/* Least inside radius for bending of steels of flanging quality C, mm, by EN 10025-2 table 12 (from memory): S235 and
 * S355, over 1 to 10 mm. NAN elsewhere. */
double sw_flanging_radius_mm(const sw_grade *grade, double thickness_mm, bool along_rolling);

/* Limit deviation of a bend angle, plus or minus, by the length of the shorter leg: DIN 6935 (from memory). */
double sw_bend_angle_deviation_rad(double shorter_leg_mm);

/* Thickness tolerance, +- mm: EN 10051:2010 category A (hot rolled) or EN 10131:2006 normal (cold rolled).
 * NAN outside the table. */
double sw_thickness_tolerance_mm(const sw_grade *grade, double thickness_mm, double sheet_width_mm);
/* Special tolerance of cold rolled sheet, +- mm, EN 10131:2006. NAN outside the table. */
double sw_special_tolerance_mm(double thickness_mm, double sheet_width_mm);

#endif
