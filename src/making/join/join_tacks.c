/* join_tacks.c: where and in what order the pieces are tacked. A piece that is set up is tacked to what stands already:
 * seam after seam in turn, on each from the middle outward, left and right, one side of the sheet and the other. */
#include "making/join/join_parts.h"

typedef struct planner {
    sw_run *run;
    join_job *job;
    const join_body *body;
    sw_join_tack *items;
    size_t count, room;
} planner;

typedef struct plan { /* of one seam */
    size_t tacks, done;
    double length_mm, every_mm;
} plan;

static plan plan_of(const join_job *job, const sw_join_seam *s)
{
    double thin_mm = fmin(s->thick_a_mm, s->thick_b_mm), length_mm = sw_tack_length_mm(thin_mm);
    double pitch_mm = sw_tack_pitch_mm(thin_mm);
    if (isnan(length_mm)) { /* thicker than the table: as at its end */
        length_mm = sw_tack_length_mm(6);
        pitch_mm = sw_tack_pitch_mm(6);
    }
    if (job->welding != NULL && job->welding->tack_mm > 0) length_mm = job->welding->tack_mm;
    plan p = {.length_mm = fmin(length_mm, s->touch_mm)};
    p.tacks = (size_t)fmax(1, ceil(s->touch_mm / pitch_mm - 1e-9));
    if (p.tacks < 2 && s->touch_mm > 3 * length_mm) p.tacks = 2;
    p.every_mm = s->touch_mm / (double)p.tacks;
    return p;
}

/* Where along all runs together the seam is that far from its first point. */
static sw_vec3 place_on(const join_seam *seam, double at_mm, double *from_mm)
{
    const sw_join_point *p = seam->sides[seam->side];
    double done_mm = 0;
    for (size_t i = 1; i < seam->count; i++) {
        double span_mm = seam->starts[i] ? 0 : p[i].from_mm - p[i - 1].from_mm;
        if (span_mm > 0 && done_mm + span_mm >= at_mm) {
            double t = (at_mm - done_mm) / span_mm;
            *from_mm = p[i - 1].from_mm + t * span_mm;
            return join_mix(p[i - 1].at, p[i].at, t);
        }
        done_mm += span_mm;
    }
    *from_mm = p[seam->count - 1].from_mm;
    return p[seam->count - 1].at;
}

/* Number i from the middle outward of n: the middle, right, left, right ... */
static size_t outward(size_t i, size_t n)
{
    size_t middle = (n - 1) / 2, out = (i + 1) / 2;
    return i % 2 == 1 ? middle + out : middle - out;
}

static sw_status add(planner *p, size_t seam_index, plan *one)
{
    join_seam *seam = &p->job->seams[seam_index];
    size_t i = one->done++;
    sw_join_tack tack = {.seam = seam_index, .length_mm = one->length_mm};
    tack.at = place_on(seam, ((double)outward(i, one->tacks) + 0.5) * one->every_mm, &tack.from_mm);
    tack.side = seam->sides[1] == NULL ? 0 : (i % 2 == 0) == (seam->side == 0) ? 1 : -1;
    sw_join_tack *items = sw_grow(p->run, p->run->keep, p->items, p->count, &p->room, sizeof *items);
    if (items == NULL) return SW_NO_MEMORY;
    p->items = items;
    items[p->count++] = tack;
    seam->out->tack_count++;
    return SW_OK;
}

/* The seams chosen in turn, a tack each, until all have theirs. */
static sw_status tack_seams(planner *p, const size_t *seams, size_t count)
{
    plan *plans = SW_SCRATCH(p->run, count, plan);
    bool more = count > 0;
    if (plans == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < count; i++) plans[i] = plan_of(p->job, p->job->seams[seams[i]].out);
    while (more) {
        more = false;
        for (size_t i = 0; i < count; i++) {
            if (plans[i].done < plans[i].tacks) SW_TRY(add(p, seams[i], &plans[i]));
            more = more || plans[i].done < plans[i].tacks;
        }
    }
    return SW_OK;
}

/* Members in the order in which they were set up; each is tacked to those before it. */
static sw_status tack_pieces(planner *p, const size_t *order, size_t count)
{
    bool *stands = SW_SCRATCH(p->run, p->job->instance_count, bool);
    size_t *seams = SW_SCRATCH(p->run, p->body->seam_count, size_t);
    if (stands == NULL || seams == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < count; i++) {
        size_t chosen = 0;
        stands[order[i]] = true;
        for (size_t k = 0; k < p->body->seam_count; k++) {
            const join_seam *s = &p->job->seams[p->body->seams[k]];
            if ((s->a == order[i] || s->b == order[i]) && stands[s->a] && stands[s->b])
                seams[chosen++] = p->body->seams[k];
        }
        SW_TRY(tack_seams(p, seams, chosen));
    }
    return SW_OK;
}

sw_status join_tacks(sw_run *run, join_job *job, size_t body)
{
    sw_join_body *told = &job->told[body];
    planner p = {.run = run, .job = job, .body = &job->bodies[body]};
    size_t *order = SW_SCRATCH(run, told->piece_count, size_t);
    if (order == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < told->piece_count; i++) order[i] = job->first[told->pieces[i]] + told->placements[i];
    SW_TRY(tack_pieces(&p, order, told->piece_count));
    told->tacks = p.items;
    told->tack_count = p.count;
    return SW_OK;
}
