/* fire_check.c: options, duty and sizes of the firebox, before anything is reckoned. */
#include "burning/fire/fire_parts.h"

#include <math.h>

/* "a, b and c" of the fuels known; NULL on no memory. */
static const char *known_fuels(sw_run *run)
{
    const char *list = sw_fuel_at(0)->name;
    for (size_t i = 1; i < sw_fuel_count() && list != NULL; i++)
        list = sw_text_format(run, run->scratch, "%s%s%s", list, i + 1 < sw_fuel_count() ? ", " : " and ",
                              sw_fuel_at(i)->name);
    return list;
}

static sw_status check_fuel(sw_run *run, const sw_stove *stove)
{
    enum { NAMES_MOST = 64 };
    const char *names[NAMES_MOST];
    const char *fuel = stove->duty.fuel == NULL ? "" : stove->duty.fuel;
    size_t count = sw_fuel_count();
    SW_ASSERT(count <= NAMES_MOST);
    if (sw_fuel_find(fuel) != NULL) return SW_OK;
    for (size_t i = 0; i < count; i++) names[i] = sw_fuel_at(i)->name;
    const char *near = sw_text_nearest(fuel, names, count), *known = known_fuels(run);
    if (known == NULL) return SW_NO_MEMORY;
    if (near != NULL)
        return sw_fail(run, SW_BAD_INPUT, stove->place, "duty.fuel",
                       "\"%s\" is not known; did you mean \"%s\"? Known: %s", fuel, near, known);
    return sw_fail(run, SW_BAD_INPUT, stove->place, "duty.fuel", "\"%s\" is not known; known are %s", fuel, known);
}

typedef struct limits {
    const char *field, *unit;
    double low, high; /* low itself is not allowed */
} limits;

static sw_status check_value(sw_run *run, sw_place place, limits l, double value)
{
    if (value > l.low && value <= l.high) return SW_OK;
    return sw_fail(run, SW_OUT_OF_RANGE, place, l.field, "%g %s cannot be; give more than %g and at most %g %s", value,
                   l.unit, l.low, l.high, l.unit);
}

static sw_status check_size(sw_run *run, sw_place place, limits l, double value)
{
    return isnan(value) ? SW_OK : check_value(run, place, l, value);
}

sw_status fire_check(sw_run *run, const fire_job *job)
{
    const sw_stove *stove = job->in->stove;
    const sw_duty *duty = &stove->duty;
    size_t count;
    const sw_option *options = sw_fire_option_table(&count);
    const sw_status found[] = {
        sw_options_check(run, options, count, job->opt),
        check_value(run, stove->place, (limits){"duty.output", "W", 0, 100e3}, duty->output_w),
        check_value(run, stove->place, (limits){"duty.refuel", "s", 0, sw_s_from_h(24)}, duty->refuel_s),
        check_value(run, stove->place, (limits){"duty.efficiency", "", 0, 1}, duty->efficiency),
        job->in->fuel_kg_s == 0 ? SW_OK
                                : check_value(run, stove->place, (limits){"fuel", "kg/s", 0, 1}, job->in->fuel_kg_s),
        check_size(run, stove->place, (limits){"firebox_m3", "m3", 0, 10}, job->in->firebox_m3),
        check_size(run, stove->place, (limits){"firebox_m2", "m2", 0, 100}, job->in->firebox_m2),
        check_size(run, stove->place, (limits){"base_m2", "m2", 0, 10}, job->in->base_m2),
        check_fuel(run, stove),
    };
    for (size_t i = 0; i < sizeof found / sizeof *found; i++)
        if (found[i] != SW_OK) return found[i];
    return SW_OK;
}
