/* fit_scene.h: a few plates and brackets with joints, and a works of stated capability. */
#ifndef SW_TESTS_FIT_SCENE_H
#define SW_TESTS_FIT_SCENE_H

#include "making/fit/fit.h"
#include "making/sheet/tree_maker.h"
#include "sw_test.h"

enum { SCENE_PIECES = 6, SCENE_JOINTS = 6 };

typedef struct scene {
    sw_test *t;
    sw_piece pieces[SCENE_PIECES];
    sw_joint joints[SCENE_JOINTS];
    sw_stove stove;
    sw_works works;
    sw_model model;
    sw_fit_options opt;
    const sw_sheet_result *sheet;
} scene;

/* Every sigma so small that what a test does not set plays no part. */
static inline scene *scene_new(sw_test *t)
{
    scene *s = SW_KEEP(&t->run, 1, scene);
    s->t = t;
    s->stove = (sw_stove){.name = "s", .title = "s", .note = "", .pieces = s->pieces, .joints = s->joints};
    s->works = (sw_works){.name = "w", .note = "", .currency = "EUR"};
    s->works.press.angle_sigma_rad = s->works.press.line_sigma_mm = 1e-9;
    s->works.rolls.radius_sigma = s->works.welding.place_sigma_mm = s->works.cut_sigma_mm = 1e-9;
    s->model = (sw_model){.stove = &s->stove, .works = &s->works, .stove_file = "", .works_file = "", .house_file = ""};
    s->opt = sw_fit_options_defaults();
    return s;
}

static inline sw_piece *scene_add(scene *s, const maker *m, sw_frame place)
{
    sw_frame *kept = SW_KEEP(&s->t->run, 1, sw_frame);
    *kept = place;
    sw_piece *p = &s->pieces[s->stove.piece_count++];
    *p = m->piece;
    p->number = sw_text_format(&s->t->run, s->t->run.keep, "T-%02zu", s->stove.piece_count);
    p->placements = kept;
    return p;
}

/* A rectangle w x h with its four edges, bottom right top left, lower left corner at the place. */
static inline maker *scene_plate(scene *s, double w_mm, double h_mm)
{
    static const char *const names[] = {"bottom", "right", "top", "left"};
    maker *m = maker_new(&s->t->run, 1, 3);
    maker_rectangle(m, "main", w_mm, h_mm);
    for (size_t i = 0; i < 4; i++) {
        maker_add_edge(m, 0, i, 1);
        m->edges[i].name = names[i];
    }
    return m;
}

static inline sw_frame scene_at(double x_mm, double y_mm, double z_mm)
{
    return (sw_frame){{1, 0, 0}, {0, 1, 0}, {0, 0, 1}, {x_mm, y_mm, z_mm}};
}

static inline sw_joint *scene_join(scene *s, sw_joint_kind kind, sw_joint_end a, sw_joint_end b, double gap_max_mm)
{
    sw_joint *j = &s->joints[s->stove.joint_count++];
    *j = (sw_joint){.kind = kind, .seam = SW_SEAM_NONE, .a = a, .b = b, .gap_max_mm = gap_max_mm};
    j->name = sw_text_format(&s->t->run, s->t->run.keep, "joint %zu", s->stove.joint_count);
    return j;
}

static inline sw_status scene_solve(scene *s, const sw_fit_result **r)
{
    sw_sheet_options folding = sw_sheet_options_defaults();
    if (s->sheet == NULL) SW_TRY(sw_sheet_solve(&s->t->run, &s->model, &folding, &s->sheet));
    return sw_fit_solve(&s->t->run, &(sw_fit_input){.model = &s->model, .sheet = s->sheet, .batch = 20}, &s->opt, r);
}

static inline const sw_fit_result *scene_solved(scene *s)
{
    const sw_fit_result *r = NULL;
    sw_ok(s->t, scene_solve(s, &r));
    return r;
}

static inline const sw_finding *scene_find(const sw_fit_result *r, const char *check, const char *where)
{
    for (size_t i = 0; r != NULL && i < r->findings.count; i++)
        if (strcmp(r->findings.items[i].check, check) == 0 && strcmp(r->findings.items[i].where, where) == 0)
            return &r->findings.items[i];
    return NULL;
}

#endif
