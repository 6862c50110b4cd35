/* Free jets. */
#include "burning/air/air.h"
#include "sw_test.h"

#include <math.h>

static void jet_of_equal_density_decays_as_published(sw_test *t)
{
    sw_near(t, sw_jet_share(0.30, 0.01, 293, 293), 6.3 / 30.6, 1e-12,
            "Beer & Chigier 1972 (from memory): u/u0 = 6.3 d/(x + 0.6 d)");
    double schlichting = 3 / (8 * SW_PI * 0.0161) * sqrt(SW_PI / 4); /* u0 d/(u x) far from the hole */
    sw_near(t, sw_jet_share(1, 0.001, 293, 293) * 1000, schlichting, 0.05 * schlichting,
            "Schlichting, round jet, eps0 = 0.0161 sqrt(K) (from memory)");
    sw_near(t, sw_jet_share(1, 0.001, 293, 293) * 1000, 6.11, 0.04 * 6.11,
            "Abdel-Rahman and others 1996, Mech. Res. Comm. 23: decay constant 6.11 at Re 19400 (seen, abstract)");
}

static void core_keeps_its_velocity(sw_test *t)
{
    sw_near(t, sw_jet_share(0, 0.01, 293, 293), 1, 0, "derived: the start");
    sw_near(t, sw_jet_share(0.056, 0.01, 293, 293), 1, 0, "core of about 6 diameters");
    sw_true(t, sw_jet_share(0.058, 0.01, 293, 293) < 1);
}

static void reach_and_decay_are_each_others_inverse(sw_test *t)
{
    for (double share = 0.02; share < 1; share += 0.07) {
        double reach_m = sw_jet_reach_m(0.006, 420, 1050, share);
        if (!sw_near(t, sw_jet_share(reach_m, 0.006, 420, 1050), share, 1e-12, "round trip")) return;
    }
}

static void dense_jet_reaches_further_into_hot_gas(sw_test *t)
{
    sw_near(t, sw_jet_reach_m(0.006, 300, 1200, 0.2), 2 * sw_jet_reach_m(0.006, 300, 300, 0.2), 1e-12,
            "Thring & Newby 1953 (from memory): d sqrt(rho_jet/rho_gas)");
}

static void impossible_jets_give_no_number(sw_test *t)
{
    sw_true(t, isnan(sw_jet_reach_m(0, 300, 300, 0.5)) && isnan(sw_jet_reach_m(0.01, -1, 300, 0.5)));
    sw_true(t, isnan(sw_jet_reach_m(0.01, 300, 0, 0.5)) && isnan(sw_jet_reach_m(0.01, 300, 300, 0)));
    sw_true(t, isnan(sw_jet_reach_m(0.01, 300, 300, 1.01)) && isnan(sw_jet_reach_m((double)NAN, 300, 300, 0.5)));
    sw_true(t, isnan(sw_jet_share(-0.1, 0.01, 300, 300)) && isnan(sw_jet_share((double)NAN, 0.01, 300, 300)));
    sw_true(t, isnan(sw_air_area_m2(1e-3, 0.6, 1.2, 0)) && isnan(sw_air_area_m2(1e-3, 0.6, 1.2, -5)));
}

SW_TESTS(SW_CASE(jet_of_equal_density_decays_as_published), SW_CASE(core_keeps_its_velocity),
         SW_CASE(reach_and_decay_are_each_others_inverse), SW_CASE(dense_jet_reaches_further_into_hot_gas),
         SW_CASE(impossible_jets_give_no_number))
