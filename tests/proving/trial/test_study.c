/* The study: from a file of readings to cycles, answers, findings, sheets, plan. */
#include "proving/trial/trial.h"
#include "sw_test.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const char *const header =
    "# fuel = beech logs\n# carbon = 42 %\n# hydrogen = 5.04 %\n# moisture = 16 %\n# lhv = 15065 kJ/kg\n";

/* A steady burn: every row the same, a charge at 0 and one an hour later. */
typedef struct burn {
    double flue_c, room_c, co2, o2, co_ppm, kg;
    int minutes, step_s;
} burn;
static const burn second_example = {280, 20, 11.0, 9.55, 800, 2.12, 120, 10};

static const char *file_of(sw_test *t, burn b, const char *more)
{
    sw_writer *w = NULL;
    const char *text = NULL;
    size_t length = 0;
    if (!sw_ok(t, sw_writer_to_memory(&t->run, &w))) return "";
    sw_print(
        w,
        "%s%s# charge = 0 min, %.3f kg\n# charge = 60 min, %.3f kg\ntime_s,CO2 [%%],O2 [%%],CO [ppm],flue [degC],room [degC],draught [Pa],handle [degC]\n",
        header, more, b.kg, b.kg);
    for (int s = 0; s <= b.minutes * 60; s += b.step_s)
        sw_print(w, "%d,%.3f,%.3f,%.1f,%.2f,%.2f,12,50\n", s, b.co2, b.o2, b.co_ppm, b.flue_c, b.room_c);
    sw_ok(t, sw_writer_take(&t->run, w, &text, &length));
    return text;
}

static sw_status read_text(sw_test *t, const char *text, sw_trial_record *r)
{
    return sw_trial_read(&t->run, "test.csv", text, strlen(text), r);
}

static const sw_trial_result *evaluated(sw_test *t, const char *text, const sw_trial_options *opt)
{
    sw_trial_record *r = SW_KEEP(&t->run, 1, sw_trial_record);
    const sw_trial_result *out = NULL;
    sw_trial_input in = {.record = r};
    if (!sw_ok(t, read_text(t, text, r))) return NULL;
    sw_ok(t, sw_trial_solve(&t->run, &in, opt, &out));
    return out;
}

static sw_trial_options no_warm_up(void)
{
    sw_trial_options o = sw_trial_options_defaults();
    o.warm_up = 0;
    return o;
}

static const sw_finding *finding(const sw_trial_result *r, const char *check)
{
    for (size_t i = 0; i < r->findings.count; i++)
        if (strcmp(r->findings.items[i].check, check) == 0) return &r->findings.items[i];
    return NULL;
}

static void steady_readings_give_the_second_example(sw_test *t)
{
    const char *book = "handbook TT-2, computed";
    sw_trial_options o = no_warm_up();
    const sw_trial_result *r = evaluated(t, file_of(t, second_example, ""), &o);
    if (r == NULL || !sw_true(t, r->cycle_count == 2 && r->valid_count == 2)) return;
    sw_near(t, 100 * r->whole.losses.efficiency, 80.3100, 1e-3, book);
    sw_near(t, r->answers[SW_ANSWER_EFFICIENCY].value, 80.3100, 1e-3, book);
    sw_near(t, r->answers[SW_ANSWER_OUTPUT].value, 7.12479, 1e-4, book);
    sw_near(t, 1000 * r->whole.flow_kg_s, 5.77538, 1e-4, book);
    sw_near(t, 1000 * r->whole.gas_kg_s, 5.986, 0.01, "handbook TT-2: stoichiometric, for chimneys");
    sw_near(t, r->declared.flow_kg_s, r->whole.gas_kg_s, 0, "docs/studies/trial.md");
    sw_near(t, r->answers[SW_ANSWER_EFFICIENCY].u, 0.42427, 0.02,
            "handbook TT-11, near: the heating value's share is 1 %");
    sw_near(t, r->answers[SW_ANSWER_EFFICIENCY].u_sampled, r->answers[SW_ANSWER_EFFICIENCY].u, 0.01,
            "law: slopes and draws agree");
    sw_near(t, r->season.index, 1.45 * 80.31 - 10, 0.01, "handbook T2.3");
    sw_same_text(t, r->season.class_, "A");
    sw_true(t, finding(r, "gas_balance")->verdict == SW_HOLDS);
    sw_contains(t, r->statement, "accredited laboratory");
}

static void two_unequal_periods_convert_their_means(sw_test *t)
{
    sw_trial_options o = no_warm_up();
    sw_trial_record r;
    const sw_trial_result *out = NULL;
    sw_trial_input in = {.record = &r};
    o.gap_s = 120;
    const char *text =
        "# charge = 0 min, 2 kg\ntime_min;O2 [%];CO [ppm];flue [degC];room [degC]\n0;8;500;250;20\n1;8;500;250;20\n2;8;500;250;20\n"
        "2,0001;15;3000;250;20\n3;15;3000;250;20\n4,0001;15;3000;250;20\n";
    if (!sw_ok(t, read_text(t, text, &r)) || !sw_ok(t, sw_trial_solve(&t->run, &in, &o, &out))) return;
    sw_near(t, out->answers[SW_ANSWER_CO].value, 1841.6, 0.3, "handbook TT-5, computed: means first");
}

static void unequal_charges_weigh_by_their_heat(sw_test *t)
{
    sw_trial_options o = no_warm_up();
    const char *text =
        "# charge = 0 min, 3 kg\n# charge = 20 min, 1 kg\ntime_min,CO2 [%],CO [ppm],flue [degC],room [degC]\n"
        "0,10,500,350,20\n10,10,500,350,20\n20,10,500,250,20\n30,10,500,150,20\n40,10,500,150,20\n";
    o.gap_s = 1200;
    const sw_trial_result *r = evaluated(t, text, &o);
    if (r == NULL || !sw_true(t, r->valid_count == 2)) return;
    double eta[] = {r->cycles[0].losses.efficiency, r->cycles[1].losses.efficiency},
           kg[] = {r->cycles[0].wood_kg, r->cycles[1].wood_kg};
    sw_true(t, eta[1] > eta[0] + 0.05);
    sw_near(t, r->whole.losses.efficiency, sw_trial_weighted(eta, kg, 2), 1e-12, "handbook T4.1");
    const sw_trial_losses *l = &r->whole.losses;
    sw_near(t, l->sensible + l->co + l->residue + l->efficiency, 1, 1e-12, "law: losses and use are the whole");
}

static void an_odd_reading_is_shown_up_to_a_whole_letter(sw_test *t)
{
#define UMLAUTS                                                                                                        \
    "\xc3\xa4\xc3\xa4\xc3\xa4\xc3\xa4\xc3\xa4\xc3\xa4\xc3\xa4\xc3\xa4\xc3\xa4\xc3\xa4\xc3\xa4" /* 22 bytes */
    const char *text = "# charge = 0 s, 1.5 kg\ntime_s,co2_%,co_ppm,flue_c,room_c,x" UMLAUTS UMLAUTS UMLAUTS UMLAUTS
                       "\n0,10,500,250,20,1\n10,x" UMLAUTS "\xc3\xa4,500,250,20,1\n20,10,500,250,20,1\n";
    sw_trial_record r;
    if (!sw_ok(t, read_text(t, text, &r))) return;
    const sw_trial_column *co2 = sw_trial_column_of(&r, SW_TRIAL_CO2);
    sw_same_text(t, co2->first_odd, "x" UMLAUTS);
    sw_true(t, r.ignored_count == 1 && strlen(r.ignored) == 79 && sw_text_is_utf8(r.ignored, 79));
}

static void lost_readings_are_counted_and_left_out(sw_test *t)
{
    const char *text =
        "# charge = 0 s, 1.5 kg\ntime_s,co2_%,co_ppm,flue_c,room_c\n0,10,500,250,20\n10,,500,250,20\n20,ERR,500,2500,20\n30,kaputt,500,250,20\n40,10,500,250,20\n50,10,500,250,20\n";
    sw_trial_record r;
    if (!sw_ok(t, read_text(t, text, &r))) return;
    const sw_trial_column *co2 = sw_trial_column_of(&r, SW_TRIAL_CO2), *flue = sw_trial_column_of(&r, SW_TRIAL_FLUE);
    sw_true(t, co2->lost == 3 && co2->odd == 1 && co2->first_lost_line == 4 && isnan(co2->values[1]) &&
                   isnan(co2->values[3]));
    sw_same_text(t, co2->first_odd, "kaputt");
    sw_true(t, flue->lost == 1 && flue->odd == 1 && isnan(flue->values[2]));
    sw_trial_options o = no_warm_up();
    const sw_trial_result *out = evaluated(t, text, &o);
    if (out == NULL) return;
    sw_near(t, out->cycles[0].coverage, 0.2, 1e-12, "derived: one step of five has CO2 at both ends");
    sw_true(t, !out->cycles[0].valid && out->valid_count == 0 && isnan(out->whole.losses.efficiency));
    sw_contains(t, finding(out, "lost_readings")->what, "3 of 6");
    sw_true(t, finding(out, "charges")->verdict == SW_FAILS && finding(out, "limit_co")->verdict == SW_UNKNOWN);
}

/* The same readings in many dresses give the same numbers. */
static void a_files_dress_does_not_matter(sw_test *t)
{
    static const char *const dresses[] = {
        "time_s,co2_%,co_ppm,flue_c,room_c\n0,10.5,500,250,20\n60,10.5,500,250,20\n120,10.5,500,250,20\n",
        "\xef\xbb\xbftime [min];Room (\xc2\xb0"
        "C);Flue gas (\xc2\xb0"
        "C);CO [%];CO2 [%]\r\n0;20;250;0,05;10,5\r\n1;20;250;0,05;10,5\r\n2;20;250;0,05;10,5\r\n",
        "clock\tCO2\tCO\tflue\troom\nhh:mm:ss\t%\tppm\tdegC\tdegC\n23:59:00\t10.5\t500\t250\t20\n00:00:00\t10.5\t500\t250\t20\n00:01:00\t10.5\t500\t250\t20\n",
        "timestamp,\"CO2 [%]\",CO [ppm],flue [K],room [K]\n2026-02-28 23:59:00,\"10,5\",500,523.15,293.15\n2026-03-01T00:00:00,10.5,500,523.15,293.15\n2026-03-01 00:01:00.0,10.5,5e2,523.15,293.15\n\n",
        "# a remark\ntime;room;ambient humidity;flue;CO2;CO [ppm]\n31.12.2025 23:59:00;20;50;250;10,5;500\n01.01.2026 00:00:00;20;50;250;10,5;500\n01.01.2026 00:01:00;20;50;250;10,5;500\n",
    };
    for (size_t i = 0; i < sizeof dresses / sizeof *dresses; i++) {
        sw_trial_record r;
        if (!sw_ok(t, read_text(t, dresses[i], &r)) || !sw_true(t, r.row_count == 3)) return;
        sw_near(t, r.time_s[2], 120, 1e-6, "derived: two minutes later");
        sw_near(t, sw_trial_column_of(&r, SW_TRIAL_CO2)->values[0], 0.105, 1e-12, "derived");
        sw_near(t, sw_trial_column_of(&r, SW_TRIAL_CO)->values[2], 500e-6, 1e-12, "derived");
        sw_near(t, sw_trial_column_of(&r, SW_TRIAL_FLUE)->values[1], 523.15, 1e-9, "derived");
        sw_near(t, sw_trial_column_of(&r, SW_TRIAL_ROOM)->values[1], 293.15, 1e-9, "derived");
    }
}

static void wrong_files_say_what_is_wrong(sw_test *t)
{
    static const struct {
        const char *text, *says;
    } wrong[] = {
        {"", "holds no table"},
        {"# moisture = 16 %\n", "holds no table"},
        {"co2,flue,room\n1,2,3\n", "no column is the time"},
        {"time_s,co2,room\n0,1,2\n", "has no column"},
        {"time_s,flue,room\n0,1,2\n", "nor has O2"},
        {"time_s,co2,co,flue,room\n0,1,2,3,4\n", "needs its unit"},
        {"time_s,co2,CO2 [%],flue,room\n0,1,2,3,4\n", "two columns"},
        {"time_s,co2,flue,room\n0,1,2,3\n", "fewer than two rows"},
        {"time_s,co2,flue,room\n0,10,200,20\n10,10,200,20\n5,10,200,20\n", "goes back"},
        {"time_s,co2,flue,room\n0,10,200,20\nsoon,10,200,20\n", "neither a number nor a time stamp"},
        {"time_s,co2,flue,room\n0,10,200,20\n1,10,200,20,7\n", "more cells"},
        {"time_s,co2,flue,room\n0,,200,20\n1,,200,20\n", "not one reading"},
        {"# moistur = 16 %\ntime_s,co2,flue,room\n0,10,200,20\n1,10,200,20\n", "did you mean moisture"},
        {"# moisture = 160 %\ntime_s,co2,flue,room\n0,10,200,20\n1,10,200,20\n", "no number from 0 to 60"},
        {"# moisture = 16 kg\ntime_s,co2,flue,room\n0,10,200,20\n1,10,200,20\n", "no number from 0 to 60"},
        {"# charge = soon\ntime_s,co2,flue,room\n0,10,200,20\n1,10,200,20\n", "give a time and the wood"},
        {"# charge = 9 min, 1 kg\ntime_s,co2,flue,room\n0,10,200,20\n1,10,200,20\n", "not in order"},
        {"# charge = 10:00, 1 kg\ntime_s,co2,flue,room\n0,10,200,20\n1,10,200,20\n", "of the clock"},
        {"# surface = door: hot\ntime_s,co2,flue,room\n0,10,200,20\n1,10,200,20\n", "metal handle"},
        {"# filter = 3\ntime_s,co2,flue,room\n0,10,200,20\n1,10,200,20\n", "one a charge"},
        {"time_s\xff,co2\n", "no UTF-8"},
    };
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        sw_trial_record r;
        sw_run_clear_errors(&t->run);
        sw_true(t, read_text(t, wrong[i].text, &r) == SW_BAD_INPUT);
        bool said = false;
        for (size_t k = 0; k < t->run.error_count; k++) said |= strstr(t->run.errors[k].text, wrong[i].says) != NULL;
        if (!sw_true_at(t, said, wrong[i].says, __FILE__, __LINE__)) return;
    }
}

static void all_faults_are_told_at_once(sw_test *t)
{
    sw_trial_record r;
    sw_true(t, read_text(t, "# mouse = 1\ntime_s,co2,flue,room\n0,10,200,20\nx,10,200,20\ny,10,200,20\n", &r) ==
                   SW_BAD_INPUT);
    sw_true(t, t->run.error_count == 3 && t->run.errors[0].place.line == 1 && t->run.errors[2].place.line == 5);
}

static void a_charge_is_seen_on_the_scale(sw_test *t)
{
    sw_writer *w = NULL;
    const char *text = NULL;
    size_t length = 0;
    if (!sw_ok(t, sw_writer_to_memory(&t->run, &w))) return;
    sw_print(w, "time_s,co2,co_ppm,flue,room,mass\n");
    for (int s = 0; s <= 7200; s += 10) {
        double kg = 40 + (s >= 600 ? 1.8 : 0) + (s >= 4200 ? 1.5 : 0) - 4e-4 * s;
        sw_print(w, "%d,10,500,250,20,%.4f\n", s, kg);
    }
    if (!sw_ok(t, sw_writer_take(&t->run, w, &text, &length))) return;
    sw_trial_options o = no_warm_up();
    const sw_trial_result *r = evaluated(t, text, &o);
    if (r == NULL || !sw_true(t, r->charge_count == 2)) return;
    sw_near(t, r->charges[0].wood_kg, 1.8, 0.02, "derived: the rise of the scale");
    sw_near(t, r->charges[1].wood_kg, 1.5, 0.02, "derived: the rise of the scale");
    sw_near(t, r->charges[0].time_s, 590, 11, "derived");
    sw_near(t, r->charges[1].time_s, 4190, 11, "derived");
}

static void rows_more_often_change_nothing(sw_test *t)
{
    sw_trial_options o = no_warm_up();
    burn fine = second_example;
    fine.step_s = 1;
    const sw_trial_result *a = evaluated(t, file_of(t, second_example, ""), &o),
                          *b = evaluated(t, file_of(t, fine, ""), &o);
    if (a == NULL || b == NULL) return;
    sw_near(t, b->whole.losses.efficiency, a->whole.losses.efficiency, 1e-12,
            "law: a steady burn does not depend on the step");
    sw_near(t, b->answers[SW_ANSWER_CO].value, a->answers[SW_ANSWER_CO].value, 1e-9,
            "law: a steady burn does not depend on the step");
}

static void surfaces_keep_their_limits_or_not(sw_test *t)
{
    sw_trial_options o = no_warm_up();
    const sw_trial_result *r = evaluated(t, file_of(t, second_example, "# surface = handle: enamel handle\n"), &o);
    if (r == NULL || !sw_true(t, r->rise_count == 1)) return;
    sw_near(t, r->rises[0].rise_k, 30, 1e-9, "derived: 50 degC in a room of 20");
    sw_true(t, r->rises[0].spot == SW_SPOT_ENAMEL && finding(r, "surface")->verdict == SW_HOLDS);
    burn hot = second_example;
    hot.room_c = 10;
    r = evaluated(t, file_of(t, hot, ""), &o);
    if (r == NULL) return;
    sw_true(t, r->rises[0].spot == SW_SPOT_METAL && finding(r, "surface")->verdict == SW_FAILS);
    sw_true(t, finding(r, "room")->verdict == SW_FAILS);
}

static void rules_chosen_are_the_rules_judged(sw_test *t)
{
    sw_trial_options o = no_warm_up();
    const sw_trial_result *r =
        evaluated(t, file_of(t, second_example, "# filter = 24.6 mg, 0.750 m3\n# filter = 24.6 mg, 0.750 m3\n"), &o);
    if (r == NULL || !sw_true(t, r->limit_count == 7)) return;
    for (size_t i = 0; i < r->limit_count; i++) sw_true(t, strlen(r->limits[i].source) > 5);
    sw_near(t, r->whole.raw[SW_EMISSION_PM], 32.8, 1e-9, "handbook TT-4, computed");
    o.germany = o.uk = o.us = 1;
    const sw_trial_result *more = evaluated(t, file_of(t, second_example, ""), &o);
    if (more == NULL) return;
    sw_true(t, more->limit_count == 12);
    sw_near(t, more->limits[10].limit, 5 + 7.12479 / 3, 1e-3, "handbook TT-7, form of");
}

static void bone_dry_wood_is_as_unsure_as_any_other(sw_test *t)
{
    sw_trial_options o = no_warm_up();
    burn b = second_example;
    const char *damp = file_of(t, b, "");
    char *dry = SW_KEEP(&t->run, strlen(damp) + 1, char);
    memcpy(dry, damp, strlen(damp) + 1);
    char *moisture = strstr(dry, "= 16 %");
    if (!sw_true(t, moisture != NULL)) return;
    memcpy(moisture, "=  0 %", 6);
    const sw_trial_result *wet = evaluated(t, damp, &o), *r = evaluated(t, dry, &o);
    if (wet == NULL || r == NULL) return;
    for (size_t i = SW_ANSWER_EFFICIENCY; i <= SW_ANSWER_CO; i++) {
        const sw_trial_answer *a = &r->answers[i];
        sw_true_at(t, isfinite(a->half95) && isfinite(a->u_sampled), a->name, __FILE__, __LINE__);
        sw_near(t, a->half95, wet->answers[i].half95, 0.25 * a->half95, "law: water is a small part of it");
    }
    for (size_t i = 0; i < r->limit_count; i++)
        sw_true(t, isnan(r->limits[i].value) || r->limits[i].high != r->limits[i].value);
}

static sw_stove stove(void)
{
    return (sw_stove){.name = "s",
                      .title = "",
                      .note = "",
                      .duty = {.output_w = 7000, .refuel_s = 2700, .efficiency = 0.78, .fuel = "beech logs"}};
}

static void a_plan_asks_for_the_charge_of_the_duty(sw_test *t)
{
    sw_stove s = stove();
    const sw_trial_plan *p = NULL;
    if (!sw_ok(t, sw_trial_plan_of(&t->run, &s, &p))) return;
    sw_near(t, p->charge_kg, 1.594, 6e-4, "handbook F1.3, computed");
    sw_true(t, p->step_count >= 8 && p->sensor_count >= 9);
    double at_s = 0;
    for (size_t i = 0; i < p->step_count; i++) {
        sw_near(t, p->steps[i].start_s, at_s, 1e-9, "law: one step after another");
        at_s += p->steps[i].lasts_s;
    }
    sw_near(t, p->lasts_s, at_s, 1e-9, "law: the whole is its steps");
    sw_contains(t, p->header, "# fuel = beech logs");
    s.duty.efficiency = 0;
    sw_true(t, sw_trial_plan_of(&t->run, &s, &p) == SW_OUT_OF_RANGE);
    s.duty = stove().duty;
    s.duty.fuel = "peat";
    sw_true(t, sw_trial_plan_of(&t->run, &s, &p) == SW_BAD_INPUT);
}

static void no_part_is_dropped_from_a_plan(sw_test *t)
{
    enum { PIECES = 150 };
    sw_stove s = stove();
    sw_piece *pieces = sw_keep(&t->run, PIECES, sizeof *pieces);
    const sw_trial_plan *p = NULL;
    for (size_t i = 0; i < PIECES; i++) pieces[i] = (sw_piece){.name = "wall", .role = "firebox wall"};
    s.pieces = pieces;
    s.piece_count = PIECES;
    if (!sw_ok(t, sw_trial_plan_of(&t->run, &s, &p))) return;
    sw_true(t, p->sensor_count == 9 + PIECES && p->sensors[p->sensor_count - 1].piece == PIECES - 1);
}

static void a_draught_nobody_measured_is_no_measured_one(sw_test *t)
{
    sw_trial_options o = no_warm_up();
    const char *text =
        "# fuel = beech logs\n# charge = 0 min, 2 kg\n# charge = 60 min, 2 kg\n# end = 120 min\n"
        "time_min,CO2 [%],CO [ppm],flue gas [degC],room [degC]\n0,9,800,250,20\n60,9,800,250,20\n120,9,800,250,20\n";
    const sw_trial_result *r = evaluated(t, text, &o);
    if (r == NULL) return;
    sw_true(t, isnan(r->declared.draught_pa) && r->declared.draught_assumed);
    sw_contains(t, r->declared.lua, "-- draught was not measured: assumed");
    size_t seen = 0;
    for (size_t i = 0; i < r->sheets[SW_SHEET_PLATE].line_count; i++) {
        if (strcmp(r->sheets[SW_SHEET_PLATE].lines[i].label, "least draught") != 0) continue;
        sw_same_text(t, r->sheets[SW_SHEET_PLATE].lines[i].note, "not measured");
        seen++;
    }
    sw_true(t, seen == 1);
}

static void predictions_stand_beside_the_measured(sw_test *t)
{
    sw_trial_record r;
    const sw_trial_result *out = NULL;
    sw_stove s = stove();
    const char *places[] = {"handle", "roof"};
    const double places_k[] = {313.15, 500};
    sw_trial_predicted p = {0.78, 7000, 553.15, NAN, 0.11, places, places_k, 2};
    sw_house house = {
        .name = "", .declared_kg_s = 0.009, .declared_k = 553.15, .declared_pa = 12, .declared_co2 = 0.11};
    sw_trial_input in = {&r, &s, &house, &p};
    sw_trial_options o = no_warm_up();
    if (!sw_ok(t, read_text(t, file_of(t, second_example, ""), &r)) ||
        !sw_ok(t, sw_trial_solve(&t->run, &in, &o, &out)))
        return;
    if (!sw_true(t, out->comparison_count == 5)) return;
    sw_near(t, out->comparisons[0].difference, 2.31, 1e-3, "derived: 80.31 less 78");
    sw_near(t, out->comparisons[4].difference, 10, 1e-9, "derived: 50 degC less 40");
    sw_true(t, out->plan != NULL);
    bool flow = false, warm = false;
    for (size_t i = 0; i < out->findings.count; i++) {
        const sw_finding *f = &out->findings.items[i];
        if (strcmp(f->check, "declared") != 0) continue;
        flow |= strstr(f->where, "flow") != NULL && f->verdict == SW_WATCH;
        warm |= strstr(f->where, "temperature") != NULL && f->verdict == SW_HOLDS;
    }
    sw_true(t, flow && warm);
    sw_contains(t, out->declared.lua, "temperature = 280*degC");
}

static void readings_go_out_as_a_hot_test(sw_test *t)
{
    sw_trial_options o = no_warm_up();
    sw_writer *w = NULL;
    const char *text = NULL;
    size_t length = 0;
    const sw_trial_result *r = evaluated(t, file_of(t, second_example, ""), &o);
    if (r == NULL || !sw_ok(t, sw_writer_to_memory(&t->run, &w))) return;
    sw_trial_write_hot_test(w, r);
    if (!sw_ok(t, sw_writer_take(&t->run, w, &text, &length))) return;
    sw_contains(t, text, "time_min,place,value\n0.0000,wood,2.120\n0.0000,flue gas,280.000\n0.0000,handle,50.000\n");
    sw_contains(t, text, "60.0000,wood,2.120\n");
    sw_true(t, r->reading_count == 2 * 25);
}

static void rows_far_apart_all_go_out(sw_test *t)
{
    burn sparse = second_example;
    sparse.step_s = 600;
    sw_trial_options o = no_warm_up();
    const sw_trial_result *r = evaluated(t, file_of(t, sparse, ""), &o);
    if (r == NULL || !sw_true(t, r->reading_count == 2 * 13)) return;
    sw_near(t, r->readings[r->reading_count - 1].time_s, 7200, 1e-9, "derived: the last row");
}

static void a_lost_charge_is_watched_where_none_is_left_for_warming_up(sw_test *t)
{
    const char *text =
        "# charge = 0 s, 1.5 kg\ntime_s,co2_%,flue_c,room_c\n0,10,250,20\n10,,250,20\n20,,250,20\n30,10,250,20\n";
    sw_trial_options o = sw_trial_options_defaults();
    const sw_trial_result *r = evaluated(t, text, &o);
    if (r != NULL) sw_true(t, finding(r, "charge")->verdict == SW_WATCH);
}

static const char *demo(sw_test *t, size_t *length)
{
    const char *bytes = "";
    sw_ok(t, sw_file_read(&t->run, SW_SOURCE_DIR "/demo/trial.csv", (size_t)1 << 24, &bytes, length));
    return bytes;
}

static void the_demonstration_reads_clean(sw_test *t)
{
    sw_trial_record r;
    const sw_trial_result *out = NULL;
    sw_trial_input in = {.record = &r};
    sw_trial_options o = sw_trial_options_defaults();
    size_t length = 0;
    const char *bytes = demo(t, &length);
    if (!sw_ok(t, sw_trial_read(&t->run, "trial.csv", bytes, length, &r)) ||
        !sw_ok(t, sw_trial_solve(&t->run, &in, &o, &out)))
        return;
    sw_contains(t, r.note, "Invented");
    sw_true(t, out->cycle_count == 4 && out->valid_count == 3 && out->gap_count == 0);
    for (size_t i = 0; i < out->findings.count; i++) {
        const sw_finding *f = &out->findings.items[i];
        if (!sw_true_at(t, f->verdict != SW_FAILS && f->verdict != SW_UNKNOWN, f->what, __FILE__, __LINE__)) return;
        sw_true(t, f->verdict == SW_HOLDS || strlen(f->remedy) > 3);
        sw_true(t, strlen(f->source) > 3 && strlen(f->what) > 5);
    }
    for (size_t i = 0; i < SW_SHEETS; i++) sw_true(t, out->sheets[i].line_count > 8);
    for (size_t i = 0; i < out->series_count; i++) sw_true(t, out->series[i].count == 480);
}

static void every_cut_of_a_file_is_taken_or_refused(sw_test *t)
{
    size_t length = 0;
    const char *bytes = demo(t, &length);
    for (size_t n = 0; n < length && n < 6000; n += n < 1400 ? 1 : 97) {
        sw_run run;
        sw_trial_record r;
        if (!sw_ok(t, sw_run_open(&run, (size_t)1 << 26))) return;
        sw_status status = sw_trial_read(&run, "cut.csv", bytes, n, &r);
        bool told = status == SW_OK ? run.error_count == 0 : status == SW_BAD_INPUT && run.error_count > 0;
        sw_run_close(&run);
        if (!sw_true(t, told)) return;
    }
}

static void memory_that_runs_out_is_told(sw_test *t)
{
    const char *text = file_of(t, second_example, "# surface = handle: metal handle\n");
    sw_trial_options o = no_warm_up();
    for (size_t n = 1; n < 400; n += 3) {
        sw_run run;
        sw_trial_record r;
        const sw_trial_result *out = NULL;
        sw_trial_input in = {.record = &r};
        o.draws = 100;
        if (!sw_ok(t, sw_run_open(&run, (size_t)1 << 26))) return;
        sw_arena_fail_at(run.keep, n);
        sw_status status = sw_trial_read(&run, "test.csv", text, strlen(text), &r);
        if (status == SW_OK) status = sw_trial_solve(&run, &in, &o, &out);
        bool told = status == SW_OK ? out != NULL : out == NULL;
        sw_run_close(&run);
        if (!sw_true(t, told && (status == SW_OK || status == SW_NO_MEMORY))) return;
    }
}

static void wrong_options_and_wood_are_refused(sw_test *t)
{
    sw_trial_record r;
    const sw_trial_result *out = NULL;
    sw_trial_input in = {.record = &r};
    sw_trial_options o = no_warm_up();
    if (!sw_ok(t, read_text(t, file_of(t, second_example, ""), &r))) return;
    o.control = 9;
    sw_true(t, sw_trial_solve(&t->run, &in, &o, &out) == SW_OUT_OF_RANGE && out == NULL);
    o = no_warm_up();
    r.fuel = "peat";
    sw_true(t, sw_trial_solve(&t->run, &in, &o, &out) == SW_BAD_INPUT);
    r.fuel = "beech logs";
    r.c = 0.9;
    sw_true(t, sw_trial_solve(&t->run, &in, &o, &out) == SW_OUT_OF_RANGE);
    r.c = NAN;
    r.charge_count = 0;
    sw_true(t, sw_trial_solve(&t->run, &in, &o, &out) == SW_BAD_INPUT);
}

SW_TESTS(SW_CASE(steady_readings_give_the_second_example), SW_CASE(two_unequal_periods_convert_their_means),
         SW_CASE(unequal_charges_weigh_by_their_heat), SW_CASE(lost_readings_are_counted_and_left_out),
         SW_CASE(a_files_dress_does_not_matter), SW_CASE(wrong_files_say_what_is_wrong),
         SW_CASE(all_faults_are_told_at_once), SW_CASE(a_charge_is_seen_on_the_scale),
         SW_CASE(rows_more_often_change_nothing), SW_CASE(surfaces_keep_their_limits_or_not),
         SW_CASE(rules_chosen_are_the_rules_judged), SW_CASE(bone_dry_wood_is_as_unsure_as_any_other),
         SW_CASE(an_odd_reading_is_shown_up_to_a_whole_letter), SW_CASE(a_plan_asks_for_the_charge_of_the_duty),
         SW_CASE(no_part_is_dropped_from_a_plan), SW_CASE(a_draught_nobody_measured_is_no_measured_one),
         SW_CASE(predictions_stand_beside_the_measured), SW_CASE(readings_go_out_as_a_hot_test),
         SW_CASE(rows_far_apart_all_go_out), SW_CASE(a_lost_charge_is_watched_where_none_is_left_for_warming_up),
         SW_CASE(the_demonstration_reads_clean), SW_CASE(every_cut_of_a_file_is_taken_or_refused),
         SW_CASE(memory_that_runs_out_is_told), SW_CASE(wrong_options_and_wood_are_refused))
