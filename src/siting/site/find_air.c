/* find_air.c: air for fire and fans, and the carbon monoxide alarm. handbook S4.1 to S4.3 */
#include "siting/site/site_parts.h"

#include <math.h>

static const double depression_most_pa = 4; /* P_B of EN 13384-1 unless calculated (from memory) */
static const double room_density = 1.2;     /* kg/m3, air at 20 degC */
static const double watch_share = 0.1;      /* ours */

static double known(double value) /* what nobody described is not there */
{
    return isnan(value) ? 0 : value;
}

/* ---- openings by rule ---- */

static sw_status piped(sw_run *run, site_job *job)
{
    sw_finding f = {.check = "combustion_air", .where = "room", .source = SITE_PRACTICE, .remedy = ""};
    f.what = "the fire's air is piped to the stove: no opening of the room is asked for it";
    return site_state(run, job, f, SW_HOLDS);
}

static sw_status vent_by_rule(sw_run *run, site_job *job)
{
    const sw_house *house = job->house;
    sw_site_asked asked = sw_site_vent_m2(job->code, job->in->output_w, house->permeability_m_s, house->stabiliser);
    if (asked.rule == NULL) return SW_OK;
    sw_finding f = {.check = "combustion_air", .where = "room", .sense = SW_AT_LEAST, .unit = "mm2"};
    f.value = sw_mm2_from_m2(house->vent_m2);
    f.limit = sw_mm2_from_m2(asked.value);
    f.source = site_rule_source(run, asked.rule);
    f.remedy = "a permanent opening to the outside of that equivalent area";
    f.what =
        isnan(asked.value)
            ? "the house's air permeability is not described, so the opening for the fire's air is not judged"
            : sw_text_format(run, run->keep, "permanent opening to the outside: %.0f mm2, needed %.0f mm2 for %.1f kW",
                             f.value, f.limit, site_kw(job->in->output_w));
    if (!isnan(asked.value)) job->r->vent_needed_m2 = asked.value;
    return site_add(run, job, f, 0, SITE_HARD);
}

/* Germany: so much room a kilowatt, or an opening to the outside instead. */
static sw_status volume_by_rule(sw_run *run, site_job *job)
{
    const sw_site_rule *per_kw = site_rule(job, "room_m3_kw"), *opening = site_rule(job, "room_opening_mm2");
    if (per_kw == NULL || opening == NULL) return SW_OK;
    double output_kw = site_kw(job->in->output_w), vent_mm2 = sw_mm2_from_m2(job->house->vent_m2);
    sw_finding f = {.check = "combustion_air", .where = "room", .sense = SW_AT_LEAST, .unit = "m3"};
    f.value = job->house->room_m3 + known(job->house->joined_m3);
    f.limit = per_kw->value * output_kw;
    f.source = site_rule_source(run, per_kw);
    f.remedy = "join another room by openings of 150 cm2, or an opening to the outside of 150 cm2";
    f.what =
        sw_text_format(run, run->keep, "%.0f m3 of room with an outside window or door, needed %.0f m3 for %.1f kW",
                       f.value, f.limit, output_kw);
    if (output_kw > site_rule_value(job, "room_most_kw")) {
        f.what = "the rule for the room's volume ends below this output";
        return site_state(run, job, f, SW_UNKNOWN);
    }
    if (isnan(f.value)) f.what = "the room's volume is not described, so the room's air is not judged";
    if (f.value >= f.limit || !(vent_mm2 >= opening->value)) return site_add(run, job, f, 0, SITE_HARD);
    f.source = site_rule_source(run, opening);
    f.remedy = "";
    f.what = sw_text_format(run, run->keep, "an opening to the outside of %.0f cm2 stands for the room's volume",
                            vent_mm2 / 100);
    return site_state(run, job, f, SW_HOLDS);
}

/* ---- physics ---- */

/* The opening in all, and what of it is lacking. */
static const char *wider(sw_run *run, const site_job *job)
{
    double all_mm2 = ceil(sw_mm2_from_m2(job->r->vent_needed_m2)),
           there_mm2 = sw_mm2_from_m2(known(job->house->vent_m2));
    if (!(there_mm2 > 0))
        return sw_text_format(run, run->keep,
                              "a permanent opening of %.0f mm2, or fans that stop while the stove burns", all_mm2);
    return sw_text_format(run, run->keep,
                          "permanent openings of %.0f mm2 in all, %.0f mm2 more than there is, or fans that stop while "
                          "the stove burns",
                          all_mm2, fmax(all_mm2 - there_mm2, 0));
}

/* What the finding says and asks, by what is known. */
static void depression_words(sw_run *run, const site_job *job, double stove_m3_s, double at_50_pa, sw_finding *f)
{
    double fans_m3_s = job->house->extract_m3_s;
    f->remedy = wider(run, job);
    f->what = sw_text_format(
        run, run->keep, "fans at full%s draw %.0f m3/h: the room is %.1f Pa below outside, allowed %.0f Pa",
        stove_m3_s > 0 ? " and the stove" : "", sw_s_from_h(fans_m3_s + stove_m3_s), f->value, f->limit);
    if (!isnan(f->value)) return;
    f->remedy = "have the house's tightness tested, or test for spillage with all fans at full";
    double alone_pa = sw_room_depression_pa(stove_m3_s, at_50_pa, known(job->house->vent_m2));
    if (isfinite(alone_pa))
        f->what = sw_text_format(
            run, run->keep, "fans are not described; the stove alone brings the room %.1f Pa below outside", alone_pa);
    else
        f->what = "tightness, fans or the stove's air are not known, so the room's pressure is not judged";
}

static sw_status depression(sw_run *run, site_job *job)
{
    const sw_house *house = job->house;
    double at_50_pa = house->permeability_m_s * house->envelope_m2, vent_m2 = known(house->vent_m2);
    double fire_m3_s = house->direct_air ? 0 : job->in->air_kg_s / room_density;
    double stove_m3_s = fire_m3_s + job->in->stabiliser_kg_s / room_density,
           all_m3_s = house->extract_m3_s + stove_m3_s;
    job->r->fans_pa = sw_room_depression_pa(house->extract_m3_s, at_50_pa, vent_m2);
    job->r->depression_pa = sw_room_depression_pa(all_m3_s, at_50_pa, vent_m2);
    const sw_site_rule *rule = site_rule(job, house->direct_air ? "depression_direct_pa" : "depression_pa");
    sw_finding f = {.check = "room_depression", .where = "room", .sense = SW_AT_MOST, .unit = "Pa"};
    f.value = job->r->depression_pa;
    job->depression_most_pa = f.limit = rule == NULL ? depression_most_pa : rule->value;
    job->depression_source = f.source = rule == NULL
                                            ? "EN 13384-1: 4 Pa for the supply of air unless calculated (from memory)"
                                            : site_rule_source(run, rule);
    double needed_m2 = sw_room_vent_m2(all_m3_s, at_50_pa, f.limit);
    if (isnan(job->r->vent_needed_m2) || needed_m2 > job->r->vent_needed_m2) job->r->vent_needed_m2 = needed_m2;
    depression_words(run, job, stove_m3_s, at_50_pa, &f);
    if (!isinf(f.value)) return site_add(run, job, f, watch_share, SITE_HARD);
    f.what = "the house has neither leaks nor an opening: no air can come in";
    return site_state(run, job, f, SW_FAILS);
}

static sw_status fans(sw_run *run, site_job *job)
{
    const sw_site_rule *test = site_rule(job, "extract_spillage_test"), *lock = site_rule(job, "extract_interlock");
    const sw_site_rule *rule = test != NULL ? test : lock;
    if (!(job->house->extract_m3_s > 0) || rule == NULL || (lock != NULL && job->house->direct_air)) return SW_OK;
    sw_finding f = {.check = "fans", .where = "room", .source = site_rule_source(run, rule)};
    f.what = test != NULL ? "fans draw from the house: avoid them in the stove's room, or test for spillage with doors "
                            "and windows shut and all fans at full, the inner door open and shut"
                          : "an open-flued stove and fans together only with an interlock, a monitor, or proof that no "
                            "dangerous depression arises";
    f.remedy = "an interlock that stops the fans, or the test in the record of the first fire";
    return site_state(run, job, f, SW_WATCH);
}

/* ---- alarm ---- */

static sw_status no_alarm(sw_run *run, site_job *job)
{
    const sw_site_rule *rule = site_rule(job, "alarm_required");
    sw_finding f = {.check = "alarm", .where = "room", .what = "there is no carbon monoxide alarm"};
    f.place = job->house->alarm.place;
    f.source = rule == NULL ? SITE_PRACTICE : site_rule_source(run, rule);
    f.remedy = "a carbon monoxide alarm in the stove's room";
    return site_state(run, job, f, rule == NULL ? SW_WATCH : SW_FAILS);
}

static sw_status unruled_alarm(sw_run *run, site_job *job)
{
    sw_finding f = {.check = "alarm", .where = "room", .source = SITE_PRACTICE, .place = job->house->alarm.place};
    f.what = "a carbon monoxide alarm is there; no rule for its place is held here";
    f.remedy = "place it as its maker and the local code say";
    return site_state(run, job, f, SW_UNKNOWN);
}

static sw_status alarm_distance(sw_run *run, site_job *job, const char *rule_name, const char *words, double there_mm)
{
    const sw_site_rule *rule = site_rule(job, rule_name);
    if (rule == NULL) return SW_OK;
    bool far = there_mm > rule->value;
    sw_finding f = {.check = rule_name, .where = words, .unit = "mm", .value = there_mm, .limit = rule->value};
    f.place = job->house->alarm.place;
    f.sense = rule == site_rule(job, "alarm_far_mm") ? SW_AT_MOST : SW_AT_LEAST;
    f.source = site_rule_source(run, rule);
    f.remedy = far ? "nearer" : "farther away";
    const char *least = f.sense == SW_AT_MOST ? "at most" : "at least";
    f.what = isnan(there_mm) ? sw_text_format(run, run->keep,
                                              "how far the carbon monoxide alarm is %s is not described "
                                              "(%s %.0f mm)",
                                              words, least, rule->value)
                             : sw_text_format(run, run->keep, "carbon monoxide alarm %.0f mm %s (%s %.0f mm)", there_mm,
                                              words, least, rule->value);
    return site_add(run, job, f, 0, SITE_HARD);
}

static sw_status alarm(sw_run *run, site_job *job)
{
    const sw_alarm *a = &job->house->alarm;
    if (!a->there) return no_alarm(run, job);
    if (site_rule(job, "alarm_near_mm") == NULL) return unruled_alarm(run, job);
    SW_TRY(alarm_distance(run, job, "alarm_near_mm", "from the stove", a->from_stove_mm));
    SW_TRY(alarm_distance(run, job, "alarm_far_mm", "from the stove", a->from_stove_mm));
    if (a->on_ceiling) return alarm_distance(run, job, "alarm_ceiling_wall_mm", "from the wall", a->from_wall_mm);
    return alarm_distance(run, job, "alarm_wall_ceiling_mm", "below the ceiling", a->below_ceiling_mm);
}

sw_status site_find_air(sw_run *run, site_job *job)
{
    if (job->house->direct_air)
        SW_TRY(piped(run, job));
    else {
        SW_TRY(vent_by_rule(run, job));
        SW_TRY(volume_by_rule(run, job));
    }
    SW_TRY(depression(run, job));
    SW_TRY(fans(run, job));
    return alarm(run, job);
}
