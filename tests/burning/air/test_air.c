/* The air of a stove: its own network, shares, findings, wrong stoves. */
#include "burning/air/air.h"
#include "sw_test.h"

#include <math.h>
#include <string.h>

enum { OPENINGS = 4 };

typedef struct small_stove {
    sw_opening openings[OPENINGS];
    sw_stove stove;
    sw_air_input in;
    sw_air_options opt;
} small_stove;

static small_stove *make_stove(sw_test *t)
{
    small_stove *s = SW_KEEP(&t->run, 1, small_stove);
    s->openings[0] = (sw_opening){"ash slots", "primary", 2200, 190, 0, {0}};
    s->openings[1] = (sw_opening){"airwash slot", "wash", 1500, 620, 0, {0}};
    s->openings[2] = (sw_opening){"rear jets", "rear jet", 500, 450, 0, {"box.stove.lua", 41, 1}};
    s->openings[3] = (sw_opening){"side holes", "secondary", 100, 450, 0, {0}};
    s->stove = (sw_stove){.name = "box", .openings = s->openings, .opening_count = 3};
    s->in = (sw_air_input){.stove = &s->stove,
                           .geometry = {.throat_m2 = 0.012,
                                        .throat_height_m = 0.65,
                                        .collar_m2 = 0.0177,
                                        .collar_height_m = 0.85,
                                        .bed_height_m = 0.3},
                           .fuel_kg_s = 0.59e-3,
                           .air_min_kg = 4.946};
    s->opt = sw_air_options_defaults();
    return s;
}

static const sw_air_result *solved(sw_test *t, const small_stove *s)
{
    static const sw_air_result none;
    const sw_air_result *r = NULL;
    return sw_ok(t, sw_air_solve(&t->run, &s->in, &s->opt, &r)) ? r : &none;
}

static const sw_finding *finding(sw_test *t, const sw_findings *f, const char *check, const char *where)
{
    for (size_t i = 0; i < f->count; i++)
        if (strcmp(f->items[i].check, check) == 0 && strcmp(f->items[i].where, where) == 0) return &f->items[i];
    sw_true_at(t, false, check, __FILE__, __LINE__);
    static const sw_finding none = {.what = "", .source = "", .remedy = ""};
    return &none;
}

/* ---- the network -------------------------------------------------------------------------------------------------- */

static void shares_of_all_air_sum_to_one(sw_test *t)
{
    small_stove *s = make_stove(t);
    s->stove.opening_count = 4;
    const sw_air_result *r = solved(t, s);
    double sum = r->primary_share + r->wash_share + r->rear_share + r->secondary_share + r->leak_share;
    sw_near(t, sum, 1, 1e-12, "balance of mass");
    sw_near(t, r->lambda, r->air_kg_s / (0.59e-3 * 4.946), 1e-12, "definition of the excess air ratio");
    sw_true(t, r->secondary_share > 0 && r->leak_share > 0);
}

static void gas_through_the_collar_is_air_and_fuel(sw_test *t)
{
    small_stove *s = make_stove(t);
    const sw_air_result *r = solved(t, s);
    const sw_air_flow *flows = r->solution.flows;
    sw_near(t, flows[4].kg_s, r->air_kg_s + 0.59e-3, 1e-11, "balance of mass: throat");
    sw_near(t, flows[5].kg_s, r->air_kg_s + 0.59e-3, 1e-11, "balance of mass: collar");
    s->in.fuel_kg_s = (double)NAN;
    r = solved(t, s);
    sw_near(t, r->solution.flows[5].kg_s, r->air_kg_s, 1e-11, "balance of mass without fuel");
    sw_true(t, isnan(r->lambda));
}

/* Room to flue, all cold: openings in parallel, then throat and collar in series. */
static void cold_stove_is_openings_throat_and_collar_in_series(sw_test *t)
{
    small_stove *s = make_stove(t);
    s->opt.firebox_c = s->opt.upper_c = s->opt.flue_c = s->opt.preheat_c = s->opt.room_c;
    s->opt.collar_cd = 0.62;
    s->in.fuel_kg_s = (double)NAN;
    double area_m2 = (0.2 * 2200 + 1500 + 500 + 250) * 1e-6;
    double whole_m2 = sw_air_series_m2(sw_air_series_m2(area_m2, 0.012), 0.0177);
    double want = sw_orifice_kg_s(0.62, whole_m2, sw_air_density(293.15), 12);
    sw_near(t, solved(t, s)->air_kg_s, want, 1e-6 * want, "derived: losses in series, orifice law of transfer");
}

static void pressures_round_every_path_sum_to_the_draught_and_the_legs(sw_test *t)
{
    small_stove *s = make_stove(t);
    const sw_air_result *r = solved(t, s);
    const sw_air_flow *f = r->solution.flows;
    double fire_k = sw_k_from_c(s->opt.firebox_c), upper_k = sw_k_from_c(s->opt.upper_c);
    for (size_t i = 0; i < 3; i++) {
        double z_m = sw_m_from_mm(s->openings[i].height_mm);
        double legs_pa = sw_air_leg_pa(0.65 - z_m, 293.15, fire_k) + sw_air_leg_pa(0.85 - 0.65, 293.15, upper_k);
        sw_near(t, f[i].pressure_pa + f[4].pressure_pa + f[5].pressure_pa, 12 + legs_pa, 1e-7,
                "hydrostatics: openings, throat and collar take draught and buoyancy");
    }
}

static void worked_example_of_the_page(sw_test *t)
{
    const char *page = "docs/studies/air.md, worked example";
    small_stove *s = make_stove(t);
    const sw_air_result *r = solved(t, s);
    const sw_air_flow *f = r->solution.flows;
    sw_near(t, sw_s_from_h(r->air_kg_s), 28.7, 0.05, page);
    sw_near(t, r->primary_share, 0.21, 0.005, page);
    sw_near(t, r->wash_share, 0.51, 0.005, page);
    sw_near(t, r->rear_share, 0.18, 0.005, page);
    sw_near(t, r->leak_share, 0.11, 0.005, page);
    sw_near(t, f[0].pressure_pa, 15.0, 0.05, page);
    sw_near(t, f[1].pressure_pa, 11.4, 0.05, page);
    sw_near(t, f[4].pressure_pa, 1.9, 0.05, page);
    sw_near(t, f[5].pressure_pa, 0.4, 0.05, page);
    sw_near(t, r->lambda, 2.7, 0.05, page);
    s->opt.wash_share = 0.5;
    sw_near(t, solved(t, s)->lambda, 2.1, 0.05, page);
}

static void higher_opening_has_less_pressure_behind_it(sw_test *t)
{
    const sw_air_result *r = solved(t, make_stove(t));
    sw_near(t, r->solution.flows[0].pressure_pa - r->solution.flows[1].pressure_pa,
            sw_air_leg_pa(0.62 - 0.19, 293.15, sw_k_from_c(750)), 1e-7, "hydrostatics: column of hot gas");
}

static void more_draught_lets_more_air_in_and_a_slide_less(sw_test *t)
{
    small_stove *s = make_stove(t);
    double before = 0;
    for (s->opt.draught_pa = 2; s->opt.draught_pa < 40; s->opt.draught_pa += 3) {
        double air = solved(t, s)->air_kg_s;
        if (!sw_true(t, air > before)) return;
        before = air;
    }
    for (s->opt.primary_share = 1; s->opt.primary_share > 0.05; s->opt.primary_share -= 0.2) {
        const sw_air_result *r = solved(t, s);
        sw_true(t, r->air_kg_s > 0);
        double more = r->primary_share, wash = r->wash_share;
        s->opt.primary_share -= 0.05;
        r = solved(t, s);
        if (!sw_true(t, r->primary_share < more && r->wash_share > wash)) return;
        s->opt.primary_share += 0.05;
    }
}

static void hot_stove_without_draught_still_breathes(sw_test *t)
{
    small_stove *s = make_stove(t);
    s->opt.draught_pa = 0;
    const sw_air_result *r = solved(t, s);
    sw_true(t, r->air_kg_s > 0 && r->solution.flows[5].kg_s > 0);
}

/* ---- findings ------------------------------------------------------------------------------------------------------- */

static void share_outside_its_band_is_watched_with_a_remedy(sw_test *t)
{
    small_stove *s = make_stove(t);
    const sw_air_result *r = solved(t, s);
    sw_true(t, finding(t, &r->findings, "air_share", "primary")->verdict == SW_HOLDS);
    s->opt.primary_share = 1;
    r = solved(t, s);
    const sw_finding *f = finding(t, &r->findings, "air_share", "primary");
    sw_true(t, f->verdict == SW_WATCH && r->primary_share > 0.3);
    sw_contains(t, f->what, "primary air: ");
    sw_contains(t, f->source, "common practice, no source");
    sw_contains(t, f->remedy, "shut the primary slide");
    sw_true(t, finding(t, &r->findings, "air_share", "wash")->verdict == SW_WATCH);
}

static void excess_air_is_judged_when_the_fuel_is_known(sw_test *t)
{
    small_stove *s = make_stove(t);
    s->in.fuel_kg_s = 0.5 * s->in.fuel_kg_s * solved(t, s)->lambda; /* the stove then burns at about 2 */
    const sw_air_result *r = solved(t, s);
    sw_near(t, r->lambda, 2, 0.1, "definition");
    sw_true(t, finding(t, &r->findings, "excess_air", "stove")->verdict == SW_HOLDS);
    s->in.fuel_kg_s *= 1.5;
    r = solved(t, s);
    sw_true(t, finding(t, &r->findings, "excess_air", "stove")->verdict == SW_WATCH);
    s->in.fuel_kg_s *= 2;
    r = solved(t, s);
    const sw_finding *f = finding(t, &r->findings, "excess_air", "stove");
    sw_true(t, r->lambda < 1 && f->verdict == SW_FAILS && f->limit == 1);
    sw_contains(t, f->remedy, "more air");
    s->in.fuel_kg_s = (double)NAN;
    sw_true(t, finding(t, &solved(t, s)->findings, "excess_air", "stove")->verdict == SW_UNKNOWN);
    s->in.fuel_kg_s = 0.05e-3;
    f = finding(t, &solved(t, s)->findings, "excess_air", "stove");
    sw_true(t, f->verdict == SW_WATCH);
    sw_contains(t, f->remedy, "less air");
}

/* A high opening in front of a hot column, hardly any draught, a narrow throat: gas comes out. */
static void smoke_into_the_room_fails(sw_test *t)
{
    small_stove *s = make_stove(t);
    sw_true(t, finding(t, &solved(t, s)->findings, "reversed_flow", "stove")->verdict == SW_HOLDS);
    s->opt.draught_pa = 0.2;
    s->in.geometry.throat_m2 = 0.001;
    const sw_air_result *r = solved(t, s);
    const sw_finding *f = finding(t, &r->findings, "reversed_flow", "airwash slot");
    sw_true(t, r->solution.flows[1].kg_s < 0 && f->verdict == SW_FAILS && f->value < 0);
    sw_contains(t, f->what, "leave the stove here into the room");
    sw_true(t, r->findings.items[0].verdict == SW_FAILS);
    double entering =
        r->solution.flows[0].kg_s + fmax(0, r->solution.flows[2].kg_s) + fmax(0, r->solution.flows[3].kg_s);
    sw_near(t, r->air_kg_s, entering, 1e-12, "definition: what enters, not less what leaves");
}

static void weak_wash_is_watched(sw_test *t)
{
    small_stove *s = make_stove(t);
    sw_true(t, finding(t, &solved(t, s)->findings, "wash_velocity", "airwash slot")->verdict == SW_HOLDS);
    s->in.geometry.throat_m2 = 0.0015;
    const sw_finding *f = finding(t, &solved(t, s)->findings, "wash_velocity", "airwash slot");
    sw_true(t, f->verdict == SW_WATCH);
    sw_contains(t, f->remedy, "soot");
}

static void narrow_throat_is_too_fast_and_leaves_the_openings_little(sw_test *t)
{
    small_stove *s = make_stove(t);
    sw_true(t, finding(t, &solved(t, s)->findings, "gas_velocity", "throat")->verdict == SW_HOLDS);
    s->in.geometry.throat_m2 = 0.0015;
    s->opt.draught_pa = 20;
    const sw_air_result *r = solved(t, s);
    const sw_finding *f = finding(t, &r->findings, "gas_velocity", "throat");
    sw_true(t, f->verdict == SW_WATCH && r->solution.flows[4].velocity_m_s > 6);
    sw_contains(t, f->source, "EN 15544");
    f = finding(t, &r->findings, "inlet_pressure", "openings");
    sw_true(t, f->verdict == SW_WATCH);
    sw_contains(t, f->remedy, "a wider throat");
}

static void every_finding_has_a_source_and_every_bad_one_a_remedy(sw_test *t)
{
    for (t->seed = 1; t->seed <= 200; t->seed++) {
        sw_random r = sw_random_seeded(t->seed);
        small_stove *s = make_stove(t);
        s->opt.draught_pa = sw_random_between(&r, 0, 30);
        s->opt.primary_share = sw_random_unit(&r);
        s->opt.leak_mm2 = sw_random_between(&r, 0, 2000);
        s->in.geometry.throat_m2 = sw_random_between(&r, 0.0005, 0.03);
        s->in.fuel_kg_s = sw_random_between(&r, 0, 2e-3);
        const sw_findings *f = &solved(t, s)->findings;
        for (size_t i = 0; i < f->count; i++) {
            bool told = f->items[i].verdict == SW_HOLDS || f->items[i].remedy[0] != '\0' || f->items[i].margin > 0;
            if (!sw_true(t, f->items[i].source[0] != '\0' && f->items[i].what[0] != '\0' && told)) return;
        }
    }
    t->seed = 0;
}

/* ---- wrong stoves ------------------------------------------------------------------------------------------------------- */

static void fails(sw_test *t, const small_stove *s, sw_status status, const char *part)
{
    const sw_air_result *r = NULL;
    sw_run_clear_errors(&t->run);
    sw_true(t, sw_air_solve(&t->run, &s->in, &s->opt, &r) == status && r == NULL);
    bool told = false;
    for (size_t i = 0; i < t->run.error_count; i++) told |= strstr(t->run.errors[i].text, part) != NULL;
    if (!told) sw_contains(t, t->run.error_count > 0 ? t->run.errors[0].text : "", part);
}

static void stove_without_openings_is_told_how_to_describe_one(sw_test *t)
{
    small_stove *s = make_stove(t);
    s->stove.opening_count = 0;
    fails(t, s, SW_BAD_INPUT, "the stove has no air opening; describe at least one");
}

static void stove_with_all_slides_shut_and_no_leak_draws_no_air(sw_test *t)
{
    small_stove *s = make_stove(t);
    s->opt.primary_share = s->opt.wash_share = s->opt.rear_share = s->opt.leak_mm2 = 0;
    const sw_air_result *r = solved(t, s); /* gas of the fuel alone leaves */
    sw_near(t, r->air_kg_s, 0, 0, "derived: shut");
    sw_true(t, finding(t, &r->findings, "air_share", "wash")->verdict == SW_UNKNOWN);
    sw_true(t, finding(t, &r->findings, "excess_air", "stove")->verdict == SW_FAILS);
}

static void blocked_collar_and_throat_are_named_together(sw_test *t)
{
    small_stove *s = make_stove(t);
    s->in.geometry.collar_m2 = s->in.geometry.throat_m2 = 0;
    fails(t, s, SW_BAD_INPUT, "the collar has a free area of 0 mm2: it is blocked");
    fails(t, s, SW_BAD_INPUT, "the throat has a free area of 0 mm2: gas has no way past the baffle");
}

static void figures_that_cannot_be_are_named_with_their_place(sw_test *t)
{
    small_stove *s = make_stove(t);
    s->openings[2].area_mm2 = -5;
    fails(t, s, SW_OUT_OF_RANGE, "opening \"rear jets\": an area of -5 mm2 cannot be");
    sw_true(t, t->run.errors[0].place.line == 41);
    (s = make_stove(t))->openings[1].kind = "window";
    fails(t, s, SW_BAD_INPUT, "kind \"window\" is not known; use primary, secondary, wash or rear jet");
    (s = make_stove(t))->openings[0].height_mm = INFINITY;
    fails(t, s, SW_OUT_OF_RANGE, "its middle inf mm above the floor");
    (s = make_stove(t))->in.geometry.collar_height_m = (double)NAN;
    fails(t, s, SW_BAD_INPUT, "where the collar lies is not known: give its part the role");
    (s = make_stove(t))->in.geometry.throat_m2 = (double)NAN;
    fails(t, s, SW_BAD_INPUT, "no throat was found, so its free area is not known");
    (s = make_stove(t))->in.fuel_kg_s = -1;
    fails(t, s, SW_OUT_OF_RANGE, "-1 kg/s of fuel cannot be");
    (s = make_stove(t))->in.air_min_kg = 0;
    fails(t, s, SW_OUT_OF_RANGE, "0 kg of air for a kg of fuel");
    (s = make_stove(t))->opt.primary_share = 1.5;
    fails(t, s, SW_OUT_OF_RANGE, "1.5 is outside 0 to 1");
    (s = make_stove(t))->opt.draught_pa = (double)NAN;
    fails(t, s, SW_OUT_OF_RANGE, "draught at the collar");
}

static void every_refused_request_for_memory_is_told(sw_test *t)
{
    small_stove *s = make_stove(t);
    size_t before = sw_arena_takes(t->run.keep);
    (void)solved(t, s);
    size_t takes = sw_arena_takes(t->run.keep) - before;
    for (size_t nth = 1; nth <= takes; nth++) {
        const sw_air_result *r = NULL;
        sw_arena_fail_at(t->run.keep, nth);
        if (!sw_true(t, sw_air_solve(&t->run, &s->in, &s->opt, &r) == SW_NO_MEMORY && r == NULL)) return;
    }
    sw_arena_fail_at(t->run.keep, 0);
}

static void jets_with_a_known_hole_tell_how_far_they_reach(sw_test *t)
{
    small_stove *s = make_stove(t);
    s->in.geometry.base_m2 = 0.09;
    s->openings[2].hole_mm = 2;
    const sw_air_result *r = solved(t, s);
    const sw_finding *f = finding(t, &r->findings, "jet_reach", "rear jets");
    double v = r->solution.flows[2].velocity_m_s;
    double reach = sw_jet_reach_m(0.002, sw_k_from_c(s->opt.preheat_c), sw_k_from_c(s->opt.firebox_c), 1 / v);
    sw_true_at(t, f->verdict == (reach < 0.15 ? SW_WATCH : SW_HOLDS), f->what, __FILE__, __LINE__);
    s->openings[2].hole_mm = 20;
    sw_true(t, finding(t, &solved(t, s)->findings, "jet_reach", "rear jets")->verdict == SW_HOLDS);
    s->openings[2].hole_mm = 0;
    r = solved(t, s);
    for (size_t i = 0; i < r->findings.count; i++) sw_true(t, strcmp(r->findings.items[i].check, "jet_reach") != 0);
}

static void embers_hold_primary_air_back_a_little(sw_test *t)
{
    small_stove *s = make_stove(t);
    double without = solved(t, s)->primary_share;
    s->in.geometry.base_m2 = 0.09;
    double with = solved(t, s)->primary_share;
    sw_true(t, with < without && with > 0.97 * without);
    s->opt.bed_mm = 0;
    sw_near(t, solved(t, s)->primary_share, without, 1e-12, "limit: no embers");
    sw_near(t, sw_bed_loss(0.06, 0.025, 0.5), 2 * 1.75 * 0.5 / 0.125 * 2.4, 1e-9,
            "Ergun 1952, inertial term (from memory)");
    sw_true(t, isnan(sw_bed_loss(0.06, 0, 0.5)) && isnan(sw_bed_loss(0.06, 0.02, 1)));
}

static void embers_are_one_bed_for_all_their_openings(sw_test *t)
{
    small_stove *s = make_stove(t);
    s->in.geometry.base_m2 = 0.02; /* so small that the bed counts */
    double one = solved(t, s)->primary_share;
    s->openings[3] = s->openings[0];
    s->openings[0].area_mm2 = 600;
    s->openings[3].area_mm2 = 1600;
    s->openings[3].name = "more ash slots";
    s->stove.opening_count = 4;
    sw_near(t, solved(t, s)->primary_share, one, 1e-9, "derived: two openings side by side are one of their area");
}

SW_TESTS(SW_CASE(embers_are_one_bed_for_all_their_openings), SW_CASE(jets_with_a_known_hole_tell_how_far_they_reach),
         SW_CASE(embers_hold_primary_air_back_a_little), SW_CASE(shares_of_all_air_sum_to_one),
         SW_CASE(gas_through_the_collar_is_air_and_fuel), SW_CASE(cold_stove_is_openings_throat_and_collar_in_series),
         SW_CASE(pressures_round_every_path_sum_to_the_draught_and_the_legs), SW_CASE(worked_example_of_the_page),
         SW_CASE(higher_opening_has_less_pressure_behind_it), SW_CASE(more_draught_lets_more_air_in_and_a_slide_less),
         SW_CASE(hot_stove_without_draught_still_breathes), SW_CASE(share_outside_its_band_is_watched_with_a_remedy),
         SW_CASE(excess_air_is_judged_when_the_fuel_is_known), SW_CASE(smoke_into_the_room_fails),
         SW_CASE(weak_wash_is_watched), SW_CASE(narrow_throat_is_too_fast_and_leaves_the_openings_little),
         SW_CASE(every_finding_has_a_source_and_every_bad_one_a_remedy),
         SW_CASE(stove_without_openings_is_told_how_to_describe_one),
         SW_CASE(stove_with_all_slides_shut_and_no_leak_draws_no_air),
         SW_CASE(blocked_collar_and_throat_are_named_together),
         SW_CASE(figures_that_cannot_be_are_named_with_their_place), SW_CASE(every_refused_request_for_memory_is_told))
