/* form_fit_rolls.c: an effective yield stress from the works' trial rolls, so that downfeed and radius agree. */
#include "making/form/form_fit_parts.h"

#include <math.h>

static const double feed_sigma_mm = 0.1, radius_sigma = 0.01; /* of measured rolls: common practice, no source */

static sw_status check_roll(sw_run *run, const sw_rolls *r, size_t i)
{
    const sw_roll_trial *t = &r->trials[i];
    bool sound = t->grade != NULL && t->thickness_mm > 0.0 && t->feed_mm > 0.0 && t->radius_mm > 0.0;
    sound = sound && isfinite(t->feed_mm + t->radius_mm) && r->centres_mm > 0.0 && r->lower_radius_mm > 0.0;
    double loaded_mm = sw_roll_radius_mm(t->feed_mm, t->thickness_mm, r->lower_radius_mm, r->centres_mm / 2.0);
    if (sound && loaded_mm > 0.0) return SW_OK;
    return sw_fail(
        run, SW_BAD_INPUT, t->place, "rolls.trials",
        "trial roll %zu cannot be: grade, thickness, downfeed and radius above 0 and the rolls' centres and lower "
        "radius are wanted, and the downfeed must leave a radius",
        i + 1);
}

/* Curvature that went back when the load went, and the yield curvature that explains it. */
static double yield_curvature(double kappa, double kappa_f)
{
    double low = 0.0, high = kappa;
    for (int i = 0; i < 100; i++) {
        double middle = (low + high) / 2.0;
        if (sw_sprung_curvature(kappa, middle) > kappa_f)
            low = middle;
        else
            high = middle;
    }
    return (low + high) / 2.0;
}

static double re_of(const sw_roll_trial *t, const sw_rolls *r, double feed_mm, double radius_mm)
{
    double loaded_mm = sw_roll_radius_mm(feed_mm, t->thickness_mm, r->lower_radius_mm, r->centres_mm / 2.0);
    double kappa = 1.0 / (loaded_mm + t->thickness_mm / 2.0), kappa_f = 1.0 / (radius_mm + t->thickness_mm / 2.0);
    sw_strip_steel unit = {1.0, t->grade->young_mpa, t->grade->poisson, true};
    if (kappa_f >= kappa) return 0.0; /* nothing sprang back: no yield stress explains it */
    return yield_curvature(kappa, kappa_f) / sw_yield_curvature(&unit, t->thickness_mm);
}

/* sigma by what the feed's and the radius's uncertainty make of Re. */
static fit_sample re_sample(const sw_roll_trial *t, const sw_rolls *r)
{
    double re = re_of(t, r, t->feed_mm, t->radius_mm);
    double by_feed = fabs(re_of(t, r, t->feed_mm + feed_sigma_mm, t->radius_mm) - re);
    double by_radius = fabs(re_of(t, r, t->feed_mm, t->radius_mm * (1.0 + radius_sigma)) - re);
    return (fit_sample){1.0, re, fmax(1e-6, hypot(by_feed, by_radius)), false, t->place};
}

static bool one_group(const sw_roll_trial *a, const sw_roll_trial *b)
{
    return fit_same_grade(a->grade, b->grade) && fabs(a->thickness_mm - b->thickness_mm) < SW_SHORTEST_MM;
}

static sw_status fit_group(sw_run *run, const sw_rolls *r, size_t first, sw_form_roll_fit *out, sw_findings *findings)
{
    const sw_roll_trial *t = &r->trials[first];
    fit_sample *samples = SW_SCRATCH(run, r->trial_count, fit_sample);
    fit_case c = {.what_one = "trial rolls", .place = t->place};
    c.where = sw_text_format(run, run->keep, "trial rolls, %s %g mm", t->grade->name, t->thickness_mm);
    if (samples == NULL || c.where == NULL) return SW_NO_MEMORY;
    size_t count = 0;
    for (size_t i = first; i < r->trial_count; i++)
        if (one_group(t, &r->trials[i])) samples[count++] = re_sample(&r->trials[i], r);
    fit_line line = fit_through_origin(samples, count);
    SW_TRY(form_fit_findings(run, &c, &line, samples, count, findings));
    *out = (sw_form_roll_fit){t->grade,      t->thickness_mm, count,           line.used,
                              line.left_out, line.value,      line.plus_minus, false};
    out->good = line.used >= 2 && !line.contradict && line.value > 0.0;
    return SW_OK;
}

sw_status fit_rolls(sw_run *run, const sw_works *works, sw_form_fit_result *fit)
{
    const sw_rolls *r = &works->rolls;
    sw_status sound = SW_OK;
    sw_form_roll_fit *rolls = SW_KEEP(run, r->trial_count, sw_form_roll_fit);
    if (r->trial_count == 0) return SW_OK;
    if (rolls == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < r->trial_count; i++) {
        sw_status status = check_roll(run, r, i);
        if (status != SW_OK) sound = status;
    }
    if (sound != SW_OK) return sound;
    fit->rolls = rolls;
    for (size_t i = 0; i < r->trial_count; i++) {
        bool first = true;
        for (size_t k = 0; k < i; k++) first = first && !one_group(&r->trials[k], &r->trials[i]);
        if (first) SW_TRY(fit_group(run, r, i, &rolls[fit->roll_count++], &fit->findings));
    }
    return SW_OK;
}
