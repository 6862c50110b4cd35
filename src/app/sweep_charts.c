/* sweep_charts.c: what a sweep found as charts: each quantity over the first axis, a line a value of the second. Further axes
 * stand at their first value. */
#include "app/sweep.h"

#include <string.h>

bool sw_sweep_is_drawn(const char *path)
{
    static const char *const endings[] = {".svg", ".pdf", ".png"};
    for (size_t i = 0; i < sizeof endings / sizeof *endings; i++)
        if (sw_text_ends_with(path, endings[i])) return true;
    return false;
}

typedef struct chart_job {
    const sw_sweep *s;
    const double *values;
    size_t lines, points; /* of a chart; values of the second and the first axis */
} chart_job;

/* Designs from one value of the axis to the next. */
static size_t stride_of(const sw_sweep *s, size_t axis)
{
    size_t n = 1;
    for (size_t i = axis + 1; i < s->axis_count; i++) n *= s->axes[i].count;
    return n;
}

/* Of more values than can be told apart, some evenly from first to last. */
static size_t design_of(const chart_job *job, size_t line, size_t point)
{
    size_t at = point * stride_of(job->s, 0);
    if (job->s->axis_count < 2) return at;
    size_t values = job->s->axes[1].count;
    size_t value = job->lines < 2 ? 0 : (line * (values - 1) + (job->lines - 1) / 2) / (job->lines - 1);
    return at + value * stride_of(job->s, 1);
}

static const char *setting(sw_run *run, const sw_sweep *s, size_t axis, size_t design)
{
    const sw_sweep_axis *a = &s->axes[axis];
    return sw_text_format(run, run->keep, "%s %.6g%s%s", a->name, sw_sweep_value(s, axis, design),
                          a->unit[0] == '\0' ? "" : " ", a->unit);
}

static sw_status lines_of(sw_run *run, const chart_job *job, size_t quantity, sw_chart_line *lines)
{
    const sw_sweep *s = job->s;
    for (size_t k = 0; k < job->lines; k++) {
        double *x = SW_KEEP(run, job->points, double), *y = SW_KEEP(run, job->points, double);
        const char *name = s->axis_count < 2 ? "" : setting(run, s, 1, design_of(job, k, 0));
        if (x == NULL || y == NULL || name == NULL) return SW_NO_MEMORY;
        for (size_t i = 0; i < job->points; i++) {
            size_t design = design_of(job, k, i);
            x[i] = sw_sweep_value(s, 0, design);
            y[i] = job->values[design * s->quantity_count + quantity];
        }
        lines[k] = (sw_chart_line){name, x, y, job->points};
    }
    return SW_OK;
}

static const char *with_unit(sw_run *run, const char *name, const char *unit)
{
    return unit[0] == '\0' ? name : sw_text_format(run, run->keep, "%s, %s", name, unit);
}

static sw_status charts_of(sw_run *run, const chart_job *job, sw_line_chart *charts)
{
    const sw_sweep *s = job->s;
    const char *x_name = with_unit(run, s->axes[0].name, s->axes[0].unit);
    for (size_t q = 0; q < s->quantity_count; q++) {
        sw_chart_line *lines = SW_KEEP(run, job->lines, sw_chart_line);
        const char *unit = strcmp(s->quantities[q]->unit, "degC") == 0 ? "\xc2\xb0"
                                                                         "C"
                                                                       : s->quantities[q]->unit;
        const char *title = sw_text_format(run, run->keep, "%s: %s", s->quantities[q]->name, s->quantities[q]->meaning);
        if (lines == NULL || x_name == NULL || title == NULL) return SW_NO_MEMORY;
        SW_TRY(lines_of(run, job, q, lines));
        charts[q] = (sw_line_chart){title, x_name, unit, lines, job->lines};
    }
    return SW_OK;
}

/* "demo/a.stove.lua; draught_pa 8; 6 of 20 values of lining" */
static sw_status title_of(sw_run *run, const chart_job *job, const char **title)
{
    const sw_sweep *s = job->s;
    *title = s->request->words[0];
    if (s->axis_count > 1 && job->lines < s->axes[1].count) {
        *title = sw_text_format(run, run->keep, "%s; %zu of %zu values of %s", *title, job->lines, s->axes[1].count,
                                s->axes[1].name);
        if (*title == NULL) return SW_NO_MEMORY;
    }
    for (size_t i = 2; i < s->axis_count; i++) {
        const char *text = setting(run, s, i, 0);
        if (text == NULL) return SW_NO_MEMORY;
        *title = sw_text_format(run, run->keep, "%s; %s", *title, text);
        if (*title == NULL) return SW_NO_MEMORY;
    }
    return SW_OK;
}

sw_status sw_sweep_draw(sw_run *run, const sw_sweep *s, const double *values, const char *path)
{
    chart_job job = {s, values, 1, s->axes[0].count};
    const char *title = NULL;
    if (s->axis_count > 1) job.lines = s->axes[1].count < SW_CHART_LINES ? s->axes[1].count : SW_CHART_LINES;
    sw_line_chart *charts = SW_KEEP(run, s->quantity_count, sw_line_chart);
    if (charts == NULL) return SW_NO_MEMORY;
    SW_TRY(charts_of(run, &job, charts));
    SW_TRY(title_of(run, &job, &title));
    return sw_paper_charts(run, title, charts, s->quantity_count, path);
}
