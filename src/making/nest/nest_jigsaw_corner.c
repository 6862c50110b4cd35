/* nest_jigsaw_corner.c: corners of the free region, and the edges of pieces by direction. Derived. */
#include "making/nest/nest_jigsaw_parts.h"

#include <math.h>
#include <stdlib.h>

static double direction(sw_point a, sw_point b)
{
    return atan2(b.y_mm - a.y_mm, b.x_mm - a.x_mm);
}

static double length_of(sw_point a, sw_point b)
{
    return hypot(b.x_mm - a.x_mm, b.y_mm - a.y_mm);
}

/* From one direction counter-clockwise to another, 0 to 2 pi. */
static double turn_between(double from_rad, double to_rad)
{
    double turn = fmod(to_rad - from_rad, 2 * SW_PI);
    return turn < 0 ? turn + 2 * SW_PI : turn;
}

/* ---- corners ------------------------------------------------------------------------------------------------- */

/* The last point of the boundary, from point i forwards (or backwards), that all before lie on one straight way to. */
static size_t straight_end(const sw_point *p, size_t n, size_t i, bool forwards, double off_mm)
{
    size_t step = forwards ? 1 : n - 1, end = (i + step) % n;
    for (size_t tries = 2; tries < n; tries++) {
        size_t next = (end + step) % n;
        double length_mm = length_of(p[i], p[next]);
        if (next == i || length_mm < length_of(p[i], p[end])) return end;
        for (size_t k = (i + step) % n; k != next; k = (k + step) % n) {
            double cross = (p[next].x_mm - p[i].x_mm) * (p[k].y_mm - p[i].y_mm) -
                           (p[next].y_mm - p[i].y_mm) * (p[k].x_mm - p[i].x_mm);
            if (fabs(cross) > off_mm * length_mm) return end;
        }
        end = next;
    }
    return end;
}

static bool corner_at(const sw_point *p, size_t n, size_t i, double off_mm, jigsaw_corner *c)
{
    size_t next = i + 1 == n ? 0 : i + 1, last = i == 0 ? n - 1 : i - 1;
    if (turn_between(direction(p[i], p[next]), direction(p[i], p[last])) >= SW_PI) return false;
    next = straight_end(p, n, i, true, off_mm);
    last = straight_end(p, n, i, false, off_mm);
    *c = (jigsaw_corner){.at = p[i],
                         .end = p[next],
                         .dir_rad = {direction(p[i], p[next]), direction(p[i], p[last])},
                         .length_mm = {length_of(p[i], p[next]), length_of(p[i], p[last])}};
    c->slack_rad = 2 * off_mm / c->length_mm[0] + 2 * off_mm / c->length_mm[1];
    c->angle_rad = turn_between(c->dir_rad[JIGSAW_OUT], c->dir_rad[JIGSAW_BACK]);
    return c->angle_rad < SW_PI - c->slack_rad;
}

/* ---- sides of pieces ------------------------------------------------------------------------------------------- */

static int by_direction(const void *a, const void *b)
{
    const jigsaw_side *x = a, *y = b;
    if (x->dir_rad != y->dir_rad) return x->dir_rad < y->dir_rad ? -1 : 1;
    if (x->shape != y->shape) return x->shape < y->shape ? -1 : 1;
    return x->point < y->point ? -1 : x->point > y->point;
}

/* Corners below a half turn of the outline; those of holes hold no piece from outside. */
static void add_sides(const jigsaw_shape *shape, uint32_t index, double off_mm, jigsaw_sides *sides)
{
    size_t n = shape->ends[0];
    for (size_t i = 0; i < n; i++) {
        jigsaw_corner c;
        if (!corner_at(shape->p, n, i, off_mm, &c)) continue;
        for (size_t w = 0; w < 2; w++)
            sides->on[w][sides->count] = (jigsaw_side){index, (uint32_t)i, c.dir_rad[w], c.angle_rad, c.length_mm[w]};
        sides->count++;
    }
}

sw_status jigsaw_sides_make(sw_run *run, const jigsaw_shape *shapes, size_t count, double off_mm, jigsaw_sides *sides)
{
    size_t points = 0;
    for (size_t i = 0; i < count; i++) points += shapes[i].ends[0];
    *sides = (jigsaw_sides){.count = 0};
    for (size_t w = 0; w < 2; w++) {
        sides->on[w] = SW_SCRATCH(run, points, jigsaw_side);
        if (sides->on[w] == NULL) return SW_NO_MEMORY;
    }
    for (size_t i = 0; i < count; i++) add_sides(&shapes[i], (uint32_t)i, off_mm, sides);
    for (size_t w = 0; w < 2; w++) qsort(sides->on[w], sides->count, sizeof(jigsaw_side), by_direction);
    return SW_OK;
}

/* First of the sides whose direction is not below. */
static size_t first_side(const jigsaw_sides *sides, int way, double dir_rad)
{
    size_t low = 0, high = sides->count;
    while (low < high) {
        size_t mid = (low + high) / 2;
        if (sides->on[way][mid].dir_rad < dir_rad)
            low = mid + 1;
        else
            high = mid;
    }
    return low;
}

size_t jigsaw_sides_along(const jigsaw_sides *sides, int way, double dir_rad, double slack_rad, size_t *first)
{
    size_t n = sides->count, count = 0;
    double from_rad = dir_rad - slack_rad;
    *first = first_side(sides, way, from_rad < -SW_PI ? from_rad + 2 * SW_PI : from_rad);
    while (count < n && fabs(remainder(sides->on[way][(*first + count) % n].dir_rad - dir_rad, 2 * SW_PI)) <= slack_rad)
        count++;
    return count;
}

/* ---- corners of the region -------------------------------------------------------------------------------------- */

static int by_angle(const void *a, const void *b)
{
    const jigsaw_corner *x = a, *y = b;
    if (x->angle_rad != y->angle_rad) return x->angle_rad < y->angle_rad ? -1 : 1;
    if (x->at.x_mm != y->at.x_mm) return x->at.x_mm < y->at.x_mm ? -1 : 1;
    return x->at.y_mm < y->at.y_mm ? -1 : x->at.y_mm > y->at.y_mm;
}

size_t jigsaw_corners(const jigsaw_region *region, double off_mm, jigsaw_corner *corners, size_t most)
{
    size_t count = 0;
    for (size_t ring = 0, from = 0; ring < region->rings; from = region->ends[ring++])
        for (size_t i = from; i < region->ends[ring] && count < most; i++)
            if (corner_at(region->p + from, region->ends[ring] - from, i - from, off_mm, &corners[count])) count++;
    qsort(corners, count, sizeof *corners, by_angle);
    return count;
}
