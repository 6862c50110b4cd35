#include "reading.h"

#define BOX "{ outline = rectangle {100*mm, 60*mm} }"
#define PLACED(number, name, places)                                                                                   \
    "piece { number = '" number "', name = '" name "', group = 'g', material = 'S235', thickness = 4*mm, face = " BOX  \
    ", " places " }\n"

static void near_vector(sw_test *t, sw_vec3 got, double x, double y, double z)
{
    sw_near(t, got.x_mm, x, 1e-9, "derived");
    sw_near(t, got.y_mm, y, 1e-9, "derived");
    sw_near(t, got.z_mm, z, 1e-9, "derived");
}

static void a_stove_keeps_its_name_duty_groups_and_openings(sw_test *t)
{
    const sw_model *model = NULL;
    if (!sw_ok(
            t,
            read_status(
                t,
                "stove { name = 'ember', title = 'A stove', note = 'Invented for demonstration.', duty = { output = 6.5*kW, refuel = 45*min, efficiency = 81*percent, fuel = 'birch' } }\n"
                "group('shell', { title = 'Shell', explode = {0*mm, -200*mm, 10*mm} }) group('door')\n"
                "opening { name = 'slot', kind = 'rear jet', area = 900*mm2, height = 520*mm }",
                NULL, &model)))
        return;
    const sw_stove *s = model->stove;
    sw_same_text(t, s->name, "ember");
    sw_same_text(t, s->title, "A stove");
    sw_near(t, s->duty.output_w, 6500.0, 1e-9, "as written");
    sw_near(t, s->duty.refuel_s, 2700.0, 0.0, "as written");
    sw_near(t, s->duty.efficiency, 0.81, 1e-15, "as written");
    sw_same_text(t, s->duty.fuel, "birch");
    sw_true(t, s->group_count == 2);
    near_vector(t, s->groups[0].explode, 0.0, -200.0, 10.0);
    sw_same_text(t, s->groups[1].title, "door");
    sw_same_text(t, s->openings[0].kind, "rear jet");
    sw_near(t, s->openings[0].area_mm2, 900.0, 0.0, "as written");
    sw_same_text(t, model->stove_file, "test.stove.lua");
    sw_true(t, model->works == NULL && model->house == NULL);
    sw_same_text(t, model->works_file, "");
}

static void a_piece_keeps_what_it_is_told(sw_test *t)
{
    const sw_stove *s = read_stove(
        t,
        "\npiece { number = 'A-7', name = 'baffle', group = 'g', role = 'baffle', material = '1.4301', thickness = 2.5*mm, turns = 'half', flip = true, face = " BOX
        ", places = { { at = {1*mm, 2*mm, 3*mm} }, { at = {0*mm, 0*mm, 90*mm} } } }");
    if (s == NULL) return;
    const sw_piece *p = &s->pieces[0];
    sw_same_text(t, p->number, "A-7");
    sw_same_text(t, p->role, "baffle");
    sw_same_text(t, p->grade->name, "1.4301");
    sw_true(t, p->turns == SW_TURN_HALF && p->may_flip && p->count == 2 && p->mirror_of == -1);
    sw_true(t, p->place.line == 4);
    sw_same_text(t, p->place.file, "test.stove.lua");
    near_vector(t, p->placements[1].origin, 0.0, 0.0, 90.0);
    sw_true(t, sw_stove_piece_index(s, "A-7") == 0);
}

static void a_place_puts_the_named_surface_at_its_point(sw_test *t)
{
    const sw_stove *s = read_stove(
        t, PLACED("1", "mid", "place = { at = {1*mm, 2*mm, 3*mm}, x = 'back', y = 'up' }")
               PLACED("2", "front", "place = { at = {1*mm, 2*mm, 3*mm}, x = 'back', y = 'up', surface = 'front' }")
                   PLACED("3", "rear", "place = { at = {1*mm, 2*mm, 3*mm}, x = 'left', y = 'up', surface = 'rear' }"));
    if (s == NULL) return;
    near_vector(t, s->pieces[0].placements[0].origin, 1.0, 2.0, 3.0);
    near_vector(t, s->pieces[0].placements[0].z, 1.0, 0.0, 0.0); /* back x up = right */
    near_vector(t, s->pieces[1].placements[0].origin, -1.0, 2.0, 3.0);
    near_vector(t, s->pieces[2].placements[0].z, 0.0, 1.0, 0.0); /* left x up = back */
    near_vector(t, s->pieces[2].placements[0].origin, 1.0, 4.0, 3.0);
}

static void a_turn_goes_about_its_axis_through_the_place(sw_test *t)
{
    const sw_stove *s = read_stove(
        t,
        PLACED("1", "own",
               "place = { at = {10*mm, 0*mm, 0*mm}, x = 'right', y = 'back', turn = { axis = 'up', angle = 90*deg } }")
            PLACED(
                "2", "about",
                "place = { at = {10*mm, 0*mm, 0*mm}, x = 'right', y = 'back', turn = { axis = 'up', angle = 90*deg, about = {0*mm, 0*mm, 0*mm} } }"));
    if (s == NULL) return;
    near_vector(t, s->pieces[0].placements[0].origin, 10.0, 0.0, 0.0);
    near_vector(t, s->pieces[0].placements[0].x, 0.0, 1.0, 0.0);
    near_vector(t, s->pieces[1].placements[0].origin, 0.0, 10.0, 0.0);
}

static void relative_places_follow_the_other_piece_in_any_order(sw_test *t)
{
    const sw_stove *s = read_stove(
        t, PLACED("1", "ear", "place = { at = {5*mm, 0*mm, 2*mm}, x = 'right', y = 'back', relative_to = 'wall' }")
               PLACED("2", "wall", "place = { at = {100*mm, 0*mm, 0*mm}, x = 'back', y = 'up' }"));
    if (s == NULL) return;
    near_vector(t, s->pieces[0].placements[0].origin, 102.0, 5.0, 0.0); /* wall: x back, y up, z right */
    near_vector(t, s->pieces[0].placements[0].x, 0.0, 1.0, 0.0);
}

/* ---- mirrored copies ---- */

#define SIDE                                                                                                                                                                                                                                                                                                                                                                                               \
    "piece { number = 'A', name = 'left', group = 'g', material = 'S235', thickness = 3*mm, face = { outline = polygon { {0*mm, 0*mm}, {200*mm, 0*mm, sweep = 60*deg}, {180*mm, 90*mm}, {0*mm, 70*mm} },\n"                                                                                                                                                                                                \
    "  holes = { hole { at = {30*mm, 20*mm}, d = 9*mm } }, bends = { { on = 'edge 1', height = 40*mm, gap_end = 10*mm, face = { bends = { { on = 'tip', from = 20*mm, height = 20*mm, angle = -60*deg, name = 'lip' } } } }, { on = 'edge 4', kind = 'roll', radius = 50*mm, angle = 70*deg, height = 25*mm, holes = { { hole { at = {1*mm, 2*mm}, d = 6*mm }, along = 20*mm, angle = 30*deg } } } } },\n" \
    "  place = { at = {-200*mm, 30*mm, 10*mm}, x = 'back', y = 'up', turn = { axis = 'back', angle = 20*deg } } }\n"

static bool world_has(const sw_piece *p, const sw_frame *frames, sw_vec3 wanted)
{
    for (size_t f = 0; f < p->face_count; f++)
        for (size_t i = 0; i < p->faces[f].region.outline.n; i++) {
            sw_point v = vertex(p, f, i);
            sw_vec3 world = sw_frame_point(p->placements[0], sw_frame_point(frames[f], (sw_vec3){v.x_mm, v.y_mm, 0.0}));
            if (sw_vec3_length(sw_vec3_sub(world, wanted)) < 1e-6) return true;
        }
    return false;
}

static void a_mirrored_copy_folds_to_the_mirror_image(sw_test *t)
{
    static const char *const planes[] = {"x", "y", "z"};
    for (int plane = 0; plane < 3; plane++) {
        const sw_stove *s = read_stove(
            t, sw_text_format(&t->run, t->run.keep,
                              SIDE "mirror('left', { number = 'B', name = 'right', plane = '%s', at = 15*mm })",
                              planes[plane]));
        if (s == NULL) return;
        const sw_piece *a = &s->pieces[0], *b = &s->pieces[1];
        sw_frame frames_a[8], frames_b[8];
        sw_true(t, b->mirror_of == 0 && a->face_count == 4 && b->face_count == 4);
        fold(a, frames_a);
        fold(b, frames_b);
        for (size_t f = 0; f < a->face_count; f++) {
            sw_near(t, sw_contour_area(b->faces[f].region.outline), sw_contour_area(a->faces[f].region.outline), 1e-9,
                    "invariance");
            for (size_t i = 0; i < a->faces[f].region.outline.n; i++) {
                sw_point v = vertex(a, f, i);
                sw_vec3 world =
                    sw_frame_point(a->placements[0], sw_frame_point(frames_a[f], (sw_vec3){v.x_mm, v.y_mm, 0.0}));
                if (plane == 0) world.x_mm = 30.0 - world.x_mm;
                if (plane == 1) world.y_mm = 30.0 - world.y_mm;
                if (plane == 2) world.z_mm = 30.0 - world.z_mm;
                if (!sw_true(t, world_has(b, frames_b, world))) return;
            }
        }
    }
}

static void a_mirrored_copy_keeps_edges_holes_and_its_own_number(sw_test *t)
{
    const sw_stove *s = read_stove(t, SIDE "mirror('A', { number = 'B', name = 'right', plane = 'x' })");
    if (s == NULL) return;
    const sw_piece *a = &s->pieces[0], *b = &s->pieces[1];
    sw_true(t, a->edge_count == b->edge_count);
    for (size_t i = 0; i < a->edge_count; i++) {
        const sw_edge *x = &a->edges[i], *y = &b->edges[i];
        sw_same_text(t, y->name, x->name);
        if (x->zone > 0) continue; /* rims: test_edges.c */
        sw_contour ca = a->faces[x->face].region.outline, cb = b->faces[y->face].region.outline;
        sw_point end_a = vertex(a, (size_t)x->face, (x->first + x->count) % ca.n),
                 end_b = vertex(b, (size_t)y->face, (y->first + y->count) % cb.n);
        double la = sw_segment_length(ca.v[x->first], end_a), lb = sw_segment_length(cb.v[y->first], end_b);
        sw_near(t, lb, la, 1e-9, "invariance");
    }
    sw_near(t, sw_contour_area(b->faces[0].region.holes[0]), sw_contour_area(a->faces[0].region.holes[0]), 1e-9,
            "invariance: still clockwise");
    sw_near(t, b->bends[2].holes[0].along_mm,
            hypot(b->bends[2].to.x_mm - b->bends[2].from.x_mm, b->bends[2].to.y_mm - b->bends[2].from.y_mm) - 20.0,
            1e-9, "derived");
    sw_near(t, sw_contour_centroid(b->bends[2].holes[0].contour).x_mm, -1.0, 1e-9, "derived");
    sw_same_text(t, b->faces[0].marks[0].text, "B");
    sw_same_text(t, b->role, "other");
}

static void a_hinge_keeps_its_axis_and_what_it_carries(sw_test *t)
{
    const sw_stove *s = read_stove(
        t, PLACED("1", "door", "place = { at = {0*mm, 0*mm, 0*mm} }")
               PLACED("2", "lug", "place = { at = {0*mm, 0*mm, 90*mm} }") "hinge { name = 'fire door', at = { -130*mm, "
                                                                          "-300*mm }, opens = -90*deg, carries = { "
                                                                          "'door', '2' } }");
    if (s == NULL || !sw_true(t, s->hinge_count == 1 && s->hinges[0].carried == 2)) return;
    const sw_hinge *h = &s->hinges[0];
    sw_same_text(t, h->name, "fire door");
    sw_true(t, h->at.x_mm == -130.0 && h->at.y_mm == -300.0);
    sw_near(t, h->open_rad, -SW_PI / 2, 1e-12, "-90 deg");
    sw_same_text(t, h->carries[0], "door");
    sw_same_text(t, h->carries[1], "2");
}

static void a_mirror_of_a_mirror_stands_where_the_first_stood(sw_test *t)
{
    const sw_stove *s = read_stove(t, "mirror('right', { number = 'C', name = 'again', plane = 'x', at = 5*mm })\n" SIDE
                                      "mirror('left', { number = 'B', name = 'right', plane = 'x', at = 5*mm })");
    if (s == NULL) return;
    const sw_piece *a = &s->pieces[1], *c = &s->pieces[0];
    sw_true(t, c->mirror_of == 2);
    near_vector(t, c->placements[0].origin, a->placements[0].origin.x_mm, a->placements[0].origin.y_mm,
                a->placements[0].origin.z_mm);
    near_vector(t, c->placements[0].x, a->placements[0].x.x_mm, a->placements[0].x.y_mm, a->placements[0].x.z_mm);
    for (size_t i = 0; i < a->faces[0].region.outline.n; i++) {
        sw_point p = vertex(a, 0, i);
        sw_true(t, has_vertex(c, 0, p.x_mm, p.y_mm));
    }
}

/* ---- items and joints ---- */

static void an_item_finds_its_mass(sw_test *t)
{
    const sw_stove *s = read_stove(
        t,
        "item { number = '1', name = 'grate', group = 'g', role = 'grate', kind = 'cast', material = 'EN-GJL-200', mass = 3.2*kg, price = 14, place = { at = {0*mm, 0*mm, 0*mm} } }\n"
        "item { number = '2', name = 'board', group = 'g', kind = 'board', material = 'vermiculite board', thickness = 25*mm, shape = rectangle {400*mm, 300*mm}, holes = { window { rectangle {100*mm, 100*mm}, at = {50*mm, 50*mm} } }, places = { { at = {0*mm, 0*mm, 0*mm} }, { at = {0*mm, 0*mm, 25*mm} } } }\n"
        "item { number = '3', name = 'seal', group = 'g', kind = 'rope', material = 'glass rope', length = 1.6*m, mass_per_m = 0.08*kg/m, place = { at = {0*mm, 0*mm, 0*mm} } }");
    if (s == NULL) return;
    sw_near(t, s->items[0].mass_kg, 3.2, 0.0, "as written");
    sw_near(t, s->items[0].price, 14.0, 0.0, "as written");
    sw_near(t, s->items[1].mass_kg, 0.11 * 0.025 * 650.0, 1e-9, "derived: area x thickness x 650 kg/m3");
    sw_true(t, s->items[1].count == 2 && s->items[1].shape.hole_count == 1 && isnan(s->items[1].price));
    sw_near(t, s->items[2].mass_kg, 0.128, 1e-12, "derived: 1.6 m x 0.08 kg/m");
    sw_true(t, s->items[2].kind == SW_ITEM_ROPE && s->items[0].shape.outline.n == 0);
}

static void a_rope_tells_what_it_lies_in(sw_test *t)
{
    const sw_stove *s = read_stove(
        t,
        "local function seal(n, more) local i = { number = n, name = n, group = 'g', kind = 'rope', material = 'glass rope', mass = 0.1*kg, place = { at = {0*mm, 0*mm, 0*mm} } } for k, v in pairs(more) do i[k] = v end item(i) end\n"
        "seal('1', { d = 10*mm, groove = { depth = 6*mm, width = 14*mm }, joint = 1.5*mm })\n"
        "seal('2', { d = 12*mm, groove = { depth = 0*mm, width = 23*mm }, joint = 9*mm }) seal('3', { d = 8*mm })");
    if (s == NULL) return;
    const sw_item *deep = &s->items[0], *flat = &s->items[1], *loose = &s->items[2];
    sw_true(t,
            deep->rope_mm == 10 && deep->groove_depth_mm == 6 && deep->groove_width_mm == 14 && deep->joint_mm == 1.5);
    sw_true(t, flat->groove_depth_mm == 0 && flat->groove_width_mm == 23);
    sw_true(t, loose->rope_mm == 8 && loose->groove_width_mm == 0);
}

static void an_item_lies_on_the_surface_it_names(sw_test *t)
{
    const sw_stove *s = read_stove(
        t,
        "local function glass(n, where) item { number = n, name = n, group = 'g', kind = 'glass', material = 'glass-ceramic', thickness = 4*mm, shape = rectangle {90*mm, 80*mm}, place = { at = {0*mm, 0*mm, 50*mm}, surface = where } } end\n"
        "glass('1', nil) glass('2', 'rear') glass('3', 'front')");
    if (s == NULL) return;
    sw_near(t, s->items[0].placements[0].origin.z_mm, 50.0, 0.0, "as written");
    sw_near(t, s->items[1].placements[0].origin.z_mm, 50.0, 0.0, "as written");
    sw_near(t, s->items[2].placements[0].origin.z_mm, 46.0, 0.0, "derived: one thickness below");
}

static void a_joint_finds_pieces_edges_and_faces(sw_test *t)
{
    const sw_stove *s = read_stove(
        t,
        PIECE(
            "1", "p",
            "{ outline = rectangle {100*mm, 60*mm}, bends = { { on = 'left', height = 20*mm, name = 'flange' }, { on = 'top', from = 30*mm, to = 70*mm, height = 20*mm } } }")
            PIECE(
                "2", "q",
                BOX) "joint { name = 'a', kind = 'corner', seam = 'outside corner', throat = 2*mm, gap = 0.3*mm, tight = true, a = { 'p', edge = 'flange.tip' }, b = { '2', edge = 'main.right' } }\n"
                     "joint { name = 'b', kind = 'slot and tab', a = { 'p', edge = 'top 2' }, b = { 'q', face = 'main' } }\n"
                     "joint { name = 'c', kind = 'lap', seam = 'fillet', throat = 2*mm, stitch = 30*mm, pitch = 100*mm, a = { 'p', edge = 'right' }, b = { 'q' } }");
    if (s == NULL) return;
    const sw_joint *a = &s->joints[0], *b = &s->joints[1], *c = &s->joints[2];
    sw_true(t, a->kind == SW_JOINT_CORNER && a->seam == SW_SEAM_OUTSIDE && a->tight && a->throat_mm == 2.0 &&
                   a->gap_max_mm == 0.3);
    sw_same_text(t, s->pieces[0].edges[a->a.edge].name, "flange.tip");
    sw_true(t, a->a.face == 1 && a->b.piece == 1 && a->b.face == 0);
    sw_same_text(t, s->pieces[1].edges[a->b.edge].name, "right");
    sw_same_text(t, s->pieces[0].edges[b->a.edge].name, "top 2");
    sw_true(t, b->kind == SW_JOINT_SLOT_TAB && b->seam == SW_SEAM_NONE && b->b.edge == -1 && b->b.face == 0);
    sw_true(t, c->b.edge == -1 && c->b.face == -1 && c->stitch_mm == 30.0 && c->pitch_mm == 100.0);
}

static void loops_and_formulas_make_pieces(sw_test *t)
{
    const sw_stove *s = read_stove(
        t,
        "local w = 100*mm\nfor i = 1, 5 do\n  piece { number = 'A-' .. i, name = 'rib ' .. i, group = 'g', material = 'DC01', thickness = 2*mm, face = { outline = rectangle {w + i*10*mm, 60*mm} }, place = { at = {i*w, 0*mm, 0*mm} } }\nend");
    if (s == NULL) return;
    sw_true(t, s->piece_count == 5);
    sw_box box = sw_contour_box(s->pieces[4].faces[0].region.outline);
    sw_near(t, box.x1_mm, 150.0, 1e-12, "derived");
    sw_same_text(t, s->pieces[4].number, "A-5");
    sw_true(t, s->pieces[4].place.line == 5);
}

SW_TESTS(SW_CASE(a_stove_keeps_its_name_duty_groups_and_openings), SW_CASE(a_piece_keeps_what_it_is_told),
         SW_CASE(a_place_puts_the_named_surface_at_its_point), SW_CASE(a_turn_goes_about_its_axis_through_the_place),
         SW_CASE(relative_places_follow_the_other_piece_in_any_order),
         SW_CASE(a_mirrored_copy_folds_to_the_mirror_image),
         SW_CASE(a_mirrored_copy_keeps_edges_holes_and_its_own_number),
         SW_CASE(a_hinge_keeps_its_axis_and_what_it_carries),
         SW_CASE(a_mirror_of_a_mirror_stands_where_the_first_stood), SW_CASE(an_item_finds_its_mass),
         SW_CASE(a_rope_tells_what_it_lies_in), SW_CASE(an_item_lies_on_the_surface_it_names),
         SW_CASE(a_joint_finds_pieces_edges_and_faces), SW_CASE(loops_and_formulas_make_pieces))
