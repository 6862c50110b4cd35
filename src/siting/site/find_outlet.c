/* find_outlet.c: the outlet above the roof, and the height of the whole flue. handbook S3.3 */
#include "siting/site/site_parts.h"

#include <math.h>

static sw_status above_roof(sw_run *run, site_job *job)
{
    sw_site_asked asked = sw_site_outlet_m(job->code, &job->house->roof);
    if (asked.rule == NULL) return SW_OK;
    sw_finding f = {.check = "outlet_height", .where = "outlet"};
    f.value = sw_mm_from_m(job->house->roof.above_m);
    f.limit = sw_mm_from_m(asked.value);
    f.source = site_rule_source(run, asked.rule);
    f.remedy = "a higher stack, or an outlet nearer the ridge";
    if (isnan(asked.value)) {
        f.what = "pitch and distance of the ridge are not described, so the outlet's height is not judged";
        return site_state(run, job, f, SW_UNKNOWN);
    }
    return site_keep_off(
        run, job, sw_text_format(run, run->keep, "outlet above where the flue leaves the roof (by %s)", asked.by), f);
}

static sw_status too_strong(sw_run *run, site_job *job)
{
    const sw_site_rule *most = site_rule(job, "outlet_most_kw");
    if (most == NULL || site_kw(job->in->output_w) <= most->value) return SW_OK;
    sw_finding f = {.check = "outlet_window", .where = "outlet", .source = site_rule_source(run, most)};
    f.what = sw_text_format(run, run->keep, "above %.0f kW windows count from farther away than is judged here",
                            most->value);
    f.remedy = "ask the sweep";
    return site_state(run, job, f, SW_UNKNOWN);
}

/* A later change of the rule that is doubtful here: told, not judged. */
static sw_status near_ridge(sw_run *run, site_job *job)
{
    const sw_site_rule *rule = site_rule(job, "outlet_near_ridge");
    const sw_roof *roof = &job->house->roof;
    double ridge_m = roof->ridge_m * tan(roof->pitch_rad) + sw_m_from_mm(site_rule_value(job, "outlet_above_ridge_mm"));
    if (rule == NULL || roof->above_m >= ridge_m) return SW_OK;
    sw_finding f = {.check = "outlet_near_ridge", .where = "outlet", .source = site_rule_source(run, rule)};
    f.what = "new outlets for solid fuel must since 2022 stand near the ridge and above it; this one is lower";
    f.remedy = "ask the sweep before work begins";
    return site_state(run, job, f, SW_WATCH);
}

static sw_status whole_height(sw_run *run, site_job *job)
{
    const sw_site_rule *rule = site_rule(job, "chimney_height_mm");
    if (rule == NULL || job->house->part_count == 0) return SW_OK;
    sw_finding f = {.check = "flue_height", .where = "flue", .sense = SW_AT_LEAST, .unit = "mm", .limit = rule->value};
    for (size_t i = 0; i < job->house->part_count; i++) f.value += sw_mm_from_m(job->house->parts[i].rise_m);
    f.source = site_rule_source(run, rule);
    f.remedy = "a higher flue, or proof by EN 13384-1: see the study of the flue";
    f.what = sw_text_format(run, run->keep,
                            "%.0f mm from the stove's outlet to the top; %.0f mm could be satisfactory without "
                            "calculation",
                            f.value, f.limit);
    return site_add(run, job, f, 0, SITE_SOFT);
}

sw_status site_find_outlet(sw_run *run, site_job *job)
{
    SW_TRY(above_roof(run, job));
    SW_TRY(too_strong(run, job));
    SW_TRY(near_ridge(run, job));
    return whole_height(run, job);
}
