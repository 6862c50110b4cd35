#include "papers/chart_parts.h"
#include "papers/gltf_parts.h"
#include "papers_fixture.h"

#include <jansson.h>

/* The fixture's stove with invented temperatures: the plate's main face is mapped, from 100 degC at its left edge to 300 at its
 * right one; everything else is known by part. */
enum { PARTS = 5, ACROSS = 16, UP = 10, GRID = (ACROSS + 1) * (UP + 1), WAYS = 4, SAMPLES = 20 };

typedef struct warm {
    fixture f;
    sw_scene_part parts[PARTS];
    double hot_k[PARTS], cold_k[PARTS], most_k[PARTS], parts_k[SAMPLES * PARTS];
    sw_scene scene;
    sw_vec3 points[GRID];
    sw_point flat[GRID];
    double t_k[GRID];
    sw_triangle triangles[2 * ACROSS * UP];
    sw_heat_map_part mapped[PARTS];
    sw_heat_map map;
    sw_air_way ways[WAYS];
    sw_air_flow flows[WAYS];
    sw_air_result air;
    sw_fire_result fire;
    sw_burn_options options;
    sw_burn_point point;
    sw_burn_sample samples[SAMPLES];
    sw_burn_run through;
    sw_burned burned;
} warm;

static void warm_scene(warm *w)
{
    static const int pieces[PARTS] = {0, 1, 2, 2, -1};
    static const double degrees[PARTS] = {300, 95, 210, 60, 330};
    for (size_t i = 0; i < PARTS; i++) {
        w->parts[i] = (sw_scene_part){.name = pieces[i] < 0 ? "glass" : w->f.pieces[pieces[i]].name,
                                      .piece = pieces[i],
                                      .item = pieces[i] < 0 ? 0 : -1,
                                      .placement = i == 3 ? 1 : 0,
                                      .kind = i == 0 ? SW_PART_WALL : SW_PART_SHELL,
                                      .thickness_m = sw_m_from_mm(4)};
        w->hot_k[i] = w->cold_k[i] = sw_k_from_c(degrees[i]);
        w->most_k[i] = w->hot_k[i] + 50;
    }
    w->scene = (sw_scene){.parts = w->parts, .part_count = PARTS};
}

/* c degC at x mm of the plate: 100 + x / 2. */
static void warm_map(warm *w)
{
    sw_motion to_flat = w->f.sheets[0].flat.faces[0];
    for (uint32_t i = 0; i < GRID; i++) {
        uint32_t column = i % (ACROSS + 1), row = i / (ACROSS + 1);
        double x = 400.0 * column / ACROSS, y = 250.0 * row / UP;
        w->flat[i] = pen_on_page(to_flat, 1, (sw_point){0, 0}, (sw_point){x, y});
        w->flat[i].y_mm = -w->flat[i].y_mm; /* the page's y goes down */
        w->points[i] = sw_frame_point(w->f.at_plate, (sw_vec3){x, y, 0});
        w->t_k[i] = sw_k_from_c(100 + x / 2);
    }
    for (uint32_t k = 0, n = 0; k < ACROSS * UP; k++) {
        uint32_t a = k / ACROSS * (ACROSS + 1) + k % ACROSS, b = a + 1, c = b + ACROSS + 1, d = a + ACROSS + 1;
        w->triangles[n++] = (sw_triangle){a, b, c};
        w->triangles[n++] = (sw_triangle){a, c, d};
    }
    for (size_t i = 0; i < PARTS; i++) w->mapped[i] = (sw_heat_map_part){.part = i, .most_k = w->hot_k[i]};
    w->mapped[0].mesh = (sw_mesh){w->points, GRID, w->triangles, 2 * ACROSS * UP};
    w->mapped[0].flat = w->flat;
    w->mapped[0].t_k = w->t_k;
    w->mapped[0].mean_k = sw_k_from_c(200);
    w->map = (sw_heat_map){.parts = w->mapped, .part_count = PARTS, .triangles = 2 * ACROSS * UP};
}

static void warm_burn(warm *w)
{
    static const char *const kinds[WAYS] = {"primary", "wash", "rear jet", "collar"};
    for (size_t i = 0; i < WAYS; i++) {
        w->ways[i] = (sw_air_way){.name = kinds[i], .kind = kinds[i], .height_m = 0.05 + 0.08 * (double)i};
        w->flows[i] = (sw_air_flow){1e-3 * (double)(i + 1), 3, 12, 0.25};
    }
    w->air.network = (sw_air_network){.ways = w->ways, .way_count = WAYS};
    w->air.solution.flows = w->flows;
    w->fire.fuel.name = "beech logs";
    w->options = sw_burn_options_defaults();
    w->point = (sw_burn_point){.output_w = 7000, .efficiency = 0.76, .lambda = 2, .balance = 1e-9, .flue_k = 600};
    for (size_t i = 0; i < SAMPLES; i++)
        w->samples[i] = (sw_burn_sample){.time_s = 300.0 * (double)i,
                                         .fuel_w = 9000,
                                         .output_w = 400.0 * (double)i,
                                         .flue_k = 500,
                                         .lambda = 2,
                                         .wood_kg = 1,
                                         .firebox_k = 900,
                                         .pane_k = 500,
                                         .shell_k = 350,
                                         .lining_k = 700};
    w->through = (sw_burn_run){
        .samples = w->samples, .sample_count = SAMPLES, .parts_k = w->parts_k, .most_k = w->most_k, .fuel_j = 1e6};
    for (size_t i = 0; i < (size_t)SAMPLES * PARTS; i++) w->parts_k[i] = 300 + (double)i;
}

static const sw_dossier *warm_make(sw_test *t, warm *w, bool mapped)
{
    memset(w, 0, sizeof *w);
    (void)fixture_make(t, &w->f);
    warm_scene(w);
    warm_map(w);
    warm_burn(w);
    w->burned = (sw_burned){.why = "",
                            .options = &w->options,
                            .scene = &w->scene,
                            .fire = &w->fire,
                            .air = &w->air,
                            .point = &w->point,
                            .hot_k = w->hot_k,
                            .cold_k = w->cold_k,
                            .through = &w->through,
                            .map = mapped ? &w->map : NULL};
    w->f.dossier.burned = &w->burned;
    return &w->f.dossier;
}

/* ---- loops ---- */

static double area_of(const heat_loop *loops, size_t count)
{
    double twice = 0;
    for (size_t i = 0; i < count; i++)
        for (size_t k = 0; k < loops[i].count; k++) {
            sw_point a = loops[i].points[k], b = loops[i].points[(k + 1) % loops[i].count];
            twice += a.x_mm * b.y_mm - a.y_mm * b.x_mm;
        }
    return twice / 2;
}

static heat_field field_of(sw_test *t, const warm *w, double *c)
{
    for (size_t i = 0; i < GRID; i++) c[i] = sw_c_from_k(w->t_k[i]);
    return (heat_field){&w->mapped[0].mesh, w->flat, c, heat_twins(&t->run, &w->mapped[0].mesh)};
}

static void an_isotherm_of_a_linear_field_is_straight(sw_test *t)
{
    warm w;
    double c[GRID];
    (void)warm_make(t, &w, true);
    heat_field field = field_of(t, &w, c);
    const heat_loop *loops = NULL;
    size_t count = 0, crossing = 0;
    sw_ok(t, heat_loops(&t->run, &field, 207, &loops, &count));
    sw_true(t, count == 1);
    double left_mm = w.flat[0].x_mm;
    for (size_t k = 0; count == 1 && k < loops[0].count; k++) {
        if (!loops[0].inside[k]) continue;
        crossing++;
        sw_near(t, loops[0].points[k].x_mm - left_mm, 214, 1e-9, "derived: 100 + x / 2 = 207");
    }
    sw_true(t, crossing >= UP);
    sw_near(t, area_of(loops, count), (400.0 - 214.0) * 250.0, 1e-6, "derived: what is hotter lies to the right");
    fixture_clear(t, &w.f);
}

/* Whatever the field: the loops close, what is hotter is smaller, and all of it is the mesh. */
static void hotter_areas_lie_within_cooler_ones(sw_test *t)
{
    warm w;
    double c[GRID];
    (void)warm_make(t, &w, true);
    heat_field field = field_of(t, &w, c);
    for (uint64_t seed = 1; seed <= 50; seed++) {
        sw_random r = sw_random_seeded(seed);
        t->seed = seed;
        for (size_t i = 0; i < GRID; i++) c[i] = floor(sw_random_between(&r, 0, 20)); /* many equal ones */
        double before = 400.0 * 250.0;
        for (int level = -1; level <= 20; level++) {
            const heat_loop *loops = NULL;
            size_t count = 0;
            size_t mark = sw_arena_mark(t->run.scratch);
            sw_ok(t, heat_loops(&t->run, &field, level < 0 ? -(double)INFINITY : level, &loops, &count));
            double area = area_of(loops, count);
            sw_true(t, area >= -1e-6 && area <= before + 1e-6);
            if (level < 0) sw_near(t, area, 400.0 * 250.0, 1e-6, "derived: the whole plate");
            before = area;
            sw_arena_rewind(t->run.scratch, mark);
        }
    }
    fixture_clear(t, &w.f);
}

/* ---- pages ---- */

static void a_flat_tells_its_isotherms_and_its_hottest_spot(sw_test *t)
{
    warm w;
    paper_desk desk;
    sw_pen *pen = NULL;
    const sw_dossier *d = warm_make(t, &w, true);
    const char *path = fixture_path(t, &w.f, "heat.trace");
    sw_true(t, heat_flat_pages(d) == 1); /* the others have no mesh */
    sw_ok(t, desk_open(&t->run, d, &desk));
    sw_ok(t, pen_open_lettered(&t->run, path, desk.letters, 0, 0, &pen));
    sw_ok(t, paper_heat_flats(&t->run, &desk, pen));
    sw_ok(t, sw_pen_close(&t->run, pen));
    desk_close(&desk);
    const char *text = fixture_text(t, path);
    sw_contains(t, text, "A-01\n");
    sw_contains(t, text,
                "coolest 100, mean 200, hottest 300 \xc2\xb0"
                "C at the duty; a line every 20 K");
    sw_contains(t, text,
                " 300 \xc2\xb0"
                "C\n");
    sw_contains(t, text, " 200\n");
    fixture_clear(t, &w.f);
}

static void colours_go_over_all_that_is_known(sw_test *t)
{
    warm w;
    (void)warm_make(t, &w, true);
    heat_span span = heat_span_of(&w.burned);
    sw_near(t, span.low_c, 60, 1e-9, "derived: the cooler disc");
    sw_near(t, span.high_c, 330, 1e-9, "derived: the glass");
    w.t_k[7] = sw_k_from_c(20);
    sw_near(t, heat_span_of(&w.burned).low_c, 20, 1e-9, "derived: a point of the map");
    fixture_clear(t, &w.f);
}

/* ---- the folder ---- */

static size_t write_folder(sw_test *t, const warm *w, const char *name, const sw_paper_file **files)
{
    sw_folder folder;
    size_t count = 0;
    sw_ok(t, sw_folder_open(&t->run, fixture_path(t, &w->f, name), &folder));
    sw_ok(t, sw_papers_write(&t->run, &w->f.dossier, &folder, files, &count));
    sw_ok(t, sw_folder_publish(&t->run, &folder));
    return count;
}

static bool is_listed(const sw_paper_file *files, size_t count, const char *path)
{
    for (size_t i = 0; i < count; i++)
        if (strcmp(files[i].path, path) == 0) return true;
    return false;
}

static void the_folder_holds_what_is_known_of_heat_and_repeats(sw_test *t)
{
    static const char *const names[] = {"stove.glb",     "stove-heat.glb", "views/section.svg",
                                        "views/air.svg", "views/burn.svg", "flats/heat.pdf"};
    warm w;
    const sw_paper_file *files = NULL;
    (void)warm_make(t, &w, true);
    size_t count = write_folder(t, &w, "one", &files);
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) sw_true(t, is_listed(files, count, names[i]));
    (void)write_folder(t, &w, "two", &files);
    sw_true(t, fixture_shell(
                   t, sw_text_format(&t->run, t->run.keep, "diff -r %s/one %s/two", w.f.folder, w.f.folder)) != NULL);
    sw_true(t, fixture_shell(
                   t, sw_text_format(&t->run, t->run.keep, "xmllint --noout %s/one/views/*.svg", w.f.folder)) != NULL);
    const char *plain =
        fixture_shell(t, sw_text_format(&t->run, t->run.keep,
                                        "pdftotext -layout %s/one/flats/heat.pdf - | tr -s ' \\n' ' '", w.f.folder));
    sw_contains(t, plain, "front plate");
    sw_contains(t, plain, "supports and never replaces the type test");
    fixture_clear(t, &w.f);
}

static void without_a_map_there_are_no_isotherms(sw_test *t)
{
    warm w;
    const sw_paper_file *files = NULL;
    (void)warm_make(t, &w, false);
    w.burned.through = NULL;
    size_t count = write_folder(t, &w, "out", &files);
    sw_true(t, is_listed(files, count, "stove-heat.glb") && is_listed(files, count, "views/air.svg"));
    sw_true(t, !is_listed(files, count, "flats/heat.pdf") && !is_listed(files, count, "views/burn.svg"));
    fixture_clear(t, &w.f);
}

static void the_dossier_tells_the_balance_and_the_temperatures(sw_test *t)
{
    static const char *const parts[] = {"Fire, air and heat",
                                        "the balance closes within 0.001 %",
                                        "into the room 7.00 kW",
                                        "A burn from cold",
                                        "primary",
                                        "1.00 g/s, 3.0 m/s, 12.0 Pa",
                                        "excess air ratio"};
    warm w;
    (void)warm_make(t, &w, true);
    sw_ok(t, sw_paper_dossier(&t->run, &w.f.dossier, w.f.folder));
    const char *plain = fixture_shell(
        t, sw_text_format(&t->run, t->run.keep, "pdftotext -layout %s/dossier.pdf - | tr -s ' \\n' ' '", w.f.folder));
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++) sw_contains(t, plain, parts[i]);
    fixture_clear(t, &w.f);
}

/* ---- the solid ---- */

static double volume_of(const sw_mesh *m)
{
    double six = 0;
    for (size_t i = 0; i < m->triangle_count; i++) {
        sw_vec3 a = m->points[m->triangles[i].a],
                n = sw_vec3_cross(m->points[m->triangles[i].b], m->points[m->triangles[i].c]);
        six += a.x_mm * n.x_mm + a.y_mm * n.y_mm + a.z_mm * n.z_mm;
    }
    return six / 6;
}

static void a_shell_of_the_map_becomes_a_closed_body(sw_test *t)
{
    warm w;
    sw_mesh thick;
    (void)warm_make(t, &w, true);
    sw_ok(t, gltf_thick_mesh(&t->run, &w.mapped[0].mesh, 4, &thick));
    sw_near(t, volume_of(&thick), 400.0 * 250.0 * 4.0, 1e-3, "derived: area times thickness");
    const uint32_t *twins = heat_twins(&t->run, &thick);
    for (size_t e = 0; e < 3 * thick.triangle_count; e++) sw_true(t, twins[e] != HEAT_OPEN);
    fixture_clear(t, &w.f);
}

static uint32_t little(const char *p)
{
    const unsigned char *b = (const unsigned char *)p;
    return b[0] | (uint32_t)b[1] << 8 | (uint32_t)b[2] << 16 | (uint32_t)b[3] << 24;
}

static json_t *glb_json(sw_test *t, const sw_dossier *d, const char *path)
{
    const char *bytes = NULL;
    size_t length = 0;
    sw_ok(t, sw_paper_gltf_heat(&t->run, d, path));
    sw_ok(t, sw_file_read(&t->run, path, 1 << 26, &bytes, &length));
    return length < 20 ? NULL : json_loadb(bytes + 20, little(bytes + 12), 0, NULL);
}

static json_t *node_named(json_t *root, const char *name)
{
    json_t *nodes = json_object_get(root, "nodes");
    for (size_t i = 0; i < json_array_size(nodes); i++) {
        const char *text = json_string_value(json_object_get(json_array_get(nodes, i), "name"));
        if (text != NULL && strcmp(text, name) == 0) return json_array_get(nodes, i);
    }
    return NULL;
}

static json_t *primitive_of(json_t *root, json_t *node)
{
    size_t mesh = (size_t)json_integer_value(json_object_get(node, "mesh"));
    return json_array_get(json_object_get(json_array_get(json_object_get(root, "meshes"), mesh), "primitives"), 0);
}

static const char *material_of(json_t *root, json_t *node)
{
    size_t at = (size_t)json_integer_value(json_object_get(primitive_of(root, node), "material"));
    return json_string_value(json_object_get(json_array_get(json_object_get(root, "materials"), at), "name"));
}

static void the_warm_solid_colours_a_mapped_piece_by_vertex_and_others_by_material(sw_test *t)
{
    warm w;
    const sw_dossier *d = warm_make(t, &w, true);
    json_t *root = glb_json(t, d, fixture_path(t, &w.f, "heat.glb"));
    if (!sw_true(t, root != NULL)) return;
    json_t *plate = node_named(root, "A-01 front plate"), *first = node_named(root, "A-03 disc <top & base>"),
           *second = node_named(root, "A-03 disc <top & base> #2");
    if (!sw_true(t, plate != NULL && first != NULL && second != NULL)) return;
    sw_true(t, json_object_get(json_object_get(primitive_of(root, plate), "attributes"), "COLOR_0") != NULL);
    sw_true(t, json_object_get(json_object_get(primitive_of(root, first), "attributes"), "COLOR_0") == NULL);
    sw_same_text(t, material_of(root, first),
                 "210 \xc2\xb0"
                 "C");
    sw_same_text(t, material_of(root, second),
                 "60 \xc2\xb0"
                 "C");
    sw_near(t, json_number_value(json_object_get(json_object_get(second, "extras"), "hot_c")), 60, 1e-6, "round trip");
    json_decref(root);
    fixture_clear(t, &w.f);
}

/* ---- charts ---- */

static void charts_name_their_lines_once_and_gaps_stay_gaps(sw_test *t)
{
    fixture f;
    (void)fixture_make(t, &f);
    const double x[] = {1, 2, 3, 4}, a[] = {10, 20, NAN, 40}, b[] = {7, 7, 7, 7};
    const sw_chart_line lines[] = {{"lining 24 mm", x, a, 4}, {"lining 30 mm", x, b, 4}};
    const sw_line_chart charts[] = {{"first", "draught, Pa", "kW", lines, 2}, {"second", "draught, Pa", "%", lines, 2}};
    const char *trace = fixture_path(t, &f, "charts.trace"), *pdf = fixture_path(t, &f, "charts.pdf");
    sw_ok(t, sw_paper_charts(&t->run, "a sweep", charts, 2, trace));
    const char *text = fixture_text(t, trace), *named = strstr(text, "lining 24 mm\n");
    sw_true(t, named != NULL && strstr(named + 1, "lining 24 mm\n") == NULL);
    sw_contains(t, text, " second\n");
    size_t dots = 0; /* of 1.1 mm */
    for (const char *line = strstr(text, "\npath "); line != NULL; line = strstr(line + 1, "\npath ")) {
        char *rest = NULL;
        double x0 = strtod(line + 6, &rest);
        (void)strtod(rest, &rest);
        double x1 = strtod(rest, &rest);
        (void)strtod(rest, &rest);
        if (strncmp(rest, " fill", 5) == 0 && fabs(x1 - x0 - 1.1) < 1e-3) dots++;
    }
    sw_near(t, (double)dots, 2 * (3 + 4), 0, "derived: a dot a known point");
    sw_ok(t, sw_paper_charts(&t->run, "a sweep", charts, 2, pdf));
    sw_true(t, fixture_shell(t, sw_text_format(&t->run, t->run.keep, "qpdf --check %s", pdf)) != NULL);
    fixture_clear(t, &f);
}

static void one_value_and_no_value_still_give_a_chart(sw_test *t)
{
    fixture f;
    (void)fixture_make(t, &f);
    const double x = 5, y = 0, none = NAN;
    const sw_chart_line lines[] = {{"", &x, &y, 1}}, empty[] = {{"", &x, &none, 1}};
    const sw_line_chart charts[] = {{"one", "x", "", lines, 1}, {"none", "x", "", empty, 1}};
    sw_ok(t, sw_paper_charts(&t->run, "t", charts, 2, fixture_path(t, &f, "c.svg")));
    const char *text = fixture_text(t, fixture_path(t, &f, "c.svg"));
    sw_true(t, strstr(text, "nan") == NULL && strstr(text, "inf") == NULL);
    fixture_clear(t, &f);
}

/* ---- no memory ---- */

typedef sw_status one_paper(sw_run *run, const sw_dossier *d, const char *path);

static sw_status heat_flats_paper(sw_run *run, const sw_dossier *d, const char *path)
{
    paper_desk desk;
    sw_pen *pen = NULL;
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = desk_open(run, d, &desk);
    if (status == SW_OK) status = pen_open_lettered(run, path, desk.letters, 0, 0, &pen);
    if (status == SW_OK) status = paper_heat_flats(run, &desk, pen);
    if (status == SW_OK)
        status = sw_pen_close(run, pen);
    else
        sw_pen_abandon(pen);
    desk_close(&desk);
    sw_arena_rewind(run->scratch, mark);
    return status;
}

static sw_status air_paper(sw_run *run, const sw_dossier *d, const char *path)
{
    paper_desk desk;
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = desk_whole(run, d, &desk);
    if (status == SW_OK) status = paper_air(run, &desk, path);
    desk_close(&desk);
    sw_arena_rewind(run->scratch, mark);
    return status;
}

static sw_status charts_paper(sw_run *run, const sw_dossier *d, const char *path)
{
    (void)d;
    const double x[] = {1, 2}, y[] = {3, 4};
    const sw_chart_line line = {"line", x, y, 2};
    const sw_line_chart one = {"chart", "x", "y", &line, 1};
    return sw_paper_charts(run, "title", &one, 1, path);
}

static void fail_everywhere(sw_test *t, const warm *w, one_paper *paper, const char *ending, size_t step)
{
    const char *path = sw_text_format(&t->run, t->run.keep, "%s/fail.%s", w->f.folder, ending);
    for (int which = 0; which < 2; which++) {
        sw_status status = SW_NO_MEMORY;
        for (size_t n = 1; status != SW_OK && n < 60000; n += step) {
            sw_arena *arena = which == 0 ? t->run.scratch : t->run.keep;
            sw_arena_fail_at(arena, n);
            status = paper(&t->run, &w->f.dossier, path);
            sw_arena_fail_at(arena, 0);
            if (status != SW_OK && !sw_true(t, status == SW_NO_MEMORY)) return;
            if (status != SW_OK) sw_true(t, access(path, F_OK) != 0);
            sw_run_clear_errors(&t->run);
        }
        sw_true(t, status == SW_OK);
        sw_true(t, unlink(path) == 0);
    }
}

static void heat_papers_without_memory_say_so(sw_test *t)
{
    warm w;
    (void)warm_make(t, &w, true);
    fail_everywhere(t, &w, sw_paper_gltf_heat, "glb", 1);
    fail_everywhere(t, &w, heat_flats_paper, "pdf", 3);
    fail_everywhere(t, &w, air_paper, "svg", 997);
    fail_everywhere(t, &w, charts_paper, "svg", 1);
    fixture_clear(t, &w.f);
}

SW_TESTS(SW_CASE(an_isotherm_of_a_linear_field_is_straight), SW_CASE(hotter_areas_lie_within_cooler_ones),
         SW_CASE(a_flat_tells_its_isotherms_and_its_hottest_spot), SW_CASE(colours_go_over_all_that_is_known),
         SW_CASE(the_folder_holds_what_is_known_of_heat_and_repeats), SW_CASE(without_a_map_there_are_no_isotherms),
         SW_CASE(the_dossier_tells_the_balance_and_the_temperatures), SW_CASE(a_shell_of_the_map_becomes_a_closed_body),
         SW_CASE(the_warm_solid_colours_a_mapped_piece_by_vertex_and_others_by_material),
         SW_CASE(charts_name_their_lines_once_and_gaps_stay_gaps), SW_CASE(one_value_and_no_value_still_give_a_chart),
         SW_CASE(heat_papers_without_memory_say_so))
