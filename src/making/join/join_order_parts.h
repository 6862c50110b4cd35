/* join_order_parts.h: one order of the robot's seams and what it costs; for join_order.c and join_search.c alone. */
#ifndef SW_MAKING_JOIN_JOIN_ORDER_PARTS_H
#define SW_MAKING_JOIN_JOIN_ORDER_PARTS_H

#include "making/join/join_parts.h"

typedef struct robot_stop { /* a seam the robot welds */
    size_t seam;
    sw_vec3 ends[2]; /* where it starts and ends */
    bool one_way;    /* laid in strides: it has an order of its own */
    unsigned ups;    /* all bits where it never lies well */
    sw_vec3 pull;
} robot_stop;

typedef struct robot_tour {
    robot_stop *stops; /* [count] */
    size_t count;
    const bool *after; /* [count * count] after[i * count + k]: i must come after k */
    bool any_after;
    double air_mm_s, back_mm, turn_s, balance_s;
} robot_tour;

enum { ROBOT_ALL = 7 }; /* so many seams are tried in all orders */

/* Time that the order costs beyond welding, s: air, turns, pulls to one side, and a penalty for what comes too early. */
double robot_cost(const robot_tour *tour, const size_t *order, size_t count);
bool robot_same_side(sw_vec3 pulled, sw_vec3 pull);
/* join_search.c: order[count] becomes a good one, the best of all when *proved. */
sw_status robot_search(sw_run *run, const robot_tour *tour, size_t *order, bool *proved);

#endif
