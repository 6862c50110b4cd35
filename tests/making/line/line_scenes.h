/* line_scenes.h: a works of twelve stations and stoves of made-up pieces, for the tests of the line study. */
#ifndef LINE_SCENES_H
#define LINE_SCENES_H

#include "making/line/line.h"
#include "sw_test.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { SCENE_STATIONS = 14, SCENE_PIECES = 60, SCENE_BODIES = 4, SCENE_STEPS = 12 };

typedef struct scene { /* invented figures */
    sw_works works;
    sw_station stations[SCENE_STATIONS + 1]; /* room for one more */
    sw_line_piece pieces[SCENE_PIECES];
    sw_line_body bodies[SCENE_BODIES];
    sw_line_step steps[SCENE_STEPS];
    sw_line_material materials[4];
    sw_line_figures figures;
    sw_line_input in;
    sw_line_options opt;
} scene;

static inline void scene_stations(scene *s)
{
    static const sw_station stations[] = {
        {.name = "laser", .operation = SW_OP_CUT, .machines = 1, .people = 0, .rate_h = 95, .each_s = 2},
        {.name = "deburring", .operation = SW_OP_DEBURR, .machines = 1, .people = 1, .each_s = 6, .deburr_mm_s = 80},
        {.name = "press brake", .operation = SW_OP_BEND, .machines = 1, .people = 1, .rate_h = 60, .each_s = 8},
        {.name = "rolls", .operation = SW_OP_ROLL, .machines = 1, .people = 1, .rate_h = 50, .each_s = 15},
        {.name = "tacking", .operation = SW_OP_TACK, .machines = 2, .people = 1, .each_s = 30},
        {.name = "robot", .operation = SW_OP_WELD, .machines = 1, .people = 1, .rate_h = 70, .each_s = 60},
        {.name = "leak test", .operation = SW_OP_LEAK, .machines = 1, .people = 1, .each_s = 30},
        {.name = "blasting", .operation = SW_OP_BLAST, .machines = 1, .people = 1, .rate_h = 55, .each_s = 60},
        {.name = "coating", .operation = SW_OP_COAT, .machines = 1, .people = 1, .rate_h = 52, .each_s = 60},
        {.name = "oven", .operation = SW_OP_CURE, .machines = 1, .people = 0, .rate_h = 20, .each_s = 60},
        {.name = "lining", .operation = SW_OP_LINE, .machines = 1, .people = 1},
        {.name = "assembly", .operation = SW_OP_ASSEMBLE, .machines = 2, .people = 1},
        {.name = "test", .operation = SW_OP_TEST, .machines = 1, .people = 1},
        {.name = "packing", .operation = SW_OP_PACK, .machines = 1, .people = 1, .per_kg_s = 1}};
    memcpy(s->stations, stations, sizeof stations);
    s->works = (sw_works){.name = "works", .note = "", .currency = "EUR"};
    s->works.stations = s->stations;
    s->works.station_count = SCENE_STATIONS;
    s->works.labour = (sw_labour){.shift_s = sw_s_from_h(8), .shifts_day = 1, .days_week = 5, .rate_h = 42};
    s->works.labour.overhead = 0.18;
    s->works.labour.wanted_week = 10;
}

static inline void scene_pieces(scene *s, size_t count)
{
    static const char *const names[] = {"plate", "side", "channel", "shell", "strip"};
    static char labels[SCENE_PIECES][24];
    static const char *const sheets[] = {"3 mm", "4 mm", "6 mm"};
    static const char *const dies[] = {"V 16", "V 24"};
    for (size_t i = 0; i < count; i++) {
        sw_line_piece *p = &s->pieces[i];
        (void)snprintf(labels[i], sizeof labels[i], "%s %zu", names[i % 5], i + 1);
        *p = (sw_line_piece){.name = labels[i], .body = i % 2 == 0 ? "furnace" : "casing", .count = 1, .mass_kg = 2};
        p->cut_s = 20 + (double)(i * 7 % 23);
        p->cut_group = sheets[i % 3];
        p->cut_set_up_s = 300;
        p->edge_mm = 800;
        if (i % 5 == 1 || i % 5 == 2) p->bend_s = 40 + (double)(i % 7) * 10;
        p->bend_group = dies[i % 2];
        p->bend_set_up_s = 600;
        if (i % 5 == 3) p->roll_s = 90;
        p->roll_group = "radius 180";
        p->roll_set_up_s = 420;
    }
    s->figures.pieces = s->pieces;
    s->figures.piece_count = count;
}

static inline void scene_bodies(scene *s)
{
    s->bodies[0] = (sw_line_body){.name = "furnace", .into = "", .mass_kg = 55, .tack_s = 900, .weld_s = 720};
    s->bodies[0].weld_set_up_s = 300;
    s->bodies[0].weld_unattended = 0.6;
    s->bodies[0].leak_s = 300;
    s->bodies[0].blast_s = 900;
    s->bodies[0].coat_s = 420;
    s->bodies[0].coat_group = "black";
    s->bodies[0].coat_set_up_s = 600;
    s->bodies[0].dry_s = 1800;
    s->bodies[0].cure_s = 3600;
    s->bodies[0].cure_together = 4;
    s->bodies[1] = s->bodies[0];
    s->bodies[1].name = "casing";
    s->bodies[1].into = "furnace";
    s->bodies[1].leak_s = 0;
    s->bodies[1].weld_s = 400;
    s->figures.bodies = s->bodies;
    s->figures.body_count = 2;
    static const sw_line_step steps[] = {
        {"line furnace", "furnace", SW_OP_LINE, 600, ""},          {"glaze door", "", SW_OP_ASSEMBLE, 400, ""},
        {"fit door", "", SW_OP_ASSEMBLE, 500, "glaze door"},       {"fit grate", "", SW_OP_ASSEMBLE, 200, ""},
        {"look over", "", SW_OP_TEST, 300, "fit door, fit grate"}, {"pack", "", SW_OP_PACK, 420, "look over"}};
    memcpy(s->steps, steps, sizeof steps);
    s->figures.steps = s->steps;
    s->figures.step_count = sizeof steps / sizeof *steps;
}

static inline void scene_materials(scene *s)
{
    s->materials[0] = (sw_line_material){"sheet 4 mm", SW_MONEY_SHEET, 60, "kg", 75, 4};
    s->materials[1] = (sw_line_material){"sheet 3 mm", SW_MONEY_SHEET, 20, "kg", 25, 1};
    s->materials[2] = (sw_line_material){"glass", SW_MONEY_ITEM, 1, "", 38, 0};
    s->materials[3] = (sw_line_material){"wire and gas", SW_MONEY_CONSUMABLE, 1, "", 6.5, 0};
    s->in.materials = s->materials;
    s->in.material_count = 4;
}

/* `pieces` pieces, `batch` stoves, all tasks by the builder. */
static inline scene *scene_make(sw_test *t, size_t pieces, size_t batch)
{
    scene *s = SW_KEEP(&t->run, 1, scene);
    scene_stations(s);
    scene_pieces(s, pieces);
    scene_bodies(s);
    s->figures.works = &s->works;
    s->in = (sw_line_input){.name = "stove", .works = &s->works, .batch = batch};
    scene_materials(s);
    s->opt = sw_line_options_defaults();
    sw_ok(t, sw_line_tasks_make(&t->run, &s->figures, &s->in.tasks, &s->in.task_count));
    return s;
}

static inline const sw_line_result *scene_solved(sw_test *t, const scene *s)
{
    const sw_line_result *r = NULL;
    sw_ok(t, sw_line_solve(&t->run, &s->in, &s->opt, &r));
    return r;
}

static inline const sw_finding *scene_finding(const sw_line_result *r, const char *check, const char *where)
{
    for (size_t i = 0; i < r->findings.count; i++)
        if (strcmp(r->findings.items[i].check, check) == 0 && strcmp(r->findings.items[i].where, where) == 0)
            return &r->findings.items[i];
    return NULL;
}

#endif
