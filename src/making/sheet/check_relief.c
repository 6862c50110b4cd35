/* check_relief.c: where a bend ends beside material of the face, is there a notch wide and deep enough?
 *
 * At each end of the bend a line is followed along the tangent line, a hair inside the face, to the first edge met:
 * material at once = no relief; material within a notch's reach = that wide, and a line into the face from the
 * middle of the notch tells how deep; nothing = the bend runs out to the face's side and needs none. */
#include "making/sheet/sheet_parts.h"

#include <math.h>

static const double hair_mm = 0.01; /* ours: how far beside the line is looked */

typedef struct relief {
    const sw_bend *bend;
    const char *face;
    double width_mm, depth_mm; /* depth from the bend line */
    double least_width_mm, least_depth_mm;
    double margin; /* the lesser of both */
    bool found, width_worse;
} relief;

/* Distance from p along d to the first edge of the region's outline, INFINITY = none. */
static double free_mm(const sw_contour *c, sw_point p, sw_point d)
{
    double best_mm = INFINITY;
    sw_point far = {p.x_mm + d.x_mm * 4e4, p.y_mm + d.y_mm * 4e4}, at[2];
    for (size_t i = 0; i < c->n; i++) {
        sw_vertex next = c->v[(i + 1) % c->n];
        size_t n =
            sw_segment_crossings((sw_vertex){p.x_mm, p.y_mm, 0.0}, far, c->v[i], (sw_point){next.x_mm, next.y_mm}, at);
        for (size_t k = 0; k < n; k++) best_mm = fmin(best_mm, hypot(at[k].x_mm - p.x_mm, at[k].y_mm - p.y_mm));
    }
    return best_mm;
}

static sw_point stepped(sw_point p, sw_point d, double by_mm)
{
    return (sw_point){p.x_mm + d.x_mm * by_mm, p.y_mm + d.y_mm * by_mm};
}

/* One end of a bend on one of its faces: away points along the tangent line off the bend, in into the face. */
static relief relief_at(const sw_tree *tree, int bend, const sw_face *face, sw_point end, sw_point away, sw_point in)
{
    const sw_bend *b = &tree->piece->bends[bend];
    const sw_contour *c = &face->region.outline;
    double s_mm = tree->piece->thickness_mm, reach_mm = 3.0 * (b->radius_mm + s_mm);
    relief r = {.bend = b, .face = face->name, .least_width_mm = s_mm, .least_depth_mm = b->radius_mm + s_mm};
    sw_point beside = stepped(stepped(end, away, hair_mm), in, hair_mm);
    double half_zone_mm = tree->zones[bend].allowance_mm / 2.0;
    if (sw_contour_side(*c, beside) >= 0) { /* on the edge: a side that leaves at just 45 degrees */
        if (sw_contour_side(*c, stepped(stepped(end, away, s_mm / 2.0), in, hair_mm)) <= 0)
            return r; /* a slope, no wall */
        r.found = true;
    } else {
        r.width_mm = hair_mm + free_mm(c, beside, away);
        if (!(r.width_mm < reach_mm)) return r;
        r.found = true;
        r.depth_mm =
            half_zone_mm + hair_mm + free_mm(c, stepped(stepped(end, away, r.width_mm / 2.0), in, hair_mm), in);
    }
    double width = (r.width_mm + SW_SHORTEST_MM - r.least_width_mm) / r.least_width_mm;
    double depth = (r.depth_mm + SW_SHORTEST_MM - r.least_depth_mm) / r.least_depth_mm;
    r.width_worse = width <= depth;
    r.margin = fmin(width, depth);
    return r;
}

static void keep_worse(relief *worst, relief r)
{
    if (r.found && (!worst->found || r.margin < worst->margin)) *worst = r;
}

static void weigh_bend(relief *worst, const sw_tree *tree, int bend)
{
    const sw_bend *b = &tree->piece->bends[bend];
    const sw_face *parent = &tree->piece->faces[b->parent], *child = &tree->piece->faces[b->child];
    double w = tree->zones[bend].width_mm;
    sw_point u = {(b->to.x_mm - b->from.x_mm) / w, (b->to.y_mm - b->from.y_mm) / w}, back = {-u.x_mm, -u.y_mm};
    sw_point in = {-u.y_mm, u.x_mm};
    keep_worse(worst, relief_at(tree, bend, parent, b->from, back, in));
    keep_worse(worst, relief_at(tree, bend, parent, b->to, u, in));
    keep_worse(worst, relief_at(tree, bend, child, (sw_point){0, 0}, (sw_point){-1, 0}, (sw_point){0, 1}));
    keep_worse(worst, relief_at(tree, bend, child, (sw_point){w, 0}, (sw_point){1, 0}, (sw_point){0, 1}));
}

sw_status sw_check_relief(sw_run *run, const sw_sheet_study *study, const sw_sheet_case *c)
{
    const sw_piece *p = c->piece->piece;
    relief worst = {.found = false};
    for (size_t i = 0; i < p->bend_count; i++)
        if (p->bends[i].kind == SW_PRESSED) weigh_bend(&worst, c->tree, (int)i);
    if (!worst.found) return SW_OK;
    bool missing = worst.width_mm <= 2.0 * hair_mm;
    sw_finding f = {.check = "relief",
                    .sense = SW_AT_LEAST,
                    .unit = "mm",
                    .place = worst.bend->place,
                    .source = "common practice, no source: width 1 x thickness, depth radius + thickness"};
    f.value = worst.width_worse ? worst.width_mm : worst.depth_mm;
    f.limit = worst.width_worse ? worst.least_width_mm : worst.least_depth_mm;
    if (fabs(f.value - f.limit) <= SW_SHORTEST_MM) f.value = f.limit; /* as drawn, but for rounding */
    f.remedy =
        "give the bend a relief (relief = \"round\"; from and to in place of a gap), or end it at the side of the face";
    f.where = sw_text_format(run, run->keep, "%s %s, %s, face %s", p->number, p->name, worst.bend->name, worst.face);
    f.what =
        missing ? sw_text_format(run, run->keep, "no relief where the bend ends beside material; at least %.2f mm wide",
                                 worst.least_width_mm)
                : sw_text_format(run, run->keep, "relief %.2f mm %s, at least %.2f mm", f.value,
                                 worst.width_worse ? "wide" : "deep from the bend line", f.limit);
    return sw_sheet_report(run, study, f, 0.0);
}
