#include "making/nest/nest_separate_parts.h"

#include <math.h>

static const double gain = 0.98;        /* less than 2 % better is no gain. Ours */
static const double legal_share = 1e-9; /* of the width: rounding, far below any tolerance */

static bool time_is_up(const nest_patience *p)
{
    return sw_seconds() > p->until_s || sw_run_cancelled(p->run);
}

static void shuffle(sw_random *random, uint32_t *items, size_t count)
{
    for (size_t i = count; i > 1; i--) {
        size_t j = sw_random_below(random, i);
        uint32_t kept = items[i - 1];
        items[i - 1] = items[j];
        items[j] = kept;
    }
}

/* Every piece that overlaps looks for a better place once, in random order. */
static void pass(nest_crowd *c)
{
    size_t count = 0;
    for (size_t i = 0; i < c->count - c->fixed; i++)
        if (nest_crowd_overlaps(c, i)) c->order[count++] = (uint32_t)i;
    shuffle(&c->random, c->order, count);
    for (size_t k = 0; k < count; k++) nest_crowd_move(c, c->order[k]);
}

typedef enum ending { LEGAL, STUCK, OUT_OF_TIME } ending;

static ending passes(nest_crowd *c, const nest_patience *p, nest_state *best, double *best_mm)
{
    double least_mm = INFINITY;
    for (int idle = 0; idle < p->passes;) {
        double deepest_mm = 0, sum_mm = nest_crowd_measure(c, &deepest_mm);
        if (sum_mm < *best_mm) {
            *best_mm = sum_mm;
            nest_state_copy(c->count, &c->now, best);
        }
        if (sum_mm <= legal_share * c->width_mm) return LEGAL;
        if (time_is_up(p)) return OUT_OF_TIME;
        idle = sum_mm < least_mm * gain ? 0 : idle + 1;
        least_mm = fmin(least_mm, sum_mm);
        nest_crowd_reweigh(c, deepest_mm);
        pass(c);
    }
    return STUCK;
}

bool nest_separate(nest_crowd *c, const nest_patience *p, nest_state *best, double *overlap_mm)
{
    *overlap_mm = INFINITY;
    nest_crowd_forget(c);
    for (int idle = 0; idle < p->starts;) {
        double before_mm = *overlap_mm;
        ending end = passes(c, p, best, overlap_mm);
        if (end != STUCK) return end == LEGAL;
        idle = *overlap_mm < before_mm * gain ? 0 : idle + 1;
        nest_crowd_set(c, best, c->length_mm);
        nest_crowd_forget(c);
    }
    return false;
}

/* ---- a new start ------------------------------------------------------------------------------------ */

static double area_of(const nest_crowd *c, size_t piece)
{
    return c->table->core->kinds[c->kind[piece]].area_mm2;
}

static void swap_places(nest_crowd *c, size_t i, size_t j)
{
    double x = c->now.x_mm[i], y = c->now.y_mm[i];
    c->now.x_mm[i] = c->now.x_mm[j], c->now.y_mm[i] = c->now.y_mm[j];
    c->now.x_mm[j] = x, c->now.y_mm[j] = y;
}

void nest_disturb(nest_crowd *c)
{
    const double large_share = 0.4; /* of the largest piece's area. Ours */
    double largest = 0;
    for (size_t i = 0; i < c->count; i++) largest = fmax(largest, area_of(c, i));
    for (int tries = 0; tries < 50 && c->count > 1; tries++) {
        size_t i = sw_random_below(&c->random, c->count), j = sw_random_below(&c->random, c->count);
        bool small = area_of(c, i) < large_share * largest || area_of(c, j) < large_share * largest;
        if (c->kind[i] == c->kind[j] || (small && tries < 40)) continue;
        swap_places(c, i, j);
        return;
    }
}
