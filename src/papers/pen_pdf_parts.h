/* pen_pdf_parts.h: the state of a PDF document while it is drawn, and its pages and end (pen_pdf_document.c). */
#ifndef SW_PAPERS_PEN_PDF_PARTS_H
#define SW_PAPERS_PEN_PDF_PARTS_H

#include "papers/pdf_parts.h"
#include "papers/pen_parts.h"

enum { PDF_PLACES = 3, PDF_MATRIX_PLACES = 6 }; /* decimals of a millimetre, of a turn */

typedef struct pdf_page {
    size_t object;
    double width_mm, height_mm;
    char *title, *label; /* of the contents; NULL = none */
} pdf_page;

typedef struct pdf_image {
    const unsigned char *rows; /* of the packed picture; NULL = used once */
    size_t object;
} pdf_image;

typedef struct inks { /* as last told in this content; widths below 0 = not told */
    sw_ink fill, stroke;
    bool fill_told, stroke_told;
} inks;

typedef struct pen_pdf_state {
    pdf_file file;
    size_t pages_object, resources_object;
    byte_run content, outer; /* of the page; outer: the page's while a stamp is told */
    byte_run path;           /* waits until it is known which inks it gets: they stand before it */
    inks inks, outer_inks;
    bool on_page;
    sw_point here; /* end of the path so far */
    pdf_font fonts[2];
    pdf_page *pages;
    size_t page_count, page_room;
    pdf_image *images;
    size_t image_count, image_room;
    size_t *stamps; /* objects by number */
    size_t stamp_count, stamp_room;
} pen_pdf_state;

sw_status pdf_document_open(sw_run *run, sw_pen *pen);
void pdf_page_next(sw_pen *pen);
void pdf_page_entry(sw_pen *pen, const char *title, const char *label);
sw_status pdf_document_close(sw_run *run, sw_pen *pen);
void pdf_document_drop(sw_pen *pen);

#endif
