/* scenes.h: small shapes, sheets and inputs that the tests of making/nest share. */
#ifndef SW_TESTS_MAKING_NEST_SCENES_H
#define SW_TESTS_MAKING_NEST_SCENES_H

#include "making/nest/nest.h"
#include "sw_test.h"

enum { SCENE_SHAPES = 12, SCENE_STOCK = 6 };

typedef struct scene {
    sw_run *run;
    sw_nest_shape shapes[SCENE_SHAPES];
    sw_stock stock[SCENE_STOCK];
    const sw_stock *stock_list[SCENE_STOCK];
    sw_nest_input in;
    sw_nest_options opt;
    const sw_nest_result *result;
} scene;

static inline void scene_begin(scene *s, sw_run *run, double web_mm, double margin_mm)
{
    *s = (scene){.run = run, .opt = sw_nest_options_defaults()};
    s->opt.budget_s = 0;
    s->in = (sw_nest_input){.name = "3 mm S235",
                            .shapes = s->shapes,
                            .stock = s->stock_list,
                            .web_mm = web_mm,
                            .margin_mm = margin_mm,
                            .density_kg_mm2 = 23.55e-6,
                            .scrap_price = 0.22};
}

static inline sw_region scene_polygon(scene *s, const double (*xy)[2], size_t n)
{
    sw_vertex *v = SW_KEEP(s->run, n, sw_vertex);
    for (size_t i = 0; v != NULL && i < n; i++) v[i] = (sw_vertex){xy[i][0], xy[i][1], 0};
    return (sw_region){.outline = {v, v == NULL ? 0 : n}};
}

static inline sw_region scene_box(scene *s, double w_mm, double h_mm)
{
    const double xy[][2] = {{0, 0}, {w_mm, 0}, {w_mm, h_mm}, {0, h_mm}};
    return scene_polygon(s, xy, 4);
}

static inline sw_region scene_disc(scene *s, double radius_mm)
{
    sw_vertex *v = SW_KEEP(s->run, 2, sw_vertex);
    if (v == NULL) return (sw_region){.hole_count = 0};
    v[0] = (sw_vertex){-radius_mm, 0, 1};
    v[1] = (sw_vertex){radius_mm, 0, 1};
    return (sw_region){.outline = {v, 2}};
}

/* Adds a clockwise rectangular hole. */
static inline void scene_hole(scene *s, sw_region *r, double x_mm, double y_mm, double w_mm, double h_mm)
{
    sw_contour *holes = SW_KEEP(s->run, r->hole_count + 1, sw_contour);
    const double xy[][2] = {{x_mm, y_mm}, {x_mm, y_mm + h_mm}, {x_mm + w_mm, y_mm + h_mm}, {x_mm + w_mm, y_mm}};
    if (holes == NULL) return;
    for (size_t i = 0; i < r->hole_count; i++) holes[i] = r->holes[i];
    holes[r->hole_count] = scene_polygon(s, xy, 4).outline;
    r->holes = holes;
    r->hole_count++;
}

static inline sw_nest_shape *scene_shape(scene *s, const char *name, sw_region region, size_t count, sw_turns turns)
{
    sw_nest_shape *shape = &s->shapes[s->in.shape_count];
    *shape =
        (sw_nest_shape){.name = name, .tag = (int)s->in.shape_count, .region = region, .count = count, .turns = turns};
    s->in.shape_count++;
    return shape;
}

static inline sw_stock *scene_stock(scene *s, const char *name, sw_region shape, size_t count, double price)
{
    sw_stock *stock = &s->stock[s->in.stock_count];
    sw_box box = sw_contour_box(shape.outline);
    *stock = (sw_stock){
        .name = name, .shape = shape, .length_mm = box.x1_mm, .width_mm = box.y1_mm, .count = count, .price = price};
    s->stock_list[s->in.stock_count++] = stock;
    return stock;
}

static inline sw_status scene_solve(scene *s)
{
    return sw_nest_solve(s->run, &s->in, &s->opt, &s->result);
}

static inline const char *scene_message(const scene *s)
{
    return s->run->error_count > 0 ? s->run->errors[0].text : "";
}

static inline size_t scene_placed(const scene *s)
{
    size_t n = 0;
    for (size_t i = 0; i < s->result->sheet_count; i++)
        n += s->result->sheets[i].place_count * s->result->sheets[i].repeat;
    return n;
}

#endif
