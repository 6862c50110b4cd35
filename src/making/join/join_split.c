/* join_split.c: which seams the robot welds, and the others by hand in an order that does not pull to one side. */
#include "making/join/join_parts.h"

#include <string.h>

sw_vec3 join_middle(const sw_join_seam *seam)
{
    sw_vec3 sum = {0, 0, 0};
    for (size_t i = 0; i < seam->count; i++) sum = sw_vec3_add(sum, seam->points[i].at);
    return seam->count > 0 ? sw_vec3_scaled(sum, 1 / (double)seam->count) : sum;
}

/* The bow of a member goes with A_w d L (Blodgett): area, lever and length of the seam, as a vector of the lever. */
sw_vec3 join_pull(const sw_join_seam *seam, sw_vec3 centre)
{
    double size = (isnan(seam->area_mm2) ? 0 : seam->area_mm2) * seam->weld_mm;
    return sw_vec3_scaled(sw_vec3_sub(join_middle(seam), centre), size);
}

/* ---- who --------------------------------------------------------------------------------------------- */

static const char *body_reason(sw_run *run, const join_job *job, const sw_join_body *body)
{
    const sw_welding *w = job->welding;
    if (w == NULL || !w->robot) return "the works have no robot";
    if (w->robot_load_kg > 0 && body->mass_kg > w->robot_load_kg)
        return sw_text_format(run, run->keep, "the body has %.0f kg, the positioner carries %.0f", body->mass_kg,
                              w->robot_load_kg);
    if (w->reach_mm > 0 && body->span_mm > w->reach_mm)
        return sw_text_format(run, run->keep, "the body is %.0f mm long, the robot spans %.0f", body->span_mm,
                              w->reach_mm);
    return "";
}

double join_gap_bridged_mm(const join_job *job, const sw_join_seam *s)
{
    if (job->welding == NULL || !(job->welding->gap_bridged > 0)) return INFINITY;
    return job->welding->gap_bridged * fmin(s->thick_a_mm, s->thick_b_mm);
}

double join_gap_mm(const join_job *job, const sw_join_seam *s)
{
    return job->in->sheet->joints[s->joint - job->in->stove->joints].gap_most_mm;
}

/* Why the robot cannot weld it; "" = it can. */
static const char *seam_reason(sw_run *run, const join_job *job, const join_seam *seam)
{
    const sw_join_seam *s = seam->out;
    if (s->row == NULL) return "no weld row";
    if (!s->reached) return "the torch does not reach it";
    if (join_gap_mm(job, s) > join_gap_bridged_mm(job, s))
        return sw_text_format(run, run->keep, "the joint gapes %.2f mm, the robot bridges %.2f", join_gap_mm(job, s),
                              join_gap_bridged_mm(job, s));
    if (seam->bars_robot != SIZE_MAX)
        return sw_text_format(run, run->keep, "the robot's torch does not get past %s",
                              job->instances[seam->bars_robot].label);
    return "";
}

static sw_status reach_and_lay(sw_run *run, const join_job *job, join_seam *seam, const bool *present,
                               sw_join_station station)
{
    sw_join_point *points = seam->sides[seam->side];
    for (size_t i = 0; i < seam->count; i++)
        points[i].torch = sw_vec3_unit(sw_vec3_add(points[i].sheet_a, points[i].sheet_b)); /* the bisector again */
    SW_TRY(join_reach_by(run, job, seam, present, station));
    seam->out->weld_mm = seam->out->arc_mm = 0;
    return join_lay(run, job, seam);
}

typedef struct mover { /* of seams of one body from the robot to the hand */
    sw_run *run;
    join_job *job;
    sw_join_body *body;
    bool *present; /* [instances] */
} mover;

/* Lays the seam for the torch held by hand; stays laid for the robot's where that does not get there. */
static sw_status lay_for_hand(const mover *m, join_seam *seam)
{
    if (seam->by != SW_JOIN_ROBOT || !join_torch_known(m->job, SW_JOIN_HAND)) return SW_OK;
    SW_TRY(reach_and_lay(m->run, m->job, seam, m->present, SW_JOIN_HAND));
    return seam->out->reached ? SW_OK : reach_and_lay(m->run, m->job, seam, m->present, SW_JOIN_ROBOT);
}

static bool robot_alone(const mover *m, const join_seam *seam) /* no other torch gets there */
{
    return seam->by == SW_JOIN_ROBOT && join_torch_known(m->job, SW_JOIN_HAND);
}

static void give_to_hand(const mover *m, join_seam *seam, const char *why)
{
    if (robot_alone(m, seam)) return;
    seam->out->station = SW_JOIN_HAND;
    seam->out->why = why;
}

/* By hand the arc burns a share of the time; at the robot there are fixture and starts. */
static bool worth_clamping(const join_job *job, const sw_join_body *body)
{
    const sw_welding *w = job->welding;
    double hand_s = 0, robot_s = w->fixture_s;
    for (size_t i = 0; i < body->seam_count; i++) {
        join_seam *seam = &job->seams[body->seams[i]];
        if (seam->out->station != SW_JOIN_ROBOT) continue;
        join_figures(job, seam);
        robot_s += seam->out->arc_s + (double)seam->out->stretch_count * w->robot_start_s;
        seam->out->station = SW_JOIN_HAND;
        join_figures(job, seam);
        hand_s += w->hand_share > 0 ? seam->out->arc_s / w->hand_share : seam->out->arc_s;
        seam->out->station = SW_JOIN_ROBOT;
    }
    return robot_s < hand_s;
}

static sw_status give_short(const mover *m)
{
    for (size_t i = 0; i < m->body->seam_count; i++) {
        join_seam *seam = &m->job->seams[m->body->seams[i]];
        if (seam->out->station != SW_JOIN_ROBOT || seam->out->weld_mm >= m->job->opt->robot_seam_mm) continue;
        SW_TRY(lay_for_hand(m, seam));
        const char *why = sw_text_format(m->run, m->run->keep, "%.0f mm of seam are too short", seam->out->weld_mm);
        if (why == NULL) return SW_NO_MEMORY;
        give_to_hand(m, seam, why);
    }
    return SW_OK;
}

/* All of them, or none: what no hand reaches is clamped at the robot anyway. */
static sw_status give_all(const mover *m)
{
    bool all = true;
    for (size_t i = 0; i < m->body->seam_count; i++) {
        join_seam *seam = &m->job->seams[m->body->seams[i]];
        if (seam->out->station != SW_JOIN_ROBOT) continue;
        SW_TRY(lay_for_hand(m, seam));
        all = all && !robot_alone(m, seam);
    }
    for (size_t i = 0; i < m->body->seam_count; i++) {
        join_seam *seam = &m->job->seams[m->body->seams[i]];
        if (seam->out->station != SW_JOIN_ROBOT) continue;
        if (all)
            give_to_hand(m, seam, "clamping the body at the robot takes longer than it saves");
        else if (seam->by == SW_JOIN_HAND)
            SW_TRY(reach_and_lay(m->run, m->job, seam, m->present, SW_JOIN_ROBOT));
    }
    return SW_OK;
}

static sw_status choose(const mover *m)
{
    sw_join_body *body = m->body;
    const char *of_body = body_reason(m->run, m->job, body);
    if (of_body == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < body->seam_count; i++) {
        join_seam *seam = &m->job->seams[body->seams[i]];
        seam->out->why = of_body[0] != '\0' ? of_body : seam_reason(m->run, m->job, seam);
        if (seam->out->why == NULL) return SW_NO_MEMORY;
        seam->out->station = seam->out->why[0] == '\0' ? SW_JOIN_ROBOT : SW_JOIN_HAND;
    }
    if (of_body[0] != '\0') return SW_OK;
    SW_TRY(give_short(m));
    return worth_clamping(m->job, body) ? SW_OK : give_all(m);
}

static sw_status split(const mover *m)
{
    for (size_t i = 0; i < m->body->piece_count; i++)
        m->present[m->job->first[m->body->pieces[i]] + m->body->placements[i]] = true;
    SW_TRY(choose(m));
    for (size_t i = 0; i < m->body->seam_count; i++) {
        join_seam *seam = &m->job->seams[m->body->seams[i]];
        *(seam->out->station == SW_JOIN_ROBOT ? &m->body->robot_mm : &m->body->hand_mm) += seam->out->weld_mm;
        join_figures(m->job, seam); /* once more: the speed is the station's */
    }
    return SW_OK;
}

/* ---- the order by hand ----------------------------------------------------------------------------------- */

/* Always the seam after which the body is pulled least; the strongest of equals. */
static size_t next_by_hand(const join_job *job, const sw_join_body *body, const bool *done, sw_vec3 pulled)
{
    size_t best = SIZE_MAX;
    double least = INFINITY, strongest = -1;
    for (size_t i = 0; i < body->seam_count; i++) {
        const sw_join_seam *s = job->seams[body->seams[i]].out;
        if (done[i] || s->station != SW_JOIN_HAND) continue;
        sw_vec3 pull = join_pull(s, body->centre);
        double left = sw_vec3_length(sw_vec3_add(pulled, pull)), size = sw_vec3_length(pull);
        if (left > least + 1e-6 || (left > least - 1e-6 && size <= strongest)) continue;
        best = i;
        least = left;
        strongest = size;
    }
    return best;
}

static sw_status order_by_hand(sw_run *run, const join_job *job, sw_join_body *body)
{
    size_t *hand = SW_KEEP(run, body->seam_count, size_t);
    bool *done = SW_SCRATCH(run, body->seam_count, bool);
    sw_vec3 pulled = {0, 0, 0};
    if (hand == NULL || done == NULL) return SW_NO_MEMORY;
    for (;;) {
        size_t i = next_by_hand(job, body, done, pulled);
        if (i == SIZE_MAX) break;
        done[i] = true;
        hand[body->hand_count++] = body->seams[i];
        pulled = sw_vec3_add(pulled, join_pull(job->seams[body->seams[i]].out, body->centre));
    }
    body->hand = hand;
    return SW_OK;
}

sw_status join_split(sw_run *run, join_job *job, size_t body)
{
    const mover m = {run, job, &job->told[body], SW_SCRATCH(run, job->instance_count, bool)};
    if (m.present == NULL) return SW_NO_MEMORY;
    SW_TRY(split(&m));
    return order_by_hand(run, job, &job->told[body]);
}
