/* contour_convex.c: what is sound by its shape, told from directions alone.
 *
 * A closed curve that turns one way only, once round in all, is convex. Its corners turn by a right angle at most and
 * its arcs by half a circle, so edges that are no neighbours stay as far apart as the shortest edge is long, hundreds of
 * SW_SAME_POINT_MM. Holes, slots, rectangles and rounded rectangles are of this kind. */
#include "geometry/fault_parts.h"

static const double slack = 1e-9; /* of sines and cosines: 2e-5 mm over the longest edge */

/* Directions of an edge, not of unit length: where it starts, its chord, where it ends. An arc of bulge b sweeps
 * 4 atan(b), so its ends are turned against the chord by 2 atan(b). */
typedef struct headings {
    sw_point start, chord, end;
} headings;

static headings headings_of(sw_point chord, double bulge)
{
    sw_point along = times(chord, 1.0 - bulge * bulge), aside = times(left_of(chord), 2.0 * bulge);
    return (headings){minus(along, aside), chord, plus(along, aside)};
}

/* Edge i of c, mirrored in the x axis when way is -1, so that a clockwise contour runs counter-clockwise. */
static headings edge_headings(sw_contour c, size_t i, double way)
{
    sw_point chord = minus(contour_next(c, i), point_of(c.v[i]));
    chord.y_mm *= way;
    return headings_of(chord, bends(c.v[i].bulge) ? c.v[i].bulge * way : 0.0);
}

/* To the left by nothing to a right angle, within the slack. */
static bool turns_left(sw_point u, sw_point v)
{
    double sine = cross(u, v), cosine = dot(u, v);
    if (sine >= 0.0 && cosine >= 0.0) return true;
    double most = slack * norm(u) * norm(v);
    return sine >= -most && cosine >= -most;
}

/* Up a slope that hardly any edge is square to: how often the direction begins to rise counts the rounds. */
static bool rises(sw_point u)
{
    return 0.2873 * u.x_mm + 0.9578 * u.y_mm >= 0.0;
}

static size_t rises_begun(sw_point u, sw_point v)
{
    return !rises(u) && rises(v) ? 1 : 0;
}

static bool runs_round(sw_contour c, double way)
{
    size_t rounds = 0;
    sw_point last = edge_headings(c, c.n - 1, way).end;
    for (size_t i = 0; i < c.n; i++) {
        double bulge = bends(c.v[i].bulge) ? c.v[i].bulge * way : 0.0;
        if (bulge < 0.0 || bulge > 1.0 + slack) return false;
        headings h = edge_headings(c, i, way);
        if (!turns_left(last, h.start)) return false;
        rounds += rises_begun(last, h.start);
        if (bulge > 0.0) rounds += rises_begun(h.start, h.chord) + rises_begun(h.chord, h.end);
        last = h.end;
    }
    return rounds == 1;
}

/* Two half circles on one chord. */
static bool is_circle(sw_contour c)
{
    return c.n == 2 && c.v[0].bulge == c.v[1].bulge && fabs(c.v[0].bulge) == 1.0;
}

int contour_convex(sw_contour c)
{
    enum { MOST = 64 }; /* so that the slacks of all corners together are nothing */
    if (c.n > MOST) return 0;
    if (is_circle(c)) return c.v[0].bulge > 0.0 ? 1 : -1;
    if (runs_round(c, 1.0)) return 1;
    return runs_round(c, -1.0) ? -1 : 0;
}

/* An arc of half a circle at most lies within the circle over its chord. */
sw_box contour_cover(sw_contour c)
{
    sw_box box = box_empty();
    for (size_t i = 0; i < c.n; i++) {
        sw_point from = point_of(c.v[i]), to = contour_next(c, i);
        box = box_with(box, from);
        if (!bends(c.v[i].bulge)) continue;
        sw_point middle = times(plus(from, to), 0.5);
        double radius_mm = 0.5 * gap_mm(from, to) + SW_SAME_POINT_MM;
        box = box_union(box, box_grown((sw_box){middle.x_mm, middle.y_mm, middle.x_mm, middle.y_mm}, radius_mm));
    }
    return box;
}

/* An arc of half a circle at most and its chord enclose less than a rectangle on the chord as high as the arc. */
bool encloses_plainly(sw_contour c, double least_mm)
{
    double twice_mm2 = 0.0, arcs_mm2 = 0.0, length_mm = 0.0;
    sw_point first = point_of(c.v[0]);
    for (size_t i = 0; i < c.n; i++) {
        sw_point from = minus(point_of(c.v[i]), first), to = minus(contour_next(c, i), first), chord = minus(to, from);
        double bulge = fabs(c.v[i].bulge);
        if (bulge > 1.0) return false;
        twice_mm2 += cross(from, to);
        arcs_mm2 += bulge * dot(chord, chord);
        length_mm += fabs(chord.x_mm) + fabs(chord.y_mm);
    }
    return twice_mm2 - arcs_mm2 > 2.0 * least_mm * SW_PI / 2.0 * length_mm;
}

static headings segment_headings(const segment *s)
{
    return headings_of(minus(s->to, point_of(s->from)), is_arc(s) ? s->from.bulge : 0.0);
}

static bool goes_along(const headings *h, sw_point way)
{
    double least = -slack * norm(way) * norm(h->chord);
    return dot(h->chord, way) > 0.0 && dot(h->start, way) >= least && dot(h->end, way) >= least;
}

/* An arc of half a circle at most goes first with the way, then perhaps against it: it lies ahead of where it starts when
 * its end does. Runs backwards, the same holds of where it ends. */
static bool lies_ahead(sw_point at_joint, sw_point chord, sw_point way)
{
    double least = -slack * norm(way) * norm(chord);
    return dot(at_joint, way) >= least && dot(chord, way) >= least;
}

/* Across the joint, square to one way, there is a line with all of a on one side and all of b on the other. */
bool is_onward_corner(const segment *a, const segment *b)
{
    if (fabs(a->from.bulge) > 1.0 || fabs(b->from.bulge) > 1.0) return false;
    headings one = segment_headings(a), other = segment_headings(b);
    if (!is_arc(a)) return lies_ahead(other.start, other.chord, one.chord);
    if (!is_arc(b)) return lies_ahead(one.end, one.chord, other.chord);
    sw_point way = plus(one.chord, other.chord);
    return goes_along(&one, way) && goes_along(&other, way);
}
