/* shop_options.c: --with STUDY.NAME=VALUE: the options of the workshop's studies, by their tables. */
#include "app/app.h"

#include <string.h>

typedef struct shop_table {
    const char *study;
    const char *page; /* the command whose --help lists them; fittings have no command */
    unsigned work;    /* the sw_work that heeds them */
    const sw_option *(*rows)(size_t *count);
} shop_table;

static const shop_table tables[] = {
    {"form", "form", SW_DO_FORM, sw_form_option_table}, {"join", "join", SW_DO_JOIN, sw_join_option_table},
    {"fit", "fit", SW_DO_FIT, sw_fit_option_table},     {"lift", "heft", SW_DO_LIFT, sw_lift_option_table},
    {"coat", "coat", SW_DO_COAT, sw_coat_option_table}, {"fittings", "check", SW_DO_FITTINGS, sw_fittings_option_table},
    {"line", "line", SW_DO_LINE, sw_line_option_table},
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

/* Of "study.name=value"; NULL when it names no study. */
static const shop_table *table_of(const char *setting)
{
    size_t length = strcspn(setting, "=.");
    return setting[length] == '.' ? find_table(setting, length) : NULL;
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

/* ---- asked --------------------------------------------------------------------------------------------------------- */

sw_status sw_shop_options(sw_run *run, const sw_request *request, const char *study, void *options)
{
    size_t count = 0;
    sw_status worst = SW_OK;
    const sw_option *rows = named_rows(run, find_table(study, strlen(study)), &count);
    if (rows == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < request->condition_count; i++) {
        bool known = false;
        sw_status status = sw_options_set(run, rows, count, options, request->conditions[i], &known);
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

/* The nearest of the study's options, or where they are listed. The study's name is no part of the likeness: it is right. */
static sw_status unknown_option(sw_run *run, const shop_table *of, const char *setting)
{
    size_t count = 0, before = strlen(of->study) + 1;
    const sw_option *rows = of->rows(&count);
    const char *name = sw_text_format(run, run->scratch, "%.*s", (int)strcspn(setting, "="), setting);
    const char **names = SW_SCRATCH(run, count, const char *);
    if (name == NULL || names == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < count; i++) names[i] = rows[i].name;
    const char *near = sw_text_nearest(name + before, names, count);
    if (near != NULL)
        return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "--with", "%s is no option; did you mean %s.%s?", name,
                       of->study, near);
    return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "--with",
                   "%s is no option; stovewright %s --help lists those of %s", name, of->page, of->study);
}

sw_status sw_shop_option_check(sw_run *run, const char *setting, bool *known)
{
    const shop_table *of = table_of(setting);
    shop_any any;
    size_t count = 0;
    bool found = false;
    if (of == NULL) return SW_OK;
    *known = true;
    const sw_option *rows = named_rows(run, of, &count);
    if (rows == NULL) return SW_NO_MEMORY;
    sw_status status = sw_options_set(run, rows, count, &any, setting, &found);
    return found || status != SW_OK ? status : unknown_option(run, of, setting);
}

unsigned sw_shop_option_work(const char *setting, const char **page)
{
    const shop_table *of = table_of(setting);
    *page = of == NULL ? "" : of->page;
    return of == NULL ? 0 : of->work;
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

static void print_table(sw_writer *out, const shop_table *of)
{
    size_t count = 0;
    const sw_option *rows = of->rows(&count);
    sw_print(out, "\nOptions of the study (--with %s.NAME=VALUE), with what holds unless given:\n", of->study);
    for (size_t i = 0; i < count; i++)
        sw_print(out, "  %s.%-*s %8g %-8s %g to %g: %s (%s)\n", of->study, (int)(26 - strlen(of->study)), rows[i].name,
                 rows[i].fallback, rows[i].unit, rows[i].low, rows[i].high, rows[i].meaning, rows[i].source);
}

static void print_pages(sw_writer *out)
{
    sw_print(out, "\nOptions of the workshop's studies (--with STUDY.NAME=VALUE) are listed by");
    for (size_t i = 0; i < TABLES; i++)
        sw_print(out, "%s %s --help (%s)", i == 0 ? "" : ",", tables[i].page, tables[i].study);
    sw_print(out, ".\n");
}

void sw_print_shop_options(sw_writer *out, const char *command)
{
    for (size_t i = 0; i < TABLES; i++)
        if (strcmp(tables[i].page, command) == 0) print_table(out, &tables[i]);
    if (strcmp(command, "check") == 0 || strcmp(command, "make") == 0) print_pages(out);
}
