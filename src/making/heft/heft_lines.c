/* heft_lines.c: every piece and item in its places, and the sums over lines, groups and the stove. */
#include "making/heft/heft_parts.h"

#include <string.h>

static sw_status make_room(sw_run *run, heft_job *job)
{
    const sw_stove *stove = job->in->stove;
    size_t total = 0;
    for (size_t i = 0; i < stove->piece_count; i++) total += stove->pieces[i].count;
    for (size_t i = 0; i < stove->item_count; i++) total += stove->items[i].count;
    job->placed = SW_SCRATCH(run, total, sw_body);
    job->groups = SW_SCRATCH(run, total, const char *);
    return job->placed == NULL || job->groups == NULL ? SW_NO_MEMORY : SW_OK;
}

/* One body in all its places: appended, and their sum given back as a line. */
static sw_heft_line place_all(heft_job *job, const char *name, const char *group, sw_body one, const sw_frame *frames,
                              size_t count)
{
    sw_body *first = job->placed + job->placed_count;
    for (size_t k = 0; k < count; k++) {
        first[k] = sw_body_moved(one, frames[k]);
        job->groups[job->placed_count++] = group;
    }
    return (sw_heft_line){name, sw_body_sum(first, count), count};
}

static sw_status piece_lines(sw_run *run, heft_job *job)
{
    const sw_stove *stove = job->in->stove;
    sw_heft_line *lines = SW_KEEP(run, stove->piece_count, sw_heft_line);
    if (lines == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < stove->piece_count; i++) {
        const sw_piece *p = &stove->pieces[i];
        lines[i] = place_all(job, p->name, p->group, job->in->pieces[i], p->placements, p->count);
    }
    job->result->pieces = lines;
    job->result->piece_count = stove->piece_count;
    return SW_OK;
}

/* Rope and what has no shape is a point at the origin of its place. */
sw_body heft_item_body(const sw_item *item)
{
    if (item->shape.outline.n == 0) return (sw_body){.mass_kg = item->mass_kg};
    return sw_body_plate(item->mass_kg, &item->shape, item->thickness_mm);
}

static sw_status item_lines(sw_run *run, heft_job *job)
{
    const sw_stove *stove = job->in->stove;
    sw_heft_line *lines = SW_KEEP(run, stove->item_count, sw_heft_line);
    if (lines == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < stove->item_count; i++) {
        const sw_item *item = &stove->items[i];
        lines[i] = place_all(job, item->name, item->group, heft_item_body(item), item->placements, item->count);
    }
    job->result->items = lines;
    job->result->item_count = stove->item_count;
    return SW_OK;
}

static sw_heft_line group_line(const heft_job *job, const char *name, sw_body *members)
{
    size_t count = 0;
    for (size_t i = 0; i < job->placed_count; i++)
        if (strcmp(job->groups[i], name) == 0) members[count++] = job->placed[i];
    return (sw_heft_line){name, sw_body_sum(members, count), count};
}

static sw_status group_lines(sw_run *run, heft_job *job)
{
    const sw_stove *stove = job->in->stove;
    sw_heft_line *lines = SW_KEEP(run, stove->group_count, sw_heft_line);
    sw_body *members = SW_SCRATCH(run, job->placed_count, sw_body);
    if (lines == NULL || members == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < stove->group_count; i++) lines[i] = group_line(job, stove->groups[i].name, members);
    job->result->groups = lines;
    job->result->group_count = stove->group_count;
    return SW_OK;
}

sw_status heft_lines(sw_run *run, heft_job *job)
{
    SW_TRY(make_room(run, job));
    SW_TRY(piece_lines(run, job));
    SW_TRY(item_lines(run, job));
    SW_TRY(group_lines(run, job));
    job->result->stove = sw_body_sum(job->placed, job->placed_count);
    return SW_OK;
}
