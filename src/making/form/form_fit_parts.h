/* form_fit_parts.h: what the files that fit trials share. For this folder only. */
#ifndef SW_MAKING_FORM_FORM_FIT_PARTS_H
#define SW_MAKING_FORM_FORM_FIT_PARTS_H

#include "making/form/form.h"

typedef struct fit_sample { /* y = value x + error of standard deviation sigma */
    double x, y, sigma;
    bool out;
    sw_place place;
} fit_sample;

typedef struct fit_line {
    double value, plus_minus; /* 95 % */
    size_t used, left_out;
    double chi_square, chi_limit;
    bool contradict;
} fit_line;

/* Weighted least squares through the origin; one outlier after another (Grubbs, 1 %) is left out, marked in the samples.
 * value NAN below two samples. */
fit_line fit_through_origin(fit_sample *samples, size_t count);

typedef struct fit_case {         /* texts of a group's findings */
    const char *where, *what_one; /* "S235 4 mm on the 40 die", "strip" */
    sw_place place;
} fit_case;
sw_status form_fit_findings(sw_run *run, const fit_case *c, const fit_line *line, const fit_sample *samples,
                            size_t count, sw_findings *findings);
bool fit_same_grade(const sw_grade *a, const sw_grade *b);
sw_status fit_rolls(sw_run *run, const sw_works *works, sw_form_fit_result *fit);

#endif
