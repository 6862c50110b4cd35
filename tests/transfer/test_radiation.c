#include "sw_test.h"
#include "transfer/transfer.h"

#include <math.h>

static void black_fractions_give_the_textbook_table(sw_test *t)
{
    static const double rows[][2] = {{1000, 0.000321}, {2000, 0.066730}, {2898, 0.250106}, {3000, 0.273229},
                                     {4000, 0.480865}, {5000, 0.633726}, {10000, 0.914157}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        sw_near(t, sw_black_fraction(rows[i][0]), rows[i][1], 6e-7,
                "handbook F5.3, agrees with Incropera table 12.1 (from memory)");
}

static void black_fractions_grow_from_nothing_to_all(sw_test *t)
{
    double before = 0;
    for (double x = 1; x < 1e7; x *= 1.01) {
        double f = sw_black_fraction(x);
        if (!sw_true(t, f >= before && f <= 1.0)) return;
        before = f;
    }
    sw_near(t, sw_black_fraction(0), 0, 0, "law: nothing below no wavelength");
    sw_near(t, sw_black_fraction(INFINITY), 1, 1e-15, "law: all below every wavelength");
    double below = sw_black_fraction(14387.77 * (1 - 1e-12)), above = sw_black_fraction(14387.77 * (1 + 1e-12));
    sw_near(t, above, below, 2e-11, "law: both series meet at c2/(lambda T) = 1");
    sw_true(t, isnan(sw_black_fraction(-1)));
}

static void plates_and_shields_give_the_textbook_answers(sw_test *t)
{
    const char *book = "handbook E5: Cengel, Heat Transfer, radiation exchange (from memory)";
    sw_near(t, sw_plates_exchange(800, 0.2, 500, 0.7), 3625, 1, book);
    sw_near(t, sw_shielded_exchange(800, 0.2, 500, 0.7, 1, 0.1), 806, 1, book);
    sw_near(t, sw_plates_exchange(800, 0.2, 500, 0.7), 3625.6, 0.05, "handbook E5, computed");
    sw_near(t, sw_shielded_exchange(800, 0.2, 500, 0.7, 1, 0.1), 805.7, 0.05, "handbook E5, computed");
    sw_near(t, sw_plates_exchange(573.15, 0.9, 333.15, 0.9), 4435, 0.5, "handbook E7, computed");
    sw_near(t, sw_shielded_exchange(573.15, 0.9, 333.15, 0.9, 1, 0.25), 659, 0.5, "handbook E7, computed");
    sw_near(t, sw_shielded_exchange(623.15, 0.85, 313.15, 0.9, 2, 0.2), 415.0, 0.05, "handbook E26, computed");
}

static void each_shield_lowers_the_exchange_and_black_plates_exchange_most(sw_test *t)
{
    double before = sw_plates_exchange(700, 1, 300, 1);
    sw_near(t, before, SW_STEFAN_BOLTZMANN * (pow(700, 4) - pow(300, 4)), 1e-9 * before, "law: e = 1 is sigma dT4");
    for (size_t n = 1; n < 6; n++) {
        double q = sw_shielded_exchange(700, 1, 300, 1, n, 1);
        sw_near(t, q * (double)(n + 1), sw_plates_exchange(700, 1, 300, 1), 1e-8, "law: n black shields leave 1/(n+1)");
        sw_true(t, q < before);
        sw_true(t, sw_shielded_exchange(700, 1, 300, 1, n, 0.3) < q);
        before = q;
    }
    sw_near(t, sw_plates_exchange(300, 0.4, 700, 0.6), -sw_plates_exchange(700, 0.6, 300, 0.4), 1e-9, "law: symmetry");
    sw_true(t, isnan(sw_plates_exchange(300, 0, 700, 0.6)) && isnan(sw_plates_exchange(-1, 0.5, 700, 0.6)));
    sw_true(t, isnan(sw_shielded_exchange(700, 1, 300, 1, 1, 1.01)));
}

/* ---- enclosures ------------------------------------------------------------------------------------------------ */

enum { MOST = 24 };
typedef struct enclosure_room {
    double F[MOST * MOST], area_m2[MOST], emissivity[MOST], t_k[MOST], q[MOST], J[MOST];
    bool known_t[MOST];
    sw_enclosure e;
} enclosure_room;

static sw_enclosure *open_room(enclosure_room *r, size_t n)
{
    *r = (enclosure_room){.e = {.n = n}};
    r->e.F = r->F, r->e.area_m2 = r->area_m2, r->e.emissivity = r->emissivity, r->e.known_t = r->known_t;
    r->e.t_k = r->t_k, r->e.q = r->q, r->e.J = r->J;
    return &r->e;
}

/* Floor, top, front, back, left, right of a box. */
static void fill_box(enclosure_room *r, double w, double d, double h)
{
    double across[3] = {h, d, w}, u[3] = {w, w, d}, v[3] = {d, h, h};
    for (size_t i = 0; i < 6; i++) {
        size_t a = i / 2;
        r->area_m2[i] = u[a] * v[a];
        r->F[i * 6 + (i ^ 1)] = sw_view_parallel(u[a], v[a], across[a]);
        for (size_t k = 0; k < 6; k++) {
            if (k / 2 == a) continue;
            size_t b = k / 2;
            double common = a + b == 1 ? w : a + b == 2 ? d : h; /* floor-front: width, floor-side: depth */
            r->F[i * 6 + k] = sw_view_corner(common, u[a] * v[a] / common, u[b] * v[b] / common);
        }
    }
}

static void a_firebox_of_embers_glass_and_lining_gives_the_worked_example(sw_test *t)
{
    enclosure_room r;
    sw_enclosure *e = open_room(&r, 6);
    fill_box(&r, 0.40, 0.30, 0.40);
    for (size_t i = 0; i < 6; i++) r.emissivity[i] = 0.9;
    r.known_t[0] = r.known_t[2] = true;
    r.t_k[0] = sw_k_from_c(900), r.t_k[2] = sw_k_from_c(450);
    sw_near(t, r.F[2], 0.239089, 5e-7, "handbook E6, computed");
    if (!sw_ok(t, sw_enclosure_solve(&t->run, e))) return;
    /* the four lining walls as one surface in the example; here each on its own, with temperatures near its mean */
    double lining = 0, area = 0;
    for (size_t i = 1; i < 6; i++) {
        if (i == 2) continue;
        lining += r.area_m2[i] * pow(r.t_k[i], 4), area += r.area_m2[i];
    }
    sw_near(t, sw_c_from_k(sqrt(sqrt(lining / area))), 712.0, 10, "handbook E6, computed with one lining surface");
    sw_near(t, r.q[0] * r.area_m2[0], 6691, 70, "handbook E6, computed with one lining surface");
    sw_near(t, r.q[0] * r.area_m2[0], -r.q[2] * r.area_m2[2], 1e-8, "law: what the embers lose the front gains");
}

/* The same with the four walls as one zone. */
static void one_lining_zone_gives_the_worked_example(sw_test *t)
{
    enclosure_room box, r;
    (void)open_room(&box, 6);
    fill_box(&box, 0.40, 0.30, 0.40);
    sw_enclosure *e = open_room(&r, 3);
    double A[3] = {0.12, 0.16, 0.12 + 0.16 + 2 * 0.12}, F12 = box.F[2];
    double F21 = F12 * A[0] / A[1], F13 = 1 - F12, F23 = 1 - F21, F31 = F13 * A[0] / A[2], F32 = F23 * A[1] / A[2];
    double F[9] = {0, F12, F13, F21, 0, F23, F31, F32, 1 - F31 - F32};
    for (size_t i = 0; i < 9; i++) r.F[i] = F[i];
    for (size_t i = 0; i < 3; i++) r.area_m2[i] = A[i], r.emissivity[i] = 0.9;
    r.known_t[0] = r.known_t[1] = true;
    r.t_k[0] = sw_k_from_c(900), r.t_k[1] = sw_k_from_c(450);
    if (!sw_ok(t, sw_enclosure_solve(&t->run, e))) return;
    sw_near(t, r.q[0] * A[0], 6691, 0.6, "handbook E6, computed");
    sw_near(t, sw_c_from_k(r.t_k[2]), 712.0, 0.06, "handbook E6, computed");
    sw_near(t, r.J[0], 101210, 6, "handbook E6, computed");
    sw_near(t, r.J[1], 20154, 2, "handbook E6, computed");
    sw_near(t, r.J[2], 53400, 3, "handbook E6, computed");
}

static void two_parallel_plates_are_the_closed_form(sw_test *t)
{
    enclosure_room r;
    sw_enclosure *e = open_room(&r, 2);
    r.F[1] = r.F[2] = 1;
    r.area_m2[0] = r.area_m2[1] = 1, r.emissivity[0] = 0.2, r.emissivity[1] = 0.7;
    r.known_t[0] = r.known_t[1] = true, r.t_k[0] = 800, r.t_k[1] = 500;
    if (!sw_ok(t, sw_enclosure_solve(&t->run, e))) return;
    sw_near(t, r.q[0], sw_plates_exchange(800, 0.2, 500, 0.7), 1e-9, "law: agrees with the closed form");
    r.known_t[1] = false;
    if (!sw_ok(t, sw_enclosure_solve(&t->run, e))) return;
    sw_near(t, r.t_k[1], 500, 1e-9, "law: the flux found gives the temperature back");
}

static void a_grey_gas_over_sink_and_lining_is_the_well_stirred_firebox(sw_test *t)
{
    enclosure_room r;
    sw_enclosure *e = open_room(&r, 2);
    double A[2] = {0.16, 0.64}, whole = A[0] + A[1];
    for (size_t i = 0; i < 2; i++) {
        r.F[i * 2] = A[0] / whole, r.F[i * 2 + 1] = A[1] / whole; /* finely mixed: each sees areas */
        r.area_m2[i] = A[i], r.emissivity[i] = 0.85;
    }
    r.known_t[0] = true, r.t_k[0] = 723.15;
    e->e_gas = 0.2, e->gas_k = 1100;
    if (!sw_ok(t, sw_enclosure_solve(&t->run, e))) return;
    double GS = sw_furnace_exchange_m2(0.16, 0.85, 0.80, 0.2);
    double want = GS * SW_STEFAN_BOLTZMANN * (pow(1100, 4) - pow(723.15, 4));
    sw_near(t, -r.q[0] * A[0], want, 1e-8 * want, "handbook F4.4: Hottel & Sarofim 1967, speckled walls");
    sw_near(t, r.q[1], 0, 0, "law: the lining passes on all it gets");
}

/* Exchange areas from a random symmetric start, scaled until each row sums to its area (Sinkhorn). */
static void fill_random(enclosure_room *r, size_t n, sw_random *random)
{
    double s[MOST * MOST];
    for (size_t i = 0; i < n; i++) {
        r->area_m2[i] = sw_random_between(random, 0.1, 2);
        for (size_t j = 0; j <= i; j++) s[i * n + j] = s[j * n + i] = sw_random_between(random, 0.01, 1);
    }
    for (int round = 0; round < 2000; round++) {
        double x[MOST];
        for (size_t i = 0; i < n; i++) {
            double sum = 0;
            for (size_t j = 0; j < n; j++) sum += s[i * n + j];
            x[i] = sqrt(r->area_m2[i] / sum);
        }
        for (size_t i = 0; i < n; i++)
            for (size_t j = 0; j < n; j++) s[i * n + j] *= x[i] * x[j];
    }
    for (size_t i = 0; i < n; i++)
        for (size_t j = 0; j < n; j++) r->F[i * n + j] = s[i * n + j] / r->area_m2[i];
}

static void fill_surfaces(enclosure_room *r, size_t n, sw_random *random)
{
    for (size_t i = 0; i < n; i++) {
        r->emissivity[i] = sw_random_between(random, 0.05, 1);
        r->known_t[i] = i == 0 || sw_random_unit(random) < 0.6;
        if (r->known_t[i]) r->t_k[i] = sw_random_between(random, 300, 1300);
    }
}

static void every_enclosure_closes_its_balance(sw_test *t)
{
    for (uint64_t seed = 1; seed <= 200; seed++) {
        t->seed = seed;
        sw_random random = sw_random_seeded(seed);
        size_t n = 2 + sw_random_below(&random, MOST - 2);
        enclosure_room r;
        sw_enclosure *e = open_room(&r, n);
        fill_random(&r, n, &random);
        fill_surfaces(&r, n, &random);
        if (!sw_ok(t, sw_enclosure_solve(&t->run, e))) return;
        double sum = 0, size = 0, low = INFINITY, high = 0;
        for (size_t i = 0; i < n; i++) {
            sum += r.area_m2[i] * r.q[i], size += r.area_m2[i] * fabs(r.q[i]);
            if (r.known_t[i]) low = fmin(low, r.t_k[i]), high = fmax(high, r.t_k[i]);
        }
        if (!sw_near(t, sum, 0, 1e-9 * (size + 1), "law: sum A q = 0")) return;
        for (size_t i = 0; i < n; i++)
            if (!sw_true(t, r.t_k[i] >= low - 1e-6 && r.t_k[i] <= high + 1e-6)) return;
    }
}

static void an_enclosure_of_one_temperature_exchanges_nothing(sw_test *t)
{
    for (uint64_t seed = 1; seed <= 50; seed++) {
        t->seed = seed;
        sw_random random = sw_random_seeded(seed);
        enclosure_room r;
        sw_enclosure *e = open_room(&r, 8);
        fill_random(&r, 8, &random);
        fill_surfaces(&r, 8, &random);
        for (size_t i = 0; i < 8; i++)
            if (r.known_t[i]) r.t_k[i] = 900;
        e->e_gas = 0.3, e->gas_k = 900;
        if (!sw_ok(t, sw_enclosure_solve(&t->run, e))) return;
        for (size_t i = 0; i < 8; i++) {
            if (!sw_near(t, r.q[i], 0, 1e-8, "law: no exchange at equal temperature")) return;
            if (!sw_near(t, r.t_k[i], 900, 1e-8, "law: no exchange at equal temperature")) return;
        }
    }
}

static void black_surfaces_reflect_nothing(sw_test *t)
{
    sw_random random = sw_random_seeded(7);
    enclosure_room r;
    sw_enclosure *e = open_room(&r, 6);
    fill_random(&r, 6, &random);
    for (size_t i = 0; i < 6; i++) r.known_t[i] = true, r.emissivity[i] = 1, r.t_k[i] = 400 + 100 * (double)i;
    if (!sw_ok(t, sw_enclosure_solve(&t->run, e))) return;
    for (size_t i = 0; i < 6; i++)
        sw_near(t, r.J[i], SW_STEFAN_BOLTZMANN * pow(r.t_k[i], 4), 1e-9, "law: e -> 1, J = sigma T4");
}

static void every_fault_of_an_enclosure_is_named_at_once(sw_test *t)
{
    enclosure_room r;
    sw_enclosure *e = open_room(&r, 2);
    r.F[1] = 1, r.F[2] = 0.5;
    r.area_m2[0] = 1, r.emissivity[0] = 0, r.emissivity[1] = 1.5;
    r.known_t[0] = true, r.t_k[0] = -3, r.q[1] = NAN;
    sw_true(t, sw_enclosure_solve(&t->run, e) == SW_OUT_OF_RANGE);
    sw_true(t, t->run.error_count == 6);
    sw_contains(t, t->run.errors[0].text, "surface 1: emissivity 0 is not in (0, 1]");
    sw_contains(t, t->run.errors[2].text, "surface 2: sum of view factors 0.5 is not 1");
    sw_run_clear_errors(&t->run);
    r.F[2] = 1, r.area_m2[1] = 1, r.emissivity[0] = r.emissivity[1] = 0.5, r.t_k[0] = 500, r.q[1] = 0;
    e->e_gas = 1.2;
    sw_true(t, sw_enclosure_solve(&t->run, e) == SW_OUT_OF_RANGE);
    e->e_gas = 0.2, e->gas_k = NAN;
    sw_true(t, sw_enclosure_solve(&t->run, e) == SW_OUT_OF_RANGE);
}

static void an_enclosure_without_any_temperature_has_no_answer(sw_test *t)
{
    enclosure_room r;
    sw_enclosure *e = open_room(&r, 2);
    r.F[1] = r.F[2] = 1;
    r.area_m2[0] = r.area_m2[1] = 1, r.emissivity[0] = r.emissivity[1] = 0.5;
    sw_true(t, sw_enclosure_solve(&t->run, e) == SW_NO_SOLUTION);
    sw_contains(t, t->run.errors[0].text, "give one of them a temperature");
    r.known_t[0] = true, r.t_k[0] = 300, r.q[1] = -1e5;
    sw_true(t, sw_enclosure_solve(&t->run, e) == SW_NO_SOLUTION);
    sw_contains(t, t->run.errors[1].text, "less than 0 K");
}

static void an_enclosure_leaves_no_scratch_and_survives_refused_memory(sw_test *t)
{
    enclosure_room r;
    sw_enclosure *e = open_room(&r, 2);
    r.F[1] = r.F[2] = 1;
    r.area_m2[0] = r.area_m2[1] = 1, r.emissivity[0] = r.emissivity[1] = 0.5;
    r.known_t[0] = true, r.t_k[0] = 300, r.q[1] = 10;
    size_t before = sw_arena_bytes(t->run.scratch);
    sw_ok(t, sw_enclosure_solve(&t->run, e));
    sw_true(t, sw_arena_bytes(t->run.scratch) == before);
    sw_arena_fail_at(t->run.scratch, 1);
    sw_true(t, sw_enclosure_solve(&t->run, e) == SW_NO_MEMORY);
    sw_arena_fail_at(t->run.scratch, 0);
    sw_true(t, sw_arena_bytes(t->run.scratch) == before);
}

SW_TESTS(SW_CASE(black_fractions_give_the_textbook_table), SW_CASE(black_fractions_grow_from_nothing_to_all),
         SW_CASE(plates_and_shields_give_the_textbook_answers),
         SW_CASE(each_shield_lowers_the_exchange_and_black_plates_exchange_most),
         SW_CASE(a_firebox_of_embers_glass_and_lining_gives_the_worked_example),
         SW_CASE(one_lining_zone_gives_the_worked_example), SW_CASE(two_parallel_plates_are_the_closed_form),
         SW_CASE(a_grey_gas_over_sink_and_lining_is_the_well_stirred_firebox),
         SW_CASE(every_enclosure_closes_its_balance), SW_CASE(an_enclosure_of_one_temperature_exchanges_nothing),
         SW_CASE(black_surfaces_reflect_nothing), SW_CASE(every_fault_of_an_enclosure_is_named_at_once),
         SW_CASE(an_enclosure_without_any_temperature_has_no_answer),
         SW_CASE(an_enclosure_leaves_no_scratch_and_survives_refused_memory))
