/* Handbook values of tolerances, capability, sampling and control charts. */
#include "making/fit/fit.h"
#include "sw_test.h"

#include <math.h>

static void chain_of_four_by_each_rule(sw_test *t)
{
    const double tolerances[] = {0.5, 0.3, 0.2, 0.25};
    sw_near(t, sw_chain_worst(tolerances, NULL, 4), 1.25, 1e-12, "handbook W8.1, computed");
    sw_near(t, sw_chain_rss(tolerances, NULL, 4), 0.6652, 5e-5, "handbook W8.1, computed");
    sw_near(t, sw_chain_inflated(tolerances, NULL, 4), 0.998, 5e-4, "handbook W8.1, computed");
}

static void sensitivities_count_without_their_sign(sw_test *t)
{
    const double tolerances[] = {1, 2}, signs[] = {-2, 0.5};
    sw_near(t, sw_chain_worst(tolerances, signs, 2), 3, 1e-12, "derived: 2 x 1 + 0.5 x 2");
    sw_near(t, sw_chain_rss(tolerances, signs, 2), sqrt(5), 1e-12, "derived: sqrt(4 + 1)");
}

static void error_of_a_counted_share(sw_test *t)
{
    sw_near(t, sw_tail_error(0.5, 400), 0.025, 1e-12, "handbook 8.1: sqrt(p (1 - p)/N)");
    sw_near(t, sw_tail_share(1.5, 0, 1), 0.0668072, 5e-8, "normal law, Phi(-1.5), any table (from memory)");
    sw_near(t, sw_tail_share(1, 2, 0), 1, 0, "derived: no spread");
    sw_true(t, isnan(sw_tail_error(1.5, 10)) && isnan(sw_tail_share(0, 0, -1)));
}

static void quantiles_undo_shares(sw_test *t)
{
    sw_near(t, sw_normal_quantile(0.975), 1.959963985, 1e-9, "normal law, any table (from memory)");
    for (double z = -6; z <= 6; z += 0.37)
        if (!sw_near(t, sw_normal_quantile(sw_normal_share(z)), z, 1e-7, "law: quantile of the share")) return;
    sw_true(t, isnan(sw_normal_quantile(0)) && isnan(sw_normal_quantile(1)));
}

static void capability_of_montgomerys_example(sw_test *t)
{
    double cp = sw_cp(38, 62, 1.75);
    sw_interval i = sw_cp_interval(cp, 20, 0.95);
    sw_near(t, cp, 2.29, 5e-3, "handbook W8.3: Montgomery (from memory)");
    sw_near(t, cp, 2.2857, 5e-5, "handbook W8.3, computed");
    sw_near(t, i.low, 1.565, 5e-4, "handbook W8.3, computed");
    sw_near(t, i.high, 3.006, 5e-4, "handbook W8.3, computed");
}

static void cpk_takes_the_nearer_limit(sw_test *t)
{
    sw_near(t, sw_cpk(0, 10, 4, 1), 4.0 / 3, 1e-12, "derived: (4 - 0)/3");
    sw_near(t, sw_cpk(-INFINITY, 10, 4, 1), 2, 1e-12, "derived: one limit alone");
    sw_interval i = sw_cpk_interval(1.33, 20, 0.95);
    double half = 1.959964 * sqrt(1 / (9 * 20 * 1.33 * 1.33) + 1 / 38.0) * 1.33;
    sw_near(t, i.low, 1.33 - half, 1e-6, "handbook 8.2: Bissell");
    sw_near(t, i.high, 1.33 + half, 1e-6, "handbook 8.2: Bissell");
    sw_true(t, isnan(sw_cpk(0, 10, 4, 0)) && isnan(sw_cp(10, 0, 1)) && isnan(sw_cp_interval(1, 1, 0.95).low));
}

static void parts_beyond_the_nearer_limit(sw_test *t)
{
    sw_near(t, sw_ppm(1.00), 1349.9, 5e-2, "handbook 8.2, computed");
    sw_near(t, sw_ppm(1.33), 33.04, 5e-3, "handbook 8.2, computed");
    sw_near(t, sw_ppm(1.67), 0.272, 5e-4, "handbook 8.2, computed");
}

static void chi_square_meets_its_tables(sw_test *t)
{
    sw_near(t, sw_chi_square_quantile(0.95, 10), 18.307, 5e-4, "chi-square table (from memory)");
    sw_near(t, sw_chi_square_quantile(0.025, 19), 8.907, 5e-4, "chi-square table (from memory)");
    sw_near(t, sw_chi_square_quantile(0.5, 2), 2 * log(2), 1e-10, "derived: exponential law");
    double z = sw_normal_quantile(0.995);
    sw_near(t, sw_chi_square_quantile(0.99, 1), z * z, 1e-8, "derived: square of a normal number");
}

static void general_tolerances_of_iso_2768(sw_test *t)
{
    const char *found = "ISO 2768-1 (found in a data sheet)", *memory = "ISO 2768-1 (from memory)";
    sw_near(t, sw_iso2768_length_mm('m', 30), 0.2, 0, found);
    sw_near(t, sw_iso2768_length_mm('m', 30.1), 0.3, 0, found);
    sw_near(t, sw_iso2768_length_mm('f', 1000), 0.3, 0, found);
    sw_near(t, sw_iso2768_length_mm('v', 3999), 8, 0, found);
    sw_near(t, sw_iso2768_length_mm('c', 100), 0.8, 0, memory);
    sw_near(t, sw_iso2768_radius_mm('m', 75), 1, 0, memory);
    sw_near(t, sw_deg_from_rad(sw_iso2768_angle_rad('m', 100)), 20.0 / 60, 1e-12, memory);
    sw_true(t, isnan(sw_iso2768_length_mm('v', 2)) && isnan(sw_iso2768_length_mm('f', 2500)));
    sw_true(t, isnan(sw_iso2768_length_mm('m', 0.4)) && isnan(sw_iso2768_length_mm('x', 10)));
}

static void general_tolerances_of_weldments(sw_test *t)
{
    const char *found = "ISO 13920 (found)";
    sw_near(t, sw_iso13920_length_mm('B', 400), 2, 0, found);
    sw_near(t, sw_iso13920_length_mm('B', 401), 3, 0, found);
    sw_near(t, sw_iso13920_length_mm('D', 4000), 16, 0, found);
    sw_near(t, sw_deg_from_rad(sw_iso13920_angle_rad('B', 500)), 0.5, 1e-12, found);
    sw_true(t, isnan(sw_iso13920_length_mm('A', 1)) && isnan(sw_iso13920_length_mm('A', 4001)));
}

static void standard_tolerances_of_diameters(sw_test *t)
{
    const char *book = "handbook 8.3, computed from ISO 286-1 (from memory)";
    sw_near(t, sw_iso286_unit_um(25), 1.3074, 5e-5, book);
    sw_near(t, sw_iso286_it_um(7, 25), 20.9, 5e-2, book);
    sw_near(t, sw_iso286_it_um(11, 25), 130.7, 5e-2, book);
    sw_near(t, sw_iso286_it_um(7, 100), 34.8, 5e-2, book);
    sw_true(t, isnan(sw_iso286_it_um(5, 25)) && isnan(sw_iso286_it_um(7, 501)) && isnan(sw_iso286_unit_um(0)));
}

static void proof_of_conformity_leaves_a_guard_band(sw_test *t)
{
    sw_interval i = sw_guarded(99.5, 100.5, 0.04, 2);
    sw_near(t, i.low, 99.58, 1e-12, "handbook 8.3, computed: 100 +- 0.5, U 0.08");
    sw_near(t, i.high, 100.42, 1e-12, "handbook 8.3, computed: 100 +- 0.5, U 0.08");
    const double off_mm[] = {0.1, -0.3, 0.2};
    sw_near(t, sw_profile_deviation_mm(off_mm, 3), 0.6, 1e-12, "handbook 8.3: 2 x the largest normal distance");
    sw_near(t, sw_iso5817_misalignment_mm('C', 4), 0.6, 1e-12, "ISO 5817 level C, linear misalignment (from memory)");
}

static void letters_and_samples_of_lots(sw_test *t)
{
    const char *chart = "handbook 8.3: ISO 2859-1 (letters and sizes found)";
    const size_t lots[] = {8, 9, 25, 26, 90, 150, 280, 500, 1200, 3200};
    const char letters[] = "ABCDEFGHJK";
    for (size_t i = 0; i < 10; i++) sw_near(t, sw_sampling_letter(lots[i]), letters[i], 0, chart);
    sw_true(t, sw_sampling_letter(1) == 0 && sw_sampling_letter(40000) == 0);
}

static void acceptance_numbers_and_their_arrows(sw_test *t)
{
    const char *memory = "handbook 8.3: ISO 2859-1 (cells from memory)";
    const struct {
        size_t lot;
        double aql;
        size_t sample, accept;
    } cells[] = {{90, 1.0, 13, 0},   {500, 1.0, 50, 1},   {1200, 1.0, 80, 2}, {3200, 1.0, 125, 3},
                 {25, 2.5, 5, 0},    {150, 2.5, 20, 1},   {280, 2.5, 32, 2},  {500, 2.5, 50, 3},
                 {1200, 2.5, 80, 5}, {3200, 2.5, 125, 7}, {50, 2.5, 5, 0},    {90, 2.5, 20, 1},
                 {150, 1.0, 13, 0},  {280, 1.0, 50, 1},   {9, 2.5, 5, 0},     {35000, 6.5, 200, 21}};
    for (size_t i = 0; i < sizeof cells / sizeof *cells; i++) {
        sw_sampling plan = sw_sampling_plan(cells[i].lot, cells[i].aql);
        sw_near(t, (double)plan.sample, (double)cells[i].sample, 0, memory);
        sw_near(t, (double)plan.accept, (double)cells[i].accept, 0, memory);
    }
    sw_sampling small = sw_sampling_plan(4, 1.0);
    sw_true(t, small.all && small.sample == 4 && small.accept == 0);
    sw_true(t, sw_sampling_plan(100, 2).letter == 0);
}

static void operating_characteristics(sw_test *t)
{
    sw_near(t, sw_accept_probability(80, 2, 0.01), 0.9534, 5e-5, "handbook W8.4, binomial, computed");
    sw_near(t, sw_accept_probability(80, 2, 0.05), 0.2306, 5e-5, "handbook W8.4, binomial, computed");
    sw_near(t, sw_accept_probability(20, 1, 0.025), 0.9118, 5e-5, "handbook W8.4, binomial, computed");
    sw_near(t, sw_accept_probability(20, 1, 0.15), 0.1756, 5e-5, "handbook W8.4, binomial, computed");
    sw_near(t, sw_accept_probability(20, 20, 0.9), 1, 0, "law: all accepted");
    double last = 1;
    for (double bad = 0.01; bad < 1; bad += 0.05) {
        double now = sw_accept_probability(32, 2, bad);
        if (!sw_true(t, now <= last)) return;
        last = now;
    }
}

static void shewhart_constants_by_integration(sw_test *t)
{
    static const struct {
        size_t n;
        double a2, a3, d2, d3, c4, D3, D4, B3, B4;
    } book[] = {{2, 1.880, 2.659, 1.128, 0.853, 0.7979, 0, 3.267, 0, 3.267},
                {3, 1.023, 1.954, 1.693, 0.888, 0.8862, 0, 2.575, 0, 2.568},
                {5, 0.577, 1.427, 2.326, 0.864, 0.9400, 0, 2.115, 0, 2.089},
                {7, 0.419, 1.182, 2.704, 0.833, 0.9594, 0.076, 1.924, 0.118, 1.882},
                {10, 0.308, 0.975, 3.078, 0.797, 0.9727, 0.223, 1.777, 0.284, 1.716}};
    const char *source = "handbook 8.4: Montgomery, appendix VI (from memory), and computed";
    for (size_t i = 0; i < sizeof book / sizeof *book; i++) {
        sw_shewhart k = sw_shewhart_of(book[i].n);
        sw_near(t, k.a2, book[i].a2, 6e-4, source);
        sw_near(t, k.a3, book[i].a3, 6e-4, source);
        sw_near(t, k.d2, book[i].d2, 6e-4, source);
        sw_near(t, k.d3, book[i].d3, 6e-4, source);
        sw_near(t, k.c4, book[i].c4, 6e-5, source);
        sw_near(t, k.D3, book[i].D3, 6e-4, source);
        sw_near(t, k.D4, book[i].D4, 6e-4, source);
        sw_near(t, k.B3, book[i].B3, 6e-4, source);
        sw_near(t, k.B4, book[i].B4, 6e-4, source);
    }
    sw_true(t, isnan(sw_shewhart_of(1).d2) && isnan(sw_shewhart_of(26).d2));
}

static void range_of_two_in_closed_form(sw_test *t)
{
    sw_shewhart k = sw_shewhart_of(2);
    sw_near(t, k.d2, 2 / sqrt(SW_PI), 1e-6, "derived: mean of |x - y|");
    sw_near(t, k.d3, sqrt(2 - 4 / SW_PI), 1e-6, "derived: spread of |x - y|");
    sw_near(t, sw_shewhart_of(3).d2, 3 / sqrt(SW_PI), 1e-6, "derived: mean range of three");
}

SW_TESTS(SW_CASE(chain_of_four_by_each_rule), SW_CASE(sensitivities_count_without_their_sign),
         SW_CASE(error_of_a_counted_share), SW_CASE(quantiles_undo_shares), SW_CASE(capability_of_montgomerys_example),
         SW_CASE(cpk_takes_the_nearer_limit), SW_CASE(parts_beyond_the_nearer_limit),
         SW_CASE(chi_square_meets_its_tables), SW_CASE(general_tolerances_of_iso_2768),
         SW_CASE(general_tolerances_of_weldments), SW_CASE(standard_tolerances_of_diameters),
         SW_CASE(proof_of_conformity_leaves_a_guard_band), SW_CASE(letters_and_samples_of_lots),
         SW_CASE(acceptance_numbers_and_their_arrows), SW_CASE(operating_characteristics),
         SW_CASE(shewhart_constants_by_integration), SW_CASE(range_of_two_in_closed_form))
