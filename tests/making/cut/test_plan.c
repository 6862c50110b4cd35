/* Plans of single pieces: lengths, order, bridges, etches, findings. */
#include "cut_scenes.h"

static const sw_cut_plan *solved(sw_test *t, const scene *s)
{
    const sw_cut_plan *plan = NULL;
    sw_ok(t, sw_cut_solve(&t->run, &s->in, &plan));
    return plan;
}

static scene *plate_with_a_hole(sw_test *t)
{
    scene *s = scene_make(t);
    sw_contour *holes = SW_KEEP(&t->run, 1, sw_contour);
    holes[0] = scene_hole(t, 150, 150, 40);
    scene_add(s, "A-01", scene_rectangle(t, 100, 100, 100, 100), holes, 1);
    return s;
}

static void square_plate_with_a_hole_has_the_length_of_its_parallels_and_lead_ins(sw_test *t)
{
    scene *s = plate_with_a_hole(t);
    const sw_cut_plan *plan = solved(t, s);
    if (plan == NULL) return;
    double outline_mm = 400 + SW_PI * 0.25, hole_mm = SW_PI * (40 - 0.25);
    double lead_mm = 2 + SW_PI / 2 * 2; /* 4 mm: half straight, then a quarter arc of 2 */
    sw_near(t, plan->cut_mm, outline_mm + hole_mm + 2 * lead_mm, 1e-6, "derived: Steiner, 4 a + pi k and pi (d - k)");
    sw_true(t, plan->pass_count == 2 && plan->pierces == 2 && plan->micro_joints == 0);
    sw_true(t, plan->passes[0].contour == 0 && plan->passes[1].contour == -1);
}

static void times_gas_and_cost_add_up(sw_test *t)
{
    scene *s = plate_with_a_hole(t);
    const sw_cut_plan *plan = solved(t, s);
    if (plan == NULL) return;
    sw_near(t, plan->total_s, plan->cut_s + plan->pierce_s + plan->rapid_s + plan->etch_s, 1e-12, "additivity");
    sw_near(t, plan->cut_s - plan->corner_s, plan->cut_mm / s->row.feed_mm_s, 1e-9, "derived: L / v");
    /* 2 stretches of the hole's pass (lead-in straight and arc and circle are smooth) and 5 of the outline's stop
     * nowhere else: corners are arcs of 0.125 mm, run at sqrt(a r) */
    double corner_mm_s = sqrt(10000 * 0.125), v = s->row.feed_mm_s;
    double corners_s = SW_PI * 0.25 * (1 / corner_mm_s - 1 / v);
    sw_near(t, plan->corner_s, 2 * v / 10000 + corners_s, 1e-6, "derived: v/a a smooth pass, arcs at sqrt(a r)");
    sw_near(t, plan->pierce_s, 1.0, 1e-12, "derived: 2 x 0.5 s");
    sw_near(t, plan->gas_m3, (plan->cut_s + plan->pierce_s) * s->row.gas_m3_s, 1e-12,
            "derived: gas while the beam is on");
    sw_near(t, plan->cost, 95 * sw_h_from_s(plan->total_s) + 1.2 * plan->gas_m3, 1e-12, "derived: machine and gas");
}

static double rapid_time_again_s(const scene *s, const sw_cut_plan *plan)
{
    sw_point at = {0, 0};
    double sum_s = 0;
    for (size_t i = 0; i < plan->pass_count; i++) {
        const sw_cut_pass *p = &plan->passes[i];
        for (size_t k = 0; k <= p->via_count; k++) {
            sw_point to = k < p->via_count ? p->via[k] : p->start;
            double d = hypot(to.x_mm - at.x_mm, to.y_mm - at.y_mm);
            sum_s += sw_move_time_s(d, s->laser.rapid_mm_s, s->laser.accel_mm_s2);
            at = to;
        }
        at = p->moves[p->move_count - 1].to;
    }
    return sum_s;
}

static void rapids_are_the_legs_between_the_passes(sw_test *t)
{
    scene *s = scene_random(t, 5, 4, 2);
    const sw_cut_plan *plan = solved(t, s);
    if (plan == NULL) return;
    sw_near(t, plan->rapid_s, rapid_time_again_s(s, plan), 1e-9, "derived: trapezoid of each leg from (0,0)");
}

static void small_piece_hangs_on_two_bridges_of_the_asked_width(sw_test *t)
{
    scene *s = scene_make(t);
    scene_add(s, "A-02", scene_rectangle(t, 100, 100, 200, 40), NULL, 0);
    const sw_cut_plan *plan = solved(t, s);
    if (plan == NULL) return;
    sw_true(t, plan->pass_count == 2 && plan->micro_joints == 2);
    for (size_t i = 0; i < 2; i++) {
        const sw_cut_pass *now = &plan->passes[i], *next = &plan->passes[1 - i];
        sw_point end = now->moves[now->move_count - 1].to, touch = next->moves[0].to;
        sw_near(t, hypot(end.x_mm - touch.x_mm, end.y_mm - touch.y_mm), 0.4 + 0.25, 1e-6,
                "derived: bridge of 0.4 mm and half a kerf at both ends");
    }
    sw_near(t, plan->cut_mm, 480 + SW_PI * 0.25 + 2 * 4 - 2 * 0.65, 1e-6,
            "derived: outline, two leads, less two bridges");
}

static void etches_come_before_any_cut(sw_test *t)
{
    scene *s = plate_with_a_hole(t);
    static const sw_vertex line[] = {{110, 110, 0}, {120, 110, 0}, {120, 114, 0.5}, {110, 114, 0}};
    static const sw_path paths[] = {{line, 4}, {line, 2}};
    s->parts[0].etches = paths;
    s->parts[0].etch_count = 2;
    const sw_cut_plan *plan = solved(t, s);
    if (plan == NULL) return;
    sw_true(t, plan->pass_count == 4);
    sw_true(t, plan->passes[0].moves[0].kind == SW_MOVE_ETCH && plan->passes[1].moves[0].kind == SW_MOVE_ETCH);
    sw_true(t, plan->passes[2].moves[0].kind == SW_MOVE_CUT && plan->pierces == 2);
    double arc_mm = sw_segment_length(line[2], (sw_point){110, 114});
    sw_near(t, plan->etch_mm, 10 + 4 + arc_mm + 10, 1e-9, "derived: sum of the etched paths");
}

static void small_hole_is_entered_straight_from_its_centre(sw_test *t)
{
    scene *s = scene_make(t);
    sw_contour *holes = SW_KEEP(&t->run, 1, sw_contour);
    holes[0] = scene_hole(t, 150, 150, 6);
    scene_add(s, "A-03", scene_rectangle(t, 100, 100, 100, 100), holes, 1);
    const sw_cut_plan *plan = solved(t, s);
    if (plan == NULL) return;
    sw_near(t, plan->passes[0].start.x_mm, 150, 1e-9, "derived: centre of the hole");
    sw_near(t, plan->passes[0].start.y_mm, 150, 1e-9, "derived: centre of the hole");
    sw_true(t, plan->passes[0].moves[0].from.bulge == 0);
}

static sw_verdict hole_verdict(sw_test *t, double d_mm)
{
    scene *s = scene_make(t);
    sw_contour *holes = SW_KEEP(&t->run, 1, sw_contour);
    holes[0] = scene_hole(t, 150, 150, d_mm);
    scene_add(s, "A-04", scene_rectangle(t, 100, 100, 100, 100), holes, 1);
    const sw_cut_plan *plan = solved(t, s);
    const sw_finding *f = plan == NULL ? NULL : scene_finding(plan, "least_hole");
    if (!sw_true(t, f != NULL)) return SW_UNKNOWN;
    sw_near(t, f->value, d_mm, 1e-6, "derived: width of a circle is its diameter");
    return f->verdict;
}

static void holes_narrower_than_the_sheet_are_found(sw_test *t)
{
    sw_true(t, hole_verdict(t, 4.5) == SW_HOLDS);
    sw_true(t, hole_verdict(t, 3.5) == SW_WATCH);
    sw_true(t, hole_verdict(t, 2.5) == SW_FAILS);
}

static void turned_slot_is_as_wide_as_it_is(sw_test *t)
{
    scene *s = scene_make(t);
    sw_contour slot, *holes = SW_KEEP(&t->run, 1, sw_contour);
    sw_ok(t, sw_contour_slot(&t->run, (sw_point){130, 130}, (sw_point){160, 147}, 3, &slot));
    sw_ok(t, sw_contour_reversed(&t->run, slot, &holes[0]));
    scene_add(s, "A-05", scene_rectangle(t, 100, 100, 100, 100), holes, 1);
    const sw_cut_plan *plan = solved(t, s);
    const sw_finding *f = plan == NULL ? NULL : scene_finding(plan, "least_hole");
    if (sw_true(t, f != NULL)) sw_near(t, f->value, 3, 1e-6, "derived: width of a slot at any turn");
}

static void hole_that_the_kerf_swallows_is_found(sw_test *t)
{
    scene *s = scene_make(t);
    sw_contour *holes = SW_KEEP(&t->run, 1, sw_contour);
    holes[0] = scene_hole(t, 150, 150, 0.2);
    scene_add(s, "A-06", scene_rectangle(t, 100, 100, 100, 100), holes, 1);
    const sw_cut_plan *plan = solved(t, s);
    const sw_finding *f = plan == NULL ? NULL : scene_finding(plan, "kerf");
    sw_true(t, f != NULL && f->verdict == SW_FAILS);
    if (f != NULL) sw_same_text(t, f->what, "the hole is narrower than the kerf of 0.25 mm and is not cut");
    if (f != NULL) sw_same_text(t, f->where, "A-06, hole 1");
}

static void slot_narrower_than_the_kerf_is_found(sw_test *t)
{
    static const sw_vertex v[] = {{100, 100, 0},   {200, 100, 0},   {200, 150, 0}, {150, 150, 0},
                                  {150, 150.1, 0}, {200, 150.1, 0}, {200, 200, 0}, {100, 200, 0}};
    scene *s = scene_make(t);
    scene_add(s, "A-07", (sw_contour){v, 8}, NULL, 0);
    const sw_cut_plan *plan = solved(t, s);
    const sw_finding *f = plan == NULL ? NULL : scene_finding(plan, "kerf");
    sw_true(t, f != NULL && f->verdict == SW_FAILS);
}

static void thin_web_is_found(sw_test *t)
{
    scene *s = scene_make(t);
    sw_contour *holes = SW_KEEP(&t->run, 2, sw_contour);
    holes[0] = scene_hole(t, 140, 150, 10);
    holes[1] = scene_hole(t, 153, 150, 10);
    scene_add(s, "A-08", scene_rectangle(t, 100, 100, 100, 100), holes, 2);
    const sw_cut_plan *plan = solved(t, s);
    const sw_finding *f = plan == NULL ? NULL : scene_finding(plan, "web");
    if (!sw_true(t, f != NULL)) return;
    sw_near(t, f->value, 3, 1e-6, "derived: centres 13 apart, radii 5 and 5");
    sw_true(t, f->verdict == SW_FAILS && f->limit == 4);
}

static void pieces_without_room_for_a_lead_in_are_found(sw_test *t)
{
    scene *s = scene_make(t);
    for (int i = 0; i < 9; i++)
        scene_add(s, "A-09", scene_rectangle(t, 100 + i % 3 * 100.6, 100 + i / 3 * 100.6, 100, 100), NULL, 0);
    const sw_cut_plan *plan = solved(t, s);
    const sw_finding *f = plan == NULL ? NULL : scene_finding(plan, "lead_in");
    if (!sw_true(t, f != NULL && f->verdict == SW_FAILS)) return;
    sw_same_text(t, f->what, "1 of 9 contours have no room for a lead-in clear of pieces and edge");
    f = scene_finding(plan, "gap");
    if (sw_true(t, f != NULL && f->verdict == SW_FAILS)) sw_near(t, f->value, 0.6, 1e-9, "derived: pitch less width");
}

static void sheet_without_a_laser_row_has_an_unknown_finding_and_no_program(sw_test *t)
{
    scene *s = plate_with_a_hole(t);
    s->in.row = NULL;
    const sw_cut_plan *plan = solved(t, s);
    if (plan == NULL) return;
    const sw_finding *f = scene_finding(plan, "laser_row");
    sw_true(t, plan->pass_count == 0 && f != NULL && f->verdict == SW_UNKNOWN);
    if (f != NULL) sw_contains(t, f->what, "no row for S235, 4 mm");
}

static void laser_figures_out_of_range_are_named(sw_test *t)
{
    scene *s = plate_with_a_hole(t);
    const sw_cut_plan *plan;
    s->row.feed_mm_s = 0;
    sw_true(t, sw_cut_solve(&t->run, &s->in, &plan) == SW_OUT_OF_RANGE && plan == NULL);
    sw_same_text(t, t->run.errors[0].field, "laser.rows.feed");
    s->row.feed_mm_s = NAN;
    sw_true(t, sw_cut_solve(&t->run, &s->in, &plan) == SW_OUT_OF_RANGE);
    s->row.feed_mm_s = 50;
    s->laser.accel_mm_s2 = -1;
    sw_true(t, sw_cut_solve(&t->run, &s->in, &plan) == SW_OUT_OF_RANGE);
    s->laser.accel_mm_s2 = 10000;
    s->parts[0].region.outline.n = 1;
    sw_true(t, sw_cut_solve(&t->run, &s->in, &plan) == SW_OUT_OF_RANGE);
}

static void empty_sheet_gives_an_empty_plan(sw_test *t)
{
    scene *s = scene_make(t);
    const sw_cut_plan *plan = solved(t, s);
    if (plan != NULL) sw_near(t, plan->total_s, 0, 0, "derived: nothing to do");
}

static void cancel_stops_the_planning(sw_test *t)
{
    scene *s = plate_with_a_hole(t);
    const sw_cut_plan *plan;
    atomic_int cancel = 1;
    t->run.cancel = &cancel;
    sw_true(t, sw_cut_solve(&t->run, &s->in, &plan) == SW_CANCELLED && plan == NULL);
}

static void every_failed_request_for_memory_is_reported(sw_test *t)
{
    scene *s = plate_with_a_hole(t);
    static const sw_vertex line[] = {{110, 110, 0}, {120, 110, 0}};
    static const sw_path path = {line, 2};
    s->parts[0].etches = &path;
    s->parts[0].etch_count = 1;
    scene_add(s, "A-10", scene_rectangle(t, 300, 100, 200, 40), NULL, 0);
    for (int arena = 0; arena < 2; arena++)
        for (size_t nth = 1;; nth++) {
            const sw_cut_plan *plan = NULL;
            sw_arena *from = arena == 0 ? t->run.keep : t->run.scratch;
            sw_run_clear_errors(&t->run);
            sw_arena_fail_at(from, nth);
            sw_status status = sw_cut_solve(&t->run, &s->in, &plan);
            sw_arena_fail_at(from, 0);
            if (status == SW_OK) break;
            if (!sw_true(t, status == SW_NO_MEMORY && plan == NULL)) return;
            if (!sw_true(t, nth < 2000)) return;
        }
}

SW_TESTS(SW_CASE(square_plate_with_a_hole_has_the_length_of_its_parallels_and_lead_ins),
         SW_CASE(times_gas_and_cost_add_up), SW_CASE(rapids_are_the_legs_between_the_passes),
         SW_CASE(small_piece_hangs_on_two_bridges_of_the_asked_width), SW_CASE(etches_come_before_any_cut),
         SW_CASE(small_hole_is_entered_straight_from_its_centre), SW_CASE(holes_narrower_than_the_sheet_are_found),
         SW_CASE(turned_slot_is_as_wide_as_it_is), SW_CASE(hole_that_the_kerf_swallows_is_found),
         SW_CASE(slot_narrower_than_the_kerf_is_found), SW_CASE(thin_web_is_found),
         SW_CASE(pieces_without_room_for_a_lead_in_are_found),
         SW_CASE(sheet_without_a_laser_row_has_an_unknown_finding_and_no_program),
         SW_CASE(laser_figures_out_of_range_are_named), SW_CASE(empty_sheet_gives_an_empty_plan),
         SW_CASE(cancel_stops_the_planning), SW_CASE(every_failed_request_for_memory_is_reported))
