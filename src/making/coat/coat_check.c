/* coat_check.c: refuses figures with which nothing can be said. */
#include "making/coat/coat_parts.h"

#include <math.h>

typedef struct figure {
    const char *field, *unit;
    double value, low, high;
} figure;

static sw_status check_figures(sw_run *run, sw_place place, const figure *figures, size_t count)
{
    sw_status status = SW_OK;
    for (size_t i = 0; i < count; i++) {
        const figure *f = &figures[i];
        if (f->value >= f->low && f->value <= f->high) continue;
        status = sw_fail(run, SW_OUT_OF_RANGE, place, f->field, "%g %s is outside %g to %g; mend it in the works",
                         f->value, f->unit, f->low, f->high);
    }
    return status;
}

static sw_status check_blasting(sw_run *run, const sw_blasting *b)
{
    const figure figures[] = {{"blasting.speed", "m2/s", b->m2_s, 1e-6, 10},
                              {"blasting.media", "kg/m2", b->media_kg_m2, 0, 1000},
                              {"blasting.media_price", "per kg", b->media_price_kg, 0, 1e6},
                              {"blasting.least", "mm", b->least_mm, 0, 100},
                              {"blasting.setup", "s", b->setup_s, 0, 1e6},
                              {"blasting.rate", "per h", b->rate_h, 0, 1e6}};
    return check_figures(run, b->place, figures, sizeof figures / sizeof *figures);
}

static sw_status check_coating(sw_run *run, const sw_coating *c)
{
    const figure figures[] = {
        {"coating.solids", "of volume", c->solids, 0.01, 1}, {"coating.film", "um", c->film_um, 1, 1000},
        {"coating.coats", "", (double)c->coats, 1, 10},      {"coating.transfer", "", c->transfer, 0.05, 1},
        {"coating.price", "per l", c->price_l, 0, 1e6},      {"coating.solvent", "g/l", c->voc_kg_m3, 0, 1500},
        {"coating.speed", "m2/s", c->m2_s, 1e-6, 10},        {"coating.setup", "s", c->setup_s, 0, 1e6},
        {"coating.rate", "per h", c->rate_h, 0, 1e6},        {"coating.dry_time", "s", c->dry_s, 0, 1e6},
        {"coating.class", "K", c->class_k, 0, 2000},         {"coating.cure", "K", c->cure_k, 0, 1000},
        {"coating.cure_time", "s", c->cure_s, 0, 1e6},       {"coating.oven", "stoves", c->oven_load, 0, 1000}};
    return check_figures(run, c->place, figures, sizeof figures / sizeof *figures);
}

static sw_status check_sheets(sw_run *run, const sw_coat_input *in)
{
    sw_status status = SW_OK;
    for (size_t i = 0; i < in->stove->piece_count; i++) {
        const sw_coat_sheet *s = &in->sheets[i];
        if (s->area_mm2 > 0 && s->cut_mm >= 0 && isfinite(s->area_mm2) && isfinite(s->cut_mm)) continue;
        status = sw_fail(run, SW_OUT_OF_RANGE, in->stove->pieces[i].place, in->stove->pieces[i].name,
                         "a surface of %g mm2 with %g mm of edges cannot be; unfold the piece again", s->area_mm2,
                         s->cut_mm);
    }
    return status;
}

sw_status coat_check(sw_run *run, const coat_job *job)
{
    sw_status status = check_sheets(run, job->in);
    if (job->blasting != NULL && check_blasting(run, job->blasting) != SW_OK) status = SW_OUT_OF_RANGE;
    if (job->coating != NULL && check_coating(run, job->coating) != SW_OK) status = SW_OUT_OF_RANGE;
    return status;
}
