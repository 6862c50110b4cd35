/* mesh_tree.c: box tree over triangles (split at the middle triangle along the longest side), nearest point
 * and inside test. */
#include "geometry/mesh_tree.h"

typedef struct builder {
    const sw_mesh *mesh;
    const box3 *boxes; /* of the triangles, by their numbers */
    tree_node *nodes;
    uint32_t *order;
    uint32_t node_count;
} builder;

static double along(sw_vec3 p, int axis)
{
    return axis == 0 ? p.x_mm : axis == 1 ? p.y_mm : p.z_mm;
}

/* Three times the middle of a triangle, along an axis. */
static double middle(const builder *b, uint32_t triangle, int axis)
{
    face f = mesh_face(b->mesh, triangle);
    return along(f.a, axis) + along(f.b, axis) + along(f.c, axis);
}

static int longest_axis(box3 box)
{
    sw_vec3 d = sw_vec3_sub(box.high, box.low);
    if (d.x_mm >= d.y_mm && d.x_mm >= d.z_mm) return 0;
    return d.y_mm >= d.z_mm ? 1 : 2;
}

/* Brings the triangle that belongs at place k there, lower middles before it (Hoare's selection). */
static void select_place(builder *b, uint32_t low, uint32_t high, uint32_t k, int axis)
{
    uint32_t *order = b->order;
    while (low < high) {
        double pivot = middle(b, order[low + (high - low) / 2], axis);
        uint32_t i = low, j = high;
        for (;;) {
            while (middle(b, order[i], axis) < pivot) i++;
            while (middle(b, order[j], axis) > pivot) j--;
            if (i >= j) break;
            uint32_t swap = order[i];
            order[i++] = order[j];
            order[j--] = swap;
        }
        if (k <= j)
            high = j;
        else
            low = j + 1;
    }
}

static box3 box_of_range(const builder *b, uint32_t from, uint32_t to)
{
    box3 box = b->boxes[b->order[from]];
    for (uint32_t i = from + 1; i < to; i++) box = box3_union(box, b->boxes[b->order[i]]);
    return box;
}

/* Depth is log2 of the number of triangles, since every split halves. */
static void build(builder *b, uint32_t from, uint32_t to)
{
    tree_node *node = &b->nodes[b->node_count++];
    node->box = box_of_range(b, from, to);
    node->first = from;
    node->count = to - from;
    if (to - from <= LEAF_TRIANGLES) return;
    uint32_t half = from + (to - from) / 2;
    select_place(b, from, to - 1, half, longest_axis(node->box));
    node->count = 0;
    build(b, from, half);
    node->first = b->node_count;
    build(b, half, to);
}

static void *taken(sw_run *run, sw_arena *arena, size_t count, size_t size)
{
    return arena == run->keep ? sw_keep(run, count, size) : sw_scratch(run, count, size);
}

/* The triangles' boxes by their numbers while the tree is built, in the leaves' order then. */
static void grow(struct sw_mesh_tree *tree, tree_node *nodes, uint32_t *order, box3 *boxes, box3 *by_number)
{
    size_t n = tree->mesh.triangle_count;
    builder b = {&tree->mesh, by_number, nodes, order, 0};
    for (uint32_t i = 0; i < n; i++) order[i] = i, by_number[i] = box3_of(mesh_face(&tree->mesh, i));
    if (n > 0) build(&b, 0, (uint32_t)n);
    for (size_t i = 0; i < n; i++) boxes[i] = by_number[order[i]];
    tree->node_count = b.node_count;
    if (n > 0) tree->box = nodes[0].box;
}

struct sw_mesh_tree *mesh_tree_in(sw_run *run, sw_arena *arena, const sw_mesh *m)
{
    size_t n = m->triangle_count;
    if (n > UINT32_MAX / 4) {
        (void)sw_fail(run, SW_OUT_OF_RANGE, (sw_place){0}, "", "%zu triangles are too many for one box tree", n);
        return NULL;
    }
    struct sw_mesh_tree *tree = taken(run, arena, 1, sizeof *tree);
    tree_node *nodes =
        taken(run, arena, n + 1, sizeof *nodes); /* a leaf has two triangles at least, but the only one */
    uint32_t *order = taken(run, arena, n, sizeof *order);
    box3 *boxes = taken(run, arena, n, sizeof *boxes);
    if (tree == NULL || nodes == NULL || order == NULL || boxes == NULL) return NULL;
    size_t mark = sw_arena_mark(run->scratch);
    box3 *by_number = sw_scratch(run, n, sizeof *by_number);
    if (by_number == NULL) return NULL;
    *tree = (struct sw_mesh_tree){.mesh = *m, .nodes = nodes, .order = order, .boxes = boxes};
    grow(tree, nodes, order, boxes, by_number);
    sw_arena_rewind(run->scratch, mark);
    return tree;
}

static sw_status made(const sw_mesh_tree *tree, const sw_mesh *m)
{
    if (tree != NULL) return SW_OK;
    return m->triangle_count > UINT32_MAX / 4 ? SW_OUT_OF_RANGE : SW_NO_MEMORY;
}

/* The mesh's arrays are borrowed: they must live as long as the tree. */
sw_status sw_mesh_tree_make(sw_run *run, const sw_mesh *m, const sw_mesh_tree **tree)
{
    *tree = mesh_tree_in(run, run->keep, m);
    return made(*tree, m);
}

sw_status sw_mesh_tree_scratch(sw_run *run, const sw_mesh *m, const sw_mesh_tree **tree)
{
    *tree = mesh_tree_in(run, run->scratch, m);
    return made(*tree, m);
}

/* ---- what is met -------------------------------------------------------------------- */

size_t sw_mesh_tree_find(const sw_mesh_tree *tree, const sw_mesh_query *query)
{
    uint32_t stack[TREE_DEPTH_MAX];
    size_t depth = 0;
    if (tree->node_count > 0) stack[depth++] = 0;
    while (depth > 0) {
        uint32_t at = stack[--depth];
        const tree_node *node = &tree->nodes[at];
        if (query->apart(query->context, &node->box.low, &node->box.high)) continue;
        for (uint32_t k = 0; k < node->count; k++)
            if (query->meets(query->context, tree->order[node->first + k])) return tree->order[node->first + k];
        if (node->count > 0) continue;
        stack[depth++] = node->first;
        stack[depth++] = at + 1;
    }
    return SIZE_MAX;
}

/* ---- nearest ------------------------------------------------------------------------ */

static double box3_gap(box3 b, sw_vec3 p)
{
    double dx = greater(0.0, greater(b.low.x_mm - p.x_mm, p.x_mm - b.high.x_mm));
    double dy = greater(0.0, greater(b.low.y_mm - p.y_mm, p.y_mm - b.high.y_mm));
    double dz = greater(0.0, greater(b.low.z_mm - p.z_mm, p.z_mm - b.high.z_mm));
    return sqrt(dx * dx + dy * dy + dz * dz);
}

static sw_vec3 on_edge(sw_vec3 a, sw_vec3 b, sw_vec3 p)
{
    sw_vec3 e = sw_vec3_sub(b, a);
    double square = sw_vec3_dot(e, e), t = square > 0.0 ? sw_vec3_dot(sw_vec3_sub(p, a), e) / square : 0.0;
    return sw_vec3_add(a, sw_vec3_scaled(e, greater(0.0, lesser(1.0, t))));
}

static sw_vec3 nearer(sw_vec3 p, sw_vec3 a, sw_vec3 b)
{
    return sw_vec3_length(sw_vec3_sub(a, p)) <= sw_vec3_length(sw_vec3_sub(b, p)) ? a : b;
}

/* The foot on the plane where it falls inside the triangle, else the nearest point of an edge. */
static sw_vec3 on_face(face f, sw_vec3 p)
{
    sw_vec3 n = sw_vec3_cross(sw_vec3_sub(f.b, f.a), sw_vec3_sub(f.c, f.a));
    double square = sw_vec3_dot(n, n);
    const sw_vec3 corners[4] = {f.a, f.b, f.c, f.a};
    bool inside = square > 0.0;
    for (int k = 0; k < 3 && inside; k++) {
        sw_vec3 e = sw_vec3_sub(corners[k + 1], corners[k]);
        inside = sw_vec3_dot(sw_vec3_cross(e, sw_vec3_sub(p, corners[k])), n) >= 0.0;
    }
    if (inside) return sw_vec3_sub(p, sw_vec3_scaled(n, sw_vec3_dot(sw_vec3_sub(p, f.a), n) / square));
    return nearer(p, nearer(p, on_edge(f.a, f.b, p), on_edge(f.b, f.c, p)), on_edge(f.c, f.a, p));
}

static void leaf_nearest(const sw_mesh_tree *tree, const tree_node *node, sw_vec3 p, double *least_mm, sw_vec3 *nearest)
{
    for (uint32_t k = 0; k < node->count; k++) {
        sw_vec3 q = on_face(mesh_face(&tree->mesh, tree->order[node->first + k]), p);
        double gap = sw_vec3_length(sw_vec3_sub(q, p));
        if (gap >= *least_mm) continue;
        *least_mm = gap;
        *nearest = q;
    }
}

/* Nearest point below *least_mm, which is lowered to its distance. */
static void find_nearer(const sw_mesh_tree *tree, sw_vec3 p, double *least_mm, sw_vec3 *best)
{
    uint32_t stack[TREE_DEPTH_MAX];
    size_t depth = 0;
    if (tree->node_count > 0) stack[depth++] = 0;
    while (depth > 0) {
        uint32_t at = stack[--depth];
        const tree_node *node = &tree->nodes[at];
        if (box3_gap(node->box, p) >= *least_mm) continue;
        if (node->count > 0) {
            leaf_nearest(tree, node, p, least_mm, best);
            continue;
        }
        bool left_first = box3_gap(tree->nodes[at + 1].box, p) <= box3_gap(tree->nodes[node->first].box, p);
        stack[depth++] = left_first ? node->first : at + 1;
        stack[depth++] = left_first ? at + 1 : node->first;
    }
}

/* INFINITY for an empty mesh. */
double sw_mesh_tree_distance(const sw_mesh_tree *tree, sw_vec3 p, sw_vec3 *nearest)
{
    double least_mm = INFINITY;
    sw_vec3 best = p;
    find_nearer(tree, p, &least_mm, &best);
    if (nearest != NULL) *nearest = best;
    return least_mm;
}

bool mesh_tree_nearer(const sw_mesh_tree *tree, sw_vec3 p, double limit_mm)
{
    double least_mm = limit_mm;
    sw_vec3 best = p;
    find_nearer(tree, p, &least_mm, &best);
    return least_mm < limit_mm;
}

/* ---- inside ------------------------------------------------------------------------- */

/* Slab test of a ray p + t d, t >= 0, with d free of zeros. */
static bool ray_meets_box(box3 b, sw_vec3 p, sw_vec3 d)
{
    double near = 0.0, far = INFINITY;
    for (int axis = 0; axis < 3; axis++) {
        double t0 = (along(b.low, axis) - along(p, axis)) / along(d, axis);
        double t1 = (along(b.high, axis) - along(p, axis)) / along(d, axis);
        near = greater(near, lesser(t0, t1));
        far = lesser(far, greater(t0, t1));
    }
    return near <= far;
}

/* Ray against triangle (Moeller & Trumbore 1997): 1 hit, 0 miss, -1 too near an edge or the plane to tell. */
static int ray_hits(face f, sw_vec3 p, sw_vec3 d)
{
    const double doubtful = 1e-9;
    sw_vec3 e1 = sw_vec3_sub(f.b, f.a), e2 = sw_vec3_sub(f.c, f.a), h = sw_vec3_cross(d, e2);
    double det = sw_vec3_dot(e1, h), size = sw_vec3_length(e1) * sw_vec3_length(e2);
    if (size <= 0.0) return 0;
    if (fabs(det) <= 1e-12 * size) return -1;
    sw_vec3 s = sw_vec3_sub(p, f.a), q = sw_vec3_cross(s, e1);
    double u = sw_vec3_dot(s, h) / det, v = sw_vec3_dot(d, q) / det, t = sw_vec3_dot(e2, q) / det;
    if (u < -doubtful || v < -doubtful || u + v > 1.0 + doubtful || t < 0.0) return 0;
    return u > doubtful && v > doubtful && u + v < 1.0 - doubtful ? 1 : -1;
}

/* Number of surfaces a ray crosses, or -1 when a hit was doubtful. */
static int ray_count(const sw_mesh_tree *tree, sw_vec3 p, sw_vec3 d)
{
    uint32_t stack[TREE_DEPTH_MAX];
    size_t depth = 0;
    int count = 0;
    if (tree->node_count > 0) stack[depth++] = 0;
    while (depth > 0) {
        uint32_t at = stack[--depth];
        const tree_node *node = &tree->nodes[at];
        if (!ray_meets_box(node->box, p, d)) continue;
        for (uint32_t k = 0; k < node->count; k++) {
            int hit = ray_hits(mesh_face(&tree->mesh, tree->order[node->first + k]), p, d);
            if (hit < 0) return -1;
            count += hit;
        }
        if (node->count > 0) continue;
        stack[depth++] = node->first;
        stack[depth++] = at + 1;
    }
    return count;
}

/* Up to 32 directions (steps of the golden angle) until one meets no edge. */
int sw_mesh_tree_side(const sw_mesh_tree *tree, sw_vec3 p)
{
    if (tree->node_count == 0 || !box3_holds(tree->box, p)) return -1;
    for (int k = 0; k < 32; k++) {
        double z = 1.0 - (2.0 * k + 1.0) / 32.0, turn_rad = 0.7 + 2.39996322972865332 * k, flat = sqrt(1.0 - z * z);
        int count = ray_count(tree, p, (sw_vec3){flat * cos(turn_rad), flat * sin(turn_rad), z});
        if (count >= 0) return count % 2 == 1 ? 1 : -1;
    }
    return -1;
}
