/* net_newton.c: a damped Newton over all or some of the unknowns.
 *
 * A factored matrix is used again as long as the residual falls well with it. */
#include "burning/heat/net_parts.h"

#include <math.h>

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
    return sw_lu(net->lu, p.count, p.count, net->pivot);
}

static void find_step(part p)
{
    sw_heat_net *net = p.net;
    for (size_t i = 0; i < p.count; i++) net->step[i] = net->R[p.first + i];
    sw_lu_solve(net->lu, p.count, p.count, net->pivot, net->step);
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
