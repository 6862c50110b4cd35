/* Networks of spaces and ways: closed forms, laws that hold for any network, wrong ones. */
#include "burning/air/air.h"
#include "sw_test.h"

#include <math.h>
#include <string.h>

static const double room_k = 293.15;
static const char *const orifice = "handbook F3.4, computed from the orifice law";

enum { MOST_SPACES = 8, MOST_WAYS = 24 };

typedef struct net {
    sw_air_space spaces[MOST_SPACES];
    sw_air_way ways[MOST_WAYS];
    sw_air_network n;
    sw_air_solution s;
} net;

static net *new_net(sw_test *t, size_t spaces, size_t ways)
{
    net *x = SW_KEEP(&t->run, 1, net);
    x->n = (sw_air_network){x->spaces, spaces, x->ways, ways};
    for (size_t i = 0; i < MOST_SPACES; i++) x->spaces[i] = (sw_air_space){.name = "space", .t_k = room_k};
    for (size_t i = 0; i < MOST_WAYS; i++)
        x->ways[i] = (sw_air_way){.name = "way", .kind = "leak", .cd = 0.62, .gas_k = NAN};
    x->spaces[0].fixed = true;
    return x;
}

static void join(net *x, size_t way, size_t from, size_t to, double area_mm2)
{
    x->ways[way].from = from;
    x->ways[way].to = to;
    x->ways[way].area_m2 = sw_m2_from_mm2(area_mm2);
}

static void fix(net *x, size_t space, double pressure_pa)
{
    x->spaces[space].fixed = true;
    x->spaces[space].pressure_pa = pressure_pa;
}

static double flow(const net *x, size_t way)
{
    return x->s.flows[way].kg_s;
}

/* ---- one opening -------------------------------------------------------------------------------------------------- */

static net *one_opening(sw_test *t, double area_mm2, double cd, double pressure_pa, double gas_k)
{
    net *x = new_net(t, 2, 1);
    fix(x, 1, -pressure_pa);
    join(x, 0, 0, 1, area_mm2);
    x->ways[0].cd = cd;
    x->ways[0].gas_k = gas_k;
    sw_ok(t, sw_air_network_solve(&t->run, &x->n, &x->s));
    return x;
}

static void free_areas_of_the_handbook_pass_the_air_of_a_stove(sw_test *t)
{
    static const double rows[][2] = {{5, 2986}, {8, 2360}, {10, 2111}, {12, 1927}};
    for (size_t i = 0; i < 4; i++) {
        const net *x = one_opening(t, rows[i][1], 0.62, rows[i][0], (double)NAN);
        sw_near(t, flow(x, 0), 6.42e-3, 5e-6, orifice);
        sw_near(t, sw_mm2_from_m2(sw_air_area_m2(6.42e-3, 0.62, 1.204, rows[i][0])), rows[i][1], 2, orifice);
    }
}

static void air_at_ten_pascal_leaves_a_sharp_hole_at_four_metres_a_second(sw_test *t)
{
    const net *x = one_opening(t, 1000, 0.62, 10, (double)NAN);
    sw_near(t, x->s.flows[0].velocity_m_s / 0.62, 4.08, 5e-3, orifice);
    sw_near(t, x->s.flows[0].pressure_pa, 10, 1e-12, "derived: both pressures are known");
    sw_near(t, x->s.flows[0].share, 1, 1e-12, "derived: the only way");
}

static void jet_holes_pass_less_mass_of_hot_air(sw_test *t)
{
    double area_mm2 = 24 * SW_PI / 4 * 4 * 4;
    sw_near(t, flow(one_opening(t, area_mm2, 0.62, 10, (double)NAN), 0), 0.918e-3, 5e-7, "handbook E3, computed");
    sw_near(t, flow(one_opening(t, area_mm2, 0.62, 10, 573.15), 0), 0.656e-3, 5e-7, "handbook E3, computed");
}

static void round_hole_with_a_short_tube_passes_what_the_handbook_says(sw_test *t)
{
    sw_near(t, flow(one_opening(t, SW_PI / 4 * 30 * 30, 0.80, 6, (double)NAN), 0), 2.150e-3, 5e-7,
            "handbook E30, computed");
}

static void network_follows_the_orifice_law_of_transfer(sw_test *t)
{
    for (double pa = -20; pa < 21; pa += 4.5) {
        const net *x = one_opening(t, 700, 0.7, pa, (double)NAN);
        double want = sw_orifice_kg_s(0.7, 700e-6, sw_air_density(room_k), pa);
        if (!sw_near(t, flow(x, 0), want, 1e-8 * fabs(want), "agreement with sw_orifice_kg_s")) return;
    }
}

/* ---- several openings --------------------------------------------------------------------------------------------- */

static void openings_in_series_share_the_pressure_by_one_over_area_squared(sw_test *t)
{
    net *x = new_net(t, 3, 2);
    fix(x, 2, -12);
    join(x, 0, 0, 1, 2000);
    join(x, 1, 1, 2, 4000);
    sw_ok(t, sw_air_network_solve(&t->run, &x->n, &x->s));
    sw_near(t, x->s.pressure_pa[1], -12 * 4.0 / 5, 1e-6, "derived: dp1/dp2 = (A2/A1)2");
    double both_m2 = sw_air_series_m2(2000e-6, 4000e-6);
    sw_near(t, both_m2, 2000e-6 / sqrt(1.25), 1e-15, "derived: 1/A2 = sum of 1/A2");
    sw_near(t, flow(x, 0), sw_orifice_kg_s(0.62, both_m2, sw_air_density(room_k), 12), 1e-10, "derived: one opening");
    sw_near(t, flow(x, 0), flow(x, 1), 1e-12, "balance of mass");
    sw_true(t, sw_air_series_m2(0, 1) == 0 && sw_air_series_m2(1, 0) == 0);
}

static void openings_in_parallel_add_their_areas(sw_test *t)
{
    net *x = new_net(t, 3, 4);
    fix(x, 2, -10);
    for (size_t i = 0; i < 3; i++) join(x, i, 0, 1, 300 * (double)(i + 1));
    join(x, 3, 1, 2, 1800);
    sw_ok(t, sw_air_network_solve(&t->run, &x->n, &x->s));
    sw_near(t, x->s.pressure_pa[1], -5, 1e-7, "derived: as much area in as out");
    for (size_t i = 0; i < 3; i++) sw_near(t, x->s.flows[i].share, (double)(i + 1) / 6, 1e-9, "derived: by area");
}

static void balanced_bridge_carries_nothing(sw_test *t)
{
    net *x = new_net(t, 4, 5);
    fix(x, 3, -8);
    join(x, 0, 0, 1, 500);
    join(x, 1, 0, 2, 500);
    join(x, 2, 1, 3, 900);
    join(x, 3, 2, 3, 900);
    join(x, 4, 1, 2, 700);
    sw_ok(t, sw_air_network_solve(&t->run, &x->n, &x->s));
    sw_near(t, flow(x, 4), 0, 1e-12, "symmetry");
    sw_near(t, x->s.pressure_pa[1], x->s.pressure_pa[2], 1e-9, "symmetry");
    sw_near(t, flow(x, 0), flow(x, 1), 1e-12, "symmetry");
}

static void gas_that_comes_into_being_leaves_with_the_rest(sw_test *t)
{
    net *x = new_net(t, 3, 2);
    fix(x, 2, -12);
    join(x, 0, 0, 1, 2000);
    join(x, 1, 1, 2, 4000);
    x->spaces[1].source_kg_s = 0.6e-3;
    sw_ok(t, sw_air_network_solve(&t->run, &x->n, &x->s));
    sw_near(t, flow(x, 1) - flow(x, 0), 0.6e-3, 1e-11, "balance of mass");
}

/* ---- buoyancy ------------------------------------------------------------------------------------------------------ */

static void leg_of_hot_gas_draws_by_its_height_and_lack_of_density(sw_test *t)
{
    sw_near(t, sw_air_leg_pa(0.9, room_k, sw_k_from_c(47.9)), 0.92, 5e-3,
            "handbook E17, computed: buoyancy of a convection gap");
    sw_near(t, sw_air_leg_pa(1, room_k, room_k), 0, 0, "derived: no difference of density");
    sw_near(t, sw_air_leg_pa(1, 273.15, 773.15), SW_GRAVITY * (1.2923 - 0.4565), 2e-3,
            "densities at 0 and 500 degC: ISO 2533 (from memory)");
    sw_true(t, isnan(sw_air_density(0)) && isnan(sw_air_density(-3)));
}

/* Cold air in below, hot gas out above: A2 rho_i (H - z) = A1 rho_o z, the neutral plane z above the lower one. */
static void hot_box_breathes_about_its_neutral_plane(sw_test *t)
{
    net *x = new_net(t, 2, 2);
    double hot_k = 773.15, height_m = 0.6, cold = sw_air_density(room_k), hot = sw_air_density(hot_k);
    x->spaces[1].t_k = hot_k;
    x->spaces[1].height_m = 0.3;
    join(x, 0, 0, 1, 1000);
    join(x, 1, 1, 0, 1500);
    x->ways[0].height_m = 0.2;
    x->ways[1].height_m = 0.2 + height_m;
    sw_ok(t, sw_air_network_solve(&t->run, &x->n, &x->s));
    double ratio = cold / hot / (1.5 * 1.5), plane_m = height_m * ratio / (1 + ratio); /* dp_in / dp_out = (m/A)2/rho */
    double below_m = height_m - plane_m, lift_pa = SW_GRAVITY * (cold - hot);
    double in_pa = x->s.flows[0].pressure_pa, out_pa = x->s.flows[1].pressure_pa;
    sw_near(t, in_pa + out_pa, lift_pa * height_m, 1e-9, "hydrostatics: the whole column");
    sw_near(t, in_pa / out_pa, (1.5 * 1.5) * hot / cold, 1e-6, "derived: same mass through both");
    sw_near(t, out_pa, lift_pa * plane_m, 1e-6, "derived: neutral plane");
    sw_near(t, in_pa, lift_pa * below_m, 1e-6, "derived: neutral plane");
    sw_true(t, flow(x, 0) > 0 && flow(x, 1) > 0);
}

static void height_at_which_a_pressure_is_told_does_not_matter(sw_test *t)
{
    net *low = new_net(t, 2, 2), *high = new_net(t, 2, 2);
    net *const both[] = {low, high};
    for (int i = 0; i < 2; i++) {
        net *x = both[i];
        x->spaces[1].t_k = 900;
        x->spaces[1].height_m = 0.7 * i;
        join(x, 0, 0, 1, 1000);
        join(x, 1, 0, 1, 800);
        x->ways[0].height_m = 0.1;
        x->ways[1].height_m = 0.9;
        sw_ok(t, sw_air_network_solve(&t->run, &x->n, &x->s));
    }
    sw_near(t, flow(low, 0), flow(high, 0), 1e-9 * flow(low, 0), "invariance");
    sw_near(t, high->s.pressure_pa[1] - low->s.pressure_pa[1], sw_air_leg_pa(0.7, room_k, 900), 1e-7, "hydrostatics");
}

static void closed_column_stands_still(sw_test *t)
{
    net *x = new_net(t, 2, 1);
    x->spaces[1].t_k = 700;
    join(x, 0, 0, 1, 1000);
    x->ways[0].height_m = 0.5;
    sw_ok(t, sw_air_network_solve(&t->run, &x->n, &x->s));
    sw_near(t, flow(x, 0), 0, 1e-13, "balance of mass: a dead end");
    sw_near(t, x->s.pressure_pa[1], -sw_air_leg_pa(0.5, room_k, 700), 1e-9, "hydrostatics");
}

/* ---- ducts ----------------------------------------------------------------------------------------------------------- */

static net *one_duct(sw_test *t, double d_mm, double length_m, double pressure_pa)
{
    net *x = new_net(t, 2, 1);
    fix(x, 1, -pressure_pa);
    join(x, 0, 0, 1, SW_PI / 4 * d_mm * d_mm);
    x->ways[0].cd = 0.8;
    x->ways[0].length_m = length_m;
    x->ways[0].hydraulic_m = sw_m_from_mm(d_mm);
    sw_ok(t, sw_air_network_solve(&t->run, &x->n, &x->s));
    return x;
}

static void duct_loses_what_friction_and_fittings_take(sw_test *t)
{
    static const double pressures[] = {1e-7, 1e-3, 0.02, 0.1, 0.5, 2, 10, 100};
    sw_air air = sw_air_at(room_k);
    for (size_t i = 0; i < 8; i++) {
        const net *x = one_duct(t, 100, 3, pressures[i]);
        double v = x->s.flows[0].velocity_m_s, re = v * 0.1 / air.kinematic;
        double loss = 1 / 0.64 + sw_friction_churchill(re, 0.09e-3 / 0.1) * 3 / 0.1;
        if (!sw_near(t, loss * sw_air_density(room_k) * v * v / 2, pressures[i], 2e-4 * pressures[i],
                     "losses in series: sum of zeta and f L/D"))
            return;
    }
}

static void narrow_duct_is_laminar(sw_test *t)
{
    const net *x = one_duct(t, 5, 2, 2);
    double v = 2 * 0.005 * 0.005 / (32 * sw_air_at(room_k).viscosity * 2);
    sw_near(t, x->s.flows[0].velocity_m_s, v, 0.03 * v, "Hagen-Poiseuille: dp = 32 mu L v/D2, fittings 2 %");
    sw_true(t, flow(x, 0) > 0 && x->s.flows[0].velocity_m_s < v);
    sw_near(t, flow(one_duct(t, 5, 2, -2), 0), -flow(x, 0), 1e-12 * flow(x, 0), "symmetry");
}

static void short_duct_is_an_opening(sw_test *t)
{
    const net *duct = one_duct(t, 60, 1e-9, 7), *hole = one_opening(t, SW_PI / 4 * 3600, 0.8, 7, (double)NAN);
    sw_near(t, flow(duct, 0), flow(hole, 0), 1e-8 * flow(hole, 0), "derived: no length, no friction");
}

/* ---- laws for any network ---------------------------------------------------------------------------------------------- */

/* A chain that surely hangs together, and ways anywhere. hot: temperatures and heights differ, areas by more. */
static net *random_net(sw_test *t, uint64_t seed, bool hot)
{
    sw_random r = sw_random_seeded(seed);
    size_t spaces = 3 + sw_random_below(&r, MOST_SPACES - 3),
           ways = spaces + sw_random_below(&r, MOST_WAYS / 2 - spaces + 1);
    net *x = new_net(t, spaces, ways);
    fix(x, spaces - 1, -sw_random_between(&r, 1, 30));
    for (size_t i = 0; i < ways; i++) {
        size_t from = i + 1 < spaces ? i : sw_random_below(&r, spaces), to = sw_random_below(&r, spaces - 1);
        if (i + 1 < spaces) to = i + 1;
        join(x, i, from, to == from ? spaces - 1 - (from == spaces - 1) : to,
             pow(10, sw_random_between(&r, hot ? 1 : 2, hot ? 4.5 : 3)));
        x->ways[i].cd = sw_random_between(&r, 0.5, 0.95);
        if (hot) x->ways[i].height_m = sw_random_between(&r, 0, 1.5);
    }
    for (size_t i = 1; hot && i < spaces; i++) {
        x->spaces[i].t_k = sw_random_between(&r, 280, 1400);
        x->spaces[i].height_m = sw_random_between(&r, 0, 1.5);
    }
    return x;
}

static double most_flow(const net *x)
{
    double most = 0;
    for (size_t i = 0; i < x->n.way_count; i++) most = fmax(most, fabs(flow(x, i)));
    return most;
}

static bool mass_closes(sw_test *t, const net *x)
{
    for (size_t k = 0; k < x->n.space_count; k++) {
        double sum = x->spaces[k].source_kg_s;
        for (size_t i = 0; i < x->n.way_count; i++)
            sum += (x->ways[i].to == k ? flow(x, i) : 0) - (x->ways[i].from == k ? flow(x, i) : 0);
        if (!x->spaces[k].fixed && !sw_near(t, sum, 0, x->s.residual_kg_s + 1e-13 * most_flow(x), "balance of mass"))
            return false;
    }
    return sw_true(t, x->s.residual_kg_s <= 2e-8 * most_flow(x) && x->s.rounds < 30);
}

static void mass_closes_in_every_space(sw_test *t)
{
    for (t->seed = 1; t->seed <= 2000; t->seed++) {
        net *x = random_net(t, t->seed, t->seed % 2 == 0);
        if (t->seed % 3 == 0) x->spaces[1].source_kg_s = 1e-3;
        if (t->seed % 5 == 0) {
            x->ways[0].length_m = 2;
            x->ways[0].hydraulic_m = sqrt(x->ways[0].area_m2);
        }
        if (!sw_ok(t, sw_air_network_solve(&t->run, &x->n, &x->s)) || !mass_closes(t, x)) return;
    }
    t->seed = 0;
}

static void isothermal_flows_grow_with_the_root_of_the_draught(sw_test *t)
{
    for (t->seed = 1; t->seed <= 300; t->seed++) {
        net *x = random_net(t, t->seed, false), *y = random_net(t, t->seed, false);
        size_t last = x->n.space_count - 1;
        x->spaces[last].pressure_pa *= 30; /* far from the smoothing about zero */
        y->spaces[last].pressure_pa = 4 * x->spaces[last].pressure_pa;
        sw_ok(t, sw_air_network_solve(&t->run, &x->n, &x->s));
        sw_ok(t, sw_air_network_solve(&t->run, &y->n, &y->s));
        for (size_t i = 0; i < x->n.way_count; i++)
            if (!sw_near(t, flow(y, i), 2 * flow(x, i), 1e-4 * most_flow(x), "derived: m ~ sqrt(dp)")) return;
    }
    t->seed = 0;
}

static void reversing_all_pressures_reverses_all_flows(sw_test *t)
{
    for (t->seed = 1; t->seed <= 300; t->seed++) {
        net *x = random_net(t, t->seed, false), *y = random_net(t, t->seed, false);
        size_t last = x->n.space_count - 1;
        y->spaces[last].pressure_pa = -x->spaces[last].pressure_pa;
        sw_ok(t, sw_air_network_solve(&t->run, &x->n, &x->s));
        sw_ok(t, sw_air_network_solve(&t->run, &y->n, &y->s));
        for (size_t i = 0; i < x->n.way_count; i++)
            if (!sw_near(t, flow(y, i), -flow(x, i), 1e-8 * most_flow(x), "symmetry of the orifice law")) return;
    }
    t->seed = 0;
}

static double drawn_kg_s(const net *x)
{
    size_t last = x->n.space_count - 1;
    double sum = 0;
    for (size_t i = 0; i < x->n.way_count; i++)
        sum += (x->ways[i].to == last ? flow(x, i) : 0) - (x->ways[i].from == last ? flow(x, i) : 0);
    return sum;
}

static void more_draught_draws_more(sw_test *t)
{
    for (t->seed = 1; t->seed <= 300; t->seed++) {
        net *x = random_net(t, t->seed, true);
        double before = -INFINITY;
        for (double pa = 0.5; pa < 60; pa *= 1.7) {
            x->spaces[x->n.space_count - 1].pressure_pa = -pa;
            if (!sw_ok(t, sw_air_network_solve(&t->run, &x->n, &x->s))) return;
            if (!sw_true(t, drawn_kg_s(x) > before)) return;
            before = drawn_kg_s(x);
        }
    }
    t->seed = 0;
}

static void splitting_an_opening_changes_nothing(sw_test *t)
{
    for (t->seed = 1; t->seed <= 300; t->seed++) {
        net *x = random_net(t, t->seed, true), *y = random_net(t, t->seed, true);
        size_t cut = t->seed % x->n.way_count, extra = y->n.way_count++;
        y->ways[extra] = y->ways[cut];
        y->ways[extra].area_m2 = 0.3 * y->ways[cut].area_m2;
        y->ways[cut].area_m2 *= 0.7;
        sw_ok(t, sw_air_network_solve(&t->run, &x->n, &x->s));
        sw_ok(t, sw_air_network_solve(&t->run, &y->n, &y->s));
        double both = flow(y, cut) + flow(y, extra);
        if (!sw_near(t, both, flow(x, cut), 1e-8 * most_flow(x), "invariance")) return;
        for (size_t k = 0; k < x->n.space_count; k++)
            if (!sw_near(t, y->s.pressure_pa[k], x->s.pressure_pa[k], 1e-6, "invariance")) return;
    }
    t->seed = 0;
}

static void warm_start_gives_the_same_answer_in_no_round(sw_test *t)
{
    for (t->seed = 1; t->seed <= 300; t->seed++) {
        net *x = random_net(t, t->seed, true);
        sw_ok(t, sw_air_network_solve(&t->run, &x->n, &x->s));
        double first = flow(x, 0);
        sw_ok(t, sw_air_network_solve(&t->run, &x->n, &x->s));
        if (!sw_true(t, x->s.rounds == 0 && flow(x, 0) == first)) return;
        x->spaces[1].t_k += 30;
        sw_ok(t, sw_air_network_solve(&t->run, &x->n, &x->s));
        sw_air_solution cold = {0};
        sw_ok(t, sw_air_network_solve(&t->run, &x->n, &cold));
        if (!sw_near(t, flow(x, 0), cold.flows[0].kg_s, 1e-7 * most_flow(x) + 1e-12, "unique answer")) return;
    }
    t->seed = 0;
}

static void solving_again_takes_no_memory(sw_test *t)
{
    net *x = random_net(t, 5, true);
    sw_ok(t, sw_air_network_solve(&t->run, &x->n, &x->s));
    size_t keep = sw_arena_takes(t->run.keep), scratch = sw_arena_takes(t->run.scratch);
    for (int i = 0; i < 50; i++) {
        x->spaces[1].t_k = 300 + 20 * i;
        x->ways[0].area_m2 *= 1.02;
        sw_ok(t, sw_air_network_solve(&t->run, &x->n, &x->s));
    }
    sw_true(t, sw_arena_takes(t->run.keep) == keep && sw_arena_takes(t->run.scratch) == scratch);
    x->n.way_count++;
    x->ways[x->n.way_count - 1] = x->ways[0];
    sw_ok(t, sw_air_network_solve(&t->run, &x->n, &x->s));
    mass_closes(t, x);
}

static void every_refused_request_for_memory_is_told(sw_test *t)
{
    for (size_t nth = 1; nth <= 7; nth++) {
        net *x = random_net(t, 5, true);
        sw_arena_fail_at(t->run.keep, nth);
        if (!sw_true(t, sw_air_network_solve(&t->run, &x->n, &x->s) == SW_NO_MEMORY)) return;
        sw_arena_fail_at(t->run.keep, 0);
    }
}

/* ---- wrong networks ------------------------------------------------------------------------------------------------------ */

static net *good_net(sw_test *t)
{
    net *x = new_net(t, 3, 2);
    fix(x, 2, -12);
    join(x, 0, 0, 1, 2000);
    join(x, 1, 1, 2, 4000);
    return x;
}

static const char *last_text(const sw_test *t)
{
    return t->run.error_count > 0 ? t->run.errors[t->run.error_count - 1].text : "";
}

static void fails(sw_test *t, net *x, sw_status status, const char *part)
{
    sw_run_clear_errors(&t->run);
    sw_true(t, sw_air_network_solve(&t->run, &x->n, &x->s) == status);
    sw_contains(t, last_text(t), part);
}

static void space_that_nothing_reaches_is_named(sw_test *t)
{
    net *x = good_net(t);
    x->spaces[1].name = "ash box";
    x->ways[0].area_m2 = x->ways[1].area_m2 = 0;
    x->n.way_count = 3;
    join(x, 2, 0, 2, 100);
    fails(t, x, SW_BAD_INPUT, "space \"ash box\": no open way leads from it to a known pressure");
}

static void network_without_an_opening_is_refused(sw_test *t)
{
    net *x = good_net(t);
    x->ways[0].area_m2 = x->ways[1].area_m2 = 0;
    fails(t, x, SW_BAD_INPUT, "no opening at all");
    x->n.way_count = 0;
    fails(t, x, SW_BAD_INPUT, "no opening at all");
}

static void network_without_a_known_pressure_is_refused(sw_test *t)
{
    net *x = good_net(t);
    x->spaces[0].fixed = x->spaces[2].fixed = false;
    fails(t, x, SW_BAD_INPUT, "none of the 3 spaces has a known pressure");
}

static void way_from_a_space_to_itself_or_nowhere_is_refused(sw_test *t)
{
    net *x = good_net(t);
    x->ways[0].to = 0;
    fails(t, x, SW_BAD_INPUT, "joins spaces 0 and 0");
    x->ways[0].to = 9;
    fails(t, x, SW_BAD_INPUT, "joins spaces 0 and 9");
}

static void numbers_outside_their_range_are_refused(sw_test *t)
{
    net *x = good_net(t);
    x->spaces[1].t_k = 20;
    fails(t, x, SW_OUT_OF_RANGE, "temperature in K 20 is outside 200 to 2500");
    (x = good_net(t))->spaces[2].pressure_pa = (double)NAN;
    fails(t, x, SW_OUT_OF_RANGE, "pressure in Pa");
    (x = good_net(t))->spaces[1].height_m = INFINITY;
    fails(t, x, SW_OUT_OF_RANGE, "height in m");
    (x = good_net(t))->spaces[1].source_kg_s = (double)NAN;
    fails(t, x, SW_OUT_OF_RANGE, "source in kg/s");
    (x = good_net(t))->ways[1].area_m2 = -1e-6;
    fails(t, x, SW_OUT_OF_RANGE, "area in m2 -1e-06 is outside 0 to 100");
    (x = good_net(t))->ways[1].cd = 0;
    fails(t, x, SW_OUT_OF_RANGE, "discharge coefficient (above 0) 0");
    (x = good_net(t))->ways[1].gas_k = 5000;
    fails(t, x, SW_OUT_OF_RANGE, "gas temperature in K 5000");
    (x = good_net(t))->ways[1].height_m = (double)NAN;
    fails(t, x, SW_OUT_OF_RANGE, "height in m nan");
    (x = good_net(t))->ways[1].length_m = -1;
    fails(t, x, SW_OUT_OF_RANGE, "length in m -1");
    (x = good_net(t))->ways[1].length_m = 2;
    fails(t, x, SW_OUT_OF_RANGE, "needs its hydraulic diameter");
}

static void all_faults_are_told_at_once(sw_test *t)
{
    net *x = good_net(t);
    x->spaces[1].t_k = 0;
    x->spaces[2].t_k = -1;
    x->ways[0].cd = (double)NAN;
    x->ways[1].area_m2 = (double)NAN;
    sw_true(t, sw_air_network_solve(&t->run, &x->n, &x->s) == SW_OUT_OF_RANGE);
    sw_true(t, t->run.error_count == 4);
}

static void network_that_does_not_settle_gives_no_number(sw_test *t)
{
    net *x = good_net(t);
    x->spaces[1].name = "firebox";
    x->spaces[1].source_kg_s = 1;
    x->ways[0].area_m2 = x->ways[1].area_m2 = 1e-300;
    fails(t, x, SW_NO_SOLUTION, "kg/s too much in space \"firebox\"");
    sw_true(t, isnan(flow(x, 0)) && isnan(x->s.pressure_pa[1]) && !(x->s.residual_kg_s < 1e-3));
    x->ways[0].area_m2 = x->ways[1].area_m2 = 1e-3;
    sw_ok(t, sw_air_network_solve(&t->run, &x->n, &x->s));
    mass_closes(t, x);
}

static void start_that_is_no_number_does_no_harm(sw_test *t)
{
    net *x = good_net(t);
    sw_ok(t, sw_air_network_solve(&t->run, &x->n, &x->s));
    double want = flow(x, 0);
    x->s.pressure_pa[1] = (double)NAN;
    sw_ok(t, sw_air_network_solve(&t->run, &x->n, &x->s));
    sw_near(t, flow(x, 0), want, 1e-10, "unique answer");
}

SW_TESTS(SW_CASE(free_areas_of_the_handbook_pass_the_air_of_a_stove),
         SW_CASE(air_at_ten_pascal_leaves_a_sharp_hole_at_four_metres_a_second),
         SW_CASE(jet_holes_pass_less_mass_of_hot_air),
         SW_CASE(round_hole_with_a_short_tube_passes_what_the_handbook_says),
         SW_CASE(network_follows_the_orifice_law_of_transfer),
         SW_CASE(openings_in_series_share_the_pressure_by_one_over_area_squared),
         SW_CASE(openings_in_parallel_add_their_areas), SW_CASE(balanced_bridge_carries_nothing),
         SW_CASE(gas_that_comes_into_being_leaves_with_the_rest),
         SW_CASE(leg_of_hot_gas_draws_by_its_height_and_lack_of_density),
         SW_CASE(hot_box_breathes_about_its_neutral_plane), SW_CASE(height_at_which_a_pressure_is_told_does_not_matter),
         SW_CASE(closed_column_stands_still), SW_CASE(duct_loses_what_friction_and_fittings_take),
         SW_CASE(narrow_duct_is_laminar), SW_CASE(short_duct_is_an_opening), SW_CASE(mass_closes_in_every_space),
         SW_CASE(isothermal_flows_grow_with_the_root_of_the_draught),
         SW_CASE(reversing_all_pressures_reverses_all_flows), SW_CASE(more_draught_draws_more),
         SW_CASE(splitting_an_opening_changes_nothing), SW_CASE(warm_start_gives_the_same_answer_in_no_round),
         SW_CASE(solving_again_takes_no_memory), SW_CASE(every_refused_request_for_memory_is_told),
         SW_CASE(space_that_nothing_reaches_is_named), SW_CASE(network_without_an_opening_is_refused),
         SW_CASE(network_without_a_known_pressure_is_refused),
         SW_CASE(way_from_a_space_to_itself_or_nowhere_is_refused), SW_CASE(numbers_outside_their_range_are_refused),
         SW_CASE(all_faults_are_told_at_once), SW_CASE(network_that_does_not_settle_gives_no_number),
         SW_CASE(start_that_is_no_number_does_no_harm))
