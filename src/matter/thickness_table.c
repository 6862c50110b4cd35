/* thickness_table.c: thickness tolerances of sheet, plus or minus mm.
 *
 * Hot rolled: EN 10051:2010 category A (minimum Re up to 300 MPa), columns by sheet width; categories B (to 360),
 * C (to 420) and D (to 900) widen it by 15, 30 and 40 % (shares seen for an older edition).
 * Cold rolled: EN 10131:2006, Re below 260 MPa, normal and special tolerances. NAN in a table: no value printed there. */
#include "matter/matter.h"

#include <math.h>
#include <string.h>

typedef struct tolerance_row {
    double to_mm, plus_minus_mm[4];
} tolerance_row; /* by width column */
typedef struct tolerance_table {
    const tolerance_row *rows;
    size_t count;
    double over_mm, widths_mm[4];
} tolerance_table;

static const tolerance_row hot_rows[] = {
    {2.0, {0.17, 0.19, 0.21, NAN}},  {2.5, {0.18, 0.21, 0.23, 0.25}},  {3.0, {0.20, 0.22, 0.24, 0.26}},
    {4.0, {0.22, 0.24, 0.26, 0.27}}, {5.0, {0.24, 0.26, 0.28, 0.29}},  {6.0, {0.26, 0.28, 0.29, 0.31}},
    {8.0, {0.29, 0.30, 0.31, 0.35}}, {10.0, {0.32, 0.33, 0.34, 0.40}},
};
static const tolerance_row cold_rows[] = {
    {1.0, {0.05, 0.06, 0.07, 0.07}}, {1.2, {0.06, 0.07, 0.08, 0.08}}, {1.6, {0.08, 0.09, 0.10, 0.10}},
    {2.0, {0.10, 0.11, 0.12, 0.12}}, {2.5, {0.12, 0.13, 0.14, 0.14}}, {3.0, {0.15, 0.15, 0.16, 0.16}},
};
static const tolerance_row special_rows[] = {
    {1.0, {0.035, 0.040, 0.050, 0.050}}, {1.2, {0.040, 0.050, 0.060, 0.060}}, {1.6, {0.050, 0.060, 0.070, 0.070}},
    {2.0, {0.060, 0.070, 0.080, 0.080}}, {2.5, {0.080, 0.090, 0.100, 0.100}}, {3.0, {0.100, 0.110, 0.120, 0.120}},
};
static const tolerance_table hot = {
    hot_rows, sizeof hot_rows / sizeof *hot_rows, 0.0, {1200.0, 1500.0, 1800.0, INFINITY}};
static const tolerance_table cold = {
    cold_rows, sizeof cold_rows / sizeof *cold_rows, 0.8, {1200.0, 1500.0, INFINITY, INFINITY}};
static const tolerance_table special = {
    special_rows, sizeof special_rows / sizeof *special_rows, 0.8, {1200.0, 1500.0, INFINITY, INFINITY}};

static double table_value_mm(const tolerance_table *t, double thickness_mm, double width_mm)
{
    if (!(thickness_mm > t->over_mm) || !(width_mm > 0.0)) return NAN;
    size_t row = 0, column = 0;
    while (row < t->count && !(thickness_mm <= t->rows[row].to_mm + 1e-9)) row++;
    while (column < 3 && !(width_mm <= t->widths_mm[column] + 1e-9)) column++;
    return row < t->count ? t->rows[row].plus_minus_mm[column] : (double)NAN;
}

static double category_factor(double re_min_mpa)
{
    if (re_min_mpa <= 300.0) return 1.0;
    if (re_min_mpa <= 360.0) return 1.15;
    if (re_min_mpa <= 420.0) return 1.30;
    return re_min_mpa <= 900.0 ? 1.40 : (double)NAN;
}

double sw_thickness_tolerance_mm(const sw_grade *grade, double thickness_mm, double sheet_width_mm)
{
    if (grade == NULL || isnan(thickness_mm) || isnan(sheet_width_mm)) return NAN;
    if (strcmp(grade->standard, "EN 10025-2") == 0)
        return table_value_mm(&hot, thickness_mm, sheet_width_mm) * category_factor(grade->re_min_mpa);
    if (strcmp(grade->standard, "EN 10130") == 0) return table_value_mm(&cold, thickness_mm, sheet_width_mm);
    return NAN;
}

double sw_special_tolerance_mm(double thickness_mm, double sheet_width_mm)
{
    return table_value_mm(&special, thickness_mm, sheet_width_mm);
}
