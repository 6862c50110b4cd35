/* cut_clear.h: how far a lead-in is from what it must not touch. For this folder only. */
#ifndef SW_MAKING_CUT_CUT_CLEAR_H
#define SW_MAKING_CUT_CUT_CLEAR_H

#include "making/cut/cut_parts.h"

typedef struct cut_near { /* what lies within reach of a loop */
    const cut_job *job;
    size_t own;          /* part of the loop */
    const size_t *parts; /* [count] with the own part */
    size_t count;
} cut_near;

sw_status cut_near_make(sw_run *run, const cut_job *job, const cut_loop *loop, cut_near *near);

/* Least distance less what is needed at p: half a kerf from the own piece, a kerf from other pieces and from the
 * sheet's edge and cut-outs; negative = too near. */
double cut_clearance(const cut_near *near, sw_point p);
/* p lies on the sheet and in no piece. */
bool cut_on_scrap(const cut_near *near, sw_point p);
/* Whether the whole segment keeps its distance: exact to a hundredth, by halving (distance changes at most as fast as
 * the point moves). */
bool cut_segment_clear(const cut_near *near, sw_vertex from, sw_point to);

#endif
