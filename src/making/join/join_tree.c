/* join_tree.c: the triangles of each piece in a tree of boxes, parted in the middle; a cylinder goes down where it meets a
 * box: the boxes' axes and its own part them (Gottschalk, Lin, Manocha 1996, without the crossed axes). */
#include "making/join/join_parts.h"

enum { LEAF = 8, DEEP = 64 };

typedef struct grower {
    const join_face *faces;
    join_node *nodes;
    size_t *order;
    size_t count;
} grower;

static double along(sw_vec3 p, int axis)
{
    return axis == 0 ? p.x_mm : axis == 1 ? p.y_mm : p.z_mm;
}

static int longest(join_box box)
{
    sw_vec3 wide = sw_vec3_sub(box.high, box.low);
    if (wide.x_mm >= wide.y_mm && wide.x_mm >= wide.z_mm) return 0;
    return wide.y_mm >= wide.z_mm ? 1 : 2;
}

static void widen(join_box *box, const join_box *by)
{
    if (by->low.x_mm < box->low.x_mm) box->low.x_mm = by->low.x_mm;
    if (by->low.y_mm < box->low.y_mm) box->low.y_mm = by->low.y_mm;
    if (by->low.z_mm < box->low.z_mm) box->low.z_mm = by->low.z_mm;
    if (by->high.x_mm > box->high.x_mm) box->high.x_mm = by->high.x_mm;
    if (by->high.y_mm > box->high.y_mm) box->high.y_mm = by->high.y_mm;
    if (by->high.z_mm > box->high.z_mm) box->high.z_mm = by->high.z_mm;
}

static join_box box_of(const grower *g, size_t first, size_t count)
{
    join_box box = join_box_empty();
    for (size_t i = first; i < first + count; i++) widen(&box, &g->faces[g->order[i]].box);
    return box;
}

static double middle(const grower *g, size_t i, int axis)
{
    const join_box *box = &g->faces[g->order[i]].box;
    return (along(box->low, axis) + along(box->high, axis)) / 2;
}

/* Those before the middle of the box to the front; how many. Lopsided or deep down they are halved as they stand, so that
 * every leaf has some and the tree stays shallow. */
static size_t parted_at(grower *g, join_box box, size_t first, size_t count, int depth)
{
    int axis = longest(box);
    double at = (along(box.low, axis) + along(box.high, axis)) / 2;
    size_t left = 0;
    for (size_t i = first; i < first + count; i++) {
        size_t held = g->order[i];
        if (middle(g, i, axis) >= at) continue;
        g->order[i] = g->order[first + left];
        g->order[first + left++] = held;
    }
    bool lopsided = left < LEAF / 2 || count - left < LEAF / 2 || depth > DEEP / 4;
    return lopsided ? count / 2 : left;
}

static void grow(grower *g, size_t node, size_t first, size_t count, int depth)
{
    join_node *n = &g->nodes[node];
    *n = (join_node){box_of(g, first, count), first, count};
    if (count <= LEAF) return;
    size_t left = parted_at(g, n->box, first, count, depth), behind = g->count;
    *n = (join_node){n->box, behind, 0};
    g->count += 2;
    grow(g, behind, first, left, depth + 1);
    grow(g, behind + 1, first + left, count - left, depth + 1);
}

static sw_status grow_tree(sw_run *run, join_instance *one)
{
    size_t n = one->face_count;
    if (n == 0) return SW_OK;
    size_t most = 1 + n / (LEAF / 4); /* no leaf has fewer than LEAF / 2 but the root */
    grower g = {one->faces, SW_SCRATCH(run, most, join_node), SW_SCRATCH(run, n, size_t), 1};
    if (g.nodes == NULL || g.order == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < n; i++) g.order[i] = i;
    grow(&g, 0, 0, n, 0);
    one->nodes = g.nodes;
    one->order = g.order;
    return SW_OK;
}

sw_status join_grow_trees(sw_run *run, join_job *job)
{
    for (size_t i = 0; i < job->instance_count; i++) SW_TRY(grow_tree(run, &job->instances[i]));
    return SW_OK;
}

/* ---- a cylinder against it ------------------------------------------------------------------------------- */

static inline double along_axis(sw_vec3 axis, double x, double y, double z) /* the hot path: no call */
{
    return axis.x_mm * x + axis.y_mm * y + axis.z_mm * z;
}

static inline double reach_of(sw_vec3 axis, double x, double y, double z)
{
    return fabs(axis.x_mm) * x + fabs(axis.y_mm) * y + fabs(axis.z_mm) * z;
}

static bool boxes_apart(const join_box *a, const join_box *b)
{
    return a->low.x_mm > b->high.x_mm || b->low.x_mm > a->high.x_mm || a->low.y_mm > b->high.y_mm ||
           b->low.y_mm > a->high.y_mm || a->low.z_mm > b->high.z_mm || b->low.z_mm > a->high.z_mm;
}

static bool parted(const join_cylinder *c, const join_box *b)
{
    if (boxes_apart(&c->box, b)) return true;
    double x = (b->high.x_mm - b->low.x_mm) / 2, y = (b->high.y_mm - b->low.y_mm) / 2,
           z = (b->high.z_mm - b->low.z_mm) / 2;
    double dx = b->low.x_mm + x - c->from.x_mm, dy = b->low.y_mm + y - c->from.y_mm,
           dz = b->low.z_mm + z - c->from.z_mm, half_mm = c->long_mm / 2;
    const sw_vec3 *h = &c->axes[0], *u = &c->axes[1], *v = &c->axes[2];
    return fabs(along_axis(*u, dx, dy, dz)) > c->radius_mm + reach_of(*u, x, y, z) ||
           fabs(along_axis(*v, dx, dy, dz)) > c->radius_mm + reach_of(*v, x, y, z) ||
           fabs(along_axis(*h, dx, dy, dz) - half_mm) > half_mm + reach_of(*h, x, y, z);
}

static const join_face *met_in_leaf(const join_instance *one, const join_node *leaf, const join_cylinder *c)
{
    for (size_t i = leaf->first; i < leaf->first + leaf->count; i++) {
        const join_face *f = &one->faces[one->order[i]];
        if (!boxes_apart(&c->box, &f->box) && join_cylinder_meets(c, f)) return f;
    }
    return NULL;
}

const join_face *join_met(const join_instance *one, const join_cylinder *c)
{
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
