/* gltf_heat.c: the stove coloured by temperature. With a surface map each part is its mesh, a colour a vertex; parts without
 * one have the temperature of the network as their material. */
#include "papers/chart_parts.h"
#include "papers/gltf_parts.h"

#include <math.h>

/* ---- the map's middle surface as a solid ---- */

static void add_normals(const sw_mesh *m, sw_vec3 *normals)
{
    for (size_t i = 0; i < m->triangle_count; i++) {
        const sw_triangle *t = &m->triangles[i];
        sw_vec3 n =
            sw_vec3_cross(sw_vec3_sub(m->points[t->b], m->points[t->a]), sw_vec3_sub(m->points[t->c], m->points[t->a]));
        normals[t->a] = sw_vec3_add(normals[t->a], n);
        normals[t->b] = sw_vec3_add(normals[t->b], n);
        normals[t->c] = sw_vec3_add(normals[t->c], n);
    }
}

static void add_rim(const sw_mesh *middle, const uint32_t *twins, sw_mesh *out)
{
    uint32_t n = (uint32_t)middle->point_count;
    sw_triangle *to = (sw_triangle *)out->triangles;
    for (size_t e = 0; e < 3 * middle->triangle_count; e++) {
        const sw_triangle *t = &middle->triangles[e / 3];
        uint32_t a = e % 3 == 0 ? t->a : e % 3 == 1 ? t->b : t->c, b = e % 3 == 0 ? t->b : e % 3 == 1 ? t->c : t->a;
        if (twins[e] != HEAT_OPEN) continue;
        to[out->triangle_count++] = (sw_triangle){a + n, b + n, b};
        to[out->triangle_count++] = (sw_triangle){a + n, b, a};
    }
}

sw_status gltf_thick_mesh(sw_run *run, const sw_mesh *middle, double thickness_mm, sw_mesh *out)
{
    size_t n = middle->point_count, count = middle->triangle_count;
    sw_vec3 *points = SW_SCRATCH(run, 2 * n + 1, sw_vec3), *normals = SW_SCRATCH(run, n + 1, sw_vec3);
    sw_triangle *triangles = SW_SCRATCH(run, 8 * count + 1, sw_triangle);
    const uint32_t *twins = heat_twins(run, middle);
    if (points == NULL || normals == NULL || triangles == NULL || twins == NULL) return SW_NO_MEMORY;
    add_normals(middle, normals);
    for (size_t i = 0; i < n; i++) {
        sw_vec3 half = sw_vec3_scaled(sw_vec3_unit(normals[i]), thickness_mm / 2);
        points[i] = sw_vec3_add(middle->points[i], half);
        points[n + i] = sw_vec3_sub(middle->points[i], half);
    }
    for (size_t i = 0; i < count; i++) {
        sw_triangle t = middle->triangles[i];
        uint32_t low = (uint32_t)n;
        triangles[2 * i] = t;
        triangles[2 * i + 1] = (sw_triangle){t.a + low, t.c + low, t.b + low};
    }
    *out = (sw_mesh){points, 2 * n, triangles, 2 * count};
    add_rim(middle, twins, out);
    return SW_OK;
}

/* ---- colours ---- */

static unsigned char byte_of(double linear)
{
    return (unsigned char)lround(255 * fmin(fmax(linear, 0), 1));
}

/* The file's colours are linear: square is near enough to the sRGB curve. */
static sw_status colour_vertices(sw_run *run, const sw_heat_map_part *p, heat_span span, gltf_shape *shape)
{
    unsigned char *out = SW_SCRATCH(run, 4 * shape->vertex_count + 1, unsigned char);
    size_t n = p->mesh.point_count;
    if (out == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < shape->vertex_count; i++) {
        size_t point = shape->points[i];
        bool hot = p->hot_k != NULL && (point < n) == p->hot_above;
        sw_ink c = look_heat(heat_share(span, sw_c_from_k(hot ? p->hot_k[point % n] : p->t_k[point % n])), 0);
        unsigned char *to = out + 4 * i;
        to[0] = byte_of(c.r * c.r), to[1] = byte_of(c.g * c.g), to[2] = byte_of(c.b * c.b), to[3] = 255;
    }
    shape->colours = out;
    return SW_OK;
}

typedef struct collector {
    const sw_burned *b;
    gltf_scene *s;
    heat_span span;
    double *told_c;          /* [material_count] NAN: by vertex, or not known */
    size_t by_vertex;        /* 1 where the first material is that of the map's parts */
    const gltf_shape *shape; /* that was added last, as the number `solid`; NULL = none yet */
    size_t solid;
} collector;

/* The material of a temperature to the degree; NAN: not known. */
static sw_status material_of(sw_run *run, collector *c, double t_c, size_t *which)
{
    gltf_scene *s = c->s;
    double told_c = round(t_c);
    for (*which = c->by_vertex; *which < s->material_count; ++*which)
        if (c->told_c[*which] == told_c || (isnan(told_c) && isnan(c->told_c[*which]))) return SW_OK;
    const char *name =
        isnan(told_c) ? "temperature not known" : sw_text_format(run, run->scratch, "%.0f " CELSIUS, told_c);
    sw_ink ink = isnan(told_c) ? look_light(0) : look_heat(heat_share(c->span, told_c), 0);
    if (name == NULL) return SW_NO_MEMORY;
    c->told_c[s->material_count] = told_c;
    s->materials[s->material_count++] = (gltf_material){name, ink.r * ink.r, ink.g * ink.g, ink.b * ink.b, 0, 0.9};
    return SW_OK;
}

static sw_status add_mapped(sw_run *run, collector *c, const sw_heat_map_part *p, gltf_node *node)
{
    gltf_scene *s = c->s;
    gltf_shape *shape = &s->shapes[s->shape_count];
    sw_mesh thick;
    SW_TRY(gltf_thick_mesh(run, &p->mesh, sw_mm_from_m(c->b->scene->parts[p->part].thickness_m), &thick));
    SW_TRY(gltf_shape_make(run, &thick, shape));
    SW_TRY(colour_vertices(run, p, c->span, shape));
    s->meshes[s->mesh_count] = (gltf_mesh){s->shape_count++, 0};
    node->mesh = s->mesh_count++;
    node->frame = sw_frame_world();
    node->hot_c = sw_c_from_k(p->most_k);
    return SW_OK;
}

/* Placements of one piece share their shape, and the mesh too where they are equally warm. */
static sw_status add_solid(sw_run *run, collector *c, const solid_part *part, const gltf_shape *shape, gltf_node *node)
{
    gltf_scene *s = c->s;
    size_t material = 0;
    SW_TRY(material_of(run, c, node->hot_c, &material));
    if (c->shape == NULL || c->shape != shape) {
        c->shape = shape;
        c->solid = s->shape_count++;
        s->shapes[c->solid] = *shape;
    }
    node->frame = part->frame;
    for (node->mesh = 0; node->mesh < s->mesh_count; node->mesh++)
        if (s->meshes[node->mesh].shape == c->solid && s->meshes[node->mesh].material == material) return SW_OK;
    s->meshes[s->mesh_count++] = (gltf_mesh){c->solid, material};
    return SW_OK;
}

static sw_status collect(sw_run *run, collector *c, gltf_parts from)
{
    const solid_part *parts = from.parts;
    gltf_scene *s = c->s;
    for (size_t i = 0; i < from.count; i++) {
        bool again = s->node_count > 0 && s->nodes[s->node_count - 1].tag == parts[i].tag;
        size_t copy = again ? s->nodes[s->node_count - 1].copy + 1 : 1;
        if (from.shapes[i] == NULL) continue;
        size_t part = heat_part_of(c->b->scene, parts[i].tag, copy - 1);
        const sw_heat_map_part *p = part == SIZE_MAX ? NULL : heat_map_of(c->b, part);
        gltf_node node = {.tag = parts[i].tag, .copy = copy, .hot_c = NAN, .cold_c = NAN};
        if (part != SIZE_MAX) node.hot_c = sw_c_from_k(c->b->hot_k[part]);
        if (part != SIZE_MAX && c->b->cold_k != NULL) node.cold_c = sw_c_from_k(c->b->cold_k[part]);
        if (p != NULL)
            SW_TRY(add_mapped(run, c, p, &node));
        else
            SW_TRY(add_solid(run, c, &parts[i], from.shapes[i], &node));
        s->nodes[s->node_count++] = node;
    }
    return SW_OK;
}

static sw_status written(sw_run *run, const sw_dossier *d, gltf_parts from, const char *path)
{
    gltf_scene s;
    collector c = {.b = d->burned, .s = &s, .span = heat_span_of(d->burned)};
    SW_TRY(gltf_open(run, d, from.count, from.count + 2, &s));
    c.told_c = SW_SCRATCH(run, from.count + 3, double);
    const char *name =
        sw_text_format(run, run->scratch, "temperature, %.0f to %.0f " CELSIUS, c.span.low_c, c.span.high_c);
    if (c.told_c == NULL || name == NULL) return SW_NO_MEMORY;
    s.low_c = c.span.low_c, s.high_c = c.span.high_c;
    c.by_vertex = d->burned->map != NULL ? 1 : 0;
    if (c.by_vertex == 1) s.materials[s.material_count++] = (gltf_material){name, 1, 1, 1, 0, 0.9};
    SW_TRY(collect(run, &c, from));
    return gltf_close(run, &s, path);
}

sw_status gltf_write_heat(sw_run *run, const sw_dossier *d, gltf_parts from, const char *path)
{
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = written(run, d, from, path);
    sw_arena_rewind(run->scratch, mark);
    return status;
}
