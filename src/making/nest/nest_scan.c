/* nest_scan.c: finds the leftmost, then lowest free position of one turned piece, exactly in y.
 *
 * A vertical line walks right over the positions at which the piece's box stays on the sheet. On a line, each
 * forbidden polygon is one interval of y; sorted, the first gap is found in one pass. Lines stand where a
 * polygon ends (there space opens, so that edges may touch exactly) and where two part, or a step on if that is
 * nearer; a position found is slid left and down until it touches. Sheets only fill up, so a refused line stays refused and the
 * walk never goes back. Between two lines nothing can open that is not foreseen from the polygons that close the
 * first one, so most of the sheet is skipped. Derived; the free region of a no-fit polygon and its lowest left vertex: Sato, Martins &
 * Tsuzuki 2012 as told in handbook workshop.md 6.2.
 * Cost of a line: the polygons that cross it. */
#include "making/nest/nest_parts.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* ---- intervals ------------------------------------------------------------------------------ */

static double on_edge(sw_point a, sw_point b, double x)
{
    double dx = b.x_mm - a.x_mm;
    return dx > 0 ? a.y_mm + (b.y_mm - a.y_mm) * ((x - a.x_mm) / dx) : a.y_mm;
}

/* Forbidden y of the polygon at x, moving the edges only to the right. Empty: from = INFINITY. */
static void interval(nest_block *b, double x_mm)
{
    if (x_mm <= b->x0_mm + NEST_TOUCH_MM || x_mm >= b->x1_mm - NEST_TOUCH_MM) {
        b->from_mm = b->to_mm = INFINITY;
        return;
    }
    const nest_poly *p = b->poly;
    double x = x_mm - b->at.x_mm;
    while (b->low + 1 < p->right && p->p[b->low + 1].x_mm < x) b->low++;
    while (b->high - 1 > p->right && p->p[b->high - 1].x_mm < x) b->high--;
    b->from_mm = b->at.y_mm + on_edge(p->p[b->low], p->p[b->low + 1], x);
    b->to_mm = b->at.y_mm + on_edge(p->p[b->high % p->n], p->p[b->high - 1], x);
}

static nest_block block_of(const nest_poly *poly, sw_point at)
{
    return (nest_block){.poly = poly,
                        .at = at,
                        .x0_mm = poly->box.x0_mm + at.x_mm,
                        .x1_mm = poly->box.x1_mm + at.x_mm,
                        .high = poly->n};
}

static void sort_live(nest_scan *scan)
{
    nest_block *b = scan->live;
    for (size_t i = 1; i < scan->live_count; i++) {
        if (b[i - 1].from_mm <= b[i].from_mm) continue;
        nest_block moved = b[i];
        size_t j = i;
        for (; j > 0 && b[j - 1].from_mm > moved.from_mm; j--) b[j] = b[j - 1];
        b[j] = moved;
    }
}

/* ---- opening --------------------------------------------------------------------------------- */

static sw_status put_wait(nest_core *core, nest_scan *scan, nest_block block)
{
    sw_run *run = core->run;
    nest_block *wait = sw_grow(run, run->scratch, scan->wait, scan->wait_count, &scan->wait_room, sizeof *wait);
    if (wait == NULL) return SW_NO_MEMORY;
    scan->wait = wait;
    wait[scan->wait_count++] = block;
    return SW_OK;
}

static sw_status put_live(nest_core *core, nest_scan *scan, nest_block block)
{
    sw_run *run = core->run;
    nest_block *live = sw_grow(run, run->scratch, scan->live, scan->live_count, &scan->live_room, sizeof *live);
    if (live == NULL) return SW_NO_MEMORY;
    scan->live = live;
    live[scan->live_count++] = block;
    return SW_OK;
}

static bool reaches(const nest_scan *scan, const nest_block *b)
{
    return b->x1_mm > scan->fit.x0_mm + NEST_TOUCH_MM && b->x0_mm < scan->fit.x1_mm - NEST_TOUCH_MM &&
           b->at.y_mm + b->poly->box.y1_mm > scan->fit.y0_mm && b->at.y_mm + b->poly->box.y0_mm < scan->fit.y1_mm;
}

static int by_start(const void *a, const void *b)
{
    const nest_block *p = a, *q = b;
    return p->x0_mm < q->x0_mm ? -1 : p->x0_mm > q->x0_mm;
}

static sw_status go_to(nest_core *core, nest_scan *scan, double x_mm)
{
    size_t kept = 0;
    for (size_t i = 0; i < scan->live_count; i++)
        if (scan->live[i].x1_mm > scan->x_mm) scan->live[kept++] = scan->live[i];
    scan->live_count = kept;
    scan->last_x_mm = scan->x_mm;
    scan->x_mm = x_mm;
    while (scan->next < scan->wait_count && scan->wait[scan->next].x0_mm < x_mm)
        SW_TRY(put_live(core, scan, scan->wait[scan->next++]));
    for (size_t i = 0; i < scan->live_count; i++) interval(&scan->live[i], x_mm);
    sort_live(scan);
    return SW_OK;
}

sw_status nest_scan_open(nest_core *core, nest_scan *scan, const nest_spot *spots, size_t count)
{
    scan->wait_count = scan->next = scan->live_count = 0;
    for (size_t i = 0; i < count; i++) {
        const nest_pair *pair = NULL;
        SW_TRY(nest_pair_find(core, spots[i].turned, scan->turned, &pair));
        for (size_t k = 0; k < pair->count; k++) {
            nest_block block = block_of(&pair->parts[k], spots[i].at);
            if (reaches(scan, &block)) SW_TRY(put_wait(core, scan, block));
        }
    }
    if (scan->wait_count > 1) qsort(scan->wait, scan->wait_count, sizeof *scan->wait, by_start);
    scan->done = scan->fit.x1_mm < scan->fit.x0_mm || scan->fit.y1_mm < scan->fit.y0_mm;
    scan->x_mm = scan->fit.x0_mm;
    return scan->done ? SW_OK : go_to(core, scan, scan->fit.x0_mm);
}

/* Keeps wait[next ..) sorted. */
static sw_status insert_wait(nest_core *core, nest_scan *scan, nest_block block)
{
    SW_TRY(put_wait(core, scan, block));
    size_t i = scan->wait_count - 1;
    for (; i > scan->next && scan->wait[i - 1].x0_mm > block.x0_mm; i--) scan->wait[i] = scan->wait[i - 1];
    scan->wait[i] = block;
    return SW_OK;
}

sw_status nest_scan_add(nest_core *core, nest_scan *scan, nest_spot spot)
{
    if (scan->done) return SW_OK;
    const nest_pair *pair = NULL;
    SW_TRY(nest_pair_find(core, spot.turned, scan->turned, &pair));
    for (size_t k = 0; k < pair->count; k++) {
        nest_block block = block_of(&pair->parts[k], spot.at);
        if (!reaches(scan, &block) || block.x1_mm <= scan->last_x_mm) continue;
        if (block.x0_mm >= scan->x_mm) {
            SW_TRY(insert_wait(core, scan, block));
            continue;
        }
        interval(&block, scan->x_mm);
        SW_TRY(put_live(core, scan, block));
    }
    sort_live(scan);
    return SW_OK;
}

/* ---- finding ---------------------------------------------------------------------------------- */

static double slope(sw_point a, sw_point b)
{
    double dx = b.x_mm - a.x_mm;
    return dx > 0 ? (b.y_mm - a.y_mm) / dx : 0;
}

/* What may open a gap on the lines to come: the ends of the polygons that close the current line (space opens
 * there at once) and, where two of them overlap less and less, the x at which they part. Nothing opens before. */
typedef struct opening {
    double end_mm, part_mm;
} opening;

static void note_parting(const nest_scan *scan, opening *o, double overlap_mm, double closing)
{
    if (closing < 0) o->part_mm = fmin(o->part_mm, scan->x_mm - overlap_mm / closing);
}

/* Edges of b at the current line hold until they end. */
static void note_edges(opening *o, const nest_block *b)
{
    double low_end = b->poly->p[b->low + 1].x_mm + b->at.x_mm, high_end = b->poly->p[b->high - 1].x_mm + b->at.x_mm;
    o->part_mm = fmin(o->part_mm, fmin(low_end, high_end));
    o->end_mm = fmin(o->end_mm, b->x1_mm);
}

static double low_slope(const nest_block *b)
{
    return slope(b->poly->p[b->low], b->poly->p[b->low + 1]);
}

static double high_slope(const nest_block *b)
{
    return slope(b->poly->p[b->high % b->poly->n], b->poly->p[b->high - 1]);
}

/* Lowest free y on the current line; false when the line is full, and then *o says what opens next. */
static bool free_on_line(nest_core *core, nest_scan *scan, opening *o)
{
    double y = scan->fit.y0_mm, rise = 0;
    *o = (opening){INFINITY, INFINITY};
    core->tests++;
    for (size_t i = 0; i < scan->live_count; i++) {
        const nest_block *b = &scan->live[i];
        if (b->from_mm >= y - NEST_TOUCH_MM) break;
        if (b->to_mm <= y + NEST_TOUCH_MM) continue;
        note_parting(scan, o, y - b->from_mm, rise - low_slope(b));
        note_edges(o, b);
        y = b->to_mm;
        rise = high_slope(b);
    }
    note_parting(scan, o, y - scan->fit.y1_mm, rise);
    scan->y_mm = y;
    return y <= scan->fit.y1_mm + NEST_TOUCH_MM;
}

/* Ends are taken exactly, so that straight edges may touch; partings no nearer than a step, the slide does the rest. */
static double next_line(const nest_scan *scan, opening o)
{
    return fmin(o.end_mm, fmax(o.part_mm, scan->x_mm + scan->step_mm));
}

/* Where a polygon's right side crosses the height y; -INFINITY when it does not. Height relative to the polygon. */
static double right_side(const nest_poly *p, double y)
{
    double most = -INFINITY;
    if (y <= p->box.y0_mm + NEST_TOUCH_MM || y >= p->box.y1_mm - NEST_TOUCH_MM) return most;
    for (uint32_t i = 0; i < p->n; i++) {
        sw_point a = p->p[i], b = p->p[(i + 1) % p->n];
        if (a.y_mm > y || b.y_mm < y || b.y_mm <= a.y_mm) continue; /* the right side rises */
        double x = a.x_mm + (b.x_mm - a.x_mm) * ((y - a.y_mm) / (b.y_mm - a.y_mm));
        if (x > most) most = x;
    }
    return most;
}

static double slide_left(const nest_scan *scan, sw_point at)
{
    double x = fmax(scan->last_x_mm, scan->fit.x0_mm);
    for (size_t i = 0; i < scan->live_count; i++) {
        const nest_block *b = &scan->live[i];
        if (b->x0_mm >= at.x_mm || b->x1_mm <= x) continue;
        double side = right_side(b->poly, at.y_mm - b->at.y_mm) + b->at.x_mm;
        if (side > x) x = side;
    }
    return fmin(x, at.x_mm);
}

static double slide_down(const nest_scan *scan, sw_point at)
{
    double y = scan->fit.y0_mm;
    for (size_t i = 0; i < scan->live_count; i++) {
        nest_block b = scan->live[i];
        b.low = 0;
        b.high = b.poly->n;
        interval(&b, at.x_mm);
        if (b.from_mm < at.y_mm && b.to_mm > y) y = b.to_mm;
    }
    return fmin(y, at.y_mm);
}

static sw_point settled(const nest_scan *scan, sw_point at)
{
    for (int i = 0; i < 4; i++) {
        double x = slide_left(scan, at);
        if (x > at.x_mm - NEST_TOUCH_MM) break;
        at.x_mm = x;
        at.y_mm = slide_down(scan, at);
    }
    return at;
}

sw_status nest_scan_find(nest_core *core, nest_scan *scan, double most_x_mm, sw_point *at, bool *found)
{
    *found = false;
    while (!scan->done && scan->x_mm <= most_x_mm) {
        opening o;
        if (free_on_line(core, scan, &o)) {
            *at = settled(scan, (sw_point){scan->x_mm, fmin(scan->y_mm, scan->fit.y1_mm)});
            *found = true;
            return SW_OK;
        }
        double next = next_line(scan, o);
        if (scan->x_mm >= scan->fit.x1_mm) scan->done = true;
        if (!scan->done) SW_TRY(go_to(core, scan, fmin(next, scan->fit.x1_mm)));
    }
    return SW_OK;
}
