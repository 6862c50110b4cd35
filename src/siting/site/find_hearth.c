/* find_hearth.c: the plate under the stove, the floor below it, and what it carries. handbook S5.4, S5.5 */
#include "siting/site/site_parts.h"

#include <math.h>

static const double imposed_pa = 1500,
                    point_n = 2000;    /* EN 1991-1-1, category A, lower ends (from memory). handbook S5.5 */
static const double watch_share = 0.1; /* ours */

#define IMPOSED "EN 1991-1-1, category A, the lower figure (from memory)"

static bool has_plate(const sw_house *house)
{
    return house->hearth_mm > 0 && house->hearth_width_mm > 0 && house->hearth_depth_mm > 0;
}

double site_hearth_back_mm(const site_job *job)
{
    return job->house->hearth_depth_mm - job->house->hearth_front_mm - job->in->depth_mm;
}

/* ---- extent ---- */

static sw_status projection(sw_run *run, site_job *job, const char *rule_name, const char *words, double there_mm)
{
    const sw_site_rule *rule = site_rule(job, rule_name);
    if (rule == NULL) return SW_OK;
    sw_finding f = {.check = rule_name, .where = "hearth", .value = there_mm, .limit = rule->value};
    f.source = site_rule_source(run, rule);
    f.remedy = "a larger hearth plate, or the stove farther from its edge";
    return site_keep_off(run, job, words, f);
}

/* Behind the stove the plate may end at a wall that cannot burn. */
static bool reaches_wall(const site_job *job)
{
    for (size_t i = 0; i < job->house->near_count; i++) {
        const sw_near *n = &job->house->near[i];
        if (!n->combustible && n->side[0] == 'b' && n->distance_mm <= site_hearth_back_mm(job)) return true;
    }
    return false;
}

static sw_status plate_side(sw_run *run, site_job *job, const char *words, double there_mm, double least_mm)
{
    sw_finding f = {.check = "hearth_plate", .where = words, .value = there_mm, .limit = least_mm};
    f.source = site_rule_source(run, site_rule(job, "hearth_side_mm"));
    f.remedy = "a larger hearth plate";
    return site_keep_off(run, job, words, f);
}

static sw_status plate(sw_run *run, site_job *job, bool hot)
{
    double mm[2], least_mm = hot ? site_rule_value(job, "hearth_plate_mm") : (double)NAN;
    if (!sw_site_hearth_mm(job->code, false, job->in->width_mm, job->in->depth_mm, mm)) return SW_OK;
    SW_TRY(projection(run, job, "hearth_front_mm", "hearth before the stove", job->house->hearth_front_mm));
    SW_TRY(projection(run, job, "hearth_side_mm", "hearth beside the stove", job->house->hearth_side_mm));
    if (!reaches_wall(job)) {
        SW_TRY(projection(run, job, "hearth_back_mm", "hearth behind the stove", site_hearth_back_mm(job)));
        SW_TRY(plate_side(run, job, "hearth plate, depth", job->house->hearth_depth_mm, fmax(mm[1], least_mm)));
    }
    return plate_side(run, job, "hearth plate, width", job->house->hearth_width_mm, fmax(mm[0], least_mm));
}

static sw_status no_plate(sw_run *run, site_job *job)
{
    const sw_site_rule *rule = site_rule(job, "hearth_front_mm");
    bool burns = job->house->floor_combustible;
    sw_finding f = {
        .check = "hearth", .where = "floor", .remedy = "a plate that cannot burn under and round the stove"};
    f.source = rule == NULL ? SITE_PRACTICE : site_rule_source(run, rule);
    f.what = burns ? "the stove stands on a floor that can burn, without a hearth plate"
                   : "the floor cannot burn and there is no plate: mark where the hearth ends by level or material";
    return site_state(run, job, f, burns ? SW_FAILS : SW_WATCH);
}

/* ---- thickness and temperature ---- */

/* Approved Document J: a thin plate where it stays below 100 degC, else a solid hearth. What is known is the underside of the
 * stove, and nothing under it gets hotter than that. */
static sw_status thickness(sw_run *run, site_job *job, bool hot)
{
    const sw_site_rule *rule = site_rule(job, hot ? "hearth_hot_mm" : "hearth_cool_mm");
    if (rule == NULL) return SW_OK;
    double limit_c = site_rule_value(job, "hearth_cool_c");
    sw_finding f = {.check = "hearth_thickness", .where = "hearth", .sense = SW_AT_LEAST, .unit = "mm"};
    f.value = job->house->hearth_mm;
    f.limit = job->hearth_mm = rule->value;
    f.source = site_rule_source(run, rule);
    f.remedy = "a thicker hearth, or proof by the type test that it stays below the limit";
    const char *why = isnan(job->in->floor_k)
                          ? sw_text_format(run, run->keep, "whether it keeps below %.0f degC is not known", limit_c)
                          : sw_text_format(run, run->keep, "the underside of the stove has %.0f degC, limit %.0f",
                                           sw_c_from_k(job->in->floor_k), limit_c);
    if (why == NULL) return SW_NO_MEMORY;
    f.what = sw_text_format(run, run->keep, "hearth %.0f mm thick, needed %.0f mm: %s", f.value, f.limit, why);
    SW_TRY(site_need(run, job, (sw_site_need){"hearth, thickness", "hearth", f.limit, f.value, f.source}));
    if (job->house->floor_combustible) return site_add(run, job, f, 0, SITE_HARD);
    f.what = "the floor cannot burn and counts with the hearth's thickness";
    f.remedy = "";
    return site_state(run, job, f, SW_HOLDS);
}

/* The plate's and the floor's own resistance count where they are told; a floor that is not told is insulated, and then as hot as
 * the plate's top, however thick the plate. */
static sw_status floor_below(sw_run *run, site_job *job)
{
    const sw_house *h = job->house;
    bool plate_told = h->hearth_mm > 0 && h->hearth_conductivity > 0, floor_told = h->floor_resistance > 0;
    double plate = plate_told ? sw_m_from_mm(h->hearth_mm) / h->hearth_conductivity : 0, top_k = 0;
    sw_finding f = {
        .check = "floor_temperature", .where = "floor", .sense = SW_AT_MOST, .unit = "K", .limit = job->rise_k};
    double floor_k = sw_floor_under_k(job->in->underside, job->in->under_m, job->in->room_k, plate,
                                      floor_told ? h->floor_resistance : (double)INFINITY, &top_k);
    f.value = floor_k - job->in->room_k;
    f.source = job->rise_source;
    f.remedy = "a heat shield or more air under the stove; measure at the first fire";
    f.what = sw_text_format(
        run, run->keep,
        "under the stove, %.0f mm below its underside of %.0f degC, the plate comes to %.0f degC and the floor to %.0f, %.0f K "
        "above the room; plate %s, floor %s",
        sw_mm_from_m(job->in->under_m), sw_c_from_k(job->in->underside->t_k), sw_c_from_k(top_k), sw_c_from_k(floor_k),
        f.value,
        plate_told ? sw_text_format(run, run->keep, "%.3f m2 K/W", plate) : "not counted, its conductivity is not told",
        floor_told ? sw_text_format(run, run->keep, "%.2f m2 K/W", h->floor_resistance)
                   : "insulated, as nothing is told");
    return site_add(run, job, f, watch_share, plate_told && floor_told ? SITE_HARD : SITE_SOFT);
}

static sw_status floor_temperature(sw_run *run, site_job *job)
{
    bool solid = job->house->hearth_mm >= site_rule_value(job, "hearth_hot_mm");
    if (!job->house->floor_combustible || solid) return SW_OK;
    sw_finding f = {.check = "floor_temperature", .where = "floor", .sense = SW_AT_MOST, .unit = "K"};
    if (job->in->underside != NULL) return floor_below(run, job);
    f.value = job->in->floor_k - job->in->room_k;
    f.limit = job->rise_k;
    f.source = job->rise_source;
    f.remedy = "a heat shield or more air under the stove; measure at the first fire";
    f.what = isnan(f.value) ? "how hot the floor gets under the stove is not computed"
                            : sw_text_format(run, run->keep,
                                             "the stove's underside is %.0f K above the room; the floor under it stays "
                                             "below that, allowed are %.0f K",
                                             f.value, f.limit);
    return site_add(run, job, f, watch_share, SITE_SOFT);
}

/* ---- load ---- */

static double plate_kg(const sw_house *house)
{
    if (!has_plate(house)) return 0;
    return sw_m3_from_mm3(house->hearth_width_mm * house->hearth_depth_mm * house->hearth_mm) * house->hearth_density;
}

static sw_status area_load(sw_run *run, site_job *job)
{
    const sw_house *house = job->house;
    double area_mm2 =
        has_plate(house) ? house->hearth_width_mm * house->hearth_depth_mm : job->in->width_mm * job->in->depth_mm;
    double mass_kg = job->in->mass_kg + plate_kg(house);
    sw_finding f = {.check = "floor_load", .where = "floor", .sense = SW_AT_MOST, .unit = "Pa"};
    f.value = job->r->floor_load_pa = sw_floor_pa(mass_kg, sw_m2_from_mm2(area_mm2));
    f.limit = house->floor_pa > 0 ? house->floor_pa : imposed_pa;
    f.source = house->floor_pa > 0 ? "load of the floor, as described" : IMPOSED;
    f.remedy = "spread the load; have the joists checked by an engineer";
    f.what = sw_text_format(run, run->keep,
                            "stove%s of %.0f kg press with %.2f kN/m2 (floor %.2f kN/m2); what the stove carries of "
                            "the flue is not counted",
                            has_plate(house) ? " and hearth" : "", mass_kg, site_kw(f.value), site_kw(f.limit));
    if (isnan(f.value)) f.what = "the hearth's density is not described, so the floor's load is not judged";
    return site_add(run, job, f, 0, SITE_SOFT);
}

static sw_status leg_load(sw_run *run, site_job *job)
{
    if (!(job->in->leg_count >= 1)) return SW_OK;
    sw_finding f = {.check = "leg_load", .where = "floor", .sense = SW_AT_MOST, .unit = "N", .limit = point_n};
    f.value = job->r->leg_n = job->in->mass_kg * SW_GRAVITY / job->in->leg_count;
    f.source = IMPOSED;
    f.remedy = "plates under the legs";
    f.what = sw_text_format(run, run->keep, "each of %.0f legs presses with %.0f N", job->in->leg_count, f.value);
    return site_add(run, job, f, 0, SITE_SOFT);
}

sw_status site_find_hearth(sw_run *run, site_job *job)
{
    double limit_c = site_rule_value(job, "hearth_cool_c");
    bool hot = !(job->in->floor_k <= sw_k_from_c(limit_c)); /* not known counts as hot */
    if (has_plate(job->house))
        SW_TRY(plate(run, job, hot));
    else if (job->house->floor_combustible || site_rule(job, "hearth_front_mm") != NULL)
        SW_TRY(no_plate(run, job));
    if (has_plate(job->house)) SW_TRY(thickness(run, job, hot));
    SW_TRY(floor_temperature(run, job));
    SW_TRY(area_load(run, job));
    return leg_load(run, job);
}
