/* dxf.h: contours to and from DXF (ASCII, R12-compatible: LINE, ARC, CIRCLE, POLYLINE/VERTEX; LWPOLYLINE read).
 *
 * Lengths mm. Written files carry $INSUNITS 4 (mm) in the header, layers CUT, ETCH, BEND and colours by
 * layer. The reader is strict about structure and says what it does not understand instead of skipping it
 * silently. Source: DXF reference (open documentation of the format), groups 10/20/40/42/50/51. */
#ifndef SW_DXF_DXF_H
#define SW_DXF_DXF_H

#include "geometry/geometry.h"

typedef struct sw_dxf_path {
    const char *layer; /* "CUT", "ETCH", "BEND", ... */
    bool closed;
    const sw_vertex *v; /* [n]; lines and arcs as bulges */
    size_t n;
} sw_dxf_path;

typedef struct sw_dxf_text {
    const char *layer, *text;
    sw_point at;
    double height_mm, turn_rad;
} sw_dxf_text;

typedef struct sw_dxf_drawing {
    const sw_dxf_path *paths;
    size_t path_count;
    const sw_dxf_text *texts;
    size_t text_count;
} sw_dxf_drawing;

/* Joins loose lines and arcs whose ends meet within join_mm into paths. Errors name file and line:
 * SW_BAD_INPUT (cut short, broken group code, unknown section order, units other than mm/unitless, too many
 * entities, no path). Skipped entity kinds are listed in *skipped ("2 SPLINE, 1 HATCH"; "" = none). */
sw_status sw_dxf_read(sw_run *run, const char *file, const char *bytes, size_t length, double join_mm,
                      sw_dxf_drawing *drawing, const char **skipped);
/* The closed paths of the drawing's layer (NULL = all) as one region: largest is the outline, the rest its
 * holes. SW_BAD_INPUT when there is none, one is open, or they do not nest so. */
sw_status sw_dxf_region(sw_run *run, const char *file, const sw_dxf_drawing *drawing, const char *layer,
                        sw_region *region);
/* computes nothing; failures stick to the writer. Closed paths become POLYLINE with bulges, a full circle CIRCLE. */
void sw_dxf_write(sw_writer *writer, const sw_dxf_drawing *drawing);

#endif
