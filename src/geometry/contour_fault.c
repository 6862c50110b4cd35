/* contour_fault.c: what makes a contour or region unusable, in words.
 *
 * Segments are swept in the order of their left ends, so only pairs whose boxes overlap in x are looked at. */
#include "geometry/geometry_parts.h"

#include <stdlib.h>

typedef struct edge {
    segment s;
    size_t index;
} edge;

static sw_status say(const char **fault, const char *text)
{
    *fault = text;
    return text == NULL ? SW_NO_MEMORY : SW_OK;
}

static bool vertex_finite(sw_vertex v)
{
    return isfinite(v.x_mm) && isfinite(v.y_mm) && isfinite(v.bulge);
}

static bool all_straight(sw_contour c)
{
    for (size_t i = 0; i < c.n; i++)
        if (bends(c.v[i].bulge)) return false;
    return true;
}

static sw_status count_fault(sw_run *run, sw_contour c, const char **fault)
{
    if (c.n < 2)
        return say(fault, sw_text_format(run, run->keep,
                                         "%zu vertices enclose nothing; at least 2 with an arc or 3 are needed", c.n));
    return SW_OK;
}

static sw_status vertex_faults(sw_run *run, sw_contour c, const char **fault)
{
    for (size_t i = 0; i < c.n; i++)
        if (!vertex_finite(c.v[i]))
            return say(fault, sw_text_format(run, run->keep, "vertex %zu is not finite: (%g, %g), bulge %g", i,
                                             c.v[i].x_mm, c.v[i].y_mm, c.v[i].bulge));
    if (c.n == 2 && all_straight(c))
        return say(fault, sw_text_format(run, run->keep, "2 straight edges enclose nothing; at least 3 are needed"));
    return SW_OK;
}

static sw_status length_faults(sw_run *run, sw_contour c, const char **fault)
{
    for (size_t i = 0; i < c.n; i++) {
        double length_mm = sw_segment_length(c.v[i], contour_next(c, i));
        if (length_mm < SW_SHORTEST_MM || gap_mm(point_of(c.v[i]), contour_next(c, i)) <= SW_SAME_POINT_MM)
            return say(fault, sw_text_format(run, run->keep,
                                             "edge %zu at (%.6g, %.6g) is %.3g mm long; at least %g mm is needed", i,
                                             c.v[i].x_mm, c.v[i].y_mm, length_mm, SW_SHORTEST_MM));
    }
    return SW_OK;
}

static int by_left_end(const void *a, const void *b)
{
    const edge *e = a, *f = b;
    if (e->s.box.x0_mm != f->s.box.x0_mm) return e->s.box.x0_mm < f->s.box.x0_mm ? -1 : 1;
    return e->index < f->index ? -1 : e->index > f->index ? 1 : 0;
}

/* Whether p is the vertex that two neighbours in a contour of n edges share. */
static bool is_joint(const edge *a, const edge *b, size_t n, sw_point p)
{
    if ((a->index + 1) % n == b->index && same_point(p, a->s.to)) return true;
    return (b->index + 1) % n == a->index && same_point(p, b->s.to);
}

static sw_status pair_fault(sw_run *run, const edge *a, const edge *b, size_t n, const char **fault)
{
    sw_point at[CROSSINGS_MAX];
    size_t count = segments_cross(&a->s, &b->s, at);
    for (size_t k = 0; k < count; k++) {
        if (is_joint(a, b, n, at[k])) continue;
        size_t low = a->index < b->index ? a->index : b->index, high = a->index < b->index ? b->index : a->index;
        return say(fault, sw_text_format(run, run->keep, "edges %zu and %zu cross or touch at (%.6g, %.6g)", low, high,
                                         at[k].x_mm, at[k].y_mm));
    }
    return SW_OK;
}

static sw_status crossing_faults(sw_run *run, sw_contour c, const char **fault)
{
    edge *edges = SW_SCRATCH(run, c.n, edge);
    if (edges == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < c.n; i++) edges[i] = (edge){segment_of(c, i), i};
    qsort(edges, c.n, sizeof *edges, by_left_end);
    for (size_t i = 0; i < c.n; i++) {
        double right_mm = edges[i].s.box.x1_mm + SW_SAME_POINT_MM;
        for (size_t k = i + 1; k < c.n && edges[k].s.box.x0_mm <= right_mm; k++) {
            SW_TRY(pair_fault(run, &edges[i], &edges[k], c.n, fault));
            if (*fault != NULL) return SW_OK;
        }
    }
    return SW_OK;
}

/* Area below what the shortest edge could bound in the contour's box: no sheet is left. */
static sw_status area_fault(sw_run *run, sw_contour c, const char **fault)
{
    double area_mm2 = sw_contour_area(c);
    if (fabs(area_mm2) > SW_SAME_POINT_MM * sw_contour_length(c)) return SW_OK;
    return say(fault, sw_text_format(run, run->keep, "the contour encloses no area (%.3g mm2)", area_mm2));
}

static sw_status contour_fault(sw_run *run, sw_contour c, const char **fault)
{
    sw_status (*const checks[])(sw_run *, sw_contour, const char **) = {count_fault, vertex_faults, length_faults,
                                                                        crossing_faults, area_fault};
    for (size_t i = 0; i < sizeof checks / sizeof *checks && *fault == NULL; i++) SW_TRY(checks[i](run, c, fault));
    return SW_OK;
}

sw_status sw_contour_fault(sw_run *run, sw_contour c, const char **fault)
{
    size_t mark = sw_arena_mark(run->scratch);
    *fault = NULL;
    sw_status status = contour_fault(run, c, fault);
    sw_arena_rewind(run->scratch, mark);
    return status;
}

/* ---- regions ------------------------------------------------------------------------ */

static sw_status hole_own_fault(sw_run *run, sw_contour hole, size_t h, const char **fault)
{
    const char *inner = NULL;
    SW_TRY(sw_contour_fault(run, hole, &inner));
    if (inner != NULL) return say(fault, sw_text_format(run, run->keep, "hole %zu: %s", h, inner));
    if (sw_contour_area(hole) > 0.0)
        return say(fault, sw_text_format(run, run->keep, "hole %zu runs counter-clockwise; holes run clockwise", h));
    return SW_OK;
}

static sw_status hole_place_fault(sw_run *run, sw_contour outline, sw_contour hole, size_t h, const char **fault)
{
    if (sw_contours_distance(outline, hole) <= SW_SAME_POINT_MM)
        return say(fault, sw_text_format(run, run->keep, "hole %zu crosses or touches the outline", h));
    if (sw_contour_side(outline, point_of(hole.v[0])) < 0)
        return say(fault, sw_text_format(run, run->keep, "hole %zu at (%.6g, %.6g) lies outside the outline", h,
                                         hole.v[0].x_mm, hole.v[0].y_mm));
    return SW_OK;
}

static sw_status hole_pair_fault(sw_run *run, const sw_region *r, size_t g, size_t h, const char **fault)
{
    sw_contour a = r->holes[g], b = r->holes[h];
    if (box_gap(sw_contour_box(a), sw_contour_box(b)) > SW_SAME_POINT_MM) return SW_OK;
    if (sw_contours_distance(a, b) <= SW_SAME_POINT_MM)
        return say(fault, sw_text_format(run, run->keep, "holes %zu and %zu cross or touch", g, h));
    if (sw_contour_side(a, point_of(b.v[0])) > 0 || sw_contour_side(b, point_of(a.v[0])) > 0)
        return say(fault, sw_text_format(run, run->keep, "holes %zu and %zu lie in each other", g, h));
    return SW_OK;
}

static sw_status hole_faults(sw_run *run, const sw_region *r, size_t h, const char **fault)
{
    SW_TRY(hole_own_fault(run, r->holes[h], h, fault));
    if (*fault != NULL) return SW_OK;
    SW_TRY(hole_place_fault(run, r->outline, r->holes[h], h, fault));
    for (size_t g = 0; g < h && *fault == NULL; g++) SW_TRY(hole_pair_fault(run, r, g, h, fault));
    return SW_OK;
}

sw_status sw_region_fault(sw_run *run, const sw_region *r, const char **fault)
{
    const char *inner = NULL;
    *fault = NULL;
    SW_TRY(sw_contour_fault(run, r->outline, &inner));
    if (inner != NULL) return say(fault, sw_text_format(run, run->keep, "outline: %s", inner));
    if (sw_contour_area(r->outline) < 0.0)
        return say(fault, sw_text_format(run, run->keep, "the outline runs clockwise; outlines run counter-clockwise"));
    for (size_t h = 0; h < r->hole_count && *fault == NULL; h++) SW_TRY(hole_faults(run, r, h, fault));
    return SW_OK;
}
