/* cut_clear.c: how far a lead-in is from what it must not touch. */
#include "making/cut/cut_clear.h"

static const double hair_mm = 0.01; /* a lead-in may come that much nearer than it should: it meets its own contour */

/* ---- what is near ---- */

sw_status cut_near_make(sw_run *run, const cut_job *job, cut_near *near)
{
    *near = (cut_near){.job = job, .part = SIZE_MAX, .reach_mm = 1.2 * job->lead_mm + 2 * job->kerf_mm};
    near->of_part = SW_SCRATCH(run, job->in->part_count, const cut_place *);
    near->of_loop = SW_SCRATCH(run, job->in->part_count, const cut_place *);
    return near->of_part == NULL || near->of_loop == NULL ? SW_NO_MEMORY : SW_OK;
}

static void turn_to_part(cut_near *near, size_t part)
{
    const cut_place *places = near->job->places;
    near->part = part;
    near->part_near = 0;
    for (size_t p = 0; p < near->job->in->part_count; p++)
        if (p != part && cut_boxes_near(places[p].box, places[part].box, near->reach_mm))
            near->of_part[near->part_near++] = &places[p];
}

static bool sheet_edge_may_be_near(const cut_near *near, sw_box box)
{
    const sw_edges *sheet = near->job->sheet;
    sw_point middle = {(box.x0_mm + box.x1_mm) / 2, (box.y0_mm + box.y1_mm) / 2};
    double about_mm = cut_distance(middle, (sw_point){box.x1_mm, box.y1_mm}) + near->reach_mm;
    return sw_edges_side(sheet, middle) <= 0 || sw_edges_distance(sheet, middle, about_mm) < about_mm;
}

void cut_near_turn_to(cut_near *near, const cut_loop *loop)
{
    if (near->part != loop->part) turn_to_part(near, loop->part);
    near->count = 0;
    for (size_t i = 0; i < near->part_near; i++)
        if (cut_boxes_near(near->of_part[i]->box, loop->box, near->reach_mm))
            near->of_loop[near->count++] = near->of_part[i];
    near->sheet = sheet_edge_may_be_near(near, loop->box);
}

/* ---- one lead-in ---- */

static bool keeps_gap(const sw_edges *edges, const cut_lead *lead, sw_point by, double gap_mm)
{
    sw_move moves[2];
    size_t count = cut_lead_moves(lead, by, moves);
    for (size_t i = 0; i < count; i++)
        if (!sw_edges_clear(edges, moves[i].from, moves[i].to, gap_mm - hair_mm)) return false;
    return true;
}

/* A lead-in that lies outside the outline and keeps its distance from it is as far from the holes, and likewise within
 * a hole: only the contour it leads to need be asked. */
bool cut_clear_of_own(const cut_job *job, const cut_shape *shape, const cut_track *track, const cut_lead *lead)
{
    const sw_edges *contour = shape->contours[track->contour + 1];
    int scrap_side = track->contour < 0 ? -1 : 1;
    return sw_edges_side(contour, lead->start) == scrap_side &&
           keeps_gap(contour, lead, (sw_point){0, 0}, sw_kerf_offset_mm(job->kerf_mm));
}

/* Mostly it lies beside the outline, and the holes need not be asked. */
static bool lies_in(const cut_shape *shape, sw_point p)
{
    return sw_edges_side(shape->contours[0], p) >= 0 && sw_edges_side(shape->edges, p) >= 0;
}

/* That holds it: no lead-in goes farther from its start than 1.2 times its length. */
static sw_box lead_box(const cut_lead *lead, sw_point by)
{
    double reach_mm = 1.2 * lead->length_mm;
    sw_point at = cut_plus(lead->start, by);
    return (sw_box){at.x_mm - reach_mm, at.y_mm - reach_mm, at.x_mm + reach_mm, at.y_mm + reach_mm};
}

bool cut_clear_of_others(const cut_near *near, const cut_lead *lead, sw_point by)
{
    double kerf_mm = near->job->kerf_mm;
    const sw_edges *sheet = near->job->sheet;
    sw_box box = lead_box(lead, by);
    if (near->sheet && (sw_edges_side(sheet, cut_plus(lead->start, by)) <= 0 || !keeps_gap(sheet, lead, by, kerf_mm)))
        return false;
    for (size_t i = 0; i < near->count; i++) {
        const cut_place *other = near->of_loop[i];
        if (!cut_boxes_near(other->box, box, kerf_mm)) continue;
        sw_point there = cut_minus(by, other->by);
        if (!keeps_gap(other->shape->edges, lead, there, kerf_mm)) return false;
        if (lies_in(other->shape, cut_plus(lead->start, there))) return false;
    }
    return true;
}

/* ---- when none is clear ---- */

double cut_start_room(const cut_near *near, const cut_shape *shape, const cut_lead *lead, sw_point by)
{
    const cut_job *job = near->job;
    double need_mm = sw_kerf_offset_mm(job->kerf_mm), most_mm = near->reach_mm + job->kerf_mm;
    sw_point start = cut_plus(lead->start, by);
    double room_mm = fmin(near->reach_mm, sw_edges_distance(shape->edges, lead->start, most_mm) - need_mm);
    room_mm = fmin(room_mm, sw_edges_distance(job->sheet, start, most_mm) - job->kerf_mm);
    bool scrap = !lies_in(shape, lead->start) && sw_edges_side(job->sheet, start) > 0;
    for (size_t i = 0; i < near->count; i++) {
        const cut_place *other = near->of_loop[i];
        sw_point there = cut_minus(start, other->by);
        room_mm = fmin(room_mm, sw_edges_distance(other->shape->edges, there, most_mm) - job->kerf_mm);
        scrap = scrap && !lies_in(other->shape, there);
    }
    return scrap ? room_mm : -lead->length_mm - fabs(room_mm);
}
