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

typedef struct solid_canvas {
    float *depths;     /* [columns x rows] mm towards the viewer from behind all; 0 = nothing there */
    uint32_t *seen;    /* [columns x rows] number of the face seen; 0 = none */
    int columns, rows; /* both even */
    double pixels_per_mm;
    solid_face *faces; /* [face_count + 1], from 1 */
    uint32_t face_count;
} solid_canvas;

typedef struct solid_lines {
    sw_point (*items)[2];
    size_t count, room;
} solid_lines;

/* Whether the triangle is turned to the viewer. */
static inline bool solid_faces(const solid_seen *s, size_t triangle)
{
    return sw_vec3_dot(s->shape->normals[triangle], s->near) > 1e-9;
}
void solid_fill(solid_canvas *canvas, const solid_seen *s, int32_t part);
sw_status solid_chains(sw_run *run, const solid_lines *lines, const solid_chain **chains, size_t *count);
/* After all is filled: each depth becomes the farthest of the 3 x 3 about it. */
sw_status solid_farthest(sw_run *run, solid_canvas *canvas);
sw_status solid_edges(sw_run *run, const solid_canvas *canvas, const solid_seen *s, solid_lines *lines);
sw_status solid_anchors(sw_run *run, const solid_canvas *canvas, size_t count, const solid_anchor **anchors);
void solid_colour(const solid_canvas *canvas); /* after all else: `seen` holds the pixels' colours then */

#endif
