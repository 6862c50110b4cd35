/* join_bodies.c: what is welded together at one time.
 *
 * Pieces of one group that seams connect make a body; bodies of several groups that seams connect make the last one.
 * A seam that no torch reaches in its body is welded ahead: the pieces of such seams alone are tried as bodies of their
 * own, then the two pieces of the seam. Bodies ahead come first. */
#include "making/join/join_parts.h"

#include <string.h>

typedef struct gatherer {
    sw_run *run;
    join_job *job;
    size_t *root; /* [instances] union of connected ones */
} gatherer;

static size_t root_of(const gatherer *g, size_t i)
{
    while (g->root[i] != i) i = g->root[i] = g->root[g->root[i]];
    return i;
}

static const char *group_of(const join_job *job, size_t instance)
{
    return job->instances[instance].piece->piece->group;
}

static bool within_group(const join_job *job, const join_seam *s)
{
    return strcmp(group_of(job, s->a), group_of(job, s->b)) == 0;
}

static void connect(gatherer *g, const size_t *seams, size_t count)
{
    for (size_t i = 0; i < g->job->instance_count; i++) g->root[i] = i;
    for (size_t i = 0; i < count; i++) {
        const join_seam *s = &g->job->seams[seams[i]];
        size_t a = root_of(g, s->a), b = root_of(g, s->b);
        g->root[a > b ? a : b] = a > b ? b : a;
    }
}

static sw_status members_of(const gatherer *g, size_t root, join_body *body)
{
    size_t *members = SW_SCRATCH(g->run, g->job->instance_count, size_t);
    if (members == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < g->job->instance_count; i++)
        if (root_of(g, i) == root) members[body->member_count++] = i;
    body->members = members;
    return SW_OK;
}

static sw_status seams_of(const gatherer *g, size_t root, const size_t *from, size_t count, join_body *body)
{
    size_t *seams = SW_SCRATCH(g->run, count, size_t);
    if (seams == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < count; i++)
        if (root_of(g, g->job->seams[from[i]].a) == root) seams[body->seam_count++] = from[i];
    body->seams = seams;
    return SW_OK;
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

/* ---- which seams the torch reaches with which pieces in place ---------------------------------------- */

static sw_status try_seams(const gatherer *g, const join_body *body, size_t *blocked, size_t *blocked_count)
{
    bool *present = SW_SCRATCH(g->run, g->job->instance_count, bool);
    if (present == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < body->member_count; i++) present[body->members[i]] = true;
    *blocked_count = 0;
    for (size_t i = 0; i < body->seam_count; i++) {
        join_seam *seam = &g->job->seams[body->seams[i]];
        SW_TRY(join_reach(g->run, g->job, seam, present));
        if (!seam->out->reached) blocked[(*blocked_count)++] = body->seams[i];
        if (sw_run_cancelled(g->run)) return SW_CANCELLED;
    }
    return SW_OK;
}

static sw_status pair_body(const gatherer *g, size_t seam, const char *group, join_body *body)
{
    size_t *members = SW_SCRATCH(g->run, 2, size_t), *seams = SW_SCRATCH(g->run, 1, size_t);
    if (members == NULL || seams == NULL) return SW_NO_MEMORY;
    const join_seam *s = &g->job->seams[seam];
    members[0] = s->a < s->b ? s->a : s->b;
    members[1] = s->a < s->b ? s->b : s->a;
    seams[0] = seam;
    *body = (join_body){members, s->a == s->b ? 1 : 2, seams, 1, group, true};
    return SW_OK;
}

typedef struct left_over { /* seams that no torch reaches in any body; room for all */
    size_t *seams;
    size_t count;
} left_over;

/* The two pieces alone. A seam that is blocked even so stays where it was and keeps what was in its way there. */
static sw_status try_pair(const gatherer *g, size_t seam, const char *group, bool *done)
{
    join_body body;
    size_t blocked, count;
    join_seam *s = &g->job->seams[seam];
    sw_join_seam before = *s->out;
    size_t blocker = s->blocker;
    SW_TRY(pair_body(g, seam, group, &body));
    SW_TRY(try_seams(g, &body, &blocked, &count));
    *done = count == 0;
    if (*done) {
        if (before.ahead_of[0] == '\0' && blocker != SIZE_MAX) s->out->ahead_of = g->job->instances[blocker].label;
        return add_body(g, body);
    }
    s->out->in_the_way = s->blocker != SIZE_MAX ? g->job->instances[s->blocker].label : "";
    return SW_OK;
}

static sw_status settle(const gatherer *g, join_body body, left_over *left);

/* The pieces of the blocked seams alone, in bodies as they hang together. */
static sw_status peel(const gatherer *g, const join_body *body, const size_t *blocked, size_t count, left_over *left)
{
    gatherer inner = {g->run, g->job, SW_SCRATCH(g->run, g->job->instance_count, size_t)};
    if (inner.root == NULL) return SW_NO_MEMORY;
    connect(&inner, blocked, count);
    for (size_t i = 0; i < g->job->instance_count; i++) {
        if (root_of(&inner, i) != i) continue;
        join_body part = {.group = body->group, .ahead = true};
        SW_TRY(seams_of(&inner, i, blocked, count, &part));
        if (part.seam_count == 0) continue;
        SW_TRY(members_of(&inner, i, &part));
        SW_TRY(settle(g, part, left));
    }
    return SW_OK;
}

static size_t kept_seams(const size_t *from, size_t count, const size_t *gone, size_t gone_count, size_t *out)
{
    size_t kept = 0;
    for (size_t i = 0; i < count; i++) {
        bool found = false;
        for (size_t k = 0; k < gone_count && !found; k++) found = gone[k] == from[i];
        if (!found) out[kept++] = from[i];
    }
    return kept;
}

static size_t distinct_members(const gatherer *g, const size_t *seams, size_t count, bool *seen)
{
    size_t n = 0;
    memset(seen, 0, g->job->instance_count * sizeof *seen);
    for (size_t i = 0; i < count; i++) {
        const join_seam *s = &g->job->seams[seams[i]];
        if (!seen[s->a]) n++;
        seen[s->a] = true;
        if (!seen[s->b]) n++;
        seen[s->b] = true;
    }
    return n;
}

static void note_ahead(const gatherer *g, const size_t *seams, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        const join_seam *s = &g->job->seams[seams[i]];
        if (s->blocker != SIZE_MAX && s->out->ahead_of[0] == '\0')
            s->out->ahead_of = g->job->instances[s->blocker].label;
    }
}

/* The two pieces of each blocked seam by themselves. */
static sw_status pairs(const gatherer *g, const join_body *body, const size_t *blocked, size_t count, left_over *left)
{
    for (size_t i = 0; i < count; i++) {
        bool done = false;
        SW_TRY(try_pair(g, blocked[i], body->group, &done));
        if (done) continue;
        g->job->seams[blocked[i]].out->ahead_of = "";
        left->seams[left->count++] = blocked[i];
    }
    return SW_OK;
}

/* Makes the body of the seams that the torch reaches in it, and before it those of the seams that it does not. */
static sw_status settle(const gatherer *g, join_body body, left_over *left)
{
    size_t *blocked = SW_SCRATCH(g->run, body.seam_count, size_t), *kept = SW_SCRATCH(g->run, body.seam_count, size_t);
    bool *seen = SW_SCRATCH(g->run, g->job->instance_count, bool);
    left_over mine = {SW_SCRATCH(g->run, body.seam_count, size_t), 0};
    size_t count = 0;
    if (blocked == NULL || kept == NULL || seen == NULL || mine.seams == NULL) return SW_NO_MEMORY;
    SW_TRY(try_seams(g, &body, blocked, &count));
    size_t kept_count = kept_seams(body.seams, body.seam_count, blocked, count, kept);
    note_ahead(g, blocked, count);
    if (count > 0 && distinct_members(g, blocked, count, seen) < body.member_count)
        SW_TRY(peel(g, &body, blocked, count, &mine));
    else
        SW_TRY(pairs(g, &body, blocked, count, &mine));
    for (size_t i = 0; i < mine.count; i++) {
        if (body.ahead)
            left->seams[left->count++] = mine.seams[i];
        else
            kept[kept_count++] = mine.seams[i];
    }
    body.seams = kept;
    body.seam_count = kept_count;
    return kept_count > 0 ? add_body(g, body) : SW_OK;
}

/* ---- groups, then what joins them ------------------------------------------------------------------------ */

static sw_status settle_parts(const gatherer *g, const size_t *seams, size_t count, bool groups)
{
    for (size_t i = 0; i < g->job->instance_count; i++) {
        if (root_of(g, i) != i) continue;
        join_body body = {.group = groups ? group_of(g->job, i) : ""};
        SW_TRY(seams_of(g, i, seams, count, &body));
        if (body.seam_count == 0) continue;
        SW_TRY(members_of(g, i, &body));
        SW_TRY(settle(g, body, NULL));
    }
    return SW_OK;
}

static size_t chosen(const join_job *job, bool within, size_t *out)
{
    size_t count = 0;
    for (size_t i = 0; i < job->seam_count; i++)
        if (job->seams[i].count > 0 && within_group(job, &job->seams[i]) == within) out[count++] = i;
    return count;
}

static sw_status across_groups(gatherer *g, const size_t *across, size_t across_count)
{
    size_t *all = SW_SCRATCH(g->run, g->job->seam_count, size_t), count = 0;
    if (all == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < g->job->seam_count; i++)
        if (g->job->seams[i].count > 0) all[count++] = i;
    connect(g, all, count);
    return settle_parts(g, across, across_count, false);
}

/* Ahead first, then the groups, then what joins them; otherwise as found. */
static int rank(const join_body *b)
{
    return b->ahead ? 0 : b->group[0] != '\0' ? 1 : 2;
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
    gatherer g = {run, job, SW_SCRATCH(run, job->instance_count, size_t)};
    size_t *within = SW_SCRATCH(run, job->seam_count, size_t), *across = SW_SCRATCH(run, job->seam_count, size_t);
    if (g.root == NULL || within == NULL || across == NULL) return SW_NO_MEMORY;
    size_t within_count = chosen(job, true, within), across_count = chosen(job, false, across);
    connect(&g, within, within_count);
    SW_TRY(settle_parts(&g, within, within_count, true));
    SW_TRY(across_groups(&g, across, across_count));
    sort(job);
    for (size_t i = 0; i < job->seam_count; i++) {
        join_seam *s = &job->seams[i];
        s->out->points = s->sides[s->side];
        if (s->count == 0) s->out->body = SIZE_MAX;
    }
    return SW_OK;
}
