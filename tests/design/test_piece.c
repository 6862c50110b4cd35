#include "reading.h"

static double half_turn_allowance_mm(double r_mm, double s_mm,
                                     double angle_rad) /* K = k/2, k = 0.65 + 0.5 log10(r/s): DIN 6935 */
{
    return angle_rad * (r_mm + (0.65 + 0.5 * log10(r_mm / s_mm)) / 2.0 * s_mm);
}

static double depth_mm(const sw_piece *p, size_t face)
{
    sw_box box = sw_contour_box(p->faces[face].region.outline);
    return box.y1_mm - box.y0_mm;
}

/* ---- trimmed outlines ---- */

static void an_l_bracket_has_the_developed_length_of_din_6935(sw_test *t)
{
    const sw_piece *p = read_face_of(
        t, "{ outline = rectangle {200*mm, 60*mm}, bends = { { on = 'top', radius = 4*mm, height = 40*mm } } }");
    if (p == NULL) return;
    sw_true(t, p->face_count == 2 && p->bend_count == 1);
    sw_near(t, depth_mm(p, 0) + depth_mm(p, 1) + half_turn_allowance_mm(4.0, 3.0, SW_PI / 2), 93.962, 5e-4,
            "DIN 6935, L-bracket 60 x 40, s 3, r 4 (handbook W1.2)");
}

static void an_open_bend_is_measured_to_the_outside_intersection(sw_test *t)
{
    const sw_piece *p = read_face_of(
        t,
        "{ outline = rectangle {200*mm, 80*mm}, bends = { { on = 'top', radius = 6*mm, angle = 60*deg, height = 50*mm } } }");
    if (p == NULL) return;
    sw_near(t, depth_mm(p, 0), 80.0 - 9.0 * tan(SW_PI / 6), 1e-9, "DIN 6935: setback (r + s) tan(A/2) up to 90 deg");
    sw_near(t, depth_mm(p, 1), 50.0 - 9.0 * tan(SW_PI / 6), 1e-9, "DIN 6935: setback (r + s) tan(A/2) up to 90 deg");
}

static void a_closed_bend_is_measured_to_the_outer_tangent(sw_test *t)
{
    const sw_piece *p = read_face_of(
        t,
        "{ outline = rectangle {200*mm, 80*mm}, bends = { { on = 'top', radius = 4*mm, angle = -135*deg, height = 50*mm } } }");
    if (p == NULL) return;
    sw_near(t, depth_mm(p, 0), 73.0, 1e-9, "DIN 6935: setback r + s above 90 deg");
    sw_near(t, p->bends[0].angle_rad, sw_rad_from_deg(-135.0), 1e-12, "as written");
}

static void tangent_dims_leave_the_face_as_it_is(sw_test *t)
{
    const sw_piece *p = read_face_of(
        t,
        "{ outline = rectangle {200*mm, 80*mm}, bends = { { on = 'top', radius = 4*mm, height = 50*mm, dims = 'tangent' } } }");
    if (p == NULL) return;
    sw_near(t, depth_mm(p, 0), 80.0, 0.0, "as written");
    sw_near(t, depth_mm(p, 1), 50.0, 0.0, "as written");
}

static void neighbouring_flanges_meet_at_the_new_corner(sw_test *t)
{
    const sw_piece *p = read_face_of(
        t, "{ outline = rectangle {200*mm, 80*mm}, bends = { { on = 'left', radius = 4*mm, height = 30*mm }, "
           "{ on = 'bottom', radius = 6*mm, height = 30*mm } } }");
    if (p == NULL) return;
    sw_true(t, has_vertex(p, 0, 7.0, 9.0) && has_vertex(p, 0, 200.0, 9.0) && has_vertex(p, 0, 7.0, 80.0));
    sw_true(t, p->faces[0].region.outline.n == 4);
    sw_near(t, sw_contour_area(p->faces[0].region.outline), 193.0 * 71.0, 1e-9, "derived");
    const sw_bend *left = &p->bends[0], *bottom = &p->bends[1];
    sw_true(t, left->to.x_mm == bottom->from.x_mm && left->to.y_mm == bottom->from.y_mm);
}

/* Folded, the outside of every flange of a tray lies in the declared rectangle and reaches the declared height. */
static void a_folded_tray_has_its_declared_outside(sw_test *t)
{
    static const double radii_mm[] = {3.0, 5.0}, signs[] = {1.0, -1.0};
    for (int r = 0; r < 2; r++)
        for (int s = 0; s < 2; s++) {
            const sw_piece *p = read_face_of(
                t,
                sw_text_format(
                    &t->run, t->run.keep,
                    "{ outline = rectangle {300*mm, 200*mm}, bends = { { on = 'left', height = 25*mm, radius = %g*mm, angle = %g*deg }, "
                    "{ on = 'right', height = 35*mm, radius = %g*mm, angle = %g*deg } } }",
                    radii_mm[r], 90.0 * signs[s], radii_mm[r], 90.0 * signs[s]));
            if (p == NULL) return;
            sw_frame frames[3];
            fold(p, frames);
            double half_mm = p->thickness_mm / 2.0;
            sw_vec3 left = sw_frame_point(frames[1], (sw_vec3){0.0, depth_mm(p, 1), -half_mm * signs[s]});
            sw_vec3 right = sw_frame_point(frames[2], (sw_vec3){0.0, depth_mm(p, 2), -half_mm * signs[s]});
            sw_near(t, left.x_mm, 0.0, 1e-9, "derived: outside of the bend at the declared edge");
            sw_near(t, right.x_mm, 300.0, 1e-9, "derived: outside of the bend at the declared edge");
            sw_near(t, left.z_mm * signs[s] + half_mm, 25.0, 1e-9, "derived: height to the outside");
            sw_near(t, right.z_mm * signs[s] + half_mm, 35.0, 1e-9, "derived: height to the outside");
        }
}

static void gaps_keep_flanges_short_of_the_new_corners(sw_test *t)
{
    const sw_piece *p = read_face_of(
        t, "{ outline = rectangle {200*mm, 80*mm}, bends = { { on = 'left', radius = 4*mm, height = 30*mm }, "
           "{ on = 'bottom', radius = 4*mm, height = 30*mm, gap_start = 2*mm, gap_end = 10*mm } } }");
    if (p == NULL) return;
    sw_near(t, p->bends[1].from.x_mm, 7.0 + 2.0, 1e-9, "derived: setback of the neighbour and the gap");
    sw_near(t, p->bends[1].to.x_mm, 190.0, 1e-9, "derived");
    sw_near(t, p->bends[1].to.y_mm, 7.0, 1e-9, "derived: free ends are cut back too");
    const sw_edge *start = edge_of(p, "bottom"), *end = edge_of(p, "bottom 2");
    sw_true(t, start != NULL && end != NULL && start->count == 1);
}

/* ---- reliefs ---- */

static void a_bend_inside_an_edge_gets_round_notches(sw_test *t)
{
    const sw_piece *p = read_face_of(
        t,
        "{ outline = rectangle {200*mm, 80*mm}, bends = { { on = 'bottom', from = 50*mm, to = 150*mm, radius = 3*mm, height = 30*mm, "
        "relief_width = 4*mm, relief_depth = 8*mm } } }");
    if (p == NULL) return;
    double bottom_mm =
        6.0 + 8.0 - SW_PI / 2 * 3.0 / 2.0; /* setback + depth from the bend line, which is A r/2 outside */
    sw_near(t, p->bends[0].from.x_mm, 50.0, 1e-9, "as written");
    sw_near(t, p->bends[0].to.x_mm, 150.0, 1e-9, "as written");
    sw_near(t, p->bends[0].from.y_mm, 6.0, 1e-9, "derived: r + s");
    sw_true(t, has_vertex(p, 0, 46.0, 0.0) && has_vertex(p, 0, 46.0, bottom_mm - 2.0) &&
                   has_vertex(p, 0, 50.0, bottom_mm - 2.0));
    sw_true(t, has_vertex(p, 0, 154.0, 0.0) && has_vertex(p, 0, 154.0, bottom_mm - 2.0) &&
                   has_vertex(p, 0, 150.0, bottom_mm - 2.0));
    double notch_mm2 = 4.0 * (bottom_mm - 2.0) + SW_PI * 4.0 / 2.0;
    sw_near(t, sw_contour_area(p->faces[0].region.outline), 200.0 * 80.0 - 100.0 * 6.0 - 2.0 * notch_mm2, 1e-9,
            "derived");
}

static void square_and_no_reliefs_are_cut_as_asked(sw_test *t)
{
    const sw_piece *p = read_face_of(
        t,
        "{ outline = rectangle {200*mm, 80*mm}, bends = { { on = 'bottom', from = 50*mm, to = 150*mm, height = 30*mm, relief = 'none' } } }");
    if (p == NULL) return;
    sw_near(t, sw_contour_area(p->faces[0].region.outline), 16000.0 - 100.0 * 6.0, 1e-9, "derived");
    sw_true(t, p->faces[0].region.outline.n == 8);
    p = read_face_of(
        t,
        "{ outline = rectangle {200*mm, 80*mm}, bends = { { on = 'bottom', from = 50*mm, height = 30*mm, relief = 'square' } } }");
    if (p == NULL) return;
    double deep_mm = 6.0 + 6.0 - SW_PI / 2 * 1.5;
    sw_near(t, sw_contour_area(p->faces[0].region.outline), 16000.0 - 150.0 * 6.0 - 3.0 * deep_mm, 1e-9,
            "derived: one notch, at the inner end");
    sw_near(t, p->bends[0].to.x_mm, 200.0, 1e-9, "derived: runs to the corner");
}

static void two_bends_on_one_edge_leave_the_edge_between(sw_test *t)
{
    const sw_piece *p = read_face_of(
        t,
        "{ outline = rectangle {200*mm, 80*mm}, bends = { { on = 'top', from = 120*mm, to = 200*mm, height = 20*mm }, "
        "{ on = 'top', from = 0*mm, to = 80*mm, height = 30*mm, name = 'first' } } }");
    if (p == NULL) return;
    sw_true(t, p->bend_count == 2);
    sw_same_text(t, p->bends[0].name, "bend 1");
    sw_same_text(t, p->bends[1].name, "first");
    const sw_edge *top = edge_of(p, "top");
    if (!sw_true(t, top != NULL)) return;
    sw_near(t, fabs(vertex(p, 0, top->first).x_mm - vertex(p, 0, top->first + 1).x_mm), 40.0 - 2.0 * 3.0, 1e-9,
            "derived: less two notches");
}

static void near_bends_share_one_notch(sw_test *t)
{
    const sw_piece *p = read_face_of(
        t,
        "{ outline = rectangle {200*mm, 80*mm}, bends = { { on = 'bottom', from = 0*mm, to = 98*mm, height = 20*mm }, "
        "{ on = 'bottom', from = 102*mm, to = 200*mm, height = 20*mm, relief = 'square' } } }");
    if (p == NULL) return;
    sw_true(t, edge_of(p, "bottom") == NULL);
    sw_near(t, p->bends[0].to.x_mm, 98.0, 1e-9, "as written");
    sw_near(t, p->bends[1].from.x_mm, 102.0, 1e-9, "as written");
}

static void a_bend_in_an_inner_corner_is_freed_from_the_wall(sw_test *t)
{
    const sw_piece *p = read_face_of(
        t,
        "{ outline = polygon { {0*mm, 0*mm}, {100*mm, 0*mm}, {100*mm, 40*mm, edge = 'step'}, {60*mm, 40*mm}, {60*mm, 90*mm}, {0*mm, 90*mm} }, "
        "bends = { { on = 'step', height = 20*mm } } }");
    if (p == NULL) return;
    sw_near(t, p->bends[0].from.x_mm, 100.0, 1e-9, "derived: at the outer corner nothing stands beside");
    sw_near(t, p->bends[0].to.x_mm, 63.0, 1e-9, "derived: a notch of one thickness to the wall");
    sw_near(t, p->bends[0].to.y_mm, 34.0, 1e-9, "derived: r + s");
    sw_true(t, has_vertex(p, 0, 60.0, 34.0 - (6.0 - SW_PI / 2 * 1.5) + 1.5));
}

static void a_flange_on_a_flange_keeps_its_root_whole(sw_test *t)
{
    const sw_piece *p = read_face_of(
        t, "{ outline = rectangle {200*mm, 80*mm}, bends = { { on = 'bottom', height = 60*mm, name = 'front', face = { "
           "bends = { { on = 'right', height = 20*mm } } } } } }");
    if (p == NULL) return;
    sw_true(t, has_vertex(p, 1, 0.0, 0.0) && has_vertex(p, 1, 200.0, 0.0));
    sw_near(t, p->bends[1].from.y_mm, 3.0 + 3.0, 1e-9, "derived: one thickness of edge, one notch");
    sw_near(t, p->bends[1].from.x_mm, 194.0, 1e-9, "derived: r + s");
    sw_near(t, p->bends[1].to.y_mm, 54.0, 1e-9, "derived: runs to the tip");
    sw_true(t, edge_of(p, "front.right") != NULL && edge_of(p, "front.root") == NULL);
}

static void a_rounded_corner_takes_a_smaller_gap_into_its_arc(sw_test *t)
{
    const sw_piece *p = read_face_of(
        t,
        "{ outline = rectangle {200*mm, 80*mm, corner = 5*mm}, bends = { { on = 'bottom', height = 30*mm, gap_start = 1*mm, gap_end = 12*mm } } }");
    if (p == NULL) return;
    sw_near(t, p->bends[0].from.x_mm, 5.0, 1e-9, "derived: where the arc ends");
    sw_near(t, p->bends[0].to.x_mm, 188.0, 1e-9, "derived: the gap is longer than the arc");
    sw_true(t, has_vertex(p, 0, 0.0, 6.0 + 5.0) && has_vertex(p, 0, 195.0, 6.0));
}

/* ---- flanges ---- */

static void flange_sides_slope_and_corners_round(sw_test *t)
{
    const sw_piece *p = read_face_of(
        t,
        "{ outline = rectangle {200*mm, 80*mm}, bends = { { on = 'bottom', height = 36*mm, slope_start = 45*deg, corner = 5*mm } } }");
    if (p == NULL) return;
    sw_true(t, has_vertex(p, 1, 200.0, 0.0) && has_vertex(p, 1, 0.0, 25.0) && has_vertex(p, 1, 5.0, 30.0));
    double cut_mm = 5.0 * tan(SW_PI / 8);
    sw_true(t, has_vertex(p, 1, 170.0 - cut_mm, 30.0));
    sw_true(t, edge_of(p, "bend 1.tip") != NULL && edge_of(p, "bend 1.tip")->count == 1);
}

static void a_childs_own_outline_hangs_on_its_root_edge(sw_test *t)
{
    const sw_piece *p = read_face_of(
        t,
        "{ outline = rectangle {200*mm, 80*mm}, bends = { { on = 'bottom', name = 'ear', face = { name = 'lug', "
        "outline = polygon { {0*mm, 0*mm}, {200*mm, 0*mm}, {100*mm, 70*mm, edge = 'side'} }, holes = { hole { at = {100*mm, 30*mm}, d = 10*mm } } } } } }");
    if (p == NULL) return;
    sw_same_text(t, p->faces[1].name, "lug");
    sw_same_text(t, p->bends[0].name, "ear");
    sw_true(t, p->faces[1].region.hole_count == 1 && edge_of(p, "lug.side") != NULL);
    sw_true(t, sw_contour_area(p->faces[1].region.holes[0]) < 0.0);
}

static void a_joggle_is_two_bends_with_the_straight_of_its_formula(sw_test *t)
{
    const sw_piece *p = read_face_of(
        t,
        "{ outline = rectangle {200*mm, 40*mm}, bends = { joggle { on = 'top', name = 'lap', offset = 8*mm, radius = 3*mm, angle = 45*deg, length = 30*mm, k = 0.36 } } }");
    if (p == NULL) return;
    sw_true(t, p->face_count == 3 && p->bend_count == 2);
    sw_near(t, depth_mm(p, 1), 7.5858, 5e-5, "handbook W1.6, h 8, s 3, r 3, A 45");
    double arcs_mm = 2.0 * SW_PI / 4 * (3.0 + 0.36 * 3.0);
    sw_near(t, depth_mm(p, 0) + depth_mm(p, 1) + depth_mm(p, 2) + arcs_mm, 83.9946, 5e-5,
            "handbook W1.6, developed length");
    sw_same_text(t, p->faces[1].name, "lap web");
    sw_same_text(t, p->faces[2].name, "lap");
    sw_frame frames[3];
    fold(p, frames);
    sw_near(t, frames[2].origin.z_mm, 8.0, 1e-9, "derived: the offset");
    sw_near(t, frames[2].z.z_mm, 1.0, 1e-12, "derived: parallel again");
    sw_near(t, frames[2].origin.y_mm - 40.0, 11.7279, 5e-5, "handbook W1.6, run x");
}

static void a_least_joggle_has_no_straight_between(sw_test *t)
{
    const sw_piece *p = read_face_of(
        t,
        "{ outline = rectangle {200*mm, 40*mm}, bends = { joggle { on = 'top', offset = -9*mm*(1 - cos(45*deg)), radius = 3*mm } } }");
    if (p == NULL) return;
    sw_true(t, p->faces[1].region.outline.n == 2);
    sw_near(t, p->bends[0].angle_rad, -SW_PI / 4, 1e-12, "derived: to the rear");
    sw_near(t, p->bends[1].from.x_mm, 200.0, 1e-9, "derived: over the whole face of no depth");
}

static void a_closed_hem_has_the_length_of_its_formula(sw_test *t)
{
    const sw_piece *p = read_face_of(
        t, "{ outline = rectangle {200*mm, 100*mm}, bends = { hem { on = 'top', height = 12*mm, side = 'rear' } } }");
    if (p == NULL) return;
    double s = 3.0;
    sw_near(t, depth_mm(p, 0) + depth_mm(p, 1) + SW_PI * p->bends[0].k * s, 100.0 + 12.0 - 2 * s + SW_PI * 0.33 * s,
            1e-9, "handbook 1.6: L = a + h - 2 s + pi K s");
    sw_true(t, p->bends[0].kind == SW_HEMMED && p->bends[0].radius_mm == 0.0);
    sw_near(t, p->bends[0].angle_rad, -SW_PI, 1e-12, "to the rear");
    const sw_piece *open = read_face_of(
        t, "{ outline = rectangle {200*mm, 100*mm}, bends = { hem { on = 'top', height = 12*mm, gap = 4*mm } } }");
    if (open != NULL) sw_true(t, open->bends[0].radius_mm == 2.0 && isnan(open->bends[0].k));
}

static void rolled_zones_follow_each_other_through_faces_of_no_depth(sw_test *t)
{
    const sw_piece *p = read_face_of(
        t,
        "{ outline = rectangle {600*mm, 100*mm}, bends = { { on = 'right', kind = 'roll', radius = 200*mm, angle = 90*deg, name = 'quarter', "
        "holes = { { hole { d = 20*mm }, along = 50*mm, angle = 45*deg } }, face = { bends = { { on = 'tip', kind = 'roll', radius = 300*mm, angle = 60*deg, height = 80*mm } } } } } }");
    if (p == NULL) return;
    sw_true(t, p->face_count == 3 && p->faces[1].region.outline.n == 2);
    sw_true(t, p->bends[0].kind == SW_ROLLED && p->bends[0].hole_count == 1);
    sw_near(t, p->bends[0].holes[0].angle_rad, SW_PI / 4, 1e-12, "as written");
    sw_near(t, depth_mm(p, 0), 100.0, 0.0, "derived: rolls begin at the declared edge");
    sw_near(t, depth_mm(p, 2), 80.0, 0.0, "as written");
    sw_true(t, p->bends[1].from.x_mm == 100.0 && p->bends[1].to.x_mm == 0.0);
    sw_true(t, edge_of(p, "quarter.tip") == NULL);
}

/* ---- outlines and names ---- */

static void polygon_corners_round_and_sides_sweep(sw_test *t)
{
    const sw_piece *p = read_face_of(
        t,
        "{ outline = polygon { {0*mm, 0*mm}, {100*mm, 0*mm, round = 10*mm}, {100*mm, 50*mm, sweep = 180*deg, edge = 'bow'}, {0*mm, 50*mm} } }");
    if (p == NULL) return;
    double area_mm2 = 100.0 * 50.0 - (100.0 - SW_PI * 100.0 / 4.0) + SW_PI * 50.0 * 50.0 / 2.0;
    sw_near(t, sw_contour_area(p->faces[0].region.outline), area_mm2, 1e-9, "derived");
    sw_true(t, edge_of(p, "bow") != NULL && edge_of(p, "edge 1") != NULL && edge_of(p, "edge 2") != NULL &&
                   edge_of(p, "edge 4") != NULL);
}

static void a_run_of_one_name_is_one_edge(sw_test *t)
{
    const sw_piece *p = read_face_of(
        t,
        "{ outline = polygon { {0*mm, 0*mm, edge = 'round'}, {100*mm, 0*mm, edge = 'front', round = 5*mm}, {150*mm, 50*mm, edge = 'front'}, {0*mm, 90*mm, edge = 'round'} } }");
    if (p == NULL) return;
    const sw_edge *front = edge_of(p, "front"), *round = edge_of(p, "round");
    if (!sw_true(t, front != NULL && round != NULL)) return;
    sw_true(t, front->count == 2 && round->count == 2 && p->edge_count == 2);
    sw_true(t, front->first + front->count <= p->faces[0].region.outline.n &&
                   round->first + round->count <= p->faces[0].region.outline.n);
    const sw_piece *disc = read_face_of(t, "{ outline = disc { d = 300*mm } }");
    if (disc == NULL) return;
    sw_true(t, edge_of(disc, "rim") != NULL && edge_of(disc, "rim")->count == 2);
    sw_near(t, sw_contour_area(disc->faces[0].region.outline), SW_PI * 150.0 * 150.0, 1e-9, "derived");
}

static void an_arc_beside_a_bent_edge_is_cut_where_the_tangent_line_meets_it(sw_test *t)
{
    const sw_piece *p = read_face_of(
        t,
        "{ outline = polygon { {0*mm, 0*mm}, {100*mm, 0*mm, sweep = 90*deg, edge = 'arc'}, {0*mm, 100*mm} }, bends = { { on = 'edge 1', height = 20*mm } } }");
    if (p == NULL) return;
    sw_true(t, has_vertex(p, 0, 0.0, 6.0) && has_vertex(p, 0, sqrt(1e4 - 36.0), 6.0));
    double sector = SW_PI * 1e4 / 4.0, y = 6.0, chord = sqrt(1e4 - 36.0);
    sw_near(t, sw_contour_area(p->faces[0].region.outline), sector - (y * chord / 2.0 + 1e4 / 2.0 * asin(y / 100.0)),
            1e-8, "derived: quarter disc less a strip");
}

static void holes_rows_and_grids_are_cut_clockwise(sw_test *t)
{
    const sw_piece *p = read_face_of(
        t,
        "{ outline = rectangle {200*mm, 100*mm}, holes = { hole { at = {10*mm, 10*mm}, d = 8*mm }, slot { at = {100*mm, 50*mm}, length = 30*mm, width = 10*mm, turn = 90*deg }, "
        "window { outline = rectangle {20*mm, 10*mm, corner = 2*mm}, at = {150*mm, 20*mm}, turn = 90*deg }, row { hole { at = {30*mm, 10*mm}, d = 5*mm }, step = {10*mm, 0*mm}, count = 4 }, "
        "grid { hole { at = {20*mm, 60*mm}, d = 4*mm }, step_x = 8*mm, step_y = 8*mm, count_x = 3, count_y = 2 } } }");
    if (p == NULL) return;
    const sw_region *r = &p->faces[0].region;
    sw_true(t, r->hole_count == 1 + 1 + 1 + 4 + 6);
    for (size_t i = 0; i < r->hole_count; i++) sw_true(t, sw_contour_area(r->holes[i]) < 0.0);
    sw_near(t, -sw_contour_area(r->holes[0]), SW_PI * 16.0, 1e-9, "derived");
    sw_near(t, -sw_contour_area(r->holes[1]), 20.0 * 10.0 + SW_PI * 25.0, 1e-9, "derived");
    sw_near(t, -sw_contour_area(r->holes[2]), 200.0 - (4.0 - SW_PI) * 4.0, 1e-9, "derived");
    sw_box slot = sw_contour_box(r->holes[1]), window = sw_contour_box(r->holes[2]),
           last = sw_contour_box(r->holes[12]);
    sw_near(t, slot.y1_mm - slot.y0_mm, 30.0, 1e-9, "derived: turned by 90 deg");
    sw_near(t, window.x0_mm, 140.0, 1e-9, "derived: turned about its own origin");
    sw_near(t, last.x0_mm, 20.0 + 16.0 - 2.0, 1e-9, "derived");
    sw_near(t, last.y1_mm, 60.0 + 8.0 + 2.0, 1e-9, "derived");
}

static void the_number_is_etched_where_there_is_room(sw_test *t)
{
    const sw_piece *p = read_face_of(
        t,
        "{ outline = rectangle {200*mm, 100*mm}, holes = { hole { at = {100*mm, 50*mm}, d = 40*mm } }, marks = { etch { 'up', at = {5*mm, 5*mm}, height = 6*mm }, line { {0*mm, 20*mm}, {50*mm, 20*mm} } } }");
    if (p == NULL) return;
    sw_true(t, p->faces[0].mark_count == 3);
    sw_same_text(t, p->faces[0].marks[0].text, "up");
    sw_true(t, p->faces[0].marks[1].path.n == 2 && p->faces[0].marks[1].text[0] == '\0');
    sw_same_text(t, p->faces[0].marks[2].text, "P");
    sw_true(t, sw_region_side(&p->faces[0].region, p->faces[0].marks[2].at) > 0);
    const sw_piece *left = read_face_of(t, "{ outline = rectangle {200*mm, 100*mm}, number_at = {7*mm, 9*mm} }");
    if (left != NULL) sw_true(t, left->faces[0].marks[0].at.x_mm == 7.0 && left->faces[0].marks[0].at.y_mm == 9.0);
    const sw_piece *without = read_face_of(t, "{ outline = rectangle {200*mm, 100*mm}, number_at = false }");
    if (without != NULL) sw_true(t, without->faces[0].mark_count == 0);
    const sw_piece *small = read_face_of(t, "{ outline = rectangle {2*mm, 2*mm} }");
    if (small != NULL) sw_true(t, small->faces[0].mark_count == 0);
}

/* ---- laws ---- */

static void child_roots_are_as_long_as_their_bends_on_random_pieces(sw_test *t)
{
    static const char *const edges[] = {"left", "top", "right", "bottom"};
    sw_random random = sw_random_seeded(11);
    for (int round = 0; round < 60; round++) {
        const char *bends = "";
        for (int i = 0; i < 4; i++) {
            if (sw_random_below(&random, 3) == 0) continue;
            double from_mm = sw_random_below(&random, 2) == 0 ? 0.0 : 20.0 + 40.0 * sw_random_unit(&random);
            bends = sw_text_format(
                &t->run, t->run.keep,
                "%s{ on = '%s', from = %.17g*mm, height = %.17g*mm, radius = %.17g*mm, angle = %.17g*deg, gap_start = %.17g*mm }, ",
                bends, edges[i], from_mm, 40.0 + 30.0 * sw_random_unit(&random), 1.0 + 6.0 * sw_random_unit(&random),
                -170.0 + 340.0 * sw_random_unit(&random) + 0.5, 3.0 * sw_random_unit(&random));
        }
        const sw_piece *p = read_face_of(
            t, sw_text_format(&t->run, t->run.keep, "{ outline = rectangle {300*mm, 200*mm}, bends = { %s } }", bends));
        if (p == NULL) return;
        for (size_t i = 0; i < p->bend_count; i++) {
            const sw_bend *b = &p->bends[i];
            double w = hypot(b->to.x_mm - b->from.x_mm, b->to.y_mm - b->from.y_mm);
            if (!sw_true(t, b->parent < b->child && has_vertex(p, (size_t)b->child, 0.0, 0.0) &&
                                has_vertex(p, (size_t)b->child, w, 0.0)))
                return;
            if (!sw_true(t, has_vertex(p, (size_t)b->parent, b->from.x_mm, b->from.y_mm) &&
                                has_vertex(p, (size_t)b->parent, b->to.x_mm, b->to.y_mm)))
                return;
        }
        for (size_t i = 0; i < p->edge_count; i++)
            if (!sw_true(t, p->edges[i].first + p->edges[i].count <= p->faces[p->edges[i].face].region.outline.n))
                return;
    }
}

SW_TESTS(SW_CASE(an_l_bracket_has_the_developed_length_of_din_6935),
         SW_CASE(an_open_bend_is_measured_to_the_outside_intersection),
         SW_CASE(a_closed_bend_is_measured_to_the_outer_tangent), SW_CASE(tangent_dims_leave_the_face_as_it_is),
         SW_CASE(neighbouring_flanges_meet_at_the_new_corner), SW_CASE(a_folded_tray_has_its_declared_outside),
         SW_CASE(gaps_keep_flanges_short_of_the_new_corners), SW_CASE(a_bend_inside_an_edge_gets_round_notches),
         SW_CASE(square_and_no_reliefs_are_cut_as_asked), SW_CASE(two_bends_on_one_edge_leave_the_edge_between),
         SW_CASE(near_bends_share_one_notch), SW_CASE(a_bend_in_an_inner_corner_is_freed_from_the_wall),
         SW_CASE(a_flange_on_a_flange_keeps_its_root_whole), SW_CASE(a_rounded_corner_takes_a_smaller_gap_into_its_arc),
         SW_CASE(flange_sides_slope_and_corners_round), SW_CASE(a_childs_own_outline_hangs_on_its_root_edge),
         SW_CASE(a_joggle_is_two_bends_with_the_straight_of_its_formula),
         SW_CASE(a_least_joggle_has_no_straight_between), SW_CASE(a_closed_hem_has_the_length_of_its_formula),
         SW_CASE(rolled_zones_follow_each_other_through_faces_of_no_depth),
         SW_CASE(polygon_corners_round_and_sides_sweep), SW_CASE(a_run_of_one_name_is_one_edge),
         SW_CASE(an_arc_beside_a_bent_edge_is_cut_where_the_tangent_line_meets_it),
         SW_CASE(holes_rows_and_grids_are_cut_clockwise), SW_CASE(the_number_is_etched_where_there_is_room),
         SW_CASE(child_roots_are_as_long_as_their_bends_on_random_pieces))
