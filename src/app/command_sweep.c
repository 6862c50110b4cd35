/* command_sweep.c: `sweep`: reads the axes, solves the grid, writes the table. */
#include "app/sweep.h"

#include <errno.h>
#include <jansson.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { DESIGNS_MOST = 1000000, COUNT_MOST = 100000 };

/* ---- reading ------------------------------------------------------------------------------------------------ */

/* A number with its unit up to the colon or the end; false when there is none. */
static bool read_bound(sw_run *run, const char *text, double *value, const char **unit, const char **rest)
{
    char *end = NULL;
    errno = 0;
    *value = strtod(text, &end);
    if (end == text || errno != 0 || !isfinite(*value)) return false;
    size_t length = strcspn(end, ":");
    *unit = sw_text_format(run, run->keep, "%.*s", (int)length, end);
    *rest = end + length;
    return *unit != NULL;
}

static sw_status read_axis(sw_run *run, const char *text, sw_sweep_axis *axis)
{
    const char *equals = strchr(text, '='), *rest = equals + 1, *second = "";
    axis->name = sw_text_format(run, run->keep, "%.*s", (int)(equals - text), text);
    if (axis->name == NULL) return SW_NO_MEMORY;
    double count = 0;
    bool whole = read_bound(run, rest, &axis->from, &axis->unit, &rest) && *rest++ == ':' &&
                 read_bound(run, rest, &axis->to, &second, &rest) && *rest++ == ':';
    char *end = NULL;
    if (whole) count = strtod(rest, &end);
    whole = whole && end != rest && *end == '\0' && count >= 1 && count <= COUNT_MOST && count == floor(count);
    if (!whole || strcmp(axis->unit, second) != 0)
        return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "--vary",
                       "\"%s\" is not name=from:to:count with one unit and a whole count from 1 to %d, e.g. "
                       "lining=24mm:30mm:4",
                       text, COUNT_MOST);
    axis->count = (size_t)count;
    axis->condition = sw_is_condition(axis->name);
    return SW_OK;
}

static sw_status read_axes(sw_run *run, const sw_request *request, sw_sweep *s)
{
    if (request->axis_count == 0 || request->axis_count > SW_SWEEP_AXES)
        return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "--vary", "give 1 to %d of it, e.g. --vary lining=24mm:30mm:4",
                       SW_SWEEP_AXES);
    for (int conditions = 0; conditions <= 1; conditions++)
        for (size_t i = 0; i < request->axis_count; i++) {
            sw_sweep_axis axis;
            SW_TRY(read_axis(run, request->axes[i], &axis));
            if (axis.condition == (conditions == 1)) s->axes[s->axis_count++] = axis;
        }
    s->designs = 1;
    for (size_t i = 0; i < s->axis_count; i++) {
        s->designs *= s->axes[i].count;
        if (s->designs > DESIGNS_MOST)
            return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "--vary", "more than %d designs", DESIGNS_MOST);
    }
    return SW_OK;
}

static sw_status add_quantity(sw_run *run, sw_sweep *s, const char *name)
{
    const char *names[64];
    size_t count = sw_quantity_count();
    for (size_t i = 0; i < count; i++) {
        names[i] = sw_quantity_at(i)->name;
        if (strcmp(names[i], name) != 0) continue;
        if (s->quantity_count == SW_SWEEP_QUANTITIES)
            return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "--report", "more than %d quantities",
                           SW_SWEEP_QUANTITIES);
        s->quantities[s->quantity_count++] = sw_quantity_at(i);
        s->work |= sw_quantity_at(i)->work;
        return SW_OK;
    }
    const char *near = sw_text_nearest(name, names, count);
    return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "--report", "\"%s\" is no quantity; %s%s", name,
                   near != NULL ? "did you mean " : "stovewright sweep --help lists them", near != NULL ? near : "");
}

static sw_status read_quantities(sw_run *run, const sw_request *request, sw_sweep *s)
{
    const char *text = request->report == NULL ? "output_kw,efficiency,lambda,flue_c,pane_c,shell_c" : request->report;
    while (*text != '\0') {
        size_t length = strcspn(text, ",");
        const char *name = sw_text_format(run, run->keep, "%.*s", (int)length, text);
        if (name == NULL) return SW_NO_MEMORY;
        (void)add_quantity(run, s, name);
        text += length + (text[length] == ',' ? 1 : 0);
    }
    if ((s->work & SW_DO_LINE) != 0 && request->works == NULL)
        (void)sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "--works",
                      "costs, weld and way of a stove come from a works; add --works FILE");
    return run->error_count == 0 ? SW_OK : SW_BAD_INPUT;
}

sw_status sw_sweep_read(sw_run *run, const sw_request *request, sw_sweep *s)
{
    *s = (sw_sweep){.request = request};
    if (request->word_count != 1)
        return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "sweep", "needs one stove description, %zu given",
                       request->word_count);
    SW_TRY(read_axes(run, request, s));
    return read_quantities(run, request, s);
}

void sw_print_quantities(sw_writer *out)
{
    sw_print(out, "\nQuantities (--report NAME,...):\n");
    for (size_t i = 0; i < sw_quantity_count(); i++)
        sw_print(out, "  %-14s %-6s %s\n", sw_quantity_at(i)->name, sw_quantity_at(i)->unit,
                 sw_quantity_at(i)->meaning);
    sw_print_conditions(out);
}

/* ---- telling --------------------------------------------------------------------------------------------------- */

static void write_csv(sw_writer *out, const sw_sweep *s, const double *values)
{
    for (size_t i = 0; i < s->axis_count; i++)
        sw_print(out, "%s%s%s%s", i == 0 ? "" : ",", s->axes[i].name, s->axes[i].unit[0] == '\0' ? "" : " ",
                 s->axes[i].unit);
    for (size_t k = 0; k < s->quantity_count; k++) sw_print(out, ",%s", s->quantities[k]->name);
    sw_print(out, "\n");
    for (size_t d = 0; d < s->designs; d++) {
        for (size_t i = 0; i < s->axis_count; i++) sw_print(out, "%s%.6g", i == 0 ? "" : ",", sw_sweep_value(s, i, d));
        for (size_t k = 0; k < s->quantity_count; k++) {
            double v = values[d * s->quantity_count + k];
            if (isnan(v))
                sw_print(out, ",");
            else
                sw_print(out, ",%.6g", v);
        }
        sw_print(out, "\n");
    }
}

static json_t *number_or_null(double v)
{
    return isfinite(v) ? json_real(v) : json_null();
}

typedef struct outcome {
    size_t failed;
    const char *why;
    const sw_sweep_surface *surface;
} outcome;

static json_t *off_of(const sw_sweep *s, const sw_sweep_surface *f)
{
    json_t *off = json_object();
    for (size_t k = 0; k < s->quantity_count; k++)
        (void)json_object_set_new(off, s->quantities[k]->name, json_real(f->off[k]));
    return off;
}

static sw_status write_json(sw_run *run, sw_writer *out, const sw_sweep *s, const double *values, outcome told)
{
    json_t *columns = json_array(), *designs = json_array();
    for (size_t i = 0; i < s->axis_count; i++)
        (void)json_array_append_new(columns, json_pack("{s:s, s:s}", "name", s->axes[i].name, "unit", s->axes[i].unit));
    for (size_t k = 0; k < s->quantity_count; k++)
        (void)json_array_append_new(
            columns, json_pack("{s:s, s:s}", "name", s->quantities[k]->name, "unit", s->quantities[k]->unit));
    for (size_t d = 0; d < s->designs; d++) {
        json_t *row = json_array();
        for (size_t i = 0; i < s->axis_count; i++) (void)json_array_append_new(row, json_real(sw_sweep_value(s, i, d)));
        for (size_t k = 0; k < s->quantity_count; k++)
            (void)json_array_append_new(row, number_or_null(values[d * s->quantity_count + k]));
        (void)json_array_append_new(designs, row);
    }
    json_t *root = json_pack("{s:i, s:I, s:I, s:s, s:o, s:o}", "schema", 1, "designs", (json_int_t)s->designs, "failed",
                             (json_int_t)told.failed, "why", told.why, "columns", columns, "rows", designs);
    if (root != NULL && told.surface->degree > 0)
        (void)json_object_set_new(root, "surface",
                                  json_pack("{s:i, s:I, s:I, s:o}", "degree", told.surface->degree, "computed",
                                            (json_int_t)told.surface->computed, "held_back",
                                            (json_int_t)told.surface->held, "off_at_most", off_of(s, told.surface)));
    char *text = root == NULL ? NULL : json_dumps(root, JSON_COMPACT | JSON_REAL_PRECISION(8));
    json_decref(root);
    if (text == NULL) return sw_fail(run, SW_NO_MEMORY, (sw_place){0}, "", "no memory for the answer");
    sw_print(out, "%s\n", text);
    free(text);
    return SW_OK;
}

static sw_status to_file(sw_run *run, const sw_sweep *s, const double *values, const char *path)
{
    sw_writer *file = NULL;
    if (sw_sweep_is_drawn(path)) return sw_sweep_draw(run, s, values, path);
    SW_TRY(sw_writer_to_file(run, path, &file));
    write_csv(file, s, values);
    return sw_writer_close(run, file);
}

static void tell_surface(sw_writer *out, const sw_sweep *s, const sw_sweep_surface *f)
{
    if (f->degree == 0) return;
    sw_print(
        out,
        "%zu of %zu designs computed, the others on a surface of degree %d between them; at %zu computed ones held "
        "back, before the last fit with them, it was off by at most",
        f->computed, s->designs, f->degree, f->held);
    for (size_t k = 0; k < s->quantity_count; k++)
        sw_print(out, "%s %s %.2g%s%s", k == 0 ? "" : ",", s->quantities[k]->name, f->off[k],
                 s->quantities[k]->unit[0] == '\0' ? "" : " ", s->quantities[k]->unit);
    sw_print(out, "\n");
}

static sw_status sweep(sw_run *run, const sw_request *request, sw_writer *out)
{
    sw_sweep s;
    SW_TRY(sw_sweep_read(run, request, &s));
    /* the workbench gives the conditions of its page to every sweep */
    if (strcmp(request->command, "sweep") == 0) SW_TRY(sw_conditions_heeded(run, request, s.work));
    double *values = SW_KEEP(run, s.designs * s.quantity_count, double);
    if (values == NULL) return SW_NO_MEMORY;
    size_t failed = 0;
    const char *why = "";
    double begun_s = sw_seconds();
    sw_sweep_surface surface;
    SW_TRY(sw_sweep_solve_between(run, &s, values, &failed, &why, &surface));
    if (failed == s.designs)
        return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "--vary", "none of %zu designs has an answer; the first: %s",
                       s.designs, why);
    if (request->out != NULL) SW_TRY(to_file(run, &s, values, request->out));
    if (request->json) return write_json(run, out, &s, values, (outcome){failed, why, &surface});
    if (request->out == NULL) write_csv(out, &s, values);
    if (request->out != NULL)
        sw_print(out, "%zu designs in %.1f s, %s in %s\n", s.designs, sw_seconds() - begun_s,
                 sw_sweep_is_drawn(request->out) ? "charts" : "table", request->out);
    tell_surface(out, &s, &surface);
    if (failed > 0) sw_print(out, "%zu of %zu designs have no answer; the first: %s\n", failed, s.designs, why);
    return SW_OK;
}

int sw_command_sweep(sw_run *run, const sw_request *request, sw_writer *out)
{
    return sw_exit_of_status(sweep(run, request, out));
}
