/* house_route.c: the flue's way in elevation, to scale: parts with their sizes at the right, heights over the floor at the left,
 * the roof as described with what the outlet has and what it needs. */
#include "papers/house_parts.h"

#include <math.h>
#include <string.h>

typedef struct route {
    sw_run *run;
    sw_pen *pen;
    const sw_dossier *d;
    sw_box box;
    double scale; /* page mm per m */
    double floor_y, collar_m, top_m;
    double *foot_m, *foot_x; /* [part_count + 1] over the floor; page */
    size_t count;
} route;

static double page_y(const route *r, double high_m)
{
    return r->floor_y - high_m * r->scale;
}

/* Metres run level: what the length has over the rise (as the site study reads it). */
static double level_m(const sw_flue_part *part)
{
    return fmax(part->length_m - part->rise_m, 0);
}

static sw_status lay_out(route *r)
{
    const sw_house *h = r->d->model.house;
    const double labels_mm = 84, heights_mm = 46;
    r->count = h->part_count;
    r->foot_m = SW_SCRATCH(r->run, r->count + 1, double);
    r->foot_x = SW_SCRATCH(r->run, r->count + 1, double);
    if (r->foot_m == NULL || r->foot_x == NULL) return SW_NO_MEMORY;
    double plate_mm = h->hearth_mm > 0 ? h->hearth_mm : 0, run_m = 0;
    r->collar_m = sw_m_from_mm(r->d->housed->site_in->height_mm + plate_mm);
    r->foot_m[0] = r->collar_m;
    for (size_t i = 0; i < r->count; i++) {
        r->foot_m[i + 1] = r->foot_m[i] + h->parts[i].rise_m;
        run_m += level_m(&h->parts[i]);
    }
    r->top_m = r->foot_m[r->count];
    double wide_mm = r->box.x1_mm - r->box.x0_mm - labels_mm - heights_mm, high_mm = r->box.y1_mm - r->box.y0_mm - 24;
    r->scale = fmin(high_mm / fmax(r->top_m, 1), wide_mm / (run_m + 0.9));
    r->floor_y = r->box.y1_mm - 8;
    double x = r->box.x0_mm + heights_mm + 0.45 * r->scale;
    r->foot_x[0] = x;
    for (size_t i = 0; i < r->count; i++) r->foot_x[i + 1] = x += level_m(&h->parts[i]) * r->scale;
    return SW_OK;
}

/* ---- the house round it ----------------------------------------------------------------------------------------- */

static void draw_ground(const route *r)
{
    const sw_site_input *in = r->d->housed->site_in;
    const sw_house *h = r->d->model.house;
    double x0 = r->box.x0_mm + 10, x1 = r->box.x1_mm - 80, y = r->floor_y,
           stove_mm = sw_m_from_mm(in->depth_mm) * r->scale;
    sw_pen_line(r->pen, look_dark(0.5), (sw_point){x0, y}, (sw_point){x1, y});
    double plate_y = page_y(r, sw_m_from_mm(fmax(h->hearth_mm, 0)));
    const pen_paint stone = {.fill = true, .fill_ink = look_light(0)},
                    body = {.fill = true, .fill_ink = look_group(1), .stroke = true, .stroke_ink = look_dark(0.3)};
    if (h->hearth_mm > 0)
        pen_box(r->pen, &stone, (sw_box){r->foot_x[0] - stove_mm, plate_y, r->foot_x[0] + stove_mm, y});
    pen_box(r->pen, &body,
            (sw_box){r->foot_x[0] - stove_mm / 2, page_y(r, r->collar_m), r->foot_x[0] + stove_mm / 2, plate_y});
    bool wide = stove_mm > pen_width(r->pen, HOUSE_SMALL_MM, false, "stove") + 2;
    pen_write(r->pen,
              (sw_point){r->foot_x[0] - (wide ? 0 : stove_mm / 2 + 1.5),
                         (page_y(r, r->collar_m) + plate_y) / 2 + HOUSE_SMALL_MM / 2},
              look_type(HOUSE_SMALL_MM, wide ? SW_CENTRE : SW_RIGHT), "stove");
}

/* The roof goes through the point where the flue leaves it, up to the ridge and down on the other side. */
static void draw_roof(const route *r)
{
    const sw_roof *roof = &r->d->model.house->roof;
    if (!isfinite(roof->above_m) || !isfinite(roof->pitch_rad)) return;
    double leaves_m = r->top_m - roof->above_m, ridge_m = isfinite(roof->ridge_m) ? roof->ridge_m : 0.5,
           slope = tan(roof->pitch_rad);
    double x = r->foot_x[r->count], ridge_x = x + ridge_m * r->scale, ridge_y = page_y(r, leaves_m + ridge_m * slope);
    double left = r->box.x0_mm + 22, right = r->box.x1_mm - 82;
    ridge_x = fmin(ridge_x, right);
    sw_ink ink = look_grey(0.45);
    double left_y = page_y(r, leaves_m) + (x - left) * slope, right_y = ridge_y + (right - ridge_x) * slope;
    double low_y = r->floor_y - 6; /* a steep roof ends over the floor */
    if (left_y > low_y && slope > 0) left += (left_y - low_y) / slope, left_y = low_y;
    if (right_y > low_y && slope > 0) right -= (right_y - low_y) / slope, right_y = low_y;
    sw_pen_line(r->pen, ink, (sw_point){left, left_y}, (sw_point){ridge_x, ridge_y});
    sw_pen_line(r->pen, ink, (sw_point){ridge_x, ridge_y}, (sw_point){right, right_y});
}

static void draw_ceilings(const route *r)
{
    static const double dash_mm[] = {2, 1.2};
    const sw_house *h = r->d->model.house;
    for (size_t i = 0; i + 1 < r->count; i++) {
        if (h->parts[i].around == h->parts[i + 1].around || h->parts[i + 1].around == SW_OUTDOORS) continue;
        double y = page_y(r, r->foot_m[i + 1]);
        sw_pen_line(r->pen, look_dashed(look_grey(0.25), dash_mm, 2), (sw_point){r->box.x0_mm + 22, y},
                    (sw_point){r->box.x1_mm - 84, y});
    }
}

/* ---- the flue ------------------------------------------------------------------------------------------------------ */

static void draw_duct(const route *r, size_t i)
{
    const sw_flue_part *part = &r->d->model.house->parts[i];
    double inner = fmax(sw_m_from_mm(part->width_mm) * r->scale / 2, 0.7);
    double outer = isfinite(part->outer_mm) ? sw_m_from_mm(part->outer_mm) * r->scale / 2
                                            : inner + (part->layer_count > 1 ? 0.9 : 0);
    double y0 = page_y(r, r->foot_m[i + 1]), y1 = page_y(r, r->foot_m[i]), x = r->foot_x[i], to = r->foot_x[i + 1];
    const pen_paint wall = {.fill = true, .fill_ink = look_light(0), .stroke = true, .stroke_ink = look_dark(0.15)},
                    gas = {.fill = true, .fill_ink = look_white(), .stroke = true, .stroke_ink = look_dark(0.3)};
    bool level = to > x + 0.1, entered = i > 0 && x > r->foot_x[i - 1] + 0.1; /* the last part comes in at its side */
    double foot = y1 + (entered ? 1.8 * inner : 0);
    if (y1 - y0 > 0.2 && outer > inner + 0.3) pen_box(r->pen, &wall, (sw_box){x - outer, y0, x + outer, foot});
    if (!level) {
        pen_box(r->pen, &gas, (sw_box){x - inner, y0, x + inner, foot});
        return;
    }
    double end = to;
    if (i + 1 < r->count) end -= fmax(sw_m_from_mm(r->d->model.house->parts[i + 1].width_mm) * r->scale / 2, 0.7);
    const sw_vertex bend[] = {{x - inner, foot, 0}, {x - inner, y0 - inner, 0}, {end, y0 - inner, 0},
                              {end, y0 + inner, 0}, {x + inner, y0 + inner, 0}, {x + inner, fmax(foot, y0 + inner), 0}};
    pen_shape(r->pen, &gas, bend, 6, true);
}

static void draw_outlet(const route *r)
{
    double x = r->foot_x[r->count], y = page_y(r, r->top_m);
    if (!(r->d->model.house->terminal_zeta > 0)) return;
    sw_pen_line(r->pen, look_dark(0.5), (sw_point){x - 3, y - 1.6}, (sw_point){x + 3, y - 1.6});
    sw_pen_line(r->pen, look_dark(0.25), (sw_point){x - 1.5, y - 1.6}, (sw_point){x - 1.5, y});
    sw_pen_line(r->pen, look_dark(0.25), (sw_point){x + 1.5, y - 1.6}, (sw_point){x + 1.5, y});
}

/* ---- words at its sides ------------------------------------------------------------------------------------------------ */

/* From the bottom up, each at least apart_mm over the last, all within the page. */
static double stacked(double wanted, double *last, double apart_mm, double least)
{
    *last = fmax(fmin(wanted, *last - apart_mm), least);
    return *last;
}

static sw_status draw_names(const route *r)
{
    const sw_house *h = r->d->model.house;
    double apart = fmin(15.5, (r->floor_y - r->box.y0_mm - 6) / fmax((double)r->count, 1)),
           last = r->floor_y + apart - 11, x = r->box.x1_mm - 78;
    for (size_t i = 0; i < r->count; i++) {
        const sw_flue_part *part = &h->parts[i];
        double wanted = page_y(r, (r->foot_m[i] + r->foot_m[i + 1]) / 2);
        double y = stacked(wanted, &last, apart, r->box.y0_mm + 3 + apart * (double)(r->count - 1 - i));
        const char *section = house_section(r->run, part);
        const char *near = isfinite(part->combustible_mm) ? words_number(r->run, part->combustible_mm, 0) : "";
        if (section == NULL || near == NULL) return SW_NO_MEMORY;
        const char *lines[] = {part->name,
                               sw_text_format(r->run, r->run->scratch, "%.2f m long, %.2f m of rise; %s, mm inside",
                                              part->length_m, part->rise_m, section),
                               sw_text_format(r->run, r->run->scratch, "round it %s%s%s", sw_around_name(part->around),
                                              isfinite(part->combustible_mm) ? "; to what burns " : "", near),
                               part->designation};
        for (size_t k = 0; k < 4; k++) {
            if (lines[k] == NULL) return SW_NO_MEMORY;
            const char *text = words_within(r->run, r->pen, HOUSE_SMALL_MM - (k > 0 ? 0.2 : 0), k == 0, 77, lines[k]);
            if (text == NULL) return SW_NO_MEMORY;
            pen_write(r->pen, (sw_point){x, y + 3.4 * (double)k},
                      k == 0 ? look_type_bold(HOUSE_SMALL_MM, SW_LEFT) : look_type_grey(HOUSE_SMALL_MM - 0.2, SW_LEFT),
                      text);
        }
        double duct_x = (part->rise_m > 0 ? r->foot_x[i] : r->foot_x[i + 1]) + 1;
        sw_pen_line(r->pen, look_grey(0.15), (sw_point){duct_x, wanted}, (sw_point){x - 6, y - 0.8});
        sw_pen_line(r->pen, look_grey(0.15), (sw_point){x - 6, y - 0.8}, (sw_point){x - 1.5, y - 0.8});
    }
    return SW_OK;
}

static sw_status draw_heights(const route *r)
{
    double last = r->floor_y + 4.2, x = r->box.x0_mm + 12;
    for (size_t i = 0; i <= r->count; i++) {
        double wanted = page_y(r, r->foot_m[i]);
        double y = stacked(wanted, &last, 4.2, r->box.y0_mm + 3 + 4.2 * (double)(r->count - i));
        const char *text = sw_text_format(r->run, r->run->scratch, "%.2f m", r->foot_m[i]);
        if (text == NULL) return SW_NO_MEMORY;
        pen_write(r->pen, (sw_point){x, y + HOUSE_SMALL_MM / 2}, look_type(HOUSE_SMALL_MM, SW_RIGHT), text);
        sw_pen_line(r->pen, look_grey(0.15), (sw_point){x + 1, y}, (sw_point){x + 5, wanted});
        sw_pen_line(r->pen, look_grey(0.15), (sw_point){x + 5, wanted}, (sw_point){r->foot_x[i] - 2, wanted});
    }
    return SW_OK;
}

static sw_status draw_outlet_words(const route *r)
{
    const sw_roof *roof = &r->d->model.house->roof;
    double x = r->box.x0_mm + 16, y = r->box.y0_mm + 3;
    const char *first, *second = "";
    bool bad = false;
    if (isfinite(roof->above_m)) {
        double needed = house_need_mm(r->d->housed, "outlet", "outlet"), there = sw_mm_from_m(roof->above_m);
        const char *asked = house_need_words(r->run, needed, there);
        bad = there < needed;
        first = sw_text_format(r->run, r->run->scratch, "Outlet %.0f mm over the roof there", there);
        const char *off = house_metres(r->run, roof->ridge_m);
        second = asked == NULL || off == NULL
                     ? NULL
                     : sw_text_format(r->run, r->run->scratch, "%s; ridge %s m off", asked, off);
    } else {
        first = "The roof is not described: measure the outlet";
    }
    if (first == NULL || second == NULL) return SW_NO_MEMORY;
    pen_type type = look_type_bold(HOUSE_SMALL_MM, SW_LEFT), small = look_type_grey(HOUSE_SMALL_MM - 0.2, SW_LEFT);
    if (bad) type.ink = small.ink = look_rust(0), small.bold = true;
    pen_write(r->pen, (sw_point){x, y}, type, first);
    pen_write(r->pen, (sw_point){x, y + 3.4}, small, second);
    return SW_OK;
}

sw_status draw_route(sw_run *run, const sw_dossier *d, sw_pen *pen, sw_box box)
{
    route r = {.run = run, .pen = pen, .d = d, .box = box};
    if (!house_is_placed(d) || d->model.house->part_count == 0) return SW_OK;
    SW_TRY(lay_out(&r));
    draw_roof(&r);
    draw_ceilings(&r);
    draw_ground(&r);
    for (size_t i = r.count; i-- > 0;) draw_duct(&r, i); /* a pipe goes through the wall of what it enters */
    draw_outlet(&r);
    SW_TRY(draw_heights(&r));
    SW_TRY(draw_outlet_words(&r));
    SW_TRY(draw_names(&r));
    pen_write(pen, (sw_point){box.x0_mm, box.y1_mm - 1}, look_type_grey(HOUSE_SMALL_MM, SW_LEFT),
              "Heights over the floor at the left; up and along drawn to one scale.");
    return SW_OK;
}
