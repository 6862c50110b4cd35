/* build_mirror.c: a piece mirrored in its own y axis (x -> -x), front side staying front side.
 *
 * Outlines run the other way round after mirroring, so they are written backwards: segment i becomes segment
 * n-1-i. A bend walks its edge the other way: `from` and `to` change places, and so do the two ends of the child's
 * bend edge, which means its x is mirrored about the middle, x -> w - x. Angles keep their sign. */
#include "design/design_parts.h"

#include <math.h>
#include <string.h>

static sw_vertex *mirrored_vertices(design *d, const sw_vertex *v, size_t n, double about_mm, bool closed)
{
    sw_vertex *out = DESIGN_TAKE(d, n, sw_vertex);
    for (size_t i = 0; i < n; i++) {
        size_t from = closed ? (n - i) % n : n - 1 - i;
        size_t segment = closed ? n - 1 - i : (from == 0 ? 0 : from - 1); /* the old segment that starts here now */
        out[i] = (sw_vertex){about_mm - v[from].x_mm, v[from].y_mm, v[segment].bulge};
    }
    return out;
}

static sw_contour mirrored_contour(design *d, sw_contour c, double about_mm)
{
    return (sw_contour){mirrored_vertices(d, c.v, c.n, about_mm, true), c.n};
}

static sw_mark mirrored_mark(design *d, sw_mark mark, double about_mm, const char *old_number, const char *number)
{
    if (mark.text[0] == '\0') {
        mark.path.v = mirrored_vertices(d, mark.path.v, mark.path.n, about_mm, false);
        return mark;
    }
    /* a text stays readable: its lower right corner becomes the lower left one (0.8 of the height a letter: ours) */
    double width_mm = 0.8 * mark.height_mm * (double)strlen(mark.text);
    mark.at = (sw_point){about_mm - (mark.at.x_mm + width_mm * cos(mark.turn_rad)),
                         mark.at.y_mm + width_mm * sin(mark.turn_rad)};
    mark.turn_rad = -mark.turn_rad;
    if (strcmp(mark.text, old_number) == 0) mark.text = number;
    return mark;
}

static sw_face mirrored_face(design *d, const sw_face *face, double about_mm, const char *old_number,
                             const char *number)
{
    sw_face out = *face;
    design_charge_contours(d, &face->region.outline, 1);
    design_charge_contours(d, face->region.holes, face->region.hole_count);
    out.region.outline = mirrored_contour(d, face->region.outline, about_mm);
    sw_contour *holes = DESIGN_TAKE(d, face->region.hole_count, sw_contour);
    for (size_t i = 0; i < face->region.hole_count; i++)
        holes[i] = mirrored_contour(d, face->region.holes[i], about_mm);
    out.region.holes = holes;
    sw_mark *marks = DESIGN_TAKE(d, face->mark_count, sw_mark);
    for (size_t i = 0; i < face->mark_count; i++)
        marks[i] = mirrored_mark(d, face->marks[i], about_mm, old_number, number);
    out.marks = marks;
    return out;
}

static double width_of(const sw_bend *b)
{
    return hypot(b->to.x_mm - b->from.x_mm, b->to.y_mm - b->from.y_mm);
}

static sw_bend mirrored_bend(design *d, const sw_bend *b, double parent_about_mm)
{
    sw_bend out = *b;
    out.from = (sw_point){parent_about_mm - b->to.x_mm, b->to.y_mm};
    out.to = (sw_point){parent_about_mm - b->from.x_mm, b->from.y_mm};
    sw_zone_hole *holes = DESIGN_TAKE(d, b->hole_count, sw_zone_hole);
    for (size_t i = 0; i < b->hole_count; i++)
        holes[i] = (sw_zone_hole){width_of(b) - b->holes[i].along_mm, b->holes[i].angle_rad,
                                  mirrored_contour(d, b->holes[i].contour, 0.0)};
    out.holes = holes;
    return out;
}

/* The rims of a zone change places with its x; holes are named as a whole. */
static sw_edge mirrored_edge(const sw_piece *from, const sw_edge *edge)
{
    sw_edge out = *edge;
    if (edge->hole > 0) return out;
    if (edge->zone > 0)
        out.first = (4 - edge->first) % 4;
    else
        out.first = from->faces[edge->face].region.outline.n - (edge->first + edge->count);
    return out;
}

static void mirror_tree(design *d, sw_piece *made, const sw_piece *from)
{
    sw_face *faces = DESIGN_TAKE(d, from->face_count, sw_face);
    sw_bend *bends = DESIGN_TAKE(d, from->bend_count, sw_bend);
    sw_edge *edges = DESIGN_TAKE(d, from->edge_count, sw_edge);
    double *about_mm = DESIGN_TAKE(d, from->face_count, double); /* x -> about - x; 0 for the root */
    for (size_t i = 0; i < from->bend_count; i++) about_mm[from->bends[i].child] = width_of(&from->bends[i]);
    for (size_t i = 0; i < from->face_count; i++)
        faces[i] = mirrored_face(d, &from->faces[i], about_mm[i], from->number, made->number);
    for (size_t i = 0; i < from->bend_count; i++)
        bends[i] = mirrored_bend(d, &from->bends[i], about_mm[from->bends[i].parent]);
    for (size_t i = 0; i < from->edge_count; i++) edges[i] = mirrored_edge(from, &from->edges[i]);
    made->faces = faces;
    made->bends = bends;
    made->edges = edges;
}

static sw_vec3 reflected(sw_vec3 v, int plane)
{
    if (plane == 0) v.x_mm = -v.x_mm;
    if (plane == 1) v.y_mm = -v.y_mm;
    if (plane == 2) v.z_mm = -v.z_mm;
    return v;
}

/* The plane's mirror image of a frame is left-handed; with x turned round it is right-handed again. */
static sw_frame mirrored_frame(sw_frame f, int plane, double at_mm)
{
    sw_vec3 shift = {plane == 0 ? 2.0 * at_mm : 0.0, plane == 1 ? 2.0 * at_mm : 0.0, plane == 2 ? 2.0 * at_mm : 0.0};
    return (sw_frame){.x = sw_vec3_scaled(reflected(f.x, plane), -1.0),
                      .y = reflected(f.y, plane),
                      .z = reflected(f.z, plane),
                      .origin = sw_vec3_add(reflected(f.origin, plane), shift)};
}

void design_build_mirror(design *d, design_piece *copy, const design_piece *original)
{
    const sw_piece *from = &original->made;
    sw_piece made = *from;
    made.number = copy->made.number;
    made.name = copy->made.name;
    made.place = copy->made.place;
    if (copy->made.group[0] != '\0') made.group = copy->made.group;
    if (copy->made.role[0] != '\0') made.role = copy->made.role;
    mirror_tree(d, &made, from);
    sw_frame *placements = DESIGN_TAKE(d, from->count, sw_frame);
    for (size_t i = 0; i < from->count; i++)
        placements[i] = mirrored_frame(from->placements[i], copy->plane, copy->plane_mm);
    made.placements = placements;
    copy->made = made;
}
