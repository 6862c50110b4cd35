#include "making/nest/nest_crowd_parts.h"

#include <math.h>
#include <string.h>

/* Guided local search: pairs that go on overlapping weigh ever more until they are pulled apart (Voudouris & Tsang 1999;
 * for packing Egeblad, Nielsen & Odgaard, EJOR 183, 2007). The factors are ours, found on the benchmark family. */
static const float raise_least = 1.2F, raise_most = 2.0F, fade = 0.95F;

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
                      .padded = (count + NEST_CROWD_LANES - 1) / NEST_CROWD_LANES * NEST_CROWD_LANES,
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

void nest_crowd_set_box(nest_crowd *c, size_t piece)
{
    const nest_turned *t = nest_crowd_entry(c, c->now.turned[piece]);
    double x = c->now.x_mm[piece] + t->base.x_mm, y = c->now.y_mm[piece] + t->base.y_mm;
    c->x0[piece] = (float)(x - c->grow_mm), c->x1[piece] = (float)(x + t->width_mm + c->grow_mm);
    c->y0[piece] = (float)(y - c->grow_mm), c->y1[piece] = (float)(y + t->height_mm + c->grow_mm);
}

static double clamped(double v, double low, double high)
{
    return v < low ? low : v > high ? high : v;
}

const nest_bin *nest_crowd_bin(const nest_crowd *c, double x_mm)
{
    size_t b = 0;
    while (b + 1 < c->bin_count && c->bins[b + 1].x0_mm <= x_mm) b++;
    return &c->bins[b];
}

bool nest_crowd_push_in(const nest_crowd *c, uint32_t turned, double *x, double *y)
{
    const nest_turned *t = nest_crowd_entry(c, turned);
    nest_bin b = {0, c->length_mm, c->width_mm};
    if (c->bin_count > 0) b = *nest_crowd_bin(c, *x + t->base.x_mm + t->width_mm / 2);
    *x = clamped(*x, b.x0_mm - t->base.x_mm, b.x1_mm - t->base.x_mm - t->width_mm);
    *y = clamped(*y, -t->base.y_mm, b.height_mm - t->base.y_mm - t->height_mm);
    return t->width_mm <= b.x1_mm - b.x0_mm + NEST_TOUCH_MM && t->height_mm <= b.height_mm + NEST_TOUCH_MM;
}

void nest_crowd_set(nest_crowd *c, const nest_state *state, double length_mm)
{
    c->length_mm = length_mm;
    nest_state_copy(c->count, state, &c->now);
    for (size_t i = 0; i < c->count; i++) {
        (void)nest_crowd_push_in(c, c->now.turned[i], &c->now.x_mm[i], &c->now.y_mm[i]);
        nest_crowd_set_box(c, i);
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
        const nest_turned *t = nest_crowd_entry(c, state->turned[i]);
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
