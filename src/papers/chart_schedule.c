/* chart_schedule.c: the batch over time: a row a machine, a shade and a number a stove, set-ups hatched, days and shifts as
 * grid; below it how many stoves are under way and how many people at work. */
#include "papers/chart_parts.h"
#include "papers/shop_parts.h"

#include <math.h>
#include <string.h>

static const double name_mm = 30, head_mm = 6.5, foot_mm = 7.5, text_mm = 1.9, steps_mm = 17, key_mm = 6;

enum { TICKS_MOST = 200, LANES = 8, LEGEND_STOVES = 24 };

typedef struct field { /* the rows' area on the page */
    sw_run *run;
    const sw_dossier *d;
    const sw_line_result *r;
    const sw_line_plan *plan;
    sw_pen *pen;
    sw_box in;
    time_span span;
    double row_mm;
} field;

double schedule_day_s(const sw_dossier *d)
{
    const sw_labour *l = &d->model.works->labour;
    double day = l->shift_s * l->shifts_day;
    return day > 0 ? day : sw_s_from_h(8);
}

static size_t rows_of(const sw_dossier *d)
{
    const sw_line_result *r = d->shop.line;
    size_t count = 0;
    for (size_t k = 0; k < r->load_count; k++) count += r->loads[k].tasks > 0 ? r->loads[k].machines : 0;
    return count;
}

static double row_high_mm(const sw_dossier *d)
{
    return fmin(6.6, 150.0 / fmax(1, (double)rows_of(d)));
}

double schedule_high_mm(const sw_dossier *d)
{
    return key_mm + head_mm + row_high_mm(d) * (double)rows_of(d) + foot_mm + 2 * steps_mm;
}

static double at_mm(const field *f, double s)
{
    double share = (s - f->span.from_s) / (f->span.to_s - f->span.from_s);
    return f->in.x0_mm + (f->in.x1_mm - f->in.x0_mm) * fmin(fmax(share, 0), 1);
}

/* ---- grid: hours, shifts, days ------------------------------------------------------------------------------------------ */

/* A step of whole hours (or a half) that leaves room for its numbers and divides the day. */
static double hour_step_s(const field *f, double day_s)
{
    static const double hours[] = {0.5, 1, 2, 4};
    double mm_s = (f->in.x1_mm - f->in.x0_mm) / (f->span.to_s - f->span.from_s);
    for (size_t i = 0; i < sizeof hours / sizeof *hours; i++)
        if (sw_s_from_h(hours[i]) * mm_s >= 7) return sw_s_from_h(hours[i]);
    return day_s;
}

static sw_status draw_day(const field *f, double from_s, double day_s, double bottom)
{
    double step = hour_step_s(f, day_s), x0 = at_mm(f, from_s), x1 = at_mm(f, from_s + day_s);
    size_t day = (size_t)floor(from_s / day_s + 0.5) + 1;
    for (int k = 1; k * step < day_s - 1; k++) {
        double s = k * step;
        double at = from_s + s, x = at_mm(f, at);
        if (at <= f->span.from_s || at >= f->span.to_s) continue;
        const char *hour = words_number(f->run, sw_h_from_s(s), 1);
        if (hour == NULL) return SW_NO_MEMORY;
        sw_pen_line(f->pen, look_light(0.1), (sw_point){x, f->in.y0_mm}, (sw_point){x, bottom});
        if (day_s - s > 0.5 * step)
            pen_write(f->pen, (sw_point){x, bottom + 3}, look_type_grey(text_mm - 0.2, SW_CENTRE), hour);
    }
    const char *name = sw_text_format(f->run, f->run->scratch, "day %zu", day);
    if (name == NULL) return SW_NO_MEMORY;
    if (pen_width(f->pen, text_mm, true, name) > x1 - x0 - 1) name += strlen("day ");
    if (pen_width(f->pen, text_mm, true, name) < x1 - x0 - 0.6)
        pen_write(f->pen, (sw_point){(x0 + x1) / 2, f->in.y0_mm - 2}, look_type_bold(text_mm, SW_CENTRE), name);
    if (from_s > f->span.from_s)
        sw_pen_line(f->pen, look_dark(0.3), (sw_point){x0, f->in.y0_mm - 5}, (sw_point){x0, bottom});
    return SW_OK;
}

static void draw_shifts(const field *f, double bottom)
{
    static const double dash[] = {1.2, 0.8};
    const sw_labour *l = &f->d->model.works->labour;
    if (!(l->shift_s > 0) || l->shifts_day < 2) return;
    size_t first = (size_t)fmax(0, ceil(f->span.from_s / l->shift_s));
    for (size_t k = first; (double)k * l->shift_s < f->span.to_s; k++) {
        double x = at_mm(f, (double)k * l->shift_s);
        sw_pen_line(f->pen, look_dashed(look_grey(0.25), dash, 2), (sw_point){x, f->in.y0_mm}, (sw_point){x, bottom});
    }
}

static sw_status draw_grid(const field *f, double bottom)
{
    double day_s = schedule_day_s(f->d), from = floor(f->span.from_s / day_s + 1e-9) * day_s;
    for (int k = 0; k < TICKS_MOST && from + k * day_s < f->span.to_s - 1; k++)
        SW_TRY(draw_day(f, from + k * day_s, day_s, bottom));
    draw_shifts(f, bottom);
    pen_write(f->pen, (sw_point){f->in.x0_mm - 2, bottom + 3}, look_type_grey(text_mm - 0.2, SW_RIGHT),
              "working hours");
    return SW_OK;
}

/* ---- bars ---------------------------------------------------------------------------------------------------------------- */

/* Neighbours differ in hue and in lightness; numbers tell them apart without colour. */
static sw_ink stove_ink(size_t stove)
{
    static const double light[] = {0.94, 0.78, 0.87};
    sw_ink ink = look_piece(stove);
    double share = light[stove % 3];
    ink.r *= share, ink.g *= share, ink.b *= share;
    return ink;
}

typedef struct stretch { /* bars of one stove without a set-up or a wait between */
    double from_mm, to_mm;
    size_t stove, stoves;
} stretch;

static const char *stove_word(sw_run *run, size_t stove, size_t stoves)
{
    if (stoves <= 1) return sw_text_format(run, run->scratch, "%zu", stove + 1);
    return sw_text_format(run, run->scratch, "%zu\xe2\x80\x93%zu", stove + 1, stove + stoves);
}

static sw_status draw_stretch(const field *f, const stretch *s, sw_box row)
{
    const double bordered_mm = 1.4; /* narrower ones would be all border */
    const pen_paint fill = {.fill = true,
                            .fill_ink = stove_ink(s->stove),
                            .stroke = s->to_mm - s->from_mm > bordered_mm,
                            .stroke_ink = look_dark(0.1)};
    const char *number = stove_word(f->run, s->stove, s->stoves);
    double high = fmin(text_mm, 0.6 * (row.y1_mm - row.y0_mm));
    if (number == NULL) return SW_NO_MEMORY;
    if (!(s->to_mm > s->from_mm)) return SW_OK;
    pen_box(f->pen, &fill, (sw_box){s->from_mm, row.y0_mm, s->to_mm, row.y1_mm});
    if (pen_width(f->pen, high, false, number) + 0.8 > s->to_mm - s->from_mm) return SW_OK;
    pen_write(f->pen, (sw_point){(s->from_mm + s->to_mm) / 2, (row.y0_mm + row.y1_mm + high) / 2},
              look_type(high, SW_CENTRE), number);
    return SW_OK;
}

static void draw_set_up(const field *f, double from_mm, double to_mm, sw_box row)
{
    const sw_box b = {from_mm, row.y0_mm, to_mm, row.y1_mm};
    const pen_paint open = {.fill = true, .fill_ink = look_white(), .stroke = true, .stroke_ink = look_dark(0.1)};
    if (!(to_mm > from_mm)) return;
    pen_box(f->pen, &open, b);
    bars_hatch(f->pen, b, look_dark(0.12));
}

/* Bars of one machine that lie in one lane, in the order of time. */
static sw_status draw_lane(const field *f, const sw_line_bar *const *bars, const unsigned char *lanes, size_t count,
                           unsigned lane, sw_box row)
{
    const double joined_mm = 0.12;
    stretch s = {0};
    for (size_t i = 0; i < count; i++) {
        const sw_line_bar *b = bars[i];
        if (lanes[i] != lane || b->end_s <= f->span.from_s || b->start_s >= f->span.to_s) continue;
        double from = at_mm(f, b->run_from_s), to = at_mm(f, b->end_s);
        bool goes_on = s.to_mm > 0 && b->stove == s.stove && b->stoves == s.stoves && from - s.to_mm < joined_mm &&
                       !(b->run_from_s > b->start_s);
        if (goes_on) {
            s.to_mm = to;
            continue;
        }
        SW_TRY(draw_stretch(f, &s, row));
        draw_set_up(f, at_mm(f, b->start_s), from, row);
        s = (stretch){from, to, b->stove, b->stoves};
    }
    return draw_stretch(f, &s, row);
}

/* The first lane that is free again; an oven holds several at once. Gives how many are needed. */
static unsigned put_in_lanes(const sw_line_bar *const *bars, size_t count, unsigned char *lanes)
{
    double free_s[LANES] = {0};
    unsigned used = 1;
    for (size_t i = 0; i < count; i++) {
        unsigned lane = 0;
        while (lane + 1 < LANES && free_s[lane] > bars[i]->start_s + 1) lane++;
        lanes[i] = (unsigned char)lane;
        free_s[lane] = fmax(free_s[lane], bars[i]->end_s);
        if (lane + 1 > used) used = lane + 1;
    }
    return used;
}

static sw_status draw_machine(const field *f, size_t station, size_t machine, sw_box row)
{
    size_t count = 0;
    const sw_line_bar **bars = SW_SCRATCH(f->run, f->plan->bar_count + 1, const sw_line_bar *);
    unsigned char *lanes = SW_SCRATCH(f->run, f->plan->bar_count + 1, unsigned char);
    if (bars == NULL || lanes == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < f->plan->bar_count; i++)
        if (f->plan->bars[i].station == station && f->plan->bars[i].machine == machine)
            bars[count++] = &f->plan->bars[i];
    unsigned used = put_in_lanes(bars, count, lanes);
    double high = (row.y1_mm - row.y0_mm) / used;
    for (unsigned lane = 0; lane < used; lane++) {
        const sw_box part = {row.x0_mm, row.y0_mm + high * lane, row.x1_mm, row.y0_mm + high * (lane + 1)};
        SW_TRY(draw_lane(f, bars, lanes, count, lane, part));
    }
    return SW_OK;
}

static sw_status draw_rows(const field *f)
{
    double y = f->in.y0_mm;
    for (size_t k = 0; k < f->r->load_count; k++) {
        const sw_line_load *l = &f->r->loads[k];
        bool slowest = k == f->r->bottleneck;
        pen_type type = slowest ? look_type_bold(text_mm, SW_RIGHT) : look_type(text_mm, SW_RIGHT);
        if (slowest) type.ink = look_rust(0);
        for (size_t m = 0; l->tasks > 0 && m < l->machines; m++) {
            const sw_box row = {f->in.x0_mm, y + 0.7, f->in.x1_mm, y + f->row_mm - 0.7};
            const char *name =
                l->machines == 1 ? l->station : sw_text_format(f->run, f->run->scratch, "%s %zu", l->station, m + 1);
            if (name == NULL) return SW_NO_MEMORY;
            name = words_within(f->run, f->pen, text_mm, slowest, name_mm - 3, name);
            if (name == NULL) return SW_NO_MEMORY;
            pen_write(f->pen, (sw_point){f->in.x0_mm - 2, y + (f->row_mm + text_mm) / 2}, type, name);
            SW_TRY(draw_machine(f, k, m, row));
            y += f->row_mm;
            sw_pen_line(f->pen, look_light(0.1), (sw_point){f->in.x0_mm, y}, (sw_point){f->in.x1_mm, y});
        }
    }
    return SW_OK;
}

/* ---- steps: how many, over time -------------------------------------------------------------------------------------------- */

static size_t most_of(const sw_line_level *levels, size_t count)
{
    size_t most = 1;
    for (size_t i = 0; i < count; i++)
        if (levels[i].count > most) most = levels[i].count;
    return most;
}

static sw_status steps_scale(const field *f, sw_box in, size_t most)
{
    double step = fmax(1, chart_step((double)most, 3));
    for (int k = 0; k * step <= (double)most + 1e-9; k++) {
        double v = k * step;
        double y = in.y1_mm - (in.y1_mm - in.y0_mm) * v / (double)most;
        const char *text = words_number(f->run, v, 0);
        if (text == NULL) return SW_NO_MEMORY;
        sw_pen_line(f->pen, look_light(0.1), (sw_point){in.x0_mm, y}, (sw_point){in.x1_mm, y});
        pen_write(f->pen, (sw_point){in.x0_mm - 1.5, y + 0.8}, look_type_grey(text_mm - 0.2, SW_RIGHT), text);
    }
    return SW_OK;
}

static sw_status draw_steps(const field *f, sw_box in, const sw_line_level *levels, size_t count, const char *name)
{
    size_t most = most_of(levels, count), n = 0;
    sw_point *at = SW_SCRATCH(f->run, 2 * count + 4, sw_point);
    if (at == NULL) return SW_NO_MEMORY;
    SW_TRY(steps_scale(f, in, most));
    at[n++] = (sw_point){in.x0_mm, in.y1_mm};
    for (size_t i = 0; i < count; i++) { /* the last before the span stands at its beginning */
        double x = at_mm(f, levels[i].at_s),
               y = in.y1_mm - (in.y1_mm - in.y0_mm) * (double)levels[i].count / (double)most;
        if (levels[i].at_s > f->span.to_s) break;
        at[n] = (sw_point){x, at[n - 1].y_mm}, n++;
        at[n++] = (sw_point){x, y};
    }
    double last = at_mm(f, f->plan->makespan_s);
    at[n] = (sw_point){last, at[n - 1].y_mm}, n++;
    const pen_paint line = {.stroke = true, .stroke_ink = look_rust(0.4)};
    f->pen->kind->begin(f->pen);
    f->pen->kind->move(f->pen, at[0]);
    for (size_t i = 1; i < n; i++) f->pen->kind->line(f->pen, at[i]);
    f->pen->kind->paint(f->pen, &line);
    pen_write(f->pen, (sw_point){in.x0_mm - 6, (in.y0_mm + in.y1_mm + text_mm) / 2}, look_type(text_mm, SW_RIGHT),
              name);
    return SW_OK;
}

/* ---- the whole --------------------------------------------------------------------------------------------------------------- */

static sw_status draw_key(const field *f, double y)
{
    size_t shown = f->d->batch <= LEGEND_STOVES ? f->d->batch : 0;
    double x = f->in.x0_mm, wide = 6;
    pen_write(f->pen, (sw_point){x, y + 3}, look_type_grey(text_mm, SW_LEFT),
              shown > 0 ? "stove" : "numbers: stoves of the batch");
    x += pen_width(f->pen, text_mm, false, shown > 0 ? "stove" : "numbers: stoves of the batch") + 2;
    if (shown > 12) wide = 4.8;
    for (size_t i = 0; i < shown; i++) {
        const stretch s = {x, x + wide, i, 1};
        SW_TRY(draw_stretch(f, &s, (sw_box){x, y, x + wide, y + 3.6}));
        x += wide + 0.6;
    }
    x += 3;
    draw_set_up(f, x, x + 6, (sw_box){x, y, x + 6, y + 3.6});
    pen_write(f->pen, (sw_point){x + 7.5, y + 3}, look_type_grey(text_mm, SW_LEFT), "set-up");
    return SW_OK;
}

static sw_status draw_all(const field *f, sw_box box)
{
    const sw_line_plan *p = f->plan;
    double bottom = f->in.y1_mm + 2 * steps_mm;
    const sw_box under = {f->in.x0_mm, f->in.y1_mm + 4, f->in.x1_mm, f->in.y1_mm + steps_mm - 1},
                 people = {f->in.x0_mm, f->in.y1_mm + steps_mm + 4, f->in.x1_mm, bottom - 1};
    SW_TRY(draw_key(f, box.y0_mm));
    SW_TRY(draw_grid(f, bottom));
    SW_TRY(draw_rows(f));
    SW_TRY(draw_steps(f, under, p->under_way, p->under_way_count, "stoves under way"));
    SW_TRY(draw_steps(f, people, p->people, p->people_count, "people at work"));
    const pen_paint frame = {.stroke = true, .stroke_ink = look_grey(0.2)};
    pen_box(f->pen, &frame, f->in);
    return SW_OK;
}

sw_status draw_schedule(sw_run *run, const sw_dossier *d, time_span span, sw_pen *pen, sw_box box)
{
    double row_mm = row_high_mm(d), top = box.y0_mm + key_mm + head_mm;
    const field f = {.run = run,
                     .d = d,
                     .r = d->shop.line,
                     .plan = d->shop.line->plan,
                     .pen = pen,
                     .in = {box.x0_mm + name_mm, top, box.x1_mm - 2, top + row_mm * (double)rows_of(d)},
                     .span = span,
                     .row_mm = row_mm};
    return draw_all(&f, box);
}
