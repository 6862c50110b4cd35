/* Seams, bodies, orders and findings of plates welded together. */
#include "join_scene.h"

static void a_standing_plate_has_a_seam_along_its_foot(sw_test *t)
{
    const sw_join_result *r = welded_up(tee(t));
    if (!sw_true(t, r != NULL && r->seam_count == 1)) return;
    const sw_join_seam *s = &r->seams[0];
    sw_near(t, s->touch_mm, 300, 1e-9, "derived: the whole edge");
    for (size_t i = 0; i < s->count; i++) {
        sw_near(t, s->points[i].at.z_mm, 1.5, 1e-9, "derived: on the base's skin");
        sw_near(t, fabs(s->points[i].at.y_mm - 150), 1.5, 1e-9, "derived: at the wall's skin");
        sw_near(t, s->points[i].torch.z_mm, sqrt(0.5), 1e-9, "derived: half way between two sheets at right angles");
    }
    sw_true(t, s->reached && s->ahead_of[0] == '\0');
}

static void a_lying_plate_has_a_seam_at_its_cut_edge(sw_test *t)
{
    welded *w = new_welded(t);
    int base = plate(w, "base", 400, 300, lying), strip = plate(w, "strip", 200, 100, at(lying, 100, 100, 3));
    fillet(w, "strip on base", strip, 0, base)->kind = SW_JOINT_LAP;
    const sw_join_result *r = welded_up(w);
    if (!sw_true(t, r != NULL && r->seam_count == 1)) return;
    const sw_join_point *p = &r->seams[0].points[3];
    sw_near(t, p->at.z_mm, 1.5, 1e-9, "derived: on the base's skin");
    sw_near(t, p->at.y_mm, 100, 1e-9, "derived: at the strip's edge");
    sw_near(t, p->torch.y_mm, -sqrt(0.5), 1e-9, "derived: from outside the strip");
}

static void an_edge_that_hangs_over_is_welded_where_it_touches(sw_test *t)
{
    welded *w = new_welded(t);
    int base = plate(w, "base", 200, 300, lying), wall = plate(w, "wall", 300, 100, at(standing, 50, 150, 1.5));
    (void)fillet(w, "wall on base", wall, 0, base);
    const sw_join_result *r = welded_up(w);
    sw_true(t, r != NULL && fabs(r->seams[0].touch_mm - 150) <= w->opt.step_mm);
}

static void two_plates_edge_to_edge_are_welded_from_above(sw_test *t)
{
    welded *w = new_welded(t);
    int left = plate(w, "left", 200, 100, lying), right = plate(w, "right", 200, 100, at(lying, 200.4, 0, 0));
    sw_joint *j = fillet(w, "butt", left, 1, right);
    j->kind = SW_JOINT_BUTT;
    j->seam = SW_SEAM_SQUARE;
    const sw_join_result *r = welded_up(w);
    if (!sw_true(t, r != NULL && r->seams[0].count > 2)) return;
    sw_near(t, fabs(r->seams[0].points[2].torch.z_mm), 1, 1e-9, "derived: upright on the sheets");
    sw_near(t, r->seams[0].along_mm, 0.1, 1e-9, "handbook 7.5: butt, 3 mm in 3 m");
}

static void stitches_keep_their_pitch_in_the_middle_of_the_edge(sw_test *t)
{
    welded *w = tee(t);
    w->joints[0].stitch_mm = 25;
    w->joints[0].pitch_mm = 100;
    w->joints[0].tight = false;
    const sw_join_result *r = welded_up(w);
    if (!sw_true(t, r != NULL && r->seams[0].stretch_count == 3)) return;
    sw_near(t, r->seams[0].weld_mm, 75, 1e-9, "derived: three stitches");
    sw_near(t, r->seams[0].stretches[0].points[0].from_mm, 37.5, 1e-9, "derived: the rest in halves at both ends");
}

static void long_seams_are_laid_in_strides_from_the_middle_backwards(sw_test *t)
{
    welded *w = tee(t);
    w->opt.stride_mm = 60;
    const sw_join_result *r = welded_up(w);
    if (!sw_true(t, r != NULL && r->seams[0].stretch_count == 5)) return;
    const sw_join_seam *s = &r->seams[0];
    sw_near(t, s->weld_mm, 300, 1e-9, "derived: the strides together are the seam");
    sw_near(t, s->arc_mm, 340, 1e-9, "handbook 7.4: every restart of a tight seam overlaps 10 mm");
    sw_near(t, s->stretches[0].points[0].from_mm, 120, 1e-9, "derived: the middle stride first");
    const sw_join_stretch *right = &s->stretches[1];
    sw_true(t, right->points[0].from_mm > right->points[right->count - 1].from_mm);
}

static void a_seam_in_a_gully_is_welded_before_its_neighbours(sw_test *t)
{
    welded *w = new_welded(t);
    int base = plate(w, "base", 400, 300, lying), wall = plate(w, "wall", 300, 100, at(standing, 50, 150, 1.5));
    int front = plate(w, "front", 300, 100, at(standing, 50, 130, 1.5));
    int rear = plate(w, "rear", 300, 100, at(standing, 50, 170, 1.5));
    (void)fillet(w, "wall on base", wall, 0, base);
    (void)fillet(w, "front on base", front, 0, base);
    (void)fillet(w, "rear on base", rear, 0, base);
    const sw_join_result *r = welded_up(w);
    if (!sw_true(t, r != NULL && r->body_count == 2)) return;
    sw_true(t, r->bodies[0].ahead && r->bodies[0].seams[0] == 0);
    const char *before = r->seams[0].ahead_of;
    sw_true(t, strcmp(before, r->seams[1].a) == 0 || strcmp(before, r->seams[2].a) == 0);
    (void)says(t, r, "weld_ahead", SW_WATCH);
}

/* A bar 30 mm high on a sheet, to be welded along one of its long edges. */
static int bar(welded *w, const char *name, double y_mm)
{
    int i = plate(w, name, 200, 80, at(lying, 100, y_mm, 16.5));
    w->s->pieces[i].thickness_mm = 30;
    return i;
}

/* Two bars on a sheet, welded along the edges that face each other: each is in the torch's way at the other. */
static welded *gully(sw_test *t, double wide_mm)
{
    welded *w = new_welded(t);
    int base = plate(w, "base", 400, 300, lying);
    int left = bar(w, "left", 40), right = bar(w, "right", 120 + wide_mm);
    fillet(w, "left on base", left, 2, base)->kind = SW_JOINT_LAP;
    fillet(w, "right on base", right, 0, base)->kind = SW_JOINT_LAP;
    return w;
}

static void two_seams_that_shut_each_other_off_have_no_order(sw_test *t)
{
    const sw_join_result *r = welded_up(gully(t, 14));
    if (!says(t, r, "access", SW_FAILS)) return;
    const sw_finding *f = found(r, "access");
    sw_contains(t, f->what, "no order");
    sw_contains(t, f->what, "left on base, right on base");
    sw_true(t, r->seams[0].reached != r->seams[1].reached);
    const sw_join_seam *lost = &r->seams[r->seams[0].reached ? 1 : 0], *won = &r->seams[r->seams[0].reached ? 0 : 1];
    sw_same_text(t, lost->in_the_way, won->a);
    sw_same_text(t, won->ahead_of, lost->a);
    sw_true(t, won->body < lost->body && r->bodies[won->body].ahead && !r->bodies[lost->body].ahead);
}

static void a_wide_gully_is_welded_in_one_go(sw_test *t)
{
    const sw_join_result *r = welded_up(gully(t, 60));
    if (!says(t, r, "access", SW_HOLDS)) return;
    sw_true(t, r->body_count == 1 && r->seams[0].reached && r->seams[1].reached && found(r, "weld_ahead") == NULL);
}

/* The same gully, but the sheet is of two, joined under it: each bar is welded on its own sheet first. */
static void what_shuts_off_only_when_joined_is_welded_apart_first(sw_test *t)
{
    welded *w = new_welded(t);
    int one = plate(w, "one", 400, 126.8, lying), other = plate(w, "other", 400, 126.8, at(lying, 0, 127.2, 0));
    int left = bar(w, "left", 40), right = bar(w, "right", 134);
    fillet(w, "left on one", left, 2, one)->kind = SW_JOINT_LAP;
    fillet(w, "right on other", right, 0, other)->kind = SW_JOINT_LAP;
    sw_joint *j = fillet(w, "butt", one, 2, other);
    j->kind = SW_JOINT_BUTT;
    j->seam = SW_SEAM_SQUARE;
    const sw_join_result *r = welded_up(w);
    if (!says(t, r, "access", SW_HOLDS) || !sw_true(t, r->body_count == 3)) return;
    sw_true(t, r->bodies[0].ahead && r->bodies[1].ahead && r->bodies[2].piece_count == 4);
    sw_true(t, r->bodies[0].piece_count == 2 && r->bodies[1].piece_count == 2 && r->seams[2].body == 2);
}

static void a_ring_is_found_across_groups(sw_test *t)
{
    welded *w = gully(t, 14);
    w->s->pieces[2].group = "other";
    const sw_join_result *r = welded_up(w);
    if (says(t, r, "access", SW_FAILS)) sw_contains(t, found(r, "access")->what, "left on base, right on base");
}

/* The strip is of another group, but must be on the sheet before the bar of the sheet's own. */
static void groups_are_welded_as_one_where_one_would_shut_the_other_off(sw_test *t)
{
    welded *w = new_welded(t);
    int base = plate(w, "base", 400, 300, lying), left = bar(w, "left", 40);
    int strip = plate(w, "strip", 200, 80, at(lying, 100, 134, 3));
    w->s->pieces[strip].group = "other";
    fillet(w, "left on base", left, 2, base)->kind = SW_JOINT_LAP;
    fillet(w, "strip on base", strip, 0, base)->kind = SW_JOINT_LAP;
    const sw_join_result *r = welded_up(w);
    if (!says(t, r, "access", SW_HOLDS) || !sw_true(t, r->body_count == 2)) return;
    sw_true(t, r->seams[1].body == 0 && r->seams[0].body == 1 && r->bodies[1].piece_count == 3);
    sw_same_text(t, r->seams[1].ahead_of, r->seams[0].a);
}

/* Every body before the last is ahead, and whole in the last. */
static void bodies_ahead_are_built_into_one_another(sw_test *t)
{
    welded *w = gully(t, 14);
    int cover = plate(w, "cover", 200, 40, at(lying, 100, 108, 33));
    fillet(w, "cover on left", cover, 0, 1)->kind = SW_JOINT_LAP;
    const sw_join_result *r = welded_up(w);
    if (!sw_true(t, r != NULL && r->body_count > 1)) return;
    for (size_t b = 0; b + 1 < r->body_count; b++) {
        const sw_join_body *last = &r->bodies[r->body_count - 1];
        size_t whole = 0;
        for (size_t i = 0; i < r->bodies[b].piece_count; i++)
            for (size_t k = 0; k < last->piece_count; k++) whole += r->bodies[b].pieces[i] == last->pieces[k];
        sw_true(t, r->bodies[b].ahead && whole == r->bodies[b].piece_count);
    }
}

static void a_torch_too_thick_for_the_corner_fails_and_names_what_is_in_the_way(sw_test *t)
{
    welded *w = tee(t);
    w->s->works.welding.hand_torch.nozzle_radius_mm = w->s->works.welding.robot_torch.nozzle_radius_mm = 40;
    const sw_join_result *r = welded_up(w);
    if (!says(t, r, "access", SW_FAILS)) return;
    sw_true(t, !r->seams[0].reached && r->seams[0].in_the_way[0] != '\0' && r->seams[0].station == SW_JOIN_HAND);
    sw_contains(t, found(r, "access")->what, "in the way");
}

static void without_a_torch_access_is_unknown(sw_test *t)
{
    welded *w = tee(t);
    w->s->works.welding.hand_torch = w->s->works.welding.robot_torch = (sw_torch){0};
    (void)says(t, welded_up(w), "access", SW_UNKNOWN);
}

static void without_a_welding_table_times_are_unknown(sw_test *t)
{
    welded *w = tee(t);
    w->s->works.welding.row_count = 0;
    const sw_join_result *r = welded_up(w);
    (void)says(t, r, "weld_table", SW_UNKNOWN);
    sw_true(t, r != NULL && r->unknown == 1 && isnan(r->seams[0].arc_s) && r->wire_kg == 0);
}

static void a_throat_without_a_row_is_named(sw_test *t)
{
    welded *w = tee(t);
    w->joints[0].throat_mm = 1.7;
    const sw_join_result *r = welded_up(w);
    (void)says(t, r, "weld_row", SW_UNKNOWN);
    sw_true(t, r != NULL && r->unknown == 1);
}

static void throats_are_held_against_the_thinner_sheet(sw_test *t)
{
    static const struct {
        double throat_mm;
        const char *check;
        sw_verdict verdict;
    } cases[] = {{2.0, "throat_most", SW_HOLDS},
                 {2.5, "throat_most", SW_WATCH},
                 {3.5, "throat_most", SW_FAILS},
                 {1.0, "throat_least", SW_FAILS},
                 {1.5, "throat_least", SW_HOLDS}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        welded *w = tee(t);
        w->joints[0].throat_mm = w->rows[0].throat_mm = cases[i].throat_mm;
        if (!says(t, welded_up(w), cases[i].check, cases[i].verdict)) return;
    }
}

static void heat_is_held_against_the_sheets(sw_test *t)
{
    welded *hot = tee(t), *cold = tee(t);
    hot->rows[0].hand_mm_s = hot->rows[0].robot_mm_s = 1.5;
    (void)says(t, welded_up(hot), "heat_most", SW_FAILS);
    cold->rows[0].hand_mm_s = cold->rows[0].robot_mm_s = 60;
    const sw_join_result *r = welded_up(cold);
    (void)says(t, r, "heat_least", SW_FAILS);
    (void)says(t, r, "deposit", SW_WATCH);
}

static void a_gap_the_robot_does_not_bridge_goes_to_the_hand_station(sw_test *t)
{
    welded *w = tee(t);
    w->s->works.welding.gap_bridged = 0.1;
    w->sheet = NULL;
    sw_frame up = at(standing, 50, 150, 1.9);
    sw_frame *kept = sw_keep(&t->run, 1, sizeof *kept);
    *kept = up;
    w->s->pieces[1].placements = kept;
    const sw_join_result *r = welded_up(w);
    (void)says(t, r, "robot_gap", SW_WATCH);
    sw_true(t, r != NULL && r->seams[0].station == SW_JOIN_HAND && r->seams[0].why[0] != '\0');
}

static void an_interrupted_seam_is_not_tight(sw_test *t)
{
    welded *w = tee(t);
    w->joints[0].stitch_mm = 25;
    w->joints[0].pitch_mm = 100;
    (void)says(t, welded_up(w), "tight_seam", SW_FAILS);
}

static void pieces_that_do_not_meet_have_nothing_to_weld(sw_test *t)
{
    welded *w = new_welded(t);
    int base = plate(w, "base", 400, 300, lying), wall = plate(w, "wall", 300, 100, at(standing, 50, 150, 20));
    (void)fillet(w, "wall on base", wall, 0, base);
    (void)says(t, welded_up(w), "touch", SW_FAILS);
}

static void figures_that_cannot_be_are_all_named(sw_test *t)
{
    welded *w = tee(t);
    const sw_join_result *r = NULL;
    sw_ok(t, sw_sheet_solve(&t->run, &w->s->model, &w->s->opt, &w->sheet));
    w->s->works.welding.tack_s = -1;
    w->s->works.welding.hand_share = NAN;
    w->rows[0].throat_mm = -2;
    sw_true(t, weld(w, &r) == SW_OUT_OF_RANGE && r == NULL && t->run.error_count == 3);
}

static void missing_figures_are_named_in_one_finding(sw_test *t)
{
    welded *w = tee(t);
    w->s->works.welding.hand_share = w->s->works.welding.turn_s = 0;
    const sw_join_result *r = welded_up(w);
    if (!says(t, r, "works_figures", SW_UNKNOWN)) return;
    sw_contains(t, found(r, "works_figures")->what, "arc-on share");
    sw_contains(t, found(r, "works_figures")->what, "positioner");
}

/* ---- laws ----------------------------------------------------------------------------------------------- */

/* Four walls round a base: seams on opposite sides. */
static welded *box(sw_test *t, sw_vec3 by)
{
    static const sw_frame aside = {{0, 1, 0}, {0, 0, 1}, {1, 0, 0}, {0, 0, 0}};
    welded *w = new_welded(t);
    int base = plate(w, "base", 500, 400, at(lying, by.x_mm, by.y_mm, by.z_mm));
    double z_mm = by.z_mm + 1.5;
    int front = plate(w, "front", 300, 100, at(standing, by.x_mm + 100, by.y_mm + 50, z_mm));
    int rear = plate(w, "rear", 300, 100, at(standing, by.x_mm + 100, by.y_mm + 350, z_mm));
    int left = plate(w, "left", 250, 100, at(aside, by.x_mm + 60, by.y_mm + 75, z_mm));
    int right = plate(w, "right", 250, 100, at(aside, by.x_mm + 440, by.y_mm + 75, z_mm));
    (void)fillet(w, "front", front, 0, base);
    (void)fillet(w, "rear", rear, 0, base);
    (void)fillet(w, "left", left, 0, base);
    (void)fillet(w, "right", right, 0, base);
    return w;
}

static void robot_times_add_up(sw_test *t)
{
    const sw_join_result *r = welded_up(box(t, (sw_vec3){0, 0, 0}));
    if (!sw_true(t, r != NULL && r->body_count == 1 && r->bodies[0].robot_count == 4)) return;
    const sw_join_body *b = &r->bodies[0];
    double weld_s = 0, air_s = 0;
    for (size_t i = 0; i < b->robot_count; i++) {
        weld_s += b->robot[i].weld_s;
        air_s += b->robot[i].air_s;
    }
    sw_near(t, weld_s, b->robot_arc_s + b->starts_s, 1e-9, "derived: sum of the steps");
    sw_near(t, air_s, b->air_s, 1e-9, "derived: sum of the steps");
    sw_near(t, b->robot_s, b->fixture_s + weld_s + air_s + b->turns_s, 1e-9, "derived: sum of times");
    sw_near(t, r->station_s[SW_JOIN_ROBOT] + r->setup_s[SW_JOIN_ROBOT], b->robot_s, 1e-9, "derived: one body");
    sw_near(t, r->weld_mm, 1100, 1e-9, "derived: four seams");
}

static void opposite_seams_follow_each_other(sw_test *t)
{
    const sw_join_result *r = welded_up(box(t, (sw_vec3){0, 0, 0}));
    if (!sw_true(t, r != NULL && r->bodies[0].robot_count == 4)) return;
    const sw_join_body *b = &r->bodies[0];
    sw_true(t, b->proved && b->same_side == 0 && b->turns == 0);
    sw_true(t, b->robot[3].pull < 0.2 && b->robot[0].pull > b->robot[3].pull);
}

static void where_the_stove_stands_changes_nothing(sw_test *t)
{
    const sw_join_result *here = welded_up(box(t, (sw_vec3){0, 0, 0}));
    const sw_join_result *there = welded_up(box(t, (sw_vec3){130, -70, 400}));
    if (!sw_true(t, here != NULL && there != NULL)) return;
    sw_near(t, there->weld_mm, here->weld_mm, 1e-9, "invariance");
    sw_near(t, there->wire_kg, here->wire_kg, 1e-9, "invariance");
    sw_near(t, there->bodies[0].robot_s, here->bodies[0].robot_s, 1e-6, "invariance");
}

static void many_seams_are_laid_without_trying_all_orders(sw_test *t)
{
    welded *w = box(t, (sw_vec3){0, 0, 0});
    for (int i = 1; i <= 4; i++) { /* the box's corners stay open: each wall has a second seam on itself at its end */
        sw_joint *j = fillet(w, i == 1 ? "5" : i == 2 ? "6" : i == 3 ? "7" : "8", i, 0, 0);
        j->tight = false;
    }
    const sw_join_result *r = welded_up(w);
    if (!sw_true(t, r != NULL && r->bodies[0].robot_count == 8)) return;
    sw_true(t, !r->bodies[0].proved && r->bodies[0].turns == 0);
}

static void a_wall_gets_a_tack_from_its_middle_outward(sw_test *t)
{
    const sw_join_result *r = welded_up(tee(t));
    if (!sw_true(t, r != NULL && r->bodies[0].tack_count == 4)) return;
    const sw_join_tack *tacks = r->bodies[0].tacks;
    sw_near(t, tacks[0].from_mm, 112.5, 1e-9, "handbook 7.4: pitch 75, half at the ends, from the middle");
    sw_near(t, tacks[1].from_mm, 187.5, 1e-9, "handbook 7.4: then the other way");
    sw_true(t, tacks[0].side == -tacks[1].side && tacks[0].side != 0);
    sw_near(t, r->station_s[SW_JOIN_TACK], 24, 1e-9, "derived: four tacks of 6 s");
}

static void tight_seams_are_looked_at_at_ends_and_restarts(sw_test *t)
{
    const sw_join_result *r = welded_up(tee(t));
    if (!sw_true(t, r != NULL && r->leak_count == 3)) return;
    sw_near(t, r->tight_mm, 300, 1e-9, "derived: one seam");
    sw_near(t, r->leak_area_mm2, 226.8, 0.2, "handbook W7.5 turned round: 2 m3/h at 10 Pa");
    (void)says(t, r, "leak_test", SW_UNKNOWN);
}

/* ---- the seam table ---------------------------------------------------------------------------------------- */

static double cell(sw_test *t, const sw_csv *csv, size_t row, const char *column)
{
    double value = NAN;
    sw_ok(t, sw_csv_number(&t->run, csv, row, sw_csv_column(csv, column), -1e6, 1e6, &value));
    return value;
}

static bool seam_table(sw_test *t, const sw_join_result *r, sw_csv *csv)
{
    sw_writer *writer = NULL;
    const char *text = NULL;
    size_t length = 0;
    if (!sw_true(t, r != NULL) || !sw_ok(t, sw_writer_to_memory(&t->run, &writer))) return false;
    sw_join_write_csv(r, writer);
    sw_ok(t, sw_writer_take(&t->run, writer, &text, &length));
    return sw_ok(t, sw_csv_read(&t->run, "seams.csv", text, length, csv));
}

static void a_joint_a_spreadsheet_would_run_is_a_text_in_the_seam_table(sw_test *t)
{
    sw_csv csv;
    welded *w = tee(t);
    w->joints[0].name = "-wall, on base";
    if (!seam_table(t, welded_up(w), &csv) || !sw_true(t, csv.row_count > 0)) return;
    const char *joint = sw_csv_cell(&csv, 0, sw_csv_column(&csv, "joint"));
    sw_same_text(t, joint, "'-wall, on base");
    sw_same_text(t, sw_csv_as_it_was(joint), w->joints[0].name);
}

static void the_seam_table_reads_back(sw_test *t)
{
    welded *w = tee(t);
    w->joints[0].name = "wall, on \"base\"";
    const sw_join_result *r = welded_up(w);
    sw_csv csv;
    if (!seam_table(t, r, &csv)) return;
    const sw_join_stretch *s = &r->seams[0].stretches[0];
    if (!sw_true(t, s->count > 0 && csv.row_count == s->count && csv.column_count == 25)) return;
    sw_same_text(t, sw_csv_cell(&csv, 0, sw_csv_column(&csv, "joint")), "wall, on \"base\"");
    for (size_t i = 0; i < s->count; i++) {
        bool back = cell(t, &csv, 0, "along_x") * s->points[0].along.x_mm < 0;
        const sw_join_point *p = &s->points[back ? s->count - 1 - i : i];
        sw_near(t, cell(t, &csv, i, "x_mm"), p->at.x_mm, 0.006, "round trip");
        sw_near(t, cell(t, &csv, i, "torch_z"), p->torch.z_mm, 1e-5, "round trip");
        sw_near(t, cell(t, &csv, i, "speed_mm_s"), r->seams[0].travel_mm_s, 1e-3, "round trip");
        sw_near(t, cell(t, &csv, i, "arc"), i + 1 < s->count ? 1 : 0, 0, "derived: off at the last point");
    }
}

static void each_refused_request_for_memory_is_told(sw_test *t)
{
    welded *w = box(t, (sw_vec3){0, 0, 0});
    sw_ok(t, sw_sheet_solve(&t->run, &w->s->model, &w->s->opt, &w->sheet));
    sw_arena *arenas[2] = {t->run.keep, t->run.scratch};
    for (int a = 0; a < 2; a++) {
        size_t nth = 1;
        for (; nth < 5000; nth++) {
            const sw_join_result *r = NULL;
            sw_run_clear_errors(&t->run);
            sw_arena_fail_at(arenas[a], nth);
            sw_status status = weld(w, &r);
            sw_arena_fail_at(arenas[a], 0);
            if (status == SW_OK) break;
            if (!sw_true(t, status == SW_NO_MEMORY && r == NULL)) return;
        }
        sw_true(t, nth > 20 && nth < 5000);
    }
}

SW_TESTS(SW_CASE(a_standing_plate_has_a_seam_along_its_foot), SW_CASE(a_lying_plate_has_a_seam_at_its_cut_edge),
         SW_CASE(an_edge_that_hangs_over_is_welded_where_it_touches),
         SW_CASE(two_plates_edge_to_edge_are_welded_from_above),
         SW_CASE(stitches_keep_their_pitch_in_the_middle_of_the_edge),
         SW_CASE(long_seams_are_laid_in_strides_from_the_middle_backwards),
         SW_CASE(a_seam_in_a_gully_is_welded_before_its_neighbours),
         SW_CASE(two_seams_that_shut_each_other_off_have_no_order), SW_CASE(a_wide_gully_is_welded_in_one_go),
         SW_CASE(what_shuts_off_only_when_joined_is_welded_apart_first), SW_CASE(a_ring_is_found_across_groups),
         SW_CASE(groups_are_welded_as_one_where_one_would_shut_the_other_off),
         SW_CASE(bodies_ahead_are_built_into_one_another),
         SW_CASE(a_torch_too_thick_for_the_corner_fails_and_names_what_is_in_the_way),
         SW_CASE(without_a_torch_access_is_unknown), SW_CASE(without_a_welding_table_times_are_unknown),
         SW_CASE(a_throat_without_a_row_is_named), SW_CASE(throats_are_held_against_the_thinner_sheet),
         SW_CASE(heat_is_held_against_the_sheets), SW_CASE(a_gap_the_robot_does_not_bridge_goes_to_the_hand_station),
         SW_CASE(an_interrupted_seam_is_not_tight), SW_CASE(pieces_that_do_not_meet_have_nothing_to_weld),
         SW_CASE(figures_that_cannot_be_are_all_named), SW_CASE(missing_figures_are_named_in_one_finding),
         SW_CASE(robot_times_add_up), SW_CASE(opposite_seams_follow_each_other),
         SW_CASE(where_the_stove_stands_changes_nothing), SW_CASE(many_seams_are_laid_without_trying_all_orders),
         SW_CASE(a_wall_gets_a_tack_from_its_middle_outward), SW_CASE(tight_seams_are_looked_at_at_ends_and_restarts),
         SW_CASE(the_seam_table_reads_back), SW_CASE(a_joint_a_spreadsheet_would_run_is_a_text_in_the_seam_table),
         SW_CASE(each_refused_request_for_memory_is_told))
