/* build_ring.c: writes the stretches of all sides one after the other: the outline of the face as it is cut. */
#include "design/build_parts.h"

#include <math.h>

typedef struct ring_writer {
    build_face *f;
    design_ring *ring;
    const build_side *side;
    double depth_mm;
    bool begun;
} ring_writer;

static void put(design_ring *ring, sw_point p, double bulge, double round_mm, const char *edge, int bend)
{
    if (ring->n > 0 &&
        hypot(ring->v[ring->n - 1].x_mm - p.x_mm, ring->v[ring->n - 1].y_mm - p.y_mm) < SW_SAME_POINT_MM) {
        ring->n--; /* the segment between has no length */
        round_mm = 0.0;
    }
    ring->v[ring->n] = (sw_vertex){p.x_mm, p.y_mm, bulge};
    ring->round_mm[ring->n] = round_mm;
    ring->edge[ring->n] = edge;
    ring->bend[ring->n++] = bend;
}

static sw_point on_side(const build_side *side, double along_mm, double depth_mm)
{
    return (sw_point){side->start.x_mm + side->along.x_mm * along_mm + side->inward.x_mm * depth_mm,
                      side->start.y_mm + side->along.y_mm * along_mm + side->inward.y_mm * depth_mm};
}

/* A stretch of the side begins: where the depth changes a wall goes in or out first. The first one starts at the corner. */
static void stretch(ring_writer *w, double from_mm, double depth_mm, double bulge, const char *edge, int bend)
{
    const build_side *side = w->side;
    if (!w->begun) {
        size_t last = side->corner_count - 1;
        double round_mm = last == 0 ? w->f->outline->round_mm[side - w->f->sides] : 0.0;
        if (last == 1) put(w->ring, side->corners[0], 0.0, 0.0, NULL, -1);
        put(w->ring, side->corners[last], bulge, round_mm, edge, bend);
    } else {
        if (fabs(depth_mm - w->depth_mm) > SW_SAME_POINT_MM)
            put(w->ring, on_side(side, from_mm, w->depth_mm), 0.0, 0.0, NULL, -1);
        put(w->ring, on_side(side, from_mm, depth_mm), bulge, 0.0, edge, bend);
    }
    w->begun = true;
    w->depth_mm = depth_mm;
}

static double along_of(const build_side *side, sw_point p)
{
    return (p.x_mm - side->start.x_mm) * side->along.x_mm + (p.y_mm - side->start.y_mm) * side->along.y_mm;
}

/* ---- a straight side ---- */

/* Between two bends of one side: one notch where two would meet, else notch, free edge, notch. */
static bool between(ring_writer *w, const build_bend *a, double from_mm, const build_bend *b, double to_mm)
{
    double width_mm = to_mm - from_mm, both_mm = a->relief_mm + b->relief_mm;
    const char *edge = w->side->edge;
    double least_mm = fmin(a->relief_mm, b->relief_mm);
    if (width_mm < fmax(least_mm, SW_SHORTEST_MM) - SW_SAME_POINT_MM) {
        design_fault(&b->decl->at, "from",
                     "starts %.4g mm after the bend before it on \"%s\"; leave at least %.4g mm between them", width_mm,
                     edge, fmax(least_mm, w->f->tree->thickness_mm));
        return false;
    }
    if (both_mm > 0.0 && width_mm <= both_mm + SW_SHORTEST_MM) {
        bool round = a->round_notch && b->round_notch;
        double depth_mm = fmax(fmax(a->notch_mm, b->notch_mm), fmax(a->setback_mm, b->setback_mm) + width_mm / 2.0);
        stretch(w, from_mm, depth_mm - (round ? width_mm / 2.0 : 0.0), round ? -1.0 : 0.0, NULL, -1);
        return true;
    }
    if (a->relief_mm > 0.0)
        stretch(w, from_mm, a->notch_mm - (a->round_notch ? a->relief_mm / 2.0 : 0.0), a->round_notch ? -1.0 : 0.0,
                NULL, -1);
    stretch(w, from_mm + a->relief_mm, 0.0, 0.0, edge, -1);
    if (b->relief_mm > 0.0)
        stretch(w, to_mm - b->relief_mm, b->notch_mm - (b->round_notch ? b->relief_mm / 2.0 : 0.0),
                b->round_notch ? -1.0 : 0.0, NULL, -1);
    return true;
}

/* Where the bend begins or ends, mm from the corner `corner_mm` of the side, both measured inward from that end. */
static double bend_starts_mm(const build_end *end, double corner_mm)
{
    return end->inside ? end->bend_at_mm : corner_mm + end->free_mm + end->notch_mm;
}

static bool room_for(const build_face *f, const build_side *side, const build_bend *b, const build_end *end,
                     double corner_mm, const char *field)
{
    (void)f;
    if (!end->inside || end->bend_at_mm - end->notch_mm >= corner_mm + SW_SHORTEST_MM) return true;
    design_fault(
        &b->decl->at, field,
        "leaves %.4g mm of the edge \"%s\" beside the bend, but its relief notch needs %.4g mm and some edge; move the "
        "bend, let it reach the corner, or set relief = \"none\"",
        end->bend_at_mm - corner_mm, side->edge, end->notch_mm);
    return false;
}

static void opening_part(ring_writer *w, const build_end *end, double corner_mm, double bend_mm)
{
    double notch_mm = bend_mm - end->notch_mm;
    if (notch_mm > corner_mm + SW_SAME_POINT_MM) stretch(w, corner_mm, end->depth_mm, 0.0, w->side->edge, -1);
    if (end->notch_mm > 0.0) stretch(w, notch_mm, end->notch_depth_mm, end->notch_bulge, NULL, -1);
}

static void closing_part(ring_writer *w, const build_end *end, double corner_mm, double bend_mm)
{
    double notch_mm = bend_mm + end->notch_mm;
    if (end->notch_mm > 0.0) stretch(w, bend_mm, end->notch_depth_mm, end->notch_bulge, NULL, -1);
    if (notch_mm < corner_mm - SW_SAME_POINT_MM) stretch(w, notch_mm, end->depth_mm, 0.0, w->side->edge, -1);
}

static bool bent_side(ring_writer *w, double start_mm, double end_mm)
{
    const build_side *side = w->side;
    const build_bend *first = &side->bends[0], *last = &side->bends[side->bend_count - 1];
    double far_mm = side->length_mm - end_mm; /* the far corner, seen from the declared end */
    if (!room_for(w->f, side, first, &side->at_start, start_mm, "from") ||
        !room_for(w->f, side, last, &side->at_end, far_mm, "to"))
        return false;
    double from_mm = bend_starts_mm(&side->at_start, start_mm),
           close_mm = side->length_mm - bend_starts_mm(&side->at_end, far_mm);
    opening_part(w, &side->at_start, start_mm, from_mm);
    for (size_t i = 0; i < side->bend_count; i++) {
        const build_bend *b = &side->bends[i];
        double gap_mm = isnan(b->decl->gap_end_mm) ? 0.0 : b->decl->gap_end_mm;
        double to_mm = b == last ? close_mm : b->to_mm - gap_mm;
        if (to_mm - from_mm < SW_SHORTEST_MM) {
            design_fault(
                &b->decl->at, "on",
                "nothing is left of the bend on \"%s\": reliefs, gaps and what the neighbouring bends cut away take all %.6g mm",
                side->edge, side->length_mm);
            return false;
        }
        stretch(w, from_mm, b->setback_mm, 0.0, NULL, side->first_bend + (int)i);
        if (b == last) break;
        const build_bend *next = b + 1;
        from_mm = next->from_mm + (isnan(next->decl->gap_start_mm) ? 0.0 : next->decl->gap_start_mm);
        if (!between(w, b, to_mm, next, from_mm)) return false;
    }
    closing_part(w, &side->at_end, end_mm, close_mm);
    return true;
}

/* ---- any side ---- */

/* The bulge of an arc whose ends may have moved along its circle. */
static double arc_bulge(const build_side *side, sw_point from, sw_point to)
{
    sw_arc arc = sw_segment_arc(side->v, side->end_point);
    double a = atan2(from.y_mm - arc.centre.y_mm, from.x_mm - arc.centre.x_mm),
           b = atan2(to.y_mm - arc.centre.y_mm, to.x_mm - arc.centre.x_mm);
    double sweep = b - a, turn = 2.0 * SW_PI;
    while (sweep < arc.sweep_rad - SW_PI) sweep += turn;
    while (sweep > arc.sweep_rad + SW_PI) sweep -= turn;
    return tan(sweep / 4.0);
}

static bool write_side(ring_writer *w, size_t i)
{
    const build_side *side = &w->f->sides[i], *next = &w->f->sides[(i + 1) % w->f->side_count];
    sw_point from = side->corners[side->corner_count - 1], to = next->corners[0];
    w->side = side;
    w->begun = false;
    if (!side->straight) {
        stretch(w, 0.0, 0.0, arc_bulge(side, from, to), side->edge, -1);
        return true;
    }
    double start_mm = along_of(side, from), end_mm = along_of(side, to);
    if (end_mm - start_mm < SW_SHORTEST_MM) {
        design_fault(side->bend_count > 0 ? &side->bends[0].decl->at : w->f->at, "",
                     "nothing is left of the edge \"%s\": the bends beside it cut it away",
                     side->edge == NULL ? "" : side->edge);
        return false;
    }
    if (side->bend_count > 0) return bent_side(w, start_mm, end_mm);
    stretch(w, start_mm, 0.0, 0.0, side->root ? NULL : side->edge, -1);
    return true;
}

static bool round_corners(build_face *f, const design_ring *sharp, design_ring *ring)
{
    int wrong = design_ring_round(f->tree->d, sharp, ring);
    if (wrong < 0) return true;
    design_fault(
        f->at, "outline",
        "the corner radius %g mm at (%.6g, %.6g) does not fit: the edges beside it are too short or not straight",
        sharp->round_mm[wrong], sharp->v[wrong].x_mm, sharp->v[wrong].y_mm);
    return false;
}

bool build_ring(build_face *f, design_ring *ring)
{
    size_t room = 2 * f->side_count + 10 * f->bend_count;
    design *d = f->tree->d;
    design_ring sharp = {DESIGN_TAKE(d, room, sw_vertex), DESIGN_TAKE(d, room, double),
                         DESIGN_TAKE(d, room, const char *), DESIGN_TAKE(d, room, int), 0};
    ring_writer w = {.f = f, .ring = &sharp};
    for (size_t i = 0; i < f->side_count; i++)
        if (!write_side(&w, i)) return false;
    return round_corners(f, &sharp, ring);
}
