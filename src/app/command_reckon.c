/* command_reckon.c: one handbook formula. */
#include "app/app.h"
#include "reckon/reckon.h"

#include <jansson.h>
#include <math.h>
#include <stdlib.h>

static void print_list(sw_writer *out)
{
    sw_print(out, "Handbook formulas; stovewright reckon NAME --help tells the inputs.\n\n");
    for (size_t i = 0; i < sw_reckon_count(); i++)
        sw_print(out, "  %-22s %s\n", sw_reckon_at(i)->name, sw_reckon_at(i)->meaning);
}

static void print_inputs(sw_writer *out, const sw_reckon *r)
{
    sw_print(out, "%s: %s\n\n  %s\n  range: %s\n  source: %s\n\nInputs:\n", r->name, r->meaning, r->formula, r->range,
             r->source);
    for (size_t i = 0; i < sw_reckon_input_count(r); i++) {
        const sw_reckon_input *in = &r->inputs[i];
        sw_print(out, "  %-8s %-7s %s, %g to %g", in->name, in->unit, in->meaning, in->low, in->high);
        if (!isnan(in->preset)) sw_print(out, " (else %g)", in->preset);
        sw_print(out, "\n");
    }
    sw_print(out, "Gives:\n");
    for (size_t i = 0; i < sw_reckon_output_count(r); i++)
        sw_print(out, "  %-8s %-7s %s\n", r->outputs[i].name, r->outputs[i].unit, r->outputs[i].meaning);
}

static void print_answer(sw_writer *out, const sw_reckon *r, const double *in, const double *answer)
{
    sw_print(out, "%s: %s\n  %s\n", r->name, r->meaning, r->formula);
    for (size_t i = 0; i < sw_reckon_input_count(r); i++)
        sw_print(out, "  %-8s = %.8g %s\n", r->inputs[i].name, in[i], r->inputs[i].unit);
    sw_print(out, "\n");
    for (size_t i = 0; i < sw_reckon_output_count(r); i++) {
        if (isnan(answer[i]))
            sw_print(out, "  %-8s   outside the formula's range (%s)\n", r->outputs[i].name, r->range);
        else
            sw_print(out, "  %-8s = %.8g %s   %s\n", r->outputs[i].name, answer[i], r->outputs[i].unit,
                     r->outputs[i].meaning);
    }
    sw_print(out, "  source: %s\n", r->source);
}

/* Takes root, NULL = no memory. */
static void print_root(sw_writer *out, json_t *root)
{
    char *text = root == NULL ? NULL : json_dumps(root, JSON_INDENT(2) | JSON_REAL_PRECISION(12));
    if (text != NULL) sw_print(out, "%s\n", text);
    free(text);
    json_decref(root);
}

static json_t *number_or_null(double value)
{
    return isfinite(value) ? json_real(value) : json_null();
}

static void print_json(sw_writer *out, const sw_reckon *r, const double *in, const double *answer)
{
    json_t *given = json_object(), *found = json_object();
    for (size_t i = 0; i < sw_reckon_input_count(r); i++)
        (void)json_object_set_new(given, r->inputs[i].name, number_or_null(in[i]));
    for (size_t i = 0; i < sw_reckon_output_count(r); i++)
        (void)json_object_set_new(found, r->outputs[i].name, number_or_null(answer[i]));
    json_t *root = json_pack("{s:i, s:s, s:s, s:s, s:s, s:o, s:o}", "schema", 1, "name", r->name, "formula", r->formula,
                             "range", r->range, "source", r->source, "inputs", given, "outputs", found);
    print_root(out, root);
}

static json_t *json_of_inputs(const sw_reckon *r)
{
    json_t *list = json_array();
    for (size_t i = 0; i < sw_reckon_input_count(r); i++) {
        const sw_reckon_input *in = &r->inputs[i];
        (void)json_array_append_new(list, json_pack("{s:s, s:s, s:s, s:o, s:f, s:f}", "name", in->name, "unit",
                                                    in->unit, "meaning", in->meaning, "preset",
                                                    number_or_null(in->preset), "low", in->low, "high", in->high));
    }
    return list;
}

static json_t *json_of_outputs(const sw_reckon *r)
{
    json_t *list = json_array();
    for (size_t i = 0; i < sw_reckon_output_count(r); i++)
        (void)json_array_append_new(list, json_pack("{s:s, s:s, s:s}", "name", r->outputs[i].name, "unit",
                                                    r->outputs[i].unit, "meaning", r->outputs[i].meaning));
    return list;
}

static json_t *json_of_formula(const sw_reckon *r)
{
    return json_pack("{s:s, s:s, s:s, s:s, s:s, s:o, s:o}", "name", r->name, "meaning", r->meaning, "formula",
                     r->formula, "range", r->range, "source", r->source, "inputs", json_of_inputs(r), "outputs",
                     json_of_outputs(r));
}

/* only: one formula, NULL = all. */
static void print_json_list(sw_writer *out, const sw_reckon *only)
{
    json_t *list = json_array();
    for (size_t i = 0; i < sw_reckon_count(); i++)
        if (only == NULL || only == sw_reckon_at(i))
            (void)json_array_append_new(list, json_of_formula(sw_reckon_at(i)));
    print_root(out, json_pack("{s:i, s:o}", "schema", 1, "formulas", list));
}

static const sw_reckon *find_or_fail(sw_run *run, const char *name)
{
    const sw_reckon *r = sw_reckon_find(name);
    if (r != NULL) return r;
    size_t count = sw_reckon_count();
    const char **names = SW_SCRATCH(run, count, const char *);
    for (size_t i = 0; names != NULL && i < count; i++) names[i] = sw_reckon_at(i)->name;
    const char *near = names == NULL ? NULL : sw_text_nearest(name, names, count);
    if (near != NULL)
        (void)sw_fail(run, SW_BAD_INPUT, (sw_place){0}, name, "is no formula we have; did you mean %s?", near);
    else
        (void)sw_fail(run, SW_BAD_INPUT, (sw_place){0}, name, "is no formula we have; stovewright reckon lists them");
    return NULL;
}

int sw_command_reckon(sw_run *run, const sw_request *request, sw_writer *out)
{
    if (request->word_count == 0) {
        if (request->json)
            print_json_list(out, NULL);
        else
            print_list(out);
        return SW_EXIT_HOLDS;
    }
    const sw_reckon *r = find_or_fail(run, request->words[0]);
    if (r == NULL) return SW_EXIT_INPUT;
    if (request->help) {
        if (request->json)
            print_json_list(out, r);
        else
            print_inputs(out, r);
        return SW_EXIT_HOLDS;
    }
    double in[SW_RECKON_INPUTS], answer[SW_RECKON_OUTPUTS];
    sw_status status = sw_reckon_solve(run, r, request->words + 1, request->word_count - 1, in, answer);
    if (status != SW_OK) return sw_exit_of_status(status);
    if (request->json)
        print_json(out, r, in, answer);
    else
        print_answer(out, r, in, answer);
    return SW_EXIT_HOLDS;
}
