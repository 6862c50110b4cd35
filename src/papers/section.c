/* section.c: the stove cut through the plane x = 0, seen from the right (front to the left): each part's cut in the colour of
 * its temperature, the parts named at both sides. */
#include "papers/chart_parts.h"

#include <math.h>
#include <stdlib.h>

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
    size_t n = solid->mesh.point_count;
    sw_vec3 *points = SW_SCRATCH(run, n + 1, sw_vec3);
    if (points == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < n; i++) {
        points[i] = sw_frame_point(solid->frame, solid->mesh.points[i]);
        points[i].x_mm -= off_mm;
    }
    for (size_t i = 0; i < solid->mesh.triangle_count; i++) {
        sw_triangle t = solid->mesh.triangles[i];
        const sw_vec3 *a = &points[t.a], *b = &points[t.b], *c = &points[t.c];
        sw_point ends[3];
        size_t met = 0;
        if ((a->x_mm > 0) == (b->x_mm > 0) && (a->x_mm > 0) == (c->x_mm > 0)) continue;
        met += meets(*a, *b, &ends[met]) ? 1 : 0;
        met += meets(*b, *c, &ends[met]) ? 1 : 0;
        met += meets(*c, *a, &ends[met]) ? 1 : 0;
        if (met == 2) SW_TRY(add_line(run, part, ends[0], ends[1]));
    }
    return SW_OK;
}

static void measure(stove_section *s, cut_part *part)
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
}

sw_status desk_section(sw_run *run, paper_desk *desk)
{
    const sw_burned *b = desk->d->burned;
    const solid_part *solids = desk->assembled.parts;
    size_t placement = 0;
    if (!heat_is_known(desk->d)) return SW_OK;
    stove_section *s = SW_SCRATCH(run, 1, stove_section);
    cut_part *parts = SW_SCRATCH(run, desk->assembled.part_count + 1, cut_part);
    if (s == NULL || parts == NULL) return SW_NO_MEMORY;
    *s = (stove_section){parts, 0, INFINITY, -INFINITY, INFINITY, -INFINITY};
    for (size_t i = 0; i < desk->assembled.part_count; i++) {
        placement = i > 0 && solids[i].tag == solids[i - 1].tag ? placement + 1 : 0;
        cut_part *part = &parts[s->count];
        *part = (cut_part){.part = heat_part_of(b->scene, solids[i].tag, placement), .c = NAN};
        if (part->part != SIZE_MAX) part->c = sw_c_from_k(b->hot_k[part->part]);
        SW_TRY(cut_mesh(run, part, &solids[i]));
        if (part->count == 0) continue;
        measure(s, part);
        s->count++;
    }
    if (s->count > 0) desk->section = s;
    return SW_OK;
}

/* ---- on the page --------------------------------------------------------------------------------------------- */

section_view section_in(const stove_section *s, sw_box box)
{
    double wide = s->high_y - s->low_y, high = s->high_z - s->low_z;
    section_view v = {.s = s, .scale = fmin((box.x1_mm - box.x0_mm) / wide, (box.y1_mm - box.y0_mm) / high)};
    v.origin = (sw_point){(box.x0_mm + box.x1_mm - wide * v.scale) / 2, (box.y0_mm + box.y1_mm + high * v.scale) / 2};
    return v;
}

sw_point section_on_page(const section_view *v, sw_point p)
{
    return (sw_point){v->origin.x_mm + (p.x_mm - v->s->low_y) * v->scale,
                      v->origin.y_mm - (p.y_mm - v->s->low_z) * v->scale};
}

double section_height(const paper_desk *desk, double margins_mm, double most_mm)
{
    const stove_section *s = desk->section;
    if (s == NULL) return 10.0;
    return fmin(most_mm, margins_mm * (s->high_z - s->low_z) / (s->high_y - s->low_y));
}

void section_stroke(sw_pen *pen, const section_view *v, const cut_part *part, sw_ink ink)
{
    pen->kind->begin(pen);
    for (size_t i = 0; i < part->count; i++) {
        pen->kind->move(pen, section_on_page(v, part->lines[i][0]));
        pen->kind->line(pen, section_on_page(v, part->lines[i][1]));
    }
    const pen_paint paint = {.stroke = true, .stroke_ink = ink};
    pen->kind->paint(pen, &paint);
}

/* ---- names ------------------------------------------------------------------------------------------------------ */

static int higher_first(const void *a, const void *b)
{
    const side_label *p = a, *q = b;
    if (p->y_mm != q->y_mm) return p->y_mm < q->y_mm ? -1 : 1;
    return p->from.x_mm < q->from.x_mm ? -1 : p->from.x_mm > q->from.x_mm;
}

/* From the top down, then up again from the bottom. */
void spread_labels(side_label *labels, size_t count, double top_mm, double bottom_mm, double apart_mm)
{
    qsort(labels, count, sizeof *labels, higher_first);
    for (size_t i = 0; i < count; i++)
        labels[i].y_mm = fmax(labels[i].y_mm, i == 0 ? top_mm : labels[i - 1].y_mm + apart_mm);
    for (size_t i = count; i-- > 0;)
        labels[i].y_mm = fmin(labels[i].y_mm, i + 1 == count ? bottom_mm : labels[i + 1].y_mm - apart_mm);
}

static void draw_labels(sw_pen *pen, side_label *labels, size_t count, double x_mm, bool left, sw_box box)
{
    const pen_paint dot = {.fill = true, .fill_ink = look_grey(0)};
    double apart_mm = fmin(3.6, (box.y1_mm - box.y0_mm - 3) / fmax(1, (double)count));
    double way = left ? -1.0 : 1.0, text_mm = fmin(2, 0.6 * apart_mm);
    spread_labels(labels, count, box.y0_mm + 2, box.y1_mm - 1, apart_mm);
    for (size_t i = 0; i < count; i++) {
        sw_point to = {x_mm, labels[i].y_mm - text_mm / 2};
        const sw_point leader[3] = {{to.x_mm - way * 2, to.y_mm}, labels[i].from, to};
        sw_pen_line(pen, look_grey(0.1), leader[1], leader[0]);
        sw_pen_line(pen, look_grey(0.1), leader[0], leader[2]);
        pen_circle(pen, &dot, labels[i].from, 0.35);
        pen_write(pen, (sw_point){x_mm + way, labels[i].y_mm}, look_type(text_mm, left ? SW_RIGHT : SW_LEFT),
                  labels[i].text);
    }
}

sw_point section_place(const cut_part *part)
{
    sw_point best = part->middle;
    double least = INFINITY;
    for (size_t k = 0; k < part->count; k++) {
        sw_point p = {(part->lines[k][0].x_mm + part->lines[k][1].x_mm) / 2,
                      (part->lines[k][0].y_mm + part->lines[k][1].y_mm) / 2};
        double off = hypot(p.x_mm - part->middle.x_mm, p.y_mm - part->middle.y_mm);
        if (off < least) least = off, best = p;
    }
    return best;
}

/* The name shortened, never the temperature. */
static sw_status name_of(sw_run *run, sw_pen *pen, const cut_part *part, const sw_scene *scene, const char **text)
{
    const char *c = sw_text_format(run, run->scratch, "%.0f " CELSIUS, part->c);
    if (c == NULL) return SW_NO_MEMORY;
    double most_mm = SECTION_LABELS_MM - 10 - pen_width(pen, 2, false, c);
    const char *name = words_within(run, pen, 2, false, most_mm, scene->parts[part->part].name);
    if (name == NULL) return SW_NO_MEMORY;
    *text = sw_text_format(run, run->scratch, "%s %s", name, c);
    return *text == NULL ? SW_NO_MEMORY : SW_OK;
}

/* Every cut part with a temperature, those in front to the left. */
static sw_status name_parts(sw_run *run, sw_pen *pen, const section_view *v, const sw_scene *scene, sw_box box)
{
    const stove_section *s = v->s;
    side_label *sides[2] = {SW_SCRATCH(run, s->count, side_label), SW_SCRATCH(run, s->count, side_label)};
    size_t counts[2] = {0, 0};
    if (sides[0] == NULL || sides[1] == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < s->count; i++) {
        const cut_part *part = &s->parts[i];
        if (isnan(part->c)) continue;
        size_t side = part->middle.x_mm > (s->low_y + s->high_y) / 2 ? 1 : 0;
        sw_point at = section_on_page(v, section_place(part));
        const char *text = NULL;
        SW_TRY(name_of(run, pen, part, scene, &text));
        sides[side][counts[side]++] = (side_label){at, text, at.y_mm + 1, i};
    }
    for (size_t k = 0; k < 2; k++) {
        double edge_mm = section_on_page(v, (sw_point){k == 0 ? s->low_y : s->high_y, 0}).x_mm + (k == 0 ? -8 : 8);
        draw_labels(pen, sides[k], counts[k], edge_mm, k == 0, box);
    }
    return SW_OK;
}

sw_status draw_section(sw_run *run, const paper_desk *desk, sw_pen *pen, sw_box box)
{
    if (desk->section == NULL) return SW_OK;
    const sw_burned *b = desk->d->burned;
    sw_box field = {box.x0_mm + SECTION_LABELS_MM, box.y0_mm + 1, box.x1_mm - SECTION_LABELS_MM, box.y1_mm - 11};
    section_view v = section_in(desk->section, field);
    heat_span span = heat_span_of(b);
    for (size_t i = 0; i < v.s->count; i++) {
        const cut_part *part = &v.s->parts[i];
        section_stroke(pen, &v, part, isnan(part->c) ? look_light(0.25) : look_heat(heat_share(span, part->c), 0.55));
    }
    SW_TRY(name_parts(run, pen, &v, b->scene, field));
    return draw_heat_scale(run, pen, (sw_box){box.x0_mm + 45, box.y1_mm - 6.5, box.x1_mm - 45, box.y1_mm - 3.5}, span);
}
