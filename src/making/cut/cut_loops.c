/* cut_loops.c: the tracks where the parts lie, and which of them lies in which. */
#include "making/cut/cut_parts.h"

static void add_part(cut_job *job, size_t part)
{
    const cut_place *place = &job->places[part];
    int outline = (int)job->loop_count;
    for (size_t i = 0; i < place->shape->track_count; i++) {
        cut_track *track = &place->shape->tracks[i];
        cut_loop loop = {.track = track, .by = place->by, .part = part, .parent = i == 0 ? -1 : outline};
        loop.box = cut_box_moved(track->box, place->by);
        job->loops[job->loop_count++] = loop;
    }
}

static sw_status add_parts(sw_run *run, cut_job *job)
{
    size_t count = 0;
    for (size_t p = 0; p < job->in->part_count; p++) count += job->places[p].shape->track_count;
    job->loops = SW_SCRATCH(run, count, cut_loop);
    if (job->loops == NULL) return SW_NO_MEMORY;
    for (size_t p = 0; p < job->in->part_count; p++) add_part(job, p);
    return SW_OK;
}

static bool box_inside(sw_box in, sw_box out)
{
    return in.x0_mm >= out.x0_mm && in.y0_mm >= out.y0_mm && in.x1_mm <= out.x1_mm && in.y1_mm <= out.y1_mm;
}

typedef struct wide_holes { /* those that could hold any of the sheet's outlines */
    size_t *loops, count;
} wide_holes;

static sw_status wide_holes_make(sw_run *run, const cut_job *job, wide_holes *wide)
{
    *wide = (wide_holes){.loops = SW_SCRATCH(run, job->loop_count, size_t)};
    if (wide->loops == NULL) return SW_NO_MEMORY;
    double least_mm2 = INFINITY;
    for (size_t i = 0; i < job->loop_count; i++)
        if (job->loops[i].track->contour < 0) least_mm2 = fmin(least_mm2, job->loops[i].track->area_mm2);
    for (size_t i = 0; i < job->loop_count; i++)
        if (job->loops[i].track->contour >= 0 && job->loops[i].track->area_mm2 >= least_mm2)
            wide->loops[wide->count++] = i;
    return SW_OK;
}

/* The smallest hole of another piece that holds this outline, or -1. */
static int holding_hole(const cut_job *job, const wide_holes *wide, const cut_loop *outline)
{
    int best = -1;
    sw_vertex first = outline->track->path.v[0];
    sw_point p = cut_plus((sw_point){first.x_mm, first.y_mm}, outline->by);
    for (size_t i = 0; i < wide->count; i++) {
        const cut_loop *hole = &job->loops[wide->loops[i]];
        if (!box_inside(outline->box, hole->box) || hole->part == outline->part) continue;
        if (best >= 0 && hole->track->area_mm2 >= job->loops[best].track->area_mm2) continue;
        if (sw_edges_side(hole->track->edges, cut_minus(p, hole->by)) > 0) best = (int)wide->loops[i];
    }
    return best;
}

sw_status cut_loops(sw_run *run, cut_job *job)
{
    SW_TRY(add_parts(run, job));
    wide_holes wide;
    SW_TRY(wide_holes_make(run, job, &wide));
    for (size_t i = 0; i < job->loop_count; i++)
        if (job->loops[i].track->contour < 0) job->loops[i].parent = holding_hole(job, &wide, &job->loops[i]);
    for (size_t i = 0; i < job->loop_count; i++)
        if (job->loops[i].parent >= 0) job->loops[job->loops[i].parent].holds = true;
    return SW_OK;
}
