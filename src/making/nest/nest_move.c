/* nest_move.c: one piece of a crowd looks for a better place while all others stand still. */
#include "making/nest/nest_crowd_parts.h"

#include <math.h>
#ifdef __SSE2__
#include <emmintrin.h>
#endif

enum { LANES = NEST_CROWD_LANES, EVERYWHERE = 24, BIN_MORE = 6, NEARBY = 12, WALKS = 3, SLIDES = 8 }; /* ours */

typedef struct spot {
    double cost, x, y;
    uint32_t turned;
} spot;

typedef struct reach {
    float x0, x1, y0, y1;
} reach; /* a box */

static reach reach_at(const nest_turned *t, double x, double y, double around_mm)
{
    x += t->base.x_mm, y += t->base.y_mm;
    return (reach){(float)(x - around_mm), (float)(x + t->width_mm + around_mm), (float)(y - around_mm),
                   (float)(y + t->height_mm + around_mm)};
}

static bool meets(const nest_crowd *c, size_t other, reach r)
{
    return c->x0[other] < r.x1 && c->x1[other] > r.x0 && c->y0[other] < r.y1 && c->y1[other] > r.y0;
}

static double weighted_depth(const nest_crowd *c, size_t piece, size_t other, const spot *p)
{
    double d = nest_table_depth(c->table, p->turned, c->now.turned[other], c->now.x_mm[other] - p->x,
                                c->now.y_mm[other] - p->y);
    return (double)c->weight[piece * c->count + other] * d;
}

/* Bit k: the box of piece j + k meets r; LANES pieces at once where the machine can. */
static unsigned met_bits(const nest_crowd *c, size_t j, reach r)
{
    unsigned bits = 0;
#ifdef __SSE2__
    const __m128 x0 = _mm_set1_ps(r.x0), x1 = _mm_set1_ps(r.x1), y0 = _mm_set1_ps(r.y0), y1 = _mm_set1_ps(r.y1);
    for (size_t k = 0; k < LANES; k += 4) {
        __m128 x =
            _mm_and_ps(_mm_cmplt_ps(_mm_loadu_ps(c->x0 + j + k), x1), _mm_cmpgt_ps(_mm_loadu_ps(c->x1 + j + k), x0));
        __m128 y =
            _mm_and_ps(_mm_cmplt_ps(_mm_loadu_ps(c->y0 + j + k), y1), _mm_cmpgt_ps(_mm_loadu_ps(c->y1 + j + k), y0));
        bits |= (unsigned)_mm_movemask_ps(_mm_and_ps(x, y)) << k;
    }
#else
    for (size_t k = 0; k < LANES; k++)
        if (meets(c, j + k, r)) bits |= 1U << k;
#endif
    return bits;
}

/* Lists the pieces whose boxes meet a box. */
static size_t list_met(const nest_crowd *c, size_t piece, reach r, uint32_t *list)
{
    size_t n = 0;
    for (size_t j = 0; j < c->padded; j += LANES)
        for (unsigned bits = met_bits(c, j, r), k = 0; bits != 0; bits >>= 1, k++)
            if ((bits & 1) != 0 && j + k != piece) list[n++] = (uint32_t)(j + k);
    return n;
}

/* Cost of the piece at a spot; gives up (with what it has) once it reaches `enough`. */
static double cost_at(nest_crowd *c, size_t piece, const spot *p, double enough)
{
    size_t n = list_met(c, piece, reach_at(nest_crowd_entry(c, p->turned), p->x, p->y, c->grow_mm), c->met);
    double cost = 0;
    c->looks++;
    for (size_t k = 0; k < n && cost < enough; k++) cost += weighted_depth(c, piece, c->met[k], p);
    return cost;
}

/* A walk and those it can meet as long as it stays within `free_mm` of where they were listed. */
typedef struct walk {
    nest_crowd *c;
    size_t piece, near_count; /* c->near */
    spot best;
    double from_x, from_y, free_mm;
} walk;

static void look_round(walk *w, const spot *p)
{
    double around_mm = w->free_mm + w->c->grow_mm;
    w->from_x = p->x, w->from_y = p->y;
    w->near_count =
        list_met(w->c, w->piece, reach_at(nest_crowd_entry(w->c, p->turned), p->x, p->y, around_mm), w->c->near);
}

static double walk_cost(const walk *w, const spot *p)
{
    nest_crowd *c = w->c;
    reach r = reach_at(nest_crowd_entry(c, p->turned), p->x, p->y, c->grow_mm);
    double cost = 0;
    c->looks++;
    for (size_t k = 0; k < w->near_count && cost < w->best.cost; k++) {
        if (meets(c, c->near[k], r)) cost += weighted_depth(c, w->piece, c->near[k], p);
    }
    return cost;
}

static bool step(walk *w, double x, double y)
{
    spot p = {.x = x, .y = y, .turned = w->best.turned};
    if (!nest_crowd_push_in(w->c, p.turned, &p.x, &p.y)) return false;
    p.cost = walk_cost(w, &p);
    if (p.cost >= w->best.cost) return false;
    w->best = p;
    return true;
}

/* Coordinate descent along x, y or a diagonal at a time; steps grow on success and halve on failure. */
static void walk_down(nest_crowd *c, size_t piece, spot *best, double step_mm, double least_mm)
{
    walk w = {.c = c, .piece = piece, .best = *best, .free_mm = 4 * step_mm};
    double sx = step_mm, sy = step_mm;
    look_round(&w, &w.best);
    while ((sx > least_mm || sy > least_mm) && w.best.cost > 0) {
        size_t way = sw_random_below(&c->random, 4);
        double dx = way == 1 ? 0 : sx, dy = way == 0 ? 0 : way == 3 ? -sy : sy;
        double x = w.best.x, y = w.best.y;
        if (fmax(fabs(x - w.from_x) + sx, fabs(y - w.from_y) + sy) > w.free_mm) {
            w.free_mm = fmax(w.free_mm, 2 * fmax(sx, sy));
            look_round(&w, &w.best);
        }
        bool ahead = step(&w, x + dx, y + dy), back = step(&w, x - dx, y - dy);
        double factor = ahead || back ? 1.1 : 0.5;
        if (way != 1) sx *= factor;
        if (way != 0) sy *= factor;
    }
    *best = w.best;
}

/* The whole cost at a spot, and how it grows with the piece's place. */
static double slope_at(const walk *w, const spot *p, nest_slope *sum)
{
    nest_crowd *c = w->c;
    reach r = reach_at(nest_crowd_entry(c, p->turned), p->x, p->y, c->grow_mm);
    double cost = 0;
    *sum = (nest_slope){0};
    c->looks++;
    for (size_t k = 0; k < w->near_count; k++) {
        size_t j = c->near[k];
        if (!meets(c, j, r)) continue;
        nest_slope one;
        double weight = (double)c->weight[w->piece * c->count + j];
        double d =
            nest_table_slope(c->table, p->turned, c->now.turned[j], c->now.x_mm[j] - p->x, c->now.y_mm[j] - p->y, &one);
        if (d <= 0) continue;
        cost += weight * d;
        sum->x += weight * one.x, sum->y += weight * one.y;
    }
    return cost;
}

/* Steps down the slope, each as long as it takes to cost nothing if the slope stayed the same (Polyak 1969): where a piece
 * overlaps one other that is the way out. Counts as best the best it came through. */
static void slide(nest_crowd *c, size_t piece, spot *best, double size_mm)
{
    const double round_share = 0.3, beyond = 1.001, stands_share = 1e-6, flat = 1e-12; /* ours */
    walk w = {.c = c, .piece = piece, .best = *best, .free_mm = size_mm * round_share};
    spot p = *best;
    look_round(&w, &p);
    for (int k = 0; k < SLIDES; k++) {
        if (fmax(fabs(p.x - w.from_x), fabs(p.y - w.from_y)) > w.free_mm) look_round(&w, &p);
        nest_slope slope;
        p.cost = slope_at(&w, &p, &slope);
        if (p.cost < best->cost) *best = p;
        double steep2 = slope.x * slope.x + slope.y * slope.y, x = p.x, y = p.y;
        if (p.cost <= 0 || steep2 < flat) return;
        double share = fmin(p.cost / steep2 * beyond, size_mm / sqrt(steep2));
        p.x -= share * slope.x, p.y -= share * slope.y;
        if (!nest_crowd_push_in(c, p.turned, &p.x, &p.y)) return;
        if (fabs(p.x - x) + fabs(p.y - y) < size_mm * stands_share) return;
    }
}

/* Anywhere in the rectangle, or in a bin taken by length. */
static void scatter_over(nest_crowd *c, const nest_turned *t, spot *p)
{
    nest_bin b = {0, c->length_mm, c->width_mm};
    if (c->bin_count > 0) b = *nest_crowd_bin(c, sw_random_unit(&c->random) * c->length_mm);
    p->x = b.x0_mm - t->base.x_mm + sw_random_unit(&c->random) * (b.x1_mm - b.x0_mm - t->width_mm);
    p->y = -t->base.y_mm + sw_random_unit(&c->random) * (b.height_mm - t->height_mm);
}

/* false = it does not fit there. */
static bool sample(nest_crowd *c, size_t piece, bool anywhere, int k, double size_mm, spot *p)
{
    const nest_kind *kind = &c->table->core->kinds[c->kind[piece]];
    *p = (spot){.turned = (uint32_t)(kind->first + sw_random_below(&c->random, kind->count))};
    if (anywhere) {
        scatter_over(c, nest_crowd_entry(c, p->turned), p);
    } else {
        if (k % 2 == 0) p->turned = c->now.turned[piece];
        p->x = c->now.x_mm[piece] + (sw_random_unit(&c->random) - 0.5) * size_mm;
        p->y = c->now.y_mm[piece] + (sw_random_unit(&c->random) - 0.5) * size_mm;
    }
    return nest_crowd_push_in(c, p->turned, &p->x, &p->y);
}

static void keep_best(spot *top, spot p)
{
    size_t k = WALKS - 1;
    if (p.cost >= top[k].cost) return;
    for (; k > 0 && top[k - 1].cost > p.cost; k--) top[k] = top[k - 1];
    top[k] = p;
}

void nest_crowd_move(nest_crowd *c, size_t piece)
{
    const nest_kind *kind = &c->table->core->kinds[c->kind[piece]];
    double size_mm = kind->least_mm;
    spot start = {.x = c->now.x_mm[piece], .y = c->now.y_mm[piece], .turned = c->now.turned[piece]};
    start.cost = cost_at(c, piece, &start, INFINITY);
    if (start.cost <= 0) return;
    spot top[WALKS], best = start;
    for (size_t i = 0; i < WALKS; i++) top[i].cost = INFINITY;
    int everywhere = EVERYWHERE + BIN_MORE * (int)c->bin_count;
    for (int k = 0; k < everywhere + NEARBY; k++) {
        spot p;
        if (!sample(c, piece, k < everywhere, k, size_mm, &p)) continue;
        p.cost = cost_at(c, piece, &p, top[WALKS - 1].cost);
        keep_best(top, p);
    }
    slide(c, piece, &best, size_mm);
    walk_down(c, piece, &best, size_mm * 0.05, size_mm * 1e-3);
    for (size_t i = 0; i < WALKS && isfinite(top[i].cost); i++) {
        slide(c, piece, &top[i], size_mm);
        walk_down(c, piece, &top[i], size_mm * 0.05, size_mm * 1e-2);
        if (top[i].cost < best.cost) best = top[i];
    }
    if (best.cost >= start.cost) return;
    walk_down(c, piece, &best, size_mm * 2e-2, size_mm * 1e-5);
    c->now.turned[piece] = best.turned;
    c->now.x_mm[piece] = best.x, c->now.y_mm[piece] = best.y;
    nest_crowd_set_box(c, piece);
}
