/* cut_iso9013_table.c: quality and size classes of thermal cuts.
 *
 * ISO 9013:2017, tables 4 and 5 (ranges of perpendicularity u and roughness Rz5; from memory, unchanged since 2002)
 * and the limit deviations of nominal dimensions, classes 1 and 2 (from a published reproduction of the 2017
 * edition; the first column of the rows above 6.3 mm is not given there). a = thickness, mm. */
#include "making/cut/cut.h"

#include <math.h>

/* constant and factor of a: u in mm, Rz5 in um */
static const double u_rows[5][2] = {{0.05, 0.003}, {0.15, 0.007}, {0.4, 0.01}, {0.8, 0.02}, {1.2, 0.035}};
static const double rz5_rows[4][2] = {{10, 0.6}, {40, 0.8}, {70, 1.2}, {110, 1.8}};

enum { COLUMNS = 8 };
static const double nominal_to_mm[COLUMNS] = {3, 10, 35, 125, 315, 1000, 2000, 4000};

typedef struct deviation_row {
    int class_;
    double above_mm, to_mm;       /* thickness; the first row of class 1 starts above 0 */
    double deviation_mm[COLUMNS]; /* +-; NAN = not in the table */
} deviation_row;

/* clang-format off */
static const deviation_row deviations[] = {
    {1, 0,    1,    {0.075, 0.10, 0.10, 0.20, 0.20, 0.30, 0.40, 0.65}},
    {1, 1,    3.15, {0.10,  0.15, 0.20, 0.25, 0.25, 0.35, 0.40, 0.65}},
    {1, 3.15, 6.3,  {0.20,  0.20, 0.25, 0.25, 0.30, 0.40, 0.45, 0.70}},
    {1, 6.3,  10,   {NAN,   0.25, 0.30, 0.30, 0.35, 0.45, 0.55, 0.75}},
    {2, 1,    3.15, {0.6,   0.6,  0.7,  0.7,  0.8,  0.9,  1.0,  1.1}},
    {2, 3.15, 6.3,  {0.7,   0.8,  0.9,  0.9,  1.1,  1.2,  1.3,  1.3}},
    {2, 6.3,  10,   {NAN,   1.0,  1.1,  1.3,  1.4,  1.5,  1.6,  1.7}},
};
/* clang-format on */

double sw_iso9013_u_mm(int range, double thickness_mm)
{
    if (range < 1 || range > 5 || !(thickness_mm > 0)) return NAN;
    return u_rows[range - 1][0] + u_rows[range - 1][1] * thickness_mm;
}

double sw_iso9013_rz5_um(int range, double thickness_mm)
{
    if (range < 1 || range > 4 || !(thickness_mm > 0)) return NAN;
    return rz5_rows[range - 1][0] + rz5_rows[range - 1][1] * thickness_mm;
}

static double nominal_column(const double *row_mm, double nominal_mm)
{
    for (int c = 0; c < COLUMNS; c++)
        if (nominal_mm < nominal_to_mm[c]) return row_mm[c];
    return NAN;
}

double sw_iso9013_deviation_mm(int class_, double thickness_mm, double nominal_mm)
{
    if (!(thickness_mm > 0) || !(nominal_mm > 0)) return NAN;
    for (size_t i = 0; i < sizeof deviations / sizeof *deviations; i++) {
        const deviation_row *row = &deviations[i];
        if (row->class_ != class_ || thickness_mm <= row->above_mm || thickness_mm > row->to_mm) continue;
        return nominal_column(row->deviation_mm, nominal_mm);
    }
    return NAN;
}
