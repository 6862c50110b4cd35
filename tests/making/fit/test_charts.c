/* Control charts: the textbook's piston rings, run rules, and the table of measured values. */
#include "making/fit/fit.h"
#include "sw_test.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { SAMPLES = 25, SIZE = 5 };

/* Deviations from 74.000 mm in micrometres: handbook W8.5, Montgomery's piston rings. */
static const double rings_um[SAMPLES][SIZE] = {
    {30, 2, 19, -8, 8},    {-5, -8, 1, 11, 4},  {-12, 24, 21, 5, 2},   {2, -4, -7, 15, 9},   {-8, 7, 15, -11, 14},
    {9, -6, -3, -15, -7},  {-5, 6, -6, 0, 5},   {-15, 3, -7, 15, -12}, {8, -5, 9, 5, 4},     {-2, 0, -10, 7, -5},
    {-6, -2, -6, -5, -10}, {4, 0, 7, 0, -4},    {-17, 2, -2, -3, 12},  {6, -33, -6, 0, -16}, {12, 14, -2, -1, 7},
    {0, -16, 5, -2, -4},   {-6, 12, -14, 5, 7}, {6, 10, 18, 3, 0},     {-16, 2, 3, 5, -3},   {0, 10, 13, 20, 3},
    {-18, 1, 15, 5, -4},   {4, -1, -10, 6, 9},  {10, -11, -10, 9, 14}, {15, 8, -7, 0, 10},   {-18, -16, -5, 17, 13}};

static void rings(double *out)
{
    for (size_t i = 0; i < SAMPLES; i++)
        for (size_t k = 0; k < SIZE; k++) out[i * SIZE + k] = 74.0 + sw_m_from_mm(rings_um[i][k]);
}

static void piston_rings_with_ranges(sw_test *t)
{
    double values[SAMPLES * SIZE];
    sw_chart c;
    rings(values);
    sw_ok(t, sw_chart_make(&t->run, values, SAMPLES, SIZE, false, &c));
    const char *book = "handbook W8.5: Montgomery (from memory)", *computed = "handbook W8.5, computed";
    sw_near(t, c.mean, 74.001, 5e-4, book);
    sw_near(t, c.mean, 74.00118, 5e-6, computed);
    sw_near(t, c.spread_mean * SAMPLES, 0.581, 5e-5, book);
    sw_near(t, c.high, 74.014, 1e-3, book);
    sw_near(t, c.high, 74.01459, 2e-5, computed);
    sw_near(t, c.low, 73.98777, 2e-5, computed);
    sw_near(t, c.spread_high, 0.0491, 5e-5, computed);
    sw_near(t, sw_cp(73.95, 74.05, c.sigma), 1.668, 1e-3, computed);
    sw_near(t, sw_cpk(73.95, 74.05, c.mean, c.sigma), 1.629, 1e-3, computed);
    for (size_t i = 0; i < c.break_count; i++) sw_true(t, c.breaks[i].rule != SW_RULE_BEYOND);
}

static void piston_rings_with_standard_deviations(sw_test *t)
{
    double values[SAMPLES * SIZE];
    sw_chart c;
    rings(values);
    sw_ok(t, sw_chart_make(&t->run, values, SAMPLES, SIZE, true, &c));
    sw_near(t, c.spread_mean, 0.00940, 5e-6, "handbook W8.5, computed");
    sw_near(t, c.spread_high, 0.01964, 5e-6, "handbook W8.5, computed");
    sw_true(t, c.kind == SW_CHART_XBAR_S);
}

/* Samples of two about the wanted middles, each with a range of 2: sigma 1.773, of the middle 1.254. */
static sw_chart chart_of(sw_test *t, const double *middles, size_t count)
{
    double values[64];
    sw_chart c = {0};
    for (size_t i = 0; i < count; i++) {
        values[2 * i] = middles[i] - 1;
        values[2 * i + 1] = middles[i] + 1;
    }
    sw_ok(t, sw_chart_make(&t->run, values, count, 2, false, &c));
    return c;
}

static bool breaks(const sw_chart *c, sw_run_rule rule, size_t point)
{
    for (size_t i = 0; i < c->break_count; i++)
        if (c->breaks[i].rule == rule && c->breaks[i].point == point) return true;
    return false;
}

static size_t count_of(const sw_chart *c, sw_run_rule rule)
{
    size_t count = 0;
    for (size_t i = 0; i < c->break_count; i++) count += c->breaks[i].rule == rule ? 1 : 0;
    return count;
}

static void a_point_beyond_three_sigma_breaks_the_first_rule(sw_test *t)
{
    const double m[] = {0.5, -0.5, 0.5, -0.5, 0.5, -0.5, 6, -0.5, 0.5, -0.5, 0.5, -0.5, -6, 0};
    sw_chart c = chart_of(t, m, 14);
    sw_true(t, breaks(&c, SW_RULE_BEYOND, 6) && breaks(&c, SW_RULE_BEYOND, 12));
    sw_near(t, (double)count_of(&c, SW_RULE_BEYOND), 2, 0, "derived: two points");
}

static void two_of_three_beyond_two_sigma_break_the_second(sw_test *t)
{
    const double m[] = {0.1, -0.1, 3, 0.1, 3, -0.1, -3, -3, 0.1, -0.1};
    sw_chart c = chart_of(t, m, 10);
    sw_true(t, breaks(&c, SW_RULE_TWO_OF_THREE, 4) && breaks(&c, SW_RULE_TWO_OF_THREE, 7));
    sw_true(t, !breaks(&c, SW_RULE_TWO_OF_THREE, 2) && !breaks(&c, SW_RULE_TWO_OF_THREE, 6));
}

static void four_of_five_beyond_one_sigma_break_the_third(sw_test *t)
{
    const double m[] = {2, 2, -0.1, 2, 2, -2, 0.1, -2, -2, -2};
    sw_chart c = chart_of(t, m, 10);
    sw_true(t, breaks(&c, SW_RULE_FOUR_OF_FIVE, 4) && breaks(&c, SW_RULE_FOUR_OF_FIVE, 9));
    sw_near(t, (double)count_of(&c, SW_RULE_FOUR_OF_FIVE), 2, 0, "derived: two runs");
}

static void eight_on_one_side_and_six_rising_break_their_rules(sw_test *t)
{
    const double sided[] = {1, 0.5, 1, 0.5, 1, 0.5, 1, 0.5, -1, -0.5, -1, -0.5, -1, -0.5, -1, -0.5};
    sw_chart c = chart_of(t, sided, 16);
    sw_true(t, breaks(&c, SW_RULE_EIGHT, 7) && breaks(&c, SW_RULE_EIGHT, 15));
    const double rising[] = {-1, -0.6, -0.2, 0.2, 0.6, 1, 0, -0.1};
    c = chart_of(t, rising, 8);
    sw_true(t, breaks(&c, SW_RULE_TREND, 5));
    sw_near(t, (double)count_of(&c, SW_RULE_TREND), 1, 0, "derived: one trend");
}

static void single_values_go_by_moving_ranges(sw_test *t)
{
    const double values[] = {10, 11, 10, 12, 11};
    sw_chart c;
    sw_ok(t, sw_chart_make(&t->run, values, 5, 1, false, &c));
    sw_near(t, c.spread_mean, 1.25, 1e-12, "derived: (1 + 1 + 2 + 1)/4");
    sw_near(t, c.sigma, 1.25 / 1.128, 1e-3, "Montgomery: MR/d2(2)");
    sw_near(t, c.high - c.mean, 3 * c.sigma, 1e-12, "Montgomery: 3 MR/d2");
}

static void too_few_samples_make_no_chart(sw_test *t)
{
    const double values[4] = {1, 2, 3, 4};
    sw_chart c;
    sw_true(t, sw_chart_make(&t->run, values, 1, 4, false, &c) == SW_OUT_OF_RANGE);
    sw_true(t, sw_chart_make(&t->run, values, 2, 1, false, &c) == SW_OUT_OF_RANGE);
    sw_true(t, sw_chart_make(&t->run, values, 1, 26, false, &c) == SW_OUT_OF_RANGE);
}

/* ---- the table ---- */

static const char ring_lines_head[] = "piece,feature,sample,value,lower,upper\n";

static void measured_rings_give_the_same_capability(sw_test *t)
{
    char text[8192];
    size_t n = sizeof ring_lines_head - 1;
    memcpy(text, ring_lines_head, n);
    for (size_t i = 0; i < SAMPLES; i++)
        for (size_t k = 0; k < SIZE; k++)
            n += (size_t)snprintf(text + n, sizeof text - n, "ring,diameter,%zu,%.3f,73.95,74.05\n", i + 1,
                                  74.0 + sw_m_from_mm(rings_um[i][k]));
    sw_fit_measured m;
    if (!sw_ok(t, sw_fit_read_measured(&t->run, NULL, "rings.csv", text, n, &m))) return;
    sw_near(t, (double)m.feature_count, 1, 0, "as written");
    sw_near(t, m.features[0].cpk, 1.629, 1e-3, "handbook W8.5, computed");
    sw_near(t, (double)m.features[0].count, 125, 0, "as written");
    sw_true(t, m.features[0].cpk_interval.low < 1.629 && m.features[0].cpk_interval.high > 1.629);
}

static void samples_may_be_mixed_and_features_many(sw_test *t)
{
    const char *text = "feature;piece;value;sample\nwidth;A;1,0;1\nheight;A;5,0;1\nwidth;A;2,0;2\nwidth;A;1,5;1\n"
                       "width;A;2,5;2\nheight;A;6;1\nheight;A;7;2\n";
    sw_fit_measured m;
    if (!sw_ok(t, sw_fit_read_measured(&t->run, NULL, "m.csv", text, strlen(text), &m))) return;
    sw_near(t, (double)m.feature_count, 2, 0, "as written");
    sw_true(t, m.features[0].charted && m.features[0].chart.count == 2 && m.features[0].chart.size == 2);
    sw_near(t, m.features[0].chart.middle[0], 1.25, 1e-12, "derived: mean of 1.0 and 1.5");
    sw_true(t, !m.features[1].charted && isnan(m.features[1].cpk));
    sw_contains(t, m.features[1].why, "not all of one size");
}

static void every_wrong_line_is_told(sw_test *t)
{
    const char *text = "piece,feature,sample,value,lower,upper\nA,width,1,abc,0,2\nA,,1,1,0,2\nA,width,,1,0,2\n"
                       "A,width,1,1,2,0\nA,width,1,1\nA,width,1,1,0,2\nA,width,1,1,0,3\n";
    sw_fit_measured m;
    sw_true(t, sw_fit_read_measured(&t->run, NULL, "m.csv", text, strlen(text), &m) == SW_BAD_INPUT);
    sw_near(t, (double)t->run.error_count, 6, 0, "derived: six wrong lines");
    sw_true(t, m.feature_count == 0);
    bool lines[9] = {false};
    for (size_t i = 0; i < t->run.error_count; i++) lines[t->run.errors[i].place.line] = true;
    sw_true(t, lines[2] && lines[3] && lines[4] && lines[5] && lines[6] && !lines[7] && lines[8]);
}

static void missing_columns_and_unknown_pieces_are_told(sw_test *t)
{
    const sw_piece piece = {.number = "A-01", .name = "left"};
    const sw_stove stove = {.pieces = &piece, .piece_count = 1};
    sw_fit_measured m;
    const char *none = "piece,value\nA,1\n";
    sw_true(t, sw_fit_read_measured(&t->run, NULL, "m.csv", none, strlen(none), &m) == SW_BAD_INPUT);
    sw_near(t, (double)t->run.error_count, 2, 0, "derived: feature and sample are missing");
    sw_run_clear_errors(&t->run);
    const char *wrong = "piece,feature,sample,value\nA-01,w,1,1\nleft,w,1,1\nA-01 left,w,1,1\nA-99,w,1,1\n";
    sw_true(t, sw_fit_read_measured(&t->run, &stove, "m.csv", wrong, strlen(wrong), &m) == SW_BAD_INPUT);
    sw_near(t, (double)t->run.error_count, 1, 0, "derived: one unknown piece");
    sw_contains(t, t->run.errors[0].text, "A-99");
    sw_run_clear_errors(&t->run);
    const char *mixed = "piece,feature,sample,value\nA-01,w,1,1\nA-01 right,w,1,1\nA-01left,w,1,1\n";
    sw_true(t, sw_fit_read_measured(&t->run, &stove, "m.csv", mixed, strlen(mixed), &m) == SW_BAD_INPUT);
    sw_near(t, (double)t->run.error_count, 2, 0, "derived: a wrong name, and no space between");
}

static void a_piece_may_be_called_as_the_plan_prints_it(sw_test *t)
{
    const sw_piece piece = {.number = "A-17", .name = "rear jacket"};
    const sw_stove stove = {.pieces = &piece, .piece_count = 1};
    sw_fit_measured m;
    const char *text = "piece,feature,sample,value\nA-17 rear jacket,w,1,1\nrear jacket,w,2,1\nA-17,w,3,1\n";
    if (!sw_ok(t, sw_fit_read_measured(&t->run, &stove, "m.csv", text, strlen(text), &m))) return;
    sw_near(t, (double)m.feature_count, 1, 0, "derived: one piece by three names");
    sw_same_text(t, m.features[0].piece, "A-17");
}

SW_TESTS(SW_CASE(piston_rings_with_ranges), SW_CASE(piston_rings_with_standard_deviations),
         SW_CASE(a_point_beyond_three_sigma_breaks_the_first_rule),
         SW_CASE(two_of_three_beyond_two_sigma_break_the_second),
         SW_CASE(four_of_five_beyond_one_sigma_break_the_third),
         SW_CASE(eight_on_one_side_and_six_rising_break_their_rules), SW_CASE(single_values_go_by_moving_ranges),
         SW_CASE(too_few_samples_make_no_chart), SW_CASE(measured_rings_give_the_same_capability),
         SW_CASE(samples_may_be_mixed_and_features_many), SW_CASE(every_wrong_line_is_told),
         SW_CASE(missing_columns_and_unknown_pieces_are_told), SW_CASE(a_piece_may_be_called_as_the_plan_prints_it))
