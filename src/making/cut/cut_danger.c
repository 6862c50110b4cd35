/* cut_danger.c: whether the head's straight way passes over what has been cut out. */
#include "making/cut/cut_parts.h"

#include <math.h>

static const double hair_mm = 0.2; /* stretches shorter than about this inside a loop do not count (ours) */

static bool box_missed(sw_box box, sw_point a, sw_point b)
{
    return fmax(a.x_mm, b.x_mm) < box.x0_mm || fmin(a.x_mm, b.x_mm) > box.x1_mm || fmax(a.y_mm, b.y_mm) < box.y0_mm ||
           fmin(a.y_mm, b.y_mm) > box.y1_mm;
}

static bool inside_at(const cut_loop *loop, sw_point a, sw_point b, double at_mm)
{
    double length_mm = hypot(b.x_mm - a.x_mm, b.y_mm - a.y_mm);
    if (at_mm < 0 || at_mm > length_mm) return false;
    double t = at_mm / length_mm;
    sw_point p = {a.x_mm + t * (b.x_mm - a.x_mm), a.y_mm + t * (b.y_mm - a.y_mm)};
    return sw_contour_side(loop->path, p) > 0;
}

/* A stretch inside the loop begins and ends at the way's ends or at crossings: looking a hair to both sides of each
 * finds it. */
bool cut_crosses(const cut_loop *loop, sw_point a, sw_point b)
{
    if (box_missed(loop->box, a, b)) return false;
    double length_mm = hypot(b.x_mm - a.x_mm, b.y_mm - a.y_mm);
    if (length_mm < 2 * hair_mm) return false;
    if (inside_at(loop, a, b, hair_mm) || inside_at(loop, a, b, length_mm - hair_mm)) return true;
    sw_vertex from = {a.x_mm, a.y_mm, 0};
    for (size_t i = 0; i < loop->path.n; i++) {
        const sw_vertex *next = &loop->path.v[(i + 1) % loop->path.n];
        sw_point at[2];
        size_t count = sw_segment_crossings(from, b, loop->path.v[i], (sw_point){next->x_mm, next->y_mm}, at);
        for (size_t k = 0; k < count; k++) {
            double at_mm = hypot(at[k].x_mm - a.x_mm, at[k].y_mm - a.y_mm);
            if (inside_at(loop, a, b, at_mm - hair_mm) || inside_at(loop, a, b, at_mm + hair_mm)) return true;
        }
    }
    return false;
}

bool cut_any_crossed(const cut_danger *danger, sw_point a, sw_point b)
{
    for (size_t i = 0; i < danger->count; i++)
        if (cut_crosses(danger->loops[i], a, b)) return true;
    return false;
}
