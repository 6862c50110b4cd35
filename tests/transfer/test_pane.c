#include "sw_test.h"
#include "transfer/transfer.h"

#include <math.h>

static void a_slab_of_glass_gives_the_handbook(sw_test *t)
{
    const char *book = "handbook F5.3: Siegel & Howell; Duffie & Beckman, computed";
    double r = sw_fresnel_normal(1.54);
    sw_near(t, r, 0.045198, 6e-7, book);
    sw_near(t, sw_pane_optics(1, r).transmitted, 0.91351, 6e-6, book);
    sw_slab_optics a = sw_pane_optics(0.95, r), b = sw_pane_optics(0.5, r);
    sw_near(t, a.transmitted, 0.86766, 6e-6, book);
    sw_near(t, a.reflected, 0.08245, 6e-6, book);
    sw_near(t, a.absorbed, 0.04988, 6e-6, book);
    sw_near(t, b.transmitted, 0.45606, 6e-6, book);
    sw_near(t, b.reflected, 0.05550, 6e-6, book);
    sw_near(t, b.absorbed, 0.48844, 6e-6, book);
}

static void a_slab_loses_nothing(sw_test *t)
{
    for (uint64_t seed = 1; seed <= 1000; seed++) {
        t->seed = seed;
        sw_random random = sw_random_seeded(seed);
        double ti = sw_random_unit(&random), r = sw_random_unit(&random);
        sw_slab_optics o = sw_pane_optics(ti, r);
        if (!sw_near(t, o.transmitted + o.reflected + o.absorbed, 1, 1e-12, "law: T + R + A = 1")) return;
        if (!sw_near(t, sw_pane_optics(0, r).reflected, r, 1e-15, "law: an opaque slab reflects at its face")) return;
    }
    sw_true(t, isnan(sw_pane_optics(1.1, 0.1).transmitted) && isnan(sw_pane_optics(0.5, -0.1).absorbed));
    sw_true(t, isnan(sw_fresnel_normal(0)));
}

static void bands_of_clear_glass_ceramic_give_the_handbook_table(sw_test *t)
{
    static const double rows[][6] = {
        {400, 0.041, 0.063, 0.129, 0.766, 0.088},  {600, 0.132, 0.115, 0.171, 0.583, 0.179},
        {800, 0.250, 0.142, 0.174, 0.435, 0.277},  {900, 0.311, 0.146, 0.167, 0.376, 0.323},
        {1000, 0.370, 0.147, 0.158, 0.325, 0.367}, {1200, 0.477, 0.139, 0.137, 0.247, 0.443},
    };
    const char *book = "handbook F5.3, computed from the bands";
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        double source_k = sw_k_from_c(rows[i][0]);
        for (size_t band = 0; band < SW_PANE_BANDS; band++)
            sw_near(t, sw_pane_band_share(sw_pane_clear(), band, source_k), rows[i][1 + band], 6e-4, book);
        sw_near(t, sw_pane_transmitted(sw_pane_clear(), source_k), rows[i][5], 6e-4, book);
    }
}

static void bands_share_out_all_of_the_radiation(sw_test *t)
{
    for (double source_k = 50; source_k < 6000; source_k *= 1.1) {
        double sum = 0, reflected = 0;
        for (size_t band = 0; band < SW_PANE_BANDS; band++) {
            double share = sw_pane_band_share(sw_pane_clear(), band, source_k);
            sum += share, reflected += share * sw_pane_clear()->bands[band].reflected;
        }
        if (!sw_near(t, sum, 1, 1e-12, "law: band shares sum to one")) return;
        double rest = sw_pane_transmitted(sw_pane_clear(), source_k) + sw_pane_absorbed(sw_pane_clear(), source_k);
        if (!sw_near(t, rest + reflected, 1, 1e-12, "law: passed, absorbed and reflected make one")) return;
    }
    sw_true(t, isnan(sw_pane_band_share(sw_pane_clear(), SW_PANE_BANDS, 1000)));
    sw_true(t, isnan(sw_pane_transmitted(sw_pane_clear(), 0)));
}

static const sw_pane_state worked = {973.15, 0.7, 773.15, 8, 7, 293.15};

static double radiated_w_m2(const sw_pane *pane, double t_k)
{
    return sw_pane_absorbed(pane, t_k) * SW_STEFAN_BOLTZMANN * pow(t_k, 4);
}

/* To the room, W/m2: let through, net emitted, convected. */
typedef struct room_heat {
    double through, emitted, convected;
} room_heat;

static room_heat heat_of(const sw_pane *pane, sw_pane_state s, double pane_k)
{
    double fire = s.fire_e * SW_STEFAN_BOLTZMANN * pow(s.fire_k, 4);
    return (room_heat){sw_pane_transmitted(pane, s.fire_k) * fire,
                       radiated_w_m2(pane, pane_k) - radiated_w_m2(pane, s.room_k), s.h_out * (pane_k - s.room_k)};
}

static void the_worked_pane_takes_its_published_temperature(sw_test *t)
{
    const sw_pane *pane = sw_pane_clear();
    double pane_k = sw_pane_k(pane, worked);
    const char *book = "handbook E9, computed";
    sw_near(t, sw_c_from_k(pane_k), 430.5, 0.05, book);
    sw_near(t, sw_pane_balance(pane, worked, pane_k), 0, 1e-3, "law: the balance closes");
    room_heat heat = heat_of(pane, worked, pane_k);
    sw_near(t, heat.through, 8126, 1, book);
    sw_near(t, heat.emitted, 10882, 1, book);
    sw_near(t, heat.convected, 2874, 1, book);
}

static void hotter_fires_give_the_published_panes(sw_test *t)
{
    static const double rows[][3] = {{550, 337, 1810}, {600, 368, 2268}, {650, 399, 2827}, {700, 431, 3501}};
    for (size_t i = 0; i < 4; i++) {
        sw_pane_state s = worked;
        s.fire_k = sw_k_from_c(rows[i][0]);
        double pane_k = sw_pane_k(sw_pane_clear(), s);
        room_heat heat = heat_of(sw_pane_clear(), s, pane_k);
        const char *book = "handbook F10: pane of the E9 model, computed";
        sw_near(t, sw_c_from_k(pane_k), rows[i][1], 0.6, book);
        sw_near(t, 0.16 * (heat.through + heat.emitted + heat.convected), rows[i][2], 0.6, book);
    }
}

static void soot_on_the_pane_makes_it_hotter_and_dark(sw_test *t)
{
    sw_true(t, sw_pane_k(sw_pane_sooted(), worked) > sw_pane_k(sw_pane_clear(), worked) + 10);
    sw_near(t, sw_pane_transmitted(sw_pane_sooted(), 1100), 0, 0, "law: soot lets nothing through");
    sw_near(t, sw_pane_absorbed(sw_pane_sooted(), 1100), 0.95, 1e-12, "Incropera A.11: soot covered (from memory)");
}

static void every_pane_balances_between_its_coldest_and_hottest_neighbour(sw_test *t)
{
    for (uint64_t seed = 1; seed <= 500; seed++) {
        t->seed = seed;
        sw_random r = sw_random_seeded(seed);
        sw_pane_state s = {sw_random_between(&r, 293, 1500), sw_random_unit(&r),
                           sw_random_between(&r, 293, 1300), sw_random_between(&r, 0, 60),
                           sw_random_between(&r, 0, 30),     293};
        const sw_pane *pane = seed % 2 == 0 ? sw_pane_clear() : sw_pane_sooted();
        double pane_k = sw_pane_k(pane, s);
        if (!sw_true(t, pane_k > 200 && pane_k < fmax(s.fire_k, s.gas_k))) return;
        if (!sw_near(t, sw_pane_balance(pane, s, pane_k), 0, 1e-3, "law: the balance closes")) return;
        s.fire_k += 50;
        if (!sw_true(t, sw_pane_k(pane, s) >= pane_k)) return;
    }
}

static void a_room_of_one_temperature_leaves_the_pane_at_it(sw_test *t)
{
    sw_pane_state s = {293.15, 1, 293.15, 8, 7, 293.15};
    sw_near(t, sw_pane_k(sw_pane_clear(), s), 293.15, 1e-6, "law: no exchange at equal temperature");
    s.fire_k = NAN;
    sw_true(t, isnan(sw_pane_k(sw_pane_clear(), s)));
    s.fire_k = 900, s.h_in = -1;
    sw_true(t, isnan(sw_pane_k(sw_pane_clear(), s)));
}

SW_TESTS(SW_CASE(a_slab_of_glass_gives_the_handbook), SW_CASE(a_slab_loses_nothing),
         SW_CASE(bands_of_clear_glass_ceramic_give_the_handbook_table), SW_CASE(bands_share_out_all_of_the_radiation),
         SW_CASE(the_worked_pane_takes_its_published_temperature), SW_CASE(hotter_fires_give_the_published_panes),
         SW_CASE(soot_on_the_pane_makes_it_hotter_and_dark),
         SW_CASE(every_pane_balances_between_its_coldest_and_hottest_neighbour),
         SW_CASE(a_room_of_one_temperature_leaves_the_pane_at_it))
