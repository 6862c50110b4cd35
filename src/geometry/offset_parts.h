/* offset_parts.h: the steps of contour_offset.c. All arrays are in run->scratch. */
#ifndef SW_GEOMETRY_OFFSET_PARTS_H
#define SW_GEOMETRY_OFFSET_PARTS_H

#include "geometry/geometry_parts.h"

/* A stretch of a parallel curve, from its vertex (with bulge) to a point. */
typedef struct stretch {
    sw_vertex from;
    sw_point to;
} stretch;

typedef struct stretches {
    stretch *items;
    size_t n, room;
} stretches;

/* What a sharp corner has beyond a round one lies in this triangle. */
typedef struct wedge {
    sw_point a, tip, b;
} wedge;

typedef struct offset_job {
    sw_run *run;
    sw_contour c;            /* tidied, first vertex at the origin */
    const segment *segments; /* [c.n] */
    double distance_mm;      /* to the right when positive */
    bool round;
    wedge *wedges; /* [wedge_count], at most c.n; filled by offset_raw */
    size_t wedge_count;
} offset_job;

sw_status stretches_add(sw_run *run, stretches *list, sw_vertex from, sw_point to);
/* Every segment moved aside and the gaps at the corners filled: one closed curve, with fold-overs. */
sw_status offset_raw(offset_job *job, stretches *raw);
/* The raw curve split where it meets itself; what is nearer to the contour than the distance is gone. */
sw_status offset_split(const offset_job *job, const stretches *raw, stretches *kept);
/* The stretches joined into closed loops, each as vertices in run->scratch; loops[*count]. *closed is false
 * when some did not close (walls just twice the distance apart, met in an unlucky way). */
sw_status offset_chain(const offset_job *job, const stretches *kept, sw_contour **loops, size_t *count, bool *closed);

size_t vertices_tidied(sw_vertex *v, size_t n); /* contour_tidy.c; in place */

#endif
