/* gltf_parts.h: between the files that write glTF. Positions metres in the piece's own frame. */
#ifndef SW_PAPERS_GLTF_PARTS_H
#define SW_PAPERS_GLTF_PARTS_H

#include "papers/papers_parts.h"

typedef struct gltf_shape {
    const float *positions, *normals; /* [3 x vertex_count], x y z of the piece's frame, m and unit */
    const uint32_t *indices;          /* [index_count] */
    const uint32_t *points;           /* [vertex_count] a point of the mesh at the same place */
    const unsigned char *colours;     /* [4 x vertex_count] linear red, green, blue, 255; NULL = by material only */
    size_t vertex_count, index_count;
    float low[3], high[3];                                   /* box of the positions */
    size_t positions_at, normals_at, colours_at, indices_at; /* byte offsets */
    size_t accessor;                                         /* its first; buffer views are numbered alike */
    double unit_m; /* light: what a whole number of its positions stands for; 0 = floats, metres */
    uint64_t mark; /* light: of its bytes */
    size_t mesh;   /* light: its number, SIZE_MAX = the asker holds it */
} gltf_shape;

typedef struct gltf_material {
    const char *name;
    double red, green, blue; /* linear */
    double metallic, roughness;
} gltf_material;

typedef struct gltf_mesh {
    size_t shape, material;
} gltf_mesh;

typedef struct gltf_node {
    int tag;
    size_t copy, mesh;
    sw_frame frame;
    double hot_c, cold_c; /* NAN: not told */
} gltf_node;              /* tag as in solid_part; copy from 1 */

typedef struct gltf_scene {
    const sw_stove *stove;
    const sw_dossier *dossier;
    gltf_shape *shapes;
    size_t shape_count;
    gltf_mesh *meshes;
    size_t mesh_count;
    gltf_material *materials;
    size_t material_count;
    gltf_node *nodes;
    size_t node_count;
    double low_c, high_c; /* of the colours; NAN: not by temperature */
    size_t bytes;
    bool light; /* see sw_paper_gltf_light; without meshes and materials of its own */
} gltf_scene;

/* Room for `count` nodes, as many shapes and meshes, and `materials`. */
sw_status gltf_open(sw_run *run, const sw_dossier *d, size_t count, size_t materials, gltf_scene *s);
sw_status gltf_close(sw_run *run, gltf_scene *s, const char *path); /* writes the file */
size_t gltf_group_of(const gltf_scene *s, int tag); /* those of no known group share the one after the last */

/* A thin shell of the map as a closed mesh: its upper points, then as many lower ones. In run->scratch. */
sw_status gltf_thick_mesh(sw_run *run, const sw_mesh *middle, double thickness_mm, sw_mesh *out);
/* Shapes of parts made before (solid_stove, not exploded), one a tag: shapes[i] is that of parts[i], NULL without triangles.
 * In run->scratch. */
sw_status gltf_shapes_make(sw_run *run, const solid_part *parts, size_t count, const gltf_shape *const **shapes);
typedef struct gltf_parts {
    const solid_part *parts;
    const gltf_shape *const *shapes;
    size_t count;
} gltf_parts;
/* As sw_paper_gltf and sw_paper_gltf_heat. Rewind scratch. */
sw_status gltf_write(sw_run *run, const sw_dossier *d, gltf_parts from, const char *path);
sw_status gltf_write_heat(sw_run *run, const sw_dossier *d, gltf_parts from, const char *path);
/* Vertices with normals shared across edges flatter than about 30 degrees; in run->scratch. */
sw_status gltf_shape_make(sw_run *run, const sw_mesh *mesh, gltf_shape *shape);
sw_status gltf_json(sw_run *run, const gltf_scene *scene, const char **text, size_t *length); /* text in run->keep */
void gltf_json_nodes(sw_writer *w, const gltf_scene *scene);
/* Nodes by part, shapes by piece; no materials. Room is made. Rewinds nothing. */
sw_status gltf_collect(sw_run *run, const sw_dossier *d, gltf_parts from, gltf_scene *scene);
/* The container around the JSON; `bytes` of geometry follow, written by the caller. */
void gltf_head(sw_writer *w, const char *json, size_t length, size_t bytes);
bool gltf_least_byte_first(void);

#endif
