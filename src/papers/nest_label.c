/* nest_label.c: where the number of a shape stands best on a map: the roomiest of its centroid and a small grid. */
#include "papers/papers_parts.h"

#include <math.h>

enum { STEPS = 13 };
#define CHORD_RAD 0.3 /* arcs as chords of about this sweep, off by 1 % of the radius: a label is not placed finer */

typedef struct edges { /* of outline and holes, as straight lines */
    sw_point (*items)[2];
    size_t count, room;
} edges;

static sw_status add_edge(sw_run *run, edges *e, sw_point a, sw_point b)
{
    sw_point(*items)[2] = sw_grow(run, run->scratch, e->items, e->count, &e->room, sizeof *items);
    if (items == NULL) return SW_NO_MEMORY;
    e->items = items;
    items[e->count][0] = a;
    items[e->count++][1] = b;
    return SW_OK;
}

static sw_status add_contour(sw_run *run, edges *e, sw_contour c)
{
    for (size_t i = 0; i < c.n; i++) {
        sw_vertex from = c.v[i], next = c.v[(i + 1) % c.n];
        sw_point a = {from.x_mm, from.y_mm}, to = {next.x_mm, next.y_mm};
        int steps = fabs(from.bulge) <= SW_FLAT_BULGE ? 1 : 1 + (int)(4.0 * atan(fabs(from.bulge)) / CHORD_RAD);
        for (int k = 1; k <= steps; k++) {
            sw_point b = k == steps ? to : sw_segment_point(from, to, (double)k / steps);
            SW_TRY(add_edge(run, e, a, b));
            a = b;
        }
    }
    return SW_OK;
}

/* Square of the distance from p to the line. */
static double away2(const sw_point line[2], sw_point p)
{
    double dx = line[1].x_mm - line[0].x_mm, dy = line[1].y_mm - line[0].y_mm;
    double px = p.x_mm - line[0].x_mm, py = p.y_mm - line[0].y_mm, length2 = dx * dx + dy * dy;
    double t = length2 > 0.0 ? (px * dx + py * dy) / length2 : 0.0;
    t = t < 0.0 ? 0.0 : t > 1.0 ? 1.0 : t;
    px -= t * dx;
    py -= t * dy;
    return px * px + py * py;
}

/* Distance to the nearest edge when p is inside and that is more than `least_mm`; else -1. */
static double room_at(const edges *e, sw_point p, double least_mm)
{
    double nearest2 = INFINITY, least2 = least_mm > 0.0 ? least_mm * least_mm : 0.0;
    bool inside = false; /* odd number of edges to the right */
    for (size_t i = 0; i < e->count; i++) {
        const sw_point *a = &e->items[i][0], *b = &e->items[i][1];
        double away = away2((const sw_point *)e->items[i], p);
        if (away <= least2) return -1.0;
        if (away < nearest2) nearest2 = away;
        if ((a->y_mm > p.y_mm) == (b->y_mm > p.y_mm)) continue;
        double x_mm = a->x_mm + (b->x_mm - a->x_mm) * (p.y_mm - a->y_mm) / (b->y_mm - a->y_mm);
        if (x_mm > p.x_mm) inside = !inside;
    }
    return inside ? sqrt(nearest2) : -1.0;
}

/* Least distance along u from 0 to what of the line a-b lies in the band of half width half_mm about the u axis. */
static double along_of(sw_point a, sw_point b, double half_mm)
{
    double rise = b.y_mm - a.y_mm, t0 = 0.0, t1 = 1.0;
    if (rise == 0.0 && fabs(a.y_mm) > half_mm) return INFINITY;
    if (rise != 0.0) {
        double enter = (-half_mm - a.y_mm) / rise, leave = (half_mm - a.y_mm) / rise;
        t0 = fmax(t0, fmin(enter, leave));
        t1 = fmin(t1, fmax(enter, leave));
    }
    if (t0 > t1) return INFINITY;
    double u0 = a.x_mm + t0 * (b.x_mm - a.x_mm), u1 = a.x_mm + t1 * (b.x_mm - a.x_mm);
    return u0 * u1 <= 0.0 ? 0.0 : fmin(fabs(u0), fabs(u1));
}

static double along(const edges *e, const nest_label *label)
{
    double least_mm = INFINITY;
    for (size_t i = 0; i < e->count; i++) {
        sw_point ends[2];
        for (int k = 0; k < 2; k++) {
            double x = e->items[i][k].x_mm - label->at.x_mm, y = e->items[i][k].y_mm - label->at.y_mm;
            ends[k] = label->upright ? (sw_point){y, x} : (sw_point){x, y};
        }
        least_mm = fmin(least_mm, along_of(ends[0], ends[1], BAND_SHARE * label->room_mm));
    }
    return isfinite(least_mm) ? least_mm : 0.0;
}

static sw_status label_of(sw_run *run, const sw_region *r, nest_label *label)
{
    edges e = {0};
    sw_box box = sw_contour_box(r->outline);
    double wide_mm = box.x1_mm - box.x0_mm, high_mm = box.y1_mm - box.y0_mm, enough_mm = 0.3 * fmin(wide_mm, high_mm);
    SW_TRY(add_contour(run, &e, r->outline));
    for (size_t i = 0; i < r->hole_count; i++) SW_TRY(add_contour(run, &e, r->holes[i]));
    *label = (nest_label){.at = sw_region_centroid(r), .upright = high_mm > 1.5 * wide_mm};
    label->room_mm = room_at(&e, label->at, 0.0);
    for (int i = 0; i < STEPS * STEPS && label->room_mm < enough_mm; i++) {
        int column = i % STEPS, row = i / STEPS;
        sw_point p = {box.x0_mm + wide_mm * (column + 0.5) / STEPS, box.y0_mm + high_mm * (row + 0.5) / STEPS};
        double room_mm = room_at(&e, p, label->room_mm);
        if (room_mm > label->room_mm) label->room_mm = room_mm, label->at = p;
    }
    if (label->room_mm > 0.0) label->along_mm = along(&e, label);
    return SW_OK;
}

sw_status nest_labels_make(sw_run *run, const sw_nested *nest, const nest_label **labels)
{
    nest_label *all = SW_SCRATCH(run, nest->input->shape_count + 1, nest_label);
    if (all == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < nest->input->shape_count; i++)
        SW_TRY(label_of(run, &nest->input->shapes[i].region, &all[i]));
    *labels = all;
    return SW_OK;
}
