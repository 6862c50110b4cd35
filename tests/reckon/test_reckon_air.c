#include "burning/air/air.h"
#include "reckon_solved.h"

#include <math.h>

static void free_areas_are_the_handbooks(sw_test *t)
{
    const char *book = "handbook F3.4, computed from the orifice law (air rounded to 6.42 g/s)";
    sw_near(t, SOLVED(t, "opening_area", "m=23.112", "dp=5")[0], 2986, 2.5, book);
    sw_near(t, SOLVED(t, "opening_area", "m=23.112", "dp=8")[0], 2360, 2, book);
    const double *ten = SOLVED(t, "opening_area", "m=23.112", "dp=10");
    sw_near(t, ten[0], 2111, 2, book);
    sw_near(t, ten[2], 4.08, 5e-3, book);
    sw_near(t, SOLVED(t, "opening_area", "m=23.112", "dp=12")[0], 1927, 2, book);
}

static void jet_holes_and_round_hole_are_the_handbooks(sw_test *t)
{
    double holes_mm2 = 24 * SW_PI / 4 * 16;
    sw_near(t, SOLVED(t, "opening_area", "m=3.3048", "dp=10")[0], holes_mm2, 0.2, "handbook E3, computed: 0.918 g/s");
    sw_near(t, SOLVED(t, "opening_area", "m=2.3616", "dp=10", "T=300")[0], holes_mm2, 0.3,
            "handbook E3, computed: 0.656 g/s at 300 degC");
    sw_near(t, SOLVED(t, "opening_area", "m=7.740", "dp=6", "Cd=0.8")[1], 30, 5e-3,
            "handbook E30, computed: 2.150 g/s");
}

static void legs_draw_by_their_density(sw_test *t)
{
    const double *out = SOLVED(t, "leg_buoyancy", "h=900", "Ti=47.9");
    sw_near(t, out[0], 0.92, 5e-3, "handbook E17, computed: buoyancy of a convection gap");
    sw_near(t, out[1], 1.2041, 1e-4, "density at 20 degC: ISO 2533 (from memory)");
    sw_near(t, SOLVED(t, "leg_buoyancy", "h=450", "Ti=750")[0], 3.79, 5e-3, "hydrostatics, worked by hand");
}

static void series_shares_the_pressure(sw_test *t)
{
    const double *out = SOLVED(t, "openings_in_series", "dp=10", "A1=1000", "A2=2000");
    sw_near(t, out[1], 1000 / sqrt(1.25), 1e-9, "derived: 1/A2 sums");
    sw_near(t, out[2], 8, 1e-9, "derived: by 1/A2");
    sw_near(t, out[3], 2, 1e-9, "derived: by 1/A2");
    out = SOLVED(t, "openings_in_series", "dp=10", "A1=1000", "A2=2000", "T1=20", "T2=900");
    sw_near(t, out[2] / out[3], 4 * 293.15 / 1173.15, 1e-9, "derived: by 1/(rho A2)");
}

/* The same stove by the network of pressures. */
static void stove_by_hand_agrees_with_the_network(sw_test *t)
{
    const double *out = SOLVED(t, "stove_air", "A=2500", "throat=8000", "collar=17671", "h=500");
    sw_air_space spaces[] = {{"room", 293.15, 0, true, 0, 0},
                             {"stove", 973.15, 0, false, 0, 0},
                             {"top", 973.15, 0, false, 0, 0},
                             {"collar", 543.15, -12, true, 0.7, 0}};
    const sw_air_way ways[] = {{"openings", "primary", 0, 1, 2500e-6, 0.2, 0.62, 0, 0, 0, NAN},
                               {"throat", "throat", 1, 2, 8000e-6, 0.6, 0.62, 0, 0, 0, NAN},
                               {"collar", "collar", 2, 3, 17671e-6, 0.7, 0.82, 0, 0, 0, 543.15}};
    const sw_air_network network = {spaces, 4, ways, 3};
    sw_air_solution s = {0};
    sw_ok(t, sw_air_network_solve(&t->run, &network, &s));
    sw_near(t, out[0], sw_s_from_h(s.flows[0].kg_s), 1e-6 * out[0], "agreement with the network");
    for (int i = 0; i < 3; i++) sw_near(t, out[2 + i], s.flows[i].pressure_pa, 1e-5, "agreement with the network");
    sw_near(t, out[2] + out[3] + out[4], 12 + out[1], 1e-9, "balance of pressures");
}

static void hot_box_with_equal_openings_has_its_plane_below_the_middle(sw_test *t)
{
    const double *out = SOLVED(t, "hot_box", "A1=1000", "A2=1000", "h=600", "Ti=500");
    double hot_by_cold = 293.15 / 773.15;
    sw_near(t, out[2], 600 * hot_by_cold / (1 + hot_by_cold), 1e-6, "derived: rho_o z = rho_i (h - z)");
    sw_true(t, out[2] < 300 && out[0] > 0);
    out = SOLVED(t, "hot_box", "A1=1000", "A2=1000", "h=600", "Ti=20");
    sw_near(t, out[1], 0, 0, "derived: no difference of density");
}

static void jets_decay_and_reach(sw_test *t)
{
    const double *out = SOLVED(t, "jet_reach", "d=10", "Tg=20", "s=0.21");
    sw_near(t, out[0], 294, 1e-9, "Beer & Chigier 1972 (from memory): x/d = 6.3/0.21 - 0.6");
    sw_near(t, out[1], 57, 1e-9, "Beer & Chigier 1972 (from memory): core 5.7 d");
    out = SOLVED(t, "jet_velocity", "d=10", "Tg=20", "dp=10", "x=294");
    sw_near(t, out[0], 4.08, 5e-3, "handbook F3.4, computed: velocity at 10 Pa");
    sw_near(t, out[1], 0.21 * out[0], 1e-9, "round trip with jet_reach");
    sw_near(t, out[2], 0.21, 1e-12, "round trip with jet_reach");
}

SW_TESTS(SW_CASE(free_areas_are_the_handbooks), SW_CASE(jet_holes_and_round_hole_are_the_handbooks),
         SW_CASE(legs_draw_by_their_density), SW_CASE(series_shares_the_pressure),
         SW_CASE(stove_by_hand_agrees_with_the_network),
         SW_CASE(hot_box_with_equal_openings_has_its_plane_below_the_middle), SW_CASE(jets_decay_and_reach))
