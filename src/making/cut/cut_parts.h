/* cut_parts.h: what the steps of the cut study share. For this folder only.
 *
 * Parts that are moved copies of each other, on one sheet or several, share one shape: its tracks (the beam's closed
 * paths: the outline grown, each hole shrunk by half the kerf), the places where the beam may enter them, prepared
 * edges and what has been found of it so far, all in the frame of the first of them. All room for that is taken before
 * the first sheet is planned: memory taken for one sheet goes when it is done. A loop is a track where a part lies. Loops form a forest: the parent of a hole is its outline,
 * the parent of a piece's outline is the hole of another piece it lies in. What is deeper is cut first. All arrays
 * here live in run->scratch. */
#ifndef SW_MAKING_CUT_CUT_PARTS_H
#define SW_MAKING_CUT_CUT_PARTS_H

#include "making/cut/cut.h"
#include "making/cut/cut_stations.h"

#include <math.h>

enum { CUT_LEADS_MAX = 16 }; /* lead-ins kept a loop, to choose from */
#define CUT_NO_LOOP SIZE_MAX
#define CUT_LIFT_S  1.0 /* what lifting the head over a piece costs in comparisons (ours) */

typedef struct cut_lead { /* in the frame of the track's shape */
    size_t segment;       /* of the track's path */
    double t;             /* on the segment, by length */
    double at_mm;         /* from path.v[0] along the path */
    sw_point start, touch;
    sw_point bend;    /* where the quarter arc begins */
    double radius_mm; /* of the quarter arc; 0 = straight */
    double length_mm; /* how far from the contour it starts */
} cut_lead;

typedef struct cut_leads {
    const cut_lead *items; /* [count], all clear when `clear` */
    size_t count;
    bool clear;     /* a lead-in with enough room was found */
    double room_mm; /* length of that lead-in, or what is free when there is none */
} cut_leads;

typedef struct cut_track {
    sw_contour path; /* counter-clockwise outline, clockwise hole */
    int contour;     /* -1 outline, else the hole's index */
    const sw_edges *edges;
    sw_box box;
    double length_mm, area_mm2, least_side_mm;
    bool held;             /* micro-joints keep it from tipping */
    bool tips;             /* once cut it may stand up: no rapid across it */
    bool convex;           /* it turns one way only */
    bool small;            /* entered straight from the centre */
    sw_point centre;       /* of a small one */
    cut_stations stations; /* where the beam may enter */
    unsigned char *tried;  /* cut_lead.c: what is known of each lead-in beside the own piece */
    cut_leads alone;       /* cut_lead.c: where no other piece and no edge of the sheet is near */
    cut_lead *alone_items; /* [CUT_LEADS_MAX] room for them */
    bool alone_known;
} cut_track;

typedef enum cut_lost { CUT_FOLLOWED, CUT_PARTLY_LOST, CUT_WHOLLY_LOST } cut_lost; /* by the kerf */

typedef struct cut_sizes { /* cut_size_findings.c: of one shape, worked out when first asked for */
    bool known;
    cut_lost *lost; /* [hole_count + 1] of each contour, the outline first */
    size_t narrowest;
    double narrowest_mm, web_mm; /* of its holes; INFINITY without any */
} cut_sizes;

typedef struct cut_shape {
    const sw_region *region;   /* of the first part of this shape: its place is the frame */
    const sw_edges *edges;     /* of the region */
    const sw_edges **contours; /* [hole_count + 1] of each of its contours, the outline first */
    cut_track *tracks;         /* [track_count], outline first */
    size_t track_count, track_room;
    struct cut_orders *orders; /* cut_round.c: of the holes */
    cut_sizes sizes;
} cut_shape;

typedef struct cut_shapes { /* of all sheets of a nest */
    cut_shape *items;       /* [count] of room for as many as there are parts */
    size_t count;
} cut_shapes;

typedef struct cut_place { /* where a part lies */
    cut_shape *shape;
    sw_point by; /* from the shape's frame to the sheet's */
    sw_box box;  /* of the part's outline, in the sheet's frame */
} cut_place;

typedef struct cut_loop {
    cut_track *track;
    sw_point by; /* as its part's */
    size_t part;
    int parent;            /* loop index, -1 = on the bare sheet */
    bool holds;            /* it is the parent of another */
    sw_box box;            /* in the sheet's frame */
    cut_leads leads;       /* in the shape's frame */
    size_t chosen, second; /* second: where the other bridge ends; == chosen: one pass */
} cut_loop;

typedef struct cut_job {
    const sw_cut_input *in;
    const char *name; /* of the input, in run->keep */
    double kerf_mm, thickness_mm, lead_mm;
    const sw_edges *sheet; /* of the stock's shape */
    cut_place *places;     /* [in->part_count] */
    cut_loop *loops;
    size_t loop_count;
    size_t *order;       /* [loop_count] */
    sw_cut_plan *plan;   /* in run->keep */
    sw_cut_pass *passes; /* in run->keep, [pass_room] */
    size_t *pass_loops;  /* [pass_count] the loop each cuts; CUT_NO_LOOP for an etch */
    size_t pass_count, pass_room, pass_loops_room;
} cut_job;

static inline sw_point cut_plus(sw_point a, sw_point b)
{
    return (sw_point){a.x_mm + b.x_mm, a.y_mm + b.y_mm};
}
static inline sw_point cut_minus(sw_point a, sw_point b)
{
    return (sw_point){a.x_mm - b.x_mm, a.y_mm - b.y_mm};
}
static inline double cut_distance(sw_point a, sw_point b)
{
    sw_point d = cut_minus(a, b);
    return sqrt(d.x_mm * d.x_mm + d.y_mm * d.y_mm); /* hypot's care for overflow costs a quarter of the time */
}
/* Whether ways of squared lengths a2, b2 are together shorter than those of c2, d2. Only where one is shorter than its
 * counterpart: most are told apart without a root. */
static inline bool cut_shorter(double a2, double b2, double c2, double d2)
{
    if (a2 >= c2 && b2 >= d2) return false;
    return sqrt(a2) + sqrt(b2) < sqrt(c2) + sqrt(d2) - SW_SAME_POINT_MM;
}
static inline sw_box cut_box_moved(sw_box b, sw_point by)
{
    return (sw_box){b.x0_mm + by.x_mm, b.y0_mm + by.y_mm, b.x1_mm + by.x_mm, b.y1_mm + by.y_mm};
}
/* Whether the boxes come within reach_mm of each other in x and in y. */
static inline bool cut_boxes_near(sw_box a, sw_box b, double reach_mm)
{
    return a.x0_mm <= b.x1_mm + reach_mm && b.x0_mm <= a.x1_mm + reach_mm && a.y0_mm <= b.y1_mm + reach_mm &&
           b.y0_mm <= a.y1_mm + reach_mm;
}
typedef struct cut_ends { /* unit directions of a line or arc where it starts and ends */
    sw_point start, end;
} cut_ends;
/* An arc of bulge b sweeps 4 atan(b): its ends are turned against the chord by 2 atan(b), right and left. Derived. */
static inline cut_ends cut_ends_of(sw_vertex from, sw_point to)
{
    sw_point chord = {to.x_mm - from.x_mm, to.y_mm - from.y_mm};
    double b = fabs(from.bulge) < SW_FLAT_BULGE ? 0 : from.bulge;
    double k = 1 / (sqrt(chord.x_mm * chord.x_mm + chord.y_mm * chord.y_mm) * (1 + b * b));
    double ahead = k * (1 - b * b), aside = 2 * k * b;
    sw_point along = {ahead * chord.x_mm, ahead * chord.y_mm}, left = {-aside * chord.y_mm, aside * chord.x_mm};
    return (cut_ends){cut_minus(along, left), cut_plus(along, left)};
}
/* Where the beam pierces and where it meets the loop, in the sheet's frame. */
static inline sw_point cut_start(const cut_loop *loop, size_t lead)
{
    return cut_plus(loop->leads.items[lead].start, loop->by);
}
static inline sw_point cut_touch(const cut_loop *loop, size_t lead)
{
    return cut_plus(loop->leads.items[lead].touch, loop->by);
}

sw_status cut_check(sw_run *run, const sw_cut_input *in);            /* cut_check.c */
sw_status cut_places(sw_run *run, cut_shapes *shapes, cut_job *job); /* cut_shape.c: fills sheet, places; adds shapes */
bool cut_same_moved(sw_contour a, sw_contour b, sw_point by);        /* cut_shape.c: b is a moved by `by` */
sw_status cut_tracks(sw_run *run, const cut_job *job, size_t part, cut_shape *shape); /* cut_track.c: of one shape */
sw_status cut_track_leads(sw_run *run, cut_track *track);  /* cut_lead.c: room for what is found of them */
sw_status cut_orders_make(sw_run *run, cut_shape *shape);  /* cut_round.c: room for orders of its holes */
sw_status cut_loops(sw_run *run, cut_job *job);            /* cut_loops.c */
sw_status cut_find_leads(sw_run *run, cut_job *job);       /* cut_lead.c: fills leads of every loop */
sw_status cut_etches(sw_run *run, cut_job *job);           /* cut_etch.c: first passes */
sw_status cut_order(sw_run *run, cut_job *job);            /* cut_order.c: fills order, chosen */
sw_status cut_passes(sw_run *run, cut_job *job);           /* cut_pass.c: passes of the loops in order */
sw_status cut_rapids(sw_run *run, cut_job *job);           /* cut_rapid.c: the head's way between passes */
void cut_times(const sw_cut_input *in, sw_cut_plan *plan); /* cut_time.c */
sw_status cut_findings(sw_run *run, cut_job *job);         /* cut_findings.c */

void cut_choose_lead(cut_loop *loop, size_t chosen);                        /* cut_lead.c: sets the second one too */
size_t cut_lead_moves(const cut_lead *lead, sw_point by, sw_move moves[2]); /* cut_lead.c: how many; moved by `by` */

/* cut_tour.c: a short open way from stops[0] through stops[1 .. count], which it brings into that order: order[count]
 * tells which each was, counted from 0. */
sw_status cut_tour(sw_run *run, sw_point *stops, size_t count, size_t *order);
/* Makes such a way shorter that also ends, at stops[count + 1]; order holds what the stops are and goes with them. */
sw_status cut_tour_between(sw_run *run, sw_point *stops, size_t count, size_t *order);

/* cut_round.c: in what order the holes of the piece with this outline are cut when the head comes from `from`; order[i]
 * is counted from 0, the first track after the outline. */
sw_status cut_hole_order(sw_run *run, const cut_job *job, size_t outline, sw_point from, const size_t **order);

sw_status cut_add_pass(sw_run *run, cut_job *job, sw_cut_pass pass, size_t loop); /* cut_pass.c */

/* cut_danger.c: whether the straight way from a to b enters the inside of the loop by more than a hair. */
bool cut_crosses(const cut_loop *loop, sw_point a, sw_point b);
/* As cut_crosses, for a way that begins on the loop. */
bool cut_leaves_over(const cut_loop *loop, sw_point touch, sw_point to);

/* cut_danger.c: the finished loops that may stand up, less those within another of them. */
typedef struct cut_danger {
    const cut_job *job;
    const cut_loop **loops; /* [count] */
    size_t count;
} cut_danger;
sw_status cut_danger_make(sw_run *run, const cut_job *job, cut_danger *danger); /* none yet; in run->scratch */
void cut_danger_add(cut_danger *danger, const cut_loop *finished);
bool cut_any_crossed(const cut_danger *danger, sw_point a, sw_point b);

/* cut_detour.c: points[*count] in run->scratch between a and b so that no leg crosses a danger; *count = 0 when no way
 * is short enough. */
sw_status cut_detour(sw_run *run, const cut_danger *danger, sw_point a, sw_point b, const sw_point **points,
                     size_t *count);

#endif
