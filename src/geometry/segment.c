/* segment.c: one line or arc taken apart. Source of the relations: DXF reference, VERTEX group 42
 * (bulge = tan(included angle / 4)); the rest follows from it (handbook 4.7, derived). */
#include "geometry/geometry_parts.h"

sw_point sw_motion_point(sw_motion motion, sw_point p)
{
    if (motion.mirror) p.x_mm = -p.x_mm;
    return plus(rotated(p, motion.turn_rad), (sw_point){motion.dx_mm, motion.dy_mm});
}

/* R2 M2 R1 M1: a mirror turns the sense of the rotation that it is moved across. */
sw_motion sw_motion_then(sw_motion first, sw_motion second)
{
    sw_point moved = sw_motion_point(second, (sw_point){first.dx_mm, first.dy_mm});
    double turn_rad = second.turn_rad + (second.mirror ? -first.turn_rad : first.turn_rad);
    return (sw_motion){turn_rad, moved.x_mm, moved.y_mm, first.mirror != second.mirror};
}

typedef struct circle {
    sw_point centre;
    double radius_mm;
} circle;

/* The circle that carries an arc. */
static circle carrying_circle(sw_vertex from, sw_point to)
{
    double b = from.bulge;
    sw_point start = point_of(from), chord = minus(to, start), middle = times(plus(start, to), 0.5);
    return (circle){plus(middle, times(left_of(chord), (1.0 - b * b) / (4.0 * b))),
                    norm(chord) * (1.0 + b * b) / (4.0 * fabs(b))};
}

sw_arc sw_segment_arc(sw_vertex from, sw_point to)
{
    if (!bends(from.bulge)) return (sw_arc){.radius_mm = INFINITY};
    circle on = carrying_circle(from, to);
    double from_rad = atan2(from.y_mm - on.centre.y_mm, from.x_mm - on.centre.x_mm);
    return (sw_arc){on.centre, on.radius_mm, from_rad, 4.0 * atan(from.bulge)};
}

/* Of half the included angle, 2 atan(bulge), without a trigonometric function. */
static double half_cos(double bulge)
{
    return (1.0 - bulge * bulge) / (1.0 + bulge * bulge);
}
static double half_sin(double bulge)
{
    return 2.0 * bulge / (1.0 + bulge * bulge);
}

double sw_segment_length(sw_vertex from, sw_point to)
{
    double chord_mm = gap_mm(point_of(from), to);
    if (!bends(from.bulge)) return chord_mm;
    return chord_mm * 2.0 * atan(from.bulge) / half_sin(from.bulge);
}

/* By chords from the start, not by the centre: exact for any radius, and for t = 1 the end itself. */
sw_point sw_segment_point(sw_vertex from, sw_point to, double t)
{
    sw_point start = point_of(from), chord = minus(to, start);
    if (!bends(from.bulge)) return plus(times(start, 1.0 - t), times(to, t));
    double half_rad = 2.0 * atan(from.bulge);
    double share = sin(t * half_rad) / half_sin(from.bulge);
    return plus(start, times(rotated(chord, (t - 1.0) * half_rad), share));
}

/* At the ends the chord turned by half the included angle. */
sw_point sw_segment_direction(sw_vertex from, sw_point to, double t)
{
    sw_point chord = minus(to, point_of(from));
    double length_mm = norm(chord), b = from.bulge;
    if (length_mm <= 0.0) return (sw_point){1.0, 0.0};
    sw_point along = times(chord, 1.0 / length_mm);
    if (!bends(b)) return along;
    if (t == 0.0) return minus(times(along, half_cos(b)), times(left_of(along), half_sin(b)));
    if (t == 1.0) return plus(times(along, half_cos(b)), times(left_of(along), half_sin(b)));
    return rotated(along, (2.0 * t - 1.0) * 2.0 * atan(b));
}

/* A counter-clockwise arc lies wholly on the right of its chord, a clockwise one on the left. */
bool arc_spans(const segment *s, sw_point p)
{
    sw_point start = point_of(s->from);
    double side = cross(minus(s->to, start), minus(p, start));
    return s->from.bulge > 0.0 ? side <= 0.0 : side >= 0.0;
}

static sw_box arc_box(const segment *s, sw_box box)
{
    const sw_point reach[4] = {{s->radius_mm, 0.0}, {0.0, s->radius_mm}, {-s->radius_mm, 0.0}, {0.0, -s->radius_mm}};
    for (int k = 0; k < 4; k++) {
        sw_point extreme = plus(s->centre, reach[k]);
        if (arc_spans(s, extreme)) box = box_with(box, extreme);
    }
    return box;
}

segment segment_make(sw_vertex from, sw_point to)
{
    segment s = {.from = from, .to = to, .radius_mm = INFINITY};
    s.box = box_with(box_with(box_empty(), point_of(from)), to);
    if (!bends(from.bulge)) return s;
    circle on = carrying_circle(from, to);
    s.centre = on.centre;
    s.radius_mm = on.radius_mm;
    s.box = arc_box(&s, s.box);
    return s;
}

static double line_distance(sw_point a, sw_point b, sw_point p)
{
    sw_point along = minus(b, a), out = minus(p, a);
    double square = dot(along, along);
    double t = square > 0.0 ? dot(out, along) / square : 0.0;
    if (t <= 0.0) return norm(out);
    if (t >= 1.0) return gap_mm(p, b);
    return fabs(cross(along, out)) / sqrt(square);
}

double segment_point_distance(const segment *s, sw_point p)
{
    sw_point start = point_of(s->from);
    if (!is_arc(s)) return line_distance(start, s->to, p);
    sw_point out = minus(p, s->centre);
    double away_mm = norm(out), ends_mm = smaller(norm(minus(p, start)), gap_mm(p, s->to));
    if (away_mm <= 0.0) return s->radius_mm;
    sw_point foot = plus(s->centre, times(out, s->radius_mm / away_mm));
    return arc_spans(s, foot) ? smaller(ends_mm, fabs(away_mm - s->radius_mm)) : ends_mm;
}
