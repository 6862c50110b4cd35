/* sheet_lift_draw.c: a load on its sling in two views: what is lifted, its centre of gravity, the points and the hook. */
#include "papers/sheets_parts.h"

#include <math.h>
#include <string.h>

#define VIEW_WIDE_MM 58.0
#define TEXT_AT_MM   122.0
#define PIXELS       6.0 /* a mm */

typedef struct lift_view {
    const char *name;
    solid_view look;
    sw_vec3 right, up;
} lift_view;

static const lift_view front = {"from the front", {{0, -1, 0}, {0, 0, 1}}, {1, 0, 0}, {0, 0, 1}},
                       side = {"from the right", {{1, 0, 0}, {0, 0, 1}}, {0, 1, 0}, {0, 0, 1}},
                       top = {"from above", {{0, 0, 1}, {0, 1, 0}}, {1, 0, 0}, {0, 1, 0}};

static bool same_load(const sw_lift_step *a, const sw_lift_step *b)
{
    return fabs(a->mass_kg - b->mass_kg) < 1e-6 && a->hoist == b->hoist &&
           sw_vec3_length(sw_vec3_sub(a->centre, b->centre)) < SW_SAME_POINT_MM;
}

double lift_high_mm(const sw_lift_step *step)
{
    return lift_is_flat(step) ? 80 : 114;
}

bool lift_is_drawn(const sw_lift_result *r, size_t step)
{
    const sw_lift_step *s = &r->steps[step];
    if (s->way != SW_LIFT_GEAR || s->kind == SW_LIFT_HOUSE) return false;
    for (size_t i = 0; i < r->step_count && s->kind == SW_LIFT_SHEET; i++) /* they differ in mass alone */
        if (r->steps[i].kind == SW_LIFT_SHEET &&
            (r->steps[i].mass_kg > s->mass_kg || (r->steps[i].mass_kg == s->mass_kg && i < step)))
            return false;
    for (size_t i = 0; i < step; i++)
        if (r->steps[i].way == SW_LIFT_GEAR && r->steps[i].kind != SW_LIFT_HOUSE && same_load(&r->steps[i], s))
            return false;
    return true;
}

/* ---- one view ------------------------------------------------------------------------------------------------------------- */

typedef struct load_view {
    const lift_view *v;
    const sw_lift_step *s;
    const solid_part *parts;
    size_t count;
    sw_box extent; /* along right and up, mm of the world */
    sw_point at;   /* page point of the extent's lower left */
    double scale;
} load_view;

static sw_point seen(const lift_view *v, sw_vec3 p)
{
    return (sw_point){sw_vec3_dot(p, v->right), sw_vec3_dot(p, v->up)};
}

static sw_point on_page(const load_view *l, sw_point p)
{
    return (sw_point){l->at.x_mm + l->scale * (p.x_mm - l->extent.x0_mm),
                      l->at.y_mm - l->scale * (p.y_mm - l->extent.y0_mm)};
}

static void extend(sw_box *b, sw_point p)
{
    *b = (sw_box){fmin(b->x0_mm, p.x_mm), fmin(b->y0_mm, p.y_mm), fmax(b->x1_mm, p.x_mm), fmax(b->y1_mm, p.y_mm)};
}

static void find_extent(load_view *l)
{
    l->extent = (sw_box){INFINITY, INFINITY, -INFINITY, -INFINITY};
    for (size_t i = 0; i < l->count; i++)
        for (size_t k = 0; k < l->parts[i].mesh.point_count; k++)
            extend(&l->extent, seen(l->v, lift_placed(&l->parts[i], k)));
    if (l->count > 0) return;
    extend(&l->extent, seen(l->v, l->s->box.low));
    extend(&l->extent, seen(l->v, l->s->box.high));
}

static bool shows_hook(const load_view *l)
{
    return l->v->up.z_mm > 0.5;
}

/* Of the hook over the load, in the world; 0: drawn at a fixed height on the page. */
static double hook_mm(const load_view *l)
{
    return shows_hook(l) && isfinite(l->s->hook_mm) ? l->s->hook_mm : 0;
}

static double scale_of(const load_view *l, double wide_mm, double high_mm)
{
    double u = l->extent.x1_mm - l->extent.x0_mm, v = l->extent.y1_mm - l->extent.y0_mm + hook_mm(l);
    return fmin(wide_mm / fmax(u, 1), high_mm / fmax(v, 1));
}

static void centre_mark(sw_pen *pen, sw_point c)
{
    enum { STEPS = 8 };
    const double r = 1.7;
    const pen_paint round = {.fill = true, .fill_ink = look_white(), .stroke = true, .stroke_ink = look_dark(0.25)};
    pen_circle(pen, &round, c, r);
    for (int q = 0; q < 4; q += 2) {
        sw_point p[STEPS + 2] = {c};
        for (int i = 0; i <= STEPS; i++) {
            double turn = SW_PI / 2 * (q + (double)i / STEPS);
            p[i + 1] = (sw_point){c.x_mm + r * cos(turn), c.y_mm - r * sin(turn)};
        }
        sw_pen_polygon(pen, look_dark(0), p, STEPS + 2, true);
    }
}

/* Where the centre of gravity lies from the left and from below, drawn outside the load. */
static sw_status dimensions(sw_run *run, sw_pen *pen, const load_view *l, sw_point centre)
{
    static const double dash[] = {1.2, 0.8};
    sw_point c = on_page(l, centre), low = l->at;
    double y = low.y_mm + 3.5, x = low.x_mm - 3.5;
    bool thin = l->scale * (l->extent.y1_mm - l->extent.y0_mm) < 3;
    const char *along = words_mm(run, centre.x_mm - l->extent.x0_mm),
               *up = words_mm(run, centre.y_mm - l->extent.y0_mm);
    if (along == NULL || up == NULL) return SW_NO_MEMORY;
    sw_ink guide = look_dashed(look_grey(0.13), dash, 2), line = look_grey(0.18);
    sw_pen_line(pen, guide, c, (sw_point){c.x_mm, y + 1});
    if (!thin) sw_pen_line(pen, guide, c, (sw_point){x - 1, c.y_mm});
    const sw_point marks[][2] = {{{low.x_mm, y}, {c.x_mm, y}},           {{low.x_mm, y - 1}, {low.x_mm, y + 1}},
                                 {{c.x_mm, y - 1}, {c.x_mm, y + 1}},     {{x, low.y_mm}, {x, c.y_mm}},
                                 {{x - 1, low.y_mm}, {x + 1, low.y_mm}}, {{x - 1, c.y_mm}, {x + 1, c.y_mm}}};
    pen_lines(pen, line, marks, thin ? 3 : 6);
    pen_type type = look_type(SHEET_SMALL_MM, SW_CENTRE);
    pen_write(pen, (sw_point){(low.x_mm + c.x_mm) / 2, y + 3.4}, type, along);
    type.turn_rad = SW_PI / 2;
    if (!thin) pen_write(pen, (sw_point){x - 1.2, (low.y_mm + c.y_mm) / 2}, type, up);
    return SW_OK;
}

static void hook_mark(sw_pen *pen, sw_point h)
{
    const pen_paint ring = {.fill = true, .fill_ink = look_white(), .stroke = true, .stroke_ink = look_dark(0.4)};
    sw_pen_line(pen, look_dark(0.4), (sw_point){h.x_mm, h.y_mm - 6}, (sw_point){h.x_mm, h.y_mm - 3});
    pen_circle(pen, &ring, (sw_point){h.x_mm, h.y_mm - 1.4}, 1.6);
}

static void point_mark(sw_pen *pen, sw_point p)
{
    const pen_paint dot = {.fill = true, .fill_ink = look_rust(0), .stroke = true, .stroke_ink = look_white()};
    pen_paint edge = dot;
    edge.stroke_ink.width_mm = 0.2;
    pen_circle(pen, &edge, p, 1.1);
}

static sw_status slings(sw_run *run, sw_pen *pen, const load_view *l, sw_point centre)
{
    const sw_lift_step *s = l->s;
    double above_mm = s->box.high.z_mm;
    sw_point top_mm = on_page(l, (sw_point){centre.x_mm, above_mm + hook_mm(l)});
    if (hook_mm(l) <= 0) top_mm.y_mm -= 13;
    bool beam = hook_mm(l) <= 0 && s->point_count > 1;
    double beam_y = top_mm.y_mm + 6;
    for (size_t i = 0; i < s->point_count; i++) {
        sw_point p = on_page(l, seen(l->v, s->points[i]));
        sw_pen_line(pen, look_rust(0.35), p, beam ? (sw_point){p.x_mm, beam_y} : top_mm);
        if (beam) sw_pen_line(pen, look_dark(0.7), (sw_point){p.x_mm, beam_y}, (sw_point){top_mm.x_mm, beam_y});
    }
    if (beam) sw_pen_line(pen, look_rust(0.35), top_mm, (sw_point){top_mm.x_mm, beam_y});
    hook_mark(pen, top_mm);
    if (hook_mm(l) <= 0) return SW_OK;
    const char *text = sw_text_format(run, run->scratch, "%.0f\xc2\xb0", sw_deg_from_rad(s->leg_angle_rad));
    if (text == NULL) return SW_NO_MEMORY;
    pen_write(pen, (sw_point){top_mm.x_mm + 3, top_mm.y_mm - 0.6}, look_type(SHEET_SMALL_MM, SW_LEFT), text);
    return SW_OK;
}

static sw_status body(sw_run *run, const doc_book *doc, sw_pen *pen, const load_view *l)
{
    const pen_paint plain = {.fill = true, .fill_ink = look_pale(), .stroke = true, .stroke_ink = look_dark(0.25)};
    double wide = l->scale * (l->extent.x1_mm - l->extent.x0_mm), high = l->scale * (l->extent.y1_mm - l->extent.y0_mm);
    if (l->count > 0) {
        solid_picture picture;
        const solid_wish wish = {wide, high, PIXELS, false};
        SW_TRY(solid_draw(run, l->parts, l->count, l->v->look, wish, &picture));
        solid_show(pen, (sw_point){l->at.x_mm, l->at.y_mm - high}, 1, &picture, 0.13);
        return SW_OK;
    }
    size_t piece = lift_piece_named(doc->d->model.stove, l->s->load);
    if (l->s->kind == SW_LIFT_FLAT && !shows_hook(l) && piece < doc->d->model.stove->piece_count) {
        const sw_motion none = {.dx_mm = -l->extent.x0_mm, .dy_mm = -l->extent.y0_mm};
        pen_region(pen, &plain, none, l->scale, l->at, &doc->d->sheet->pieces[piece].flat.region);
        return SW_OK;
    }
    pen_box(pen, &plain, (sw_box){l->at.x_mm, l->at.y_mm - fmax(high, 0.6), l->at.x_mm + wide, l->at.y_mm});
    return SW_OK;
}

static sw_status draw_one(sw_run *run, const doc_book *doc, sw_pen *pen, const load_view *l)
{
    sw_point centre = seen(l->v, l->s->centre);
    SW_TRY(body(run, doc, pen, l));
    SW_TRY(dimensions(run, pen, l, centre));
    if (shows_hook(l) && l->s->point_count > 0) SW_TRY(slings(run, pen, l, centre));
    for (size_t i = 0; i < l->s->point_count; i++) point_mark(pen, on_page(l, seen(l->v, l->s->points[i])));
    centre_mark(pen, on_page(l, centre));
    return SW_OK;
}

/* ---- figures beside it --------------------------------------------------------------------------------------------------- */

typedef struct told {
    const char *name, *value;
} told;

static const char *newtons(sw_run *run, double n)
{
    return isfinite(n) ? sw_text_format(run, run->scratch, "%.0f N", n) : "\xe2\x80\x93";
}

static const char *millimetres(sw_run *run, double mm)
{
    return isfinite(mm) ? sw_text_format(run, run->scratch, "%.0f mm", mm) : "\xe2\x80\x93";
}

static const char *kilograms(sw_run *run, double kg, int decimals)
{
    return isfinite(kg) ? sw_text_format(run, run->scratch, "%.*f kg", decimals, kg) : "\xe2\x80\x93";
}

static const char *points_words(sw_run *run, const sw_lift_step *s)
{
    double x_mm = 0, y_mm = 0;
    for (size_t i = 0; i < s->point_count; i++) {
        x_mm = fmax(x_mm, fabs(s->points[i].x_mm - s->centre.x_mm));
        y_mm = fmax(y_mm, fabs(s->points[i].y_mm - s->centre.y_mm));
    }
    if (s->point_count == 0) return "no room for any";
    return sw_text_format(run, run->scratch, "%zu at \xc2\xb1%.0f, \xc2\xb1%.0f mm", s->point_count, x_mm, y_mm);
}

static const char *leg_words(sw_run *run, const sw_lift_step *s)
{
    const char *leg = millimetres(run, s->leg_mm), *hook = millimetres(run, s->hook_mm);
    return leg == NULL || hook == NULL ? NULL : sw_text_format(run, run->scratch, "%s; %s", leg, hook);
}

static sw_status draw_told(sw_run *run, sw_pen *pen, sw_box box, const told *facts, size_t count)
{
    double y = box.y0_mm + 3;
    for (size_t i = 0; i < count; i++) {
        const char *value = facts[i].value;
        if (value != NULL) value = words_within(run, pen, 2.1, false, box.x1_mm - box.x0_mm, value);
        if (value == NULL) return SW_NO_MEMORY;
        pen_write(pen, (sw_point){box.x0_mm, y}, look_type_grey(1.6, SW_LEFT), facts[i].name);
        pen_write(pen, (sw_point){box.x0_mm, y + 3.3}, look_type(2.1, SW_LEFT), value);
        y += 7.4;
    }
    return SW_OK;
}

static sw_status draw_figures(sw_run *run, sw_pen *pen, sw_box box, const sw_lift_step *s)
{
    bool pads = lift_is_flat(s);
    const told facts[] = {
        {"mass", kilograms(run, s->mass_kg, 1)},
        {"centre of gravity x, y, z, mm", sheet_place(run, s->centre)},
        {"safe working load needed", kilograms(run, s->need_kg, 0)},
        {"usual size", kilograms(run, s->size_kg, 0)},
        {"hoist of the works", s->hoist == NULL ? "none strong enough" : s->hoist->name},
        {pads ? "pads from the centre" : "lifting points from the centre", points_words(run, s)},
        {"legs, from upright",
         pads ? "vacuum beam, straight pull"
              : sw_text_format(run, run->scratch, "%zu at %.0f\xc2\xb0", s->legs, sw_deg_from_rad(s->leg_angle_rad))},
        {"pull in a leg", newtons(run, s->leg_n)},
        {"level pull on a point", newtons(run, s->pull_n)},
        {"length of a leg; hook above", pads ? "\xe2\x80\x93" : leg_words(run, s)},
        {"at the ends instead: the worse one carries",
         isfinite(s->end_share) ? sw_text_format(run, run->scratch, "%.0f %%", 100 * s->end_share) : "\xe2\x80\x93"}};
    return draw_told(run, pen, box, facts, pads ? 8 : sizeof facts / sizeof *facts); /* the rest is of slings */
}

static const char *where_words(sw_run *run, const sw_lift_result *r, size_t step)
{
    const char *text = r->steps[step].action;
    for (size_t i = step + 1; i < r->step_count && text != NULL; i++)
        if (r->steps[i].way == SW_LIFT_GEAR && r->steps[i].kind != SW_LIFT_HOUSE &&
            same_load(&r->steps[step], &r->steps[i]))
            text = sw_text_format(run, run->scratch, "%s; %s", text, r->steps[i].action);
    return text;
}

sw_status draw_lift(sw_run *run, const doc_book *doc, size_t step, size_t unused, sw_pen *pen, sw_box box)
{
    (void)unused;
    const double head_mm = 9, left_mm = 8, foot_mm = 9, over_mm = 8;
    const sw_lift_result *r = doc->d->shop.lift;
    const sw_lift_step *s = &r->steps[step];
    load_view views[2] = {{.v = lift_is_flat(s) ? &top : &front, .s = s},
                          {.v = lift_is_flat(s) ? &front : &side, .s = s}};
    solid_part *parts = NULL;
    size_t count = 0;
    SW_TRY(lift_parts(run, doc, step, &parts, &count));
    double scale = INFINITY, fixed_mm = isfinite(s->hook_mm) ? 0 : 13;
    double wide_mm = VIEW_WIDE_MM - left_mm - 3,
           high_mm = box.y1_mm - box.y0_mm - head_mm - over_mm - foot_mm - fixed_mm;
    for (int i = 0; i < 2; i++) {
        views[i].parts = parts;
        views[i].count = count;
        find_extent(&views[i]);
        scale = fmin(scale, scale_of(&views[i], wide_mm, high_mm));
    }
    double spare = INFINITY; /* the load in the middle of the room it has */
    for (int i = 0; i < 2; i++)
        spare =
            fmin(spare, (high_mm - scale * (views[i].extent.y1_mm - views[i].extent.y0_mm + hook_mm(&views[i]))) / 2);
    const char *title = sw_text_format(run, run->scratch, "%zu  %s: %s", step + 1, s->load, where_words(run, r, step));
    if (title != NULL) title = words_within(run, pen, 2.3, true, box.x1_mm - box.x0_mm, title);
    if (title == NULL) return SW_NO_MEMORY;
    sw_pen_line(pen, look_light(0.2), (sw_point){box.x0_mm, box.y0_mm}, (sw_point){box.x1_mm, box.y0_mm});
    pen_write(pen, (sw_point){box.x0_mm, box.y0_mm + 4.6}, look_type_bold(2.3, SW_LEFT), title);
    for (int i = 0; i < 2; i++) {
        load_view *l = &views[i];
        double x = box.x0_mm + (VIEW_WIDE_MM + 2) * i, wide = scale * (l->extent.x1_mm - l->extent.x0_mm);
        l->scale = scale;
        l->at = (sw_point){x + left_mm + (wide_mm - wide) / 2, box.y1_mm - foot_mm - spare};
        pen_write(pen, (sw_point){x, box.y0_mm + head_mm + 0.6}, look_type_grey(1.7, SW_LEFT), l->v->name);
        SW_TRY(draw_one(run, doc, pen, l));
    }
    return draw_figures(run, pen, (sw_box){box.x0_mm + TEXT_AT_MM, box.y0_mm + head_mm, box.x1_mm, box.y1_mm}, s);
}
