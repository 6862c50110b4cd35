/* scene_maker.h: stoves of plain plates and boards for tests of heat. */
#ifndef SW_TESTS_SCENE_MAKER_H
#define SW_TESTS_SCENE_MAKER_H

#include "burning/heat/heat.h"
#include "sw_test.h"

#include <math.h>
#include <string.h>

enum { MAKER_PIECES = 24, MAKER_ITEMS = 12 };

typedef struct scene_maker {
    sw_test *t;
    sw_piece pieces[MAKER_PIECES];
    sw_face faces[MAKER_PIECES];
    sw_frame places[MAKER_PIECES + MAKER_ITEMS];
    sw_item items[MAKER_ITEMS];
    sw_joint joints[4];
    sw_stove stove;
    sw_sheet_result sheet;
} scene_maker;

static const sw_grade maker_steel = {.name = "S235", .kind = SW_STEEL, .density = 7850.0};

static inline scene_maker *scene_maker_new(sw_test *t)
{
    scene_maker *m = sw_keep(&t->run, 1, sizeof *m);
    m->t = t;
    m->stove =
        (sw_stove){.name = "t", .title = "t", .note = "", .pieces = m->pieces, .items = m->items, .joints = m->joints};
    return m;
}

static inline sw_contour maker_rectangle(scene_maker *m, double w_mm, double h_mm)
{
    sw_contour c = {0};
    sw_ok(m->t, sw_contour_rectangle(&m->t->run, (sw_box){0, 0, w_mm, h_mm}, 0.0, &c));
    return c;
}

/* Axes along world directions: x along 'x', 'y' or 'z' with z = x cross y. */
static inline sw_vec3 maker_axis(char axis)
{
    return (sw_vec3){axis == 'x', axis == 'y', axis == 'z'};
}

static inline sw_frame maker_frame(double x_mm, double y_mm, double z_mm, char x, char y)
{
    sw_vec3 a = maker_axis(x), b = maker_axis(y);
    return (sw_frame){a, b, sw_vec3_cross(a, b), {x_mm, y_mm, z_mm}};
}

/* A flat plate, its middle surface in the frame's plane, lower left corner at the origin. */
static inline sw_piece *maker_plate(scene_maker *m, const char *name, const char *role, double w_mm, double h_mm,
                                    double thickness_mm, sw_frame place)
{
    size_t i = m->stove.piece_count++;
    m->faces[i] = (sw_face){.name = "main", .region.outline = maker_rectangle(m, w_mm, h_mm)};
    m->places[i] = place;
    m->pieces[i] = (sw_piece){.number = name,
                              .name = name,
                              .group = "g",
                              .role = role,
                              .grade = &maker_steel,
                              .thickness_mm = thickness_mm,
                              .faces = &m->faces[i],
                              .face_count = 1,
                              .placements = &m->places[i],
                              .count = 1,
                              .mirror_of = -1};
    return &m->pieces[i];
}

static inline sw_item *maker_board(scene_maker *m, const char *name, const char *role, double w_mm, double h_mm,
                                   double thickness_mm, sw_frame place)
{
    size_t i = m->stove.item_count++;
    m->places[MAKER_PIECES + i] = place;
    m->items[i] = (sw_item){.number = name,
                            .name = name,
                            .group = "g",
                            .role = role,
                            .material = "vermiculite board",
                            .kind = SW_ITEM_BOARD,
                            .mass_kg = 1.0,
                            .shape.outline = maker_rectangle(m, w_mm, h_mm),
                            .thickness_mm = thickness_mm,
                            .placements = &m->places[MAKER_PIECES + i],
                            .count = 1};
    return &m->items[i];
}

/* Six plates round a clear space of w x d x h from (x, y, z); plates lie outside of it, corners closed. */
static inline void maker_box(scene_maker *m, const char *role, sw_vec3 low, sw_vec3 size, double s_mm)
{
    double x = low.x_mm, y = low.y_mm, z = low.z_mm, w = size.x_mm, d = size.y_mm, h = size.z_mm, e = s_mm / 2.0;
    maker_plate(m, "front", role, w, h, s_mm, maker_frame(x, y - e, z, 'x', 'z'));
    maker_plate(m, "back", role, w, h, s_mm, maker_frame(x, y + d + e, z, 'x', 'z'));
    maker_plate(m, "left", role, d + 2 * s_mm, h, s_mm, maker_frame(x - e, y - s_mm, z, 'y', 'z'));
    maker_plate(m, "right", role, d + 2 * s_mm, h, s_mm, maker_frame(x + w + e, y - s_mm, z, 'y', 'z'));
    maker_plate(m, "floor", role, w + 2 * s_mm, d + 2 * s_mm, s_mm, maker_frame(x - s_mm, y - s_mm, z - e, 'x', 'y'));
    maker_plate(m, "roof", role, w + 2 * s_mm, d + 2 * s_mm, s_mm,
                maker_frame(x - s_mm, y - s_mm, z + h + e, 'x', 'y'));
}

/* Folds and unfolds all pieces; joints have length 0.1 m. */
static inline void maker_fold(scene_maker *m)
{
    sw_run *run = &m->t->run;
    sw_sheet_options opt = sw_sheet_options_defaults();
    sw_sheet_piece *out = SW_KEEP(run, m->stove.piece_count + 1, sw_sheet_piece);
    sw_joint_fit *fits = SW_KEEP(run, m->stove.joint_count + 1, sw_joint_fit);
    for (size_t i = 0; i < m->stove.piece_count; i++) {
        out[i].piece = &m->pieces[i];
        sw_ok(m->t, sw_sheet_fold(run, &m->pieces[i], &opt, &out[i].solid));
        sw_ok(m->t, sw_sheet_unfold(run, &m->pieces[i], NULL, &out[i].flat));
        out[i].mass_kg = sw_sheet_mass_kg(7850.0, out[i].solid.mid_area_mm2, m->pieces[i].thickness_mm);
    }
    for (size_t i = 0; i < m->stove.joint_count; i++)
        fits[i] = (sw_joint_fit){.joint = &m->joints[i], .length_mm = 100.0};
    m->sheet = (sw_sheet_result){
        .pieces = out, .piece_count = m->stove.piece_count, .joints = fits, .joint_count = m->stove.joint_count};
}

static inline const sw_scene *maker_scene(scene_maker *m, const sw_scene_options *opt)
{
    const sw_scene *scene = NULL;
    maker_fold(m);
    sw_ok(m->t, sw_scene_make(&m->t->run, &m->stove, &m->sheet, opt, &scene));
    return scene;
}

/* ---- asking a scene ---- */

static inline size_t scene_part_named(const sw_scene *s, const char *name)
{
    for (size_t i = 0; i < s->part_count; i++)
        if (strcmp(s->parts[i].name, name) == 0) return i;
    return SIZE_MAX;
}

/* Surface of the part before the medium; either side. SIZE_MAX = none. */
static inline size_t scene_surface_at(const sw_scene *s, size_t part, sw_medium medium)
{
    for (size_t i = 0; i < s->surface_count; i++)
        if (s->surfaces[i].part == part && s->surfaces[i].medium == medium) return i;
    return SIZE_MAX;
}

static inline double scene_area(const sw_scene *s, size_t part, sw_medium medium)
{
    double sum = 0.0;
    for (size_t i = 0; i < s->surface_count; i++)
        if (s->surfaces[i].part == part && s->surfaces[i].medium == medium) sum += s->surfaces[i].area_m2;
    return sum;
}

static inline double scene_view(const sw_scene *s, size_t from, size_t to) /* F_ij */
{
    return s->view_m2[from * (s->surface_count + 1) + to] / s->surfaces[from].area_m2;
}

static inline bool scene_finds(const sw_scene *s, const char *check)
{
    for (size_t i = 0; i < s->findings.count; i++)
        if (strcmp(s->findings.items[i].check, check) == 0) return true;
    return false;
}

#endif
