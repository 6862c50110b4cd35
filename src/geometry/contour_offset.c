/* contour_offset.c: the parallel of a contour, lines and arcs exact. Its steps:
 * offset_raw.c (all segments moved aside), offset_split.c (split where it meets itself, bad stretches gone),
 * offset_chain.c (loops), and here the choice of loops. */
#include "geometry/offset_parts.h"

#include <stdlib.h>
#include <string.h>

/* The contour tidied, with its first vertex at the origin so that far coordinates cost no accuracy. */
static sw_status make_job(offset_job *job, sw_contour c)
{
    sw_vertex *v = SW_SCRATCH(job->run, c.n, sw_vertex);
    segment *segments = SW_SCRATCH(job->run, c.n, segment);
    if (v == NULL || segments == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < c.n; i++)
        v[i] = (sw_vertex){c.v[i].x_mm - c.v[0].x_mm, c.v[i].y_mm - c.v[0].y_mm, c.v[i].bulge};
    job->c = (sw_contour){v, vertices_tidied(v, c.n)};
    for (size_t i = 0; i < job->c.n; i++) segments[i] = segment_of(job->c, i);
    job->segments = segments;
    return SW_OK;
}

static int larger_first(const void *a, const void *b)
{
    double p = fabs(sw_contour_area(*(const sw_contour *)a)), q = fabs(sw_contour_area(*(const sw_contour *)b));
    return p > q ? -1 : p < q ? 1 : 0;
}

/* Loops that run the other way are pockets closed off between parts; those thinner than the shortest
 * edge are folds. */
static bool wanted(sw_contour loop, double area_mm2)
{
    double own_mm2 = sw_contour_area(loop);
    return (own_mm2 > 0.0) == (area_mm2 > 0.0) && fabs(own_mm2) > SW_SHORTEST_MM * sw_contour_length(loop);
}

static sw_status put_back(sw_run *run, sw_contour loop, sw_point origin, sw_contour *out)
{
    return sw_contour_moved(run, loop, (sw_motion){.dx_mm = origin.x_mm, .dy_mm = origin.y_mm}, out);
}

/* Where walls are just twice the distance apart the parallel may not close: it then comes from a distance off
 * by a few times the same-point tolerance, where they are not. ours */
static const double nudges_mm[] = {0.0, -4.0 * SW_SAME_POINT_MM, 4.0 * SW_SAME_POINT_MM, -16.0 * SW_SAME_POINT_MM};

static sw_status find_loops(offset_job *job, sw_contour **loops, size_t *count)
{
    const double wanted_mm = job->distance_mm;
    for (size_t k = 0; k < sizeof nudges_mm / sizeof *nudges_mm; k++) {
        stretches raw = {0}, kept = {0};
        bool closed;
        job->distance_mm = wanted_mm + nudges_mm[k];
        job->wedge_count = 0;
        SW_TRY(offset_raw(job, &raw));
        SW_TRY(offset_split(job, &raw, &kept));
        SW_TRY(offset_chain(job, &kept, loops, count, &closed));
        if (closed) return SW_OK;
    }
    return sw_fail(job->run, SW_INTERNAL, (sw_place){0}, "",
                   "the parallel at %.9g mm does not close; is the contour sound? a slightly different distance may do",
                   wanted_mm);
}

static sw_status offset(sw_run *run, sw_contour c, double distance_mm, bool round, const sw_contour **out,
                        size_t *count)
{
    offset_job job = {.run = run, .distance_mm = distance_mm, .round = round};
    sw_contour *loops = NULL;
    size_t found = 0, n = 0;
    SW_TRY(make_job(&job, c));
    if (job.c.n < 2) return SW_OK;
    SW_TRY(find_loops(&job, &loops, &found));
    sw_contour *answer = SW_KEEP(run, found, sw_contour);
    if (answer == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < found; i++)
        if (wanted(loops[i], sw_contour_area(c))) SW_TRY(put_back(run, loops[i], point_of(c.v[0]), &answer[n++]));
    qsort(answer, n, sizeof *answer, larger_first);
    *out = answer;
    *count = n;
    return SW_OK;
}

sw_status sw_contour_offset(sw_run *run, sw_contour c, double distance_mm, bool round, const sw_contour **out,
                            size_t *count)
{
    *out = NULL;
    *count = 0;
    if (!isfinite(distance_mm))
        return sw_fail(run, SW_OUT_OF_RANGE, (sw_place){0}, "",
                       "a parallel at %g mm cannot be drawn; give a finite distance", distance_mm);
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = offset(run, c, distance_mm, round, out, count);
    sw_arena_rewind(run->scratch, mark);
    return status;
}
