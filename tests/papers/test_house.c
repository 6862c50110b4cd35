#include "papers/house_parts.h"
#include "papers_fixture.h"

enum { PARTS = 2, NEARS = 2, SAMPLES = 5, SIDE = 4 };

/* The fixture's stove in a small invented house: every figure is made up, but the two conditions are consistent. */
typedef struct housed {
    fixture f;
    sw_flue_part parts[PARTS];
    sw_near near[NEARS];
    sw_house house;
    sw_flue_line lines[PARTS];
    sw_flue_input in;
    sw_flue_result flue;
    sw_flue_try tries[1];
    sw_flue_step steps[2];
    sw_flue_start start;
    double time_s[SAMPLES], draught_pa[SAMPLES];
    sw_site_input site_in;
    sw_site_need needs[2];
    sw_expected expected[3];
    sw_site_result site;
    sw_draw_point mild, points[SIDE * SIDE];
    sw_draw_map map;
    sw_housed housed;
    sw_dossier d;
} housed;

static void describe_house(housed *h)
{
    h->parts[0] =
        (sw_flue_part){.name = "pipe", .pipe = true, .round = true, .width_mm = 150, .depth_mm = 150, .length_m = 1};
    h->parts[0].rise_m = 0.7, h->parts[0].outer_mm = 154, h->parts[0].resistance = NAN, h->parts[0].designation = "";
    h->parts[0].combustible_mm = 300;
    h->parts[1] = h->parts[0];
    h->parts[1].name = "stack <old>", h->parts[1].pipe = false, h->parts[1].length_m = h->parts[1].rise_m = 5;
    h->parts[1].around = SW_OUTDOORS, h->parts[1].designation = "T450 N1 D V3 L50060 G50";
    h->near[0] = (sw_near){.name = "panelled wall", .side = "back", .distance_mm = 120, .combustible = true};
    h->near[1] = (sw_near){.name = "jamb", .side = "left", .distance_mm = 700};
    h->house = (sw_house){.name = "test house",
                          .note = "Invented.",
                          .code = "",
                          .altitude_m = 100,
                          .least_k = 263.15,
                          .parts = h->parts,
                          .part_count = PARTS,
                          .near = h->near,
                          .near_count = NEARS};
    h->house.roof = (sw_roof){0.7, 0.5, 0.6, NAN, NAN, NAN, NAN, false};
    h->house.hearth_width_mm = 800, h->house.hearth_depth_mm = 800, h->house.hearth_mm = 50,
    h->house.hearth_front_mm = 300, h->house.hearth_side_mm = 200;
    h->house.survey.leak_m3_s_m2 = NAN, h->house.declared_most_pa = NAN;
}

static void reckon_flue(housed *h)
{
    double entry_k = 573.15;
    for (size_t i = 0; i < PARTS; i++) {
        h->lines[i] = (sw_flue_line){.part = &h->parts[i],
                                     .entry_k = entry_k,
                                     .exit_k = entry_k - 60,
                                     .wall_entry_k = entry_k - 150,
                                     .wall_k = entry_k - 200,
                                     .draught_pa = 3.0 + 10.0 * (double)i,
                                     .friction_pa = 0.5};
        entry_k -= 60;
    }
    sw_flue_case c = {.name = "pressure",
                      .outside_k = 288.15,
                      .s_h = 0.5,
                      .s_e = 1.5,
                      .lines = h->lines,
                      .line_count = PARTS,
                      .P_H = 13,
                      .P_E = 0.5,
                      .P_R = 0.75,
                      .P_Z = 12.25,
                      .P_FV = -2.25,
                      .P_B = 4,
                      .P_W = 12,
                      .P_Ze = 13.75,
                      .outlet_wall_k = 253.0 + 60,
                      .dew_point_k = 320};
    h->flue = (sw_flue_result){.pressure = c,
                               .temperature = c,
                               .over = c,
                               .pressure_low = c,
                               .temperature_low = c,
                               .solved = true,
                               .reserve_pa = -1.5,
                               .least_height_m = NAN,
                               .first_wet_m = 3,
                               .needed = "EN 1443 T400",
                               .offered = "T450"};
    h->flue.temperature.outside_k = 263.15;
    h->in = (sw_flue_input){.house = &h->house,
                            .nominal = {.kg_s = 0.006, .t_k = 573.15, .need_pa = 12, .most_pa = NAN, .co2_dry = 0.09}};
    h->tries[0] = (sw_flue_try){150, 5, 4.2, "liner 150 in 25 mm wrap", 2.5, 11, NAN, true};
    h->steps[0] = (sw_flue_step){"R", "8314.46/M", "J/(kg K)", "ideal gas", "gas", 289};
    h->steps[1] = (sw_flue_step){
        "P_Z", "P_H - P_R - P_L", "Pa", "EN 13384-1 cl. 5.10.1 (from memory)", "pressure condition", 12.25};
    for (size_t i = 0; i < SAMPLES; i++) h->time_s[i] = 600.0 * (double)i, h->draught_pa[i] = 3.0 * (double)i;
    h->start = (sw_flue_start){0.0, 2400, h->time_s, h->draught_pa, SAMPLES};
}

static void place_stove(housed *h)
{
    h->site_in = (sw_site_input){.house = &h->house, .width_mm = 500, .depth_mm = 400, .height_mm = 700};
    h->needs[0] = (sw_site_need){"panelled wall, by computed temperature", "panelled wall", 350, 120, "test source"};
    h->needs[1] = (sw_site_need){"hearth before the stove", "hearth", 225, 300, "test source"};
    h->expected[0] = (sw_expected){.name = "hot_draught_pa",
                                   .unit = "Pa",
                                   .when = "steady fire",
                                   .expected = 12,
                                   .low = 10,
                                   .high = 20,
                                   .stop_low = 4,
                                   .stop_high = NAN,
                                   .source = "test",
                                   .remedy = "look at the flue"};
    h->expected[1] = (sw_expected){.name = "smoke_spillage",
                                   .unit = "",
                                   .when = "smoke match",
                                   .yes_no = true,
                                   .source = "test",
                                   .remedy = "stop"};
    h->expected[2] = (sw_expected){.name = "flue_gas_c",
                                   .unit = "degC",
                                   .when = "steady fire",
                                   .expected = NAN,
                                   .low = NAN,
                                   .high = NAN,
                                   .stop_low = NAN,
                                   .stop_high = NAN,
                                   .source = "test",
                                   .remedy = ""};
    h->site = (sw_site_result){.needs = h->needs, .need_count = 2, .expected = h->expected, .expected_count = 3};
}

static const sw_dossier *house_made(sw_test *t, housed *h)
{
    memset(h, 0, sizeof *h);
    h->d = *fixture_make(t, &h->f);
    describe_house(h);
    reckon_flue(h);
    place_stove(h);
    h->mild = (sw_draw_point){SW_DRAW_SAFE, 13, 6000, 0.7, 2.1, 570, 0.006, 0.09, 450, 400, 318, 0, 5};
    for (size_t i = 0; i < SIDE * SIDE; i++) h->points[i].state = (sw_draw_state)(i % SW_DRAW_STATES);
    h->map = (sw_draw_map){SIDE, SIDE, 0, 263.15, 298.15, 0.1, 1, h->points};
    h->housed = (sw_housed){.why = "",
                            .flue_in = &h->in,
                            .flue = &h->flue,
                            .steps = h->steps,
                            .step_count = 2,
                            .tries = h->tries,
                            .try_count = 1,
                            .start = &h->start,
                            .site_in = &h->site_in,
                            .site = &h->site,
                            .mild = &h->mild,
                            .map = &h->map};
    h->d.model.house = &h->house;
    h->d.model.house_file = "test.house.lua";
    h->d.housed = &h->housed;
    return &h->d;
}

typedef sw_status drawing(sw_run *run, const paper_desk *desk, sw_pen *pen, sw_box box);

static sw_status map_drawn(sw_run *run, const paper_desk *desk, sw_pen *pen, sw_box box)
{
    box.y1_mm = box.y0_mm + 92; /* as the dossier's figure */
    return draw_operating(run, desk->d, pen, box);
}

static sw_status route_drawn(sw_run *run, const paper_desk *desk, sw_pen *pen, sw_box box)
{
    return draw_route(run, desk->d, pen, box);
}

static sw_status profile_drawn(sw_run *run, const paper_desk *desk, sw_pen *pen, sw_box box)
{
    return draw_profile(run, desk->d, pen, box);
}

static sw_status record_drawn(sw_run *run, const paper_desk *desk, sw_pen *pen, sw_box box)
{
    return draw_record(run, desk, 0, 3, pen, box);
}

static const sw_box page = {0, 0, DOC_WIDTH_MM, 120};

static sw_status traced(sw_run *run, const sw_dossier *d, drawing *draw, const char *path)
{
    paper_desk desk;
    sw_pen *pen = NULL;
    sw_status status = desk_whole(run, d, &desk);
    if (status == SW_OK) status = pen_open_lettered(run, path, desk.letters, page.x1_mm, page.y1_mm, &pen);
    if (status == SW_OK) status = draw(run, &desk, pen, page);
    if (status == SW_OK) {
        status = sw_pen_close(run, pen);
        pen = NULL;
    }
    sw_pen_abandon(pen);
    desk_close(&desk);
    return status;
}

static const char *trace_of(sw_test *t, const housed *h, drawing *draw, const char *name)
{
    const char *path = fixture_path(t, &h->f, name);
    sw_ok(t, traced(&t->run, &h->d, draw, path));
    return fixture_text(t, path);
}

/* Every text within the page, no two over each other. */
static void texts_stand_apart(sw_test *t, const char *trace)
{
    sw_box boxes[256];
    size_t count = 0;
    for (const char *line = trace; line != NULL && *line != '\0'; line = strchr(line, '\n'), line += line != NULL) {
        sw_box b;
        if (sscanf(line, "text %lf %lf %lf %lf", &b.x0_mm, &b.y0_mm, &b.x1_mm, &b.y1_mm) != 4 || count == 256)
            continue; /* NOLINT: our own trace */
        sw_true(t, b.x0_mm > -0.5 && b.y0_mm > -0.5 && b.x1_mm < page.x1_mm + 0.5 && b.y1_mm < page.y1_mm + 0.5);
        for (size_t i = 0; i < count; i++) {
            bool over = boxes[i].x0_mm < b.x1_mm - 0.3 && b.x0_mm < boxes[i].x1_mm - 0.3 &&
                        boxes[i].y0_mm < b.y1_mm - 0.3 && b.y0_mm < boxes[i].y1_mm - 0.3;
            sw_true(t, !over);
        }
        boxes[count++] = b;
    }
    sw_true(t, count > 0);
}

static void the_plan_shows_what_is_there_and_what_is_asked(sw_test *t)
{
    housed *h = SW_KEEP(&t->run, 1, housed);
    (void)house_made(t, h);
    const char *plan = trace_of(t, h, draw_plan, "plan.trace");
    sw_contains(t, plan, "panelled wall");
    sw_contains(t, plan, "\xe2\x89\xa5 350: too little");
    sw_contains(t, plan, "\xe2\x89\xa5 225");
    sw_contains(t, plan, "700*");
    sw_contains(t, plan, "does not burn");
    sw_contains(t, plan, "right: nothing told");
    texts_stand_apart(t, plan);
    texts_stand_apart(t, trace_of(t, h, draw_elevation, "side.trace"));
    fixture_clear(t, &h->f);
}

static void a_plan_names_every_near_thing_of_many(sw_test *t)
{
    enum { MANY = 60 };
    housed *h = SW_KEEP(&t->run, 1, housed);
    (void)house_made(t, h);
    sw_near many[MANY];
    for (size_t i = 0; i < MANY; i++)
        many[i] =
            (sw_near){.name = sw_text_format(&t->run, t->run.keep, "<%zu>", i + 1), .side = "back", .distance_mm = 120};
    h->house.near = many;
    h->house.near_count = MANY;
    const char *plan = trace_of(t, h, draw_plan, "many.trace");
    for (size_t i = 0; i < MANY; i++) sw_contains(t, plan, many[i].name);
    fixture_clear(t, &h->f);
}

static void the_flue_is_drawn_with_its_heights_over_the_floor(sw_test *t)
{
    housed *h = SW_KEEP(&t->run, 1, housed);
    (void)house_made(t, h);
    const char *route = trace_of(t, h, route_drawn, "route.trace");
    sw_contains(t, route, "0.75 m"); /* stove 700 on a plate of 50 */
    sw_contains(t, route, "1.45 m");
    sw_contains(t, route, "6.45 m");
    sw_contains(t, route, "Outlet 600 mm over the roof there");
    texts_stand_apart(t, route);
    texts_stand_apart(t, trace_of(t, h, profile_drawn, "profile.trace"));
    fixture_clear(t, &h->f);
}

static void the_maps_key_names_every_state_within_the_figure(sw_test *t)
{
    housed *h = SW_KEEP(&t->run, 1, housed);
    (void)house_made(t, h);
    const char *map = trace_of(t, h, map_drawn, "map.trace");
    for (int s = 0; s < SW_DRAW_STATES; s++)
        sw_contains(t, map, sw_text_format(&t->run, t->run.keep, "%s: ", sw_draw_state_name((sw_draw_state)s)));
    for (const char *line = map; line != NULL && *line != '\0'; line = strchr(line, '\n'), line += line != NULL) {
        sw_box b;
        if (sscanf(line, "text %lf %lf %lf %lf", &b.x0_mm, &b.y0_mm, &b.x1_mm, &b.y1_mm) == 4) /* NOLINT: our own */
            sw_true_at(t, b.y1_mm <= 92, line, __FILE__, __LINE__);
    }
    texts_stand_apart(t, map);
    fixture_clear(t, &h->f);
}

static void the_record_says_band_and_where_to_stop(sw_test *t)
{
    housed *h = SW_KEEP(&t->run, 1, housed);
    (void)house_made(t, h);
    const char *form = trace_of(t, h, record_drawn, "form.trace");
    sw_contains(t, form, "10 to 20 Pa;");
    sw_contains(t, form, "below 4,");
    sw_contains(t, form, "above 20");
    sw_contains(t, form, "write down");
    sw_contains(t, form, "Else: look at the flue.");
    sw_contains(t, form, "fitter's signature");
    texts_stand_apart(t, form);
    fixture_clear(t, &h->f);
}

static void dossier_json_and_fitters_sheet_tell_of_the_house(sw_test *t)
{
    housed *h = SW_KEEP(&t->run, 1, housed);
    static const char *const said[] = {"The house",
                                       "test house",
                                       "Along the flue",
                                       "Sizes and liners compared",
                                       "liner 150 in 25 mm wrap",
                                       "On the real chimney",
                                       "Operating map",
                                       "Lit cold on a mild day",
                                       "First fire",
                                       "The chimney, line by line",
                                       "8314.46/M"};
    const sw_dossier *d = house_made(t, h);
    sw_folder folder;
    const sw_paper_file *files = NULL;
    size_t count = 0;
    sw_ok(t, sw_folder_open(&t->run, fixture_path(t, &h->f, "out"), &folder));
    sw_ok(t, sw_papers_write(&t->run, d, &folder, &files, &count));
    sw_ok(t, sw_folder_publish(&t->run, &folder));
    const char *html = fixture_text(t, fixture_path(t, &h->f, "out/dossier.html"));
    for (size_t i = 0; i < sizeof said / sizeof *said; i++) sw_contains(t, html, said[i]);
    sw_contains(t, html, "stack &lt;old&gt;");
    const char *json = fixture_text(t, fixture_path(t, &h->f, "out/findings.json"));
    sw_contains(t, json, "\"P_Ze\": 13.75");
    sw_contains(t, json, "\"first_fire\": [");
    sw_contains(t, json, "\"state\": \"safe\"");
    const char *sheet = fixture_shell(
        t, sw_text_format(&t->run, t->run.keep, "pdftotext -layout %s/out/house/fitter.pdf -", h->f.folder));
    sw_contains(t, sheet, "Carbon monoxide");
    sw_contains(t, sheet, "licensed fitter");
    sw_contains(t, sheet, "too little");
    sw_contains(t, sheet, "First fire: record");
    sw_true(t, fixture_shell(
                   t, sw_text_format(&t->run, t->run.keep,
                                     "qpdf --check %s/out/house/fitter.pdf && xmllint --noout %s/out/dossier.html",
                                     h->f.folder, h->f.folder)) != NULL);
    fixture_clear(t, &h->f);
}

static void without_a_house_nothing_is_said_of_one(sw_test *t)
{
    housed *h = SW_KEEP(&t->run, 1, housed);
    (void)house_made(t, h);
    h->d.housed = NULL;
    h->d.model.house = NULL;
    sw_folder folder;
    const sw_paper_file *files = NULL;
    size_t count = 0;
    sw_ok(t, sw_folder_open(&t->run, fixture_path(t, &h->f, "out"), &folder));
    sw_ok(t, sw_papers_write(&t->run, &h->d, &folder, &files, &count));
    sw_ok(t, sw_folder_publish(&t->run, &folder));
    sw_true(t, access(fixture_path(t, &h->f, "out/house"), F_OK) != 0);
    sw_true(t, strstr(fixture_text(t, fixture_path(t, &h->f, "out/dossier.html")), "The house") == NULL);
    sw_contains(t, fixture_text(t, fixture_path(t, &h->f, "out/findings.json")), "\"house\": null");
    fixture_clear(t, &h->f);
}

static sw_status sheet_at(sw_run *run, const sw_dossier *d, const char *path)
{
    paper_desk desk;
    sw_status status = desk_whole(run, d, &desk);
    if (status == SW_OK) status = paper_fitter(run, &desk, path);
    desk_close(&desk);
    return status;
}

static void the_fitters_sheet_is_the_same_twice(sw_test *t)
{
    housed *h = SW_KEEP(&t->run, 1, housed);
    const sw_dossier *d = house_made(t, h);
    sw_ok(t, sheet_at(&t->run, d, fixture_path(t, &h->f, "a.pdf")));
    sw_ok(t, sheet_at(&t->run, d, fixture_path(t, &h->f, "b.pdf")));
    sw_true(t, fixture_shell(
                   t, sw_text_format(&t->run, t->run.keep, "cmp %s/a.pdf %s/b.pdf", h->f.folder, h->f.folder)) != NULL);
    fixture_clear(t, &h->f);
}

static void sheet_and_dossier_without_memory_say_so(sw_test *t)
{
    housed *h = SW_KEEP(&t->run, 1, housed);
    const sw_dossier *d = house_made(t, h);
    const char *path = fixture_path(t, &h->f, "fail.pdf");
    for (int which = 0; which < 2; which++) {
        size_t before = sw_arena_takes(t->run.scratch);
        sw_ok(t, which == 0 ? sheet_at(&t->run, d, path) : sw_paper_dossier(&t->run, d, h->f.folder));
        size_t takes = sw_arena_takes(t->run.scratch) - before;
        for (size_t i = 0; i < 60; i++) {
            (void)unlink(path);
            sw_arena_fail_at(t->run.scratch, 1 + takes * i / 60);
            sw_true(t, (which == 0 ? sheet_at(&t->run, d, path) : sw_paper_dossier(&t->run, d, h->f.folder)) ==
                           SW_NO_MEMORY);
            sw_arena_fail_at(t->run.scratch, 0);
            sw_run_clear_errors(&t->run);
            sw_true(t, which == 1 || access(path, F_OK) != 0);
        }
    }
    fixture_clear(t, &h->f);
}

SW_TESTS(SW_CASE(the_plan_shows_what_is_there_and_what_is_asked),
         SW_CASE(the_flue_is_drawn_with_its_heights_over_the_floor),
         SW_CASE(the_maps_key_names_every_state_within_the_figure), SW_CASE(the_record_says_band_and_where_to_stop),
         SW_CASE(a_plan_names_every_near_thing_of_many), SW_CASE(dossier_json_and_fitters_sheet_tell_of_the_house),
         SW_CASE(without_a_house_nothing_is_said_of_one), SW_CASE(the_fitters_sheet_is_the_same_twice),
         SW_CASE(sheet_and_dossier_without_memory_say_so))
