/* heft_lift.c: the steps of planning every lift. */
#include "making/heft/heft_lift_parts.h"

#include <math.h>

#define PRACTICE "common practice, no source"

static const sw_option options[] = {
    SW_OPTION(sw_lift_options, grip_mm, "mm", 200, 100, 400, "from the ankles to the near side of a load",
              "NIOSH manual: 20 cm + half the depth (from memory)"),
    SW_OPTION(sw_lift_options, from_mm, "mm", 500, 0, 1750, "height of the hands where a lift begins", PRACTICE),
    SW_OPTION(sw_lift_options, to_mm, "mm", 900, 0, 1750, "height of the hands where it ends: tables and machines",
              PRACTICE),
    SW_OPTION(sw_lift_options, turn_deg, "deg", 30, 0, 135, "turn of the trunk between pile and machine", PRACTICE),
    SW_OPTION(sw_lift_options, per_min, "1/min", 0.2, 0, 15, "lifts a minute", "NIOSH manual: least frequency tabled"),
    SW_OPTION(sw_lift_options, spell_h, "h", 1, 0, 8, "how long such lifting goes on", PRACTICE),
    SW_OPTION(sw_lift_options, long_mm, "mm", 1500, 500, 5000, "longer loads want two people", PRACTICE),
    SW_OPTION(sw_lift_options, dynamic, "", 1.15, 1, 2, "allowance for jerks on the hoist's load",
              "idea of EN 13001; value " PRACTICE),
    SW_OPTION(sw_lift_options, inset_mm, "mm", 40, 0, 500, "lifting points from the ends of the load", PRACTICE),
    SW_OPTION(sw_lift_options, legs, "", 2, 1, 4, "legs of a sling where the hoist does not say", PRACTICE),
    SW_OPTION(sw_lift_options, leg_angle_deg, "deg", 30, 0, 60, "legs from upright where the hoist does not say",
              PRACTICE),
    SW_OPTION(sw_lift_options, push_mm, "mm", 1000, 100, 2500, "height at which somebody pushes", PRACTICE),
    SW_OPTION(sw_lift_options, push_n, "N", 200, 10, 1000, "level push that must not tip the stove",
              "British guideline figure for starting to push, about 20 kg (from memory)"),
};

const sw_option *sw_lift_option_table(size_t *count)
{
    *count = sizeof options / sizeof *options;
    return options;
}

sw_lift_options sw_lift_options_defaults(void)
{
    sw_lift_options o = {.made_by_defaults = SW_DEFAULTS_MARK};
    sw_options_fill(options, sizeof options / sizeof *options, &o);
    return o;
}

const char *sw_lift_kind_name(sw_lift_kind kind)
{
    static const char *const names[SW_LIFT_KINDS] = {"sheet", "flat",       "press", "rolls", "group",
                                                     "grown", "positioner", "blast", "pack",  "house"};
    return (size_t)kind < SW_LIFT_KINDS ? names[kind] : "";
}

const char *sw_lift_way_name(sw_lift_way way)
{
    static const char *const names[SW_LIFT_WAYS] = {"one person", "two people", "lifting gear"};
    return (size_t)way < SW_LIFT_WAYS ? names[way] : "";
}

static const char *const cautions[] = {
    "Nobody stands or reaches under a hanging load; keep hands off slings that come tight.",
    "Use lifting gear that has been inspected and shows its working load; hooks have latches.",
    "Lift a little, see that it hangs level, then lift on; the hook stands over the centre of gravity.",
    "Sheet edges cut: gloves, safety shoes, and no grip that the sheet can slide through.",
    "Figures assume healthy adults, a dry floor and room to stand; tired or unpractised people lift less.",
    "Take doors off or lock them, empty ash pan and tray, before a stove is tipped or carried.",
};

typedef struct figure {
    const char *field, *unit;
    double value, low, high;
} figure;

/* All that is wrong is recorded; the last status counts. */
static sw_status check_figure(sw_run *run, sw_place place, const char *of, const figure *f)
{
    if (f->value >= f->low && f->value <= f->high) return SW_OK;
    return sw_fail(run, SW_OUT_OF_RANGE, place, f->field, "%s: %g is outside %g to %g %s; mend it in the works", of,
                   f->value, f->low, f->high, f->unit);
}

static sw_status check_works(sw_run *run, const sw_works *works)
{
    sw_status status = SW_OK;
    for (size_t i = 0; i < works->hoist_count; i++) {
        const sw_hoist *h = &works->hoists[i];
        const figure figures[] = {{"hoists.swl", "kg", h->swl_kg, 1, 1e5},
                                  {"hoists.rigging", "kg", h->rigging_kg, 0, 1e4},
                                  {"hoists.legs", "", h->legs, 0, 4},
                                  {"hoists.leg_angle", "deg", sw_deg_from_rad(h->leg_angle_rad), 0, 60}};
        for (size_t k = 0; k < sizeof figures / sizeof *figures; k++)
            if (check_figure(run, h->place, h->name, &figures[k]) != SW_OK) status = SW_OUT_OF_RANGE;
    }
    const sw_trolley *t = &works->trolley;
    const figure figures[] = {{"trolley.length", "mm", t->length_mm, 0, 1e4},
                              {"trolley.width", "mm", t->width_mm, 0, 1e4},
                              {"trolley.high", "mm", t->high_mm, 0, 3e3},
                              {"trolley.stop", "m/s2", t->stop_m_s2, 0, 50}};
    for (size_t k = 0; k < sizeof figures / sizeof *figures; k++)
        if (check_figure(run, works->place, "trolley", &figures[k]) != SW_OK) status = SW_OUT_OF_RANGE;
    return status;
}

/* Without a works the people are those of one. */
static double reference_kg(const sw_works *works)
{
    return sw_reference_mass_kg(works == NULL || works->labour.mixed ? SW_PEOPLE_MIXED : SW_PEOPLE_GENERAL);
}

static sw_status steps(sw_run *run, const sw_lift_input *in, const sw_lift_options *opt, const sw_lift_result **result)
{
    SW_ASSERT(opt->made_by_defaults == SW_DEFAULTS_MARK && in->heft != NULL);
    SW_TRY(sw_options_check(run, options, sizeof options / sizeof *options, opt));
    if (in->works != NULL) SW_TRY(check_works(run, in->works));
    lift_job job = {.in = in, .opt = opt, .result = SW_KEEP(run, 1, sw_lift_result)};
    if (job.result == NULL) return SW_NO_MEMORY;
    job.result->single_kg = reference_kg(in->works);
    job.result->cautions = cautions;
    job.result->caution_count = sizeof cautions / sizeof *cautions;
    SW_TRY(lift_members(run, &job));
    SW_TRY(lift_steps(run, &job));
    lift_trolley(&job);
    SW_TRY(lift_findings(run, &job));
    *result = job.result;
    return SW_OK;
}

sw_status sw_lift_solve(sw_run *run, const sw_lift_input *in, const sw_lift_options *opt, const sw_lift_result **result)
{
    size_t mark = sw_arena_mark(run->scratch);
    *result = NULL;
    sw_status status = steps(run, in, opt, result);
    sw_arena_rewind(run->scratch, mark);
    return status;
}
