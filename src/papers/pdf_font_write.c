/* pdf_font_write.c: the objects of a composite font: itself, its descendant with the widths, its descriptor, its
 * outlines and the way back from letters to code points. Source: ISO 32000-1:2008, 9.7, 9.8 and 9.10.3. */
#include "papers/pdf_parts.h"

#include <ft2build.h>
#include FT_FREETYPE_H

enum { EM = 1000 }; /* glyph space of PDF: thousandths of an em */

static int thousandths(FT_Face face, FT_Pos units)
{
    return (int)(units * EM / face->units_per_EM);
}

static void descriptor(pdf_file *f, size_t number, size_t outlines, FT_Face face, const char *name)
{
    byte_run b = {0};
    bytes_print(&b,
                "<</Type/FontDescriptor/FontName/%s/Flags 4/FontBBox[%d %d %d %d]/ItalicAngle 0/Ascent %d/Descent %d"
                "/CapHeight 729/StemV 90/FontFile2 %zu 0 R>>",
                name, thousandths(face, face->bbox.xMin), thousandths(face, face->bbox.yMin),
                thousandths(face, face->bbox.xMax), thousandths(face, face->bbox.yMax),
                thousandths(face, face->ascender), thousandths(face, face->descender), outlines);
    pdf_object(f, number, &b);
    bytes_free(&b);
}

static void descendant(pdf_file *f, size_t number, size_t about, const pdf_font *font, lettering *letters, bool bold,
                       const char *name)
{
    byte_run b = {0};
    bytes_print(&b,
                "<</Type/Font/Subtype/CIDFontType2/BaseFont/%s/CIDSystemInfo<</Registry(Adobe)/Ordering(Identity)"
                "/Supplement 0>>/FontDescriptor %zu 0 R/CIDToGIDMap/Identity/DW 600/W[1[",
                name, about);
    for (size_t i = 0; i < font->count; i++) {
        bytes_number(&b, lettering_advance(letters, bold, font->letters[i].code) / LETTER_EM * EM, 3);
        bytes_put(&b, " ", 1);
    }
    bytes_text(&b, "]]>>");
    pdf_object(f, number, &b);
    bytes_free(&b);
}

/* Which code point each letter stands for, so that text can be searched and copied. */
static void to_unicode(pdf_file *f, size_t number, const pdf_font *font)
{
    enum { BLOCK = 100 }; /* entries a block may have */
    byte_run b = {0};
    bytes_text(&b, "/CIDInit/ProcSet findresource begin 12 dict begin begincmap/CMapType 2 def/CMapName/letters def "
                   "1 begincodespacerange<0000><FFFF>endcodespacerange\n");
    for (size_t i = 0; i < font->count; i++) {
        size_t left = font->count - i;
        if (i % BLOCK == 0) bytes_print(&b, "%zu beginbfchar\n", left < BLOCK ? left : (size_t)BLOCK);
        bytes_text(&b, "<");
        bytes_hex(&b, (uint32_t)i + 1, 4);
        bytes_text(&b, "><");
        pdf_utf16(&b, font->letters[i].code);
        bytes_text(&b, ">\n");
        if (i % BLOCK == BLOCK - 1 || left == 1) bytes_text(&b, "endbfchar\n");
    }
    bytes_text(&b, "endcmap CMapName currentdict/CMap defineresource pop end end\n");
    pdf_stream(f, number, "", &b, false);
    bytes_free(&b);
}

static void write_outlines(pdf_file *f, size_t number, const pdf_font *font, const lettering *letters, bool bold)
{
    byte_run program = {0}, entry = {0};
    pdf_font_program(font, letters, bold, &program);
    bytes_print(&entry, "/Length1 %zu%c", program.used, '\0');
    if (!entry.no_memory) pdf_stream(f, number, (const char *)entry.at, &program, false);
    f->no_memory = f->no_memory || entry.no_memory;
    bytes_free(&program);
    bytes_free(&entry);
}

void pdf_font_write(pdf_file *f, size_t number, const pdf_font *font, lettering *letters, bool bold)
{
    const char *name = bold ? "SWPART+DejaVuSans-Bold" : "SWPART+DejaVuSans"; /* six letters: part of a font */
    size_t inner = pdf_reserve(f), about = pdf_reserve(f), outlines = pdf_reserve(f), codes = pdf_reserve(f);
    byte_run b = {0};
    write_outlines(f, outlines, font, letters, bold);
    descriptor(f, about, outlines, lettering_face(letters, bold), name);
    descendant(f, inner, about, font, letters, bold, name);
    to_unicode(f, codes, font);
    bytes_print(
        &b, "<</Type/Font/Subtype/Type0/BaseFont/%s/Encoding/Identity-H/DescendantFonts[%zu 0 R]/ToUnicode %zu 0 R>>",
        name, inner, codes);
    pdf_object(f, number, &b);
    bytes_free(&b);
    f->no_memory = f->no_memory || font->no_memory;
}
