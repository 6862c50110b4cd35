/* Gas that passes the firebox, what burns on the embers, and air that is warmed in its ducts. */
#include "net_scene.h"

#include <string.h>

static const double huge = 5000; /* m2: as good as held */

static size_t gas_node(const sw_heat_net *net)
{
    return sw_heat_net_gas(net, SW_GAS_FIREBOX);
}

/* ---- gas that passes --------------------------------------------------------------------------------------------- */

/* Clear air past a wall held at 20 degC; so cool that its heat capacity hardly changes. */
static void clear_air(net_scene *n, double passing)
{
    size_t sink = ns_part(n, "sink", SW_PART_WALL, "S235", 0.5, 0.004);
    ns_surface(n, sink, SW_MEDIUM_FIRE, 0.5, 0.9, 0.4);
    ns_surface(n, sink, SW_MEDIUM_ROOM, huge, 1, 0.4);
    ns_mix_views(n, SW_MEDIUM_FIRE);
    ns_view_room(n);
    n->s.firebox_m3 = 0.05;
    n->s.firebox_m2 = 0.9;
    n->fire = ns_air_fire(300, 3e-3, sw_k_from_c(20));
    n->model.soot_k_1_m = 0;
    n->model.bed_share = 0;
    n->model.passing_share = passing;
}

static void gas_that_passes_a_wall_is_the_textbooks_heat_exchanger(sw_test *t)
{
    net_scene *n = ns_new(t);
    sw_heat_net *net;
    sw_heat_state s;
    clear_air(n, 1);
    if (!ns_steady(t, n, &net, &s)) return;
    double in_k = s.entering_k - n->room.air_k, out_k = s.leaving_k - n->room.air_k;
    double mean_k = s.t_k[gas_node(net)] - n->room.air_k;
    sw_true(t, out_k > 1 && out_k < 0.8 * in_k);
    sw_near(t, mean_k, (in_k - out_k) / log(in_k / out_k), 0.01 * mean_k,
            "logarithmic mean difference: Incropera ch. 11 (from memory)");
}

static void gas_that_is_stirred_leaves_at_its_mean(sw_test *t)
{
    net_scene *n = ns_new(t);
    sw_heat_net *net;
    sw_heat_state s;
    clear_air(n, 0);
    if (!ns_steady(t, n, &net, &s)) return;
    sw_near(t, s.leaving_k, s.t_k[gas_node(net)], 1e-6, "the limit: Hottel & Sarofim 1967 (from memory)");
}

/* Half the way between both limits: its mean stands half as far above what leaves as if all of it passed. */
static void half_of_it_passing_stands_halfway(sw_test *t)
{
    net_scene *n = ns_new(t);
    sw_heat_net *net;
    sw_heat_state s;
    clear_air(n, 0.5);
    if (!ns_steady(t, n, &net, &s)) return;
    double in_k = s.entering_k - n->room.air_k, out_k = s.leaving_k - n->room.air_k;
    double mean_k = s.t_k[gas_node(net)] - n->room.air_k;
    double N = (in_k - out_k) / mean_k, M = -expm1(-N) / N, plug = (M - exp(-N)) / (1 - exp(-N));
    sw_near(t, (mean_k - out_k) / (in_k - out_k), 0.5 * plug, 0.01, "as defined");
}

static void the_more_it_passes_the_hotter_its_mean_and_the_colder_it_leaves(sw_test *t)
{
    double mean_before_k = 0, out_before_k = 1e4;
    for (int i = 0; i <= 4; i++) {
        net_scene *n = ns_new(t);
        sw_heat_net *net;
        sw_heat_state s;
        ns_box_in_box(n, 0.025, 1);
        n->model.passing_share = 0.25 * i;
        if (!ns_steady(t, n, &net, &s)) return;
        double mean_k = s.t_k[gas_node(net)];
        sw_true(t, mean_k > mean_before_k && s.leaving_k < out_before_k);
        sw_true(t, s.entering_k > mean_k && mean_k >= s.leaving_k && s.leaving_k > s.flue_k);
        sw_near(t, s.useful_w + s.flue_w, n->fire.heat_w, 1e-3 * n->fire.heat_w, "energy");
        mean_before_k = mean_k, out_before_k = s.leaving_k;
    }
}

/* Walls too large for the gas: it must not leave colder than they are. */
static void gas_never_leaves_colder_than_the_walls(sw_test *t)
{
    for (int i = 0; i <= 6; i++) {
        net_scene *n = ns_new(t);
        sw_heat_net *net;
        sw_heat_state s;
        clear_air(n, 1);
        n->surfaces[0].area_m2 *= pow(4, i);
        ns_view(n, 0, 0, n->surfaces[0].area_m2);
        if (!ns_steady(t, n, &net, &s)) return;
        double wall_k = s.t_k[sw_heat_net_node(net, 0, false)], change_of_cp = 2e-3;
        sw_true(t, s.leaving_k >= wall_k - change_of_cp * (s.entering_k - wall_k));
    }
}

/* ---- embers ------------------------------------------------------------------------------------------------------ */

static bool with_embers(sw_test *t, double share, sw_heat_net **net, sw_heat_state *s)
{
    net_scene *n = ns_new(t);
    ns_box_in_box(n, 0.025, 1);
    n->surfaces[3].side = 0, n->surfaces[3].up = 1,
    n->surfaces[3].middle_z_m = 0; /* the baffle's face serves as floor */
    n->model.ember_gas_share = share;
    if (!ns_steady(t, n, net, s)) return false;
    return sw_near(t, s->useful_w + s->flue_w, n->fire.heat_w, 1e-3 * n->fire.heat_w, "energy");
}

static void what_burns_on_the_embers_takes_heat_from_them_into_the_gas(sw_test *t)
{
    sw_heat_net *net;
    sw_heat_state none, some;
    if (!with_embers(t, 0, &net, &none) || !with_embers(t, 1, &net, &some)) return;
    size_t bed = sw_heat_net_gas(net, SW_GAS_BED);
    sw_true(t, some.t_k[bed] < none.t_k[bed] - 20);
    sw_true(t, some.t_k[gas_node(net)] > none.t_k[gas_node(net)]);
    /* 0.3 x 0.9 x 9 kW of char at 32.8 MJ/kg makes 12.5 kg of gas a kg */
    double kg_s = 0.27 * 9000 / 32.8e6 * 12.5, gas_kg_s = 7e-3;
    sw_mixture gas = wood_fire(9000).gas;
    double taken_w = kg_s * sw_mixture_heat_j(&gas, sw_k_from_c(20), some.t_k[bed]);
    sw_near(t, gas_kg_s * (sw_mixture_heat_j(&gas, none.entering_k, some.entering_k)), taken_w, 1, "handbook F3.1");
}

/* ---- ducts ------------------------------------------------------------------------------------------------------- */

enum { DUCT = 1 };

/* A sink for the fire, and a duct held at its temperature by the walls around it. */
static void led_air(net_scene *n, double duct_k, double kg_s)
{
    clear_air(n, 0.75);
    size_t duct = ns_part(n, "duct", SW_PART_AIRWAY, "S235", 0.06, 0.002);
    n->parts[duct].duct = SW_DUCT_WASH;
    ns_surface(n, duct, SW_MEDIUM_GAP, 0.06, 0.9, 0.3);
    ns_surface(n, duct, SW_MEDIUM_ROOM, huge, 1, 0.3);
    ns_mix_views(n, SW_MEDIUM_GAP);
    ns_mix_views(n, SW_MEDIUM_FIRE);
    ns_view_room(n);
    n->room.walls_k = duct_k;
    n->model.outside_h_factor = 0;
    n->fire.duct_kg_s[SW_DUCT_WASH] = kg_s;
}

static void air_in_a_duct_warms_as_past_a_wall_at_one_temperature(sw_test *t)
{
    net_scene *n = ns_new(t);
    sw_heat_net *net;
    sw_heat_state s;
    double wall_k = 500, kg_s = 5e-4;
    led_air(n, wall_k, kg_s);
    if (!ns_steady(t, n, &net, &s)) return;
    double in_k = n->fire.air_k, out_k = s.duct_k[SW_DUCT_WASH], N = log((wall_k - in_k) / (wall_k - out_k));
    double mean_k = wall_k - (out_k - in_k) / N, cp = sw_air_at(mean_k).cp;
    sw_near(t, s.t_k[sw_heat_net_node(net, DUCT, false)], wall_k, 0.5, "held");
    sw_near(t, s.preheat_w, kg_s * cp * (out_k - in_k), 0.002 * s.preheat_w, "energy of the stream");
    sw_near(t, N * kg_s * cp / 0.06, sw_free_h(SW_FACING_SIDE, wall_k, mean_k, 0.3), 0.05,
            "wall at one temperature: Incropera ch. 8 (from memory)");
    sw_near(t, s.useful_w + s.flue_w, n->fire.heat_w, 0.2, "energy: what walls give to ducts the fire gets back");
}

static void a_duct_without_flow_or_factor_warms_nothing(sw_test *t)
{
    for (int i = 0; i < 2; i++) {
        net_scene *n = ns_new(t);
        sw_heat_net *net;
        sw_heat_state s;
        led_air(n, 500, i == 0 ? 0 : 5e-4);
        if (i == 1) n->model.duct_h_factor = 0;
        if (!ns_steady(t, n, &net, &s)) return;
        sw_true(t, s.preheat_w == 0 && s.duct_k[SW_DUCT_WASH] == 0);
    }
}

static void warm_air_comes_back_hotter_into_the_gas(sw_test *t)
{
    net_scene *cold = ns_new(t), *warm = ns_new(t);
    sw_heat_net *net;
    sw_heat_state a, b;
    led_air(cold, 500, 0);
    led_air(warm, 500, 1e-3);
    if (!ns_steady(t, cold, &net, &a) || !ns_steady(t, warm, &net, &b)) return;
    double cp = sw_mixture_cp_j_k(&warm->fire.gas, b.entering_k);
    sw_near(t, b.entering_k - a.entering_k, b.preheat_w / (warm->fire.gas_kg_s * cp), 0.2, "energy of the gas");
}

/* ---- all constants at nothing ------------------------------------------------------------------------------------ */

/* As the network was before it had them (2026-11-28), of this box. */
static void without_the_three_constants_the_gas_is_the_stirred_one_of_before(sw_test *t)
{
    net_scene *n = ns_new(t);
    sw_heat_net *net;
    sw_heat_state s;
    ns_box_in_box(n, 0.025, 1);
    n->surfaces[3].side = 0, n->surfaces[3].up = 1, n->surfaces[3].middle_z_m = 0;
    n->model.passing_share = n->model.ember_gas_share = n->model.duct_h_factor = 0;
    n->fire.duct_kg_s[SW_DUCT_WASH] = 3e-3;
    if (!ns_steady(t, n, &net, &s)) return;
    const char *source = "the network before, same box, computed";
    sw_near(t, s.t_k[gas_node(net)], 862.4596518379, 1e-6, source);
    sw_near(t, s.flue_k, 776.7059295718, 1e-6, source);
    sw_near(t, s.useful_w, 5289.0755792062, 1e-4, source);
}

SW_TESTS(SW_CASE(gas_that_passes_a_wall_is_the_textbooks_heat_exchanger),
         SW_CASE(gas_that_is_stirred_leaves_at_its_mean), SW_CASE(half_of_it_passing_stands_halfway),
         SW_CASE(the_more_it_passes_the_hotter_its_mean_and_the_colder_it_leaves),
         SW_CASE(gas_never_leaves_colder_than_the_walls),
         SW_CASE(what_burns_on_the_embers_takes_heat_from_them_into_the_gas),
         SW_CASE(air_in_a_duct_warms_as_past_a_wall_at_one_temperature),
         SW_CASE(a_duct_without_flow_or_factor_warms_nothing), SW_CASE(warm_air_comes_back_hotter_into_the_gas),
         SW_CASE(without_the_three_constants_the_gas_is_the_stirred_one_of_before))
