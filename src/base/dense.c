/* dense.c: small dense systems by elimination with row pivots. */
#include "base/base.h"

#include <math.h>

static size_t largest_below(const double *a, size_t n, size_t stride, size_t k)
{
    size_t best = k;
    for (size_t i = k + 1; i < n; i++)
        if (fabs(a[i * stride + k]) > fabs(a[best * stride + k])) best = i;
    return best;
}

static void swap_rows(double *a, double *b, size_t n)
{
    for (size_t i = 0; i < n; i++) {
        double other = a[i];
        a[i] = b[i];
        b[i] = other;
    }
}

static void subtract(double *row, const double *from, double factor, size_t first, size_t n)
{
    for (size_t j = first; j < n; j++) row[j] -= factor * from[j];
}

bool sw_lu(double *a, size_t n, size_t stride, size_t *pivot)
{
    for (size_t k = 0; k < n; k++) {
        pivot[k] = largest_below(a, n, stride, k);
        if (pivot[k] != k) swap_rows(&a[k * stride], &a[pivot[k] * stride], n);
        double inverse = 1 / a[k * stride + k];
        if (!isfinite(inverse)) return false;
        for (size_t i = k + 1; i < n; i++) {
            double factor = a[i * stride + k] *= inverse;
            if (factor != 0) subtract(&a[i * stride], &a[k * stride], factor, k + 1, n);
        }
    }
    return true;
}

/* Four sums side by side, as a processor adds. */
static double dot(const double *a, const double *b, size_t n)
{
    double sum[4] = {0};
    size_t i = 0;
    for (; i + 4 <= n; i += 4)
        for (size_t k = 0; k < 4; k++) sum[k] += a[i + k] * b[i + k];
    for (; i < n; i++) sum[0] += a[i] * b[i];
    return (sum[0] + sum[1]) + (sum[2] + sum[3]);
}

void sw_lu_solve(const double *a, size_t n, size_t stride, const size_t *pivot, double *b)
{
    for (size_t k = 0; k < n; k++) {
        double other = b[k];
        b[k] = b[pivot[k]];
        b[pivot[k]] = other;
    }
    for (size_t i = 1; i < n; i++) b[i] -= dot(&a[i * stride], b, i);
    for (size_t i = n; i-- > 0;) b[i] = (b[i] - dot(&a[i * stride + i + 1], &b[i + 1], n - i - 1)) / a[i * stride + i];
}
