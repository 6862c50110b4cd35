/* crossing.c: where two segments meet, and how far apart they are. */
#include "geometry/geometry_parts.h"

typedef struct hits {
    sw_point at[CROSSINGS_MAX];
    size_t n;
} hits;

static void add_hit(hits *h, sw_point p)
{
    for (size_t i = 0; i < h->n; i++)
        if (same_point(h->at[i], p)) return;
    if (h->n < CROSSINGS_MAX) h->at[h->n++] = p;
}

static bool line_spans(const segment *s, sw_point p)
{
    sw_point start = point_of(s->from), along = minus(s->to, start);
    double t = dot(minus(p, start), along);
    return t >= 0.0 && t <= dot(along, along);
}

/* Whether a point of the line or circle that carries s lies between its ends. */
static bool spans(const segment *s, sw_point p)
{
    return is_arc(s) ? arc_spans(s, p) : line_spans(s, p);
}

static void add_if_on_both(hits *h, const segment *a, const segment *b, sw_point p)
{
    if (spans(a, p) && spans(b, p)) add_hit(h, p);
}

static void line_line(hits *h, const segment *a, const segment *b)
{
    sw_point p = point_of(a->from), u = minus(a->to, p), v = minus(b->to, point_of(b->from));
    double turn = cross(u, v);
    if (fabs(turn) <= 1e-14 * norm(u) * norm(v)) return; /* parallel: only ends can touch */
    double t = cross(minus(point_of(b->from), p), v) / turn;
    if (t < 0.0 || t > 1.0) return;
    sw_point at = plus(p, times(u, t));
    if (line_spans(b, at)) add_hit(h, at);
}

/* The two points at +-half along u from the foot; one when they are nearer than doubled points. A gap up to
 * the same-point tolerance between tangents counts as touching. */
static void line_arc(hits *h, const segment *line, const segment *arc)
{
    sw_point start = point_of(line->from), along = minus(line->to, start);
    double length_mm = norm(along);
    if (length_mm <= 0.0) return;
    sw_point u = times(along, 1.0 / length_mm), foot = plus(start, times(u, dot(minus(arc->centre, start), u)));
    double away_mm = gap_mm(foot, arc->centre), r = arc->radius_mm;
    if (away_mm > r + SW_SAME_POINT_MM) return;
    double half_mm = away_mm < r ? sqrt((r - away_mm) * (r + away_mm)) : 0.0;
    add_if_on_both(h, line, arc, plus(foot, times(u, half_mm)));
    add_if_on_both(h, line, arc, minus(foot, times(u, half_mm)));
}

/* Circles of radius r1, r2 at distance d: a = (d^2 + r1^2 - r2^2) / 2d from the first centre to the common
 * chord, half the chord sqrt(r1^2 - a^2). Circles that miss by less than the tolerance touch. */
static void arc_arc(hits *h, const segment *a, const segment *b)
{
    sw_point between = minus(b->centre, a->centre);
    double d = norm(between), r1 = a->radius_mm, r2 = b->radius_mm;
    if (d <= 1e-12 * (r1 + r2)) return; /* concentric: only ends can touch */
    if (d > r1 + r2 + SW_SAME_POINT_MM || d < fabs(r1 - r2) - SW_SAME_POINT_MM) return;
    sw_point u = times(between, 1.0 / d);
    double to_chord_mm = 0.5 * (d + (r1 - r2) * (r1 + r2) / d);
    to_chord_mm = larger(-r1, smaller(r1, to_chord_mm));
    double half_mm = sqrt((r1 - to_chord_mm) * (r1 + to_chord_mm));
    sw_point foot = plus(a->centre, times(u, to_chord_mm)), aside = times(left_of(u), half_mm);
    add_if_on_both(h, a, b, plus(foot, aside));
    add_if_on_both(h, a, b, minus(foot, aside));
}

static void add_touching_ends(hits *h, const segment *of, const segment *on)
{
    const sw_point ends[2] = {point_of(of->from), of->to};
    for (int k = 0; k < 2; k++)
        if (box_point_gap(on->box, ends[k]) <= SW_SAME_POINT_MM &&
            segment_point_distance(on, ends[k]) <= SW_SAME_POINT_MM)
            add_hit(h, ends[k]);
}

/* Ends first, so that a crossing at an end is given as that end, bit by bit. */
size_t segments_cross(const segment *a, const segment *b, sw_point out[CROSSINGS_MAX])
{
    hits h = {.n = 0};
    if (box_gap(a->box, b->box) > SW_SAME_POINT_MM) return 0;
    add_touching_ends(&h, a, b);
    add_touching_ends(&h, b, a);
    if (is_arc(a) && is_arc(b))
        arc_arc(&h, a, b);
    else if (is_arc(a))
        line_arc(&h, b, a);
    else if (is_arc(b))
        line_arc(&h, a, b);
    else
        line_line(&h, a, b);
    for (size_t i = 0; i < h.n; i++) out[i] = h.at[i];
    return h.n;
}

size_t sw_segment_crossings(sw_vertex a, sw_point a_to, sw_vertex b, sw_point b_to, sw_point out[2])
{
    sw_point all[CROSSINGS_MAX];
    segment s = segment_make(a, a_to), t = segment_make(b, b_to);
    size_t n = segments_cross(&s, &t, all);
    if (n > 2) n = 2;
    for (size_t i = 0; i < n; i++) out[i] = all[i];
    return n;
}

/* ---- distance ----------------------------------------------------------------------- */

static double ends_distance(const segment *of, const segment *on)
{
    return smaller(segment_point_distance(on, point_of(of->from)), segment_point_distance(on, of->to));
}

/* Where the common normal of line and circle meets both within their ends. */
static double line_arc_normal(const segment *line, const segment *arc)
{
    sw_point start = point_of(line->from), along = minus(line->to, start);
    double square = dot(along, along);
    if (square <= 0.0) return INFINITY;
    sw_point foot = plus(start, times(along, dot(minus(arc->centre, start), along) / square));
    if (!line_spans(line, foot)) return INFINITY;
    return segment_point_distance(arc, foot);
}

/* The line through both centres meets each circle twice. */
static double arc_arc_normal(const segment *a, const segment *b)
{
    sw_point between = minus(b->centre, a->centre);
    double d = norm(between), least_mm = INFINITY;
    if (d <= 0.0) return INFINITY;
    for (int k = -1; k <= 1; k += 2) {
        sw_point p = plus(a->centre, times(between, k * a->radius_mm / d));
        if (arc_spans(a, p)) least_mm = smaller(least_mm, segment_point_distance(b, p));
    }
    return least_mm;
}

double segments_distance(const segment *a, const segment *b)
{
    sw_point crossings[CROSSINGS_MAX];
    if (segments_cross(a, b, crossings) > 0) return 0.0;
    double least_mm = smaller(ends_distance(a, b), ends_distance(b, a));
    if (is_arc(a) && is_arc(b)) return smaller(least_mm, arc_arc_normal(a, b));
    if (is_arc(a)) return smaller(least_mm, line_arc_normal(b, a));
    if (is_arc(b)) return smaller(least_mm, line_arc_normal(a, b));
    return least_mm;
}

/* Segments of a that lie farther than the best so far are passed over by their boxes. */
double sw_contours_distance(sw_contour a, sw_contour b)
{
    double least_mm = INFINITY;
    sw_box whole = sw_contour_box(b);
    for (size_t i = 0; i < a.n && least_mm > 0.0; i++) {
        segment s = segment_of(a, i);
        if (box_gap(s.box, whole) >= least_mm) continue;
        for (size_t k = 0; k < b.n && least_mm > 0.0; k++) {
            segment t = segment_of(b, k);
            if (box_gap(s.box, t.box) < least_mm) least_mm = smaller(least_mm, segments_distance(&s, &t));
        }
    }
    return least_mm;
}
