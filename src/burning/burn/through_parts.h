/* through_parts.h: what the steps of a whole burn share. For this folder only.
 *
 * States: temperatures of the parts' nodes, then these. */
#ifndef SW_BURNING_BURN_THROUGH_PARTS_H
#define SW_BURNING_BURN_THROUGH_PARTS_H

#include "burning/burn/burn_parts.h"

#include <string.h>

typedef enum extra {
    BATCH = 0,
    AIR = 6,
    STATES,
    HEAT_J = STATES,
    OUTPUT_J,
    FLUE_J,
    LOST_J,
    AIR_KG,
    NEEDED_KG,
    GAS_KG,
    GAS_KG_K,
    EXTRAS
} extra;

static const double through_evaporation = 2.443e6; /* J/kg at 25 degC, as in the LHV */

typedef struct through {
    sw_run *run;
    sw_burn *b;
    size_t nodes; /* of the parts */
    sw_batch_model batch;
    double lost_share; /* CO and residue, of the heat set free */
    sw_burn_point now; /* as of the last right-hand side */
    sw_batch_rates rates;
    double primary_part;               /* of the air that comes from below */
    double *flux_w, *capacity, *slope; /* slope: [nodes * nodes], W/K */
    double room_k, end_s;
    sw_status status;
    sw_burn_run *made;
    double *most_k, *parts_k;
    sw_burn_sample *samples;
    size_t sample_room;
} through;

static inline sw_batch_state through_bed(const double *extras)
{
    sw_batch_state s;
    memcpy(&s, extras + BATCH, sizeof s);
    return s;
}

/* through_close.c: heat in, out and left over, after the last state y. */
void through_close(through *h, const double *y);

#endif
