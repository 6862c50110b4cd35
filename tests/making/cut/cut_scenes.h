/* cut_scenes.h: sheets for the tests of the cut study, and what must hold of every plan. */
#ifndef CUT_SCENES_H
#define CUT_SCENES_H

#include "making/cut/cut.h"
#include "sw_test.h"

#include <math.h>
#include <string.h>

typedef struct scene {
    sw_grade grade;
    sw_stock stock;
    sw_laser laser;
    sw_laser_row row;
    sw_cut_part parts[64];
    sw_cut_input in;
} scene;

static inline sw_contour scene_rectangle(sw_test *t, double x, double y, double w, double h)
{
    sw_contour c = {0};
    sw_ok(t, sw_contour_rectangle(&t->run, (sw_box){x, y, x + w, y + h}, 0, &c));
    return c;
}

static inline sw_contour scene_hole(sw_test *t, double x, double y, double d)
{
    sw_contour c = {0}, clockwise = {0};
    sw_ok(t, sw_contour_circle(&t->run, (sw_point){x, y}, d / 2, &c));
    if (sw_contour_area(c) < 0) return c;
    sw_ok(t, sw_contour_reversed(&t->run, c, &clockwise));
    return clockwise;
}

/* 3000 x 1500 of 4 mm, oxygen, kerf 0.25, lead-ins 4 mm. */
static inline scene *scene_make(sw_test *t)
{
    scene *s = SW_KEEP(&t->run, 1, scene);
    s->grade = (sw_grade){.name = "S235", .standard = "", .density = 7850, .source = ""};
    s->stock = (sw_stock){.name = "large", .grade = &s->grade, .thickness_mm = 4, .length_mm = 3000, .width_mm = 1500};
    s->stock.shape.outline = scene_rectangle(t, 0, 0, 3000, 1500);
    s->row =
        (sw_laser_row){.grade = &s->grade, .thickness_mm = 4, .feed_mm_s = sw_mm_s_from_m_min(3.4), .pierce_s = 0.5};
    s->row.kerf_mm = 0.25;
    s->row.lead_mm = 4;
    s->row.gas = "O2";
    s->row.gas_m3_s = sw_h_from_s(1.6);
    s->row.gas_price = 1.2;
    s->row.web_mm = 8;
    s->row.margin_mm = 10;
    s->laser = (sw_laser){.rows = &s->row, .row_count = 1, .rapid_mm_s = sw_mm_s_from_m_min(60), .accel_mm_s2 = 10000};
    s->laser.etch_mm_s = sw_mm_s_from_m_min(10);
    s->laser.rate_h = 95;
    s->laser.micro_joint_mm = 0.4;
    s->laser.micro_below_mm = 60;
    s->laser.program_start = "G21\nG90";
    s->laser.program_end = "M2";
    s->laser.beam_on = "M3";
    s->laser.beam_off = "M5";
    s->laser.etch_on = "M13";
    s->laser.etch_off = "M15";
    s->in = (sw_cut_input){.name = "sheet 1, 4 mm S235", .parts = s->parts, .stock = &s->stock, .laser = &s->laser};
    s->in.row = &s->row;
    return s;
}

static inline sw_cut_part *scene_add(scene *s, const char *label, sw_contour outline, const sw_contour *holes,
                                     size_t count)
{
    sw_cut_part *part = &s->parts[s->in.part_count++];
    *part = (sw_cut_part){.label = label, .region = {outline, holes, count}};
    return part;
}

/* A plate with up to 4 holes, turned, at a place; may hold a smaller one in its largest hole. */
static inline void scene_add_random_plate(sw_test *t, scene *s, sw_random *r, sw_point centre, double room_mm)
{
    double w = sw_random_between(r, 0.3, 0.65) * room_mm, h = sw_random_between(r, 0.3, 0.65) * room_mm;
    sw_motion motion = {.turn_rad = sw_random_between(r, 0, 6.28), .dx_mm = centre.x_mm, .dy_mm = centre.y_mm};
    sw_region flat = {.outline = scene_rectangle(t, -w / 2, -h / 2, w, h)};
    sw_contour *holes = SW_KEEP(&t->run, 4, sw_contour);
    flat.holes = holes;
    double least = fmin(w, h);
    bool window = sw_random_unit(r) < 0.4 && least > 80;
    if (window) holes[flat.hole_count++] = scene_hole(t, 0, 0, 0.7 * least);
    if (sw_random_unit(r) < 0.7) holes[flat.hole_count++] = scene_hole(t, w / 2 - 9, h / 2 - 9, 6);
    if (sw_random_unit(r) < 0.7) holes[flat.hole_count++] = scene_hole(t, 9 - w / 2, 9 - h / 2, 7);
    sw_cut_part *part = scene_add(s, "P", flat.outline, NULL, 0);
    sw_ok(t, sw_region_moved(&t->run, &flat, motion, &part->region));
    if (window && s->in.part_count < 63) scene_add_random_plate(t, s, r, centre, 0.4 * least);
}

/* A grid of random plates, some within the windows of others. */
static inline scene *scene_random(sw_test *t, uint64_t seed, int columns, int rows)
{
    sw_random r = sw_random_seeded(seed);
    scene *s = scene_make(t);
    double room_mm = fmin(2980.0 / columns, 1480.0 / rows);
    for (int i = 0; i < columns * rows && s->in.part_count < 60; i++) {
        sw_point centre = {10 + (i % columns + 0.5) * room_mm, 10 + (i / columns + 0.5) * room_mm};
        scene_add_random_plate(t, s, &r, centre, room_mm);
    }
    return s;
}

/* Place in the order where the contour's last pass is; SIZE_MAX = none. */
static inline size_t scene_last_pass(const sw_cut_plan *plan, size_t part, int contour)
{
    size_t last = SIZE_MAX;
    for (size_t i = 0; i < plan->pass_count; i++)
        if (plan->passes[i].part == part && plan->passes[i].contour == contour &&
            plan->passes[i].moves[0].kind == SW_MOVE_CUT)
            last = i;
    return last;
}

static inline size_t scene_first_pass(const sw_cut_plan *plan, size_t part)
{
    for (size_t i = 0; i < plan->pass_count; i++)
        if (plan->passes[i].part == part && plan->passes[i].moves[0].kind == SW_MOVE_CUT) return i;
    return SIZE_MAX;
}

static inline const sw_finding *scene_finding(const sw_cut_plan *plan, const char *check)
{
    for (size_t i = 0; i < plan->findings.count; i++)
        if (strcmp(plan->findings.items[i].check, check) == 0) return &plan->findings.items[i];
    return NULL;
}

/* How many moves of the pass are its lead-in: a straight, and a quarter arc where that goes on without a corner. */
static inline size_t scene_lead_moves(const sw_cut_pass *pass)
{
    if (pass->move_count < 2 || fabs(pass->moves[1].from.bulge + tan(SW_PI / 8)) > 1e-9) return 1;
    sw_point a = sw_segment_direction(pass->moves[0].from, pass->moves[0].to, 1);
    sw_point b = sw_segment_direction(pass->moves[1].from, pass->moves[1].to, 0);
    return a.x_mm * b.x_mm + a.y_mm * b.y_mm > 0.999 ? 2 : 1;
}

#endif
