/* line_flow.c: the permutation flow shop: makespan, a bound, Johnson's order. */
#include "making/line/line_parts.h"

#include <math.h>

enum { MACHINES = 64 };

/* C(i, j) = max(C(i - 1, j), C(i, j - 1)) + p: any text on scheduling. */
double sw_flow_makespan_s(const sw_flow_shop *shop, const size_t *order, size_t count)
{
    double end_s[MACHINES] = {0};
    if (shop->machines == 0 || shop->machines > MACHINES) return (double)NAN;
    for (size_t k = 0; k < count; k++) {
        double at_s = 0;
        for (size_t m = 0; m < shop->machines; m++) {
            at_s = fmax(at_s, end_s[m]) + shop->times_s[m * shop->jobs + order[k]];
            end_s[m] = at_s;
        }
    }
    return end_s[shop->machines - 1];
}

static double way_s(const sw_flow_shop *shop, size_t job, size_t from, size_t to)
{
    double sum_s = 0;
    for (size_t m = from; m < to; m++) sum_s += shop->times_s[m * shop->jobs + job];
    return sum_s;
}

static double least_way_s(const sw_flow_shop *shop, size_t from, size_t to)
{
    double least_s = INFINITY;
    for (size_t j = 0; j < shop->jobs; j++) least_s = fmin(least_s, way_s(shop, j, from, to));
    return least_s;
}

double sw_flow_machine_bound_s(const sw_flow_shop *shop)
{
    double bound_s = 0;
    for (size_t m = 0; m < shop->machines; m++) {
        double load_s = 0;
        for (size_t j = 0; j < shop->jobs; j++) load_s += shop->times_s[m * shop->jobs + j];
        double least_s = least_way_s(shop, 0, m) + load_s + least_way_s(shop, m + 1, shop->machines);
        bound_s = fmax(bound_s, least_s);
    }
    for (size_t j = 0; j < shop->jobs; j++) bound_s = fmax(bound_s, way_s(shop, j, 0, shop->machines));
    return bound_s;
}

/* Johnson's order for times a and b: those with a <= b first by rising a, then the rest by falling b. */
static void johnson(const double *a_s, const double *b_s, size_t jobs, size_t *order)
{
    size_t count = 0;
    for (size_t j = 0; j < jobs; j++) {
        size_t at = count++;
        for (; at > 0; at--) {
            size_t i = order[at - 1];
            bool early = a_s[j] <= b_s[j], other = a_s[i] <= b_s[i];
            bool before = early != other ? early : (early ? a_s[j] < a_s[i] : b_s[j] > b_s[i]);
            if (!before) break;
            order[at] = i;
        }
        order[at] = j;
    }
}

bool sw_flow_johnson(const sw_flow_shop *shop, size_t *order)
{
    if (shop->machines != 2) return false;
    johnson(shop->times_s, shop->times_s + shop->jobs, shop->jobs, order);
    return true;
}
