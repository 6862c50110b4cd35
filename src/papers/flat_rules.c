/* flat_rules.c: where the bends' allowances come from. Few rules serve many bends, and their names can be long: they
 * stand whole below the table; a table whose bends follow several names them by number. */
#include "papers/doc_parts.h"
#include "papers/flat_parts.h"

#include <string.h>

#define TEXT_MM 1.9

static size_t known(const flat_sheet *f, const char *rule)
{
    size_t i = 0;
    while (i < f->rule_count && strcmp(f->rules[i], rule) != 0) i++;
    return i;
}

sw_status flat_rules(sw_run *run, flat_sheet *f)
{
    const sw_flat *flat = &f->piece->flat;
    size_t *rule_of = SW_SCRATCH(run, flat->bend_count + 1, size_t);
    f->rules = SW_SCRATCH(run, flat->bend_count + 1, const char *);
    f->rule_of = rule_of;
    if (rule_of == NULL || f->rules == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < flat->bend_count; i++) {
        size_t rule = known(f, flat->bends[i].rule);
        if (rule == f->rule_count) f->rules[f->rule_count++] = flat->bends[i].rule;
        rule_of[i] = rule;
    }
    return SW_OK;
}

static double lead_mm(const flat_sheet *f) /* room for "rule 2" */
{
    return f->rule_count > 1 ? 11.0 : 8.0;
}

static doc_measure measure(const flat_sheet *f, double width_mm)
{
    return (doc_measure){TEXT_MM, width_mm - lead_mm(f) - 1.0, false};
}

static size_t line_length(const flat_sheet *f, double width_mm, const char *text)
{
    return doc_first_line(f->desk->letters, measure(f, width_mm), text);
}

size_t flat_rule_lines(const flat_sheet *f, double width_mm)
{
    size_t lines = 0;
    for (size_t i = 0; i < f->rule_count; i++) {
        const char *text = f->rules[i];
        do {
            text += line_length(f, width_mm, text);
            text += strspn(text, " ");
            lines++;
        } while (*text != '\0');
    }
    return lines;
}

sw_status flat_rule_write(sw_run *run, flat_sheet *f, size_t rule, sw_box box, double *y_mm)
{
    const char *text = f->rules[rule];
    const char *lead = f->rule_count > 1 ? sw_text_format(run, run->scratch, "rule %zu", rule + 1) : "rule";
    if (lead == NULL) return SW_NO_MEMORY;
    pen_write(f->pen, (sw_point){box.x0_mm + 1.0, *y_mm + 3.1}, look_type_grey(TEXT_MM, SW_LEFT), lead);
    do {
        size_t n = line_length(f, box.x1_mm - box.x0_mm, text);
        const char *line = sw_text_format(run, run->scratch, "%.*s", (int)n, text);
        if (line == NULL) return SW_NO_MEMORY;
        pen_write(f->pen, (sw_point){box.x0_mm + 1.0 + lead_mm(f), *y_mm + 3.1}, look_type(TEXT_MM, SW_LEFT), line);
        *y_mm += FLAT_ROW_MM;
        text += n;
        text += strspn(text, " ");
    } while (*text != '\0');
    return SW_OK;
}
