/* line_flow.c: the permutation flow shop: makespan, Johnson, NEH, bounds, every order of a few jobs, Taillard's times. */
#include "making/line/line_parts.h"

#include <math.h>
#include <string.h>

enum { MACHINES = LINE_FLOW_MACHINES };

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

/* Machines u < v alone, those between without queues: Johnson with lags is optimal for that relaxation (Mitten 1959). */
static double pair_bound_s(const sw_flow_shop *shop, size_t u, size_t v, double *work_s, size_t *order)
{
    size_t n = shop->jobs;
    double *a_s = work_s, *b_s = work_s + n;
    for (size_t j = 0; j < n; j++) {
        double lag_s = way_s(shop, j, u + 1, v);
        a_s[j] = shop->times_s[u * n + j] + lag_s;
        b_s[j] = shop->times_s[v * n + j] + lag_s;
    }
    johnson(a_s, b_s, n, order);
    double first_s = 0, second_s = 0;
    for (size_t k = 0; k < n; k++) {
        size_t j = order[k];
        first_s += shop->times_s[u * n + j];
        second_s = fmax(second_s, first_s + a_s[j] - shop->times_s[u * n + j]) + shop->times_s[v * n + j];
    }
    return least_way_s(shop, 0, u) + second_s + least_way_s(shop, v + 1, shop->machines);
}

double line_flow_bound(const sw_flow_shop *shop, double *work_s, size_t *order)
{
    double bound_s = sw_flow_machine_bound_s(shop);
    for (size_t u = 0; u < shop->machines; u++)
        for (size_t v = u + 1; v < shop->machines; v++)
            bound_s = fmax(bound_s, pair_bound_s(shop, u, v, work_s, order));
    return bound_s;
}

/* Where `job` lengthens order[count] least, and the makespan then. Taillard 1990: ends of the first k jobs, tails of the
 * rest and the job between, in one go. */
size_t line_flow_best_place(const sw_flow_shop *shop, const size_t *order, size_t count, size_t job, double *work_s,
                            double *makespan_s)
{
    size_t m = shop->machines, n = shop->jobs, best = 0;
    double *tail_s = work_s, end_s[MACHINES] = {0}; /* tail: [(count + 1) * machines] */
    for (size_t i = 0; i < m; i++) tail_s[count * m + i] = 0;
    for (size_t k = count; k-- > 0;) {
        double at_s = 0;
        for (size_t i = m; i-- > 0;) {
            at_s = fmax(at_s, tail_s[(k + 1) * m + i]) + shop->times_s[i * n + order[k]];
            tail_s[k * m + i] = at_s;
        }
    }
    *makespan_s = INFINITY;
    for (size_t k = 0; k <= count; k++) {
        double at_s = 0, all_s = 0;
        for (size_t i = 0; i < m; i++) {
            at_s = fmax(at_s, end_s[i]) + shop->times_s[i * n + job];
            all_s = fmax(all_s, at_s + tail_s[k * m + i]);
        }
        if (all_s < *makespan_s) {
            *makespan_s = all_s;
            best = k;
        }
        if (k == count) break;
        at_s = 0;
        for (size_t i = 0; i < m; i++) end_s[i] = at_s = fmax(at_s, end_s[i]) + shop->times_s[i * n + order[k]];
    }
    return best;
}

void line_flow_insert(size_t *order, size_t count, size_t at, size_t job)
{
    memmove(order + at + 1, order + at, (count - at) * sizeof *order);
    order[at] = job;
}

void line_flow_neh(const sw_flow_shop *shop, size_t *order, size_t *sorted, double *work_s)
{
    for (size_t j = 0; j < shop->jobs; j++) {
        size_t at = j;
        double sum_s = way_s(shop, j, 0, shop->machines);
        for (; at > 0 && way_s(shop, sorted[at - 1], 0, shop->machines) < sum_s; at--) sorted[at] = sorted[at - 1];
        sorted[at] = j;
    }
    for (size_t k = 0; k < shop->jobs; k++) {
        double makespan_s;
        size_t at = line_flow_best_place(shop, order, k, sorted[k], work_s, &makespan_s);
        line_flow_insert(order, k, at, sorted[k]);
    }
}

sw_status sw_flow_neh(sw_run *run, const sw_flow_shop *shop, size_t *order)
{
    SW_TRY(line_flow_check(run, shop));
    size_t mark = sw_arena_mark(run->scratch);
    size_t *sorted = SW_SCRATCH(run, shop->jobs, size_t);
    double *work_s = SW_SCRATCH(run, (shop->jobs + 1) * shop->machines, double);
    bool room = sorted != NULL && work_s != NULL;
    if (room) line_flow_neh(shop, order, sorted, work_s);
    sw_arena_rewind(run->scratch, mark);
    return room ? SW_OK : SW_NO_MEMORY;
}

/* Schrage's form of 16807 x mod (2^31 - 1), Taillard, EJOR 64 (1993) 278-285; workshop handbook 12.3. */
void sw_flow_taillard(int32_t seed, size_t jobs, size_t machines, double *times_s)
{
    const int32_t a = 16807, b = 127773, c = 2836, m = 2147483647;
    int32_t x = seed;
    for (size_t i = 0; i < machines * jobs; i++) {
        int32_t k = x / b;
        x = a * (x % b) - k * c;
        if (x < 0) x += m;
        times_s[i] = 1 + floor((double)x / (double)m * 99);
    }
}
