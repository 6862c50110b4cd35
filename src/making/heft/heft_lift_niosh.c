/* heft_lift_niosh.c: what one person may lift in one way, and the reference masses.
 *
 * Source: Waters, Putz-Anderson, Garg, Applications Manual for the Revised NIOSH Lifting Equation, DHHS (NIOSH) 94-110, 1994
 * (rev. 2021); multipliers and table of H as reprinted in a textbook chapter, seen; table of frequencies and part of the
 * couplings from memory. RWL = LC HM VM DM AM FM CM. */
#include "making/heft/heft.h"

#include <math.h>

static const double mm_per_cm = 10, mm_per_inch = 25.4;
static const double constant_kg = 23;
static const double constant_pounds_kg = 51 * 0.45359237; /* 51 lb */

/* Table of HM; at 22 and 23 inches it is 0.005 above 10/H. Beyond the last row nothing may be lifted. */
typedef struct reach_row {
    double h, hm;
} reach_row;
static const reach_row reach_inch[] = {{10, 1.00}, {11, 0.91}, {12, 0.83}, {13, 0.77}, {14, 0.71}, {15, 0.67},
                                       {16, 0.63}, {17, 0.59}, {18, 0.56}, {19, 0.53}, {20, 0.50}, {21, 0.48},
                                       {22, 0.46}, {23, 0.44}, {24, 0.42}, {25, 0.40}};
static const reach_row reach_cm[] = {{25, 1.00}, {28, 0.89}, {30, 0.83}, {32, 0.78}, {34, 0.74}, {36, 0.69}, {38, 0.66},
                                     {40, 0.63}, {42, 0.60}, {44, 0.57}, {46, 0.54}, {48, 0.52}, {50, 0.50}, {52, 0.48},
                                     {54, 0.46}, {56, 0.45}, {58, 0.43}, {60, 0.42}, {63, 0.40}};

/* FM by lifts a minute, then spell 1, 2, 8 h, each for hands below and above 75 cm at the start. */
enum { RATES = 18 };
static const double rates[RATES] = {0.2, 0.5, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 15.001};
static const double frequency[RATES][3][2] = {
    {{1.00, 1.00}, {0.95, 0.95}, {0.85, 0.85}}, {{0.97, 0.97}, {0.92, 0.92}, {0.81, 0.81}},
    {{0.94, 0.94}, {0.88, 0.88}, {0.75, 0.75}}, {{0.91, 0.91}, {0.84, 0.84}, {0.65, 0.65}},
    {{0.88, 0.88}, {0.79, 0.79}, {0.55, 0.55}}, {{0.84, 0.84}, {0.72, 0.72}, {0.45, 0.45}},
    {{0.80, 0.80}, {0.60, 0.60}, {0.35, 0.35}}, {{0.75, 0.75}, {0.50, 0.50}, {0.27, 0.27}},
    {{0.70, 0.70}, {0.42, 0.42}, {0.22, 0.22}}, {{0.60, 0.60}, {0.35, 0.35}, {0.18, 0.18}},
    {{0.52, 0.52}, {0.30, 0.30}, {0.00, 0.15}}, {{0.45, 0.45}, {0.26, 0.26}, {0.00, 0.13}},
    {{0.41, 0.41}, {0.00, 0.23}, {0.00, 0.00}}, {{0.37, 0.37}, {0.00, 0.21}, {0.00, 0.00}},
    {{0.00, 0.34}, {0.00, 0.00}, {0.00, 0.00}}, {{0.00, 0.31}, {0.00, 0.00}, {0.00, 0.00}},
    {{0.00, 0.28}, {0.00, 0.00}, {0.00, 0.00}}, {{0.00, 0.00}, {0.00, 0.00}, {0.00, 0.00}},
};
static const double coupling[3][2] = {{1.00, 1.00}, {0.95, 1.00}, {0.90, 0.90}};

static const double same = 1e-9; /* a length that came through mm is still on its row */

static bool in_inches(sw_niosh_form form)
{
    return form == SW_NIOSH_INCH || form == SW_NIOSH_INCH_TABLE;
}

static double printed(double value, sw_niosh_form form) /* as the tables print it: half goes up */
{
    return form < SW_NIOSH_CM_TABLE ? value : floor(value * 100 + 0.5 + same) / 100;
}

static double tabled_reach(const reach_row *rows, size_t count, double h)
{
    for (size_t i = 0; i < count; i++)
        if (h <= rows[i].h + same) return rows[i].hm;
    return 0;
}

static double reach(double h_mm, sw_niosh_form form)
{
    double h = h_mm / (in_inches(form) ? mm_per_inch : mm_per_cm);
    if (form == SW_NIOSH_CM_TABLE) return tabled_reach(reach_cm, sizeof reach_cm / sizeof *reach_cm, h);
    if (form == SW_NIOSH_INCH_TABLE) return tabled_reach(reach_inch, sizeof reach_inch / sizeof *reach_inch, h);
    double near = in_inches(form) ? 10 : 25, far = in_inches(form) ? 25 : 63;
    return h > far + same ? 0 : fmin(1, near / h);
}

static double height(double v_mm, sw_niosh_form form)
{
    double v = v_mm / (in_inches(form) ? mm_per_inch : mm_per_cm);
    if (v > (in_inches(form) ? 70 : 175) + same) return 0;
    return printed(in_inches(form) ? 1 - 0.0075 * fabs(v - 30) : 1 - 0.003 * fabs(v - 75), form);
}

static double travel(double d_mm, sw_niosh_form form)
{
    double d = d_mm / (in_inches(form) ? mm_per_inch : mm_per_cm);
    if (d > (in_inches(form) ? 70 : 175) + same) return 0;
    if (d < (in_inches(form) ? 10 : 25)) return 1;
    return printed(fmin(1, 0.82 + (in_inches(form) ? 1.8 : 4.5) / d), form);
}

static double twist(double turn_rad, sw_niosh_form form)
{
    double a = sw_deg_from_rad(fabs(turn_rad));
    return a > 135 + same ? 0 : printed(1 - 0.0032 * a, form);
}

/* Between rows: linear for the formulas, the next row for the tables. */
static double often(const sw_niosh_task *task, sw_niosh_form form)
{
    size_t high = task->v_mm >= 75 * mm_per_cm - same, k = 0;
    while (k < RATES && task->per_min > rates[k] + same) k++;
    if (k == RATES) return 0;
    double here = frequency[k][task->spell][high];
    if (k == 0 || form >= SW_NIOSH_CM_TABLE || k == RATES - 1) return here;
    double before = frequency[k - 1][task->spell][high], t = (task->per_min - rates[k - 1]) / (rates[k] - rates[k - 1]);
    return before + t * (here - before);
}

sw_niosh sw_niosh_limit(const sw_niosh_task *task, sw_niosh_form form)
{
    sw_niosh n = {NAN, NAN, NAN, NAN, NAN, NAN, NAN};
    if (!(task->h_mm > 0) || !(task->v_mm >= 0) || !(task->d_mm >= 0) || !(task->per_min >= 0) || isnan(task->turn_rad))
        return n;
    n.hm = reach(task->h_mm, form);
    n.vm = height(task->v_mm, form);
    n.dm = travel(task->d_mm, form);
    n.am = twist(task->turn_rad, form);
    n.fm = often(task, form);
    n.cm = coupling[task->coupling][task->v_mm >= 75 * mm_per_cm - same];
    n.rwl_kg = (in_inches(form) ? constant_pounds_kg : constant_kg) * n.hm * n.vm * n.dm * n.am * n.fm * n.cm;
    return n;
}

double sw_niosh_index(double mass_kg, double rwl_kg)
{
    if (!(mass_kg >= 0) || !(rwl_kg >= 0)) return NAN;
    return rwl_kg > 0 ? mass_kg / rwl_kg : (double)INFINITY;
}

/* ISO 11228-1 and EN 1005-2, reference masses (from memory): 25 kg suits about 85 % of men and women at work, 15 kg about 95 %
 * of the adult public, 10 kg children and the elderly. */
double sw_reference_mass_kg(sw_people people)
{
    static const double masses_kg[] = {25, 15, 10};
    return (size_t)people < sizeof masses_kg / sizeof *masses_kg ? masses_kg[people] : (double)NAN;
}
