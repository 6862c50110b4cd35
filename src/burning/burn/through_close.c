/* through_close.c: the balance of a whole burn. */
#include "burning/burn/through_parts.h"

#include <math.h>

/* Heat held by the parts above the room, by Simpson's rule over their capacity. */
static double stored_j(through *h, const double *t_k)
{
    enum { PANELS = 16 };
    double sum = 0, *at = h->flux_w;
    for (size_t k = 0; k <= PANELS; k++) {
        double share = (double)k / PANELS, weight = k == 0 || k == PANELS ? 1 : k % 2 == 1 ? 4 : 2;
        for (size_t i = 0; i < h->nodes; i++) at[i] = h->room_k + share * (t_k[i] - h->room_k);
        sw_heat_net_capacity(h->b->net, at, h->capacity);
        for (size_t i = 0; i < h->nodes; i++) sum += weight * h->capacity[i] * (t_k[i] - h->room_k) / (3.0 * PANELS);
    }
    return sum;
}

static double unburnt_j(const through *h, const double *extras)
{
    const sw_batch_state bed = through_bed(extras);
    double volatile_lhv = sw_batch_volatile_lhv(&h->b->fuel, &h->batch), c = h->batch.char_share;
    double dry_kg = bed.dry_kg + bed.volatiles_kg + bed.front_kg;
    return dry_kg * ((1 - c) * volatile_lhv + c * h->batch.char_lhv) + bed.char_kg * h->batch.char_lhv -
           bed.water_kg * through_evaporation;
}

void through_close(through *h, const double *y)
{
    const double *e = y + h->nodes;
    sw_burn_run *r = h->made;
    double left_j = unburnt_j(h, e);
    r->output_j = e[OUTPUT_J];
    r->flue_j = e[FLUE_J];
    r->stored_j = stored_j(h, y);
    r->unburnt_j = e[LOST_J] + left_j;
    r->balance = fabs(r->fuel_j - r->output_j - r->flue_j - r->stored_j - r->unburnt_j) / r->fuel_j;
    r->efficiency = r->output_j / (r->fuel_j - left_j);
    r->mean_lambda = e[AIR_KG] / e[NEEDED_KG];
    r->mean_flue_k = e[GAS_KG_K] / e[GAS_KG];
}
