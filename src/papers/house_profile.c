/* house_profile.c: what happens along the flue: its parts, temperatures and draught over the height above the collar; and the
 * draught after lighting. */
#include "papers/house_parts.h"

#include <math.h>

typedef struct profile {
    sw_run *run;
    sw_pen *pen;
    const sw_flue_result *f;
    double *top_m; /* [part_count] above the collar */
    size_t count;
    double high_m;
} profile;

static sw_status heights(profile *p)
{
    const sw_flue_case *c = &p->f->pressure;
    p->count = c->line_count;
    p->top_m = SW_SCRATCH(p->run, p->count + 1, double);
    if (p->top_m == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < p->count; i++) p->top_m[i] = p->high_m += c->lines[i].part->rise_m;
    if (!(p->high_m > 0)) p->high_m = 1;
    return SW_OK;
}

static double foot_m(const profile *p, size_t i)
{
    return i == 0 ? 0 : p->top_m[i - 1];
}

/* ---- the parts at the side ------------------------------------------------------------------------------------ */

static sw_ink around_ink(sw_around around)
{
    sw_ink warm = look_rust(0);
    double share = around == SW_OUTDOORS ? 0.08 : around == SW_UNHEATED ? 0.22 : 0.42; /* of full colour, on white */
    warm.r = 1 - share * (1 - warm.r), warm.g = 1 - share * (1 - warm.g), warm.b = 1 - share * (1 - warm.b);
    return warm;
}

static sw_status draw_part(const profile *p, sw_box column, const house_field *scale, size_t i, double label_y)
{
    const sw_flue_part *part = p->f->pressure.lines[i].part;
    const pen_paint paint = {
        .fill = true, .fill_ink = around_ink(part->around), .stroke = true, .stroke_ink = look_dark(0.2)};
    double low = house_at(scale, 0, foot_m(p, i)).y_mm, high = house_at(scale, 0, p->top_m[i]).y_mm, x = column.x1_mm;
    pen_box(p->pen, &paint, (sw_box){x - 7, high, x, fmax(low, high + 0.3)});
    const char *name = words_within(p->run, p->pen, HOUSE_SMALL_MM, false, x - 11 - column.x0_mm, part->name),
               *facts =
                   sw_text_format(p->run, p->run->scratch, "%.2f m, %s", part->length_m, sw_around_name(part->around));
    if (name == NULL || facts == NULL) return SW_NO_MEMORY;
    facts = words_within(p->run, p->pen, HOUSE_SMALL_MM - 0.3, false, x - 11 - column.x0_mm, facts);
    if (facts == NULL) return SW_NO_MEMORY;
    sw_pen_line(p->pen, look_grey(0.15), (sw_point){x - 7, (low + high) / 2}, (sw_point){x - 9.4, label_y});
    pen_write(p->pen, (sw_point){x - 10, label_y}, look_type(HOUSE_SMALL_MM, SW_RIGHT), name);
    pen_write(p->pen, (sw_point){x - 10, label_y + 3.2}, look_type_grey(HOUSE_SMALL_MM - 0.3, SW_RIGHT), facts);
    return SW_OK;
}

static sw_status draw_parts(const profile *p, sw_box column, const house_field *scale)
{
    double apart = fmin(8, (scale->in.y1_mm - scale->in.y0_mm - 4) / fmax((double)p->count, 1));
    double last = scale->in.y1_mm + 3; /* from the bottom, each at least `apart` above the last and all within */
    for (size_t i = 0; i < p->count; i++) {
        double middle = house_at(scale, 0, (foot_m(p, i) + p->top_m[i]) / 2).y_mm;
        double least = scale->in.y0_mm + 2.5 + apart * (double)(p->count - 1 - i);
        last = fmax(fmin(middle, last - apart), least);
        SW_TRY(draw_part(p, column, scale, i, last));
    }
    return SW_OK;
}

/* ---- temperatures ------------------------------------------------------------------------------------------------ */

static sw_status gas_line(const profile *p, const house_field *f, const sw_flue_case *c, bool wall, size_t tone)
{
    sw_point *at = SW_SCRATCH(p->run, 2 * p->count + 1, sw_point);
    if (at == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < p->count; i++) {
        const sw_flue_line *l = &c->lines[i];
        at[2 * i] = (sw_point){sw_c_from_k(wall ? l->wall_entry_k : l->entry_k), foot_m(p, i)};
        at[2 * i + 1] = (sw_point){sw_c_from_k(wall ? l->wall_k : l->exit_k), p->top_m[i]};
    }
    house_line(f, house_tone(tone, 0.5), at, 2 * p->count);
    return SW_OK;
}

static sw_status draw_temperatures(const profile *p, sw_box in)
{
    const sw_flue_case *warm = &p->f->pressure, *cold = &p->f->temperature;
    double low = 0, high = 0;
    for (size_t i = 0; i < p->count; i++)
        high = fmax(high, sw_c_from_k(fmax(warm->lines[i].entry_k, cold->lines[i].entry_k)));
    for (size_t i = 0; i < p->count; i++) low = fmin(low, sw_c_from_k(cold->lines[i].wall_k));
    house_round(&low, &high, (in.x1_mm - in.x0_mm) / 15);
    const house_field f = {p->pen, in, low, high, 0, p->high_m};
    SW_TRY(house_grid(p->run, &f, "temperature, " CELSIUS_C, "height above the collar, m"));
    SW_TRY(gas_line(p, &f, warm, false, 0));
    SW_TRY(gas_line(p, &f, cold, false, 1));
    SW_TRY(gas_line(p, &f, cold, true, 2));
    double dew = sw_c_from_k(cold->dew_point_k);
    const sw_point dew_line[] = {{dew, 0}, {dew, p->high_m}};
    house_line(&f, house_tone(3, 0.5), dew_line, 2);
    return SW_OK;
}

/* ---- draught ------------------------------------------------------------------------------------------------------- */

static void told(const profile *p, sw_point at, bool left, const char *text)
{
    const pen_paint dot = {.fill = true, .fill_ink = look_dark(0)};
    pen_circle(p->pen, &dot, at, 0.9);
    pen_write(p->pen, (sw_point){at.x_mm + (left ? -2 : 2), at.y_mm - 1},
              look_type(HOUSE_SMALL_MM, left ? SW_RIGHT : SW_LEFT), text);
}

/* Downwards from the outlet: each part adds its own draught less its resistance; P_Z stands where the pipe enters. */
static sw_status draught_line(const profile *p, const house_field *f, double at_outlet, double *inlet_m)
{
    const sw_flue_case *c = &p->f->pressure;
    sw_point *at = SW_SCRATCH(p->run, p->count + 1, sw_point);
    if (at == NULL) return SW_NO_MEMORY;
    double pa = at_outlet;
    at[p->count] = (sw_point){pa, p->high_m};
    *inlet_m = 0;
    for (size_t i = p->count; i-- > 0;) {
        pa += c->lines[i].draught_pa - c->s_e * c->lines[i].friction_pa;
        at[i] = (sw_point){pa, foot_m(p, i)};
        if (c->lines[i].part->pipe) *inlet_m = fmax(*inlet_m, p->top_m[i]);
    }
    house_line(f, house_tone(0, 0.5), at, p->count + 1);
    return SW_OK;
}

static sw_status draw_draught(const profile *p, sw_box in)
{
    const sw_flue_case *c = &p->f->pressure;
    double low = fmin(0, fmin(-c->wind_pa, c->P_Z)), high = fmax(fmax(c->P_Z, c->P_Ze), fmax(c->P_W, c->P_Z - c->P_FV)),
           inlet_m = 0;
    house_round(&low, &high, (in.x1_mm - in.x0_mm) / 15);
    const house_field f = {p->pen, in, low, high, 0, p->high_m};
    SW_TRY(house_grid(p->run, &f, "draught, Pa", NULL));
    double own = 0; /* of the chimney's parts */
    for (size_t i = 0; i < p->count; i++)
        if (!c->lines[i].part->pipe) own += c->lines[i].draught_pa - c->s_e * c->lines[i].friction_pa;
    SW_TRY(draught_line(p, &f, c->P_Z - own, &inlet_m));
    const char *there = sw_text_format(p->run, p->run->scratch, "there %.1f", c->P_Z),
               *needed = sw_text_format(p->run, p->run->scratch, "needed %.1f", c->P_Ze);
    if (there == NULL || needed == NULL) return SW_NO_MEMORY;
    sw_point a = house_at(&f, c->P_Ze, inlet_m), b = house_at(&f, c->P_Z, inlet_m);
    double from = c->P_Ze < c->P_Z ? -1 : 1; /* the smaller is named to its left where there is room, else above */
    sw_pen_line(p->pen, look_rust(0.25), a, b);
    bool tight = fabs(a.x_mm - b.x_mm) < 2;
    told(p, b, b.x_mm > (in.x0_mm + in.x1_mm) / 2, there);
    sw_point below = {a.x_mm, a.y_mm + (tight || from > 0 ? 5 : 4.2)};
    const pen_paint ring = {.fill = true, .fill_ink = look_white(), .stroke = true, .stroke_ink = look_dark(0.3)};
    pen_circle(p->pen, &ring, a, 0.9);
    pen_write(p->pen, below, look_type(HOUSE_SMALL_MM, a.x_mm > (in.x0_mm + in.x1_mm) / 2 ? SW_RIGHT : SW_LEFT),
              needed);
    return SW_OK;
}

static sw_status draw_keys(const profile *p, double x, double y)
{
    const char *warm = sw_text_format(p->run, p->run->scratch, "gas at %.0f " CELSIUS_C " outside",
                                      sw_c_from_k(p->f->pressure.outside_k)),
               *cold = sw_text_format(p->run, p->run->scratch, "gas at %.0f " CELSIUS_C,
                                      sw_c_from_k(p->f->temperature.outside_k));
    if (warm == NULL || cold == NULL) return SW_NO_MEMORY;
    x = house_key(p->pen, 0, (sw_point){x, y}, warm);
    x = house_key(p->pen, 1, (sw_point){x, y}, cold);
    x = house_key(p->pen, 2, (sw_point){x, y}, "flue's wall, cold");
    house_key(p->pen, 3, (sw_point){x, y}, "dew point");
    return SW_OK;
}

sw_status draw_profile(sw_run *run, const sw_dossier *d, sw_pen *pen, sw_box box)
{
    profile p = {.run = run, .pen = pen, .f = d->housed->flue};
    if (!p.f->solved) return SW_OK;
    SW_TRY(heights(&p));
    double top = box.y0_mm + 8, bottom = box.y1_mm - 9, left = box.x0_mm + 44;
    const sw_box heat = {left + 14, top, left + 76, bottom}, pull = {left + 82, top, box.x1_mm - 2, bottom};
    const house_field scale = {pen, heat, 0, 1, 0, p.high_m};
    SW_TRY(draw_parts(&p, (sw_box){box.x0_mm, top, left, bottom}, &scale));
    SW_TRY(draw_temperatures(&p, heat));
    SW_TRY(draw_draught(&p, pull));
    return draw_keys(&p, box.x0_mm + 4, box.y0_mm + 3);
}

/* ---- after lighting ----------------------------------------------------------------------------------------------------- */

sw_status draw_start(sw_run *run, const sw_dossier *d, sw_pen *pen, sw_box box)
{
    const sw_flue_start *s = d->housed->start;
    if (s == NULL || s->count == 0) return SW_OK;
    double need = d->housed->flue_in->nominal.need_pa, low = fmin(0, s->standing_pa), high = need, last = 0;
    sw_point *at = SW_SCRATCH(run, s->count + 1, sw_point);
    if (at == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < s->count; i++) {
        at[i] = (sw_point){sw_min_from_s(s->time_s[i]), s->draught_pa[i]};
        low = fmin(low, s->draught_pa[i]);
        high = fmax(high, s->draught_pa[i]);
        last = fmax(last, at[i].x_mm);
    }
    const sw_box in = {box.x0_mm + 14, box.y0_mm + 8, box.x1_mm - 3, box.y1_mm - 9};
    double first = 0;
    house_round(&low, &high, (in.y1_mm - in.y0_mm) / 9);
    house_round(&first, &last, (in.x1_mm - in.x0_mm) / 15);
    const house_field f = {pen, in, first, last, low, high};
    SW_TRY(house_grid(run, &f, "after lighting, min", "draught, Pa"));
    const sw_point needed[] = {{first, need}, {last, need}};
    house_line(&f, house_tone(3, 0.5), needed, 2);
    house_line(&f, house_tone(0, 0.5), at, s->count);
    double x = house_key(pen, 0, (sw_point){in.x0_mm, box.y0_mm + 3}, "draught of the chimney");
    house_key(pen, 3, (sw_point){x, box.y0_mm + 3}, "what the stove needs");
    return SW_OK;
}
