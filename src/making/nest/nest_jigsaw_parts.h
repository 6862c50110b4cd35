/* nest_jigsaw_parts.h: strips whose pieces match along their edges, laid like a jigsaw puzzle. For making/nest alone.
 *
 * A region is what is still free: rings with the free side to their left. In a full cover every corner of the region
 * below a half turn is filled by pieces that have a corner there, and each of its two sides has exactly one piece whose
 * edge lies flush with it. Few pieces have an edge of that direction, so the side that fewest fit is laid first, and a
 * side that none fits proves that the pieces laid so far are wrong. All lengths mm, in the frame of the strip. */
#ifndef SW_MAKING_NEST_NEST_JIGSAW_PARTS_H
#define SW_MAKING_NEST_NEST_JIGSAW_PARTS_H

#include "making/nest/nest_crowd_parts.h"

/* ---- nest_jigsaw.c: what the strip asks for ----------------------------------------------------------------- */

typedef struct nest_cover { /* pieces laid edge to edge; overlaps and gaps up to off_mm between neighbours */
    nest_state state;       /* [count]; of pieces not laid: any turn, at 0, 0 */
    bool *laid;             /* [count] */
    size_t laid_count;
    double area_mm2; /* of the laid */
    double off_mm;
    uint64_t work; /* what it cost, as budgeted */
} nest_cover;

typedef struct nest_jigsaw {
    sw_run *run;
    const nest_core *core; /* kinds and turned entries of the strip */
    const uint32_t *kind;  /* [count] shape of each piece */
    size_t count;
    double width_mm;
    uint64_t seed;
    uint64_t work_most; /* steps, each some nanoseconds */
} nest_jigsaw;

/* The fullest cover found; the same asked gives the same. laid_count 0 where nothing matches, where an outline has arcs
 * and beyond 200 pieces or 4000 corners. cover in run->scratch. SW_NO_MEMORY. */
sw_status nest_jigsaw_cover(const nest_jigsaw *asked, nest_cover *cover);

/* nest_jigsaw_start.c: makes a legal layout of a cover: what is not laid goes where it overlaps least, then all are
 * pulled apart at growing lengths. *length_mm INFINITY where that fails. best: [count] SW_NO_MEMORY */
typedef struct nest_settling {
    sw_run *run;
    const nest_table *table;
    const uint32_t *kind;
    size_t count;
    double width_mm, area_mm2, until_s;
    uint64_t seed;
} nest_settling;
sw_status nest_jigsaw_settle(const nest_settling *s, const nest_cover *cover, nest_state *best, double *length_mm);

/* ---- nest_jigsaw_region.c: the free region -------------------------------------------------------------------- */

typedef struct jigsaw_region {
    sw_point *p;    /* [room] */
    uint32_t *ends; /* [room] ring i is p[ends[i-1] .. ends[i]) */
    size_t points, rings, room;
} jigsaw_region;

typedef struct jigsaw_shape { /* one turned piece, its flat's origin at 0, 0 */
    uint32_t kind, turned;
    const sw_point *p;    /* outline counter-clockwise, then holes counter-clockwise about their inside */
    const uint32_t *ends; /* [rings] */
    size_t points, rings;
    sw_box box;
    double area_mm2, length_mm; /* net of the holes; of all its rings */
} jigsaw_shape;

/* nest_jigsaw_shape.c: of every turned entry of the core, in that order; solid: without holes. In run->scratch. */
sw_status jigsaw_shapes_make(sw_run *run, const nest_core *core, bool solid, jigsaw_shape **shapes);

typedef struct jigsaw_cutter jigsaw_cutter; /* working memory */
sw_status jigsaw_cutter_make(sw_run *run, size_t points_most, jigsaw_cutter **cutter);

typedef struct jigsaw_cut {
    const jigsaw_region *from;
    const jigsaw_shape *shape;
    sw_point at;
    double off_mm; /* points and edges nearer than that meet */
} jigsaw_cut;

typedef struct jigsaw_contact {
    double length_mm; /* of the shape's edges that lie on the region's */
    size_t corners;   /* of the shape that meet corners of the region */
    sw_point drift;   /* mean way from those of the shape to those of the region */
} jigsaw_contact;

/* The region less the shape. false = the shape sticks out of the region by more than about off_mm, or there is no room
 * for the answer. `to` may not be cut->from. cost points of region x points of shape, added to *work */
bool jigsaw_region_cut(jigsaw_cutter *cutter, const jigsaw_cut *cut, jigsaw_region *to, jigsaw_contact *contact,
                       uint64_t *work);

/* ---- nest_jigsaw_corner.c: corners and what fits them ----------------------------------------------------------- */

typedef struct jigsaw_side { /* an edge of a shape at one of its corners */
    uint32_t shape, point;
    double dir_rad, angle_rad, length_mm; /* away from the corner; inner angle there */
} jigsaw_side;

typedef struct jigsaw_sides { /* of all shapes, by direction */
    jigsaw_side *on[2]; /* [count]; JIGSAW_OUT: the edge that leaves the corner, JIGSAW_BACK: that which comes in */
    size_t count;
} jigsaw_sides;
enum { JIGSAW_OUT, JIGSAW_BACK };

/* Edges that bend by less than off_mm count as one. */
sw_status jigsaw_sides_make(sw_run *run, const jigsaw_shape *shapes, size_t count, double off_mm, jigsaw_sides *sides);
/* How many have that direction within slack_rad (well below pi): sides->on[way][(*first + k) % sides->count]. */
size_t jigsaw_sides_along(const jigsaw_sides *sides, int way, double dir_rad, double slack_rad, size_t *first);

typedef struct jigsaw_corner {
    sw_point at;
    double dir_rad[2], length_mm[2]; /* of the edges on both sides, away from the corner: as jigsaw_sides */
    sw_point end;                    /* of the edge that leaves it */
    double angle_rad, slack_rad;     /* inner angle; what off_mm can make of it */
} jigsaw_corner;

/* Corners below a half turn, the tightest first. corners: [most]; gives how many */
size_t jigsaw_corners(const jigsaw_region *region, double off_mm, jigsaw_corner *corners, size_t most);

/* Signed area of one ring. */
double jigsaw_ring_area(const sw_point *p, size_t n);

#endif
