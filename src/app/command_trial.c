/* command_trial.c: a measured test evaluated; with a stove, beside what the model says of it, and with its test plan. */
#include "app/app.h"
#include "proving/trial/trial.h"

#include <math.h>

enum { MEASURED_MOST = 256 << 20 };

typedef struct trial_job {
    sw_run *run;
    const sw_request *request;
    sw_dossier d;
    sw_trial_record record;
    const sw_trial_result *result;
} trial_job;

/* What the stove's model says at its duty; places are its parts. */
static sw_status predict(trial_job *job, sw_trial_predicted *p)
{
    const sw_burned *b = job->d.burned;
    if (b == NULL || b->point == NULL) return SW_OK;
    size_t n = b->scene->part_count;
    const char **names = SW_KEEP(job->run, n + 1, const char *);
    if (names == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < n; i++) names[i] = b->scene->parts[i].name;
    *p = (sw_trial_predicted){.efficiency = b->point->efficiency,
                              .output_w = b->point->output_w,
                              .flue_k = b->point->flue_k,
                              .gas_kg_s = b->point->gas_kg_s,
                              .co2_dry = b->point->gas.co2_dry,
                              .places = names,
                              .places_k = b->hot_k,
                              .place_count = n};
    return SW_OK;
}

/* The second word is the stove. */
static sw_status read_stove(trial_job *job)
{
    if (job->request->word_count < 2) return SW_OK;
    sw_request stove = *job->request;
    stove.words[0] = job->request->words[1];
    stove.word_count = 1;
    return sw_dossier_make(job->run, &stove, SW_DO_BURN, "", &job->d);
}

static sw_status evaluate(trial_job *job)
{
    const sw_request *q = job->request;
    const char *bytes = NULL;
    size_t length = 0;
    if (q->word_count < 1 || q->word_count > 2)
        return sw_fail(
            job->run, SW_BAD_INPUT, (sw_place){0}, "trial",
            "needs the measured file, and perhaps the stove: stovewright trial demo/trial.csv demo/a.stove.lua");
    SW_TRY(sw_file_read(job->run, q->words[0], MEASURED_MOST, &bytes, &length));
    SW_TRY(sw_trial_read(job->run, q->words[0], bytes, length, &job->record));
    SW_TRY(read_stove(job));
    sw_trial_predicted p = {NAN, NAN, NAN, NAN, NAN, NULL, NULL, 0};
    SW_TRY(predict(job, &p));
    const sw_trial_options opt = sw_trial_options_defaults();
    const sw_trial_input in = {&job->record, job->d.model.stove, job->d.model.house, p.place_count > 0 ? &p : NULL};
    SW_TRY(sw_trial_solve(job->run, &in, &opt, &job->result));
    job->d.findings = (sw_findings){0}; /* the test's own alone */
    SW_TRY(sw_dossier_tell(job->run, &job->d, &job->result->findings));
    sw_findings_sort(&job->d.findings);
    return SW_OK;
}

/* ---- screen ------------------------------------------------------------------------------------------------------- */

static void print_cycles(sw_writer *out, const sw_trial_result *r)
{
    sw_print(out, "\n%5s %9s %9s %8s %8s %8s %8s %8s %8s\n", "cycle", "from min", "to min", "wood kg", "CO2 %",
             "flue C", "draught", "kW", "eff %");
    for (size_t i = 0; i < r->cycle_count; i++) {
        const sw_trial_cycle *c = &r->cycles[i];
        sw_print(out, "%5zu %9.1f %9.1f %8.2f %8.1f %8.0f %8.1f %8.2f %8.1f%s%s\n", i + 1, sw_min_from_s(c->start_s),
                 sw_min_from_s(c->end_s), c->wood_kg, 100 * c->co2_dry, sw_c_from_k(c->flue_k), c->draught_pa,
                 c->output_w / 1e3, c->fuel_w > 0 ? 100 * c->output_w / c->fuel_w : (double)NAN,
                 c->valid ? "" : "  not counted: ", c->valid ? "" : c->why);
    }
}

static void print_sheets(sw_writer *out, const sw_trial_result *r)
{
    for (int k = 0; k < SW_SHEETS; k++) {
        sw_print(out, "\n%s\n", r->sheets[k].title);
        for (size_t i = 0; i < r->sheets[k].line_count; i++) {
            const sw_trial_line *l = &r->sheets[k].lines[i];
            sw_print(out, "  %-52s %-24s %s\n", l->label, l->value, l->note);
        }
    }
}

static void print_plan(sw_writer *out, const sw_trial_plan *p)
{
    if (p == NULL) return;
    sw_print(out, "\nTest plan for this stove: charges of %.2f kg, %.1f h\n", p->charge_kg, sw_h_from_s(p->lasts_s));
    for (size_t i = 0; i < p->step_count; i++)
        sw_print(out, "  %-16s %6.0f min for %4.0f min  %s\n", p->steps[i].phase, sw_min_from_s(p->steps[i].start_s),
                 sw_min_from_s(p->steps[i].lasts_s), p->steps[i].what);
    for (size_t i = 0; i < p->sensor_count; i++)
        sw_print(out, "  measure %-24s %-40s %s\n", p->sensors[i].quantity, p->sensors[i].place,
                 p->sensors[i].instrument);
}

static void print(const trial_job *job, sw_writer *out)
{
    const sw_trial_result *r = job->result;
    sw_print(out, "%s\n", r->statement);
    sw_print(out, "%zu gaps, %.0f s together, the longest %.0f s: told, not filled\n", r->gap_count, r->gaps_s,
             r->longest_gap_s);
    print_cycles(out, r);
    sw_print(out, "\n%-34s %12s %12s\n", "mean of the cycles", "value", "+- (95 %)");
    for (int i = 0; i < SW_ANSWERS; i++)
        if (!isnan(r->answers[i].value))
            sw_print(out, "%-34s %12.2f %12.2f %s\n", r->answers[i].name, r->answers[i].value, r->answers[i].half95,
                     r->answers[i].unit);
    if (!isnan(r->season.index))
        sw_print(out, "Seasonal efficiency %.1f %%, index %.1f, class %s\n", 100 * r->season.efficiency,
                 r->season.index, r->season.class_);
    for (size_t i = 0; i < r->comparison_count; i++)
        sw_print(out, "%s%-34s measured %10.3f, by the model %10.3f %s\n", i == 0 ? "\n" : "", r->comparisons[i].name,
                 r->comparisons[i].measured, r->comparisons[i].predicted, r->comparisons[i].unit);
    if (r->declared.lua[0] != '\0') sw_print(out, "\nFor the house: %s\n", r->declared.lua);
    print_sheets(out, r);
    print_plan(out, r->plan);
}

/* ---- json --------------------------------------------------------------------------------------------------------- */

static void json_figure(sw_writer *out, const char *key, double value, const char *after)
{
    if (isfinite(value))
        sw_print(out, "\"%s\": %.10g%s", key, value, after);
    else
        sw_print(out, "\"%s\": null%s", key, after);
}

static void print_json(const trial_job *job, sw_writer *out)
{
    const sw_trial_result *r = job->result;
    sw_print(out, "{\n  \"schema\": 1, \"cycles\": %zu, \"valid\": %zu, \"gaps\": %zu,\n  \"answers\": {",
             r->cycle_count, r->valid_count, r->gap_count);
    for (int i = 0; i < SW_ANSWERS; i++)
        json_figure(out, r->answers[i].key, r->answers[i].value, i + 1 < SW_ANSWERS ? ", " : "},\n  ");
    json_figure(out, "seasonal_efficiency", r->season.efficiency, ", ");
    json_figure(out, "index", r->season.index, ", ");
    sw_print(out, "\"class\": \"%s\",\n  \"declared\": {", r->season.class_);
    json_figure(out, "flow_kg_s", r->declared.flow_kg_s, ", ");
    json_figure(out, "flue_c", sw_c_from_k(r->declared.flue_k), ", ");
    json_figure(out, "draught_pa", r->declared.draught_pa, ", ");
    json_figure(out, "co2_dry", r->declared.co2_dry, "},\n  \"verdicts\": {");
    size_t counts[4] = {0};
    for (size_t i = 0; i < r->findings.count; i++) counts[r->findings.items[i].verdict]++;
    sw_print(out, "\"fails\": %zu, \"watch\": %zu, \"unknown\": %zu, \"holds\": %zu}\n}\n", counts[SW_FAILS],
             counts[SW_WATCH], counts[SW_UNKNOWN], counts[SW_HOLDS]);
}

int sw_command_trial(sw_run *run, const sw_request *request, sw_writer *out)
{
    trial_job job = {.run = run, .request = request};
    sw_status status = evaluate(&job);
    if (status != SW_OK) return sw_exit_of_status(status);
    if (request->json)
        print_json(&job, out);
    else {
        print(&job, out);
        sw_report_findings(out, &job.d, NULL, request->all);
    }
    return sw_exit_of_findings(&job.d.findings, NULL);
}
