/* gltf_light.c: the stove as a small glTF file, for a picture that follows a hand: positions in 16 bits and normals in 8
 * (Khronos Group, KHR_mesh_quantization), indices in 16 where they fit, and only geometry the asker does not hold. */
#include "papers/gltf_parts.h"

#include <math.h>
#include <string.h>

enum {
    POINT_WORDS = 4,
    MOST = 32767
}; /* positions and normals begin at multiples of 4 bytes: one word, one byte stand idle */

typedef struct packed { /* a shape's bytes as they are written */
    int16_t *points;    /* [POINT_WORDS x vertex_count] */
    int8_t *normals;    /* [4 x vertex_count] */
    void *indices;      /* [index_count] 16 bits each when `narrow`, else 32; an even number of 16-bit ones */
    size_t index_bytes;
    bool narrow;
} packed;

typedef struct light {
    gltf_scene scene;
    packed *packed; /* [shape_count] */
    size_t sent;    /* meshes that are in the file */
} light;

/* ---- packing ---- */

static double unit_of(const gltf_shape *shape)
{
    float most_m = 0;
    for (int axis = 0; axis < 3; axis++)
        most_m = fmaxf(most_m, fmaxf(fabsf(shape->low[axis]), fabsf(shape->high[axis])));
    return most_m > 0 ? (double)most_m / MOST : 1;
}

static int16_t whole(float value_m, double unit_m)
{
    return (int16_t)lround((double)value_m / unit_m);
}

static void pack_points(const gltf_shape *shape, packed *out)
{
    for (size_t i = 0; i < shape->vertex_count; i++)
        for (size_t axis = 0; axis < 3; axis++) {
            out->points[POINT_WORDS * i + axis] = whole(shape->positions[3 * i + axis], shape->unit_m);
            out->normals[4 * i + axis] = (int8_t)lroundf(127 * shape->normals[3 * i + axis]);
        }
}

static void pack_indices(const gltf_shape *shape, packed *out)
{
    uint16_t *narrow = out->indices;
    if (!out->narrow) memcpy(out->indices, shape->indices, out->index_bytes);
    for (size_t i = 0; out->narrow && i < shape->index_count; i++) narrow[i] = (uint16_t)shape->indices[i];
}

static sw_status pack(sw_run *run, const gltf_shape *shape, packed *out)
{
    out->narrow = shape->vertex_count <= UINT16_MAX;
    out->index_bytes = out->narrow ? (shape->index_count + 1) / 2 * 4 : 4 * shape->index_count;
    out->points = SW_SCRATCH(run, POINT_WORDS * shape->vertex_count + 1, int16_t);
    out->normals = SW_SCRATCH(run, 4 * shape->vertex_count + 1, int8_t);
    out->indices = sw_scratch(run, out->index_bytes + 4, 1);
    if (out->points == NULL || out->normals == NULL || out->indices == NULL) return SW_NO_MEMORY;
    pack_points(shape, out);
    pack_indices(shape, out);
    return SW_OK;
}

/* ---- marks: FNV-1a's step over 8 bytes at a time, its high half folded down (Fowler, Noll, Vo; from memory) ---- */

static uint64_t marked(uint64_t mark, const void *bytes, size_t length)
{
    for (size_t i = 0; i < length; i += 8) {
        uint64_t word = 0;
        memcpy(&word, (const char *)bytes + i, length - i < 8 ? length - i : 8);
        mark = (mark ^ word) * 0x100000001b3u;
        mark ^= mark >> 29;
    }
    return mark;
}

static uint64_t mark_of(const gltf_shape *shape, const packed *p)
{
    const uint64_t sizes[2] = {shape->vertex_count, shape->index_count};
    uint64_t mark = marked(0xcbf29ce484222325u, sizes, sizeof sizes);
    mark = marked(mark, &shape->unit_m, sizeof shape->unit_m);
    mark = marked(mark, p->points, 2 * (size_t)POINT_WORDS * shape->vertex_count);
    mark = marked(mark, p->normals, 4 * shape->vertex_count);
    return marked(mark, p->indices, p->index_bytes);
}

static bool is_held(uint64_t mark, const uint64_t *held, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (held[i] == mark) return true;
    return false;
}

/* Equal shapes are sent once. */
static size_t mesh_of(const light *l, size_t shape)
{
    const gltf_shape *s = l->scene.shapes;
    for (size_t i = 0; i < shape; i++)
        if (s[i].mark == s[shape].mark) return s[i].mesh;
    return l->sent;
}

static sw_status pack_all(sw_run *run, light *l, const uint64_t *held, size_t held_count)
{
    for (size_t i = 0; i < l->scene.shape_count; i++) {
        if (sw_run_cancelled(run)) return sw_fail(run, SW_CANCELLED, (sw_place){0}, "picture", "stopped on request");
        gltf_shape *shape = &l->scene.shapes[i];
        shape->unit_m = unit_of(shape);
        SW_TRY(pack(run, shape, &l->packed[i]));
        shape->mark = mark_of(shape, &l->packed[i]);
        shape->mesh = is_held(shape->mark, held, held_count) ? SIZE_MAX : mesh_of(l, i);
        if (shape->mesh == l->sent) l->sent++;
    }
    return SW_OK;
}

/* The shape that is written as this mesh. */
static size_t shape_of(const light *l, size_t mesh)
{
    size_t i = 0;
    while (l->scene.shapes[i].mesh != mesh) i++;
    return i;
}

/* ---- writing ---- */

static void lay_out(light *l)
{
    size_t at = 0;
    for (size_t m = 0; m < l->sent; m++) {
        gltf_shape *shape = &l->scene.shapes[shape_of(l, m)];
        shape->accessor = 3 * m;
        shape->positions_at = at;
        at += 2 * (size_t)POINT_WORDS * shape->vertex_count;
        shape->normals_at = at;
        at += 4 * shape->vertex_count;
        shape->indices_at = at;
        at += l->packed[shape_of(l, m)].index_bytes;
    }
    l->scene.bytes = at;
}

static void write_accessors(sw_writer *w, const light *l, size_t mesh)
{
    size_t i = shape_of(l, mesh);
    const gltf_shape *p = &l->scene.shapes[i];
    sw_print(w, "%s{\"bufferView\":%zu,\"componentType\":5122,\"count\":%zu,\"type\":\"VEC3\"", mesh == 0 ? "" : ",",
             p->accessor, p->vertex_count);
    sw_print(w, ",\"min\":[%d,%d,%d],\"max\":[%d,%d,%d]}", whole(p->low[0], p->unit_m), whole(p->low[1], p->unit_m),
             whole(p->low[2], p->unit_m), whole(p->high[0], p->unit_m), whole(p->high[1], p->unit_m),
             whole(p->high[2], p->unit_m));
    sw_print(w, ",{\"bufferView\":%zu,\"componentType\":5120,\"normalized\":true,\"count\":%zu,\"type\":\"VEC3\"}",
             p->accessor + 1, p->vertex_count);
    sw_print(w, ",{\"bufferView\":%zu,\"componentType\":%d,\"count\":%zu,\"type\":\"SCALAR\"}", p->accessor + 2,
             l->packed[i].narrow ? 5123 : 5125, p->index_count);
}

static void write_views(sw_writer *w, const light *l, size_t mesh)
{
    size_t i = shape_of(l, mesh);
    const gltf_shape *p = &l->scene.shapes[i];
    sw_print(w, "%s{\"buffer\":0,\"byteOffset\":%zu,\"byteLength\":%zu,\"byteStride\":8,\"target\":34962}",
             mesh == 0 ? "" : ",", p->positions_at, 2 * (size_t)POINT_WORDS * p->vertex_count);
    sw_print(w, ",{\"buffer\":0,\"byteOffset\":%zu,\"byteLength\":%zu,\"byteStride\":4,\"target\":34962}",
             p->normals_at, 4 * p->vertex_count);
    sw_print(w, ",{\"buffer\":0,\"byteOffset\":%zu,\"byteLength\":%zu,\"target\":34963}", p->indices_at,
             l->packed[i].index_bytes);
}

static void write_data(sw_writer *w, const light *l)
{
    sw_print(w, ",\"meshes\":[");
    for (size_t m = 0; m < l->sent; m++)
        sw_print(w, "%s{\"primitives\":[{\"attributes\":{\"POSITION\":%zu,\"NORMAL\":%zu},\"indices\":%zu}]}",
                 m == 0 ? "" : ",", 3 * m, 3 * m + 1, 3 * m + 2);
    sw_print(w, "],\"accessors\":[");
    for (size_t m = 0; m < l->sent; m++) write_accessors(w, l, m);
    sw_print(w, "],\"bufferViews\":[");
    for (size_t m = 0; m < l->sent; m++) write_views(w, l, m);
    sw_print(w, "],\"buffers\":[{\"byteLength\":%zu}]", l->scene.bytes);
}

static sw_status write_json(sw_run *run, const light *l, const char **text, size_t *length)
{
    sw_writer *w = NULL;
    SW_TRY(sw_writer_to_memory(run, &w));
    sw_print(w, "{\"asset\":{\"version\":\"2.0\",\"generator\":\"stovewright " SW_VERSION "\"}");
    if (l->sent > 0)
        sw_print(w, ",\"extensionsUsed\":[\"KHR_mesh_quantization\"],"
                    "\"extensionsRequired\":[\"KHR_mesh_quantization\"]");
    sw_print(w, ",\"scene\":0,\"scenes\":[{\"nodes\":[0]}],");
    gltf_json_nodes(w, &l->scene);
    if (l->sent > 0) write_data(w, l);
    sw_print(w, "}");
    return sw_writer_take(run, w, text, length);
}

/* Two bytes each, the least first. */
static void write_halves(sw_writer *w, const void *halves, size_t count)
{
    const uint16_t *h = halves;
    if (gltf_least_byte_first()) sw_write(w, halves, 2 * count);
    for (size_t i = 0; !gltf_least_byte_first() && i < count; i++)
        sw_write(w, (const unsigned char[2]){(unsigned char)h[i], (unsigned char)(h[i] >> 8)}, 2);
}

static void write_indices(sw_writer *w, const packed *p)
{
    const uint32_t *wide = p->indices;
    if (p->narrow) {
        write_halves(w, p->indices, p->index_bytes / 2);
        return;
    }
    for (size_t i = 0; i < p->index_bytes / 4; i++)
        write_halves(w, (const uint16_t[2]){(uint16_t)wide[i], (uint16_t)(wide[i] >> 16)}, 2);
}

static void write_mesh(sw_writer *w, const light *l, size_t mesh)
{
    size_t i = shape_of(l, mesh);
    const packed *p = &l->packed[i];
    write_halves(w, p->points, (size_t)POINT_WORDS * l->scene.shapes[i].vertex_count);
    sw_write(w, p->normals, 4 * l->scene.shapes[i].vertex_count);
    write_indices(w, p);
}

static sw_status write_all(sw_run *run, const sw_dossier *d, const uint64_t *held, size_t held_count, sw_writer *w)
{
    gltf_parts from = {0};
    light l = {0};
    const char *json = NULL;
    size_t length = 0;
    SW_TRY(solid_stove(run, d, false, &from.parts, &from.count));
    SW_TRY(gltf_shapes_make(run, from.parts, from.count, &from.shapes));
    SW_TRY(gltf_collect(run, d, from, &l.scene));
    l.scene.light = true;
    l.packed = SW_SCRATCH(run, l.scene.shape_count + 1, packed);
    if (l.packed == NULL) return SW_NO_MEMORY;
    SW_TRY(pack_all(run, &l, held, held_count));
    lay_out(&l);
    SW_TRY(write_json(run, &l, &json, &length));
    gltf_head(w, json, length, l.scene.bytes);
    for (size_t m = 0; m < l.sent; m++) write_mesh(w, &l, m);
    return SW_OK;
}

sw_status sw_paper_gltf_light(sw_run *run, const sw_dossier *d, const uint64_t *held, size_t held_count, sw_writer *w)
{
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = write_all(run, d, held, held_count, w);
    sw_arena_rewind(run->scratch, mark);
    return status;
}
