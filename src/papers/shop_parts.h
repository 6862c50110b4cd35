/* shop_parts.h: the workshop on paper: bars, the schedule over time, the tables that stand in the dossier and on the route
 * sheet alike. For this folder's files. */
#ifndef SW_PAPERS_SHOP_PARTS_H
#define SW_PAPERS_SHOP_PARTS_H

#include "papers/doc_parts.h"

bool shop_is_known(const sw_dossier *d); /* any study of the workshop was asked */
bool shop_has_line(const sw_dossier *d); /* route and cost */
bool shop_has_plan(const sw_dossier *d); /* and a schedule */

/* ---- words: shop_words.c; NULL = no memory -------------------------------------------------------------------------- */

const char *shop_fixed(sw_run *run, double value, int decimals); /* an en dash for what is not known */
const char *shop_money(sw_run *run, const sw_dossier *d, double value);
const char *shop_minutes(sw_run *run, double s);               /* "12.5" */
const char *shop_share(sw_run *run, double share, int places); /* "3.2 %"; below what is shown: "< 0.1 %" */
/* Behind the share of drawn stoves that fit: its standard error; where all or none of them fit, so that there is none, what
 * may still be so of the others. */
const char *shop_sure(sw_run *run, const sw_fit_result *fit);

/* ---- bars: chart_bars.c --------------------------------------------------------------------------------------------- */

enum { BAR_COLUMNS = 3 };
typedef struct bar_row {
    const char *name;
    const char *values[BAR_COLUMNS]; /* columns at the right; "" = none */
    double hatched, filled;          /* one behind the other; not below 0 */
    sw_ink fill;
    bool accent; /* stands out: rust, bold */
} bar_row;
typedef struct bar_chart {
    const bar_row *rows;
    size_t count;
    const char *x_name;
    const char *titles[BAR_COLUMNS];
    double title_mm[BAR_COLUMNS]; /* width of the columns; 0 = none */
    double name_mm;
    double mark; /* an upright line through all bars; NAN = none */
    const char *mark_name;
} bar_chart;
double bars_high_mm(size_t count);
sw_status draw_bars(sw_run *run, sw_pen *pen, sw_box box, const bar_chart *c);
void bars_hatch(sw_pen *pen, sw_box box, sw_ink ink); /* strokes rising to the right, clipped to the box */
sw_status bars_ticks(sw_run *run, sw_pen *pen, sw_box in, double most, const char *name);

/* ---- the line's charts ----------------------------------------------------------------------------------------------- */

double load_high_mm(const sw_dossier *d);
sw_status draw_load(sw_run *run, const sw_dossier *d, sw_pen *pen, sw_box box);
double cost_high_mm(const sw_dossier *d, size_t lines);
/* Sums by kind, then so many of the largest lines and the rest. */
sw_status draw_cost(sw_run *run, const sw_dossier *d, size_t lines, sw_pen *pen, sw_box box);
sw_status draw_batches(sw_run *run, const sw_dossier *d, sw_pen *pen, sw_box box); /* unit cost over batch size */

typedef struct time_span {
    double from_s, to_s;
} time_span;                                /* working time */
double schedule_day_s(const sw_dossier *d); /* working time of a day; 8 h where the works has no shifts */
double schedule_high_mm(const sw_dossier *d);
/* Machines as rows, stoves as shades with numbers; stoves under way and people at work as steps below. */
sw_status draw_schedule(sw_run *run, const sw_dossier *d, time_span span, sw_pen *pen, sw_box box);

/* ---- tables: route_tables.c ------------------------------------------------------------------------------------------- */

sw_status route_tables(sw_run *run, doc_book *doc);
sw_status what_if_table(sw_run *run, doc_book *doc);
/* Load, schedule, money; as paragraphs and figures. */
sw_status line_summary(sw_run *run, doc_book *doc);
sw_status line_load_figure(sw_run *run, doc_book *doc);
sw_status line_schedule_figure(sw_run *run, doc_book *doc);
sw_status line_cost_figures(sw_run *run, doc_book *doc, size_t lines);

/* ---- papers ------------------------------------------------------------------------------------------------------------ */

sw_status paper_route(sw_run *run, const paper_desk *desk, const char *path); /* PDF; rewinds scratch */
/* Columns station, machine, task, part, stove, stoves, start, end ("2 03:15:00": day and working time in it), start_s,
 * run_from_s, end_s (working time from the start of the batch). */
sw_status paper_schedule_csv(sw_run *run, const sw_dossier *d, const char *path);

/* ---- the dossier's chapter: dossier_workshop.c, dossier_workshop_parts.c ------------------------------------------------ */

sw_status workshop_forming(sw_run *run, doc_book *doc);
sw_status workshop_welding(sw_run *run, doc_book *doc);
sw_status workshop_fit(sw_run *run, doc_book *doc);
sw_status workshop_lifting(sw_run *run, doc_book *doc);
sw_status workshop_coating(sw_run *run, doc_book *doc);

#endif
