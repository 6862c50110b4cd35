/* fit_partner.c: which surface of piece b a point is near to: a skin of a flat face, a cut wall of one, a skin of a bent
 * zone. Distances below 0 are inside the sheet. */
#include "making/fit/fit_parts.h"

#include <math.h>

typedef struct search {
    const fit_partner *to;
    const sw_sheet_piece *piece;
    double half_mm;
    fit_near best;
    double best_rank_mm;
} search;

static const double alike_mm = 0.02; /* nearer by less than this counts as as near: chords, contact */

static void offer(search *s, const fit_near *near, bool wall)
{
    bool favoured = wall == s->to->walls_first;
    double rank_mm = fabs(near->gap_mm) + (favoured ? 0 : alike_mm);
    if (rank_mm >= s->best_rank_mm) return;
    s->best = *near;
    s->best.foot.specimen = s->to->specimen;
    s->best_rank_mm = rank_mm;
}

/* ---- faces ---- */

static void offer_skin(search *s, int face, sw_vec3 q)
{
    sw_frame f = s->piece->solid.faces[face];
    double up = q.z_mm >= 0 ? 1 : -1;
    fit_near near = {.gap_mm = fabs(q.z_mm) - s->half_mm, .way = sw_vec3_scaled(f.z, up)};
    near.foot = (fit_foot){.face = face, .cut = {.face = -1}, .skin_way = sw_vec3_scaled(f.z, up / 2)};
    near.foot.at = sw_frame_point(f, (sw_vec3){q.x_mm, q.y_mm, up * s->half_mm});
    offer(s, &near, false);
}

/* The point of a segment nearest to p, and its outward direction (to the right of travel). */
static sw_point nearest_on(sw_vertex from, sw_point to, sw_point p, sw_point *out)
{
    if (fabs(from.bulge) <= SW_FLAT_BULGE) {
        double dx = to.x_mm - from.x_mm, dy = to.y_mm - from.y_mm, l2 = dx * dx + dy * dy, l = sqrt(l2);
        double t = fmin(1, fmax(0, ((p.x_mm - from.x_mm) * dx + (p.y_mm - from.y_mm) * dy) / l2));
        *out = (sw_point){dy / l, -dx / l};
        return (sw_point){from.x_mm + t * dx, from.y_mm + t * dy};
    }
    sw_arc arc = sw_segment_arc(from, to);
    double at_rad = atan2(p.y_mm - arc.centre.y_mm, p.x_mm - arc.centre.x_mm);
    double middle_rad = arc.from_rad + arc.sweep_rad / 2;
    double off_rad = remainder(at_rad - middle_rad, 2 * SW_PI), half_rad = fabs(arc.sweep_rad) / 2;
    at_rad = middle_rad + fmin(half_rad, fmax(-half_rad, off_rad));
    double side = arc.sweep_rad > 0 ? 1 : -1, c = cos(at_rad), n = sin(at_rad);
    *out = (sw_point){side * c, side * n};
    return (sw_point){arc.centre.x_mm + arc.radius_mm * c, arc.centre.y_mm + arc.radius_mm * n};
}

static bool in_run(const sw_edge *e, int face, size_t hole, size_t segment)
{
    return e->face == face && e->zone == 0 && e->hole == hole && segment >= e->first && segment < e->first + e->count;
}

/* A cut line goes by the first segment of the named edge it belongs to, so that both sides of a joint mean the same. */
static fit_cut cut_of(const sw_piece *piece, int face, size_t hole, size_t segment)
{
    for (size_t e = 0; e < piece->edge_count; e++)
        if (in_run(&piece->edges[e], face, hole, segment)) return (fit_cut){face, 0, hole, piece->edges[e].first};
    return (fit_cut){face, 0, hole, segment};
}

static fit_near wall_near(const search *s, int face, fit_cut cut, sw_vec3 q, sw_point foot, sw_point out)
{
    sw_frame f = s->piece->solid.faces[face];
    sw_vec3 way = sw_frame_direction(f, (sw_vec3){out.x_mm, out.y_mm, 0});
    double high_mm = fmin(s->half_mm, fmax(-s->half_mm, q.z_mm));
    double in_plane_mm = (q.x_mm - foot.x_mm) * out.x_mm + (q.y_mm - foot.y_mm) * out.y_mm;
    double over_mm = q.z_mm - high_mm, aside_mm = hypot(q.x_mm - foot.x_mm, q.y_mm - foot.y_mm);
    fit_near near = {.gap_mm = in_plane_mm, .way = way};
    near.foot = (fit_foot){.face = face, .cut = cut, .cut_way = way};
    near.foot.at = sw_frame_point(f, (sw_vec3){foot.x_mm, foot.y_mm, high_mm});
    if (fabs(over_mm) > SW_SAME_POINT_MM || aside_mm > fabs(in_plane_mm) + SW_SAME_POINT_MM) {
        sw_vec3 off = sw_vec3_sub(sw_frame_point(f, q), near.foot.at); /* over the rim or round a corner */
        near.gap_mm = sw_vec3_length(off);
        if (near.gap_mm > alike_mm) near.way = sw_vec3_unit(off);
        if (fabs(over_mm) > SW_SAME_POINT_MM) near.foot.skin_way = sw_vec3_scaled(f.z, over_mm > 0 ? 0.5 : -0.5);
    }
    return near;
}

/* Where a child hangs on its bend there is no wall. */
static bool is_bend_edge(sw_vertex from, sw_vertex to)
{
    return fabs(from.y_mm) <= SW_SAME_POINT_MM && fabs(to.y_mm) <= SW_SAME_POINT_MM && to.x_mm > from.x_mm;
}

static void offer_wall(search *s, int face, size_t hole, sw_vec3 q)
{
    const sw_region *r = &s->piece->piece->faces[face].region;
    sw_contour c = hole == 0 ? r->outline : r->holes[hole - 1];
    double least_mm = INFINITY;
    size_t segment = 0;
    sw_point foot = {0, 0}, out = {0, 0};
    for (size_t i = 0; i < c.n; i++) {
        if (s->to->edge != NULL && !in_run(s->to->edge, face, hole, i)) continue;
        sw_vertex next = c.v[(i + 1) % c.n];
        if (hole == 0 && face > 0 && is_bend_edge(c.v[i], next)) continue;
        sw_point way, p = nearest_on(c.v[i], (sw_point){next.x_mm, next.y_mm}, (sw_point){q.x_mm, q.y_mm}, &way);
        double off_mm = hypot(p.x_mm - q.x_mm, p.y_mm - q.y_mm);
        if (off_mm >= least_mm) continue;
        least_mm = off_mm;
        segment = i;
        foot = p;
        out = way;
    }
    if (isinf(least_mm)) return;
    fit_near near = wall_near(s, face, cut_of(s->piece->piece, face, hole, segment), q, foot, out);
    offer(s, &near, true);
}

static void offer_face(search *s, int face, sw_vec3 p)
{
    const sw_region *r = &s->piece->piece->faces[face].region;
    sw_vec3 q = sw_frame_local(s->piece->solid.faces[face], p);
    if (fabs(q.z_mm) - s->half_mm > s->best_rank_mm) return;
    bool line = r->outline.n == 2 && fabs(r->outline.v[0].bulge) <= SW_FLAT_BULGE; /* where two bends meet */
    bool on = !line && sw_region_side(r, (sw_point){q.x_mm, q.y_mm}) >= 0;
    if (on && face != s->to->not_face) offer_skin(s, face, q);
    bool may_be_wall = s->to->edge == NULL ? face != s->to->not_face : s->to->edge->face == face;
    for (size_t h = 0; may_be_wall && h <= r->hole_count; h++) offer_wall(s, face, h, q);
}

/* ---- zones ---- */

static void offer_zone(search *s, size_t bend, sw_vec3 p)
{
    const sw_bend *b = &s->piece->piece->bends[bend];
    double w_mm = hypot(b->from.x_mm - b->to.x_mm, b->from.y_mm - b->to.y_mm), r_mm = b->radius_mm;
    sw_vec3 x = {(b->from.x_mm - b->to.x_mm) / w_mm, (b->from.y_mm - b->to.y_mm) / w_mm, 0};
    sw_frame local = {x, {-x.y_mm, x.x_mm, 0}, {0, 0, 1}, {b->to.x_mm, b->to.y_mm, 0}};
    sw_frame axes = sw_frame_in(s->piece->solid.faces[b->parent], local);
    sw_vec3 q = sw_frame_local(axes, p);
    double side = b->angle_rad > 0 ? 1 : -1, angle_rad = fabs(b->angle_rad), middle_mm = r_mm + s->half_mm;
    double y = q.y_mm, z = q.z_mm - side * middle_mm, rho_mm = hypot(y, z);
    double round_rad = angle_rad / 2 + remainder(atan2(y, -side * z) - angle_rad / 2, 2 * SW_PI);
    bool beside = q.x_mm < -SW_SAME_POINT_MM || q.x_mm > w_mm + SW_SAME_POINT_MM || round_rad < 0 ||
                  round_rad > angle_rad || rho_mm < SW_SHORTEST_MM;
    if (beside) return;
    double outer_mm = rho_mm - (r_mm + 2 * s->half_mm), inner_mm = r_mm - rho_mm;
    double up = outer_mm > inner_mm ? 1 : -1, skin_mm = up > 0 ? r_mm + 2 * s->half_mm : r_mm;
    sw_vec3 radial = {0, y / rho_mm, z / rho_mm};
    fit_near near = {.gap_mm = fmax(outer_mm, inner_mm), .way = sw_frame_direction(axes, sw_vec3_scaled(radial, up))};
    near.foot = (fit_foot){.face = b->child, .zone = bend + 1, .cut = {.face = -1}};
    near.foot.skin_way = sw_vec3_scaled(near.way, 0.5);
    near.foot.at =
        sw_frame_point(axes, (sw_vec3){q.x_mm, skin_mm * radial.y_mm, side * middle_mm + skin_mm * radial.z_mm});
    offer(s, &near, false);
}

static search start(const fit_partner *partner)
{
    const sw_sheet_piece *piece = fit_piece(partner->job, partner->specimen);
    return (search){.to = partner,
                    .piece = piece,
                    .half_mm = piece->piece->thickness_mm / 2,
                    .best = {.gap_mm = INFINITY},
                    .best_rank_mm = INFINITY};
}

fit_near fit_nearest(const fit_partner *partner, sw_vec3 p)
{
    search s = start(partner);
    const sw_piece *piece = s.piece->piece;
    for (size_t f = 0; f < piece->face_count; f++)
        if (partner->face < 0 || partner->face == (int)f) offer_face(&s, (int)f, p);
    bool zones = partner->face < 0 && partner->edge == NULL && partner->not_face < 0;
    for (size_t b = 0; zones && b < piece->bend_count; b++) offer_zone(&s, b, p);
    return s.best;
}

/* ---- slots ---- */

size_t fit_slot_walls(const fit_partner *partner, sw_vec3 p, double reach_mm, fit_near *out, size_t most)
{
    search s = start(partner);
    size_t count = 0;
    for (size_t f = 0; f < s.piece->piece->face_count && count == 0; f++) {
        const sw_region *r = &s.piece->piece->faces[f].region;
        sw_vec3 q = sw_frame_local(s.piece->solid.faces[f], p);
        sw_point at = {q.x_mm, q.y_mm};
        if ((partner->face >= 0 && partner->face != (int)f) || fabs(q.z_mm) > s.half_mm + reach_mm) continue;
        for (size_t h = 1; h <= r->hole_count; h++) {
            sw_contour c = r->holes[h - 1];
            if (sw_contour_side(c, at) < 0) continue;
            for (size_t i = 0; i < c.n && count < most; i++) {
                sw_point way,
                    foot = nearest_on(c.v[i], (sw_point){c.v[(i + 1) % c.n].x_mm, c.v[(i + 1) % c.n].y_mm}, at, &way);
                if (fabs(c.v[i].bulge) > SW_FLAT_BULGE || hypot(foot.x_mm - at.x_mm, foot.y_mm - at.y_mm) > reach_mm)
                    continue;
                sw_vec3 level = {q.x_mm, q.y_mm, 0};
                out[count] = wall_near(&s, (int)f, cut_of(s.piece->piece, (int)f, h, i), level, foot, way);
                out[count++].foot.specimen = partner->specimen;
            }
        }
    }
    return count;
}
