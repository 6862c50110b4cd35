/* The heat scene of the demo stoves: its numbers against those of their descriptions, and what faces what. */
#include "burning/heat/heat.h"
#include "design/design.h"
#include "sw_test.h"

#include <math.h>
#include <string.h>

static const sw_scene *demo(sw_test *t, const char *name)
{
    const sw_model *model = NULL;
    const sw_sheet_result *sheet = NULL;
    const sw_scene *scene = NULL;
    sw_sheet_options sheet_opt = sw_sheet_options_defaults();
    sw_scene_options opt = sw_scene_options_defaults();
    const char *stove = sw_text_format(&t->run, t->run.keep, "%s/demo/%s.stove.lua", SW_SOURCE_DIR, name);
    sw_design_input in = {.stove_path = stove, .works_path = SW_SOURCE_DIR "/demo/demo.works.lua"};
    if (!sw_ok(t, sw_design_read(&t->run, &in, &model))) return NULL;
    if (!sw_ok(t, sw_sheet_solve(&t->run, model, &sheet_opt, &sheet))) return NULL;
    sw_ok(t, sw_scene_make(&t->run, model->stove, sheet, &opt, &scene));
    return scene;
}

static double area(const sw_scene *s, const char *part, sw_medium medium)
{
    double sum = 0.0;
    for (size_t i = 0; i < s->surface_count; i++)
        if (strcmp(s->parts[s->surfaces[i].part].name, part) == 0 && s->surfaces[i].medium == medium)
            sum += s->surfaces[i].area_m2;
    return sum;
}

static double class_area(const sw_scene *s, sw_part_class kind, sw_medium medium)
{
    double sum = 0.0;
    for (size_t i = 0; i < s->surface_count; i++)
        if (s->parts[s->surfaces[i].part].kind == kind && s->surfaces[i].medium == medium)
            sum += s->surfaces[i].area_m2;
    return sum;
}

static double contact_m2(const sw_scene *s, const char *a, const char *b)
{
    double sum = 0.0;
    for (size_t i = 0; i < s->contact_count; i++) {
        const char *p = s->parts[s->contacts[i].a].name, *q = s->parts[s->contacts[i].b].name;
        bool there = (strcmp(p, a) == 0 && strcmp(q, b) == 0) || (strcmp(p, b) == 0 && strcmp(q, a) == 0);
        if (there) sum += s->contacts[i].area_m2;
    }
    return sum;
}

static bool finds(const sw_scene *s, const char *check)
{
    for (size_t i = 0; i < s->findings.count; i++)
        if (strcmp(s->findings.items[i].check, check) == 0) return true;
    return false;
}

static void the_convection_heater_has_the_measures_of_its_description(sw_test *t)
{
    const sw_scene *s = demo(t, "a");
    if (!sw_true(t, s != NULL)) return;
    sw_near(t, s->firebox_m3, 0.0420, 0.0045, "derived: 360 x 265 x 380 mm and the recess before the door");
    sw_near(t, s->base_m2, 0.360 * 0.265, 0.02, "derived: clear width and depth");
    sw_near(t, s->throat_m2, 0.0173, 0.003, "derived: 412 mm x (65 mm less the nose of the throat plate)");
    sw_near(t, sqrt(s->collar_m2 / SW_PI), 0.075, 1e-4, "derived: collar of 150 mm");
    sw_near(t, s->gap_width_m, 0.038, 0.003, "derived: gap of 36 mm plus a wall less a skin");
    sw_near(t, area(s, "pane", SW_MEDIUM_ROOM), 0.1090, 0.008, "derived: window of 316 x 345 mm");
    sw_near(t, class_area(s, SW_PART_SHELL, SW_MEDIUM_FIRE), 0.0, 1e-9, "derived: the shell is outside");
    sw_near(t, area(s, "left shell", SW_MEDIUM_ROOM), 0.401, 0.03, "derived: its outer face");
}

static void boards_face_the_fire_and_touch_the_walls_behind(sw_test *t)
{
    const sw_scene *s = demo(t, "a");
    if (!sw_true(t, s != NULL)) return;
    sw_near(t, contact_m2(s, "left side", "side board 1"), 0.1019, 0.01, "derived: face of the board, lip of 40 mm");
    sw_near(t, contact_m2(s, "back wall", "back board"), 0.1419, 0.012, "derived: face of the board");
    for (size_t i = 0; i < s->surface_count; i++) {
        const sw_scene_surface *f = &s->surfaces[i];
        if (s->parts[f->part].kind != SW_PART_LINING || f->medium > SW_MEDIUM_UPPER) continue;
        sw_true(t, f->hot_side);
    }
    sw_true(t, area(s, "left side", SW_MEDIUM_GAP) > 0.15);
    sw_true(t, area(s, "left side", SW_MEDIUM_ROOM) < 0.01);
}

static void every_demo_stove_has_fire_gap_and_room_and_no_odd_part(sw_test *t)
{
    static const char *const names[] = {"a", "b", "c"};
    for (size_t i = 0; i < 3; i++) {
        const sw_scene *s = demo(t, names[i]);
        if (!sw_true(t, s != NULL)) return;
        sw_near(t, sqrt(s->collar_m2 / SW_PI), 0.075, 1e-4, "derived: collar of 150 mm");
        sw_true(t, class_area(s, SW_PART_PANE, SW_MEDIUM_FIRE) > 0.05);
        sw_true(t, class_area(s, SW_PART_PANE, SW_MEDIUM_ROOM) > 0.04);
        sw_true(t, class_area(s, SW_PART_SHELL, SW_MEDIUM_FIRE) + class_area(s, SW_PART_SHELL, SW_MEDIUM_UPPER) < 1e-9);
        sw_true(t, class_area(s, SW_PART_SHELL, SW_MEDIUM_GAP) > 1.0);
        sw_true(t, s->closure < 1e-6);
        sw_true(t, s->throat_m2 > 0.01 && s->throat_m2 < 0.06);
        sw_true(t, !finds(s, "held") && !finds(s, "role") && !finds(s, "shape") && !finds(s, "pane"));
    }
}

static void no_fire_gas_is_in_the_oven(sw_test *t)
{
    const sw_scene *s = demo(t, "c");
    if (!sw_true(t, s != NULL)) return;
    sw_near(t, area(s, "oven liner", SW_MEDIUM_UPPER) + area(s, "shelf 1", SW_MEDIUM_UPPER), 0.0, 1e-9, "derived");
    sw_true(t, area(s, "oven wrap", SW_MEDIUM_UPPER) > 0.2);
}

static sw_duct duct(const sw_scene *s, const char *part)
{
    for (size_t i = 0; i < s->part_count; i++)
        if (strcmp(s->parts[i].name, part) == 0) return s->parts[i].duct;
    return SW_DUCTS;
}

static void each_air_way_leads_to_the_opening_that_it_ends_at(sw_test *t)
{
    const sw_scene *a = demo(t, "a"), *c = demo(t, "c");
    if (!sw_true(t, a != NULL && c != NULL)) return;
    sw_true(t, duct(a, "ash box") == SW_DUCT_PRIMARY && duct(a, "ash pan") == SW_DUCT_PRIMARY);
    sw_true(t, duct(a, "airwash channel") == SW_DUCT_WASH && duct(a, "rear jacket") == SW_DUCT_JETS);
    sw_true(t, duct(a, "air spigot") == SW_DUCT_NONE && duct(a, "left side") == SW_DUCT_NONE);
    sw_true(t, duct(c, "ash pan") == SW_DUCT_PRIMARY && duct(c, "jet channel") == SW_DUCT_JETS);
    sw_true(t, duct(c, "left duct") == SW_DUCT_WASH && duct(c, "wash channel") == SW_DUCT_WASH);
}

SW_TESTS(SW_CASE(the_convection_heater_has_the_measures_of_its_description),
         SW_CASE(boards_face_the_fire_and_touch_the_walls_behind),
         SW_CASE(every_demo_stove_has_fire_gap_and_room_and_no_odd_part), SW_CASE(no_fire_gas_is_in_the_oven),
         SW_CASE(each_air_way_leads_to_the_opening_that_it_ends_at))
