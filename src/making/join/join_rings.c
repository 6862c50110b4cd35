/* join_rings.c: seams that no order of welding reaches.
 *
 * More pieces in place never open a way for the torch, so a seam is tried best with as few as can be. Pieces once hung
 * together stay in place: nothing is cut apart again. Take pieces that seams hang together, all of these out of reach once
 * all the pieces are in place: whatever the order, one of the seams is the last that makes one body of them, and it is
 * welded with all in place. So there is no order, and that is the
 * only way in which there can be none: anywhere else the seams out of reach fall into smaller bodies, which are welded
 * first. Such seams are a ring. Source: derived. */
#include "making/join/join_bodies_parts.h"

#include <string.h>

typedef struct ring {
    size_t *seams; /* room for all asked about */
    size_t count;  /* 0 = none: there is an order */
} ring;

/* Leaves a seam that is out of reach in every order as it is with these pieces in place. */
static sw_status give_up(const gatherer *g, join_seam *s, const bool *present)
{
    SW_TRY(join_reach(g->run, g->job, s, present, false));
    s->given_up = true;
    s->out->in_the_way = s->blocker != SIZE_MAX ? g->job->instances[s->blocker].label : "";
    return SW_OK;
}

/* ---- the two pieces alone ------------------------------------------------------------------------------ */

/* Gives up a seam that is blocked by its own pieces alone: no others are in place. */
static sw_status try_alone(const gatherer *g, size_t seam, bool *present)
{
    bool reached = false;
    join_seam *s = &g->job->seams[seam];
    memset(present, 0, g->job->instance_count * sizeof *present);
    present[s->a] = present[s->b] = true;
    SW_TRY(join_reached(g, seam, present, &reached));
    return reached ? SW_OK : give_up(g, s, present);
}

sw_status join_drop_hopeless(const gatherer *g, size_t *blocked, size_t *count)
{
    bool *present = SW_SCRATCH(g->run, g->job->instance_count, bool);
    size_t kept = 0;
    if (present == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < *count; i++) {
        const join_seam *s = &g->job->seams[blocked[i]];
        if (!s->given_up) SW_TRY(try_alone(g, blocked[i], present));
        if (!s->given_up) blocked[kept++] = blocked[i];
    }
    *count = kept;
    return SW_OK;
}

/* ---- rings ------------------------------------------------------------------------------------------------ */

/* Whether the seams hang all pieces of the body together. */
static sw_status span(const gatherer *g, const join_body *body, const size_t *seams, size_t count, bool *all)
{
    gatherer inner = *g;
    join_body part;
    SW_TRY(join_connect(&inner, seams, count));
    SW_TRY(join_part(&inner, body->members[0], seams, count, &part));
    *all = part.member_count == body->member_count;
    return SW_OK;
}

static sw_status search(const gatherer *g, const size_t *seams, size_t count, ring *out);

static sw_status search_part(const gatherer *g, const join_body *part, ring *out)
{
    size_t *blocked = SW_SCRATCH(g->run, part->seam_count, size_t), count = 0;
    bool *present = SW_SCRATCH(g->run, g->job->instance_count, bool), all = false;
    if (blocked == NULL || present == NULL) return SW_NO_MEMORY;
    SW_TRY(join_try(g, part, present, blocked, &count));
    if (count == 0) return SW_OK;
    SW_TRY(span(g, part, blocked, count, &all));
    if (!all) return search(g, blocked, count, out);
    memcpy(out->seams, blocked, count * sizeof *blocked);
    out->count = count;
    return SW_OK;
}

/* The first ring among the seams, as the bodies that they hang together are tried, then what is blocked in these. */
static sw_status search(const gatherer *g, const size_t *seams, size_t count, ring *out)
{
    gatherer inner = *g;
    SW_TRY(join_connect(&inner, seams, count));
    for (size_t i = 0; i < g->job->instance_count && out->count == 0; i++) {
        join_body part;
        SW_TRY(join_part(&inner, i, seams, count, &part));
        if (part.seam_count > 0) SW_TRY(search_part(g, &part, out));
    }
    return SW_OK;
}

static sw_status find_ring(const gatherer *g, const size_t *seams, size_t count, ring *out)
{
    size_t mark = sw_arena_mark(g->run->scratch);
    out->count = 0;
    sw_status status = search(g, seams, count, out);
    sw_arena_rewind(g->run->scratch, mark);
    return status;
}

/* Leaves of the ring what is one without any other of its seams; large ones stay as they are. */
static sw_status narrow(const gatherer *g, ring *r)
{
    enum { MOST = 16 }; /* ours: each try costs as many seams */
    size_t rest[MOST], room[MOST];
    if (r->count > MOST) return SW_OK;
    for (size_t i = 0; i < r->count;) {
        ring smaller = {room, 0};
        size_t count = 0;
        for (size_t k = 0; k < r->count; k++)
            if (k != i) rest[count++] = r->seams[k];
        SW_TRY(find_ring(g, rest, count, &smaller));
        i = smaller.count > 0 ? 0 : i + 1;
        if (smaller.count == 0) continue;
        memcpy(r->seams, smaller.seams, smaller.count * sizeof *rest);
        r->count = smaller.count;
    }
    return SW_OK;
}

sw_status join_find_ring(const gatherer *g, const size_t *seams, size_t seam_count, size_t *ring_seams, size_t *count)
{
    ring r = {ring_seams, 0};
    SW_TRY(find_ring(g, seams, seam_count, &r));
    SW_TRY(narrow(g, &r));
    *count = r.count;
    return SW_OK;
}

/* ---- what is given up --------------------------------------------------------------------------------------- */

static size_t shortest(const join_job *job, const ring *r)
{
    size_t best = r->seams[0];
    for (size_t i = 1; i < r->count; i++)
        if (job->seams[r->seams[i]].out->touch_mm < job->seams[best].out->touch_mm - SW_SAME_POINT_MM)
            best = r->seams[i];
    return best;
}

/* Gives the seam up, with all pieces of the ring in place; the others of the ring are what it tells. */
static sw_status shut_off(const gatherer *g, const ring *r, size_t seam)
{
    enum { NAMED = 6 };
    bool *present = SW_SCRATCH(g->run, g->job->instance_count, bool);
    bool *of_ring = SW_SCRATCH(g->run, g->job->seam_count, bool);
    join_seam *s = &g->job->seams[seam];
    if (present == NULL || of_ring == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < r->count; i++) {
        const join_seam *one = &g->job->seams[r->seams[i]];
        present[one->a] = present[one->b] = of_ring[r->seams[i]] = true;
    }
    SW_TRY(give_up(g, s, present));
    s->ring = join_names(g->run, g->job, of_ring, NAMED);
    return s->ring == NULL ? SW_NO_MEMORY : SW_OK;
}

/* Of each ring the shortest seam: least is left unwelded (ours). */
sw_status join_give_up(const gatherer *g, size_t *blocked, size_t *count)
{
    ring r = {SW_SCRATCH(g->run, *count, size_t), 0};
    if (r.seams == NULL) return SW_NO_MEMORY;
    SW_TRY(join_drop_hopeless(g, blocked, count));
    for (;;) {
        SW_TRY(join_find_ring(g, blocked, *count, r.seams, &r.count));
        if (r.count == 0) return SW_OK;
        size_t gone = shortest(g->job, &r);
        SW_TRY(shut_off(g, &r, gone));
        *count = join_without(blocked, *count, &gone, 1, blocked);
    }
}
