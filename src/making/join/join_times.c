/* join_times.c: times of the stations, and what one stove takes and costs. */
#include "making/join/join_parts.h"

/* Arc over the share of the time that it burns; hand seams without a row take no time that is known. */
static double hand_time(const join_job *job, const sw_join_body *body)
{
    double arc_s = 0;
    for (size_t i = 0; i < body->hand_count; i++) {
        const sw_join_seam *s = job->seams[body->hand[i]].out;
        if (s->row != NULL) arc_s += s->arc_s;
    }
    double share = job->welding->hand_share;
    return share > 0 ? arc_s / share : arc_s;
}

static void time_body(const join_job *job, sw_join_body *body)
{
    const sw_welding *w = job->welding;
    body->tack_s = (double)body->tack_count * w->tack_s;
    body->hand_s = hand_time(job, body);
    if (body->robot_count == 0) return;
    body->fixture_s = w->fixture_s;
    body->starts_s = (double)body->starts * w->robot_start_s;
    body->turns_s = (double)body->turns * w->turn_s;
    body->robot_s = body->fixture_s + body->robot_arc_s + body->starts_s + body->air_s + body->turns_s;
}

static void sum_seams(const join_job *job, sw_join_result *r)
{
    for (size_t i = 0; i < r->seam_count; i++) {
        const sw_join_seam *s = &job->told_seams[i];
        if (s->row == NULL) {
            r->unknown++;
            continue;
        }
        r->weld_mm += s->weld_mm;
        r->wire_kg += s->wire_kg;
        r->gas_m3 += s->gas_m3;
        r->energy_j += s->energy_j;
        r->arc_s += s->arc_s;
    }
}

void join_times(join_job *job)
{
    sw_join_result *r = job->result;
    sum_seams(job, r);
    if (job->welding == NULL) return;
    const sw_welding *w = job->welding;
    for (size_t i = 0; i < job->body_count; i++) {
        sw_join_body *body = &job->told[i];
        time_body(job, body);
        r->station_s[SW_JOIN_TACK] += body->tack_s;
        r->station_s[SW_JOIN_HAND] += body->hand_s;
        r->station_s[SW_JOIN_ROBOT] += body->robot_s - body->fixture_s;
        r->setup_s[SW_JOIN_ROBOT] += body->fixture_s;
    }
    r->cost_wire = r->wire_kg * w->wire_price_kg;
    r->cost_gas = r->gas_m3 * w->gas_price_m3;
    r->cost_energy = r->energy_j * w->power_price_j;
    double hand_s = r->station_s[SW_JOIN_TACK] + r->station_s[SW_JOIN_HAND];
    double robot_s = r->station_s[SW_JOIN_ROBOT] + r->setup_s[SW_JOIN_ROBOT];
    r->cost_time = sw_h_from_s(hand_s) * w->hand_rate_h + sw_h_from_s(robot_s) * w->robot_rate_h;
}
