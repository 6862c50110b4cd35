/* geos_parts.h: GEOS (C API, re-entrant calls) opened for one function of this folder. */
#ifndef SW_GEOMETRY_GEOS_PARTS_H
#define SW_GEOMETRY_GEOS_PARTS_H

#include "geometry/geometry_parts.h"

#include <geos_c.h>

/* One context a call; the last message of GEOS stays here. Not copied: GEOS holds its address. */
typedef struct geos {
    GEOSContextHandle_t context;
    char message[256];
} geos;

sw_status geos_open(sw_run *run, geos *g);
void geos_close(geos *g);
/* Records SW_INTERNAL with what was tried and GEOS's message. */
sw_status geos_failed(sw_run *run, const geos *g, const char *what);
/* A contour as chords in keep with at least 3 vertices, or SW_BAD_INPUT. */
sw_status geos_ring(sw_run *run, const geos *g, sw_contour chords, GEOSGeometry **ring);
/* The polygon of a region whose contours are chords already; the caller destroys it. */
sw_status geos_polygon(sw_run *run, const geos *g, const sw_region *chords, GEOSGeometry **polygon);
/* Outline and holes of r as chords, in run->scratch. */
sw_status region_chords(sw_run *run, const sw_region *r, double error_mm, sw_region *out);

#endif
