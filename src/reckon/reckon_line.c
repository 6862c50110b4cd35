/* reckon_line.c: planning, line balance and cost by hand. Sources stand in each row; the functions are those of making/line. */
#include "making/line/line.h"
#include "reckon/reckon_parts.h"

#include <math.h>

#define TEXTS "standard texts on operations management (from memory)"

static void takt(const double *in, double *out)
{
    double takt_s = sw_takt_s(sw_s_from_min(in[0]), in[1]);
    out[0] = sw_min_from_s(takt_s);
    out[1] = in[2] / out[0];
    out[2] = ceil(out[1] * (1 - 1e-12));
}

static void little(const double *in, double *out)
{
    out[0] = sw_little_under_way(in[0], in[1]);
}

static void little_flow(const double *in, double *out)
{
    out[0] = sw_little_flow_s(in[0], in[1]);
}

static void oee(const double *in, double *out)
{
    sw_oee o = sw_oee_of(in[0], in[1], in[2], in[3], in[4]);
    out[0] = o.availability;
    out[1] = o.performance;
    out[2] = o.quality;
    out[3] = o.all;
}

static void learning(const double *in, double *out)
{
    out[0] = sw_learning_s(in[0], in[1], in[2]);
    out[1] = sw_learning_total_s(in[0], in[1], (size_t)in[2]);
    out[2] = out[1] / floor(in[2]);
    out[3] = log2(in[1]);
}

static void kingman(const double *in, double *out)
{
    out[0] = sw_queue_s(in[0], in[1], in[2], in[3], floor(in[4]));
    out[1] = out[0] + in[3];
    out[2] = sw_little_under_way(in[2] * floor(in[4]) / in[3], out[0]);
}

/* Times of up to four jobs on two machines: a1 b1 a2 b2 ...; jobs that take no time are not named. */
static void johnson(const double *in, double *out)
{
    double times_s[8];
    size_t order[4], file[4] = {0, 1, 2, 3};
    for (size_t j = 0; j < 4; j++) {
        times_s[j] = in[2 * j];
        times_s[4 + j] = in[2 * j + 1];
    }
    const sw_flow_shop shop = {times_s, 4, 2};
    (void)sw_flow_johnson(&shop, order);
    out[0] = sw_flow_makespan_s(&shop, order, 4);
    out[1] = out[2] = out[3] = out[4] = 0;
    for (size_t k = 0, at = 1; k < 4; k++)
        if (in[2 * order[k]] + in[2 * order[k] + 1] > 0) out[at++] = (double)order[k] + 1;
    out[5] = sw_flow_makespan_s(&shop, file, 4);
}

/* Two jobs on three machines, in the order given. */
static void order_of_two(const double *in, double *out)
{
    const double times_s[] = {in[0], in[3], in[1], in[4], in[2], in[5]};
    const sw_flow_shop shop = {times_s, 2, 3};
    const size_t given[] = {0, 1}, turned[] = {1, 0};
    out[0] = sw_flow_makespan_s(&shop, given, 2);
    out[1] = sw_flow_makespan_s(&shop, turned, 2);
    out[2] = sw_flow_machine_bound_s(&shop);
}

static void balance(const double *in, double *out)
{
    out[0] = sw_balance_stations_least(in[0], in[1], in[2]);
    out[1] = sw_balance_cycle_least_s(in[0], in[1], floor(in[3]));
    out[2] = sw_balance_efficiency(in[0], floor(in[3]), in[2]);
}

static void equal_jobs(const double *in, double *out)
{
    out[0] = in[1] + (floor(in[0]) - 1) * in[2];
    out[1] = floor(in[0]) * in[1];
}

static void unit_cost(const double *in, double *out)
{
    sw_unit_cost c = sw_unit_cost_of(in[0], in[1], floor(in[2]), in[3], in[4], in[5] / 100);
    out[0] = c.set_up;
    out[1] = c.unit;
    out[2] = c.base;
}

/* clang-format off */
#define IN_T(name, text) {name, "min", text, NAN, 0, 1e6}

static const sw_reckon rows[] = {
    {"takt", "time between stoves that a demand asks for", "takt = time at hand/demand; people = work/takt", "any", TEXTS,
     {{"T", "min", "time at hand", NAN, 1e-3, 1e7}, {"n", "", "wanted in that time", NAN, 1e-6, 1e7}, {"work", "min", "work in one", 0, 0, 1e6}},
     {{"takt", "min", "from one to the next"}, {"share", "", "places of work, exactly"}, {"places", "", "places of work, whole"}}, takt},
    {"little_under_way", "work under way from throughput and flow time", "L = lambda W", "long run, any order of service", "Little, Operations Research 9 (1961)",
     {{"rate", "1/d", "finished a day", NAN, 0, 1e6}, {"W", "d", "flow time", NAN, 0, 1e6}}, {{"L", "", "under way"}}, little},
    {"little_flow", "flow time from work under way and throughput", "W = L/lambda", "long run, any order of service", "Little, Operations Research 9 (1961)",
     {{"L", "", "under way", NAN, 0, 1e9}, {"rate", "1/d", "finished a day", NAN, 1e-9, 1e6}}, {{"W", "d", "flow time"}}, little_flow},
    {"oee", "how much of its planned time a machine makes good pieces", "OEE = availability performance quality", "down below planned, rejects up to all made", "Nakajima, Introduction to TPM (from memory)",
     {{"planned", "min", "planned time", NAN, 1e-3, 1e7}, {"down", "min", "stops in it", 0, 0, 1e7}, {"ideal", "min", "ideal time of one", NAN, 1e-6, 1e6}, {"made", "", "made", NAN, 1, 1e9}, {"rejected", "", "of these rejected", 0, 0, 1e9}},
     {{"A", "", "availability"}, {"P", "", "performance"}, {"Q", "", "quality"}, {"OEE", "", "all together"}}, oee},
    {"learning", "time of the n-th by the learning curve", "Tn = T1 n^b, b = log2(rate)", "rate 0.5 to 1", "Wright, Journal of the Aeronautical Sciences 3 (1936)",
     {{"T1", "min", "time of the first", NAN, 0, 1e6}, {"rate", "", "time after each doubling, share", 0.8, 0.5, 1}, {"n", "", "which one", NAN, 1, 10000}},
     {{"Tn", "min", "time of the n-th"}, {"sum", "min", "of the first n"}, {"mean", "min", "mean of these"}, {"b", "", "exponent"}}, learning},
    {"kingman", "mean wait before a station", "Wq = (ca2 + ce2)/2 u/(1 - u) te; m machines: u^(sqrt(2m + 2) - 1)/(m (1 - u))", "u below 1; an estimate, good when busy", "Kingman 1961; Sakasegawa 1977 as in Hopp, Spearman, Factory Physics (from memory)",
     {{"ca", "", "variation of the times between arrivals", 1, 0, 10}, {"ce", "", "variation of the times of service", 1, 0, 10}, {"u", "", "utilisation", NAN, 0, 0.9999}, {"te", "min", "mean time of service", NAN, 1e-6, 1e6}, {"m", "", "machines", 1, 1, 1000}},
     {{"Wq", "min", "wait"}, {"W", "min", "wait and service"}, {"Lq", "", "waiting"}}, kingman},
    {"johnson", "best order of up to four jobs on two machines", "a <= b first by rising a, the rest by falling b", "two machines in one order; jobs of time 0 do nothing", "Johnson, Naval Research Logistics Quarterly 1 (1954)",
     {IN_T("a1", "job 1, first machine"), IN_T("b1", "job 1, second machine"), IN_T("a2", "job 2"), IN_T("b2", "job 2"), {"a3", "min", "job 3", 0, 0, 1e6}, {"b3", "min", "job 3", 0, 0, 1e6}, {"a4", "min", "job 4", 0, 0, 1e6}, {"b4", "min", "job 4", 0, 0, 1e6}},
     {{"makespan", "min", "of the best order"}, {"first", "", "job"}, {"second", "", "job"}, {"third", "", "job"}, {"fourth", "", "job"}, {"given", "min", "makespan of the order given"}}, johnson},
    {"makespan", "makespan of an order through three machines", "C(i, j) = max(C(i - 1, j), C(i, j - 1)) + p", "two jobs; the study takes any number", TEXTS,
     {IN_T("p11", "job 1, machine 1"), IN_T("p12", "job 1, machine 2"), IN_T("p13", "job 1, machine 3"), IN_T("p21", "job 2, machine 1"), IN_T("p22", "job 2, machine 2"), IN_T("p23", "job 2, machine 3")},
     {{"given", "min", "makespan, job 1 first"}, {"turned", "min", "makespan, job 2 first"}, {"bound", "min", "no order is shorter: head + load + tail"}}, order_of_two},
    {"equal_batch", "a batch of equal stoves through a line", "T = sum + (n - 1) longest", "one machine a station, no set-ups, buffers large enough", "derived: flow shop of equal jobs",
     {{"n", "", "stoves", NAN, 1, 1e4}, IN_T("sum", "one stove, all stations"), IN_T("longest", "the slowest station")}, {{"T", "min", "batch"}, {"apart", "min", "one stove after the other"}}, equal_jobs},
    {"balance_bounds", "bounds of a simple line", "m >= ceil(sum/c); c >= max(longest, sum/m); efficiency = sum/(m c)", "longest task up to the cycle", "Baybars, Management Science 32 (1986); Scholl 1999 (from memory)",
     {{"sum", "min", "all tasks together", NAN, 0, 1e7}, {"longest", "min", "longest task", NAN, 0, 1e6}, {"c", "min", "cycle", NAN, 1e-6, 1e6}, {"m", "", "stations", 1, 1, 1000}},
     {{"m_least", "", "stations at least, at this cycle"}, {"c_least", "min", "cycle at least, with m stations"}, {"efficiency", "", "of m stations at cycle c"}}, balance},
    {"unit_cost", "cost of one stove of a batch", "unit = material + set-ups/batch + runs + bought; base = unit (1 + overhead)", "any", "derived: sums; workshop handbook 12.4",
     {{"material", "", "money for one", NAN, 0, 1e9}, {"setup", "", "money for all set-ups of the batch", 0, 0, 1e9}, {"batch", "", "stoves", 1, 1, 1e6}, {"run", "", "money for the runs of one", NAN, 0, 1e9}, {"bought", "", "money for bought parts of one", 0, 0, 1e9}, {"overhead", "%", "on top", 0, 0, 1000}},
     {{"setup_each", "", "set-ups for one"}, {"unit", "", "cost of one"}, {"base", "", "with overhead"}}, unit_cost},
};
/* clang-format on */

const sw_reckon *sw_reckon_line(size_t *count)
{
    *count = sizeof rows / sizeof *rows;
    return rows;
}
