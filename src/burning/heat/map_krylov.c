/* map_krylov.c: one step of Newton by GMRES (Saad & Schultz 1986, from memory), the factored matrix on its right side. */
#include "burning/heat/map_parts.h"

#include <math.h>
#include <string.h>

enum { MOST = 60 };

sw_status map_krylov_room(sw_run *run, const map_system *sys, map_krylov *k)
{
    size_t n = sys->unknowns;
    k->basis = SW_SCRATCH(run, (MOST + 1) * n, double);
    k->image = SW_SCRATCH(run, n, double);
    k->work = SW_SCRATCH(run, n, double);
    k->h = SW_SCRATCH(run, (MOST + 1) * MOST + 3 * (MOST + 1), double);
    return k->basis == NULL || k->image == NULL || k->work == NULL || k->h == NULL ? SW_NO_MEMORY : SW_OK;
}

static double dot(const double *a, const double *b, size_t n)
{
    double sum = 0.0;
    for (size_t i = 0; i < n; i++) sum += a[i] * b[i];
    return sum;
}

/* out = v - incoming(matrix^-1 v): what the whole derivative makes of matrix^-1 v */
static void apply(map_krylov *k, map_matrix *m, map_system *sys, const double *v, double *out)
{
    map_matrix_solve(m, v, k->image);
    map_incoming(sys, k->image, k->work);
    for (size_t i = 0; i < sys->unknowns; i++) out[i] = v[i] - k->work[i];
}

static void orthogonalise(map_krylov *k, size_t n, int j)
{
    double *w = &k->basis[(size_t)(j + 1) * n];
    for (int i = 0; i <= j; i++) {
        const double *v = &k->basis[(size_t)i * n];
        double h = dot(v, w, n);
        k->h[i * MOST + j] = h;
        for (size_t p = 0; p < n; p++) w[p] -= h * v[p];
    }
    double length = sqrt(dot(w, w, n));
    k->h[(j + 1) * MOST + j] = length;
    for (size_t p = 0; length > 0.0 && p < n; p++) w[p] /= length;
}

/* Givens turns take the column to a triangle; gives what is left of the right-hand side. */
static double turn(map_krylov *k, int j)
{
    double *c = &k->h[(MOST + 1) * MOST], *s = c + MOST + 1, *g = s + MOST + 1;
    for (int i = 0; i < j; i++) {
        double a = k->h[i * MOST + j], b = k->h[(i + 1) * MOST + j];
        k->h[i * MOST + j] = c[i] * a + s[i] * b;
        k->h[(i + 1) * MOST + j] = -s[i] * a + c[i] * b;
    }
    double a = k->h[j * MOST + j], b = k->h[(j + 1) * MOST + j], r = hypot(a, b);
    c[j] = r > 0.0 ? a / r : 1.0;
    s[j] = r > 0.0 ? b / r : 0.0;
    k->h[j * MOST + j] = r;
    g[j + 1] = -s[j] * g[j];
    g[j] *= c[j];
    return fabs(g[j + 1]);
}

static void combine(map_krylov *k, size_t n, int count, double *out)
{
    double *g = &k->h[(MOST + 1) * MOST + 2 * (MOST + 1)];
    for (int i = count - 1; i >= 0; i--) {
        for (int j = i + 1; j < count; j++) g[i] -= k->h[i * MOST + j] * g[j];
        g[i] = k->h[i * MOST + i] != 0.0 ? g[i] / k->h[i * MOST + i] : 0.0;
    }
    memset(out, 0, n * sizeof *out);
    for (int j = 0; j < count; j++)
        for (size_t p = 0; p < n; p++) out[p] += g[j] * k->basis[(size_t)j * n + p];
}

void map_krylov_solve(map_krylov *k, map_matrix *m, map_system *sys, double share, double *step)
{
    size_t n = sys->unknowns;
    double length = sqrt(dot(sys->R, sys->R, n)), *g = &k->h[(MOST + 1) * MOST + 2 * (MOST + 1)];
    memset(step, 0, n * sizeof *step);
    k->rounds = 0;
    if (!(length > 0.0)) return;
    for (size_t i = 0; i < n; i++) k->basis[i] = sys->R[i] / length;
    g[0] = length;
    while (k->rounds < MOST) {
        int j = k->rounds++;
        apply(k, m, sys, &k->basis[(size_t)j * n], &k->basis[(size_t)(j + 1) * n]);
        orthogonalise(k, n, j);
        if (turn(k, j) <= share * length) break;
    }
    combine(k, n, k->rounds, k->image);
    memcpy(k->work, k->image, n * sizeof *k->work);
    map_matrix_solve(m, k->work, step);
}
