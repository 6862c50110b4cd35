/* statistics.c: shares and quantiles of the normal, chi-square and Student's law. */
#include "base/base.h"

#include <math.h>

/* ---- normal ---------------------------------------------------------------------------- */

double sw_normal_share(double z)
{
    return 0.5 * erfc(-z * sqrt(0.5));
}

/* Abramowitz & Stegun 26.2.23 as a start, then Newton's method on the tail, which keeps its digits. */
double sw_normal_quantile(double share)
{
    if (!(share > 0 && share < 1)) return NAN;
    double tail = fmin(share, 1 - share), t = sqrt(-2 * log(tail));
    double z = t - (2.515517 + t * (0.802853 + t * 0.010328)) / (1 + t * (1.432788 + t * (0.189269 + t * 0.001308)));
    for (int i = 0; i < 4; i++) {
        double density = exp(-z * z / 2) / sqrt(2 * SW_PI);
        z += (sw_normal_share(-z) - tail) / density;
    }
    return share < 0.5 ? -z : z;
}

/* ---- chi-square ------------------------------------------------------------------------ */

/* Regularised lower incomplete gamma function P(a, x): series below a + 1, continued fraction of Q above (Abramowitz &
 * Stegun 6.5.29 and 6.5.31, the latter by Lentz's method). */
static double gamma_series(double a, double x)
{
    double term = 1 / a, sum = term;
    for (int n = 1; n < 10000 && term > sum * 1e-16; n++) {
        term *= x / (a + n);
        sum += term;
    }
    return sum * exp(a * log(x) - x - lgamma(a));
}

static double gamma_fraction(double a, double x)
{
    const double tiny = 1e-300;
    double b = x + 1 - a, c = 1 / tiny, d = 1 / b, h = d;
    for (int n = 1; n < 10000; n++) {
        double an = -n * (n - a);
        b += 2;
        d = an * d + b;
        c = b + an / c;
        if (fabs(d) < tiny) d = tiny;
        if (fabs(c) < tiny) c = tiny;
        d = 1 / d;
        h *= d * c;
        if (fabs(d * c - 1) < 1e-15) break;
    }
    return 1 - h * exp(a * log(x) - x - lgamma(a));
}

static double chi_square_share(double x, double freedom)
{
    double a = freedom / 2, y = x / 2;
    if (y <= 0) return 0;
    return y < a + 1 ? gamma_series(a, y) : gamma_fraction(a, y);
}

/* Halves between bounds: the share rises with x. */
double sw_chi_square_quantile(double share, double freedom)
{
    if (!(share > 0 && share < 1 && freedom > 0 && freedom <= 1e6)) return NAN;
    double low = 0, high = freedom + 10 * sqrt(2 * freedom) + 10;
    while (chi_square_share(high, freedom) < share) high *= 2;
    for (int i = 0; i < 200 && high - low > 1e-13 * high; i++) {
        double middle = (low + high) / 2;
        if (chi_square_share(middle, freedom) < share)
            low = middle;
        else
            high = middle;
    }
    return (low + high) / 2;
}

/* ---- Student --------------------------------------------------------------------------- */

/* P(|T| < t): Abramowitz & Stegun 26.7.3 and 26.7.4, whole degrees of freedom. */
static double student_within(double t, size_t freedom)
{
    double theta = atan(t / sqrt((double)freedom)), c = cos(theta), sum = 0.0, term;
    if (freedom % 2 == 1) {
        term = c;
        for (size_t k = 3; k <= freedom; k += 2) {
            sum += term;
            term *= c * c * (double)(k - 1) / (double)k;
        }
        return 2.0 / SW_PI * (theta + sin(theta) * sum);
    }
    term = 1.0;
    for (size_t k = 2; k <= freedom; k += 2) {
        sum += term;
        term *= c * c * (double)(k - 1) / (double)k;
    }
    return sin(theta) * sum;
}

/* Abramowitz & Stegun 26.7.5 to its first term: above 1000 degrees of freedom to 3e-6 at 0.975, 2e-5 at 0.999. */
static double many(double share, double freedom)
{
    double z = sw_normal_quantile(share);
    return z + (z * z * z + z) / (4.0 * freedom);
}

double sw_student_t(double share, size_t freedom)
{
    double low = 0.0, high = 1e6, wanted = 2.0 * share - 1.0;
    if (!(share >= 0.5 && share < 1.0) || freedom < 1) return NAN;
    if (freedom > 1000) return many(share, (double)freedom);
    if (student_within(high, freedom) < wanted) return NAN;
    for (int i = 0; i < 200; i++) {
        double middle = (low + high) / 2.0;
        if (student_within(middle, freedom) < wanted)
            low = middle;
        else
            high = middle;
    }
    return (low + high) / 2.0;
}
