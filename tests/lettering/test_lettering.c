#include "lettering/lettering.h"
#include "sw_test.h"

static sw_box box_of(const sw_path *paths, size_t count)
{
    sw_box box = {1e9, 1e9, -1e9, -1e9};
    for (size_t i = 0; i < count; i++)
        for (size_t k = 0; k < paths[i].n; k++) {
            sw_vertex v = paths[i].v[k];
            if (v.x_mm < box.x0_mm) box.x0_mm = v.x_mm;
            if (v.y_mm < box.y0_mm) box.y0_mm = v.y_mm;
            if (v.x_mm > box.x1_mm) box.x1_mm = v.x_mm;
            if (v.y_mm > box.y1_mm) box.y1_mm = v.y_mm;
        }
    return box;
}

static void capitals_stand_on_the_line_and_are_as_high_as_asked(sw_test *t)
{
    const sw_path *paths = NULL;
    size_t count = 0;
    sw_ok(t, sw_lettering(&t->run, "AH", (sw_point){100, 50}, 8, 0, &paths, &count));
    sw_box box = box_of(paths, count);
    sw_near(t, box.y0_mm, 50, 1e-9, "derived: the text stands at y = 50");
    sw_near(t, box.y1_mm, 58, 1e-9, "derived: capitals are 8 high");
    sw_true(t, box.x0_mm >= 100 && box.x1_mm < 120);
}

static void turned_text_runs_upward(sw_test *t)
{
    const sw_path *paths = NULL;
    size_t count = 0;
    sw_ok(t, sw_lettering(&t->run, "A-01", (sw_point){0, 0}, 10, SW_PI / 2, &paths, &count));
    sw_box box = box_of(paths, count);
    sw_true(t, box.y1_mm > 20 && box.x1_mm <= 1e-9 && box.x0_mm >= -10.001);
}

static void every_failed_allocation_is_survived(sw_test *t)
{
    const sw_path *paths = NULL;
    size_t count = 0;
    for (size_t nth = 1; nth < 4; nth++) {
        sw_arena_fail_at(t->run.keep, nth);
        sw_true(t, sw_lettering(&t->run, "B", (sw_point){0, 0}, 10, 0, &paths, &count) == SW_NO_MEMORY);
    }
}

SW_TESTS(SW_CASE(capitals_stand_on_the_line_and_are_as_high_as_asked), SW_CASE(turned_text_runs_upward),
         SW_CASE(every_failed_allocation_is_survived))
