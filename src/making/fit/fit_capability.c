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
