/* flat_dimensions.c: overall sizes with arrows above and to the right; along the bottom and the left the distances
 * from the lower left corner (bend lines in rust, long edges in grey), spread so that none lies on another. */
#include "papers/flat_parts.h"

#include <math.h>
#include <stdlib.h>

enum { MOST = 64 };
#define GAP_MM    3.4 /* least distance between neighbouring figures, page mm */
#define FIGURE_MM 2.1

typedef struct place {
    double mm, shown_mm;
    int bend;
} place; /* bend: index, -1 = edge; shown: page offset from 0 */
typedef struct places {
    place items[MOST];
    size_t count;
} places;

static void note(places *p, double mm, int bend)
{
    for (size_t i = 0; i < p->count; i++) {
        if (fabs(p->items[i].mm - mm) > 0.04) continue;
        if (p->items[i].bend < 0) p->items[i].bend = bend;
        return;
    }
    if (p->count < MOST) p->items[p->count++] = (place){.mm = mm, .bend = bend};
}

static bool straight_up(sw_point a, sw_point b)
{
    return fabs(a.x_mm - b.x_mm) < 1e-3 && fabs(a.y_mm - b.y_mm) > 1e-3;
}

static sw_point turned(sw_point p, bool vertical)
{
    return vertical ? p : (sw_point){p.y_mm, p.x_mm};
}

/* vertical: lines of constant x, measured along x; else the same along y. */
static void collect(const flat_sheet *f, bool vertical, bool edges, places *p)
{
    const sw_flat *flat = &f->piece->flat;
    sw_point size = turned((sw_point){flat->box.x1_mm, flat->box.y1_mm}, vertical);
    p->count = 0;
    note(p, 0.0, -1);
    note(p, size.x_mm, -1);
    for (size_t i = 0; i < flat->bend_count; i++) {
        sw_point a = turned(flat->bends[i].from, vertical), b = turned(flat->bends[i].to, vertical);
        if (straight_up(a, b)) note(p, a.x_mm, (int)i);
    }
    sw_contour c = flat->region.outline;
    for (size_t i = 0; i < c.n && edges; i++) {
        sw_vertex v = c.v[i], next = c.v[(i + 1) % c.n];
        sw_point a = turned((sw_point){v.x_mm, v.y_mm}, vertical),
                 b = turned((sw_point){next.x_mm, next.y_mm}, vertical);
        bool lengthy = fabs(b.y_mm - a.y_mm) >= 0.06 * size.y_mm;
        if (fabs(v.bulge) <= SW_FLAT_BULGE && straight_up(a, b) && lengthy) note(p, a.x_mm, -1);
    }
}

static int rising(const void *left, const void *right)
{
    const place *a = left, *b = right;
    return a->mm < b->mm ? -1 : a->mm > b->mm;
}

/* Least-squares places at least GAP_MM apart: pooling of neighbours that would violate it. */
static void spread(places *p, double scale)
{
    double means[MOST];
    size_t sizes[MOST], pools = 0;
    qsort(p->items, p->count, sizeof *p->items, rising);
    for (size_t i = 0; i < p->count; i++) {
        means[pools] = p->items[i].mm * scale - GAP_MM * (double)i;
        sizes[pools++] = 1;
        while (pools > 1 && means[pools - 2] > means[pools - 1]) {
            double n = (double)sizes[pools - 2], m = (double)sizes[pools - 1];
            means[pools - 2] = (n * means[pools - 2] + m * means[pools - 1]) / (n + m);
            sizes[pools - 2] += sizes[pools - 1];
            pools--;
        }
    }
    size_t i = 0;
    for (size_t pool = 0; pool < pools; pool++)
        for (size_t k = 0; k < sizes[pool]; k++, i++) p->items[i].shown_mm = means[pool] + GAP_MM * (double)i;
}

static sw_status figure(sw_run *run, flat_sheet *f, const place *p, bool vertical)
{
    sw_ink ink = p->bend >= 0 ? look_rust(0.13) : look_grey(0.13);
    const char *amount = words_mm(run, p->mm);
    if (amount == NULL) return SW_NO_MEMORY;
    const char *text = p->bend < 0 ? amount : sw_text_format(run, run->scratch, "B%d  %s", p->bend + 1, amount);
    if (text == NULL) return SW_NO_MEMORY;
    pen_type type = {.height_mm = FIGURE_MM, .align = SW_RIGHT, .ink = ink};
    double true_mm = p->mm * f->scale;
    if (vertical) {
        double x0 = f->at.x_mm + true_mm, x1 = f->at.x_mm + p->shown_mm, y = f->at.y_mm;
        const sw_point leader[] = {{x0, y + 1.0}, {x0, y + 3.5}, {x1, y + 6.5}, {x1, y + 7.5}};
        sw_pen_polygon(f->pen, ink, leader, 4, false);
        type.turn_rad = SW_PI / 2.0;
        pen_write(f->pen, (sw_point){x1 + FIGURE_MM / 2.0, y + 8.2}, type, text);
        return SW_OK;
    }
    double y0 = f->at.y_mm - true_mm, y1 = f->at.y_mm - p->shown_mm, x = f->at.x_mm;
    const sw_point leader[] = {{x - 1.0, y0}, {x - 3.5, y0}, {x - 6.5, y1}, {x - 7.5, y1}};
    sw_pen_polygon(f->pen, ink, leader, 4, false);
    pen_write(f->pen, (sw_point){x - 8.2, y1 + FIGURE_MM / 2.0}, type, text);
    return SW_OK;
}

static sw_status figures(sw_run *run, flat_sheet *f, bool vertical)
{
    places p;
    double room_mm = (vertical ? f->piece->flat.box.x1_mm : f->piece->flat.box.y1_mm) * f->scale + 16.0;
    collect(f, vertical, true, &p);
    if ((double)p.count * GAP_MM > room_mm) collect(f, vertical, false, &p);
    spread(&p, f->scale);
    for (size_t i = 0; i < p.count; i++) SW_TRY(figure(run, f, &p.items[i], vertical));
    return SW_OK;
}

static void arrow(sw_pen *pen, sw_point tip, double dx, double dy)
{
    const sw_point head[3] = {tip,
                              {tip.x_mm + 2.0 * dx - 0.45 * dy, tip.y_mm + 2.0 * dy + 0.45 * dx},
                              {tip.x_mm + 2.0 * dx + 0.45 * dy, tip.y_mm + 2.0 * dy - 0.45 * dx}};
    sw_pen_polygon(pen, look_grey(0.0), head, 3, true);
}

static void overall(flat_sheet *f, sw_point a, sw_point b, bool across, const char *text)
{
    double length_mm = across ? b.x_mm - a.x_mm : a.y_mm - b.y_mm, turn = length_mm < 9.0 ? -1.0 : 1.0;
    pen_type type = look_type(2.4, SW_CENTRE);
    sw_pen_line(f->pen, look_grey(0.13), a, b);
    if (across) {
        arrow(f->pen, a, turn, 0.0);
        arrow(f->pen, b, -turn, 0.0);
        pen_write(f->pen, (sw_point){(a.x_mm + b.x_mm) / 2.0, a.y_mm - 1.0}, type, text);
        return;
    }
    arrow(f->pen, a, 0.0, -turn);
    arrow(f->pen, b, 0.0, turn);
    type.turn_rad = SW_PI / 2.0;
    pen_write(f->pen, (sw_point){a.x_mm + 3.6, (a.y_mm + b.y_mm) / 2.0}, type, text);
}

sw_status flat_dimensions(sw_run *run, flat_sheet *f)
{
    const sw_box *box = &f->piece->flat.box;
    const char *wide = words_mm(run, box->x1_mm), *high = words_mm(run, box->y1_mm);
    if (wide == NULL || high == NULL) return SW_NO_MEMORY;
    sw_point low = flat_page(f, (sw_point){0.0, 0.0}), top = flat_page(f, (sw_point){box->x1_mm, box->y1_mm});
    double above_mm = top.y_mm - 5.5, beside_mm = top.x_mm + 6.0;
    const sw_point marks[4][2] = {{{low.x_mm, top.y_mm - 1.0}, {low.x_mm, above_mm - 1.0}},
                                  {{top.x_mm, top.y_mm - 1.0}, {top.x_mm, above_mm - 1.0}},
                                  {{top.x_mm + 1.0, low.y_mm}, {beside_mm + 1.0, low.y_mm}},
                                  {{top.x_mm + 1.0, top.y_mm}, {beside_mm + 1.0, top.y_mm}}};
    pen_lines(f->pen, look_grey(0.13), marks, 4);
    overall(f, (sw_point){low.x_mm, above_mm}, (sw_point){top.x_mm, above_mm}, true, wide);
    overall(f, (sw_point){beside_mm, low.y_mm}, (sw_point){beside_mm, top.y_mm}, false, high);
    SW_TRY(figures(run, f, true));
    return figures(run, f, false);
}
