/* contour_measure.c: area, length, centroid, second moments, box, side and distance of contours.
 *
 * Area and centroid are those of triangles over the chords plus circular segments (handbook 4.7, derived). Second
 * moments are boundary integrals (Green's theorem), integrated by Gauss-Legendre over pieces of at most 45 degrees:
 * exact for lines, and below rounding for arcs. */
#include "geometry/geometry_parts.h"

/* Area between a chord of length 1 and its arc, signed as the bulge:
 * (theta - sin theta) / (8 sin^2(theta / 2)); for flat arcs the series of theta - sin theta. */
static double segment_area_share(double bulge)
{
    if (!bends(bulge)) return 0.0;
    double theta = 4.0 * atan(bulge), s = sin(0.5 * theta), q = theta * theta;
    double excess = fabs(theta) < 0.05 ? theta * q / 6.0 * (1.0 - q / 20.0 * (1.0 - q / 42.0 * (1.0 - q / 72.0)))
                                       : theta - sin(theta);
    return excess / (8.0 * s * s);
}

double sw_contour_area(sw_contour c)
{
    double twice = 0.0, bows = 0.0;
    if (c.n < 2) return 0.0;
    sw_point base = point_of(c.v[0]);
    for (size_t i = 0; i < c.n; i++) {
        sw_point a = minus(point_of(c.v[i]), base), b = minus(contour_next(c, i), base), chord = minus(b, a);
        twice += cross(a, b);
        bows += segment_area_share(c.v[i].bulge) * dot(chord, chord);
    }
    return 0.5 * twice + bows;
}

double sw_contour_length(sw_contour c)
{
    double length_mm = 0.0;
    if (c.n < 2) return 0.0;
    for (size_t i = 0; i < c.n; i++) length_mm += sw_segment_length(c.v[i], contour_next(c, i));
    return length_mm;
}

static sw_point region_base(const sw_region *r)
{
    return r->outline.n > 0 ? point_of(r->outline.v[0]) : (sw_point){0.0, 0.0};
}

/* Area of what a contour encloses and its first moments. */
typedef struct first_moments {
    double area, x, y;
} first_moments;

static void add_lamina(first_moments *m, double area, sw_point moment)
{
    m->area += area;
    m->x += moment.x_mm;
    m->y += moment.y_mm;
}

/* A circular segment of angle theta has its centroid 4 R sin^3(theta/2) / (3 (theta - sin theta)) from the circle's
 * centre and the area R^2 (theta - sin theta) / 2: their product is chord^3 / 12 (derived). */
static void add_bow(first_moments *m, sw_vertex from, sw_point to)
{
    if (!bends(from.bulge)) return;
    segment s = segment_make(from, to);
    sw_point chord = minus(to, point_of(from));
    double length_mm = norm(chord), area = segment_area_share(from.bulge) * length_mm * length_mm;
    sw_point outwards = times(left_of(chord), from.bulge > 0.0 ? -1.0 : 1.0); /* towards the arc's middle */
    sw_point off = times(outwards, copysign(length_mm * length_mm / 12.0, area));
    add_lamina(m, area, plus(times(s.centre, area), off));
}

/* About the base: triangles from it to the chords, and the bows. */
static void add_first_moments(first_moments *m, sw_contour c, sw_point base)
{
    if (c.n < 2) return;
    for (size_t i = 0; i < c.n; i++) {
        sw_point a = minus(point_of(c.v[i]), base), b = minus(contour_next(c, i), base);
        double triangle = 0.5 * cross(a, b);
        add_lamina(m, triangle, times(plus(a, b), triangle / 3.0));
        add_bow(m, (sw_vertex){a.x_mm, a.y_mm, c.v[i].bulge}, b);
    }
}

sw_point sw_region_centroid(const sw_region *r)
{
    sw_point base = region_base(r);
    first_moments m = {0};
    add_first_moments(&m, r->outline, base);
    for (size_t h = 0; h < r->hole_count; h++) add_first_moments(&m, r->holes[h], base);
    if (m.area == 0.0) return base;
    return plus(base, (sw_point){m.x / m.area, m.y / m.area});
}

sw_point sw_contour_centroid(sw_contour c)
{
    return sw_region_centroid(&(sw_region){.outline = c});
}

/* Boundary integrals about a base point: those of x2, y2 and xy over the inside. */
typedef struct moments {
    double xx, yy, xy;
} moments;

/* Abscissas and weights of 8-point Gauss-Legendre on [-1, 1] (Abramowitz & Stegun 1964, table 25.4). */
static const double nodes[4] = {0.183434642495649805, 0.525532409916328986, 0.796666477413626740, 0.960289856497536232};
static const double weights[4] = {0.362683783378361983, 0.313706645877887287, 0.222381034453374471,
                                  0.101228536290376259};

/* d: the boundary step (dx, dy) that the weight stands for. */
static void add_step(moments *m, sw_point p, sw_point d)
{
    double x = p.x_mm, y = p.y_mm;
    m->xx += x * x * x / 3.0 * d.y_mm;
    m->yy -= y * y * y / 3.0 * d.x_mm;
    m->xy += 0.25 * (x * x * y * d.y_mm - x * y * y * d.x_mm);
}

static void add_segment(moments *m, sw_vertex from, sw_point to)
{
    double length_mm = sw_segment_length(from, to);
    int pieces = 1 + (int)(fabs(4.0 * atan(from.bulge)) / (SW_PI / 4.0));
    double half = 0.5 / pieces;
    for (int k = 0; k < pieces; k++) {
        for (int g = 0; g < 8; g++) {
            double t = half * (2 * k + 1 + (g < 4 ? nodes[g] : -nodes[g - 4]));
            sw_point along = sw_segment_direction(from, to, t);
            add_step(m, sw_segment_point(from, to, t), times(along, length_mm * half * weights[g % 4]));
        }
    }
}

static void add_contour(moments *m, sw_contour c, sw_point base)
{
    if (c.n < 2) return;
    for (size_t i = 0; i < c.n; i++) {
        sw_point a = minus(point_of(c.v[i]), base);
        add_segment(m, (sw_vertex){a.x_mm, a.y_mm, c.v[i].bulge}, minus(contour_next(c, i), base));
    }
}

static moments region_moments(const sw_region *r, sw_point base)
{
    moments m = {0};
    add_contour(&m, r->outline, base);
    for (size_t h = 0; h < r->hole_count; h++) add_contour(&m, r->holes[h], base);
    return m;
}

void sw_region_moments(const sw_region *r, double *xx_mm4, double *yy_mm4, double *xy_mm4)
{
    moments m = region_moments(r, sw_region_centroid(r));
    *xx_mm4 = m.xx;
    *yy_mm4 = m.yy;
    *xy_mm4 = m.xy;
}

sw_box sw_contour_box(sw_contour c)
{
    sw_box box = box_empty();
    for (size_t i = 0; i < c.n; i++) box = box_union(box, segment_of(c, i).box);
    return box;
}

double sw_region_area(const sw_region *r)
{
    double area_mm2 = sw_contour_area(r->outline);
    for (size_t h = 0; h < r->hole_count; h++) area_mm2 += sw_contour_area(r->holes[h]);
    return area_mm2;
}

double sw_region_length(const sw_region *r)
{
    double length_mm = sw_contour_length(r->outline);
    for (size_t h = 0; h < r->hole_count; h++) length_mm += sw_contour_length(r->holes[h]);
    return length_mm;
}

/* Whether a segment may come nearer to p than least_mm: it lies in the disc about its chord's middle of radius half the
 * chord, times |bulge| above a semicircle. No root of a sum, no angle: most segments end here. */
static bool may_be_nearer(sw_vertex from, sw_point to, sw_point p, double least_mm)
{
    double cx = to.x_mm - from.x_mm, cy = to.y_mm - from.y_mm;
    double mx = p.x_mm - (from.x_mm + cx / 2), my = p.y_mm - (from.y_mm + cy / 2);
    double reach_mm = least_mm + sqrt(cx * cx + cy * cy) / 2 * larger(1.0, fabs(from.bulge));
    return !(mx * mx + my * my > reach_mm * reach_mm * (1 + 1e-12));
}

double sw_contour_distance(sw_contour c, sw_point p)
{
    double least_mm = INFINITY;
    for (size_t i = 0; i < c.n; i++) {
        if (!may_be_nearer(c.v[i], contour_next(c, i), p, least_mm)) continue;
        segment s = segment_of(c, i);
        if (box_point_gap(s.box, p) < least_mm) least_mm = smaller(least_mm, segment_point_distance(&s, p));
    }
    return least_mm;
}

/* Turns of the chord around p that a segment adds, with p moved a hair to +x (+y for level chords), so that
 * chord and bow below decide the same way for a p on the chord. */
static int chord_turns(sw_point a, sw_point b, sw_point p, double side)
{
    if (a.y_mm <= p.y_mm && p.y_mm < b.y_mm && side > 0.0) return 1;
    if (b.y_mm <= p.y_mm && p.y_mm < a.y_mm && side < 0.0) return -1;
    return 0;
}

/* Whether p lies between chord and arc, which adds a turn in the sense of the bulge. */
static int bow_turns(sw_vertex from, sw_point to, sw_point p, double side)
{
    if (!bends(from.bulge)) return 0;
    sw_point chord = minus(to, point_of(from));
    bool on_right = side < 0.0 || (side == 0.0 && (chord.y_mm > 0.0 || (chord.y_mm == 0.0 && chord.x_mm < 0.0)));
    if (on_right != (from.bulge > 0.0)) return 0;
    double b = from.bulge, off = (1 - b * b) / (4 * b); /* centre: middle + left normal of the chord x off */
    double x = p.x_mm - (from.x_mm + chord.x_mm / 2 - chord.y_mm * off),
           y = p.y_mm - (from.y_mm + chord.y_mm / 2 + chord.x_mm * off);
    double radius2 = dot(chord, chord) * (1 + b * b) * (1 + b * b) / (16 * b * b);
    if (x * x + y * y >= radius2) return 0;
    return from.bulge > 0.0 ? 1 : -1;
}

int segment_turns(sw_vertex from, sw_point to, sw_point p)
{
    sw_point a = point_of(from);
    double side = cross(minus(to, a), minus(p, a));
    return chord_turns(a, to, p, side) + bow_turns(from, to, p, side);
}

/* Turns of the contour around p, not 0 when inside. p must not lie on it. */
static int contour_turns(sw_contour c, sw_point p)
{
    int turns = 0;
    for (size_t i = 0; i < c.n; i++) turns += segment_turns(c.v[i], contour_next(c, i), p);
    return turns;
}

int sw_contour_side(sw_contour c, sw_point p)
{
    if (c.n < 2) return -1;
    if (sw_contour_distance(c, p) <= SW_SAME_POINT_MM) return 0;
    return contour_turns(c, p) != 0 ? 1 : -1;
}

int sw_region_side(const sw_region *r, sw_point p)
{
    int side = sw_contour_side(r->outline, p);
    for (size_t h = 0; h < r->hole_count && side == 1; h++) side = -sw_contour_side(r->holes[h], p);
    return side;
}
