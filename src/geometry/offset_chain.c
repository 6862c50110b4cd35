/* offset_chain.c: good stretches joined into loops. Where several leave one point, the sharpest turn to the
 * left is taken, which keeps parts that touch at a point apart. */
#include "geometry/offset_parts.h"

/* Ends that meet: each was moved by at most the same-point tolerance, and a stretch shorter than it may be
 * missing between them. */
#define MEET_MM (8.0 * SW_SAME_POINT_MM)

/* Clockwise turn from looking back along `in` to `out`, in (0, 2 pi]: the least is the sharpest left. */
static double turn_from_back(sw_point in, sw_point out)
{
    sw_point back = times(in, -1.0);
    double turn_rad = -atan2(cross(back, out), dot(back, out));
    return turn_rad > 1e-9 ? turn_rad : turn_rad + 2.0 * SW_PI;
}

static size_t find_next(const stretches *kept, const bool *used, size_t from)
{
    const stretch *s = &kept->items[from];
    sw_point in = sw_segment_direction(s->from, s->to, 1.0);
    size_t best = kept->n;
    double best_rad = INFINITY;
    for (size_t i = 0; i < kept->n; i++) {
        const stretch *next = &kept->items[i];
        if (used[i] || gap_mm(point_of(next->from), s->to) > MEET_MM) continue;
        double turn_rad = turn_from_back(in, sw_segment_direction(next->from, next->to, 0.0));
        if (turn_rad >= best_rad) continue;
        best = i;
        best_rad = turn_rad;
    }
    return best;
}

static sw_status not_closed(const offset_job *job, sw_point at)
{
    return sw_fail(job->run, SW_INTERNAL, (sw_place){0}, "",
                   "the parallel at %.9g mm does not close at (%.6g, %.6g) from the contour's first vertex; "
                   "is the contour sound? a slightly different distance may do",
                   job->distance_mm, at.x_mm, at.y_mm);
}

/* Follows stretches from `first` until one ends where it starts. */
static sw_status follow(const offset_job *job, const stretches *kept, bool *used, size_t first, sw_contour *loop)
{
    size_t n = 0, at = first;
    sw_vertex *v = SW_SCRATCH(job->run, kept->n, sw_vertex);
    if (v == NULL) return SW_NO_MEMORY;
    for (;;) {
        size_t next = find_next(kept, used, at);
        v[n++] = kept->items[at].from;
        used[next < kept->n ? next : first] = true;
        if (next == first) break;
        if (next == kept->n) return not_closed(job, kept->items[at].to);
        at = next;
    }
    *loop = (sw_contour){v, vertices_tidied(v, n)};
    return SW_OK;
}

sw_status offset_chain(const offset_job *job, const stretches *kept, sw_contour **loops, size_t *count)
{
    bool *used = SW_SCRATCH(job->run, kept->n, bool);
    sw_contour *found = SW_SCRATCH(job->run, kept->n, sw_contour);
    if (used == NULL || found == NULL) return SW_NO_MEMORY;
    *loops = found;
    *count = 0;
    for (size_t i = 0; i < kept->n; i++)
        if (!used[i]) SW_TRY(follow(job, kept, used, i, &found[(*count)++]));
    return SW_OK;
}
