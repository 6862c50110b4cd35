/* A charge of logs over time. */
#include "sw_test.h"
#include "wood.h"

static void release_has_the_handbooks_shape(sw_test *t)
{
    double tau_s = sw_s_from_min(8);
    const char *book = "handbook F3.1, computed";
    sw_near(t, sw_batch_released(sw_s_from_min(8), tau_s), 0.2642, 6e-5, book);
    sw_near(t, sw_batch_released(sw_s_from_min(24), tau_s), 0.8009, 6e-5, book);
    sw_near(t, sw_batch_released(sw_s_from_min(45), tau_s), 0.9761, 6e-5, book);
    sw_near(t, 60 * sw_batch_rate_1_s(tau_s, tau_s), 0.0460, 6e-5, book);
    sw_near(t, exp(-45.0 / 20), 0.105, 6e-4, "handbook F3.1, computed: first-order char");
    sw_near(t, sw_batch_released(0, tau_s), 0, 0, "law: nothing yet");
    sw_near(t, sw_batch_released(1e6, tau_s), 1, 1e-12, "law: all at last");
    for (double s = 60; s < 4000; s += 60) {
        double rise = (sw_batch_released(s + 0.5, tau_s) - sw_batch_released(s - 0.5, tau_s));
        if (!sw_near(t, rise, sw_batch_rate_1_s(s, tau_s), 1e-9, "law: the rate is the derivative")) return;
    }
}

static void a_third_of_the_heat_is_the_chars(sw_test *t)
{
    sw_fuel f = beech(0.16);
    sw_batch_model m = sw_batch_model_defaults();
    double daf_j = sw_fuel_lhv_dry(&f) / (1 - f.ash);
    sw_near(t, daf_j, 18.66e6, 6e3, "handbook F3.1, computed");
    sw_near(t, sw_batch_volatile_lhv(&f, &m), 15.56e6, 6e3, "handbook F3.1, computed");
    sw_near(t, m.char_share * m.char_lhv / daf_j, 0.316, 6e-4, "handbook F3.1, computed");
}

static void logs_take_longer_when_thick_and_on_a_cold_bed(sw_test *t)
{
    sw_batch_model m = sw_batch_model_defaults();
    sw_near(t, sw_batch_slowness(&m, 900), 1, 1e-12, "reference: 80 mm on a bed of 900 K (ours)");
    sw_near(t, sw_batch_slowness(&m, 0), 4, 1e-12, "ours: a quarter of the speed on a cold bed");
    sw_near(t, sw_batch_slowness(&m, 1e6), 1 / 1.5, 1e-9, "ours: at most one and a half times the speed");
    for (double k = 300; k < 1500; k += 10) sw_true(t, sw_batch_slowness(&m, k + 10) < sw_batch_slowness(&m, k));
    m.log_m = 0.16;
    sw_near(t, sw_batch_slowness(&m, 900), 2, 1e-12, "EN 1995-1-2 table 3.1: charring at a constant rate");
}

static void split_logs_char_through_within_the_hour(sw_test *t)
{
    sw_batch_model m = sw_batch_model_defaults();
    m.log_m = 0.07;
    double all_s = m.drying_s + 2 * m.volatile_s; /* mean time to release */
    sw_true(t, sw_batch_slowness(&m, 900) * all_s < sw_s_from_min(35 / 0.65));
    sw_near(t, 35 / 0.65, 54, 0.5, "handbook F3.1, computed from EN 1995-1-2: 0.65 mm/min (from memory)");
    sw_near(t, 45 / 0.65, 69, 0.5, "handbook F3.1, computed from EN 1995-1-2: 0.65 mm/min (from memory)");
}

typedef struct sums {
    double water_kg, volatiles_kg, char_kg, heat_j, air_kg;
} sums;

static void step(sw_batch_state *s, const sw_fuel *f, const sw_batch_model *m, double primary, double bed_k, double dt,
                 sums *gone)
{
    sw_batch_state d;
    sw_batch_rates r = sw_batch_rates_at(s, f, m, primary, bed_k, &d);
    s->water_kg += dt * d.water_kg;
    s->dry_kg += dt * d.dry_kg;
    s->volatiles_kg += dt * d.volatiles_kg;
    s->front_kg += dt * d.front_kg;
    s->char_kg += dt * d.char_kg;
    s->ash_kg += dt * d.ash_kg;
    gone->water_kg += dt * r.water_kg_s;
    gone->volatiles_kg += dt * r.volatiles_kg_s;
    gone->char_kg += dt * r.char_kg_s;
    gone->heat_j += dt * r.heat_w;
    gone->air_kg += dt * r.air_kg_s;
}

static void mass_closes_through_any_refuels(sw_test *t)
{
    for (uint64_t seed = 1; seed <= 30; seed++) {
        t->seed = seed;
        sw_random r = sw_random_seeded(seed);
        sw_fuel f = random_wood(&r);
        sw_batch_model m = sw_batch_model_defaults();
        sw_batch_state s = {0};
        sums gone = {0};
        double put_kg = 0, next_s = 0;
        for (double now_s = 0; now_s < 3 * 3600; now_s += 5) {
            if (now_s >= next_s) {
                double kg = sw_random_between(&r, 0.3, 3);
                sw_batch_charge(&s, &f, kg);
                put_kg += kg;
                next_s = now_s + sw_random_between(&r, 60, 4000);
            }
            step(&s, &f, &m, sw_random_between(&r, -1e-4, 3e-3), sw_random_between(&r, 280, 1300), 5, &gone);
            double gone_kg = gone.water_kg + gone.volatiles_kg + gone.char_kg;
            if (!sw_near(t, sw_batch_kg(&s) + gone_kg, put_kg, 1e-11 * put_kg, "law: mass closes")) return;
            if (!sw_true(t,
                         s.water_kg >= 0 && s.dry_kg >= 0 && s.volatiles_kg >= 0 && s.front_kg >= 0 && s.char_kg >= 0))
                return;
        }
    }
    t->seed = 0;
}

static void a_charge_gives_all_its_heat_and_takes_all_its_air(sw_test *t)
{
    sw_fuel f = beech(0.16);
    sw_batch_model m = sw_batch_model_defaults();
    sw_batch_state s = {0};
    sums gone = {0};
    sw_batch_charge(&s, &f, 1.6);
    for (int i = 0; i < 200000; i++) step(&s, &f, &m, 1, 900, 0.25, &gone);
    sw_near(t, gone.heat_j, 1.6 * sw_fuel_lhv(&f), 1e-6 * 1.6 * sw_fuel_lhv(&f), "law: energy closes");
    sw_near(t, gone.air_kg, 1.6 * sw_fire_gas_of(&f, 1, 0).air_kg, 1e-6 * gone.air_kg, "law: air closes");
    sw_near(t, s.ash_kg, 1.6 * 0.84 * 0.005, 1e-12, "law: ash stays");
    sw_near(t, gone.char_kg, 1.6 * 0.84 * 0.995 * 0.18, 1e-6, "derived: char share of the dry, ash-free wood");
}

static void a_dried_charge_releases_by_the_shape(sw_test *t)
{
    sw_fuel f = beech(0);
    sw_batch_model m = sw_batch_model_defaults();
    sw_batch_state s = {.volatiles_kg = 1};
    sums gone = {0};
    for (int i = 1; i <= 45 * 600; i++) {
        step(&s, &f, &m, 0, 900, 0.1, &gone);
        if (i % 4800 == 0)
            sw_near(t, gone.volatiles_kg / (1 - m.char_share), sw_batch_released(0.1 * i, m.volatile_s), 2e-4,
                    "handbook F3.1: 1 - (1 + t/tau) exp(-t/tau)");
    }
    sw_near(t, s.char_kg, m.char_share * (1 - s.volatiles_kg - s.front_kg), 1e-12,
            "law: without air the char lies there");
}

static void fire_peaks_in_the_first_quarter_of_a_burn(sw_test *t)
{
    sw_fuel f = beech(0.16);
    sw_batch_model m = sw_batch_model_defaults();
    sw_batch_state s = {0}, d;
    sums gone = {0};
    double most_w = 0, at_s = 0;
    sw_batch_charge(&s, &f, 1.6);
    for (double now_s = 0; now_s < 2700; now_s += 1) {
        double w = sw_batch_rates_at(&s, &f, &m, 1e-3, 900, &d).heat_w;
        if (w > most_w) at_s = now_s;
        if (w > most_w) most_w = w;
        step(&s, &f, &m, 1e-3, 900, 1, &gone);
    }
    sw_true(t, at_s > 0.15 * 2700 && at_s < 0.25 * 2700); /* handbook F3.1: peak at 15 to 25 % (from memory) */
    sw_true(t, gone.heat_j > 0.75 * 1.6 * sw_fuel_lhv(&f));
}

static void char_burns_no_faster_than_its_air(sw_test *t)
{
    sw_fuel f = beech(0.16);
    sw_batch_model m = sw_batch_model_defaults();
    sw_batch_state s = {.char_kg = 1}, d;
    sw_near(t, sw_batch_rates_at(&s, &f, &m, 1, 900, &d).char_kg_s, 1.0 / 1200, 1e-12, "derived: first order");
    double kg_s = sw_batch_rates_at(&s, &f, &m, 1e-3, 900, &d).char_kg_s;
    sw_near(t, kg_s, 1e-3 / (m.char_lambda * 11.5), 2e-3 * kg_s, "handbook F3.1: 11.5 kg air per kg carbon");
    sw_near(t, sw_batch_rates_at(&s, &f, &m, -1, 900, &d).char_kg_s, 0, 0, "law: no air, no fire");
}

static void gas_of_a_moment_closes_with_fuel_and_air(sw_test *t)
{
    sw_random r = sw_random_seeded(31);
    sw_batch_model m = sw_batch_model_defaults();
    for (int i = 0; i < 200; i++) {
        sw_fuel f = random_wood(&r);
        sw_batch_state s = {.water_kg = sw_random_between(&r, 0, 1), .front_kg = sw_random_between(&r, 0.1, 1)}, d;
        s.char_kg = sw_random_between(&r, 0, 1);
        sw_batch_rates rates = sw_batch_rates_at(&s, &f, &m, 1e-2, 900, &d);
        double lambda = sw_random_between(&r, 1, 5);
        sw_mixture gas = sw_batch_gas_kmol_s(&rates, &f, &m, lambda * rates.air_kg_s, 0);
        double in_kg_s = rates.water_kg_s + rates.volatiles_kg_s + rates.char_kg_s + lambda * rates.air_kg_s;
        if (!sw_near(t, sw_mixture_kg(&gas), in_kg_s, 5e-3 * in_kg_s, "law: mass, argon as nitrogen")) return;
        if (!sw_near(t, gas.kmol[SW_GAS_O2], (lambda - 1) * rates.air_kg_s / 28.964 * 0.2095, 1e-12,
                     "law: oxygen left"))
            return;
        sw_true(t, isnan(sw_mixture_kmol(&(sw_mixture){{gas.kmol[0]}})) == false);
        gas = sw_batch_gas_kmol_s(&rates, &f, &m, 0.9 * rates.air_kg_s, 0);
        if (!sw_true(t, isnan(gas.kmol[SW_GAS_CO2]))) return;
    }
}

SW_TESTS(SW_CASE(release_has_the_handbooks_shape), SW_CASE(a_third_of_the_heat_is_the_chars),
         SW_CASE(logs_take_longer_when_thick_and_on_a_cold_bed), SW_CASE(split_logs_char_through_within_the_hour),
         SW_CASE(mass_closes_through_any_refuels), SW_CASE(a_charge_gives_all_its_heat_and_takes_all_its_air),
         SW_CASE(a_dried_charge_releases_by_the_shape), SW_CASE(fire_peaks_in_the_first_quarter_of_a_burn),
         SW_CASE(char_burns_no_faster_than_its_air), SW_CASE(gas_of_a_moment_closes_with_fuel_and_air))
