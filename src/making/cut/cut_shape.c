/* cut_shape.c: which parts are moved copies of each other, so that what belongs to a shape is worked out once. */
#include "making/cut/cut_parts.h"

bool cut_same_moved(sw_contour a, sw_contour b, sw_point by)
{
    if (a.n != b.n) return false;
    for (size_t i = 0; i < a.n; i++)
        if (fabs(a.v[i].x_mm + by.x_mm - b.v[i].x_mm) > SW_SAME_POINT_MM ||
            fabs(a.v[i].y_mm + by.y_mm - b.v[i].y_mm) > SW_SAME_POINT_MM ||
            fabs(a.v[i].bulge - b.v[i].bulge) > SW_FLAT_BULGE)
            return false;
    return true;
}

static bool is_copy(const sw_region *a, const sw_region *b, sw_point *by)
{
    *by = (sw_point){b->outline.v[0].x_mm - a->outline.v[0].x_mm, b->outline.v[0].y_mm - a->outline.v[0].y_mm};
    if (a->hole_count != b->hole_count || !cut_same_moved(a->outline, b->outline, *by)) return false;
    for (size_t h = 0; h < a->hole_count; h++)
        if (!cut_same_moved(a->holes[h], b->holes[h], *by)) return false;
    return true;
}

static cut_shape *known_shape(const cut_shapes *shapes, const sw_region *region, sw_point *by)
{
    for (size_t i = 0; i < shapes->count; i++)
        if (is_copy(shapes->items[i].region, region, by)) return &shapes->items[i];
    return NULL;
}

static sw_status prepare_edges(sw_run *run, cut_shape *shape)
{
    const sw_region *region = shape->region;
    shape->contours = SW_SCRATCH(run, region->hole_count + 1, const sw_edges *);
    if (shape->contours == NULL) return SW_NO_MEMORY;
    for (size_t c = 0; c <= region->hole_count; c++) {
        const sw_contour *contour = c == 0 ? &region->outline : &region->holes[c - 1];
        SW_TRY(sw_edges_make(run, run->scratch, contour, 1, &shape->contours[c]));
    }
    return sw_edges_of_region(run, run->scratch, region, &shape->edges);
}

static sw_status prepare(sw_run *run, const cut_job *job, size_t part, cut_shape *shape)
{
    SW_TRY(prepare_edges(run, shape));
    SW_TRY(cut_tracks(run, job, part, shape));
    for (size_t i = 0; i < shape->track_count; i++) SW_TRY(cut_track_leads(run, &shape->tracks[i]));
    shape->sizes.lost = SW_SCRATCH(run, shape->region->hole_count + 1, cut_lost);
    return shape->sizes.lost == NULL ? SW_NO_MEMORY : cut_orders_make(run, shape);
}

static sw_status place_part(sw_run *run, cut_shapes *shapes, cut_job *job, size_t p)
{
    const sw_region *region = &job->in->parts[p].region;
    cut_place *place = &job->places[p];
    place->shape = known_shape(shapes, region, &place->by);
    if (place->shape == NULL) {
        place->by = (sw_point){0, 0};
        place->shape = &shapes->items[shapes->count++];
        place->shape->region = region;
        SW_TRY(prepare(run, job, p, place->shape));
    }
    place->box = cut_box_moved(sw_edges_box(place->shape->edges), place->by);
    return SW_OK;
}

sw_status cut_places(sw_run *run, cut_shapes *shapes, cut_job *job)
{
    job->places = SW_SCRATCH(run, job->in->part_count, cut_place);
    if (job->places == NULL) return SW_NO_MEMORY;
    SW_TRY(sw_edges_of_region(run, run->scratch, &job->in->stock->shape, &job->sheet));
    for (size_t p = 0; p < job->in->part_count; p++) SW_TRY(place_part(run, shapes, job, p));
    return SW_OK;
}
