/* sheets_parts.h: sheets of the workshop beside the dossier: inspection, lifting, coating, fittings. For this folder's files. */
#ifndef SW_PAPERS_SHEETS_PARTS_H
#define SW_PAPERS_SHEETS_PARTS_H

#include "papers/doc_parts.h"

#define SHEET_SMALL_MM 1.9 /* capitals in the drawings of the sheets */

/* ---- what they share: sheets.c ---------------------------------------------------------------------------------------- */

typedef sw_status sheet_content(sw_run *run, doc_book *doc);
/* One document under the title and the stove's name; rewinds scratch. */
sw_status sheet_write(sw_run *run, const paper_desk *desk, const char *title, sheet_content *content, const char *path);
sw_status sheet_items(sw_run *run, doc_book *doc, const char *const *texts, size_t count);
/* What does not hold, worst first, at most so many; the dossier has them all. */
sw_status sheet_open_points(sw_run *run, doc_book *doc, const sw_findings *findings);

typedef struct sheet_fact {
    const char *name, *value; /* value NULL = no memory */
} sheet_fact;
sw_status sheet_facts(sw_run *run, doc_book *doc, const sheet_fact *facts, size_t count); /* two a row */

typedef struct sheet_figure {
    doc_draw *draw;
    size_t a, b;
    double high_mm;
    const char *caption; /* NULL = no memory */
} sheet_figure;
sw_status sheet_put(sw_run *run, doc_book *doc, sheet_figure figure);

const char *sheet_fixed(sw_run *run, double value, int decimals); /* an en dash for what is not known */
const char *sheet_place(sw_run *run, sw_vec3 p);                  /* "1, 203, 436": whole mm */
const char *sheet_celsius(sw_run *run, double t_k);               /* whole degrees, no unit */

/* An upright scale for drawings: ticks and light lines across the box, each named at its left. */
typedef struct sheet_scale {
    double low, high;
} sheet_scale;
sw_status sheet_ticks_up(sw_run *run, sw_pen *pen, sw_box in, sheet_scale s);
sw_status sheet_ticks_along(sw_run *run, sw_pen *pen, sw_box in, sheet_scale s);
double sheet_on(sheet_scale s, double value, double from_mm, double to_mm);
void sheet_blank(sw_pen *pen, sw_point at, double to_mm, const char *name); /* a name and a line to write on */
void sheet_lines(sw_pen *pen, sw_point at, pen_type type, double line_mm, const doc_lines *lines);

/* ---- drawings ----------------------------------------------------------------------------------------------------------- */

/* Rows of the plan from `first` that find room in most_mm, and their height; the figure draws them. */
sw_status inspect_rows(sw_run *run, const doc_book *doc, size_t first, double most_mm, size_t *count, double *high_mm);
sw_status draw_plan_rows(sw_run *run, const doc_book *doc, size_t first, size_t count, sw_pen *pen, sw_box box);
sw_status draw_joint(sw_run *run, const doc_book *doc, size_t joint, size_t unused, sw_pen *pen, sw_box box);
sw_status draw_control(sw_run *run, const doc_book *doc, size_t feature, size_t unused, sw_pen *pen, sw_box box);
#define JOINT_HIGH_MM   50.0
#define CONTROL_HIGH_MM 78.0

/* What hangs there, in scratch: sheet_lift_parts.c. None: draw the box. */
sw_status lift_parts(sw_run *run, const doc_book *doc, size_t step, solid_part **out, size_t *count);
sw_vec3 lift_placed(const solid_part *p, size_t i);               /* a point of its mesh in the world */
bool lift_is_flat(const sw_lift_step *s);                         /* a sheet or flat, under pads */
size_t lift_piece_named(const sw_stove *stove, const char *name); /* piece_count: none */
bool lift_is_drawn(const sw_lift_result *r, size_t step);         /* by gear, and not the same load as a step before */
sw_status draw_lift(sw_run *run, const doc_book *doc, size_t step, size_t unused, sw_pen *pen, sw_box box);
double lift_high_mm(const sw_lift_step *step);
#define LIFT_LEAST_MM 92.0 /* of those that are no sheets */

sw_status draw_boards(sw_run *run, const doc_book *doc, size_t first, size_t count, sw_pen *pen, sw_box box);

/* ---- papers: PDF ---------------------------------------------------------------------------------------------------------- */

sw_status paper_inspection(sw_run *run, const paper_desk *desk, const char *path);
sw_status paper_lifting(sw_run *run, const paper_desk *desk, const char *path);
sw_status paper_coating(sw_run *run, const paper_desk *desk, const char *path);
sw_status paper_fittings(sw_run *run, const paper_desk *desk, const char *path);

#endif
