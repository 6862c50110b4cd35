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
    return turn_rad > 0.0 ? turn_rad : turn_rad + 2.0 * SW_PI;
}

static double length_of(const stretch *s)
{
    return sw_segment_length(s->from, s->to);
}

static bool follows(const stretch *s, const stretch *next)
{
    return gap_mm(point_of(next->from), s->to) <= MEET_MM;
}

/* The way from and to the meeting point is looked at over one short length for all, so that stretches which
 * are tangent there are told apart by their curvature. */
static double look_mm(const stretches *kept, const bool *used, const stretch *s)
{
    double least_mm = length_of(s);
    for (size_t i = 0; i < kept->n; i++)
        if (!used[i] && follows(s, &kept->items[i])) least_mm = fmin(least_mm, length_of(&kept->items[i]));
    return 0.25 * least_mm;
}

static size_t find_next(const stretches *kept, const bool *used, size_t from)
{
    const stretch *s = &kept->items[from];
    double look = look_mm(kept, used, s), best_rad = INFINITY;
    sw_point in = minus(s->to, sw_segment_point(s->from, s->to, 1.0 - look / length_of(s)));
    size_t best = kept->n;
    for (size_t i = 0; i < kept->n; i++) {
        const stretch *next = &kept->items[i];
        if (used[i] || !follows(s, next)) continue;
        sw_point out = minus(sw_segment_point(next->from, next->to, look / length_of(next)), point_of(next->from));
        double turn_rad = turn_from_back(in, out);
        if (turn_rad >= best_rad) continue;
        best = i;
        best_rad = turn_rad;
    }
    return best;
}

/* Follows stretches from `first` until one ends where it starts; *closed false when nothing goes on. */
static sw_status follow(const offset_job *job, const stretches *kept, bool *used, size_t first, sw_contour *loop,
                        bool *closed)
{
    size_t n = 0, at = first;
    sw_vertex *v = SW_SCRATCH(job->run, kept->n, sw_vertex);
    if (v == NULL) return SW_NO_MEMORY;
    for (;;) {
        size_t next = find_next(kept, used, at);
        v[n++] = kept->items[at].from;
        used[next < kept->n ? next : first] = true;
        if (next == first) break;
        if (next == kept->n) {
            *closed = false;
            return SW_OK;
        }
        at = next;
    }
    *loop = (sw_contour){v, vertices_tidied(v, n)};
    return SW_OK;
}

sw_status offset_chain(const offset_job *job, const stretches *kept, sw_contour **loops, size_t *count, bool *closed)
{
    bool *used = SW_SCRATCH(job->run, kept->n, bool);
    sw_contour *found = SW_SCRATCH(job->run, kept->n, sw_contour);
    if (used == NULL || found == NULL) return SW_NO_MEMORY;
    *loops = found;
    *count = 0;
    *closed = true;
    for (size_t i = 0; i < kept->n && *closed; i++)
        if (!used[i]) SW_TRY(follow(job, kept, used, i, &found[(*count)++], closed));
    return SW_OK;
}
