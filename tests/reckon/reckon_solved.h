/* reckon_solved.h: one formula by name, as the tests of this folder ask for it. */
#ifndef TESTS_RECKON_RECKON_SOLVED_H
#define TESTS_RECKON_RECKON_SOLVED_H

#include "reckon/reckon.h"
#include "sw_test.h"

#include <math.h>

/* Outputs of the formula, NAN beyond those it has; overwritten by the next call. */
static const double *solved(sw_test *t, const char *name, const char *const *settings, size_t count)
{
    static double out[SW_RECKON_OUTPUTS];
    double in[SW_RECKON_INPUTS];
    const sw_reckon *r = sw_reckon_find(name);
    for (size_t i = 0; i < SW_RECKON_OUTPUTS; i++) out[i] = NAN;
    if (sw_true(t, r != NULL)) sw_ok(t, sw_reckon_solve(&t->run, r, settings, count, in, out));
    return out;
}

#define SOLVED(t, name, ...)                                                                                           \
    solved(t, name, (const char *const[]){__VA_ARGS__}, sizeof((const char *const[]){__VA_ARGS__}) / sizeof(char *))

#endif
