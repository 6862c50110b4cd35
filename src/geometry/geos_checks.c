/* geos_checks.c: overlap and buffer by GEOS on chords: the independent way to the same answers. */
#include "geometry/geos_parts.h"

#include <stdlib.h>

static sw_status polygon_of(sw_run *run, const geos *g, const sw_region *r, double error_mm, GEOSGeometry **polygon)
{
    sw_region chords;
    *polygon = NULL;
    SW_TRY(region_chords(run, r, error_mm, &chords));
    SW_TRY(geos_polygon(run, g, &chords, polygon));
    if (GEOSisValid_r(g->context, *polygon) == 1) return SW_OK;
    char *reason = GEOSisValidReason_r(g->context, *polygon);
    sw_status status = sw_fail(run, SW_INTERNAL, (sw_place){0}, "", "GEOS does not accept the region: %s",
                               reason == NULL ? g->message : reason);
    if (reason != NULL) GEOSFree_r(g->context, reason);
    return status;
}

static void drop(const geos *g, GEOSGeometry *geometry)
{
    if (geometry != NULL) GEOSGeom_destroy_r(g->context, geometry);
}

static sw_status common_area(sw_run *run, const geos *g, const GEOSGeometry *a, const GEOSGeometry *b, double *area_mm2)
{
    GEOSGeometry *common = GEOSIntersection_r(g->context, a, b);
    if (common == NULL) return geos_failed(run, g, "intersect two regions");
    int read = GEOSArea_r(g->context, common, area_mm2);
    GEOSGeom_destroy_r(g->context, common);
    return read == 1 ? SW_OK : geos_failed(run, g, "measure an area");
}

static sw_status overlap(sw_run *run, geos *g, const sw_region *a, const sw_region *b, double error_mm,
                         double *area_mm2)
{
    GEOSGeometry *p = NULL, *q = NULL;
    SW_TRY(geos_open(run, g));
    sw_status status = polygon_of(run, g, a, error_mm, &p);
    if (status == SW_OK) status = polygon_of(run, g, b, error_mm, &q);
    if (status == SW_OK) status = common_area(run, g, p, q, area_mm2);
    drop(g, p);
    drop(g, q);
    return status;
}

sw_status sw_geos_overlap_area(sw_run *run, const sw_region *a, const sw_region *b, double error_mm, double *area_mm2)
{
    size_t mark = sw_arena_mark(run->scratch);
    geos g = {0};
    *area_mm2 = 0.0;
    sw_status status = overlap(run, &g, a, b, error_mm, area_mm2);
    geos_close(&g);
    sw_arena_rewind(run->scratch, mark);
    return status;
}

/* ---- buffer ------------------------------------------------------------------------- */

/* A ring as contour in keep, without its closing point; counter-clockwise or clockwise as asked. */
static sw_status contour_from(sw_run *run, const geos *g, const GEOSGeometry *ring, bool ccw, sw_contour *out)
{
    unsigned n = 0;
    const GEOSCoordSequence *points = ring == NULL ? NULL : GEOSGeom_getCoordSeq_r(g->context, ring);
    if (points == NULL || GEOSCoordSeq_getSize_r(g->context, points, &n) == 0 || n < 4)
        return geos_failed(run, g, "give a contour back");
    sw_vertex *v = SW_KEEP(run, n - 1, sw_vertex);
    if (v == NULL) return SW_NO_MEMORY;
    for (unsigned i = 0; i + 1 < n; i++)
        if (GEOSCoordSeq_getXY_r(g->context, points, i, &v[i].x_mm, &v[i].y_mm) == 0)
            return geos_failed(run, g, "give a vertex back");
    *out = (sw_contour){v, n - 1};
    if ((sw_contour_area(*out) > 0.0) == ccw) return SW_OK;
    return sw_contour_reversed(run, *out, out);
}

static sw_status region_from(sw_run *run, const geos *g, const GEOSGeometry *polygon, sw_region *out)
{
    int holes = GEOSGetNumInteriorRings_r(g->context, polygon);
    if (holes < 0) return geos_failed(run, g, "count holes");
    sw_contour *hole = SW_KEEP(run, (size_t)holes, sw_contour);
    if (hole == NULL) return SW_NO_MEMORY;
    SW_TRY(contour_from(run, g, GEOSGetExteriorRing_r(g->context, polygon), true, &out->outline));
    for (int h = 0; h < holes; h++)
        SW_TRY(contour_from(run, g, GEOSGetInteriorRingN_r(g->context, polygon, h), false, &hole[h]));
    out->holes = hole;
    out->hole_count = (size_t)holes;
    return SW_OK;
}

static int larger_first(const void *a, const void *b)
{
    double p = sw_region_area(a), q = sw_region_area(b);
    return p > q ? -1 : p < q ? 1 : 0;
}

typedef struct regions {
    const sw_region *items;
    size_t n;
} regions;

static sw_status regions_from(sw_run *run, const geos *g, const GEOSGeometry *grown, regions *parts)
{
    int n = GEOSGetNumGeometries_r(g->context, grown);
    if (n < 0) return geos_failed(run, g, "count parts");
    if (GEOSisEmpty_r(g->context, grown) == 1) n = 0;
    sw_region *out = SW_KEEP(run, (size_t)n, sw_region);
    if (out == NULL) return SW_NO_MEMORY;
    for (int i = 0; i < n; i++) SW_TRY(region_from(run, g, GEOSGetGeometryN_r(g->context, grown, i), &out[i]));
    qsort(out, (size_t)n, sizeof *out, larger_first);
    *parts = (regions){out, (size_t)n};
    return SW_OK;
}

/* Chords of a quarter circle of radius |distance| with at most error_mm sagitta. */
static int quarter_chords(double distance_mm, double error_mm)
{
    double radius_mm = fabs(distance_mm), part = sqrt(error_mm / fmax(2.0 * radius_mm, error_mm));
    double span_rad = 4.0 * asin(fmin(part, sin(SW_PI / 8.0)));
    return (int)fmin(2000.0, ceil(0.5 * SW_PI / span_rad));
}

static sw_status buffer(sw_run *run, geos *g, const sw_region *r, double distance_mm, double error_mm, regions *parts)
{
    GEOSGeometry *polygon = NULL, *grown = NULL;
    SW_TRY(geos_open(run, g));
    sw_status status = polygon_of(run, g, r, error_mm, &polygon);
    if (status == SW_OK) {
        grown = GEOSBuffer_r(g->context, polygon, distance_mm, quarter_chords(distance_mm, error_mm));
        status = grown == NULL ? geos_failed(run, g, "grow a region") : regions_from(run, g, grown, parts);
    }
    drop(g, polygon);
    drop(g, grown);
    return status;
}

sw_status sw_geos_buffer(sw_run *run, const sw_region *r, double distance_mm, double error_mm, const sw_region **parts,
                         size_t *count)
{
    size_t mark = sw_arena_mark(run->scratch);
    geos g = {0};
    regions found = {NULL, 0};
    sw_status status = buffer(run, &g, r, distance_mm, error_mm, &found);
    *parts = found.items;
    *count = found.n;
    geos_close(&g);
    sw_arena_rewind(run->scratch, mark);
    return status;
}
