/* puzzle.h: strips that are known to be fillable: a rectangle cut at random into cells (by lines, into rectangles or like
 * Voronoi's), shared edges toothed or curved, cells with a hole that one or two other pieces fill, corners rounded to a
 * grid, pieces given turned. Nearly fillable where each piece is rounded by itself or the far end is ragged. Everything in
 * run->keep; shape_count 0 when memory is out. */
#ifndef SW_TESTS_PUZZLE_H
#define SW_TESTS_PUZZLE_H

#include "making/nest/nest.h"

#include <math.h>
#include <string.h>

enum { PUZZLE_CELLS = 128, PUZZLE_CORNERS = 96 };

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

/* The part of a convex cell before a line through m, and the part behind it; the normal (nx, ny) points forward. */
static inline void puzzle_halves(const puzzle_cell *c, sw_point m, double nx, double ny, puzzle_cell *near,
                                 puzzle_cell *far)
{
    double side[PUZZLE_CORNERS];
    near->n = far->n = 0;
    for (size_t i = 0; i < c->n; i++) side[i] = (c->p[i].x_mm - m.x_mm) * nx + (c->p[i].y_mm - m.y_mm) * ny;
    for (size_t i = 0; i < c->n; i++) {
        size_t j = (i + 1) % c->n;
        if (side[i] >= 0) near->p[near->n++] = c->p[i];
        if (side[i] < 0) far->p[far->n++] = c->p[i];
        if ((side[i] >= 0) == (side[j] >= 0)) continue;
        double t = side[i] / (side[i] - side[j]);
        sw_point p = {c->p[i].x_mm + t * (c->p[j].x_mm - c->p[i].x_mm),
                      c->p[i].y_mm + t * (c->p[j].y_mm - c->p[i].y_mm)};
        near->p[near->n++] = p;
        far->p[far->n++] = p;
    }
}

/* Cuts a convex cell near its middle, by a line of random direction or across its longer side; the far part becomes a
 * new cell. */
static inline void puzzle_cut(puzzle *z, puzzle_cell *c, bool across)
{
    double turn = across ? 0 : sw_random_between(&z->random, 0, SW_PI), nx = cos(turn), ny = sin(turn);
    sw_point m = puzzle_middle(c);
    puzzle_cell near, far;
    if (across) {
        double w_mm = c->p[2].x_mm - c->p[0].x_mm, h_mm = c->p[2].y_mm - c->p[0].y_mm;
        bool wide = fabs(w_mm) > fabs(h_mm);
        nx = wide ? 1 : 0, ny = wide ? 0 : 1;
        m.x_mm += w_mm * sw_random_between(&z->random, -0.3, 0.3);
        m.y_mm += h_mm * sw_random_between(&z->random, -0.3, 0.3);
    }
    puzzle_halves(c, m, nx, ny, &near, &far);
    *c = near;
    z->cells[z->count++] = far;
}

/* The points nearer to one seed than to all others, for every seed (Voronoi). */
static inline void puzzle_cells(puzzle *z, puzzle_cell whole, size_t count)
{
    sw_point seeds[PUZZLE_CELLS];
    for (size_t i = 0; i < count; i++)
        seeds[i] = (sw_point){sw_random_between(&z->random, 0, whole.p[2].x_mm),
                              sw_random_between(&z->random, 0, whole.p[2].y_mm)};
    z->count = count;
    for (size_t i = 0; i < count; i++) {
        puzzle_cell cell = whole, near, far;
        for (size_t j = 0; j < count; j++) {
            sw_point a = seeds[i], b = seeds[j];
            if (i == j) continue;
            puzzle_halves(&cell, (sw_point){(a.x_mm + b.x_mm) / 2, (a.y_mm + b.y_mm) / 2}, a.x_mm - b.x_mm,
                          a.y_mm - b.y_mm, &near, &far);
            cell = near;
        }
        z->cells[i] = cell;
    }
}

static inline size_t puzzle_largest(const puzzle *z)
{
    size_t best = 0;
    for (size_t i = 1; i < z->count; i++)
        if (puzzle_area(&z->cells[i]) > puzzle_area(&z->cells[best])) best = i;
    return best;
}

/* Where two cells share a whole edge, a tooth or a bow of the one goes into the other. */
enum { PUZZLE_BOW = 7 };
static inline void puzzle_tooth(puzzle_cell *a, size_t i, puzzle_cell *b, size_t j, bool bow)
{
    sw_point p = a->p[i], q = a->p[(i + 1) % a->n], on[PUZZLE_BOW];
    double dx = q.x_mm - p.x_mm, dy = q.y_mm - p.y_mm;
    const double along[3] = {0.4, 0.5, 0.6}, aside[3] = {0, 0.12, 0};
    size_t n = bow ? PUZZLE_BOW : 3;
    for (size_t k = 0; k < n; k++) {
        double t = bow ? (double)(k + 1) / (PUZZLE_BOW + 1) : along[k], s = bow ? 0.1 * sin(2 * SW_PI * t) : aside[k];
        on[k] = (sw_point){p.x_mm + t * dx + s * dy, p.y_mm + t * dy - s * dx};
    }
    memmove(a->p + i + n + 1, a->p + i + 1, (a->n - i - 1) * sizeof *a->p);
    memmove(b->p + j + n + 1, b->p + j + 1, (b->n - j - 1) * sizeof *b->p);
    for (size_t k = 0; k < n; k++) a->p[i + 1 + k] = on[k], b->p[j + 1 + k] = on[n - 1 - k];
    a->n += n;
    b->n += n;
}

static inline double puzzle_side(sw_point a, sw_point b, sw_point q)
{
    return (b.x_mm - a.x_mm) * (q.y_mm - a.y_mm) - (b.y_mm - a.y_mm) * (q.x_mm - a.x_mm);
}

static inline bool puzzle_is_simple(const puzzle_cell *c)
{
    for (size_t i = 0; i < c->n; i++)
        for (size_t j = i + 2; j < c->n; j++) {
            if (i == 0 && j == c->n - 1) continue;
            sw_point a = c->p[i], b = c->p[i + 1], p = c->p[j], q = c->p[(j + 1) % c->n];
            if (puzzle_side(a, b, p) * puzzle_side(a, b, q) <= 0 && puzzle_side(p, q, a) * puzzle_side(p, q, b) <= 0)
                return false;
        }
    return true;
}

static inline bool puzzle_share(puzzle_cell *a, puzzle_cell *b, bool bow)
{
    const puzzle_cell was_a = *a, was_b = *b;
    for (size_t i = 0; i < a->n; i++)
        for (size_t j = 0; j < b->n; j++) {
            sw_point p = a->p[i], q = a->p[(i + 1) % a->n], r = b->p[j], s = b->p[(j + 1) % b->n];
            double off = fabs(p.x_mm - s.x_mm) + fabs(p.y_mm - s.y_mm) + fabs(q.x_mm - r.x_mm) + fabs(q.y_mm - r.y_mm);
            if (off > 1e-9 || hypot(q.x_mm - p.x_mm, q.y_mm - p.y_mm) < 60) continue;
            if (a->n + PUZZLE_BOW > PUZZLE_CORNERS || b->n + PUZZLE_BOW > PUZZLE_CORNERS) return false;
            puzzle_tooth(a, i, b, j, bow);
            if (puzzle_is_simple(a) && puzzle_is_simple(b)) return true;
            *a = was_a, *b = was_b;
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

typedef enum puzzle_cuts { PUZZLE_LINES, PUZZLE_RECTANGLES, PUZZLE_VORONOI } puzzle_cuts;

typedef struct puzzle_plan {
    puzzle_cuts cuts;
    size_t pieces, holes, teeth; /* fillings are counted; cells with a hole; edges toothed or curved */
    bool curved;                 /* bows of chords in place of teeth */
    bool halved;                 /* each hole is filled by two pieces; else by one */
    double grid_mm;              /* corners of the cells are rounded to this; 0 = not */
    double own_grid_mm;          /* corners of each piece by itself */
    double ragged_mm;            /* the cells at the far end reach this much less far, at random */
    sw_turns turns;              /* pieces are given turned at random when they may turn */
    double length_mm, width_mm;
} puzzle_plan;

static inline double puzzle_rounded(double v, double grid_mm)
{
    return grid_mm > 0 ? grid_mm * nearbyint(v / grid_mm) : v;
}

static inline void puzzle_round(puzzle_cell *c, double grid_mm)
{
    size_t n = 0;
    for (size_t i = 0; i < c->n; i++) {
        sw_point p = {puzzle_rounded(c->p[i].x_mm, grid_mm), puzzle_rounded(c->p[i].y_mm, grid_mm)};
        if (n > 0 && p.x_mm == c->p[n - 1].x_mm && p.y_mm == c->p[n - 1].y_mm) continue;
        c->p[n++] = p;
    }
    while (n > 1 && c->p[n - 1].x_mm == c->p[0].x_mm && c->p[n - 1].y_mm == c->p[0].y_mm) n--;
    c->n = n;
}

static inline void puzzle_cells_make(puzzle *z, const puzzle_plan *plan)
{
    const puzzle_cell whole = {{{0, 0}, {plan->length_mm, 0}, {plan->length_mm, plan->width_mm}, {0, plan->width_mm}},
                               4};
    size_t cells = plan->pieces - plan->holes * (plan->halved ? 2 : 1);
    z->cells[0] = whole;
    z->count = 1;
    if (plan->cuts == PUZZLE_VORONOI) puzzle_cells(z, whole, cells);
    while (z->count < cells) puzzle_cut(z, &z->cells[puzzle_largest(z)], plan->cuts == PUZZLE_RECTANGLES);
    for (size_t i = 0; i < z->count; i++) {
        puzzle_cell *c = &z->cells[i];
        if (plan->ragged_mm > 0) {
            double x_mm = plan->length_mm - plan->ragged_mm * sw_random_between(&z->random, 0.1, 1);
            puzzle_cell near, far;
            puzzle_halves(c, (sw_point){x_mm, 0}, -1, 0, &near, &far);
            *c = near;
        }
        if (plan->grid_mm > 0) puzzle_round(c, plan->grid_mm);
    }
}

/* A hole in each of the first cells (convex still) and what fills it. */
static inline bool puzzle_bore(sw_run *run, puzzle *z, const puzzle_plan *plan, sw_nest_shape *shapes)
{
    size_t at = z->count;
    sw_contour *inner = SW_KEEP(run, plan->holes + 1, sw_contour);
    for (size_t i = 0; inner != NULL && i < plan->holes; i++) {
        puzzle_cell *c = &z->cells[i], half[2];
        sw_point m = puzzle_middle(c);
        shapes[i].region.holes = &inner[i];
        shapes[i].region.hole_count = 1;
        inner[i] = puzzle_contour(run, c, m, 0.45, true);
        half[0] = *c;
        if (plan->halved) puzzle_halves(c, m, cos((double)i), sin((double)i), &half[0], &half[1]);
        for (size_t k = 0; k < (plan->halved ? 2U : 1U); k++)
            shapes[at++].region.outline = puzzle_contour(run, &half[k], m, 0.45, false);
    }
    return inner != NULL;
}

/* As it is given: turned, moved and rounded by itself. */
static inline void puzzle_give(const puzzle_plan *plan, sw_contour c, size_t quarters, sw_point by)
{
    sw_vertex *v = (sw_vertex *)c.v; /* made by puzzle_contour */
    for (size_t i = 0; i < c.n; i++) {
        double x = v[i].x_mm, y = v[i].y_mm;
        for (size_t q = 0; q < quarters; q++) {
            double turned = -y;
            y = x, x = turned;
        }
        v[i].x_mm = puzzle_rounded(x + by.x_mm, plan->own_grid_mm);
        v[i].y_mm = puzzle_rounded(y + by.y_mm, plan->own_grid_mm);
    }
}

static inline void puzzle_turn(puzzle *z, const puzzle_plan *plan, sw_nest_shape *shape)
{
    size_t quarters = 0;
    if (plan->turns == SW_TURN_HALF) quarters = 2 * sw_random_below(&z->random, 2);
    if (plan->turns == SW_TURN_QUARTER) quarters = sw_random_below(&z->random, 4);
    sw_point by = {0, 0};
    if (plan->own_grid_mm > 0)
        by = (sw_point){sw_random_between(&z->random, -9, 9), sw_random_between(&z->random, -9, 9)};
    puzzle_give(plan, shape->region.outline, quarters, by);
    for (size_t i = 0; i < shape->region.hole_count; i++) puzzle_give(plan, shape->region.holes[i], quarters, by);
}

/* No contour was refused its memory. */
static inline bool puzzle_is_whole(const sw_nest_shape *shapes, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        if (shapes[i].region.outline.n == 0) return false;
        for (size_t k = 0; k < shapes[i].region.hole_count; k++)
            if (shapes[i].region.holes[k].n == 0) return false;
    }
    return true;
}

static inline sw_strip_input puzzle_make(sw_run *run, uint64_t seed, const puzzle_plan *plan)
{
    sw_strip_input in = {.name = "puzzle", .width_mm = plan->width_mm};
    puzzle *z = SW_KEEP(run, 1, puzzle);
    sw_nest_shape *shapes = SW_KEEP(run, plan->pieces, sw_nest_shape);
    if (z == NULL || shapes == NULL) return in;
    *z = (puzzle){.random = sw_random_seeded(seed)};
    puzzle_cells_make(z, plan);
    if (!puzzle_bore(run, z, plan, shapes)) return in;
    for (size_t i = 0, made = 0; i < z->count; i++)
        for (size_t j = i + 1; j < z->count && made < plan->teeth; j++)
            made += puzzle_share(&z->cells[i], &z->cells[j], plan->curved);
    for (size_t i = 0; i < z->count; i++)
        shapes[i].region.outline = puzzle_contour(run, &z->cells[i], (sw_point){0, 0}, 1, false);
    for (size_t i = 0; i < plan->pieces; i++) {
        shapes[i].name = "piece of a puzzle";
        shapes[i].tag = (int)i;
        shapes[i].count = 1;
        shapes[i].turns = plan->turns;
        puzzle_turn(z, plan, &shapes[i]);
    }
    in.shapes = shapes;
    in.shape_count = puzzle_is_whole(shapes, plan->pieces) ? plan->pieces : 0;
    return in;
}

/* `pieces` pieces, `holes` of them the filling of another one's hole, `teeth` toothed edges; length x width is full. */
static inline sw_strip_input gen_puzzle(sw_run *run, uint64_t seed, size_t pieces, size_t holes, size_t teeth,
                                        double length_mm, double width_mm)
{
    const puzzle_plan plan = {.pieces = pieces,
                              .holes = holes,
                              .teeth = teeth,
                              .turns = SW_TURN_FIXED,
                              .length_mm = length_mm,
                              .width_mm = width_mm};
    return puzzle_make(run, seed, &plan);
}

#endif
