#include "papers_fixture.h"

static const char *pdf_text(sw_test *t, const char *path)
{
    return fixture_shell(t, sw_text_format(&t->run, t->run.keep, "pdftotext -layout '%s' -", path));
}

static void a_flat_drawing_tells_number_mass_and_angle(sw_test *t)
{
    fixture f;
    const sw_dossier *d = fixture_make(t, &f);
    const char *angles[FIXTURE_PIECES] = {"45\xc2\xb0 down R4", "rolled 180\xc2\xb0 up R150", "\xc3\x97 5 = 10"};
    for (size_t i = 0; i < FIXTURE_PIECES; i++) {
        const char *path = sw_text_format(&t->run, t->run.keep, "%s/%s.pdf", f.folder, f.pieces[i].number);
        sw_ok(t, sw_paper_flat(&t->run, d, i, path));
        const char *text = pdf_text(t, path);
        sw_contains(t, text, f.pieces[i].number);
        sw_contains(t, text, f.pieces[i].name);
        sw_contains(t, text, angles[i]);
        sw_contains(t, text, sw_text_format(&t->run, t->run.keep, "%.2f", d->sheet->pieces[i].mass_kg));
        sw_contains(t, text, "S235");
        sw_true(t, fixture_shell(t, sw_text_format(&t->run, t->run.keep, "qpdf --check '%s'", path)) != NULL);
    }
    fixture_clear(t, &f);
}

static void cut_outs_of_one_size_share_a_row_with_their_places(sw_test *t)
{
    fixture f;
    const sw_dossier *d = fixture_make(t, &f);
    const char *path = fixture_path(t, &f, "a.pdf");
    sw_ok(t, sw_paper_flat(&t->run, d, 0, path));
    const char *text = pdf_text(t, path);
    sw_contains(t, text,
                "\xc3\xb8"
                "9");
    sw_contains(t, text,
                "\xc3\xb8"
                "6.4");
    sw_contains(t, text, "slot 62 \xc3\x97 12");
    sw_contains(t, text, "shape 180 \xc3\x97 90");
    double first_mm = 60.0 + d->sheet->pieces[0].flat.faces[0].dx_mm;
    sw_contains(t, text, sw_text_format(&t->run, t->run.keep, "%.1f", first_mm));
    fixture_clear(t, &f);
}

typedef struct trace_text {
    double x0, y0, x1, y1;
    char text[120];
} trace_text;

/* Every mark lies on the page; no two texts lie on each other. Gives the number of texts. */
static size_t check_trace(sw_test *t, const char *trace, const char *what)
{
    enum { MOST = 2000 };
    trace_text *texts = SW_KEEP(&t->run, MOST, trace_text);
    double wide = 0.0, high = 0.0;
    size_t count = 0;
    for (const char *line = trace; line != NULL && *line != '\0'; line = strchr(line, '\n'), line += line != NULL) {
        double x0 = 0, y0 = 0, x1 = 0, y1 = 0, size = 0, turn = 0;
        trace_text *text = &texts[count];
        if (sscanf(line, "page %lf %lf", &wide, &high) == 2) count = 0;
        bool shape = sscanf(line, "path %lf %lf %lf %lf", &x0, &y0, &x1, &y1) == 4 ||
                     sscanf(line, "picture %lf %lf %lf %lf", &x0, &y0, &x1, &y1) == 4;
        bool words =
            sscanf(line, "text %lf %lf %lf %lf %lf %lf %119[^\n]", &x0, &y0, &x1, &y1, &size, &turn, text->text) == 7;
        if (!shape && !words) continue;
        bool on_page = x0 >= 0 && y0 >= 0 && x1 <= wide + 0.5 && y1 <= high + 0.5;
        if (!on_page) printf("    %s: off the page: %.100s\n", what, line);
        sw_true(t, on_page);
        if (!words || count + 1 >= MOST) continue;
        *text = (trace_text){.x0 = x0 + 0.02, .y0 = y0 + 0.02, .x1 = x1 - 0.02, .y1 = y1 - 0.02};
        (void)sscanf(line, "text %*f %*f %*f %*f %*f %*f %119[^\n]", text->text);
        for (size_t i = 0; i < count; i++) {
            bool apart = texts[i].x1 <= text->x0 || text->x1 <= texts[i].x0 || texts[i].y1 <= text->y0 ||
                         text->y1 <= texts[i].y0;
            if (!apart) printf("    %s: \"%s\" lies on \"%s\"\n", what, text->text, texts[i].text);
            sw_true(t, apart);
        }
        count++;
    }
    return count;
}

static void the_rule_of_a_bend_stands_whole(sw_test *t)
{
    fixture f;
    const sw_dossier *d = fixture_make(t, &f);
    sw_flat_bend *bends = SW_KEEP(&t->run, d->sheet->pieces[0].flat.bend_count + 1, sw_flat_bend);
    sw_flat *flat = &f.sheets[0].flat;
    const char *rules[2] = {
        "works trial: three strips of 4 mm on the 40 die, measured by the foreman and by his apprentice, "
        "and again a week later with another batch of steel from the second mill",
        "DIN 6935"};
    for (size_t i = 0; i < flat->bend_count; i++) {
        bends[i] = flat->bends[i];
        bends[i].rule = rules[i % 2];
    }
    flat->bends = bends;
    const char *path = fixture_path(t, &f, "rule.pdf");
    sw_ok(t, sw_paper_flat(&t->run, d, 0, path));
    const char *text =
        fixture_shell(t, sw_text_format(&t->run, t->run.keep, "pdftotext -layout '%s' - | tr -s ' \\n' ' '", path));
    sw_contains(t, text, "rule 1 works trial: three strips of 4 mm on the 40 die, measured by the foreman and by his");
    sw_contains(t, text, "apprentice, and again a week later with another batch of steel from the second mill");
    sw_contains(t, text, "rule 2 DIN 6935");
    const char *trace = fixture_path(t, &f, "rule.trace");
    sw_ok(t, sw_paper_flat(&t->run, d, 0, trace));
    sw_true(t, check_trace(t, fixture_text(t, trace), "rule") > 15);
    fixture_clear(t, &f);
}

static void nothing_leaves_the_page_and_no_text_lies_on_another(sw_test *t)
{
    fixture f;
    const sw_dossier *d = fixture_make(t, &f);
    for (size_t i = 0; i < FIXTURE_PIECES; i++) {
        const char *path = sw_text_format(&t->run, t->run.keep, "%s/%zu.trace", f.folder, i);
        sw_ok(t, sw_paper_flat(&t->run, d, i, path));
        sw_true(t, check_trace(t, fixture_text(t, path), f.pieces[i].number) > 15);
    }
    const char *paths[] = {fixture_path(t, &f, "map.trace"), fixture_path(t, &f, "exploded.trace"),
                           fixture_path(t, &f, "template.trace")};
    sw_ok(t, sw_paper_nest_map(&t->run, d, 0, 0, paths[0]));
    sw_ok(t, sw_paper_views(&t->run, d, true, paths[1]));
    sw_ok(t, sw_paper_template(&t->run, d, 1, paths[2]));
    for (int i = 0; i < 3; i++) sw_true(t, check_trace(t, fixture_text(t, paths[i]), paths[i]) > 5);
    fixture_clear(t, &f);
}

/* Scattered round holes of four sizes, more than fit: the page still stays in order. */
static void many_holes_stay_legible(sw_test *t)
{
    for (uint64_t seed = 1; seed <= 6; seed++) {
        fixture f;
        t->seed = seed;
        const sw_dossier *d = fixture_make(t, &f);
        sw_random random = sw_random_seeded(seed);
        size_t n = 20 + 60 * (size_t)(seed % 3);
        sw_contour *holes = SW_KEEP(&t->run, n, sw_contour);
        sw_sheet_piece *p = &f.sheets[2];
        sw_contour sheet, made;
        sw_ok(t, sw_contour_rectangle(&t->run, (sw_box){0, 0, 600, 200.0 + 100.0 * (double)seed}, 0, &sheet));
        for (size_t i = 0; i < n; i++) {
            sw_point at = {30.0 * (double)(1 + i % 19),
                           20.0 + 20.0 * (double)(i / 19) + sw_random_between(&random, -4, 4)};
            sw_ok(t, sw_contour_circle(&t->run, at, 2.0 + (double)sw_random_below(&random, 4), &made));
            sw_ok(t, sw_contour_reversed(&t->run, made, &holes[i]));
        }
        p->flat.region = (sw_region){sheet, holes, n};
        p->flat.box = sw_contour_box(sheet);
        const char *path = fixture_path(t, &f, "many.trace");
        sw_ok(t, sw_paper_flat(&t->run, d, 2, path));
        sw_true(t, check_trace(t, fixture_text(t, path), "many holes") > 15);
        fixture_clear(t, &f);
    }
}

static void the_scale_is_a_usual_one_and_stated(sw_test *t)
{
    fixture f;
    const sw_dossier *d = fixture_make(t, &f);
    const struct {
        double size_mm;
        const char *text;
    } cases[] = {{20, "5:1"}, {60, "2:1"}, {120, "1:1"}, {250, "1:2"}, {600, "1:5"}, {1200, "1:10"}, {3000, "1:20"}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        sw_contour sheet;
        sw_ok(t, sw_contour_rectangle(&t->run, (sw_box){0, 0, cases[i].size_mm, cases[i].size_mm}, 0, &sheet));
        f.sheets[2].flat.region = (sw_region){sheet, NULL, 0};
        f.sheets[2].flat.box = sw_contour_box(sheet);
        const char *path = fixture_path(t, &f, "scale.trace");
        sw_ok(t, sw_paper_flat(&t->run, d, 2, path));
        sw_contains(t, fixture_text(t, path), cases[i].text);
    }
    fixture_clear(t, &f);
}

SW_TESTS(SW_CASE(the_rule_of_a_bend_stands_whole), SW_CASE(a_flat_drawing_tells_number_mass_and_angle),
         SW_CASE(cut_outs_of_one_size_share_a_row_with_their_places),
         SW_CASE(nothing_leaves_the_page_and_no_text_lies_on_another), SW_CASE(many_holes_stay_legible),
         SW_CASE(the_scale_is_a_usual_one_and_stated))
