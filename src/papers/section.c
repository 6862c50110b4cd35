/* section.c: the stove cut through the plane x = 0, seen from the right (front to the left): each part's cut in the colour of its
 * temperature, the main parts named at both sides. */
#include "papers/chart_parts.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

typedef struct cut_part {
    sw_point (*lines)[2]; /* y to the back, z up, mm of the stove */
    size_t count, room;
    double c; /* degC, NAN = not known */
    const char *name;
    sw_point middle;
} cut_part;

typedef struct section {
    cut_part *parts;
    size_t count;
    double low_y, high_y, low_z, high_z, low_c, high_c;
    sw_point origin; /* page place of (low_y, low_z) */
    double scale;
} section;

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

sw_status draw_heat_scale(sw_run *run, sw_pen *pen, sw_box box, double low_c, double high_c)
{
    enum { STEPS = 40 };
    for (int i = 0; i < STEPS; i++) {
        const pen_paint paint = {.fill = true, .fill_ink = look_heat((i + 0.5) / STEPS, 0)};
        double wide_mm = box.x1_mm - box.x0_mm;
        pen_box(pen, &paint,
                (sw_box){box.x0_mm + wide_mm * i / STEPS, box.y0_mm, box.x0_mm + wide_mm * (i + 1) / STEPS, box.y1_mm});
    }
    const char *low = words_number(run, low_c, 0), *high = sw_text_format(run, run->scratch,
                                                                          "%.0f \xc2\xb0"
                                                                          "C",
                                                                          high_c);
    if (low == NULL || high == NULL) return SW_NO_MEMORY;
    pen_write(pen, (sw_point){box.x0_mm - 1.5, box.y1_mm - 0.4}, look_type_grey(2, SW_RIGHT), low);
    pen_write(pen, (sw_point){box.x1_mm + 1.5, box.y1_mm - 0.4}, look_type_grey(2, SW_LEFT), high);
    return SW_OK;
}

/* ---- cutting ------------------------------------------------------------------------------------------------ */

/* Where the edge a-b meets x = 0. */
static bool meets(sw_vec3 a, sw_vec3 b, sw_point *at)
{
    if ((a.x_mm > 0) == (b.x_mm > 0)) return false;
    double t = a.x_mm / (a.x_mm - b.x_mm);
    *at = (sw_point){a.y_mm + t * (b.y_mm - a.y_mm), a.z_mm + t * (b.z_mm - a.z_mm)};
    return true;
}

static sw_status add_line(sw_run *run, cut_part *part, sw_point a, sw_point b)
{
    void *lines = sw_grow(run, run->scratch, part->lines, part->count, &part->room, sizeof *part->lines);
    if (lines == NULL) return SW_NO_MEMORY;
    part->lines = lines;
    part->lines[part->count][0] = a;
    part->lines[part->count++][1] = b;
    return SW_OK;
}

static sw_status cut_mesh(sw_run *run, cut_part *part, const solid_part *solid)
{
    const double off_mm = 0.05; /* beside the plane of symmetry, where edges of two halves lie */
    for (size_t i = 0; i < solid->mesh.triangle_count; i++) {
        sw_triangle t = solid->mesh.triangles[i];
        sw_vec3 p[3] = {sw_frame_point(solid->frame, solid->mesh.points[t.a]),
                        sw_frame_point(solid->frame, solid->mesh.points[t.b]),
                        sw_frame_point(solid->frame, solid->mesh.points[t.c])};
        sw_point ends[3];
        size_t n = 0;
        for (size_t k = 0; k < 3; k++) p[k].x_mm -= off_mm;
        for (size_t k = 0; k < 3; k++) n += meets(p[k], p[(k + 1) % 3], &ends[n]) ? 1 : 0;
        if (n == 2) SW_TRY(add_line(run, part, ends[0], ends[1]));
    }
    return SW_OK;
}

static size_t scene_part_of(const sw_scene *s, int tag, size_t placement)
{
    for (size_t i = 0; i < s->part_count; i++)
        if ((tag >= 0 ? s->parts[i].piece == tag : s->parts[i].item == -1 - tag) && s->parts[i].placement == placement)
            return i;
    return SIZE_MAX;
}

static void measure(section *s, cut_part *part)
{
    double y = 0, z = 0, length = 0;
    for (size_t i = 0; i < part->count; i++) {
        sw_point a = part->lines[i][0], b = part->lines[i][1];
        double l = hypot(b.x_mm - a.x_mm, b.y_mm - a.y_mm);
        y += l * (a.x_mm + b.x_mm) / 2, z += l * (a.y_mm + b.y_mm) / 2, length += l;
        s->low_y = fmin(s->low_y, fmin(a.x_mm, b.x_mm)), s->high_y = fmax(s->high_y, fmax(a.x_mm, b.x_mm));
        s->low_z = fmin(s->low_z, fmin(a.y_mm, b.y_mm)), s->high_z = fmax(s->high_z, fmax(a.y_mm, b.y_mm));
    }
    if (length > 0) part->middle = (sw_point){y / length, z / length};
    if (isnan(part->c)) return;
    s->low_c = fmin(s->low_c, part->c), s->high_c = fmax(s->high_c, part->c);
}

static sw_status cut_stove(sw_run *run, const sw_dossier *d, section *s)
{
    const solid_part *solids = NULL;
    size_t count = 0, placement = 0;
    SW_TRY(solid_stove(run, d, false, &solids, &count));
    s->parts = SW_SCRATCH(run, count + 1, cut_part);
    if (s->parts == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < count; i++) {
        placement = i > 0 && solids[i].tag == solids[i - 1].tag ? placement + 1 : 0;
        size_t k = scene_part_of(d->burned->scene, solids[i].tag, placement);
        cut_part *part = &s->parts[s->count];
        *part = (cut_part){.c = k == SIZE_MAX ? (double)NAN : sw_c_from_k(d->burned->hot_k[k]),
                           .name = k == SIZE_MAX ? NULL : d->burned->scene->parts[k].name};
        SW_TRY(cut_mesh(run, part, &solids[i]));
        if (part->count == 0) continue;
        measure(s, part);
        s->count++;
    }
    return SW_OK;
}

static sw_status section_of(sw_run *run, const sw_dossier *d, sw_box box, section *s)
{
    *s = (section){.low_y = INFINITY,
                   .low_z = INFINITY,
                   .high_y = -INFINITY,
                   .high_z = -INFINITY,
                   .low_c = INFINITY,
                   .high_c = -INFINITY};
    SW_TRY(cut_stove(run, d, s));
    if (s->count == 0) return SW_OK;
    double wide = s->high_y - s->low_y, high = s->high_z - s->low_z;
    s->scale = fmin((box.x1_mm - box.x0_mm) / wide, (box.y1_mm - box.y0_mm) / high);
    s->origin =
        (sw_point){(box.x0_mm + box.x1_mm - wide * s->scale) / 2, (box.y0_mm + box.y1_mm + high * s->scale) / 2};
    return SW_OK;
}

static sw_point on_page(const section *s, sw_point p)
{
    return (sw_point){s->origin.x_mm + (p.x_mm - s->low_y) * s->scale, s->origin.y_mm - (p.y_mm - s->low_z) * s->scale};
}

static void stroke_part(sw_pen *pen, const section *s, const cut_part *part, sw_ink ink)
{
    pen->kind->begin(pen);
    for (size_t i = 0; i < part->count; i++) {
        pen->kind->move(pen, on_page(s, part->lines[i][0]));
        pen->kind->line(pen, on_page(s, part->lines[i][1]));
    }
    const pen_paint paint = {.stroke = true, .stroke_ink = ink};
    pen->kind->paint(pen, &paint);
}

/* ---- names ------------------------------------------------------------------------------------------------------ */

typedef struct label {
    sw_point from;
    const char *text;
    double y_mm;
} label;

static int higher_first(const void *a, const void *b)
{
    double x = ((const label *)a)->y_mm, y = ((const label *)b)->y_mm;
    return x < y ? -1 : x > y ? 1 : 0;
}

/* Pushes the labels of one side apart, from the top down, then up again from the bottom. */
static void spread(label *labels, size_t count, double top_mm, double bottom_mm, double apart_mm)
{
    qsort(labels, count, sizeof *labels, higher_first);
    for (size_t i = 0; i < count; i++)
        labels[i].y_mm = fmax(labels[i].y_mm, i == 0 ? top_mm : labels[i - 1].y_mm + apart_mm);
    for (size_t i = count; i-- > 0;)
        labels[i].y_mm = fmin(labels[i].y_mm, i + 1 == count ? bottom_mm : labels[i + 1].y_mm - apart_mm);
}

static void draw_labels(sw_pen *pen, label *labels, size_t count, double x_mm, bool left, sw_box box)
{
    const double apart_mm = 3.6;
    spread(labels, count, box.y0_mm + 2, box.y1_mm - 1, apart_mm);
    for (size_t i = 0; i < count; i++) {
        sw_point to = {x_mm, labels[i].y_mm - 0.8};
        sw_pen_line(pen, look_grey(0.1), labels[i].from, to);
        pen_write(pen, (sw_point){x_mm + (left ? -1.0 : 1.0), labels[i].y_mm}, look_type(2, left ? SW_RIGHT : SW_LEFT),
                  labels[i].text);
    }
}

/* Every cut part with a temperature, those in front to the left. Parts of one name are told once. */
static sw_status name_parts(sw_run *run, sw_pen *pen, const section *s, sw_box box)
{
    label *sides[2];
    size_t counts[2] = {0, 0};
    double middle = (s->low_y + s->high_y) / 2, edge_mm[2];
    for (size_t k = 0; k < 2; k++) {
        sides[k] = SW_SCRATCH(run, s->count, label);
        if (sides[k] == NULL) return SW_NO_MEMORY;
    }
    for (size_t i = 0; i < s->count; i++) {
        const cut_part *part = &s->parts[i];
        if (isnan(part->c) || part->name == NULL) continue;
        size_t side = part->middle.x_mm > middle ? 1 : 0;
        sw_point at = on_page(s, part->middle);
        double least = INFINITY; /* the leader ends on the cut itself */
        for (size_t k = 0; k < part->count; k++) {
            sw_point p = on_page(s, (sw_point){(part->lines[k][0].x_mm + part->lines[k][1].x_mm) / 2,
                                               (part->lines[k][0].y_mm + part->lines[k][1].y_mm) / 2});
            double off = hypot(p.x_mm - on_page(s, part->middle).x_mm, p.y_mm - on_page(s, part->middle).y_mm);
            if (off < least) least = off, at = p;
        }
        const char *text = sw_text_format(run, run->scratch,
                                          "%s %.0f \xc2\xb0"
                                          "C",
                                          part->name, part->c);
        if (text == NULL) return SW_NO_MEMORY;
        sides[side][counts[side]++] = (label){at, text, at.y_mm};
    }
    edge_mm[0] = on_page(s, (sw_point){s->low_y, 0}).x_mm - 8;
    edge_mm[1] = on_page(s, (sw_point){s->high_y, 0}).x_mm + 8;
    for (size_t k = 0; k < 2; k++) draw_labels(pen, sides[k], counts[k], edge_mm[k], k == 0, box);
    return SW_OK;
}

sw_status draw_section(sw_run *run, const sw_dossier *d, sw_pen *pen, sw_box box)
{
    section s;
    sw_box field = {box.x0_mm + 45, box.y0_mm + 2, box.x1_mm - 45, box.y1_mm - 9};
    SW_TRY(section_of(run, d, field, &s));
    if (s.count == 0) return SW_OK;
    double span = fmax(s.high_c - s.low_c, 1);
    for (size_t i = 0; i < s.count; i++)
        stroke_part(pen, &s, &s.parts[i],
                    isnan(s.parts[i].c) ? look_light(0.25) : look_heat((s.parts[i].c - s.low_c) / span, 0.55));
    SW_TRY(name_parts(run, pen, &s, field));
    return draw_heat_scale(run, pen, (sw_box){box.x0_mm + 60, box.y1_mm - 5, box.x1_mm - 60, box.y1_mm - 2}, s.low_c,
                           s.high_c);
}

/* ---- the air's ways ---------------------------------------------------------------------------------------------- */

static void arrow(sw_pen *pen, sw_point from, sw_point to, double width_mm)
{
    double dx = to.x_mm - from.x_mm, dy = to.y_mm - from.y_mm, l = hypot(dx, dy);
    if (!(l > 0)) return;
    dx /= l, dy /= l;
    double head = fmax(2 * width_mm, 2.4), neck = fmax(l - head, 0);
    sw_point n = {from.x_mm + dx * neck, from.y_mm + dy * neck};
    sw_pen_line(pen, look_rust(width_mm), from, n);
    const sw_vertex tip[] = {{n.x_mm - dy * head * 0.5, n.y_mm + dx * head * 0.5, 0},
                             {to.x_mm, to.y_mm, 0},
                             {n.x_mm + dy * head * 0.5, n.y_mm - dx * head * 0.5, 0}};
    const pen_paint paint = {.fill = true, .fill_ink = look_rust(0)};
    pen_shape(pen, &paint, tip, 3, true);
}

/* Rear jets come from the back, the rest from the front; throat and collar go up. */
static void draw_way(sw_pen *pen, const section *s, const sw_air_way *way, const sw_air_flow *f, const char *text,
                     double most_kg_s)
{
    double z_mm = sw_mm_from_m(way->height_m), width_mm = 0.3 + 2.2 * fabs(f->kg_s) / most_kg_s;
    bool back = strcmp(way->kind, "rear jet") == 0 || strcmp(way->kind, "secondary") == 0;
    bool up = strcmp(way->kind, "throat") == 0 || strcmp(way->kind, "collar") == 0;
    double y_mm = up ? s->low_y + 0.55 * (s->high_y - s->low_y) : back ? s->high_y : s->low_y;
    sw_point at = on_page(s, (sw_point){y_mm, z_mm}), from = at, to = at;
    from.x_mm += up ? 0 : back ? 14 : -14;
    from.y_mm += up ? 7 : 0;
    to.x_mm += up ? 0 : back ? -6 : 6;
    to.y_mm -= up ? 7 : 0;
    if (f->kg_s < 0) {
        sw_point turn = from;
        from = to, to = turn;
    }
    arrow(pen, from, to, width_mm);
    pen_write(pen,
              (sw_point){up     ? at.x_mm + 4
                         : back ? at.x_mm + 15
                                : at.x_mm - 15,
                         at.y_mm + (up ? -1.0 : 0.8)},
              look_type(2, up || back ? SW_LEFT : SW_RIGHT), text);
}

sw_status draw_air(sw_run *run, const sw_dossier *d, sw_pen *pen, sw_box box)
{
    section s;
    const sw_air_result *air = d->burned->air;
    SW_TRY(section_of(run, d, (sw_box){box.x0_mm + 72, box.y0_mm + 2, box.x1_mm - 72, box.y1_mm - 2}, &s));
    if (s.count == 0) return SW_OK;
    double most = 0;
    for (size_t i = 0; i < s.count; i++) stroke_part(pen, &s, &s.parts[i], look_light(0.25));
    for (size_t i = 0; i < air->network.way_count; i++) most = fmax(most, fabs(air->solution.flows[i].kg_s));
    for (size_t i = 0; i < air->network.way_count && most > 0; i++) {
        const sw_air_way *way = &air->network.ways[i];
        const sw_air_flow *f = &air->solution.flows[i];
        const char *text = sw_text_format(run, run->scratch, "%s: %.2f g/s, %.1f m/s, %.1f Pa", way->name,
                                          f->kg_s * 1e3, f->velocity_m_s, f->pressure_pa);
        if (text == NULL) return SW_NO_MEMORY;
        draw_way(pen, &s, way, f, text, most);
    }
    return SW_OK;
}
