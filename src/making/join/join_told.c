/* join_told.c: bodies as they are told: name, pieces in the order of setting up, mass, size. */
#include "making/join/join_parts.h"

#include <string.h>

static double mass_of(const join_job *job, size_t instance)
{
    return job->instances[instance].piece->mass_kg;
}

/* How much seam a piece has to those that stand. */
static double seam_to(const join_job *job, const join_body *body, size_t piece, const bool *stands)
{
    double sum_mm = 0;
    for (size_t i = 0; i < body->seam_count; i++) {
        const join_seam *s = &job->seams[body->seams[i]];
        size_t other = s->a == piece ? s->b : s->b == piece ? s->a : SIZE_MAX;
        if (other != SIZE_MAX && stands[other]) sum_mm += s->out->touch_mm;
    }
    return sum_mm;
}

/* The heaviest first; then always the one with the most seam to what stands, the heavier of two alike. */
static size_t next_piece(const join_job *job, const join_body *body, const bool *stands, bool first)
{
    size_t best = SIZE_MAX;
    double most_mm = -1;
    for (size_t i = 0; i < body->member_count; i++) {
        size_t one = body->members[i];
        double seam_mm = first ? 0 : seam_to(job, body, one, stands);
        bool more = best == SIZE_MAX || seam_mm > most_mm + SW_SAME_POINT_MM ||
                    (seam_mm > most_mm - SW_SAME_POINT_MM && mass_of(job, one) > mass_of(job, best));
        if (stands[one] || !more) continue;
        best = one;
        most_mm = seam_mm;
    }
    return best;
}

static sw_status set_up(sw_run *run, const join_job *job, const join_body *body, sw_join_body *told)
{
    size_t *pieces = SW_KEEP(run, body->member_count, size_t), *placements = SW_KEEP(run, body->member_count, size_t);
    bool *stands = SW_SCRATCH(run, job->instance_count, bool);
    if (pieces == NULL || placements == NULL || stands == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < body->member_count; i++) {
        size_t one = next_piece(job, body, stands, i == 0);
        stands[one] = true;
        pieces[i] = job->instances[one].piece_index;
        placements[i] = job->instances[one].placement;
    }
    told->pieces = pieces;
    told->placements = placements;
    told->piece_count = body->member_count;
    return SW_OK;
}

static void weigh(const join_job *job, const join_body *body, sw_join_body *told)
{
    join_box box = join_box_empty();
    sw_vec3 moment = {0, 0, 0};
    for (size_t i = 0; i < body->member_count; i++) {
        const join_instance *one = &job->instances[body->members[i]];
        sw_vec3 centre = sw_frame_point(one->frame, one->piece->solid.centroid);
        told->mass_kg += one->piece->mass_kg;
        moment = sw_vec3_add(moment, sw_vec3_scaled(centre, one->piece->mass_kg));
        box = join_box_with(join_box_with(box, one->box.low), one->box.high);
    }
    if (told->mass_kg > 0) told->centre = sw_vec3_scaled(moment, 1 / told->mass_kg);
    told->span_mm =
        fmax(box.high.x_mm - box.low.x_mm, fmax(box.high.y_mm - box.low.y_mm, box.high.z_mm - box.low.z_mm));
}

static const char *title_of(const join_job *job, const char *group)
{
    for (size_t i = 0; i < job->in->stove->group_count; i++)
        if (strcmp(job->in->stove->groups[i].name, group) == 0) return job->in->stove->groups[i].title;
    return group;
}

/* Whether another whole body has the group, too. */
static bool shared(const join_job *job, size_t body)
{
    for (size_t i = 0; i < job->body_count; i++)
        if (i != body && !job->bodies[i].ahead && strcmp(job->bodies[i].group, job->bodies[body].group) == 0)
            return true;
    return false;
}

static sw_status name(sw_run *run, join_job *job, size_t i)
{
    const join_body *body = &job->bodies[i];
    sw_join_body *told = &job->told[i];
    const char *first = job->in->stove->pieces[told->pieces[0]].name;
    const char *second = told->piece_count > 1 ? job->in->stove->pieces[told->pieces[1]].name : "its own edges";
    const char *more = told->piece_count > 2 ? " and more" : "";
    const char *title = title_of(job, body->group);
    if (body->group[0] == '\0')
        told->name = sw_text_format(run, run->keep, "joined: %s with %s%s", first, second, more);
    else if (body->ahead)
        told->name = sw_text_format(run, run->keep, "ahead: %s with %s%s", first, second, more);
    else
        told->name = shared(job, i) ? sw_text_format(run, run->keep, "%s: %s", title, first) : title;
    return told->name == NULL ? SW_NO_MEMORY : SW_OK;
}

static sw_status tell(sw_run *run, join_job *job, size_t i)
{
    const join_body *body = &job->bodies[i];
    sw_join_body *told = &job->told[i];
    size_t *seams = SW_KEEP(run, body->seam_count, size_t);
    if (seams == NULL) return SW_NO_MEMORY;
    if (body->seam_count > 0) memcpy(seams, body->seams, body->seam_count * sizeof *seams);
    *told = (sw_join_body){.group = body->group, .ahead = body->ahead, .seams = seams, .seam_count = body->seam_count};
    SW_TRY(set_up(run, job, body, told));
    weigh(job, body, told);
    return name(run, job, i);
}

sw_status join_tell_bodies(sw_run *run, join_job *job)
{
    job->told = SW_KEEP(run, job->body_count, sw_join_body);
    if (job->told == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < job->body_count; i++) SW_TRY(tell(run, job, i));
    return SW_OK;
}
