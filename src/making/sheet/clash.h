/* clash.h: bodies that may run into each other, for check_collision.c and clash.c.
 *
 * A body is a placed piece or item, or one part of a folded piece. What it takes up is known as boxes, one a part; only
 * where boxes of two bodies meet are both made as meshes, drawn in on every skin so that touching does not count, each by
 * a hair more or less than all others: skins that lie in one plane would cross nowhere. */
#ifndef SW_MAKING_SHEET_CLASH_H
#define SW_MAKING_SHEET_CLASH_H

#include "making/sheet/sheet_parts.h"

typedef struct clash_body {
    const sw_sheet_case *of;
    size_t placement;
    int part; /* of the piece, in its own frame; -1 = all of it, placed */
    sw_space_box box;
    const sw_space_box *boxes; /* [box_count] */
    size_t box_count;
    sw_mesh mesh; /* drawn in; made when first needed, as its box and the tree */
    sw_space_box skin;
    const sw_mesh_tree *tree;
} clash_body;

typedef struct clash_hit {
    size_t a, b; /* bodies */
    sw_vec3 where;
    double depth_mm; /* at least */
} clash_hit;

typedef struct clash {
    sw_run *run;
    const sw_sheet_options *opt;
    clash_body *bodies;
    size_t count, pairs; /* pairs: compared as meshes */
    clash_hit *hits;
    size_t hit_count, hit_room;
    double meet_mm; /* boxes that share less than this in any direction are apart */
} clash;

/* Whether two bodies, once they have meshes, may run into each other (clash_near.c): triangles whose boxes meet, or the box of one mesh
 * within that of the other. Far cheaper than the trees of both. */
sw_status clash_skins_near(sw_run *run, const clash_body *a, const clash_body *b, bool *near);
/* Compares all bodies[count]; hits in run->scratch, in the order of the bodies. */
sw_status clash_find(clash *c);
clash_body clash_placed(const sw_sheet_case *of, size_t placement, sw_space_box *boxes); /* boxes[part count]: filled */
clash_body clash_part(const sw_sheet_case *of, int part);
sw_space_box clash_both(sw_space_box a, sw_space_box b); /* the box round two boxes */
bool clash_empty(const clash_body *b);

#endif
