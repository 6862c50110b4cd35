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

/* Conditions are the model's, so they need the stove. */
static sw_status check_conditions(sw_run *run, const sw_request *q)
{
    if (q->word_count == 2) return sw_conditions_heeded(run, q, SW_DO_BURN);
    SW_TRY(sw_conditions_check(run, q));
    return q->condition_count == 0 ? SW_OK
                                   : sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "--with",
                                             "changes nothing without a stove; name it behind the measured file: "
                                             "stovewright trial %s STOVE",
                                             q->words[0]);
}

/* The second word is the stove. */
static sw_status read_stove(trial_job *job)
{
    if (job->request->word_count < 2) return SW_OK;
    sw_request stove = *job->request;
    stove.words[0] = job->request->words[1];
    stove.word_count = 1;
    return sw_dossier_make(job->run, &stove, SW_DO_BURN, job->d.date, &job->d);
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
    SW_TRY(check_conditions(job->run, q));
    job->d.date = sw_today(job->run);
    if (job->d.date == NULL) return SW_NO_MEMORY;
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
        sw_print(out, "%5zu %9.1f %9.1f %8.2f", i + 1, sw_min_from_s(c->start_s), sw_min_from_s(c->end_s), c->wood_kg);
        sw_print_cell(out, 8, 1, 100 * c->co2_dry);
        sw_print_cell(out, 8, 0, sw_c_from_k(c->flue_k));
        sw_print_cell(out, 8, 1, c->draught_pa);
        sw_print_cell(out, 8, 2, c->output_w / 1e3);
        sw_print_cell(out, 8, 1, c->fuel_w > 0 ? 100 * c->output_w / c->fuel_w : (double)NAN);
        sw_print(out, "%s%s\n", c->valid ? "" : "  not counted: ", c->valid ? "" : c->why);
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
    if (r->unmodelled[0] != '\0') sw_print(out, "no part of the stove's model: %s\n", r->unmodelled);
    if (r->declared.lua[0] != '\0') sw_print(out, "\nFor the house: %s\n", r->declared.lua);
    print_sheets(out, r);
    print_plan(out, r->plan);
}

/* ---- files ------------------------------------------------------------------------------------------------------- */

static sw_status write_files(const trial_job *job, const sw_folder *folder, const sw_paper_file **files, size_t *count)
{
    const sw_tested tested = {&job->d, &job->record, job->result};
    return sw_papers_trial(job->run, &tested, folder->working, files, count);
}

/* The folder first: an unwritable place should be told before the work, not after it. */
static sw_status work(trial_job *job, sw_folder *folder, const sw_paper_file **files, size_t *count)
{
    if (job->request->out != NULL) SW_TRY(sw_folder_open(job->run, job->request->out, folder));
    SW_TRY(evaluate(job));
    if (job->request->out == NULL) return SW_OK;
    SW_TRY(write_files(job, folder, files, count));
    return sw_folder_publish(job->run, folder);
}

static void print_files(sw_writer *out, const char *folder, const sw_paper_file *files, size_t count)
{
    if (count > 0) sw_print(out, "\nIn %s:\n", folder);
    for (size_t i = 0; i < count; i++) sw_print(out, "  %-13s %s\n", files[i].path, files[i].what);
}

int sw_command_trial(sw_run *run, const sw_request *request, sw_writer *out)
{
    trial_job job = {.run = run, .request = request};
    sw_folder folder = {0};
    const sw_paper_file *files = NULL;
    size_t count = 0;
    sw_status status = work(&job, &folder, &files, &count);
    sw_folder_discard(&folder);
    if (status == SW_OK && request->json) {
        const sw_tested tested = {&job.d, &job.record, job.result};
        status = sw_paper_trial_json(run, &tested, out);
    }
    if (status != SW_OK) return sw_exit_of_status(status);
    if (!request->json) {
        print(&job, out);
        print_files(out, request->out, files, count);
        sw_report_findings(out, &job.d, NULL, request->all);
    }
    return sw_exit_of_findings(&job.d.findings, NULL);
}
