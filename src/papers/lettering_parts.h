/* lettering_parts.h: one font in two weights, shared by all pens of one thread. Lengths are mm for capitals of 1 mm. */
#ifndef SW_PAPERS_LETTERING_PARTS_H
#define SW_PAPERS_LETTERING_PARTS_H

#include "base/base.h"

/* Em size for capitals of 1 mm. */
#define LETTER_EM (1.0 / 0.729) /* DejaVu Sans: capitals are 0.729 em high (OS/2 sCapHeight 1493 of 2048) */

typedef struct lettering lettering;

/* SW_IO when the fonts are not installed. Lives until closed; not for two threads at once. */
sw_status lettering_open(sw_run *run, lettering **letters);
void lettering_close(lettering *letters); /* NULL is allowed */

double lettering_width(lettering *letters, bool bold, const char *text);      /* UTF-8 */
double lettering_advance(lettering *letters, bool bold, uint32_t code);       /* of one code point */
unsigned lettering_glyph(const lettering *letters, bool bold, uint32_t code); /* 0 = the font has none */
struct FT_FaceRec_ *lettering_face(const lettering *letters, bool bold);
/* The next code point of UTF-8 text, which moves on; 0 at its end, U+FFFD for what is no letter. */
uint32_t lettering_code(const char **text);

#endif
