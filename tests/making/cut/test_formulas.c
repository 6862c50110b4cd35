/* Handbook values of thermal cutting. */
#include "making/cut/cut.h"
#include "sw_test.h"

#include <math.h>

static void ranges_of_iso_9013_at_6_mm(sw_test *t)
{
    const char *source = "ISO 9013:2017 tables 4 and 5 (from memory), a = 6 mm";
    sw_near(t, sw_iso9013_u_mm(1, 6), 0.068, 5e-4, source);
    sw_near(t, sw_iso9013_u_mm(2, 6), 0.192, 5e-4, source);
    sw_near(t, sw_iso9013_u_mm(3, 6), 0.460, 5e-4, source);
    sw_near(t, sw_iso9013_rz5_um(1, 6), 13.6, 5e-2, source);
    sw_near(t, sw_iso9013_rz5_um(2, 6), 44.8, 5e-2, source);
    sw_near(t, sw_iso9013_rz5_um(3, 6), 77.2, 5e-2, source);
    sw_true(t, isnan(sw_iso9013_u_mm(0, 6)) && isnan(sw_iso9013_u_mm(6, 6)) && isnan(sw_iso9013_rz5_um(5, 6)));
}

static void deviations_of_iso_9013_by_class_thickness_and_size(sw_test *t)
{
    const char *source = "ISO 9013:2017, limit deviations (published reproduction)";
    sw_near(t, sw_iso9013_deviation_mm(1, 4, 400), 0.40, 1e-9, source);
    sw_near(t, sw_iso9013_deviation_mm(1, 1, 2), 0.075, 1e-9, source);
    sw_near(t, sw_iso9013_deviation_mm(1, 3.15, 35), 0.25, 1e-9, source);
    sw_near(t, sw_iso9013_deviation_mm(1, 10, 3999), 0.75, 1e-9, source);
    sw_near(t, sw_iso9013_deviation_mm(2, 5, 200), 1.1, 1e-9, source);
    sw_true(t, isnan(sw_iso9013_deviation_mm(2, 0.8, 100)));
    sw_true(t, isnan(sw_iso9013_deviation_mm(1, 8, 2)));
    sw_true(t, isnan(sw_iso9013_deviation_mm(1, 12, 100)));
    sw_true(t, isnan(sw_iso9013_deviation_mm(1, 4, 4000)));
    sw_true(t, isnan(sw_iso9013_deviation_mm(3, 4, 100)));
}

static void common_cuts_save_inner_edges(sw_test *t)
{
    sw_near(t, sw_common_cut_length_mm(10, 100, 60), 2660, 1e-9, "derived: 10 x 2 x 100 + 11 x 60");
    sw_near(t, sw_common_cut_length_mm(1, 100, 60), 320, 1e-9, "derived: a single rectangle, 2 (w + h)");
    sw_near(t, sw_kerf_offset_mm(0.3), 0.15, 1e-12, "derived: half the kerf");
}

static void energy_balance_gives_the_speed(sw_test *t)
{
    double v_mm_s = sw_laser_speed_mm_s(0.30, 2000, 7850, 1.25e6, 0.3, 3);
    sw_near(t, sw_m_min_from_mm_s(v_mm_s), 4.08, 5e-3, "workshop handbook W4.1: energy balance, density 7850 kg/m3");
    sw_true(t, isnan(sw_laser_speed_mm_s(0.3, 2000, 7850, 1.25e6, 0, 3)));
}

static void corners_are_run_at_the_speed_the_axes_hold(sw_test *t)
{
    double accel_mm_s2 = sw_mm_from_m(10);
    sw_near(t, sw_m_min_from_mm_s(sw_corner_speed_mm_s(2, accel_mm_s2)), 8.49, 5e-3, "handbook 4.3: sqrt(a r), r 2 mm");
    sw_near(t, sw_m_min_from_mm_s(sw_corner_speed_mm_s(0.5, accel_mm_s2)), 4.24, 5e-3,
            "handbook 4.3: sqrt(a r), r 0.5 mm");
}

static void straight_moves_from_rest_to_rest(sw_test *t)
{
    double v_mm_s = sw_mm_s_from_m_min(60), a_mm_s2 = sw_mm_from_m(10);
    sw_near(t, sw_move_time_s(400, v_mm_s, a_mm_s2), 0.500, 5e-4, "handbook 4.3: 400 mm, 60 m/min, 10 m/s2");
    sw_near(t, sw_move_time_s(50, v_mm_s, a_mm_s2), 0.1414, 5e-5, "handbook 4.3: 50 mm, 60 m/min, 10 m/s2");
    sw_near(t, sw_move_time_s(0, v_mm_s, a_mm_s2), 0, 0, "derived: no way, no time");
    double at = v_mm_s * v_mm_s / a_mm_s2;
    sw_near(t, sw_move_time_s(at * (1 - 1e-12), v_mm_s, a_mm_s2), sw_move_time_s(at, v_mm_s, a_mm_s2), 1e-9,
            "derived: both branches meet at d = v2/a");
}

static void nitrogen_is_choked_in_the_nozzle(sw_test *t)
{
    double p0_pa = 101325.0 + 12e5;
    double flow = sw_nozzle_flow_kg_s(1, 2.0, p0_pa, 101325.0, sw_k_from_c(20), 296.8, 1.4);
    sw_true(t, sw_nozzle_choked(p0_pa, 101325.0, 1.4));
    sw_near(t, flow, 9.490e-3, 5e-6, "handbook W4.2: N2, 12 bar gauge, 2.0 mm, 20 C");
    sw_near(t, flow / sw_h_from_s(1), 34.16, 2e-2, "handbook W4.2: kg/h");
    sw_near(t, sw_normal_m3_s(flow, 296.8) / sw_h_from_s(1), 27.3, 5e-2, "handbook W4.2: m3/h at 0 C, 1.013 bar");
}

static void oxygen_at_half_a_bar_is_not_choked(sw_test *t)
{
    double p0_pa = 101325.0 + 0.5e5;
    double flow = sw_nozzle_flow_kg_s(1, 1.5, p0_pa, 101325.0, sw_k_from_c(20), 259.8, 1.4);
    sw_true(t, !sw_nozzle_choked(p0_pa, 101325.0, 1.4));
    sw_near(t, flow, 0.633e-3, 1e-6, "handbook W4.2: O2, 0.5 bar gauge, 1.5 mm, subsonic form");
    sw_near(t, sw_normal_m3_s(flow, 259.8) / sw_h_from_s(1), 1.60, 5e-3, "handbook W4.2: m3/h");
    sw_near(t, sw_nozzle_flow_kg_s(1, 1.5, p0_pa, p0_pa, 293, 259.8, 1.4), 0, 1e-15, "derived: no drop, no flow");
    sw_true(t, isnan(sw_nozzle_flow_kg_s(1, 1.5, 1e5, 2e5, 293, 259.8, 1.4)));
}

static void choked_and_subsonic_forms_meet_at_the_critical_ratio(sw_test *t)
{
    double p0_pa = 5e5, critical_pa = p0_pa * pow(2 / 2.4, 3.5);
    double below = sw_nozzle_flow_kg_s(0.9, 1.5, p0_pa, critical_pa * (1 - 1e-9), 293, 259.8, 1.4);
    double above = sw_nozzle_flow_kg_s(0.9, 1.5, p0_pa, critical_pa * (1 + 1e-9), 293, 259.8, 1.4);
    sw_near(t, above / below, 1, 1e-9, "derived: both forms agree at the critical pressure ratio");
}

static void time_and_cost_of_a_sheet(sw_test *t)
{
    double time_s =
        sw_cut_time_s(sw_mm_from_m(3.4), sw_mm_s_from_m_min(3), 5, 0.5, sw_mm_from_m(2.5), sw_mm_s_from_m_min(60));
    sw_near(t, sw_min_from_s(time_s), 1.2167, 5e-5, "handbook W4.3: minutes");
    sw_near(t, 95 * sw_h_from_s(time_s), 1.926, 5e-4, "handbook W4.3: cost");
    sw_near(t, sw_cut_cost_per_m(95, time_s, sw_mm_from_m(3.4)), 0.567, 5e-4, "handbook W4.3: cost per metre");
    sw_true(t, isnan(sw_cut_cost_per_m(95, time_s, 0)));
}

SW_TESTS(SW_CASE(ranges_of_iso_9013_at_6_mm), SW_CASE(deviations_of_iso_9013_by_class_thickness_and_size),
         SW_CASE(common_cuts_save_inner_edges), SW_CASE(energy_balance_gives_the_speed),
         SW_CASE(corners_are_run_at_the_speed_the_axes_hold), SW_CASE(straight_moves_from_rest_to_rest),
         SW_CASE(nitrogen_is_choked_in_the_nozzle), SW_CASE(oxygen_at_half_a_bar_is_not_choked),
         SW_CASE(choked_and_subsonic_forms_meet_at_the_critical_ratio), SW_CASE(time_and_cost_of_a_sheet))
