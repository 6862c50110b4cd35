/* The driver under memory limits: it says so and leaves nothing behind. */
#include "demo_request.h"
#include "sw_test.h"

#include <stdlib.h>
#include <string.h>

static const sw_request request = {.command = "check",
                                   .words = {SW_SOURCE_DIR "/src/app/example/example.stove.lua"},
                                   .word_count = 1,
                                   .works = SW_SOURCE_DIR "/src/app/example/example.works.lua",
                                   .batch = 3,
                                   .seed = 1,
                                   .threads = 1};

static void under_any_memory_limit_it_answers_or_says_so(sw_test *t)
{
    int refused = 0, answered = 0;
    for (size_t ceiling = (size_t)1 << 17; ceiling <= (size_t)1 << 27; ceiling *= 2) {
        sw_run run;
        sw_dossier d;
        if (!sw_true(t, sw_run_open(&run, ceiling) == SW_OK)) return;
        sw_status status = sw_dossier_make(&run, &request, SW_DO_MAKE, "", &d);
        if (status == SW_OK)
            answered++;
        else if (sw_true(t, status == SW_NO_MEMORY))
            refused++;
        sw_run_close(&run);
    }
    sw_true(t, refused > 0 && answered > 0);
}

static void every_hundredth_failed_allocation_is_survived(sw_test *t)
{
    for (size_t nth = 1; nth < 6000; nth += 101)
        for (int scratch = 0; scratch < 2; scratch++) {
            sw_run run;
            sw_dossier d;
            if (!sw_true(t, sw_run_open(&run, (size_t)1 << 28) == SW_OK)) return;
            sw_arena_fail_at(scratch == 1 ? run.scratch : run.keep, nth);
            sw_status status = sw_dossier_make(&run, &request, SW_DO_MAKE, "", &d);
            sw_true(t, status == SW_OK || status == SW_NO_MEMORY);
            sw_run_close(&run);
        }
}

static void the_same_request_gives_the_same_answer(sw_test *t)
{
    sw_dossier a, b;
    sw_ok(t, sw_dossier_make(&t->run, &request, SW_DO_MAKE, "", &a));
    sw_ok(t, sw_dossier_make(&t->run, &request, SW_DO_MAKE, "", &b));
    sw_true(t, a.findings.count == b.findings.count && a.nest_count == b.nest_count && a.nest_count > 0);
    for (size_t i = 0; i < a.nest_count; i++)
        sw_near(t, a.nests[i].result->cost, b.nests[i].result->cost, 0, "invariance: same input, same seed");
    sw_near(t, a.heft->stove.mass_kg, b.heft->stove.mass_kg, 0, "invariance: same input");
}

static void a_lot_of_one_stove_completes_stove_by_stove(sw_test *t)
{
    sw_dossier d;
    sw_request one = request;
    one.lot = 1;
    if (!sw_ok(t, sw_dossier_make(&t->run, &one, SW_DO_MAKE, "", &d))) return;
    size_t told = 0;
    for (size_t i = 0; i < d.nest_count; i++) {
        const sw_nest_result *r = d.nests[i].result;
        if (r != NULL) sw_true(t, r->sheets[r->sheet_count - 1].completes == 3);
    }
    for (size_t i = 0; i < d.findings.count; i++) told += strcmp(d.findings.items[i].check, "lots") == 0;
    sw_true(t, told == d.nest_count && told > 0);
}

/* Number of a body in its part's name, "body 3, left side + back wall". */
static size_t body_number(const char *part)
{
    return strncmp(part, "body ", 5) == 0 ? (size_t)strtoul(part + 5, NULL, 10) : 0;
}

static void leak_tests_of(sw_test *t, const char *stove)
{
    sw_dossier d;
    sw_request r = request;
    r.words[0] = stove;
    r.works = SW_SOURCE_DIR "/demo/demo.works.lua";
    if (!sw_ok(t, sw_dossier_make(&t->run, &r, SW_DO_HEFT | SW_DO_NEST | SW_DO_CUT | SW_DO_SHOP, "", &d))) return;
    const sw_join_result *join = d.shop.join;
    const sw_line_input *in = d.shop.line_in;
    size_t tests = 0;
    double run_s = 0, each_s = 0;
    for (size_t i = 0; i < in->works->station_count; i++)
        if (in->works->stations[i].operation == SW_OP_LEAK) each_s = in->works->stations[i].each_s;
    for (size_t i = 0; i < in->task_count; i++) {
        if (in->tasks[i].operation != SW_OP_LEAK) continue;
        size_t number = body_number(in->tasks[i].part);
        sw_true(t, number > 0 && number <= join->body_count && !join->bodies[number - 1].ahead);
        run_s += in->tasks[i].run_s;
        tests++;
    }
    sw_true(t, tests > 0);
    sw_near(t, run_s, 10 * (double)join->leak_count + each_s * (double)tests, 1e-6,
            "derived: 10 s for each point of the study, and one handling a test");
}

static void what_is_welded_ahead_is_leak_tested_in_the_body_it_is_built_into(sw_test *t)
{
    leak_tests_of(t, SW_SOURCE_DIR "/demo/a.stove.lua");
    leak_tests_of(t, SW_SOURCE_DIR "/demo/b.stove.lua");
}

/* The press step of the piece that a task bends; NULL where it takes more than one set-up. */
static const sw_form_step *bent_by(const sw_dossier *d, const sw_line_task *task)
{
    for (size_t i = 0; i < d->shop.form->piece_count; i++) {
        const sw_form_piece *f = &d->shop.form->pieces[i];
        const char *number = d->sheet->pieces[i].piece->number;
        if (strncmp(task->part, number, strlen(number)) == 0 && task->part[strlen(number)] == ' ')
            return f->dies == 1 ? &f->steps[0] : NULL;
    }
    return NULL;
}

static bool same_tools(const sw_form_step *a, const sw_form_step *b)
{
    return a->stroke == b->stroke && a->die_mm == b->die_mm && a->punch == b->punch &&
           a->punch_wedge_rad == b->punch_wedge_rad;
}

/* A stove with every kind of bend: a sharp one takes the acute punch, a joggle its own tools, all in one width of die. */
static void pieces_that_share_a_set_up_at_the_press_take_the_same_tools(sw_test *t)
{
    sw_dossier d;
    sw_request r = request;
    size_t alike = 0, others = 0;
    r.words[0] = SW_SOURCE_DIR "/tests/whole/everything/everything.stove.lua";
    r.works = SW_SOURCE_DIR "/demo/demo.works.lua";
    if (!sw_ok(t, sw_dossier_make(&t->run, &r, SW_DO_HEFT | SW_DO_NEST | SW_DO_CUT | SW_DO_SHOP, "", &d))) return;
    const sw_line_input *in = d.shop.line_in;
    for (size_t i = 0; i < in->task_count; i++)
        for (size_t k = 0; k < i; k++) {
            const sw_line_task *a = &in->tasks[i], *b = &in->tasks[k];
            const sw_form_step *by_a = a->operation == SW_OP_BEND ? bent_by(&d, a) : NULL,
                               *by_b = b->operation == SW_OP_BEND ? bent_by(&d, b) : NULL;
            if (by_a == NULL || by_b == NULL) continue;
            sw_true(t, (strcmp(a->set_up_group, b->set_up_group) == 0) == same_tools(by_a, by_b));
            alike += same_tools(by_a, by_b);
            others += !same_tools(by_a, by_b) && by_a->die_mm == by_b->die_mm;
        }
    sw_true(t, alike > 0 && others > 0);
}

/* The air that the room gives to fire and stabiliser, and what it costs on its way, are one state. */
static void the_air_of_a_stabiliser_and_its_supply_agree(sw_test *t)
{
    static const char *const houses[] = {SW_SOURCE_DIR "/demo/demo.house.lua", SW_SOURCE_DIR "/demo/tall.house.lua"};
    for (size_t i = 0; i < sizeof houses / sizeof *houses; i++) {
        sw_dossier d;
        sw_request r = DEMO_REQUEST;
        const char *set = "stabilised=1";
        r.house = houses[i];
        r.settings[0] = set;
        r.setting_count = i; /* the other has one as it is */
        if (!sw_ok(t, sw_dossier_make(&t->run, &r, SW_DO_HEFT | SW_DO_BURN | SW_DO_HOUSE, "", &d))) return;
        const sw_flue_input *in = d.housed->flue_in;
        const sw_flue_case *mild = &d.housed->flue->pressure;
        if (!sw_true(t, mild->air_kg_s > 0)) return;
        double fire_kg_s = in->nominal.kg_s * d.housed->flue->gas.air_kg_per_kg / d.housed->flue->gas.kg_per_kg;
        sw_site_supply wanted = sw_site_supply_of(in->house, fire_kg_s + mild->air_kg_s);
        sw_near(t, mild->P_B, wanted.pa, 0.01, "derived: the room below outside with the air that is drawn from it");
        sw_near(t, in->hold_pa, d.housed->flue->stabiliser_pa, 0, "agreement: found once");
    }
}

static void what_is_welded_by_hand_is_done_at_the_hand_station(sw_test *t)
{
    sw_dossier d;
    sw_request r = DEMO_REQUEST;
    if (!sw_ok(t, sw_dossier_make(&t->run, &r, SW_DO_HEFT | SW_DO_NEST | SW_DO_CUT | SW_DO_SHOP, "", &d))) return;
    const sw_join_result *join = d.shop.join;
    const sw_line_input *in = d.shop.line_in;
    const sw_station *hand = NULL;
    double run_s = 0, wanted_s = 0;
    for (size_t i = 0; i < in->works->station_count; i++)
        if (in->works->stations[i].operation == SW_OP_HAND_WELD) hand = &in->works->stations[i];
    if (!sw_true(t, hand != NULL)) return;
    for (size_t i = 0; i < d.shop.line->load_count; i++)
        if (strcmp(d.shop.line->loads[i].station, hand->name) == 0) run_s = d.shop.line->loads[i].stove_s * hand->up;
    for (size_t i = 0; i < join->body_count; i++)
        if (join->bodies[i].hand_s > 0)
            wanted_s += join->bodies[i].hand_s + hand->each_s + hand->per_kg_s * join->bodies[i].mass_kg;
    sw_true(t, wanted_s > 0);
    sw_near(t, run_s, wanted_s, 1e-6 * wanted_s, "derived: all hand seams and one handling a body");
}

static void a_lot_beyond_the_batch_is_refused(sw_test *t)
{
    sw_request q;
    char *words[] = {"stovewright", "nest", "a.stove.lua", "--batch", "4", "--lot", "5"};
    sw_true(t, sw_request_read(&t->run, 7, words, &q) == SW_BAD_INPUT);
    sw_contains(t, t->run.errors[0].text, "a lot of 5 stoves is more than the batch of 4");
    sw_run_clear_errors(&t->run);
    words[6] = "2";
    sw_ok(t, sw_request_read(&t->run, 7, words, &q));
    sw_near(t, q.lot, 2, 0, "as written");
}

SW_TESTS(SW_CASE(a_lot_of_one_stove_completes_stove_by_stove), SW_CASE(a_lot_beyond_the_batch_is_refused),
         SW_CASE(the_air_of_a_stabiliser_and_its_supply_agree),
         SW_CASE(pieces_that_share_a_set_up_at_the_press_take_the_same_tools),
         SW_CASE(what_is_welded_ahead_is_leak_tested_in_the_body_it_is_built_into),
         SW_CASE(what_is_welded_by_hand_is_done_at_the_hand_station),
         SW_CASE(under_any_memory_limit_it_answers_or_says_so), SW_CASE(every_hundredth_failed_allocation_is_survived),
         SW_CASE(the_same_request_gives_the_same_answer))
