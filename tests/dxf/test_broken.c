/* Broken and unusual DXF files: each is refused with a message that says what, where and what to do, or read
 * as it should be. */
#include "dxf/dxf.h"
#include "sw_test.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define ENTITIES "0\nSECTION\n2\nENTITIES\n"
#define LINE     "0\nLINE\n8\nCUT\n10\n0\n20\n0\n11\n10\n21\n0\n"
#define END      "0\nENDSEC\n0\nEOF\n"

static sw_status read_text(sw_test *t, const char *text, sw_dxf_drawing *drawing, const char **skipped)
{
    sw_run_clear_errors(&t->run);
    return sw_dxf_read(&t->run, "part.dxf", text, strlen(text), 0.01, drawing, skipped);
}

typedef struct broken {
    const char *text, *message;
    int line;
} broken;

static const broken files[] = {
    {"", "the file is empty", 0},
    {"hello world\nthis is\n", "\"hello world\" is no group code", 1},
    {"0\n", "cut short", 1},
    {"0\nEOF\n", "no ENTITIES section", 2},
    {"1e0\nSECTION\n", "\"1e0\" is no group code", 1},
    {"2000\nSECTION\n", "\"2000\" is no group code; a whole number from 0 to 1071", 1},
    {"0\nLINE\n", "between sections; only SECTION or EOF", 1},
    {"0\nSECTION\n8\nCUT\n", "group 8 after SECTION; group 2", 3},
    {"0\nSECTION\n2\nFURNACE\n", "section \"FURNACE\" is not known", 4},
    {"0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n1\n0\nENDSEC\n" ENTITIES LINE END,
     "unit is 1 (inch); only 4 (millimetre)", 8},
    {"0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n6\n0\nENDSEC\n" ENTITIES LINE END, "unit is 6 (metre)", 8},
    {"0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\nmm\n0\nENDSEC\n" ENTITIES LINE END, "\"mm\" is no whole number", 8},
    {"0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n4\n" ENTITIES LINE END, "inside HEADER; ENDSEC is missing", 10},
    {ENTITIES LINE "0\nENDSEC\n" ENTITIES LINE END, "section ENTITIES comes twice", 22},
    {ENTITIES LINE "0\nENDSEC\n0\nSECTION\n2\nHEADER\n" END, "section HEADER comes too late", 22},
    {"0\nSECTION\n2\nTABLES\n0\nEOF\n", "EOF inside a section; ENDSEC is missing", 6},
    {ENTITIES LINE "0\nEOF\n", "EOF inside ENTITIES; ENDSEC is missing", 18},
    {ENTITIES LINE "0\nSECTION\n2\nOBJECTS\n" END, "SECTION inside ENTITIES", 18},
    {ENTITIES "8\nCUT\n" END, "group 8 at the start of ENTITIES", 5},
    {ENTITIES "0\nLINE\n8\nCUT\n10\n0\n20\n0\n11\n10\n" END, "LINE lacks a group it needs (10, 20, 11, 21)", 6},
    {ENTITIES "0\nLINE\n8\nCUT\n10\nnan\n20\n0\n11\n10\n21\n0\n" END, "group 10: \"nan\" is no number", 10},
    {ENTITIES "0\nLINE\n8\nCUT\n10\n0x10\n20\n0\n11\n10\n21\n0\n" END, "group 10: \"0x10\" is no number", 10},
    {ENTITIES "0\nLINE\n8\nCUT\n10\n1,5\n20\n0\n11\n10\n21\n0\n" END, "group 10: \"1,5\" is no number", 10},
    {ENTITIES "0\nLINE\n8\nCUT\n10\n1e300\n20\n0\n11\n10\n21\n0\n" END, "no number from -1e9 to 1e9", 10},
    {ENTITIES "0\nLINE\n8\nCUT\n10\n1e999\n20\n0\n11\n10\n21\n0\n" END, "no number from -1e9 to 1e9", 10},
    {ENTITIES "0\nLINE\n8\nCUT\n10\n\n20\n0\n11\n10\n21\n0\n" END, "group 10: \"\" is no number", 10},
    {ENTITIES "0\nLINE\n10\n0\n20\n0\n30\n0\n11\n1\n21\n0\n31\n5\n" END, "LINE rises from z 0 to 5; only flat", 6},
    {ENTITIES "0\nCIRCLE\n10\n0\n20\n0\n40\n-2\n" END, "CIRCLE has radius -2; a positive one", 6},
    {ENTITIES "0\nCIRCLE\n10\n0\n20\n0\n" END, "CIRCLE lacks a group it needs (10, 20, 40)", 6},
    {ENTITIES "0\nARC\n10\n0\n20\n0\n40\n2\n50\n10\n" END, "ARC lacks a group it needs", 6},
    {ENTITIES "0\nCIRCLE\n10\n0\n20\n0\n40\n2\n210\n1\n220\n0\n230\n0\n" END, "plane tilted to (1, 0, 0)", 6},
    {ENTITIES "0\nPOLYLINE\n66\n1\n0\nVERTEX\n10\n0\n20\n0\n" LINE END, "\"LINE\" among the vertices of a POLYLINE",
     16},
    {ENTITIES "0\nPOLYLINE\n66\n1\n0\nVERTEX\n10\n0\n0\nSEQEND\n" END, "VERTEX lacks a group it needs (10, 20)", 10},
    {ENTITIES "0\nPOLYLINE\n66\n1\n0\nSEQEND\n" END, "POLYLINE has 0 vertices; at least 2", 6},
    {ENTITIES "0\nLWPOLYLINE\n90\n3\n70\n1\n10\n0\n20\n0\n10\n5\n20\n0\n" END,
     "promises 3 vertices (group 90) and has 2", 6},
    {ENTITIES "0\nLWPOLYLINE\n70\n1\n20\n0\n10\n5\n" END, "group 20 of an LWPOLYLINE before its first group 10", 9},
    {ENTITIES "0\nLWPOLYLINE\n70\n1\n10\n0\n10\n5\n20\n1\n" END, "vertex 0 of the LWPOLYLINE lacks group 20", 6},
    {ENTITIES "0\nSPLINE\n8\nCUT\n" END, "no line, arc, circle or polyline is drawn in the file (1 SPLINE)", 12},
    {ENTITIES END, "no line, arc, circle or polyline is drawn in the file (it is empty)", 8},
    {ENTITIES LINE END "0\nSECTION\n", "bytes follow EOF", 21},
    {ENTITIES "0\n\n" END, "an entity without a name", 6},
};

static void broken_files_are_refused_with_line_and_reason(sw_test *t)
{
    for (size_t i = 0; i < sizeof files / sizeof *files; i++) {
        t->seed = i + 1;
        sw_dxf_drawing drawing;
        const char *skipped;
        if (!sw_true(t, read_text(t, files[i].text, &drawing, &skipped) == SW_BAD_INPUT)) continue;
        sw_contains(t, t->run.errors[0].text, files[i].message);
        sw_same_text(t, t->run.errors[0].place.file, "part.dxf");
        sw_true(t, t->run.errors[0].place.line == files[i].line);
        sw_true(t, drawing.paths == NULL && drawing.path_count == 0);
    }
}

static void a_binary_file_is_refused(sw_test *t)
{
    sw_dxf_drawing drawing;
    const char *skipped;
    sw_true(t, sw_dxf_read(&t->run, "x", "0\nSEC\0TION\n", 11, 0.01, &drawing, &skipped) == SW_BAD_INPUT);
    sw_contains(t, t->run.errors[0].text, "the file is binary; only the text form of DXF is read");
}

static const char good[] =
    "0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n4\n0\nENDSEC\n" ENTITIES LINE
    "0\nARC\n10\n5\n20\n0\n40\n5\n50\n0\n51\n180\n"
    "0\nPOLYLINE\n66\n1\n70\n1\n0\nVERTEX\n10\n0\n20\n0\n42\n1\n0\nVERTEX\n10\n9\n20\n9\n0\nSEQEND\n"
    "0\nLWPOLYLINE\n90\n2\n70\n1\n10\n0\n20\n0\n42\n-1\n10\n5\n20\n0\n"
    "0\nTEXT\n10\n0\n20\n0\n40\n5\n1\nhello\n" END;

/* In a block of exactly that size, so that a byte read too far is seen by the address sanitizer. */
static void every_beginning_of_a_good_file_is_refused(sw_test *t)
{
    size_t whole = sizeof good - 1;
    for (size_t n = 0; n + 1 < whole; n++) { /* without the last line end it is still whole */
        t->seed = n + 1;
        char *block = malloc(n == 0 ? 1 : n);
        if (!sw_true(t, block != NULL)) return;
        memcpy(block, good, n);
        sw_dxf_drawing drawing;
        const char *skipped;
        sw_run_clear_errors(&t->run);
        sw_status status = sw_dxf_read(&t->run, "part.dxf", block, n, 0.01, &drawing, &skipped);
        free(block);
        if (!sw_true(t, status == SW_BAD_INPUT && t->run.error_count == 1 && t->run.errors[0].text[0] != '\0')) return;
    }
    t->seed = 0;
    sw_dxf_drawing drawing;
    const char *skipped;
    sw_ok(t, read_text(t, good, &drawing, &skipped));
    sw_true(t, drawing.path_count == 4 && drawing.text_count == 1);
}

static void what_is_not_read_is_counted(sw_test *t)
{
    sw_dxf_drawing drawing;
    const char *skipped;
    sw_ok(t, read_text(t,
                       ENTITIES LINE
                       "0\nSPLINE\n8\nCUT\n0\nHATCH\n90\n4294967295\n0\nSPLINE\n0\nLINE\n67\n1\n10\n0\n20\n0\n"
                       "11\n1\n21\n1\n0\nPOLYLINE\n66\n1\n70\n8\n0\nVERTEX\n10\n0\n20\n0\n0\nSEQEND\n" END,
                       &drawing, &skipped));
    sw_same_text(t, skipped, "2 SPLINE, 1 HATCH, 1 in paper space, 1 POLYLINE (in space)");
    sw_true(t, drawing.path_count == 1);
}

static void entities_drawn_from_below_are_turned_over(sw_test *t)
{
    sw_dxf_drawing drawing;
    const char *skipped;
    sw_ok(t, read_text(t, ENTITIES "0\nARC\n10\n-20\n20\n0\n40\n5\n50\n0\n51\n90\n210\n0\n220\n0\n230\n-1\n" END,
                       &drawing, &skipped));
    if (!sw_true(t, drawing.path_count == 1)) return;
    sw_near(t, drawing.paths[0].v[0].x_mm, 15.0, 1e-12, "DXF reference: extrusion 0, 0, -1 turns x over");
    sw_near(t, drawing.paths[0].v[1].x_mm, 20.0, 1e-12, "DXF reference: extrusion 0, 0, -1 turns x over");
    sw_true(t, drawing.paths[0].v[0].bulge < 0.0);
}

static void full_circles_may_come_as_arcs_and_comments_are_passed_over(sw_test *t)
{
    sw_dxf_drawing drawing;
    const char *skipped;
    sw_ok(t, read_text(t,
                       "\xEF\xBB\xBF"
                       "999\nmade by hand\n" ENTITIES "0\nARC\n10\n1\n20\n2\n40\n5\n50\n30\n51\n390\n" END,
                       &drawing, &skipped));
    if (!sw_true(t, drawing.path_count == 1 && drawing.paths[0].closed)) return;
    sw_near(t, sw_contour_area((sw_contour){drawing.paths[0].v, drawing.paths[0].n}), SW_PI * 25.0, 1e-9,
            "derived: pi r^2");
}

static void a_polyline_that_ends_where_it_starts_is_closed(sw_test *t)
{
    sw_dxf_drawing drawing;
    const char *skipped;
    sw_ok(t, read_text(t, ENTITIES "0\nLWPOLYLINE\n10\n0\n20\n0\n10\n9\n20\n0\n10\n9\n20\n9\n10\n0.001\n20\n0\n" END,
                       &drawing, &skipped));
    sw_true(t, drawing.path_count == 1 && drawing.paths[0].closed && drawing.paths[0].n == 3);
}

static void latin_1_layers_become_utf8(sw_test *t)
{
    sw_dxf_drawing drawing;
    const char *skipped;
    sw_ok(t, read_text(t, ENTITIES "0\nCIRCLE\n8\nT\xFCr\n10\n0\n20\n0\n40\n5\n" END, &drawing, &skipped));
    sw_same_text(t, drawing.paths[0].layer, "T\xC3\xBCr");
}

/* ---- regions --------------------------------------------------------------------------- */

#define CIRCLE(x, r) "0\nCIRCLE\n8\nCUT\n10\n" x "\n20\n0\n40\n" r "\n"

static sw_status region_of(sw_test *t, const char *text, const char *layer)
{
    sw_dxf_drawing drawing;
    const char *skipped;
    sw_region region;
    if (!sw_ok(t, read_text(t, text, &drawing, &skipped))) return SW_INTERNAL;
    return sw_dxf_region(&t->run, "part.dxf", &drawing, layer, &region);
}

static void drawings_that_are_no_piece_are_refused(sw_test *t)
{
    sw_true(t, region_of(t, ENTITIES LINE END, "CUT") == SW_BAD_INPUT);
    sw_contains(t, t->run.errors[0].text,
                "layer CUT: a path from (0, 0) to (10, 0) is open, its ends 10 mm apart; close it");
    sw_true(t, region_of(t, ENTITIES LINE END, "SHAPE") == SW_BAD_INPUT);
    sw_contains(t, t->run.errors[0].text, "layer SHAPE: no closed path is drawn");
    sw_true(t, region_of(t, ENTITIES CIRCLE("0", "10") CIRCLE("12", "5") END, NULL) == SW_BAD_INPUT);
    sw_contains(t, t->run.errors[0].text, "layer (any): hole 1 crosses or touches the outline");
    sw_true(t, region_of(t, ENTITIES CIRCLE("0", "10") CIRCLE("40", "5") END, "CUT") == SW_BAD_INPUT);
    sw_contains(t, t->run.errors[0].text, "lies outside the outline");
    sw_true(t, region_of(t, ENTITIES CIRCLE("0", "10") CIRCLE("0", "5") CIRCLE("0", "2") END, "CUT") == SW_BAD_INPUT);
    sw_contains(t, t->run.errors[0].text, "lie in each other");
    sw_true(t, region_of(t, ENTITIES CIRCLE("0", "10") CIRCLE("0", "5") END, "CUT") == SW_OK);
}

/* ---- memory ---------------------------------------------------------------------------- */

static sw_status read_good(sw_run *run)
{
    sw_dxf_drawing drawing;
    const char *skipped;
    sw_region region;
    static const char text[] = ENTITIES CIRCLE("0", "10") CIRCLE("0", "5") "0\nSPLINE\n" END;
    SW_TRY(sw_dxf_read(run, "part.dxf", good, sizeof good - 1, 0.01, &drawing, &skipped));
    SW_TRY(sw_dxf_read(run, "part.dxf", text, sizeof text - 1, 0.01, &drawing, &skipped));
    return sw_dxf_region(run, "part.dxf", &drawing, "CUT", &region);
}

static bool fails_cleanly(sw_test *t, sw_run *run, sw_arena *arena)
{
    for (size_t n = 1; n < 1000; n++) {
        sw_run_clear_errors(run);
        size_t scratch = sw_arena_mark(run->scratch);
        sw_arena_fail_at(arena, n);
        sw_status status = read_good(run);
        sw_arena_fail_at(arena, 0);
        if (!sw_true(t, sw_arena_mark(run->scratch) == scratch)) return false;
        if (status == SW_OK) return sw_true(t, n > 10);
        if (!sw_true(t, status == SW_NO_MEMORY)) return false;
    }
    return false;
}

static void every_allocation_may_fail(sw_test *t)
{
    static sw_run run;
    sw_ok(t, sw_run_open(&run, (size_t)1 << 26));
    sw_true(t, fails_cleanly(t, &run, run.keep));
    sw_true(t, fails_cleanly(t, &run, run.scratch));
    sw_run_close(&run);
}

/* ---- many loose lines ---- */

enum { MANY_LINES = 60000 };

/* The drawing of MANY_LINES lines, the i-th from and to where `ends` says; how many paths it makes. */
static size_t joined(sw_test *t, void (*ends)(size_t i, double at[4]), sw_dxf_drawing *drawing)
{
    sw_writer *writer = NULL;
    const char *text = NULL, *skipped = NULL;
    size_t length = 0;
    sw_ok(t, sw_writer_to_memory(&t->run, &writer));
    sw_print(writer, "%s", ENTITIES);
    for (size_t i = 0; i < MANY_LINES; i++) {
        double at[4];
        ends(i, at);
        sw_print(writer, "0\nLINE\n8\n%s\n10\n%.6f\n20\n%.6f\n11\n%.6f\n21\n%.6f\n", i % 2 == 0 ? "CUT" : "ETCH", at[0],
                 at[1], at[2], at[3]);
    }
    sw_print(writer, "%s", END);
    sw_ok(t, sw_writer_take(&t->run, writer, &text, &length));
    double start_s = sw_seconds();
    sw_ok(t, sw_dxf_read(&t->run, "many.dxf", text, length, 0.01, drawing, &skipped));
    sw_true(t, sw_seconds() - start_s < 15.0);
    return drawing->path_count;
}

static void apart_at_one_x(size_t i, double at[4])
{
    at[0] = at[2] = 5.0;
    at[1] = (double)i;
    at[3] = (double)i + 0.5;
}

/* Line i goes on where line i + 2 of its layer ends. */
static void chain_at_one_x(size_t i, double at[4])
{
    at[0] = at[2] = 5.0;
    at[1] = (double)(i / 2);
    at[3] = (double)(i / 2) + 1.0;
}

static void star(size_t i, double at[4])
{
    double turn_rad = 6.283185307179586 * (double)i / MANY_LINES;
    at[0] = at[1] = 0.0;
    at[2] = 5e4 * cos(turn_rad);
    at[3] = 5e4 * sin(turn_rad);
}

static void many_lines_at_one_place_are_joined_in_time(sw_test *t)
{
    sw_dxf_drawing drawing;
    sw_true(t, joined(t, apart_at_one_x, &drawing) == MANY_LINES);
    if (sw_true(t, joined(t, chain_at_one_x, &drawing) == 2))
        sw_true(t, drawing.paths[0].n == MANY_LINES / 2 + 1 && drawing.paths[1].n == MANY_LINES / 2 + 1);
    sw_true(t, joined(t, star, &drawing) == MANY_LINES / 2);
    sw_true(t, drawing.path_count > 0 && drawing.paths[0].n == 3);
}

static void a_cancelled_run_joins_no_more(sw_test *t)
{
    atomic_int stop = 1;
    sw_dxf_drawing drawing;
    const char *skipped = NULL;
    t->run.cancel = &stop;
    sw_true(t, read_text(t, ENTITIES LINE END, &drawing, &skipped) == SW_CANCELLED);
    t->run.cancel = NULL;
}

/* Ends within join_mm meet wherever the cells part; those just beyond do not. */
static void ends_meet_across_every_border_of_a_cell(sw_test *t)
{
    for (int i = 0; i < 2000; i++) {
        double at = -0.02 + 1e-5 * i, beside = at + (i % 2 == 0 ? 0.0099 : 0.0101);
        const char *text = sw_text_format(
            &t->run, t->run.keep,
            ENTITIES
            "0\nLINE\n10\n%.6f\n20\n-9\n11\n%.6f\n21\n%.6f\n0\nLINE\n10\n%.6f\n20\n%.6f\n11\n%.6f\n21\n9\n" END,
            at, at, at, i % 4 < 2 ? beside : at, i % 4 < 2 ? at : beside, at);
        sw_dxf_drawing drawing;
        const char *skipped = NULL;
        if (!sw_ok(t, read_text(t, text, &drawing, &skipped))) return;
        if (!sw_true(t, drawing.path_count == (i % 2 == 0 ? 1 : 2))) return;
    }
}

SW_TESTS(SW_CASE(broken_files_are_refused_with_line_and_reason), SW_CASE(a_binary_file_is_refused),
         SW_CASE(every_beginning_of_a_good_file_is_refused), SW_CASE(what_is_not_read_is_counted),
         SW_CASE(entities_drawn_from_below_are_turned_over),
         SW_CASE(full_circles_may_come_as_arcs_and_comments_are_passed_over),
         SW_CASE(a_polyline_that_ends_where_it_starts_is_closed), SW_CASE(latin_1_layers_become_utf8),
         SW_CASE(drawings_that_are_no_piece_are_refused), SW_CASE(every_allocation_may_fail),
         SW_CASE(many_lines_at_one_place_are_joined_in_time), SW_CASE(a_cancelled_run_joins_no_more),
         SW_CASE(ends_meet_across_every_border_of_a_cell))
