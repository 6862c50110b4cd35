/* bench_nest.c: first-answer time and density on an invented batch of stoves: 46 kinds x 20, three thicknesses.
 * Then 5,000 pieces of 50 kinds on full sheets. Arguments: seconds of improvement (default 0), seed (default 1), threads
 * (default 1). Output is CSV. Not part of the tests. */
#include "making/nest/nest.h"

#include <stdlib.h>

enum { KINDS = 46, BATCH = 20, GROUPS = 3, MANY_KINDS = 50, MANY_EACH = 100 };

typedef struct bench {
    sw_run run;
    sw_writer *out;
    sw_random random;
} bench;

static double side_mm(bench *b, double low_mm, double high_mm)
{
    return (double)(int)sw_random_between(&b->random, low_mm, high_mm);
}

/* A wall: rectangle with notched corners where flanges meet, perhaps with a door or baffle cut-out. */
static sw_region wall(bench *b, double w, double h, bool opening)
{
    double n = side_mm(b, 12, 32);
    const sw_vertex v[] = {{n, 0, 0},     {w - n, 0, 0}, {w - n, n, 0}, {w, n, 0},     {w, h - n, 0}, {w - n, h - n, 0},
                           {w - n, h, 0}, {n, h, 0},     {n, h - n, 0}, {0, h - n, 0}, {0, n, 0},     {n, n, 0}};
    sw_vertex *copy = SW_KEEP(&b->run, 12, sw_vertex);
    sw_contour *holes = SW_KEEP(&b->run, 2, sw_contour);
    sw_region r = {.outline = {copy, 12}, .holes = holes, .hole_count = opening ? 1 : 0};
    for (int i = 0; i < 12; i++) copy[i] = v[i];
    sw_contour hole;
    sw_box box = {0.2 * w, 0.2 * h, 0.8 * w, 0.8 * h};
    if (sw_contour_rectangle(&b->run, box, 8, &hole) != SW_OK) abort();
    if (sw_contour_reversed(&b->run, hole, &holes[0]) != SW_OK) abort();
    return r;
}

static sw_region plate(bench *b, double w, double h, double radius_mm)
{
    sw_region r = {.hole_count = 0};
    if (sw_contour_rectangle(&b->run, (sw_box){0, 0, w, h}, radius_mm, &r.outline) != SW_OK) abort();
    return r;
}

static sw_region flange(bench *b, double radius_mm)
{
    sw_contour *hole = SW_KEEP(&b->run, 1, sw_contour), ring;
    sw_region r = {.holes = hole, .hole_count = 1};
    if (sw_contour_circle(&b->run, (sw_point){0, 0}, radius_mm, &r.outline) != SW_OK) abort();
    if (sw_contour_circle(&b->run, (sw_point){0, 0}, radius_mm - 35, &ring) != SW_OK) abort();
    if (sw_contour_reversed(&b->run, ring, hole) != SW_OK) abort();
    return r;
}

static sw_region gusset(bench *b, double w, double h)
{
    const sw_vertex v[] = {{0, 0, 0}, {w, 0, 0}, {w, 25, 0}, {25, h, 0}, {0, h, 0}};
    sw_vertex *copy = SW_KEEP(&b->run, 5, sw_vertex);
    for (int i = 0; i < 5; i++) copy[i] = v[i];
    return (sw_region){.outline = {copy, 5}};
}

static sw_region angle(bench *b, double w, double h)
{
    double t = side_mm(b, 25, 60);
    const sw_vertex v[] = {{0, 0, 0}, {w, 0, 0}, {w, t, 0}, {t, t, 0}, {t, h, 0}, {0, h, 0}};
    sw_vertex *copy = SW_KEEP(&b->run, 6, sw_vertex);
    for (int i = 0; i < 6; i++) copy[i] = v[i];
    return (sw_region){.outline = {copy, 6}};
}

static sw_nest_shape shape_of(bench *b, size_t i)
{
    sw_nest_shape s = {
        .name = "piece", .tag = (int)i, .count = BATCH, .turns = i % 3 == 0 ? SW_TURN_QUARTER : SW_TURN_FREE};
    double w = side_mm(b, 300, 700), h = side_mm(b, 250, 650);
    switch (i % 8) {
    case 0:
        s.region = wall(b, w, h, true);
        break;
    case 1:
        s.region = wall(b, w, h, false);
        break;
    case 2:
        s.region = plate(b, w * 0.8, side_mm(b, 30, 120), 4);
        break;
    case 3:
        s.region = plate(b, side_mm(b, 60, 200), side_mm(b, 40, 160), 6);
        break;
    case 4:
        s.region = flange(b, side_mm(b, 75, 130));
        break;
    case 5:
        s.region = gusset(b, side_mm(b, 60, 220), side_mm(b, 60, 220));
        break;
    case 6:
        s.region = angle(b, side_mm(b, 120, 400), side_mm(b, 100, 300));
        break;
    default:
        s.region = plate(b, side_mm(b, 25, 60), side_mm(b, 25, 60), 2);
        break;
    }
    return s;
}

/* Over the lengths used only: what the last, part-filled sheet leaves is not counted as waste. */
static double used_density(const sw_nest_result *r)
{
    double area = 0;
    for (size_t i = 0; i < r->sheet_count; i++)
        area += (double)r->sheets[i].repeat * r->sheets[i].used_length_mm * r->sheets[i].stock->width_mm;
    return area > 0 ? r->piece_area_mm2 / area : 0;
}

static void report(bench *b, const char *name, const sw_nest_result *r)
{
    sw_print(b->out, "%s,%zu,%zu,%.2f,%.2f,%.2f,%.2f,%.3f,%llu\n", name, r->sheet_count, r->sheets_total, r->cost,
             100 * r->density, 100 * used_density(r), 100 * r->bound_density, r->seconds, (unsigned long long)r->tests);
}

static double solve(bench *b, const char *name, const sw_nest_shape *shapes, size_t count, const sw_nest_options *opt)
{
    sw_stock sheet = {.name = "3000 x 1500", .length_mm = 3000, .width_mm = 1500, .price = 100};
    sheet.shape = plate(b, 3000, 1500, 0);
    sw_stock small = {.name = "2500 x 1250", .length_mm = 2500, .width_mm = 1250, .price = 70};
    small.shape = plate(b, 2500, 1250, 0);
    const sw_stock *stock[] = {&sheet, &small};
    sw_nest_input in = {.name = name,
                        .shapes = shapes,
                        .shape_count = count,
                        .stock = stock,
                        .stock_count = 2,
                        .web_mm = 5,
                        .margin_mm = 10,
                        .density_kg_mm2 = 31.4e-6,
                        .scrap_price = 0.22};
    const sw_nest_result *r = NULL;
    if (sw_nest_solve(&b->run, &in, opt, &r) != SW_OK) {
        sw_print(b->out, "%s,failed: %s\n", name, b->run.errors[0].text);
        return 0;
    }
    report(b, name, r);
    return r->seconds;
}

static double run_group(bench *b, int group, const sw_nest_options *opt)
{
    static const char *names[GROUPS] = {"3 mm", "4 mm", "6 mm"};
    sw_nest_shape shapes[KINDS];
    size_t count = 0;
    for (size_t i = 0; i < KINDS; i++)
        if ((int)(i / 8 % GROUPS) == group) shapes[count++] = shape_of(b, i);
    return solve(b, names[group], shapes, count, opt);
}

static double run_many(bench *b, const sw_nest_options *opt)
{
    sw_nest_shape shapes[MANY_KINDS];
    for (size_t i = 0; i < MANY_KINDS; i++) {
        shapes[i] = shape_of(b, i);
        shapes[i].count = MANY_EACH;
    }
    return solve(b, "5000 pieces", shapes, MANY_KINDS, opt);
}

int main(int argc, char **argv)
{
    bench b = {.random = sw_random_seeded(7)};
    sw_nest_options opt = sw_nest_options_defaults();
    double total_s = 0;
    opt.budget_s = argc > 1 ? strtod(argv[1], NULL) : 0;
    opt.seed = argc > 2 ? strtoull(argv[2], NULL, 10) : 1;
    if (sw_run_open(&b.run, (size_t)1 << 30) != SW_OK) return 3;
    b.run.threads = argc > 3 ? (int)strtol(argv[3], NULL, 10) : 1;
    if (sw_writer_to_stream(&b.run, 1, &b.out) != SW_OK) return 3;
    sw_print(b.out, "group,layouts,sheets,cost,density %%,of used length %%,bound %%,seconds,lines\n");
    for (int g = 0; g < GROUPS; g++) total_s += run_group(&b, g, &opt);
    total_s += run_many(&b, &opt);
    sw_print(b.out, "total seconds,%.3f\n", total_s);
    sw_status status = sw_writer_close(&b.run, b.out);
    sw_run_close(&b.run);
    return status == SW_OK ? 0 : 3;
}
