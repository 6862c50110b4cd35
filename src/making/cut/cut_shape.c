/* cut_shape.c: which parts are moved copies of each other, so that what belongs to a shape is worked out once. */
#include "making/cut/cut_parts.h"

static bool same_moved(sw_contour a, sw_contour b, sw_point by)
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
    if (a->hole_count != b->hole_count || !same_moved(a->outline, b->outline, *by)) return false;
    for (size_t h = 0; h < a->hole_count; h++)
        if (!same_moved(a->holes[h], b->holes[h], *by)) return false;
    return true;
}

static cut_shape *known_shape(const cut_job *job, const sw_region *region, sw_point *by)
{
    for (size_t i = 0; i < job->shape_count; i++)
        if (is_copy(job->shapes[i].region, region, by)) return &job->shapes[i];
    return NULL;
}

static sw_status prepare(sw_run *run, cut_shape *shape)
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

static sw_status place_part(sw_run *run, cut_job *job, size_t p)
{
    const sw_region *region = &job->in->parts[p].region;
    cut_place *place = &job->places[p];
    place->shape = known_shape(job, region, &place->by);
    if (place->shape == NULL) {
        place->by = (sw_point){0, 0};
        place->shape = &job->shapes[job->shape_count++];
        place->shape->region = region;
        SW_TRY(prepare(run, place->shape));
        SW_TRY(cut_tracks(run, job, p, place->shape));
    }
    place->box = cut_box_moved(sw_edges_box(place->shape->edges), place->by);
    return SW_OK;
}

sw_status cut_shapes(sw_run *run, cut_job *job)
{
    job->shapes = SW_SCRATCH(run, job->in->part_count, cut_shape);
    job->places = SW_SCRATCH(run, job->in->part_count, cut_place);
    if (job->shapes == NULL || job->places == NULL) return SW_NO_MEMORY;
    SW_TRY(sw_edges_of_region(run, run->scratch, &job->in->stock->shape, &job->sheet));
    for (size_t p = 0; p < job->in->part_count; p++) SW_TRY(place_part(run, job, p));
    return SW_OK;
}
