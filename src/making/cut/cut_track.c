/* cut_track.c: the beam's closed paths of one shape. */
#include "making/cut/cut_parts.h"

/* Whether a track is entered from its centre, held by bridges, or may tip once it is cut through. The factor 3 of the
 * thickness for small holes: common practice, no source; such slugs fall through and do not stand up. */
static void classify(const cut_job *job, cut_track *track)
{
    const sw_laser *laser = job->in->laser;
    bool outline = track->contour < 0;
    double bridges_mm = 4 * (laser->micro_joint_mm + job->kerf_mm + job->lead_mm);
    track->held = outline && laser->micro_joint_mm > 0 && track->least_side_mm < laser->micro_below_mm &&
                  track->length_mm > bridges_mm;
    track->small = !outline && track->least_side_mm < 3 * job->thickness_mm;
    track->tips = !track->held && !track->small;
}

/* Turns one way only: tracks cross themselves nowhere. */
static bool is_convex(sw_contour path, int contour)
{
    const double slack = 1e-9;
    double way = contour < 0 ? 1 : -1;
    sw_point before = cut_ends_of(path.v[path.n - 1], (sw_point){path.v[0].x_mm, path.v[0].y_mm}).end;
    for (size_t i = 0; i < path.n; i++) {
        const sw_vertex *next = &path.v[(i + 1) % path.n];
        cut_ends ends = cut_ends_of(path.v[i], (sw_point){next->x_mm, next->y_mm});
        double turn = before.x_mm * ends.start.y_mm - before.y_mm * ends.start.x_mm;
        if (way * path.v[i].bulge < -SW_FLAT_BULGE || way * turn < -slack) return false;
        before = ends.end;
    }
    return true;
}

static sw_status add_track(sw_run *run, const cut_job *job, cut_shape *shape, sw_contour path, int contour)
{
    cut_track *tracks =
        sw_grow(run, run->scratch, shape->tracks, shape->track_count, &shape->track_room, sizeof *tracks);
    if (tracks == NULL) return SW_NO_MEMORY;
    shape->tracks = tracks;
    cut_track *track = &tracks[shape->track_count++];
    *track = (cut_track){.path = path, .contour = contour};
    SW_TRY(sw_edges_make(run, run->scratch, &path, 1, &track->edges));
    track->box = sw_edges_box(track->edges);
    track->length_mm = sw_contour_length(path);
    track->area_mm2 = fabs(sw_contour_area(path));
    track->least_side_mm = fmin(track->box.x1_mm - track->box.x0_mm, track->box.y1_mm - track->box.y0_mm);
    track->convex = is_convex(path, contour);
    classify(job, track);
    return cut_stations_make(run, path, job->lead_mm, &track->stations);
}

/* Where growing closes a slot narrower than the kerf, only the outer track is left; a finding tells. */
static sw_status add_outline(sw_run *run, const cut_job *job, size_t part, cut_shape *shape)
{
    const sw_contour *grown;
    size_t count;
    SW_TRY(sw_contour_offset(run, shape->region->outline, sw_kerf_offset_mm(job->kerf_mm), true, &grown, &count));
    if (count == 0)
        return sw_fail(run, SW_INTERNAL, (sw_place){0}, job->in->parts[part].label,
                       "the outline grown by half the kerf left nothing; check the "
                       "piece's outline");
    return add_track(run, job, shape, grown[0], -1);
}

/* A hole that the kerf swallows gives no track: the finding counts tracks. */
static sw_status add_hole(sw_run *run, const cut_job *job, size_t h, cut_shape *shape)
{
    sw_contour hole = shape->region->holes[h];
    if (sw_contour_area(hole) < 0) SW_TRY(sw_contour_reversed(run, hole, &hole));
    const sw_contour *shrunk;
    size_t count;
    SW_TRY(sw_contour_offset(run, hole, -sw_kerf_offset_mm(job->kerf_mm), true, &shrunk, &count));
    for (size_t i = 0; i < count; i++) {
        sw_contour clockwise;
        SW_TRY(sw_contour_reversed(run, shrunk[i], &clockwise));
        SW_TRY(add_track(run, job, shape, clockwise, (int)h));
    }
    return SW_OK;
}

sw_status cut_tracks(sw_run *run, const cut_job *job, size_t part, cut_shape *shape)
{
    SW_TRY(add_outline(run, job, part, shape));
    for (size_t h = 0; h < shape->region->hole_count; h++) SW_TRY(add_hole(run, job, h, shape));
    return SW_OK;
}
