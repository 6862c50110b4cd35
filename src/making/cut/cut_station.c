/* cut_station.c: places on a loop where the beam could enter it. */
#include "making/cut/cut_stations.h"

#include <math.h>

enum { EVEN_STATIONS = 32, MIDDLE_STATIONS = 32 };

static sw_point vertex_point(sw_contour c, size_t i)
{
    return (sw_point){c.v[i % c.n].x_mm, c.v[i % c.n].y_mm};
}

static sw_point path_direction(sw_contour c, size_t segment, double t)
{
    return sw_segment_direction(c.v[segment], vertex_point(c, segment + 1), t);
}

/* A corner is where the direction turns by more than 10 degrees (ours). */
static bool is_corner(sw_contour c, size_t i)
{
    sw_point before = path_direction(c, (i + c.n - 1) % c.n, 1), after = path_direction(c, i, 0);
    double dot = before.x_mm * after.x_mm + before.y_mm * after.y_mm;
    return dot < cos(sw_rad_from_deg(10));
}

static double corner_distance(const cut_stations *s, double at_mm)
{
    double best = INFINITY;
    for (size_t i = 0; i < s->corner_count; i++) {
        double d = fabs(at_mm - s->corners_mm[i]);
        best = cut_lesser(best, cut_lesser(d, s->length_mm - d));
    }
    return best;
}

/* Within a hundredth of a joint it is the joint: no slivers of moves. */
static void add_at(cut_stations *s, sw_contour path, size_t i, double at_mm)
{
    const double joint_mm = 0.01;
    while (i < path.n && at_mm >= s->starts_mm[i + 1] - joint_mm) i++;
    if (i == path.n) return;
    double along_mm = at_mm - s->starts_mm[i], length_mm = s->starts_mm[i + 1] - s->starts_mm[i];
    double t = along_mm <= joint_mm ? 0 : along_mm / length_mm;
    sw_point direction = path_direction(path, i, t);
    cut_station *station = &s->stations[s->count++];
    *station = (cut_station){.segment = i, .t = t, .at_mm = s->starts_mm[i] + t * length_mm};
    station->at = sw_segment_point(path.v[i], vertex_point(path, i + 1), t);
    station->along = direction;
    station->scrap = (sw_point){direction.y_mm, -direction.x_mm};
    station->corner_mm = corner_distance(s, station->at_mm);
}

static void add_middles(cut_stations *s, sw_contour path, double least_mm)
{
    size_t added = 0;
    for (size_t i = 0; i < path.n && added < MIDDLE_STATIONS; i++) {
        double length_mm = s->starts_mm[i + 1] - s->starts_mm[i];
        if (length_mm < least_mm) continue;
        add_at(s, path, i, s->starts_mm[i] + length_mm / 2);
        added++;
    }
}

static void add_even(cut_stations *s, sw_contour path)
{
    size_t segment = 0;
    for (int k = 0; k < EVEN_STATIONS; k++) {
        double at_mm = (k + 0.5) / EVEN_STATIONS * s->length_mm;
        while (segment + 1 < path.n && s->starts_mm[segment + 1] <= at_mm) segment++;
        add_at(s, path, segment, at_mm);
    }
}

sw_status cut_stations_make(sw_run *run, sw_contour path, double lead_mm, cut_stations *s)
{
    *s = (cut_stations){0};
    s->starts_mm = SW_SCRATCH(run, path.n + 1, double);
    s->corners_mm = SW_SCRATCH(run, path.n, double);
    s->stations = SW_SCRATCH(run, EVEN_STATIONS + MIDDLE_STATIONS, cut_station);
    if (s->starts_mm == NULL || s->corners_mm == NULL || s->stations == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < path.n; i++) {
        if (is_corner(path, i)) s->corners_mm[s->corner_count++] = s->starts_mm[i];
        s->starts_mm[i + 1] = s->starts_mm[i] + sw_segment_length(path.v[i], vertex_point(path, i + 1));
    }
    s->length_mm = s->starts_mm[path.n];
    add_even(s, path);
    add_middles(s, path, 2 * lead_mm);
    return SW_OK;
}
