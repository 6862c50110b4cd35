/* bench_strip.c: strips: instances of the literature beside the best published densities, and puzzles that can be filled.
 * Arguments: folder of instances (JSON) or "-" for none, threads (default 2), then seconds (default 10).
 * Published: GCS, Elkeran, EJOR 231 (2013), best of 10 runs of 20 min. Figures are one machine's. */
#include "../tests/puzzle.h"
#include "app/instance.h"

#include <stdlib.h>

typedef struct published {
    const char *name;
    double percent;
} published;

static const published best_known[] = {{"shapes0", 68.8}, {"shapes1", 76.7}, {"fu", 92.4},
                                       {"dagli", 89.5},   {"shirts", 89.0},  {"swim", 75.9}};
enum { KNOWN = sizeof best_known / sizeof *best_known };

typedef struct bench {
    sw_run run;
    sw_writer *out;
    int threads;
    const char *folder;
} bench;

static double solved(bench *b, const sw_strip_input *in, double budget_s, double *looks_per_s)
{
    sw_strip_options options = sw_strip_options_defaults();
    options.budget_s = budget_s;
    options.threads = b->threads;
    const sw_strip_result *r = NULL;
    if (sw_strip_solve(&b->run, in, &options, &r) != SW_OK) {
        sw_print(b->out, "failed: %s\n", b->run.errors[0].text);
        return 0;
    }
    *looks_per_s = (double)r->looks / r->seconds;
    return 100 * r->density;
}

static double instance(bench *b, const published *p, double budget_s)
{
    sw_instance instance;
    double looks = 0, density = 0;
    const char *path = sw_text_format(&b->run, b->run.keep, "%s/%s.json", b->folder, p->name);
    if (sw_instance_read(&b->run, path, &instance) == SW_OK) density = solved(b, &instance.input, budget_s, &looks);
    sw_print(b->out, "%s,%zu,%.1f,%.0f,%.2f,%.2f\n", p->name, instance.pieces, p->percent, budget_s, density,
             looks * 1e-6);
    return density;
}

typedef struct kind_of_puzzle {
    const char *name;
    puzzle_plan plan; /* length and width are set below */
} kind_of_puzzle;

static const kind_of_puzzle kinds[] = {
    {"lines", {.pieces = 20, .teeth = 6}},
    {"lines", {.pieces = 20}},
    {"lines, 3 holes filled", {.pieces = 20, .holes = 3, .teeth = 6}},
    {"lines", {.pieces = 20}},
    {"lines", {.pieces = 20, .teeth = 6}},
    {"lines, 3 holes filled", {.pieces = 20, .holes = 3}},
    {"lines, half turns", {.pieces = 10, .turns = SW_TURN_HALF}},
    {"lines, quarter turns", {.pieces = 40, .turns = SW_TURN_QUARTER}},
    {"3 holes filled by two pieces each", {.pieces = 20, .holes = 3, .halved = true, .turns = SW_TURN_HALF}},
    {"Voronoi", {.cuts = PUZZLE_VORONOI, .pieces = 20}},
    {"Voronoi, quarter turns", {.cuts = PUZZLE_VORONOI, .pieces = 40, .turns = SW_TURN_QUARTER}},
    {"Voronoi, curved", {.cuts = PUZZLE_VORONOI, .pieces = 30, .teeth = 60, .curved = true, .turns = SW_TURN_HALF}},
    {"Voronoi, cells on a grid", {.cuts = PUZZLE_VORONOI, .pieces = 20, .grid_mm = 2, .turns = SW_TURN_QUARTER}},
    {"rectangles", {.cuts = PUZZLE_RECTANGLES, .pieces = 20}},
    {"rectangles, quarter turns", {.cuts = PUZZLE_RECTANGLES, .pieces = 20, .turns = SW_TURN_QUARTER}},
    {"lines, cells on a grid", {.pieces = 20, .grid_mm = 2, .turns = SW_TURN_HALF}},
    {"lines, pieces on grids", {.pieces = 20, .own_grid_mm = 2, .turns = SW_TURN_QUARTER}},
    {"Voronoi, pieces on grids", {.cuts = PUZZLE_VORONOI, .pieces = 20, .own_grid_mm = 2}},
    {"lines, ragged end", {.pieces = 20, .ragged_mm = 60, .turns = SW_TURN_HALF}},
};
enum { PUZZLES = sizeof kinds / sizeof *kinds };

static double puzzle_of(bench *b, size_t k, double budget_s)
{
    double looks = 0;
    puzzle_plan plan = kinds[k].plan;
    plan.length_mm = 3000, plan.width_mm = 2048;
    if (plan.turns == SW_TURN_FREE) plan.turns = SW_TURN_FIXED; /* not said */
    sw_strip_input in = puzzle_make(&b->run, (uint64_t)k + 1, &plan);
    double density = solved(b, &in, budget_s, &looks);
    sw_print(b->out, "puzzle %zu: %s,%zu,100.0,%.0f,%.2f,%.2f\n", k + 1, kinds[k].name, plan.pieces, budget_s, density,
             looks * 1e-6);
    return density;
}

int main(int argc, char **argv)
{
    bench b = {.folder = argc > 1 ? argv[1] : "-", .threads = argc > 2 ? (int)strtol(argv[2], NULL, 10) : 2};
    if (sw_run_open(&b.run, (size_t)1 << 31) != SW_OK) return 3;
    if (sw_writer_to_stream(&b.run, 1, &b.out) != SW_OK) return 3;
    sw_print(b.out, "name,pieces,published %%,seconds,ours %%,million positions a second\n");
    for (int a = 3; a < argc || a == 3; a++) {
        double budget_s = a < argc ? strtod(argv[a], NULL) : 10, sum = 0;
        for (size_t i = 0; i < KNOWN && b.folder[0] != '-'; i++) sum += instance(&b, &best_known[i], budget_s);
        if (sum > 0) sw_print(b.out, "mean,,82.1,%.0f,%.2f,\n", budget_s, sum / KNOWN);
        sum = 0;
        for (size_t k = 0; k < PUZZLES; k++) sum += puzzle_of(&b, k, budget_s);
        sw_print(b.out, "puzzles' mean,,100.0,%.0f,%.2f,\n", budget_s, sum / PUZZLES);
    }
    sw_status status = sw_writer_close(&b.run, b.out);
    sw_run_close(&b.run);
    return status == SW_OK ? 0 : 3;
}
