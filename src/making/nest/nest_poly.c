/* nest_poly.c: a convex polygon in the order the scan wants: from the lowest of the leftmost points. */
#include "making/nest/nest_parts.h"

#include <string.h>

static bool before(sw_point a, sw_point b)
{
    return a.x_mm < b.x_mm || (a.x_mm == b.x_mm && a.y_mm < b.y_mm);
}

static bool further_right(sw_point a, sw_point b)
{
    return a.x_mm > b.x_mm || (a.x_mm == b.x_mm && a.y_mm < b.y_mm);
}

sw_status nest_poly_make(sw_run *run, sw_arena *into, const sw_point *p, size_t n, nest_poly *out)
{
    sw_point *copy = sw_arena_take(into, n, sizeof *copy);
    if (copy == NULL)
        return sw_fail(run, SW_NO_MEMORY, (sw_place){0}, "", "the memory limit is reached with %zu points", n);
    size_t first = 0;
    for (size_t i = 1; i < n; i++)
        if (before(p[i], p[first])) first = i;
    memcpy(copy, p + first, (n - first) * sizeof *copy);
    memcpy(copy + (n - first), p, first * sizeof *copy);
    *out = (nest_poly){.p = copy, .n = (uint32_t)n};
    out->box = (sw_box){copy[0].x_mm, copy[0].y_mm, copy[0].x_mm, copy[0].y_mm};
    for (uint32_t i = 1; i < n; i++) {
        if (further_right(copy[i], copy[out->right])) out->right = i;
        if (copy[i].x_mm > out->box.x1_mm) out->box.x1_mm = copy[i].x_mm;
        if (copy[i].y_mm > out->box.y1_mm) out->box.y1_mm = copy[i].y_mm;
        if (copy[i].y_mm < out->box.y0_mm) out->box.y0_mm = copy[i].y_mm;
    }
    return SW_OK;
}
