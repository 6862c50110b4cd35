/* nest_jigsaw_shape.c: turned pieces as rings of points, with the holes that a piece could enter. */
#include "making/nest/nest_jigsaw_parts.h"

#include <math.h>

static bool is_free(const nest_core *core, sw_contour hole)
{
    sw_box box = sw_contour_box(hole);
    nest_hole h = {fabs(sw_contour_area(hole)), fmin(box.x1_mm - box.x0_mm, box.y1_mm - box.y0_mm)};
    for (size_t i = 0; i < core->in->shape_count; i++)
        if (core->in->shapes[i].count > 0 && nest_may_enter(&core->kinds[i], h)) return true;
    return false;
}

/* A ring as it lies when turned, counter-clockwise about its inside. */
static void add_ring(sw_contour c, sw_motion motion, jigsaw_shape *s, sw_point *p, uint32_t *ends)
{
    bool reversed = (sw_contour_area(c) < 0) != motion.mirror;
    for (size_t i = 0; i < c.n; i++) {
        sw_vertex v = c.v[reversed ? c.n - 1 - i : i];
        p[s->points + i] = sw_motion_point(motion, (sw_point){v.x_mm, v.y_mm});
    }
    s->points += c.n;
    ends[s->rings++] = (uint32_t)s->points;
}

static void measure(jigsaw_shape *s)
{
    s->box = (sw_box){INFINITY, INFINITY, -INFINITY, -INFINITY};
    for (size_t ring = 0, from = 0; ring < s->rings; from = s->ends[ring++]) {
        double area = jigsaw_ring_area(s->p + from, s->ends[ring] - from);
        s->area_mm2 += ring == 0 ? area : -area;
        for (size_t i = from; i < s->ends[ring]; i++) {
            sw_point a = s->p[i], b = s->p[i + 1 == s->ends[ring] ? from : i + 1];
            s->length_mm += hypot(b.x_mm - a.x_mm, b.y_mm - a.y_mm);
            s->box = (sw_box){fmin(s->box.x0_mm, a.x_mm), fmin(s->box.y0_mm, a.y_mm), fmax(s->box.x1_mm, a.x_mm),
                              fmax(s->box.y1_mm, a.y_mm)};
        }
    }
}

static sw_status make_shape(sw_run *run, const nest_core *core, size_t turned, bool solid, jigsaw_shape *s)
{
    const nest_turned *t = &core->turned[turned];
    const sw_region *r = &core->in->shapes[t->shape].region;
    const sw_motion motion = {.turn_rad = t->turn_rad, .mirror = t->mirror};
    size_t points = r->outline.n;
    for (size_t i = 0; i < r->hole_count; i++) points += r->holes[i].n;
    sw_point *p = SW_SCRATCH(run, points, sw_point);
    uint32_t *ends = SW_SCRATCH(run, r->hole_count + 1, uint32_t);
    if (p == NULL || ends == NULL) return SW_NO_MEMORY;
    *s = (jigsaw_shape){.kind = (uint32_t)t->shape, .turned = (uint32_t)turned, .p = p, .ends = ends};
    add_ring(r->outline, motion, s, p, ends);
    for (size_t i = 0; i < r->hole_count && !solid; i++)
        if (is_free(core, r->holes[i])) add_ring(r->holes[i], motion, s, p, ends);
    measure(s);
    return SW_OK;
}

sw_status jigsaw_shapes_make(sw_run *run, const nest_core *core, bool solid, jigsaw_shape **shapes)
{
    jigsaw_shape *made = SW_SCRATCH(run, core->turned_count, jigsaw_shape);
    if (made == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < core->turned_count; i++) SW_TRY(make_shape(run, core, i, solid, &made[i]));
    *shapes = made;
    return SW_OK;
}
