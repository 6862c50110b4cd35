/* mass.c: exact area, centroid and inertia of a folded piece by integrals round the borders of its parts (Green): of
 * faces over their plane, closed along straight lines; of zones over the plane of x and theta, where the integral of f
 * is the line integral of F dtheta, F the primitive of f in x. Gauss-Legendre points make the rest exact to rounding. */
#include "making/sheet/sheet_parts.h"

#include <math.h>

typedef struct bulk { /* volume, first and second moments about the origin of its axes: mm3, mm4, mm5 */
    double v, x, y, z, xx, yy, zz, xy, yz, zx;
} bulk;

typedef struct round_sums { /* integrals over x and theta of 1, x, x2, sin, cos, sin2, cos2, sin cos, x sin, x cos */
    double one, x, x2, s, c, s2, c2, sc, xs, xc;
} round_sums;

/* Gauss-Legendre, 8 points on (-1, 1): Abramowitz & Stegun (1964), table 25.4. */
static const double gauss_at[4] = {0.1834346424956498, 0.5255324099163290, 0.7966664774136267, 0.9602898564975363};
static const double gauss_weight[4] = {0.3626837833783620, 0.3137066458778873, 0.2223810344533745, 0.1012285362903763};

typedef struct station {
    double t, weight; /* on (0, 1) */
} station;

/* Point i of 8 * pieces over as many equal pieces of a segment. */
static station station_of(size_t i, size_t pieces)
{
    size_t piece = i / 8, k = i % 8 / 2;
    double at = i % 2 == 0 ? gauss_at[k] : -gauss_at[k];
    return (station){((double)piece + 0.5 + at / 2.0) / (double)pieces, gauss_weight[k] / 2.0 / (double)pieces};
}

static void add_sample(round_sums *sum, double x, double theta, double dtheta)
{
    double s = sin(theta), c = cos(theta), half = x * x / 2.0 * dtheta, plain = x * dtheta;
    sum->one += plain;
    sum->x += half;
    sum->x2 += x * half * (2.0 / 3.0);
    sum->s += s * plain;
    sum->c += c * plain;
    sum->s2 += s * s * plain;
    sum->c2 += c * c * plain;
    sum->sc += s * c * plain;
    sum->xs += s * half;
    sum->xc += c * half;
}

/* One border segment; theta_per_mm turns y into theta. */
static void add_segment(round_sums *sum, sw_vertex from, sw_point to, double theta_per_mm)
{
    bool straight = fabs(from.bulge) <= SW_FLAT_BULGE;
    sw_arc arc = {0};
    double turn_rad = fabs(to.y_mm - from.y_mm) * theta_per_mm;
    if (!straight) {
        arc = sw_segment_arc(from, to);
        turn_rad = fabs(arc.sweep_rad) * (1.0 + arc.radius_mm * theta_per_mm);
    }
    size_t pieces = (size_t)fmax(1.0, ceil(turn_rad / 0.5));
    for (size_t i = 0; i < 8 * pieces; i++) {
        station at = station_of(i, pieces);
        double t = at.t, dt = at.weight;
        if (straight) {
            double x = from.x_mm + t * (to.x_mm - from.x_mm), y = from.y_mm + t * (to.y_mm - from.y_mm);
            add_sample(sum, x, y * theta_per_mm, (to.y_mm - from.y_mm) * dt * theta_per_mm);
            continue;
        }
        double phi = arc.from_rad + t * arc.sweep_rad;
        double x = arc.centre.x_mm + arc.radius_mm * cos(phi), y = arc.centre.y_mm + arc.radius_mm * sin(phi);
        add_sample(sum, x, y * theta_per_mm, arc.radius_mm * cos(phi) * arc.sweep_rad * dt * theta_per_mm);
    }
}

static void add_contour(round_sums *sum, sw_contour c, sw_point shift, double theta_per_mm)
{
    for (size_t i = 0; i < c.n; i++) {
        sw_vertex v = c.v[i], next = c.v[(i + 1) % c.n];
        v.x_mm += shift.x_mm;
        v.y_mm += shift.y_mm;
        add_segment(sum, v, (sw_point){next.x_mm + shift.x_mm, next.y_mm + shift.y_mm}, theta_per_mm);
    }
}

static round_sums zone_sums(const sw_tree *tree, int bend)
{
    const sw_bend *b = &tree->piece->bends[bend];
    const sw_zone *z = &tree->zones[bend];
    double per_mm = fabs(b->angle_rad) / z->allowance_mm, w = z->width_mm, l = z->allowance_mm;
    sw_vertex corners[4] = {{0.0, 0.0, 0.0}, {w, 0.0, 0.0}, {w, l, 0.0}, {0.0, l, 0.0}};
    round_sums sum = {0};
    add_contour(&sum, (sw_contour){corners, 4}, (sw_point){0.0, 0.0}, per_mm);
    for (size_t h = 0; h < b->hole_count; h++)
        add_contour(&sum, b->holes[h].contour, (sw_point){b->holes[h].along_mm, b->holes[h].angle_rad / per_mm},
                    per_mm);
    return sum;
}

/* Zone axes: a point at radius rho from the bend's axis is (x, rho sin, side (R - rho cos)), dV = rho drho dtheta dx. */
static bulk zone_bulk(const sw_tree *tree, int bend)
{
    round_sums q = zone_sums(tree, bend);
    double R = tree->zones[bend].middle_mm, side = tree->piece->bends[bend].angle_rad > 0.0 ? 1.0 : -1.0;
    double in = tree->piece->bends[bend].radius_mm, out = in + tree->piece->thickness_mm;
    double i1 = (out * out - in * in) / 2.0, i2 = (pow(out, 3.0) - pow(in, 3.0)) / 3.0;
    double i3 = (pow(out, 4.0) - pow(in, 4.0)) / 4.0;
    bulk b = {.v = i1 * q.one, .x = i1 * q.x, .y = i2 * q.s, .z = side * (R * i1 * q.one - i2 * q.c)};
    b.xx = i1 * q.x2;
    b.yy = i3 * q.s2;
    b.zz = R * R * i1 * q.one - 2.0 * R * i2 * q.c + i3 * q.c2;
    b.xy = i2 * q.xs;
    b.yz = side * (R * i2 * q.s - i3 * q.sc);
    b.zx = side * (R * i1 * q.x - i2 * q.xc);
    return b;
}

typedef struct plane_sums { /* integrals over a plane region of 1, x, y, x2, y2, xy */
    double one, x, y, xx, yy, xy;
} plane_sums;

/* Green: each is the line integral of a primitive. Along a chord a -> b they are, with d = a x b:
 *   1: d/2   x: d (ax + bx)/6   x2: d (ax2 + ax bx + bx2)/12   xy: d (2 ax ay + ax by + bx ay + 2 bx by)/24
 * source: derived (triangles from the origin) */
static void add_chord(plane_sums *sum, sw_point a, sw_point b)
{
    double d = a.x_mm * b.y_mm - b.x_mm * a.y_mm;
    sum->one += d / 2.0;
    sum->x += d * (a.x_mm + b.x_mm) / 6.0;
    sum->y += d * (a.y_mm + b.y_mm) / 6.0;
    sum->xx += d * (a.x_mm * a.x_mm + a.x_mm * b.x_mm + b.x_mm * b.x_mm) / 12.0;
    sum->yy += d * (a.y_mm * a.y_mm + a.y_mm * b.y_mm + b.y_mm * b.y_mm) / 12.0;
    sum->xy += d * (2.0 * (a.x_mm * a.y_mm + b.x_mm * b.y_mm) + a.x_mm * b.y_mm + b.x_mm * a.y_mm) / 24.0;
}

/* As sectors from the origin: 1/2 (x dy - y dx), and times 2/3 x, 1/2 x2 and so on; a quarter circle at most a piece. */
static void add_arc(plane_sums *sum, sw_arc arc)
{
    size_t pieces = (size_t)fmax(1.0, ceil(fabs(arc.sweep_rad) / (SW_PI / 2.0) - 1e-9));
    for (size_t i = 0; i < 8 * pieces; i++) {
        station at = station_of(i, pieces);
        double phi = arc.from_rad + arc.sweep_rad * at.t, dphi = arc.sweep_rad * at.weight;
        double c = cos(phi), s = sin(phi), r = arc.radius_mm, x = arc.centre.x_mm + r * c, y = arc.centre.y_mm + r * s;
        double sector = r * (x * c + y * s) / 2.0 * dphi;
        sum->one += sector;
        sum->x += x * sector * (2.0 / 3.0);
        sum->y += y * sector * (2.0 / 3.0);
        sum->xx += x * x * sector / 2.0;
        sum->yy += y * y * sector / 2.0;
        sum->xy += x * y * sector / 2.0;
    }
}

static void add_line(plane_sums *sum, sw_contour c, sw_point base)
{
    for (size_t i = 0; i < c.n; i++) {
        sw_vertex v = c.v[i], next = c.v[(i + 1) % c.n];
        sw_point to = {next.x_mm - base.x_mm, next.y_mm - base.y_mm};
        v.x_mm -= base.x_mm;
        v.y_mm -= base.y_mm;
        if (fabs(v.bulge) <= SW_FLAT_BULGE)
            add_chord(sum, (sw_point){v.x_mm, v.y_mm}, to);
        else
            add_arc(sum, sw_segment_arc(v, to));
    }
}

/* About the middle of the outline's box, where rounding is least; then moved to the face's axes. */
static bulk face_bulk(const sw_region *r, double thickness_mm)
{
    sw_box box = sw_contour_box(r->outline);
    double x0 = (box.x0_mm + box.x1_mm) / 2.0, y0 = (box.y0_mm + box.y1_mm) / 2.0, s_mm = thickness_mm;
    plane_sums q = {0};
    add_line(&q, r->outline, (sw_point){x0, y0});
    for (size_t h = 0; h < r->hole_count; h++) add_line(&q, r->holes[h], (sw_point){x0, y0});
    if (!(q.one > 0.0)) return (bulk){0};
    bulk b = {.v = q.one * s_mm, .x = (q.x + x0 * q.one) * s_mm, .y = (q.y + y0 * q.one) * s_mm};
    b.xx = (q.xx + 2.0 * x0 * q.x + x0 * x0 * q.one) * s_mm;
    b.yy = (q.yy + 2.0 * y0 * q.y + y0 * y0 * q.one) * s_mm;
    b.xy = (q.xy + x0 * q.y + y0 * q.x + x0 * y0 * q.one) * s_mm;
    b.zz = b.v * s_mm * s_mm / 12.0;
    return b;
}

/* Entry (i, j) of the second moments seen from the outer axes: R M R^T + (R m) o^T + o (R m)^T + v o o^T. */
static double turned(const bulk *b, const double r[2][3], const double o[2])
{
    const double m[3][3] = {{b->xx, b->xy, b->zx}, {b->xy, b->yy, b->yz}, {b->zx, b->yz, b->zz}};
    const double first[3] = {b->x, b->y, b->z};
    double sum = b->v * o[0] * o[1];
    for (int i = 0; i < 3; i++) {
        sum += r[0][i] * first[i] * o[1] + r[1][i] * first[i] * o[0];
        for (int j = 0; j < 3; j++) sum += r[0][i] * m[i][j] * r[1][j];
    }
    return sum;
}

static void add_bulk(bulk *to, const bulk *b, sw_frame f)
{
    const double r[3][3] = {
        {f.x.x_mm, f.y.x_mm, f.z.x_mm}, {f.x.y_mm, f.y.y_mm, f.z.y_mm}, {f.x.z_mm, f.y.z_mm, f.z.z_mm}};
    const double o[3] = {f.origin.x_mm, f.origin.y_mm, f.origin.z_mm};
    double *first[3] = {&to->x, &to->y, &to->z};
    double *second[6] = {&to->xx, &to->yy, &to->zz, &to->xy, &to->yz, &to->zx};
    static const int pair[6][2] = {{0, 0}, {1, 1}, {2, 2}, {0, 1}, {1, 2}, {2, 0}};
    for (int i = 0; i < 3; i++) *first[i] += r[i][0] * b->x + r[i][1] * b->y + r[i][2] * b->z + b->v * o[i];
    for (int k = 0; k < 6; k++) {
        int i = pair[k][0], j = pair[k][1];
        const double rows[2][3] = {{r[i][0], r[i][1], r[i][2]}, {r[j][0], r[j][1], r[j][2]}};
        const double at[2] = {o[i], o[j]};
        *second[k] += turned(b, rows, at);
    }
    to->v += b->v;
}

void sw_sheet_mass(const sw_tree *tree, const sw_frame *frames, sw_solid *solid)
{
    const sw_piece *p = tree->piece;
    bulk all = {0};
    for (size_t f = 0; f < p->face_count; f++) {
        bulk b = face_bulk(&p->faces[f].region, p->thickness_mm);
        add_bulk(&all, &b, frames[f]);
    }
    for (size_t i = 0; i < p->bend_count; i++) {
        bulk b = zone_bulk(tree, (int)i);
        add_bulk(&all, &b, sw_sheet_zone_frame(tree, frames, (int)i));
    }
    solid->mid_area_mm2 = all.v / p->thickness_mm;
    if (!(all.v > 0.0)) return;
    double cx = all.x / all.v, cy = all.y / all.v, cz = all.z / all.v;
    double kg_per_mm3 = p->grade == NULL ? 0.0 : sw_m3_from_mm3(p->grade->density);
    double xx = all.xx - all.x * cx, yy = all.yy - all.y * cy, zz = all.zz - all.z * cz;
    solid->centroid = (sw_vec3){cx, cy, cz};
    solid->inertia_kg_mm2[0] = kg_per_mm3 * (yy + zz);
    solid->inertia_kg_mm2[1] = kg_per_mm3 * (zz + xx);
    solid->inertia_kg_mm2[2] = kg_per_mm3 * (xx + yy);
    solid->inertia_kg_mm2[3] = -kg_per_mm3 * (all.xy - all.x * cy);
    solid->inertia_kg_mm2[4] = -kg_per_mm3 * (all.yz - all.y * cz);
    solid->inertia_kg_mm2[5] = -kg_per_mm3 * (all.zx - all.z * cx);
}
