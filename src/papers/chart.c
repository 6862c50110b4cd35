/* chart.c: a line chart: ticks at round numbers, light lines across, the lines' names in a row at the top. */
#include "papers/chart_parts.h"

#include <math.h>

enum { TICKS_MOST = 24 };

static const double left_mm = 14, bottom_mm = 8, top_mm = 9, right_mm = 3, small_mm = 1.9;

sw_ink look_line(size_t tone, double width_mm)
{
    static const double dashes[LINE_TONES][2] = {{0, 0}, {3, 1.2}, {1, 1}, {5, 1.5}, {2, 0.8}, {0.6, 0.9}};
    static const unsigned tones[LINE_TONES] = {0xa4472a, 0x2e2a26, 0x4f7184, 0x9a6a12, 0x4d6b4a, 0x756c63};
    size_t i = tone % LINE_TONES;
    unsigned rgb = tones[i];
    sw_ink ink = {.r = (double)(rgb >> 16 & 255u) / 255.0,
                  .g = (double)(rgb >> 8 & 255u) / 255.0,
                  .b = (double)(rgb & 255u) / 255.0,
                  .width_mm = width_mm};
    return i == 0 ? ink : look_dashed(ink, dashes[i], 2);
}

double chart_step(double span, double most)
{
    double raw = span / most, ten = pow(10, floor(log10(raw))), share = raw / ten;
    return ten * (share <= 1 ? 1 : share <= 2 ? 2 : share <= 5 ? 5 : 10);
}

typedef struct axis {
    double low, high, step;
} axis;

static axis axis_over(double low, double high, bool fixed_low, bool fixed_high, double most)
{
    const double least = 1e-3; /* of the size: less is noise, or one value */
    double size = fmax(fabs(low), fabs(high)), spare = size > 0 ? 0.01 * size : 1;
    bool narrow = !(high - low > least * size);
    if (narrow && !fixed_low) low -= spare;
    if (narrow && !fixed_high) high += spare;
    if (!(high > low)) high = low + spare;
    axis a = {low, high, chart_step(high - low, most)};
    if (!fixed_low) a.low = floor(low / a.step + 1e-9) * a.step;
    if (!fixed_high) a.high = ceil(high / a.step - 1e-9) * a.step;
    return a;
}

static void stretch(const double *v, size_t count, double *low, double *high)
{
    for (size_t i = 0; i < count; i++) {
        if (!isfinite(v[i])) continue;
        *low = fmin(*low, v[i]);
        *high = fmax(*high, v[i]);
    }
}

typedef struct plot {
    sw_pen *pen;
    sw_box in; /* the field of the lines, page mm */
    axis x, y;
    const chart *c;
} plot;

static void find_axes(plot *p)
{
    double x0 = INFINITY, x1 = -INFINITY, y0 = INFINITY, y1 = -INFINITY;
    const chart *c = p->c;
    for (size_t i = 0; i < c->line_count; i++) {
        stretch(c->lines[i].x, c->lines[i].count, &x0, &x1);
        stretch(c->lines[i].y, c->lines[i].count, &y0, &y1);
    }
    if (!isfinite(x0)) x0 = 0, x1 = 1, y0 = 0, y1 = 1;
    double wide_mm = p->in.x1_mm - p->in.x0_mm, high_mm = p->in.y1_mm - p->in.y0_mm;
    p->x = axis_over(isnan(c->x_low) ? x0 : c->x_low, isnan(c->x_high) ? x1 : c->x_high, true, true,
                     fmax(2, wide_mm / 16));
    p->y = axis_over(isnan(c->y_low) ? y0 : c->y_low, isnan(c->y_high) ? y1 : c->y_high, !isnan(c->y_low),
                     !isnan(c->y_high), fmax(2, high_mm / 9));
}

static double x_mm(const plot *p, double x)
{
    return p->in.x0_mm + (p->in.x1_mm - p->in.x0_mm) * (x - p->x.low) / (p->x.high - p->x.low);
}

static double y_mm(const plot *p, double y)
{
    double share = fmin(fmax((y - p->y.low) / (p->y.high - p->y.low), 0), 1);
    return p->in.y1_mm - (p->in.y1_mm - p->in.y0_mm) * share;
}

const char *chart_tick(sw_run *run, double value, double step)
{
    int decimals = (int)fmin(fmax(ceil(-log10(step) - 1e-9), 0), 6);
    return words_number(run, fabs(value) < 1e-9 * step ? 0 : value, decimals);
}

static sw_status draw_ticks(sw_run *run, const plot *p)
{
    const char *text = NULL;
    for (int k = 0; k < TICKS_MOST; k++) {
        double v = (ceil(p->x.low / p->x.step - 1e-9) + k) * p->x.step, x = x_mm(p, v);
        if (v > p->x.high + 1e-9 * p->x.step) break;
        sw_pen_line(p->pen, look_light(0.12), (sw_point){x, p->in.y0_mm}, (sw_point){x, p->in.y1_mm});
        text = chart_tick(run, v, p->x.step);
        if (text == NULL) return SW_NO_MEMORY;
        if (p->c->last) pen_write(p->pen, (sw_point){x, p->in.y1_mm + 3}, look_type_grey(small_mm, SW_CENTRE), text);
    }
    for (int k = 0; k < TICKS_MOST; k++) {
        double v = (ceil(p->y.low / p->y.step - 1e-9) + k) * p->y.step, y = y_mm(p, v);
        if (v > p->y.high + 1e-9 * p->y.step) break;
        sw_pen_line(p->pen, look_light(0.12), (sw_point){p->in.x0_mm, y}, (sw_point){p->in.x1_mm, y});
        text = chart_tick(run, v, p->y.step);
        if (text == NULL) return SW_NO_MEMORY;
        pen_write(p->pen, (sw_point){p->in.x0_mm - 1.5, y + small_mm / 2}, look_type_grey(small_mm, SW_RIGHT), text);
    }
    return SW_OK;
}

static void draw_line(const plot *p, const chart_line *l)
{
    sw_pen *pen = p->pen;
    bool open = false;
    pen->kind->begin(pen);
    for (size_t i = 0; i < l->count; i++) {
        bool seen = isfinite(l->y[i]) && l->x[i] >= p->x.low && l->x[i] <= p->x.high;
        if (seen && !open) pen->kind->move(pen, (sw_point){x_mm(p, l->x[i]), y_mm(p, l->y[i])});
        if (seen && open) pen->kind->line(pen, (sw_point){x_mm(p, l->x[i]), y_mm(p, l->y[i])});
        open = seen;
    }
    const pen_paint paint = {.stroke = true, .stroke_ink = look_line(l->tone, 0.45)};
    pen->kind->paint(pen, &paint);
    const pen_paint dot = {.fill = true, .fill_ink = look_line(l->tone, 0)};
    for (size_t i = 0; l->dots && i < l->count; i++)
        if (isfinite(l->y[i])) pen_circle(pen, &dot, (sw_point){x_mm(p, l->x[i]), y_mm(p, l->y[i])}, 0.55);
}

/* Title at the left, then each line's stroke and name. */
static void draw_names(const plot *p)
{
    double y = p->in.y0_mm - 2.2, x = p->in.x0_mm;
    pen_write(p->pen, (sw_point){x, y}, look_type_bold(2.2, SW_LEFT), p->c->title);
    x += pen_width(p->pen, 2.2, true, p->c->title) + 5;
    for (size_t i = 0; !p->c->bare && i < p->c->line_count; i++) {
        const chart_line *l = &p->c->lines[i];
        sw_pen_line(p->pen, look_line(l->tone, 0.6), (sw_point){x, y - 0.8}, (sw_point){x + 7, y - 0.8});
        pen_write(p->pen, (sw_point){x + 8.5, y}, look_type(small_mm, SW_LEFT), l->name);
        x += 12.5 + pen_width(p->pen, small_mm, false, l->name);
    }
}

sw_status draw_chart(sw_run *run, sw_pen *pen, sw_box box, const chart *c)
{
    plot p = {
        .pen = pen,
        .in = {box.x0_mm + left_mm, box.y0_mm + top_mm, box.x1_mm - right_mm, box.y1_mm - (c->last ? bottom_mm : 2)},
        .c = c};
    find_axes(&p);
    SW_TRY(draw_ticks(run, &p));
    for (size_t i = 0; i < c->mark_count; i++)
        sw_pen_line(pen, look_rust(0.2), (sw_point){x_mm(&p, c->marks[i]), p.in.y0_mm},
                    (sw_point){x_mm(&p, c->marks[i]), p.in.y1_mm});
    const pen_paint frame = {.stroke = true, .stroke_ink = look_grey(0.2)};
    pen_box(pen, &frame, p.in);
    for (size_t i = 0; i < c->line_count; i++) draw_line(&p, &c->lines[i]);
    draw_names(&p);
    pen_type upright = look_type_grey(small_mm, SW_CENTRE);
    upright.turn_rad = SW_PI / 2;
    pen_write(pen, (sw_point){box.x0_mm + 2.5, (p.in.y0_mm + p.in.y1_mm) / 2}, upright, c->y_name);
    if (c->last)
        pen_write(pen, (sw_point){(p.in.x0_mm + p.in.x1_mm) / 2, p.in.y1_mm + 6.8}, look_type_grey(small_mm, SW_CENTRE),
                  c->x_name);
    return SW_OK;
}
