/* trial_parts.h: the papers of a test on the stand: report, plate, plan. For this folder's files. */
#ifndef SW_PAPERS_TRIAL_PARTS_H
#define SW_PAPERS_TRIAL_PARTS_H

#include "papers/doc_parts.h"
#include "papers/sheets_parts.h"

#define TESTED_SMALL_MM 1.9 /* capitals in the drawings */

typedef sw_status tested_content(sw_run *run, doc_book *doc);
sw_status tested_report(sw_run *run, doc_book *doc);
sw_status tested_plate(sw_run *run, doc_book *doc);
sw_status tested_plan(sw_run *run, doc_book *doc);

/* The sentence that nothing here certifies, as the first thing of every document. */
sw_status tested_statement(sw_run *run, doc_book *doc);
/* "665 +- 111", with the places its half width asks for. */
const char *tested_with_half(sw_run *run, double value, double half);

/* ---- drawings ---- */

/* Charts of the readings over time, charges marked; a: the first series that is drawn as a surface, b: how many of them, 0 = the
 * gases, temperatures, draught and mass. */
sw_status draw_readings(sw_run *run, const doc_book *doc, size_t a, size_t b, sw_pen *pen, sw_box box);
double readings_height_mm(const doc_book *doc);
sw_status draw_plate(sw_run *run, const doc_book *doc, size_t a, size_t b, sw_pen *pen, sw_box box);
double plate_height_mm(const doc_book *doc);
/* The stand from the side with the section of the stove; the stove from outside. Numbers are those of the plan's sensors. */
sw_status draw_stand(sw_run *run, const doc_book *doc, size_t a, size_t b, sw_pen *pen, sw_box box);
sw_status draw_sensors(sw_run *run, const doc_book *doc, size_t a, size_t b, sw_pen *pen, sw_box box);
sw_status draw_timeline(sw_run *run, const doc_book *doc, size_t a, size_t b, sw_pen *pen, sw_box box);

#endif
