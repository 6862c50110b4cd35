/* fit_measured.c: measured values from a table: read, charted, judged. */
#include "making/fit/fit_parts.h"

#include <math.h>
#include <string.h>

typedef struct value_row { /* one good line of the table */
    const char *piece, *feature, *sample;
    double value, low, high; /* limits NAN = none */
    size_t next;             /* of the same feature; SIZE_MAX = the last */
} value_row;

typedef struct columns {
    size_t piece, feature, sample, value, lower, upper;
} columns;

enum { LINES_MOST = 20000, FEATURES_MOST = 1000 };
static const double most_value = 1e5; /* mm or degrees */

/* ---- reading ---- */

static sw_status find_columns(sw_run *run, const sw_csv *csv, columns *c)
{
    *c = (columns){sw_csv_column(csv, "piece"), sw_csv_column(csv, "feature"), sw_csv_column(csv, "sample"),
                   sw_csv_column(csv, "value"), sw_csv_column(csv, "lower"),   sw_csv_column(csv, "upper")};
    const struct {
        const char *name;
        size_t at;
    } needed[] = {{"piece", c->piece}, {"feature", c->feature}, {"sample", c->sample}, {"value", c->value}};
    sw_status status = SW_OK;
    for (size_t i = 0; i < sizeof needed / sizeof *needed; i++)
        if (needed[i].at == SIZE_MAX)
            status = sw_fail(run, SW_BAD_INPUT, (sw_place){.file = csv->file, .line = 1}, needed[i].name,
                             "no column of this name; the first line must name piece, feature, sample and value");
    return status;
}

static sw_status read_limit(sw_run *run, const sw_csv *csv, size_t row, size_t column, double *limit)
{
    *limit = NAN;
    if (column == SIZE_MAX || sw_csv_cell(csv, row, column)[0] == '\0') return SW_OK;
    return sw_csv_number(run, csv, row, column, -most_value, most_value, limit);
}

/* By number, by name, or by both as papers write them: "A-17 rear jacket". -1: none. */
static int find_piece(const sw_stove *stove, const char *label)
{
    int piece = stove == NULL ? -1 : sw_stove_piece_index(stove, label);
    if (piece >= 0 || stove == NULL) return piece;
    for (size_t i = 0; i < stove->piece_count; i++) {
        const sw_piece *p = &stove->pieces[i];
        size_t length = strlen(p->number);
        if (strncmp(label, p->number, length) == 0 && label[length] == ' ' && strcmp(label + length + 1, p->name) == 0)
            return (int)i;
    }
    return -1;
}

static sw_status check_piece(sw_run *run, const sw_stove *stove, const sw_csv *csv, size_t row, value_row *out)
{
    int piece = find_piece(stove, out->piece);
    if (piece >= 0) out->piece = stove->pieces[piece].number;
    if (stove == NULL || piece >= 0) return SW_OK;
    for (size_t i = 0; i < stove->piece_count; i++) /* sheets go by grade and thickness */
        if (stove->pieces[i].grade != NULL) {
            const char *label =
                sw_text_format(run, run->keep, "%s %g mm", stove->pieces[i].grade->name, stove->pieces[i].thickness_mm);
            if (label == NULL) return SW_NO_MEMORY;
            if (strcmp(label, out->piece) == 0) return SW_OK;
        }
    return sw_fail(
        run, SW_BAD_INPUT, sw_csv_place(csv, row), "piece",
        "\"%.40s\" is no piece of this stove; give its number, its name or both, or a sheet as \"S235 4 mm\"",
        out->piece);
}

static sw_status read_row(sw_run *run, const sw_stove *stove, const sw_csv *csv, const columns *c, size_t row,
                          value_row *out)
{
    size_t before = run->error_count;
    *out = (value_row){.piece = sw_csv_cell(csv, row, c->piece),
                       .feature = sw_csv_cell(csv, row, c->feature),
                       .sample = sw_csv_cell(csv, row, c->sample),
                       .next = SIZE_MAX};
    if (check_piece(run, stove, csv, row, out) == SW_NO_MEMORY) return SW_NO_MEMORY;
    if (out->feature[0] == '\0')
        (void)sw_fail(run, SW_BAD_INPUT, sw_csv_place(csv, row), "feature", "is empty; name what was measured");
    if (out->sample[0] == '\0')
        (void)sw_fail(run, SW_BAD_INPUT, sw_csv_place(csv, row), "sample", "is empty; number the samples");
    (void)sw_csv_number(run, csv, row, c->value, -most_value, most_value, &out->value);
    (void)read_limit(run, csv, row, c->lower, &out->low);
    (void)read_limit(run, csv, row, c->upper, &out->high);
    if (out->low >= out->high)
        (void)sw_fail(run, SW_BAD_INPUT, sw_csv_place(csv, row), "lower", "%g is not below the upper limit %g",
                      out->low, out->high);
    return run->error_count > before ? SW_BAD_INPUT : SW_OK;
}

/* ---- features and their samples ---- */

typedef struct table {
    value_row *rows;
    size_t row_count;
    sw_fit_feature *features;
    size_t *first, *last; /* [feature_count] rows */
    size_t feature_count;
} table;

static bool is_angle(const char *feature)
{
    const char *word = "bend angle";
    size_t n = strlen(feature), k = strlen(word);
    return n >= k && strcmp(feature + n - k, word) == 0;
}

static bool same_limit(double a, double b)
{
    return a == b || (isnan(a) && isnan(b));
}

static sw_status join_feature(sw_run *run, const sw_csv *csv, table *t, size_t row)
{
    value_row *r = &t->rows[row];
    for (size_t f = 0; f < t->feature_count; f++) {
        sw_fit_feature *known = &t->features[f];
        if (strcmp(known->piece, r->piece) != 0 || strcmp(known->feature, r->feature) != 0) continue;
        if (!same_limit(known->low, r->low) || !same_limit(known->high, r->high))
            return sw_fail(run, SW_BAD_INPUT, sw_csv_place(csv, row), "lower",
                           "the limits differ from those of the feature's first line; give the same on every line");
        t->rows[t->last[f]].next = row;
        t->last[f] = row;
        known->count++;
        return SW_OK;
    }
    if (t->feature_count == FEATURES_MOST)
        return sw_fail(run, SW_BAD_INPUT, sw_csv_place(csv, row), "feature",
                       "more than %d features; make several files", FEATURES_MOST);
    size_t f = t->feature_count++;
    t->features[f] = (sw_fit_feature){.piece = r->piece, .feature = r->feature, .count = 1, .low = r->low};
    t->features[f].high = r->high;
    t->features[f].unit = is_angle(r->feature) ? "deg" : "mm";
    t->first[f] = t->last[f] = row;
    return SW_OK;
}

typedef struct sorted { /* values of one feature, sample by sample */
    double *values;
    size_t samples, size; /* size 0: samples of unequal size */
} sorted;

/* Samples in the order of their first value. cost values x samples */
static sw_status sort_samples(sw_run *run, const table *t, size_t f, sorted *out)
{
    size_t n = t->features[f].count, at = 0, i = 0;
    out->values = SW_SCRATCH(run, n, double);
    bool *taken = SW_SCRATCH(run, n, bool);
    if (out->values == NULL || taken == NULL) return SW_NO_MEMORY;
    for (size_t r = t->first[f]; r != SIZE_MAX; r = t->rows[r].next, i++) {
        size_t size = 0, k = i;
        if (taken[i]) continue;
        for (size_t q = r; q != SIZE_MAX; q = t->rows[q].next, k++) {
            if (taken[k] || strcmp(t->rows[q].sample, t->rows[r].sample) != 0) continue;
            taken[k] = true;
            out->values[at++] = t->rows[q].value;
            size++;
        }
        out->size = out->samples == 0 || out->size == size ? size : 0;
        out->samples++;
    }
    return SW_OK;
}

static void find_capability(sw_fit_feature *f)
{
    f->cp = f->cpk = f->ppm = NAN;
    f->cp_interval = f->cpk_interval = (sw_interval){NAN, NAN};
    if (!f->charted) return;
    if (isnan(f->low) && isnan(f->high)) return;
    f->cp = sw_cp(f->low, f->high, f->chart.sigma);
    f->cpk = sw_cpk(isnan(f->low) ? -(double)INFINITY : f->low, isnan(f->high) ? (double)INFINITY : f->high, f->mean,
                    f->chart.sigma);
    if (isnan(f->cpk)) return;
    f->cp_interval = sw_cp_interval(f->cp, f->count, 0.95);
    f->cpk_interval = sw_cpk_interval(f->cpk, f->count, 0.95);
    f->ppm = sw_ppm(f->cpk);
}

static sw_status make_chart(sw_run *run, const table *t, size_t i)
{
    sw_fit_feature *f = &t->features[i];
    sorted s = {0};
    SW_TRY(sort_samples(run, t, i, &s));
    for (size_t k = 0; k < f->count; k++) f->mean += s.values[k] / (double)f->count;
    f->why = "";
    if (s.size == 0)
        f->why = "the samples are not all of one size";
    else if (s.size > 25)
        f->why = "more than 25 values a sample";
    else if (s.samples < (s.size == 1 ? 3U : 2U))
        f->why = "too few samples";
    f->charted = f->why[0] == '\0';
    if (f->charted) SW_TRY(sw_chart_make(run, s.values, s.samples, s.size, false, &f->chart));
    find_capability(f);
    return SW_OK;
}

static sw_status make_charts(sw_run *run, const table *t)
{
    for (size_t i = 0; i < t->feature_count; i++) {
        size_t mark = sw_arena_mark(run->scratch);
        sw_status status = make_chart(run, t, i);
        sw_arena_rewind(run->scratch, mark);
        if (status != SW_OK) return status;
    }
    return SW_OK;
}

static sw_status read_rows(sw_run *run, const sw_stove *stove, const sw_csv *csv, table *t)
{
    columns c;
    SW_TRY(find_columns(run, csv, &c));
    if (csv->row_count > LINES_MOST)
        return sw_fail(run, SW_BAD_INPUT, (sw_place){.file = csv->file}, "", "more than %d lines; make several files",
                       LINES_MOST);
    size_t n = csv->row_count + 1;
    t->rows = SW_SCRATCH(run, n, value_row);
    t->first = SW_SCRATCH(run, n, size_t);
    t->last = SW_SCRATCH(run, n, size_t);
    t->features = SW_KEEP(run, n, sw_fit_feature);
    if (t->rows == NULL || t->first == NULL || t->last == NULL || t->features == NULL) return SW_NO_MEMORY;
    sw_status worst = SW_OK;
    for (size_t i = 0; i < csv->row_count; i++) {
        sw_status status = read_row(run, stove, csv, &c, i, &t->rows[t->row_count]);
        if (status == SW_OK) status = join_feature(run, csv, t, t->row_count);
        if (status == SW_NO_MEMORY) return status;
        if (status != SW_OK) worst = status;
        t->row_count++;
    }
    return worst;
}

static sw_status read_measured(sw_run *run, const sw_stove *stove, const sw_csv *csv, sw_fit_measured *out)
{
    table t = {0};
    SW_TRY(read_rows(run, stove, csv, &t));
    SW_TRY(make_charts(run, &t));
    *out = (sw_fit_measured){t.features, t.feature_count};
    return SW_OK;
}

sw_status sw_fit_read_measured(sw_run *run, const sw_stove *stove, const char *file, const char *bytes, size_t length,
                               sw_fit_measured *out)
{
    sw_csv csv;
    *out = (sw_fit_measured){0};
    sw_status table_status = sw_csv_read(run, file, bytes, length, &csv);
    if (table_status != SW_OK && (table_status != SW_BAD_INPUT || csv.names == NULL || csv.row_count == 0))
        return table_status;
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = read_measured(run, stove, &csv, out);
    sw_arena_rewind(run->scratch, mark);
    if (status == SW_OK) status = table_status;
    if (status != SW_OK) *out = (sw_fit_measured){0};
    return status;
}

/* ---- judged in the study ---- */

/* Limits of the contributor of that piece and feature, where the table gave none. */
static void find_limits(const fit_job *job, sw_fit_feature *f)
{
    for (size_t i = 0; i < job->contributor_count && isnan(f->low) && isnan(f->high); i++) {
        const sw_fit_contributor *c = &job->contributors[i];
        const sw_piece *p = job->in->sheet->pieces[c->piece].piece;
        bool sheet = c->operation == SW_FIT_THICKNESS;
        bool named = sheet ? strncmp(f->piece, c->name, strlen(f->piece)) == 0 : strcmp(f->piece, p->number) == 0;
        if (!named || c->operation == SW_FIT_PLACE || strcmp(f->feature, c->feature) != 0) continue;
        bool angle = c->operation == SW_FIT_ANGLE;
        double nominal = angle ? sw_deg_from_rad(c->nominal) : c->nominal;
        double tolerance = angle ? sw_deg_from_rad(c->tolerance) : c->tolerance;
        if (c->operation == SW_FIT_CUT) tolerance *= sqrt(2.0);
        f->low = nominal - tolerance;
        f->high = nominal + tolerance;
    }
}

static sw_finding start(const sw_fit_feature *f, const char *check, const char *where)
{
    sw_finding out = sw_finding_of("fit", check, where, (sw_place){0});
    out.unit = f->unit;
    out.verdict = SW_FAILS;
    return out;
}

static sw_status add(sw_run *run, fit_job *job, sw_finding f)
{
    if (f.what == NULL || f.where == NULL) return SW_NO_MEMORY;
    SW_TRY(sw_finding_add(run, &job->result->findings, f, 0));
    sw_finding *added = &job->result->findings.items[job->result->findings.count - 1];
    if (added->verdict == SW_HOLDS) added->remedy = "";
    return SW_OK;
}

static sw_status report_control(sw_run *run, fit_job *job, const sw_fit_feature *f, const char *where)
{
    sw_finding c = start(f, "control", where);
    const sw_chart *chart = &f->chart;
    c.verdict = !f->charted ? SW_UNKNOWN : chart->break_count == 0 ? SW_HOLDS : SW_WATCH;
    c.source = "run rules: Western Electric 1956, Nelson 1984 (from memory)";
    c.remedy = f->charted ? "find what changed there before the next batch"
                          : "measure at least two samples of the same size, two to ten pieces each";
    if (!f->charted)
        c.what = sw_text_format(run, run->keep, "%zu values, no chart: %s", f->count, f->why);
    else if (chart->break_count == 0)
        c.what = sw_text_format(run, run->keep, "%zu samples of %zu in control, mean %.3f %s", chart->count,
                                chart->size, f->mean, f->unit);
    else
        c.what = sw_text_format(run, run->keep, "out of control at sample %zu: %s; %zu breaks of rules in %zu samples",
                                chart->breaks[0].point + 1, sw_run_rule_text(chart->breaks[0].rule), chart->break_count,
                                chart->count);
    return add(run, job, c);
}

static sw_status report_capability(sw_run *run, fit_job *job, const sw_fit_feature *f, const char *where)
{
    const double wanted = 1.33; /* common practice, no source: 33 ppm a side */
    sw_finding c = start(f, "capability", where);
    c.sense = SW_AT_LEAST;
    c.value = f->cpk;
    c.limit = wanted;
    c.unit = "";
    c.source = "common practice, no source: Cpk 1.33";
    c.remedy = "centre the process on the nominal, reduce its spread, or allow more where the joints bear it";
    c.what =
        isnan(f->cpk)
            ? sw_text_format(run, run->keep, "no Cpk: %s", f->charted ? "no limits, or no spread at all" : f->why)
            : sw_text_format(run, run->keep, "Cp %.2f (95 %%: %.2f to %.2f), Cpk %.2f (%.2f to %.2f) from %zu values",
                             f->cp, f->cp_interval.low, f->cp_interval.high, f->cpk, f->cpk_interval.low,
                             f->cpk_interval.high, f->count);
    return add(run, job, c);
}

sw_status fit_measured_findings(sw_run *run, fit_job *job)
{
    const sw_fit_measured *in = job->in->measured;
    if (in == NULL || in->feature_count == 0) return SW_OK;
    sw_fit_feature *features = SW_KEEP(run, in->feature_count, sw_fit_feature);
    if (features == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < in->feature_count; i++) {
        features[i] = in->features[i];
        find_limits(job, &features[i]);
        find_capability(&features[i]);
        const char *where = sw_text_format(run, run->keep, "%s, %s", features[i].piece, features[i].feature);
        SW_TRY(report_control(run, job, &features[i], where));
        SW_TRY(report_capability(run, job, &features[i], where));
    }
    job->result->measured = (sw_fit_measured){features, in->feature_count};
    return SW_OK;
}
