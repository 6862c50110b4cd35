/* Large kinds planned as rectangles: the division worth most, and a batch whose sheets can be filled to the last corner. */
#include "making/nest/nest_cuts_parts.h"
#include "scenes.h"

#include <math.h>

static bool open_core(sw_test *t, scene *s, nest_core *core)
{
    *core = (nest_core){.run = &t->run, .in = &s->in, .opt = &s->opt, .stop_at_s = (double)INFINITY};
    return sw_ok(t, nest_core_make(core));
}

/* Two ways to cut a sheet of 1000 x 600, neither a grid. */
static void six_plates(scene *s, sw_run *run, size_t each, double web_mm)
{
    static const double sides[][2] = {{620, 350}, {380, 350}, {1000, 250}, {550, 600}, {450, 330}, {450, 270}};
    static const char *names[] = {"a", "b", "c", "d", "e", "f"};
    scene_begin(s, run, web_mm, 0);
    for (size_t i = 0; i < 6; i++)
        scene_shape(s, names[i], scene_box(s, sides[i][0], sides[i][1]), each, SW_TURN_QUARTER);
    scene_stock(s, "sheet", scene_box(s, 1000 + 3 * web_mm, 600 + 3 * web_mm), 0, 100);
}

static void the_division_worth_most_fills_the_sheet(sw_test *t)
{
    scene s;
    nest_core core;
    nest_pattern p;
    six_plates(&s, &t->run, 10, 0);
    nest_cuts *cuts = SW_SCRATCH(&t->run, 1, nest_cuts);
    if (!sw_true(t, cuts != NULL) || !open_core(t, &s, &core) || !sw_ok(t, nest_cuts_make(&core, cuts))) return;
    sw_true(t, cuts->kind_count == 6 && cuts->board_count == 1);
    if (sw_ok(t, nest_cuts_best(cuts, &cuts->boards[0], cuts->box_mm2, &p)))
        sw_near(t, p.box_mm2, 1000.0 * 600.0, 1e-6, "law: the plates were cut from that sheet");
    nest_core_close(&core);
}

/* Every plate lies on the sheet, and none nearer to another than the web: by their boxes. */
static void check_apart(sw_test *t, const nest_core *core, const nest_pattern *p, double web_mm)
{
    for (size_t i = 0; i < p->spot_count; i++) {
        const nest_turned *a = &core->turned[p->spots[i].turned];
        sw_point at = p->spots[i].at;
        sw_true(t, at.x_mm >= -1e-9 && at.y_mm >= -1e-9 && at.x_mm + a->width_mm <= 1000 + 3 * web_mm + 1e-9 &&
                       at.y_mm + a->height_mm <= 600 + 3 * web_mm + 1e-9);
        for (size_t j = 0; j < i; j++) {
            const nest_turned *b = &core->turned[p->spots[j].turned];
            sw_point to = p->spots[j].at;
            double dx = fmax(to.x_mm - at.x_mm - a->width_mm, at.x_mm - to.x_mm - b->width_mm);
            double dy = fmax(to.y_mm - at.y_mm - a->height_mm, at.y_mm - to.y_mm - b->height_mm);
            sw_true(t, fmax(dx, dy) >= web_mm - 1e-9);
        }
    }
}

static void what_is_divided_keeps_the_web(sw_test *t)
{
    sw_random random = sw_random_seeded(4);
    scene s;
    nest_core core;
    six_plates(&s, &t->run, 10, 6.3);
    nest_cuts *cuts = SW_SCRATCH(&t->run, 1, nest_cuts);
    if (!sw_true(t, cuts != NULL) || !open_core(t, &s, &core) || !sw_ok(t, nest_cuts_make(&core, cuts))) return;
    for (int k = 0; k < 20; k++) {
        nest_pattern p;
        double worth[NEST_CUT_KINDS];
        for (size_t i = 0; i < cuts->kind_count; i++)
            worth[i] = cuts->box_mm2[i] * sw_random_between(&random, 0.5, 1.5);
        if (!sw_ok(t, nest_cuts_best(cuts, &cuts->boards[0], worth, &p))) break;
        sw_true(t, p.spot_count > 0);
        check_apart(t, &core, &p, 6.3);
    }
    nest_core_close(&core);
}

/* 120 plates of 40 whole sheets. */
static void the_mix_that_the_batch_can_afford_is_found(sw_test *t)
{
    scene s;
    nest_core core;
    nest_way way;
    nest_plan plan = {.spot_count = 0};
    nest_bench *bench = SW_SCRATCH(&t->run, 1, nest_bench);
    six_plates(&s, &t->run, 20, 0);
    if (!sw_true(t, bench != NULL) || !open_core(t, &s, &core) || !sw_ok(t, nest_bench_make(&core, bench))) return;
    if (!sw_ok(t, nest_way_first(&core, &way)) ||
        !sw_ok(t, nest_plan_make(&core, bench, &way, (nest_keep){NULL, NULL}, &plan)) ||
        !sw_ok(t, nest_cuts_improve(&core, bench, &way, &plan)))
        return;
    size_t sheets = 0;
    for (size_t i = 0; i < plan.layout_count; i++) sheets += plan.layouts[i].repeat;
    sw_true(t, plan.left_over == 0);
    sw_near(t, (double)sheets, 40, 0, "law: two sheets were cut into six plates, 20 times each");
    nest_core_close(&core);
}

SW_TESTS(SW_CASE(the_division_worth_most_fills_the_sheet), SW_CASE(what_is_divided_keeps_the_web),
         SW_CASE(the_mix_that_the_batch_can_afford_is_found))
