/* papers_fixture.h: a small invented stove for the tests of papers: a plate with two flanges and many cut-outs, a
 * rolled shell with a cut-out in its zone, a disc, a glass and a rope; nested on one sheet and cut. */
#ifndef SW_TESTS_PAPERS_FIXTURE_H
#define SW_TESTS_PAPERS_FIXTURE_H

#include "papers/papers.h"
#include "sw_test.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#ifdef __SANITIZE_ADDRESS__
/* fontconfig keeps its configuration until the process ends; that is no leak of ours. */
const char *__lsan_default_suppressions(void); /* NOLINT: name set by the sanitizer */
const char *__lsan_default_suppressions(void)
{
    return "leak:libfontconfig";
} /* NOLINT */
#endif

static const sw_vertex fixture_plate[] = {{0, 0, 0}, {400, 0, 0}, {400, 250, 0}, {0, 250, 0}};
static const sw_vertex fixture_flange[] = {{0, 0, 0}, {250, 0, 0}, {235, 40, 0}, {15, 40, 0}};
static const sw_vertex fixture_strip[] = {{0, 0, 0}, {300, 0, 0}, {300, 60, 0}, {0, 60, 0}};
static const sw_vertex fixture_end[] = {{0, 0, 0}, {300, 0, 0}, {300, 30, 0}, {0, 30, 0}};
static const sw_vertex fixture_disc[] = {{-70, 0, 1}, {70, 0, 1}};
static const sw_vertex fixture_glass[] = {{0, 0, 0}, {180, 0, 0}, {180, 120, 0}, {0, 120, 0}};
static const sw_vertex fixture_zone_hole[] = {{0, 12, -1}, {0, -12, -1}};

enum { FIXTURE_HOLES = 18, FIXTURE_PIECES = 3, FIXTURE_ITEMS = 2, FIXTURE_PLACES = 4, FIXTURE_FINDINGS = 6 };

typedef struct fixture {
    sw_dossier dossier;
    sw_stove stove;
    sw_works works;
    sw_grade grade;
    sw_piece pieces[FIXTURE_PIECES];
    sw_item items[FIXTURE_ITEMS];
    sw_group groups[2];
    sw_face plate[3], shell[2], disc[1];
    sw_bend plate_bends[2], shell_bends[1];
    sw_contour holes[FIXTURE_HOLES];
    sw_zone_hole zone_hole;
    sw_mark mark;
    sw_frame at_plate, at_shell, at_disc[2], at_glass;
    sw_sheet_piece sheets[FIXTURE_PIECES];
    sw_sheet_result sheet;
    sw_heft_result heft;
    sw_heft_line heft_pieces[FIXTURE_PIECES], heft_items[FIXTURE_ITEMS], heft_groups[2];
    sw_stock stock;
    sw_laser_row row;
    sw_nest_shape shapes[FIXTURE_PIECES];
    sw_nest_input nest_in;
    sw_nest_place places[FIXTURE_PLACES];
    sw_nest_sheet nest_sheet;
    sw_nest_result nest;
    sw_nested nested[2];
    sw_cut_part parts[FIXTURE_PLACES];
    sw_cut_input cut;
    const sw_cut_input *cuts[1];
    const sw_cut_plan *plans[1];
    const sw_stock *stocks[1];
    sw_finding findings[FIXTURE_FINDINGS];
    char folder[64];
} fixture;

static sw_contour fixture_contour(const sw_vertex *v, size_t n)
{
    return (sw_contour){v, n};
}

static void fixture_holes(sw_test *t, fixture *f)
{
    sw_contour made;
    for (size_t i = 0; i < 16; i++) {
        sw_point at = {60.0 + 40.0 * (double)(i % 8), i < 8 ? 40.0 : 210.0};
        sw_ok(t, sw_contour_circle(&t->run, at, i < 8 ? 4.5 : 3.2, &made));
        sw_ok(t, sw_contour_reversed(&t->run, made, &f->holes[i]));
    }
    sw_ok(t, sw_contour_slot(&t->run, (sw_point){60, 90}, (sw_point){110, 90}, 12, &made));
    sw_ok(t, sw_contour_reversed(&t->run, made, &f->holes[16]));
    sw_ok(t, sw_contour_rectangle(&t->run, (sw_box){150, 80, 330, 170}, 8.0, &made));
    sw_ok(t, sw_contour_reversed(&t->run, made, &f->holes[17]));
}

static void fixture_stove(sw_test *t, fixture *f)
{
    const double quarter = SW_PI / 2.0;
    fixture_holes(t, f);
    f->grade = (sw_grade){.name = "S235",
                          .standard = "EN 10025-2",
                          .kind = SW_STEEL,
                          .density = 7850.0,
                          .re_min_mpa = 235,
                          .rm_min_mpa = 360,
                          .rm_max_mpa = 510,
                          .young_mpa = 210000,
                          .poisson = 0.3,
                          .source = "test"};
    f->mark = (sw_mark){.text = "A-01", .at = {30, 120}, .height_mm = 10};
    f->plate[0] = (sw_face){.name = "main",
                            .region = {fixture_contour(fixture_plate, 4), f->holes, FIXTURE_HOLES},
                            .marks = &f->mark,
                            .mark_count = 1};
    f->plate[1] = (sw_face){.name = "right flange", .region = {fixture_contour(fixture_flange, 4), NULL, 0}};
    f->plate[2] = (sw_face){.name = "left flange", .region = {fixture_contour(fixture_flange, 4), NULL, 0}};
    f->plate_bends[0] = (sw_bend){.name = "bend 1",
                                  .kind = SW_PRESSED,
                                  .parent = 0,
                                  .child = 1,
                                  .from = {400, 0},
                                  .to = {400, 250},
                                  .radius_mm = 4,
                                  .angle_rad = quarter,
                                  .k = NAN};
    f->plate_bends[1] = (sw_bend){.name = "bend 2",
                                  .kind = SW_PRESSED,
                                  .parent = 0,
                                  .child = 2,
                                  .from = {0, 250},
                                  .to = {0, 0},
                                  .radius_mm = 4,
                                  .angle_rad = -quarter / 2.0,
                                  .k = NAN};
    f->zone_hole = (sw_zone_hole){.along_mm = 150, .angle_rad = quarter, .contour = {fixture_zone_hole, 2}};
    f->shell[0] = (sw_face){.name = "main", .region = {fixture_contour(fixture_strip, 4), NULL, 0}};
    f->shell[1] = (sw_face){.name = "end", .region = {fixture_contour(fixture_end, 4), NULL, 0}};
    f->shell_bends[0] = (sw_bend){.name = "roll",
                                  .kind = SW_ROLLED,
                                  .parent = 0,
                                  .child = 1,
                                  .from = {300, 60},
                                  .to = {0, 60},
                                  .radius_mm = 150,
                                  .angle_rad = SW_PI,
                                  .k = NAN,
                                  .holes = &f->zone_hole,
                                  .hole_count = 1};
    f->disc[0] = (sw_face){.name = "main", .region = {fixture_contour(fixture_disc, 2), NULL, 0}};
    f->at_plate = (sw_frame){{1, 0, 0}, {0, 0, 1}, {0, -1, 0}, {-200, 0, 20}};
    f->at_shell = (sw_frame){{0, 0, 1}, {0, 1, 0}, {-1, 0, 0}, {-170, 60, 0}};
    f->at_disc[0] = (sw_frame){{1, 0, 0}, {0, 1, 0}, {0, 0, 1}, {0, 180, 310}};
    f->at_disc[1] = (sw_frame){{1, 0, 0}, {0, 1, 0}, {0, 0, 1}, {0, 180, 10}};
    f->at_glass = (sw_frame){{1, 0, 0}, {0, 0, 1}, {0, -1, 0}, {-90, -12, 80}};
    f->pieces[0] = (sw_piece){.number = "A-01",
                              .name = "front plate",
                              .group = "front",
                              .role = "door",
                              .grade = &f->grade,
                              .thickness_mm = 4,
                              .faces = f->plate,
                              .face_count = 3,
                              .bends = f->plate_bends,
                              .bend_count = 2,
                              .placements = &f->at_plate,
                              .count = 1,
                              .turns = SW_TURN_QUARTER,
                              .mirror_of = -1};
    f->pieces[1] = (sw_piece){.number = "A-02",
                              .name = "shell, \"round\"",
                              .group = "body",
                              .role = "shell",
                              .grade = &f->grade,
                              .thickness_mm = 4,
                              .faces = f->shell,
                              .face_count = 2,
                              .bends = f->shell_bends,
                              .bend_count = 1,
                              .placements = &f->at_shell,
                              .count = 1,
                              .turns = SW_TURN_HALF,
                              .mirror_of = -1};
    f->pieces[2] = (sw_piece){.number = "A-03",
                              .name = "disc <top & base>",
                              .group = "body",
                              .role = "other",
                              .grade = &f->grade,
                              .thickness_mm = 4,
                              .faces = f->disc,
                              .face_count = 1,
                              .placements = f->at_disc,
                              .count = 2,
                              .turns = SW_TURN_FREE,
                              .may_flip = true,
                              .mirror_of = -1};
    f->items[0] = (sw_item){.number = "G-01",
                            .name = "glass",
                            .group = "front",
                            .role = "glass",
                            .material = "glass ceramic",
                            .kind = SW_ITEM_GLASS,
                            .mass_kg = 0.216,
                            .price = 12,
                            .shape = {{fixture_glass, 4}, NULL, 0},
                            .thickness_mm = 4,
                            .placements = &f->at_glass,
                            .count = 1};
    f->items[1] = (sw_item){.number = "R-01",
                            .name = "rope",
                            .group = "front",
                            .role = "seal",
                            .material = "glass fibre",
                            .kind = SW_ITEM_ROPE,
                            .mass_kg = 0.1,
                            .price = NAN,
                            .length_mm = 600,
                            .placements = &f->at_glass,
                            .count = 1};
    f->groups[0] = (sw_group){"body", "Body", {0, 200, 0}};
    f->groups[1] = (sw_group){"front", "Front", {0, -250, 0}};
    f->stove = (sw_stove){.name = "fixture",
                          .title = "Fixture stove",
                          .note = "Invented for tests.",
                          .groups = f->groups,
                          .group_count = 2,
                          .pieces = f->pieces,
                          .piece_count = FIXTURE_PIECES,
                          .items = f->items,
                          .item_count = FIXTURE_ITEMS};
}

static void fixture_sheet(sw_test *t, fixture *f)
{
    const sw_sheet_options opt = sw_sheet_options_defaults();
    for (size_t i = 0; i < FIXTURE_PIECES; i++) {
        sw_sheet_piece *p = &f->sheets[i];
        p->piece = &f->pieces[i];
        sw_ok(t, sw_sheet_unfold(&t->run, p->piece, NULL, &p->flat));
        sw_ok(t, sw_sheet_fold(&t->run, p->piece, &opt, &p->solid));
        p->mass_kg = sw_m3_from_mm3(p->flat.area_mm2 * p->piece->thickness_mm) * f->grade.density;
        f->sheet.mass_kg += p->mass_kg * (double)p->piece->count;
        f->heft_pieces[i] =
            (sw_heft_line){p->piece->name, {.mass_kg = p->mass_kg * (double)p->piece->count}, p->piece->count};
    }
    f->sheet.pieces = f->sheets;
    f->sheet.piece_count = FIXTURE_PIECES;
    f->sheet.chord_mm = sw_sheet_options_defaults().chord_mm;
    for (size_t i = 0; i < FIXTURE_ITEMS; i++)
        f->heft_items[i] = (sw_heft_line){f->items[i].name, {.mass_kg = f->items[i].mass_kg}, 1};
    f->heft_groups[0] =
        (sw_heft_line){"body", {.mass_kg = f->heft_pieces[1].body.mass_kg + f->heft_pieces[2].body.mass_kg}, 1};
    f->heft_groups[1] = (sw_heft_line){"front", {.mass_kg = f->heft_pieces[0].body.mass_kg + 0.316}, 1};
    f->heft = (sw_heft_result){.pieces = f->heft_pieces,
                               .piece_count = FIXTURE_PIECES,
                               .items = f->heft_items,
                               .item_count = FIXTURE_ITEMS,
                               .groups = f->heft_groups,
                               .group_count = 2};
    f->heft.stove = (sw_body){.mass_kg = f->sheet.mass_kg + 0.316, .centre = {1.0, 120.0, 160.0}};
}

static void fixture_nest(sw_test *t, fixture *f)
{
    sw_contour box;
    sw_ok(t, sw_contour_rectangle(&t->run, (sw_box){0, 0, 1500, 1000}, 0.0, &box));
    f->stock = (sw_stock){.name = "S235 4 small",
                          .grade = &f->grade,
                          .thickness_mm = 4,
                          .shape = {box, NULL, 0},
                          .length_mm = 1500,
                          .width_mm = 1000,
                          .price = 50};
    f->stocks[0] = &f->stock;
    for (size_t i = 0; i < FIXTURE_PIECES; i++)
        f->shapes[i] = (sw_nest_shape){
            .name = f->pieces[i].name, .tag = (int)i, .region = f->sheets[i].flat.region, .count = f->pieces[i].count};
    f->nest_in = (sw_nest_input){.name = "4 mm S235",
                                 .shapes = f->shapes,
                                 .shape_count = FIXTURE_PIECES,
                                 .stock = f->stocks,
                                 .stock_count = 1,
                                 .web_mm = 8,
                                 .margin_mm = 10};
    f->places[0] = (sw_nest_place){0, {.dx_mm = 20, .dy_mm = 20}};
    f->places[1] = (sw_nest_place){1, {.turn_rad = SW_PI / 2.0, .dx_mm = 600, .dy_mm = 320}};
    f->places[2] = (sw_nest_place){2, {.dx_mm = 20, .dy_mm = 640}};
    f->places[3] = (sw_nest_place){2, {.dx_mm = 180, .dy_mm = 640}};
    double area = 0.0;
    for (size_t i = 0; i < FIXTURE_PLACES; i++) {
        const sw_nest_shape *shape = &f->shapes[f->places[i].shape];
        f->parts[i].label = f->pieces[shape->tag].number;
        sw_ok(t, sw_region_moved(&t->run, &shape->region, f->places[i].motion, &f->parts[i].region));
        area += sw_region_area(&shape->region);
    }
    f->nest_sheet = (sw_nest_sheet){.stock = &f->stock,
                                    .places = f->places,
                                    .place_count = FIXTURE_PLACES,
                                    .used_length_mm = 700,
                                    .piece_area_mm2 = area,
                                    .density = area / 1.5e6,
                                    .remnant_x_mm = 700,
                                    .remnant_length_mm = 800,
                                    .remnant_width_mm = 1000,
                                    .repeat = 1};
    f->nest = (sw_nest_result){.sheets = &f->nest_sheet,
                               .sheet_count = 1,
                               .sheets_total = 1,
                               .piece_area_mm2 = area,
                               .sheet_area_mm2 = 1.5e6,
                               .density = area / 1.5e6,
                               .bound_density = area / 1.5e6,
                               .cost = 50,
                               .scrap_kg = 12};
    f->row = (sw_laser_row){.grade = &f->grade,
                            .thickness_mm = 4,
                            .feed_mm_s = 55,
                            .pierce_s = 0.4,
                            .kerf_mm = 0.25,
                            .lead_mm = 4,
                            .gas = "O2",
                            .gas_m3_s = 4e-4,
                            .gas_price = 1.2,
                            .web_mm = 8,
                            .margin_mm = 10};
    f->works = (sw_works){.name = "fixture works",
                          .note = "Invented for tests.",
                          .currency = "EUR",
                          .laser = {.rows = &f->row,
                                    .row_count = 1,
                                    .rapid_mm_s = 1000,
                                    .accel_mm_s2 = 10000,
                                    .etch_mm_s = 160,
                                    .rate_h = 95,
                                    .micro_joint_mm = 0.4,
                                    .micro_below_mm = 20,
                                    .program_start = "G21\nG90",
                                    .program_end = "M2",
                                    .beam_on = "M3",
                                    .beam_off = "M5",
                                    .etch_on = "M13",
                                    .etch_off = "M15"}};
    f->cut = (sw_cut_input){.name = "sheet 1, 4 mm S235",
                            .parts = f->parts,
                            .part_count = FIXTURE_PLACES,
                            .stock = &f->stock,
                            .laser = &f->works.laser,
                            .row = &f->row};
    f->cuts[0] = &f->cut;
    sw_ok(t, sw_cut_solve(&t->run, &f->cut, &f->plans[0]));
    f->nested[0] = (sw_nested){.name = "4 mm S235",
                               .grade = &f->grade,
                               .thickness_mm = 4,
                               .input = &f->nest_in,
                               .result = &f->nest,
                               .why = "",
                               .plans = f->plans,
                               .cuts = f->cuts};
}

static void fixture_findings(fixture *f)
{
    f->findings[0] = (sw_finding){"sheet",
                                  "least_flange",
                                  "The flange of 8 mm is shorter than the die can hold, 11 mm.",
                                  "front plate, bend 2",
                                  SW_AT_LEAST,
                                  8,
                                  11,
                                  "mm",
                                  (8.0 - 11.0) / 11.0,
                                  SW_FAILS,
                                  "common practice, no source",
                                  "lengthen the flange to 11 mm or use the die of 16 mm",
                                  {"fixture.stove.lua", 12, 3}};
    f->findings[1] = (sw_finding){"heft",
                                  "lift",
                                  "The stove has a mass of 61 kg: two people or a hoist.",
                                  "stove",
                                  SW_AT_MOST,
                                  24.2,
                                  25,
                                  "kg",
                                  0.032,
                                  SW_WATCH,
                                  "handbook 9.2, from memory",
                                  "carry by two",
                                  {0}};
    f->findings[2] = (sw_finding){"sheet",
                                  "roll_radius",
                                  "No rule covers the rolling radius.",
                                  "shell",
                                  SW_STATED,
                                  NAN,
                                  NAN,
                                  "",
                                  NAN,
                                  SW_UNKNOWN,
                                  "none",
                                  "ask for a trial",
                                  {0}};
    for (int i = 3; i < FIXTURE_FINDINGS; i++)
        f->findings[i] = (sw_finding){"sheet",
                                      "bend_radius",
                                      "Inside radius 4 mm holds the least of 4 mm & more <so>.",
                                      "front plate",
                                      SW_AT_LEAST,
                                      6,
                                      4,
                                      "mm",
                                      0.5,
                                      SW_HOLDS,
                                      "DIN 6935:1975-10",
                                      "",
                                      {0}};
}

/* The whole fixture; f must outlive the dossier. */
static const sw_dossier *fixture_make(sw_test *t, fixture *f)
{
    memset(f, 0, sizeof *f);
    fixture_stove(t, f);
    fixture_sheet(t, f);
    fixture_nest(t, f);
    fixture_findings(f);
    f->dossier = (sw_dossier){.model = {.stove = &f->stove,
                                        .works = &f->works,
                                        .stove_file = "fixture.stove.lua",
                                        .works_file = "fixture.works.lua",
                                        .house_file = ""},
                              .batch = 5,
                              .sheet = &f->sheet,
                              .heft = &f->heft,
                              .nests = f->nested,
                              .nest_count = 1,
                              .findings = {f->findings, FIXTURE_FINDINGS, FIXTURE_FINDINGS},
                              .date = "2026-11-25"};
    (void)snprintf(f->folder, sizeof f->folder, "papers-test-XXXXXX");
    if (mkdtemp(f->folder) == NULL) sw_true(t, !"a folder for the test's files");
    return &f->dossier;
}

__attribute__((unused)) static const char *fixture_path(sw_test *t, const fixture *f, const char *name)
{
    return sw_text_format(&t->run, t->run.keep, "%s/%s", f->folder, name);
}

__attribute__((unused, noinline)) static const char *fixture_text(sw_test *t, const char *path)
{
    const char *bytes = "";
    size_t length = 0;
    sw_ok(t, sw_file_read(&t->run, path, (size_t)1 << 28, &bytes, &length));
    return bytes;
}

/* What a shell command prints (trusted words only); NULL when it fails. */
static const char *fixture_shell(sw_test *t, const char *command)
{
    char *text = SW_KEEP(&t->run, 1 << 20, char);
    FILE *pipe = popen(command, "r"); /* NOLINT: fixed commands on files of this test */
    if (pipe == NULL || text == NULL) return NULL;
    size_t n = fread(text, 1, (1 << 20) - 1, pipe);
    text[n] = '\0';
    return pclose(pipe) == 0 ? text : NULL;
}

static void fixture_clear(sw_test *t, const fixture *f)
{
    const char *command = sw_text_format(&t->run, t->run.keep, "rm -r -- %s", f->folder);
    if (getenv("SW_KEEP_PAPERS") == NULL) sw_true(t, fixture_shell(t, command) != NULL);
}

#endif
