/* nest_fillings_parts.h: pieces that fill a hole of another one, put there for good before a strip is searched. For
 * making/nest alone.
 *
 * A hole of exactly the piece's size has no free region that a search could come upon: where the piece goes is one
 * point. So tight fillings are found by the exact scan, and host and filler become one piece of a reduced strip. */
#ifndef SW_MAKING_NEST_NEST_FILLINGS_PARTS_H
#define SW_MAKING_NEST_NEST_FILLINGS_PARTS_H

#include "making/nest/nest_parts.h"

typedef struct nest_members {
    const sw_nest_place *places; /* shape: of the strip as given; motion: its flat -> the joined piece's */
    size_t count;
} nest_members;

typedef struct nest_fillings {
    sw_strip_input in;           /* the reduced strip; as given where nothing fits tightly */
    const nest_members *members; /* [in.shape_count] what each of its pieces is made of */
} nest_fillings;

/* Joins greedily, the tightest first, as often as both pieces are there; a joined piece fills and is filled like any
 * other. Statuses as nest_check (of the strip as given), SW_NO_MEMORY. `pairs` is left as it was found. The same input
 * gives the same answer. In run->scratch, but for moved holes (run->keep). */
sw_status nest_fillings_make(sw_run *run, sw_arena *pairs, const sw_strip_input *given, nest_fillings *out);

/* The places of a reduced strip as those of the strip as given, ordered by shape.
 * all   [sum of given->shapes' counts] */
sw_status nest_fillings_expand(sw_run *run, const sw_strip_input *given, const nest_fillings *fillings,
                               const sw_nest_place *places, size_t count, sw_nest_place *all);

#endif
