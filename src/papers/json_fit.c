/* json_fit.c: joints at risk, what to measure and what was measured in the answer for machines. Angles in degrees. */
#include "papers/json_shop_parts.h"

#include <stdio.h>

/* Figures of a contributor in its unit, radians as degrees. */
static double told(double value, const char *unit)
{
    return unit[0] == 'r' ? sw_deg_from_rad(value) : value;
}

static void shares(json_out *j, const sw_fit_result *f, const sw_fit_joint *joint)
{
    json_begin(j, "shares", '[');
    for (size_t i = 0; i < SW_FIT_SHARES && joint->shares[i].share > 0; i++) {
        const sw_fit_contributor *c = &f->contributors[joint->shares[i].contributor];
        json_begin(j, NULL, '{');
        json_text(j, "name", c->name);
        json_text(j, "operation", sw_fit_operation_name(c->operation));
        json_number(j, "share", joint->shares[i].share);
        json_number(j, "tolerance", told(c->tolerance, c->unit));
        json_number(j, "sigma", told(c->sigma, c->unit));
        json_text(j, "unit", c->unit[0] == 'r' ? "deg" : c->unit);
        json_text(j, "source", c->source);
        json_end(j, '}');
    }
    json_end(j, ']');
}

static void by_operation(json_out *j, const sw_fit_joint *joint)
{
    json_begin(j, "by_operation", '{');
    for (int i = 0; i < SW_FIT_OPERATIONS; i++)
        json_number(j, sw_fit_operation_name((sw_fit_operation)i), joint->by_operation[i]);
    json_end(j, '}');
}

static void joint(json_out *j, const sw_fit_result *f, const sw_fit_joint *k)
{
    const sw_fit_point *p = &k->points[k->judged];
    const char *unit = k->shares[0].share > 0 ? f->contributors[k->shares[0].contributor].unit : "";
    json_begin(j, NULL, '{');
    json_text(j, "name", k->joint->name);
    json_number(j, "limit_mm", k->limit_mm);
    json_text(j, "limit_source", k->limit_source);
    json_number(j, "gap_mm", p->gap_mm);
    json_number(j, "worst_mm", p->worst_mm);
    json_number(j, "rss_mm", p->rss_mm);
    json_number(j, "mean_mm", k->mean_mm);
    json_number(j, "spread_mm", k->spread_mm);
    json_number(j, "p50_mm", k->p50_mm);
    json_number(j, "p95_mm", k->p95_mm);
    json_number(j, "p99_mm", k->p99_mm);
    json_number(j, "over", k->over);
    json_text(j, "risk", k->limit_mm > 0 ? sw_fit_risk_name(sw_fit_risk_of(k, f->allowed)) : NULL);
    json_number(j, "over_error", k->over_error);
    json_number(j, "clash", k->clash);
    json_number(j, "no_entry", k->no_entry);
    json_number(j, "across_mm", k->across_mm);
    json_number(j, "along_mm", k->along_mm);
    json_number(j, "mismatch_limit_mm", k->mismatch_limit_mm);
    json_number(j, "mismatch_over", k->mismatch_over);
    json_number(j, "tolerance_needed", told(k->tolerance_needed, unit));
    by_operation(j, k);
    shares(j, f, k);
    json_end(j, '}');
}

static void plan(json_out *j, const sw_fit_result *f)
{
    json_begin(j, "inspection", '[');
    for (size_t i = 0; i < f->plan_count; i++) {
        const sw_fit_inspection *p = &f->plan[i];
        json_begin(j, NULL, '{');
        json_text(j, "piece", p->piece_label);
        json_text(j, "feature", p->feature);
        json_text(j, "operation", sw_fit_operation_name(p->operation));
        json_number(j, "nominal", p->nominal);
        json_number(j, "low", p->low);
        json_number(j, "high", p->high);
        json_text(j, "unit", p->unit);
        json_text(j, "gauge", p->gauge);
        json_number(j, "gauge_u", p->gauge_u);
        json_count(j, "lot", p->lot);
        json_count(j, "sample", p->sampling.sample);
        json_count(j, "accept", p->sampling.accept);
        json_number(j, "weight", p->weight);
        json_number(j, "covered", p->covered);
        json_end(j, '}');
    }
    json_end(j, ']');
}

static void measured(json_out *j, const sw_fit_measured *m)
{
    json_begin(j, "measured", '[');
    for (size_t i = 0; i < m->feature_count; i++) {
        const sw_fit_feature *f = &m->features[i];
        json_begin(j, NULL, '{');
        json_text(j, "piece", f->piece);
        json_text(j, "feature", f->feature);
        json_text(j, "unit", f->unit);
        json_count(j, "count", f->count);
        json_number(j, "mean", f->mean);
        json_number(j, "low", f->low);
        json_number(j, "high", f->high);
        json_number(j, "cp", f->cp);
        json_number(j, "cpk", f->cpk);
        json_number(j, "cpk_low", f->cpk_interval.low);
        json_number(j, "cpk_high", f->cpk_interval.high);
        json_number(j, "ppm", f->ppm);
        json_count(j, "breaks", f->charted ? f->chart.break_count : 0);
        json_text(j, "why_no_chart", f->charted ? NULL : f->why);
        json_end(j, '}');
    }
    json_end(j, ']');
}

/* The words that joints are sorted by, the least risk first, and what each says. */
static void risks(json_out *j, double allowed)
{
    char at_risk[100], fails[100];
    (void)snprintf(at_risk, sizeof at_risk, "up to %g of 100 stoves over the limit", 100 * allowed);
    (void)snprintf(fails, sizeof fails, "more than %g of 100 stoves over the limit", 100 * allowed);
    const char *const texts[SW_FIT_RISKS] = {"95 of 100 gaps within half the limit",
                                             "95 of 100 gaps within the limit, above half of it", at_risk, fails};
    json_begin(j, "risks", '[');
    for (int i = 0; i < SW_FIT_RISKS; i++) {
        json_begin(j, NULL, '{');
        json_text(j, "name", sw_fit_risk_name((sw_fit_risk)i));
        json_text(j, "text", texts[i]);
        json_end(j, '}');
    }
    json_end(j, ']');
}

void json_fit(json_out *j, const sw_fit_result *f)
{
    if (f == NULL) {
        json_nothing(j, "fit");
        return;
    }
    json_begin(j, "fit", '{');
    json_count(j, "stoves", f->stoves);
    json_number(j, "all_fit", f->all_fit);
    json_number(j, "all_fit_error", f->all_fit_error);
    risks(j, f->allowed);
    json_begin(j, "joints", '[');
    for (size_t i = 0; i < f->joint_count; i++)
        if (f->joints[i].point_count > 0) joint(j, f, &f->joints[i]);
    json_end(j, ']');
    plan(j, f);
    measured(j, &f->measured);
    json_end(j, '}');
}
