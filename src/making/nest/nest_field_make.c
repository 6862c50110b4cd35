/* nest_field_make.c: from convex polygons to a field: GEOS joins them, the grid is filled cell by cell. */
#include "making/nest/nest_field_parts.h"

#include <geos_c.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>

typedef struct lines { /* growing, in scratch */
    nest_line *at;
    size_t count, room;
} lines;

typedef struct field_job {
    sw_run *run;
    sw_arena *into;
    GEOSContextHandle_t geos;
    lines all;
    nest_field *field;
    float *corner;
    uint8_t *kind;
    uint32_t *first, *near; /* near grows in scratch, is copied at the end */
    size_t near_count, near_room;
} field_job;

static sw_status no_room(sw_run *run)
{
    return sw_fail(run, SW_NO_MEMORY, (sw_place){0}, "", "the memory limit is reached comparing two pieces");
}

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

static GEOSGeometry *union_of(field_job *job, const nest_pair *pair, GEOSGeometry **room)
{
    unsigned made = 0;
    for (size_t i = 0; i < pair->count; i++)
        if (pair->parts[i].n >= 3 && (room[made] = polygon(job->geos, &pair->parts[i])) != NULL) made++;
    GEOSGeometry *all = GEOSGeom_createCollection_r(job->geos, GEOS_MULTIPOLYGON, room, made);
    GEOSGeometry *joined = all == NULL ? NULL : GEOSUnaryUnion_r(job->geos, all);
    GEOSGeom_destroy_r(job->geos, all);
    return joined;
}

static sw_status add_ring(field_job *job, const GEOSGeometry *ring)
{
    const GEOSCoordSequence *s = GEOSGeom_getCoordSeq_r(job->geos, ring);
    unsigned n = 0;
    if (s == NULL || GEOSCoordSeq_getSize_r(job->geos, s, &n) == 0)
        return sw_fail(job->run, SW_INTERNAL, (sw_place){0}, "", "GEOS gave a ring without points");
    for (unsigned i = 0; i + 1 < n; i++) {
        nest_line l;
        (void)GEOSCoordSeq_getXY_r(job->geos, s, i, &l.ax, &l.ay);
        (void)GEOSCoordSeq_getXY_r(job->geos, s, i + 1, &l.bx, &l.by);
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
        SW_TRY(add_ring(job, GEOSGetExteriorRing_r(job->geos, p)));
        int holes = GEOSGetNumInteriorRings_r(job->geos, p);
        for (int h = 0; h < holes; h++) SW_TRY(add_ring(job, GEOSGetInteriorRingN_r(job->geos, p, h)));
    }
    return SW_OK;
}

static sw_status find_boundary(field_job *job, const nest_pair *pair)
{
    GEOSGeometry **room = SW_SCRATCH(job->run, pair->count + 1, GEOSGeometry *);
    if (room == NULL) return SW_NO_MEMORY;
    GEOSGeometry *joined = union_of(job, pair, room);
    if (joined == NULL)
        return sw_fail(job->run, SW_INTERNAL, (sw_place){0}, "", "GEOS could not join %zu polygons", pair->count);
    sw_status status = add_polygons(job, joined);
    GEOSGeom_destroy_r(job->geos, joined);
    return status;
}

/* ---- the grid ------------------------------------------------------------------------------------ */

static sw_status lay_grid(field_job *job, uint32_t cells)
{
    nest_field *f = job->field;
    double x1 = -INFINITY, y1 = -INFINITY;
    f->x0_mm = f->y0_mm = INFINITY;
    for (size_t i = 0; i < job->all.count; i++) {
        const nest_line *l = &job->all.at[i];
        f->x0_mm = fmin(f->x0_mm, l->ax), x1 = fmax(x1, l->ax), f->y0_mm = fmin(f->y0_mm, l->ay), y1 = fmax(y1, l->ay);
    }
    if (job->all.count == 0) f->x0_mm = f->y0_mm = 0, x1 = y1 = 0;
    f->cell_mm = fmax(fmax(x1 - f->x0_mm, y1 - f->y0_mm) / cells, SW_SAME_POINT_MM);
    f->per_mm = 1 / f->cell_mm;
    f->nx = (uint32_t)ceil((x1 - f->x0_mm) * f->per_mm) + 1;
    f->ny = (uint32_t)ceil((y1 - f->y0_mm) * f->per_mm) + 1;
    size_t count = (size_t)f->nx * f->ny;
    job->corner = sw_arena_take(job->into, (size_t)(f->nx + 1) * (f->ny + 1), sizeof *job->corner);
    job->kind = sw_arena_take(job->into, count, 1);
    job->first = sw_arena_take(job->into, count + 1, sizeof *job->first);
    return job->corner == NULL || job->kind == NULL || job->first == NULL ? no_room(job->run) : SW_OK;
}

static double boundary_distance(const lines *all, double x, double y)
{
    double best = INFINITY;
    for (size_t i = 0; i < all->count; i++) {
        double d2 = nest_line_distance2(&all->at[i], x, y);
        if (d2 < best) best = d2;
    }
    return sqrt(best);
}

static bool inside(const lines *all, double x, double y)
{
    bool in = false;
    for (size_t i = 0; i < all->count; i++) {
        const nest_line *l = &all->at[i];
        if ((l->ay > y) == (l->by > y)) continue;
        if (l->ax + (y - l->ay) * (l->bx - l->ax) / (l->by - l->ay) > x) in = !in;
    }
    return in;
}

static void fill_corners(field_job *job)
{
    const nest_field *f = job->field;
    for (uint32_t j = 0; j <= f->ny; j++)
        for (uint32_t i = 0; i <= f->nx; i++) {
            double x = f->x0_mm + i * f->cell_mm, y = f->y0_mm + j * f->cell_mm;
            job->corner[(size_t)j * (f->nx + 1) + i] =
                inside(&job->all, x, y) ? (float)boundary_distance(&job->all, x, y) : 0;
        }
}

static sw_status list_near(field_job *job, double x, double y, double reach_mm)
{
    for (size_t i = 0; i < job->all.count; i++) {
        if (nest_line_distance2(&job->all.at[i], x, y) > reach_mm * reach_mm) continue;
        job->near =
            sw_grow(job->run, job->run->scratch, job->near, job->near_count, &job->near_room, sizeof *job->near);
        if (job->near == NULL) return SW_NO_MEMORY;
        job->near[job->near_count++] = (uint32_t)i;
    }
    return SW_OK;
}

static sw_status fill_cell(field_job *job, uint32_t i, uint32_t j)
{
    const nest_field *f = job->field;
    size_t cell = (size_t)j * f->nx + i;
    double x = f->x0_mm + (i + 0.5) * f->cell_mm, y = f->y0_mm + (j + 0.5) * f->cell_mm;
    double half_mm = f->cell_mm * 0.7072; /* middle to corner, rounded up */
    double nearest_mm = boundary_distance(&job->all, x, y);
    bool deep = inside(&job->all, f->x0_mm + (i + NEST_CELL_X) * f->cell_mm, f->y0_mm + (j + NEST_CELL_Y) * f->cell_mm);
    job->first[cell] = (uint32_t)job->near_count;
    if (nearest_mm > half_mm) {
        job->kind[cell] = deep ? NEST_CELL_DEEP : NEST_CELL_FREE;
        return SW_OK;
    }
    job->kind[cell] = deep ? NEST_CELL_EDGE_DEEP : NEST_CELL_EDGE_FREE;
    return list_near(job, x, y, nearest_mm + 2 * half_mm);
}

static sw_status fill_cells(field_job *job)
{
    const nest_field *f = job->field;
    for (uint32_t j = 0; j < f->ny; j++)
        for (uint32_t i = 0; i < f->nx; i++) SW_TRY(fill_cell(job, i, j));
    job->first[(size_t)f->nx * f->ny] = (uint32_t)job->near_count;
    return SW_OK;
}

static sw_status keep_lists(field_job *job)
{
    uint32_t *near = sw_arena_take(job->into, job->near_count, sizeof *near);
    nest_line *kept = sw_arena_take(job->into, job->all.count, sizeof *kept);
    if (near == NULL || kept == NULL) return no_room(job->run);
    for (size_t i = 0; i < job->near_count; i++) near[i] = job->near[i];
    for (size_t i = 0; i < job->all.count; i++) kept[i] = job->all.at[i];
    *job->field = (nest_field){.x0_mm = job->field->x0_mm,
                               .y0_mm = job->field->y0_mm,
                               .cell_mm = job->field->cell_mm,
                               .per_mm = job->field->per_mm,
                               .nx = job->field->nx,
                               .ny = job->field->ny,
                               .corner = job->corner,
                               .kind = job->kind,
                               .first = job->first,
                               .near = near,
                               .lines = kept,
                               .line_count = job->all.count};
    return SW_OK;
}

static sw_status steps(field_job *job, const nest_pair *pair, uint32_t cells)
{
    SW_TRY(find_boundary(job, pair));
    SW_TRY(lay_grid(job, cells));
    fill_corners(job);
    SW_TRY(fill_cells(job));
    return keep_lists(job);
}

sw_status nest_field_make(sw_run *run, sw_arena *into, const nest_pair *pair, uint32_t cells, const nest_field **field)
{
    *field = NULL;
    field_job job = {.run = run, .into = into};
    job.field = sw_arena_take(into, 1, sizeof *job.field);
    if (job.field == NULL) return no_room(run);
    job.geos = GEOS_init_r();
    if (job.geos == NULL) return no_room(run);
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = steps(&job, pair, cells);
    sw_arena_rewind(run->scratch, mark);
    GEOS_finish_r(job.geos);
    if (status == SW_OK) *field = job.field;
    return status;
}
