/* section_air.c: the section in grey with the ways of air and gas: arrows as wide as the flow, figures beside them. */
#include "papers/chart_parts.h"

#include <math.h>
#include <string.h>

static void arrow(sw_pen *pen, sw_point from, sw_point to, double width_mm)
{
    double dx = to.x_mm - from.x_mm, dy = to.y_mm - from.y_mm, l = hypot(dx, dy);
    if (!(l > 0)) return;
    dx /= l, dy /= l;
    double head = fmax(2 * width_mm, 2.4), neck = fmax(l - head, 0), half = 0.5 * width_mm;
    sw_point n = {from.x_mm + dx * neck, from.y_mm + dy * neck};
    const sw_vertex shape[] = {
        {from.x_mm - dy * half, from.y_mm + dx * half, 0},       {n.x_mm - dy * half, n.y_mm + dx * half, 0},
        {n.x_mm - dy * head * 0.5, n.y_mm + dx * head * 0.5, 0}, {to.x_mm, to.y_mm, 0},
        {n.x_mm + dy * head * 0.5, n.y_mm - dx * head * 0.5, 0}, {n.x_mm + dy * half, n.y_mm - dx * half, 0},
        {from.x_mm + dy * half, from.y_mm - dx * half, 0}};
    const pen_paint paint = {.fill = true, .fill_ink = look_rust(0)};
    pen_shape(pen, &paint, shape, sizeof shape / sizeof *shape, true);
}

/* ---- where gas passes upwards: between the walls at that height, in the widest gap ---- */

typedef struct span_y {
    double low, high;
} span_y;

/* Of the cut at the heights z +- half: the reach of its lines; empty when it is not met. */
static span_y reach_at(const cut_part *part, double z, double half)
{
    span_y r = {INFINITY, -INFINITY};
    for (size_t i = 0; i < part->count; i++) {
        sw_point a = part->lines[i][0], b = part->lines[i][1];
        if (fmax(a.y_mm, b.y_mm) < z - half || fmin(a.y_mm, b.y_mm) > z + half) continue;
        r.low = fmin(r.low, fmin(a.x_mm, b.x_mm));
        r.high = fmax(r.high, fmax(a.x_mm, b.x_mm));
    }
    return r;
}

enum { STEPS = 200 };

/* Marks the steps from wall to wall that the part's lines at this height stand on. */
static void take(const cut_part *part, double z, double half, span_y walls, bool stood[STEPS])
{
    double a_mm = STEPS / (walls.high - walls.low);
    for (size_t i = 0; i < part->count; i++) {
        sw_point a = part->lines[i][0], b = part->lines[i][1];
        if (fmax(a.y_mm, b.y_mm) < z - half || fmin(a.y_mm, b.y_mm) > z + half) continue;
        double from = floor((fmin(a.x_mm, b.x_mm) - walls.low) * a_mm),
               to = floor((fmax(a.x_mm, b.x_mm) - walls.low) * a_mm);
        for (int k = (int)fmax(from, 0); k <= (int)fmin(to, STEPS - 1); k++) stood[k] = true;
    }
}

/* Middle of the widest gap, y in mm of the stove; a little behind the middle where there are no walls. */
static double middle_of_gap(const stove_section *s, const sw_scene *scene, double z)
{
    const double half_mm = 12;
    span_y walls = {INFINITY, -INFINITY};
    for (size_t i = 0; i < s->count; i++) {
        if (s->parts[i].part == SIZE_MAX || scene->parts[s->parts[i].part].kind != SW_PART_WALL) continue;
        span_y r = reach_at(&s->parts[i], z, half_mm);
        walls.low = fmin(walls.low, r.low), walls.high = fmax(walls.high, r.high);
    }
    if (!(walls.high > walls.low)) return s->low_y + 0.55 * (s->high_y - s->low_y);
    bool stood[STEPS] = {false};
    for (size_t i = 0; i < s->count; i++) take(&s->parts[i], z, half_mm, walls, stood);
    int best = 0, free = 0, end = 0;
    for (int k = 0; k < STEPS; k++) {
        free = stood[k] ? 0 : free + 1;
        if (free > best) best = free, end = k;
    }
    return walls.low + (walls.high - walls.low) * (end + 1 - 0.5 * best) / STEPS;
}

/* ---- one way ---- */

typedef enum way_side { FROM_FRONT, FROM_BACK, UPWARDS } way_side;

/* Rear jets come from the back, the rest from the front; throat and collar go up. */
static way_side side_of(const sw_air_way *way)
{
    if (strcmp(way->kind, "throat") == 0 || strcmp(way->kind, "collar") == 0) return UPWARDS;
    return strcmp(way->kind, "rear jet") == 0 || strcmp(way->kind, "secondary") == 0 ? FROM_BACK : FROM_FRONT;
}

typedef struct air_picture {
    section_view v;
    const sw_scene *scene;
    const sw_air_network *network;
    const sw_air_flow *flows;
    double most_kg_s;
    sw_box box;
} air_picture;

static sw_point place_of(const air_picture *p, size_t i)
{
    const sw_air_way *way = &p->network->ways[i];
    const stove_section *s = p->v.s;
    double z_mm = sw_mm_from_m(way->height_m);
    way_side side = side_of(way);
    double y_mm = side == UPWARDS ? middle_of_gap(s, p->scene, z_mm) : side == FROM_BACK ? s->high_y : s->low_y;
    return section_on_page(&p->v, (sw_point){y_mm, fmin(fmax(z_mm, s->low_z), s->high_z)});
}

static void draw_way(sw_pen *pen, const air_picture *p, size_t i, sw_point at)
{
    const sw_air_flow *f = &p->flows[i];
    way_side side = side_of(&p->network->ways[i]);
    sw_point from = at, to = at;
    if (side == UPWARDS)
        from.y_mm += 6, to.y_mm -= 6;
    else
        from.x_mm += side == FROM_BACK ? 12 : -12, to.x_mm += side == FROM_BACK ? -7 : 7;
    if (f->kg_s < 0) {
        sw_point turn = from;
        from = to, to = turn;
    }
    arrow(pen, from, to, 0.3 + 2.2 * fabs(f->kg_s) / p->most_kg_s);
}

/* ---- figures beside the arrows ---- */

/* Name and figures in two lines, beside the stove; a leader where the way lies inside it. */
static sw_status draw_label(sw_run *run, sw_pen *pen, const air_picture *p, const side_label *l, bool left)
{
    const sw_air_flow *f = &p->flows[l->which];
    const char *figures = sw_text_format(run, run->scratch, "%.2f g/s, %.1f m/s, %.1f Pa", f->kg_s * 1e3,
                                         f->velocity_m_s, f->pressure_pa);
    if (figures == NULL) return SW_NO_MEMORY;
    double edge_mm = section_on_page(&p->v, (sw_point){left ? p->v.s->low_y : p->v.s->high_y, 0}).x_mm;
    double x_mm = edge_mm + (left ? -14 : 14);
    sw_align align = left ? SW_RIGHT : SW_LEFT;
    if (side_of(&p->network->ways[l->which]) == UPWARDS)
        sw_pen_line(pen, look_grey(0.1), l->from, (sw_point){x_mm - 1, l->y_mm - 0.8});
    else if (fabs(l->y_mm - l->from.y_mm) > 1.5)
        sw_pen_line(pen, look_grey(0.1), (sw_point){edge_mm + (left ? -12 : 12), l->from.y_mm},
                    (sw_point){x_mm, l->y_mm - 0.8});
    const char *name = words_within(run, pen, 2, true, AIR_LABELS_MM - 14, p->network->ways[l->which].name);
    if (name == NULL) return SW_NO_MEMORY;
    pen_write(pen, (sw_point){x_mm, l->y_mm}, look_type_bold(2, align), name);
    pen_write(pen, (sw_point){x_mm, l->y_mm + 3.3}, look_type_grey(1.9, align), figures);
    return SW_OK;
}

static sw_status draw_ways(sw_run *run, sw_pen *pen, const air_picture *p)
{
    size_t n = p->network->way_count, counts[2] = {0, 0};
    side_label *sides[2] = {SW_SCRATCH(run, n + 1, side_label), SW_SCRATCH(run, n + 1, side_label)};
    if (sides[0] == NULL || sides[1] == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < n; i++) {
        sw_point at = place_of(p, i);
        int right = side_of(&p->network->ways[i]) != FROM_FRONT;
        draw_way(pen, p, i, at);
        if (side_of(&p->network->ways[i]) == UPWARDS) at.x_mm += 2;
        sides[right][counts[right]++] = (side_label){at, NULL, at.y_mm, i};
    }
    for (int k = 0; k < 2; k++) {
        spread_labels(sides[k], counts[k], p->box.y0_mm + 3, p->box.y1_mm - 4, 8.5);
        for (size_t i = 0; i < counts[k]; i++) SW_TRY(draw_label(run, pen, p, &sides[k][i], k == 0));
    }
    return SW_OK;
}

sw_status draw_air(sw_run *run, const paper_desk *desk, sw_pen *pen, sw_box box)
{
    if (desk->section == NULL) return SW_OK;
    const sw_air_result *air = desk->d->burned->air;
    sw_box field = {box.x0_mm + AIR_LABELS_MM, box.y0_mm + 7, box.x1_mm - AIR_LABELS_MM, box.y1_mm - 1};
    air_picture p = {
        section_in(desk->section, field), desk->d->burned->scene, &air->network, air->solution.flows, 0, box};
    for (size_t i = 0; i < p.v.s->count; i++) section_stroke(pen, &p.v, &p.v.s->parts[i], look_light(0.25));
    for (size_t i = 0; i < air->network.way_count; i++) p.most_kg_s = fmax(p.most_kg_s, fabs(p.flows[i].kg_s));
    return p.most_kg_s > 0 ? draw_ways(run, pen, &p) : SW_OK;
}
