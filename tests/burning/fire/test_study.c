/* The study: from a duty to fuel, air, gas and findings. */
#include "sw_test.h"
#include "wood.h"

#include <string.h>

static sw_stove stove_of(double output_w, double efficiency)
{
    return (sw_stove){.name = "s",
                      .title = "",
                      .note = "",
                      .duty = {.output_w = output_w, .refuel_s = 2700, .efficiency = efficiency, .fuel = "beech logs"}};
}

static const sw_finding *finding(const sw_fire_result *r, const char *check)
{
    for (size_t i = 0; i < r->findings.count; i++)
        if (strcmp(r->findings.items[i].check, check) == 0) return &r->findings.items[i];
    return NULL;
}

static sw_verdict verdict(sw_test *t, const sw_fire_result *r, const char *check)
{
    const sw_finding *f = finding(r, check);
    if (!sw_true(t, f != NULL)) return SW_UNKNOWN;
    sw_true(t, f->verdict == SW_HOLDS || f->verdict == SW_UNKNOWN || strlen(f->remedy) > 5);
    sw_true(t, strlen(f->source) > 5 && strlen(f->what) > 5 && strlen(f->where) > 2);
    return f->verdict;
}

static const sw_fire_result *solved(sw_test *t, const sw_stove *stove, const sw_fire_options *opt)
{
    sw_fire_input in = {stove, 0.048, 0.8, 0.12, 0};
    const sw_fire_result *r = NULL;
    sw_ok(t, sw_fire_solve(&t->run, &in, opt, &r));
    return r;
}

static void worked_example_comes_from_its_duty(sw_test *t)
{
    sw_stove stove = stove_of(7000, 0.78);
    sw_fire_options opt = sw_fire_options_defaults();
    opt.humidity = 0;
    opt.flue_c = 250;
    const sw_fire_result *r = solved(t, &stove, &opt);
    if (r == NULL) return;
    sw_near(t, r->fuel_w, 8974, 0.6, "handbook E1, computed");
    sw_near(t, sw_s_from_h(r->fuel_kg_s), 2.125, 6e-4, "handbook E1, computed");
    sw_near(t, 1000 * r->air_kg_s, 6.42, 6e-3, "handbook E1, computed");
    sw_near(t, 1000 * r->gas_kg_s, 7.01, 6e-3, "handbook E1, computed");
    sw_near(t, r->batch_kg, 1.594, 6e-4, "handbook F1.3, computed");
    sw_near(t, 100 * r->losses.efficiency, 79.6, 0.06, "handbook E1, computed");
    sw_near(t, sw_c_from_k(r->flue_most_k), 268, 1, "handbook F10: 268 degC leaves 78 %");
    sw_near(t, finding(r, "volume_loading")->value, 187, 0.6, "handbook F3.2, computed");
    sw_near(t, finding(r, "base_loading")->value, 74.8, 0.06, "handbook F3.2, computed");
    sw_near(t, finding(r, "charge")->value, 33, 0.5, "handbook F3.2, computed");
    sw_near(t, finding(r, "co")->value, 1250, 0.6, "handbook F2.2, computed");
    for (size_t i = 0; i < r->findings.count; i++) sw_true(t, verdict(t, r, r->findings.items[i].check) == SW_HOLDS);
    sw_true(t, r->findings.count == 13);
}

static void what_finds_no_air_is_a_loss_of_its_own(sw_test *t)
{
    sw_stove stove = stove_of(7000, 0.78);
    sw_fire_options opt = sw_fire_options_defaults();
    opt.lambda = 0.6;
    const sw_fire_result *r = solved(t, &stove, &opt);
    if (r == NULL) return;
    const sw_fire_losses *l = &r->losses;
    sw_near(t, l->unburnt, 0.4, 1e-12, "derived: 1 - lambda");
    sw_near(t, l->sensible + l->co + l->residue + l->unburnt + l->efficiency, 1, 1e-12, "energy");
    sw_near(t, r->air_kg_s / r->fuel_kg_s, 0.6 * r->gas.air_kg, 1e-12, "derived: 0.6 of what it needs");
    sw_near(t, r->gas_kg_s - r->air_kg_s, r->fuel_kg_s * (r->gas.gas_kg - r->gas.air_kg), 1e-15, "mass");
    sw_true(t, verdict(t, r, "lambda") == SW_FAILS && verdict(t, r, "efficiency") == SW_FAILS);
    sw_true(t, verdict(t, r, "co") == SW_UNKNOWN);
    sw_contains(t, finding(r, "co")->what, "40 % of the wood finds no air");
    sw_contains(t, finding(r, "co")->remedy, "more air");
    sw_contains(t, finding(r, "efficiency")->remedy, "more air");
    opt.lambda = 1;
    if ((r = solved(t, &stove, &opt)) != NULL) sw_near(t, r->losses.unburnt, 0, 0, "limit: just enough air");
}

static void a_charge_that_the_firebox_cannot_take_fails(sw_test *t)
{
    sw_stove stove = stove_of(7000, 0.78);
    sw_fire_options opt = sw_fire_options_defaults();
    sw_fire_input in = {&stove, 0.048, 0.8, 0.12, 18.0 / 2700};
    const sw_fire_result *r = NULL;
    if (!sw_ok(t, sw_fire_solve(&t->run, &in, &opt, &r))) return;
    sw_near(t, r->batch_kg, 18, 1e-9, "derived: what burns in the duty's 45 min");
    sw_near(t, finding(r, "charge_room")->value, 100 * 18 / 450.0 / 0.048, 1e-9, "derived: 450 kg/m3 stacked");
    sw_true(t, verdict(t, r, "charge_room") == SW_FAILS);
    in.fuel_kg_s = 0;
    if (sw_ok(t, sw_fire_solve(&t->run, &in, &opt, &r))) sw_true(t, verdict(t, r, "charge_room") == SW_HOLDS);
}

static void flame_and_fuel_are_those_of_the_options(sw_test *t)
{
    sw_stove stove = stove_of(7000, 0.78);
    sw_fire_options opt = sw_fire_options_defaults();
    opt.moisture = 0.2;
    const sw_fire_result *r = solved(t, &stove, &opt);
    if (r == NULL) return;
    sw_near(t, r->fuel.moisture, 0.2, 0, "the option stands before the table");
    sw_fuel f = beech(0.2);
    sw_near(t, r->flame_k, sw_fire_flame_k(&f, 2.2, sw_k_from_c(20)), 1e-9, "same function");
    sw_near(t, r->fuel_w, r->fuel_kg_s * r->gas.lhv, 1e-9, "law: power is fuel times heating value");
}

static void each_finding_turns_when_its_limit_is_passed(sw_test *t)
{
    sw_stove stove = stove_of(7000, 0.78);
    static const struct {
        const char *check;
        size_t offset;
        double value;
        sw_verdict verdict;
    } rows[] = {
        {"moisture", offsetof(sw_fire_options, moisture), 0.25, SW_FAILS},
        {"moisture", offsetof(sw_fire_options, moisture), 0.08, SW_WATCH},
        {"lambda", offsetof(sw_fire_options, lambda), 3, SW_WATCH},
        {"lambda", offsetof(sw_fire_options, lambda), 1.3, SW_WATCH},
        {"co2", offsetof(sw_fire_options, lambda), 3, SW_WATCH},
        {"co", offsetof(sw_fire_options, co_ppm13), 1300, SW_FAILS},
        {"co", offsetof(sw_fire_options, co_ppm13), 1150, SW_WATCH},
        {"dew_point", offsetof(sw_fire_options, flue_c), 40, SW_FAILS},
        {"dew_point", offsetof(sw_fire_options, flue_c), 80, SW_WATCH},
        {"tar", offsetof(sw_fire_options, flue_c), 140, SW_WATCH},
        {"efficiency", offsetof(sw_fire_options, flue_c), 300, SW_FAILS},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        sw_fire_options opt = sw_fire_options_defaults();
        memcpy((char *)&opt + rows[i].offset, &rows[i].value, sizeof rows[i].value);
        const sw_fire_result *r = solved(t, &stove, &opt);
        if (r == NULL || !sw_true(t, verdict(t, r, rows[i].check) == rows[i].verdict)) return;
    }
}

static void a_firebox_without_size_is_unknown_not_good(sw_test *t)
{
    sw_stove stove = stove_of(7000, 0.78);
    sw_fire_input in = {&stove, NAN, NAN, NAN, 0};
    sw_fire_options opt = sw_fire_options_defaults();
    const sw_fire_result *r = NULL;
    if (!sw_ok(t, sw_fire_solve(&t->run, &in, &opt, &r))) return;
    sw_true(t, verdict(t, r, "volume_loading") == SW_UNKNOWN && verdict(t, r, "base_loading") == SW_UNKNOWN);
    sw_true(t, verdict(t, r, "charge") == SW_UNKNOWN && verdict(t, r, "moisture") == SW_HOLDS);
    sw_contains(t, finding(r, "charge")->what, "not known");
}

static void a_firebox_of_wrong_size_is_watched(sw_test *t)
{
    sw_stove stove = stove_of(7000, 0.78);
    sw_fire_options opt = sw_fire_options_defaults();
    sw_fire_input in = {&stove, 0.02, 0.5, 0.3, 0};
    const sw_fire_result *r = NULL;
    if (!sw_ok(t, sw_fire_solve(&t->run, &in, &opt, &r))) return;
    sw_true(t, verdict(t, r, "volume_loading") == SW_WATCH && finding(r, "volume_loading")->margin < 0);
    sw_true(t, verdict(t, r, "base_loading") == SW_WATCH && verdict(t, r, "charge") == SW_WATCH);
}

static void an_efficiency_out_of_reach_says_so(sw_test *t)
{
    sw_stove stove = stove_of(7000, 0.995);
    sw_fire_options opt = sw_fire_options_defaults();
    const sw_fire_result *r = solved(t, &stove, &opt);
    if (r == NULL) return;
    sw_true(t, isnan(r->flue_most_k) && verdict(t, r, "efficiency") == SW_FAILS);
    sw_contains(t, finding(r, "efficiency")->what, "at any flue temperature");
}

static void short_refuelling_fails_the_standard(sw_test *t)
{
    sw_stove stove = stove_of(7000, 0.78);
    stove.duty.refuel_s = 1800;
    sw_fire_options opt = sw_fire_options_defaults();
    const sw_fire_result *r = solved(t, &stove, &opt);
    if (r != NULL) sw_true(t, verdict(t, r, "refuelling") == SW_FAILS);
}

static void unknown_fuel_names_those_known(sw_test *t)
{
    sw_stove stove = stove_of(7000, 0.78);
    sw_fire_input in = {&stove, NAN, NAN, NAN, 0};
    sw_fire_options opt = sw_fire_options_defaults();
    const sw_fire_result *r;
    stove.duty.fuel = "peat briquettes of the moor";
    sw_true(t, sw_fire_solve(&t->run, &in, &opt, &r) == SW_BAD_INPUT && r == NULL);
    sw_same_text(t, t->run.errors[0].field, "duty.fuel");
    for (size_t i = 0; i < sw_fuel_count(); i++) sw_contains(t, t->run.errors[0].text, sw_fuel_at(i)->name);
    sw_run_clear_errors(&t->run);
    stove.duty.fuel = "beach logs";
    sw_true(t, sw_fire_solve(&t->run, &in, &opt, &r) == SW_BAD_INPUT);
    sw_contains(t, t->run.errors[0].text, "did you mean \"beech logs\"");
}

static void every_fault_of_the_input_is_told_at_once(sw_test *t)
{
    sw_stove stove = stove_of(NAN, 1.2);
    sw_fire_input in = {&stove, -1, NAN, 0, 0};
    sw_fire_options opt = sw_fire_options_defaults();
    const sw_fire_result *r;
    static const char *const fields[] = {"moisture",        "lambda",     "flue_c",  "duty.output", "duty.refuel",
                                         "duty.efficiency", "firebox_m3", "base_m2", "duty.fuel"};
    opt.moisture = 0.65;
    opt.lambda = 0;
    opt.flue_c = NAN;
    stove.duty.refuel_s = 0;
    stove.duty.fuel = "coal";
    sw_true(t, sw_fire_solve(&t->run, &in, &opt, &r) == SW_OUT_OF_RANGE && r == NULL);
    if (!sw_true(t, t->run.error_count == sizeof fields / sizeof *fields)) return;
    for (size_t i = 0; i < sizeof fields / sizeof *fields; i++) sw_same_text(t, t->run.errors[i].field, fields[i]);
}

static void default_options_are_inside_their_own_table(sw_test *t)
{
    size_t count;
    const sw_option *table = sw_fire_option_table(&count);
    sw_fire_options opt = sw_fire_options_defaults();
    sw_ok(t, sw_options_check(&t->run, table, count, &opt));
    sw_batch_model model = sw_batch_model_defaults();
    table = sw_batch_model_table(&count);
    sw_ok(t, sw_options_check(&t->run, table, count, &model));
}

static void every_failed_request_for_memory_is_reported(sw_test *t)
{
    sw_stove stove = stove_of(7000, 0.78);
    sw_fire_input in = {&stove, 0.048, 0.8, 0.12, 0};
    sw_fire_options opt = sw_fire_options_defaults();
    for (int arena = 0; arena < 2; arena++) {
        stove.duty.fuel = arena == 0 ? "beech logs" : "turf";
        for (size_t nth = 1; nth < 200; nth++) {
            const sw_fire_result *r = NULL;
            sw_run_clear_errors(&t->run);
            sw_arena_fail_at(arena == 0 ? t->run.keep : t->run.scratch, nth);
            sw_status status = sw_fire_solve(&t->run, &in, &opt, &r);
            sw_arena_fail_at(arena == 0 ? t->run.keep : t->run.scratch, 0);
            if (status == SW_OK || status == SW_BAD_INPUT) break;
            if (!sw_true(t, status == SW_NO_MEMORY && r == NULL && nth < 199)) return;
        }
    }
}

SW_TESTS(SW_CASE(worked_example_comes_from_its_duty), SW_CASE(what_finds_no_air_is_a_loss_of_its_own),
         SW_CASE(a_charge_that_the_firebox_cannot_take_fails), SW_CASE(flame_and_fuel_are_those_of_the_options),
         SW_CASE(each_finding_turns_when_its_limit_is_passed), SW_CASE(a_firebox_without_size_is_unknown_not_good),
         SW_CASE(a_firebox_of_wrong_size_is_watched), SW_CASE(an_efficiency_out_of_reach_says_so),
         SW_CASE(short_refuelling_fails_the_standard), SW_CASE(unknown_fuel_names_those_known),
         SW_CASE(every_fault_of_the_input_is_told_at_once), SW_CASE(default_options_are_inside_their_own_table),
         SW_CASE(every_failed_request_for_memory_is_reported))
