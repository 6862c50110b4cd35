/* Blasting and coating: single formulas, and the study on a small stove. */
#include "making/coat/coat.h"
#include "sw_test.h"

#include <math.h>
#include <string.h>

static void coverage_and_wet_film_are_the_handbooks(sw_test *t)
{
    sw_near(t, sw_coat_cover_m2_l(0.3, 25), 12.0, 1e-9, "handbook W10.1");
    sw_near(t, sw_coat_wet_um(0.3, 25), 83.3, 0.05, "handbook W10.1");
    sw_true(t, isnan(sw_coat_cover_m2_l(0, 25)) && isnan(sw_coat_cover_m2_l(1.1, 25)) && isnan(sw_coat_wet_um(0, 25)));
}

static void paint_balances_between_pot_film_and_loss(sw_test *t)
{
    double litres = sw_coat_litres(5, 25, 0.3, 0.55), landed = sw_coat_litres(5, 25, 0.3, 1);
    sw_near(t, landed, 5 / 12.0, 1e-12, "derived: area over coverage");
    sw_near(t, litres * 0.55, landed, 1e-12, "derived: what lands is the share of what is sprayed");
    sw_near(t, sw_coat_film_kg(5, 25, 1600), landed * 1e-3 * 0.3 * 1600, 1e-12, "derived: solids that landed");
    sw_near(t, sw_coat_valley_litres(1, 40), 0.02, 1e-12, "handbook 10.2: 0.02 L/m2 for 40 um");
    sw_true(t, isnan(sw_coat_litres(5, 25, 0.3, 0)) && isnan(sw_coat_litres(-1, 25, 0.3, 0.5)));
}

static void explosive_limit_of_xylene_is_some_44_grams(sw_test *t)
{
    double lel = sw_coat_lel_kg_m3(0.01, 106.17, sw_k_from_c(20));
    sw_near(t, lel, 0.0441, 1e-4, "derived: 1 % of 106.17 g in 24.06 l");
    double air = sw_coat_air_m3_s(1e-3, lel, 0.25);
    sw_near(t, 1e-3 / air, 0.25 * lel, 1e-12, "derived: steady balance");
    sw_true(t, isnan(sw_coat_air_m3_s(1e-3, 0, 0.25)));
}

static void nozzles_of_the_chart_blast_so_much(sw_test *t)
{
    sw_near(t, sw_blast_media_kg(1, 24.4), 24.4, 1e-12, "handbook 10.1: 5 lb/ft2");
    sw_near(t, sw_min_from_s(sw_blast_time_s(3.725, sw_h_from_s(14.9))), 15, 1e-3, "handbook 10.1: 5/16 inch nozzle");
    sw_true(t, isnan(sw_blast_time_s(1, 0)));
    double low, high;
    sw_profile_rz_um(SW_PROFILE_FINE, true, &low, &high);
    sw_near(t, low, 25, 0, "ISO 8503-1 (from memory)");
    sw_near(t, high, 40, 0, "ISO 8503-1 (from memory)");
    sw_profile_rz_um(SW_PROFILE_COARSE, false, &low, &high);
    sw_near(t, high, 150, 0, "ISO 8503-1 (from memory)");
}

/* ---- a small stove: a furnace wall, a shell of thin sheet, a stainless liner, a baffle, a stand ---- */

enum { PIECES = 5 };

typedef struct scene {
    sw_grade steel, stainless;
    sw_piece pieces[PIECES];
    sw_item items[4];
    sw_face pane;
    sw_coat_sheet sheets[PIECES];
    sw_works works;
    sw_stove stove;
    sw_coat_part parts[3];
    sw_coat_input in;
    sw_coat_options opt;
} scene;

static void add_piece(scene *s, int i, const char *name, const char *role, double thickness_mm, double area_mm2)
{
    s->pieces[i] =
        (sw_piece){.number = name, .name = name, .group = "body", .role = role, .grade = &s->steel, .count = 1};
    s->pieces[i].thickness_mm = thickness_mm;
    s->sheets[i] = (sw_coat_sheet){area_mm2, 1000};
}

static void equip(scene *s)
{
    s->works.blasting =
        (sw_blasting){.media_kg_m2 = 0.6, .m2_s = 0.005, .media_price_kg = 1.2, .least_mm = 2, .setup_s = 300};
    s->works.blasting.rate_h = 46;
    s->works.blasting.grade = "Sa 2 1/2";
    s->works.coating = (sw_coating){.name = "black", .class_k = 873.15, .solids = 0.3, .film_um = 25, .coats = 2};
    s->works.coating.transfer = 0.5;
    s->works.coating.price_l = 28;
    s->works.coating.voc_kg_m3 = 480;
    s->works.coating.m2_s = 0.006;
    s->works.coating.setup_s = 600;
    s->works.coating.dry_s = 1800;
    s->works.coating.cure_k = 503.15;
    s->works.coating.cure_s = 2700;
    s->works.coating.oven_load = 4;
}

static scene *make_scene(sw_test *t)
{
    scene *s = SW_KEEP(&t->run, 1, scene);
    s->steel = (sw_grade){.name = "S235", .kind = SW_STEEL};
    s->stainless = (sw_grade){.name = "1.4301", .kind = SW_STAINLESS};
    add_piece(s, 0, "wall", "firebox wall", 4, 1e6);
    add_piece(s, 1, "shell", "shell", 1.5, 2e6);
    add_piece(s, 2, "liner", "oven", 1.5, 1e6);
    add_piece(s, 3, "baffle", "baffle", 4, 1e6);
    add_piece(s, 4, "stand", "stand", 3, 1e6);
    s->pieces[2].grade = &s->stainless;
    s->pieces[4].count = 2;
    sw_ok(t, sw_contour_rectangle(&t->run, (sw_box){0, 0, 300, 200}, 0, &s->pane.region.outline));
    s->items[0] =
        (sw_item){.name = "rope", .group = "door", .role = "rope", .kind = SW_ITEM_ROPE, .length_mm = 1500, .count = 1};
    s->items[1] =
        (sw_item){.name = "pane", .group = "door", .role = "glass", .kind = SW_ITEM_GLASS, .shape = s->pane.region};
    s->items[1].count = 1;
    s->items[2] = (sw_item){.name = "stud", .group = "door", .role = "screw", .kind = SW_ITEM_BOUGHT, .count = 6};
    s->items[3] = (sw_item){.name = "grate", .group = "fire", .role = "grate", .kind = SW_ITEM_CAST, .count = 1};
    s->stove = (sw_stove){.name = "small", .title = "", .note = "", .pieces = s->pieces, .piece_count = PIECES};
    s->stove.items = s->items;
    s->stove.item_count = 4;
    equip(s);
    s->parts[0] = (sw_coat_part){"wall", "firebox wall", 600};
    s->parts[1] = (sw_coat_part){"shell", "shell", NAN};
    s->parts[2] = (sw_coat_part){"baffle", "baffle", 1000};
    s->in = (sw_coat_input){&s->stove, &s->works, s->sheets, s->parts, 3};
    s->opt = sw_coat_options_defaults();
    return s;
}

static const sw_coat_result *solved(sw_test *t, scene *s)
{
    const sw_coat_result *r = NULL;
    return sw_ok(t, sw_coat_solve(&t->run, &s->in, &s->opt, &r)) ? r : NULL;
}

static const sw_finding *finding_of(const sw_coat_result *r, const char *check, const char *where)
{
    for (size_t i = 0; i < r->findings.count; i++)
        if (strcmp(r->findings.items[i].check, check) == 0 && strcmp(r->findings.items[i].where, where) == 0)
            return &r->findings.items[i];
    return NULL;
}

static void roles_say_which_sides_are_coated(sw_test *t)
{
    scene *s = make_scene(t);
    const sw_coat_result *r = solved(t, s);
    if (r == NULL) return;
    sw_near(t, r->lines[0].coat_m2, 1 + 4e-3, 1e-12, "derived: outer side and 1 m of edge 4 mm thick");
    sw_near(t, r->lines[1].blast_m2, 2, 1e-12, "derived: outer side");
    sw_near(t, r->lines[2].coat_m2 + r->lines[3].coat_m2, 0, 0, "stainless and baffle stay bare");
    sw_near(t, r->lines[4].blast_m2, 4, 1e-12, "derived: two stands, both sides");
    sw_near(t, r->blast_m2, 7, 1e-12, "derived: sum");
    s->opt.fire_side = s->opt.inner_side = 1;
    if ((r = solved(t, s)) == NULL) return;
    sw_near(t, r->blast_m2, 2 + 4 + 2 + 4, 1e-12, "derived: both sides of all steel");
}

static void masks_name_lands_threads_and_the_earth_point(sw_test *t)
{
    const sw_coat_result *r = solved(t, make_scene(t));
    if (r == NULL || !sw_true(t, r->mask_count == 4)) return;
    sw_true(t, r->masks[0].kind == SW_MASK_ROPE_LAND && r->masks[1].kind == SW_MASK_GLASS_LAND);
    sw_true(t, r->masks[2].kind == SW_MASK_THREAD && r->masks[2].count == 6 && r->masks[3].kind == SW_MASK_EARTH);
    sw_near(t, r->masks[1].length_mm, 1000, 1e-9, "derived: round the pane");
    sw_near(t, r->masked_m2, (1500 + 1000) * 12e-6, 1e-12, "derived: length by width");
    double edges_m2 = 4e-3 + 1.5e-3 + 2 * 3e-3;
    sw_near(t, r->coat_m2, 7 + edges_m2 - r->masked_m2, 1e-12, "derived: coated less masked");
}

static void paint_solvent_and_air_close_their_balances(sw_test *t)
{
    scene *s = make_scene(t);
    const sw_coat_result *r = solved(t, s);
    if (r == NULL || !sw_true(t, r->coat_count == 2)) return;
    double landed = r->coats[0].landed_litres + r->coats[1].landed_litres;
    double valleys = sw_coat_valley_litres(r->coat_m2, s->opt.rz_um);
    sw_near(t, landed, 2 * r->coat_m2 / 12 + valleys, 1e-9, "derived: two films and the valleys");
    sw_near(t, r->litres, landed / 0.5, 1e-9, "derived: half of it lands");
    sw_near(t, r->solvent_kg, r->litres * 1e-3 * 480, 1e-12, "handbook 10.2: litres times VOC content");
    sw_near(t, r->film_kg, r->coat_m2 * 50e-6 * s->opt.film_kg_m3, 1e-12, "derived: volume times density");
    double strongest = r->coats[0].solvent_kg / fmax(r->coats[0].spray_s, s->opt.flash_s);
    sw_near(t, r->air_m3_s, strongest / (0.25 * r->lel_kg_m3), 1e-12, "derived: steady balance");
    sw_near(t, r->blast_s, 7 / 0.005, 1e-9, "derived: area over speed");
    sw_near(t, r->coat_s, 2 * r->coat_m2 / 0.006, 1e-9, "derived: area over speed, two coats");
}

static void oven_is_shared_and_fires_are_three(sw_test *t)
{
    scene *s = make_scene(t);
    const sw_coat_result *r = solved(t, s);
    if (r == NULL || !sw_true(t, r->cure_count == 4 && r->fire_count == 3)) return;
    sw_near(t, r->cure_s, 21 * 60 + 2700, 1e-6, "derived: 210 K at 10 K/min, then the hold");
    sw_near(t, r->cure_each_s, r->cure_s / 4, 1e-9, "derived: four stoves in the oven");
    for (size_t i = 1; i < 3; i++) sw_true(t, r->fires[i].temperature_k > r->fires[i - 1].temperature_k);
    sw_true(t, r->fires[2].temperature_k < s->works.coating.class_k);
    s->works.coating.cure_k = 0;
    if ((r = solved(t, s)) == NULL) return;
    sw_true(t, r->cure_count == 1 && r->cure_s == 0);
}

static void hot_parts_are_held_against_the_class(sw_test *t)
{
    scene *s = make_scene(t);
    const sw_coat_result *r = solved(t, s);
    if (r == NULL) return;
    const sw_finding *wall = finding_of(r, "rating", "wall"), *shell = finding_of(r, "rating", "shell");
    sw_true(t, wall != NULL && wall->verdict == SW_HOLDS && shell != NULL && shell->verdict == SW_UNKNOWN);
    sw_near(t, r->ratings[0].margin_k, 273.15, 1e-9, "derived: 873.15 - 600");
    sw_true(t, finding_of(r, "rating", "baffle") == NULL && !r->ratings[2].coated); /* bare: nothing to burn */
    s->parts[1] = (sw_coat_part){"liner", "oven", 1000};
    s->parts[0].temperature_k = 900;
    if ((r = solved(t, s)) == NULL) return;
    sw_true(t, finding_of(r, "rating", "liner") == NULL && !r->ratings[1].coated);
    wall = finding_of(r, "rating", "wall");
    sw_true(t, wall != NULL && wall->verdict == SW_FAILS && wall->remedy[0] != '\0');
}

static void thin_sheet_deep_profile_and_large_batches_are_told(sw_test *t)
{
    scene *s = make_scene(t);
    s->opt.rz_um = 60;
    s->opt.stoves = 40;
    const sw_coat_result *r = solved(t, s);
    if (r == NULL) return;
    const sw_finding *thin = finding_of(r, "thin_sheet", "shell"),
                     *profile = finding_of(r, "profile", "blasted surface");
    const sw_finding *within = finding_of(r, "coat_within", "batch");
    sw_true(t, thin != NULL && thin->verdict == SW_FAILS && r->lines[1].thin && !r->lines[0].thin);
    sw_true(t, profile != NULL && profile->verdict == SW_FAILS);
    sw_true(t, within != NULL && within->verdict == SW_FAILS);
}

static void works_without_tables_leaves_figures_unknown(sw_test *t)
{
    scene *s = make_scene(t);
    s->in.works = NULL;
    const sw_coat_result *r = solved(t, s);
    if (r == NULL) return;
    sw_true(t, isnan(r->blast_s) && isnan(r->litres) && r->coat_count == 0 && r->blast_m2 > 0);
    const sw_finding *blast = finding_of(r, "blast_table", "works"), *coat = finding_of(r, "coat_table", "works");
    sw_true(t, blast != NULL && blast->verdict == SW_UNKNOWN && coat != NULL && coat->verdict == SW_UNKNOWN);
}

static void all_wrong_figures_are_told_at_once(sw_test *t)
{
    scene *s = make_scene(t);
    const sw_coat_result *r = NULL;
    s->works.blasting.m2_s = -1;
    s->works.coating.solids = 1.4;
    s->works.coating.transfer = NAN;
    s->sheets[3].area_mm2 = -5;
    sw_true(t, sw_coat_solve(&t->run, &s->in, &s->opt, &r) == SW_OUT_OF_RANGE && r == NULL);
    sw_true(t, t->run.error_count == 4);
    sw_same_text(t, t->run.errors[0].field, "baffle");
}

static void every_failed_request_for_memory_is_reported(sw_test *t)
{
    scene *s = make_scene(t);
    for (int arena = 0; arena < 2; arena++)
        for (size_t nth = 1; nth < 500; nth++) {
            const sw_coat_result *r = NULL;
            sw_arena *from = arena == 0 ? t->run.keep : t->run.scratch;
            sw_run_clear_errors(&t->run);
            sw_arena_fail_at(from, nth);
            sw_status status = sw_coat_solve(&t->run, &s->in, &s->opt, &r);
            sw_arena_fail_at(from, 0);
            if (status == SW_OK) break;
            if (!sw_true(t, status == SW_NO_MEMORY && r == NULL)) return;
        }
}

SW_TESTS(SW_CASE(coverage_and_wet_film_are_the_handbooks), SW_CASE(paint_balances_between_pot_film_and_loss),
         SW_CASE(explosive_limit_of_xylene_is_some_44_grams), SW_CASE(nozzles_of_the_chart_blast_so_much),
         SW_CASE(roles_say_which_sides_are_coated), SW_CASE(masks_name_lands_threads_and_the_earth_point),
         SW_CASE(paint_solvent_and_air_close_their_balances), SW_CASE(oven_is_shared_and_fires_are_three),
         SW_CASE(hot_parts_are_held_against_the_class), SW_CASE(thin_sheet_deep_profile_and_large_batches_are_told),
         SW_CASE(works_without_tables_leaves_figures_unknown), SW_CASE(all_wrong_figures_are_told_at_once),
         SW_CASE(every_failed_request_for_memory_is_reported))
