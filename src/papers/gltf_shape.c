/* gltf_shape.c: a mesh as vertices with normals. Corners at one place share a normal as long as their faces meet
 * flatter than the crease, so that rolls look round and folds stay sharp. */
#include "papers/gltf_parts.h"

#include <math.h>

#define CREASE_COSINE 0.86    /* about 30 degrees */
enum { STEPS_PER_MM = 4096 }; /* float metres resolve no more at this size */

/* ---- places: points of the mesh that are one ---- */

typedef struct place {
    int64_t x, y, z; /* steps */
    size_t first;    /* of the corners sorted by place */
} place;

typedef struct places {
    place *of; /* [count], in the order in which points name them; one more with the end of the last */
    size_t count;
    uint32_t *by_point; /* [point_count] place of a point */
    uint32_t *corners;  /* [3 x triangle_count] 3 x triangle + 0..2, sorted by place */
} places;

static place place_of(sw_vec3 p)
{
    return (place){llround(p.x_mm * STEPS_PER_MM), llround(p.y_mm * STEPS_PER_MM), llround(p.z_mm * STEPS_PER_MM), 0};
}

/* Slot of a table of 2^bits: odd multipliers spread the three (Knuth, multiplicative hashing; from memory). */
static size_t slot_of(place p, int bits)
{
    uint64_t mixed =
        (uint64_t)p.x * 0x9E3779B97F4A7C15u ^ (uint64_t)p.y * 0xC2B2AE3D27D4EB4Fu ^ (uint64_t)p.z * 0x165667B19E3779F9u;
    return (size_t)(mixed * 0x9E3779B97F4A7C15u >> (64 - bits));
}

/* table[2^bits]: place + 1, 0 = free. */
static uint32_t enter(places *all, uint32_t *table, int bits, place p)
{
    size_t slot = slot_of(p, bits);
    for (; table[slot] != 0; slot = (slot + 1) & (((size_t)1 << bits) - 1)) {
        const place *q = &all->of[table[slot] - 1];
        if (q->x == p.x && q->y == p.y && q->z == p.z) return table[slot] - 1;
    }
    all->of[all->count] = p;
    table[slot] = (uint32_t)++all->count;
    return table[slot] - 1;
}

static sw_status find_places(sw_run *run, const sw_mesh *mesh, places *all)
{
    int bits = 4;
    while (((size_t)1 << bits) < 2 * mesh->point_count) bits++;
    uint32_t *table = SW_SCRATCH(run, (size_t)1 << bits, uint32_t);
    *all = (places){SW_SCRATCH(run, mesh->point_count + 1, place), 0, SW_SCRATCH(run, mesh->point_count + 1, uint32_t),
                    SW_SCRATCH(run, 3 * mesh->triangle_count + 1, uint32_t)};
    if (table == NULL || all->of == NULL || all->by_point == NULL || all->corners == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < mesh->point_count; i++)
        all->by_point[i] = enter(all, table, bits, place_of(mesh->points[i]));
    return SW_OK;
}

static uint32_t point_at(const sw_mesh *mesh, size_t corner)
{
    const sw_triangle *t = &mesh->triangles[corner / 3];
    return corner % 3 == 0 ? t->a : corner % 3 == 1 ? t->b : t->c;
}

/* Counting sort: ends of the places, then filled from behind, so that `first` is their start. */
static void sort_corners(const sw_mesh *mesh, places *all)
{
    size_t corners = 3 * mesh->triangle_count, sum = 0;
    for (size_t i = 0; i < corners; i++) all->of[all->by_point[point_at(mesh, i)]].first++;
    for (size_t i = 0; i < all->count; i++) all->of[i].first = sum += all->of[i].first;
    for (size_t i = corners; i-- > 0;) all->corners[--all->of[all->by_point[point_at(mesh, i)]].first] = (uint32_t)i;
    all->of[all->count].first = corners;
}

/* ---- normals ---- */

typedef struct face {
    sw_vec3 unit;
    double twice_area; /* 0 = flat, no normal */
} face;

static face face_of(const sw_mesh *m, const sw_triangle *t)
{
    sw_vec3 across =
        sw_vec3_cross(sw_vec3_sub(m->points[t->b], m->points[t->a]), sw_vec3_sub(m->points[t->c], m->points[t->a]));
    double length = sw_vec3_length(across);
    if (!(length > 1e-9)) return (face){0};
    return (face){sw_vec3_scaled(across, 1 / length), length};
}

/* Sum of the faces at one place that meet the face `own` flatter than the crease, by their area. */
static sw_vec3 smooth(const uint32_t *corners, size_t count, sw_vec3 own, const face *faces)
{
    sw_vec3 sum = {0};
    for (size_t i = 0; i < count; i++) {
        const face *other = &faces[corners[i] / 3];
        if (other->twice_area > 0 && sw_vec3_dot(own, other->unit) >= CREASE_COSINE)
            sum = sw_vec3_add(sum, sw_vec3_scaled(other->unit, other->twice_area));
    }
    return sw_vec3_unit(sum);
}

typedef struct builder {
    float *positions, *normals;
    uint32_t *indices;
    size_t vertex_count;
} builder;

static float metres(int64_t steps)
{
    return (float)sw_m_from_mm((double)steps / STEPS_PER_MM);
}

static void put_vertex(builder *b, const place *at, sw_vec3 normal)
{
    float *p = b->positions + 3 * b->vertex_count, *n = b->normals + 3 * b->vertex_count;
    p[0] = metres(at->x), p[1] = metres(at->y), p[2] = metres(at->z);
    n[0] = (float)normal.x_mm, n[1] = (float)normal.y_mm, n[2] = (float)normal.z_mm;
    b->vertex_count++;
}

/* Vertices of the corners at one place: equal normals share one. */
static void put_place(builder *b, const place *at, const uint32_t *corners, size_t count, const face *faces)
{
    size_t first = b->vertex_count;
    for (size_t i = 0; i < count; i++) {
        const face *own = &faces[corners[i] / 3];
        if (!(own->twice_area > 0)) continue;
        sw_vec3 normal = smooth(corners, count, own->unit, faces);
        size_t v = first;
        for (; v < b->vertex_count; v++) {
            const float *n = b->normals + 3 * v;
            if (sw_vec3_dot(normal, (sw_vec3){(double)n[0], (double)n[1], (double)n[2]}) > 0.99999) break;
        }
        if (v == b->vertex_count) put_vertex(b, at, normal);
        b->indices[corners[i]] = (uint32_t)v;
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

static size_t drop_flat(uint32_t *indices, const face *faces, size_t triangles)
{
    size_t used = 0;
    for (size_t i = 0; i < triangles; i++) {
        if (!(faces[i].twice_area > 0)) continue;
        for (size_t j = 0; j < 3; j++) indices[used++] = indices[3 * i + j];
    }
    return used;
}

sw_status gltf_shape_make(sw_run *run, const sw_mesh *mesh, gltf_shape *shape)
{
    size_t n = 3 * mesh->triangle_count;
    face *faces = SW_SCRATCH(run, mesh->triangle_count + 1, face);
    builder b = {SW_SCRATCH(run, 3 * n + 1, float), SW_SCRATCH(run, 3 * n + 1, float), SW_SCRATCH(run, n + 1, uint32_t),
                 0};
    places all;
    if (faces == NULL || b.positions == NULL || b.normals == NULL || b.indices == NULL) return SW_NO_MEMORY;
    SW_TRY(find_places(run, mesh, &all));
    sort_corners(mesh, &all);
    for (size_t i = 0; i < mesh->triangle_count; i++) faces[i] = face_of(mesh, &mesh->triangles[i]);
    for (size_t i = 0; i < all.count; i++)
        put_place(&b, &all.of[i], all.corners + all.of[i].first, all.of[i + 1].first - all.of[i].first, faces);
    *shape = (gltf_shape){.positions = b.positions,
                          .normals = b.normals,
                          .indices = b.indices,
                          .vertex_count = b.vertex_count,
                          .index_count = drop_flat(b.indices, faces, mesh->triangle_count)};
    measure(shape);
    return SW_OK;
}
