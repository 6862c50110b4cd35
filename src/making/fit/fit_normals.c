/* fit_normals.c: normal numbers from even ones. Marsaglia & Tsang, The ziggurat method for generating random variables, Journal
 * of Statistical Software 5 (2000), 256 layers; constants from memory, checked in tests by the moments and tails. The layers
 * have equal area; a point in a layer's inner part is taken at once. */
#include "making/fit/fit_parts.h"

#include <math.h>

enum { LAYERS = 256 };
static const double edge = 3.6541528853610088, layer_area = 0.00492867323399;

static double bell(double x)
{
    return exp(-x * x / 2);
}

void fit_normals_make(fit_normals *t)
{
    t->x[0] = layer_area / bell(edge); /* the lowest layer with its tail, as wide as a box of that area */
    t->x[1] = edge;
    t->x[LAYERS] = 0;
    for (int i = 2; i < LAYERS; i++) t->x[i] = sqrt(-2 * log(layer_area / t->x[i - 1] + bell(t->x[i - 1])));
    for (int i = 0; i <= LAYERS; i++) t->y[i] = bell(t->x[i]);
}

/* Beyond the last layer: Marsaglia 1964. */
static double tail(sw_random *random)
{
    double x = 0, y = 0;
    do {
        x = -log(1 - sw_random_unit(random)) / edge;
        y = -log(1 - sw_random_unit(random));
    } while (2 * y < x * x);
    return edge + x;
}

double fit_normal(const fit_normals *t, sw_random *random)
{
    for (;;) {
        uint64_t bits = sw_random_next(random);
        size_t layer = (size_t)(bits & (LAYERS - 1));
        double sign = (bits & LAYERS) != 0 ? -1 : 1, x = (double)(bits >> 11) * 0x1p-53 * t->x[layer];
        if (x < t->x[layer + 1]) return sign * x;
        if (layer == 0) return sign * tail(random);
        double height = t->y[layer] + (t->y[layer + 1] - t->y[layer]) * sw_random_unit(random);
        if (height < bell(x)) return sign * x;
    }
}
