/* burn_solver.c: base's elimination by rows for CVODE, four times as fast as its own by columns. */
#include "burning/burn/burn_solver.h"

#include "base/base.h"

#include <sunmatrix/sunmatrix_dense.h>

static SUNLinearSolver_Type is_direct(SUNLinearSolver solver)
{
    (void)solver;
    return SUNLINEARSOLVER_DIRECT;
}

static int factor(SUNLinearSolver solver, SUNMatrix J)
{
    burn_solver *f = solver->content;
    for (size_t j = 0; j < f->n; j++) {
        const double *column = SUNDenseMatrix_Column(J, (sunindextype)j);
        for (size_t i = 0; i < f->n; i++) f->a[i * f->n + j] = column[i];
    }
    return sw_lu(f->a, f->n, f->n, f->pivot) ? SUNLS_SUCCESS : SUNLS_LUFACT_FAIL;
}

/* NOLINTNEXTLINE(readability-non-const-parameter): CVODE calls it so */
static int back(SUNLinearSolver solver, SUNMatrix J, N_Vector x, N_Vector b, sunrealtype tolerance)
{
    (void)J, (void)tolerance;
    const burn_solver *f = solver->content;
    N_VScale(1, b, x);
    sw_lu_solve(f->a, f->n, f->n, f->pivot, N_VGetArrayPointer(x));
    return SUNLS_SUCCESS;
}

SUNLinearSolver burn_solver_of(burn_solver *solver, SUNContext context)
{
    SUNLinearSolver made = SUNLinSolNewEmpty(context);
    if (made == NULL) return NULL;
    made->content = solver;
    made->ops->gettype = is_direct;
    made->ops->setup = factor;
    made->ops->solve = back;
    return made;
}
