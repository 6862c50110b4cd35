/* scene.h: a stove of a few pieces and a works, to be studied and searched for findings. */
#ifndef SW_TESTS_SHEET_SCENE_H
#define SW_TESTS_SHEET_SCENE_H

#include "tree_maker.h"

#include "sw_test.h"

enum { MOST_PIECES = 6 };

typedef struct scene { /* a stove of a few pieces and a works */
    sw_test *t;
    sw_piece pieces[MOST_PIECES];
    sw_joint joints[2];
    sw_stove stove;
    sw_works works;
    sw_stock stock[2];
    double dies[3];
    sw_model model;
    sw_sheet_options opt;
} scene;

static inline scene *new_scene(sw_test *t)
{
    scene *s = sw_keep(&t->run, 1, sizeof *s);
    s->t = t;
    s->stove = (sw_stove){.name = "s", .title = "s", .note = "", .pieces = s->pieces, .joints = s->joints};
    s->stock[0] = (sw_stock){
        .name = "S235 3 large", .grade = &maker_grade, .thickness_mm = 3, .length_mm = 2000, .width_mm = 1000};
    s->stock[1] = (sw_stock){.name = "S235 3 rest",
                             .grade = &maker_grade,
                             .thickness_mm = 3,
                             .length_mm = 600,
                             .width_mm = 400,
                             .remnant = true,
                             .count = 1};
    s->dies[0] = 16;
    s->dies[1] = 24;
    s->dies[2] = 32;
    s->works = (sw_works){.name = "w",
                          .note = "",
                          .currency = "EUR",
                          .stock = s->stock,
                          .stock_count = 2,
                          .press = {.rule = SW_ALLOW_DIN6935, .dies_mm = s->dies, .die_count = 3}};
    s->model = (sw_model){.stove = &s->stove, .works = &s->works, .stove_file = "", .works_file = "", .house_file = ""};
    s->opt = sw_sheet_options_defaults();
    return s;
}

static inline sw_piece *add_piece(scene *s, maker *m)
{
    sw_piece *p = &s->pieces[s->stove.piece_count++];
    *p = m->piece;
    return p;
}

static inline sw_piece *add_plate(scene *s, double w_mm, double h_mm, sw_frame place)
{
    maker *m = maker_new(&s->t->run, 1, 3);
    maker_rectangle(m, "main", w_mm, h_mm);
    for (size_t i = 0; i < 4; i++) maker_add_edge(m, 0, i, 1);
    sw_frame *kept = sw_keep(&s->t->run, 1, sizeof *kept);
    *kept = place;
    sw_piece *p = add_piece(s, m);
    p->placements = kept;
    return p;
}

static inline const sw_sheet_result *solved(scene *s)
{
    const sw_sheet_result *r = NULL;
    sw_ok(s->t, sw_sheet_solve(&s->t->run, &s->model, &s->opt, &r));
    return r;
}

static inline const sw_finding *find(const sw_sheet_result *r, const char *check)
{
    for (size_t i = 0; r != NULL && i < r->findings.count; i++)
        if (strcmp(r->findings.items[i].check, check) == 0) return &r->findings.items[i];
    return NULL;
}

/* Whether the worst finding of the check has the verdict. */
static inline bool judged(scene *s, const sw_sheet_result *r, const char *check, sw_verdict verdict)
{
    const sw_finding *f = find(r, check);
    if (!sw_true(s->t, f != NULL)) return false;
    bool texts = f->what[0] != '\0' && f->where[0] != '\0' && f->source[0] != '\0' &&
                 (f->remedy[0] != '\0') == (f->verdict != SW_HOLDS);
    return sw_same_text(s->t, sw_verdict_name(f->verdict), sw_verdict_name(verdict)) && sw_true(s->t, texts);
}

static const sw_frame standing = {{1, 0, 0}, {0, 0, 1}, {0, -1, 0}, {0, 0, 0}}; /* x right, y up, z to the front */

/* Each allocation of the study fails in turn, more than `least` in either arena: told, never a crash or half an answer. */
static inline void refuses_without_memory(sw_test *t, scene *s, size_t least)
{
    sw_arena *arenas[2] = {t->run.keep, t->run.scratch};
    for (int a = 0; a < 2; a++) {
        size_t nth = 1;
        for (; nth < 20000; nth++) {
            const sw_sheet_result *r = NULL;
            sw_run_clear_errors(&t->run);
            sw_arena_fail_at(arenas[a], nth);
            sw_status status = sw_sheet_solve(&t->run, &s->model, &s->opt, &r);
            sw_arena_fail_at(arenas[a], 0);
            if (status == SW_OK) break;
            if (!sw_true(t, status == SW_NO_MEMORY && r == NULL)) return;
        }
        sw_true(t, nth > least && nth < 20000);
    }
}

#endif
