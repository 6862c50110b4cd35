/* The surface map of plain boxes: radiation by rays against closed forms and an independent program; a whole stove of plates
 * and boards: balance, symmetry, threads, and what is refused. */
#include "map_plate.h"
#include "scene_maker.h"

typedef struct box { /* held apart from air and gas: radiation and conduction alone */
    scene_maker *m;
    map_job job;
    sw_scene_options scene_opt;
    sw_heat_map_options opt;
    const sw_scene *scene;
    bool *held;
} box;

/* Six plates 0.40 x 0.30 x 0.40 m, 2 mm, that meet in lines: each face is inside from rim to rim. */
static void lay_box(scene_maker *m)
{
    const char *role = "firebox wall";
    maker_plate(m, "front", role, 400, 400, 2, maker_frame(-200, -1, 0, 'x', 'z'));
    maker_plate(m, "back", role, 400, 400, 2, maker_frame(-200, 301, 0, 'x', 'z'));
    maker_plate(m, "left", role, 300, 400, 2, maker_frame(-201, 0, 0, 'y', 'z'));
    maker_plate(m, "right", role, 300, 400, 2, maker_frame(201, 0, 0, 'y', 'z'));
    maker_plate(m, "floor", role, 400, 300, 2, maker_frame(-200, 0, -1, 'x', 'y'));
    maker_plate(m, "roof", role, 400, 300, 2, maker_frame(-200, 0, 401, 'x', 'y'));
}

static box *box_made(sw_test *t, double triangles, double rays_each)
{
    box *b = SW_KEEP(&t->run, 1, box);
    sw_heat_net *net = NULL;
    sw_heat_model constants = sw_heat_model_defaults();
    b->m = scene_maker_new(t);
    b->scene_opt = sw_scene_options_defaults();
    lay_box(b->m);
    b->scene = maker_scene(b->m, &b->scene_opt);
    b->opt = sw_heat_map_options_defaults();
    b->opt.triangles = triangles;
    b->opt.rays_per_triangle = rays_each;
    b->opt.threads = 2;
    constants.bed_share = 0;
    if (b->scene == NULL || !sw_ok(t, sw_heat_net_make(&t->run, b->scene, &constants, &net))) return NULL;
    b->job = (map_job){.stove = &b->m->stove, .result = &b->m->sheet, .scene = b->scene, .opt = &b->opt, .net = net};
    b->job.seen = (scene_job){.stove = &b->m->stove, .sheet = &b->m->sheet, .opt = &b->scene_opt, .scene = &b->job.own};
    if (!sw_ok(t, map_make(&t->run, &b->job))) return NULL;
    map_system *s = &b->job.sys;
    b->held = SW_KEEP(&t->run, s->nodes, bool);
    s->net = NULL;
    s->unknowns = s->nodes;
    s->held = b->held;
    s->link_count = 0;
    for (size_t i = 0; i < s->film_count; i++) s->films[i].law = NULL;
    return b;
}

/* Its inside alone radiates, by e; its own temperature is given when t_c is a number. */
static void set_plate(box *b, const char *name, double e, double t_c)
{
    map_system *s = &b->job.sys;
    size_t part = scene_part_named(b->scene, name);
    for (size_t p = 0; p < s->patch_count; p++)
        if (b->scene->surfaces[b->job.surface_of[p]].part == part) s->patches[p].e = e;
    for (size_t i = 0; i < s->nodes; i++) {
        if (b->job.part_of[i] != part) continue;
        b->held[i] = isfinite(t_c);
        s->x[i] = isfinite(t_c) ? sw_k_from_c(t_c) : 950;
    }
}

static void close_outside(box *b)
{
    map_system *s = &b->job.sys;
    for (int space = 0; space < MAP_SPACES; space++)
        for (size_t p = 0; p < s->spaces[space].patches; p++) {
            map_patch *q = &s->patches[s->spaces[space].first + p];
            if (space != MAP_BELOW) q->e = 1e-9;
            s->spaces[space].e[p] = q->e;
        }
}

static bool settle(box *b)
{
    map_settled settled;
    close_outside(b);
    sw_status status = map_newton(&b->m->t->run, &b->job.sys, 0.5, &settled);
    return sw_ok(b->m->t, status) && sw_true(b->m->t, settled.left_w <= 0.5);
}

/* Heat that a held plate takes in, W: of what meets it inside. */
static double into_plate(const box *b, const char *name)
{
    const map_system *s = &b->job.sys;
    const map_space *o = &s->spaces[MAP_BELOW];
    size_t part = scene_part_named(b->scene, name);
    double sum = 0;
    for (size_t p = 0; p < o->patches; p++)
        if (b->scene->surfaces[b->job.surface_of[o->first + p]].part == part)
            sum += o->area[p] * o->e[p] * (o->H[p] - o->E[p]);
    return sum;
}

static double mean_c(const box *b, const char *name)
{
    const map_system *s = &b->job.sys;
    double sum = 0, area = 0;
    for (size_t i = 0; i < s->share_count; i++) {
        const map_share *h = &s->shares[i];
        if (h->patch >= s->spaces[MAP_BELOW].patches) break;
        if (b->job.part_of[h->node] != scene_part_named(b->scene, name)) continue;
        sum += h->area_m2 * s->x[h->node];
        area += h->area_m2;
    }
    return sw_c_from_k(sum / area);
}

static void set_all(box *b, double e)
{
    static const char *const names[6] = {"floor", "roof", "front", "back", "left", "right"};
    for (int i = 0; i < 6; i++) set_plate(b, names[i], e, (double)NAN);
}

/* ---- radiation -------------------------------------------------------------------------------------------------- */

static void walls_that_only_pass_heat_on_get_as_hot_as_in_the_example(sw_test *t)
{
    box *b = box_made(t, 4000, 100);
    if (b == NULL) return;
    for (size_t i = 0; i < 6; i++) b->job.sys.matters[i] = (map_matter){NULL, 4e5, 1}; /* each of one temperature */
    set_all(b, 0.9);
    set_plate(b, "floor", 0.9, 900);
    set_plate(b, "front", 0.9, 450);
    if (!settle(b)) return;
    const char *source = "handbook E6 (one temperature for all four; here each its own)";
    sw_near(t, -into_plate(b, "floor"), 6691, 130, source);
    double mean = 0.3 * mean_c(b, "roof") + 0.4 * mean_c(b, "back") + 0.3 * mean_c(b, "left");
    sw_near(t, mean, 712, 15, source);
    sw_near(t, mean_c(b, "left"), mean_c(b, "right"), 2, "derived: a box is even on both sides");
}

static void six_held_walls_exchange_what_an_independent_program_says(sw_test *t)
{
    static const char *const names[6] = {"floor", "roof", "front", "back", "left", "right"};
    static const double e[6] = {0.9, 0.8, 0.85, 0.7, 0.6, 0.5}, at_c[6] = {900, 600, 450, 700, 650, 750};
    static const double sent_w[6] = {7020.065, -1699.894, -5587.136, 214.9252, -687.942, 775.5632};
    box *b = box_made(t, 4000, 100);
    if (b == NULL) return;
    for (int i = 0; i < 6; i++) set_plate(b, names[i], e[i], at_c[i]);
    if (!settle(b)) return;
    for (int i = 0; i < 6; i++) sw_near(t, -into_plate(b, names[i]), sent_w[i], 60, "CalculiX 2.20, tests/heat_decks");
}

static void two_held_walls_and_four_insulated_ones_agree_with_an_independent_program(sw_test *t)
{
    box *b = box_made(t, 4000, 100);
    if (b == NULL) return;
    for (size_t i = 0; i < 6; i++) b->job.sys.matters[i] = (map_matter){NULL, 1e-9, 1}; /* every place by itself */
    set_all(b, 0.9);
    set_plate(b, "floor", 0.9, 900);
    set_plate(b, "front", 0.9, 450);
    if (!settle(b)) return;
    const char *source = "CalculiX 2.20, tests/heat_decks";
    sw_near(t, -into_plate(b, "floor"), 6497.896, 65, source);
    sw_near(t, into_plate(b, "front"), 6445.481, 65, source);
    sw_near(t, mean_c(b, "back"), 703.1, 6, source);
    sw_near(t, mean_c(b, "roof"), 703.2, 6, source);
}

static void views_close_and_are_symmetric(sw_test *t)
{
    box *b = box_made(t, 2000, 16);
    if (b == NULL) return;
    for (int k = 0; k < MAP_SPACES; k++) {
        const map_space *s = &b->job.sys.spaces[k];
        for (size_t i = 0; i < s->patches; i++) {
            double sum = 0;
            for (size_t c = s->start[i]; c < s->start[i + 1]; c++) sum += s->view[c];
            if (!sw_near(t, sum / s->area[i], 1, 1e-9, "closure")) return;
        }
        double twist = 0;
        for (size_t i = 0; i < s->rows; i++)
            for (size_t c = s->start[i]; c < s->start[i + 1]; c++)
                twist += s->view[c] *
                         (sin((double)i) * cos((double)s->column[c]) - cos((double)i) * sin((double)s->column[c]));
        if (!sw_near(t, twist, 0, 1e-9, "symmetry: A_i F_ij = A_j F_ji")) return;
    }
}

/* ---- whole ----------------------------------------------------------------------------------------------------------- */

typedef struct whole {
    scene_maker *m;
    const sw_scene *scene;
    sw_heat_model constants;
    sw_heat_fire fire;
    sw_heat_room room;
    sw_heat_map_options opt;
    sw_heat_state state;
    sw_heat_net *net;
} whole;

/* A box with a board before its back and an outlet for the gas given by the fire alone. */
static whole *whole_made(sw_test *t, double heat_w)
{
    whole *w = SW_KEEP(&t->run, 1, whole);
    sw_scene_options opt = sw_scene_options_defaults();
    w->m = scene_maker_new(t);
    maker_box(w->m, "firebox wall", (sw_vec3){-200, 0, 0}, (sw_vec3){400, 300, 400}, 4.0);
    maker_board(w->m, "back board", "lining", 400, 400, 25, maker_frame(-200, 299, 0, 'x', 'z'));
    w->scene = maker_scene(w->m, &opt);
    if (w->scene == NULL) return NULL;
    w->constants = sw_heat_model_defaults();
    w->room = (sw_heat_room){293.15, 293.15};
    w->fire = (sw_heat_fire){.heat_w = heat_w, .air_kg_s = 6e-3, .gas_kg_s = 6e-3, .air_k = 293.15};
    double kmol = 1 / (0.21 * sw_gas_kg_kmol(SW_GAS_O2) + 0.79 * sw_gas_kg_kmol(SW_GAS_N2));
    w->fire.gas.kmol[SW_GAS_O2] = 0.21 * kmol;
    w->fire.gas.kmol[SW_GAS_N2] = 0.79 * kmol;
    w->fire.p_h2o_bar = w->fire.p_co2_bar = 0.08;
    w->opt = sw_heat_map_options_defaults();
    w->opt.triangles = 2000;
    return w;
}

static sw_status map_of(whole *w, const sw_heat_map **map)
{
    return sw_heat_map_solve(&w->m->t->run, &w->m->stove, &w->m->sheet, w->scene, &w->constants, &w->fire, &w->room,
                             &w->opt, map);
}

static void the_whole_balance_closes(sw_test *t)
{
    whole *w = whole_made(t, 6000);
    const sw_heat_map *map = NULL;
    if (w == NULL || !sw_ok(t, map_of(w, &map))) return;
    sw_near(t, map->useful_w + map->flue_w, 6000, 6, "conservation");
    sw_true(t, map->hot_balance <= 1e-3);
    sw_true(t, map->triangles > 1500 && map->triangles < 2600);
}

static void map_and_network_agree_on_a_plain_box(sw_test *t)
{
    whole *w = whole_made(t, 6000);
    const sw_heat_map *map = NULL;
    if (w == NULL || !sw_ok(t, map_of(w, &map))) return;
    sw_ok(t, sw_heat_net_make(&t->run, w->scene, &w->constants, &w->net));
    sw_ok(t, sw_heat_net_steady(&t->run, w->net, &w->fire, &w->room, &w->state));
    sw_near(t, map->useful_w, w->state.useful_w, 0.05 * w->state.useful_w, "agreement of the two levels");
    for (size_t i = 0; i < map->part_count; i++) {
        double mean_k =
            0.5 * (w->state.t_k[sw_heat_net_node(w->net, i, false)] + w->state.t_k[sw_heat_net_node(w->net, i, true)]);
        sw_near(t, map->parts[i].mean_k, mean_k, 50, "agreement: rims lead more in the network");
        sw_true(t, map->parts[i].most_k >= map->parts[i].mean_k);
    }
}

static void a_board_is_hot_before_the_fire_and_colder_behind(sw_test *t)
{
    whole *w = whole_made(t, 6000);
    const sw_heat_map *map = NULL;
    if (w == NULL || !sw_ok(t, map_of(w, &map))) return;
    const sw_heat_map_part *board = &map->parts[scene_part_named(w->scene, "back board")];
    sw_true(t, board->hot_k != NULL);
    for (size_t i = 0; board->hot_k != NULL && i < board->mesh.point_count; i++)
        if (!sw_true(t, board->hot_k[i] > board->t_k[i])) return;
}

static void without_fire_all_is_as_warm_as_the_room(sw_test *t)
{
    whole *w = whole_made(t, 0);
    const sw_heat_map *map = NULL;
    if (w == NULL || !sw_ok(t, map_of(w, &map))) return;
    for (size_t i = 0; i < map->part_count; i++) sw_near(t, map->parts[i].most_k, 293.15, 0.1, "equilibrium");
}

static void no_place_is_colder_than_the_room_or_hotter_than_the_gas(sw_test *t)
{
    whole *w = whole_made(t, 6000);
    const sw_heat_map *map = NULL;
    if (w == NULL) return;
    w->constants.bed_share = 0;
    if (!sw_ok(t, map_of(w, &map))) return;
    for (size_t i = 0; i < map->part_count; i++) {
        const sw_heat_map_part *p = &map->parts[i];
        if (!sw_true(t, p->most_k < map->firebox_k)) return;
        for (size_t k = 0; k < p->mesh.point_count; k++)
            if (!sw_true(t, p->t_k[k] > 293.15)) return;
    }
}

static void more_fire_makes_every_part_hotter(sw_test *t)
{
    whole *w = whole_made(t, 4000);
    const sw_heat_map *low = NULL, *high = NULL;
    if (w == NULL || !sw_ok(t, map_of(w, &low))) return;
    w->fire.heat_w = 8000;
    if (!sw_ok(t, map_of(w, &high))) return;
    for (size_t i = 0; i < low->part_count; i++) sw_true(t, high->parts[i].mean_k > low->parts[i].mean_k);
}

static void threads_do_not_change_a_byte(sw_test *t)
{
    whole *w = whole_made(t, 6000);
    const sw_heat_map *one = NULL, *many = NULL;
    if (w == NULL || !sw_ok(t, map_of(w, &one))) return;
    w->opt.threads = 4;
    if (!sw_ok(t, map_of(w, &many))) return;
    for (size_t i = 0; i < one->part_count; i++) {
        const sw_heat_map_part *a = &one->parts[i], *b = &many->parts[i];
        if (!sw_true(t, a->mesh.point_count == b->mesh.point_count)) return;
        if (!sw_true(t, memcmp(a->t_k, b->t_k, a->mesh.point_count * sizeof *a->t_k) == 0)) return;
    }
}

static void a_surface_without_emissivity_is_refused_by_name(sw_test *t)
{
    whole *w = whole_made(t, 6000);
    const sw_heat_map *map = NULL;
    if (w == NULL) return;
    sw_scene scene = *w->scene;
    sw_scene_surface *surfaces = SW_KEEP(&t->run, scene.surface_count, sw_scene_surface);
    memcpy(surfaces, scene.surfaces, scene.surface_count * sizeof *surfaces);
    surfaces[0].emissivity = 0;
    scene.surfaces = surfaces;
    w->scene = &scene;
    sw_true(t, map_of(w, &map) == SW_BAD_INPUT && map == NULL);
    sw_contains(t, t->run.errors[0].text, "emissivity 0");
}

static void a_scene_of_another_stove_is_refused(sw_test *t)
{
    whole *w = whole_made(t, 6000);
    const sw_heat_map *map = NULL;
    if (w == NULL) return;
    w->m->stove.item_count = 0;
    sw_true(t, map_of(w, &map) == SW_BAD_INPUT && map == NULL);
    sw_contains(t, t->run.errors[0].text, "make the scene of this stove");
}

static void memory_refused_anywhere_is_told_and_nothing_is_lost(sw_test *t)
{
    whole *w = whole_made(t, 6000);
    if (w == NULL) return;
    w->opt.triangles = 500;
    w->opt.rays_per_triangle = 2;
    for (size_t nth = 1; nth < 4000; nth += 1 + nth / 6) {
        const sw_heat_map *map = NULL;
        sw_arena *from = nth % 2 == 0 ? t->run.keep : t->run.scratch;
        sw_arena_fail_at(from, nth);
        sw_status status = map_of(w, &map);
        sw_arena_fail_at(from, 0);
        if (!sw_true(t, status == SW_OK ? map != NULL : status == SW_NO_MEMORY && map == NULL)) return;
        sw_run_clear_errors(&t->run);
    }
}

static void too_many_triangles_are_refused(sw_test *t)
{
    whole *w = whole_made(t, 6000);
    const sw_heat_map *map = NULL;
    if (w == NULL) return;
    w->opt.triangles = 1e9;
    sw_true(t, map_of(w, &map) == SW_OUT_OF_RANGE && map == NULL);
}

SW_TESTS(SW_CASE(walls_that_only_pass_heat_on_get_as_hot_as_in_the_example),
         SW_CASE(six_held_walls_exchange_what_an_independent_program_says),
         SW_CASE(two_held_walls_and_four_insulated_ones_agree_with_an_independent_program),
         SW_CASE(views_close_and_are_symmetric), SW_CASE(the_whole_balance_closes),
         SW_CASE(map_and_network_agree_on_a_plain_box), SW_CASE(a_board_is_hot_before_the_fire_and_colder_behind),
         SW_CASE(without_fire_all_is_as_warm_as_the_room),
         SW_CASE(no_place_is_colder_than_the_room_or_hotter_than_the_gas), SW_CASE(more_fire_makes_every_part_hotter),
         SW_CASE(threads_do_not_change_a_byte), SW_CASE(a_surface_without_emissivity_is_refused_by_name),
         SW_CASE(a_scene_of_another_stove_is_refused), SW_CASE(memory_refused_anywhere_is_told_and_nothing_is_lost),
         SW_CASE(too_many_triangles_are_refused))
