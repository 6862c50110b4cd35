/* Lifting, coating and fittings by name. */
#include "reckon_solved.h"

#include <math.h>
#include <string.h>

static void lifts_are_those_of_the_manual(sw_test *t)
{
    const double *o = SOLVED(t, "lift_inch", "H=23", "V=15", "D=48", "grip=1", "m=44");
    sw_near(t, o[0], 16.03, 5e-3, "handbook W9.1, not rounded");
    sw_near(t, o[2], 16.3, 0.05, "handbook W9.1");
    sw_near(t, o[3], 2.7, 0.05, "handbook W9.1");
    sw_near(t, SOLVED(t, "lift_inch", "H=18", "V=15", "D=21", "A=45", "grip=1", "m=40")[2], 18.9, 0.05,
            "handbook W9.2");
    sw_near(t, SOLVED(t, "lift", "H=25", "V=75")[0], 23, 1e-9, "handbook 9.1: load constant");
    sw_near(t, SOLVED(t, "lift", "H=70", "V=75", "m=5")[0], 0, 0, "handbook 9.1: too far away");
    sw_near(t, SOLVED(t, "carried_by", "m1=25")[3], 33.3, 0.05, "handbook 9.2");
}

static void slings_hoists_and_tipping_are_the_handbooks(sw_test *t)
{
    sw_near(t, SOLVED(t, "sling", "m=150", "n=2", "beta=30")[0], 849.3, 0.05, "handbook W9.3");
    sw_near(t, SOLVED(t, "sling", "m=150", "n=4", "beta=45")[2], 1040.2, 0.05, "handbook W9.3: two of four legs");
    sw_near(t, SOLVED(t, "hoist", "m=145", "rig=12")[1], 250, 0, "handbook 9.5");
    const double *o = SOLVED(t, "tipping", "m=125", "e=205.76", "h=413.92");
    sw_near(t, o[0], 26.43, 5e-3, "handbook W9.4");
    o = SOLVED(t, "pick", "m=10", "L=1000", "e=250");
    sw_near(t, o[0], 3 * o[1], 1e-9, "derived: levers");
    sw_true(t, isnan(SOLVED(t, "pick", "m=10", "L=100", "e=250")[0]));
}

static void paint_and_air_are_the_handbooks(sw_test *t)
{
    const double *o = SOLVED(t, "paint", "A=12");
    sw_near(t, o[0], 12.0, 1e-9, "handbook W10.1");
    sw_near(t, o[1], 83.3, 0.05, "handbook W10.1");
    sw_near(t, o[4], 1 / 0.55, 1e-9, "derived: a litre lands");
    o = SOLVED(t, "solvent_air", "V=1", "t=60");
    sw_near(t, o[0], 480, 1e-9, "handbook 10.2");
    sw_near(t, o[2], 480 / (0.25 * o[1]), 1e-6, "derived: steady balance of an hour");
    sw_near(t, SOLVED(t, "blasting", "A=3.725")[0], 15, 1e-6, "handbook 10.1");
    sw_near(t, SOLVED(t, "blast_profile", "segment=1")[3], 70, 0, "ISO 8503-1 (from memory)");
}

static void fittings_are_the_handbooks(sw_test *t)
{
    const double *o = SOLVED(t, "fit_gap", "L=500", "in=4", "T_in=500", "T_out=300");
    sw_near(t, o[0], 0.12, 1e-9, "handbook W11.1");
    sw_near(t, o[1], 1.859, 5e-4, "handbook W11.1");
    sw_near(t, o[2], 0, 0, "derived: the outer part outgrows it");
    sw_near(t, SOLVED(t, "grate_gap", "L=300")[0], 2.09, 5e-3, "handbook 11.4");
    sw_near(t, SOLVED(t, "rope", "d=12", "g=8", "j=2", "w=12")[0], 16.7, 0.05, "handbook 11.2");
    sw_near(t, SOLVED(t, "ball_drop", "d=100", "h=9000")[1], 362.75, 0.1, "EN 356 P4A, computed");
    sw_near(t, SOLVED(t, "drop_height", "E=10")[0], 102.0, 0.05, "handbook TT-9");
    sw_near(t, SOLVED(t, "hot_bolt", "T=500")[0], 0.55, 1e-9, "EN 1993-1-2 table D.1 (from memory)");
}

SW_TESTS(SW_CASE(lifts_are_those_of_the_manual), SW_CASE(slings_hoists_and_tipping_are_the_handbooks),
         SW_CASE(paint_and_air_are_the_handbooks), SW_CASE(fittings_are_the_handbooks))
