/* The verifier must be able to fail: each test spoils a good nest in one way. */
#include "scenes.h"

#include <string.h>

typedef struct spoilt { /* a result that may be changed */
    sw_nest_result result;
    sw_nest_sheet sheet;
    sw_nest_place places[64];
} spoilt;

static bool good_nest(sw_test *t, scene *s, spoilt *p, double web_mm)
{
    scene_begin(s, &t->run, web_mm, 10);
    scene_shape(s, "plate", scene_box(s, 300, 200), 6, SW_TURN_HALF);
    scene_shape(s, "disc", scene_disc(s, 60), 4, SW_TURN_FREE);
    scene_stock(s, "2000 x 1000", scene_box(s, 2000, 1000), 1, 50);
    if (!sw_ok(t, scene_solve(s))) return false;
    p->result = *s->result;
    p->sheet = s->result->sheets[0];
    memcpy(p->places, p->sheet.places, p->sheet.place_count * sizeof *p->places);
    p->sheet.places = p->places;
    p->result.sheets = &p->sheet;
    return sw_true(t, s->result->sheet_count == 1) && sw_ok(t, sw_nest_verify(&t->run, &s->in, &p->result));
}

static void refused(sw_test *t, scene *s, const spoilt *p, const char *why)
{
    sw_true(t, sw_nest_verify(&t->run, &s->in, &p->result) == SW_INTERNAL);
    sw_contains(t, scene_message(s), why);
}

static void an_overlap_is_caught(sw_test *t)
{
    scene s;
    spoilt p;
    if (!good_nest(t, &s, &p, 5)) return;
    p.places[1].motion.dx_mm = p.places[0].motion.dx_mm + 20;
    p.places[1].motion.dy_mm = p.places[0].motion.dy_mm + 20;
    refused(t, &s, &p, "it is nearer to another piece than the web (0.0000 mm)");
}

static void a_piece_all_within_another_is_caught(sw_test *t)
{
    scene s;
    spoilt p;
    if (!good_nest(t, &s, &p, 5)) return;
    p.sheet.place_count = 2;
    s.shapes[0].count = 1;
    s.shapes[1].count = 1;
    p.places[0] = (sw_nest_place){.shape = 0, .motion = {.dx_mm = 10, .dy_mm = 10}};
    p.places[1] = (sw_nest_place){.shape = 1, .motion = {.dx_mm = 10 + 150, .dy_mm = 10 + 100}};
    refused(t, &s, &p, "it is nearer to another piece than the web (0.0000 mm)");
}

static void a_zone_too_near_or_within_a_piece_is_caught(sw_test *t)
{
    scene s;
    spoilt p;
    if (!good_nest(t, &s, &p, 5)) return;
    sw_motion m = p.places[0].motion;
    sw_point middle =
        sw_motion_point(m, s.shapes[p.places[0].shape].region.outline.n == 4 ? (sw_point){150, 100} : (sw_point){0, 0});
    sw_stock_zone zone = {{middle.x_mm - 3, middle.y_mm - 3, middle.x_mm + 3, middle.y_mm + 3}, "dent"};
    s.stock[0].zones = &zone;
    s.stock[0].zone_count = 1;
    refused(t, &s, &p, "it is nearer to a zone where nothing may be cut than the web (0.0000 mm)");
    sw_run_clear_errors(&t->run);
    zone.box = (sw_box){1990, 980, 2000, 1000}; /* no piece reaches the far end */
    sw_ok(t, sw_nest_verify(&t->run, &s.in, &p.result));
    s.in.web_mm = 0;
    zone.box = (sw_box){middle.x_mm - 9, middle.y_mm - 9, middle.x_mm + 9, middle.y_mm + 9};
    refused(t, &s, &p, "it overlaps a zone where nothing may be cut");
}

static void a_web_a_tenth_too_thin_is_caught(sw_test *t)
{
    scene s;
    spoilt p;
    if (!good_nest(t, &s, &p, 5)) return;
    p.sheet.place_count = 2;
    s.shapes[0].count = 2;
    s.shapes[1].count = 0;
    p.places[0].motion = (sw_motion){.dx_mm = 10, .dy_mm = 10};
    p.places[1].motion = (sw_motion){.dx_mm = 10, .dy_mm = 10 + 200 + 4.9};
    refused(t, &s, &p, "it is nearer to another piece than the web (4.9000 mm)");
    sw_run_clear_errors(&t->run);
    p.places[1].motion.dy_mm = 10 + 200 + 5;
    sw_ok(t, sw_nest_verify(&t->run, &s.in, &p.result));
}

static void an_overlap_without_a_web_is_caught(sw_test *t)
{
    scene s;
    spoilt p;
    if (!good_nest(t, &s, &p, 0)) return;
    p.places[1].motion = p.places[0].motion;
    refused(t, &s, &p, "it overlaps another piece");
}

static void a_piece_inside_another_is_caught(sw_test *t)
{
    scene s;
    spoilt p;
    if (!good_nest(t, &s, &p, 5)) return;
    for (size_t i = 0; i < p.sheet.place_count; i++) {
        if (p.places[i].shape != 1) continue;
        p.places[i].motion = p.places[0].motion; /* the disc's middle to the plate's middle */
        p.places[i].motion.dx_mm += p.places[0].motion.turn_rad > 1 ? -150 : 150;
        p.places[i].motion.dy_mm += p.places[0].motion.turn_rad > 1 ? -100 : 100;
        break;
    }
    refused(t, &s, &p, "it is nearer to another piece than the web");
}

static void a_missing_piece_is_caught(sw_test *t)
{
    scene s;
    spoilt p;
    if (!good_nest(t, &s, &p, 5)) return;
    p.sheet.place_count--;
    refused(t, &s, &p, "times, wanted");
}

static void a_forbidden_turn_is_caught(sw_test *t)
{
    scene s;
    spoilt p;
    if (!good_nest(t, &s, &p, 5)) return;
    p.places[0].motion.turn_rad = SW_PI / 2;
    refused(t, &s, &p, "its turn or flip is not allowed");
}

static void a_forbidden_flip_is_caught(sw_test *t)
{
    scene s;
    spoilt p;
    if (!good_nest(t, &s, &p, 5)) return;
    p.places[0].motion.mirror = true;
    refused(t, &s, &p, "its turn or flip is not allowed");
}

static void a_piece_over_the_edge_is_caught(sw_test *t)
{
    scene s;
    spoilt p;
    if (!good_nest(t, &s, &p, 5)) return;
    p.places[0].motion.dx_mm -= 30;
    refused(t, &s, &p, "it is nearer to the sheet's edge");
    sw_run_clear_errors(&t->run);
    p.places[0].motion.dx_mm -= 1000;
    refused(t, &s, &p, "it reaches over the sheet's edge");
}

static void a_piece_on_a_cut_out_of_the_sheet_is_caught(sw_test *t)
{
    scene s;
    spoilt p;
    if (!good_nest(t, &s, &p, 5)) return;
    sw_region holed = s.stock[0].shape;
    sw_motion m = p.places[0].motion;
    bool turned = m.turn_rad > 1;
    scene_hole(&s, &holed, m.dx_mm + (turned ? -160 : 140), m.dy_mm + (turned ? -110 : 90), 20, 20);
    s.stock[0].shape = holed;
    refused(t, &s, &p, "it reaches over the sheet's edge");
}

static void more_sheets_than_there_are_is_caught(sw_test *t)
{
    scene s;
    spoilt p;
    if (!good_nest(t, &s, &p, 5)) return;
    p.sheet.repeat = 2;
    s.shapes[0].count *= 2;
    s.shapes[1].count *= 2;
    refused(t, &s, &p, "is used 2 times, there are 1");
}

static void a_place_of_no_shape_is_caught(sw_test *t)
{
    scene s;
    spoilt p;
    if (!good_nest(t, &s, &p, 5)) return;
    p.places[0].shape = 99;
    refused(t, &s, &p, "holds a piece of no shape");
}

static void each_refused_allocation_is_reported(sw_test *t)
{
    scene s;
    spoilt p;
    if (!good_nest(t, &s, &p, 5)) return;
    for (int keep = 0; keep < 2; keep++) {
        size_t nth = 1;
        for (; nth < 10000; nth++) {
            sw_arena_fail_at(keep ? t->run.keep : t->run.scratch, nth);
            sw_status status = sw_nest_verify(&t->run, &s.in, &p.result);
            sw_arena_fail_at(keep ? t->run.keep : t->run.scratch, 0);
            sw_run_clear_errors(&t->run);
            if (status == SW_OK) break;
            if (!sw_true(t, status == SW_NO_MEMORY)) return;
        }
        sw_true(t, nth < 10000);
    }
}

SW_TESTS(SW_CASE(an_overlap_is_caught), SW_CASE(a_piece_all_within_another_is_caught),
         SW_CASE(a_zone_too_near_or_within_a_piece_is_caught), SW_CASE(a_web_a_tenth_too_thin_is_caught),
         SW_CASE(an_overlap_without_a_web_is_caught), SW_CASE(a_piece_inside_another_is_caught),
         SW_CASE(a_missing_piece_is_caught), SW_CASE(a_forbidden_turn_is_caught), SW_CASE(a_forbidden_flip_is_caught),
         SW_CASE(a_piece_over_the_edge_is_caught), SW_CASE(a_piece_on_a_cut_out_of_the_sheet_is_caught),
         SW_CASE(more_sheets_than_there_are_is_caught), SW_CASE(a_place_of_no_shape_is_caught),
         SW_CASE(each_refused_allocation_is_reported))
