/* flat_shape.c: the flat itself: sheet, rolled zones hatched, cut-outs, etched marks, bend lines. */
#include "papers/flat_parts.h"

#include <math.h>

static const sw_motion still = {0};

/* Cuts the line through p along d to the convex polygon q[4] (page); false when it misses. */
static bool cut_to(const sw_point q[4], sw_point p, sw_point d, sw_point out[2])
{
    double low = -INFINITY, high = INFINITY;
    double turn = (q[1].x_mm - q[0].x_mm) * (q[2].y_mm - q[0].y_mm) - (q[1].y_mm - q[0].y_mm) * (q[2].x_mm - q[0].x_mm);
    double sense = turn >= 0.0 ? 1.0 : -1.0;
    for (int i = 0; i < 4; i++) {
        sw_point a = q[i], b = q[(i + 1) % 4];
        double nx = -(b.y_mm - a.y_mm) * sense, ny = (b.x_mm - a.x_mm) * sense;
        double away = nx * (p.x_mm - a.x_mm) + ny * (p.y_mm - a.y_mm), rate = nx * d.x_mm + ny * d.y_mm;
        if (fabs(rate) < 1e-9) {
            if (away < 0.0) return false;
            continue;
        }
        double t = -away / rate;
        if (rate > 0.0)
            low = fmax(low, t);
        else
            high = fmin(high, t);
    }
    if (!(low < high)) return false;
    out[0] = (sw_point){p.x_mm + low * d.x_mm, p.y_mm + low * d.y_mm};
    out[1] = (sw_point){p.x_mm + high * d.x_mm, p.y_mm + high * d.y_mm};
    return true;
}

static void hatch(flat_sheet *f, const sw_flat_bend *bend)
{
    enum { MOST = 400 };
    sw_point q[4], lines[MOST][2];
    double low = INFINITY, high = -INFINITY;
    size_t count = 0;
    for (int i = 0; i < 4; i++) {
        q[i] = flat_page(f, bend->zone[i]);
        low = fmin(low, q[i].x_mm + q[i].y_mm);
        high = fmax(high, q[i].x_mm + q[i].y_mm);
    }
    double step_mm = fmax(4.5, (high - low) / MOST);
    const sw_point along = {1.0, -1.0};
    for (size_t i = 0; i < MOST && count < MOST; i++) {
        double c = low + step_mm * ((double)i + 0.5);
        if (c < high && cut_to((const sw_point *)q, (sw_point){c / 2.0, c / 2.0}, along, lines[count])) count++;
    }
    pen_lines(f->pen, look_light(0.13), (const sw_point(*)[2])lines, count);
    sw_pen_line(f->pen, look_grey(0.13), q[0], q[1]);
    sw_pen_line(f->pen, look_grey(0.13), q[2], q[3]);
}

static sw_status etched(sw_run *run, flat_sheet *f, const sw_flat_mark *mark)
{
    sw_point at = flat_page(f, mark->at);
    double height_mm = mark->height_mm * f->scale;
    for (size_t i = 0; i + 1 < mark->path.n; i++) {
        sw_vertex from = mark->path.v[i], to = mark->path.v[i + 1];
        sw_point a = flat_page(f, (sw_point){from.x_mm, from.y_mm}), b = flat_page(f, (sw_point){to.x_mm, to.y_mm});
        const sw_vertex run_of[2] = {{a.x_mm, a.y_mm, -from.bulge}, {b.x_mm, b.y_mm, 0.0}};
        const pen_paint paint = {.stroke = true, .stroke_ink = look_grey(0.13)};
        pen_shape(f->pen, &paint, run_of, 2, false);
    }
    if (mark->text[0] == '\0' || height_mm < 0.8) return SW_OK;
    pen_type type = look_type_grey(height_mm, SW_LEFT);
    type.turn_rad = mark->turn_rad;
    pen_write(f->pen, at, type, mark->text);
    double wide_mm = pen_width(f->pen, height_mm, false, mark->text), c = cos(mark->turn_rad), s = sin(mark->turn_rad);
    sw_box box = {at.x_mm + fmin(0.0, wide_mm * c) + fmin(0.0, -height_mm * s),
                  at.y_mm - fmax(0.0, wide_mm * s) - fmax(0.0, height_mm * c),
                  at.x_mm + fmax(0.0, wide_mm * c) + fmax(0.0, -height_mm * s),
                  at.y_mm - fmin(0.0, wide_mm * s) - fmin(0.0, height_mm * c)};
    return taken_box(run, &f->taken, box);
}

static sw_status take_contour(sw_run *run, flat_sheet *f, sw_contour c)
{
    for (size_t i = 0; i < c.n; i++) {
        sw_vertex from = c.v[i], next = c.v[(i + 1) % c.n];
        sw_point to = {next.x_mm, next.y_mm}, a = {from.x_mm, from.y_mm};
        int steps = fabs(from.bulge) <= SW_FLAT_BULGE ? 1 : 8;
        for (int j = 1; j <= steps; j++) {
            sw_point b = j == steps ? to : sw_segment_point(from, to, (double)j / steps);
            SW_TRY(taken_line(run, &f->taken, flat_page(f, a), flat_page(f, b)));
            a = b;
        }
    }
    return SW_OK;
}

static sw_status bend_lines(sw_run *run, flat_sheet *f)
{
    const sw_flat *flat = &f->piece->flat;
    int dashes = 0;
    const double *chain = look_chain(&dashes);
    for (size_t i = 0; i < flat->bend_count; i++) {
        sw_point a = flat_page(f, flat->bends[i].from), b = flat_page(f, flat->bends[i].to);
        sw_pen_line(f->pen, look_dashed(look_rust(0.25), chain, dashes), a, b);
        SW_TRY(taken_line(run, &f->taken, a, b));
    }
    return SW_OK;
}

static void centre_cross(flat_sheet *f, const hole_place *place, double size_mm)
{
    sw_point c = flat_page(f, (sw_point){place->x_mm, place->y_mm});
    double arm_mm = size_mm * f->scale / 2.0 + 0.8;
    const sw_point lines[2][2] = {{{c.x_mm - arm_mm, c.y_mm}, {c.x_mm + arm_mm, c.y_mm}},
                                  {{c.x_mm, c.y_mm - arm_mm}, {c.x_mm, c.y_mm + arm_mm}}};
    pen_lines(f->pen, look_grey(0.1), lines, 2);
}

sw_status flat_shape(sw_run *run, flat_sheet *f)
{
    const sw_flat *flat = &f->piece->flat;
    sw_pen_region(f->pen, look_pale(), (sw_ink){0}, still, f->scale, f->at, &flat->region);
    for (size_t i = 0; i < flat->bend_count; i++)
        if (flat->bends[i].bend->kind == SW_ROLLED) hatch(f, &flat->bends[i]);
    for (size_t i = 0; i < flat->region.hole_count; i++)
        sw_pen_contour(f->pen, look_white(), still, f->scale, f->at, flat->region.holes[i]);
    SW_TRY(bend_lines(run, f));
    sw_pen_contour(f->pen, look_dark(0.4), still, f->scale, f->at, flat->region.outline);
    SW_TRY(take_contour(run, f, flat->region.outline));
    for (size_t i = 0; i < flat->region.hole_count; i++) {
        sw_pen_contour(f->pen, look_dark(0.3), still, f->scale, f->at, flat->region.holes[i]);
        SW_TRY(take_contour(run, f, flat->region.holes[i]));
    }
    for (size_t i = 0; i < f->group_count; i++)
        for (size_t j = 0; j < f->groups[i].count && f->groups[i].round; j++)
            if (f->groups[i].size_mm * f->scale >= 1.6) centre_cross(f, &f->groups[i].places[j], f->groups[i].size_mm);
    for (size_t i = 0; i < flat->mark_count; i++) SW_TRY(etched(run, f, &flat->marks[i]));
    return SW_OK;
}
