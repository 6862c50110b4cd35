/* build_parts.h: what the files that build a piece from its declaration share.
 *
 * A face's declared outline is a ring of sides. A side that carries bends is cut into stretches, each with a depth:
 * how far the face is cut back there from the declared line (0 = not at all). Depths of neighbouring sides meet in
 * the corner; what comes out is the face that ends at the tangent lines of its bends. */
#ifndef SW_DESIGN_BUILD_PARTS_H
#define SW_DESIGN_BUILD_PARTS_H

#include "design/design_parts.h"

typedef struct build_tree { /* one piece being built */
    design *d;
    design_piece *piece;
    double thickness_mm;
    design_list faces, bends, edges; /* sw_face, sw_bend, sw_edge */
    size_t bend_number;              /* declared bends so far, for default names */
    bool bad;
} build_tree;

typedef struct build_bend {       /* a bend that has found its side */
    const design_bend *decl;      /* short forms already written out */
    size_t side, order;           /* order: place in the declared list */
    double from_mm, to_mm;        /* on the declared side, before gaps */
    double radius_mm, setback_mm; /* setback 0 for dims "tangent" */
    double relief_mm;             /* width of its notches; 0 = none */
    double notch_mm;              /* depth of its notches from the declared line */
    bool round_notch;
} build_bend;

typedef enum build_meeting { BUILD_CONVEX, BUILD_CONCAVE, BUILD_STRAIGHT } build_meeting;

typedef struct build_end {    /* how a side's stretches begin at one of its ends, seen from the corner */
    double depth_mm;          /* of the first stretch: what the corner sees */
    double free_mm, notch_mm; /* lengths of the free stretch and of the notch before the bend starts */
    double notch_depth_mm, notch_bulge;
    bool inside; /* the bend ends inside the side: its end is bend_at_mm from the declared corner */
    double bend_at_mm;
} build_end;

typedef struct build_stretch {
    double from_mm, to_mm, depth_mm, bulge;
    const char *edge;
    int bend;
} build_stretch;

typedef struct build_side {
    sw_point start, along, inward; /* unit vectors of a straight side */
    double length_mm;
    sw_vertex v; /* with its bulge */
    sw_point end_point;
    bool straight, root;
    const char *edge;
    build_bend *bends; /* [bend_count] by rising from_mm */
    int first_bend;    /* index of bends[0] in the face's sorted list */
    size_t bend_count;
    build_end at_start, at_end;
    build_meeting start_meets, end_meets;
    sw_point corners[2]; /* where it starts; [1] only when corner_count is 2 (a step) */
    size_t corner_count;
} build_side;

typedef struct build_face {
    build_tree *tree;
    const design_face *decl; /* NULL = plain flange with nothing on it */
    const design_scope *at;
    const design_outline *outline;
    size_t root; /* side that joins the parent; SIZE_MAX = the root face */
    build_side *sides;
    size_t side_count;
    build_bend *bends; /* sorted by side, then from */
    size_t bend_count;
    bool flat; /* face without depth */
} build_face;

/* build_sides.c: finds the sides of the face and the bends on them. False = noted. */
bool build_find_sides(build_face *f);
/* build_ends.c: how each bent side begins and ends. */
bool build_find_ends(build_face *f);
/* build_corners.c: where the cut back sides meet. */
bool build_find_corners(build_face *f);
/* build_ring.c: the stretches of all sides as one ring, corners rounded. */
bool build_ring(build_face *f, design_ring *ring);

/* build_forms.c */
double build_setback_mm(double radius_mm, double thickness_mm, double angle_rad);
const design_bend *build_written_out(build_tree *t,
                                     const design_bend *decl); /* joggle and hem as plain bends; NULL = noted */
bool build_check_bend(build_tree *t, const design_bend *b, double *radius_mm);
/* Outline of the child: the declared one with its root side found, or a plain flange. NULL = noted. */
const design_outline *build_child_outline(build_tree *t, const build_bend *b, double width_mm, size_t *root);

#endif
