/* fault_parts.h: what contour_fault.c and contour_convex.c share; for the files of this folder only. */
#ifndef SW_FAULT_PARTS_H
#define SW_FAULT_PARTS_H

#include "geometry/edges_parts.h"

/* +1 when c is convex and runs counter-clockwise, -1 clockwise: then it neither crosses nor touches itself and has an
 * area. 0: not convex, or not to be told this way. c: finite, no edge below SW_SHORTEST_MM. cost n */
int contour_convex(sw_contour c);
/* Around a contour whose arcs are half circles at most. cost n, without trigonometry */
sw_box contour_cover(sw_contour c);
/* Whether c surely encloses, counter-clockwise, more than a strip least_mm wide along all its length. cost n */
bool encloses_plainly(sw_contour c, double least_mm);
/* Neighbours a, b that keep going one way through their joint: they meet there and nowhere else. */
bool is_onward_corner(const segment *a, const segment *b);

#endif
