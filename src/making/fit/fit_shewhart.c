/* fit_shewhart.c: constants of control charts, by numerical integration of the normal law.
 *
 * Range W of n: P(W <= w) = n int phi(x) (Phi(x + w) - Phi(x))^(n-1) dx; d2 = int P(W > w) dw, E W2 = 2 int w P(W > w) dw.
 * The inner integral by the trapezoid rule, which for such functions is as good as exact; the outer by Simpson's. c4 from the
 * gamma function. Montgomery, Introduction to Statistical Quality Control, ch. 6 (from memory), for A2 .. B4. */
#include "making/fit/fit.h"

#include <math.h>

#define STEP 0.05
enum { REACH = 160, NODES = 2 * REACH + 1, FAR = 2 * REACH }; /* x from -8 to 8, w from 0 to 16 */

typedef struct normal_grid {
    double phi[NODES], below[NODES + FAR];
} normal_grid;

static void fill(normal_grid *g)
{
    for (int i = 0; i < NODES + FAR; i++) {
        double x = (i - REACH) * STEP;
        g->below[i] = sw_normal_share(x);
        if (i < NODES) g->phi[i] = exp(-x * x / 2) / sqrt(2 * SW_PI);
    }
}

static double range_above(const normal_grid *g, size_t n, int w)
{
    double sum = 0;
    for (int i = 0; i < NODES; i++) {
        double between = g->below[i + w] - g->below[i], power = 1;
        for (size_t k = 1; k < n; k++) power *= between;
        sum += g->phi[i] * power;
    }
    return 1 - (double)n * sum * STEP;
}

static void integrate(size_t n, double *d2, double *d3)
{
    normal_grid g;
    fill(&g);
    double mean = 0, square = 0;
    for (int w = 0; w <= FAR; w++) {
        double simpson = w == 0 || w == FAR ? 1 : w % 2 == 1 ? 4 : 2, above = range_above(&g, n, w);
        mean += simpson * above;
        square += simpson * 2 * w * STEP * above;
    }
    *d2 = mean * STEP / 3;
    *d3 = sqrt(square * STEP / 3 - *d2 * *d2);
}

sw_shewhart sw_shewhart_of(size_t n)
{
    sw_shewhart c = {NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN};
    if (n < 2 || n > 25) return c;
    double count = (double)n;
    integrate(n, &c.d2, &c.d3);
    c.c4 = sqrt(2 / (count - 1)) * tgamma(count / 2) / tgamma((count - 1) / 2);
    double spread_s = sqrt(1 - c.c4 * c.c4) / c.c4;
    c.a2 = 3 / (c.d2 * sqrt(count));
    c.a3 = 3 / (c.c4 * sqrt(count));
    c.D3 = fmax(0, 1 - 3 * c.d3 / c.d2);
    c.D4 = 1 + 3 * c.d3 / c.d2;
    c.B3 = fmax(0, 1 - 3 * spread_s);
    c.B4 = 1 + 3 * spread_s;
    return c;
}
