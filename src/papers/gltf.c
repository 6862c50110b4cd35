/* gltf.c: the stove as glTF 2.0, binary container: one mesh a piece, one named node a placed piece under a node a
 * subassembly, materials by subassembly. Metres, y up: (x, y, z) of the stove becomes (x, z, -y).
 * Source: Khronos Group, glTF 2.0 specification (ISO/IEC 12113:2022), sections 3 and 4.4 (GLB). */
#include "papers/gltf_parts.h"

#include <math.h>
#include <string.h>

sw_status gltf_open(sw_run *run, const sw_dossier *d, size_t count, size_t materials, gltf_scene *s)
{
    *s = (gltf_scene){.stove = d->model.stove,
                      .dossier = d,
                      .nodes = SW_SCRATCH(run, count + 1, gltf_node),
                      .shapes = SW_SCRATCH(run, count + 1, gltf_shape),
                      .meshes = SW_SCRATCH(run, count + 1, gltf_mesh),
                      .materials = SW_SCRATCH(run, materials + 1, gltf_material),
                      .low_c = NAN,
                      .high_c = NAN};
    return s->nodes == NULL || s->shapes == NULL || s->meshes == NULL || s->materials == NULL ? SW_NO_MEMORY : SW_OK;
}

size_t gltf_group_of(const gltf_scene *s, int tag)
{
    const char *name = tag >= 0 ? s->stove->pieces[tag].group : s->stove->items[-1 - tag].group;
    for (size_t i = 0; i < s->stove->group_count; i++)
        if (strcmp(s->stove->groups[i].name, name) == 0) return i;
    return s->stove->group_count;
}

/* One material a used group, in their order; base colour is linear: square is near enough to the sRGB curve for a tone. */
static void add_materials(gltf_scene *s, size_t *rank)
{
    for (size_t g = 0; g <= s->stove->group_count; g++) {
        bool used = false;
        for (size_t i = 0; i < s->node_count; i++) used = used || gltf_group_of(s, s->nodes[i].tag) == g;
        rank[g] = s->material_count;
        if (!used) continue;
        sw_ink c = look_group(g);
        const char *name = g < s->stove->group_count ? s->stove->groups[g].name : "without subassembly";
        s->materials[s->material_count++] = (gltf_material){name, c.r * c.r, c.g * c.g, c.b * c.b, 0.1, 0.75};
    }
}

sw_status gltf_shapes_make(sw_run *run, const solid_part *parts, size_t count, const gltf_shape *const **shapes)
{
    const gltf_shape **list = SW_SCRATCH(run, count + 1, const gltf_shape *);
    gltf_shape *made = SW_SCRATCH(run, count + 1, gltf_shape);
    if (list == NULL || made == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < count; i++) {
        if (parts[i].mesh.triangle_count == 0) continue;
        list[i] = i > 0 && parts[i - 1].tag == parts[i].tag ? list[i - 1] : &made[i];
        if (list[i] == &made[i]) SW_TRY(gltf_shape_make(run, &parts[i].mesh, &made[i]));
    }
    *shapes = list;
    return SW_OK;
}

sw_status gltf_collect(sw_run *run, const sw_dossier *d, gltf_parts from, gltf_scene *s)
{
    const solid_part *parts = from.parts;
    SW_TRY(gltf_open(run, d, from.count, d->model.stove->group_count + 1, s));
    for (size_t i = 0; i < from.count; i++) {
        if (from.shapes[i] == NULL) continue;
        bool again = s->node_count > 0 && s->nodes[s->node_count - 1].tag == parts[i].tag;
        if (!again) s->shapes[s->shape_count++] = *from.shapes[i];
        size_t copy = again ? s->nodes[s->node_count - 1].copy + 1 : 1;
        s->nodes[s->node_count++] = (gltf_node){parts[i].tag, copy, s->shape_count - 1, parts[i].frame, NAN, NAN};
    }
    return SW_OK;
}

/* One shape and mesh a piece; the mesh takes the material of its first node. */
static sw_status collect(sw_run *run, const sw_dossier *d, gltf_parts from, gltf_scene *s)
{
    SW_TRY(gltf_collect(run, d, from, s));
    size_t *rank = SW_SCRATCH(run, s->stove->group_count + 1, size_t);
    if (rank == NULL) return SW_NO_MEMORY;
    add_materials(s, rank);
    for (size_t i = s->node_count; i-- > 0;)
        s->meshes[s->nodes[i].mesh] = (gltf_mesh){s->nodes[i].mesh, rank[gltf_group_of(s, s->nodes[i].tag)]};
    s->mesh_count = s->shape_count;
    return SW_OK;
}

static void lay_out(gltf_scene *s)
{
    size_t at = 0, accessor = 0;
    for (size_t i = 0; i < s->shape_count; i++) {
        gltf_shape *shape = &s->shapes[i];
        shape->accessor = accessor;
        accessor += shape->colours == NULL ? 3 : 4;
        shape->positions_at = at;
        at += shape->vertex_count * 3 * sizeof(float);
        shape->normals_at = at;
        at += shape->vertex_count * 3 * sizeof(float);
        shape->indices_at = at;
        at += shape->index_count * sizeof(uint32_t);
        shape->colours_at = at;
        at += shape->colours == NULL ? 0 : 4 * shape->vertex_count;
    }
    s->bytes = at;
}

/* The format's numbers have the least byte first, as most processors have them in memory. */
bool gltf_least_byte_first(void)
{
    const uint32_t one = 1;
    unsigned char first;
    memcpy(&first, &one, 1);
    return first == 1;
}

static void write_u32(sw_writer *w, uint32_t value)
{
    const unsigned char bytes[4] = {(unsigned char)value, (unsigned char)(value >> 8), (unsigned char)(value >> 16),
                                    (unsigned char)(value >> 24)};
    sw_write(w, bytes, 4);
}

/* words[count], each 4 bytes: floats or whole numbers. */
static void write_words(sw_writer *w, const void *words, size_t count)
{
    if (gltf_least_byte_first()) {
        sw_write(w, words, 4 * count);
        return;
    }
    for (size_t i = 0; i < count; i++) {
        uint32_t bits;
        memcpy(&bits, (const char *)words + 4 * i, sizeof bits);
        write_u32(w, bits);
    }
}

static void write_shape(sw_writer *w, const gltf_shape *shape)
{
    write_words(w, shape->positions, 3 * shape->vertex_count);
    write_words(w, shape->normals, 3 * shape->vertex_count);
    write_words(w, shape->indices, shape->index_count);
    if (shape->colours != NULL) sw_write(w, shape->colours, 4 * shape->vertex_count);
}

void gltf_head(sw_writer *w, const char *json, size_t length, size_t bytes)
{
    size_t padded = (length + 3) / 4 * 4;
    write_u32(w, 0x46546c67u); /* "glTF" */
    write_u32(w, 2);
    write_u32(w, (uint32_t)(12 + 8 + padded + (bytes == 0 ? 0 : 8 + bytes)));
    write_u32(w, (uint32_t)padded);
    write_u32(w, 0x4e4f534au); /* "JSON" */
    sw_write(w, json, length);
    sw_write(w, "   ", padded - length);
    if (bytes == 0) return;
    write_u32(w, (uint32_t)bytes);
    write_u32(w, 0x004e4942u); /* "BIN" */
}

sw_status gltf_close(sw_run *run, gltf_scene *s, const char *path)
{
    const char *json = NULL;
    size_t length = 0;
    lay_out(s);
    if (s->bytes > UINT32_MAX / 2)
        return sw_fail(run, SW_OUT_OF_RANGE, (sw_place){0}, path,
                       "the solid has %zu bytes of geometry, most is 2 GiB; coarser chords are needed", s->bytes);
    SW_TRY(gltf_json(run, s, &json, &length));
    sw_writer *w = NULL;
    SW_TRY(sw_writer_to_file(run, path, &w));
    gltf_head(w, json, length, s->bytes);
    for (size_t i = 0; i < s->shape_count; i++) write_shape(w, &s->shapes[i]);
    return sw_writer_close(run, w);
}

sw_status gltf_write(sw_run *run, const sw_dossier *d, gltf_parts from, const char *path)
{
    size_t mark = sw_arena_mark(run->scratch);
    gltf_scene scene = {0};
    sw_status status = collect(run, d, from, &scene);
    if (status == SW_OK) status = gltf_close(run, &scene, path);
    sw_arena_rewind(run->scratch, mark);
    return status;
}

static sw_status alone(sw_run *run, const sw_dossier *d, const char *path,
                       sw_status (*write)(sw_run *run, const sw_dossier *d, gltf_parts from, const char *path))
{
    gltf_parts from = {0};
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = solid_stove(run, d, false, &from.parts, &from.count);
    if (status == SW_OK) status = gltf_shapes_make(run, from.parts, from.count, &from.shapes);
    if (status == SW_OK) status = write(run, d, from, path);
    sw_arena_rewind(run->scratch, mark);
    return status;
}

sw_status sw_paper_gltf(sw_run *run, const sw_dossier *d, const char *path)
{
    return alone(run, d, path, gltf_write);
}

sw_status sw_paper_gltf_heat(sw_run *run, const sw_dossier *d, const char *path)
{
    SW_ASSERT(d->burned != NULL && d->burned->hot_k != NULL);
    return alone(run, d, path, gltf_write_heat);
}
