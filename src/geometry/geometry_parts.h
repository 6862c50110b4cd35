/* geometry_parts.h: what the files of this folder share; nobody else includes it. */
#ifndef SW_GEOMETRY_PARTS_H
#define SW_GEOMETRY_PARTS_H

#include "geometry/geometry.h"

#include <math.h>

/* Lengths by sqrt, not hypot: coordinates are far from overflow, and these are the inner loops. */

/* ---- plane vectors ------------------------------------------------------------------ */

static inline sw_point point_of(sw_vertex v)
{
    return (sw_point){v.x_mm, v.y_mm};
}
static inline sw_point plus(sw_point a, sw_point b)
{
    return (sw_point){a.x_mm + b.x_mm, a.y_mm + b.y_mm};
}
static inline sw_point minus(sw_point a, sw_point b)
{
    return (sw_point){a.x_mm - b.x_mm, a.y_mm - b.y_mm};
}
static inline sw_point times(sw_point a, double k)
{
    return (sw_point){a.x_mm * k, a.y_mm * k};
}
static inline double dot(sw_point a, sw_point b)
{
    return a.x_mm * b.x_mm + a.y_mm * b.y_mm;
}
static inline double cross(sw_point a, sw_point b)
{
    return a.x_mm * b.y_mm - a.y_mm * b.x_mm;
}
static inline double norm(sw_point a)
{
    return sqrt(dot(a, a));
}
static inline double gap_mm(sw_point a, sw_point b)
{
    return norm(minus(a, b));
}
static inline bool same_point(sw_point a, sw_point b)
{
    return gap_mm(a, b) <= SW_SAME_POINT_MM;
}
static inline sw_point left_of(sw_point d)
{
    return (sw_point){-d.y_mm, d.x_mm};
}
static inline sw_point rotated(sw_point p, double angle_rad)
{
    double c = cos(angle_rad), s = sin(angle_rad);
    return (sw_point){c * p.x_mm - s * p.y_mm, s * p.x_mm + c * p.y_mm};
}

/* ---- segments ----------------------------------------------------------------------- */

/* A segment of a contour or path with its box, centre and radius at hand. */
typedef struct segment {
    sw_vertex from;
    sw_point to;
    sw_point centre;  /* arcs only */
    double radius_mm; /* INFINITY when straight */
    sw_box box;
} segment;

static inline bool bends(double bulge)
{
    return fabs(bulge) >= SW_FLAT_BULGE;
}
static inline bool is_arc(const segment *s)
{
    return isfinite(s->radius_mm);
}
static inline sw_point contour_next(sw_contour c, size_t i)
{
    return point_of(c.v[i + 1 < c.n ? i + 1 : 0]);
}

segment segment_make(sw_vertex from, sw_point to);
static inline segment segment_of(sw_contour c, size_t i)
{
    return segment_make(c.v[i], contour_next(c, i));
}
/* Whether a point of the arc's circle lies on the arc: on its side of the chord (no tolerance). */
bool arc_spans(const segment *s, sw_point p);
double segment_point_distance(const segment *s, sw_point p);
double segments_distance(const segment *a, const segment *b);
/* What a segment adds to the turns of its contour around p, which must not lie on it. */
int segment_turns(sw_vertex from, sw_point to, sw_point p);

enum { CROSSINGS_MAX = 8 };
/* Crossings and touches within SW_SAME_POINT_MM, doubled points merged; overlaps give their ends. */
size_t segments_cross(const segment *a, const segment *b, sw_point out[CROSSINGS_MAX]);

/* ---- boxes -------------------------------------------------------------------------- */

/* Inlined, unlike fmin and fmax; NaN as b is passed over. */
static inline double smaller(double a, double b)
{
    return b < a ? b : a;
}
static inline double larger(double a, double b)
{
    return b > a ? b : a;
}
static inline sw_box box_empty(void)
{
    return (sw_box){INFINITY, INFINITY, -INFINITY, -INFINITY};
}
static inline sw_box box_with(sw_box b, sw_point p)
{
    return (sw_box){smaller(b.x0_mm, p.x_mm), smaller(b.y0_mm, p.y_mm), larger(b.x1_mm, p.x_mm),
                    larger(b.y1_mm, p.y_mm)};
}
static inline sw_box box_union(sw_box a, sw_box b)
{
    return (sw_box){smaller(a.x0_mm, b.x0_mm), smaller(a.y0_mm, b.y0_mm), larger(a.x1_mm, b.x1_mm),
                    larger(a.y1_mm, b.y1_mm)};
}
static inline sw_box box_grown(sw_box b, double by_mm)
{
    return (sw_box){b.x0_mm - by_mm, b.y0_mm - by_mm, b.x1_mm + by_mm, b.y1_mm + by_mm};
}
static inline bool boxes_meet(sw_box a, sw_box b)
{
    return a.x0_mm <= b.x1_mm && b.x0_mm <= a.x1_mm && a.y0_mm <= b.y1_mm && b.y0_mm <= a.y1_mm;
}
/* Least distance between two boxes, 0 when they overlap. */
static inline double box_gap(sw_box a, sw_box b)
{
    double dx = larger(0.0, larger(a.x0_mm - b.x1_mm, b.x0_mm - a.x1_mm));
    double dy = larger(0.0, larger(a.y0_mm - b.y1_mm, b.y0_mm - a.y1_mm));
    return sqrt(dx * dx + dy * dy);
}
static inline double box_point_gap(sw_box b, sw_point p)
{
    double dx = larger(0.0, larger(b.x0_mm - p.x_mm, p.x_mm - b.x1_mm));
    double dy = larger(0.0, larger(b.y0_mm - p.y_mm, p.y_mm - b.y1_mm));
    return sqrt(dx * dx + dy * dy);
}

#endif
