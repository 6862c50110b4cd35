/* Permutation flow shop: Johnson, Taillard's first instance, and a bound against every order of a few jobs. */
#include "making/line/line.h"
#include "sw_test.h"
#include "taillard.h"

#include <math.h>

static const char *const book = "workshop handbook W12.6, computed; Taillard, EJOR 64 (1993)";

static void johnson_orders_the_textbook_example(sw_test *t)
{
    const char *source = "workshop handbook W12.5: Baker's example (from memory), confirmed over all orders";
    const double times_s[] = {3, 5, 1, 6, 7, 6, 2, 2, 6, 5};
    const sw_flow_shop shop = {times_s, 5, 2};
    const size_t file[] = {0, 1, 2, 3, 4}, want[] = {2, 0, 3, 4, 1};
    size_t order[5];
    sw_true(t, sw_flow_johnson(&shop, order));
    for (int i = 0; i < 5; i++) sw_true(t, order[i] == want[i]);
    sw_near(t, sw_flow_makespan_s(&shop, order, 5), 24, 0, source);
    sw_near(t, sw_flow_makespan_s(&shop, file, 5), 27, 0, source);
}

static void taillard_makes_the_published_times(sw_test *t)
{
    const char *source = "Taillard 1993, verification listing of the generator (found)";
    double times_s[100];
    taillard_times(873654221, 20, 5, times_s);
    const double first[] = {54, 83, 15, 71, 77, 36}, last[] = {87, 58, 18, 68, 28};
    for (size_t i = 0; i < 6; i++) sw_near(t, times_s[i], first[i], 0, source);
    for (size_t i = 0; i < 5; i++) sw_near(t, times_s[95 + i], last[i], 0, source);
}

static void file_order_bound_and_certificate_of_the_first_instance(sw_test *t)
{
    double times_s[100];
    taillard_times(873654221, 20, 5, times_s);
    const sw_flow_shop shop = {times_s, 20, 5};
    const int best[] = {9, 17, 15, 6, 3, 8, 14, 11, 13, 16, 18, 5, 7, 1, 2, 4, 19, 10, 20, 12};
    size_t file[20], order[20];
    for (size_t i = 0; i < 20; i++) {
        file[i] = i;
        order[i] = (size_t)best[i] - 1;
    }
    sw_near(t, sw_flow_makespan_s(&shop, file, 20), 1448, 0, book);
    sw_near(t, sw_flow_machine_bound_s(&shop), 1232, 0, book);
    sw_near(t, sw_flow_makespan_s(&shop, order, 20), 1278, 0, book);
}

static void every_order(const sw_flow_shop *shop, size_t *order, size_t k, double *best_s)
{
    if (k == shop->jobs) *best_s = fmin(*best_s, sw_flow_makespan_s(shop, order, k));
    for (size_t i = k; i < shop->jobs; i++) {
        size_t held = order[k];
        order[k] = order[i];
        order[i] = held;
        every_order(shop, order, k + 1, best_s);
        order[i] = order[k];
        order[k] = held;
    }
}

static void johnsons_order_is_as_good_as_any_and_the_bound_is_never_above(sw_test *t)
{
    for (int32_t seed = 1; seed <= 40; seed++) {
        t->seed = (uint64_t)seed;
        double times_s[7 * 6], best_s = INFINITY;
        size_t machines = 2 + (size_t)seed % 5, order[7] = {0, 1, 2, 3, 4, 5, 6}, johnson[7];
        taillard_times(seed * 7919 + 11, 7, machines, times_s);
        const sw_flow_shop shop = {times_s, 7, machines};
        every_order(&shop, order, 0, &best_s);
        if (!sw_true(t, sw_flow_machine_bound_s(&shop) <= best_s)) return;
        if (!sw_true(t, sw_flow_johnson(&shop, johnson) == (machines == 2))) return;
        if (machines > 2) continue;
        if (!sw_near(t, sw_flow_makespan_s(&shop, johnson, 7), best_s, 0, "invariance: all 5040 orders")) return;
    }
    t->seed = 0;
}

static void the_mirrored_shop_takes_as_long(sw_test *t)
{
    for (int32_t seed = 1; seed <= 20; seed++) {
        t->seed = (uint64_t)seed;
        double times_s[12 * 4], mirror_s[12 * 4];
        taillard_times(seed * 104729 + 5, 12, 4, times_s);
        for (size_t m = 0; m < 4; m++)
            for (size_t j = 0; j < 12; j++) mirror_s[m * 12 + j] = times_s[(3 - m) * 12 + j];
        const sw_flow_shop shop = {times_s, 12, 4}, mirror = {mirror_s, 12, 4};
        size_t there[12], back[12];
        for (size_t k = 0; k < 12; k++) {
            there[k] = (5 * k + (size_t)seed) % 12;
            back[11 - k] = there[k];
        }
        double forwards_s = sw_flow_makespan_s(&shop, there, 12);
        if (!sw_near(t, sw_flow_makespan_s(&mirror, back, 12), forwards_s, 0, "law: reversibility")) return;
        if (!sw_near(t, sw_flow_machine_bound_s(&mirror), sw_flow_machine_bound_s(&shop), 0, "law: reversibility"))
            return;
    }
    t->seed = 0;
}

static void impossible_shops_have_no_makespan(sw_test *t)
{
    const double times_s[] = {3, 5, 1, 2};
    const sw_flow_shop none = {times_s, 2, 0}, many = {times_s, 2, 65};
    const size_t order[] = {0, 1};
    sw_true(t, isnan(sw_flow_makespan_s(&none, order, 2)) && isnan(sw_flow_makespan_s(&many, order, 2)));
}

SW_TESTS(SW_CASE(johnson_orders_the_textbook_example), SW_CASE(taillard_makes_the_published_times),
         SW_CASE(file_order_bound_and_certificate_of_the_first_instance),
         SW_CASE(johnsons_order_is_as_good_as_any_and_the_bound_is_never_above),
         SW_CASE(the_mirrored_shop_takes_as_long), SW_CASE(impossible_shops_have_no_makespan))
