/* mesh_tree.h: the box tree over the triangles of a mesh, for the files of this folder. */
#ifndef SW_GEOMETRY_MESH_TREE_H
#define SW_GEOMETRY_MESH_TREE_H

#include "geometry/geometry.h"

#include <math.h>

typedef struct box3 {
    sw_vec3 low, high;
} box3;

/* A leaf has count > 0 triangles order[first ..]; an inner node (count 0) has its left child next to it and
 * the right child at `first`. */
typedef struct tree_node {
    box3 box;
    uint32_t first, count;
} tree_node;

enum { LEAF_TRIANGLES = 4, TREE_DEPTH_MAX = 64 };

struct sw_mesh_tree {
    sw_mesh mesh; /* borrowed points and triangles */
    const tree_node *nodes;
    const uint32_t *order; /* triangle numbers */
    const box3 *boxes;     /* of the triangles, in this order */
    size_t node_count;
    box3 box;
};

typedef struct face {
    sw_vec3 a, b, c;
} face;

static inline face mesh_face(const sw_mesh *m, size_t i)
{
    sw_triangle t = m->triangles[i];
    return (face){m->points[t.a], m->points[t.b], m->points[t.c]};
}

/* As fmin and fmax without their care for NaN, which costs a call. */
static inline double lesser(double a, double b)
{
    return a < b ? a : b;
}
static inline double greater(double a, double b)
{
    return a > b ? a : b;
}

static inline box3 box3_union(box3 a, box3 b)
{
    a.low = (sw_vec3){lesser(a.low.x_mm, b.low.x_mm), lesser(a.low.y_mm, b.low.y_mm), lesser(a.low.z_mm, b.low.z_mm)};
    a.high = (sw_vec3){greater(a.high.x_mm, b.high.x_mm), greater(a.high.y_mm, b.high.y_mm),
                       greater(a.high.z_mm, b.high.z_mm)};
    return a;
}

static inline box3 box3_of(face f)
{
    return box3_union(box3_union((box3){f.a, f.a}, (box3){f.b, f.b}), (box3){f.c, f.c});
}

static inline bool box3_apart(box3 a, box3 b)
{
    return a.low.x_mm > b.high.x_mm || b.low.x_mm > a.high.x_mm || a.low.y_mm > b.high.y_mm ||
           b.low.y_mm > a.high.y_mm || a.low.z_mm > b.high.z_mm || b.low.z_mm > a.high.z_mm;
}

static inline bool box3_holds(box3 b, sw_vec3 p)
{
    return p.x_mm >= b.low.x_mm && p.x_mm <= b.high.x_mm && p.y_mm >= b.low.y_mm && p.y_mm <= b.high.y_mm &&
           p.z_mm >= b.low.z_mm && p.z_mm <= b.high.z_mm;
}

/* The tree in one arena; NULL with the error recorded when it is full. */
struct sw_mesh_tree *mesh_tree_in(sw_run *run, sw_arena *arena, const sw_mesh *m);
/* Whether the surface is nearer than the limit: cheaper than the distance. */
bool mesh_tree_nearer(const sw_mesh_tree *tree, sw_vec3 p, double limit_mm);

#endif
