/* reckon.h: single handbook formulas by name, over the same functions that the studies use.
 *
 * Inputs and outputs are plain numbers in the unit beside each: what a handbook would print. NaN comes out where the
 * formula does not hold. */
#ifndef SW_RECKON_RECKON_H
#define SW_RECKON_RECKON_H

#include "base/base.h"

enum { SW_RECKON_INPUTS = 8, SW_RECKON_OUTPUTS = 6 };

typedef struct sw_reckon_input {
    const char *name, *unit, *meaning;
    double preset, low, high;
} sw_reckon_input; /* preset NAN = must be given */
typedef struct sw_reckon_output {
    const char *name, *unit, *meaning;
} sw_reckon_output;

typedef struct sw_reckon {
    const char *name, *meaning, *formula, *range, *source;
    sw_reckon_input inputs[SW_RECKON_INPUTS];     /* ends at a NULL name */
    sw_reckon_output outputs[SW_RECKON_OUTPUTS];  /* ends at a NULL name */
    void (*solve)(const double *in, double *out); /* one number an input / output */
} sw_reckon;

size_t sw_reckon_count(void);
const sw_reckon *sw_reckon_at(size_t i);
const sw_reckon *sw_reckon_find(const char *name); /* NULL = unknown */
size_t sw_reckon_input_count(const sw_reckon *r);
size_t sw_reckon_output_count(const sw_reckon *r);

/* Reads "r=4", "r=4mm" (the declared unit only) into in[]; solves into out[]. SW_BAD_INPUT records every unknown name,
 * wrong unit, missing or repeated input; SW_OUT_OF_RANGE every value outside its range. */
sw_status sw_reckon_solve(sw_run *run, const sw_reckon *r, const char *const *settings, size_t count, double *in,
                          double *out);

#endif
