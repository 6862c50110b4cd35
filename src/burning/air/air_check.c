/* air_check.c: has the stove openings, a throat and a collar, and are their figures possible? */
#include "burning/air/air_parts.h"

#include <math.h>
#include <string.h>

static const char *const kinds[] = {"primary", "secondary", "wash", "rear jet"};
static const double height_most_m = 20, area_most_m2 = 10;

static bool known_kind(const char *kind)
{
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++)
        if (strcmp(kind, kinds[i]) == 0) return true;
    return false;
}

static sw_status check_opening(sw_run *run, const sw_opening *o)
{
    sw_status status = SW_OK;
    if (!known_kind(o->kind))
        status = sw_fail(run, SW_BAD_INPUT, o->place, o->name,
                         "opening \"%s\": kind \"%s\" is not known; use primary, secondary, wash or rear jet", o->name,
                         o->kind);
    if (!(o->area_mm2 >= 0 && sw_m2_from_mm2(o->area_mm2) <= area_most_m2))
        status = sw_fail(run, SW_OUT_OF_RANGE, o->place, o->name,
                         "opening \"%s\": an area of %g mm2 cannot be; give 0 to %g mm2", o->name, o->area_mm2,
                         sw_mm2_from_m2(area_most_m2));
    if (!(o->height_mm >= -sw_mm_from_m(height_most_m) && o->height_mm <= sw_mm_from_m(height_most_m)))
        status = sw_fail(run, SW_OUT_OF_RANGE, o->place, o->name,
                         "opening \"%s\": its middle %g mm above the floor is outside -%g to %g mm", o->name,
                         o->height_mm, sw_mm_from_m(height_most_m), sw_mm_from_m(height_most_m));
    return status;
}

static sw_status check_area(sw_run *run, const sw_stove *stove, const char *name, double area_m2, const char *remedy)
{
    if (area_m2 > 0 && area_m2 <= area_most_m2) return SW_OK;
    if (isnan(area_m2))
        return sw_fail(run, SW_BAD_INPUT, stove->place, name,
                       "no %s was found, so its free area is not known: give its part the role, and check its place",
                       name);
    return sw_fail(run, area_m2 == 0 ? SW_BAD_INPUT : SW_OUT_OF_RANGE, stove->place, name,
                   "the %s has a free area of %g mm2: %s", name, sw_mm2_from_m2(area_m2), remedy);
}

static sw_status check_height(sw_run *run, const sw_stove *stove, const char *name, double height_m)
{
    if (height_m >= -height_most_m && height_m <= height_most_m) return SW_OK;
    if (isnan(height_m))
        return sw_fail(run, SW_BAD_INPUT, stove->place, name,
                       "where the %s lies is not known: give its part the role, and check its place", name);
    return sw_fail(run, SW_OUT_OF_RANGE, stove->place, name, "the %s lies %g m above the floor: outside -%g to %g m",
                   name, height_m, height_most_m, height_most_m);
}

static sw_status check_geometry(sw_run *run, const sw_stove *stove, const sw_air_geometry *g)
{
    sw_status found[] = {
        check_area(run, stove, "throat", g->throat_m2,
                   "gas has no way past the baffle; leave a gap beside or in front of it"),
        check_area(run, stove, "collar", g->collar_m2, "it is blocked; gas needs an opening to the flue"),
        isnan(g->throat_m2) ? SW_OK : check_height(run, stove, "throat", g->throat_height_m),
        isnan(g->collar_m2) ? SW_OK : check_height(run, stove, "collar", g->collar_height_m),
        check_height(run, stove, "fire bed", g->bed_height_m),
    };
    for (size_t i = 0; i < sizeof found / sizeof *found; i++)
        if (found[i] != SW_OK) return found[i];
    return SW_OK;
}

static sw_status check_fuel(sw_run *run, const sw_air_input *in)
{
    if (in->fuel_kg_s < 0 || isinf(in->fuel_kg_s))
        return sw_fail(run, SW_OUT_OF_RANGE, in->stove->place, "fuel", "%g kg/s of fuel cannot be; give 0 or more",
                       in->fuel_kg_s);
    if (in->air_min_kg <= 0 || isinf(in->air_min_kg))
        return sw_fail(run, SW_OUT_OF_RANGE, in->stove->place, "air",
                       "%g kg of air for a kg of fuel cannot be; give a value above 0", in->air_min_kg);
    return SW_OK;
}

sw_status air_check(sw_run *run, const sw_air_input *in, const sw_air_options *opt)
{
    size_t count = 0;
    const sw_option *table = sw_air_option_table(&count);
    SW_ASSERT(opt->made_by_defaults == SW_DEFAULTS_MARK);
    sw_status status = sw_options_check(run, table, count, opt), one = check_geometry(run, in->stove, &in->geometry);
    if (one != SW_OK) status = one;
    if ((one = check_fuel(run, in)) != SW_OK) status = one;
    for (size_t i = 0; i < in->stove->opening_count; i++)
        if ((one = check_opening(run, &in->stove->openings[i])) != SW_OK) status = one;
    if (in->stove->opening_count == 0)
        status =
            sw_fail(run, SW_BAD_INPUT, in->stove->place, "openings",
                    "the stove has no air opening; describe at least one with opening { kind = \"primary\", ... }");
    return status;
}
