/* cut_etch.c: etched paths, before anything is cut: the sheet still lies flat and nothing has moved. Always the
 * nearest end of a path not yet etched comes next; a path may be run backwards. */
#include "making/cut/cut_parts.h"

typedef struct etch {
    sw_path path;
    size_t part;
} etch;

static sw_point path_end(sw_path path, bool last)
{
    const sw_vertex *v = &path.v[last ? path.n - 1 : 0];
    return (sw_point){v->x_mm, v->y_mm};
}

static double square(sw_point a, sw_point b)
{
    sw_point d = cut_minus(a, b);
    return d.x_mm * d.x_mm + d.y_mm * d.y_mm;
}

static size_t nearest(const etch *etches, size_t count, sw_point at, bool *backwards)
{
    size_t best = 0;
    double best2 = INFINITY;
    for (size_t i = 0; i < count; i++) {
        double first2 = square(at, path_end(etches[i].path, false)), last2 = square(at, path_end(etches[i].path, true));
        if (first2 >= best2 && last2 >= best2) continue;
        best = i;
        *backwards = last2 < first2;
        best2 = *backwards ? last2 : first2;
    }
    return best;
}

static sw_move etch_move(sw_path path, size_t i, bool backwards)
{
    if (!backwards) return (sw_move){SW_MOVE_ETCH, path.v[i], {path.v[i + 1].x_mm, path.v[i + 1].y_mm}};
    size_t k = path.n - 2 - i;
    sw_vertex from = {path.v[k + 1].x_mm, path.v[k + 1].y_mm, -path.v[k].bulge};
    return (sw_move){SW_MOVE_ETCH, from, {path.v[k].x_mm, path.v[k].y_mm}};
}

static sw_status add_etch(sw_run *run, cut_job *job, const etch *e, bool backwards)
{
    sw_move *moves = SW_KEEP(run, e->path.n - 1, sw_move);
    if (moves == NULL) return SW_NO_MEMORY;
    sw_cut_pass pass = {.moves = moves, .start = path_end(e->path, backwards), .part = e->part, .contour = -1};
    for (size_t i = 0; i + 1 < e->path.n; i++) moves[pass.move_count++] = etch_move(e->path, i, backwards);
    return cut_add_pass(run, job, pass, CUT_NO_LOOP);
}

sw_status cut_etches(sw_run *run, cut_job *job)
{
    size_t count = 0;
    for (size_t p = 0; p < job->in->part_count; p++) count += job->in->parts[p].etch_count;
    etch *etches = SW_SCRATCH(run, count, etch);
    if (etches == NULL) return SW_NO_MEMORY;
    size_t filled = 0;
    for (size_t p = 0; p < job->in->part_count; p++)
        for (size_t e = 0; e < job->in->parts[p].etch_count; e++)
            etches[filled++] = (etch){.path = job->in->parts[p].etches[e], .part = p};
    sw_point at = {0, 0};
    for (; count > 0; count--) {
        bool backwards = false;
        size_t next = nearest(etches, count, at, &backwards);
        SW_TRY(add_etch(run, job, &etches[next], backwards));
        at = path_end(etches[next].path, !backwards);
        etches[next] = etches[count - 1];
    }
    return SW_OK;
}
