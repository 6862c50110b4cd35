/* card_section.c: a stroke in section: tools grey, sheet black (ISO 128-3: thin sections), stop and its distance in rust. A sheet
 * longer than the picture ends at a break line; the stop keeps its distance in figures. */
#include "papers/cards_parts.h"

#include <math.h>
#include <string.h>

#define DIE_LEAST_MM 5.5 /* the V on paper */
#define DIE_MOST_MM  16.0
#define BELOW_MM     9.0 /* of the die shown on paper, at least */
#define ABOVE_MM     13.0
#define STOP_MM      11.0 /* shown about a stop that is moved in */
#define BREAK_MM     2.2

enum { CLIPPED = 96 };

typedef struct frame {
    sw_pen *pen;
    sw_box box, part; /* page; section */
    double scale;
} frame;

static bool is_sheet(const sw_form_shape *s)
{
    return s->thing == SW_FORM_SHEET;
}

/* ---- what is shown ------------------------------------------------------------------------------------------------ */

static sw_box widened(sw_box a, sw_point p)
{
    return (sw_box){fmin(a.x0_mm, p.x_mm), fmin(a.y0_mm, p.y_mm), fmax(a.x1_mm, p.x_mm), fmax(a.y1_mm, p.y_mm)};
}

static sw_box extent_of(const sw_form_picture *p)
{
    sw_box b = {0.0, 0.0, 0.0, 0.0};
    for (size_t i = 0; i < p->count; i++)
        for (size_t k = 0; k < p->shapes[i].count && (is_sheet(&p->shapes[i]) || p->shapes[i].thing == SW_FORM_GAUGE);
             k++)
            b = widened(b, p->shapes[i].points[k]);
    return b;
}

static double fitting(const sw_form_picture *p, double wide_mm, double high_mm)
{
    sw_box b = extent_of(p);
    double high = (high_mm - BELOW_MM - 2.0) / fmax(fmax(b.y1_mm, 0.0) + fmax(-b.y0_mm, 0.0), 1.0);
    return fmin((wide_mm - 4.0) / fmax(b.x1_mm - b.x0_mm, 1.0), high);
}

double card_section_scale(const sw_form_piece *form, double wide_mm, double high_mm)
{
    double scale = INFINITY, die_mm = 0.0;
    for (size_t i = 0; i < form->step_count; i++) {
        const sw_form_step *s = &form->steps[i];
        scale = fmin(scale, fmin(fitting(&s->before, wide_mm, high_mm), fitting(&s->after, wide_mm, high_mm)));
        die_mm = fmax(die_mm, s->die_mm);
    }
    if (die_mm <= 0.0) die_mm = 20.0; /* flattening alone: as if on a usual die */
    return fmin(fmax(scale, DIE_LEAST_MM / die_mm), DIE_MOST_MM / die_mm);
}

/* low..high into a window of `most`: whole when it fits, else the shorter side of 0 whole. */
static void window(double low, double high, double most, double *from, double *to)
{
    if (high - low <= most)
        *from = (low + high - most) / 2.0;
    else if (-low < 0.35 * most)
        *from = low - 0.03 * most;
    else if (high < 0.35 * most)
        *from = high + 0.03 * most - most;
    else
        *from = -most * fmin(0.65, fmax(0.35, -low / (high - low)));
    *to = *from + most;
}

static frame frame_of(sw_pen *pen, sw_box box, double scale, const sw_form_picture *p)
{
    frame f = {.pen = pen, .box = box, .scale = scale};
    sw_box b = extent_of(p);
    window(b.x0_mm, b.x1_mm, (box.x1_mm - box.x0_mm) / scale, &f.part.x0_mm, &f.part.x1_mm);
    double high = (box.y1_mm - box.y0_mm) / scale, low = fmin(b.y0_mm - 2.0 / scale, -BELOW_MM / scale);
    double top = fmax(b.y1_mm + 2.0 / scale, ABOVE_MM / scale);
    f.part.y0_mm = top - low <= high ? low - 0.3 * (high - top + low) : fmax(low, -0.5 * high);
    f.part.y1_mm = f.part.y0_mm + high;
    return f;
}

static sw_point on_page(const frame *f, sw_point p)
{
    return (sw_point){f->box.x0_mm + (p.x_mm - f->part.x0_mm) * f->scale,
                      f->box.y1_mm - (p.y_mm - f->part.y0_mm) * f->scale};
}

/* ---- clipping: Sutherland and Hodgman 1974, convex polygons against the four sides ---------------------------------- */

typedef struct polygon {
    sw_point p[CLIPPED];
    size_t n;
} polygon;

/* How far inside side 0..3 (left, right, low, high) of the box. */
static double inside(sw_box b, int side, sw_point p)
{
    const double depths[] = {p.x_mm - b.x0_mm, b.x1_mm - p.x_mm, p.y_mm - b.y0_mm, b.y1_mm - p.y_mm};
    return depths[side];
}

static void clip_side(polygon *g, sw_box b, int side)
{
    polygon out = {.n = 0};
    for (size_t i = 0; i < g->n && out.n + 2 < CLIPPED; i++) {
        sw_point a = g->p[i], c = g->p[(i + 1) % g->n];
        double da = inside(b, side, a), dc = inside(b, side, c);
        if (da >= 0.0) out.p[out.n++] = a;
        if ((da >= 0.0) == (dc >= 0.0)) continue;
        double t = da / (da - dc);
        out.p[out.n++] = (sw_point){a.x_mm + t * (c.x_mm - a.x_mm), a.y_mm + t * (c.y_mm - a.y_mm)};
    }
    *g = out;
}

static polygon clipped(const sw_form_shape *s, sw_box b)
{
    polygon g = {.n = 0};
    for (size_t i = 0; i < s->count && i + 4 < CLIPPED; i++) g.p[g.n++] = s->points[i];
    for (int side = 0; side < 4; side++) clip_side(&g, b, side);
    return g;
}

/* ---- drawing -------------------------------------------------------------------------------------------------------- */

/* ISO 128-2: a long break line across the end of a sheet that goes on. */
static void break_line(const frame *f, sw_point at, bool upright)
{
    static const double zigzag[][2] = {{-2.4, 0}, {-0.7, 0}, {-0.35, -0.9}, {0.35, 0.9}, {0.7, 0}, {2.4, 0}};
    sw_point line[6], c = on_page(f, at);
    for (int i = 0; i < 6; i++)
        line[i] = upright ? (sw_point){c.x_mm + zigzag[i][1], c.y_mm + zigzag[i][0]}
                          : (sw_point){c.x_mm + zigzag[i][0], c.y_mm + zigzag[i][1]};
    sw_pen_polygon(f->pen, look_dark(0.13), line, 6, false);
}

static void breaks(const frame *f, const polygon *g)
{
    const double near = 1e-6;
    for (size_t i = 0; i < g->n; i++) {
        sw_point a = g->p[i], b = g->p[(i + 1) % g->n];
        for (int side = 0; side < 4; side++) {
            if (fabs(inside(f->part, side, a)) > near || fabs(inside(f->part, side, b)) > near) continue;
            if (hypot(a.x_mm - b.x_mm, a.y_mm - b.y_mm) < near) continue;
            break_line(f, (sw_point){(a.x_mm + b.x_mm) / 2.0, (a.y_mm + b.y_mm) / 2.0}, side < 2);
        }
    }
}

static void show(const frame *f, const sw_form_shape *s)
{
    polygon g = clipped(s, f->part);
    sw_point page[CLIPPED];
    if (g.n < 3) return;
    for (size_t i = 0; i < g.n; i++) page[i] = on_page(f, g.p[i]);
    switch (s->thing) {
    case SW_FORM_SHEET:
        if (!s->beside) sw_pen_polygon(f->pen, look_dark(0.0), page, g.n, true);
        sw_pen_polygon(f->pen, s->beside ? look_grey(0.1) : look_dark(0.2), page, g.n, true);
        breaks(f, &g);
        return;
    case SW_FORM_GAUGE:
        sw_pen_polygon(f->pen, look_rust(0.0), page, g.n, true);
        return;
    case SW_FORM_BEAM:
    case SW_FORM_TABLE:
        sw_pen_polygon(f->pen, look_pale(), page, g.n, true);
        sw_pen_polygon(f->pen, look_light(0.13), page, g.n, true);
        return;
    default:
        sw_pen_polygon(f->pen, look_light(0.0), page, g.n, true);
        sw_pen_polygon(f->pen, look_grey(0.18), page, g.n, true);
    }
}

static void show_all(const frame *f, const sw_form_picture *p)
{
    static const sw_form_thing order[] = {SW_FORM_TABLE, SW_FORM_BEAM,  SW_FORM_DIE,
                                          SW_FORM_PUNCH, SW_FORM_GAUGE, SW_FORM_SHEET};
    for (size_t k = 0; k < sizeof order / sizeof *order; k++)
        for (int beside = 1; beside >= 0; beside--)
            for (size_t i = 0; i < p->count; i++)
                if (p->shapes[i].thing == order[k] && p->shapes[i].beside == (beside == 1)) show(f, &p->shapes[i]);
}

static void arrow(sw_pen *pen, sw_point tip, double way)
{
    const sw_point head[3] = {tip, {tip.x_mm - 1.9 * way, tip.y_mm - 0.4}, {tip.x_mm - 1.9 * way, tip.y_mm + 0.4}};
    sw_pen_polygon(pen, look_rust(0.0), head, 3, true);
}

typedef struct span {                   /* of the dimension, page mm */
    double x0_mm, x1_mm, y_mm, wide_mm; /* wide: of the figures */
    bool narrow;
} span;

/* Where the figures begin: between the arrows, else beside them where there is room. */
static double figures_mm(const frame *f, const span *s)
{
    if (!s->narrow) return (s->x0_mm + s->x1_mm - s->wide_mm) / 2.0;
    return s->x1_mm + 3.0 + s->wide_mm <= f->box.x1_mm ? s->x1_mm + 3.0 : s->x0_mm - 3.0 - s->wide_mm;
}

/* The distance from the bend line to the stop at page x, near the top. */
static sw_status stop(sw_run *run, const frame *f, double stop_mm, double gauge_mm)
{
    const double size_mm = 2.0;
    const char *text = words_mm(run, gauge_mm);
    if (text == NULL) return SW_NO_MEMORY;
    sw_point origin = on_page(f, (sw_point){0, 0});
    span s = {.x0_mm = origin.x_mm, .x1_mm = stop_mm, .y_mm = f->box.y0_mm + 3.4};
    s.wide_mm = pen_width(f->pen, size_mm, false, text) + 1.6;
    s.narrow = s.x1_mm - s.x0_mm < s.wide_mm + 5.0;
    double from_mm = figures_mm(f, &s), over_mm = s.narrow ? 3.0 : 0.0;
    const sw_point ends[2][2] = {{{s.x0_mm, s.y_mm - 1.2}, {s.x0_mm, origin.y_mm}},
                                 {{s.x1_mm, s.y_mm - 1.2}, {s.x1_mm, origin.y_mm - 1.0}}};
    pen_lines(f->pen, look_rust(0.1), ends, 2);
    sw_pen_line(f->pen, look_rust(0.13), (sw_point){fmin(s.x0_mm - over_mm, from_mm), s.y_mm},
                (sw_point){fmax(s.x1_mm + over_mm, from_mm + (s.narrow ? s.wide_mm : 0.0)), s.y_mm});
    arrow(f->pen, (sw_point){s.x0_mm, s.y_mm}, s.narrow ? 1.0 : -1.0);
    arrow(f->pen, (sw_point){s.x1_mm, s.y_mm}, s.narrow ? -1.0 : 1.0);
    pen_type type = look_type(size_mm, SW_CENTRE);
    type.ink = look_rust(0.0);
    const pen_paint ground = {.fill = true, .fill_ink = look_white()};
    pen_box(f->pen, &ground, (sw_box){from_mm, s.y_mm - 2.8, from_mm + s.wide_mm, s.y_mm - 0.3});
    pen_write(f->pen, (sw_point){from_mm + s.wide_mm / 2.0, s.y_mm - 0.6}, type, text);
    return SW_OK;
}

/* The end of the sheet at a stop that the picture does not reach, moved in behind a break. */
static frame moved_in(const frame *f, double gauge_mm)
{
    frame end = *f;
    end.box.x0_mm = f->box.x1_mm + BREAK_MM;
    end.box.x1_mm = end.box.x0_mm + STOP_MM;
    end.part.x0_mm = gauge_mm - 0.6 * STOP_MM / f->scale;
    end.part.x1_mm = end.part.x0_mm + STOP_MM / f->scale;
    return end;
}

sw_status card_section(sw_run *run, sw_pen *pen, sw_box box, double scale, const sw_form_step *step, bool after)
{
    const sw_form_picture *p = after ? &step->after : &step->before;
    const pen_paint edge = {.fill = true, .fill_ink = look_white(), .stroke = true, .stroke_ink = look_light(0.13)};
    bool rests = !after && isfinite(step->gauge_mm);
    pen_box(pen, &edge, box);
    frame f = frame_of(pen, box, scale, p);
    if (!rests || f.part.x1_mm > step->gauge_mm + 2.0 / scale) {
        show_all(&f, p);
        return rests ? stop(run, &f, on_page(&f, (sw_point){step->gauge_mm, 0}).x_mm, step->gauge_mm) : SW_OK;
    }
    box.x1_mm -= STOP_MM + BREAK_MM;
    f = frame_of(pen, box, scale, p);
    frame end = moved_in(&f, step->gauge_mm);
    show_all(&f, p);
    show_all(&end, p);
    return stop(run, &f, on_page(&end, (sw_point){step->gauge_mm, 0}).x_mm, step->gauge_mm);
}
