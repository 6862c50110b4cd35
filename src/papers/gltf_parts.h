/* gltf_parts.h: between the files that write glTF. Positions metres in the piece's own frame. */
#ifndef SW_PAPERS_GLTF_PARTS_H
#define SW_PAPERS_GLTF_PARTS_H

#include "papers/papers_parts.h"

typedef struct gltf_shape {
    const float *positions, *normals; /* [3 x vertex_count], x y z of the piece's frame, m and unit */
    const uint32_t *indices;          /* [index_count] */
    size_t vertex_count, index_count;
    float low[3], high[3];                       /* box of the positions */
    size_t positions_at, normals_at, indices_at; /* byte offsets */
} gltf_shape;

typedef struct gltf_node {
    int tag;
    size_t copy, shape;
    sw_frame frame;
} gltf_node; /* tag as in solid_part; copy from 1 */

typedef struct gltf_scene {
    const sw_stove *stove;
    const sw_dossier *dossier;
    gltf_shape *shapes;
    size_t shape_count;
    gltf_node *nodes;
    size_t node_count;
    size_t bytes;
} gltf_scene;

/* As sw_paper_gltf, of parts made before (solid_stove, not exploded). Rewinds scratch. */
sw_status gltf_write(sw_run *run, const sw_dossier *d, const solid_part *parts, size_t count, const char *path);
/* Vertices with normals shared across edges flatter than about 30 degrees; in run->scratch. */
sw_status gltf_shape_make(sw_run *run, const sw_mesh *mesh, gltf_shape *shape);
sw_status gltf_json(sw_run *run, const gltf_scene *scene, const char **text, size_t *length); /* text in run->keep */

#endif
