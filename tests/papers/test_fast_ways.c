/* The fast ways against the plain ones: words of a motion program, lines on a PNG page, flats of a solid. */
#include "papers/motion_parts.h"
#include "papers/papers_parts.h"
#include "papers/pen_png_parts.h"
#include "sw_test.h"

#include <cairo.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* For the address sanitizer, which otherwise ends the program where memory is refused. */
const char *__asan_default_options(void);
const char *__asan_default_options(void)
{
    return "allocator_may_return_null=1";
}

/* ---- motion_plain against motion_clean with motion_words ---- */

static bool same_codes(const int *a, const int *b, int n)
{
    return memcmp(a, b, (size_t)n * sizeof *a) == 0;
}

static bool same_block(const motion_block *a, const motion_block *b)
{
    bool same = a->given == b->given && a->g_count == b->g_count && a->m_count == b->m_count &&
                same_codes(a->g, b->g, a->g_count) && same_codes(a->m, b->m, a->m_count);
    for (int i = 0; same && i < 26; i++)
        if ((a->given >> i & 1u) != 0) same = memcmp(&a->value[i], &b->value[i], sizeof(double)) == 0;
    return same;
}

/* In a block of exactly that size, so that a byte read too far is seen. True also where the fast way passes. */
static bool ways_agree(sw_test *t, const char *line, size_t length, bool *plain)
{
    char *block = malloc(length + (length == 0));
    motion_block fast, strict;
    motion_line clean;
    const char *why = "";
    size_t signs = 0;
    *plain = false;
    if (!sw_true(t, block != NULL)) return false;
    memcpy(block, line, length);
    *plain = motion_plain(block, length, &fast, &signs);
    bool fine = motion_clean(block, length, &clean, &why) && motion_words(&t->run, (sw_place){0}, &clean, &strict);
    free(block);
    sw_run_clear_errors(&t->run);
    return !*plain || (fine && signs == clean.length && same_block(&fast, &strict));
}

/* A word with a number of any form, plain ones most often. */
static size_t random_word(sw_random *r, char *out, size_t room)
{
    static const char letters[] = "GXYIJFMPGXY";
    char letter = letters[sw_random_below(r, sizeof letters - 1)];
    if (letter == 'G' || letter == 'M') return (size_t)snprintf(out, room, "%c%d ", letter, (int)sw_random_below(r, 5));
    int decimals = (int)sw_random_below(r, 7);
    return (size_t)snprintf(out, room, "%c%.*f ", letter, decimals, sw_random_between(r, -3000, 3000));
}

static size_t random_line(sw_random *r, char *out, size_t room)
{
    size_t n = 0;
    for (size_t words = 1 + sw_random_below(r, 6); words > 0; words--) n += random_word(r, out + n, room - n);
    return n;
}

static void spoil(sw_random *r, char *line, size_t length, size_t changes)
{
    static const char hostile[] = "NGXYZ0123456789..--++ \t\r;()%eE\x01\x80\xff"
                                  "a";
    for (; changes > 0; changes--) line[sw_random_below(r, length)] = hostile[sw_random_below(r, sizeof hostile)];
}

static void plain_motion_lines_read_as_the_strict_way_reads_them(sw_test *t)
{
    char line[512];
    size_t plain = 0;
    for (uint64_t seed = 1; seed <= 20000; seed++) {
        t->seed = seed;
        sw_random r = sw_random_seeded(seed);
        bool fast = false;
        size_t length = random_line(&r, line, sizeof line);
        spoil(&r, line, length, sw_random_below(&r, 4));
        if (!sw_true(t, ways_agree(t, line, length, &fast))) return;
        plain += fast;
    }
    t->seed = 0;
    sw_true(t, plain > 4000 && plain < 19000); /* both ways were tried */
}

static void hostile_motion_lines_read_the_same_or_are_left_to_the_strict_way(sw_test *t)
{
    static const char *const lines[] = {"",
                                        " ",
                                        "X",
                                        "X-",
                                        "X.",
                                        "X-.",
                                        "X.5",
                                        "X5.",
                                        "X-0",
                                        "X--1",
                                        "X+1",
                                        "X1 .5",
                                        "X 1",
                                        "X1X2",
                                        "N10 X1",
                                        "X1N10",
                                        "G1.5",
                                        "G-1",
                                        "G0G1G2G3G4G0G1G2G3",
                                        "X999999999999999",
                                        "X9999999999999999",
                                        "X1000000",
                                        "X1000000.1",
                                        "X0.000000000000001",
                                        "X0.0000000000000001",
                                        "X123456.789012345",
                                        "x1",
                                        "X1(a)",
                                        "X1;a",
                                        "X1\t",
                                        "X1\r",
                                        "X1e5",
                                        "G01X1",
                                        "G2147483648",
                                        "M99999",
                                        "Z",
                                        "[1",
                                        "@1",
                                        "X00000000000000000000001",
                                        "X1..2",
                                        "X1.2.3"};
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++) {
        bool fast = false;
        t->seed = i + 1;
        sw_true(t, ways_agree(t, lines[i], strlen(lines[i]), &fast));
    }
    t->seed = 0;
}

static void a_plain_line_is_at_most_as_long_as_a_strict_one(sw_test *t)
{
    char line[300];
    for (size_t signs = 250; signs < 262; signs++) {
        size_t n = 0;
        for (int k = 0; n < signs; k++) line[n++] = "A1B1C1D1E1F1H1I1J1K1L1P1"[k % 24];
        bool fast = false;
        sw_true(t, ways_agree(t, line, signs, &fast));
    }
}

/* ---- the cover's lines against cairo's ---- */

enum { SIDE = 64 };

static void draw_by_cairo(uint32_t *pixels, png_dot a, png_dot b, double width)
{
    cairo_surface_t *surface =
        cairo_image_surface_create_for_data((unsigned char *)pixels, CAIRO_FORMAT_RGB24, SIDE, SIDE, 4 * SIDE);
    cairo_t *c = cairo_create(surface);
    cairo_set_antialias(c, CAIRO_ANTIALIAS_BEST);
    cairo_set_line_cap(c, CAIRO_LINE_CAP_ROUND);
    cairo_set_line_width(c, width);
    cairo_set_source_rgb(c, 0.0, 0.0, 0.0);
    cairo_move_to(c, a.x, a.y);
    cairo_line_to(c, b.x, b.y);
    cairo_stroke(c);
    cairo_destroy(c);
    cairo_surface_flush(surface);
    cairo_surface_destroy(surface);
}

static png_dot random_dot(sw_random *r)
{
    return (png_dot){sw_random_between(r, -10, SIDE + 10), sw_random_between(r, -10, SIDE + 10)};
}

typedef struct apart {
    double sum, worst, ink; /* of the differences, in shares of a pixel; and how much cairo covers */
} apart;

static void compare(const uint32_t *mine, const uint32_t *other, apart *d)
{
    for (int i = 0; i < SIDE * SIDE; i++) {
        double difference = fabs((double)(mine[i] & 255u) - (double)(other[i] & 255u)) / 255.0;
        d->sum += difference;
        d->worst = fmax(d->worst, difference);
        d->ink += 1.0 - (double)(other[i] & 255u) / 255.0;
    }
}

static void lines_cover_as_much_as_cairo_says(sw_test *t)
{
    static uint32_t mine[SIDE * SIDE], other[SIDE * SIDE];
    const sw_ink black = {0};
    apart d = {0};
    png_cover cover;
    if (!sw_true(t, png_cover_open(&cover, SIDE, SIDE))) return;
    for (uint64_t seed = 1; seed <= 400; seed++) {
        sw_random r = sw_random_seeded(seed);
        png_dot a = random_dot(&r), b = seed % 20 == 0 ? a : random_dot(&r);
        double width = sw_random_between(&r, 1.0, 4.0);
        for (int i = 0; i < SIDE * SIDE; i++) mine[i] = other[i] = 0x00ffffffu;
        png_cover_line(&cover, a, b, width);
        png_cover_ink(&cover, &black, mine);
        draw_by_cairo(other, a, b, width);
        compare(mine, other, &d);
    }
    png_cover_close(&cover);
    sw_true(t, d.ink > 10000.0);
    sw_near(t, d.sum / d.ink, 0.0, 0.05, "ours: share by distance from the line against cairo's exact areas");
    sw_near(t, d.worst, 0.0, 0.3, "ours: share by distance from the line against cairo's exact areas");
}

static void a_cover_is_empty_after_its_ink(sw_test *t)
{
    static uint32_t pixels[SIDE * SIDE];
    const sw_ink black = {0};
    png_cover cover;
    if (!sw_true(t, png_cover_open(&cover, SIDE, SIDE))) return;
    for (uint64_t seed = 1; seed <= 50; seed++) {
        sw_random r = sw_random_seeded(seed);
        png_dot a = random_dot(&r), b = random_dot(&r);
        bool empty = true;
        t->seed = seed;
        png_cover_line(&cover, a, b, sw_random_between(&r, 0.1, 9.0));
        png_cover_ink(&cover, &black, pixels);
        for (int i = 0; i < SIDE * SIDE; i++) empty = empty && cover.shares[i] == 0;
        sw_true(t, empty);
    }
    png_cover_close(&cover);
}

static void a_refused_cover_is_told_and_may_be_closed(sw_test *t)
{
    png_cover cover;
    sw_true(t, !png_cover_open(&cover, INT32_MAX, INT32_MAX)); /* 4 EiB: more than any machine gives */
    sw_true(t, cover.shares == NULL);
    png_cover_close(&cover);
    sw_true(t, cover.shares == NULL && cover.rows == 0);
}

static void a_page_too_large_for_its_pixels_is_refused_without_a_file(sw_test *t)
{
    sw_pen *pen = NULL;
    sw_run_clear_errors(&t->run);
    sw_true(t, sw_pen_open(&t->run, "fast_ways_page.png", 9000.0, 100.0, &pen) == SW_OUT_OF_RANGE && pen == NULL);
    sw_true(t, t->run.error_count == 1);
    sw_contains(t, t->run.errors[0].text, "9000 x 100 mm");
    FILE *left = fopen("fast_ways_page.png", "rb");
    sw_true(t, left == NULL);
    if (left != NULL) (void)fclose(left);
}

/* ---- flats of a shape against its triangles ---- */

enum { CELLS = 8 };

typedef struct roof { /* CELLS x CELLS squares of 5 mm, folded along a column; every triangle has corners of its own */
    sw_vec3 points[6 * CELLS * CELLS];
    sw_triangle triangles[2 * CELLS * CELLS];
    double holes; /* squares left out */
    size_t triangle_count;
} roof;

static sw_vec3 roof_point(int column, int row, int fold)
{
    double down = column > fold ? column - fold : 0.0;
    return (sw_vec3){5.0 * (column - 0.4 * down), 5.0 * row, -5.0 * 0.8 * down}; /* 3-4-5: squares stay squares */
}

static void add_triangle(roof *f, sw_vec3 a, sw_vec3 b, sw_vec3 c)
{
    size_t at = 3 * f->triangle_count;
    f->points[at] = a;
    f->points[at + 1] = b;
    f->points[at + 2] = c;
    f->triangles[f->triangle_count++] = (sw_triangle){(uint32_t)at, (uint32_t)at + 1, (uint32_t)at + 2};
}

static void add_square(roof *f, sw_random *r, int column, int row, int fold)
{
    sw_vec3 a = roof_point(column, row, fold), b = roof_point(column + 1, row, fold),
            c = roof_point(column + 1, row + 1, fold), d = roof_point(column, row + 1, fold);
    bool rising = sw_random_below(r, 2) == 0; /* the diagonal */
    add_triangle(f, a, b, rising ? c : d);
    add_triangle(f, rising ? a : b, c, d);
}

static void random_roof(roof *f, sw_random *r, int fold)
{
    f->triangle_count = 0;
    f->holes = 0.0;
    for (int row = 0; row < CELLS; row++)
        for (int column = 0; column < CELLS; column++) {
            bool inner = row % 2 == 1 && column % 2 == 1; /* holes that touch nowhere, so that each side stays one */
            if (inner && sw_random_below(r, 2) == 0)
                f->holes += 1.0;
            else
                add_square(f, r, column, row, fold);
        }
}

/* Area the borders go around, along the flat's normal: half the sum of the cross products. */
static double area_of_flat(const solid_shape *s, const solid_flat *flat)
{
    sw_vec3 sum = {0};
    for (uint32_t i = flat->first; i < flat->end; i++)
        sum = sw_vec3_add(sum, sw_vec3_cross(s->mesh.points[s->borders[i].a], s->mesh.points[s->borders[i].b]));
    return 0.5 * sw_vec3_dot(sum, flat->normal);
}

static void flats_cover_what_their_triangles_cover(sw_test *t)
{
    static roof f;
    for (uint64_t seed = 1; seed <= 100; seed++) {
        sw_random r = sw_random_seeded(seed);
        const solid_shape *shape = NULL;
        double area_mm2 = 0.0;
        t->seed = seed;
        random_roof(&f, &r, 2 + (int)sw_random_below(&r, CELLS - 4));
        const sw_mesh mesh = {.points = f.points,
                              .point_count = 3 * f.triangle_count,
                              .triangles = f.triangles,
                              .triangle_count = f.triangle_count};
        size_t mark = sw_arena_mark(t->run.scratch);
        if (!sw_ok(t, solid_shape_make(&t->run, mesh, &shape))) return;
        sw_true(t, shape->flat_count == 2);
        for (size_t i = 0; i < shape->flat_count; i++) area_mm2 += area_of_flat(shape, &shape->flats[i]);
        sw_near(t, area_mm2, 25.0 * (CELLS * CELLS - f.holes), 1e-6, "derived: squares of 5 mm without the holes");
        for (size_t i = 0; i < shape->edge_count; i++) /* the diagonals are gone: open sides and the fold */
            sw_true(t, shape->edges[i].second == 0 || shape->edges[i].first != shape->edges[i].second);
        sw_arena_rewind(t->run.scratch, mark);
    }
}

SW_TESTS(SW_CASE(plain_motion_lines_read_as_the_strict_way_reads_them),
         SW_CASE(hostile_motion_lines_read_the_same_or_are_left_to_the_strict_way),
         SW_CASE(a_plain_line_is_at_most_as_long_as_a_strict_one), SW_CASE(lines_cover_as_much_as_cairo_says),
         SW_CASE(a_cover_is_empty_after_its_ink), SW_CASE(a_refused_cover_is_told_and_may_be_closed),
         SW_CASE(a_page_too_large_for_its_pixels_is_refused_without_a_file),
         SW_CASE(flats_cover_what_their_triangles_cover))
