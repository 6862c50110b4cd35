/* fittings_pack.c: rectangles onto equal sheets by cuts from edge to edge, few sheets first, then a large rest.
 *
 * Parts are laid one after another into the lower left corner of a free rectangle, which is then cut in two from edge to
 * edge, along the part's top or its right side. All of five orders, three choices of rectangle and three of cuts are tried; for
 * up to twelve parts a search over rectangles, turns and cuts follows while the sheets are more than the bound, with a limit of
 * steps. The bound counts area and boards of which no two fit one sheet; where it is met nothing better exists.
 * Source: guillotine packing as surveyed by Jylaenki 2010 (from memory). */
#include "making/fittings/fittings_parts.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { ORDERS = 5, CHOICES = 3, CUTS = 3, FEW = 12, MOST_STEPS = 60000 };

typedef struct free_box {
    double x_mm, y_mm, w_mm, h_mm;
    size_t sheet;
} free_box;

typedef struct packing {
    const pack_part *parts;
    size_t count, sheets, most; /* most: no more sheets than this */
    pack_stock stock;
    free_box *free; /* [2 count + sheets] */
    size_t free_count;
    pack_place *places;
    size_t steps;
} packing;

static const double same_mm = 1e-9;

static void open_sheet(packing *p)
{
    p->free[p->free_count++] = (free_box){0, 0, p->stock.length_mm, p->stock.width_mm, p->sheets++};
}

/* The part lies in the corner; what is right of it and above it stays free. */
static void split(packing *p, size_t box, double w_mm, double h_mm, bool upright)
{
    free_box b = p->free[box];
    double right_mm = b.w_mm - w_mm - p->stock.saw_mm, above_mm = b.h_mm - h_mm - p->stock.saw_mm;
    free_box right = {b.x_mm + w_mm + p->stock.saw_mm, b.y_mm, right_mm, upright ? b.h_mm : h_mm, b.sheet};
    free_box above = {b.x_mm, b.y_mm + h_mm + p->stock.saw_mm, upright ? w_mm : b.w_mm, above_mm, b.sheet};
    p->free[box] = p->free[--p->free_count];
    if (right.w_mm > 0 && right.h_mm > 0) p->free[p->free_count++] = right;
    if (above.w_mm > 0 && above.h_mm > 0) p->free[p->free_count++] = above;
}

static bool fits(const free_box *b, double w_mm, double h_mm)
{
    return w_mm <= b->w_mm + same_mm && h_mm <= b->h_mm + same_mm;
}

/* ---- greedy ---- */

static double rating(const free_box *b, double w_mm, double h_mm, int choice)
{
    double dx_mm = b->w_mm - w_mm, dy_mm = b->h_mm - h_mm;
    double by_sheet = 1e9 * (double)b->sheet; /* earlier sheets first */
    if (choice == 0) return by_sheet + b->w_mm * b->h_mm - w_mm * h_mm;
    return by_sheet + (choice == 1 ? fmin(dx_mm, dy_mm) : fmax(dx_mm, dy_mm));
}

static bool cut_upright(const free_box *b, double w_mm, double h_mm, int rule)
{
    double dx_mm = b->w_mm - w_mm, dy_mm = b->h_mm - h_mm;
    if (rule == 0) return dx_mm > dy_mm;
    if (rule == 1) return dx_mm <= dy_mm;
    return dx_mm * b->h_mm > dy_mm * b->w_mm;
}

static void put(packing *p, size_t part, size_t box, bool turned, bool upright)
{
    double w_mm = turned ? p->parts[part].h_mm : p->parts[part].w_mm;
    double h_mm = turned ? p->parts[part].w_mm : p->parts[part].h_mm;
    p->places[part] = (pack_place){part, p->free[box].sheet, p->free[box].x_mm, p->free[box].y_mm, turned};
    split(p, box, w_mm, h_mm, upright);
}

static void lay(packing *p, size_t part, int choice, int rule)
{
    size_t best = SIZE_MAX;
    bool best_turned = false;
    double least = INFINITY;
    for (;;) {
        for (size_t i = 0; i < p->free_count; i++)
            for (int turned = 0; turned < 2; turned++) {
                double w_mm = turned ? p->parts[part].h_mm : p->parts[part].w_mm;
                double h_mm = turned ? p->parts[part].w_mm : p->parts[part].h_mm;
                double r = fits(&p->free[i], w_mm, h_mm) ? rating(&p->free[i], w_mm, h_mm, choice) : (double)INFINITY;
                if (r >= least) continue;
                least = r;
                best = i;
                best_turned = turned;
            }
        if (best != SIZE_MAX) break;
        open_sheet(p);
    }
    double w_mm = best_turned ? p->parts[part].h_mm : p->parts[part].w_mm;
    double h_mm = best_turned ? p->parts[part].w_mm : p->parts[part].h_mm;
    put(p, part, best, best_turned, cut_upright(&p->free[best], w_mm, h_mm, rule));
}

static double largest_rest(const packing *p)
{
    double most = 0;
    for (size_t i = 0; i < p->free_count; i++) most = fmax(most, p->free[i].w_mm * p->free[i].h_mm);
    return most;
}

static double key(const pack_part *p, int order)
{
    switch (order) {
    case 0:
        return p->w_mm * p->h_mm;
    case 1:
        return fmax(p->w_mm, p->h_mm);
    case 2:
        return fmin(p->w_mm, p->h_mm);
    case 3:
        return p->w_mm + p->h_mm;
    default:
        return fmax(p->w_mm, p->h_mm) / fmin(p->w_mm, p->h_mm);
    }
}

/* Falling by the key, stable: an insertion sort, boards are few. */
static void sort(const pack_part *parts, size_t count, int by, size_t *order)
{
    for (size_t i = 0; i < count; i++) {
        size_t k = i;
        while (k > 0 && key(&parts[order[k - 1]], by) < key(&parts[i], by)) {
            order[k] = order[k - 1];
            k--;
        }
        order[k] = i;
    }
}

typedef struct pack_best {
    pack_place *places;
    size_t sheets;
    double rest;
} pack_best;

static void keep_better(const packing *p, pack_best *best)
{
    double rest = largest_rest(p);
    if (best->sheets < p->sheets || (best->sheets == p->sheets && best->rest >= rest)) return;
    best->sheets = p->sheets;
    best->rest = rest;
    memcpy(best->places, p->places, p->count * sizeof *p->places);
}

static void greedy(packing *p, size_t *order, pack_best *best)
{
    for (int by = 0; by < ORDERS; by++) {
        sort(p->parts, p->count, by, order);
        for (int way = 0; way < CHOICES * CUTS; way++) {
            p->sheets = p->free_count = 0;
            for (size_t i = 0; i < p->count; i++) lay(p, order[i], way / CUTS, way % CUTS);
            keep_better(p, best);
        }
    }
}

/* ---- search for one sheet less ---- */

static bool search(packing *p, const size_t *order, size_t next)
{
    free_box kept[2 * FEW + FEW];
    if (next == p->count) return true;
    size_t count = p->free_count;
    memcpy(kept, p->free, count * sizeof *kept);
    for (size_t i = 0; i < count; i++)
        for (int way = 0; way < 4; way++) {
            const pack_part *part = &p->parts[order[next]];
            bool turned = way & 1;
            if (!fits(&kept[i], turned ? part->h_mm : part->w_mm, turned ? part->w_mm : part->h_mm)) continue;
            if (p->steps++ >= MOST_STEPS) return false;
            memcpy(p->free, kept, count * sizeof *kept);
            p->free_count = count;
            put(p, order[next], i, turned, way & 2);
            if (search(p, order, next + 1)) return true;
        }
    return false;
}

static void fewer(packing *p, size_t *order, size_t bound, pack_best *best)
{
    for (int by = 0; by < ORDERS && best->sheets > bound; by++) {
        sort(p->parts, p->count, by, order);
        p->sheets = p->free_count = p->steps = 0;
        while (p->sheets + 1 < best->sheets) open_sheet(p);
        if (search(p, order, 0)) keep_better(p, best);
    }
}

size_t fittings_pack_bound(const pack_part *parts, size_t count, pack_stock stock)
{
    double area_mm2 = 0, longer_mm = fmax(stock.length_mm, stock.width_mm),
           shorter_mm = fmin(stock.length_mm, stock.width_mm);
    size_t large = 0;
    for (size_t i = 0; i < count; i++) {
        area_mm2 += parts[i].w_mm * parts[i].h_mm;
        double most_mm = fmax(parts[i].w_mm, parts[i].h_mm), least_mm = fmin(parts[i].w_mm, parts[i].h_mm);
        /* no two of these lie beside each other either way; a part longer than the sheet is wide lies along it */
        if (least_mm > shorter_mm / 2 && (most_mm > shorter_mm ? most_mm : least_mm) > longer_mm / 2) large++;
    }
    size_t by_area = (size_t)ceil(area_mm2 / (stock.length_mm * stock.width_mm) - same_mm);
    return by_area > large ? by_area : large;
}

sw_status fittings_pack(sw_run *run, const pack_part *parts, size_t count, pack_stock stock, pack_place *places,
                        size_t *sheets)
{
    packing p = {.parts = parts, .count = count, .stock = stock};
    size_t *order = SW_SCRATCH(run, count, size_t);
    p.free = SW_SCRATCH(run, 3 * count + 1, free_box);
    p.places = SW_SCRATCH(run, count, pack_place);
    if (order == NULL || p.free == NULL || p.places == NULL) return SW_NO_MEMORY;
    pack_best best = {.places = places, .sheets = SIZE_MAX};
    greedy(&p, order, &best);
    size_t bound = fittings_pack_bound(parts, count, stock);
    if (count <= FEW) fewer(&p, order, bound, &best);
    *sheets = best.sheets;
    return SW_OK;
}
