/* trial_rises.c: how much hotter than the room the surfaces became, against the limits of the room heater standards. */
#include "proving/trial/trial_parts.h"

#include <math.h>
#include <string.h>

#define EN "EN 13240:2001 cl. 5, EN 16510-1 (from memory)"
static const sw_trial_rise_limit limits[] = {
    [SW_SPOT_PART] = {"part", (double)NAN, false, ""},
    [SW_SPOT_METAL] = {"metal handle", 35, false, EN ": operated by hand; or a tool is supplied"},
    [SW_SPOT_ENAMEL] = {"enamel handle", 45, false, EN ": operated by hand; or a tool is supplied"},
    [SW_SPOT_PLASTIC] = {"plastic handle", 60, false,
                         EN ": plastic, rubber or wood operated by hand; or a tool is supplied"},
    [SW_SPOT_STORE] = {"fuel store", 65, false, EN},
    [SW_SPOT_CORNER] = {"test corner", 65, false, EN "; 85 degC in German law (seen)"},
    [SW_SPOT_HEARTH] = {"hearth", 100, true, "Approved Document J, 12 mm hearths (seen)"},
};

const sw_trial_rise_limit *sw_trial_rise_limit_of(sw_trial_spot spot)
{
    return &limits[(size_t)spot < SW_SPOTS ? spot : SW_SPOT_PART];
}

static sw_trial_spot spot_of(const sw_trial_record *r, const char *place)
{
    for (size_t i = 0; i < r->surface_count; i++)
        if (strcmp(r->surfaces[i].name, place) == 0) return r->surfaces[i].spot;
    return strstr(place, "handle") != NULL ? SW_SPOT_METAL : SW_SPOT_PART; /* the strictest, unless told */
}

/* Over the whole file, warming up and safety test included: a hand does not wait for the test period. */
static sw_trial_rise rise_of(const trial_job *job, const sw_trial_column *c)
{
    const sw_trial_record *r = job->record;
    const double *room_k = sw_trial_column_of(r, SW_TRIAL_ROOM)->values;
    sw_trial_rise rise = {c->name, spot_of(r, c->name), NAN, NAN, NAN, NAN};
    for (size_t i = 0; i < r->row_count; i++) {
        double over_k = c->values[i] - room_k[i];
        if (isnan(over_k) || over_k <= rise.rise_k) continue;
        rise = (sw_trial_rise){c->name, rise.spot, c->values[i], room_k[i], r->time_s[i], over_k};
    }
    return rise;
}

sw_status trial_rises(sw_run *run, trial_job *job)
{
    const sw_trial_record *r = job->record;
    sw_trial_rise *rises = SW_KEEP(run, r->column_count, sw_trial_rise);
    if (rises == NULL) return SW_NO_MEMORY;
    job->result->rises = rises;
    for (size_t i = 0; i < r->column_count; i++)
        if (r->columns[i].of == SW_TRIAL_SURFACE) rises[job->result->rise_count++] = rise_of(job, &r->columns[i]);
    return SW_OK;
}
