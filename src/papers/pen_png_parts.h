/* pen_png_parts.h: how much of each pixel of a page a line or a text covers, gathered for one colour at a time and then
 * laid over the page. Lengths are pixels, x right, y down, a pixel's middle at one half. */
#ifndef SW_PAPERS_PEN_PNG_PARTS_H
#define SW_PAPERS_PEN_PNG_PARTS_H

#include "papers/pen_parts.h"

typedef struct png_cover {
    unsigned char *shares; /* [rows x columns] 255 = wholly covered; all 0 between two colours */
    int columns, rows;
    int from_row, end_row; /* where there may be other than 0 */
} png_cover;

typedef struct png_dot {
    double x, y;
} png_dot;

bool png_cover_open(png_cover *cover, int columns, int rows); /* false = no memory */
void png_cover_close(png_cover *cover);
/* Rows from .. end - 1 may be written to. */
void png_cover_reach(png_cover *cover, double from_row, double end_row);
/* A straight line with round ends; where lines meet, the larger share counts: no blots. */
void png_cover_line(png_cover *cover, png_dot a, png_dot b, double width);
/* Lays the ink over pixels[rows x columns] (0x00RRGGBB) and clears the cover. */
void png_cover_ink(png_cover *cover, const sw_ink *ink, uint32_t *pixels);

#endif
