/* line_formulas.c: single formulas of planning. Workshop handbook 12.1, 12.2 and 12.4. */
#include "making/line/line.h"

#include <math.h>

/* Source: any text on operations management; time at hand over what is asked. */
double sw_takt_s(double available_s, double demand)
{
    return available_s > 0 && demand > 0 ? available_s / demand : (double)NAN;
}

/* Little, Operations Research 9 (1961): L = lambda W, in the long run. */
double sw_little_under_way(double per_s, double flow_s)
{
    return per_s >= 0 && flow_s >= 0 ? per_s * flow_s : (double)NAN;
}

double sw_little_flow_s(double under_way, double per_s)
{
    return under_way >= 0 && per_s > 0 ? under_way / per_s : (double)NAN;
}

/* Nakajima, Introduction to TPM (from memory): availability x performance x quality. */
sw_oee sw_oee_of(double planned_s, double down_s, double ideal_s, double made, double rejected)
{
    sw_oee o = {(double)NAN, (double)NAN, (double)NAN, (double)NAN};
    double ran_s = planned_s - down_s;
    if (!(down_s >= 0 && ran_s > 0 && ideal_s > 0 && made > 0 && rejected >= 0 && rejected <= made)) return o;
    o.availability = ran_s / planned_s;
    o.performance = ideal_s * made / ran_s;
    o.quality = (made - rejected) / made;
    o.all = o.availability * o.performance * o.quality;
    return o;
}

/* Wright, Journal of the Aeronautical Sciences 3 (1936): T_n = T_1 n^b, b = log2(rate). */
double sw_learning_s(double first_s, double rate, double n)
{
    if (!(first_s >= 0 && rate >= 0.5 && rate <= 1 && n >= 1)) return (double)NAN;
    return first_s * pow(n, log2(rate));
}

double sw_learning_total_s(double first_s, double rate, size_t n)
{
    double sum_s = n > 0 ? 0 : (double)NAN;
    for (size_t i = 1; i <= n; i++) sum_s += sw_learning_s(first_s, rate, (double)i);
    return sum_s;
}

/* Kingman, Proc. Cambridge Phil. Soc. 57 (1961): W = (ca2 + ce2)/2 u/(1 - u) t. More machines: u^(sqrt(2(m + 1)) - 1)/(m (1 - u))
 * in place of u/(1 - u), Sakasegawa 1977 as in Hopp and Spearman, Factory Physics (from memory). */
double sw_queue_s(double ca, double ce, double u, double each_s, double machines)
{
    if (!(ca >= 0 && ce >= 0 && u >= 0 && u < 1 && each_s >= 0 && machines >= 1)) return (double)NAN;
    double crowd = pow(u, sqrt(2 * (machines + 1)) - 1) / (machines * (1 - u));
    return (ca * ca + ce * ce) / 2 * crowd * each_s;
}

/* Baybars, Management Science 32 (1986): bounds of the simple line. A sum that is a whole number of cycles but for
 * rounding counts as such. */
double sw_balance_stations_least(double sum_s, double most_s, double cycle_s)
{
    if (!(sum_s >= 0 && most_s >= 0 && cycle_s > 0 && most_s <= cycle_s * (1 + 1e-12))) return (double)NAN;
    return fmax(1, ceil(sum_s / cycle_s * (1 - 1e-12)));
}

double sw_balance_cycle_least_s(double sum_s, double most_s, double stations)
{
    return sum_s >= 0 && most_s >= 0 && stations >= 1 ? fmax(most_s, sum_s / stations) : (double)NAN;
}

double sw_balance_efficiency(double sum_s, double stations, double cycle_s)
{
    return sum_s >= 0 && stations >= 1 && cycle_s > 0 ? sum_s / (stations * cycle_s) : (double)NAN;
}

/* Source: derived: sums; workshop handbook 12.4. */
sw_unit_cost sw_unit_cost_of(double material, double set_up_batch, double batch, double run, double bought,
                             double overhead)
{
    sw_unit_cost c = {(double)NAN, (double)NAN, (double)NAN};
    if (!(set_up_batch >= 0 && batch >= 1 && run >= 0 && overhead >= 0)) return c;
    c.set_up = set_up_batch / batch;
    c.unit = material + c.set_up + run + bought;
    c.base = c.unit * (1 + overhead);
    return c;
}
