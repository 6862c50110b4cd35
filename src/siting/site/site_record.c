/* site_record.c: judges the readings of the first fire. handbook section 6 */
#include "siting/site/site_parts.h"

#include <math.h>
#include <string.h>

static const double reading_most = 1e5; /* either way: no reading of a first fire is larger */

typedef struct reading {
    bool there;
    double value;
    int line;
} reading;

typedef struct record_job {
    const sw_site_result *site;
    const sw_csv *csv;
    size_t name_column, value_column;
    reading *readings; /* [expected_count] */
} record_job;

/* ---- reading ---- */

static size_t expected_index(const sw_site_result *site, const char *name)
{
    for (size_t i = 0; i < site->expected_count; i++)
        if (strcmp(site->expected[i].name, name) == 0) return i;
    return SIZE_MAX;
}

static sw_status unknown_name(sw_run *run, const record_job *job, size_t row, const char *name)
{
    const char **names = SW_SCRATCH(run, job->site->expected_count + 1, const char *);
    if (names == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < job->site->expected_count; i++) names[i] = job->site->expected[i].name;
    const char *near = sw_text_nearest(name, names, job->site->expected_count);
    return sw_fail(run, SW_BAD_INPUT, sw_csv_place(job->csv, row), "name", "\"%.60s\" is no reading of this record%s%s",
                   name, near == NULL ? "" : "; did you mean ", near == NULL ? "" : near);
}

static sw_status read_answer(sw_run *run, const record_job *job, size_t row, double *value)
{
    const char *text = sw_csv_cell(job->csv, row, job->value_column);
    bool yes = strcmp(text, "yes") == 0;
    *value = yes ? 1 : 0;
    if (yes || strcmp(text, "no") == 0) return SW_OK;
    return sw_fail(run, SW_BAD_INPUT, sw_csv_place(job->csv, row), "value", "\"%.40s\" is neither yes nor no", text);
}

static sw_status read_row(sw_run *run, const record_job *job, size_t row)
{
    const char *name = sw_csv_cell(job->csv, row, job->name_column);
    size_t i = expected_index(job->site, name);
    if (i == SIZE_MAX) return unknown_name(run, job, row, name);
    reading *r = &job->readings[i];
    if (r->line > 0)
        return sw_fail(run, SW_BAD_INPUT, sw_csv_place(job->csv, row), "name", "%s was read before, in line %d", name,
                       r->line);
    r->line = job->csv->lines[row];
    if (sw_csv_cell(job->csv, row, job->value_column)[0] == '\0') return SW_OK; /* left blank: not read */
    r->there = true;
    if (job->site->expected[i].yes_no) return read_answer(run, job, row, &r->value);
    return sw_csv_number(run, job->csv, row, job->value_column, -reading_most, reading_most, &r->value);
}

static sw_status find_column(sw_run *run, const sw_csv *csv, const char *name, size_t *column)
{
    *column = sw_csv_column(csv, name);
    if (*column != SIZE_MAX) return SW_OK;
    const char *near = sw_text_nearest(name, csv->names, csv->column_count);
    return sw_fail(run, SW_BAD_INPUT, (sw_place){.file = csv->file}, name,
                   "there is no column \"%s\"%s%.40s; the first line must name the columns name and value", name,
                   near == NULL ? "" : ", did you mean it by ", near == NULL ? "" : near);
}

/* Every line that can be read, so that all faults are told at once. */
static sw_status read_rows(sw_run *run, record_job *job)
{
    sw_status status = find_column(run, job->csv, "name", &job->name_column),
              one = find_column(run, job->csv, "value", &job->value_column);
    if (status != SW_OK || one != SW_OK) return SW_BAD_INPUT;
    for (size_t row = 0; row < job->csv->row_count; row++) {
        one = read_row(run, job, row);
        if (one == SW_NO_MEMORY) return one;
        if (one != SW_OK) status = one;
    }
    return status;
}

/* ---- judging ---- */

static double or_else(double a, double b)
{
    return isnan(a) ? b : a;
}

static sw_verdict judged(const sw_expected *e, double value)
{
    if (e->yes_no) return value == e->expected ? SW_HOLDS : SW_FAILS;
    if (value < or_else(e->stop_low, e->low) || value > or_else(e->stop_high, e->high)) return SW_FAILS;
    return value < e->low || value > e->high ? SW_WATCH : SW_HOLDS;
}

static const char *band_text(sw_run *run, const sw_expected *e)
{
    if (!isnan(e->low) && !isnan(e->high))
        return sw_text_format(run, run->keep, "%.4g to %.4g %s", e->low, e->high, e->unit);
    if (!isnan(e->high)) return sw_text_format(run, run->keep, "at most %.4g %s", e->high, e->unit);
    if (!isnan(e->low)) return sw_text_format(run, run->keep, "at least %.4g %s", e->low, e->unit);
    return isnan(e->expected) ? "free" : sw_text_format(run, run->keep, "expected %.4g %s", e->expected, e->unit);
}

static const char *reading_text(sw_run *run, const sw_expected *e, double value)
{
    if (e->yes_no)
        return sw_text_format(run, run->keep, "%s: %s, must be %s (%s)", e->name, value != 0 ? "yes" : "no",
                              e->expected != 0 ? "yes" : "no", e->when);
    const char *band = band_text(run, e);
    return band == NULL
               ? NULL
               : sw_text_format(run, run->keep, "%s: %.4g %s, %s (%s)", e->name, value, e->unit, band, e->when);
}

/* The side of the band that is nearer to being left. */
static void set_limit(sw_finding *f, const sw_expected *e)
{
    bool low = isnan(e->high) || (!isnan(e->low) && f->value - e->low < e->high - f->value);
    f->sense = low ? SW_AT_LEAST : SW_AT_MOST;
    f->limit = low ? e->low : e->high;
}

static sw_status judge(sw_run *run, const record_job *job, size_t i, sw_findings *findings)
{
    const sw_expected *e = &job->site->expected[i];
    const reading *r = &job->readings[i];
    sw_finding f = {.study = "site", .check = "first_fire", .where = e->name, .sense = SW_STATED, .unit = ""};
    f.place = (sw_place){.file = job->csv->file, .line = r->line};
    f.source = e->source;
    f.remedy = r->there ? e->remedy : "read it at the next fire and record it";
    f.value = f.limit = f.margin = NAN;
    f.verdict = r->there ? judged(e, r->value) : SW_UNKNOWN;
    f.what = r->there ? reading_text(run, e, r->value)
                      : sw_text_format(run, run->keep, "%s was not read (%s)", e->name, e->when);
    if (f.what == NULL) return SW_NO_MEMORY;
    sw_verdict verdict = f.verdict;
    if (verdict == SW_HOLDS) f.remedy = "";
    if (r->there && !e->yes_no && !(isnan(e->low) && isnan(e->high))) {
        f.value = r->value;
        f.unit = e->unit;
        set_limit(&f, e);
    }
    SW_TRY(sw_finding_add(run, findings, f, 0));
    findings->items[findings->count - 1].verdict = verdict; /* between band and stop it is watched */
    return SW_OK;
}

static sw_status judge_all(sw_run *run, const sw_csv *csv, const sw_site_result *site, sw_findings *findings)
{
    record_job job = {.site = site, .csv = csv, .readings = SW_SCRATCH(run, site->expected_count + 1, reading)};
    if (job.readings == NULL) return SW_NO_MEMORY;
    SW_TRY(read_rows(run, &job));
    for (size_t i = 0; i < site->expected_count; i++) SW_TRY(judge(run, &job, i, findings));
    sw_findings_sort(findings);
    return SW_OK;
}

sw_status sw_site_record(sw_run *run, const sw_site_result *site, const char *file, const char *bytes, size_t length,
                         sw_findings *findings)
{
    sw_csv csv;
    sw_findings none = {0};
    sw_status read = sw_csv_read(run, file, bytes, length, &csv);
    if (read != SW_OK && (read != SW_BAD_INPUT || csv.column_count == 0)) return read;
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = judge_all(run, &csv, site, read == SW_OK ? findings : &none);
    sw_arena_rewind(run->scratch, mark);
    return read != SW_OK ? read : status;
}
