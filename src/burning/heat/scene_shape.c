/* scene_shape.c: bodies get their shapes: folded pieces moved to their places, items extruded; then the parts of the
 * scene. */
#include "burning/heat/scene_parts.h"

#include <math.h>
#include <stdlib.h>

#define ITEM_CHORD_MM 0.5   /* of round boards and grates: nothing here sees it */
#define BAR_M         0.012 /* a handle without shape counts as a round bar of this diameter; ours */

sw_status scene_mesh_placed(sw_run *run, const sw_mesh *mesh, const sw_frame *frame, sw_mesh *out)
{
    sw_vec3 *points = SW_SCRATCH(run, mesh->point_count + 1, sw_vec3);
    if (points == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < mesh->point_count; i++) points[i] = sw_frame_point(*frame, mesh->points[i]);
    *out = *mesh;
    out->points = points;
    return SW_OK;
}

/* ---- extrusion ---- */

typedef struct side { /* of a triangle; once = border */
    uint32_t from, to;
} side;

static int by_ends(const void *a, const void *b)
{
    const side *p = a, *q = b;
    uint32_t pl = p->from < p->to ? p->from : p->to, ql = q->from < q->to ? q->from : q->to;
    if (pl != ql) return pl < ql ? -1 : 1;
    uint32_t ph = p->from + p->to - pl, qh = q->from + q->to - ql;
    return ph < qh ? -1 : ph > qh;
}

/* Sides that one triangle alone has, to the front of sides[]. */
static size_t keep_border(side *sides, size_t count)
{
    size_t kept = 0;
    qsort(sides, count, sizeof *sides, by_ends);
    for (size_t i = 0; i < count;) {
        size_t end = i + 1;
        while (end < count && by_ends(&sides[i], &sides[end]) == 0) end++;
        if (end == i + 1) sides[kept++] = sides[i];
        i = end;
    }
    return kept;
}

static size_t list_sides(const sw_mesh *flat, side *sides)
{
    size_t count = 0;
    for (size_t i = 0; i < flat->triangle_count; i++) {
        const sw_triangle *t = &flat->triangles[i];
        sides[count++] = (side){t->a, t->b};
        sides[count++] = (side){t->b, t->c};
        sides[count++] = (side){t->c, t->a};
    }
    return count;
}

/* Lower points first, then upper; lower skin wound the other way round; two triangles a border side. */
static void lay_solid(const sw_mesh *flat, double thickness_mm, const side *border, size_t border_count,
                      sw_vec3 *points, sw_triangle *triangles)
{
    uint32_t up = (uint32_t)flat->point_count;
    for (size_t i = 0; i < flat->point_count; i++) {
        points[i] = points[i + up] = flat->points[i];
        points[i].z_mm = 0.0;
        points[i + up].z_mm = thickness_mm;
    }
    for (size_t i = 0; i < flat->triangle_count; i++) {
        sw_triangle t = flat->triangles[i];
        *triangles++ = (sw_triangle){t.a + up, t.b + up, t.c + up};
        *triangles++ = (sw_triangle){t.a, t.c, t.b};
    }
    for (size_t i = 0; i < border_count; i++) {
        side s = border[i];
        *triangles++ = (sw_triangle){s.from, s.to, s.to + up};
        *triangles++ = (sw_triangle){s.from, s.to + up, s.from + up};
    }
}

static sw_status add_ring(sw_run *run, sw_contour c, sw_point **points, size_t *count, size_t *room)
{
    sw_contour chords;
    SW_TRY(sw_contour_flattened(run, c, ITEM_CHORD_MM, &chords));
    for (size_t i = 0; i < chords.n; i++) {
        sw_point *grown = sw_grow(run, run->scratch, *points, *count, room, sizeof *grown);
        if (grown == NULL) return SW_NO_MEMORY;
        *points = grown;
        grown[(*count)++] = (sw_point){chords.v[i].x_mm, chords.v[i].y_mm};
    }
    return SW_OK;
}

/* The quick way where it works, GEOS where it does not. */
static sw_status flat_triangles(sw_run *run, const sw_region *region, sw_mesh *flat)
{
    size_t *ends = SW_SCRATCH(run, region->hole_count + 1, size_t), count = 0, room = 0, triangles = 0;
    sw_point *points = NULL;
    sw_triangle *found = NULL;
    if (ends == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i <= region->hole_count; i++) {
        SW_TRY(add_ring(run, i == 0 ? region->outline : region->holes[i - 1], &points, &count, &room));
        ends[i] = count;
    }
    SW_TRY(sw_rings_triangulate(run, &(sw_rings){points, ends, region->hole_count + 1}, &found, &triangles));
    if (found == NULL) return sw_region_triangles(run, region, ITEM_CHORD_MM, 0.0, flat);
    sw_vec3 *lifted = SW_SCRATCH(run, count + 1, sw_vec3);
    if (lifted == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < count; i++) lifted[i] = (sw_vec3){points[i].x_mm, points[i].y_mm, 0.0};
    *flat = (sw_mesh){lifted, count, found, triangles};
    return SW_OK;
}

sw_status scene_extruded(sw_run *run, const sw_region *region, double thickness_mm, sw_mesh *out)
{
    sw_mesh flat;
    SW_TRY(flat_triangles(run, region, &flat));
    side *sides = SW_SCRATCH(run, 3 * flat.triangle_count + 1, side);
    if (sides == NULL) return SW_NO_MEMORY;
    size_t border = keep_border(sides, list_sides(&flat, sides));
    sw_vec3 *points = SW_SCRATCH(run, 2 * flat.point_count + 1, sw_vec3);
    sw_triangle *triangles = SW_SCRATCH(run, 2 * (flat.triangle_count + border) + 1, sw_triangle);
    if (points == NULL || triangles == NULL) return SW_NO_MEMORY;
    lay_solid(&flat, thickness_mm, sides, border, points, triangles);
    *out = (sw_mesh){points, 2 * flat.point_count, triangles, 2 * (flat.triangle_count + border)};
    return SW_OK;
}

/* ---- bodies ---- */

static sw_status shape_of(sw_run *run, scene_job *job, scene_body *b)
{
    if (b->piece >= 0) return scene_mesh_placed(run, &job->sheet->pieces[b->piece].solid.mesh, &b->frame, &b->mesh);
    const sw_item *item = &job->stove->items[b->item];
    if (item->shape.outline.n == 0) return b->kind == SW_PART_PANE ? scene_pane_shape(run, job, b) : SW_OK;
    sw_mesh local;
    SW_TRY(scene_extruded(run, &item->shape, item->thickness_mm, &local));
    return scene_mesh_placed(run, &local, &b->frame, &b->mesh);
}

/* What has no shape is a mass, but a handle stays: as a bar of its mass. V = m/rho, A = 4 V/d. */
static void without_shape(scene_body *b)
{
    b->area_m2 = 0.0;
    if (b->kind != SW_PART_HANDLE || !(b->mass_kg > 0.0)) {
        b->kind = SW_PART_SMALL;
        return;
    }
    b->thickness_m = BAR_M;
    b->layered = false;
    b->area_m2 = 4.0 * b->mass_kg / b->material->density / BAR_M;
}

static void grow_box(scene_job *job, const scene_body *b)
{
    sw_vec3 low = b->low, high = b->high;
    job->low = (sw_vec3){fmin(job->low.x_mm, low.x_mm), fmin(job->low.y_mm, low.y_mm), fmin(job->low.z_mm, low.z_mm)};
    job->high =
        (sw_vec3){fmax(job->high.x_mm, high.x_mm), fmax(job->high.y_mm, high.y_mm), fmax(job->high.z_mm, high.z_mm)};
}

static sw_status list_parts(sw_run *run, scene_job *job)
{
    sw_scene *s = job->scene;
    job->parts = SW_KEEP(run, job->body_count + 1, sw_scene_part);
    if (job->parts == NULL) return SW_NO_MEMORY;
    s->parts = job->parts;
    for (size_t i = 0; i < job->body_count; i++) {
        scene_body *b = &job->bodies[i];
        if (b->kind == SW_PART_SMALL) continue;
        b->part = (uint32_t)s->part_count;
        job->parts[s->part_count++] =
            (sw_scene_part){b->name,        b->piece,   b->item,    b->placement, b->kind,  b->material,
                            b->thickness_m, b->mass_kg, b->area_m2, b->layered,   b->place, SW_DUCT_NONE};
    }
    return SW_OK;
}

sw_status scene_body_shapes(sw_run *run, scene_job *job)
{
    job->low = (sw_vec3){(double)INFINITY, (double)INFINITY, (double)INFINITY};
    job->high = sw_vec3_scaled(job->low, -1.0);
    for (size_t i = 0; i < job->body_count; i++) {
        scene_body *b = &job->bodies[i];
        SW_TRY(shape_of(run, job, b));
        if (b->mesh.triangle_count == 0) without_shape(b);
        if (b->mesh.triangle_count == 0) continue;
        b->skin_m2 = sw_m2_from_mm2(sw_mesh_area(&b->mesh));
        sw_mesh_box(&b->mesh, &b->low, &b->high);
        if (b->kind != SW_PART_SMALL) grow_box(job, b);
    }
    return list_parts(run, job);
}
