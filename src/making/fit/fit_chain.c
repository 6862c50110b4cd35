/* fit_chain.c: chains of tolerances, and the tail of a normal quantity. */
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
