/* pen_svg.c: the pen as SVG 1.1, one page. Text stays text; its measured length is told as textLength, so that it
 * keeps its place where the font is another one. */
#include "papers/pen_parts.h"
#include "papers/png_parts.h"

#include <math.h>

static sw_status open_svg(sw_run *run, sw_pen *pen)
{
    (void)run;
    if (!pen->lent) sw_print(pen->writer, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
    sw_print(pen->writer,
             "<svg xmlns=\"http://www.w3.org/2000/svg\" xmlns:xlink=\"http://www.w3.org/1999/xlink\" width=\"%.6gmm\" "
             "height=\"%.6gmm\" viewBox=\"0 0 %.6g %.6g\" font-family=\"'DejaVu Sans', Verdana, sans-serif\">\n",
             pen->width_mm, pen->height_mm, pen->width_mm, pen->height_mm);
    if (!pen->lent)
        sw_print(pen->writer, "<rect width=\"%.6g\" height=\"%.6g\" fill=\"#ffffff\"/>\n", pen->width_mm,
                 pen->height_mm);
    return SW_OK;
}

static void no_page(sw_pen *pen)
{
    (void)pen;
}
static void begin(sw_pen *pen)
{
    sw_print(pen->writer, "<path d=\"");
}
static void move(sw_pen *pen, sw_point to)
{
    sw_print(pen->writer, "M%.7g %.7g", to.x_mm, to.y_mm);
}
static void line(sw_pen *pen, sw_point to)
{
    sw_print(pen->writer, "L%.7g %.7g", to.x_mm, to.y_mm);
}
static void shut(sw_pen *pen)
{
    sw_print(pen->writer, "Z");
}

static void arc(sw_pen *pen, sw_arc a, sw_point to)
{
    int large = fabs(a.sweep_rad) > SW_PI ? 1 : 0, forward = a.sweep_rad > 0.0 ? 1 : 0;
    sw_print(pen->writer, "A%.7g %.7g 0 %d %d %.7g %.7g", a.radius_mm, a.radius_mm, large, forward, to.x_mm, to.y_mm);
}

static unsigned byte_of(double share)
{
    return (unsigned)lround(255.0 * fmin(1.0, fmax(0.0, share)));
}

static void colour(sw_writer *w, const char *name, sw_ink ink)
{
    sw_print(w, " %s=\"#%02x%02x%02x\"", name, byte_of(ink.r), byte_of(ink.g), byte_of(ink.b));
}

static void paint(sw_pen *pen, const pen_paint *p)
{
    sw_writer *w = pen->writer;
    sw_print(w, "\"");
    if (p->fill) {
        colour(w, "fill", p->fill_ink);
        sw_print(w, " fill-rule=\"evenodd\"");
    } else {
        sw_print(w, " fill=\"none\"");
    }
    if (p->stroke) {
        colour(w, "stroke", p->stroke_ink);
        sw_print(w, " stroke-width=\"%.4g\" stroke-linejoin=\"round\" stroke-linecap=\"round\"",
                 p->stroke_ink.width_mm);
    }
    for (int i = 0; p->stroke && i < p->stroke_ink.dashes; i++)
        sw_print(w, "%s%.4g", i == 0 ? " stroke-dasharray=\"" : " ", p->stroke_ink.dash_mm[i]);
    if (p->stroke && p->stroke_ink.dashes > 0) sw_print(w, "\"");
    sw_print(w, "/>\n");
}

static void escaped(sw_writer *w, const char *text)
{
    for (const char *c = text; *c != '\0'; c++) {
        if (*c == '<')
            sw_print(w, "&lt;");
        else if (*c == '>')
            sw_print(w, "&gt;");
        else if (*c == '&')
            sw_print(w, "&amp;");
        else if ((unsigned char)*c >= ' ')
            sw_write(w, c, 1);
    }
}

static void text_svg(sw_pen *pen, sw_point at, const pen_type *type, double width_mm, const char *text)
{
    sw_writer *w = pen->writer;
    sw_print(w, "<text x=\"%.7g\" y=\"%.7g\" font-size=\"%.4g\" textLength=\"%.5g\" lengthAdjust=\"spacingAndGlyphs\"",
             at.x_mm, at.y_mm, type->height_mm * LETTER_EM, width_mm);
    colour(w, "fill", type->ink);
    if (type->bold) sw_print(w, " font-weight=\"bold\"");
    if (type->turn_rad != 0.0)
        sw_print(w, " transform=\"rotate(%.6g %.7g %.7g)\"", -sw_deg_from_rad(type->turn_rad), at.x_mm, at.y_mm);
    sw_print(w, ">");
    escaped(w, text);
    sw_print(w, "</text>\n");
}

/* ---- pictures: PNG in base 64 (RFC 4648, section 4) ---- */

typedef struct base64 {
    sw_writer *writer;
    unsigned char held[3];
    int count;
} base64;

static void base64_flush(base64 *b)
{
    static const char digits[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    if (b->count == 0) return;
    for (int i = b->count; i < 3; i++) b->held[i] = 0;
    unsigned bits = ((unsigned)b->held[0] << 16) | ((unsigned)b->held[1] << 8) | b->held[2];
    char out[4] = {digits[bits >> 18], digits[(bits >> 12) & 63], digits[(bits >> 6) & 63], digits[bits & 63]};
    for (int i = b->count + 1; i < 4; i++) out[i] = '=';
    sw_write(b->writer, out, 4);
    b->count = 0;
}

static void base64_write(void *closure, const unsigned char *data, size_t length)
{
    base64 *b = closure;
    for (size_t i = 0; i < length; i++) {
        b->held[b->count++] = data[i];
        if (b->count == 3) base64_flush(b);
    }
}

static void picture_svg(sw_pen *pen, sw_box box, const pen_picture *picture)
{
    base64 b = {.writer = pen->writer};
    sw_print(pen->writer,
             "<image x=\"%.7g\" y=\"%.7g\" width=\"%.7g\" height=\"%.7g\" preserveAspectRatio=\"none\" "
             "xlink:href=\"data:image/png;base64,",
             box.x0_mm, box.y0_mm, box.x1_mm - box.x0_mm, box.y1_mm - box.y0_mm);
    const png_picture png = {picture->pixels, picture->columns, picture->rows, 4 * (size_t)picture->columns, 0};
    if (!png_bytes(&png, base64_write, &b)) pen->no_memory = true;
    base64_flush(&b);
    sw_print(pen->writer, "\"/>\n");
}

static sw_status close_svg(sw_run *run, sw_pen *pen)
{
    if (pen->no_memory)
        return sw_fail(run, SW_NO_MEMORY, (sw_place){0}, pen->path, "no memory for a picture; allow more memory");
    sw_print(pen->writer, "</svg>\n");
    return SW_OK;
}

static void drop(sw_pen *pen)
{
    (void)pen;
}

const pen_kind pen_svg = {open_svg, no_page, begin,    move,        line,      arc,
                          shut,     paint,   text_svg, picture_svg, close_svg, drop};
