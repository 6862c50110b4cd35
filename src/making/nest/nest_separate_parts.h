/* nest_separate_parts.h: pulls a crowd apart until nothing overlaps, or gives up. For making/nest alone. */
#ifndef SW_MAKING_NEST_NEST_SEPARATE_PARTS_H
#define SW_MAKING_NEST_NEST_SEPARATE_PARTS_H

#include "making/nest/nest_crowd_parts.h"

typedef struct nest_patience {
    int passes;        /* without a gain of 2 %, then a new start from the best so far */
    int starts;        /* without a gain, then it is given up */
    double until_s;    /* sw_seconds() */
    const sw_run *run; /* whose cancel flag counts */
} nest_patience;

/* Works on crowd->now. Gives whether it became legal; *best is the state of least overlap, *overlap_mm what it has. */
bool nest_separate(nest_crowd *crowd, const nest_patience *patience, nest_state *best, double *overlap_mm);

/* Swaps two large pieces of different shape: the way out of a state that cannot be pulled apart. */
void nest_disturb(nest_crowd *crowd);

#endif
