#include "reckon_solved.h"
#include "siting/site/site.h"

#include <math.h>

static void wall_before_a_panel_is_the_handbooks(sw_test *t)
{
    const char *book = "handbook FS-21, computed";
    const double *o = SOLVED(t, "wall_before_panel", "W=500", "H=600", "T=250", "d=300");
    sw_near(t, o[0], 0.5067, 6e-5, book);
    sw_near(t, o[1], 125.79, 6e-3, book);
    sw_near(t, o[2], 517.5, 0.06, book);
    sw_near(t, SOLVED(t, "wall_before_panel", "W=500", "H=600", "T=250", "d=300", "R=2.5")[1], 123.82, 6e-3, book);
}

static void shields_and_pipes_are_the_handbooks(sw_test *t)
{
    const double *o = SOLVED(t, "wall_behind_shield", "W=500", "H=600", "T=250", "d=200", "eb=0.25");
    sw_near(t, o[0], 125.69, 6e-3, "handbook FS-23, computed");
    sw_near(t, o[1], 57.02, 6e-3, "handbook FS-23, computed");
    o = SOLVED(t, "wall_beside_pipe", "D=150", "T=300", "s=525");
    sw_near(t, o[0], 1.0 / 7, 1e-9, "handbook S5.2: F = r/s");
    sw_near(t, o[1], 75.83, 6e-3, "handbook FS-22, computed");
    double to_k = SOLVED(t, "pipe_outside", "D=150", "Da=150", "T=300")[0] + 273.15, rise_k = to_k - 293.15;
    double lost = 0.9 * 5.670374e-8 * (pow(to_k, 4) - pow(293.15, 4)) + 1.31 * rise_k * cbrt(rise_k);
    sw_near(t, lost / 280, 6.8, 1e-4, "ASHRAE, chimney chapter (from memory): 6.8 W/(m2 K)");
    sw_near(t, SOLVED(t, "stack_contact", "D=225", "Da=449", "R=0.1141")[0], 273, 0.5, "handbook FS-7, computed");
}

static void air_of_the_room_is_the_handbooks(sw_test *t)
{
    sw_near(t, SOLVED(t, "vent_flow", "A=550")[0], 3.067, 6e-4, "handbook FS-17, computed");
    const double *o = SOLVED(t, "vent_area", "V=16.253");
    sw_near(t, o[0], 2914, 0.6, "handbook FS-17, computed");
    sw_near(t, o[1], 2.582, 6e-4, "handbook FS-17, computed");
    o = SOLVED(t, "house_leakage", "A=250");
    sw_near(t, o[0], 242.06, 6e-3, "handbook FS-18, computed");
    sw_near(t, o[1], 98.306, 2e-3, "handbook FS-18, computed");
    sw_near(t, SOLVED(t, "room_depression", "V=300", "A=250")[0], 5.565, 6e-4, "handbook FS-18, computed");
    o = SOLVED(t, "room_depression", "V=300", "A=250", "vent=3850");
    sw_near(t, o[0], 4.901, 6e-4, "handbook FS-18, computed");
    sw_true(t, o[1] > 3850);
    sw_true(t, isnan(SOLVED(t, "room_depression", "V=300", "A=0")[0]));
}

static void rules_are_the_handbooks(sw_test *t)
{
    const double *o = SOLVED(t, "room_air_rules", "P=7", "q50=8");
    sw_near(t, o[0], 1100, 1e-6, "handbook FS-16");
    sw_near(t, o[1], 28, 1e-9, "handbook FS-16");
    sw_near(t, SOLVED(t, "room_air_rules", "P=12", "q50=8", "stabiliser=1")[0], 7450, 1e-6, "handbook FS-16");
    sw_near(t, SOLVED(t, "room_air_rules", "P=7", "q50=3")[0], 3850, 1e-6, "handbook FS-16");
    o = SOLVED(t, "hearth_plate", "w=500", "d=400");
    sw_near(t, o[0], 800, 1e-9, "handbook FS-24");
    sw_near(t, o[1], 775, 1e-9, "handbook FS-24");
    sw_near(t, SOLVED(t, "hearth_plate", "w=500", "d=400", "open=1")[1], 850, 1e-9, "handbook FS-24");
    o = SOLVED(t, "flue_rule", "P=7");
    sw_near(t, o[0], 150, 1e-9, "handbook FS-15");
    sw_near(t, o[1], 125, 1e-9, "handbook FS-15");
    sw_near(t, o[2], 5.09, 6e-3, "handbook FS-15");
}

static void outlets_are_the_handbooks(sw_test *t)
{
    sw_near(t, SOLVED(t, "outlet_height", "pitch=40", "r=4000")[0], 1930, 0.6, "handbook FS-14, computed");
    sw_near(t, SOLVED(t, "outlet_height", "pitch=40", "r=1500")[0], 1259, 0.6, "handbook FS-14, computed");
    sw_near(t, SOLVED(t, "outlet_height", "pitch=40", "r=1500")[1], 1868, 1, "handbook FS-14, computed");
    sw_near(t, SOLVED(t, "outlet_height", "pitch=40", "r=400")[0], 936, 0.6, "handbook FS-14, computed");
}

static void floor_under_and_supply(sw_test *t)
{
    const double *o = SOLVED(t, "floor_under", "W=500", "D=400", "T=130", "g=100", "Rp=0.05", "Rf=0.5");
    sw_near(t, (o[0] - o[1]) / 0.05, (o[1] - 20) / 0.5, 1e-9, "law: the same heat through both");
    o = SOLVED(t, "floor_under", "W=500", "D=400", "T=130", "g=100");
    sw_near(t, o[0], o[1], 1e-9, "derived: insulated, as hot as the plate");
    o = SOLVED(t, "room_supply", "m=0", "V=60", "A=250", "q50=5", "fans=300");
    sw_near(t, o[1], 5.565, 6e-4, "handbook FS-18, computed");
    sw_near(t, o[0], 1.2 * 5.565, 1e-3, "S_EB 1.2 (from memory)");
}

static void floor_load_is_the_handbooks(sw_test *t)
{
    const double *o = SOLVED(t, "floor_load", "m=160", "w=840", "d=840", "s=20");
    sw_near(t, o[0], 39.51, 6e-3, "handbook FS-25, computed");
    sw_near(t, o[1], 2.774, 2e-3, "handbook FS-25, computed (g rounded to 9.81)");
    sw_near(t, o[2], 392.4, 0.2, "handbook FS-25, computed (g rounded to 9.81)");
}

static void what_cannot_be_gives_no_number(sw_test *t)
{
    sw_true(t, isnan(SOLVED(t, "wall_before_panel", "W=500", "H=600", "T=10", "d=300")[1]));
    sw_true(t, isnan(SOLVED(t, "wall_beside_pipe", "D=150", "T=300", "s=50")[0]));
    sw_true(t, isnan(SOLVED(t, "stack_contact", "D=225", "Da=200", "R=0.1")[0]));
    sw_true(t, isnan(SOLVED(t, "flue_rule", "P=60")[0]));
    sw_true(t, isnan(SOLVED(t, "room_air_rules", "P=40", "q50=8")[1]));
}

SW_TESTS(SW_CASE(wall_before_a_panel_is_the_handbooks), SW_CASE(shields_and_pipes_are_the_handbooks),
         SW_CASE(air_of_the_room_is_the_handbooks), SW_CASE(rules_are_the_handbooks),
         SW_CASE(outlets_are_the_handbooks), SW_CASE(floor_load_is_the_handbooks), SW_CASE(floor_under_and_supply),
         SW_CASE(what_cannot_be_gives_no_number))
