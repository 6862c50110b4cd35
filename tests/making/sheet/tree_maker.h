/* tree_maker.h: pieces for tests: plain ones by hand and random face trees from a seed. Memory in run->keep. */
#ifndef SW_TESTS_TREE_MAKER_H
#define SW_TESTS_TREE_MAKER_H

#include "making/sheet/sheet.h"

#include <math.h>
#include <string.h>

enum { MAKER_FACES = 12 };

typedef struct maker {
    sw_run *run;
    sw_random random;
    double k; /* factor given to every bend; NAN = by rule */
    sw_piece piece;
    sw_face faces[MAKER_FACES];
    sw_bend bends[MAKER_FACES];
    sw_edge edges[4 * MAKER_FACES];
} maker;

static const sw_grade maker_grade = {.name = "S235",
                                     .standard = "EN 10025-2",
                                     .kind = SW_STEEL,
                                     .density = 7850.0,
                                     .re_min_mpa = 235.0,
                                     .rm_min_mpa = 360.0,
                                     .rm_max_mpa = 510.0,
                                     .young_mpa = 210000.0,
                                     .poisson = 0.3,
                                     .source = "test"};
static const sw_frame maker_place = {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}, {0, 0, 0}};

static inline maker *maker_new(sw_run *run, uint64_t seed, double thickness_mm)
{
    maker *m = sw_keep(run, 1, sizeof *m);
    if (m == NULL) return NULL;
    m->run = run;
    m->random = sw_random_seeded(seed);
    m->k = NAN;
    m->piece = (sw_piece){.number = "T-01",
                          .name = "test piece",
                          .group = "g",
                          .role = "other",
                          .grade = &maker_grade,
                          .thickness_mm = thickness_mm,
                          .faces = m->faces,
                          .bends = m->bends,
                          .edges = m->edges,
                          .placements = &maker_place,
                          .count = 1,
                          .mirror_of = -1};
    return m;
}

static inline sw_contour maker_contour(maker *m, const sw_vertex *v, size_t n)
{
    sw_vertex *copy = SW_KEEP(m->run, n, sw_vertex);
    if (copy == NULL) return (sw_contour){NULL, 0};
    memcpy(copy, v, n * sizeof *v);
    return (sw_contour){copy, n};
}

static inline int maker_face(maker *m, const char *name, const sw_vertex *v, size_t n)
{
    int f = (int)m->piece.face_count++;
    m->faces[f] = (sw_face){.name = name, .region = {.outline = maker_contour(m, v, n)}};
    return f;
}

/* One more hole, clockwise. */
static inline void maker_window(maker *m, int face, const sw_vertex *v, size_t n)
{
    sw_region *r = &m->faces[face].region;
    sw_contour *holes = SW_KEEP(m->run, r->hole_count + 1, sw_contour);
    if (holes == NULL) return;
    if (r->hole_count > 0) memcpy(holes, r->holes, r->hole_count * sizeof *holes);
    holes[r->hole_count++] = maker_contour(m, v, n);
    r->holes = holes;
}

static inline int maker_rectangle(maker *m, const char *name, double w_mm, double h_mm)
{
    sw_vertex v[4] = {{0, 0, 0}, {w_mm, 0, 0}, {w_mm, h_mm, 0}, {0, h_mm, 0}};
    return maker_face(m, name, v, 4);
}

static inline int maker_line(maker *m, const char *name, double w_mm)
{
    sw_vertex v[2] = {{0, 0, 0}, {w_mm, 0, 0}};
    return maker_face(m, name, v, 2);
}

/* A bend on the stretch from_mm .. to_mm of a segment of the parent, before its child face exists. */
static inline sw_bend *maker_bend(maker *m, int parent, size_t segment, double from_mm, double to_mm)
{
    sw_contour c = m->faces[parent].region.outline;
    sw_vertex v = c.v[segment], next = c.v[(segment + 1) % c.n];
    double length_mm = hypot(next.x_mm - v.x_mm, next.y_mm - v.y_mm);
    double ux = (next.x_mm - v.x_mm) / length_mm, uy = (next.y_mm - v.y_mm) / length_mm;
    sw_bend *b = &m->bends[m->piece.bend_count++];
    *b = (sw_bend){.name = "bend",
                   .parent = parent,
                   .child = (int)m->piece.face_count,
                   .radius_mm = 3.0,
                   .angle_rad = SW_PI / 2.0,
                   .k = m->k};
    b->from = (sw_point){v.x_mm + ux * from_mm, v.y_mm + uy * from_mm};
    b->to = (sw_point){v.x_mm + ux * to_mm, v.y_mm + uy * to_mm};
    return b;
}

static inline void maker_add_edge(maker *m, int face, size_t first, size_t count)
{
    m->edges[m->piece.edge_count++] = (sw_edge){.name = "edge", .face = face, .first = first, .count = count};
}

static inline void maker_hole(maker *m, int face, double x_mm, double y_mm, double d_mm)
{
    const sw_vertex v[2] = {{x_mm - d_mm / 2.0, y_mm, -1.0}, {x_mm + d_mm / 2.0, y_mm, -1.0}};
    maker_window(m, face, v, 2);
}

/* L, flanges outside a and b, width w. */
static inline maker *maker_bracket(sw_run *run, double a_mm, double b_mm, double w_mm, double s_mm, double r_mm)
{
    maker *m = maker_new(run, 1, s_mm);
    if (m == NULL) return NULL;
    maker_rectangle(m, "main", w_mm, a_mm - r_mm - s_mm);
    sw_bend *b = maker_bend(m, 0, 0, 0.0, w_mm);
    b->radius_mm = r_mm;
    maker_rectangle(m, "flange", w_mm, b_mm - r_mm - s_mm);
    return m;
}

/* ---- random trees -------------------------------------------------------------------------- */

static inline double maker_between(maker *m, double low, double high)
{
    return sw_random_between(&m->random, low, high);
}

static inline void maker_random_bend(maker *m, sw_bend *b)
{
    bool rolled = sw_random_below(&m->random, 4) == 0;
    double s = m->piece.thickness_mm;
    b->kind = rolled ? SW_ROLLED : SW_PRESSED;
    b->radius_mm = rolled ? maker_between(m, 12.0, 120.0) : maker_between(m, 0.5 * s, 3.0 * s);
    b->angle_rad = maker_between(m, 0.1, rolled ? 5.0 : 2.6) * (sw_random_below(&m->random, 2) == 0 ? 1.0 : -1.0);
    double w = hypot(b->to.x_mm - b->from.x_mm, b->to.y_mm - b->from.y_mm);
    double half = fmin(0.4 * w, 0.3 * fabs(b->angle_rad) * b->radius_mm);
    if (!rolled || half < 1.0 || sw_random_below(&m->random, 2) == 0) return;
    sw_zone_hole *hole = SW_KEEP(m->run, 1, sw_zone_hole);
    if (hole == NULL) return;
    sw_vertex v[2] = {{-half, 0.0, -1.0}, {half, 0.0, -1.0}};
    sw_vertex window[4] = {{-half, -half, 0}, {-half, half, -0.2}, {half, half, 0}, {half, -half, 0}};
    bool round = sw_random_below(&m->random, 2) == 0;
    if (!round)
        for (int i = 0; i < 4; i++) window[i].y_mm *= 0.5;
    *hole = (sw_zone_hole){w / 2.0, fabs(b->angle_rad) / 2.0, maker_contour(m, round ? v : window, round ? 2 : 4)};
    b->holes = hole;
    b->hole_count = 1;
}

static inline void maker_random_child(maker *m, double w_mm)
{
    size_t shape = sw_random_below(&m->random, 4);
    double h = maker_between(m, 10.0, 90.0), in = w_mm * maker_between(m, 0.0, 0.3);
    sw_vertex quad[4] = {{0, 0, 0}, {w_mm, 0, 0}, {w_mm - in, h, 0}, {in / 2.0, h, 0}};
    sw_vertex tongue[4] = {{0, 0, 0}, {w_mm, 0, 0}, {w_mm, h, maker_between(m, 0.05, 0.9)}, {0, h, 0}};
    sw_vertex wide[6] = {{0, 0, 0}, {w_mm, 0, 0}, {w_mm + 3, 4, 0}, {w_mm + 3, h, 0}, {-4, h, 0}, {-4, 3, 0}};
    if (shape == 0) maker_line(m, "line", w_mm);
    if (shape == 1) maker_face(m, "quad", quad, 4);
    if (shape == 2) maker_face(m, "tongue", tongue, 4);
    if (shape == 3) maker_face(m, "wide", wide, 6);
    int face = (int)m->piece.face_count - 1;
    if (shape == 2 && fmin(w_mm, h) > 6.0) maker_hole(m, face, w_mm / 2.0, h / 2.0, 0.4 * fmin(w_mm, h));
}

/* Hangs bends on random free straight edges until there are enough. */
static inline void maker_grow(maker *m, size_t faces)
{
    size_t used[MAKER_FACES] = {0}; /* segments of a face that carry one, as bits */
    for (int tries = 0; tries < 60 && m->piece.face_count < faces; tries++) {
        int f = (int)sw_random_below(&m->random, m->piece.face_count);
        sw_contour c = m->faces[f].region.outline;
        size_t i = sw_random_below(&m->random, c.n), next = (i + 1) % c.n;
        double length_mm = hypot(c.v[next].x_mm - c.v[i].x_mm, c.v[next].y_mm - c.v[i].y_mm);
        bool taken = (f > 0 && i == 0) || (used[f] >> i & 1U) != 0 || c.v[i].bulge != 0.0 || length_mm < 8.0;
        if (taken) continue;
        used[f] |= (size_t)1 << i;
        bool whole = sw_random_below(&m->random, 2) == 0;
        double from = whole ? 0.0 : length_mm * maker_between(m, 0.05, 0.3);
        double to = whole ? length_mm : length_mm * maker_between(m, 0.6, 0.95);
        sw_bend *b = maker_bend(m, f, i, from, to);
        maker_random_bend(m, b);
        maker_random_child(m, hypot(b->to.x_mm - b->from.x_mm, b->to.y_mm - b->from.y_mm));
    }
    for (int f = 0; f < (int)m->piece.face_count; f++) /* free edges: every whole segment without a bend */
        for (size_t i = f == 0 ? 0 : 1; i < m->faces[f].region.outline.n && i < 4; i++)
            if ((used[f] >> i & 1U) == 0) maker_add_edge(m, f, i, 1);
}

static inline maker *maker_random(sw_run *run, uint64_t seed, double k)
{
    maker *m = maker_new(run, seed, 3.0);
    if (m == NULL) return NULL;
    m->k = k;
    m->piece.thickness_mm = maker_between(m, 1.0, 6.0);
    double w = maker_between(m, 60.0, 400.0), h = maker_between(m, 60.0, 300.0), slant = maker_between(m, -20.0, 20.0);
    sw_vertex root[5] = {
        {0, 0, 0}, {w, slant, 0}, {w, h, 0}, {w / 2.0, h + 25.0, maker_between(m, -0.2, 0.2)}, {0, h, 0}};
    maker_face(m, "main", root, 5);
    maker_hole(m, 0, w / 2.0, h / 2.0, 0.3 * fmin(w, h));
    maker_grow(m, 2 + sw_random_below(&m->random, MAKER_FACES - 2));
    return m;
}

#endif
