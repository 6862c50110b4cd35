/* cut_danger.c: what has been cut out and may stand up, and whether the head's straight way passes over it. */
#include "making/cut/cut_parts.h"

static const double hair_mm = 0.2; /* shorter stretches inside a loop do not count (ours) */

typedef struct way { /* a straight one of the head, and its box */
    sw_point a, b;
    sw_box box;
} way;

static way way_of(sw_point a, sw_point b)
{
    sw_box box = {a.x_mm, a.y_mm, b.x_mm, b.y_mm};
    if (a.x_mm > b.x_mm) box.x0_mm = b.x_mm, box.x1_mm = a.x_mm;
    if (a.y_mm > b.y_mm) box.y0_mm = b.y_mm, box.y1_mm = a.y_mm;
    return (way){a, b, box};
}

static bool crosses(const cut_loop *loop, const way *w)
{
    return cut_boxes_near(loop->box, w->box, 0) &&
           sw_edges_entered(loop->track->edges, cut_minus(w->a, loop->by), cut_minus(w->b, loop->by), hair_mm);
}

bool cut_crosses(const cut_loop *loop, sw_point a, sw_point b)
{
    way w = way_of(a, b);
    return crosses(loop, &w);
}

/* A straight way that leaves a convex loop does so at once. */
bool cut_leaves_over(const cut_loop *loop, sw_point touch, sw_point to)
{
    if (!loop->track->convex) return cut_crosses(loop, touch, to);
    double way_mm = cut_distance(touch, to), share = hair_mm / way_mm;
    if (way_mm < 2 * hair_mm) return false;
    sw_point first = {touch.x_mm + share * (to.x_mm - touch.x_mm), touch.y_mm + share * (to.y_mm - touch.y_mm)};
    return sw_edges_side(loop->track->edges, cut_minus(first, loop->by)) > 0;
}

bool cut_any_crossed(const cut_danger *danger, sw_point a, sw_point b)
{
    way w = way_of(a, b);
    for (size_t i = 0; i < danger->count; i++)
        if (crosses(danger->loops[i], &w)) return true;
    return false;
}

sw_status cut_danger_make(sw_run *run, const cut_job *job, cut_danger *danger)
{
    *danger = (cut_danger){.job = job, .loops = SW_SCRATCH(run, job->loop_count, const cut_loop *)};
    return danger->loops == NULL ? SW_NO_MEMORY : SW_OK;
}

static bool lies_within(const cut_job *job, const cut_loop *inner, const cut_loop *outer)
{
    for (int up = inner->parent; up >= 0; up = job->loops[up].parent)
        if (&job->loops[up] == outer) return true;
    return false;
}

/* What lies within a loop that may stand up need not be looked at any more. */
void cut_danger_add(cut_danger *danger, const cut_loop *finished)
{
    if (!finished->track->tips) return;
    size_t kept = finished->holds ? 0 : danger->count;
    for (size_t i = kept; i < danger->count; i++)
        if (!lies_within(danger->job, danger->loops[i], finished)) danger->loops[kept++] = danger->loops[i];
    danger->loops[kept++] = finished;
    danger->count = kept;
}
