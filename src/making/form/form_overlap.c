/* form_overlap.c: how deep two convex polygons lie in each other.
 * Source: separating axes of convex polygons (Gottschalk, Lin, Manocha 1996, in the plane; from memory). */
#include "making/form/form_parts.h"

void form_slab_box(form_slab *s)
{
    sw_box b = {s->p[0].x_mm, s->p[0].y_mm, s->p[0].x_mm, s->p[0].y_mm};
    for (size_t i = 1; i < s->n; i++) {
        sw_point p = s->p[i];
        b.x0_mm = p.x_mm < b.x0_mm ? p.x_mm : b.x0_mm;
        b.y0_mm = p.y_mm < b.y0_mm ? p.y_mm : b.y0_mm;
        b.x1_mm = p.x_mm > b.x1_mm ? p.x_mm : b.x1_mm;
        b.y1_mm = p.y_mm > b.y1_mm ? p.y_mm : b.y1_mm;
    }
    s->box = b;
}

/* Least over the edges of a of how far b reaches inside; negative or 0: an edge of a parts them. */
static double inside_mm(const form_slab *a, const form_slab *b)
{
    double least = INFINITY;
    for (size_t i = 0; i < a->n; i++) {
        sw_point p = a->p[i], q = a->p[(i + 1) % a->n];
        double ex = q.x_mm - p.x_mm, ey = q.y_mm - p.y_mm, l = sqrt(ex * ex + ey * ey), deepest = -INFINITY;
        if (l < SW_SAME_POINT_MM) continue;
        for (size_t k = 0; k < b->n; k++)
            deepest = fmax(deepest, (ex * (b->p[k].y_mm - p.y_mm) - ey * (b->p[k].x_mm - p.x_mm)) / l);
        if (deepest <= 0.0) return 0.0;
        least = fmin(least, deepest);
    }
    return least;
}

double form_overlap_mm(const form_slab *a, const form_slab *b)
{
    if (a->box.x0_mm >= b->box.x1_mm || b->box.x0_mm >= a->box.x1_mm || a->box.y0_mm >= b->box.y1_mm ||
        b->box.y0_mm >= a->box.y1_mm)
        return 0.0;
    double one = inside_mm(a, b);
    return one <= 0.0 ? 0.0 : fmin(one, inside_mm(b, a));
}
