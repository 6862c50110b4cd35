/* triangles_parts.h: between triangles.c and triangles_cut.c. */
#ifndef SW_GEOMETRY_TRIANGLES_PARTS_H
#define SW_GEOMETRY_TRIANGLES_PARTS_H

#include "geometry/geometry_parts.h"

/* Replaces the mesh (arrays in run->scratch) by one cut at all levels y = k step_mm; points keep their numbers. */
sw_status mesh_cut_level(sw_run *run, sw_mesh *mesh, double step_mm);

#endif
