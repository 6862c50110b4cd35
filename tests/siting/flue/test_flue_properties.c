/* Laws that hold for every flue, and wrong input. */
#include "flue_house.h"

static sw_flue_pull pull(const flue_house *h, double outside_k)
{
    return sw_flue_pull_of(&h->in, NULL, &h->opt, (sw_flue_now){outside_k, 0, 0.006, 553.15, 0.11});
}

static void set_height(flue_house *h, double height_m)
{
    h->house.part_count = 2;
    h->parts[1].length_m = h->parts[1].rise_m = height_m;
}

/* ---- laws ---- */

static void taller_draws_more_until_the_gas_is_cold_and_friction_wins(sw_test *t)
{
    flue_house *h = fs8(t);
    double pa[21] = {-1e9};
    for (int m = 1; m <= 20; m++) {
        set_height(h, m);
        pa[m] = pull(h, 273.15).draught_pa;
        if (!sw_true(t, pa[m] > pa[m - 1])) return;
    }
    sw_true(t, pa[20] - pa[19] < pa[5] - pa[4]);
    h->parts[1].width_mm = h->parts[1].depth_mm = 50; /* so narrow that friction beats buoyancy */
    set_height(h, 2);
    double low_pa = pull(h, 273.15).draught_pa;
    set_height(h, 20);
    sw_true(t, pull(h, 273.15).draught_pa < low_pa);
}

static void no_height_draws_nothing(sw_test *t)
{
    flue_house *h = fs8(t);
    h->house.part_count = 2;
    h->parts[0].rise_m = h->parts[1].rise_m = 0;
    h->parts[0].zeta = h->parts[1].zeta = h->house.terminal_zeta = 0;
    h->parts[0].length_m = h->parts[1].length_m = 1e-6;
    sw_near(t, pull(h, 273.15).draught_pa, 0, 1e-5, "derived: H 0");
    h->house.part_count = 4;
    sw_near(t, sw_flue_draught_pa(0, 1.3, 0.6), 0, 0, "derived: H 0");
}

static void perfect_insulation_loses_nothing(sw_test *t)
{
    flue_house *h = fs8(t);
    for (int i = 0; i < 4; i++) h->parts[i].resistance = 1e15;
    sw_near(t, pull(h, 263.15).outlet_k, 553.15, 1e-6, "derived: k 0");
    for (int i = 0; i < 4; i++) h->parts[i].resistance = (double)INFINITY;
    sw_near(t, pull(h, 263.15).outlet_k, 553.15, 1e-9, "derived: k 0");
    sw_near(t, pull(h, 263.15).wall_k, 553.15, 1e-9, "derived: k 0");
}

static void cutting_a_part_in_two_changes_nothing(sw_test *t)
{
    flue_house *h = fs8(t);
    const sw_flue_result *whole = solved(t, h);
    flue_house *cut = fs8(t);
    cut->parts[5] = cut->parts[3];
    cut->parts[4] = cut->parts[2];
    cut->parts[3] = cut->parts[2] = cut->parts[1];
    cut->parts[1].length_m = cut->parts[1].rise_m = 0.7;
    cut->parts[2].length_m = cut->parts[2].rise_m = 1.9;
    cut->parts[3].length_m = cut->parts[3].rise_m = 0.4;
    cut->parts[2].zeta = cut->parts[3].zeta = 0;
    cut->house.part_count = 6;
    const sw_flue_result *parts = solved(t, cut);
    const char *law = "invariance: a part cut in three";
    sw_near(t, parts->pressure.P_Z, whole->pressure.P_Z, 1e-6, law);
    sw_near(t, parts->over.P_Z, whole->over.P_Z, 1e-6, law);
    sw_near(t, parts->temperature.outlet_k, whole->temperature.outlet_k, 1e-6, law);
    sw_near(t, parts->temperature.outlet_wall_k, whole->temperature.outlet_wall_k, 1e-6, law);
    sw_near(t, parts->temperature.lines[3].exit_k, whole->temperature.lines[1].exit_k, 1e-6, law);
    sw_near(t, parts->temperature.lines[3].wall_k, whole->temperature.lines[1].wall_k, 1e-6, law);
    sw_near(t, parts->least_height_m, whole->least_height_m, 1e-6, law);
    double draught_pa = 0;
    for (int i = 1; i < 6; i++) draught_pa += parts->over.lines[i].draught_pa;
    sw_near(t, draught_pa, whole->over.P_H, 1e-6, "balance: parts sum to the whole");
    double loss_pa = 0;
    for (int i = 1; i < 6; i++) loss_pa += parts->over.lines[i].friction_pa;
    sw_near(t, loss_pa, whole->over.P_E, 1e-6, "balance: parts sum to the whole");
}

static void warmer_outside_draws_less(sw_test *t)
{
    flue_house *h = fs8(t);
    double before_pa = 1e9;
    for (double t_k = 243.15; t_k < 314; t_k += 5) {
        double pa = pull(h, t_k).draught_pa;
        if (!sw_true(t, pa < before_pa)) return;
        before_pa = pa;
    }
}

static void hotter_gas_draws_more_and_more_gas_arrives_hotter(sw_test *t)
{
    flue_house *h = fs8(t);
    double before_pa = -1e9, before_k = 0;
    for (double t_k = 400; t_k < 900; t_k += 10) {
        sw_flue_pull p = sw_flue_pull_of(&h->in, NULL, &h->opt, (sw_flue_now){280, 0, 0.006, t_k, 0.11});
        if (!sw_true(t, p.draught_pa > before_pa && isfinite(p.draught_pa))) return;
        before_pa = p.draught_pa;
    }
    for (double kg_s = 0.0005; kg_s < 0.03; kg_s += 0.0005) {
        sw_flue_pull p = sw_flue_pull_of(&h->in, NULL, &h->opt, (sw_flue_now){280, 0, kg_s, 553.15, 0.11});
        if (!sw_true(t, p.outlet_k > before_k && p.outlet_k < 553.15 && p.wall_k < p.outlet_k)) return;
        before_k = p.outlet_k;
    }
}

static void wind_takes_its_pressure(sw_test *t)
{
    flue_house *h = fs8(t);
    double still = pull(h, 280).draught_pa;
    sw_flue_pull windy = sw_flue_pull_of(&h->in, NULL, &h->opt, (sw_flue_now){280, 25, 0.006, 553.15, 0.11});
    sw_near(t, still - windy.draught_pa, 25, 1e-12, "definition of the wind pressure");
}

static void no_flow_stands_and_a_reversed_one_meets_the_resistance_the_other_way(sw_test *t)
{
    flue_house *h = fs8(t);
    sw_flue_pull none = sw_flue_pull_of(&h->in, NULL, &h->opt, (sw_flue_now){280, 0, 0, 553.15, 0.11});
    sw_flue_pull trace = sw_flue_pull_of(&h->in, NULL, &h->opt, (sw_flue_now){280, 0, 1e-9, 553.15, 0.11});
    sw_flue_pull back = sw_flue_pull_of(&h->in, NULL, &h->opt, (sw_flue_now){280, 0, -0.006, 553.15, 0.11});
    sw_near(t, none.draught_pa, trace.draught_pa, 1e-3, "limit of a vanishing flow");
    sw_true(t, isfinite(none.draught_pa) && none.velocity_m_s == 0);
    sw_true(t, back.draught_pa > none.draught_pa);
}

static void the_study_without_margins_is_the_pull(sw_test *t)
{
    flue_house *h = fs8(t);
    const sw_flue_result *r = solved(t, h);
    sw_near(t, pull(h, 263.15).draught_pa, r->over.P_Z - r->over.P_FV, 1e-9, "agreement of study and pull");
    sw_near(t, pull(h, 263.15).wall_k, r->over.outlet_wall_k, 1e-9, "agreement of study and pull");
    sw_near(t, r->over.outlet_wall_k, r->temperature.outlet_wall_k, 1e-9, "S_E does not move temperatures");
}

static void at_its_least_height_a_flue_just_draws(sw_test *t)
{
    flue_house *h = fs8(t);
    double scale = solved(t, h)->least_height_m / 5;
    for (int i = 1; i < 4; i++) {
        h->parts[i].length_m *= scale;
        h->parts[i].rise_m *= scale;
    }
    sw_near(t, solved(t, h)->reserve_pa, 0, 1e-6, "round trip: the least height has no reserve");
}

static void a_widening_counts_the_change_of_speed(sw_test *t)
{
    flue_house *h = fs8(t);
    h->parts[3].width_mm = h->parts[3].depth_mm = 200;
    const sw_flue_result *r = solved(t, h);
    const sw_flue_line *l = r->pressure.lines;
    sw_true(t, l[3].velocity_m_s < l[2].velocity_m_s && r->pressure.P_G < 0);
    h->in.collar_mm = 130;
    sw_true(t, solved(t, h)->pressure.P_GV < 0);
}

/* ---- wrong input ---- */

static bool says(const sw_test *t, const char *part)
{
    for (size_t i = 0; i < t->run.error_count && i < SW_ERROR_MAX; i++)
        if (strstr(t->run.errors[i].text, part) != NULL) return true;
    return false;
}

static sw_status refuse(sw_test *t, const flue_house *h)
{
    const sw_flue_result *r = NULL;
    sw_run_clear_errors(&t->run);
    sw_status status = sw_flue_solve(&t->run, &h->in, &h->opt, &r);
    sw_true(t, status != SW_OK && r == NULL && t->run.error_count > 0);
    return status;
}

static void a_house_without_chimney_is_refused(sw_test *t)
{
    flue_house *h = fs8(t);
    h->house.part_count = 1;
    sw_true(t, refuse(t, h) == SW_BAD_INPUT && says(t, "no chimney"));
    h->house.part_count = 0;
    sw_true(t, refuse(t, h) == SW_BAD_INPUT && says(t, "no chimney"));
    h->in.house = NULL;
    sw_true(t, refuse(t, h) == SW_BAD_INPUT && says(t, "no house"));
}

static void every_fault_of_a_flue_is_named(sw_test *t)
{
    static const sw_flue_layer unknown = {"minerl wool", 25, (double)NAN};
    flue_house *h = fs8(t);
    h->parts[0].width_mm = 0;
    h->parts[1].width_mm = -150;
    h->parts[1].rise_m = h->parts[1].length_m = 200;
    h->parts[2].liner = true;
    h->parts[2].resistance = h->parts[2].outer_mm = (double)NAN;
    h->parts[3].resistance = h->parts[3].outer_mm = (double)NAN;
    h->parts[3].layers = &unknown;
    h->parts[3].layer_count = 1;
    h->house.altitude_m = (double)NAN;
    refuse(t, h);
    sw_true(t, says(t, "pipe: width is 0"));
    sw_true(t, says(t, "in the rooms: width is -150"));
    sw_true(t, says(t, "in the rooms: length is 200, allowed"));
    sw_true(t, says(t, "loft: the liner's wall is not described"));
    sw_true(t, says(t, "did you mean mineral wool"));
    sw_true(t, says(t, "altitude is nan"));
    sw_true(t, t->run.errors[0].place.line == 9);
}

static void impossible_figures_are_refused(sw_test *t)
{
    static const struct {
        size_t offset;
        double value;
    } of_part[] = {{offsetof(sw_flue_part, length_m), 0},      {offsetof(sw_flue_part, length_m), -1},
                   {offsetof(sw_flue_part, rise_m), 9},        {offsetof(sw_flue_part, rise_m), -1},
                   {offsetof(sw_flue_part, roughness_mm), -1}, {offsetof(sw_flue_part, zeta), -1},
                   {offsetof(sw_flue_part, resistance), -0.1}, {offsetof(sw_flue_part, outer_mm), 100},
                   {offsetof(sw_flue_part, zeta), (double)NAN}};
    for (size_t i = 0; i < sizeof of_part / sizeof *of_part; i++) {
        flue_house *h = fs8(t);
        memcpy((char *)&h->parts[1] + of_part[i].offset, &of_part[i].value, sizeof(double));
        refuse(t, h);
        sw_true(t, says(t, "in the rooms:"));
    }
}

static void impossible_stoves_are_refused(sw_test *t)
{
    static const double wrong[] = {0, -1, (double)NAN, (double)INFINITY};
    for (int i = 0; i < 4; i++) {
        flue_house *h = fs8(t);
        h->in.nominal.kg_s = wrong[i];
        refuse(t, h);
        sw_true(t, says(t, "nominal output"));
        h = fs8(t);
        h->in.nominal.co2_dry = wrong[i];
        refuse(t, h);
    }
    flue_house *h = fs8(t);
    h->in.nominal.co2_dry = 0.21;
    refuse(t, h);
    sw_true(t, says(t, "more than this wood can make"));
    h = fs8(t);
    h->opt.s_e = 0;
    sw_true(t, refuse(t, h) == SW_OUT_OF_RANGE && says(t, "flow safety"));
    h = fs8(t);
    h->parts[3].pipe = true;
    refuse(t, h);
    sw_true(t, says(t, "cannot follow a chimney"));
}

static void gas_as_cold_as_the_room_fails_with_the_reason(sw_test *t)
{
    flue_house *h = fs8(t);
    h->in.nominal.t_k = 285;
    const sw_flue_result *r = solved(t, h);
    const sw_finding *f = found(t, r, "solved", "chimney");
    sw_true(t, !r->solved && !r->draws && !r->dry && f->verdict == SW_FAILS && isnan(r->reserve_pa));
    sw_contains(t, f->what, "no warmer than the air");
    sw_true(t, r->needed[0] != '\0');
}

/* ---- stabiliser and door ---- */

static const sw_flue_wood wood = {0.42, 0.0504, 0.3654, 0.16, 15065e3};

static void thinned_gas_is_that_of_more_air(sw_test *t)
{
    sw_flue_gas gas = sw_flue_gas_of(&wood, 0.11), same = sw_flue_gas_thinned(&wood, &gas, 0),
                thin = sw_flue_gas_thinned(&wood, &gas, 0.7);
    sw_near(t, same.co2_dry, 0.11, 1e-12, "no air, no change");
    sw_near(t, thin.kg_per_kg, 1.7 * gas.kg_per_kg, 1e-9, "conservation of mass");
    sw_near(t, thin.air_kg_per_kg, gas.air_kg_per_kg + 0.7 * gas.kg_per_kg, 1e-9, "conservation of mass");
    sw_flue_gas twice = sw_flue_gas_thinned(&wood, &thin, 0.25);
    sw_near(t, twice.co2_dry, sw_flue_gas_thinned(&wood, &gas, 1.7 * 1.25 - 1).co2_dry, 1e-12, "air in two parts");
    sw_true(t, thin.h2o_wet < gas.h2o_wet);
}

static void gas_and_air_keep_their_heat(sw_test *t)
{
    sw_flue_gas gas = sw_flue_gas_of(&wood, 0.11), thin = sw_flue_gas_thinned(&wood, &gas, 1);
    double mixed_k = sw_flue_mixed_k(&gas, &thin, 1, 553.15, 293.15);
    double before = sw_flue_cp(&gas, 423.15) * 260,
           after = 2 * sw_flue_cp(&thin, (mixed_k + 293.15) / 2) * (mixed_k - 293.15);
    sw_near(t, after, before, 1e-6 * before, "conservation of energy");
    sw_true(t, mixed_k > 293.15 && mixed_k < 553.15);
    sw_near(t, sw_flue_mixed_k(&gas, &gas, 0, 553.15, 293.15), 553.15, 0, "no air, no change");
}

static void a_stabiliser_shut_changes_nothing_and_an_open_one_holds(sw_test *t)
{
    flue_house *h = fs8(t);
    h->house.stabiliser_pa = 10;
    sw_flue_pull without = pull(h, 263.15);
    const sw_flue_result *bare = solved(t, h);
    h->house.stabiliser = true;
    for (int set_pa = 4; set_pa <= 40; set_pa += 4) {
        h->house.stabiliser_pa = set_pa;
        const sw_flue_result *r = solved(t, h);
        double over_pa = r->over.P_Z - r->over.P_B;
        if (r->over.air_kg_s > 0) {
            sw_near(t, over_pa, set_pa, 1e-5, "it holds what it is set to");
            sw_true(t, r->over.mixed_k < r->over.gas_k && r->over.dew_point_k < bare->over.dew_point_k);
        } else
            sw_true(t, over_pa <= set_pa);
    }
    h->house.stabiliser_pa = 60;
    sw_flue_pull shut = pull(h, 263.15);
    sw_true(t, shut.draught_pa == without.draught_pa && shut.outlet_k == without.outlet_k && shut.air_kg_s == 0);
    h->house.stabiliser_pa = 10;
    sw_flue_pull open = pull(h, 263.15);
    sw_true(t, open.draught_pa < without.draught_pa && open.outlet_k < without.outlet_k && open.air_kg_s > 0);
}

/* What it holds depends on the stove and its pipe alone: found once, it serves all pulls, liners and heights. */
static void what_a_stabiliser_holds_may_be_handed_on(sw_test *t)
{
    flue_house *h = fs8(t);
    const sw_flue_try *alone = NULL, *handed = NULL;
    size_t alone_count = 0, handed_count = 0;
    h->house.stabiliser = true;
    h->in.nominal.most_pa = 20;
    sw_flue_pull found = pull(h, 263.15);
    sw_ok(t, sw_flue_size(&t->run, &h->in, &h->opt, &alone, &alone_count));
    h->in.hold_pa = solved(t, h)->stabiliser_pa;
    sw_near(t, pull(h, 263.15).draught_pa, found.draught_pa, 0, "agreement: the same of both ways");
    sw_true(t, h->in.hold_pa > 0 && found.air_kg_s > 0);
    sw_ok(t, sw_flue_size(&t->run, &h->in, &h->opt, &handed, &handed_count));
    if (!sw_true(t, alone_count == handed_count && alone_count > 1)) return;
    for (size_t i = 0; i < alone_count; i++)
        sw_near(t, handed[i].over_pa, alone[i].over_pa, 0, "agreement: the same of both ways");
}

static void the_lower_it_is_set_the_more_air_goes_in(sw_test *t)
{
    flue_house *h = fs8(t);
    h->house.stabiliser = true;
    double before = 0;
    for (int set_pa = 24; set_pa >= 4; set_pa -= 2) {
        h->house.stabiliser_pa = set_pa;
        double air = pull(h, 263.15).air_kg_s;
        if (!sw_true(t, air > before)) return;
        before = air;
    }
}

static void a_room_below_outside_takes_from_the_pull(sw_test *t)
{
    flue_house *h = fs8(t);
    double free_pa = pull(h, 273.15).draught_pa;
    h->in.room_pa = 3;
    sw_near(t, pull(h, 273.15).draught_pa, free_pa - 3, 1e-12, "pressures add");
}

static void a_larger_door_or_a_shorter_flue_draws_the_smoke_in_slower(sw_test *t)
{
    flue_house *h = fs8(t);
    double before = INFINITY;
    h->in.door_height_mm = 300;
    for (int width_mm = 100; width_mm <= 900; width_mm += 100) {
        h->in.door_width_mm = width_mm;
        const sw_flue_open_door *d = &solved(t, h)->door;
        if (!sw_true(t, d->velocity_m_s < before && d->air_kg_s > 0)) return;
        sw_true(t, (d->velocity_m_s > d->wanted_m_s) == (d->lift_pa > d->loss_pa));
        before = d->velocity_m_s;
    }
    set_height(h, 2);
    sw_true(t, solved(t, h)->door.velocity_m_s < before);
}

static void gusts_press_with_their_stagnation_pressure(sw_test *t)
{
    sw_near(t, sw_flue_gust_pa(SW_WIND_INLAND, 10, 1.2), 60, 1e-12, "rho v2/2, textbooks");
    sw_near(t, sw_flue_gust_pa(SW_WIND_FREE, 10, 1.2), 0, 0, "in the free stream none");
}

static void the_door_takes_what_a_sharp_opening_does(sw_test *t)
{
    /* V = 0.6 A sqrt(2 dp/rho): 2914 mm2 pass 16.253 m3/h at 4 Pa */
    sw_near(t, sw_flue_door_loss_pa(16.253 / 3600 * 1.2, 2914e-6, 1.2), 4, 4e-3, "handbook FS-17 (computed)");
    sw_near(t, sw_flue_stabiliser_kg_s(sqrt(4 / SW_PI * 2914e-6), 4, 1.2), 16.253 / 3600 * 1.2, 6e-6,
            "handbook FS-17 (computed)");
}

/* ---- memory ---- */

static sw_status everything(sw_run *run, const flue_house *h)
{
    const sw_flue_result *r = NULL;
    const sw_flue_try *tries = NULL;
    const sw_flue_step *steps = NULL;
    sw_flue_start start;
    size_t count = 0;
    SW_TRY(sw_flue_solve(run, &h->in, &h->opt, &r));
    SW_TRY(sw_flue_explain(run, r, &steps, &count));
    SW_TRY(sw_flue_size(run, &h->in, &h->opt, &tries, &count));
    return sw_flue_start_up(run, &h->in, &h->opt, 280, 285, &start);
}

static void any_refused_memory_is_reported(sw_test *t)
{
    flue_house *h = fs8(t);
    h->house.survey.old_shaft = true;
    for (int arena = 0; arena < 2; arena++)
        for (size_t nth = 1; nth < 2000; nth++) {
            sw_run run;
            if (!sw_ok(t, sw_run_open(&run, (size_t)1 << 26))) return;
            sw_arena_fail_at(arena == 0 ? run.keep : run.scratch, nth);
            sw_status status = everything(&run, h);
            sw_run_close(&run);
            if (status == SW_OK) break;
            if (!sw_true(t, status == SW_NO_MEMORY)) return;
        }
}

static void a_pull_takes_no_memory(sw_test *t)
{
    flue_house *h = fs8(t);
    size_t takes = sw_arena_takes(t->run.keep) + sw_arena_takes(t->run.scratch);
    (void)pull(h, 280);
    sw_true(t, sw_arena_takes(t->run.keep) + sw_arena_takes(t->run.scratch) == takes);
}

SW_TESTS(SW_CASE(thinned_gas_is_that_of_more_air), SW_CASE(gas_and_air_keep_their_heat),
         SW_CASE(a_stabiliser_shut_changes_nothing_and_an_open_one_holds),
         SW_CASE(what_a_stabiliser_holds_may_be_handed_on), SW_CASE(the_lower_it_is_set_the_more_air_goes_in),
         SW_CASE(a_room_below_outside_takes_from_the_pull),
         SW_CASE(a_larger_door_or_a_shorter_flue_draws_the_smoke_in_slower),
         SW_CASE(gusts_press_with_their_stagnation_pressure), SW_CASE(the_door_takes_what_a_sharp_opening_does),
         SW_CASE(taller_draws_more_until_the_gas_is_cold_and_friction_wins), SW_CASE(no_height_draws_nothing),
         SW_CASE(perfect_insulation_loses_nothing), SW_CASE(cutting_a_part_in_two_changes_nothing),
         SW_CASE(warmer_outside_draws_less), SW_CASE(hotter_gas_draws_more_and_more_gas_arrives_hotter),
         SW_CASE(wind_takes_its_pressure),
         SW_CASE(no_flow_stands_and_a_reversed_one_meets_the_resistance_the_other_way),
         SW_CASE(the_study_without_margins_is_the_pull), SW_CASE(at_its_least_height_a_flue_just_draws),
         SW_CASE(a_widening_counts_the_change_of_speed), SW_CASE(a_house_without_chimney_is_refused),
         SW_CASE(every_fault_of_a_flue_is_named), SW_CASE(impossible_figures_are_refused),
         SW_CASE(impossible_stoves_are_refused), SW_CASE(gas_as_cold_as_the_room_fails_with_the_reason),
         SW_CASE(any_refused_memory_is_reported), SW_CASE(a_pull_takes_no_memory))
