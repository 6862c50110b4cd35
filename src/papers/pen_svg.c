/* pen_svg.c: the pen as SVG 1.1, one page. Text stays text; its measured length is told as textLength, so that it
 * keeps its place where the font is another one. Lengths are written to a thousandth of a millimetre. */
#include "papers/pen_parts.h"

#include <math.h>
#include <string.h>

enum { PLACES = 3, FULL = 1 << 15 }; /* decimals; bytes after which the writer gets them */

static void put(sw_pen *pen, const char *text)
{
    bytes_text(&pen->out, text);
}

static void number(sw_pen *pen, const char *before, double value, int decimals)
{
    bytes_text(&pen->out, before);
    bytes_number(&pen->out, value, decimals);
}

static void hand_over(sw_pen *pen)
{
    if (pen->out.no_memory) return;
    sw_write(pen->writer, pen->out.at, pen->out.used);
    pen->out.used = 0;
}

static void element_done(sw_pen *pen)
{
    if (pen->out.used >= FULL) hand_over(pen);
}

static sw_status open_svg(sw_run *run, sw_pen *pen)
{
    (void)run;
    double w = pen->width_mm, h = pen->height_mm;
    if (!pen->lent) put(pen, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
    put(pen, "<svg xmlns=\"http://www.w3.org/2000/svg\" xmlns:xlink=\"http://www.w3.org/1999/xlink\"");
    number(pen, " width=\"", w, PLACES);
    number(pen, "mm\" height=\"", h, PLACES);
    number(pen, "mm\" viewBox=\"0 0 ", w, PLACES);
    number(pen, " ", h, PLACES);
    put(pen, "\" font-family=\"'DejaVu Sans', Verdana, sans-serif\" stroke-linejoin=\"round\" "
             "stroke-linecap=\"round\" fill-rule=\"evenodd\">\n");
    if (pen->lent) return SW_OK;
    number(pen, "<rect width=\"", w, PLACES);
    number(pen, "\" height=\"", h, PLACES);
    put(pen, "\" fill=\"#ffffff\"/>\n");
    return SW_OK;
}

static void begin(sw_pen *pen)
{
    put(pen, "<path d=\"");
}

static void pair(sw_pen *pen, const char *before, sw_point p)
{
    const double values[2] = {p.x_mm, p.y_mm};
    put(pen, before);
    bytes_numbers(&pen->out, values, 2, PLACES);
}

static void move(sw_pen *pen, sw_point to)
{
    pair(pen, "M", to);
}
static void line(sw_pen *pen, sw_point to)
{
    pair(pen, "L", to);
}
static void shut(sw_pen *pen)
{
    put(pen, "Z");
}

static void arc(sw_pen *pen, sw_arc a, sw_point to)
{
    int large = fabs(a.sweep_rad) > SW_PI ? 1 : 0, forward = a.sweep_rad > 0.0 ? 1 : 0;
    number(pen, "A", a.radius_mm, PLACES);
    number(pen, " ", a.radius_mm, PLACES);
    put(pen, large != 0 ? " 0 1" : " 0 0");
    pair(pen, forward != 0 ? " 1 " : " 0 ", to);
}

static unsigned byte_of(double share)
{
    return (unsigned)(255.0 * fmin(1.0, fmax(0.0, share)) + 0.5);
}

static void colour(sw_pen *pen, const char *before, const sw_ink *ink)
{
    static const char digits[] = "0123456789abcdef";
    const unsigned channels[3] = {byte_of(ink->r), byte_of(ink->g), byte_of(ink->b)};
    char text[8] = "#";
    for (int i = 0; i < 3; i++) {
        text[1 + 2 * i] = digits[channels[i] >> 4];
        text[2 + 2 * i] = digits[channels[i] & 15u];
    }
    put(pen, before);
    bytes_put(&pen->out, text, 7);
}

static void paint(sw_pen *pen, const pen_paint *p)
{
    const sw_ink *ink = &p->stroke_ink;
    if (p->fill)
        colour(pen, "\" fill=\"", &p->fill_ink);
    else
        put(pen, "\" fill=\"none");
    if (p->stroke) {
        colour(pen, "\" stroke=\"", ink);
        number(pen, "\" stroke-width=\"", ink->width_mm, PLACES);
    }
    for (int i = 0; p->stroke && i < ink->dashes; i++)
        number(pen, i == 0 ? "\" stroke-dasharray=\"" : " ", ink->dash_mm[i], PLACES);
    put(pen, "\"/>\n");
    element_done(pen);
}

static void escaped(sw_pen *pen, const char *text)
{
    for (const char *c = text; *c != '\0'; c++) {
        if (*c == '<')
            put(pen, "&lt;");
        else if (*c == '>')
            put(pen, "&gt;");
        else if (*c == '&')
            put(pen, "&amp;");
        else if ((unsigned char)*c >= ' ')
            bytes_put(&pen->out, c, 1);
    }
}

static void text_svg(sw_pen *pen, sw_point at, const pen_type *type, double width_mm, const char *text)
{
    number(pen, "<text x=\"", at.x_mm, PLACES);
    number(pen, "\" y=\"", at.y_mm, PLACES);
    number(pen, "\" font-size=\"", type->height_mm * LETTER_EM, PLACES);
    number(pen, "\" textLength=\"", width_mm, PLACES);
    put(pen, "\" lengthAdjust=\"spacingAndGlyphs");
    colour(pen, "\" fill=\"", &type->ink);
    if (type->bold) put(pen, "\" font-weight=\"bold");
    if (type->turn_rad != 0.0) {
        number(pen, "\" transform=\"rotate(", -sw_deg_from_rad(type->turn_rad), PLACES);
        pair(pen, " ", at);
        put(pen, ")");
    }
    put(pen, "\">");
    escaped(pen, text);
    put(pen, "</text>\n");
    element_done(pen);
}

/* ---- stamps: a symbol told once, and placed ---- */

static void tell(sw_pen *pen, const pen_stamp *s)
{
    bytes_print(&pen->out, "<defs><g id=\"s%zu\">", s->number);
    pen_told(pen, s);
    put(pen, "</g></defs>\n");
}

static void stamp(sw_pen *pen, const pen_stamp *s, sw_motion motion, sw_point at)
{
    sw_point o = pen_on_page(motion, s->scale, at, (sw_point){0});
    put(pen, "<use xlink:href=\"#s");
    bytes_count(&pen->out, s->number);
    put(pen, "\"");
    if (motion.turn_rad == 0.0 && !motion.mirror) {
        number(pen, " x=\"", o.x_mm, PLACES);
        number(pen, "\" y=\"", o.y_mm, PLACES);
        put(pen, "\"/>\n");
        return;
    }
    double matrix[4];
    pen_turned_axes(motion, matrix);
    for (int i = 0; i < 4; i++) number(pen, i == 0 ? " transform=\"matrix(" : " ", matrix[i], 6);
    pair(pen, " ", o);
    put(pen, ")\"/>\n");
    element_done(pen);
}

/* ---- pictures: PNG in base 64 (RFC 4648, section 4) ---- */

static void base64(byte_run *out, const unsigned char *data, size_t length)
{
    static const char digits[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    if (!bytes_reserve(out, length / 3 * 4 + 4)) return;
    unsigned char *to = out->at + out->used;
    for (size_t i = 0; i < length; i += 3, to += 4) {
        size_t left = length - i;
        unsigned bits =
            (unsigned)data[i] << 16 | (left > 1 ? (unsigned)data[i + 1] << 8 : 0) | (left > 2 ? data[i + 2] : 0);
        for (int k = 0; k < 4; k++) to[k] = (unsigned char)digits[bits >> (18 - 6 * k) & 63u];
        if (left < 3) to[3] = '=';
        if (left < 2) to[2] = '=';
    }
    out->used = (size_t)(to - out->at);
}

static void picture_svg(sw_pen *pen, sw_box box, const pen_picture *picture)
{
    byte_run rows = {0}, file = {0};
    png_packed made;
    const png_packed *packed = pen_packed(picture, &rows, &made);
    if (packed == NULL)
        pen->no_memory = true;
    else
        png_file(&file, packed, 0);
    number(pen, "<image x=\"", box.x0_mm, PLACES);
    number(pen, "\" y=\"", box.y0_mm, PLACES);
    number(pen, "\" width=\"", box.x1_mm - box.x0_mm, PLACES);
    number(pen, "\" height=\"", box.y1_mm - box.y0_mm, PLACES);
    put(pen, "\" preserveAspectRatio=\"none\" xlink:href=\"data:image/png;base64,");
    base64(&pen->out, file.at, file.used);
    put(pen, "\"/>\n");
    pen->no_memory = pen->no_memory || file.no_memory;
    bytes_free(&rows);
    bytes_free(&file);
    element_done(pen);
}

static sw_status close_svg(sw_run *run, sw_pen *pen)
{
    (void)run;
    put(pen, "</svg>\n");
    hand_over(pen);
    return SW_OK;
}

const pen_kind pen_svg = {.open = open_svg,
                          .begin = begin,
                          .move = move,
                          .line = line,
                          .arc = arc,
                          .shut = shut,
                          .paint = paint,
                          .text = text_svg,
                          .picture = picture_svg,
                          .tell = tell,
                          .stamp = stamp,
                          .close = close_svg};
