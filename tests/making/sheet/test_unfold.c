#include "tree_maker.h"

#include "sw_test.h"

enum { SEEDS = 500 };

static double parts_area(const sw_piece *p, const sw_flat *flat)
{
    double sum = 0.0;
    for (size_t f = 0; f < p->face_count; f++) sum += sw_region_area(&p->faces[f].region);
    for (size_t i = 0; i < p->bend_count; i++) {
        const sw_bend *b = &p->bends[i];
        sum += flat->bends[i].allowance_mm * hypot(b->to.x_mm - b->from.x_mm, b->to.y_mm - b->from.y_mm);
        for (size_t h = 0; h < b->hole_count; h++) sum -= fabs(sw_contour_area(b->holes[h].contour));
    }
    return sum;
}

static void a_bracket_has_the_length_of_the_standard(sw_test *t)
{
    maker *m = maker_bracket(&t->run, 60, 40, 100, 3, 4);
    sw_flat flat;
    if (!sw_ok(t, sw_sheet_unfold(&t->run, &m->piece, NULL, &flat))) return;
    sw_near(t, flat.box.y1_mm, 93.962, 5e-4, "handbook W1.2");
    sw_near(t, flat.box.x1_mm, 100.0, 1e-9, "derived: width kept");
    sw_near(t, flat.box.x0_mm, 0.0, 1e-12, "contract: box from (0,0)");
    sw_near(t, flat.box.y0_mm, 0.0, 1e-12, "contract: box from (0,0)");
    sw_near(t, (double)flat.region.outline.n, 4.0, 0.0, "derived: a plain rectangle");
    sw_same_text(t, flat.bends[0].rule, "DIN 6935");
    sw_true(t, flat.bends[0].up);
}

static void a_channel_has_the_length_of_the_standard(sw_test *t)
{
    maker *m = maker_new(&t->run, 1, 2);
    maker_rectangle(m, "main", 80, 100 - 2 * 4.5);
    maker_bend(m, 0, 0, 0, 80)->radius_mm = 2.5;
    maker_rectangle(m, "low", 80, 30 - 4.5);
    maker_bend(m, 0, 2, 0, 80)->radius_mm = 2.5;
    maker_rectangle(m, "high", 80, 30 - 4.5);
    sw_flat flat;
    if (!sw_ok(t, sw_sheet_unfold(&t->run, &m->piece, NULL, &flat))) return;
    sw_near(t, flat.box.y1_mm, 152.048, 5e-4, "handbook W1.3");
    sw_near(t, flat.area_mm2, 80.0 * flat.box.y1_mm, 1e-6, "derived: rectangle");
}

static void a_baffle_bent_by_60_degrees_has_the_length_of_the_standard(sw_test *t)
{
    double set = 10.0 * tan(sw_rad_from_deg(30.0));
    maker *m = maker_new(&t->run, 1, 4);
    maker_rectangle(m, "main", 300, 80 - set);
    sw_bend *b = maker_bend(m, 0, 0, 0, 300);
    b->radius_mm = 6;
    b->angle_rad = sw_rad_from_deg(-60.0);
    maker_rectangle(m, "nose", 300, 50 - set);
    sw_flat flat;
    if (!sw_ok(t, sw_sheet_unfold(&t->run, &m->piece, NULL, &flat))) return;
    sw_near(t, flat.box.y1_mm, 126.282, 5e-4, "handbook W1.4");
    sw_true(t, !flat.bends[0].up);
}

static void a_rolled_shell_has_the_length_of_its_middle(sw_test *t)
{
    maker *m = maker_new(&t->run, 1, 4);
    maker_line(m, "start", 500);
    sw_bend *b = maker_bend(m, 0, 0, 0, 500);
    b->kind = SW_ROLLED;
    b->radius_mm = 150;
    b->angle_rad = 2 * SW_PI;
    maker_line(m, "end", 500);
    sw_flat flat;
    if (!sw_ok(t, sw_sheet_unfold(&t->run, &m->piece, NULL, &flat))) return;
    sw_near(t, flat.box.y1_mm, 955.044, 5e-4, "handbook 3.4: pi (D_i + s), D_i 300, s 4");
    sw_near(t, flat.area_mm2, 500 * 304 * SW_PI, 1e-6, "derived: mid-surface");
    sw_near(t, (double)flat.region.outline.n, 4.0, 0.0, "derived: a plain rectangle");
}

static void the_flat_has_the_area_of_its_faces_and_zones(sw_test *t)
{
    for (uint64_t seed = 1; seed <= SEEDS; seed++) {
        t->seed = seed;
        size_t mark = sw_arena_mark(t->run.keep);
        maker *m = maker_random(&t->run, seed, NAN);
        sw_flat flat;
        if (!sw_ok(t, sw_sheet_unfold(&t->run, &m->piece, NULL, &flat))) return;
        double want = parts_area(&m->piece, &flat);
        if (!sw_near(t, flat.area_mm2, want, 1e-9 * want, "conservation: faces and zones less holes")) return;
        sw_near(t, flat.box.x0_mm, 0.0, 1e-9, "contract: box from (0,0)");
        sw_near(t, flat.box.y0_mm, 0.0, 1e-9, "contract: box from (0,0)");
        sw_arena_rewind(t->run.keep, mark);
    }
    t->seed = 0;
}

static void turning_every_bend_over_leaves_the_flat_as_it_is(sw_test *t)
{
    for (uint64_t seed = 1; seed <= SEEDS; seed++) {
        t->seed = seed;
        size_t mark = sw_arena_mark(t->run.keep);
        maker *m = maker_random(&t->run, seed, NAN);
        sw_flat flat, other;
        if (!sw_ok(t, sw_sheet_unfold(&t->run, &m->piece, NULL, &flat))) return;
        for (size_t i = 0; i < m->piece.bend_count; i++) m->bends[i].angle_rad = -m->bends[i].angle_rad;
        if (!sw_ok(t, sw_sheet_unfold(&t->run, &m->piece, NULL, &other))) return;
        if (!sw_true(t, other.region.outline.n == flat.region.outline.n)) return;
        for (size_t i = 0; i < flat.region.outline.n; i++) {
            sw_near(t, other.region.outline.v[i].x_mm, flat.region.outline.v[i].x_mm, 1e-9,
                    "symmetry: the length does not depend on the side");
            sw_near(t, other.region.outline.v[i].y_mm, flat.region.outline.v[i].y_mm, 1e-9,
                    "symmetry: the length does not depend on the side");
        }
        for (size_t i = 0; i < flat.bend_count; i++) sw_true(t, other.bends[i].up == !flat.bends[i].up);
        sw_arena_rewind(t->run.keep, mark);
    }
    t->seed = 0;
}

static void holes_and_marks_travel_with_their_face(sw_test *t)
{
    maker *m = maker_bracket(&t->run, 60, 40, 100, 3, 4);
    static const sw_vertex path[2] = {{10, 5, 0.3}, {20, 5, 0}};
    sw_mark marks[2] = {{.text = "T-01", .at = {10, 20}, .height_mm = 8}, {.text = "", .path = {path, 2}}};
    maker_hole(m, 1, 30, 20, 8);
    m->faces[1].marks = marks;
    m->faces[1].mark_count = 2;
    sw_flat flat;
    if (!sw_ok(t, sw_sheet_unfold(&t->run, &m->piece, NULL, &flat))) return;
    sw_near(t, flat.area_mm2, 100 * flat.box.y1_mm - 16 * SW_PI, 1e-6, "derived: rectangle less a hole");
    sw_point c = sw_contour_centroid(flat.region.holes[0]);
    sw_near(t, c.x_mm, 100 - 30, 1e-9, "derived: the flange hangs below the main face, turned by 180 degrees");
    sw_near(t, c.y_mm, 33 - 20, 1e-9, "derived: the flange hangs below the main face, turned by 180 degrees");
    sw_near(t, flat.marks[0].at.x_mm, 90, 1e-9, "derived: as the hole");
    sw_near(t, fabs(flat.marks[0].turn_rad), SW_PI, 1e-12, "derived: turned by 180 degrees");
    sw_near(t, flat.marks[1].path.v[1].y_mm, 33 - 5, 1e-9, "derived: as the hole");
    sw_near(t, flat.marks[1].path.v[0].bulge, 0.3, 0.0, "derived: no mirror, the arc keeps its sense");
}

static void works_trials_and_designers_go_before_the_rule(sw_test *t)
{
    static const sw_bend_trial trials[] = {{&maker_grade, 3, 5.5, 0.45, "far strip", {0}},
                                           {&maker_grade, 3, 4.2, 0.41, "strip 12", {0}},
                                           {&maker_grade, 4, 4.0, 0.30, "other thickness", {0}}};
    sw_works works = {.press = {.rule = SW_ALLOW_K, .k = 0.38, .trials = trials, .trial_count = 3}};
    maker *m = maker_bracket(&t->run, 60, 40, 100, 3, 4);
    sw_flat flat;
    sw_ok(t, sw_sheet_unfold(&t->run, &m->piece, &works, &flat));
    sw_near(t, flat.bends[0].k, 0.41, 0.0, "contract: the nearest trial within 20 % of the radius");
    sw_contains(t, flat.bends[0].rule, "strip 12");
    m->bends[0].radius_mm = 2.0;
    sw_ok(t, sw_sheet_unfold(&t->run, &m->piece, &works, &flat));
    sw_near(t, flat.bends[0].k, 0.38, 0.0, "contract: the works' rule");
    m->bends[0].k = 0.29;
    sw_ok(t, sw_sheet_unfold(&t->run, &m->piece, &works, &flat));
    sw_near(t, flat.bends[0].k, 0.29, 0.0, "contract: the designer's factor");
    m->bends[0] = (sw_bend){.name = "roll",
                            .kind = SW_ROLLED,
                            .child = 1,
                            .from = m->bends[0].from,
                            .to = m->bends[0].to,
                            .radius_mm = 40,
                            .angle_rad = 1.0,
                            .k = NAN};
    sw_ok(t, sw_sheet_unfold(&t->run, &m->piece, &works, &flat));
    sw_near(t, flat.bends[0].k, 0.5, 0.0, "DIN 6935:2011-10, k = 1 above r/s = 5");
}

static void a_hem_without_a_factor_is_refused_by_name(sw_test *t)
{
    maker *m = maker_bracket(&t->run, 60, 40, 100, 1.5, 0);
    m->bends[0].name = "hem at the top";
    sw_flat flat;
    sw_true(t, sw_sheet_unfold(&t->run, &m->piece, NULL, &flat) == SW_OUT_OF_RANGE);
    sw_contains(t, t->run.errors[0].text, "hem at the top");
    sw_contains(t, t->run.errors[0].text, "give k");
    m->bends[0].k = 0.33;
    m->bends[0].angle_rad = SW_PI;
    sw_run_clear_errors(&t->run);
    sw_ok(t, sw_sheet_unfold(&t->run, &m->piece, NULL, &flat));
    sw_near(t, flat.bends[0].allowance_mm, SW_PI * 0.33 * 1.5, 1e-12, "derived: pi K s");
}

static void trees_that_are_none_are_refused(sw_test *t)
{
    sw_flat flat;
    maker *m = maker_bracket(&t->run, 60, 40, 100, 3, 4);
    m->bends[0].from.y_mm = 3;
    sw_true(t, sw_sheet_unfold(&t->run, &m->piece, NULL, &flat) == SW_BAD_INPUT);
    m = maker_bracket(&t->run, 60, 40, 100, 3, 4);
    m->bends[0].child = 0;
    sw_true(t, sw_sheet_unfold(&t->run, &m->piece, NULL, &flat) == SW_BAD_INPUT);
    m = maker_bracket(&t->run, 60, 40, 100, 3, 4);
    m->piece.bend_count = 0;
    sw_true(t, sw_sheet_unfold(&t->run, &m->piece, NULL, &flat) == SW_BAD_INPUT);
    m = maker_bracket(&t->run, 60, 40, 100, 3, 4);
    m->bends[0].to.x_mm = 90;
    sw_true(t, sw_sheet_unfold(&t->run, &m->piece, NULL, &flat) == SW_BAD_INPUT);
    sw_contains(t, t->run.errors[t->run.error_count - 1].text, "needs the corners");
    m = maker_bracket(&t->run, 60, 40, 100, 3, 4);
    m->bends[0].angle_rad = 4.0;
    sw_true(t, sw_sheet_unfold(&t->run, &m->piece, NULL, &flat) == SW_BAD_INPUT);
    m = maker_bracket(&t->run, 60, 40, 100, 3, 4);
    static const sw_vertex big[2] = {{-9, 0, -1}, {9, 0, -1}};
    static const sw_zone_hole hole = {50, 0.7, {big, 2}};
    m->bends[0].holes = &hole;
    m->bends[0].hole_count = 1;
    sw_true(t, sw_sheet_unfold(&t->run, &m->piece, NULL, &flat) == SW_BAD_INPUT);
    sw_contains(t, t->run.errors[t->run.error_count - 1].text, "reaches");
}

static void running_out_of_memory_anywhere_is_reported(sw_test *t)
{
    maker *m = maker_random(&t->run, 7, NAN);
    sw_arena *arenas[2] = {t->run.keep, t->run.scratch};
    for (int a = 0; a < 2; a++) {
        sw_flat flat;
        size_t nth = 1;
        for (; nth < 2000; nth++) {
            sw_arena_fail_at(arenas[a], nth);
            sw_status status = sw_sheet_unfold(&t->run, &m->piece, NULL, &flat);
            sw_arena_fail_at(arenas[a], 0);
            if (status == SW_OK) break;
            if (!sw_true(t, status == SW_NO_MEMORY)) return;
        }
        sw_true(t, nth > 3 && nth < 2000);
    }
}

SW_TESTS(SW_CASE(a_bracket_has_the_length_of_the_standard), SW_CASE(a_channel_has_the_length_of_the_standard),
         SW_CASE(a_baffle_bent_by_60_degrees_has_the_length_of_the_standard),
         SW_CASE(a_rolled_shell_has_the_length_of_its_middle), SW_CASE(the_flat_has_the_area_of_its_faces_and_zones),
         SW_CASE(turning_every_bend_over_leaves_the_flat_as_it_is), SW_CASE(holes_and_marks_travel_with_their_face),
         SW_CASE(works_trials_and_designers_go_before_the_rule), SW_CASE(a_hem_without_a_factor_is_refused_by_name),
         SW_CASE(trees_that_are_none_are_refused), SW_CASE(running_out_of_memory_anywhere_is_reported))
