/* map_place.c: from the plane of a part's mesh into the stove's frame. A folded piece is meshed in its flat, where heat runs
 * as in the folded sheet; a point of the flat belongs to a face or to the zone of a bend. */
#include "burning/heat/map_parts.h"

#include <math.h>

#define ON_FACE_MM 0.02 /* flats are stitched to less */

static sw_point back(sw_motion m, sw_point p)
{
    double x = p.x_mm - m.dx_mm, y = p.y_mm - m.dy_mm, c = cos(m.turn_rad), s = sin(m.turn_rad);
    sw_point q = {c * x + s * y, -s * x + c * y};
    if (m.mirror) q.x_mm = -q.x_mm;
    return q;
}

static void from_frame(sw_frame f, sw_vec3 local, sw_vec3 normal, sw_vec3 *at, sw_vec3 *n)
{
    *at = sw_frame_point(f, local);
    *n = sw_frame_direction(f, normal);
}

static bool in_face(const sw_face *face, sw_point p)
{
    sw_box b = sw_contour_box(face->region.outline);
    if (p.x_mm < b.x0_mm - ON_FACE_MM || p.x_mm > b.x1_mm + ON_FACE_MM) return false;
    if (p.y_mm < b.y0_mm - ON_FACE_MM || p.y_mm > b.y1_mm + ON_FACE_MM) return false;
    return sw_contour_side(face->region.outline, p) >= 0;
}

typedef struct
    round_place { /* in a zone: along the child's x from its corner at `to`, and off the parent, in the flat */
    double along_mm, off_mm, width_mm;
    sw_point unit; /* the child's x */
} round_place;

static round_place round_of(const sw_bend *b, sw_point p)
{
    double dx = b->from.x_mm - b->to.x_mm, dy = b->from.y_mm - b->to.y_mm, w = hypot(dx, dy);
    round_place r = {.width_mm = w, .unit = {dx / w, dy / w}};
    double x = p.x_mm - b->to.x_mm, y = p.y_mm - b->to.y_mm;
    r.along_mm = x * r.unit.x_mm + y * r.unit.y_mm;
    r.off_mm = -x * r.unit.y_mm + y * r.unit.x_mm;
    return r;
}

/* How far p (of the flat) lies outside the zone, mm. */
static double outside_zone(const map_sheet *s, size_t bend, sw_point p, round_place *at)
{
    const sw_bend *b = &s->piece->bends[bend];
    *at = round_of(b, back(s->folded->flat.faces[b->parent], p));
    double along = fmax(-at->along_mm, at->along_mm - at->width_mm);
    double off = fmax(-at->off_mm, at->off_mm - s->folded->flat.bends[bend].allowance_mm);
    return fmax(0.0, fmax(along, off));
}

/* Round the zone: the middle surface is a circle of radius + t/2 towards the child's side. */
static void on_zone(const map_sheet *s, size_t bend, round_place at, sw_vec3 *middle, sw_vec3 *normal)
{
    const sw_bend *b = &s->piece->bends[bend];
    double r_mm = b->radius_mm + s->piece->thickness_mm / 2.0, sign = b->angle_rad < 0.0 ? -1.0 : 1.0;
    double share = net_held(at.off_mm / s->folded->flat.bends[bend].allowance_mm, 0.0, 1.0);
    double angle = share * fabs(b->angle_rad), off = r_mm * sin(angle);
    double ox = -at.unit.y_mm, oy = at.unit.x_mm; /* away from the parent */
    sw_vec3 local = {b->to.x_mm + at.along_mm * at.unit.x_mm + off * ox,
                     b->to.y_mm + at.along_mm * at.unit.y_mm + off * oy, sign * r_mm * (1.0 - cos(angle))};
    sw_vec3 n = {-sign * sin(angle) * ox, -sign * sin(angle) * oy, cos(angle)};
    from_frame(sw_frame_in(s->body->frame, s->folded->solid.faces[b->parent]), local, n, middle, normal);
}

static size_t bend_of(const map_sheet *s, const sw_flat_bend *row)
{
    return (size_t)(row->bend - s->piece->bends);
}

static void on_folded(const map_sheet *s, sw_point p, sw_vec3 *middle, sw_vec3 *normal)
{
    const sw_flat *flat = &s->folded->flat;
    double least_mm = (double)INFINITY;
    size_t best = 0;
    round_place best_at = {0};
    for (size_t f = 0; f < s->piece->face_count; f++) {
        sw_point q = back(flat->faces[f], p);
        if (!in_face(&s->piece->faces[f], q)) continue;
        sw_frame frame = sw_frame_in(s->body->frame, s->folded->solid.faces[f]);
        from_frame(frame, (sw_vec3){q.x_mm, q.y_mm, 0.0}, (sw_vec3){0.0, 0.0, 1.0}, middle, normal);
        return;
    }
    for (size_t i = 0; i < flat->bend_count; i++) {
        round_place at;
        double out_mm = outside_zone(s, bend_of(s, &flat->bends[i]), p, &at);
        if (out_mm >= least_mm) continue;
        least_mm = out_mm, best = bend_of(s, &flat->bends[i]), best_at = at;
    }
    if (isfinite(least_mm)) {
        on_zone(s, best, best_at, middle, normal);
        return;
    }
    sw_point q = back(flat->faces[0], p);
    sw_frame frame = sw_frame_in(s->body->frame, s->folded->solid.faces[0]);
    from_frame(frame, (sw_vec3){q.x_mm, q.y_mm, 0.0}, (sw_vec3){0.0, 0.0, 1.0}, middle, normal);
}

static sw_vec3 between(sw_vec3 a, sw_vec3 b, double share)
{
    return sw_vec3_add(sw_vec3_scaled(a, 1.0 - share), sw_vec3_scaled(b, share));
}

/* A bent pane: plane x along its bands from 0 to 1 width, y round them; strips of equal width. */
static void on_band(const map_sheet *s, sw_point p, sw_vec3 *middle, sw_vec3 *normal)
{
    const sw_vec3 *c = s->band->points;
    size_t strips = s->band->point_count / 4 - 1;
    sw_box box = sw_contour_box(s->region.outline);
    double along = net_held(p.x_mm / box.x1_mm, 0.0, 1.0),
           round = net_held(p.y_mm / box.y1_mm, 0.0, 1.0) * (double)strips;
    size_t i = round >= (double)strips ? strips - 1 : (size_t)round;
    double share = round - (double)i;
    sw_vec3 in = between(between(c[4 * i], c[4 * i + 4], share), between(c[4 * i + 1], c[4 * i + 5], share), along);
    sw_vec3 out =
        between(between(c[4 * i + 3], c[4 * i + 7], share), between(c[4 * i + 2], c[4 * i + 6], share), along);
    *middle = between(in, out, 0.5);
    *normal = sw_vec3_unit(sw_vec3_sub(out, in));
}

void map_place(const map_sheet *s, sw_point at, sw_vec3 *middle, sw_vec3 *normal)
{
    if (s->piece != NULL) {
        on_folded(s, at, middle, normal);
    } else if (s->band != NULL) {
        on_band(s, at, middle, normal);
    } else {
        sw_vec3 local = {at.x_mm, at.y_mm, s->body->middle_mm};
        from_frame(s->body->frame, local, (sw_vec3){0.0, 0.0, 1.0}, middle, normal);
    }
}
