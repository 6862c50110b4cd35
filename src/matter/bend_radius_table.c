/* bend_radius_table.c: least inside radii for bending, mm.
 *
 * DIN 6935:1975-10, bend across the rolling direction, bend angle up to 120 degrees. Columns by thickness
 * "over ... to", rows by minimum tensile strength. Seen in a works' data sheet quoting that edition.
 * EN 10025-2 table 12, flanging quality C, 90 degrees, across and along the rolling direction: from memory. */
#include "matter/matter.h"

#include <math.h>
#include <string.h>

enum { COLUMNS = 11, ROWS = 3 };

static const double thickness_to_mm[COLUMNS] = {1.0, 1.5, 2.5, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0, 10.0, 12.0};
static const double strength_to_mpa[ROWS] = {390.0, 490.0, 640.0};
static const double radius_mm[ROWS][COLUMNS] = {
    {1.0, 1.6, 2.5, 3.0, 5.0, 6.0, 8.0, 10.0, 12.0, 16.0, 20.0},
    {1.2, 2.0, 3.0, 4.0, 5.0, 8.0, 10.0, 12.0, 16.0, 20.0, 25.0},
    {1.6, 2.5, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 16.0, 20.0, 25.0},
};

/* First band whose upper end holds the value; count = none. Upper ends belong to their band. */
static int band_of(double value, const double *upper, int count)
{
    int i = 0;
    while (i < count && !(value <= upper[i] + 1e-9)) i++;
    return i;
}

double sw_min_bend_radius_mm(double rm_mpa, double thickness_mm, bool along_rolling, double angle_rad)
{
    if (!(rm_mpa > 0.0) || !(thickness_mm > 0.0) || isnan(angle_rad)) return NAN;
    int row = band_of(rm_mpa, strength_to_mpa, ROWS);
    int column = band_of(thickness_mm, thickness_to_mm, COLUMNS);
    bool next = along_rolling || fabs(angle_rad) > sw_rad_from_deg(120.0) + 1e-9;
    if (next) column++;
    return row < ROWS && column < COLUMNS ? radius_mm[row][column] : (double)NAN;
}

enum { BANDS = 9 };

static const double flanging_to_mm[BANDS] = {1.5, 2.5, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0, 10.0};
static const double s235_mm[2][BANDS] = {{1.6, 2.5, 3.0, 5.0, 6.0, 8.0, 10.0, 12.0, 16.0},
                                         {1.6, 2.5, 3.0, 6.0, 8.0, 10.0, 12.0, 16.0, 20.0}};
static const double s355_mm[2][BANDS] = {{2.5, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 16.0, 20.0},
                                         {2.5, 4.0, 5.0, 8.0, 10.0, 12.0, 16.0, 20.0, 25.0}};

double sw_flanging_radius_mm(const sw_grade *grade, double thickness_mm, bool along_rolling)
{
    if (grade == NULL || strcmp(grade->standard, "EN 10025-2") != 0 || !(thickness_mm >= 1.0)) return NAN;
    int band = band_of(thickness_mm, flanging_to_mm, BANDS);
    if (band == BANDS) return NAN;
    return (strcmp(grade->name, "S235") == 0 ? s235_mm : s355_mm)[along_rolling][band];
}
