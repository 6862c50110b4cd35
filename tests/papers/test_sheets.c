#include "papers/sheets_parts.h"
#include "papers_fixture.h"

/* Sheets of the workshop with invented results: numbers that are easy to find again. */
enum { JOINTS = 2, FEATURES = 1, SAMPLES = 10, STEPS = 4 };

typedef struct shop {
    fixture f;
    sw_joint joints[JOINTS];
    sw_fit_point point;
    sw_fit_joint fit_joints[JOINTS];
    sw_fit_contributor contributor;
    sw_fit_inspection plan[2];
    double middle[SAMPLES], spread[SAMPLES];
    sw_chart_break broken;
    sw_fit_feature feature;
    sw_fit_result fit;
    sw_hoist hoist;
    sw_lift_step steps[STEPS];
    sw_lift_result lift;
    sw_coat_line lines[1];
    sw_coat_mask mask;
    sw_coat_coat coats[2];
    sw_coat_step cure[4], fire;
    sw_coat_rating ratings[3];
    sw_coat_result coat;
    sw_item board;
    sw_board_cut cut;
    sw_board_nest nest;
    sw_board_place places[2];
    sw_board_sheet sheets[3];
    sw_item seal;
    sw_rope rope;
    sw_fit gap;
    sw_fit_pane pane;
    sw_impact_level level;
    sw_drop_level reached;
    sw_fittings_result fittings;
} shop;

static const char *const cautions[] = {"Nobody stands under a hanging load."};

static void shop_fit(shop *s)
{
    s->joints[0].name = "shell to plate";
    s->joints[1].name = "strip on nothing";
    s->point = (sw_fit_point){.gap_mm = 0.25, .worst_mm = 1.36, .rss_mm = 0.52, .sigma_mm = 0.2};
    s->contributor = (sw_fit_contributor){.operation = SW_FIT_CUT,
                                          .name = "shell, bottom: cut",
                                          .feature = "bottom: cut",
                                          .nominal = 300,
                                          .tolerance = 0.4,
                                          .sigma = 0.13,
                                          .unit = "mm"};
    s->fit_joints[0] = (sw_fit_joint){.joint = &s->joints[0],
                                      .points = &s->point,
                                      .point_count = 1,
                                      .limit_mm = 0.77,
                                      .limit_source = "works description",
                                      .p95_mm = 0.63,
                                      .bin_mm = 0.1,
                                      .bins = {0.2, 0.5, 0.3},
                                      .over = 0.123,
                                      .clash = 0.002,
                                      .no_entry = NAN,
                                      .by_operation = {[SW_FIT_CUT] = 0.9, [SW_FIT_PLACE] = 0.1},
                                      .shares = {{0, 1, 0.9}},
                                      .tolerance_needed = 0.31};
    s->fit_joints[1] = (sw_fit_joint){.joint = &s->joints[1], .limit_mm = NAN, .over = NAN, .clash = NAN};
    s->plan[0] = (sw_fit_inspection){.operation = SW_FIT_CUT,
                                     .piece_label = "A-02 shell",
                                     .feature = "bottom: cut",
                                     .nominal = 300,
                                     .low = 299.66,
                                     .high = 300.34,
                                     .unit = "mm",
                                     .gauge = "steel tape",
                                     .gauge_u = 0.06,
                                     .lot = 50,
                                     .sampling = {.letter = 'D', .sample = 8, .accept = 0, .reject = 1}};
    s->plan[1] = s->plan[0];
    s->plan[1].feature = "right flange: bend angle";
    s->plan[1].unit = "deg";
    s->plan[1].low = 1;
    s->plan[1].high = 0; /* nothing left between the limits */
    for (size_t i = 0; i < SAMPLES; i++)
        s->middle[i] = 300 + (i == 6 ? 0.9 : 0.05 * (double)(i % 3)), s->spread[i] = 0.2;
    s->broken = (sw_chart_break){SW_RULE_BEYOND, 6};
    s->feature = (sw_fit_feature){.piece = "shell",
                                  .feature = "bottom: cut",
                                  .unit = "mm",
                                  .count = 50,
                                  .mean = 300.05,
                                  .low = 299.66,
                                  .high = 300.34,
                                  .cp = 1.41,
                                  .cpk = 1.17,
                                  .cp_interval = {1.1, 1.7},
                                  .cpk_interval = {0.9, 1.4},
                                  .ppm = 224,
                                  .charted = true,
                                  .chart = {.size = 5,
                                            .middle = s->middle,
                                            .spread = s->spread,
                                            .count = SAMPLES,
                                            .mean = 300.1,
                                            .low = 299.9,
                                            .high = 300.3,
                                            .spread_mean = 0.2,
                                            .spread_high = 0.42,
                                            .sigma = 0.085,
                                            .breaks = &s->broken,
                                            .break_count = 1}};
    s->fit = (sw_fit_result){.contributors = &s->contributor,
                             .contributor_count = 1,
                             .joints = s->fit_joints,
                             .joint_count = JOINTS,
                             .stoves = 20000,
                             .all_fit = 0.875,
                             .all_fit_error = 0.002,
                             .plan = s->plan,
                             .plan_count = 2,
                             .measured = {&s->feature, FEATURES}};
}

static void shop_lift(shop *s)
{
    s->hoist = (sw_hoist){.name = "jib crane", .swl_kg = 250, .legs = 2};
    for (size_t i = 0; i < STEPS; i++)
        s->steps[i] = (sw_lift_step){.kind = i == 0 ? SW_LIFT_SHEET : SW_LIFT_GROUP,
                                     .load = i == 0   ? "sheet 4 mm"
                                             : i == 1 ? "body"
                                                      : "front",
                                     .action = "into its place",
                                     .station = "assembly",
                                     .held = "hanging from its lifting points",
                                     .mass_kg = 40.5 + (double)i,
                                     .centre = {0, 150, 160},
                                     .box = {{-200, 0, 0}, {200, 300, 320}},
                                     .single_kg = 17.3,
                                     .index = 2.34,
                                     .way = i < 2 ? SW_LIFT_GEAR : SW_LIFT_TWO,
                                     .need_kg = NAN,
                                     .size_kg = NAN,
                                     .leg_angle_rad = NAN,
                                     .leg_n = NAN,
                                     .pull_n = NAN,
                                     .leg_mm = NAN,
                                     .hook_mm = NAN,
                                     .end_share = NAN};
    sw_lift_step *g = &s->steps[1];
    g->hoist = &s->hoist;
    g->need_kg = 57;
    g->size_kg = 125;
    g->legs = g->point_count = 2;
    g->leg_angle_rad = SW_PI / 6;
    g->leg_n = 235;
    g->pull_n = 117;
    g->leg_mm = 300;
    g->hook_mm = 260;
    g->points[0] = (sw_vec3){-150, 150, 320};
    g->points[1] = (sw_vec3){150, 150, 320};
    s->lift = (sw_lift_result){.steps = s->steps,
                               .step_count = STEPS,
                               .trolley = {3.93, 4.14, 172, 297, 0.4, 769},
                               .single_kg = 25,
                               .cautions = cautions,
                               .caution_count = 1};
}

static void shop_coat(shop *s)
{
    s->lines[0] = (sw_coat_line){.piece = &s->f.pieces[0],
                                 .count = 1,
                                 .side_m2 = 0.123,
                                 .sides = {.outer = true, .why = "seen"},
                                 .coat_m2 = 0.234,
                                 .blast_s = 45,
                                 .coat_s = 33,
                                 .thin = true};
    s->mask = (sw_coat_mask){SW_MASK_ROPE_LAND, "rope", "front", "tape", 1, 1297, 0.01};
    for (size_t i = 0; i < 2; i++) s->coats[i] = (sw_coat_coat){25, 83, 0.72, 0.4, 0.34, 700, 1800};
    s->cure[0] = (sw_coat_step){"flash off", "in the booth", 293.15, 1800};
    s->cure[1] = (sw_coat_step){"heat up", "oven", 503.15, 1260};
    s->cure[2] = (sw_coat_step){"hold", "oven", 503.15, 2700};
    s->cure[3] = (sw_coat_step){"cool down", "hand-warm", 293.15, 0};
    s->fire = (sw_coat_step){"first fire, small", "kindling", 423.15, 1800};
    s->ratings[0] = (sw_coat_rating){"cool part", true, 500, 873.15, 373.15};
    s->ratings[1] = (sw_coat_rating){"hot part", true, 785.15, 873.15, 88};
    s->ratings[2] = (sw_coat_rating){"bare part", false, 900, 873.15, -26.85};
    s->coat = (sw_coat_result){.lines = s->lines,
                               .line_count = 1,
                               .masks = &s->mask,
                               .mask_count = 1,
                               .blast_m2 = 3.74,
                               .coat_m2 = 3.92,
                               .media_kg = 2.2,
                               .grade = "Sa 2 1/2",
                               .coats = s->coats,
                               .coat_count = 2,
                               .litres = 1.31,
                               .cure = s->cure,
                               .cure_count = 4,
                               .cure_s = 3960,
                               .cure_each_s = 990,
                               .fires = &s->fire,
                               .fire_count = 1,
                               .ratings = s->ratings,
                               .rating_count = 3,
                               .cautions = cautions,
                               .caution_count = 1};
}

static void shop_fittings(shop *s)
{
    s->board = (sw_item){
        .number = "A-70", .name = "side board", .group = "body", .material = "vermiculite board", .thickness_mm = 30};
    s->cut = (sw_board_cut){.item = &s->board, .count = 2, .length_mm = 293, .width_mm = 160.5, .mass_kg = 0.92};
    s->nest = (sw_board_nest){.material = "vermiculite board", .thickness_mm = 30, .sheets = 1, .bound = 1};
    s->places[0] = (sw_board_place){0, {0, 0, 293, 160.5}, false};
    s->places[1] = (sw_board_place){0, {300, 0, 460.5, 293}, true};
    s->sheets[0] = s->sheets[2] = (sw_board_sheet){"vermiculite board", 30, 1000, 610, s->places, 2, 0.154};
    s->sheets[1] = (sw_board_sheet){"vermiculite board", 30, 1000, 610, s->places, 1, 0.077};
    s->seal = (sw_item){.number = "A-71", .name = "door rope", .group = "body", .material = "glass rope"};
    s->seal.rope_mm = 10;
    s->seal.groove_depth_mm = 6;
    s->seal.groove_width_mm = 14;
    s->seal.joint_mm = 1.5;
    s->rope = (sw_rope){&s->seal, 1, 1300, 0.1, {0.25, 0.2, 0.75}};
    s->gap = (sw_fit){
        .item = &s->board, .gap_mm = {1.7, INFINITY, 0.5, NAN}, .need_mm = {1.1, 1.3}, .cold_mm = {3.4, INFINITY}};
    s->pane = (sw_fit_pane){&s->f.items[0], 180, 120, 4, 0.0216, 0.216, 1, 3.2, 1.1, "front plate"};
    s->level = (sw_impact_level){"IK08", "hammer", 5, "EN 62262"};
    s->reached = (sw_drop_level){&s->level, 974, true};
    s->fittings = (sw_fittings_result){.cuts = &s->cut,
                                       .cut_count = 1,
                                       .nests = &s->nest,
                                       .nest_count = 1,
                                       .sheets = s->sheets,
                                       .sheet_count = 3,
                                       .ropes = &s->rope,
                                       .rope_count = 1,
                                       .fits = &s->gap,
                                       .fit_count = 1,
                                       .panes = &s->pane,
                                       .pane_count = 1,
                                       .drop = {0.523, 5.13, 4.43, &s->reached, 1},
                                       .cautions = cautions,
                                       .caution_count = 1};
}

static const sw_dossier *shop_make(sw_test *t, shop *s)
{
    memset(s, 0, sizeof *s);
    (void)fixture_make(t, &s->f);
    shop_fit(s);
    shop_lift(s);
    shop_coat(s);
    shop_fittings(s);
    s->f.works.name = "Test works";
    s->f.works.currency = "EUR";
    s->f.works.coating.name = "silicone, black";
    s->f.dossier.shop = (sw_shopped){.fit = &s->fit, .lift = &s->lift, .coat = &s->coat, .fittings = &s->fittings};
    return &s->f.dossier;
}

typedef sw_status sheet_paper(sw_run *run, const paper_desk *desk, const char *path);

/* The text of a sheet; "" where it could not be read. Written twice, it has the same bytes. */
static const char *text_of(sw_test *t, const shop *s, sheet_paper *paper)
{
    paper_desk desk;
    const char *path = fixture_path(t, &s->f, "sheet.pdf"), *again = fixture_path(t, &s->f, "again.pdf");
    sw_ok(t, desk_whole(&t->run, &s->f.dossier, &desk));
    sw_ok(t, paper(&t->run, &desk, path));
    sw_ok(t, paper(&t->run, &desk, again));
    desk_close(&desk);
    sw_true(t, fixture_shell(t, sw_text_format(&t->run, t->run.keep, "cmp -- %s %s", path, again)) != NULL);
    const char *text = fixture_shell(t, sw_text_format(&t->run, t->run.keep, "pdftotext -layout %s -", path));
    sw_true(t, text != NULL);
    return text == NULL ? "" : text;
}

static void has_all(sw_test *t, const char *text, const char *const *words, size_t count)
{
    for (size_t i = 0; i < count; i++) sw_true(t, strstr(text, words[i]) != NULL);
}
#define HAS(text, ...)                                                                                                 \
    do {                                                                                                               \
        static const char *const words[] = {__VA_ARGS__};                                                              \
        has_all(t, text, words, sizeof words / sizeof *words);                                                         \
    } while (0)

static void the_plan_tells_limits_samples_and_what_no_gauge_can_judge(sw_test *t)
{
    shop s;
    (void)shop_make(t, &s);
    const char *text = text_of(t, &s, paper_inspection);
    HAS(text, "A-02 shell: bottom: cut", "299.66 to 300.34", "8 of 50", "acc 0 rej 1", "gauge too coarse", "signature");
    fixture_clear(t, &s.f);
}

static void joints_tell_gaps_and_how_likely_they_fail(sw_test *t)
{
    shop s;
    (void)shop_make(t, &s);
    const char *text = text_of(t, &s, paper_inspection);
    HAS(text, "87.5 %", "shell to plate", "1.61", "0.77", "0.63", "12.3", "limit 0.77",
        "for want of a partner near the edge: strip on nothing", "0.31 mm instead of 0.40");
    fixture_clear(t, &s.f);
}

static void measured_pieces_get_a_control_chart_with_its_broken_rules(sw_test *t)
{
    shop s;
    (void)shop_make(t, &s);
    const char *text = text_of(t, &s, paper_inspection);
    HAS(text, "1.41 (1.10 to 1.70)", "1.17 (0.90 to 1.40)", "224", "UCL", "LCL", "Broken: 1:");
    s.fit.measured.feature_count = 0;
    sw_true(t, strstr(text_of(t, &s, paper_inspection), "UCL") == NULL);
    fixture_clear(t, &s.f);
}

static void lifts_tell_who_and_draw_what_hangs(sw_test *t)
{
    shop s;
    (void)shop_make(t, &s);
    const char *text = text_of(t, &s, paper_lifting);
    HAS(text, "Nobody stands under a hanging load.", "17.3", "2.34", "two people", "lifting gear: jib crane", "125 kg",
        "235 N", "300 mm; 260 mm", "from the right", "none strong enough", "3.93 m/s");
    fixture_clear(t, &s.f);
}

static void a_load_lifted_twice_is_drawn_once(sw_test *t)
{
    shop s;
    (void)shop_make(t, &s);
    s.steps[2] = s.steps[1];
    sw_true(t, lift_is_drawn(&s.lift, 0) && lift_is_drawn(&s.lift, 1));
    sw_true(t, !lift_is_drawn(&s.lift, 2) && !lift_is_drawn(&s.lift, 3));
    fixture_clear(t, &s.f);
}

static void coating_tells_paint_masks_cure_and_margins(sw_test *t)
{
    shop s;
    (void)shop_make(t, &s);
    const char *text = text_of(t, &s, paper_coating);
    HAS(text, "Sa 2 1/2", "3.74 m", "silicone, black", "1.31 l", "rope land", "1297", "83", "0.72", "cools by itself",
        "first fire, small", "thin: blast gently", "512", "88");
    const char *hot = strstr(text, "hot part"), *cool = strstr(text, "cool part");
    sw_true(t, hot != NULL && cool != NULL && hot < cool); /* least margin first */
    sw_true(t, strstr(text, "bare part") == NULL);
    fixture_clear(t, &s.f);
}

static void fittings_tell_boards_gaps_glass_and_the_drop(sw_test *t)
{
    shop s;
    (void)shop_make(t, &s);
    const char *text = text_of(t, &s, paper_fittings);
    HAS(text, "A-70", "side board", "160.5", "1 sheet; fewer than 1 cannot do", "15 % used", "free", "stands on",
        "front plate", "5.13 J", "974", "IK08", "door rope", "14.0 \xc3\x97 6.0");
    fixture_clear(t, &s.f);
}

static void sheets_of_board_laid_alike_are_drawn_once(sw_test *t)
{
    shop s;
    (void)shop_make(t, &s);
    const char *text = text_of(t, &s, paper_fittings);
    HAS(text, "2 \xc3\x97 vermiculite board", "1 \xc3\x97 vermiculite board", "drawn once");
    sw_true(t, strstr(text, "not drawn") == NULL);
    fixture_clear(t, &s.f);
}

static void the_dossier_has_the_sheets_that_were_computed(sw_test *t)
{
    static const char *const paths[] = {"inspection/inspection.pdf", "lifting/lifting.pdf", "finishing/coating.pdf",
                                        "finishing/fittings.pdf"};
    for (int with = 0; with < 2; with++) {
        shop s;
        const sw_dossier *d = shop_make(t, &s);
        sw_folder folder;
        const sw_paper_file *files = NULL;
        size_t count = 0, found = 0;
        if (with == 0) s.f.dossier.shop = (sw_shopped){.fit = NULL};
        const char *out = fixture_path(t, &s.f, "out");
        sw_ok(t, sw_folder_open(&t->run, out, &folder));
        sw_ok(t, sw_papers_write(&t->run, d, &folder, &files, &count));
        sw_ok(t, sw_folder_publish(&t->run, &folder));
        for (size_t i = 0; i < count; i++)
            for (size_t k = 0; k < 4; k++) found += strcmp(files[i].path, paths[k]) == 0;
        sw_true(t, found == (with == 0 ? 0u : 4u));
        fixture_clear(t, &s.f);
    }
}

static void sheets_without_memory_say_so(sw_test *t)
{
    static sheet_paper *const papers[] = {paper_inspection, paper_lifting, paper_coating, paper_fittings};
    shop s;
    paper_desk desk;
    const sw_dossier *d = shop_make(t, &s);
    const char *path = fixture_path(t, &s.f, "fail.pdf");
    sw_ok(t, desk_whole(&t->run, d, &desk));
    for (size_t k = 0; k < 4; k++) {
        size_t before = sw_arena_takes(t->run.scratch);
        sw_ok(t, papers[k](&t->run, &desk, path));
        size_t takes = sw_arena_takes(t->run.scratch) - before;
        for (size_t i = 0; i < 60; i++) {
            (void)unlink(path);
            sw_arena_fail_at(t->run.scratch, 1 + takes * i / 60);
            sw_true(t, papers[k](&t->run, &desk, path) == SW_NO_MEMORY);
            sw_arena_fail_at(t->run.scratch, 0);
            sw_run_clear_errors(&t->run);
            sw_true(t, access(path, F_OK) != 0);
        }
    }
    desk_close(&desk);
    fixture_clear(t, &s.f);
}

SW_TESTS(SW_CASE(the_plan_tells_limits_samples_and_what_no_gauge_can_judge),
         SW_CASE(joints_tell_gaps_and_how_likely_they_fail),
         SW_CASE(measured_pieces_get_a_control_chart_with_its_broken_rules),
         SW_CASE(lifts_tell_who_and_draw_what_hangs), SW_CASE(a_load_lifted_twice_is_drawn_once),
         SW_CASE(coating_tells_paint_masks_cure_and_margins), SW_CASE(fittings_tell_boards_gaps_glass_and_the_drop),
         SW_CASE(sheets_of_board_laid_alike_are_drawn_once), SW_CASE(the_dossier_has_the_sheets_that_were_computed),
         SW_CASE(sheets_without_memory_say_so))
