/* gltf_json.c: the JSON part of the glTF file. Built with sw_print, as it is regular and written once; names go
 * through one escaping function (RFC 8259). */
#include "papers/gltf_parts.h"
#include "papers/json_parts.h"

#include <math.h>
#include <string.h>

typedef struct about {
    const char *number, *name, *group, *role;
    double mass_kg;
} about;

static about about_of(const gltf_scene *s, int tag)
{
    if (tag >= 0) {
        const sw_piece *p = &s->stove->pieces[tag];
        return (about){p->number, p->name, p->group, p->role, s->dossier->sheet->pieces[tag].mass_kg};
    }
    const sw_item *item = &s->stove->items[-1 - tag];
    return (about){item->number, item->name, item->group, item->role, item->mass_kg};
}

static bool group_used(const gltf_scene *s, size_t group)
{
    for (size_t i = 0; i < s->node_count; i++)
        if (gltf_group_of(s, s->nodes[i].tag) == group) return true;
    return false;
}

/* Unit quaternion x y z w of the frame's rotation (Shepperd 1978: the largest component first). */
static void quaternion_of(sw_frame f, double q[4])
{
    double r00 = f.x.x_mm, r10 = f.x.y_mm, r20 = f.x.z_mm, r01 = f.y.x_mm, r11 = f.y.y_mm, r21 = f.y.z_mm,
           r02 = f.z.x_mm, r12 = f.z.y_mm, r22 = f.z.z_mm;
    const double squares[4] = {1.0 + r00 - r11 - r22, 1.0 - r00 + r11 - r22, 1.0 - r00 - r11 + r22,
                               1.0 + r00 + r11 + r22};
    const double rows[4][4] = {{squares[0], r10 + r01, r20 + r02, r21 - r12},
                               {r10 + r01, squares[1], r21 + r12, r02 - r20},
                               {r20 + r02, r21 + r12, squares[2], r10 - r01},
                               {r21 - r12, r02 - r20, r10 - r01, squares[3]}};
    int best = 0;
    for (int i = 1; i < 4; i++)
        if (squares[i] > squares[best]) best = i;
    double length = 0.0;
    for (int i = 0; i < 4; i++) length += rows[best][i] * rows[best][i];
    for (int i = 0; i < 4; i++) q[i] = rows[best][i] / sqrt(length);
}

static sw_vec3 y_up(sw_vec3 v)
{
    return (sw_vec3){v.x_mm, v.z_mm, -v.y_mm};
}

/* In a light file meshes are numbered as their shapes, and those the asker holds are not there. */
static void write_mesh_of(sw_writer *w, const gltf_scene *s, const gltf_node *node)
{
    const gltf_shape *shape = &s->shapes[node->mesh]; /* in a whole file not this node's, and not looked at */
    if (!s->light || shape->mesh != SIZE_MAX) sw_print(w, ",\"mesh\":%zu", s->light ? shape->mesh : node->mesh);
    if (s->light) sw_print(w, ",\"scale\":[%.9g,%.9g,%.9g]", shape->unit_m, shape->unit_m, shape->unit_m);
}

static void write_mark_of(sw_writer *w, const gltf_scene *s, const gltf_node *node)
{
    if (s->light) sw_print(w, ",\"shape\":\"%016llx\"", (unsigned long long)s->shapes[node->mesh].mark);
}

static void append(char *to, size_t *n, const char *text, size_t most)
{
    size_t length = sw_text_cut(text, strlen(text), most);
    memcpy(to + *n, text, length);
    *n += length;
}

static void write_node(sw_writer *w, const gltf_scene *s, const gltf_node *node)
{
    about a = about_of(s, node->tag);
    sw_frame f = {y_up(node->frame.x), y_up(node->frame.y), y_up(node->frame.z), y_up(node->frame.origin)};
    double q[4];
    quaternion_of(f, q);
    char name[400];
    sw_print(w, ",{\"name\":");
    size_t n = 0;
    append(name, &n, a.number, 150);
    name[n++] = ' ';
    append(name, &n, a.name, 350 - n);
    if (node->copy > 1) {
        name[n++] = ' ';
        name[n++] = '#';
        if (node->copy >= 100) name[n++] = (char)('0' + node->copy / 100 % 10);
        if (node->copy >= 10) name[n++] = (char)('0' + node->copy / 10 % 10);
        name[n++] = (char)('0' + node->copy % 10);
    }
    name[n] = '\0';
    json_quoted(w, name);
    write_mesh_of(w, s, node);
    sw_print(w, ",\"translation\":[%.9g,%.9g,%.9g],\"rotation\":[%.9g,%.9g,%.9g,%.9g],\"extras\":{\"number\":",
             sw_m_from_mm(f.origin.x_mm), sw_m_from_mm(f.origin.y_mm), sw_m_from_mm(f.origin.z_mm), q[0], q[1], q[2],
             q[3]);
    json_quoted(w, a.number);
    sw_print(w, ",\"name\":");
    json_quoted(w, a.name);
    sw_print(w, ",\"group\":");
    json_quoted(w, a.group);
    sw_print(w, ",\"role\":");
    json_quoted(w, a.role);
    sw_print(w, ",\"copy\":%zu,\"kind\":\"%s\"", node->copy, node->tag >= 0 ? "sheet" : "item");
    if (isfinite(a.mass_kg)) sw_print(w, ",\"mass_kg\":%.6g", a.mass_kg);
    write_mark_of(w, s, node);
    if (isfinite(node->hot_c)) sw_print(w, ",\"hot_c\":%.1f", node->hot_c);
    if (isfinite(node->cold_c)) sw_print(w, ",\"cold_c\":%.1f", node->cold_c);
    sw_print(w, "}}");
}

static void write_group(sw_writer *w, const gltf_scene *s, size_t group, size_t first_node)
{
    bool known = group < s->stove->group_count;
    const sw_group nobody = {.name = "", .title = "without subassembly"};
    const sw_group *g = known ? &s->stove->groups[group] : &nobody;
    sw_vec3 e = y_up(g->explode);
    sw_print(w, ",{\"name\":");
    json_quoted(w, g->title[0] != '\0' ? g->title : g->name);
    sw_print(w, ",\"extras\":{\"group\":");
    json_quoted(w, g->name);
    sw_print(w, ",\"explode_m\":[%.6g,%.6g,%.6g]},\"children\":[", sw_m_from_mm(e.x_mm), sw_m_from_mm(e.y_mm),
             sw_m_from_mm(e.z_mm));
    const char *comma = "";
    for (size_t i = 0; i < s->node_count; i++) {
        if (gltf_group_of(s, s->nodes[i].tag) != group) continue;
        sw_print(w, "%s%zu", comma, first_node + i);
        comma = ",";
    }
    sw_print(w, "]}");
}

/* Node 0 is the stove, then the used groups, then the placed pieces. */
void gltf_json_nodes(sw_writer *w, const gltf_scene *s)
{
    size_t groups = 0;
    for (size_t i = 0; i <= s->stove->group_count; i++) groups += group_used(s, i);
    sw_print(w, "\"nodes\":[{\"name\":");
    json_quoted(w, s->stove->title);
    if (isfinite(s->low_c) && isfinite(s->high_c))
        sw_print(w, ",\"extras\":{\"low_c\":%.1f,\"high_c\":%.1f}", s->low_c, s->high_c);
    for (size_t i = 0; i < groups; i++) sw_print(w, "%s%zu", i == 0 ? ",\"children\":[" : ",", i + 1);
    sw_print(w, "%s}", groups == 0 ? "" : "]");
    for (size_t i = 0; i <= s->stove->group_count; i++)
        if (group_used(s, i)) write_group(w, s, i, groups + 1);
    for (size_t i = 0; i < s->node_count; i++) write_node(w, s, &s->nodes[i]);
    sw_print(w, "]");
}

static void write_materials(sw_writer *w, const gltf_scene *s)
{
    sw_print(w, ",\"materials\":[");
    for (size_t i = 0; i < s->material_count; i++) {
        const gltf_material *m = &s->materials[i];
        sw_print(w, "%s{\"name\":", i == 0 ? "" : ",");
        json_quoted(w, m->name);
        sw_print(
            w,
            ",\"pbrMetallicRoughness\":{\"baseColorFactor\":[%.4f,%.4f,%.4f,1],\"metallicFactor\":%g,\"roughnessFactor\":%g}}",
            m->red, m->green, m->blue, m->metallic, m->roughness);
    }
    sw_print(w, "]");
}

static void write_meshes(sw_writer *w, const gltf_scene *s)
{
    size_t next = 0;
    sw_print(w, ",\"meshes\":[");
    for (size_t i = 0; i < s->mesh_count; i++) {
        const gltf_shape *p = &s->shapes[s->meshes[i].shape];
        while (s->nodes[next].mesh != i) next++;
        sw_print(w, "%s{\"name\":", i == 0 ? "" : ",");
        json_quoted(w, about_of(s, s->nodes[next].tag).number);
        sw_print(w, ",\"primitives\":[{\"attributes\":{\"POSITION\":%zu,\"NORMAL\":%zu", p->accessor, p->accessor + 1);
        if (p->colours != NULL) sw_print(w, ",\"COLOR_0\":%zu", p->accessor + 3);
        sw_print(w, "},\"indices\":%zu,\"material\":%zu}]}", p->accessor + 2, s->meshes[i].material);
    }
    sw_print(w, "]");
}

static void write_data(sw_writer *w, const gltf_scene *s)
{
    sw_print(w, ",\"accessors\":[");
    for (size_t i = 0; i < s->shape_count; i++) {
        const gltf_shape *p = &s->shapes[i];
        sw_print(
            w,
            "%s{\"bufferView\":%zu,\"componentType\":5126,\"count\":%zu,\"type\":\"VEC3\",\"min\":[%.9g,%.9g,%.9g],\"max\":[%.9g,%.9g,%.9g]}",
            i == 0 ? "" : ",", p->accessor, p->vertex_count, (double)p->low[0], (double)p->low[1], (double)p->low[2],
            (double)p->high[0], (double)p->high[1], (double)p->high[2]);
        sw_print(w, ",{\"bufferView\":%zu,\"componentType\":5126,\"count\":%zu,\"type\":\"VEC3\"}", p->accessor + 1,
                 p->vertex_count);
        sw_print(w, ",{\"bufferView\":%zu,\"componentType\":5125,\"count\":%zu,\"type\":\"SCALAR\"}", p->accessor + 2,
                 p->index_count);
        if (p->colours != NULL)
            sw_print(w,
                     ",{\"bufferView\":%zu,\"componentType\":5121,\"normalized\":true,\"count\":%zu,\"type\":\"VEC4\"}",
                     p->accessor + 3, p->vertex_count);
    }
    sw_print(w, "],\"bufferViews\":[");
    for (size_t i = 0; i < s->shape_count; i++) {
        const gltf_shape *p = &s->shapes[i];
        size_t points = 3 * sizeof(float) * p->vertex_count;
        sw_print(w, "%s{\"buffer\":0,\"byteOffset\":%zu,\"byteLength\":%zu,\"target\":34962}", i == 0 ? "" : ",",
                 p->positions_at, points);
        sw_print(w, ",{\"buffer\":0,\"byteOffset\":%zu,\"byteLength\":%zu,\"target\":34962}", p->normals_at, points);
        sw_print(w, ",{\"buffer\":0,\"byteOffset\":%zu,\"byteLength\":%zu,\"target\":34963}", p->indices_at,
                 sizeof(uint32_t) * p->index_count);
        if (p->colours != NULL)
            sw_print(w, ",{\"buffer\":0,\"byteOffset\":%zu,\"byteLength\":%zu,\"target\":34962}", p->colours_at,
                     4 * p->vertex_count);
    }
    sw_print(w, "],\"buffers\":[{\"byteLength\":%zu}]", s->bytes);
}

sw_status gltf_json(sw_run *run, const gltf_scene *s, const char **text, size_t *length)
{
    sw_writer *w = NULL;
    SW_TRY(sw_writer_to_memory(run, &w));
    sw_print(w, "{\"asset\":{\"version\":\"2.0\",\"generator\":\"stovewright " SW_VERSION
                "\"},\"scene\":0,\"scenes\":[{\"nodes\":[0]}],");
    gltf_json_nodes(w, s);
    if (s->shape_count > 0) {
        write_materials(w, s);
        write_meshes(w, s);
        write_data(w, s);
    }
    sw_print(w, "}");
    return sw_writer_take(run, w, text, length);
}
