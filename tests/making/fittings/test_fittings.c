/* Boards, panes, ropes, grates: single formulas, packing, and the study on a small box with a lining. */
#include "making/fittings/fittings.h"
#include "sw_test.h"

#include <math.h>
#include <string.h>

static void steel_and_glass_grow_as_in_the_handbook(sw_test *t)
{
    sw_near(t, 500 * sw_fit_elongation(SW_STEEL, sw_k_from_c(300)), 1.859, 5e-4, "handbook W11.1: steel at 300 degC");
    sw_near(t, 500 * sw_fit_elongation(SW_GLASS, sw_k_from_c(500)), 0.12, 1e-9, "handbook W11.1: glass, +480 K");
    static const double at_c[] = {100, 200, 300, 400, 500, 600, 700};
    static const double mm_m[] = {0.998, 2.318, 3.718, 5.198, 6.758, 8.398, 10.118};
    for (int i = 0; i < 7; i++)
        sw_near(t, 1000 * sw_fit_elongation(SW_STEEL, sw_k_from_c(at_c[i])), mm_m[i], 6e-4,
                "handbook 11.1: EN 1993-1-2, 3.4.1.1");
    sw_true(t, isnan(sw_fit_elongation(SW_ROPE, 500)) && isnan(sw_fit_elongation(SW_BOARD, 1200)));
}

static void fit_rule_gives_room_only_to_what_outgrows_its_place(sw_test *t)
{
    sw_near(t, sw_fit_clearance_mm(2.0, 0.5, 0.4), 2.4, 1e-12, "derived: 2 - 0.5 + 0.4 + 0.5");
    sw_near(t, sw_fit_clearance_mm(0.12, 1.859, 0.4), 0, 0, "derived: glass in a steel frame opens");
    sw_near(t, sw_fit_growth_mm(300, 12e-6, 580), 2.09, 5e-3, "handbook 11.4: grate");
    sw_near(t, sw_grate_clearance_mm(300, 12e-6, 580), 2.0, 0.05, "handbook 11.4: 2 mm a side");
}

static void rope_is_pressed_as_in_the_handbook(sw_test *t)
{
    sw_near(t, sw_rope_compression(10, 6, 1.5), 0.25, 1e-12, "handbook 11.2: d 10, g 6, j 1.5");
    sw_near(t, sw_rope_compression(12, 8, 2), 0.167, 4e-4, "handbook 11.2: d 12, g 8, j 2, too little");
    sw_near(t, sw_rope_fill(10, 10, 7.5), SW_PI * 25 / 75, 1e-12, "derived: section over groove");
    sw_near(t, sw_rope_length_mm(1300, 1.02), 1326, 1e-9, "handbook 11.2");
    sw_true(t, isnan(sw_rope_length_mm(1300, 0.9)) && isnan(sw_rope_fill(10, 0, 5)));
}

static void bolts_lose_half_near_500_degrees(sw_test *t)
{
    sw_near(t, sw_bolt_factor(sw_k_from_c(500)), 0.55, 1e-12, "EN 1993-1-2 table D.1 (from memory)");
    sw_near(t, sw_bolt_factor(sw_k_from_c(20)), 1, 0, "EN 1993-1-2 table D.1 (from memory)");
    for (int c = 20; c < 1000; c += 10)
        sw_true(t, sw_bolt_factor(sw_k_from_c(c + 10)) <= sw_bolt_factor(sw_k_from_c(c)));
    sw_true(t, isnan(sw_bolt_factor(sw_k_from_c(1100))));
}

static void ball_drop_has_the_energies_of_the_handbook(sw_test *t)
{
    sw_near(t, sw_ball_kg(100), 4.11, 5e-3, "EN 356: 100 mm ball of 4.11 kg");
    sw_near(t, sw_ball_mm(sw_ball_kg(73)), 73, 1e-9, "derived: inverse");
    static const double h_mm[] = {100, 200, 250, 500, 1000, 1500};
    static const double energy[] = {9.807, 19.613, 24.517, 49.033, 98.066, 147.100};
    for (int i = 0; i < 6; i++)
        sw_near(t, sw_drop_j(10, h_mm[i]), energy[i], 6e-4, "type-test handbook, 10 kg ball, computed");
    sw_near(t, sw_drop_height_mm(5, 10), 51.0, 0.05, "handbook TT-9: IK08");
    sw_near(t, sw_drop_height_mm(10, 10), 102.0, 0.05, "handbook TT-9: IK09");
    sw_near(t, sw_drop_height_mm(20, 10), 203.9, 0.05, "handbook TT-9: IK10");
    double v = sw_drop_m_s(500);
    sw_near(t, 0.5 * 10 * v * v, sw_drop_j(10, 500), 1e-9, "derived: energy is kept");
    sw_near(t, sw_drop_j(4.11, 9000), 362.75, 6e-3, "EN 356 P4A, computed");
}

static void levels_rise_and_name_their_standard(sw_test *t)
{
    size_t count;
    const sw_impact_level *levels = sw_impact_levels(&count);
    sw_true(t, count > 15);
    for (size_t i = 0; i < count; i++) {
        sw_true(t, levels[i].source[0] != '\0' && levels[i].energy > 0);
        if (i > 0) sw_true(t, levels[i].energy >= levels[i - 1].energy);
    }
}

/* ---- a box of four walls and a floor with a slot, lined; walls are thin boxes given as meshes ---- */

enum { WALLS = 4, ITEMS = 4 };

typedef struct scene {
    sw_piece walls[WALLS];
    sw_frame at[WALLS], item_at[ITEMS];
    sw_vec3 corners[WALLS][8];
    sw_mesh meshes[WALLS];
    const sw_mesh *list[WALLS];
    sw_item items[ITEMS];
    sw_contour slots[2];
    sw_stove stove;
    sw_fittings_input in;
    sw_fittings_options opt;
} scene;

static const sw_triangle box_faces[12] = {{0, 2, 1}, {1, 2, 3}, {4, 5, 6}, {5, 7, 6}, {0, 1, 4}, {1, 5, 4},
                                          {2, 6, 3}, {3, 6, 7}, {0, 4, 2}, {2, 4, 6}, {1, 3, 5}, {3, 7, 5}};

static void add_wall(scene *s, int i, const char *name, sw_vec3 low, sw_vec3 high)
{
    for (int k = 0; k < 8; k++)
        s->corners[i][k] =
            (sw_vec3){k & 1 ? high.x_mm : low.x_mm, k & 2 ? high.y_mm : low.y_mm, k & 4 ? high.z_mm : low.z_mm};
    s->meshes[i] = (sw_mesh){s->corners[i], 8, box_faces, 12};
    s->list[i] = &s->meshes[i];
    s->at[i] = sw_frame_world();
    s->walls[i] =
        (sw_piece){.number = name, .name = name, .group = "", .role = "wall", .placements = &s->at[i], .count = 1};
}

static void add_item(sw_test *t, scene *s, int i, const char *name, sw_item_kind kind, sw_box box, double thickness_mm)
{
    sw_item *item = &s->items[i];
    *item =
        (sw_item){.name = name, .group = "", .role = "", .material = "vermiculite board", .kind = kind, .mass_kg = 1};
    sw_ok(t, sw_contour_rectangle(&t->run, box, 0, &item->shape.outline));
    item->thickness_mm = thickness_mm;
    item->placements = &s->item_at[i];
    item->count = 1;
    s->item_at[i] = sw_frame_world();
}

/* Inside 400 x 300: board 398 x 296 at 1 mm from the left and 2 mm from the front; pane standing; grate with two slots. */
static scene *make_scene(sw_test *t)
{
    scene *s = SW_KEEP(&t->run, 1, scene);
    add_wall(s, 0, "left", (sw_vec3){-4, 0, 0}, (sw_vec3){0, 300, 500});
    add_wall(s, 1, "right", (sw_vec3){400, 0, 0}, (sw_vec3){404, 300, 500});
    add_wall(s, 2, "front", (sw_vec3){0, -4, 0}, (sw_vec3){400, 0, 500});
    add_wall(s, 3, "back", (sw_vec3){0, 300, 0}, (sw_vec3){400, 304, 500});
    add_item(t, s, 0, "floor board", SW_ITEM_BOARD, (sw_box){1, 2, 399, 298}, 30);
    add_item(t, s, 1, "pane", SW_ITEM_GLASS, (sw_box){0, 0, 394, 200}, 4);
    s->item_at[1] = (sw_frame){{1, 0, 0}, {0, 0, 1}, {0, -1, 0}, {3, 150, 31}};
    add_item(t, s, 2, "grate", SW_ITEM_CAST, (sw_box){0, 0, 300, 150}, 12);
    s->item_at[2].origin = (sw_vec3){50, 75, 400};
    s->items[2].role = "grate";
    for (int k = 0; k < 2; k++) {
        sw_contour slot;
        sw_ok(t, sw_contour_slot(&t->run, (sw_point){60 + 100 * k, 40}, (sw_point){90 + 100 * k, 100}, 10, &slot));
        sw_ok(t, sw_contour_reversed(&t->run, slot, &s->slots[k]));
    }
    s->items[2].shape.holes = s->slots;
    s->items[2].shape.hole_count = 2;
    s->items[3] =
        (sw_item){.name = "rope", .group = "", .role = "rope", .material = "glass rope", .kind = SW_ITEM_ROPE};
    s->items[3].length_mm = 1300;
    s->items[3].rope_mm = 10;
    s->items[3].groove_depth_mm = 6;
    s->items[3].groove_width_mm = 15;
    s->items[3].joint_mm = 1.5;
    s->items[3].count = 1;
    s->items[3].placements = &s->item_at[3];
    s->stove = (sw_stove){.name = "box", .title = "", .note = "", .pieces = s->walls, .piece_count = WALLS};
    s->stove.items = s->items;
    s->stove.item_count = ITEMS;
    s->in = (sw_fittings_input){&s->stove, s->list, NULL};
    s->opt = sw_fittings_options_defaults();
    return s;
}

static const sw_fittings_result *solved(sw_test *t, scene *s)
{
    const sw_fittings_result *r = NULL;
    return sw_ok(t, sw_fittings_solve(&t->run, &s->in, &s->opt, &r)) ? r : NULL;
}

static const sw_finding *finding_of(const sw_fittings_result *r, const char *check, const char *where)
{
    for (size_t i = 0; i < r->findings.count; i++)
        if (strcmp(r->findings.items[i].check, check) == 0 && strcmp(r->findings.items[i].where, where) == 0)
            return &r->findings.items[i];
    return NULL;
}

static void gaps_are_those_drawn_and_name_their_neighbours(sw_test *t)
{
    const sw_fittings_result *r = solved(t, make_scene(t));
    if (r == NULL || !sw_true(t, r->fit_count == 3)) return;
    const char *source = "derived: drawn so";
    static const double drawn_mm[SW_SIDES] = {1, 1, 2, 2};
    static const char *const names[SW_SIDES] = {"left", "right", "front", "back"};
    for (int k = 0; k < SW_SIDES; k++) {
        sw_near(t, r->fits[0].gap_mm[k], drawn_mm[k], 1e-9, source);
        sw_same_text(t, r->fits[0].beside[k], names[k]);
    }
    sw_near(t, r->fits[1].gap_mm[SW_SIDE_BELOW], 1, 1e-9, source);
    sw_same_text(t, r->panes[0].stands_on, "floor board");
    sw_near(t, r->panes[0].least_mm, 3, 1e-9, source);
    sw_true(t, isinf(r->fits[2].gap_mm[SW_SIDE_LEFT]));
}

static void board_is_cut_smaller_and_keeps_room_hot(sw_test *t)
{
    scene *s = make_scene(t);
    const sw_fittings_result *r = solved(t, s);
    if (r == NULL) return;
    sw_near(t, r->cuts[0].length_mm, 397.0, 1e-9, "derived: 398 less 2.5 mm/m, down to half a millimetre");
    sw_near(t, r->cuts[0].width_mm, 295.0, 1e-9, "derived: 296 less 2.5 mm/m");
    const sw_fit *f = &r->fits[0];
    sw_near(t, f->cold_mm[0], 3, 1e-9, "derived: 1 + 1 + 1 cut off");
    sw_near(t, f->hot_mm[0],
            400 * (1 + sw_fit_elongation(SW_STEEL, sw_k_from_c(250))) -
                397 * (1 + sw_fit_elongation(SW_BOARD, sw_k_from_c(500))),
            1e-9, "derived: hot opening less hot board");
    const sw_finding *gap = finding_of(r, "hot_gap", "floor board");
    sw_true(t, gap != NULL && gap->verdict == SW_HOLDS);
    s->opt.gap_mm_m = 0;
    s->opt.tolerance_mm = 5;
    if ((r = solved(t, s)) == NULL) return;
    gap = finding_of(r, "hot_gap", "floor board");
    sw_near(t, r->cuts[0].length_mm, 398, 1e-9, "derived: drawn as cut");
    sw_true(t, gap != NULL && gap->verdict == SW_FAILS);
}

static void without_meshes_gaps_are_unknown_and_the_rest_stands(sw_test *t)
{
    scene *s = make_scene(t);
    s->in.meshes = NULL;
    const sw_fittings_result *r = solved(t, s);
    if (r == NULL) return;
    const sw_finding *gap = finding_of(r, "hot_gap", "floor board");
    sw_true(t, gap != NULL && gap->verdict == SW_UNKNOWN && r->cut_count == 1 && r->sheet_count == 1);
}

static void bars_are_measured_across_slots_that_lie_askew(sw_test *t)
{
    const sw_fittings_result *r = solved(t, make_scene(t));
    if (r == NULL || !sw_true(t, r->grate_count == 1)) return;
    sw_near(t, r->grates[0].bar_least_mm, 10, 1e-9, "derived: width of the slot");
    sw_near(t, r->grates[0].bar_most_mm, 10, 1e-9, "derived: width of the slot");
    double growth_mm = 300 * sw_fit_elongation(SW_CAST_IRON, sw_k_from_c(600));
    sw_near(t, r->grates[0].need_mm[0], growth_mm / 2 + 1, 1e-9, "handbook 11.4");
}

static void loose_rope_and_narrow_pane_are_told(sw_test *t)
{
    scene *s = make_scene(t);
    s->items[3].rope_mm = 12;
    s->items[3].groove_depth_mm = 8;
    s->items[3].joint_mm = 2;
    s->opt.pane_clear_mm = 4;
    const sw_fittings_result *r = solved(t, s);
    if (r == NULL) return;
    const sw_finding *rope = finding_of(r, "rope", "rope"), *pane = finding_of(r, "pane_edge", "pane");
    sw_near(t, r->ropes[0].seat.compression, 1.0 / 6, 1e-12, "handbook 11.2: 16.7 %");
    sw_true(t, rope != NULL && rope->verdict == SW_FAILS && rope->remedy[0] != '\0');
    sw_true(t, pane != NULL && pane->verdict == SW_FAILS);
}

static void a_rope_is_judged_in_the_groove_that_it_is_drawn_in(sw_test *t)
{
    scene *s = make_scene(t);
    const sw_fittings_result *r = solved(t, s);
    if (r == NULL) return;
    sw_near(t, r->ropes[0].seat.compression, 0.25, 1e-12, "handbook 11.2: d 10, g 6, j 1.5");
    sw_near(t, r->ropes[0].seat.hot, 0.2, 1e-12, "derived: (10 - 6 - 2)/10");
    sw_near(t, r->ropes[0].seat.fill, SW_PI * 25 / (15 * 7.5), 1e-12, "derived: section over groove");
    const sw_finding *f = finding_of(r, "rope", "rope");
    sw_true(t, f != NULL && f->verdict == SW_HOLDS && f->sense == SW_AT_LEAST);
    s->items[3].joint_mm = 0;
    s->items[3].groove_depth_mm = 5.9;
    s->items[3].groove_width_mm = 10;
    if ((r = solved(t, s)) == NULL) return;
    f = finding_of(r, "rope", "rope");
    sw_true(t, f != NULL && f->verdict == SW_FAILS && f->sense == SW_AT_MOST);
    f = finding_of(r, "rope_fill", "rope");
    sw_true(t, f != NULL && f->verdict == SW_FAILS);
}

/* Compression below zero: a gap. */
static void a_rope_that_does_not_fill_its_groove_leaves_a_gap(sw_test *t)
{
    scene *s = make_scene(t);
    s->items[3].rope_mm = 6;
    const sw_fittings_result *r = solved(t, s);
    if (r == NULL) return;
    sw_near(t, r->ropes[0].seat.compression, -0.25, 1e-12, "derived: (6 - 6 - 1.5)/6");
    const sw_finding *f = finding_of(r, "rope", "rope"), *hot = finding_of(r, "rope_hot", "rope");
    if (!sw_true(t, f != NULL && hot != NULL)) return;
    sw_true(t, f->verdict == SW_FAILS && f->sense == SW_AT_LEAST && hot->verdict == SW_FAILS);
    sw_near(t, f->value, -25, 1e-9, "derived: (6 - 6 - 1.5)/6");
    sw_contains(t, f->what, "not reached, short by 25.0 %");
    sw_contains(t, hot->what, "not reached when hot, short by 33.3 %");
    sw_contains(t, f->remedy, "thicker rope");
}

static void a_rope_without_groove_is_unknown_and_still_listed(sw_test *t)
{
    scene *s = make_scene(t);
    s->items[3].groove_width_mm = 0;
    const sw_fittings_result *r = solved(t, s);
    if (r == NULL || !sw_true(t, r->rope_count == 1)) return;
    const sw_finding *f = finding_of(r, "rope", "rope");
    sw_true(t, f != NULL && f->verdict == SW_UNKNOWN && finding_of(r, "rope_hot", "rope") == NULL);
    if (f != NULL) sw_contains(t, f->remedy, "groove");
    sw_near(t, r->ropes[0].length_mm, 1300, 0, "as written");
}

static void gaps_follow_the_heat_study_where_it_was_run(sw_test *t)
{
    scene *s = make_scene(t);
    sw_fit_heat heat[ITEMS] = {{NAN, NAN}, {NAN, NAN}, {NAN, NAN}, {NAN, NAN}};
    heat[0] = (sw_fit_heat){sw_k_from_c(700), sw_k_from_c(150)};
    heat[1].part_k = sw_k_from_c(400);
    s->in.heat = heat;
    const sw_fittings_result *r = solved(t, s);
    if (r == NULL) return;
    sw_near(t, r->fits[0].hot_mm[0],
            400 * (1 + sw_fit_elongation(SW_STEEL, sw_k_from_c(150))) -
                397 * (1 + sw_fit_elongation(SW_BOARD, sw_k_from_c(700))),
            1e-9, "derived: hot opening less hot board");
    const sw_finding *board = finding_of(r, "hot_gap", "floor board"), *pane = finding_of(r, "hot_gap", "pane");
    sw_contains(t, board == NULL ? "" : board->what, "700 degC (heat study), round it 150 (heat study)");
    sw_contains(t, pane == NULL ? "" : pane->what, "400 degC (heat study), round it 300 (option)");
    s->in.heat = NULL;
    r = solved(t, s);
    board = r == NULL ? NULL : finding_of(r, "hot_gap", "floor board");
    sw_contains(t, board == NULL ? "" : board->what, "500 degC (option), round it 250 (option)");
}

static void drop_of_ten_kilograms_is_compared_with_the_levels(sw_test *t)
{
    const sw_fittings_result *r = solved(t, make_scene(t));
    if (r == NULL) return;
    sw_near(t, r->drop.mass_kg, 10, 5e-3, "derived: 134.5 mm of steel");
    for (size_t i = 0; i < r->drop.level_count; i++)
        sw_true(t, r->drop.levels[i].reached == (r->drop.levels[i].height_mm <= 200));
    const sw_finding *f = finding_of(r, "drop", "pane");
    sw_true(t, f != NULL && strstr(f->what, "IK09") != NULL);
}

/* ---- boards onto sheets ---- */

static bool apart(sw_box a, sw_box b, double gap_mm)
{
    const double same_mm = 1e-6;
    return a.x1_mm + gap_mm <= b.x0_mm + same_mm || b.x1_mm + gap_mm <= a.x0_mm + same_mm ||
           a.y1_mm + gap_mm <= b.y0_mm + same_mm || b.y1_mm + gap_mm <= a.y0_mm + same_mm;
}

/* True when cuts from edge to edge part the boxes: one cut leaves boxes on both sides and crosses none; then each side. */
static bool parted(sw_box *boxes, size_t count)
{
    if (count <= 1) return true;
    for (int axis = 0; axis < 2; axis++)
        for (size_t i = 0; i < count; i++) {
            double at_mm = axis == 0 ? boxes[i].x1_mm : boxes[i].y1_mm;
            size_t low = 0, crossed = 0;
            sw_box lower[40], upper[40];
            for (size_t k = 0; k < count; k++) {
                double from_mm = axis == 0 ? boxes[k].x0_mm : boxes[k].y0_mm;
                double to_mm = axis == 0 ? boxes[k].x1_mm : boxes[k].y1_mm;
                if (to_mm <= at_mm + 1e-6)
                    lower[low++] = boxes[k];
                else if (from_mm >= at_mm - 1e-6)
                    upper[k - low - crossed] = boxes[k];
                else
                    crossed++;
            }
            if (crossed == 0 && low > 0 && low < count) return parted(lower, low) && parted(upper, count - low);
        }
    return false;
}

static void check_sheets(sw_test *t, const sw_fittings_result *r, const scene *s, size_t wanted)
{
    size_t placed = 0;
    for (size_t i = 0; i < r->sheet_count; i++) {
        const sw_board_sheet *sheet = &r->sheets[i];
        sw_box boxes[40];
        placed += sheet->count;
        for (size_t a = 0; a < sheet->count; a++) {
            sw_box box = boxes[a] = sheet->places[a].box;
            if (!sw_true(t, box.x0_mm >= 0 && box.y0_mm >= 0 && box.x1_mm <= sheet->length_mm + 1e-6 &&
                                box.y1_mm <= sheet->width_mm + 1e-6))
                return;
            for (size_t b = 0; b < a; b++)
                if (!sw_true(t, apart(box, sheet->places[b].box, s->opt.saw_mm))) return;
        }
        if (!sw_true(t, parted(boxes, sheet->count))) return;
    }
    sw_true(t, placed == wanted);
}

static void boards_lie_apart_and_are_reached_by_cuts_from_edge_to_edge(sw_test *t)
{
    for (uint64_t seed = 1; seed <= 30; seed++) {
        t->seed = seed;
        sw_random r = sw_random_seeded(seed);
        scene *s = make_scene(t);
        s->in.meshes = NULL;
        for (int i = 0; i < 3; i++) {
            sw_box box = {0, 0, sw_random_between(&r, 40, 600), sw_random_between(&r, 40, 600)};
            add_item(t, s, i, "board", SW_ITEM_BOARD, box, 30);
        }
        s->opt.stoves = 1 + (double)sw_random_below(&r, 8);
        const sw_fittings_result *result = solved(t, s);
        if (result == NULL) return;
        check_sheets(t, result, s, 3 * (size_t)s->opt.stoves);
        sw_true(t, result->nests[0].bound <= result->nests[0].sheets);
        sw_true(t, result->board_m2 <= result->sheet_m2);
        if (t->failures > 0) return;
    }
    t->seed = 0;
}

static void four_quarters_fill_one_sheet(sw_test *t)
{
    scene *s = make_scene(t);
    s->in.meshes = NULL;
    s->opt.gap_mm_m = s->opt.saw_mm = 0;
    for (int i = 0; i < 3; i++) add_item(t, s, i, "board", SW_ITEM_BOARD, (sw_box){0, 0, 305, 500}, 30);
    s->items[2].count = 1;
    s->opt.stoves = 4;
    const sw_fittings_result *r = solved(t, s);
    if (r == NULL) return;
    sw_true(t, r->nests[0].sheets == 3 && r->nests[0].bound == 3);
    sw_near(t, r->board_m2, r->sheet_m2, 1e-9, "derived: nothing is left");
}

static void board_larger_than_a_sheet_fails(sw_test *t)
{
    scene *s = make_scene(t);
    add_item(t, s, 0, "long board", SW_ITEM_BOARD, (sw_box){0, 0, 1200, 300}, 30);
    const sw_fittings_result *r = solved(t, s);
    if (r == NULL) return;
    const sw_finding *f = finding_of(r, "board_size", "vermiculite board, 30 mm");
    sw_true(t, f != NULL && f->verdict == SW_FAILS && r->nests[0].left_out == 1 && r->sheet_count == 0);
}

static void sizes_that_are_no_numbers_are_told_all_at_once(sw_test *t)
{
    scene *s = make_scene(t);
    const sw_fittings_result *r = NULL;
    s->items[0].thickness_mm = NAN;
    s->items[3].length_mm = NAN;
    sw_true(t, sw_fittings_solve(&t->run, &s->in, &s->opt, &r) == SW_OUT_OF_RANGE && r == NULL);
    sw_true(t, t->run.error_count == 2);
    sw_same_text(t, t->run.errors[0].field, "floor board");
}

static void every_failed_request_for_memory_is_reported(sw_test *t)
{
    scene *s = make_scene(t);
    for (int arena = 0; arena < 2; arena++)
        for (size_t nth = 1; nth < 500; nth++) {
            const sw_fittings_result *r = NULL;
            sw_arena *from = arena == 0 ? t->run.keep : t->run.scratch;
            sw_run_clear_errors(&t->run);
            sw_arena_fail_at(from, nth);
            sw_status status = sw_fittings_solve(&t->run, &s->in, &s->opt, &r);
            sw_arena_fail_at(from, 0);
            if (status == SW_OK) break;
            if (!sw_true(t, status == SW_NO_MEMORY && r == NULL)) return;
        }
}

SW_TESTS(SW_CASE(steel_and_glass_grow_as_in_the_handbook), SW_CASE(fit_rule_gives_room_only_to_what_outgrows_its_place),
         SW_CASE(rope_is_pressed_as_in_the_handbook), SW_CASE(bolts_lose_half_near_500_degrees),
         SW_CASE(ball_drop_has_the_energies_of_the_handbook), SW_CASE(levels_rise_and_name_their_standard),
         SW_CASE(gaps_are_those_drawn_and_name_their_neighbours), SW_CASE(board_is_cut_smaller_and_keeps_room_hot),
         SW_CASE(without_meshes_gaps_are_unknown_and_the_rest_stands),
         SW_CASE(bars_are_measured_across_slots_that_lie_askew), SW_CASE(loose_rope_and_narrow_pane_are_told),
         SW_CASE(a_rope_is_judged_in_the_groove_that_it_is_drawn_in),
         SW_CASE(a_rope_that_does_not_fill_its_groove_leaves_a_gap),
         SW_CASE(a_rope_without_groove_is_unknown_and_still_listed),
         SW_CASE(gaps_follow_the_heat_study_where_it_was_run),
         SW_CASE(drop_of_ten_kilograms_is_compared_with_the_levels),
         SW_CASE(boards_lie_apart_and_are_reached_by_cuts_from_edge_to_edge), SW_CASE(four_quarters_fill_one_sheet),
         SW_CASE(board_larger_than_a_sheet_fails), SW_CASE(sizes_that_are_no_numbers_are_told_all_at_once),
         SW_CASE(every_failed_request_for_memory_is_reported))
