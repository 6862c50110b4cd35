/* form_rolls.c: settings of the rolls for every rolled zone of a piece. */
#include "making/form/form_fit_parts.h"
#include "making/form/form_parts.h"

static const double wide = 8.0;      /* from width/thickness on plane strain counts. ours, after MDH */
static const double far_below = 0.9; /* of what the rolls leave flat: a works that tells less bends before. ours */

static double re_for(const form_job *job, const sw_form_fit_result *fit, const char **source)
{
    const sw_piece *p = job->body->piece;
    for (size_t i = 0; fit != NULL && i < fit->roll_count; i++) {
        const sw_form_roll_fit *r = &fit->rolls[i];
        bool same = fit_same_grade(r->grade, p->grade) && fabs(r->thickness_mm - p->thickness_mm) < SW_SHORTEST_MM;
        if (!same || !r->good) continue;
        *source = "works trial rolls";
        return r->re_mpa;
    }
    *source = "the grade's least yield stress raised by an allowance";
    return p->grade == NULL || p->grade->re_min_mpa <= 0.0 ? (double)NAN : p->grade->re_min_mpa * job->opt->re_factor;
}

/* Sheet left in the flat beside a zone, from its tangent line to the outline, least of five stations. */
static double flat_beside_mm(sw_contour outline, const sw_flat_bend *b, bool at_child)
{
    double least_mm = INFINITY;
    sw_point a = b->zone[at_child ? 3 : 0], c = b->zone[at_child ? 2 : 1], o = b->zone[at_child ? 0 : 3];
    double dx = a.x_mm - o.x_mm, dy = a.y_mm - o.y_mm, l = hypot(dx, dy);
    for (int i = 1; i <= 9; i += 2) {
        double t = 0.1 * i, nearest_mm = INFINITY;
        sw_point p = {a.x_mm + t * (c.x_mm - a.x_mm), a.y_mm + t * (c.y_mm - a.y_mm)}, at[2];
        sw_vertex from = {p.x_mm + dx / l * 0.01, p.y_mm + dy / l * 0.01, 0.0};
        sw_point far = {p.x_mm + dx / l * 4e4, p.y_mm + dy / l * 4e4};
        for (size_t k = 0; k < outline.n; k++) {
            sw_vertex next = outline.v[(k + 1) % outline.n];
            size_t n = sw_segment_crossings(from, far, outline.v[k], (sw_point){next.x_mm, next.y_mm}, at);
            for (size_t j = 0; j < n; j++)
                nearest_mm = fmin(nearest_mm, hypot(at[j].x_mm - p.x_mm, at[j].y_mm - p.y_mm));
        }
        least_mm = fmin(least_mm, isinf(nearest_mm) ? 0.0 : nearest_mm);
    }
    return least_mm;
}

static sw_form_pass pass_at(const form_job *job, const sw_form_roll *r, const sw_strip_steel *m, double kappa_f)
{
    double s_mm = job->body->piece->thickness_mm, half_mm = job->works->rolls.centres_mm / 2.0;
    double lower_mm = job->works->rolls.lower_radius_mm, kappa = sw_loaded_curvature(kappa_f, r->kappa_e);
    sw_form_pass p = {.loaded_mm = 1.0 / kappa - s_mm / 2.0, .radius_mm = 1.0 / kappa_f - s_mm / 2.0};
    double contact_rad = sw_roll_contact_rad(p.loaded_mm, s_mm, lower_mm, half_mm);
    p.feed_mm = sw_roll_feed_mm(p.loaded_mm, s_mm, lower_mm, half_mm);
    p.force_n = sw_roll_force_n_mm(sw_bending_moment_n(m, s_mm, kappa), p.loaded_mm, s_mm, contact_rad) * r->width_mm;
    return p;
}

/* Equal steps of curvature, each of at most the allowed bending strain. */
static sw_status passes(sw_run *run, const form_job *job, const sw_strip_steel *m, sw_form_roll *r)
{
    double s_mm = job->body->piece->thickness_mm, kappa_f = 1.0 / (r->radius_mm + s_mm / 2.0);
    size_t n = (size_t)ceil(fmin(50.0, fmax(1.0, s_mm / 2.0 * kappa_f / job->opt->pass_strain - 1e-9)));
    sw_form_pass *out = SW_KEEP(run, n, sw_form_pass);
    if (out == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < n; i++) out[i] = pass_at(job, r, m, kappa_f * (double)(i + 1) / (double)n);
    r->passes = out;
    r->pass_count = n;
    r->loaded_mm = out[n - 1].loaded_mm;
    r->feed_mm = out[n - 1].feed_mm;
    r->force_n = out[n - 1].force_n;
    r->contact_rad =
        sw_roll_contact_rad(r->loaded_mm, s_mm, job->works->rolls.lower_radius_mm, job->works->rolls.centres_mm / 2.0);
    r->moment_n = sw_bending_moment_n(m, s_mm, 1.0 / (r->loaded_mm + s_mm / 2.0));
    return SW_OK;
}

double sw_roll_template_mm(double radius_mm, double angle_rad)
{
    const double most_mm = 500; /* two pages wide; common practice, no source */
    return fmin(most_mm, 2.0 * radius_mm * sin(fmin(fabs(angle_rad) / 2.0, SW_PI / 4.0)));
}

/* Checked over the chord that the printed template has. */
static void template_of(const form_job *job, sw_form_roll *r)
{
    double sigma = job->works->rolls.radius_sigma;
    r->tolerance_mm = r->radius_mm * (sigma > 0.0 ? 3.0 * sigma : job->opt->radius_tolerance);
    r->chord_mm = sw_roll_template_mm(r->radius_mm, r->bend->angle_rad);
    r->sagitta_mm = sw_sagitta_mm(r->radius_mm, r->chord_mm);
    r->sagitta_low_mm = sw_sagitta_mm(r->radius_mm + r->tolerance_mm, r->chord_mm);
    r->sagitta_high_mm = sw_sagitta_mm(r->radius_mm - r->tolerance_mm, r->chord_mm);
}

static void ends_of(const form_job *job, const sw_flat_bend *flat, sw_form_roll *r)
{
    double s_mm = job->body->piece->thickness_mm, given = job->works->rolls.flat_end_s;
    r->flat_rolls_mm = sw_roll_flat_mm(r->loaded_mm, s_mm, r->contact_rad);
    r->flat_needed_mm = given > 0.0 ? given * s_mm : r->flat_rolls_mm;
    r->pre_bent = given > 0.0 && r->flat_needed_mm < far_below * r->flat_rolls_mm;
    for (int i = 0; i < 2; i++) {
        r->flat_drawn_mm[i] = flat_beside_mm(job->body->sheet->flat.region.outline, flat, i == 1);
        r->extra_mm[i] = fmax(0.0, r->flat_needed_mm - r->flat_drawn_mm[i]);
    }
}

static sw_status roll_one(sw_run *run, form_job *job, const sw_form_fit_result *fit, const sw_flat_bend *flat,
                          sw_form_roll *r)
{
    const sw_piece *p = job->body->piece;
    const form_zone *z = &job->body->zones[flat->bend - p->bends];
    *r = (sw_form_roll){.bend = flat->bend, .width_mm = z->width_mm, .radius_mm = flat->bend->radius_mm};
    r->re_mpa = re_for(job, fit, &r->re_source);
    sw_strip_steel m = {r->re_mpa, p->grade == NULL ? (double)NAN : p->grade->young_mpa,
                        p->grade == NULL ? 0.3 : p->grade->poisson, z->width_mm >= wide * p->thickness_mm};
    r->kappa_e = sw_yield_curvature(&m, p->thickness_mm);
    SW_TRY(passes(run, job, &m, r));
    template_of(job, r);
    ends_of(job, flat, r);
    double through_mm = z->allowance_mm + r->flat_drawn_mm[0] + r->flat_drawn_mm[1],
           v_mm_s = job->works->rolls.pass_mm_s;
    r->seconds = v_mm_s > 0.0 ? (double)r->pass_count * through_mm / v_mm_s : 0.0;
    return SW_OK;
}

sw_status form_rolls(sw_run *run, form_job *job, const sw_form_fit_result *fit, sw_form_piece *out)
{
    const sw_flat *flat = &job->body->sheet->flat;
    size_t count = 0;
    for (size_t i = 0; i < flat->bend_count; i++) count += flat->bends[i].bend->kind == SW_ROLLED;
    if (count == 0) return SW_OK;
    sw_form_roll *rolls = SW_KEEP(run, count, sw_form_roll);
    if (rolls == NULL) return SW_NO_MEMORY;
    out->rolls = rolls;
    for (size_t i = 0; i < flat->bend_count; i++)
        if (flat->bends[i].bend->kind == SW_ROLLED)
            SW_TRY(roll_one(run, job, fit, &flat->bends[i], &rolls[out->roll_count++]));
    for (size_t i = 0; i < count; i++) out->rolls_s += rolls[i].seconds;
    out->rolls_setup_s = job->works->rolls.setup_s;
    return SW_OK;
}

/* Flanges beside a zone keep it out of the rolls: they must run along it and stand half the rolls' centres away. */
bool form_rolls_last_clear(const form_body *body, const sw_rolls *rolls)
{
    const sw_flat *flat = &body->sheet->flat;
    for (size_t i = 0; i < flat->bend_count; i++) {
        const sw_flat_bend *r = &flat->bends[i];
        double rx = r->to.x_mm - r->from.x_mm, ry = r->to.y_mm - r->from.y_mm, l = hypot(rx, ry);
        for (size_t k = 0; k < flat->bend_count && r->bend->kind == SW_ROLLED; k++) {
            const sw_flat_bend *b = &flat->bends[k];
            double bx = b->to.x_mm - b->from.x_mm, by = b->to.y_mm - b->from.y_mm;
            if (b->bend->kind == SW_ROLLED) continue;
            double off_mm = fabs(rx * (b->from.y_mm - r->from.y_mm) - ry * (b->from.x_mm - r->from.x_mm)) / l;
            if (fabs(rx * by - ry * bx) > 1e-6 * l * hypot(bx, by)) return false;
            if (off_mm - r->allowance_mm / 2.0 < rolls->centres_mm / 2.0) return false;
        }
    }
    return true;
}
