/* Handbook values of planning and cost. */
#include "making/line/line.h"
#include "sw_test.h"

#include <math.h>

static void takt_and_work_under_way_of_the_worked_example(sw_test *t)
{
    const char *source = "workshop handbook W12.1, computed";
    double takt_s = sw_takt_s(sw_s_from_min(450), 36);
    sw_near(t, sw_min_from_s(takt_s), 12.5, 1e-12, source);
    double day_s = 1;
    sw_near(t, sw_little_flow_s(18, 3 / day_s), 6, 1e-12, source);
    sw_near(t, sw_little_under_way(3 / day_s, 6), 18, 1e-12, source);
    sw_true(t, isnan(sw_takt_s(100, 0)) && isnan(sw_takt_s(-1, 3)) && isnan(sw_little_flow_s(3, 0)));
}

static void oee_of_the_worked_example_equals_good_time_over_planned(sw_test *t)
{
    const char *source = "workshop handbook W12.2, computed";
    sw_oee o = sw_oee_of(sw_s_from_min(460), sw_s_from_min(47), sw_s_from_min(1.5), 242, 21);
    sw_near(t, o.availability, 0.8978, 5e-5, source);
    sw_near(t, o.performance, 0.8789, 5e-5, source);
    sw_near(t, o.quality, 0.9132, 5e-5, source);
    sw_near(t, o.all, 0.7207, 5e-5, source);
    sw_near(t, o.all, 221 * 1.5 / 460, 1e-12, "derived: good pieces x ideal time over planned time");
    sw_oee wanted = sw_oee_of(100, 10, 0.95 * 90 / 1000, 1000, 1);
    sw_near(t, wanted.all, 0.854, 5e-4, "Nakajima's target (from memory)");
    sw_true(t, isnan(sw_oee_of(100, 100, 1, 1, 0).all) && isnan(sw_oee_of(100, 0, 1, 3, 4).all));
}

static void learning_curve_of_the_worked_example(sw_test *t)
{
    const char *source = "workshop handbook W12.3, computed; Wright 1936";
    sw_near(t, sw_learning_s(100, 0.8, 1), 100, 1e-9, source);
    sw_near(t, sw_learning_s(100, 0.8, 2), 80, 1e-9, source);
    sw_near(t, sw_learning_s(100, 0.8, 4), 64, 1e-9, source);
    sw_near(t, sw_learning_s(100, 0.8, 8), 51.2, 1e-9, source);
    sw_near(t, sw_learning_s(100, 0.8, 10), 47.651, 5e-4, source);
    sw_near(t, sw_learning_total_s(100, 0.8, 10), 631.54, 5e-3, source);
    sw_near(t, sw_learning_total_s(7, 1, 5), 35, 1e-12, "derived: without learning all take as long");
    sw_true(t, isnan(sw_learning_s(100, 1.2, 3)) && isnan(sw_learning_s(100, 0.8, 0)));
}

static void waiting_by_kingman_is_exact_for_poisson_arrivals_and_service(sw_test *t)
{
    const char *source = "M/M/1: W = u/(1 - u) t, any text on queues";
    sw_near(t, sw_queue_s(1, 1, 0.8, 10, 1), 40, 1e-9, source);
    sw_near(t, sw_queue_s(1, 0, 0.8, 10, 1), 20, 1e-9, "M/D/1: half of M/M/1");
    sw_near(t, sw_queue_s(0, 0, 0.8, 10, 1), 0, 0, "derived: nothing varies, nothing waits");
    sw_near(t, sw_queue_s(1, 1, 0, 10, 1), 0, 0, "derived: no load, no wait");
    sw_true(t, sw_queue_s(1, 1, 0.8, 10, 2) < sw_queue_s(1, 1, 0.8, 10, 1) / 2);
    sw_near(t, sw_queue_s(1, 1, 0.8, 10, 2), 17.78, 0.8, "M/M/2 at u 0.8: C(2, a)/(m (1 - u)) t = 17.78 (Erlang)");
    sw_true(t, isnan(sw_queue_s(1, 1, 1, 10, 1)) && isnan(sw_queue_s(1, 1, -0.1, 10, 1)));
}

static void bounds_of_the_balance_are_those_of_the_tables(sw_test *t)
{
    const char *source = "workshop handbook 12.2: sums and longest tasks of the published sets";
    sw_near(t, sw_balance_stations_least(75, 17, 20), 4, 0, source);
    const double kilbridge_s[] = {57, 79, 92, 110, 138, 184}, least[] = {10, 7, 6, 6, 4, 3};
    for (int i = 0; i < 6; i++) sw_near(t, sw_balance_stations_least(552, 55, kilbridge_s[i]), least[i], 0, source);
    const double tonge_s[] = {364, 410, 468, 527}, tonge[] = {10, 9, 8, 7};
    for (int i = 0; i < 4; i++) sw_near(t, sw_balance_stations_least(3510, 156, tonge_s[i]), tonge[i], 0, source);
    sw_near(t, sw_balance_cycle_least_s(46, 7, 7), 7, 0, source);
    sw_near(t, sw_balance_cycle_least_s(46, 7, 4), 11.5, 0, source);
    sw_near(t, sw_balance_efficiency(46, 5, 10), 0.92, 1e-12, "workshop handbook W12.4, computed");
    sw_true(t, isnan(sw_balance_stations_least(75, 17, 16)));
}

static void unit_cost_of_the_worked_example(sw_test *t)
{
    const char *source = "workshop handbook W12.7, computed";
    const double run_min[] = {6.5, 14, 9, 38, 12, 25, 40}, run_h[] = {95, 52, 48, 50, 46, 44, 42};
    const double up_min[] = {12, 25, 15, 10, 20}, up_h[] = {95, 52, 48, 50, 44};
    double run = 0, up = 0;
    for (int i = 0; i < 7; i++) run += sw_h_from_s(sw_s_from_min(run_min[i])) * run_h[i];
    for (int i = 0; i < 5; i++) up += sw_h_from_s(sw_s_from_min(up_min[i])) * up_h[i];
    sw_near(t, run, 116.825, 5e-4, source);
    sw_near(t, up, 75.667, 5e-4, source);
    sw_unit_cost c = sw_unit_cost_of(112.40, up, 8, run, 0, 0.18);
    sw_near(t, c.set_up, 9.458, 5e-4, source);
    sw_near(t, c.unit, 238.683, 5e-4, source);
    sw_near(t, c.base, 281.646, 5e-4, source);
    sw_true(t, isnan(sw_unit_cost_of(1, 1, 0, 1, 0, 0).unit));
}

SW_TESTS(SW_CASE(takt_and_work_under_way_of_the_worked_example),
         SW_CASE(oee_of_the_worked_example_equals_good_time_over_planned),
         SW_CASE(learning_curve_of_the_worked_example),
         SW_CASE(waiting_by_kingman_is_exact_for_poisson_arrivals_and_service),
         SW_CASE(bounds_of_the_balance_are_those_of_the_tables), SW_CASE(unit_cost_of_the_worked_example))
