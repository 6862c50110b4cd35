#include "papers/json_parts.h"
#include "papers/shop_parts.h"
#include "papers_fixture.h"

/* Two stoves over four stations: a small line, solved, in the fixture's dossier. */
typedef struct small_line {
    fixture f;
    sw_station stations[4];
    sw_line_task tasks[5];
    sw_line_material materials[2];
    sw_line_input in;
    const sw_dossier *d;
} small_line;

static const size_t after_cut[] = {0}, after_bend[] = {1}, after_weld[] = {2}, after_coat[] = {3};

static void make(sw_test *t, small_line *l)
{
    (void)fixture_make(t, &l->f);
    const sw_station stations[] = {
        {.name = "laser", .operation = SW_OP_CUT, .machines = 1, .people = 1, .rate_h = 90, .up = 1},
        {.name = "press, 100 t", .operation = SW_OP_BEND, .machines = 2, .people = 1, .rate_h = 60, .up = 1},
        {.name = "robot", .operation = SW_OP_WELD, .machines = 1, .people = 1, .rate_h = 70, .up = 1},
        {.name = "packing", .operation = SW_OP_PACK, .machines = 1, .people = 1, .rate_h = 40, .up = 1}};
    const sw_line_task tasks[] = {
        {"cut front \"A\"", "front \"A\"", SW_OP_CUT, "", 0, "3 mm", 300, 1, 0, 0, 0, NULL, 0},
        {"bend front \"A\"", "front \"A\"", SW_OP_BEND, "", 900, "V 24", 240, 2, 0, 0, 0, after_cut, 1},
        {"weld body", "body", SW_OP_WELD, "", 600, "body", 1800, 1, 0, 0, 0, after_bend, 1},
        {"weld body by hand", "body", SW_OP_WELD, "", 0, "body", 60, 1, 0, 0, 0, after_weld, 1},
        {"pack", "stove", SW_OP_PACK, "", 0, "", 600, 1, 0, 0, 0, after_coat, 1}};
    const sw_line_material materials[] = {{"3 mm S235", SW_MONEY_SHEET, 20, "kg", 40, 2},
                                          {"handle", SW_MONEY_ITEM, 1, "pieces", 12, 0}};
    memcpy(l->stations, stations, sizeof stations);
    memcpy(l->tasks, tasks, sizeof tasks);
    memcpy(l->materials, materials, sizeof materials);
    l->f.works.stations = l->stations;
    l->f.works.station_count = 4;
    l->f.works.currency = "EUR";
    l->f.works.labour = (sw_labour){.shift_s = 7200,
                                    .shifts_day = 1,
                                    .days_week = 5,
                                    .rate_h = 40,
                                    .overhead = 0.2,
                                    .wanted_week = 10,
                                    .mixed = true};
    l->in = (sw_line_input){.name = "small",
                            .tasks = l->tasks,
                            .task_count = 5,
                            .materials = l->materials,
                            .material_count = 2,
                            .works = &l->f.works,
                            .batch = 2};
    sw_line_options opt = sw_line_options_defaults();
    l->f.dossier.batch = 2;
    l->f.dossier.shop.line_in = &l->in;
    sw_ok(t, sw_line_solve(&t->run, &l->in, &opt, &l->f.dossier.shop.line));
    l->d = &l->f.dossier;
}

static const char *sheet(sw_test *t, const small_line *l, const char *name)
{
    paper_desk desk;
    const char *path = fixture_path(t, &l->f, name);
    sw_ok(t, desk_open(&t->run, l->d, &desk));
    sw_ok(t, paper_route(&t->run, &desk, path));
    desk_close(&desk);
    return path;
}

static void the_route_sheet_names_stations_money_and_what_if(sw_test *t)
{
    small_line l;
    make(t, &l);
    const char *path = sheet(t, &l, "route.pdf"),
               *text = fixture_shell(t, sw_text_format(&t->run, t->run.keep, "pdftotext -layout %s -", path));
    static const char *const words[] = {"press, 100 t 2", "takt 60 min",      "bottleneck",     "day 1",
                                        "set-up",         "stoves under way", "people at work", "batch of 50",
                                        "front \"A\"",    "a second shift"};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++) sw_contains(t, text, words[i]);
    sw_true(t, fixture_shell(t, sw_text_format(&t->run, t->run.keep, "qpdf --check %s", path)) != NULL);
    fixture_clear(t, &l.f);
}

static void the_route_sheet_has_the_same_bytes_every_time(sw_test *t)
{
    small_line l;
    make(t, &l);
    const char *a = sheet(t, &l, "a.pdf"), *b = sheet(t, &l, "b.pdf");
    sw_true(t, fixture_shell(t, sw_text_format(&t->run, t->run.keep, "cmp %s %s", a, b)) != NULL);
    fixture_clear(t, &l.f);
}

/* The sum of the bars' machine time is the load's; texts with commas and quotes come back whole, and one
 * that a spreadsheet would run goes out as a text. */
static void the_schedule_table_reads_back_as_the_plan(sw_test *t)
{
    small_line l;
    sw_csv csv;
    make(t, &l);
    const sw_line_plan *plan = l.d->shop.line->plan;
    l.tasks[plan->bars[0].task].part = "=plate, 2";
    const char *path = fixture_path(t, &l.f, "schedule.csv");
    sw_ok(t, paper_schedule_csv(&t->run, l.d, path));
    const char *text = fixture_text(t, path);
    sw_ok(t, sw_csv_read(&t->run, path, text, strlen(text), &csv));
    for (size_t i = 0; i < plan->bar_count; i++) {
        const sw_line_bar *b = &plan->bars[i];
        double end = strtod(sw_csv_cell(&csv, i, sw_csv_column(&csv, "end_s")), NULL);
        sw_near(t, end, b->end_s, 0.05, "agreement with the plan");
        sw_same_text(t, sw_csv_cell(&csv, i, sw_csv_column(&csv, "task")), l.tasks[b->task].name);
        sw_same_text(t, sw_csv_as_it_was(sw_csv_cell(&csv, i, sw_csv_column(&csv, "part"))), l.tasks[b->task].part);
        sw_same_text(t, sw_csv_cell(&csv, i, sw_csv_column(&csv, "station")), l.stations[b->station].name);
    }
    sw_contains(t, text, ",1 00:00:00,");
    sw_contains(t, text, "\"'=plate, 2\"");
    fixture_clear(t, &l.f);
}

static void the_dossier_tells_the_workshop_and_its_headlines(sw_test *t)
{
    small_line l;
    make(t, &l);
    sw_ok(t, sw_paper_dossier(&t->run, l.d, l.f.folder));
    const char *html = fixture_text(t, fixture_path(t, &l.f, "dossier.html"));
    sw_contains(t, html, "one stove, with overhead");
    sw_contains(t, html, sw_text_format(&t->run, t->run.keep, "%.2f EUR", l.d->shop.line->cost.base));
    sw_contains(t, html, ">Workshop<");
    sw_contains(t, html, "Cautions of the workshop");
    fixture_clear(t, &l.f);
}

static void studies_not_asked_are_null_in_json_and_the_line_is_whole(sw_test *t)
{
    small_line l;
    sw_writer *w = NULL;
    make(t, &l);
    const char *path = fixture_path(t, &l.f, "findings.json");
    sw_ok(t, sw_writer_to_file(&t->run, path, &w));
    sw_ok(t, sw_paper_json(&t->run, l.d, w));
    sw_ok(t, sw_writer_close(&t->run, w));
    const char *told =
        fixture_shell(t, sw_text_format(&t->run, t->run.keep,
                                        "python3 -c \"import json; s=json.load(open('%s'))['shop']; l=s['line']; "
                                        "print(s['form'], s['join'], s['fit'], s['lift'], s['coat'], len(l['route']), "
                                        "len(l['stations']), l['schedule']['bars'][0]['stove'], "
                                        "abs(sum(x['stove'] for x in l['cost']['lines'])-l['cost']['base'])<1e-6)\"",
                                        path));
    sw_contains(t, told, "None None None None None 5 4 1 True");
    fixture_clear(t, &l.f);
}

/* Rows without any schedule: the sheet still tells the route and the money. */
static void without_a_machine_the_sheet_goes_without_a_schedule(sw_test *t)
{
    small_line l;
    make(t, &l);
    l.stations[2].machines = 0;
    sw_line_options opt = sw_line_options_defaults();
    sw_ok(t, sw_line_solve(&t->run, &l.in, &opt, &l.f.dossier.shop.line));
    sw_true(t, !shop_has_plan(l.d));
    const char *text =
        fixture_shell(t, sw_text_format(&t->run, t->run.keep, "pdftotext -layout %s - | tr -s ' \\n' ' '",
                                        sheet(t, &l, "route.pdf")));
    sw_contains(t, text, "No schedule:");
    fixture_clear(t, &l.f);
}

SW_TESTS(SW_CASE(the_route_sheet_names_stations_money_and_what_if),
         SW_CASE(the_route_sheet_has_the_same_bytes_every_time), SW_CASE(the_schedule_table_reads_back_as_the_plan),
         SW_CASE(the_dossier_tells_the_workshop_and_its_headlines),
         SW_CASE(studies_not_asked_are_null_in_json_and_the_line_is_whole),
         SW_CASE(without_a_machine_the_sheet_goes_without_a_schedule))
