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

static const char *seam_reason(sw_run *run, const join_job *job, const sw_join_seam *s)
{
    const sw_joint_fit *fit = &job->in->sheet->joints[s->joint - job->in->stove->joints];
    double bridged_mm = job->welding->gap_bridged * fmin(s->thick_a_mm, s->thick_b_mm);
    if (s->row == NULL) return "no weld row";
    if (!s->reached) return "the torch does not reach it";
    if (s->weld_mm < job->opt->robot_seam_mm)
        return sw_text_format(run, run->keep, "%.0f mm of seam are too short", s->weld_mm);
    if (job->welding->gap_bridged > 0 && fit->gap_most_mm > bridged_mm)
        return sw_text_format(run, run->keep, "the joint gapes %.2f mm, the robot bridges %.2f", fit->gap_most_mm,
                              bridged_mm);
    return "";
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

static sw_status choose(sw_run *run, join_job *job, sw_join_body *body)
{
    const char *of_body = body_reason(run, job, body);
    if (of_body == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < body->seam_count; i++) {
        sw_join_seam *s = job->seams[body->seams[i]].out;
        s->why = of_body[0] != '\0' ? of_body : seam_reason(run, job, s);
        if (s->why == NULL) return SW_NO_MEMORY;
        s->station = s->why[0] == '\0' ? SW_JOIN_ROBOT : SW_JOIN_HAND;
    }
    bool too_little = of_body[0] == '\0' && !worth_clamping(job, body);
    for (size_t i = 0; i < body->seam_count; i++) {
        join_seam *seam = &job->seams[body->seams[i]];
        if (too_little && seam->out->station == SW_JOIN_ROBOT) {
            seam->out->station = SW_JOIN_HAND;
            seam->out->why = "clamping the body at the robot takes longer than it saves";
        }
        *(seam->out->station == SW_JOIN_ROBOT ? &body->robot_mm : &body->hand_mm) += seam->out->weld_mm;
        join_figures(job, seam); /* once more: the speed is the station's */
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
    SW_TRY(choose(run, job, &job->told[body]));
    return order_by_hand(run, job, &job->told[body]);
}
