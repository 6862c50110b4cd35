#include "making/nest/nest_crowd_parts.h"

#include <math.h>
#include <string.h>
#ifdef __SSE2__
#include <emmintrin.h>
#endif

/* Guided local search: pairs that go on overlapping weigh ever more until they are pulled apart (Voudouris & Tsang 1999;
 * for packing Egeblad, Nielsen & Odgaard, EJOR 183, 2007). The factors are ours, found on the benchmark family. */
static const float raise_least = 1.2F, raise_most = 2.0F, fade = 0.95F;

enum { LANES = 8 };

sw_status nest_state_make(sw_run *run, size_t count, nest_state *state)
{
    state->turned = SW_SCRATCH(run, count, uint32_t);
    state->x_mm = SW_SCRATCH(run, count, double);
    state->y_mm = SW_SCRATCH(run, count, double);
    return state->turned == NULL || state->x_mm == NULL || state->y_mm == NULL ? SW_NO_MEMORY : SW_OK;
}

void nest_state_copy(size_t count, const nest_state *from, nest_state *to)
{
    memcpy(to->turned, from->turned, count * sizeof *to->turned);
    memcpy(to->x_mm, from->x_mm, count * sizeof *to->x_mm);
    memcpy(to->y_mm, from->y_mm, count * sizeof *to->y_mm);
}

/* The corners of a part grown by half the web stick out by up to sqrt 2 of that, those of an arc's tangents by the chord
 * error more. Without a web pieces may touch, and what sticks out is below the slack. */
static double growth(const nest_core *core)
{
    return core->in->web_mm > 0 ? 0.75 * core->in->web_mm + 2 * core->opt->exactness_mm : 0;
}

sw_status nest_crowd_make(sw_run *run, const nest_table *table, const uint32_t *kind, size_t count, double width_mm,
                          nest_crowd **crowd)
{
    nest_crowd *c = SW_SCRATCH(run, 1, nest_crowd);
    if (c == NULL) return SW_NO_MEMORY;
    *c = (nest_crowd){.table = table,
                      .count = count,
                      .padded = (count + LANES - 1) / LANES * LANES,
                      .kind = kind,
                      .width_mm = width_mm};
    c->grow_mm = growth(table->core);
    SW_TRY(nest_state_make(run, count, &c->now));
    float *boxes = SW_SCRATCH(run, 4 * c->padded, float);
    c->weight = SW_SCRATCH(run, count * count, float);
    c->depth = SW_SCRATCH(run, count * count, float);
    c->met = SW_SCRATCH(run, c->padded, uint32_t);
    c->near = SW_SCRATCH(run, c->padded, uint32_t);
    c->order = SW_SCRATCH(run, count, uint32_t);
    if (boxes == NULL || c->weight == NULL || c->depth == NULL || c->met == NULL || c->near == NULL || c->order == NULL)
        return SW_NO_MEMORY;
    c->x0 = boxes, c->x1 = boxes + c->padded, c->y0 = boxes + 2 * c->padded, c->y1 = boxes + 3 * c->padded;
    for (size_t i = count; i < c->padded; i++) c->x0[i] = c->y0[i] = INFINITY, c->x1[i] = c->y1[i] = -INFINITY;
    *crowd = c;
    return SW_OK;
}

static const nest_turned *entry(const nest_crowd *c, uint32_t turned)
{
    return &c->table->core->turned[turned];
}

static void set_box(nest_crowd *c, size_t i)
{
    const nest_turned *t = entry(c, c->now.turned[i]);
    double x = c->now.x_mm[i] + t->base.x_mm, y = c->now.y_mm[i] + t->base.y_mm;
    c->x0[i] = (float)(x - c->grow_mm), c->x1[i] = (float)(x + t->width_mm + c->grow_mm);
    c->y0[i] = (float)(y - c->grow_mm), c->y1[i] = (float)(y + t->height_mm + c->grow_mm);
}

static double clamped(double v, double low, double high)
{
    return v < low ? low : v > high ? high : v;
}

/* The bin in which x lies, or the last before it. */
static const nest_bin *bin_at(const nest_crowd *c, double x_mm)
{
    size_t b = 0;
    while (b + 1 < c->bin_count && c->bins[b + 1].x0_mm <= x_mm) b++;
    return &c->bins[b];
}

/* Pushes a piece into the rectangle, or into the bin where its middle lies; false = it is too large for that. */
static bool push_in(const nest_crowd *c, uint32_t turned, double *x, double *y)
{
    const nest_turned *t = entry(c, turned);
    nest_bin b = {0, c->length_mm, c->width_mm};
    if (c->bin_count > 0) b = *bin_at(c, *x + t->base.x_mm + t->width_mm / 2);
    *x = clamped(*x, b.x0_mm - t->base.x_mm, b.x1_mm - t->base.x_mm - t->width_mm);
    *y = clamped(*y, -t->base.y_mm, b.height_mm - t->base.y_mm - t->height_mm);
    return t->width_mm <= b.x1_mm - b.x0_mm + NEST_TOUCH_MM && t->height_mm <= b.height_mm + NEST_TOUCH_MM;
}

void nest_crowd_set(nest_crowd *c, const nest_state *state, double length_mm)
{
    c->length_mm = length_mm;
    nest_state_copy(c->count, state, &c->now);
    for (size_t i = 0; i < c->count; i++) {
        (void)push_in(c, c->now.turned[i], &c->now.x_mm[i], &c->now.y_mm[i]);
        set_box(c, i);
    }
}

void nest_crowd_forget(nest_crowd *c)
{
    for (size_t i = 0; i < c->count * c->count; i++) c->weight[i] = 1;
}

double nest_crowd_reach(const nest_crowd *c, const nest_state *state)
{
    double reach_mm = 0;
    for (size_t i = 0; i < c->count; i++) {
        const nest_turned *t = entry(c, state->turned[i]);
        reach_mm = fmax(reach_mm, state->x_mm[i] + t->base.x_mm + t->width_mm);
    }
    return reach_mm;
}

double nest_crowd_measure(nest_crowd *c, double *deepest_mm)
{
    double sum_mm = 0;
    *deepest_mm = 0;
    for (size_t i = 0; i < c->count; i++)
        for (size_t j = i + 1; j < c->count; j++) {
            double d = 0;
            if (c->x0[i] < c->x1[j] && c->x1[i] > c->x0[j] && c->y0[i] < c->y1[j] && c->y1[i] > c->y0[j])
                d = nest_table_depth(c->table, c->now.turned[i], c->now.turned[j], c->now.x_mm[j] - c->now.x_mm[i],
                                     c->now.y_mm[j] - c->now.y_mm[i]);
            c->depth[i * c->count + j] = c->depth[j * c->count + i] = (float)d;
            sum_mm += d;
            *deepest_mm = fmax(*deepest_mm, d);
        }
    return sum_mm;
}

void nest_crowd_reweigh(nest_crowd *c, double deepest_mm)
{
    for (size_t i = 0; i < c->count * c->count; i++) {
        float d = c->depth[i], w = c->weight[i];
        if (d > 0)
            w *= raise_least + (raise_most - raise_least) * d / (float)deepest_mm;
        else
            w = fmaxf(1, w * fade);
        c->weight[i] = w;
    }
}

bool nest_crowd_overlaps(const nest_crowd *c, size_t piece)
{
    for (size_t j = 0; j < c->count; j++)
        if (c->depth[piece * c->count + j] > 0) return true;
    return false;
}

/* ---- moving one piece ---------------------------------------------------------------------------- */

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
        if (c->x0[j + k] < r.x1 && c->x1[j + k] > r.x0 && c->y0[j + k] < r.y1 && c->y1[j + k] > r.y0) bits |= 1U << k;
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
    size_t n = list_met(c, piece, reach_at(entry(c, p->turned), p->x, p->y, c->grow_mm), c->met);
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

static void look_round(walk *w)
{
    w->from_x = w->best.x, w->from_y = w->best.y;
    w->near_count =
        list_met(w->c, w->piece,
                 reach_at(entry(w->c, w->best.turned), w->best.x, w->best.y, w->free_mm + w->c->grow_mm), w->c->near);
}

static double walk_cost(const walk *w, const spot *p)
{
    nest_crowd *c = w->c;
    reach r = reach_at(entry(c, p->turned), p->x, p->y, c->grow_mm);
    double cost = 0;
    c->looks++;
    for (size_t k = 0; k < w->near_count && cost < w->best.cost; k++) {
        size_t j = c->near[k];
        if (c->x0[j] < r.x1 && c->x1[j] > r.x0 && c->y0[j] < r.y1 && c->y1[j] > r.y0)
            cost += weighted_depth(c, w->piece, j, p);
    }
    return cost;
}

static bool step(walk *w, double x, double y)
{
    spot p = {.x = x, .y = y, .turned = w->best.turned};
    if (!push_in(w->c, p.turned, &p.x, &p.y)) return false;
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
    look_round(&w);
    while ((sx > least_mm || sy > least_mm) && w.best.cost > 0) {
        size_t way = sw_random_below(&c->random, 4);
        double dx = way == 1 ? 0 : sx, dy = way == 0 ? 0 : way == 3 ? -sy : sy;
        double x = w.best.x, y = w.best.y;
        if (fmax(fabs(x - w.from_x) + sx, fabs(y - w.from_y) + sy) > w.free_mm) {
            w.free_mm = fmax(w.free_mm, 2 * fmax(sx, sy));
            look_round(&w);
        }
        bool ahead = step(&w, x + dx, y + dy), back = step(&w, x - dx, y - dy);
        double factor = ahead || back ? 1.1 : 0.5;
        if (way != 1) sx *= factor;
        if (way != 0) sy *= factor;
    }
    *best = w.best;
}

enum { EVERYWHERE = 24, BIN_MORE = 6, NEARBY = 12, WALKS = 3 };

/* Anywhere in the rectangle, or in a bin taken by length. */
static void scatter_over(nest_crowd *c, const nest_turned *t, spot *p)
{
    nest_bin b = {0, c->length_mm, c->width_mm};
    if (c->bin_count > 0) b = *bin_at(c, sw_random_unit(&c->random) * c->length_mm);
    p->x = b.x0_mm - t->base.x_mm + sw_random_unit(&c->random) * (b.x1_mm - b.x0_mm - t->width_mm);
    p->y = -t->base.y_mm + sw_random_unit(&c->random) * (b.height_mm - t->height_mm);
}

/* false = it does not fit there. */
static bool sample(nest_crowd *c, size_t piece, bool anywhere, int k, double size_mm, spot *p)
{
    const nest_kind *kind = &c->table->core->kinds[c->kind[piece]];
    *p = (spot){.turned = (uint32_t)(kind->first + sw_random_below(&c->random, kind->count))};
    if (anywhere) {
        scatter_over(c, entry(c, p->turned), p);
    } else {
        if (k % 2 == 0) p->turned = c->now.turned[piece];
        p->x = c->now.x_mm[piece] + (sw_random_unit(&c->random) - 0.5) * size_mm;
        p->y = c->now.y_mm[piece] + (sw_random_unit(&c->random) - 0.5) * size_mm;
    }
    return push_in(c, p->turned, &p->x, &p->y);
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
    walk_down(c, piece, &best, size_mm * 0.1, size_mm * 1e-3);
    for (size_t i = 0; i < WALKS && isfinite(top[i].cost); i++) {
        walk_down(c, piece, &top[i], size_mm * 0.25, size_mm * 2e-3);
        if (top[i].cost < best.cost) best = top[i];
    }
    if (best.cost >= start.cost) return;
    walk_down(c, piece, &best, size_mm * 4e-3, size_mm * 1e-5);
    c->now.turned[piece] = best.turned;
    c->now.x_mm[piece] = best.x, c->now.y_mm[piece] = best.y;
    set_box(c, piece);
}
