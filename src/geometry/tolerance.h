/* tolerance.h: every geometric tolerance of the program, with its reason. Coordinates up to 2e4 mm work. */
#ifndef SW_GEOMETRY_TOLERANCE_H
#define SW_GEOMETRY_TOLERANCE_H

#define SW_SAME_POINT_MM 1e-6  /* two points are one: far below any machine, far above rounding of 1e4 mm */
#define SW_SHORTEST_MM   1e-3  /* shorter segments are an input fault: a laser does not resolve 1 um */
#define SW_CHORD_MM      0.01  /* default chord error where arcs become chords (pictures, GEOS checks) */
#define SW_FLAT_BULGE    1e-12 /* a bulge below this is a straight line */
#define SW_COLLINEAR_MM  1e-8  /* lines and arcs join into one when no vertex moves off by more */
#define SW_CONTACT_MM    0.05  /* folded pieces deeper in each other than this collide; less is touching */

#endif
