/* form_fit.c: neutral-axis factor and over-bend from the works' trial strips. */
#include "making/form/form_fit_parts.h"

#include <math.h>

/* What a rule and an angle gauge give in the shop: common practice, no source. */
static const double length_sigma_mm = 0.1, angle_sigma_deg = 0.3;
static const double trial_reach = 0.2; /* a fitted row replaces one within 20 % of its radius: as sheet looks them up */

static sw_status check_strip(sw_run *run, const sw_strip *s, size_t i)
{
    bool sound = s->grade != NULL && s->thickness_mm > 0.0 && s->thickness_mm < 50.0 && s->flat_mm > 0.0;
    sound = sound && s->leg_a_mm > 0.0 && s->leg_b_mm > 0.0 && s->radius_mm >= 0.0 && s->die_mm >= 0.0;
    sound = sound && s->got_rad > 0.05 && s->got_rad < 2.8 && s->set_rad >= 0.0 && s->set_rad < SW_PI;
    sound = sound && (s->radius_mm > 0.0 || s->die_mm > 0.0) && isfinite(s->flat_mm + s->leg_a_mm + s->leg_b_mm);
    if (sound) return SW_OK;
    return sw_fail(run, SW_BAD_INPUT, s->place, "press.strips",
                   "strip %zu cannot be: grade, thickness, flat length and legs above 0, angle from 3 to 160 deg, a "
                   "radius or a die are wanted",
                   i + 1);
}

static double radius_of(const sw_strip *s)
{
    return s->radius_mm > 0.0 ? s->radius_mm : sw_natural_radius_mm(s->die_mm, s->grade->kind);
}

/* BA - A r = K (A s), BA = L - (a - OSSB) - (b - OSSB); handbook 1.3 */
static fit_sample k_sample(const sw_strip *s)
{
    double r = radius_of(s), A = s->got_rad, t = s->thickness_mm;
    double setback = sw_bend_setback_mm(r, t, A), allowance = s->flat_mm - s->leg_a_mm - s->leg_b_mm + 2.0 * setback;
    double half = cos(A / 2.0), slope = A > SW_PI / 2.0 ? r : fabs((r + t) / (half * half) - r); /* dBA/dA - r */
    double angle = slope * sw_rad_from_deg(angle_sigma_deg);
    return (fit_sample){A * t, allowance - A * r, sqrt(3.0 * length_sigma_mm * length_sigma_mm + angle * angle), false,
                        s->place};
}

static fit_sample over_sample(const sw_strip *s)
{
    return (fit_sample){s->got_rad, s->set_rad, sqrt(2.0) * sw_rad_from_deg(angle_sigma_deg), false, s->place};
}

static bool one_group(const sw_strip *a, const sw_strip *b)
{
    return fit_same_grade(a->grade, b->grade) && fabs(a->thickness_mm - b->thickness_mm) < SW_SHORTEST_MM &&
           fabs(a->die_mm - b->die_mm) < SW_SHORTEST_MM;
}

typedef struct group {
    const sw_strip *first;
    fit_sample *k, *over;
    size_t count, over_count;
    double radius_sum_mm;
} group;

static sw_status collect(sw_run *run, const sw_press *p, size_t first, group *g)
{
    *g = (group){.first = &p->strips[first]};
    g->k = SW_SCRATCH(run, p->strip_count, fit_sample);
    g->over = SW_SCRATCH(run, p->strip_count, fit_sample);
    if (g->k == NULL || g->over == NULL) return SW_NO_MEMORY;
    for (size_t i = first; i < p->strip_count; i++) {
        const sw_strip *s = &p->strips[i];
        if (!one_group(g->first, s)) continue;
        g->k[g->count++] = k_sample(s);
        g->radius_sum_mm += radius_of(s);
        if (s->set_rad > 0.0) g->over[g->over_count++] = over_sample(s);
    }
    return SW_OK;
}

static sw_status label(sw_run *run, const sw_strip *s, fit_case *c)
{
    c->where = s->die_mm > 0.0
                   ? sw_text_format(run, run->keep, "trial strips, %s %g mm on the %g die", s->grade->name,
                                    s->thickness_mm, s->die_mm)
                   : sw_text_format(run, run->keep, "trial strips, %s %g mm", s->grade->name, s->thickness_mm);
    c->place = s->place;
    return c->where == NULL ? SW_NO_MEMORY : SW_OK;
}

static sw_status fit_group(sw_run *run, group *g, sw_form_bend_fit *out, sw_findings *findings)
{
    fit_case c = {.what_one = "strips"};
    SW_TRY(label(run, g->first, &c));
    fit_line k = fit_through_origin(g->k, g->count);
    SW_TRY(form_fit_findings(run, &c, &k, g->k, g->count, findings));
    *out = (sw_form_bend_fit){
        .grade = g->first->grade, .thickness_mm = g->first->thickness_mm, .die_mm = g->first->die_mm};
    out->strips = g->count;
    out->used = k.used;
    out->left_out = k.left_out;
    out->radius_mm = g->radius_sum_mm / (double)g->count;
    out->good = k.used >= 2 && !k.contradict && k.value >= 0.0 && k.value <= 1.0;
    out->k = k.value;
    out->k_plus_minus = k.plus_minus;
    out->over = out->over_plus_minus = NAN;
    if (g->over_count == 0) return SW_OK;
    c.what_one = "over-bend angles";
    fit_line over = fit_through_origin(g->over, g->over_count);
    SW_TRY(form_fit_findings(run, &c, &over, g->over, g->over_count, findings));
    out->sprung = over.used;
    if (over.used < 2 || over.contradict || over.value < 1.0 - over.plus_minus) return SW_OK;
    out->over = fmax(1.0, over.value);
    out->over_plus_minus = over.plus_minus;
    return SW_OK;
}

static bool is_first(const sw_press *p, size_t i)
{
    for (size_t k = 0; k < i; k++)
        if (one_group(&p->strips[k], &p->strips[i])) return false;
    return true;
}

static sw_status fit_strips(sw_run *run, const sw_press *p, sw_form_fit_result *fit)
{
    sw_form_bend_fit *bends = SW_KEEP(run, p->strip_count, sw_form_bend_fit);
    if (bends == NULL && p->strip_count > 0) return SW_NO_MEMORY;
    fit->bends = bends;
    for (size_t i = 0; i < p->strip_count; i++) {
        group g;
        if (!is_first(p, i)) continue;
        SW_TRY(collect(run, p, i, &g));
        SW_TRY(fit_group(run, &g, &bends[fit->bend_count++], &fit->findings));
    }
    return SW_OK;
}

/* ---- rows for sheet ---- */

static sw_status trial_row(sw_run *run, const sw_form_bend_fit *b, sw_bend_trial *t)
{
    *t = (sw_bend_trial){.grade = b->grade, .thickness_mm = b->thickness_mm, .radius_mm = b->radius_mm, .k = b->k};
    t->note = b->die_mm > 0.0 ? sw_text_format(run, run->keep, "%zu strips on the %g die, K %.3f +- %.3f (95 %%)",
                                               b->used, b->die_mm, b->k, b->k_plus_minus)
                              : sw_text_format(run, run->keep, "%zu strips, K %.3f +- %.3f (95 %%)", b->used, b->k,
                                               b->k_plus_minus);
    return t->note == NULL ? SW_NO_MEMORY : SW_OK;
}

static bool replaced(const sw_bend_trial *fitted, size_t count, const sw_bend_trial *own)
{
    for (size_t i = 0; i < count; i++)
        if (fit_same_grade(fitted[i].grade, own->grade) &&
            fabs(fitted[i].thickness_mm - own->thickness_mm) < SW_SHORTEST_MM &&
            fabs(fitted[i].radius_mm - own->radius_mm) <= trial_reach * own->radius_mm)
            return true;
    return false;
}

static sw_status trial_rows(sw_run *run, const sw_press *p, sw_form_fit_result *fit)
{
    sw_bend_trial *rows = SW_KEEP(run, fit->bend_count + p->trial_count, sw_bend_trial);
    if (rows == NULL && fit->bend_count + p->trial_count > 0) return SW_NO_MEMORY;
    fit->trials = rows;
    for (size_t i = 0; i < fit->bend_count; i++)
        if (fit->bends[i].good) SW_TRY(trial_row(run, &fit->bends[i], &rows[fit->trial_count++]));
    size_t fitted = fit->trial_count;
    for (size_t i = 0; i < p->trial_count; i++)
        if (!replaced(rows, fitted, &p->trials[i])) rows[fit->trial_count++] = p->trials[i];
    return SW_OK;
}

static sw_status steps(sw_run *run, const sw_works *works, sw_form_fit_result *fit)
{
    sw_status sound = SW_OK;
    for (size_t i = 0; i < works->press.strip_count; i++) {
        sw_status status = check_strip(run, &works->press.strips[i], i);
        if (status != SW_OK) sound = status;
    }
    if (sound != SW_OK) return sound;
    SW_TRY(fit_strips(run, &works->press, fit));
    SW_TRY(trial_rows(run, &works->press, fit));
    return fit_rolls(run, works, fit);
}

sw_status sw_form_fit(sw_run *run, const sw_works *works, const sw_form_fit_result **fit)
{
    size_t mark = sw_arena_mark(run->scratch);
    *fit = NULL;
    sw_form_fit_result *made = SW_KEEP(run, 1, sw_form_fit_result);
    sw_status status = made == NULL ? SW_NO_MEMORY : works == NULL ? SW_OK : steps(run, works, made);
    sw_arena_rewind(run->scratch, mark);
    if (status == SW_OK) *fit = made;
    return status;
}
