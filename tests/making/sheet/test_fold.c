#include "watertight.h"

#include "sw_test.h"

enum { SEEDS = 500 };

static sw_sheet_options with_chord(double chord_mm)
{
    sw_sheet_options opt = sw_sheet_options_defaults();
    opt.chord_mm = chord_mm;
    return opt;
}

/* ---- an independent way to the mass figures: tetrahedra under the triangles ------------------- */

typedef struct sums {
    double v, first[3], second[3][3];
} sums;

static sums of_mesh(const sw_mesh *m)
{
    sums s = {0};
    for (size_t i = 0; i < m->triangle_count; i++) {
        sw_vec3 p[3] = {m->points[m->triangles[i].a], m->points[m->triangles[i].b], m->points[m->triangles[i].c]};
        double v = sw_vec3_dot(p[0], sw_vec3_cross(p[1], p[2])) / 6.0;
        double x[3][3] = {
            {p[0].x_mm, p[0].y_mm, p[0].z_mm}, {p[1].x_mm, p[1].y_mm, p[1].z_mm}, {p[2].x_mm, p[2].y_mm, p[2].z_mm}};
        s.v += v;
        for (int a = 0; a < 3; a++) {
            s.first[a] += v * (x[0][a] + x[1][a] + x[2][a]) / 4.0;
            for (int b = 0; b < 3; b++) {
                double sum = (x[0][a] + x[1][a] + x[2][a]) * (x[0][b] + x[1][b] + x[2][b]);
                for (int k = 0; k < 3; k++) sum += x[k][a] * x[k][b];
                s.second[a][b] += v * sum / 20.0;
            }
        }
    }
    return s;
}

static void mass_figures_agree_with_those_of_the_mesh(sw_test *t)
{
    sw_sheet_options opt = with_chord(0.002);
    for (uint64_t seed = 1; seed <= 25; seed++) {
        t->seed = seed;
        maker *m = maker_random(&t->run, seed, NAN);
        sw_solid solid;
        if (!sw_ok(t, sw_sheet_fold(&t->run, &m->piece, &opt, &solid))) return;
        sums s = of_mesh(&solid.mesh);
        double kg = sw_m3_from_mm3(7850.0);
        double c[3] = {s.first[0] / s.v, s.first[1] / s.v, s.first[2] / s.v};
        sw_near(t, solid.centroid.x_mm, c[0], 0.02, "agreement: closed form against tetrahedra");
        sw_near(t, solid.centroid.y_mm, c[1], 0.02, "agreement: closed form against tetrahedra");
        sw_near(t, solid.centroid.z_mm, c[2], 0.02, "agreement: closed form against tetrahedra");
        sw_near(t, solid.mid_area_mm2 * m->piece.thickness_mm, s.v, 1e-3 * s.v,
                "agreement: closed form against tetrahedra");
        double i[3][3];
        for (int a = 0; a < 3; a++)
            for (int b = 0; b < 3; b++) i[a][b] = kg * (s.second[a][b] - s.first[a] * c[b]);
        double want[6] = {i[1][1] + i[2][2], i[2][2] + i[0][0], i[0][0] + i[1][1], -i[0][1], -i[1][2], -i[2][0]};
        double scale = want[0] + want[1] + want[2];
        for (int k = 0; k < 6; k++)
            if (!sw_near(t, solid.inertia_kg_mm2[k], want[k], 1e-3 * scale,
                         "agreement: closed form against tetrahedra"))
                return;
    }
    t->seed = 0;
}

static void a_plate_has_the_inertia_of_a_box(sw_test *t)
{
    maker *m = maker_new(&t->run, 1, 4);
    maker_rectangle(m, "main", 300, 200);
    sw_sheet_options opt = sw_sheet_options_defaults();
    sw_solid solid;
    if (!sw_ok(t, sw_sheet_fold(&t->run, &m->piece, &opt, &solid))) return;
    double kg = 300 * 200 * 4 * 7850e-9;
    sw_near(t, solid.inertia_kg_mm2[0], kg * (200 * 200 + 4 * 4) / 12, 1e-9, "mechanics: box, m (b2 + c2)/12");
    sw_near(t, solid.inertia_kg_mm2[2], kg * (300 * 300 + 200 * 200) / 12, 1e-9, "mechanics: box, m (a2 + b2)/12");
    sw_near(t, solid.centroid.x_mm, 150, 1e-9, "symmetry");
    sw_near(t, sw_mesh_volume(&solid.mesh), 300 * 200 * 4, 1e-6, "derived: flat parts are exact");
    sw_near(t, solid.high.z_mm, 2.0, 1e-12, "contract: frame in the mid-surface");
}

static void a_rolled_half_pipe_has_the_centroid_of_a_half_ring(sw_test *t)
{
    maker *m = maker_new(&t->run, 1, 4);
    maker_line(m, "start", 500);
    sw_bend *b = maker_bend(m, 0, 0, 0, 500);
    b->kind = SW_ROLLED;
    b->radius_mm = 98;
    b->angle_rad = SW_PI;
    maker_line(m, "end", 500);
    sw_sheet_options opt = sw_sheet_options_defaults();
    sw_solid solid;
    if (!sw_ok(t, sw_sheet_fold(&t->run, &m->piece, &opt, &solid))) return;
    double r = 98, R = 102;
    double want = 4.0 / (3.0 * SW_PI) * (R * R * R - r * r * r) / (R * R - r * r);
    sw_near(t, -solid.centroid.y_mm, want, 1e-9, "mechanics: half ring, 4/(3 pi) (R3 - r3)/(R2 - r2)");
    sw_near(t, solid.centroid.z_mm, 100.0, 1e-9, "symmetry");
    sw_near(t, solid.mid_area_mm2, 500 * SW_PI * 100, 1e-6, "derived: half cylinder");
    sw_near(t, solid.high.z_mm, 202.0, 0.05, "derived: outer diameter, within the chord");
    sw_near(t, solid.faces[1].origin.z_mm, 200.0, 1e-9, "derived: twice the middle radius");
}

/* ---- properties over random trees ------------------------------------------------------------- */

static void pieces_without_arcs_have_exactly_the_volume_of_their_middle(sw_test *t)
{
    for (uint64_t seed = 1; seed <= SEEDS; seed++) {
        t->seed = seed;
        size_t mark = sw_arena_mark(t->run.keep);
        maker *m = maker_new(&t->run, seed, 3.0);
        double w = maker_between(m, 20, 900), h = maker_between(m, 20, 900);
        sw_vertex v[5] = {{0, 0, 0}, {w, maker_between(m, -9, 9), 0}, {w * 1.1, h, 0}, {w / 2, h * 0.8, 0}, {-3, h, 0}};
        maker_face(m, "main", v, 5);
        sw_sheet_options opt = sw_sheet_options_defaults();
        sw_solid solid;
        if (!sw_ok(t, sw_sheet_fold(&t->run, &m->piece, &opt, &solid))) return;
        double want = sw_contour_area(m->faces[0].region.outline) * 3.0;
        if (!sw_near(t, sw_mesh_volume(&solid.mesh), want, 1e-9 * want, "derived: area x thickness")) return;
        sw_near(t, solid.mid_area_mm2 * 3.0, want, 1e-9 * want, "derived: area x thickness");
        sw_arena_rewind(t->run.keep, mark);
    }
    t->seed = 0;
}

static void volume_converges_with_the_chord(sw_test *t)
{
    maker *m = maker_random(&t->run, 11, NAN);
    double off[3] = {0};
    for (int i = 0; i < 3; i++) {
        sw_sheet_options opt = with_chord(i == 0 ? 0.2 : i == 1 ? 0.02 : 0.002);
        sw_solid solid;
        if (!sw_ok(t, sw_sheet_fold(&t->run, &m->piece, &opt, &solid))) return;
        double want = solid.mid_area_mm2 * m->piece.thickness_mm;
        off[i] = fabs(sw_mesh_volume(&solid.mesh) - want) / want;
    }
    sw_true(t, off[1] < off[0] / 4.0);
    sw_true(t, off[2] < off[1] / 4.0);
    sw_near(t, off[2], 0.0, 3e-5, "derived: the error falls with the chord");
}

/* ---- single shapes ------------------------------------------------------------------------- */

static void a_right_angle_flange_stands_where_the_drawing_puts_it(sw_test *t)
{
    maker *m = maker_bracket(&t->run, 60, 40, 100, 3, 4);
    sw_sheet_options opt = sw_sheet_options_defaults();
    sw_solid solid;
    if (!sw_ok(t, sw_sheet_fold(&t->run, &m->piece, &opt, &solid))) return;
    sw_near(t, solid.high.y_mm - solid.low.y_mm, 60.0, 1e-9, "drawing: leg 60 outside");
    sw_near(t, solid.high.z_mm - solid.low.z_mm, 40.0, 1e-9, "drawing: leg 40 outside");
    sw_near(t, solid.high.x_mm - solid.low.x_mm, 100.0, 1e-9, "drawing: width 100");
    sw_near(t, solid.high.z_mm, 38.5, 1e-9, "contract: angle above 0 folds to the front side");
}

static void a_closed_hem_lies_on_its_sheet(sw_test *t)
{
    maker *m = maker_bracket(&t->run, 60, 12, 100, 1.5, 0);
    m->bends[0].angle_rad = SW_PI;
    m->bends[0].kind = SW_HEMMED;
    sw_sheet_options opt = sw_sheet_options_defaults();
    sw_solid solid;
    if (!sw_ok(t, sw_sheet_fold(&t->run, &m->piece, &opt, &solid))) return;
    sw_near(t, solid.high.z_mm - solid.low.z_mm, 3.0, 1e-9, "derived: two thicknesses");
    sw_true(t, watertight(t, &solid.mesh));
}

static void bends_on_both_sides_of_a_face_without_depth_stay_watertight(sw_test *t)
{
    maker *m = maker_new(&t->run, 1, 2);
    maker_rectangle(m, "main", 100, 50);
    maker_bend(m, 0, 0, 0, 100);
    int line = maker_line(m, "line", 100);
    maker_bend(m, line, 1, 10, 45);
    maker_rectangle(m, "left tab", 35, 20);
    maker_bend(m, line, 1, 55, 90)->angle_rad = -1.0;
    maker_rectangle(m, "right tab", 35, 20);
    sw_sheet_options opt = sw_sheet_options_defaults();
    sw_solid solid;
    if (!sw_ok(t, sw_sheet_fold(&t->run, &m->piece, &opt, &solid))) return;
    sw_true(t, watertight(t, &solid.mesh));
    double want = solid.mid_area_mm2 * 2;
    sw_near(t, sw_mesh_volume(&solid.mesh), want, 2e-3 * want, "derived: within the chord error");
}

static void running_out_of_memory_anywhere_is_reported(sw_test *t)
{
    maker *m = maker_random(&t->run, 3, NAN);
    sw_sheet_options opt = with_chord(0.5);
    sw_arena *arenas[2] = {t->run.keep, t->run.scratch};
    for (int a = 0; a < 2; a++) {
        sw_solid solid;
        size_t nth = 1;
        for (; nth < 5000; nth++) {
            sw_run_clear_errors(&t->run);
            sw_arena_fail_at(arenas[a], nth);
            sw_status status = sw_sheet_fold(&t->run, &m->piece, &opt, &solid);
            sw_arena_fail_at(arenas[a], 0);
            if (status == SW_OK) break;
            if (!sw_true(t, status == SW_NO_MEMORY)) return;
        }
        sw_true(t, nth > 3 && nth < 5000);
    }
}

static sw_model one_piece_model(sw_test *t, sw_stove *stove)
{
    maker *m = maker_random(&t->run, 5, NAN);
    *stove = (sw_stove){.name = "s", .title = "s", .note = "", .pieces = &m->piece, .piece_count = 1};
    return (sw_model){.stove = stove, .stove_file = "", .works_file = "", .house_file = ""};
}

static void solids_for_a_picture_are_those_of_the_fold(sw_test *t)
{
    sw_stove stove;
    sw_model model = one_piece_model(t, &stove);
    sw_sheet_options opt = with_chord(0.1);
    const sw_sheet_result *r = NULL;
    sw_solid whole;
    if (!sw_ok(t, sw_sheet_solids(&t->run, &model, &opt, &r))) return;
    if (!sw_ok(t, sw_sheet_fold(&t->run, stove.pieces, &opt, &whole))) return;
    const sw_mesh *a = &r->pieces[0].solid.mesh, *b = &whole.mesh;
    if (!sw_true(t, a->point_count == b->point_count && a->triangle_count == b->triangle_count)) return;
    sw_true(t, memcmp(a->points, b->points, a->point_count * sizeof *a->points) == 0);
    sw_true(t, memcmp(a->triangles, b->triangles, a->triangle_count * sizeof *a->triangles) == 0);
    sw_true(t, r->findings.count == 0 && isnan(r->mass_kg) && r->chord_mm == opt.chord_mm);
}

static void solids_without_memory_say_so(sw_test *t)
{
    sw_stove stove;
    sw_model model = one_piece_model(t, &stove);
    sw_sheet_options opt = with_chord(0.5);
    sw_arena *arenas[2] = {t->run.keep, t->run.scratch};
    for (int a = 0; a < 2; a++) {
        const sw_sheet_result *r = NULL;
        size_t nth = 1;
        for (; nth < 5000; nth++) {
            sw_run_clear_errors(&t->run);
            sw_arena_fail_at(arenas[a], nth);
            sw_status status = sw_sheet_solids(&t->run, &model, &opt, &r);
            sw_arena_fail_at(arenas[a], 0);
            if (status == SW_OK) break;
            if (!sw_true(t, status == SW_NO_MEMORY && r == NULL)) return;
        }
        sw_true(t, nth > 3 && nth < 5000);
    }
}

static void solids_stop_on_request(sw_test *t)
{
    sw_stove stove;
    sw_model model = one_piece_model(t, &stove);
    sw_sheet_options opt = with_chord(0.5);
    const sw_sheet_result *r = NULL;
    atomic_int stop = 1;
    t->run.cancel = &stop;
    sw_true(t, sw_sheet_solids(&t->run, &model, &opt, &r) == SW_CANCELLED && r == NULL);
    t->run.cancel = NULL;
}

SW_TESTS(SW_CASE(solids_for_a_picture_are_those_of_the_fold), SW_CASE(solids_stop_on_request),
         SW_CASE(solids_without_memory_say_so), SW_CASE(mass_figures_agree_with_those_of_the_mesh),
         SW_CASE(a_plate_has_the_inertia_of_a_box), SW_CASE(a_rolled_half_pipe_has_the_centroid_of_a_half_ring),

         SW_CASE(pieces_without_arcs_have_exactly_the_volume_of_their_middle), SW_CASE(volume_converges_with_the_chord),
         SW_CASE(a_right_angle_flange_stands_where_the_drawing_puts_it), SW_CASE(a_closed_hem_lies_on_its_sheet),
         SW_CASE(bends_on_both_sides_of_a_face_without_depth_stay_watertight),
         SW_CASE(running_out_of_memory_anywhere_is_reported))
