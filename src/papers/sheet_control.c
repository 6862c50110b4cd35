/* sheet_control.c: a control chart: the middles over the spreads, with their limits, points that break a rule ringed. */
#include "papers/chart_parts.h"
#include "papers/sheets_parts.h"

#include <math.h>

typedef struct panel {
    sw_pen *pen;
    sw_box in;
    sheet_scale up, along;
    const double *values;
    size_t count;
    double mean, low, high;
} panel;

static sw_point at(const panel *p, size_t i)
{
    return (sw_point){sheet_on(p->along, (double)(i + 1), p->in.x0_mm, p->in.x1_mm),
                      sheet_on(p->up, p->values[i], p->in.y1_mm, p->in.y0_mm)};
}

static sheet_scale span_of(const panel *p)
{
    double low = isfinite(p->low) ? p->low : p->mean, high = isfinite(p->high) ? p->high : p->mean;
    for (size_t i = 0; i < p->count; i++) {
        if (!isfinite(p->values[i])) continue;
        low = fmin(low, p->values[i]);
        high = fmax(high, p->values[i]);
    }
    double spare = high > low ? 0.2 * (high - low) : 1e-3;
    return (sheet_scale){low - spare, high + spare};
}

static sw_status level(sw_run *run, const panel *p, double value, const char *name, bool limit)
{
    static const double dash[] = {2, 1};
    if (!isfinite(value)) return SW_OK;
    double y = sheet_on(p->up, value, p->in.y1_mm, p->in.y0_mm), step = (p->up.high - p->up.low) / 100;
    const char *number = chart_tick(run, value, step);
    if (number == NULL) return SW_NO_MEMORY;
    const char *text = sw_text_format(run, run->scratch, "%s %s", name, number);
    if (text == NULL) return SW_NO_MEMORY;
    sw_ink ink = limit ? look_dashed(look_rust(0.3), dash, 2) : look_grey(0.25);
    sw_pen_line(p->pen, ink, (sw_point){p->in.x0_mm, y}, (sw_point){p->in.x1_mm, y});
    pen_write(p->pen, (sw_point){p->in.x1_mm + 1.5, y + SHEET_SMALL_MM / 2}, look_type(SHEET_SMALL_MM - 0.1, SW_LEFT),
              text);
    return SW_OK;
}

static void points(const panel *p)
{
    const pen_paint dot = {.fill = true, .fill_ink = look_dark(0)};
    for (size_t i = 0; i + 1 < p->count; i++)
        if (isfinite(p->values[i]) && isfinite(p->values[i + 1]))
            sw_pen_line(p->pen, look_dark(0.2), at(p, i), at(p, i + 1));
    for (size_t i = 0; i < p->count; i++)
        if (isfinite(p->values[i])) pen_circle(p->pen, &dot, at(p, i), 0.6);
}

/* Rules of one point stand in one text: "1 2". */
static sw_status rings(sw_run *run, const panel *p, const sw_chart *c, bool spread)
{
    const pen_paint ring = {.stroke = true, .stroke_ink = look_rust(0.4)},
                    ground = {.fill = true, .fill_ink = look_white()};
    for (size_t i = 0; i < p->count; i++) {
        const char *text = "";
        for (size_t k = 0; k < c->break_count && text != NULL; k++)
            if (c->breaks[k].point == i && (c->breaks[k].rule == SW_RULE_SPREAD) == spread)
                text = sw_text_format(run, run->scratch, "%s%s%d", text, text[0] == '\0' ? "" : " ",
                                      (int)c->breaks[k].rule + 1);
        if (text == NULL) return SW_NO_MEMORY;
        if (text[0] == '\0' || !isfinite(p->values[i])) continue;
        pen_type type = look_type_bold(1.7, SW_CENTRE);
        type.ink = look_rust(0);
        sw_point c_mm = at(p, i);
        bool above = p->values[i] >= p->mean;
        pen_circle(p->pen, &ring, c_mm, 1.3);
        double half = pen_width(p->pen, 1.7, true, text) / 2 + 0.4, base = c_mm.y_mm + (above ? -2.0 : 3.8);
        pen_box(p->pen, &ground, (sw_box){c_mm.x_mm - half, base - 2.1, c_mm.x_mm + half, base + 0.4});
        pen_write(p->pen, (sw_point){c_mm.x_mm, base}, type, text);
    }
    return SW_OK;
}

static sw_status draw_panel(sw_run *run, panel *p, const sw_chart *c, bool spread, const char *name)
{
    const pen_paint frame = {.stroke = true, .stroke_ink = look_grey(0.2)};
    p->up = span_of(p);
    p->along = (sheet_scale){0, (double)p->count + 1};
    SW_TRY(sheet_ticks_up(run, p->pen, p->in, p->up));
    pen_box(p->pen, &frame, p->in);
    SW_TRY(level(run, p, p->high, "UCL", true));
    SW_TRY(level(run, p, p->mean, "mean", false));
    if (p->low < p->mean && (!spread || p->low > 0)) SW_TRY(level(run, p, p->low, "LCL", true));
    points(p);
    SW_TRY(rings(run, p, c, spread));
    pen_type upright = look_type_grey(SHEET_SMALL_MM, SW_CENTRE);
    upright.turn_rad = SW_PI / 2;
    pen_write(p->pen, (sw_point){p->in.x0_mm - 16, (p->in.y0_mm + p->in.y1_mm) / 2}, upright, name);
    return SW_OK;
}

static sw_status sample_numbers(sw_run *run, const panel *p)
{
    size_t step = 1 + p->count / 25;
    for (size_t i = 0; i < p->count; i += step) {
        const char *text = sw_text_format(run, run->scratch, "%zu", i + 1);
        if (text == NULL) return SW_NO_MEMORY;
        pen_write(p->pen, (sw_point){at(p, i).x_mm, p->in.y1_mm + 3}, look_type_grey(1.7, SW_CENTRE), text);
    }
    return SW_OK;
}

sw_status draw_control(sw_run *run, const doc_book *doc, size_t feature, size_t unused, sw_pen *pen, sw_box box)
{
    static const char *const middles[] = {"mean", "mean", "value"}, *const spreads[] = {"range", "s", "moving range"};
    (void)unused;
    const sw_fit_feature *f = &doc->d->shop.fit->measured.features[feature];
    const sw_chart *c = &f->chart;
    double x0 = box.x0_mm + 19, x1 = box.x1_mm - 25;
    panel upper = {.pen = pen,
                   .in = {x0, box.y0_mm + 7, x1, box.y0_mm + 42},
                   .values = c->middle,
                   .count = c->count,
                   .mean = c->mean,
                   .low = c->low,
                   .high = c->high},
          lower = {.pen = pen,
                   .in = {x0, box.y0_mm + 46, x1, box.y1_mm - 8},
                   .values = c->spread,
                   .count = c->count,
                   .mean = c->spread_mean,
                   .low = c->spread_low,
                   .high = c->spread_high};
    const char *title = sw_text_format(run, run->scratch, "%s, %s, %s", f->piece, f->feature, f->unit);
    if (title != NULL) title = words_within(run, pen, 2.1, true, box.x1_mm - box.x0_mm, title);
    if (title == NULL) return SW_NO_MEMORY;
    pen_write(pen, (sw_point){box.x0_mm, box.y0_mm + 4}, look_type_bold(2.1, SW_LEFT), title);
    SW_TRY(draw_panel(run, &upper, c, false, middles[c->kind]));
    SW_TRY(draw_panel(run, &lower, c, true, spreads[c->kind]));
    SW_TRY(sample_numbers(run, &lower));
    pen_write(pen, (sw_point){(x0 + x1) / 2, lower.in.y1_mm + 6.8}, look_type_grey(SHEET_SMALL_MM, SW_CENTRE),
              "sample");
    return SW_OK;
}
