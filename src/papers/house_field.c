/* house_field.c: a field with ticks at round numbers, and curves in it. */
#include "papers/chart_parts.h"
#include "papers/house_parts.h"

#include <math.h>

enum { TICKS_MOST = 40 };

sw_point house_at(const house_field *f, double x, double y)
{
    double right = (x - f->x0) / (f->x1 - f->x0), up = (y - f->y0) / (f->y1 - f->y0);
    return (sw_point){f->in.x0_mm + (f->in.x1_mm - f->in.x0_mm) * fmin(fmax(right, 0), 1),
                      f->in.y1_mm - (f->in.y1_mm - f->in.y0_mm) * fmin(fmax(up, 0), 1)};
}

void house_round(double *low, double *high, double most_ticks)
{
    if (!isfinite(*low) || !isfinite(*high)) *low = 0, *high = 1;
    if (!(*high > *low)) *high = *low + 1;
    double step = chart_step(*high - *low, most_ticks);
    *low = floor(*low / step + 1e-9) * step;
    *high = ceil(*high / step - 1e-9) * step;
}

static sw_status ticks(sw_run *run, const house_field *f, bool upright)
{
    double low = upright ? f->y0 : f->x0, high = upright ? f->y1 : f->x1;
    double room_mm = upright ? f->in.y1_mm - f->in.y0_mm : f->in.x1_mm - f->in.x0_mm;
    double step = chart_step(high - low, fmax(room_mm / (upright ? 9 : 15), 2));
    for (int k = 0; k < TICKS_MOST; k++) {
        double v = (ceil(low / step - 1e-9) + k) * step;
        if (v > high + 1e-9 * step) break;
        sw_point a = upright ? house_at(f, f->x0, v) : house_at(f, v, f->y0),
                 b = upright ? house_at(f, f->x1, v) : house_at(f, v, f->y1);
        sw_pen_line(f->pen, look_light(0.12), a, b);
        const char *text = chart_tick(run, v, step);
        if (text == NULL) return SW_NO_MEMORY;
        sw_point at = upright ? (sw_point){a.x_mm - 1.4, a.y_mm + HOUSE_SMALL_MM / 2}
                              : (sw_point){a.x_mm, a.y_mm + HOUSE_SMALL_MM + 1.4};
        pen_write(f->pen, at, look_type_grey(HOUSE_SMALL_MM, upright ? SW_RIGHT : SW_CENTRE), text);
    }
    return SW_OK;
}

sw_status house_grid(sw_run *run, const house_field *f, const char *x_name, const char *y_name)
{
    const pen_paint frame = {.stroke = true, .stroke_ink = look_grey(0.2)};
    SW_TRY(ticks(run, f, false));
    if (y_name != NULL) SW_TRY(ticks(run, f, true));
    pen_box(f->pen, &frame, f->in);
    pen_write(f->pen, (sw_point){(f->in.x0_mm + f->in.x1_mm) / 2, f->in.y1_mm + 2 * HOUSE_SMALL_MM + 3.2},
              look_type_grey(HOUSE_SMALL_MM, SW_CENTRE), x_name);
    if (y_name == NULL) return SW_OK;
    pen_type upright = look_type_grey(HOUSE_SMALL_MM, SW_CENTRE);
    upright.turn_rad = SW_PI / 2;
    pen_write(f->pen, (sw_point){f->in.x0_mm - 9.5, (f->in.y0_mm + f->in.y1_mm) / 2}, upright, y_name);
    return SW_OK;
}

void house_line(const house_field *f, sw_ink ink, const sw_point *points, size_t count)
{
    const pen_paint paint = {.stroke = true, .stroke_ink = ink};
    bool open = false;
    f->pen->kind->begin(f->pen);
    for (size_t i = 0; i < count; i++) {
        bool seen = isfinite(points[i].x_mm) && isfinite(points[i].y_mm);
        if (seen && open) f->pen->kind->line(f->pen, house_at(f, points[i].x_mm, points[i].y_mm));
        if (seen && !open) f->pen->kind->move(f->pen, house_at(f, points[i].x_mm, points[i].y_mm));
        open = seen;
    }
    f->pen->kind->paint(f->pen, &paint);
}

sw_ink house_tone(size_t index, double width_mm)
{
    static const double dashes[][2] = {{0, 0}, {4, 1.3}, {1.2, 1.1}, {0.4, 1}};
    sw_ink inks[] = {look_rust(width_mm), look_dark(width_mm), look_dark(width_mm), look_grey(width_mm)};
    size_t i = index % 4;
    return i == 0 ? inks[0] : look_dashed(inks[i], dashes[i], 2);
}

double house_key(sw_pen *pen, size_t index, sw_point at, const char *name)
{
    sw_pen_line(pen, house_tone(index, 0.6), (sw_point){at.x_mm, at.y_mm - 0.9},
                (sw_point){at.x_mm + 9, at.y_mm - 0.9});
    pen_write(pen, (sw_point){at.x_mm + 10.5, at.y_mm}, look_type(HOUSE_SMALL_MM, SW_LEFT), name);
    return at.x_mm + 15 + pen_width(pen, HOUSE_SMALL_MM, false, name);
}
