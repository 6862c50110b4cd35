/* form_springback_table.c: springback factor k_R by r2/s.   source: table book after Oehler and VDI 3389, values seen on a
 * scanned page, header of r2/s from memory; handbook 2.4 */
#include "making/form/form.h"

#include <math.h>
#include <string.h>

static const double ratios[] = {1, 1.6, 2.5, 4, 6.3, 10, 16, 25, 40, 63, 100};
enum { RATIOS = sizeof ratios / sizeof *ratios, GRADES = 3 };

typedef struct grade_row {
    const char *grade;
    double k[RATIOS]; /* 0 = not tabled */
} grade_row;

static const grade_row rows[GRADES] = {
    {"DC04", {.99, .99, .99, .98, .97, .97, .96, .94, .91, .87, .83}},
    {"DC01", {.99, .99, .99, .97, .96, .96, .93, .90, .85, .77, .66}},
    {"1.4301", {.99, .98, .97, .95, .93, .89, .84, .76, .63, 0, 0}},
};

static double between(const grade_row *row, double ratio)
{
    for (int i = 0; i + 1 < RATIOS; i++) {
        if (ratio < ratios[i] || ratio > ratios[i + 1] || row->k[i + 1] == 0.0) continue;
        double t = log(ratio / ratios[i]) / log(ratios[i + 1] / ratios[i]);
        return row->k[i] + t * (row->k[i + 1] - row->k[i]);
    }
    return NAN;
}

double sw_springback_factor(const char *grade, double r_mm, double s_mm)
{
    for (int i = 0; i < GRADES; i++)
        if (strcmp(rows[i].grade, grade) == 0) return between(&rows[i], r_mm / s_mm);
    return NAN;
}

double sw_springback_tool_radius_mm(double k_r, double r_mm, double s_mm)
{
    return k_r * (r_mm + 0.5 * s_mm) - 0.5 * s_mm;
}
