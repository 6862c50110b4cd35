#include "sw_test.h"
#include "transfer/transfer.h"

#include <math.h>

#define BOOK "handbook F6.6, computed and confirmed with a public library"

static void friction_has_the_published_values(sw_test *t)
{
    sw_near(t, sw_friction_laminar(1000), 0.0640, 1e-12, "64/Re");
    sw_near(t, sw_friction_churchill(1000, 0), 0.0640, 5e-5, BOOK);
    sw_near(t, sw_friction_churchill(3000, 0), 0.04297, 6e-6, BOOK);
    sw_near(t, sw_friction_churchill(1e4, 1e-3), 0.03269, 6e-6, BOOK);
    sw_near(t, sw_friction_colebrook(1e4, 1e-3), 0.03238, 6e-6, BOOK);
    sw_near(t, sw_friction_churchill(1e5, 1e-3), 0.02234, 6e-6, BOOK);
    sw_near(t, sw_friction_colebrook(1e5, 1e-3), 0.02217, 6e-6, BOOK);
    sw_near(t, sw_friction_petukhov(1e5), 0.017992, 6e-7, BOOK);
    sw_near(t, sw_friction_colebrook(1e5, 0), 0.017990, 6e-7, BOOK);
    sw_near(t, sw_friction_churchill(2e4, 0.005), 0.034995, 6e-7, BOOK);
    sw_near(t, sw_friction_colebrook(2e4, 0.005), 0.034470, 6e-7, BOOK);
    sw_near(t, sw_friction_petukhov(1e4), 0.03148, 6e-6, BOOK);
    sw_near(t, sw_friction_petukhov(6000), 0.036523, 6e-7, BOOK);
}

static void friction_is_continuous_over_all_regimes(sw_test *t)
{
    for (int k = 0; k < 3; k++) {
        double roughness = 0.01 * k, before = sw_friction_churchill(1, roughness);
        for (double re = 1; re < 1e8; re *= 1.002) {
            double now = sw_friction_churchill(re, roughness);
            if (!sw_near(t, now, before, 0.02 * before, "continuity")) return;
            before = now;
        }
    }
}

static void slow_flow_is_laminar_and_fast_rough_flow_depends_on_roughness_alone(sw_test *t)
{
    for (double re = 1e-3; re < 1000; re *= 3)
        if (!sw_near(t, sw_friction_churchill(re, 0.001) * re, 64, 0.01, "limit: Hagen-Poiseuille")) return;
    double rough = pow(2 * log10(3.7 / 0.02), -2.0);
    sw_near(t, sw_friction_colebrook(1e12, 0.02), rough, 1e-6 * rough, "limit: Nikuradse, fully rough");
    sw_near(t, sw_friction_churchill(1e12, 0.02), rough, 0.01 * rough, "limit: Nikuradse, fully rough");
}

static void colebrook_solves_its_own_equation(sw_test *t)
{
    for (double re = 4000; re < 1e9; re *= 3)
        for (double e = 0; e <= 0.1; e += 0.01) {
            double x = 1 / sqrt(sw_friction_colebrook(re, e));
            double right = -2 * log10(e / 3.7 + 2.51 * x / re);
            if (!sw_near(t, x, right, 1e-12 * x, "its equation")) return;
        }
}

static void heat_transfer_has_the_published_values(sw_test *t)
{
    sw_near(t, sw_nu_gnielinski(1e4, 0.7, sw_friction_petukhov(1e4)), 29.82, 6e-3, BOOK);
    sw_near(t, sw_nu_gnielinski(5000, 0.7, sw_friction_petukhov(5000)), 16.62, 6e-3, BOOK);
    sw_near(t, sw_nu_gnielinski(6000, 0.69, sw_friction_petukhov(6000)), 19.398, 6e-4, BOOK);
    sw_near(t, sw_nu_dittus_boelter(1e4, 0.7), 31.61, 6e-3, BOOK);
    sw_near(t, sw_nu_plates_entrance(20), 8.0767, 6e-5, "handbook F6.5: Edwards et al. 1979, computed");
    sw_near(t, sw_nu_plates_entrance(50), 8.7724, 6e-5, "handbook F6.5: Edwards et al. 1979, computed");
    sw_near(t, sw_nu_plates_entrance(0), 7.54, 0, "Incropera table 8.1: developed flow between plates");
}

static void a_duct_goes_from_laminar_to_turbulent_without_a_step(sw_test *t)
{
    sw_near(t, sw_nu_duct(500, 0.7, 0, 0), 3.66, 0, "Incropera table 8.1, from memory");
    double turbulent = sw_nu_gnielinski(1e4, 0.7, sw_friction_petukhov(1e4));
    sw_near(t, sw_nu_duct(1e4, 0.7, 0, 0), turbulent, 0.02 * turbulent,
            "Gnielinski with Petukhov's friction, within 2 %");
    double before = 3.66;
    for (double re = 2000; re < 1e5; re *= 1.001) {
        double now = sw_nu_duct(re, 0.7, 0.001, 0.05);
        if (!sw_near(t, now, before, 0.012 * before, "continuity") || !sw_true(t, now >= before - 1e-12)) return;
        before = now;
    }
    double entrance = sw_nu_duct(1e4, 0.7, 0, 0.125) / sw_nu_duct(1e4, 0.7, 0, 0);
    sw_near(t, entrance, 1.25, 1e-12, "Gnielinski: 1 + (D/L)^(2/3)");
}

static void openings_pass_what_the_handbook_says(sw_test *t)
{
    const char *book = "handbook F3.4, computed";
    static const double pa[4] = {5, 8, 10, 12}, mm2[4] = {2986, 2360, 2111, 1927};
    for (int i = 0; i < 4; i++)
        sw_near(t, 1e3 * sw_orifice_kg_s(0.62, sw_m2_from_mm2(mm2[i]), 1.204, pa[i]), 6.42, 5e-3, book);
    double holes_m2 = 24 * SW_PI / 4 * sw_m2_from_mm2(16);
    double cold = sw_air_at(293.15).density, hot = sw_air_at(573.15).density;
    sw_near(t, 1e3 * sw_orifice_kg_s(0.62, holes_m2, cold, 10), 0.918, 6e-4, "handbook E3, computed");
    sw_near(t, 1e3 * sw_orifice_kg_s(0.62, holes_m2, hot, 10), 0.656, 6e-4, "handbook E3, computed");
    double round_m2 = SW_PI / 4 * sw_m2_from_mm2(900);
    sw_near(t, 1e3 * sw_orifice_kg_s(0.80, round_m2, 1.2041, 6), 2.150, 6e-4, "handbook E30, computed");
    sw_near(t, sw_orifice_zeta(0.62), 2.60, 2e-3, book);
}

static void flow_through_an_opening_turns_with_the_pressure(sw_test *t)
{
    for (double pa = 0; pa < 20; pa += 1.7) {
        double in = sw_orifice_kg_s(0.6, 1e-3, 1.2, pa), out = sw_orifice_kg_s(0.6, 1e-3, 1.2, -pa);
        if (!sw_near(t, in, -out, 0, "symmetry")) return;
    }
    sw_near(t, sw_orifice_kg_s(0.6, 1e-3, 1.2, 0), 0, 0, "no pressure, no flow");
}

static void outside_its_range_a_formula_has_no_answer(sw_test *t)
{
    sw_true(t, isnan(sw_friction_laminar(0)) && isnan(sw_friction_churchill(-1, 0)) &&
                   isnan(sw_friction_churchill(1e4, -1)));
    sw_true(t, isnan(sw_friction_colebrook(3999, 0)) && isnan(sw_friction_colebrook(NAN, 0)));
    sw_true(t, isnan(sw_friction_petukhov(2999)) && isnan(sw_friction_petukhov(6e6)));
    sw_true(t, isnan(sw_nu_gnielinski(2999, 0.7, 0.04)) && isnan(sw_nu_gnielinski(1e4, 0.4, 0.04)));
    sw_true(t, isnan(sw_nu_duct(-1, 0.7, 0, 0)) && isnan(sw_nu_duct(6e6, 0.7, 0, 0)) &&
                   isnan(sw_nu_duct(1e4, 0.7, 0, NAN)));
    sw_true(t, isnan(sw_nu_dittus_boelter(9999, 0.7)) && isnan(sw_nu_plates_entrance(-1)) && isnan(sw_orifice_zeta(0)));
}

SW_TESTS(SW_CASE(friction_has_the_published_values), SW_CASE(friction_is_continuous_over_all_regimes),
         SW_CASE(slow_flow_is_laminar_and_fast_rough_flow_depends_on_roughness_alone),
         SW_CASE(colebrook_solves_its_own_equation), SW_CASE(heat_transfer_has_the_published_values),
         SW_CASE(a_duct_goes_from_laminar_to_turbulent_without_a_step), SW_CASE(openings_pass_what_the_handbook_says),
         SW_CASE(flow_through_an_opening_turns_with_the_pressure), SW_CASE(outside_its_range_a_formula_has_no_answer))
