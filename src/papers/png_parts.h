/* png_parts.h: opaque pictures as PNG bytes. */
#ifndef SW_PAPERS_PNG_PARTS_H
#define SW_PAPERS_PNG_PARTS_H

#include "base/base.h"

typedef struct png_picture {
    const uint32_t *pixels; /* 0x00RRGGBB */
    int columns, rows;
    size_t stride;         /* bytes from row to row */
    uint32_t pixels_per_m; /* 0 = not told */
} png_picture;

typedef void png_write(void *closure, const unsigned char *bytes, size_t length);

bool png_bytes(const png_picture *picture, png_write *write, void *closure); /* false = no memory */

#endif
