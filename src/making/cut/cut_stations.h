/* cut_stations.h: places on a loop where the beam could enter it. For this folder only. */
#ifndef SW_MAKING_CUT_CUT_STATIONS_H
#define SW_MAKING_CUT_CUT_STATIONS_H

#include "making/cut/cut.h"

/* As fmin and fmax without their care for NaN, which costs a call. */
static inline double cut_lesser(double a, double b)
{
    return a < b ? a : b;
}
static inline double cut_greater(double a, double b)
{
    return a > b ? a : b;
}

typedef struct cut_station {
    size_t segment;
    double t, at_mm; /* on the segment by length; from v[0] */
    sw_point at;
    sw_point along, scrap; /* unit: of travel; to its right */
    double corner_mm;      /* to the nearest corner along the path, INFINITY without any */
} cut_station;

typedef struct cut_stations {
    double length_mm;
    double *starts_mm;  /* [path.n + 1] where each segment begins, from v[0]; the last: length_mm */
    double *corners_mm; /* [corner_count] from v[0] */
    size_t corner_count;
    cut_station *stations;
    size_t count;
} cut_stations;

/* Evenly spaced ones first, then the middles of segments at least 2 lead_mm long. In run->scratch. */
sw_status cut_stations_make(sw_run *run, sw_contour path, double lead_mm, cut_stations *s);

#endif
