/* report.c: what the screen says. */
#include "app/app.h"

#include <jansson.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

int sw_exit_of_status(sw_status status)
{
    switch (status) {
    case SW_OK:
        return SW_EXIT_HOLDS;
    case SW_BAD_INPUT:
    case SW_OUT_OF_RANGE:
        return SW_EXIT_INPUT;
    default:
        return SW_EXIT_TROUBLE;
    }
}

void sw_widen(int *letters, const char *text)
{
    size_t length = strlen(text);
    if (length < 200 && (int)length > *letters) *letters = (int)length;
}

double sw_without_sign(double value, int decimals)
{
    return fabs(value) < 0.5 * pow(10, -decimals) ? 0 : value;
}

static bool belongs(const sw_finding *f, const char *study)
{
    return study == NULL || strcmp(f->study, study) == 0;
}

int sw_exit_of_findings(const sw_findings *findings, const char *study)
{
    for (size_t i = 0; i < findings->count; i++)
        if (findings->items[i].verdict == SW_FAILS && belongs(&findings->items[i], study)) return SW_EXIT_FAILS;
    return SW_EXIT_HOLDS;
}

static size_t count_of(const sw_findings *findings, const char *study, sw_verdict verdict)
{
    size_t count = 0;
    for (size_t i = 0; i < findings->count; i++)
        if (findings->items[i].verdict == verdict && belongs(&findings->items[i], study)) count++;
    return count;
}

static void print_finding(sw_writer *out, const sw_finding *f)
{
    sw_print(out, "  %-7s %s / %s: %s\n", sw_verdict_name(f->verdict), f->study, f->check, f->where);
    sw_print(out, "          %s\n", f->what);
    if (f->sense != SW_STATED && !isnan(f->value) && !isnan(f->limit))
        sw_print(out, "          %.4g %s, %s %.4g %s; margin %+.0f %%\n", f->value, f->unit,
                 f->sense == SW_AT_LEAST ? "at least" : "at most", f->limit, f->unit,
                 sw_without_sign(f->margin * 100, 0));
    if (f->remedy[0] != '\0' && f->verdict != SW_HOLDS) sw_print(out, "          do: %s\n", f->remedy);
    sw_print(out, "          source: %s\n", f->source);
}

void sw_report_findings(sw_writer *out, const sw_dossier *d, const char *study, bool all)
{
    const sw_findings *f = &d->findings;
    sw_print(out, "\nFindings: %zu fail, %zu to watch, %zu unknown, %zu hold\n", count_of(f, study, SW_FAILS),
             count_of(f, study, SW_WATCH), count_of(f, study, SW_UNKNOWN), count_of(f, study, SW_HOLDS));
    for (size_t i = 0; i < f->count; i++)
        if (belongs(&f->items[i], study) && (all || f->items[i].verdict != SW_HOLDS)) print_finding(out, &f->items[i]);
    if (!all && count_of(f, study, SW_HOLDS) > 0) sw_print(out, "  (--all lists those that hold)\n");
}

static void print_error(sw_writer *errors, const sw_error *e)
{
    if (e->place.file != NULL && e->place.line > 0)
        sw_print(errors, "%s:%d: ", e->place.file, e->place.line);
    else if (e->place.file != NULL)
        sw_print(errors, "%s: ", e->place.file);
    if (e->field[0] != '\0') sw_print(errors, "%s: ", e->field);
    sw_print(errors, "%s\n", e->text);
}

static json_t *json_of_error(const sw_error *e)
{
    return json_pack("{s:s, s:s, s:i, s:i, s:s, s:s}", "status", sw_status_name(e->status), "file",
                     e->place.file == NULL ? "" : e->place.file, "line", e->place.line, "column", e->place.column,
                     "field", e->field, "text", e->text);
}

static void print_json_errors(const sw_run *run, sw_writer *out)
{
    json_t *list = json_array();
    for (size_t i = 0; i < run->error_count && i < SW_ERROR_MAX; i++)
        (void)json_array_append_new(list, json_of_error(&run->errors[i]));
    json_t *root = json_pack("{s:i, s:o}", "schema", 1, "errors", list);
    char *text = root == NULL ? NULL : json_dumps(root, JSON_INDENT(2));
    if (text != NULL) sw_print(out, "%s\n", text);
    free(text);
    json_decref(root);
}

void sw_report_errors(sw_run *run, const sw_request *request, sw_writer *errors, sw_writer *out)
{
    if (request->json) print_json_errors(run, out);
    size_t kept = run->error_count < SW_ERROR_MAX ? run->error_count : SW_ERROR_MAX;
    for (size_t i = 0; i < kept; i++) print_error(errors, &run->errors[i]);
    if (run->error_count > kept) sw_print(errors, "... and %zu more\n", run->error_count - kept);
    if (kept == 0) return;
    sw_status first = run->errors[0].status;
    sw_print(errors, "stovewright: %s", sw_status_text(first));
    if (sw_status_remedy(first)[0] != '\0') sw_print(errors, "; %s", sw_status_remedy(first));
    sw_print(errors, "\n");
}
