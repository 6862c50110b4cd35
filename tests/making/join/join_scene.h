/* join_scene.h: plates welded together, in a works with a hand and a robot station. */
#ifndef SW_TESTS_JOIN_SCENE_H
#define SW_TESTS_JOIN_SCENE_H

#include "making/join/join.h"
#include "making/sheet/scene.h"

#include <math.h>
#include <string.h>

enum { MOST_JOINTS = 8 };

typedef struct welded {
    scene *s;
    sw_joint joints[MOST_JOINTS];
    sw_weld_row rows[2];
    sw_join_options opt;
    const sw_sheet_result *sheet;
} welded;

static const sw_frame lying = {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}, {0, 0, 0}};

/* A nozzle alone; what carries it is not judged. */
static const sw_torch straight_torch = {.nozzle_radius_mm = 10, .nozzle_long_mm = 120};

static inline sw_frame at(sw_frame f, double x_mm, double y_mm, double z_mm)
{
    f.origin = (sw_vec3){x_mm, y_mm, z_mm};
    return f;
}

static inline welded *new_welded(sw_test *t)
{
    welded *w = sw_keep(&t->run, 1, sizeof *w);
    w->s = new_scene(t);
    w->s->stove.joints = w->joints;
    w->opt = sw_join_options_defaults();
    w->rows[0] = (sw_weld_row){.throat_mm = 2,
                               .wire_mm = 1.0,
                               .feed_m_s = 0.08,
                               .volts = 19,
                               .amps = 115,
                               .gas_m3_s = 0.0002,
                               .hand_mm_s = 8,
                               .robot_mm_s = 10};
    w->s->works.welding = (sw_welding){.rows = w->rows,
                                       .row_count = 1,
                                       .process = "135",
                                       .wire_price_kg = 2,
                                       .gas_price_m3 = 6,
                                       .power_price_j = 8e-8,
                                       .hand_share = 0.28,
                                       .tack_s = 6,
                                       .tack_mm = 12,
                                       .robot = true,
                                       .robot_air_mm_s = 400,
                                       .robot_start_s = 1.5,
                                       .turn_s = 4,
                                       .hand_torch = straight_torch,
                                       .robot_torch = straight_torch,
                                       .robot_load_kg = 250,
                                       .reach_mm = 1400,
                                       .fixture_s = 20,
                                       .hand_rate_h = 50,
                                       .robot_rate_h = 58,
                                       .gap_bridged = 0.3};
    return w;
}

/* A plate with its own name; edges 0 to 3: bottom, right, top, left. */
static inline int plate(welded *w, const char *name, double w_mm, double h_mm, sw_frame place)
{
    sw_piece *p = add_plate(w->s, w_mm, h_mm, place);
    p->name = name;
    p->number = name;
    return (int)w->s->stove.piece_count - 1;
}

static inline sw_joint *fillet(welded *w, const char *name, int a, int edge, int b)
{
    sw_joint *j = &w->joints[w->s->stove.joint_count++];
    *j = (sw_joint){.name = name,
                    .kind = SW_JOINT_TEE,
                    .seam = SW_SEAM_FILLET,
                    .a = {a, 0, edge, -1},
                    .b = {b, 0, -1, 0},
                    .throat_mm = 2,
                    .gap_max_mm = 0.5,
                    .tight = true};
    return j;
}

static inline sw_status weld(welded *w, const sw_join_result **r)
{
    sw_run *run = &w->s->t->run;
    if (w->sheet == NULL) SW_TRY(sw_sheet_solve(run, &w->s->model, &w->s->opt, &w->sheet));
    return sw_join_solve(run, &(sw_join_input){&w->s->stove, w->s->model.works, w->sheet}, &w->opt, r);
}

static inline const sw_join_result *welded_up(welded *w)
{
    const sw_join_result *r = NULL;
    sw_ok(w->s->t, weld(w, &r));
    return r;
}

/* The worst finding of a check; NULL = none. */
static inline const sw_finding *found(const sw_join_result *r, const char *check)
{
    for (size_t i = 0; r != NULL && i < r->findings.count; i++)
        if (strcmp(r->findings.items[i].check, check) == 0) return &r->findings.items[i];
    return NULL;
}

static inline bool says(sw_test *t, const sw_join_result *r, const char *check, sw_verdict verdict)
{
    const sw_finding *f = found(r, check);
    if (!sw_true(t, f != NULL)) return false;
    sw_true(t, f->what[0] != '\0' && f->where[0] != '\0' && f->source[0] != '\0');
    sw_true(t, verdict == SW_HOLDS || f->remedy[0] != '\0');
    return sw_same_text(t, sw_verdict_name(f->verdict), sw_verdict_name(verdict));
}

/* A 3 mm plate of 400 x 300 with another of 300 x 100 standing on it: one seam of 300 mm. */
static inline welded *tee(sw_test *t)
{
    welded *w = new_welded(t);
    int base = plate(w, "base", 400, 300, lying), wall = plate(w, "wall", 300, 100, at(standing, 50, 150, 1.5));
    (void)fillet(w, "wall on base", wall, 0, base);
    return w;
}

#endif
