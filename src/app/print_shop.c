/* print_shop.c: the workshop's studies on the screen. */
#include "app/app.h"

#include <math.h>

static double kn(double n)
{
    return n / 1e3;
}

/* ---- form ---------------------------------------------------------------------------------------------------------- */

/* Set and stop: a fold pressed flat has neither die, force nor depth. */
static void print_stroke(sw_writer *out, const sw_form_step *s)
{
    if (s->stroke == SW_FORM_FLATTEN) {
        sw_print(out, "flattening %.0f mm", s->length_mm);
        return;
    }
    sw_print(out, "V %-4g %6.0f mm %7.1f kN  %6.1f deg, set %6.2f  punch down %6.2f mm  ", s->die_mm, s->length_mm,
             kn(s->force_n), sw_deg_from_rad(s->angle_rad), sw_deg_from_rad(s->set_rad), s->depth_mm);
    if (isnan(s->gauge_mm))
        sw_print(out, "by the marked line");
    else
        sw_print(out, "stop %.1f mm at %s", s->gauge_mm, s->gauge_edge);
}

static void print_step(sw_writer *out, const sw_form_step *s, size_t number)
{
    sw_print(out, "    %zu  %-26s ", number, s->bend_count > 0 ? s->bends[0]->name : "");
    print_stroke(out, s);
    if (s->punch == SW_FORM_NECK_FRONT || s->punch == SW_FORM_NECK_REAR)
        sw_print(out, ", %s", sw_form_punch_name(s->punch));
    sw_print(out, "%s%s%s\n", s->new_die ? ", tools set up" : "", s->turn_over ? ", turn over" : "",
             s->turn_round_rad > 0 ? ", turn round" : "");
}

static void print_roll(sw_writer *out, const sw_form_roll *r)
{
    sw_print(
        out,
        "    roll %-22s radius %.1f mm, loaded %.1f: feed %.2f mm in %zu passes, %.1f kN; ends stay flat %.0f mm%s; "
        "template on %.1f mm: %.2f to %.2f mm\n",
        r->bend->name, r->radius_mm, r->loaded_mm, r->feed_mm, r->pass_count, kn(r->force_n), r->flat_needed_mm,
        r->pre_bent ? " once bent before" : "", r->chord_mm, r->sagitta_low_mm, r->sagitta_high_mm);
}

static void print_bend_trials(sw_writer *out, const sw_form_bend_fit *b)
{
    sw_print(out, "trials: %s %g mm on V %g: ", b->grade->name, b->thickness_mm, b->die_mm);
    if (isnan(b->k) || isnan(b->k_plus_minus))
        sw_print(out, "K -, too few: %zu strip%s", b->used, sw_plural(b->used));
    else
        sw_print(out, "K %.3f +- %.3f from %zu strips", b->k, b->k_plus_minus, b->used);
    sw_print(out, "%s\n", b->good ? "" : ", not used");
}

static void print_roll_trials(sw_writer *out, const sw_form_roll_fit *r)
{
    sw_print(out, "trials: %s %g mm on the rolls: yield stress ", r->grade->name, r->thickness_mm);
    if (isnan(r->re_mpa) || isnan(r->re_plus_minus_mpa))
        sw_print(out, "-, too few: %zu roll%s", r->used, sw_plural(r->used));
    else
        sw_print(out, "%.0f +- %.0f N/mm2 from %zu", r->re_mpa, r->re_plus_minus_mpa, r->used);
    sw_print(out, "%s\n", r->good ? "" : ", not used");
}

void sw_print_form(sw_writer *out, const sw_dossier *d)
{
    const sw_form_result *f = d->shop.form;
    const sw_form_fit_result *t = d->shop.trials;
    if (t != NULL && t->bend_count + t->roll_count > 0) sw_print(out, "\n");
    for (size_t i = 0; t != NULL && i < t->bend_count; i++) print_bend_trials(out, &t->bends[i]);
    for (size_t i = 0; t != NULL && i < t->roll_count; i++) print_roll_trials(out, &t->rolls[i]);
    for (size_t i = 0; i < f->piece_count; i++) {
        const sw_form_piece *p = &f->pieces[i];
        if (p->step_count + p->roll_count == 0) continue;
        sw_print(out, "\n%s %s: %zu stroke%s, %zu tool set-up%s, %zu turn%s over, %.1f min\n", p->piece->number,
                 p->piece->name, p->step_count, sw_plural(p->step_count), p->dies, sw_plural(p->dies), p->turns_over,
                 sw_plural(p->turns_over), sw_min_from_s(p->press_s + p->rolls_s));
        for (size_t k = 0; p->rolls_first && k < p->roll_count; k++) print_roll(out, &p->rolls[k]);
        for (size_t k = 0; k < p->step_count; k++) print_step(out, &p->steps[k], k + 1);
        for (size_t k = 0; !p->rolls_first && k < p->roll_count; k++) print_roll(out, &p->rolls[k]);
    }
    sw_print(out, "\nOne stove: %.0f min at the press, %.0f min at the rolls; %.2f %s\n", sw_min_from_s(f->press_s),
             sw_min_from_s(f->rolls_s), f->cost, d->model.works->currency);
}

/* ---- join ---------------------------------------------------------------------------------------------------------- */

void sw_print_join(sw_writer *out, const sw_dossier *d)
{
    const sw_join_result *j = d->shop.join;
    int joint = 40, body = 40;
    for (size_t i = 0; i < j->seam_count; i++) sw_widen(&joint, j->seams[i].joint->name);
    for (size_t i = 0; i < j->body_count; i++) sw_widen(&body, j->bodies[i].name);
    sw_print(out, "\n%4s %-*s %-14s %7s %6s %-6s %7s %8s\n", "seam", joint, "joint", "kind", "mm", "throat", "by",
             "arc s", "kJ/mm");
    for (size_t i = 0; i < j->seam_count; i++) {
        const sw_join_seam *s = &j->seams[i];
        sw_print(out, "%4zu %-*s %-14s %7.0f %6.1f %-6s", s->number, joint, s->joint->name, sw_seam_kind_name(s->kind),
                 s->weld_mm, s->throat_mm, sw_join_station_name(s->station));
        sw_print_cell(out, 7, 1, s->arc_s);
        sw_print_cell(out, 8, 3, s->heat_kj_mm);
        sw_print(out, "\n");
    }
    sw_print(out, "\n%-*s %8s %6s %8s %8s %8s %6s\n", body, "body", "mass kg", "tacks", "tack min", "hand min",
             "robot min", "turns");
    for (size_t i = 0; i < j->body_count; i++) {
        const sw_join_body *b = &j->bodies[i];
        sw_print(out, "%-*s %8.1f %6zu %8.1f %8.1f %8.1f %6zu\n", body, b->name, b->mass_kg, b->tack_count,
                 sw_min_from_s(b->tack_s), sw_min_from_s(b->hand_s), sw_min_from_s(b->robot_s), b->turns);
    }
    sw_print(out, "\nOne stove: %.2f m of seam, %.1f min of arc, %.3f kg of wire, %.3f m3 of gas, %.2f kWh\n",
             sw_m_from_mm(j->weld_mm), sw_min_from_s(j->arc_s), j->wire_kg, j->gas_m3, sw_kwh_from_j(j->energy_j));
    sw_print(out, "Shrinkage and rise are estimates, +- 50 %%. Seam table: in the dossier, welding/seams.csv\n");
}

/* ---- fit ----------------------------------------------------------------------------------------------------------- */

static void print_features(sw_writer *out, const sw_fit_measured *m)
{
    int piece = 24, feature = 34;
    for (size_t i = 0; i < m->feature_count; i++) {
        sw_widen(&piece, m->features[i].piece);
        sw_widen(&feature, m->features[i].feature);
    }
    if (m->feature_count > 0)
        sw_print(out, "\n%-*s %-*s %5s %9s %7s %7s\n", piece, "measured piece", feature, "feature", "n", "mean", "Cp",
                 "Cpk");
    for (size_t i = 0; i < m->feature_count; i++) {
        const sw_fit_feature *f = &m->features[i];
        sw_print(out, "%-*s %-*s %5zu %9.3f", piece, f->piece, feature, f->feature, f->count, f->mean);
        sw_print_cell(out, 7, 2, f->cp);
        sw_print_cell(out, 7, 2, f->cpk);
        if (!f->charted) sw_print(out, "  no chart: %s", f->why);
        for (size_t k = 0; f->charted && k < f->chart.break_count; k++)
            sw_print(out, "\n    sample %zu: %s", f->chart.breaks[k].point + 1,
                     sw_run_rule_text(f->chart.breaks[k].rule));
        sw_print(out, "\n");
    }
}

/* All or none of n drawn: at most 3/n of others are otherwise, with 95 % confidence. Hanley and Lippman-Hand 1983 (from
 * memory). */
static void print_all_fit(sw_writer *out, const sw_fit_result *f)
{
    if (f->stoves == 0) return;
    sw_print(out, "\n%zu stoves drawn: in %.2f %% every joint fits", f->stoves, 100 * f->all_fit);
    if (f->all_fit > 0 && f->all_fit < 1)
        sw_print(out, " (+- %.2f, two standard errors)\n", 200 * f->all_fit_error);
    else
        sw_print(out, " (of others at most %.2g %% otherwise, with 95 %% confidence)\n", 300 / (double)f->stoves);
}

/* Worst case and root of squares as the paper has them: the drawn gap in all. */
static void print_joints(sw_writer *out, const sw_fit_result *f)
{
    int name = 30;
    for (size_t i = 0; i < f->joint_count; i++) sw_widen(&name, f->joints[i].joint->name);
    sw_print(out, "\nGap at the joints, mm; worst case and RSS (root of squares) with the drawn gap in them\n");
    sw_print(out, "%-*s %7s %7s %7s %7s %7s %8s %8s  %s\n", name, "joint", "limit", "drawn", "worst", "RSS", "95 %",
             "too wide", "clash", "what matters most");
    for (size_t i = 0; i < f->joint_count; i++) {
        const sw_fit_joint *j = &f->joints[i];
        if (j->point_count == 0) continue;
        const sw_fit_point *p = &j->points[j->judged];
        if (j->outside != NULL) {
            sw_print(out, "%-*s not judged: %s\n", name, j->joint->name, j->outside->source);
            continue;
        }
        sw_print(out, "%-*s %7.2f %7.2f %7.2f %7.2f %7.2f %7.2f%% %7.2f%%  %s\n", name, j->joint->name, j->limit_mm,
                 sw_without_sign(p->gap_mm, 2), p->gap_mm + p->worst_mm, p->gap_mm + p->rss_mm, j->p95_mm,
                 100 * j->over, 100 * j->clash,
                 j->shares[0].share > 0 ? f->contributors[j->shares[0].contributor].name : "");
    }
}

static void print_inspection(sw_writer *out, const sw_fit_result *f)
{
    int piece = 20, feature = 24;
    for (size_t i = 0; i < f->plan_count; i++) {
        sw_widen(&piece, f->plan[i].piece_label);
        sw_widen(&feature, f->plan[i].feature);
    }
    sw_print(out, "\nMeasure, most telling first\n%-*s %-*s %10s %10s %-4s %6s %8s  %s\n", piece, "piece", feature,
             "feature", "from", "to", "", "sample", "covered", "with");
    for (size_t i = 0; i < f->plan_count; i++) {
        const sw_fit_inspection *m = &f->plan[i];
        sw_print(out, "%-*s %-*s %10.3f %10.3f %-4s %2zu/%-3zu %7.0f%%  %s\n", piece, m->piece_label, feature,
                 m->feature, m->low, m->high, m->unit, m->sampling.sample, m->lot, 100 * m->covered, m->gauge);
    }
}

void sw_print_fit(sw_writer *out, const sw_dossier *d)
{
    const sw_fit_result *f = d->shop.fit;
    print_joints(out, f);
    print_all_fit(out, f);
    print_inspection(out, f);
    print_features(out, &f->measured);
}

/* ---- lift ---------------------------------------------------------------------------------------------------------- */

void sw_print_lift(sw_writer *out, const sw_dossier *d)
{
    const sw_lift_result *l = d->shop.lift;
    if (l == NULL) return;
    int load = 34, action = 20;
    for (size_t i = 0; i < l->step_count; i++) {
        sw_widen(&load, l->steps[i].load);
        sw_widen(&action, l->steps[i].action);
    }
    sw_print(out, "\n%-*s %-*s %8s %8s %6s  %s\n", load, "lift", action, "", "kg", "one kg", "index", "by");
    for (size_t i = 0; i < l->step_count; i++) {
        const sw_lift_step *s = &l->steps[i];
        sw_print(out, "%-*s %-*s %8.1f %8.1f", load, s->load, action, s->action, s->mass_kg, s->single_kg);
        sw_print_cell(out, 6, 2, s->index);
        sw_print(out, "  %s", sw_lift_way_name(s->way));
        if (s->hoist != NULL) sw_print(out, ": %s, %zu leg%s", s->hoist->name, s->legs, sw_plural(s->legs));
        sw_print(out, "\n");
    }
}

/* ---- coat ---------------------------------------------------------------------------------------------------------- */

static void print_steps(sw_writer *out, const char *title, const sw_coat_step *steps, size_t count)
{
    sw_print(out, "\n%s\n", title);
    for (size_t i = 0; i < count; i++) {
        sw_print(out, "  %zu  %s", i + 1, steps[i].name);
        if (steps[i].temperature_k > 0) sw_print(out, ", %.0f degC", sw_c_from_k(steps[i].temperature_k));
        if (steps[i].time_s > 0) sw_print(out, ", %.0f min", sw_min_from_s(steps[i].time_s));
        sw_print(out, ": %s\n", steps[i].text);
    }
}

void sw_print_coat(sw_writer *out, const sw_dossier *d)
{
    const sw_coat_result *c = d->shop.coat;
    sw_print(out, "\nBlast %.2f m2", c->blast_m2);
    if (!isnan(c->blast_s))
        sw_print(out, " in %.1f min, %.1f kg of media used up", sw_min_from_s(c->blast_s), c->media_kg);
    sw_print(out, "; coat %.2f m2 (%.2f m2 masked)", c->coat_m2, c->masked_m2);
    if (!isnan(c->coat_s))
        sw_print(out,
                 ", %zu coats in %.1f min: %.2f l, %.2f kg of dry film, %.0f g of solvent, at least %.0f m3/h of air",
                 c->coat_count, sw_min_from_s(c->coat_s), c->litres, c->film_kg, 1e3 * c->solvent_kg,
                 sw_s_from_h(c->air_m3_s));
    sw_print(out, "\n");
    for (size_t i = 0; i < c->mask_count; i++)
        sw_print(out, "  mask %s at %s: %zu, %s\n", sw_mask_kind_name(c->masks[i].kind), c->masks[i].where,
                 c->masks[i].count, c->masks[i].how);
    print_steps(out, "Cure", c->cure, c->cure_count);
    print_steps(out, "First fires", c->fires, c->fire_count);
    for (size_t i = 0; i < c->caution_count; i++) sw_print(out, "%s  ! %s\n", i == 0 ? "\n" : "", c->cautions[i]);
}

/* ---- line ---------------------------------------------------------------------------------------------------------- */

static void print_plan(sw_writer *out, const sw_line_plan *p)
{
    sw_print(out,
             "\nSchedule: %.1f h (no schedule takes less than %.1f h: %s), %.1f days; a stove is %.1f h under way, "
             "%.1f at once, %zu people at most\n",
             sw_h_from_s(p->makespan_s), sw_h_from_s(p->bound_s), p->bound_by, p->days, sw_h_from_s(p->flow_s),
             p->under_way_mean, p->people_most);
}

static void print_money(sw_writer *out, const sw_line_cost *c, const char *currency)
{
    int name = 40;
    for (size_t i = 0; i < c->line_count && i < 12; i++) sw_widen(&name, c->lines[i].name);
    sw_print(out, "\nOne stove %.2f %s, with overhead %.2f; the batch %.2f\n", c->unit, currency, c->base, c->batch);
    for (size_t i = 0; i < c->line_count && i < 12; i++)
        sw_print(out, "  %-*s %-12s %9.2f %6.1f %%\n", name, c->lines[i].name, sw_line_money_name(c->lines[i].kind),
                 c->lines[i].stove, 100 * c->lines[i].share);
}

static void print_what_ifs(sw_writer *out, const sw_line_result *l)
{
    int what = 40;
    for (size_t i = 0; i < l->what_if_count; i++) sw_widen(&what, l->what_ifs[i].what);
    sw_print(out, "\n%-*s %10s %10s\n", what, "what if", "days", "unit cost");
    for (size_t i = 0; i < l->what_if_count; i++)
        sw_print(out, "%-*s %+10.1f %+10.2f\n", what, l->what_ifs[i].what,
                 sw_without_sign(l->what_ifs[i].days_change, 1), sw_without_sign(l->what_ifs[i].unit_change, 2));
}

static void print_busy(sw_writer *out, double share)
{
    if (isfinite(share))
        sw_print(out, " %7.0f %%", 100 * share);
    else
        sw_print(out, " %9s", "-");
}

void sw_print_line(sw_writer *out, const sw_dossier *d)
{
    const sw_line_result *l = d->shop.line;
    if (l == NULL) return;
    int station = 18;
    for (size_t i = 0; i < l->load_count; i++) sw_widen(&station, l->loads[i].station);
    sw_print(out, "\n%-*s %8s %7s %9s %9s %9s %9s %9s\n", station, "station", "machines", "people", "set-up h", "run h",
             "pace min", "at takt", "in batch");
    for (size_t i = 0; i < l->load_count; i++) {
        const sw_line_load *s = &l->loads[i];
        sw_print(out, "%-*s %8zu %7zu %9.2f %9.2f %9.1f", station, s->station, s->machines, s->people,
                 sw_h_from_s(s->set_up_s), sw_h_from_s(s->run_s), sw_min_from_s(s->pace_s));
        print_busy(out, s->busy_wanted);
        print_busy(out, s->busy);
        sw_print(out, "%s\n", i == l->bottleneck ? "  bottleneck" : "");
    }
    sw_print(out,
             "Busy at takt: of the time from stove to stove at the wanted number a week; in batch: of the schedule\n");
    if (!isnan(l->takt_s))
        sw_print(out, "\nTakt %.1f min; the bottleneck lets through %.1f stoves a week\n", sw_min_from_s(l->takt_s),
                 l->week);
    if (l->plan != NULL) print_plan(out, l->plan);
    print_money(out, &l->cost, d->model.works->currency);
    print_what_ifs(out, l);
}
