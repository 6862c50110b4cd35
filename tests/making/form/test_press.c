/* Orders of bends, what they strike, die and gauge, on small pieces. */
#include "form_scenes.h"

static const sw_form_piece *only(const sw_form_result *r)
{
    return r == NULL ? NULL : &r->pieces[0];
}

static bool channel_bends(sw_test *t, double flange_mm)
{
    form_scene *s = scene_new(t);
    s->works.press.punch_high_mm = 400; /* the flange stays below the beam */
    scene_add(s, scene_channel(t, 60, flange_mm, 300, 2, 3));
    const sw_form_result *r = scene_solved(s);
    return r != NULL && only(r)->bendable;
}

static void channel_is_bent_up_to_the_flange_of_the_closed_form(sw_test *t)
{
    double low = 30, high = 60;
    for (int i = 0; i < 12; i++) {
        double middle = (low + high) / 2;
        if (channel_bends(t, middle))
            low = middle;
        else
            high = middle;
    }
    /* to the mid-lines; thickness, bend radius and over-bend take a little of it */
    double limit_mm = sw_channel_flange_mm(60, 20);
    sw_near(t, low, limit_mm, 2.5, "handbook 2.7: h at most w - p/sqrt(2)");
    sw_true(t, low <= limit_mm + 0.5);
}

static void too_high_a_channel_fails_with_what_it_strikes_and_what_would_help(sw_test *t)
{
    form_scene *s = scene_new(t);
    scene_add(s, scene_channel(t, 70, 66, 300, 2, 3));
    const sw_form_result *r = scene_solved(s);
    if (r == NULL || !scene_judged(s, r, "sequence", SW_FAILS)) return;
    const sw_finding *f = scene_finding(r, "sequence");
    sw_contains(t, f->what, "into the punch");
    sw_contains(t, f->what, "flange");
    sw_contains(t, f->remedy, "goose-neck");
    sw_true(t, !only(r)->bendable && only(r)->step_count == 0);
}

static void goose_neck_punch_bends_a_higher_channel(sw_test *t)
{
    form_scene *s = scene_new(t);
    s->works.press.neck_mm = 45;
    scene_add(s, scene_channel(t, 70, 66, 300, 2, 3));
    const sw_form_result *r = scene_solved(s);
    if (r == NULL || !scene_judged(s, r, "sequence", SW_HOLDS)) return;
    sw_true(t, only(r)->steps[1].punch != SW_FORM_STRAIGHT);
}

/* A straight punch for the first stroke would be free of wear and a set-up more. */
static void goose_neck_that_one_stroke_needs_makes_them_all(sw_test *t)
{
    form_scene *s = scene_new(t);
    s->works.press.neck_mm = 45;
    scene_add(s, scene_channel(t, 70, 66, 300, 2, 3));
    const sw_form_result *r = scene_solved(s);
    if (r == NULL || !sw_true(t, only(r)->step_count == 2)) return;
    sw_true(t, only(r)->dies == 1 && only(r)->steps[0].punch == only(r)->steps[1].punch);
    sw_near(t, only(r)->press_setup_s, 720, 1e-9, "derived: one set-up of tools");
}

static void straight_punch_stays_where_nothing_needs_another(sw_test *t)
{
    form_scene *s = scene_new(t);
    s->works.press.neck_mm = 45;
    scene_add(s, scene_channel(t, 70, 30, 300, 2, 3));
    const sw_form_result *r = scene_solved(s);
    if (r == NULL || !sw_true(t, only(r)->step_count == 2)) return;
    sw_true(t, only(r)->steps[0].punch == SW_FORM_STRAIGHT && only(r)->steps[1].punch == SW_FORM_STRAIGHT);
}

static void flanges_to_both_sides_take_one_turn_over(sw_test *t)
{
    form_scene *s = scene_new(t);
    maker *m = scene_channel(t, 200, 40, 300, 2, 3);
    m->bends[1].angle_rad = -SW_PI / 2;
    scene_add(s, m);
    const sw_form_result *r = scene_solved(s);
    if (r == NULL) return;
    sw_true(t, only(r)->bendable && only(r)->turns_over == 1 && only(r)->dies == 1 && only(r)->step_count == 2);
    sw_true(t, only(r)->steps[1].turn_over && !only(r)->steps[0].turn_over);
    sw_true(t, only(r)->steps[0].front_up != only(r)->steps[1].front_up);
}

/* Web between the bends long enough for the die; the lip folds back over the base. */
static maker *twice_bent(sw_test *t, double web_mm, double lip_mm)
{
    maker *m = maker_new(&t->run, 1, 3);
    int base = maker_rectangle(m, "base", 300, 400);
    int web = scene_flange(m, base, 1, web_mm, SW_PI / 2);
    (void)scene_flange(m, web, 2, lip_mm, SW_PI / 2);
    m->bends[0].name = "web bend";
    m->bends[1].name = "lip bend";
    m->bends[0].radius_mm = m->bends[1].radius_mm = 4;
    return m;
}

static void edge_bent_twice_is_bent_from_the_outside_in(sw_test *t)
{
    form_scene *s = scene_new(t);
    scene_add(s, twice_bent(t, 40, 22));
    const sw_form_result *r = scene_solved(s);
    if (r == NULL || !sw_true(t, only(r)->bendable)) return;
    sw_same_text(t, only(r)->steps[0].bends[0]->name, "lip bend");
    sw_true(t, only(r)->turns_over == 0);
}

/* A lap set off by a step of 45 degrees, with a flange standing up at its end. */
static maker *joggled(sw_test *t, double lap_mm)
{
    maker *m = maker_new(&t->run, 1, 3);
    int base = maker_rectangle(m, "base", 300, 200);
    int web = scene_flange(m, base, 1, 3, SW_PI / 4), lap = scene_flange(m, web, 2, lap_mm, -SW_PI / 4);
    (void)scene_flange(m, lap, 2, 30, SW_PI / 2);
    m->bends[0].radius_mm = m->bends[1].radius_mm = m->bends[2].radius_mm = 4;
    m->bends[2].name = "standing flange";
    return m;
}

static bool joggle_is_pressed(sw_test *t, double lap_mm)
{
    form_scene *s = scene_new(t);
    scene_add(s, joggled(t, lap_mm));
    const sw_form_result *r = scene_solved(s);
    return r != NULL && only(r)->bendable;
}

static void flange_beside_a_joggle_must_clear_the_joggles_tools(sw_test *t)
{
    sw_true(t, joggle_is_pressed(t, 30));
    sw_true(t, joggle_is_pressed(t, 12)); /* wider than the tools beside the step: 6 mm */
    form_scene *s = scene_new(t);
    scene_add(s, joggled(t, 1));
    const sw_form_result *r = scene_solved(s);
    if (r == NULL || !sw_true(t, !only(r)->bendable)) return;
    const sw_finding *f = scene_finding(r, "sequence");
    if (sw_true(t, f != NULL && f->verdict == SW_FAILS)) sw_contains(t, f->what, "standing flange");
}

static void bends_on_one_line_are_one_stroke(sw_test *t)
{
    form_scene *s = scene_new(t);
    maker *m = maker_new(&t->run, 1, 2);
    int base = maker_rectangle(m, "base", 300, 200);
    (void)maker_bend(m, base, 0, 20, 100);
    (void)maker_rectangle(m, "left foot", 80, 30);
    (void)maker_bend(m, base, 0, 180, 260);
    (void)maker_rectangle(m, "right foot", 80, 30);
    scene_add(s, m);
    const sw_form_result *r = scene_solved(s);
    if (r == NULL) return;
    sw_true(t, only(r)->step_count == 1 && only(r)->steps[0].bend_count == 2);
    sw_near(t, only(r)->steps[0].bent_mm, 160, 1e-9, "derived: two feet of 80");
    sw_near(t, only(r)->steps[0].length_mm, 240 - 2 * s->opt.tool_short_mm, 1e-9, "derived: from end to end");
}

static maker *tray(sw_test *t, double side_mm)
{
    maker *m = maker_new(&t->run, 1, 2);
    int base = maker_rectangle(m, "base", 260, 200);
    for (size_t i = 0; i < 4; i++) (void)scene_flange(m, base, i, side_mm, SW_PI / 2);
    return m;
}

static void tray_is_bent_where_tools_are_made_up_of_lengths_and_not_along_the_machine(sw_test *t)
{
    form_scene *s = scene_new(t);
    scene_add(s, tray(t, 50));
    const sw_form_result *r = scene_solved(s);
    sw_true(t, r != NULL && only(r)->bendable && only(r)->step_count == 4);
    s->opt.segmented = 0;
    r = scene_solved(s);
    sw_true(t, r != NULL && !only(r)->bendable);
}

static void stop_is_the_flat_length_to_the_edge(sw_test *t)
{
    form_scene *s = scene_new(t);
    maker *m = maker_bracket(&t->run, 60, 40, 300, 3, 5);
    scene_add(s, m);
    const sw_form_result *r = scene_solved(s);
    if (r == NULL || !sw_true(t, only(r)->step_count == 1)) return;
    const sw_form_step *step = &only(r)->steps[0];
    double box_mm = s->sheet->pieces[0].flat.box.y1_mm, other_mm = s->sheet->pieces[0].flat.box.x1_mm;
    double developed_mm = fabs(box_mm - 300) < 1e-6 ? other_mm : box_mm;
    double leg_mm = 40 - 8, allowance_mm = s->sheet->pieces[0].flat.bends[0].allowance_mm;
    sw_near(t, step->gauge_mm, leg_mm + allowance_mm / 2, 1e-6, "derived: flat leg and half the allowance");
    sw_near(t, developed_mm, 60 - 8 + leg_mm + allowance_mm, 1e-6, "derived: the flat's length");
    sw_true(t, step->rest == SW_FORM_CUT_EDGE && step->new_die && step->new_gauge);
    sw_near(t, step->seconds, 14 + 10, 1e-9, "derived: stroke and gauge");
    sw_near(t, only(r)->press_setup_s, 720, 1e-9, "derived: one die");
}

static void step_has_force_die_and_angle_of_the_formulas(sw_test *t)
{
    form_scene *s = scene_new(t);
    scene_add(s, maker_bracket(&t->run, 60, 40, 300, 4, 5));
    const sw_form_result *r = scene_solved(s);
    if (r == NULL || !sw_true(t, only(r)->step_count == 1)) return;
    const sw_form_step *step = &only(r)->steps[0];
    sw_near(t, step->die_mm, 32, 1e-9, "derived: the 32 die makes 5 mm");
    sw_near(t, step->radius_made_mm, 5, 1e-9, "handbook 2.2");
    sw_near(t, step->force_n, sw_press_force_n(1.5, 510, 4, 300, 32), 1e-6, "derived: at the upper Rm");
    double loaded = sw_springback_loaded_mm(5, 1.2 * 235, 210000, 4);
    sw_near(t, step->set_rad, sw_overbend_rad(loaded, 5, 4, SW_PI / 2), 1e-12, "derived: Gardiner");
    sw_near(t, step->depth_mm, sw_punch_depth_mm(32, 4, 5, step->set_rad), 1e-12, "handbook 2.3");
    sw_near(t, step->leg_shift_mm, 0, 1e-9, "derived: the radius drawn is made");
}

static void picture_shows_the_angle_under_load(sw_test *t)
{
    form_scene *s = scene_new(t);
    scene_add(s, maker_bracket(&t->run, 60, 40, 300, 3, 5));
    const sw_form_result *r = scene_solved(s);
    if (r == NULL || !sw_true(t, only(r)->step_count == 1)) return;
    const sw_form_step *step = &only(r)->steps[0];
    double turn[2] = {0};
    size_t faces = 0, tools = 0;
    for (size_t i = 0; i < step->after.count; i++) {
        const sw_form_shape *shape = &step->after.shapes[i];
        if (shape->thing != SW_FORM_SHEET) tools++;
        bool face = shape->thing == SW_FORM_SHEET && strncmp(shape->name, "bend", 4) != 0;
        if (!face || faces == 2) continue;
        turn[faces++] =
            atan2(shape->points[1].y_mm - shape->points[0].y_mm, shape->points[1].x_mm - shape->points[0].x_mm);
    }
    sw_true(t, faces == 2 && tools >= 4);
    double between = fabs(remainder(turn[0] - turn[1], SW_PI));
    sw_near(t, fmin(between, SW_PI - between), SW_PI - step->set_rad, 1e-9,
            "derived: both legs rise by half the angle");
    bool gauge = false;
    for (size_t i = 0; i < step->before.count; i++) gauge = gauge || step->before.shapes[i].thing == SW_FORM_GAUGE;
    sw_true(t, gauge);
}

static void hem_takes_two_strokes(sw_test *t)
{
    form_scene *s = scene_new(t);
    maker *m = maker_new(&t->run, 1, 1.5);
    m->k = 0.33;
    int base = maker_rectangle(m, "base", 300, 200);
    (void)scene_flange(m, base, 1, 14, SW_PI);
    m->bends[0].kind = SW_HEMMED;
    m->bends[0].radius_mm = 1;
    scene_add(s, m);
    const sw_form_result *r = scene_solved(s);
    if (r == NULL || !sw_true(t, only(r)->bendable && only(r)->step_count == 2)) return;
    sw_true(t, only(r)->steps[0].stroke == SW_FORM_PREBEND && only(r)->steps[1].stroke == SW_FORM_FLATTEN);
    sw_true(t, only(r)->steps[0].set_rad < SW_PI - only(r)->steps[0].punch_wedge_rad);
}

static void weak_press_and_short_press_are_findings(sw_test *t)
{
    form_scene *s = scene_new(t);
    s->works.press.force_n = 5e4;
    s->works.press.length_mm = 250;
    scene_add(s, maker_bracket(&t->run, 60, 40, 300, 4, 5));
    const sw_form_result *r = scene_solved(s);
    scene_judged(s, r, "press_force", SW_FAILS);
    scene_judged(s, r, "press_length", SW_FAILS);
}

static void short_flange_and_odd_radius_are_findings(sw_test *t)
{
    form_scene *s = scene_new(t);
    scene_add(s, maker_bracket(&t->run, 60, 16, 300, 4, 6));
    s->opt.leg_off_mm = 0.05;
    const sw_form_result *r = scene_solved(s);
    scene_judged(s, r, "die_flange", SW_FAILS);
    scene_judged(s, r, "radius_made", SW_FAILS);
}

static void sheet_too_thick_for_every_die_is_a_finding(sw_test *t)
{
    form_scene *s = scene_new(t);
    scene_add(s, maker_bracket(&t->run, 200, 150, 300, 10, 16));
    const sw_form_result *r = scene_solved(s);
    if (!scene_judged(s, r, "sequence", SW_FAILS)) return;
    sw_contains(t, scene_finding(r, "sequence")->what, "no die");
}

static void missing_figures_of_the_works_are_named(sw_test *t)
{
    form_scene *s = scene_new(t);
    s->works.press.force_n = s->works.press.punch_body_mm = s->works.press.bend_s = 0;
    scene_add(s, maker_bracket(&t->run, 60, 40, 300, 3, 5));
    const sw_form_result *r = scene_solved(s);
    if (!scene_judged(s, r, "press_figures", SW_UNKNOWN)) return;
    sw_contains(t, scene_finding(r, "press_figures")->what, "force");
    sw_contains(t, scene_finding(r, "press_tools")->what, "punch_body");
    sw_contains(t, scene_finding(r, "press_times")->what, "bend_time");
    s->model.works = NULL;
    r = scene_solved(s);
    scene_judged(s, r, "works", SW_UNKNOWN);
}

static void negative_figures_are_refused_each_by_name(sw_test *t)
{
    form_scene *s = scene_new(t);
    const sw_form_result *r = NULL;
    s->works.press.bend_s = -1;
    s->works.rolls.force_n = NAN;
    scene_add(s, maker_bracket(&t->run, 60, 40, 300, 3, 5));
    sw_true(t, scene_solve(s, &r) == SW_BAD_INPUT && r == NULL && t->run.error_count == 2);
    sw_same_text(t, t->run.errors[0].field, "press.bend_time");
    sw_same_text(t, t->run.errors[1].field, "rolls.force");
}

static void refuses_without_memory(sw_test *t)
{
    form_scene *s = scene_new(t);
    scene_add(s, scene_channel(t, 70, 66, 300, 2, 3));
    scene_add(s, twice_bent(t, 40, 22));
    if (scene_solved(s) == NULL) return;
    sw_arena *arenas[2] = {t->run.keep, t->run.scratch};
    for (int a = 0; a < 2; a++) {
        size_t nth = 1;
        for (; nth < 20000; nth++) {
            const sw_form_result *r = NULL;
            sw_run_clear_errors(&t->run);
            sw_arena_fail_at(arenas[a], nth);
            sw_status status = sw_form_solve(&t->run, &(sw_form_input){&s->model, s->sheet, NULL}, &s->opt, &r);
            sw_arena_fail_at(arenas[a], 0);
            if (status == SW_OK) break;
            if (!sw_true(t, status == SW_NO_MEMORY && r == NULL)) return;
        }
        sw_true(t, nth > 20 && nth < 20000);
    }
}

SW_TESTS(SW_CASE(channel_is_bent_up_to_the_flange_of_the_closed_form),
         SW_CASE(too_high_a_channel_fails_with_what_it_strikes_and_what_would_help),
         SW_CASE(goose_neck_punch_bends_a_higher_channel), SW_CASE(goose_neck_that_one_stroke_needs_makes_them_all),
         SW_CASE(straight_punch_stays_where_nothing_needs_another), SW_CASE(flanges_to_both_sides_take_one_turn_over),
         SW_CASE(edge_bent_twice_is_bent_from_the_outside_in),
         SW_CASE(flange_beside_a_joggle_must_clear_the_joggles_tools), SW_CASE(bends_on_one_line_are_one_stroke),
         SW_CASE(tray_is_bent_where_tools_are_made_up_of_lengths_and_not_along_the_machine),
         SW_CASE(stop_is_the_flat_length_to_the_edge), SW_CASE(step_has_force_die_and_angle_of_the_formulas),
         SW_CASE(picture_shows_the_angle_under_load), SW_CASE(hem_takes_two_strokes),
         SW_CASE(weak_press_and_short_press_are_findings), SW_CASE(short_flange_and_odd_radius_are_findings),
         SW_CASE(sheet_too_thick_for_every_die_is_a_finding), SW_CASE(missing_figures_of_the_works_are_named),
         SW_CASE(negative_figures_are_refused_each_by_name), SW_CASE(refuses_without_memory))
