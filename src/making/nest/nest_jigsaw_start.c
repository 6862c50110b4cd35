/* nest_jigsaw_start.c: from a cover, which may lack pieces and overlap by roundings, to a legal layout. */
#include "making/nest/nest_jigsaw_parts.h"
#include "making/nest/nest_separate_parts.h"

#include <math.h>

static const double first_growth = 5e-4, growth_factor = 2.2, growth_most = 0.3; /* of the full cover's length. Ours */
enum { PASSES = 40, STARTS = 2, SEATINGS = 6 };

/* What is not laid is thrown in; then each looks a few times for where it overlaps least, all laid standing still. */
static void seat(const nest_settling *s, const nest_cover *cover, nest_crowd *c, nest_state *trial, double length_mm)
{
    nest_state_copy(s->count, &cover->state, trial);
    for (size_t i = 0; i < s->count; i++) {
        if (cover->laid[i]) continue;
        const nest_kind *kind = &s->table->core->kinds[s->kind[i]];
        trial->turned[i] = (uint32_t)(kind->first + sw_random_below(&c->random, kind->count));
        trial->x_mm[i] = sw_random_unit(&c->random) * length_mm;
        trial->y_mm[i] = sw_random_unit(&c->random) * s->width_mm;
    }
    nest_crowd_set(c, trial, length_mm);
    nest_crowd_forget(c);
    for (int k = 0; k < SEATINGS; k++)
        for (size_t i = 0; i < s->count; i++)
            if (!cover->laid[i]) nest_crowd_move(c, i);
}

sw_status nest_jigsaw_settle(const nest_settling *s, const nest_cover *cover, nest_state *best, double *length_mm)
{
    nest_crowd *c = NULL;
    nest_state trial;
    SW_TRY(nest_crowd_make(s->run, s->table, s->kind, s->count, s->width_mm, &c));
    SW_TRY(nest_state_make(s->run, s->count, &trial));
    c->random = sw_random_seeded(s->seed * 1000003 + 500009);
    *length_mm = INFINITY;
    const nest_patience patience = {PASSES, STARTS, s->until_s, s->run};
    double growth = cover->laid_count == s->count ? first_growth : 1 - cover->area_mm2 / s->area_mm2;
    while (growth < growth_most && sw_seconds() < s->until_s) {
        double overlap_mm = 0;
        seat(s, cover, c, &trial, s->area_mm2 / s->width_mm * (1 + growth));
        growth *= growth_factor;
        if (!nest_separate(c, &patience, best, &overlap_mm)) continue;
        *length_mm = fmin(c->length_mm, nest_crowd_reach(c, best));
        return SW_OK;
    }
    return SW_OK;
}
