/* net_newton.c: dense elimination and a damped Newton over all or some of the unknowns.
 *
 * A factored matrix is used again as long as the residual falls well with it. */
#include "burning/heat/net_parts.h"

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

bool net_lu(double *a, size_t n, size_t stride, size_t *pivot)
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

void net_lu_solve(const double *a, size_t n, size_t stride, const size_t *pivot, double *b)
{
    for (size_t k = 0; k < n; k++) {
        double other = b[k];
        b[k] = b[pivot[k]];
        b[pivot[k]] = other;
    }
    for (size_t i = 1; i < n; i++)
        for (size_t j = 0; j < i; j++) b[i] -= a[i * stride + j] * b[j];
    for (size_t i = n; i-- > 0;) {
        for (size_t j = i + 1; j < n; j++) b[i] -= a[i * stride + j] * b[j];
        b[i] /= a[i * stride + i];
    }
}

/* ---- Newton ------------------------------------------------------------------------------------------------------- */

static const double step_most_k = 150, coldest_k = 150, hottest_k = 3300;
enum { ROUNDS = 100, HALVINGS = 8 };

typedef struct part { /* the unknowns in play */
    sw_heat_net *net;
    size_t first, count;
} part;

static void evaluate(part p, bool with_jacobian)
{
    net_inside(p.net, with_jacobian);
    if (p.first < p.net->solids) net_outside(p.net, with_jacobian);
}

static double length_w(part p)
{
    double sum = 0;
    for (size_t i = p.first; i < p.first + p.count; i++) sum += p.net->R[i] * p.net->R[i];
    return sqrt(sum);
}

static void find_worst(part p, net_settled *s)
{
    s->worst_w = 0;
    for (size_t i = p.first; i < p.first + p.count; i++)
        if (!(fabs(p.net->R[i]) <= fabs(s->worst_w))) {
            s->worst_w = p.net->R[i];
            s->worst = i;
        }
}

static bool factor(part p)
{
    sw_heat_net *net = p.net;
    size_t stride = net->nodes + 1;
    for (size_t i = 0; i < p.count; i++)
        for (size_t j = 0; j < p.count; j++) net->lu[i * p.count + j] = -net->J[(p.first + i) * stride + p.first + j];
    return net_lu(net->lu, p.count, p.count, net->pivot);
}

static void find_step(part p)
{
    sw_heat_net *net = p.net;
    for (size_t i = 0; i < p.count; i++) net->step[i] = net->R[p.first + i];
    net_lu_solve(net->lu, p.count, p.count, net->pivot, net->step);
}

static void go(part p, double share)
{
    for (size_t i = 0; i < p.count; i++) {
        double step_k = net_held(share * p.net->step[i], -step_most_k, step_most_k);
        p.net->x[p.first + i] = net_held(p.net->try_x[p.first + i] + step_k, coldest_k, hottest_k);
    }
}

static void keep_place(part p)
{
    for (size_t i = p.first; i < p.first + p.count; i++) p.net->try_x[i] = p.net->x[i];
}

/* Along the step, halved while the residual grows; gives its new length. The last try stands. */
static double walk(part p, double before_w)
{
    double share = 1, after_w = INFINITY;
    for (int i = 0; i < HALVINGS; i++) {
        go(p, share);
        share *= 0.5;
        evaluate(p, false);
        after_w = length_w(p);
        if (after_w < before_w) break;
    }
    return after_w;
}

void net_newton(sw_heat_net *net, size_t first, size_t count, double enough_w, net_settled *settled)
{
    part p = {net, first, count};
    *settled = (net_settled){0};
    evaluate(p, true);
    double now_w = length_w(p);
    find_worst(p, settled);
    bool fresh = true, ready = factor(p);
    while (ready && !(fabs(settled->worst_w) <= enough_w) && settled->rounds < ROUNDS && isfinite(now_w)) {
        settled->rounds++;
        keep_place(p);
        find_step(p);
        double after_w = walk(p, now_w);
        bool well = after_w < 0.1 * now_w;
        if (fresh && !(after_w < now_w)) break; /* at the end of what numbers hold, or no way down */
        now_w = after_w;
        find_worst(p, settled);
        if (fabs(settled->worst_w) <= enough_w) break;
        fresh = !well;
        if (!well) {
            evaluate(p, true);
            ready = factor(p);
        }
    }
}
