/* form_fit_line.c: a slope through the origin from a few measured samples, with its uncertainty and its misfits. */
#include "making/form/form_fit_parts.h"

#include <math.h>
#include <string.h>

static const double grubbs_significance = 0.01, chi_probability = 0.99, coverage = 0.975;

bool fit_same_grade(const sw_grade *a, const sw_grade *b)
{
    return a == b || (a != NULL && b != NULL && strcmp(a->name, b->name) == 0);
}

static double slope(const fit_sample *s, size_t n, double *weight)
{
    double xy = 0.0, xx = 0.0;
    for (size_t i = 0; i < n; i++) {
        if (s[i].out) continue;
        xy += s[i].x * s[i].y / (s[i].sigma * s[i].sigma);
        xx += s[i].x * s[i].x / (s[i].sigma * s[i].sigma);
    }
    *weight = xx;
    return xy / xx;
}

/* The sample whose own slope lies farthest from the mean of them all; its distance in standard deviations. */
static size_t farthest(const fit_sample *s, size_t n, double *grubbs)
{
    double sum = 0.0, square = 0.0, worst = -1.0;
    size_t used = 0, at = n;
    for (size_t i = 0; i < n; i++) {
        if (s[i].out) continue;
        sum += s[i].y / s[i].x;
        used++;
    }
    for (size_t i = 0; i < n; i++) {
        double off = fabs(s[i].y / s[i].x - sum / (double)used);
        if (s[i].out) continue;
        square += off * off;
        if (off > worst) {
            worst = off;
            at = i;
        }
    }
    double deviation = sqrt(square / (double)(used - 1));
    *grubbs = deviation > 0.0 ? worst / deviation : 0.0;
    return at;
}

static size_t count_used(const fit_sample *s, size_t n)
{
    size_t used = 0;
    for (size_t i = 0; i < n; i++) used += !s[i].out;
    return used;
}

static double chi_square(const fit_sample *s, size_t n, double value)
{
    double sum = 0.0;
    for (size_t i = 0; i < n; i++) {
        double off = (s[i].y - value * s[i].x) / s[i].sigma;
        if (!s[i].out) sum += off * off;
    }
    return sum;
}

/* Leaves out what Grubbs rejects, as long as the samples scatter more than their measuring explains. */
static void leave_out(fit_sample *s, size_t n)
{
    for (size_t used = count_used(s, n); used >= 3; used--) {
        double weight, grubbs, value = slope(s, n, &weight);
        size_t at = farthest(s, n, &grubbs);
        bool scatter = chi_square(s, n, value) > sw_chi_square_quantile(chi_probability, (double)(used - 1));
        if (!scatter || grubbs < sw_grubbs_limit(used, grubbs_significance) * (1.0 - 1e-3)) return;
        s[at].out = true;
    }
}

fit_line fit_through_origin(fit_sample *samples, size_t count)
{
    fit_line line = {.value = NAN, .plus_minus = NAN, .chi_square = NAN, .chi_limit = NAN};
    leave_out(samples, count);
    line.used = count_used(samples, count);
    line.left_out = count - line.used;
    if (line.used < 2) return line;
    double weight;
    line.value = slope(samples, count, &weight);
    line.chi_square = chi_square(samples, count, line.value);
    line.chi_limit = sw_chi_square_quantile(chi_probability, (double)(line.used - 1));
    line.contradict = line.chi_square > line.chi_limit;
    double scatter = fmax(1.0, sqrt(line.chi_square / (double)(line.used - 1)));
    line.plus_minus = sw_student_t(coverage, line.used - 1) * scatter / sqrt(weight);
    return line;
}

/* ---- findings ---- */

static sw_finding blank(const fit_case *c, const char *check)
{
    sw_finding f = sw_finding_of("form", check, c->where, c->place);
    f.verdict = SW_FAILS;
    return f;
}

static sw_status too_few(sw_run *run, const fit_case *c, const fit_line *line, sw_findings *findings)
{
    sw_finding f = blank(c, "trials_too_few");
    f.sense = SW_AT_LEAST;
    f.value = (double)line->used;
    f.limit = 2.0;
    f.unit = c->what_one;
    f.what = sw_text_format(run, run->keep, "%zu usable %s give no figure with an uncertainty; the rule stays in force",
                            line->used, c->what_one);
    f.source = "Student's distribution: no degree of freedom is left";
    f.remedy = "measure two or more, better five";
    return f.what == NULL ? SW_NO_MEMORY : sw_finding_add(run, findings, f, 0.0);
}

static sw_status outliers(sw_run *run, const fit_case *c, const fit_sample *s, size_t n, sw_findings *findings)
{
    for (size_t i = 0; i < n; i++) {
        if (!s[i].out) continue;
        sw_finding f = blank(c, "trial_outlier");
        f.verdict = SW_WATCH;
        f.place = s[i].place;
        f.what = sw_text_format(run, run->keep, "%s %zu gives %.4g, far from the others; it is left out", c->what_one,
                                i + 1, s[i].y / s[i].x);
        f.source = "Grubbs 1969, 1 % (ISO 5725-2)";
        f.remedy = "look up that measurement, or repeat it";
        if (f.what == NULL) return SW_NO_MEMORY;
        SW_TRY(sw_finding_add(run, findings, f, 0.0));
    }
    return SW_OK;
}

sw_status form_fit_findings(sw_run *run, const fit_case *c, const fit_line *line, const fit_sample *samples,
                            size_t count, sw_findings *findings)
{
    SW_TRY(outliers(run, c, samples, count, findings));
    if (line->used < 2) return too_few(run, c, line, findings);
    if (!line->contradict) return SW_OK;
    sw_finding f = blank(c, "trials_contradict");
    f.sense = SW_AT_MOST;
    f.value = line->chi_square;
    f.limit = line->chi_limit;
    f.what = sw_text_format(run, run->keep, "%zu of %s scatter more than their measuring explains; the fit is not used",
                            line->used, c->what_one);
    f.source = "chi-square test at 99 % with the measuring uncertainty";
    f.remedy = "see whether die, sheet or coil were mixed, or repeat the trials";
    return f.what == NULL ? SW_NO_MEMORY : sw_finding_add(run, findings, f, 0.0);
}
