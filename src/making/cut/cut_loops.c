/* cut_loops.c: the tracks where the parts lie, and which of them lies in which. */
#include "making/cut/cut_parts.h"

static sw_status add_loop(sw_run *run, cut_job *job, cut_track *track, size_t part, int parent)
{
    cut_loop *loops = sw_grow(run, run->scratch, job->loops, job->loop_count, &job->loop_room, sizeof *loops);
    if (loops == NULL) return SW_NO_MEMORY;
    sw_point by = job->places[part].by;
    loops[job->loop_count++] =
        (cut_loop){.track = track, .by = by, .part = part, .parent = parent, .box = cut_box_moved(track->box, by)};
    job->loops = loops;
    return SW_OK;
}

static sw_status add_part(sw_run *run, cut_job *job, size_t part)
{
    const cut_shape *shape = job->places[part].shape;
    int outline = (int)job->loop_count;
    for (size_t i = 0; i < shape->track_count; i++)
        SW_TRY(add_loop(run, job, &shape->tracks[i], part, i == 0 ? -1 : outline));
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
    for (size_t p = 0; p < job->in->part_count; p++) SW_TRY(add_part(run, job, p));
    wide_holes wide;
    SW_TRY(wide_holes_make(run, job, &wide));
    for (size_t i = 0; i < job->loop_count; i++)
        if (job->loops[i].track->contour < 0) job->loops[i].parent = holding_hole(job, &wide, &job->loops[i]);
    for (size_t i = 0; i < job->loop_count; i++)
        if (job->loops[i].parent >= 0) job->loops[job->loops[i].parent].holds = true;
    return SW_OK;
}
