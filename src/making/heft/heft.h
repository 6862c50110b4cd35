/* heft.h: mass, centre of gravity and moments of each piece, subassembly and the whole stove.
 *
 * kg, mm in the stove's frame, moments of inertia kg mm2 about the centre of gravity of what they belong to: entries of
 * the inertia tensor, Ixx = int (y2 + z2) dm, Ixy = -int x y dm. Method: docs/studies/heft.md. */
#ifndef SW_MAKING_HEFT_HEFT_H
#define SW_MAKING_HEFT_HEFT_H

#include "model/model.h"

typedef struct sw_body {
    double mass_kg;
    sw_vec3 centre;
    double inertia_kg_mm2[6];
} sw_body; /* xx yy zz xy yz zx */

/* Parallel-axis sum of bodies given in one frame; count 0 gives a zero body. */
sw_body sw_body_sum(const sw_body *bodies, size_t count);
sw_body sw_body_moved(sw_body body, sw_frame frame); /* from its own frame into the outer one */
/* A region of even thickness from z = 0 up; a region without area gives a point mass at the origin. */
sw_body sw_body_plate(double mass_kg, const sw_region *region, double thickness_mm);
/* Angle at which a body tips over an edge at horizontal distance e from the centre of gravity at height h: atan(e/h). */
double sw_tip_angle_rad(double e_mm, double h_mm);

typedef struct sw_heft_line {
    const char *name;
    sw_body body;
    size_t count;
} sw_heft_line; /* body: all `count` together, stove frame */

typedef struct sw_heft_input {
    const sw_stove *stove;
    const sw_body *pieces; /* [stove->piece_count] one of each, in its own frame (from the sheet study) */
    const sw_mesh *const
        *meshes; /* [stove->piece_count] one of each folded, in its own frame, to find what stands on the
                                     floor; NULL = root faces alone are looked at */
} sw_heft_input;

typedef struct sw_heft_result {
    const sw_heft_line *pieces;
    size_t piece_count;
    const sw_heft_line *items;
    size_t item_count;
    const sw_heft_line *groups;
    size_t group_count; /* pieces and items of each group */
    sw_body stove;
    const sw_point *support;
    size_t support_count; /* convex hull of what stands on the floor, counter-clockwise */
    double tip_rad;       /* least angle at which the stove tips over an edge of its support; NAN without support */
    sw_findings findings; /* mass to be carried by one, two or gear; tipping */
} sw_heft_result;

/* Least tip angle of a centre of gravity over the edges of a convex support [count >= 3, counter-clockwise]; negative when
 * it lies beside the support. *edge: the edge it tips over. NAN for fewer points. */
double sw_tip_angle_over_rad(const sw_point *support, size_t count, sw_vec3 centre, size_t *edge);
/* What n people may lift together, kg: the share of the sum of their single limits that a team can use; NAN above 3. */
double sw_team_mass_kg(size_t people, double single_kg);

/* result in run->keep. SW_OUT_OF_RANGE names a piece or item whose mass is no number or negative; SW_NO_MEMORY. */
sw_status sw_heft_solve(sw_run *run, const sw_heft_input *in, const sw_heft_result **result);

#endif
