/* build_ends.c: what stands between a corner and the bend nearest to it: a free stretch, a relief notch, or nothing.
 *
 * A notch is cut where material would stand beside the bent zone: the bend ends inside an edge, or the corner is
 * concave or no corner at all. A gap asked for at a convex corner needs none. Beside the face's own root the side
 * keeps its declared line for a thickness, then comes the notch. */
#include "design/build_parts.h"

#include <math.h>

static void set_notch(build_end *end, const build_bend *b, bool round)
{
    end->notch_mm = b->relief_mm;
    end->notch_depth_mm = b->notch_mm - (round ? b->relief_mm / 2.0 : 0.0);
    end->notch_bulge = round ? -1.0 : 0.0; /* half a circle, clockwise: it goes into the face */
}

static bool beside_root(const build_face *f, const build_bend *b, double given_mm, bool at_start, build_end *end)
{
    double least_mm = b->relief_mm + SW_SHORTEST_MM;
    if (!isnan(given_mm) && given_mm < least_mm) {
        design_fault(
            &b->decl->at, at_start ? "gap_start" : "gap_end",
            "is %g mm beside the bend this face hangs on; its relief notch needs %.4g mm at least, or leave it out",
            given_mm, least_mm);
        return false;
    }
    if (b->relief_mm > 0.0) set_notch(end, b, b->round_notch);
    end->free_mm = isnan(given_mm) ? f->tree->thickness_mm : given_mm - b->relief_mm;
    return true;
}

static bool square_to(const build_side *a, const build_side *b)
{
    return a->straight && b->straight &&
           fabs(a->along.x_mm * b->along.x_mm + a->along.y_mm * b->along.y_mm) < SW_SAME_POINT_MM;
}

/* What the rounding of corner i takes from its sides: R tan(turn/2). A smaller gap vanishes in it. */
static double rounding_mm(const build_face *f, size_t i)
{
    const build_side *out = &f->sides[i], *in = &f->sides[(i + f->side_count - 1) % f->side_count];
    double radius_mm = f->outline->round_mm[i];
    if (radius_mm <= 0.0 || !in->straight || !out->straight) return 0.0;
    double cross = in->along.x_mm * out->along.y_mm - in->along.y_mm * out->along.x_mm;
    double dot = in->along.x_mm * out->along.x_mm + in->along.y_mm * out->along.y_mm;
    return radius_mm * tan(fabs(atan2(cross, dot)) / 2.0) + SW_SHORTEST_MM;
}

/* distance_mm: of the bend's end from the declared corner, before the gap. */
static bool set_end(const build_face *f, const build_side *side, const build_bend *b, double distance_mm, bool at_start,
                    build_end *end)
{
    size_t index = (size_t)(side - f->sides), n = f->side_count;
    const build_side *other = &f->sides[at_start ? (index + n - 1) % n : (index + 1) % n];
    build_meeting meets = at_start ? side->start_meets : side->end_meets;
    double given_mm = at_start ? b->decl->gap_start_mm : b->decl->gap_end_mm, gap_mm = isnan(given_mm) ? 0.0 : given_mm;
    *end = (build_end){0};
    if (distance_mm > 0.0) {
        end->inside = true;
        end->bend_at_mm = distance_mm + gap_mm;
        if (b->relief_mm > 0.0) set_notch(end, b, b->round_notch);
        return true;
    }
    if (other->root && b->setback_mm > 0.0) return beside_root(f, b, given_mm, at_start, end);
    bool material = meets != BUILD_CONVEX && other->bend_count == 0;
    if (material && b->relief_mm > 0.0 && gap_mm < b->relief_mm) {
        set_notch(end, b, b->round_notch && (square_to(side, other) || meets == BUILD_STRAIGHT));
        end->depth_mm = end->notch_depth_mm;
        return true;
    }
    end->depth_mm = b->setback_mm;
    end->free_mm = gap_mm > rounding_mm(f, at_start ? index : (index + 1) % n) ? gap_mm : 0.0;
    return true;
}

bool build_find_ends(build_face *f)
{
    for (size_t i = 0; i < f->side_count; i++) {
        build_side *side = &f->sides[i];
        if (side->bend_count == 0) continue;
        const build_bend *first = &side->bends[0], *last = &side->bends[side->bend_count - 1];
        if (!set_end(f, side, first, first->from_mm, true, &side->at_start)) return false;
        if (!set_end(f, side, last, side->length_mm - last->to_mm, false, &side->at_end)) return false;
    }
    return true;
}
