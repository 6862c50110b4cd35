/* find_walls.c: distances of what stands round the stove, by computed temperatures and by rule. handbook S5.2 to S5.4 */
#include "siting/site/site_parts.h"

#include <math.h>
#include <string.h>

static const double plume_share = 1.2;     /* on distances, for the plume left out (common practice). handbook S5.2 */
static const double wall_emissivity = 0.9; /* handbook S5.2 */
static const double watch_share = 0.1;     /* ours: a rise within a tenth of its limit is looked at again */

#define BALANCE "handbook S5.2, worst point; distance less a fifth for the plume"
#define FARTHER "farther away, a ventilated shield before it, or a lining that cannot burn"

static bool on_side(const sw_near *n, const char *side)
{
    return strcmp(n->side, side) == 0;
}

/* Faces of the stove towards a side; *second is the pane before the front. */
static const sw_hot_panel *facing(const sw_site_input *in, const sw_near *n, const sw_hot_panel **second)
{
    *second = on_side(n, "front") ? in->pane : NULL;
    if (on_side(n, "back")) return in->back;
    if (on_side(n, "left")) return in->left;
    if (on_side(n, "right")) return in->right;
    return on_side(n, "front") ? in->front : in->top;
}

static double behind(const sw_near *n)
{
    return isnan(n->resistance) ? (double)INFINITY : n->resistance;
}

/* Surface of the combustible opposite one face; NAN without a face. */
static double surface_k(const site_job *job, const sw_near *n, const sw_hot_panel *panel)
{
    if (panel == NULL) return NAN;
    if (on_side(n, "above"))
        return sw_ceiling_k(panel, sw_m_from_mm(n->distance_mm - n->shield_mm), job->in->room_k, wall_emissivity,
                            behind(n), job->in->warm_air_w);
    if (n->shield_mm > 0)
        return sw_wall_behind_shield_k(panel, sw_m_from_mm(n->distance_mm - n->shield_mm) / plume_share,
                                       job->in->room_k, n->shield_emissivity, NULL);
    return sw_wall_k(panel, sw_m_from_mm(n->distance_mm) / plume_share, job->in->room_k, wall_emissivity, behind(n));
}

static double computed_mm(const site_job *job, const sw_near *n, const sw_hot_panel *panel)
{
    if (panel == NULL) return NAN;
    double room_k = job->in->room_k;
    if (on_side(n, "above"))
        return n->shield_mm + sw_mm_from_m(sw_ceiling_distance_m(panel, room_k, wall_emissivity, behind(n),
                                                                 job->in->warm_air_w, job->rise_k));
    if (n->shield_mm > 0)
        return n->shield_mm +
               plume_share * sw_mm_from_m(sw_shield_distance_m(panel, room_k, n->shield_emissivity, job->rise_k));
    return plume_share * sw_mm_from_m(sw_wall_distance_m(panel, room_k, wall_emissivity, behind(n), job->rise_k));
}

static double larger(double a, double b)
{
    return isnan(a) || b > a ? b : a;
}

static sw_status not_computed(sw_run *run, site_job *job, const sw_near *n)
{
    sw_finding f = {.check = "wall_temperature", .where = n->name, .place = n->place};
    f.what =
        sw_text_format(run, run->keep, "%s: no face of the stove is computed on the side \"%s\"", n->name, n->side);
    f.source = "nothing was computed";
    f.remedy = "keep the distance the type test proved, and measure at the first fire";
    return site_state(run, job, f, SW_UNKNOWN);
}

static sw_status by_temperature(sw_run *run, site_job *job, const sw_near *n)
{
    const sw_hot_panel *second = NULL, *first = facing(job->in, n, &second);
    double wall_k = larger(surface_k(job, n, first), surface_k(job, n, second));
    if (isnan(wall_k)) return not_computed(run, job, n);
    double needed_mm = larger(computed_mm(job, n, first), computed_mm(job, n, second));
    job->surroundings_k = larger(job->surroundings_k, wall_k);
    const char *what = sw_text_format(run, run->keep, "%s, by computed temperature", n->name);
    if (what == NULL) return SW_NO_MEMORY;
    SW_TRY(site_need(run, job, (sw_site_need){what, n->name, needed_mm, n->distance_mm, BALANCE}));
    sw_finding f = {.check = "wall_temperature", .where = n->name, .sense = SW_AT_MOST, .unit = "K", .place = n->place};
    f.value = wall_k - job->in->room_k;
    f.limit = job->rise_k;
    f.what = sw_text_format(run, run->keep,
                            "%s at %.0f mm%s warms to %.0f degC, %.0f K above the room; %.0f mm keep it within %.0f K",
                            n->name, n->distance_mm, n->shield_mm > 0 ? " behind its shield" : "", sw_c_from_k(wall_k),
                            f.value, ceil(needed_mm), job->rise_k);
    f.source = job->rise_source;
    f.remedy = FARTHER;
    return site_add(run, job, f, watch_share, SITE_HARD);
}

static sw_status by_rule(sw_run *run, site_job *job, const sw_near *n, const char *rule_name, const char *words)
{
    const sw_site_rule *rule = site_rule(job, rule_name);
    if (rule == NULL) return SW_OK;
    sw_finding f = {.check = "wall_rule", .where = n->name, .value = n->distance_mm, .limit = rule->value};
    f.place = n->place;
    f.source = site_rule_source(run, rule);
    f.remedy = FARTHER "; a distance proved in the type test stands before this rule";
    return site_keep_off(run, job, sw_text_format(run, run->keep, "%s, %s", n->name, words), f);
}

/* A wall as near as this must be solid and not burn: Approved Document J, section 2. handbook S5.4 */
static sw_status solid_wall(sw_run *run, site_job *job, const sw_near *n)
{
    const sw_site_rule *within = site_rule(job, "wall_near_mm"), *touching = site_rule(job, "wall_touching_mm");
    if (within == NULL || touching == NULL || on_side(n, "front") || on_side(n, "above")) return SW_OK;
    double stands_out_mm = on_side(n, "back") ? site_hearth_back_mm(job) : job->house->hearth_side_mm;
    bool clear =
        job->house->hearth_mm > 0 && n->distance_mm - stands_out_mm >= site_rule_value(job, "wall_hearth_clear_mm");
    if (!(n->distance_mm <= within->value) || clear) return SW_OK;
    bool near = n->distance_mm <= touching->value;
    double thick_mm = site_rule_value(job, near ? "wall_touching_thick_mm" : "wall_near_thick_mm");
    bool is_told = !isnan(n->thickness_mm), thick = n->thickness_mm >= thick_mm;
    sw_finding f = {.check = "solid_wall", .where = n->name, .place = n->place};
    f.what = sw_text_format(run, run->keep,
                            "%s stands %.0f mm from the stove%s: %.0f mm of solid wall that cannot burn are asked, to "
                            "%.0f mm above the stove and %.0f mm above the hearth",
                            n->name, n->distance_mm,
                            n->combustible ? " and can burn"
                            : is_told      ? ""
                                           : "; its thickness is not told",
                            thick_mm, site_rule_value(job, "wall_above_stove_mm"),
                            site_rule_value(job, "wall_above_hearth_mm"));
    f.source = site_rule_source(run, near ? touching : within);
    f.remedy = n->combustible || is_told ? "a solid wall in its place, or the stove farther away"
                                         : "have the wall measured: near { thickness = ... }";
    if (!n->combustible && thick) f.remedy = "";
    return site_state(run, job, f,
                      !n->combustible && thick    ? SW_HOLDS
                      : n->combustible || is_told ? SW_FAILS
                                                  : SW_UNKNOWN);
}

static sw_status burns(sw_run *run, site_job *job, const sw_near *n)
{
    bool shielded = n->shield_mm >= site_rule_value(job, "wall_shield_gap_mm"); /* false where there is no such rule */
    SW_TRY(by_temperature(run, job, n));
    if (on_side(n, "front") && site_rule(job, "pane_mm") != NULL) /* asks for more than the rule for walls */
        return by_rule(run, job, n, "pane_mm", "before the pane");
    return by_rule(run, job, n, shielded ? "wall_shielded_mm" : "wall_mm",
                   shielded ? "combustible behind a shield" : "combustible");
}

sw_status site_find_walls(sw_run *run, site_job *job)
{
    for (size_t i = 0; i < job->house->near_count; i++) {
        const sw_near *n = &job->house->near[i];
        if (n->combustible) SW_TRY(burns(run, job, n));
        SW_TRY(solid_wall(run, job, n));
    }
    return SW_OK;
}
