/* cut_clear.h: how far a lead-in is from what it must not touch. For this folder only. */
#ifndef SW_MAKING_CUT_CUT_CLEAR_H
#define SW_MAKING_CUT_CUT_CLEAR_H

#include "making/cut/cut_parts.h"

typedef struct cut_edge { /* one segment of a piece's or the sheet's contours */
    sw_point a, b;
    sw_arc arc; /* radius INFINITY: straight */
    sw_box box;
    size_t part; /* CUT_SHEET: of the sheet */
} cut_edge;

#define CUT_SHEET SIZE_MAX

typedef struct cut_edges {
    cut_edge *items; /* [count] */
    size_t count, room;
} cut_edges;

typedef struct cut_near { /* what lies within reach of a loop */
    const cut_job *job;
    size_t own; /* part of the loop */
    double reach_mm;
    const cut_edge **edges; /* [count] */
    size_t count;
    const cut_edge **local; /* [local_count] of these, within reach of the point in focus */
    size_t local_count;
} cut_near;

sw_status cut_edges_make(sw_run *run, const cut_job *job, cut_edges *edges); /* all of the sheet, in run->scratch */
sw_status cut_near_make(sw_run *run, const cut_job *job, const cut_edges *edges, const cut_loop *loop, cut_near *near);

/* Everything after is asked within reach_mm of p. */
void cut_near_focus(cut_near *near, sw_point p);
/* Least distance less what is needed at p: half a kerf from the own piece, a kerf from other pieces and from the
 * sheet's edge and cut-outs; negative = too near; at most reach_mm. */
double cut_clearance(const cut_near *near, sw_point p);
/* p lies on the sheet and in no piece. */
bool cut_on_scrap(const cut_near *near, sw_point p);
/* Whether the whole segment keeps its distance: exact to a hundredth, by halving (distance changes at most as fast as
 * the point moves). */
bool cut_segment_clear(const cut_near *near, sw_vertex from, sw_point to);

#endif
