/* clash.c: which bodies run into each other, and how deep at least. */
#include "making/sheet/clash.h"

#include <math.h>

/* ---- boxes ------------------------------------------------------------------------------------- */

static const sw_space_box nothing = {{INFINITY, INFINITY, INFINITY}, {-INFINITY, -INFINITY, -INFINITY}};

static bool is_empty(sw_space_box b)
{
    return !(b.low.x_mm <= b.high.x_mm);
}

bool clash_empty(const clash_body *b)
{
    return is_empty(b->box);
}

static double lesser(double a, double b)
{
    return a < b ? a : b;
}

static double greater(double a, double b)
{
    return a > b ? a : b;
}

sw_space_box clash_both(sw_space_box a, sw_space_box b)
{
    return (sw_space_box){
        {lesser(a.low.x_mm, b.low.x_mm), lesser(a.low.y_mm, b.low.y_mm), lesser(a.low.z_mm, b.low.z_mm)},
        {greater(a.high.x_mm, b.high.x_mm), greater(a.high.y_mm, b.high.y_mm), greater(a.high.z_mm, b.high.z_mm)}};
}

/* The upright box round a box turned by the frame. */
static sw_space_box turned(sw_space_box b, sw_frame f)
{
    if (is_empty(b)) return nothing;
    sw_vec3 middle = sw_frame_point(f, sw_vec3_scaled(sw_vec3_add(b.low, b.high), 0.5));
    sw_vec3 half = sw_vec3_scaled(sw_vec3_sub(b.high, b.low), 0.5);
    sw_vec3 reach = {fabs(f.x.x_mm) * half.x_mm + fabs(f.y.x_mm) * half.y_mm + fabs(f.z.x_mm) * half.z_mm,
                     fabs(f.x.y_mm) * half.x_mm + fabs(f.y.y_mm) * half.y_mm + fabs(f.z.y_mm) * half.z_mm,
                     fabs(f.x.z_mm) * half.x_mm + fabs(f.y.z_mm) * half.y_mm + fabs(f.z.z_mm) * half.z_mm};
    return (sw_space_box){sw_vec3_sub(middle, reach), sw_vec3_add(middle, reach)};
}

static bool boxes_meet(const sw_space_box *a, const sw_space_box *b, double least_mm)
{
    return lesser(a->high.x_mm, b->high.x_mm) - greater(a->low.x_mm, b->low.x_mm) > least_mm &&
           lesser(a->high.y_mm, b->high.y_mm) - greater(a->low.y_mm, b->low.y_mm) > least_mm &&
           lesser(a->high.z_mm, b->high.z_mm) - greater(a->low.z_mm, b->low.z_mm) > least_mm;
}

/* Bodies fill no more than their boxes: where no two boxes meet there is nothing to compare. */
static bool may_clash(const clash_body *a, const clash_body *b, double least_mm)
{
    if (!boxes_meet(&a->box, &b->box, least_mm)) return false;
    for (size_t i = 0; i < a->box_count; i++) {
        if (!boxes_meet(&a->boxes[i], &b->box, least_mm)) continue;
        for (size_t k = 0; k < b->box_count; k++)
            if (boxes_meet(&a->boxes[i], &b->boxes[k], least_mm)) return true;
    }
    return false;
}

clash_body clash_placed(const sw_sheet_case *of, size_t placement, sw_space_box *boxes)
{
    clash_body b = {.of = of, .placement = placement, .part = -1, .box = nothing, .boxes = boxes};
    b.box_count = of->complex->part_count;
    for (size_t i = 0; i < b.box_count; i++) {
        boxes[i] = turned(of->boxes[i], of->piece->piece->placements[placement]);
        b.box = clash_both(b.box, boxes[i]);
    }
    return b;
}

clash_body clash_part(const sw_sheet_case *of, int part)
{
    const sw_space_box *box = &of->boxes[part];
    return (clash_body){.of = of, .part = part, .box = *box, .boxes = box, .box_count = 1};
}

/* ---- meshes ------------------------------------------------------------------------------------- */

/* Half the contact depth, each body a little different (by at least a nanometre of the 1e4 there may be). */
static double inset_of(const clash *c, size_t body)
{
    double share = (double)(body + 1) / (double)(c->count + 1), half_mm = c->opt->contact_mm / 2.0;
    double most_mm = c->bodies[body].of->tree->piece->thickness_mm / 4.0;
    return fmin(half_mm, most_mm) * (1.0 - 0.01 * share) + 1e-4 * share;
}

static sw_status place_mesh(clash *c, clash_body *b)
{
    sw_vec3 *points = SW_SCRATCH(c->run, b->mesh.point_count, sw_vec3);
    if (points == NULL) return SW_NO_MEMORY;
    sw_frame place = b->of->piece->piece->placements[b->placement];
    for (size_t i = 0; i < b->mesh.point_count; i++) points[i] = sw_frame_point(place, b->mesh.points[i]);
    b->mesh.points = points;
    return SW_OK;
}

/* The body as a mesh, made once. */
static sw_status flesh_out(clash *c, size_t body)
{
    clash_body *b = &c->bodies[body];
    sw_skin_choice choice = {.part = b->part, .inset_mm = inset_of(c, body)};
    if (b->mesh.points != NULL) return SW_OK;
    SW_TRY(sw_sheet_skin(c->run, b->of->tree, b->of->piece->solid.faces, b->of->complex, &choice, &b->mesh));
    if (b->part < 0) SW_TRY(place_mesh(c, b));
    sw_mesh_box(&b->mesh, &b->skin.low, &b->skin.high);
    return SW_OK;
}

static sw_status plant(clash *c, size_t body)
{
    clash_body *b = &c->bodies[body];
    return b->tree != NULL ? SW_OK : sw_mesh_tree_make(c->run, &b->mesh, &b->tree);
}

/* ---- depth, only for pairs that collide ------------------------------------------------------- */

static bool in_box(const clash_body *b, sw_vec3 p)
{
    return p.x_mm > b->box.low.x_mm && p.x_mm < b->box.high.x_mm && p.y_mm > b->box.low.y_mm &&
           p.y_mm < b->box.high.y_mm && p.z_mm > b->box.low.z_mm && p.z_mm < b->box.high.z_mm;
}

/* The deepest corner of a inside b, mm; at least depth_mm. */
static double deepest_corner(const clash_body *a, const clash_body *b, double depth_mm)
{
    for (size_t i = 0; i < a->mesh.point_count; i++) {
        sw_vec3 p = a->mesh.points[i];
        if (!in_box(b, p)) continue;
        double d_mm = sw_mesh_tree_distance(b->tree, p, NULL);
        if (d_mm > depth_mm && sw_mesh_tree_side(b->tree, p) > 0) depth_mm = d_mm;
    }
    return depth_mm;
}

static double depth_of(const clash_body *a, const clash_body *b, sw_vec3 where)
{
    double least_mm = fmin(sw_mesh_tree_distance(a->tree, where, NULL), sw_mesh_tree_distance(b->tree, where, NULL));
    return deepest_corner(b, a, deepest_corner(a, b, least_mm));
}

/* ---- pairs ------------------------------------------------------------------------------------- */

static sw_status add_hit(clash *c, size_t a, size_t b, sw_vec3 where)
{
    clash_hit *grown = sw_grow(c->run, c->run->scratch, c->hits, c->hit_count, &c->hit_room, sizeof *grown);
    if (grown == NULL) return SW_NO_MEMORY;
    c->hits = grown;
    double depth_mm = depth_of(&c->bodies[a], &c->bodies[b], where) + c->opt->contact_mm;
    grown[c->hit_count++] = (clash_hit){a, b, where, depth_mm};
    return SW_OK;
}

static sw_status compare(clash *c, size_t a, size_t b)
{
    bool near = false;
    sw_vec3 where = {0};
    c->pairs++;
    SW_TRY(flesh_out(c, a));
    SW_TRY(flesh_out(c, b));
    SW_TRY(clash_skins_near(c->run, &c->bodies[a], &c->bodies[b], &near));
    if (!near) return SW_OK;
    SW_TRY(plant(c, a));
    SW_TRY(plant(c, b));
    return sw_mesh_trees_collide(c->bodies[a].tree, c->bodies[b].tree, &where) ? add_hit(c, a, b, where) : SW_OK;
}

static sw_status compare_all(clash *c)
{
    for (size_t a = 0; a < c->count; a++)
        for (size_t b = a + 1; b < c->count; b++)
            if (may_clash(&c->bodies[a], &c->bodies[b], c->meet_mm)) SW_TRY(compare(c, a, b));
    return SW_OK;
}

/* The trees go into run->keep and are given back; the hits stay. */
sw_status clash_find(clash *c)
{
    size_t mark = sw_arena_mark(c->run->keep);
    sw_status status = compare_all(c);
    if (status == SW_OK) sw_arena_rewind(c->run->keep, mark);
    return status;
}
