/* What carries the torch: neck, body, wrist and arm past the pieces in place; who gets where, and how the torch stands. */
#include "join_scene.h"
#include "making/join/join_access_parts.h"

/* Nozzle, neck of 45 degrees, and behind it what is thick. */
static const sw_torch bent_torch = {.nozzle_radius_mm = 10,
                                    .nozzle_long_mm = 60,
                                    .neck_rad = SW_PI / 4,
                                    .neck_radius_mm = 9,
                                    .neck_long_mm = 70,
                                    .body_radius_mm = 18,
                                    .body_long_mm = 50,
                                    .wrist_radius_mm = 50,
                                    .wrist_long_mm = 110,
                                    .arm_rad = 1.2,
                                    .arm_radius_mm = 50,
                                    .arm_long_mm = 300};

static void carry(welded *w, sw_torch hand, sw_torch robot)
{
    w->s->works.welding.hand_torch = hand;
    w->s->works.welding.robot_torch = robot;
}

/* ---- the tubes -------------------------------------------------------------------------------------------- */

static void the_neck_leans_the_way_its_turn_says(sw_test *t)
{
    const sw_join_point p = {.along = {1, 0, 0}, .torch = {0, 0, 1}};
    for (unsigned turn = 0; turn < JOIN_TURNS; turn++) {
        double turn_rad = join_turn_rad(turn), lean = sin(bent_torch.neck_rad);
        join_carrier c = join_carrier_at(&bent_torch, &p, p.torch, turn_rad, 15);
        sw_near(t, c.knee.z_mm, 75, 1e-9, "derived: stick-out and nozzle");
        sw_near(t, c.way.z_mm, cos(bent_torch.neck_rad), 1e-12, "derived: the neck's bend");
        sw_near(t, c.way.x_mm, lean * cos(turn_rad), 1e-12, "derived: 0 is ahead along the seam");
        sw_near(t, c.way.y_mm, lean * sin(turn_rad), 1e-12, "derived: right-handed about the wire");
    }
}

static bool holds(const join_cylinder *c, sw_vec3 p)
{
    const double side_mm = 0.01;
    join_face f = {.a = p, .b = {p.x_mm + side_mm, p.y_mm, p.z_mm}, .c = {p.x_mm, p.y_mm + side_mm, p.z_mm}};
    return join_cylinder_meets(c, &f);
}

/* Where the plane half way between nozzle and neck cuts a tube as thick as the neck. */
static void a_knee_has_no_gap(sw_test *t)
{
    const sw_join_point p = {.along = {1, 0, 0}, .torch = {0, 0, 1}};
    join_carrier c = join_carrier_at(&bent_torch, &p, p.torch, 0, 15);
    join_cylinder nozzle = join_nozzle(&bent_torch, p.at, p.torch, 15), neck = join_tube(&bent_torch, &c, JOIN_NECK);
    double half_rad = bent_torch.neck_rad / 2, radius_mm = bent_torch.neck_radius_mm - 0.1;
    for (int i = 0; i < 36; i++) {
        double round_rad = 2 * SW_PI * i / 36, out_mm = radius_mm * cos(round_rad);
        sw_vec3 at = {c.knee.x_mm + out_mm, c.knee.y_mm + radius_mm * sin(round_rad),
                      c.knee.z_mm - out_mm * tan(half_rad)};
        if (!sw_true(t, holds(&nozzle, at) && holds(&neck, at))) return;
    }
}

static void a_tree_meets_what_its_triangles_meet(sw_test *t)
{
    enum { FACES = 200 };
    join_face faces[FACES];
    sw_vec3 points[3 * FACES];
    sw_triangle triangles[FACES];
    join_instance one = {.faces = faces, .face_count = FACES, .mesh = {points, 3 * FACES, triangles, FACES}};
    join_job job = {.instances = &one, .instance_count = 1};
    sw_random r = sw_random_seeded(7);
    size_t met = 0;
    for (size_t i = 0; i < FACES; i++) {
        sw_vec3 *corners[] = {&faces[i].a, &faces[i].b, &faces[i].c};
        sw_vec3 at = {sw_random_between(&r, 0, 500), sw_random_between(&r, 0, 500), sw_random_between(&r, 0, 500)};
        faces[i].box = join_box_empty();
        for (size_t k = 0; k < 3; k++) {
            *corners[k] = (sw_vec3){at.x_mm + sw_random_between(&r, 0, 30), at.y_mm + sw_random_between(&r, 0, 30),
                                    at.z_mm + sw_random_between(&r, 0, 30)};
            faces[i].box = join_box_with(faces[i].box, *corners[k]);
            points[3 * i + k] = *corners[k];
        }
        triangles[i] = (sw_triangle){(uint32_t)(3 * i), (uint32_t)(3 * i + 1), (uint32_t)(3 * i + 2)};
    }
    sw_ok(t, join_grow_trees(&t->run, &job));
    for (uint64_t seed = 1; seed <= 500; seed++) {
        t->seed = seed;
        r = sw_random_seeded(seed);
        sw_vec3 from = {sw_random_between(&r, 0, 500), sw_random_between(&r, 0, 500), sw_random_between(&r, 0, 500)};
        sw_vec3 axis = sw_vec3_unit((sw_vec3){sw_random_between(&r, -1, 1), sw_random_between(&r, -1, 1), 0.1});
        join_cylinder c = join_cylinder_at(from, axis, sw_random_between(&r, 5, 40), sw_random_between(&r, 50, 250));
        bool any = false;
        for (size_t i = 0; i < FACES && !any; i++) any = join_cylinder_meets(&c, &faces[i]);
        met += any;
        if (!sw_true(t, any == (join_met(&one, &c) != NULL))) return;
    }
    t->seed = 0;
    sw_true(t, met > 50 && met < 450);
}

static sw_torch with_a_wrist_of(double radius_mm)
{
    sw_torch torch = bent_torch;
    torch.wrist_radius_mm = torch.arm_radius_mm = radius_mm;
    return torch;
}

/* ---- who gets there ------------------------------------------------------------------------------------------ */

/* A strip to be welded on the ground of a channel, 100 mm wide and 400 deep. */
static welded *channel(sw_test *t)
{
    welded *w = new_welded(t);
    int base = plate(w, "base", 1000, 300, lying), strip = plate(w, "strip", 900, 20, at(lying, 50, 185, 3));
    int left = plate(w, "left", 1000, 400, at(standing, 0, 110, 1.5));
    int right = plate(w, "right", 1000, 400, at(standing, 0, 210, 1.5));
    fillet(w, "strip on base", strip, 0, base)->kind = SW_JOINT_LAP;
    (void)fillet(w, "left on base", left, 0, base);
    (void)fillet(w, "right on base", right, 0, base);
    return w;
}

static void where_the_robots_wrist_does_not_fit_a_hand_welds(sw_test *t)
{
    welded *w = channel(t);
    carry(w, straight_torch, with_a_wrist_of(80));
    const sw_join_result *r = welded_up(w);
    if (!says(t, r, "access", SW_HOLDS) || !says(t, r, "hand_access", SW_HOLDS)) return;
    const sw_join_seam *s = &r->seams[0];
    sw_true(t, s->reached && s->station == SW_JOIN_HAND && s->ahead_of[0] == '\0');
    sw_contains(t, s->why, "the robot's torch does not get past");
    sw_true(t, strstr(s->why, r->seams[1].a) != NULL || strstr(s->why, r->seams[2].a) != NULL);
    sw_true(t, r->seams[1].station == SW_JOIN_ROBOT && r->seams[2].station == SW_JOIN_ROBOT);
    carry(w, straight_torch, straight_torch);
    r = welded_up(w);
    sw_true(t, r != NULL && r->seams[0].station == SW_JOIN_ROBOT && found(r, "hand_access") == NULL);
}

static void one_torch_alone_is_refused_where_a_robot_welds_too(sw_test *t)
{
    welded *w = channel(t);
    const sw_join_result *r = NULL;
    carry(w, straight_torch, (sw_torch){.nozzle_radius_mm = 0});
    sw_true(t, weld(w, &r) == SW_OUT_OF_RANGE && r == NULL && t->run.error_count == 1);
    sw_contains(t, t->run.errors[0].text, "only the torch of the hand is given");
    sw_run_clear_errors(&t->run);
}

/* A robot that bridges whatever gap there is, and a joint whose gap nobody measured. */
static void a_gap_that_is_not_known_bars_no_robot(sw_test *t)
{
    welded *w = channel(t);
    if (!says(t, welded_up(w), "access", SW_HOLDS)) return;
    sw_sheet_result unknown = *w->sheet;
    sw_joint_fit *fits = SW_KEEP(&t->run, w->s->stove.joint_count, sw_joint_fit);
    if (!sw_true(t, fits != NULL)) return;
    memcpy(fits, unknown.joints, w->s->stove.joint_count * sizeof *fits);
    for (size_t i = 0; i < w->s->stove.joint_count; i++) fits[i].gap_most_mm = NAN;
    unknown.joints = fits;
    w->sheet = &unknown;
    carry(w, straight_torch, with_a_wrist_of(80));
    const sw_join_result *r = welded_up(w);
    sw_true(t, r != NULL && r->seams[0].station == SW_JOIN_HAND && r->seams[1].station == SW_JOIN_ROBOT);
}

static void where_neither_fits_the_strip_is_welded_before_the_walls(sw_test *t)
{
    welded *w = channel(t);
    carry(w, with_a_wrist_of(80), with_a_wrist_of(80));
    const sw_join_result *r = welded_up(w);
    if (!says(t, r, "access", SW_HOLDS) || !says(t, r, "weld_ahead", SW_WATCH)) return;
    sw_true(t, r->seams[0].reached && r->bodies[r->seams[0].body].ahead);
    sw_true(t, strcmp(r->seams[0].ahead_of, r->seams[1].a) == 0 || strcmp(r->seams[0].ahead_of, r->seams[2].a) == 0);
}

static void what_no_hand_reaches_stays_with_the_robot_however_short(sw_test *t)
{
    sw_torch thick = straight_torch;
    thick.nozzle_radius_mm = 40;
    welded *w = tee(t);
    w->opt.robot_seam_mm = 400;
    carry(w, thick, straight_torch);
    const sw_join_result *r = welded_up(w);
    sw_true(t, r != NULL && r->seams[0].reached && r->seams[0].station == SW_JOIN_ROBOT && r->seams[0].why[0] == '\0');
    carry(w, straight_torch, straight_torch);
    r = welded_up(w);
    if (sw_true(t, r != NULL && r->seams[0].station == SW_JOIN_HAND)) sw_contains(t, r->seams[0].why, "too short");
}

static void what_is_too_heavy_for_the_robot_needs_a_hand_that_reaches(sw_test *t)
{
    sw_torch thick = straight_torch;
    thick.nozzle_radius_mm = 40;
    welded *w = tee(t);
    w->s->works.welding.robot_load_kg = 1;
    carry(w, thick, straight_torch);
    (void)says(t, welded_up(w), "access", SW_FAILS);
    carry(w, straight_torch, thick);
    const sw_join_result *r = welded_up(w);
    if (says(t, r, "access", SW_HOLDS)) sw_contains(t, r->seams[0].why, "the positioner carries");
}

/* Between ground and lids, 200 mm apart, a fist of 240 does not fit: it must stay outside. */
static void a_long_body_keeps_the_fist_out_of_a_narrow_gap(sw_test *t)
{
    for (int far = 0; far < 2; far++) {
        sw_torch fist = with_a_wrist_of(120);
        fist.body_long_mm = far ? 250 : 20;
        welded *w = new_welded(t);
        int base = plate(w, "base", 1000, 300, lying), wall = plate(w, "wall", 1000, 400, at(standing, 0, 150, 1.5));
        int rear = plate(w, "rear lid", 1000, 148, at(lying, 0, 151.5, 200));
        int front = plate(w, "front lid", 1000, 148, at(lying, 0, 0.5, 200));
        (void)fillet(w, "wall on base", wall, 0, base);
        (void)fillet(w, "rear lid on wall", rear, 0, wall);
        (void)fillet(w, "front lid on wall", front, 2, wall);
        carry(w, fist, fist);
        const sw_join_result *r = welded_up(w);
        if (!says(t, r, "access", SW_HOLDS)) return;
        sw_true(t, (r->body_count == 1) == (far == 1));
    }
}

/* ---- how it stands -------------------------------------------------------------------------------------------- */

/* Walls at both ends of the seam: a neck that leans along it meets one of them. */
static void between_two_ends_the_torch_stands_one_way_all_along(sw_test *t)
{
    const sw_frame across = {{0, 1, 0}, {0, 0, 1}, {1, 0, 0}, {0, 0, 0}};
    welded *w = new_welded(t);
    int base = plate(w, "base", 420, 300, lying), wall = plate(w, "wall", 300, 100, at(standing, 60, 150, 1.5));
    int one = plate(w, "one", 300, 250, at(across, 30, 0, 1.5)),
        two = plate(w, "two", 300, 250, at(across, 390, 0, 1.5));
    (void)fillet(w, "wall on base", wall, 0, base);
    (void)fillet(w, "one on base", one, 0, base);
    (void)fillet(w, "two on base", two, 0, base);
    carry(w, bent_torch, bent_torch);
    const sw_join_result *r = welded_up(w);
    if (!sw_true(t, r != NULL && r->body_count == 1 && r->seams[0].reached)) return;
    const sw_join_seam *s = &r->seams[0];
    for (size_t i = 1; i < s->count; i++) {
        sw_near(t, s->points[i].turn_rad, s->points[0].turn_rad, 0, "derived: one way is free all along");
        sw_near(t, s->points[i].work_rad, s->points[0].work_rad, 0, "derived: one way is free all along");
        sw_near(t, s->points[i].travel_rad, s->points[0].travel_rad, 0, "derived: one way is free all along");
    }
}

static void welded_backwards_the_neck_leans_the_other_way(sw_test *t)
{
    welded *w = tee(t);
    w->opt.stride_mm = 60;
    carry(w, bent_torch, bent_torch);
    const sw_join_result *r = welded_up(w);
    size_t back = 0;
    for (size_t k = 0; r != NULL && k < r->seams[0].stretch_count; k++) {
        const sw_join_point *p = &r->seams[0].stretches[k].points[0], *whole = &r->seams[0].points[0];
        join_carrier c = join_carrier_at(&bent_torch, p, p->torch, p->turn_rad, 15);
        join_carrier of_seam = join_carrier_at(&bent_torch, whole, whole->torch, whole->turn_rad, 15);
        back += sw_vec3_dot(p->along, whole->along) < 0;
        sw_near(t, sw_vec3_dot(c.way, of_seam.way), 1, 1e-9, "derived: the torch stands as it does on the seam");
    }
    sw_true(t, back > 0);
}

SW_TESTS(SW_CASE(the_neck_leans_the_way_its_turn_says), SW_CASE(a_knee_has_no_gap),
         SW_CASE(a_tree_meets_what_its_triangles_meet), SW_CASE(where_the_robots_wrist_does_not_fit_a_hand_welds),
         SW_CASE(one_torch_alone_is_refused_where_a_robot_welds_too), SW_CASE(a_gap_that_is_not_known_bars_no_robot),
         SW_CASE(where_neither_fits_the_strip_is_welded_before_the_walls),
         SW_CASE(what_no_hand_reaches_stays_with_the_robot_however_short),
         SW_CASE(what_is_too_heavy_for_the_robot_needs_a_hand_that_reaches),
         SW_CASE(a_long_body_keeps_the_fist_out_of_a_narrow_gap),
         SW_CASE(between_two_ends_the_torch_stands_one_way_all_along),
         SW_CASE(welded_backwards_the_neck_leans_the_other_way))
