/* trial_compare.c: measured beside predicted, readings for the model's calibration, values a house may use. */
#include "proving/trial/trial_parts.h"

#include <math.h>
#include <string.h>

static void compare(sw_trial_result *out, sw_trial_comparison *rows, sw_trial_comparison row)
{
    if (isnan(row.predicted) || isnan(row.measured)) return;
    row.difference = row.measured - row.predicted;
    rows[out->comparison_count++] = row;
}

static double surface_mean_k(const trial_job *job, const char *place)
{
    const sw_trial_record *r = job->record;
    double area = 0, s = 0;
    for (size_t i = 0; i < r->column_count; i++) {
        const sw_trial_column *c = &r->columns[i];
        if (c->of != SW_TRIAL_SURFACE || strcmp(c->name, place) != 0) continue;
        for (size_t k = 0; k < job->result->cycle_count; k++) {
            double covered_s = 0;
            if (!job->cycles[k].valid) continue;
            double mean = trial_mean_over(job, c, job->cycles[k].start_s, job->cycles[k].end_s, &covered_s);
            if (covered_s <= 0) continue;
            area += mean * covered_s;
            s += covered_s;
        }
    }
    return s > 0 ? area / s : (double)NAN;
}

/* The first row behind `row` at or after the next whole number of steps; each row at most once. */
static size_t next_row(const sw_trial_record *r, size_t row, double from_s, double every_s)
{
    double steps = floor((r->time_s[row] - from_s) / every_s) + 1;
    if (!(from_s + steps * every_s > r->time_s[row])) steps += 1; /* the quotient was rounded down */
    size_t next = trial_row_from(r, from_s + steps * every_s);
    return next > row ? next : row + 1;
}

/* Whether the model has such a place; without a model anything may be one. */
static bool is_modelled(const sw_trial_predicted *p, const sw_trial_column *c)
{
    if (c->of == SW_TRIAL_FLUE) return true;
    if (c->of != SW_TRIAL_SURFACE) return false;
    if (p == NULL) return true;
    for (size_t i = 0; i < p->place_count; i++)
        if (strcmp(p->places[i], c->name) == 0) return true;
    return false;
}

/* "door handle, rear corner": surfaces that are no part of the model. */
static sw_status list_unmodelled(sw_run *run, trial_job *job)
{
    const sw_trial_record *r = job->record;
    const char *list = "";
    for (size_t i = 0; i < r->column_count && list != NULL; i++) {
        const sw_trial_column *c = &r->columns[i];
        if (c->of != SW_TRIAL_SURFACE || is_modelled(job->in->predicted, c)) continue;
        list = sw_text_format(run, run->keep, "%s%s%s", list, list[0] == '\0' ? "" : ", ", c->name);
    }
    job->result->unmodelled = list;
    return list == NULL ? SW_NO_MEMORY : SW_OK;
}

static sw_status readings(sw_run *run, trial_job *job)
{
    const sw_trial_record *r = job->record;
    sw_trial_result *out = job->result;
    double from_s = out->charges[0].time_s, last_s = r->time_s[r->row_count - 1], every_s = job->opt->reading_every_s;
    size_t most = (size_t)((last_s - from_s) / every_s) + 2, columns = r->column_count;
    if (most > r->row_count) most = r->row_count;
    sw_trial_reading *list = SW_KEEP(run, most * columns, sw_trial_reading);
    if (list == NULL) return SW_NO_MEMORY;
    out->readings = list;
    for (size_t row = trial_row_from(r, from_s); row < r->row_count; row = next_row(r, row, from_s, every_s)) {
        for (size_t i = 0; i < columns; i++) {
            const sw_trial_column *c = &r->columns[i];
            if (!is_modelled(job->in->predicted, c) || isnan(c->values[row])) continue;
            list[out->reading_count++] = (sw_trial_reading){r->time_s[row] - from_s, c->values[row],
                                                            c->of == SW_TRIAL_FLUE ? "flue gas" : c->name};
        }
    }
    return SW_OK;
}

sw_status trial_compare(sw_run *run, trial_job *job)
{
    enum { FIXED = 5 };
    const sw_trial_predicted *p = job->in->predicted;
    sw_trial_result *out = job->result;
    const sw_trial_cycle *w = &out->whole;
    const sw_trial_answer *a = out->answers;
    SW_TRY(readings(run, job));
    SW_TRY(list_unmodelled(run, job));
    if (p == NULL || !w->valid) return SW_OK;
    sw_trial_comparison *rows = SW_KEEP(run, FIXED + p->place_count, sw_trial_comparison);
    if (rows == NULL) return SW_NO_MEMORY;
    out->comparisons = rows;
    compare(out, rows, (sw_trial_comparison){"efficiency", "%", a[0].value, 100 * p->efficiency, 0, a[0].half95 / 2});
    compare(out, rows,
            (sw_trial_comparison){"heat output", "kW", a[1].value, p->output_w / TRIAL_KILO, 0, a[1].half95 / 2});
    compare(out, rows,
            (sw_trial_comparison){"flue gas", "degC", sw_c_from_k(w->flue_k), sw_c_from_k(p->flue_k), 0,
                                  job->opt->u_flue_k});
    compare(out, rows,
            (sw_trial_comparison){"gas flow", "g/s", TRIAL_KILO * w->gas_kg_s, TRIAL_KILO * p->gas_kg_s, 0, NAN});
    compare(out, rows, (sw_trial_comparison){"CO2", "%", 100 * w->co2_dry, 100 * p->co2_dry, 0, 100 * job->opt->u_co2});
    for (size_t i = 0; i < p->place_count; i++)
        compare(out, rows,
                (sw_trial_comparison){p->places[i], "degC", sw_c_from_k(surface_mean_k(job, p->places[i])),
                                      sw_c_from_k(p->places_k[i]), 0, job->opt->u_flue_k});
    return SW_OK;
}

sw_status trial_declare(sw_run *run, trial_job *job)
{
    const sw_trial_cycle *w = &job->result->whole;
    sw_trial_declared *d = &job->result->declared;
    *d = (sw_trial_declared){w->gas_kg_s, w->flue_k, w->draught_pa, w->co2_dry, w->output_w, isnan(w->draught_pa), ""};
    if (!w->valid) return SW_OK;
    double draught_pa = d->draught_assumed ? 12 : d->draught_pa; /* that of the test, EN 13240 (from memory) */
    d->lua =
        sw_text_format(run, run->keep,
                       "declared { flow = %.3g*g/s, temperature = %.0f*degC, draught = %.3g*Pa, co2 = %.3g*percent }%s",
                       TRIAL_KILO * d->flow_kg_s, sw_c_from_k(d->flue_k), draught_pa, 100 * d->co2_dry,
                       d->draught_assumed ? " -- draught was not measured: assumed" : "");
    return d->lua == NULL ? SW_NO_MEMORY : SW_OK;
}

static void write_row(sw_writer *writer, double time_s, const char *place, double value)
{
    sw_print(writer, "%.4f,", sw_min_from_s(time_s));
    sw_csv_write_text(writer, place);
    sw_print(writer, ",%.3f\n", value);
}

void sw_trial_write_hot_test(sw_writer *writer, const sw_trial_result *result)
{
    double from_s = result->charge_count > 0 ? result->charges[0].time_s : 0;
    size_t charge = 0;
    sw_print(writer, "time_min,place,value\n");
    for (size_t i = 0; i < result->reading_count; i++) {
        const sw_trial_reading *r = &result->readings[i];
        for (; charge < result->charge_count && result->charges[charge].time_s - from_s <= r->time_s; charge++)
            write_row(writer, result->charges[charge].time_s - from_s, "wood", result->charges[charge].wood_kg);
        write_row(writer, r->time_s, r->place, sw_c_from_k(r->t_k));
    }
}
