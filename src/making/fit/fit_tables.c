/* fit_tables.c: general tolerances, plus or minus, and limits of ISO 5817 and ISO 14253-1.
 *
 * ISO 2768-1 lengths: classes f, m, v seen in a data sheet, c from memory and further pages; radii and angles from memory.
 * ISO 13920 lengths and angles: seen on a reproduced page; ISO 286-1 and ISO 5817: from memory. NAN: no value there. */
#include "making/fit/fit.h"

#include <math.h>

enum { COLUMNS = 8 };

typedef struct class_row {
    char class_;
    double value[COLUMNS];
} class_row;

typedef struct class_table {
    const class_row *rows;
    size_t row_count, columns;
    double from;        /* above it, up to and with to[] */
    double to[COLUMNS]; /* [columns] */
} class_table;

#define TABLE(rows, columns, from, ...)                                                                                \
    {                                                                                                                  \
        rows, sizeof(rows) / sizeof *(rows), columns, from,                                                            \
        {                                                                                                              \
            __VA_ARGS__                                                                                                \
        }                                                                                                              \
    }

static const class_row length_rows[] = {{'f', {0.05, 0.05, 0.1, 0.15, 0.2, 0.3, 0.5, NAN}},
                                        {'m', {0.1, 0.1, 0.2, 0.3, 0.5, 0.8, 1.2, 2}},
                                        {'c', {0.2, 0.3, 0.5, 0.8, 1.2, 2, 3, 4}},
                                        {'v', {NAN, 0.5, 1, 1.5, 2.5, 4, 6, 8}}};
static const class_table lengths = TABLE(length_rows, 8, 0.5, 3, 6, 30, 120, 400, 1000, 2000, 4000);

static const class_row radius_rows[] = {
    {'f', {0.2, 0.5, 1}}, {'m', {0.2, 0.5, 1}}, {'c', {0.4, 1, 2}}, {'v', {0.4, 1, 2}}};
static const class_table radii = TABLE(radius_rows, 3, 0.5, 3, 6, INFINITY);

/* minutes of arc */
static const class_row angle_rows[] = {
    {'f', {60, 30, 20, 10, 5}}, {'m', {60, 30, 20, 10, 5}}, {'c', {90, 60, 30, 15, 10}}, {'v', {180, 120, 60, 30, 20}}};
static const class_table angles = TABLE(angle_rows, 5, 0, 10, 50, 120, 400, INFINITY);

static const class_row weld_rows[] = {
    {'A', {1, 1, 1, 2, 3, 4}}, {'B', {1, 2, 2, 3, 4, 6}}, {'C', {1, 3, 4, 6, 8, 11}}, {'D', {1, 4, 7, 9, 12, 16}}};
static const class_table weld_lengths = TABLE(weld_rows, 6, 2, 30, 120, 400, 1000, 2000, 4000);

static const class_row weld_angle_rows[] = {
    {'A', {20, 15, 10}}, {'B', {45, 30, 20}}, {'C', {60, 45, 30}}, {'D', {90, 75, 60}}};
static const class_table weld_angles = TABLE(weld_angle_rows, 3, 0, 400, 1000, INFINITY);

static double value_of(const class_table *t, char class_, double size)
{
    if (!(size >= t->from)) return NAN;
    for (size_t r = 0; r < t->row_count; r++)
        for (size_t k = 0; k < t->columns && t->rows[r].class_ == class_; k++)
            if (size <= t->to[k]) return t->rows[r].value[k];
    return NAN;
}

static double from_minutes(double minutes)
{
    return sw_rad_from_deg(minutes / 60);
}

double sw_iso2768_length_mm(char class_, double nominal_mm)
{
    return value_of(&lengths, class_, nominal_mm);
}

double sw_iso2768_radius_mm(char class_, double nominal_mm)
{
    return value_of(&radii, class_, nominal_mm);
}

double sw_iso2768_angle_rad(char class_, double shorter_leg_mm)
{
    return from_minutes(value_of(&angles, class_, shorter_leg_mm));
}

double sw_iso13920_length_mm(char class_, double nominal_mm)
{
    return value_of(&weld_lengths, class_, nominal_mm);
}

double sw_iso13920_angle_rad(char class_, double shorter_leg_mm)
{
    return from_minutes(value_of(&weld_angles, class_, shorter_leg_mm));
}

/* Geometric mean of the step; the first one is taken from 1 to 3, as the standard does. */
double sw_iso286_unit_um(double nominal_mm)
{
    static const double steps_mm[] = {1, 3, 6, 10, 18, 30, 50, 80, 120, 180, 250, 315, 400, 500};
    if (!(nominal_mm > 0 && nominal_mm <= 500)) return NAN;
    size_t k = 1;
    while (nominal_mm > steps_mm[k]) k++;
    double d = sqrt(steps_mm[k - 1] * steps_mm[k]);
    return 0.45 * cbrt(d) + 0.001 * d;
}

double sw_iso286_it_um(int grade, double nominal_mm)
{
    static const double units[] = {10, 16, 25, 40, 64, 100, 160, 250};
    if (grade < 6 || grade > 13) return NAN;
    return units[grade - 6] * sw_iso286_unit_um(nominal_mm);
}

/* Above 3 mm by the standard; below it the share of the thickness is kept (ours). */
double sw_iso5817_misalignment_mm(char level, double thickness_mm)
{
    if (!(thickness_mm > 0)) return NAN;
    if (level == 'B') return fmin(0.1 * thickness_mm, 3);
    if (level == 'C') return fmin(0.15 * thickness_mm, 4);
    return level == 'D' ? fmin(0.25 * thickness_mm, 5) : (double)NAN;
}

sw_interval sw_guarded(double lower, double upper, double u, double k)
{
    if (!(u >= 0 && k >= 0)) return (sw_interval){NAN, NAN};
    return (sw_interval){lower + k * u, upper - k * u};
}

double sw_profile_deviation_mm(const double *normal_mm, size_t count)
{
    double most_mm = 0;
    for (size_t i = 0; i < count; i++) most_mm = fmax(most_mm, fabs(normal_mm[i]));
    return 2 * most_mm;
}
