/* build_corners.c: where two neighbouring sides meet after each was cut back by its own depth. */
#include "design/build_parts.h"

#include <math.h>

static sw_point shifted(sw_point p, sw_point direction, double by_mm)
{
    return (sw_point){p.x_mm + direction.x_mm * by_mm, p.y_mm + direction.y_mm * by_mm};
}

static double cross_of(sw_point a, sw_point b)
{
    return a.x_mm * b.y_mm - a.y_mm * b.x_mm;
}

static void lines_meet(const build_side *a, double a_mm, build_side *b, double b_mm)
{
    sw_point p = shifted(b->start, a->inward, a_mm), q = shifted(b->start, b->inward, b_mm);
    double cross = cross_of(a->along, b->along);
    b->corner_count = 1;
    b->corners[0] = p;
    if (fabs(cross) < 1e-9) { /* in one line: a step where the depths differ */
        if (fabs(a_mm - b_mm) > SW_SAME_POINT_MM) {
            b->corner_count = 2;
            b->corners[1] = q;
        }
        return;
    }
    sw_point pq = {q.x_mm - p.x_mm, q.y_mm - p.y_mm};
    b->corners[0] = shifted(p, a->along, cross_of(pq, b->along) / cross);
}

/* The point nearest to `near` where the line through p along u meets the circle; false when they do not meet. */
static bool line_meets_circle(sw_point p, sw_point u, sw_point centre, double radius_mm, sw_point near, sw_point *out)
{
    sw_point to = {centre.x_mm - p.x_mm, centre.y_mm - p.y_mm};
    double middle = to.x_mm * u.x_mm + to.y_mm * u.y_mm, away = cross_of(u, to);
    double square = radius_mm * radius_mm - away * away;
    if (square < 0.0) return false;
    sw_point one = shifted(p, u, middle - sqrt(square)), other = shifted(p, u, middle + sqrt(square));
    double d1 = hypot(one.x_mm - near.x_mm, one.y_mm - near.y_mm),
           d2 = hypot(other.x_mm - near.x_mm, other.y_mm - near.y_mm);
    *out = d1 <= d2 ? one : other;
    return true;
}

static bool arc_meets_line(const build_face *f, const build_side *arc, const build_side *line, double depth_mm,
                           build_side *b)
{
    sw_point corner = b->start;
    sw_arc circle = sw_segment_arc(arc->v, arc->end_point);
    b->corner_count = 1;
    b->corners[0] = corner;
    if (depth_mm <= 0.0) return true;
    if (line_meets_circle(shifted(line->start, line->inward, depth_mm), line->along, circle.centre, circle.radius_mm,
                          corner, &b->corners[0]))
        return true;
    design_fault(&line->bends[0].decl->at, "on",
                 "the edge \"%s\" is cut back by %.4g mm for this bend, but the arc beside it does not reach that "
                 "far; use dims = \"tangent\" or end the arc elsewhere",
                 line->edge, depth_mm);
    (void)f;
    return false;
}

bool build_find_corners(build_face *f)
{
    for (size_t i = 0; i < f->side_count; i++) {
        build_side *b = &f->sides[i];
        const build_side *a = &f->sides[(i + f->side_count - 1) % f->side_count];
        double a_mm = a->at_end.depth_mm, b_mm = b->at_start.depth_mm;
        if (a->straight && b->straight)
            lines_meet(a, a_mm, b, b_mm);
        else if (!a->straight && !b->straight) {
            b->corner_count = 1;
            b->corners[0] = b->start;
        } else if (!arc_meets_line(f, a->straight ? b : a, a->straight ? a : b, a->straight ? a_mm : b_mm, b))
            return false;
    }
    return true;
}
