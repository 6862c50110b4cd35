#include "scene.h"

static sw_item board(sw_test *t, double w_mm, double h_mm, double thickness_mm, sw_frame place)
{
    sw_frame *kept = SW_KEEP(&t->run, 1, sw_frame);
    sw_contour outline = {0};
    *kept = place;
    sw_ok(t, sw_contour_rectangle(&t->run, (sw_box){0, 0, w_mm, h_mm}, 0.0, &outline));
    return (sw_item){.number = "L-01",
                     .name = "board",
                     .group = "g",
                     .role = "lining",
                     .material = "vermiculite board",
                     .kind = SW_ITEM_BOARD,
                     .shape = {.outline = outline},
                     .thickness_mm = thickness_mm,
                     .placements = kept,
                     .count = 1};
}

static sw_frame at(double x_mm, double y_mm, double z_mm)
{
    sw_frame f = sw_frame_world();
    f.origin = (sw_vec3){x_mm, y_mm, z_mm};
    return f;
}

static const sw_sheet_result *with_items(scene *s, const sw_item *items, size_t count)
{
    s->stove.items = items;
    s->stove.item_count = count;
    return solved(s);
}

static void a_board_may_lie_on_a_plate_but_not_in_it(sw_test *t)
{
    scene *s = new_scene(t);
    add_plate(s, 300, 200, sw_frame_world()); /* z from -1.5 to 1.5 */
    sw_item lying = board(t, 100, 100, 30, at(50, 50, 1.5));
    const sw_sheet_result *r = with_items(s, &lying, 1);
    judged(s, r, "collision", SW_HOLDS);
    sw_contains(t, find(r, "collision")->what, "1 items");
    sw_item sunk = board(t, 100, 100, 30, at(50, 50, 1.0));
    r = with_items(s, &sunk, 1);
    judged(s, r, "collision", SW_FAILS);
    sw_contains(t, find(r, "collision")->where, "L-01 board");
    sw_near(t, find(r, "collision")->value, 0.5, 0.06, "derived: sunk by 0.5 mm; the depth is a lower bound");
    sw_item under = board(t, 100, 100, 30, at(50, 50, -31.5));
    judged(s, with_items(s, &under, 1), "collision", SW_HOLDS); /* from z = 0 to thickness of its place */
}

static void a_board_wholly_inside_a_thick_one_collides(sw_test *t)
{
    scene *s = new_scene(t);
    add_plate(s, 50, 50, at(1000, 0, 0));
    const sw_item items[2] = {board(t, 200, 200, 60, at(0, 0, 0)), board(t, 50, 50, 20, at(80, 80, 20))};
    judged(s, with_items(s, items, 2), "collision", SW_FAILS);
}

static void a_pane_in_the_opening_of_a_frame_is_free(sw_test *t)
{
    scene *s = new_scene(t);
    maker *m = maker_new(&t->run, 1, 3);
    maker_rectangle(m, "main", 300, 200);
    sw_vertex v[4] = {{50, 50, 0}, {50, 150, 0}, {250, 150, 0}, {250, 50, 0}};
    maker_window(m, 0, v, 4);
    add_piece(s, m);
    sw_item pane = board(t, 196, 96, 4, at(52, 52, -2));
    judged(s, with_items(s, &pane, 1), "collision", SW_HOLDS);
    sw_item wide = board(t, 204, 96, 4, at(48, 52, -2));
    judged(s, with_items(s, &wide, 1), "collision", SW_FAILS);
}

static void what_has_no_shape_is_not_looked_at(sw_test *t)
{
    scene *s = new_scene(t);
    add_plate(s, 300, 200, sw_frame_world());
    sw_item rope = board(t, 100, 100, 30, at(50, 50, 0));
    rope.kind = SW_ITEM_ROPE;
    rope.shape = (sw_region){0};
    judged(s, with_items(s, &rope, 1), "collision", SW_HOLDS);
}

static void running_out_of_memory_with_items_is_reported(sw_test *t)
{
    scene *s = new_scene(t);
    add_plate(s, 300, 200, sw_frame_world());
    sw_item sunk = board(t, 100, 100, 30, at(50, 50, 1.0));
    s->stove.items = &sunk;
    s->stove.item_count = 1;
    refuses_without_memory(t, s, 10);
}

SW_TESTS(SW_CASE(a_board_may_lie_on_a_plate_but_not_in_it), SW_CASE(a_board_wholly_inside_a_thick_one_collides),
         SW_CASE(a_pane_in_the_opening_of_a_frame_is_free), SW_CASE(what_has_no_shape_is_not_looked_at),
         SW_CASE(running_out_of_memory_with_items_is_reported))
