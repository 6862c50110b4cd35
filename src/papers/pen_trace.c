/* pen_trace.c: the pen as text, one line a mark with the box it covers: for tests and for comparing drawings.
 *   page W H | path x0 y0 x1 y1 WIDTH #fill #stroke | text x0 y0 x1 y1 HEIGHT turn_deg the text | picture x0 y0 x1 y1 */
#include "papers/pen_parts.h"

#include <math.h>

static sw_box nothing(void)
{
    return (sw_box){INFINITY, INFINITY, -INFINITY, -INFINITY};
}

static void cover(sw_box *box, double x_mm, double y_mm)
{
    box->x0_mm = fmin(box->x0_mm, x_mm);
    box->y0_mm = fmin(box->y0_mm, y_mm);
    box->x1_mm = fmax(box->x1_mm, x_mm);
    box->y1_mm = fmax(box->y1_mm, y_mm);
}

static void page(sw_pen *pen)
{
    sw_print(pen->writer, "page %.6g %.6g\n", pen->width_mm, pen->height_mm);
}

static sw_status open_trace(sw_run *run, sw_pen *pen)
{
    (void)run;
    page(pen);
    return SW_OK;
}

static void begin(sw_pen *pen)
{
    pen->shape = nothing();
}
static void reach(sw_pen *pen, sw_point to)
{
    cover(&pen->shape, to.x_mm, to.y_mm);
}
static void shut(sw_pen *pen)
{
    (void)pen;
}

static void arc(sw_pen *pen, sw_arc a, sw_point to)
{
    reach(pen, to);
    for (int i = 0; i <= 32; i++) {
        double angle_rad = a.from_rad + a.sweep_rad * i / 32.0;
        cover(&pen->shape, a.centre.x_mm + a.radius_mm * cos(angle_rad), a.centre.y_mm + a.radius_mm * sin(angle_rad));
    }
}

static unsigned colour(sw_ink ink)
{
    return (unsigned)lround(ink.r * 255.0) << 16 | (unsigned)lround(ink.g * 255.0) << 8 |
           (unsigned)lround(ink.b * 255.0);
}

static void paint(sw_pen *pen, const pen_paint *p)
{
    const sw_box *b = &pen->shape;
    sw_print(pen->writer, "path %.3f %.3f %.3f %.3f", b->x0_mm, b->y0_mm, b->x1_mm, b->y1_mm);
    if (p->fill) sw_print(pen->writer, " fill #%06x", colour(p->fill_ink));
    if (p->stroke) sw_print(pen->writer, " stroke %.3g #%06x", p->stroke_ink.width_mm, colour(p->stroke_ink));
    sw_print(pen->writer, "\n");
}

static void text_trace(sw_pen *pen, sw_point at, const pen_type *type, double width_mm, const char *text)
{
    double c = cos(type->turn_rad), s = sin(type->turn_rad), h = type->height_mm;
    sw_box b = nothing();
    const double xs[2] = {0.0, width_mm}, ys[2] = {0.0, -h}; /* capitals: descenders are left out of the box */
    for (int i = 0; i < 4; i++) {
        double x = xs[i & 1], y = ys[i >> 1];
        cover(&b, at.x_mm + x * c + y * s, at.y_mm - x * s + y * c);
    }
    sw_print(pen->writer, "text %.3f %.3f %.3f %.3f %.3g %.4g %s\n", b.x0_mm, b.y0_mm, b.x1_mm, b.y1_mm, h,
             sw_deg_from_rad(type->turn_rad), text);
}

static void picture_trace(sw_pen *pen, sw_box b, const pen_picture *picture)
{
    sw_print(pen->writer, "picture %.3f %.3f %.3f %.3f %d %d\n", b.x0_mm, b.y0_mm, b.x1_mm, b.y1_mm, picture->columns,
             picture->rows);
}

static sw_status close_trace(sw_run *run, sw_pen *pen)
{
    (void)run;
    (void)pen;
    return SW_OK;
}

static void drop(sw_pen *pen)
{
    (void)pen;
}

const pen_kind pen_trace = {.open = open_trace,
                            .page = page,
                            .begin = begin,
                            .move = reach,
                            .line = reach,
                            .arc = arc,
                            .shut = shut,
                            .paint = paint,
                            .text = text_trace,
                            .picture = picture_trace,
                            .close = close_trace,
                            .drop = drop};
