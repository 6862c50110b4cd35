/* json_trial.c: a test on the stand as JSON (docs/json.md). */
#include "papers/json_parts.h"

#include <math.h>

static void answers(json_out *j, const sw_trial_result *r)
{
    json_begin(j, "answers", '{');
    for (int i = 0; i < SW_ANSWERS; i++) json_number(j, r->answers[i].key, r->answers[i].value);
    json_end(j, '}');
    json_begin(j, "uncertainty", '[');
    for (int i = 0; i < SW_ANSWERS; i++) {
        const sw_trial_answer *a = &r->answers[i];
        json_begin(j, NULL, '{');
        json_text(j, "key", a->key);
        json_text(j, "unit", a->unit);
        json_number(j, "value", a->value);
        json_number(j, "half95", a->half95);
        json_number(j, "u_linear", a->u);
        json_number(j, "u_sampled", a->u_sampled);
        json_number(j, "s_charges", a->cycles.s);
        json_number(j, "half95_charges", a->cycles.half95);
        json_end(j, '}');
    }
    json_end(j, ']');
}

static void charges(json_out *j, const sw_trial_result *r)
{
    json_begin(j, "charges", '[');
    for (size_t i = 0; i < r->cycle_count; i++) {
        const sw_trial_cycle *c = &r->cycles[i];
        json_begin(j, NULL, '{');
        json_number(j, "start_min", sw_min_from_s(c->start_s));
        json_number(j, "end_min", sw_min_from_s(c->end_s));
        json_number(j, "wood_kg", c->wood_kg);
        json_number(j, "co2_dry", c->co2_dry);
        json_number(j, "flue_c", sw_c_from_k(c->flue_k));
        json_number(j, "draught_pa", c->draught_pa);
        json_number(j, "output_w", c->output_w);
        json_number(j, "efficiency", c->fuel_w > 0 ? c->output_w / c->fuel_w : (double)NAN);
        json_truth(j, "counts", c->valid);
        json_text(j, "why", c->valid ? "" : c->why);
        json_end(j, '}');
    }
    json_end(j, ']');
}

static void limits(json_out *j, const sw_trial_result *r)
{
    json_begin(j, "limits", '[');
    for (size_t i = 0; i < r->limit_count; i++) {
        const sw_trial_limit *l = &r->limits[i];
        json_begin(j, NULL, '{');
        json_text(j, "rules", l->rules);
        json_text(j, "key", l->key);
        json_text(j, "unit", l->unit);
        json_text(j, "sense", l->sense == SW_AT_LEAST ? "at_least" : "at_most");
        json_number(j, "limit", l->limit);
        json_number(j, "value", l->value);
        json_number(j, "with_half95", l->high);
        json_text(j, "verdict", sw_verdict_name(l->verdict));
        json_end(j, '}');
    }
    json_end(j, ']');
}

static void comparisons(json_out *j, const sw_trial_result *r)
{
    json_begin(j, "comparisons", '[');
    for (size_t i = 0; i < r->comparison_count; i++) {
        const sw_trial_comparison *c = &r->comparisons[i];
        json_begin(j, NULL, '{');
        json_text(j, "name", c->name);
        json_text(j, "unit", c->unit);
        json_number(j, "measured", c->measured);
        json_number(j, "predicted", c->predicted);
        json_number(j, "u", c->u);
        json_end(j, '}');
    }
    json_end(j, ']');
}

static void declared(json_out *j, const sw_trial_declared *d)
{
    json_begin(j, "declared", '{');
    json_number(j, "flow_kg_s", d->flow_kg_s);
    json_number(j, "flue_c", sw_c_from_k(d->flue_k));
    json_number(j, "draught_pa", d->draught_pa);
    json_number(j, "co2_dry", d->co2_dry);
    json_text(j, "lua", d->lua);
    json_end(j, '}');
}

static void plan(json_out *j, const sw_trial_plan *p)
{
    if (p == NULL) {
        json_nothing(j, "plan");
        return;
    }
    json_begin(j, "plan", '{');
    json_number(j, "charge_kg", p->charge_kg);
    json_number(j, "safety_kg", p->safety_kg);
    json_number(j, "lasts_min", sw_min_from_s(p->lasts_s));
    json_count(j, "steps", p->step_count);
    json_count(j, "sensors", p->sensor_count);
    json_end(j, '}');
}

sw_status sw_paper_trial_json(sw_run *run, const sw_tested *tested, sw_writer *writer)
{
    json_out j = {.out = writer};
    const sw_trial_result *r = tested->result;
    json_begin(&j, NULL, '{');
    json_whole(&j, "schema", 1);
    json_text(&j, "statement", r->statement);
    json_count(&j, "cycles", r->cycle_count);
    json_count(&j, "valid", r->valid_count);
    json_count(&j, "gaps", r->gap_count);
    answers(&j, r);
    json_number(&j, "seasonal_efficiency", r->season.efficiency);
    json_number(&j, "index", r->season.index);
    json_text(&j, "class", r->season.class_);
    charges(&j, r);
    limits(&j, r);
    comparisons(&j, r);
    declared(&j, &r->declared);
    plan(&j, r->plan);
    json_verdicts(&j, &r->findings);
    json_end(&j, '}');
    sw_write_text(writer, "\n");
    return j.broken ? sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "json", "a text of the file is not UTF-8") : SW_OK;
}
