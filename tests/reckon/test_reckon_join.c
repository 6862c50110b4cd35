/* Welding by name: the handbook's examples. */
#include "reckon_solved.h"

#include <math.h>

static void fillets_and_their_time_give_the_handbook_example(sw_test *t)
{
    const double *out = SOLVED(t, "weld_time", "L=6.2", "a=3", "vw=8");
    sw_near(t, out[0], 0.603, 5e-4, "handbook W7.1");
    sw_near(t, out[1], 10.283, 2e-3, "handbook W7.1");
    sw_near(t, out[2], 0.5072, 1e-4, "handbook W7.1");
    sw_near(t, out[3], 144, 0.1, "handbook W7.1");
    sw_near(t, out[4], 34.28, 6e-3, "handbook W7.1");
    out = SOLVED(t, "fillet", "a=3");
    sw_near(t, out[0], 4.243, 5e-4, "handbook 7.1");
    sw_near(t, out[2], 0.0777, 6e-5, "handbook 7.1");
    out = SOLVED(t, "wire", "d=1.2", "vw=8");
    sw_near(t, out[0], 112.6, 0.05, "handbook 7.2");
}

static void heat_and_preheat_give_the_handbook_examples(sw_test *t)
{
    sw_near(t, SOLVED(t, "heat_input", "U=19.5", "I=135", "v=0.55")[0], 0.2297, 5e-5, "handbook W7.2");
    sw_near(t, SOLVED(t, "carbon_equivalent", "C=0.2", "Mn=1.6")[1], 0.36, 1e-9, "handbook W7.3");
    sw_near(t, SOLVED(t, "preheat", "CET=0.36", "d=30", "Q=1")[0], 130.1, 0.05, "handbook W7.3");
    sw_true(t, isnan(SOLVED(t, "preheat", "CET=0.2", "d=5", "Q=1")[0]));
}

static void shrinkage_and_leaks_give_the_handbook_examples(sw_test *t)
{
    sw_near(t, SOLVED(t, "weld_bow", "A=18", "d=20", "L=800", "I=5e5")[0], 2.30, 5e-3, "handbook W7.4");
    sw_near(t, SOLVED(t, "butt_shrinkage", "A=12", "t=4", "g=1")[1], 0.65, 1e-9, "handbook W7.4");
    sw_near(t, SOLVED(t, "sheet_shrinkage", "Q=0.19", "t=3")[0], 0.2, 1e-9,
            "derived: 12e-6/3.8e-3 q/t of Okerblom's law");
    sw_near(t, SOLVED(t, "fillet_shrinkage", "z=3", "t=4", "L=3")[1], 0.8, 1e-9, "handbook 7.5");
    sw_near(t, SOLVED(t, "leak", "A=100")[0], 0.882, 5e-4, "handbook W7.5");
    sw_near(t, SOLVED(t, "leak", "A=100", "p2=5", "n=0.5")[1], 0.624, 5e-4, "handbook W7.5");
    sw_near(t, SOLVED(t, "tacks", "t=3", "L=300")[2], 4, 0, "handbook 7.4: common practice, no source");
}

SW_TESTS(SW_CASE(fillets_and_their_time_give_the_handbook_example),
         SW_CASE(heat_and_preheat_give_the_handbook_examples), SW_CASE(shrinkage_and_leaks_give_the_handbook_examples))
