/* gen.h: random contours for property tests, from a seed. All are simple (no crossing, no touching),
 * counter-clockwise, in run->keep; NULL vertices (n = 0) when memory is out. */
#ifndef SW_TESTS_GEN_H
#define SW_TESTS_GEN_H

#include "geometry/geometry.h"

#include <math.h>

/* n vertices (3 or more) seen from the centre at rising angles; radii between 0.4 and 1 of size_mm. Edges straight. */
static inline sw_contour gen_star(sw_run *run, uint64_t seed, size_t n, sw_point centre, double size_mm)
{
    sw_random random = sw_random_seeded(seed);
    sw_vertex *v = SW_KEEP(run, n, sw_vertex);
    if (v == NULL) return (sw_contour){0};
    for (size_t i = 0; i < n; i++) {
        double angle_rad = 2.0 * SW_PI * ((double)i + sw_random_between(&random, 0.1, 0.9)) / (double)n;
        double radius_mm = size_mm * sw_random_between(&random, 0.4, 1.0);
        v[i] = (sw_vertex){centre.x_mm + radius_mm * cos(angle_rad), centre.y_mm + radius_mm * sin(angle_rad), 0.0};
    }
    return (sw_contour){v, n};
}

/* A star whose edges bow out or in by arcs where that keeps it simple: the bulge of an edge is small enough
 * for the arc to stay in the sector of its edge (checked: sw_contour_fault), else the edge stays straight. */
static inline sw_contour gen_bowed_star(sw_run *run, uint64_t seed, size_t n, sw_point centre, double size_mm)
{
    sw_random random = sw_random_seeded(seed ^ 0x9e3779b97f4a7c15u);
    sw_contour c = gen_star(run, seed, n, centre, size_mm);
    sw_vertex *v = SW_KEEP(run, c.n, sw_vertex);
    if (v == NULL) return (sw_contour){0};
    for (size_t i = 0; i < c.n; i++) v[i] = c.v[i];
    sw_contour bowed = {v, c.n};
    for (size_t i = 0; i < c.n; i++) {
        const char *fault = NULL;
        v[i].bulge = sw_random_below(&random, 3) == 0 ? 0.0 : sw_random_between(&random, -0.4, 0.6);
        if (sw_contour_fault(run, bowed, &fault) != SW_OK) return (sw_contour){0};
        if (fault != NULL) v[i].bulge = 0.0;
    }
    return bowed;
}

/* A skyline of `columns` (1 or more) columns on a straight base: lengths 10 to 40 mm, heights 20 to 100 mm,
 * each height apart from its neighbour's, corners rounded by arcs of up to 4 mm. */
static inline sw_contour gen_skyline(sw_run *run, uint64_t seed, size_t columns)
{
    sw_random random = sw_random_seeded(seed);
    sw_vertex *v = SW_KEEP(run, 2 * columns + 2, sw_vertex);
    double *radii_mm = SW_KEEP(run, 2 * columns + 2, double);
    if (v == NULL || radii_mm == NULL) return (sw_contour){0};
    double x_mm = 0.0, height_mm = sw_random_between(&random, 20.0, 100.0);
    size_t n = 2 * columns + 2;
    for (size_t i = 0; i < columns; i++) {
        double next_mm = x_mm + sw_random_between(&random, 10.0, 40.0);
        v[n - 1 - 2 * i] = (sw_vertex){x_mm, height_mm, 0.0};
        v[n - 2 - 2 * i] = (sw_vertex){next_mm, height_mm, 0.0};
        x_mm = next_mm;
        height_mm = height_mm < 60.0 ? height_mm + sw_random_between(&random, 10.0, 40.0)
                                     : height_mm - sw_random_between(&random, 10.0, 40.0);
    }
    v[0] = (sw_vertex){0.0, 0.0, 0.0};
    v[1] = (sw_vertex){x_mm, 0.0, 0.0};
    for (size_t i = 0; i < n; i++)
        radii_mm[i] = sw_random_below(&random, 4) == 0 ? 0.0 : sw_random_between(&random, 0.5, 4.0);
    sw_contour c = {v, n}, rounded;
    if (sw_contour_rounded(run, c, radii_mm, &rounded) != SW_OK) return (sw_contour){0};
    return rounded;
}

/* Convex: vertices on an ellipse at rising angles. Edges straight. */
static inline sw_contour gen_convex(sw_run *run, uint64_t seed, size_t n, double size_mm)
{
    sw_random random = sw_random_seeded(seed);
    sw_vertex *v = SW_KEEP(run, n, sw_vertex);
    if (v == NULL) return (sw_contour){0};
    double squash = sw_random_between(&random, 0.5, 1.0), turn_rad = sw_random_between(&random, 0.0, 2.0 * SW_PI);
    for (size_t i = 0; i < n; i++) {
        double angle_rad = 2.0 * SW_PI * ((double)i + sw_random_between(&random, 0.1, 0.9)) / (double)n;
        sw_point p = {size_mm * cos(angle_rad), squash * size_mm * sin(angle_rad)};
        p = sw_motion_point((sw_motion){.turn_rad = turn_rad}, p);
        v[i] = (sw_vertex){p.x_mm, p.y_mm, 0.0};
    }
    return (sw_contour){v, n};
}

/* Any of the above, by seed. */
static inline sw_contour gen_contour(sw_run *run, uint64_t seed)
{
    size_t n = 3 + (size_t)(seed % 14);
    if (seed % 3 == 0) return gen_star(run, seed, n, (sw_point){0.0, 0.0}, 100.0);
    if (seed % 3 == 1) return gen_bowed_star(run, seed, n, (sw_point){0.0, 0.0}, 100.0);
    return gen_skyline(run, seed, 1 + (size_t)(seed % 7));
}

#endif
