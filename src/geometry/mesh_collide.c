/* mesh_collide.c: whether two closed meshes go into each other by more than SW_CONTACT_MM.
 *
 * Pieces in contact share planes up to rounding, so a crossing of surfaces alone says nothing. Where two
 * triangles cross, a point is tried that lies half the contact depth under both planes; the meshes collide
 * when it lies inside both, at least that deep: a ball of diameter SW_CONTACT_MM fits into the overlap there.
 * A mesh wholly inside the other has no crossing: points under its largest faces are tried as well. */
#include "geometry/mesh_tree.h"

#define DEPTH_MM (0.5 * SW_CONTACT_MM)

typedef struct meeting {
    const sw_mesh_tree *a, *b;
    sw_vec3 where;
} meeting;

static sw_vec3 unit_normal(face f)
{
    return sw_vec3_unit(sw_vec3_cross(sw_vec3_sub(f.b, f.a), sw_vec3_sub(f.c, f.a)));
}

static bool deep_in(const sw_mesh_tree *tree, sw_vec3 p)
{
    if (!box3_holds(tree->box, p)) return false;
    return !mesh_tree_nearer(tree, p, DEPTH_MM * (1.0 - 1e-6)) && sw_mesh_tree_side(tree, p) > 0;
}

static bool overlap_at(meeting *pair, sw_vec3 p)
{
    if (!deep_in(pair->a, p) || !deep_in(pair->b, p)) return false;
    pair->where = p;
    return true;
}

/* ---- two triangles ------------------------------------------------------------------ */

/* Where the stretch p-q passes through f, edges included (a little wide, so that no crossing slips through
 * between two triangles). */
static bool passes(face f, sw_vec3 n, sw_vec3 p, sw_vec3 q, sw_vec3 *at)
{
    double hp = sw_vec3_dot(sw_vec3_sub(p, f.a), n), hq = sw_vec3_dot(sw_vec3_sub(q, f.a), n);
    if ((hp > 0.0) == (hq > 0.0) || hp == hq) return false;
    sw_vec3 x = sw_vec3_add(p, sw_vec3_scaled(sw_vec3_sub(q, p), hp / (hp - hq)));
    const sw_vec3 corners[4] = {f.a, f.b, f.c, f.a};
    for (int k = 0; k < 3; k++) {
        sw_vec3 e = sw_vec3_sub(corners[k + 1], corners[k]);
        double side = sw_vec3_dot(sw_vec3_cross(e, sw_vec3_sub(x, corners[k])), n);
        if (side < -SW_SAME_POINT_MM * sw_vec3_length(e)) return false;
    }
    *at = x;
    return true;
}

static size_t edges_through(face of, face through, sw_vec3 n, sw_vec3 *at, size_t count)
{
    const sw_vec3 corners[4] = {of.a, of.b, of.c, of.a};
    for (int k = 0; k < 3; k++)
        if (passes(through, n, corners[k], corners[k + 1], &at[count])) count++;
    return count;
}

/* The point DEPTH_MM under both planes in the plane across their crossing line, seen from m on that line:
 * m - depth (n1 + n2) / (1 + n1.n2). Faces turned against each other have none. */
static bool try_under(meeting *pair, sw_vec3 m, sw_vec3 n1, sw_vec3 n2)
{
    double opening = 1.0 + sw_vec3_dot(n1, n2);
    if (opening < 1e-6) return false;
    return overlap_at(pair, sw_vec3_sub(m, sw_vec3_scaled(sw_vec3_add(n1, n2), DEPTH_MM / opening)));
}

static bool faces_overlap(meeting *pair, face f, face g)
{
    sw_vec3 at[8], n1 = unit_normal(f), n2 = unit_normal(g);
    size_t count = edges_through(f, g, n2, at, 0);
    count = edges_through(g, f, n1, at, count);
    if (count == 0) return false;
    sw_vec3 sum = {0.0, 0.0, 0.0};
    for (size_t i = 0; i < count; i++) sum = sw_vec3_add(sum, at[i]);
    if (try_under(pair, sw_vec3_scaled(sum, 1.0 / (double)count), n1, n2)) return true;
    for (size_t i = 0; i < count; i++)
        if (try_under(pair, at[i], n1, n2)) return true;
    return false;
}

/* ---- two trees ---------------------------------------------------------------------- */

static bool leaves_overlap(meeting *pair, const tree_node *p, const tree_node *q)
{
    for (uint32_t i = p->first; i < p->first + p->count; i++) {
        if (box3_apart(pair->a->boxes[i], q->box)) continue;
        for (uint32_t k = q->first; k < q->first + q->count; k++) {
            if (box3_apart(pair->a->boxes[i], pair->b->boxes[k])) continue;
            face f = mesh_face(&pair->a->mesh, pair->a->order[i]), g = mesh_face(&pair->b->mesh, pair->b->order[k]);
            if (faces_overlap(pair, f, g)) return true;
        }
    }
    return false;
}

/* Depth first over both trees; the stack holds at most one waiting pair a level of either. */
static bool surfaces_overlap(meeting *pair)
{
    uint32_t stack[4 * TREE_DEPTH_MAX][2] = {{0, 0}};
    size_t depth = 1;
    while (depth > 0) {
        uint32_t i = stack[--depth][0], k = stack[depth][1];
        const tree_node *p = &pair->a->nodes[i], *q = &pair->b->nodes[k];
        if (box3_apart(p->box, q->box)) continue;
        if (p->count > 0 && q->count > 0) {
            if (leaves_overlap(pair, p, q)) return true;
            continue;
        }
        bool split_a = q->count > 0 || (p->count == 0 && sw_vec3_length(sw_vec3_sub(p->box.high, p->box.low)) >=
                                                             sw_vec3_length(sw_vec3_sub(q->box.high, q->box.low)));
        for (int side = 0; side < 2; side++) {
            stack[depth][0] = !split_a ? i : side == 0 ? p->first : i + 1;
            stack[depth][1] = split_a ? k : side == 0 ? q->first : k + 1;
            depth++;
        }
    }
    return false;
}

/* ---- one inside the other ----------------------------------------------------------- */

static size_t largest_face(const sw_mesh *m)
{
    size_t best = 0;
    double most = -1.0;
    for (size_t i = 0; i < m->triangle_count; i++) {
        face f = mesh_face(m, i);
        double area = sw_vec3_length(sw_vec3_cross(sw_vec3_sub(f.b, f.a), sw_vec3_sub(f.c, f.a)));
        if (area <= most) continue;
        most = area;
        best = i;
    }
    return best;
}

static bool face_inside(meeting *pair, const sw_mesh *of)
{
    face f = mesh_face(of, largest_face(of));
    sw_vec3 middle = sw_vec3_scaled(sw_vec3_add(f.a, sw_vec3_add(f.b, f.c)), 1.0 / 3.0);
    return overlap_at(pair, sw_vec3_sub(middle, sw_vec3_scaled(unit_normal(f), DEPTH_MM)));
}

static bool boxes_deeper_than_contact(box3 a, box3 b)
{
    b.low = sw_vec3_add(b.low, (sw_vec3){SW_CONTACT_MM, SW_CONTACT_MM, SW_CONTACT_MM});
    b.high = sw_vec3_sub(b.high, (sw_vec3){SW_CONTACT_MM, SW_CONTACT_MM, SW_CONTACT_MM});
    return !box3_apart(a, b);
}

/* One mesh can only lie in the other where its box does. */
static bool may_lie_in(box3 inner, box3 outer)
{
    outer.low = sw_vec3_sub(outer.low, (sw_vec3){SW_CONTACT_MM, SW_CONTACT_MM, SW_CONTACT_MM});
    outer.high = sw_vec3_add(outer.high, (sw_vec3){SW_CONTACT_MM, SW_CONTACT_MM, SW_CONTACT_MM});
    return box3_holds(outer, inner.low) && box3_holds(outer, inner.high);
}

bool sw_mesh_trees_collide(const sw_mesh_tree *a, const sw_mesh_tree *b, sw_vec3 *where)
{
    meeting pair = {a, b, {0.0, 0.0, 0.0}};
    bool any = a->mesh.triangle_count > 0 && b->mesh.triangle_count > 0;
    if (!any || !boxes_deeper_than_contact(a->box, b->box)) return false;
    bool hit = surfaces_overlap(&pair) || (may_lie_in(a->box, b->box) && face_inside(&pair, &a->mesh)) ||
               (may_lie_in(b->box, a->box) && face_inside(&pair, &b->mesh));
    if (hit) *where = pair.where;
    return hit;
}

static sw_status compare(sw_run *run, const sw_mesh *a, const sw_mesh *b, bool *hit, sw_vec3 *where)
{
    const sw_mesh_tree *ta = mesh_tree_in(run, run->scratch, a), *tb = mesh_tree_in(run, run->scratch, b);
    if (ta == NULL || tb == NULL) return SW_NO_MEMORY;
    *hit = sw_mesh_trees_collide(ta, tb, where);
    return SW_OK;
}

sw_status sw_meshes_collide(sw_run *run, const sw_mesh *a, const sw_mesh *b, bool *collide, sw_vec3 *where)
{
    *collide = false;
    *where = (sw_vec3){0.0, 0.0, 0.0};
    if (a->triangle_count == 0 || b->triangle_count == 0) return SW_OK;
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = compare(run, a, b, collide, where);
    sw_arena_rewind(run->scratch, mark);
    return status;
}
