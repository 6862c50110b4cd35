/* build_number.c: etches the piece's number on its root face, where there is room for it. */
#include "design/design_parts.h"

#include <math.h>
#include <string.h>

/* Width of an etched text by its height: ours, a generous figure for any plain lettering. */
static const double width_by_height = 0.8;

static sw_point inside_box(sw_box box, double fx, double fy)
{
    return (sw_point){box.x0_mm + fx * (box.x1_mm - box.x0_mm), box.y0_mm + fy * (box.y1_mm - box.y0_mm)};
}

/* Whether the outline keeps clear of the text's box: at once when it is farther from the middle than the corners are, else
 * by points of the box. */
static bool inside_outline(const sw_contour *outline, sw_point at, double width_mm, double height_mm)
{
    static const double spots[][2] = {{0, 0}, {1, 0}, {1, 1}, {0, 1}, {0.5, 0}, {0.5, 1}, {0, 0.5}, {1, 0.5}};
    sw_point middle = {at.x_mm + width_mm / 2.0, at.y_mm + height_mm / 2.0};
    if (sw_contour_side(*outline, middle) <= 0) return false;
    if (sw_contour_distance(*outline, middle) > hypot(width_mm, height_mm) / 2.0) return true;
    for (size_t i = 0; i < DESIGN_COUNT_OF(spots); i++) {
        sw_point p = {at.x_mm + width_mm * spots[i][0], at.y_mm + height_mm * spots[i][1]};
        if (sw_contour_side(*outline, p) <= 0) return false;
    }
    return true;
}

static bool boxes_overlap(sw_box a, sw_box b)
{
    return a.x0_mm < b.x1_mm && b.x0_mm < a.x1_mm && a.y0_mm < b.y1_mm && b.y0_mm < a.y1_mm;
}

/* Holes are kept clear of by their boxes; most are told by their covers already. */
static bool has_room(const sw_region *region, const sw_box *covers, sw_point at, double width_mm, double height_mm)
{
    sw_box text = {at.x_mm, at.y_mm, at.x_mm + width_mm, at.y_mm + height_mm};
    for (size_t i = 0; i < region->hole_count; i++)
        if (boxes_overlap(covers[i], text) && boxes_overlap(sw_contour_box(region->holes[i]), text)) return false;
    return inside_outline(&region->outline, at, width_mm, height_mm);
}

/* Around a hole at little cost: an arc of bulge b lies within chord/2 max(1, |b|) of its chord's box. */
static sw_box cover_of(sw_contour c)
{
    sw_box box = {INFINITY, INFINITY, -INFINITY, -INFINITY};
    double reach_mm = 0.0;
    for (size_t i = 0; i < c.n; i++) {
        sw_vertex v = c.v[i], next = c.v[i + 1 < c.n ? i + 1 : 0];
        box = (sw_box){v.x_mm < box.x0_mm ? v.x_mm : box.x0_mm, v.y_mm < box.y0_mm ? v.y_mm : box.y0_mm,
                       v.x_mm > box.x1_mm ? v.x_mm : box.x1_mm, v.y_mm > box.y1_mm ? v.y_mm : box.y1_mm};
        if (v.bulge == 0.0) continue;
        double chord_mm = fabs(next.x_mm - v.x_mm) + fabs(next.y_mm - v.y_mm); /* or more */
        double arc_mm = 0.5 * chord_mm * (fabs(v.bulge) > 1.0 ? fabs(v.bulge) : 1.0);
        if (arc_mm > reach_mm) reach_mm = arc_mm;
    }
    reach_mm += SW_SAME_POINT_MM;
    return (sw_box){box.x0_mm - reach_mm, box.y0_mm - reach_mm, box.x1_mm + reach_mm, box.y1_mm + reach_mm};
}

/* The middle of the text on a grid of the face's box, nearest to its middle first. */
static bool find_room(const sw_region *region, const sw_box *covers, double width_mm, double height_mm, sw_point *at)
{
    static const double steps[] = {0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9};
    sw_box box = sw_contour_box(region->outline);
    if (width_mm > box.x1_mm - box.x0_mm || height_mm > box.y1_mm - box.y0_mm) return false;
    for (size_t y = 0; y < DESIGN_COUNT_OF(steps); y++)
        for (size_t x = 0; x < DESIGN_COUNT_OF(steps); x++) {
            sw_point middle = inside_box(box, steps[x], steps[y]);
            *at = (sw_point){middle.x_mm - width_mm / 2.0, middle.y_mm - height_mm / 2.0};
            if (has_room(region, covers, *at, width_mm, height_mm)) return true;
        }
    return false;
}

void design_build_number(design *d, sw_piece *piece, const design_face *root)
{
    static const double heights_mm[] = {8.0, 5.0, 3.0};
    sw_face *face = (sw_face *)&piece->faces[0];
    if (root != NULL && root->no_number) return;
    sw_mark mark = {.text = piece->number, .height_mm = heights_mm[0]};
    bool placed = root != NULL && root->has_number_at;
    if (placed) mark.at = root->number_at;
    sw_box *covers = DESIGN_TAKE(d, face->region.hole_count, sw_box);
    for (size_t i = 0; i < face->region.hole_count; i++) covers[i] = cover_of(face->region.holes[i]);
    for (size_t i = 0; i < DESIGN_COUNT_OF(heights_mm) && !placed; i++) {
        mark.height_mm = heights_mm[i];
        placed = find_room(&face->region, covers, mark.height_mm * width_by_height * (double)strlen(piece->number),
                           mark.height_mm, &mark.at);
    }
    if (!placed) return; /* too small a face to carry a number */
    sw_mark *marks = DESIGN_TAKE(d, face->mark_count + 1, sw_mark);
    if (face->mark_count > 0) memcpy(marks, face->marks, face->mark_count * sizeof *marks);
    marks[face->mark_count++] = mark;
    face->marks = marks;
}
