/* join_bodies_parts.h: pieces as seams hang them together, and which seams the torch reaches with them in place; for
 * join_bodies.c, join_together.c and join_rings.c alone. */
#ifndef SW_MAKING_JOIN_JOIN_BODIES_PARTS_H
#define SW_MAKING_JOIN_JOIN_BODIES_PARTS_H

#include "making/join/join_parts.h"

enum { JOIN_KNOWN = 4 }; /* ours: more are seldom asked about again */

typedef struct join_known {    /* pieces with which a seam was found blocked [0], reached [1]; the oldest is given up */
    bool *sets[2][JOIN_KNOWN]; /* [instances] */
    size_t count[2];
} join_known;

typedef struct gatherer {
    sw_run *run;
    join_job *job;
    size_t *root;         /* [instances] union of connected ones */
    size_t *side;         /* [instances] the group, or groups united, that it is of */
    const size_t *welded; /* [welded_count] seams that are welded already: what they hang together stays whole */
    size_t welded_count;
    join_known *known; /* [seams] */
} gatherer;

/* join_together.c: new roots in run->scratch: pieces that the seams, or those welded, hang together have the same. */
sw_status join_connect(gatherer *g, const size_t *seams, size_t count);
/* The body of the pieces with this root and of their seams among from[count]; none of both when it is no root. */
sw_status join_part(const gatherer *g, size_t root, const size_t *from, size_t count, join_body *body);
/* from[count] without gone[]; returns how many stay. out may be from. */
size_t join_without(const size_t *from, size_t count, const size_t *gone, size_t gone_count, size_t *out);
sw_status join_known_make(gatherer *g);
/* Whether the torch reaches the seam; what was found of other pieces may tell: more never open a way, fewer never shut one.
 * The seam's points are for this only when it had to be tried. */
sw_status join_reached(const gatherer *g, size_t seam, const bool *present, bool *reached);
/* Fills present[instances] and the seams of the body that no torch reaches with all of it in place. */
sw_status join_try(const gatherer *g, const join_body *body, bool *present, size_t *blocked, size_t *blocked_count);

/* join_rings.c: takes out of blocked[*count] what no torch reaches with the two pieces alone. */
sw_status join_drop_hopeless(const gatherer *g, size_t *blocked, size_t *count);
/* A ring among the seams, none of them without the others; *count 0 = none. ring[] has room for all. */
sw_status join_find_ring(const gatherer *g, const size_t *seams, size_t seam_count, size_t *ring, size_t *count);
/* What is hopeless, and one seam of each ring: what stays can be welded ahead. Those taken out have what is in their way. */
sw_status join_give_up(const gatherer *g, size_t *blocked, size_t *count);

#endif
