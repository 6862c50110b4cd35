/* trial_statistics.c: means of repeats, and uncertainty by slopes and by drawing. */
#include "proving/trial/trial_parts.h"

#include <math.h>

double sw_trial_t95(size_t freedom)
{
    return sw_student_t(0.975, freedom);
}

/* s2 = sum (x - mean)2/(n - 1), u = s/sqrt(n): JCGM 100, 4.2 (from memory). */
sw_trial_mean sw_trial_mean_of(const double *x, size_t count)
{
    sw_trial_mean m = {NAN, NAN, NAN, NAN, 0};
    double sum = 0, squares = 0;
    for (size_t i = 0; i < count; i++) {
        if (isnan(x[i])) continue;
        sum += x[i];
        m.count++;
    }
    if (m.count == 0) return m;
    m.mean = sum / (double)m.count;
    if (m.count < 2) return m;
    for (size_t i = 0; i < count; i++)
        if (!isnan(x[i])) squares += (x[i] - m.mean) * (x[i] - m.mean);
    m.s = sqrt(squares / (double)(m.count - 1));
    m.u = m.s / sqrt((double)m.count);
    m.half95 = sw_trial_t95(m.count - 1) * m.u;
    return m;
}

double sw_trial_weighted(const double *x, const double *weight, size_t count)
{
    double sum = 0, weights = 0;
    for (size_t i = 0; i < count; i++) {
        sum += x[i] * weight[i];
        weights += weight[i];
    }
    return weights > 0 ? sum / weights : (double)NAN;
}

/* Central, or to one side where the other cannot be (moisture below 0 %) or is held at its bound (CO below 0); NAN where neither
 * can. */
static double slope_of(sw_trial_function *f, const void *context, double *x, size_t i, double h)
{
    double value = x[i], here = f(context, x);
    x[i] = value + h;
    double above = f(context, x);
    x[i] = value - h;
    double below = f(context, x);
    x[i] = value;
    if (isnan(below) || below == here) return (above - here) / h;
    if (isnan(above) || above == here) return (here - below) / h;
    return (above - below) / (2 * h);
}

/* u2 = sum (df/dx)2 u2, uncorrelated inputs: JCGM 100, 5.1.2 (from memory). */
double sw_trial_propagate(sw_trial_function *f, const void *context, sw_trial_source *sources, size_t count)
{
    static const double step = 0.01;
    double x[SW_TRIAL_SOURCES], sum = 0;
    SW_ASSERT(count <= SW_TRIAL_SOURCES);
    for (size_t i = 0; i < count; i++) x[i] = sources[i].value;
    for (size_t i = 0; i < count; i++) {
        sw_trial_source *s = &sources[i];
        double h = step * s->u;
        s->slope = s->part = 0;
        if (!(h > 0)) continue;
        s->slope = slope_of(f, context, x, i, h);
        s->part = s->slope * s->u;
        sum += s->part * s->part;
    }
    return sqrt(sum);
}

typedef struct normals { /* Box and Muller 1958: two at a time */
    sw_random random;
    double other;
    bool waits;
} normals;

static double normal(normals *n)
{
    if (n->waits) {
        n->waits = false;
        return n->other;
    }
    double r = sqrt(-2 * log(1 - sw_random_unit(&n->random))), a = 2 * SW_PI * sw_random_unit(&n->random);
    n->other = r * sin(a);
    n->waits = true;
    return r * cos(a);
}

/* A draw that cannot be (moisture below 0 %) is passed over. */
double sw_trial_sampled(sw_trial_function *f, const void *context, const sw_trial_source *sources, size_t count,
                        size_t draws, uint64_t seed, double *mean)
{
    normals n = {.random = sw_random_seeded(seed)};
    double x[SW_TRIAL_SOURCES], middle = 0, squares = 0;
    size_t counted = 0;
    static const double root3 = 1.7320508075688772;
    SW_ASSERT(count <= SW_TRIAL_SOURCES);
    for (size_t k = 0; k < draws; k++) {
        for (size_t i = 0; i < count; i++) {
            double drawn = sources[i].rectangular ? root3 * sw_random_between(&n.random, -1, 1) : normal(&n);
            x[i] = sources[i].value + sources[i].u * drawn;
        }
        double value = f(context, x), off = value - middle; /* Welford 1962 */
        if (isnan(value)) continue;
        middle += off / (double)++counted;
        squares += off * (value - middle);
    }
    if (mean != NULL) *mean = counted > 0 ? middle : (double)NAN;
    return counted > 1 ? sqrt(squares / (double)(counted - 1)) : (double)NAN;
}
