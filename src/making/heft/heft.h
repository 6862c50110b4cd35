/* heft.h: mass, centre of gravity and moments of each piece, subassembly and the whole stove.
 *
 * kg, mm in the stove's frame, moments of inertia kg mm2 about the centre of gravity of what they belong to. */
#ifndef SW_MAKING_HEFT_HEFT_H
#define SW_MAKING_HEFT_HEFT_H

#include "model/model.h"

typedef struct sw_body { double mass_kg; sw_vec3 centre; double inertia_kg_mm2[6]; } sw_body; /* xx yy zz xy yz zx */

/* Parallel-axis sum of bodies given in one frame; count 0 gives a zero body. */
sw_body sw_body_sum(const sw_body *bodies, size_t count);
sw_body sw_body_moved(sw_body body, sw_frame frame); /* from its own frame into the outer one */
/* Angle at which a body tips over an edge at horizontal distance e from the centre of gravity at height h: atan(e/h). */
double sw_tip_angle_rad(double e_mm, double h_mm);

typedef struct sw_heft_line { const char *name; sw_body body; size_t count; } sw_heft_line; /* body: all `count` together, stove frame */

typedef struct sw_heft_input {
    const sw_stove *stove;
    const sw_body *pieces; /* [stove->piece_count] one of each, in its own frame (from the sheet study) */
} sw_heft_input;

typedef struct sw_heft_result {
    const sw_heft_line *pieces; size_t piece_count;
    const sw_heft_line *items; size_t item_count;
    const sw_heft_line *groups; size_t group_count; /* pieces and items of each group */
    sw_body stove;
    sw_findings findings; /* mass to be carried by two, tipping */
} sw_heft_result;

sw_status sw_heft_solve(sw_run *run, const sw_heft_input *in, const sw_heft_result **result);

#endif
