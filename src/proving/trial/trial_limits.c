/* trial_limits.c: the results against the rules chosen, each with its half width to the bad side. */
#include "proving/trial/trial_rules.h"

#include <math.h>

static bool chosen(const sw_trial_options *o, trial_regime regime)
{
    const double asked[] = {1, o->eu, o->germany, o->uk, o->us};
    return asked[regime] >= 0.5;
}

static size_t kind_of(const sw_trial_options *o)
{
    return o->pellets >= 0.5 ? 2 : o->open >= 0.5 ? 1 : 0;
}

typedef struct judged {
    double value, half; /* half: 95 % half width */
} judged;

/* g/h = mg/m3n at 13 % x V_13 x kg/h. */
static judged dust_rate(const trial_job *job)
{
    const sw_trial_answer *a = &job->result->answers[SW_ANSWER_PM];
    const sw_trial_cycle *w = &job->result->whole;
    double kg_h = sw_s_from_h(w->fuel_w / job->result->wood.lhv);
    double rate = sw_trial_dry_m3n_at_13(job->result->wood.c) * kg_h / TRIAL_KILO;
    return (judged){a->value * rate, a->half95 * rate};
}

static judged value_of(const trial_job *job, trial_of of)
{
    const sw_trial_answer *a = job->result->answers;
    switch (of) {
    case TRIAL_EFFICIENCY:
        return (judged){a[SW_ANSWER_EFFICIENCY].value, a[SW_ANSWER_EFFICIENCY].half95};
    case TRIAL_SEASON:
        return (judged){100 * job->result->season.efficiency, a[SW_ANSWER_EFFICIENCY].half95};
    case TRIAL_CO_13:
        return (judged){a[SW_ANSWER_CO].value, a[SW_ANSWER_CO].half95};
    case TRIAL_OGC_13:
        return (judged){a[SW_ANSWER_OGC].value, a[SW_ANSWER_OGC].half95};
    case TRIAL_NOX_13:
        return (judged){a[SW_ANSWER_NOX].value, a[SW_ANSWER_NOX].half95};
    case TRIAL_PM_13:
        return (judged){a[SW_ANSWER_PM].value, a[SW_ANSWER_PM].half95};
    default:
        return dust_rate(job);
    }
}

static const char *sentence(sw_run *run, const sw_trial_limit *l, judged v)
{
    if (isnan(l->value))
        return sw_text_format(run, run->keep, "%s: %s was not measured; %s %g %s", l->rules, l->name,
                              l->sense == SW_AT_LEAST ? "at least" : "at most", l->limit, l->unit);
    if (isnan(v.half))
        return sw_text_format(run, run->keep, "%s: %s %.4g %s, how surely is not known; %s %g", l->rules, l->name,
                              l->value, l->unit, l->sense == SW_AT_LEAST ? "at least" : "at most", l->limit);
    return sw_text_format(run, run->keep, "%s: %s %.4g +- %.3g %s; %s %g", l->rules, l->name, l->value, v.half, l->unit,
                          l->sense == SW_AT_LEAST ? "at least" : "at most", l->limit);
}

/* A value that holds, but not with its half width or with none known, is watched: the next test may fail. */
static sw_status judge(sw_run *run, trial_job *job, const trial_rule *rule, sw_trial_limit *l)
{
    judged v = value_of(job, rule->of);
    double bad = rule->sense == SW_AT_LEAST ? -v.half : v.half;
    *l = (sw_trial_limit){.rules = rule->rules,
                          .name = rule->name,
                          .key = rule->key,
                          .unit = rule->unit,
                          .sense = rule->sense,
                          .source = rule->source};
    l->limit = rule->limits[kind_of(job->opt)];
    if (rule->of == TRIAL_SMOKE) l->limit = sw_trial_smoke_limit_g_h(job->result->whole.output_w, l->limit);
    l->value = v.value;
    l->high = v.value + bad;
    sw_finding f = trial_finding(job, sw_text_format(run, run->keep, "limit_%s", rule->key), rule->rules);
    f.sense = l->sense;
    f.value = l->value;
    f.limit = l->limit;
    f.unit = l->unit;
    f.source = l->source;
    f.remedy = isnan(v.value) ? "measure it" : "better combustion, or more repeats so that the mean is surer";
    f.what = sentence(run, l, v);
    if (f.check == NULL || f.what == NULL) return SW_NO_MEMORY;
    SW_TRY(trial_add(run, job, f, isnan(v.half) ? (double)INFINITY : v.half / fabs(l->limit)));
    const sw_finding *added = &job->result->findings.items[job->result->findings.count - 1];
    l->margin = added->margin;
    l->verdict = added->verdict;
    return SW_OK;
}

sw_status trial_limits(sw_run *run, trial_job *job)
{
    size_t count = 0;
    const trial_rule *rules = trial_rules(&count);
    sw_trial_limit *limits = SW_KEEP(run, count, sw_trial_limit);
    if (limits == NULL) return SW_NO_MEMORY;
    job->result->limits = limits;
    for (size_t i = 0; i < count; i++) {
        if (!chosen(job->opt, rules[i].regime) || isnan(rules[i].limits[kind_of(job->opt)])) continue;
        SW_TRY(judge(run, job, &rules[i], &limits[job->result->limit_count++]));
    }
    return SW_OK;
}
