/* conditions.c: --with NAME=VALUE: the options of the burn and the constants of the heat model, by their tables. */
#include "app/app.h"

#include <string.h>

enum { NAMES_MAX = 64 };

static sw_status unknown_condition(sw_run *run, const char *setting)
{
    const char *names[NAMES_MAX];
    size_t count = 0, rows = 0;
    const sw_option *burn = sw_burn_option_table(&rows);
    for (size_t i = 0; i < rows && count < NAMES_MAX; i++) names[count++] = burn[i].name;
    const sw_option *heat = sw_heat_model_table(&rows);
    for (size_t i = 0; i < rows && count < NAMES_MAX; i++) names[count++] = heat[i].name;
    const char *equals = strchr(setting, '=');
    const char *name = sw_text_format(run, run->scratch, "%.*s", (int)(equals - setting), setting);
    const char *near = name == NULL ? NULL : sw_text_nearest(name, names, count);
    if (near != NULL)
        return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "--with", "%s is no condition; did you mean %s?", name, near);
    return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "--with", "%s is no condition; stovewright heat --help lists them",
                   name == NULL ? setting : name);
}

sw_status sw_burn_conditions(sw_run *run, const sw_request *request, sw_burn_options *opt, sw_heat_model *model)
{
    *opt = sw_burn_options_defaults();
    *model = sw_heat_model_defaults();
    sw_status worst = SW_OK;
    for (size_t i = 0; i < request->condition_count; i++) {
        size_t rows = 0;
        bool known = false;
        const char *setting = request->conditions[i];
        const sw_option *table = sw_burn_option_table(&rows);
        sw_status status = sw_options_set(run, table, rows, opt, setting, &known);
        table = sw_heat_model_table(&rows);
        if (!known) status = sw_options_set(run, table, rows, model, setting, &known);
        if (!known) status = unknown_condition(run, setting);
        if (status != SW_OK) worst = status;
    }
    return worst;
}

static void print_table(sw_writer *out, const sw_option *table, size_t count)
{
    for (size_t i = 0; i < count; i++)
        sw_print(out, "  %-18s %8g %-8s %g to %g: %s\n", table[i].name, table[i].fallback, table[i].unit, table[i].low,
                 table[i].high, table[i].meaning);
}

void sw_print_conditions(sw_writer *out)
{
    size_t count = 0;
    const sw_option *table = sw_burn_option_table(&count);
    sw_print(out, "\nConditions (--with NAME=VALUE), with what holds unless given:\n");
    print_table(out, table, count);
    table = sw_heat_model_table(&count);
    sw_print(out, "Constants of the heat model, which a hot test may correct:\n");
    print_table(out, table, count);
}
