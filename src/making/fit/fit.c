/* fit.c: the steps of the study. */
#include "making/fit/fit.h"

#include "making/fit/fit_parts.h"

static const sw_option options[] = {
    SW_OPTION(sw_fit_options, stoves, "", 5000, 0, 10e6, "stoves drawn at random", "ours: a share of 1 % to 0.14 %"),
    SW_OPTION(sw_fit_options, seed, "", 1, 0, 4294967295.0, "of the random numbers", "ours"),
    SW_OPTION(sw_fit_options, allowed, "", 0.01, 1e-6, 0.4, "probability with which a joint may fail",
              "ours: one joint in a hundred is reworked"),
    SW_OPTION(sw_fit_options, adjust_mm, "mm", 2, 0, 20, "how far a piece is moved to close its joints when tacked",
              "common practice, no source"),
    SW_OPTION(sw_fit_options, flex_mm, "mm", 0.5, 0, 20, "how far a flange or rolled end is sprung when tacked",
              "common practice, no source"),
    SW_OPTION(sw_fit_options, see_mm, "mm", 0.1, 0.01, 2, "gap that the welder takes notice of",
              "common practice, no source"),
    SW_OPTION(sw_fit_options, press_mm, "mm", 0.5, 0, 5, "overlap that a clamp takes up before parts clash",
              "common practice, no source"),
    SW_OPTION(sw_fit_options, cover, "", 0.8, 0.1, 0.999, "share of the variance that the inspection plan covers",
              "ours"),
    SW_OPTION(sw_fit_options, aql, "%", 2.5, 0.65, 6.5, "acceptance quality limit of the samples: 0.65 1 1.5 2.5 4 6.5",
              "ISO 2859-1; 2.5: common practice, no source"),
};

const sw_option *sw_fit_option_table(size_t *count)
{
    *count = sizeof options / sizeof *options;
    return options;
}

sw_fit_options sw_fit_options_defaults(void)
{
    sw_fit_options o = {.made_by_defaults = SW_DEFAULTS_MARK};
    sw_options_fill(options, sizeof options / sizeof *options, &o);
    return o;
}

static sw_status check_sigma(sw_run *run, const sw_works *works, const char *name, double sigma, double most)
{
    if (sigma >= 0 && sigma <= most) return SW_OK;
    return sw_fail(run, SW_OUT_OF_RANGE, works->place, name,
                   "a standard deviation of %g is outside 0 to %g; leave it out when it is not known", sigma, most);
}

static sw_status check_works(sw_run *run, const sw_works *w)
{
    size_t before = run->error_count;
    if (w == NULL) return SW_OK;
    (void)check_sigma(run, w, "press.angle_sigma", w->press.angle_sigma_rad, sw_rad_from_deg(20));
    (void)check_sigma(run, w, "press.line_sigma", w->press.line_sigma_mm, 20);
    (void)check_sigma(run, w, "rolls.radius_sigma", w->rolls.radius_sigma, 0.5);
    (void)check_sigma(run, w, "welding.place_sigma", w->welding.place_sigma_mm, 20);
    (void)check_sigma(run, w, "cut_sigma", w->cut_sigma_mm, 20);
    (void)check_sigma(run, w, "welding.gap_bridged", w->welding.gap_bridged, 5);
    return run->error_count > before ? SW_OUT_OF_RANGE : SW_OK;
}

static sw_status check(sw_run *run, const sw_fit_input *in, const sw_fit_options *opt)
{
    SW_TRY(sw_options_check(run, options, sizeof options / sizeof *options, opt));
    if (sw_sampling_plan(100, opt->aql).letter == '\0')
        return sw_fail(run, SW_OUT_OF_RANGE, (sw_place){0}, "aql",
                       "%g %% is no column of the table; take 0.65, 1, 1.5, 2.5, 4 or 6.5", opt->aql);
    if (in->batch == 0)
        return sw_fail(run, SW_OUT_OF_RANGE, (sw_place){0}, "batch", "a batch of 0 stoves; give 1 or more");
    const sw_stove *stove = in->model->stove;
    bool same = in->sheet->piece_count == stove->piece_count;
    for (size_t i = 0; same && i < stove->piece_count; i++) same = in->sheet->pieces[i].piece == &stove->pieces[i];
    if (!same)
        return sw_fail(run, SW_BAD_INPUT, stove->place, "sheet", "the unfolded pieces are not those of this stove");
    return check_works(run, in->model->works);
}

static sw_status steps(sw_run *run, const sw_fit_input *in, const sw_fit_options *opt, const sw_fit_result **result)
{
    SW_TRY(check(run, in, opt));
    fit_job job = {.in = in, .opt = opt, .result = SW_KEEP(run, 1, sw_fit_result)};
    if (job.result == NULL) return SW_NO_MEMORY;
    job.result->allowed = opt->allowed;
    SW_TRY(fit_specimens(run, &job));
    SW_TRY(fit_points(run, &job));
    SW_TRY(fit_contributors(run, &job));
    job.result->contributors = job.contributors;
    job.result->contributor_count = job.contributor_count;
    SW_TRY(fit_sensitivities(run, &job));
    SW_TRY(fit_settle(run, &job));
    SW_TRY(fit_judge(run, &job));
    SW_TRY(fit_draw(run, &job));
    SW_TRY(fit_plan(run, &job));
    SW_TRY(fit_findings(run, &job));
    SW_TRY(fit_measured_findings(run, &job));
    *result = job.result;
    return SW_OK;
}

sw_status sw_fit_solve(sw_run *run, const sw_fit_input *in, const sw_fit_options *opt, const sw_fit_result **result)
{
    SW_ASSERT(opt->made_by_defaults == SW_DEFAULTS_MARK);
    size_t mark = sw_arena_mark(run->scratch);
    *result = NULL;
    sw_status status = steps(run, in, opt, result);
    sw_arena_rewind(run->scratch, mark);
    return status;
}
