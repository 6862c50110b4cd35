#include "base/base.h"

#include <errno.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

static double *field_of(void *options, const sw_option *option)
{
    return (double *)((char *)options + option->offset);
}

void sw_options_fill(const sw_option *table, size_t count, void *options)
{
    for (size_t i = 0; i < count; i++) *field_of(options, &table[i]) = table[i].fallback;
}

/* Before a unit, where there is one. */
static const char *blank(const sw_option *o)
{
    return o->unit[0] == '\0' ? "" : " ";
}

sw_status sw_options_check(sw_run *run, const sw_option *table, size_t count, const void *options)
{
    sw_status status = SW_OK;
    for (size_t i = 0; i < count; i++) {
        const sw_option *o = &table[i];
        double value = 0;
        memcpy(&value, (const char *)options + o->offset, sizeof value);
        if (value >= o->low && value <= o->high) continue;
        status = sw_fail(run, SW_OUT_OF_RANGE, (sw_place){0}, o->name, "%g%s%s is outside %g to %g%s%s (%s)", value,
                         blank(o), o->unit, o->low, o->high, blank(o), o->unit, o->meaning);
    }
    return status;
}

static sw_status set_one(sw_run *run, const sw_option *o, void *options, const char *text)
{
    char *end = NULL;
    errno = 0;
    double value = strtod(text, &end);
    if (end == text || *end != '\0' || errno != 0 || !isfinite(value))
        return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, o->name, "\"%s\" is no number; give %s, e.g. %s=%g", text,
                       o->unit[0] == '\0' ? "a plain number" : o->unit, o->name, o->fallback);
    *field_of(options, o) = value;
    if (value >= o->low && value <= o->high) return SW_OK;
    return sw_fail(run, SW_OUT_OF_RANGE, (sw_place){0}, o->name, "%g%s%s is outside %g to %g%s%s (%s)", value, blank(o),
                   o->unit, o->low, o->high, blank(o), o->unit, o->meaning);
}

sw_status sw_options_set(sw_run *run, const sw_option *table, size_t count, void *options, const char *setting,
                         bool *known)
{
    const char *equals = strchr(setting, '=');
    size_t length = equals == NULL ? strlen(setting) : (size_t)(equals - setting);
    for (size_t i = 0; i < count; i++) {
        if (strlen(table[i].name) != length || strncmp(table[i].name, setting, length) != 0) continue;
        *known = true;
        return set_one(run, &table[i], options, equals == NULL ? "" : equals + 1);
    }
    return SW_OK;
}
