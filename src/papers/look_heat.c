/* look_heat.c: temperatures as colours, and which temperature belongs to which part. */
#include "papers/chart_parts.h"

#include <math.h>

sw_ink look_heat(double share, double width_mm)
{
    static const double stops[][3] = {
        {0.62, 0.69, 0.73}, {0.84, 0.78, 0.62}, {0.85, 0.55, 0.24}, {0.70, 0.22, 0.13}, {0.35, 0.07, 0.10}};
    enum { STOPS = sizeof stops / sizeof *stops };
    double at = fmin(fmax(share, 0), 1) * (STOPS - 1);
    size_t i = (size_t)fmin(at, STOPS - 2);
    double t = at - (double)i;
    return (sw_ink){.r = stops[i][0] + t * (stops[i + 1][0] - stops[i][0]),
                    .g = stops[i][1] + t * (stops[i + 1][1] - stops[i][1]),
                    .b = stops[i][2] + t * (stops[i + 1][2] - stops[i][2]),
                    .width_mm = width_mm};
}

/* ---- what is known ---- */

bool heat_is_known(const sw_dossier *d)
{
    const sw_burned *b = d->burned;
    return b != NULL && b->scene != NULL && b->point != NULL && b->fire != NULL && b->air != NULL && b->hot_k != NULL;
}

bool heat_has_burn(const sw_dossier *d)
{
    return heat_is_known(d) && d->burned->through != NULL && d->burned->through->sample_count > 1;
}

size_t heat_part_of(const sw_scene *scene, int tag, size_t placement)
{
    for (size_t i = 0; i < scene->part_count; i++) {
        const sw_scene_part *p = &scene->parts[i];
        if ((tag >= 0 ? p->piece == tag : p->item == -1 - tag) && p->placement == placement) return i;
    }
    return SIZE_MAX;
}

const sw_heat_map_part *heat_map_of(const sw_burned *b, size_t part)
{
    if (b->map == NULL || part >= b->map->part_count) return NULL;
    const sw_heat_map_part *p = &b->map->parts[part];
    return p->mesh.triangle_count == 0 || p->flat == NULL ? NULL : p;
}

static void stretch(heat_span *span, double t_k)
{
    if (!isfinite(t_k)) return;
    span->low_c = fmin(span->low_c, sw_c_from_k(t_k));
    span->high_c = fmax(span->high_c, sw_c_from_k(t_k));
}

heat_span heat_span_of(const sw_burned *b)
{
    heat_span span = {INFINITY, -INFINITY};
    for (size_t i = 0; i < b->scene->part_count; i++) {
        const sw_heat_map_part *p = heat_map_of(b, i);
        stretch(&span, b->hot_k[i]);
        if (b->cold_k != NULL) stretch(&span, b->cold_k[i]);
        for (size_t k = 0; p != NULL && k < p->mesh.point_count; k++) {
            stretch(&span, p->t_k[k]);
            if (p->hot_k != NULL) stretch(&span, p->hot_k[k]);
        }
    }
    if (!(span.high_c > span.low_c)) span.low_c = isfinite(span.low_c) ? span.low_c : 0, span.high_c = span.low_c + 1;
    return span;
}

double heat_share(heat_span span, double c)
{
    return (c - span.low_c) / (span.high_c - span.low_c);
}

/* ---- the scale ---- */

sw_status draw_heat_scale(sw_run *run, sw_pen *pen, sw_box box, heat_span span)
{
    enum { STEPS = 40, TICKS_MOST = 24 };
    const double text_mm = 1.9;
    double wide_mm = box.x1_mm - box.x0_mm, step = chart_step(span.high_c - span.low_c, fmax(2, wide_mm / 14));
    for (int i = 0; i < STEPS; i++) {
        const pen_paint paint = {.fill = true, .fill_ink = look_heat((i + 0.5) / STEPS, 0)};
        pen_box(pen, &paint, (sw_box){box.x0_mm + wide_mm * i / STEPS, box.y0_mm, box.x1_mm, box.y1_mm});
    }
    for (int k = 0; k < TICKS_MOST; k++) {
        double c = (ceil(span.low_c / step) + k) * step, x = box.x0_mm + wide_mm * heat_share(span, c);
        if (c > span.high_c) break;
        const char *text = chart_tick(run, c, step);
        if (text == NULL) return SW_NO_MEMORY;
        sw_pen_line(pen, look_grey(0.15), (sw_point){x, box.y1_mm}, (sw_point){x, box.y1_mm + 0.8});
        pen_write(pen, (sw_point){x, box.y1_mm + 1.4 + text_mm}, look_type_grey(text_mm, SW_CENTRE), text);
    }
    pen_write(pen, (sw_point){box.x1_mm + 1.5, box.y1_mm - 0.4}, look_type_grey(text_mm, SW_LEFT), CELSIUS);
    return SW_OK;
}
