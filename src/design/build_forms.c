/* build_forms.c: setbacks, the short forms written out as plain bends, plain flanges. */
#include "design/build_parts.h"

#include <math.h>
#include <string.h>

/* Distance from the tangent line to where the outside comes to lie, mm.
 *   up to 90 deg: (r + s) tan(A/2), outside intersection; above: r + s, outermost tangent
 * source: DIN 6935, leg measuring conventions of its formulas for v (they agree at 90 deg) */
double build_setback_mm(double radius_mm, double thickness_mm, double angle_rad)
{
    double a = fabs(angle_rad);
    return (radius_mm + thickness_mm) * (a < SW_PI / 2 ? tan(a / 2.0) : 1.0);
}

/* DIN 6935: k = 0.65 + 0.5 log10(r/s) runs towards 0; below r/s of about 0.3 it does not hold. */
static const double least_ratio = 0.33;

static double radius_of(const build_tree *t, const design_bend *b)
{
    return isnan(b->radius_mm) ? t->thickness_mm : b->radius_mm;
}

bool build_check_bend(build_tree *t, const design_bend *b, double *radius_mm)
{
    *radius_mm = radius_of(t, b);
    bool by_rule = isnan(b->k);
    if (b->kind == SW_HEMMED || !by_rule || *radius_mm >= least_ratio * t->thickness_mm - SW_SAME_POINT_MM) return true;
    design_fault(&b->at, "radius",
                 "is %g mm inside a sheet of %g mm: below %g times the thickness the rule of DIN 6935 does "
                 "not hold; give at least %.3g mm, or the bend's own k from a trial",
                 *radius_mm, t->thickness_mm, least_ratio, least_ratio * t->thickness_mm);
    return false;
}

/* ---- short forms ---- */

/* K of a closed hem, 0.30 to 0.33 at r = 0: common practice, no source. */
static const double hem_k = 0.33;

static const design_bend *hem(build_tree *t, const design_bend *decl)
{
    design_bend *b = DESIGN_TAKE(t->d, 1, design_bend);
    *b = *decl;
    b->form = DESIGN_PLAIN;
    b->angle_rad = decl->side == 0 ? SW_PI : -SW_PI;
    b->radius_mm = decl->gap_mm / 2.0;
    if (isnan(b->k) && b->radius_mm < least_ratio * t->thickness_mm) b->k = hem_k;
    return b;
}

static design_bend *joggle_part(build_tree *t, const design_bend *decl, double angle_rad, double height_mm)
{
    design_bend *b = DESIGN_TAKE(t->d, 1, design_bend);
    *b = *decl;
    b->form = DESIGN_PLAIN;
    b->angle_rad = angle_rad;
    b->radius_mm = radius_of(t, decl);
    b->height_mm = height_mm;
    return b;
}

/* Two equal opposite bends, mid-surface radius R = r + s/2:  t = (h - 2 R (1 - cos A)) / sin A  (derived). */
static const design_bend *joggle(build_tree *t, const design_bend *decl)
{
    double a = decl->angle_rad, sign = decl->offset_mm < 0.0 ? -1.0 : 1.0, offset_mm = fabs(decl->offset_mm);
    double least_mm = (2.0 * radius_of(t, decl) + t->thickness_mm) * (1.0 - cos(a));
    double straight_mm = (offset_mm - least_mm) / sin(a);
    if (straight_mm < -SW_SAME_POINT_MM) {
        design_fault(&decl->at, "offset",
                     "is %g mm, but two bends of %g deg with inside radius %g mm offset at least %.4g mm; "
                     "give more offset, a smaller angle or radius",
                     decl->offset_mm, sw_deg_from_rad(a), radius_of(t, decl), least_mm);
        return NULL;
    }
    design_bend *first = joggle_part(t, decl, sign * a, straight_mm < SW_SHORTEST_MM ? 0.0 : straight_mm);
    design_bend *second = joggle_part(t, decl, -sign * a, decl->length_mm);
    first->partner = second;
    second->on = "tip";
    second->second = true;
    second->from_mm = second->to_mm = second->gap_start_mm = second->gap_end_mm = NAN;
    design_face *web = DESIGN_TAKE(t->d, 1, design_face);
    *web = (design_face){.name = "", .bends = second, .bend_count = 1, .at = decl->at};
    first->face = web;
    return first;
}

const design_bend *build_written_out(build_tree *t, const design_bend *decl)
{
    if (decl->form == DESIGN_HEM) return hem(t, decl);
    return decl->form == DESIGN_JOGGLE ? joggle(t, decl) : decl;
}

/* ---- child outlines ---- */

static design_outline *new_outline(design *d, size_t n)
{
    design_outline *o = DESIGN_TAKE(d, 1, design_outline);
    *o = (design_outline){.v = DESIGN_TAKE(d, n, sw_vertex),
                          .round_mm = DESIGN_TAKE(d, n, double),
                          .edge = DESIGN_TAKE(d, n, const char *),
                          .n = n};
    return o;
}

static const design_outline *no_depth(build_tree *t, double width_mm)
{
    design_outline *o = new_outline(t->d, 2);
    o->v[1] = (sw_vertex){width_mm, 0.0, 0.0};
    o->edge[0] = "root";
    o->edge[1] = "tip";
    return o;
}

static const design_outline *plain_flange(build_tree *t, const design_bend *b, double width_mm, double height_mm)
{
    double right_mm = width_mm - height_mm * tan(b->slope_start_rad), left_mm = height_mm * tan(b->slope_end_rad);
    if (right_mm - left_mm < SW_SHORTEST_MM) {
        design_fault(&b->at, "slope_start",
                     "and slope_end leave no tip on a flange %.4g mm wide and %.4g mm deep; make it "
                     "lower or the slopes smaller",
                     width_mm, height_mm);
        return NULL;
    }
    static const char *const names[] = {"root", "right", "tip", "left"};
    design_outline *o = new_outline(t->d, 4);
    const sw_vertex v[4] = {
        {0.0, 0.0, 0.0}, {width_mm, 0.0, 0.0}, {right_mm, height_mm, 0.0}, {left_mm, height_mm, 0.0}};
    memcpy(o->v, v, sizeof v);
    memcpy(o->edge, names, sizeof names);
    o->round_mm[2] = o->round_mm[3] = b->corner_mm;
    return o;
}

static bool near(sw_vertex v, double x_mm)
{
    return fabs(v.x_mm - x_mm) <= SW_SHORTEST_MM && fabs(v.y_mm) <= SW_SHORTEST_MM;
}

static const design_outline *declared(build_tree *t, const build_bend *b, double width_mm, size_t *root)
{
    const design_outline *given = b->decl->face->outline;
    design_outline *o = new_outline(t->d, given->n);
    memcpy(o->v, given->v, given->n * sizeof *o->v);
    memcpy(o->round_mm, given->round_mm, given->n * sizeof *o->round_mm);
    memcpy(o->edge, given->edge, given->n * sizeof *o->edge);
    for (size_t i = 0; i < o->n; i++) {
        size_t j = (i + 1) % o->n;
        if (!near(o->v[i], 0.0) || !near(o->v[j], width_mm) || fabs(o->v[i].bulge) >= SW_FLAT_BULGE) continue;
        o->v[i] = (sw_vertex){0.0, 0.0, 0.0};
        o->v[j] = (sw_vertex){width_mm, 0.0, o->v[j].bulge};
        *root = i;
        bool above = sw_contour_box((sw_contour){o->v, o->n}).y0_mm >= -SW_SHORTEST_MM;
        if (above && o->round_mm[i] <= 0.0 && o->round_mm[j] <= 0.0) return o;
        break;
    }
    design_fault(&b->decl->at, "face.outline",
                 "must have a sharp-cornered straight edge from (0, 0) to (%.6g, 0), the length of "
                 "the bend in mm, and lie above it (y >= 0)",
                 width_mm);
    return NULL;
}

const design_outline *build_child_outline(build_tree *t, const build_bend *b, double width_mm, size_t *root)
{
    const design_bend *decl = b->decl;
    *root = 0;
    if (decl->face != NULL && decl->face->outline != NULL) {
        if (isnan(decl->height_mm)) return declared(t, b, width_mm, root);
        design_fault(&decl->at, "height",
                     "and face.outline are both given; the outline says how far the face reaches, leave height out");
        return NULL;
    }
    if (isnan(decl->height_mm) && decl->kind != SW_ROLLED) {
        design_fault(&decl->at, "height",
                     "is missing; give the flange height, e.g. 30*mm, 0*mm for a face of no depth, or face.outline");
        return NULL;
    }
    if (isnan(decl->height_mm) || decl->height_mm < SW_SAME_POINT_MM) return no_depth(t, width_mm);
    double flat_mm = decl->height_mm;
    if (decl->dims == DESIGN_OUTSIDE) flat_mm -= build_setback_mm(b->radius_mm, t->thickness_mm, decl->angle_rad);
    if (flat_mm >= SW_SHORTEST_MM) return plain_flange(t, decl, width_mm, flat_mm);
    design_fault(&decl->at, "height",
                 "is %g mm to the outside, but the bend alone takes %.4g mm of it; give more, or dims = \"tangent\"",
                 decl->height_mm, decl->height_mm - flat_mm);
    return NULL;
}
