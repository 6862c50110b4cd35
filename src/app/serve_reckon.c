/* serve_reckon.c: the handbook's formulas. */
#include "app/serve.h"
#include "reckon/reckon.h"

#include <math.h>
#include <string.h>

static json_t *number_or_null(double value)
{
    return isfinite(value) ? json_real(value) : json_null();
}

static json_t *inputs_of(const sw_reckon *r)
{
    json_t *list = json_array();
    for (size_t i = 0; i < sw_reckon_input_count(r); i++) {
        const sw_reckon_input *in = &r->inputs[i];
        (void)json_array_append_new(list,
                                    json_pack("{s:s, s:s, s:s, s:o, s:o, s:o}", "name", in->name, "unit", in->unit,
                                              "meaning", in->meaning, "preset", number_or_null(in->preset), "low",
                                              number_or_null(in->low), "high", number_or_null(in->high)));
    }
    return list;
}

static json_t *outputs_of(const sw_reckon *r)
{
    json_t *list = json_array();
    for (size_t i = 0; i < sw_reckon_output_count(r); i++)
        (void)json_array_append_new(list, json_pack("{s:s, s:s, s:s}", "name", r->outputs[i].name, "unit",
                                                    r->outputs[i].unit, "meaning", r->outputs[i].meaning));
    return list;
}

void serve_reckon_list(serve_call *call)
{
    json_t *list = json_array();
    for (size_t i = 0; i < sw_reckon_count(); i++) {
        const sw_reckon *r = sw_reckon_at(i);
        (void)json_array_append_new(list, json_pack("{s:s, s:s, s:s, s:s, s:s, s:o, s:o}", "name", r->name, "meaning",
                                                    r->meaning, "formula", r->formula, "range", r->range, "source",
                                                    r->source, "inputs", inputs_of(r), "outputs", outputs_of(r)));
    }
    serve_say_json(call, MHD_HTTP_OK, list);
}

static sw_status solve(serve_call *call, sw_run *run, const json_t *body)
{
    const char *name = json_string_value(json_object_get(body, "name")), *settings[SW_WORDS_MAX];
    const sw_reckon *r = name == NULL ? NULL : sw_reckon_find(name);
    if (r == NULL)
        return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "name", "\"%.60s\" is no formula we have",
                       name == NULL ? "" : name);
    size_t count = 0;
    serve_pairs_read(run, body, "values", settings, &count);
    if (run->error_count > 0) return SW_BAD_INPUT;
    double in[SW_RECKON_INPUTS], out[SW_RECKON_OUTPUTS];
    SW_TRY(sw_reckon_solve(run, r, settings, count, in, out));
    json_t *found = json_object();
    for (size_t i = 0; i < sw_reckon_output_count(r); i++)
        (void)json_object_set_new(found, r->outputs[i].name, number_or_null(out[i]));
    serve_say_json(call, MHD_HTTP_OK,
                   json_pack("{s:s, s:o, s:s, s:s, s:s}", "name", r->name, "outputs", found, "formula", r->formula,
                             "range", r->range, "source", r->source));
    return SW_OK;
}

void serve_reckon(serve_call *call)
{
    serve_work work;
    json_t *body = serve_body(call);
    if (body == NULL) return;
    if (serve_work_open(call, &work)) {
        sw_status status = solve(call, &work.run, body);
        if (status != SW_OK) serve_say_errors(call, &work.run, status);
        serve_work_close(&work);
    }
    json_decref(body);
}
