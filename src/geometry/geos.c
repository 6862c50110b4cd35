/* geos.c: regions as GEOS polygons and back; the shared part of what goes through GEOS. */
#include "geometry/geos_parts.h"

#include <string.h>

static void note(const char *message, void *context)
{
    geos *g = context;
    size_t length = strlen(message);
    if (length >= sizeof g->message) length = sizeof g->message - 1;
    memcpy(g->message, message, length);
    g->message[length] = '\0';
}

sw_status geos_open(sw_run *run, geos *g)
{
    g->message[0] = '\0';
    g->context = GEOS_init_r();
    if (g->context == NULL)
        return sw_fail(run, SW_NO_MEMORY, (sw_place){0}, "", "GEOS gives no context: out of memory");
    (void)GEOSContext_setErrorMessageHandler_r(g->context, note, g);
    (void)GEOSContext_setNoticeMessageHandler_r(g->context, note, g);
    return SW_OK;
}

void geos_close(geos *g)
{
    if (g->context != NULL) GEOS_finish_r(g->context);
    g->context = NULL;
}

sw_status geos_failed(sw_run *run, const geos *g, const char *what)
{
    return sw_fail(run, SW_INTERNAL, (sw_place){0}, "", "GEOS could not %s: %s", what,
                   g->message[0] == '\0' ? "no reason given" : g->message);
}

sw_status geos_ring(sw_run *run, const geos *g, sw_contour chords, GEOSGeometry **ring)
{
    *ring = NULL;
    if (chords.n < 3)
        return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "",
                       "a contour of %zu straight edges encloses nothing; at least 3 are needed", chords.n);
    GEOSCoordSequence *points = GEOSCoordSeq_create_r(g->context, (unsigned)chords.n + 1, 2);
    if (points == NULL) return geos_failed(run, g, "take a contour");
    for (unsigned i = 0; i <= chords.n; i++) {
        sw_vertex v = chords.v[i < chords.n ? i : 0];
        if (GEOSCoordSeq_setXY_r(g->context, points, i, v.x_mm, v.y_mm) != 0) continue;
        GEOSCoordSeq_destroy_r(g->context, points);
        return geos_failed(run, g, "take a vertex");
    }
    *ring = GEOSGeom_createLinearRing_r(g->context, points);
    return *ring == NULL ? geos_failed(run, g, "close a contour") : SW_OK;
}

static void destroy_all(const geos *g, GEOSGeometry **rings, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (rings[i] != NULL) GEOSGeom_destroy_r(g->context, rings[i]);
}

static sw_status all_rings(sw_run *run, const geos *g, const sw_region *chords, GEOSGeometry **rings)
{
    SW_TRY(geos_ring(run, g, chords->outline, &rings[0]));
    for (size_t h = 0; h < chords->hole_count; h++) SW_TRY(geos_ring(run, g, chords->holes[h], &rings[h + 1]));
    return SW_OK;
}

sw_status geos_polygon(sw_run *run, const geos *g, const sw_region *chords, GEOSGeometry **polygon)
{
    *polygon = NULL;
    GEOSGeometry **rings = SW_SCRATCH(run, chords->hole_count + 1, GEOSGeometry *);
    if (rings == NULL) return SW_NO_MEMORY;
    sw_status status = all_rings(run, g, chords, rings);
    if (status != SW_OK) {
        destroy_all(g, rings, chords->hole_count + 1);
        return status;
    }
    *polygon = GEOSGeom_createPolygon_r(g->context, rings[0], rings + 1, (unsigned)chords->hole_count);
    return *polygon == NULL ? geos_failed(run, g, "make a polygon") : SW_OK;
}

static sw_status scratch_chords(sw_run *run, sw_contour c, double error_mm, sw_contour *out)
{
    sw_run into_scratch = {.keep = run->scratch, .scratch = run->scratch, .threads = 1};
    sw_status status = sw_contour_flattened(&into_scratch, c, error_mm, out);
    if (status == SW_OK) return SW_OK;
    return sw_fail(run, status, (sw_place){0}, "", "the memory limit is reached making chords of a contour");
}

sw_status region_chords(sw_run *run, const sw_region *r, double error_mm, sw_region *out)
{
    sw_contour *holes = SW_SCRATCH(run, r->hole_count, sw_contour);
    if (holes == NULL) return SW_NO_MEMORY;
    SW_TRY(scratch_chords(run, r->outline, error_mm, &out->outline));
    for (size_t h = 0; h < r->hole_count; h++) SW_TRY(scratch_chords(run, r->holes[h], error_mm, &holes[h]));
    out->holes = holes;
    out->hole_count = r->hole_count;
    return SW_OK;
}
