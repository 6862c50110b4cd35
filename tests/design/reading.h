/* reading.h: short texts read as descriptions, for the tests of this folder. */
#ifndef READING_H
#define READING_H

#include "design/design.h"
#include "sw_test.h"

#include <math.h>
#include <string.h>

#define STOVE_HEAD                                                                                                     \
    "stove { name = 'a', duty = { output = 7*kW, refuel = 45*min, efficiency = 0.8 } }\n"                              \
    "group('g', { title = 'G' })\n"

/* A piece of 3 mm S235 called NAME with the face given. */
#define PIECE(number, name, face)                                                                                      \
    "piece { number = '" number "', name = '" name "', group = 'g', material = 'S235', thickness = 3*mm,\n"            \
    "  face = " face ",\n  place = { at = {0*mm, 0*mm, 0*mm}, x = 'right', y = 'back' } }\n"

static inline sw_status read_status(sw_test *t, const char *stove, const char *works, const sw_model **model)
{
    sw_design_texts in = {.stove = {stove == NULL ? NULL : "test.stove.lua", stove, stove == NULL ? 0 : strlen(stove)},
                          .works = {works == NULL ? NULL : "test.works.lua", works, works == NULL ? 0 : strlen(works)}};
    sw_run_clear_errors(&t->run);
    return sw_design_read_texts(&t->run, &in, model);
}

/* The stove read from STOVE_HEAD and the text; NULL after a reported failure. */
static inline const sw_stove *read_stove(sw_test *t, const char *text)
{
    const sw_model *model = NULL;
    const char *whole = sw_text_format(&t->run, t->run.keep, "%s%s", STOVE_HEAD, text);
    if (!sw_ok(t, read_status(t, whole, NULL, &model))) return NULL;
    return model->stove;
}

/* The only piece of a stove whose face is given. */
static inline const sw_piece *read_face_of(sw_test *t, const char *face)
{
    const char *text =
        sw_text_format(&t->run, t->run.keep,
                       "piece { number = 'P', name = 'p', group = 'g', material = 'S235', thickness = 3*mm, face = %s, "
                       "place = { at = {0*mm, 0*mm, 0*mm}, x = 'right', y = 'back' } }",
                       face);
    const sw_stove *stove = read_stove(t, text);
    return stove == NULL || stove->piece_count == 0 ? NULL : &stove->pieces[0];
}

/* The message of the first error of a text after STOVE_HEAD (2 lines); "" when there is none. */
static inline const char *first_error(sw_test *t, const char *text, int *line)
{
    const sw_model *model = NULL;
    (void)read_status(t, sw_text_format(&t->run, t->run.keep, "%s%s", STOVE_HEAD, text), NULL, &model);
    if (!sw_true(t, t->run.error_count > 0 && model == NULL)) return "";
    if (line != NULL) *line = t->run.errors[0].place.line;
    return t->run.errors[0].text;
}

static inline sw_point vertex(const sw_piece *p, size_t face, size_t i)
{
    sw_vertex v = p->faces[face].region.outline.v[i];
    return (sw_point){v.x_mm, v.y_mm};
}

/* Whether face has a vertex at (x, y). */
static inline bool has_vertex(const sw_piece *p, size_t face, double x_mm, double y_mm)
{
    for (size_t i = 0; i < p->faces[face].region.outline.n; i++) {
        sw_point v = vertex(p, face, i);
        if (fabs(v.x_mm - x_mm) < 1e-6 && fabs(v.y_mm - y_mm) < 1e-6) return true;
    }
    return false;
}

static inline const sw_edge *edge_of(const sw_piece *p, const char *name)
{
    for (size_t i = 0; i < p->edge_count; i++)
        if (strcmp(p->edges[i].name, name) == 0) return &p->edges[i];
    return NULL;
}

/* Frame of every face in the piece's own frame, folded about the mid-surface: written here a second time, so that
 * the tests do not lean on the study that folds. frames[face_count] */
static inline void fold(const sw_piece *p, sw_frame *frames)
{
    frames[0] = sw_frame_world();
    for (size_t i = 0; i < p->bend_count; i++) {
        const sw_bend *b = &p->bends[i];
        double w = hypot(b->to.x_mm - b->from.x_mm, b->to.y_mm - b->from.y_mm), a = fabs(b->angle_rad);
        double side = b->angle_rad < 0.0 ? -1.0 : 1.0, r_mm = b->radius_mm + p->thickness_mm / 2.0;
        sw_vec3 along = {(b->to.x_mm - b->from.x_mm) / w, (b->to.y_mm - b->from.y_mm) / w, 0.0};
        sw_vec3 out = {along.y_mm, -along.x_mm, 0.0}, up = {0.0, 0.0, side};
        sw_frame f = {.x = sw_vec3_scaled(along, -1.0)};
        f.y = sw_vec3_add(sw_vec3_scaled(out, cos(a)), sw_vec3_scaled(up, sin(a)));
        f.z = sw_vec3_cross(f.x, f.y);
        f.origin =
            sw_vec3_add((sw_vec3){b->to.x_mm, b->to.y_mm, 0.0},
                        sw_vec3_add(sw_vec3_scaled(out, r_mm * sin(a)), sw_vec3_scaled(up, r_mm * (1.0 - cos(a)))));
        frames[b->child] = sw_frame_in(frames[b->parent], f);
    }
}

#endif
