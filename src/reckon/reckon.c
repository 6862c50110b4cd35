#include "reckon/reckon.h"

#include "reckon/reckon_parts.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

typedef struct chapter {
    const sw_reckon *(*rows)(size_t *count);
} chapter;

static const chapter chapters[] = {
    {sw_reckon_bending},    {sw_reckon_cutting},   {sw_reckon_form},     {sw_reckon_join},     {sw_reckon_fit},
    {sw_reckon_stock},      {sw_reckon_radiation}, {sw_reckon_gas},      {sw_reckon_material}, {sw_reckon_convection},
    {sw_reckon_conduction}, {sw_reckon_fire},      {sw_reckon_air},      {sw_reckon_site},     {sw_reckon_flue},
    {sw_reckon_lifting},    {sw_reckon_coat},      {sw_reckon_fittings}, {sw_reckon_line},     {sw_reckon_trial}};
enum { CHAPTERS = sizeof chapters / sizeof *chapters };

size_t sw_reckon_count(void)
{
    size_t total = 0;
    for (size_t i = 0; i < CHAPTERS; i++) {
        size_t count = 0;
        (void)chapters[i].rows(&count);
        total += count;
    }
    return total;
}

const sw_reckon *sw_reckon_at(size_t i)
{
    for (size_t k = 0; k < CHAPTERS; k++) {
        size_t count = 0;
        const sw_reckon *rows = chapters[k].rows(&count);
        if (i < count) return &rows[i];
        i -= count;
    }
    return NULL;
}

const sw_reckon *sw_reckon_find(const char *name)
{
    size_t count = sw_reckon_count();
    for (size_t i = 0; i < count; i++)
        if (strcmp(sw_reckon_at(i)->name, name) == 0) return sw_reckon_at(i);
    return NULL;
}

size_t sw_reckon_input_count(const sw_reckon *r)
{
    size_t n = 0;
    while (n < SW_RECKON_INPUTS && r->inputs[n].name != NULL) n++;
    return n;
}

size_t sw_reckon_output_count(const sw_reckon *r)
{
    size_t n = 0;
    while (n < SW_RECKON_OUTPUTS && r->outputs[n].name != NULL) n++;
    return n;
}

static int input_index(const sw_reckon *r, const char *name, size_t length)
{
    for (size_t i = 0; i < sw_reckon_input_count(r); i++)
        if (strlen(r->inputs[i].name) == length && strncmp(r->inputs[i].name, name, length) == 0) return (int)i;
    return -1;
}

static sw_status unknown_input(sw_run *run, const sw_reckon *r, const char *setting, size_t length)
{
    const char *names[SW_RECKON_INPUTS];
    size_t count = sw_reckon_input_count(r);
    for (size_t i = 0; i < count; i++) names[i] = r->inputs[i].name;
    char name[64] = "";
    memcpy(name, setting, length < sizeof name ? length : sizeof name - 1);
    const char *near = sw_text_nearest(name, names, count);
    if (near != NULL)
        return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, r->name, "\"%s\" is not known; did you mean %s?", name, near);
    return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, r->name, "\"%s\" is not known; see stovewright reckon %s --help",
                   name, r->name);
}

/* One "name=number[unit]" into in[]; given[] tells what was there already. */
static sw_status read_setting(sw_run *run, const sw_reckon *r, const char *setting, double *in, bool *given)
{
    const char *equals = strchr(setting, '=');
    if (equals == NULL)
        return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, r->name, "\"%s\" is not of the form name=number", setting);
    int i = input_index(r, setting, (size_t)(equals - setting));
    if (i < 0) return unknown_input(run, r, setting, (size_t)(equals - setting));
    const sw_reckon_input *input = &r->inputs[i];
    char *end = NULL;
    double value = strtod(equals + 1, &end);
    if (end == equals + 1 || isnan(value))
        return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, input->name, "\"%s\" is no number", equals + 1);
    if (*end != '\0' && strcmp(end, input->unit) != 0)
        return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, input->name, "unit \"%s\" does not fit; give the number in %s",
                       end, input->unit[0] == '\0' ? "no unit" : input->unit);
    if (given[i]) return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, input->name, "is given twice");
    given[i] = true;
    in[i] = value;
    return SW_OK;
}

static sw_status check_inputs(sw_run *run, const sw_reckon *r, const double *in)
{
    sw_status status = SW_OK;
    for (size_t i = 0; i < sw_reckon_input_count(r); i++) {
        const sw_reckon_input *input = &r->inputs[i];
        if (isnan(in[i]))
            status = sw_fail(run, SW_BAD_INPUT, (sw_place){0}, input->name, "is missing: %s, in %s", input->meaning,
                             input->unit[0] == '\0' ? "no unit" : input->unit);
        else if (in[i] < input->low || in[i] > input->high)
            status = sw_fail(run, SW_OUT_OF_RANGE, (sw_place){0}, input->name, "%g %s is outside %g to %g (%s)", in[i],
                             input->unit, input->low, input->high, input->meaning);
    }
    return status;
}

sw_status sw_reckon_solve(sw_run *run, const sw_reckon *r, const char *const *settings, size_t count, double *in,
                          double *out)
{
    bool given[SW_RECKON_INPUTS] = {false};
    size_t before = run->error_count;
    for (size_t i = 0; i < sw_reckon_input_count(r); i++) in[i] = r->inputs[i].preset;
    for (size_t i = 0; i < count; i++) (void)read_setting(run, r, settings[i], in, given);
    if (run->error_count > before) return SW_BAD_INPUT;
    SW_TRY(check_inputs(run, r, in));
    r->solve(in, out);
    return SW_OK;
}
