/* form_parts.h: what the files of this folder share. Nobody else includes it.
 *
 * A `line` is what one stroke makes: the bends of one parent that lie on one line, or both bends of a joggle. A state of
 * a piece is the set of lines made. A `slab` is a part of the sheet (a face, or a chord of a zone) or a tool as a convex
 * polygon of the section frame with its extent along the bend. In checks the child always lies towards +x: turning the
 * piece round mirrors the section, and only the gauge and a goose-neck punch tell the sides apart. */
#ifndef SW_MAKING_FORM_FORM_PARTS_H
#define SW_MAKING_FORM_FORM_PARTS_H

#include "making/form/form.h"

#include <math.h>

enum { FORM_LINES = 14, FORM_CORNERS = 24, FORM_TOOLS = 10, FORM_DEEPEST = 16 };

typedef struct form_machine { /* the press with what was assumed */
    double punch_radius_mm, punch_body_mm, punch_high_mm, neck_mm;
    double die_block_mm, die_high_mm, beam_mm;
} form_machine;

typedef struct form_zone {
    double width_mm, allowance_mm, middle_mm, side, angle_rad; /* side: +1 folds to the front, -1; angle: its size */
    sw_frame axes; /* at the bend in the parent's frame: x along the child's x, y out of the parent, z the parent's */
    sw_frame child_flat, child_bent; /* the child's frame in the parent's, not yet bent and bent */
    const char *rule;
} form_zone;

typedef struct form_outline {
    const sw_point *points;
    size_t count;
} form_outline;

typedef struct form_line {
    const int *bends; /* [count] indices; a joggle: the outer one after the inner one */
    size_t count;
    sw_form_stroke kind; /* SW_FORM_BEND, SW_FORM_PREBEND (a hem: flattened after it) or SW_FORM_JOGGLE */
    double side, angle_rad, heading_rad; /* heading: from parent to child in the flat */
    double from_mm, to_mm, bent_mm;      /* along the first bend's axis: ends of the tool; sum of widths */
    double die_mm, radius_mm, set_rad, wedge_rad, force_n, flange_mm, least_flange_mm, leg_shift_mm;
    const char *over_source;
} form_line;

typedef struct form_body { /* one piece, prepared */
    const sw_piece *piece;
    const sw_sheet_piece *sheet;
    const form_zone *zones;    /* [bend_count] */
    const form_outline *faces; /* [face_count] chords of the outlines */
    const int *bend_of;        /* [face_count] -1 for the root */
    form_line *lines;
    size_t line_count;
    const int *line_of;    /* [bend_count] -1 = rolled */
    bool rolls_made;       /* rolled zones are round while the press works */
    const uint32_t *route; /* [face_count] lines between the face and the root: a unit is a face with its zone */
    size_t slab_room;
} form_body;

typedef struct form_slab {
    sw_form_thing thing;
    int part;   /* face, or face_count + bend */
    bool moves; /* hangs on the line's children */
    sw_point p[FORM_CORNERS];
    size_t n;
    sw_box box;
    double low_mm, high_mm; /* along the bend */
} form_slab;

typedef struct form_pose { /* a state in the press */
    uint32_t made;
    int line;
    double share;                     /* of the line's angle; over 1 with the over-bend */
    bool level;                       /* the parent lies flat: flattening and joggles; else the legs rise alike */
    double clip_low_mm, clip_high_mm; /* parts are cut to this stretch along the bend */
} form_pose;

typedef struct form_clash {
    double depth_mm;
    int part, other; /* other: a part, or -1 for the tool */
    sw_form_thing thing;
} form_clash;

typedef struct form_memo form_memo;
typedef struct form_job { /* one piece's search */
    const sw_form_options *opt;
    const sw_works *works;
    form_machine machine;
    form_body *body;
    sw_frame *frames; /* [face_count] room */
    form_slab *slabs; /* [slab_room] room */
    form_memo *memo;  /* form_stroke.c; NULL = every stroke is simulated */
    form_memo *kept;  /* of the search: its pairs of units hold for other tools too; NULL = none */
    size_t looked;
} form_job;

typedef struct form_rest_found {
    sw_form_rest rest;
    double gauge_mm, length_mm, cost;
    const char *edge;
    int bend; /* of a bent edge; -1 */
} form_rest_found;

typedef struct form_move { /* a stroke of the order found */
    int line;
    bool parent_to_gauge;
    sw_form_punch punch; /* standard section: child to +x */
    uint32_t made;       /* before it */
} form_move;

typedef struct form_order {
    form_move moves[FORM_LINES];
    size_t count;
    bool found;
    uint32_t deepest[FORM_DEEPEST]; /* largest sets of lines reached, where there is no order */
    size_t deepest_count;
    size_t looked;
} form_order;

sw_status form_check(sw_run *run, const sw_works *works);

/* form_body.c: in run->scratch. */
sw_status form_body_make(sw_run *run, const sw_form_options *opt, const sw_sheet_piece *piece, form_body *body);
sw_status form_lines(sw_run *run, const sw_form_options *opt, form_body *body); /* groups bends: form_lines.c */
double form_leg_mm(const form_body *body, int bend, bool of_child); /* least depth of the flat part, form_lines.c */

/* form_die.c: die, radius made, over-bend and force of every line; the machine with what is assumed. */
void form_dies(const form_job *job, const sw_form_fit_result *fit);
form_machine form_machine_of(const sw_press *press, const sw_form_options *opt);

/* form_section.c */
void form_frames(const form_body *body, const form_pose *pose, sw_frame *frames);
sw_frame form_child_frame(const form_zone *z, double share); /* in the parent's frame */
typedef struct form_stance {
    sw_vec3 origin, across, up, along;
    double lift_mm;
} form_stance; /* piece frame -> section: x across, y up + lift */
form_stance form_stance_of(const form_body *body, const form_pose *pose, const sw_frame *frames);
/* Slabs of the whole piece into job->slabs; gives how many. */
size_t form_section(form_job *job, const form_pose *pose,
                    const unsigned char *wanted); /* wanted: [face_count], NULL all */
double form_depth_mm(const form_body *body, const form_line *line,
                     double share); /* punch depth, legs taken long enough */

/* form_tools.c: tools[FORM_TOOLS]; gives how many. */
typedef struct form_tooling {
    sw_form_stroke stroke;
    sw_form_punch punch;
    double share;
} form_tooling;
size_t form_tools(const form_job *job, const form_line *line, form_tooling with, form_slab *tools);
/* As it stands in the press from the standard section, and back: a piece turned round has its sides the other way about. */
sw_form_punch form_punch_turned(sw_form_punch punch, bool parent_to_gauge);
const char *form_thing_name(sw_form_thing thing);
form_slab form_finger(double gauge_mm); /* stop of the back gauge, to the right of the bend line */

/* form_overlap.c: depth to which two convex slabs lie in each other; 0 = apart or touching. */
double form_overlap_mm(const form_slab *a, const form_slab *b);
void form_slab_box(form_slab *slab);

/* form_stroke.c: whether the line can be made with the others made, with this punch; the deepest clash else. */
bool form_stroke_clear(form_job *job, uint32_t made, int line, sw_form_punch punch, form_clash *clash);
/* In run->scratch; with what `from` (NULL = nothing) knows of pairs of units, which no tool changes. */
sw_status form_memo_make(sw_run *run, const form_body *body, const form_memo *from, form_memo **memo);
int form_unit_of(const form_body *body, int part); /* face of a part: a zone's child */
double form_share_set(const form_line *line);      /* share of the angle at the end of the (first) stroke */

/* form_gauge.c */
form_rest_found form_rest_of(form_job *job, uint32_t made, int line, bool parent_to_gauge);

/* form_search.c: the best of the orders searched; SW_OK with order->found false when there is none. */
sw_status form_search(sw_run *run, form_job *job, form_order *order);
/* Whether any order there is, without finding the best. */
sw_status form_any_order(sw_run *run, form_job *job, bool *found);

/* form_steps.c: the card of a piece. */
sw_status form_steps(sw_run *run, form_job *job, const form_order *order, sw_form_piece *out);
sw_status form_picture(sw_run *run, form_job *job, const form_move *move, form_tooling with,
                       const form_rest_found *rest,
                       sw_form_picture *out); /* form_picture.c; rest NULL = without gauge */

/* form_rolls.c */
sw_status form_rolls(sw_run *run, form_job *job, const sw_form_fit_result *fit, sw_form_piece *out);
bool form_rolls_last_clear(const form_body *body, const sw_rolls *rolls); /* rolled zones after the strokes */

/* form_findings.c, form_piece_findings.c */
sw_finding form_finding(const char *check, const sw_piece *piece);
sw_status form_add(sw_run *run, sw_findings *findings, sw_finding finding, double watch); /* NULL texts: SW_NO_MEMORY */
sw_status form_works_findings(sw_run *run, const sw_form_input *in, sw_findings *findings);
sw_status form_piece_findings(sw_run *run, form_job *job, const sw_form_piece *piece, sw_findings *findings);
sw_status form_roll_findings(sw_run *run, form_job *job, const sw_form_piece *piece, sw_findings *findings);
sw_status form_blocked(sw_run *run, form_job *job, const form_order *order, sw_findings *findings); /* form_blocked.c */
const char *form_piece_label(sw_run *run, const sw_piece *piece);
const char *form_part_name(sw_run *run, const form_body *body, int part); /* run->keep */

#endif
