/* test_net_cases.c: the worked examples of the handbook as special cases of the network.
 *
 * A temperature that an example gives is held by a surface far larger than the rest: towards the fire by a flow of gas far
 * greater than the heat taken from it, above the baffle by the same gas after its second share of heat. */
#include "net_scene.h"

static const double huge_m2 = 1e6, stream_kg_s = 1e3;

/* The gas below at a temperature. */
static void hold_fire(net_scene *n, double c)
{
    n->fire = ns_air_fire(0, stream_kg_s, n->room.air_k);
    n->fire.heat_w = stream_kg_s * sw_mixture_heat_j(&n->fire.gas, n->room.air_k, sw_k_from_c(c));
}

/* Gas below at low_c, above at high_c. */
static void hold_gases(net_scene *n, double low_c, double high_c)
{
    hold_fire(n, high_c);
    double low_w = stream_kg_s * sw_mixture_heat_j(&n->fire.gas, n->room.air_k, sw_k_from_c(low_c));
    n->model.flame_share = low_w / n->fire.heat_w;
    n->s.upper_m3 = 1;
    n->s.upper_m2 = 1;
}

/* ---- walls in line ------------------------------------------------------------------------------------------- */

typedef struct wall_case {
    double gas_c, gas_h, board_m, board_k, contact_r, sheet_m, room_c, room_h;
} wall_case;

/* Films of the network have their own h: the films' areas are set, over a board of 1 m2, so that area x h is the example's. */
static void solve_wall(sw_test *t, wall_case w, double *q, double *hot_c, double *back_c, double *sheet_c)
{
    double in_m2 = 1, out_m2 = 1, k_factor = 1;
    for (int round = 0; round < 40; round++) {
        net_scene *n = ns_new(t);
        size_t board = ns_part(n, "board", SW_PART_LINING, "vermiculite board", 1, w.board_m);
        size_t sheet = ns_part(n, "sheet", SW_PART_WALL, "S235", 1, w.sheet_m);
        ns_surface(n, board, SW_MEDIUM_FIRE, in_m2, 0.9, 0.5);
        ns_surface(n, sheet, SW_MEDIUM_ROOM, out_m2, 0.9, 0.5);
        ns_view(n, 0, 0, in_m2);
        ns_view(n, 1, 1, out_m2); /* sees itself: no radiation to the room */
        ns_contact(n, board, sheet, 1, 0, 0);
        n->room = (sw_heat_room){sw_k_from_c(w.room_c), sw_k_from_c(w.room_c)};
        hold_fire(n, w.gas_c);
        n->model.contact_r = w.contact_r;
        n->model.lining_k_factor = k_factor;
        sw_heat_net *net;
        sw_heat_state s;
        if (!ns_steady(t, n, &net, &s)) return;
        *hot_c = ns_part_c(net, &s, board, true);
        *back_c = ns_part_c(net, &s, board, false);
        *sheet_c = ns_part_c(net, &s, sheet, false);
        *q = s.shell_w;
        in_m2 *= w.gas_h * (w.gas_c - *hot_c) / *q;
        out_m2 *= w.room_h * (*sheet_c - w.room_c) / *q;
        k_factor *= w.board_k * (*hot_c - *back_c) / w.board_m / *q;
    }
}

static void a_lined_wall_is_that_of_example_18(sw_test *t)
{
    double q = 0, hot = 0, back = 0, sheet = 0;
    solve_wall(t, (wall_case){800, 40, 0.025, 0.18, 0.02, 0.004, 20, 18}, &q, &hot, &back, &sheet);
    sw_near(t, q, 3256, 2, "handbook F7.1, E18: resistances in line");
    sw_near(t, hot, 718.6, 0.2, "handbook F7.1, E18");
    sw_near(t, back, 266.3, 0.4, "handbook F7.1, E18");
    sw_near(t, sheet, 201.05, 0.4, "handbook F7.1, E18: middle of the sheet");
}

static void a_lined_wall_is_that_of_example_29(sw_test *t)
{
    double q = 0, hot = 0, back = 0, sheet = 0;
    solve_wall(t, (wall_case){850, 55, 0.030, 0.16, 0.015, 0.005, 22, 16}, &q, &hot, &back, &sheet);
    sw_near(t, q, 2922.7, 2.5, "handbook F7.1, E29");
    sw_near(t, hot, 796.9, 0.2, "handbook F7.1, E29");
    sw_near(t, back, 248.9, 0.4, "handbook F7.1, E29");
    sw_near(t, sheet, 204.85, 0.4, "handbook F7.1, E29: middle of the sheet");
}

/* ---- convection gap --------------------------------------------------------------------------------------------- */

static void solve_gap(sw_test *t, double body_c, double factor, sw_heat_state *s, double *shell_c)
{
    net_scene *n = ns_new(t);
    double m2 = 0.9 * 0.45;
    size_t body = ns_part(n, "body", SW_PART_WALL, "S235", m2, 0.004);
    size_t shell = ns_part(n, "shell", SW_PART_SHELL, "S235", m2, 0.002);
    ns_surface(n, body, SW_MEDIUM_FIRE, huge_m2, 0.9, 0.9);
    ns_surface(n, body, SW_MEDIUM_GAP, m2, 0.9, 0.9);
    ns_surface(n, shell, SW_MEDIUM_GAP, m2, 0.9, 0.9);
    ns_surface(n, shell, SW_MEDIUM_ROOM, m2, 0.9, 0.9);
    ns_view(n, 0, 0, huge_m2);
    ns_view(n, 1, 2, m2);
    ns_view(n, 3, 4, m2);
    n->s.gap_height_m = 0.9;
    n->s.gap_width_m = 0.03;
    n->s.gap_m2 = 0.03 * 0.45;
    hold_fire(n, body_c);
    n->model.outside_h_factor = factor;
    sw_heat_net *net;
    if (ns_steady(t, n, &net, s)) *shell_c = ns_part_c(net, s, shell, false);
}

static void a_convection_gap_is_that_of_example_17(sw_test *t)
{
    sw_heat_state s = {0};
    double shell_c = 138.8;
    for (int i = 0; i < 6; i++) /* its outer film is given as 5.0 W/(m2 K) */
        solve_gap(t, 250, 5.0 / sw_free_h(SW_FACING_SIDE, sw_k_from_c(shell_c), sw_k_from_c(20), 0.9), &s, &shell_c);
    sw_near(t, shell_c, 138.8, 0.3, "handbook F6.5, E17");
    sw_near(t, s.gap_kg_s, 11.16e-3, 0.04e-3, "handbook F6.5, E17");
    sw_near(t, sw_c_from_k(s.gap_out_k), 72.6, 0.3, "handbook F6.5, E17");
    sw_near(t, s.gap_w, 591, 3, "handbook F6.5, E17");
    sw_near(t, s.shell_w, 683, 3, "handbook F6.5, E17");
}

static void a_cooler_body_is_the_second_row_of_example_17(sw_test *t)
{
    sw_heat_state s = {0};
    double shell_c = 104.6;
    for (int i = 0; i < 6; i++)
        solve_gap(t, 200, 5.0 / sw_free_h(SW_FACING_SIDE, sw_k_from_c(shell_c), sw_k_from_c(20), 0.9), &s, &shell_c);
    sw_near(t, shell_c, 104.6, 0.3, "handbook F6.5, E17 at 200 degC");
    sw_near(t, s.gap_kg_s, 10.16e-3, 0.04e-3, "handbook F6.5, E17 at 200 degC");
    sw_near(t, sw_c_from_k(s.gap_out_k), 61.4, 0.3, "handbook F6.5, E17 at 200 degC");
}

/* ---- furnace and enclosure ------------------------------------------------------------------------------------------ */

static void furnace_of_example_4(sw_test *t, double soot, double want_c, double want_w, double leaving_w)
{
    net_scene *n = ns_new(t);
    size_t sink = ns_part(n, "sink", SW_PART_WALL, "S235", 0.16, 0.004);
    size_t rest = ns_part(n, "refractory", SW_PART_GRATE, "S235", 0.64, 0.004);
    ns_surface(n, sink, SW_MEDIUM_FIRE, 0.16, 0.85, 0.4);
    ns_surface(n, rest, SW_MEDIUM_FIRE, 0.64, 0.80, 0.4);
    ns_surface(n, sink, SW_MEDIUM_ROOM, huge_m2, 1, 0.4);
    ns_mix_views(n, SW_MEDIUM_FIRE);
    ns_view_room(n);
    n->s.firebox_m3 = 0.4 * 0.3 * 0.4;
    n->s.firebox_m2 = 0.80;
    n->room = (sw_heat_room){sw_k_from_c(25), sw_k_from_c(450)};
    n->model.inside_h_factor = n->model.outside_h_factor = 0;
    n->model.soot_k_1_m = soot;
    n->model.passing_share = 0; /* the example's gas is stirred */
    /* beech, moisture 0.16, excess air 1.8: kg of gas a kg of fuel and its moles by handbook F2.1 */
    double fuel_kg_s = 8974 / 15.204e6, air = 1.8 * 4.9464;
    double n_air = air / 28.964, n_o2_min = 0.2095 * 4.9464 / 28.964;
    double kg = air + 1 - 0.0042;
    n->fire = (sw_heat_fire){.heat_w = 8974, .air_kg_s = fuel_kg_s * air, .gas_kg_s = fuel_kg_s * kg};
    n->fire.air_k = sw_k_from_c(25);
    n->fire.gas.kmol[SW_GAS_CO2] = 0.41372 / 12.011 / kg;
    n->fire.gas.kmol[SW_GAS_H2O] = (0.05182 / 2.016 + 0.16 / 18.015) / kg;
    n->fire.gas.kmol[SW_GAS_O2] = 0.8 * n_o2_min / kg;
    n->fire.gas.kmol[SW_GAS_N2] = (0.7905 * n_air + 0.00167 / 28.014) / kg;
    double all = sw_mixture_kmol(&n->fire.gas);
    n->fire.p_h2o_bar = 1.01325 * n->fire.gas.kmol[SW_GAS_H2O] / all;
    n->fire.p_co2_bar = 1.01325 * n->fire.gas.kmol[SW_GAS_CO2] / all;
    sw_heat_net *net;
    sw_heat_state s;
    if (!ns_steady(t, n, &net, &s)) return;
    sw_near(t, ns_part_c(net, &s, sink, false), 450, 0.1, "held by its back");
    sw_near(t, sw_c_from_k(s.t_k[sw_heat_net_gas(net, SW_GAS_FIREBOX)]), want_c, 1.0, "handbook F4.4, E4");
    sw_near(t, s.shell_w, want_w, 10, "handbook F4.4, E4");
    sw_near(t, s.flue_w, leaving_w, 10, "handbook F4.4, E4");
}

static void the_firebox_without_soot_is_that_of_example_4(sw_test *t)
{
    furnace_of_example_4(t, 0, 801.6, 3756, 5218);
}

static void the_firebox_with_soot_is_that_of_example_4(sw_test *t)
{
    furnace_of_example_4(t, 0.8, 743.2, 4183, 4792);
}

static void the_box_with_embers_is_that_of_example_6(sw_test *t)
{
    net_scene *n = ns_new(t);
    double w = 0.40, d = 0.30, h = 0.40, front_m2 = w * h, floor_m2 = w * d, all_m2 = 2 * (w * h + w * d + d * h);
    double rest_m2 = all_m2 - front_m2 - floor_m2, to_front_m2 = floor_m2 * sw_view_corner(w, d, h);
    size_t front = ns_part(n, "front", SW_PART_DOOR, "S235", front_m2, 0.004);
    size_t floor = ns_part(n, "floor", SW_PART_GRATE, "S235", floor_m2, 0.004);
    size_t rest = ns_part(n, "rest", SW_PART_WALL, "S235", rest_m2, 0.004);
    ns_surface(n, front, SW_MEDIUM_FIRE, front_m2, 0.9, 0.4);
    ns_surface(n, floor, SW_MEDIUM_FIRE, floor_m2, 0.9, 0.4);
    ns_surface(n, rest, SW_MEDIUM_FIRE, rest_m2, 0.9, 0.4);
    ns_surface(n, floor, SW_MEDIUM_UPPER, 1e4 * huge_m2, 0.9, 0.4);
    ns_surface(n, front, SW_MEDIUM_ROOM, huge_m2, 1, 0.4);
    ns_view(n, 0, 1, to_front_m2);
    ns_view(n, 0, 2, front_m2 - to_front_m2);
    ns_view(n, 1, 2, floor_m2 - to_front_m2);
    ns_view(n, 2, 2, rest_m2 - front_m2 - floor_m2 + 2 * to_front_m2);
    ns_view(n, 3, 3, 1e4 * huge_m2);
    ns_view(n, 4, 5, huge_m2);
    hold_gases(n, 895, 900);
    n->room.walls_k = sw_k_from_c(450);
    n->model.inside_h_factor = 1e-6; /* nothing for the faces, enough over so many m2 */
    n->model.outside_h_factor = 0;
    n->model.soot_k_1_m = 0;
    sw_heat_net *net;
    sw_heat_state s;
    if (!ns_steady(t, n, &net, &s)) return;
    sw_near(t, ns_part_c(net, &s, floor, false), 900, 0.1, "held");
    sw_near(t, ns_part_c(net, &s, front, false), 450, 0.1, "held");
    sw_near(t, to_front_m2 / floor_m2, 0.239089, 1e-6, "handbook F5.2, E6");
    sw_near(t, s.shell_w, 6691, 4, "handbook F5.2, E6: net floor to front");
    sw_near(t, ns_part_c(net, &s, rest, false), 712.0, 0.2, "handbook F5.2, E6: re-radiating walls");
}

/* A fire of emissivity 0.7: black over so much of the view, cold over the rest. */
static net_scene *pane_scene(sw_test *t, double in_factor, double out_factor)
{
    net_scene *n = ns_new(t);
    size_t pane = ns_part(n, "pane", SW_PART_PANE, "glass-ceramic", 1, 0.004);
    size_t fire = ns_part(n, "fire", SW_PART_GRATE, "S235", huge_m2, 0.004);
    ns_surface(n, pane, SW_MEDIUM_FIRE, 1, 0.87, 0.4);
    ns_surface(n, fire, SW_MEDIUM_FIRE, 100, 1, 0.4);
    ns_surface(n, fire, SW_MEDIUM_UPPER, 1e4 * huge_m2, 1, 0.4);
    ns_surface(n, pane, SW_MEDIUM_ROOM, 1, 0.87, 0.4);
    ns_view(n, 0, 1, 0.7);
    ns_view(n, 0, 4, 0.3);
    ns_view(n, 1, 1, 100 - 0.7);
    ns_view(n, 2, 2, 1e4 * huge_m2);
    ns_view(n, 3, 4, 1);
    n->model.soot_k_1_m = 0;
    n->model.passing_share = 0;
    n->model.inside_h_factor = in_factor;
    n->model.outside_h_factor = out_factor;
    hold_gases(n, 500, 700);
    return n;
}

static void the_pane_is_that_of_example_9(sw_test *t)
{
    double pane_c = 430, in = 1, out = 1;
    sw_heat_state s = {0};
    for (int round = 0; round < 8; round++) { /* its films are given: 8 to 500 degC, 7 to 20 degC */
        double pane_k = sw_k_from_c(pane_c);
        in = 8 / sw_free_h(SW_FACING_SIDE, pane_k, sw_k_from_c(500), 0.4);
        out = 7 / sw_free_h(SW_FACING_SIDE, pane_k, sw_k_from_c(20), 0.4);
        net_scene *n = pane_scene(t, in, out);
        sw_heat_net *net;
        if (!ns_steady(t, n, &net, &s)) return;
        pane_c = ns_part_c(net, &s, 0, false);
        sw_near(t, ns_part_c(net, &s, 1, false), 700, 0.1, "held");
    }
    sw_near(t, pane_c, 430.5, 1.5, "handbook F5.3, E9; the cold view adds 126 W/m2");
    sw_near(t, s.transmitted_w, 8126, 20, "handbook F5.3, E9: transmitted");
    sw_near(t, s.glass_w, 1.3 * 10882 + 2874, 150,
            "handbook F5.3, E9: emitted, 0.3 of the inner face's too, and convected");
}

SW_TESTS(SW_CASE(a_lined_wall_is_that_of_example_18), SW_CASE(a_lined_wall_is_that_of_example_29),
         SW_CASE(a_convection_gap_is_that_of_example_17), SW_CASE(a_cooler_body_is_the_second_row_of_example_17),
         SW_CASE(the_firebox_without_soot_is_that_of_example_4), SW_CASE(the_firebox_with_soot_is_that_of_example_4),
         SW_CASE(the_box_with_embers_is_that_of_example_6), SW_CASE(the_pane_is_that_of_example_9))
