/* conditions.c: --with NAME=VALUE: the options of the burn and the constants of the heat model, by their tables; those of the
 * workshop's studies are in shop_options.c. */
#include "app/app.h"

#include <string.h>

enum { NAMES_MAX = 64 };

static const sw_option house_table[] = {
    SW_OPTION(sw_house_conditions, wind_pa, "Pa", 0, 0, 200, "wind on the outlet, for operating table and map",
              "the question asked"),
    SW_OPTION(sw_house_conditions, wind_m_s, "m/s", 0, 0, 50,
              "the same as its speed: presses rho v2/2 where the house's wind is inland or coast, not where it is free",
              "the question asked"),
    SW_OPTION(sw_house_conditions, supply_pa, "Pa", 0, 0, 50,
              "what the air costs on its way in, P_B; 0 = computed from the room, or 4 where it is not described",
              "EN 13384-1 cl. 5.11.4 (from memory)"),
};
enum { HOUSE_ROWS = sizeof house_table / sizeof *house_table };

static sw_status unknown_condition(sw_run *run, const char *setting)
{
    const char *names[NAMES_MAX];
    size_t count = 0, rows = 0;
    const sw_option *burn = sw_burn_option_table(&rows);
    for (size_t i = 0; i < rows && count < NAMES_MAX; i++) names[count++] = burn[i].name;
    const sw_option *heat = sw_heat_model_table(&rows);
    for (size_t i = 0; i < rows && count < NAMES_MAX; i++) names[count++] = heat[i].name;
    for (size_t i = 0; i < HOUSE_ROWS && count < NAMES_MAX; i++) names[count++] = house_table[i].name;
    const char *equals = strchr(setting, '=');
    const char *name = sw_text_format(run, run->scratch, "%.*s", (int)(equals - setting), setting);
    const char *shop = name == NULL ? NULL : sw_shop_option_like(run, name);
    bool exact = shop != NULL && strcmp(strchr(shop, '.') + 1, name) == 0; /* its study is missing */
    const char *near = exact || name == NULL ? shop : sw_text_nearest(name, names, count);
    if (near == NULL) near = shop;
    if (near != NULL)
        return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "--with", "%s is no condition; did you mean %s?", name, near);
    return sw_fail(
        run, SW_BAD_INPUT, (sw_place){0}, "--with",
        "%s is no condition; stovewright heat --help lists them, check --help where the options of the workshop are",
        name == NULL ? setting : name);
}

static bool takes_a_house(const char *command)
{
    static const char *const commands[] = {"flue", "site", "check", "make", "trial", "serve"};
    for (size_t i = 0; command != NULL && i < sizeof commands / sizeof *commands; i++)
        if (strcmp(command, commands[i]) == 0) return true;
    return command == NULL;
}

/* Its value is checked here and read again where the house is reckoned. */
static sw_status house_condition(sw_run *run, const sw_request *request, const char *setting, bool *known)
{
    sw_house_conditions tried = {.made_by_defaults = SW_DEFAULTS_MARK};
    sw_status status = sw_options_set(run, house_table, HOUSE_ROWS, &tried, setting, known);
    if (!*known || status != SW_OK || request->house != NULL || request->house_text != NULL) return status;
    if (!takes_a_house(request->command)) return SW_OK; /* told where it belongs instead */
    return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "--with", "%s is a condition of a house; add --house FILE",
                   setting);
}

sw_house_conditions sw_house_conditions_of(sw_run *run, const sw_request *request)
{
    sw_house_conditions of = {.made_by_defaults = SW_DEFAULTS_MARK};
    sw_options_fill(house_table, HOUSE_ROWS, &of);
    for (size_t i = 0; i < request->condition_count; i++) {
        bool known = false;
        (void)sw_options_set(run, house_table, HOUSE_ROWS, &of, request->conditions[i], &known);
    }
    return of;
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
        if (!known) status = house_condition(run, request, setting, &known);
        if (!known) status = sw_shop_option_check(run, setting, &known);
        if (!known) status = unknown_condition(run, setting);
        if (status != SW_OK) worst = status;
    }
    return worst;
}

sw_status sw_conditions_check(sw_run *run, const sw_request *request)
{
    sw_burn_options options;
    sw_heat_model model;
    return sw_burn_conditions(run, request, &options, &model);
}

/* ---- heeded -------------------------------------------------------------------------------------------------------- */

static bool names(const sw_option *table, size_t count, const char *name)
{
    for (size_t i = 0; i < count; i++)
        if (strcmp(table[i].name, name) == 0) return true;
    return false;
}

bool sw_is_condition(const char *name)
{
    size_t burn = 0, heat = 0;
    const sw_option *burn_table = sw_burn_option_table(&burn), *heat_table = sw_heat_model_table(&heat);
    return names(burn_table, burn, name) || names(heat_table, heat, name);
}

/* A setting that is known. */
static sw_status heeded(sw_run *run, const sw_request *request, const char *setting, unsigned work)
{
    const char *page = "", *name = sw_text_format(run, run->scratch, "%.*s", (int)strcspn(setting, "="), setting);
    if (name == NULL) return SW_NO_MEMORY;
    unsigned of = sw_shop_option_work(setting, &page);
    if (of == 0) of = sw_is_condition(name) ? SW_DO_BURN : SW_DO_HOUSE;
    if ((of & work) != 0) return SW_OK;
    if (of == SW_DO_BURN) page = "fire, air, heat, coat, flue, site";
    if (of == SW_DO_HOUSE) page = "flue, site";
    return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "--with",
                   "%s changes nothing in what `%s` computes; leave it out, or give it to %s%smake", name,
                   request->command, page, strcmp(page, "check") == 0 ? " or " : ", check or ");
}

sw_status sw_conditions_heeded(sw_run *run, const sw_request *request, unsigned work)
{
    sw_status worst = sw_conditions_check(run, request);
    for (size_t i = 0; worst == SW_OK && i < request->condition_count; i++)
        worst = heeded(run, request, request->conditions[i], work);
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

void sw_print_house_conditions(sw_writer *out)
{
    sw_print(out, "\nConditions of the house (--with NAME=VALUE), beside those of the fire (`heat --help`):\n");
    print_table(out, house_table, HOUSE_ROWS);
}
