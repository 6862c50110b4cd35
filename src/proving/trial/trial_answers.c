/* trial_answers.c: the results of the whole test with what is not sure about them. */
#include "proving/trial/trial_parts.h"

#include <math.h>

static sw_trial_losses losses_of(const double *x)
{
    sw_trial_wood wood = {x[4] / 100, x[5] / 100, x[6] / 100, x[7] * TRIAL_KILO};
    sw_trial_gas gas = {sw_k_from_c(x[0]), sw_k_from_c(x[1]), x[2] / 100, x[3] / 100, x[8] / 100 * wood.lhv, 0};
    if (gas.co_dry < 0) gas.co_dry = 0; /* drawn: the sensor shows 0 then */
    return sw_trial_losses_of(&wood, &gas);
}

double sw_trial_efficiency_of(const void *context, const double *x)
{
    (void)context;
    return 100 * losses_of(x).efficiency;
}

double sw_trial_output_of(const void *context, const double *x)
{
    (void)context;
    return losses_of(x).efficiency * x[7] * sw_h_from_s(x[9]);
}

double sw_trial_at_13_of(const void *context, const double *x)
{
    (void)context;
    return sw_emission_at_13(x[0], x[1] / 100);
}

double sw_trial_co_of(const void *context, const double *x)
{
    (void)context;
    double share = x[0] > 0 ? x[0] / TRIAL_MEGA : 0;
    return sw_emission_at_13(sw_emission_mg_m3n(SW_EMISSION_CO, share), x[1] / 100);
}

/* The nine inputs of the efficiency, then the wood. */
static void efficiency_sources(const trial_job *job, sw_trial_source *s)
{
    const sw_trial_options *o = job->opt;
    const sw_trial_cycle *w = &job->result->whole;
    const sw_trial_wood *wood = &job->result->wood;
    double co = isnan(w->co_dry) ? 0 : w->co_dry, lasts_s = 0, root3 = sqrt(3.0);
    size_t charges = job->result->valid_count;
    for (size_t i = 0; i < job->result->cycle_count; i++)
        if (job->cycles[i].valid) lasts_s += job->cycles[i].end_s - job->cycles[i].start_s;
    s[0] = (sw_trial_source){"flue gas", "degC", sw_c_from_k(w->flue_k), o->u_flue_k, false, 0, 0};
    s[1] = (sw_trial_source){"room", "degC", sw_c_from_k(w->room_k), o->u_room_k, false, 0, 0};
    s[2] = (sw_trial_source){"CO2", "%", 100 * w->co2_dry, 100 * o->u_co2, false, 0, 0};
    s[3] = (sw_trial_source){"CO", "%", 100 * co, 100 * o->u_co, false, 0, 0};
    s[4] = (sw_trial_source){"carbon", "%", 100 * wood->c, 100 * o->u_c, false, 0, 0};
    s[5] = (sw_trial_source){"hydrogen", "%", 100 * wood->h, 100 * o->u_h, false, 0, 0};
    s[6] = (sw_trial_source){"water", "%", 100 * wood->moisture, 100 * o->u_moisture, false, 0, 0};
    s[7] = (sw_trial_source){
        "heating value", "kJ/kg", wood->lhv / TRIAL_KILO, o->u_lhv * wood->lhv / TRIAL_KILO, false, 0, 0};
    s[8] = (sw_trial_source){"residue", "%", 100 * w->losses.residue, 100 * o->u_residue / root3, true, 0, 0};
    s[9] = (sw_trial_source){"wood",
                             "kg/h",
                             w->wood_kg / sw_h_from_s(lasts_s),
                             o->u_wood_kg * sqrt((double)charges) / sw_h_from_s(lasts_s),
                             false,
                             0,
                             0};
}

typedef struct budget {
    sw_trial_function *f;
    sw_trial_source sources[SW_TRIAL_SOURCES];
    size_t count;
} budget;

static sw_status settle(sw_run *run, const trial_job *job, sw_trial_answer *a, const budget *b)
{
    a->u = a->u_sampled = a->half95 = NAN;
    if (isnan(a->value)) return SW_OK;
    sw_trial_source *sources = SW_KEEP(run, b->count, sw_trial_source);
    if (sources == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < b->count; i++) sources[i] = b->sources[i];
    a->sources = sources;
    a->source_count = b->count;
    a->u = sw_trial_propagate(b->f, NULL, sources, b->count);
    a->u_sampled =
        sw_trial_sampled(b->f, NULL, sources, b->count, (size_t)job->opt->draws, (uint64_t)job->opt->seed, NULL);
    a->half95 = 2 * a->u;
    if (a->cycles.half95 > a->half95) a->half95 = a->cycles.half95;
    return SW_OK;
}

static double of_cycle(const sw_trial_cycle *c, size_t which)
{
    if (which == SW_ANSWER_EFFICIENCY) return 100 * c->losses.efficiency;
    if (which == SW_ANSWER_OUTPUT) return c->output_w / TRIAL_KILO;
    return c->at_13[which - SW_ANSWER_CO];
}

static void budget_of(const trial_job *job, size_t which, budget *b)
{
    const sw_trial_cycle *w = &job->result->whole;
    sw_trial_source o2 = {"O2", "%", 100 * w->o2_dry, 100 * job->opt->u_o2, false, 0, 0};
    if (which <= SW_ANSWER_OUTPUT) {
        efficiency_sources(job, b->sources);
        b->count = which == SW_ANSWER_OUTPUT ? 10 : 9;
        b->f = which == SW_ANSWER_OUTPUT ? sw_trial_output_of : sw_trial_efficiency_of;
        return;
    }
    sw_emission e = (sw_emission)(which - SW_ANSWER_CO);
    double relative = e == SW_EMISSION_PM ? job->opt->u_pm : job->opt->u_gas;
    b->sources[0] = (sw_trial_source){sw_emission_name(e), "mg/m3n", w->raw[e], relative * w->raw[e], false, 0, 0};
    b->f = sw_trial_at_13_of;
    if (e == SW_EMISSION_CO) {
        b->sources[0] =
            (sw_trial_source){"CO", "ppm", TRIAL_MEGA * w->co_dry, TRIAL_MEGA * job->opt->u_co, false, 0, 0};
        b->f = sw_trial_co_of;
    }
    b->sources[1] = o2;
    b->count = 2;
}

static sw_status answer(sw_run *run, trial_job *job, size_t which)
{
    static const struct {
        const char *key, *name, *unit;
    } named[SW_ANSWERS] = {{"efficiency", "efficiency", "%"},   {"output", "heat output", "kW"},
                           {"co", "CO at 13 % O2", "mg/m3n"},   {"ogc", "OGC at 13 % O2", "mg/m3n"},
                           {"nox", "NOx at 13 % O2", "mg/m3n"}, {"pm", "dust at 13 % O2", "mg/m3n"}};
    sw_trial_result *out = job->result;
    sw_trial_answer *a = &out->answers[which];
    double *values = SW_SCRATCH(run, out->cycle_count, double);
    budget b = {0};
    if (values == NULL) return SW_NO_MEMORY;
    size_t n = 0;
    for (size_t i = 0; i < out->cycle_count; i++)
        if (job->cycles[i].valid) values[n++] = of_cycle(&job->cycles[i], which);
    *a = (sw_trial_answer){.key = named[which].key, .name = named[which].name, .unit = named[which].unit};
    a->value = of_cycle(&out->whole, which);
    a->cycles = sw_trial_mean_of(values, n);
    budget_of(job, which, &b);
    return settle(run, job, a, &b);
}

sw_status trial_answers(sw_run *run, trial_job *job)
{
    sw_trial_result *out = job->result;
    for (size_t i = 0; i < SW_ANSWERS; i++) SW_TRY(answer(run, job, i));
    out->season = sw_trial_season_of(out->whole.losses.efficiency, out->whole.output_w, &out->features);
    return SW_OK;
}
