/* join_together.c: pieces as seams hang them together, and which of the seams the torch reaches with them in place. */
#include "making/join/join_bodies_parts.h"

#include <string.h>

static size_t root_of(const gatherer *g, size_t i)
{
    while (g->root[i] != i) i = g->root[i] = g->root[g->root[i]];
    return i;
}

static void hang_together(gatherer *g, const size_t *seams, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        const join_seam *s = &g->job->seams[seams[i]];
        size_t a = root_of(g, s->a), b = root_of(g, s->b);
        g->root[a > b ? a : b] = a > b ? b : a;
    }
}

sw_status join_connect(gatherer *g, const size_t *seams, size_t count)
{
    g->root = SW_SCRATCH(g->run, g->job->instance_count, size_t);
    if (g->root == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < g->job->instance_count; i++) g->root[i] = i;
    hang_together(g, g->welded, g->welded_count);
    hang_together(g, seams, count);
    return SW_OK;
}

sw_status join_part(const gatherer *g, size_t root, const size_t *from, size_t count, join_body *body)
{
    *body = (join_body){.group = ""};
    if (g->root[root] != root) return SW_OK;
    size_t *members = SW_SCRATCH(g->run, g->job->instance_count, size_t), *seams = SW_SCRATCH(g->run, count, size_t);
    if (members == NULL || seams == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < count; i++)
        if (root_of(g, g->job->seams[from[i]].a) == root) seams[body->seam_count++] = from[i];
    for (size_t i = 0; i < g->job->instance_count; i++)
        if (root_of(g, i) == root) members[body->member_count++] = i;
    body->members = members;
    body->seams = seams;
    return SW_OK;
}

sw_status join_try(const gatherer *g, const join_body *body, bool *present, size_t *blocked, size_t *blocked_count)
{
    memset(present, 0, g->job->instance_count * sizeof *present);
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
