/* taken.c: remembers what a page already carries, so that labels find free places. */
#include "papers/papers_parts.h"

#include <math.h>

sw_status taken_box(sw_run *run, taken *t, sw_box box)
{
    sw_box *boxes = sw_grow(run, run->scratch, t->boxes, t->box_count, &t->box_room, sizeof *boxes);
    if (boxes == NULL) return SW_NO_MEMORY;
    t->boxes = boxes;
    t->boxes[t->box_count++] = box;
    return SW_OK;
}

sw_status taken_line(sw_run *run, taken *t, sw_point a, sw_point b)
{
    sw_point(*lines)[2] = sw_grow(run, run->scratch, t->lines, t->line_count, &t->line_room, sizeof *lines);
    if (lines == NULL) return SW_NO_MEMORY;
    t->lines = lines;
    t->lines[t->line_count][0] = a;
    t->lines[t->line_count][1] = b;
    t->line_count++;
    return SW_OK;
}

/* Cuts the parameter range of the line a + t (b - a) to the slab low..high of one axis. */
static bool slab(double start, double step, double low, double high, double *t0, double *t1)
{
    if (fabs(step) < SW_SAME_POINT_MM) return start > low && start < high;
    double a = (low - start) / step, b = (high - start) / step;
    *t0 = fmax(*t0, fmin(a, b));
    *t1 = fmin(*t1, fmax(a, b));
    return *t0 < *t1;
}

static bool crosses(sw_box box, const sw_point line[2])
{
    double t0 = 0.0, t1 = 1.0;
    return slab(line[0].x_mm, line[1].x_mm - line[0].x_mm, box.x0_mm, box.x1_mm, &t0, &t1) &&
           slab(line[0].y_mm, line[1].y_mm - line[0].y_mm, box.y0_mm, box.y1_mm, &t0, &t1);
}

static bool overlap(sw_box a, sw_box b)
{
    return a.x0_mm < b.x1_mm && b.x0_mm < a.x1_mm && a.y0_mm < b.y1_mm && b.y0_mm < a.y1_mm;
}

bool taken_free(const taken *t, sw_box box)
{
    for (size_t i = 0; i < t->box_count; i++)
        if (overlap(t->boxes[i], box)) return false;
    for (size_t i = 0; i < t->line_count; i++)
        if (crosses(box, (const sw_point *)t->lines[i])) return false;
    return true;
}
