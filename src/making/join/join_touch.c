/* join_touch.c: which face a cut edge stands before. */
#include "making/join/join_parts.h"

static sw_vec3 on_edge(sw_vec3 a, sw_vec3 b, sw_vec3 p)
{
    sw_vec3 e = sw_vec3_sub(b, a);
    double square = sw_vec3_dot(e, e), t = square > 0 ? sw_vec3_dot(sw_vec3_sub(p, a), e) / square : 0;
    return sw_vec3_add(a, sw_vec3_scaled(e, fmax(0, fmin(1, t))));
}

/* Nearest point of a face: its foot where that falls inside, else on an edge. */
static sw_vec3 nearest_on(const join_face *f, sw_vec3 p)
{
    const sw_vec3 corners[4] = {f->a, f->b, f->c, f->a};
    bool inside = true;
    for (int k = 0; k < 3 && inside; k++) {
        sw_vec3 e = sw_vec3_sub(corners[k + 1], corners[k]);
        inside = sw_vec3_dot(sw_vec3_cross(e, sw_vec3_sub(p, corners[k])), f->normal) >= 0;
    }
    if (inside) return sw_vec3_sub(p, sw_vec3_scaled(f->normal, sw_vec3_dot(sw_vec3_sub(p, f->a), f->normal)));
    sw_vec3 best = on_edge(f->a, f->b, p);
    for (int k = 1; k < 3; k++) {
        sw_vec3 q = on_edge(corners[k], corners[k + 1], p);
        if (join_apart(q, p) < join_apart(best, p)) best = q;
    }
    return best;
}

/* Faces that look the way the edge does, or that p lies behind, are its own skins and wall or a far side. Among faces
 * equally near the one that looks against the edge counts. */
const join_face *join_touched(const join_instance *on, sw_vec3 p, sw_vec3 o, double reach_mm, sw_vec3 *at)
{
    const double deep_mm = 2 * SW_CONTACT_MM, along = 0.9, prefer_mm = 0.01;
    const join_face *best = NULL;
    double least = INFINITY;
    join_box here = {p, p};
    if (!join_boxes_near(here, on->box, reach_mm)) return NULL;
    for (size_t i = 0; i < on->face_count; i++) {
        const join_face *f = &on->faces[i];
        if (!join_boxes_near(here, f->box, reach_mm)) continue;
        double facing = sw_vec3_dot(f->normal, o);
        if (facing > along || sw_vec3_dot(sw_vec3_sub(p, f->a), f->normal) < -deep_mm) continue;
        sw_vec3 q = nearest_on(f, p);
        double gap_mm = join_apart(p, q), score = gap_mm + prefer_mm * (1 + facing);
        if (gap_mm > reach_mm || score >= least) continue;
        least = score;
        best = f;
        *at = q;
    }
    return best;
}
