/* fit_chain.c: chains of tolerances and the normal law. */
#include "making/fit/fit.h"

#include <math.h>

static double weight(const double *sensitivities, size_t i)
{
    return sensitivities == NULL ? 1.0 : sensitivities[i];
}

double sw_chain_worst(const double *tolerances, const double *sensitivities, size_t count)
{
    double sum = 0;
    for (size_t i = 0; i < count; i++) sum += fabs(weight(sensitivities, i)) * tolerances[i];
    return sum;
}

double sw_chain_rss(const double *tolerances, const double *sensitivities, size_t count)
{
    double sum = 0;
    for (size_t i = 0; i < count; i++) {
        double t = weight(sensitivities, i) * tolerances[i];
        sum += t * t;
    }
    return sqrt(sum);
}

/* Bender, Benderizing tolerances, Graphic Science 1962 (from memory): real processes drift. */
double sw_chain_inflated(const double *tolerances, const double *sensitivities, size_t count)
{
    return 1.5 * sw_chain_rss(tolerances, sensitivities, count);
}

double sw_normal_share(double z)
{
    return 0.5 * erfc(-z * sqrt(0.5));
}

double sw_tail_share(double limit, double mean, double sigma)
{
    if (!(sigma >= 0)) return NAN;
    if (sigma > 0) return sw_normal_share((mean - limit) / sigma);
    return mean > limit ? 1.0 : 0.0;
}

double sw_tail_error(double share, double trials)
{
    if (!(share >= 0 && share <= 1 && trials >= 1)) return NAN;
    return sqrt(share * (1 - share) / trials);
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
