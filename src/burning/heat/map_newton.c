/* map_newton.c: steps until no node is left with more heat than allowed and the whole is closed. */
#include "burning/heat/map_parts.h"

#include <math.h>

enum { ROUNDS = 40, HALVINGS = 5 };
static const double step_most_k = 150, coldest_k = 150, hottest_k = 3300;
static const double inner_share = 0.05; /* of the residual, left by a step's own solution */

static void measure(const map_system *sys, map_settled *s)
{
    s->left_w = s->worst_w = 0.0;
    for (size_t i = 0; i < sys->unknowns; i++) {
        s->left_w += fabs(sys->R[i]);
        if (!(fabs(sys->R[i]) <= fabs(s->worst_w))) s->worst_w = sys->R[i], s->worst = i;
    }
}

static void go(map_system *sys, const double *from, const double *step, double share)
{
    for (size_t i = 0; i < sys->unknowns; i++) {
        if (i < sys->nodes && sys->held != NULL && sys->held[i]) continue;
        double by = net_held(share * step[i], -step_most_k, step_most_k);
        sys->x[i] = net_held(from[i] + by, coldest_k, hottest_k);
    }
}

/* The last try stands. */
static void walk(map_system *sys, const double *from, const double *step, map_settled *s)
{
    double before_w = s->left_w;
    for (int i = 0; i < HALVINGS; i++) {
        go(sys, from, step, ldexp(1.0, -i));
        map_flux(sys);
        measure(sys, s);
        if (s->left_w < before_w) break;
    }
}

static sw_status rounds(sw_run *run, map_system *sys, map_matrix *m, double enough_w, map_settled *s)
{
    map_krylov k = {0};
    double *step = SW_SCRATCH(run, sys->unknowns, double), *from = SW_SCRATCH(run, sys->unknowns, double);
    SW_TRY(map_krylov_room(run, sys, &k));
    if (step == NULL || from == NULL) return SW_NO_MEMORY;
    map_flux(sys);
    measure(sys, s);
    while (!(s->left_w <= enough_w) && s->rounds < ROUNDS && isfinite(s->left_w)) {
        if (sw_run_cancelled(run)) return SW_CANCELLED;
        SW_TRY(map_matrix_renew(run, m, sys));
        map_krylov_solve(&k, m, sys, inner_share, step);
        for (size_t i = 0; i < sys->unknowns; i++) from[i] = sys->x[i];
        walk(sys, from, step, s);
        s->rounds++;
        s->inner += k.rounds;
    }
    return SW_OK;
}

sw_status map_newton(sw_run *run, map_system *sys, double enough_w, map_settled *settled)
{
    map_matrix *m = NULL;
    *settled = (map_settled){0};
    SW_TRY(map_matrix_open(run, sys, &m));
    sw_status status = rounds(run, sys, m, enough_w, settled);
    map_matrix_close(m);
    return status;
}
