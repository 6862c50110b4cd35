/* nest_field_make.c: from convex polygons to a field: GEOS joins them, nest_field_grid.c lays the grid. */
#include "making/nest/nest_field_parts.h"

#include <geos_c.h>

typedef struct lines { /* growing, in scratch */
    nest_line *at;
    size_t count, room;
} lines;

/* So many sums are joined by GEOS in one go, which nothing can interrupt; more are joined group by group: 15 ms a group. Ours */
enum { GROUP = 256, WHOLE_MOST = 512 };

typedef struct field_job {
    const nest_core *core;
    sw_run *run;
    GEOSContextHandle_t geos;
    lines all;
} field_job;

/* ---- the union's boundary ---------------------------------------------------------------------- */

static GEOSGeometry *polygon(GEOSContextHandle_t geos, const nest_poly *p)
{
    GEOSCoordSequence *s = GEOSCoordSeq_create_r(geos, p->n + 1, 2);
    if (s == NULL) return NULL;
    for (uint32_t i = 0; i <= p->n; i++)
        (void)GEOSCoordSeq_setXY_r(geos, s, i, p->p[i % p->n].x_mm, p->p[i % p->n].y_mm);
    GEOSGeometry *ring = GEOSGeom_createLinearRing_r(geos, s);
    return ring == NULL ? NULL : GEOSGeom_createPolygon_r(geos, ring, NULL, 0);
}

/* Takes the geometries over; NULL = GEOS could not. */
static GEOSGeometry *join(const field_job *job, int type, GEOSGeometry **all, unsigned count)
{
    GEOSGeometry *set = GEOSGeom_createCollection_r(job->geos, type, all, count);
    GEOSGeometry *joined = set == NULL ? NULL : GEOSUnaryUnion_r(job->geos, set);
    GEOSGeom_destroy_r(job->geos, set);
    return joined;
}

static GEOSGeometry *union_of(const field_job *job, const nest_poly *parts, size_t count, GEOSGeometry **room)
{
    unsigned made = 0;
    for (size_t i = 0; i < count; i++)
        if (parts[i].n >= 3 && (room[made] = polygon(job->geos, &parts[i])) != NULL) made++;
    return join(job, GEOS_MULTIPOLYGON, room, made);
}

/* The groups' unions to all[0 .. *made), whatever the status. */
static sw_status join_groups(const field_job *job, const nest_pair *pair, GEOSGeometry **room, GEOSGeometry **all,
                             unsigned *made)
{
    for (size_t i = 0; i < pair->count; i += GROUP) {
        if (nest_time_is_up(job->core)) return SW_CANCELLED;
        all[*made] = union_of(job, pair->parts + i, pair->count - i < GROUP ? pair->count - i : GROUP, room);
        if (all[*made] != NULL) (*made)++;
    }
    return SW_OK;
}

static sw_status union_by_groups(const field_job *job, const nest_pair *pair, GEOSGeometry **room,
                                 GEOSGeometry **joined)
{
    unsigned made = 0;
    GEOSGeometry **all = SW_SCRATCH(job->run, pair->count / GROUP + 1, GEOSGeometry *);
    if (all == NULL) return SW_NO_MEMORY;
    sw_status status = join_groups(job, pair, room, all, &made);
    if (status == SW_OK) *joined = join(job, GEOS_GEOMETRYCOLLECTION, all, made);
    for (unsigned i = 0; status != SW_OK && i < made; i++) GEOSGeom_destroy_r(job->geos, all[i]);
    return status;
}

/* The union to the left of every line: shells run counter-clockwise, holes clockwise. */
static sw_status add_ring(field_job *job, const GEOSGeometry *ring, char counter_clockwise)
{
    const GEOSCoordSequence *s = GEOSGeom_getCoordSeq_r(job->geos, ring);
    unsigned n = 0;
    char runs = 0;
    if (s == NULL || GEOSCoordSeq_getSize_r(job->geos, s, &n) == 0 || GEOSCoordSeq_isCCW_r(job->geos, s, &runs) == 0)
        return sw_fail(job->run, SW_INTERNAL, (sw_place){0}, "", "GEOS gave a ring without points");
    for (unsigned i = 0; i + 1 < n; i++) {
        nest_line l;
        (void)GEOSCoordSeq_getXY_r(job->geos, s, runs == counter_clockwise ? i : i + 1, &l.ax, &l.ay);
        (void)GEOSCoordSeq_getXY_r(job->geos, s, runs == counter_clockwise ? i + 1 : i, &l.bx, &l.by);
        lines *all = &job->all;
        all->at = sw_grow(job->run, job->run->scratch, all->at, all->count, &all->room, sizeof *all->at);
        if (all->at == NULL) return SW_NO_MEMORY;
        all->at[all->count++] = l;
    }
    return SW_OK;
}

static sw_status add_polygons(field_job *job, const GEOSGeometry *g)
{
    int parts = GEOSGetNumGeometries_r(job->geos, g);
    for (int i = 0; i < parts; i++) {
        const GEOSGeometry *p = GEOSGetGeometryN_r(job->geos, g, i);
        if (GEOSGeomTypeId_r(job->geos, p) != GEOS_POLYGON) continue;
        SW_TRY(add_ring(job, GEOSGetExteriorRing_r(job->geos, p), 1));
        int holes = GEOSGetNumInteriorRings_r(job->geos, p);
        for (int h = 0; h < holes; h++) SW_TRY(add_ring(job, GEOSGetInteriorRingN_r(job->geos, p, h), 0));
    }
    return SW_OK;
}

static sw_status find_boundary(field_job *job, const nest_pair *pair)
{
    GEOSGeometry **room = SW_SCRATCH(job->run, pair->count + 1, GEOSGeometry *);
    if (room == NULL) return SW_NO_MEMORY;
    GEOSGeometry *joined = NULL;
    if (pair->count <= WHOLE_MOST)
        joined = union_of(job, pair->parts, pair->count, room);
    else
        SW_TRY(union_by_groups(job, pair, room, &joined));
    if (joined == NULL)
        return sw_fail(job->run, SW_INTERNAL, (sw_place){0}, "", "GEOS could not join %zu polygons", pair->count);
    sw_status status = add_polygons(job, joined);
    GEOSGeom_destroy_r(job->geos, joined);
    return status;
}

static sw_status steps(field_job *job, sw_arena *into, const nest_pair *pair, uint32_t cells, nest_field *field)
{
    SW_TRY(find_boundary(job, pair));
    return nest_field_grid(job->run, into, job->all.at, job->all.count, cells, field);
}

sw_status nest_field_make(const nest_core *core, sw_arena *into, const nest_pair *pair, uint32_t cells,
                          const nest_field **field)
{
    sw_run *run = core->run;
    field_job job = {.core = core, .run = run, .geos = GEOS_init_r()};
    nest_field *made = sw_arena_take(into, 1, sizeof *made);
    *field = made;
    if (made == NULL || job.geos == NULL)
        return sw_fail(run, SW_NO_MEMORY, (sw_place){0}, "", "the memory limit is reached comparing two pieces");
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = steps(&job, into, pair, cells, made);
    sw_arena_rewind(run->scratch, mark);
    GEOS_finish_r(job.geos);
    return status;
}
