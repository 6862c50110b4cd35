#include "scene.h"

/* ---- bends ----------------------------------------------------------------------------------- */

static void a_good_bracket_holds_in_every_check(sw_test *t)
{
    scene *s = new_scene(t);
    maker *m = maker_bracket(&t->run, 60, 40, 100, 3, 5);
    maker_hole(m, 0, 50, 40, 8);
    add_piece(s, m);
    const sw_sheet_result *r = solved(s);
    if (!sw_true(t, r != NULL)) return;
    for (size_t i = 0; i < r->findings.count; i++) sw_true(t, r->findings.items[i].verdict == SW_HOLDS);
    static const char *const checks[] = {"flat_sound", "least_radius", "least_flange", "hole_to_bend",
                                         "least_hole", "fits_stock",   "collision",    "self_collision"};
    for (size_t i = 0; i < sizeof checks / sizeof *checks; i++) judged(s, r, checks[i], SW_HOLDS);
    sw_near(t, r->mass_kg, r->pieces[0].flat.area_mm2 * 3 * 7850e-9, 1e-12,
            "contract: flat area x thickness x density");
}

static void the_least_radius_depends_on_the_rolling_direction(sw_test *t)
{
    scene *s = new_scene(t);
    maker *m = maker_bracket(&t->run, 60, 40, 100, 4, 5);
    m->piece.turns = SW_TURN_QUARTER;
    sw_piece *p = add_piece(s, m);
    const sw_sheet_result *r = solved(s);
    judged(s, r, "least_radius", SW_WATCH);
    sw_near(t, find(r, "least_radius")->limit, 5, 0.0, "DIN 6935:1975-10, s over 3 to 4, Rm up to 390");
    p->turns = SW_TURN_FIXED; /* the bend lies along x, the rolling direction */
    r = solved(s);
    judged(s, r, "least_radius", SW_FAILS);
    sw_near(t, find(r, "least_radius")->limit, 6, 0.0,
            "DIN 6935:1975-10, next thicker column along the rolling direction");
    sw_contains(t, find(r, "least_radius")->remedy, "a larger inside radius");
    m->bends[0].radius_mm = 4;
    p->turns = SW_TURN_FREE;
    judged(s, solved(s), "least_radius", SW_FAILS);
}

static void a_radius_too_small_across_the_rolling_is_not_mended_by_turning_the_piece(sw_test *t)
{
    scene *s = new_scene(t);
    maker *m = maker_bracket(&t->run, 60, 40, 100, 4, 4);
    m->piece.turns = SW_TURN_QUARTER;
    add_piece(s, m);
    const sw_sheet_result *r = solved(s);
    judged(s, r, "least_radius", SW_FAILS);
    sw_contains(t, find(r, "least_radius")->remedy, "a larger inside radius");
    m->bends[0].radius_mm = 5; /* enough across, not along */
    r = solved(s);
    judged(s, r, "least_radius", SW_WATCH);
    sw_contains(t, find(r, "least_radius")->remedy, "fix how the piece lies");
}

static void a_flange_shorter_than_the_die_needs_fails(sw_test *t)
{
    scene *s = new_scene(t);
    add_piece(s, maker_bracket(&t->run, 60, 17, 100, 3, 4));
    const sw_sheet_result *r = solved(s);
    judged(s, r, "least_flange", SW_HOLDS);
    sw_near(t, find(r, "least_flange")->value, 17, 1e-9, "drawing: flange outside");
    sw_near(t, find(r, "least_flange")->limit, 14 + 0.8 * 3.5, 1e-9,
            "air bending chart, V 20: 14, V 25: 17.5; die V 24 by straight line");
    s->stove.piece_count = 0;
    add_piece(s, maker_bracket(&t->run, 60, 16, 100, 3, 4));
    judged(s, solved(s), "least_flange", SW_FAILS);
    s->works.press.dies_mm = (double[]){16};
    s->works.press.die_count = 1;
    r = solved(s);
    judged(s, r, "least_flange", SW_UNKNOWN);
    sw_contains(t, find(r, "least_flange")->what, "no die");
}

static void a_short_web_between_two_bends_fails_unless_it_is_a_joggle(sw_test *t)
{
    scene *s = new_scene(t);
    maker *m = maker_bracket(&t->run, 60, 15, 100, 3, 3);
    maker_bend(m, 1, 2, 0, 100);
    maker_rectangle(m, "tip", 100, 30);
    add_piece(s, m);
    judged(s, solved(s), "least_flange", SW_FAILS); /* a channel with a narrow web */
    m->bends[1].angle_rad = -SW_PI / 2;             /* a Z: needs joggle tools */
    const sw_sheet_result *r = solved(s);
    judged(s, r, "least_flange", SW_HOLDS);
    judged(s, r, "joggle", SW_UNKNOWN);
    sw_near(t, find(r, "joggle")->value, 15 - 6 + 2 * 3 + 3, 1e-9, "derived: straight + 2 r + s");
    s->works.press.joggle_least_mm = 20;
    judged(s, solved(s), "joggle", SW_FAILS);
    s->works.press.joggle_least_mm = 9;
    judged(s, solved(s), "joggle", SW_HOLDS);
}

static void a_hem_needs_a_leg_of_four_thicknesses(sw_test *t)
{
    scene *s = new_scene(t);
    maker *m = maker_bracket(&t->run, 60, 13, 100, 3, 0);
    m->bends[0].kind = SW_HEMMED;
    m->bends[0].angle_rad = SW_PI;
    m->bends[0].k = 0.33;
    add_piece(s, m);
    const sw_sheet_result *r = solved(s);
    judged(s, r, "hem_leg", SW_HOLDS);
    judged(s, r, "self_collision", SW_HOLDS); /* a closed hem touches */
    s->stove.piece_count = 0;
    m = maker_bracket(&t->run, 60, 11, 100, 3, 0);
    m->bends[0].kind = SW_HEMMED;
    m->bends[0].angle_rad = SW_PI;
    m->bends[0].k = 0.33;
    add_piece(s, m);
    judged(s, solved(s), "hem_leg", SW_FAILS);
}

static void a_hole_near_a_bend_fails(sw_test *t)
{
    scene *s = new_scene(t);
    maker *m = maker_bracket(&t->run, 60, 40, 100, 3, 4);
    double half = sw_bend_allowance_mm(4, 3, sw_din6935_k(4, 3) / 2, SW_PI / 2) / 2;
    maker_hole(m, 0, 50, 10 - half + 4 + 0.1, 8);
    add_piece(s, m);
    const sw_sheet_result *r = solved(s);
    judged(s, r, "hole_to_bend", SW_HOLDS);
    sw_near(t, find(r, "hole_to_bend")->limit, 10, 1e-12, "design rule: 2 s + r");
    sw_near(t, find(r, "hole_to_bend")->value, 10.1, 1e-6, "derived: edge of the hole to the middle of the zone");
    maker_hole(m, 1, 50, 9.9 - half + 2, 4);
    r = solved(s);
    judged(s, r, "hole_to_bend", SW_FAILS);
    sw_near(t, find(r, "hole_to_bend")->value, 9.9, 1e-6, "derived: edge of the hole to the middle of the zone");
    sw_contains(t, find(r, "hole_to_bend")->where, "flange");
}

static void a_hole_narrower_than_the_sheet_fails(sw_test *t)
{
    scene *s = new_scene(t);
    maker *m = maker_new(&t->run, 1, 3);
    maker_rectangle(m, "main", 200, 100);
    maker_hole(m, 0, 50, 50, 3.0);
    add_piece(s, m);
    judged(s, solved(s), "least_hole", SW_HOLDS);
    sw_contour slot; /* slanting, 2.5 wide */
    sw_ok(t, sw_contour_slot(&t->run, (sw_point){100, 40}, (sw_point){130, 60}, 2.5, &slot));
    sw_ok(t, sw_contour_reversed(&t->run, slot, &slot));
    sw_contour holes[2] = {m->faces[0].region.holes[0], slot};
    m->faces[0].region.holes = holes;
    m->faces[0].region.hole_count = 2;
    const sw_sheet_result *r = solved(s);
    judged(s, r, "least_hole", SW_FAILS);
    sw_near(t, find(r, "least_hole")->value, 2.5, 1e-9, "drawing: width of the slanting slot");
}

/* A plate with a flange on part of its lower edge, notched beside it. */
static maker *notched(sw_run *run, double w, double d)
{
    maker *m = maker_new(run, 1, 3);
    sw_vertex v[8] = {{0, -7, 0}, {50 - w, -7, 0}, {50 - w, d, 0}, {50, d, 0},
                      {50, 0, 0}, {200, 0, 0},     {200, 150, 0},  {0, 150, 0}};
    maker_face(m, "main", v, 8);
    maker_bend(m, 0, 4, 0, 150)->radius_mm = 4;
    maker_rectangle(m, "flange", 150, 40);
    return m;
}

static void a_bend_beside_material_needs_a_relief(sw_test *t)
{
    scene *s = new_scene(t);
    add_piece(s, notched(&t->run, 3.0, 7.0));
    const sw_sheet_result *r = solved(s);
    judged(s, r, "relief", SW_HOLDS);
    judged(s, r, "flat_sound", SW_HOLDS);
    s->stove.piece_count = 0;
    add_piece(s, notched(&t->run, 2.0, 7.0));
    r = solved(s);
    judged(s, r, "relief", SW_FAILS);
    sw_contains(t, find(r, "relief")->what, "wide");
    s->stove.piece_count = 0;
    add_piece(s, notched(&t->run, 3.0, 2.0));
    r = solved(s);
    judged(s, r, "relief", SW_FAILS);
    sw_contains(t, find(r, "relief")->what, "deep");
    s->stove.piece_count = 0;
    maker *m = maker_new(&t->run, 1, 3); /* a bend on the middle of a plain edge */
    maker_rectangle(m, "main", 200, 150);
    maker_bend(m, 0, 0, 50, 150)->radius_mm = 4;
    maker_rectangle(m, "flange", 100, 40);
    add_piece(s, m);
    r = solved(s);
    judged(s, r, "relief", SW_FAILS);
    sw_contains(t, find(r, "relief")->what, "no relief");
}

/* ---- flat and stock ------------------------------------------------------------------------------ */

static void a_flat_that_lies_on_itself_fails_and_names_the_parts(sw_test *t)
{
    scene *s = new_scene(t);
    maker *m = maker_new(&t->run, 1, 3);
    sw_vertex v[6] = {{0, 0, 0}, {200, 0, 0}, {200, 100, 0}, {100, 100, 0}, {100, 200, 0}, {0, 200, 0}};
    maker_face(m, "main", v, 6);
    maker_bend(m, 0, 2, 5, 95);
    maker_rectangle(m, "up", 90, 60);
    maker_bend(m, 0, 3, 5, 95);
    maker_rectangle(m, "across", 90, 60);
    add_piece(s, m);
    const sw_sheet_result *r = solved(s);
    judged(s, r, "flat_sound", SW_FAILS);
    sw_contains(t, find(r, "flat_sound")->what, "up and across");
}

static void flats_must_go_onto_a_sheet_in_stock(sw_test *t)
{
    scene *s = new_scene(t);
    sw_piece *p = add_plate(s, 950, 1990, standing);
    p->turns = SW_TURN_QUARTER;
    judged(s, solved(s), "fits_stock", SW_HOLDS);
    p->turns = SW_TURN_HALF;
    const sw_sheet_result *r = solved(s);
    judged(s, r, "fits_stock", SW_FAILS);
    sw_near(t, find(r, "fits_stock")->limit, 1000, 1e-9, "works: width of the sheet");
    p->thickness_mm = 5;
    r = solved(s);
    judged(s, r, "stock", SW_FAILS);
    sw_contains(t, find(r, "stock")->what, "no sheet of S235 5 mm");
    s->model.works = NULL;
    judged(s, solved(s), "stock", SW_UNKNOWN);
}

/* ---- fit ----------------------------------------------------------------------------------------- */

static sw_joint joint_of(int a_edge, double gap_mm)
{
    return (sw_joint){.name = "plate to plate",
                      .kind = SW_JOINT_TEE,
                      .a = {0, 0, a_edge, -1},
                      .b = {1, 0, -1, 0},
                      .gap_max_mm = gap_mm};
}

static void touching_plates_do_not_collide_and_their_joint_closes(sw_test *t)
{
    scene *s = new_scene(t);
    sw_frame up = standing;
    up.origin = (sw_vec3){0, 50, 1.5}; /* stands on the floor plate's upper skin */
    add_plate(s, 200, 100, up);
    add_plate(s, 300, 200, sw_frame_world());
    s->joints[0] = joint_of(0, 0.5);
    s->stove.joint_count = 1;
    const sw_sheet_result *r = solved(s);
    judged(s, r, "collision", SW_HOLDS);
    judged(s, r, "joint_gap", SW_HOLDS);
    sw_near(t, r->joints[0].gap_most_mm, 0.0, 1e-9, "derived: touches all along");
    sw_near(t, r->joints[0].length_mm, 200, 1e-9, "drawing: length of the edge");
}

static void a_slanting_plate_gapes_by_its_rise(sw_test *t)
{
    scene *s = new_scene(t);
    sw_frame up = standing;
    up = sw_frame_turned(up, (sw_vec3){0, 1, 0}, -0.01);
    up.origin = (sw_vec3){0, 50, 1.5};
    add_plate(s, 200, 100, up);
    add_plate(s, 300, 200, sw_frame_world());
    s->joints[0] = joint_of(0, 0.5);
    s->stove.joint_count = 1;
    const sw_sheet_result *r = solved(s);
    judged(s, r, "joint_gap", SW_FAILS);
    sw_near(t, r->joints[0].gap_most_mm, 200 * sin(0.01), 1e-6, "derived: rise of the far end");
    sw_near(t, r->joints[0].gap_least_mm, 0.0, 1e-6, "derived: the near end touches");
    sw_near(t, r->joints[0].worst.x_mm, 200 * cos(0.01), 1e-6, "derived: at the far end");
}

static void a_plate_through_another_collides_where_they_cross(sw_test *t)
{
    scene *s = new_scene(t);
    sw_frame up = standing;
    up.origin = (sw_vec3){50, 50, -50};
    add_plate(s, 200, 100, up);
    add_plate(s, 300, 200, sw_frame_world());
    const sw_sheet_result *r = solved(s);
    judged(s, r, "collision", SW_FAILS);
    sw_true(t, find(r, "collision")->value > 0.05 && find(r, "collision")->value < 3.0);
    up.origin.z_mm = 1.5 - 0.3; /* only 0.3 mm in */
    sw_frame *place = sw_keep(&t->run, 1, sizeof *place);
    *place = up;
    s->pieces[0].placements = place;
    r = solved(s);
    judged(s, r, "collision", SW_FAILS);
    place->origin.z_mm = 1.5 - 0.04; /* less than contact */
    judged(s, solved(s), "collision", SW_HOLDS);
}

static void copies_of_one_piece_collide_too(sw_test *t)
{
    scene *s = new_scene(t);
    sw_frame places[2] = {sw_frame_world(), sw_frame_world()};
    places[1].origin = (sw_vec3){100, 0, 1};
    sw_piece *p = add_plate(s, 300, 200, places[0]);
    p->placements = places;
    p->count = 2;
    const sw_sheet_result *r = solved(s);
    judged(s, r, "collision", SW_FAILS);
    sw_contains(t, find(r, "collision")->where, "place 2");
    sw_near(t, r->mass_kg, 2 * 300 * 200 * 3 * 7850e-9, 1e-9, "derived: two plates");
    places[1].origin.z_mm = 3;
    judged(s, solved(s), "collision", SW_HOLDS);
}

/* Skins in one plane and walls that end in it cross nowhere, and yet the plates overlap. */
static void plates_that_overlap_in_one_plane_collide(sw_test *t)
{
    for (double shift = 10.0; shift < 300.0; shift += 48.3) {
        scene *s = new_scene(t);
        sw_frame places[2] = {sw_frame_world(), sw_frame_world()};
        places[1].origin.x_mm = shift;
        sw_piece *p = add_plate(s, 300, 200, places[0]);
        p->placements = places;
        p->count = 2;
        if (!judged(s, solved(s), "collision", SW_FAILS)) return;
    }
    scene *s = new_scene(t);
    sw_frame places[2] = {sw_frame_world(), sw_frame_world()};
    places[1].origin.x_mm = 300.0;
    sw_piece *p = add_plate(s, 300, 200, places[0]);
    p->placements = places;
    p->count = 2;
    judged(s, solved(s), "collision", SW_HOLDS); /* edge to edge */
}

static void equal_plates_in_the_same_place_collide(sw_test *t)
{
    scene *s = new_scene(t);
    add_plate(s, 300, 200, standing);
    add_plate(s, 300, 200, standing);
    judged(s, solved(s), "collision", SW_FAILS);
}

static void flanges_that_meet_when_folded_collide(sw_test *t)
{
    scene *s = new_scene(t);
    maker *m = maker_new(&t->run, 1, 3);
    maker_rectangle(m, "main", 100, 60);
    maker_bend(m, 0, 0, 0, 100)->radius_mm = 4;
    maker_rectangle(m, "low", 100, 60);
    maker_bend(m, 0, 2, 0, 100)->radius_mm = 4;
    maker_rectangle(m, "high", 100, 60);
    add_piece(s, m);
    judged(s, solved(s), "self_collision", SW_HOLDS);
    m->bends[0].angle_rad = m->bends[1].angle_rad = sw_rad_from_deg(135.0);
    const sw_sheet_result *r = solved(s);
    judged(s, r, "self_collision", SW_FAILS);
    sw_contains(t, find(r, "self_collision")->what, "low and high");
}

static void a_full_shell_with_butting_ends_does_not_collide_with_itself(sw_test *t)
{
    scene *s = new_scene(t);
    maker *m = maker_new(&t->run, 1, 3);
    maker_line(m, "start", 500);
    sw_bend *b = maker_bend(m, 0, 0, 0, 500);
    b->kind = SW_ROLLED;
    b->radius_mm = 150;
    b->angle_rad = 2 * SW_PI;
    maker_line(m, "end", 500);
    add_piece(s, m);
    judged(s, solved(s), "self_collision", SW_HOLDS);
}

static void bad_pieces_are_all_named_before_the_study_stops(sw_test *t)
{
    scene *s = new_scene(t);
    add_piece(s, maker_bracket(&t->run, 60, 40, 100, 3, -0.5))->name = "first";
    add_piece(s, maker_bracket(&t->run, 60, 40, 100, 3, 4));
    add_piece(s, maker_bracket(&t->run, 60, 40, 100, 3, -0.2))->name = "third";
    const sw_sheet_result *r = NULL;
    sw_true(t, sw_sheet_solve(&t->run, &s->model, &s->opt, &r) == SW_BAD_INPUT);
    sw_true(t, r == NULL && t->run.error_count == 2);
    sw_contains(t, t->run.errors[0].text, "first");
    sw_contains(t, t->run.errors[1].text, "third");
}

static void a_bend_that_no_rule_covers_is_a_finding_and_the_study_goes_on(sw_test *t)
{
    scene *s = new_scene(t);
    maker *m = maker_bracket(&t->run, 60, 40, 100, 3, 0.5);
    m->bends[0].kind = SW_HEMMED;
    m->bends[0].angle_rad = SW_PI;
    add_piece(s, m);
    add_piece(s, maker_bracket(&t->run, 60, 40, 100, 3, 4))->placements = &standing;
    const sw_sheet_result *r = solved(s);
    judged(s, r, "bend_rule", SW_FAILS);
    sw_contains(t, find(r, "bend_rule")->remedy, "give k");
    sw_near(t, find(r, "bend_rule")->value, 0.5 / 3.0, 1e-12, "drawing: inside radius by thickness");
    sw_true(t, r->pieces[0].flat.unruled == &s->pieces[0].bends[0] && r->pieces[1].flat.unruled == NULL);
    judged(s, r, "least_radius", SW_WATCH); /* the second piece is judged as ever */
    m->bends[0].k = 0.33;
    r = solved(s);
    sw_true(t, r != NULL && find(r, "bend_rule") == NULL && r->pieces[0].flat.unruled == NULL);
}

/* ---- marks ---------------------------------------------------------------------------------------- */

static void what_is_etched_must_lie_on_its_face(sw_test *t)
{
    const sw_vertex line[2] = {{20, 20, 0}, {180, 80, 0}}, over[2] = {{20, 20, 0}, {220, 80, 0}};
    const struct {
        sw_mark mark;
        sw_verdict verdict;
    } rows[] = {{{.text = "A-01", .at = {10, 10}, .height_mm = 8}, SW_HOLDS},
                {{.text = "A-01", .at = {180, 10}, .height_mm = 8}, SW_FAILS},
                {{.text = "A-01", .at = {10, -4}, .height_mm = 8}, SW_FAILS},
                {{.text = "A-01", .at = {250, 10}, .height_mm = 8}, SW_FAILS},
                {{.text = "A-01", .at = {90, 46}, .height_mm = 8}, SW_FAILS}, /* over the hole */
                {{.text = "A-01", .at = {195, 10}, .height_mm = 8, .turn_rad = SW_PI / 2}, SW_HOLDS},
                {{.text = "A-01", .at = {5, 10}, .height_mm = 8, .turn_rad = SW_PI / 2}, SW_FAILS},
                {{.text = "", .path = {line, 2}}, SW_FAILS}, /* through the hole */
                {{.text = "", .path = {over, 2}}, SW_FAILS}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        scene *s = new_scene(t);
        maker *m = maker_new(&t->run, 1, 3);
        maker_rectangle(m, "main", 200, 100);
        maker_hole(m, 0, 100, 50, 4);
        m->faces[0].marks = &rows[i].mark;
        m->faces[0].mark_count = 1;
        add_piece(s, m);
        const sw_sheet_result *r = solved(s);
        if (!judged(s, r, "mark_inside", rows[i].verdict)) return;
        if (rows[i].verdict == SW_FAILS) sw_contains(t, find(r, "mark_inside")->where, "face main, mark 1");
    }
}

static void sides_of_an_octagon_need_no_relief(sw_test *t)
{
    scene *s = new_scene(t);
    maker *m = maker_new(&t->run, 1, 3);
    sw_vertex v[8];
    for (int i = 0; i < 8; i++) {
        double a = SW_PI / 8.0 * (2 * i + 1);
        v[i] = (sw_vertex){300 + 200 * cos(a), 300 + 200 * sin(a), 0};
    }
    maker_face(m, "main", v, 8);
    double side_mm = 400 * sin(SW_PI / 8.0);
    for (size_t i = 0; i < 8; i++) {
        maker_bend(m, 0, i, 0, side_mm)->radius_mm = 4;
        maker_rectangle(m, "flange", side_mm, 40);
    }
    add_piece(s, m);
    const sw_sheet_result *r = solved(s);
    sw_true(t, r != NULL && find(r, "relief") == NULL);
}

static void running_out_of_memory_anywhere_is_reported(sw_test *t)
{
    scene *s = new_scene(t);
    sw_frame up = standing;
    up.origin = (sw_vec3){0, 50, 1};
    add_plate(s, 200, 100, up);
    add_plate(s, 300, 200, sw_frame_world());
    maker *m = maker_bracket(&t->run, 60, 15, 100, 3, 3);
    maker_hole(m, 0, 50, 30, 8);
    add_piece(s, m);
    s->joints[0] = joint_of(0, 0.5);
    s->stove.joint_count = 1;
    refuses_without_memory(t, s, 20);
}

SW_TESTS(SW_CASE(a_good_bracket_holds_in_every_check), SW_CASE(the_least_radius_depends_on_the_rolling_direction),
         SW_CASE(a_radius_too_small_across_the_rolling_is_not_mended_by_turning_the_piece),
         SW_CASE(a_flange_shorter_than_the_die_needs_fails),
         SW_CASE(a_short_web_between_two_bends_fails_unless_it_is_a_joggle),
         SW_CASE(a_hem_needs_a_leg_of_four_thicknesses), SW_CASE(a_hole_near_a_bend_fails),
         SW_CASE(a_hole_narrower_than_the_sheet_fails), SW_CASE(a_bend_beside_material_needs_a_relief),
         SW_CASE(a_flat_that_lies_on_itself_fails_and_names_the_parts), SW_CASE(flats_must_go_onto_a_sheet_in_stock),
         SW_CASE(touching_plates_do_not_collide_and_their_joint_closes), SW_CASE(a_slanting_plate_gapes_by_its_rise),
         SW_CASE(a_plate_through_another_collides_where_they_cross), SW_CASE(copies_of_one_piece_collide_too),
         SW_CASE(plates_that_overlap_in_one_plane_collide), SW_CASE(equal_plates_in_the_same_place_collide),
         SW_CASE(flanges_that_meet_when_folded_collide),
         SW_CASE(a_full_shell_with_butting_ends_does_not_collide_with_itself),
         SW_CASE(bad_pieces_are_all_named_before_the_study_stops),
         SW_CASE(a_bend_that_no_rule_covers_is_a_finding_and_the_study_goes_on),
         SW_CASE(what_is_etched_must_lie_on_its_face), SW_CASE(sides_of_an_octagon_need_no_relief),
         SW_CASE(running_out_of_memory_anywhere_is_reported))
