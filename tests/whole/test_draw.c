/* The stove on its real chimney: demo stove (a) in the demo houses. */
#include "design/design.h"
#include "siting/draw/draw.h"
#include "sw_test.h"

#include <math.h>
#include <string.h>

typedef struct place {
    const sw_model *model;
    const sw_sheet_result *sheet;
    const sw_scene *scene;
    sw_burn *burn;
    sw_flue_input flue;
    sw_flue_options flue_options;
    sw_draw_input in;
} place;

static sw_burn_input stove_of(const place *p)
{
    return (sw_burn_input){p->model->stove, p->sheet, p->scene};
}

static bool settle_in(sw_test *t, const char *house, place *p)
{
    const sw_design_input in = {.stove_path = SW_SOURCE_DIR "/demo/a.stove.lua", .house_path = house};
    sw_sheet_options sheet = sw_sheet_options_defaults();
    sw_scene_options scene = sw_scene_options_defaults();
    *p = (place){.flue_options = sw_flue_options_defaults()};
    if (!sw_ok(t, sw_design_read(&t->run, &in, &p->model)) ||
        !sw_ok(t, sw_sheet_solve(&t->run, p->model, &sheet, &p->sheet)) ||
        !sw_ok(t, sw_scene_make(&t->run, p->model->stove, p->sheet, &scene, &p->scene)))
        return false;
    p->flue = (sw_flue_input){.house = p->model->house,
                              .wood = sw_flue_wood_reference(),
                              .nominal = {.kg_s = 6e-3, .t_k = 600, .need_pa = 12, .most_pa = NAN, .co2_dry = 0.1}};
    p->in = (sw_draw_input){.flue = &p->flue,
                            .flue_options = &p->flue_options,
                            .limits = sw_draw_limits_defaults(),
                            .burn = sw_burn_options_defaults(),
                            .heat = sw_heat_model_defaults()};
    p->in.burn.fuel_kg_h = 2.2;
    const sw_burn_input stove = stove_of(p);
    return sw_ok(t, sw_flue_check(&t->run, &p->flue, &p->flue_options)) &&
           sw_ok(t, sw_burn_open(&t->run, &stove, &p->in.burn, &p->in.heat, &p->burn));
}

static sw_draw_weather weather(double outside_c, double wind_pa)
{
    return (sw_draw_weather){sw_k_from_c(outside_c), wind_pa, (double)NAN, (double)NAN, (double)NAN};
}

#define HOUSE(name) SW_SOURCE_DIR "/demo/" name ".house.lua"

static void both_sides_agree_at_the_point(sw_test *t)
{
    place p;
    sw_draw_point point = {0};
    if (!settle_in(t, HOUSE("demo"), &p)) return;
    if (!sw_ok(t, sw_draw_solve(&t->run, &p.in, p.burn, weather(10, 0), &point))) return;
    const sw_flue_now now = {sw_k_from_c(10), 0, point.gas_kg_s, point.flue_k, 0};
    sw_flue_gas gas = sw_flue_gas_of(&p.flue.wood, 0.1);
    sw_flue_pull pull = sw_flue_pull_of(&p.flue, &gas, &p.flue_options, now);
    sw_true(t, fabs(point.residual_pa) < 1e-3 && point.rounds < 25);
    sw_near(t, pull.draught_pa, point.draught_pa, 0.3, "the chimney alone, with nearly the same gas");
}

static void frost_draws_more_than_a_mild_day(sw_test *t)
{
    place p;
    sw_draw_point mild = {0}, frost = {0};
    if (!settle_in(t, HOUSE("demo"), &p)) return;
    if (!sw_ok(t, sw_draw_solve(&t->run, &p.in, p.burn, weather(15, 0), &mild))) return;
    if (!sw_ok(t, sw_draw_solve(&t->run, &p.in, p.burn, weather(-15, 0), &frost))) return;
    sw_true(t, frost.draught_pa > mild.draught_pa && frost.lambda > mild.lambda && frost.output_w < mild.output_w);
}

static void wind_on_the_outlet_takes_draught(sw_test *t)
{
    place p;
    sw_draw_point still = {0}, wind = {0};
    if (!settle_in(t, HOUSE("demo"), &p)) return;
    if (!sw_ok(t, sw_draw_solve(&t->run, &p.in, p.burn, weather(10, 0), &still))) return;
    if (!sw_ok(t, sw_draw_solve(&t->run, &p.in, p.burn, weather(10, 10), &wind))) return;
    sw_true(t, wind.draught_pa < still.draught_pa && wind.draught_pa > still.draught_pa - 12);
}

static void a_tall_chimney_draws_more_than_a_short_one(sw_test *t)
{
    place tall, low;
    sw_draw_point a = {0}, b = {0};
    if (!settle_in(t, HOUSE("tall"), &tall) || !settle_in(t, HOUSE("short"), &low)) return;
    if (!sw_ok(t, sw_draw_solve(&t->run, &tall.in, tall.burn, weather(5, 0), &a))) return;
    if (!sw_ok(t, sw_draw_solve(&t->run, &low.in, low.burn, weather(5, 0), &b))) return;
    sw_true(t, a.draught_pa > 2 * b.draught_pa);
}

static void a_chimney_that_does_not_draw_is_a_state_not_an_error(sw_test *t)
{
    place p;
    sw_draw_point point = {0};
    if (!settle_in(t, HOUSE("short"), &p)) return;
    sw_ok(t, sw_draw_solve(&t->run, &p.in, p.burn, weather(15, 40), &point));
    sw_true(t, point.state == SW_DRAW_NONE);
    sw_same_text(t, sw_draw_state_name(point.state), "does not draw");
}

/* The tall chimney with its slides as good as shut: whatever air the wood is given, the chimney would draw more. */
static void a_chimney_that_draws_too_much_is_a_state_of_its_own(sw_test *t)
{
    place p;
    sw_draw_point point = {0};
    if (!settle_in(t, HOUSE("tall"), &p)) return;
    p.in.burn.fuel_kg_h = 0.05;
    sw_draw_weather w = weather(-15, -100);
    sw_ok(t, sw_draw_solve(&t->run, &p.in, p.burn, w, &point));
    sw_true(t, point.state == SW_DRAW_STRONG && !sw_draw_is_point(point.state));
    sw_same_text(t, sw_draw_state_name(point.state), "too strong");
    sw_near(t, point.lambda, SW_DRAW_MOST_LAMBDA, 1e-9, "its figures are those of the most air");
}

/* A fire that no balance holds: each point says so, and the map is whole. */
static void what_does_not_settle_is_a_state_of_its_own(sw_test *t)
{
    place p;
    sw_draw_point point = {0};
    if (!settle_in(t, HOUSE("demo"), &p)) return;
    p.in.burn.fuel_kg_h = 30;
    sw_true(t, sw_draw_solve(&t->run, &p.in, p.burn, weather(10, 0), &point) == SW_NO_SOLUTION);
    sw_true(t, point.state == SW_DRAW_UNSOLVED && isnan(point.lambda));
    sw_run_clear_errors(&t->run);
    sw_draw_map map = {.columns = 2, .rows = 1, .outside_low_k = 263, .outside_high_k = 288, .share_low = 1};
    const sw_burn_input stove = stove_of(&p);
    map.share_high = 1;
    sw_ok(t, sw_draw_map_solve(&t->run, &p.in, &stove, 0, &map));
    sw_true(t, map.points[0].state == SW_DRAW_UNSOLVED && map.points[1].state == SW_DRAW_UNSOLVED);
    sw_same_text(t, sw_draw_state_name(map.points[0].state), "not solved");
}

static void a_fault_of_a_maps_row_is_given_back(sw_test *t)
{
    place p;
    sw_draw_map map = {.columns = 2, .rows = 2, .outside_low_k = 263, .outside_high_k = 288, .share_low = 0.5};
    if (!settle_in(t, HOUSE("demo"), &p)) return;
    map.share_high = 2; /* no slide opens twice */
    const sw_burn_input stove = stove_of(&p);
    sw_status status = sw_draw_map_solve(&t->run, &p.in, &stove, 0, &map);
    sw_true(t, status != SW_OK && t->run.error_count == 1);
    sw_run_clear_errors(&t->run);
    sw_true(t, map.points[2].state == SW_DRAW_UNSOLVED && sw_draw_is_point(map.points[0].state));
}

static void a_map_is_made_of_its_points_on_any_number_of_threads(sw_test *t)
{
    place p;
    sw_draw_map one = {.columns = 3,
                       .rows = 2,
                       .outside_low_k = 263,
                       .outside_high_k = 288,
                       .share_low = 0.4,
                       .share_high = 1},
                two = one;
    if (!settle_in(t, HOUSE("demo"), &p)) return;
    const sw_burn_input stove = stove_of(&p);
    t->run.threads = 1;
    if (!sw_ok(t, sw_draw_map_solve(&t->run, &p.in, &stove, 0, &one))) return;
    t->run.threads = 2;
    if (!sw_ok(t, sw_draw_map_solve(&t->run, &p.in, &stove, 0, &two))) return;
    sw_true(t, memcmp(one.points, two.points, 6 * sizeof *one.points) == 0);
    sw_draw_point alone = {0};
    sw_draw_weather w = {288, 0, (double)NAN, 1, (double)NAN};
    if (!sw_ok(t, sw_draw_solve(&t->run, &p.in, p.burn, w, &alone))) return;
    sw_near(t, one.points[5].draught_pa, alone.draught_pa, 1e-3, "the same point alone");
}

SW_TESTS(SW_CASE(both_sides_agree_at_the_point), SW_CASE(frost_draws_more_than_a_mild_day),
         SW_CASE(wind_on_the_outlet_takes_draught), SW_CASE(a_tall_chimney_draws_more_than_a_short_one),
         SW_CASE(a_chimney_that_does_not_draw_is_a_state_not_an_error),
         SW_CASE(a_chimney_that_draws_too_much_is_a_state_of_its_own),
         SW_CASE(what_does_not_settle_is_a_state_of_its_own), SW_CASE(a_fault_of_a_maps_row_is_given_back),
         SW_CASE(a_map_is_made_of_its_points_on_any_number_of_threads))
