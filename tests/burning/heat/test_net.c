/* test_net.c: laws of the heat network: its balance, its behaviour, what it refuses. */
#include "net_scene.h"

#include <string.h>

/* ---- a stove of eight parts -------------------------------------------------------------------------------- */

static bool stove(sw_test *t, net_scene *n, ns_stove *p, double board_m, double heat_w, sw_heat_net **net,
                  sw_heat_state *s)
{
    *p = ns_box_in_box(n, board_m, 1);
    n->fire = wood_fire(heat_w);
    return ns_steady(t, n, net, s);
}

static void heat_in_is_heat_out(sw_test *t)
{
    net_scene *n = ns_new(t);
    ns_stove p;
    sw_heat_net *net;
    sw_heat_state s;
    if (!stove(t, n, &p, 0.03, 9000, &net, &s)) return;
    sw_near(t, s.residual_w, 0, 0.01, "first law");
    sw_near(t, s.useful_w, s.transmitted_w + s.glass_w + s.shell_w + s.gap_w + s.below_w, 1e-9, "sum");
    sw_true(t, s.transmitted_w > 0 && s.glass_w > 0 && s.shell_w > 0 && s.gap_w > 0 && s.flue_w > 0);
}

static double hottest(const sw_heat_net *net, const sw_heat_state *s)
{
    double most = 0;
    for (size_t i = 0; i < sw_heat_net_nodes(net); i++) most = fmax(most, s->t_k[i]);
    return most;
}

static void more_fuel_makes_everything_hotter(sw_test *t)
{
    sw_heat_state before = {0};
    sw_heat_net *net;
    for (double heat_w = 2000; heat_w <= 14000; heat_w += 2000) {
        net_scene *n = ns_new(t);
        ns_stove p;
        sw_heat_state s;
        if (!stove(t, n, &p, 0.03, heat_w, &net, &s)) return;
        for (size_t i = 0; before.t_k && i < sw_heat_net_nodes(net); i++) sw_true(t, s.t_k[i] > before.t_k[i]);
        sw_true(t, before.t_k == NULL || (s.useful_w > before.useful_w && s.flue_w > before.flue_w));
        before = s;
    }
}

static void a_thicker_lining_keeps_the_wall_cooler_and_the_fire_hotter(sw_test *t)
{
    double wall_c = INFINITY, fire_c = 0;
    for (double board_m = 0.015; board_m < 0.06; board_m += 0.01) {
        net_scene *n = ns_new(t);
        ns_stove p;
        sw_heat_net *net;
        sw_heat_state s;
        if (!stove(t, n, &p, board_m, 9000, &net, &s)) return;
        double wall = ns_part_c(net, &s, p.wall, false), fire = ns_part_c(net, &s, p.board, true);
        sw_true(t, wall < wall_c && fire > fire_c);
        wall_c = wall, fire_c = fire;
    }
}

static void without_a_fire_everything_has_the_rooms_temperature(sw_test *t)
{
    net_scene *n = ns_new(t);
    ns_box_in_box(n, 0.03, 1);
    n->fire = ns_air_fire(0, 2e-3, n->room.air_k);
    sw_heat_net *net;
    sw_heat_state s;
    if (!ns_steady(t, n, &net, &s)) return;
    for (size_t i = 0; i < sw_heat_net_nodes(net); i++) sw_near(t, s.t_k[i], n->room.air_k, 1e-3, "second law");
    sw_near(t, s.useful_w, 0, 0.01, "first law");
}

static void nothing_is_hotter_than_the_flame(sw_test *t)
{
    net_scene *n = ns_new(t);
    ns_stove p;
    sw_heat_net *net;
    sw_heat_state s;
    if (!stove(t, n, &p, 0.03, 9000, &net, &s)) return;
    double flame_j = sw_mixture_enthalpy_j(&n->fire.gas, n->room.air_k) + n->fire.heat_w / n->fire.gas_kg_s;
    sw_true(t, hottest(net, &s) < sw_mixture_temperature_k(&n->fire.gas, flame_j));
    for (size_t i = 0; i < sw_heat_net_nodes(net); i++) sw_true(t, s.t_k[i] > n->room.air_k);
}

static void the_start_does_not_change_the_answer(sw_test *t)
{
    net_scene *n = ns_new(t);
    ns_stove p;
    sw_heat_net *net;
    sw_heat_state s;
    if (!stove(t, n, &p, 0.03, 9000, &net, &s)) return;
    size_t count = sw_heat_net_nodes(net);
    for (double start_k = 300; start_k <= 1500; start_k += 300) {
        sw_heat_state again = {.t_k = SW_KEEP(&t->run, count, double)};
        for (size_t i = 0; i < count; i++) again.t_k[i] = start_k;
        if (!sw_ok(t, sw_heat_net_steady(&t->run, net, &n->fire, &n->room, &again))) return;
        for (size_t i = 0; i < count; i++)
            if (!sw_near(t, again.t_k[i], s.t_k[i], 1e-3, "one solution")) return;
    }
}

static void a_second_solve_takes_no_memory(sw_test *t)
{
    net_scene *n = ns_new(t);
    ns_stove p;
    sw_heat_net *net;
    sw_heat_state s;
    if (!stove(t, n, &p, 0.03, 9000, &net, &s)) return;
    size_t keep = sw_arena_takes(t->run.keep), scratch = sw_arena_takes(t->run.scratch);
    double *flux = SW_SCRATCH(&t->run, sw_heat_net_nodes(net), double);
    n->fire = wood_fire(7000);
    sw_ok(t, sw_heat_net_steady(&t->run, net, &n->fire, &n->room, &s));
    sw_ok(t, sw_heat_net_flux(&t->run, net, &n->fire, &n->room, &s, flux));
    sw_true(t, sw_arena_takes(t->run.keep) == keep && sw_arena_takes(t->run.scratch) == scratch + 1);
}

/* ---- transients ------------------------------------------------------------------------------------------------- */

static void at_the_steady_state_no_node_gains_heat(sw_test *t)
{
    net_scene *n = ns_new(t);
    ns_stove p;
    sw_heat_net *net;
    sw_heat_state s;
    if (!stove(t, n, &p, 0.03, 9000, &net, &s)) return;
    double *flux = SW_KEEP(&t->run, sw_heat_net_nodes(net), double);
    if (!sw_ok(t, sw_heat_net_flux(&t->run, net, &n->fire, &n->room, &s, flux))) return;
    for (size_t i = 0; i < sw_heat_net_nodes(net); i++) sw_near(t, flux[i], 0, 0.05, "steady");
}

static void a_cold_stove_stores_what_it_does_not_give_off(sw_test *t)
{
    net_scene *n = ns_new(t);
    ns_box_in_box(n, 0.03, 1);
    sw_heat_net *net;
    sw_heat_state s = {0};
    if (!sw_ok(t, sw_heat_net_make(&t->run, &n->s, &n->model, &net))) return;
    size_t count = sw_heat_net_nodes(net);
    double *flux = SW_KEEP(&t->run, count, double);
    s.t_k = SW_KEEP(&t->run, count, double);
    for (size_t i = 0; i < count; i++) s.t_k[i] = n->room.air_k;
    if (!sw_ok(t, sw_heat_net_flux(&t->run, net, &n->fire, &n->room, &s, flux))) return;
    double sum = 0;
    for (size_t i = 0; i < count; i++) sum += flux[i];
    sw_near(t, s.stored_w, sum, 1e-9, "sum");
    sw_near(t, s.residual_w, 0, 0.01, "first law");
    sw_true(t, s.stored_w > 0.5 * n->fire.heat_w);
}

static void heating_up_in_steps_ends_at_the_steady_state(sw_test *t)
{
    net_scene *n = ns_new(t);
    ns_stove p;
    sw_heat_net *net;
    sw_heat_state steady, s = {0};
    if (!stove(t, n, &p, 0.03, 9000, &net, &steady)) return;
    size_t count = sw_heat_net_nodes(net);
    double *flux = SW_KEEP(&t->run, count, double), *capacity = SW_KEEP(&t->run, count, double);
    s.t_k = SW_KEEP(&t->run, count, double);
    for (size_t i = 0; i < count; i++) s.t_k[i] = n->room.air_k;
    for (int step = 0; step < 8000; step++) {
        if (sw_heat_net_flux(&t->run, net, &n->fire, &n->room, &s, flux) != SW_OK) break;
        sw_heat_net_capacity(net, s.t_k, capacity);
        for (size_t i = 0; i < count; i++)
            if (capacity[i] > 0) s.t_k[i] += 10.0 * flux[i] / capacity[i];
    }
    for (size_t i = 0; i < count; i++) sw_near(t, s.t_k[i], steady.t_k[i], 1.0, "steady state");
}

static void capacity_is_the_mass_times_the_materials(sw_test *t)
{
    net_scene *n = ns_new(t);
    ns_stove p;
    sw_heat_net *net;
    sw_heat_state s;
    if (!stove(t, n, &p, 0.03, 9000, &net, &s)) return;
    double *c = SW_KEEP(&t->run, sw_heat_net_nodes(net), double);
    sw_heat_net_capacity(net, s.t_k, c);
    size_t shell = sw_heat_net_node(net, p.shell, false), hot = sw_heat_net_node(net, p.board, true);
    sw_near(t, c[shell], n->parts[p.shell].mass_kg * sw_material_capacity(n->parts[p.shell].material, s.t_k[shell]),
            1e-9, "m c");
    sw_near(t, c[hot], 0.5 * n->parts[p.board].mass_kg * sw_material_capacity(n->parts[p.board].material, s.t_k[hot]),
            1e-9, "half a board");
    for (int g = 0; g < SW_GAS_NODES; g++) sw_true(t, c[sw_heat_net_gas(net, g)] == 0);
}

/* ---- made-up networks ---------------------------------------------------------------------------------------------- */

static void random_part(net_scene *n, sw_random *r, size_t i)
{
    static const char *const materials[] = {"S235", "1.4301", "vermiculite board", "glass-ceramic"};
    static const sw_part_class kinds[] = {SW_PART_WALL, SW_PART_BAFFLE, SW_PART_LINING,
                                          SW_PART_PANE, SW_PART_SHELL,  SW_PART_DOOR};
    sw_part_class kind = kinds[sw_random_below(r, 6)];
    const char *material = kind == SW_PART_LINING ? materials[2]
                           : kind == SW_PART_PANE ? materials[3]
                                                  : materials[i % 2];
    size_t part =
        ns_part(n, "part", kind, material, sw_random_between(r, 0.02, 0.4), sw_random_between(r, 0.002, 0.04));
    size_t faces = 1 + sw_random_below(r, 2);
    for (size_t f = 0; f < faces; f++) {
        sw_medium m = f == 0 && i < 3 ? SW_MEDIUM_FIRE : (sw_medium)sw_random_below(r, SW_MEDIA);
        size_t s = ns_surface(n, part, m, sw_random_between(r, 0.02, 0.4), sw_random_between(r, 0.05, 1),
                              sw_random_between(r, 0, 0.8));
        n->surfaces[s].up = sw_random_unit(r);
        n->surfaces[s].down = sw_random_unit(r);
        n->surfaces[s].middle_z_m = sw_random_between(r, 0, 1);
        n->surfaces[s].hot_side = n->parts[part].layered && (m == SW_MEDIUM_FIRE || sw_random_below(r, 2) == 0);
    }
}

static void random_scene(net_scene *n, uint64_t seed)
{
    sw_random r = sw_random_seeded(seed);
    size_t parts = 4 + sw_random_below(&r, NS_PARTS - 4);
    for (size_t i = 0; i < parts; i++) random_part(n, &r, i);
    for (int m = 0; m < SW_MEDIA; m++) {
        if (m != SW_MEDIUM_ROOM || seed % 2 == 0) ns_mix_views(n, (sw_medium)m);
        for (size_t i = 0; m == SW_MEDIUM_ROOM && i < n->s.surface_count; i++) /* every part sees some room */
            ns_view(n, i, n->s.surface_count, sw_random_between(&r, 0.01, 0.5) * n->surfaces[i].area_m2);
    }
    for (size_t i = 0; i < NS_CONTACTS / 2; i++)
        ns_contact(n, sw_random_below(&r, parts), sw_random_below(&r, parts), sw_random_between(&r, 0, 0.1),
                   i % 3 == 0 ? sw_random_between(&r, 0, 0.005) : 0, i % 3 == 1 ? sw_random_between(&r, 0.05, 1) : 0);
    n->s.firebox_m3 = sw_random_between(&r, 0.01, 0.08);
    n->s.firebox_m2 = sw_random_between(&r, 0.3, 1);
    n->s.upper_m3 = seed % 3 == 0 ? 0 : sw_random_between(&r, 0.001, 0.02);
    n->s.upper_m2 = sw_random_between(&r, 0.1, 0.5);
    n->s.gap_height_m = sw_random_between(&r, 0, 1);
    n->s.gap_width_m = sw_random_between(&r, 0.005, 0.06);
    n->s.gap_m2 = seed % 5 == 0 ? 0 : sw_random_between(&r, 0.003, 0.05);
    n->model.flame_share = sw_random_unit(&r);
    n->model.soot_k_1_m = sw_random_between(&r, 0, 3);
    n->fire = wood_fire(sw_random_between(&r, 500, 12000));
    n->room.walls_k = sw_random_between(&r, 280, 310);
}

static void energy_closes_in_any_network(sw_test *t)
{
    for (uint64_t seed = 1; seed <= 150; seed++) {
        net_scene *n = ns_new(t);
        sw_heat_net *net;
        sw_heat_state s;
        t->seed = seed;
        random_scene(n, seed);
        if (!ns_steady(t, n, &net, &s)) return;
        if (!sw_near(t, s.residual_w, 0, 0.02, "first law")) return;
        double low = fmin(n->room.air_k, n->room.walls_k) - 1e-3;
        for (size_t i = 0; i < sw_heat_net_nodes(net); i++)
            if (!sw_true(t, s.t_k[i] >= low)) return;
    }
    t->seed = 0;
}

static void radiation_alone_brings_all_to_the_walls_temperature(sw_test *t)
{
    for (uint64_t seed = 1; seed <= 40; seed++) {
        net_scene *n = ns_new(t);
        sw_heat_net *net;
        sw_heat_state s;
        t->seed = seed;
        random_scene(n, seed);
        n->room.air_k = n->room.walls_k = 330;
        n->fire = ns_air_fire(0, 5e-3, 330);
        if (!ns_steady(t, n, &net, &s)) return;
        for (size_t i = 0; i < n->s.part_count; i++)
            if (!sw_near(t, ns_part_c(net, &s, i, false), sw_c_from_k(330), 0.05, "second law")) return;
    }
    t->seed = 0;
}

/* ---- what it refuses --------------------------------------------------------------------------------------------- */

static const char *first_text(const sw_test *t)
{
    return t->run.error_count > 0 ? t->run.errors[0].text : "";
}

static void a_fire_beyond_all_bounds_is_told_not_settled(sw_test *t)
{
    net_scene *n = ns_new(t);
    ns_box_in_box(n, 0.03, 1);
    n->fire.heat_w = 1e9;
    sw_heat_net *net;
    sw_heat_state s = {0};
    if (!sw_ok(t, sw_heat_net_make(&t->run, &n->s, &n->model, &net))) return;
    sw_true(t, sw_heat_net_steady(&t->run, net, &n->fire, &n->room, &s) == SW_NO_SOLUTION);
    sw_contains(t, first_text(t), "not settled after");
    sw_contains(t, first_text(t), "W left at ");
    sw_contains(t, first_text(t), "nothing of it is a result");
}

static void a_surface_without_emissivity_is_refused_by_its_parts_name(sw_test *t)
{
    net_scene *n = ns_new(t);
    ns_box_in_box(n, 0.03, 1);
    n->surfaces[3].emissivity = NAN;
    n->surfaces[11].emissivity = 0;
    sw_heat_net *net;
    sw_true(t, sw_heat_net_make(&t->run, &n->s, &n->model, &net) == SW_BAD_INPUT && net == NULL);
    sw_true(t, t->run.error_count == 2);
    sw_contains(t, first_text(t), "emissivity nan of its surface is outside 0 to 1");
    sw_same_text(t, t->run.errors[0].field, "baffle");
    sw_same_text(t, t->run.errors[1].field, "shell");
}

static void a_part_of_unknown_material_is_refused(sw_test *t)
{
    net_scene *n = ns_new(t);
    ns_box_in_box(n, 0.03, 1);
    n->parts[1].material = NULL;
    n->parts[2].mass_kg = NAN;
    sw_heat_net *net;
    sw_true(t, sw_heat_net_make(&t->run, &n->s, &n->model, &net) == SW_BAD_INPUT);
    sw_true(t, t->run.error_count == 2);
    sw_contains(t, first_text(t), "no material known of it");
}

static void moments_that_cannot_be_are_refused_each(sw_test *t)
{
    net_scene *n = ns_new(t);
    ns_box_in_box(n, 0.03, 1);
    sw_heat_net *net;
    sw_heat_state s = {0};
    if (!sw_ok(t, sw_heat_net_make(&t->run, &n->s, &n->model, &net))) return;
    n->fire.heat_w = NAN;
    n->fire.gas_kg_s = -1;
    n->room.walls_k = 20;
    sw_true(t, sw_heat_net_steady(&t->run, net, &n->fire, &n->room, &s) == SW_OUT_OF_RANGE);
    sw_true(t, t->run.error_count == 3);
    sw_same_text(t, t->run.errors[2].field, "room.walls_k");
}

static void gas_of_nothing_is_refused(sw_test *t)
{
    net_scene *n = ns_new(t);
    ns_box_in_box(n, 0.03, 1);
    memset(&n->fire.gas, 0, sizeof n->fire.gas);
    sw_heat_net *net;
    sw_heat_state s = {0};
    if (!sw_ok(t, sw_heat_net_make(&t->run, &n->s, &n->model, &net))) return;
    sw_true(t, sw_heat_net_steady(&t->run, net, &n->fire, &n->room, &s) == SW_BAD_INPUT);
    sw_contains(t, first_text(t), "gas flows, but of what is not given");
}

static void views_contacts_and_constants_out_of_bounds_are_refused(sw_test *t)
{
    net_scene *n = ns_new(t);
    ns_box_in_box(n, 0.03, 1);
    n->contacts[0].b = 99;
    n->view_m2[5] = -1;
    sw_heat_net *net;
    sw_true(t, sw_heat_net_make(&t->run, &n->s, &n->model, &net) == SW_BAD_INPUT && t->run.error_count == 2);
    n->model.flame_share = 1.5;
    sw_true(t, sw_heat_net_make(&t->run, &n->s, &n->model, &net) == SW_OUT_OF_RANGE);
    sw_scene empty = {.view_m2 = n->view_m2};
    n->model = sw_heat_model_defaults();
    sw_true(t, sw_heat_net_make(&t->run, &empty, &n->model, &net) == SW_BAD_INPUT);
}

static void every_allocation_may_fail(sw_test *t)
{
    net_scene *n = ns_new(t);
    ns_box_in_box(n, 0.03, 1);
    for (int which = 0; which < 2; which++) {
        bool refused = true;
        for (size_t nth = 1; refused && nth < 200; nth++) {
            sw_heat_net *net;
            sw_heat_state s = {0};
            sw_arena *arena = which ? t->run.scratch : t->run.keep;
            sw_arena_fail_at(arena, nth);
            sw_status status = sw_heat_net_make(&t->run, &n->s, &n->model, &net);
            if (status == SW_OK) status = sw_heat_net_steady(&t->run, net, &n->fire, &n->room, &s);
            sw_arena_fail_at(arena, 0);
            refused = status != SW_OK;
            if (refused && !sw_true(t, status == SW_NO_MEMORY)) return;
            sw_run_clear_errors(&t->run);
        }
        sw_true(t, !refused);
    }
}

SW_TESTS(SW_CASE(heat_in_is_heat_out), SW_CASE(more_fuel_makes_everything_hotter),
         SW_CASE(a_thicker_lining_keeps_the_wall_cooler_and_the_fire_hotter),
         SW_CASE(without_a_fire_everything_has_the_rooms_temperature), SW_CASE(nothing_is_hotter_than_the_flame),
         SW_CASE(the_start_does_not_change_the_answer), SW_CASE(a_second_solve_takes_no_memory),
         SW_CASE(at_the_steady_state_no_node_gains_heat), SW_CASE(a_cold_stove_stores_what_it_does_not_give_off),
         SW_CASE(heating_up_in_steps_ends_at_the_steady_state), SW_CASE(capacity_is_the_mass_times_the_materials),
         SW_CASE(energy_closes_in_any_network), SW_CASE(radiation_alone_brings_all_to_the_walls_temperature),
         SW_CASE(a_fire_beyond_all_bounds_is_told_not_settled),
         SW_CASE(a_surface_without_emissivity_is_refused_by_its_parts_name),
         SW_CASE(a_part_of_unknown_material_is_refused), SW_CASE(moments_that_cannot_be_are_refused_each),
         SW_CASE(gas_of_nothing_is_refused), SW_CASE(views_contacts_and_constants_out_of_bounds_are_refused),
         SW_CASE(every_allocation_may_fail))
