/* Fire, air and heat together on the demo stoves. */
#include "demo_stoves.h"

#include <math.h>
#include <string.h>

static void every_demo_stove_closes_its_balance(sw_test *t)
{
    for (size_t i = 0; i < DEMOS; i++) {
        stove s;
        sw_burn_point p;
        if (!read_stove(t, demos[i], &s) || !settle(t, &s, &p)) return;
        double lost = p.fuel_w - p.fire.heat_w;
        sw_near(t, p.output_w + p.heat.flue_w + lost, p.fuel_w, 1e-3 * p.fuel_w, "energy: what goes in comes out");
        sw_near(t, p.output_w, s.model->stove->duty.output_w, 1e-5 * p.output_w, "as asked");
        sw_near(t, p.gas_kg_s, p.fire.air_kg_s + p.fuel_kg_s * (p.gas.gas_kg - p.gas.air_kg), 1e-12, "mass: balance");
    }
}

static void more_draught_lets_in_more_air(sw_test *t)
{
    stove s;
    sw_burn_point weak, strong;
    if (!read_stove(t, demos[0], &s)) return;
    s.opt.fuel_kg_h = 2;
    if (!settle(t, &s, &weak)) return;
    s.opt.draught_pa = 20;
    if (!again(t, &s, &strong)) return;
    sw_true(t, strong.fire.air_kg_s > weak.fire.air_kg_s && strong.lambda > weak.lambda);
    sw_true(t, strong.efficiency < weak.efficiency);
}

static void wet_wood_must_be_more(sw_test *t)
{
    stove s;
    sw_burn_point dry, wet;
    if (!read_stove(t, demos[0], &s) || !settle(t, &s, &dry)) return;
    s.opt.moisture = 0.25;
    if (!again(t, &s, &wet)) return;
    sw_true(t, wet.fuel_kg_s > dry.fuel_kg_s);
}

static void a_given_excess_air_is_kept(sw_test *t)
{
    stove s;
    sw_burn_point p;
    if (!read_stove(t, demos[0], &s)) return;
    s.opt.lambda = 2.2;
    if (!settle(t, &s, &p)) return;
    sw_near(t, p.lambda, 2.2, 1e-9, "as asked");
}

static void a_changed_stove_gives_what_a_fresh_one_gives(sw_test *t)
{
    stove s, fresh;
    sw_burn_point first, changed, p;
    if (!read_stove(t, demos[0], &s) || !settle(t, &s, &first)) return;
    s.opt.draught_pa = 15;
    if (!again(t, &s, &changed)) return;
    fresh = s;
    if (!settle(t, &fresh, &p)) return;
    sw_near(t, changed.flue_k, p.flue_k, 0.01, "invariance: the start does not matter");
    sw_near(t, changed.fuel_kg_s, p.fuel_kg_s, 1e-5 * p.fuel_kg_s, "invariance: the start does not matter");
}

/* The air of the slots stays no warmer than a fresh stove's once no duct warms it. */
static void without_its_ducts_a_stove_forgets_how_warm_they_were(sw_test *t)
{
    stove s, fresh;
    sw_burn_point first, changed, p;
    if (!read_stove(t, demos[0], &s) || !settle(t, &s, &first)) return;
    s.heat.duct_h_factor = 0;
    if (!again(t, &s, &changed)) return;
    fresh = s;
    if (!settle(t, &fresh, &p)) return;
    sw_true(t, fabs(changed.flue_k - first.flue_k) > 0.5);
    sw_near(t, changed.flue_k, p.flue_k, 0.01, "invariance: what was asked before does not matter");
    sw_near(t, changed.fire.air_kg_s, p.fire.air_kg_s, 1e-5 * p.fire.air_kg_s, "invariance: the same");
}

static void no_openings_or_no_draught_is_told(sw_test *t)
{
    stove s;
    sw_burn_point p;
    if (!read_stove(t, demos[0], &s)) return;
    const sw_burn_input in = input_of(&s);
    s.opt.draught_pa = 0;
    s.opt.primary_share = s.opt.wash_share = s.opt.rear_share = 0;
    sw_ok(t, sw_burn_open(&t->run, &in, &s.opt, &s.heat, &s.burn));
    sw_true(t, sw_burn_steady(&t->run, s.burn, &p) != SW_OK && t->run.error_count > 0);
    sw_run_clear_errors(&t->run);
}

/* ---- a whole burn ------------------------------------------------------------------------------------------------ */

enum { EVENTS = 3 };
static const sw_burn_event events[EVENTS] = {{0, 1.6, 1, 1, 1}, {2700, 1.6, 0.1, NAN, NAN}, {5400, 1.6, NAN, NAN, NAN}};

static void a_burn_from_cold_closes_its_balance(sw_test *t)
{
    for (size_t i = 0; i < DEMOS; i++) {
        stove s;
        sw_burn_point p;
        const sw_burn_run *r = NULL;
        if (!read_stove(t, demos[i], &s) || !settle(t, &s, &p)) return;
        if (!sw_ok(t, sw_burn_through(&t->run, s.burn, events, EVENTS, 8100, &r))) return;
        sw_true(t, r->balance < 1e-3);
        sw_true(t, r->samples[0].output_w < r->samples[r->sample_count / 2].output_w);
        sw_true(t, r->efficiency > 0.4 && r->efficiency < 0.95);
    }
}

static void a_burn_repeats_to_the_last_bit(sw_test *t)
{
    stove s;
    sw_burn_point p;
    const sw_burn_run *a = NULL, *b = NULL;
    if (!read_stove(t, demos[0], &s)) return;
    if (!settle(t, &s, &p) || !sw_ok(t, sw_burn_through(&t->run, s.burn, events, EVENTS, 8100, &a))) return;
    if (!settle(t, &s, &p) || !sw_ok(t, sw_burn_through(&t->run, s.burn, events, EVENTS, 8100, &b))) return;
    sw_true(t, a->sample_count == b->sample_count &&
                   memcmp(a->samples, b->samples, a->sample_count * sizeof *a->samples) == 0);
}

static void wrong_events_are_refused(sw_test *t)
{
    static const sw_burn_event wrong[][2] = {{{0, 0, 1, 1, 1}, {100, 1, 1, 1, 1}},
                                             {{0, 1, 1, 1, 1}, {-5, 1, 1, 1, 1}},
                                             {{0, 1, 1, 1, 1}, {100, 1e3, 1, 1, 1}}};
    stove s;
    sw_burn_point p;
    const sw_burn_run *r = NULL;
    if (!read_stove(t, demos[0], &s) || !settle(t, &s, &p)) return;
    for (size_t i = 0; i < 3; i++) {
        sw_true(t, sw_burn_through(&t->run, s.burn, wrong[i], 2, 1000, &r) == SW_OUT_OF_RANGE && r == NULL);
        sw_run_clear_errors(&t->run);
    }
}

/* ---- hot tests --------------------------------------------------------------------------------------------------- */

static const char *synthetic_test(sw_test *t, const stove *s, const sw_burn_run *r)
{
    sw_writer *w = NULL;
    const char *text = NULL;
    size_t length = 0;
    if (!sw_ok(t, sw_writer_to_memory(&t->run, &w))) return NULL;
    sw_print(w, "time_min,place,value\n0,wood,1.6\n0,primary slide,1\n0,wash slide,1\n0,rear slide,1\n");
    for (size_t i = 5; i < r->sample_count; i += 5) {
        double minutes = r->samples[i].time_s / 60;
        if (minutes > 80) break;
        if (fabs(minutes - 45) < 1e-6) sw_print(w, "45,wood,1.6\n45,primary slide,0.1\n");
        sw_print(w, "%.6f,flue gas,%.3f\n", minutes, sw_c_from_k(r->samples[i].flue_k));
        for (size_t k = 0; k < s->scene->part_count; k++)
            if (s->scene->parts[k].kind == SW_PART_PANE || s->scene->parts[k].kind == SW_PART_SHELL)
                sw_print(w, "%.6f,%s,%.3f\n", minutes, s->scene->parts[k].name,
                         sw_c_from_k(r->parts_k[i * s->scene->part_count + k]));
    }
    return sw_ok(t, sw_writer_take(&t->run, w, &text, &length)) ? text : NULL;
}

static void a_hot_test_finds_the_constants_it_was_made_with(sw_test *t)
{
    static const sw_burn_event two[] = {{0, 1.6, 1, 1, 1}, {2700, 1.6, 0.1, NAN, NAN}};
    stove s;
    sw_burn_point p;
    const sw_burn_run *r = NULL;
    sw_hot_test test;
    const sw_burn_fit *fit = NULL;
    if (!read_stove(t, demos[0], &s)) return;
    sw_heat_model preset = s.heat;
    s.heat.inside_h_factor = 1.3;
    s.heat.outside_h_factor = 1.15;
    if (!settle(t, &s, &p) || !sw_ok(t, sw_burn_through(&t->run, s.burn, two, 2, 4900, &r))) return;
    const char *text = synthetic_test(t, &s, r);
    if (text == NULL || !sw_ok(t, sw_hot_test_read(&t->run, "test.csv", text, strlen(text), s.scene, &test))) return;
    const sw_burn_input in = input_of(&s);
    if (!sw_ok(t, sw_burn_fit_solve(&t->run, &in, &s.opt, &preset, &test, 2, &fit))) return;
    sw_true(t, fit->rms_after_k < 0.2 * fit->rms_before_k && fit->rms_after_k < 3);
    for (size_t i = 0; i < fit->constant_count; i++) {
        const sw_fitted *c = &fit->constants[i];
        if (strcmp(c->option->name, "outside_h_factor") == 0) sw_near(t, c->after, 1.15, 0.08, "as put in");
    }
}

static sw_verdict fit_verdict(sw_test *t, const sw_burn_fit *fit, const char *check)
{
    static const sw_stove nobody = {.name = "s"};
    sw_findings f = {0};
    if (!sw_ok(t, sw_burn_fit_findings(&t->run, fit, &nobody, &f))) return SW_UNKNOWN;
    for (size_t i = 0; i < f.count; i++)
        if (strcmp(f.items[i].check, check) == 0) return f.items[i].verdict;
    return SW_UNKNOWN;
}

static void constants_at_their_bounds_and_a_large_rest_are_watched(sw_test *t)
{
    size_t count;
    const sw_option *table = sw_heat_model_table(&count);
    sw_fitted constants[] = {{&table[0], 1, (table[0].low + table[0].high) / 2, 0.1},
                             {&table[1], 1, table[1].high, 0.1}};
    sw_burn_fit fit = {.constants = constants, .constant_count = 2, .rms_before_k = 60, .rms_after_k = 54};
    sw_true(t, fit_verdict(t, &fit, "test_rest") == SW_WATCH && fit_verdict(t, &fit, "test_bound") == SW_WATCH);
    sw_true(t, sw_fitted_at_bound(&constants[1]) && !sw_fitted_at_bound(&constants[0]));
    fit.constant_count = 1;
    fit.rms_after_k = 4;
    sw_true(t, fit_verdict(t, &fit, "test_rest") == SW_HOLDS && fit_verdict(t, &fit, "test_bound") == SW_HOLDS);
}

static void wrong_hot_tests_name_line_and_place(sw_test *t)
{
    static const char *const wrong[] = {
        "time,place,value\n0,wood,1\n",
        "time_min,place,value\n0,flue gas,200\n",
        "time_min,place,value\n0,wood,1\n5,flu gas,200\n",
        "time_min,place,value\n0,wood,1\n5,flue gas,hot\n",
        "time_min,place,value\n0,wood,1\n5,flue gas,200\n4,flue gas,210\n",
        "time_min,place,value\n0,wood,900\n5,flue gas,200\n",
    };
    stove s;
    if (!read_stove(t, demos[0], &s)) return;
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        sw_hot_test test;
        sw_true(t, sw_hot_test_read(&t->run, "test.csv", wrong[i], strlen(wrong[i]), s.scene, &test) == SW_BAD_INPUT);
        sw_true(t, t->run.error_count > 0);
        sw_run_clear_errors(&t->run);
    }
}

/* ---- bands ------------------------------------------------------------------------------------------------------- */

static void bands_hold_the_point_and_repeat(sw_test *t)
{
    stove s;
    sw_burn_point p;
    sw_band a[SW_BANDS], b[SW_BANDS];
    size_t failed = 0;
    if (!read_stove(t, demos[0], &s) || !settle(t, &s, &p)) return;
    const sw_burn_input in = input_of(&s);
    if (!sw_ok(t, sw_burn_bands(&t->run, &in, &s.opt, &s.heat, 60, 7, a, &failed))) return;
    if (!sw_ok(t, sw_burn_bands(&t->run, &in, &s.opt, &s.heat, 60, 7, b, &failed))) return;
    sw_true(t, failed == 0 && memcmp(a, b, sizeof a) == 0);
    sw_true(t, a[SW_BAND_OUTPUT_W].low < p.output_w && p.output_w < a[SW_BAND_OUTPUT_W].high);
    sw_true(t, a[SW_BAND_FLUE_K].low < p.flue_k && p.flue_k < a[SW_BAND_FLUE_K].high);
    sw_true(t, a[SW_BAND_EFFICIENCY].sigma > 0.001 && a[SW_BAND_EFFICIENCY].sigma < 0.1);
}

SW_TESTS(SW_CASE(every_demo_stove_closes_its_balance), SW_CASE(more_draught_lets_in_more_air),
         SW_CASE(wet_wood_must_be_more), SW_CASE(a_given_excess_air_is_kept),
         SW_CASE(a_changed_stove_gives_what_a_fresh_one_gives),
         SW_CASE(without_its_ducts_a_stove_forgets_how_warm_they_were), SW_CASE(no_openings_or_no_draught_is_told),
         SW_CASE(a_burn_from_cold_closes_its_balance), SW_CASE(a_burn_repeats_to_the_last_bit),
         SW_CASE(wrong_events_are_refused), SW_CASE(a_hot_test_finds_the_constants_it_was_made_with),
         SW_CASE(constants_at_their_bounds_and_a_large_rest_are_watched), SW_CASE(wrong_hot_tests_name_line_and_place),
         SW_CASE(bands_hold_the_point_and_repeat))
