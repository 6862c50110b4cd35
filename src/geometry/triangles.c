/* triangles.c: a region as triangles (GEOS constrained Delaunay), cut at level lines where asked.
 *
 * Cutting works on the finished triangles: every edge is cut once, for both its triangles, where it crosses
 * a level y = k most_y, so the mesh stays without T-joints. Each triangle falls into bands of at most five
 * corners, drawn as a fan.
 *
 * GEOS 3.11 joins holes to the outline along verticals and can fail where many vertices share one x, as rows
 * of holes do: it is then asked again with everything turned a little. */
#include "geometry/geos_parts.h"
#include "geometry/triangles_parts.h"

#include <stdlib.h>
#include <string.h>

typedef struct corner {
    double x_mm, y_mm;
    uint32_t index;
} corner;

typedef struct corner_list {
    corner *items; /* sorted by place */
    size_t n;
} corner_list;

static int by_place(const void *a, const void *b)
{
    const corner *p = a, *q = b;
    if (p->x_mm != q->x_mm) return p->x_mm < q->x_mm ? -1 : 1;
    if (p->y_mm != q->y_mm) return p->y_mm < q->y_mm ? -1 : 1;
    return 0;
}

static size_t chord_total(const sw_region *chords)
{
    size_t n = chords->outline.n;
    for (size_t h = 0; h < chords->hole_count; h++) n += chords->holes[h].n;
    return n;
}

static size_t put_corners(corner *corners, size_t n, sw_contour c)
{
    for (size_t i = 0; i < c.n; i++) corners[n + i] = (corner){c.v[i].x_mm, c.v[i].y_mm, (uint32_t)(n + i)};
    return n + c.n;
}

static sw_status numbered_corners(sw_run *run, const sw_region *chords, corner **out)
{
    size_t total = chord_total(chords), n = 0;
    if (total > UINT32_MAX / 4)
        return sw_fail(run, SW_OUT_OF_RANGE, (sw_place){0}, "", "%zu vertices are too many for one mesh", total);
    corner *corners = SW_SCRATCH(run, total, corner);
    if (corners == NULL) return SW_NO_MEMORY;
    n = put_corners(corners, n, chords->outline);
    for (size_t h = 0; h < chords->hole_count; h++) n = put_corners(corners, n, chords->holes[h]);
    *out = corners;
    return SW_OK;
}

static sw_status points_of(sw_run *run, const sw_region *chords, sw_mesh *mesh)
{
    corner *corners = NULL;
    SW_TRY(numbered_corners(run, chords, &corners));
    SW_ASSERT(corners != NULL);
    mesh->point_count = chord_total(chords);
    sw_vec3 *points = SW_SCRATCH(run, mesh->point_count, sw_vec3);
    if (points == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < mesh->point_count; i++) points[i] = (sw_vec3){corners[i].x_mm, corners[i].y_mm, 0.0};
    mesh->points = points;
    return SW_OK;
}

static sw_status turned_contour(sw_run *run, sw_contour c, double turn_rad, sw_contour *out)
{
    sw_vertex *v = SW_SCRATCH(run, c.n, sw_vertex);
    if (v == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < c.n; i++) {
        sw_point p = turn_rad == 0.0 ? point_of(c.v[i]) : rotated(point_of(c.v[i]), turn_rad);
        v[i] = (sw_vertex){p.x_mm, p.y_mm, 0.0};
    }
    *out = (sw_contour){v, c.n};
    return SW_OK;
}

static sw_status turned_region(sw_run *run, const sw_region *r, double turn_rad, sw_region *out)
{
    sw_contour *holes = SW_SCRATCH(run, r->hole_count, sw_contour);
    if (holes == NULL) return SW_NO_MEMORY;
    SW_TRY(turned_contour(run, r->outline, turn_rad, &out->outline));
    for (size_t h = 0; h < r->hole_count; h++) SW_TRY(turned_contour(run, r->holes[h], turn_rad, &holes[h]));
    out->holes = holes;
    out->hole_count = r->hole_count;
    return SW_OK;
}

/* GEOS keeps the coordinates bit by bit, so a corner is found by equality. */
static sw_status corner_index(sw_run *run, const geos *g, const corner_list *corners, const GEOSCoordSequence *ring,
                              unsigned k, uint32_t *index)
{
    corner wanted = {0};
    if (GEOSCoordSeq_getXY_r(g->context, ring, k, &wanted.x_mm, &wanted.y_mm) == 0)
        return geos_failed(run, g, "give a triangle's corner");
    const corner *found = bsearch(&wanted, corners->items, corners->n, sizeof *found, by_place);
    if (found == NULL)
        return sw_fail(run, SW_INTERNAL, (sw_place){0}, "", "a triangle corner (%g, %g) is no vertex of the region",
                       wanted.x_mm, wanted.y_mm);
    *index = found->index;
    return SW_OK;
}

static sw_status read_triangle(sw_run *run, const geos *g, const GEOSGeometry *face, const corner_list *corners,
                               sw_triangle *out)
{
    const GEOSGeometry *shell = GEOSGetExteriorRing_r(g->context, face);
    const GEOSCoordSequence *ring = shell == NULL ? NULL : GEOSGeom_getCoordSeq_r(g->context, shell);
    if (ring == NULL) return geos_failed(run, g, "give a triangle");
    SW_TRY(corner_index(run, g, corners, ring, 0, &out->a));
    SW_TRY(corner_index(run, g, corners, ring, 1, &out->b));
    return corner_index(run, g, corners, ring, 2, &out->c);
}

static double twice_area(const sw_vec3 *p, sw_triangle t)
{
    return (p[t.b].x_mm - p[t.a].x_mm) * (p[t.c].y_mm - p[t.a].y_mm) -
           (p[t.b].y_mm - p[t.a].y_mm) * (p[t.c].x_mm - p[t.a].x_mm);
}

static sw_status read_faces(sw_run *run, const geos *g, const GEOSGeometry *faces, const corner_list *corners,
                            sw_mesh *mesh)
{
    int count = GEOSGetNumGeometries_r(g->context, faces);
    if (count < 0) return geos_failed(run, g, "count triangles");
    sw_triangle *triangles = SW_SCRATCH(run, (size_t)count, sw_triangle);
    if (triangles == NULL) return SW_NO_MEMORY;
    for (int i = 0; i < count; i++) {
        sw_triangle t;
        SW_TRY(read_triangle(run, g, GEOSGetGeometryN_r(g->context, faces, i), corners, &t));
        if (twice_area(mesh->points, t) < 0.0) t = (sw_triangle){t.a, t.c, t.b};
        triangles[i] = t;
    }
    mesh->triangles = triangles;
    mesh->triangle_count = (size_t)count;
    return SW_OK;
}

static sw_status delaunay_of(sw_run *run, const geos *g, const GEOSGeometry *polygon, const corner_list *corners,
                             sw_mesh *mesh)
{
    GEOSGeometry *faces = GEOSConstrainedDelaunayTriangulation_r(g->context, polygon);
    if (faces == NULL) return geos_failed(run, g, "triangulate a region");
    sw_status status = read_faces(run, g, faces, corners, mesh);
    GEOSGeom_destroy_r(g->context, faces);
    return status;
}

/* The triangles must cover the region and nothing else (a hole left open shows in the area). */
static sw_status check_cover(sw_run *run, const sw_region *chords, const sw_mesh *mesh)
{
    double want_mm2 = sw_region_area(chords), got_mm2 = sw_mesh_area(mesh);
    if (fabs(want_mm2 - got_mm2) <= 1e-9 * (fabs(sw_contour_area(chords->outline)) + 1.0)) return SW_OK;
    return sw_fail(run, SW_INTERNAL, (sw_place){0}, "",
                   "triangles of a region cover %.9g mm2 instead of %.9g mm2; is the region sound?", got_mm2, want_mm2);
}

static sw_status delaunay_turned(sw_run *run, const geos *g, const sw_region *chords, double turn_rad, sw_mesh *mesh)
{
    corner_list corners = {NULL, mesh->point_count};
    GEOSGeometry *polygon;
    sw_region turned;
    SW_TRY(turned_region(run, chords, turn_rad, &turned));
    SW_TRY(numbered_corners(run, &turned, &corners.items));
    SW_ASSERT(corners.items != NULL);
    qsort(corners.items, corners.n, sizeof *corners.items, by_place);
    SW_TRY(geos_polygon(run, g, &turned, &polygon));
    sw_status status = delaunay_of(run, g, polygon, &corners, mesh);
    GEOSGeom_destroy_r(g->context, polygon);
    SW_TRY(status);
    return check_cover(run, chords, mesh);
}

/* Turns to try one after the other, radians; only the last failure is recorded. ours */
static const double turns_rad[] = {0.0, 0.7, 2.2, 4.1};

static sw_status delaunay(sw_run *run, const geos *g, const sw_region *chords, sw_mesh *mesh)
{
    size_t errors = run->error_count;
    sw_status status = points_of(run, chords, mesh);
    if (status != SW_OK) return status;
    for (size_t k = 0; k < sizeof turns_rad / sizeof *turns_rad; k++) {
        run->error_count = errors;
        status = delaunay_turned(run, g, chords, turns_rad[k], mesh);
        if (status != SW_INTERNAL) return status;
    }
    return status;
}

static sw_status kept_mesh(sw_run *run, const sw_mesh *mesh, sw_mesh *out)
{
    sw_vec3 *points = SW_KEEP(run, mesh->point_count, sw_vec3);
    sw_triangle *triangles = SW_KEEP(run, mesh->triangle_count, sw_triangle);
    if (points == NULL || triangles == NULL) return SW_NO_MEMORY;
    if (mesh->point_count > 0) memcpy(points, mesh->points, mesh->point_count * sizeof *points);
    if (mesh->triangle_count > 0) memcpy(triangles, mesh->triangles, mesh->triangle_count * sizeof *triangles);
    *out = (sw_mesh){points, mesh->point_count, triangles, mesh->triangle_count};
    return SW_OK;
}

static sw_status triangles(sw_run *run, geos *g, const sw_region *r, double error_mm, double most_y_mm, sw_mesh *out)
{
    sw_region chords;
    sw_mesh mesh = {0};
    SW_TRY(region_chords(run, r, error_mm, &chords));
    SW_TRY(geos_open(run, g));
    SW_TRY(delaunay(run, g, &chords, &mesh));
    if (most_y_mm > 0.0) SW_TRY(mesh_cut_level(run, &mesh, most_y_mm));
    return kept_mesh(run, &mesh, out);
}

sw_status sw_region_triangles(sw_run *run, const sw_region *r, double error_mm, double most_y_mm, sw_mesh *out)
{
    size_t mark = sw_arena_mark(run->scratch);
    geos g = {0};
    *out = (sw_mesh){0};
    sw_status status = triangles(run, &g, r, error_mm, most_y_mm, out);
    geos_close(&g);
    sw_arena_rewind(run->scratch, mark);
    return status;
}
