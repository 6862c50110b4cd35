/* trial_check.c: options and the wood: as analysed, else as its table says at the moisture measured. */
#include "proving/trial/trial_parts.h"

#include <math.h>

static sw_place place_of(const trial_job *job)
{
    return (sw_place){.file = job->record->file};
}

static sw_status find_fuel(sw_run *run, trial_job *job)
{
    const char *name = job->record->fuel;
    if (name[0] == '\0' && job->in->stove != NULL && job->in->stove->duty.fuel != NULL)
        name = job->in->stove->duty.fuel;
    if (name[0] == '\0') name = sw_fuel_at(0)->name;
    const sw_fuel *found = sw_fuel_find(name);
    if (found != NULL) {
        job->fuel = *found;
        return SW_OK;
    }
    const char *known = sw_fuel_at(0)->name;
    for (size_t i = 1; i < sw_fuel_count() && known != NULL; i++)
        known = sw_text_format(run, run->scratch, "%s, %s", known, sw_fuel_at(i)->name);
    return known == NULL
               ? SW_NO_MEMORY
               : sw_fail(run, SW_BAD_INPUT, place_of(job), "fuel", "\"%s\" is not known; known are %s", name, known);
}

/* Analysed shares as fired become those of dry, ash-free wood; oxygen is the rest. */
static void analysed(trial_job *job)
{
    sw_fuel *f = &job->fuel;
    double daf = (1 - f->ash) * (1 - f->moisture);
    if (!isnan(job->record->c)) f->c = job->record->c / daf;
    if (!isnan(job->record->h)) f->h = job->record->h / daf;
    f->o = 1 - f->c - f->h - f->n - f->s;
    if (!isnan(job->record->lhv_dry)) f->lhv_dry = job->record->lhv_dry;
}

static sw_status find_wood(sw_run *run, trial_job *job)
{
    const sw_trial_record *r = job->record;
    sw_trial_wood *w = &job->result->wood;
    SW_TRY(find_fuel(run, job));
    if (!isnan(r->moisture)) job->fuel.moisture = r->moisture;
    analysed(job);
    double daf = (1 - job->fuel.ash) * (1 - job->fuel.moisture);
    w->c = job->fuel.c * daf;
    w->h = job->fuel.h * daf;
    w->moisture = job->fuel.moisture;
    w->lhv = !isnan(r->lhv)       ? r->lhv
             : !isnan(r->lhv_dry) ? sw_trial_lhv(r->lhv_dry, w->moisture)
                                  : sw_fuel_lhv(&job->fuel);
    if (!(job->fuel.o >= 0 && job->fuel.o < 0.6))
        return sw_fail(
            run, SW_OUT_OF_RANGE, place_of(job), "carbon",
            "with %.3g %% of carbon, %.3g of hydrogen and %.3g of water as fired, %.3g %% of the dry wood would "
            "be oxygen; 0 to 60 can be",
            100 * w->c, 100 * w->h, 100 * w->moisture, 100 * job->fuel.o);
    if (!(w->lhv > 0)) return sw_fail(run, SW_OUT_OF_RANGE, place_of(job), "lhv", "no heat is left in wood so wet");
    job->result->co2_max = sw_fire_gas_of(&job->fuel, 1, 0).co2_max_dry;
    return SW_OK;
}

sw_status trial_check(sw_run *run, trial_job *job)
{
    static const double usual_steps = 3; /* ours: one lost row is no gap */
    size_t count = 0;
    const sw_option *options = sw_trial_option_table(&count);
    SW_TRY(sw_options_check(run, options, count, job->opt));
    const sw_trial_options *o = job->opt;
    job->gap_s = o->gap_s > 0 ? o->gap_s : usual_steps * job->record->step_s;
    job->result->features = (sw_trial_features){
        .control = (sw_trial_control)(int)lround(o->control),
        .presence = o->presence >= 0.5,
        .window = o->window >= 0.5,
        .distance = o->distance >= 0.5,
        .low_tested = o->low_tested >= 0.5,
        .el_most_w = o->el_most_w,
        .el_least_w = o->el_least_w,
        .el_standby_w = o->el_standby_w,
        .pilot_w = o->pilot_w,
    };
    return find_wood(run, job);
}
