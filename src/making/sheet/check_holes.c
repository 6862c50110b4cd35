/* check_holes.c: holes too near a bend, which pulls them out of round, and holes too small for the laser. */
#include "making/sheet/sheet_parts.h"

#include <math.h>

#define TO_BEND_SOURCE    "sheet-metal design rules: hole edge to bend line at least 2 x thickness + radius"
#define LEAST_HOLE_SOURCE "sheet-metal design rules: hole at least as wide as the sheet is thick"

typedef struct hole_gap {
    const sw_bend *bend;
    size_t face, hole;
    double distance_mm, least_mm, margin;
} hole_gap;

static double point_to_line(sw_point p, sw_point a, sw_point b)
{
    double dx = b.x_mm - a.x_mm, dy = b.y_mm - a.y_mm, square = dx * dx + dy * dy;
    double t = ((p.x_mm - a.x_mm) * dx + (p.y_mm - a.y_mm) * dy) / square;
    t = fmin(1.0, fmax(0.0, t));
    return hypot(p.x_mm - a.x_mm - t * dx, p.y_mm - a.y_mm - t * dy);
}

/* Nearest that the box can come to the line: a cheap lower bound. */
static double box_to_line(sw_box box, sw_point a, sw_point b)
{
    sw_point middle = {(box.x0_mm + box.x1_mm) / 2.0, (box.y0_mm + box.y1_mm) / 2.0};
    double half_mm = hypot(box.x1_mm - box.x0_mm, box.y1_mm - box.y0_mm) / 2.0;
    return point_to_line(middle, a, b) - half_mm;
}

static double hole_to_line(sw_contour hole, sw_point a, sw_point b)
{
    const sw_vertex line[2] = {{a.x_mm, a.y_mm, 0.0}, {b.x_mm, b.y_mm, 0.0}};
    return sw_contours_distance(hole, (sw_contour){line, 2});
}

/* The bend line (middle of the zone) in the frame of one of the faces it joins. */
static void bend_line(const sw_tree *tree, int bend, bool of_child, sw_point *a, sw_point *b)
{
    const sw_bend *d = &tree->piece->bends[bend];
    double w = tree->zones[bend].width_mm, half = tree->zones[bend].allowance_mm / 2.0;
    sw_point u = {(d->to.x_mm - d->from.x_mm) / w, (d->to.y_mm - d->from.y_mm) / w};
    *a = of_child ? (sw_point){0.0, -half} : (sw_point){d->from.x_mm + u.y_mm * half, d->from.y_mm - u.x_mm * half};
    *b = of_child ? (sw_point){w, -half} : (sw_point){d->to.x_mm + u.y_mm * half, d->to.y_mm - u.x_mm * half};
}

static void weigh_holes(hole_gap *worst, const sw_tree *tree, int bend, bool of_child)
{
    const sw_bend *d = &tree->piece->bends[bend];
    size_t face = (size_t)(of_child ? d->child : d->parent);
    const sw_region *r = &tree->piece->faces[face].region;
    double least_mm = 2.0 * tree->piece->thickness_mm + d->radius_mm;
    sw_point a, b;
    bend_line(tree, bend, of_child, &a, &b);
    for (size_t h = 0; h < r->hole_count; h++) {
        double bound_mm = box_to_line(sw_contour_box(r->holes[h]), a, b);
        if (worst->bend != NULL && (bound_mm - least_mm) / least_mm >= worst->margin) continue;
        hole_gap g = {.bend = d, .face = face, .hole = h, .least_mm = least_mm};
        g.distance_mm = hole_to_line(r->holes[h], a, b);
        g.margin = (g.distance_mm - least_mm) / least_mm;
        if (worst->bend == NULL || g.margin < worst->margin) *worst = g;
    }
}

static sw_status check_to_bend(sw_run *run, const sw_sheet_study *study, const sw_sheet_case *c)
{
    const sw_piece *p = c->piece->piece;
    hole_gap worst = {.bend = NULL};
    for (size_t i = 0; i < p->bend_count; i++) {
        if (p->bends[i].kind != SW_PRESSED) continue;
        weigh_holes(&worst, c->tree, (int)i, true);
        weigh_holes(&worst, c->tree, (int)i, false);
    }
    if (worst.bend == NULL) return SW_OK;
    sw_finding f = {.check = "hole_to_bend",
                    .sense = SW_AT_LEAST,
                    .value = worst.distance_mm,
                    .limit = worst.least_mm,
                    .unit = "mm",
                    .source = TO_BEND_SOURCE,
                    .place = worst.bend->place};
    f.remedy = "move the hole away from the bend, cut it after bending, or free it by a slot in the bend";
    f.where = sw_text_format(run, run->keep, "%s %s, face %s, hole %zu", p->number, p->name, p->faces[worst.face].name,
                             worst.hole + 1);
    f.what = sw_text_format(run, run->keep, "hole edge %.2f mm from the line of %s, at least %.2f mm", f.value,
                            worst.bend->name, f.limit);
    return sw_sheet_report(run, study, f, 0.0);
}

/* Extent of the contour across the direction (c, s), arcs included. */
static double extent_mm(sw_contour contour, double c, double s)
{
    double low = INFINITY, high = -INFINITY;
    for (size_t i = 0; i < contour.n; i++) {
        sw_vertex v = contour.v[i], next = contour.v[(i + 1) % contour.n];
        double at = c * v.y_mm - s * v.x_mm;
        low = fmin(low, at);
        high = fmax(high, at);
        if (fabs(v.bulge) <= SW_FLAT_BULGE) continue;
        sw_arc arc = sw_segment_arc(v, (sw_point){next.x_mm, next.y_mm});
        for (int side = -1; side <= 1; side += 2) { /* the arc's point farthest to this side, if it has it */
            double phi = atan2(side * c, -side * s),
                   off = remainder(phi - arc.from_rad - arc.sweep_rad / 2.0, 2.0 * SW_PI);
            if (fabs(off) > fabs(arc.sweep_rad) / 2.0) continue;
            double top = c * arc.centre.y_mm - s * arc.centre.x_mm + side * arc.radius_mm;
            low = fmin(low, top);
            high = fmax(high, top);
        }
    }
    return high - low;
}

/* Least width between parallel lines: along one of its straight edges, or of its box when all are arcs. */
static double least_width_mm(sw_contour c)
{
    double least = fmin(extent_mm(c, 1.0, 0.0), extent_mm(c, 0.0, 1.0));
    for (size_t i = 0; i < c.n; i++) {
        sw_vertex v = c.v[i], next = c.v[(i + 1) % c.n];
        double dx = next.x_mm - v.x_mm, dy = next.y_mm - v.y_mm, length_mm = hypot(dx, dy);
        if (fabs(v.bulge) > SW_FLAT_BULGE || length_mm < SW_SHORTEST_MM) continue;
        least = fmin(least, extent_mm(c, dx / length_mm, dy / length_mm));
    }
    return least;
}

static sw_status check_size(sw_run *run, const sw_sheet_study *study, const sw_sheet_case *c)
{
    const sw_piece *p = c->piece->piece;
    const sw_region *r = &c->piece->flat.region;
    if (r->hole_count == 0) return SW_OK;
    double least_mm = INFINITY;
    size_t count = 0;
    for (size_t h = 0; h < r->hole_count; h++) {
        double width_mm = least_width_mm(r->holes[h]);
        if (width_mm < p->thickness_mm) count++;
        least_mm = fmin(least_mm, width_mm);
    }
    sw_finding f = {.check = "least_hole",
                    .sense = SW_AT_LEAST,
                    .value = least_mm,
                    .limit = p->thickness_mm,
                    .unit = "mm",
                    .source = LEAST_HOLE_SOURCE,
                    .place = p->place,
                    .where = sw_piece_label(run, p)};
    f.remedy = "a larger hole, or drill it; the laser's own limit is about 0.7 x thickness";
    f.what =
        r->hole_count == 1
            ? sw_text_format(run, run->keep, "the hole is %.2f mm wide in %.3g mm sheet", least_mm, p->thickness_mm)
            : sw_text_format(run, run->keep, "smallest of %zu holes is %.2f mm wide in %.3g mm sheet, %zu below",
                             r->hole_count, least_mm, p->thickness_mm, count);
    return sw_sheet_report(run, study, f, 0.0);
}

sw_status sw_check_holes(sw_run *run, const sw_sheet_study *study, const sw_sheet_case *c)
{
    SW_TRY(check_to_bend(run, study, c));
    return check_size(run, study, c);
}
