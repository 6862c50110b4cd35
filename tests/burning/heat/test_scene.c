/* The scene of plain boxes: view factors, media, sides, contacts, measures, and what is refused. */
#include "scene_maker.h"

static const sw_vec3 box_low = {-200, 0, 0}, box_size = {400, 300, 400};

static sw_scene_options many_rays(double rays)
{
    sw_scene_options opt = sw_scene_options_defaults();
    opt.rays_per_part = rays;
    return opt;
}

static size_t fire_side(const sw_scene *s, const char *name)
{
    return scene_surface_at(s, scene_part_named(s, name), SW_MEDIUM_FIRE);
}

static void a_box_of_six_plates_has_the_view_factors_of_closed_form(sw_test *t)
{
    scene_maker *m = scene_maker_new(t);
    sw_scene_options opt = many_rays(20000);
    maker_box(m, "firebox wall", box_low, box_size, 4.0);
    const sw_scene *s = maker_scene(m, &opt);
    if (!sw_true(t, s != NULL)) return;
    const char *source = "Howell, Menguc & Siegel, catalogue of configuration factors, rectangles; from memory";
    sw_near(t, scene_view(s, fire_side(s, "front"), fire_side(s, "back")), 0.282733, 6e-3, source);
    sw_near(t, scene_view(s, fire_side(s, "front"), fire_side(s, "floor")), 0.179317, 6e-3, source);
    sw_near(t, scene_view(s, fire_side(s, "front"), fire_side(s, "left")), 0.179317, 6e-3, source);
    sw_near(t, scene_view(s, fire_side(s, "floor"), fire_side(s, "front")), 0.239089, 6e-3, source);
}

static void a_box_tells_its_volume_and_area(sw_test *t)
{
    scene_maker *m = scene_maker_new(t);
    sw_scene_options opt = many_rays(20000);
    maker_box(m, "firebox wall", box_low, box_size, 4.0);
    const sw_scene *s = maker_scene(m, &opt);
    if (!sw_true(t, s != NULL)) return;
    sw_near(t, s->firebox_m3, 0.048, 0.0005, "derived: 0.4 x 0.3 x 0.4 m");
    sw_near(t, s->firebox_m2, 0.80, 0.008, "derived: six plates");
    sw_near(t, s->base_m2, 0.12, 0.002, "derived: 0.4 x 0.3 m");
    sw_near(t, s->bed_height_m, 0.0, 1e-6, "derived: top of the floor");
    sw_true(t, s->upper_m3 == 0.0 && isnan(s->throat_m2));
}

static void each_plate_shows_one_face_to_the_fire_and_one_to_the_room(sw_test *t)
{
    scene_maker *m = scene_maker_new(t);
    sw_scene_options opt = many_rays(2000);
    maker_box(m, "firebox wall", box_low, box_size, 4.0);
    const sw_scene *s = maker_scene(m, &opt);
    if (!sw_true(t, s != NULL)) return;
    size_t back = scene_part_named(s, "back");
    sw_near(t, scene_area(s, back, SW_MEDIUM_FIRE), 0.16, 0.008, "derived: 0.4 x 0.4 m");
    sw_near(t, scene_area(s, back, SW_MEDIUM_ROOM), 0.16, 0.012, "derived: 0.4 x 0.4 m and a rim");
    sw_near(t, scene_area(s, back, SW_MEDIUM_GAP), 0.0, 0.002, "derived: no shell");
    const sw_scene_surface *f = &s->surfaces[fire_side(s, "back")];
    sw_near(t, f->side, 1.0, 1e-9, "derived: upright");
    sw_near(t, f->height_m, 0.4, 0.01, "derived: 0.4 m");
    sw_near(t, f->middle_z_m, 0.2, 0.005, "derived: half of 0.4 m");
}

static void a_box_in_a_box_has_a_gap_between(sw_test *t)
{
    scene_maker *m = scene_maker_new(t);
    sw_scene_options opt = many_rays(2000);
    maker_box(m, "firebox wall", box_low, box_size, 4.0);
    maker_box(m, "shell", (sw_vec3){-244, -44, -44}, (sw_vec3){488, 388, 488}, 2.0);
    const sw_scene *s = maker_scene(m, &opt);
    if (!sw_true(t, s != NULL)) return;
    double area[2][SW_MEDIA] = {{0}};
    for (size_t i = 0; i < s->surface_count; i++)
        area[s->parts[s->surfaces[i].part].kind == SW_PART_SHELL][s->surfaces[i].medium] += s->surfaces[i].area_m2;
    sw_near(t, area[0][SW_MEDIUM_FIRE], 0.80, 0.01, "derived: inside of the inner box");
    sw_near(t, area[0][SW_MEDIUM_GAP], 0.8356, 0.01, "derived: outside of the inner box, 408 x 308 x 408 mm");
    sw_near(t, area[0][SW_MEDIUM_ROOM], 0.0, 1e-9, "derived: enclosed");
    sw_near(t, area[1][SW_MEDIUM_FIRE], 0.0, 1e-9, "derived: outside of the fire");
    sw_near(t, area[1][SW_MEDIUM_GAP], 1.2337, 0.015, "derived: inside of the outer box, 488 x 388 x 488 mm");
    sw_near(t, area[1][SW_MEDIUM_ROOM], 1.2556, 0.015, "derived: outside of the outer box, 492 x 392 x 492 mm");
    sw_near(t, s->gap_width_m, 0.040, 0.001, "derived: 40 mm all round");
}

static void rows_of_views_close_and_are_symmetric(sw_test *t)
{
    scene_maker *m = scene_maker_new(t);
    sw_scene_options opt = many_rays(300);
    maker_box(m, "firebox wall", box_low, box_size, 4.0);
    maker_box(m, "shell", (sw_vec3){-244, -44, -44}, (sw_vec3){488, 388, 488}, 2.0);
    const sw_scene *s = maker_scene(m, &opt);
    if (!sw_true(t, s != NULL)) return;
    size_t n = s->surface_count + 1;
    for (size_t i = 0; i + 1 < n; i++) {
        double sum = 0.0;
        for (size_t j = 0; j < n; j++) {
            sum += s->view_m2[i * n + j];
            if (!sw_near(t, s->view_m2[i * n + j], s->view_m2[j * n + i], 1e-15, "reciprocity")) return;
        }
        if (!sw_near(t, sum, s->surfaces[i].area_m2, 1e-8, "closure")) return;
    }
    sw_true(t, s->closure < 1e-6);
}

static void assert_same(sw_test *t, const sw_scene *a, const sw_scene *b)
{
    if (!sw_true(t, a != NULL && b != NULL && a->surface_count == b->surface_count)) return;
    size_t n = a->surface_count + 1;
    sw_true(t, memcmp(a->view_m2, b->view_m2, n * n * sizeof *a->view_m2) == 0);
    sw_true(t, a->firebox_m3 == b->firebox_m3);
}

static void one_thread_and_four_give_the_same_bytes(sw_test *t)
{
    scene_maker *m = scene_maker_new(t);
    sw_scene_options opt = many_rays(300);
    maker_box(m, "firebox wall", box_low, box_size, 4.0);
    t->run.threads = 1;
    const sw_scene *one = maker_scene(m, &opt);
    t->run.threads = 4;
    assert_same(t, one, maker_scene(m, &opt));
}

static void another_seed_agrees_within_the_scatter(sw_test *t)
{
    scene_maker *m = scene_maker_new(t);
    sw_scene_options opt = many_rays(5000);
    maker_box(m, "firebox wall", box_low, box_size, 4.0);
    for (uint64_t seed = 1; seed <= 5; seed++) {
        sw_test *with_seed = t;
        with_seed->seed = opt.seed = seed;
        const sw_scene *s = maker_scene(m, &opt);
        if (!sw_true(t, s != NULL)) return;
        double view = scene_view(s, fire_side(s, "front"), fire_side(s, "back"));
        if (!sw_near(t, view, 0.282733, 0.02, "derived: three standard deviations of 2500 rays")) return;
    }
}

/* ---- sides and contacts ---- */

static void a_board_before_a_wall_touches_it_and_faces_the_fire(sw_test *t)
{
    scene_maker *m = scene_maker_new(t);
    sw_scene_options opt = many_rays(2000);
    maker_box(m, "firebox wall", box_low, box_size, 4.0);
    maker_board(m, "board", "lining", 380, 380, 25, maker_frame(-190, 299.5, 10, 'x', 'z'));
    const sw_scene *s = maker_scene(m, &opt);
    if (!sw_true(t, s != NULL)) return;
    size_t board = scene_part_named(s, "board"), back = scene_part_named(s, "back");
    sw_true(t, s->parts[board].layered);
    size_t at = scene_surface_at(s, board, SW_MEDIUM_FIRE);
    if (!sw_true(t, at != SIZE_MAX && s->surfaces[at].hot_side)) return;
    sw_near(t, s->surfaces[at].area_m2, 0.38 * 0.38 + 4 * 0.38 * 0.025, 0.01, "derived: face and rim");
    for (size_t i = 0; i < s->contact_count; i++) {
        const sw_scene_contact *c = &s->contacts[i];
        if (c->a != back || c->b != board) continue;
        sw_near(t, c->area_m2, 0.38 * 0.38, 0.006, "derived: the whole back of it");
        sw_near(t, c->gap_m, 0.0005, 2e-5, "derived: half a millimetre");
        return;
    }
    sw_true(t, false);
}

/* A flat roof between two low edges, which single lines along the stove miss: two faces, and a rim of known length. */
static void points_stand_for_all_the_skin_of_a_part_with_narrow_edges(sw_test *t)
{
    static const sw_vertex roof[] = {{0, 0, 0}, {300, 0, 0}, {300, 30, 0}, {150, 130, 0}, {0, 30, 0}};
    const double face_m2 = 0.3 * 0.03 + 0.15 * 0.1, rim_m = 0.3 + 2 * 0.03 + 2 * hypot(0.15, 0.1), thick_m = 0.004;
    for (uint64_t seed = 1; seed <= 8; seed++) {
        scene_maker *m = scene_maker_new(t);
        sw_scene_options opt = many_rays(60);
        opt.seed = seed;
        maker_box(m, "firebox wall", box_low, box_size, 4.0);
        maker_plate(m, "baffle", "baffle", 300, 130, 4, maker_frame(-150, 150, 200, 'x', 'y'));
        m->faces[m->stove.piece_count - 1].region.outline = (sw_contour){roof, 5};
        const sw_scene *s = maker_scene(m, &opt);
        if (!sw_true(t, s != NULL)) return;
        double shown_m2 = 0;
        for (size_t i = 0; i < s->surface_count; i++)
            if (s->surfaces[i].part == scene_part_named(s, "baffle")) shown_m2 += s->surfaces[i].area_m2;
        sw_near(t, shown_m2, 2 * face_m2 + rim_m * thick_m, 1e-7, "derived: conservation of area");
    }
}

static void a_joint_becomes_an_edge_contact(sw_test *t)
{
    scene_maker *m = scene_maker_new(t);
    sw_scene_options opt = many_rays(300);
    maker_box(m, "firebox wall", box_low, box_size, 4.0);
    m->joints[m->stove.joint_count++] = (sw_joint){
        .name = "j", .seam = SW_SEAM_FILLET, .a = {0, 0, 0, -1}, .b = {4, 0, -1, 0}, .stitch_mm = 25, .pitch_mm = 100};
    const sw_scene *s = maker_scene(m, &opt);
    if (!sw_true(t, s != NULL)) return;
    double edge_m = 0.0;
    for (size_t i = 0; i < s->contact_count; i++) edge_m += s->contacts[i].edge_m;
    sw_near(t, edge_m, 0.025, 1e-12, "derived: 100 mm, stitches of 25 in 100 mm");
}

static void a_small_part_gives_its_mass_to_what_it_touches(sw_test *t)
{
    scene_maker *m = scene_maker_new(t);
    sw_scene_options opt = many_rays(300);
    maker_box(m, "firebox wall", box_low, box_size, 4.0);
    maker_plate(m, "bracket", "bracket", 100, 50, 4, maker_frame(-50, 298, 100, 'x', 'z'));
    const sw_scene *s = maker_scene(m, &opt);
    if (!sw_true(t, s != NULL)) return;
    sw_true(t, scene_part_named(s, "bracket") == SIZE_MAX);
    double bracket = m->sheet.pieces[6].mass_kg, back = m->sheet.pieces[1].mass_kg;
    sw_near(t, s->parts[scene_part_named(s, "back")].mass_kg, back + bracket, 1e-12, "conservation of mass");
}

static void the_parts_weigh_as_much_as_the_stove(sw_test *t)
{
    scene_maker *m = scene_maker_new(t);
    sw_scene_options opt = many_rays(100);
    maker_box(m, "firebox wall", box_low, box_size, 4.0);
    maker_plate(m, "bracket", "bracket", 100, 50, 4, maker_frame(-50, 298, 100, 'x', 'z'));
    sw_item *rope = maker_board(m, "rope", "rope", 1, 1, 1, sw_frame_world());
    rope->shape.outline.n = 0;
    const sw_scene *s = maker_scene(m, &opt);
    if (!sw_true(t, s != NULL)) return;
    double parts = 0.0, all = 1.0;
    for (size_t i = 0; i < s->part_count; i++) parts += s->parts[i].mass_kg;
    for (size_t i = 0; i < m->sheet.piece_count; i++) all += m->sheet.pieces[i].mass_kg;
    sw_near(t, parts, all, 1e-12, "conservation of mass");
}

/* ---- baffle, throat, collar ---- */

static void the_throat_is_what_the_baffle_leaves_open(sw_test *t)
{
    scene_maker *m = scene_maker_new(t);
    sw_scene_options opt = many_rays(4000);
    maker_box(m, "firebox wall", box_low, box_size, 4.0);
    maker_plate(m, "baffle", "baffle", 396, 220, 4, maker_frame(-198, 80, 300, 'x', 'y'));
    const sw_scene *s = maker_scene(m, &opt);
    if (!sw_true(t, s != NULL)) return;
    sw_near(t, s->throat_m2, 0.4 * 0.08, 0.0017, "derived: 400 x 80 mm; ruled every 4 mm");
    sw_near(t, s->throat_height_m, 0.3, 0.002, "derived: height of the baffle");
    sw_near(t, s->firebox_m3, 0.4 * 0.3 * 0.298, 0.0007, "derived: below the baffle");
    sw_near(t, s->upper_m3, 0.4 * 0.3 * 0.1, 0.0005, "derived: above the baffle");
    size_t baffle = scene_part_named(s, "baffle");
    sw_near(t, scene_area(s, baffle, SW_MEDIUM_FIRE), 0.396 * 0.22, 0.004, "derived: lower face");
    sw_near(t, scene_area(s, baffle, SW_MEDIUM_UPPER), 0.396 * 0.22, 0.005, "derived: upper face");
}

/* ---- what is refused or found ---- */

static void a_stove_without_firebox_is_refused_with_the_roles_that_make_one(sw_test *t)
{
    scene_maker *m = scene_maker_new(t);
    sw_scene_options opt = many_rays(100);
    const sw_scene *s = NULL;
    maker_box(m, "shell", box_low, box_size, 2.0);
    maker_fold(m);
    sw_true(t, sw_scene_make(&t->run, &m->stove, &m->sheet, &opt, &s) == SW_BAD_INPUT && s == NULL);
    sw_contains(t, t->run.errors[0].text, "\"firebox wall\"");
}

static void an_empty_stove_is_refused(sw_test *t)
{
    scene_maker *m = scene_maker_new(t);
    sw_scene_options opt = many_rays(100);
    const sw_scene *s = NULL;
    maker_fold(m);
    sw_true(t, sw_scene_make(&t->run, &m->stove, &m->sheet, &opt, &s) == SW_BAD_INPUT && s == NULL);
}

static void an_option_out_of_range_is_named(sw_test *t)
{
    scene_maker *m = scene_maker_new(t);
    sw_scene_options opt = many_rays(1);
    const sw_scene *s = NULL;
    maker_box(m, "firebox wall", box_low, box_size, 4.0);
    maker_fold(m);
    sw_true(t, sw_scene_make(&t->run, &m->stove, &m->sheet, &opt, &s) == SW_OUT_OF_RANGE);
    sw_contains(t, t->run.errors[0].field, "rays_per_part");
}

static void odd_parts_are_found(sw_test *t)
{
    scene_maker *m = scene_maker_new(t);
    sw_scene_options opt = many_rays(300);
    maker_box(m, "firebox wall", box_low, box_size, 4.0);
    maker_plate(m, "odd", "wobble", 20, 20, 2, maker_frame(0, 150, 100, 'x', 'y'));
    maker_plate(m, "loose", "log guard", 100, 50, 2, maker_frame(-50, 150, 200, 'x', 'z'));
    maker_board(m, "pane", "glazing", 100, 100, 4, maker_frame(-50, -300, 100, 'x', 'z'))->material = "window glass";
    const sw_scene *s = maker_scene(m, &opt);
    if (!sw_true(t, s != NULL)) return;
    sw_true(t, scene_finds(s, "role"));
    sw_true(t, scene_finds(s, "material"));
    sw_true(t, scene_finds(s, "held"));
    sw_true(t, scene_finds(s, "pane"));
    sw_true(t, scene_finds(s, "flue_collar"));
    sw_true(t, scene_finds(s, "baffle"));
}

static void a_door_whose_window_has_no_pane_fails(sw_test *t)
{
    for (int with_pane = 0; with_pane < 2; with_pane++) {
        scene_maker *m = scene_maker_new(t);
        sw_scene_options opt = many_rays(60);
        maker_box(m, "firebox wall", box_low, box_size, 4.0);
        maker_plate(m, "door", "door", 200, 200, 4, maker_frame(-100, -30, 100, 'x', 'z'));
        sw_contour *window = SW_KEEP(&t->run, 1, sw_contour);
        sw_ok(t, sw_contour_rectangle(&t->run, (sw_box){50, 50, 150, 150}, 0.0, window));
        m->faces[m->stove.piece_count - 1].region.holes = window;
        m->faces[m->stove.piece_count - 1].region.hole_count = 1;
        if (with_pane == 1) maker_board(m, "pane", "glass", 120, 120, 4, maker_frame(-60, -20, 140, 'x', 'z'));
        const sw_scene *s = maker_scene(m, &opt);
        if (!sw_true(t, s != NULL)) return;
        sw_true(t, scene_finds(s, "open_window") == (with_pane == 0));
    }
}

static void every_refused_request_for_memory_ends_in_no_memory(sw_test *t)
{
    scene_maker *m = scene_maker_new(t);
    sw_scene_options opt = many_rays(60);
    maker_box(m, "firebox wall", box_low, box_size, 4.0);
    maker_board(m, "board", "lining", 380, 380, 25, maker_frame(-190, 299.5, 10, 'x', 'z'));
    maker_fold(m);
    for (int which = 0; which < 2; which++)
        for (size_t nth = 1;; nth++) {
            const sw_scene *s = NULL;
            sw_arena *arena = which == 0 ? t->run.keep : t->run.scratch;
            sw_arena_fail_at(arena, nth);
            sw_status status = sw_scene_make(&t->run, &m->stove, &m->sheet, &opt, &s);
            sw_arena_fail_at(arena, 0);
            if (status == SW_OK) break;
            if (!sw_true(t, status == SW_NO_MEMORY && s == NULL)) return;
        }
}

SW_TESTS(SW_CASE(a_box_of_six_plates_has_the_view_factors_of_closed_form), SW_CASE(a_box_tells_its_volume_and_area),
         SW_CASE(each_plate_shows_one_face_to_the_fire_and_one_to_the_room), SW_CASE(a_box_in_a_box_has_a_gap_between),
         SW_CASE(rows_of_views_close_and_are_symmetric), SW_CASE(one_thread_and_four_give_the_same_bytes),
         SW_CASE(another_seed_agrees_within_the_scatter), SW_CASE(a_board_before_a_wall_touches_it_and_faces_the_fire),
         SW_CASE(points_stand_for_all_the_skin_of_a_part_with_narrow_edges), SW_CASE(a_joint_becomes_an_edge_contact),
         SW_CASE(a_small_part_gives_its_mass_to_what_it_touches), SW_CASE(the_parts_weigh_as_much_as_the_stove),
         SW_CASE(the_throat_is_what_the_baffle_leaves_open),
         SW_CASE(a_stove_without_firebox_is_refused_with_the_roles_that_make_one), SW_CASE(an_empty_stove_is_refused),
         SW_CASE(an_option_out_of_range_is_named), SW_CASE(odd_parts_are_found),
         SW_CASE(a_door_whose_window_has_no_pane_fails), SW_CASE(every_refused_request_for_memory_ends_in_no_memory))
