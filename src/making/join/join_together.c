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
    size_t own = 0;
    if (g->root[root] != root) return SW_OK;
    for (size_t i = 0; i < count; i++) own += root_of(g, g->job->seams[from[i]].a) == root;
    if (own == 0) return SW_OK;
    size_t *members = SW_SCRATCH(g->run, g->job->instance_count, size_t), *seams = SW_SCRATCH(g->run, own, size_t);
    if (members == NULL || seams == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < count; i++)
        if (root_of(g, g->job->seams[from[i]].a) == root) seams[body->seam_count++] = from[i];
    for (size_t i = 0; i < g->job->instance_count; i++)
        if (root_of(g, i) == root) members[body->member_count++] = i;
    body->members = members;
    body->seams = seams;
    return SW_OK;
}

size_t join_without(const size_t *from, size_t count, const size_t *gone, size_t gone_count, size_t *out)
{
    size_t kept = 0;
    for (size_t i = 0; i < count; i++) {
        bool found = false;
        for (size_t k = 0; k < gone_count && !found; k++) found = gone[k] == from[i];
        if (!found) out[kept++] = from[i];
    }
    return kept;
}

/* ---- what the torch reaches ----------------------------------------------------------------------------- */

sw_status join_known_make(gatherer *g)
{
    g->known = SW_SCRATCH(g->run, g->job->seam_count, join_known);
    if (g->known == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < g->job->seam_count * 2 * JOIN_KNOWN; i++) {
        bool *set = SW_SCRATCH(g->run, g->job->instance_count, bool);
        if (set == NULL) return SW_NO_MEMORY;
        g->known[i / (2 * JOIN_KNOWN)].sets[i % 2][i / 2 % JOIN_KNOWN] = set;
    }
    return SW_OK;
}

static bool all_in(const bool *few, const bool *many, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (few[i] && !many[i]) return false;
    return true;
}

static bool is_known(const gatherer *g, size_t seam, const bool *present, bool reached)
{
    const join_known *k = &g->known[seam];
    for (size_t i = 0; i < k->count[reached] && i < JOIN_KNOWN; i++) {
        const bool *set = k->sets[reached][i];
        if (all_in(reached ? present : set, reached ? set : present, g->job->instance_count)) return true;
    }
    return false;
}

static sw_status reach_and_note(const gatherer *g, size_t seam, const bool *present, bool *reached)
{
    join_known *k = &g->known[seam];
    SW_TRY(join_reach(g->run, g->job, &g->job->seams[seam], present, true));
    *reached = g->job->seams[seam].out->reached;
    memcpy(k->sets[*reached][k->count[*reached]++ % JOIN_KNOWN], present, g->job->instance_count * sizeof *present);
    return sw_run_cancelled(g->run) ? SW_CANCELLED : SW_OK;
}

sw_status join_reached(const gatherer *g, size_t seam, const bool *present, bool *reached)
{
    *reached = is_known(g, seam, present, true);
    if (*reached || is_known(g, seam, present, false)) return SW_OK;
    return reach_and_note(g, seam, present, reached);
}

sw_status join_try(const gatherer *g, const join_body *body, bool *present, size_t *blocked, size_t *blocked_count)
{
    memset(present, 0, g->job->instance_count * sizeof *present);
    for (size_t i = 0; i < body->member_count; i++) present[body->members[i]] = true;
    *blocked_count = 0;
    for (size_t i = 0; i < body->seam_count; i++) {
        bool reached = false;
        SW_TRY(join_reached(g, body->seams[i], present, &reached));
        if (!reached) blocked[(*blocked_count)++] = body->seams[i];
    }
    return SW_OK;
}
