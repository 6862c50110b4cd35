/* contour_make.c: contours moved, turned round, made from shapes, and as chords. */
#include "geometry/geometry_parts.h"

static sw_vertex *new_vertices(sw_run *run, size_t n, sw_contour *out)
{
    sw_vertex *v = SW_KEEP(run, n, sw_vertex);
    *out = (sw_contour){v, v == NULL ? 0 : n};
    return v;
}

/* v[0] stays first; segment i of the result is segment n-1-i of c. */
sw_status sw_contour_reversed(sw_run *run, sw_contour c, sw_contour *out)
{
    sw_vertex *v = new_vertices(run, c.n, out);
    if (v == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < c.n; i++) {
        v[i] = c.v[i == 0 ? 0 : c.n - i];
        v[i].bulge = -c.v[c.n - 1 - i].bulge;
    }
    return SW_OK;
}

typedef struct turned { /* a motion with its functions of the angle at hand */
    double cos_turn, sin_turn;
    sw_motion motion;
} turned;

static turned turned_by(sw_motion motion)
{
    return (turned){cos(motion.turn_rad), sin(motion.turn_rad), motion};
}

static sw_vertex moved(const turned *t, sw_vertex v, double bulge)
{
    double x_mm = t->motion.mirror ? -v.x_mm : v.x_mm;
    return (sw_vertex){t->cos_turn * x_mm - t->sin_turn * v.y_mm + t->motion.dx_mm,
                       t->sin_turn * x_mm + t->cos_turn * v.y_mm + t->motion.dy_mm, bulge};
}

sw_status sw_path_moved(sw_run *run, sw_path path, sw_motion motion, sw_path *out)
{
    const turned t = turned_by(motion);
    sw_vertex *v = SW_KEEP(run, path.n, sw_vertex);
    *out = (sw_path){v, v == NULL ? 0 : path.n};
    if (v == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < path.n; i++) v[i] = moved(&t, path.v[i], motion.mirror ? -path.v[i].bulge : path.v[i].bulge);
    return SW_OK;
}

/* A mirror turns the sense round; running the result backwards restores it (segments then count as in
 * sw_contour_reversed), and the two changes of the bulge's sign cancel. */
sw_status sw_contour_moved(sw_run *run, sw_contour c, sw_motion motion, sw_contour *out)
{
    const turned t = turned_by(motion);
    sw_vertex *v = new_vertices(run, c.n, out);
    if (v == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < c.n; i++) {
        size_t from = motion.mirror && i > 0 ? c.n - i : i;
        v[i] = moved(&t, c.v[from], c.v[motion.mirror ? c.n - 1 - i : i].bulge);
    }
    return SW_OK;
}

sw_status sw_region_moved(sw_run *run, const sw_region *r, sw_motion motion, sw_region *out)
{
    sw_contour outline;
    *out = (sw_region){0};
    sw_contour *holes = SW_KEEP(run, r->hole_count, sw_contour);
    if (holes == NULL && r->hole_count > 0) return SW_NO_MEMORY;
    SW_TRY(sw_contour_moved(run, r->outline, motion, &outline));
    for (size_t h = 0; h < r->hole_count; h++) SW_TRY(sw_contour_moved(run, r->holes[h], motion, &holes[h]));
    *out = (sw_region){outline, holes, r->hole_count};
    return SW_OK;
}

/* Counter-clockwise from the lower left; a radius above half the lesser side is taken as that half. */
sw_status sw_contour_rectangle(sw_run *run, sw_box box, double corner_radius_mm, sw_contour *out)
{
    double width_mm = box.x1_mm - box.x0_mm, height_mm = box.y1_mm - box.y0_mm;
    double r = fmin(corner_radius_mm, 0.5 * fmin(width_mm, height_mm));
    const sw_point corners[4] = {
        {box.x0_mm, box.y0_mm}, {box.x1_mm, box.y0_mm}, {box.x1_mm, box.y1_mm}, {box.x0_mm, box.y1_mm}};
    const sw_point along[4] = {{1.0, 0.0}, {0.0, 1.0}, {-1.0, 0.0}, {0.0, -1.0}};
    const double quarter = tan(SW_PI / 8.0), sides_mm[4] = {width_mm, height_mm, width_mm, height_mm};
    sw_vertex *v = new_vertices(run, 8, out);
    if (v == NULL) return SW_NO_MEMORY;
    size_t n = 0;
    for (int k = 0; k < 4; k++) {
        sw_point start = r > 0.0 ? plus(corners[k], times(along[k], r)) : corners[k];
        sw_point end = minus(corners[(k + 1) % 4], times(along[k], r));
        if (!(r > 0.0) || sides_mm[k] - 2.0 * r > SW_SAME_POINT_MM) v[n++] = (sw_vertex){start.x_mm, start.y_mm, 0.0};
        if (r > 0.0) v[n++] = (sw_vertex){end.x_mm, end.y_mm, quarter};
    }
    out->n = n;
    return SW_OK;
}

sw_status sw_contour_circle(sw_run *run, sw_point centre, double radius_mm, sw_contour *out)
{
    sw_vertex *v = new_vertices(run, 2, out);
    if (v == NULL) return SW_NO_MEMORY;
    v[0] = (sw_vertex){centre.x_mm + radius_mm, centre.y_mm, 1.0};
    v[1] = (sw_vertex){centre.x_mm - radius_mm, centre.y_mm, 1.0};
    return SW_OK;
}

/* from and to are the centres of the round ends; equal ones give a circle. */
sw_status sw_contour_slot(sw_run *run, sw_point from, sw_point to, double width_mm, sw_contour *out)
{
    if (same_point(from, to)) return sw_contour_circle(run, from, 0.5 * width_mm, out);
    sw_vertex *v = new_vertices(run, 4, out);
    if (v == NULL) return SW_NO_MEMORY;
    sw_point aside = times(left_of(minus(to, from)), 0.5 * width_mm / gap_mm(from, to));
    const sw_point p[4] = {minus(from, aside), minus(to, aside), plus(to, aside), plus(from, aside)};
    for (size_t i = 0; i < 4; i++) v[i] = (sw_vertex){p[i].x_mm, p[i].y_mm, i % 2 == 0 ? 0.0 : 1.0};
    return SW_OK;
}

enum { CHORDS_MAX = 1 << 20 }; /* of one arc, so that a tiny error cannot ask for endless memory */

/* Chords of an arc of radius R with sagitta e span 4 asin(sqrt(e / 2R)), from e = R (1 - cos(span / 2));
 * never more than a quarter turn. */
static size_t chord_count(sw_vertex from, sw_point to, double error_mm)
{
    double b = fabs(from.bulge);
    if (!bends(b)) return 1;
    double radius_mm = gap_mm(point_of(from), to) * (1.0 + b * b) / (4.0 * b);
    double part = sqrt(error_mm / (2.0 * radius_mm));
    double span_rad = part < sin(SW_PI / 8.0) ? 4.0 * asin(part) : SW_PI / 2.0;
    double count = ceil(4.0 * atan(b) / span_rad - 1e-9);
    return count < 1.0 ? 1 : count < (double)CHORDS_MAX ? (size_t)count : CHORDS_MAX;
}

/* error_mm must be positive: a tolerance is the program's choice. */
sw_status sw_contour_flattened(sw_run *run, sw_contour c, double error_mm, sw_contour *out)
{
    SW_ASSERT(error_mm > 0.0);
    size_t total = 0, n = 0;
    for (size_t i = 0; i < c.n; i++) total += chord_count(c.v[i], contour_next(c, i), error_mm);
    sw_vertex *v = new_vertices(run, total, out);
    if (v == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < c.n; i++) {
        sw_point to = contour_next(c, i);
        size_t count = chord_count(c.v[i], to, error_mm);
        for (size_t k = 0; k < count; k++) {
            sw_point p = sw_segment_point(c.v[i], to, (double)k / (double)count);
            v[n++] = (sw_vertex){p.x_mm, p.y_mm, 0.0};
        }
    }
    return SW_OK;
}
