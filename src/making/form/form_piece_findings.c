/* form_piece_findings.c: what of a piece the press and the rolls cannot do well; the worst step speaks for the piece. */
#include "making/form/form_parts.h"

#define WORKS "works description"

static double kn(double n)
{
    return n / 1e3;
}

static sw_status order_finding(sw_run *run, const sw_form_piece *p, sw_findings *findings)
{
    sw_finding f = form_finding("sequence", p->piece);
    f.verdict = SW_HOLDS;
    f.where = form_piece_label(run, p->piece);
    f.source = "section simulated stroke by stroke, handbook 2.7";
    f.what = sw_text_format(run, run->keep,
                            "%zu bend lines in %zu strokes, %zu turns over, %zu turns round, %zu set-ups of tools",
                            p->line_count, p->step_count, p->turns_over, p->turns_round, p->dies);
    return form_add(run, findings, f, 0.0);
}

static const sw_form_step *worst_step(const sw_form_piece *p, double (*margin)(const sw_form_step *))
{
    const sw_form_step *worst = NULL;
    for (size_t i = 0; i < p->step_count; i++) {
        const sw_form_step *s = &p->steps[i];
        if (isnan(margin(s)) || (worst != NULL && margin(s) >= margin(worst))) continue;
        worst = s;
    }
    return worst;
}

static double by_flange(const sw_form_step *s)
{
    return s->stroke == SW_FORM_BEND ? s->flange_mm - s->least_flange_mm : (double)NAN;
}
static double by_shift(const sw_form_step *s)
{
    return s->stroke == SW_FORM_BEND ? -fabs(s->leg_shift_mm) : (double)NAN;
}
static double by_force(const sw_form_step *s)
{
    return -s->force_n;
}

static sw_status flange_finding(sw_run *run, const sw_form_piece *p, const char *where, sw_findings *findings)
{
    const sw_form_step *s = worst_step(p, by_flange);
    if (s == NULL) return SW_OK;
    sw_finding f = form_finding("die_flange", p->piece);
    f.sense = SW_AT_LEAST;
    f.value = s->flange_mm;
    f.limit = s->least_flange_mm;
    f.unit = "mm";
    f.where = where;
    f.what = sw_text_format(run, run->keep, "%s: shortest leg %.1f mm outside, the %g die wants %.1f mm",
                            s->bends[0]->name, s->flange_mm, s->die_mm, s->least_flange_mm);
    f.source = "air bending chart of a tool maker: least flange, outside, at 90 degrees";
    f.remedy = "a longer flange, or a narrower die at hand with the radius it makes";
    return form_add(run, findings, f, 0.0);
}

static sw_status radius_finding(sw_run *run, const form_job *job, const sw_form_piece *p, const char *where,
                                sw_findings *findings)
{
    const sw_form_step *s = worst_step(p, by_shift);
    if (s == NULL) return SW_OK;
    sw_finding f = form_finding("radius_made", p->piece);
    f.sense = SW_AT_MOST;
    f.value = fabs(s->leg_shift_mm);
    f.limit = job->opt->leg_off_mm;
    f.unit = "mm";
    f.where = where;
    f.what = sw_text_format(run, run->keep, "%s: radius drawn %.3g mm, the %g die makes %.3g mm: legs off by %.2f mm",
                            s->bends[0]->name, s->radius_drawn_mm, s->die_mm, s->radius_made_mm, s->leg_shift_mm);
    f.source = "common practice, no source: flange length of a first bend";
    f.remedy = "draw the radius that a die at hand makes, or give the works that die";
    return form_add(run, findings, f, 0.0);
}

static sw_status force_finding(sw_run *run, const form_job *job, const sw_form_piece *p, const char *where,
                               sw_findings *findings)
{
    const sw_form_step *s = worst_step(p, by_force);
    if (s == NULL) return SW_OK;
    sw_finding f = form_finding("press_force", p->piece);
    f.sense = SW_AT_MOST;
    f.value = kn(s->force_n);
    f.limit = job->works->press.force_n > 0.0 ? kn(job->works->press.force_n) : (double)NAN;
    f.unit = "kN";
    f.where = where;
    f.what = sw_text_format(run, run->keep, "%s: %.0f mm on the %g die take %.0f kN at the upper tensile strength",
                            s->bends[0]->name, s->bent_mm, s->die_mm, f.value);
    f.source = WORKS;
    f.remedy = "a wider die, or bend it on a stronger press";
    return form_add(run, findings, f, 0.0);
}

static sw_status length_finding(sw_run *run, const form_job *job, const sw_form_piece *p, const char *where,
                                sw_findings *findings)
{
    double most_mm = 0.0;
    for (size_t i = 0; i < p->step_count; i++) most_mm = fmax(most_mm, p->steps[i].length_mm);
    if (p->step_count == 0) return SW_OK;
    sw_finding f = form_finding("press_length", p->piece);
    f.sense = SW_AT_MOST;
    f.value = most_mm;
    f.limit = job->works->press.length_mm > 0.0 ? job->works->press.length_mm : (double)NAN;
    f.unit = "mm";
    f.where = where;
    f.what = sw_text_format(run, run->keep, "longest bend takes %.0f mm of tools", most_mm);
    f.source = WORKS;
    f.remedy = "split the piece, or bend it on a longer press";
    return form_add(run, findings, f, 0.0);
}

static sw_status gauge_finding(sw_run *run, const sw_form_piece *p, const char *where, sw_findings *findings)
{
    size_t by_line = 0, bent = 0;
    const char *name = "";
    for (size_t i = 0; i < p->step_count; i++) {
        if (p->steps[i].stroke == SW_FORM_FLATTEN) continue;
        bent += p->steps[i].rest == SW_FORM_BENT_EDGE;
        if (p->steps[i].rest != SW_FORM_BY_LINE) continue;
        by_line++;
        name = p->steps[i].bends[0]->name;
    }
    if (p->step_count == 0) return SW_OK;
    sw_finding f = form_finding("back_gauge", p->piece);
    f.where = where;
    f.verdict = by_line > 0 ? SW_WATCH : SW_HOLDS;
    f.what = by_line > 0
                 ? sw_text_format(run, run->keep, "%s: no edge in reach lies along the bend on either side", name)
                 : sw_text_format(run, run->keep, "every stroke has a stop, %zu of them at a bent edge", bent);
    f.source = "common practice, no source";
    f.remedy = "etch the bend line and set it by eye, or draw an edge along it";
    return form_add(run, findings, f, 0.0);
}

sw_status form_piece_findings(sw_run *run, form_job *job, const sw_form_piece *p, sw_findings *findings)
{
    const char *where = form_piece_label(run, p->piece);
    if (where == NULL) return SW_NO_MEMORY;
    if (p->bendable && p->line_count > 0) SW_TRY(order_finding(run, p, findings));
    SW_TRY(flange_finding(run, p, where, findings));
    SW_TRY(radius_finding(run, job, p, where, findings));
    SW_TRY(force_finding(run, job, p, where, findings));
    SW_TRY(length_finding(run, job, p, where, findings));
    SW_TRY(gauge_finding(run, p, where, findings));
    return form_roll_findings(run, job, p, findings);
}
