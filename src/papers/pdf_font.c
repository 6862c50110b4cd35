/* pdf_font.c: the letters a document uses, as a small TrueType font and the objects that describe it. A letter is a
 * code point: what is copied out of the document is what was written, also where the font has no outline for it.
 * Sources: ISO 32000-1:2008, 9.7 (composite fonts) and 9.10 (text); OpenType 1.9: glyf, loca, hmtx, maxp, head. */
#include "papers/pdf_parts.h"

#include <ft2build.h>
#include FT_FREETYPE_H
#include FT_TRUETYPE_TABLES_H

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { KNOWN = 0x250, MOST_LETTERS = 60000 };

unsigned pdf_font_letter(pdf_font *font, const lettering *letters, bool bold, uint32_t code)
{
    if (code < KNOWN && font->known[code] != 0) return font->known[code];
    for (size_t i = 0; code >= KNOWN && i < font->count; i++)
        if (font->letters[i].code == code) return (unsigned)i + 1;
    pdf_letter *all = heap_grow(font->letters, font->count, &font->room, sizeof *all, &font->no_memory);
    if (all == NULL || font->count >= MOST_LETTERS) return 0;
    font->letters = all;
    all[font->count++] = (pdf_letter){code, lettering_glyph(letters, bold, code)};
    if (code < KNOWN) font->known[code] = (uint16_t)font->count;
    return (unsigned)font->count;
}

void pdf_font_free(pdf_font *font)
{
    free(font->letters);
    *font = (pdf_font){0};
}

/* ---- tables of the whole font ---- */

typedef struct tables {
    byte_run head, hhea, maxp, hmtx, loca, cvt, fpgm, prep;
    FT_Face face;
    FT_ULong glyf_length; /* the largest one: of it, outlines are read one by one */
} tables;

static void load(FT_Face face, const char tag[4], byte_run *out)
{
    FT_ULong length = 0;
    FT_ULong name = FT_MAKE_TAG(tag[0], tag[1], tag[2], tag[3]);
    if (FT_Load_Sfnt_Table(face, name, 0, NULL, &length) != 0) return; /* an optional table that is not there */
    if (!bytes_reserve(out, length)) return;
    if (FT_Load_Sfnt_Table(face, name, 0, out->at, &length) == 0) out->used = length;
}

#define GLYF FT_MAKE_TAG('g', 'l', 'y', 'f')

static void load_all(FT_Face face, tables *t)
{
    t->face = face;
    if (FT_Load_Sfnt_Table(face, GLYF, 0, NULL, &t->glyf_length) != 0) t->glyf_length = 0;
    load(face, "head", &t->head);
    load(face, "hhea", &t->hhea);
    load(face, "maxp", &t->maxp);
    load(face, "hmtx", &t->hmtx);
    load(face, "loca", &t->loca);
    load(face, "cvt ", &t->cvt);
    load(face, "fpgm", &t->fpgm);
    load(face, "prep", &t->prep);
}

static void free_all(tables *t)
{
    byte_run *all[] = {&t->head, &t->hhea, &t->maxp, &t->hmtx, &t->loca, &t->cvt, &t->fpgm, &t->prep, NULL};
    for (size_t i = 0; all[i] != NULL; i++) bytes_free(all[i]);
}

static unsigned word_at(const byte_run *b, size_t at)
{
    return at + 2 <= b->used ? (unsigned)b->at[at] << 8 | b->at[at + 1] : 0;
}

static size_t long_at(const byte_run *b, size_t at)
{
    return (size_t)word_at(b, at) << 16 | word_at(b, at + 2);
}

static void set_word(unsigned char *at, unsigned value)
{
    at[0] = (unsigned char)(value >> 8);
    at[1] = (unsigned char)value;
}

static void put_word(byte_run *out, unsigned value)
{
    unsigned char word[2];
    set_word(word, value);
    bytes_put(out, word, 2);
}

static void put_long(byte_run *out, size_t value)
{
    put_word(out, (unsigned)(value >> 16) & 0xffffu);
    put_word(out, (unsigned)value & 0xffffu);
}

/* ---- the chosen glyphs ---- */

typedef struct choice {
    unsigned *glyphs; /* [count] in the whole font; the first is "no letter" */
    size_t count, room;
    byte_run glyf, loca, hmtx;
    bool no_memory;
} choice;

static unsigned chosen(choice *c, unsigned glyph) /* for parts of composed letters: its number, entered when new */
{
    for (size_t i = 0; i < c->count; i++)
        if (c->glyphs[i] == glyph) return (unsigned)i;
    unsigned *glyphs = heap_grow(c->glyphs, c->count, &c->room, sizeof *glyphs, &c->no_memory);
    if (glyphs == NULL) return 0;
    c->glyphs = glyphs;
    glyphs[c->count++] = glyph;
    return (unsigned)c->count - 1;
}

static bool outline_of(const tables *t, unsigned glyph, size_t *from, size_t *length)
{
    bool wide = word_at(&t->head, 50) != 0; /* indexToLocFormat */
    size_t a = wide ? long_at(&t->loca, 4 * (size_t)glyph) : 2 * (size_t)word_at(&t->loca, 2 * (size_t)glyph);
    size_t b = wide ? long_at(&t->loca, 4 * (size_t)glyph + 4) : 2 * (size_t)word_at(&t->loca, 2 * (size_t)glyph + 2);
    *from = a;
    *length = b > a && b <= t->glyf_length ? b - a : 0;
    return *length >= 10;
}

/* Letters composed of others name them by number: the names are set to the new numbers. */
static void rename_parts(choice *c, unsigned char *outline, size_t length)
{
    enum { WORDS = 1, SCALE = 8, MORE = 32, TWO_SCALES = 64, MATRIX = 128 };
    if ((outline[0] & 0x80u) == 0) return; /* a count of contours, not of parts */
    for (size_t at = 10; at + 4 <= length;) {
        unsigned flags = (unsigned)outline[at] << 8 | outline[at + 1];
        unsigned part = (unsigned)outline[at + 2] << 8 | outline[at + 3];
        set_word(outline + at + 2, chosen(c, part));
        at += 4 + ((flags & WORDS) != 0 ? 4u : 2u);
        at += (flags & MATRIX) != 0 ? 8u : (flags & TWO_SCALES) != 0 ? 4u : (flags & SCALE) != 0 ? 2u : 0u;
        if ((flags & MORE) == 0) return;
    }
}

static void add_outline(choice *c, const tables *t, unsigned glyph)
{
    size_t from = 0, length = 0, begun = c->glyf.used;
    put_long(&c->loca, begun);
    if (!outline_of(t, glyph, &from, &length)) return;
    if (!bytes_reserve(&c->glyf, length)) return;
    FT_ULong wanted = length; /* 0 would ask how much there is */
    if (FT_Load_Sfnt_Table(t->face, GLYF, (FT_Long)from, c->glyf.at + begun, &wanted) != 0) return;
    c->glyf.used += length;
    rename_parts(c, c->glyf.at + begun, length);
    while (c->glyf.used % 4 != 0 && !c->glyf.no_memory) bytes_put(&c->glyf, "", 1);
}

static void add_metrics(choice *c, const tables *t, unsigned glyph)
{
    unsigned wide = word_at(&t->hhea, 34), last = glyph < wide ? glyph : wide - 1; /* numberOfHMetrics */
    put_word(&c->hmtx, word_at(&t->hmtx, 4 * (size_t)last));
    put_word(&c->hmtx, word_at(&t->hmtx, glyph < wide ? 4 * (size_t)glyph + 2 : 4 * (size_t)wide + 2 * (glyph - wide)));
}

static void choose(choice *c, const pdf_font *font, const tables *t)
{
    for (size_t i = 0; i <= font->count; i++) {
        unsigned *glyphs = heap_grow(c->glyphs, c->count, &c->room, sizeof *glyphs, &c->no_memory);
        if (glyphs == NULL) return;
        c->glyphs = glyphs;
        glyphs[c->count++] = i == 0 ? 0 : font->letters[i - 1].glyph;
    }
    for (size_t i = 0; i < c->count && !c->no_memory; i++) { /* grows while parts are found */
        add_outline(c, t, c->glyphs[i]);
        add_metrics(c, t, c->glyphs[i]);
    }
    put_long(&c->loca, c->glyf.used);
}

/* ---- the small font's file ---- */

static uint32_t sum_of(const byte_run *b) /* of its four-byte words, the last filled up with zeros */
{
    uint32_t sum = 0;
    size_t whole = b->used / 4 * 4;
    for (size_t i = 0; i < whole; i += 4)
        sum += (uint32_t)b->at[i] << 24 | (uint32_t)b->at[i + 1] << 16 | (uint32_t)b->at[i + 2] << 8 | b->at[i + 3];
    for (size_t i = whole; i < b->used; i++) sum += (uint32_t)b->at[i] << (24 - 8 * (i % 4));
    return sum;
}

typedef struct entry {
    const char *tag;
    const byte_run *data;
} entry;

static void put_file(const entry *entries, unsigned count, byte_run *out)
{
    unsigned step = 1, power = 0;
    while (step * 2 <= count) step *= 2, power++;
    put_long(out, 0x00010000);
    put_word(out, count);
    put_word(out, step * 16);
    put_word(out, power);
    put_word(out, (count - step) * 16);
    size_t at = 12 + 16 * (size_t)count;
    for (unsigned i = 0; i < count; i++) {
        bytes_put(out, entries[i].tag, 4);
        put_long(out, sum_of(entries[i].data));
        put_long(out, at);
        put_long(out, entries[i].data->used);
        at += (entries[i].data->used + 3) / 4 * 4;
    }
    for (unsigned i = 0; i < count; i++) {
        bytes_put(out, entries[i].data->at, entries[i].data->used);
        for (size_t n = entries[i].data->used; n % 4 != 0; n++) bytes_put(out, "", 1);
    }
}

void pdf_font_program(const pdf_font *font, const lettering *letters, bool bold, byte_run *out)
{
    tables t = {0};
    choice c = {0};
    load_all(lettering_face(letters, bold), &t);
    bool whole = t.head.used >= 54 && t.hhea.used >= 36 && t.maxp.used >= 6;
    if (whole) {
        choose(&c, font, &t);
        set_word(t.head.at + 50, 1); /* long places */
        set_word(t.hhea.at + 34, (unsigned)c.count);
        set_word(t.maxp.at + 4, (unsigned)c.count);
        const entry entries[] = {{"cvt ", &t.cvt},  {"fpgm", &t.fpgm}, {"glyf", &c.glyf},
                                 {"head", &t.head}, {"hhea", &t.hhea}, {"hmtx", &c.hmtx},
                                 {"loca", &c.loca}, {"maxp", &t.maxp}, {"prep", &t.prep}};
        put_file(entries, sizeof entries / sizeof *entries, out);
    }
    out->no_memory =
        out->no_memory || !whole || c.no_memory || c.glyf.no_memory || c.loca.no_memory || c.hmtx.no_memory;
    free_all(&t);
    free(c.glyphs);
    bytes_free(&c.glyf);
    bytes_free(&c.loca);
    bytes_free(&c.hmtx);
}
