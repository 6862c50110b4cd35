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

/* Holes are kept clear of by their boxes. */
static bool has_room(const sw_contour *outline, const sw_box *holes, size_t hole_count, sw_point at, double width_mm,
                     double height_mm)
{
    for (size_t i = 0; i < hole_count; i++)
        if (holes[i].x0_mm < at.x_mm + width_mm && holes[i].x1_mm > at.x_mm && holes[i].y0_mm < at.y_mm + height_mm &&
            holes[i].y1_mm > at.y_mm)
            return false;
    return inside_outline(outline, at, width_mm, height_mm);
}

/* The middle of the text on a grid of the face's box, nearest to its middle first. */
static bool find_room(const sw_region *region, const sw_box *holes, double width_mm, double height_mm, sw_point *at)
{
    static const double steps[] = {0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9};
    sw_box box = sw_contour_box(region->outline);
    if (width_mm > box.x1_mm - box.x0_mm || height_mm > box.y1_mm - box.y0_mm) return false;
    for (size_t y = 0; y < DESIGN_COUNT_OF(steps); y++)
        for (size_t x = 0; x < DESIGN_COUNT_OF(steps); x++) {
            sw_point middle = inside_box(box, steps[x], steps[y]);
            *at = (sw_point){middle.x_mm - width_mm / 2.0, middle.y_mm - height_mm / 2.0};
            if (has_room(&region->outline, holes, region->hole_count, *at, width_mm, height_mm)) return true;
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
    sw_box *holes = DESIGN_TAKE(d, face->region.hole_count, sw_box);
    for (size_t i = 0; i < face->region.hole_count; i++) holes[i] = sw_contour_box(face->region.holes[i]);
    for (size_t i = 0; i < DESIGN_COUNT_OF(heights_mm) && !placed; i++) {
        mark.height_mm = heights_mm[i];
        placed = find_room(&face->region, holes, mark.height_mm * width_by_height * (double)strlen(piece->number),
                           mark.height_mm, &mark.at);
    }
    if (!placed) return; /* too small a face to carry a number */
    sw_mark *marks = DESIGN_TAKE(d, face->mark_count + 1, sw_mark);
    if (face->mark_count > 0) memcpy(marks, face->marks, face->mark_count * sizeof *marks);
    marks[face->mark_count++] = mark;
    face->marks = marks;
}
