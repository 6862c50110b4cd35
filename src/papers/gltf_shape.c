/* gltf_shape.c: a mesh as vertices with normals. Corners at one place share a normal as long as their faces meet
 * flatter than the crease, so that rolls look round and folds stay sharp. */
#include "papers/gltf_parts.h"

#include <math.h>

#define CREASE_COSINE 0.86    /* about 30 degrees */
#define SAME_COSINE   0.99999 /* about a quarter of a degree */
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

/* Faces at one place that look the same way. */
typedef struct facing {
    sw_vec3 unit, sum; /* sum: unit normals by twice the faces' areas */
    uint32_t vertex;
} facing;

typedef struct builder {
    const sw_mesh *mesh;
    sw_vec3 *across; /* [triangle_count] normal by twice the area; zero = flat, no normal */
    float *positions, *normals;
    uint32_t *indices, *points;
    size_t vertex_count;
    facing *facings; /* at the place under way */
    size_t facing_count, facing_room;
} builder;

static double dot(sw_vec3 a, sw_vec3 b)
{
    return a.x_mm * b.x_mm + a.y_mm * b.y_mm + a.z_mm * b.z_mm;
}

static sw_vec3 across(const sw_mesh *m, const sw_triangle *t)
{
    sw_vec3 n =
        sw_vec3_cross(sw_vec3_sub(m->points[t->b], m->points[t->a]), sw_vec3_sub(m->points[t->c], m->points[t->a]));
    return dot(n, n) > 1e-18 ? n : (sw_vec3){0};
}

static bool is_flat(sw_vec3 normal)
{
    return !(dot(normal, normal) > 0);
}

static sw_status add_face(sw_run *run, builder *b, sw_vec3 normal, size_t *which)
{
    double size = sqrt(dot(normal, normal));
    for (*which = 0; *which < b->facing_count; ++*which) {
        facing *f = &b->facings[*which];
        if (dot(f->unit, normal) < SAME_COSINE * size) continue;
        f->sum = sw_vec3_add(f->sum, normal);
        return SW_OK;
    }
    facing *grown = sw_grow(run, run->scratch, b->facings, b->facing_count, &b->facing_room, sizeof *grown);
    if (grown == NULL) return SW_NO_MEMORY;
    b->facings = grown;
    grown[b->facing_count++] = (facing){sw_vec3_scaled(normal, 1 / size), normal, 0};
    return SW_OK;
}

/* Sum of the faces at the place that meet this one flatter than the crease. */
static sw_vec3 smooth(const builder *b, const facing *own)
{
    sw_vec3 sum = {0};
    for (size_t i = 0; i < b->facing_count; i++)
        if (dot(own->unit, b->facings[i].unit) >= CREASE_COSINE) sum = sw_vec3_add(sum, b->facings[i].sum);
    return sw_vec3_unit(sum);
}

static float metres(int64_t steps)
{
    return (float)sw_m_from_mm((double)steps / STEPS_PER_MM);
}

/* The vertex with this normal among those of the place, which begin at `first`; made if there is none. */
static uint32_t vertex_with(builder *b, const place *at, sw_vec3 normal, size_t first, uint32_t point)
{
    for (size_t v = first; v < b->vertex_count; v++) {
        const float *n = b->normals + 3 * v;
        if (dot(normal, (sw_vec3){(double)n[0], (double)n[1], (double)n[2]}) > SAME_COSINE) return (uint32_t)v;
    }
    float *p = b->positions + 3 * b->vertex_count, *n = b->normals + 3 * b->vertex_count;
    p[0] = metres(at->x), p[1] = metres(at->y), p[2] = metres(at->z);
    n[0] = (float)normal.x_mm, n[1] = (float)normal.y_mm, n[2] = (float)normal.z_mm;
    b->points[b->vertex_count] = point;
    return (uint32_t)b->vertex_count++;
}

static sw_status put_place(sw_run *run, builder *b, const place *at, const uint32_t *corners, size_t count)
{
    size_t first = b->vertex_count, which;
    b->facing_count = 0;
    for (size_t i = 0; i < count; i++) {
        if (is_flat(b->across[corners[i] / 3])) continue;
        SW_TRY(add_face(run, b, b->across[corners[i] / 3], &which));
        b->indices[corners[i]] = (uint32_t)which;
    }
    for (size_t i = 0; i < b->facing_count; i++)
        b->facings[i].vertex = vertex_with(b, at, smooth(b, &b->facings[i]), first, point_at(b->mesh, corners[0]));
    for (size_t i = 0; i < count; i++)
        if (!is_flat(b->across[corners[i] / 3])) b->indices[corners[i]] = b->facings[b->indices[corners[i]]].vertex;
    return SW_OK;
}

static void measure(gltf_shape *shape)
{
    for (int axis = 0; axis < 3; axis++) shape->low[axis] = INFINITY, shape->high[axis] = -INFINITY;
    for (size_t i = 0; i < 3 * shape->vertex_count; i++) {
        shape->low[i % 3] = fminf(shape->low[i % 3], shape->positions[i]);
        shape->high[i % 3] = fmaxf(shape->high[i % 3], shape->positions[i]);
    }
}

static size_t drop_flat(builder *b)
{
    size_t used = 0;
    for (size_t i = 0; i < b->mesh->triangle_count; i++) {
        if (is_flat(b->across[i])) continue;
        for (size_t j = 0; j < 3; j++) b->indices[used++] = b->indices[3 * i + j];
    }
    return used;
}

static sw_status builder_open(sw_run *run, const sw_mesh *mesh, builder *b)
{
    size_t n = 3 * mesh->triangle_count;
    *b = (builder){.mesh = mesh,
                   .across = SW_SCRATCH(run, mesh->triangle_count + 1, sw_vec3),
                   .positions = SW_SCRATCH(run, 3 * n + 1, float),
                   .normals = SW_SCRATCH(run, 3 * n + 1, float),
                   .indices = SW_SCRATCH(run, n + 1, uint32_t),
                   .points = SW_SCRATCH(run, n + 1, uint32_t)};
    if (b->across == NULL || b->positions == NULL || b->normals == NULL) return SW_NO_MEMORY;
    if (b->indices == NULL || b->points == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < mesh->triangle_count; i++) b->across[i] = across(mesh, &mesh->triangles[i]);
    return SW_OK;
}

sw_status gltf_shape_make(sw_run *run, const sw_mesh *mesh, gltf_shape *shape)
{
    builder b;
    places all;
    SW_TRY(builder_open(run, mesh, &b));
    SW_TRY(find_places(run, mesh, &all));
    sort_corners(mesh, &all);
    for (size_t i = 0; i < all.count; i++)
        SW_TRY(put_place(run, &b, &all.of[i], all.corners + all.of[i].first, all.of[i + 1].first - all.of[i].first));
    *shape = (gltf_shape){.positions = b.positions,
                          .normals = b.normals,
                          .indices = b.indices,
                          .points = b.points,
                          .vertex_count = b.vertex_count,
                          .index_count = drop_flat(&b)};
    measure(shape);
    return SW_OK;
}
