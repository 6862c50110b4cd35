/* pen_png.c: the pen as PNG through cairo, 120 dpi, scaled so that one unit is one millimetre. */
#include "papers/pen_png_parts.h"

#include <cairo.h>
#include <ft2build.h>
#include FT_FREETYPE_H
#include FT_OUTLINE_H

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define PIXELS_PER_MM PEN_PIXELS_PER_MM
#define MOST_PIXELS   32000 /* cairo: 32767 a side */

typedef struct pen_png_state {
    uint32_t *pixels; /* [rows x columns] 0x00RRGGBB, of the surface */
    cairo_surface_t *surface;
    cairo_t *cairo;
    png_cover cover; /* of plain lines and letters, which are many */
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

static uint32_t *white_page(int columns, int rows)
{
    size_t count = (size_t)columns * (size_t)rows;
    uint32_t *pixels = malloc(count * sizeof *pixels);
    for (size_t i = 0; pixels != NULL && i < count; i++) pixels[i] = 0x00ffffffu;
    return pixels;
}

static sw_status open_png(sw_run *run, sw_pen *pen)
{
    const double most_mm = MOST_PIXELS / PIXELS_PER_MM;
    if (!(pen->width_mm <= most_mm && pen->height_mm <= most_mm))
        return sw_fail(run, SW_OUT_OF_RANGE, (sw_place){0}, pen->path,
                       "a page of %.0f x %.0f mm is too large for a picture, at most %.0f mm a side; use SVG or PDF",
                       pen->width_mm, pen->height_mm, most_mm);
    int columns = (int)(pen->width_mm * PIXELS_PER_MM + 0.5), rows = (int)(pen->height_mm * PIXELS_PER_MM + 0.5);
    pen_png_state *s = calloc(1, sizeof *s);
    pen->png = s;
    if (s != NULL) s->pixels = white_page(columns, rows);
    if (s == NULL || s->pixels == NULL || !png_cover_open(&s->cover, columns, rows))
        return sw_fail(run, SW_NO_MEMORY, (sw_place){0}, pen->path, "no memory for a drawing; allow more memory");
    s->surface = cairo_image_surface_create_for_data((unsigned char *)s->pixels, CAIRO_FORMAT_RGB24, columns, rows,
                                                     columns * (int)sizeof *s->pixels);
    s->cairo = cairo_create(s->surface);
    SW_TRY(fault_of(run, pen));
    cairo_scale(s->cairo, PIXELS_PER_MM, PIXELS_PER_MM);
    cairo_set_line_cap(s->cairo, CAIRO_LINE_CAP_ROUND);
    cairo_set_line_join(s->cairo, CAIRO_LINE_JOIN_ROUND);
    cairo_set_fill_rule(s->cairo, CAIRO_FILL_RULE_EVEN_ODD);
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

static void ink_cover(pen_png_state *s, const sw_ink *ink)
{
    cairo_surface_flush(s->surface);
    png_cover_ink(&s->cover, ink, s->pixels);
    cairo_surface_mark_dirty(s->surface);
}

static png_dot dot_of(const cairo_path_data_t *point)
{
    return (png_dot){point->point.x * PIXELS_PER_MM, point->point.y * PIXELS_PER_MM};
}

/* The path with its curves as short lines, each drawn for itself. */
static void stroke_plain(pen_png_state *s, const sw_ink *ink)
{
    cairo_path_t *path = cairo_copy_path_flat(s->cairo);
    png_dot start = {0}, here = {0};
    for (int i = 0; i < path->num_data; i += path->data[i].header.length) {
        const cairo_path_data_t *step = &path->data[i];
        png_dot to = step->header.type == CAIRO_PATH_CLOSE_PATH ? start : dot_of(step + 1);
        if (step->header.type == CAIRO_PATH_MOVE_TO)
            start = to;
        else
            png_cover_line(&s->cover, here, to, ink->width_mm * PIXELS_PER_MM);
        here = to;
    }
    cairo_path_destroy(path);
    ink_cover(s, ink);
}

static void stroke_dashed(cairo_t *c, const sw_ink *ink)
{
    cairo_set_source_rgb(c, ink->r, ink->g, ink->b);
    cairo_set_line_width(c, ink->width_mm);
    cairo_set_dash(c, ink->dash_mm, ink->dashes, 0.0);
    cairo_stroke_preserve(c);
}

static void paint(sw_pen *pen, const pen_paint *p)
{
    cairo_t *c = pen->png->cairo;
    if (p->fill) {
        cairo_set_source_rgb(c, p->fill_ink.r, p->fill_ink.g, p->fill_ink.b);
        cairo_fill_preserve(c);
    }
    if (p->stroke && p->stroke_ink.dashes > 0) stroke_dashed(c, &p->stroke_ink);
    if (p->stroke && p->stroke_ink.dashes == 0) stroke_plain(pen->png, &p->stroke_ink);
    cairo_new_path(c);
}

/* ---- letters: outlines in units of the font, y up ---- */

typedef struct letter_place {
    FT_Matrix turn;    /* units of the font to 64ths of a pixel, y up */
    double x, y;       /* pixels from the page's lower left */
    double across, up; /* the way of the text, unit */
} letter_place;

static letter_place place_of(const png_cover *cover, sw_point at, const pen_type *type, double unit_mm)
{
    double c = cos(type->turn_rad), s = sin(type->turn_rad), fine = 64.0 * 65536.0 * PIXELS_PER_MM * unit_mm;
    const FT_Matrix turn = {
        .xx = lround(c * fine), .xy = lround(-s * fine), .yx = lround(s * fine), .yy = lround(c * fine)};
    return (letter_place){turn, at.x_mm * PIXELS_PER_MM, cover->rows - at.y_mm * PIXELS_PER_MM, c, s};
}

/* Of 64ths, within the page. */
static long whole_pixel(FT_Pos fine, long most)
{
    return fine <= 0 ? 0 : fine / 64 < most ? fine / 64 : most;
}

/* Into the page's cover, through a window of the letter's size. */
static void letter(png_cover *cover, FT_Face face, unsigned glyph, const letter_place *place)
{
    FT_BBox box;
    if (FT_Load_Glyph(face, glyph, FT_LOAD_NO_SCALE) != 0) return;
    FT_Outline *outline = &face->glyph->outline;
    FT_Outline_Transform(outline, &place->turn);
    FT_Outline_Translate(outline, lround(64.0 * place->x), lround(64.0 * place->y));
    FT_Outline_Get_CBox(outline, &box);
    long left = whole_pixel(box.xMin, cover->columns), right = whole_pixel(box.xMax + 63, cover->columns),
         bottom = whole_pixel(box.yMin, cover->rows), top = whole_pixel(box.yMax + 63, cover->rows);
    if (left >= right || bottom >= top) return;
    const FT_Bitmap window = {.rows = (unsigned)(top - bottom),
                              .width = (unsigned)(right - left),
                              .pitch = cover->columns,
                              .buffer = cover->shares + (cover->rows - top) * cover->columns + left,
                              .num_grays = 256,
                              .pixel_mode = FT_PIXEL_MODE_GRAY};
    FT_Outline_Translate(outline, -64 * left, -64 * bottom);
    png_cover_reach(cover, (double)(cover->rows - top), (double)(cover->rows - bottom));
    (void)FT_Outline_Get_Bitmap(face->glyph->library, outline, &window);
}

static void text_png(sw_pen *pen, sw_point at, const pen_type *type, double width_mm, const char *text)
{
    (void)width_mm;
    pen_png_state *s = pen->png;
    FT_Face face = lettering_face(pen->letters, type->bold);
    letter_place place = place_of(&s->cover, at, type, type->height_mm * LETTER_EM / face->units_per_EM);
    for (uint32_t code = lettering_code(&text); code != 0; code = lettering_code(&text)) {
        if (code < ' ') continue;
        letter(&s->cover, face, lettering_glyph(pen->letters, type->bold, code), &place);
        double step = lettering_advance(pen->letters, type->bold, code) * type->height_mm * PIXELS_PER_MM;
        place.x += step * place.across;
        place.y += step * place.up;
    }
    ink_cover(s, &type->ink);
}

/* Whether the picture has as many pixels as the page where it lies, so that nothing needs smoothing. */
static bool pixel_for_pixel(sw_box box, const pen_picture *picture)
{
    return fabs((box.x1_mm - box.x0_mm) * PIXELS_PER_MM - picture->columns) < 0.01 &&
           fabs((box.y1_mm - box.y0_mm) * PIXELS_PER_MM - picture->rows) < 0.01;
}

static int between(double value, int low, int high)
{
    return value <= low ? low : value >= high ? high : (int)value;
}

static void copy_pixels(pen_png_state *s, sw_box box, const pen_picture *picture)
{
    int columns = s->cover.columns, rows = s->cover.rows;
    int left = between(floor(box.x0_mm * PIXELS_PER_MM + 0.5), -picture->columns, columns),
        top = between(floor(box.y0_mm * PIXELS_PER_MM + 0.5), -picture->rows, rows);
    int from = left < 0 ? -left : 0, end = picture->columns < columns - left ? picture->columns : columns - left;
    cairo_surface_flush(s->surface);
    for (int row = top < 0 ? -top : 0; from < end && row < picture->rows && top + row < rows; row++)
        memcpy(s->pixels + (ptrdiff_t)(top + row) * columns + left + from,
               picture->pixels + (ptrdiff_t)row * picture->columns + from, (size_t)(end - from) * sizeof *s->pixels);
    cairo_surface_mark_dirty(s->surface);
}

static void scale_pixels(cairo_t *c, sw_box box, const pen_picture *picture)
{
    cairo_surface_t *surface =
        cairo_image_surface_create_for_data((unsigned char *)(uintptr_t)picture->pixels, CAIRO_FORMAT_RGB24,
                                            picture->columns, picture->rows, picture->columns * 4);
    cairo_save(c);
    cairo_translate(c, box.x0_mm, box.y0_mm);
    cairo_scale(c, (box.x1_mm - box.x0_mm) / picture->columns, (box.y1_mm - box.y0_mm) / picture->rows);
    cairo_set_source_surface(c, surface, 0.0, 0.0);
    cairo_pattern_set_filter(cairo_get_source(c), CAIRO_FILTER_BILINEAR);
    cairo_pattern_set_extend(cairo_get_source(c), CAIRO_EXTEND_PAD); /* the rim is not mixed with nothing */
    cairo_rectangle(c, 0.0, 0.0, picture->columns, picture->rows);
    cairo_fill(c);
    cairo_restore(c);
    cairo_surface_destroy(surface);
}

static void picture_png(sw_pen *pen, sw_box box, const pen_picture *picture)
{
    if (pixel_for_pixel(box, picture))
        copy_pixels(pen->png, box, picture);
    else
        scale_pixels(pen->png->cairo, box, picture);
}

static sw_status close_png(sw_run *run, sw_pen *pen)
{
    pen_png_state *s = pen->png;
    cairo_surface_flush(s->surface);
    SW_TRY(fault_of(run, pen));
    const png_picture picture = {s->pixels, s->cover.columns, s->cover.rows,
                                 (size_t)s->cover.columns * sizeof *s->pixels};
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
    png_cover_close(&s->cover);
    if (s->cairo != NULL) cairo_destroy(s->cairo);
    if (s->surface != NULL) cairo_surface_finish(s->surface);
    if (s->surface != NULL) cairo_surface_destroy(s->surface);
    free(s->pixels);
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
