/* bench_form.c: the order of ten bend lines found, and not to be found; whole stoves where files are named.
 * Arguments: WORKS STOVE... (none: the demo's stove (a)). Target: a search below 50 ms a piece of up to ten lines; a
 * stove stays below it when all its pieces together do. Figures are one machine's. */
#include "../tests/making/sheet/tree_maker.h"
#include "bench_target.h"
#include "design/design.h"
#include "making/form/form.h"

#include <stdio.h>

enum { ROUNDS = 5 };

static const double target_ms = 50;

static const double dies[] = {12, 16, 20, 25, 32, 40};

static sw_works works_of(void)
{
    sw_works w = {.name = "w", .note = "", .currency = "EUR"};
    w.press = (sw_press){.dies_mm = dies, .die_count = 6, .length_mm = 2500, .force_n = 1e6, .punch_radius_mm = 1};
    w.press.punch_body_mm = 16;
    w.press.punch_high_mm = 160;
    w.press.neck_mm = 45;
    w.press.die_block_mm = 6;
    w.press.die_high_mm = 100;
    w.press.beam_mm = 80;
    w.press.gauge_most_mm = 700;
    return w;
}

static int flange(maker *m, int parent, size_t segment, double short_mm, double depth_mm, double angle_rad)
{
    sw_contour c = m->faces[parent].region.outline;
    sw_vertex a = c.v[segment], b = c.v[(segment + 1) % c.n];
    double w_mm = hypot(b.x_mm - a.x_mm, b.y_mm - a.y_mm);
    maker_bend(m, parent, segment, short_mm, w_mm - short_mm)->angle_rad = angle_rad;
    return maker_rectangle(m, "flange", w_mm - 2 * short_mm, depth_mm);
}

/* A tray of four walls, each with a lip, two lips with an edge of their own: ten lines. Lips inward need
 * a punch with horns: no order. */
static maker *ten_lines(sw_run *run, double wall_mm, double lip_rad)
{
    maker *m = maker_new(run, 1, 2);
    int base = maker_rectangle(m, "base", 400, 460);
    for (size_t i = 0; i < 4; i++) {
        int wall = flange(m, base, i, 0, wall_mm, SW_PI / 2);
        int lip = flange(m, wall, 2, 30, 20, lip_rad);
        if (i % 2 == 0) (void)flange(m, lip, 2, 0, 20, lip_rad);
    }
    return m;
}

static sw_status time_piece(sw_run *run, const char *what, const maker *m)
{
    sw_works works = works_of();
    sw_stove stove = {.name = "s", .title = "", .note = "", .pieces = &m->piece, .piece_count = 1};
    sw_model model = {.stove = &stove, .works = &works, .stove_file = "", .works_file = "", .house_file = ""};
    sw_sheet_options sheet_options = sw_sheet_options_defaults();
    sw_form_options options = sw_form_options_defaults();
    const sw_sheet_result *sheet = NULL;
    const sw_form_result *r = NULL;
    double best_s = INFINITY;
    SW_TRY(sw_sheet_solve(run, &model, &sheet_options, &sheet));
    for (int i = 0; i < ROUNDS; i++) {
        double start_s = sw_seconds();
        SW_TRY(sw_form_solve(run, &(sw_form_input){&model, sheet, NULL}, &options, &r));
        best_s = fmin(best_s, sw_seconds() - start_s);
    }
    const sw_form_piece *p = &r->pieces[0];
    printf("%-36s %2zu lines, %s, %2zu set-ups, %5zu strokes looked at, %8.2f ms, target %.0f, %s\n", what,
           p->line_count, p->bendable ? "order found" : "no order", p->dies, p->looked, best_s * 1e3, target_ms,
           best_s * 1e3 < target_ms ? "met" : "not told by the sum of its pieces");
    return SW_OK;
}

static sw_status time_stove(sw_run *run, const char *works_path, const char *stove_path)
{
    const sw_model *model = NULL;
    const sw_sheet_result *sheet = NULL;
    const sw_form_fit_result *fit = NULL;
    const sw_form_result *r = NULL;
    sw_sheet_options sheet_options = sw_sheet_options_defaults();
    sw_form_options options = sw_form_options_defaults();
    double best_s = INFINITY;
    SW_TRY(sw_design_read(run, &(sw_design_input){.stove_path = stove_path, .works_path = works_path}, &model));
    SW_TRY(sw_form_fit(run, model->works, &fit));
    SW_TRY(sw_sheet_solve(run, model, &sheet_options, &sheet));
    for (int i = 0; i < ROUNDS; i++) {
        double start_s = sw_seconds();
        SW_TRY(sw_form_solve(run, &(sw_form_input){model, sheet, fit}, &options, &r));
        best_s = fmin(best_s, sw_seconds() - start_s);
    }
    size_t bent = 0, blocked = 0, set_ups = 0;
    for (size_t i = 0; i < r->piece_count; i++) {
        bent += r->pieces[i].piece->bend_count > 0;
        blocked += !r->pieces[i].bendable;
        set_ups += r->pieces[i].dies;
    }
    printf("%-36s %2zu pieces bent, %zu without an order, %zu set-ups, %8.2f ms, target %.0f a piece, %s\n",
           model->stove->name, bent, blocked, set_ups, best_s * 1e3, target_ms, target_met(best_s * 1e3, target_ms));
    return SW_OK;
}

int main(int argc, char **argv)
{
    sw_run run;
    if (sw_run_open(&run, (size_t)1 << 30) != SW_OK) return 3;
    sw_status status = time_piece(&run, "tray, lips outward", ten_lines(&run, 60, -SW_PI / 2));
    if (status == SW_OK) status = time_piece(&run, "tray, lips inward", ten_lines(&run, 60, SW_PI / 2));
    if (argc < 3 && status == SW_OK)
        status = time_stove(&run, SW_SOURCE_DIR "/demo/demo.works.lua", SW_SOURCE_DIR "/demo/a.stove.lua");
    for (int i = 2; i < argc && status == SW_OK; i++) status = time_stove(&run, argv[1], argv[i]);
    for (size_t i = 0; i < run.error_count && i < 3; i++) fprintf(stderr, "%s\n", run.errors[i].text);
    sw_run_close(&run);
    return status == SW_OK ? 0 : 3;
}
