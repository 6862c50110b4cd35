/* trial_charts.c: the readings over time, thinned to what a page shows. */
#include "proving/trial/trial_parts.h"

#include <math.h>

enum { POINTS_MOST = 480 };

static const char *unit_of(const sw_trial_column *c)
{
    switch (c->of) {
    case SW_TRIAL_CO2:
    case SW_TRIAL_O2:
        return "%";
    case SW_TRIAL_CO:
    case SW_TRIAL_OGC:
    case SW_TRIAL_NOX:
        return c->by_mass ? "mg/m3n" : "ppm";
    case SW_TRIAL_PM:
        return "mg/m3n";
    case SW_TRIAL_DRAUGHT:
        return "Pa";
    case SW_TRIAL_SCALE:
        return "kg";
    default:
        return "degC";
    }
}

static double shown(const sw_trial_column *c, double x)
{
    switch (c->of) {
    case SW_TRIAL_CO2:
    case SW_TRIAL_O2:
        return 100 * x;
    case SW_TRIAL_CO:
    case SW_TRIAL_OGC:
    case SW_TRIAL_NOX:
        return c->by_mass ? x : TRIAL_MEGA * x;
    case SW_TRIAL_PM:
    case SW_TRIAL_DRAUGHT:
    case SW_TRIAL_SCALE:
        return x;
    default:
        return sw_c_from_k(x);
    }
}

/* The mean of the readings of each stretch of time; NAN where all are lost. */
static sw_status thin(sw_run *run, const sw_trial_record *r, const sw_trial_column *c, sw_trial_series *s)
{
    size_t count = r->row_count < POINTS_MOST ? r->row_count : POINTS_MOST, row = 0;
    double *t = SW_KEEP(run, count, double), *x = SW_KEEP(run, count, double);
    double width_s = r->time_s[r->row_count - 1] / (double)count;
    if (t == NULL || x == NULL) return SW_NO_MEMORY;
    for (size_t k = 0; k < count; k++) {
        double sum = 0;
        size_t n = 0;
        bool last = k + 1 == count;
        for (; row < r->row_count && (last || r->time_s[row] < (double)(k + 1) * width_s); row++) {
            if (isnan(c->values[row])) continue;
            sum += c->values[row];
            n++;
        }
        t[k] = ((double)k + 0.5) * width_s;
        x[k] = n > 0 ? shown(c, sum / (double)n) : (double)NAN;
    }
    *s = (sw_trial_series){
        c->of == SW_TRIAL_SURFACE ? c->name : sw_trial_quantity_name(c->of), unit_of(c), c->of, t, x, count};
    return SW_OK;
}

sw_status trial_charts(sw_run *run, trial_job *job)
{
    const sw_trial_record *r = job->record;
    sw_trial_series *series = SW_KEEP(run, r->column_count, sw_trial_series);
    if (series == NULL) return SW_NO_MEMORY;
    job->result->series = series;
    for (size_t i = 0; i < r->column_count; i++)
        SW_TRY(thin(run, r, &r->columns[i], &series[job->result->series_count++]));
    return SW_OK;
}
