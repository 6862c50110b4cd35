/* form_roll_findings.c: what of a rolled zone the rolls cannot do. */
#include "making/form/form_parts.h"

#define WORKS "works description"

static double known(double value)
{
    return value > 0.0 ? value : (double)NAN;
}

/* Ends drawn round can be had all the same: bent before on the press, or trimmed after. */
static sw_status ends(sw_run *run, const form_job *job, const sw_form_roll *r, sw_finding f, sw_findings *findings)
{
    double drawn_mm = fmin(r->flat_drawn_mm[0], r->flat_drawn_mm[1]);
    bool enough = drawn_mm >= r->flat_needed_mm;
    f.check = "flat_end";
    f.value = drawn_mm;
    f.limit = r->flat_needed_mm;
    f.unit = "mm";
    f.verdict = isnan(r->flat_needed_mm) ? SW_UNKNOWN : enough ? SW_HOLDS : SW_WATCH;
    const char *bent =
        !r->pre_bent ? ""
                     : sw_text_format(run, run->scratch, " once it is bent before (the rolls alone leave %.1f mm)",
                                      r->flat_rolls_mm);
    if (bent == NULL) return SW_NO_MEMORY;
    f.what = sw_text_format(run, run->keep, "%s: %.1f mm stay flat at an end%s, %.1f mm are drawn flat", r->bend->name,
                            f.limit, bent, f.value);
    f.source = job->works->rolls.flat_end_s > 0.0 ? WORKS : "derived: contact angle of three rolls, handbook 3.1";
    f.remedy =
        sw_text_format(run, run->keep, "bend the ends before on the press, or leave %.1f mm to trim after rolling",
                       fmax(r->extra_mm[0], r->extra_mm[1]));
    return form_add(run, findings, f, 0.0);
}

static sw_status force(sw_run *run, const form_job *job, const sw_form_roll *r, sw_finding f, sw_findings *findings)
{
    f.check = "roll_force";
    f.sense = SW_AT_MOST;
    f.value = r->force_n / 1e3;
    f.limit = known(job->works->rolls.force_n) / 1e3;
    f.unit = "kN";
    f.what = sw_text_format(run, run->keep, "%s: the last pass presses with %.3g kN over %.0f mm", r->bend->name,
                            f.value, r->width_mm);
    f.source = WORKS;
    f.remedy = "roll it on stronger rolls, or a thinner sheet";
    return form_add(run, findings, f, 0.0);
}

static sw_status radius(sw_run *run, const form_job *job, const sw_form_roll *r, sw_finding f, sw_findings *findings)
{
    f.check = "roll_radius";
    f.sense = SW_AT_LEAST;
    f.value = r->radius_mm;
    f.limit = known(job->works->rolls.top_radius_mm) * job->opt->least_shell;
    f.unit = "mm";
    f.what = sw_text_format(run, run->keep, "%s: inside radius %.4g mm, rolled to %.4g mm under load", r->bend->name,
                            r->radius_mm, r->loaded_mm);
    f.source = "common practice, no source: inside diameter 1.1 to 1.5 top rolls";
    f.remedy = "a larger radius, or press it in many small bends";
    if (isnan(r->feed_mm)) f.value = NAN;
    return form_add(run, findings, f, 0.0);
}

static sw_status length(sw_run *run, const form_job *job, const sw_form_roll *r, sw_finding f, sw_findings *findings)
{
    f.check = "roll_length";
    f.sense = SW_AT_MOST;
    f.value = r->width_mm;
    f.limit = known(job->works->rolls.length_mm);
    f.unit = "mm";
    f.what = sw_text_format(run, run->keep, "%s: %.0f mm wide", r->bend->name, r->width_mm);
    f.source = WORKS;
    f.remedy = "split the piece, or roll it on longer rolls";
    return form_add(run, findings, f, 0.0);
}

sw_status form_roll_findings(sw_run *run, form_job *job, const sw_form_piece *p, sw_findings *findings)
{
    for (size_t i = 0; i < p->roll_count; i++) {
        const sw_form_roll *r = &p->rolls[i];
        sw_finding f = form_finding("", p->piece);
        f.where = form_piece_label(run, p->piece);
        f.place = r->bend->place;
        SW_TRY(ends(run, job, r, f, findings));
        SW_TRY(force(run, job, r, f, findings));
        SW_TRY(radius(run, job, r, f, findings));
        SW_TRY(length(run, job, r, f, findings));
    }
    return SW_OK;
}
