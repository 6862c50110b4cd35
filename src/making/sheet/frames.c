/* frames.c: where faces, zones and edges come to lie when the piece is folded. Mid-surface, piece frame. */
#include "making/sheet/sheet_parts.h"

#include <math.h>

/* Axes at the bend in the parent's frame: x along the child's x, y out of the parent, z the parent's; origin at `to`. */
static sw_frame bend_axes(const sw_bend *b)
{
    double w_mm = hypot(b->to.x_mm - b->from.x_mm, b->to.y_mm - b->from.y_mm);
    double ux = (b->to.x_mm - b->from.x_mm) / w_mm, uy = (b->to.y_mm - b->from.y_mm) / w_mm;
    return (sw_frame){{-ux, -uy, 0.0}, {uy, -ux, 0.0}, {0.0, 0.0, 1.0}, {b->to.x_mm, b->to.y_mm, 0.0}};
}

static double side_of(const sw_bend *b)
{
    return b->angle_rad > 0.0 ? 1.0 : -1.0;
}

/* Round the bend by theta: y turns towards the side the child folds to. */
static sw_frame frame_round(const sw_bend *b, double middle_mm, double theta_rad)
{
    double c = cos(theta_rad), s = sin(theta_rad), side = side_of(b);
    return (sw_frame){
        {1.0, 0.0, 0.0}, {0.0, c, side * s}, {0.0, -side * s, c}, {0.0, middle_mm * s, side * middle_mm * (1.0 - c)}};
}

void sw_sheet_frames(const sw_tree *tree, sw_frame *frames)
{
    frames[0] = sw_frame_world();
    for (size_t f = 1; f < tree->piece->face_count; f++) {
        const sw_bend *b = &tree->piece->bends[tree->bend_of[f]];
        sw_frame local = frame_round(b, tree->zones[tree->bend_of[f]].middle_mm, fabs(b->angle_rad));
        frames[f] = sw_frame_in(frames[b->parent], sw_frame_in(bend_axes(b), local));
    }
}

sw_frame sw_sheet_zone_frame(const sw_tree *tree, const sw_frame *frames, int bend)
{
    const sw_bend *b = &tree->piece->bends[bend];
    return sw_frame_in(frames[b->parent], bend_axes(b));
}

sw_part_axes sw_sheet_part_axes(const sw_tree *tree, const sw_frame *frames, int part)
{
    int faces = (int)tree->piece->face_count;
    if (part < faces) return (sw_part_axes){.part = part, .frame = frames[part]};
    const sw_bend *b = &tree->piece->bends[part - faces];
    const sw_zone *z = &tree->zones[part - faces];
    return (sw_part_axes){.part = part,
                          .frame = sw_sheet_zone_frame(tree, frames, part - faces),
                          .round_rad = fabs(b->angle_rad) / z->allowance_mm,
                          .middle_mm = z->middle_mm,
                          .side = side_of(b)};
}

/* Round the bend at theta the middle is (x, R sin, side R (1 - cos)) and the sheet's front looks to (0, -side sin, cos). */
sw_vec3 sw_part_axes_point(const sw_part_axes *a, sw_point p, double height_mm)
{
    if (a->round_rad == 0.0) return sw_frame_point(a->frame, (sw_vec3){p.x_mm, p.y_mm, height_mm});
    double theta = p.y_mm * a->round_rad, s = sin(theta), c = cos(theta);
    double y = (a->middle_mm - a->side * height_mm) * s, z = a->side * a->middle_mm * (1.0 - c) + height_mm * c;
    return sw_frame_point(a->frame, (sw_vec3){p.x_mm, y, z});
}

size_t sw_sheet_chords(sw_vertex from, sw_point to, double chord_mm)
{
    if (fabs(from.bulge) <= SW_FLAT_BULGE) return 1;
    sw_arc arc = sw_segment_arc(from, to);
    double step_rad = fmin(SW_PI / 4.0, 2.0 * acos(fmax(0.0, 1.0 - chord_mm / arc.radius_mm)));
    return (size_t)ceil(fabs(arc.sweep_rad) / step_rad - 1e-9);
}

static sw_vertex outline_at(const sw_contour *c, size_t i)
{
    return c->v[i % c->n];
}

static size_t put_ring(sw_contour c, double chord_mm, sw_point *points, size_t n)
{
    for (size_t i = 0; i < c.n; i++) {
        sw_vertex v = outline_at(&c, i), next = outline_at(&c, i + 1);
        sw_point to = {next.x_mm, next.y_mm};
        size_t chords = sw_sheet_chords(v, to, chord_mm);
        points[n++] = (sw_point){v.x_mm, v.y_mm};
        for (size_t k = 1; k < chords; k++) points[n++] = sw_segment_point(v, to, (double)k / (double)chords);
    }
    return n;
}

static size_t ring_size(sw_contour c, double chord_mm)
{
    size_t n = 0;
    for (size_t i = 0; i < c.n; i++) {
        sw_vertex next = outline_at(&c, i + 1);
        n += sw_sheet_chords(c.v[i], (sw_point){next.x_mm, next.y_mm}, chord_mm);
    }
    return n;
}

sw_status sw_sheet_rings(sw_run *run, const sw_region *r, double chord_mm, sw_rings *out)
{
    size_t total = ring_size(r->outline, chord_mm), n = 0;
    for (size_t h = 0; h < r->hole_count; h++) total += ring_size(r->holes[h], chord_mm);
    sw_point *points = SW_SCRATCH(run, total, sw_point);
    size_t *ends = SW_SCRATCH(run, r->hole_count + 1, size_t);
    if (points == NULL || ends == NULL) return SW_NO_MEMORY;
    for (size_t h = 0; h <= r->hole_count; h++)
        ends[h] = n = put_ring(h == 0 ? r->outline : r->holes[h - 1], chord_mm, points, n);
    *out = (sw_rings){points, ends, r->hole_count + 1};
    return SW_OK;
}
