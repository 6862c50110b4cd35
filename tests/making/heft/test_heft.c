/* Bodies, groups, tipping and carrying. */
#include "making/heft/heft.h"
#include "sw_test.h"

#include <math.h>
#include <string.h>

static sw_frame random_frame(sw_random *r)
{
    sw_frame f = sw_frame_world();
    for (int i = 0; i < 3; i++) {
        sw_vec3 axis = sw_vec3_unit((sw_vec3){sw_random_between(r, -1, 1), sw_random_between(r, -1, 1), 1.5});
        f = sw_frame_turned(f, axis, sw_random_between(r, -3, 3));
    }
    f.origin =
        (sw_vec3){sw_random_between(r, -500, 500), sw_random_between(r, -500, 500), sw_random_between(r, 0, 900)};
    return f;
}

static sw_body point_mass(double mass_kg, double x_mm, double y_mm, double z_mm)
{
    return (sw_body){.mass_kg = mass_kg, .centre = {x_mm, y_mm, z_mm}};
}

static void centre_of_gravity_and_tip_angles_of_the_worked_example(sw_test *t)
{
    const sw_body parts[] = {point_mass(62, 0, 0, 450), point_mass(18, 0, 0, 520), point_mass(14, -160, 0, 430),
                             point_mass(22, 0, 0, 180), point_mass(9, 190, 0, 500)};
    sw_body sum = sw_body_sum(parts, 5);
    const char *source = "workshop handbook W9.4";
    sw_near(t, sum.mass_kg, 125, 1e-9, source);
    sw_near(t, sum.centre.x_mm, -4.24, 5e-3, source);
    sw_near(t, sum.centre.z_mm, 413.92, 5e-3, source);
    double right = sw_tip_angle_rad(210 - sum.centre.x_mm, sum.centre.z_mm);
    double left = sw_tip_angle_rad(210 + sum.centre.x_mm, sum.centre.z_mm);
    sw_near(t, sw_deg_from_rad(right), 27.37, 5e-3, source);
    sw_near(t, sw_deg_from_rad(left), 26.43, 5e-3, source);
    const sw_point base[] = {{-210, -300}, {210, -300}, {210, 300}, {-210, 300}};
    size_t edge = 9;
    sw_near(t, sw_deg_from_rad(sw_tip_angle_over_rad(base, 4, sum.centre, &edge)), 26.43, 5e-3, source);
    sw_true(t, edge == 3);
}

static void no_bodies_weigh_nothing(sw_test *t)
{
    sw_body none = sw_body_sum(NULL, 0);
    sw_near(t, none.mass_kg, 0, 0, "derived: empty sum");
}

static void two_equal_masses_have_the_moments_of_a_dumbbell(sw_test *t)
{
    const sw_body ends[] = {point_mass(2, -100, 0, 0), point_mass(2, 100, 0, 0)};
    sw_body sum = sw_body_sum(ends, 2);
    sw_near(t, sum.inertia_kg_mm2[0], 0, 1e-9, "derived: all mass on the x axis");
    sw_near(t, sum.inertia_kg_mm2[1], 4e4, 1e-6, "derived: 2 m a2");
    sw_near(t, sum.inertia_kg_mm2[2], 4e4, 1e-6, "derived: 2 m a2");
}

static void products_of_inertia_carry_the_minus_sign_of_the_tensor(sw_test *t)
{
    const sw_body ends[] = {point_mass(1, -10, -20, 0), point_mass(1, 10, 20, 0)};
    sw_near(t, sw_body_sum(ends, 2).inertia_kg_mm2[3], -400, 1e-9, "derived: Ixy = - sum m x y");
}

static void plate_has_the_moments_of_a_cuboid(sw_test *t)
{
    sw_region r = {0};
    sw_ok(t, sw_contour_rectangle(&t->run, (sw_box){10, 20, 310, 220}, 0, &r.outline));
    sw_body body = sw_body_plate(6, &r, 12);
    sw_near(t, body.centre.x_mm, 160, 1e-9, "derived: middle of the plate");
    sw_near(t, body.centre.z_mm, 6, 1e-9, "derived: half the thickness");
    sw_near(t, body.inertia_kg_mm2[0], 6.0 / 12 * (200 * 200 + 12 * 12), 1e-6, "derived: m (b2 + c2) / 12");
    sw_near(t, body.inertia_kg_mm2[1], 6.0 / 12 * (300 * 300 + 12 * 12), 1e-6, "derived: m (a2 + c2) / 12");
    sw_near(t, body.inertia_kg_mm2[2], 6.0 / 12 * (300 * 300 + 200 * 200), 1e-6, "derived: m (a2 + b2) / 12");
}

static double trace(sw_body b)
{
    return b.inertia_kg_mm2[0] + b.inertia_kg_mm2[1] + b.inertia_kg_mm2[2];
}

static void sum_does_not_depend_on_the_frame_it_is_made_in(sw_test *t)
{
    for (uint64_t seed = 1; seed <= 200; seed++) {
        t->seed = seed;
        sw_random r = sw_random_seeded(seed);
        sw_frame outer = random_frame(&r);
        sw_body own[4], moved[4];
        for (int i = 0; i < 4; i++) {
            sw_body half[2];
            for (int k = 0; k < 2; k++)
                half[k] = point_mass(sw_random_between(&r, 1, 30), sw_random_between(&r, -300, 300),
                                     sw_random_between(&r, -300, 300), sw_random_between(&r, 0, 900));
            own[i] = sw_body_sum(half, 2);
            moved[i] = sw_body_moved(own[i], outer);
        }
        sw_body first = sw_body_moved(sw_body_sum(own, 4), outer), then = sw_body_sum(moved, 4);
        for (int k = 0; k < 6; k++)
            if (!sw_near(t, then.inertia_kg_mm2[k], first.inertia_kg_mm2[k], 1e-9 * trace(first), "invariance")) return;
        if (!sw_near(t, trace(then), trace(sw_body_sum(own, 4)), 1e-9 * trace(first), "invariance of the trace"))
            return;
        if (!sw_near(t, sw_vec3_length(sw_vec3_sub(first.centre, then.centre)), 0, 1e-9, "invariance")) return;
    }
    t->seed = 0;
}

static void grouping_does_not_change_the_sum(sw_test *t)
{
    sw_random r = sw_random_seeded(7);
    sw_body b[5];
    for (int i = 0; i < 5; i++)
        b[i] = point_mass(1 + i, sw_random_between(&r, 0, 100), i * 10, sw_random_between(&r, 0, 100));
    sw_body all = sw_body_sum(b, 5), parts[2] = {sw_body_sum(b, 2), sw_body_sum(b + 2, 3)};
    sw_body grouped = sw_body_sum(parts, 2);
    for (int k = 0; k < 6; k++)
        sw_near(t, grouped.inertia_kg_mm2[k], all.inertia_kg_mm2[k], 1e-7, "parallel-axis theorem, applied twice");
}

static void two_people_carry_two_thirds_of_their_limits(sw_test *t)
{
    sw_near(t, sw_team_mass_kg(1, 25), 25, 1e-12, "ISO 11228-1 reference mass (from memory)");
    sw_near(t, sw_team_mass_kg(2, 25), 100.0 / 3, 1e-9, "two people 2/3 of the sum (HSE, from memory)");
    sw_near(t, sw_team_mass_kg(3, 25), 37.5, 1e-9, "three people 1/2 of the sum (HSE, from memory)");
    sw_true(t, isnan(sw_team_mass_kg(4, 25)));
}

/* ---- a small stove: a base plate, a post off its middle, a grate ---- */

typedef struct small_stove {
    sw_face base, post;
    sw_piece pieces[2];
    sw_item items[2];
    sw_group groups[2];
    sw_frame at[4];
    sw_body bodies[2];
    sw_stove stove;
    sw_heft_input in;
} small_stove;

static small_stove *make_stove(sw_test *t)
{
    small_stove *s = SW_KEEP(&t->run, 1, small_stove);
    for (int i = 0; i < 4; i++) s->at[i] = sw_frame_world();
    s->at[1].origin.z_mm = 400;
    s->at[2].origin = (sw_vec3){50, 0, 300};
    s->at[3].origin = (sw_vec3){-50, 0, 300};
    sw_ok(t, sw_contour_rectangle(&t->run, (sw_box){-200, -150, 200, 150}, 0, &s->base.region.outline));
    sw_ok(t, sw_contour_rectangle(&t->run, (sw_box){-50, -50, 50, 50}, 0, &s->post.region.outline));
    s->pieces[0] = (sw_piece){.number = "B-01", .name = "base", .group = "base", .faces = &s->base, .face_count = 1};
    s->pieces[0].placements = &s->at[0];
    s->pieces[0].count = 1;
    s->pieces[1] = (sw_piece){.number = "A-01", .name = "post", .group = "furnace", .faces = &s->post, .face_count = 1};
    s->pieces[1].placements = &s->at[1];
    s->pieces[1].count = 1;
    s->items[0] = (sw_item){.name = "grate", .group = "furnace", .mass_kg = 3, .placements = &s->at[2], .count = 2};
    s->items[1] = (sw_item){.name = "board", .group = "furnace", .mass_kg = 2, .placements = &s->at[1], .count = 1};
    s->items[1].shape = s->post.region;
    s->items[1].thickness_mm = 30;
    s->groups[0] = (sw_group){.name = "base", .title = ""};
    s->groups[1] = (sw_group){.name = "furnace", .title = ""};
    s->bodies[0] = sw_body_plate(10, &s->base.region, 4);
    s->bodies[1] = sw_body_plate(20, &s->post.region, 4);
    s->stove = (sw_stove){.name = "small", .title = "", .note = "", .groups = s->groups, .group_count = 2};
    s->stove.pieces = s->pieces;
    s->stove.piece_count = 2;
    s->stove.items = s->items;
    s->stove.item_count = 2;
    s->in = (sw_heft_input){.stove = &s->stove, .pieces = s->bodies};
    return s;
}

static const sw_finding *finding_at(const sw_heft_result *r, const char *check, const char *where)
{
    for (size_t i = 0; i < r->findings.count; i++)
        if (strcmp(r->findings.items[i].check, check) == 0 && strcmp(r->findings.items[i].where, where) == 0)
            return &r->findings.items[i];
    return NULL;
}

static void groups_and_lines_add_up_to_the_stove(sw_test *t)
{
    small_stove *s = make_stove(t);
    const sw_heft_result *r = NULL;
    if (!sw_ok(t, sw_heft_solve(&t->run, &s->in, &r))) return;
    sw_near(t, r->stove.mass_kg, 38, 1e-12, "derived: 10 + 20 + 2 x 3 + 2");
    sw_near(t, r->groups[0].body.mass_kg + r->groups[1].body.mass_kg, 38, 1e-12, "additivity");
    sw_near(t, r->items[0].body.mass_kg, 6, 1e-12, "derived: both places together");
    sw_near(t, r->items[0].body.centre.x_mm, 0, 1e-12, "derived: places at +-50");
    sw_near(t, r->items[1].body.centre.z_mm, 415, 1e-12, "derived: 400 + half of 30");
    sw_near(t, r->stove.centre.z_mm, (10 * 2 + 20 * 402 + 6 * 300 + 2 * 415) / 38.0, 1e-9, "derived: sum m z / sum m");
}

static void stove_tips_over_the_nearest_edge_of_its_base(sw_test *t)
{
    small_stove *s = make_stove(t);
    const sw_heft_result *r = NULL;
    if (!sw_ok(t, sw_heft_solve(&t->run, &s->in, &r))) return;
    sw_true(t, r->support_count == 4);
    sw_near(t, r->tip_rad, atan(150 / r->stove.centre.z_mm), 1e-12, "derived: atan(e/h), front and rear edge");
    const sw_finding *f = finding_at(r, "tipping", "stove");
    sw_true(t, f != NULL && f->verdict == SW_HOLDS);
    s->at[1].origin.y_mm = 270;
    if (!sw_ok(t, sw_heft_solve(&t->run, &s->in, &r))) return;
    f = finding_at(r, "tipping", "stove");
    sw_true(t, f != NULL && f->verdict == SW_FAILS && f->value < 0);
}

/* The upper piece of 15 kg swings about an axis at the front; by hand: the centre moves by 15/33 of its way. */
static void an_open_door_moves_the_centre_of_gravity_with_it(sw_test *t)
{
    const char *names[] = {"post"};
    sw_hinge hinge = {.name = "fire door", .at = {0, -100}, .open_rad = SW_PI, .carries = names, .carried = 1};
    small_stove *s = make_stove(t);
    const sw_heft_result *r = NULL;
    s->stove.hinges = &hinge;
    s->stove.hinge_count = 1;
    s->bodies[1] = sw_body_plate(15, &s->post.region, 4);
    if (!sw_ok(t, sw_heft_solve(&t->run, &s->in, &r))) return;
    double front_mm = 150 - 15.0 / 33 * 200;
    sw_near(t, r->open_rad, atan(front_mm / r->stove.centre.z_mm), 1e-9,
            "derived: m_i/m of the way, over the front edge");
    sw_true(t, r->open_rad < r->tip_rad);
    sw_same_text(t, r->open, "fire door");
    const sw_finding *f = finding_at(r, "tipping_open", "stove");
    if (sw_true(t, f != NULL)) sw_contains(t, f->what, "open: fire door");
    hinge.open_rad = 0;
    if (!sw_ok(t, sw_heft_solve(&t->run, &s->in, &r))) return;
    sw_near(t, r->open_rad, r->tip_rad, 1e-12, "invariance: a door that stays shut");
}

static void of_two_doors_the_worse_way_counts(sw_test *t)
{
    static const char *const names[] = {"post"};
    const sw_hinge hinges[] = {{.name = "forward", .at = {0, -100}, .open_rad = SW_PI, .carries = names, .carried = 1},
                               {.name = "nothing", .at = {0, 0}, .open_rad = SW_PI, .carries = NULL, .carried = 0}};
    small_stove *s = make_stove(t);
    const sw_heft_result *one = NULL, *two = NULL;
    s->bodies[1] = sw_body_plate(15, &s->post.region, 4);
    s->stove.hinges = hinges;
    s->stove.hinge_count = 1;
    if (!sw_ok(t, sw_heft_solve(&t->run, &s->in, &one))) return;
    s->stove.hinge_count = 2;
    if (!sw_ok(t, sw_heft_solve(&t->run, &s->in, &two))) return;
    sw_near(t, two->open_rad, one->open_rad, 1e-12, "derived: the other door weighs nothing");
    sw_same_text(t, two->open, "forward");
}

static void what_seams_hold_to_the_door_goes_along_but_not_the_stove(sw_test *t)
{
    const char *names[] = {"base"};
    sw_hinge hinge = {.name = "fire door", .at = {0, -100}, .open_rad = SW_PI, .carries = names, .carried = 1};
    const sw_joint seam = {.name = "seam", .seam = SW_SEAM_FILLET, .a = {.piece = 0}, .b = {.piece = 1}};
    small_stove *s = make_stove(t);
    const sw_heft_result *r = NULL;
    s->stove.hinges = &hinge;
    s->stove.hinge_count = 1;
    s->stove.joints = &seam;
    s->stove.joint_count = 1;
    if (!sw_ok(t, sw_heft_solve(&t->run, &s->in, &r))) return;
    const sw_finding *f = finding_at(r, "tipping_open", "stove");
    sw_true(t, isnan(r->open_rad) && f != NULL && f->verdict == SW_UNKNOWN && f->remedy[0] != '\0');
}

static void stove_without_feet_on_the_floor_is_unknown(sw_test *t)
{
    small_stove *s = make_stove(t);
    s->at[0].origin.z_mm = 5;
    const sw_heft_result *r = NULL;
    if (!sw_ok(t, sw_heft_solve(&t->run, &s->in, &r))) return;
    const sw_finding *f = finding_at(r, "tipping", "stove");
    sw_true(t, f != NULL && f->verdict == SW_UNKNOWN && isnan(r->tip_rad));
}

static void folded_meshes_tell_what_stands_on_the_floor(sw_test *t)
{
    static const sw_vec3 feet[] = {{-100, -100, 0}, {100, -100, 0}, {0, 100, 0}, {0, 0, 50}};
    static const sw_triangle faces[] = {{0, 2, 1}, {0, 1, 3}, {1, 2, 3}, {2, 0, 3}};
    const sw_mesh mesh = {feet, 4, faces, 4};
    const sw_mesh *meshes[] = {&mesh, &mesh};
    small_stove *s = make_stove(t);
    s->in.meshes = meshes;
    const sw_heft_result *r = NULL;
    if (!sw_ok(t, sw_heft_solve(&t->run, &s->in, &r))) return;
    sw_true(t, r->support_count == 3);
}

static void mass_that_cannot_be_is_refused(sw_test *t)
{
    small_stove *s = make_stove(t);
    const sw_heft_result *r;
    s->items[1].mass_kg = NAN;
    sw_true(t, sw_heft_solve(&t->run, &s->in, &r) == SW_OUT_OF_RANGE && r == NULL);
    sw_same_text(t, t->run.errors[0].field, "board");
    s->items[1].mass_kg = 1;
    s->bodies[0].mass_kg = -1;
    sw_true(t, sw_heft_solve(&t->run, &s->in, &r) == SW_OUT_OF_RANGE);
}

static void every_failed_request_for_memory_is_reported(sw_test *t)
{
    small_stove *s = make_stove(t);
    for (int arena = 0; arena < 2; arena++)
        for (size_t nth = 1; nth < 500; nth++) {
            const sw_heft_result *r = NULL;
            sw_arena *from = arena == 0 ? t->run.keep : t->run.scratch;
            sw_run_clear_errors(&t->run);
            sw_arena_fail_at(from, nth);
            sw_status status = sw_heft_solve(&t->run, &s->in, &r);
            sw_arena_fail_at(from, 0);
            if (status == SW_OK) break;
            if (!sw_true(t, status == SW_NO_MEMORY && r == NULL)) return;
        }
}

SW_TESTS(SW_CASE(centre_of_gravity_and_tip_angles_of_the_worked_example), SW_CASE(no_bodies_weigh_nothing),
         SW_CASE(two_equal_masses_have_the_moments_of_a_dumbbell),
         SW_CASE(products_of_inertia_carry_the_minus_sign_of_the_tensor), SW_CASE(plate_has_the_moments_of_a_cuboid),
         SW_CASE(sum_does_not_depend_on_the_frame_it_is_made_in), SW_CASE(grouping_does_not_change_the_sum),
         SW_CASE(two_people_carry_two_thirds_of_their_limits), SW_CASE(groups_and_lines_add_up_to_the_stove),
         SW_CASE(an_open_door_moves_the_centre_of_gravity_with_it), SW_CASE(of_two_doors_the_worse_way_counts),
         SW_CASE(what_seams_hold_to_the_door_goes_along_but_not_the_stove),
         SW_CASE(stove_tips_over_the_nearest_edge_of_its_base), SW_CASE(stove_without_feet_on_the_floor_is_unknown),
         SW_CASE(folded_meshes_tell_what_stands_on_the_floor), SW_CASE(mass_that_cannot_be_is_refused),
         SW_CASE(every_failed_request_for_memory_is_reported))
