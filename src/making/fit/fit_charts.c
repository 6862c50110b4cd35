/* fit_charts.c: control charts of samples or single values, and the run rules. Limits: Montgomery ch. 6; rules: Western
 * Electric, Statistical Quality Control Handbook 1956; trend of six: Nelson, Journal of Quality Technology 1984 (all from
 * memory). */
#include "making/fit/fit.h"

#include <math.h>

enum { RANGES_MOST = 10, SIZE_MOST = 25 };

const char *sw_run_rule_text(sw_run_rule rule)
{
    static const char *const texts[SW_RUN_RULES] = {
        "a point beyond three standard deviations",
        "two of three points beyond two standard deviations on one side",
        "four of five points beyond one standard deviation on one side",
        "eight points on one side of the middle",
        "six points rising or falling",
        "a spread beyond its limit",
    };
    return texts[rule];
}

static double mean_of(const double *values, size_t count)
{
    double sum = 0;
    for (size_t i = 0; i < count; i++) sum += values[i];
    return sum / (double)count;
}

static double deviation_of(const double *values, size_t count)
{
    double mean = mean_of(values, count), sum = 0;
    for (size_t i = 0; i < count; i++) sum += (values[i] - mean) * (values[i] - mean);
    return sqrt(sum / (double)(count - 1));
}

static double range_of(const double *values, size_t count)
{
    double low = values[0], high = values[0];
    for (size_t i = 1; i < count; i++) {
        low = fmin(low, values[i]);
        high = fmax(high, values[i]);
    }
    return high - low;
}

/* ---- points and limits ---- */

static void place_points(const double *values, sw_chart *c, double *middle, double *spread)
{
    for (size_t i = 0; i < c->count; i++) {
        const double *sample = values + i * c->size;
        middle[i] = mean_of(sample, c->size);
        if (c->kind == SW_CHART_SINGLE)
            spread[i] = i == 0 ? (double)NAN : fabs(values[i] - values[i - 1]);
        else
            spread[i] = c->kind == SW_CHART_XBAR_R ? range_of(sample, c->size) : deviation_of(sample, c->size);
    }
}

static void place_limits(sw_chart *c)
{
    bool single = c->kind == SW_CHART_SINGLE, by_s = c->kind == SW_CHART_XBAR_S;
    sw_shewhart k = sw_shewhart_of(single ? 2 : c->size);
    c->mean = mean_of(c->middle, c->count);
    c->spread_mean = single ? mean_of(c->spread + 1, c->count - 1) : mean_of(c->spread, c->count);
    c->sigma = c->spread_mean / (by_s ? k.c4 : k.d2);
    double reach = 3 * c->sigma / sqrt((double)c->size);
    c->low = c->mean - reach;
    c->high = c->mean + reach;
    c->spread_low = (by_s ? k.B3 : k.D3) * c->spread_mean;
    c->spread_high = (by_s ? k.B4 : k.D4) * c->spread_mean;
}

/* ---- rules ---- */

typedef struct marks {
    sw_run *run;
    sw_chart_break *items;
    size_t count, room;
} marks;

static sw_status mark(marks *m, sw_run_rule rule, size_t point)
{
    m->items = sw_grow(m->run, m->run->keep, m->items, m->count, &m->room, sizeof *m->items);
    if (m->items == NULL) return SW_NO_MEMORY;
    m->items[m->count++] = (sw_chart_break){rule, point};
    return SW_OK;
}

/* How many of the `of` points that end at `point` lie beyond `level` standard errors on the side. */
static size_t beyond(const sw_chart *c, size_t point, size_t of, double level, double side)
{
    double one = (c->high - c->mean) / 3;
    size_t count = 0;
    for (size_t i = point + 1 - of; i <= point; i++) count += side * (c->middle[i] - c->mean) > level * one ? 1 : 0;
    return count;
}

typedef struct run_rule {
    sw_run_rule rule;
    size_t of, at_least;
    double level;
} run_rule;

static bool point_beyond(const sw_chart *c, const run_rule *r, size_t i)
{
    if (i + 1 < r->of) return false;
    for (int side = -1; side <= 1; side += 2) /* the point itself is one of them */
        if (beyond(c, i, 1, r->level, side) == 1 && beyond(c, i, r->of, r->level, side) >= r->at_least) return true;
    return false;
}

static bool trend_ends(const sw_chart *c, size_t i)
{
    enum { TREND = 6 };
    if (i + 1 < TREND) return false;
    bool up = true, down = true;
    for (size_t k = i + 2 - TREND; k <= i; k++) {
        up = up && c->middle[k] > c->middle[k - 1];
        down = down && c->middle[k] < c->middle[k - 1];
    }
    return up || down;
}

static sw_status find_breaks(sw_run *run, sw_chart *c)
{
    static const run_rule rules[] = {{SW_RULE_BEYOND, 1, 1, 3},
                                     {SW_RULE_TWO_OF_THREE, 3, 2, 2},
                                     {SW_RULE_FOUR_OF_FIVE, 5, 4, 1},
                                     {SW_RULE_EIGHT, 8, 8, 0}};
    marks m = {.run = run};
    for (size_t i = 0; i < c->count; i++) {
        for (size_t r = 0; r < sizeof rules / sizeof *rules; r++)
            if (point_beyond(c, &rules[r], i)) SW_TRY(mark(&m, rules[r].rule, i));
        if (trend_ends(c, i)) SW_TRY(mark(&m, SW_RULE_TREND, i));
        if (c->spread[i] > c->spread_high || c->spread[i] < c->spread_low) SW_TRY(mark(&m, SW_RULE_SPREAD, i));
    }
    c->breaks = m.items;
    c->break_count = m.count;
    return SW_OK;
}

sw_status sw_chart_make(sw_run *run, const double *values, size_t samples, size_t size, bool by_s, sw_chart *chart)
{
    *chart = (sw_chart){.size = size, .count = samples};
    if (size < 1 || size > SIZE_MOST || samples < (size == 1 ? 3 : 2))
        return sw_fail(
            run, SW_OUT_OF_RANGE, (sw_place){0}, "chart",
            "%zu samples of %zu values make no control chart; give at least 2 samples of 2 to %d, or 3 single "
            "values",
            samples, size, SIZE_MOST);
    double *middle = SW_KEEP(run, samples, double), *spread = SW_KEEP(run, samples, double);
    if (middle == NULL || spread == NULL) return SW_NO_MEMORY;
    chart->kind = size == 1 ? SW_CHART_SINGLE : by_s || size > RANGES_MOST ? SW_CHART_XBAR_S : SW_CHART_XBAR_R;
    chart->middle = middle;
    chart->spread = spread;
    place_points(values, chart, middle, spread);
    place_limits(chart);
    chart->overall = deviation_of(values, samples * size);
    return find_breaks(run, chart);
}
