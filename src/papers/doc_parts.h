/* doc_parts.h: the dossier as a small document in memory (run->scratch), rendered by two back ends, HTML and PDF.
 * A block is a heading, a paragraph, a list of cautions, a table, a finding, the verdict summary or a figure. */
#ifndef SW_PAPERS_DOC_PARTS_H
#define SW_PAPERS_DOC_PARTS_H

#include "papers/papers_parts.h"

typedef enum doc_kind {
    DOC_HEADING,
    DOC_PARAGRAPH,
    DOC_ITEM,
    DOC_TABLE,
    DOC_FINDING,
    DOC_SUMMARY,
    DOC_FIGURE,
    DOC_PAGE
} doc_kind;

typedef struct doc_column {
    const char *title;
    double share;
    sw_align align;
} doc_column;
typedef struct doc_table {
    const doc_column *columns;
    size_t column_count;
    const char **cells; /* [rows x column_count] */
    size_t rows, room;  /* room: cells allocated */
    bool dense;         /* small print: long lists */
} doc_table;

typedef struct doc_book doc_book;
typedef sw_status doc_draw(sw_run *run, const doc_book *doc, size_t a, size_t b, sw_pen *pen, sw_box box);
typedef struct doc_figure {
    doc_draw *draw;
    size_t a, b;
    double height_mm;
    double least_mm; /* may be drawn as low as this where a page has no more room; 0 = not lower */
} doc_figure;        /* drawn into DOC_WIDTH_MM x height */

typedef struct doc_block {
    doc_kind kind;
    int level;        /* heading 1..2 */
    const char *text; /* heading, paragraph, item, caption */
    const doc_table *table;
    const sw_finding *finding;
    doc_figure figure;
    size_t counts[SW_VERDICTS]; /* summary: by verdict */
} doc_block;

struct doc_book {
    const sw_dossier *d;
    const paper_desk *desk;
    const sw_tested *tested; /* papers of a test alone */
    const sw_logged *logged; /* papers of the log alone */
    const char *title, *subtitle;
    doc_block *blocks;
    size_t count, room;
};

#define DOC_WIDTH_MM 174.0 /* of the text column: A4 less 18 mm on both sides */

sw_status doc_add(sw_run *run, doc_book *doc, doc_block block);
sw_status doc_summary(sw_run *run, doc_book *doc, size_t counts[SW_VERDICTS]); /* findings by verdict; counts of each */
sw_status doc_heading(sw_run *run, doc_book *doc, int level, const char *text);
sw_status doc_paragraph(sw_run *run, doc_book *doc, const char *text);      /* NULL text = no memory */
sw_status doc_row(sw_run *run, doc_table *table, const char *const *cells); /* NULL cell = no memory */
sw_status doc_put_table(sw_run *run, doc_book *doc, const doc_table *table);

/* Lines that fit most_mm, broken at spaces (and inside words longer than a line); in scratch. */
typedef struct doc_measure {
    double height_mm, most_mm;
    bool bold;
} doc_measure;
typedef struct doc_lines {
    const char **lines;
    size_t count;
} doc_lines;
sw_status doc_wrap(sw_run *run, lettering *letters, doc_measure measure, const char *text, doc_lines *out);
/* Bytes of the text that go on its first line; the blanks behind them are not counted. */
size_t doc_first_line(lettering *letters, doc_measure measure, const char *text);

sw_status doc_to_html(sw_run *run, const doc_book *doc, const char *path);
sw_status doc_to_pdf(sw_run *run, const doc_book *doc, const char *path);
extern const char doc_html_style[];

/* What the dossier holds, in order; dossier_*.c. */
sw_status dossier_front(sw_run *run, doc_book *doc);
sw_status dossier_masses(sw_run *run, doc_book *doc);
sw_status dossier_pieces(sw_run *run, doc_book *doc);
sw_status dossier_bends(sw_run *run, doc_book *doc);
sw_status dossier_nests(sw_run *run, doc_book *doc);
sw_status dossier_figures(sw_run *run, doc_book *doc);
sw_status dossier_burning(sw_run *run, doc_book *doc);
sw_status dossier_housed(sw_run *run, doc_book *doc);
sw_status dossier_workshop(sw_run *run, doc_book *doc);
sw_status dossier_headlines(sw_run *run, doc_book *doc); /* of the workshop, for the front page */
sw_status dossier_reckoned(sw_run *run, doc_book *doc);
sw_status dossier_cautions(sw_run *run, doc_book *doc);
sw_status dossier_holding(sw_run *run, doc_book *doc);

#endif
