#include "scene.h"

#include "making/sheet/sheet_parts.h"

/* ---- the gauge against the mesh ---------------------------------------------------------------- */

static void gauge_case(sw_test *t, const sw_piece *p, double chord_mm, sw_sheet_piece *piece, sw_sheet_case *c)
{
    sw_tree *tree = SW_SCRATCH(&t->run, 1, sw_tree);
    sw_complex *complex = SW_SCRATCH(&t->run, 1, sw_complex);
    sw_sheet_options opt = sw_sheet_options_defaults();
    opt.chord_mm = chord_mm;
    *c = (sw_sheet_case){tree, complex, NULL, piece};
    piece->piece = p;
    sw_ok(t, sw_sheet_tree(&t->run, p, NULL, false, tree));
    sw_ok(t, sw_sheet_fold_tree(&t->run, tree, &opt, complex, &piece->solid));
    sw_ok(t, sw_sheet_boxes(&t->run, complex, &piece->solid.mesh, &c->boxes));
}

static void the_gauge_agrees_with_the_mesh_of_random_pieces(sw_test *t)
{
    const double chord_mm = 0.02;
    for (uint64_t seed = 1; seed <= 25; seed++) {
        t->seed = seed;
        maker *m = maker_random(&t->run, seed, 0.5);
        sw_sheet_piece piece = {0};
        sw_sheet_case c;
        sw_gauge *gauge = NULL;
        const sw_mesh_tree *tree = NULL;
        gauge_case(t, &m->piece, chord_mm, &piece, &c);
        sw_ok(t, sw_gauge_make(&t->run, &c, chord_mm, &gauge));
        sw_ok(t, sw_mesh_tree_make(&t->run, &piece.solid.mesh, &tree));
        sw_vec3 low = piece.solid.low, high = piece.solid.high;
        for (int i = 0; i < 60; i++) {
            sw_vec3 p = {maker_between(m, low.x_mm - 5, high.x_mm + 5), maker_between(m, low.y_mm - 5, high.y_mm + 5),
                         maker_between(m, low.z_mm - 5, high.z_mm + 5)};
            if (i % 2 == 0) /* near the steel */
                p = sw_vec3_add(piece.solid.mesh.points[sw_random_below(&m->random, piece.solid.mesh.point_count)],
                                (sw_vec3){maker_between(m, -4, 4), maker_between(m, -4, 4), maker_between(m, -4, 4)});
            double want_mm = sw_mesh_tree_side(tree, p) > 0 ? 0.0 : sw_mesh_tree_distance(tree, p, NULL);
            double got_mm = sw_gauge_gap(gauge, p), slack_mm = 1.5 * chord_mm + 0.01 * want_mm * (want_mm < 20.0);
            if (!sw_near(t, got_mm, want_mm, slack_mm, "property: parts against the mesh within the chord error"))
                return;
        }
    }
}

/* ---- a piece that closes on itself --------------------------------------------------------------- */

/* A shell rolled so far that gap_mm is left between its ends, measured along the middle. */
static maker *open_shell(sw_test *t, double gap_mm)
{
    maker *m = maker_new(&t->run, 1, 3);
    maker_line(m, "start", 500);
    sw_bend *b = maker_bend(m, 0, 0, 0, 500);
    b->kind = SW_ROLLED;
    b->radius_mm = 150;
    b->angle_rad = 2 * SW_PI - gap_mm / 151.5;
    maker_line(m, "end", 500);
    maker_add_edge(m, 0, 1, 1);
    maker_add_edge(m, 1, 1, 1);
    return m;
}

static void the_seam_of_a_rolled_shell_is_as_wide_as_it_was_left(sw_test *t)
{
    scene *s = new_scene(t);
    add_piece(s, open_shell(t, 2.0));
    s->joints[0] = (sw_joint){.name = "seam", .a = {0, 0, 0, 0}, .b = {0, 0, 1, 1}, .gap_max_mm = 1.0};
    s->stove.joint_count = 1;
    const sw_sheet_result *r = solved(s);
    judged(s, r, "joint_gap", SW_FAILS);
    double half_rad = 2.0 / 151.5 / 2.0; /* the inner skins are nearest */
    sw_near(t, r->joints[0].gap_most_mm, 2 * 150 * sin(half_rad), 1e-3,
            "derived: chord of the inner skin over the gap");
    s->joints[0].gap_max_mm = 2.0;
    judged(s, solved(s), "joint_gap", SW_HOLDS);
}

static void a_joint_with_itself_that_names_no_other_edge_is_unknown(sw_test *t)
{
    scene *s = new_scene(t);
    add_piece(s, open_shell(t, 2.0));
    s->joints[0] = (sw_joint){.name = "seam", .a = {0, 0, 0, 0}, .b = {0, 0, -1, -1}, .gap_max_mm = 1.0};
    s->stove.joint_count = 1;
    const sw_sheet_result *r = solved(s);
    judged(s, r, "joint_gap", SW_UNKNOWN);
    sw_contains(t, find(r, "joint_gap")->remedy, "name the other edge");
}

static void the_open_corner_of_a_tray_gapes_by_what_was_left(sw_test *t)
{
    scene *s = new_scene(t);
    maker *m = maker_new(&t->run, 1, 3);
    maker_rectangle(m, "main", 200, 100);
    for (size_t side = 0; side < 2; side++) { /* flanges on the bottom and the right, each 5 mm short of the corner */
        double l = side == 0 ? 200 : 100;
        sw_bend *b = maker_bend(m, 0, side, side == 0 ? 0 : 5, side == 0 ? l - 5 : l);
        b->radius_mm = 3;
        maker_rectangle(m, side == 0 ? "low" : "high", l - 5, 40);
        maker_add_edge(m, (int)side + 1, side == 0 ? 3 : 1, 1);
    }
    add_piece(s, m);
    s->joints[0] = (sw_joint){.name = "corner", .a = {0, 0, 0, 1}, .b = {0, 0, 1, 2}, .gap_max_mm = 20};
    s->stove.joint_count = 1;
    const sw_sheet_result *r = solved(s);
    /* low: its end wall at x = 195, y from -4.5 - 1.5 to -4.5 + 1.5; high: its end wall at y = 5, x from 203 to 206 */
    double dx = 200 + 3 + 1.5 - 1.5 - 195, dy = 5 + 3 + 1.5 - 1.5;
    sw_near(t, r->joints[0].gap_most_mm, hypot(dx, dy), 1e-9, "derived: from inner corner to inner corner");
    sw_near(t, r->joints[0].gap_least_mm, hypot(dx, dy), 1e-9, "derived: the same all along");
}

/* ---- holes and rims -------------------------------------------------------------------------------- */

static maker *collar(sw_test *t, double inside_mm)
{
    maker *m = maker_new(&t->run, 1, 2);
    maker_line(m, "start", 60);
    sw_bend *b = maker_bend(m, 0, 0, 0, 60);
    b->kind = SW_ROLLED;
    b->radius_mm = inside_mm;
    b->angle_rad = 2 * SW_PI;
    maker_line(m, "end", 60);
    m->edges[m->piece.edge_count++] = (sw_edge){.name = "rim at to", .face = 1, .first = 3, .count = 1, .zone = 1};
    m->edges[m->piece.edge_count++] = (sw_edge){.name = "rim at from", .face = 1, .first = 1, .count = 1, .zone = 1};
    return m;
}

/* A plate of 3 mm with a hole of 155 mm and the collar, 150 outside, upright in it; shifted by dx. */
static scene *collar_in_plate(sw_test *t, double dx_mm)
{
    scene *s = new_scene(t);
    maker *plate = maker_new(&t->run, 1, 3);
    maker_rectangle(plate, "main", 300, 300);
    maker_hole(plate, 0, 150, 150, 155);
    plate->edges[plate->piece.edge_count++] = (sw_edge){.name = "flue hole", .count = 2, .hole = 1};
    add_piece(s, plate);
    maker *m = collar(t, 73);
    /* piece frame: x along the axis, the axis at (0, z = middle radius 74) */
    sw_frame *place = SW_KEEP(&t->run, 1, sw_frame);
    *place = (sw_frame){{0, 0, 1}, {0, 1, 0}, {-1, 0, 0}, {150 + dx_mm + 74, 150, -30}};
    m->piece.placements = place;
    add_piece(s, m);
    return s;
}

static void a_collar_in_a_hole_gapes_all_round_by_its_play(sw_test *t)
{
    scene *s = collar_in_plate(t, 1.0);
    s->joints[0] = (sw_joint){.name = "collar in hole", .a = {0, 0, 0, -1}, .b = {1, 0, -1, -1}, .gap_max_mm = 3.0};
    s->stove.joint_count = 1;
    const sw_sheet_result *r = solved(s);
    judged(s, r, "joint_gap", SW_FAILS);
    sw_near(t, r->joints[0].gap_most_mm, 3.5, 1e-9, "derived: play 2.5 + 1 off the middle");
    sw_near(t, r->joints[0].gap_least_mm, 1.5, 1e-9, "derived: play 2.5 - 1 off the middle");
    sw_near(t, r->joints[0].length_mm, SW_PI * 155, 1e-9, "drawing: round the hole");
    s->joints[0].gap_max_mm = 3.6;
    judged(s, solved(s), "joint_gap", SW_HOLDS);
}

static void the_rim_of_a_collar_can_stand_on_a_plate(sw_test *t)
{
    scene *s = collar_in_plate(t, 0.0);
    sw_frame *place = (sw_frame *)s->pieces[1].placements;
    s->pieces[0].faces = (sw_face[]){{.name = "main", .region = {.outline = s->pieces[0].faces[0].region.outline}}};
    s->pieces[0].edge_count = 0; /* no hole now */
    place->origin.z_mm = 1.5 + 0.25;
    s->joints[0] = (sw_joint){.name = "collar on plate", .a = {1, 0, 1, -1}, .b = {0, 0, -1, 0}, .gap_max_mm = 0.3};
    s->joints[1] = (sw_joint){.name = "far rim", .a = {1, 0, 0, -1}, .b = {0, 0, -1, 0}, .gap_max_mm = 0.3};
    s->stove.joint_count = 2;
    const sw_sheet_result *r = solved(s);
    sw_near(t, r->joints[0].gap_most_mm, 0.25, 1e-9,
            "derived: lifted by 0.25 mm; segment 1 of a zone is the rim at the end `from`");
    sw_near(t, r->joints[1].gap_least_mm, 60.25, 1e-9, "derived: the rim at the end `to` stands 60 mm higher");
    sw_near(t, r->joints[0].length_mm, 2 * SW_PI * 74, 1e-9, "derived: round the middle");
}

static void an_edge_that_is_not_there_is_refused(sw_test *t)
{
    const sw_edge wrong[] = {{.name = "e", .count = 1, .hole = 1},
                             {.name = "e", .count = 1, .zone = 2},
                             {.name = "e", .first = 4, .count = 1, .zone = 1},
                             {.name = "e", .face = 1, .count = 1, .zone = 1, .hole = 1}};
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        scene *s = new_scene(t);
        maker *m = collar(t, 73);
        m->edges[0] = wrong[i];
        add_piece(s, m);
        const sw_sheet_result *r = NULL;
        sw_run_clear_errors(&t->run);
        sw_true(t, sw_sheet_solve(&t->run, &s->model, &s->opt, &r) == SW_BAD_INPUT);
        sw_contains(t, t->run.errors[0].text, "names no segments");
    }
}

/* ---- slots and tabs --------------------------------------------------------------------------------- */

/* A plate whose tab of 30 x 8 mm goes through a slot of the floor plate; the whole lower side is one edge. */
static scene *tab_in_slot(sw_test *t, double slot_w_mm, double tab_mm)
{
    scene *s = new_scene(t);
    maker *wall = maker_new(&t->run, 1, 3);
    sw_vertex v[8] = {{0, 0, 0},   {85, 0, 0},  {85, -tab_mm, 0}, {115, -tab_mm, 0},
                      {115, 0, 0}, {200, 0, 0}, {200, 100, 0},    {0, 100, 0}};
    maker_face(wall, "main", v, 8);
    maker_add_edge(wall, 0, 0, 5);
    sw_frame *place = SW_KEEP(&t->run, 1, sw_frame);
    *place = standing;
    place->origin = (sw_vec3){50, 100, 1.5};
    wall->piece.placements = place;
    add_piece(s, wall);
    maker *floor = maker_new(&t->run, 1, 3);
    maker_rectangle(floor, "main", 300, 200);
    double x0 = 50 + 84.8, x1 = 50 + 115.2, y0 = 100 - slot_w_mm / 2, y1 = 100 + slot_w_mm / 2;
    sw_vertex slot[4] = {{x0, y0, 0}, {x0, y1, 0}, {x1, y1, 0}, {x1, y0, 0}};
    sw_contour *holes = SW_KEEP(&t->run, 1, sw_contour);
    holes[0] = maker_contour(floor, slot, 4);
    floor->faces[0].region.holes = holes;
    floor->faces[0].region.hole_count = 1;
    add_piece(s, floor);
    s->joints[0] = (sw_joint){.name = "tabs", .kind = SW_JOINT_SLOT_TAB, .a = {0, 0, 0, -1}, .b = {1, 0, -1, 0}};
    s->joints[0].gap_max_mm = 0.1;
    s->stove.joint_count = 1;
    return s;
}

static void a_tab_in_its_slot_is_no_gap(sw_test *t)
{
    scene *s = tab_in_slot(t, 3.4, 4.5); /* the tab stands out by 1.5 mm below */
    const sw_sheet_result *r = solved(s);
    judged(s, r, "joint_gap", SW_HOLDS);
    judged(s, r, "collision", SW_HOLDS);
    sw_near(t, r->joints[0].gap_most_mm, 0.0, 1e-9, "derived: shoulders touch, the tab is in its slot");
    s->joints[0].kind = SW_JOINT_TEE;
    r = solved(s);
    judged(s, r, "joint_gap", SW_FAILS); /* as a tee the tab below the plate counts */
    sw_near(t, r->joints[0].gap_most_mm, hypot(1.5, 0.2), 1e-9, "derived: tab below the plate to the slot's edge");
}

static void shoulders_off_the_plate_gape_though_the_tab_is_in(sw_test *t)
{
    scene *s = tab_in_slot(t, 3.4, 4.5);
    ((sw_frame *)s->pieces[0].placements)->origin.z_mm += 0.6;
    const sw_sheet_result *r = solved(s);
    judged(s, r, "joint_gap", SW_FAILS);
    sw_near(t, r->joints[0].gap_most_mm, 0.6, 1e-9, "derived: lifted by 0.6 mm");
}

static void running_out_of_memory_while_gauging_is_reported(sw_test *t)
{
    scene *s = collar_in_plate(t, 0.0);
    sw_bend *b = (sw_bend *)s->pieces[1].bends;
    const sw_vertex port[2] = {{-8, 0, -1}, {8, 0, -1}};
    const sw_mark mark = {.text = "A-01", .at = {10, 10}, .height_mm = 8};
    sw_zone_hole hole = {30, 1.0, {port, 2}};
    b->holes = &hole;
    b->hole_count = 1;
    ((sw_face *)s->pieces[0].faces)[0].marks = &mark;
    ((sw_face *)s->pieces[0].faces)[0].mark_count = 1;
    s->joints[0] = (sw_joint){.name = "in hole", .a = {0, 0, 0, -1}, .b = {1, 0, -1, -1}, .gap_max_mm = 3.0};
    s->joints[1] = (sw_joint){.name = "rims", .a = {1, 0, 0, 1}, .b = {1, 0, 1, 1}, .gap_max_mm = 99.0};
    s->stove.joint_count = 2;
    refuses_without_memory(t, s, 20);
}

SW_TESTS(SW_CASE(the_gauge_agrees_with_the_mesh_of_random_pieces),
         SW_CASE(the_seam_of_a_rolled_shell_is_as_wide_as_it_was_left),
         SW_CASE(a_joint_with_itself_that_names_no_other_edge_is_unknown),
         SW_CASE(the_open_corner_of_a_tray_gapes_by_what_was_left),
         SW_CASE(a_collar_in_a_hole_gapes_all_round_by_its_play), SW_CASE(the_rim_of_a_collar_can_stand_on_a_plate),
         SW_CASE(an_edge_that_is_not_there_is_refused), SW_CASE(a_tab_in_its_slot_is_no_gap),
         SW_CASE(shoulders_off_the_plate_gape_though_the_tab_is_in),
         SW_CASE(running_out_of_memory_while_gauging_is_reported))
