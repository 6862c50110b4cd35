/* pen_pdf.c: the pen as PDF. Page contents are written in millimetres, y down, under one matrix a page; colours and
 * widths are told only when they change; stamps are forms, told once a document. Source: ISO 32000-1:2008, 8 and 9. */
#include "papers/pen_pdf_parts.h"

#include <math.h>

enum { PLACES = PDF_PLACES, MATRIX_PLACES = PDF_MATRIX_PLACES };

static void numbers(pen_pdf_state *s, const double *values, size_t count, const char *word)
{
    bytes_numbers(&s->content, values, count, PLACES);
    bytes_text(&s->content, word);
}

/* ---- paths ---- */

static void begin(sw_pen *pen)
{
    pen->pdf->path.used = 0;
}

static void point(pen_pdf_state *s, sw_point p, const char *word)
{
    const double values[2] = {p.x_mm, p.y_mm};
    bytes_numbers(&s->path, values, 2, PLACES);
    bytes_text(&s->path, word);
    s->here = p;
}

static void move(sw_pen *pen, sw_point to)
{
    point(pen->pdf, to, " m\n");
}
static void line(sw_pen *pen, sw_point to)
{
    point(pen->pdf, to, " l\n");
}
static void shut(sw_pen *pen)
{
    bytes_text(&pen->pdf->path, "h\n");
}

/* Cubic curves of at most an eighth turn each, off the circle by less than 5e-6 of its radius; of a quarter turn in
 * small circles, off by less than 3e-4 of it, which stays below three micrometres. */
static void arc(sw_pen *pen, sw_arc a, sw_point to)
{
    pen_pdf_state *s = pen->pdf;
    const double small_mm = 10.0;
    int steps = (int)ceil(fabs(a.sweep_rad) / (a.radius_mm <= small_mm ? SW_PI / 2.0 : SW_PI / 4.0));
    double step_rad = a.sweep_rad / steps, reach_mm = 4.0 / 3.0 * tan(step_rad / 4.0) * a.radius_mm;
    double from_rad = a.from_rad, c0 = cos(from_rad), s0 = sin(from_rad);
    for (int i = 1; i <= steps; i++) {
        double end_rad = a.from_rad + step_rad * i, c1 = cos(end_rad), s1 = sin(end_rad);
        sw_point end = i == steps ? to : (sw_point){a.centre.x_mm + a.radius_mm * c1, a.centre.y_mm + a.radius_mm * s1};
        const double values[6] = {s->here.x_mm - reach_mm * s0,
                                  s->here.y_mm + reach_mm * c0,
                                  end.x_mm + reach_mm * s1,
                                  end.y_mm - reach_mm * c1,
                                  end.x_mm,
                                  end.y_mm};
        bytes_numbers(&s->path, values, 6, PLACES);
        bytes_text(&s->path, " c\n");
        s->here = end;
        c0 = c1;
        s0 = s1;
    }
}

static bool same_colour(const sw_ink *a, const sw_ink *b)
{
    return a->r == b->r && a->g == b->g && a->b == b->b;
}

static void fill_with(pen_pdf_state *s, const sw_ink *ink)
{
    const double channels[3] = {ink->r, ink->g, ink->b};
    if (s->inks.fill_told && same_colour(&s->inks.fill, ink)) return;
    s->inks.fill_told = true;
    s->inks.fill = *ink;
    numbers(s, channels, 3, " rg\n");
}

static void stroke_with(pen_pdf_state *s, const sw_ink *ink)
{
    const sw_ink *last = &s->inks.stroke;
    bool told = s->inks.stroke_told;
    const double channels[3] = {ink->r, ink->g, ink->b};
    if (!told || !same_colour(last, ink)) numbers(s, channels, 3, " RG\n");
    if (!told || last->width_mm != ink->width_mm) numbers(s, &ink->width_mm, 1, " w\n");
    if (!told || last->dash_mm != ink->dash_mm || last->dashes != ink->dashes) {
        bytes_text(&s->content, "[");
        bytes_numbers(&s->content, ink->dash_mm, (size_t)ink->dashes, PLACES);
        bytes_text(&s->content, "]0 d\n");
    }
    s->inks.stroke = *ink;
    s->inks.stroke_told = true;
}

static void paint(sw_pen *pen, const pen_paint *p)
{
    pen_pdf_state *s = pen->pdf;
    if (p->fill) fill_with(s, &p->fill_ink);
    if (p->stroke) stroke_with(s, &p->stroke_ink);
    bytes_put(&s->content, s->path.at, s->path.used);
    bytes_text(&s->content, p->fill && p->stroke ? "B*\n" : p->fill ? "f*\n" : "S\n");
}

/* Its two bytes within a string in brackets (7.3.4.2). */
static void put_letter(byte_run *out, unsigned letter)
{
    for (int shift = 8; shift >= 0; shift -= 8) {
        const unsigned char sign = (unsigned char)(letter >> shift);
        if (sign == '(' || sign == ')' || sign == '\\' || sign == '\r') bytes_put(out, "\\", 1);
        bytes_put(out, sign == '\r' ? (const unsigned char *)"r" : &sign, 1);
    }
}

static void text_pdf(sw_pen *pen, sw_point at, const pen_type *type, double width_mm, const char *text)
{
    (void)width_mm;
    pen_pdf_state *s = pen->pdf;
    double size_mm = type->height_mm * LETTER_EM, c = cos(type->turn_rad), n = sin(type->turn_rad);
    const double turn[4] = {c, -n, -n, -c}, place[2] = {at.x_mm, at.y_mm};
    pdf_font *font = &s->fonts[type->bold ? 1 : 0];
    fill_with(s, &type->ink);
    bytes_text(&s->content, type->bold ? "BT/B " : "BT/P ");
    numbers(s, &size_mm, 1, " Tf ");
    if (type->turn_rad == 0.0)
        bytes_text(&s->content, "1 0 0 -1");
    else
        bytes_numbers(&s->content, turn, 4, MATRIX_PLACES);
    bytes_text(&s->content, " ");
    numbers(s, place, 2, " Tm(");
    for (uint32_t code = lettering_code(&text); code != 0; code = lettering_code(&text)) {
        if (code < ' ') continue;
        put_letter(&s->content, pdf_font_letter(font, pen->letters, type->bold, code));
    }
    bytes_text(&s->content, ")Tj ET\n");
}

/* ---- pictures ---- */

static void image_entries(byte_run *out, const png_packed *p)
{
    bytes_print(out, "/Type/XObject/Subtype/Image/Width %d/Height %d/BitsPerComponent 8", p->columns, p->row_count);
    bytes_print(out, "/DecodeParms<</Predictor 15/Colors %d/Columns %d>>/ColorSpace", p->colours > 0 ? 1 : 3,
                p->columns);
    if (p->colours == 0) bytes_text(out, "/DeviceRGB");
    if (p->colours > 0) bytes_print(out, "[/Indexed/DeviceRGB %d<", p->colours - 1);
    for (int i = 0; i < p->colours; i++) bytes_hex(out, p->palette[i], 6);
    if (p->colours > 0) bytes_text(out, ">]");
    bytes_put(out, "", 1);
}

static void write_image(sw_pen *pen, size_t object, const pen_picture *picture)
{
    byte_run rows = {0}, entries = {0};
    png_packed made;
    const png_packed *packed = pen_packed(picture, &rows, &made);
    if (packed != NULL) image_entries(&entries, packed);
    if (packed == NULL || entries.no_memory) {
        pen->no_memory = true;
    } else {
        const byte_run data = {.at = (unsigned char *)(uintptr_t)packed->rows, .used = packed->length};
        pdf_stream(&pen->pdf->file, object, (const char *)entries.at, &data, true);
    }
    bytes_free(&rows);
    bytes_free(&entries);
}

/* A picture kept packed stands in the document once; others may use their pixels' memory again. */
static size_t image_of(sw_pen *pen, const pen_picture *picture)
{
    pen_pdf_state *s = pen->pdf;
    for (size_t i = 0; i < s->image_count && picture->packed != NULL; i++)
        if (s->images[i].rows == picture->packed->rows) return i;
    pdf_image *images = heap_grow(s->images, s->image_count, &s->image_room, sizeof *images, &pen->no_memory);
    if (images == NULL) return 0;
    s->images = images;
    images[s->image_count] = (pdf_image){picture->packed == NULL ? NULL : picture->packed->rows, pdf_reserve(&s->file)};
    write_image(pen, images[s->image_count].object, picture);
    return s->image_count++;
}

static void picture_pdf(sw_pen *pen, sw_box box, const pen_picture *picture)
{
    pen_pdf_state *s = pen->pdf;
    const double matrix[6] = {box.x1_mm - box.x0_mm, 0.0, 0.0, box.y0_mm - box.y1_mm, box.x0_mm, box.y1_mm};
    bytes_text(&s->content, "q ");
    numbers(s, matrix, 6, " cm");
    bytes_print(&s->content, "/I%zu Do Q\n", image_of(pen, picture));
}

/* ---- stamps ---- */

static void tell(sw_pen *pen, const pen_stamp *stamp)
{
    pen_pdf_state *s = pen->pdf;
    size_t *stamps = heap_grow(s->stamps, s->stamp_count, &s->stamp_room, sizeof *stamps, &pen->no_memory);
    if (stamps == NULL) return;
    s->stamps = stamps;
    stamps[s->stamp_count++] = pdf_reserve(&s->file);
    s->outer = s->content;
    s->outer_inks = s->inks;
    s->content = (byte_run){0};
    s->inks = (inks){0};
    pen_told(pen, stamp);
    sw_box box = sw_contour_box(stamp->region->outline);
    double edge_mm = stamp->paint.stroke ? stamp->paint.stroke_ink.width_mm : 0.0, k = stamp->scale;
    byte_run entries = {0};
    const double corners[4] = {k * box.x0_mm - edge_mm, -k * box.y1_mm - edge_mm, k * box.x1_mm + edge_mm,
                               -k * box.y0_mm + edge_mm};
    bytes_text(&entries, "/Type/XObject/Subtype/Form/BBox[");
    bytes_numbers(&entries, corners, 4, PLACES);
    bytes_put(&entries, "]", 2); /* with its end */
    if (!entries.no_memory)
        pdf_stream(&s->file, stamps[s->stamp_count - 1], (const char *)entries.at, &s->content, false);
    pen->no_memory = pen->no_memory || entries.no_memory;
    bytes_free(&entries);
    bytes_free(&s->content);
    s->content = s->outer;
    s->outer = (byte_run){0};
    s->inks = s->outer_inks;
}

static void stamp_pdf(sw_pen *pen, const pen_stamp *stamp, sw_motion motion, sw_point at)
{
    pen_pdf_state *s = pen->pdf;
    sw_point o = pen_on_page(motion, stamp->scale, at, (sw_point){0});
    const double place[2] = {o.x_mm, o.y_mm};
    double matrix[4];
    pen_turned_axes(motion, matrix);
    bytes_text(&s->content, "q ");
    bytes_numbers(&s->content, matrix, 4, MATRIX_PLACES);
    bytes_text(&s->content, " ");
    numbers(s, place, 2, " cm");
    bytes_text(&s->content, "/S");
    bytes_count(&s->content, stamp->number);
    bytes_text(&s->content, " Do Q\n");
}

const pen_kind pen_pdf = {.open = pdf_document_open,
                          .page = pdf_page_next,
                          .begin = begin,
                          .move = move,
                          .line = line,
                          .arc = arc,
                          .shut = shut,
                          .paint = paint,
                          .text = text_pdf,
                          .picture = picture_pdf,
                          .tell = tell,
                          .stamp = stamp_pdf,
                          .entry = pdf_page_entry,
                          .close = pdf_document_close,
                          .drop = pdf_document_drop};
