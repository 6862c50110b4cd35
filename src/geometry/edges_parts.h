/* edges_parts.h: how prepared edges are kept and gone through; for the files of this folder only.
 *
 * Neighbours in a contour lie near each other, so runs of 4 segments share a box, runs of 4 such runs the next, and so
 * on up to one box: a tree without pointers, made without sorting. */
#ifndef SW_EDGES_PARTS_H
#define SW_EDGES_PARTS_H

#include "geometry/geometry_parts.h"

enum { RUN_BITS = 2, RUN = 1 << RUN_BITS, LEVELS_MAX = 32 };

struct sw_edges {
    const segment *segments;         /* [count], contour after contour */
    const sw_box *boxes[LEVELS_MAX]; /* boxes[k][i]: of the segments i 4^k to (i + 1) 4^k - 1; boxes[0]: of each */
    size_t count;
    unsigned top; /* boxes[top] is one box */
};

/* Goes through the segments at .. end-1 whose boxes meet `box`; the caller may shrink it on the way. */
typedef struct edge_walk {
    const sw_edges *edges;
    sw_box box;
    size_t at, end;
    unsigned level; /* of the run that begins at `at` */
    sw_point on;    /* of walks along a straight way: a point of it, */
    sw_point aside; /* and the unit vector square to it */
} edge_walk;

/* The largest run that begins at a segment: as many levels up as its index has trailing zeros of RUN_BITS. */
static inline unsigned level_at(const sw_edges *e, size_t at)
{
    if (at == 0) return e->top;
    unsigned level = (unsigned)__builtin_ctzll(at) / RUN_BITS;
    return level < e->top ? level : e->top;
}

static inline edge_walk edge_walk_of(const sw_edges *e, sw_box box, size_t first, size_t end)
{
    return (edge_walk){.edges = e, .box = box, .at = first, .end = end, .level = level_at(e, first)};
}

static inline edge_walk edge_walk_all(const sw_edges *e, sw_box box)
{
    return edge_walk_of(e, box, 0, e->count);
}

/* The next segment for which `meets` holds of its box and of the boxes of all runs it is in, or NULL. A run that fails
 * is passed over whole. */
static inline const segment *edge_next_if(edge_walk *w, bool (*meets)(const edge_walk *w, sw_box box))
{
    while (w->at < w->end) {
        unsigned level = w->level;
        size_t run = w->at >> (RUN_BITS * level);
        bool met = meets(w, w->edges->boxes[level][run]);
        if (met && level > 0) {
            w->level = level - 1;
            continue;
        }
        const segment *found = &w->edges->segments[w->at];
        w->at = (run + 1) << (RUN_BITS * level);
        w->level = level_at(w->edges, w->at);
        if (met) return found;
    }
    return NULL;
}

static inline bool edge_box_meets(const edge_walk *w, sw_box box)
{
    return boxes_meet(w->box, box);
}

static inline const segment *edge_next(edge_walk *w)
{
    return edge_next_if(w, edge_box_meets);
}

/* Turns around p, which lies on none, of the segments first .. end-1, which are whole contours. */
int edges_turns(const sw_edges *e, sw_point p, size_t first, size_t end);

#endif
