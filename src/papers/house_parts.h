/* house_parts.h: the stove in the house on paper: fields for curves, the drawings that stand in the dossier and in the
 * fitter's sheet alike, and the words they share. For this folder's files. */
#ifndef SW_PAPERS_HOUSE_PARTS_H
#define SW_PAPERS_HOUSE_PARTS_H

#include "papers/doc_parts.h"

#define CELSIUS_C                                                                                                      \
    "\xc2\xb0"                                                                                                         \
    "C"
#define HOUSE_SMALL_MM 2.1 /* capitals of all texts in the house's drawings: read on A4 at arm's length */

bool house_is_known(const sw_dossier *d);  /* a house was given and its chimney looked at */
bool house_is_placed(const sw_dossier *d); /* and its site */

/* ---- words: house_words.c; NULL = no memory ------------------------------------------------------------------ */

const char *house_celsius(sw_run *run, double t_k);
const char *house_fixed(sw_run *run, double value, int decimals); /* an en dash for what is not known */
const char *house_metres(sw_run *run, double m);
const char *house_section(sw_run *run, const sw_flue_part *part); /* "150 round", "300 x 300" */
/* Greatest distance asked for under a need's name or place; NAN = none is asked. what NULL: any. */
double house_need_mm(const sw_housed *h, const char *what, const char *where);
const char *house_need_words(sw_run *run, double needed_mm, double there_mm); /* "at least 150: too little" */

/* ---- fields for curves: house_field.c ------------------------------------------------------------------------- */

typedef struct house_field { /* page box in which x0..x1 runs to the right, y0..y1 upwards */
    sw_pen *pen;
    sw_box in;
    double x0, x1, y0, y1;
} house_field;
sw_point house_at(const house_field *f, double x, double y);
/* Widens low..high to whole steps. */
void house_round(double *low, double *high, double most_ticks);
sw_status house_grid(sw_run *run, const house_field *f, const char *x_name, const char *y_name);
void house_line(const house_field *f, sw_ink ink, const sw_point *points, size_t count); /* gaps where NAN */
sw_ink house_tone(size_t index, double width_mm); /* of a curve, told apart by its dashes too */
/* Stroke and name of curve `index` at x; gives where the next may begin. */
double house_key(sw_pen *pen, size_t index, sw_point at, const char *name);

/* ---- drawings --------------------------------------------------------------------------------------------------- */

sw_status draw_profile(sw_run *run, const sw_dossier *d, sw_pen *pen,
                       sw_box box);                                              /* temperature and draught by height */
sw_status draw_start(sw_run *run, const sw_dossier *d, sw_pen *pen, sw_box box); /* draught after lighting */
sw_status draw_operating(sw_run *run, const sw_dossier *d, sw_pen *pen, sw_box box); /* the map */
sw_status draw_plan(sw_run *run, const paper_desk *desk, sw_pen *pen, sw_box box);
sw_status draw_elevation(sw_run *run, const paper_desk *desk, sw_pen *pen, sw_box box);
sw_status draw_route(sw_run *run, const sw_dossier *d, sw_pen *pen, sw_box box);

/* Rows of the first-fire form on one page, from `first`, that find room, and its height; its figure draws them. */
sw_status record_rows(sw_run *run, const paper_desk *desk, size_t first, size_t *count, double *high_mm);
sw_status draw_record(sw_run *run, const paper_desk *desk, size_t first, size_t count, sw_pen *pen, sw_box box);

/* ---- what stands in the dossier and in the fitter's sheet ------------------------------------------------------- */

sw_status house_needs_table(sw_run *run, doc_book *doc);
sw_status house_parts_table(sw_run *run, doc_book *doc);
sw_status house_plan_figures(sw_run *run, doc_book *doc);
sw_status house_route_figure(sw_run *run, doc_book *doc);

/* The fitter's sheet with the first-fire form, PDF. Rewinds scratch. */
sw_status paper_fitter(sw_run *run, const paper_desk *desk, const char *path);

#endif
