/* demo_stoves.h: the demonstration stoves read, seen and put under a fire, for tests of the whole burn. */
#ifndef SW_TESTS_DEMO_STOVES_H
#define SW_TESTS_DEMO_STOVES_H

#include "burning/burn/burn.h"
#include "design/design.h"
#include "sw_test.h"

typedef struct stove {
    const sw_model *model;
    const sw_sheet_result *sheet;
    const sw_scene *scene;
    sw_burn *burn;
    sw_burn_options opt;
    sw_heat_model heat;
} stove;

static const char *const demos[] = {SW_SOURCE_DIR "/demo/a.stove.lua", SW_SOURCE_DIR "/demo/b.stove.lua",
                                    SW_SOURCE_DIR "/demo/c.stove.lua"};
enum { DEMOS = 3 };

static inline bool read_design(sw_test *t, const sw_design_input *in, stove *s)
{
    sw_sheet_options sheet = sw_sheet_options_defaults();
    sw_scene_options scene = sw_scene_options_defaults();
    s->opt = sw_burn_options_defaults();
    s->heat = sw_heat_model_defaults();
    return sw_ok(t, sw_design_read(&t->run, in, &s->model)) &&
           sw_ok(t, sw_sheet_solve(&t->run, s->model, &sheet, &s->sheet)) &&
           sw_ok(t, sw_scene_make(&t->run, s->model->stove, s->sheet, &scene, &s->scene));
}

static inline bool read_stove(sw_test *t, const char *path, stove *s)
{
    return read_design(t, &(sw_design_input){.stove_path = path}, s);
}

static inline sw_burn_input input_of(const stove *s)
{
    return (sw_burn_input){s->model->stove, s->sheet, s->scene};
}

static inline bool settle(sw_test *t, stove *s, sw_burn_point *p)
{
    const sw_burn_input in = input_of(s);
    return sw_ok(t, sw_burn_open(&t->run, &in, &s->opt, &s->heat, &s->burn)) &&
           sw_ok(t, sw_burn_steady(&t->run, s->burn, p));
}

static inline bool again(sw_test *t, stove *s, sw_burn_point *p)
{
    return sw_ok(t, sw_burn_change(&t->run, s->burn, &s->opt, &s->heat)) &&
           sw_ok(t, sw_burn_steady(&t->run, s->burn, p));
}

#endif
