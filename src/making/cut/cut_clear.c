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

/* Mostly it lies beside the outline, and the holes need not be asked. */
static bool lies_in(const cut_shape *shape, sw_point p)
{
    return sw_edges_side(shape->contours[0], p) >= 0 && sw_edges_side(shape->edges, p) >= 0;
}

/* The part lies on the steel of the other one. What keeps off the other's edges and begins at the part does too. */
static bool lies_on(const cut_place *part, const cut_place *other)
{
    sw_vertex first = part->shape->region->outline.v[0];
    sw_point p = cut_minus(cut_plus((sw_point){first.x_mm, first.y_mm}, part->by), other->by);
    return cut_boxes_near(part->box, other->box, 0) && lies_in(other->shape, p);
}

static void turn_to_part(cut_near *near, size_t part)
{
    const cut_place *places = near->job->places;
    near->part = part;
    near->part_near = 0;
    near->covered = false;
    for (size_t p = 0; p < near->job->in->part_count; p++)
        if (p != part && cut_boxes_near(places[p].box, places[part].box, near->reach_mm)) {
            near->of_part[near->part_near++] = &places[p];
            near->covered = near->covered || lies_on(&places[part], &places[p]);
        }
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

/* That holds it: a quarter arc goes no farther than 0.3 of its radius beyond its chord. */
static sw_box lead_box(const cut_lead *lead, sw_point by)
{
    double bow_mm = 0.3 * lead->radius_mm;
    sw_point a = lead->start, b = lead->radius_mm > 0 ? lead->bend : a, c = lead->touch;
    sw_box box = {cut_lesser(a.x_mm, cut_lesser(b.x_mm, c.x_mm)) - bow_mm,
                  cut_lesser(a.y_mm, cut_lesser(b.y_mm, c.y_mm)) - bow_mm,
                  cut_greater(a.x_mm, cut_greater(b.x_mm, c.x_mm)) + bow_mm,
                  cut_greater(a.y_mm, cut_greater(b.y_mm, c.y_mm)) + bow_mm};
    return cut_box_moved(box, by);
}

bool cut_clear_of_others(const cut_near *near, const cut_lead *lead, sw_point by)
{
    double kerf_mm = near->job->kerf_mm;
    const sw_edges *sheet = near->job->sheet;
    sw_box box = lead_box(lead, by);
    if (near->covered) return false;
    if (near->sheet && (sw_edges_side(sheet, cut_plus(lead->start, by)) <= 0 || !keeps_gap(sheet, lead, by, kerf_mm)))
        return false;
    for (size_t i = 0; i < near->count; i++) {
        const cut_place *other = near->of_loop[i];
        if (!cut_boxes_near(other->box, box, kerf_mm)) continue;
        if (!keeps_gap(other->shape->edges, lead, cut_minus(by, other->by), kerf_mm)) return false;
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
