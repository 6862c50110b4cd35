/* Planning and cost by name. */
#include "reckon_solved.h"

static void planning_gives_the_handbook_examples(sw_test *t)
{
    sw_near(t, SOLVED(t, "takt", "T=450", "n=36")[0], 12.5, 1e-12, "workshop handbook W12.1, computed");
    sw_near(t, SOLVED(t, "takt", "T=450", "n=36", "work=30")[2], 3, 0, "derived: 30/12.5 = 2.4");
    sw_near(t, SOLVED(t, "little_flow", "L=18", "rate=3")[0], 6, 1e-12, "workshop handbook W12.1, computed");
    sw_near(t, SOLVED(t, "little_under_way", "W=6", "rate=3")[0], 18, 1e-12, "workshop handbook W12.1, computed");
    const double *o = SOLVED(t, "oee", "planned=460", "down=47", "ideal=1.5", "made=242", "rejected=21");
    sw_near(t, o[3], 0.7207, 5e-5, "workshop handbook W12.2, computed");
    const double *l = SOLVED(t, "learning", "T1=100", "rate=0.8", "n=10");
    sw_near(t, l[0], 47.651, 5e-4, "workshop handbook W12.3, computed");
    sw_near(t, l[1], 631.54, 5e-3, "workshop handbook W12.3, computed");
    sw_near(t, SOLVED(t, "kingman", "u=0.8", "te=10")[0], 40, 1e-9, "M/M/1: u/(1 - u) t");
    sw_near(t, SOLVED(t, "kingman", "u=0.8", "te=10")[2], 3.2, 1e-9, "M/M/1: u2/(1 - u) waiting");
}

static void orders_and_balances_give_the_handbook_examples(sw_test *t)
{
    const double *j = SOLVED(t, "johnson", "a1=3", "b1=6", "a2=5", "b2=2", "a3=1", "b3=2");
    sw_near(t, j[0], 12, 0, "derived: order 3 1 2 by hand");
    sw_true(t, j[1] == 3 && j[2] == 1 && j[3] == 2 && j[4] == 0);
    sw_near(t, j[5], 13, 0, "derived: order 1 2 3 by hand");
    const double *m = SOLVED(t, "makespan", "p11=1", "p12=2", "p13=3", "p21=4", "p22=1", "p23=1");
    sw_near(t, m[0], 7, 0, "derived: by hand");
    sw_near(t, m[1], 10, 0, "derived: by hand");
    const double *b = SOLVED(t, "balance_bounds", "sum=46", "longest=7", "c=10", "m=5");
    sw_near(t, b[0], 5, 0, "workshop handbook 12.2, computed");
    sw_near(t, b[2], 0.92, 1e-12, "workshop handbook W12.4, computed");
    sw_near(t, SOLVED(t, "equal_batch", "n=7", "sum=410", "longest=250")[0], 1910, 1e-9, "derived: 410 + 6 x 250");
}

static void unit_cost_gives_the_handbook_example(sw_test *t)
{
    const char *source = "workshop handbook W12.7, computed";
    const double *c =
        SOLVED(t, "unit_cost", "material=112.40", "setup=75.667", "batch=8", "run=116.825", "overhead=18");
    sw_near(t, c[0], 9.458, 5e-4, source);
    sw_near(t, c[1], 238.683, 5e-4, source);
    sw_near(t, c[2], 281.646, 1e-3, source);
}

SW_TESTS(SW_CASE(planning_gives_the_handbook_examples), SW_CASE(orders_and_balances_give_the_handbook_examples),
         SW_CASE(unit_cost_gives_the_handbook_example))
