/* chart_bars.c: bars lying one under another, each with its name at the left and its figures in columns at the right. */
#include "papers/chart_parts.h"
#include "papers/shop_parts.h"

#include <math.h>

static const double row_mm = 5.2, head_mm = 8.5, foot_mm = 8.5, text_mm = 1.9;

enum { HATCHES = 64, TICKS_MOST = 40 };

double bars_high_mm(size_t count)
{
    return head_mm + foot_mm + row_mm * (double)count;
}

void bars_hatch(sw_pen *pen, sw_box b, sw_ink ink)
{
    const double apart_mm = 1.0;
    double wide = b.x1_mm - b.x0_mm, high = b.y1_mm - b.y0_mm;
    sw_point lines[HATCHES][2];
    size_t count = 0;
    const size_t strokes = (size_t)fmax(0, ceil((wide + high) / apart_mm - 0.5));
    for (size_t k = 0; k < strokes; k++) {
        double at = apart_mm * ((double)k + 0.5); /* x + y of the stroke, from the top left */
        double x0 = fmax(0, at - high), x1 = fmin(wide, at);
        lines[count][0] = (sw_point){b.x0_mm + x0, b.y0_mm + (at - x0)};
        lines[count][1] = (sw_point){b.x0_mm + x1, b.y0_mm + (at - x1)};
        if (++count < HATCHES) continue;
        pen_lines(pen, ink, (const sw_point(*)[2])lines, count);
        count = 0;
    }
    pen_lines(pen, ink, (const sw_point(*)[2])lines, count);
}

sw_status bars_ticks(sw_run *run, sw_pen *pen, sw_box in, double most, const char *name)
{
    double step = chart_step(most, fmax(2, (in.x1_mm - in.x0_mm) / 16));
    for (int k = 0; k < TICKS_MOST && k * step <= most * (1 + 1e-9); k++) {
        double x = in.x0_mm + (in.x1_mm - in.x0_mm) * k * step / most;
        const char *text = chart_tick(run, k * step, step);
        if (text == NULL) return SW_NO_MEMORY;
        sw_pen_line(pen, look_light(0.12), (sw_point){x, in.y0_mm}, (sw_point){x, in.y1_mm});
        pen_write(pen, (sw_point){x, in.y1_mm + 3}, look_type_grey(text_mm - 0.1, SW_CENTRE), text);
    }
    pen_write(pen, (sw_point){(in.x0_mm + in.x1_mm) / 2, in.y1_mm + 6.6}, look_type_grey(text_mm, SW_CENTRE), name);
    return SW_OK;
}

static double most_of(const bar_chart *c)
{
    double most = isfinite(c->mark) ? c->mark : 0;
    for (size_t i = 0; i < c->count; i++) most = fmax(most, c->rows[i].hatched + c->rows[i].filled);
    return most > 0 ? 1.02 * most : 1;
}

static sw_status draw_row(sw_run *run, sw_pen *pen, sw_box in, const bar_chart *c, size_t i, double scale)
{
    const bar_row *r = &c->rows[i];
    double y = in.y0_mm + row_mm * (double)i, x = in.x0_mm + scale * r->hatched, end = x + scale * r->filled;
    const sw_box set_up = {in.x0_mm, y + 0.9, x, y + row_mm - 0.9}, run_box = {x, y + 0.9, end, y + row_mm - 0.9};
    const pen_paint fill = {.fill = true, .fill_ink = r->fill, .stroke = true, .stroke_ink = look_dark(0.12)},
                    open = {.stroke = true, .stroke_ink = look_dark(0.12)};
    if (r->filled > 0) pen_box(pen, &fill, run_box);
    if (r->hatched > 0) {
        bars_hatch(pen, set_up, look_dark(0.12));
        pen_box(pen, &open, set_up);
    }
    pen_type type = r->accent ? look_type_bold(text_mm, SW_RIGHT) : look_type(text_mm, SW_RIGHT);
    if (r->accent) type.ink = look_rust(0);
    double base = y + row_mm / 2 + text_mm / 2, right = in.x1_mm + 2;
    const char *name = words_within(run, pen, text_mm, r->accent, c->name_mm - 2, r->name);
    if (name == NULL) return SW_NO_MEMORY;
    pen_write(pen, (sw_point){in.x0_mm - 2, base}, type, name);
    for (size_t k = 0; k < BAR_COLUMNS; k++) {
        right += c->title_mm[k];
        if (c->title_mm[k] > 0 && r->values[k] == NULL) return SW_NO_MEMORY;
        if (c->title_mm[k] > 0 && r->values[k][0] != '\0') pen_write(pen, (sw_point){right, base}, type, r->values[k]);
    }
    return SW_OK;
}

static void draw_mark(sw_pen *pen, sw_box in, const bar_chart *c, double scale)
{
    static const double dash[] = {2, 1};
    double x = in.x0_mm + scale * c->mark, half = pen_width(pen, text_mm, true, c->mark_name) / 2;
    pen_type type = look_type_bold(text_mm, SW_CENTRE);
    type.ink = look_rust(0);
    sw_pen_line(pen, look_dashed(look_rust(0.4), dash, 2), (sw_point){x, in.y0_mm - 1.5}, (sw_point){x, in.y1_mm});
    x = fmin(fmax(x, in.x0_mm + half), in.x1_mm - half);
    pen_write(pen, (sw_point){x, in.y0_mm - 2.4}, type, c->mark_name);
}

sw_status draw_bars(sw_run *run, sw_pen *pen, sw_box box, const bar_chart *c)
{
    double right_mm = 2;
    for (size_t k = 0; k < BAR_COLUMNS; k++) right_mm += c->title_mm[k];
    const sw_box in = {box.x0_mm + c->name_mm, box.y0_mm + head_mm, box.x1_mm - right_mm,
                       box.y0_mm + head_mm + row_mm * (double)c->count};
    double most = most_of(c), scale = (in.x1_mm - in.x0_mm) / most, right = in.x1_mm + 2;
    SW_TRY(bars_ticks(run, pen, in, most, c->x_name));
    for (size_t i = 0; i < c->count; i++) SW_TRY(draw_row(run, pen, in, c, i, scale));
    sw_pen_line(pen, look_dark(0.25), (sw_point){in.x0_mm, in.y0_mm}, (sw_point){in.x0_mm, in.y1_mm});
    for (size_t k = 0; k < BAR_COLUMNS; k++) {
        right += c->title_mm[k];
        if (c->title_mm[k] > 0)
            pen_write(pen, (sw_point){right, in.y0_mm - 2.4}, look_type_grey(text_mm, SW_RIGHT), c->titles[k]);
    }
    if (isfinite(c->mark)) draw_mark(pen, in, c, scale);
    return SW_OK;
}
