/* dxf_write.c: a drawing as ASCII DXF with R12 entities. Layers are declared with a colour each, so that a
 * program that shows or cuts the file can tell cuts, etching and bend lines apart. */
#include "dxf/dxf_parts.h"

#include <string.h>

/* Colour numbers of the DXF reference: 1 red, 3 green, 5 blue, 7 black or white. ours: which layer has which */
typedef struct layer_colour {
    const char *layer;
    unsigned colour;
} layer_colour;
static const layer_colour colours[] = {{"CUT", 1}, {"BEND", 3}, {"ETCH", 5}};

static unsigned colour_of(const char *layer)
{
    for (size_t k = 0; k < sizeof colours / sizeof *colours; k++)
        if (strcmp(colours[k].layer, layer) == 0) return colours[k].colour;
    return 7;
}

static const char *named(const char *layer)
{
    return layer == NULL || *layer == '\0' ? "0" : layer;
}

/* Lengths to half a millionth of a micrometre, far below SW_SAME_POINT_MM; bulges and angles count with the lengths they
 * turn. Ours */
enum { LENGTH_DECIMALS = 9, TURN_DECIMALS = 12, PAIR_ROOM = SW_NUMBER_ROOM + 4 };

static char *digits_at(char *at, uint32_t whole)
{
    char digits[10], *first = digits + sizeof digits;
    do *--first = (char)('0' + whole % 10);
    while ((whole /= 10) > 0);
    size_t length = (size_t)(digits + sizeof digits - first);
    memcpy(at, first, length);
    return at + length;
}

/* A length with LENGTH_DECIMALS, without zeros at the end; whole and broken millimetres as one small number each. */
static char *length_at(char *at, double value_mm)
{
    enum { PART = 1000000000, MOST_MM = 1000000 };
    if (!(fabs(value_mm) < MOST_MM)) return at + sw_number_trimmed(at, value_mm, LENGTH_DECIMALS);
    uint64_t scaled = (uint64_t)(fabs(value_mm) * PART + 0.5);
    uint32_t part = (uint32_t)(scaled % PART);
    if (value_mm < 0.0 && scaled > 0) *at++ = '-';
    at = digits_at(at, (uint32_t)(scaled / PART));
    if (part == 0) return at;
    char *point = at;
    (void)digits_at(point, part + PART); /* ten digits: the first one makes room for the point */
    *point = '.';
    at += 1 + LENGTH_DECIMALS;
    while (at[-1] == '0') at--;
    return at;
}

/* A pair of a group code, given as its line, and a number. */
static char *pair_at(char *at, const char code[3], double value, int decimals)
{
    memcpy(at, code, 3);
    at = decimals == LENGTH_DECIMALS ? length_at(at + 3, value) : at + 3 + sw_number_trimmed(at + 3, value, decimals);
    *at++ = '\n';
    return at;
}

static void put_decimal(sw_writer *writer, const char code[3], double value, int decimals)
{
    char *room = sw_write_room(writer, PAIR_ROOM);
    if (room != NULL) sw_wrote(writer, (size_t)(pair_at(room, code, value, decimals) - room));
}

static void put_number(sw_writer *writer, const char code[3], double value)
{
    put_decimal(writer, code, value, LENGTH_DECIMALS);
}

static void put_whole(sw_writer *writer, const char *code, size_t value)
{
    sw_write_text(writer, code);
    sw_write_scaled(writer, (int64_t)value, 0);
    sw_write_text(writer, "\n");
}

/* Code point of the UTF-8 at text, and its length; bytes that are none count as '?'. */
static size_t decode(const char *text, unsigned *code)
{
    const unsigned char *s = (const unsigned char *)text;
    size_t length = s[0] < 0x80 ? 1 : s[0] < 0xE0 ? 2 : s[0] < 0xF0 ? 3 : 4;
    if (length == 1 || strlen(text) < length || !sw_text_is_utf8(text, length)) {
        *code = s[0] < 0x80 ? s[0] : '?';
        return 1;
    }
    *code = length == 2 ? s[0] & 0x1Fu : length == 3 ? s[0] & 0x0Fu : s[0] & 0x07u;
    for (size_t i = 1; i < length; i++) *code = (*code << 6) | (s[i] & 0x3Fu);
    return length;
}

static void put_character(sw_writer *writer, unsigned point)
{
    if (point < 0x20)
        sw_write_text(writer, " ");
    else
        sw_print(writer, "\\U+%04X", point > 0xFFFF ? '?' : point);
}

/* Text in ASCII: other characters as \U+XXXX, control characters as a blank, those beyond that form as '?'. */
static void put_text(sw_writer *writer, const char *code, const char *text)
{
    sw_write_text(writer, code);
    while (*text != '\0') {
        unsigned point;
        size_t plain = 0;
        while (text[plain] >= 0x20 && text[plain] < 0x7F) plain++;
        sw_write(writer, text, plain);
        text += plain;
        if (*text == '\0') break;
        text += decode(text, &point);
        put_character(writer, point);
    }
    sw_write_text(writer, "\n");
}

/* kind: the entity's first two lines and the code of its layer. */
static void put_entity(sw_writer *writer, const char *kind, const char *layer)
{
    put_text(writer, kind, named(layer));
}

static bool is_circle(const sw_dxf_path *path)
{
    if (!path->closed || path->n != 2) return false;
    double a = path->v[0].bulge, b = path->v[1].bulge;
    return fabs(fabs(a) - 1.0) < 1e-15 && a == b;
}

static void put_circle(sw_writer *writer, const sw_dxf_path *path)
{
    sw_vertex a = path->v[0], b = path->v[1];
    put_entity(writer, "0\nCIRCLE\n8\n", path->layer);
    put_number(writer, "10\n", 0.5 * (a.x_mm + b.x_mm));
    put_number(writer, "20\n", 0.5 * (a.y_mm + b.y_mm));
    sw_write_text(writer, "30\n0\n");
    put_number(writer, "40\n", 0.5 * hypot(b.x_mm - a.x_mm, b.y_mm - a.y_mm));
}

static void put_line(sw_writer *writer, const sw_dxf_path *path)
{
    put_entity(writer, "0\nLINE\n8\n", path->layer);
    put_number(writer, "10\n", path->v[0].x_mm);
    put_number(writer, "20\n", path->v[0].y_mm);
    sw_write_text(writer, "30\n0\n");
    put_number(writer, "11\n", path->v[1].x_mm);
    put_number(writer, "21\n", path->v[1].y_mm);
    sw_write_text(writer, "31\n0\n");
}

enum { HEAD_ROOM = 80 };

/* The lines before a vertex's numbers, where its layer is short and plain; how many bytes, 0 = it is not. */
static size_t vertex_head(char out[HEAD_ROOM], const char *layer)
{
    static const char kind[] = "0\nVERTEX\n8\n";
    size_t length = strlen(layer), start = sizeof kind - 1;
    if (start + length + 1 > HEAD_ROOM) return 0;
    for (size_t i = 0; i < length; i++)
        if (layer[i] < 0x20 || layer[i] >= 0x7F) return 0;
    memcpy(out, kind, start);
    memcpy(out + start, layer, length);
    out[start + length] = '\n';
    return start + length + 1;
}

static void put_vertex(sw_writer *writer, const sw_vertex *v, bool bulged)
{
    char *room = sw_write_room(writer, 4 * PAIR_ROOM), *at = room;
    if (room == NULL) return;
    at = pair_at(at, "10\n", v->x_mm, LENGTH_DECIMALS);
    at = pair_at(at, "20\n", v->y_mm, LENGTH_DECIMALS);
    memcpy(at, "30\n0\n", 5);
    at += 5;
    if (bulged) at = pair_at(at, "42\n", v->bulge, TURN_DECIMALS);
    sw_wrote(writer, (size_t)(at - room));
}

static void put_polyline(sw_writer *writer, const sw_dxf_path *path)
{
    char head[HEAD_ROOM];
    size_t head_length = vertex_head(head, named(path->layer));
    put_entity(writer, "0\nPOLYLINE\n8\n", path->layer);
    sw_write_text(writer, "66\n1\n10\n0\n20\n0\n30\n0\n");
    put_whole(writer, "70\n", path->closed ? 1 : 0);
    for (size_t i = 0; i < path->n; i++) {
        bool last = !path->closed && i + 1 == path->n;
        if (head_length > 0)
            sw_write(writer, head, head_length);
        else
            put_entity(writer, "0\nVERTEX\n8\n", path->layer);
        put_vertex(writer, &path->v[i], !last && path->v[i].bulge != 0);
    }
    put_entity(writer, "0\nSEQEND\n8\n", path->layer);
}

static void put_path(sw_writer *writer, const sw_dxf_path *path)
{
    if (is_circle(path))
        put_circle(writer, path);
    else if (!path->closed && path->n == 2 && path->v[0].bulge == 0.0)
        put_line(writer, path);
    else if (path->n >= 2)
        put_polyline(writer, path);
}

static void put_words(sw_writer *writer, const sw_dxf_text *text)
{
    put_entity(writer, "0\nTEXT\n8\n", text->layer);
    put_number(writer, "10\n", text->at.x_mm);
    put_number(writer, "20\n", text->at.y_mm);
    sw_write_text(writer, "30\n0\n");
    put_number(writer, "40\n", text->height_mm);
    put_text(writer, "1\n", text->text == NULL ? "" : text->text);
    put_decimal(writer, "50\n", sw_deg_from_rad(text->turn_rad), TURN_DECIMALS);
}

/* ---- layers ------------------------------------------------------------------------- */

/* Layer of item i: paths first, then texts. */
static const char *layer_at(const sw_dxf_drawing *drawing, size_t i)
{
    return named(i < drawing->path_count ? drawing->paths[i].layer : drawing->texts[i - drawing->path_count].layer);
}

/* Whether item i is the first of its layer; layer 0 is declared anyway. */
static bool first_of_layer(const sw_dxf_drawing *drawing, size_t i)
{
    const char *layer = layer_at(drawing, i);
    if (strcmp(layer, "0") == 0) return false;
    for (size_t k = i; k-- > 0;)
        if (strcmp(layer_at(drawing, k), layer) == 0) return false;
    return true;
}

static void put_layer(sw_writer *writer, const char *layer)
{
    put_text(writer, "0\nLAYER\n2\n", layer);
    put_whole(writer, "70\n0\n62\n", colour_of(layer));
    sw_write_text(writer, "6\nCONTINUOUS\n");
}

static void put_tables(sw_writer *writer, const sw_dxf_drawing *drawing)
{
    size_t items = drawing->path_count + drawing->text_count, layers = 1;
    for (size_t i = 0; i < items; i++) layers += first_of_layer(drawing, i) ? 1 : 0;
    sw_write_text(writer, "0\nSECTION\n2\nTABLES\n0\nTABLE\n2\nLTYPE\n70\n1\n0\nLTYPE\n2\nCONTINUOUS\n70\n0\n"
                          "3\nSolid line\n72\n65\n73\n0\n40\n0\n0\nENDTAB\n0\nTABLE\n2\nLAYER\n");
    put_whole(writer, "70\n", layers);
    put_layer(writer, "0");
    for (size_t i = 0; i < items; i++)
        if (first_of_layer(drawing, i)) put_layer(writer, layer_at(drawing, i));
    sw_write_text(writer, "0\nENDTAB\n0\nENDSEC\n");
}

void sw_dxf_write(sw_writer *writer, const sw_dxf_drawing *drawing)
{
    sw_write_text(writer, "0\nSECTION\n2\nHEADER\n9\n$ACADVER\n1\nAC1009\n9\n$INSUNITS\n70\n4\n0\nENDSEC\n");
    put_tables(writer, drawing);
    sw_write_text(writer, "0\nSECTION\n2\nENTITIES\n");
    for (size_t i = 0; i < drawing->path_count; i++) put_path(writer, &drawing->paths[i]);
    for (size_t i = 0; i < drawing->text_count; i++) put_words(writer, &drawing->texts[i]);
    sw_write_text(writer, "0\nENDSEC\n0\nEOF\n");
}
