/* nest_search_parts.h: makes a rectangle of given width and movable end shorter. For making/nest alone.
 *
 * Every worker has a layout of its own and tries rounds: the end is moved in a little, then the pieces are pulled apart.
 * First it explores: what cannot be pulled apart goes to a pool, from which the next rounds start with two large pieces
 * swapped. Then it presses: ever smaller steps from the best layout. After each stretch of rounds the workers meet: who
 * is far behind takes the best layout over. So the result depends on seed, workers and rounds alone. */
#ifndef SW_MAKING_NEST_NEST_SEARCH_PARTS_H
#define SW_MAKING_NEST_NEST_SEARCH_PARTS_H

#include "making/nest/nest_separate_parts.h"

typedef struct nest_search {
    sw_run *run;
    const char *name;
    const nest_table *table;
    const uint32_t *kind; /* [count] shape of each piece */
    size_t count, workers;
    double width_mm, area_mm2;
    uint64_t seed, rounds; /* rounds a worker; 0 = until until_s */
    double begun_s, until_s;
    nest_state best; /* in: a legal layout; out: the best */
    double best_mm;
    bool best_counts;      /* workers keep it when a random start of their own is no shorter */
    uint64_t looks, round; /* out: positions evaluated, rounds of all workers */
} nest_search;

/* SW_NO_MEMORY. A cancel ends it early with the best so far. */
sw_status nest_search_run(nest_search *search);

#endif
