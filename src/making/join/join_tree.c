/* join_tree.c: the triangles of each piece in a tree of boxes, halved at the median; a cylinder goes down where it meets a
 * box: the boxes' axes and its own part them (Gottschalk, Lin, Manocha 1996, without the crossed axes). */
#include "making/join/join_parts.h"

#include <stdlib.h>

enum { LEAF = 4 };

typedef struct key {
    double at;
    size_t face;
} key;

typedef struct grower {
    const join_face *faces;
    join_node *nodes;
    key *keys;
    size_t count;
} grower;

static double along(sw_vec3 p, int axis)
{
    return axis == 0 ? p.x_mm : axis == 1 ? p.y_mm : p.z_mm;
}

static int by_place(const void *a, const void *b)
{
    const key *p = a, *q = b;
    if (p->at != q->at) return p->at < q->at ? -1 : 1;
    return p->face < q->face ? -1 : p->face > q->face;
}

static int longest(join_box box)
{
    sw_vec3 wide = sw_vec3_sub(box.high, box.low);
    if (wide.x_mm >= wide.y_mm && wide.x_mm >= wide.z_mm) return 0;
    return wide.y_mm >= wide.z_mm ? 1 : 2;
}

static void grow(grower *g, size_t node, size_t first, size_t count)
{
    join_node *n = &g->nodes[node];
    n->box = join_box_empty();
    for (size_t i = first; i < first + count; i++) {
        const join_box *box = &g->faces[g->keys[i].face].box;
        n->box = join_box_with(join_box_with(n->box, box->low), box->high);
    }
    n->first = first;
    n->count = count;
    if (count <= LEAF) return;
    int axis = longest(n->box);
    for (size_t i = first; i < first + count; i++) {
        const join_box *box = &g->faces[g->keys[i].face].box;
        g->keys[i].at = along(box->low, axis) + along(box->high, axis);
    }
    qsort(&g->keys[first], count, sizeof *g->keys, by_place);
    n->first = g->count;
    n->count = 0;
    g->count += 2;
    size_t half = count / 2, left = n->first;
    grow(g, left, first, half);
    grow(g, left + 1, first + half, count - half);
}

static sw_status grow_tree(sw_run *run, join_instance *one)
{
    size_t n = one->face_count;
    if (n == 0) return SW_OK;
    grower g = {one->faces, SW_SCRATCH(run, 2 * n, join_node), SW_SCRATCH(run, n, key), 1};
    size_t *order = SW_SCRATCH(run, n, size_t);
    if (g.nodes == NULL || g.keys == NULL || order == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < n; i++) g.keys[i].face = i;
    grow(&g, 0, 0, n);
    for (size_t i = 0; i < n; i++) order[i] = g.keys[i].face;
    one->nodes = g.nodes;
    one->order = order;
    return SW_OK;
}

sw_status join_grow_trees(sw_run *run, join_job *job)
{
    for (size_t i = 0; i < job->instance_count; i++) SW_TRY(grow_tree(run, &job->instances[i]));
    return SW_OK;
}

/* ---- a cylinder against it ------------------------------------------------------------------------------- */

static double reach_of(sw_vec3 axis, sw_vec3 half)
{
    return fabs(axis.x_mm) * half.x_mm + fabs(axis.y_mm) * half.y_mm + fabs(axis.z_mm) * half.z_mm;
}

static bool parted(const join_cylinder *c, const join_box *box)
{
    if (!join_boxes_near(c->box, *box, 0)) return true;
    sw_vec3 half = sw_vec3_scaled(sw_vec3_sub(box->high, box->low), 0.5);
    sw_vec3 off = sw_vec3_sub(sw_vec3_scaled(sw_vec3_add(box->high, box->low), 0.5), c->from);
    double half_long_mm = c->long_mm / 2;
    return fabs(sw_vec3_dot(off, c->axes[0]) - half_long_mm) > half_long_mm + reach_of(c->axes[0], half) ||
           fabs(sw_vec3_dot(off, c->axes[1])) > c->radius_mm + reach_of(c->axes[1], half) ||
           fabs(sw_vec3_dot(off, c->axes[2])) > c->radius_mm + reach_of(c->axes[2], half);
}

static const join_face *met_in_leaf(const join_instance *one, const join_node *leaf, const join_cylinder *c)
{
    for (size_t i = leaf->first; i < leaf->first + leaf->count; i++) {
        const join_face *f = &one->faces[one->order[i]];
        if (join_boxes_near(c->box, f->box, 0) && join_cylinder_meets(c, f)) return f;
    }
    return NULL;
}

const join_face *join_met(const join_instance *one, const join_cylinder *c)
{
    enum { DEEP = 64 }; /* halved at the median: as deep as the count has bits */
    size_t open[DEEP], count = 0;
    if (one->nodes == NULL) return NULL;
    open[count++] = 0;
    while (count > 0) {
        const join_node *n = &one->nodes[open[--count]];
        if (parted(c, &n->box)) continue;
        if (n->count == 0) {
            open[count++] = n->first + 1;
            open[count++] = n->first;
            continue;
        }
        const join_face *f = met_in_leaf(one, n, c);
        if (f != NULL) return f;
    }
    return NULL;
}
