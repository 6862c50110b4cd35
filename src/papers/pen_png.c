/* pen_png.c: the pen as PNG through cairo, 150 dpi, scaled so that one unit is one millimetre. */
#include "papers/pen_parts.h"

#include <cairo.h>
#include <ft2build.h>
#include FT_FREETYPE_H
#include FT_OUTLINE_H

#include <math.h>
#include <stdlib.h>

#define PIXELS_PER_MM PEN_PIXELS_PER_MM

typedef struct pen_png_state {
    cairo_surface_t *surface;
    cairo_t *cairo;
} pen_png_state;

static sw_status fault_of(sw_run *run, sw_pen *pen)
{
    const pen_png_state *s = pen->png;
    cairo_status_t status = cairo_status(s->cairo);
    if (status == CAIRO_STATUS_SUCCESS) status = cairo_surface_status(s->surface);
    if (status == CAIRO_STATUS_SUCCESS) return SW_OK;
    return sw_fail(run, status == CAIRO_STATUS_NO_MEMORY ? SW_NO_MEMORY : SW_INTERNAL, (sw_place){0}, pen->path,
                   "could not be drawn, %.0f x %.0f mm: %s; please report it with the input", pen->width_mm,
                   pen->height_mm, cairo_status_to_string(status));
}

static sw_status open_png(sw_run *run, sw_pen *pen)
{
    pen_png_state *s = calloc(1, sizeof *s);
    pen->png = s;
    if (s == NULL)
        return sw_fail(run, SW_NO_MEMORY, (sw_place){0}, pen->path, "no memory for a drawing; allow more memory");
    s->surface = cairo_image_surface_create(CAIRO_FORMAT_RGB24, (int)(pen->width_mm * PIXELS_PER_MM + 0.5),
                                            (int)(pen->height_mm * PIXELS_PER_MM + 0.5));
    s->cairo = cairo_create(s->surface);
    SW_TRY(fault_of(run, pen));
    cairo_scale(s->cairo, PIXELS_PER_MM, PIXELS_PER_MM);
    cairo_set_line_cap(s->cairo, CAIRO_LINE_CAP_ROUND);
    cairo_set_line_join(s->cairo, CAIRO_LINE_JOIN_ROUND);
    cairo_set_fill_rule(s->cairo, CAIRO_FILL_RULE_EVEN_ODD);
    cairo_set_source_rgb(s->cairo, 1.0, 1.0, 1.0);
    cairo_paint(s->cairo);
    return SW_OK;
}

static void begin(sw_pen *pen)
{
    cairo_new_path(pen->png->cairo);
}
static void move(sw_pen *pen, sw_point to)
{
    cairo_move_to(pen->png->cairo, to.x_mm, to.y_mm);
}
static void line(sw_pen *pen, sw_point to)
{
    cairo_line_to(pen->png->cairo, to.x_mm, to.y_mm);
}
static void shut(sw_pen *pen)
{
    cairo_close_path(pen->png->cairo);
}

static void arc(sw_pen *pen, sw_arc a, sw_point to)
{
    (void)to;
    double end_rad = a.from_rad + a.sweep_rad;
    if (a.sweep_rad > 0.0)
        cairo_arc(pen->png->cairo, a.centre.x_mm, a.centre.y_mm, a.radius_mm, a.from_rad, end_rad);
    else
        cairo_arc_negative(pen->png->cairo, a.centre.x_mm, a.centre.y_mm, a.radius_mm, a.from_rad, end_rad);
}

static void paint(sw_pen *pen, const pen_paint *p)
{
    cairo_t *c = pen->png->cairo;
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

/* ---- letters: outlines in units of the font, y up ---- */

static int letter_move(const FT_Vector *to, void *cairo)
{
    cairo_move_to(cairo, (double)to->x, (double)to->y);
    return 0;
}

static int letter_line(const FT_Vector *to, void *cairo)
{
    cairo_line_to(cairo, (double)to->x, (double)to->y);
    return 0;
}

/* A parabola as a cubic: its inner points lie two thirds of the way to the parabola's one. */
static int letter_parabola(const FT_Vector *by, const FT_Vector *to, void *cairo)
{
    double x = 0.0, y = 0.0, bx = (double)by->x, by_y = (double)by->y, ex = (double)to->x, ey = (double)to->y;
    cairo_get_current_point(cairo, &x, &y);
    cairo_curve_to(cairo, (x + 2.0 * bx) / 3.0, (y + 2.0 * by_y) / 3.0, (ex + 2.0 * bx) / 3.0, (ey + 2.0 * by_y) / 3.0,
                   ex, ey);
    return 0;
}

static int letter_cubic(const FT_Vector *a, const FT_Vector *b, const FT_Vector *to, void *cairo)
{
    cairo_curve_to(cairo, (double)a->x, (double)a->y, (double)b->x, (double)b->y, (double)to->x, (double)to->y);
    return 0;
}

static void letter(cairo_t *c, FT_Face face, unsigned glyph)
{
    static const FT_Outline_Funcs funcs = {letter_move, letter_line, letter_parabola, letter_cubic, 0, 0};
    if (FT_Load_Glyph(face, glyph, FT_LOAD_NO_SCALE) != 0) return;
    (void)FT_Outline_Decompose(&face->glyph->outline, &funcs, c);
}

static void text_png(sw_pen *pen, sw_point at, const pen_type *type, double width_mm, const char *text)
{
    (void)width_mm;
    FT_Face face = lettering_face(pen->letters, type->bold);
    cairo_t *c = pen->png->cairo;
    double unit = LETTER_EM / face->units_per_EM;
    cairo_save(c);
    cairo_set_source_rgb(c, type->ink.r, type->ink.g, type->ink.b);
    cairo_translate(c, at.x_mm, at.y_mm);
    cairo_rotate(c, -type->turn_rad);
    cairo_scale(c, type->height_mm * unit, -type->height_mm * unit);
    cairo_set_fill_rule(c, CAIRO_FILL_RULE_WINDING); /* parts of a letter may overlap */
    for (uint32_t code = lettering_code(&text); code != 0; code = lettering_code(&text)) {
        if (code < ' ') continue;
        letter(c, face, lettering_glyph(pen->letters, type->bold, code));
        cairo_translate(c, lettering_advance(pen->letters, type->bold, code) / unit, 0.0);
    }
    cairo_fill(c);
    cairo_restore(c);
    cairo_new_path(c);
}

/* Whether the picture has as many pixels as the page where it lies,
 * so that nothing needs smoothing. */
static bool pixel_for_pixel(sw_box box, const pen_picture *picture)
{
    return fabs((box.x1_mm - box.x0_mm) * PIXELS_PER_MM - picture->columns) < 0.01 &&
           fabs((box.y1_mm - box.y0_mm) * PIXELS_PER_MM - picture->rows) < 0.01;
}

static void picture_png(sw_pen *pen, sw_box box, const pen_picture *picture)
{
    cairo_t *c = pen->png->cairo;
    cairo_surface_t *surface =
        cairo_image_surface_create_for_data((unsigned char *)(uintptr_t)picture->pixels, CAIRO_FORMAT_RGB24,
                                            picture->columns, picture->rows, picture->columns * 4);
    cairo_save(c);
    cairo_translate(c, box.x0_mm, box.y0_mm);
    cairo_scale(c, (box.x1_mm - box.x0_mm) / picture->columns, (box.y1_mm - box.y0_mm) / picture->rows);
    cairo_set_source_surface(c, surface, 0.0, 0.0);
    if (pixel_for_pixel(box, picture)) cairo_pattern_set_filter(cairo_get_source(c), CAIRO_FILTER_NEAREST);
    cairo_paint(c);
    cairo_restore(c);
    cairo_surface_destroy(surface);
}

static sw_status close_png(sw_run *run, sw_pen *pen)
{
    pen_png_state *s = pen->png;
    cairo_surface_flush(s->surface);
    SW_TRY(fault_of(run, pen));
    const png_picture picture = {(const uint32_t *)(const void *)cairo_image_surface_get_data(s->surface),
                                 cairo_image_surface_get_width(s->surface), cairo_image_surface_get_height(s->surface),
                                 (size_t)cairo_image_surface_get_stride(s->surface)};
    byte_run rows = {0};
    png_packed packed;
    if (png_pack(&picture, &rows, &packed)) png_file(&pen->out, &packed, (uint32_t)(sw_mm_from_m(PIXELS_PER_MM) + 0.5));
    pen->no_memory = rows.no_memory || rows.used == 0 || pen->out.no_memory;
    bytes_free(&rows);
    if (!pen->no_memory) sw_write(pen->writer, pen->out.at, pen->out.used);
    return SW_OK; /* a refusal is told by the caller */
}

static void drop(sw_pen *pen)
{
    pen_png_state *s = pen->png;
    if (s == NULL) return;
    if (s->cairo != NULL) cairo_destroy(s->cairo);
    if (s->surface != NULL) cairo_surface_finish(s->surface);
    if (s->surface != NULL) cairo_surface_destroy(s->surface);
    free(s);
    pen->png = NULL;
}

const pen_kind pen_png = {.open = open_png,
                          .begin = begin,
                          .move = move,
                          .line = line,
                          .arc = arc,
                          .shut = shut,
                          .paint = paint,
                          .text = text_png,
                          .picture = picture_png,
                          .close = close_png,
                          .drop = drop};
