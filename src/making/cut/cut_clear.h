/* cut_clear.h: how far a lead-in is from what it must not touch. For this folder only. */
#ifndef SW_MAKING_CUT_CUT_CLEAR_H
#define SW_MAKING_CUT_CUT_CLEAR_H

#include "making/cut/cut_parts.h"

typedef struct cut_near { /* what a lead-in of one loop could touch beside the own piece */
    const cut_job *job;
    double reach_mm;           /* no lead-in, with the gap it needs, goes farther beyond its loop's box */
    size_t part;               /* of the loop */
    const cut_place **of_part; /* [part_near] other parts within reach of the part */
    const cut_place **of_loop; /* [count] of these, within reach of the loop */
    size_t part_near, count;
    bool covered; /* the part lies on the steel of another: nothing about it is clear */
    bool sheet;   /* the sheet's edge or a cut-out of it may be within reach too */
} cut_near;

sw_status cut_near_make(sw_run *run, const cut_job *job, cut_near *near); /* room for all loops, in run->scratch */
void cut_near_turn_to(cut_near *near, const cut_loop *loop);
static inline bool cut_alone(const cut_near *near)
{
    return near->count == 0 && !near->sheet;
}

/* The lead-in starts on scrap and keeps half a kerf from its own piece, to a hundredth. */
bool cut_clear_of_own(const cut_job *job, const cut_shape *shape, const cut_track *track, const cut_lead *lead);
/* It starts on the sheet and in no other piece, and keeps a kerf from them and the sheet's edges, to a hundredth. */
bool cut_clear_of_others(const cut_near *near, const cut_lead *lead, sw_point by);
/* Least distance less what is needed where the lead-in starts; negative = too near; at most the reach. Where that is no
 * scrap, less than minus the lead-in's length. */
double cut_start_room(const cut_near *near, const cut_shape *shape, const cut_lead *lead, sw_point by);

#endif
