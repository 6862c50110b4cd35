/* fit_moves.c: how a bent piece moves when one of its bends is off. Derived in docs/studies/fit.md.
 *
 * In the axes of the bend (x along it, y out of the parent, z the parent's front) the middle of the sheet runs round the
 * angle t as y = R sin t, z = s R (1 - cos t), s the side it folds to. A change of the angle turns all that hangs on the
 * bend about its centre (0, s R); the others are shifts. */
#include "making/fit/fit.h"

#include <math.h>

typedef struct bend_place {
    sw_frame axes; /* piece frame */
    double side, angle_rad, middle_mm;
} bend_place;

static bend_place place_of(const sw_sheet_piece *piece, size_t bend)
{
    const sw_bend *b = &piece->piece->bends[bend];
    double w_mm = hypot(b->from.x_mm - b->to.x_mm, b->from.y_mm - b->to.y_mm);
    sw_vec3 x = {(b->from.x_mm - b->to.x_mm) / w_mm, (b->from.y_mm - b->to.y_mm) / w_mm, 0};
    sw_frame local = {x, {-x.y_mm, x.x_mm, 0}, {0, 0, 1}, {b->to.x_mm, b->to.y_mm, 0}};
    return (bend_place){sw_frame_in(piece->solid.faces[b->parent], local), b->angle_rad > 0 ? 1 : -1,
                        fabs(b->angle_rad), b->radius_mm + piece->piece->thickness_mm / 2};
}

/* The bend that carries a face, -1 = the root. */
static int bend_of(const sw_piece *piece, int face)
{
    for (size_t i = 0; i < piece->bend_count; i++)
        if (piece->bends[i].child == face) return (int)i;
    return -1;
}

static bool hangs_on(const sw_piece *piece, int face, size_t bend)
{
    for (int b = bend_of(piece, face); b >= 0; b = bend_of(piece, piece->bends[b].parent))
        if ((size_t)b == bend) return true;
    return false;
}

/* How far round the zone the point lies, 0..1 of its angle. */
static double share_round(const bend_place *b, sw_vec3 q)
{
    double half_rad = b->angle_rad / 2;
    double round_rad = atan2(q.y_mm, b->middle_mm - b->side * q.z_mm);
    round_rad = half_rad + remainder(round_rad - half_rad, 2 * SW_PI);
    return fmin(1, fmax(0, round_rad / b->angle_rad));
}

sw_vec3 sw_fit_moved(const sw_sheet_piece *piece, size_t bend, sw_fit_bend_change change, int face, size_t zone,
                     sw_vec3 p)
{
    const sw_piece *shape = piece->piece;
    bool in_zone = zone == bend + 1;
    int from = zone > 0 ? shape->bends[zone - 1].parent : face;
    if (!in_zone && !hangs_on(shape, from, bend)) return (sw_vec3){0, 0, 0};
    bend_place b = place_of(piece, bend);
    sw_vec3 q = sw_frame_local(b.axes, p);
    double share = in_zone ? share_round(&b, q) : 1, t = share * b.angle_rad, turn = b.side * share * change.angle_rad;
    double child = share * change.child_mm;
    double y = -turn * (q.z_mm - b.side * b.middle_mm) + change.radius_mm * sin(t) + change.parent_mm + child * cos(t);
    double z = turn * q.y_mm + b.side * (change.radius_mm * (1 - cos(t)) + child * sin(t));
    return sw_frame_direction(b.axes, (sw_vec3){0, y, z});
}

sw_fit_bend_change sw_fit_angle_off(const sw_sheet_piece *piece, size_t bend, double off_rad)
{
    const sw_flat_bend *flat = &piece->flat.bends[bend];
    double taken_mm = off_rad * flat->allowance_mm / fabs(flat->bend->angle_rad);
    return (sw_fit_bend_change){.angle_rad = off_rad, .parent_mm = -taken_mm / 2, .child_mm = -taken_mm / 2};
}

sw_fit_bend_change sw_fit_line_off(double off_mm)
{
    return (sw_fit_bend_change){.parent_mm = off_mm, .child_mm = -off_mm};
}

/* The tool keeps the inside radius; the neutral fibre moves out, so the zone takes more of the flat. What is rolled follows
 * its template instead. */
sw_fit_bend_change sw_fit_thickness_off(const sw_sheet_piece *piece, size_t bend, double off_mm)
{
    const sw_flat_bend *flat = &piece->flat.bends[bend];
    if (flat->bend->kind == SW_ROLLED) return (sw_fit_bend_change){0};
    double taken_mm = fabs(flat->bend->angle_rad) * flat->k * off_mm;
    return (sw_fit_bend_change){.radius_mm = off_mm / 2, .parent_mm = -taken_mm / 2, .child_mm = -taken_mm / 2};
}

/* The zone keeps its length, so a larger radius bends it less. */
sw_fit_bend_change sw_fit_roll_off(const sw_sheet_piece *piece, size_t bend, double off_mm)
{
    const sw_flat_bend *flat = &piece->flat.bends[bend];
    double angle_rad = fabs(flat->bend->angle_rad);
    return (sw_fit_bend_change){.radius_mm = off_mm, .angle_rad = -angle_rad * off_mm * angle_rad / flat->allowance_mm};
}
