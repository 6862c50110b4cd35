/* pdf_parts.h: between the files that write PDF 1.5 (ISO 32000-1:2008): the file of numbered objects, and the part of
 * a font that a document uses. */
#ifndef SW_PAPERS_PDF_PARTS_H
#define SW_PAPERS_PDF_PARTS_H

#include "papers/bytes_parts.h"
#include "papers/lettering_parts.h"

/* ---- file: objects are written once each, in any order ------------------------------------- */

typedef struct pdf_file {
    sw_writer *writer;
    size_t written;  /* bytes so far */
    size_t *offsets; /* [count] of object number + 1; 0 = not written */
    size_t count, room;
    bool no_memory;
} pdf_file;

void pdf_begin(pdf_file *f);     /* the header */
size_t pdf_reserve(pdf_file *f); /* number of a new object */
/* Writes the object's whole body, a dictionary or array. */
void pdf_object(pdf_file *f, size_t number, const byte_run *body);
/* A stream; `dictionary` holds its further entries. Packs the data, or takes it as packed already. */
void pdf_stream(pdf_file *f, size_t number, const char *dictionary, const byte_run *data, bool packed);
void pdf_end(pdf_file *f, size_t root, size_t info); /* cross-reference table and trailer */
void pdf_free(pdf_file *f);

/* Appends the text as a string object: UTF-16 in hexadecimal. */
void pdf_text(byte_run *out, const char *text);
void pdf_utf16(byte_run *out, uint32_t code); /* one code point of it */

/* ---- font: letters are numbered from 1 in the order of their first use --------------------- */

typedef struct pdf_letter {
    uint32_t code;
    unsigned glyph;
} pdf_letter;

typedef struct pdf_font {
    pdf_letter *letters; /* [count] */
    size_t count, room;
    uint16_t known[0x250]; /* number of a code point; 0 = not used yet */
    bool no_memory;
} pdf_font;

unsigned pdf_font_letter(pdf_font *font, const lettering *letters, bool bold, uint32_t code);
/* The letters' outlines as a TrueType font of their own: glyph number = letter number. */
void pdf_font_program(const pdf_font *font, const lettering *letters, bool bold, byte_run *out);
/* Writes the font's objects; `number` becomes the one pages refer to. */
void pdf_font_write(pdf_file *f, size_t number, const pdf_font *font, lettering *letters, bool bold);
void pdf_font_free(pdf_font *font);

#endif
