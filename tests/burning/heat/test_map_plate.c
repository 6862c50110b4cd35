/* The plate solver of the surface map against series, an independent program, and itself on finer grids. */
#include "map_plate.h"

#include "transfer/transfer.h"

static const char *const sheet_source = "derived: double sine series of the heated plate, handbook E23";

static void hold_border(map_plate *p, double side_m, double t_k)
{
    double side_mm = sw_mm_from_m(side_m);
    for (size_t i = 0; i < p->sys.nodes; i++) {
        sw_point q = p->mesh.points[i];
        bool edge = q.x_mm < 1e-6 || q.y_mm < 1e-6 || q.x_mm > side_mm - 1e-6 || q.y_mm > side_mm - 1e-6;
        if (edge) p->held[i] = true, p->x[i] = t_k;
    }
}

static map_plane even_mesh(sw_test *t, double side_m, double step_m)
{
    sw_region r = {0};
    map_plane p = {0};
    double side_mm = sw_mm_from_m(side_m);
    sw_ok(t, sw_contour_rectangle(&t->run, (sw_box){0, 0, side_mm, side_mm}, 0, &r.outline));
    sw_ok(t, map_mesh(&t->run, &r, sw_mm_from_m(step_m), &p));
    return p;
}

/* ---- series -------------------------------------------------------------------------------------------------- */

static void a_square_with_one_warm_edge_follows_laplace(sw_test *t)
{
    map_plate *p = mp_new(t, even_mesh(t, 1, 0.02), 1, 1);
    hold_border(p, 1, 300);
    for (size_t i = 0; i < p->sys.nodes; i++)
        if (p->mesh.points[i].y_mm > 999.999) p->x[i] = 301;
    if (!mp_solve(p, 300)) return;
    const char *source = "Incropera eq. 4.19, series; handbook F7.6 a";
    sw_near(t, mp_at(p, 0.5, 0.5) - 300, 0.250000, 5e-4, source);
    sw_near(t, mp_at(p, 0.25, 0.25) - 300, 0.067972, 5e-4, source);
    sw_near(t, mp_at(p, 0.5, 0.25) - 300, 0.095414, 5e-4, source);
    sw_near(t, mp_at(p, 0.25, 0.5) - 300, 0.182028, 5e-4, source);
    sw_near(t, mp_at(p, 0.5, 0.75) - 300, 0.540529, 5e-4, source);
    sw_near(t, mp_at(p, 0.25, 0.75) - 300, 0.432028, 5e-4, source);
}

static void an_evenly_heated_square_follows_its_series(sw_test *t)
{
    map_plate *p = mp_new(t, even_mesh(t, 1, 0.02), 1, 1);
    hold_border(p, 1, 300);
    mp_heat(p, 1, 1e9);
    if (!mp_solve(p, 300)) return;
    const char *source = "derived: -lap u = 1 on the unit square, handbook F7.6 b";
    sw_near(t, mp_at(p, 0.5, 0.5) - 300, 0.0736714, 5e-5, source);
    sw_near(t, mp_at(p, 0.25, 0.25) - 300, 0.0452862, 5e-5, source);
    sw_near(t, mp_at(p, 0.5, 0.25) - 300, 0.0573349, 5e-5, source);
}

static void loss_to_air_takes_the_square_down_as_its_series_does(sw_test *t)
{
    static const double m2[2] = {10, 50}, middle[2] = {0.046942, 0.017964}, quarter[2] = {0.031010, 0.014166};
    for (int i = 0; i < 2; i++) {
        map_plate *p = mp_new(t, even_mesh(t, 1, 0.02), 1, 1);
        hold_border(p, 1, 300);
        mp_heat(p, 1, 1e9);
        mp_lose(p, m2[i], 0, 300);
        if (!mp_solve(p, 300)) return;
        sw_near(t, mp_at(p, 0.5, 0.5) - 300, middle[i], 5e-5, "derived: double sine series, handbook F7.6 c");
        sw_near(t, mp_at(p, 0.25, 0.25) - 300, quarter[i], 5e-5, "derived: double sine series, handbook F7.6 c");
    }
}

static double heated_sheet_k(sw_test *t, map_plane mesh, double h)
{
    map_plate *p = mp_new(t, mesh, 45, 0.003);
    hold_border(p, 0.4, 373.15);
    mp_heat(p, 5000, 1e9);
    mp_lose(p, h, 0, 373.15);
    return mp_solve(p, 373.15) ? mp_at(p, 0.2, 0.2) - 373.15 : (double)NAN;
}

static void a_heated_sheet_gets_as_warm_in_the_middle_as_the_series_says(sw_test *t)
{
    double unit_k = 5000 * 0.4 * 0.4 / (45 * 0.003);
    sw_near(t, heated_sheet_k(t, even_mesh(t, 0.4, 0.008), 0), sw_plate_flux_series(0.5, 0.5, 0) * unit_k, 0.3,
            sheet_source);
    double m2 = 15 * 0.4 * 0.4 / (45 * 0.003);
    sw_near(t, heated_sheet_k(t, even_mesh(t, 0.4, 0.008), 15), sw_plate_flux_series(0.5, 0.5, m2) * unit_k, 0.3,
            sheet_source);
    sw_near(t, heated_sheet_k(t, even_mesh(t, 0.4, 0.008), 15), 214.6, 0.3, "handbook E23");
}

/* ---- convergence ------------------------------------------------------------------------------------------------ */

static void halving_the_step_quarters_the_error(sw_test *t)
{
    double unit_k = 5000 * 0.4 * 0.4 / (45 * 0.003), m2 = 15 * 0.4 * 0.4 / (45 * 0.003), before = (double)NAN;
    double exact_k = sw_plate_flux_series(0.5, 0.5, m2) * unit_k;
    for (uint32_t n = 8; n <= 64; n *= 2) {
        double error = fabs(heated_sheet_k(t, mp_grid(t, 0.4, 0.4, n, n), 15) - exact_k);
        if (n > 8) sw_near(t, before / error, 4, 0.4, "derived: linear triangles are of second order");
        before = error;
    }
}

static void even_meshes_converge_as_fast(sw_test *t)
{
    double unit_k = 5000 * 0.4 * 0.4 / (45 * 0.003), m2 = 15 * 0.4 * 0.4 / (45 * 0.003);
    double exact_k = sw_plate_flux_series(0.5, 0.5, m2) * unit_k;
    double coarse = fabs(heated_sheet_k(t, even_mesh(t, 0.4, 0.05), 15) - exact_k);
    double fine = fabs(heated_sheet_k(t, even_mesh(t, 0.4, 0.0125), 15) - exact_k);
    sw_true(t, fine < coarse / 8);
}

/* ---- decks of an independent program ------------------------------------------------------------------------------ */

static const char *const deck_source = "CalculiX 2.20, tests/heat_decks";

static map_plate *quarter_sheet(sw_test *t)
{
    map_plate *p = mp_new(t, mp_grid(t, 0.2, 0.2, 64, 64), 45, 0.003);
    for (size_t i = 0; i < p->sys.nodes; i++) {
        bool edge = p->mesh.points[i].x_mm > 199.999 || p->mesh.points[i].y_mm > 199.999;
        if (edge) p->held[i] = true, p->x[i] = sw_k_from_c(100);
    }
    mp_heat(p, 5000, 1e9);
    return p;
}

static void a_heated_sheet_agrees_with_an_independent_program(sw_test *t)
{
    map_plate *p = quarter_sheet(t);
    if (!mp_solve(p, 473.15)) return;
    sw_near(t, sw_c_from_k(mp_at(p, 0, 0)), 536.824, 0.4, deck_source);
    sw_near(t, sw_c_from_k(mp_at(p, 0.1, 0.1)), 368.5171, 0.3, deck_source);
    sw_near(t, sw_c_from_k(mp_at(p, 0, 0.1)), 439.9403, 0.3, deck_source);
}

static void a_losing_sheet_agrees_with_an_independent_program(sw_test *t)
{
    map_plate *p = quarter_sheet(t);
    mp_lose(p, 15, 1e-12, sw_k_from_c(100));
    if (!mp_solve(p, 473.15)) return;
    sw_near(t, sw_c_from_k(mp_at(p, 0, 0)), 314.7936, 0.3, deck_source);
    sw_near(t, sw_c_from_k(mp_at(p, 0.1, 0.1)), 248.6046, 0.3, deck_source);
    sw_near(t, sw_c_from_k(mp_at(p, 0, 0.1)), 277.1939, 0.3, deck_source);
}

static void a_radiating_sheet_agrees_with_an_independent_program(sw_test *t)
{
    map_plate *p = quarter_sheet(t);
    mp_lose(p, 7, 0.9, sw_k_from_c(20));
    if (!mp_solve(p, 473.15)) return;
    sw_near(t, sw_c_from_k(mp_at(p, 0, 0)), 225.8412, 0.3, deck_source);
    sw_near(t, sw_c_from_k(mp_at(p, 0.1, 0.1)), 193.6321, 0.3, deck_source);
    sw_near(t, sw_c_from_k(mp_at(p, 0, 0.1)), 207.9026, 0.3, deck_source);
}

static void a_half_heated_strip_agrees_with_an_independent_program(sw_test *t)
{
    static const double at_c[9] = {352.1957, 349.6977, 339.3662, 309.8889, 232.514,
                                   146.5376, 101.2823, 78.92715, 72.15762};
    map_plate *p = mp_new(t, mp_grid(t, 0.4, 0.01, 128, 3), 45, 0.003);
    mp_heat(p, 10000, 200);
    mp_lose(p, 7, 0.9, sw_k_from_c(20));
    if (!mp_solve(p, 473.15)) return;
    for (int i = 0; i < 9; i++) sw_near(t, sw_c_from_k(mp_at(p, 0.05 * i, 0)), at_c[i], 0.6, deck_source);
}

/* ---- layers ---------------------------------------------------------------------------------------------------------- */

/* Nodes one on another, each a unit of area: links as in a wall. */
static map_plate *stack(sw_test *t, size_t nodes)
{
    map_plane none = {SW_KEEP(&t->run, nodes, sw_point), nodes, SW_KEEP(&t->run, 1, sw_triangle), 0};
    map_plate *p = mp_new(t, none, 1, 1);
    p->sys.links = SW_KEEP(&t->run, nodes, net_link);
    return p;
}

static void lay(map_plate *p, uint32_t a, uint32_t b, net_link law)
{
    law.a = a, law.b = b;
    p->sys.links[p->sys.link_count++] = law;
}

static net_link fixed(double w_k)
{
    return (net_link){.kind = NET_LINK_FIXED, .g = w_k};
}

static void a_wall_of_layers_passes_its_heat_as_in_the_example(sw_test *t)
{
    map_plate *p = stack(t, 6); /* gas, lining hot, cold, sheet's two sides, room */
    static const double g[5] = {40, 0.18 / 0.025, 1 / 0.02, 45 / 0.004, 18}, at_c[4] = {718.6, 266.3, 201.2, 200.9};
    for (uint32_t i = 0; i < 5; i++) lay(p, i, i + 1, fixed(g[i]));
    p->held[0] = p->held[5] = true;
    p->x[0] = sw_k_from_c(800), p->x[5] = sw_k_from_c(20);
    if (!mp_solve(p, 500)) return;
    for (uint32_t i = 0; i < 4; i++) sw_near(t, sw_c_from_k(p->x[i + 1]), at_c[i], 0.06, "handbook E18");
    sw_near(t, 40 * (p->x[0] - p->x[1]), 3256, 0.6, "handbook E18");
}

static void a_lining_conducts_with_the_mean_of_its_faces(sw_test *t)
{
    const sw_material *board = sw_material_find("vermiculite board");
    map_plate *p = stack(t, 3);
    lay(p, 0, 1, (net_link){.kind = NET_LINK_LAYER, .g = 1 / 0.03, .material = board});
    lay(p, 1, 2, fixed(50));
    p->held[0] = p->held[2] = true;
    p->x[0] = sw_k_from_c(700), p->x[2] = sw_k_from_c(200);
    if (!mp_solve(p, 500)) return;
    double k = sw_material_conductivity(board, 0.5 * (p->x[0] + p->x[1]));
    sw_near(t, 50 * (p->x[1] - p->x[2]), k * (p->x[0] - p->x[1]) / 0.03, 1e-6,
            "derived: k at the mean of the faces, handbook F7.1");
}

/* ---- what cannot be -------------------------------------------------------------------------------------------------------- */

static const char *any_name(void *context, uint32_t node)
{
    (void)node;
    return context;
}

static void a_plate_that_meets_nothing_is_refused_by_name(sw_test *t)
{
    char name[] = "lost shelf";
    map_plate *p = mp_new(t, mp_grid(t, 0.1, 0.1, 2, 2), 45, 0.003);
    sw_true(t, map_check_ways(&t->run, &p->sys, any_name, name) == SW_BAD_INPUT);
    sw_same_text(t, t->run.errors[0].field, "lost shelf");
    sw_contains(t, t->run.errors[0].text, "exchanges heat with nothing");
    sw_true(t, t->run.error_count == 1);
}

static void a_plate_that_cannot_lose_its_heat_is_no_solution(sw_test *t)
{
    map_settled settled;
    map_plate *p = mp_new(t, mp_grid(t, 0.1, 0.1, 2, 2), 45, 0.003);
    mp_heat(p, 1000, 1e9);
    for (size_t i = 0; i < p->sys.nodes; i++) p->x[i] = 300;
    sw_ok(t, map_system_room(&t->run, &p->sys));
    sw_status status = map_newton(&t->run, &p->sys, 1e-9, &settled);
    sw_true(t, status == SW_NO_SOLUTION || settled.left_w > 1);
}

/* ---- meshes ----------------------------------------------------------------------------------------------------------- */

static double least_angle_deg(const map_plane *p)
{
    double least = 180;
    for (size_t i = 0; i < p->triangle_count; i++) {
        const sw_triangle *v = &p->triangles[i];
        sw_point q[3] = {p->points[v->a], p->points[v->b], p->points[v->c]};
        double half_cot[3];
        map_half_cots(q, half_cot);
        for (int k = 0; k < 3; k++) least = fmin(least, sw_deg_from_rad(atan2(1, 2 * half_cot[k])));
    }
    return least;
}

static void a_plate_with_a_window_is_meshed_whole_and_even(sw_test *t)
{
    sw_region r = {.hole_count = 1};
    sw_contour hole;
    map_plane p = {0};
    sw_ok(t, sw_contour_rectangle(&t->run, (sw_box){0, 0, 500, 400}, 0, &r.outline));
    sw_ok(t, sw_contour_circle(&t->run, (sw_point){250, 200}, 80, &hole));
    sw_ok(t, sw_contour_reversed(&t->run, hole, &hole));
    r.holes = &hole;
    if (!sw_ok(t, map_mesh(&t->run, &r, 20, &p))) return;
    double area_m2 = 0;
    for (size_t i = 0; i < p.triangle_count; i++) area_m2 += mp_area_m2(&p, i);
    sw_near(t, area_m2, 0.2 - SW_PI * 0.08 * 0.08, 3e-4, "derived: plate less disc, chords of 20 mm");
    sw_near(t, (double)p.triangle_count, area_m2 / (0.433 * 0.02 * 0.02), 250, "derived: even triangles of 20 mm");
    sw_true(t, least_angle_deg(&p) > 15);
}

static void meshes_of_random_corners_keep_their_area(sw_test *t)
{
    for (uint64_t seed = 1; seed <= 200; seed++) {
        t->seed = seed;
        sw_random random = sw_random_seeded(seed);
        sw_vertex v[12];
        double turn = 0;
        for (int i = 0; i < 12; i++, turn += 2 * SW_PI / 12) {
            double r_mm = sw_random_between(&random, 40, 300);
            v[i] = (sw_vertex){r_mm * cos(turn), r_mm * sin(turn), 0};
        }
        sw_region r = {.outline = {v, 12}};
        map_plane p = {0};
        if (!sw_ok(t, map_mesh(&t->run, &r, 15, &p))) return;
        double area_m2 = 0, least_m2 = 1;
        for (size_t i = 0; i < p.triangle_count; i++) {
            area_m2 += mp_area_m2(&p, i);
            least_m2 = fmin(least_m2, mp_area_m2(&p, i));
        }
        if (!sw_near(t, area_m2, sw_m2_from_mm2(sw_region_area(&r)), 1e-9, "invariance")) return;
        if (!sw_true(t, least_m2 > 0)) return;
    }
}

SW_TESTS(SW_CASE(a_square_with_one_warm_edge_follows_laplace), SW_CASE(an_evenly_heated_square_follows_its_series),
         SW_CASE(loss_to_air_takes_the_square_down_as_its_series_does),
         SW_CASE(a_heated_sheet_gets_as_warm_in_the_middle_as_the_series_says),
         SW_CASE(halving_the_step_quarters_the_error), SW_CASE(even_meshes_converge_as_fast),
         SW_CASE(a_heated_sheet_agrees_with_an_independent_program),
         SW_CASE(a_losing_sheet_agrees_with_an_independent_program),
         SW_CASE(a_radiating_sheet_agrees_with_an_independent_program),
         SW_CASE(a_half_heated_strip_agrees_with_an_independent_program),
         SW_CASE(a_wall_of_layers_passes_its_heat_as_in_the_example),
         SW_CASE(a_lining_conducts_with_the_mean_of_its_faces), SW_CASE(a_plate_that_meets_nothing_is_refused_by_name),
         SW_CASE(a_plate_that_cannot_lose_its_heat_is_no_solution),
         SW_CASE(a_plate_with_a_window_is_meshed_whole_and_even), SW_CASE(meshes_of_random_corners_keep_their_area))
