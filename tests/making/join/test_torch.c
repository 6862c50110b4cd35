/* The torch's cylinder against triangles, and the robot's order against all orders. */
#include "making/join/join_order_parts.h"
#include "sw_test.h"

static sw_vec3 somewhere(sw_random *r, double far_mm)
{
    return (sw_vec3){sw_random_between(r, -far_mm, far_mm), sw_random_between(r, -far_mm, far_mm),
                     sw_random_between(r, -far_mm, far_mm)};
}

/* Whether one of many points of the triangle lies in the cylinder shrunk (grown) by slack. */
static bool any_point_in(const join_face *f, sw_vec3 from, sw_vec3 axis, double radius_mm, double long_mm)
{
    enum { N = 60 };
    for (int i = 0; i <= N; i++)
        for (int k = 0; i + k <= N; k++) {
            double u = (double)i / N, v = (double)k / N;
            sw_vec3 p = sw_vec3_add(sw_vec3_scaled(f->a, 1 - u - v),
                                    sw_vec3_add(sw_vec3_scaled(f->b, u), sw_vec3_scaled(f->c, v)));
            sw_vec3 d = sw_vec3_sub(p, from);
            double h = sw_vec3_dot(d, axis), off = sw_vec3_length(sw_vec3_sub(d, sw_vec3_scaled(axis, h)));
            if (h > 0 && h < long_mm && off < radius_mm) return true;
        }
    return false;
}

static void the_torch_meets_what_has_a_point_in_it(sw_test *t)
{
    size_t met = 0;
    for (uint64_t seed = 1; seed <= 400; seed++) {
        t->seed = seed;
        sw_random r = sw_random_seeded(seed);
        join_face f = {.a = somewhere(&r, 50), .b = somewhere(&r, 50), .c = somewhere(&r, 50)};
        sw_vec3 from = somewhere(&r, 30), axis = sw_vec3_unit(somewhere(&r, 1));
        join_cylinder torch = join_cylinder_at(from, axis, 10, 60);
        bool meets = join_cylinder_meets(&torch, &f);
        met += meets;
        if (any_point_in(&f, from, axis, 10, 60) && !sw_true(t, meets)) return;
        if (meets && !sw_true(t, any_point_in(&f, sw_vec3_sub(from, sw_vec3_scaled(axis, 2)), axis, 12, 64))) return;
    }
    t->seed = 0;
    sw_true(t, met > 50 && met < 350);
}

static void few_seams_are_put_in_the_best_order(sw_test *t)
{
    for (uint64_t seed = 1; seed <= 20; seed++) {
        t->seed = seed;
        sw_random r = sw_random_seeded(seed);
        robot_stop stops[6];
        bool after[36] = {false}, proved = false;
        for (size_t i = 0; i < 6; i++)
            stops[i] = (robot_stop){i,
                                    {somewhere(&r, 500), somewhere(&r, 500)},
                                    sw_random_below(&r, 3) == 0,
                                    1u << sw_random_below(&r, 3),
                                    somewhere(&r, 1)};
        after[1] = true; /* 0 after 1 */
        robot_tour tour = {stops, 6, after, true, 400, 60, 4, 5};
        size_t order[6], other[6] = {0, 1, 2, 3, 4, 5};
        sw_ok(t, robot_search(&t->run, &tour, order, &proved));
        double least_s = robot_cost(&tour, order, 6);
        size_t first = 0, second = 0;
        for (size_t i = 0; i < 6; i++) {
            if (order[i] == 0) first = i;
            if (order[i] == 1) second = i;
        }
        if (!sw_true(t, proved && second < first)) return;
        for (int k = 0; k < 2000; k++) {
            size_t i = sw_random_below(&r, 6), m = sw_random_below(&r, 6), held = other[i];
            other[i] = other[m];
            other[m] = held;
            if (!sw_true(t, robot_cost(&tour, other, 6) >= least_s - 1e-9)) return;
        }
    }
}

static void many_seams_cost_no_more_than_in_the_order_given(sw_test *t)
{
    enum { N = 24 };
    static const bool none[N * N];
    for (uint64_t seed = 1; seed <= 5; seed++) {
        t->seed = seed;
        sw_random r = sw_random_seeded(seed);
        robot_stop stops[N];
        size_t order[N], given[N];
        bool proved = true, seen[N] = {false};
        for (size_t i = 0; i < N; i++) {
            given[i] = i;
            stops[i] = (robot_stop){
                i, {somewhere(&r, 500), somewhere(&r, 500)}, false, 1u << sw_random_below(&r, 3), somewhere(&r, 1)};
        }
        robot_tour tour = {stops, N, none, false, 400, 60, 4, 5};
        sw_ok(t, robot_search(&t->run, &tour, order, &proved));
        for (size_t i = 0; i < N; i++) seen[order[i]] = true;
        for (size_t i = 0; i < N; i++) sw_true(t, seen[i]);
        if (!sw_true(t, !proved && robot_cost(&tour, order, N) < robot_cost(&tour, given, N))) return;
    }
}

SW_TESTS(SW_CASE(the_torch_meets_what_has_a_point_in_it), SW_CASE(few_seams_are_put_in_the_best_order),
         SW_CASE(many_seams_cost_no_more_than_in_the_order_given))
