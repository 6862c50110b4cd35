/* Houses: the five of demo/, the example of the manual, what is not said, and settings. */
#include "reading.h"

#include <stdlib.h>

static sw_status read_house_text(sw_test *t, const char *text, size_t length, const char *setting,
                                 const sw_model **model)
{
    sw_design_texts in = {
        .house = {"test.house.lua", text, length}, .settings = &setting, .setting_count = setting == NULL ? 0 : 1};
    sw_run_clear_errors(&t->run);
    return sw_design_read_texts(&t->run, &in, model);
}

static const sw_house *house_of(sw_test *t, const char *text)
{
    const sw_model *model = NULL;
    return sw_ok(t, read_house_text(t, text, strlen(text), NULL, &model)) ? model->house : NULL;
}

static const sw_house *house_in(sw_test *t, const char *path, const char *setting)
{
    const sw_model *model = NULL;
    const sw_design_input in = {.house_path = path, .settings = &setting, .setting_count = setting == NULL ? 0 : 1};
    sw_run_clear_errors(&t->run);
    return sw_ok(t, sw_design_read(&t->run, &in, &model)) ? model->house : NULL;
}

#define DEMO(name) SW_SOURCE_DIR "/demo/" name ".house.lua"

/* ---- demo/ ---- */

static void height_is(sw_test *t, const sw_house *h, double expected_m)
{
    double rise_m = 0.0;
    for (size_t i = 0; i < h->part_count; i++) rise_m += h->parts[i].pipe ? 0.0 : h->parts[i].rise_m;
    sw_near(t, rise_m, expected_m, 1e-12, "as written");
}

static void the_cottage_has_a_lined_chimney_of_five_metres(sw_test *t)
{
    const sw_house *h = house_in(t, DEMO("demo"), NULL);
    if (h == NULL || !sw_true(t, h->part_count == 4)) return;
    const sw_flue_part *pipe = &h->parts[0], *loft = &h->parts[2];
    sw_true(t, pipe->pipe && pipe->round && !pipe->liner && pipe->around == SW_HEATED && pipe->layer_count == 1);
    sw_near(t, pipe->width_mm, 150.0, 1e-12, "as written");
    sw_near(t, pipe->depth_mm, 150.0, 1e-12, "a round one is as deep as wide");
    sw_near(t, pipe->rise_m, 0.7, 1e-12, "as written");
    sw_near(t, pipe->zeta, 0.75, 1e-12, "ASHRAE Handbook, HVAC Systems and Equipment, from memory: 90 degrees, round");
    sw_near(t, pipe->roughness_mm, 1.0, 1e-12, "EN 13384-1 table B.4, from memory: welded steel");
    sw_near(t, h->parts[1].zeta, 1.25, 1e-12, "ASHRAE Handbook, HVAC Systems and Equipment, from memory: tee");
    sw_true(t, loft->liner && !loft->pipe && loft->around == SW_UNHEATED && loft->layer_count == 0);
    sw_near(t, loft->resistance, 0.384, 1e-12, "as written");
    sw_near(t, loft->outer_mm, 449.0, 1e-12, "as written");
    sw_same_text(t, loft->designation, "T450 N1 D V3 L50060 G50");
    height_is(t, h, 5.0);
    sw_near(t, h->terminal_zeta, 0.5, 1e-12, "ASHRAE 2016: low-resistance cap");
    sw_near(t, h->roof.pitch_rad, sw_rad_from_deg(40.0), 1e-12, "as written");
    sw_near(t, h->roof.window_top_m, -1.5, 1e-12, "as written");
    sw_near(t, h->survey.leak_m3_s_m2, 2e-3, 1e-15, "as written");
    sw_near(t, h->permeability_m_s, 8.0 / 3600.0, 1e-12, "derived: 8 m3/(h m2)");
    sw_near(t, h->vent_m2, 4500e-6, 1e-15, "as written");
    sw_near(t, h->stabiliser_pa, 10, 1e-12, "as written");
    sw_near(t, h->stabiliser_mm, 150, 1e-12, "as written");
    sw_true(t, h->stabiliser);
    sw_near(t, h->least_k, 263.15, 1e-9, "-10 degC");
    sw_true(t, h->survey.old_shaft && isnan(h->roof.neighbour_m) && isnan(h->declared_kg_s) && h->near_count == 2);
}

static void the_shaft_is_wide_and_bare(sw_test *t)
{
    const sw_house *h = house_in(t, DEMO("shaft"), NULL);
    if (h == NULL || !sw_true(t, h->part_count == 4)) return;
    const sw_flue_part *p = &h->parts[1];
    sw_true(t, !p->round && !p->liner && p->layer_count == 1 && isnan(p->resistance) && isnan(p->outer_mm));
    sw_near(t, p->width_mm * p->depth_mm, 9e4, 1e-9, "as written: 300 x 300");
    sw_near(t, p->roughness_mm, 5.0, 1e-12, "EN 13384-1 table B.4, from memory: brick masonry");
    sw_same_text(t, p->layers[0].material, "brick");
    sw_true(t, isnan(p->layers[0].conductivity));
    sw_near(t, h->terminal_zeta, 0.0, 1e-12, "ASHRAE 2016: open straight top");
    sw_true(t, h->survey.old_shaft && h->survey.damp && isnan(h->survey.leak_m3_s_m2));
    sw_near(t, h->recess.width_mm, 950, 1e-12, "as written");
    sw_near(t, h->recess.lintel_shield_mm, 30, 1e-12, "as written");
    sw_true(t, isnan(h->recess.left_mm) && h->recess.lintel_combustible && !h->recess.combustible);
    height_is(t, h, 8.0);
}

static void a_setting_puts_the_liner_into_the_shaft(sw_test *t)
{
    const sw_house *h = house_in(t, DEMO("shaft"), "lined=1");
    if (h == NULL || !sw_true(t, h->part_count == 4)) return;
    const sw_flue_part *p = &h->parts[1];
    sw_true(t, p->liner && p->round && p->layer_count == 4);
    double inside_mm = p->width_mm;
    for (size_t i = 0; i < p->layer_count; i++) inside_mm += 2.0 * p->layers[i].thickness_mm;
    sw_near(t, inside_mm, 530.0, 1e-9, "derived: the shaft of 300 mm and two bricks of 115 mm");
    sw_near(t, p->layers[1].conductivity, 0.07, 1e-12, "as written");
    sw_contains(t, h->name, "lined");
    height_is(t, h, 8.0);
}

static void the_garden_room_has_a_short_chimney_outdoors(sw_test *t)
{
    const sw_house *h = house_in(t, DEMO("short"), NULL);
    if (h == NULL || !sw_true(t, h->part_count == 2)) return;
    sw_true(t, h->parts[1].around == SW_OUTDOORS && !h->parts[1].clad && !h->survey.old_shaft);
    sw_true(t, h->wind == SW_WIND_FREE && !h->floor_combustible && !h->alarm.on_ceiling);
    sw_near(t, h->alarm.below_ceiling_mm, 160.0, 1e-12, "as written");
    sw_near(t, h->roof.neighbour_top_m, 4.0, 1e-12, "as written");
    sw_near(t, h->near[0].shield_emissivity, 0.9, 1e-12, "as the manual says");
    height_is(t, h, 1.2);
}

static void the_tall_chimney_comes_with_the_most_draught_alone(sw_test *t)
{
    const sw_house *h = house_in(t, DEMO("tall"), NULL);
    if (h == NULL || !sw_true(t, h->part_count == 4)) return;
    sw_near(t, h->declared_most_pa, 30.0, 1e-12, "as written");
    sw_near(t, h->hearth_conductivity, 0.25, 1e-12, "as written");
    sw_near(t, h->floor_resistance, 0.5, 1e-12, "as written");
    sw_true(t, isnan(h->declared_kg_s) && isnan(h->declared_k) && isnan(h->declared_pa) && isnan(h->declared_co2));
    sw_near(t, h->parts[0].zeta, 0.6, 1e-12, "ASHRAE Handbook, from memory: two elbows of 45 degrees");
    sw_true(t, h->parts[3].clad && !h->stabiliser);
    sw_same_text(t, h->code, "Germany");
    height_is(t, h, 12.0);
    h = house_in(t, DEMO("tall"), "stabilised=1");
    sw_true(t, h != NULL && h->stabiliser);
}

static void the_tight_house_has_its_fan(sw_test *t)
{
    const sw_house *h = house_in(t, DEMO("tight"), NULL);
    if (h == NULL) return;
    sw_near(t, h->extract_m3_s, 300.0 / 3600.0, 1e-12, "300 m3/h");
    sw_near(t, h->permeability_m_s * h->envelope_m2 * 3600.0, 1250.0, 1e-9, "derived: 5 m3/(h m2) on 250 m2");
    sw_near(t, h->vent_m2, 4400e-6, 1e-15, "as written");
    sw_near(t, h->joined_m3, 0.0, 0.0, "a room that was looked at is joined to none unless said");
    sw_true(t, h->alarm.there && h->alarm.on_ceiling && !h->direct_air);
    sw_near(t, h->hearth_mm, 130.0, 1e-12, "as written");
    sw_near(t, h->hearth_density, 2800.0, 1e-9, "as written");
    sw_near(t, h->floor_pa, 6000.0, 1e-9, "6 kPa");
    height_is(t, h, 5.0);
}

/* ---- the manual ---- */

/* The indented lines of the chapter "A house". */
static const char *manual_house(sw_test *t)
{
    const char *bytes;
    size_t length;
    if (!sw_ok(t, sw_file_read(&t->run, SW_SOURCE_DIR "/docs/description.md", 1000000, &bytes, &length))) return "";
    const char *at = strstr(bytes, "\n## A house\n");
    if (!sw_true(t, at != NULL)) return "";
    char *text = SW_KEEP(&t->run, length + 1, char), *end = text;
    for (at++; at != NULL && *at != '\0'; at = strchr(at, '\n'), at = at == NULL ? NULL : at + 1) {
        const char *stop = strchr(at, '\n');
        size_t n = stop == NULL ? strlen(at) : (size_t)(stop - at) + 1;
        if (strncmp(at, "    ", 4) != 0) continue;
        memcpy(end, at, n);
        end += n;
    }
    *end = '\0';
    return text;
}

static void the_house_of_the_manual_is_read_as_it_says(sw_test *t)
{
    const sw_house *h = house_of(t, manual_house(t));
    if (h == NULL || !sw_true(t, h->part_count == 4 && h->near_count == 2)) return;
    sw_true(t, h->wind == SW_WIND_INLAND);
    sw_near(t, h->parts[1].length_m, 3.0, 1e-12, "the parameter's preset");
    sw_near(t, h->parts[1].rise_m, 3.0, 1e-12, "a part that says no rise goes straight up");
    sw_near(t, h->parts[3].zeta, 0.1, 1e-12, "as written");
    sw_near(t, h->parts[3].roughness_mm, 1.5, 1e-12, "EN 13384-1 table B.4, from memory: clay liner");
    sw_near(t, h->near[0].resistance, 2.5, 1e-12, "as written");
    sw_true(t, isnan(h->near[1].resistance) && h->near[1].shield_mm == 0.0);
    sw_near(t, h->declared_kg_s, 6e-3, 1e-15, "6 g/s");
    sw_near(t, h->declared_k, 553.15, 1e-9, "280 degC");
    sw_near(t, h->declared_co2, 0.11, 1e-15, "11 percent");
    sw_near(t, h->extract_m3_s, 60.0 / 3600.0, 1e-12, "60 m3/h");
    sw_near(t, h->room_m3, 60.0, 1e-12, "as written");
    sw_near(t, h->envelope_m2, 220.0, 1e-9, "as written");
}

static void the_house_that_new_writes_is_read(sw_test *t)
{
    const sw_house *h = house_in(t, SW_SOURCE_DIR "/src/app/example/example.house.lua", NULL);
    if (h == NULL || !sw_true(t, h->part_count == 3)) return;
    sw_same_text(t, h->parts[0].name, "pipe 1");
    sw_same_text(t, h->parts[2].name, "flue 3");
}

/* ---- what is not said ---- */

static void what_is_not_said_is_not_known(sw_test *t)
{
    const sw_house *h = house_of(t, "house { name = 'h' }");
    if (h == NULL) return;
    sw_true(t, h->part_count == 0 && h->near_count == 0 && h->terminal_zeta == 0.0 && h->wind == SW_WIND_FREE);
    sw_near(t, h->least_k, 258.15, 1e-9, "EN 13384-1, 5.7.1, from memory: -15 degC");
    sw_same_text(t, h->code, "");
    sw_true(t, isnan(h->roof.pitch_rad) && isnan(h->roof.ridge_m) && isnan(h->roof.above_m));
    sw_true(t, isnan(h->roof.window_m) && isnan(h->roof.neighbour_m) && !h->roof.thatched);
    sw_true(t, !h->survey.old_shaft && isnan(h->survey.leak_m3_s_m2) && isnan(h->survey.open_share));
    sw_true(t, isnan(h->room_m3) && isnan(h->joined_m3) && isnan(h->permeability_m_s) && isnan(h->envelope_m2));
    sw_true(t, isnan(h->extract_m3_s) && isnan(h->vent_m2) && isnan(h->floor_pa));
    sw_true(t, h->floor_combustible && h->hearth_mm == 0.0 && isnan(h->hearth_density) && !h->alarm.there);
    sw_true(t, isnan(h->declared_pa) && isnan(h->declared_most_pa));
    sw_true(t, h->recess.width_mm == 0 && !h->stabiliser && h->stabiliser_pa == 0);
    sw_true(t, isnan(h->hearth_conductivity) && isnan(h->floor_resistance));
}

static void a_bare_pipe_needs_no_layers(sw_test *t)
{
    const sw_house *h =
        house_of(t, "house { name = 'h' }\npipe { diameter = 120*mm, length = 1*m, rise = -0.1*m }\n"
                    "flue { diameter = 150*mm, length = 4*m, surface = 'clay', layers = { { 'slate', 20*mm, "
                    "conductivity = 2*W/m/K } }, around = 'outdoors' }");
    if (h == NULL || !sw_true(t, h->part_count == 2)) return;
    const sw_flue_part *p = &h->parts[0];
    sw_true(t, p->layer_count == 0 && isnan(p->resistance) && isnan(p->outer_mm) && isnan(p->combustible_mm));
    sw_same_text(t, p->designation, "");
    sw_near(t, p->rise_m, -0.1, 1e-12, "a pipe may fall");
}

static void the_order_of_house_and_parts_is_free(sw_test *t)
{
    const sw_house *h =
        house_of(t, "alarm { on = 'wall', from_stove = 2*m, below_ceiling = 200*mm }\n"
                    "flue { diameter = 150*mm, length = 4*m, surface = 'clay', layers = { { 'brick', 112*mm } }, "
                    "around = 'outdoors' }\nhouse { name = 'h', altitude = 300*m }");
    if (h == NULL) return;
    sw_true(t, h->part_count == 1 && h->alarm.there && h->altitude_m == 300.0);
}

static void a_sharper_bend_loses_more(sw_test *t)
{
    double last = 0.0;
    for (int degrees = 5; degrees <= 90; degrees += 5) {
        const char *text =
            sw_text_format(&t->run, t->run.keep,
                           "house { name = 'h' }\nflue { diameter = 150*mm, length = 4*m, surface = 'clay', "
                           "layers = { { 'brick', 112*mm } }, around = 'heated', bends = { %d*deg } }",
                           degrees);
        const sw_house *h = house_of(t, text);
        if (h == NULL || !sw_true(t, h->parts[0].zeta > last)) return;
        last = h->parts[0].zeta;
    }
}

static void the_words_of_what_is_around_are_the_models(sw_test *t)
{
    for (int around = 0; around < SW_AROUNDS; around++) {
        const char *text =
            sw_text_format(&t->run, t->run.keep,
                           "house { name = 'h' }\nflue { diameter = 150*mm, length = 4*m, surface = 'clay', "
                           "layers = { { 'brick', 112*mm } }, around = '%s' }",
                           sw_around_name((sw_around)around));
        const sw_house *h = house_of(t, text);
        if (h == NULL || !sw_true(t, (int)h->parts[0].around == around)) return;
    }
}

/* ---- faults and settings ---- */

static void all_faults_of_a_house_come_together_with_their_lines(sw_test *t)
{
    static const char text[] = "house { name = 'h', wind = 'sea' }\n"
                               "flue { diameter = 0*mm, length = 200*m, surface = 'clay', around = 'heated' }\n"
                               "near { name = 'n', side = 'back', distance = -1*mm, combustible = true }\n"
                               "room { volum = 60*m3 }\n";
    const sw_model *model = NULL;
    sw_true(t, read_house_text(t, text, sizeof text - 1, NULL, &model) == SW_BAD_INPUT && model == NULL);
    if (!sw_true(t, t->run.error_count == 5)) return;
    static const int lines[] = {1, 2, 2, 3, 4};
    for (size_t i = 0; i < 5; i++) sw_true(t, t->run.errors[i].place.line == lines[i]);
    sw_contains(t, t->run.errors[4].text, "volume");
}

static void a_setting_reaches_the_parameters_of_stove_and_house(sw_test *t)
{
    static const char stove[] = STOVE_HEAD "parameter('w', 1, {}, '')",
                      house[] = "parameter('n', 1, {}, '')\nhouse { name = 'h', altitude = parameter('z', 1*m) }";
    static const char *const good[] = {"w=2", "z=40m"}, *const bad[] = {"zz=40m"};
    sw_design_texts in = {.stove = {"s", stove, sizeof stove - 1},
                          .house = {"h", house, sizeof house - 1},
                          .settings = good,
                          .setting_count = 2};
    const sw_model *model = NULL;
    if (!sw_ok(t, sw_design_read_texts(&t->run, &in, &model))) return;
    sw_near(t, model->stove->parameters[0].value, 2.0, 0.0, "as set");
    sw_near(t, model->house->altitude_m, 40.0, 1e-12, "as set");
    in.settings = bad;
    in.setting_count = 1;
    sw_run_clear_errors(&t->run);
    sw_true(t, sw_design_read_texts(&t->run, &in, &model) == SW_BAD_INPUT && t->run.error_count == 1);
    sw_contains(t, t->run.errors[0].text, "no parameter of s or h has this name; did you mean 'z'?");
}

static void a_house_cut_short_is_read_or_refused(sw_test *t)
{
    const char *text = manual_house(t);
    size_t length = strlen(text);
    for (size_t n = 1; n < length; n += 7) {
        size_t keep = sw_arena_mark(t->run.keep);
        char *exact = malloc(n); /* a look past the end is a look past the block */
        if (exact == NULL) {
            (void)sw_true(t, false);
            return;
        }
        memcpy(exact, text, n);
        const sw_model *model = NULL;
        sw_status status = read_house_text(t, exact, n, NULL, &model);
        free(exact);
        bool good = sw_true(t, (status == SW_OK) == (model != NULL) && (status == SW_OK || status == SW_BAD_INPUT));
        sw_run_clear_errors(&t->run);
        sw_arena_rewind(t->run.keep, keep);
        if (!good) return;
    }
}

static void every_refused_allocation_ends_in_no_memory(sw_test *t)
{
    const char *text = manual_house(t);
    const sw_design_texts in = {.house = {"h", text, strlen(text)}};
    for (int scratch = 0; scratch < 2; scratch++)
        for (size_t nth = 1; nth<100000; nth += nth> 60 ? 7 : 1) {
            sw_run run;
            const sw_model *model = NULL;
            if (!sw_true(t, sw_run_open(&run, (size_t)1 << 24) == SW_OK)) return;
            sw_arena_fail_at(scratch ? run.scratch : run.keep, nth);
            sw_status status = sw_design_read_texts(&run, &in, &model);
            bool fits =
                status == SW_NO_MEMORY || (status == SW_OK && sw_arena_takes(scratch ? run.scratch : run.keep) < nth);
            sw_run_close(&run);
            if (!sw_true(t, fits)) return;
            if (status == SW_OK) break;
        }
}

SW_TESTS(SW_CASE(the_cottage_has_a_lined_chimney_of_five_metres), SW_CASE(the_shaft_is_wide_and_bare),
         SW_CASE(a_setting_puts_the_liner_into_the_shaft), SW_CASE(the_garden_room_has_a_short_chimney_outdoors),
         SW_CASE(the_tall_chimney_comes_with_the_most_draught_alone), SW_CASE(the_tight_house_has_its_fan),
         SW_CASE(the_house_of_the_manual_is_read_as_it_says), SW_CASE(the_house_that_new_writes_is_read),
         SW_CASE(what_is_not_said_is_not_known), SW_CASE(a_bare_pipe_needs_no_layers),
         SW_CASE(the_order_of_house_and_parts_is_free), SW_CASE(a_sharper_bend_loses_more),
         SW_CASE(the_words_of_what_is_around_are_the_models),
         SW_CASE(all_faults_of_a_house_come_together_with_their_lines),
         SW_CASE(a_setting_reaches_the_parameters_of_stove_and_house), SW_CASE(a_house_cut_short_is_read_or_refused),
         SW_CASE(every_refused_allocation_ends_in_no_memory))
