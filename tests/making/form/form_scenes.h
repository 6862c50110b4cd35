/* form_scenes.h: pieces of a few faces and a works for the tests of the bending study. */
#ifndef FORM_SCENES_H
#define FORM_SCENES_H

#include "../sheet/tree_maker.h"

#include "making/form/form.h"
#include "sw_test.h"

enum { SCENE_PIECES = 4 };

typedef struct form_scene {
    sw_test *t;
    sw_piece pieces[SCENE_PIECES];
    sw_stove stove;
    sw_works works;
    double dies[6];
    sw_model model;
    sw_form_options opt;
    const sw_sheet_result *sheet;
    const sw_form_fit_result *fit;
} form_scene;

/* A press of 2.5 m and 1000 kN with slim dies, and rolls; punch body 20 mm. */
static inline form_scene *scene_new(sw_test *t)
{
    form_scene *s = SW_KEEP(&t->run, 1, form_scene);
    s->t = t;
    const double dies[] = {12, 16, 20, 25, 32, 40};
    memcpy(s->dies, dies, sizeof dies);
    s->stove = (sw_stove){.name = "s", .title = "s", .note = "", .pieces = s->pieces};
    s->works = (sw_works){.name = "w", .note = "", .currency = "EUR"};
    s->works.press = (sw_press){.dies_mm = s->dies, .die_count = 6, .length_mm = 2500, .force_n = 1e6};
    s->works.press.punch_radius_mm = 1;
    s->works.press.punch_body_mm = 20;
    s->works.press.punch_high_mm = 160;
    s->works.press.die_block_mm = 6;
    s->works.press.die_high_mm = 100;
    s->works.press.beam_mm = 80;
    s->works.press.gauge_least_mm = 5;
    s->works.press.gauge_most_mm = 700;
    s->works.press.bend_s = 14;
    s->works.press.turn_s = 8;
    s->works.press.gauge_s = 10;
    s->works.press.setup_s = 720;
    s->works.press.rate_h = 52;
    s->works.rolls = (sw_rolls){.length_mm = 1250, .top_radius_mm = 45, .lower_radius_mm = 45, .centres_mm = 130};
    s->works.rolls.flat_end_s = 2;
    s->works.rolls.force_n = 9e4;
    s->works.rolls.pass_mm_s = 60;
    s->works.rolls.setup_s = 300;
    s->works.rolls.rate_h = 40;
    s->model = (sw_model){.stove = &s->stove, .works = &s->works, .stove_file = "", .works_file = "", .house_file = ""};
    s->opt = sw_form_options_defaults();
    return s;
}

static inline void scene_add(form_scene *s, const maker *m)
{
    s->pieces[s->stove.piece_count++] = m->piece;
}

static inline sw_status scene_solve(form_scene *s, const sw_form_result **r)
{
    sw_sheet_options opt = sw_sheet_options_defaults();
    sw_ok(s->t, sw_sheet_solve(&s->t->run, &s->model, &opt, &s->sheet));
    sw_run_clear_errors(&s->t->run);
    return sw_form_solve(&s->t->run, &(sw_form_input){&s->model, s->sheet, s->fit}, &s->opt, r);
}

static inline const sw_form_result *scene_solved(form_scene *s)
{
    const sw_form_result *r = NULL;
    sw_ok(s->t, scene_solve(s, &r));
    return r;
}

static inline const sw_finding *scene_finding(const sw_form_result *r, const char *check)
{
    for (size_t i = 0; r != NULL && i < r->findings.count; i++)
        if (strcmp(r->findings.items[i].check, check) == 0) return &r->findings.items[i];
    return NULL;
}

static inline bool scene_judged(form_scene *s, const sw_form_result *r, const char *check, sw_verdict verdict)
{
    const sw_finding *f = scene_finding(r, check);
    if (!sw_true(s->t, f != NULL)) return false;
    bool texts = f->what[0] != '\0' && f->where[0] != '\0' && f->source[0] != '\0' &&
                 (f->remedy[0] != '\0') == (f->verdict != SW_HOLDS);
    return sw_same_text(s->t, sw_verdict_name(f->verdict), sw_verdict_name(verdict)) && sw_true(s->t, texts);
}

/* A flange on a whole segment of a face; depth of its flat part. Gives the child face. */
static inline int scene_flange(maker *m, int parent, size_t segment, double depth_mm, double angle_rad)
{
    sw_contour c = m->faces[parent].region.outline;
    sw_vertex a = c.v[segment], b = c.v[(segment + 1) % c.n];
    double w_mm = hypot(b.x_mm - a.x_mm, b.y_mm - a.y_mm);
    sw_bend *bend = maker_bend(m, parent, segment, 0, w_mm);
    bend->angle_rad = angle_rad;
    bend->name = "flange";
    return maker_rectangle(m, "flange", w_mm, depth_mm);
}

/* Channel of base w and flanges h to the mid-lines, both up. */
static inline maker *scene_channel(sw_test *t, double base_mm, double flange_mm, double long_mm, double s_mm,
                                   double r_mm)
{
    maker *m = maker_new(&t->run, 1, s_mm);
    double out_mm = r_mm + s_mm / 2;
    int main_face = maker_rectangle(m, "base", base_mm - 2 * out_mm, long_mm);
    (void)scene_flange(m, main_face, 1, flange_mm - out_mm, SW_PI / 2);
    (void)scene_flange(m, main_face, 3, flange_mm - out_mm, SW_PI / 2);
    m->bends[0].name = "right flange";
    m->bends[1].name = "left flange";
    m->bends[0].radius_mm = m->bends[1].radius_mm = r_mm;
    return m;
}

#endif
