/* house_plan.c: the stove in its place, to scale: the plan with hearth plate and near things, and the elevation from the right,
 * front to the left. Each distance is dimensioned with what there is and the least asked for. */
#include "papers/house_parts.h"

#include <math.h>
#include <string.h>

#define FAR_MM   500.0 /* of the world: what is farther is drawn so far and says so */
#define WALL_MM  70.0  /* thickness a near thing is drawn with */
#define LABEL_MM 6.6   /* height of a dimension's label */

typedef struct asked_distance {
    sw_point a, b; /* world */
    double there_mm, needed_mm;
    const char *note; /* behind the figure; "" */
    bool plain;       /* nothing is asked of it */
} asked_distance;

typedef struct caption { /* waits until all lines are known, so that it stands on none but its own */
    sw_point at;         /* page */
    const char *first, *second;
    bool bad;
    size_t line; /* its own in `used`; SIZE_MAX = none */
} caption;

typedef struct place_view { /* world u to the right, v up */
    sw_run *run;
    sw_pen *pen;
    const sw_dossier *d;
    taken used;
    sw_box world; /* of the stove */
    double scale, left_u, top_v;
    sw_point origin; /* page, of (left_u, top_v) */
    sw_box page;     /* captions stay within */
    sw_box span;     /* world: of the stove and its plate */
    caption *captions;
    size_t caption_count, caption_room;
} place_view;

static sw_point on_page(const place_view *v, double u, double w)
{
    return (sw_point){v->origin.x_mm + (u - v->left_u) * v->scale, v->origin.y_mm + (v->top_v - w) * v->scale};
}

static sw_box box_on_page(const place_view *v, double u0, double w0, double u1, double w1)
{
    sw_point a = on_page(v, u0, w1), b = on_page(v, u1, w0);
    return (sw_box){a.x_mm, a.y_mm, b.x_mm, b.y_mm};
}

/* One over a usual number, so that the scale can be told. */
static double usual_scale(double wide_mm, double high_mm, sw_box page)
{
    static const double usual[] = {5, 8, 10, 12.5, 15, 16, 18, 20, 22.5, 25, 30, 40, 50, 75, 100, 150, 200};
    size_t count = sizeof usual / sizeof *usual;
    for (size_t i = 0; i < count; i++)
        if (wide_mm / usual[i] <= page.x1_mm - page.x0_mm && high_mm / usual[i] <= page.y1_mm - page.y0_mm)
            return 1 / usual[i];
    return fmin((page.x1_mm - page.x0_mm) / wide_mm, (page.y1_mm - page.y0_mm) / high_mm);
}

/* `below_mm`: page kept free under the drawing, for names. */
static void set_scale(place_view *v, sw_box world, sw_box box, double below_mm)
{
    const double side_mm = 31, top_mm = 10, note_mm = 4.5; /* names stand beside and above */
    v->page = (sw_box){box.x0_mm, box.y0_mm, box.x1_mm, box.y1_mm - note_mm};
    const sw_box page = {box.x0_mm + side_mm, box.y0_mm + top_mm, box.x1_mm - side_mm, v->page.y1_mm - below_mm};
    double wide_mm = world.x1_mm - world.x0_mm, high_mm = world.y1_mm - world.y0_mm;
    v->scale = usual_scale(wide_mm, high_mm, page);
    v->left_u = world.x0_mm;
    v->top_v = world.y1_mm;
    v->origin = (sw_point){(page.x0_mm + page.x1_mm - wide_mm * v->scale) / 2,
                           (page.y0_mm + page.y1_mm - high_mm * v->scale) / 2};
}

/* ---- labels that keep apart -------------------------------------------------------------------------------- */

static bool within(const place_view *v, sw_box b)
{
    return b.x0_mm >= v->page.x0_mm && b.x1_mm <= v->page.x1_mm && b.y0_mm >= v->page.y0_mm && b.y1_mm <= v->page.y1_mm;
}

/* The free place nearest to `at` for a box of this size. */
static sw_status find_place(place_view *v, sw_point at, double wide_mm, double high_mm, sw_box *out)
{
    for (int ring = 0; ring < 60; ring++)
        for (int k = 0; k < (ring > 0 ? 16 : 1); k++) {
            double off_mm = 1.5 * ring, angle_rad = SW_PI / 8 * k, x = at.x_mm + off_mm * cos(angle_rad),
                   y = at.y_mm + off_mm * sin(angle_rad);
            *out = (sw_box){x - wide_mm / 2, y - high_mm / 2, x + wide_mm / 2, y + high_mm / 2};
            if (within(v, *out) && taken_free(&v->used, *out)) return taken_box(v->run, &v->used, *out);
        }
    *out = (sw_box){at.x_mm - wide_mm / 2, at.y_mm - high_mm / 2, at.x_mm + wide_mm / 2, at.y_mm + high_mm / 2};
    return taken_box(v->run, &v->used, *out);
}

static sw_status put_label(place_view *v, sw_point at, const char *first, const char *second, bool bad)
{
    if (first == NULL || second == NULL) return SW_NO_MEMORY;
    double wide_mm = fmax(pen_width(v->pen, HOUSE_SMALL_MM, true, first),
                          pen_width(v->pen, HOUSE_SMALL_MM - 0.2, bad, second)) +
                     1.6,
           high_mm = second[0] == '\0' ? LABEL_MM - 3 : LABEL_MM;
    sw_box b;
    SW_TRY(find_place(v, at, wide_mm, high_mm, &b));
    const pen_paint ground = {.fill = true, .fill_ink = look_white()};
    sw_point middle = {(b.x0_mm + b.x1_mm) / 2, (b.y0_mm + b.y1_mm) / 2};
    if (hypot(middle.x_mm - at.x_mm, middle.y_mm - at.y_mm) > 4) {
        sw_point foot = {fmin(fmax(at.x_mm, b.x0_mm), b.x1_mm), fmin(fmax(at.y_mm, b.y0_mm), b.y1_mm)};
        sw_pen_line(v->pen, look_grey(0.13), at, foot);
    }
    pen_box(v->pen, &ground, b);
    pen_type type = look_type_bold(HOUSE_SMALL_MM, SW_CENTRE), small = look_type_grey(HOUSE_SMALL_MM - 0.2, SW_CENTRE);
    small.bold = bad;
    if (bad) type.ink = small.ink = look_rust(0);
    pen_write(v->pen, (sw_point){middle.x_mm, b.y0_mm + 2.7}, type, first);
    if (second[0] != '\0') pen_write(v->pen, (sw_point){middle.x_mm, b.y0_mm + 5.8}, small, second);
    return SW_OK;
}

static void arrow(sw_pen *pen, sw_ink ink, sw_point at, double dx, double dy)
{
    const sw_point head[] = {{at.x_mm + 1.7 * dx - 0.5 * dy, at.y_mm + 1.7 * dy + 0.5 * dx},
                             at,
                             {at.x_mm + 1.7 * dx + 0.5 * dy, at.y_mm + 1.7 * dy - 0.5 * dx}};
    ink.width_mm = 0;
    sw_pen_polygon(pen, ink, head, 3, true);
}

/* A measured line between two points of the page; a short one has its arrows outside. */
static void measure(place_view *v, sw_point a, sw_point b, bool bad)
{
    double long_mm = hypot(b.x_mm - a.x_mm, b.y_mm - a.y_mm);
    sw_ink ink = bad ? look_rust(0.35) : look_grey(0.2);
    if (!(long_mm > 0)) return;
    double dx = (b.x_mm - a.x_mm) / long_mm, dy = (b.y_mm - a.y_mm) / long_mm, out = long_mm < 5 ? -1 : 1;
    sw_point from = out < 0 ? (sw_point){a.x_mm - 3.5 * dx, a.y_mm - 3.5 * dy} : a,
             to = out < 0 ? (sw_point){b.x_mm + 3.5 * dx, b.y_mm + 3.5 * dy} : b;
    sw_pen_line(v->pen, ink, from, to);
    arrow(v->pen, ink, a, out * dx, out * dy);
    arrow(v->pen, ink, b, -out * dx, -out * dy);
}

/* What is asked, short enough for a drawing. */
static const char *least(sw_run *run, double needed_mm, double there_mm)
{
    if (!(needed_mm > 0) || !isfinite(needed_mm)) return house_need_words(run, needed_mm, there_mm);
    return sw_text_format(run, run->scratch, "\xe2\x89\xa5 %.0f%s", ceil(needed_mm - SW_SAME_POINT_MM),
                          there_mm < needed_mm ? ": too little" : "");
}

static sw_status queue(place_view *v, caption c)
{
    if (c.first == NULL || c.second == NULL) return SW_NO_MEMORY;
    caption *all = sw_grow(v->run, v->run->scratch, v->captions, v->caption_count, &v->caption_room, sizeof *all);
    if (all == NULL) return SW_NO_MEMORY;
    v->captions = all;
    all[v->caption_count++] = c;
    return SW_OK;
}

static sw_status put_distance(place_view *v, const asked_distance *q)
{
    if (!isfinite(q->there_mm)) return SW_OK;
    sw_point a = on_page(v, q->a.x_mm, q->a.y_mm), b = on_page(v, q->b.x_mm, q->b.y_mm);
    bool bad = q->there_mm < q->needed_mm;
    measure(v, a, b, bad);
    SW_TRY(queue(v, (caption){{(a.x_mm + b.x_mm) / 2, (a.y_mm + b.y_mm) / 2},
                              sw_text_format(v->run, v->run->scratch, "%.0f%s", q->there_mm, q->note),
                              q->plain ? "" : least(v->run, q->needed_mm, q->there_mm),
                              bad,
                              v->used.line_count}));
    return taken_line(v->run, &v->used, a, b);
}

static sw_status put_caption(place_view *v, const caption *c)
{
    if (c->line == SIZE_MAX) return put_label(v, c->at, c->first, c->second, c->bad);
    sw_point *own = v->used.lines[c->line], a = own[0], b = own[1];
    own[0] = own[1] = (sw_point){-1, -1};
    SW_TRY(put_label(v, c->at, c->first, c->second, c->bad));
    v->used.lines[c->line][0] = a;
    v->used.lines[c->line][1] = b;
    return SW_OK;
}

/* Distances first: they have one good place, a name has many. */
static sw_status put_captions(place_view *v)
{
    for (int names = 0; names < 2; names++)
        for (size_t i = 0; i < v->caption_count; i++)
            if ((v->captions[i].line == SIZE_MAX) == (names == 1)) SW_TRY(put_caption(v, &v->captions[i]));
    return SW_OK;
}

/* ---- what is near --------------------------------------------------------------------------------------------------- */

static bool on_side(const sw_near *n, const char *side)
{
    return strcmp(n->side, side) == 0;
}

static double side_reach(const sw_house *h, const char *side)
{
    double most = 0;
    for (size_t i = 0; i < h->near_count; i++)
        if (on_side(&h->near[i], side)) most = fmax(most, fmin(fmax(h->near[i].distance_mm, 0), FAR_MM) + WALL_MM);
    return most;
}

static void hatch(place_view *v, sw_box b, bool combustible)
{
    const pen_paint ground = {.fill = true, .fill_ink = look_pale(), .stroke = true, .stroke_ink = look_dark(0.3)};
    pen_box(v->pen, &ground, b);
    double step = combustible ? 1.4 : 2.8, high = b.y1_mm - b.y0_mm, wide = b.x1_mm - b.x0_mm;
    for (int n = 1; n < (wide + high) / step; n++) { /* lines of x + y = constant within the box */
        double x = step * n;
        sw_point from = {b.x0_mm + fmin(x, wide), b.y0_mm + fmax(x - wide, 0)},
                 to = {b.x0_mm + fmax(x - high, 0), b.y0_mm + fmin(x, high)};
        sw_pen_line(v->pen, look_grey(combustible ? 0.15 : 0.1), from, to);
    }
}

/* A strip beside the stove, and its distance; `share` tells which part of the side it stands before, 0..1. */
static sw_status put_near(place_view *v, const sw_near *n, double from, double to, bool beside, int sign)
{
    const sw_box s = v->world;
    double far_mm = fmin(fmax(n->distance_mm, 0), FAR_MM),
           face = beside ? (sign < 0 ? s.x0_mm : s.x1_mm) : (sign < 0 ? s.y0_mm : s.y1_mm);
    double near_at = face + sign * far_mm, far_at = near_at + sign * WALL_MM, middle = (from + to) / 2;
    double low = fmin(near_at, far_at), high = fmax(near_at, far_at);
    sw_box b = beside ? box_on_page(v, low, from, high, to) : box_on_page(v, from, low, to, high);
    hatch(v, b, n->combustible);
    SW_TRY(taken_box(v->run, &v->used, b));
    double at = beside ? fmin(fmax(s.y0_mm + 0.72 * (s.y1_mm - s.y0_mm), from), to)
                       : fmin(fmax(s.x0_mm + 0.3 * (s.x1_mm - s.x0_mm), from), to);
    if (at <= from || at >= to) at = middle;
    const asked_distance q = {.a = beside ? (sw_point){face, at} : (sw_point){at, face},
                              .b = beside ? (sw_point){near_at, at} : (sw_point){at, near_at},
                              .there_mm = n->distance_mm,
                              .needed_mm = n->combustible ? house_need_mm(v->d->housed, NULL, n->name) : (double)NAN,
                              .plain = !n->combustible,
                              .note = n->distance_mm > FAR_MM ? "*" : ""};
    SW_TRY(put_distance(v, &q));
    const double off_mm = beside ? 16 : 4.6; /* beyond the strip */
    sw_point edge = beside ? on_page(v, far_at, from + 0.85 * (to - from)) : on_page(v, middle, far_at);
    return queue(
        v, (caption){beside ? (sw_point){edge.x_mm + sign * off_mm, edge.y_mm}
                            : (sw_point){edge.x_mm, edge.y_mm - sign * off_mm},
                     sw_text_format(v->run, v->run->scratch, "%s%s", n->name, n->shield_mm > 0 ? ", shielded" : ""),
                     n->combustible ? "burns: keep the distance" : "does not burn", false, SIZE_MAX});
}

static sw_status put_side(place_view *v, const char *side, double low, double high, bool beside, int sign)
{
    const sw_house *h = v->d->model.house;
    size_t count = 0, k = 0;
    for (size_t i = 0; i < h->near_count; i++) count += on_side(&h->near[i], side);
    for (size_t i = 0; i < h->near_count; i++) {
        if (!on_side(&h->near[i], side)) continue;
        double from = low + (high - low) * (double)k / (double)count,
               to = low + (high - low) * (double)(k + 1) / (double)count, gap = count > 1 ? 0.04 * (to - from) : 0;
        SW_TRY(put_near(v, &h->near[i], from + gap, to - gap, beside, sign));
        k++;
    }
    if (count > 0) return SW_OK;
    sw_point at = beside ? on_page(v, sign < 0 ? v->span.x0_mm : v->span.x1_mm, low + 0.85 * (high - low))
                         : on_page(v, (low + high) / 2, sign < 0 ? v->span.y0_mm : v->span.y1_mm);
    if (beside)
        at.x_mm += sign * 27;
    else
        at.y_mm -= sign * 12;
    return queue(v, (caption){at, sw_text_format(v->run, v->run->scratch, "%s: nothing told", side),
                              "measure before the fire", false, SIZE_MAX});
}

/* ---- the stove itself ---------------------------------------------------------------------------------------------- */

static sw_status put_stove(place_view *v, const paper_desk *desk, solid_view view)
{
    const sw_box b = box_on_page(v, v->world.x0_mm, v->world.y0_mm, v->world.x1_mm, v->world.y1_mm);
    const pen_paint ground = {.fill = true, .fill_ink = look_pale()};
    const solid_part *parts = desk->assembled.parts;
    if (parts == NULL || desk->assembled.part_count == 0) {
        pen_box(v->pen, &ground, b);
        return SW_OK;
    }
    solid_picture picture;
    const solid_wish wish = {b.x1_mm - b.x0_mm, b.y1_mm - b.y0_mm, PEN_PIXELS_PER_MM, false};
    SW_TRY(solid_draw(v->run, parts, desk->assembled.part_count, view, wish, &picture));
    if (!(picture.width_mm > 0)) return SW_OK;
    SW_TRY(solid_packed(v->run, &picture));
    solid_show(v->pen, (sw_point){(b.x0_mm + b.x1_mm - picture.width_mm) / 2, b.y1_mm - picture.height_mm}, 1, &picture,
               0.12);
    return SW_OK;
}

static sw_status put_note(place_view *v, sw_box box, const char *what)
{
    const char *text = what == NULL ? NULL
                                    : sw_text_format(v->run, v->run->scratch,
                                                     "%s; 1 : %.4g on A4, mm. \xe2\x89\xa5: the least asked for. Close "
                                                     "hatching: burns. *: drawn nearer.",
                                                     what, 1 / v->scale);
    if (text == NULL) return SW_NO_MEMORY;
    pen_write(v->pen, (sw_point){box.x0_mm, box.y1_mm - 0.8}, look_type_grey(HOUSE_SMALL_MM - 0.2, SW_LEFT), text);
    return SW_OK;
}

typedef struct plate { /* of the hearth, in the plan; y to the back from the stove's middle */
    bool there;
    double x0, x1, y0, y1;
} plate;

static plate plate_of(const sw_house *h, const sw_site_input *in)
{
    double half = in->depth_mm / 2;
    if (!(h->hearth_width_mm > 0 && h->hearth_depth_mm > 0)) return (plate){false, 0, 0, 0, 0};
    double front = isnan(h->hearth_front_mm) ? (h->hearth_depth_mm - in->depth_mm) / 2 : h->hearth_front_mm;
    return (plate){true, -h->hearth_width_mm / 2, h->hearth_width_mm / 2, -half - front,
                   -half - front + h->hearth_depth_mm};
}

static double needed_behind(const sw_housed *h, double *there_mm)
{
    *there_mm = NAN;
    for (size_t i = 0; i < h->site->need_count; i++)
        if (strcmp(h->site->needs[i].what, "hearth behind the stove") == 0) {
            *there_mm = h->site->needs[i].there_mm;
            return h->site->needs[i].needed_mm;
        }
    return NAN;
}

static sw_status put_plate(place_view *v, const plate *p)
{
    const sw_house *h = v->d->model.house;
    const sw_housed *housed = v->d->housed;
    double behind_mm = NAN, half_w = v->world.x1_mm, half_d = v->world.y1_mm;
    double behind_need = needed_behind(housed, &behind_mm);
    const asked_distance all[] = {
        {{-0.2 * half_w, -half_d},
         {-0.2 * half_w, p->y0},
         h->hearth_front_mm,
         house_need_mm(housed, "hearth before", "hearth"),
         "",
         false},
        {{-half_w, -0.55 * half_d},
         {p->x0, -0.55 * half_d},
         h->hearth_side_mm,
         house_need_mm(housed, "hearth beside", "hearth"),
         "",
         false},
        {{half_w, -0.55 * half_d},
         {p->x1, -0.55 * half_d},
         h->hearth_side_mm,
         house_need_mm(housed, "hearth beside", "hearth"),
         "",
         false},
        {{0.6 * half_w, half_d}, {0.6 * half_w, p->y1}, behind_mm, behind_need, "", false},
        {{p->x0, p->y0 - 3.5 / v->scale},
         {p->x1, p->y0 - 3.5 / v->scale},
         h->hearth_width_mm,
         house_need_mm(housed, NULL, "hearth plate, width"),
         " plate, wide",
         false},
        {{p->x1 + 3.5 / v->scale, p->y0},
         {p->x1 + 3.5 / v->scale, p->y1},
         h->hearth_depth_mm,
         house_need_mm(housed, NULL, "hearth plate, depth"),
         " plate, deep",
         false},
    };
    for (size_t i = 0; i < sizeof all / sizeof *all; i++) SW_TRY(put_distance(v, &all[i]));
    return SW_OK;
}

/* Its edges are lines on which no caption stands. */
static sw_status outline_plate(place_view *v, sw_box b)
{
    const pen_paint paint = {.stroke = true, .stroke_ink = look_dark(0.35)};
    const sw_point corners[] = {{b.x0_mm, b.y0_mm}, {b.x1_mm, b.y0_mm}, {b.x1_mm, b.y1_mm}, {b.x0_mm, b.y1_mm}};
    pen_box(v->pen, &paint, b);
    for (size_t i = 0; i < 4; i++) SW_TRY(taken_line(v->run, &v->used, corners[i], corners[(i + 1) % 4]));
    return SW_OK;
}

static sw_status plan_drawn(place_view *v, const paper_desk *desk, const plate *p)
{
    static const solid_view from_above = {{0, 0, 1}, {0, 1, 0}};
    if (p->there) {
        SW_TRY(outline_plate(v, box_on_page(v, p->x0, p->y0, p->x1, p->y1)));
    }
    SW_TRY(put_stove(v, desk, from_above));
    SW_TRY(taken_box(v->run, &v->used, box_on_page(v, v->world.x0_mm, v->world.y0_mm, v->world.x1_mm, v->world.y1_mm)));
    SW_TRY(put_side(v, "back", v->span.x0_mm, v->span.x1_mm, false, 1));
    SW_TRY(put_side(v, "left", v->span.y0_mm, v->span.y1_mm, true, -1));
    SW_TRY(put_side(v, "right", v->span.y0_mm, v->span.y1_mm, true, 1));
    SW_TRY(put_side(v, "front", v->span.x0_mm, v->span.x1_mm, false, -1));
    if (p->there) SW_TRY(put_plate(v, p));
    return put_captions(v);
}

static double reach_or(double reach, double other)
{
    return reach > 0 ? reach : other;
}

sw_status draw_plan(sw_run *run, const paper_desk *desk, sw_pen *pen, sw_box box)
{
    const sw_dossier *d = desk->d;
    if (!house_is_placed(d)) return SW_OK;
    const sw_site_input *in = d->housed->site_in;
    const sw_house *h = d->model.house;
    const plate p = plate_of(h, in);
    double half_w = in->width_mm / 2, half_d = in->depth_mm / 2, bare = 250;
    place_view *v = SW_SCRATCH(run, 1, place_view);
    if (v == NULL) return SW_NO_MEMORY;
    *v = (place_view){.run = run, .pen = pen, .d = d, .world = {-half_w, -half_d, half_w, half_d}};
    sw_box span = {fmin(-half_w - 60, p.x0), fmin(-half_d - 60, p.y0), fmax(half_w + 60, p.x1),
                   fmax(half_d + 60, p.y1)};
    sw_box whole = {fmin(-half_w - reach_or(side_reach(h, "left"), bare), span.x0_mm),
                    fmin(-half_d - reach_or(side_reach(h, "front"), bare), span.y0_mm),
                    fmax(half_w + reach_or(side_reach(h, "right"), bare), span.x1_mm),
                    fmax(half_d + reach_or(side_reach(h, "back"), bare), span.y1_mm)};
    set_scale(v, whole, box, side_reach(h, "front") > 0 ? 9 : 17);
    v->span = span;
    SW_TRY(plan_drawn(v, desk, &p));
    return put_note(
        v, box,
        sw_text_format(run, run->scratch, "Front below; stove %.0f wide, %.0f deep", in->width_mm, in->depth_mm));
}

/* ---- the elevation ------------------------------------------------------------------------------------------------------ */

/* Where the collar stands, from the stove's middle to the back; 0 when no piece has that role. */
static double collar_back_mm(const sw_dossier *d)
{
    double low = INFINITY, high = -INFINITY, collar = NAN;
    for (size_t i = 0; i < d->sheet->piece_count; i++) {
        const sw_piece *piece = d->sheet->pieces[i].piece;
        const sw_mesh *m = &d->sheet->pieces[i].solid.mesh;
        for (size_t k = 0; k < piece->count; k++) {
            double own_low = INFINITY, own_high = -INFINITY;
            for (size_t n = 0; n < m->point_count; n++) {
                double y = sw_frame_point(piece->placements[k], m->points[n]).y_mm;
                own_low = fmin(own_low, y), own_high = fmax(own_high, y);
            }
            low = fmin(low, own_low), high = fmax(high, own_high);
            if (strcmp(piece->role, "flue collar") == 0) collar = (own_low + own_high) / 2;
        }
    }
    return isnan(collar) ? 0 : collar - (low + high) / 2;
}

static const sw_flue_part *first_pipe(const sw_house *h)
{
    for (size_t i = 0; i < h->part_count; i++)
        if (h->parts[i].pipe) return &h->parts[i];
    return NULL;
}

static sw_status put_pipe(place_view *v, double top_v)
{
    const sw_flue_part *pipe = first_pipe(v->d->model.house);
    if (pipe == NULL) return SW_OK;
    double at = collar_back_mm(v->d), half = (pipe->round ? pipe->width_mm : pipe->depth_mm) / 2;
    sw_box b = box_on_page(v, at - half, v->world.y1_mm, at + half, top_v);
    const pen_paint paint = {.fill = true, .fill_ink = look_white(), .stroke = true, .stroke_ink = look_dark(0.3)};
    pen_box(v->pen, &paint, b);
    SW_TRY(taken_box(v->run, &v->used, b));
    int dashes = 0;
    const double *chain = look_chain(&dashes);
    double x = (b.x0_mm + b.x1_mm) / 2;
    sw_pen_line(v->pen, look_dashed(look_grey(0.15), chain, dashes), (sw_point){x, b.y0_mm - 2},
                (sw_point){x, b.y1_mm});
    double needed = house_need_mm(v->d->housed, "combustible beside", pipe->name);
    const char *first =
        isfinite(pipe->combustible_mm)
            ? sw_text_format(v->run, v->run->scratch, "%s: %.0f to what burns", pipe->name, pipe->combustible_mm)
            : sw_text_format(v->run, v->run->scratch, "%s: nothing told near it", pipe->name);
    return queue(v, (caption){{b.x1_mm + 27, (b.y0_mm + b.y1_mm) / 2},
                              first,
                              least(v->run, needed, pipe->combustible_mm),
                              pipe->combustible_mm < needed,
                              SIZE_MAX});
}

static void put_floor(place_view *v, const plate *p, double floor_v, sw_box whole)
{
    if (p->there) {
        const pen_paint paint = {
            .fill = true, .fill_ink = look_light(0), .stroke = true, .stroke_ink = look_dark(0.25)};
        pen_box(v->pen, &paint, box_on_page(v, p->y0, floor_v, p->y1, v->world.y0_mm));
    }
    sw_point a = on_page(v, whole.x0_mm, floor_v), b = on_page(v, whole.x1_mm, floor_v);
    sw_pen_line(v->pen, look_dark(0.5), a, b);
    for (int n = 0; a.x_mm + 3 * n < b.x_mm - 2; n++) {
        double x = a.x_mm + 3 * n;
        sw_pen_line(v->pen, look_grey(0.12), (sw_point){x + 2, a.y_mm}, (sw_point){x, a.y_mm + 2});
    }
}

static sw_status caption_plate(place_view *v, const plate *p, double floor_v)
{
    const sw_house *h = v->d->model.house;
    double needed = house_need_mm(v->d->housed, "hearth, thickness", "hearth");
    sw_box b = box_on_page(v, p->y0, floor_v, p->y1, 0);
    SW_TRY(taken_box(v->run, &v->used, b));
    return queue(v, (caption){{b.x0_mm - 17, (b.y0_mm + b.y1_mm) / 2},
                              sw_text_format(v->run, v->run->scratch, "plate %.0f thick", h->hearth_mm),
                              least(v->run, needed, h->hearth_mm),
                              h->hearth_mm < needed,
                              SIZE_MAX});
}

static sw_status elevation_drawn(place_view *v, const paper_desk *desk, const plate *p, sw_box whole)
{
    static const solid_view from_right = {{1, 0, 0}, {0, 0, 1}};
    const sw_house *h = v->d->model.house;
    const sw_box s = v->world;
    double floor_v = whole.y0_mm + 60;
    put_floor(v, p, floor_v, whole);
    SW_TRY(put_stove(v, desk, from_right));
    SW_TRY(taken_box(v->run, &v->used, box_on_page(v, s.x0_mm, s.y0_mm, s.x1_mm, s.y1_mm)));
    bool above = side_reach(h, "above") > 0;
    SW_TRY(put_pipe(v, above ? s.y1_mm + side_reach(h, "above") - WALL_MM : whole.y1_mm));
    if (above) SW_TRY(put_side(v, "above", s.x0_mm - 60, s.x1_mm + 60, false, 1));
    SW_TRY(put_side(v, "front", floor_v, s.y1_mm, true, -1));
    SW_TRY(put_side(v, "back", floor_v, s.y1_mm, true, 1));
    const asked_distance tall = {{s.x0_mm - 5 / v->scale, s.y0_mm},
                                 {s.x0_mm - 5 / v->scale, s.y1_mm},
                                 s.y1_mm - s.y0_mm,
                                 NAN,
                                 " stove, high",
                                 true};
    SW_TRY(put_distance(v, &tall));
    if (p->there) SW_TRY(caption_plate(v, p, floor_v));
    return put_captions(v);
}

sw_status draw_elevation(sw_run *run, const paper_desk *desk, sw_pen *pen, sw_box box)
{
    const sw_dossier *d = desk->d;
    if (!house_is_placed(d)) return SW_OK;
    const sw_site_input *in = d->housed->site_in;
    const sw_house *h = d->model.house;
    const plate p = plate_of(h, in);
    double half_d = in->depth_mm / 2, bare = 250, floor_v = -(p.there ? h->hearth_mm : 0);
    place_view *v = SW_SCRATCH(run, 1, place_view);
    if (v == NULL) return SW_NO_MEMORY;
    *v = (place_view){.run = run, .pen = pen, .d = d, .world = {-half_d, 0, half_d, in->height_mm}};
    sw_box whole = {fmin(-half_d - reach_or(side_reach(h, "front"), bare), p.y0), floor_v - 60,
                    fmax(half_d + reach_or(side_reach(h, "back"), bare), p.y1),
                    in->height_mm + reach_or(side_reach(h, "above"), 320)};
    set_scale(v, whole, box, 4);
    v->span = (sw_box){fmin(-half_d, p.y0), floor_v, fmax(half_d, p.y1), in->height_mm};
    SW_TRY(elevation_drawn(v, desk, &p, whole));
    return put_note(v, box, "Front to the left");
}
