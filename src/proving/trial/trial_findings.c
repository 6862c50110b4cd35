/* trial_findings.c: were the readings good enough, was the test run as it should, do the figures agree with each other. */
#include "proving/trial/trial_parts.h"

#include <math.h>

sw_finding trial_finding(const trial_job *job, const char *check, const char *where)
{
    sw_finding f = {.study = "trial", .check = check, .what = "", .where = where, .unit = "", .source = ""};
    f.value = f.limit = f.margin = NAN;
    f.verdict = SW_HOLDS;
    f.remedy = "";
    f.place = (sw_place){.file = job->record->file};
    return f;
}

sw_status trial_add(sw_run *run, trial_job *job, sw_finding f, double watch_margin)
{
    sw_findings *findings = &job->result->findings;
    if (f.what == NULL || f.check == NULL) return SW_NO_MEMORY;
    SW_TRY(sw_finding_add(run, findings, f, watch_margin));
    sw_finding *added = &findings->items[findings->count - 1];
    if (added->verdict == SW_HOLDS) added->remedy = "";
    return SW_OK;
}

static sw_status stated(sw_run *run, trial_job *job, sw_finding f, sw_verdict verdict, const char *remedy)
{
    f.sense = SW_STATED;
    f.verdict = verdict;
    f.remedy = remedy;
    return trial_add(run, job, f, 0);
}

/* ---- readings ---- */

static sw_status column_finding(sw_run *run, trial_job *job, const sw_trial_column *c)
{
    if (c->lost == 0) return SW_OK;
    sw_finding f = trial_finding(job, "lost_readings", c->name);
    f.place.line = c->first_lost_line;
    f.source = "ours: counted, not filled in";
    const char *odd = c->odd == 0 ? ""
                                  : sw_text_format(run, run->keep, "; %zu of them are no usual gap, first \"%s\"",
                                                   c->odd, c->first_odd);
    if (odd == NULL) return SW_NO_MEMORY;
    f.what = sw_text_format(run, run->keep, "%zu of %zu readings are lost, first in line %d%s", c->lost,
                            job->record->row_count, c->first_lost_line, odd);
    double share = (double)c->lost / (double)job->record->row_count;
    return stated(run, job, f, share > 1 - job->opt->coverage_least ? SW_WATCH : SW_HOLDS,
                  "look at the sensor and its cable");
}

sw_status trial_readings_findings(sw_run *run, trial_job *job)
{
    const sw_trial_record *r = job->record;
    const sw_trial_result *out = job->result;
    for (size_t i = 0; i < r->column_count; i++) SW_TRY(column_finding(run, job, &r->columns[i]));
    if (out->gap_count > 0) {
        sw_finding f = trial_finding(job, "gaps", "time");
        f.source = "ours: left out of the means";
        f.what = sw_text_format(run, run->keep,
                                "%zu gaps in time, %.0f s in all, the longest %.0f s; rows come every %.3g s",
                                out->gap_count, out->gaps_s, out->longest_gap_s, r->step_s);
        SW_TRY(stated(run, job, f, SW_WATCH, "look at the logger"));
    }
    if (r->ignored_count > 0) {
        sw_finding f = trial_finding(job, "ignored_columns", "table");
        f.source = "ours";
        f.what = sw_text_format(run, run->keep, "columns not used: %s", r->ignored);
        SW_TRY(stated(run, job, f, SW_HOLDS, ""));
    }
    if (r->repeated_rows > 0) {
        sw_finding f = trial_finding(job, "repeated_rows", "time");
        f.source = "ours: the first row of an instant counts";
        f.what = sw_text_format(run, run->keep, "%zu rows repeat the time before and are left out", r->repeated_rows);
        SW_TRY(stated(run, job, f, SW_WATCH, "look at the logger"));
    }
    return SW_OK;
}

/* ---- how the test was run ---- */

typedef struct band {
    const char *check, *where, *name, *unit;
    double value, low, high;
    const char *source, *remedy;
    bool usual; /* outside is watched, not failed */
} band;

static sw_status add_band(sw_run *run, trial_job *job, band b)
{
    sw_finding f = trial_finding(job, b.check, b.where);
    bool to_low = b.value - b.low < b.high - b.value;
    f.sense = to_low ? SW_AT_LEAST : SW_AT_MOST;
    f.value = b.value;
    f.limit = to_low ? b.low : b.high;
    f.unit = b.unit;
    f.source = b.source;
    f.remedy = b.remedy;
    f.what = isnan(b.value) ? sw_text_format(run, run->keep, "%s was not measured", b.name)
                            : sw_text_format(run, run->keep, "%s is %.4g %s; %g to %g %s", b.name, b.value, b.unit,
                                             b.low, b.high, b.unit);
    SW_TRY(trial_add(run, job, f, 0));
    sw_finding *added = &job->result->findings.items[job->result->findings.count - 1];
    if (b.usual && added->verdict == SW_FAILS) added->verdict = SW_WATCH;
    return SW_OK;
}

static sw_status conditions(sw_run *run, trial_job *job)
{
    const sw_trial_cycle *w = &job->result->whole;
    const char *en = "EN 13240 (from memory)", *range = "range of the short formulas (docs/studies/trial.md)";
    const char *doubt = "take the figures as a hint only";
    SW_TRY(add_band(run, job,
                    (band){"draught", "flue", "the mean draught", "Pa", w->draught_pa, 10, 14,
                           "EN 13240, up to 25 kW (from memory, to be confirmed)", "hold 12 +- 2 Pa", false}));
    SW_TRY(add_band(run, job,
                    (band){"room", "room", "the room", "degC", sw_c_from_k(w->room_k), 15, 25, en,
                           "test in a room of 20 +- 5 degC", false}));
    SW_TRY(add_band(run, job,
                    (band){"range_flue", "flue gas", "the mean flue gas", "degC", sw_c_from_k(w->flue_k), 50, 500,
                           range, doubt, false}));
    SW_TRY(add_band(
        run, job, (band){"range_co2", "flue gas", "the mean CO2", "%", 100 * w->co2_dry, 3, 18, range, doubt, false}));
    return add_band(run, job,
                    (band){"range_co", "flue gas", "the mean CO", "%", 100 * w->co_dry, 0, 2, range, doubt, false});
}

static sw_status gas_agreement(sw_run *run, trial_job *job)
{
    const sw_trial_cycle *w = &job->result->whole;
    bool both =
        sw_trial_column_of(job->record, SW_TRIAL_CO2) != NULL && sw_trial_column_of(job->record, SW_TRIAL_O2) != NULL;
    if (both) {
        double by_o2 = 100 * sw_trial_co2_of_o2(w->o2_dry, job->result->co2_max);
        sw_finding f = trial_finding(job, "gas_balance", "flue gas");
        f.sense = SW_AT_MOST;
        f.value = fabs(100 * w->co2_dry - by_o2);
        f.limit = 0.5;
        f.unit = "%";
        f.source = "stoichiometry of the wood; half a point is ours";
        f.remedy = "calibrate the analysers, look for false air in the sample line";
        f.what = sw_text_format(run, run->keep, "CO2 is %.2f %%, O2 of %.2f %% goes with %.2f %%", 100 * w->co2_dry,
                                100 * w->o2_dry, by_o2);
        SW_TRY(trial_add(run, job, f, 0));
    }
    double loss = 100 * (w->losses.sensible - sw_trial_siegert(w->flue_k, w->room_k, w->co2_dry));
    return add_band(run, job,
                    (band){"siegert", "flue gas", "the flue loss less that of the short Siegert form", "%", loss, -6, 6,
                           "a page of formulas (seen); alarm band only", "look at moisture, temperatures and CO2 again",
                           true});
}

static sw_status cycles(sw_run *run, trial_job *job)
{
    const sw_trial_result *out = job->result;
    sw_finding f = trial_finding(job, "charges", "test");
    f.sense = SW_AT_LEAST;
    f.value = (double)out->valid_count;
    f.limit = 2;
    f.source = "EN 13240 annex A: mean of at least two (from memory)";
    f.remedy = "burn more charges; three are better";
    f.what = sw_text_format(run, run->keep, "%zu of %zu charges count", out->valid_count, out->cycle_count);
    SW_TRY(trial_add(run, job, f, 0));
    for (size_t i = 0; i < out->cycle_count; i++) {
        const sw_trial_cycle *c = &job->cycles[i];
        f = trial_finding(job, "charge", sw_text_format(run, run->keep, "charge %zu", i + 1));
        f.source = "ours";
        if (f.where == NULL) return SW_NO_MEMORY;
        f.what = sw_text_format(run, run->keep, "%s: %.1f %% of it was measured", c->why, 100 * c->coverage);
        bool warming = i < trial_warm_up(job);
        if (!c->valid) SW_TRY(stated(run, job, f, warming ? SW_HOLDS : SW_WATCH, "burn another charge"));
        if (!c->valid) continue;
        f.check = "refuelling";
        f.sense = SW_AT_LEAST;
        f.value = sw_min_from_s(c->end_s - c->start_s);
        f.limit = 45;
        f.unit = "min";
        f.source = "EN 13240: wood, intermittent (a summary seen)";
        f.remedy = "larger charges, less air";
        f.what = sw_text_format(run, run->keep, "%.2f kg burnt in %.1f min", c->wood_kg, f.value);
        SW_TRY(trial_add(run, job, f, 0));
    }
    return SW_OK;
}

/* The scale's fall over a charge beside the wood laid in. Lowest and highest readings would be noise: the first and last minute. */
static sw_status scale_agreement(sw_run *run, trial_job *job)
{
    const sw_trial_column *c = sw_trial_column_of(job->record, SW_TRIAL_SCALE);
    double fell_kg = 0, wood_kg = 0, edge_s = 60 + job->record->step_s;
    if (c == NULL || job->record->charge_count == 0) return SW_OK;
    for (size_t i = 0; i < job->result->cycle_count; i++) {
        const sw_trial_cycle *y = &job->cycles[i];
        double covered_s = 0;
        if (!y->valid) continue;
        double last = trial_mean_over(job, c, y->end_s - edge_s, y->end_s, &covered_s);
        double first = trial_mean_over(job, c, y->start_s - edge_s, y->start_s, &covered_s);
        if (isnan(first) || isnan(last)) continue;
        wood_kg += y->wood_kg;
        fell_kg += first + y->wood_kg - last;
    }
    if (!(wood_kg > 0)) return SW_OK;
    return add_band(run, job,
                    (band){"scale", "scale", "the scale's fall over the charges, of the wood laid in,", "%",
                           100 * fell_kg / wood_kg, 90, 110, "ours: the firebed is then the same again",
                           "end each charge at the same firebed", true});
}

/* ---- surfaces, comparison, house ---- */

static sw_status rises(sw_run *run, trial_job *job)
{
    for (size_t i = 0; i < job->result->rise_count; i++) {
        const sw_trial_rise *r = &job->result->rises[i];
        const sw_trial_rise_limit *l = sw_trial_rise_limit_of(r->spot);
        if (isnan(l->limit_k)) continue;
        sw_finding f = trial_finding(job, "surface", r->place);
        f.sense = SW_AT_MOST;
        f.value = l->absolute ? sw_c_from_k(r->most_k) : r->rise_k;
        f.limit = l->limit_k;
        f.unit = l->absolute ? "degC" : "K";
        f.source = l->source;
        f.remedy = r->spot == SW_SPOT_CORNER ? "declare a larger distance, or a shield"
                                             : "keep the heat away from it, or supply a tool";
        f.what = sw_text_format(run, run->keep, "%s %s: %.1f degC in a room of %.1f, %.1f K over it", r->place, l->name,
                                sw_c_from_k(r->most_k), sw_c_from_k(r->room_k), r->rise_k);
        SW_TRY(trial_add(run, job, f, 0.05));
    }
    return SW_OK;
}

static sw_status comparisons(sw_run *run, trial_job *job)
{
    for (size_t i = 0; i < job->result->comparison_count; i++) {
        const sw_trial_comparison *c = &job->result->comparisons[i];
        sw_finding f = trial_finding(job, "predicted", c->name);
        f.source = "the stove's own model";
        f.what = sw_text_format(run, run->keep, "%s: measured %.4g %s, predicted %.4g, difference %+.3g", c->name,
                                c->measured, c->unit, c->predicted, c->difference);
        bool far = !isnan(c->u) && fabs(c->difference) > 2 * c->u;
        SW_TRY(stated(run, job, f, far ? SW_WATCH : SW_HOLDS, "calibrate the model with the readings of this test"));
    }
    return SW_OK;
}

static sw_status house_value(sw_run *run, trial_job *job, const char *name, double declared, double measured,
                             double room)
{
    if (isnan(declared) || isnan(measured)) return SW_OK;
    sw_finding f = trial_finding(job, "declared", name);
    f.source = "the chimney must be reckoned with what the plate says; the room is ours";
    f.what = sw_text_format(run, run->keep, "the house has %s %.4g, measured is %.4g", name, declared, measured);
    return stated(run, job, f, fabs(declared - measured) > room ? SW_WATCH : SW_HOLDS,
                  "put the measured values into the house");
}

static sw_status house(sw_run *run, trial_job *job)
{
    const sw_house *h = job->in->house;
    const sw_trial_declared *d = &job->result->declared;
    if (h == NULL) return SW_OK;
    SW_TRY(house_value(run, job, "flow [g/s]", TRIAL_KILO * h->declared_kg_s, TRIAL_KILO * d->flow_kg_s,
                       0.05 * TRIAL_KILO * d->flow_kg_s));
    SW_TRY(house_value(run, job, "temperature [degC]", sw_c_from_k(h->declared_k), sw_c_from_k(d->flue_k), 10));
    SW_TRY(house_value(run, job, "draught [Pa]", h->declared_pa, d->draught_pa, 2));
    return house_value(run, job, "CO2 [%]", 100 * h->declared_co2, 100 * d->co2_dry, 0.5);
}

static sw_status output(sw_run *run, trial_job *job)
{
    const sw_stove *s = job->in->stove;
    if (s == NULL) return SW_OK;
    return add_band(run, job,
                    (band){"output", "stove", "the output, of the nominal one,", "%",
                           100 * job->result->whole.output_w / s->duty.output_w, 90, 110,
                           "ours: the declared output is the measured one",
                           "another charge or refuelling time, or declare what was measured", true});
}

static sw_status classified(sw_run *run, trial_job *job)
{
    const sw_trial_season *s = &job->result->season;
    sw_finding f = trial_finding(job, "class", "label");
    f.source = "Regulation (EU) 2015/1186 annex II table 1 (seen)";
    f.what = isnan(s->index) ? "no class without a valid charge"
                             : sw_text_format(run, run->keep, "index %.1f, class %s; seasonal efficiency %.1f %%",
                                              s->index, s->class_, 100 * s->efficiency);
    SW_TRY(stated(run, job, f, isnan(s->index) ? SW_UNKNOWN : SW_HOLDS,
                  isnan(s->index) ? "burn a charge that counts" : ""));
    const sw_trial_features *t = &job->result->features;
    if (!t->low_tested && (t->control > SW_CONTROL_NONE || t->presence || t->window || t->distance)) {
        f = trial_finding(job, "control_bonus", "label");
        f.source = "Regulation (EU) 2015/1185 annex III (seen)";
        f.what =
            "control and its options do not count: emissions at the least output, at most half the nominal, are not told";
        SW_TRY(stated(run, job, f, SW_WATCH, "test at half output or less; then low_tested=1"));
    }
    f = trial_finding(job, "certification", "test");
    f.source = "Regulation (EU) 305/2011, systems of assessment (from memory)";
    f.what = SW_TRIAL_STATEMENT;
    return stated(run, job, f, SW_HOLDS, "");
}

sw_status trial_findings(sw_run *run, trial_job *job)
{
    SW_TRY(cycles(run, job));
    SW_TRY(conditions(run, job));
    SW_TRY(gas_agreement(run, job));
    SW_TRY(scale_agreement(run, job));
    SW_TRY(rises(run, job));
    SW_TRY(output(run, job));
    SW_TRY(comparisons(run, job));
    SW_TRY(house(run, job));
    return classified(run, job);
}
