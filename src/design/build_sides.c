/* build_sides.c: takes a declared outline apart into sides and puts every bend on its own. */
#include "design/build_parts.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static bool flat_segment(sw_vertex v)
{
    return fabs(v.bulge) < SW_FLAT_BULGE;
}

static void set_side(build_face *f, size_t i)
{
    const design_outline *o = f->outline;
    build_side *side = &f->sides[i];
    sw_vertex next = o->v[(i + 1) % o->n];
    *side = (build_side){
        .v = o->v[i], .start = {o->v[i].x_mm, o->v[i].y_mm}, .end_point = {next.x_mm, next.y_mm}, .edge = o->edge[i]};
    side->straight = flat_segment(o->v[i]);
    side->root = i == f->root;
    side->length_mm = sw_segment_length(side->v, side->end_point);
    side->along = sw_segment_direction(side->v, side->end_point, 0.0);
    side->inward = (sw_point){-side->along.y_mm, side->along.x_mm};
}

/* ---- which side a bend is on ---- */

static void no_such_edge(const build_face *f, const design_bend *b)
{
    const char *names[64] = {""};
    size_t n = 0;
    for (size_t i = 0; i < f->side_count && n < DESIGN_COUNT_OF(names); i++)
        if (f->sides[i].edge != NULL && !f->sides[i].root) names[n++] = f->sides[i].edge;
    const char *hint = design_hint(f->tree->d, b->on, names, n);
    design_fault(&b->at, "on", "\"%s\" is not an edge of this face%s%s%s%s", b->on, hint,
                 n > 0 && hint[0] == '\0' ? "; it has \"" : "", n > 0 && hint[0] == '\0' ? names[0] : "",
                 n > 0 && hint[0] == '\0' ? "\" and so on" : "");
}

static bool find_side(const build_face *f, const design_bend *b, size_t *side)
{
    size_t found = 0;
    for (size_t i = 0; i < f->side_count; i++) {
        if (f->sides[i].edge == NULL || strcmp(f->sides[i].edge, b->on) != 0) continue;
        if (found++ == 0) *side = i;
    }
    if (found == 0) return no_such_edge(f, b), false;
    if (f->sides[*side].root) {
        design_fault(&b->at, "on", "\"%s\" is where this face hangs on its own bend; bend another edge", b->on);
        return false;
    }
    if (found == 1 && f->sides[*side].straight) return true;
    design_fault(&b->at, "on", "\"%s\" is %s; a bend needs one straight segment", b->on,
                 found > 1 ? "made of several segments" : "curved");
    return false;
}

static bool find_range(const build_face *f, build_bend *b)
{
    const design_bend *decl = b->decl;
    double length_mm = f->sides[b->side].length_mm;
    b->from_mm = isnan(decl->from_mm) ? 0.0 : decl->from_mm;
    b->to_mm = isnan(decl->to_mm) ? length_mm : decl->to_mm;
    if (fabs(b->to_mm - length_mm) <= SW_SHORTEST_MM) b->to_mm = length_mm;
    if (b->from_mm <= SW_SHORTEST_MM) b->from_mm = 0.0;
    if (b->to_mm <= length_mm && b->from_mm < b->to_mm - SW_SHORTEST_MM) return true;
    design_fault(&decl->at, decl->to_mm > length_mm ? "to" : "from",
                 "the bend would run from %g to %g mm, but the edge \"%s\" goes from 0 to %.6g mm", b->from_mm,
                 b->to_mm, decl->on, length_mm);
    return false;
}

/* Depth of the notch from the declared line. relief_depth counts from the bend line, the middle of the bent zone,
 * which lies |A| r/2 beyond the tangent line at least (K = 0); the notch passes the tangent line by half a thickness
 * in any case. Default radius + thickness: common practice, no source. Rolls: as deep as wide. */
static double notch_depth_mm(const build_bend *b, double thickness_mm)
{
    const design_bend *decl = b->decl;
    double depth_mm = isnan(decl->relief_depth_mm) ? b->radius_mm + thickness_mm : decl->relief_depth_mm;
    double past_mm = decl->kind == SW_ROLLED && isnan(decl->relief_depth_mm)
                         ? b->relief_mm
                         : depth_mm - fabs(decl->angle_rad) * b->radius_mm / 2.0;
    if (past_mm < thickness_mm / 2.0) past_mm = thickness_mm / 2.0;
    if (b->round_notch && past_mm < b->relief_mm / 2.0) past_mm = b->relief_mm / 2.0;
    return b->setback_mm + past_mm;
}

static bool set_bend(build_face *f, const design_bend *declared, size_t order, build_bend *b)
{
    build_tree *t = f->tree;
    *b = (build_bend){.decl = build_written_out(t, declared), .order = order};
    if (b->decl == NULL || !build_check_bend(t, b->decl, &b->radius_mm)) return false;
    if (!find_side(f, b->decl, &b->side) || !find_range(f, b)) return false;
    if (b->decl->dims == DESIGN_OUTSIDE)
        b->setback_mm = build_setback_mm(b->radius_mm, t->thickness_mm, b->decl->angle_rad);
    double width_mm = isnan(b->decl->relief_width_mm) ? t->thickness_mm : b->decl->relief_width_mm;
    b->relief_mm = b->decl->relief == DESIGN_RELIEF_NONE ? 0.0 : width_mm;
    b->round_notch = b->decl->relief == DESIGN_RELIEF_ROUND;
    b->notch_mm = notch_depth_mm(b, t->thickness_mm);
    return true;
}

/* A face of no depth can only be bent over its whole length and without cutting it back. */
static bool fits_no_depth(const build_face *f, const build_bend *b)
{
    bool whole = b->from_mm <= 0.0 && b->to_mm >= f->sides[b->side].length_mm;
    bool gaps = b->decl->gap_start_mm > 0.0 || b->decl->gap_end_mm > 0.0;
    if (!f->flat || (whole && !gaps && b->setback_mm <= 0.0)) return true;
    design_fault(&b->decl->at, "dims",
                 "a face of no depth can only be bent along its whole edge with dims = \"tangent\"");
    return false;
}

/* ---- in order ---- */

static int by_place(const void *a, const void *b)
{
    const build_bend *one = a, *other = b;
    if (one->side != other->side) return one->side < other->side ? -1 : 1;
    return (one->from_mm > other->from_mm) - (one->from_mm < other->from_mm);
}

static bool hand_out(build_face *f)
{
    qsort(f->bends, f->bend_count, sizeof *f->bends, by_place);
    for (size_t i = 0; i < f->bend_count; i++) {
        build_side *side = &f->sides[f->bends[i].side];
        if (side->bend_count++ == 0) {
            side->bends = &f->bends[i];
            side->first_bend = (int)i;
        } else if (f->bends[i].from_mm < f->bends[i - 1].to_mm) {
            design_fault(&f->bends[i].decl->at, "from",
                         "overlaps another bend on the edge \"%s\", which runs from %g to %g mm", side->edge,
                         f->bends[i - 1].from_mm, f->bends[i - 1].to_mm);
            return false;
        }
    }
    return true;
}

static build_meeting meeting(const build_side *a, const build_side *b)
{
    sw_point in = sw_segment_direction(a->v, a->end_point, 1.0);
    double cross = in.x_mm * b->along.y_mm - in.y_mm * b->along.x_mm;
    double dot = in.x_mm * b->along.x_mm + in.y_mm * b->along.y_mm;
    if (fabs(cross) < 1e-9 && dot > 0.0) return BUILD_STRAIGHT;
    return cross >= 0.0 ? BUILD_CONVEX : BUILD_CONCAVE;
}

bool build_find_sides(build_face *f)
{
    design *d = f->tree->d;
    size_t declared = f->decl == NULL ? 0 : f->decl->bend_count;
    f->side_count = f->outline->n;
    f->sides = DESIGN_TAKE(d, f->side_count, build_side);
    for (size_t i = 0; i < f->side_count; i++) set_side(f, i);
    for (size_t i = 0; i < f->side_count; i++) {
        size_t j = (i + 1) % f->side_count;
        f->sides[i].end_meets = f->sides[j].start_meets = meeting(&f->sides[i], &f->sides[j]);
    }
    f->bends = DESIGN_TAKE(d, declared, build_bend);
    bool good = true;
    for (size_t i = 0; i < declared; i++) {
        build_bend *b = &f->bends[f->bend_count];
        if (set_bend(f, &f->decl->bends[i], i, b) && fits_no_depth(f, b))
            f->bend_count++;
        else
            good = false;
    }
    return good && hand_out(f);
}
