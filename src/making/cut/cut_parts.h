/* cut_parts.h: what the steps of the cut study share. For this folder only.
 *
 * A loop is one closed beam path: an outline grown or a hole shrunk by half the kerf. Loops form a forest: the
 * parent of a hole is its outline, the parent of a piece's outline is the hole of another piece it lies in. What is
 * deeper is cut first. All arrays here live in run->scratch. */
#ifndef SW_MAKING_CUT_CUT_PARTS_H
#define SW_MAKING_CUT_CUT_PARTS_H

#include "making/cut/cut.h"

enum { CUT_LEADS_MAX = 16 }; /* lead-ins kept a loop, to choose from */
#define CUT_NO_LOOP SIZE_MAX

typedef struct cut_lead {
    size_t segment; /* of the loop's path */
    double t;       /* on the segment, by length */
    double at_mm;   /* from path.v[0] along the path */
    sw_point start, touch;
    sw_point bend;    /* where the quarter arc begins */
    double radius_mm; /* of the quarter arc; 0 = straight */
    double length_mm; /* how far from the contour it starts */
} cut_lead;

typedef struct cut_loop {
    sw_contour path; /* counter-clockwise outline, clockwise hole */
    size_t part;
    int contour; /* -1 outline, else the hole's index */
    int parent;  /* loop index, -1 = on the bare sheet */
    sw_box box;
    double length_mm, least_side_mm;
    bool held;                         /* micro-joints keep it from tipping */
    bool tips;                         /* once cut it may stand up: no rapid across it */
    bool small;                        /* entered straight from the centre */
    cut_lead *leads;                   /* [lead_count], all clear when `clear` */
    size_t lead_count, chosen, second; /* second: where the other bridge ends; == chosen: one pass */
    bool clear;                        /* a lead-in with enough room was found */
    double room_mm;                    /* length of that lead-in, or what is free when there is none */
} cut_loop;

typedef struct cut_job {
    const sw_cut_input *in;
    const char *name; /* of the input, in run->keep */
    double kerf_mm, thickness_mm, lead_mm;
    sw_box *part_boxes; /* [in->part_count] */
    cut_loop *loops;
    size_t loop_count, loop_room;
    size_t *order;       /* [loop_count] */
    sw_cut_plan *plan;   /* in run->keep */
    sw_cut_pass *passes; /* in run->keep, [pass_room] */
    size_t *pass_loops;  /* [pass_count] the loop each cuts; CUT_NO_LOOP for an etch */
    size_t pass_count, pass_room, pass_loops_room;
} cut_job;

sw_status cut_check(sw_run *run, const sw_cut_input *in);  /* cut_check.c */
sw_status cut_loops(sw_run *run, cut_job *job);            /* cut_loops.c */
sw_status cut_leads(sw_run *run, cut_job *job);            /* cut_lead.c: fills leads of every loop */
sw_status cut_etches(sw_run *run, cut_job *job);           /* cut_etch.c: first passes */
sw_status cut_order(sw_run *run, cut_job *job);            /* cut_order.c: fills order, chosen */
sw_status cut_passes(sw_run *run, cut_job *job);           /* cut_pass.c: passes of the loops in order */
sw_status cut_rapids(sw_run *run, cut_job *job);           /* cut_rapid.c: the head's way between passes */
void cut_times(const sw_cut_input *in, sw_cut_plan *plan); /* cut_time.c */
sw_status cut_findings(sw_run *run, cut_job *job);         /* cut_findings.c */

void cut_choose_lead(cut_loop *loop, size_t chosen);           /* cut_lead.c: sets the second one too */
size_t cut_lead_moves(const cut_lead *lead, sw_move moves[2]); /* cut_lead.c: how many */

/* cut_tour.c: a short open way through points[count], begun at `from`: order[count] as indices. */
void cut_tour(const sw_point *points, size_t count, sw_point from, size_t *order);

sw_status cut_add_pass(sw_run *run, cut_job *job, sw_cut_pass pass, size_t loop); /* cut_pass.c */

/* cut_danger.c: whether the straight way from a to b enters the inside of the loop by more than a hair. */
bool cut_crosses(const cut_loop *loop, sw_point a, sw_point b);

/* The finished loops that may stand up. */
typedef struct cut_danger {
    const cut_loop **loops; /* [count] */
    size_t count;
    sw_box sheet;
    double clear_mm; /* how far a way round keeps from them */
} cut_danger;
bool cut_any_crossed(const cut_danger *danger, sw_point a, sw_point b); /* cut_danger.c */

/* cut_detour.c: points[*count] in run->scratch between a and b so that no leg crosses a danger; *count = 0 when no way
 * is short enough. */
sw_status cut_detour(sw_run *run, const cut_danger *danger, sw_point a, sw_point b, const sw_point **points,
                     size_t *count);

#endif
