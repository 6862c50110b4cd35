/* clash_near.c: a cheap look whether two closed meshes can run into each other at all. Their skins must come near: some
 * triangle of one then has a box that meets the box of one of the other. If none does, one mesh can only lie wholly
 * inside the other. Boxes are swept along x. */
#include "making/sheet/clash.h"

#include <math.h>
#include <stdlib.h>

typedef struct swept { /* boxes by rising low x */
    sw_space_box *boxes;
    size_t count, room;
} swept;

static sw_space_box box_of(const sw_mesh *m, size_t triangle)
{
    sw_triangle t = m->triangles[triangle];
    sw_vec3 a = m->points[t.a], b = m->points[t.b], c = m->points[t.c];
    return clash_both(clash_both((sw_space_box){a, a}, (sw_space_box){b, b}), (sw_space_box){c, c});
}

static sw_space_box shared(sw_space_box a, sw_space_box b)
{
    return (sw_space_box){
        {fmax(a.low.x_mm, b.low.x_mm), fmax(a.low.y_mm, b.low.y_mm), fmax(a.low.z_mm, b.low.z_mm)},
        {fmin(a.high.x_mm, b.high.x_mm), fmin(a.high.y_mm, b.high.y_mm), fmin(a.high.z_mm, b.high.z_mm)}};
}

static bool touch(const sw_space_box *a, const sw_space_box *b)
{
    return a->low.y_mm <= b->high.y_mm && b->low.y_mm <= a->high.y_mm && a->low.z_mm <= b->high.z_mm &&
           b->low.z_mm <= a->high.z_mm && a->low.x_mm <= b->high.x_mm && b->low.x_mm <= a->high.x_mm;
}

static int compare_low(const void *left, const void *right)
{
    double a = ((const sw_space_box *)left)->low.x_mm, b = ((const sw_space_box *)right)->low.x_mm;
    return (a > b) - (a < b);
}

/* Boxes of the triangles that reach into `where`. */
static sw_status sweep(sw_run *run, const sw_mesh *m, sw_space_box where, swept *out)
{
    *out = (swept){0};
    for (size_t i = 0; i < m->triangle_count; i++) {
        sw_space_box box = box_of(m, i);
        if (!touch(&box, &where)) continue;
        sw_space_box *grown = sw_grow(run, run->scratch, out->boxes, out->count, &out->room, sizeof *grown);
        if (grown == NULL) return SW_NO_MEMORY;
        out->boxes = grown;
        grown[out->count++] = box;
    }
    if (out->count == 0) return SW_OK;
    qsort(out->boxes, out->count, sizeof *out->boxes, compare_low);
    return SW_OK;
}

/* Whether box `one` meets any of those that begin after it along x. */
static bool meets_later(const sw_space_box *one, const swept *others, size_t from)
{
    for (size_t i = from; i < others->count && others->boxes[i].low.x_mm <= one->high.x_mm; i++)
        if (touch(one, &others->boxes[i])) return true;
    return false;
}

static bool any_meet(const swept *a, const swept *b)
{
    for (size_t i = 0, k = 0; i < a->count || k < b->count;) {
        bool next_is_a = k == b->count || (i < a->count && a->boxes[i].low.x_mm <= b->boxes[k].low.x_mm);
        if (next_is_a ? meets_later(&a->boxes[i], b, k) : meets_later(&b->boxes[k], a, i)) return true;
        if (next_is_a)
            i++;
        else
            k++;
    }
    return false;
}

static bool within(sw_space_box inner, sw_space_box outer)
{
    sw_space_box s = shared(inner, outer);
    double off_mm = fabs(s.low.x_mm - inner.low.x_mm) + fabs(s.low.y_mm - inner.low.y_mm) +
                    fabs(s.low.z_mm - inner.low.z_mm) + fabs(s.high.x_mm - inner.high.x_mm) +
                    fabs(s.high.y_mm - inner.high.y_mm) + fabs(s.high.z_mm - inner.high.z_mm);
    return off_mm == 0.0;
}

static sw_status look(sw_run *run, const clash_body *a, const clash_body *b, bool *near)
{
    swept sa, sb;
    *near = within(a->skin, b->skin) || within(b->skin, a->skin);
    if (*near) return SW_OK;
    SW_TRY(sweep(run, &a->mesh, shared(a->skin, b->skin), &sa));
    if (sa.count == 0) return SW_OK;
    SW_TRY(sweep(run, &b->mesh, shared(a->skin, b->skin), &sb));
    *near = any_meet(&sa, &sb);
    return SW_OK;
}

sw_status clash_skins_near(sw_run *run, const clash_body *a, const clash_body *b, bool *near)
{
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = look(run, a, b, near);
    sw_arena_rewind(run->scratch, mark);
    return status;
}
