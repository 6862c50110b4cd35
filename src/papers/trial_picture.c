/* trial_picture.c: the stand of a test: the stove's section on the scale under a flue with its measuring section, and the
 * stove from outside; sensors numbered as in the plan's table. */
#include "papers/cards_parts.h"
#include "papers/chart_parts.h"
#include "papers/trial_parts.h"

#include <math.h>
#include <string.h>

#define RING_MM  2.3
#define APART_MM 5.4

typedef struct stand {
    sw_run *run;
    sw_pen *pen;
    const doc_book *doc;
    sw_box box;
    section_view v;
    sw_box collar;         /* y and z of the stove, mm; empty = none */
    double pipe_x, top_mm; /* page: axis of the upright flue, upper end of the drawing */
    side_label *sides[2];  /* left, right: which = sensor */
    size_t counts[2];
} stand;

static const sw_trial_plan *plan_of(const doc_book *doc)
{
    return doc->tested->result->plan;
}

/* ---- numbers at both sides, with leaders ------------------------------------------------------------------------------ */

static sw_status draw_number(const stand *s, const side_label *l, double x_mm, bool left)
{
    double way = left ? -1 : 1;
    const sw_trial_sensor *sensor = &plan_of(s->doc)->sensors[l->which];
    const char *number = sw_text_format(s->run, s->run->scratch, "%zu", l->which + 1);
    const char *name = sensor->at == SW_AT_PART ? sensor->place : sensor->quantity;
    const pen_paint dot = {.fill = true, .fill_ink = look_rust(0)};
    if (sensor->at == SW_AT_HANDLE) name = "handle";
    if (sensor->at == SW_AT_STORE) name = "fuel store";
    if (sensor->at == SW_AT_CORNER) name = "test corner";
    double room_mm = left ? x_mm - RING_MM - s->box.x0_mm - 2 : s->box.x1_mm - x_mm - RING_MM - 2;
    name = words_within(s->run, s->pen, TESTED_SMALL_MM, false, room_mm, name);
    if (number == NULL || name == NULL) return SW_NO_MEMORY;
    sw_pen_line(s->pen, look_rust(0.15), l->from, (sw_point){x_mm - way * RING_MM, l->y_mm});
    pen_circle(s->pen, &dot, l->from, 0.45);
    card_circle(s->pen, (sw_point){x_mm, l->y_mm}, RING_MM, number);
    pen_write(s->pen, (sw_point){x_mm + way * (RING_MM + 1.2), l->y_mm + TESTED_SMALL_MM / 2},
              look_type(TESTED_SMALL_MM, left ? SW_RIGHT : SW_LEFT), name);
    return SW_OK;
}

static sw_status draw_numbers(stand *s, double left_x, double right_x)
{
    for (int k = 0; k < 2; k++) {
        double high_mm = s->box.y1_mm - s->box.y0_mm - 2 * RING_MM;
        double apart_mm = fmin(APART_MM, high_mm / fmax(1, (double)s->counts[k]));
        spread_labels(s->sides[k], s->counts[k], s->box.y0_mm + RING_MM, s->box.y1_mm - RING_MM, apart_mm);
        for (size_t i = 0; i < s->counts[k]; i++)
            SW_TRY(draw_number(s, &s->sides[k][i], k == 0 ? left_x : right_x, k == 0));
    }
    return SW_OK;
}

static sw_status open_sides(stand *s)
{
    for (int k = 0; k < 2; k++) {
        s->sides[k] = SW_SCRATCH(s->run, plan_of(s->doc)->sensor_count + 1, side_label);
        if (s->sides[k] == NULL) return SW_NO_MEMORY;
    }
    return SW_OK;
}

static void put_number(stand *s, size_t sensor, sw_point from, bool right)
{
    s->sides[right][s->counts[right]++] = (side_label){from, NULL, from.y_mm, sensor};
}

/* ---- places of the stove -------------------------------------------------------------------------------------------------- */

static void widen(sw_box *b, const sw_mesh *m, sw_frame place)
{
    for (size_t n = 0; n < m->point_count; n++) {
        sw_vec3 p = sw_frame_point(place, m->points[n]);
        b->x0_mm = fmin(b->x0_mm, p.y_mm), b->x1_mm = fmax(b->x1_mm, p.y_mm);
        b->y0_mm = fmin(b->y0_mm, p.z_mm), b->y1_mm = fmax(b->y1_mm, p.z_mm);
    }
}

/* y and z reached by the pieces of a role, in all their places; empty (x0 > x1) when there is none. */
static sw_box reach_of_role(const sw_dossier *d, const char *role)
{
    sw_box b = {INFINITY, INFINITY, -INFINITY, -INFINITY};
    for (size_t i = 0; i < d->sheet->piece_count; i++) {
        const sw_piece *piece = d->sheet->pieces[i].piece;
        const sw_mesh *m = &d->sheet->pieces[i].solid.mesh;
        if (strcmp(piece->role, role) != 0) continue;
        for (size_t k = 0; k < piece->count; k++) widen(&b, m, piece->placements[k]);
    }
    return b;
}

static bool is_there(sw_box b)
{
    return b.x1_mm >= b.x0_mm;
}

static sw_point middle_on_page(const stand *s, sw_box b)
{
    return section_on_page(&s->v, (sw_point){(b.x0_mm + b.x1_mm) / 2, (b.y0_mm + b.y1_mm) / 2});
}

/* ---- the flue and what stands around ---------------------------------------------------------------------------------------- */

/* Upright from the collar's top, or from behind where the collar leaves the stove at its back. */
static void draw_flue(stand *s)
{
    const pen_paint gas = {.fill = true, .fill_ink = look_white(), .stroke = true, .stroke_ink = look_dark(0.3)},
                    wool = {.fill = true, .fill_ink = look_light(0), .stroke = true, .stroke_ink = look_grey(0.2)};
    const stove_section *c = s->v.s;
    bool known = is_there(s->collar);
    sw_box reach =
        known ? s->collar : (sw_box){0.4 * (c->low_y + c->high_y), c->high_z, 0.6 * (c->low_y + c->high_y), c->high_z};
    bool behind = known && c->high_z - reach.y1_mm > 80;
    double half =
        behind ? (reach.y1_mm - reach.y0_mm) / 2 * s->v.scale : fmax((reach.x1_mm - reach.x0_mm) / 2 * s->v.scale, 3);
    sw_point a = section_on_page(&s->v, (sw_point){behind ? reach.x1_mm : (reach.x0_mm + reach.x1_mm) / 2,
                                                   behind ? (reach.y0_mm + reach.y1_mm) / 2 : reach.y1_mm});
    s->pipe_x = behind ? a.x_mm + 3 * half : a.x_mm;
    if (behind) pen_box(s->pen, &gas, (sw_box){a.x_mm, a.y_mm - half, s->pipe_x + half, a.y_mm + half});
    double foot = behind ? a.y_mm - half : a.y_mm, section_foot = foot - 0.25 * (foot - s->top_mm);
    pen_box(s->pen, &wool, (sw_box){s->pipe_x - half - 2, s->top_mm + 4, s->pipe_x + half + 2, section_foot});
    pen_box(s->pen, &gas, (sw_box){s->pipe_x - half, s->top_mm, s->pipe_x + half, foot});
    size_t count = 0, done = 0;
    for (size_t i = 0; i < plan_of(s->doc)->sensor_count; i++) count += plan_of(s->doc)->sensors[i].at == SW_AT_SECTION;
    for (size_t i = 0; i < plan_of(s->doc)->sensor_count; i++) {
        if (plan_of(s->doc)->sensors[i].at != SW_AT_SECTION) continue;
        double y = section_foot - (section_foot - s->top_mm - 4) * (double)(++done) / (double)(count + 1);
        bool wall = strcmp(plan_of(s->doc)->sensors[i].quantity, "draught") == 0; /* a tapping ends at the wall */
        sw_pen_line(s->pen, look_dark(0.4), (sw_point){wall ? s->pipe_x + half : s->pipe_x, y},
                    (sw_point){s->pipe_x + half + 6, y});
        put_number(s, i, (sw_point){s->pipe_x + half + 6, y}, true);
    }
}

static void hatch_along(const stand *s, sw_point a, sw_point b, double dx, double dy)
{
    double long_mm = hypot(b.x_mm - a.x_mm, b.y_mm - a.y_mm);
    for (int n = 0; 3 * n < long_mm - 2; n++) {
        double t = 3 * n / long_mm, x = a.x_mm + t * (b.x_mm - a.x_mm), y = a.y_mm + t * (b.y_mm - a.y_mm);
        sw_pen_line(s->pen, look_grey(0.12), (sw_point){x, y}, (sw_point){x + dx, y + dy});
    }
}

/* Scale, floor and the corner's rear wall. */
static void draw_corner(stand *s)
{
    const pen_paint plate = {.fill = true, .fill_ink = look_pale(), .stroke = true, .stroke_ink = look_dark(0.3)};
    sw_point low = section_on_page(&s->v, (sw_point){s->v.s->low_y, s->v.s->low_z}),
             high = section_on_page(&s->v, (sw_point){s->v.s->high_y, s->v.s->high_z});
    double floor_mm = low.y_mm + 5, wall_mm = fmax(high.x_mm, s->pipe_x) + 14;
    pen_box(s->pen, &plate, (sw_box){low.x_mm - 3, low.y_mm + 0.4, high.x_mm + 3, low.y_mm + 4});
    const sw_point a = {low.x_mm - 18, floor_mm}, b = {wall_mm, floor_mm}, c = {wall_mm, s->top_mm + 6};
    sw_pen_line(s->pen, look_dark(0.5), a, b);
    sw_pen_line(s->pen, look_dark(0.5), b, c);
    hatch_along(s, a, b, -2, 2);
    hatch_along(s, c, b, 2, -2);
    for (size_t i = 0; i < plan_of(s->doc)->sensor_count; i++) {
        switch (plan_of(s->doc)->sensors[i].at) {
        case SW_AT_SCALE:
            put_number(s, i, (sw_point){low.x_mm - 1, low.y_mm + 2.2}, false);
            break;
        case SW_AT_CORNER:
            put_number(s, i, (sw_point){wall_mm, (low.y_mm + high.y_mm) / 2}, true);
            break;
        case SW_AT_ROOM:
            put_number(s, i, (sw_point){low.x_mm - 15, high.y_mm}, false);
            break;
        default:
            break;
        }
    }
}

/* Sensors on parts that the section cuts, at their nearest line. */
static void number_parts(stand *s)
{
    const sw_scene *scene = s->doc->d->burned->scene;
    const stove_section *c = s->v.s;
    for (size_t i = 0; i < plan_of(s->doc)->sensor_count; i++) {
        const sw_trial_sensor *sensor = &plan_of(s->doc)->sensors[i];
        if (sensor->at != SW_AT_PART) continue;
        for (size_t k = 0; k < c->count; k++) {
            const cut_part *part = &c->parts[k];
            if (part->part == SIZE_MAX || part->count == 0) continue;
            const sw_scene_part *p = &scene->parts[part->part];
            if (!(sensor->piece >= 0 && p->piece == sensor->piece) && !(sensor->item >= 0 && p->item == sensor->item))
                continue;
            sw_point at = section_on_page(&s->v, section_place(part));
            put_number(s, i, at, part->middle.x_mm > (c->low_y + c->high_y) / 2);
            break;
        }
    }
}

static void number_roles(stand *s)
{
    for (size_t i = 0; i < plan_of(s->doc)->sensor_count; i++) {
        sw_trial_spot_at at = plan_of(s->doc)->sensors[i].at;
        if (at != SW_AT_HANDLE && at != SW_AT_STORE) continue;
        sw_box b = reach_of_role(s->doc->d, at == SW_AT_HANDLE ? "handle" : "log tray");
        if (is_there(b)) put_number(s, i, middle_on_page(s, b), false);
    }
}

sw_status draw_stand(sw_run *run, const doc_book *doc, size_t a, size_t b, sw_pen *pen, sw_box box)
{
    (void)a;
    (void)b;
    const double side_mm = 52, flue_share = 0.36;
    if (doc->desk->section == NULL) return SW_OK;
    stand s = {.run = run, .pen = pen, .doc = doc, .box = box, .top_mm = box.y0_mm + 1};
    double high_mm = box.y1_mm - box.y0_mm;
    s.v = section_in(doc->desk->section, (sw_box){box.x0_mm + side_mm, box.y0_mm + flue_share * high_mm,
                                                  box.x1_mm - side_mm, box.y1_mm - 7});
    s.collar = reach_of_role(doc->d, "flue collar");
    SW_TRY(open_sides(&s));
    for (size_t i = 0; i < s.v.s->count; i++) section_stroke(pen, &s.v, &s.v.s->parts[i], look_grey(0.3));
    draw_flue(&s);
    draw_corner(&s);
    number_parts(&s);
    number_roles(&s);
    double left = section_on_page(&s.v, (sw_point){s.v.s->low_y, 0}).x_mm - 20,
           right = fmax(section_on_page(&s.v, (sw_point){s.v.s->high_y, 0}).x_mm, s.pipe_x) + 22;
    return draw_numbers(&s, left, right);
}

/* ---- from outside ----------------------------------------------------------------------------------------------------------------- */

static sw_status see(sw_run *run, const paper_desk *desk, sw_box box, solid_picture *picture)
{
    const stove_view *view = &desk->assembled;
    const solid_wish wish = {box.x1_mm - box.x0_mm, box.y1_mm - box.y0_mm, PEN_PIXELS_PER_MM, true};
    return solid_draw(run, view->parts, view->part_count, solid_view_stove(), wish, picture);
}

static void number_seen(stand *s, const solid_picture *p, sw_point origin)
{
    const stove_view *view = &s->doc->desk->assembled;
    for (size_t i = 0; i < plan_of(s->doc)->sensor_count; i++) {
        const sw_trial_sensor *sensor = &plan_of(s->doc)->sensors[i];
        if (sensor->at != SW_AT_PART) continue;
        int tag = sensor->piece >= 0 ? sensor->piece : -1 - sensor->item;
        for (size_t k = 0; k < view->part_count; k++) {
            if (view->parts[k].tag != tag || !p->anchors[k].seen) continue;
            put_number(s, i, (sw_point){origin.x_mm + p->anchors[k].at.x_mm, origin.y_mm + p->anchors[k].at.y_mm},
                       p->anchors[k].at.x_mm > p->width_mm / 2);
            break;
        }
    }
}

sw_status draw_sensors(sw_run *run, const doc_book *doc, size_t a, size_t b, sw_pen *pen, sw_box box)
{
    (void)a;
    (void)b;
    const double side_mm = 50;
    solid_picture p;
    const sw_box in = {box.x0_mm + side_mm, box.y0_mm + 1, box.x1_mm - side_mm, box.y1_mm - 1};
    stand s = {.run = run, .pen = pen, .doc = doc, .box = box};
    if (doc->desk->assembled.part_count == 0) return SW_OK;
    SW_TRY(see(run, doc->desk, in, &p));
    if (!(p.width_mm > 0)) return SW_OK;
    sw_point origin = {(in.x0_mm + in.x1_mm - p.width_mm) / 2, (in.y0_mm + in.y1_mm - p.height_mm) / 2};
    solid_show(pen, origin, 1, &p, 0.15);
    SW_TRY(open_sides(&s));
    number_seen(&s, &p, origin);
    return draw_numbers(&s, origin.x_mm - 8, origin.x_mm + p.width_mm + 8);
}
