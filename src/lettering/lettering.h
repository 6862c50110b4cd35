/* lettering.h: texts as single strokes, for what a laser etches.
 *
 * Strokes are those of the Hershey fonts (A. V. Hershey, U.S. National Bureau of Standards, 1967; data from the
 * system's font package). Lengths mm; capital letters are height_mm high. */
#ifndef SW_LETTERING_LETTERING_H
#define SW_LETTERING_LETTERING_H

#include "geometry/geometry.h"

/* The text's strokes as open paths of straight lines in run->keep, lower left at `at`, turned by turn_rad about it.
 * Characters the font lacks are drawn as '?'. SW_IO when the font file is missing; SW_NO_MEMORY. */
sw_status sw_lettering(sw_run *run, const char *text, sw_point at, double height_mm, double turn_rad,
                       const sw_path **strokes, size_t *count);

#endif
