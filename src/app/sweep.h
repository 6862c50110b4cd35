/* sweep.h: parameters and conditions varied over a grid, chosen results tabulated. For command_sweep.c and its bench. */
#ifndef SW_APP_SWEEP_H
#define SW_APP_SWEEP_H

#include "app/app.h"

enum { SW_SWEEP_AXES = 6, SW_SWEEP_QUANTITIES = 16 };

typedef struct sw_sweep_axis { /* name=a:b:n */
    const char *name, *unit;   /* unit as written behind the numbers, "" = none */
    double from, to;
    size_t count;
    bool condition; /* of the fire (--with); else a parameter of the stove */
} sw_sweep_axis;

typedef struct sw_quantity {
    const char *name, *unit, *meaning;
    unsigned work; /* sw_work besides heft that it comes from; SW_DO_LINE and the like need a works */
    double (*of)(const sw_dossier *d); /* NAN where it was not computed */
} sw_quantity;
size_t sw_quantity_count(void);
const sw_quantity *sw_quantity_at(size_t i);

typedef struct sw_sweep {
    const sw_request *request;
    sw_sweep_axis axes[SW_SWEEP_AXES]; /* parameters first, then conditions: the geometry changes least often */
    size_t axis_count;
    const sw_quantity *quantities[SW_SWEEP_QUANTITIES];
    size_t quantity_count;
    size_t designs;
    unsigned work; /* what all quantities together come from */
} sw_sweep;

/* Reads --vary and --report; SW_BAD_INPUT records every fault. */
sw_status sw_sweep_read(sw_run *run, const sw_request *request, sw_sweep *sweep);
double sw_sweep_value(const sw_sweep *sweep, size_t axis, size_t design);
/* values [designs * quantity_count]; a design that cannot be computed gives NANs and counts in *failed; *why: the first
 * one's reason. On as many threads as the request says; the same values on any number of them. */
sw_status sw_sweep_solve(sw_run *run, const sw_sweep *sweep, double *values, size_t *failed, const char **why);

typedef struct sw_sweep_surface {    /* sweep_between.c */
    int degree;                      /* 0: each design was computed */
    size_t computed, held;           /* designs; of them, held back to check the surface before the last fit */
    double off[SW_SWEEP_QUANTITIES]; /* by how much it missed them at most */
} sw_sweep_surface;
/* As sw_sweep_solve; of a thousand geometries and more only some are computed and the others laid between them, as far as that is
 * near enough at designs held back. With --all each is computed. */
sw_status sw_sweep_solve_between(sw_run *run, const sw_sweep *sweep, double *values, size_t *failed, const char **why,
                                 sw_sweep_surface *surface);

/* Charts of the quantities over the first axis, where the file's ending asks for a drawing: .svg, .pdf, .png. */
bool sw_sweep_is_drawn(const char *path);
sw_status sw_sweep_draw(sw_run *run, const sw_sweep *sweep, const double *values, const char *path);

#endif
