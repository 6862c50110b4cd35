/* puzzle.h: strips that are known to be fillable: a rectangle cut at random into convex cells, some edges toothed, some
 * cells with a hole that another piece fills. Everything in run->keep; shape_count 0 when memory is out. */
#ifndef SW_TESTS_PUZZLE_H
#define SW_TESTS_PUZZLE_H

#include "making/nest/nest.h"

#include <math.h>
#include <string.h>

enum { PUZZLE_CELLS = 128, PUZZLE_CORNERS = 32 };

typedef struct puzzle_cell {
    sw_point p[PUZZLE_CORNERS]; /* counter-clockwise */
    size_t n;
} puzzle_cell;

typedef struct puzzle {
    puzzle_cell cells[PUZZLE_CELLS];
    size_t count;
    sw_random random;
} puzzle;

static inline double puzzle_area(const puzzle_cell *c)
{
    double twice = 0;
    for (size_t i = 0; i < c->n; i++) {
        sw_point a = c->p[i], b = c->p[(i + 1) % c->n];
        twice += a.x_mm * b.y_mm - a.y_mm * b.x_mm;
    }
    return twice / 2;
}

static inline sw_point puzzle_middle(const puzzle_cell *c)
{
    sw_point m = {0, 0};
    for (size_t i = 0; i < c->n; i++) m.x_mm += c->p[i].x_mm / (double)c->n, m.y_mm += c->p[i].y_mm / (double)c->n;
    return m;
}

/* Cuts a convex cell by a line of random direction near its middle; the far part becomes a new cell. */
static inline void puzzle_cut(puzzle *z, puzzle_cell *c)
{
    double turn = sw_random_between(&z->random, 0, SW_PI), nx = cos(turn), ny = sin(turn);
    sw_point m = puzzle_middle(c);
    double side[PUZZLE_CORNERS];
    puzzle_cell near = {.n = 0}, far = {.n = 0};
    for (size_t i = 0; i < c->n; i++) side[i] = (c->p[i].x_mm - m.x_mm) * nx + (c->p[i].y_mm - m.y_mm) * ny;
    for (size_t i = 0; i < c->n; i++) {
        size_t j = (i + 1) % c->n;
        if (side[i] >= 0) near.p[near.n++] = c->p[i];
        if (side[i] < 0) far.p[far.n++] = c->p[i];
        if ((side[i] >= 0) == (side[j] >= 0)) continue;
        double t = side[i] / (side[i] - side[j]);
        sw_point p = {c->p[i].x_mm + t * (c->p[j].x_mm - c->p[i].x_mm),
                      c->p[i].y_mm + t * (c->p[j].y_mm - c->p[i].y_mm)};
        near.p[near.n++] = p;
        far.p[far.n++] = p;
    }
    *c = near;
    z->cells[z->count++] = far;
}

static inline size_t puzzle_largest(const puzzle *z)
{
    size_t best = 0;
    for (size_t i = 1; i < z->count; i++)
        if (puzzle_area(&z->cells[i]) > puzzle_area(&z->cells[best])) best = i;
    return best;
}

/* Where two cells share a whole edge, a tooth of the one goes into the other. */
static inline void puzzle_tooth(puzzle_cell *a, size_t i, puzzle_cell *b, size_t j)
{
    sw_point p = a->p[i], q = a->p[(i + 1) % a->n];
    double dx = q.x_mm - p.x_mm, dy = q.y_mm - p.y_mm;
    const sw_point tooth[3] = {{p.x_mm + 0.4 * dx, p.y_mm + 0.4 * dy},
                               {p.x_mm + 0.5 * dx + 0.12 * dy, p.y_mm + 0.5 * dy - 0.12 * dx},
                               {p.x_mm + 0.6 * dx, p.y_mm + 0.6 * dy}};
    memmove(a->p + i + 4, a->p + i + 1, (a->n - i - 1) * sizeof *a->p);
    memmove(b->p + j + 4, b->p + j + 1, (b->n - j - 1) * sizeof *b->p);
    for (size_t k = 0; k < 3; k++) a->p[i + 1 + k] = tooth[k], b->p[j + 1 + k] = tooth[2 - k];
    a->n += 3;
    b->n += 3;
}

static inline bool puzzle_share(puzzle_cell *a, puzzle_cell *b)
{
    for (size_t i = 0; i < a->n; i++)
        for (size_t j = 0; j < b->n; j++) {
            sw_point p = a->p[i], q = a->p[(i + 1) % a->n], r = b->p[j], s = b->p[(j + 1) % b->n];
            double off = fabs(p.x_mm - s.x_mm) + fabs(p.y_mm - s.y_mm) + fabs(q.x_mm - r.x_mm) + fabs(q.y_mm - r.y_mm);
            if (off > 1e-9 || hypot(q.x_mm - p.x_mm, q.y_mm - p.y_mm) < 60) continue;
            if (a->n + 3 > PUZZLE_CORNERS || b->n + 3 > PUZZLE_CORNERS) return false;
            puzzle_tooth(a, i, b, j);
            return true;
        }
    return false;
}

static inline sw_contour puzzle_contour(sw_run *run, const puzzle_cell *c, sw_point about, double scale, bool reversed)
{
    sw_vertex *v = SW_KEEP(run, c->n, sw_vertex);
    for (size_t i = 0; v != NULL && i < c->n; i++) {
        sw_point p = c->p[reversed ? c->n - 1 - i : i];
        v[i] = (sw_vertex){about.x_mm + scale * (p.x_mm - about.x_mm), about.y_mm + scale * (p.y_mm - about.y_mm), 0};
    }
    return (sw_contour){v, v == NULL ? 0 : c->n};
}

/* `pieces` pieces, `holes` of them the filling of another one's hole, `teeth` toothed edges; length x width is full. */
static inline sw_strip_input gen_puzzle(sw_run *run, uint64_t seed, size_t pieces, size_t holes, size_t teeth,
                                        double length_mm, double width_mm)
{
    sw_strip_input in = {.name = "puzzle", .width_mm = width_mm};
    puzzle *z = SW_KEEP(run, 1, puzzle);
    sw_nest_shape *shapes = SW_KEEP(run, pieces, sw_nest_shape);
    sw_contour *inner = SW_KEEP(run, holes + 1, sw_contour);
    if (z == NULL || shapes == NULL || inner == NULL) return in;
    *z = (puzzle){.random = sw_random_seeded(seed), .count = 1};
    z->cells[0] = (puzzle_cell){{{0, 0}, {length_mm, 0}, {length_mm, width_mm}, {0, width_mm}}, 4};
    while (z->count < pieces - holes) puzzle_cut(z, &z->cells[puzzle_largest(z)]);
    for (size_t i = 0; i < z->count && in.shape_count < holes; i++) { /* holes before teeth: cells are convex still */
        puzzle_cell *c = &z->cells[i];
        sw_point m = puzzle_middle(c);
        size_t at = pieces - holes + in.shape_count;
        shapes[i].region.holes = &inner[in.shape_count];
        shapes[i].region.hole_count = 1;
        inner[in.shape_count++] = puzzle_contour(run, c, m, 0.45, true);
        shapes[at].region.outline = puzzle_contour(run, c, m, 0.45, false);
    }
    for (size_t i = 0, made = 0; i < z->count; i++)
        for (size_t j = i + 1; j < z->count && made < teeth; j++) made += puzzle_share(&z->cells[i], &z->cells[j]);
    for (size_t i = 0; i < z->count; i++)
        shapes[i].region.outline = puzzle_contour(run, &z->cells[i], (sw_point){0, 0}, 1, false);
    for (size_t i = 0; i < pieces; i++) {
        shapes[i].name = "piece of a puzzle";
        shapes[i].tag = (int)i;
        shapes[i].count = 1;
        shapes[i].turns = SW_TURN_FIXED;
    }
    in.shapes = shapes;
    in.shape_count = pieces;
    return in;
}

#endif
