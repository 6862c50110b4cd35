/* join_bodies.c: what is welded together at one time.
 *
 * Pieces of one group that seams connect make a body; bodies of several groups that seams connect make the last one.
 * Seams that no torch reaches in their body are welded ahead: their pieces alone, in bodies as these seams hang them
 * together, are tried again, and so on inward. The same is done with the groups' bodies and the seams between them; groups
 * that shut each other off are built up as one. No piece is in two bodies side by side: where the seams out of reach hang
 * all pieces of a body together, the one welded last is out of reach in every order, and join_rings.c has given it up
 * before. What is welded ahead comes first. */
#include "making/join/join_bodies_parts.h"

#include <string.h>

static const char *group_of(const join_job *job, size_t instance)
{
    return job->instances[instance].piece->piece->group;
}

static bool within(const gatherer *g, size_t seam)
{
    const join_seam *s = &g->job->seams[seam];
    return g->side[s->a] == g->side[s->b];
}

static sw_status add_body(const gatherer *g, join_body body)
{
    join_job *job = g->job;
    join_body *bodies = sw_grow(g->run, g->run->scratch, job->bodies, job->body_count, &job->body_room, sizeof *bodies);
    if (bodies == NULL) return SW_NO_MEMORY;
    job->bodies = bodies;
    bodies[job->body_count++] = body;
    return SW_OK;
}

/* ---- one body, and what is welded ahead of it -------------------------------------------------------- */

/* The group that all pieces are of; "" when there are several. */
static const char *common_group(const join_job *job, const join_body *body)
{
    const char *first = group_of(job, body->members[0]);
    for (size_t i = 1; i < body->member_count; i++)
        if (strcmp(first, group_of(job, body->members[i])) != 0) return "";
    return first;
}

static sw_status settle(const gatherer *g, join_body body);

/* The pieces of the blocked seams alone, in bodies as these hang together. */
static sw_status peel(const gatherer *g, const join_body *body, const size_t *blocked, size_t count)
{
    if (count == 0) return SW_OK;
    gatherer inner = *g;
    SW_TRY(join_connect(&inner, blocked, count));
    for (size_t i = 0; i < g->job->instance_count; i++) {
        join_body part;
        SW_TRY(join_part(&inner, i, blocked, count, &part));
        if (part.seam_count == 0) continue;
        SW_ASSERT(part.member_count < body->member_count);
        part.group = common_group(g->job, &part);
        part.ahead = true;
        SW_TRY(settle(g, part));
    }
    return SW_OK;
}

/* The points of each seam as it is welded; before, what shuts it off in the smallest body in which it is blocked. */
static sw_status lay(const gatherer *g, const join_body *body, const bool *present)
{
    for (size_t i = 0; i < body->seam_count; i++) {
        join_seam *s = &g->job->seams[body->seams[i]];
        size_t by = SIZE_MAX;
        if (s->given_up || (s->shut == NULL && s->with == present)) continue;
        SW_TRY(join_reach(g->run, g->job, s, present, false)); /* chooses the side */
        if (s->shut == NULL) continue;
        SW_TRY(join_shut_by(g->run, g->job, s, present, s->shut, &by));
        if (by != SIZE_MAX) s->out->ahead_of = g->job->instances[by].label;
        SW_TRY(join_reach(g->run, g->job, s, present, false));
    }
    return SW_OK;
}

static void note_shut(const gatherer *g, const size_t *blocked, size_t count, const bool *present)
{
    for (size_t i = 0; i < count; i++) g->job->seams[blocked[i]].shut = present;
}

/* Makes the body of the seams that the torch reaches in it, and before it those of the seams that it does not. */
static sw_status settle(const gatherer *g, join_body body)
{
    size_t *blocked = SW_SCRATCH(g->run, body.seam_count, size_t), *kept = SW_SCRATCH(g->run, body.seam_count, size_t);
    bool *present = SW_SCRATCH(g->run, g->job->instance_count, bool);
    size_t count = 0;
    if (blocked == NULL || kept == NULL || present == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < body.seam_count; i++) g->job->seams[body.seams[i]].with = NULL;
    SW_TRY(join_try(g, &body, present, blocked, &count));
    if (!body.ahead) SW_TRY(join_give_up(g, blocked, &count));
    note_shut(g, blocked, count, present);
    SW_TRY(peel(g, &body, blocked, count));
    body.seam_count = join_without(body.seams, body.seam_count, blocked, count, kept);
    body.seams = kept;
    SW_TRY(lay(g, &body, present));
    return body.seam_count > 0 ? add_body(g, body) : SW_OK;
}

/* ---- groups, then what joins them ------------------------------------------------------------------------ */

static sw_status settle_parts(const gatherer *g, const size_t *seams, size_t count)
{
    for (size_t i = 0; i < g->job->instance_count; i++) {
        join_body body;
        SW_TRY(join_part(g, i, seams, count, &body));
        if (body.seam_count == 0) continue;
        body.group = common_group(g->job, &body);
        SW_TRY(settle(g, body));
    }
    return SW_OK;
}

static size_t chosen(const gatherer *g, bool inside, size_t *out)
{
    size_t count = 0;
    for (size_t i = 0; i < g->job->seam_count; i++)
        if (g->job->seams[i].count > 0 && within(g, i) == inside) out[count++] = i;
    return count;
}

static void unite(gatherer *g, size_t seam)
{
    size_t a = g->side[g->job->seams[seam].a], b = g->side[g->job->seams[seam].b];
    for (size_t i = 0; i < g->job->instance_count; i++)
        if (g->side[i] == b) g->side[i] = a;
}

static void take_groups(gatherer *g)
{
    for (size_t i = 0; i < g->job->instance_count; i++) {
        size_t first = 0;
        while (strcmp(group_of(g->job, first), group_of(g->job, i)) != 0) first++;
        g->side[i] = first;
    }
}

static void take_welded(gatherer *g, size_t *room)
{
    g->welded_count = chosen(g, true, room);
    g->welded = room;
}

/* Groups are one where seams between them shut each other off once the groups are closed, but not by themselves. */
static sw_status unite_groups(gatherer *g, size_t *inside)
{
    size_t *across = SW_SCRATCH(g->run, g->job->seam_count, size_t);
    size_t *ring = SW_SCRATCH(g->run, g->job->seam_count, size_t);
    if (across == NULL || ring == NULL) return SW_NO_MEMORY;
    for (take_groups(g);;) {
        size_t count = chosen(g, false, across), ring_count = 0;
        take_welded(g, inside);
        SW_TRY(join_drop_hopeless(g, across, &count));
        SW_TRY(join_find_ring(g, across, count, ring, &ring_count));
        if (ring_count == 0) return SW_OK;
        for (size_t i = 0; i < ring_count; i++) unite(g, ring[i]);
    }
}

static sw_status within_groups(gatherer *g, size_t *seams)
{
    g->welded_count = 0;
    size_t count = chosen(g, true, seams);
    SW_TRY(join_connect(g, seams, count));
    return settle_parts(g, seams, count);
}

static sw_status across_groups(gatherer *g, size_t *inside, size_t *seams)
{
    take_welded(g, inside);
    size_t count = chosen(g, false, seams);
    SW_TRY(join_connect(g, seams, count));
    return settle_parts(g, seams, count);
}

/* Within groups ahead first, then the groups, then what joins them; otherwise as found. */
static int rank(const join_body *b)
{
    return b->group[0] == '\0' ? 2 : b->ahead ? 0 : 1;
}

static void sort(join_job *job)
{
    for (size_t i = 1; i < job->body_count; i++) {
        join_body body = job->bodies[i];
        size_t k = i;
        for (; k > 0 && rank(&job->bodies[k - 1]) > rank(&body); k--) job->bodies[k] = job->bodies[k - 1];
        job->bodies[k] = body;
    }
    for (size_t b = 0; b < job->body_count; b++)
        for (size_t i = 0; i < job->bodies[b].seam_count; i++) job->seams[job->bodies[b].seams[i]].out->body = b;
}

sw_status join_bodies(sw_run *run, join_job *job)
{
    gatherer g = {.run = run, .job = job, .side = SW_SCRATCH(run, job->instance_count, size_t)};
    size_t *seams = SW_SCRATCH(run, job->seam_count, size_t), *inside = SW_SCRATCH(run, job->seam_count, size_t);
    if (g.side == NULL || seams == NULL || inside == NULL) return SW_NO_MEMORY;
    SW_TRY(join_known_make(&g));
    SW_TRY(unite_groups(&g, inside));
    SW_TRY(within_groups(&g, seams));
    SW_TRY(across_groups(&g, inside, seams));
    sort(job);
    for (size_t i = 0; i < job->seam_count; i++) {
        join_seam *s = &job->seams[i];
        s->out->points = s->sides[s->side];
        if (s->count == 0) s->out->body = SIZE_MAX;
    }
    return SW_OK;
}
