/* lettering.c: finds the two fonts where they usually are or through fontconfig, and measures text from their own tables: the width of a text is
 * the sum of its letters' advances, so it is the same on every kind of page. */
#include "papers/lettering_parts.h"

#include <fontconfig/fontconfig.h>
#include <ft2build.h>
#include FT_FREETYPE_H
#include FT_ADVANCES_H
#include FT_TRUETYPE_TABLES_H

#include <string.h>

enum { TABLE = 0x250 }; /* code points remembered: Latin with its extensions */

struct lettering {
    FT_Library library;
    FT_Face faces[2];          /* plain, bold */
    double advances[2][TABLE]; /* capitals of 1 mm; 0 = not asked yet */
};

static bool find_file(bool bold, char *path, size_t room)
{
    FcPattern *wish = FcPatternCreate(), *found = NULL;
    FcChar8 *file = NULL;
    FcResult result = FcResultNoMatch;
    if (wish == NULL) return false;
    FcPatternAddString(wish, FC_FAMILY, (const FcChar8 *)"DejaVu Sans");
    FcPatternAddInteger(wish, FC_WEIGHT, bold ? FC_WEIGHT_BOLD : FC_WEIGHT_NORMAL);
    FcConfigSubstitute(NULL, wish, FcMatchPattern);
    FcDefaultSubstitute(wish);
    found = FcFontMatch(NULL, wish, &result);
    bool named = found != NULL && FcPatternGetString(found, FC_FILE, 0, &file) == FcResultMatch &&
                 strlen((const char *)file) < room;
    if (named) memcpy(path, file, strlen((const char *)file) + 1);
    if (found != NULL) FcPatternDestroy(found);
    FcPatternDestroy(wish);
    return named;
}

/* Where the fonts' own package puts them on most systems: asking fontconfig costs far more than all letters do. */
static bool open_usual(const lettering *l, bool bold, FT_Face *face)
{
    return FT_New_Face(l->library,
                       bold ? "/usr/share/fonts/truetype/dejavu/DejaVuSans-Bold.ttf"
                            : "/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf",
                       0, face) == 0;
}

static bool open_found(const lettering *l, bool bold, FT_Face *face)
{
    char path[1024];
    return find_file(bold, path, sizeof path) && FT_New_Face(l->library, path, 0, face) == 0;
}

/* The outlines must be TrueType's: documents carry the part of the font they use. */
static bool open_face(lettering *l, bool bold)
{
    FT_Face *face = &l->faces[bold ? 1 : 0];
    FT_ULong length = 0;
    if (!open_usual(l, bold, face) && !open_found(l, bold, face)) return false;
    return FT_Load_Sfnt_Table(*face, FT_MAKE_TAG('g', 'l', 'y', 'f'), 0, NULL, &length) == 0 && length > 0;
}

sw_status lettering_open(sw_run *run, lettering **letters)
{
    *letters = NULL;
    lettering *l = SW_KEEP(run, 1, lettering);
    if (l == NULL) return SW_NO_MEMORY;
    if (FT_Init_FreeType(&l->library) != 0)
        return sw_fail(run, SW_NO_MEMORY, (sw_place){0}, "lettering", "no memory for fonts; allow more memory");
    if (!open_face(l, false) || !open_face(l, true)) {
        lettering_close(l);
        return sw_fail(
            run, SW_IO, (sw_place){0}, "lettering",
            "no usable font was found for \"DejaVu Sans\", plain and bold; a TrueType font is needed: install "
            "the package fonts-dejavu-core");
    }
    *letters = l;
    return SW_OK;
}

void lettering_close(lettering *l)
{
    if (l == NULL) return;
    for (int i = 0; i < 2; i++)
        if (l->faces[i] != NULL) FT_Done_Face(l->faces[i]);
    if (l->library != NULL) FT_Done_FreeType(l->library);
    memset(l, 0, sizeof *l);
}

struct FT_FaceRec_ *lettering_face(const lettering *l, bool bold)
{
    return l->faces[bold ? 1 : 0];
}

unsigned lettering_glyph(const lettering *l, bool bold, uint32_t code)
{
    return FT_Get_Char_Index(l->faces[bold ? 1 : 0], code);
}

static double ask_advance(const lettering *l, bool bold, uint32_t code)
{
    FT_Face face = l->faces[bold ? 1 : 0];
    FT_Fixed units = 0;
    if (FT_Get_Advance(face, FT_Get_Char_Index(face, code), FT_LOAD_NO_SCALE, &units) != 0) return 0.0;
    return (double)units / face->units_per_EM * LETTER_EM;
}

double lettering_advance(lettering *l, bool bold, uint32_t code)
{
    if (code < ' ') return 0.0; /* controls are not written */
    if (code >= TABLE) return ask_advance(l, bold, code);
    double *known = &l->advances[bold ? 1 : 0][code];
    if (*known == 0.0) *known = ask_advance(l, bold, code);
    return *known;
}

uint32_t lettering_code(const char **text)
{
    const unsigned char *c = (const unsigned char *)*text;
    if (c[0] == '\0') return 0;
    int more = c[0] < 0x80 ? 0 : c[0] >= 0xf0 ? 3 : c[0] >= 0xe0 ? 2 : c[0] >= 0xc0 ? 1 : -1;
    uint32_t code = more <= 0 ? c[0] : c[0] & (0x3fu >> more);
    int i = 1;
    for (; i <= more && (c[i] & 0xc0u) == 0x80u; i++) code = code << 6 | (c[i] & 0x3fu);
    *text += i;
    return more < 0 || i <= more ? 0xfffdu : code; /* the sign for what is no letter */
}

double lettering_width(lettering *l, bool bold, const char *text)
{
    double sum = 0.0;
    for (uint32_t code = lettering_code(&text); code != 0; code = lettering_code(&text))
        sum += lettering_advance(l, bold, code);
    return sum;
}
