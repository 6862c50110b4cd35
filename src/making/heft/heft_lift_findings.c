/* heft_lift_findings.c: what of the lifting cannot be done as the works stands. */
#include "making/heft/heft_lift_parts.h"

#include <math.h>
#include <string.h>

#define MASSES   "NIOSH 94-110 lifting equation; ISO 11228-1 reference mass, two-person rule of 2/3 (from memory)"
#define SLINGS   "EN 818-4: no leg beyond 60 degrees, less from 45 on (from memory)"
#define PRACTICE "common practice, no source"

static sw_finding blank(const lift_job *job, const char *check, const char *where)
{
    return sw_finding_of("heft", check, where, job->in->works != NULL ? job->in->works->place : job->in->stove->place);
}

static sw_status add(sw_run *run, lift_job *job, sw_finding f, double watch)
{
    if (f.what == NULL || f.where == NULL) return SW_NO_MEMORY;
    return sw_finding_add(run, &job->result->findings, f, watch);
}

/* ---- each lift ---- */

static bool has_hoists(const lift_job *job)
{
    return job->in->works != NULL && job->in->works->hoist_count > 0;
}

static sw_verdict judged(const lift_job *job, const sw_lift_step *s)
{
    if (s->way != SW_LIFT_GEAR || s->hoist != NULL) return SW_HOLDS;
    if (s->kind == SW_LIFT_HOUSE) return SW_WATCH;
    return has_hoists(job) ? SW_FAILS : SW_UNKNOWN;
}

static const char *remedy(const lift_job *job, const sw_lift_step *s)
{
    if (judged(job, s) == SW_HOLDS) return "";
    if (s->kind == SW_LIFT_HOUSE) return "bring it in on a stair climber or sack truck, or take it apart further";
    return has_hoists(job) ? "a stronger hoist, or lift it in parts" : "tell the works' hoists";
}

static sw_status lift_finding(sw_run *run, lift_job *job, const sw_lift_step *s, const char *where)
{
    sw_finding f = blank(job, "lift", where);
    const char *by = s->hoist != NULL ? s->hoist->name : sw_lift_way_name(s->way);
    const char *index =
        isfinite(s->index) ? sw_text_format(run, run->scratch, "index %.2f", s->index) : "one person cannot lift it so";
    if (index == NULL) return SW_NO_MEMORY;
    f.what = sw_text_format(run, run->keep, "%.1f kg: %s (limits so: %.1f kg for one, %.1f kg for two; %s)", s->mass_kg,
                            by, s->single_kg, s->team_kg, index);
    f.verdict = judged(job, s);
    f.remedy = remedy(job, s);
    f.source = MASSES;
    return add(run, job, f, 0);
}

/* Subassemblies, the stove, and a piece above the reference mass: who lifts it, as the table of lifts says. */
static sw_status mass_finding(sw_run *run, lift_job *job, const sw_lift_step *s)
{
    bool heavy = s->mass_kg > job->result->single_kg;
    if (s->kind != SW_LIFT_GROUP && s->kind != SW_LIFT_PACK && !(s->kind == SW_LIFT_FLAT && heavy)) return SW_OK;
    sw_finding f = blank(job, "mass", s->load);
    const char *by = sw_lift_way_name(s->way);
    f.verdict = heavy ? SW_WATCH : SW_HOLDS;
    f.source = MASSES;
    f.place = job->in->stove->place;
    f.what = sw_text_format(run, run->keep,
                            "%.1f kg: %s (one person may lift %.1f kg so, two %.1f kg; reference mass %.0f kg)",
                            s->mass_kg, by, s->single_kg, s->team_kg, job->result->single_kg);
    if (heavy)
        f.remedy = s->way == SW_LIFT_GEAR  ? "use lifting gear"
                   : s->way == SW_LIFT_TWO ? "lift with two people"
                                           : "one person lifts it";
    return add(run, job, f, 0);
}

static sw_status hoist_finding(sw_run *run, lift_job *job, const sw_lift_step *s, const char *where)
{
    if (s->hoist == NULL) return SW_OK;
    sw_finding f = blank(job, "hoist", where);
    bool here = s->station[0] == '\0' || s->hoist->station[0] == '\0' || strcmp(s->hoist->station, s->station) == 0;
    f.sense = SW_AT_LEAST;
    f.value = s->hoist->swl_kg;
    f.limit = s->need_kg;
    f.unit = "kg";
    f.source = "load and rigging times an allowance for jerks: idea of EN 13001, value " PRACTICE;
    f.place = s->hoist->place;
    f.what = sw_text_format(run, run->keep, "%s lifts %g kg, %.1f kg with rigging and jerks are asked for%s%s",
                            s->hoist->name, s->hoist->swl_kg, s->need_kg, here ? "" : "; it stands at ",
                            here ? "" : s->hoist->station);
    return add(run, job, f, 0);
}

static sw_status sling_finding(sw_run *run, lift_job *job, const sw_lift_step *s, const char *where)
{
    if (s->hoist == NULL || s->legs < 2) return SW_OK;
    sw_finding f = blank(job, "sling", where);
    f.sense = SW_AT_MOST;
    f.value = sw_deg_from_rad(s->leg_angle_rad);
    f.limit = 60;
    f.unit = "deg";
    f.source = SLINGS;
    f.remedy = f.value > 45 ? "longer legs or a spreader beam" : "";
    f.what = sw_text_format(run, run->keep, "%zu legs at %.0f deg from upright pull %.0f N each, %.0f N level", s->legs,
                            f.value, s->leg_n, s->pull_n);
    return add(run, job, f, 0.25); /* a quarter of 60 degrees is where the factor drops: watched above 45 */
}

static sw_status points_finding(sw_run *run, lift_job *job, const sw_lift_step *s, const char *where)
{
    if (s->way != SW_LIFT_GEAR || s->kind == SW_LIFT_HOUSE) return SW_OK;
    sw_finding f = blank(job, "points", where);
    bool found = s->point_count > 0;
    f.verdict = found ? SW_HOLDS : SW_WATCH;
    f.remedy = found ? "" : "fewer legs, a smaller inset, or a beam that reaches beyond the load";
    f.source = "derived: points symmetric about the centre of gravity";
    f.what = found ? sw_text_format(run, run->keep,
                                    "%zu points about the centre of gravity; at the ends one would carry %.0f %%",
                                    s->point_count, 100 * s->end_share)
                   : "no room for points on both sides of the centre of gravity";
    return add(run, job, f, 0);
}

static sw_status step_findings(sw_run *run, lift_job *job, const sw_lift_step *s)
{
    const char *where = sw_text_format(run, run->keep, "%s, %s", s->load, s->action);
    SW_TRY(mass_finding(run, job, s));
    SW_TRY(lift_finding(run, job, s, where));
    SW_TRY(hoist_finding(run, job, s, where));
    SW_TRY(sling_finding(run, job, s, where));
    return points_finding(run, job, s, where);
}

/* ---- the trolley ---- */

static sw_status stop_finding(sw_run *run, lift_job *job)
{
    const sw_lift_trolley *t = &job->result->trolley;
    const sw_works *works = job->in->works;
    sw_finding f = blank(job, "stop", "stove on the trolley");
    bool known =
        works != NULL && works->trolley.stop_m_s2 > 0 && !isnan(t->stop_wheels_m_s2) && !isnan(t->stop_feet_m_s2);
    f.sense = SW_AT_LEAST;
    f.value = known ? fmin(t->stop_feet_m_s2, t->stop_wheels_m_s2) : (double)NAN;
    f.limit = works != NULL && works->trolley.stop_m_s2 > 0 ? works->trolley.stop_m_s2 : (double)NAN;
    f.unit = "m/s2";
    f.source = "works description; derived: g e/h";
    f.what =
        known ? sw_text_format(run, run->keep, "a stop of %.1f m/s2 tips the stove on its feet, %.1f m/s2 the trolley",
                               t->stop_feet_m_s2, t->stop_wheels_m_s2)
              : "feet of the stove, wheel base or sudden stop of the trolley are not known";
    f.remedy = !known ? "give the works' trolley and stand the stove on the floor" : "";
    if (known && f.value < f.limit) f.remedy = "strap the stove down, a wider or lower trolley";
    return add(run, job, f, 0.2);
}

/* Watched, not failed: whoever handles the stove can push low or strap it. */
static sw_status push_finding(sw_run *run, lift_job *job)
{
    const sw_lift_trolley *t = &job->result->trolley;
    sw_finding f = blank(job, "push", "stove on the floor and on the trolley");
    double push_n = isnan(t->push_feet_n) ? (double)NAN : fmin(t->push_feet_n, t->push_wheels_n);
    f.source = "British guideline figure for starting to push (from memory); derived: m g e/y";
    f.verdict = isnan(push_n) ? SW_UNKNOWN : push_n < job->opt->push_n ? SW_WATCH : SW_HOLDS;
    f.what = isnan(push_n) ? "nothing of the stove stands on the floor, so no push is known that tips it"
                           : sw_text_format(run, run->keep, "%.0f N at %.0f mm tip it; people push with up to %.0f N",
                                            push_n, job->opt->push_mm, job->opt->push_n);
    if (f.verdict == SW_UNKNOWN) f.remedy = "place the stove with its feet on the floor, z = 0";
    if (f.verdict == SW_WATCH) f.remedy = "push it low down, strap it, or a wider base";
    return add(run, job, f, 0);
}

sw_status lift_findings(sw_run *run, lift_job *job)
{
    for (size_t i = 0; i < job->step_count; i++) SW_TRY(step_findings(run, job, &job->steps[i]));
    SW_TRY(stop_finding(run, job));
    return push_finding(run, job);
}
