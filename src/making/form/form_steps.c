/* form_steps.c: the bend card of a piece from the order found. */
#include "making/form/form_parts.h"

static sw_status bends_of(sw_run *run, const form_body *body, const form_line *line, sw_form_step *step)
{
    const sw_bend **bends = SW_KEEP(run, line->count, const sw_bend *);
    if (bends == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < line->count; i++) bends[i] = &body->piece->bends[line->bends[i]];
    step->bends = bends;
    step->bend_count = line->count;
    return SW_OK;
}

static double tool_length_mm(const form_job *job, const form_line *line)
{
    return isfinite(line->to_mm) ? line->to_mm - line->from_mm : job->works->press.length_mm;
}

static void set_figures(const form_job *job, const form_line *line, const form_move *m, sw_form_step *step)
{
    const form_body *body = job->body;
    double s_mm = body->piece->thickness_mm;
    step->stroke = line->kind;
    step->die_mm = line->die_mm;
    step->punch_wedge_rad = line->wedge_rad;
    step->punch = form_punch_turned(m->punch, m->parent_to_gauge);
    step->length_mm = tool_length_mm(job, line);
    step->bent_mm = line->bent_mm;
    step->force_n = line->force_n;
    step->set_rad = line->set_rad;
    step->angle_rad = line->kind == SW_FORM_PREBEND ? line->set_rad : line->angle_rad;
    step->over_rad = step->set_rad - step->angle_rad;
    step->depth_mm = sw_punch_depth_mm(line->die_mm, s_mm, line->radius_mm, line->set_rad);
    step->slope_mm = sw_punch_slope_mm(line->die_mm, s_mm, line->radius_mm, line->set_rad);
    step->radius_drawn_mm = body->piece->bends[line->bends[0]].radius_mm;
    step->radius_made_mm = line->radius_mm;
    step->leg_shift_mm = line->leg_shift_mm;
    step->flange_mm = line->flange_mm;
    step->least_flange_mm = line->least_flange_mm;
    step->over_source = line->over_source;
    step->allowance_rule = body->zones[line->bends[0]].rule;
    step->front_up = line->side > 0.0;
    step->heading_rad = remainder(line->heading_rad + (m->parent_to_gauge ? SW_PI : 0.0), 2.0 * SW_PI);
}

/* A turn over may swap front and rear, so half a turn comes with it. */
static void set_turns(const sw_form_step *last, sw_form_step *step)
{
    step->new_die = last == NULL || last->stroke != step->stroke ||
                    fabs(last->die_mm - step->die_mm) > SW_SHORTEST_MM || last->punch != step->punch ||
                    fabs(last->punch_wedge_rad - step->punch_wedge_rad) > 1e-9;
    step->new_gauge = last == NULL || !(fabs(last->gauge_mm - step->gauge_mm) < 0.05);
    if (last == NULL) return;
    step->turn_over = last->front_up != step->front_up;
    int q = (int)lround(fabs(remainder(step->heading_rad - last->heading_rad, 2.0 * SW_PI)) / (SW_PI / 2.0));
    step->turn_round_rad = step->turn_over && q == 2 ? 0.0 : q * SW_PI / 2.0;
}

static double step_seconds(const sw_press *p, const sw_form_step *step)
{
    double s = p->bend_s;
    if (step->turn_over) s += p->turn_s;
    if (step->turn_round_rad > 0.0) s += p->turn_s;
    return step->new_gauge ? s + p->gauge_s : s;
}

static sw_status flatten_step(sw_run *run, form_job *job, const form_move *m, const sw_form_step *first,
                              sw_form_step *step)
{
    const form_line *line = &job->body->lines[m->line];
    *step = *first;
    step->stroke = SW_FORM_FLATTEN;
    step->punch = SW_FORM_FLAT;
    step->die_mm = step->punch_wedge_rad = step->over_rad = 0.0;
    step->angle_rad = step->set_rad = line->angle_rad;
    step->depth_mm = step->slope_mm = step->gauge_mm = step->force_n = NAN; /* no source for the force of flattening */
    step->rest = SW_FORM_BY_LINE;
    step->gauge_edge = "";
    step->new_gauge = step->turn_over = false;
    step->new_die = true;
    step->turn_round_rad = 0.0;
    step->seconds = job->works->press.bend_s;
    SW_TRY(form_picture(run, job, m, (form_tooling){SW_FORM_FLATTEN, SW_FORM_FLAT, form_share_set(line)}, NULL,
                        &step->before));
    return form_picture(run, job, m, (form_tooling){SW_FORM_FLATTEN, SW_FORM_FLAT, 1.0}, NULL, &step->after);
}

static sw_status one_step(sw_run *run, form_job *job, const form_move *m, const sw_form_step *last, sw_form_step *step)
{
    const form_line *line = &job->body->lines[m->line];
    form_rest_found rest = form_rest_of(job, m->made, m->line, m->parent_to_gauge);
    *step = (sw_form_step){0};
    SW_TRY(bends_of(run, job->body, line, step));
    set_figures(job, line, m, step);
    step->rest = rest.rest;
    step->gauge_mm = rest.gauge_mm;
    step->gauge_edge = rest.rest != SW_FORM_BENT_EDGE ? sw_text_copy(run, run->keep, rest.edge)
                                                      : sw_text_format(run, run->keep, "%s, outside", rest.edge);
    if (step->gauge_edge == NULL) return SW_NO_MEMORY;
    set_turns(last, step);
    step->seconds = step_seconds(&job->works->press, step);
    SW_TRY(form_picture(run, job, m, (form_tooling){line->kind, m->punch, 0.0}, &rest, &step->before));
    return form_picture(run, job, m, (form_tooling){line->kind, m->punch, form_share_set(line)}, NULL, &step->after);
}

static void sum_up(const form_job *job, sw_form_piece *out)
{
    for (size_t i = 0; i < out->step_count; i++) {
        const sw_form_step *s = &out->steps[i];
        out->dies += s->new_die;
        out->turns_over += s->turn_over;
        out->turns_round += s->turn_round_rad > 0.0;
        if (!(out->force_n >= s->force_n) && !isnan(s->force_n)) out->force_n = s->force_n;
        out->length_mm = fmax(out->length_mm, s->length_mm);
        out->press_s += s->seconds;
    }
    out->press_setup_s = (double)out->dies * job->works->press.setup_s;
}

sw_status form_steps(sw_run *run, form_job *job, const form_order *order, sw_form_piece *out)
{
    sw_form_step *steps = SW_KEEP(run, 2 * order->count + 1, sw_form_step);
    if (steps == NULL) return SW_NO_MEMORY;
    out->steps = steps;
    for (size_t i = 0; i < order->count; i++) {
        const form_move *m = &order->moves[i];
        sw_form_step *step = &steps[out->step_count++];
        SW_TRY(one_step(run, job, m, step == steps ? NULL : step - 1, step));
        if (step->stroke != SW_FORM_PREBEND) continue;
        SW_TRY(flatten_step(run, job, m, step, &steps[out->step_count]));
        out->step_count++;
    }
    sum_up(job, out);
    return SW_OK;
}
