/* gltf_shape.c: a mesh as vertices with normals. Corners at one place share a normal as long as their faces meet
 * flatter than the crease, so that rolls look round and folds stay sharp. */
#include "papers/gltf_parts.h"

#include <math.h>
#include <stdlib.h>

#define CREASE_COSINE 0.86 /* about 30 degrees */

typedef struct corner {
    sw_vec3 at;
    uint32_t triangle, place;
} corner; /* place = 3 x triangle + 0..2 */

static int by_place(const void *left, const void *right)
{
    const corner *a = left, *b = right;
    if (a->at.x_mm != b->at.x_mm) return a->at.x_mm < b->at.x_mm ? -1 : 1;
    if (a->at.y_mm != b->at.y_mm) return a->at.y_mm < b->at.y_mm ? -1 : 1;
    if (a->at.z_mm != b->at.z_mm) return a->at.z_mm < b->at.z_mm ? -1 : 1;
    return a->place < b->place ? -1 : a->place > b->place;
}

static sw_vec3 snapped(sw_vec3 p)
{
    const double steps = 4096.0; /* a millimetre: float metres resolve no more at this size */
    return (sw_vec3){round(p.x_mm * steps) / steps, round(p.y_mm * steps) / steps, round(p.z_mm * steps) / steps};
}

static sw_vec3 crossed(const sw_mesh *m, size_t triangle)
{
    const sw_triangle *t = &m->triangles[triangle];
    return sw_vec3_cross(sw_vec3_sub(m->points[t->b], m->points[t->a]), sw_vec3_sub(m->points[t->c], m->points[t->a]));
}

static bool is_flat(sw_vec3 normal)
{
    return !(sw_vec3_length(normal) > 1e-9);
}

static sw_vec3 smooth(const corner *corners, size_t count, size_t mine, const sw_vec3 *faces)
{
    sw_vec3 own = sw_vec3_unit(faces[corners[mine].triangle]), sum = {0};
    for (size_t i = 0; i < count; i++) {
        sw_vec3 other = faces[corners[i].triangle];
        if (is_flat(other) || sw_vec3_dot(own, sw_vec3_unit(other)) < CREASE_COSINE) continue;
        sum = sw_vec3_add(sum, other);
    }
    return sw_vec3_unit(sum);
}

typedef struct builder {
    float *positions, *normals;
    uint32_t *indices;
    size_t vertex_count;
} builder;

static void put_vertex(builder *b, sw_vec3 at, sw_vec3 normal)
{
    const double p[3] = {sw_m_from_mm(at.x_mm), sw_m_from_mm(at.y_mm), sw_m_from_mm(at.z_mm)};
    const double n[3] = {normal.x_mm, normal.y_mm, normal.z_mm};
    for (int i = 0; i < 3; i++) {
        b->positions[3 * b->vertex_count + (size_t)i] = (float)p[i];
        b->normals[3 * b->vertex_count + (size_t)i] = (float)n[i];
    }
    b->vertex_count++;
}

/* Vertices of the corners at one place: equal normals share one. */
static void put_place(builder *b, const corner *corners, size_t count, const sw_vec3 *faces)
{
    size_t first = b->vertex_count;
    for (size_t i = 0; i < count; i++) {
        if (is_flat(faces[corners[i].triangle])) continue;
        sw_vec3 normal = smooth(corners, count, i, faces);
        size_t v = first;
        for (; v < b->vertex_count; v++) {
            const float *n = b->normals + 3 * v;
            if (sw_vec3_dot(normal, (sw_vec3){(double)n[0], (double)n[1], (double)n[2]}) > 0.99999) break;
        }
        if (v == b->vertex_count) put_vertex(b, corners[i].at, normal);
        b->indices[corners[i].place] = (uint32_t)v;
    }
}

static void measure(gltf_shape *shape)
{
    for (int axis = 0; axis < 3; axis++) shape->low[axis] = INFINITY, shape->high[axis] = -INFINITY;
    for (size_t i = 0; i < 3 * shape->vertex_count; i++) {
        shape->low[i % 3] = fminf(shape->low[i % 3], shape->positions[i]);
        shape->high[i % 3] = fmaxf(shape->high[i % 3], shape->positions[i]);
    }
}

sw_status gltf_shape_make(sw_run *run, const sw_mesh *mesh, gltf_shape *shape)
{
    size_t n = 3 * mesh->triangle_count, used = 0;
    corner *corners = SW_SCRATCH(run, n + 1, corner);
    sw_vec3 *faces = SW_SCRATCH(run, mesh->triangle_count + 1, sw_vec3);
    builder b = {SW_SCRATCH(run, 3 * n + 1, float), SW_SCRATCH(run, 3 * n + 1, float), SW_SCRATCH(run, n + 1, uint32_t),
                 0};
    if (corners == NULL || faces == NULL || b.positions == NULL || b.normals == NULL || b.indices == NULL)
        return SW_NO_MEMORY;
    for (size_t i = 0; i < mesh->triangle_count; i++) {
        const sw_triangle *t = &mesh->triangles[i];
        const uint32_t points[3] = {t->a, t->b, t->c};
        faces[i] = crossed(mesh, i);
        for (uint32_t j = 0; j < 3; j++)
            corners[3 * i + j] = (corner){snapped(mesh->points[points[j]]), (uint32_t)i, (uint32_t)(3 * i) + j};
    }
    qsort(corners, n, sizeof *corners, by_place);
    for (size_t i = 0, j = 0; i < n; i = j) {
        const sw_vec3 at = corners[i].at;
        for (j = i + 1;
             j < n && corners[j].at.x_mm == at.x_mm && corners[j].at.y_mm == at.y_mm && corners[j].at.z_mm == at.z_mm;)
            j++;
        put_place(&b, corners + i, j - i, faces);
    }
    for (size_t i = 0; i < mesh->triangle_count; i++) { /* triangles of no area are left out */
        if (is_flat(faces[i])) continue;
        for (size_t j = 0; j < 3; j++) b.indices[used++] = b.indices[3 * i + j];
    }
    *shape = (gltf_shape){.positions = b.positions,
                          .normals = b.normals,
                          .indices = b.indices,
                          .vertex_count = b.vertex_count,
                          .index_count = used};
    measure(shape);
    return SW_OK;
}
