/* cut_loops.c: the beam's closed paths and which of them lies in which. */
#include "making/cut/cut_parts.h"

#include <math.h>

static sw_status add_loop(sw_run *run, cut_job *job, sw_contour path, size_t part, int contour, int parent)
{
    void *room = sw_grow(run, run->scratch, job->loops, job->loop_count, &job->loop_room, sizeof *job->loops);
    if (room == NULL) return SW_NO_MEMORY;
    job->loops = room;
    sw_box box = sw_contour_box(path);
    cut_loop loop = {.path = path, .part = part, .contour = contour, .parent = parent, .box = box};
    loop.length_mm = sw_contour_length(path);
    loop.least_side_mm = fmin(box.x1_mm - box.x0_mm, box.y1_mm - box.y0_mm);
    job->loops[job->loop_count++] = loop;
    return SW_OK;
}

/* Where growing closes a slot narrower than the kerf, only the outer loop is left; a finding tells. */
static sw_status add_outline(sw_run *run, cut_job *job, size_t p)
{
    const sw_contour *grown;
    size_t count;
    SW_TRY(sw_contour_offset(run, job->in->parts[p].region.outline, sw_kerf_offset_mm(job->kerf_mm), true, &grown,
                             &count));
    if (count == 0)
        return sw_fail(run, SW_INTERNAL, (sw_place){0}, job->in->parts[p].label,
                       "the outline grown by half the kerf left nothing; check the piece's outline");
    return add_loop(run, job, grown[0], p, -1, -1);
}

/* A hole that the kerf swallows gives no loop: the finding counts loops. */
static sw_status add_hole(sw_run *run, cut_job *job, size_t p, size_t h, int outline)
{
    sw_contour hole = job->in->parts[p].region.holes[h];
    if (sw_contour_area(hole) < 0) SW_TRY(sw_contour_reversed(run, hole, &hole));
    const sw_contour *shrunk;
    size_t count;
    SW_TRY(sw_contour_offset(run, hole, -sw_kerf_offset_mm(job->kerf_mm), true, &shrunk, &count));
    for (size_t i = 0; i < count; i++) {
        sw_contour clockwise;
        SW_TRY(sw_contour_reversed(run, shrunk[i], &clockwise));
        SW_TRY(add_loop(run, job, clockwise, p, (int)h, outline));
    }
    return SW_OK;
}

static bool box_inside(sw_box in, sw_box out)
{
    return in.x0_mm >= out.x0_mm && in.y0_mm >= out.y0_mm && in.x1_mm <= out.x1_mm && in.y1_mm <= out.y1_mm;
}

/* The smallest hole of another piece that holds this outline, or -1. */
static int holding_hole(const cut_job *job, const cut_loop *outline)
{
    int best = -1;
    double best_area = INFINITY;
    sw_point p = {outline->path.v[0].x_mm, outline->path.v[0].y_mm};
    for (size_t i = 0; i < job->loop_count; i++) {
        const cut_loop *hole = &job->loops[i];
        if (hole->parent < 0 || hole->part == outline->part || !box_inside(outline->box, hole->box)) continue;
        double area = fabs(sw_contour_area(hole->path));
        if (area >= best_area || sw_contour_side(hole->path, p) <= 0) continue;
        best = (int)i;
        best_area = area;
    }
    return best;
}

/* Whether a loop is entered from its centre, held by bridges, or may tip once it is cut through. The factor 3 of the
 * thickness for small holes: common practice, no source; such slugs fall through and do not stand up. */
static void classify(const cut_job *job, cut_loop *loop)
{
    const sw_laser *laser = job->in->laser;
    bool outline = loop->contour < 0;
    double bridges_mm = 4 * (laser->micro_joint_mm + job->kerf_mm + job->lead_mm);
    loop->held = outline && laser->micro_joint_mm > 0 && loop->least_side_mm < laser->micro_below_mm &&
                 loop->length_mm > bridges_mm;
    loop->small = !outline && loop->least_side_mm < 3 * job->thickness_mm;
    loop->tips = !loop->held && !loop->small;
}

sw_status cut_loops(sw_run *run, cut_job *job)
{
    const sw_cut_input *in = job->in;
    job->part_boxes = SW_SCRATCH(run, in->part_count, sw_box);
    if (job->part_boxes == NULL) return SW_NO_MEMORY;
    for (size_t p = 0; p < in->part_count; p++) {
        int outline = (int)job->loop_count;
        job->part_boxes[p] = sw_contour_box(in->parts[p].region.outline);
        SW_TRY(add_outline(run, job, p));
        for (size_t h = 0; h < in->parts[p].region.hole_count; h++) SW_TRY(add_hole(run, job, p, h, outline));
    }
    for (size_t i = 0; i < job->loop_count; i++) {
        cut_loop *loop = &job->loops[i];
        if (loop->parent < 0) loop->parent = holding_hole(job, loop);
        classify(job, loop);
    }
    return SW_OK;
}
