/* pen_cairo.c: the pen as PDF and PNG through cairo, scaled so that one unit is one millimetre. */
#include "papers/pen_parts.h"
#include "papers/png_parts.h"

#include <cairo-pdf.h>

#define POINTS_PER_MM (72.0 / 25.4)  /* PDF user unit: 1/72 inch */
#define PIXELS_PER_MM (150.0 / 25.4) /* PNG: 150 dpi */

static cairo_status_t to_writer(void *closure, const unsigned char *data, unsigned length)
{
    sw_write(closure, data, length);
    return CAIRO_STATUS_SUCCESS;
}

static sw_status ready(sw_run *run, sw_pen *pen, double scale)
{
    pen->cairo = cairo_create(pen->surface);
    if (cairo_status(pen->cairo) != CAIRO_STATUS_SUCCESS)
        return sw_fail(run, SW_NO_MEMORY, (sw_place){0}, pen->path,
                       "no drawing of %.0f x %.0f mm could be begun: %s; allow more memory", pen->width_mm,
                       pen->height_mm, cairo_status_to_string(cairo_status(pen->cairo)));
    cairo_scale(pen->cairo, scale, scale);
    cairo_set_line_cap(pen->cairo, CAIRO_LINE_CAP_ROUND);
    cairo_set_line_join(pen->cairo, CAIRO_LINE_JOIN_ROUND);
    cairo_set_fill_rule(pen->cairo, CAIRO_FILL_RULE_EVEN_ODD);
    return SW_OK;
}

static void png_to_writer(void *closure, const unsigned char *data, size_t length)
{
    sw_write(closure, data, length);
}

static sw_status open_pdf(sw_run *run, sw_pen *pen)
{
    pen->surface = cairo_pdf_surface_create_for_stream(to_writer, pen->writer, pen->width_mm * POINTS_PER_MM,
                                                       pen->height_mm * POINTS_PER_MM);
    return ready(run, pen, POINTS_PER_MM);
}

static sw_status open_png(sw_run *run, sw_pen *pen)
{
    pen->surface = cairo_image_surface_create(CAIRO_FORMAT_RGB24, (int)(pen->width_mm * PIXELS_PER_MM + 0.5),
                                              (int)(pen->height_mm * PIXELS_PER_MM + 0.5));
    SW_TRY(ready(run, pen, PIXELS_PER_MM));
    cairo_set_source_rgb(pen->cairo, 1.0, 1.0, 1.0);
    cairo_paint(pen->cairo);
    return SW_OK;
}

static void page_pdf(sw_pen *pen)
{
    cairo_show_page(pen->cairo);
    cairo_pdf_surface_set_size(pen->surface, pen->width_mm * POINTS_PER_MM, pen->height_mm * POINTS_PER_MM);
}

static void page_png(sw_pen *pen)
{
    (void)pen;
}
static void begin(sw_pen *pen)
{
    cairo_new_path(pen->cairo);
}
static void move(sw_pen *pen, sw_point to)
{
    cairo_move_to(pen->cairo, to.x_mm, to.y_mm);
}
static void line(sw_pen *pen, sw_point to)
{
    cairo_line_to(pen->cairo, to.x_mm, to.y_mm);
}
static void shut(sw_pen *pen)
{
    cairo_close_path(pen->cairo);
}

static void arc(sw_pen *pen, sw_arc a, sw_point to)
{
    (void)to;
    double end_rad = a.from_rad + a.sweep_rad;
    if (a.sweep_rad > 0.0)
        cairo_arc(pen->cairo, a.centre.x_mm, a.centre.y_mm, a.radius_mm, a.from_rad, end_rad);
    else
        cairo_arc_negative(pen->cairo, a.centre.x_mm, a.centre.y_mm, a.radius_mm, a.from_rad, end_rad);
}

static void paint(sw_pen *pen, const pen_paint *p)
{
    cairo_t *c = pen->cairo;
    if (p->fill) {
        cairo_set_source_rgb(c, p->fill_ink.r, p->fill_ink.g, p->fill_ink.b);
        cairo_fill_preserve(c);
    }
    if (p->stroke) {
        const sw_ink *ink = &p->stroke_ink;
        cairo_set_source_rgb(c, ink->r, ink->g, ink->b);
        cairo_set_line_width(c, ink->width_mm);
        cairo_set_dash(c, ink->dash_mm, ink->dashes, 0.0);
        cairo_stroke_preserve(c);
    }
    cairo_new_path(c);
}

static void text_cairo(sw_pen *pen, sw_point at, const pen_type *type, double width_mm, const char *text)
{
    (void)width_mm;
    (void)text; /* set in the layout when it was measured */
    cairo_t *c = pen->cairo;
    cairo_save(c);
    cairo_set_source_rgb(c, type->ink.r, type->ink.g, type->ink.b);
    cairo_translate(c, at.x_mm, at.y_mm);
    cairo_rotate(c, -type->turn_rad);
    cairo_scale(c, type->height_mm, type->height_mm);
    lettering_show(&pen->letters, type->bold, c);
    cairo_restore(c);
    cairo_new_path(c);
}

static cairo_surface_t *surface_of(const pen_picture *picture)
{
    return cairo_image_surface_create_for_data((unsigned char *)(uintptr_t)picture->pixels, CAIRO_FORMAT_RGB24,
                                               picture->columns, picture->rows, picture->columns * 4);
}

static void picture_cairo(sw_pen *pen, sw_box box, const pen_picture *picture)
{
    cairo_t *c = pen->cairo;
    cairo_surface_t *surface = surface_of(picture);
    cairo_save(c);
    cairo_translate(c, box.x0_mm, box.y0_mm);
    cairo_scale(c, (box.x1_mm - box.x0_mm) / picture->columns, (box.y1_mm - box.y0_mm) / picture->rows);
    cairo_set_source_surface(c, surface, 0.0, 0.0);
    cairo_paint(c);
    cairo_restore(c);
    cairo_surface_destroy(surface);
}

static sw_status fault_of(sw_run *run, sw_pen *pen)
{
    cairo_status_t status = cairo_status(pen->cairo);
    if (status == CAIRO_STATUS_SUCCESS) status = cairo_surface_status(pen->surface);
    if (status == CAIRO_STATUS_SUCCESS) return SW_OK;
    return sw_fail(run, status == CAIRO_STATUS_NO_MEMORY ? SW_NO_MEMORY : SW_INTERNAL, (sw_place){0}, pen->path,
                   "could not be drawn: %s; please report it with the input", cairo_status_to_string(status));
}

static void tell_about(sw_pen *pen)
{
    char date[32];
    int n = 0;
    for (; n < 20 && pen->date[n] != '\0'; n++) date[n] = pen->date[n];
    for (const char *rest = "T00:00:00Z"; *rest != '\0'; rest++) date[n++] = *rest;
    date[n] = '\0';
    cairo_pdf_surface_set_metadata(pen->surface, CAIRO_PDF_METADATA_CREATE_DATE, date);
    cairo_pdf_surface_set_metadata(pen->surface, CAIRO_PDF_METADATA_TITLE, pen->title);
    cairo_pdf_surface_set_metadata(pen->surface, CAIRO_PDF_METADATA_CREATOR, "stovewright " SW_VERSION);
}

static sw_status close_pdf(sw_run *run, sw_pen *pen)
{
    tell_about(pen);
    cairo_show_page(pen->cairo);
    cairo_surface_finish(pen->surface);
    return fault_of(run, pen);
}

static sw_status close_png(sw_run *run, sw_pen *pen)
{
    cairo_surface_flush(pen->surface);
    SW_TRY(fault_of(run, pen));
    const png_picture png = {(const uint32_t *)(const void *)cairo_image_surface_get_data(pen->surface),
                             cairo_image_surface_get_width(pen->surface), cairo_image_surface_get_height(pen->surface),
                             (size_t)cairo_image_surface_get_stride(pen->surface),
                             (uint32_t)(sw_mm_from_m(PIXELS_PER_MM) + 0.5)};
    if (!png_bytes(&png, png_to_writer, pen->writer))
        return sw_fail(run, SW_NO_MEMORY, (sw_place){0}, pen->path, "no memory for the picture; allow more memory");
    return SW_OK;
}

static void drop(sw_pen *pen)
{
    if (pen->cairo != NULL) cairo_destroy(pen->cairo);
    if (pen->surface != NULL) cairo_surface_finish(pen->surface);
    if (pen->surface != NULL) cairo_surface_destroy(pen->surface);
    pen->cairo = NULL;
    pen->surface = NULL;
}

const pen_kind pen_pdf = {open_pdf, page_pdf, begin,      move,          line,      arc,
                          shut,     paint,    text_cairo, picture_cairo, close_pdf, drop};
const pen_kind pen_png = {open_png, page_png, begin,      move,          line,      arc,
                          shut,     paint,    text_cairo, picture_cairo, close_png, drop};
