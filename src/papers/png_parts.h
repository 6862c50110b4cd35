/* png_parts.h: opaque pictures, packed once as the rows of a PNG. The packed rows serve PNG files, pictures inside SVG
 * and images in PDF alike. */
#ifndef SW_PAPERS_PNG_PARTS_H
#define SW_PAPERS_PNG_PARTS_H

#include "papers/bytes_parts.h"

typedef struct png_picture {
    const uint32_t *pixels; /* 0x00RRGGBB */
    int columns, rows;
    size_t stride; /* bytes from row to row */
} png_picture;

typedef struct png_packed {
    const unsigned char *rows; /* zlib stream of the filtered rows */
    size_t length;
    int columns, row_count;
    int colours; /* of the palette; 0 = three bytes a pixel */
    uint32_t palette[256];
} png_packed;

/* The rows are on the heap at into->at. With a palette where the picture has no more than 256 colours. false = no memory. */
bool png_pack(const png_picture *picture, byte_run *into, png_packed *out);
/* Appends the whole PNG file; pixels_per_m 0 = not told. */
void png_file(byte_run *out, const png_packed *packed, uint32_t pixels_per_m);

#endif
