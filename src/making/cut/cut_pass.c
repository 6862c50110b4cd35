/* cut_pass.c: the beam-on stretches of each loop: lead-in, contour, bridges left standing.
 *
 * A bridge is as wide as the laser's micro-joint where it is narrowest: the beam cuts half a kerf beyond the ends of
 * its path, so the path leaves micro-joint + kerf. */
#include "making/cut/cut_parts.h"

sw_status cut_add_pass(sw_run *run, cut_job *job, sw_cut_pass pass, size_t loop)
{
    sw_cut_pass *passes = sw_grow(run, run->keep, job->passes, job->pass_count, &job->pass_room, sizeof *passes);
    if (passes == NULL) return SW_NO_MEMORY;
    job->passes = passes;
    size_t *loops = sw_grow(run, run->scratch, job->pass_loops, job->pass_count, &job->pass_loops_room, sizeof *loops);
    if (loops == NULL) return SW_NO_MEMORY;
    job->pass_loops = loops;
    job->pass_loops[job->pass_count] = loop;
    job->passes[job->pass_count++] = pass;
    return SW_OK;
}

typedef struct walk { /* in the shape's frame; the moves in the sheet's */
    sw_contour path;
    sw_point by;
    sw_move *moves;
    size_t count;
    sw_point at;
} walk;

static sw_point path_vertex(sw_contour c, size_t i)
{
    return (sw_point){c.v[i % c.n].x_mm, c.v[i % c.n].y_mm};
}

/* Part t0..t1 of a segment: an arc's included angle shrinks with its length. */
static void walk_segment(walk *w, size_t i, double t0, double t1)
{
    sw_vertex from = w->path.v[i];
    sw_point to = path_vertex(w->path, i + 1);
    sw_point end = t1 >= 1 ? to : sw_segment_point(from, to, t1);
    double bulge = t0 <= 0 && t1 >= 1 ? from.bulge : from.bulge == 0 ? 0 : tan(atan(from.bulge) * (t1 - t0));
    sw_point start = cut_plus(w->at, w->by);
    w->moves[w->count++] = (sw_move){SW_MOVE_CUT, {start.x_mm, start.y_mm, bulge}, cut_plus(end, w->by)};
    w->at = end;
}

/* length_mm of the path from the lead-in's touch on. */
static void walk_path(walk *w, const cut_lead *lead, double length_mm)
{
    size_t i = lead->segment;
    double t0 = lead->t;
    w->at = lead->touch;
    for (size_t steps = 0; steps <= w->path.n && length_mm >= SW_SHORTEST_MM; steps++) {
        double segment_mm = sw_segment_length(w->path.v[i], path_vertex(w->path, i + 1));
        double take_mm = fmin((1 - t0) * segment_mm, length_mm);
        double t1 = take_mm < length_mm ? 1 : t0 + take_mm / segment_mm;
        if (take_mm > 0) walk_segment(w, i, t0, fmin(t1, 1));
        length_mm -= take_mm;
        i = (i + 1) % w->path.n;
        t0 = 0;
    }
}

static sw_status add_loop_pass(sw_run *run, cut_job *job, size_t index, size_t lead_index, double length_mm)
{
    const cut_loop *loop = &job->loops[index];
    const cut_track *track = loop->track;
    const cut_lead *lead = &loop->leads.items[lead_index];
    sw_move *moves = SW_KEEP(run, track->path.n + 4, sw_move);
    if (moves == NULL) return SW_NO_MEMORY;
    walk w = {.path = track->path, .by = loop->by, .moves = moves, .count = cut_lead_moves(lead, loop->by, moves)};
    walk_path(&w, lead, length_mm);
    if (length_mm >= track->length_mm) w.moves[w.count - 1].to = cut_touch(loop, lead_index); /* closes exactly */
    sw_cut_pass pass = {.moves = moves, .move_count = w.count, .start = cut_start(loop, lead_index)};
    pass.part = loop->part;
    pass.contour = track->contour;
    return cut_add_pass(run, job, pass, index);
}

static double ahead_mm(const cut_loop *loop, size_t from, size_t to)
{
    double d = loop->leads.items[to].at_mm - loop->leads.items[from].at_mm;
    return d > 0 ? d : d + loop->track->length_mm;
}

static sw_status loop_passes(sw_run *run, cut_job *job, size_t index)
{
    const cut_loop *loop = &job->loops[index];
    if (!loop->track->held) return add_loop_pass(run, job, index, loop->chosen, loop->track->length_mm);
    double gap_mm = job->in->laser->micro_joint_mm + job->kerf_mm;
    size_t first = loop->chosen, second = loop->second;
    job->plan->micro_joints += first == second ? 1 : 2;
    SW_TRY(add_loop_pass(run, job, index, first, ahead_mm(loop, first, second) - gap_mm));
    if (first == second) return SW_OK;
    return add_loop_pass(run, job, index, second, ahead_mm(loop, second, first) - gap_mm);
}

sw_status cut_passes(sw_run *run, cut_job *job)
{
    for (size_t i = 0; i < job->loop_count; i++) SW_TRY(loop_passes(run, job, job->order[i]));
    return SW_OK;
}
