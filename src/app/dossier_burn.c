/* dossier_burn.c: fire, air and heat of one dossier: the scene, the steady point at the duty, the limits, a whole burn. */
#include "app/app.h"

#include <math.h>
#include <string.h>

typedef struct burn_job {
    sw_run *run;
    const sw_request *request;
    sw_dossier *d;
    unsigned work;
    sw_burned *burned;
    sw_burn *burn;
    sw_heat_model model;
} burn_job;

enum { REFUELS = 4, HOT_TEST_MOST = 64 << 20 };

/* ---- what cannot be computed is a finding --------------------------------------------------------------- */

static sw_status note_missing(burn_job *job, size_t first_error, const char *study, sw_verdict verdict)
{
    const sw_finding finding = {.study = study,
                                .where = job->d->model.stove->name,
                                .verdict = verdict,
                                .remedy = "describe what is missing, or change the conditions (--with)",
                                .place = job->d->model.stove->place};
    return sw_dossier_tell_missing(job->run, job->d, first_error, finding, &job->burned->why);
}

/* Memory and a stop end the work; anything else becomes a finding and *usable false. */
static sw_status judged(burn_job *job, sw_status status, size_t first_error, const char *study, bool *usable)
{
    *usable = status == SW_OK;
    if (status == SW_OK) return SW_OK;
    if (status == SW_NO_MEMORY || status == SW_CANCELLED || status == SW_INTERNAL) return status;
    return note_missing(job, first_error, study, status == SW_NO_SOLUTION ? SW_FAILS : SW_UNKNOWN);
}

/* ---- steps ---------------------------------------------------------------------------------------------- */

static sw_status make_scene(burn_job *job)
{
    sw_scene_options opt = sw_scene_options_defaults();
    SW_TRY(sw_scene_make(job->run, job->d->model.stove, job->d->sheet, &opt, &job->burned->scene));
    return sw_dossier_tell(job->run, job->d, &job->burned->scene->findings);
}

static sw_status list_temperatures(burn_job *job)
{
    size_t count = job->burned->scene->part_count;
    double *hot = SW_KEEP(job->run, count, double), *cold = SW_KEEP(job->run, count, double);
    if (hot == NULL || cold == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < count; i++) {
        double a = sw_burn_part_k(job->burn, job->burned->point, i, true);
        double b = sw_burn_part_k(job->burn, job->burned->point, i, false);
        hot[i] = fmax(a, b);
        cold[i] = fmin(a, b);
    }
    job->burned->hot_k = hot;
    job->burned->cold_k = cold;
    return SW_OK;
}

/* The networks of this stove: made once, then only put under other conditions. */
static sw_status open_burn(burn_job *job)
{
    const sw_burn_input in = {job->d->model.stove, job->d->sheet, job->burned->scene};
    if (job->burned->burn == NULL)
        return sw_burn_open(job->run, &in, job->burned->options, &job->model, &job->burned->burn);
    return sw_burn_change(job->run, job->burned->burn, job->burned->options, &job->model);
}

static sw_status settle(burn_job *job)
{
    sw_burn_point *point = SW_KEEP(job->run, 1, sw_burn_point);
    if (point == NULL) return SW_NO_MEMORY;
    job->burned->point = NULL;
    SW_TRY(open_burn(job));
    job->burn = job->burned->burn;
    SW_TRY(sw_burn_steady(job->run, job->burn, point));
    job->burned->point = point;
    return list_temperatures(job);
}

static sw_status tell_fire(burn_job *job)
{
    const sw_burn_point *p = job->burned->point;
    const sw_scene *s = job->burned->scene;
    sw_fire_options opt = sw_fire_options_defaults();
    opt.moisture = job->burned->options->moisture;
    opt.lambda = fmin(fmax(p->lambda, 0.01), 20.0);
    opt.flue_c = sw_c_from_k(p->flue_k);
    opt.room_c = job->burned->options->room_c;
    opt.co_ppm13 = job->burned->options->co_ppm13;
    const sw_fire_input in = {job->d->model.stove, s->firebox_m3, s->firebox_m2, s->base_m2, p->fuel_kg_s};
    SW_TRY(sw_fire_solve(job->run, &in, &opt, &job->burned->fire));
    return sw_dossier_tell(job->run, job->d, &job->burned->fire->findings);
}

static sw_status tell_air_and_heat(burn_job *job)
{
    const sw_burn_point *p = job->burned->point;
    const sw_burn_run *through = job->burned->through;
    sw_findings findings = {0};
    SW_TRY(sw_burn_air(job->run, job->burn, p, &job->burned->air));
    SW_TRY(sw_dossier_tell(job->run, job->d, &job->burned->air->findings));
    const sw_heat_limits_input in = {.stove = job->d->model.stove,
                                     .scene = job->burned->scene,
                                     .hot_k = job->burned->hot_k,
                                     .cold_k = job->burned->cold_k,
                                     .most_k = through == NULL ? NULL : through->most_k,
                                     .flue_k = p->flue_k,
                                     .flame_k = p->heat.entering_k,
                                     .dew_point_k = p->gas.dew_point_k,
                                     .room_k = p->room.air_k,
                                     .back_distance_m = NAN,
                                     .side_distance_m = NAN};
    SW_TRY(sw_heat_limits(job->run, &in, &findings));
    return sw_dossier_tell(job->run, job->d, &findings);
}

/* Lit from cold with one charge, then a charge at every refuelling time of the duty. */
static sw_status burn_through(burn_job *job)
{
    sw_burn_event events[REFUELS + 1];
    double refuel_s = job->d->model.stove->duty.refuel_s;
    if (!(refuel_s > 0)) return SW_OK;
    for (int i = 0; i <= REFUELS; i++)
        events[i] = (sw_burn_event){.time_s = i * refuel_s,
                                    .wood_kg = job->burned->point->fuel_kg_s * refuel_s,
                                    .primary_share = i == 0 ? 1 : job->burned->options->primary_share,
                                    .wash_share = NAN,
                                    .rear_share = NAN};
    size_t first = job->run->error_count;
    bool usable = false;
    return judged(
        job, sw_burn_through(job->run, job->burn, events, REFUELS + 1, (REFUELS + 1) * refuel_s, &job->burned->through),
        first, "heat", &usable);
}

static sw_status draw_map(burn_job *job)
{
    sw_heat_map_options opt = sw_heat_map_options_defaults();
    opt.threads = (int)job->request->threads;
    opt.seed = (uint64_t)job->request->seed;
    size_t first = job->run->error_count;
    bool usable = false;
    const sw_burn_point *p = job->burned->point;
    return judged(job,
                  sw_heat_map_solve(job->run, job->d->model.stove, job->d->sheet, job->burned->scene, &job->model,
                                    &p->fire, &p->room, &opt, &job->burned->map),
                  first, "heat", &usable);
}

/* ---- asked for on the command line ------------------------------------------------------------------- */

static sw_burn_input input_of(const burn_job *job)
{
    return (sw_burn_input){job->d->model.stove, job->d->sheet, job->burned->scene};
}

static sw_status fit_test(burn_job *job)
{
    static const double sigma_k = 5; /* of one reading: a class 1 thermocouple and where it sits. Ours */
    const char *bytes = NULL, *path = job->request->test;
    size_t length = 0;
    sw_hot_test test;
    const sw_burn_input in = input_of(job);
    SW_TRY(sw_file_read(job->run, path, HOT_TEST_MOST, &bytes, &length));
    SW_TRY(sw_hot_test_read(job->run, path, bytes, length, job->burned->scene, &test));
    SW_TRY(sw_burn_fit_solve(job->run, &in, job->burned->options, &job->model, &test, sigma_k, &job->burned->fit));
    sw_findings findings = {0};
    SW_TRY(sw_burn_fit_findings(job->run, job->burned->fit, job->d->model.stove, &findings));
    return sw_dossier_tell(job->run, job->d, &findings);
}

static sw_status draw_bands(burn_job *job)
{
    sw_band *bands = SW_KEEP(job->run, SW_BANDS, sw_band);
    size_t samples = (size_t)job->request->bands, failed = 0;
    const sw_burn_input in = input_of(job);
    if (bands == NULL) return SW_NO_MEMORY;
    SW_TRY(sw_burn_bands(job->run, &in, job->burned->options, &job->model, samples, (uint64_t)job->request->seed, bands,
                         &failed));
    job->burned->bands = bands;
    job->burned->band_samples = samples - failed;
    return SW_OK;
}

static sw_status go_on(burn_job *job)
{
    SW_TRY(tell_fire(job));
    if ((job->work & SW_DO_THROUGH) != 0) SW_TRY(burn_through(job));
    SW_TRY(tell_air_and_heat(job));
    if ((job->work & SW_DO_MAP) != 0) SW_TRY(draw_map(job));
    if (job->request->bands >= 1) SW_TRY(draw_bands(job));
    return job->request->test != NULL ? fit_test(job) : SW_OK;
}

static sw_status start(burn_job *job)
{
    sw_run *run = job->run;
    if (job->d->burned == NULL) {
        job->burned = SW_KEEP(run, 1, sw_burned);
        if (job->burned == NULL) return SW_NO_MEMORY;
        job->burned->why = "";
        job->d->burned = job->burned;
    }
    sw_burn_options *opt = SW_KEEP(run, 1, sw_burn_options);
    if (opt == NULL) return SW_NO_MEMORY;
    job->burned->options = opt;
    return sw_burn_conditions(run, job->request, opt, &job->model);
}

/* Whose finding it is that nothing could be computed: `fire` and `air` list their own findings only. */
static const char *study_asked(const sw_request *request)
{
    bool own = strcmp(request->command, "fire") == 0 || strcmp(request->command, "air") == 0;
    return own ? request->command : "heat";
}

sw_status sw_dossier_burn(sw_run *run, const sw_request *request, sw_dossier *d, unsigned work)
{
    burn_job job = {.run = run, .request = request, .d = d, .work = work, .burned = d->burned};
    SW_TRY(start(&job));
    size_t first = run->error_count;
    bool usable = true;
    const char *asked = study_asked(request);
    if (job.burned->scene == NULL) SW_TRY(judged(&job, make_scene(&job), first, asked, &usable));
    if (!usable) return SW_OK;
    if ((work & SW_DO_POINT) != 0) return settle(&job);
    SW_TRY(judged(&job, settle(&job), first, asked, &usable));
    return usable ? go_on(&job) : SW_OK;
}
