/* solid_parts.h: between the files that make the picture of solids. Points are page mm (x right, y down) with
 * depth towards the viewer in z. */
#ifndef SW_PAPERS_SOLID_PARTS_H
#define SW_PAPERS_SOLID_PARTS_H

#include "papers/papers_parts.h"

typedef struct solid_axes {
    sw_vec3 right, up, near;
} solid_axes;

typedef struct solid_seen {
    sw_vec3 *points; /* [point_count] */
    size_t point_count;
    const solid_shape *shape;
    sw_vec3 right, up, near; /* the view's axes in the shape's frame */
    sw_ink colour;
} solid_seen;

typedef struct solid_face {
    uint32_t colour;
    int32_t part;
} solid_face;

typedef struct solid_slope { /* a border from its upper end to its lower one */
    int from, end;           /* rows from .. end - 1 */
    double x, step;          /* pixels: at the middle of the first row, and the growth a row */
} solid_slope;

typedef struct solid_canvas {
    float *depths;     /* [columns x rows] mm towards the viewer from behind all; 0 = nothing there */
    uint32_t *seen;    /* [columns x rows] number of the face seen, 0 = none; without faces its colour, or white */
    int columns, rows; /* both even */
    double pixels_per_mm;
    solid_face *faces; /* [face_count + 1], from 1; NULL = nobody asks which part is seen where */
    uint32_t face_count;
    uint32_t *row_ends; /* [rows + 1] for solid_fill: where in `crossings` those of a row end */
    int32_t *crossings; /* [crossing_room] columns where a border of the flat under way is crossed */
    size_t crossing_room;
    solid_slope *slopes; /* [slope_room] its borders that cross rows */
    size_t slope_room;
} solid_canvas;

typedef struct solid_lines {
    sw_point (*items)[2];
    size_t count, room;
} solid_lines;

/* Whether the flat is turned to the viewer. */
static inline bool solid_faces(const solid_seen *s, size_t flat)
{
    sw_vec3 n = s->shape->flats[flat].normal;
    return n.x_mm * s->near.x_mm + n.y_mm * s->near.y_mm + n.z_mm * s->near.z_mm > 1e-9;
}
sw_status solid_fill(sw_run *run, solid_canvas *canvas, const solid_seen *s, int32_t part);
sw_status solid_chains(sw_run *run, const solid_lines *lines, const solid_chain **chains, size_t *count);
sw_status solid_edges(sw_run *run, const solid_canvas *canvas, const solid_seen *s, solid_lines *lines);
sw_status solid_anchors(sw_run *run, const solid_canvas *canvas, size_t count, const solid_anchor **anchors);
void solid_colour(const solid_canvas *canvas); /* with faces, after all else: `seen` holds colours then */

#endif
