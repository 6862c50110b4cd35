/* The NIOSH equation, slings, hoists, tipping: single formulas. */
#include "making/heft/heft.h"
#include "sw_test.h"

#include <math.h>

static const double inch_mm = 25.4, pound_kg = 0.45359237;

static sw_niosh_task in_inches(double h, double v, double d, double turn_deg)
{
    sw_niosh_task task = {.h_mm = h * inch_mm, .v_mm = v * inch_mm, .d_mm = d * inch_mm, .per_min = 0.2};
    task.turn_rad = sw_rad_from_deg(turn_deg);
    task.spell = SW_SPELL_1_H;
    task.coupling = SW_COUPLING_FAIR;
    return task;
}

static double pounds(const sw_niosh_task *task, sw_niosh_form form)
{
    return sw_niosh_limit(task, form).rwl_kg / pound_kg;
}

static void punch_press_stock_has_the_limits_of_the_manual(sw_test *t)
{
    const char *source = "handbook W9.1: NIOSH 94-110, loading punch press stock";
    sw_niosh_task from = in_inches(23, 15, 48, 0), to = in_inches(23, 63, 48, 0);
    sw_niosh at_start = sw_niosh_limit(&from, SW_NIOSH_INCH_TABLE);
    sw_near(t, at_start.hm, 0.44, 1e-12, source);
    sw_near(t, at_start.vm, 0.89, 1e-12, source);
    sw_near(t, at_start.dm, 0.86, 1e-12, source);
    sw_near(t, at_start.cm, 0.95, 1e-12, source);
    sw_near(t, pounds(&from, SW_NIOSH_INCH_TABLE), 16.3, 0.05, source);
    sw_near(t, pounds(&to, SW_NIOSH_INCH_TABLE), 14.5, 0.05, source);
    sw_near(t, sw_niosh_index(44 * pound_kg, sw_niosh_limit(&from, SW_NIOSH_INCH_TABLE).rwl_kg), 2.7, 0.05, source);
    sw_near(t, sw_niosh_index(44 * pound_kg, sw_niosh_limit(&to, SW_NIOSH_INCH_TABLE).rwl_kg), 3.0, 0.05, source);
    sw_near(t, pounds(&from, SW_NIOSH_INCH), 16.03, 5e-3, "handbook W9.1, multipliers not rounded");
    sw_near(t, pounds(&to, SW_NIOSH_INCH), 14.31, 5e-3, "handbook W9.1, multipliers not rounded");
}

static void bags_into_a_hopper_have_the_limit_of_the_manual(sw_test *t)
{
    const char *source = "handbook W9.2: NIOSH 94-110, product packaging";
    sw_niosh_task task = in_inches(18, 15, 21, 45);
    sw_near(t, pounds(&task, SW_NIOSH_INCH_TABLE), 18.9, 0.05, source);
    sw_near(t, sw_niosh_index(40 * pound_kg, sw_niosh_limit(&task, SW_NIOSH_INCH_TABLE).rwl_kg), 2.1, 0.05, source);
    sw_near(t, pounds(&task, SW_NIOSH_INCH), 18.52, 5e-3, "handbook W9.2, multipliers not rounded");
}

static void printed_tables_come_out(sw_test *t)
{
    const char *source = "handbook 9.1: NIOSH 94-110, printed tables";
    static const double turn_deg[] = {0, 15, 30, 45, 60, 75, 90, 105, 120, 135};
    static const double am[] = {1, .95, .90, .86, .81, .76, .71, .66, .62, .57};
    for (int i = 0; i < 10; i++) {
        sw_niosh_task task = in_inches(10, 30, 10, turn_deg[i]);
        sw_near(t, sw_niosh_limit(&task, SW_NIOSH_INCH_TABLE).am, am[i], 1e-12, source);
    }
    sw_niosh_task floor_task = in_inches(10, 0, 10, 0), high = in_inches(10, 70, 10, 0);
    sw_near(t, sw_niosh_limit(&floor_task, SW_NIOSH_INCH_TABLE).vm, 0.78, 1e-12, source);
    sw_near(t, sw_niosh_limit(&high, SW_NIOSH_INCH_TABLE).vm, 0.70, 1e-12, source);
    sw_niosh_task cm = {.h_mm = 420, .v_mm = 750, .d_mm = 250, .per_min = 10, .spell = SW_SPELL_8_H};
    sw_near(t, sw_niosh_limit(&cm, SW_NIOSH_CM_TABLE).hm, 0.60, 1e-12, source);
    cm.h_mm = 421;
    sw_near(t, sw_niosh_limit(&cm, SW_NIOSH_CM_TABLE).hm, 0.57, 1e-12, "handbook 9.1; ours: between rows the worse");
    sw_near(t, sw_niosh_limit(&cm, SW_NIOSH_CM_TABLE).fm, 0.13, 1e-12,
            "handbook 9.1: 10 lifts a minute, long, hands above 75 cm (Canadian OHS centre's example)");
    cm.v_mm = 700;
    sw_near(t, sw_niosh_limit(&cm, SW_NIOSH_CM_TABLE).fm, 0, 0, source);
}

static void best_lift_is_the_load_constant_and_nothing_is_better(sw_test *t)
{
    sw_niosh_task best = {.h_mm = 250, .v_mm = 750, .d_mm = 250, .per_min = 0.2};
    sw_near(t, sw_niosh_limit(&best, SW_NIOSH_CM).rwl_kg, 23, 1e-12, "handbook 9.1: load constant");
    sw_random r = sw_random_seeded(11);
    for (int i = 0; i < 2000; i++) {
        sw_niosh_task task = {.h_mm = sw_random_between(&r, 1, 800), .v_mm = sw_random_between(&r, 0, 2000)};
        task.d_mm = sw_random_between(&r, 0, 2000);
        task.turn_rad = sw_random_between(&r, -3, 3);
        task.per_min = sw_random_between(&r, 0, 20);
        task.spell = (sw_lift_spell)sw_random_below(&r, 3);
        task.coupling = (sw_coupling)sw_random_below(&r, 3);
        sw_niosh here = sw_niosh_limit(&task, SW_NIOSH_CM), tabled = sw_niosh_limit(&task, SW_NIOSH_CM_TABLE);
        if (!sw_true(t, here.rwl_kg >= 0 && here.rwl_kg <= 23 && tabled.rwl_kg >= 0 && tabled.rwl_kg <= 23)) return;
        sw_niosh_task farther = task, oftener = task;
        farther.h_mm += 30;
        oftener.per_min += 0.7;
        if (!sw_true(t, sw_niosh_limit(&farther, SW_NIOSH_CM).rwl_kg <= here.rwl_kg)) return;
        if (!sw_true(t, sw_niosh_limit(&oftener, SW_NIOSH_CM).rwl_kg <= here.rwl_kg)) return;
    }
}

static void beyond_its_limits_nothing_may_be_lifted(sw_test *t)
{
    sw_niosh_task far = {.h_mm = 640, .v_mm = 750, .d_mm = 250, .per_min = 0.2}, wrong = far;
    sw_near(t, sw_niosh_limit(&far, SW_NIOSH_CM).rwl_kg, 0, 0, "handbook 9.1: H above 63 cm");
    sw_true(t, isinf(sw_niosh_index(1, 0)));
    wrong.h_mm = 0;
    sw_true(t, isnan(sw_niosh_limit(&wrong, SW_NIOSH_CM).rwl_kg));
    wrong = far;
    wrong.v_mm = -1;
    sw_true(t, isnan(sw_niosh_limit(&wrong, SW_NIOSH_CM).rwl_kg));
}

static void reference_masses_are_those_of_the_standard(sw_test *t)
{
    const char *source = "ISO 11228-1, reference masses (from memory)";
    sw_near(t, sw_reference_mass_kg(SW_PEOPLE_MIXED), 25, 0, source);
    sw_near(t, sw_reference_mass_kg(SW_PEOPLE_GENERAL), 15, 0, source);
    sw_near(t, sw_reference_mass_kg(SW_PEOPLE_FRAIL), 10, 0, source);
}

static void two_legs_pull_as_in_the_handbook(sw_test *t)
{
    sw_near(t, sw_sling_leg_n(150, 2, sw_rad_from_deg(30)), 849.3, 0.05, "handbook W9.3");
    sw_near(t, sw_sling_leg_n(150, 2, sw_rad_from_deg(45)), 1040.2, 0.05, "handbook W9.3");
    sw_near(t, sw_sling_leg_n(150, 2, sw_rad_from_deg(60)) / sw_sling_leg_n(150, 2, 0), 2, 1e-9, "handbook 9.3");
    sw_near(t, sw_sling_pull_n(150, 2, sw_rad_from_deg(45)), 150 * SW_GRAVITY / 2, 1e-9, "derived: tan 45 = 1");
    sw_true(t, isnan(sw_sling_leg_n(150, 2, sw_rad_from_deg(61))));
    for (double a = 0; a <= 60; a += 7.5) { /* pull, weight and level pull close a triangle */
        double beta = sw_rad_from_deg(a), leg = sw_sling_leg_n(80, 4, beta), pull = sw_sling_pull_n(80, 4, beta);
        sw_near(t, hypot(pull, 80 * SW_GRAVITY / 4), leg, 1e-9, "derived: forces in one leg");
    }
}

static void mode_factors_are_those_of_the_table(sw_test *t)
{
    const char *source = "handbook 9.3: EN 818-4 (from memory) and a sling table (found)";
    double steep = sw_rad_from_deg(45), wide = sw_rad_from_deg(60);
    sw_near(t, sw_sling_mode_factor(SW_HITCH_STRAIGHT, 2, steep), 1.4, 0, source);
    sw_near(t, sw_sling_mode_factor(SW_HITCH_STRAIGHT, 2, wide), 1.0, 0, source);
    sw_near(t, sw_sling_mode_factor(SW_HITCH_STRAIGHT, 4, steep), 2.1, 0, source);
    sw_near(t, sw_sling_mode_factor(SW_HITCH_STRAIGHT, 3, wide), 1.5, 0, source);
    sw_near(t, sw_sling_mode_factor(SW_HITCH_CHOKE, 1, 0), 0.8, 0, source);
    sw_near(t, sw_sling_mode_factor(SW_HITCH_BASKET, 1, 0), 2.0, 0, source);
    sw_true(t, isnan(sw_sling_mode_factor(SW_HITCH_STRAIGHT, 2, sw_rad_from_deg(70))));
    sw_true(t, isnan(sw_sling_mode_factor(SW_HITCH_STRAIGHT, 5, 0)));
    sw_near(t, sw_sling_legs_counted(4), 2, 0, "common practice, no source");
}

static void loads_on_two_points_add_up_and_balance(sw_test *t)
{
    for (double e = 0; e <= 600; e += 60) {
        double a = sw_pick_load_n(90, 600, e), b = sw_pick_load_n(90, 600, 600 - e);
        sw_near(t, a + b, 90 * SW_GRAVITY, 1e-9, "derived: forces balance");
        sw_near(t, a * e, b * (600 - e), 1e-6, "derived: moments balance");
    }
    sw_true(t, isnan(sw_pick_load_n(90, 600, 601)));
}

static void hoist_of_the_handbook_is_of_250_kg(sw_test *t)
{
    sw_near(t, sw_hoist_need_kg(145, 12, 1.15), 180.6, 0.06, "handbook 9.5");
    sw_near(t, sw_hoist_size_kg(sw_hoist_need_kg(145, 12, 1.15)), 250, 0, "handbook 9.5");
    sw_true(t, isnan(sw_hoist_size_kg(3000)) && isnan(sw_hoist_need_kg(100, 0, 0.9)));
}

static void stop_and_push_tip_at_the_angle_of_the_slope(sw_test *t)
{
    double e_mm = 210, h_mm = 413.92, angle = sw_tip_angle_rad(e_mm, h_mm);
    sw_near(t, sw_tip_stop_m_s2(e_mm, h_mm), SW_GRAVITY * tan(angle), 1e-12, "derived: a/g = tan of the tip angle");
    sw_near(t, sw_tip_push_n(125, e_mm, h_mm), 125 * sw_tip_stop_m_s2(e_mm, h_mm), 1e-9,
            "derived: a push at the centre of gravity is m a");
    sw_near(t, sw_tip_stop_m_s2(-5, h_mm), 0, 0, "derived: a centre beside its support tips by itself");
    sw_true(t, isnan(sw_tip_push_n(125, e_mm, 0)));
}

SW_TESTS(SW_CASE(punch_press_stock_has_the_limits_of_the_manual),
         SW_CASE(bags_into_a_hopper_have_the_limit_of_the_manual), SW_CASE(printed_tables_come_out),
         SW_CASE(best_lift_is_the_load_constant_and_nothing_is_better),
         SW_CASE(beyond_its_limits_nothing_may_be_lifted), SW_CASE(reference_masses_are_those_of_the_standard),
         SW_CASE(two_legs_pull_as_in_the_handbook), SW_CASE(mode_factors_are_those_of_the_table),
         SW_CASE(loads_on_two_points_add_up_and_balance), SW_CASE(hoist_of_the_handbook_is_of_250_kg),
         SW_CASE(stop_and_push_tip_at_the_angle_of_the_slope))
