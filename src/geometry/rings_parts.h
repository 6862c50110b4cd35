/* rings_parts.h: what rings.c and rings_flip.c share. Nobody else includes it. */
#ifndef SW_GEOMETRY_RINGS_PARTS_H
#define SW_GEOMETRY_RINGS_PARTS_H

#include "geometry/geometry.h"

/* Turns edges between the triangles until Delaunay, in place. SW_NO_MEMORY */
sw_status sw_rings_flip(sw_run *run, const sw_point *points, size_t point_count, sw_triangle *triangles, size_t count);

#endif
