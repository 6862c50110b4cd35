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
    const sw_triangle *triangles;
    size_t triangle_count;
    sw_ink colour;
} solid_seen;

typedef struct solid_canvas {
    uint32_t *pixels;
    int32_t *parts;
    float *depths; /* mm towards the viewer; -INFINITY = nothing there */
    int columns, rows;
    double pixels_per_mm;
} solid_canvas;

typedef struct solid_lines {
    sw_point (*items)[2];
    size_t count, room;
} solid_lines;

/* Outward normal as seen (x right, y down, z near), not of unit length; z > 0 faces the viewer. */
sw_vec3 solid_normal(const solid_seen *s, size_t triangle);
void solid_fill(solid_canvas *canvas, const solid_seen *s, int32_t part);
sw_status solid_chains(sw_run *run, const solid_lines *lines, const solid_chain **chains, size_t *count);
sw_status solid_edges(sw_run *run, const solid_canvas *canvas, const solid_seen *s, solid_lines *lines);

#endif
