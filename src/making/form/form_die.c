/* form_die.c: which die bends a line, what it makes and how far to bend beyond the angle. */
#include "making/form/form_fit_parts.h"
#include "making/form/form_parts.h"

static const double least_v_s = 6.0, most_v_s = 15.0; /* range of the force formula and of the natural radius */
static const double hem_rest_rad = 0.07;   /* a hem's first stroke leaves the acute wedge and 4 degrees. ours */
static const double wedge_room_rad = 0.02; /* a punch clears the legs by a degree. ours */

form_machine form_machine_of(const sw_press *p, const sw_form_options *opt)
{
    return (form_machine){
        .punch_radius_mm = p->punch_radius_mm,
        .punch_body_mm = p->punch_body_mm > 0.0 ? p->punch_body_mm : opt->punch_body_mm,
        .punch_high_mm = p->punch_high_mm > 0.0 ? p->punch_high_mm : opt->punch_high_mm,
        .neck_mm = p->neck_mm,
        .die_block_mm = p->die_block_mm > 0.0 ? p->die_block_mm : opt->die_block_mm,
        .die_high_mm = p->die_high_mm > 0.0 ? p->die_high_mm : opt->die_high_mm,
        .beam_mm = p->beam_mm > 0.0 ? p->beam_mm : opt->beam_mm,
    };
}

static double radius_made_mm(const form_job *job, double die_mm)
{
    const sw_grade *grade = job->body->piece->grade;
    double natural_mm = sw_natural_radius_mm(die_mm, grade == NULL ? SW_STEEL : grade->kind);
    return fmax(natural_mm, job->machine.punch_radius_mm);
}

static double force_n(const form_job *job, const form_line *line, double die_mm)
{
    const sw_piece *p = job->body->piece;
    double rm_mpa = p->grade == NULL ? 0.0 : p->grade->rm_max_mpa;
    return sw_press_force_n(job->opt->force_factor, rm_mpa, p->thickness_mm, line->bent_mm, die_mm);
}

/* Worth of a die, less is better: nearest radius first, then V near the rule; one that is too wide for the flange or too
 * narrow for the force only where no other is left. */
static double die_badness(const form_job *job, const form_line *line, double drawn_mm, double die_mm)
{
    double s_mm = job->body->piece->thickness_mm, bad = fabs(log(radius_made_mm(job, die_mm) / fmax(drawn_mm, 0.1)));
    bad += 0.2 * fabs(log(die_mm / sw_die_wanted_mm(s_mm)));
    bool hem_or_joggle = line->kind != SW_FORM_BEND;
    if (!hem_or_joggle && line->flange_mm < sw_least_flange_mm(die_mm) - SW_SAME_POINT_MM) bad += 100.0;
    if (job->works->press.force_n > 0.0 && force_n(job, line, die_mm) > job->works->press.force_n) bad += 10.0;
    return bad;
}

static double choose_die_mm(const form_job *job, const form_line *line, double drawn_mm)
{
    const sw_press *p = &job->works->press;
    double s_mm = job->body->piece->thickness_mm, best_mm = NAN, best = INFINITY;
    for (size_t i = 0; i < p->die_count; i++) {
        double die_mm = p->dies_mm[i];
        if (die_mm < least_v_s * s_mm - SW_SAME_POINT_MM || die_mm > most_v_s * s_mm + SW_SAME_POINT_MM) continue;
        double bad = die_badness(job, line, drawn_mm, die_mm);
        if (bad < best) {
            best = bad;
            best_mm = die_mm;
        }
    }
    return p->die_count > 0 ? best_mm : sw_die_wanted_mm(s_mm);
}

static const sw_form_bend_fit *fit_for(const form_job *job, const sw_form_fit_result *fit, double die_mm)
{
    const sw_piece *p = job->body->piece;
    for (size_t i = 0; fit != NULL && i < fit->bend_count; i++) {
        const sw_form_bend_fit *b = &fit->bends[i];
        if (!fit_same_grade(b->grade, p->grade) || fabs(b->thickness_mm - p->thickness_mm) > SW_SHORTEST_MM) continue;
        if (!isnan(b->over) && fabs(b->die_mm - die_mm) < SW_SHORTEST_MM) return b;
    }
    return NULL;
}

/* Angle under load for the angle wanted, by the works' strips or by Gardiner. */
static double set_rad(const form_job *job, const sw_form_fit_result *fit, form_line *line, double wanted_rad)
{
    const sw_piece *p = job->body->piece;
    const sw_form_bend_fit *trial = fit_for(job, fit, line->die_mm);
    if (trial != NULL) {
        line->over_source = "works trial strips";
        return wanted_rad * trial->over;
    }
    if (p->grade == NULL || p->grade->re_min_mpa <= 0.0 || p->grade->young_mpa <= 0.0) {
        line->over_source = "no yield stress known: no over-bend";
        return wanted_rad;
    }
    double re_mpa = p->grade->re_min_mpa * job->opt->re_factor;
    double loaded_mm = sw_springback_loaded_mm(line->radius_mm, re_mpa, p->grade->young_mpa, p->thickness_mm);
    line->over_source = "Gardiner 1957, with the least yield stress raised by an allowance";
    return sw_overbend_rad(loaded_mm, line->radius_mm, p->thickness_mm, wanted_rad);
}

/* Half of what the bend deduction changes when the same flat is bent to another radius. */
static double leg_shift_mm(const form_job *job, const form_line *line, const sw_bend *b)
{
    const sw_piece *p = job->body->piece;
    const form_zone *z = &job->body->zones[line->bends[0]];
    double k = (z->allowance_mm / z->angle_rad - b->radius_mm) / p->thickness_mm;
    double drawn = 2.0 * sw_bend_setback_mm(b->radius_mm, p->thickness_mm, b->angle_rad) - z->allowance_mm;
    double made = 2.0 * sw_bend_setback_mm(line->radius_mm, p->thickness_mm, b->angle_rad) -
                  sw_bend_allowance_mm(line->radius_mm, p->thickness_mm, k, b->angle_rad);
    return (made - drawn) / 2.0;
}

static void set_line(const form_job *job, const sw_form_fit_result *fit, form_line *line)
{
    const sw_bend *b = &job->body->piece->bends[line->bends[0]];
    line->die_mm = choose_die_mm(job, line, b->radius_mm);
    line->radius_mm = line->kind == SW_FORM_BEND ? radius_made_mm(job, line->die_mm) : b->radius_mm;
    line->least_flange_mm = sw_least_flange_mm(line->die_mm);
    line->force_n = force_n(job, line, line->die_mm);
    double acute_rad = sw_rad_from_deg(job->opt->acute_deg), usual_rad = sw_rad_from_deg(job->opt->punch_angle_deg);
    double hem_rad = SW_PI - acute_rad - hem_rest_rad;
    line->set_rad =
        line->kind == SW_FORM_PREBEND ? fmin(hem_rad, line->angle_rad) : set_rad(job, fit, line, line->angle_rad);
    if (line->kind == SW_FORM_JOGGLE) line->set_rad = line->angle_rad;
    line->wedge_rad = line->set_rad > SW_PI - usual_rad - wedge_room_rad ? acute_rad : usual_rad;
    if (line->kind == SW_FORM_BEND) line->leg_shift_mm = leg_shift_mm(job, line, b);
    if (line->kind == SW_FORM_PREBEND) line->over_source = "bent sharp, then flattened";
    if (line->kind == SW_FORM_JOGGLE) line->over_source = "joggle tools";
}

void form_dies(const form_job *job, const sw_form_fit_result *fit)
{
    for (size_t i = 0; i < job->body->line_count; i++) set_line(job, fit, &job->body->lines[i]);
}
