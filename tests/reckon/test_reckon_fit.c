/* Tolerances, capability, sampling and control charts by name: the handbook's examples. */
#include "reckon_solved.h"

#include <math.h>

static void chains_and_tails(sw_test *t)
{
    const double *out = SOLVED(t, "tolerance_chain", "T1=0.5", "T2=0.3", "T3=0.2", "T4=0.25");
    sw_near(t, out[0], 1.25, 1e-12, "handbook W8.1, computed");
    sw_near(t, out[1], 0.6652, 5e-5, "handbook W8.1, computed");
    sw_near(t, out[2], 0.998, 5e-4, "handbook W8.1, computed");
    out = SOLVED(t, "tail_share", "mean=0", "sigma=1", "limit=3", "N=400000");
    sw_near(t, out[0], 0.13499, 5e-6, "handbook 8.2: 1349.9 ppm");
    sw_near(t, SOLVED(t, "ppm", "Cpk=1.33")[0], 33.04, 5e-3, "handbook 8.2, computed");
}

static void capability_and_charts(sw_test *t)
{
    const double *out = SOLVED(t, "capability", "L=38", "U=62", "mean=50", "s=1.75", "n=20");
    sw_near(t, out[0], 2.2857, 5e-5, "handbook W8.3, computed");
    sw_near(t, out[2], 1.565, 5e-4, "handbook W8.3, computed");
    sw_near(t, out[3], 3.006, 5e-4, "handbook W8.3, computed");
    out = SOLVED(t, "chart_limits", "n=5", "X=74.00118", "R=0.02324");
    sw_near(t, out[1], 74.01459, 2e-5, "handbook W8.5, computed");
    sw_near(t, out[3], 0.0491, 5e-5, "handbook W8.5, computed");
    sw_near(t, SOLVED(t, "shewhart", "n=5")[3], 0.577, 5e-4, "handbook 8.4");
    sw_near(t, SOLVED(t, "shewhart_s", "n=6")[2], 0.030, 6e-4, "handbook 8.4");
}

static void tables_and_samples(sw_test *t)
{
    sw_near(t, SOLVED(t, "iso2768", "class=2", "L=50")[0], 0.3, 0, "ISO 2768-1 m (found)");
    sw_near(t, SOLVED(t, "iso13920", "class=2", "L=500")[0], 3, 0, "ISO 13920 B (found)");
    sw_near(t, SOLVED(t, "iso286", "grade=7", "D=25")[1], 20.9, 5e-2, "handbook 8.3, computed");
    sw_near(t, SOLVED(t, "misalignment", "t=4")[1], 0.6, 1e-12, "ISO 5817 level C (from memory)");
    const double *out = SOLVED(t, "guard_band", "L=99.5", "U=100.5", "U95=0.08");
    sw_near(t, out[0], 99.58, 1e-9, "handbook 8.3, computed");
    sw_near(t, out[1], 100.42, 1e-9, "handbook 8.3, computed");
    out = SOLVED(t, "sampling", "lot=1200", "AQL=1", "bad=1");
    sw_near(t, out[0], 80, 0, "handbook W8.4");
    sw_near(t, out[1], 2, 0, "handbook W8.4");
    sw_near(t, out[2], 0.9534, 5e-5, "handbook W8.4, computed");
    sw_near(t, SOLVED(t, "acceptance", "n=20", "c=1", "bad=15")[0], 0.1756, 5e-5, "handbook W8.4, computed");
    sw_near(t, SOLVED(t, "profile", "high=0.1", "low=-0.3")[0], 0.6, 1e-12, "handbook 8.3: 2 x the largest");
    sw_true(t, isnan(SOLVED(t, "sampling", "lot=1200", "AQL=2")[0]));
}

SW_TESTS(SW_CASE(chains_and_tails), SW_CASE(capability_and_charts), SW_CASE(tables_and_samples))
