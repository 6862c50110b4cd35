/* Pipes, stacks and the flue on their way through the house: distances, sizes, outlet. */
#include "site_house.h"

static void bare_pipe_keeps_three_diameters_in_england(sw_test *t)
{
    placed *p = placed_stove(t);
    sw_near(t, need(t, solved(t, p), "combustible beside pipe")->needed_mm, 450, 1e-9,
            "Approved Document J, diagram 19");
    p->parts[0].combustible_mm = 440;
    judged(t, p, "flue_distance", "pipe", SW_FAILS);
    sw_near(t, finding(&solved(t, p)->findings, "pipe_temperature", "pipe")->value, 56.3, 0.5,
            "handbook FS-22, computed: 75.83 degC at 0.525 m from the axis, here 0.515 m");
    p->house.code = "USA";
    sw_near(t, need(t, solved(t, p), "combustible beside pipe")->needed_mm, 457, 1e-9, "NFPA 211 (articles)");
    p->house.code = "Germany";
    sw_near(t, need(t, solved(t, p), "combustible beside pipe")->needed_mm, 400, 1e-9, "model firing ordinance, 8");
    const sw_flue_layer wool = {"mineral wool", 25, 0.07};
    p->parts[0].layers = &wool;
    p->parts[0].layer_count = 1;
    sw_near(t, need(t, solved(t, p), "combustible beside pipe")->needed_mm, 100, 1e-9, "model firing ordinance, 8");
}

static void stack_keeps_its_distance_by_code(sw_test *t)
{
    placed *p = placed_stove(t);
    sw_near(t, need(t, solved(t, p), "combustible beside liner")->needed_mm, 40, 1e-9, "Approved Document J, 2.18");
    p->parts[1].outer_mm = 150 + 2 * 190;
    sw_near(t, need(t, solved(t, p), "combustible beside liner")->needed_mm, 10, 1e-9,
            "Approved Document J, 2.18: 200 mm from the flue");
    p->house.code = "USA";
    sw_near(t, need(t, solved(t, p), "combustible beside liner")->needed_mm, 51, 1e-9, "IRC, masonry chimneys");
    p->parts[1].around = SW_OUTDOORS;
    sw_near(t, need(t, solved(t, p), "combustible beside liner")->needed_mm, 25, 1e-9, "IRC, masonry chimneys");
    p->house.code = "Germany";
    sw_near(t, need(t, solved(t, p), "combustible beside liner")->needed_mm, 400, 1e-9, "model firing ordinance, 8");
    p->parts[1].resistance = 0.12;
    sw_near(t, need(t, solved(t, p), "combustible beside liner")->needed_mm, 50, 1e-9, "model firing ordinance, 8");
}

static void walls_described_by_layers_count_as_those_declared(sw_test *t)
{
    static const sw_flue_layer sheath[] = {{"mild steel", 2, NAN}, {"mineral wool", 25, NAN}},
                               gap[] = {{"mild steel", 2, NAN}, {"air gap", 25, NAN}}, brick = {"brick", 112, NAN};
    placed *p = placed_stove(t);
    p->house.code = "Germany";
    p->parts[0].layers = sheath;
    p->parts[0].layer_count = 2;
    sw_near(t, need(t, solved(t, p), "combustible beside pipe")->needed_mm, 100, 1e-9, "model firing ordinance, 8");
    p->parts[0].layers = gap;
    sw_near(t, need(t, solved(t, p), "combustible beside pipe")->needed_mm, 400, 1e-9, "model firing ordinance, 8");
    p->parts[1].layers = sheath;
    p->parts[1].layer_count = 2;
    p->parts[1].outer_mm = NAN;
    sw_near(t, need(t, solved(t, p), "combustible beside liner")->needed_mm, 50, 1e-9, "model firing ordinance, 8");
    p->parts[1].layers = &brick;
    p->parts[1].layer_count = 1;
    p->parts[1].round = false;
    p->parts[1].width_mm = p->parts[1].depth_mm = 225; /* 0.114 m2 K/W: handbook S1.9 */
    p->parts[1].combustible_mm = 0;
    sw_near(t, need(t, solved(t, p), "combustible beside liner")->needed_mm, 400, 1e-9, "model firing ordinance, 8");
    judged(t, p, "stack_contact", "liner", SW_FAILS);
    sw_near(t, finding(&solved(t, p)->findings, "stack_contact", "liner")->limit, 273, 1,
            "handbook FS-7, computed: gas of 280 degC is too hot");
}

static void timber_against_a_half_brick_stack_fails(sw_test *t)
{
    placed *p = placed_stove(t);
    p->parts[1].round = false;
    p->parts[1].width_mm = p->parts[1].depth_mm = 225;
    p->parts[1].resistance = 0.1141;
    p->parts[1].combustible_mm = 0;
    judged(t, p, "stack_contact", "liner", SW_FAILS);
    sw_near(t, finding(&solved(t, p)->findings, "stack_contact", "liner")->limit, 273, 0.5,
            "handbook FS-7, computed: gas of 280 degC is too hot");
}

static void flue_sizes_are_judged(sw_test *t)
{
    placed *p = placed_stove(t);
    p->parts[0].width_mm = p->parts[1].width_mm = 125;
    judged(t, p, "flue_size", "liner", SW_WATCH); /* handbook FS-15: enough for an exempt stove */
    p->parts[0].width_mm = p->parts[1].width_mm = 110;
    judged(t, p, "flue_size", "liner", SW_FAILS);
    p->parts[0].width_mm = 150;
    judged(t, p, "flue_share", "liner", SW_FAILS);
    p->house.code = "USA";
    p->parts[1].round = false;
    p->parts[1].width_mm = p->parts[1].depth_mm = 300;
    judged(t, p, "flue_share", "liner", SW_FAILS);
    sw_near(t, finding(&solved(t, p)->findings, "flue_share", "liner")->value, 5.09, 6e-3, "handbook FS-15, computed");
    p->house.code = "Germany";
    judged(t, p, "flue_size", "liner", SW_HOLDS);
    p->parts[1].width_mm = 120;
    judged(t, p, "flue_size", "liner", SW_FAILS);
}

static void no_part_of_the_flue_is_smaller_than_the_stoves_outlet(sw_test *t)
{
    placed *p = placed_stove(t);
    p->in.collar_mm = 150;
    judged(t, p, "flue_share", "pipe", SW_HOLDS);
    judged(t, p, "flue_share", "liner", SW_HOLDS);
    p->in.collar_mm = 180;
    judged(t, p, "flue_share", "pipe", SW_FAILS);
    judged(t, p, "flue_share", "liner", SW_FAILS);
    p->parts[1].width_mm = 180;
    judged(t, p, "flue_share", "liner", SW_HOLDS);
    sw_near(t, finding(&solved(t, p)->findings, "flue_share", "pipe")->value, 150.0 * 150 / (180 * 180), 1e-12,
            "derived");
}

static void level_and_falling_pipes_are_told(sw_test *t)
{
    placed *p = placed_stove(t);
    p->parts[0].rise_m = 0.5;
    judged(t, p, "level_pipe", "pipe", SW_WATCH);
    p->parts[0].rise_m = -0.1;
    judged(t, p, "falling_pipe", "pipe", SW_FAILS);
}

static void outlet_is_measured_against_its_code(sw_test *t)
{
    placed *p = placed_stove(t);
    judged(t, p, "outlet_height", "outlet", SW_HOLDS);
    p->house.roof.above_m = 0.9; /* handbook FS-14: 0.936 m */
    judged(t, p, "outlet_height", "outlet", SW_FAILS);
    p->house.roof.above_m = NAN;
    judged(t, p, "outlet_height", "outlet", SW_UNKNOWN);
    p->house.roof.pitch_rad = NAN;
    judged(t, p, "outlet_height", "outlet", SW_UNKNOWN);
    p->parts[1].length_m = p->parts[1].rise_m = 3;
    judged(t, p, "flue_height", "flue", SW_WATCH);
}

SW_TESTS(SW_CASE(bare_pipe_keeps_three_diameters_in_england), SW_CASE(stack_keeps_its_distance_by_code),
         SW_CASE(walls_described_by_layers_count_as_those_declared), SW_CASE(timber_against_a_half_brick_stack_fails),
         SW_CASE(flue_sizes_are_judged), SW_CASE(no_part_of_the_flue_is_smaller_than_the_stoves_outlet),
         SW_CASE(level_and_falling_pipes_are_told), SW_CASE(outlet_is_measured_against_its_code))
