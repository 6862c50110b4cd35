#include "reading.h"

#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

static const char works_text[] =
    "works { name = 'w', note = 'Invented for demonstration.', currency = 'EUR', scrap_price = 0.22/kg, remnant_factor = 0.6, remnant_least = { 500*mm, 300*mm } }\n"
    "sheet { 'S235', 4*mm, size = { 3000*mm, 1500*mm }, price = 1.05/kg, count = 20, name = 'S235 4 large' }\n"
    "sheet { 'DC01', 2*mm, size = { 2000*mm, 1000*mm }, price = 35 }\n"
    "remnant { 'S235', 4*mm, name = 'R-0317', outline = polygon { {100*mm, 50*mm}, {500*mm, 50*mm}, {100*mm, 350*mm} }, holes = { hole { at = {200*mm, 150*mm}, d = 60*mm } }, price = 8 }\n"
    "laser { rapid = 60*m/min, acceleration = 10*m/s/s, etch = 10*m/min, rate = 95/h, micro_joint = 0.4*mm, micro_below = 60*mm,\n"
    "  rows = { { 'S235', 4*mm, feed = 3.4*m/min, pierce = 0.5*s, kerf = 0.25*mm, lead = 4*mm, gas = 'O2', flow = 1.6*m3/h, gas_price = 1.2/m3, web = 8*mm, margin = 10*mm },\n"
    "           { 'DC01', 2*mm, feed = 6*m/min, pierce = 0.2*s, kerf = 0.2*mm, lead = 3*mm, web = 6*mm, margin = 10*mm } },\n"
    "  program = { start = { 'G21', 'G90' }, stop = { 'M2' }, beam_on = 'M7', beam_off = 'M5', etch_on = 'M13', etch_off = 'M15' } }\n"
    "press { rule = 'K', k = 0.38, dies = { 16*mm, 24*mm, 32*mm }, length = 3000*mm, force = 1000*kN, joggle_least = 9*mm,\n"
    "  trials = { { 'S235', 4*mm, radius = 5*mm, k = 0.41, note = 'trial strip 12' } } }\n"
    "rolls { length = 1500*mm, top_radius = 75*mm, lower_radius = 70*mm, centres = 220*mm, flat_end = 2.0 }\n";

static const sw_works *read_works(sw_test *t)
{
    const sw_model *model = NULL;
    return sw_ok(t, read_status(t, NULL, works_text, &model)) ? model->works : NULL;
}

static void stock_has_price_shape_and_count(sw_test *t)
{
    const sw_works *w = read_works(t);
    if (w == NULL) return;
    sw_true(t, w->stock_count == 3);
    sw_near(t, w->stock[0].price, 3.0 * 1.5 * 0.004 * 7850.0 * 1.05, 1e-9, "derived: mass of the sheet x 1.05/kg");
    sw_true(t, w->stock[0].count == 20 && !w->stock[0].remnant && w->stock[0].length_mm == 3000.0 &&
                   w->stock[0].width_mm == 1500.0);
    sw_near(t, w->stock[1].price, 35.0, 0.0, "as written");
    sw_true(t, w->stock[1].count == 0);
    sw_same_text(t, w->stock[1].name, "DC01 2 2000x1000");
    const sw_stock *remnant = &w->stock[2];
    sw_true(t, remnant->remnant && remnant->count == 1 && remnant->length_mm == 400.0 && remnant->width_mm == 300.0);
    sw_near(t, sw_contour_box(remnant->shape.outline).x0_mm, 0.0, 1e-12, "derived: moved to the origin");
    sw_near(t, sw_contour_centroid(remnant->shape.holes[0]).x_mm, 100.0, 1e-9, "derived: moved with its outline");
    sw_true(t, sw_contour_area(remnant->shape.holes[0]) < 0.0);
}

static const char zoned_text[] =
    "works { name = 'w' }\n"
    "sheet { 'S235', 4*mm, size = { 3000*mm, 1500*mm }, zones = { { x = 10*mm, y = 20*mm, width = 120*mm, height = 80*mm, reason = 'clamp' } } }\n"
    "remnant { 'S235', 4*mm, name = 'R', outline = polygon { {100*mm, 50*mm}, {500*mm, 50*mm}, {100*mm, 350*mm} }, zones = { { x = 100*mm, y = 50*mm, width = 30*mm, height = 20*mm, reason = 'rust' }, { x = 110*mm, y = 300*mm, width = 20*mm, height = 30*mm, reason = 'dent' } } }\n"
    "laser { rapid = 60*m/min, acceleration = 10*m/s/s, etch = 10*m/min, rows = { { 'S235', 4*mm, feed = 3.4*m/min, pierce = 0.5*s, kerf = 0.25*mm, lead = 4*mm, web = 8*mm, margin = 10*mm } } }\n"
    "press { dies = { 16*mm }, length = 3000*mm, force = 1000*kN }\n";

static void zones_stand_in_the_frame_of_their_sheet(sw_test *t)
{
    const sw_model *model = NULL;
    if (!sw_ok(t, read_status(t, NULL, zoned_text, &model))) return;
    const sw_stock *sheet = &model->works->stock[0], *remnant = &model->works->stock[1];
    if (!sw_true(t, sheet->zone_count == 1 && remnant->zone_count == 2)) return;
    sw_near(t, sheet->zones[0].box.x1_mm, 130, 1e-12, "derived: x and width");
    sw_near(t, sheet->zones[0].box.y1_mm, 100, 1e-12, "derived: y and height");
    sw_same_text(t, sheet->zones[0].reason, "clamp");
    sw_near(t, remnant->zones[1].box.x0_mm, 10, 1e-12, "derived: moved with the outline by (-100, -50)");
    sw_near(t, remnant->zones[1].box.y0_mm, 250, 1e-12, "derived: moved with the outline by (-100, -50)");
}

static void the_laser_keeps_its_rows_and_words(sw_test *t)
{
    const sw_works *w = read_works(t);
    if (w == NULL) return;
    sw_near(t, w->laser.rapid_mm_s, 1000.0, 1e-9, "60 m/min");
    sw_near(t, w->laser.accel_mm_s2, 1e4, 1e-9, "10 m/s2");
    sw_near(t, w->laser.rate_h, 95.0, 1e-9, "as written");
    sw_true(t, w->laser.row_count == 2);
    const sw_laser_row *row = sw_works_laser_row(w, sw_grade_find("S235"), 4.0);
    if (!sw_true(t, row != NULL)) return;
    sw_near(t, row->feed_mm_s, 3400.0 / 60.0, 1e-9, "3.4 m/min");
    sw_near(t, row->gas_m3_s, 1.6 / 3600.0, 1e-12, "1.6 m3/h");
    sw_near(t, row->gas_price, 1.2, 1e-12, "as written");
    sw_same_text(t, row->gas, "O2");
    sw_same_text(t, w->laser.program_start, "G21\nG90");
    sw_same_text(t, w->laser.beam_on, "M7");
    sw_same_text(t, w->laser.rows[1].gas, "");
}

static void press_and_rolls_keep_their_figures(sw_test *t)
{
    const sw_works *w = read_works(t);
    if (w == NULL) return;
    sw_true(t, w->press.rule == SW_ALLOW_K && w->press.k == 0.38 && w->press.die_count == 3 &&
                   w->press.dies_mm[1] == 24.0);
    sw_near(t, w->press.force_n, 1e6, 1e-6, "1000 kN");
    sw_true(t, w->press.trial_count == 1 && w->press.trials[0].k == 0.41 && w->press.trials[0].radius_mm == 5.0);
    sw_true(t, w->rolls.lower_radius_mm == 70.0 && w->rolls.flat_end_s == 2.0);
    sw_near(t, w->scrap_price, 0.22, 1e-15, "as written");
    sw_true(t, w->remnant_length_mm == 500.0 && w->remnant_width_mm == 300.0 && w->remnant_factor == 0.6);
}

static void three_descriptions_make_one_model(sw_test *t)
{
    sw_design_texts in = {.stove = {"s", STOVE_HEAD, sizeof STOVE_HEAD - 1},
                          .works = {"w", works_text, sizeof works_text - 1},
                          .house = {"h", "house { name = 'hill' }", 23}};
    const sw_model *model = NULL;
    if (!sw_ok(t, sw_design_read_texts(&t->run, &in, &model))) return;
    sw_true(t, model->stove != NULL && model->works != NULL);
    sw_same_text(t, model->house->name, "hill");
    sw_same_text(t, model->house_file, "h");
}

static void faults_of_all_files_come_together(sw_test *t)
{
    static const char stove[] = "stove { name = 'a' }", works[] = "works { nam = 'w' }";
    sw_design_texts in = {.stove = {"s", stove, sizeof stove - 1}, .works = {"w", works, sizeof works - 1}};
    const sw_model *model = NULL;
    sw_true(t, sw_design_read_texts(&t->run, &in, &model) == SW_BAD_INPUT);
    sw_same_text(t, t->run.errors[0].place.file, "s");
    sw_same_text(t, t->run.errors[t->run.error_count - 1].place.file, "w");
    sw_true(t, sw_design_read_texts(&t->run, &(sw_design_texts){0}, &model) == SW_BAD_INPUT);
}

/* ---- files ---- */

static bool write_file(sw_test *t, const char *path, const char *text)
{
    sw_writer *writer = NULL;
    if (!sw_ok(t, sw_writer_to_file(&t->run, path, &writer))) return false;
    sw_print(writer, "%s", text);
    return sw_ok(t, sw_writer_close(&t->run, writer));
}

static const char *folder_made(sw_test *t)
{
    char *name = (char *)sw_text_format(&t->run, t->run.keep, "%s/sw_design_XXXXXX",
                                        getenv("TMPDIR") == NULL ? "/tmp" : getenv("TMPDIR"));
    return sw_true(t, mkdtemp(name) != NULL) ? name : NULL;
}

static void an_outline_comes_from_a_drawing_beside_the_description(sw_test *t)
{
    static const char dxf[] =
        "0\nSECTION\n2\nENTITIES\n0\nLINE\n8\nCUT\n10\n0\n20\n0\n11\n80\n21\n0\n0\nLINE\n8\nCUT\n10\n80\n20\n0\n11\n80\n21\n50\n"
        "0\nLINE\n8\nCUT\n10\n80\n20\n50\n11\n0\n21\n50\n0\nLINE\n8\nCUT\n10\n0\n20\n50\n11\n0\n21\n0\n0\nENDSEC\n0\nEOF\n";
    const char *folder = folder_made(t);
    if (folder == NULL) return;
    const char *drawing = sw_text_format(&t->run, t->run.keep, "%s/plate.dxf", folder),
               *stove = sw_text_format(&t->run, t->run.keep, "%s/a.stove.lua", folder);
    if (!write_file(t, drawing, dxf) ||
        !write_file(
            t, stove,
            STOVE_HEAD PIECE("1", "p", "{ outline = from_dxf('plate.dxf', { layer = 'CUT', at = {10*mm, 0*mm} }) }")))
        return;
    const sw_design_input in = {.stove_path = stove};
    const sw_model *model = NULL;
    if (sw_ok(t, sw_design_read(&t->run, &in, &model))) {
        const sw_piece *p = &model->stove->pieces[0];
        sw_near(t, sw_contour_area(p->faces[0].region.outline), 4000.0, 1e-9, "derived: 80 x 50");
        sw_true(t, has_vertex(p, 0, 90.0, 50.0) && edge_of(p, "edge 1") != NULL);
    }
    (void)remove(drawing);
    (void)remove(stove);
    (void)rmdir(folder);
}

static void a_file_that_is_not_there_is_an_io_error(sw_test *t)
{
    const sw_design_input in = {.stove_path = "no/such.stove.lua"};
    const sw_model *model = NULL;
    sw_true(t, sw_design_read(&t->run, &in, &model) == SW_IO && model == NULL);
    sw_contains(t, t->run.errors[0].field, "no/such.stove.lua");
}

/* ---- memory ---- */

static const char everything[] = STOVE_HEAD
    "local w = parameter('w', 200*mm, { min = 100*mm, max = 300*mm }, 'width')\n"
    "piece { number = '1', name = 'p', group = 'g', material = 'S235', thickness = 3*mm, face = { outline = rectangle {w, 100*mm, corner = 2*mm}, holes = { row { hole { at = {60*mm, 50*mm}, d = 5*mm }, step = {10*mm, 0*mm}, count = 3 }, slot { at = {120*mm, 20*mm}, length = 20*mm, width = 5*mm } },\n"
    "  marks = { etch { 'up', at = {70*mm, 70*mm} } }, bends = { { on = 'left', height = 30*mm, corner = 3*mm }, joggle { on = 'top', offset = 5*mm }, { on = 'right', from = 20*mm, height = 30*mm, face = { bends = { hem { on = 'tip', height = 12*mm } } } } } }, place = { at = {0*mm, 0*mm, 0*mm} } }\n"
    "mirror('p', { number = '2', name = 'q', plane = 'x' })\n"
    "item { number = '3', name = 'board', group = 'g', kind = 'board', material = 'vermiculite board', shape = disc { d = 90*mm }, thickness = 20*mm, place = { at = {0*mm, 0*mm, 0*mm}, relative_to = 'q' } }\n"
    "joint { name = 'j', kind = 'tee', a = { 'p', edge = 'bottom' }, b = { 'q' } }\n";

static sw_status read_everything(sw_run *run)
{
    static const char *const settings[] = {"w=210mm"};
    sw_design_texts in = {.stove = {"s", everything, sizeof everything - 1},
                          .works = {"w", works_text, sizeof works_text - 1},
                          .house = {"h", "house { name = 'hill' }", 23},
                          .settings = settings,
                          .setting_count = 1};
    const sw_model *model = NULL;
    sw_status status = sw_design_read_texts(run, &in, &model);
    return status == SW_OK && model == NULL ? SW_INTERNAL : status;
}

static void every_refused_allocation_ends_in_no_memory(sw_test *t)
{
    if (!sw_ok(t, read_everything(&t->run))) return;
    for (int scratch = 0; scratch < 2; scratch++) {
        size_t step = 1;
        for (size_t nth = 1; nth < 100000; nth += step) {
            sw_run run;
            if (!sw_true(t, sw_run_open(&run, (size_t)1 << 24) == SW_OK)) return;
            sw_arena_fail_at(scratch ? run.scratch : run.keep, nth);
            sw_status status = read_everything(&run);
            bool fits =
                status == SW_NO_MEMORY || (status == SW_OK && sw_arena_takes(scratch ? run.scratch : run.keep) < nth);
            sw_run_close(&run);
            if (!sw_true(t, fits)) return;
            if (status == SW_OK) break;
            if (nth > 60) step = 7; /* all of the first ones, then every seventh */
        }
    }
}

static void scratch_is_given_back(sw_test *t)
{
    size_t before = sw_arena_mark(t->run.scratch);
    (void)sw_ok(t, read_everything(&t->run));
    sw_true(t, sw_arena_mark(t->run.scratch) == before);
}

SW_TESTS(SW_CASE(stock_has_price_shape_and_count), SW_CASE(zones_stand_in_the_frame_of_their_sheet),
         SW_CASE(the_laser_keeps_its_rows_and_words), SW_CASE(press_and_rolls_keep_their_figures),
         SW_CASE(three_descriptions_make_one_model), SW_CASE(faults_of_all_files_come_together),
         SW_CASE(an_outline_comes_from_a_drawing_beside_the_description),
         SW_CASE(a_file_that_is_not_there_is_an_io_error), SW_CASE(every_refused_allocation_ends_in_no_memory),
         SW_CASE(scratch_is_given_back))
