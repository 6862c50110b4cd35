/* nest_poly.c: convex polygons in the order the scan wants: from the lowest of the leftmost points. */
#include "making/nest/nest_parts.h"

#include <math.h>
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

/* ---- polygons within others ------------------------------------------------------------------------- */

static const double hair_mm = NEST_TOUCH_MM / 10; /* a polygon that looks out no further is within */

static bool box_within(sw_box a, sw_box b)
{
    return a.x0_mm >= b.x0_mm - hair_mm && a.x1_mm <= b.x1_mm + hair_mm && a.y0_mm >= b.y0_mm - hair_mm &&
           a.y1_mm <= b.y1_mm + hair_mm;
}

/* Whether all of `poly` lies to the left of the line from a to b. */
static bool all_left(const nest_poly *poly, sw_point a, sw_point b)
{
    double dx = b.x_mm - a.x_mm, dy = b.y_mm - a.y_mm, least = -hair_mm * (fabs(dx) + fabs(dy)) / 2;
    for (uint32_t i = 0; i < poly->n; i++)
        if (dx * (poly->p[i].y_mm - a.y_mm) - dy * (poly->p[i].x_mm - a.x_mm) < least) return false;
    return true;
}

static bool within(const nest_poly *a, const nest_poly *b)
{
    if (!box_within(a->box, b->box)) return false;
    for (uint32_t i = 0; i < b->n; i++)
        if (!all_left(a, b->p[i], b->p[i + 1 < b->n ? i + 1 : 0])) return false;
    return true;
}

enum { LARGEST = 12 }; /* polygons that others are looked for in. Ours */

typedef struct large {
    nest_poly poly;
    size_t at;
    double area_mm2; /* of its box */
} large;

/* Those with the largest boxes, largest first; gives how many. */
static size_t find_largest(const nest_poly *polys, size_t count, large found[LARGEST])
{
    size_t n = 0;
    for (size_t i = 0; i < count; i++) {
        sw_box b = polys[i].box;
        large l = {polys[i], i, (b.x1_mm - b.x0_mm) * (b.y1_mm - b.y0_mm)};
        if (n == LARGEST && l.area_mm2 <= found[n - 1].area_mm2) continue;
        size_t at = n < LARGEST ? n++ : n - 1;
        for (; at > 0 && found[at - 1].area_mm2 < l.area_mm2; at--) found[at] = found[at - 1];
        found[at] = l;
    }
    return n;
}

/* Of two alike the first of the largest stays. */
static bool lies_within(const nest_poly *poly, size_t at, const large *largest, size_t count)
{
    for (size_t k = 0; k < count && largest[k].at != at; k++)
        if (within(poly, &largest[k].poly)) return true;
    return false;
}

size_t nest_poly_drop_inner(nest_poly *polys, size_t count)
{
    large largest[LARGEST];
    size_t n = find_largest(polys, count, largest), kept = 0;
    for (size_t i = 0; i < count; i++)
        if (!lies_within(&polys[i], i, largest, n)) polys[kept++] = polys[i];
    return kept;
}
