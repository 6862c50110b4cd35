/* chart_burn.c: a whole burn over time: power, temperatures, excess air with the wood that is left. */
#include "papers/chart_parts.h"

#include <math.h>

typedef struct column {
    double *v;
} column;

static const double lambda_shown = 8; /* beyond, the fire is nearly out and the ratio says little */

static double value_of(const sw_burn_sample *s, int k)
{
    switch (k) {
    case 0:
        return sw_min_from_s(s->time_s);
    case 1:
        return s->fuel_w * 1e-3;
    case 2:
        return s->output_w * 1e-3;
    case 3:
        return sw_c_from_k(s->firebox_k);
    case 4:
        return sw_c_from_k(s->flue_k);
    case 5:
        return sw_c_from_k(s->pane_k);
    case 6:
        return sw_c_from_k(s->lining_k);
    case 7:
        return sw_c_from_k(s->shell_k);
    case 8:
        return s->lambda <= lambda_shown ? s->lambda : (double)NAN;
    default:
        return s->wood_kg;
    }
}
enum { COLUMNS = 10 };

static sw_status columns_of(sw_run *run, const sw_burn_run *r, double **columns)
{
    for (int k = 0; k < COLUMNS; k++) {
        columns[k] = SW_SCRATCH(run, r->sample_count, double);
        if (columns[k] == NULL) return SW_NO_MEMORY;
        for (size_t i = 0; i < r->sample_count; i++) columns[k][i] = value_of(&r->samples[i], k);
    }
    return SW_OK;
}

sw_status draw_burn(sw_run *run, const sw_dossier *d, sw_pen *pen, sw_box box)
{
    const sw_burn_run *r = d->burned->through;
    double *v[COLUMNS], high_mm = box.y1_mm - box.y0_mm;
    SW_TRY(columns_of(run, r, v));
    size_t n = r->sample_count;
    const chart_line power[] = {{"set free by the fire", v[0], v[1], n, 0, false},
                                {"into the room", v[0], v[2], n, 1, false}};
    const chart_line heat[] = {{"firebox gas", v[0], v[3], n, 0, false},
                               {"flue gas", v[0], v[4], n, 1, false},
                               {"pane", v[0], v[5], n, 2, false},
                               {"hottest lining", v[0], v[6], n, 3, false},
                               {"hottest shell", v[0], v[7], n, 4, false}};
    const chart_line air[] = {{"excess air ratio", v[0], v[8], n, 2, false},
                              {"wood and char left, kg", v[0], v[9], n, 1, false}};
    double end = v[0][n - 1];
    const chart charts[] = {
        {"Power", "", "kW", power, 2, 0, end, NAN, NAN, NULL, 0, false, false},
        {"Temperatures", "", CELSIUS, heat, 5, 0, end, 0, NAN, NULL, 0, false, false},
        {"Air and wood", "minutes from lighting", "", air, 2, 0, end, 0, NAN, NULL, 0, true, false},
    };
    static const double shares[] = {0.27, 0.43, 0.30};
    double y = box.y0_mm;
    for (size_t i = 0; i < 3; i++) {
        sw_box part = {box.x0_mm, y, box.x1_mm, y + shares[i] * high_mm};
        SW_TRY(draw_chart(run, pen, part, &charts[i]));
        y = part.y1_mm;
    }
    return SW_OK;
}
