/* cards_parts.h: the papers of forming and welding: a page of a card with its head and foot, the section of a stroke,
 * a body with its seams. For this folder's files. */
#ifndef SW_PAPERS_CARDS_PARTS_H
#define SW_PAPERS_CARDS_PARTS_H

#include "papers/doc_parts.h"

#define CARD_EDGE_MM 10.0
#define CARD_TEXT_MM 1.9
#define CARD_ROW_MM  3.9 /* of labelled values below each other */

/* ---- pages: card_page.c ---------------------------------------------------------------------------------------- */

typedef struct card_sheet { /* the card of one piece while it is drawn */
    const paper_desk *desk;
    const sw_dossier *d;
    const sw_form_piece *form;
    const sw_sheet_piece *piece;
    const solid_shape *shape;
    const char *what; /* "bend card", "rolling card" */
    const char *const *cautions;
    sw_pen *pen;
    double y_mm;  /* top of what comes next */
    int page;     /* of this card, from 1 */
    bool printed; /* the document has a page */
} card_sheet;

/* First page: head with facts, the piece folded and its flat with the strokes' numbers; the foot. */
sw_status card_begin(sw_run *run, card_sheet *c);
sw_status card_turn(sw_run *run, card_sheet *c); /* the next page of the same card */
double card_room_mm(const card_sheet *c);
/* Wrapped text; a grey lead before it, "" for none. Turns the page where there is no more room. */
sw_status card_note(sw_run *run, card_sheet *c, const char *lead, const char *text);
/* What the study found wrong with the piece, by where it says so: the piece's number. */
sw_status card_findings(sw_run *run, card_sheet *c);
typedef struct card_value {
    const char *label, *value; /* value NULL = no memory */
} card_value;
/* Label and value below each other in a column; values are cut to its width. */
sw_status card_values(sw_run *run, sw_pen *pen, sw_box box, const card_value *values, size_t count);
void card_circle(sw_pen *pen, sw_point at, double radius_mm, const char *text); /* a number in a ring */

/* The flat in a box, its bends numbered by strokes, or lettered when it has none; card_flat.c. */
sw_status card_flat(sw_run *run, const card_sheet *c, sw_box box);
const char *card_bend_name(sw_run *run, const sw_sheet_piece *piece, const sw_bend *bend); /* "B2" as on the flat */

/* ---- section of a stroke: card_section.c ----------------------------------------------------------------------- */

/* Page mm per mm in which all strokes of the piece are drawn into boxes of that size. */
double card_section_scale(const sw_form_piece *form, double wide_mm, double high_mm);
sw_status card_section(sw_run *run, sw_pen *pen, sw_box box, double scale, const sw_form_step *step, bool after);

/* ---- the rolls seen from the end, with the shell in them: card_rolls_picture.c ------------------------------------- */

void card_rolls(const card_sheet *c, const sw_form_roll *roll, sw_box box);

/* ---- seams: card_seams.c, card_weld_tables.c --------------------------------------------------------------------- */

typedef struct weld_body { /* the order of one body's seams: the robot's, then those by hand */
    const sw_join_body *body;
    size_t number; /* from 1 */
    const size_t *seams;
    const sw_join_step **steps; /* [count] NULL = by hand */
    size_t count;
} weld_body;
sw_status weld_body_of(sw_run *run, const sw_join_result *join, size_t index, weld_body *out);
double weld_views_height_mm(const sw_join_body *body);
sw_status draw_weld_views(sw_run *run, const doc_book *doc, size_t body, size_t unused, sw_pen *pen, sw_box box);
sw_status weld_tables(sw_run *run, doc_book *doc, const weld_body *w);

/* ---- files ------------------------------------------------------------------------------------------------------- */

typedef struct card_kind {
    const char *what, *title; /* of one card; of the document */
    const char *const *cautions;
    bool (*wanted)(const sw_form_piece *piece);
    sw_status (*draw)(sw_run *run, card_sheet *c);
} card_kind;

bool cards_any(const sw_dossier *d, const card_kind *kind); /* whether any piece wants one */
/* The cards of all pieces that want one; rewinds scratch. */
sw_status cards_write(sw_run *run, const paper_desk *desk, const char *path, const card_kind *kind);

bool cards_bent(const sw_dossier *d); /* whether any piece is pressed */
bool cards_rolled(const sw_dossier *d);
/* PDF each; rewind scratch. */
sw_status paper_bends(sw_run *run, const paper_desk *desk, const char *path);
sw_status paper_rolls(sw_run *run, const paper_desk *desk, const char *path);
sw_status paper_welding(sw_run *run, const paper_desk *desk, const char *path);

#endif
