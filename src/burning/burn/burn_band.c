/* burn_band.c: bands of the main outputs from the inputs' stated uncertainties: independent normal draws, steady points. */
#include "burning/burn/burn_parts.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const sw_spread spreads[] = {
    {"moisture", 0.02, false, "moisture meter, common practice, no source"},
    {"draught_pa", 1, false, "type-test tolerance 12 +- 2 Pa (from memory), taken as two standard deviations"},
    {"fuel_kg_h", 0.05, true, "ours: weighing and burn rate"},
    {"contact_r", 0.25, true, "0.01 to 0.03 m2 K/W, common practice, no source"},
    {"inside_h_factor", 0.15, true, "baffles at Re 1500 to 4000: +- 30 %, handbook F6.6"},
    {"outside_h_factor", 0.1, true, "two schools differ by a third on hot-up faces, handbook F6.2"},
    {"gap_loss", 0.25, true, "ours: fitting losses dominate, handbook F6.5"},
    {"soot_k_1_m", 0.3, true, "0.5 to 1.1 1/m, Drysdale (from memory)"},
    {"lining_k_factor", 0.125, true, "makers' data +- 25 %, handbook F8.3"},
    {"flame_share", 0.05, true, "ours"},
    {"passing_share", 0.2, true, "0.45 to 1: two rules for furnaces (from memory)"},
    {"ember_gas_share", 0.25, true, "ours"},
    {"duct_h_factor", 0.3, true, "as inside_h_factor at small Re, twice"},
};
enum { SPREADS = sizeof spreads / sizeof *spreads };

const sw_spread *sw_burn_spreads(size_t *count)
{
    *count = SPREADS;
    return spreads;
}

/* Box and Muller 1958 (from memory). */
static double normal(sw_random *random)
{
    double u = 1 - sw_random_unit(random), v = sw_random_unit(random);
    return sqrt(-2 * log(u)) * cos(2 * SW_PI * v);
}

static void vary(const sw_option *table, size_t rows, void *options, const sw_spread *s, double draw)
{
    for (size_t i = 0; i < rows; i++) {
        if (strcmp(table[i].name, s->name) != 0) continue;
        double v = 0;
        memcpy(&v, (const char *)options + table[i].offset, sizeof v);
        v += draw * s->sigma * (s->relative ? fabs(v) : 1);
        v = fmin(fmax(v, table[i].low), table[i].high);
        memcpy((char *)options + table[i].offset, &v, sizeof v);
    }
}

static void vary_all(sw_random *random, sw_burn_options *opt, sw_heat_model *model)
{
    size_t burn_rows = 0, heat_rows = 0;
    const sw_option *burn = sw_burn_option_table(&burn_rows), *heat = sw_heat_model_table(&heat_rows);
    for (size_t i = 0; i < SPREADS; i++) {
        double draw = normal(random);
        vary(burn, burn_rows, opt, &spreads[i], draw);
        vary(heat, heat_rows, model, &spreads[i], draw);
    }
}

static double most_of(const sw_burn *b, const sw_burn_point *p, sw_part_class kind)
{
    const sw_scene *s = b->in.scene;
    double most = NAN;
    for (size_t i = 0; i < s->part_count; i++)
        if (burn_is(s, i, kind)) most = fmax(most, sw_burn_part_k(b, p, i, true));
    return most;
}

static void outputs(const sw_burn *b, const sw_burn_point *p, double *row)
{
    row[SW_BAND_OUTPUT_W] = p->output_w;
    row[SW_BAND_EFFICIENCY] = p->efficiency;
    row[SW_BAND_LAMBDA] = p->lambda;
    row[SW_BAND_FLUE_K] = p->flue_k;
    row[SW_BAND_PANE_K] = most_of(b, p, SW_PART_PANE);
    row[SW_BAND_WALL_K] = most_of(b, p, SW_PART_WALL);
    row[SW_BAND_SHELL_K] = most_of(b, p, SW_PART_SHELL);
}

static int rising(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return x < y ? -1 : x > y ? 1 : 0;
}

static sw_band band_of(double *column, size_t n)
{
    double sum = 0, squares = 0;
    for (size_t i = 0; i < n; i++) sum += column[i];
    double mean = sum / (double)n;
    for (size_t i = 0; i < n; i++) squares += (column[i] - mean) * (column[i] - mean);
    qsort(column, n, sizeof *column, rising);
    return (sw_band){mean, n > 1 ? sqrt(squares / (double)(n - 1)) : 0, column[(size_t)(0.05 * (double)(n - 1) + 0.5)],
                     column[(size_t)(0.95 * (double)(n - 1) + 0.5)]};
}

typedef struct band_job {
    const sw_burn_input *in;
    const sw_burn_options *opt; /* with its fuel rate */
    const sw_heat_model *model;
    double *values; /* [SW_BANDS * samples], a column an output */
    size_t samples, done;
} band_job;

static sw_status one_sample(sw_run *run, band_job *job, sw_random *random)
{
    sw_burn_options opt = *job->opt;
    sw_heat_model model = *job->model;
    sw_burn *burn = NULL;
    sw_burn_point point;
    double row[SW_BANDS];
    vary_all(random, &opt, &model);
    SW_TRY(sw_burn_open(run, job->in, &opt, &model, &burn));
    SW_TRY(sw_burn_steady(run, burn, &point));
    outputs(burn, &point, row);
    for (size_t k = 0; k < SW_BANDS; k++) job->values[k * job->samples + job->done] = row[k];
    job->done++;
    return SW_OK;
}

/* The point itself says how much wood is burnt. */
static sw_status fuel_of_point(sw_run *run, const sw_burn_input *in, const sw_heat_model *model, sw_burn_options *opt)
{
    sw_burn *burn = NULL;
    sw_burn_point point;
    if (opt->fuel_kg_h > 0) return SW_OK;
    SW_TRY(sw_burn_open(run, in, opt, model, &burn));
    SW_TRY(sw_burn_steady(run, burn, &point));
    opt->fuel_kg_h = point.fuel_kg_s * sw_s_from_h(1);
    return SW_OK;
}

static sw_status sample_all(sw_run *run, band_job *job, uint64_t seed, size_t *failed)
{
    sw_random random = sw_random_seeded(seed);
    *failed = 0;
    for (size_t i = 0; i < job->samples; i++) {
        size_t mark = sw_arena_mark(run->keep), errors = run->error_count;
        sw_status status = one_sample(run, job, &random);
        if (status != SW_OK && status != SW_NO_SOLUTION && status != SW_OUT_OF_RANGE) return status;
        *failed += status == SW_OK ? 0 : 1;
        run->error_count = errors;
        sw_arena_rewind(run->keep, mark);
        sw_run_progress(run, "draws", (double)(i + 1), (double)job->samples, "");
        if (sw_run_cancelled(run)) return sw_fail(run, SW_CANCELLED, (sw_place){0}, "bands", "stopped");
    }
    return SW_OK;
}

/* NOLINTNEXTLINE(readability-function-size): a stove, its conditions, how often, and two answers */
sw_status sw_burn_bands(sw_run *run, const sw_burn_input *in, const sw_burn_options *opt, const sw_heat_model *model,
                        size_t samples, uint64_t seed, sw_band *bands, size_t *failed)
{
    sw_burn_options fed = *opt;
    band_job job = {.in = in, .opt = &fed, .model = model, .samples = samples};
    SW_TRY(fuel_of_point(run, in, model, &fed));
    job.values = SW_KEEP(run, samples * SW_BANDS, double);
    if (job.values == NULL) return SW_NO_MEMORY;
    SW_TRY(sample_all(run, &job, seed, failed));
    if (job.done == 0)
        return sw_fail(run, SW_NO_SOLUTION, in->stove->place, "bands", "none of %zu samples has an answer", samples);
    for (size_t k = 0; k < SW_BANDS; k++) bands[k] = band_of(job.values + k * samples, job.done);
    return SW_OK;
}
