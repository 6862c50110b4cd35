/* What is written reads back the same, and other readers agree. */
#include "dxf/dxf.h"
#include "gen.h"
#include "sw_test.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char *written(sw_test *t, const sw_dxf_drawing *drawing, size_t *length)
{
    sw_writer *writer = NULL;
    const char *text = NULL;
    sw_ok(t, sw_writer_to_memory(&t->run, &writer));
    sw_dxf_write(writer, drawing);
    sw_ok(t, sw_writer_take(&t->run, writer, &text, length));
    return text;
}

static bool read_back(sw_test *t, const sw_dxf_drawing *drawing, sw_dxf_drawing *back)
{
    size_t length = 0;
    const char *skipped, *text = written(t, drawing, &length);
    return sw_ok(t, sw_dxf_read(&t->run, "back.dxf", text, length, 1e-6, back, &skipped)) &&
           sw_same_text(t, skipped, "");
}

static bool same_vertices(sw_test *t, const sw_dxf_path *a, const sw_dxf_path *b)
{
    if (!sw_true(t, a->n == b->n && a->closed == b->closed) || !sw_same_text(t, b->layer, a->layer)) return false;
    for (size_t i = 0; i < a->n; i++) {
        double off = fabs(a->v[i].x_mm - b->v[i].x_mm) + fabs(a->v[i].y_mm - b->v[i].y_mm);
        double turn = !a->closed && i + 1 == a->n ? 0.0 : fabs(a->v[i].bulge - b->v[i].bulge);
        if (!sw_near(t, off, 0.0, 1e-9, "written and read back")) return false;
        if (!sw_near(t, turn, 0.0, 1e-12, "written and read back")) return false;
    }
    return true;
}

static void random_contours_come_back(sw_test *t)
{
    for (uint64_t seed = 1; seed <= 200; seed++) {
        t->seed = seed;
        sw_contour c;
        sw_motion m = {.turn_rad = (double)seed, .dx_mm = (double)(seed * 97), .dy_mm = -19000.0};
        sw_ok(t, sw_contour_moved(&t->run, gen_contour(&t->run, seed), m, &c));
        sw_dxf_path path = {seed % 2 == 0 ? "CUT" : "ETCH", true, c.v, c.n};
        sw_dxf_drawing drawing = {.paths = &path, .path_count = 1}, back;
        if (!read_back(t, &drawing, &back) || !sw_true(t, back.path_count == 1)) return;
        if (!same_vertices(t, &path, &back.paths[0])) return;
    }
}

static void open_paths_come_back(sw_test *t)
{
    const sw_vertex bent[3] = {{0, 0, 0.5}, {10, 0, -0.25}, {10, 30, 0}},
                    straight[2] = {{50, 0, 0}, {50, 1.0 / 3.0, 0}};
    const sw_dxf_path paths[2] = {{"ETCH", false, bent, 3}, {"BEND", false, straight, 2}};
    sw_dxf_drawing drawing = {.paths = paths, .path_count = 2}, back;
    if (!read_back(t, &drawing, &back) || !sw_true(t, back.path_count == 2)) return;
    same_vertices(t, &paths[0], &back.paths[0]);
    same_vertices(t, &paths[1], &back.paths[1]);
}

static void circles_are_written_as_circles(sw_test *t)
{
    sw_contour c;
    size_t length;
    sw_ok(t, sw_contour_circle(&t->run, (sw_point){3.5, -7.25}, 4.125, &c));
    sw_dxf_path path = {"CUT", true, c.v, c.n};
    sw_dxf_drawing drawing = {.paths = &path, .path_count = 1}, back;
    const char *text = written(t, &drawing, &length);
    sw_contains(t, text, "CIRCLE\n8\nCUT\n10\n3.5\n20\n-7.25\n30\n0\n40\n4.125\n");
    sw_true(t, strstr(text, "POLYLINE") == NULL);
    if (read_back(t, &drawing, &back)) same_vertices(t, &path, &back.paths[0]);
}

static void words_come_back_with_umlauts_and_without_line_ends(sw_test *t)
{
    const sw_dxf_text texts[2] = {{"ETCH", "T\xC3\xBCr \xE2\x82\xAC 4 mm", {12.5, -3.0}, 5.0, 0.5},
                                  {"ETCH", "two\nlines", {0.0, 0.0}, 2.5, 0.0}};
    const sw_vertex v[2] = {{0, 0, 0}, {1, 1, 0}};
    const sw_dxf_path path = {"CUT", false, v, 2};
    sw_dxf_drawing drawing = {&path, 1, texts, 2}, back;
    if (!read_back(t, &drawing, &back) || !sw_true(t, back.text_count == 2)) return;
    sw_same_text(t, back.texts[0].text, texts[0].text);
    sw_same_text(t, back.texts[1].text, "two lines");
    sw_near(t, back.texts[0].turn_rad, 0.5, 1e-14, "written and read back");
    sw_near(t, back.texts[0].height_mm, 5.0, 0.0, "written and read back");
    sw_near(t, back.texts[0].at.x_mm, 12.5, 0.0, "written and read back");
}

static void a_region_comes_back_with_its_holes(sw_test *t)
{
    sw_contour outline, circle, hole, slot;
    sw_ok(t, sw_contour_rectangle(&t->run, (sw_box){0.0, 0.0, 100.0, 60.0}, 8.0, &outline));
    sw_ok(t, sw_contour_circle(&t->run, (sw_point){30.0, 30.0}, 10.0, &circle));
    sw_ok(t, sw_contour_slot(&t->run, (sw_point){60.0, 30.0}, (sw_point){80.0, 35.0}, 12.0, &slot));
    sw_ok(t, sw_contour_reversed(&t->run, slot, &hole));
    const sw_dxf_path paths[4] = {{"CUT", true, circle.v, circle.n},
                                  {"CUT", true, outline.v, outline.n},
                                  {"CUT", true, hole.v, hole.n},
                                  {"ETCH", true, circle.v, circle.n}};
    sw_dxf_drawing drawing = {.paths = paths, .path_count = 4}, back;
    sw_region region;
    if (!read_back(t, &drawing, &back)) return;
    if (!sw_ok(t, sw_dxf_region(&t->run, "back.dxf", &back, "CUT", &region))) return;
    sw_true(t, region.hole_count == 2);
    double want = sw_contour_area(outline) - sw_contour_area(circle) - sw_contour_area(slot);
    sw_near(t, sw_region_area(&region), want, 1e-8, "derived: outline less holes");
}

/* ---- loose lines and arcs -------------------------------------------------------------- */

typedef struct loose {
    char *text;
    size_t length;
} loose;

static void put(loose *to, const char *line)
{
    size_t n = strlen(line);
    memcpy(to->text + to->length, line, n);
    to->length += n;
}

static void put_group(loose *to, int code, double value)
{
    char line[64];
    (void)snprintf(line, sizeof line, "%d\r\n%.17g\r\n", code, value);
    put(to, line);
}

static void put_loose_segment(loose *to, sw_vertex from, sw_point end, bool backward)
{
    sw_arc arc = sw_segment_arc(from, end);
    if (!isfinite(arc.radius_mm)) {
        put(to, "  0\r\nLINE\r\n  8\r\nCUT\r\n");
        put_group(to, 10, backward ? end.x_mm : from.x_mm);
        put_group(to, 20, backward ? end.y_mm : from.y_mm);
        put_group(to, 11, backward ? from.x_mm : end.x_mm);
        put_group(to, 21, backward ? from.y_mm : end.y_mm);
        return;
    }
    double first = arc.from_rad, last = arc.from_rad + arc.sweep_rad;
    put(to, "  0\r\nARC\r\n  8\r\nCUT\r\n");
    put_group(to, 10, arc.centre.x_mm);
    put_group(to, 20, arc.centre.y_mm);
    put_group(to, 40, arc.radius_mm);
    put_group(to, 50, sw_deg_from_rad(arc.sweep_rad > 0.0 ? first : last));
    put_group(to, 51, sw_deg_from_rad(arc.sweep_rad > 0.0 ? last : first));
}

/* The segments of a contour as loose entities in a shuffled order, every other line backward. */
static loose shuffled(sw_test *t, sw_contour c, uint64_t seed)
{
    sw_random random = sw_random_seeded(seed);
    loose out = {SW_KEEP(&t->run, 400 * c.n + 200, char), 0};
    size_t *order = SW_KEEP(&t->run, c.n, size_t);
    for (size_t i = 0; i < c.n; i++) order[i] = i;
    for (size_t i = c.n; i-- > 1;) {
        size_t k = sw_random_below(&random, i + 1), swap = order[i];
        order[i] = order[k];
        order[k] = swap;
    }
    put(&out, "  0\r\nSECTION\r\n  2\r\nENTITIES\r\n");
    for (size_t i = 0; i < c.n; i++) {
        sw_vertex next = c.v[(order[i] + 1) % c.n];
        put_loose_segment(&out, c.v[order[i]], (sw_point){next.x_mm, next.y_mm}, i % 2 == 1);
    }
    put(&out, "  0\r\nENDSEC\r\n  0\r\nEOF\r\n");
    return out;
}

static void loose_lines_and_arcs_join_in_any_order(sw_test *t)
{
    for (uint64_t seed = 1; seed <= 100; seed++) {
        t->seed = seed;
        sw_contour c = gen_contour(&t->run, seed);
        loose file = shuffled(t, c, seed);
        sw_dxf_drawing drawing;
        const char *skipped;
        sw_region region;
        if (!sw_ok(t, sw_dxf_read(&t->run, "loose.dxf", file.text, file.length, 0.01, &drawing, &skipped))) return;
        if (!sw_true(t, drawing.path_count == 1 && drawing.paths[0].closed && drawing.paths[0].n == c.n)) return;
        if (!sw_ok(t, sw_dxf_region(&t->run, "loose.dxf", &drawing, "CUT", &region))) return;
        if (!sw_near(t, sw_region_area(&region), sw_contour_area(c), 1e-6, "derived: the same contour")) return;
        if (!sw_near(t, sw_region_length(&region), sw_contour_length(c), 1e-8, "derived: the same contour")) return;
    }
}

/* ---- another reader -------------------------------------------------------------------- */

static sw_dxf_drawing plate(sw_test *t)
{
    sw_contour outline, circle, slot;
    static sw_dxf_path paths[4];
    static sw_dxf_text text;
    static const sw_vertex bend[2] = {{0, 20, 0}, {100, 20.125, 0}};
    sw_ok(t, sw_contour_rectangle(&t->run, (sw_box){0.0, 0.0, 100.0, 60.0}, 8.0, &outline));
    sw_ok(t, sw_contour_circle(&t->run, (sw_point){30.0, 30.0}, 10.0, &circle));
    sw_ok(t, sw_contour_slot(&t->run, (sw_point){60.0, 30.0}, (sw_point){80.0, 35.0}, 12.0, &slot));
    paths[0] = (sw_dxf_path){"CUT", true, outline.v, outline.n};
    paths[1] = (sw_dxf_path){"CUT", true, circle.v, circle.n};
    paths[2] = (sw_dxf_path){"CUT", true, slot.v, slot.n};
    paths[3] = (sw_dxf_path){"BEND", false, bend, 2};
    text = (sw_dxf_text){"ETCH", "T\xC3\xBCr 1", {5.0, 50.0}, 4.0, SW_PI / 6.0};
    return (sw_dxf_drawing){paths, 4, &text, 1};
}

/* Skipped where Python or ezdxf is missing: the script then says so and exits 77. */
static void another_reader_finds_the_same(sw_test *t)
{
    sw_dxf_drawing drawing = plate(t);
    char path[64] = "/tmp/sw_dxf_XXXXXX", command[512];
    size_t length;
    int file = mkstemp(path);
    FILE *out = file < 0 ? NULL : fdopen(file, "wb");
    if (!sw_true(t, out != NULL)) return;
    const char *text = written(t, &drawing, &length);
    sw_true(t, fwrite(text, 1, length, out) == length);
    sw_true(t, fclose(out) == 0);
    (void)snprintf(command, sizeof command, "/usr/bin/python3 %s/tests/dxf/read_with_ezdxf.py %s", SW_SOURCE_DIR, path);
    int code = system(command);
    sw_true(t, code == 0 || code == 77 * 256);
    (void)remove(path);
}

SW_TESTS(SW_CASE(random_contours_come_back), SW_CASE(open_paths_come_back), SW_CASE(circles_are_written_as_circles),
         SW_CASE(words_come_back_with_umlauts_and_without_line_ends), SW_CASE(a_region_comes_back_with_its_holes),
         SW_CASE(loose_lines_and_arcs_join_in_any_order), SW_CASE(another_reader_finds_the_same))
