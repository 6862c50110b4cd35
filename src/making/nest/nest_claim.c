/* nest_claim.c: how much of a sheet a piece takes from all others: its area grown by half the web, for no other piece
 * comes nearer than the web. Cut-outs into which no piece of the batch can go count as taken. Claims do not overlap and
 * lie in the usable sheet grown by half the web; so they bound what sheets can hold. Derived.
 * Growing is GEOS's, its arcs chords inside; what the flat's own chords may add is taken off. */
#include "making/nest/nest_parts.h"

#include <geos_c.h>
#include <math.h>

enum { CHORDS_A_QUARTER = 16 };

typedef struct claim_job {
    nest_core *core;
    GEOSContextHandle_t geos;
} claim_job;

static sw_status no_memory(nest_core *core)
{
    return sw_fail(core->run, SW_NO_MEMORY, (sw_place){0}, "", "no memory to measure the pieces with");
}

static GEOSGeometry *ring_of(GEOSContextHandle_t geos, sw_contour c)
{
    GEOSCoordSequence *s = GEOSCoordSeq_create_r(geos, (unsigned)c.n + 1, 2);
    if (s == NULL) return NULL;
    for (size_t i = 0; i <= c.n; i++)
        (void)GEOSCoordSeq_setXY_r(geos, s, (unsigned)i, c.v[i % c.n].x_mm, c.v[i % c.n].y_mm);
    return GEOSGeom_createLinearRing_r(geos, s);
}

static bool may_be_entered(const nest_core *core, sw_contour hole)
{
    sw_box box = sw_contour_box(hole);
    double least_mm = fmin(box.x1_mm - box.x0_mm, box.y1_mm - box.y0_mm) - 2 * core->in->web_mm;
    nest_hole h = {fabs(sw_contour_area(hole)), least_mm};
    for (size_t i = 0; i < core->in->shape_count; i++)
        if (core->in->shapes[i].count > 0 && nest_may_enter(&core->kinds[i], h)) return true;
    return false;
}

/* Rings of the outline and of those cut-outs that another piece might use. */
static sw_status list_rings(claim_job *job, const sw_region *r, GEOSGeometry **rings, size_t *count)
{
    sw_contour chords;
    for (size_t i = 0; i <= r->hole_count; i++) {
        if (i > 0 && !may_be_entered(job->core, r->holes[i - 1])) continue;
        SW_TRY(sw_contour_flattened(job->core->run, i == 0 ? r->outline : r->holes[i - 1], SW_CHORD_MM, &chords));
        rings[*count] = ring_of(job->geos, chords);
        if (rings[*count] == NULL) return no_memory(job->core);
        (*count)++;
    }
    return SW_OK;
}

static double grown_area(claim_job *job, GEOSGeometry **rings, size_t count)
{
    double area_mm2 = 0;
    GEOSGeometry *flat = GEOSGeom_createPolygon_r(job->geos, rings[0], rings + 1, (unsigned)(count - 1));
    GEOSGeometry *grown =
        flat == NULL ? NULL : GEOSBuffer_r(job->geos, flat, job->core->in->web_mm / 2, CHORDS_A_QUARTER);
    if (grown != NULL) (void)GEOSArea_r(job->geos, grown, &area_mm2);
    GEOSGeom_destroy_r(job->geos, grown);
    GEOSGeom_destroy_r(job->geos, flat);
    return area_mm2;
}

static sw_status claim_steps(claim_job *job, const sw_region *r, nest_kind *kind)
{
    size_t count = 0;
    GEOSGeometry **rings = SW_SCRATCH(job->core->run, r->hole_count + 1, GEOSGeometry *);
    if (rings == NULL) return SW_NO_MEMORY;
    sw_status status = list_rings(job, r, rings, &count);
    if (status != SW_OK) {
        while (count > 0) GEOSGeom_destroy_r(job->geos, rings[--count]);
        return status;
    }
    double grown_mm2 = grown_area(job, rings, count) - SW_CHORD_MM * sw_region_length(r);
    kind->claim_mm2 = fmax(grown_mm2, kind->area_mm2);
    return SW_OK;
}

/* What flattening put into keep is given back. */
static sw_status claim_of(claim_job *job, const sw_region *r, nest_kind *kind)
{
    size_t mark = sw_arena_mark(job->core->run->keep);
    sw_status status = claim_steps(job, r, kind);
    if (status == SW_OK) sw_arena_rewind(job->core->run->keep, mark);
    return status;
}

/* The usable sheet grown by half the web: no more than its box, nor than the sheet where the margin is the wider. */
static void room_of(const nest_core *core, nest_sheet *sheet)
{
    double web_mm = core->in->web_mm, w_mm = sheet->usable.x1_mm - sheet->usable.x0_mm,
           h_mm = sheet->usable.y1_mm - sheet->usable.y0_mm;
    sheet->room_mm2 = w_mm > 0 && h_mm > 0 ? (w_mm + web_mm) * (h_mm + web_mm) : 0;
    if (2 * core->in->margin_mm >= web_mm) sheet->room_mm2 = fmin(sheet->room_mm2, sheet->area_mm2);
}

static sw_status claim_all(claim_job *job)
{
    nest_core *core = job->core;
    for (size_t i = 0; i < core->in->stock_count; i++) room_of(core, &core->sheets[i]);
    for (size_t i = 0; i < core->in->begun_count; i++)
        core->sheets[core->in->begun_stock].room_mm2 -= core->kinds[core->in->begun[i].shape].area_mm2;
    for (size_t i = 0; i < core->in->shape_count; i++)
        if (core->in->shapes[i].count > 0) SW_TRY(claim_of(job, &core->in->shapes[i].region, &core->kinds[i]));
    return SW_OK;
}

sw_status nest_claims_make(nest_core *core)
{
    claim_job job = {.core = core, .geos = GEOS_init_r()};
    if (job.geos == NULL) return no_memory(core);
    sw_status status = claim_all(&job);
    GEOS_finish_r(job.geos);
    return status;
}
