/* fit_capability.c: Cp, Cpk and how sure they are. Montgomery, Introduction to Statistical Quality Control, ch. 8; Bissell,
 * Applied Statistics 39 (1990) (both from memory). */
#include "making/fit/fit.h"

#include <math.h>

double sw_cp(double lower, double upper, double sigma)
{
    if (!(sigma > 0 && upper > lower)) return NAN;
    return (upper - lower) / (6 * sigma);
}

double sw_cpk(double lower, double upper, double mean, double sigma)
{
    if (!(sigma > 0 && upper > lower) || isnan(mean)) return NAN;
    return fmin(upper - mean, mean - lower) / (3 * sigma);
}

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

static bool good_confidence(double confidence)
{
    return confidence > 0 && confidence < 1;
}

sw_interval sw_cp_interval(double cp, size_t n, double confidence)
{
    if (n < 2 || !good_confidence(confidence)) return (sw_interval){NAN, NAN};
    double freedom = (double)n - 1, outside = (1 - confidence) / 2;
    return (sw_interval){cp * sqrt(sw_chi_square_quantile(outside, freedom) / freedom),
                         cp * sqrt(sw_chi_square_quantile(1 - outside, freedom) / freedom)};
}

sw_interval sw_cpk_interval(double cpk, size_t n, double confidence)
{
    if (n < 2 || !good_confidence(confidence)) return (sw_interval){NAN, NAN};
    double z = sw_normal_quantile((1 + confidence) / 2), count = (double)n;
    double half = z * sqrt(1 / (9 * count) + cpk * cpk / (2 * (count - 1))); /* cpk times Bissell's root, good at 0 */
    return (sw_interval){cpk - half, cpk + half};
}

double sw_ppm(double cpk)
{
    return 1e6 * sw_normal_share(-3 * cpk);
}
