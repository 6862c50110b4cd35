/* burn_fit.c: the heat model's constants by least squares on a hot test.
 *
 * Unknowns: the constants in units of their own spread, from their table values. Minimised: sum of ((computed -
 * measured)/sigma)2 over the readings and of the unknowns' squares. Levenberg-Marquardt with forward differences
 * (Marquardt 1963, from memory); covariance from the last normal matrix, scaled up where the test scatters more than
 * sigma says. */
#include "burning/burn/burn_parts.h"

#include <math.h>
#include <string.h>

enum { CONSTANTS_MOST = 16, ROUNDS_MOST = 12 };

static const double step = 0.05;         /* of a difference, in spreads */
static const double enough = 1e-4;       /* relative gain below which it is settled */
static const double spread_share = 0.25; /* spread of a constant: this share of its table value; ours */

typedef struct fit_job {
    sw_run *run;
    const sw_burn_input *in;
    const sw_burn_options *opt;
    const sw_heat_model *start;
    const sw_hot_test *test;
    double sigma_k;
    const sw_option *table;
    size_t n, m;                            /* constants, readings */
    double *J;                              /* [m*n] */
    double *computed_k, *trial_k, *moved_k; /* [m] */
} fit_job;

static double constant_of(const sw_heat_model *model, const sw_option *o)
{
    double v = 0;
    memcpy(&v, (const char *)model + o->offset, sizeof v);
    return v;
}

static double spread_of(const sw_option *o)
{
    return spread_share * o->fallback;
}

static sw_heat_model model_at(const fit_job *job, const double *u)
{
    sw_heat_model model = *job->start;
    for (size_t i = 0; i < job->n; i++) {
        const sw_option *o = &job->table[i];
        double v = fmin(fmax(constant_of(job->start, o) + u[i] * spread_of(o), o->low), o->high);
        memcpy((char *)&model + o->offset, &v, sizeof v);
    }
    return model;
}

/* ---- computed temperatures at the readings -------------------------------------------------------------- */

static double at_sample(const fit_job *job, const sw_burn_run *r, size_t k, size_t place)
{
    if (place == SW_PLACE_FLUE) return r->samples[k].flue_k;
    if (place == SW_PLACE_FIREBOX) return r->samples[k].firebox_k;
    return r->parts_k[k * job->in->scene->part_count + place];
}

static double at_time(const fit_job *job, const sw_burn_run *r, const sw_hot_reading *reading)
{
    size_t k = 1;
    while (k + 1 < r->sample_count && r->samples[k].time_s < reading->time_s) k++;
    double from_s = r->samples[k - 1].time_s, to_s = r->samples[k].time_s;
    double share = to_s > from_s ? fmin(fmax((reading->time_s - from_s) / (to_s - from_s), 0), 1) : 1;
    return (1 - share) * at_sample(job, r, k - 1, reading->place) + share * at_sample(job, r, k, reading->place);
}

static sw_status compute_once(fit_job *job, const sw_heat_model *model, double *out_k)
{
    sw_burn *burn = NULL;
    const sw_burn_run *r = NULL;
    SW_TRY(sw_burn_open(job->run, job->in, job->opt, model, &burn));
    SW_TRY(sw_burn_through(job->run, burn, job->test->events, job->test->event_count, job->test->end_s, &r));
    for (size_t i = 0; i < job->m; i++) out_k[i] = at_time(job, r, &job->test->readings[i]);
    return SW_OK;
}

static sw_status compute(fit_job *job, const sw_heat_model *model, double *out_k)
{
    size_t mark = sw_arena_mark(job->run->keep);
    sw_status status = compute_once(job, model, out_k);
    if (status == SW_OK) sw_arena_rewind(job->run->keep, mark);
    return status;
}

/* ---- least squares ------------------------------------------------------------------------------------------ */

static double misfit(const fit_job *job, const double *computed_k)
{
    double sum = 0;
    for (size_t i = 0; i < job->m; i++) sum += pow((computed_k[i] - job->test->readings[i].t_k) / job->sigma_k, 2);
    return sum;
}

static double held(const fit_job *job, const double *u)
{
    double sum = 0;
    for (size_t i = 0; i < job->n; i++) sum += u[i] * u[i];
    return sum;
}

static sw_status differences(fit_job *job, const double *u)
{
    double moved[CONSTANTS_MOST];
    for (size_t k = 0; k < job->n; k++) {
        memcpy(moved, u, job->n * sizeof *moved);
        moved[k] += step;
        sw_heat_model model = model_at(job, moved);
        SW_TRY(compute(job, &model, job->moved_k));
        for (size_t i = 0; i < job->m; i++)
            job->J[i * job->n + k] = (job->moved_k[i] - job->computed_k[i]) / (step * job->sigma_k);
    }
    return SW_OK;
}

/* N = J'J + (1 + damping) I, g = J'r + u. */
static void normal(const fit_job *job, const double *u, double damping, double *N, double *g)
{
    size_t n = job->n;
    memset(N, 0, n * n * sizeof *N);
    for (size_t k = 0; k < n; k++) N[k * n + k] = 1 + damping, g[k] = u[k];
    for (size_t i = 0; i < job->m; i++) {
        const double *row = job->J + i * n;
        double r = (job->computed_k[i] - job->test->readings[i].t_k) / job->sigma_k;
        for (size_t a = 0; a < n; a++) {
            g[a] += row[a] * r;
            for (size_t b = 0; b < n; b++) N[a * n + b] += row[a] * row[b];
        }
    }
}

/* N is positive definite: Cholesky in place, lower triangle. */
static void factor(double *N, size_t n)
{
    for (size_t i = 0; i < n; i++)
        for (size_t j = 0; j <= i; j++) {
            double sum = N[i * n + j];
            for (size_t k = 0; k < j; k++) sum -= N[i * n + k] * N[j * n + k];
            N[i * n + j] = i == j ? sqrt(sum) : sum / N[j * n + j];
        }
}

static void solve(const double *L, size_t n, double *x)
{
    for (size_t i = 0; i < n; i++) {
        for (size_t k = 0; k < i; k++) x[i] -= L[i * n + k] * x[k];
        x[i] /= L[i * n + i];
    }
    for (size_t i = n; i-- > 0;) {
        for (size_t k = i + 1; k < n; k++) x[i] -= L[k * n + i] * x[k];
        x[i] /= L[i * n + i];
    }
}

/* One damped step; *better when it was taken. */
static sw_status try_step(fit_job *job, double *u, double damping, double *cost, bool *better)
{
    double N[CONSTANTS_MOST * CONSTANTS_MOST], g[CONSTANTS_MOST], trial[CONSTANTS_MOST];
    normal(job, u, damping, N, g);
    factor(N, job->n);
    solve(N, job->n, g);
    for (size_t k = 0; k < job->n; k++) trial[k] = u[k] - g[k];
    sw_heat_model model = model_at(job, trial);
    SW_TRY(compute(job, &model, job->trial_k));
    double now = misfit(job, job->trial_k) + held(job, trial);
    *better = now < *cost;
    if (!*better) return SW_OK;
    *cost = now;
    memcpy(u, trial, job->n * sizeof *u);
    memcpy(job->computed_k, job->trial_k, job->m * sizeof *job->computed_k);
    return SW_OK;
}

static sw_status minimise(fit_job *job, double *u, int *rounds)
{
    double damping = 0.1, cost = misfit(job, job->computed_k) + held(job, u);
    for (*rounds = 1; *rounds <= ROUNDS_MOST; ++*rounds) {
        double before = cost;
        bool better = false;
        SW_TRY(differences(job, u));
        for (int tries = 0; tries < 6 && !better; tries++) {
            SW_TRY(try_step(job, u, damping, &cost, &better));
            damping *= better ? 0.2 : 5;
        }
        if (!better || before - cost < enough * before) break;
        if (sw_run_cancelled(job->run)) return sw_fail(job->run, SW_CANCELLED, (sw_place){0}, "fit", "stopped");
    }
    return differences(job, u);
}

/* ---- the answer --------------------------------------------------------------------------------------------- */

static double rms_k(const fit_job *job, const double *computed_k)
{
    return sqrt(misfit(job, computed_k) / (double)job->m) * job->sigma_k;
}

static void spreads_after(const fit_job *job, const double *u, sw_fitted *constants)
{
    double L[CONSTANTS_MOST * CONSTANTS_MOST], g[CONSTANTS_MOST];
    size_t n = job->n;
    normal(job, u, 0, L, g);
    factor(L, n);
    double freedom = fmax((double)job->m - (double)n, 1), scatter = fmax(misfit(job, job->computed_k) / freedom, 1);
    for (size_t k = 0; k < n; k++) {
        double column[CONSTANTS_MOST] = {0};
        column[k] = 1;
        solve(L, n, column);
        constants[k].sigma = fmin(sqrt(column[k] * scatter), 1) * spread_of(&job->table[k]);
    }
}

static sw_status answer(fit_job *job, sw_burn_fit *fit)
{
    double u[CONSTANTS_MOST] = {0}, *before_k = SW_KEEP(job->run, job->m, double);
    sw_fitted *constants = SW_KEEP(job->run, job->n, sw_fitted);
    if (before_k == NULL || constants == NULL) return SW_NO_MEMORY;
    SW_TRY(compute(job, job->start, job->computed_k));
    memcpy(before_k, job->computed_k, job->m * sizeof *before_k);
    SW_TRY(minimise(job, u, &fit->rounds));
    fit->model = model_at(job, u);
    for (size_t k = 0; k < job->n; k++)
        constants[k] = (sw_fitted){.option = &job->table[k],
                                   .before = constant_of(job->start, &job->table[k]),
                                   .after = constant_of(&fit->model, &job->table[k])};
    spreads_after(job, u, constants);
    fit->constants = constants;
    fit->constant_count = job->n;
    fit->before_k = before_k;
    fit->after_k = job->computed_k;
    fit->rms_before_k = rms_k(job, before_k);
    fit->rms_after_k = rms_k(job, job->computed_k);
    return SW_OK;
}

sw_status sw_burn_fit_solve(sw_run *run, const sw_burn_input *in, const sw_burn_options *opt,
                            const sw_heat_model *start, const sw_hot_test *test, double sigma_k,
                            const sw_burn_fit **result)
{
    fit_job job = {.run = run, .in = in, .opt = opt, .start = start, .test = test, .sigma_k = sigma_k};
    *result = NULL;
    job.table = sw_heat_model_table(&job.n);
    job.m = test->reading_count;
    SW_ASSERT(job.n <= CONSTANTS_MOST);
    sw_burn_fit *fit = SW_KEEP(run, 1, sw_burn_fit);
    job.J = SW_KEEP(run, job.m * job.n, double);
    job.computed_k = SW_KEEP(run, job.m, double);
    job.trial_k = SW_KEEP(run, job.m, double);
    job.moved_k = SW_KEEP(run, job.m, double);
    if (fit == NULL || job.J == NULL || job.computed_k == NULL || job.trial_k == NULL || job.moved_k == NULL)
        return SW_NO_MEMORY;
    SW_TRY(answer(&job, fit));
    *result = fit;
    return SW_OK;
}

/* ---- judged ------------------------------------------------------------------------------------------------------ */

bool sw_fitted_at_bound(const sw_fitted *c)
{
    double near = 1e-6 * (c->option->high - c->option->low);
    return c->after <= c->option->low + near || c->after >= c->option->high - near;
}

/* Watched, whatever the margin: a fit is no fault of the stove. */
static sw_status tell_fit(sw_run *run, const sw_stove *stove, sw_findings *findings, sw_finding f)
{
    f.study = "heat";
    f.sense = SW_AT_MOST;
    f.remedy = "";
    f.place = stove->place;
    if (f.what == NULL || f.where == NULL) return SW_NO_MEMORY;
    SW_TRY(sw_finding_add(run, findings, f, 0));
    sw_finding *added = &findings->items[findings->count - 1];
    if (added->verdict == SW_FAILS) added->verdict = SW_WATCH;
    if (added->verdict != SW_HOLDS)
        added->remedy = "look at the test's places, wood and draught again; do not go on with these constants";
    return SW_OK;
}

sw_status sw_burn_fit_findings(sw_run *run, const sw_burn_fit *fit, const sw_stove *stove, sw_findings *findings)
{
    static const double rest_most_k = 25;
    sw_finding rest = {.check = "test_rest", .where = "hot test", .value = fit->rms_after_k, .limit = rest_most_k};
    rest.unit = "K";
    rest.source = "ours: five times what one reading is taken to be off by (5 K)";
    rest.what = sw_text_format(run, run->keep, "between model and test stay %.0f K (root mean square); %.0f K before",
                               fit->rms_after_k, fit->rms_before_k);
    SW_TRY(tell_fit(run, stove, findings, rest));
    size_t bound = 0;
    const char *names = "";
    for (size_t i = 0; i < fit->constant_count && names != NULL; i++) {
        if (!sw_fitted_at_bound(&fit->constants[i])) continue;
        names =
            sw_text_format(run, run->keep, "%s%s%s", names, bound++ == 0 ? "" : ", ", fit->constants[i].option->name);
    }
    sw_finding f = {.check = "test_bound", .where = "hot test", .value = (double)bound, .limit = 0, .unit = ""};
    f.source = "ours: a constant at its bound has taken up what the model or the test lacks";
    f.what = names == NULL ? NULL
             : bound == 0  ? "no constant is at its bound"
                           : sw_text_format(run, run->keep, "at their bounds: %s", names);
    return tell_fit(run, stove, findings, f);
}
