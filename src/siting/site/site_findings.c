/* site_findings.c: how every step adds its findings and needs, and small questions about the flue's parts. */
#include "siting/site/site_parts.h"

#include <math.h>

double site_kw(double w)
{
    return w / 1e3;
}

sw_status site_state(sw_run *run, site_job *job, sw_finding f, sw_verdict verdict)
{
    if (f.what == NULL || f.source == NULL || f.remedy == NULL) return SW_NO_MEMORY;
    f.study = "site";
    f.sense = SW_STATED;
    f.unit = "";
    f.value = f.limit = NAN;
    f.verdict = verdict;
    if (f.place.file == NULL) f.place = job->house->place;
    return sw_finding_add(run, &job->r->findings, f, 0);
}

sw_status site_add(sw_run *run, site_job *job, sw_finding f, double watch_margin, enum site_weight weight)
{
    if (f.what == NULL || f.source == NULL || f.remedy == NULL) return SW_NO_MEMORY;
    f.study = "site";
    if (f.place.file == NULL) f.place = job->house->place;
    SW_TRY(sw_finding_add(run, &job->r->findings, f, watch_margin));
    sw_finding *added = &job->r->findings.items[job->r->findings.count - 1];
    if (added->verdict == SW_HOLDS) added->remedy = "";
    if (added->verdict == SW_FAILS && weight == SITE_SOFT) added->verdict = SW_WATCH;
    return SW_OK;
}

sw_status site_need(sw_run *run, site_job *job, sw_site_need need)
{
    if (need.source == NULL) return SW_NO_MEMORY;
    sw_site_need *needs = sw_grow(run, run->keep, job->needs, job->r->need_count, &job->need_room, sizeof need);
    if (needs == NULL) return SW_NO_MEMORY;
    needs[job->r->need_count++] = need;
    job->r->needs = job->needs = needs;
    return SW_OK;
}

sw_status site_keep_off(sw_run *run, site_job *job, const char *what, sw_finding f)
{
    if (what == NULL) return SW_NO_MEMORY;
    SW_TRY(site_need(run, job, (sw_site_need){what, f.where, f.limit, f.value, f.source}));
    f.sense = SW_AT_LEAST;
    f.unit = "mm";
    f.what = isnan(f.value)
                 ? sw_text_format(run, run->keep, "%s: not described; %.0f mm are needed", what, ceil(f.limit))
                 : sw_text_format(run, run->keep, "%s: %.0f mm, needed %.0f mm", what, f.value, ceil(f.limit));
    return site_add(run, job, f, 0, SITE_HARD);
}

const sw_site_rule *site_rule(const site_job *job, const char *what)
{
    return sw_site_rule_find(job->code, what);
}

double site_rule_value(const site_job *job, const char *what)
{
    const sw_site_rule *rule = site_rule(job, what);
    return rule == NULL ? (double)NAN : rule->value;
}

const char *site_rule_source(sw_run *run, const sw_site_rule *rule)
{
    return sw_text_format(run, run->keep, "%s, %s (%s)", rule->edition, rule->clause, rule->source);
}

/* ---- parts of the flue ---- */

double site_part_outer_mm(const sw_flue_part *part)
{
    if (!isnan(part->outer_mm)) return part->outer_mm;
    double thick_mm = 0;
    for (size_t i = 0; i < part->layer_count; i++) thick_mm += part->layers[i].thickness_mm;
    return part->layer_count == 0 ? (double)NAN : site_part_side_mm(part) + 2 * thick_mm;
}

double site_part_side_mm(const sw_flue_part *part)
{
    return part->round ? part->width_mm : fmin(part->width_mm, part->depth_mm);
}

double site_part_area_m2(const sw_flue_part *part)
{
    double box_m2 = sw_m2_from_mm2(part->width_mm * (part->round ? part->width_mm : part->depth_mm));
    return part->round ? SW_PI / 4 * box_m2 : box_m2;
}
