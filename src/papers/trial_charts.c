/* trial_charts.c: readings of a test over time: gases, temperatures, draught and mass above each other, charges marked. */
#include "papers/chart_parts.h"
#include "papers/trial_parts.h"

#include <math.h>

enum { KINDS_MOST = 2, PANELS = 8 };

typedef struct panel {
    const char *title, *unit;
    sw_trial_quantity of[KINDS_MOST];
    size_t count;
    double share; /* of the height */
    bool from_nothing;
} panel;

static const panel panels[PANELS] = {
    {"Carbon dioxide and oxygen", "%", {SW_TRIAL_CO2, SW_TRIAL_O2}, 2, 1.0, true},
    {"Carbon monoxide", "ppm", {SW_TRIAL_CO}, 1, 1.0, true},
    {"Unburnt gas", "ppm", {SW_TRIAL_OGC}, 1, 0.7, true}, /* each may be told in ppm or mg/m3n */
    {"Nitrogen oxides", "ppm", {SW_TRIAL_NOX}, 1, 0.7, true},
    {"Dust", "mg/m3n", {SW_TRIAL_PM}, 1, 0.7, true},
    {"Gas and room", CELSIUS, {SW_TRIAL_FLUE, SW_TRIAL_ROOM}, 2, 1.1, true},
    {"Draught", "Pa", {SW_TRIAL_DRAUGHT}, 1, 0.7, true},
    {"Mass on the scale", "kg", {SW_TRIAL_SCALE}, 1, 0.9, false},
};

#define PANEL_MM 38.0
#define AXIS_MM  7.0

typedef struct readings {
    sw_run *run;
    const sw_trial_result *r;
    double *marks, end_min;
    size_t mark_count;
} readings;

static bool belongs(const panel *p, sw_trial_quantity of)
{
    for (size_t i = 0; i < p->count; i++)
        if (p->of[i] == of) return true;
    return false;
}

static size_t lines_of(const sw_trial_result *r, const panel *p)
{
    size_t n = 0;
    for (size_t i = 0; i < r->series_count; i++) n += belongs(p, r->series[i].of) ? 1 : 0;
    return n;
}

double readings_height_mm(const doc_book *doc)
{
    double high_mm = AXIS_MM;
    for (size_t i = 0; i < PANELS; i++)
        if (lines_of(doc->tested->result, &panels[i]) > 0) high_mm += PANEL_MM * panels[i].share;
    return high_mm;
}

/* Where charges begin, then the end of the last. */
static sw_status mark(readings *d)
{
    const sw_trial_result *r = d->r;
    d->marks = SW_SCRATCH(d->run, r->cycle_count + 1, double);
    if (d->marks == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < r->cycle_count; i++) d->marks[d->mark_count++] = sw_min_from_s(r->cycles[i].start_s);
    if (r->cycle_count > 0) d->marks[d->mark_count++] = sw_min_from_s(r->cycles[r->cycle_count - 1].end_s);
    for (size_t i = 0; i < r->series_count; i++)
        if (r->series[i].count > 0)
            d->end_min = fmax(d->end_min, sw_min_from_s(r->series[i].time_s[r->series[i].count - 1]));
    return SW_OK;
}

static sw_status line_of(const readings *d, const sw_trial_series *s, size_t tone, chart_line *line)
{
    double *x = SW_SCRATCH(d->run, s->count + 1, double);
    if (x == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < s->count; i++) x[i] = sw_min_from_s(s->time_s[i]);
    *line = (chart_line){s->name, x, s->values, s->count, tone, false};
    return SW_OK;
}

static chart chart_of(const readings *d, const char *title, const char *unit, const chart_line *lines, size_t count)
{
    return (chart){.title = title,
                   .x_name = "minutes from the first reading",
                   .y_name = unit,
                   .lines = lines,
                   .line_count = count,
                   .x_low = 0,
                   .x_high = d->end_min,
                   .y_low = NAN,
                   .y_high = NAN,
                   .marks = d->marks,
                   .mark_count = d->mark_count};
}

static sw_status draw_panel(const readings *d, const panel *p, bool last, sw_pen *pen, sw_box box)
{
    chart_line lines[SW_CHART_LINES];
    size_t n = 0;
    const char *unit = p->unit;
    for (size_t i = 0; i < d->r->series_count && n < SW_CHART_LINES; i++) {
        if (!belongs(p, d->r->series[i].of)) continue;
        bool warm = d->r->series[i].of == SW_TRIAL_FLUE || d->r->series[i].of == SW_TRIAL_ROOM;
        unit = warm ? CELSIUS : d->r->series[i].unit;
        SW_TRY(line_of(d, &d->r->series[i], n, &lines[n]));
        n++;
    }
    chart c = chart_of(d, p->title, unit, lines, n);
    if (p->from_nothing) c.y_low = 0;
    c.last = last;
    return draw_chart(d->run, pen, box, &c);
}

static sw_status draw_panels(const readings *d, sw_pen *pen, sw_box box)
{
    double shares = 0, y = box.y0_mm;
    size_t last = 0;
    for (size_t i = 0; i < PANELS; i++)
        if (lines_of(d->r, &panels[i]) > 0) shares += panels[i].share, last = i;
    if (!(shares > 0)) return SW_OK;
    double unit_mm = (box.y1_mm - box.y0_mm - AXIS_MM) / shares;
    for (size_t i = 0; i < PANELS; i++) {
        if (lines_of(d->r, &panels[i]) == 0) continue;
        double high_mm = unit_mm * panels[i].share + (i == last ? AXIS_MM : 0);
        SW_TRY(draw_panel(d, &panels[i], i == last, pen, (sw_box){box.x0_mm, y, box.x1_mm, y + high_mm}));
        y += high_mm;
    }
    return SW_OK;
}

static sw_status draw_surfaces(const readings *d, size_t from, size_t count, sw_pen *pen, sw_box box)
{
    chart_line lines[SW_CHART_LINES];
    size_t n = 0;
    for (size_t i = from; i < from + count && n < SW_CHART_LINES; i++) {
        if (d->r->series[i].of != SW_TRIAL_SURFACE) continue;
        SW_TRY(line_of(d, &d->r->series[i], n, &lines[n]));
        n++;
    }
    chart c = chart_of(d, "Surfaces", CELSIUS, lines, n);
    c.last = true;
    return draw_chart(d->run, pen, box, &c);
}

sw_status draw_readings(sw_run *run, const doc_book *doc, size_t a, size_t b, sw_pen *pen, sw_box box)
{
    readings d = {.run = run, .r = doc->tested->result};
    SW_TRY(mark(&d));
    return b == 0 ? draw_panels(&d, pen, box) : draw_surfaces(&d, a, b, pen, box);
}
