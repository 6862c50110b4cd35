/* shop_options.c: --with STUDY.NAME=VALUE: the options of the workshop's studies, by their tables. */
#include "app/app.h"

#include <string.h>

typedef struct shop_table {
    const char *study;
    const sw_option *(*rows)(size_t *count);
} shop_table;

static const shop_table tables[] = {
    {"form", sw_form_option_table}, {"join", sw_join_option_table}, {"fit", sw_fit_option_table},
    {"lift", sw_lift_option_table}, {"coat", sw_coat_option_table}, {"fittings", sw_fittings_option_table},
    {"line", sw_line_option_table},
};
enum { TABLES = sizeof tables / sizeof *tables, NAMES_MOST = 256 };

typedef union shop_any { /* to try a value on */
    sw_form_options form;
    sw_join_options join;
    sw_fit_options fit;
    sw_lift_options lift;
    sw_coat_options coat;
    sw_fittings_options fittings;
    sw_line_options line;
} shop_any;

static const shop_table *find_table(const char *study, size_t length)
{
    for (size_t i = 0; i < TABLES; i++)
        if (strlen(tables[i].study) == length && strncmp(tables[i].study, study, length) == 0) return &tables[i];
    return NULL;
}

/* The study's rows, each named as --with names it; NULL: no memory. In scratch. */
static const sw_option *named_rows(sw_run *run, const shop_table *of, size_t *count)
{
    const sw_option *rows = of->rows(count);
    sw_option *named = SW_SCRATCH(run, *count, sw_option);
    for (size_t i = 0; named != NULL && i < *count; i++) {
        named[i] = rows[i];
        named[i].name = sw_text_format(run, run->scratch, "%s.%s", of->study, rows[i].name);
        if (named[i].name == NULL) return NULL;
    }
    return named;
}

static sw_status set_in(sw_run *run, const shop_table *of, const char *setting, void *options, bool *known)
{
    size_t count = 0;
    const sw_option *rows = named_rows(run, of, &count);
    return rows == NULL ? SW_NO_MEMORY : sw_options_set(run, rows, count, options, setting, known);
}

/* ---- asked --------------------------------------------------------------------------------------------------------- */

sw_status sw_shop_options(sw_run *run, const sw_request *request, const char *study, void *options)
{
    const shop_table *of = find_table(study, strlen(study));
    sw_status worst = SW_OK;
    for (size_t i = 0; i < request->condition_count; i++) {
        bool known = false;
        sw_status status = set_in(run, of, request->conditions[i], options, &known);
        if (status != SW_OK) worst = status;
    }
    return worst;
}

bool sw_shop_asks(const sw_request *request, const char *name)
{
    size_t length = strlen(name);
    for (size_t i = 0; i < request->condition_count; i++)
        if (strncmp(request->conditions[i], name, length) == 0 && request->conditions[i][length] == '=') return true;
    return false;
}

/* ---- checked ------------------------------------------------------------------------------------------------------- */

static const char *name_of(sw_run *run, const char *setting)
{
    return sw_text_format(run, run->scratch, "%.*s", (int)strcspn(setting, "="), setting);
}

/* Of a known study: the nearest of its options, or where they are listed. */
static sw_status unknown_option(sw_run *run, const shop_table *of, const char *setting)
{
    size_t count = 0;
    const sw_option *rows = named_rows(run, of, &count);
    const char *name = name_of(run, setting);
    const char **names = SW_SCRATCH(run, count, const char *);
    if (rows == NULL || name == NULL || names == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < count; i++) names[i] = rows[i].name;
    const char *near = sw_text_nearest(name, names, count);
    if (near != NULL)
        return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "--with", "%s is no option; did you mean %s?", name, near);
    const char *page = strcmp(of->study, "fittings") == 0 ? "check"
                       : strcmp(of->study, "lift") == 0   ? "heft"
                                                          : of->study;
    return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "--with",
                   "%s is no option; stovewright %s --help lists those of %s", name, page, of->study);
}

sw_status sw_shop_option_check(sw_run *run, const char *setting, bool *known)
{
    size_t length = strcspn(setting, "=.");
    const shop_table *of = setting[length] == '.' ? find_table(setting, length) : NULL;
    shop_any any;
    bool found = false;
    if (of == NULL) return SW_OK;
    *known = true;
    sw_status status = set_in(run, of, setting, &any, &found);
    return found || status != SW_OK ? status : unknown_option(run, of, setting);
}

const char *sw_shop_option_like(sw_run *run, const char *name)
{
    const char *names[NAMES_MOST], *studies[NAMES_MOST];
    size_t known = 0;
    for (size_t i = 0; i < TABLES; i++) {
        size_t count = 0;
        const sw_option *rows = tables[i].rows(&count);
        for (size_t k = 0; k < count && known < NAMES_MOST; k++) {
            studies[known] = tables[i].study;
            names[known++] = rows[k].name;
        }
    }
    const char *near = sw_text_nearest(name, names, known);
    for (size_t i = 0; near != NULL && i < known; i++)
        if (names[i] == near) return sw_text_format(run, run->scratch, "%s.%s", studies[i], near);
    return NULL;
}

/* ---- listed -------------------------------------------------------------------------------------------------------- */

void sw_print_shop_options(sw_writer *out, const char *study)
{
    size_t count = 0;
    const sw_option *rows = find_table(study, strlen(study))->rows(&count);
    sw_print(out, "\nOptions of the study (--with %s.NAME=VALUE), with what holds unless given:\n", study);
    for (size_t i = 0; i < count; i++)
        sw_print(out, "  %s.%-*s %8g %-8s %g to %g: %s (%s)\n", study, (int)(26 - strlen(study)), rows[i].name,
                 rows[i].fallback, rows[i].unit, rows[i].low, rows[i].high, rows[i].meaning, rows[i].source);
}
