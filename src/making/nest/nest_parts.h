/* nest_parts.h: what the files of making/nest share. Nobody else includes it.
 *
 * Collision core (outline, convex, turned, pair, scan): every piece at every allowed turn is a set of convex
 * polygons that together contain the piece grown by half the web. Two pieces collide exactly when a polygon of
 * one meets a polygon of the other, so the forbidden positions of B beside A are the union of the Minkowski
 * sums a (+) -b: a list of convex polygons, never joined. Holes, pieces within holes and sheets of any
 * outline need no special case.
 * Search (fill, plan, improve): asks the core for free positions and knows nothing of polygons.
 * Lengths mm; a "position" is that of the lower left corner of the turned piece's exact box. */
#ifndef SW_MAKING_NEST_NEST_PARTS_H
#define SW_MAKING_NEST_NEST_PARTS_H

#include "making/nest/nest.h"

#define NEST_TOUCH_MM 1e-6 /* two edges nearer than this touch: far above rounding at 2e4 mm, far below the web */

/* Convex, counter-clockwise; p[0] is the lowest of the leftmost, p[right] the lowest of the rightmost. */
typedef struct nest_poly {
    const sw_point *p;
    uint32_t n, right;
    sw_box box;
} nest_poly;

/* A growing list of points and rings over it. */
typedef struct nest_rings {
    sw_point *points;
    size_t point_count, point_room;
    size_t *ends; /* ring i is points[ends[i-1] .. ends[i]) ; ring 0 the outline, the rest holes */
    size_t ring_count, ring_room;
} nest_rings;

typedef struct nest_turned { /* one piece at one turn, or what blocks a sheet (shape = SIZE_MAX) */
    size_t shape;
    double turn_rad;
    bool mirror;
    sw_point base; /* lower left of the turned exact box in turned flat coordinates: d = position - base */
    double width_mm, height_mm;
    const nest_poly *parts[2]; /* relative to the position, grown by half the web; [NEST_SOLID]: holes filled */
    size_t part_count[2];
    sw_box box; /* of the parts; set when added */
} nest_turned;
enum { NEST_OPEN, NEST_SOLID };

typedef struct nest_hole {
    double area_mm2, least_mm;
} nest_hole; /* least side of its box, less two webs */

typedef struct nest_kind { /* per shape of the input */
    size_t first, count;   /* its turned entries; the first `quick` are those of the first answer */
    size_t quick;
    double area_mm2, least_mm, most_mm; /* exact area, sides of the box */
    double claim_mm2;                   /* what it takes from all others: nest_claim.c */
    nest_hole *holes;                   /* those that some piece might go into */
    size_t hole_count;
} nest_kind;

typedef struct nest_sheet { /* per stock of the input */
    sw_box usable;          /* box less margin */
    size_t block;           /* turned entry of what blocks it, SIZE_MAX = a plain rectangle */
    double area_mm2, usable_area_mm2;
    double room_mm2; /* that claims of pieces share */
    double price;    /* for choosing; area where the works gives none */
} nest_sheet;

typedef struct nest_pair { /* forbidden positions of B relative to A's position */
    const nest_poly *parts;
    size_t count;
} nest_pair;

typedef struct nest_slot {
    const nest_pair *pair; /* NULL = not made yet */
} nest_slot;

typedef struct nest_core {
    sw_run *run;
    const sw_nest_input *in;
    const sw_nest_options *opt;
    nest_turned *turned;
    size_t turned_count, turned_room;
    nest_kind *kinds;     /* [in->shape_count] */
    nest_sheet *sheets;   /* [in->stock_count] */
    double largest_mm2;   /* usable area of the largest full sheet */
    sw_arena *pair_arena; /* own: emptied when pairs grow beyond a limit */
    nest_slot **pairs;    /* [turned_count] rows of [turned_count], NULL = not made yet */
    uint64_t tests;
    double stop_at_s; /* sw_seconds() after which work is given up; INFINITY for the first answer */
} nest_core;

typedef struct nest_spot {
    size_t turned;
    sw_point at;
} nest_spot;

typedef struct nest_layout { /* spots of one sheet being filled or finished */
    size_t stock;
    size_t first, count; /* in nest_plan.spots */
    size_t repeat;
    double area_mm2, reach_mm; /* of the pieces; x of the last piece's end */
    double cost;
} nest_layout;

typedef struct nest_plan { /* a whole answer */
    nest_spot *spots;
    size_t spot_count, spot_room;
    nest_layout *layouts;
    size_t layout_count, layout_room;
    size_t left_over;      /* pieces without a place: stock ran out */
    double cost, reach_mm; /* of all sheets */
    double unevenness;     /* sum of squares of the sheets' densities: the higher, the emptier the emptiest */
} nest_plan;

/* Whether pieces of which no second fits above first stand in a row on the lower edge, so that what is free lies in one strip
 * above them. */
typedef enum nest_rows { NEST_ANYWHERE, NEST_ROWS_FIRST, NEST_BETTER_OF_BOTH } nest_rows;

typedef struct nest_way { /* what the improvement varies */
    size_t *order;        /* [shape_count] kinds, first placed first */
    double *lean;         /* [shape_count] share of the piece's length in the score of a position */
    uint64_t *turns;      /* [shape_count] bit i: turned entry first + i is tried (entries beyond 63 follow bit 63) */
    double share;         /* of each kind put on a sheet before any gets more; 0 = no limit */
    size_t only;          /* the one full sheet used, SIZE_MAX = all */
    nest_rows rows;
    bool settles; /* the full size that won first is kept while more than one sheet is wanted */
} nest_way;

typedef struct nest_block { /* one forbidden polygon on the sheet, for one scan */
    const nest_poly *poly;
    sw_point at;
    sw_box box;
    uint32_t low, high; /* current edges of the lower and upper chain */
} nest_block;

typedef struct nest_start { /* a piece whose polygons the line has not reached: left edge of their box */
    double x0_mm;
    nest_spot spot;
} nest_start;

enum { NEST_BANDS = 16 };
#define NEST_NONE UINT32_MAX

typedef struct nest_seat { /* of a block in a band that it reaches into */
    uint32_t block, next;  /* next: of the band, NEST_NONE = the last */
} nest_seat;

/* One step of a climb; it holds on all lines before until_mm, where the polygon ends or parts from the one below. */
typedef struct nest_link {
    uint32_t block;
    double until_mm, opens_mm; /* opens: least until_mm of this link and all below */
} nest_link;

typedef struct nest_scan { /* a vertical line walking right over the sheet for one turned piece */
    size_t turned;
    double x_mm, y_mm; /* line, lowest free y on it */
    sw_box fit;        /* positions that keep the piece's box on the usable box */
    nest_start *wait;  /* pieces not yet reached: a heap, least x0 on top */
    size_t wait_count, wait_room;
    nest_block *blocks; /* polygons of the pieces reached, in any order */
    size_t block_count, block_room;
    uint32_t bands[NEST_BANDS]; /* of equal height over the fit, upwards: the first of the seats */
    double bands_per_mm;
    nest_seat *seats; /* those in no band any more are of blocks left behind */
    size_t seat_count, seat_room;
    nest_link *chain; /* polygons climbed over on this line, upwards */
    size_t chain_count, chain_room;
    nest_link *older; /* those of the line before that lay above the last of `chain` */
    size_t older_count, older_room;
    bool done;
} nest_scan;

typedef struct nest_bench { /* working memory of fill and plan, kept between sheets */
    nest_scan *scans;       /* [scan_count] */
    size_t scan_count;      /* most turns of one kind */
    size_t scans_open;
    bool rows_first;
    size_t *left;          /* [shape_count] still to place */
    size_t *used, *chosen; /* [shape_count] placed on the trial sheet, on the best trial */
    bool *full;            /* [shape_count] nothing more of the kind fits the trial sheet */
    size_t *stock_left;    /* [stock_count] */
    size_t settled;        /* full size chosen last, SIZE_MAX = none yet */
    nest_plan trial, best; /* one layout each */
} nest_bench;

/* nest_room.c: a growing array of run->scratch moved to where `wanted` items of `size` have room; NULL with SW_NO_MEMORY
 * recorded. */
void *nest_room(sw_run *run, void *items, size_t wanted, size_t *room, size_t size);
/* Room for `more` items after the `count` there are; leaves the function with SW_NO_MEMORY where there is none. */
#define NEST_MAKE_ROOM(run, items, count, room, more)                                                                  \
    do {                                                                                                               \
        if ((items) != NULL && (count) + (more) <= (room)) break;                                                      \
        void *nest_items_ = nest_room((run), (items), (count) + (more), &(room), sizeof *(items));                     \
        if (nest_items_ == NULL) return SW_NO_MEMORY;                                                                  \
        (items) = nest_items_;                                                                                         \
    } while (0)

/* nest_check.c */
sw_status nest_check(sw_run *run, const sw_nest_input *in, const sw_nest_options *opt);

/* nest_outline.c: rings that contain the region's material, arcs as chords; pockets up to fill_mm2 and holes that
 * hold none of the pieces are filled. */
sw_status nest_outline(sw_run *run, const sw_region *r, double error_mm, double fill_mm2, nest_rings *rings);
sw_status nest_outline_ring(sw_run *run, sw_contour c, bool reversed, double error_mm, nest_rings *rings);
void nest_outline_fill(nest_rings *rings, double fill_mm2); /* of the last ring */

/* nest_convex.c: rings cut into convex polygons, each grown by grow_mm (mitred, blunted where sharp). */
sw_status nest_convex(sw_run *run, const nest_rings *rings, double grow_mm, const nest_poly **parts, size_t *count);
sw_status nest_convex_hull(sw_run *run, const nest_rings *rings, double grow_mm, const nest_poly **out); /* of ring 0 */
sw_status nest_poly_make(sw_run *run, sw_arena *into, const sw_point *p, size_t n, nest_poly *out);
/* Drops polygons that lie within one of the largest; gives how many stay. */
size_t nest_poly_drop_inner(nest_poly *polys, size_t count);

/* nest_turned.c, nest_sheets.c: fill core->turned, kinds and sheets. */
sw_status nest_turned_make(nest_core *core);
sw_status nest_turned_add(nest_core *core, nest_turned t);
/* Whether a piece of `kind` might go into a hole of that size; false = surely not. */
bool nest_may_enter(const nest_kind *kind, nest_hole hole);
sw_status nest_sheets_make(nest_core *core);
bool nest_is_plain(const sw_stock *stock); /* a rectangle without cut-outs; zones do not count */
/* Whether any turn of the kind fits the empty sheet's usable box. */
bool nest_fits_box(const nest_core *core, size_t kind, size_t stock);

/* nest_pair.c */
sw_status nest_pair_find(nest_core *core, size_t a, size_t b, const nest_pair **pair);
void nest_pair_trim(nest_core *core); /* forgets all pairs when they have grown too many; not during a scan */

/* nest_scan.c */
sw_status nest_scan_open(nest_core *core, nest_scan *scan, const nest_spot *spots, size_t count);
sw_status nest_scan_add(nest_core *core, nest_scan *scan, nest_spot spot);
/* Goes on to the first free position with x <= most_x_mm; found = false: none (yet). The caller sets scan->turned
 * and fit before opening. */
sw_status nest_scan_find(nest_core *core, nest_scan *scan, double most_x_mm, sw_point *at, bool *found);

/* nest_fill.c: one sheet. bench->used and trial.layouts[0] are the answer. SW_CANCELLED when time is up. */
bool nest_time_is_up(const nest_core *core);
sw_status nest_bench_make(nest_core *core, nest_bench *bench);
sw_status nest_fill(nest_core *core, nest_bench *bench, const nest_way *way, size_t stock, bool rows_first);
/* A plain sheet on which these lie already; those of which no more are wanted are left out. */
sw_status nest_fill_round(nest_core *core, nest_bench *bench, const nest_way *way, size_t stock, const nest_spot *spots,
                          size_t count);

/* nest_plan.c: all sheets. Those layouts of `base` that are marked in `kept` stay (NULL = none). */
typedef struct nest_keep {
    const nest_plan *base;
    const bool *kept;
} nest_keep;
sw_status nest_plan_make(nest_core *core, nest_bench *bench, const nest_way *way, nest_keep keep, nest_plan *plan);
/* Plain sheets begun with some pieces are filled first, then others as above. */
typedef struct nest_begun {
    size_t stock;
    const nest_spot *spots; /* [count] */
    size_t count;
    size_t times; /* at most */
} nest_begun;
sw_status nest_plan_round(nest_core *core, nest_bench *bench, const nest_way *way, const nest_begun *begun,
                          size_t count, nest_plan *plan);
/* Fewer left over, then cheaper, then more uneven, then shorter. */
bool nest_plan_better(const nest_plan *a, const nest_plan *b);
sw_status nest_plan_copy(sw_run *run, const nest_plan *from, nest_plan *to);

/* nest_cost.c */
typedef struct nest_rest {
    double length_mm, width_mm;
} nest_rest;
nest_rest nest_rest_of(const nest_core *core, const nest_layout *layout);
double nest_layout_cost(const nest_core *core, const nest_layout *layout, double price);
bool nest_rest_counts(const sw_nest_input *in, double length_mm, double width_mm); /* by the works' least size */

/* nest_improve.c */
sw_status nest_way_first(nest_core *core, nest_way *way);
sw_status nest_improve(nest_core *core, nest_bench *bench, nest_way *first, nest_plan *best, bool *stopped);
/* Goes on from `best` until core->stop_at_s, a cancel or a long stall. */
sw_status nest_hunt(nest_core *core, nest_bench *bench, const nest_way *first, nest_plan *best, bool *stopped);

/* nest_cuts_plan.c: the large kinds planned as rectangles for all sheets at once, the rest filled in; `best` is replaced
 * when that is better. Goes on until core->stop_at_s, a cancel or many vain tries. */
sw_status nest_cuts_improve(nest_core *core, nest_bench *bench, const nest_way *first, nest_plan *best);

/* nest_cores.c: one hunt a thread, each with its own seed and memory; the best of all goes to `best`. */
sw_status nest_hunt_on_cores(nest_core *core, nest_plan *best, bool *stopped);

/* nest.c: everything of a core but run, in, opt and stop_at_s. */
sw_status nest_core_make(nest_core *core);
void nest_core_close(nest_core *core);

/* nest_claim.c: claims of the kinds, room of the sheets. */
sw_status nest_claims_make(nest_core *core);

/* nest_bound.c: least sheet area that could hold the pieces, mm2. */
double nest_bound_area(const nest_core *core);
double nest_bound_price(const nest_core *core); /* least price of sheets that could */

/* nest_remnant.c: fills what a finished result says of its sheets beyond stock, places, repeat and lot: areas, used
 * lengths,
 * remnants, sums and cost. */
sw_status nest_remnants_keep(sw_run *run, const sw_nest_input *in, sw_nest_sheet *sheets, size_t count,
                             sw_nest_result *r);

/* nest_lots.c: one nest a lot; the emptiest sheet of a lot is begun for the next. */
sw_status nest_solve_lots(sw_run *run, const sw_nest_input *in, const sw_nest_options *opt,
                          const sw_nest_result **result);
/* nest.c: all at once, whatever the lots. */
sw_status nest_solve_whole(sw_run *run, const sw_nest_input *in, const sw_nest_options *opt,
                           const sw_nest_result **result);

/* nest_result.c */
sw_status nest_result_make(nest_core *core, const nest_plan *plan, sw_nest_result **result);

#endif
