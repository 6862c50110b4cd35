/* burn_solver.h: the dense linear solver under CVODE. For this folder only. */
#ifndef SW_BURNING_BURN_BURN_SOLVER_H
#define SW_BURNING_BURN_BURN_SOLVER_H

#include <stddef.h>
#include <sundials/sundials_linearsolver.h>

typedef struct burn_solver {
    double *a; /* [n * n] by rows */
    size_t *pivot, n;
} burn_solver;

/* Freed by SUNLinSolFreeEmpty; NULL when memory is out. */
SUNLinearSolver burn_solver_of(burn_solver *solver, SUNContext context);

#endif
