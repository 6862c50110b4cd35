/* The well-stirred firebox. */
#include "sw_test.h"
#include "wood.h"

static sw_furnace example(void)
{
    return (sw_furnace){.fuel_kg_s = 0.5903e-3,
                        .burned_share = 1,
                        .lambda = 1.8,
                        .air_k = sw_k_from_c(25),
                        .volume_m3 = 0.4 * 0.3 * 0.4,
                        .area_m2 = 0.8,
                        .sink_m2 = 0.16,
                        .sink_e = 0.85,
                        .sink_k = sw_k_from_c(450)};
}

static void example_of_the_handbook_is_met(sw_test *t)
{
    sw_fuel f = beech(0.16);
    sw_furnace in = example();
    sw_furnace_result r;
    const char *book = "handbook E4, computed, closed to 1 W";
    if (!sw_ok(t, sw_furnace_solve(&t->run, &f, &in, &r))) return;
    sw_near(t, sw_c_from_k(r.gas_k), 801.6, 0.2, book);
    sw_near(t, r.emissivity, 0.1261, 1e-4, book);
    sw_near(t, r.exchange_m2, 0.06243, 5e-5, book);
    sw_near(t, r.radiant_w, 3756, 2, book);
    sw_near(t, r.leaving_w, 5218, 2, book);
    sw_fire_gas g = sw_fire_gas_of(&f, 1.8, 0);
    sw_near(t, g.h2o_wet, 0.1015, 6e-5, book);
    sw_near(t, g.wet.kmol[SW_GAS_CO2] / sw_mixture_kmol(&g.wet), 0.1011, 6e-5, book);
}

static void a_sooty_flame_radiates_more_and_is_colder(sw_test *t)
{
    sw_fuel f = beech(0.16);
    sw_furnace in = example();
    sw_furnace_result r;
    const char *book = "handbook E4, computed, soot 0.8 1/m";
    in.soot_k_1_m = 0.8;
    if (!sw_ok(t, sw_furnace_solve(&t->run, &f, &in, &r))) return;
    sw_near(t, sw_c_from_k(r.gas_k), 743.2, 0.2, book);
    sw_near(t, r.emissivity, 0.2686, 1e-4, book);
    sw_near(t, r.radiant_w, 4183, 2, book);
    sw_near(t, r.leaving_w, 4792, 2, book);
}

static void exchange_area_of_speckled_walls_is_met(sw_test *t)
{
    sw_near(t, sw_furnace_exchange_m2(1, 0.8, 1, 0.2), 0.19048, 6e-6, "handbook F4.4, computed: all walls cold");
    sw_near(t, sw_furnace_exchange_m2(0.16, 0.85, 0.8, 0.2), 0.080952, 6e-7, "handbook F4.4, computed");
}

static sw_furnace random_furnace(sw_random *r)
{
    sw_furnace in = example();
    in.fuel_kg_s = sw_random_between(r, 2e-4, 2e-3);
    in.burned_share = sw_random_between(r, 0.6, 1);
    in.lambda = sw_random_between(r, 1, 4);
    in.air_k = sw_random_between(r, 260, 600);
    in.sink_m2 = sw_random_between(r, 0.05, 0.8);
    in.sink_k = sw_random_between(r, 300, 900);
    in.h_convection = sw_random_between(r, 0, 20);
    in.convection_m2 = sw_random_between(r, 0, 0.5);
    in.soot_k_1_m = sw_random_between(r, 0, 2);
    return in;
}

static void energy_closes_for_any_furnace(sw_test *t)
{
    sw_random r = sw_random_seeded(17);
    int rounds_most = 0;
    for (int i = 0; i < 500; i++) {
        sw_fuel f = beech(sw_random_between(&r, 0, 0.3));
        sw_furnace in = random_furnace(&r);
        sw_furnace_result out;
        if (!sw_ok(t, sw_furnace_solve(&t->run, &f, &in, &out))) return;
        sw_fire_gas g = sw_fire_gas_of(&f, in.lambda, 0);
        sw_mixture air = {{[SW_GAS_O2] = 0.2095, [SW_GAS_N2] = 0.7905}};
        double brought =
            in.fuel_kg_s * (in.burned_share * g.lhv + g.air_kg / 28.964 * sw_mixture_heat_j(&air, 298.15, in.air_k));
        if (!sw_near(t, out.radiant_w + out.convected_w + out.leaving_w, brought, 1e-8 * brought, "law: energy closes"))
            return;
        if (out.rounds > rounds_most) rounds_most = out.rounds;
    }
    sw_true(t, rounds_most < 25);
}

static void more_fuel_is_hotter_and_a_larger_sink_colder(sw_test *t)
{
    sw_random r = sw_random_seeded(19);
    for (int i = 0; i < 100; i++) {
        sw_fuel f = beech(0.16);
        sw_furnace in = random_furnace(&r), more = in, larger = in;
        sw_furnace_result a, b, c;
        more.fuel_kg_s *= 1.1;
        larger.sink_m2 *= 0.9;
        sw_ok(t, sw_furnace_solve(&t->run, &f, &in, &a));
        sw_ok(t, sw_furnace_solve(&t->run, &f, &more, &b));
        sw_ok(t, sw_furnace_solve(&t->run, &f, &larger, &c));
        if (a.gas_k < in.sink_k) continue; /* the sink heats the gas: all turns round */
        if (!sw_true(t, b.gas_k > a.gas_k && c.gas_k > a.gas_k)) return;
    }
}

static void without_a_sink_to_speak_of_the_gas_is_a_flame(sw_test *t)
{
    sw_fuel f = beech(0.16);
    sw_furnace in = example();
    sw_furnace_result r;
    in.sink_m2 = 1e-4;
    in.fuel_kg_s = 0.1;
    if (!sw_ok(t, sw_furnace_solve(&t->run, &f, &in, &r))) return;
    sw_near(t, r.gas_k, sw_fire_flame_k(&f, 1.8, in.air_k), 0.2, "law: no sink, adiabatic flame");
}

static void values_that_cannot_be_are_all_named(sw_test *t)
{
    sw_fuel f = beech(0.7);
    sw_furnace in = example();
    sw_furnace_result r;
    in.lambda = 0.8;
    in.sink_e = NAN;
    in.sink_m2 = 0.9;
    sw_true(t, sw_furnace_solve(&t->run, &f, &in, &r) == SW_OUT_OF_RANGE);
    if (!sw_true(t, t->run.error_count == 4)) return;
    sw_same_text(t, t->run.errors[0].field, "lambda");
    sw_same_text(t, t->run.errors[1].field, "sink_e");
    sw_contains(t, t->run.errors[2].text, "more than the 0.8 m2 of all walls");
    sw_contains(t, t->run.errors[3].text, "wet basis");
}

static void a_fire_too_small_to_warm_the_gas_is_no_solution(sw_test *t)
{
    sw_fuel f = beech(0.16);
    sw_furnace in = example();
    sw_furnace_result r;
    in.fuel_kg_s = 1e-7;
    in.sink_k = 300;
    sw_true(t, sw_furnace_solve(&t->run, &f, &in, &r) == SW_NO_SOLUTION);
    sw_contains(t, t->run.errors[0].text, "left over");
}

SW_TESTS(SW_CASE(example_of_the_handbook_is_met), SW_CASE(a_sooty_flame_radiates_more_and_is_colder),
         SW_CASE(exchange_area_of_speckled_walls_is_met), SW_CASE(energy_closes_for_any_furnace),
         SW_CASE(more_fuel_is_hotter_and_a_larger_sink_colder), SW_CASE(without_a_sink_to_speak_of_the_gas_is_a_flame),
         SW_CASE(values_that_cannot_be_are_all_named), SW_CASE(a_fire_too_small_to_warm_the_gas_is_no_solution))
