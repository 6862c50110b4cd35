#include "base/base.h"

#include <string.h>

static double *field_of(void *options, const sw_option *option)
{
    return (double *)((char *)options + option->offset);
}

void sw_options_fill(const sw_option *table, size_t count, void *options)
{
    for (size_t i = 0; i < count; i++) *field_of(options, &table[i]) = table[i].fallback;
}

sw_status sw_options_check(sw_run *run, const sw_option *table, size_t count, const void *options)
{
    sw_status status = SW_OK;
    for (size_t i = 0; i < count; i++) {
        const sw_option *o = &table[i];
        double value = 0;
        memcpy(&value, (const char *)options + o->offset, sizeof value);
        if (value >= o->low && value <= o->high) continue;
        status = sw_fail(run, SW_OUT_OF_RANGE, (sw_place){0}, o->name, "%g %s is outside %g to %g %s (%s)", value,
                         o->unit, o->low, o->high, o->unit, o->meaning);
    }
    return status;
}
