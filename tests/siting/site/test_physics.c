/* Walls, shields, pipes, stacks, air of the room, load: worked examples, limits, laws. */
#include "siting/site/site.h"
#include "sw_test.h"

#include <math.h>

#define COUNT(a) (sizeof(a) / sizeof *(a))

static const double room_k = 293.15;
static const sw_hot_panel back = {"back", 0.5, 0.6, 523.15, 0.9};

static double c(double k)
{
    return sw_c_from_k(k);
}

/* ---- walls -------------------------------------------------------------------------------------------------------- */

static void view_of_the_middle_is_the_catalogues(sw_test *t)
{
    const char *book = "handbook FS-20: catalogue of configuration factors (0.1385), computed";
    const sw_hot_panel square = {"square", 2, 2, 400, 1};
    sw_near(t, sw_view_point_parallel(1, 1, 1), 0.138532, 5e-7, book);
    sw_near(t, sw_wall_view(&square, 1), 0.554126, 5e-7, book);
    sw_near(t, sw_view_parallel(1, 1, 1), 0.199825, 5e-7, "handbook FS-20: textbook (0.1998), computed");
}

static void wall_before_the_panel_is_the_handbooks(sw_test *t)
{
    static const double rows[][4] = {{0.10, 0.9001, 175.69, 173.47}, {0.20, 0.6954, 151.42, 149.29},
                                     {0.30, 0.5067, 125.79, 123.82}, {0.40, 0.3682, 104.23, 102.45},
                                     {0.50, 0.2729, 87.49, 85.90},   {0.60, 0.2074, 74.77, 73.36},
                                     {0.80, 0.1289, 57.67, 56.56}};
    const char *book = "handbook FS-21, computed: panel 0.5 x 0.6 m at 250 degC";
    for (size_t i = 0; i < COUNT(rows); i++) {
        sw_near(t, sw_wall_view(&back, rows[i][0]), rows[i][1], 6e-5, book);
        sw_near(t, c(sw_wall_k(&back, rows[i][0], room_k, 0.9, INFINITY)), rows[i][2], 6e-3, book);
        sw_near(t, c(sw_wall_k(&back, rows[i][0], room_k, 0.9, 2.5)), rows[i][3], 6e-3, book);
    }
}

static void distances_for_85_degrees_are_the_handbooks(sw_test *t)
{
    const sw_hot_panel pane = {"pane", 0.35, 0.35, 623.15, 0.85};
    sw_near(t, sw_wall_distance_m(&back, room_k, 0.9, INFINITY, 65), 0.5175, 6e-5, "handbook FS-21, computed: panel");
    sw_near(t, sw_wall_distance_m(&pane, room_k, 0.9, INFINITY, 65), 0.5106, 6e-5, "handbook FS-21, computed: glass");
}

static void wall_beside_a_pipe_is_the_handbooks(sw_test *t)
{
    static const double rows[][2] = {{0.225, 124.27}, {0.450, 82.81}, {0.525, 75.83}, {0.600, 70.35}};
    const char *book = "handbook FS-22, computed: pipe 150 mm at 300 degC";
    for (size_t i = 0; i < COUNT(rows); i++)
        sw_near(t, c(sw_wall_beside_pipe_k(0.15, 573.15, 0.9, rows[i][0], room_k)), rows[i][1], 6e-3, book);
    double away_m = sw_pipe_distance_m(0.15, 573.15, 0.9, room_k, 82.81 - 20);
    sw_near(t, away_m, 0.375, 1e-4, "handbook FS-22, computed: 82.81 degC at 0.450 m from the axis");
}

static void shield_and_wall_are_the_handbooks(sw_test *t)
{
    static const double rows[][4] = {
        {0.2, 0.9, 119.32, 85.91}, {0.2, 0.25, 125.69, 57.02}, {0.3, 0.9, 96.14, 67.55}, {0.3, 0.25, 101.44, 45.78}};
    const char *book = "handbook FS-23, computed: shield before the panel of FS-21";
    for (size_t i = 0; i < COUNT(rows); i++) {
        double shield_k = 0, wall_k = sw_wall_behind_shield_k(&back, rows[i][0], room_k, rows[i][1], &shield_k);
        sw_near(t, c(shield_k), rows[i][2], 6e-3, book);
        sw_near(t, c(wall_k), rows[i][3], 6e-3, book);
    }
    sw_near(t, c(sw_wall_behind_shield_k(&back, 0.176, room_k, 0.9, NULL)), 91, 0.6, "handbook S5.3, computed");
    sw_near(t, c(sw_wall_behind_shield_k(&back, 0.176, room_k, 0.25, NULL)), 60, 1, "handbook S5.3, computed");
}

/* ---- limits and laws ---------------------------------------------------------------------------------------------- */

static void panel_as_cold_as_the_room_leaves_the_wall_cold(sw_test *t)
{
    const sw_hot_panel cold = {"cold", 0.5, 0.6, 293.15, 0.9};
    sw_near(t, sw_wall_k(&cold, 0.2, room_k, 0.9, INFINITY), room_k, 1e-9, "law: nothing warms it");
    sw_near(t, sw_wall_behind_shield_k(&cold, 0.2, room_k, 0.9, NULL), room_k, 1e-9, "law: nothing warms it");
    sw_near(t, sw_wall_beside_pipe_k(0.15, room_k, 0.9, 0.3, room_k), room_k, 1e-9, "law: nothing warms it");
    sw_near(t, sw_wall_distance_m(&cold, room_k, 0.9, INFINITY, 1), 0, 1e-12, "law: it may touch");
}

static void far_wall_is_as_cold_as_the_room(sw_test *t)
{
    sw_near(t, sw_wall_k(&back, 500, room_k, 0.9, INFINITY), room_k, 0.01, "limit: nothing of the panel is seen");
    sw_near(t, sw_wall_view(&back, 0), 1, 1e-12, "limit: it touches and sees nothing else");
    sw_near(t, sw_wall_view(&back, 1e-7), 1, 1e-5, "limit: near the panel");
}

static void nearer_hotter_and_larger_warm_the_wall(sw_test *t)
{
    for (double d_m = 0.02; d_m < 3; d_m *= 1.1) {
        sw_hot_panel hotter = back, larger = back;
        hotter.t_k += 10;
        larger.width_m += 0.05;
        double wall_k = sw_wall_k(&back, d_m, room_k, 0.9, INFINITY);
        sw_true(t, sw_wall_k(&back, d_m * 1.1, room_k, 0.9, INFINITY) < wall_k);
        sw_true(t, sw_wall_k(&hotter, d_m, room_k, 0.9, INFINITY) > wall_k);
        sw_true(t, sw_wall_k(&larger, d_m, room_k, 0.9, INFINITY) > wall_k);
        if (!sw_true(t, wall_k > room_k && wall_k < back.t_k)) return;
    }
}

static void shields_and_leaky_backs_cool_the_wall(sw_test *t)
{
    for (double d_m = 0.05; d_m < 2; d_m *= 1.2) {
        double bare_k = sw_wall_k(&back, d_m, room_k, 0.9, INFINITY), shield_k = 0;
        double dull_k = sw_wall_behind_shield_k(&back, d_m, room_k, 0.9, &shield_k);
        sw_true(t, dull_k < shield_k && shield_k < bare_k);
        sw_true(t, sw_wall_behind_shield_k(&back, d_m, room_k, 0.2, NULL) < dull_k);
        sw_true(t, sw_wall_k(&back, d_m, room_k, 0.9, 1) < bare_k);
        if (!sw_true(t, sw_wall_k(&back, d_m, room_k, 0.9, 0.5) < sw_wall_k(&back, d_m, room_k, 0.9, 1))) return;
    }
}

static void distance_brings_the_wall_to_its_limit(sw_test *t)
{
    for (double rise_k = 5; rise_k < 150; rise_k += 7) {
        double d_m = sw_wall_distance_m(&back, room_k, 0.9, 2.5, rise_k);
        sw_near(t, sw_wall_k(&back, d_m, room_k, 0.9, 2.5), room_k + rise_k, 1e-6, "inverse");
        double s_m = sw_shield_distance_m(&back, room_k, 0.25, rise_k);
        if (s_m > 0)
            sw_near(t, sw_wall_behind_shield_k(&back, s_m, room_k, 0.25, NULL), room_k + rise_k, 1e-6, "inverse");
        double p_m = sw_pipe_distance_m(0.15, 573.15, 0.9, room_k, rise_k);
        if (p_m > 0)
            sw_near(t, sw_wall_beside_pipe_k(0.15, 573.15, 0.9, 0.075 + p_m, room_k), room_k + rise_k, 1e-6, "inverse");
    }
    sw_true(t, isinf(sw_wall_distance_m(&back, room_k, 0.9, INFINITY, 0)));
    sw_near(t, sw_wall_distance_m(&back, room_k, 0.9, INFINITY, 300), 0, 1e-12, "limit: hotter than the panel");
}

static void wall_balance_closes(sw_test *t)
{
    double T_w = sw_wall_k(&back, 0.3, room_k, 0.9, 2.5), F = sw_wall_view(&back, 0.3);
    double room = SW_STEFAN_BOLTZMANN * pow(room_k, 4), panel = SW_STEFAN_BOLTZMANN * pow(back.t_k, 4);
    double in = 0.9 * (F * (0.9 * panel + 0.1 * room) + (1 - F) * room);
    double out = 0.9 * SW_STEFAN_BOLTZMANN * pow(T_w, 4) + 1.31 * pow(T_w - room_k, 4.0 / 3) + (T_w - room_k) / 2.5;
    sw_near(t, out, in, 1e-9 * in, "balance of handbook S5.2");
}

static void impossible_walls_give_no_number(sw_test *t)
{
    sw_hot_panel bad = back;
    sw_true(t, isnan(sw_wall_k(&back, -0.1, room_k, 0.9, INFINITY)));
    sw_true(t, isnan(sw_wall_k(&back, 0.1, 600, 0.9, INFINITY)));
    sw_true(t, isnan(sw_wall_k(&back, 0.1, room_k, 0, INFINITY)));
    sw_true(t, isnan(sw_wall_k(&back, 0.1, room_k, 0.9, 0)));
    sw_true(t, isnan(sw_wall_k(&back, NAN, room_k, 0.9, INFINITY)));
    bad.emissivity = 1.2;
    sw_true(t, isnan(sw_wall_behind_shield_k(&bad, 0.1, room_k, 0.9, NULL)));
    sw_true(t, isnan(sw_wall_distance_m(&bad, room_k, 0.9, INFINITY, 65)));
    sw_true(t, isnan(sw_shield_distance_m(&back, room_k, NAN, 65)));
    sw_true(t, isnan(sw_wall_beside_pipe_k(0.15, 573.15, 0.9, 0.05, room_k)));
    sw_true(t, isnan(sw_pipe_distance_m(0, 573.15, 0.9, room_k, 65)));
}

/* ---- the pipe's own outside ---- */

static void a_bare_pipe_loses_what_the_chimney_chapter_says(sw_test *t)
{
    double gas_k = 573.15, t_k = sw_pipe_surface_k(0.15, 0.15, 0, gas_k, room_k), rise_k = t_k - room_k;
    double lost = 0.9 * SW_STEFAN_BOLTZMANN * (pow(t_k, 4) - pow(room_k, 4)) + 1.31 * rise_k * cbrt(rise_k);
    sw_near(t, lost, 6.8 * (gas_k - room_k), 1e-6, "ASHRAE, chimney chapter (from memory): 6.8 W/(m2 K)");
    sw_true(t, t_k > room_k + 100 && t_k < gas_k - 100);
}

static void a_pipes_outside_stays_between_room_and_gas(sw_test *t)
{
    for (double gas_k = room_k; gas_k < 1200; gas_k += 7) {
        double bare_k = sw_pipe_surface_k(0.15, 0.154, 0, gas_k, room_k);
        double wool_k = sw_pipe_surface_k(0.15, 0.25, 0.5, gas_k, room_k);
        sw_true(t, bare_k >= room_k && bare_k <= gas_k && wool_k >= room_k && wool_k <= bare_k);
    }
    sw_near(t, sw_pipe_surface_k(0.15, 0.15, 1e9, 600, room_k), room_k, 1e-3, "limit: insulated");
    sw_true(t,
            isnan(sw_pipe_surface_k(0.15, 0.14, 0, 600, room_k)) && isnan(sw_pipe_surface_k(0, 0.1, 0, 600, room_k)));
    sw_true(t, isnan(sw_pipe_surface_k(0.15, 0.15, NAN, 600, room_k)) &&
                   isnan(sw_pipe_surface_k(0.15, 0.15, 0, 200, room_k)));
}

/* ---- room and floor ------------------------------------------------------------------------------------------------ */

static void stove_air_passes_the_handbooks_opening(sw_test *t)
{
    const char *book = "handbook FS-17, computed";
    double air_m3_s = 6.0e-3 * 9.2389 / 10.2320 / 1.2;
    sw_near(t, sw_s_from_h(air_m3_s), 16.253, 2e-3, book);
    sw_near(t, sw_mm2_from_m2(sw_room_vent_m2(air_m3_s, 0, 4)), 2914, 1, book);
    sw_near(t, sw_opening_m3_s(1, 4, 1.2) / 0.6, 2.582, 5e-4, book);
    sw_near(t, sw_s_from_h(sw_opening_m3_s(550e-6, 4, 1.2)), 3.067, 5e-4, book);
}

static void fans_draw_the_room_down_as_in_the_handbook(sw_test *t)
{
    const char *book = "handbook FS-18, computed";
    double at_50_pa = sw_h_from_s(250 * 5);
    static const double rows[][2] = {{60, 0.468}, {150, 1.916}, {300, 5.565}, {400, 8.663}};
    sw_near(t, sw_s_from_h(sw_leakage_m3_s(at_50_pa, 1)), 98.306, 2e-3, book);
    sw_near(t, sw_s_from_h(sw_leakage_m3_s(at_50_pa, 4)), 242.06, 6e-3, book);
    for (size_t i = 0; i < COUNT(rows); i++)
        sw_near(t, sw_room_depression_pa(sw_h_from_s(rows[i][0]), at_50_pa, 0), rows[i][1], 6e-4, book);
    sw_near(t, sw_room_depression_pa(sw_h_from_s(300), at_50_pa, 3850e-6), 4.901, 6e-4, book);
}

static void larger_vents_lower_the_depression(sw_test *t)
{
    double before_pa = INFINITY;
    for (double vent_m2 = 1e-4; vent_m2 < 0.1; vent_m2 *= 1.5) {
        double pa = sw_room_depression_pa(0.08, 0.3, vent_m2);
        sw_true(t, pa < before_pa && pa > 0);
        double flow = sw_leakage_m3_s(0.3, pa) + sw_opening_m3_s(vent_m2, pa, 1.2);
        if (!sw_near(t, flow, 0.08, 1e-12, "balance of air")) return;
        before_pa = pa;
    }
}

static void vent_asked_keeps_the_pressure(sw_test *t)
{
    double vent_m2 = sw_room_vent_m2(0.1, 0.3, 4);
    sw_near(t, sw_room_depression_pa(0.1, 0.3, vent_m2), 4, 1e-9, "inverse");
    sw_near(t, sw_room_vent_m2(0.01, 0.3, 4), 0, 1e-12, "limit: leaks are enough");
    sw_true(t, isinf(sw_room_depression_pa(0.1, 0, 0)));
    sw_near(t, sw_room_depression_pa(0, 0, 0), 0, 1e-12, "limit: nothing is drawn");
    sw_true(t, isnan(sw_room_depression_pa(-1, 1, 1)) && isnan(sw_room_vent_m2(NAN, 1, 4)));
}

static void floor_load_is_weight_on_area(sw_test *t)
{
    sw_near(t, sw_floor_pa(160 + 39.51, 0.84 * 0.84), 2774, 2, "handbook FS-25, computed (g rounded to 9.81)");
    sw_true(t, isnan(sw_floor_pa(100, 0)));
}

static void plume_is_the_fire_engineers(sw_test *t)
{
    double origin_m = 0.083 * pow(5, 0.4) - 1.02 * 0.5, rise_k = sw_plume_rise_k(5000, 0.5, 2, 293.15);
    sw_near(t, rise_k, 25.0 * pow(5, 2.0 / 3) * pow(2 - origin_m, -5.0 / 3), 0.4,
            "Heskestad 1984 with 25.0 K m^5/3 kW^-2/3 of the normal atmosphere (from memory)");
    sw_true(t, sw_plume_rise_k(5000, 0.5, 1, 293.15) > rise_k && sw_plume_rise_k(3000, 0.5, 2, 293.15) < rise_k);
    sw_near(t, sw_plume_rise_k(0, 0.5, 2, 293.15), 0, 1e-12, "limit: no heat");
    sw_true(t, isnan(sw_plume_rise_k(-1, 0.5, 2, 293.15)) && isnan(sw_plume_rise_k(1, 0, 2, 293.15)));
}

static void ceiling_without_warm_air_is_a_wall_lying(sw_test *t)
{
    const sw_hot_panel top = {"top", 0.5, 0.4, 473.15, 0.9};
    double still = sw_ceiling_k(&top, 1, 293.15, 0.9, INFINITY, 0),
           warm = sw_ceiling_k(&top, 1, 293.15, 0.9, INFINITY, 5e3);
    sw_near(t, still, sw_wall_k(&top, 1, 293.15, 0.9, INFINITY), 1e-9, "limit: nothing rises");
    sw_true(t, warm > still && warm < top.t_k);
    double off_m = sw_ceiling_distance_m(&top, 293.15, 0.9, INFINITY, 5e3, 65);
    sw_near(t, sw_ceiling_k(&top, off_m, 293.15, 0.9, INFINITY, 5e3), 293.15 + 65, 1e-6, "inverse");
    sw_true(t, isnan(sw_ceiling_distance_m(&top, 293.15, 0.9, INFINITY, NAN, 65)));
}

/* ---- under the stove ---- */

static const sw_hot_panel under = {"underside", 0.5, 0.4, 403.15, 0.9};

static void floor_without_a_way_down_is_as_hot_as_the_plate(sw_test *t)
{
    double plate_k = 0, floor_k = sw_floor_under_k(&under, 0.1, 293.15, 0.01, INFINITY, &plate_k);
    sw_near(t, floor_k, plate_k, 1e-12, "limit: nothing is conducted");
    sw_true(t, plate_k > 293.15 && plate_k < under.t_k);
    double touching_k = pow(0.9 * pow(under.t_k, 4) + 0.1 * pow(293.15, 4), 0.25);
    sw_near(t, sw_floor_under_k(&under, 0, 293.15, 0.01, INFINITY, NULL), touching_k, 1e-6,
            "derived: touching, it sees the underside alone, which gives 0.9 and mirrors 0.1 of the room");
}

static void floor_balance_closes(sw_test *t)
{
    double plate_k = 0, floor_k = sw_floor_under_k(&under, 0.1, 293.15, 0.05, 0.5, &plate_k);
    double F = sw_wall_view(&under, 0.1), s = SW_STEFAN_BOLTZMANN;
    double in = 0.9 * (F * (0.9 * s * pow(under.t_k, 4) + 0.1 * s * pow(293.15, 4)) + (1 - F) * s * pow(293.15, 4));
    double down = (plate_k - floor_k) / 0.05;
    sw_near(t, 0.9 * s * pow(plate_k, 4) + down, in, 1e-6, "balance of the plate's top");
    sw_near(t, down, (floor_k - 293.15) / 0.5, 1e-6, "the same through plate and floor");
}

static void thicker_plates_and_longer_legs_cool_the_floor(sw_test *t)
{
    double before = INFINITY;
    for (int i = 0; i < 10; i++) {
        double k = sw_floor_under_k(&under, 0.1, 293.15, 0.02 * i, 0.5, NULL);
        if (!sw_true(t, k < before)) return;
        before = k;
    }
    sw_true(t, sw_floor_under_k(&under, 0.3, 293.15, 0.02, 0.5, NULL) <
                   sw_floor_under_k(&under, 0.1, 293.15, 0.02, 0.5, NULL));
    sw_true(t, isnan(sw_floor_under_k(&under, 0.1, 293.15, -1, 0.5, NULL)));
    sw_true(t, isnan(sw_floor_under_k(&under, 0.1, 293.15, 0.1, 0, NULL)));
}

/* ---- what the fire's air costs ---- */

static sw_house tight_house(void)
{
    return (sw_house){.room_m3 = 60, .permeability_m_s = sw_h_from_s(5), .envelope_m2 = 250, .vent_m2 = 0};
}

static void supply_is_the_depression_with_a_fifth_more(sw_test *t)
{
    sw_house h = tight_house();
    h.extract_m3_s = sw_h_from_s(300);
    sw_site_supply s = sw_site_supply_of(&h, 0);
    sw_near(t, s.open_pa, 5.565, 5e-3, "handbook FS-18 (computed)");
    sw_near(t, s.pa, 1.2 * s.open_pa, 1e-12, "S_EB 1.2: EN 13384-1 (from memory)");
    h.vent_m2 = 3850e-6;
    sw_near(t, sw_site_supply_of(&h, 0).open_pa, 4.901, 5e-3, "handbook FS-18 (computed)");
}

static void a_door_that_is_shut_counts_where_it_is_worse(sw_test *t)
{
    sw_house h = tight_house();
    sw_site_supply s = sw_site_supply_of(&h, 5.4176e-3);
    sw_true(t, s.shut_pa > s.open_pa && s.leak_share > 0 && s.leak_share < 1);
    sw_near(t, s.pa, 1.2 * s.shut_pa, 1e-12, "the worse of both");
    sw_near(t, s.quiet_pa, s.shut_pa, 1e-12, "the worse without fans");
    h.room_m3 = 1e4;
    s = sw_site_supply_of(&h, 5.4176e-3);
    sw_near(t, s.shut_pa, s.open_pa, 1e-9, "limit: the room is the house");
}

static void supply_that_cannot_be_reckoned_is_no_number(sw_test *t)
{
    sw_house h = tight_house();
    h.direct_air = true;
    sw_true(t, isnan(sw_site_supply_of(&h, 5e-3).pa));
    h = tight_house();
    h.permeability_m_s = 0;
    sw_true(t, isnan(sw_site_supply_of(&h, 5e-3).pa)); /* no way in */
    h.permeability_m_s = NAN;
    sw_true(t, isnan(sw_site_supply_of(&h, 5e-3).pa));
}

SW_TESTS(SW_CASE(floor_without_a_way_down_is_as_hot_as_the_plate), SW_CASE(floor_balance_closes),
         SW_CASE(thicker_plates_and_longer_legs_cool_the_floor), SW_CASE(supply_is_the_depression_with_a_fifth_more),
         SW_CASE(a_door_that_is_shut_counts_where_it_is_worse), SW_CASE(supply_that_cannot_be_reckoned_is_no_number),
         SW_CASE(plume_is_the_fire_engineers), SW_CASE(ceiling_without_warm_air_is_a_wall_lying),
         SW_CASE(view_of_the_middle_is_the_catalogues), SW_CASE(wall_before_the_panel_is_the_handbooks),
         SW_CASE(distances_for_85_degrees_are_the_handbooks), SW_CASE(wall_beside_a_pipe_is_the_handbooks),
         SW_CASE(shield_and_wall_are_the_handbooks), SW_CASE(panel_as_cold_as_the_room_leaves_the_wall_cold),
         SW_CASE(far_wall_is_as_cold_as_the_room), SW_CASE(nearer_hotter_and_larger_warm_the_wall),
         SW_CASE(shields_and_leaky_backs_cool_the_wall), SW_CASE(distance_brings_the_wall_to_its_limit),
         SW_CASE(wall_balance_closes), SW_CASE(impossible_walls_give_no_number),
         SW_CASE(a_bare_pipe_loses_what_the_chimney_chapter_says), SW_CASE(a_pipes_outside_stays_between_room_and_gas),
         SW_CASE(stove_air_passes_the_handbooks_opening), SW_CASE(fans_draw_the_room_down_as_in_the_handbook),
         SW_CASE(larger_vents_lower_the_depression), SW_CASE(vent_asked_keeps_the_pressure),
         SW_CASE(floor_load_is_weight_on_area))
